#include "fit/seam.h"
#include "pattern/read.h"
#include "support/room.h"

/* Straight edges of round lengths: front side 400 and 410 and 440, back side 5 longer in the largest size, a band's top
 * of 250, a ruffle of 300. */
static const char pattern_text[] =
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'mm', 'sizes': ['S', 'M', 'L'],"
    "  'chart': { 'hip': [900, 940, 980] }, 'main_measurement': 'hip',"
    "  'pieces': [ { 'name': 'front', 'rectangle': { 'width': 100, 'height': [400, 410, 440] }, 'allowance': 15 },"
    "    { 'name': 'back', 'rectangle': { 'width': 150, 'height': [400, 410, 445] } },"
    "    { 'name': 'band', 'rectangle': { 'width': 250, 'height': 40 } },"
    "    { 'name': 'ruffle', 'rectangle': { 'width': 300, 'height': 40 } } ],"
    "  'seams': [ { 'name': 'side', 'join': [ ['front.right'], ['back.left'] ] },"
    "    { 'name': 'eased', 'join': [ ['back.left'], ['front.right'] ], 'difference': '1/4 in' },"
    "    { 'name': 'band', 'join': [ ['front.top', 'back.top'], ['band.bottom'] ] },"
    "    { 'name': 'ruffle', 'join': [ ['ruffle.bottom', 'ruffle.bottom'], ['front.bottom', 'front.bottom'] ], "
    "'ratio': 2.5 } ],"
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'front', 'count': 1 } ] } ] }";

static struct fit_seam measure(struct room *room, int seam, double position)
{
    const char *json = room_json(room, pattern_text);
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_non_null(p);
    return fit_seam_measure(room->a, p, &p->seams[seam], position);
}

/* By hand from the lengths above; what a stitching line measures does not depend on its allowance. */
static void a_seam_is_off_by_what_its_sides_differ_from_what_is_meant(void **state)
{
    struct room *room = *state;
    static const struct {
        int seam;
        double position, first, second, off;
    } rows[] = {
        { 0, 0, 400, 400, 0 },                                      /* equal */
        { 0, 2, 440, 445, -5 },                                     /* the first side too short */
        { 0, 1.5, 425, 427.5, -2.5 }, { 1, 2, 445, 440, 5 - 6.35 }, /* 5 longer, where a quarter of an inch is meant */
        { 2, 1, 250, 250, 0 },                                      /* two edges on one side */
        { 3, 0, 600, 200, 100 },                                    /* each edge twice; 200 gathered 2.5 times is 500 */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct fit_seam m = measure(room, rows[i].seam, rows[i].position);
        assert_near(m.length_mm[0], rows[i].first, 1e-9);
        assert_near(m.length_mm[1], rows[i].second, 1e-9);
        assert_near(m.off_mm, rows[i].off, 1e-9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_seam_is_off_by_what_its_sides_differ_from_what_is_meant),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
