/* The whole sheet on the table as it is: which of its lines are shown, and as what. */
#include "app/lift_state.h"
#include "base/text.h"

#define ABOUT_MM 400.0 /* what is shown around a square that is checked */
#define CAP_SHARE 0.7  /* capitals, of a font's size: common practice, no source */

/* How a strand is drawn; false: it is not. */
static bool shows(const struct app_lift *lift, const struct lifting_strand *s, enum scene_sheet_kind *kind)
{
    const struct lifting_division *d = &lift->im->division;
    bool drawn = s->role == LIFTING_SIZE && (app_lift_shown_size(lift) == LIFTING_NONE || d->size_count == 1 ||
                                             app_import_draws(lift->im, d->sizes[s->size]));
    *kind = drawn ? SCENE_SHEET_CUT : s->role == LIFTING_COMMON ? SCENE_SHEET_COMMON : SCENE_SHEET_PLAIN;
    return *kind != SCENE_SHEET_PLAIN || lift->everything;
}

/* Letters go with the lines of their layer: they are hidden where all of these are. */
const bool *app_lift_undrawn_layers(const struct app_lift *lift, struct arena *a)
{
    const struct lifting_division *d = &lift->im->division;
    bool *without = base_arena_alloc(a, lift->im->chosen.layer_count, sizeof *without);
    enum scene_sheet_kind kind;
    for (size_t i = 0; i < d->strand_count; i++)
        if (d->strands[i].layer != DRAWING_NONE && d->strands[i].role == LIFTING_SIZE)
            without[d->strands[i].layer] = true;
    for (size_t i = 0; i < d->strand_count; i++)
        if (d->strands[i].layer != DRAWING_NONE && shows(lift, &d->strands[i], &kind))
            without[d->strands[i].layer] = false;
    return without;
}

static bool is_hidden(const struct app_lift *lift, int layer)
{
    const struct drawing *d = &lift->im->chosen;
    for (; layer != DRAWING_NONE; layer = d->layers[layer].parent)
        if (lift->hidden[layer])
            return true;
    return false;
}

/* Several sizes are told apart by their own dashes; a single one is drawn whole. */
static bool are_several(const struct app_lift *lift)
{
    size_t count = lift->im->division.size_count;
    return app_lift_shown_size(lift) == LIFTING_NONE ? count > 1 : lift->im->choices.size_count > 1 && count > 1;
}

/* For each item whether lines of it are drawn; *count of them. */
static const bool *items_with_lines(struct arena *a, const struct drawing *d, size_t *count)
{
    *count = 0;
    for (size_t i = 0; i < d->line_count; i++)
        if (d->lines[i].item >= *count)
            *count = (size_t)d->lines[i].item + 1;
    bool *with = base_arena_alloc(a, *count, sizeof *with);
    for (size_t i = 0; i < d->line_count; i++)
        with[d->lines[i].item] = true;
    return with;
}

/* Words whose letters are no lines, as those of an SVG. */
static void add_words(const struct app_lift *lift, struct arena *a, const bool *without, struct scene_sheet *sheet)
{
    const struct drawing *d = &lift->im->chosen;
    size_t item_count;
    const bool *with = items_with_lines(a, d, &item_count);
    struct scene_sheet_words *words = base_arena_alloc(a, d->text_count, sizeof *words);
    for (size_t i = 0; i < d->text_count; i++) {
        const struct drawing_text *t = &d->texts[i];
        bool hidden = t->layer != DRAWING_NONE && (without[t->layer] || is_hidden(lift, t->layer));
        if (!hidden && t->size_mm > 0 && !(t->item < item_count && with[t->item]))
            words[sheet->word_count++] =
                (struct scene_sheet_words){ base_text_one_line(a, base_text_plain(a, t->words)),
                                            { t->at.x, t->at.y },
                                            t->along,
                                            CAP_SHARE * t->size_mm };
    }
    sheet->words = words;
}

