#include "bench/frame.h"

#include "base/words.h"

#include <math.h>

/* All in u. */
static const double ticket_left = 14, ticket_right = 220, ticket_top = 26, ticket_foot = 14, ticket_cut = 20,
                    selvedge_left = 238, selvedge_width = 12, content_left = 280, content_right = 28, content_top = 104,
                    content_foot = 62, title_y = 52, sentence_y = 77, foot_rule = 54, foot_middle = 26, foot_gap = 34,
                    foot_step = 20, slip_height = 40, slip_above = 9, title_above = 11, least_title_y = 26,
                    thread_x = 39, words_x = 60, lines_top = 120, perforation = 67, ticket_words = 154;

static const struct bench_pt eyelet = { 117, 45 };

struct bench_box bench_content(const struct form_picture *p)
{
    return (struct bench_box){ content_left, content_top, form_page_width(p) - content_right - content_left,
                               form_page_height(p) - content_foot - content_top };
}

struct bench_box bench_picture_box(const struct form_picture *p)
{
    static const double top = 14, words = 40;
    struct bench_box content = bench_content(p);
    double width = content.width - BENCH_SIDE_WIDTH - BENCH_SIDE_GAP;
    double high = content.height - top - words - BENCH_TAG_HEIGHT;
    return (struct bench_box){ content.x, content.y + top, width, fmin(width * 10 / 16, high) };
}

double bench_tag_width(const struct form_picture *p, const char *label)
{
    return form_width(p->type, FORM_STRONG, label) + 42;
}

struct bench_box bench_tag_box(const struct form_picture *p, const char *words)
{
    double width = bench_tag_width(p, words), high = BENCH_TAG_HEIGHT;
    return (struct bench_box){ form_page_width(p) - content_right - width, form_page_height(p) - foot_middle - high / 2,
                               width, high };
}

struct bench_box bench_slip_box(const struct form_picture *p, size_t from, const char *strong, const char *sentence)
{
    struct bench_box content = bench_content(p);
    double high = fmax(slip_height, form_slip_height(p, content.width, strong, sentence));
    struct bench_box foot = { content.x, content.y + content.height - high, content.width, high }, wide = foot;
    wide.y -= slip_above;
    wide.height += slip_above;
    if (form_is_free(p, from, wide))
        return foot;
    return (struct bench_box){ content.x, fmax(4, content.y - slip_above - high), content.width, high };
}

static double line_height(const struct form_picture *p)
{
    return (form_page_height(p) - perforation - lines_top) / BENCH_LINES;
}

static double line_middle(const struct form_picture *p, int line)
{
    return lines_top + (line + 0.5) * line_height(p);
}

int bench_line_at(const struct form_picture *p, struct bench_pt at)
{
    if (at.x < ticket_left || at.x > selvedge_left + selvedge_width || at.y < lines_top)
        return -1;
    int line = (int)floor((at.y - lines_top) / line_height(p));
    return line < BENCH_LINES ? line : -1;
}

static void draw_string(struct form_picture *p)
{
    const struct bench_pt left[] = { { 110.5, 0 }, { 110, 12 }, { 110.5, 25 } };
    const struct bench_pt right[] = { { 126.5, 0 }, { 126, 14 }, { 124, 30 }, { 120.5, 40 }, { 117.5, 45 } };
    form_stroke(p, left, 3, false, 2, FORM_TWINE);
    form_ring(p, eyelet, 10, 3, FORM_DEEP);
    form_stroke(p, right, 5, false, 2, FORM_TWINE);
}

static void draw_paper(struct form_picture *p)
{
    double low = form_page_height(p) - ticket_foot;
    const struct bench_pt corners[] = {
        { ticket_left + ticket_cut, ticket_top },
        { ticket_right - ticket_cut, ticket_top },
        { ticket_right, ticket_top + ticket_cut },
        { ticket_right, low },
        { ticket_left, low },
        { ticket_left, ticket_top + ticket_cut },
    };
    form_fill_box(p, (struct bench_box){ 0, 0, selvedge_left, form_page_height(p) }, FORM_BENCH);
    form_fill(p, corners, 6, FORM_MANILA);
    form_dot(p, eyelet, 8.5, FORM_BENCH);
    draw_string(p);
}

