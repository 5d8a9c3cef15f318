/* Where cloth is folded so that an even repeat matches through both layers, for this folder alone. */
#ifndef CLOTH_FOLDS_H
#define CLOTH_FOLDS_H

#include "cloth/cloth.h"

/* On cloth opened out and washed; where it has no repeat, halves and quarters. */
struct cloth_folds {
    double
        at_mm; /* the fold, from the near edge; of cloth folded crosswise from the cut end, 0: it has no length yet */
    double next_mm; /* of cloth folded to the middle: the other one, from the near edge */
    double slip_mm; /* one-way cloth, cut at the fold: how far the turned layer lies beyond the far edge */
};

struct cloth_folds cloth_folds_of(const struct cloth *cloth);

/* Where to fold it, if it has a repeat that the fold mirrors. */
void cloth_tell_folds(const struct cloth *cloth, const struct cloth_folds *folds, struct err_list *errs);

#endif
