#include "export/sheet.h"

#include "geometry/rows.h"

#include <math.h>

#define ROW_MM 1500.0      /* a cloth's width; common practice, no source */
#define GAP_MM 20.0        /* between two pieces */
#define MARGIN_MM 10.0     /* about all of them */
#define OUTWARDS_MM 3.0    /* a notch that has no allowance to be snipped */
#define ROUNDED_MM 0.00005 /* half of the last decimal that is written */

double export_mm(double mm)
{
    return fabs(mm) < ROUNDED_MM ? 0 : mm;
}

struct export_sheet export_sheet_of(struct arena *a, const struct draft *draft)
{
    struct geometry_box *boxes = base_arena_alloc(a, draft->piece_count + 1, sizeof *boxes);
    vec2 *shifts = base_arena_alloc(a, draft->piece_count + 1, sizeof *shifts);
    boxes[0] = (struct geometry_box){ { 0, 0 }, { EXPORT_SQUARE_MM, EXPORT_SQUARE_MM } };
    for (size_t i = 0; i < draft->piece_count; i++)
        boxes[i + 1] = geometry_path_box(draft->pieces[i].cut.path);
    struct geometry_box all = geometry_rows(boxes, draft->piece_count + 1, ROW_MM, GAP_MM, shifts);
    vec2 corner = { MARGIN_MM - all.min.x, MARGIN_MM - all.min.y };
    for (size_t i = 0; i <= draft->piece_count; i++)
        shifts[i] = vec2_add(shifts[i], corner);
    return (struct export_sheet){ shifts + 1, shifts[0], all.max.x - all.min.x + 2 * MARGIN_MM,
                                  all.max.y - all.min.y + 2 * MARGIN_MM };
}

struct lines {
    struct arena *a;
    struct export_stroke *items;
    size_t count, cap;
};

static void add_path(struct lines *l, enum export_kind kind, struct geometry_path path)
{
    l->items = base_arena_grow(l->a, l->items, &l->cap, l->count + 1, sizeof *l->items);
    l->items[l->count++] = (struct export_stroke){ kind, path, { 0, 0 } };
}

static void add_side(struct lines *l, enum export_kind kind, vec2 from, vec2 to)
{
    struct geometry_path path = { base_arena_alloc(l->a, 2, sizeof(vec2)), 2, false };
    path.points[0] = from;
    path.points[1] = to;
    add_path(l, kind, path);
}

static void add_ends(struct lines *l, enum export_kind kind, const struct piece_pt ends[2])
{
    add_side(l, kind, (vec2){ ends[0].x, ends[0].y }, (vec2){ ends[1].x, ends[1].y });
}

static struct geometry_path snip_of(struct arena *a, const struct draft_notch *notch,
                                    const struct draft_notch_place *place)
{
    struct geometry_path path = { base_arena_alloc(a, 3, sizeof(vec2)), 0, false };
    double length = notch->depth_mm > 0 ? notch->depth_mm : -OUTWARDS_MM;
    vec2 at = { place->at.x, place->at.y };
    path.points[path.count++] = (vec2){ place->mouth[0].x, place->mouth[0].y };
    path.points[path.count++] = vec2_add(at, vec2_scale(place->inward, length));
    if (notch->shape == PATTERN_V && notch->depth_mm > 0)
        path.points[path.count++] = (vec2){ place->mouth[1].x, place->mouth[1].y };
    return path;
}

static void add_notches(struct lines *l, const struct draft_piece *piece)
{
    for (size_t i = 0; i < piece->notch_count; i++)
        for (size_t p = 0; p < piece->notches[i].place_count; p++) {
            const struct draft_notch_place *place = &piece->notches[i].places[p];
            add_path(l, EXPORT_NOTCH, snip_of(l->a, &piece->notches[i], place));
            l->items[l->count - 1].at = (vec2){ place->at.x, place->at.y };
        }
}

static void add_places(struct lines *l, enum export_kind kind, const struct piece_pt *places, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        struct geometry_path path = { base_arena_alloc(l->a, 1, sizeof(vec2)), 1, false };
        path.points[0] = (vec2){ places[i].x, places[i].y };
        add_path(l, kind, path);
    }
}

static void add_marked(struct lines *l, const struct draft_piece *piece)
{
    static const struct {
        enum pattern_line_kind kind;
        enum export_kind as;
    } rows[] = {
        { PATTERN_LINE_DART, EXPORT_DART },
        { PATTERN_LINE_FOLD, EXPORT_FOLD_LINE },
        { PATTERN_LINE_LENGTHEN, EXPORT_LENGTHEN },
        { PATTERN_LINE_MATCH, EXPORT_MATCH },
        { PATTERN_LINE_PLACEMENT, EXPORT_PLACEMENT },
        { PATTERN_LINE_BUTTONHOLE, EXPORT_BUTTONHOLE },
    };
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++)
        for (size_t i = 0; i < piece->line_count; i++)
            if (piece->lines[i].kind == rows[k].kind)
                add_ends(l, rows[k].as, piece->lines[i].ends);
}

size_t export_strokes(struct arena *a, const struct draft_piece *piece, const struct export_stroke **out)
{
    struct lines l = { .a = a };
    add_path(&l, EXPORT_CUT, piece->cut_line.path);
    add_path(&l, EXPORT_STITCHING, piece->seam_line.path);
    if (piece->has_fold)
        add_ends(&l, EXPORT_FOLD, piece->fold);
    add_ends(&l, EXPORT_GRAIN, piece->grain);
    add_notches(&l, piece);
    add_places(&l, EXPORT_DRILL, piece->drill_marks, piece->drill_mark_count);
    add_marked(&l, piece);
    add_places(&l, EXPORT_BUTTON, piece->buttons, piece->button_count);
    *out = l.items;
    return l.count;
}
