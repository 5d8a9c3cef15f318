/* Which piece is drafted by which measurement; hand-worked from the pattern that is written here. */
#include "pattern/figures.h"
#include "pattern/read.h"
#include "support/room.h"

#define PATTERN                                                                                                        \
    "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'stitching line', 'name': 'P', 'unit': 'cm',"                 \
    "  'sizes': ['1'], 'chart': { 'waist': [70], 'hip': [90], 'knee': [40] }, 'main_measurement': 'waist',"            \
    "  'measurements': ['wrist'], 'values': { 'half': 'whole / 2', 'whole': 'hip + 2' },"                              \
    "  'pieces': [ { 'name': 'plain', 'rectangle': { 'width': 5, 'height': 6 } },"                                     \
    "    { 'name': 'band', 'rectangle': { 'width': 'waist', 'height': 6 } },"                                          \
    "    { 'name': 'skirt', 'rectangle': { 'width': 'half', 'height': 'knee' } },"                                     \
    "    { 'name': 'facing', 'rectangle': { 'width': 'length(band.top)', 'height': 4 }, 'allowance': 'wrist / 20' },"  \
    "    { 'name': 'patch', 'points': { 'a': [0, 0], 'b': [9, 0], 'c': { 'same': 'skirt.far left' } },"                \
    "      'outline': [ { 'name': 'e', 'path': ['a', 'b', 'c', 'a'] } ] } ],"                                          \
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'plain', 'count': 1 } ] } ] }"

static void a_piece_reads_what_it_and_what_it_leans_on_reads(void **state)
{
    struct room *room = *state;
    static const bool expected[5][4] = { /* waist, hip, knee, wrist */
                                         { false, false, false, false },
                                         { true, false, false, false },
                                         { false, true, true, false },
                                         { true, false, false, true },
                                         { false, true, true, false }
    };
    const char *text = room_json(room, PATTERN);
    const struct pattern *p = pattern_parse(room->a, "p.json", text, strlen(text), room->errs);
    room_nothing_told(room);
    assert_int_equal(p->figure_count, 4);
    const bool *rows = pattern_figures_by_piece(room->a, p);
    for (size_t i = 0; i < 5; i++)
        for (size_t f = 0; f < 4; f++)
            assert_int_equal(rows[i * 4 + f], expected[i][f]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_piece_reads_what_it_and_what_it_leans_on_reads),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
