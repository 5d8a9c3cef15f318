/* How a form looks (the look of each kind in each state). */
#include "form/form.h"
#include "form/parts.h"

#include <math.h>
#include <string.h>

static const double border = 1.5, fault_border = 2.5, ring = 3, clear = 2, inside = 10, beside = 18, number_gap = 20,
                    caret_width = 2, shaft_end = 5;

struct drawing {
    struct form_picture *p;
    const struct form_hand *hand;
    const struct form_item *item;
    bool here;
};

static double middle_of(struct bench_box b)
{
    return b.y + b.height / 2;
}

static struct bench_box grown(struct bench_box b, double by)
{
    return (struct bench_box){ b.x - by, b.y - by, b.width + 2 * by, b.height + 2 * by };
}

static void say(struct form_picture *p, double x, double middle, enum form_align align, enum form_style style,
                enum form_colour colour, double room, const char *text)
{
    form_text(p, (struct bench_pt){ x, middle + form_drop(style) }, align, style, colour, room, text);
}

/* A label; one that is too wide in smaller lines below each other. */
static void say_in_lines(struct form_picture *p, double x, double middle, bool strong, enum form_colour colour,
                         double room, const char *text)
{
    enum form_style style = strong ? FORM_STRONG : FORM_LABEL, small = strong ? FORM_NOTE_STRONG : FORM_NOTE;
    if (form_width(p->type, style, text) <= room) {
        say(p, x, middle, FORM_LEFT, style, colour, room, text);
        return;
    }
    double lines = (double)form_paragraph_lines(p, small, room, text);
    middle -= (lines - 1) / 2 * form_line_step(small);
    form_paragraph(p, (struct bench_pt){ x, middle + form_drop(small) }, small, colour, room, text);
}

static enum form_colour text_colour(const struct form_item *item)
{
    return item->state == FORM_NOT_NOW ? FORM_INK_2 : item->state == FORM_TO_DO ? FORM_AMBER : FORM_INK;
}

/* --- what is round every box ------------------------------------------------------------------------------------- */

static void draw_ring(const struct drawing *d)
{
    double out = clear + ring;
    struct bench_box box = grown(d->item->box, out);
    form_frame_box(d->p, box, ring, FORM_BLUE);
    form_pin(d->p, (struct bench_pt){ d->item->box.x - shaft_end, middle_of(d->item->box) });
}

static void draw_frame(const struct drawing *d)
{
    static const struct {
        double width;
        enum form_colour colour;
        bool dashed, filled;
    } frames[] = {
        [FORM_PLAIN] = { border, FORM_LINE, false, true },
        [FORM_FAULT] = { fault_border, FORM_RED, false, true },
        [FORM_TO_DO] = { border, FORM_AMBER, true, false },
        [FORM_NOT_NOW] = { border, FORM_HAIR, false, false },
    };
    enum form_state state = d->item->state;
    if (frames[state].filled)
        form_fill_box(d->p, d->item->box, FORM_WELL);
    (frames[state].dashed ? form_dash_box : form_frame_box)(d->p, d->item->box, frames[state].width,
                                                            frames[state].colour);
}

static void draw_label(const struct drawing *d)
{
    const struct form_item *item = d->item;
    double x = item->label_x, y = middle_of(item->box);
    if (item->number) {
        say(d->p, x, y, FORM_LEFT, FORM_LABEL, FORM_BLUE, 0, item->number);
        x += number_gap;
    }
    double room = item->box.x - x - (d->here ? ring + beside : 6);
    say_in_lines(d->p, x, y, d->here, item->state == FORM_NOT_NOW ? FORM_INK_2 : FORM_INK, room, item->label);
}

static enum form_colour note_colour(enum form_state state)
{
    return state == FORM_FAULT ? FORM_RED : state == FORM_TO_DO ? FORM_AMBER : FORM_INK_2;
}

