#include "lifting/mend.h"
#include "support/room.h"

#include <string.h>

/* Pieces drawn by hand; what they become is worked out by hand. */

static const char *const size_names[] = { "34", "36" };
static const struct lifting_division division = { .sizes = size_names, .size_count = 2 };

struct bench {
    struct arena *a;
    struct lifting_piece *pieces;
    size_t count;
    struct lifting l;
    struct err_list *errs;
};

static struct geometry_path path_of(struct arena *a, const double *xy, size_t count, bool closed)
{
    struct geometry_path path = { base_arena_alloc(a, count, sizeof(vec2)), count, closed };
    for (size_t i = 0; i < count; i++)
        path.points[i] = (vec2){ xy[2 * i], xy[2 * i + 1] };
    return path;
}

static struct geometry_path rectangle(struct arena *a, double x, double y, double w, double h)
{
    return path_of(a, (const double[]){ x, y, x + w, y, x + w, y + h, x, y + h }, 4, true);
}

/* A rectangle, in the second size 10 mm higher. */
static void add_rectangle(struct bench *b, const char *name, double x, double y, double w, double h)
{
    static struct lifting_piece room[8];
    struct lifting_outline *outlines = base_arena_alloc(b->a, 2, sizeof *outlines);
    for (int k = 0; k < 2; k++)
        outlines[k] = (struct lifting_outline){ true, { rectangle(b->a, x, y, w, h + 10 * k) }, 0 };
    b->pieces = room;
    b->pieces[b->count++] = (struct lifting_piece){ .words = { .name = name, .count = 2, .pairs = true },
                                                    .cup_group = LIFTING_NONE,
                                                    .outlines = outlines,
                                                    .grain = { 0, 1 } };
}

static void mend(struct bench *b, const struct lifting_mend *mends, size_t count)
{
    b->errs = base_err_list_create();
    b->l = (struct lifting){ .division = &division, .pieces = b->pieces, .piece_count = b->count };
    lifting_apply_mends(b->a, &b->l, mends, count, b->errs);
}

static void end(struct bench *b, const char *code)
{
    assert_int_equal(b->errs->count, code ? 1 : 0);
    if (code)
        assert_true(base_err_list_has(b->errs, code));
    base_err_list_destroy(b->errs);
}

static double area(const struct bench *b, size_t piece, size_t size)
{
    assert_true(b->l.pieces[piece].outlines[size].there);
    return geometry_path_area(b->l.pieces[piece].outlines[size].path.path);
}

static void joined_pieces_are_one_in_each_size(void **state)
{
    struct bench b = { .a = *state };
    add_rectangle(&b, "Left", 0, 0, 100, 200);
    add_rectangle(&b, "Other", 500, 0, 50, 50);
    add_rectangle(&b, "Right", 100.3, 0, 60, 200); /* a gap of 0.3 mm is closed */
    mend(&b, &(struct lifting_mend){ .kind = LIFTING_MEND_JOIN, .of = { 2, 0 } }, 1);
    assert_int_equal(b.l.piece_count, 2);
    assert_near(area(&b, 0, 0), 160.3 * 200, 61);
    assert_near(area(&b, 0, 1), 160.3 * 210, 64);
    assert_string_equal(b.l.pieces[0].words.name, "Right");
    assert_string_equal(b.l.pieces[1].words.name, "Other");
    end(&b, NULL);
}

static void pieces_apart_are_not_joined(void **state)
{
    struct bench b = { .a = *state };
    add_rectangle(&b, "Left", 0, 0, 100, 200);
    add_rectangle(&b, "Right", 101, 0, 60, 200);
    mend(&b, &(struct lifting_mend){ .kind = LIFTING_MEND_JOIN, .of = { 0, 1 } }, 1);
    assert_int_equal(b.l.piece_count, 2);
    assert_near(area(&b, 0, 0), 20000, 1e-9);
    end(&b, "lifting.not_joined");
}

