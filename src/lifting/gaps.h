/* Closing the gaps between ends of lines, and between an end and a line it stops short of. For this folder alone. */
#ifndef LIFTING_GAPS_H
#define LIFTING_GAPS_H

#include "lifting/crossings.h"

/* Courses that close gaps, in `a`; how many. Ends that something else runs on from are left alone. Two ends are led on,
 * each its own way, to where they meet, if that is within the gap of both; else they are joined straight. An end that
 * stops short of a line is led on to it, or straight to its nearest place. `gap` is in steps of the grid, and `nears`
 * are the sides within it. */
size_t gaps_close(struct arena *a, const struct network_course *courses, size_t count, const struct crossings_end *ends,
                  size_t end_count, const struct crossings *found, double gap, const struct network_course **bridges);

#endif
