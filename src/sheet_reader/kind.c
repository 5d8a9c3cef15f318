#include "sheet_reader/kind.h"

#include "sheet_reader/pdf.h"
#include "sheet_reader/picture.h"
#include "sheet_reader/svg.h"

#include <string.h>

/* How far in a PDF's first line may stand: what readers have long allowed (ISO 32000-1, annex H, note 13). */
enum { PDF_WITHIN = 1024, SVG_WITHIN = 65536 };

static bool holds(const char *bytes, size_t count, size_t within, const char *word)
{
    size_t length = strlen(word);
    if (count > within + length)
        count = within + length;
    for (size_t i = 0; i + length <= count; i++)
        if (bytes[i] == word[0] && memcmp(bytes + i, word, length) == 0)
            return true;
    return false;
}

/* UTF-16, which XML allows, marked as such. */
static bool is_wide(const char *bytes, size_t count)
{
    return count >= 4 && (memcmp(bytes, "\xff\xfe", 2) == 0 || memcmp(bytes, "\xfe\xff", 2) == 0);
}

static bool begins(const char *bytes, size_t count, const char *mark, size_t length)
{
    return count >= length && memcmp(bytes, mark, length) == 0;
}

/* PNG (its first 8 bytes) or JPEG (a start of image, then any marker). */
static bool is_picture(const char *bytes, size_t count)
{
    return begins(bytes, count, "\x89PNG\r\n\x1a\n", 8) || begins(bytes, count, "\xff\xd8\xff", 3);
}

enum kind kind_of(const char *bytes, size_t count)
{
    if (is_picture(bytes, count))
        return KIND_PICTURE;
    if (holds(bytes, count, PDF_WITHIN, "%PDF-"))
        return KIND_PDF;
    if (holds(bytes, count, SVG_WITHIN, "<svg") || holds(bytes, count, SVG_WITHIN, ":svg") || is_wide(bytes, count))
        return KIND_SVG;
    return KIND_NONE;
}

enum sheet_exit kind_read(struct collect *c, const char *bytes, size_t count, const struct kind_orders *orders)
{
    switch (kind_of(bytes, count)) {
    case KIND_PDF:
        return pdf_read(c, bytes, count, orders->password);
    case KIND_SVG:
        return svg_read(c, bytes, count);
    case KIND_PICTURE:
        return picture_read(c, bytes, count, orders->dpi);
    case KIND_NONE:
        break;
    }
    return SHEET_EXIT_NOT_A_SHEET;
}
