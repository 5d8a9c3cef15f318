#include "app/sheet_report.h"

#include "app/amount.h"
#include "app/columns.h"
#include "app/sheet_truth.h"
#include "base/text.h"
#include "base/words.h"

#include <math.h>
#include <string.h>

#define LEAST_WIDER_MM 0.005 /* what two figures of a line's width tell apart */

/* ------------------------------------------------------------------------------------------------------- in words */

static const char *length_text(struct arena *a, double mm, enum units_length unit)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(a, units_print_length(text, mm, unit));
}

static const char *plain(struct arena *a, const char *text)
{
    return base_text_one_line(a, base_text_plain(a, text));
}

const char *app_lifting_doubts(struct arena *a, unsigned doubts, bool with_keys)
{
    static const struct {
        unsigned doubt;
        const char *words, *key; /* what mends it at the table, or "" */
    } rows[] = {
        { LIFTING_DOUBT_ORDER, BASE_TR("a larger size is smaller somewhere"), "" },
        { LIFTING_DOUBT_MATCH, BASE_TR("its sizes have different corners"), "" },
        { LIFTING_DOUBT_FOLD, BASE_TR("which edge lies on the fold"), " (F)" },
        { LIFTING_DOUBT_GRAIN, BASE_TR("no grain"), " (G)" },
        { LIFTING_DOUBT_SIZES, BASE_TR("not there in every size"), "" },
        { LIFTING_DOUBT_COUNT, BASE_TR("how often to cut it"), " (X)" },
        { LIFTING_DOUBT_NAME, BASE_TR("no name"), " (N)" },
        { LIFTING_DOUBT_READ, BASE_TR("its letters are drawn: was it read right?"), " (N)" },
        { LIFTING_DOUBT_GAP, BASE_TR("small gaps were closed"), "" },
        { LIFTING_DOUBT_TWO, BASE_TR("two names stand in it: are there two pieces?"), "" },
    };
    const char *text = "", *between = with_keys ? " · " : ", ";
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (doubts & rows[i].doubt)
            text = base_arena_print(a, "%s%s%s%s", text, *text ? between : "", base_tr(rows[i].words),
                                    with_keys ? rows[i].key : "");
    return text;
}

static const char *const cloth_names[] = { [LIFTING_FABRIC] = BASE_TR("fabric"),
                                           [LIFTING_INTERFACING] = BASE_TR("interfacing"),
                                           [LIFTING_LINING] = BASE_TR("lining") };

enum { CLOTHS = sizeof cloth_names / sizeof cloth_names[0] };

static const char *cut_text(struct arena *a, const struct lifting_words *w, int count)
{
    size_t number = (size_t)count;
    if (w->pairs)
        return base_arena_print(a,
                                w->on_fold ? base_tr_count(number, "%zu pair on the fold", "%zu pairs on the fold")
                                           : base_tr_count(number, "%zu pair", "%zu pairs"),
                                number);
    return base_arena_print(a, w->on_fold ? base_tr("%d on the fold") : "%d", count);
}

const char *app_lifting_count(struct arena *a, const struct lifting_words *w)
{
    const char *text = "";
    for (int c = 0; c < CLOTHS; c++) {
        int count = w->counts[c] ? w->counts[c] : w->count;
        if (!count || !(w->cloths & 1u << c))
            continue;
        /* To: “2 pairs of lining” */
        const char *one = base_arena_print(a, base_tr("%s of %s"), cut_text(a, w, count), base_tr(cloth_names[c]));
        text = *text ? base_arena_print(a, "%s, %s", text, one) : one;
    }
    if (*text)
        return text;
    return w->count ? cut_text(a, w, w->count) : w->on_fold ? base_tr("? on the fold") : "?";
}

