/* Between the files that draw a scene. Not for other folders. */
#ifndef SCENE_PARTS_H
#define SCENE_PARTS_H

#include "scene/lane.h"
#include "scene/layout.h"
#include "scene/scene.h"
#include "scene/strip.h"
#include "text/run.h"

/* What every part draws with. */
struct scene_canvas {
    struct arena *a;
    const struct scene_view *view;
    struct scene_page page;
    struct paint_scene *out;
    struct scene_strip strip;    /* along one edge of the light … */
    struct scene_notice notice;  /* … and along the far one, or the near one */
    struct scene_obstacles kept; /* what words keep off besides what is drawn: what is drawn later, at places that are
                                    given */
};

/* With the view's words in as many rows as they take. */
struct scene_canvas scene_canvas_of(struct arena *a, const struct scene_view *view, struct scene_page page,
                                    struct paint_scene *out);

enum scene_align { SCENE_START, SCENE_MIDDLE, SCENE_END };

/* Letters are capitals, in English: they read best from a metre away. Where the view wants a band they stand unlit on a
 * lit one. A line of letters on the table along the unit vector `right`, its middle at `at`; cap height in mm. */
void scene_table_words(const struct scene_canvas *c, const char *text, struct table_pt at, vec2 right, double cap_mm);

/* The same in an ink of its own. */
void scene_table_words_in(const struct scene_canvas *c, const char *text, struct table_pt at, vec2 right, double cap_mm,
                          struct paint_ink ink);

/* How long it will be, mm. */
double scene_words_width(const struct scene_canvas *c, const char *text, double cap_mm);

/* A line of letters on the page (px across and up from its near left corner); cap height in px. */
void scene_page_words(const struct scene_canvas *c, const char *text, enum scene_align align, double across, double up,
                      double cap_px, struct paint_ink ink);

/* The same in letters as they are written: names of files, and what is to be typed. */
void scene_page_letters(const struct scene_canvas *c, const char *text, enum scene_align align, double across,
                        double up, double cap_px, struct paint_ink ink);
double scene_letters_width(const struct scene_canvas *c, const char *text, double cap_mm);

/* Capitals on the page along a unit vector of it, from the start of their base line. */
void scene_page_words_along(const struct scene_canvas *c, const char *text, vec2 start, vec2 along, double cap_px,
                            struct paint_ink ink);

/* The run's contours carried into another plane: the base line's start at `at`, along `right`, up along `up`. In `a`.
 */
struct geometry_path *scene_carried(struct arena *a, const struct text_run *run, vec2 at, vec2 right, vec2 up);

/* A filled rectangle on the page, px. */
void scene_page_box(const struct scene_canvas *c, double left, double near, double right, double far,
                    struct paint_ink ink);

/* A straight stroke on the page; the pen is in px. */
void scene_page_line(const struct scene_canvas *c, vec2 from, vec2 to, struct paint_pen pen, struct paint_ink ink);

/* Cap height of the page's letters, px. */
double scene_page_cap(const struct scene_canvas *c);

/* A place of the piece as it is drawn or mirrored, before it is shifted. */
vec2 scene_piece_place(const struct scene_piece *piece, vec2 p);

/* A piece as it lies: shifted, in piece mm, then moved to the table. */
struct scene_placed {
    const struct scene_piece *piece;
    vec2 shift;
    const struct geometry_mover *mover;
    vec2 grain[2]; /* the arrow's ends, once drawn */
    bool lettered; /* its letters are written; else they found no room in it, and are still to be written */
};

/* One piece: its lines and, where they have room in it, its letters. */
void scene_draw_piece(const struct scene_canvas *c, struct scene_placed *placed);

/* Words along a line of a piece, on the table: beside it, as near to its middle as they stand within the closed outline
 * and clear of what is drawn; where they do nowhere, over its middle, on dark ground. */
void scene_write_along(const struct scene_canvas *c, const char *text, const vec2 ends[2], struct geometry_path within,
                       const struct scene_obstacles *drawn);

/* The letters of a piece that has no room for them, beside it, when all are drawn: clear of the list's paths from
 * `first` on, and of the outlines of all pieces. */
void scene_letter_beside(const struct scene_canvas *c, const struct scene_placed *placed, size_t first,
                         const struct scene_obstacles *pieces);

/* An arrow of the grain between two places of the table: with two heads or, of cloth with a nap, one at the second. */
void scene_draw_grain(const struct scene_canvas *c, const vec2 ends[2]);

/* The cut outline on the table. */
struct geometry_path scene_piece_outline(const struct scene_canvas *c, const struct scene_placed *placed);

/* Whether a place of the table lies in the light, clear of strip and notice. */
bool scene_is_lit(const struct scene_canvas *c, vec2 at);

/* The mat's rulings with their numbers. */
void scene_draw_rulings(const struct scene_canvas *c);

/* What to do now on the left and what is left on the right, along its edge beside a thin rule, or unlit on a lit band
 * where the view wants that or all is lit. */
void scene_draw_strip(const struct scene_canvas *c);

/* What strip and notice leave of the page, px. */
struct scene_room {
    double left, near, right, far;
};

struct scene_room scene_room_of(const struct scene_canvas *c);

/* How deep the band of a notice is, px. */
double scene_notice_depth(const struct scene_canvas *c);

/* The view's notice, if any: unlit letters on a lit band, what must not be overlooked. */
void scene_draw_notice(const struct scene_canvas *c);

/* The marks on the check stickers, with S and their numbers: on dark ground or, `yields`, over what is drawn on the
 * table, where lines and words win: numbers stand where nothing else does. */
void scene_draw_stickers(const struct scene_canvas *c, bool yields);

/* Their squares on the table, in the canvas's arena. */
struct scene_obstacles scene_sticker_boxes(const struct scene_canvas *c);

/* These, with those of `more` that come into a box; in `a`. */
struct scene_obstacles scene_joined(struct arena *a, struct scene_obstacles these, struct scene_obstacles more,
                                    struct geometry_box box);

/* Whether a stretch so wide to either side crosses none of these paths. */
bool scene_is_uncrossed(const struct scene_canvas *c, vec2 from, vec2 along, double length, double beside,
                        const struct scene_obstacles *paths);

/* The room between those at the left and those at the right: of the outer quarters of the page. */
struct scene_room scene_room_between_stickers(const struct scene_canvas *c);

/* What is to be cut, as it lies, and what it is called; and lines that cloth is laid along or marks on it. */
struct scene_to_cut {
    struct scene_obstacles outlines;
    const char *const *labels;
    struct scene_obstacles lines;
};

/* The strip takes no more rows than leave these in the light, and tells which outlines lie partly outside it. */
void scene_keep_in_light(struct scene_canvas *c, const struct scene_to_cut *to_cut);

/* A bar of each colour of light with its number, and which are used. */
void scene_draw_trial(const struct scene_canvas *c);

/* The view's layout on its cloth. */
void scene_draw_layout(struct scene_canvas *c);

/* Targets to focus by, in a frame of that size. */
void scene_draw_targets(const struct scene_canvas *c, int width_px, int height_px);

/* How true a map of the page's frame is, all over it. */
void scene_draw_doubt(const struct scene_canvas *c, const struct geometry_map *map,
                      const struct calibration_doubt *doubt, enum scene_doubt_of of);

/* The view's help lines, as large as the page allows, up to the size of a piece's name. */
void scene_draw_help(const struct scene_canvas *c);

#endif
