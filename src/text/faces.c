#include "text/faces.h"

#include "text/find.h"

#include <fontconfig/fontconfig.h>
#include <stdlib.h>
#include <string.h>

/* A face of one of these families is taken for each row of `cuts` that it comes near to. Plain forms first. */
static const char *const families[] = {
    "Lato",
    "DejaVu Sans",
    "DejaVu Serif",
    "DejaVu Sans Mono",
    "Liberation Sans",
    "Liberation Serif",
    "Nimbus Sans",
    "Nimbus Roman",
    "URW Gothic",
    "C059",
    "Liberation Sans Narrow",
    "Carlito",
    "Noto Sans",
    "Noto Serif",
    "FreeSans",
    "FreeSerif",
};

static const struct {
    int weight; /* as OpenType counts them */
    bool slanted;
} cuts[] = {
    { 400, false }, { 700, false }, { 400, true }, { 300, false }, { 900, false },
};

enum { WEIGHT_APART = 60 };

static const char *const any_family[] = { "sans-serif", "serif", "monospace" };

struct installed {
    const char *path;
    int index, weight;
    bool slanted;
};

static int integer_of(FcPattern *font, const char *object, int otherwise)
{
    int value = otherwise;
    return FcPatternGetInteger(font, object, 0, &value) == FcResultMatch ? value : otherwise;
}

/* Weights of a font that spans a range are told as a range, which is no integer: taken as regular. */
static struct installed installed_of(struct arena *a, FcPattern *font)
{
    struct installed one = { NULL, integer_of(font, FC_INDEX, 0), 0, integer_of(font, FC_SLANT, 0) != FC_SLANT_ROMAN };
    FcChar8 *file;
    one.weight = FcWeightToOpenType(integer_of(font, FC_WEIGHT, FC_WEIGHT_REGULAR));
    if (FcPatternGetString(font, FC_FILE, 0, &file) == FcResultMatch)
        one.path = base_arena_copy_text(a, (const char *)file);
    return one;
}

static bool is_before(const struct installed *a, const struct installed *b, int weight)
{
    int da = abs(a->weight - weight), db = abs(b->weight - weight);
    if (da != db)
        return da < db;
    int order = strcmp(a->path, b->path);
    return order ? order < 0 : a->index < b->index;
}

/* The face nearest to a cut, so that the order in which fontconfig lists them does not matter. */
static const struct installed *nearest(const struct installed *all, size_t count, int weight, bool slanted)
{
    const struct installed *best = NULL;
    for (size_t i = 0; i < count; i++)
        if (all[i].path && all[i].slanted == slanted && abs(all[i].weight - weight) <= WEIGHT_APART &&
            (!best || is_before(&all[i], best, weight)))
            best = &all[i];
    return best;
}

static size_t family_faces(struct arena *a, FcConfig *config, const char *family, struct installed **out)
{
    size_t count = 0;
    *out = NULL;
    FcPattern *wanted = FcPatternBuild(NULL, FC_FAMILY, FcTypeString, family, FC_OUTLINE, FcTypeBool, FcTrue, FC_WIDTH,
                                       FcTypeInteger, FC_WIDTH_NORMAL, (char *)NULL);
    FcObjectSet *objects = FcObjectSetBuild(FC_FILE, FC_INDEX, FC_WEIGHT, FC_SLANT, (char *)NULL);
    FcFontSet *found = wanted && objects ? FcFontList(config, wanted, objects) : NULL;
    if (found) {
        *out = base_arena_alloc(a, (size_t)found->nfont, sizeof **out);
        for (int i = 0; i < found->nfont; i++)
            (*out)[count++] = installed_of(a, found->fonts[i]);
        FcFontSetDestroy(found);
    }
    if (objects)
        FcObjectSetDestroy(objects);
    if (wanted)
        FcPatternDestroy(wanted);
    return count;
}

static size_t put_family(struct arena *a, FcConfig *config, const char *family, struct text_face_file *out, size_t most)
{
    struct installed *all;
    size_t count = family_faces(a, config, family, &all), used = 0;
    for (size_t i = 0; i < sizeof cuts / sizeof cuts[0] && used < most; i++) {
        const struct installed *face = nearest(all, count, cuts[i].weight, cuts[i].slanted);
        if (face)
            out[used++] = (struct text_face_file){ face->path, face->index, face->slanted };
    }
    return used;
}

static size_t put_any(struct arena *a, struct text_face_file *out, size_t most)
{
    size_t used = 0;
    for (size_t i = 0; i < sizeof any_family / sizeof any_family[0] && used < most; i++)
        used += text_find_family(a, any_family[i], &out[used].path, &out[used].index);
    return used;
}

size_t text_find_faces(struct arena *a, struct text_face_file *out, size_t most)
{
    FcConfig *config = FcInitLoadConfigAndFonts();
    size_t used = 0;
    if (!config)
        return 0;
    for (size_t i = 0; i < sizeof families / sizeof families[0]; i++)
        used += put_family(a, config, families[i], out + used, most - used);
    FcConfigDestroy(config);
    return used ? used : put_any(a, out, most);
}
