/* Outlines that run back along themselves: a spur or a slit that nobody can cut, nearly always a path that begins or
 * ends at the wrong place. Where the two sides lie exactly on each other the outline touches itself, which is told
 * elsewhere. */
#include "draft/work.h"

#define THIN_MM 0.5     /* sides nearer to each other than this are one cut (our own, no source) */
#define REACH_MM 2.0    /* over so long a way; a shorter one is lost within the width of a line of light */
#define SPUR_OPENS 0.05 /* mm a mm: the tip of a crescent or a godet opens faster */
#define SLIT_OPENS 0.01 /* the same of a tip into the piece: a dart that is cut out is 5 mm wide and 100 mm long */
#define PARTS_MM 1.0    /* no more apart than this where one side ends: no piece's own tip (our own, no source) */
#define TURNS 0.87      /* cosine of the turn that ends a side: 30 degrees */

enum { MOST_POINTS = 64 }; /* on the way from a tip; a way so dense is a curve */

static const struct err_kind runs_back = { "draft.runs_back", ERR_WARNING,
                                           BASE_TR("the outline of piece “{0}” runs back along itself in size {1}, "
                                                   "from {2} across and {3} up, and leaves a tail or a "
                                                   "slit without width; begin the edge there where the piece does") };

/* The place so far along a closed path from its point `from`, forwards or backwards; false when it is too far. */
static bool walk(struct geometry_path p, size_t from, bool forwards, double mm, vec2 *at)
{
    *at = p.points[from];
    for (size_t n = 0; n < p.count && n < MOST_POINTS; n++) {
        from = forwards ? (from + 1 < p.count ? from + 1 : 0) : (from > 0 ? from : p.count) - 1;
        vec2 way = vec2_sub(p.points[from], *at);
        double length = vec2_length(way);
        if (length >= mm) {
            *at = vec2_add(*at, vec2_scale(way, mm / length));
            return true;
        }
        mm -= length;
        *at = p.points[from];
    }
    return false;
}

/* How far apart the two sides lie `mm` back from a tip between two points, and whether the piece lies between them. */
static bool gap_at(struct geometry_path p, size_t before, size_t after, double mm, double *gap, bool *is_spur)
{
    vec2 come, go;
    if (!walk(p, before, false, mm, &come) || !walk(p, after, true, mm, &go))
        return false;
    *gap = vec2_length(vec2_sub(come, go));
    *is_spur = vec2_cross(vec2_sub(p.points[before], come), vec2_sub(go, come)) > 0;
    return true;
}

/* Whether a tip, one point or a short side, is that of a spur or slit without width. */
static bool is_thin_tip(struct geometry_path p, size_t before, size_t after)
{
    double near, far;
    bool is_spur;
    return gap_at(p, before, after, REACH_MM / 2, &near, &is_spur) &&
           gap_at(p, before, after, REACH_MM, &far, &is_spur) && far <= THIN_MM &&
           far - near <= (is_spur ? SPUR_OPENS : SLIT_OPENS) * REACH_MM / 2;
}

/* Whether the shorter of the two straight sides at a tip ends, turning away, before they have come apart: where an edge
 * that runs beside another began past the place that it should have begun at. */
static bool parts_late(struct geometry_path p, size_t tip)
{
    size_t count = p.count, next = (tip + 1) % count, last = (tip + count - 1) % count;
    vec2 go = vec2_sub(p.points[next], p.points[tip]), come = vec2_sub(p.points[last], p.points[tip]);
    bool ahead = vec2_length(go) < vec2_length(come);
    vec2 side = ahead ? go : come;
    size_t end = ahead ? next : last, beyond = ahead ? (next + 1) % count : (last + count - 1) % count;
    double gap;
    bool is_spur;
    return vec2_length(side) > REACH_MM && gap_at(p, tip, tip, vec2_length(side), &gap, &is_spur) && gap <= PARTS_MM &&
           vec2_dot(vec2_unit(side), vec2_unit(vec2_sub(p.points[beyond], p.points[end]))) < TURNS;
}

/* Whether the outline turns by more than 25 degrees at a point, as it does at any tip; along a curve it does not. */
static bool turns(struct geometry_path p, size_t i)
{
    vec2 in = vec2_sub(p.points[i], p.points[i > 0 ? i - 1 : p.count - 1]);
    vec2 out = vec2_sub(p.points[i + 1 < p.count ? i + 1 : 0], p.points[i]);
    double along = vec2_dot(in, out);
    return along <= 0 || along * along < 0.81 * vec2_dot(in, in) * vec2_dot(out, out);
}

void draft_check_tips(const struct draft_work *w)
{
    const struct geometry_path p = w->outline.path;
    bool turns_next = turns(p, 0);
    for (size_t i = 0; i < p.count; i++) {
        size_t next = i + 1 < p.count ? i + 1 : 0;
        bool turns_here = turns_next;
        turns_next = turns(p, next);
        if (!turns_here && !turns_next)
            continue;
        bool is_short = vec2_length(vec2_sub(p.points[next], p.points[i])) <= THIN_MM;
        if (!is_thin_tip(p, i, i) && !parts_late(p, i) && !(is_short && is_thin_tip(p, i, next)))
            continue;
        base_err(w->errs, &runs_back, w->piece->place, ERR_TEXT(w->piece->name), ERR_TEXT(draft_size_name(w)),
                 ERR_MM(p.points[i].x), ERR_MM(p.points[i].y));
        return;
    }
}
