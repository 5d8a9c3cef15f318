/* The letters that MuPDF brings along, fewer of them: the fourteen fonts that every reader of PDF has to know, and no
 * others. The names are MuPDF's own; because they are found here first, its file with a hundred more fonts (40 MB) is
 * not linked. Other fonts that a file names without bringing them along are replaced by the nearest of the fourteen. */
#include "sheet_reader/mupdf.h"

#include <string.h>

#define FONT(symbol)                                                                                                   \
    extern const unsigned char _binary_resources_fonts_urw_##symbol##_cff_start;                                       \
    extern const unsigned char _binary_resources_fonts_urw_##symbol##_cff_end
FONT(NimbusMonoPS_Regular);
FONT(NimbusMonoPS_Bold);
FONT(NimbusMonoPS_Italic);
FONT(NimbusMonoPS_BoldItalic);
FONT(NimbusSans_Regular);
FONT(NimbusSans_Bold);
FONT(NimbusSans_Italic);
FONT(NimbusSans_BoldItalic);
FONT(NimbusRoman_Regular);
FONT(NimbusRoman_Bold);
FONT(NimbusRoman_Italic);
FONT(NimbusRoman_BoldItalic);
FONT(StandardSymbolsPS);
FONT(Dingbats);

struct font_row {
    const char *family; /* as fz_lookup_builtin_font is asked; NULL: by its full name only */
    int bold, italic;
    const char *name;
    const unsigned char *start, *end;
};

#define AT(symbol) &_binary_resources_fonts_urw_##symbol##_cff_start, &_binary_resources_fonts_urw_##symbol##_cff_end
static const struct font_row font_rows[] = {
    { "Courier", 0, 0, "Courier", AT(NimbusMonoPS_Regular) },
    { "Courier", 1, 0, "Courier-Bold", AT(NimbusMonoPS_Bold) },
    { "Courier", 0, 1, "Courier-Oblique", AT(NimbusMonoPS_Italic) },
    { "Courier", 1, 1, "Courier-BoldOblique", AT(NimbusMonoPS_BoldItalic) },
    { "Helvetica", 0, 0, "Helvetica", AT(NimbusSans_Regular) },
    { "Helvetica", 1, 0, "Helvetica-Bold", AT(NimbusSans_Bold) },
    { "Helvetica", 0, 1, "Helvetica-Oblique", AT(NimbusSans_Italic) },
    { "Helvetica", 1, 1, "Helvetica-BoldOblique", AT(NimbusSans_BoldItalic) },
    { "Times", 0, 0, "Times-Roman", AT(NimbusRoman_Regular) },
    { "Times", 1, 0, "Times-Bold", AT(NimbusRoman_Bold) },
    { "Times", 0, 1, "Times-Italic", AT(NimbusRoman_Italic) },
    { "Times", 1, 1, "Times-BoldItalic", AT(NimbusRoman_BoldItalic) },
    { NULL, 0, 0, "Symbol", AT(StandardSymbolsPS) },
    { NULL, 0, 0, "ZapfDingbats", AT(Dingbats) },
};
enum { FONT_ROWS = sizeof font_rows / sizeof *font_rows };

static const unsigned char *none(int *len)
{
    *len = 0;
    return NULL;
}

static const unsigned char *font_of(const struct font_row *row, int *len)
{
    *len = (int)(row->end - row->start);
    return row->start;
}

const unsigned char *fz_lookup_base14_font(fz_context *ctx, const char *name, int *len)
{
    (void)ctx;
    for (size_t i = 0; i < FONT_ROWS; i++)
        if (strcmp(font_rows[i].name, name) == 0)
            return font_of(&font_rows[i], len);
    return none(len);
}

const unsigned char *fz_lookup_builtin_font(fz_context *ctx, const char *name, int bold, int italic, int *len)
{
    for (size_t i = 0; i < FONT_ROWS; i++) {
        const struct font_row *row = &font_rows[i];
        if (row->family && strcmp(row->family, name) == 0 && row->bold == !!bold && row->italic == !!italic)
            return font_of(row, len);
    }
    return fz_lookup_base14_font(ctx, name, len);
}

const unsigned char *fz_lookup_cjk_font(fz_context *ctx, int ordering, int *len, int *index)
{
    (void)ctx, (void)ordering;
    if (index)
        *index = 0;
    return none(len);
}

const unsigned char *fz_lookup_cjk_font_by_language(fz_context *ctx, const char *lang, int *len, int *subfont)
{
    (void)ctx, (void)lang;
    if (subfont)
        *subfont = 0;
    return none(len);
}

int fz_lookup_cjk_ordering_by_language(const char *name)
{
    (void)name;
    return FZ_ADOBE_JAPAN;
}

const unsigned char *fz_lookup_noto_font(fz_context *ctx, int script, int lang, int *len, int *subfont)
{
    (void)ctx, (void)script, (void)lang;
    if (subfont)
        *subfont = 0;
    return none(len);
}

const unsigned char *fz_lookup_noto_math_font(fz_context *ctx, int *len)
{
    (void)ctx;
    return none(len);
}

const unsigned char *fz_lookup_noto_music_font(fz_context *ctx, int *len)
{
    (void)ctx;
    return none(len);
}

const unsigned char *fz_lookup_noto_symbol1_font(fz_context *ctx, int *len)
{
    (void)ctx;
    return none(len);
}

const unsigned char *fz_lookup_noto_symbol2_font(fz_context *ctx, int *len)
{
    (void)ctx;
    return none(len);
}

const unsigned char *fz_lookup_noto_emoji_font(fz_context *ctx, int *len)
{
    (void)ctx;
    return none(len);
}
