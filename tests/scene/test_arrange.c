/* The small picture of a lay, read from the draw list of a frame whose pixels are one millimetre. All lengths are
 * worked out by hand. */
#include "scene/arrange.h"
#include "scene/names.h"
#include "scene/reading.h"

#include <math.h>

#define NEAR_PX 1e-6

static struct scene_view view_of(const struct here *h, const struct geometry_map *map)
{
    return (struct scene_view){
        .map = map, .font = h->font, .look = { 1, SCENE_CUT_WIDTH_MM, &scene_chalks[0] }, .strip_left = "Enter"
    };
}

static struct cloth_path rectangle(const struct here *h, double x, double y, double width, double height)
{
    vec2 corners[] = { { x, y }, { x + width, y }, { x + width, y + height }, { x, y + height } };
    struct geometry_path path = { corners, 4, true };
    return (struct cloth_path){ geometry_path_copy(h->a, path) };
}

/* Folded along the near edge, 700 mm as it lies. */
static const struct cloth_spread folded = {
    .width_mm = 700, .usable_mm = 1400, .layers_long = 1, .bands = { { 0, 700, 2, true, false } }, .band_count = 1
};

/* What is drawn as she sees it: across the page and up it. */
static struct paint_items seen(const struct here *h, const struct paint_scene *s, const struct scene_view *view)
{
    struct scene_page page = scene_page_of(view->map, view->side);
    struct paint_items in = s->px.in;
    in.paths = base_arena_alloc(h->a, in.path_count, sizeof *in.paths);
    for (size_t i = 0; i < in.path_count; i++) {
        in.paths[i] = geometry_path_copy(h->a, s->px.in.paths[i]);
        for (size_t p = 0; p < in.paths[i].count; p++) {
            vec2 v = in.paths[i].points[p];
            in.paths[i].points[p] = scene_page_at(&page, (struct px_pt){ v.x, v.y });
        }
    }
    return in;
}

/* The box of the nth closed stroke. */
static struct geometry_box closed_stroke(const struct paint_items *in, size_t nth)
{
    for (size_t i = 0; i < in->count; i++) {
        struct geometry_path path = in->paths[in->items[i].first_path];
        if (in->items[i].kind == PAINT_STROKE && path.closed && nth-- == 0)
            return geometry_path_box(path);
    }
    fail();
    return geometry_box_empty();
}

static const vec2 across = { 1, 0 };

/* Nothing of it is in table mm, so that no line on it can be cut along. A piece of 300 × 100 mm at (600, 350) of cloth
 * 700 mm wide lies half way up it, and another from its cut end to half way along; what is 300 mm is three times as
 * long as what is 100 mm. */
static void pieces_lie_where_they_lie_on_the_cloth(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map);
    struct scene_arrange_piece pieces[] = {
        { .outline = rectangle(h, 600, 350, 300, 100), .grain = { 1, 0 }, .name = "Pocket" },
        { .outline = rectangle(h, 0, 0, 600, 350), .grain = { 1, 0 }, .name = "Front" },
    };
    struct scene_arrange arrange = {
        .title = "Fabric", .spread = &folded, .needs_mm = 900, .pieces = pieces, .piece_count = 2, .unit = UNITS_CM
    };
    struct paint_scene s = scene_arrange(h->a, &view, &arrange);
    struct paint_items in = seen(h, &s, &view);
    struct geometry_box pocket = closed_stroke(&in, 0), front = closed_stroke(&in, 1);
    assert_int_equal(s.table.in.count, 0);
    assert_near(pocket.max.x - pocket.min.x, 3 * (pocket.max.y - pocket.min.y), NEAR_PX);
    assert_near(pocket.min.x, front.max.x, NEAR_PX);
    assert_near(pocket.min.y, front.max.y, NEAR_PX);
    assert_near((front.max.x - front.min.x) / (front.max.y - front.min.y), 600.0 / 350, NEAR_PX);
}

/* From whichever side she looks the pieces' names read her way, and the cut end is at her left: what lies nearer to it
 * is farther left, what lies nearer to the fold is nearer to her. */
