/* Pieces out of the faces of a network: faces that only inner lines part are put together again. For this folder alone.
 */
#ifndef LIFTING_REGIONS_H
#define LIFTING_REGIONS_H

#include "lifting/faces.h"

/* The smallest piece is a belt loop of 2 by 4 cm, cut out with no more than its seams (common practice, no source):
 * less area, or a narrower mean width (area / half of the way around), is a mark, a letter or a sample. */
#define REGIONS_AREA_LEAST_MM2 750.0
#define REGIONS_WIDTH_LEAST_MM 9.0

/* A closed outline, counter-clockwise. */
struct regions_ring {
    struct geometry_path path;
    double area_mm2, length_mm;
    double gap_mm;         /* the widest that was closed; 0: none */
    const uint32_t *edges; /* of the network */
    size_t edge_count;
};

struct regions_asked {
    const uint32_t *dash_of_line; /* for each line of the network: equal where they are dashed alike */
    const bool *sized;            /* and whether it is of one size; else of all */
    const vec2 *letters;          /* where something is written */
    size_t letter_count;
};

bool regions_is_large(double area_mm2, double length_mm);

/* The outlines of pieces, in `a`; how many. */
size_t regions_find(struct arena *a, const struct faces *f, const struct regions_asked *asked,
                    const struct regions_ring **out);

#endif
