/* What the person mends of lifted pieces. Inside lifting alone. */
#ifndef LIFTING_MEND_H
#define LIFTING_MEND_H

#include "lifting/lift.h"

/* Applies mends in order; what cannot be done is told and changes nothing. Everything new lives in `a`. */
void lifting_apply_mends(struct arena *a, struct lifting *l, const struct lifting_mend *mends, size_t count,
                         struct err_list *errs);

#endif
