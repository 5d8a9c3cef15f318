/* A picture as a sheet: one page as large as its dots per inch say, with the outlines of its ink. */
#ifndef SHEET_READER_PICTURE_H
#define SHEET_READER_PICTURE_H

#include "sheet_reader/collect.h"

/* Reads a PNG or JPEG into `c`. `dpi` counts whatever the file says; 0: what it says, and SHEET_EXIT_DPI_NEEDED when
 * that is nothing. */
enum sheet_exit picture_read(struct collect *c, const char *bytes, size_t count, double dpi);

#endif