struct scene_sheet app_lift_whole(const struct app_lift *lift, struct arena *a)
{
    const struct drawing *d = &lift->im->chosen;
    const struct lifting_division *division = &lift->im->division;
    struct scene_sheet_line *lines = base_arena_alloc(a, d->line_count, sizeof *lines);
    const bool *without = app_lift_undrawn_layers(lift, a);
    bool several = are_several(lift);
    struct scene_sheet sheet = { .lines = lines };
    for (size_t i = 0; i < d->line_count; i++) {
        const struct drawing_line *line = &d->lines[i];
        int strand = division->strand_of_line ? division->strand_of_line[i] : LIFTING_NONE;
        enum scene_sheet_kind kind = SCENE_SHEET_LETTERS;
        bool shown = strand == LIFTING_NONE ? line->layer == DRAWING_NONE || !without[line->layer]
                                            : shows(lift, &division->strands[strand], &kind);
        if (!shown || is_hidden(lift, line->layer))
            continue;
        struct scene_sheet_line *to = &lines[sheet.count++];
        *to = (struct scene_sheet_line){ .kind = kind, .path = line->path.path, .item = line->item };
        if (kind != SCENE_SHEET_CUT || several) {
            to->dash_mm = d->styles[line->style].dash_mm;
            to->dash_count = d->styles[line->style].dash_count;
        }
    }
    add_words(lift, a, without, &sheet);
    if (d->page_count)
        sheet.middle = (vec2){ d->pages[0].width_mm / 2, d->pages[0].height_mm / 2 };
    return sheet;
}

/* All lines of a page of the file, thin, and its letters. */
static size_t page_lines(const struct app_lift *lift, struct arena *a, int page, struct scene_sheet_line **out)
{
    const struct drawing_page *p = &lift->im->flat.pages[page];
    struct scene_sheet_line *lines = base_arena_alloc(a, p->line_count, sizeof *lines);
    for (size_t i = 0; i < p->line_count; i++) {
        const struct drawing_line *line = &lift->im->flat.lines[p->first_line + i];
        bool letters = lift->im->flat.styles[line->style].lettering;
        lines[i] = (struct scene_sheet_line){ .kind = letters ? SCENE_SHEET_LETTERS : SCENE_SHEET_PLAIN,
                                              .path = line->path.path,
                                              .item = line->item };
    }
    *out = lines;
    return p->line_count;
}

struct scene_sheet app_lift_flat(const struct app_lift *lift, struct arena *a)
{
    const struct drawing_page *page = &lift->im->flat.pages[lift->page_in_hand];
    struct scene_sheet_line *lines;
    struct scene_sheet sheet = { .middle = { page->width_mm / 2, page->height_mm / 2 } };
    sheet.count = page_lines(lift, a, lift->page_in_hand, &lines);
    sheet.lines = lines;
    return sheet;
}

/* The page and place that the scale rests on, as drawn; of nothing, the middle of the first page. */
static vec2 place_of_scale(const struct app_import *im, int *page)
{
    const struct app_import_choices *c = &im->choices;
    const struct drawing_square *s = im->truth.square;
    *page = 0;
    if (c->scale == APP_IMPORT_BY_POINTS) {
        *page = c->page;
        return vec2_lerp(c->points[0], c->points[1], 0.5);
    }
    if (s) {
        *page = s->page;
        return (vec2){ s->corner.x + s->width_mm / 2, s->corner.y + s->height_mm / 2 };
    }
    return (vec2){ im->flat.pages[0].width_mm / 2, im->flat.pages[0].height_mm / 2 };
}

static bool is_near(struct geometry_path path, vec2 at)
{
    struct geometry_box box = geometry_path_box(path);
    return box.min.x < at.x + ABOUT_MM && box.max.x > at.x - ABOUT_MM && box.min.y < at.y + ABOUT_MM &&
           box.max.y > at.y - ABOUT_MM;
}

struct scene_sheet app_lift_corrected(const struct app_lift *lift, struct arena *a)
{
    struct drawing_scale by = lift->im->scale;
    int page;
    vec2 at = place_of_scale(lift->im, &page);
    struct scene_sheet_line *lines;
    struct scene_sheet sheet = { .middle = { at.x * by.across, at.y * by.up } };
    size_t all = page_lines(lift, a, page, &lines);
    for (size_t i = 0; i < all; i++) {
        if (!is_near(lines[i].path, at))
            continue;
        struct geometry_path path = geometry_path_copy(a, lines[i].path);
        for (size_t k = 0; k < path.count; k++)
            path.points[k] = (vec2){ path.points[k].x * by.across, path.points[k].y * by.up };
        lines[sheet.count] = lines[i];
        if (lines[sheet.count].kind == SCENE_SHEET_PLAIN)
            lines[sheet.count].kind = SCENE_SHEET_COMMON;
        lines[sheet.count++].path = path;
    }
    sheet.lines = lines;
    return sheet;
}
