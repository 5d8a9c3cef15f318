#include "export/worksheet.h"

#include "base/text.h"
#include "base/words.h"
#include "base/wrap.h"
#include "export/sketch.h"
#include "export/xml.h"

#include <math.h>
#include <string.h>

/* Lengths on the sheet are mm, from its top left. */
#define PAGE_WIDE_MM 210.0
#define PAGE_HIGH_MM 297.0
#define MARGIN_MM 12.0
#define TEXT_WIDE_MM (PAGE_WIDE_MM - 2 * MARGIN_MM)
#define ROWS_TOP_MM 36.0
#define ROW_MM 61.0
#define CARD_WIDE_MM 91.0
#define CARD_HIGH_MM 58.0
#define SKETCH_WIDE_MM 37.0
#define SKETCH_HIGH_MM 33.0
#define FACTS_LEFT_MM 42.0 /* in the card */
#define FACTS_WIDE_MM (CARD_WIDE_MM - FACTS_LEFT_MM - 3)
#define FACTS_TOP_MM 17.5 /* in the card, the first line's foot */
#define FACT_MM 2.8       /* size of the letters, and so are the next */
#define NAME_MM 4.2
#define COUNT_MM 3.6
#define NOTION_MM 3.6
#define NOTION_WIDE_MM 110.0
#define WEARER_WIDE_MM 50.0
#define TITLE_MM 6.5
#define LINE_MM 3.7     /* from fact to fact, or less where there are many */
#define LINE_SHARE 1.15 /* of the size of the letters, at least, from one line to the next */
#define ROUNDING 1e-9
#define RULE_MM 7.5       /* from ruled line to ruled line, for a pencil */
#define LETTER_SHARE 0.56 /* a letter's mean width, of its size: that of wide faces, so that lines end within */
#define BOLD_SHARE 0.7
#define LEAST_SHARE 0.55 /* letters get no smaller than this share of their size: then the text is cut */

enum {
    ROWS = 4,
    CARDS_IN_ROW = 2,
    NOTIONS_IN_ROW = 6,
    FACTS = 11,
    MOST_FACTS = 15,
    MOST_LINES = 60,
    FACT_COLUMNS = 34
};

#define BOLD " font-weight=\"bold\""

/* Texts of a kind have letters of one size all over a sheet: that which the longest of them needs. */
enum letters { NAMES, COUNTS, FACTS_OF_CARDS, NOTIONS, LETTERS };

static const struct letter_row {
    double size_mm, room_mm;
    const char *style;
} letter_rows[LETTERS] = {
    [NAMES] = { NAME_MM, CARD_WIDE_MM - 14, BOLD },
    [COUNTS] = { COUNT_MM, FACTS_WIDE_MM, BOLD },
    [FACTS_OF_CARDS] = { FACT_MM, FACTS_WIDE_MM, "" },
    [NOTIONS] = { NOTION_MM, NOTION_WIDE_MM, "" },
};

struct sheet {
    struct base_buffer out;
    const struct export_words *w;
    const struct export_list *list;
    double size_mm[LETTERS];
};

static size_t card_rows(const struct export_list *list)
{
    return (list->line_count + CARDS_IN_ROW - 1) / CARDS_IN_ROW;
}

static size_t notion_rows(const struct export_list *list)
{
    return (list->notion_count + NOTIONS_IN_ROW - 1) / NOTIONS_IN_ROW;
}

size_t export_worksheet_pages(const struct export_list *list)
{
    return (card_rows(list) + notion_rows(list) + ROWS - 1) / ROWS;
}

static double share_of(const char *style)
{
    return strcmp(style, BOLD) == 0 ? BOLD_SHARE : LETTER_SHARE;
}

/* The size, or a smaller one at which the text keeps within its room, as far as letters can still be read. */
static double fitting(const char *text, double size, double room, const char *style)
{
    double fits = room / (share_of(style) * (double)base_text_letters(text));
    return fmax(fmin(fits, size), size * LEAST_SHARE);
}

