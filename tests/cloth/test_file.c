/* The cloth as a file. */
#include "cloth/cloth.h"

#include "support/room.h"

#define OPENING "{ 'chalklight': 'cloth', 'version': 1, 'unit': 'cm', "

static bool read_text(struct room *room, const char *text, struct cloth *out)
{
    return cloth_read(room->a, room_put(room, "some.json", room_json(room, text)), out, room->errs);
}

static const char full_text[] =
    OPENING "'name': 'Checked flannel', 'kind': 'woven', 'width': 150, 'shrinkage': { 'along': 7, 'across': 5 },"
            "'washed_width': '55 in', 'selvedge': 1, 'length': '3 yd', 'one_way': true, 'sides_alike': true,"
            "'wrong_side_up': true, 'repeat': { 'along': 12, 'across': 8, 'line_along': 3, 'line_across': 4, 'uneven': "
            "true }, 'thickness': '0.6 mm', 'colour': '#1B2730', 'spread': 'folded to a depth', 'fold_depth': 30,"
            "'gap': '2 mm', 'grain_tolerance': 1.5, 'trim': 1, 'fuse_block': 90,"
            "'faults': [ [ [10, 10], [10, 12], [12, 12], [12, 10] ] ] }";

static void a_cloth_file_becomes_millimetres(void **state)
{
    struct room *room = *state;
    struct cloth c;
    assert_true(read_text(room, full_text, &c));
    room_nothing_told(room);
    assert_string_equal(c.name, "Checked flannel");
    assert_near(c.width_mm, 1500, 1e-9);
    assert_near(c.shrink_warp, 0.07, 1e-15);
    assert_near(c.shrink_weft, 0.05, 1e-15);
    assert_near(c.washed_width_mm, 1397, 1e-9);
    assert_near(c.length_mm, 2743.2, 1e-9); /* 3 x 36 x 25.4 */
    assert_near(c.repeat.line_across_mm, 40, 1e-9);
    assert_true(c.repeat.uneven && c.one_way && c.sides_alike && c.wrong_side_up && !c.is_washed);
    assert_int_equal(c.spread, CLOTH_FOLDED_TO);
    assert_near(c.block_mm, 900, 1e-9);
    assert_near(c.fold_depth_mm, 300, 1e-9);
    assert_near(c.grain_tolerance_deg, 1.5, 0);
    assert_int_equal(c.fault_count, 1);
    assert_near(geometry_path_area(c.faults[0].path), 400, 1e-9); /* written clockwise: turned round */
}

static void what_is_left_out_is_the_usual(void **state)
{
    struct room *room = *state;
    struct cloth c, plain = cloth_plain(1400);
    assert_true(read_text(room, OPENING "'width': 140 }", &c));
    assert_near(c.selvedge_mm, plain.selvedge_mm, 0);
    assert_int_equal(c.kind, CLOTH_WOVEN);
    assert_int_equal(c.spread, CLOTH_SINGLE);
    assert_near(c.length_mm, 0, 0);
    assert_true(read_text(room, OPENING "'kind': 'hide', 'outline': [[0, 0], [90, 0], [80, 70]] }", &c));
    assert_near(c.selvedge_mm, 0, 0);
    assert_near(cloth_usable_width(&c), 700, 1e-9);
}

static void a_cloth_comes_back_as_it_was_written(void **state)
{
    struct room *room = *state;
    struct cloth c, back;
    assert_true(read_text(room, full_text, &c));
    struct json_out *top = json_out_create();
    cloth_write(top, &c);
    const char *text = json_out_print(room->a, top);
    json_out_destroy(top);
    const struct json_node *node = json_parse(room->a, "again", text, strlen(text), room->errs);
    assert_non_null(node);
    assert_true(cloth_from(room->a, node, UNITS_IN, &back, room->errs)); /* it names its own unit */
    room_nothing_told(room);
    assert_memory_equal(back.faults[0].path.points, c.faults[0].path.points, 4 * sizeof(vec2));
    assert_string_equal(back.name, c.name);
    assert_string_equal(back.colour, c.colour);
    back.name = c.name;
    back.colour = c.colour;
    back.faults = c.faults;
    assert_int_equal(back.unit, UNITS_CM);
    assert_near(back.shrink_warp, c.shrink_warp, 0);
    assert_near(back.repeat.along_mm, c.repeat.along_mm, 0);
    struct json_out *again = json_out_create();
    cloth_write(again, &back);
    assert_string_equal(json_out_print(room->a, again), text);
    json_out_destroy(again);
}

