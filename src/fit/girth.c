#include "fit/girth.h"

#include "draft/draft.h"
#include "fit/seam.h"

#include <math.h>
#include <stdlib.h>

#define ON_LINE_MM 1e-6 /* nearer to the line a point lies on it: more than rounding, less than any thread */

enum { ABOVE, BELOW, LINE_SIDES };

/* Where the line goes in or out of a ring: as it is just above the line, or just below. */
struct crossing {
    double at; /* along the line */
    int side;
    size_t ring;
};

/* A level line across a piece. Its rings are the piece's outline and, behind it, its darts. */
struct level {
    struct arena *a;
    vec2 from, along, up;
    struct crossing *crossings;
    size_t count, cap;
    size_t ring_count;
};

static double height_of(const struct level *l, vec2 p)
{
    double height = vec2_dot(vec2_sub(p, l->from), l->up);
    return fabs(height) < ON_LINE_MM ? 0 : height;
}

static void add_crossing(struct level *l, double at, int side)
{
    l->crossings = base_arena_grow(l->a, l->crossings, &l->cap, l->count + 1, sizeof *l->crossings);
    l->crossings[l->count++] = (struct crossing){ at, side, l->ring_count };
}

static void cross_side(struct level *l, vec2 p, vec2 q)
{
    double from = height_of(l, p), to = height_of(l, q);
    if (from == to)
        return;
    vec2 met = vec2_add(p, vec2_scale(vec2_sub(q, p), from / (from - to)));
    double at = vec2_dot(vec2_sub(met, l->from), l->along);
    if ((from > 0) != (to > 0))
        add_crossing(l, at, ABOVE);
    if ((from < 0) != (to < 0))
        add_crossing(l, at, BELOW);
}

/* A ring is closed. */
static void cross_ring(struct level *l, struct geometry_path ring)
{
    for (size_t i = 0; i < ring.count; i++)
        cross_side(l, ring.points[i], ring.points[(i + 1) % ring.count]);
    l->ring_count++;
}

/* The outline as its edges are written: what is cut in the mouths of darts is sewn away with them. */
static void cross_outline(struct level *l, const struct pattern_piece *piece, const struct draft_sized_piece *at)
{
    size_t count = 0;
    for (size_t e = 0; e < piece->edge_count; e++)
        count += at->edge_paths[e].count;
    struct geometry_path ring = { base_arena_alloc(l->a, count, sizeof(vec2)), 0, true };
    for (size_t e = 0; e < piece->edge_count; e++)
        for (size_t i = 0; i < at->edge_paths[e].count; i++)
            ring.points[ring.count++] = at->edge_paths[e].points[i];
    cross_ring(l, ring);
}

/* Its mouth and its apex; nothing where it does not begin on its edge, which is told when it is drafted. */
static void cross_dart(struct level *l, const struct draft_sized_piece *at, const struct pattern_dart *dart)
{
    double mouth[2];
    if (!draft_dart_mouth(at, dart, mouth))
        return;
    struct geometry_path line = geometry_path_part(l->a, at->edge_paths[dart->edge], mouth[0], mouth[1]);
    struct geometry_path ring = { base_arena_alloc(l->a, line.count + 1, sizeof(vec2)), line.count + 1, true };
    for (size_t i = 0; i < line.count; i++)
        ring.points[i] = line.points[i];
    ring.points[line.count] = at->points[dart->apex];
    cross_ring(l, ring);
}

static int by_place(const void *a, const void *b)
{
    double first = ((const struct crossing *)a)->at, second = ((const struct crossing *)b)->at;
    return (first > second) - (first < second);
}

enum ground { OFF, IN_DART, ON_CLOTH };

/* The line walked from crossing to crossing. */
struct sweep {
    bool *is_in[LINE_SIDES];  /* each ring */
    size_t darts[LINE_SIDES]; /* how many it is in */
    enum ground was;
    struct fit_girth_part found;
};

