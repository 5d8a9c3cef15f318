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

static inline void sound_pt(struct piece_pt p)
{
    fuzz_must(isfinite(p.x) && isfinite(p.y));
}

static inline void sound_marks(const struct draft_piece *d)
{
    for (size_t i = 0; i < d->notch_count; i++) {
        const struct draft_notch *n = &d->notches[i];
        fuzz_must(n->place_count == 1 || n->place_count == 2);
        fuzz_must(n->depth_mm >= 0 && n->depth_mm <= 3);
        for (size_t p = 0; p < n->place_count; p++) {
            sound_pt(n->places[p].at);
            sound_pt(n->places[p].on_seam);
            sound_pt(n->places[p].mouth[0]);
            sound_pt(n->places[p].mouth[1]);
            fuzz_must(fabs(vec2_length(n->places[p].inward) - 1) < 1e-9);
        }
    }
    for (size_t i = 0; i < d->drill_mark_count; i++)
        sound_pt(d->drill_marks[i]);
    for (size_t i = 0; i < d->button_count; i++)
        sound_pt(d->buttons[i]);
    for (size_t i = 0; i < d->line_count; i++) {
        sound_pt(d->lines[i].ends[0]);
        sound_pt(d->lines[i].ends[1]);
    }
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
    sound_marks(d);
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

/* An unfolded piece is sound and twice its half. */
static inline void sound_unfolded(struct arena *a, const struct draft_piece *half)
{
    struct draft_piece whole = draft_unfold(a, half);
    if (!half->has_fold)
        return;
    fuzz_must(!whole.has_fold && whole.cut_line.path.closed && whole.seam_line.path.closed);
    sound_path(whole.seam.path);
    sound_path(whole.cut.path);
    sound_marks(&whole);
    double two = 2 * geometry_path_area(half->cut.path), size = 1 + geometry_path_length(whole.cut.path);
    fuzz_must(fabs(geometry_path_area(whole.cut.path) - two) <= 1e-2 * size); /* the fold is found within 1e-3 mm */
}

#endif
