/* The cutting list as comma-separated values (RFC 4180: lines end with CR LF, a field with a comma, a quote or a line
 * end stands in quotes); UTF-8, no byte order mark. */
#ifndef EXPORT_CSV_H
#define EXPORT_CSV_H

#include "export/list_words.h"

/* The whole text with its row of headings, in the words' arena. Lengths are decimals in the words' unit, rounded as the
 * words round; `rounded` says whether one of the row was. Pieces first, then notions. */
const char *export_csv_list(const struct export_words *w, const struct export_list *list);

/* One field as it stands in a row. Control characters but line ends become question marks. */
const char *export_csv_field(struct arena *a, const char *text);

#endif
