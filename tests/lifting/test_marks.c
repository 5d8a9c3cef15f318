#include "drawing/drawn.h"
#include "lifting/marks.h"
#include "support/room.h"

#include <string.h>

/* A piece drawn by hand with its marks; where they are is worked out by hand. The outline is a rectangle from (100,
 * 100) to (300, 500), in further sizes 5 mm larger all around; all marks on a layer of their own unless said. */

enum { SIZES_MOST = 3 };

struct piece {
    struct arena *a;
    struct collect *c;
    uint32_t common, of_size[SIZES_MOST];
    size_t sizes;
    const struct lifting_mark *marks;
    size_t count;
    vec2 grain;
    unsigned doubts;
    struct drawing d;
};

static struct piece begin(void **state, size_t sizes)
{
    static const char *const names[] = { "Size 34", "Size 36", "Size 38" };
    struct piece p = { .a = *state, .c = collect_create(-1), .sizes = sizes };
    p.common = collect_layer(p.c, SHEET_NONE, "All sizes", SHEET_LAYER_ON);
    for (size_t k = 0; k < sizes; k++)
        p.of_size[k] = collect_layer(p.c, SHEET_NONE, names[k], SHEET_LAYER_ON);
    collect_page(p.c, 600, 600, NULL);
    /* so that each size has a strand, though outlines are given below; too far away to be a mark */
    for (size_t k = 0; k < sizes; k++)
        drawn_line(p.c, p.of_size[k], (const double[]){ 580, 580, 590, 590 }, 2, false);
    return p;
}

static void line(struct piece *p, uint32_t layer, double x, double y, double x2, double y2)
{
    drawn_line(p->c, layer, (const double[]){ x, y, x2, y2 }, 2, false);
}

static void filled(struct piece *p, uint32_t layer, const double *xy, size_t count)
{
    static const struct collect_style black = { 0, 0, SHEET_FILLED, NULL, 0 };
    collect_begin(p->c, layer, &black);
    collect_move(p->c, xy[0], xy[1]);
    for (size_t i = 1; i < count; i++)
        collect_line(p->c, xy[2 * i], xy[2 * i + 1]);
    collect_close(p->c);
    collect_end(p->c);
}

static void circle(struct piece *p, uint32_t layer, double x, double y, double r)
{
    static const struct collect_style fine = { 0.3, 0, SHEET_STROKED, NULL, 0 };
    double k = 0.5523 * r;
    collect_begin(p->c, layer, &fine);
    collect_move(p->c, x + r, y);
    collect_cubic(p->c, x + r, y + k, x + k, y + r, x, y + r);
    collect_cubic(p->c, x - k, y + r, x - r, y + k, x - r, y);
    collect_cubic(p->c, x - r, y - k, x - k, y - r, x, y - r);
    collect_cubic(p->c, x + k, y - r, x + r, y - k, x + r, y);
    collect_close(p->c);
    collect_end(p->c);
}

static void upright_words(struct piece *p, double x, double y, const char *words)
{
    static const struct collect_style black = { 0, 0, SHEET_FILLED | SHEET_TEXT, NULL, 0 };
    collect_begin_run(p->c, p->common, &black, words, strlen(words), &(struct sheet_run){ x, y, 0, 1, 4 });
    collect_end(p->c);
}

static struct lifting_outline rectangle(struct arena *a, double more)
{
    const vec2 corners[] = {
        { 100 - more, 100 - more }, { 300 + more, 100 - more }, { 300 + more, 500 + more }, { 100 - more, 500 + more }
    };
    struct geometry_path path = { (vec2 *)corners, 4, true };
    return (struct lifting_outline){ true, { geometry_path_copy(a, path) }, 0 };
}

