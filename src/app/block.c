#include "app/block.h"

#include "app/lay_words.h"
#include "job/cloth.h"
#include "job/places.h"

#define AT_MM 2.0 /* not measured where a block begins: it reaches further than that past its pieces */

static const struct err_kind not_laid = {
    "app.block_not_laid", ERR_WARNING,
    BASE_TR("the fabric is to be fused in a block, and its layout, which tells how large "
            "that is, is not made yet: until then the "
            "interfacing is laid by the piece; arrange the fabric first")
};

struct app_block app_block_of(struct arena *a, const struct app_material *m, struct err_list *errs)
{
    const struct job_cloth *fabric = job_find_cloth(m->job, PATTERN_FABRIC);
    struct app_block out = { .within = NULL };
    struct lay_task task;
    struct lay_place *places;
    const struct tearing_plan *torn;
    if (m->material != PATTERN_INTERFACING || !fabric || !(fabric->cloth.block_mm > 0))
        return out;
    struct app_material of_fabric = { m->job, m->draft, &fabric->cloth, PATTERN_FABRIC, m->unit, NULL };
    struct err_list *told = base_err_list_create();
    if (!app_torn_task(a, &of_fabric, &task, &torn, told) || !job_places(a, m->job, &task, &places, NULL)) {
        base_err(errs, &not_laid, base_err_in_file(NULL), ERR_NONE);
    } else {
        struct lay lay = lay_of(a, &task, places);
        out = (struct app_block){ lay_block_of(&lay), lay_in_block(a, &lay) };
    }
    base_err_list_destroy(told);
    return out;
}

const char *app_block_words(struct arena *a, const struct lay_block *block, enum units_length unit)
{
    return base_arena_print(a,
                            base_tr_count((size_t)block->count, "one piece of interfacing, %s long and %s wide",
                                          "two pieces of interfacing, each %s long and %s wide"),
                            app_lay_length(a, block->length_mm, unit), app_lay_length(a, block->width_mm, unit));
}

void app_block_json(struct json_out *to, const char *key, const struct lay_block *block)
{
    if (!block->count)
        return;
    struct json_out *object = json_out_object(to, key);
    json_out_number(object, "count", block->count);
    json_out_number(object, "length_mm", block->length_mm);
    json_out_number(object, "width_mm", block->width_mm);
    json_out_bool(object, "over_fold", block->over_fold);
    json_out_number(object, "from_cut_end_mm", block->from_cut_end_mm);
    json_out_number(object, "from_near_edge_mm", block->from_near_edge_mm);
}

/* "at the cut end", "80 cm from the cut end". */
static const char *off_text(struct arena *a, double mm, const char *what, enum units_length unit)
{
    char text[UNITS_TEXT];
    if (mm < AT_MM) /* To: “at the fold” */
        return base_arena_print(a, base_tr("at %s"), what);
    /* To: “80 cm from the fold” */
    return base_arena_print(a, base_tr("%s from %s"), units_print_length(text, units_on_tape(mm, unit), unit), what);
}

const char *app_block_where(struct arena *a, const struct lay *fabric, const struct lay_block *block,
                            enum units_length unit)
{
    const char *along = off_text(a, block->from_cut_end_mm, base_tr_in("measured from", "the cut end"), unit);
    const char *across = off_text(a, block->from_near_edge_mm, app_lay_near_edge(fabric->task), unit);
    if (block->over_fold)
        return base_arena_print(
            /* To: “… opened out, 80 cm from the cut end, as far …” */
            a, base_tr("on the wrong side of the cloth opened out, %s, as far to either side of the fold"), along);
    return base_arena_print(a,
                            block->count == 2 ? base_tr("both layers on the wrong side, in the same place, %s and %s")
                                              : base_tr("on the wrong side, %s and %s"),
                            along, across);
}

const char *app_block_first(struct arena *a, const struct lay *fabric, const struct lay_block *block,
                            enum units_length unit)
{
    if (!block->count)
        return NULL;
    return base_arena_print(a, base_tr("First fuse it in a block, %s: %s."), app_block_where(a, fabric, block, unit),
                            app_block_words(a, block, unit));
}
