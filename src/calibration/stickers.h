/* Check stickers: small crosses stuck to the table outside the cloth, with a mark of light on each. When projector or
 * table was bumped, the marks leave them at once; moved onto them again they tell how to mend the map. */
#ifndef CALIBRATION_STICKERS_H
#define CALIBRATION_STICKERS_H

#include "base/err_list.h"
#include "geometry/map.h"
#include "json/tree.h"
#include "json/write.h"

enum { CALIBRATION_LEAST_STICKERS = 2, CALIBRATION_MOST_STICKERS = 4 };

#define CALIBRATION_NUDGED_SIGMA_MM 0.2 /* how well a mark of light is moved onto one (DEVELOPERS.md, Calibration) */

/* Where the marks lay on their stickers: pixels, as a place of the table is known only by the map. */
struct calibration_stickers {
    struct px_pt px[CALIBRATION_MOST_STICKERS];
    int count; /* 0, or from least to most */
};

enum calibration_bump {
    CALIBRATION_BUMP_NONE,  /* no further off than nudging is sure */
    CALIBRATION_BUMP_SLID,  /* shifted and turned in the table's plane, as when table or projector slid */
    CALIBRATION_BUMP_TILTED /* more than that: the whole pose changed a little */
};

struct calibration_followed {
    struct geometry_map map; /* the mended one */
    enum calibration_bump bump;
    double moved_mm;       /* how far the light had moved where it moved most, over the frame */
    double doubt_mm;       /* by how much a place may be off (95 %) for the nudges alone, where that is most … */
    struct px_pt doubt_px; /* … which is there */
    double off_mm[CALIBRATION_MOST_STICKERS]; /* what is left of each */
};

/* The map after a bump: `are` are the pixels that light the stickers now, as many as in `were`. Least squares on a
 * projective change of the table's plane under pseudo-readings that say what a bump can do: one that only slides where
 * that explains the nudges (chi-square, 95 %), else one that tilts, too. Refused with a sentence, *out untouched: one
 * of four stickers that has moved itself, stickers that agree with no bump (99.9 %), and a map that is none. */
bool calibration_follow(const struct geometry_map *map, const struct calibration_stickers *were,
                        const struct calibration_stickers *are, struct calibration_followed *out,
                        struct err_list *errs);

/* A list of pixels [u, v]. False, with a complaint, when there are too few, too many, some off the frame or all close
 * together; *out is then untouched. A map that is not valid had its complaint before: only the list's form is judged.
 */
bool calibration_stickers_from(const struct json_node *list, const struct geometry_map *map,
                               struct calibration_stickers *out, struct err_list *errs);
void calibration_stickers_write(struct json_out *to, const char *key, const struct calibration_stickers *stickers);

/* Whether such stickers tell: enough of them, and far enough apart (a quarter of the frame's width). */
bool calibration_stickers_are_apart(const struct geometry_map *map, const struct calibration_stickers *stickers);

#endif