static void find(struct piece *p, struct lifting_words words)
{
    struct lifting_division v;
    struct lifting_outline outlines[SIZES_MOST];
    p->d = drawn_drawing(p->a, p->c);
    lifting_divide(p->a, &p->d, NULL, 0, &v);
    assert_int_equal(v.size_count, p->sizes);
    size_t *lines = base_arena_alloc(p->a, p->d.line_count, sizeof *lines);
    size_t *texts = base_arena_alloc(p->a, p->d.text_count, sizeof *texts);
    struct lifting_shape shape = { .cup_group = LIFTING_NONE, .outlines = outlines, .lines = lines, .texts = texts };
    for (size_t k = 0; k < p->sizes; k++)
        outlines[k] = rectangle(p->a, 5 * (double)k);
    for (size_t i = p->sizes; i < p->d.line_count; i++)
        lines[shape.line_count++] = i;
    for (size_t i = 0; i < p->d.text_count; i++)
        texts[shape.text_count++] = i;
    p->count = lifting_find_marks(p->a, &p->d, &v, &shape, &words, &p->marks, &p->grain, &p->doubts);
}

static size_t count_of(const struct piece *p, enum lifting_mark_kind kind)
{
    size_t count = 0;
    for (size_t i = 0; i < p->count; i++)
        count += p->marks[i].kind == kind;
    return count;
}

/* The only mark of its kind and size. */
static const struct lifting_mark *the(const struct piece *p, enum lifting_mark_kind kind, int size)
{
    const struct lifting_mark *found = NULL;
    for (size_t i = 0; i < p->count; i++) {
        if (p->marks[i].kind != kind || p->marks[i].size != size)
            continue;
        assert_null(found);
        found = &p->marks[i];
    }
    assert_non_null(found);
    return found;
}

static void assert_at(const struct lifting_mark *mark, size_t k, double x, double y)
{
    assert_true(k < mark->path.path.count);
    assert_near(mark->path.path.points[k].x, x, 0.01);
    assert_near(mark->path.path.points[k].y, y, 0.01);
}

static void an_arrow_with_filled_heads_is_the_grain(void **state)
{
    struct piece p = begin(state, 1);
    line(&p, p.common, 200, 150, 200, 400);
    filled(&p, p.common, (const double[]){ 200, 400, 198, 394, 202, 394 }, 3);
    filled(&p, p.common, (const double[]){ 200, 150, 198, 156, 202, 156 }, 3);
    line(&p, p.common, 120, 300, 280, 300);
    find(&p, (struct lifting_words){ 0 });
    const struct lifting_mark *grain = the(&p, LIFTING_GRAIN, LIFTING_NONE);
    assert_at(grain, 0, 200, 150);
    assert_at(grain, 1, 200, 400);
    assert_near(p.grain.y, 1, 1e-12);
    assert_int_equal(p.doubts, 0);
    assert_int_equal(count_of(&p, LIFTING_INNER), 1);
    assert_int_equal(p.count, 2);
}

/* One head, of two strokes, at the lower end: the grain runs down. */
static void a_head_of_two_strokes_shows_the_way(void **state)
{
    struct piece p = begin(state, 1);
    line(&p, p.common, 200, 400, 200, 150);
    line(&p, p.common, 200, 150, 197, 157);
    line(&p, p.common, 200, 150, 203, 157);
    find(&p, (struct lifting_words){ 0 });
    assert_near(p.grain.y, -1, 1e-12);
    assert_int_equal(p.doubts, 0);
    assert_int_equal(p.count, 1);
}

static void an_arrow_in_one_line_is_the_grain(void **state)
{
    struct piece p = begin(state, 1);
    drawn_line(p.c, p.common, (const double[]){ 147, 205, 140, 200, 147, 195, 140, 200, 260, 200 }, 5, false);
    find(&p, (struct lifting_words){ 0 });
    assert_near(p.grain.x, -1, 1e-12);
    assert_int_equal(p.doubts, 0);
    assert_int_equal(p.count, 1);
}

static void words_tell_the_grain_among_lines(void **state)
{
    struct piece p = begin(state, 1);
    line(&p, p.common, 150, 150, 150, 450);
    line(&p, p.common, 250, 200, 250, 350);
    upright_words(&p, 249, 250, "Fadenlauf");
    find(&p, (struct lifting_words){ 0 });
    assert_at(the(&p, LIFTING_GRAIN, LIFTING_NONE), 0, 250, 200);
    assert_int_equal(p.doubts, 0);
}

