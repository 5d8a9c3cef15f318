#include "app/check.h"

#include "app/lens.h"
#include "calibration/table.h"
#include "draft/draft.h"
#include "fit/seam.h"
#include "job/job.h"
#include "pattern/read.h"
#include "sizing/body.h"
#include "json/want.h"

#include <math.h>
#include <string.h>

static const struct err_kind unknown_kind = { "check.unknown_kind", ERR_FAULT,
                                              "is not one of our files: \"chalklight\" names its kind, one of {0}" };
static const struct err_kind seam_off = { "check.seam_off", ERR_FAULT,
                                          "seam “{0}” misses its intended difference by {1} in size {2}{3}" };
static const struct err_kind marks_differ = {
    "check.marks_differ", ERR_FAULT,
    "seam “{0}” has {1} on its first side and {2} on its second, so that they cannot be matched"
};
static const struct err_kind no_grain = {
    "check.no_grain", ERR_WARNING, "piece “{0}” has no grain; it is taken to run straight up, as the piece is written"
};
static const struct err_kind shrinks = { "check.shrinks", ERR_WARNING,
                                         "piece “{0}” is smaller in size {2} than in size {1}; is a number wrong?" };
static const struct err_kind huge = { "check.huge", ERR_WARNING,
                                      "piece “{0}” is {2} long in size {1}; is a number or its unit wrong?" };
static const struct err_kind label_outside = {
    "check.label_outside", ERR_WARNING,
    "\"label_at\" of piece “{0}” lies outside the piece in size {1}; the letters stand somewhere within it"
};
static const struct err_kind no_length = {
    "check.no_length", ERR_FAULT, "edge “{2}” of piece “{0}” has no length in size {1}: it begins and ends at one place"
};
static const struct err_kind no_snip = {
    "check.no_snip", ERR_WARNING,
    "a notch of piece “{0}” is shown without its snip in size {1}: edge “{2}” has no allowance to snip there"
};
static const struct err_kind drill_twice = {
    "check.drill_twice", ERR_WARNING,
    "drill mark “{2}” of piece “{0}” is at the place of another one in size {1}; take one away, or move it"
};
static const struct err_kind ease_differs = {
    "check.ease_differs", ERR_WARNING,
    "“{0}” in size {1}: the finished garment less the chart is {2}, but an ease of {3} is meant; one of them is wrong"
};
static const struct err_kind never_cut = { "check.never_cut", ERR_WARNING, "piece “{0}” is in no view's cutting list" };

#define SAME_DRILL_MM 1.0 /* nearer to each other two holes of an awl are one (our own, no source) */
#define SAME_EASE_MM 1.0  /* a girth is sewn no truer (our own, no source) */
#define HUGE_MM 10000.0   /* longer than any one piece of clothing is cut (our own, no source) */

struct check {
    struct arena *a;
    const char *path;
    const char *report;
    struct json_out *json;
    struct err_list *errs;
    const struct draft_sized *const *sized; /* of a pattern: cup group by cup group, in each size by size */
};

static void say(struct check *c, const char *text)
{
    c->report = base_arena_print(c->a, "%s%s\n", c->report, text);
}

static const char *group_text(struct arena *a, const struct pattern *p, int group)
{
    return group == PATTERN_NONE ? "" : base_arena_print(a, ", cup group %s", p->cup_groups[group].name);
}

/* "1 notch", "3 notches". */
static const char *count_text(struct arena *a, size_t count, const char *one, const char *more)
{
    return base_arena_print(a, "%zu %s", count, count == 1 ? one : more);
}

/* Calls for every cup group, or once with PATTERN_NONE for a pattern without. */
static void for_each_group(struct check *c, const struct pattern *p,
                           void (*visit)(struct check *, const struct pattern *, int group))
{
    if (!p->cup_group_count)
        visit(c, p, PATTERN_NONE);
    for (size_t g = 0; g < p->cup_group_count; g++)
        visit(c, p, (int)g);
}

static bool is_same_text(const char *a, const char *b)
{
    return a && b ? strcmp(a, b) == 0 : a == b;
}

/* Of one thing at one place, whatever the size it was found in. */
static bool is_same_fault(const struct err *a, const struct err *b)
{
    return strcmp(a->kind->code, b->kind->code) == 0 && a->place.line == b->place.line &&
           is_same_text(a->place.path, b->place.path);
}

/* Passes on what was not told already: the first size says it for the others, and a piece of all cup groups is drafted
 * once for each of them. */
