#include "drawing/cut.h"
#include "drawing/looks.h"
#include "drawing/pages.h"
#include "drawing/tiling.h"

#include <stdlib.h>
#include <string.h>

#define TEXT_MM 1.0 /* words that near a side are looked for on both pages */

struct joining {
    struct arena *a;
    const struct drawing *flat;
    struct drawing_scale scale;
    const struct drawing_pages *pages;
    struct drawing_looks looks;
    struct drawing_parts parts;
    struct drawing_line *lines;
    size_t line_count, line_cap;
    struct drawing_text *texts;
    size_t text_count, text_cap;
};

static vec2 on_sheet(const struct joining *j, const struct drawing_place *place, vec2 p)
{
    return vec2_add(place->shift, (vec2){ p.x * j->scale.across, p.y * j->scale.up });
}

static struct geometry_path path_on_sheet(const struct joining *j, const struct drawing_place *place,
                                          struct geometry_path path)
{
    struct geometry_path out = { base_arena_alloc(j->a, path.count, sizeof *out.points), path.count, path.closed };
    for (size_t i = 0; i < path.count; i++)
        out.points[i] = on_sheet(j, place, path.points[i]);
    return out;
}

static struct geometry_box box_on_sheet(const struct joining *j, const struct drawing_place *place,
                                        const struct geometry_box *box)
{
    return (struct geometry_box){ on_sheet(j, place, box->min), on_sheet(j, place, box->max) };
}

static struct geometry_box common(struct geometry_box a, struct geometry_box b)
{
    return (struct geometry_box){ { fmax(a.min.x, b.min.x), fmax(a.min.y, b.min.y) },
                                  { fmin(a.max.x, b.max.x), fmin(a.max.y, b.max.y) } };
}

/* What is taken of a page, in which a line is seen, on the joined sheet. */
static struct geometry_box window_of(const struct joining *j, const struct drawing_place *place, int clip)
{
    struct geometry_box seen = drawing_seen_box(j->flat, place->page, clip);
    struct geometry_box window = common((struct geometry_box){ place->window[0], place->window[1] }, seen);
    return box_on_sheet(j, place, &window);
}

static bool is_furniture(const bool *furniture, size_t index)
{
    return furniture && furniture[index];
}

/* Or what is moved onto a side touches. */
static bool may_touch(const struct geometry_box *a, const struct geometry_box *b)
{
    double near = DRAWING_ALONG_MM;
    return a->min.x <= b->max.x + near && b->min.x <= a->max.x + near && a->min.y <= b->max.y + near &&
           b->min.y <= a->max.y + near;
}

static void cut_lines(struct joining *j, int index)
{
    const struct drawing_place *place = &j->pages->places[index];
    const struct drawing_page *page = &j->flat->pages[place->page];
    for (size_t i = page->first_line; i < page->first_line + page->line_count; i++) {
        const struct drawing_line *line = &j->flat->lines[i];
        if (is_furniture(j->pages->furniture, i) || j->flat->styles[line->style].lettering)
            continue;
        struct geometry_box window = window_of(j, place, line->clip), box = geometry_path_box(line->path.path);
        box = box_on_sheet(j, place, &box);
        if (!may_touch(&window, &box))
            continue;
        struct drawing_part part = { .path = path_on_sheet(j, place, line->path.path),
                                     .line = i,
                                     .look = drawing_look_of(&j->looks, line),
                                     .place = index };
        drawing_cut(j->a, &part, &window, &j->parts);
    }
}

static struct drawing_line line_of(const struct joining *j, size_t index, struct geometry_path path)
{
    struct drawing_line line = j->flat->lines[index];
    line.path.path = path;
    line.page = 0;
    line.clip = DRAWING_NONE;
    line.layer = line.layer == DRAWING_NONE ? DRAWING_NONE : j->looks.layers[line.layer];
    line.style = j->looks.styles[line.style];
    return line;
}

static void put_line(struct joining *j, size_t index, struct geometry_path path)
{
    j->lines = base_arena_grow(j->a, j->lines, &j->line_cap, j->line_count + 1, sizeof *j->lines);
    j->lines[j->line_count++] = line_of(j, index, path);
}

/* --------------------------------------------------------------------------------------------------------------- words
 */

/* A run that is taken. */
struct taken {
    size_t text;
    int place;
    vec2 at;
    bool near_side; /* the neighbour may have it, too */
    bool twice;
};

static struct taken *take_texts(struct joining *j, size_t *count)
{
    struct taken *taken = base_arena_alloc(j->a, j->flat->text_count, sizeof *taken);
    *count = 0;
    for (size_t k = 0; k < j->pages->place_count; k++) {
        const struct drawing_place *place = &j->pages->places[k];
        const struct drawing_page *page = &j->flat->pages[place->page];
        struct geometry_box window = window_of(j, place, DRAWING_NONE);
        for (size_t i = page->first_text; i < page->first_text + page->text_count; i++) {
            vec2 at = on_sheet(j, place, (vec2){ j->flat->texts[i].at.x, j->flat->texts[i].at.y });
            double within =
                fmin(fmin(at.x - window.min.x, window.max.x - at.x), fmin(at.y - window.min.y, window.max.y - at.y));
            if (!is_furniture(j->pages->furniture_texts, i) && within >= -TEXT_MM)
                taken[(*count)++] = (struct taken){ i, (int)k, at, within <= TEXT_MM, false };
        }
    }
    return taken;
}

