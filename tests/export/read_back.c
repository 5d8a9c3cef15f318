#include "export/read_back.h"
#include "export/drawing_svg.h"
#include "sheet_reader/collect.h"
#include "sheet_reader/svg.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool read_svg_text(struct arena *a, const char *svg, struct drawing *out)
{
    struct collect *c = collect_create(-1);
    struct sheet *sheet = base_arena_alloc(a, 1, sizeof *sheet);
    struct err_list *errs = base_err_list_create();
    FILE *file = tmpfile();
    const char *flaw;
    bool ok = svg_read(c, svg, strlen(svg)) == SHEET_EXIT_DONE && file && collect_write(c, fileno(file)) &&
              fseek(file, 0, SEEK_END) == 0;
    size_t count = ok ? (size_t)ftell(file) : 0;
    void *bytes = base_arena_alloc(a, count, 1);
    ok = ok && fseek(file, 0, SEEK_SET) == 0 && fread(bytes, 1, count, file) == count &&
         sheet_validate(bytes, count, sheet, &flaw) && drawing_flatten(a, sheet, out, errs);
    if (file)
        fclose(file);
    base_err_list_destroy(errs);
    collect_destroy(c);
    return ok;
}

/* Layers are read back in the order of the tree: where each one went, by names and parents. */
static const char *match_layers(struct arena *a, const struct drawing *d, const struct drawing *back, int *to)
{
    bool *taken = base_arena_alloc(a, back->layer_count, sizeof *taken);
    if (d->layer_count != back->layer_count)
        return base_arena_print(a, "%zu layers instead of %zu", back->layer_count, d->layer_count);
    for (size_t i = 0; i < d->layer_count; i++) {
        int parent = d->layers[i].parent == DRAWING_NONE ? DRAWING_NONE : to[d->layers[i].parent];
        to[i] = DRAWING_NONE;
        for (size_t k = 0; k < back->layer_count && to[i] == DRAWING_NONE; k++)
            if (!taken[k] && back->layers[k].parent == parent && back->layers[k].on == d->layers[i].on &&
                strcmp(back->layers[k].name, d->layers[i].name) == 0)
                to[i] = (int)k;
        if (to[i] == DRAWING_NONE)
            return base_arena_print(a, "layer “%s” is not there", d->layers[i].name);
        taken[to[i]] = true;
    }
    return NULL;
}

static int layer_in(const int *to, int layer)
{
    return layer == DRAWING_NONE ? DRAWING_NONE : to[layer];
}

/* Four digits behind the point stand in the file: such points are one there. */
static bool is_one(double height_mm, vec2 a, vec2 b)
{
    char texts[2][64];
    snprintf(texts[0], sizeof texts[0], "%.4f %.4f", a.x, height_mm - a.y);
    snprintf(texts[1], sizeof texts[1], "%.4f %.4f", b.x, height_mm - b.y);
    return strcmp(texts[0], texts[1]) == 0;
}

static bool near_points(double height_mm, struct geometry_path one, struct geometry_path other, double near_mm)
{
    size_t k = 0;
    bool same = one.closed == other.closed;
    for (size_t i = 0; same && i < one.count; i++) {
        if (i && is_one(height_mm, one.points[i], one.points[i - 1]))
            continue;
        if (i && i + 1 == one.count && one.closed && is_one(height_mm, one.points[i], one.points[0]))
            continue;
        same = k < other.count && vec2_length(vec2_sub(one.points[i], other.points[k])) <= near_mm;
        k++;
    }
    return same && k == other.count;
}

static bool same_look(const struct drawing_style *one, const struct drawing_style *other, double near_mm)
{
    size_t twice = one->dash_count % 2 ? 2 : 1; /* SVG goes through an odd number twice */
    bool same = one->rgb == other->rgb && one->stroked == other->stroked &&
                twice * one->dash_count == other->dash_count && (one->stroked || one->even_odd == other->even_odd);
    for (size_t i = 0; same && i < other->dash_count; i++)
        same = fabs(one->dash_mm[i % one->dash_count] - other->dash_mm[i]) <= near_mm;
    return same && (!one->stroked || !(one->width_mm > 0) || fabs(one->width_mm - other->width_mm) <= near_mm);
}

/* What is seen of a page through a clip of it. */
static struct geometry_box window_of(const struct drawing *d, const struct drawing_page *page, int clip)
{
    struct geometry_box box = { { 0, 0 }, { page->width_mm, page->height_mm } };
    if (clip != DRAWING_NONE) {
        const struct geometry_box *c = &d->clips[clip];
        box.min = (vec2){ fmax(box.min.x, c->min.x), fmax(box.min.y, c->min.y) };
        box.max = (vec2){ fmin(box.max.x, c->max.x), fmin(box.max.y, c->max.y) };
    }
    return box;
}