const char *app_colour_name(uint32_t rgb)
{
    static const struct {
        uint32_t rgb;
        const char *name;
    } rows[] = {
        { 0x000000, BASE_TR_IN("colour", "black") },      { 0x808080, BASE_TR_IN("colour", "grey") },
        { 0xffffff, BASE_TR_IN("colour", "white") },      { 0xff0000, BASE_TR_IN("colour", "red") },
        { 0xff8000, BASE_TR_IN("colour", "orange") },     { 0xffff00, BASE_TR_IN("colour", "yellow") },
        { 0x00a000, BASE_TR_IN("colour", "green") },      { 0x00c0c0, BASE_TR_IN("colour", "turquoise") },
        { 0x0000ff, BASE_TR_IN("colour", "blue") },       { 0x8000c0, BASE_TR_IN("colour", "violet") },
        { 0xff00ff, BASE_TR_IN("colour", "pink") },       { 0x804000, BASE_TR_IN("colour", "brown") },
        { 0x800000, BASE_TR_IN("colour", "red") },        { 0x000080, BASE_TR_IN("colour", "blue") },
        { 0x80c0ff, BASE_TR_IN("colour", "light blue") }, { 0xff80c0, BASE_TR_IN("colour", "pink") },
    };
    size_t nearest = 0;
    int least = INT32_MAX;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        int distance = 0;
        for (int shift = 0; shift < 24; shift += 8) {
            int off = (int)(rgb >> shift & 255) - (int)(rows[i].rgb >> shift & 255);
            distance += off * off;
        }
        if (distance < least)
            nearest = i, least = distance;
    }
    return base_tr_in("colour", rows[nearest].name);
}

/* As far as words tell them apart. */
static bool look_alike(const struct lifting_strand *s, const struct lifting_strand *t)
{
    return s->layer == t->layer && strcmp(app_colour_name(s->rgb), app_colour_name(t->rgb)) == 0 &&
           s->filled == t->filled && (s->dash_count > 0) == (t->dash_count > 0);
}

const char *app_strand_width(struct arena *a, const struct lifting_division *d, const struct lifting_strand *s)
{
    for (size_t i = 0; i < d->strand_count; i++)
        if (look_alike(s, &d->strands[i]) && fabs(s->width_mm - d->strands[i].width_mm) > LEAST_WIDER_MM)
            return base_arena_print(a, ", %s mm", app_figures(a, s->width_mm, 2));
    return "";
}

static const char *look_text(struct arena *a, const struct lifting_division *d, const struct lifting_strand *s)
{
    const char *kind = s->filled       ? base_tr_in("line", "filled")
                       : s->dash_count ? base_tr_in("line", "dashes")
                                       : base_tr_in("line", "line");
    const char *dashes = "";
    for (size_t i = 0; i < s->dash_count && i < 6; i++)
        dashes = base_arena_print(a, "%s %s", dashes, app_figures(a, s->dash_mm[i], 3));
    /* To: “black dashes 5 3, 0.35 mm”: colour, kind, lengths of its dashes, width */
    return base_arena_print(a, base_tr("%s %s%s%s"), app_colour_name(s->rgb), kind, dashes, app_strand_width(a, d, s));
}

const char *app_size_said(struct arena *a, const char *size)
{
    bool says_so = strstr(size, "size") || strstr(size, "Size") || strstr(size, "SIZE");
    return says_so ? base_arena_copy_text(a, size) : base_arena_print(a, base_tr("size %s"), size);
}

const char *app_strand_role(struct arena *a, const struct lifting_division *d, const struct lifting_strand *s)
{
    const char *role = s->role == LIFTING_SIZE     ? app_size_said(a, d->sizes[s->size])
                       : s->role == LIFTING_COMMON ? base_tr("all sizes")
                                                   : base_tr("not used");
    if (s->cup_group == LIFTING_NONE)
        return role;
    return base_arena_print(a, base_tr("%s, cup group %s"), role, d->cup_groups[s->cup_group]);
}

static const char *role_text(struct arena *a, const struct lifting_division *d, const struct lifting_strand *s)
{
    const char *role = app_strand_role(a, d, s);
    return s->sure ? role : base_arena_print(a, base_tr("%s (guessed)"), role);
}

/* ---------------------------------------------------------------------------------------------------------- tables */

