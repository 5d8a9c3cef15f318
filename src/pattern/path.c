/* The path of an edge or a curve: a point, then lines and curves from there. */
#include "pattern/reader.h"

static const struct err_kind step_form = {
    "pattern.step_form", ERR_FAULT,
    BASE_TR("a step is a point's name, a list of three names (control, control, end), "
            "or a curve such as { \"centre\", \"angle\", "
            "\"end\" }; DEVELOPERS.md lists them")
};
static const struct err_kind path_short = { "pattern.path_short", ERR_FAULT,
                                            BASE_TR("a path needs a starting point and at least one step") };
static const struct err_kind through_form = {
    "pattern.through_form", ERR_FAULT, BASE_TR("a curve goes through a list of at least one point, its end the last")
};
static const struct err_kind pull_form = {
    "pattern.pull_form", ERR_FAULT, BASE_TR("is a list of two numbers, for the start and for the end of the curve")
};
static const struct err_kind arc_end = {
    "pattern.arc_end", ERR_FAULT,
    BASE_TR("the arc ends at “{0}”, which is a point already; give its end a name of its own")
};

static void maybe_number(const struct pattern_reader *r, const struct json_node *n, const char *name,
                         struct pattern_value *out)
{
    const struct json_node *node = json_find(n, name);
    if (node)
        pattern_read_number(r, node, out);
}

/* The arc brings its end with it: where its start comes to when it is turned. */
static void read_arc(const struct pattern_reader *r, const struct json_node *n, int from, struct pattern_step *step)
{
    static const char *const fields[] = { "centre", "angle", "end", NULL };
    json_only(n, fields, r->errs);
    step->kind = PATTERN_STEP_ARC;
    step->centre = pattern_need_point(r, n, "centre");
    if (json_find(n, "angle"))
        maybe_number(r, n, "angle", &step->angle);
    else
        json_need(n, "angle", JSON_NUMBER, r->errs);
    step->end = pattern_need_point(r, n, "end");
    if (step->end == PATTERN_NONE)
        return;
    struct pattern_point *end = &r->drawings[r->piece].points[step->end];
    if ((size_t)step->end < r->drawings[r->piece].written_count || end->place.file)
        json_fault(r->errs, n, &arc_end, ERR_TEXT(end->name));
    *end = (struct pattern_point){ .name = end->name,
                                   .kind = PATTERN_POINT_TURN,
                                   .of = { { r->piece, from }, { r->piece, step->centre } },
                                   .v = { step->angle },
                                   .place = json_place(r->a, n) };
}

static void read_tangents(const struct pattern_reader *r, const struct json_node *n, int from,
                          struct pattern_step *step)
{
    static const char *const fields[] = { "leave", "arrive", "pull", "end", NULL };
    (void)from;
    json_only(n, fields, r->errs);
    step->kind = PATTERN_STEP_TANGENTS;
    if (!json_find(n, "leave") || !json_find(n, "arrive"))
        json_fault(r->errs, n, &step_form, ERR_NONE);
    maybe_number(r, n, "leave", &step->leave);
    maybe_number(r, n, "arrive", &step->arrive);
    const struct json_node *pull = json_find(n, "pull");
    if (pull && (pull->type != JSON_LIST || pull->count != 2)) {
        json_fault(r->errs, pull, &pull_form, ERR_NONE);
    } else if (pull) {
        pattern_read_number(r, pull->first, &step->pull[0]);
        pattern_read_number(r, pull->first->next, &step->pull[1]);
    }
    step->end = pattern_need_point(r, n, "end");
}

static void read_through(const struct pattern_reader *r, const struct json_node *n, int from, struct pattern_step *step)
{
    static const char *const fields[] = { "through", "leave", "arrive", NULL };
    (void)from;
    json_only(n, fields, r->errs);
    step->kind = PATTERN_STEP_THROUGH;
    maybe_number(r, n, "leave", &step->leave);
    maybe_number(r, n, "arrive", &step->arrive);
    const struct json_node *list = json_need(n, "through", JSON_LIST, r->errs);
    if (!list || !list->count) {
        if (list)
            json_fault(r->errs, list, &through_form, ERR_NONE);
        return;
    }
    int *through = base_arena_alloc(r->a, list->count, sizeof *through);
    for (const struct json_node *p = list->first; p; p = p->next)
        through[step->through_count++] = pattern_read_point_name(r, p);
    step->through = through;
    step->end = through[step->through_count - 1];
}

static void read_along(const struct pattern_reader *r, const struct json_node *n, int from, struct pattern_step *step)
{
    static const char *const fields[] = { "along", "beside", "backwards", "end", NULL };
    (void)from;
    json_only(n, fields, r->errs);
    step->kind = PATTERN_STEP_ALONG;
    step->along = (struct pattern_ref){ r->piece, PATTERN_NONE };
    pattern_read_edge_ref(r, json_find(n, "along"), &step->along);
    const struct json_node *beside = json_find(n, "beside");
    if (beside)
        pattern_read_value(r, beside, PATTERN_ANY, &step->beside);
    step->backwards = pattern_read_yes(r, n, "backwards");
    step->end = pattern_need_point(r, n, "end");
}

/* A step written as an object, by the field that tells it. */
static const struct {
    const char *field;
    void (*read)(const struct pattern_reader *, const struct json_node *, int from, struct pattern_step *);
} curve_rows[] = {
    { "centre", read_arc },
    { "through", read_through },
    { "along", read_along },
    { "leave", read_tangents },
};

static void read_cubic(const struct pattern_reader *r, const struct json_node *n, struct pattern_step *step)
{
    step->kind = PATTERN_STEP_CUBIC;
    step->control[0] = pattern_read_point_name(r, n->first);
    step->control[1] = pattern_read_point_name(r, n->first->next);
    step->end = pattern_read_point_name(r, n->first->next->next);
}

static void read_step(const struct pattern_reader *r, const struct json_node *n, int from, struct pattern_step *step)
{
    *step = (struct pattern_step){ .end = PATTERN_NONE, .place = json_place(r->a, n) };
    if (n->type == JSON_TEXT) {
        step->end = pattern_read_point_name(r, n);
        return;
    }
    if (n->type == JSON_LIST && n->count == 3) {
        read_cubic(r, n, step);
        return;
    }
    for (size_t i = 0; n->type == JSON_OBJECT && i < sizeof curve_rows / sizeof curve_rows[0]; i++)
        if (json_find(n, curve_rows[i].field)) {
            curve_rows[i].read(r, n, from, step);
            return;
        }
    json_fault(r->errs, n, &step_form, ERR_NONE);
}

void pattern_read_path(const struct pattern_reader *r, const struct json_node *path, struct pattern_edge *edge)
{
    if (path->count < 2) {
        json_fault(r->errs, path, &path_short, ERR_NONE);
        return;
    }
    struct pattern_step *steps = base_arena_alloc(r->a, path->count - 1, sizeof *steps);
    edge->start = pattern_read_point_name(r, path->first);
    int from = edge->start;
    for (const struct json_node *n = path->first->next; n; n = n->next) {
        struct pattern_step *step = &steps[edge->step_count++];
        read_step(r, n, from, step);
        from = step->end;
    }
    edge->steps = steps;
}
