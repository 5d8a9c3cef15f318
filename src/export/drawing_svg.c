#include "export/drawing_svg.h"

#include "base/buffer.h"
#include "export/svg_parts.h"
#include "export/xml.h"

#include <stdlib.h>

#define HAIRLINE_MM 0.1 /* SVG draws no line without width */

/* Indices that belong to one layer, in order; [0] is of no layer, [1 + n] of layer n. */
struct sorted {
    const size_t *rows;
    const size_t *first; /* one more than there are layers and none */
};

struct writing {
    struct base_buffer out;
    const struct drawing *d;
    const struct drawing_page *page;
    struct sorted lines, texts;
    struct sorted children; /* layers by their parent */
    const uint32_t *worded; /* items that are texts, in order */
    size_t worded_count;
    bool *clip_told;
};

static int line_layer(const struct drawing *d, size_t i)
{
    return d->lines[i].layer;
}

static int text_layer(const struct drawing *d, size_t i)
{
    return d->texts[i].layer;
}

static int layer_parent(const struct drawing *d, size_t i)
{
    return d->layers[i].parent;
}

/* A counting sort. */
static struct sorted sort(struct arena *a, const struct drawing *d, size_t first, size_t count,
                          int (*layer_of)(const struct drawing *d, size_t i))
{
    size_t *starts = base_arena_alloc(a, d->layer_count + 3, sizeof *starts);
    size_t *rows = base_arena_alloc(a, count, sizeof *rows);
    for (size_t i = first; i < first + count; i++)
        starts[layer_of(d, i) + 3]++;
    for (size_t k = 2; k < d->layer_count + 3; k++)
        starts[k] += starts[k - 1];
    for (size_t i = first; i < first + count; i++)
        rows[starts[layer_of(d, i) + 2]++] = i;
    return (struct sorted){ rows, starts };
}

static int by_item(const void *left, const void *right)
{
    uint32_t a = *(const uint32_t *)left, b = *(const uint32_t *)right;
    return (a > b) - (a < b);
}

/* What was read from outlines stays outlines. */
static void find_worded(struct writing *w)
{
    uint32_t *items = base_arena_alloc(w->out.a, w->page->text_count, sizeof *items);
    for (size_t i = 0; i < w->page->text_count; i++)
        if (!w->d->texts[w->page->first_text + i].read)
            items[w->worded_count++] = w->d->texts[w->page->first_text + i].item;
    if (w->worded_count)
        qsort(items, w->worded_count, sizeof *items, by_item);
    w->worded = items;
}

/* Its letters are written as words. */
static bool is_worded(const struct writing *w, const struct drawing_line *line)
{
    return w->d->styles[line->style].lettering &&
           bsearch(&line->item, w->worded, w->worded_count, sizeof *w->worded, by_item);
}

/* ----------------------------------------------------------------------------------------------------------- looks */

static const char *clip_attribute(struct writing *w, int clip)
{
    return clip == DRAWING_NONE ? "" : base_arena_print(w->out.a, " clip-path=\"url(#clip-%d)\"", clip + 1);
}

/* Before it is first used. */
static void tell_clip(struct writing *w, int clip)
{
    if (clip == DRAWING_NONE || w->clip_told[clip])
        return;
    const struct geometry_box *box = &w->d->clips[clip];
    vec2 corner = export_svg_point((vec2){ box->min.x, box->max.y }, w->page->height_mm);
    base_buffer_print(
        &w->out, "<clipPath id=\"clip-%d\"><rect x=\"%.4f\" y=\"%.4f\" width=\"%.4f\" height=\"%.4f\"/></clipPath>\n",
        clip + 1, corner.x, corner.y, box->max.x - box->min.x, box->max.y - box->min.y);
    w->clip_told[clip] = true;
}

static void put_look(struct writing *w, const struct drawing_style *style)
{
    if (!style->stroked) {
        base_buffer_print(&w->out, " fill=\"#%06x\"%s", (unsigned)style->rgb,
                          style->even_odd ? " fill-rule=\"evenodd\"" : "");
        return;
    }
    base_buffer_print(&w->out, " fill=\"none\" stroke=\"#%06x\" stroke-width=\"%.4f\"", (unsigned)style->rgb,
                      style->width_mm > 0 ? style->width_mm : HAIRLINE_MM);
    for (size_t i = 0; i < style->dash_count; i++)
        base_buffer_print(&w->out, "%s%.4f", i ? "," : " stroke-dasharray=\"", style->dash_mm[i]);
    base_buffer_print(&w->out, "%s", style->dash_count ? "\"" : "");
}

