/* Shapes into a strip: the geometry of a lay, without cloth or garment. Outlines are laid side by side, none over
 * another, so that the strip is used to a small length. It only shifts shapes: a shape turned or turned over is another
 * shape, and an item may be laid as any of the shapes that it names.
 *
 * The plane here: x along the strip from its start at 0, y across from 0 to its width. Any unit of length. */
#ifndef PACKING_PACKING_H
#define PACKING_PACKING_H

#include "base/arena.h"
#include "base/pool.h"
#include "geometry/path.h"

#include <stdatomic.h>
#include <stdbool.h>
#include <stdint.h>

enum { PACKING_NONE = -1 };

/* Where shifts may go in one direction: all of first … last, or only places that are `first + k * step` (stripes). */
struct packing_range {
    double first, last; /* of the shape's own origin; equal: only there (a fold) */
    double step;        /* 0: anywhere between */
};

/* An outline to be laid: closed, counter-clockwise, simple. */
struct packing_shape {
    struct geometry_path outline;
    int half_turn; /* the shape that is this one turned by half a turn about the origin; it itself where that
                      is the same; PACKING_NONE: there is none. Only a hint, so that tables are shared */
    const struct packing_range
        *across; /* where in y its origin may lie, one after the other; none: anywhere in the strip */
    size_t across_count;
    struct packing_range along; /* step and first: places in x; last is not looked at */
};

/* Something to be laid once, as one of its shapes. */
struct packing_item {
    const int *as; /* shapes */
    size_t as_count;
};

/* Where an item lies. */
struct packing_place {
    int shape;  /* PACKING_NONE: it is not laid */
    vec2 shift; /* of the shape's outline */
};

struct packing_problem {
    double width;       /* of the strip; > 0 */
    double most_length; /* no more strip than that; 0: as much as it takes */
    const struct packing_shape *shapes;
    size_t shape_count;
    const struct packing_item *items;
    size_t item_count;
    const struct geometry_path *blocked; /* parts of the strip where nothing may lie: closed, counter-clockwise */
    size_t blocked_count;
    const struct packing_place *pinned; /* one for each item; those with a shape stay there. NULL: none is pinned */
};

struct packing_lay {
    struct packing_place *places; /* one for each item */
    size_t item_count;
    size_t left_out; /* items without a place, because the strip is not long enough for all */
    double length;   /* from 0 to the end of the last outline */
    double density;  /* area of what is laid over width x length */
};

/* A search that goes on for as long as it is asked to. */
struct packing_search;

/* Why a problem has no lay at all, whatever the search: the first item for which that is so. */
enum packing_refusal {
    PACKING_CAN_BE_LAID,
    PACKING_TOO_WIDE,       /* item: none of its shapes fits across the strip, or where it may lie across */
    PACKING_TOO_LONG,       /* item: longer than the most length */
    PACKING_PINNED_OUTSIDE, /* item: pinned where its shape may not lie */
    PACKING_PINNED_OVERLAP, /* item and other: pinned over each other, or on what is blocked (other: PACKING_NONE) */
    PACKING_NO_ROOM         /* item: nowhere beside what is blocked and pinned */
};

enum packing_refusal packing_check(const struct packing_problem *problem, int *item, int *other);

/* Begins: builds its tables and a first lay (at once: milliseconds for a dozen pieces). The problem is sound
 * (packing_check); it is copied. The same problem and seed give the same lays after the same number of rounds, to the
 * bit, at any number of threads and on any processor. `pool` (NULL: one thread) outlives the search. */
struct packing_search *packing_begin(const struct packing_problem *problem, uint64_t seed, struct base_pool *pool);

/* Where the rounds to come are made; as at the beginning. */
void packing_use_pool(struct packing_search *search, struct base_pool *pool);

/* NULL is allowed. */
void packing_end(struct packing_search *search);

/* One round more: about a tenth of a second's work for a large problem, less for a small one. True when the best lay
 * has become better. `stop` (may be NULL) is looked at often; once it is set the round ends early, and the best lay
 * stays what it was. */
bool packing_round(struct packing_search *search, const atomic_bool *stop);

/* The best lay so far; it lives until the next round. Always there, and always without overlap. What did not fit into
 * the most length is left out. */
const struct packing_lay *packing_best(const struct packing_search *search);

/* Rounds so far, and how many brought nothing since the best was found. */
size_t packing_rounds(const struct packing_search *search);
size_t packing_rounds_without_gain(const struct packing_search *search);

/* Whether more rounds can bring anything: false once the lay is as short as can be (a bound is reached) or no item can
 * move. */
bool packing_can_gain(const struct packing_search *search);

/* --- for hands --- */

/* How far two outlines lie over each other at a pair of shifts: 0 where they do not (touching is not), else the length
 * of the shortest shift of `b` that parts them, which goes to *apart (may be NULL). Exact. */
double packing_depth(struct arena *scratch, struct geometry_path a, vec2 at_a, struct geometry_path b, vec2 at_b,
                     vec2 *apart);

/* How far a shape can slide from its shift in a direction (unit vector) before it touches one of the others; at most
 * `most`. */
double packing_slide(struct arena *scratch, struct geometry_path shape, vec2 from, vec2 direction, double most,
                     const struct geometry_path *others, const vec2 *others_at, size_t other_count);

#endif
