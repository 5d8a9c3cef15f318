/* A tearing plan: the rectangles of a view's cutting list as strips that are torn off a length of cloth, in which order
 * they are torn, and where each strip is cut; and what can be done with strips that are longer than their gathered
 * rectangles need. The cloth lies single, washed and without selvedges; the grain runs along it. */
#ifndef TEARING_TEARING_H
#define TEARING_TEARING_H

#include "cloth/cloth.h"
#include "draft/draft.h"
#include "tearing/strips.h"

#include <stdatomic.h>

/* Left on at every torn edge and trimmed off: edges ripple as they are torn, up to about 1 in as is told; half of that
 * is left as a rule (our own choice), and more or less by who knows the cloth. */
#define TEARING_MARGIN_MM 12.7

/* Strips run across the cloth, unless those along it, out of one length, spare a step of what shops cut. */
enum tearing_way { TEARING_LEAST, TEARING_ACROSS, TEARING_ALONG };

struct tearing_task {
    const struct pattern *pattern;
    const struct draft *draft;
    const struct cloth *cloth;
    enum pattern_cloth material;
    enum units_length unit; /* of the person: widths are offered on its marks, cloth is sold in its steps */
    enum tearing_way way;
    double off_square_mm; /* how much longer the cloth is at one selvedge than at the other; 0: square */
    double margin_mm;
    const atomic_bool *stop; /* ends looking for what can be cut of rests; may be NULL */
};

/* Rectangles of one line of the cutting list. What is wider than the cloth is joined of parts: as many as can be across
 * the whole cloth, and a rest that is a need of its own. */
struct tearing_need {
    int cut; /* line of the draft's list */
    const struct draft_piece *piece;
    double width_mm, height_mm; /* as torn and cut */
    int count;
    double whole_mm; /* width of the piece as cut, opened out, without joins */
    int pieces;      /* that are cut of it */
    int parts;       /* of each; 1: whole */
    bool is_rest;    /* the last part of each */
};

/* A strip from tear to tear. */
struct tearing_strip {
    double from_mm, to_mm;            /* across: from the squared end; along: from the near edge */
    double size_mm;                   /* what it is trimmed to */
    double used_mm;                   /* of its length, by rectangles */
    const struct tearing_spot *spots; /* kind: of the needs; across: from the strip's beginning; along: from its trimmed
                                         lower edge */
    size_t spot_count;
};

struct tearing_rests; /* rests.h */

struct tearing_plan {
    const struct tearing_task *task;
    bool along; /* the strips run along the cloth */
    const struct tearing_need *needs;
    size_t need_count;
    const struct tearing_strip *strips; /* in the order they are torn, the highest first, but round faults */
    size_t strip_count;
    double strip_length_mm; /* across: the usable width; along: what is torn off across first, trimmed */
    double start_mm;        /* along: where that begins, from the squared end */
    double length_mm;       /* of washed cloth that is needed, what squaring takes included */
    double other_mm;        /* the same with strips the other way; NAN: there is none */
    double to_buy_mm;
    double spare_mm;           /* of what is at hand; below zero: short by that; NAN: none was told */
    double used;               /* share of the cloth that is in rectangles, and in what is cut of rests */
    bool is_least;             /* every way was looked at */
    const char *const *others; /* pieces of the material that are no rectangles, by label */
    size_t other_count;
    const struct tearing_rests *rests; /* of which some of those are cut; NULL: of none */
};

/* Plans the rectangles of a material; everything lives in `a`, the draft and the cloth. False with the reasons: cloth
 * that does not tear true, no rectangle, a scrap, no room for strips along the cloth. Warned of: pieces too wide for
 * the cloth, which are pieced; a repeat, which is not looked at. Too little cloth at hand is a fault that is told, too,
 * with what would do; the plan is made all the same. */
bool tearing_plan_make(struct arena *a, const struct tearing_task *task, struct tearing_plan *out,
                       struct err_list *errs);

/* --- strips longer than needed (choices.c) --- */

/* What one gathered edge comes to. */
struct tearing_gathers {
    const char *seam;
    double from_mm, to_mm; /* as sewn, all the way round */
    double hem_mm; /* girth of the edges opposite, of all that are cut, as sewn, or where other rectangles are sewn to
                      those, of theirs; 0: they are sewn to something else */
};

/* A rectangle made wider or narrower. */
struct tearing_change {
    int need;
    double width_mm; /* as cut, on a mark of the unit */
    struct tearing_gathers was, is;
};

enum tearing_choice_kind {
    TEARING_TRIM,   /* cut as it is; the rest of the strip is left over */
    TEARING_FULLER, /* the whole width, more gathers */
    TEARING_SPARER, /* one more beside each other, fewer gathers */
    TEARING_PIECE   /* some sewn together of what is left over */
};

struct tearing_choice {
    enum tearing_choice_kind kind;
    const struct tearing_change *changes; /* for trimming and piecing: what it is about, unchanged */
    size_t change_count;
    int strips;       /* torn for them, were they alone */
    double left_mm;   /* of the length of those strips, in all */
    double length_mm; /* the whole plan's, so */
    bool along;       /* strips of that run along the cloth: the way that wastes least, unless one was asked for */
    int joins;        /* seams that piecing takes, in all, of seam_mm allowance on either side */
    double seam_mm;
};

/* The choices there are for the gathered rectangles of a plan: trimming, which is the plan as it is, and others after
 * it. Each of several of one height that go into one strip across the cloth together counts as one. Other pieces whose
 * size follows that of what is changed are reckoned with it. Everything lives in `a`. Returns how many. */
size_t tearing_choices(struct arena *a, const struct tearing_plan *plan, const struct tearing_choice **out);

#endif
