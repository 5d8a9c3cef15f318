/* A piece moved by hand: to the nearest place where it may lie, or until it touches something. */
#include "lay/items.h"
#include "lay/ways.h"

#define CLEAR_MM 1e-7 /* past a touch, so that rounding does not make it an overlap */
#define FREE_MM 1e-6  /* overlaps up to here are none */
#define TIGHT_MM 1e-4 /* of a hole that is as tight as a search leaves it: no overlap to judging (judge.c) */

enum { MOST_STEPS = 60, DIRECTIONS = 32, STARTS = 60 };

/* What the piece in hand may not lie on, and the ranges of its shift. */
struct moving {
    struct arena *a, *scratch;
    struct geometry_path outline; /* grown by half the gap, without its shift */
    struct geometry_path *others; /* as they lie, grown likewise; then what it may not lie on */
    vec2 *at;                     /* of each: nought */
    size_t other_count;
    const struct packing_range *across;
    size_t across_count;
    double first, last; /* in x */
    double step;        /* in x, from `first_line`; 0: anywhere */
    double first_line;
};

static double clamp(double at, double from, double to)
{
    return fmax(from, fmin(to, at));
}

/* The nearest shift that lies on the cloth, whatever lies there. */
static vec2 onto_cloth(const struct moving *m, vec2 shift)
{
    vec2 out = { clamp(shift.x, m->first, fmax(m->first, m->last)), shift.y };
    double least = INFINITY;
    if (m->step > 0) {
        double steps = (out.x - m->first_line) / m->step, low = ceil((m->first - m->first_line) / m->step - 1e-9);
        out.x = m->first_line + fmax(low, floor(steps + 0.5)) * m->step;
    }
    for (size_t i = 0; i < m->across_count; i++) {
        const struct packing_range *r = &m->across[i];
        double y = clamp(shift.y, r->first, r->last);
        if (r->step > 0)
            y = fmin(r->first + floor((y - r->first) / r->step + 0.5) * r->step,
                     r->first + floor((r->last - r->first) / r->step + 1e-9) * r->step);
        if (fabs(y - shift.y) < least) {
            least = fabs(y - shift.y);
            out.y = y;
        }
    }
    return out;
}

/* The deepest overlap; 0: it is free. */
static double deepest(const struct moving *m, vec2 shift, vec2 *apart)
{
    double deep = 0;
    for (size_t i = 0; i < m->other_count; i++) {
        vec2 way;
        base_arena_reset(m->scratch);
        double depth = packing_depth(m->scratch, m->others[i], m->at[i], m->outline, shift, &way);
        if (depth > deep) {
            deep = depth;
            *apart = way;
        }
    }
    return deep;
}

static struct moving moving_of(const struct lay *lay, size_t item, const struct lay_place *place)
{
    const struct lay_task *task = lay->task;
    struct moving m = { .a = base_arena_create(), .scratch = base_arena_create() };
    struct lay_way *way = base_arena_alloc(m.a, 1, sizeof *way);
    *way = lay_way_of(m.a, task, &task->items[item], place);
    struct geometry_box box = geometry_path_box(way->outline);
    m.outline = lay_grown(m.a, task, way->outline);
    m.across = way->across;
    m.across_count = way->across_count;
    m.first = -box.min.x;
    m.last = task->spread.most_length_mm > 0 ? task->spread.most_length_mm - box.max.x : INFINITY;
    m.step = way->along.step;
    m.first_line = way->along.first;
    size_t most = task->item_count + task->spread.blocked_count + 1;
    m.others = base_arena_alloc(m.a, most, sizeof *m.others);
    m.at = base_arena_alloc(m.a, most, sizeof *m.at);
    for (size_t i = 0; i < task->item_count; i++)
        if (i != item && lay->places[i].is_laid)
            m.others[m.other_count++] = lay_grown(m.a, task, lay_outline(m.a, task, i, &lay->places[i]).path);
    for (size_t i = 0; i < task->spread.blocked_count; i++)
        m.others[m.other_count++] = task->spread.blocked[i].path;
    struct geometry_path block = lay_fusing_of(m.a, task, lay->places).block;
    if (block.count && !task->items[item].covered)
        m.others[m.other_count++] = block;
    return m;
}

static void finish(struct moving *m)
{
    base_arena_destroy(m->scratch);
    base_arena_destroy(m->a);
}

/* Parted from what it lies on most, again and again. */
static bool push_out(const struct moving *m, vec2 *shift)
{
    vec2 at = onto_cloth(m, *shift), apart = { 0, 0 };
    for (int i = 0; i < MOST_STEPS; i++) {
        if (deepest(m, at, &apart) <= FREE_MM) {
            *shift = at;
            return true;
        }
        at = onto_cloth(m, vec2_add(at, vec2_add(apart, vec2_scale(vec2_unit(apart), CLEAR_MM))));
    }
    *shift = at;
    return deepest(m, at, &apart) <= TIGHT_MM;
}

