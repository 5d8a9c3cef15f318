/* What is round every page of the bench: the work ticket with its eight lines, the selvedge, title and foot. */
#ifndef BENCH_FRAME_H
#define BENCH_FRAME_H

#include "form/form.h"
#include "form/parts.h"

enum { BENCH_LINES = 8 };

enum bench_stand { BENCH_NOT_BEGUN, BENCH_TO_DO, BENCH_DONE };

/* One line of the ticket: a stage, how it stands, and what it says of itself (NULL: nothing). */
struct bench_line {
    const char *name, *says;
    enum bench_stand stand;
    enum form_state mood; /* of what it says: plain, a fault, still to do */
};

struct bench_frame {
    const char *job, *whose;
    struct bench_line lines[BENCH_LINES];
    int here; /* the line whose page is open, -1: none */
    const char *title, *sentence;
    const struct form_key *keys; /* at the foot */
    size_t key_count;
    const char *tag;                    /* at the foot's right, which the keys end before; NULL: none */
    struct bench_box slip;              /* no height: there is none */
    const struct form_key *window_keys; /* below the ticket's perforation, two by two */
    size_t window_key_count;
};

/* Where a page's own things go, u. */
struct bench_box bench_content(const struct form_picture *p);

/* The picture on the pages of what is worked at the table, 16 : 10, with a column right of it, BENCH_SIDE_WIDTH wide
 * and BENCH_SIDE_GAP away, and room below for a line of words and for tags. */
enum { BENCH_SIDE_WIDTH = 190, BENCH_SIDE_GAP = 30, BENCH_TAG_HEIGHT = 36, BENCH_TAG_GAP = 40 };
struct bench_box bench_picture_box(const struct form_picture *p);

/* How wide a tag with that label is. */
double bench_tag_width(const struct form_picture *p, const char *label);

/* The tag at the foot's right, as wide as its words want. */
struct bench_box bench_tag_box(const struct form_picture *p, const char *words);

/* The slip, with room for what it says: above the foot where the page's own marks, from that one on, leave it free,
 * else above the content. */
struct bench_box bench_slip_box(const struct form_picture *p, size_t from, const char *strong, const char *sentence);

/* All but the title. */
void bench_draw_frame(struct form_picture *p, const struct bench_frame *frame);

/* Title and sentence, beside the slip. */
void bench_draw_title(struct form_picture *p, const struct bench_frame *frame);

/* A red thread in the selvedge at that height. */
void bench_draw_knot(struct form_picture *p, double y);

/* The ticket's line at that place, -1: none. */
int bench_line_at(const struct form_picture *p, struct bench_pt at);

#endif
