/* Rows of cells as columns of text, two blanks apart, counted in letters. */
#ifndef APP_COLUMNS_H
#define APP_COLUMNS_H

#include "base/buffer.h"

/* Makes each width at least that of its cell. */
void app_columns_widen(size_t *widths, const char *const *cells, int count);

/* Adds a row as a line, two blanks before each cell and none at its end. */
void app_columns_add(struct base_buffer *out, const size_t *widths, const char *const *cells, int count);

#endif
