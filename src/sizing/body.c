#include "sizing/body.h"

#include "values/length.h"
#include "json/want.h"
#include "json/write.h"

#include <string.h>

static const struct err_kind not_a_body = { "body.not_positive", ERR_FAULT,
                                            BASE_TR("is {0}; a measurement is more than zero") };
static const struct err_kind no_measurement = { "body.no_measurement", ERR_FAULT,
                                                BASE_TR("there is no measurement in it") };

static void read_measurements(struct arena *a, const struct json_node *object, bool begun, struct sizing_body *body,
                              struct err_list *errs)
{
    struct sizing_measurement *items = base_arena_alloc(a, object->count, sizeof *items);
    if (!object->count && !begun)
        json_fault(errs, object, &no_measurement, ERR_NONE);
    for (const struct json_node *n = object->first; n; n = n->next) {
        struct sizing_measurement *m = &items[body->count++];
        *m = (struct sizing_measurement){ n->key, 0, json_place(a, n) };
        if (values_length(n, body->unit, &m->mm, errs) && m->mm <= 0)
            json_fault(errs, n, &not_a_body, ERR_MM(m->mm));
    }
    body->items = items;
}

static const char *name_from(const struct json_node *top, bool begun, struct err_list *errs)
{
    const struct json_node *name = json_find(top, "name");
    bool none_yet = begun && name && name->type == JSON_TEXT && !*name->text;
    return none_yet ? name->text : json_need_text(top, "name", errs);
}

static const struct sizing_body *body_from(struct arena *a, const struct json_node *top, bool begun,
                                           struct err_list *errs)
{
    static const char *const fields[] = { "chalklight", "version", "name", "unit", "measurements", NULL };
    if (!top)
        return NULL;
    int before = errs->faults;
    struct sizing_body *body = base_arena_alloc(a, 1, sizeof *body);
    json_only(top, fields, errs);
    body->name = name_from(top, begun, errs);
    values_unit(top, &body->unit, errs);
    const struct json_node *measurements = json_need(top, "measurements", JSON_OBJECT, errs);
    if (measurements)
        read_measurements(a, measurements, begun, body, errs);
    return errs->faults == before ? body : NULL;
}

const struct sizing_body *sizing_body_read(struct arena *a, const char *path, struct err_list *errs)
{
    return body_from(a, json_open_ours(a, path, "body", SIZING_BODY_VERSION, errs), false, errs);
}

const struct sizing_body *sizing_body_parse(struct arena *a, const char *file, const char *bytes, size_t count,
                                            struct err_list *errs)
{
    return body_from(a, json_parse_ours(a, file, bytes, count, "body", SIZING_BODY_VERSION, errs), false, errs);
}

const struct sizing_body *sizing_body_parse_begun(struct arena *a, const char *file, const char *bytes, size_t count,
                                                  struct err_list *errs)
{
    return body_from(a, json_parse_ours(a, file, bytes, count, "body", SIZING_BODY_VERSION, errs), true, errs);
}

const char *sizing_body_print(struct arena *a, const struct sizing_body *body)
{
    struct json_out *top = json_out_create();
    json_out_text(top, "chalklight", "body");
    json_out_number(top, "version", SIZING_BODY_VERSION);
    json_out_text(top, "name", body->name);
    json_out_text(top, "unit", units_name(body->unit));
    struct json_out *measurements = json_out_object(top, "measurements");
    for (size_t i = 0; i < body->count; i++)
        values_write_length(measurements, body->items[i].name, body->items[i].mm, body->unit);
    const char *text = json_out_print(a, top);
    json_out_destroy(top);
    return text;
}

const struct sizing_measurement *sizing_body_find(const struct sizing_body *body, const char *name)
{
    for (size_t i = 0; i < body->count; i++)
        if (strcmp(body->items[i].name, name) == 0)
            return &body->items[i];
    return NULL;
}