static void a_bare_line_near_the_middle_is_doubted(void **state)
{
    struct piece p = begin(state, 1);
    line(&p, p.common, 205, 150, 205, 450);
    find(&p, (struct lifting_words){ 0 });
    assert_false(the(&p, LIFTING_GRAIN, LIFTING_NONE)->sure);
    assert_int_equal(p.doubts, LIFTING_DOUBT_GRAIN);
}

static void without_any_line_the_grain_is_up_and_doubted(void **state)
{
    struct piece p = begin(state, 1);
    find(&p, (struct lifting_words){ 0 });
    assert_near(p.grain.y, 1, 1e-12);
    assert_int_equal(p.doubts, LIFTING_DOUBT_GRAIN);
    assert_int_equal(p.count, 0);
}

static void a_bracket_points_to_the_fold(void **state)
{
    struct piece p = begin(state, 2);
    drawn_line(p.c, p.common, (const double[]){ 101, 200, 110, 200, 110, 400, 101, 400 }, 4, false);
    filled(&p, p.common, (const double[]){ 100.5, 200, 103, 199, 103, 201 }, 3);
    filled(&p, p.common, (const double[]){ 100.5, 400, 103, 399, 103, 401 }, 3);
    find(&p, (struct lifting_words){ 0 });
    const struct lifting_mark *fold = the(&p, LIFTING_FOLD, 0);
    assert_at(fold, 0, 100, 500);
    assert_at(fold, 1, 100, 100);
    assert_true(fold->sure);
    assert_at(the(&p, LIFTING_FOLD, 1), 0, 95, 505);
    assert_near(p.grain.y, 1, 1e-12); /* cloth is folded along its grain */
    assert_int_equal(p.doubts, 0);
    assert_int_equal(p.count, 2);
}

static void a_bracket_of_three_lines_needs_a_word(void **state)
{
    for (int told = 0; told < 2; told++) {
        struct piece p = begin(state, 1);
        line(&p, p.common, 115, 200, 115, 400);
        line(&p, p.common, 115, 200, 102, 200);
        line(&p, p.common, 102, 400, 115, 400);
        find(&p, (struct lifting_words){ .on_fold = told });
        assert_int_equal(count_of(&p, LIFTING_FOLD), told);
        assert_int_equal(count_of(&p, LIFTING_INNER), told ? 0 : 3);
    }
}

static void words_beside_an_edge_put_it_on_the_fold(void **state)
{
    struct piece p = begin(state, 1);
    upright_words(&p, 294, 250, "Stoffbruch");
    line(&p, p.common, 200, 150, 200, 400);
    filled(&p, p.common, (const double[]){ 200, 400, 198, 394, 202, 394 }, 3);
    find(&p, (struct lifting_words){ .on_fold = true });
    assert_at(the(&p, LIFTING_FOLD, LIFTING_NONE), 0, 300, 100);
    assert_int_equal(p.doubts, 0);
}

/* Told in the piece's words alone: of the two long edges along the grain one, and doubted. */
static void a_fold_without_a_place_is_doubted(void **state)
{
    struct piece p = begin(state, 1);
    line(&p, p.common, 200, 150, 200, 400);
    filled(&p, p.common, (const double[]){ 200, 400, 198, 394, 202, 394 }, 3);
    drawn_words(p.c, p.common, 180, 300, 4, "cut 1 on fold");
    find(&p, (struct lifting_words){ .on_fold = true });
    const struct lifting_mark *fold = the(&p, LIFTING_FOLD, LIFTING_NONE);
    assert_false(fold->sure);
    assert_near(fold->path.path.points[0].x, fold->path.path.points[1].x, 1e-9);
    assert_int_equal(p.doubts, LIFTING_DOUBT_FOLD);
}

