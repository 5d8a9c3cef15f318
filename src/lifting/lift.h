/* From a divided sheet to pieces: shapes, words and marks put together, then what the person mends. */
#ifndef LIFTING_LIFT_H
#define LIFTING_LIFT_H

#include "base/err_list.h"
#include "lifting/lifting.h"

/* What she changes, by keys; each is one step that can be taken back. */
enum lifting_mend_kind {
    LIFTING_MEND_JOIN,   /* of: two pieces that are one */
    LIFTING_MEND_PART,   /* of: a piece, cut along the line between two points */
    LIFTING_MEND_MIRROR, /* of: a piece that was drawn the other way round */
    LIFTING_MEND_RENAME, /* of: a piece; text */
    LIFTING_MEND_GRAIN,  /* of: a piece; at: two points it runs through */
    LIFTING_MEND_COUNT,  /* of: a piece; number, or text: what lifting_read_count reads */
    LIFTING_MEND_FOLD,   /* of: a piece; at: two points, the nearest edge lies on the fold; number 0: on none */
    LIFTING_MEND_DROP    /* of: a piece that is none */
};

struct lifting_mend {
    enum lifting_mend_kind kind;
    size_t of[2]; /* pieces as they are after the mends before */
    struct sheet_pt at[2];
    const char *text;
    int number;
};

/* Everything lives in `a` and in what drawing and division live in. Sizes that are too much to work on are told, and
 * have no outlines; mends that cannot be done are told and change nothing. A joined piece takes the place of the first of
 * the two; of a parted one, what lies to the left of the way between the points stays, the rest comes behind it. */
struct lifting lifting_lift(struct arena *a, const struct drawing *d, const struct lifting_division *division,
                            const struct lifting_mend *mends, size_t mend_count, struct err_list *errs);

#endif
