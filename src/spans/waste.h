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

/* Places for marks in a stretch, in `a`, along the cloth first; returns how many. Each is `clear_mm` clear
 * of all outlines, blocked or not, of the cloth's borders and of the light's. Those that hold on to the cloth past the
 * stretch (at its end, where the cloth ends in it) once all items are cut that `is_cut` names come alone, when there
 * are any: `*holds` says so. */
size_t spans_waste_places(struct arena *a, const struct spans_cloth *cloth, struct spans_stretch stretch,
                          const bool *is_cut, double clear_mm, struct cloth_pt **out, bool *holds);

#endif
