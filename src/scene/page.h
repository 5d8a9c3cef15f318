/* Where the person's words stand: the frame as she sees it from her side of the table, as a page that reads the right
 * way round however the projector hangs. */
#ifndef SCENE_PAGE_H
#define SCENE_PAGE_H

#include "geometry/map.h"

/* The side of the table where she stands; near is the side of the mat's ruled zero. */
enum scene_side { SCENE_NEAR, SCENE_RIGHT, SCENE_FAR, SCENE_LEFT, SCENE_SIDES };

const char *scene_side_name(enum scene_side side);

/* The side of that name; false, *out untouched, when there is none. */
bool scene_side_find(const char *name, enum scene_side *out);

/* The side of the table that she has there: her left is the right side's near one. */
enum scene_side scene_side_of_hers(enum scene_side stands, enum scene_side hers);

/* Her reading direction and her "away" on the table, unit vectors. */
vec2 scene_side_right(enum scene_side side);
vec2 scene_side_away(enum scene_side side);

/* What is told to be off by so much: a place, or a line of 100 mm there. */
enum scene_doubt_of { SCENE_DOUBT_OF_PLACES, SCENE_DOUBT_OF_LINES };

struct scene_page {
    vec2 origin, right, up; /* px: the corner at her left and near; unit vectors along her reading and away from her */
    double width, height;   /* px */
    double px_per_mm;       /* at the frame's middle */
};

struct scene_page scene_page_of(const struct geometry_map *map, enum scene_side side);

/* The page of a frame of which no map is known: its own bottom is the near edge, after that many quarter turns
 * counter-clockwise. `px_per_mm` is the caller's guess. */
struct scene_page scene_page_turned(int width_px, int height_px, int quarter, double px_per_mm);

/* A place of the page in frame pixels. */
struct px_pt scene_page_px(const struct scene_page *page, double across, double up);

/* A place of the frame on the page: across and up. */
vec2 scene_page_at(const struct scene_page *page, struct px_pt px);

/* A rectangle, upright as she stands, that lies wholly in the light: the largest of a few shapes about its middle. */
struct geometry_box scene_light_box(const struct geometry_map *map);

#endif
