/* Drafted pieces as a DXF file: ASCII, release 12 (AC1009), one drawing unit 1 mm. Layer numbers after ASTM D6673-10,
 * from memory. */
#ifndef EXPORT_DXF_H
#define EXPORT_DXF_H

#include "export/sheet.h"

/* The file's text, in `a`. Each piece is a block in piece mm, inserted once where it stands on the sheet. Its boundary
 * (layer 1) is closed also along a fold, which layer 6 repeats. A notch is a point on the cut line and its snip. Words
 * are ASCII: other characters are written \U+XXXX, those past U+FFFF as a question mark. */
const char *export_dxf(struct arena *a, const struct draft *draft, const struct export_names *names);

#endif