/* A text with its words at hand, to sort by them. */
struct worded {
    const char *words;
    struct taken *taken;
};

static int by_words(const void *x, const void *y)
{
    const struct worded *a = x, *b = y;
    int order = strcmp(a->words, b->words);
    if (order)
        return order;
    if (a->taken->at.x != b->taken->at.x)
        return a->taken->at.x < b->taken->at.x ? -1 : 1;
    return (a->taken->text > b->taken->text) - (a->taken->text < b->taken->text);
}

/* Of words that two pages have at one place the later are left out. */
static void drop_twice(struct joining *j, struct taken *taken, size_t count)
{
    struct worded *near = base_arena_alloc(j->a, count, sizeof *near);
    size_t near_count = 0;
    for (size_t i = 0; i < count; i++)
        if (taken[i].near_side)
            near[near_count++] = (struct worded){ j->flat->texts[taken[i].text].words, &taken[i] };
    if (near_count)
        qsort(near, near_count, sizeof *near, by_words);
    for (size_t i = 0; i < near_count; i++)
        for (size_t k = i + 1; k < near_count && strcmp(near[i].words, near[k].words) == 0 &&
                               near[k].taken->at.x - near[i].taken->at.x <= TEXT_MM;
             k++)
            if (near[i].taken->place != near[k].taken->place && !near[i].taken->twice &&
                fabs(near[k].taken->at.y - near[i].taken->at.y) <= TEXT_MM)
                near[k].taken->twice = true;
}

/* Letters' outlines come whole. Lines and texts of a page are in the order of their items. */
static size_t put_letters(struct joining *j, const struct taken *t, size_t from)
{
    const struct drawing_place *place = &j->pages->places[t->place];
    const struct drawing_page *page = &j->flat->pages[place->page];
    uint32_t item = j->flat->texts[t->text].item;
    size_t end = page->first_line + page->line_count;
    while (from < end && j->flat->lines[from].item < item)
        from++;
    for (; from < end && j->flat->lines[from].item == item; from++)
        put_line(j, from, path_on_sheet(j, place, j->flat->lines[from].path.path));
    return from;
}

static void put_text(struct joining *j, const struct taken *t)
{
    struct drawing_text text = j->flat->texts[t->text];
    vec2 along = { text.along.x * j->scale.across, text.along.y * j->scale.up };
    vec2 up = { -text.along.y * j->scale.across, text.along.x * j->scale.up };
    text.at = (struct sheet_pt){ t->at.x, t->at.y };
    text.size_mm *= vec2_length(up);
    text.length_mm *= vec2_length(along);
    text.along = vec2_unit(along);
    text.page = 0;
    text.clip = DRAWING_NONE;
    text.layer = text.layer == DRAWING_NONE ? DRAWING_NONE : j->looks.layers[text.layer];
    j->texts = base_arena_grow(j->a, j->texts, &j->text_cap, j->text_count + 1, sizeof *j->texts);
    j->texts[j->text_count++] = text;
}

static void join_texts(struct joining *j)
{
    size_t count, from = 0;
    struct taken *taken = take_texts(j, &count);
    drop_twice(j, taken, count);
    for (size_t i = 0; i < count; i++) {
        if (i == 0 || taken[i].place != taken[i - 1].place)
            from = j->flat->pages[j->pages->places[taken[i].place].page].first_line;
        if (taken[i].twice)
            continue;
        from = put_letters(j, &taken[i], from);
        put_text(j, &taken[i]);
    }
}

/* ------------------------------------------------------------------------------------------------------------- the
 * sheet */

static struct geometry_box extent(const struct joining *j)
{
    struct geometry_box all = geometry_box_empty();
    for (size_t k = 0; k < j->pages->place_count; k++) {
        const struct drawing_place *place = &j->pages->places[k];
        struct geometry_box window = { place->window[0], place->window[1] };
        all = geometry_box_join(all, box_on_sheet(j, place, &window));
    }
    return all;
}

static size_t images_of(const struct joining *j)
{
    size_t count = 0;
    for (size_t k = 0; k < j->pages->place_count; k++)
        count += j->flat->pages[j->pages->places[k].page].image_count;
    return count;
}

struct drawing drawing_join(struct arena *a, const struct drawing *flat, struct drawing_scale scale,
                            const struct drawing_pages *pages)
{
    struct joining j = { .a = a, .flat = flat, .scale = scale, .pages = pages, .looks = drawing_find_looks(a, flat) };
    struct drawing_page *page = base_arena_alloc(a, 1, sizeof *page);
    struct drawing out = *flat;
    for (size_t k = 0; k < pages->place_count; k++)
        cut_lines(&j, (int)k);
    struct drawing_parts joined = drawing_stitch(a, &j.parts);
    for (size_t i = 0; i < joined.count; i++)
        put_line(&j, joined.all[i].line, joined.all[i].path);
    join_texts(&j);
    struct geometry_box all = extent(&j);
    *page = (struct drawing_page){ .width_mm = fmax(all.max.x, 0),
                                   .height_mm = fmax(all.max.y, 0),
                                   .line_count = j.line_count,
                                   .text_count = j.text_count,
                                   .image_count = images_of(&j) };
    out.pages = page;
    out.page_count = 1;
    out.lines = j.lines;
    out.line_count = j.line_count;
    out.texts = j.texts;
    out.text_count = j.text_count;
    out.clips = NULL;
    out.clip_count = 0;
    return out;
}