/* A line of letters of that size; one that may be wider than its room is cut. `style`: attributes, or "". */
static void add_sized(struct sheet *s, double x, double y, double size, double room, const char *style,
                      const char *text)
{
    size_t letters = (size_t)(room / (share_of(style) * size) + ROUNDING);
    base_buffer_print(&s->out, "<text x=\"%g\" y=\"%g\" font-size=\"%.3g\"%s>%s</text>\n", x, y, size, style,
                      export_xml_text(s->w->a, base_text_cut(s->w->a, text, letters)));
}

/* One that may be wider than its room gets smaller letters before it is cut. */
static void add_text(struct sheet *s, double x, double y, double size, double room, const char *style, const char *text)
{
    add_sized(s, x, y, fitting(text, size, room, style), room, style, text);
}

static void add_lettered(struct sheet *s, enum letters kind, double x, double y, const char *text)
{
    add_sized(s, x, y, s->size_mm[kind], letter_rows[kind].room_mm, letter_rows[kind].style, text);
}

/* Makes the letters of a kind as small as one more text needs them. */
static void note_size(struct sheet *s, enum letters kind, const char *text)
{
    s->size_mm[kind] = fitting(text, s->size_mm[kind], letter_rows[kind].room_mm, letter_rows[kind].style);
}

static void add_rule(struct sheet *s, double x, double y, double width)
{
    base_buffer_print(&s->out, "<path class=\"rule\" d=\"M%g %gh%g\"/>\n", x, y, width);
}

static void add_box(struct sheet *s, const char *class, struct export_room room)
{
    base_buffer_print(&s->out, "<rect class=\"%s\" x=\"%g\" y=\"%g\" width=\"%g\" height=\"%g\"/>\n", class, room.x,
                      room.y, room.width, room.height);
}

static void add_head(struct sheet *s, size_t page)
{
    const struct export_list *list = s->list;
    const char *view = list->view->shown;
    if (strcmp(list->view->label, view) != 0)
        view = base_arena_print(s->w->a, "%s: %s", view, list->view->label);
    add_text(s, MARGIN_MM, 19, TITLE_MM, 118, BOLD, list->pattern->name);
    add_text(s, MARGIN_MM, 25, 3.6, 118, "", base_arena_print(s->w->a, base_tr("Cutting list, view %s"), view));
    add_text(s, MARGIN_MM, 30.5, 3.6, 118, BOLD, list->whom);
    add_text(s, 136, 19, 3.2, 12, "", base_tr_in("whom it is sewn for", "For"));
    if (list->wearer)
        add_text(s, 148, 19, 3.2, WEARER_WIDE_MM, "", list->wearer);
    add_rule(s, 148, 19.5, WEARER_WIDE_MM);
    add_text(s, 136, 26.5, 3.2, 12, "", base_tr("Date"));
    add_rule(s, 148, 27, 50);
    add_text(s, MARGIN_MM, 287, 2.6, 160, "",
             base_arena_print(s->w->a,
                              base_tr("Sketches: cut line, dashed the stitching line, dash and dot the fold. %s"),
                              export_rounding_text(s->w)));
    add_text(s, 198, 287, 2.6, 60, " text-anchor=\"end\"",
             base_arena_print(s->w->a, base_tr("sheet %zu of %zu"), page + 1, export_worksheet_pages(list)));
    base_buffer_print(&s->out, "<path class=\"frame\" d=\"M%g 33h%g\"/>\n", MARGIN_MM, TEXT_WIDE_MM);
}

/* The facts beside a sketch, wrapped into lines. */
struct facts {
    const struct export_words *w;
    const char *lines[MOST_LINES];
    size_t count;
    size_t whole; /* lines of the first facts that are whole and leave room for one line more */
};

static void end_fact(struct facts *f)
{
    f->whole = f->count < MOST_FACTS ? f->count : f->whole;
}

static void add_fact(struct facts *f, const char *text)
{
    f->count = base_wrap(f->w->a, text, FACT_COLUMNS, f->lines, f->count, MOST_LINES);
    end_fact(f);
}

/* In a line of its own, which never breaks. */
static void add_extent(struct facts *f, const char *words, struct export_extent extent)
{
    if (f->count < MOST_LINES)
        f->lines[f->count++] = base_arena_print(f->w->a, "%s %s", words, export_extent_text(f->w, extent));
    end_fact(f);
}

