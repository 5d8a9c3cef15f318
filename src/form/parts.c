#include "form/parts.h"

#include "base/words.h"

#include <math.h>

static const double ring_radius = 9, ring_width = 2, dot_radius = 7, pin_head = 5.5, pin_shaft = 18;

void form_tick_mark(struct form_picture *p, struct bench_pt at, double side, double width, enum form_colour colour)
{
    double s = side / 2;
    const struct bench_pt points[] = { { at.x - 0.8 * s, at.y + 0.1 * s },
                                       { at.x - 0.2 * s, at.y + 0.7 * s },
                                       { at.x + 0.8 * s, at.y - 0.7 * s } };
    form_stroke(p, points, 3, false, width, colour);
}

void form_here(struct form_picture *p, struct bench_pt at)
{
    form_dot(p, at, dot_radius, FORM_BLUE);
}

void form_done(struct form_picture *p, struct bench_pt at)
{
    form_ring(p, at, ring_radius, ring_width, FORM_GREEN);
    form_tick_mark(p, at, 11, 2.2, FORM_GREEN);
}

void form_to_do(struct form_picture *p, struct bench_pt at)
{
    form_ring(p, at, ring_radius, ring_width, FORM_AMBER);
    form_dot(p, at, 2.2, FORM_AMBER);
}

void form_not_begun(struct form_picture *p, struct bench_pt at)
{
    form_ring(p, at, 6, 1.6, FORM_LINE);
}

void form_pin(struct form_picture *p, struct bench_pt at)
{
    struct bench_pt head = { at.x - pin_shaft, at.y };
    form_line(p, head, at, 2, FORM_BLUE);
    form_dot(p, head, pin_head, FORM_BLUE);
}

void form_knot(struct form_picture *p, struct bench_pt at)
{
    const struct bench_pt upper[] = { at, { at.x - 7, at.y + 1.5 }, { at.x - 12, at.y - 1 }, { at.x - 17, at.y - 1 } };
    const struct bench_pt lower[] = { at, { at.x - 6, at.y + 4 }, { at.x - 11, at.y + 8 }, { at.x - 16, at.y + 8 } };
    form_stroke(p, upper, 4, false, 1.8, FORM_RED);
    form_stroke(p, lower, 4, false, 1.8, FORM_RED);
    form_dot(p, at, 4, FORM_RED);
}

static void chevron(struct form_picture *p, struct bench_pt at, double down, enum form_colour colour)
{
    const struct bench_pt points[] = { { at.x - 6, at.y - down }, { at.x, at.y + down }, { at.x + 6, at.y - down } };
    form_stroke(p, points, 3, false, 2, colour);
}

void form_chevron(struct form_picture *p, struct bench_pt at, enum form_colour colour)
{
    chevron(p, at, 3, colour);
}

void form_chevron_up(struct form_picture *p, struct bench_pt at, enum form_colour colour)
{
    chevron(p, at, -3, colour);
}

void form_tag_shape(struct form_picture *p, struct bench_box b, bool filled, enum form_colour hole)
{
    static const double cut = 8, inset = 0.75, hole_x = 13, hole_radius = 3.2, line = 1.5;
    double in = filled ? 0 : inset, left = b.x + in, top = b.y + in, right = b.x + b.width - in,
           low = b.y + b.height - in;
    const struct bench_pt points[] = { { left + cut, top }, { right, top },      { right, low },
                                       { left + cut, low }, { left, low - cut }, { left, top + cut } };
    struct bench_pt middle = { b.x + hole_x, b.y + b.height / 2 };
    if (filled) {
        form_fill(p, points, 6, FORM_INK);
        form_dot(p, middle, hole_radius, hole);
    } else {
        form_stroke(p, points, 6, true, line, FORM_INK);
        form_ring(p, middle, hole_radius, line, FORM_INK);
    }
}

static const double key_gap = 5, keys_gap = 20;

static double key_width(const struct form_picture *p, const struct form_key *key)
{
    return form_width(p->type, FORM_NOTE_STRONG, base_tr_in("key", key->key)) + key_gap +
           form_width(p->type, FORM_NOTE, base_tr(key->word));
}

double form_keys_width(const struct form_picture *p, const struct form_key *keys, size_t count)
{
    double width = 0;
    for (size_t i = 0; i < count; i++)
        width += key_width(p, &keys[i]) + keys_gap;
    return width;
}

size_t form_keys_fit(const struct form_picture *p, double room, const struct form_key *keys, size_t count)
{
    double x = 0;
    for (size_t i = 0; i < count; i++) {
        x += key_width(p, &keys[i]);
        if (x > room)
            return i;
        x += keys_gap;
    }
    return count;
}

double form_keys(struct form_picture *p, struct bench_pt at, double room, const struct form_key *keys, size_t count)
{
    double x = at.x;
    size_t fit = form_keys_fit(p, room, keys, count);
    for (size_t i = 0; i < fit; i++) {
        const char *name = base_tr_in("key", keys[i].key);
        double word_x = x + form_width(p->type, FORM_NOTE_STRONG, name) + key_gap;
        form_text(p, (struct bench_pt){ x, at.y }, FORM_LEFT, FORM_NOTE_STRONG, FORM_INK, 0, name);
        form_text(p, (struct bench_pt){ word_x, at.y }, FORM_LEFT, FORM_NOTE, FORM_INK_2, 0, base_tr(keys[i].word));
        x += key_width(p, &keys[i]) + keys_gap;
    }
    return x;
}

static const double slip_words_x = 30, slip_gap = 5, slip_right = 14;

static double strong_room(const struct form_picture *p, const char *strong)
{
    return strong ? form_width(p->type, FORM_HEADING, strong) + slip_gap : 0;
}

/* The sentence's lines stand below each other, beside what is strong. */
double form_slip_height(const struct form_picture *p, double width, const char *strong, const char *text)
{
    double room = width - slip_words_x - slip_right - strong_room(p, strong);
    size_t lines = form_paragraph_lines(p, FORM_SENTENCE, room, text);
    return (double)lines * form_line_step(FORM_SENTENCE) + 16;
}

void form_slip(struct form_picture *p, struct bench_box b, const char *strong, const char *text)
{
    static const double cut = 9, hole_x = 15;
    const struct bench_pt points[] = { { b.x + cut, b.y },
                                       { b.x + b.width, b.y },
                                       { b.x + b.width, b.y + b.height },
                                       { b.x + cut, b.y + b.height },
                                       { b.x, b.y + b.height - cut },
                                       { b.x, b.y + cut } };
    double x = b.x + slip_words_x, room = b.width - slip_words_x - slip_right - strong_room(p, strong);
    double over = (double)form_paragraph_lines(p, FORM_SENTENCE, room, text) - 1;
    double y = b.y + b.height / 2 + form_drop(FORM_SENTENCE) - fmax(0, over) * form_line_step(FORM_SENTENCE) / 2;
    form_fill(p, points, 6, FORM_MANILA);
    form_dot(p, (struct bench_pt){ b.x + hole_x, b.y + b.height / 2 }, 3.2, FORM_SHEET);
    if (strong)
        form_text(p, (struct bench_pt){ x, y }, FORM_LEFT, FORM_HEADING, FORM_INK, 0, strong);
    form_paragraph(p, (struct bench_pt){ x + strong_room(p, strong), y }, FORM_SENTENCE, FORM_INK, room, text);
}
