/* Near-square rectangles, however they are drawn: as one path (frames.c), along the page's axes also as four lines or
 * dashes (bars.c), as a thin filled frame. What they are for is not asked here. */
#ifndef DRAWING_FRAMES_H
#define DRAWING_FRAMES_H

#include "drawing/drawing.h"

/* mm, as drawn: sides that any test square may have. */
#define DRAWING_FRAME_LEAST_MM 5.0
#define DRAWING_FRAME_MOST_MM 330.0

/* How much longer one way than the other a square may come out of a program that stretches it. */
#define DRAWING_FRAME_ASPECT 1.1

struct drawing_frame {
    struct geometry_box box; /* of the middle of its lines; of one that stands askew as large about its centre */
    int page, layer, style, clip;
    uint32_t item;
    bool filled; /* filled and not stroked: the box is its edge */
    bool askew;  /* turned by more than a scan is */
};

struct drawing_frames {
    struct arena *a;
    struct drawing_frame *rows;
    size_t count, cap;
};

/* Adds a frame, unless it is far from square or has no size that a test square could have. */
void drawing_add_frame(struct drawing_frames *to, struct drawing_frame frame);

/* Adds those that are drawn as one path. */
void drawing_find_path_frames(struct drawing_frames *to, const struct drawing *d);

/* Adds those of four lines or rows of dashes that end in each other, thin filled rectangles among them. */
void drawing_find_bar_frames(struct drawing_frames *to, const struct drawing *d);

/* All of a drawing, each once: what is drawn twice over itself counts once, and of the two outlines of a thin filled
 * frame the middle. By page, then from left to right. In `a`. */
struct drawing_frames drawing_find_frames(struct arena *a, const struct drawing *d);

#endif
