/* The pattern that comes with the program, fitted to people: blended, altered, drafted to a body, as a trial garment.
 * Whatever is done to it, what is sewn together goes on fitting. Its path and those of the two bodies beside it are the
 * arguments. Amounts and levels are examples; what they have to come to is worked out by hand from the trade's rules
 * named beside each check (common practice, no source, unless said). */
#include "draft/draft.h"
#include "fit/girth.h"
#include "fit/mismatch.h"
#include "fit/seam.h"
#include "pattern/read.h"
#include "sizing/body.h"
#include "sizing/row.h"
#include "support/at_size.h"
#include "support/room.h"

#include <stdint.h>

#define HAIR_MM 0.05 /* curves are flattened, and notches are put back on them */
#define SEAM_MM 1.0  /* thinner than a chalk line (our own) */

enum { BODIES = 200 };
enum { A_B, C_D, GROUPS };

static const char *demo_path, *body_paths[2];

static const struct pattern *read_demo(struct room *room)
{
    const struct pattern *p = pattern_read(room->a, demo_path, room->errs);
    room_nothing_told(room);
    assert_non_null(p);
    return p;
}

static void fail_at(const char *what, const struct draft_figure *figure, const char *name, double mm)
{
    fail_msg("%s of %s, at %g in cup group %d: %.3f mm", what, name, figure->position, figure->cup_group, mm);
}

/* Every piece is drafted without complaint, and every seam matches from notch to notch, by its own measure and by what
 * a person is told. */
static const struct draft_sized *sound_draft(struct room *room, const struct pattern *p,
                                             const struct draft_figure *figure)
{
    struct draft draft;
    bool ok = draft_make(room->a, p, figure, PATTERN_NONE, &draft, room->errs);
    room_nothing_told(room);
    assert_true(ok);
    size_t measured = 0;
    for (size_t s = 0; s < p->seam_count; s++) {
        if (!fit_seam_can_be_measured(draft.sized, &p->seams[s]))
            continue;
        struct fit_seam m = fit_seam_measure(room->a, draft.sized, &p->seams[s]);
        if (!m.marks_agree || m.unlike_mark || m.worst_mm > SEAM_MM)
            fail_at("seam", figure, p->seams[s].name, m.worst_mm);
        measured++;
    }
    assert_true(measured >= 20); /* all but the other cup group's */
    fit_tell_mismatches(draft.sized, NULL, room->errs);
    room_nothing_told(room);
    return draft.sized;
}

static vec2 place(const struct draft_sized *sized, const char *piece, const char *point)
{
    int index = pattern_find_piece(sized->pattern, piece);
    return sized->pieces[index].points[pattern_find_point(&sized->pattern->pieces[index], point)];
}

static double distance(const struct draft_sized *sized, const char *piece, const char *one, const char *other)
{
    return vec2_length(vec2_sub(place(sized, piece, one), place(sized, piece, other)));
}

static struct geometry_path edge(const struct draft_sized *sized, const char *piece, const char *name)
{
    int index = pattern_find_piece(sized->pattern, piece);
    return sized->pieces[index].edge_paths[pattern_find_edge(&sized->pattern->pieces[index], name)];
}

static double length(const struct draft_sized *sized, const char *piece, const char *name)
{
    return geometry_path_length(edge(sized, piece, name));
}

static const char *const bib_of[] = { "bib front", "bib front full" };
static const char *const facing_of[] = { "front facing", "front facing full" };

/* A facing has the bib's own edges, whatever became of the bib. */
static void check_facings(const struct draft_sized *sized, int group)
{
    const char *const pairs[][2] = { { facing_of[group], bib_of[group] }, { "back facing", "bib back" } };
    static const char *const edges[] = { "neckline", "strap", "armhole" };
    for (int i = 0; i < 2; i++)
        for (int e = 0; e < 3; e++) {
            struct geometry_path facing = edge(sized, pairs[i][0], edges[e]), bib = edge(sized, pairs[i][1], edges[e]);
            assert_int_equal(facing.count, bib.count);
            for (size_t k = 0; k < bib.count; k++)
                assert_near(vec2_length(vec2_sub(facing.points[k], bib.points[k])), 0, 1e-6);
        }
}

static double bib_waist(const struct draft_sized *sized, int group)
{
    return length(sized, bib_of[group], "waist") - distance(sized, bib_of[group], "dart in", "dart out");
}

