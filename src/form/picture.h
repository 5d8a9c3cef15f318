/* A bench page as shapes and words, one over the other. Made in u; kept in px, every edge of a box on whole pixels, so
 * that whoever draws it (screen/bench.h) rounds nothing. */
#ifndef FORM_PICTURE_H
#define FORM_PICTURE_H

#include "base/arena.h"
#include "form/colour.h"
#include "form/type.h"
#include "geometry/space.h"

enum form_shape { FORM_BOX, FORM_FILL, FORM_STROKE, FORM_TEXT };
enum form_align { FORM_LEFT, FORM_MIDDLE, FORM_RIGHT };

/* Whole pixels; right and bottom are outside. */
struct form_px_box {
    int left, top, right, bottom;
};

/* One thing drawn: a box of whole pixels, a closed path that is filled, a line along a path, or a text that stands on
 * its baseline. */
struct form_mark {
    enum form_shape shape;
    enum form_colour colour;
    uint32_t own; /* where colour is FORM_OWN: 0x00RRGGBB */
    struct form_px_box box;
    struct geometry_path path; /* px */
    double width_px;           /* of a stroke */
    enum form_style style;     /* of a text … */
    enum form_align align;
    const char *text;
    vec2 at;       /* whole px: left end, middle or right end of the baseline */
    double room_u; /* the width that it was given; 0: none in particular */
};

/* A later mark covers an earlier one. */
struct form_picture {
    struct arena *a; /* owns all that is in it, but the texts */
    const struct form_type *type;
    double scale;      /* px for one u */
    int width, height; /* px */
    bool night;
    struct form_mark *marks;
    size_t count, cap;
};

/* How many px one u is on a window of that size: the largest of 1, 1.25, 1.5 … that leaves 1024 × 600 u, and `steps` of
 * these steps less; never below 1. */
double form_scale(int width, int height, int steps);

/* An empty page, filled with the sheet's colour. Texts are taken by reference. */
struct form_picture form_picture_create(struct arena *a, const struct form_type *type, int width, int height,
                                        double scale, bool night);

/* The page's size in u. */
double form_page_width(const struct form_picture *p);
double form_page_height(const struct form_picture *p);

/* Boxes and lines along an axis cover whole pixels; lines are as wide as told, in u, but at least a pixel. */
void form_fill_box(struct form_picture *p, struct bench_box box, enum form_colour colour);
void form_fill_own(struct form_picture *p, struct bench_box box, uint32_t rgb); /* a cloth's colour, 0x00RRGGBB */
void form_frame_box(struct form_picture *p, struct bench_box box, double width, enum form_colour colour); /* inside */
void form_dash_box(struct form_picture *p, struct bench_box box, double width, enum form_colour colour);
/* Lines along an axis. */
void form_line(struct form_picture *p, struct bench_pt from, struct bench_pt to, double width, enum form_colour colour);
void form_dash_line(struct form_picture *p, struct bench_pt from, struct bench_pt to, double width, double on,
                    double off, enum form_colour colour);

/* Points are copied. */
void form_fill(struct form_picture *p, const struct bench_pt *points, size_t count, enum form_colour colour);
void form_stroke(struct form_picture *p, const struct bench_pt *points, size_t count, bool closed, double width,
                 enum form_colour colour);
void form_dot(struct form_picture *p, struct bench_pt middle, double radius, enum form_colour colour);
void form_ring(struct form_picture *p, struct bench_pt middle, double radius, double width, enum form_colour colour);

/* A text on its baseline; `room` is the width that it has there (0: none in particular), for form_first_too_wide. */
void form_text(struct form_picture *p, struct bench_pt at, enum form_align align, enum form_style style,
               enum form_colour colour, double room, const char *text);

/* The same in lines broken at blanks; y is the first baseline. Returns how many lines. */
size_t form_paragraph(struct form_picture *p, struct bench_pt at, enum form_style style, enum form_colour colour,
                      double room, const char *text);

/* How many lines that is. */
size_t form_paragraph_lines(const struct form_picture *p, enum form_style style, double room, const char *text);

/* A text in that style, or where that is too wide in a smaller one, and cut where that is still so. The room that
 * English needs is about a third less than German's. */
void form_text_fit(struct form_picture *p, struct bench_pt at, enum form_align align, enum form_style style,
                   enum form_style smaller, enum form_colour colour, double room, const char *text);

/* The text, or as much of its beginning as there is room for, and dots. */
const char *form_cut_text(struct form_picture *p, enum form_style style, double room, const char *text);

/* Whether nothing reaches into the box, of the marks from that one on. */
bool form_is_free(const struct form_picture *p, size_t from, struct bench_box box);

/* The first text that is wider than its room or leaves the page, NULL: none. For tests. */
const struct form_mark *form_first_too_wide(const struct form_picture *p);

#endif
