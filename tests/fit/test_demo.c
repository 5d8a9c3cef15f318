/* The pattern that comes with the program, as a careful maker would go over it: every size, half size and cup group.
 * Its path is the only argument. */
#include "support/at_size.h"
#include "draft/draft.h"
#include "fit/seam.h"
#include "pattern/read.h"
#include "support/room.h"

/* Its points are rounded to a hundredth of a millimetre, so that seams match within a tenth. */
#define SEAM_MM 0.1

static const char *demo_path;

static const struct pattern *read_demo(struct room *room)
{
    const struct pattern *p = pattern_read(room->a, demo_path, room->errs);
    room_nothing_told(room);
    assert_non_null(p);
    assert_true(p->size_count > 1 && p->cup_group_count > 1 && p->view_count > 1);
    return p;
}

static double last_position(const struct pattern *p)
{
    return (double)(p->size_count - 1);
}

/* The pieces of a seam: those of its own cup group, or any. */
static const struct draft_sized *demo_at(struct room *room, const struct pattern *p, double position,
                                         const struct pattern_seam *seam)
{
    return size_at(room->a, p, position, seam->cup_group == PATTERN_NONE ? 0 : seam->cup_group, room->errs);
}

/* Interval by interval between its notches, which are as many on either side. */
static void every_seam_matches_in_every_size_half_size_and_cup_group(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    struct arena *scratch = base_arena_create();
    assert_true(p->seam_count > 0);
    for (size_t s = 0; s < p->seam_count; s++)
        for (double at = 0; at <= last_position(p); at += 0.5) {
            struct fit_seam m = fit_seam_measure(scratch, demo_at(room, p, at, &p->seams[s]), &p->seams[s]);
            if (!m.marks_agree || m.worst_mm > SEAM_MM)
                fail_msg("%s at %g: off by %.3f mm in interval %zu of %zu", p->seams[s].name, at, m.worst_mm,
                         m.worst_interval, m.interval_count);
            base_arena_reset(scratch);
        }
    base_arena_destroy(scratch);
}

/* Seams longer than about 20 cm are easily shifted while they are sewn (common practice, no source). A notch at an end
 * of a seam, as at the centre of a fold, halves the whole seam and counts. */
static void every_long_seam_has_notches(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    for (size_t s = 0; s < p->seam_count; s++) {
        struct fit_seam m = fit_seam_measure(room->a, demo_at(room, p, last_position(p), &p->seams[s]), &p->seams[s]);
        if (m.length_mm[1] > 200 && m.interval_count < 2)
            fail_msg("%s is %.0f mm long and has no notch", p->seams[s].name, m.length_mm[1]);
    }
}

/* A single notch is the front's, a double one the back's, where a seam is the front's or the back's alone (common
 * practice, no source). */
static void front_armholes_and_waists_have_single_notches_and_back_ones_double(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    size_t seen[2] = { 0, 0 };
    for (size_t i = 0; i < p->piece_count; i++) {
        const struct pattern_piece *piece = &p->pieces[i];
        for (size_t n = 0; n < piece->notch_count; n++) {
            const char *edge = piece->edges[piece->notches[n].edge].name;
            bool is_back = strstr(piece->name, "back") != NULL;
            if (strcmp(edge, "armhole") != 0 && strcmp(edge, "waist") != 0)
                continue;
            assert_int_equal(piece->notches[n].is_double, is_back);
            seen[is_back]++;
        }
    }
    assert_true(seen[0] > 4 && seen[1] > 4);
}

static double distance_to(struct geometry_path path, vec2 p)
{
    double least = INFINITY;
    for (size_t i = 0; i < path.count; i++) {
        vec2 a = path.points[i], ab = vec2_sub(path.points[(i + 1) % path.count], a), ap = vec2_sub(p, a);
        double t = fmin(1, fmax(0, vec2_dot(ap, ab) / fmax(vec2_dot(ab, ab), 1e-12)));
        least = fmin(least, vec2_length(vec2_sub(ap, vec2_scale(ab, t))));
    }
    return least;
}

/* The snip starts on the cut line and ends in the allowance, 3 mm deep or half the allowance, and at least half of the
 * allowance stays whole between it and the stitching line (common practice, no source). Grown lines may be off by 0.05.
 */
static void check_notch(const struct draft_piece *d, const struct draft_notch *notch, double allowance)
{
    assert_near(notch->depth_mm, fmin(3, allowance / 2), 0.03);
    for (size_t p = 0; p < notch->place_count; p++) {
        vec2 at = { notch->places[p].at.x, notch->places[p].at.y };
        vec2 end = vec2_add(at, vec2_scale(notch->places[p].inward, notch->depth_mm));
        bool is_out = !geometry_path_holds(d->seam.path, end) && !geometry_path_holds(d->seam.path, at);
        if (!is_out || distance_to(d->seam.path, end) < allowance / 2 - 0.05 || distance_to(d->cut.path, at) > 0.01 ||
            distance_to(d->seam.path, at) < allowance - 0.05)
            fail_msg("%s: a snip from %g, %g to %g, %g is not in the allowance of %g", d->name, at.x, at.y, end.x,
                     end.y, allowance);
    }
}

