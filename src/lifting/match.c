/* Corners are matched between neighbouring sizes, from the first on. What a size lacks is put into it, so that it takes
 * part in the next match; what a later size has more is then put into those before it. */
#include "lifting/match.h"

#include "lifting/align.h"

#include <math.h>
#include <string.h>

#define TINY_MM 2.0 /* a corner that is so near to another is no plain one */

/* A piece has no more corners than so many, and one more for so many mm. */
enum { MANY = 16 };
#define MANY_MM 25.0

/* A corner in all sizes. */
struct track {
    struct lifting_corner *in; /* of each size, where known */
    bool *known, *found;
    double turn;
};

/* The corners of one size in their order. */
struct ring {
    int *tracks;
    size_t count, cap;
};

struct match {
    struct arena *work;
    const struct geometry_path *outlines;
    const double *length_mm;
    size_t size_count;
    struct track *tracks;
    size_t track_count, track_cap;
};

static double way_on(double from, double to, double length)
{
    double on = to - from;
    return on < 0 ? on + length : on;
}

static int new_track(struct match *m)
{
    m->tracks = base_arena_grow(m->work, m->tracks, &m->track_cap, m->track_count + 1, sizeof *m->tracks);
    struct track *t = &m->tracks[m->track_count];
    *t = (struct track){ base_arena_alloc(m->work, m->size_count, sizeof *t->in),
                         base_arena_alloc(m->work, m->size_count, 1), base_arena_alloc(m->work, m->size_count, 1), 0 };
    return (int)m->track_count++;
}

static void put_found(struct match *m, int track, size_t size, const struct lifting_corner *corner)
{
    struct track *t = &m->tracks[track];
    t->in[size] = *corner;
    t->known[size] = t->found[size] = true;
    if (fabs(corner->turn) > fabs(t->turn))
        t->turn = corner->turn;
}

/* In its order; of equal places behind the others. */
static void put_in_ring(struct match *m, struct ring *ring, size_t size, int track)
{
    ring->tracks = base_arena_grow(m->work, ring->tracks, &ring->cap, ring->count + 1, sizeof *ring->tracks);
    size_t i = ring->count++;
    double along = m->tracks[track].in[size].along_mm;
    for (; i > 0 && m->tracks[ring->tracks[i - 1]].in[size].along_mm > along; i--)
        ring->tracks[i] = ring->tracks[i - 1];
    ring->tracks[i] = track;
}

/* The next track of a ring, forwards or backwards, that the size knows; one does. */
static int known_beside(const struct match *m, const struct ring *ring, size_t i, int by, size_t size)
{
    for (size_t k = 1; k <= ring->count; k++) {
        size_t on = by > 0 ? k : ring->count - k;
        int track = ring->tracks[(i + on) % ring->count];
        if (m->tracks[track].known[size])
            return track;
    }
    return ring->tracks[i];
}

/* Puts a corner that one size has into another, at the same share of the way between what both know. */
static void place(struct match *m, const struct ring *ring, size_t i, size_t from, size_t to)
{
    struct track *t = &m->tracks[ring->tracks[i]];
    const struct track *before = &m->tracks[known_beside(m, ring, i, -1, to)];
    const struct track *after = &m->tracks[known_beside(m, ring, i, 1, to)];
    double gone = way_on(before->in[from].along_mm, t->in[from].along_mm, m->length_mm[from]);
    double all = way_on(before->in[from].along_mm, after->in[from].along_mm, m->length_mm[from]);
    double there = way_on(before->in[to].along_mm, after->in[to].along_mm, m->length_mm[to]);
    if (before == after) {
        all = m->length_mm[from];
        there = m->length_mm[to];
    }
    double along = before->in[to].along_mm + (all > 0 ? there * gone / all : 0);
    t->in[to] = t->in[from];
    t->in[to].along_mm = along >= m->length_mm[to] ? along - m->length_mm[to] : along;
    t->in[to].at = geometry_path_at(m->outlines[to], t->in[to].along_mm, &(vec2){ 0, 0 });
}

