/* A picture as a sheet: one page as large as its dots per inch say, with the lines and patches of its ink. */
#ifndef SHEET_READER_PICTURE_H
#define SHEET_READER_PICTURE_H

#include "sheet_reader/collect.h"

/* Reads a PNG or JPEG into `c`. `dpi` counts whatever the file says; 0: what it says, and SHEET_EXIT_DPI_NEEDED when
 * that is nothing. */
enum sheet_exit picture_read(struct collect *c, const char *bytes, size_t count, double dpi);

/* One that stands in another file, where scan.h puts pictures: with its ink, or its place alone. *dpi is what it has
 * there, 0 when it could not be read. */
enum sheet_exit picture_put(struct collect *c, uint32_t layer, const char *bytes, size_t count, const double to_mm[6],
                            uint32_t *dpi);

#endif