static void it_turns_with_her(void **state)
{
    struct here *h = *state;
    for (int hung = 0; hung < HANGINGS; hung++)
        for (int side = 0; side < SCENE_SIDES; side++) {
            struct geometry_map map = map_of(&hangings[hung]);
            struct scene_view view = view_of(h, &map);
            view.side = (enum scene_side)side;
            struct scene_arrange_piece pieces[] = {
                { .outline = rectangle(h, 0, 0, 400, 300), .grain = { 1, 0 }, .name = "Aa" },
                { .outline = rectangle(h, 500, 350, 400, 300), .grain = { 1, 0 }, .name = "Bb" },
            };
            struct scene_arrange arrange = {
                .title = "T", .spread = &folded, .needs_mm = 900, .pieces = pieces, .piece_count = 2
            };
            struct paint_scene s = scene_arrange(h->a, &view, &arrange);
            struct paint_items in = seen(h, &s, &view);
            struct found_words a = find_words(h, &in, "AA", NAME_MM, across);
            struct found_words b = find_words(h, &in, "BB", NAME_MM, across);
            assert_int_equal(a.count, 1);
            assert_int_equal(b.count, 1);
            assert_true(a.middle.x < b.middle.x && a.middle.y < b.middle.y);
        }
}

/* What she has in hand is brighter and thicker, and its name stands unlit on a lit band. */
static void the_piece_in_hand_stands_out(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map);
    struct scene_arrange_piece pieces[] = {
        { .outline = rectangle(h, 0, 0, 400, 300), .grain = { 1, 0 }, .name = "Aa", .in_hand = true },
        { .outline = rectangle(h, 500, 350, 400, 300), .grain = { 1, 0 }, .name = "Bb" },
    };
    struct scene_arrange arrange = {
        .title = "T", .spread = &folded, .needs_mm = 900, .pieces = pieces, .piece_count = 2
    };
    struct paint_scene s = scene_arrange(h->a, &view, &arrange);
    struct paint_items in = seen(h, &s, &view);
    struct found_words in_hand = find_words(h, &in, "AA", NAME_MM, across);
    assert_int_equal(in_hand.count, 1);
    assert_near(in_hand.level, 0, 0);
    assert_near(find_words(h, &in, "BB", NAME_MM, across).level, 1, 0);
    const struct paint_item *band = &in.items[in_hand.item - 1]; /* drawn before its letters, wholly lit */
    struct geometry_box box = geometry_path_box(in.paths[band->first_path]);
    assert_true(band->kind == PAINT_FILL && band->ink.level == 1);
    assert_true(box.min.x < in_hand.middle.x && box.max.x > in_hand.middle.x && box.min.y < in_hand.middle.y &&
                box.max.y > in_hand.middle.y);
}

/* 400 × 300 mm at (0, 0) and at (360, 240) share 40 × 60 mm: every hatching stroke lies within that, in both
 * directions. */
static void an_overlap_is_hatched_both_ways(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map);
    struct scene_arrange_piece pieces[] = {
        { .outline = rectangle(h, 0, 0, 400, 300), .grain = { 1, 0 }, .name = "Aa" },
        { .outline = rectangle(h, 360, 240, 400, 300), .grain = { 1, 0 }, .name = "Bb" },
    };
    struct scene_arrange_overlap overlap = { { pieces[0].outline, pieces[1].outline }, "over by 40 mm" };
    struct scene_arrange arrange = { .title = "T",
                                     .spread = &folded,
                                     .needs_mm = 760,
                                     .pieces = pieces,
                                     .piece_count = 2,
                                     .overlaps = &overlap,
                                     .overlap_count = 1,
                                     .near_edge = "Fold",
                                     .far_edge = "Selvedge" };
    struct paint_scene s = scene_arrange(h->a, &view, &arrange);
    struct paint_items in = seen(h, &s, &view);
    struct geometry_box a = closed_stroke(&in, 0), b = closed_stroke(&in, 1);
    size_t rising = 0, falling = 0;
    for (size_t i = 0; i < in.count; i++) {
        struct geometry_path path = in.paths[in.items[i].first_path];
        if (in.items[i].kind != PAINT_STROKE || path.count != 2)
            continue;
        vec2 run = vec2_sub(path.points[1], path.points[0]);
        if (fabs(fabs(run.x) - fabs(run.y)) > NEAR_PX)
            continue;
        struct geometry_box box = geometry_path_box(path);
        rising += run.x * run.y > 0;
        falling += run.x * run.y < 0;
        assert_true(box.min.x >= b.min.x - NEAR_PX && box.max.x <= a.max.x + NEAR_PX);
        assert_true(box.min.y >= b.min.y - NEAR_PX && box.max.y <= a.max.y + NEAR_PX);
    }
    assert_true(rising >= 3 && falling >= 3);
    assert_int_equal(find_words(h, &in, "OVER BY 40 MM", CAP_MM, across).count, 1);
}

