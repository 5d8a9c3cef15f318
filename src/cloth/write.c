/* A cloth as read.c reads it: in its own unit, without what is as it would be if it were left out. */
#include "cloth/kinds.h"

#include "values/length.h"

static void write_length(struct json_out *to, const char *key, double mm, enum units_length unit)
{
    if (mm != 0)
        values_write_length(to, key, mm, unit);
}

static void write_flag(struct json_out *to, const char *key, bool set)
{
    if (set)
        json_out_bool(to, key, true);
}

/* A share as the percent that reads back as it: × 100 may be off in the last place. */
static void write_percent(struct json_out *to, const char *key, double share)
{
    double percent = share * 100;
    if (percent / 100 < share)
        percent = nextafter(percent, HUGE_VAL);
    else if (percent / 100 > share)
        percent = nextafter(percent, 0);
    json_out_number(to, key, percent);
}

static void write_shrinkage(struct json_out *to, const struct cloth *cloth)
{
    if (cloth->shrink_warp == 0 && cloth->shrink_weft == 0)
        return;
    struct json_out *shrinkage = json_out_object(to, "shrinkage");
    write_percent(shrinkage, "along", cloth->shrink_warp);
    write_percent(shrinkage, "across", cloth->shrink_weft);
}

static void write_repeat(struct json_out *to, const struct cloth_repeat *r, enum units_length unit)
{
    if (r->along_mm == 0 && r->across_mm == 0)
        return;
    struct json_out *repeat = json_out_object(to, "repeat");
    write_length(repeat, "along", r->along_mm, unit);
    write_length(repeat, "across", r->across_mm, unit);
    write_length(repeat, "line_along", r->line_along_mm, unit);
    write_length(repeat, "line_across", r->line_across_mm, unit);
    write_flag(repeat, "uneven", r->uneven);
}

static void write_outline(struct json_out *to, const char *key, struct geometry_path path, enum units_length unit)
{
    struct json_out *list = json_out_list(to, key);
    for (size_t i = 0; i < path.count; i++) {
        struct json_out *point = json_out_list(list, NULL);
        values_write_length(point, NULL, path.points[i].x, unit);
        values_write_length(point, NULL, path.points[i].y, unit);
    }
}

static void write_shapes(struct json_out *to, const struct cloth *cloth)
{
    if (cloth->outline.path.count)
        write_outline(to, "outline", cloth->outline.path, cloth->unit);
    if (!cloth->fault_count)
        return;
    struct json_out *faults = json_out_list(to, "faults");
    for (size_t i = 0; i < cloth->fault_count; i++)
        write_outline(faults, NULL, cloth->faults[i].path, cloth->unit);
}

void cloth_write(struct json_out *to, const struct cloth *cloth)
{
    if (cloth->name)
        json_out_text(to, "name", cloth->name);
    json_out_text(to, "unit", units_name(cloth->unit));
    json_out_text(to, "kind", cloth_kind_words[cloth->kind]);
    write_length(to, "width", cloth->width_mm, cloth->unit);
    write_shrinkage(to, cloth);
    write_length(to, "washed_width", cloth->washed_width_mm, cloth->unit);
    values_write_length(to, "selvedge", cloth->selvedge_mm, cloth->unit);
    write_length(to, "length", cloth->length_mm, cloth->unit);
    write_flag(to, "washed", cloth->is_washed);
    write_flag(to, "sides_alike", cloth->sides_alike);
    write_flag(to, "wrong_side_up", cloth->wrong_side_up);
    write_flag(to, "one_way", cloth->one_way);
    write_repeat(to, &cloth->repeat, cloth->unit);
    write_length(to, "thickness", cloth->thickness_mm, cloth->unit);
    if (cloth->colour)
        json_out_text(to, "colour", cloth->colour);
    json_out_text(to, "spread", cloth_spread_words[cloth->spread]);
    write_length(to, "fold_depth", cloth->fold_depth_mm, cloth->unit);
    write_length(to, "gap", cloth->gap_mm, cloth->unit);
    if (cloth->grain_tolerance_deg > 0)
        json_out_number(to, "grain_tolerance", cloth->grain_tolerance_deg);
    write_length(to, "trim", cloth->trim_mm, cloth->unit);
    write_length(to, "fuse_block", cloth->block_mm, cloth->unit);
    write_shapes(to, cloth);
}