static void check_notches(const struct draft_piece *d, const struct draft_sized_piece *at)
{
    for (size_t i = 0; i < d->notch_count; i++)
        check_notch(d, &d->notches[i], at->allowance_mm[d->notches[i].edge]);
}

static void check_piece(struct arena *scratch, const struct draft_piece *d, const struct draft_sized_piece *at)
{
    vec2 where;
    assert_true(geometry_path_area(d->cut.path) > geometry_path_area(d->seam.path));
    assert_true(geometry_path_area(d->seam.path) > 0);
    if (geometry_path_crosses_itself(d->cut.path, &where))
        fail_msg("the cut line of %s crosses itself at %g, %g", d->name, where.x, where.y);
    assert_int_equal(d->cut_line.path.closed, !d->has_fold);
    assert_true(geometry_path_holds(d->cut.path, (vec2){ d->label_at.x, d->label_at.y }));
    for (size_t i = 0; i < d->seam.path.count; i++) /* nothing is cut into the garment */
        assert_true(geometry_path_holds(d->cut.path,
                                        vec2_lerp(d->seam.path.points[i], geometry_path_centre(d->seam.path), 1e-6)));
    struct draft_piece whole = draft_unfold(scratch, d);
    check_notches(d, at);
    check_notches(&whole, at);
    assert_false(geometry_path_crosses_itself(whole.cut.path, &where));
    assert_near(geometry_path_area(whole.cut.path), (d->has_fold ? 2 : 1) * geometry_path_area(d->cut.path), 1);
}

static void every_piece_is_sound_in_every_size_half_size_and_cup_group(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    struct arena *scratch = base_arena_create();
    for (int group = 0; group < (int)p->cup_group_count; group++)
        for (double at = 0; at <= last_position(p); at += 0.5) {
            struct draft draft;
            bool ok = make_at_size(scratch, p, at, group, PATTERN_NONE, &draft, room->errs);
            room_nothing_told(room);
            assert_true(ok);
            assert_true(draft.piece_count > 0);
            for (size_t i = 0; i < draft.piece_count; i++)
                check_piece(scratch, &draft.pieces[i], &draft.sized->pieces[draft.pieces[i].index]);
            base_arena_reset(scratch);
        }
    base_arena_destroy(scratch);
}

static void every_view_cuts_each_of_its_pieces_of_either_cup_group(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    for (int view = 0; view < (int)p->view_count; view++)
        for (int group = 0; group < (int)p->cup_group_count; group++) {
            struct draft draft;
            size_t wanted = 0;
            for (size_t c = 0; c < p->views[view].cut_count; c++)
                wanted += pattern_in_cup_group(p->pieces[p->views[view].cuts[c].piece].cup_group, group);
            assert_true(make_at_size(room->a, p, 4, group, view, &draft, room->errs));
            assert_true(wanted > 0);
            assert_int_equal(draft.cut_count, wanted);
        }
}

static double length(struct room *room, const struct pattern *p, const char *piece, const char *edge, double position)
{
    int found = pattern_find_piece(p, piece);
    const struct draft_sized *sized = size_at(room->a, p, position, p->pieces[found].cup_group, room->errs);
    return geometry_path_length(sized->pieces[found].edge_paths[pattern_find_edge(&p->pieces[found], edge)]);
}

static vec2 place_of(struct room *room, const struct pattern *p, const char *piece, const char *point, double position)
{
    int found = pattern_find_piece(p, piece);
    const struct draft_sized *sized = size_at(room->a, p, position, p->pieces[found].cup_group, room->errs);
    return sized->pieces[found].points[pattern_find_point(&p->pieces[found], point)];
}

static double x_of(struct room *room, const struct pattern *p, const char *piece, const char *point, double position)
{
    return place_of(room, p, piece, point, position).x;
}

static double body(const struct pattern *p, const char *row, double position)
{
    return pattern_value_at(p->chart[pattern_find_row(p, row)].value, position);
}

/* Wearing ease that a garment of woven cloth cannot do without: waist 1/2 in, hip 2 in, bust 1 1/2 in (Central
 * Washington University, costume course text, chapter 16). The other end is our own: no more than 15 cm on a fitted
 * waistband and on a bib, where a mistake of a doubled or missing quarter would add or take a quarter of the body. */
