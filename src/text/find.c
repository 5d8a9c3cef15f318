#include "text/find.h"

#include <fontconfig/fontconfig.h>

/* First come, first taken; the last, fontconfig's own name for any sans-serif, takes what there is. */
static const struct {
    const char *family;
    bool any_family_does;
} family_rows[] = {
    { "Lato", false },
    { "Carlito", false },
    { "DejaVu Sans", false },
    { "sans-serif", true },
};

static FcPattern *wanted(FcConfig *config, const char *family, enum text_weight weight)
{
    FcPattern *pattern = FcPatternCreate();
    if (!pattern)
        return NULL;
    FcPatternAddString(pattern, FC_FAMILY, (const FcChar8 *)family);
    FcPatternAddInteger(pattern, FC_WEIGHT, FcWeightFromOpenType((int)weight));
    FcPatternAddInteger(pattern, FC_SLANT, FC_SLANT_ROMAN);
    FcPatternAddInteger(pattern, FC_WIDTH, FC_WIDTH_NORMAL);
    FcPatternAddBool(pattern, FC_OUTLINE, FcTrue);
    FcConfigSubstitute(config, pattern, FcMatchPattern);
    FcDefaultSubstitute(pattern);
    return pattern;
}

static FcPattern *best_match(FcConfig *config, const char *family, enum text_weight weight)
{
    FcPattern *pattern = wanted(config, family, weight);
    if (!pattern)
        return NULL;
    FcResult result;
    FcPattern *match = FcFontMatch(config, pattern, &result);
    FcPatternDestroy(pattern);
    return match;
}

/* A font has several family names, such as "Lato" and "Lato Semibold". */
static bool has_family(FcPattern *font, const char *family)
{
    FcChar8 *name;
    for (int i = 0; FcPatternGetString(font, FC_FAMILY, i, &name) == FcResultMatch; i++)
        if (FcStrCmpIgnoreCase(name, (const FcChar8 *)family) == 0)
            return true;
    return false;
}

static bool is_outline(FcPattern *font)
{
    FcBool outline = FcFalse;
    return FcPatternGetBool(font, FC_OUTLINE, 0, &outline) == FcResultMatch && outline;
}

static bool take_file(struct arena *a, FcPattern *font, const char **path, int *face_index)
{
    FcChar8 *file;
    int index = 0;
    if (FcPatternGetString(font, FC_FILE, 0, &file) != FcResultMatch ||
        FcPatternGetInteger(font, FC_INDEX, 0, &index) != FcResultMatch)
        return false;
    *path = base_arena_copy_text(a, (const char *)file);
    *face_index = index;
    return true;
}

static bool find(struct arena *a, FcConfig *config, enum text_weight weight, const char **path, int *face_index)
{
    bool found = false;
    for (size_t i = 0; !found && i < sizeof family_rows / sizeof family_rows[0]; i++) {
        FcPattern *font = best_match(config, family_rows[i].family, weight);
        if (!font)
            continue;
        found = is_outline(font) && (family_rows[i].any_family_does || has_family(font, family_rows[i].family)) &&
                take_file(a, font, path, face_index);
        FcPatternDestroy(font);
    }
    return found;
}

/* A configuration of our own, gone again at the end: FcFini, which would free fontconfig's common one, would pull it
 * from under any other part of the process. Made once for all: it takes some milliseconds. */
bool text_find_files(struct arena *a, const enum text_weight *weights, size_t count, struct text_face_file *out)
{
    FcConfig *config = FcInitLoadConfigAndFonts();
    bool found = config != NULL;
    for (size_t i = 0; found && i < count; i++)
        found = find(a, config, weights[i], &out[i].path, &out[i].index);
    if (config)
        FcConfigDestroy(config);
    return found;
}

bool text_find_file(struct arena *a, enum text_weight weight, const char **path, int *face_index)
{
    struct text_face_file file;
    bool found = text_find_files(a, &weight, 1, &file);
    if (found) {
        *path = file.path;
        *face_index = file.index;
    }
    return found;
}

bool text_find_family(struct arena *a, const char *family, const char **path, int *face_index)
{
    FcConfig *config = FcInitLoadConfigAndFonts();
    FcPattern *font = config ? best_match(config, family, TEXT_REGULAR) : NULL;
    bool found = font && is_outline(font) && take_file(a, font, path, face_index);
    if (font)
        FcPatternDestroy(font);
    if (config)
        FcConfigDestroy(config);
    return found;
}
