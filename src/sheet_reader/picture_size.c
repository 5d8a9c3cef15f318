#include "sheet_reader/picture_size.h"

#include "sheet/form.h"

#include <string.h>

#define INCH_M 0.0254
#define INCH_CM 2.54

/* Bytes with an end; what is beyond it reads as 0. */
struct bytes {
    const unsigned char *at;
    size_t count;
    bool little; /* the lowest byte first */
};

static uint32_t number(const struct bytes *b, size_t from, size_t size)
{
    uint32_t n = 0;
    for (size_t i = 0; i < size; i++) {
        size_t at = from + (b->little ? size - 1 - i : i);
        n = n << 8 | (at < b->count ? b->at[at] : 0);
    }
    return n;
}

static struct bytes within(const struct bytes *b, size_t from, size_t count)
{
    struct bytes part = { b->at, 0, b->little };
    if (from <= b->count) {
        part.at = b->at + from;
        part.count = count < b->count - from ? count : b->count - from;
    }
    return part;
}

static bool is_at(const struct bytes *b, size_t from, const char *text, size_t length)
{
    return from <= b->count && length <= b->count - from && memcmp(b->at + from, text, length) == 0;
}

/* Chunks (PNG, third edition, 5.3): length, name, data, check; pHYs comes before the first IDAT (11.3.4.3). */
static bool of_png(const struct bytes *b, struct picture_dpi *out)
{
    for (size_t at = 8; at + 12 <= b->count && !is_at(b, at + 4, "IDAT", 4); at += (size_t)number(b, at, 4) + 12)
        if (is_at(b, at + 4, "pHYs", 4) && number(b, at, 4) == 9 && number(b, at + 16, 1) == 1) {
            *out = (struct picture_dpi){ number(b, at + 8, 4) * INCH_M, number(b, at + 12, 4) * INCH_M };
            return true;
        }
    return false;
}

/* JFIF 1.02, page 5: units 1 dots per inch, 2 per cm, 0 only how x stands to y. */
static bool of_jfif(const struct bytes *b, struct picture_dpi *out)
{
    uint32_t unit = number(b, 7, 1);
    double inch = unit == 1 ? 1 : INCH_CM;
    *out = (struct picture_dpi){ number(b, 8, 2) * inch, number(b, 10, 2) * inch };
    return is_at(b, 0, "JFIF", 5) && (unit == 1 || unit == 2);
}

/* The entry of a directory of TIFF 6.0 (page 14): tag, type, count, value or where it is. 0: not there. */
static size_t entry_of(const struct bytes *b, size_t directory, uint32_t tag)
{
    uint32_t rows = number(b, directory, 2);
    for (uint32_t i = 0; i < rows && directory + 14 + (size_t)12 * i <= b->count; i++)
        if (number(b, directory + 2 + (size_t)12 * i, 2) == tag)
            return directory + 2 + (size_t)12 * i;
    return 0;
}

static double rational_of(const struct bytes *b, size_t directory, uint32_t tag)
{
    size_t entry = entry_of(b, directory, tag), at = entry ? number(b, entry + 8, 4) : 0;
    uint32_t below = entry ? number(b, at + 4, 4) : 0;
    return below ? number(b, at, 4) / (double)below : 0;
}

/* Exif 2.32, 4.6.4 A: XResolution 282, YResolution 283, ResolutionUnit 296: 2 inch (also when it is not there), 3 cm.
 */
static bool of_exif(const struct bytes *segment, struct picture_dpi *out)
{
    struct bytes b = within(segment, 6, segment->count);
    b.little = is_at(&b, 0, "II", 2);
    size_t directory = number(&b, 4, 4), unit = entry_of(&b, directory, 296);
    double inch = unit && number(&b, unit + 8, 2) == 3 ? INCH_CM : 1;
    *out = (struct picture_dpi){ rational_of(&b, directory, 282) * inch, rational_of(&b, directory, 283) * inch };
    return is_at(segment, 0, "Exif\0", 6) && directory && out->x > 0 && out->y > 0;
}

enum { APP0 = 0xe0, APP1 = 0xe1, FRAME = 0xc0, FRAME_LAST = 0xcf, SCAN = 0xda };

/* The next marked segment (ITU T.81, B.1.1.4) from *at on, up to the first scan; 0 at its end. */
static unsigned next_segment(const struct bytes *b, size_t *at, struct bytes *segment)
{
    while (*at + 4 <= b->count && b->at[*at] == 0xff && b->at[*at + 1] == 0xff)
        ++*at; /* fill bytes */
    if (*at + 4 > b->count || b->at[*at] != 0xff || b->at[*at + 1] == SCAN)
        return 0;
    unsigned marker = b->at[*at + 1];
    size_t length = number(b, *at + 2, 2);
    *segment = within(b, *at + 4, length < 2 ? 0 : length - 2);
    *at += length + 2;
    return marker;
}

/* What JFIF says counts before what Exif says. */
static bool of_jpeg(const struct bytes *b, struct picture_dpi *out)
{
    struct picture_dpi found;
    struct bytes segment;
    bool by_exif = false;
    size_t at = 2;
    for (unsigned marker; (marker = next_segment(b, &at, &segment));) {
        if (marker == APP0 && of_jfif(&segment, &found)) {
            *out = found;
            return true;
        }
        if (marker == APP1 && !by_exif && of_exif(&segment, &found)) {
            by_exif = true;
            *out = found;
        }
    }
    return by_exif;
}

/* A frame begins with precision, lines, samples a line (B.2.2); three of the markers between are none. */
static bool dots_of_jpeg(const struct bytes *b, uint32_t *width, uint32_t *height)
{
    struct bytes segment;
    size_t at = 2;
    for (unsigned marker; (marker = next_segment(b, &at, &segment));)
        if (marker >= FRAME && marker <= FRAME_LAST && marker != 0xc4 && marker != 0xc8 && marker != 0xcc) {
            *width = number(&segment, 3, 2);
            *height = number(&segment, 1, 2);
            return true;
        }
    return false;
}

static bool is_png(const struct bytes *b)
{
    return is_at(b, 0, "\x89PNG", 4);
}

/* A PNG's first chunk, IHDR, begins with both (11.2.1). */
bool picture_dots(const char *bytes, size_t count, uint32_t *width, uint32_t *height)
{
    struct bytes b = { (const unsigned char *)bytes, count, false };
    *width = number(&b, 16, 4);
    *height = number(&b, 20, 4);
    bool told = is_png(&b) || (is_at(&b, 0, "\xff\xd8", 2) && dots_of_jpeg(&b, width, height));
    return told && *width > 0 && *height > 0 && *width <= SHEET_IMAGE_SIDE_MOST && *height <= SHEET_IMAGE_SIDE_MOST;
}

static bool is_sound(double dpi)
{
    return dpi >= SHEET_DPI_LEAST && dpi <= SHEET_DPI_MOST;
}

bool picture_size(const char *bytes, size_t count, struct picture_dpi *out)
{
    struct bytes b = { (const unsigned char *)bytes, count, false };
    bool told = is_png(&b) ? of_png(&b, out) : of_jpeg(&b, out);
    return told && is_sound(out->x) && is_sound(out->y);
}