/* A note alone stands on the box's middle, with what mends it one line above and below that. */
static void draw_note(const struct drawing *d)
{
    const struct form_item *item = d->item;
    if (!item->note)
        return;
    double step = form_line_step(FORM_NOTE), room = item->note_room > 0 ? item->note_room : 0;
    bool below = room <= 0;
    struct bench_pt at = { below ? item->box.x + 2 : item->box.x + item->box.width + item->note_past + beside,
                           below ? item->box.y + item->box.height + 15 : middle_of(item->box) + form_drop(FORM_NOTE) };
    double most = item->below_room > 0 ? item->below_room : below ? form_page_width(d->p) - at.x : room;
    bool long_note = form_width(d->p->type, FORM_NOTE, item->note) > most;
    if (!below && (item->mend || long_note))
        at.y -= step / 2;
    size_t lines = form_paragraph(d->p, at, FORM_NOTE, note_colour(item->state), most, item->note);
    at.y += (double)lines * step;
    if (item->mend)
        form_paragraph(d->p, at, FORM_NOTE, FORM_INK, most, item->mend);
}

/* --- the kinds --------------------------------------------------------------------------------------------------- */

/* What of a long text is shown while it is written: its end, as far as there is room. */
static const char *tail(const struct form_type *type, const char *text, double room)
{
    while (*text && form_width(type, FORM_WRITTEN, text) > room)
        do
            text++;
        while (((unsigned char)*text & 0xc0) == 0x80);
    return text;
}

/* Smaller where the box is narrow. */
static enum form_style unit_style(const struct form_item *item)
{
    static const double narrow = 112;
    return item->box.width < narrow ? FORM_NOTE : FORM_LABEL;
}

static double unit_width(const struct form_picture *p, const struct form_item *item)
{
    return item->unit ? form_width(p->type, unit_style(item), item->unit) + inside : 0;
}

static void draw_caret(const struct drawing *d, const char *shown, double x)
{
    struct bench_box b = d->item->box;
    size_t hidden = strlen(d->hand->text) - strlen(shown);
    size_t before = d->hand->caret > hidden ? d->hand->caret - hidden : 0;
    double at = x + d->p->type->width(d->p->type->of, FORM_WRITTEN, shown, before);
    form_fill_box(d->p, (struct bench_box){ at + 1, b.y + 7, caret_width, b.height - 14 }, FORM_INK);
}

static void draw_field(const struct drawing *d)
{
    const struct form_item *item = d->item;
    struct bench_box b = item->box;
    bool writing = d->here && d->hand->writing;
    double x = b.x + inside, room = b.width - 2 * inside - unit_width(d->p, item), y = middle_of(b);
    const char *text = writing ? d->hand->text : item->text;
    bool gives_way = item->unit && text && form_width(d->p->type, FORM_WRITTEN, text) > room;
    if (gives_way)
        room += unit_width(d->p, item);
    enum form_style style = item->state == FORM_TO_DO || item->state == FORM_NOT_NOW ? FORM_LABEL : FORM_WRITTEN;
    draw_frame(d);
    if (writing) {
        const char *shown = tail(d->p->type, base_arena_copy_text(d->p->a, d->hand->text), room);
        say(d->p, x, y, FORM_LEFT, FORM_WRITTEN, FORM_INK, 0, shown);
        draw_caret(d, shown, x);
    } else if (item->text) {
        say(d->p, x, y, FORM_LEFT, style, text_colour(item), 0, tail(d->p->type, item->text, room));
    }
    if (item->unit && !gives_way)
        say(d->p, b.x + b.width - inside, y, FORM_RIGHT, unit_style(item), FORM_INK_2, 0, item->unit);
}

/* A choice's colour before its word; returns how much room that takes. */
static double draw_swatch(struct form_picture *p, const struct form_item *item, int choice, double x, double middle)
{
    static const double side = 18, gap = 10;
    if (!item->swatches || choice < 0)
        return 0;
    struct bench_box box = { x, middle - side / 2, side, side };
    if (item->swatches[choice] != FORM_NO_SWATCH)
        form_fill_own(p, box, item->swatches[choice]);
    form_frame_box(p, box, 1, FORM_LINE);
    return side + gap;
}

/* A word that is longer than its room is written smaller; one that still is ends in dots. */
static void say_in_room(struct form_picture *p, double x, double middle, enum form_style style, enum form_colour colour,
                        double room, const char *text)
{
    if (text && form_width(p->type, style, text) > room)
        style = form_style(style)->semibold ? FORM_NOTE_STRONG : FORM_NOTE;
    if (text && form_width(p->type, style, text) > room)
        style = FORM_SMALL;
    say(p, x, middle, FORM_LEFT, style, colour, room, form_cut_text(p, style, room, text));
}

