#include "drawing/drawing.h"
#include "geometry/cubic.h"
#include "units/length.h"

#include <string.h>

enum { STEPS_MOST = 4096 }; /* of one curve */

static const struct err_kind too_much = {
    "drawing.too_much", ERR_FAULT,
    BASE_TR("holds more lines than can be worked on; take it apart into sheets with fewer pages or layers")
};

/* Letters are about as wide as half their height: common practice, no source. */
#define LETTER_WIDTH 0.5

struct flattening {
    struct arena *a;
    const struct sheet *s;
    struct drawing_line *lines;
    size_t line_count, line_cap, point_count;
    struct drawing_text *texts;
    size_t text_count, text_cap;
};

static vec2 at(struct sheet_point p)
{
    return (vec2){ p.x, p.y };
}

static size_t steps_of(const struct sheet_point *from)
{
    struct geometry_cubic c = { { at(from[0]), at(from[1]), at(from[2]), at(from[3]) } };
    double longest = vec2_length(vec2_sub(c.p[1], c.p[0])) + vec2_length(vec2_sub(c.p[2], c.p[1])) +
                     vec2_length(vec2_sub(c.p[3], c.p[2]));
    size_t steps = longest > 0 ? geometry_cubic_steps(c, DRAWING_FLAT_MM) : 1;
    return steps < STEPS_MOST ? steps : STEPS_MOST;
}

static size_t points_of(const struct sheet *s, const struct sheet_part *part)
{
    const struct sheet_point *p = s->points + part->first_point;
    size_t count = 1;
    for (uint32_t k = 0; k < part->segment_count; k++) {
        bool cubic = s->kinds[part->first_kind + k] == SHEET_CUBIC;
        count += cubic ? steps_of(p) : 1;
        p += cubic ? 3 : 1;
    }
    return count;
}

/* Appends a point, unless the path stands there already. */
static void add(struct geometry_path *path, vec2 p)
{
    if (path->count && path->points[path->count - 1].x == p.x && path->points[path->count - 1].y == p.y)
        return;
    path->points[path->count++] = p;
}

static void add_cubic(struct geometry_path *path, const struct sheet_point *from)
{
    struct geometry_cubic c = { { at(from[0]), at(from[1]), at(from[2]), at(from[3]) } };
    size_t steps = steps_of(from);
    for (size_t k = 1; k <= steps; k++)
        add(path, geometry_cubic_at(c, (double)k / (double)steps));
}

static struct geometry_path flat_part(struct arena *a, const struct sheet *s, const struct sheet_part *part,
                                      size_t most)
{
    struct geometry_path path = { base_arena_alloc(a, most, sizeof(vec2)), 0, part->closed != 0 };
    const struct sheet_point *p = s->points + part->first_point;
    add(&path, at(*p));
    for (uint32_t k = 0; k < part->segment_count; k++) {
        if (s->kinds[part->first_kind + k] == SHEET_CUBIC) {
            add_cubic(&path, p);
            p += 3;
        } else {
            add(&path, at(*++p));
        }
    }
    vec2 first = path.points[0], last = path.points[path.count - 1];
    if (path.closed && path.count > 1 && first.x == last.x && first.y == last.y)
        path.count--;
    return path;
}

static int index_of(uint32_t index)
{
    return index == SHEET_NONE ? DRAWING_NONE : (int)index;
}

static void put_lines(struct flattening *f, uint32_t index, const struct sheet_item *item)
{
    for (uint32_t k = 0; k < item->part_count; k++) {
        const struct sheet_part *part = &f->s->parts[item->first_part + k];
        size_t most = points_of(f->s, part);
        f->point_count += most;
        if (f->point_count > DRAWING_POINTS_MOST)
            return;
        f->lines = base_arena_grow(f->a, f->lines, &f->line_cap, f->line_count + 1, sizeof *f->lines);
        f->lines[f->line_count++] = (struct drawing_line){ .path = { flat_part(f->a, f->s, part, most) },
                                                           .page = (int)item->page,
                                                           .layer = index_of(item->layer),
                                                           .style = (int)item->style,
                                                           .clip = index_of(item->clip),
                                                           .item = index };
    }
}

/* How far the run's outlines reach along its baseline. */
static double reach_of(const struct flattening *f, size_t first, const struct drawing_text *text)
{
    double reach = 0;
    for (size_t k = first; k < f->line_count; k++) {
        struct geometry_path path = f->lines[k].path.path;
        for (size_t i = 0; i < path.count; i++)
            reach = fmax(reach, vec2_dot(vec2_sub(path.points[i], (vec2){ text->at.x, text->at.y }), text->along));
    }
    return reach > 0 ? reach : LETTER_WIDTH * text->size_mm * (double)strlen(text->words);
}

/* The letters' outlines are the lines from `first` on. */
static void put_text(struct flattening *f, uint32_t index, const struct sheet_item *item, size_t first)
{
    const struct sheet_run *run = &f->s->runs[item->extra];
    struct drawing_text text = { .at = { run->x, run->y },
                                 .along = { run->dx, run->dy },
                                 .size_mm = run->size_mm,
                                 .words = sheet_text_at(f->s, item->text),
                                 .page = (int)item->page,
                                 .layer = index_of(item->layer),
                                 .clip = index_of(item->clip),
                                 .item = index };
    text.length_mm = reach_of(f, first, &text);
    f->texts = base_arena_grow(f->a, f->texts, &f->text_cap, f->text_count + 1, sizeof *f->texts);
    f->texts[f->text_count++] = text;
}

