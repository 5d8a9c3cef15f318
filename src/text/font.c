#include "text/font.h"

#include "text/face.h"
#include "text/faces.h"
#include "text/find.h"

#include <freetype/ftoutln.h>
#include <freetype/tttables.h>

static const struct err_kind no_font = {
    "text.no_font", ERR_FAULT,
    BASE_TR("no bold sans-serif outline font is installed: install Lato (in Debian, fonts-lato)")
};

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

static bool open_face(struct text_font *font, const char *file, int index)
{
    if (FT_New_Face(font->library, file, index, &font->face) != 0)
        return false;
    font->cap_units = FT_IS_SCALABLE(font->face) ? cap_units_of(font->face) : 0;
    font->family = font->face->family_name;
    return font->cap_units > 0;
}

struct text_font *text_font_open_face(const struct text_face_file *file)
{
    struct arena *a = base_arena_create();
    struct text_font *font = base_arena_alloc(a, 1, sizeof *font);
    font->arena = a;
    if (FT_Init_FreeType(&font->library) == 0 && open_face(font, file->path, file->index))
        return font;
    text_font_close(font);
    return NULL;
}

struct text_font *text_font_open(struct err_list *errs)
{
    struct arena *a = base_arena_create();
    struct text_face_file file;
    struct text_font *font = text_find_file(a, TEXT_HEAVY, &file.path, &file.index) ? text_font_open_face(&file) : NULL;
    base_arena_destroy(a);
    if (!font)
        base_err(errs, &no_font, (struct err_place){ 0 }, ERR_NONE);
    return font;
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

bool text_font_has(const struct text_font *font, unsigned long letter)
{
    return FT_Get_Char_Index(font->face, letter) != 0;
}