static struct facts facts_of(const struct sheet *s, const struct export_line *line)
{
    struct facts f = { .w = s->w };
    struct export_words joined = *s->w;
    joined.joined = true;
    const struct draft_piece *piece = line->piece;
    add_fact(&f, export_cloth_text(s->w->a, &line->cut));
    if (line->is_rectangle && !line->is_block) {
        add_extent(&f, piece->has_fold ? base_tr("half, finished") : base_tr("finished"), line->finished);
        add_extent(&f, piece->has_fold ? base_tr("half, as cut") : base_tr("as cut"), line->as_cut);
    } else {
        add_extent(&f, piece->has_fold ? base_tr("half, as cut") : base_tr("as cut"), line->as_cut);
    }
    if (piece->has_fold)
        add_extent(&f, base_tr("whole, as cut"), line->opened);
    const char *block = export_block_text(s->w, s->list, line);
    if (block)
        add_fact(&f, block);
    for (size_t i = 0; i < line->fullness_count; i++)
        add_fact(&f, export_fullness_text(&joined, s->list, line, &line->fullness[i]));
    if (f.count > MOST_FACTS) {
        f.count = f.whole;
        f.lines[f.count++] = base_tr("… more in the list on screen");
    }
    return f;
}

/* More than fill the card stand closer. */
static double from_line_to_line(const struct facts *f)
{
    return f->count > FACTS ? LINE_MM * (FACTS - 1) / (double)(f->count - 1) : LINE_MM;
}

static const char *cut_text(const struct sheet *s, const struct export_line *line)
{
    /* To: 1, 2 left, 1 pair */
    return base_arena_print(s->w->a, line->piece->has_fold ? base_tr("Cut %s on the fold") : base_tr("Cut %s"),
                            export_count_text(s->w, &line->cut));
}

/* Room to write: under the sketch, and beside it as far up as the facts, below which the next line is at `low`, leave.
 */
static void add_card_rules(struct sheet *s, double x, double y, double low)
{
    double bottom = y + CARD_HIGH_MM - 3;
    add_rule(s, x + 3, bottom, low < bottom ? CARD_WIDE_MM - 6 : SKETCH_WIDE_MM);
    for (double at = bottom - RULE_MM; at > low; at -= RULE_MM)
        add_rule(s, x + FACTS_LEFT_MM, at, FACTS_WIDE_MM);
}

static void add_card(struct sheet *s, const struct export_line *line, double x, double y)
{
    const struct draft_piece *piece = line->piece;
    struct export_room room = { x + 3, y + 10, SKETCH_WIDE_MM, SKETCH_HIGH_MM };
    double scale = export_sketch_scale(piece, room.width, room.height);
    struct facts f = facts_of(s, line);
    add_box(s, "frame", (struct export_room){ x, y, CARD_WIDE_MM, CARD_HIGH_MM });
    add_box(s, "tick", (struct export_room){ x + 3, y + 2.5, 5, 5 });
    add_lettered(s, NAMES, x + 11, y + 6.7, export_piece_text(s->w, piece));
    export_sketch(&s->out, piece, line->cut.hand == PATTERN_LEFT, room, scale);
    add_text(s, room.x + room.width / 2, y + 47, 2.4, SKETCH_WIDE_MM, " text-anchor=\"middle\" font-style=\"italic\"",
             base_arena_print(s->w->a, "1 : %g", scale));
    add_lettered(s, COUNTS, x + FACTS_LEFT_MM, y + 13, cut_text(s, line));
    double low = y + FACTS_TOP_MM;
    for (size_t i = 0; i < f.count; i++, low += from_line_to_line(&f))
        add_lettered(s, FACTS_OF_CARDS, x + FACTS_LEFT_MM, low, f.lines[i]);
    add_card_rules(s, x, y, low);
}

static void add_notion(struct sheet *s, const struct draft_notion *notion, double y)
{
    add_box(s, "tick", (struct export_room){ MARGIN_MM, y, 5, 5 });
    add_lettered(s, NOTIONS, MARGIN_MM + 8, y + 4, export_notion_text(s->w, notion));
    add_rule(s, MARGIN_MM + 122, y + 5, TEXT_WIDE_MM - 122);
}