enum { MOST_COLUMNS = 5 };

struct row {
    const char *cells[MOST_COLUMNS];
};

struct rows {
    struct arena *a;
    struct row *rows;
    size_t count, cap;
    int columns;
};

static void add_rows(struct base_buffer *out, const struct rows *t)
{
    size_t widths[MOST_COLUMNS] = { 0 };
    for (size_t i = 0; i < t->count; i++)
        app_columns_widen(widths, t->rows[i].cells, t->columns);
    for (size_t i = 0; i < t->count; i++)
        app_columns_add(out, widths, t->rows[i].cells, t->columns);
}

/* Names come from a stranger's file. */
static void set_row(struct rows *t, struct row row)
{
    t->rows = base_arena_grow(t->a, t->rows, &t->cap, t->count + 1, sizeof *t->rows);
    for (int c = 0; c < t->columns; c++)
        row.cells[c] = plain(t->a, row.cells[c]);
    t->rows[t->count++] = row;
}

/* The layer's name below those it lies in. */
static const char *indented(struct arena *a, const struct drawing *d, int layer)
{
    int depth = 0;
    for (int up = d->layers[layer].parent; up != DRAWING_NONE && depth < 20; up = d->layers[up].parent)
        depth++;
    return base_arena_print(a, "%*s%s", 2 * depth, "", d->layers[layer].name);
}

static void add_layers(struct base_buffer *out, const struct drawing *d)
{
    struct rows t = { .a = out->a, .columns = 2 };
    if (d->layer_count)
        base_buffer_print(out, base_tr("\nLayers\n"));
    for (size_t i = 0; i < d->layer_count; i++)
        set_row(&t, (struct row){ { indented(out->a, d, (int)i),
                                    d->layers[i].on ? "" : base_tr_in("layer of a sheet", "off") } });
    add_rows(out, &t);
}

static void add_strands(struct base_buffer *out, const struct app_import *im)
{
    const struct lifting_division *d = im->lifting.division;
    struct rows t = { .a = out->a, .columns = 4 };
    if (d->strand_count)
        base_buffer_print(out, base_tr("\nLines by layer and look\n"));
    for (size_t i = 0; i < d->strand_count; i++) {
        const struct lifting_strand *s = &d->strands[i];
        const char *layer = s->layer == DRAWING_NONE ? "" : im->flat.layers[s->layer].name;
        set_row(&t, (struct row){ { *layer ? layer : base_tr("no layer"), look_text(out->a, d, s),
                                    base_arena_print(out->a, "%zu", s->line_count), role_text(out->a, d, s) } });
    }
    add_rows(out, &t);
}

static const char *sizes_text(struct arena *a, const struct lifting_division *d, const struct lifting_piece *p)
{
    const char *text = "";
    if (p->one_size || !d->size_count)
        return base_tr("one size");
    for (size_t k = 0; k < d->size_count; k++) {
        bool there = p->outlines[k].there;
        bool goes_on = there && k > 0 && p->outlines[k - 1].there,
             more = k + 1 < d->size_count && p->outlines[k + 1].there;
        if (there && !goes_on)
            text = base_arena_print(a, "%s%s%s", text, *text ? ", " : "", d->sizes[k]);
        else if (there && !more)
            /* To: “36 to 44”, sizes */
            text = base_arena_print(a, base_tr("%s to %s"), text, d->sizes[k]);
    }
    return text;
}

static void add_pieces(struct base_buffer *out, const struct lifting *l)
{
    struct rows t = { .a = out->a, .columns = 5 };
    base_buffer_print(out,
                      l->piece_count ? base_tr("\nPieces\n") : base_tr("\nNo piece was found: no closed outline.\n"));
    for (size_t i = 0; i < l->piece_count; i++) {
        const struct lifting_piece *p = &l->pieces[i];
        const char *doubts = app_lifting_doubts(out->a, p->doubts, false);
        set_row(&t, (struct row){ { p->words.number ? p->words.number : "", p->words.name ? p->words.name : "?",
                                    app_lifting_count(out->a, &p->words), sizes_text(out->a, l->division, p),
                                    *doubts ? base_arena_print(out->a, base_tr("look at: %s"), doubts) : "" } });
    }
    add_rows(out, &t);
    if (l->loose_count)
        base_buffer_print(out,
                          base_tr_count(l->loose_count, "%zu line of sizes belongs to no outline.\n",
                                        "%zu lines of sizes belong to no outline.\n"),
                          l->loose_count);
}

