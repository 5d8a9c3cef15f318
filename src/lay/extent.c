/* How a piece lies along the cloth, and how much of it it takes. */
#include "lay/items.h"

#include <math.h>

#define SNAP_DEG 1e-9 /* a grain that is drawn upright is upright, whatever its last bit says */

static vec2 as_vec2(struct piece_pt p)
{
    return (vec2){ p.x, p.y };
}

vec2 lay_lengthwise(const struct draft_piece *piece, bool on_fold)
{
    vec2 grain = vec2_unit(vec2_sub(as_vec2(piece->grain[1]), as_vec2(piece->grain[0])));
    if (!on_fold)
        return grain;
    vec2 fold = vec2_unit(vec2_sub(as_vec2(piece->fold[1]), as_vec2(piece->fold[0])));
    return vec2_dot(fold, grain) < 0 ? vec2_scale(fold, -1) : fold;
}

double lay_turn_of(vec2 lengthwise, bool mirror)
{
    double turn = -geometry_direction(lengthwise.y, mirror ? -lengthwise.x : lengthwise.x);
    double quarter = 90 * floor(turn / 90 + 0.5);
    return fabs(turn - quarter) < SNAP_DEG ? quarter : turn;
}

vec2 lay_extent(const struct draft_piece *piece, bool on_fold)
{
    struct geometry_mover m =
        geometry_mover_of((struct geometry_motion){ .turn_deg = lay_turn_of(lay_lengthwise(piece, on_fold), false) });
    struct geometry_box box = geometry_box_empty();
    for (size_t i = 0; i < piece->cut.path.count; i++) {
        vec2 p = geometry_move(&m, piece->cut.path.points[i]);
        box = geometry_box_join(box, (struct geometry_box){ p, p });
    }
    return vec2_sub(box.max, box.min);
}

double lay_widest_band(const struct cloth_spread *spread, int layers)
{
    double widest = 0;
    for (int i = 0; i < spread->band_count; i++)
        if (spread->bands[i].layers == layers)
            widest = fmax(widest, spread->bands[i].to_mm - spread->bands[i].from_mm);
    return widest;
}

static bool has_fold(const struct cloth_spread *s)
{
    for (int i = 0; i < s->band_count; i++)
        if (s->bands[i].fold_at_from || s->bands[i].fold_at_to)
            return true;
    return false;
}

bool lay_is_fold_lengthwise(const struct draft_piece *piece)
{
    vec2 grain = lay_lengthwise(piece, false), fold = lay_lengthwise(piece, true);
    return fabs(geometry_direction(vec2_cross(grain, fold), vec2_dot(grain, fold))) <= LAY_FOLD_GRAIN_DEG;
}

bool lay_has_fold_for(const struct cloth_spread *spread, const struct draft_piece *piece)
{
    return piece->has_fold && has_fold(spread) && lay_is_fold_lengthwise(piece);
}

bool lay_is_opened(const struct cloth_spread *spread, const struct draft_piece *piece)
{
    return piece->has_fold && !lay_has_fold_for(spread, piece);
}