/* Upper bust of size 4, waist of 6, hip of 5: each level as it is in that size. */
static void a_blend_has_every_level_of_its_own_size(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    double *positions = base_arena_alloc(room->a, p->row_count, sizeof *positions);
    positions[pattern_find_row(p, "upper bust")] = 3;
    positions[pattern_find_row(p, "bust")] = 3;
    positions[pattern_find_row(p, "waist")] = 5;
    positions[pattern_find_row(p, "hip")] = 4;
    for (int group = 0; group < GROUPS; group++) {
        struct draft_figure figure = draft_figure_at(3, group);
        figure.level_position = positions;
        const struct draft_sized *blend = sound_draft(room, p, &figure);
        const struct draft_sized *four = size_at(room->a, p, 3, group, room->errs);
        const struct draft_sized *five = size_at(room->a, p, 4, group, room->errs);
        const struct draft_sized *six = size_at(room->a, p, 5, group, room->errs);
        assert_near(length(blend, "bib back", "neckline"), length(four, "bib back", "neckline"), HAIR_MM);
        assert_near(place(blend, "bib back", "underarm").x, place(four, "bib back", "underarm").x, HAIR_MM);
        assert_near(bib_waist(blend, group), bib_waist(six, group), HAIR_MM);
        assert_near(length(blend, "waistband front", "left"), length(six, "waistband front", "left"), HAIR_MM);
        assert_near(length(blend, "skirt front", "waist"), length(six, "skirt front", "waist"), HAIR_MM);
        assert_near(place(blend, "skirt back", "hip").x, place(five, "skirt back", "hip").x, HAIR_MM);
        assert_near(place(blend, "skirt front", "hem side").x, place(five, "skirt front", "hem side").x, 2);
        check_facings(blend, group);
    }
}

static double *positions_of(struct room *room, const struct pattern *p, const struct sizing_body *body)
{
    double *positions = base_arena_alloc(room->a, p->row_count, sizeof *positions);
    for (size_t i = 0; i < p->row_count; i++) {
        const struct sizing_measurement *m = sizing_body_find(body, p->chart[i].name);
        positions[i] = m ? sizing_row_position(p->chart[i].value, m->mm) : positions[0];
    }
    return positions;
}

static void check_blend(struct room *room, const struct pattern *p, double position, const double *positions)
{
    for (int group = 0; group < GROUPS; group++) {
        struct draft_figure figure = draft_figure_at(position, group);
        figure.level_position = positions;
        check_facings(sound_draft(room, p, &figure), group);
    }
}

static void both_bodies_can_be_blended_for(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    for (int i = 0; i < 2; i++) {
        const struct sizing_body *body = sizing_body_read(room->a, body_paths[i], room->errs);
        assert_non_null(body);
        const double *positions = positions_of(room, p, body);
        check_blend(room, p, positions[p->main_row], positions);
    }
}

/* The minimal standard generator (Park and Miller 1988), so that the bodies are the same on every run. */
static double uniform(uint64_t *state)
{
    *state = *state * 48271 % 2147483647;
    return (double)*state / 2147483647;
}

static double within(double position, double last)
{
    return fmin(last, fmax(0, position));
}

/* Bodies anywhere in the chart, whose waist and hip lie up to three sizes off (of 600 measured women the correlation of
 * bust to waist is 0.84, of bust to hip 0.74: two sizes are usual). */
static void two_hundred_bodies_can_be_blended_for(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    uint64_t dice = 20260417;
    double last = (double)p->size_count - 1;
    struct room own = *room;
    for (int body = 0; body < BODIES; body++) {
        own.a = base_arena_create();
        double *positions = base_arena_alloc(own.a, p->row_count, sizeof *positions);
        double upper = last * uniform(&dice);
        for (size_t i = 0; i < p->row_count; i++)
            positions[i] = within(upper + 6 * uniform(&dice) - 3, last);
        positions[pattern_find_row(p, "upper bust")] = upper;
        check_blend(&own, p, upper, positions);
        base_arena_destroy(own.a);
    }
}

/* To the body's own measurements instead of the chart's. */
static void both_bodies_can_be_drafted_to(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    for (int i = 0; i < 2; i++)
        for (int group = 0; group < GROUPS; group++) {
            const struct sizing_body *body = sizing_body_read(room->a, body_paths[i], room->errs);
            double *own = base_arena_alloc(room->a, p->figure_count, sizeof *own);
            for (size_t k = 0; k < p->figure_count; k++) {
                const struct sizing_measurement *m = sizing_body_find(body, p->figures[k]);
                own[k] = m ? m->mm : 0;
            }
            struct draft_figure figure = draft_figure_at(positions_of(room, p, body)[0], group);
            figure.body_mm = own;
            const struct draft_sized *sized = sound_draft(room, p, &figure);
            double round = 2 * (length(sized, "waistband front", "left") + length(sized, "waistband back", "left"));
            assert_near(round, sizing_body_find(body, "waist")->mm + 55, 4 * HAIR_MM); /* her waist and its ease */
        }
}

