#include "job/cloth.h"

#include "values/length.h"
#include "json/want.h"

#include <string.h>

enum { MATERIALS = PATTERN_LINING + 1, MOST_LAID = 4000 };

#define MOST_TURN_DEG 360.0

static const struct err_kind no_material = {
    "job.no_material", ERR_FAULT, BASE_TR("“{0}” is none of the materials, \"fabric\", \"interfacing\" and \"lining\"")
};
static const struct err_kind material_twice = { "job.material_twice", ERR_FAULT,
                                                BASE_TR("there is a cloth for the {0} already; a material has one") };
static const struct err_kind too_many_laid = { "job.too_many_laid", ERR_FAULT,
                                               BASE_TR("{0} places on one cloth are more than can be; at most {1}") };
static const struct err_kind laid_twice = { "job.laid_twice", ERR_FAULT,
                                            BASE_TR("piece “{0}”, number {1}, lies on this cloth already") };
static const struct err_kind no_shift = {
    "job.no_shift", ERR_FAULT, BASE_TR("needs two numbers, mm along the cloth and across it, within 100 m")
};
static const struct err_kind no_turn = { "job.no_turn", ERR_FAULT,
                                         BASE_TR("needs degrees from -{0} to {0}, and this is {1}") };
const struct job_cloth *job_find_cloth(const struct job *job, enum pattern_cloth material)
{
    for (size_t i = 0; i < job->cloth_count; i++)
        if (job->cloths[i].material == material)
            return &job->cloths[i];
    return NULL;
}

void job_put_cloth(struct arena *a, struct job *job, const struct job_cloth *cloth)
{
    struct job_cloth *all = base_arena_alloc(a, job->cloth_count + 1, sizeof *all);
    size_t at = job->cloth_count;
    for (size_t i = 0; i < job->cloth_count; i++) {
        all[i] = job->cloths[i];
        at = all[i].material == cloth->material ? i : at;
    }
    all[at] = *cloth;
    job->cloth_count += at == job->cloth_count;
    job->cloths = all;
}

void job_set_cloth(struct arena *a, struct job *job, enum pattern_cloth material, const struct cloth *cloth)
{
    const struct job_cloth *before = job_find_cloth(job, material);
    struct job_cloth put = { .material = material, .cloth = *cloth };
    if (before)
        put.torn = before->torn;
    job_put_cloth(a, job, &put);
}

bool job_clear_places(struct arena *a, struct job *job)
{
    struct job_cloth *all = base_arena_alloc(a, job->cloth_count, sizeof *all);
    bool any = false;
    for (size_t i = 0; i < job->cloth_count; i++) {
        any = any || job->cloths[i].laid_count;
        all[i] = job->cloths[i];
        all[i].laid = NULL;
        all[i].laid_count = 0;
    }
    job->cloths = all;
    return any;
}

/* ------------------------------------------------------------------------------------------------------ the job file
 */

static bool flag(const struct json_node *object, const char *name, struct err_list *errs)
{
    const struct json_node *node = json_find(object, name);
    return node && node->type != JSON_FALSE && json_is(node, JSON_TRUE, errs);
}

static bool is_near(const struct json_node *node)
{
    return node->type == JSON_NUMBER && fabs(node->number) <= UNITS_FARTHEST_MM;
}

static void motion_from(const struct json_node *object, struct geometry_motion *out, struct err_list *errs)
{
    const struct json_node *turn = json_need(object, "turn", JSON_NUMBER, errs);
    const struct json_node *shift = json_need(object, "shift", JSON_LIST, errs);
    out->mirror = flag(object, "mirror", errs);
    if (turn)
        out->turn_deg = turn->number;
    if (turn && fabs(turn->number) > MOST_TURN_DEG)
        json_fault(errs, turn, &no_turn, ERR_NUMBER(MOST_TURN_DEG), ERR_NUMBER(turn->number));
    if (shift && (shift->count != 2 || !is_near(shift->first) || !is_near(shift->first->next)))
        json_fault(errs, shift, &no_shift, ERR_NONE);
    else if (shift)
        out->shift = (vec2){ shift->first->number, shift->first->next->number };
}

static bool is_laid_before(const struct job_laid *laid, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (laid[i].number == laid[count].number && strcmp(laid[i].piece, laid[count].piece) == 0)
            return true;
    return false;
}

static void laid_from(const struct json_node *object, struct job_laid *laid, size_t before, struct err_list *errs)
{
    static const char *const fields[] = { "piece", "number", "held", "mirror", "turn", "shift", NULL };
    int number = 1;
    json_only(object, fields, errs);
    laid[before].piece = json_need_text(object, "piece", errs);
    if (json_find(object, "number"))
        json_need_whole(object, "number", 1, MOST_LAID, &number, errs);
    laid[before].number = number - 1;
    laid[before].is_pinned = flag(object, "held", errs);
    motion_from(object, &laid[before].motion, errs);
    if (!laid[before].piece)
        laid[before].piece = ""; /* told of */
    else if (is_laid_before(laid, before))
        json_fault(errs, object, &laid_twice, ERR_TEXT(json_shown(errs->arena, laid[before].piece)),
                   ERR_NUMBER(number));
}

