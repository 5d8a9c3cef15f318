/* How fast frames are painted, against cairo on the same scene. */
#ifndef TESTS_BENCH_PACE_H
#define TESTS_BENCH_PACE_H

#include <stdbool.h>

/* Wavy closed rings of chords, 3 px wide, one ink, spread at random (fixed seed) over the frame of a tilted map with a
 * lens. A frame of ours is what a changed map costs: black, warp, fill, from content made before. A frame of cairo's is
 * black, then the rings in px, warped before, in one path: cairo_stroke with the same pen, or cairo_fill of the
 * outlines that our strokes have. One path, as the rings are one layer: where they cross, light does not add up.
 * Processor time of the one thread, 15 pairs of frames that take turns, after one pair that is not counted.
 *
 * paint.vs_cairo_4k_100k: the median of cairo's time over ours, 100,000 chords stroked at 3840 x 2160.
 * paint.vs_cairo_fhd_10k: 10,000 chords stroked at 1920 x 1080.
 * paint.vs_cairo_fill_4k_100k: 100,000 chords, cairo fills our outlines.
 * paint.vs_cairo_apart_4k_100k, paint.vs_cairo_fill_apart_4k_100k: as the first and third, but cairo draws ring by
 * ring, which is quicker for it and adds light up at the edges where rings cross: for the record, not a like
 * comparison. NAME_low, NAME_high: the least and the largest of the 15. paint.cpu_ms_4k_100k: the median of our times
 * in the first, with one thread.
 *
 * False when cairo fails, or one of its pictures and ours differ by more than two strokers may. */
bool pace_figures(void);

#endif
