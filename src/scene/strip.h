/* What stands along the edges of the light, laid out in rows. Not for other folders. */
#ifndef SCENE_STRIP_H
#define SCENE_STRIP_H

#include <stddef.h>

struct scene_canvas;

enum { SCENE_STRIP_ROWS = 4 };

/* What to do now, in rows from the top, and what is left: at the end of the lowest row, or in rows below. */
struct scene_strip {
    const char *left[SCENE_STRIP_ROWS], *below[SCENE_STRIP_ROWS];
    size_t left_count, below_count;
    const char *right; /* or NULL */
    size_t rows;
    double from_px, to_px; /* between these it stands, clear of check stickers */
    double top_px;         /* how far from its edge it ends */
};

struct scene_notice {
    const char *rows[SCENE_STRIP_ROWS];
    size_t count; /* 0: none */
    double middle_px;
};

/* The view's words, with those at the right given, in at most so many rows where they have room in them. */
struct scene_strip scene_strip_of(const struct scene_canvas *c, const char *right, size_t most);

/* How many rows leave what lies so far from its edge in the light; all, where one row would cover it already. */
size_t scene_strip_most_rows(const struct scene_canvas *c, double clear_px);

/* The view's notice. */
struct scene_notice scene_notice_of(const struct scene_canvas *c);

#endif