/* ----------------------------------------------------------------------------------------------------------- pages */

#define LEAST_TOLD_MM 0.01

static const char *const joined_words[] = { [DRAWING_ALONE] = BASE_TR("each page by itself"),
                                            [DRAWING_BY_LABEL] = BASE_TR("by their numbers"),
                                            [DRAWING_BY_ORDER] = BASE_TR("by their order"),
                                            [DRAWING_BY_TRIAL] = BASE_TR("by the lines that go on"),
                                            [DRAWING_REPEATED] = BASE_TR("each shows its part of the whole sheet"),
                                            [DRAWING_BY_HAND] = BASE_TR("as you laid them") };

static const char *page_list(struct arena *a, const int *pages, size_t count)
{
    const char *text = "";
    for (size_t i = 0; i < count; i++)
        text = base_arena_print(a, "%s%s%d", text, i ? ", " : "", pages[i] + 1);
    return base_arena_print(a, base_tr_count(count, "page %s", "pages %s"), text);
}

const char *app_break_text(struct arena *a, const struct drawing_break *b)
{
    if (b->pages[1] == DRAWING_NONE)
        return base_arena_print(a, base_tr("at page %d where no page is beside it"), b->pages[0] + 1);
    return base_arena_print(a, base_tr("between pages %d and %d"), b->pages[0] + 1, b->pages[1] + 1);
}

static void add_left_out(struct base_buffer *out, const struct drawing_pages *p)
{
    if (p->left_out_count)
        base_buffer_print(out, base_tr("  No part of the sheet: %s.\n"),
                          page_list(out->a, p->left_out, p->left_out_count));
}

static void add_joins(struct base_buffer *out, const struct drawing_pages *p)
{
    const char *how = base_tr(joined_words[p->how]);
    if (p->how != DRAWING_REPEATED && p->misfit_mm > 0)
        base_buffer_print(out, base_tr("Pages joined: %d across, %d down, %s; lines go on within %s mm."), p->columns,
                          p->rows, how, app_decimal(out->a, fmax(p->misfit_mm, LEAST_TOLD_MM), 2));
    else /* To: “Pages joined: 3 across, 2 down, by their numbers.” */
        base_buffer_print(out, base_tr("Pages joined: %d across, %d down, %s."), p->columns, p->rows, how);
    if (p->doubtful)
        base_buffer_print(out, " %s", base_tr("Look whether that is right."));
    base_buffer_print(out, "\n");
    if (p->empty_count)
        base_buffer_print(out, base_tr("  Without a line of the sheet: %s.\n"),
                          page_list(out->a, p->empty, p->empty_count));
    add_left_out(out, p);
    for (size_t i = 0; i < p->broken_count; i++)
        base_buffer_print(out, base_tr("  Lines break off %s.\n"), app_break_text(out->a, &p->broken[i]));
    for (const struct drawing_place *u = drawing_untied(p, 0); u; u = drawing_untied(p, (size_t)(u - p->places) + 1))
        base_buffer_print(out, base_tr("  No line goes on from page %d to another.\n"), u->page + 1);
    for (size_t i = 0; i < p->missing_count; i++)
        base_buffer_print(out, base_tr("  A page is missing at %s: lines run into it.\n"),
                          drawing_cell_text(out->a, p, p->missing[i]));
}

const char *app_sheet_told_text(struct arena *a, const struct app_import *im, const struct drawing_truth *truth,
                                enum units_length unit)
{
    return im->flat.line_count ? app_sheet_truth_text(a, truth, unit) : base_tr("Nothing is drawn on this sheet.");
}

