/* Outlines with fewer points, and stripes carried over a seam. */
#include "lay/laying.h"
#include "lay/ways.h"

#include <geos_c.h>

static GEOSGeometry *polygon(GEOSContextHandle_t geos, struct geometry_path path)
{
    GEOSCoordSequence *ring = GEOSCoordSeq_create_r(geos, (unsigned)path.count + 1, 2);
    for (size_t i = 0; i <= path.count; i++)
        GEOSCoordSeq_setXY_r(geos, ring, (unsigned)i, path.points[i % path.count].x, path.points[i % path.count].y);
    return GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, ring), NULL, 0);
}

/* A wavy round: `waves` waves of a height on a radius, `corners` corners. */
static struct geometry_path wavy(struct arena *a, size_t corners, double radius, double height, int waves)
{
    struct geometry_path path = { base_arena_alloc(a, corners, sizeof(vec2)), corners, true };
    for (size_t i = 0; i < corners; i++) {
        double angle = 2 * 3.14159265358979 * (double)i / (double)corners, r = radius + height * sin(angle * waves);
        path.points[i] = (vec2){ r * cos(angle), r * sin(angle) };
    }
    return path;
}

/* By GEOS: it holds the outline, and lies nowhere further from it. */
static void a_simplified_outline_holds_the_outline(void **state)
{
    struct arena *a = *state;
    GEOSContextHandle_t geos = GEOS_init_r();
    for (int i = 0; i < 24; i++) {
        struct geometry_path path = wavy(a, (size_t)(20 + 25 * i), 60 + 10 * i, 2 + i % 7, 3 + i % 5);
        struct geometry_path out = lay_simplified(a, path, 0.2);
        GEOSGeometry *was = polygon(geos, path), *is = polygon(geos, out), *lost = GEOSDifference_r(geos, was, is);
        double area = 0, away = 0;
        GEOSArea_r(geos, lost, &area);
        GEOSHausdorffDistanceDensify_r(geos, was, is, 0.1, &away);
        assert_int_equal(GEOSisValid_r(geos, is), 1);
        assert_true(area < 1e-6);
        assert_true(away <= 0.2 + 1e-6);
        if (path.count > 400)
            assert_true(out.count < path.count / 2);
        GEOSGeom_destroy_r(geos, lost);
        GEOSGeom_destroy_r(geos, is);
        GEOSGeom_destroy_r(geos, was);
    }
    GEOS_finish_r(geos);
}

/* A step of 0.1 in and one out lie on the outside of the longer side; a rectangle stays as it is (hand-worked). */
static void notches_are_closed_and_corners_kept(void **state)
{
    struct arena *a = *state;
    vec2 corners[] = { { 0, 0 }, { 40, 0 }, { 40.5, 0.1 }, { 41, 0 }, { 100, 0 }, { 100, 50 }, { 0, 50 } };
    struct geometry_path out = lay_simplified(a, (struct geometry_path){ corners, 7, true }, 0.2);
    assert_int_equal(out.count, 4);
    assert_near(geometry_path_area(out), 5000, 1e-9);
    vec2 chamfered[] = { { 0, 0 }, { 99.8, 0 }, { 100, 0.2 }, { 100, 50 }, { 0, 50 } };
    out = lay_simplified(a, (struct geometry_path){ chamfered, 5, true }, 0.2); /* the corner lies 0.141 out */
    assert_int_equal(out.count, 4);
    assert_near(geometry_path_area(out), 5000, 1e-9);
    out = lay_simplified(a, (struct geometry_path){ chamfered, 5, true }, 0.1);
    assert_int_equal(out.count, 5);
}

/* The front's match line lies 200 above its hem, the back has none. They are sewn at front.right and back.left, both
 * 400 long and upwards, with a notch 100 from the lower end; the back's edge begins 30 above the back's lowest point,
 * so that its line lies at 30 + 200, and so do the stripes. */
static void stripes_are_carried_over_a_seam(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_of(
        room,
        "{ 'name': 'front', 'rectangle': { 'width': 200, 'height': 400 }, 'points': { 'm': [0, 200], 'n': [200, 200] },"
        "  'lines': [ { 'kind': 'match', 'from': 'm', 'to': 'n' } ], 'notches': [ { 'edge': 'right', 'at': 100 } ] },"
        "{ 'name': 'back', 'points': { 'a': [0, 30], 'b': [150, 0], 'c': [150, 400], 'd': [0, 430] },"
        "  'outline': [ { 'name': 'hem', 'path': ['a', 'b'] }, { 'name': 'right', 'path': ['b', 'c'] },"
        "    { 'name': 'top', 'path': ['c', 'd'] }, { 'name': 'left', 'path': ['d', 'a'] } ],"
        "  'notches': [ { 'edge': 'left', 'from_end': 100 } ] }",
        "{ 'name': 'side', 'join': [ ['front.right'], ['back.left backwards'] ] }",
        "{ 'piece': 'front', 'count': 1 }, { 'piece': 'back', 'count': 1 }");
    struct cloth cloth = laying_cloth(210, CLOTH_SINGLE);
    cloth.repeat = (struct cloth_repeat){ .along_mm = 90, .line_along_mm = 25, .uneven = true };
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    static const double line[] = { 200, 230 };
    struct lay_search *s = lay_search_begin(&l->task, NULL, 1, NULL, NULL, room->errs);
    lay_search_round(s, NULL);
    struct lay lay = lay_search_best(room->a, s);
    lay_search_end(s);
    for (size_t i = 0; i < 2; i++) {
        double lowest = geometry_path_box(lay_outline(room->a, &l->task, i, &lay.places[i]).path).min.x;
        assert_near(remainder(lowest + line[i] - 25, 90), 0, 1e-6);
    }
    const struct lay_finding *found;
    lay.places[1].motion.shift.x += 10;
    assert_int_equal(lay_judge(room->a, &lay, &found), 1);
    assert_int_equal(found[0].fault, LAY_OFF_REPEAT);
    assert_near(found[0].amount, 10, 1e-6);
}

