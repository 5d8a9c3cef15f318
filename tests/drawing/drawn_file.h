/* A file as the program would get it from the reader, but read in this process without the jail, for checks and
 * benches that look at whole sheets. */
#ifndef TESTS_DRAWING_DRAWN_FILE_H
#define TESTS_DRAWING_DRAWN_FILE_H

#include "drawing/drawing.h"

/* A PDF or SVG, read and validated; `password` may be NULL. *exit is how the reader leaves (enum sheet_exit). The sheet
 * lives in `a`. NULL when it cannot be read, with *exit SHEET_EXIT_DONE when the program would refuse it. */
const struct sheet *drawn_sheet_file(struct arena *a, const char *path, const char *password, int *exit);

/* The same, flattened. False when there is no drawing. */
bool drawn_file(struct arena *a, const char *path, const char *password, struct drawing *out, int *exit);

#endif
