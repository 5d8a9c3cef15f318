#include "lifting/letters.h"

#include "lettering/lettering.h"
#include "lifting/tokens.h"
#include "lifting/trade_words.h"

#include <string.h>

#define CAPITALS 0.7 /* height of capitals, of the font's size; common practice, no source */

struct relettering {
    struct arena *a;
    const struct drawing *flat;
    struct lettering_shape *shapes;
    size_t *line_of; /* for each shape its line */
    size_t shape_count;
    const struct lettering_row *rows;
    size_t row_count;
    bool *is_letter; /* for each line */
    int *lettered;   /* for each style the same for letters, or DRAWING_NONE while there is none */
    struct drawing_style *styles;
    size_t style_count;
    struct drawing_line *lines;
    struct drawing_text *texts;
    size_t line_count, text_count;
    uint32_t item; /* the next number */
};

/* ------------------------------------------------------------------------------------------------------------- words
 */

/* Of the trade, whatever numbers and signs stand by. */
static bool is_trade_word(const char *word, void *user)
{
    struct arena *work = user;
    base_arena_reset(work);
    struct lifting_tokens t = lifting_tokens_of(work, word);
    bool any = false;
    for (size_t k = 0; k < t.count; k++) {
        if (t.items[k].kind != LIFTING_WORD)
            continue;
        if (lifting_trade_word(t.items[k].plain, NULL) == TRADE_UNKNOWN)
            return false;
        any = any || strlen(t.items[k].plain) > 1;
    }
    return any;
}

static bool may_be_letter(const struct drawing *d, const struct drawing_line *line)
{
    const struct drawing_style *style = &d->styles[line->style];
    return !style->lettering && !style->dash_count && (style->filled || line->path.path.closed);
}

static size_t kind_of(const struct drawing *d, const struct drawing_line *line)
{
    size_t layers = d->layer_count + 1;
    return ((size_t)line->page * layers + (size_t)(line->layer + 1)) * d->style_count + (size_t)line->style;
}

static void find_rows(struct relettering *r)
{
    const struct drawing *d = r->flat;
    struct arena *work = base_arena_create();
    struct lettering_vocabulary words = { is_trade_word, work };
    r->shapes = base_arena_alloc(r->a, d->line_count, sizeof *r->shapes);
    r->line_of = base_arena_alloc(r->a, d->line_count, sizeof *r->line_of);
    for (size_t i = 0; i < d->line_count; i++) {
        if (!may_be_letter(d, &d->lines[i]))
            continue;
        r->shapes[r->shape_count] = (struct lettering_shape){ d->lines[i].path.path, kind_of(d, &d->lines[i]) };
        r->line_of[r->shape_count++] = i;
    }
    r->row_count = lettering_read(r->a, r->shapes, r->shape_count, &words, &r->rows);
    base_arena_destroy(work);
}

/* ----------------------------------------------------------------------------------------------------------- drawing
 */

static int lettered_style(struct relettering *r, int style)
{
    if (r->lettered[style] == DRAWING_NONE) {
        r->styles[r->style_count] = r->styles[style];
        r->styles[r->style_count].lettering = true;
        r->lettered[style] = (int)r->style_count++;
    }
    return r->lettered[style];
}

static void set_up(struct relettering *r)
{
    const struct drawing *d = r->flat;
    r->is_letter = base_arena_alloc(r->a, d->line_count, sizeof *r->is_letter);
    r->lines = base_arena_alloc(r->a, d->line_count, sizeof *r->lines);
    r->texts = base_arena_alloc(r->a, d->text_count + r->row_count, sizeof *r->texts);
    r->styles = base_arena_alloc(r->a, 2 * d->style_count, sizeof *r->styles);
    r->lettered = base_arena_alloc(r->a, d->style_count, sizeof *r->lettered);
    memcpy(r->styles, d->styles, d->style_count * sizeof *r->styles);
    r->style_count = d->style_count;
    for (size_t i = 0; i < d->style_count; i++)
        r->lettered[i] = DRAWING_NONE;
    for (size_t i = 0; i < r->row_count; i++)
        for (size_t k = 0; k < r->rows[i].shape_count; k++)
            r->is_letter[r->line_of[r->rows[i].shapes[k]]] = true;
}

/* What was painted before, in the same order: lines and texts of one item keep one. */
static void keep_rest(struct relettering *r, const struct drawing_page *page)
{
    const struct drawing *d = r->flat;
    size_t line = page->first_line, text = page->first_text;
    size_t line_end = line + page->line_count, text_end = text + page->text_count;
    while (line < line_end || text < text_end) {
        uint32_t item = line < line_end ? d->lines[line].item : UINT32_MAX;
        if (text < text_end && d->texts[text].item < item)
            item = d->texts[text].item;
        for (; line < line_end && d->lines[line].item == item; line++)
            if (!r->is_letter[line]) {
                r->lines[r->line_count] = d->lines[line];
                r->lines[r->line_count++].item = r->item;
            }
        for (; text < text_end && d->texts[text].item == item; text++) {
            r->texts[r->text_count] = d->texts[text];
            r->texts[r->text_count++].item = r->item;
        }
        r->item++;
    }
}

static void put_row(struct relettering *r, const struct lettering_row *row)
{
    const struct drawing_line *first = &r->flat->lines[r->line_of[row->shapes[0]]];
    r->texts[r->text_count++] = (struct drawing_text){ .at = { row->at.x, row->at.y },
                                                       .along = row->along,
                                                       .size_mm = row->cap_mm / CAPITALS,
                                                       .length_mm = row->length_mm,
                                                       .words = row->words,
                                                       .read = true,
                                                       .doubtful = row->doubtful,
                                                       .page = first->page,
                                                       .layer = first->layer,
                                                       .clip = first->clip,
                                                       .item = r->item };
    for (size_t k = 0; k < row->shape_count; k++) {
        struct drawing_line *line = &r->lines[r->line_count++];
        *line = r->flat->lines[r->line_of[row->shapes[k]]];
        line->style = lettered_style(r, line->style);
        line->item = r->item;
    }
    r->item++;
}

/* Rows come in the order of their lines, so page after page. */
static void put_pages(struct relettering *r, struct drawing_page *pages)
{
    size_t row = 0;
    for (size_t i = 0; i < r->flat->page_count; i++) {
        pages[i] = r->flat->pages[i];
        pages[i].first_line = r->line_count;
        pages[i].first_text = r->text_count;
        keep_rest(r, &r->flat->pages[i]);
        for (; row < r->row_count && r->flat->lines[r->line_of[r->rows[row].shapes[0]]].page == (int)i; row++)
            put_row(r, &r->rows[row]);
        pages[i].line_count = r->line_count - pages[i].first_line;
        pages[i].text_count = r->text_count - pages[i].first_text;
    }
}

struct drawing lifting_read_letters(struct arena *a, const struct drawing *flat)
{
    struct relettering r = { .a = a, .flat = flat };
    struct drawing out = *flat;
    find_rows(&r);
    if (!r.row_count)
        return out;
    struct drawing_page *pages = base_arena_alloc(a, flat->page_count, sizeof *pages);
    set_up(&r);
    put_pages(&r, pages);
    out.pages = pages;
    out.styles = r.styles;
    out.style_count = r.style_count;
    out.lines = r.lines;
    out.line_count = r.line_count;
    out.texts = r.texts;
    out.text_count = r.text_count;
    return out;
}