/* Size 5 for a back 2 cm longer than the chart's and a knee 1 cm lower, all else as the chart has it. */
static void lengths_of_a_body_move_waist_and_hem(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    double *own = base_arena_alloc(room->a, p->figure_count, sizeof *own);
    for (size_t k = 0; k < p->figure_count; k++)
        own[k] = 0;
    own[pattern_find_figure(p, "back waist length")] = 430;
    own[pattern_find_figure(p, "waist to knee")] = 590;
    for (int group = 0; group < GROUPS; group++) {
        struct draft_figure figure = draft_figure_at(4, group);
        figure.body_mm = own;
        const struct draft_sized *now = sound_draft(room, p, &figure), *was = size_at(room->a, p, 4, group, room->errs);
        const char *const bibs[] = { bib_of[group], "bib back" };
        for (int i = 0; i < 2; i++) {
            assert_near(place(now, bibs[i], "neck").y, place(was, bibs[i], "neck").y + 20, HAIR_MM);
            assert_near(length(now, bibs[i], "neckline"), length(was, bibs[i], "neckline"), HAIR_MM);
        }
        assert_near(place(now, "skirt front", "hem centre").y, place(was, "skirt front", "hem centre").y - 10, HAIR_MM);
        assert_near(length(now, "skirt panel back", "left"), length(was, "skirt panel back", "left") + 10, HAIR_MM);
        check_facings(now, group);
    }
}

/* Size 5, altered. */
static const struct draft_sized *altered(struct room *room, const struct pattern *p, int group,
                                         const struct draft_alteration *alterations, size_t count)
{
    struct draft_figure figure = draft_figure_at(4, group);
    figure.alterations = alterations;
    figure.alteration_count = count;
    return sound_draft(room, p, &figure);
}

static const struct draft_sized *as_written(struct room *room, const struct pattern *p, int group)
{
    return size_at(room->a, p, 4, group, room->errs);
}

static void a_bib_lengthened_by_20_mm_keeps_neck_and_armhole(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    static const struct draft_alteration longer[] = { { DRAFT_LENGTHEN, "bib", PATTERN_NONE, 20 } };
    for (int group = 0; group < GROUPS; group++) {
        const struct draft_sized *was = as_written(room, p, group), *now = altered(room, p, group, longer, 1);
        const char *const bibs[] = { bib_of[group], "bib back" };
        for (int i = 0; i < 2; i++) {
            assert_near(place(now, bibs[i], "waist side").y, place(was, bibs[i], "waist side").y - 20, HAIR_MM);
            assert_near(place(now, bibs[i], "waist centre").y, place(was, bibs[i], "waist centre").y - 20, HAIR_MM);
            assert_near(length(now, bibs[i], "armhole"), length(was, bibs[i], "armhole"), HAIR_MM);
        }
        check_facings(now, group);
        assert_near(length(now, facing_of[group], "side"), 45, HAIR_MM); /* it ends above the line */
    }
}

static void a_skirt_is_lengthened_by_50_mm_in_every_view(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    static const struct draft_alteration longer[] = { { DRAFT_LENGTHEN, "skirt", PATTERN_NONE, 50 } };
    static const char *const skirts[] = { "skirt front", "skirt back", "skirt front midi", "skirt back midi" };
    static const char *const panels[] = { "skirt panel front", "skirt panel back" };
    const struct draft_sized *was = as_written(room, p, A_B), *now = altered(room, p, A_B, longer, 1);
    for (int i = 0; i < 4; i++)
        assert_near(place(now, skirts[i], "hem centre").y, place(was, skirts[i], "hem centre").y - 50, HAIR_MM);
    for (int i = 0; i < 2; i++)
        assert_near(length(now, panels[i], "right"), length(was, panels[i], "right") + 50, HAIR_MM);
}

/* Half of the extra on either half of the front. Darts' legs stay equal, and seams keep their lengths: what the bust
 * needs is taken up by the darts alone. */