static void tell_new(struct check *c, const struct err_list *found)
{
    for (int i = 0; i < found->count; i++) {
        bool told = false;
        for (int k = 0; k < c->errs->count; k++)
            told = told || is_same_fault(&found->items[i], &c->errs->items[k]);
        if (!told)
            base_err_add(c->errs, found->items[i].kind, found->items[i].place, found->items[i].args);
    }
}

static const struct err_kind *as_fault(struct check *c, const struct err_kind *kind)
{
    struct err_kind *strict = base_arena_alloc(c->a, 1, sizeof *strict);
    *strict = (struct err_kind){ kind->code, ERR_FAULT, kind->sentence };
    return strict;
}

/* Drafts for proof-reading: what the draft only warns of, so that a person may cut all the same, is here a fault. */
static bool draft_strictly(struct check *c, struct arena *a, const struct pattern *p,
                           const struct draft_figure *figure, int view, struct draft *out)
{
    struct err_list *found = base_err_list_create();
    bool ok = draft_make(a, p, figure, view, out, found);
    for (int i = 0; i < found->count; i++)
        found->items[i].kind = as_fault(c, found->items[i].kind);
    tell_new(c, found);
    base_err_list_destroy(found);
    return ok;
}

/* Areas of one size's pieces, against which the next size's are held. */
struct areas {
    double *before; /* by the pattern's pieces; 0: not drafted */
    size_t size;
};

/* A size with a smaller piece than the one before it is nearly always a slip in one number of a list. */
static void check_growth(const struct pattern *p, const struct draft *draft, const struct areas *areas,
                         struct err_list *errs)
{
    for (size_t i = 0; i < draft->piece_count; i++) {
        const struct draft_piece *d = &draft->pieces[i];
        double area = geometry_path_area(d->seam.path);
        if (area < areas->before[d->index])
            base_err(errs, &shrinks, p->pieces[d->index].place, ERR_TEXT(d->name), ERR_TEXT(p->sizes[areas->size - 1]),
                     ERR_TEXT(p->sizes[areas->size]));
        areas->before[d->index] = area;
    }
}

static void check_sense(const struct pattern *p, const struct draft *draft, size_t size, struct err_list *errs)
{
    for (size_t i = 0; i < draft->piece_count; i++) {
        const struct draft_piece *d = &draft->pieces[i];
        const struct pattern_piece *piece = &p->pieces[d->index];
        struct geometry_box box = geometry_path_box(d->seam.path);
        double length = fmax(box.max.x - box.min.x, box.max.y - box.min.y);
        if (length > HUGE_MM)
            base_err(errs, &huge, piece->place, ERR_TEXT(d->name), ERR_TEXT(p->sizes[size]), ERR_MM(length));
        if (piece->label_at != PATTERN_NONE &&
            !geometry_path_holds(d->cut.path, (vec2){ d->label_at.x, d->label_at.y }))
            base_err(errs, &label_outside, piece->place, ERR_TEXT(d->name), ERR_TEXT(p->sizes[size]));
    }
}

static void check_edges(const struct pattern_piece *piece, const struct draft_piece *d, const char *size,
                        struct err_list *errs)
{
    for (size_t e = 0; e < d->edge_count; e++)
        if (!(d->edges[e].length_mm > 0))
            base_err(errs, &no_length, piece->edges[e].place, ERR_TEXT(d->name), ERR_TEXT(size),
                     ERR_TEXT(piece->edges[e].name));
}

static void check_snips(const struct pattern_piece *piece, const struct draft_piece *d, const char *size,
                        struct err_list *errs)
{
    for (size_t i = 0; i < d->notch_count; i++)
        if (!(d->notches[i].depth_mm > 0))
            base_err(errs, &no_snip, piece->notches[i].place, ERR_TEXT(d->name), ERR_TEXT(size),
                     ERR_TEXT(piece->edges[d->notches[i].edge].name));
}

static bool is_one_hole(struct piece_pt p, struct piece_pt q)
{
    return hypot(p.x - q.x, p.y - q.y) < SAME_DRILL_MM;
}

static void check_drill_marks(const struct pattern_piece *piece, const struct draft_piece *d, const char *size,
                              struct err_list *errs)
{
    for (size_t i = 1; i < d->drill_mark_count; i++) {
        size_t k = 0;
        while (k < i && !is_one_hole(d->drill_marks[k], d->drill_marks[i]))
            k++;
        if (k < i)
            base_err(errs, &drill_twice, piece->drill_marks[i].place, ERR_TEXT(d->name), ERR_TEXT(size),
                     ERR_TEXT(piece->points[piece->drill_marks[i].point].name));
    }
}