static void draw_row(const struct drawing *d, struct bench_box row, size_t choice)
{
    struct form_picture *p = d->p;
    const struct form_item *item = d->item;
    bool at = (int)choice == d->hand->at;
    if (at) {
        form_fill_box(p, row, FORM_WASH);
        form_fill_box(p, (struct bench_box){ row.x, row.y, 4, row.height }, FORM_BLUE);
    }
    double x = row.x + 15, swatch = draw_swatch(p, item, (int)choice, x, middle_of(row));
    say_in_room(p, x + swatch, middle_of(row), at ? FORM_STRONG : FORM_LABEL, FORM_INK, row.width - swatch - 42,
                item->choices[choice]);
    if ((int)choice == item->chosen)
        form_tick_mark(p, (struct bench_pt){ row.x + row.width - 18, middle_of(row) }, 15, 2.6, FORM_INK);
}

/* More than is seen: an arrow at that end. */
static void draw_rows(const struct drawing *d, const struct form *form)
{
    struct form_hang hang = form_hang_of(form, d->hand, d->item);
    double right = hang.box.x + hang.box.width - 18, low = hang.box.y + hang.box.height;
    form_fill_box(d->p, hang.box, FORM_WELL);
    for (size_t i = hang.first; i < hang.first + hang.count; i++)
        draw_row(d, form_row_box(&hang, i), i);
    if (hang.first > 0)
        form_chevron_up(d->p, (struct bench_pt){ right, hang.box.y + 9 }, FORM_INK_2);
    if (hang.first + hang.count < d->item->choice_count)
        form_chevron(d->p, (struct bench_pt){ right, low - 9 }, FORM_INK_2);
    form_frame_box(d->p, grown(hang.box, 1), border, FORM_INK);
}

static void draw_list(const struct drawing *d)
{
    const struct form_item *item = d->item;
    struct bench_box b = item->box;
    draw_frame(d);
    double swatch = draw_swatch(d->p, item, item->chosen, b.x + inside, middle_of(b));
    say_in_room(d->p, b.x + inside + swatch, middle_of(b), item->state == FORM_PLAIN ? FORM_WRITTEN : FORM_LABEL,
                text_colour(item), b.width - swatch - 2 * inside - 18, item->text);
    form_chevron(d->p, (struct bench_pt){ b.x + b.width - 18, middle_of(b) }, text_colour(item));
}

static void draw_tick(const struct drawing *d)
{
    const struct form_item *item = d->item;
    struct bench_box b = item->box;
    double x = b.x + b.width + 11;
    draw_frame(d);
    if (item->on)
        form_tick_mark(d->p, (struct bench_pt){ b.x + b.width / 2, middle_of(b) }, 0.8 * b.height, 2.6, FORM_INK);
    double room = item->note_room > 0 ? item->note_room : form_page_width(d->p) - x;
    say_in_lines(d->p, x, middle_of(b), d->here, text_colour(item), room, item->label);
    if (item->note)
        say(d->p, x + form_width(d->p->type, d->here ? FORM_STRONG : FORM_LABEL, item->label) + 10, middle_of(b),
            FORM_LEFT, FORM_NOTE, note_colour(item->state), 0, item->note);
}

static void draw_stepper(const struct drawing *d)
{
    static const double arm = 6;
    struct bench_box b = d->item->box;
    double y = middle_of(b), less = b.x + b.height / 2, more = b.x + b.width - b.height / 2;
    draw_frame(d);
    form_line(d->p, (struct bench_pt){ b.x + b.height, b.y }, (struct bench_pt){ b.x + b.height, b.y + b.height }, 1,
              FORM_LINE);
    form_line(d->p, (struct bench_pt){ more - b.height / 2, b.y },
              (struct bench_pt){ more - b.height / 2, b.y + b.height }, 1, FORM_LINE);
    form_line(d->p, (struct bench_pt){ less - arm, y }, (struct bench_pt){ less + arm, y }, 2, text_colour(d->item));
    form_line(d->p, (struct bench_pt){ more - arm, y }, (struct bench_pt){ more + arm, y }, 2, text_colour(d->item));
    form_line(d->p, (struct bench_pt){ more, y - arm }, (struct bench_pt){ more, y + arm }, 2, text_colour(d->item));
    say(d->p, b.x + b.width / 2, y, FORM_MIDDLE, FORM_WRITTEN, text_colour(d->item), b.width - 2 * b.height,
        d->item->text);
}

