/* The projective map nearest to pairs of places, without the lens: where the solve starts. Not: weights, a lens, or
 * whether the map is any good. */
#ifndef CALIBRATION_START_H
#define CALIBRATION_START_H

#include "base/arena.h"
#include "geometry/vec2.h"

#include <stdbool.h>
#include <stddef.h>

enum { CALIBRATION_START_TERMS = 8 };

/* h00 h01 h02 h10 h11 h12 h20 h21 (h22 = 1) that take `from` to `to`, from at least four pairs, by the normalised
 * direct linear transform (R. Hartley, In defense of the eight-point algorithm, 1997): both sides are moved to their
 * centre and scaled to a mean distance of sqrt 2, and the terms are the right singular vector of the smallest singular
 * value. False when the pairs leave more than one map, or the place (0, 0) would lie on the horizon. `scratch` holds
 * what it needs on the way. */
bool calibration_start(struct arena *scratch, const vec2 *from, const vec2 *to, size_t count,
                       double h[CALIBRATION_START_TERMS]);

#endif
