#include "calibration/height.h"

#include "geometry/path.h"
#include "geometry/vec2.h"

#include <assert.h>
#include <math.h>

#define USUAL_THROW 1.2

enum { CORNERS = 4, FRAME_STEPS = 8 };

bool calibration_lens_is_known(const struct calibration_lens_place *lens)
{
    return lens->height_mm > 0;
}

bool calibration_lens_is_valid(const struct calibration_lens_place *lens)
{
    /* Written so that what is not finite fails, too. */
    return lens->height_mm >= CALIBRATION_LEAST_LENS_MM && lens->height_mm <= CALIBRATION_MOST_LENS_MM &&
           fabs(lens->foot.x) <= CALIBRATION_FARTHEST_FOOT_MM && fabs(lens->foot.y) <= CALIBRATION_FARTHEST_FOOT_MM;
}

static bool is_thickness(double mm)
{
    return mm >= 0 && mm <= CALIBRATION_MOST_CLOTH_MM;
}

bool calibration_surface_is_valid(const struct calibration_surface *surface)
{
    return is_thickness(surface->cloth_mm) && is_thickness(surface->mat_mm) && surface->layers >= 0 &&
           surface->layers <= CALIBRATION_MOST_LAYERS &&
           fabs(calibration_raise_mm(surface)) <= CALIBRATION_MOST_RAISE_MM;
}

double calibration_raise_mm(const struct calibration_surface *surface)
{
    static const double sign[] = {
        [CALIBRATION_MAT_STAYS] = 0, [CALIBRATION_MAT_GOES] = -1, [CALIBRATION_MAT_COMES] = 1
    };
    return surface->cloth_mm * surface->layers + sign[surface->mat] * surface->mat_mm;
}

struct geometry_map calibration_raised(const struct geometry_map *map, const struct calibration_lens_place *lens,
                                       double raise_mm)
{
    assert(calibration_lens_is_valid(lens) && fabs(raise_mm) <= CALIBRATION_MOST_RAISE_MM);
    double share = raise_mm / lens->height_mm, scale = 1 - share;
    struct geometry_change towards_foot = {
        { { scale, 0, share * lens->foot.x }, { 0, scale, share * lens->foot.y }, { 0, 0, 1 } }
    };
    return geometry_map_changed(map, &towards_foot);
}

static double from_foot_mm(const struct calibration_lens_place *lens, struct table_pt at)
{
    return hypot(at.x - lens->foot.x, at.y - lens->foot.y);
}

double calibration_light_moves_mm(const struct calibration_lens_place *lens, struct table_pt at, double up_mm)
{
    return fabs(up_mm) / lens->height_mm * from_foot_mm(lens, at);
}

struct table_pt calibration_farthest_corner(const struct geometry_map *map, const struct calibration_lens_place *lens)
{
    struct table_pt farthest = lens->foot;
    for (int i = 0; i < CORNERS; i++) {
        struct px_pt corner = { i & 1 ? map->width_px : 0, i & 2 ? map->height_px : 0 };
        struct table_pt at = geometry_map_to_table(map, corner);
        if (from_foot_mm(lens, at) >= from_foot_mm(lens, farthest))
            farthest = at;
    }
    return farthest;
}

struct calibration_lens_place calibration_usual_lens(const struct geometry_map *map)
{
    double middle = map->height_px / 2.0;
    struct table_pt left = geometry_map_to_table(map, (struct px_pt){ 0, middle });
    struct table_pt right = geometry_map_to_table(map, (struct px_pt){ map->width_px, middle });
    return (struct calibration_lens_place){ { (left.x + right.x) / 2, (left.y + right.y) / 2 },
                                            USUAL_THROW * hypot(right.x - left.x, right.y - left.y) };
}

struct table_pt calibration_shadow(const struct calibration_lens_place *lens, struct table_pt over, double up_mm)
{
    assert(up_mm < lens->height_mm);
    double longer = lens->height_mm / (lens->height_mm - up_mm);
    return (struct table_pt){ lens->foot.x + (over.x - lens->foot.x) * longer,
                              lens->foot.y + (over.y - lens->foot.y) * longer };
}

/* The frame's box on the table. */
static struct geometry_box light_box(const struct geometry_map *map)
{
    struct arena *a = base_arena_create();
    struct geometry_box box = geometry_path_box(geometry_map_frame(a, map, FRAME_STEPS).path);
    base_arena_destroy(a);
    return box;
}

/* A place's depth in the light, from the edge of a side. */
static double depth_mm(const struct geometry_box *light, enum calibration_side side, struct table_pt at)
{
    const double depth[CALIBRATION_SIDES] = { [CALIBRATION_NEAR] = at.y - light->min.y,
                                              [CALIBRATION_RIGHT] = light->max.x - at.x,
                                              [CALIBRATION_FAR] = light->max.y - at.y,
                                              [CALIBRATION_LEFT] = at.x - light->min.x };
    return depth[side];
}

double calibration_head_shadow_mm(const struct geometry_map *map, const struct calibration_lens_place *lens,
                                  enum calibration_side side)
{
    struct geometry_box light = light_box(map);
    double foot = depth_mm(&light, side, lens->foot), head = fmin(CALIBRATION_HEAD_MM, lens->height_mm / 2);
    return foot + (CALIBRATION_LEAN_MM - foot) * lens->height_mm / (lens->height_mm - head);
}

enum calibration_side calibration_best_side(const struct geometry_map *map, const struct calibration_lens_place *lens)
{
    enum calibration_side best = CALIBRATION_NEAR;
    for (enum calibration_side side = CALIBRATION_NEAR; side < CALIBRATION_SIDES; side++)
        if (calibration_head_shadow_mm(map, lens, side) < calibration_head_shadow_mm(map, lens, best))
            best = side;
    return best;
}
