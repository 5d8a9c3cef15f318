#include "pattern/read.h"
#include "support/room.h"

static const struct pattern *of_sizes(struct room *room, const char *sizes, const char *row)
{
    const char *json = room_json(
        room, base_arena_print(room->a,
                               "{ 'chalklight': 'pattern', 'version': 1, 'name': 'N', 'unit': 'cm', 'sizes': [%s],"
                               "  'chart': { 'hip': [%s] }, 'main_measurement': 'hip',"
                               "  'pieces': [ { 'name': 'p', 'rectangle': { 'width': 1, 'height': 1 } } ],"
                               "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }",
                               sizes, row));
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    return p;
}

/* By hand: 40 % of the way from the first to the second size is the place 0.4. */
static void a_place_of_the_chart_is_found_by_its_name_and_named_so_again(void **state)
{
    struct room *room = *state;
    const struct pattern *p = of_sizes(room, "'12', '14', 'XL'", "90, 94, 98");
    static const struct {
        const char *name;
        double position;
    } rows[] = { { "12", 0 },
                 { "14", 1 },
                 { "XL", 2 },
                 { "12 to 14", 0.5 },
                 { "14 to XL", 1.5 },
                 { "12 to 14 at 40%", 0.4 },
                 { "14 to XL at 1%", 1.01 },
                 { "14 to XL at 99%", 1.99 } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double position = -5;
        assert_true(pattern_find_position(p, rows[i].name, &position));
        assert_near(position, rows[i].position, 1e-15);
        assert_string_equal(pattern_size_text(room->a, p, position), rows[i].name);
    }
    double loose;
    assert_true(pattern_find_position(p, "12 to 14 at 50 %", &loose));
    assert_near(loose, 0.5, 0);
    assert_string_equal(pattern_size_text(room->a, p, 1.0 / 3), "12 to 14 at 33%");
    assert_string_equal(pattern_size_text(room->a, p, 0.9999), "12 to 14 at 99%");
    assert_string_equal(pattern_size_text(room->a, p, 1.0001), "14 to XL at 1%");
}

static void what_names_no_place_is_refused(void **state)
{
    struct room *room = *state;
    const struct pattern *p = of_sizes(room, "'12', '14', 'XL'", "90, 94, 98");
    static const char *const names[] = { "",
                                         "13",
                                         "12.4",
                                         "12 to",
                                         "12 to XL",
                                         "14 to 12",
                                         "12 to 14 ",
                                         "12 to 14 at",
                                         "12 to 14 at 40",
                                         "12 to 14 at %",
                                         "12 to 14 at 0%",
                                         "12 to 14 at 100%",
                                         "12 to 14 at -4%",
                                         "12 to 14 at 4.5%",
                                         "12 to 14 at 40%%",
                                         "XL to 14" };
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        double position = -5;
        if (pattern_find_position(p, names[i], &position))
            fail_msg("“%s” is taken for %g", names[i], position);
        assert_near(position, -5, 0);
    }
    double position;
    assert_false(pattern_find_position(of_sizes(room, "'one'", "90"), "one to one", &position));
}

/* Children's sizes are often called by two ages. */
static void a_size_that_has_the_words_in_its_own_name_goes_first(void **state)
{
    struct room *room = *state;
    const struct pattern *p = of_sizes(room, "'4', '4 to 6', '6', '6 to 8'", "50, 54, 58, 62");
    double position;
    assert_true(pattern_find_position(p, "4 to 6", &position));
    assert_near(position, 1, 0);
    assert_true(pattern_find_position(p, "4 to 6 to 6", &position));
    assert_near(position, 1.5, 0);
    assert_true(pattern_find_position(p, "6 to 6 to 8 at 30%", &position));
    assert_near(position, 2.3, 1e-15);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_place_of_the_chart_is_found_by_its_name_and_named_so_again),
        room_test(what_names_no_place_is_refused),
        room_test(a_size_that_has_the_words_in_its_own_name_goes_first),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
