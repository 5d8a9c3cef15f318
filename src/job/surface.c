#include "job/surface.h"

#include "values/length.h"
#include "json/want.h"

#include <string.h>

static const char *const mat_names[] = {
    [CALIBRATION_MAT_STAYS] = "stays", [CALIBRATION_MAT_GOES] = "goes", [CALIBRATION_MAT_COMES] = "comes"
};

enum { MATS = sizeof mat_names / sizeof mat_names[0] };

static const struct err_kind no_mat_word = { "job.no_mat_word", ERR_FAULT,
                                             BASE_TR("“{0}” is none of \"stays\", \"goes\" and \"comes\"") };
static const struct err_kind too_high = { "job.too_high", ERR_FAULT,
                                          BASE_TR("cloth and mat come to {0}, and at most {1} can be made up for") };

static void mat_from(const struct json_node *object, struct calibration_surface *out, struct err_list *errs)
{
    const struct json_node *mat = json_maybe(object, "mat", JSON_TEXT, errs);
    if (!mat)
        return;
    size_t i = 0;
    while (i < MATS && strcmp(mat->text, mat_names[i]) != 0)
        i++;
    if (i == MATS)
        json_fault(errs, mat, &no_mat_word, ERR_TEXT(json_shown(errs->arena, mat->text)));
    else
        out->mat = (enum calibration_mat_stays)i;
}

void job_surface_from(const struct json_node *object, struct calibration_surface *out, struct err_list *errs)
{
    int before = errs->faults;
    *out = (struct calibration_surface){ 0 };
    if (!object)
        return;
    json_only(object, (const char *const[]){ "cloth", "layers", "mat", "mat_thickness", NULL }, errs);
    if (json_find(object, "cloth") || json_find(object, "layers")) {
        values_need_length(object, "cloth", UNITS_MM, 0, CALIBRATION_MOST_CLOTH_MM, &out->cloth_mm, errs);
        json_need_whole(object, "layers", 1, CALIBRATION_MOST_LAYERS, &out->layers, errs);
    }
    mat_from(object, out, errs);
    if (out->mat != CALIBRATION_MAT_STAYS || json_find(object, "mat_thickness"))
        values_need_length(object, "mat_thickness", UNITS_MM, 0, CALIBRATION_MOST_CLOTH_MM, &out->mat_mm, errs);
    if (errs->faults == before && !calibration_surface_is_valid(out))
        json_fault(errs, object, &too_high, ERR_MM(calibration_raise_mm(out)), ERR_MM(CALIBRATION_MOST_RAISE_MM));
}

void job_surface_write(struct json_out *to, const struct calibration_surface *surface)
{
    if (!surface->layers && surface->mat == CALIBRATION_MAT_STAYS)
        return;
    struct json_out *object = json_out_object(to, "surface");
    if (surface->layers) {
        values_write_length(object, "cloth", surface->cloth_mm, UNITS_MM);
        json_out_number(object, "layers", surface->layers);
    }
    json_out_text(object, "mat", mat_names[surface->mat]);
    if (surface->mat != CALIBRATION_MAT_STAYS)
        values_write_length(object, "mat_thickness", surface->mat_mm, UNITS_MM);
}
