/* A length of cloth as it is bought and as it lies ready to be cut: what it is, how wide and long it is after washing,
 * how it is spread, and where nothing may be cut. Knows no pieces. Lengths in mm; warp runs along the cloth (x), weft
 * across it (y). */
#ifndef CLOTH_CLOTH_H
#define CLOTH_CLOTH_H

#include "base/err_list.h"
#include "geometry/space.h"
#include "units/length.h"
#include "json/tree.h"
#include "json/write.h"

#include <stdbool.h>
#include <stdint.h>

enum { CLOTH_VERSION = 1 };

enum cloth_kind {
    CLOTH_WOVEN,
    CLOTH_EASY_CARE,
    CLOTH_CORD,
    CLOTH_KNIT,
    CLOTH_BONDED,
    CLOTH_LACE,
    CLOTH_HIDE,
    CLOTH_FUSIBLE
};

enum cloth_spread_kind {
    CLOTH_SINGLE,       /* one layer */
    CLOTH_FOLDED,       /* lengthwise, selvedge on selvedge */
    CLOTH_FOLDED_TO,    /* lengthwise to a set depth, the rest single */
    CLOTH_TO_MIDDLE,    /* both selvedges folded to the middle */
    CLOTH_FOLDED_ACROSS /* crosswise; one-way cloth is cut at the fold, and the top layer turned round */
};

/* Stripes or checks: both 0 where there are none. As told, like all numbers of the cloth: of cloth that is still to be
 * washed, before that. */
struct cloth_repeat {
    double along_mm, across_mm;           /* 0: none in that direction */
    double line_along_mm, line_across_mm; /* where the first line to match by lies, from the cut end and from the near
                                             edge (selvedge taken off) of the cloth opened out */
    bool uneven;                          /* not its own mirror image: single layer, one way */
};

struct cloth {
    const char *name;       /* what she calls it, or NULL */
    enum units_length unit; /* in which it was told, and is written */
    enum cloth_kind kind;
    bool is_kind_told;               /* else it is woven, or interfacing fusible */
    double width_mm;                 /* selvedge to selvedge, opened out, as bought */
    double shrink_warp, shrink_weft; /* shares that washing takes, 0.05: 5 % */
    double washed_width_mm;          /* as measured after washing; 0: reckoned */
    double selvedge_mm;              /* taken off at either side */
    bool is_selvedge_told;           /* else it is the usual one of its kind */
    double length_mm;                /* at hand, 0: to be bought … */
    bool is_washed;     /* … width and length above were measured after washing: nothing shrinks any more */
    bool sides_alike;   /* no right side to find */
    bool wrong_side_up; /* a single layer lies with its wrong side up */
    bool one_way;       /* nap or a one-way print: all pieces the same way up */
    struct cloth_repeat repeat;
    double thickness_mm; /* 0: not told */
    const char *colour;  /* "#1B2730", or NULL */
    enum cloth_spread_kind spread;
    double fold_depth_mm;       /* of CLOTH_FOLDED_TO */
    double gap_mm;              /* kept between pieces */
    double grain_tolerance_deg; /* by how much a piece may be turned off the grain; 0: not at all */
    double trim_mm;             /* of what is fused: cut so much smaller all round */
    double block_mm;            /* what is fused is fused first, in a block as wide as that (its interfacing), and cut
                                   after; 0: piece by piece */
    struct cloth_path outline;  /* what there is of it, opened out (a scrap); no points: the whole width */
    const struct cloth_path *faults; /* outlines of what must not be cut, opened out, from the selvedge's inner edge */
    size_t fault_count;
};

/* A band of the spread along the cloth. */
struct cloth_band {
    double from_mm, to_mm; /* in y */
    int layers;            /* 1 or 2; two lie face to face */
    bool fold_at_from, fold_at_to;
};

/* The cloth as it lies, washed and without selvedges. x from the cut end. */
struct cloth_spread {
    double width_mm;       /* as it lies */
    double usable_mm;      /* opened out */
    double most_length_mm; /* as it lies; 0: as much as it takes */
    double layers_long;    /* mm of cloth for a mm of the spread: 2 when folded across, else 1 */
    struct cloth_band bands[3];
    int band_count;
    struct cloth_repeat repeat; /* washed, its lines from the cut end and the near edge (or fold) as it lies */
    struct cloth_path *blocked; /* as it lies, from outline and faults of every layer */
    size_t blocked_count;
    bool top_is_mirrored; /* two layers: the upper one is cut as the mirror image (always, face to face) */
};

/* --- file and job (read.c) --- */

