/* A page of words at the table: a title, sentences, rows to choose from, a small picture. Nothing on it is true to
 * scale, and no line on it is one to cut along. */
#ifndef SCENE_BOARD_H
#define SCENE_BOARD_H

#include "scene/scene.h"

/* A piece of a line as it is drawn on a sheet: its weight and dashes. */
struct scene_sample {
    bool there;
    double width_mm; /* 0: as thin as can be */
    const double *dash_mm;
    size_t dash_count;
};

enum { SCENE_BOARD_COLUMNS = 3 };

/* Rows have their texts in columns; one that is marked stands unlit on a lit band. */
struct scene_board_row {
    struct scene_sample sample;
    const char *texts[SCENE_BOARD_COLUMNS]; /* NULL: nothing */
    bool marked;
};

/* A part of the picture with a name in its middle. */
struct scene_board_frame {
    struct geometry_box box;
    const char *name;
    bool marked;  /* in hand: a thick frame */
    bool missing; /* crossed out */
};

/* Thin lines and frames about them, mm, as small as they fit the page. */
struct scene_board_picture {
    const struct geometry_path *lines;
    size_t line_count;
    const struct scene_board_frame *frames;
    size_t frame_count;
};

struct scene_board {
    const char *title;
    const char *const *lines; /* sentences; a NULL ends them */
    const char *const
        *as_written; /* names of files and the like, whose small letters count; a NULL ends them, or NULL */
    const struct scene_board_row *rows;
    size_t row_count;
    const struct scene_board_picture *picture; /* or NULL */
};

/* The frame's draw list; everything lives in `a`. Of more rows than there is room for those about the marked one are
 * shown. Of the view: map, font, look, side, strip and notice. */
struct paint_scene scene_board(struct arena *a, const struct scene_view *view, const struct scene_board *board);

#endif
