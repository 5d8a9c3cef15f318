/* The blocks, drafted wholly to many bodies: finished girths as a tape would find them across the pieces, against the
 * body's with the ease that the file promises. Girths are drawn with means and deviations of 600 women (R package
 * Anthropometry 1.20, sampleSpanishSurvey: bust 959.5 / 119.9, waist 856.1 / 142.6, hip 1054.6 / 109.4 mm) and the
 * correlations of 1986 (ANSUR II: bust to waist 0.844, bust to hip 0.743, waist to hip 0.803). */
#include "support/drafted.h"

#include "fit/girth.h"
#include "fit/mismatch.h"

#include <math.h>
#include <stdint.h>

#define GIRTH_MM 2.0
#define LEGS_MM 0.1
#define SEAM_MM 1.0
#define CAP_MM 0.5     /* the seam beside the mouth is a little curved, and so is its mirror image */
#define SQUARE_DEG 2.0 /* over the first half millimetre of a curve (our own) */

enum { BODIES = 500 };

/* The minimal standard generator (Park and Miller 1988), so that the bodies are the same on every run. */
struct dice {
    uint64_t state;
};

static double uniform(struct dice *dice)
{
    dice->state = dice->state * 48271 % 2147483647;
    return (double)dice->state / 2147483647;
}

/* Normal with mean 0 and deviation 1: twelve uniform ones, less six (the central limit). */
static double normal(struct dice *dice)
{
    double sum = -6;
    for (int i = 0; i < 12; i++)
        sum += uniform(dice);
    return sum;
}

struct girths {
    double bust, waist, hip;
};

/* By Cholesky's factor of the correlations: (0.844, 0.536), (0.743, 0.328, 0.583). */
static struct girths draw_girths(struct dice *dice)
{
    double a = normal(dice), b = normal(dice), c = normal(dice);
    return (struct girths){ 959.5 + 119.9 * a, 856.1 + 142.6 * (0.844 * a + 0.536 * b),
                            1054.6 + 109.4 * (0.743 * a + 0.328 * b + 0.583 * c) };
}

/* Within the intervals of EN 13402-3, widened by a class at either end. */
static bool is_plausible(struct girths g)
{
    return g.bust > 700 && g.bust < 1370 && g.waist > 540 && g.waist < 1210 && g.hip > 780 && g.hip < 1400;
}

static struct girths next_girths(struct dice *dice)
{
    struct girths g = draw_girths(dice);
    while (!is_plausible(g))
        g = draw_girths(dice);
    return g;
}

/* How much of a level line lies within the closed path. */
static double width_at(struct geometry_path p, double y)
{
    double sum = 0;
    for (size_t i = 0; i < p.count; i++) {
        vec2 from = p.points[i], to = p.points[(i + 1) % p.count];
        if ((from.y > y) == (to.y > y))
            continue;
        double x = from.x + (to.x - from.x) * (y - from.y) / (to.y - from.y);
        sum += to.y > from.y ? x : -x; /* counter-clockwise: up on the right, down on the left */
    }
    return sum;
}

/* What darts take of that: their legs are lines 0 and 1, 2 and 3 ... of the piece. */
static double darts_at(const struct draft_piece *d, double y)
{
    double sum = 0;
    for (size_t i = 0; i + 1 < d->line_count && d->lines[i].kind == PATTERN_LINE_DART; i += 2) {
        struct piece_pt apex = d->lines[i].ends[1], one = d->lines[i].ends[0], other = d->lines[i + 1].ends[0];
        double share = (y - apex.y) / (one.y - apex.y);
        if (fabs(one.y - other.y) < 1 && share > 0 && share <= 1) /* darts that stand upright */
            sum += fabs(one.x - other.x) * share;
    }
    return sum;
}

static double sewn_at(const struct draft *d, const char *piece, double y)
{
    const struct draft_piece *drafted = drafted_piece(d, piece);
    return width_at(drafted->seam.path, y) - darts_at(drafted, y);
}

/* An edge without the mouths of its darts. */
static double sewn_edge(const struct draft *d, const char *piece, const char *edge)
{
    const struct draft_piece *drafted = drafted_piece(d, piece);
    const struct pattern_piece *written = &d->sized->pattern->pieces[drafted->index];
    double sum = edge_mm(d, piece, edge);
    for (size_t i = 0; i < written->dart_count; i++) {
        double mouth[2];
        assert_true(draft_dart_mouth(sized_piece(d, piece), &written->darts[i], mouth));
        if (strcmp(written->edges[written->darts[i].edge].name, edge) == 0)
            sum -= mouth[1] - mouth[0];
    }
    return sum;
}

