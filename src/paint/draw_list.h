/* What is to be drawn: strokes and fills, either all in table mm or all in pixels. Built by scene, drawn by paint. */
#ifndef PAINT_DRAW_LIST_H
#define PAINT_DRAW_LIST_H

#include "base/arena.h"
#include "geometry/space.h"

#include <stdbool.h>
#include <stdint.h>

enum { PAINT_DASHES = 4 };

struct paint_ink {
    uint32_t chalk; /* 0x00RRGGBB, sRGB */
    double level;   /* share of full light 0..1, in linear light */
};

/* Lengths in the list's unit (mm or px). */
struct paint_pen {
    double width;
    double dash[PAINT_DASHES]; /* on off on off; all zero: whole */
};

enum paint_kind { PAINT_STROKE, PAINT_FILL };

struct paint_item {
    enum paint_kind kind;
    struct paint_ink ink;
    struct paint_pen pen;     /* of a stroke */
    size_t first_path, paths; /* a fill's contours together, by the non-zero rule */
};

/* Item after item; a later item covers an earlier one. Neighbouring items of one ink are one layer: where they meet or
 * cross they do not brighten. */
struct paint_items {
    struct arena *arena; /* owns everything in the list */
    struct paint_item *items;
    size_t count, cap;
    struct geometry_path *paths;
    size_t path_count, path_cap;
};

struct paint_table_list {
    struct paint_items in; /* mm, struct table_pt; warped through the map */
};

struct paint_px_list {
    struct paint_items in; /* px, struct px_pt; drawn as it is */
};

/* Whole pixels, lit or dark as they are, without smoothing: to judge focus by, and whether the picture is resized on
 * its way. Lit are those for which column / across + row / down, both counted from the left upper corner, is even;
 * across or down 0 does not count. */
struct paint_raster {
    int left, top, right, bottom; /* px; right and bottom are outside */
    int across, down;
    struct paint_ink ink;
};

struct paint_rasters {
    struct arena *arena;
    struct paint_raster *items;
    size_t count, cap;
};

/* What one frame shows: the table's list first, the pixels' list over it, rasters over all. */
struct paint_scene {
    struct paint_table_list table;
    struct paint_px_list px;
    struct paint_rasters rasters;
};

struct paint_scene paint_scene_create(struct arena *a);

/* Paths are taken by reference: they must live as long as the list. Paths of fewer than two points (strokes) or three
 * (fills) draw nothing. */
void paint_table_stroke(struct paint_table_list *list, struct table_path path, struct paint_pen pen,
                        struct paint_ink ink);
void paint_table_fill(struct paint_table_list *list, const struct table_path *contours, size_t count,
                      struct paint_ink ink);
void paint_px_stroke(struct paint_px_list *list, struct px_path path, struct paint_pen pen, struct paint_ink ink);
void paint_px_fill(struct paint_px_list *list, const struct px_path *contours, size_t count, struct paint_ink ink);

/* What lies outside the picture is not drawn. */
void paint_raster(struct paint_rasters *list, struct paint_raster raster);

#endif
