/* The cutting list as sheets of A4 to print and write on: every line of it with a sketch of its piece, a box to tick
 * and room for a pencil, the notions at the end. Black on white, SVG 1.1 in mm. */
#ifndef EXPORT_WORKSHEET_H
#define EXPORT_WORKSHEET_H

#include "export/list_words.h"

/* How many sheets the list takes. */
size_t export_worksheet_pages(const struct export_list *list);

/* One of them, from 0, as the text of an SVG file; lives in the words' arena. */
const char *export_worksheet_page(const struct export_words *w, const struct export_list *list, size_t page);

#endif