/* A piece that is drafted has all its notches and drill marks, in the pattern's order. */
static void check_parts(const struct pattern *p, const struct draft *draft, size_t size, struct err_list *errs)
{
    for (size_t i = 0; i < draft->piece_count; i++) {
        const struct draft_piece *d = &draft->pieces[i];
        const struct pattern_piece *piece = &p->pieces[d->index];
        check_edges(piece, d, p->sizes[size], errs);
        check_snips(piece, d, p->sizes[size], errs);
        check_drill_marks(piece, d, p->sizes[size], errs);
    }
}

static void check_outlines(struct check *c, const struct pattern *p, int group)
{
    struct areas areas = { base_arena_alloc(c->a, p->piece_count, sizeof(double)), 0 };
    for (areas.size = 0; areas.size < p->size_count; areas.size++) {
        struct arena *scratch = base_arena_create();
        struct err_list *found = base_err_list_create();
        struct draft draft;
        struct draft_figure figure = draft_figure_at((double)areas.size, group);
        draft_strictly(c, scratch, p, &figure, PATTERN_NONE, &draft);
        check_sense(p, &draft, areas.size, found);
        check_parts(p, &draft, areas.size, found);
        check_growth(p, &draft, &areas, found);
        tell_new(c, found);
        base_err_list_destroy(found);
        base_arena_destroy(scratch);
    }
}

/* The worst of a seam over all sizes. */
struct worst {
    double off_mm; /* below zero: there is no size in which it can be measured */
    size_t size, interval, interval_count;
    bool marks_agree;
};

/* A piece of no cup group is cut with any of them, and its formulas may read a bust; the first will do. */
static int group_of(const struct pattern *p, const struct pattern_seam *seam)
{
    return seam->cup_group == PATTERN_NONE && p->cup_group_count ? 0 : seam->cup_group;
}

static struct worst worst_of(const struct check *c, const struct pattern *p, const struct pattern_seam *seam)
{
    struct worst worst = { .off_mm = -1 };
    int group = group_of(p, seam);
    for (size_t s = 0; s < p->size_count; s++) {
        const struct draft_sized *sized = c->sized[(group == PATTERN_NONE ? 0 : (size_t)group) * p->size_count + s];
        if (!fit_seam_can_be_measured(sized, seam))
            continue;
        struct fit_seam m = fit_seam_measure(c->a, sized, seam);
        if (m.worst_mm > worst.off_mm)
            worst = (struct worst){ m.worst_mm, s, m.worst_interval, m.interval_count, m.marks_agree };
    }
    return worst;
}

static const char *interval_text(struct arena *a, const struct worst *w)
{
    if (w->interval_count < 2)
        return "";
    if (w->interval == w->interval_count)
        return base_arena_print(a, ", all %zu intervals together", w->interval_count);
    return base_arena_print(a, ", interval %zu of %zu", w->interval + 1, w->interval_count);
}

static void tell_seam_json(struct check *c, const struct pattern *p, const struct pattern_seam *seam,
                           const struct worst *w)
{
    struct json_out *row = json_out_object(c->json, NULL);
    json_out_text(row, "seam", seam->name);
    json_out_number(row, "off_mm", w->off_mm);
    json_out_bool(row, "notches_match", w->marks_agree);
    json_out_text(row, "size", p->sizes[w->size]);
    json_out_text(row, "cup_group", seam->cup_group == PATTERN_NONE ? NULL : p->cup_groups[seam->cup_group].name);
    json_out_number(row, "intervals", (double)w->interval_count);
    if (w->interval < w->interval_count)
        json_out_number(row, "interval", (double)(w->interval + 1));
}

static void tell_marks_differ(struct check *c, const struct pattern *p, const struct pattern_seam *seam)
{
    const char *sides[2];
    for (int side = 0; side < 2; side++)
        sides[side] = count_text(c->a, pattern_seam_marks(p, seam, side), "notch", "notches");
    say(c, base_arena_print(c->a, "  seam %-34s not walked: %s against %s", seam->name, sides[0], sides[1]));
    base_err(c->errs, &marks_differ, seam->place, ERR_TEXT(seam->name), ERR_TEXT(sides[0]), ERR_TEXT(sides[1]));
}