static void ticks_are_notches_where_they_meet_the_outline(void **state)
{
    struct piece p = begin(state, 2);
    line(&p, p.of_size[0], 100, 200, 105, 200); /* inwards from it */
    line(&p, p.of_size[1], 92, 210, 98, 210);   /* across it */
    line(&p, p.of_size[0], 150, 250, 155, 250); /* inside, at none */
    find(&p, (struct lifting_words){ 0 });
    assert_int_equal(count_of(&p, LIFTING_NOTCH), 2);
    assert_at(the(&p, LIFTING_NOTCH, 0), 0, 100, 200);
    assert_at(the(&p, LIFTING_NOTCH, 1), 0, 95, 210);
    assert_int_equal(count_of(&p, LIFTING_INNER), 1);
}

static void two_ticks_side_by_side_are_one_double_notch(void **state)
{
    struct piece p = begin(state, 1);
    line(&p, p.of_size[0], 197, 100, 197, 105);
    line(&p, p.of_size[0], 203, 105, 203, 100);
    line(&p, p.of_size[0], 203, 105, 203, 100); /* drawn twice */
    line(&p, p.of_size[0], 250, 100, 250, 105);
    find(&p, (struct lifting_words){ 0 });
    assert_int_equal(p.count, 2);
    for (size_t i = 0; i < 2; i++) {
        bool wide = p.marks[i].apart_mm > 0;
        assert_near(p.marks[i].apart_mm, wide ? 6 : 0, 1e-9);
        assert_at(&p.marks[i], 0, wide ? 200 : 250, 100);
    }
    assert_true((p.marks[0].apart_mm > 0) != (p.marks[1].apart_mm > 0));
}

static void vs_and_triangles_are_v_notches(void **state)
{
    struct piece p = begin(state, 2);
    drawn_line(p.c, p.of_size[0], (const double[]){ 148, 100, 150, 105, 152, 100 }, 3, false);
    filled(&p, p.of_size[0], (const double[]){ 300, 298, 300, 302, 305, 300 }, 3);
    drawn_line(p.c, p.of_size[1], (const double[]){ 247, 90, 250, 95, 253, 90 }, 3, false); /* its tip on the outline */
    find(&p, (struct lifting_words){ 0 });
    assert_int_equal(p.count, 3);
    for (size_t i = 0; i < 3; i++)
        assert_true(p.marks[i].is_v && p.marks[i].kind == LIFTING_NOTCH);
    assert_at(the(&p, LIFTING_NOTCH, 1), 0, 250, 95);
}

static void the_bar_of_a_t_belongs_to_its_notch(void **state)
{
    struct piece p = begin(state, 1);
    line(&p, p.of_size[0], 100, 300, 105, 300);
    line(&p, p.of_size[0], 105, 298, 105, 302);
    find(&p, (struct lifting_words){ 0 });
    assert_int_equal(p.count, 1);
    assert_at(the(&p, LIFTING_NOTCH, 0), 0, 100, 300);
}

static void a_line_through_all_sizes_is_a_notch_in_each(void **state)
{
    struct piece p = begin(state, 3);
    line(&p, p.common, 85, 300, 105, 300);
    find(&p, (struct lifting_words){ 0 });
    assert_int_equal(p.count, 3);
    for (int k = 0; k < 3; k++)
        assert_at(the(&p, LIFTING_NOTCH, k), 0, 100 - 5 * k, 300);
}

static void dots_circles_and_crosses_are_drill_marks(void **state)
{
    struct piece p = begin(state, 1);
    circle(&p, p.common, 150, 150, 1.5);
    line(&p, p.common, 147.5, 150, 152.5, 150);
    line(&p, p.common, 150, 147.5, 150, 152.5);
    line(&p, p.of_size[0], 198, 248, 202, 252);
    line(&p, p.of_size[0], 198, 252, 202, 248);
    circle(&p, p.common, 250, 250, 3);
    circle(&p, p.common, 200, 350, 30); /* too large */
    find(&p, (struct lifting_words){ 0 });
    assert_int_equal(count_of(&p, LIFTING_DRILL), 3);
    assert_at(the(&p, LIFTING_DRILL, 0), 0, 200, 250);
    assert_int_equal(count_of(&p, LIFTING_INNER), 1);
}

