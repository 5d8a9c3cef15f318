#include "sheet_reader/pdf_annots.h"

#include <stdbool.h>
#include <string.h>

enum { HIDDEN = 2, NO_VIEW = 32, ANNOTS_MOST = 100000 };

static bool is_one_of(const char *kind, const char *const *kinds, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(kind, kinds[i]) == 0)
            return true;
    return false;
}

/* Neither drawn nor told of: what is not seen, and what only leads elsewhere. */
static bool is_nothing(fz_context *ctx, pdf_obj *annot, const char *kind)
{
    static const char *const kinds[] = { "", "Link", "Popup", "TrapNet" };
    int flags = pdf_to_int(ctx, pdf_dict_get(ctx, annot, PDF_NAME(F)));
    return (flags & (HIDDEN | NO_VIEW)) || is_one_of(kind, kinds, sizeof kinds / sizeof kinds[0]);
}

/* Their appearance is a mark that something is there. */
static bool is_mark(const char *kind)
{
    static const char *const kinds[] = { "Text", "FileAttachment", "Sound", "Movie", "Screen", "RichMedia", "3D" };
    return is_one_of(kind, kinds, sizeof kinds / sizeof kinds[0]);
}

/* The normal appearance, of several that of its state. NULL: none. */
static pdf_obj *appearance_of(fz_context *ctx, pdf_obj *annot)
{
    pdf_obj *normal = pdf_dict_get(ctx, pdf_dict_get(ctx, annot, PDF_NAME(AP)), PDF_NAME(N));
    if (pdf_is_dict(ctx, normal) && !pdf_is_stream(ctx, normal))
        normal = pdf_dict_get(ctx, normal, pdf_dict_get(ctx, annot, PDF_NAME(AS)));
    return pdf_is_stream(ctx, normal) ? normal : NULL;
}

/* Algorithm 8: the box around the appearance, turned by its own matrix, is brought onto the rectangle. False when
 * either has no area. */
static bool place_of(fz_context *ctx, pdf_obj *annot, pdf_obj *form, fz_matrix *out)
{
    fz_rect to = pdf_dict_get_rect(ctx, annot, PDF_NAME(Rect));
    fz_rect from = fz_transform_rect(pdf_dict_get_rect(ctx, form, PDF_NAME(BBox)),
                                     pdf_dict_get_matrix(ctx, form, PDF_NAME(Matrix)));
    float wide = from.x1 - from.x0, high = from.y1 - from.y0;
    if (!(wide > 0) || !(high > 0) || !(to.x1 > to.x0) || !(to.y1 > to.y0))
        return false;
    float across = (to.x1 - to.x0) / wide, up = (to.y1 - to.y0) / high;
    *out = (fz_matrix){ across, 0, 0, up, to.x0 - from.x0 * across, to.y0 - from.y0 * up };
    return true;
}

static bool draw(fz_context *ctx, const struct pdf_walk_with *with, pdf_obj *annot)
{
    pdf_obj *form = appearance_of(ctx, annot);
    fz_matrix at;
    if (!form || !place_of(ctx, annot, form, &at))
        return false;
    pdf_walk_form(ctx, with, form, at, pdf_dict_get(ctx, annot, PDF_NAME(OC)));
    return true;
}

/* One that breaks off counts as not drawn, and the rest goes on. */
static bool try_draw(fz_context *ctx, const struct pdf_walk_with *with, pdf_obj *annot)
{
    bool drawn = false;
    fz_var(drawn);
    fz_try(ctx) drawn = draw(ctx, with, annot);
    fz_catch(ctx)
    {
        if (fz_caught(ctx) == FZ_ERROR_MEMORY)
            fz_rethrow(ctx);
    }
    return drawn;
}

uint32_t pdf_annots_draw(fz_context *ctx, const struct pdf_walk_with *with, pdf_obj *page)
{
    pdf_obj *all = pdf_dict_get(ctx, page, PDF_NAME(Annots));
    int n = pdf_array_len(ctx, all);
    uint32_t left = 0;
    for (int i = 0; i < n && i < ANNOTS_MOST && !with->cookie->abort; i++) {
        pdf_obj *annot = pdf_array_get(ctx, all, i);
        const char *kind = pdf_to_name(ctx, pdf_dict_get(ctx, annot, PDF_NAME(Subtype)));
        if (!is_nothing(ctx, annot, kind))
            left += is_mark(kind) || !try_draw(ctx, with, annot);
    }
    return left;
}
