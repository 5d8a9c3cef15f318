/* How large a picture says it is. */
#ifndef SHEET_READER_PICTURE_SIZE_H
#define SHEET_READER_PICTURE_SIZE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct picture_dpi {
    double x, y; /* dots per inch, along its rows and across them */
};

/* The resolution that a PNG (its pHYs chunk) or a JPEG (JFIF's density, else Exif's) gives. False when it gives none,
 * or one out of bounds (SHEET_DPI_LEAST to SHEET_DPI_MOST). */
bool picture_size(const char *bytes, size_t count, struct picture_dpi *out);

/* How many dots wide and high it is, as it is stored. False for what is neither. */
bool picture_dots(const char *bytes, size_t count, uint32_t *width, uint32_t *height);

#endif