static void draw_selvedge(struct form_picture *p)
{
    struct bench_box edge = { selvedge_left, 0, selvedge_width, form_page_height(p) };
    double middle = selvedge_left + selvedge_width / 2;
    form_fill_box(p, edge, FORM_SELVEDGE);
    form_line(p, (struct bench_pt){ middle, 0 }, (struct bench_pt){ middle, edge.height }, 1.6, FORM_BLUE);
}

static void draw_head(struct form_picture *p, const struct bench_frame *frame)
{
    const double x = 32, room = ticket_right - 10 - x;
    form_text(p, (struct bench_pt){ x, 83 }, FORM_LEFT, FORM_TICKET, FORM_INK, room,
              form_cut_text(p, FORM_TICKET, room, frame->job));
    form_text(p, (struct bench_pt){ x, 104 }, FORM_LEFT, FORM_NOTE, FORM_INK_2, room,
              form_cut_text(p, FORM_NOTE, room, frame->whose));
    form_line(p, (struct bench_pt){ x, 118 }, (struct bench_pt){ ticket_right - 18, 118 }, 1, FORM_DEEP);
}

/* The thread between two lines: sewn where the one before is done, else basted. */
static void draw_thread(struct form_picture *p, const struct bench_frame *frame, int line)
{
    double from = line_middle(p, line) + 9, to = line_middle(p, line + 1) - 9;
    struct bench_pt top = { thread_x, from }, low = { thread_x, to };
    if (frame->lines[line].stand == BENCH_DONE)
        form_line(p, top, low, 2.5, FORM_GREEN);
    else
        form_dash_line(p, top, low, 1.6, 6, 5, FORM_LINE);
}

static void draw_sign(struct form_picture *p, const struct bench_frame *frame, int line)
{
    static void (*const signs[])(struct form_picture *, struct bench_pt) = {
        [BENCH_NOT_BEGUN] = form_not_begun, [BENCH_TO_DO] = form_to_do, [BENCH_DONE] = form_done
    };
    struct bench_pt at = { thread_x, line_middle(p, line) };
    if (line == frame->here)
        form_here(p, at);
    else
        signs[frame->lines[line].stand](p, at);
}

static void draw_line(struct form_picture *p, const struct bench_frame *frame, int line)
{
    static const enum form_colour moods[] = {
        [FORM_PLAIN] = FORM_INK_2, [FORM_FAULT] = FORM_RED, [FORM_TO_DO] = FORM_AMBER, [FORM_NOT_NOW] = FORM_INK_2
    };
    const struct bench_line *l = &frame->lines[line];
    bool here = line == frame->here, plain = !here && l->stand == BENCH_NOT_BEGUN;
    bool long_words = l->says && form_width(p->type, FORM_SMALL, l->says) > ticket_words;
    double y = line_middle(p, line), up = long_words ? 17 : l->says ? 9 : 0;
    form_text_fit(p, (struct bench_pt){ words_x, y - up + form_drop(FORM_LABEL) }, FORM_LEFT,
                  here ? FORM_STRONG : FORM_LABEL, here ? FORM_NOTE_STRONG : FORM_NOTE, plain ? FORM_INK_2 : FORM_INK,
                  ticket_words, l->name);
    form_paragraph(p, (struct bench_pt){ words_x, y + (long_words ? 0 : up) + form_drop(FORM_SMALL) }, FORM_SMALL,
                   moods[l->mood], ticket_words, l->says);
}

/* The line that is open has the page's own white, and runs into it through the selvedge. */
static void draw_opening(struct form_picture *p, int line)
{
    if (line < 0)
        return;
    double high = line_height(p) - 4;
    form_fill_box(p,
                  (struct bench_box){ 22, line_middle(p, line) - high / 2, selvedge_left + selvedge_width - 22, high },
                  FORM_SHEET);
}

