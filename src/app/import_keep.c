#include "app/import_keep.h"

#include "base/digest.h"

#include "json/want.h"
#include "json/write.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { VERSION = 1, MOST_COLUMNS = 10000, MOST_CELL = 1000000, MOST_PIECES = 1000000, MOST_COUNT = 1000 };

static const struct err_kind other_sheet = {
    "import.other_sheet", ERR_FAULT,
    BASE_TR("was kept of another drawing, or of one that was changed since; take that "
            "file away to begin anew")
};
static const struct err_kind not_so = { "import.not_so", ERR_FAULT,
                                        BASE_TR("is not as it was kept; take that file away to begin anew") };

static const char *const roles[] = {
    [LIFTING_UNUSED] = "unused", [LIFTING_COMMON] = "common", [LIFTING_SIZE] = "size"
};
static const char *const mend_names[] = {
    [LIFTING_MEND_JOIN] = "join",     [LIFTING_MEND_PART] = "part",   [LIFTING_MEND_MIRROR] = "mirror",
    [LIFTING_MEND_RENAME] = "rename", [LIFTING_MEND_GRAIN] = "grain", [LIFTING_MEND_COUNT] = "count",
    [LIFTING_MEND_FOLD] = "fold",     [LIFTING_MEND_DROP] = "drop"
};
static const char *const scales[] = { [APP_IMPORT_AS_FOUND] = "found",
                                      [APP_IMPORT_AS_DRAWN] = "drawn",
                                      [APP_IMPORT_BY_SQUARE] = "square",
                                      [APP_IMPORT_BY_POINTS] = "points" };

enum {
    ROLES = sizeof roles / sizeof roles[0],
    MENDS = sizeof mend_names / sizeof mend_names[0],
    SCALES = sizeof scales / sizeof scales[0]
};

/* --- what tells one drawing from another ------------------------------------------------------------------------- */

/* By its pages and layers and how many lines each page has: small changes of an upgraded reader do not count. */
static const char *sheet_name(struct arena *a, const struct drawing *d)
{
    uint64_t hash = BASE_DIGEST_NONE;
    for (size_t i = 0; i < d->page_count; i++) {
        const struct drawing_page *page = &d->pages[i];
        const char *text = base_arena_print(a, "%.2f %.2f %zu;", page->width_mm, page->height_mm, page->line_count);
        hash = base_digest(hash, text, strlen(text));
    }
    for (size_t i = 0; i < d->layer_count; i++)
        hash = base_digest(hash, d->layers[i].name, strlen(d->layers[i].name) + 1);
    return base_arena_print(a, "%016llx", (unsigned long long)hash);
}

/* --- writing ----------------------------------------------------------------------------------------------------- */

static void put_points(struct json_out *to, const char *key, const vec2 *points, size_t count)
{
    struct json_out *list = json_out_list(to, key);
    for (size_t i = 0; i < count; i++) {
        struct json_out *pair = json_out_list(list, NULL);
        json_out_number(pair, NULL, points[i].x);
        json_out_number(pair, NULL, points[i].y);
    }
}

static void put_scale(struct json_out *to, const struct app_import_choices *c)
{
    struct json_out *scale = json_out_object(to, "scale");
    json_out_text(scale, "by", scales[c->scale]);
    if (c->scale == APP_IMPORT_BY_SQUARE) {
        json_out_number(scale, "square", (double)c->square);
        json_out_number(scale, "side_mm", c->side_mm);
    } else if (c->scale == APP_IMPORT_BY_POINTS) {
        json_out_number(scale, "page", c->page);
        put_points(scale, "points", c->points, 2);
        json_out_number(scale, "true_mm", c->true_mm);
    }
}

static void put_pages(struct json_out *to, const struct app_import *im)
{
    const struct drawing_pages_choice *c = &im->choices.pages;
    struct json_out *pages = json_out_object(to, "pages");
    json_out_number(pages, "columns", c->columns);
    json_out_bool(pages, "by_columns", c->by_columns);
    struct json_out *cells = c->cells ? json_out_list(pages, "cells") : NULL;
    for (size_t i = 0; cells && i < im->flat.page_count; i++)
        json_out_number(cells, NULL, c->cells[i]);
    if (c->moved)
        put_points(pages, "moved_mm", c->moved, im->flat.page_count);
}