/* What became of lengths that were not true. */
static const char *corrected_text(const struct app_import *im)
{
    bool corrected = fabs(im->scale.across - 1) > DRAWING_TRUE_SHARE || fabs(im->scale.up - 1) > DRAWING_TRUE_SHARE;
    if (!im->flat.line_count)
        return "";
    if (corrected)
        return base_tr("All lengths are put right.");
    bool as_drawn = im->choices.scale == APP_IMPORT_AS_DRAWN && im->truth.kind != DRAWING_TRUE;
    return as_drawn ? base_tr("Left as it is drawn.") : "";
}

static void add_pages(struct base_buffer *out, const struct app_import *im, enum units_length unit)
{
    const struct drawing *d = &im->flat;
    const struct drawing_page *first = d->pages;
    base_buffer_print(
        out, base_tr_count(d->page_count, "%zu page, the first %s × %s\n", "%zu pages, the first %s × %s\n"),
        d->page_count, length_text(out->a, first->width_mm, unit), length_text(out->a, first->height_mm, unit));
    const char *corrected = corrected_text(im);
    base_buffer_print(out, "%s%s%s\n", app_sheet_told_text(out->a, im, &im->truth, unit), *corrected ? " " : "",
                      corrected);
    if (im->pages.how != DRAWING_ALONE)
        add_joins(out, &im->pages);
    else if (im->pages.doubtful)
        base_buffer_print(
            out, base_tr("The pages were not put together, though lines end at their sides: nothing says how they "
                         "lie. --across N says how many lie side by side.\n"));
    if (im->pages.how == DRAWING_ALONE)
        add_left_out(out, &im->pages);
}

/* ----------------------------------------------------------------------------------------------------------- notes */

const char *app_sheet_note(struct arena *a, const struct sheet *s, const struct sheet_note *note)
{
    const char *what = sheet_text_at(s, note->text);
    switch ((enum sheet_note_code)note->code) {
    case SHEET_NOTE_NO_JAIL:
        return base_tr(
            "This system has no jail for the program that reads drawings: it ran with limits alone. Open only files "
            "that you trust.");
    case SHEET_NOTE_MENDED:
        return note->a && note->text == SHEET_NONE
                   ? base_arena_print(a, base_tr("Page %u is damaged and was read as far as it could be."), note->a)
                   : base_tr("The file is damaged and was read as far as it could be.");
    case SHEET_NOTE_HIDDEN:
        return base_arena_print(a, base_tr("%u things are hidden and on no layer: they were left out."), note->a);
    case SHEET_NOTE_SCAN:
        return base_arena_print(a, base_tr("Page %u is a picture: its lines were traced."), note->a);
    case SHEET_NOTE_NO_SIZE:
        return base_tr(
            "The file does not say how large it is: it was taken as 96 units to the inch. Measure the test square.");
    case SHEET_NOTE_LEFT_OUT:
        return base_arena_print(a, base_tr("Not read: %s (%u)."), what, note->a);
    case SHEET_NOTE_STRETCHED:
        return base_arena_print(a, base_tr("The drawing on page %u is stretched, differently across and up."), note->a);
    case SHEET_NOTE_PERMISSIONS:
        return base_tr("The file may be looked at, but not copied from; it is yours to know what you may do with it.");
    case SHEET_NOTE_CODES:
        break;
    }
    return what;
}

static void add_notes(struct base_buffer *out, const struct sheet *s)
{
    for (size_t i = 0; s && i < s->counts[SHEET_NOTES]; i++)
        base_buffer_print(out, "%s\n", plain(out->a, app_sheet_note(out->a, s, &s->notes[i])));
}

const char *app_sheet_report(struct arena *a, const struct app_import *im, enum units_length unit)
{
    struct base_buffer out = { .a = a };
    add_pages(&out, im, unit);
    add_notes(&out, im->sheet);
    add_layers(&out, &im->flat);
    add_strands(&out, im);
    add_pieces(&out, &im->lifting);
    return base_buffer_text(&out);
}