/* All that the ring of one size has and the other does not know. */
static void place_missing(struct match *m, const struct ring *ring, size_t from, size_t to)
{
    bool *missing = base_arena_alloc(m->work, ring->count, 1);
    for (size_t i = 0; i < ring->count; i++)
        missing[i] = !m->tracks[ring->tracks[i]].known[to];
    for (size_t i = 0; i < ring->count; i++)
        if (missing[i])
            place(m, ring, i, from, to);
    for (size_t i = 0; i < ring->count; i++)
        m->tracks[ring->tracks[i]].known[to] = true;
}

static struct lifting_corner *corners_of(const struct match *m, const struct ring *ring, size_t size, bool *placed)
{
    struct lifting_corner *corners = base_arena_alloc(m->work, ring->count, sizeof *corners);
    for (size_t i = 0; i < ring->count; i++) {
        corners[i] = m->tracks[ring->tracks[i]].in[size];
        placed[i] = !m->tracks[ring->tracks[i]].found[size];
    }
    return corners;
}

/* The corners of a size, given the ring of the one before; its own ring has those, too. */
static struct ring match_next(struct match *m, const struct ring *before, size_t size, const struct lifting_corner *own,
                              size_t own_count)
{
    bool *placed = base_arena_alloc(m->work, before->count, 1), *taken = base_arena_alloc(m->work, own_count, 1);
    int *partner = base_arena_alloc(m->work, before->count, sizeof *partner);
    struct lifting_corners a = { corners_of(m, before, size - 1, placed), before->count,
                                 geometry_path_box(m->outlines[size - 1]) };
    struct lifting_corners b = { own, own_count, geometry_path_box(m->outlines[size]) };
    lifting_align(&a, placed, &b, partner);
    for (size_t i = 0; i < before->count; i++)
        if (partner[i] != LIFTING_NONE) {
            put_found(m, before->tracks[i], size, &own[partner[i]]);
            taken[partner[i]] = true;
        }
    place_missing(m, before, size - 1, size);
    struct ring ring = { NULL, 0, 0 };
    for (size_t i = 0; i < before->count; i++)
        put_in_ring(m, &ring, size, before->tracks[i]);
    for (size_t j = 0; j < own_count; j++)
        if (!taken[j]) {
            int track = new_track(m);
            put_found(m, track, size, &own[j]);
            put_in_ring(m, &ring, size, track);
        }
    return ring;
}

/* ---- Every size's own corners ---- */

/* The lowest place, of several the leftmost: a circle's corner. */
static struct lifting_corner lowest(struct geometry_path p)
{
    size_t at = 0;
    for (size_t i = 1; i < p.count; i++)
        if (p.points[i].y < p.points[at].y || (p.points[i].y == p.points[at].y && p.points[i].x < p.points[at].x))
            at = i;
    double along = 0;
    for (size_t i = 0; i < at; i++)
        along += vec2_length(vec2_sub(p.points[i + 1], p.points[i]));
    vec2 right = { 1, 0 };
    return (struct lifting_corner){ along, p.points[at], right, right, 0 };
}

/* Leaves the plainest of too many. */
static size_t thin_out(struct lifting_corner *corners, size_t count)
{
    for (double least = 0.25; count > LIFTING_CORNERS_MOST; least *= 1.5) {
        size_t kept = 0;
        for (size_t i = 0; i < count; i++)
            if (fabs(corners[i].turn) > least)
                corners[kept++] = corners[i];
        if (least > 2)
            kept = kept < LIFTING_CORNERS_MOST ? kept : LIFTING_CORNERS_MOST;
        count = kept;
    }
    return count;
}

struct own {
    struct lifting_corner *corners;
    size_t count;
};

/* Looks for them in all sizes with points so near to lines left aside; whether any has more than a piece has. */
static bool find_so_near(struct match *m, double near_mm, struct own *own)
{
    bool many = false;
    for (size_t k = 0; k < m->size_count; k++) {
        own[k].count = lifting_find_corners(m->work, m->outlines[k], near_mm, &own[k].corners);
        many = many || (double)own[k].count > MANY + m->length_mm[k] / MANY_MM;
    }
    return many;
}

