/* What washing leaves: after × = before × (1 − share), warp and weft each by its own share. */
#include "cloth/cloth.h"

/* Selvages are woven more densely and are not used; 12.5 mm on either side, 2.5 cm in all, is common practice without a
 * source. Lists that name 5 cm in all, with the printing's border, say as well to measure each roll. */
#define USUAL_SELVAGE_MM 12.5

struct cloth cloth_plain(double width_mm)
{
    return (struct cloth){ .width_mm = width_mm, .selvage_mm = USUAL_SELVAGE_MM };
}

double cloth_washed_width(const struct cloth *cloth)
{
    if (cloth->is_washed)
        return cloth->width_mm;
    return cloth->washed_width_mm > 0 ? cloth->washed_width_mm : cloth->width_mm * (1 - cloth->shrink_weft);
}

double cloth_usable_width(const struct cloth *cloth)
{
    if (cloth->outline.path.count) {
        struct geometry_box box = geometry_path_box(cloth->outline.path);
        return box.max.y - box.min.y;
    }
    return cloth_washed_width(cloth) - 2 * cloth->selvage_mm;
}

double cloth_washed_length(const struct cloth *cloth)
{
    if (cloth->outline.path.count) {
        struct geometry_box box = geometry_path_box(cloth->outline.path);
        return box.max.x - box.min.x;
    }
    return cloth->is_washed ? cloth->length_mm : cloth->length_mm * (1 - cloth->shrink_warp);
}
