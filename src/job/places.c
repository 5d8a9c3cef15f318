#include "job/places.h"

#include "base/words.h"
#include "job/cloth.h"

#include <string.h>

static const struct err_kind not_cut = {
    "job.not_laid_any_more", ERR_WARNING,
    BASE_TR("{0} in the layout of the {1} {2} not cut like that any more: arrange it anew with `chalklight lay`")
};

/* Which of its piece's items an item is, from 0. */
static int number_of(const struct lay_task *task, size_t item)
{
    int number = 0;
    for (size_t i = 0; i < item; i++)
        number += strcmp(task->items[i].piece->name, task->items[item].piece->name) == 0;
    return number;
}

void job_keep_places(struct arena *a, struct job *job, const struct lay_task *task, const struct lay_place *places)
{
    struct job_cloth cloth = *job_find_cloth(job, task->material);
    struct job_laid *laid = base_arena_alloc(a, task->item_count, sizeof *laid);
    cloth.laid_count = 0;
    for (size_t i = 0; i < task->item_count; i++)
        if (places[i].is_laid)
            laid[cloth.laid_count++] = (struct job_laid){ task->items[i].piece->name, number_of(task, i),
                                                          places[i].is_pinned, places[i].motion };
    cloth.laid = laid;
    job_put_cloth(a, job, &cloth);
}

static size_t find_item(const struct lay_task *task, const struct job_laid *laid)
{
    size_t i = 0;
    int before = laid->number;
    while (i < task->item_count && (strcmp(task->items[i].piece->name, laid->piece) != 0 || before-- > 0))
        i++;
    return i;
}

static void tell_not_cut(const struct lay_task *task, const char *names, size_t count, struct err_list *errs)
{
    if (count && errs)
        base_err(errs, &not_cut, base_err_in_file(NULL), ERR_TEXT(names),
                 ERR_TEXT(base_tr(pattern_cloth_name(task->material))), ERR_TEXT(base_tr_count(count, "is", "are")));
}

/* A list of names with one more, unless it is the last one's, too. */
static const char *with_name(struct arena *a, const char *list, const char *piece, size_t *count)
{
    bool is_block = strcmp(piece, LAY_BLOCK_NAME) == 0;
    const char *name = base_arena_print(a, base_tr("“%s”"), is_block ? LAY_BLOCK_LABEL : piece);
    size_t length = strlen(list), own = strlen(name);
    if (length >= own && strcmp(list + length - own, name) == 0)
        return list;
    return base_arena_print(a, "%s%s%s", list, (*count)++ ? ", " : "", name);
}

size_t job_places(struct arena *a, const struct job *job, const struct lay_task *task, struct lay_place **out,
                  struct err_list *errs)
{
    const struct job_cloth *cloth = job_find_cloth(job, task->material);
    const char *strange = "";
    size_t strange_count = 0, found = 0;
    *out = base_arena_alloc(a, task->item_count, sizeof **out);
    for (size_t i = 0; cloth && i < cloth->laid_count; i++) {
        const struct job_laid *laid = &cloth->laid[i];
        size_t item = find_item(task, laid);
        if (item < task->item_count) {
            (*out)[item] = (struct lay_place){ true, laid->is_pinned, laid->motion };
            found++;
        } else {
            strange = with_name(a, strange, laid->piece, &strange_count);
        }
    }
    tell_not_cut(task, strange, strange_count, errs);
    return found;
}

/* False: there is no block of fabric, or it is not laid. */
static bool block_of(struct arena *a, const struct job *job, const struct draft *draft, struct lay_block *block,
                     const struct lay_hands **within)
{
    const struct job_cloth *fabric = job_find_cloth(job, PATTERN_FABRIC);
    struct err_list *untold = base_err_list_create();
    struct lay_task task;
    struct lay_place *places;
    bool found = false;
    if (fabric && fabric->cloth.block_mm > 0 &&
        lay_task_make(a, draft, NULL, &fabric->cloth, PATTERN_FABRIC, &task, untold) &&
        job_places(a, job, &task, &places, NULL)) {
        struct lay lay = lay_of(a, &task, places);
        *block = lay_block_of(&lay);
        *within = lay_in_block(a, &lay);
        found = block->count > 0;
    }
    base_err_list_destroy(untold);
    return found;
}

bool job_lay_task(struct arena *a, const struct job *job, const struct draft *draft, const struct job_cloth *cloth,
                  struct lay_task *out, struct err_list *errs)
{
    struct lay_block block;
    const struct lay_hands *within;
    if (cloth->material == PATTERN_INTERFACING && block_of(a, job, draft, &block, &within))
        return lay_task_make_interfacing(a, draft, within, &block, &cloth->cloth, out, errs);
    return lay_task_make(a, draft, NULL, &cloth->cloth, cloth->material, out, errs);
}