/* Reads a cloth from an object of JSON: a file of kind "cloth", or a part of a job. Everything lives in `a`. False with
 * the reasons. */
bool cloth_read(struct arena *a, const char *path, struct cloth *out, struct err_list *errs);
bool cloth_from(struct arena *a, const struct json_node *object, enum units_length unit, struct cloth *out,
                struct err_list *errs);
void cloth_write(struct json_out *to, const struct cloth *cloth);

/* A copy with all that it points at, in `a`. */
struct cloth cloth_copy(struct arena *a, const struct cloth *cloth);

/* As interfacing: where no kind was told, it is fusible; that is used from edge to edge unless a selvedge was told. */
void cloth_make_interfacing(struct cloth *cloth);

/* The usual one of that width: woven, no shrinkage, selvedges of 2.5 cm in all (see the .c for the source). */
struct cloth cloth_plain(double width_mm);

/* --- arithmetic (wash.c, buy.c) --- */

/* Washed, selvedges still there; and what can be cut, opened out. */
double cloth_washed_width(const struct cloth *cloth);
double cloth_usable_width(const struct cloth *cloth);

/* The width to take it in so that so much can be cut: shrinkage and selvedges in, rounded up to 1 mm or 1/8 in. */
double cloth_width_for(const struct cloth *cloth, double usable_mm);

/* Length at hand after washing; 0: not told. */
double cloth_washed_length(const struct cloth *cloth);

/* A washed length along the cloth, as it was before. */
double cloth_before_washing(const struct cloth *cloth, double along_mm);

/* The repeat, and an outline on the cloth, after washing. The outline lives in `a`. */
struct cloth_repeat cloth_washed_repeat(const struct cloth *cloth);
struct geometry_path cloth_washed_path(struct arena *a, const struct cloth *cloth, struct geometry_path path);

/* What is to be bought so that `need_mm` of washed cloth (opened out, along) is there: need / (1 - shrinkage), rounded
 * up to 10 cm, or in inches to 1/8 yd. */
double cloth_to_buy(const struct cloth *cloth, double need_mm, enum units_length unit);

/* Widths that cloth of that material is usually sold in, as people of that unit know them; returns how many. */
size_t cloth_common_widths(enum units_length unit, bool interfacing, const double **mm);

/* --- how it lies (spread.c) --- */

/* False with a sentence when it cannot be spread so: folded deeper than it is wide, a scrap folded, an uneven stripe
 * doubled, no width left. Where a repeat wants its fold is told, and a fault that is nowhere on the cloth. */
bool cloth_spread(struct arena *a, const struct cloth *cloth, struct cloth_spread *out, struct err_list *errs);

/* The least length, at least that, at which cloth spread crosswise may be folded, or where it was folded already: faults of
 * cloth with a repeat were reckoned so. Of other cloth that length. */
double cloth_fold_past(const struct cloth *cloth, double lies_mm);

/* Whether it tears true along a thread; else a sentence why not, and what to do instead. */
bool cloth_tears(const struct cloth *cloth, const char **why_not);

/* --- making it ready (ready.c) --- */

/* What there can be to do before cloth is cut, in the order in which it is done. */
enum cloth_step {
    CLOTH_WASH,
    CLOTH_PRESS,
    CLOTH_REST,
    CLOTH_SQUARE,
    CLOTH_MEASURE,
    CLOTH_FIND_SIDE,
    CLOTH_MARK_WAY,
    CLOTH_TURN_LAYER,
    CLOTH_MARK_REPEAT,
    CLOTH_PIN_LAYERS,
    CLOTH_LOOK_OVER,
    CLOTH_STEPS /* how many there are */
};

/* A step that this cloth needs. */
struct cloth_ready {
    enum cloth_step step;
    const char *sentence; /* what is done */
};

/* "right sides together", "right side up": how it is laid; NULL where its sides are alike. */
const char *cloth_side_up(const struct cloth *cloth);

/* What to do with it before it is cut, in order; in `a`. Returns how many. */
size_t cloth_ready_list(struct arena *a, const struct cloth *cloth, enum units_length unit,
                        const struct cloth_ready **out);

/* "wash", "press" …: the words of files. */
const char *cloth_step_name(enum cloth_step step);

const char *cloth_kind_name(enum cloth_kind kind);

/* A cloth's colour as 0x00RRGGBB, sRGB; `untold` where it is NULL. */
uint32_t cloth_rgb(const char *colour, uint32_t untold);

const char *cloth_spread_name(enum cloth_spread_kind spread);

#endif