static struct own *find_own(struct match *m)
{
    static const double near_mm[] = { LIFTING_STRAIGHT_MM, 0.01, 0.05, 0.12 }; /* where points tremble */
    struct own *own = base_arena_alloc(m->work, m->size_count, sizeof *own);
    bool lacking = false, many = true;
    for (size_t i = 0; i < sizeof near_mm / sizeof near_mm[0] && many; i++)
        many = find_so_near(m, near_mm[i], own);
    for (size_t k = 0; k < m->size_count; k++) {
        own[k].count = thin_out(own[k].corners, own[k].count);
        lacking = lacking || own[k].count == 0;
    }
    for (size_t k = 0; lacking && k < m->size_count; k++) { /* nothing to hold on to: a place that all have */
        struct lifting_corner *one = base_arena_alloc(m->work, 1, sizeof *one);
        *one = lowest(m->outlines[k]);
        own[k] = (struct own){ one, 1 };
    }
    return own;
}

/* ---- The outcome ---- */

static double to_neighbour(const struct match *m, const struct ring *ring, size_t i, size_t size)
{
    const struct track *t = &m->tracks[ring->tracks[i]];
    const struct track *before = &m->tracks[ring->tracks[(i + ring->count - 1) % ring->count]];
    const struct track *after = &m->tracks[ring->tracks[(i + 1) % ring->count]];
    double length = m->length_mm[size];
    return ring->count < 2 ? length
                           : fmin(way_on(before->in[size].along_mm, t->in[size].along_mm, length),
                                  way_on(t->in[size].along_mm, after->in[size].along_mm, length));
}

/* Whether a plain corner, not one of a pair at one place, is there in some sizes and not in others. */
static bool is_doubtful(const struct match *m, const struct ring *ring, size_t i)
{
    const struct track *t = &m->tracks[ring->tracks[i]];
    bool missing = false, plain = false;
    for (size_t k = 0; k < m->size_count; k++) {
        missing = missing || !t->found[k];
        plain =
            plain || (t->found[k] && fabs(t->in[k].turn) > LIFTING_PLAIN_TURN && to_neighbour(m, ring, i, k) > TINY_MM);
    }
    return missing && plain;
}

static struct lifting_match outcome(struct arena *a, const struct match *m, const struct ring *ring)
{
    struct lifting_place *places = base_arena_alloc(a, ring->count * m->size_count, sizeof *places);
    double *turn = base_arena_alloc(a, ring->count, sizeof *turn);
    struct lifting_match out = { ring->count, m->size_count, places, turn, false };
    for (size_t i = 0; i < ring->count; i++) {
        const struct track *t = &m->tracks[ring->tracks[i]];
        turn[i] = t->turn;
        for (size_t k = 0; k < m->size_count; k++)
            places[i * m->size_count + k] = (struct lifting_place){ t->in[k].along_mm, t->found[k] };
        out.doubtful = out.doubtful || is_doubtful(m, ring, i);
    }
    return out;
}

struct lifting_match lifting_match(struct arena *a, const struct geometry_path *outlines, size_t count)
{
    struct arena *work = base_arena_create();
    double *length = base_arena_alloc(work, count, sizeof *length);
    for (size_t k = 0; k < count; k++)
        length[k] = geometry_path_length(outlines[k]);
    struct match m = { .work = work, .outlines = outlines, .length_mm = length, .size_count = count };
    const struct own *own = find_own(&m);
    struct ring ring = { NULL, 0, 0 };
    for (size_t i = 0; i < own[0].count; i++) {
        int track = new_track(&m);
        put_found(&m, track, 0, &own[0].corners[i]);
        put_in_ring(&m, &ring, 0, track);
    }
    for (size_t k = 1; k < count; k++)
        ring = match_next(&m, &ring, k, own[k].corners, own[k].count);
    for (size_t k = count - 1; k > 0; k--)
        place_missing(&m, &ring, k, k - 1);
    struct lifting_match out = outcome(a, &m, &ring);
    base_arena_destroy(work);
    return out;
}
