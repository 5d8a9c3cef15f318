#include "app/list.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"

/* A panel on the fold, gathered 1.6 times; a strap of 2 in; interfacing for it. */
#define PATTERN                                                                                                        \
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Skirt', 'unit': 'cm', 'sizes': ['S', 'M'],"                     \
    "  'chart': { 'bust': [80, 84] }, 'main_measurement': 'bust',"                                                     \
    "  'cup_groups': [ { 'name': 'A-B', 'bust': [84, 88] }, { 'name': 'C-D', 'bust': [89, 93] } ],"                    \
    "  'notions': [ { 'name': 'thread' } ],"                                                                           \
    "  'pieces': [ { 'name': 'panel', 'rectangle': { 'width': [112, 116], 'height': 60 }, 'fold': 'left',"             \
    "      'allowance': 1 }, { 'name': 'strap möw', 'rectangle': { 'width': 70, 'height': '2 in' } } ],"              \
    "  'seams': [ { 'name': 'waist', 'join': [ ['panel.top'], ['strap möw.bottom'] ], 'ratio': 1.6 } ],"              \
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'panel', 'count': 1 }, { 'piece': 'strap möw', 'pairs': 1 },"    \
    "      { 'piece': 'strap möw', 'count': 1, 'cloth': 'interfacing' } ] } ] }"

static struct export_list list_from(struct room *room, const char *text)
{
    struct draft *draft = base_arena_alloc(room->a, 1, sizeof *draft);
    const char *json = room_json(room, text);
    const struct pattern *p = pattern_parse(room->a, "p", json, strlen(json), room->errs);
    assert_true(p && make_at_size(room->a, p, 0, 1, 0, draft, room->errs));
    return export_list_of(room->a, p, 0, draft);
}

static struct export_list list_of(struct room *room)
{
    return list_from(room, PATTERN);
}

/* As many lines as with any other names. */
static void a_line_break_in_a_name_does_not_split_the_table(void **state)
{
    struct room *room = *state;
    struct export_words w = { .a = room->a, .unit = UNITS_CM, .fraction = 8 };
    const char *written = PATTERN, *was = "'panel', 'rectangle'", *at = strstr(written, was);
    const char *text = base_arena_print(room->a, "%.*s'panel', 'label': 'Front\\npanel', 'rectangle'%s",
                                        (int)(at - written), written, at + strlen(was));
    struct export_list plain = list_of(room), broken = list_from(room, text);
    const char *lines[2] = { app_list_table(&w, &plain), app_list_table(&w, &broken) };
    int count[2] = { 0, 0 };
    for (int i = 0; i < 2; i++)
        for (const char *c = lines[i]; *c; c++)
            count[i] += *c == '\n';
    assert_int_equal(count[0], count[1]);
    assert_non_null(strstr(lines[1], "\n  Front panel (panel)  "));
}

/* Lengths by hand: 112 + 1 by 60 + 2 cm, opened out twice 113; 2 in are 5.08 cm. */
static void the_table_stands_in_columns_by_cloth(void **state)
{
    struct room *room = *state;
    struct export_words w = { .a = room->a, .unit = UNITS_CM, .fraction = 8 };
    struct export_list list = list_of(room);
    assert_string_equal(app_list_table(&w, &list),
                        "Skirt, view A\n"
                        "Size S, cup C-D\n"
                        "\n"
                        "  Fabric                                cut            shape      as cut        finished\n"
                        "  panel                                 1 on the fold  rectangle  113 × 62 cm   112 × 60 cm\n"
                        "      opened out, as cut 226 × 62 cm\n"
                        "      each half of “top” gathered from 112 cm to 70 cm, seam “waist”\n"
                        "  strap möw                             1 pair         rectangle  70 × ≈5.1 cm  70 × ≈5.1 cm\n"
                        "\n"
                        "  Interfacing, fused on the wrong side  cut            shape      as cut        finished\n"
                        "  strap möw                             1              rectangle  70 × ≈5.1 cm  70 × ≈5.1 cm\n"
                        "\n"
                        "  Notions\n"
                        "  thread\n"
                        "\n"
                        "≈: to the nearest 1 mm\n");
}

static void json_has_exact_millimetres(void **state)
{
    struct export_list list = list_of(*state);
    struct json_out *top = json_out_create();
    app_list_json(top, &list);
    const char *text = json_out_print(((struct room *)*state)->a, top);
    json_out_destroy(top);
    static const char *const parts[] = {
        "\"cup_group\": \"C-D\"",    "\"pairs\": 1,\n",      "\"hand\": \"both\"",     "\"fuse\": \"wrong side\"",
        "\"on_fold\": true",         "\"width_mm\": 1130,",  "\"width_mm\": 2260,",    "\"height_mm\": 50.8",
        "\"kind\": \"gathered\",\n", "\"edge\": \"top\",\n", "\"seam\": \"waist\",\n", "\"from_mm\": 1120,",
        "\"to_mm\": 700,",           "\"half\": true",       "\"name\": \"thread\"",
    };
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (!strstr(text, parts[i]))
            fail_msg("“%s” is not in:\n%s", parts[i], text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_line_break_in_a_name_does_not_split_the_table),
        room_test(the_table_stands_in_columns_by_cloth),
        room_test(json_has_exact_millimetres),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
