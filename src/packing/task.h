/* A problem made ready for the search: what the shapes may do told as ranges of shifts within the strip, and what is
 * blocked told as items that are pinned. */
#ifndef PACKING_TASK_H
#define PACKING_TASK_H

#include "packing/packing.h"

struct task_shape {
    struct geometry_path outline; /* for tables: simpler where it has many points, never smaller */
    struct geometry_box box;      /* of the outline as it was given */
    double area;
    int half_turn;
    struct packing_range *across; /* within the strip; none when it fits nowhere. Lattices begin and end at a place */
    size_t across_count;
    struct packing_range along; /* first: the lowest shift; last is not used, the strip's length decides */
};

struct task {
    double width, most_length;
    double slack;              /* how far outside of the strip still counts as inside: rounding */
    struct task_shape *shapes; /* the problem's, then one for each blocked outline */
    size_t shape_count;
    struct packing_item *items;   /* the problem's, then the blocked ones */
    struct packing_place *pinned; /* of each; shape PACKING_NONE: it is free */
    size_t item_count, blocked_count;
};

/* A copy of all of it in `a`. */
struct task *task_of(struct arena *a, const struct packing_problem *problem);

size_t task_all(const struct task *t);

/* Of an item: that of its first shape, since all are the same, turned. */
double task_area(const struct task *t, size_t item);

/* The allowed shift nearest to y; the shape fits somewhere. */
double task_nearest_across(const struct task_shape *s, double y);

/* The allowed shift nearest to x in a strip of that length; the lowest when the strip is too short for any. */
double task_nearest_along(const struct task_shape *s, double length, double x);

/* The highest allowed shift; below the lowest when the strip is too short. */
double task_last_along(const struct task_shape *s, double length);

/* The shape's end along the strip when it lies at x. */
double task_end(const struct task_shape *s, double x);

/* Whether a shift is allowed, but for rounding. */
bool task_allows(const struct task *t, const struct task_shape *s, vec2 shift);

#endif