static void the_garment_goes_round_its_body_with_room_to_move(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    static const char *const bibs[] = { "bib front", "bib front full" };
    for (double at = 0; at <= last_position(p); at += 0.5) {
        /* Front pieces are halves on the fold, back pieces one of a pair. */
        double waist =
            2 * (length(room, p, "waistband front", "left", at) + length(room, p, "waistband back", "left", at)) -
            body(p, "waist", at);
        double hip = 2 * (x_of(room, p, "skirt front", "hip", at) + x_of(room, p, "skirt back", "hip", at)) - body(p, "hip", at);
        assert_near(waist + body(p, "waist", at), pattern_value_at(pattern_finished(p, "waist", 0), at), SEAM_MM);
        assert_near(hip + body(p, "hip", at), pattern_value_at(pattern_finished(p, "hip", 0), at), SEAM_MM);
        assert_true(waist >= 12.7 && waist <= 150);
        assert_true(hip >= 50.8 && hip <= 150);
        for (int group = 0; group < 2; group++) {
            double round = 2 * (x_of(room, p, bibs[group], "underarm", at) + x_of(room, p, "bib back", "underarm", at));
            double bust = round - pattern_value_at(p->cup_groups[group].bust, at);
            assert_true(bust >= 38.1 && bust <= 150);
        }
    }
}

static struct geometry_path edge_of(struct room *room, const struct pattern *p, const char *piece, const char *edge,
                                    double position)
{
    int found = pattern_find_piece(p, piece);
    const struct draft_sized *sized = size_at(room->a, p, position, p->pieces[found].cup_group, room->errs);
    return sized->pieces[found].edge_paths[pattern_find_edge(&p->pieces[found], edge)];
}

/* A facing is cut like the edge it faces, point for point. */
static void facings_follow_the_bib_exactly(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    static const char *const pairs[][2] = { { "front facing", "bib front" },
                                            { "front facing full", "bib front full" },
                                            { "back facing", "bib back" } };
    static const char *const edges[] = { "neckline", "strap", "armhole" };
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++)
        for (size_t e = 0; e < sizeof edges / sizeof edges[0]; e++)
            for (double at = 0; at <= last_position(p); at++) {
                struct geometry_path facing = edge_of(room, p, pairs[i][0], edges[e], at);
                struct geometry_path bib = edge_of(room, p, pairs[i][1], edges[e], at);
                assert_int_equal(facing.count, bib.count);
                for (size_t k = 0; k < bib.count; k++)
                    assert_near(vec2_length(vec2_sub(facing.points[k], bib.points[k])), 0, 1e-6);
            }
}

/* Holes of the drill marks are hidden by the pocket: 5 mm within its upper corners (common practice, no source). */
static void drill_marks_lie_under_the_pockets_corners(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    static const char *const skirts[] = { "skirt front", "skirt front midi" };
    for (double at = 0; at <= last_position(p); at++)
        for (int i = 0; i < 2; i++) {
            double marks = x_of(room, p, skirts[i], "pocket out", at) - x_of(room, p, skirts[i], "pocket in", at);
            double pocket = x_of(room, p, "pocket", "top out", at) - x_of(room, p, "pocket", "top in", at);
            assert_near(pocket - marks, 2 * 5, SEAM_MM);
        }
}

/* What a person who sews expects of the list: halves that are not on the fold in pairs, and every facing with its
 * interfacing. */
static void cutting_lists_have_pairs_and_interfacings(void **state)
{
    const struct pattern *p = read_demo(*state);
    assert_int_equal(p->view_count, 4);
    for (size_t v = 0; v < p->view_count; v++) {
        int faced[2] = { 0, 0 };
        for (size_t c = 0; c < p->views[v].cut_count; c++) {
            const struct pattern_cut *cut = &p->views[v].cuts[c];
            const struct pattern_piece *piece = &p->pieces[cut->piece];
            if (strstr(piece->name, "back"))
                assert_int_equal(cut->hand, PATTERN_PAIRS);
            if (strstr(piece->name, "facing"))
                faced[cut->cloth == PATTERN_INTERFACING]++;
        }
        assert_int_equal(faced[0], 3);
        assert_int_equal(faced[1], 3);
    }
}

int main(int argc, char **argv)
{
    if (argc != 2)
        return 2;
    demo_path = argv[1];
    const struct CMUnitTest tests[] = {
        room_test(every_seam_matches_in_every_size_half_size_and_cup_group),
        room_test(every_long_seam_has_notches),
        room_test(front_armholes_and_waists_have_single_notches_and_back_ones_double),
        room_test(facings_follow_the_bib_exactly),
        room_test(drill_marks_lie_under_the_pockets_corners),
        room_test(cutting_lists_have_pairs_and_interfacings),
        room_test(every_piece_is_sound_in_every_size_half_size_and_cup_group),
        room_test(every_view_cuts_each_of_its_pieces_of_either_cup_group),
        room_test(the_garment_goes_round_its_body_with_room_to_move),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