/* From a free place somewhere about, back towards the place that is wanted until it touches. */
static bool come_back(const struct moving *m, vec2 wanted, vec2 from, vec2 *shift)
{
    vec2 apart, way = vec2_sub(wanted, from);
    double length = vec2_length(way);
    if (!(length > 0) || deepest(m, from, &apart) > FREE_MM)
        return false;
    vec2 direction = vec2_unit(way);
    base_arena_reset(m->scratch);
    double on = packing_slide(m->scratch, m->outline, from, direction, length, m->others, m->at, m->other_count);
    vec2 at = vec2_add(from, vec2_scale(direction, fmax(0, on - CLEAR_MM)));
    *shift = onto_cloth(m, at);
    return deepest(m, *shift, &apart) <= FREE_MM;
}

/* The nearest place along the cloth, which is the only way for a piece on the fold; what parts it from others is no
 * help there. How far that is, or `nearest` where none is nearer. */
static double along_cloth(const struct moving *m, vec2 wanted, double reach_mm, double nearest, vec2 *best)
{
    for (int i = 0; i < 2 * STARTS; i++) {
        int nth = i / 2 + 1; /* each to either side */
        double far = nth * reach_mm / STARTS;
        vec2 at, from = onto_cloth(m, vec2_add(wanted, (vec2){ i % 2 ? far : -far, 0 }));
        if (far >= nearest)
            break;
        if (!come_back(m, wanted, from, &at) || vec2_length(vec2_sub(at, wanted)) >= nearest)
            continue;
        nearest = vec2_length(vec2_sub(at, wanted));
        *best = at;
    }
    return nearest;
}

bool lay_butt(const struct lay *lay, size_t item, double reach_mm, struct lay_place *place)
{
    struct moving m = moving_of(lay, item, place);
    vec2 wanted = place->motion.shift, best = wanted, at = wanted;
    double nearest = INFINITY;
    if (m.across_count && push_out(&m, &at)) {
        nearest = vec2_length(vec2_sub(at, wanted));
        best = at;
    }
    for (int i = 0; m.across_count && nearest > FREE_MM && i < 2 * DIRECTIONS; i++) {
        double sine, cosine, far = i < DIRECTIONS ? reach_mm : reach_mm / 2;
        geometry_sincos(i * 360.0 / DIRECTIONS, &sine, &cosine);
        vec2 from = onto_cloth(&m, vec2_add(wanted, (vec2){ far * cosine, far * sine }));
        if (come_back(&m, wanted, from, &at) && vec2_length(vec2_sub(at, wanted)) < nearest) {
            nearest = vec2_length(vec2_sub(at, wanted));
            best = at;
        }
    }
    if (m.across_count && nearest > FREE_MM)
        nearest = along_cloth(&m, wanted, reach_mm, nearest, &best);
    finish(&m);
    if (nearest > reach_mm)
        return false;
    place->is_laid = true;
    place->motion.shift = best;
    return true;
}

/* How far it can go before it leaves the range; a piece on the fold goes along it only. */
static double to_border(const struct moving *m, vec2 shift, vec2 direction, double most)
{
    if (direction.x < 0)
        most = fmin(most, (shift.x - m->first) / -direction.x);
    if (direction.x > 0)
        most = fmin(most, (m->last - shift.x) / direction.x);
    double across = 0;
    for (size_t i = 0; i < m->across_count; i++) {
        const struct packing_range *r = &m->across[i];
        if (shift.y < r->first - FREE_MM || shift.y > r->last + FREE_MM)
            continue;
        double room = direction.y > 0 ? r->last - shift.y : shift.y - r->first;
        across = fmax(across, direction.y == 0 ? most : room / fabs(direction.y));
    }
    return fmax(0, fmin(most, across));
}

struct lay_place lay_slide(const struct lay *lay, size_t item, vec2 direction)
{
    struct lay_place place = lay->places[item];
    struct moving m = moving_of(lay, item, &place);
    vec2 apart, way = lay->task->items[item].on_fold ? (vec2){ direction.x, 0 } : direction;
    double length = vec2_length(way);
    if (!isfinite(m.last)) /* to be bought: no further than the lay is long */
        m.last = fmax(place.motion.shift.x,
                      lay->length_mm - geometry_path_box(m.outline).max.x + lay->task->cloth->gap_mm / 2);
    if (length > 0 && deepest(&m, place.motion.shift, &apart) <= FREE_MM) {
        way = vec2_scale(way, 1 / length);
        double most = to_border(&m, place.motion.shift, way, UNITS_FARTHEST_MM);
        base_arena_reset(m.scratch);
        double on = packing_slide(m.scratch, m.outline, place.motion.shift, way, most, m.others, m.at, m.other_count);
        vec2 at = vec2_add(place.motion.shift, vec2_scale(way, on < most ? fmax(0, on - CLEAR_MM) : on));
        place.motion.shift = at;
    }
    finish(&m);
    return place;
}
