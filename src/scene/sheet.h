/* A drawn sheet on the table as it is, at true scale: what is cut, what belongs to all sizes, what is written. And a
 * cross in the middle of the light, to mark places by on what is moved under it. */
#ifndef SCENE_SHEET_H
#define SCENE_SHEET_H

#include "scene/scene.h"

enum scene_sheet_kind {
    SCENE_SHEET_CUT,     /* of a size that is to be cut */
    SCENE_SHEET_COMMON,  /* of all sizes */
    SCENE_SHEET_LETTERS, /* filled */
    SCENE_SHEET_PLAIN    /* of a sheet that is not true to scale: thin, no cut line */
};

/* Lines that are painted as one have the same `item` and stand next to each other. */
struct scene_sheet_line {
    enum scene_sheet_kind kind;
    struct geometry_path path; /* mm */
    const double *dash_mm; /* its own dashes: dash, gap, …; of a cut line drawn only where there are several sizes */
    size_t dash_count;
    size_t item;
};

/* Words whose letters have no outlines of their own: they are written in the table's, as written. */
struct scene_sheet_words {
    const char *text; /* UTF-8, one line */
    vec2 at, along;   /* mm: the start of the base line; the way it runs, length 1 */
    double cap_mm;    /* above 0 */
};

/* The lines about a place that the view's motion puts on the middle of the light. */
struct scene_sheet {
    const struct scene_sheet_line *lines;
    size_t count;
    vec2 middle;
    const struct scene_sheet_words *words;
    size_t word_count;
};

/* The frame's draw list; everything lives in `a`. Lines outside the light are left out. */
struct paint_scene scene_sheet(struct arena *a, const struct scene_view *view, const struct scene_sheet *sheet);

/* Places that were marked, from the middle of the light before the view's motion; of two a line joins them. */
struct scene_marks {
    vec2 at[2];
    size_t count;
};

/* Other lines on a piece that a scene of the view shows alone, the middle of whose box is `middle`. */
void scene_draw_inner(struct arena *a, const struct scene_view *view, const struct geometry_path *lines, size_t count,
                      vec2 middle, struct paint_scene *scene);

/* The cross in the middle of the light, and what was marked, over a scene of the view. */
void scene_draw_marks(struct arena *a, const struct scene_view *view, const struct scene_marks *marks,
                      struct paint_scene *scene);

/* The places alone, without the cross to mark with. */
void scene_draw_marked(struct arena *a, const struct scene_view *view, const struct scene_marks *marks,
                       struct paint_scene *scene);

#endif