/* The waist's seam, all round. */
static double waist_of(const struct draft *d)
{
    return 2 * (sewn_edge(d, "front", "waist") + sewn_edge(d, "back", "waist"));
}

/* Legs of every dart are equal; the widest mouth of the piece comes back. */
static double check_darts(const struct draft *d, const char *piece)
{
    const struct draft_piece *drafted = drafted_piece(d, piece);
    double widest = 0;
    for (size_t i = 0; i + 1 < drafted->line_count && drafted->lines[i].kind == PATTERN_LINE_DART; i += 2) {
        const struct piece_pt *one = drafted->lines[i].ends, *other = drafted->lines[i + 1].ends;
        assert_near(hypot(one[0].x - one[1].x, one[0].y - one[1].y),
                    hypot(other[0].x - other[1].x, other[0].y - other[1].y), LEGS_MM);
        widest = fmax(widest, hypot(one[0].x - other[0].x, one[0].y - other[0].y));
    }
    return widest;
}

/* Degrees between the edge as it leaves its end, or arrives there, and the way from that place to another. */
static double corner_deg(struct geometry_path p, vec2 at, vec2 to, int side)
{
    double along;
    geometry_path_distance(p, at, &along);
    vec2 ahead, off = geometry_path_at(p, along + 0.5 * side, &ahead);
    vec2 one = vec2_unit(vec2_sub(off, at)), other = vec2_unit(vec2_sub(to, at));
    return acos(fmax(-1, fmin(1, vec2_dot(one, other)))) * 180 / acos(-1.0);
}

static struct draft skirt_for(struct room *room, struct arena *scratch, const struct pattern *p, double waist,
                              double hip)
{
    const struct taped body[] = { { "waist", waist }, { "hip", hip }, { "hip depth", 205 }, { "skirt length", 600 } };
    struct draft_figure figure = figure_of(scratch, p, body, 4);
    return draft_figure_soundly(scratch, p, &figure, room);
}

#define SKIRT_WAIST_EASE 20.0
#define SKIRT_HIP_EASE 50.0

static void check_skirt(struct arena *scratch, const struct draft *d, double waist, double hip)
{
    double at_hip = sewn_at(d, "front", -204.99) + sewn_at(d, "back", -204.99);
    assert_near(2 * at_hip, hip + SKIRT_HIP_EASE, GIRTH_MM);
    assert_near(waist_of(d), waist + SKIRT_WAIST_EASE, GIRTH_MM);
    assert_near(edge_mm(d, "front", "side"), edge_mm(d, "back", "side"), 1e-9);
    seams_match(scratch, d, SEAM_MM);
    double widest = fmax(check_darts(d, "front"), check_darts(d, "back"));
    /* Darts of a skirt take up to 4 cm each (common practice, no source), and in proportion where hips are wider. */
    assert_true(widest > 0 && widest < fmax(40, 0.12 * (hip + 30 - waist)));
}

static void a_skirt_fits_five_hundred_bodies(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_draft(room, "drafts/skirt-block.json");
    struct arena *scratch = base_arena_create();
    struct dice dice = { 20131 };
    for (int i = 0; i < BODIES; i++) {
        struct girths g = next_girths(&dice);
        struct draft d = skirt_for(room, scratch, p, g.waist, g.hip);
        check_skirt(scratch, &d, g.waist, g.hip);
        base_arena_reset(scratch);
    }
    base_arena_destroy(scratch);
}

/* A waist as wide as the hip or wider has nothing to be taken in: darts shrink to a millimetre or two and keep their
 * place, the side leans out. */
static void a_skirt_for_a_waist_wider_than_the_hip_is_sound(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_draft(room, "drafts/skirt-block.json");
    static const double rows[][2] = { { 1000, 1000 }, { 1030, 1000 }, { 1100, 1000 }, { 1250, 1050 } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct draft d = skirt_for(room, room->a, p, rows[i][0], rows[i][1]);
        check_skirt(room->a, &d, rows[i][0], rows[i][1]);
    }
}

/* Where seams cross they are square, so that the waist runs on smoothly over fold, side and sewn dart (common practice,
 * no source): waist 76 cm, hip 100 cm. */