/* A piece bent like an L, whose centre of area lies in its arm's corner: the name stands within it all the same. */
static void a_name_stands_within_its_piece(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map);
    vec2 bent[] = { { 0, 0 }, { 900, 0 }, { 900, 120 }, { 120, 120 }, { 120, 600 }, { 0, 600 } };
    struct geometry_path path = { bent, 6, true };
    struct scene_arrange_piece piece = { .outline = { path }, .grain = { 1, 0 }, .name = "Bent facing" };
    struct scene_arrange arrange = {
        .title = "T", .spread = &folded, .needs_mm = 900, .pieces = &piece, .piece_count = 1
    };
    struct paint_scene s = scene_arrange(h->a, &view, &arrange);
    struct paint_items in = seen(h, &s, &view);
    struct found_words words = find_words(h, &in, "BENT FACING", NAME_MM, across);
    assert_int_equal(words.count, 1);
    struct geometry_box name = box_seen(&in, &words, across, (vec2){ 0, 1 });
    struct geometry_box arm = closed_stroke(&in, 0);
    double up = arm.min.y + (arm.max.y - arm.min.y) * 120 / 600;
    assert_true(name.min.y > arm.min.y && name.max.y < up && name.min.x > arm.min.x && name.max.x < arm.max.x);
}

/* A piece that is too narrow for letters of 12 mm: named beside it as large as on the table, not in smaller ones. */
static void a_narrow_piece_is_named_beside_it(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map);
    struct scene_arrange_piece piece = { .outline = rectangle(h, 200, 350, 30, 12), .grain = { 1, 0 }, .name = "Tab" };
    struct scene_arrange arrange = {
        .title = "T", .spread = &folded, .needs_mm = 900, .pieces = &piece, .piece_count = 1
    };
    struct paint_scene s = scene_arrange(h->a, &view, &arrange);
    struct paint_items in = seen(h, &s, &view);
    struct found_words words = find_words(h, &in, "TAB", NAME_MM, across);
    assert_int_equal(words.count, 1);
    struct geometry_box box = closed_stroke(&in, 0);
    assert_false(words.middle.x > box.min.x && words.middle.x < box.max.x && words.middle.y > box.min.y &&
                 words.middle.y < box.max.y);
}

/* Figures by the person's unit, as close as they stand apart in a light of 1 m: 1.9 m and 3 % more are drawn over
 * 960 mm, half as large, so that of 10, 20, 50 cm it is every 20 (98 mm), of 9, 18, 36 in every 9 (112 mm). Their
 * height is four fifths of other letters'. */
static void the_ruler_has_figures(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map);
    struct scene_arrange arrange = { .title = "T", .spread = &folded, .needs_mm = 1900, .needs = "1.90 m" };
    static const struct {
        enum units_length unit;
        const char *figures[4];
    } rows[] = { { UNITS_CM, { "0 CM", "20", "100", "180" } }, { UNITS_IN, { "0 IN", "9", "36", "72" } } };
    for (size_t i = 0; i < 2; i++) {
        arrange.unit = rows[i].unit;
        struct paint_scene s = scene_arrange(h->a, &view, &arrange);
        struct paint_items in = seen(h, &s, &view);
        double before = -1;
        for (size_t k = 0; k < 4; k++) {
            struct found_words figure = find_words(h, &in, rows[i].figures[k], 0.8 * CAP_MM, across);
            assert_int_equal(figure.count, 1);
            assert_true(figure.middle.x > before);
            before = figure.middle.x;
        }
        assert_int_equal(find_words(h, &in, "1.90 M", CAP_MM, across).count, 1);
    }
}