static void put_layers(struct json_out *to, const struct app_import *im)
{
    struct json_out *list = im->choices.layers ? json_out_list(to, "layers") : NULL;
    for (size_t i = 0; list && i < im->flat.layer_count; i++)
        if (im->choices.layers[i])
            json_out_number(list, NULL, (double)i);
}

static void put_say(struct json_out *list, const struct app_import_say *say)
{
    struct json_out *to = json_out_object(list, NULL);
    json_out_number(to, "layer", say->layer);
    json_out_number(to, "rgb", say->rgb);
    json_out_bool(to, "filled", say->filled);
    json_out_number(to, "dashes", (double)say->dash_count);
    json_out_number(to, "nth", (double)say->nth);
    json_out_text(to, "role", roles[say->role]);
    if (say->size)
        json_out_text(to, "size", say->size);
    if (say->cup_group)
        json_out_text(to, "cup_group", say->cup_group);
}

static void put_mend(struct json_out *list, const struct lifting_mend *mend)
{
    struct json_out *to = json_out_object(list, NULL), *of;
    const vec2 at[2] = { { mend->at[0].x, mend->at[0].y }, { mend->at[1].x, mend->at[1].y } };
    json_out_text(to, "do", mend_names[mend->kind]);
    of = json_out_list(to, "of");
    json_out_number(of, NULL, (double)mend->of[0]);
    json_out_number(of, NULL, (double)mend->of[1]);
    put_points(to, "at", at, 2);
    json_out_number(to, "number", mend->number);
    if (mend->text)
        json_out_text(to, "text", mend->text);
}

static void put_choices(struct json_out *to, struct arena *a, const struct app_import *im)
{
    const struct app_import_choices *c = &im->choices;
    put_scale(to, c);
    put_pages(to, im);
    put_layers(to, im);
    struct json_out *says = json_out_list(to, "says");
    for (size_t i = 0; i < c->say_count; i++)
        put_say(says, &c->says[i]);
    json_out_text(to, "mends_of", base_arena_print(a, "%016llx", (unsigned long long)c->mends_of));
    struct json_out *mends = json_out_list(to, "mends");
    for (size_t i = 0; i < c->mend_count; i++)
        put_mend(mends, &c->mends[i]);
    struct json_out *sizes = json_out_list(to, "sizes");
    for (size_t i = 0; i < c->size_count; i++)
        json_out_text(sizes, NULL, c->sizes[i]);
    if (!c->allowance.said)
        return;
    struct json_out *allowance = json_out_object(to, "allowance");
    json_out_bool(allowance, "cutting_line", c->allowance.cutting_line);
    json_out_number(allowance, "mm", c->allowance.mm);
}

const char *app_import_keep(struct arena *a, const struct app_import *im)
{
    struct json_out *top = json_out_create();
    json_out_text(top, "chalklight", "sheet");
    json_out_number(top, "version", VERSION);
    json_out_text(top, "drawing", sheet_name(a, &im->flat));
    put_choices(top, a, im);
    const char *text = json_out_print(a, top);
    json_out_destroy(top);
    return text;
}

/* --- reading ----------------------------------------------------------------------------------------------------- */

/* What is read so far; everything lives in `a`. */
struct reading {
    struct arena *a;
    const struct app_import *im;
    struct app_import_choices c;
    struct err_list *errs;
};

static bool is_true(const struct json_node *node)
{
    return node && node->type == JSON_TRUE;
}

static double number_of(struct reading *r, const struct json_node *object, const char *name)
{
    const struct json_node *node = json_need(object, name, JSON_NUMBER, r->errs);
    return node ? node->number : 0;
}

static int whole_of(struct reading *r, const struct json_node *object, const char *name, int least, int most)
{
    int value = least;
    json_need_whole(object, name, least, most, &value, r->errs);
    return value;
}

/* The index of a text among names; 0, told, when it is none of them. */
static int word_of(struct reading *r, const struct json_node *object, const char *name, const char *const *names,
                   int count)
{
    const struct json_node *node = json_need(object, name, JSON_TEXT, r->errs);
    for (int i = 0; node && i < count; i++)
        if (strcmp(node->text, names[i]) == 0)
            return i;
    if (node)
        json_fault(r->errs, node, &not_so, ERR_NONE);
    return 0;
}