static void a_parted_piece_is_two(void **state)
{
    struct bench b = { .a = *state };
    add_rectangle(&b, "Panel", 0, 0, 100, 200);
    struct lifting_mark marks[] = {
        { .kind = LIFTING_NOTCH, .size = 0, .path = { path_of(b.a, (const double[]){ 0, 150 }, 1, false) } },
        { .kind = LIFTING_DRILL, .size = LIFTING_NONE, .path = { path_of(b.a, (const double[]){ 50, 50 }, 1, false) } },
        { .kind = LIFTING_FOLD, .size = 0, .path = { path_of(b.a, (const double[]){ 0, 200, 0, 0 }, 2, false) } },
    };
    b.pieces[0].marks = marks;
    b.pieces[0].mark_count = 3;
    b.pieces[0].words.on_fold = true;
    mend(&b, &(struct lifting_mend){ .kind = LIFTING_MEND_PART, .at = { { -10, 80 }, { 110, 80 } } }, 1);
    assert_int_equal(b.l.piece_count, 2);
    assert_near(area(&b, 0, 0), 100 * 120, 1e-9); /* to the left: above */
    assert_near(area(&b, 0, 1), 100 * 130, 1e-9);
    assert_near(area(&b, 1, 0), 100 * 80, 1e-9);
    assert_near(area(&b, 1, 1), 100 * 80, 1e-9);
    assert_string_equal(b.l.pieces[0].words.name, "Panel");
    assert_string_equal(b.l.pieces[1].words.name, "Panel 2");
    const struct lifting_piece *above = &b.l.pieces[0], *below = &b.l.pieces[1];
    assert_int_equal(above->mark_count, 2);
    assert_int_equal(above->marks[0].kind, LIFTING_NOTCH);
    assert_near(above->marks[1].path.path.points[1].y, 80, 1e-9);
    assert_int_equal(below->mark_count, 2);
    assert_int_equal(below->marks[0].kind, LIFTING_DRILL);
    assert_near(below->marks[1].path.path.points[0].y, 80, 1e-9);
    assert_near(below->marks[1].path.path.points[1].y, 0, 1e-9);
    assert_true(above->words.on_fold && below->words.on_fold);
    end(&b, NULL);
}

static void a_line_beside_a_piece_does_not_part_it(void **state)
{
    struct bench b = { .a = *state };
    add_rectangle(&b, "Panel", 0, 0, 100, 200);
    mend(&b, &(struct lifting_mend){ .kind = LIFTING_MEND_PART, .at = { { -10, 280 }, { 110, 280 } } }, 1);
    assert_int_equal(b.l.piece_count, 1);
    end(&b, "lifting.not_parted");
}

/* A triangle with its right angle at the left has it at the right, still counter-clockwise. */
static void a_mirrored_piece_lies_the_other_way_round(void **state)
{
    struct bench b = { .a = *state };
    add_rectangle(&b, "Sleeve", 0, 0, 100, 200);
    struct lifting_outline outlines[2] = {
        { true, { path_of(b.a, (const double[]){ 0, 0, 100, 0, 0, 50 }, 3, true) }, 0 },
        { false, { { NULL, 0, true } }, 0 }
    };
    struct lifting_mark mark = { .kind = LIFTING_NOTCH, .path = { path_of(b.a, (const double[]){ 30, 0 }, 1, false) } };
    b.pieces[0].outlines = outlines;
    b.pieces[0].marks = &mark;
    b.pieces[0].mark_count = 1;
    b.pieces[0].grain = (vec2){ 0.6, 0.8 };
    mend(&b, &(struct lifting_mend){ .kind = LIFTING_MEND_MIRROR }, 1);
    const struct lifting_piece *piece = &b.l.pieces[0];
    assert_near(area(&b, 0, 0), 2500, 1e-9);
    assert_true(geometry_path_holds(piece->outlines[0].path.path, (vec2){ 99, 40 }));
    assert_false(geometry_path_holds(piece->outlines[0].path.path, (vec2){ 1, 40 }));
    assert_near(piece->marks[0].path.path.points[0].x, 70, 1e-12);
    assert_near(piece->grain.x, -0.6, 1e-12);
    end(&b, NULL);
}