static bool near_boxes(struct geometry_box a, struct geometry_box b, double near_mm)
{
    return vec2_length(vec2_sub(a.min, b.min)) <= near_mm && vec2_length(vec2_sub(a.max, b.max)) <= near_mm;
}

static bool is_worded(const struct drawing *d, const struct drawing_page *page, const struct drawing_line *line)
{
    for (size_t i = 0; d->styles[line->style].lettering && i < page->text_count; i++)
        if (d->texts[page->first_text + i].item == line->item)
            return true;
    return false;
}

/* The next line of the layer at `from` or after it, but letters of words; line_count: there is none. */
static size_t next_line(const struct drawing *d, const struct drawing_page *page, int layer, size_t from)
{
    size_t i = from;
    while (i < page->line_count &&
           (d->lines[page->first_line + i].layer != layer || is_worded(d, page, &d->lines[page->first_line + i])))
        i++;
    return i;
}

static const char *match_lines(struct arena *a, const struct drawing *d, const struct drawing_page *page, int layer,
                               const struct drawing *back, int back_layer, double near_mm)
{
    const struct drawing_page *back_page = &back->pages[0];
    size_t i = next_line(d, page, layer, 0), k = next_line(back, back_page, back_layer, 0);
    while (i < page->line_count && k < back_page->line_count) {
        const struct drawing_line *one = &d->lines[page->first_line + i];
        const struct drawing_line *other = &back->lines[back_page->first_line + k];
        if (!near_points(page->height_mm, one->path.path, other->path.path, near_mm) ||
            !near_boxes(window_of(d, page, one->clip), window_of(back, back_page, other->clip), near_mm) ||
            !same_look(&d->styles[one->style], &back->styles[other->style], near_mm))
            return base_arena_print(a, "line %zu of layer %d came back otherwise", i, layer);
        i = next_line(d, page, layer, i + 1);
        k = next_line(back, back_page, back_layer, k + 1);
    }
    return i < page->line_count || k < back_page->line_count ? base_arena_print(a, "layer %d has more lines", layer)
                                                             : NULL;
}

/* Blanks in a row are one in SVG, and none at either end. */
static bool same_words(const char *one, const char *other)
{
    for (;;) {
        size_t blanks = strspn(one, " "), other_blanks = strspn(other, " ");
        one += blanks;
        other += other_blanks;
        if (!*one || *one != *other)
            return *one == *other;
        one++;
        other++;
    }
}

static bool near_text(const struct drawing_text *one, const struct drawing_text *other, const int *to, double near_mm)
{
    vec2 apart = { one->at.x - other->at.x, one->at.y - other->at.y };
    return same_words(one->words, other->words) && vec2_length(apart) <= near_mm &&
           vec2_length(vec2_sub(one->along, other->along)) <= near_mm &&
           fabs(one->size_mm - other->size_mm) <= near_mm && layer_in(to, one->layer) == other->layer;
}

static const char *match_texts(struct arena *a, const struct drawing *d, const struct drawing_page *page,
                               const struct drawing *back, const int *to, double near_mm)
{
    for (size_t i = 0; i < page->text_count; i++) {
        const struct drawing_text *one = &d->texts[page->first_text + i];
        size_t k = 0;
        while (k < back->text_count && !near_text(one, &back->texts[k], to, near_mm))
            k++;
        if (k == back->text_count && *one->words && strspn(one->words, " ") != strlen(one->words))
            return base_arena_print(a, "“%s” is not there", one->words);
    }
    return NULL;
}

const char *read_back(struct arena *a, const struct drawing *d, size_t page, double near_mm)
{
    struct drawing back;
    const struct drawing_page *p = &d->pages[page];
    int *to = base_arena_alloc(a, d->layer_count, sizeof *to);
    if (!read_svg_text(a, export_drawing_svg(a, d, page, "a <sheet>"), &back) || back.page_count != 1)
        return "it is not read";
    if (fabs(back.pages[0].width_mm - p->width_mm) > near_mm || fabs(back.pages[0].height_mm - p->height_mm) > near_mm)
        return "the page is not as large";
    const char *what = match_layers(a, d, &back, to);
    for (int layer = DRAWING_NONE; !what && layer < (int)d->layer_count; layer++)
        what = match_lines(a, d, p, layer, &back, layer_in(to, layer), near_mm);
    return what ? what : match_texts(a, d, p, &back, to, near_mm);
}