/* A row that is chosen has its bar and wash; a tile its ink border on white. */
static void draw_tile(const struct drawing *d, size_t i)
{
    const struct form_item *item = d->item;
    struct bench_box b = form_tile_box(item, i);
    bool chosen = (int)i == item->chosen, row = item->columns == 1;
    if (chosen && row) {
        form_fill_box(d->p, b, FORM_WASH);
        form_fill_box(d->p, (struct bench_box){ b.x, b.y, 4, b.height }, FORM_BLUE);
    } else if (!row) {
        form_fill_box(d->p, b, chosen ? FORM_WELL : FORM_SHEET);
        form_frame_box(d->p, b, chosen ? 2.5 : 1, chosen ? FORM_INK : FORM_LINE);
    }
    if (item->draw_tile)
        item->draw_tile(d->p, item, b, i, chosen);
    else
        form_text_fit(d->p, (struct bench_pt){ b.x + b.width / 2, middle_of(b) + form_drop(FORM_LABEL) }, FORM_MIDDLE,
                      chosen ? FORM_STRONG : FORM_LABEL, chosen ? FORM_NOTE_STRONG : FORM_NOTE, FORM_INK, b.width - 4,
                      item->choices[i]);
}

/* Rows that a page has scrolled past: an arrow at that end. */
static void draw_tiles(const struct drawing *d)
{
    static const double off = 12; /* clear of the ring */
    const struct form_item *item = d->item;
    double x = item->box.x + item->box.width / 2;
    for (size_t i = 0; i < item->choice_count; i++)
        draw_tile(d, i);
    if (item->first > 0)
        form_chevron_up(d->p, (struct bench_pt){ x, item->box.y - off }, FORM_INK_2);
    if (item->first + item->choice_count < item->total)
        form_chevron(d->p, (struct bench_pt){ x, item->box.y + item->box.height + off }, FORM_INK_2);
}

static void draw_tag(const struct drawing *d)
{
    const struct form_item *item = d->item;
    struct bench_box b = item->box;
    bool usable = item->state != FORM_NOT_NOW;
    form_tag_shape(d->p, b, item->on && usable, FORM_SHEET);
    enum form_colour colour = !usable ? FORM_INK_2 : item->on ? FORM_ON_INK : FORM_INK;
    say(d->p, b.x + 25, middle_of(b), FORM_LEFT, FORM_STRONG, colour, b.width - 30, item->label);
}

static void draw_card(const struct drawing *d)
{
    struct bench_box b = d->item->box;
    draw_frame(d);
    form_text(d->p, (struct bench_pt){ b.x + 20, b.y + 28 }, FORM_LEFT, FORM_TICKET, text_colour(d->item), b.width - 30,
              d->item->label);
    form_text_fit(d->p, (struct bench_pt){ b.x + 20, b.y + 51 }, FORM_LEFT, FORM_NOTE, FORM_SMALL, FORM_INK_2,
                  b.width - 30, d->item->note);
}

typedef void draw_kind(const struct drawing *d);

/* What a kind says in its own box is not said beside it. */
static const struct {
    draw_kind *draw;
    bool label, note;
} kinds[] = {
    [FORM_FIELD] = { draw_field, true, true },  [FORM_LIST] = { draw_list, true, true },
    [FORM_TICK] = { draw_tick, false, false },  [FORM_STEPPER] = { draw_stepper, true, true },
    [FORM_TILES] = { draw_tiles, true, false }, [FORM_TAG] = { draw_tag, false, true },
    [FORM_CARD] = { draw_card, false, false },
};

static void draw_item(const struct drawing *d)
{
    const struct form_item *item = d->item;
    kinds[item->kind].draw(d);
    if (kinds[item->kind].label && item->label && item->label_x > 0)
        draw_label(d);
    if (kinds[item->kind].note)
        draw_note(d);
    if (d->here)
        draw_ring(d);
}

void form_draw(struct form_picture *p, const struct form *form, const struct form_hand *hand)
{
    for (size_t i = 0; i < form->count; i++) {
        const struct form_item *item = &form->items[i];
        struct drawing d = { p, hand, item, item->id == hand->focus && item->state != FORM_NOT_NOW };
        if (!item->hidden)
            draw_item(&d);
    }
    struct drawing open = { p, hand, form_find(form, hand->focus), true };
    if (open.item && hand->open)
        draw_rows(&open, form); /* over all else */
}