static void check_seam(struct check *c, const struct pattern *p, const struct pattern_seam *seam)
{
    struct worst w = worst_of(c, p, seam);
    if (w.off_mm < 0)
        return; /* what is wrong with its pieces has been told */
    const char *where = base_arena_print(c->a, "%s%s", interval_text(c->a, &w), group_text(c->a, p, seam->cup_group));
    if (!w.marks_agree)
        tell_marks_differ(c, p, seam);
    else
        say(c, base_arena_print(c->a, "  seam %-34s at most %.2f mm off, in size %s%s", seam->name, w.off_mm,
                                p->sizes[w.size], where));
    if (c->json)
        tell_seam_json(c, p, seam, &w);
    if (w.off_mm > FIT_SEAM_TOLERANCE_MM)
        base_err(c->errs, &seam_off, seam->place, ERR_TEXT(seam->name), ERR_OFF_MM(w.off_mm),
                 ERR_TEXT(p->sizes[w.size]), ERR_TEXT(where));
}

/* Every size of every cup group once, for all seams; its faults were told when it was drafted. */
static void size_all(struct check *c, const struct pattern *p)
{
    size_t groups = p->cup_group_count ? p->cup_group_count : 1;
    const struct draft_sized **sized = base_arena_alloc(c->a, groups * p->size_count, sizeof(void *));
    struct err_list *told = base_err_list_create();
    for (size_t i = 0; i < groups * p->size_count; i++) {
        int group = p->cup_group_count ? (int)(i / p->size_count) : PATTERN_NONE;
        struct draft_figure figure = draft_figure_at((double)(i % p->size_count), group);
        sized[i] = draft_size(c->a, p, &figure, told);
    }
    base_err_list_destroy(told);
    c->sized = sized;
}

/* A piece is the same whichever group is cut, so a seam is checked once: in its own group. */
static void check_seams(struct check *c, const struct pattern *p)
{
    size_all(c, p);
    for (size_t s = 0; s < p->seam_count; s++)
        check_seam(c, p, &p->seams[s]);
}

static void check_grain(struct check *c, const struct pattern *p)
{
    for (size_t i = 0; i < p->piece_count; i++)
        if (p->pieces[i].grain[0] == PATTERN_NONE)
            base_err(c->errs, &no_grain, p->pieces[i].place, ERR_TEXT(p->pieces[i].name));
}

static void check_use(struct check *c, const struct pattern *p)
{
    for (size_t i = 0; i < p->piece_count; i++) {
        bool used = false;
        for (size_t v = 0; v < p->view_count; v++)
            for (size_t k = 0; k < p->views[v].cut_count; k++)
                used = used || p->views[v].cuts[k].piece == (int)i;
        if (!used)
            base_err(c->errs, &never_cut, p->pieces[i].place, ERR_TEXT(p->pieces[i].name));
    }
}

/* In each size the ease that the garment has on the chart's body against the one that is meant. */
static void check_ease(struct check *c, const struct pattern *p, int group)
{
    struct err_list *found = base_err_list_create();
    for (size_t i = 0; i < p->ease_count; i++)
        for (size_t size = 0; size < p->size_count; size++) {
            const char *name = p->ease[i].name;
            const char *where = base_arena_print(c->a, "%s%s", p->sizes[size], group_text(c->a, p, group));
            double has_mm = pattern_value_at(pattern_finished(p, name, group), (double)size) -
                            pattern_value_at(pattern_drawn_for(p, name, group), (double)size);
            double meant_mm = pattern_value_at(pattern_intended_ease(p, name, group), (double)size);
            if (fabs(has_mm - meant_mm) > SAME_EASE_MM)
                base_err(found, &ease_differs, p->ease[i].place, ERR_TEXT(name), ERR_TEXT(where), ERR_MM(has_mm),
                         ERR_MM(meant_mm));
        }
    tell_new(c, found);
    base_err_list_destroy(found);
}

static void check_pattern(struct check *c)
{
    const struct pattern *p = pattern_read(c->a, c->path, c->errs);
    if (!p)
        return;
    say(c, base_arena_print(
               c->a, "pattern “%s”: %s, %s, %s, %s, %s", p->name, count_text(c->a, p->size_count, "size", "sizes"),
               count_text(c->a, p->cup_group_count, "cup group", "cup groups"),
               count_text(c->a, p->piece_count, "piece", "pieces"), count_text(c->a, p->seam_count, "seam", "seams"),
               count_text(c->a, p->view_count, "view", "views")));
    for_each_group(c, p, check_outlines);
    for_each_group(c, p, check_ease);
    check_seams(c, p);
    check_grain(c, p);
    check_use(c, p);
}