static void assert_same(const struct paint_items *got, const struct paint_items *want)
{
    assert_int_equal(got->count, want->count);
    assert_int_equal(got->path_count, want->path_count);
    for (size_t i = 0; i < want->path_count; i++) {
        assert_int_equal(got->paths[i].count, want->paths[i].count);
        for (size_t p = 0; p < want->paths[i].count; p++)
            assert_memory_equal(&got->paths[i].points[p], &want->paths[i].points[p], sizeof(vec2));
    }
}

/* A piece is pushed past others, taken, let go and held: with names kept from picture to picture each is the same as
 * when all names are placed anew. */
static void kept_names_stand_where_new_ones_would(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map);
    struct scene_arrange_piece pieces[] = {
        { .outline = rectangle(h, 0, 0, 600, 300), .grain = { 1, 0 }, .name = "Front" },
        { .outline = rectangle(h, 620, 20, 60, 40), .grain = { 1, 0 }, .name = "Tab, left" },
        { .outline = rectangle(h, 620, 80, 40, 400), .grain = { 0, 1 }, .name = "Strap" },
        { .outline = rectangle(h, 100, 320, 300, 200), .grain = { 1, 0 }, .name = "Pocket" },
    };
    struct scene_names *names = scene_names_create();
    struct scene_arrange arrange = {
        .title = "T", .spread = &folded, .needs_mm = 900, .pieces = pieces, .piece_count = 4, .unit = UNITS_CM
    };
    for (int step = 0; step < 24; step++) {
        pieces[3].outline = rectangle(h, 100 + 40 * (step / 3), 320, 300, 200);
        for (int i = 0; i < 4; i++) {
            pieces[i].in_hand = step % 5 == i;
            pieces[i].held = step % 7 == i;
        }
        arrange.names = names;
        struct paint_scene kept = scene_arrange(h->a, &view, &arrange);
        arrange.names = NULL;
        struct paint_scene anew = scene_arrange(h->a, &view, &arrange);
        assert_same(&kept.px.in, &anew.px.in);
    }
    scene_names_destroy(names);
}

static struct scene_name named(const char *text, double x)
{
    return (struct scene_name){ .found = true, .label = { .text = { text }, .count = 1, .middle = { x, 0 } } };
}

/* Two pictures long, with texts of its own; what one picture has no use for, the next does not know. */
static void names_are_kept_from_picture_to_picture(void **state)
{
    (void)state;
    struct scene_names *names = scene_names_create();
    char text[] = "Tab";
    struct scene_name tab = named(text, 1), strap = named("Strap", 2);
    scene_names_begin(names);
    assert_null(scene_names_find(names, 7));
    scene_names_keep(names, 7, &tab);
    scene_names_keep(names, 8, &strap);
    text[0] = 'X';
    for (int picture = 0; picture < 3; picture++) {
        scene_names_begin(names);
        const struct scene_name *found = scene_names_find(names, 7);
        assert_non_null(found);
        assert_string_equal(found->label.text[0], "Tab");
    }
    assert_null(scene_names_find(names, 8));
    assert_null(scene_names_find(NULL, 7));
    scene_names_destroy(names);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        scene_test(kept_names_stand_where_new_ones_would),  cmocka_unit_test(names_are_kept_from_picture_to_picture),
        scene_test(pieces_lie_where_they_lie_on_the_cloth), scene_test(it_turns_with_her),
        scene_test(the_piece_in_hand_stands_out),           scene_test(an_overlap_is_hatched_both_ways),
        scene_test(a_name_stands_within_its_piece),         scene_test(the_ruler_has_figures),
        scene_test(a_narrow_piece_is_named_beside_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
