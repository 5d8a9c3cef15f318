/* What holds of every piece that was drafted, whatever it was drafted from. */
#ifndef TESTS_FUZZ_SOUND_PIECE_H
#define TESTS_FUZZ_SOUND_PIECE_H

#include "draft/draft.h"
#include "fuzz/fuzz.h"

#include <math.h>

static inline void sound_path(struct geometry_path path)
{
    for (size_t i = 0; i < path.count; i++)
        fuzz_must(isfinite(path.points[i].x) && isfinite(path.points[i].y));
}

static inline void sound_piece(const struct draft_piece *d)
{
    sound_path(d->seam.path);
    sound_path(d->cut.path);
    sound_path(d->cut_line.path);
    fuzz_must(d->seam.path.count >= 3 && d->cut.path.count >= 3 && d->cut_line.path.count >= 2);
    fuzz_must(geometry_path_area(d->seam.path) > 0);
    fuzz_must(geometry_path_area(d->cut.path) >= geometry_path_area(d->seam.path) * (1 - 1e-6));
    fuzz_must(d->cut_line.path.closed == !d->has_fold);
    fuzz_must(isfinite(d->label_at.x) && isfinite(d->label_at.y));
    fuzz_must(isfinite(d->grain[0].x) && isfinite(d->grain[1].y));
    size_t sides = 0;
    for (size_t e = 0; e < d->edge_count; e++) {
        fuzz_must(d->edges[e].first < d->seam.path.count);
        fuzz_must(isfinite(d->edges[e].length_mm) && d->edges[e].length_mm >= 0);
        sides += d->edges[e].count;
    }
    fuzz_must(sides == d->seam.path.count);
    vec2 where;
    fuzz_must(!geometry_path_crosses_itself(d->cut.path, &where));
}

#endif