static enum ground ground_of(const struct sweep *s)
{
    enum ground ground = OFF;
    for (int side = 0; side < LINE_SIDES; side++)
        if (s->is_in[side][0] && !s->darts[side])
            return ON_CLOTH;
        else if (s->is_in[side][0])
            ground = IN_DART;
    return ground;
}

static void note_ground(struct sweep *s, enum ground ground, double length_mm)
{
    s->found.stretches += s->was == OFF && ground != OFF;
    s->found.meets_mouth =
        s->found.meets_mouth || (s->was == OFF && ground == IN_DART) || (s->was == IN_DART && ground == OFF);
    s->found.mm += ground == ON_CLOTH ? length_mm : 0;
    s->was = ground;
}

static void pass(struct sweep *s, const struct crossing *c)
{
    bool *is_in = &s->is_in[c->side][c->ring];
    *is_in = !*is_in;
    if (c->ring && *is_in)
        s->darts[c->side]++;
    else if (c->ring)
        s->darts[c->side]--;
}

static struct fit_girth_part walk(struct level *l)
{
    struct sweep s = { .found = { .counts = true } };
    for (int side = 0; side < LINE_SIDES; side++)
        s.is_in[side] = base_arena_alloc(l->a, l->ring_count, sizeof(bool));
    if (l->count)
        qsort(l->crossings, l->count, sizeof *l->crossings, by_place);
    for (size_t i = 0; i < l->count; i++) {
        double gap = i ? l->crossings[i].at - l->crossings[i - 1].at : 0;
        if (gap > ON_LINE_MM)
            note_ground(&s, ground_of(&s), gap);
        pass(&s, &l->crossings[i]);
    }
    note_ground(&s, OFF, 0);
    return s.found;
}

static struct fit_girth_part measure_level(struct arena *scratch, const struct draft_sized *sized,
                                           const struct pattern_girth_part *part)
{
    const struct pattern_piece *piece = &sized->pattern->pieces[part->piece];
    const struct draft_sized_piece *at = &sized->pieces[part->piece];
    vec2 up = draft_grain_of(piece, at);
    struct level l = { .a = scratch, .from = at->points[part->level], .along = vec2_right(up), .up = up };
    cross_outline(&l, piece, at);
    for (size_t i = 0; i < piece->dart_count; i++)
        cross_dart(&l, at, &piece->darts[i]);
    return walk(&l);
}

static bool is_spread(const struct draft_sized *sized, const struct pattern_piece *piece)
{
    bool fuller = false;
    for (size_t i = 0; i < sized->figure.alteration_count; i++)
        fuller = fuller || sized->figure.alterations[i].kind == DRAFT_BUST;
    return fuller && piece->bust_spread;
}

/* The same figure, altered in every way but for a fuller bust; what is to be told was told of the figure itself. */
static const struct draft_sized *without_spread(struct arena *scratch, const struct draft_sized *sized)
{
    struct draft_figure figure = sized->figure;
    struct draft_alteration *kept = base_arena_alloc(scratch, figure.alteration_count, sizeof *kept);
    figure.alteration_count = 0;
    for (size_t i = 0; i < sized->figure.alteration_count; i++)
        if (sized->figure.alterations[i].kind != DRAFT_BUST)
            kept[figure.alteration_count++] = sized->figure.alterations[i];
    figure.alterations = kept;
    struct err_list *told = base_err_list_create();
    const struct draft_sized *plain = draft_size(scratch, sized->pattern, &figure, told);
    base_err_list_destroy(told);
    return plain;
}

/* Whether the line runs over what the spread turns: lower than its hinge, and no lower than the apex and the slash to
 * the side. Below, its parts move without turning and the line across them is the tape's. */
static bool is_turned(const struct pattern_bust_spread *spread, const struct draft_sized_piece *at, int level, vec2 up)
{
    double height = vec2_dot(at->points[level], up), low = vec2_dot(at->points[spread->apex], up);
    for (int i = 0; i < 2; i++)
        low = fmin(low, vec2_dot(at->points[spread->side[i]], up));
    return height > low - ON_LINE_MM && height < vec2_dot(at->points[spread->hinge], up);
}

