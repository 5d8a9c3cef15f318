/* The waste of a stretch of cloth as a grid of places: where a chalk mark may be. For this folder alone. */
#ifndef SPANS_WASTE_H
#define SPANS_WASTE_H

#include "spans/spans.h"

/* Marks are looked for this far apart. */
#define SPANS_GRID_MM 5.0

/* A stretch of the cloth in the light, from_mm … to_mm along it and from the near edge to `across_mm`. */
struct spans_stretch {
    double from_mm, to_mm, across_mm;
};

struct spans_waste {
    const struct cloth_pt *places; /* along the cloth first */
    size_t count;
    const struct cloth_pt *chalked; /* those of the cloth's marks that lie in it */
    size_t chalked_count;
    bool is_chalked; /* there are marks on the cloth, here or elsewhere */
    bool holds;      /* they hold on to the cloth past the stretch */
};

/* What has become of an item by then. */
enum spans_cut {
    SPANS_UNCUT,
    SPANS_BEGUN, /* cut along its sides as far as the light reaches; what is uncut of it holds it */
    SPANS_CUT
};

/* What is marked, how clear of outlines. */
struct spans_ground {
    const enum spans_cut *cut; /* by item */
    double clear_mm;
    bool on_pieces; /* within pieces that are not all cut, too */
};

/* Places for marks in a stretch, in `a`, from `begin_mm` on. Each is `clear_mm` clear
 * of all outlines, blocked or not, of the cloth's borders and of the light's. Those that hold on to the cloth past the
 * stretch (at its end, where the cloth ends in it) once items are cut as the ground says come alone, when there are
 * any; then those SPANS_APART_MM off all marks that are on the cloth. */
struct spans_waste spans_waste_find(struct arena *a, const struct spans_cloth *cloth, struct spans_stretch stretch,
                                    double begin_mm, const struct spans_ground *ground);

#endif