/* ----------------------------------------------------------------------------------------------------------- things */

static bool is_one(const struct drawing_line *a, const struct drawing_line *b)
{
    return a->item == b->item && a->style == b->style && a->clip == b->clip;
}

/* The line at `at` of the sorted ones with those after it that were painted with it; returns where it stopped. */
static size_t put_item(struct writing *w, size_t at, size_t end)
{
    const struct drawing_line *first = &w->d->lines[w->lines.rows[at]];
    tell_clip(w, first->clip);
    base_buffer_print(&w->out, "<path");
    put_look(w, &w->d->styles[first->style]);
    base_buffer_print(&w->out, "%s d=\"", clip_attribute(w, first->clip));
    for (; at < end && is_one(first, &w->d->lines[w->lines.rows[at]]); at++)
        export_svg_path(&w->out, w->d->lines[w->lines.rows[at]].path.path, (vec2){ 0, 0 }, w->page->height_mm);
    base_buffer_print(&w->out, "\"/>\n");
    return at;
}

/* Those of a layer, or of none. */
static void put_things(struct writing *w, int layer)
{
    size_t end = w->lines.first[layer + 2];
    for (size_t at = w->lines.first[layer + 1]; at < end;)
        if (is_worded(w, &w->d->lines[w->lines.rows[at]]))
            at++;
        else
            at = put_item(w, at, end);
    for (size_t at = w->texts.first[layer + 1]; at < w->texts.first[layer + 2]; at++) {
        const struct drawing_text *text = &w->d->texts[w->texts.rows[at]];
        if (text->read)
            continue;
        tell_clip(w, text->clip);
        if (text->size_mm > 0)
            export_svg_words(&w->out, text->words, (vec2){ text->at.x, text->at.y }, text->along, text->size_mm,
                             w->page->height_mm,
                             base_arena_print(w->out.a, "fill=\"#000000\"%s", clip_attribute(w, text->clip)));
    }
}

static void put_group(struct writing *w, int layer)
{
    base_buffer_print(&w->out, "<g id=\"layer-%d\"%s><title>%s</title>\n", layer + 1,
                      w->d->layers[layer].on ? "" : " display=\"none\"",
                      export_xml_text(w->out.a, w->d->layers[layer].name));
    put_things(w, layer);
}

/* The layer's things, then those of the layers within it. A tree as deep as a file may have it is gone through without
 * calls within calls. */
static void put_layers(struct writing *w)
{
    size_t depth = 0, *next = base_arena_alloc(w->out.a, w->d->layer_count + 2, sizeof *next);
    int *within = base_arena_alloc(w->out.a, w->d->layer_count + 1, sizeof *within);
    within[0] = DRAWING_NONE;
    next[0] = w->children.first[0];
    for (;;) {
        if (next[depth] < w->children.first[within[depth] + 2]) {
            int layer = (int)w->children.rows[next[depth]++];
            put_group(w, layer);
            within[++depth] = layer;
            next[depth] = w->children.first[layer + 1];
        } else if (depth--) {
            base_buffer_print(&w->out, "</g>\n");
        } else {
            return;
        }
    }
}

const char *export_drawing_svg(struct arena *a, const struct drawing *d, size_t page, const char *title)
{
    const struct drawing_page *p = &d->pages[page];
    struct writing w = { .out = { .a = a },
                         .d = d,
                         .page = p,
                         .lines = sort(a, d, p->first_line, p->line_count, line_layer),
                         .texts = sort(a, d, p->first_text, p->text_count, text_layer),
                         .children = sort(a, d, 0, d->layer_count, layer_parent),
                         .clip_told = base_arena_alloc(a, d->clip_count, sizeof *w.clip_told) };
    find_worded(&w);
    export_svg_begin(&w.out, p->width_mm, p->height_mm, title);
    put_things(&w, DRAWING_NONE);
    put_layers(&w);
    base_buffer_print(&w.out, "</svg>\n");
    return base_buffer_text(&w.out);
}