static void all_laid_from(struct arena *a, const struct json_node *list, struct job_cloth *out, struct err_list *errs)
{
    if (!list)
        return;
    if (list->count > MOST_LAID) {
        json_fault(errs, list, &too_many_laid, ERR_NUMBER(list->count), ERR_NUMBER(MOST_LAID));
        return;
    }
    struct job_laid *laid = base_arena_alloc(a, list->count, sizeof *laid);
    for (const struct json_node *node = list->first; node; node = node->next)
        if (json_is(node, JSON_OBJECT, errs))
            laid_from(node, laid, out->laid_count++, errs);
    out->laid = laid;
}

/* MATERIALS, told, where it names none or one that has its cloth. */
static int material_from(const struct json_node *object, const struct job *job, struct err_list *errs)
{
    const struct json_node *node = json_need(object, "material", JSON_TEXT, errs);
    int m = 0;
    if (!node)
        return MATERIALS;
    while (m < MATERIALS && strcmp(node->text, pattern_cloth_name((enum pattern_cloth)m)) != 0)
        m++;
    if (m == MATERIALS)
        json_fault(errs, node, &no_material, ERR_TEXT(json_shown(errs->arena, node->text)));
    else if (job_find_cloth(job, (enum pattern_cloth)m))
        json_fault(errs, node, &material_twice, ERR_TEXT(node->text));
    return m;
}

static void torn_from(const struct json_node *object, struct job_torn *out, struct err_list *errs)
{
    if (!object)
        return;
    json_only(object, (const char *const[]){ "along", "off_square", "margin", "rests", NULL }, errs);
    out->is_kept = true;
    out->along = flag(object, "along", errs);
    out->rests = flag(object, "rests", errs);
    values_need_length(object, "off_square", UNITS_MM, 0, JOB_MOST_OFF_SQUARE_MM, &out->off_square_mm, errs);
    values_need_length(object, "margin", UNITS_MM, 0, JOB_MOST_MARGIN_MM, &out->margin_mm, errs);
}

static void cloth_of_job_from(struct arena *a, const struct json_node *object, struct job *job, struct err_list *errs)
{
    static const char *const fields[] = { "material", "cloth", "torn", "laid", NULL };
    int before = errs->faults;
    struct job_cloth cloth = { 0 };
    json_only(object, fields, errs);
    int material = material_from(object, job, errs);
    const struct json_node *node = json_need(object, "cloth", JSON_OBJECT, errs);
    if (node)
        cloth_from(a, node, UNITS_MM, &cloth.cloth, errs);
    torn_from(json_maybe(object, "torn", JSON_OBJECT, errs), &cloth.torn, errs);
    all_laid_from(a, json_maybe(object, "laid", JSON_LIST, errs), &cloth, errs);
    cloth.material = (enum pattern_cloth)material;
    if (cloth.material == PATTERN_INTERFACING)
        cloth_make_interfacing(&cloth.cloth);
    if (errs->faults == before)
        job_put_cloth(a, job, &cloth);
}

void job_cloths_from(struct arena *a, const struct json_node *list, struct job *job, struct err_list *errs)
{
    for (const struct json_node *node = list ? list->first : NULL; node; node = node->next)
        if (json_is(node, JSON_OBJECT, errs))
            cloth_of_job_from(a, node, job, errs);
}

static void laid_write(struct json_out *list, const struct job_laid *laid)
{
    struct json_out *object = json_out_object(list, NULL);
    json_out_text(object, "piece", laid->piece);
    if (laid->number)
        json_out_number(object, "number", laid->number + 1);
    if (laid->is_pinned)
        json_out_bool(object, "held", true);
    if (laid->motion.mirror)
        json_out_bool(object, "mirror", true);
    json_out_number(object, "turn", laid->motion.turn_deg);
    struct json_out *shift = json_out_list(object, "shift");
    json_out_number(shift, NULL, laid->motion.shift.x);
    json_out_number(shift, NULL, laid->motion.shift.y);
}

static void torn_write(struct json_out *to, const struct job_torn *torn)
{
    if (!torn->is_kept)
        return;
    struct json_out *object = json_out_object(to, "torn");
    if (torn->along)
        json_out_bool(object, "along", true);
    values_write_length(object, "off_square", torn->off_square_mm, UNITS_MM);
    values_write_length(object, "margin", torn->margin_mm, UNITS_MM);
    if (torn->rests)
        json_out_bool(object, "rests", true);
}

static void cloth_of_job_write(struct json_out *object, const struct job_cloth *cloth)
{
    json_out_text(object, "material", pattern_cloth_name(cloth->material));
    cloth_write(json_out_object(object, "cloth"), &cloth->cloth);
    torn_write(object, &cloth->torn);
}

const char *job_print_cloth(struct arena *a, const struct job_cloth *cloth)
{
    struct json_out *object = json_out_create();
    cloth_of_job_write(object, cloth);
    const char *text = json_out_print_line(a, object);
    json_out_destroy(object);
    return text;
}

void job_cloths_write(struct json_out *top, const struct job *job)
{
    struct json_out *list = job->cloth_count ? json_out_list(top, "cloths") : NULL;
    for (size_t i = 0; i < job->cloth_count; i++) {
        const struct job_cloth *cloth = &job->cloths[i];
        struct json_out *object = json_out_object(list, NULL);
        cloth_of_job_write(object, cloth);
        struct json_out *laid = cloth->laid_count ? json_out_list(object, "laid") : NULL;
        for (size_t k = 0; k < cloth->laid_count; k++)
            laid_write(laid, &cloth->laid[k]);
    }
}