static const char *text_of(struct reading *r, const struct json_node *object, const char *name)
{
    const struct json_node *node = json_maybe(object, name, JSON_TEXT, r->errs);
    return node ? base_arena_copy_text(r->a, node->text) : NULL;
}

/* As many points as there have to be. */
static bool points_of(struct reading *r, const struct json_node *list, vec2 *points, size_t count)
{
    bool ok = list && list->count == count;
    const struct json_node *pair = ok ? list->first : NULL;
    for (size_t i = 0; pair && ok; pair = pair->next, i++) {
        ok = pair->type == JSON_LIST && pair->count == 2 && pair->first->type == JSON_NUMBER &&
             pair->first->next->type == JSON_NUMBER && fabs(pair->first->number) <= SHEET_COORDINATE_MOST &&
             fabs(pair->first->next->number) <= SHEET_COORDINATE_MOST;
        if (ok)
            points[i] = (vec2){ pair->first->number, pair->first->next->number };
    }
    if (list && !ok)
        json_fault(r->errs, list, &not_so, ERR_NONE);
    return ok;
}

static void read_scale(struct reading *r, const struct json_node *top)
{
    const struct json_node *scale = json_need(top, "scale", JSON_OBJECT, r->errs);
    r->c.scale = (enum app_import_scale)word_of(r, scale, "by", scales, SCALES);
    if (r->c.scale == APP_IMPORT_BY_SQUARE) {
        r->c.square = (size_t)whole_of(r, scale, "square", 0, MOST_CELL);
        r->c.side_mm = number_of(r, scale, "side_mm");
    } else if (r->c.scale == APP_IMPORT_BY_POINTS) {
        r->c.page = whole_of(r, scale, "page", 0, (int)r->im->flat.page_count - 1);
        points_of(r, json_need(scale, "points", JSON_LIST, r->errs), r->c.points, 2);
        r->c.true_mm = number_of(r, scale, "true_mm");
    }
}

static void read_pages(struct reading *r, const struct json_node *top)
{
    const struct json_node *pages = json_need(top, "pages", JSON_OBJECT, r->errs);
    const struct json_node *cells = json_maybe(pages, "cells", JSON_LIST, r->errs);
    const struct json_node *moved = json_maybe(pages, "moved_mm", JSON_LIST, r->errs);
    size_t count = r->im->flat.page_count, i = 0;
    r->c.pages.columns = whole_of(r, pages, "columns", 0, MOST_COLUMNS);
    r->c.pages.by_columns = is_true(json_find(pages, "by_columns"));
    if (cells && cells->count != count)
        json_fault(r->errs, cells, &not_so, ERR_NONE);
    if (cells && cells->count == count) {
        int *at = base_arena_alloc(r->a, count, sizeof *at);
        for (const struct json_node *cell = cells->first; cell; cell = cell->next)
            json_is_whole(cell, DRAWING_NONE, MOST_CELL, &at[i++], r->errs);
        r->c.pages.cells = at;
    }
    vec2 *by = base_arena_alloc(r->a, count, sizeof *by);
    if (moved && points_of(r, moved, by, count))
        r->c.pages.moved = by;
}

static void read_layers(struct reading *r, const struct json_node *top)
{
    const struct json_node *list = json_maybe(top, "layers", JSON_LIST, r->errs);
    bool *layers = base_arena_alloc(r->a, r->im->flat.layer_count, sizeof *layers);
    int at;
    for (const struct json_node *layer = list ? list->first : NULL; layer; layer = layer->next)
        if (json_is_whole(layer, 0, (int)r->im->flat.layer_count - 1, &at, r->errs))
            layers[at] = true;
    r->c.layers = list ? layers : NULL;
}

static void read_says(struct reading *r, const struct json_node *top)
{
    const struct json_node *list = json_need(top, "says", JSON_LIST, r->errs);
    struct app_import_say *says = base_arena_alloc(r->a, list ? list->count : 0, sizeof *says);
    for (const struct json_node *from = list ? list->first : NULL; from; from = from->next)
        says[r->c.say_count++] =
            (struct app_import_say){ .layer = whole_of(r, from, "layer", DRAWING_NONE, SHEET_LAYERS_MOST),
                                     .rgb = (uint32_t)whole_of(r, from, "rgb", 0, 0xffffff),
                                     .filled = is_true(json_find(from, "filled")),
                                     .dash_count = (size_t)whole_of(r, from, "dashes", 0, MOST_COUNT),
                                     .nth = (size_t)whole_of(r, from, "nth", 0, MOST_CELL),
                                     .role = (enum lifting_role)word_of(r, from, "role", roles, ROLES),
                                     .size = text_of(r, from, "size"),
                                     .cup_group = text_of(r, from, "cup_group") };
    r->c.says = says;
}