/* Notions from `first`, and rules in the room that they leave. */
static void add_notions(struct sheet *s, size_t first, double y)
{
    add_text(s, MARGIN_MM, y + 6, NAME_MM, 100, BOLD, base_tr("Notions"));
    for (size_t i = 0; i < NOTIONS_IN_ROW; i++) {
        double at = y + 10 + RULE_MM * (double)i;
        if (first + i < s->list->notion_count)
            add_notion(s, &s->list->notions[first + i], at);
        else
            add_rule(s, MARGIN_MM, at + 5, TEXT_WIDE_MM);
    }
}

/* What is left of the last sheet. */
static void add_notes(struct sheet *s, double y, double bottom)
{
    add_text(s, MARGIN_MM, y + 6, NAME_MM, 100, BOLD, base_tr("Notes"));
    for (double at = y + 14; at < bottom; at += RULE_MM)
        add_rule(s, MARGIN_MM, at, TEXT_WIDE_MM);
}

static void add_row(struct sheet *s, size_t row, double y)
{
    size_t cards = card_rows(s->list);
    if (row >= cards) {
        add_notions(s, (row - cards) * NOTIONS_IN_ROW, y);
        return;
    }
    for (size_t i = row * CARDS_IN_ROW; i < (row + 1) * CARDS_IN_ROW && i < s->list->line_count; i++)
        add_card(s, &s->list->lines[i], i % CARDS_IN_ROW ? PAGE_WIDE_MM - MARGIN_MM - CARD_WIDE_MM : MARGIN_MM, y);
}

/* The lines of the list, and the notions, that stand in a row. */
static void note_row(struct sheet *s, size_t row)
{
    const struct export_list *list = s->list;
    size_t cards = card_rows(list);
    for (size_t i = row * CARDS_IN_ROW; i < (row + 1) * CARDS_IN_ROW && i < list->line_count; i++) {
        struct facts f = facts_of(s, &list->lines[i]);
        note_size(s, NAMES, export_piece_text(s->w, list->lines[i].piece));
        note_size(s, COUNTS, cut_text(s, &list->lines[i]));
        s->size_mm[FACTS_OF_CARDS] = fmin(s->size_mm[FACTS_OF_CARDS], from_line_to_line(&f) / LINE_SHARE);
        for (size_t n = 0; n < f.count; n++)
            note_size(s, FACTS_OF_CARDS, f.lines[n]);
    }
    size_t first = row < cards ? list->notion_count : (row - cards) * NOTIONS_IN_ROW;
    for (size_t i = first; i < first + NOTIONS_IN_ROW && i < list->notion_count; i++)
        note_size(s, NOTIONS, export_notion_text(s->w, &list->notions[i]));
}

static void begin_page(struct sheet *s)
{
    base_buffer_print(&s->out,
                      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%gmm\" height=\"%gmm\" viewBox=\"0 0 %g %g\" "
                      "font-family=\"sans-serif\">\n<style>%s"
                      ".frame,.tick,.rule{fill:none;stroke:#000}.frame{stroke-width:.18}.tick{stroke-width:.4}"
                      ".rule{stroke-width:.1}</style>\n<rect width=\"%g\" height=\"%g\" fill=\"#fff\"/>\n",
                      PAGE_WIDE_MM, PAGE_HIGH_MM, PAGE_WIDE_MM, PAGE_HIGH_MM, EXPORT_SKETCH_STYLE, PAGE_WIDE_MM,
                      PAGE_HIGH_MM);
}

const char *export_worksheet_page(const struct export_words *w, const struct export_list *list, size_t page)
{
    struct sheet s = { .out = { .a = w->a }, .w = w, .list = list };
    size_t rows = card_rows(list) + notion_rows(list), row = page * ROWS;
    double y = ROWS_TOP_MM;
    for (int kind = 0; kind < LETTERS; kind++)
        s.size_mm[kind] = letter_rows[kind].size_mm;
    for (size_t i = row; i < rows && i < row + ROWS; i++)
        note_row(&s, i);
    begin_page(&s);
    add_head(&s, page);
    for (; row < rows && row < (page + 1) * ROWS; row++, y += ROW_MM)
        add_row(&s, row, y);
    if (row < (page + 1) * ROWS)
        add_notes(&s, y, ROWS_TOP_MM + ROWS * ROW_MM);
    base_buffer_print(&s.out, "</svg>\n");
    return base_buffer_text(&s.out);
}
