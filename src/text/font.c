#include "text/font.h"

#include "text/face.h"

#include <fontconfig/fontconfig.h>
#include <freetype/ftoutln.h>
#include <freetype/tttables.h>

static const struct err_kind no_font = {
    "text.no_font", ERR_FAULT, "no bold sans-serif outline font is installed: install Lato (in Debian, fonts-lato)"
};

/* What would serve, best first. Lato's Heavy is what fontconfig calls extra bold, its Black what that calls heavy. */
static const struct want {
    const char *family; /* NULL: any family */
    int weight;
} wants[] = {
    {"Lato",         FC_WEIGHT_EXTRABOLD},
    { "Carlito",     FC_WEIGHT_BOLD     },
    { "DejaVu Sans", FC_WEIGHT_BOLD     },
    { NULL,          FC_WEIGHT_BOLD     },
};

static FcPattern *pattern_for(const struct want *want)
{
    FcPattern *pattern = FcPatternCreate();
    if (want->family)
        FcPatternAddString(pattern, FC_FAMILY, (const FcChar8 *)want->family);
    FcPatternAddString(pattern, FC_FAMILY, (const FcChar8 *)"sans-serif");
    FcPatternAddInteger(pattern, FC_WEIGHT, want->weight);
    FcPatternAddInteger(pattern, FC_SLANT, FC_SLANT_ROMAN);
    FcPatternAddBool(pattern, FC_OUTLINE, FcTrue);
    FcPatternAddBool(pattern, FC_SCALABLE, FcTrue);
    return pattern;
}

static bool has_family(FcPattern *found, const char *family)
{
    FcChar8 *name;
    for (int i = 0; FcPatternGetString(found, FC_FAMILY, i, &name) == FcResultMatch; i++)
        if (FcStrCmpIgnoreCase(name, (const FcChar8 *)family) == 0)
            return true;
    return false;
}

/* fontconfig always answers with something: whether it is what was asked for. Semibold is too thin for light on cloth.
 */
static bool serves(FcPattern *found, const struct want *want)
{
    FcBool outline, scalable;
    double weight;
    return FcPatternGetBool(found, FC_OUTLINE, 0, &outline) == FcResultMatch && outline &&
           FcPatternGetBool(found, FC_SCALABLE, 0, &scalable) == FcResultMatch && scalable &&
           FcPatternGetDouble(found, FC_WEIGHT, 0, &weight) == FcResultMatch && weight >= FC_WEIGHT_BOLD &&
           (!want->family || has_family(found, want->family));
}

/* Height of an H where the font does not say (OS/2 tables before version 2 have no sCapHeight). */
static double measured_cap_units(FT_Face face)
{
    FT_BBox box;
    if (FT_Load_Char(face, 'H', FT_LOAD_NO_SCALE | FT_LOAD_NO_HINTING) != 0)
        return 0;
    FT_Outline_Get_CBox(&face->glyph->outline, &box);
    return (double)box.yMax;
}

static double cap_units_of(FT_Face face)
{
    const TT_OS2 *os2 = FT_Get_Sfnt_Table(face, FT_SFNT_OS2);
    if (os2 && os2->version >= 2 && os2->version != 0xffff && os2->sCapHeight > 0)
        return os2->sCapHeight;
    return measured_cap_units(face);
}

static bool open_face(struct text_font *font, FcPattern *found)
{
    FcChar8 *file, *family;
    int index = 0;
    if (FcPatternGetString(found, FC_FILE, 0, &file) != FcResultMatch ||
        FcPatternGetString(found, FC_FAMILY, 0, &family) != FcResultMatch)
        return false;
    FcPatternGetInteger(found, FC_INDEX, 0, &index);
    if (FT_New_Face(font->library, (const char *)file, index, &font->face) != 0)
        return false;
    font->cap_units = FT_IS_SCALABLE(font->face) ? cap_units_of(font->face) : 0;
    if (font->cap_units > 0) {
        font->family = base_arena_copy_text(font->arena, (const char *)family);
        return true;
    }
    FT_Done_Face(font->face);
    font->face = NULL;
    return false;
}

static bool open_wanted(struct text_font *font, FcConfig *config, const struct want *want)
{
    FcResult result;
    FcPattern *pattern = pattern_for(want);
    FcConfigSubstitute(config, pattern, FcMatchPattern);
    FcDefaultSubstitute(pattern);
    FcPattern *found = FcFontMatch(config, pattern, &result);
    bool ok = found && serves(found, want) && open_face(font, found);
    if (found)
        FcPatternDestroy(found);
    FcPatternDestroy(pattern);
    return ok;
}

/* A configuration of our own, gone again before the font is used: FcFini, which would free fontconfig's common one,
 * would pull it from under any other part of the process. */
static bool find_and_open(struct text_font *font)
{
    FcConfig *config = FcInitLoadConfigAndFonts();
    bool ok = false;
    if (!config)
        return false;
    for (size_t i = 0; i < sizeof wants / sizeof wants[0] && !ok; i++)
        ok = open_wanted(font, config, &wants[i]);
    FcConfigDestroy(config);
    return ok;
}

struct text_font *text_font_open(struct err_list *errs)
{
    struct arena *a = base_arena_create();
    struct text_font *font = base_arena_alloc(a, 1, sizeof *font);
    font->arena = a;
    if (FT_Init_FreeType(&font->library) == 0 && find_and_open(font))
        return font;
    base_err(errs, &no_font, (struct err_place){ 0 }, ERR_NONE);
    text_font_close(font);
    return NULL;
}

void text_font_close(struct text_font *font)
{
    if (!font)
        return;
    if (font->face)
        FT_Done_Face(font->face);
    if (font->library)
        FT_Done_FreeType(font->library);
    base_arena_destroy(font->arena);
}

const char *text_font_family(const struct text_font *font)
{
    return font->family;
}