static void words_tell_where_to_lengthen(void **state)
{
    struct piece p = begin(state, 1);
    line(&p, p.common, 110, 300, 290, 300);
    line(&p, p.common, 290, 306, 110, 306);
    line(&p, p.common, 110, 200, 290, 200);
    drawn_words(p.c, p.common, 150, 301.5, 3, "hier verl\xc3\xa4ngern oder k\xc3\xbcrzen");
    find(&p, (struct lifting_words){ 0 });
    const struct lifting_mark *mark = the(&p, LIFTING_LENGTHEN, LIFTING_NONE);
    assert_near(mark->path.path.points[0].y, 303, 1e-9);
    assert_near(fabs(mark->path.path.points[1].x - mark->path.path.points[0].x), 180, 1e-9);
    assert_int_equal(count_of(&p, LIFTING_INNER), 1);
}

static void darts_are_found_in_one_line_and_in_two(void **state)
{
    struct piece p = begin(state, 1);
    drawn_line(p.c, p.of_size[0], (const double[]){ 140, 100, 150, 180, 160, 100 }, 3, false);
    line(&p, p.of_size[0], 300, 290, 220, 300);
    line(&p, p.of_size[0], 220, 300, 300, 310);
    line(&p, p.of_size[0], 220, 300, 300, 300); /* its middle */
    find(&p, (struct lifting_words){ 0 });
    assert_int_equal(count_of(&p, LIFTING_DART), 2);
    assert_int_equal(p.count, 2);
    assert_at(&p.marks[0], 0, 140, 100);
    assert_at(&p.marks[0], 1, 150, 180);
    assert_at(&p.marks[0], 2, 160, 100);
    assert_at(&p.marks[1], 1, 220, 300);
}

static void a_line_beside_the_outline_is_a_stitching_line(void **state)
{
    struct piece p = begin(state, 1);
    drawn_line(p.c, p.of_size[0], (const double[]){ 110, 110, 290, 110, 290, 490, 110, 490 }, 4, true);
    find(&p, (struct lifting_words){ 0 });
    assert_int_equal(p.count, 1);
    assert_true(the(&p, LIFTING_STITCH, 0)->path.path.closed);
}

/* Whatever is drawn in a piece, this ends. */
static void a_heap_of_lines_is_no_trouble(void **state)
{
    struct piece p = begin(state, 2);
    unsigned random = 1;
    for (int i = 0; i < 30000; i++) {
        double xy[8];
        for (int k = 0; k < 8; k++) {
            random = random * 1664525U + 1013904223U;
            xy[k] = i % 3 ? 100 + (double)(random >> 8) / (1 << 24) * 400 : 100 + (random >> 28);
        }
        drawn_line(p.c, i % 2 ? p.common : p.of_size[0], xy, 2 + (size_t)(i % 3), i % 5 == 0);
    }
    find(&p, (struct lifting_words){ .on_fold = true });
    assert_true(p.count > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(an_arrow_with_filled_heads_is_the_grain),
        room_arena_test(a_head_of_two_strokes_shows_the_way),
        room_arena_test(an_arrow_in_one_line_is_the_grain),
        room_arena_test(words_tell_the_grain_among_lines),
        room_arena_test(a_bare_line_near_the_middle_is_doubted),
        room_arena_test(without_any_line_the_grain_is_up_and_doubted),
        room_arena_test(a_bracket_points_to_the_fold),
        room_arena_test(a_bracket_of_three_lines_needs_a_word),
        room_arena_test(words_beside_an_edge_put_it_on_the_fold),
        room_arena_test(a_fold_without_a_place_is_doubted),
        room_arena_test(ticks_are_notches_where_they_meet_the_outline),
        room_arena_test(two_ticks_side_by_side_are_one_double_notch),
        room_arena_test(vs_and_triangles_are_v_notches),
        room_arena_test(the_bar_of_a_t_belongs_to_its_notch),
        room_arena_test(a_line_through_all_sizes_is_a_notch_in_each),
        room_arena_test(dots_circles_and_crosses_are_drill_marks),
        room_arena_test(words_tell_where_to_lengthen),
        room_arena_test(darts_are_found_in_one_line_and_in_two),
        room_arena_test(a_line_beside_the_outline_is_a_stitching_line),
        room_arena_test(a_heap_of_lines_is_no_trouble),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