/* Checks of 60 across, the first 20 from the edge: a match line that runs with the grain lies on one. Of 600 the middle
 * is 300, and 290 is midway between the lines at 260 and 320: folded there, which is told, the first lies 30 from the
 * fold. */
static void checks_match_across_the_cloth(void **state)
{
    struct room *room = *state;
    static const char piece[] =
        "{ 'name': 'sleeve', 'points': { 'a': [0, 0], 'b': [130, 0], 'c': [90, 200], 'd': [0, 180],"
        "    'm': [40, 10], 'n': [40, 150] },"
        "  'outline': [ { 'name': 'e', 'path': ['a', 'b', 'c', 'd', 'a'] } ],"
        "  'lines': [ { 'kind': 'match', 'from': 'm', 'to': 'n' } ] }";
    struct laying *l = laying_of(room, piece, "", "{ 'piece': 'sleeve', 'pairs': 1 }");
    struct cloth cloth = laying_cloth(600, CLOTH_SINGLE);
    cloth.repeat = (struct cloth_repeat){ .across_mm = 60, .line_across_mm = 20 };
    for (int folded = 0; folded < 2; folded++) {
        cloth.spread = folded ? CLOTH_FOLDED : CLOTH_SINGLE;
        assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
        struct lay_search *s = lay_search_begin(&l->task, NULL, 1, NULL, NULL, room->errs);
        struct lay lay = lay_search_best(room->a, s);
        lay_search_end(s);
        for (size_t i = 0; i < l->task.item_count; i++) {
            struct geometry_mover m = geometry_mover_of(lay.places[i].motion);
            double y = geometry_move(&m, (vec2){ 40, 10 }).y;
            assert_near(remainder(y - (folded ? 30 : 20), 60), 0, 1e-6);
        }
        assert_int_equal(base_err_list_has(room->errs, "cloth.fold_on_line"), folded);
    }
}

static vec2 grain_at(const struct lay *lay, size_t item)
{
    struct geometry_mover m = geometry_mover_of(lay->places[item].motion);
    const struct piece_pt *grain = lay->task->items[item].piece->grain;
    return geometry_move(&m, (vec2){ (grain[0].x + grain[1].x) / 2, (grain[0].y + grain[1].y) / 2 });
}

/* No match line is drawn. Right and left sleeve are cut one by one: the middle of their grain, (40, 150), lies on a
 * line of the checks either way, 20 + 60 k from the near edge and 25 + 90 k from the cut end. The front is opened out,
 * and its fold, x = 0, lies on one of the first. */
static void what_has_to_be_alike_lies_by_the_same_lines(void **state)
{
    struct room *room = *state;
    static const char pieces[] =
        "{ 'name': 'sleeve', 'points': { 'a': [0, 0], 'b': [130, 0], 'c': [90, 200], 'd': [0, 180] },"
        "  'outline': [ { 'name': 'e', 'path': ['a', 'b', 'c', 'd', 'a'] } ] },"
        "{ 'name': 'front', 'points': { 'a': [0, 0], 'b': [200, 0], 'c': [150, 300], 'd': [0, 300] },"
        "  'outline': [ { 'name': 'rest', 'path': ['a', 'b', 'c', 'd'] }, { 'name': 'middle', 'path': ['d', 'a'] } ],"
        "  'fold': 'middle' }";
    enum { RIGHT, LEFT, FRONT };
    struct laying *l =
        laying_of(room, pieces, "", "{ 'piece': 'sleeve', 'pairs': 1 }, { 'piece': 'front', 'count': 1 }");
    struct cloth cloth = laying_cloth(600, CLOTH_SINGLE);
    cloth.repeat = (struct cloth_repeat){ .across_mm = 60, .line_across_mm = 20, .along_mm = 90, .line_along_mm = 25 };
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    struct lay lay = laying_best_after(room, &l->task, NULL, 1);
    laying_nothing_is_wrong(room, &lay);
    assert_int_equal(lay.left_out, 0);
    for (size_t i = RIGHT; i <= LEFT; i++) {
        assert_near(remainder(grain_at(&lay, i).y - 20, 60), 0, 1e-6);
        assert_near(remainder(grain_at(&lay, i).x - 25, 90), 0, 1e-6);
    }
    struct geometry_mover m = geometry_mover_of(lay.places[FRONT].motion);
    assert_near(remainder(geometry_move(&m, (vec2){ 0, 0 }).y - 20, 60), 0, 1e-6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(a_simplified_outline_holds_the_outline),
        room_arena_test(notches_are_closed_and_corners_kept),
        room_test(stripes_are_carried_over_a_seam),
        room_test(checks_match_across_the_cloth),
        room_test(what_has_to_be_alike_lies_by_the_same_lines),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