static void a_bust_fuller_by_30_mm_opens_the_darts_of_the_full_front(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    static const struct draft_alteration fuller[] = { { DRAFT_BUST, NULL, PATTERN_NONE, 30 } };
    const struct draft_sized *was = as_written(room, p, C_D), *now = altered(room, p, C_D, fuller, 1);
    const char *front = "bib front full";
    assert_near(distance(now, front, "dart in", "dart out"), distance(was, front, "dart in", "dart out") + 15, HAIR_MM);
    assert_true(distance(now, front, "side dart up", "side dart low") >
                distance(was, front, "side dart up", "side dart low") + 5);
    assert_near(distance(now, front, "dart in", "waist apex"), distance(now, front, "dart out", "waist apex"), HAIR_MM);
    assert_near(distance(now, front, "side dart up", "side dart apex"),
                distance(now, front, "side dart low", "side dart apex"), HAIR_MM);
    assert_near(bib_waist(now, C_D), bib_waist(was, C_D), HAIR_MM);
    assert_near(length(now, front, "armhole"), length(was, front, "armhole"), HAIR_MM);
    check_facings(now, C_D);
}

/* What is asked for is what a tape round the sewn bust has more, to the 2 mm that a tape tells; the band and the hip
 * stay as they were. The A-B front has no spread. */
static void the_bust_on_the_pieces_grows_by_what_it_is_made_fuller(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    static const double more_mm[] = { 40, 20, -10 };
    for (int i = 0; i < 3; i++)
        for (double size = 0; size < 10; size += 4.5) {
            const struct draft_alteration fuller[] = { { DRAFT_BUST, NULL, PATTERN_NONE, more_mm[i] } };
            struct draft_figure figure = draft_figure_at(size, C_D);
            const struct draft_sized *was = sound_draft(room, p, &figure);
            figure.alterations = fuller;
            figure.alteration_count = 1;
            const struct draft_sized *now = sound_draft(room, p, &figure);
            assert_near(fit_girth_mm(now, "bust"), fit_girth_mm(was, "bust") + more_mm[i], 2);
            assert_near(fit_girth_mm(now, "waist"), fit_girth_mm(was, "waist"), HAIR_MM);
            assert_near(fit_girth_mm(now, "hip"), fit_girth_mm(was, "hip"), HAIR_MM);
        }
}

/* Longer bibs and narrower waists change no bust, with or without a fuller bust beside them. */
static void a_fuller_bust_is_measured_beside_other_alterations(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    const struct draft_alteration all[] = { { DRAFT_LENGTHEN, "bib", PATTERN_NONE, 20 },
                                            { DRAFT_BUST, NULL, PATTERN_NONE, 40 },
                                            { DRAFT_TAKE_IN, "bib side", pattern_find_row(p, "waist"), 6 },
                                            { DRAFT_TAKE_IN, "skirt side", pattern_find_row(p, "waist"), 6 } };
    const struct draft_sized *was = as_written(room, p, C_D), *now = altered(room, p, C_D, all, 4);
    assert_near(fit_girth_mm(now, "bust"), fit_girth_mm(was, "bust") + 40, 2);
    assert_near(fit_girth_mm(now, "waist"), fit_girth_mm(was, "waist") - 24, 1);
}

/* Each of the two side seams moves by as much into front and back, so that the waist becomes four times as much
 * smaller. The band, gathered panels and facings are drafted from what they join. */
static void a_waist_taken_in_at_both_sides_is_taken_in_everywhere(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    int waist = pattern_find_row(p, "waist");
    const struct draft_alteration in[] = { { DRAFT_TAKE_IN, "bib side", waist, 6 },
                                           { DRAFT_TAKE_IN, "skirt side", waist, 6 } };
    for (int group = 0; group < GROUPS; group++) {
        const struct draft_sized *was = as_written(room, p, group), *now = altered(room, p, group, in, 2);
        assert_near(bib_waist(now, group), bib_waist(was, group) - 6, 0.3); /* the waist slopes at its side */
        assert_near(length(now, "waistband front", "left"), length(was, "waistband front", "left") - 6, 0.3);
        assert_near(length(now, "waistband back", "left"), length(was, "waistband back", "left") - 6, 0.3);
        assert_near(length(now, "skirt front", "waist"), length(was, "skirt front", "waist") - 6, 0.3);
        assert_near(length(now, "skirt panel back", "top"), length(was, "skirt panel back", "top") - 1.8 * 6, 0.5);
        assert_near(place(now, "skirt front", "hip").x, place(was, "skirt front", "hip").x, HAIR_MM);
        check_facings(now, group);
    }
}