static void check_body(struct check *c)
{
    const struct sizing_body *b = sizing_body_read(c->a, c->path, c->errs);
    if (b)
        say(c, base_arena_print(c->a, "measurements of “%s”: %zu", b->name, b->count));
}

static void check_mat(struct check *c)
{
    struct calibration_mat m;
    char width[UNITS_TEXT], height[UNITS_TEXT];
    if (calibration_mat_read(c->a, c->path, &m, c->errs))
        say(c, base_arena_print(c->a, "mat “%s”: ruled field %s × %s", m.name,
                                units_print_length(width, m.width_mm, m.unit),
                                units_print_length(height, m.height_mm, m.unit)));
}

static void check_readings(struct check *c)
{
    struct calibration_readings r;
    struct calibration_solution s;
    if (!calibration_readings_read(c->a, c->path, &r, c->errs))
        return;
    if (calibration_solve(c->a, c->path, &r, CALIBRATION_LENS_WEAK, &s, c->errs))
        say(c,
            base_arena_print(c->a, "readings “%s”: %zu, at most %.2f mm from the table", r.name, r.count, s.worst_mm));
}

static const char *lens_text(struct check *c, const struct calibration_table *t)
{
    char height[UNITS_TEXT];
    if (!calibration_lens_is_known(&t->lens))
        return "";
    return base_arena_print(c->a, ", lens %s high", units_print_length(height, t->lens.height_mm, t->unit));
}

static void check_table(struct check *c)
{
    struct calibration_table t;
    if (calibration_table_read(c->a, c->path, &t, c->errs))
        say(c, base_arena_print(c->a, "table “%s” of %s: frame %d × %d px, at most %.2f mm a pixel%s", t.name, t.made,
                                t.map.width_px, t.map.height_px, geometry_map_mm_per_px(&t.map), lens_text(c, &t)));
}

static const char *surface_text(struct check *c, const struct job *job)
{
    if (calibration_raise_mm(&job->surface) == 0)
        return "";
    return base_arena_print(c->a, ", on cloth %s", app_surface_text(c->a, &job->surface));
}

static void check_job(struct check *c)
{
    struct job job;
    struct draft draft;
    if (!job_read(c->a, c->path, &job, c->errs))
        return;
    struct draft_figure figure = job_figure(&job);
    if (draft_strictly(c, c->a, job.pattern, &figure, job.view, &draft))
        say(c, base_arena_print(c->a, "job: “%s”, view %s, for “%s”: %s to cut, %s%s", job.pattern->name,
                                job.pattern->views[job.view].name, job.body->name,
                                count_text(c->a, draft.cut_count, "line", "lines"),
                                job.has_table ? job.table.name : "no table yet", surface_text(c, &job)));
}

static const struct {
    const char *kind;
    void (*check)(struct check *);
} kind_rows[] = {
    { "pattern", check_pattern },   { "body", check_body },   { "mat", check_mat },
    { "readings", check_readings }, { "table", check_table }, { "job", check_job },
};

static const char *kind_list(struct arena *a)
{
    const char *list = "";
    for (size_t i = 0; i < sizeof kind_rows / sizeof kind_rows[0]; i++)
        list = base_arena_print(a, "%s%s\"%s\"", list, i ? ", " : "", kind_rows[i].kind);
    return list;
}

static void check_by_kind(struct check *c)
{
    const struct json_node *top = json_read_file(c->a, c->path, c->errs);
    const struct json_node *kind = json_find(top, "chalklight");
    if (!top)
        return;
    for (size_t i = 0; kind && kind->type == JSON_TEXT && i < sizeof kind_rows / sizeof kind_rows[0]; i++)
        if (strcmp(kind->text, kind_rows[i].kind) == 0) {
            kind_rows[i].check(c);
            return;
        }
    base_err(c->errs, &unknown_kind, base_err_in_file(c->path), ERR_TEXT(kind_list(c->a)));
}

bool app_check(struct arena *a, const char *path, const char **report, struct json_out *to, struct err_list *errs)
{
    int before = errs->faults;
    struct check c = { .a = a, .path = path, .report = "", .json = to ? json_out_list(to, "seams") : NULL, .errs = errs };
    check_by_kind(&c);
    *report = c.report;
    return errs->faults == before;
}
