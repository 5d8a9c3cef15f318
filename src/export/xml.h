/* What XML 1.0 wants of the texts in a file. */
#ifndef EXPORT_XML_H
#define EXPORT_XML_H

#include "base/arena.h"

/* A text for between tags or between quotes: & < > " escaped; control characters, and U+FFFE and U+FFFF, which XML does
 * not have, as question marks, but line ends as they are. UTF-8, lives in `a`. */
const char *export_xml_text(struct arena *a, const char *text);

#endif
