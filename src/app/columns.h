/* Rows of cells as columns of text, two blanks apart, counted in letters. */
#ifndef APP_COLUMNS_H
#define APP_COLUMNS_H

#include "base/buffer.h"

/* Makes each width at least that of its cell. */
void app_columns_widen(size_t *widths, const char *const *cells, int count);

/* Adds a row as a line, two blanks before each cell and none at its end. */
void app_columns_add(struct base_buffer *out, const size_t *widths, const char *const *cells, int count);

/* A cell with blanks up to a width in letters: on its left, below zero on its right. In `a`. */
const char *app_columns_padded(struct arena *a, const char *cell, int width);

#endif