/* Interfacing is fused (common practice, no source) unless somebody said that it is sewn in. */
static void interfacing_whose_kind_is_not_told_is_fusible(void **state)
{
    struct room *room = *state;
    struct cloth c;
    assert_true(read_text(room, OPENING "'width': 90 }", &c));
    assert_int_equal(c.kind, CLOTH_WOVEN);
    cloth_make_interfacing(&c);
    assert_int_equal(c.kind, CLOTH_FUSIBLE);
    assert_near(cloth_usable_width(&c), 900, 1e-9); /* a block as wide as that fits on it */
    c = cloth_plain(900);
    cloth_make_interfacing(&c);
    assert_near(cloth_usable_width(&c), 900, 1e-9);
    assert_true(read_text(room, OPENING "'width': 90, 'kind': 'fusible' }", &c));
    assert_near(cloth_usable_width(&c), 900, 1e-9);
    assert_true(read_text(room, OPENING "'width': 90, 'selvedge': 1 }", &c)); /* said is said */
    cloth_make_interfacing(&c);
    assert_near(cloth_usable_width(&c), 880, 1e-9);
    assert_true(read_text(room, OPENING "'width': 90, 'kind': 'woven' }", &c));
    cloth_make_interfacing(&c);
    assert_int_equal(c.kind, CLOTH_WOVEN);
    assert_near(cloth_usable_width(&c), 875, 1e-9);
}

static void each_fault_of_a_cloth_is_told_at_its_place(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *text, *code, *path;
    } rows[] = {
        { OPENING "'width': 0 }", "values.out_of_bounds", "width" },
        { OPENING "'kind': 'woven' }", "json.missing", "" },
        { OPENING "'width': 140, 'shrinkage': { 'along': 100 } }", "cloth.no_percent", "shrinkage.along" },
        { OPENING "'width': 140, 'shrinkage': { 'across': -1 } }", "cloth.no_percent", "shrinkage.across" },
        { OPENING "'width': 140, 'kind': 'velvet' }", "cloth.no_word", "kind" },
        { OPENING "'width': 140, 'spread': 'double' }", "cloth.no_word", "spread" },
        { OPENING "'width': 140, 'colour': 'blue' }", "cloth.no_colour", "colour" },
        { OPENING "'width': 140, 'grain_tolerance': 90 }", "cloth.no_tolerance", "grain_tolerance" },
        { OPENING "'width': 140, 'one_way': 'yes' }", "json.wrong_type", "one_way" },
        { OPENING "'width': 140, 'widht': 1 }", "json.unknown_name", "" },
        { OPENING "'width': 140, 'length': 0 }", "values.out_of_bounds", "length" },
        { OPENING "'width': 140, 'gap': 20 }", "values.out_of_bounds", "gap" },
        { OPENING "'outline': [[0, 0], [10, 10], [10, 0], [0, 10]] }", "cloth.crosses_itself", "outline" },
        { OPENING "'outline': [[0, 0], [10, 10]] }", "cloth.no_outline", "outline" },
        { OPENING "'outline': [[0, 0], [10, 10], 5] }", "cloth.no_place", "outline[2]" },
        { OPENING "'width': 140, 'faults': [[[0, 0], [5, 0], [10, 0]]] }", "cloth.crosses_itself", "faults[0]" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct cloth c;
        assert_false(read_text(room, rows[i].text, &c));
        const struct err *told = room_only_told(room, rows[i].code);
        if (*rows[i].path)
            assert_string_equal(told->place.path, rows[i].path);
        room_forget(room);
    }
}

/* Slips that leave a cloth to lay on are told at their place, and the rest is read. */
static void what_is_not_looked_at_is_told(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *text, *code, *path;
    } rows[] = {
        { OPENING "'width': 140, 'washed_width': 200 }", "cloth.grown", "washed_width" },
        { OPENING "'width': 140, 'spread': 'folded', 'fold_depth': 30 }", "cloth.not_looked_at", "fold_depth" },
        { OPENING "'width': 90, 'outline': [[0, 0], [90, 0], [80, 70]] }", "cloth.not_looked_at", "width" },
        { OPENING "'length': 90, 'outline': [[0, 0], [90, 0], [80, 70]] }", "cloth.not_looked_at", "length" },
        { OPENING "'width': 150, 'washed': true, 'washed_width': 140 }", "cloth.not_looked_at", "washed_width" },
        { OPENING "'width': 150, 'washed': true, 'shrinkage': { 'along': 5 } }", "cloth.not_looked_at", "shrinkage" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct cloth c;
        assert_true(read_text(room, rows[i].text, &c));
        assert_string_equal(room_only_told(room, rows[i].code)->place.path, rows[i].path);
        room_forget(room);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_cloth_file_becomes_millimetres),           room_test(what_is_left_out_is_the_usual),
        room_test(a_cloth_comes_back_as_it_was_written),       room_test(interfacing_whose_kind_is_not_told_is_fusible),
        room_test(each_fault_of_a_cloth_is_told_at_its_place), room_test(what_is_not_looked_at_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
