/* PDF by MuPDF: pages, layers and what is painted on them, in mm. */
#ifndef SHEET_READER_PDF_H
#define SHEET_READER_PDF_H

#include "sheet_reader/collect.h"

/* Reads a whole file from memory. `password` is UTF-8 or NULL. SHEET_EXIT_DONE, or why not; what was put into `c` by
 * then is of no use. */
enum sheet_exit pdf_read(struct collect *c, const char *bytes, size_t count, const char *password);

#endif