static void draw_window_keys(struct form_picture *p, const struct bench_frame *frame)
{
    double y = form_page_height(p) - perforation;
    form_dash_line(p, (struct bench_pt){ 20, y }, (struct bench_pt){ 214, y }, 1.6, 1.6, 4, FORM_LINE);
    for (size_t i = 0; i < frame->window_key_count; i += 2) {
        size_t count = frame->window_key_count - i < 2 ? 1 : 2;
        double at = y + 17 + 20 * (double)i / 2 + form_drop(FORM_NOTE);
        form_keys(p, (struct bench_pt){ 32, at }, ticket_right - 36, frame->window_keys + i, count);
    }
}

/* In one line, or smaller in two; cut where that does not do. */
static void draw_sentence(struct form_picture *p, const char *sentence)
{
    struct bench_box content = bench_content(p);
    struct bench_pt upper = { content.x, sentence_y - 6 };
    bool wide = sentence && form_width(p->type, FORM_SENTENCE, sentence) > content.width;
    if (wide && form_paragraph_lines(p, FORM_NOTE, content.width, sentence) == 2)
        form_paragraph(p, upper, FORM_NOTE, FORM_INK_2, content.width, sentence);
    else
        form_text_fit(p, (struct bench_pt){ content.x, sentence_y }, FORM_LEFT, FORM_SENTENCE, FORM_NOTE, FORM_INK_2,
                      content.width, sentence);
}

/* A slip above the content has the sentence's place, and the title moves up as far as that needs; where there is no
 * room left above it, the ticket alone tells which page this is. */
void bench_draw_title(struct form_picture *p, const struct bench_frame *frame)
{
    struct bench_box content = bench_content(p);
    bool slip = frame->slip.height > 0 && frame->slip.y < content.y;
    double y = slip ? fmin(title_y, frame->slip.y - title_above) : title_y;
    if (y >= least_title_y)
        form_text(p, (struct bench_pt){ content.x, y }, FORM_LEFT, FORM_TITLE, FORM_INK, content.width, frame->title);
    if (!slip)
        draw_sentence(p, frame->sentence);
}

/* The keys of one line. Where it is the last and not all of them have room, the way to the others is among those that
 * do. Returns how many were drawn. */
static size_t draw_keys(struct form_picture *p, struct bench_pt at, double room, const struct form_key *keys,
                        size_t count, bool is_last)
{
    static const struct form_key others = { "F1", BASE_TR("all keys") };
    size_t fit = form_keys_fit(p, room, keys, count);
    bool more = is_last && fit < count;
    if (more)
        fit = form_keys_fit(p, room - form_keys_width(p, &others, 1), keys, count);
    double x = form_keys(p, at, room, keys, fit);
    if (more)
        form_keys(p, (struct bench_pt){ x, at.y }, room, &others, 1);
    return fit;
}

/* The keys left of the tag: in one line, or in two where that has no room for them. */
static void draw_foot(struct form_picture *p, const struct bench_frame *frame)
{
    struct bench_box content = bench_content(p);
    double rule = form_page_height(p) - foot_rule, y = form_page_height(p) - foot_middle + form_drop(FORM_NOTE);
    double room = (frame->tag ? bench_tag_box(p, frame->tag).x - foot_gap : content.x + content.width) - content.x;
    bool fits = form_keys_fit(p, room, frame->keys, frame->key_count) == frame->key_count;
    double up = fits ? 0 : foot_step / 2;
    form_line(p, (struct bench_pt){ content.x, rule }, (struct bench_pt){ content.x + content.width, rule }, 1,
              FORM_HAIR);
    size_t first = draw_keys(p, (struct bench_pt){ content.x, y - up }, room, frame->keys, frame->key_count, false);
    draw_keys(p, (struct bench_pt){ content.x, y + up }, room, frame->keys + first, frame->key_count - first, true);
}

void bench_draw_frame(struct form_picture *p, const struct bench_frame *frame)
{
    draw_paper(p);
    draw_selvedge(p);
    draw_head(p, frame);
    draw_opening(p, frame->here);
    for (int line = 0; line < BENCH_LINES; line++) {
        if (line + 1 < BENCH_LINES)
            draw_thread(p, frame, line);
        draw_sign(p, frame, line);
        draw_line(p, frame, line);
    }
    draw_window_keys(p, frame);
    draw_foot(p, frame);
}

void bench_draw_knot(struct form_picture *p, double y)
{
    form_knot(p, (struct bench_pt){ selvedge_left + selvedge_width / 2, y });
}
