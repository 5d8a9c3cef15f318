#include "calibration/mat.h"

#include "values/length.h"
#include "json/want.h"

#define LEAST_FIELD_MM 50
#define MOST_FIELD_MM 10000
#define MOST_MARGIN_MM 1000
#define LEAST_RULING_MM 0.5

static const char *const margin_names[] = { "left", "right", "near", "far" };

static const struct err_kind wide_ruling = {
    "calibration.wide_ruling", ERR_FAULT,
    BASE_TR("lines {0} apart do not fit on the field: write what lies between two of "
            "the mat's lines")
};

static void field_from(const struct json_node *field, struct calibration_mat *out, struct err_list *errs)
{
    json_only(field, (const char *const[]){ "width", "height", NULL }, errs);
    values_need_length(field, "width", out->unit, LEAST_FIELD_MM, MOST_FIELD_MM, &out->width_mm, errs);
    values_need_length(field, "height", out->unit, LEAST_FIELD_MM, MOST_FIELD_MM, &out->height_mm, errs);
}

static void margin_from(const struct json_node *margin, struct calibration_mat *out, struct err_list *errs)
{
    json_only(margin, (const char *const[]){ "left", "right", "near", "far", NULL }, errs);
    for (int i = 0; i < 4; i++)
        values_need_length(margin, margin_names[i], out->unit, 0, MOST_MARGIN_MM, &out->margin_mm[i], errs);
}

static void ruling_from(const struct json_node *node, struct calibration_mat *out, struct err_list *errs)
{
    if (!values_need_length(node, "ruling", out->unit, LEAST_RULING_MM, MOST_FIELD_MM, &out->ruling_mm, errs))
        return;
    double smaller = out->width_mm < out->height_mm ? out->width_mm : out->height_mm;
    if (smaller > 0 && out->ruling_mm > smaller)
        json_fault(errs, json_find(node, "ruling"), &wide_ruling, ERR_MM(out->ruling_mm));
}

/* All fields but the two that open a file. */
static bool fields_from(struct arena *a, const struct json_node *node, struct calibration_mat *out,
                        struct err_list *errs)
{
    int before = errs->faults;
    *out = (struct calibration_mat){ 0 };
    const char *name = json_need_text(node, "name", errs);
    out->name = name ? base_arena_copy_text(a, name) : NULL;
    values_unit(node, &out->unit, errs);
    field_from(json_need(node, "field", JSON_OBJECT, errs), out, errs);
    margin_from(json_need(node, "margin", JSON_OBJECT, errs), out, errs);
    ruling_from(node, out, errs);
    return errs->faults == before;
}

bool calibration_mat_read(struct arena *a, const char *path, struct calibration_mat *out, struct err_list *errs)
{
    int before = errs->faults;
    const struct json_node *file = json_open_ours(a, path, "mat", CALIBRATION_MAT_VERSION, errs);
    if (!file)
        return false;
    json_only(file, (const char *const[]){ "chalklight", "version", "name", "unit", "field", "margin", "ruling", NULL },
              errs);
    fields_from(a, file, out, errs);
    return errs->faults == before;
}

bool calibration_mat_from(struct arena *a, const struct json_node *node, struct calibration_mat *out,
                          struct err_list *errs)
{
    int before = errs->faults;
    if (!json_is(node, JSON_OBJECT, errs))
        return false;
    json_only(node, (const char *const[]){ "name", "unit", "field", "margin", "ruling", NULL }, errs);
    fields_from(a, node, out, errs);
    return errs->faults == before;
}

void calibration_mat_write(struct json_out *to, const struct calibration_mat *mat)
{
    json_out_text(to, "name", mat->name);
    json_out_text(to, "unit", units_name(mat->unit));
    struct json_out *field = json_out_object(to, "field");
    values_write_length(field, "width", mat->width_mm, mat->unit);
    values_write_length(field, "height", mat->height_mm, mat->unit);
    struct json_out *margin = json_out_object(to, "margin");
    for (int i = 0; i < 4; i++)
        values_write_length(margin, margin_names[i], mat->margin_mm[i], mat->unit);
    values_write_length(to, "ruling", mat->ruling_mm, mat->unit);
}
