#include "sheet_reader/pdf_page.h"

#include <math.h>
#include <stdbool.h>

static const fz_rect letter = { 0, 0, 612, 792 };
#define POINT_MM (25.4 / 72)
#define UNIT_MOST 1e5 /* of UserUnit: a page side of 14,400 units would be 500 km */

static bool has_area(fz_rect r)
{
    return isfinite(r.x0) && isfinite(r.y0) && isfinite(r.x1) && isfinite(r.y1) && r.x0 < r.x1 && r.y0 < r.y1;
}

/* A box of the page, its corners sorted by MuPDF; without area when it has none. */
static fz_rect box(fz_context *ctx, pdf_obj *page, pdf_obj *name)
{
    pdf_obj *array = pdf_dict_get_inheritable(ctx, page, name);
    if (pdf_array_len(ctx, array) < 4)
        return fz_empty_rect;
    return pdf_to_rect(ctx, array);
}

static fz_rect visible_box(fz_context *ctx, pdf_obj *page)
{
    fz_rect media = box(ctx, page, PDF_NAME(MediaBox));
    if (!has_area(media))
        media = letter;
    fz_rect seen = fz_intersect_rect(media, box(ctx, page, PDF_NAME(CropBox)));
    return has_area(seen) ? seen : media;
}

static double unit_mm(fz_context *ctx, pdf_obj *page)
{
    pdf_obj *unit = pdf_dict_get(ctx, page, PDF_NAME(UserUnit));
    double times = pdf_is_number(ctx, unit) ? (double)pdf_to_real(ctx, unit) : 1;
    return POINT_MM * (times > 0 && times <= UNIT_MOST ? times : 1);
}

/* Quarter turns clockwise, 0 to 3. */
static int quarters(fz_context *ctx, pdf_obj *page)
{
    int degrees = pdf_to_int(ctx, pdf_dict_get_inheritable(ctx, page, PDF_NAME(Rotate))) % 360;
    return ((degrees + 360 + 45) / 90) % 4;
}

struct pdf_frame pdf_frame_of(fz_context *ctx, pdf_obj *page)
{
    fz_rect b = visible_box(ctx, page);
    double mm = unit_mm(ctx, page), x0 = b.x0, y0 = b.y0, x1 = b.x1, y1 = b.y1;
    double wide = (x1 - x0) * mm, high = (y1 - y0) * mm;
    switch (quarters(ctx, page)) {
    case 1:
        return (struct pdf_frame){ high, wide, { 0, -mm, mm, 0, -y0 * mm, x1 * mm } };
    case 2:
        return (struct pdf_frame){ wide, high, { -mm, 0, 0, -mm, x1 * mm, y1 * mm } };
    case 3:
        return (struct pdf_frame){ high, wide, { 0, mm, -mm, 0, y1 * mm, -x0 * mm } };
    default:
        return (struct pdf_frame){ wide, high, { mm, 0, 0, mm, -x0 * mm, -y0 * mm } };
    }
}
