/* Text: letters that follow each other on one line are one run, with their outlines. */
#include "sheet_reader/pdf_device_in.h"

#include <math.h>
#include <string.h>

/* Common practice, no source: a gap wider than a quarter of the font's size stands for a space, a wider one than a
 * whole starts another run, as does stepping back by half or leaving the line by a tenth. */
#define GAP_SPACE 0.25
#define GAP_RUN 1.0
#define STEP_BACK (-0.5)
#define OFF_LINE 0.1
enum { RUN_BYTES = 2000 };

struct letters {
    const fz_text_span *span;
    int first, count; /* items of the span */
    char utf8[RUN_BYTES];
    size_t bytes;
    bool awaited; /* whether a letter has told where the next is awaited */
    double x, y;  /* there, in the text's own units */
};

/* The unit step along the line in the text's units, by the font's matrix; its length is the font's width scale. */
static void step_of(const fz_text_span *span, double *x, double *y)
{
    *x = span->wmode ? -(double)span->trm.c : (double)span->trm.a;
    *y = span->wmode ? -(double)span->trm.d : (double)span->trm.b;
}

static void add_rune(struct letters *l, int rune)
{
    char utf8[8];
    if (rune <= 0 || rune > 0x10ffff)
        return;
    int n = fz_runetochar(utf8, rune);
    if (l->bytes + (size_t)n > RUN_BYTES)
        return;
    memcpy(l->utf8 + l->bytes, utf8, (size_t)n);
    l->bytes += (size_t)n;
}

static void await(fz_context *ctx, struct letters *l, const fz_text_item *item)
{
    double x, y, advance = 0;
    step_of(l->span, &x, &y);
    if (item->gid >= 0)
        advance = (double)fz_advance_glyph(ctx, l->span->font, item->gid, (int)l->span->wmode);
    l->x = (double)item->x + x * advance;
    l->y = (double)item->y + y * advance;
    l->awaited = true;
}

/* How far the item stands from where it was awaited, along and off the line, in font sizes. */
static void gap_of(const struct letters *l, const fz_text_item *item, double *along, double *off)
{
    double x, y, dx = (double)item->x - l->x, dy = (double)item->y - l->y;
    step_of(l->span, &x, &y);
    double square = x * x + y * y;
    *along = square > 0 ? (dx * x + dy * y) / square : 0;
    *off = square > 0 ? fabs(dx * y - dy * x) / square : 0;
}

static const fz_path *outline_of(fz_context *ctx, struct pdf_device *d, fz_font *font, int glyph)
{
    struct glyph_slot *slot = &d->glyphs[((uintptr_t)font / 64 + (unsigned)glyph) % GLYPHS];
    if (slot->font == font && slot->glyph == glyph)
        return slot->outline;
    fz_path *outline = fz_outline_glyph(ctx, font, glyph, fz_identity);
    fz_drop_path(ctx, slot->outline);
    fz_drop_font(ctx, slot->font);
    *slot = (struct glyph_slot){ fz_keep_font(ctx, font), glyph, outline };
    return outline;
}

void pdf_text_forget(fz_context *ctx, struct pdf_device *d)
{
    for (int i = 0; i < GLYPHS; i++) {
        fz_drop_path(ctx, d->glyphs[i].outline);
        fz_drop_font(ctx, d->glyphs[i].font);
    }
    memset(d->glyphs, 0, sizeof d->glyphs);
}

/* A letter that the file draws by operators. */
static void run_drawn_glyph(fz_context *ctx, struct pdf_device *d, fz_font *font, int glyph, fz_matrix trm)
{
    d->in_glyph = true;
    fz_try(ctx) fz_run_t3_glyph(ctx, font, glyph, trm, &d->base);
    fz_always(ctx) d->in_glyph = false;
    fz_catch(ctx) fz_rethrow(ctx);
}

static fz_matrix letter_at(const fz_text_span *span, const fz_text_item *item, fz_matrix ctm)
{
    fz_matrix trm = span->trm;
    trm.e = item->x;
    trm.f = item->y;
    return fz_concat(trm, ctm);
}

static void put_outline(fz_context *ctx, struct pdf_device *d, const fz_text_span *span, const fz_text_item *item,
                        fz_matrix ctm)
{
    fz_matrix trm = letter_at(span, item, ctm);
    if (item->gid < 0)
        return;
    if (fz_font_t3_procs(ctx, span->font)) {
        run_drawn_glyph(ctx, d, span->font, item->gid, trm);
        return;
    }
    const fz_path *outline = outline_of(ctx, d, span->font, item->gid);
    struct to_mm t = pdf_device_to_mm(d, trm);
    if (outline)
        pdf_device_parts(ctx, d, outline, &t);
}

/* Where a run starts, its way and its size, in mm. */
static struct sheet_run place_of(const fz_text_span *span, const struct to_mm *t)
{
    double dx = span->wmode ? -t->m[2] : t->m[0], dy = span->wmode ? -t->m[3] : t->m[1];
    return (struct sheet_run){
        .x = t->m[4], .y = t->m[5], .dx = dx, .dy = dy, .size_mm = sqrt(t->m[2] * t->m[2] + t->m[3] * t->m[3])
    };
}

static void put_run(fz_context *ctx, struct pdf_device *d, const struct letters *l, fz_matrix ctm,
                    const struct collect_style *style)
{
    if (l->count == 0)
        return;
    const fz_text_item *first = &l->span->items[l->first];
    struct to_mm t = pdf_device_to_mm(d, letter_at(l->span, first, ctm));
    if (!pdf_device_has(&t))
        return;
    struct sheet_run run = place_of(l->span, &t);
    collect_begin_run(d->collect, d->layer, style, l->utf8, l->bytes, &run);
    for (int i = 0; i < l->count; i++)
        put_outline(ctx, d, l->span, first + i, ctm);
    collect_end(d->collect);
}

static void start(struct letters *l, const fz_text_span *span, int first)
{
    l->span = span;
    l->first = first;
    l->count = 0;
    l->bytes = 0;
    l->awaited = false;
}

/* Whether the item goes on with the run; a space is put between where there is room for one. */
static bool goes_on(struct letters *l, const fz_text_item *item)
{
    double along, off;
    if (!l->awaited || item->gid < 0)
        return true;
    if (l->bytes + 8 > RUN_BYTES)
        return false;
    gap_of(l, item, &along, &off);
    if (along > GAP_RUN || along < STEP_BACK || off > OFF_LINE)
        return false;
    bool spaced = item->ucs == ' ' || (l->bytes && l->utf8[l->bytes - 1] == ' ');
    if (along > GAP_SPACE && !spaced)
        add_rune(l, ' ');
    return true;
}

static void put_span(fz_context *ctx, struct pdf_device *d, struct letters *l, const fz_text_span *span, fz_matrix ctm,
                     const struct collect_style *style)
{
    start(l, span, 0);
    for (int i = 0; i < span->len; i++) {
        const fz_text_item *item = &span->items[i];
        if (!goes_on(l, item)) {
            put_run(ctx, d, l, ctm, style);
            start(l, span, i);
        }
        add_rune(l, item->ucs);
        if (item->gid >= 0)
            await(ctx, l, item);
        l->count++;
    }
    put_run(ctx, d, l, ctm, style);
}

void pdf_text_put(fz_context *ctx, struct pdf_device *d, const fz_text *text, fz_matrix ctm,
                  const struct collect_style *style)
{
    struct letters l;
    for (const fz_text_span *span = text->head; span; span = span->next)
        put_span(ctx, d, &l, span, ctm, style);
}