/* How much farther from the grain the lower end of the slash to the side lies than it did: how wide the piece is spread
 * at the apex. */
static double spread_mm(const struct pattern_bust_spread *spread, const struct draft_sized_piece *was,
                        const struct draft_sized_piece *now, vec2 up)
{
    vec2 across = vec2_right(up), from = was->points[spread->side[1]], to = now->points[spread->side[1]];
    double way = vec2_dot(across, vec2_sub(from, was->points[spread->apex])) < 0 ? -1 : 1;
    return way * vec2_dot(across, vec2_sub(to, from));
}

/* A bust's tape runs over the apex and round the dart that the spread opened. With that dart closed, by turning what
 * the spread turned back about the opened apex, the piece is as it was and stands farther out by what the apex did: so
 * wide is the line, where on the flat piece it would run out through the armhole or the dart. */
static struct fit_girth_part measure_spread_level(struct arena *scratch, const struct draft_sized *sized,
                                                  const struct pattern_girth_part *part)
{
    const struct pattern_piece *piece = &sized->pattern->pieces[part->piece];
    const struct draft_sized *plain = without_spread(scratch, sized);
    const struct draft_sized_piece *was = &plain->pieces[part->piece];
    vec2 up = was->is_sound ? draft_grain_of(piece, was) : (vec2){ 0, 0 };
    if (!was->is_sound || !is_turned(piece->bust_spread, was, part->level, up))
        return measure_level(scratch, sized, part);
    struct fit_girth_part found = measure_level(scratch, plain, part);
    found.mm += spread_mm(piece->bust_spread, was, &sized->pieces[part->piece], up);
    return found;
}

static struct fit_girth_part measure_part(struct arena *scratch, const struct draft_sized *sized,
                                          const struct pattern_girth_part *part)
{
    if (part->edge == PATTERN_NONE && is_spread(sized, &sized->pattern->pieces[part->piece]))
        return measure_spread_level(scratch, sized, part);
    if (part->edge == PATTERN_NONE)
        return measure_level(scratch, sized, part);
    return (struct fit_girth_part){ true, fit_sewn_mm(sized, part->piece, part->edge), 1, false };
}

static bool counts(const struct draft_sized *sized, const struct pattern_girth_part *part)
{
    return pattern_in_cup_group(sized->pattern->pieces[part->piece].cup_group, sized->figure.cup_group);
}

bool fit_girth_can_be_measured(const struct draft_sized *sized, const struct pattern_girth *girth)
{
    bool any = false;
    for (size_t i = 0; i < girth->part_count; i++) {
        if (!counts(sized, &girth->parts[i]))
            continue;
        if (!sized->pieces[girth->parts[i].piece].is_sound)
            return false;
        any = true;
    }
    return any;
}

struct fit_girth fit_girth_measure(struct arena *a, const struct draft_sized *sized, const struct pattern_girth *girth)
{
    struct fit_girth_part *parts = base_arena_alloc(a, girth->part_count, sizeof *parts);
    struct arena *scratch = base_arena_create();
    struct fit_girth m = { 0, parts };
    for (size_t i = 0; i < girth->part_count; i++) {
        if (!counts(sized, &girth->parts[i]))
            continue;
        parts[i] = measure_part(scratch, sized, &girth->parts[i]);
        m.mm += girth->parts[i].times * parts[i].mm;
        base_arena_reset(scratch);
    }
    base_arena_destroy(scratch);
    return m;
}

double fit_girth_mm(const struct draft_sized *sized, const char *name)
{
    const struct pattern_girth *girth = pattern_find_girth(sized->pattern, name);
    if (!girth || !fit_girth_can_be_measured(sized, girth))
        return 0;
    struct arena *scratch = base_arena_create();
    double mm = fit_girth_measure(scratch, sized, girth).mm;
    base_arena_destroy(scratch);
    return mm;
}