/* The band's side seam is its short end: there is nothing to take in, which is told. */
static void a_waistband_is_not_taken_in_by_itself(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    const struct draft_alteration in[] = { { DRAFT_TAKE_IN, "waistband side", pattern_find_row(p, "waist"), 6 } };
    struct draft_figure figure = draft_figure_at(4, A_B);
    figure.alterations = in;
    figure.alteration_count = 1;
    const struct draft_sized *now = draft_size(room->a, p, &figure, room->errs);
    assert_true(base_err_list_has(room->errs, "draft.no_level"));
    assert_near(length(now, "waistband front", "top"), 40, HAIR_MM);
}

static double between(uint64_t *dice, double from, double to)
{
    return from + (to - from) * uniform(dice);
}

/* All at once: blends that are lengthened or shortened, spread, and taken in or let out. More than 8 mm at each side
 * puts the full front, whose side slopes more below its dart, out of step with the back, which is told. */
static void a_hundred_blends_can_be_altered(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    uint64_t dice = 19;
    double last = (double)p->size_count - 1;
    int waist = pattern_find_row(p, "waist");
    struct room own = *room;
    for (int i = 0; i < BODIES / 2; i++) {
        own.a = base_arena_create();
        double *positions = base_arena_alloc(own.a, p->row_count, sizeof *positions);
        double upper = last * uniform(&dice), side = between(&dice, -6, 6);
        for (size_t k = 0; k < p->row_count; k++)
            positions[k] = within(upper + between(&dice, -2, 2), last);
        const struct draft_alteration all[] = { { DRAFT_LENGTHEN, "bib", PATTERN_NONE, between(&dice, -20, 20) },
                                                { DRAFT_LENGTHEN, "skirt", PATTERN_NONE, between(&dice, -80, 80) },
                                                { DRAFT_TAKE_IN, "bib side", waist, side },
                                                { DRAFT_TAKE_IN, "skirt side", waist, side },
                                                { DRAFT_BUST, NULL, PATTERN_NONE, between(&dice, 0, 40) } };
        struct draft_figure figure = draft_figure_at(upper, i % GROUPS);
        figure.level_position = positions;
        figure.alterations = all;
        figure.alteration_count = sizeof all / sizeof all[0];
        check_facings(sound_draft(&own, p, &figure), i % GROUPS);
        base_arena_destroy(own.a);
    }
}

/* For a trial of the fit: no facings, pockets or ties, and an inch to let out from at every edge but the fold. */
static void a_trial_garment_has_main_pieces_alone(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_demo(room);
    static const char *const left_out[] = { "facing", "pocket", "tie" };
    struct draft_figure figure = draft_figure_at(4, C_D);
    figure.trial = true;
    for (int view = 0; view < (int)p->view_count; view++) {
        struct draft draft;
        assert_true(draft_make(room->a, p, &figure, view, &draft, room->errs));
        room_nothing_told(room);
        assert_int_equal(draft.piece_count, view == 2 ? 5 : 7); /* bib, strap and band; and a skirt, but in view C */
        for (size_t i = 0; i < draft.piece_count; i++) {
            const struct pattern_piece *piece = &p->pieces[draft.pieces[i].index];
            for (int k = 0; k < 3; k++)
                assert_null(strstr(piece->name, left_out[k]));
            for (int e = 0; e < (int)piece->edge_count; e++)
                assert_near(draft.sized->pieces[draft.pieces[i].index].allowance_mm[e], e == piece->fold ? 0 : 25.4, 0);
        }
    }
}

int main(int argc, char **argv)
{
    if (argc != 4)
        return 2;
    demo_path = argv[1];
    body_paths[0] = argv[2];
    body_paths[1] = argv[3];
    const struct CMUnitTest tests[] = {
        room_test(a_blend_has_every_level_of_its_own_size),
        room_test(both_bodies_can_be_blended_for),
        room_test(two_hundred_bodies_can_be_blended_for),
        room_test(both_bodies_can_be_drafted_to),
        room_test(lengths_of_a_body_move_waist_and_hem),
        room_test(a_bib_lengthened_by_20_mm_keeps_neck_and_armhole),
        room_test(a_skirt_is_lengthened_by_50_mm_in_every_view),
        room_test(a_bust_fuller_by_30_mm_opens_the_darts_of_the_full_front),
        room_test(the_bust_on_the_pieces_grows_by_what_it_is_made_fuller),
        room_test(a_fuller_bust_is_measured_beside_other_alterations),
        room_test(a_waist_taken_in_at_both_sides_is_taken_in_everywhere),
        room_test(a_waistband_is_not_taken_in_by_itself),
        room_test(a_hundred_blends_can_be_altered),
        room_test(a_trial_garment_has_main_pieces_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
