/* SVG by libxml2: one page, in mm; groups with a name are layers. */
#ifndef SHEET_READER_SVG_H
#define SHEET_READER_SVG_H

#include "sheet_reader/collect.h"

/* Reads a whole file from memory, without looking at anything outside it. SHEET_EXIT_DONE, or why not; what was put
 * into `c` by then is of no use. */
enum sheet_exit svg_read(struct collect *c, const char *bytes, size_t count);

#endif