static struct lifting_mend mend_of(struct reading *r, const struct json_node *from)
{
    struct lifting_mend mend = { .kind = (enum lifting_mend_kind)word_of(r, from, "do", mend_names, MENDS),
                                 .text = text_of(r, from, "text"),
                                 .number = whole_of(r, from, "number", 0, MOST_COUNT) };
    const struct json_node *of = json_need(from, "of", JSON_LIST, r->errs);
    vec2 at[2] = { { 0, 0 }, { 0, 0 } };
    int which[2] = { 0, 0 };
    if (of && of->count == 2 && json_is_whole(of->first, 0, MOST_PIECES, &which[0], r->errs))
        json_is_whole(of->first->next, 0, MOST_PIECES, &which[1], r->errs);
    points_of(r, json_need(from, "at", JSON_LIST, r->errs), at, 2);
    for (int i = 0; i < 2; i++) {
        mend.of[i] = (size_t)which[i];
        mend.at[i] = (struct sheet_pt){ at[i].x, at[i].y };
    }
    if (mend.kind == LIFTING_MEND_RENAME && !mend.text)
        json_fault(r->errs, from, &not_so, ERR_NONE);
    return mend;
}

static void read_mends(struct reading *r, const struct json_node *top)
{
    const struct json_node *list = json_need(top, "mends", JSON_LIST, r->errs);
    const char *of = text_of(r, top, "mends_of");
    struct lifting_mend *mends = base_arena_alloc(r->a, list ? list->count : 0, sizeof *mends);
    for (const struct json_node *from = list ? list->first : NULL; from; from = from->next)
        mends[r->c.mend_count++] = mend_of(r, from);
    r->c.mends = mends;
    r->c.mends_of = of ? strtoull(of, NULL, 16) : 0;
}

static void read_sizes(struct reading *r, const struct json_node *top)
{
    const struct json_node *list = json_need(top, "sizes", JSON_LIST, r->errs);
    const char **sizes = base_arena_alloc(r->a, list ? list->count : 0, sizeof *sizes);
    for (const struct json_node *size = list ? list->first : NULL; size; size = size->next)
        if (json_is(size, JSON_TEXT, r->errs))
            sizes[r->c.size_count++] = base_arena_copy_text(r->a, size->text);
    r->c.sizes = sizes;
}

static void read_allowance(struct reading *r, const struct json_node *top)
{
    const struct json_node *said = json_maybe(top, "allowance", JSON_OBJECT, r->errs);
    if (said)
        r->c.allowance =
            (struct app_import_allowance){ true, is_true(json_find(said, "cutting_line")), number_of(r, said, "mm") };
}

bool app_import_go_on(struct app_import *im, const char *path, struct err_list *errs)
{
    static void (*const readers[])(struct reading *,
                                   const struct json_node *) = { read_scale, read_pages, read_layers,   read_says,
                                                                 read_mends, read_sizes, read_allowance };
    struct arena *a = base_arena_create();
    int before = errs->faults;
    const struct json_node *top = json_open_ours(a, path, "sheet", VERSION, errs);
    const struct json_node *drawing = json_need(top, "drawing", JSON_TEXT, errs);
    bool same = drawing && strcmp(drawing->text, sheet_name(a, &im->flat)) == 0;
    if (drawing && !same)
        base_err(errs, &other_sheet, base_err_in_file(path), ERR_NONE);
    struct reading r = { .a = im->said, .im = im, .errs = errs };
    for (size_t i = 0; same && i < sizeof readers / sizeof readers[0]; i++)
        readers[i](&r, top);
    bool ok = same && errs->faults == before;
    if (ok) {
        im->choices = r.c;
        app_import_changed(im, APP_IMPORT_TRUTH);
    }
    base_arena_destroy(a);
    return ok;
}