static void put_item(struct flattening *f, uint32_t index)
{
    const struct sheet_item *item = &f->s->items[index];
    size_t first = f->line_count;
    put_lines(f, index, item);
    if (item->kind == SHEET_RUN)
        put_text(f, index, item, first);
}

/* How large a dot of the picture is that is all of a page; 0: there is none. Pages count from 1 there. */
static double dot_of(const struct sheet *s, size_t page)
{
    for (size_t i = 0; i < s->counts[SHEET_NOTES]; i++)
        if (s->notes[i].code == SHEET_NOTE_SCAN && s->notes[i].a == page + 1 && s->notes[i].b)
            return UNITS_MM_PER_IN / s->notes[i].b;
    return 0;
}

static bool is_seen(const struct sheet *s, const struct sheet_item *item)
{
    return item->kind == SHEET_RUN ||
           (item->kind == SHEET_PATH && (s->styles[item->style].flags & (SHEET_STROKED | SHEET_FILLED)) != 0);
}

static struct drawing_page flat_page(struct flattening *f, const struct sheet_page *page)
{
    struct drawing_page out = { .width_mm = page->width_mm,
                                .height_mm = page->height_mm,
                                .label = page->label_text == SHEET_NONE ? NULL : sheet_text_at(f->s, page->label_text),
                                .first_line = f->line_count,
                                .first_text = f->text_count };
    for (uint32_t k = 0; k < page->item_count && f->point_count <= DRAWING_POINTS_MOST; k++) {
        const struct sheet_item *item = &f->s->items[page->first_item + k];
        if (item->kind == SHEET_IMAGE)
            out.image_count++;
        else if (is_seen(f->s, item))
            put_item(f, page->first_item + k);
    }
    out.line_count = f->line_count - out.first_line;
    out.text_count = f->text_count - out.first_text;
    return out;
}

static const struct drawing_layer *flat_layers(struct arena *a, const struct sheet *s)
{
    struct drawing_layer *layers = base_arena_alloc(a, s->counts[SHEET_LAYERS], sizeof *layers);
    for (size_t i = 0; i < s->counts[SHEET_LAYERS]; i++)
        layers[i] = (struct drawing_layer){ sheet_text_at(s, s->layers[i].name_text), index_of(s->layers[i].parent),
                                            (s->layers[i].flags & SHEET_LAYER_ON) != 0 };
    return layers;
}

static const struct drawing_style *flat_styles(struct arena *a, const struct sheet *s)
{
    struct drawing_style *styles = base_arena_alloc(a, s->counts[SHEET_STYLES], sizeof *styles);
    for (size_t i = 0; i < s->counts[SHEET_STYLES]; i++) {
        const struct sheet_style *from = &s->styles[i];
        styles[i] = (struct drawing_style){ .width_mm = from->width_mm,
                                            .rgb = from->rgb,
                                            .stroked = (from->flags & SHEET_STROKED) != 0,
                                            .filled = (from->flags & SHEET_FILLED) != 0,
                                            .even_odd = (from->flags & SHEET_EVEN_ODD) != 0,
                                            .lettering = (from->flags & SHEET_TEXT) != 0,
                                            .traced = (from->flags & SHEET_TRACED) != 0,
                                            .dash_mm = s->numbers + from->first_dash,
                                            .dash_count = from->dash_count };
    }
    return styles;
}

static const struct geometry_box *flat_clips(struct arena *a, const struct sheet *s)
{
    struct geometry_box *clips = base_arena_alloc(a, s->counts[SHEET_CLIPS], sizeof *clips);
    for (size_t i = 0; i < s->counts[SHEET_CLIPS]; i++) {
        const struct sheet_clip *from = &s->clips[i];
        clips[i] = (struct geometry_box){ { from->x0, from->y0 }, { from->x1, from->y1 } };
    }
    return clips;
}

bool drawing_flatten(struct arena *a, const struct sheet *s, struct drawing *out, struct err_list *errs)
{
    struct flattening f = { .a = a, .s = s };
    struct drawing_page *pages = base_arena_alloc(a, s->counts[SHEET_PAGES], sizeof *pages);
    for (size_t i = 0; i < s->counts[SHEET_PAGES]; i++) {
        pages[i] = flat_page(&f, &s->pages[i]);
        pages[i].dot_mm = dot_of(s, i);
    }
    *out = (struct drawing){ .pages = pages,
                             .page_count = s->counts[SHEET_PAGES],
                             .layers = flat_layers(a, s),
                             .layer_count = s->counts[SHEET_LAYERS],
                             .styles = flat_styles(a, s),
                             .style_count = s->counts[SHEET_STYLES],
                             .lines = f.lines,
                             .line_count = f.line_count,
                             .texts = f.texts,
                             .text_count = f.text_count,
                             .clips = flat_clips(a, s),
                             .clip_count = s->counts[SHEET_CLIPS] };
    if (f.point_count > DRAWING_POINTS_MOST)
        base_err(errs, &too_much, (struct err_place){ 0 }, ERR_NONE);
    return f.point_count <= DRAWING_POINTS_MOST;
}

bool drawing_layer_shows(const struct drawing *d, const bool *on, int layer)
{
    while (layer != DRAWING_NONE && on[layer])
        layer = d->layers[layer].parent;
    return layer == DRAWING_NONE;
}

bool drawing_layer_within(const struct drawing *d, int layer, int above)
{
    while (layer != DRAWING_NONE && layer != above)
        layer = d->layers[layer].parent;
    return layer == above;
}
