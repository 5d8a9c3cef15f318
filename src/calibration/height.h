/* What the height of the surface does to the light, once it is known where the lens hangs.
 *
 * From first principles (light runs straight from the lens, taken as a point; our own working): with the lens at the
 * height h over the foot N, the ray that ends at the place X of the table meets a level t above it at
 *
 *     Y = N + (X - N) (1 - t / h)
 *
 * however the projector is tilted or its glass bends, since only the lens's place counts. So on cloth of that height
 * the whole picture is smaller by the share t / h, drawn towards N; to light the place Y of the cloth, the pixel of
 * X = N + (Y - N) / (1 - t / h) is lit. An error in N shifts everything alike and changes no length.
 *
 * Heights are mm above the surface that the table was set up on (its rulings); below it they are negative. Not here:
 * how a lens is found from two tables (calibration/board.h). */
#ifndef CALIBRATION_HEIGHT_H
#define CALIBRATION_HEIGHT_H

#include "geometry/map.h"

#include <stdbool.h>

/* Bounds of what is believed. At most a third of the least height of a lens can be a surface's, so that 1 - t / h is
 * never near zero. */
#define CALIBRATION_LEAST_LENS_MM 300.0
#define CALIBRATION_MOST_LENS_MM 10000.0
#define CALIBRATION_FARTHEST_FOOT_MM 10000.0
#define CALIBRATION_MOST_RAISE_MM 100.0
#define CALIBRATION_MOST_CLOTH_MM 50.0

enum { CALIBRATION_MOST_LAYERS = 100 };

/* Where the projector's lens is. A height of zero: not known. */
struct calibration_lens_place {
    struct table_pt foot; /* the place of the table straight below it */
    double height_mm;
};

bool calibration_lens_is_known(const struct calibration_lens_place *lens);

/* Whether a lens may be there: finite and within the bounds above. */
bool calibration_lens_is_valid(const struct calibration_lens_place *lens);

/* The mat that the table was set up on, while cutting. */
enum calibration_mat_stays {
    CALIBRATION_MAT_STAYS,
    CALIBRATION_MAT_GOES, /* set up on it, cut without it */
    CALIBRATION_MAT_COMES /* set up without it, cut on it */
};

/* What is cut on; all zero: the surface that the table was set up on. */
struct calibration_surface {
    double cloth_mm; /* one layer */
    int layers;
    enum calibration_mat_stays mat;
    double mat_mm; /* its thickness, where it goes or comes */
};

/* Whether thickness and number are within the bounds above, and what they come to is, too. */
bool calibration_surface_is_valid(const struct calibration_surface *surface);

/* Height of the uppermost layer's top. */
double calibration_raise_mm(const struct calibration_surface *surface);

/* The map from pixels to places of a surface that lies that much higher. Exact; a valid map stays valid. The lens is
 * valid and raise_mm within CALIBRATION_MOST_RAISE_MM either way. */
struct geometry_map calibration_raised(const struct geometry_map *map, const struct calibration_lens_place *lens,
                                       double raise_mm);

/* How far the light meant for a place lands from it on something up_mm thick, as long as nothing makes up for that: on
 * cloth of that height without the raised map; on the top of a ruler of that thickness, which is why the blade is lined
 * up with the light beside the ruler and never with the light on it. The light moves towards the foot. */
double calibration_light_moves_mm(const struct calibration_lens_place *lens, struct table_pt at, double up_mm);

/* The corner of the frame that is farthest from the foot: there light moves most. */
struct table_pt calibration_farthest_corner(const struct geometry_map *map, const struct calibration_lens_place *lens);

/* A lens to reckon with where none is known: over the middle of the light, as high as 1.2 times its width (a usual
 * projector hung level; common practice, no source). Good for the size of an error, for no correction. */
struct calibration_lens_place calibration_usual_lens(const struct geometry_map *map);

/* Where the shadow of something at the height up_mm (below the lens) over a place falls: N + (Q - N) h / (h - up), away
 * from the foot. */
struct table_pt calibration_shadow(const struct calibration_lens_place *lens, struct table_pt over, double up_mm);

/* The table's sides, as scene_side's: standing at the near one, x runs to the right. */
enum calibration_side { CALIBRATION_NEAR, CALIBRATION_RIGHT, CALIBRATION_FAR, CALIBRATION_LEFT, CALIBRATION_SIDES };

/* A person leaning over her work: her head, and how far in over the edge of the light (assumed; no source). A head is
 * taken as at most half-way up to the lens. */
#define CALIBRATION_HEAD_MM 500.0
#define CALIBRATION_LEAN_MM 250.0

/* How far into the light, from her side's edge, the shadow of her head reaches; below zero: it falls outside.
 *
 * Why that tells where to stand: a shadow is thrown away from the foot. When the foot lies deeper in the light than
 * her head does, the shadow falls back towards her and off the work before her, and her arm's falls along the arm;
 * it reaches less than CALIBRATION_LEAN_MM then. When the foot lies on her own side of her head (a projector above or
 * behind her), head and arm are thrown ahead onto the very work. So the best side is that from which the foot is
 * farthest. Edges are those of the frame's box on the table. */
double calibration_head_shadow_mm(const struct geometry_map *map, const struct calibration_lens_place *lens,
                                  enum calibration_side side);

/* The side where it reaches least. */
enum calibration_side calibration_best_side(const struct geometry_map *map, const struct calibration_lens_place *lens);

#endif
