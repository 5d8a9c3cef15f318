/* The pattern that comes with the program, as a careful maker would go over it: every size, half size and cup group.
 * Its path is the only argument. */
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

static void every_seam_matches_in_every_size_half_size_and_cup_group(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    struct arena *scratch = base_arena_create();
    assert_true(p->seam_count > 0);
    for (size_t s = 0; s < p->seam_count; s++)
        for (double at = 0; at <= last_position(p); at += 0.5) {
            struct fit_seam m = fit_seam_measure(scratch, p, &p->seams[s], at);
            if (fabs(m.off_mm) > SEAM_MM)
                print_error("%s at %g: off by %.3f mm\n", p->seams[s].name, at, m.off_mm);
            assert_near(m.off_mm, 0, SEAM_MM);
            base_arena_reset(scratch);
        }
    base_arena_destroy(scratch);
}

static void check_piece(const struct draft_piece *d)
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
}

static void every_piece_is_sound_in_every_size_half_size_and_cup_group(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    struct arena *scratch = base_arena_create();
    for (int group = 0; group < (int)p->cup_group_count; group++)
        for (double at = 0; at <= last_position(p); at += 0.5) {
            struct draft draft;
            bool ok = draft_make(scratch, p, at, group, PATTERN_NONE, &draft, room->errs);
            room_nothing_told(room);
            assert_true(ok);
            assert_true(draft.piece_count > 0);
            for (size_t i = 0; i < draft.piece_count; i++)
                check_piece(&draft.pieces[i]);
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
            assert_true(draft_make(room->a, p, 4, group, view, &draft, room->errs));
            assert_true(wanted > 0);
            assert_int_equal(draft.cut_count, wanted);
        }
}

static double length(struct room *room, const struct pattern *p, const char *piece, const char *edge, double position)
{
    const struct pattern_piece *found = &p->pieces[pattern_find_piece(p, piece)];
    return draft_edge_length(room->a, found, pattern_find_edge(found, edge), position);
}

static double x_of(const struct pattern *p, const char *piece, const char *point, double position)
{
    const struct pattern_piece *found = &p->pieces[pattern_find_piece(p, piece)];
    return pattern_value_at(found->points[pattern_find_point(found, point)].x, position);
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
        /* The waistband is cut twice on the fold and goes round; the pieces are halves of front and back. */
        double waist = 2 * length(room, p, "waistband", "left", at) - body(p, "waist", at);
        double hip = 2 * (x_of(p, "skirt front", "hip", at) + x_of(p, "skirt back", "hip", at)) - body(p, "hip", at);
        assert_true(waist >= 12.7 && waist <= 150);
        assert_true(hip >= 50.8 && hip <= 150);
        for (int group = 0; group < 2; group++) {
            double round = 2 * (x_of(p, bibs[group], "underarm", at) + x_of(p, "bib back", "underarm", at));
            double bust = round - pattern_value_at(p->cup_groups[group].bust, at);
            assert_true(bust >= 38.1 && bust <= 150);
        }
    }
}

int main(int argc, char **argv)
{
    if (argc != 2)
        return 2;
    demo_path = argv[1];
    const struct CMUnitTest tests[] = {
        room_test(every_seam_matches_in_every_size_half_size_and_cup_group),
        room_test(every_piece_is_sound_in_every_size_half_size_and_cup_group),
        room_test(every_view_cuts_each_of_its_pieces_of_either_cup_group),
        room_test(the_garment_goes_round_its_body_with_room_to_move),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
