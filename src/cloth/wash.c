/* What washing leaves: after × = before × (1 − share), warp and weft each by its own share. */
#include "cloth/cloth.h"

/* Selvedges are woven more densely and are not used; 12.5 mm on either side, 2.5 cm in all, is common practice without
 * a source. Lists that name 5 cm in all, with the printing's border, say as well to measure each roll. */
#define USUAL_SELVEDGE_MM 12.5

struct cloth cloth_plain(double width_mm)
{
    return (struct cloth){ .width_mm = width_mm, .selvedge_mm = USUAL_SELVEDGE_MM };
}

double cloth_washed_width(const struct cloth *cloth)
{
    if (cloth->is_washed)
        return cloth->width_mm;
    return cloth->washed_width_mm > 0 ? cloth->washed_width_mm : cloth->width_mm * (1 - cloth->shrink_weft);
}

/* What a mm along and across comes to. Across, the width between the selvedges counts, as all is measured from there.
 */
static vec2 washing_of(const struct cloth *cloth)
{
    if (cloth->is_washed)
        return (vec2){ 1, 1 };
    double before = cloth->width_mm - 2 * cloth->selvedge_mm,
           after = cloth_washed_width(cloth) - 2 * cloth->selvedge_mm;
    bool is_scrap = cloth->outline.path.count > 0;
    return (vec2){ 1 - cloth->shrink_warp,
                   is_scrap || !(before > 0 && after > 0) ? 1 - cloth->shrink_weft : after / before };
}

double cloth_usable_width(const struct cloth *cloth)
{
    if (cloth->outline.path.count) {
        struct geometry_box box = geometry_path_box(cloth->outline.path);
        return (box.max.y - box.min.y) * washing_of(cloth).y;
    }
    return cloth_washed_width(cloth) - 2 * cloth->selvedge_mm;
}

double cloth_washed_length(const struct cloth *cloth)
{
    if (cloth->outline.path.count) {
        struct geometry_box box = geometry_path_box(cloth->outline.path);
        return (box.max.x - box.min.x) * washing_of(cloth).x;
    }
    return cloth->length_mm * washing_of(cloth).x;
}

double cloth_before_washing(const struct cloth *cloth, double along_mm)
{
    return along_mm / washing_of(cloth).x;
}

struct cloth_repeat cloth_washed_repeat(const struct cloth *cloth)
{
    struct cloth_repeat out = cloth->repeat;
    vec2 by = washing_of(cloth);
    out.along_mm *= by.x;
    out.line_along_mm *= by.x;
    out.across_mm *= by.y;
    out.line_across_mm *= by.y;
    return out;
}

struct geometry_path cloth_washed_path(struct arena *a, const struct cloth *cloth, struct geometry_path path)
{
    struct geometry_path out = geometry_path_copy(a, path);
    vec2 by = washing_of(cloth);
    for (size_t i = 0; i < out.count; i++)
        out.points[i] = (vec2){ path.points[i].x * by.x, path.points[i].y * by.y };
    return out;
}
