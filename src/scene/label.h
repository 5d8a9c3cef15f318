/* Where the letters of a piece stand: within its stitching line, clear of its marks and leaving its grain arrow room,
 * or beside it with a leader. Name, count and size are all kept: they are broken, joined and turned until they fit. */
#ifndef SCENE_LABEL_H
#define SCENE_LABEL_H

#include "scene/lane.h"
#include "scene/parts.h"

enum { SCENE_LABEL_TEXTS = 3, SCENE_LABEL_LINES = 2 * SCENE_LABEL_TEXTS };

/* What the letters have to mind, all in table mm. */
struct scene_label_room {
    const char *texts[SCENE_LABEL_TEXTS]; /* name, count, size; NULL but for the name: nothing */
    bool breaks;                          /* the count may be broken at any blank, as a name is */
    struct geometry_path seam;            /* the stitching line */
    struct scene_obstacles marks;         /* what letters must not cross */
    struct scene_obstacles pricked;       /* of those drill marks and buttons: letters over marks hide others first */
    vec2 wish;                            /* where the letters would best stand */
    vec2 grain[2];                        /* where the arrow would best lie */
    bool has_fold;
    vec2 fold[2];                     /* a line beyond which there is no cloth */
    const struct geometry_box *light; /* where letters beside may stand; NULL: wherever light falls on the table */
};

/* A block of lines along the unit vector `right`, its middle at `middle`. */
struct scene_label {
    const char *text[SCENE_LABEL_LINES];
    double cap[SCENE_LABEL_LINES];
    size_t count;
    double step; /* from line to line, of the cap height */
    vec2 middle, right, down;
    double width, height; /* mm */
};

/* Finds room within the piece, and for the grain arrow beside the letters. False when there is none. */
bool scene_label_inside(const struct scene_canvas *c, const struct scene_label_room *room, struct scene_label *label,
                        vec2 grain[2]);

/* Finds room in the light beside the piece, whose cut line is given, clear of `drawn` and of the other pieces'
 * outlines. `over_lines`: the leader may cross them, where no other can be had. */
bool scene_label_beside(const struct scene_canvas *c, const struct scene_label_room *room, struct geometry_path cut,
                        const struct scene_obstacles *drawn, const struct scene_obstacles *pieces, bool over_lines,
                        struct scene_label *label);

/* Where neither is to be had: name and count over marks of the piece that are not pricked, smaller if need be, never
 * over its cut line. False when they have no room within its stitching line. */
bool scene_label_whole_over(const struct scene_canvas *c, const struct scene_label_room *room,
                            struct scene_label *label);

/* The same or, where that has no room, the name alone, then over what is pricked. False when even the name alone has no
 * room. */
bool scene_label_over(const struct scene_canvas *c, const struct scene_label_room *room, struct scene_label *label);

/* The name alone, clear of what is pricked: broken and smaller if need be. False when it has no room. */
bool scene_label_clear(const struct scene_canvas *c, const struct scene_label_room *room, struct scene_label *label);

/* By what letters shrink, of the cap height, before they would stand over a cut line; and how far they may. */
enum { SCENE_NAME_SIZES = 3 };
extern const double scene_name_sizes[SCENE_NAME_SIZES];
double scene_name_share(const struct scene_canvas *c, int size);

/* Takes away the light under the letters, so that nothing drawn before runs through them. */
void scene_label_darken(const struct scene_canvas *c, const struct scene_label *label);

void scene_label_write(const struct scene_canvas *c, const struct scene_label *label);
void scene_label_write_in(const struct scene_canvas *c, const struct scene_label *label, struct paint_ink ink);

/* Unlit, on a lit ground: what is in hand. */
void scene_label_write_lit(const struct scene_canvas *c, const struct scene_label *label);

/* Its corners, with the air about the letters; in the canvas's arena. */
struct geometry_path scene_label_box(const struct scene_canvas *c, const struct scene_label *label);

/* The ends of the shortest way from letters beside a piece to its stitching line. */
void scene_label_leader(const struct scene_label *label, const struct scene_label_room *room, vec2 ends[2]);

/* A thin line that way, to a dot within the cut line. */
void scene_label_lead(const struct scene_canvas *c, const struct scene_label *label,
                      const struct scene_label_room *room, struct geometry_path cut);

#endif