static void a_skirts_waist_is_square_to_folds_sides_and_darts(void **state)
{
    struct room *room = *state;
    struct draft d = skirt_for(room, room->a, read_draft(room, "drafts/skirt-block.json"), 760, 1000);
    static const struct {
        const char *piece, *at, *to;
        int side; /* the edge is looked at before (-1) or after that place */
    } rows[] = {
        { "front", "waist centre", "hem centre", -1 }, { "front", "dart in", "apex", 1 },
        { "front", "dart out", "apex", -1 },           { "back", "waist centre", "hem centre", -1 },
        { "back", "outer out", "outer apex", -1 },     { "back", "outer in", "outer apex", 1 },
        { "back", "inner out", "inner apex", -1 },     { "back", "inner in", "inner apex", 1 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double corner = corner_deg(edge_of(&d, rows[i].piece, "waist"), point_of(&d, rows[i].piece, rows[i].at),
                                   point_of(&d, rows[i].piece, rows[i].to), rows[i].side);
        if (fabs(corner - 90) > SQUARE_DEG)
            fail_msg("%s: %.2f degrees at %s", rows[i].piece, corner, rows[i].at);
    }
    for (int back = 0; back < 2; back++) {
        const char *piece = back ? "back" : "front";
        vec2 at = point_of(&d, piece, "waist side"), ahead;
        struct geometry_path side = edge_of(&d, piece, "side");
        vec2 low = geometry_path_at(side, geometry_path_length(side) - 0.5, &ahead);
        assert_near(corner_deg(edge_of(&d, piece, "waist"), at, low, 1), 90, SQUARE_DEG);
    }
}

/* A mouth of 2 a folds flat on a seam that is square to both its legs, l deep: what is cut runs on square to the leg,
 * so that over the apex the stitching line would stand a^2 / l higher (similar triangles), and the cut line by its
 * allowance, which lies aslant there, more. */
static void a_darts_mouth_has_the_cap_that_its_fold_needs(void **state)
{
    struct room *room = *state;
    struct draft d = skirt_for(room, room->a, read_draft(room, "drafts/skirt-block.json"), 760, 1000);
    vec2 in = point_of(&d, "front", "dart in"), out = point_of(&d, "front", "dart out");
    double a = (out.x - in.x) / 2, l = 102.5;
    assert_near(point_of(&d, "front", "apex").y, in.y - l, 1e-6);
    double cap = in.y + a * a / l + 15 * hypot(a, l) / l, middle = (in.x + out.x) / 2;
    double along;
    double off = geometry_path_distance(drafted_piece(&d, "front")->cut.path, (vec2){ middle, cap }, &along);
    assert_near(off, 0, CAP_MM);
}

#define BUST_EASE 60.0
#define BODICE_WAIST_EASE 30.0
#define NECK_EASE 10.0

/* Neck, back and shoulder by ANSUR II's means and deviations; the rest in proportion, our own. */
struct torso {
    double bust, upper_bust, waist, neck, back, armhole, shoulder, points;
};

static struct torso next_torso(struct dice *dice)
{
    struct girths g = next_girths(dice);
    return (struct torso){ g.bust,
                           g.bust - 140 * uniform(dice),
                           g.waist,
                           371 + 20 * normal(dice),
                           425 + 26 * normal(dice),
                           215 + 0.12 * (g.bust - 920) + 8 * normal(dice),
                           135 + 10 * normal(dice),
                           0.2 * g.bust + 8 * normal(dice) };
}

static struct draft bodice_for(struct room *room, struct arena *scratch, const struct pattern *p, const struct torso *t)
{
    const struct taped body[] = { { "bust", t->bust },
                                  { "upper bust", t->upper_bust },
                                  { "waist", t->waist },
                                  { "neck", t->neck },
                                  { "back waist length", t->back },
                                  { "armhole depth", t->armhole },
                                  { "shoulder length", t->shoulder },
                                  { "bust point distance", t->points } };
    struct draft_figure figure = figure_of(scratch, p, body, sizeof body / sizeof body[0]);
    return draft_figure_soundly(scratch, p, &figure, room);
}

/* At the level of the bust points the tape runs along the sewn side dart, that is along its leg. */
static double bust_of(const struct draft *d)
{
    vec2 apex = point_of(d, "front", "side apex"), low = point_of(d, "front", "mouth low");
    return 2 * (apex.x + vec2_length(vec2_sub(low, apex)) + sewn_at(d, "back", point_of(d, "back", "bust side").y));
}

static void check_bodice(struct arena *scratch, const struct draft *d, const struct torso *t)
{
    assert_near(bust_of(d), t->bust + BUST_EASE, GIRTH_MM);
    assert_near(waist_of(d), t->waist + BODICE_WAIST_EASE, GIRTH_MM);
    assert_near(2 * (edge_mm(d, "front", "neck") + edge_mm(d, "back", "neck")), t->neck + NECK_EASE, GIRTH_MM);
    assert_near(edge_mm(d, "back", "centre"), t->back, 1e-6);
    assert_near(sewn_edge(d, "front", "side"), edge_mm(d, "back", "side"), 1e-6);
    assert_near(edge_mm(d, "front", "shoulder"), t->shoulder, 1e-6);
    assert_near(edge_mm(d, "back", "shoulder"), t->shoulder, 1e-6);
    seams_match(scratch, d, SEAM_MM);
    double waist = check_darts(d, "back"), widest = fmax(check_darts(d, "front"), waist);
    /* A mouth takes less than a quarter of its piece: wider is no dart but a seam (our own). */
    assert_true(waist > 0 && widest < 0.25 * (t->bust + BUST_EASE) / 4 + 35);
}

/* What the file says that the sewn garment measures is what its pieces come to, in every size and half size. */
static void finished_measurements_are_those_of_the_pieces(void **state)
{
    struct room *room = *state;
    const struct pattern *bodice = read_draft(room, "drafts/bodice-block.json"),
                         *skirt = read_draft(room, "drafts/skirt-block.json");
    for (double at = 0; at <= 11; at += 0.5) {
        struct draft_figure figure = draft_figure_at(at, PATTERN_NONE);
        struct draft top = draft_figure_soundly(room->a, bodice, &figure, room);
        struct draft low = draft_figure_soundly(room->a, skirt, &figure, room);
        double hip = 0.01 - pattern_value_at(skirt->chart[pattern_find_row(skirt, "hip depth")].value, at);
        assert_near(bust_of(&top), pattern_value_at(pattern_finished(bodice, "bust", PATTERN_NONE), at), GIRTH_MM);
        assert_near(waist_of(&top), pattern_value_at(pattern_finished(bodice, "waist", PATTERN_NONE), at), GIRTH_MM);
        assert_near(waist_of(&low), pattern_value_at(pattern_finished(skirt, "waist", PATTERN_NONE), at), GIRTH_MM);
        assert_near(2 * (sewn_at(&low, "front", hip) + sewn_at(&low, "back", hip)),
                    pattern_value_at(pattern_finished(skirt, "hip", PATTERN_NONE), at), GIRTH_MM);
    }
}

static void a_bodice_fits_five_hundred_bodies(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_draft(room, "drafts/bodice-block.json");
    struct arena *scratch = base_arena_create();
    struct dice dice = { 4711 };
    for (int i = 0; i < BODIES; i++) {
        struct torso t = next_torso(&dice);
        struct draft d = bodice_for(room, scratch, p, &t);
        check_bodice(scratch, &d, &t);
        base_arena_reset(scratch);
    }
    base_arena_destroy(scratch);
}

/* A waist wider than the bust, an upper bust as wide: nothing to be taken in. */
static void a_bodice_with_nothing_to_take_in_is_sound(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_draft(room, "drafts/bodice-block.json");
    static const struct torso rows[] = {
        { 900, 900, 930, 370, 420, 215, 130, 190 },
        { 900, 930, 1000, 370, 420, 215, 130, 190 },
        { 1100, 1080, 1200, 400, 430, 240, 140, 220 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct draft d = bodice_for(room, room->a, p, &rows[i]);
        check_bodice(room->a, &d, &rows[i]);
    }
}

/* As of the skirt: bust 92, upper bust 88, waist 74 cm. Of the shoulder both neck and armhole, too. */
static void a_bodices_seams_are_square_where_they_cross(void **state)
{
    struct room *room = *state;
    static const struct torso body = { 920, 880, 740, 370, 410, 215, 128, 185 };
    struct draft d = bodice_for(room, room->a, read_draft(room, "drafts/bodice-block.json"), &body);
    static const struct {
        const char *piece, *edge, *at, *to;
        int side;
    } rows[] = {
        { "front", "waist", "waist centre", "neck centre", 1 },
        { "front", "waist", "dart in", "apex", -1 },
        { "front", "waist", "dart out", "apex", 1 },
        { "front", "waist", "waist side", "mouth low", -1 },
        { "front", "neck", "neck centre", "waist centre", -1 },
        { "front", "neck", "neck point", "shoulder tip", 1 },
        { "front", "armhole", "shoulder tip", "neck point", -1 },
        { "back", "waist", "waist centre", "nape", 1 },
        { "back", "waist", "dart in", "apex", -1 },
        { "back", "waist", "dart out", "apex", 1 },
        { "back", "waist", "waist side", "underarm", -1 },
        { "back", "neck", "nape", "waist centre", -1 },
        { "back", "neck", "neck point", "shoulder tip", 1 },
        { "back", "armhole", "shoulder tip", "neck point", -1 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double corner = corner_deg(edge_of(&d, rows[i].piece, rows[i].edge), point_of(&d, rows[i].piece, rows[i].at),
                                   point_of(&d, rows[i].piece, rows[i].to), rows[i].side);
        if (fabs(corner - 90) > SQUARE_DEG)
            fail_msg("%s %s: %.2f degrees at %s", rows[i].piece, rows[i].edge, corner, rows[i].at);
    }
}

/* The side dart sewn, the side runs on straight: what is above it turns with it by the dart's whole angle. */
static void a_side_runs_straight_over_its_sewn_dart(void **state)
{
    struct room *room = *state;
    static const struct torso body = { 960, 880, 760, 370, 410, 215, 128, 190 };
    struct draft d = bodice_for(room, room->a, read_draft(room, "drafts/bodice-block.json"), &body);
    vec2 apex = point_of(&d, "front", "side apex"), low = vec2_sub(point_of(&d, "front", "mouth low"), apex);
    vec2 high = vec2_sub(point_of(&d, "front", "mouth high"), apex);
    vec2 below = vec2_sub(point_of(&d, "front", "mouth low"), point_of(&d, "front", "waist side"));
    vec2 above = vec2_sub(point_of(&d, "front", "underarm"), point_of(&d, "front", "mouth high"));
    double opening = atan2(high.y, high.x) - atan2(low.y, low.x),
           turn = atan2(above.y, above.x) - atan2(below.y, below.x);
    assert_near(turn, opening, 1e-9);
    assert_near(high.y - low.y, 40, 1e-6); /* half of what the bust is wider than the upper bust */
}

/* How a block can be fitted. */
struct fitting {
    const char *file, *line, *edge[2]; /* its lengthen lines' name, or NULL; a piece's edge across one */
    double waist_mm, within_mm;        /* how much smaller all round for 6 mm into each of four pieces' sides */
};

/* The half circle's waist runs at 45 degrees to the grain where its side begins, and bends more then. */
static const struct fitting fittings[] = {
    { "drafts/skirt-block.json", "skirt", { "front", "side" }, 24, 1 },
    { "drafts/bodice-block.json", "bodice", { "back", "centre" }, 24, 1 },
    { "demo/skirt.json", NULL, { NULL, NULL }, 24 * 0.7071, 4 },
};

enum { FITTINGS = sizeof fittings / sizeof fittings[0] };

/* All is sewn to what it was, from notch to notch, and nobody is told otherwise. */
static const struct draft_sized *sewn_soundly(struct room *room, const struct pattern *p,
                                              const struct draft_figure *figure)
{
    struct draft d = draft_figure_soundly(room->a, p, figure, room);
    for (size_t s = 0; s < p->seam_count; s++) {
        assert_true(fit_seam_can_be_measured(d.sized, &p->seams[s]));
        struct fit_seam m = fit_seam_measure(room->a, d.sized, &p->seams[s]);
        if (!m.marks_agree || m.worst_mm > SEAM_MM)
            fail_msg("%s at %g: seam %s is off by %.2f mm", p->name,
                     figure->level_position ? figure->level_position[pattern_find_row(p, "waist")] : figure->position,
                     p->seams[s].name, m.worst_mm);
    }
    fit_tell_mismatches(d.sized, NULL, room->errs);
    room_nothing_told(room);
    return d.sized;
}

static double edge_of_piece_mm(const struct draft_sized *sized, const char *const name[2])
{
    int piece = pattern_find_piece(sized->pattern, name[0]);
    return geometry_path_length(
        sized->pieces[piece].edge_paths[pattern_find_edge(&sized->pattern->pieces[piece], name[1])]);
}

/* Two sizes apart either way: who needs one has a waist two sizes from the rest (our own choice). */
static void a_blend_of_a_block_keeps_its_seams(void **state)
{
    struct room *room = *state;
    for (int i = 0; i < FITTINGS; i++)
        for (int apart = -2; apart <= 2; apart++) {
            const struct pattern *p = read_draft(room, fittings[i].file);
            struct draft_figure figure = draft_figure_at(4, PATTERN_NONE), rest = figure;
            double *positions = base_arena_alloc(room->a, p->row_count, sizeof *positions);
            int waist = pattern_find_row(p, "waist");
            for (size_t row = 0; row < p->row_count; row++)
                positions[row] = 4;
            positions[waist] = 4 + apart;
            figure.level_position = positions;
            rest.position = 4 + apart;
            const struct draft_sized *blend = sewn_soundly(room, p, &figure), *whole = sewn_soundly(room, p, &rest);
            assert_near(fit_girth_mm(blend, "waist"), fit_girth_mm(whole, "waist"), GIRTH_MM);
            rest.position = 4;
            whole = sewn_soundly(room, p, &rest);
            assert_near(fit_girth_mm(blend, "hip"), fit_girth_mm(whole, "hip"), GIRTH_MM);
            assert_near(fit_girth_mm(blend, "bust"), fit_girth_mm(whole, "bust"), GIRTH_MM);
        }
}

static void a_block_taken_in_at_its_waist_keeps_its_seams(void **state)
{
    struct room *room = *state;
    for (int i = 0; i < FITTINGS; i++)
        for (double at = 0; at <= 9; at += 3) {
            const struct pattern *p = read_draft(room, fittings[i].file);
            const struct draft_alteration in = { DRAFT_TAKE_IN, "side", pattern_find_row(p, "waist"), 6 };
            struct draft_figure figure = draft_figure_at(at, PATTERN_NONE);
            const struct draft_sized *was = sewn_soundly(room, p, &figure);
            figure.alterations = &in;
            figure.alteration_count = 1;
            const struct draft_sized *now = sewn_soundly(room, p, &figure);
            assert_near(fit_girth_mm(now, "waist"), fit_girth_mm(was, "waist") - fittings[i].waist_mm,
                        fittings[i].within_mm);
            assert_near(fit_girth_mm(now, "hip"), fit_girth_mm(was, "hip"), 0.01);
            assert_near(fit_girth_mm(now, "bust"), fit_girth_mm(was, "bust"), 0.01);
        }
}

static void a_lengthened_block_keeps_its_seams(void **state)
{
    struct room *room = *state;
    for (int i = 0; i < FITTINGS; i++)
        for (double at = 0; fittings[i].line && at <= 9; at += 3) {
            const struct pattern *p = read_draft(room, fittings[i].file);
            const struct draft_alteration longer = { DRAFT_LENGTHEN, fittings[i].line, PATTERN_NONE, 20 };
            struct draft_figure figure = draft_figure_at(at, PATTERN_NONE);
            const struct draft_sized *was = sewn_soundly(room, p, &figure);
            figure.alterations = &longer;
            figure.alteration_count = 1;
            const struct draft_sized *now = sewn_soundly(room, p, &figure);
            assert_near(edge_of_piece_mm(now, fittings[i].edge), edge_of_piece_mm(was, fittings[i].edge) + 20, 0.01);
            assert_near(fit_girth_mm(now, "waist"), fit_girth_mm(was, "waist"), 0.01);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_skirt_fits_five_hundred_bodies),
        room_test(a_skirt_for_a_waist_wider_than_the_hip_is_sound),
        room_test(a_skirts_waist_is_square_to_folds_sides_and_darts),
        room_test(a_darts_mouth_has_the_cap_that_its_fold_needs),
        room_test(a_bodice_fits_five_hundred_bodies),
        room_test(a_bodice_with_nothing_to_take_in_is_sound),
        room_test(a_bodices_seams_are_square_where_they_cross),
        room_test(a_side_runs_straight_over_its_sewn_dart),
        room_test(a_blend_of_a_block_keeps_its_seams),
        room_test(a_block_taken_in_at_its_waist_keeps_its_seams),
        room_test(a_lengthened_block_keeps_its_seams),
        room_test(finished_measurements_are_those_of_the_pieces),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
