/* A pattern file of lifted pieces. Outlines of all sizes are matched from corner to corner and told as lines and cubics
 * whose points have a value for each size. */
#ifndef LIFTING_WRITE_H
#define LIFTING_WRITE_H

#include "base/err_list.h"
#include "lifting/lifting.h"
#include "units/length.h"

struct lifting_wish {
    const char *name; /* of the pattern */
    enum units_length unit;
    bool cutting_line;   /* the outlines are where it is cut; else where it is sewn. Always asked */
    double allowance_mm; /* to be added to a stitching line, or that lies within a cutting line */
};

/* The file's text, in `a`; NULL with the reasons when there is no piece to write. */
const char *lifting_write(struct arena *a, const struct lifting *l, const struct lifting_wish *wish,
                          struct err_list *errs);

#endif