static void names_counts_and_grain_are_set(void **state)
{
    struct bench b = { .a = *state };
    add_rectangle(&b, NULL, 0, 0, 100, 200);
    b.pieces[0].words.counts[LIFTING_LINING] = 1;
    b.pieces[0].doubts = LIFTING_DOUBT_NAME | LIFTING_DOUBT_COUNT | LIFTING_DOUBT_GRAIN | LIFTING_DOUBT_GAP;
    const struct lifting_mend mends[] = { { .kind = LIFTING_MEND_RENAME, .text = "Cuff" },
                                          { .kind = LIFTING_MEND_COUNT, .number = 4 },
                                          { .kind = LIFTING_MEND_GRAIN, .at = { { 10, 10 }, { 40, 50 } } } };
    mend(&b, mends, 3);
    const struct lifting_piece *piece = &b.l.pieces[0];
    assert_string_equal(piece->words.name, "Cuff");
    assert_int_equal(piece->words.count, 4);
    assert_false(piece->words.pairs);
    assert_int_equal(piece->words.counts[LIFTING_LINING], 0);
    assert_near(piece->grain.x, 0.6, 1e-12);
    assert_int_equal(piece->doubts, LIFTING_DOUBT_GAP);
    assert_int_equal(piece->mark_count, 1);
    end(&b, NULL);
}

static void the_edge_near_two_points_lies_on_the_fold(void **state)
{
    struct bench b = { .a = *state };
    add_rectangle(&b, "Back", 0, 0, 100, 200);
    b.pieces[0].doubts = LIFTING_DOUBT_FOLD;
    mend(&b, &(struct lifting_mend){ .kind = LIFTING_MEND_FOLD, .at = { { 96, 20 }, { 103, 190 } }, .number = 1 }, 1);
    const struct lifting_piece *piece = &b.l.pieces[0];
    assert_int_equal(piece->mark_count, 2);
    for (size_t k = 0; k < 2; k++) {
        assert_int_equal(piece->marks[k].size, k);
        assert_near(piece->marks[k].path.path.points[0].x, 100, 1e-9);
        assert_near(piece->marks[k].path.path.points[1].y, 200 + 10 * (double)k, 1e-9);
    }
    assert_true(piece->words.on_fold);
    assert_int_equal(piece->doubts, 0);
    base_err_list_destroy(b.errs);
    b.pieces = (struct lifting_piece *)b.l.pieces;
    mend(&b, &(struct lifting_mend){ .kind = LIFTING_MEND_FOLD }, 1);
    assert_int_equal(b.l.pieces[0].mark_count, 0);
    assert_false(b.l.pieces[0].words.on_fold);
    end(&b, NULL);
}

static void mends_follow_each_other(void **state)
{
    struct bench b = { .a = *state };
    add_rectangle(&b, "Scrap", 300, 300, 20, 20);
    add_rectangle(&b, "Panel", 0, 0, 100, 200);
    const struct lifting_mend mends[] = { { .kind = LIFTING_MEND_DROP },
                                          { .kind = LIFTING_MEND_PART, .at = { { -10, 80 }, { 110, 80 } } },
                                          { .kind = LIFTING_MEND_RENAME, .of = { 1 }, .text = "Lower" },
                                          { .kind = LIFTING_MEND_RENAME, .of = { 2 }, .text = "None" } };
    mend(&b, mends, 4);
    assert_int_equal(b.l.piece_count, 2);
    assert_string_equal(b.l.pieces[0].words.name, "Panel");
    assert_string_equal(b.l.pieces[1].words.name, "Lower");
    end(&b, "lifting.no_piece");
}

static void a_grain_without_direction_is_told(void **state)
{
    struct bench b = { .a = *state };
    add_rectangle(&b, "Panel", 0, 0, 100, 200);
    mend(&b, &(struct lifting_mend){ .kind = LIFTING_MEND_GRAIN, .at = { { 5, 5 }, { 5, 5 } } }, 1);
    assert_near(b.l.pieces[0].grain.y, 1, 1e-12);
    end(&b, "lifting.no_line");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(joined_pieces_are_one_in_each_size),
        room_arena_test(pieces_apart_are_not_joined),
        room_arena_test(a_parted_piece_is_two),
        room_arena_test(a_line_beside_a_piece_does_not_part_it),
        room_arena_test(a_mirrored_piece_lies_the_other_way_round),
        room_arena_test(names_counts_and_grain_are_set),
        room_arena_test(the_edge_near_two_points_lies_on_the_fold),
        room_arena_test(mends_follow_each_other),
        room_arena_test(a_grain_without_direction_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
