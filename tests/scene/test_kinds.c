/* Kinds of line and mark are told apart without colour. Each is drawn by the program, all in one place, and painted;
 * then only what is lit counts, whatever its colour and however dim. A pixel is a millimetre. */
#include "paint/frame.h"
#include "scene/contrast.h"
#include "scene/crosses.h"
#include "scene/layout.h"
#include "scene/parts.h"
#include "support/cmocka_all.h"

#include <string.h>

enum { WIDE = 800, HIGH = 600, FROM = 200, TO = 600, LEVEL = 300 };

static const struct geometry_map plain = { WIDE, HIGH, { 500, 0, 400, 0, -500, 300, 0, 0, 0, 0, 0 } };

/* What is lit of a scene. */
struct mask {
    bool lit[WIDE * HIGH];
    int count;
};

static void paint_mask(struct arena *a, const struct paint_scene *scene, struct mask *out)
{
    struct paint_image image = paint_image_create(a, WIDE, HIGH);
    paint_frame(a, scene, &plain, &image);
    out->count = 0;
    for (int y = 0; y < HIGH; y++)
        for (int x = 0; x < WIDE; x++) {
            bool lit = image.pixels[(size_t)y * image.stride + (size_t)x] != 0;
            out->lit[y * WIDE + x] = lit;
            out->count += lit;
        }
}

/* The share of what either lights that only one of them does. */
static double apart(const struct mask *a, const struct mask *b)
{
    int only = 0, either = 0;
    for (int i = 0; i < WIDE * HIGH; i++) {
        only += a->lit[i] != b->lit[i];
        either += a->lit[i] || b->lit[i];
    }
    return (double)only / either;
}

/* Its middle in the middle of the picture, so that only its form counts. */
static void centre(struct mask *m)
{
    struct mask out = { .count = m->count };
    int left = WIDE, right = 0, top = HIGH, bottom = 0;
    for (int i = 0; i < WIDE * HIGH; i++)
        if (m->lit[i]) {
            int x = i % WIDE, y = i / WIDE;
            left = x < left ? x : left;
            right = x > right ? x : right;
            top = y < top ? y : top;
            bottom = y > bottom ? y : bottom;
        }
    int dx = WIDE / 2 - (left + right) / 2, dy = HIGH / 2 - (top + bottom) / 2;
    for (int y = top; y <= bottom; y++)
        for (int x = left; x <= right; x++)
            out.lit[(y + dy) * WIDE + x + dx] = m->lit[y * WIDE + x];
    *m = out;
}

/* --- how each is drawn ------------------------------------------------------------------------------------------- */

static const struct scene_chalks *chalks = &scene_chalks[0];

static struct paint_scene laid(struct arena *a, const struct scene_layout *layout)
{
    struct scene_view view = { .map = &plain, .look = { 1, 3, chalks }, .layout = layout, .sticker_in_hand = -1 };
    return scene_make(a, &view);
}

static struct paint_scene stroke(struct arena *a, enum scene_line kind)
{
    struct scene_look look = { 1, 3, chalks };
    struct scene_layout nothing = { .laid_count = 0 };
    struct paint_scene scene = laid(a, &nothing);
    struct table_path path = { { base_arena_alloc(a, 2, sizeof(vec2)), 2, false } };
    path.path.points[0] = (vec2){ FROM, LEVEL };
    path.path.points[1] = (vec2){ TO, LEVEL };
    paint_table_stroke(&scene.table, path, scene_pen(&look, kind), scene_ink(&look, kind));
    return scene;
}

static struct paint_scene line(struct arena *a, enum scene_layout_line_kind kind, bool one_way)
{
    struct scene_layout_line one = { kind, { { FROM, LEVEL }, { TO, LEVEL } }, NULL };
    struct scene_layout layout = { .lines = &one, .line_count = 1, .one_way = one_way };
    return laid(a, &layout);
}

static struct paint_scene span_mark(struct arena *a)
{
    struct scene_layout_mark mark = { SCENE_MARK_CHALK, "A", { WIDE / 2.0, LEVEL }, { 1, 0 }, false };
    struct scene_layout layout = { .marks = &mark, .mark_count = 1 };
    return laid(a, &layout);
}

static vec2 corners[] = { { 0, 0 }, { 200, 0 }, { 200, 150 }, { 0, 150 } };
static vec2 inner[] = { { 10, 10 }, { 190, 10 }, { 190, 140 }, { 10, 140 } };

static struct draft_piece pocket(void)
{
    return (struct draft_piece){ .name = "pocket",
                                 .label = "Pocket",
                                 .seam = { { inner, 4, true } },
                                 .cut = { { corners, 4, true } },
                                 .seam_line = { { inner, 4, true } },
                                 .cut_line = { { corners, 4, true } },
                                 .grain = { { 100, 30 }, { 100, 120 } },
                                 .label_at = { 100, 75 } };
}

static struct paint_scene piece(struct arena *a, struct draft_piece drafted)
{
    struct scene_laid one = { .piece = { .piece = &drafted },
                              .to_table = geometry_mover_of((struct geometry_motion){ .shift = { 300, 200 } }),
                              .state = SCENE_TO_CUT };
    struct scene_layout layout = { .laid = &one, .laid_count = 1 };
    return laid(a, &layout);
}

static struct paint_scene two_pieces(struct arena *a, bool over)
{
    static struct draft_piece drafted;
    drafted = pocket();
    struct scene_laid both[2];
    for (int i = 0; i < 2; i++)
        both[i] = (struct scene_laid){ .piece = { .piece = &drafted },
                                       .to_table = geometry_mover_of(
                                           (struct geometry_motion){ .shift = { 250 + 120.0 * i, 200 + 60.0 * i } }),
                                       .state = SCENE_TO_COME };
    struct scene_layout_overlap overlap = { { 0, 1 }, "" };
    struct scene_layout layout = { .laid = both, .laid_count = 2, .overlaps = &overlap, .overlap_count = over };
    return laid(a, &layout);
}

static struct paint_scene cross(struct arena *a, enum scene_cross_state state, bool nudged)
{
    struct scene_cross one = {
        .number = 1, .at = { WIDE / 2.0, LEVEL }, .state = state, .from = { WIDE / 2.0 - 80, LEVEL }, .nudged = nudged
    };
    struct scene_cross_view view = {
        .width_px = WIDE, .height_px = HIGH, .crosses = &one, .count = 1, .sticker_in_hand = -1
    };
    return scene_crosses(a, &view);
}

static struct paint_scene sticker(struct arena *a)
{
    struct px_pt at = { WIDE / 2.0, LEVEL };
    struct scene_cross_view view = {
        .width_px = WIDE, .height_px = HIGH, .stickers = &at, .sticker_count = 1, .sticker_in_hand = -1
    };
    return scene_crosses(a, &view);
}

/* Measured within a small part, without any doubt there. */
static struct paint_scene not_measured(struct arena *a)
{
    static struct px_pt hull[] = { { 390, 290 }, { 410, 290 }, { 410, 310 }, { 390, 310 } };
    struct calibration_doubt doubt = { .hull = hull, .hull_count = 4 };
    struct scene_cross_view view = {
        .width_px = WIDE, .height_px = HIGH, .sticker_in_hand = -1, .map = &plain, .doubt = &doubt
    };
    return scene_crosses(a, &view);
}

/* --- the kinds --------------------------------------------------------------------------------------------------- */

enum kind {
    CUT,
    TO_COME,
    SEAM,
    TICKED,
    FOLD,
    GRAIN,
    GRAIN_WITH_NAP,
    MATCH,
    CLOTH_EDGE,
    NOTCH,
    DRILL,
    BUTTON,
    CROSS,
    CROSS_NUDGED,
    CROSS_READ,
    STICKER,
    SPAN_MARK,
    OVERLAP,
    NOT_MEASURED,
    KINDS
};

/* A kind, and what is drawn beside it, which does not count. */
static struct paint_scene scene_of(struct arena *a, enum kind kind)
{
    static struct piece_pt middle = { 100, 75 };
    struct draft_piece p = pocket();
    struct draft_notch notch = { .places = { { .at = { 60, 0 }, .on_seam = { 60, 10 }, .inward = { 0, 1 } } },
                                 .place_count = 1,
                                 .depth_mm = 3 };
    switch (kind) {
    case CUT:
        return stroke(a, SCENE_CUT);
    case TO_COME:
        return stroke(a, SCENE_CUT_LATER);
    case SEAM:
        return stroke(a, SCENE_SEAM);
    case TICKED:
        return stroke(a, SCENE_CUT_BEFORE);
    case FOLD:
        return line(a, SCENE_EDGE_FOLD, false);
    case GRAIN:
        return line(a, SCENE_EDGE_GRAIN, false);
    case GRAIN_WITH_NAP:
        return line(a, SCENE_EDGE_GRAIN, true);
    case MATCH:
        return line(a, SCENE_EDGE_PART, false);
    case CLOTH_EDGE:
        return line(a, SCENE_EDGE_TORN, false);
    case NOTCH:
        p.notches = &notch;
        p.notch_count = 1;
        return piece(a, p);
    case DRILL:
        p.drill_marks = &middle;
        p.drill_mark_count = 1;
        return piece(a, p);
    case BUTTON:
        p.buttons = &middle;
        p.button_count = 1;
        return piece(a, p);
    case CROSS:
        return cross(a, SCENE_CROSS_SHOWN, false);
    case CROSS_NUDGED:
        return cross(a, SCENE_CROSS_SHOWN, true);
    case CROSS_READ:
        return cross(a, SCENE_CROSS_READ, false);
    case STICKER:
        return sticker(a);
    case SPAN_MARK:
        return span_mark(a);
    case OVERLAP:
        return two_pieces(a, true);
    case NOT_MEASURED:
        return not_measured(a);
    case KINDS:
        break;
    }
    return paint_scene_create(a);
}

static struct paint_scene beside_of(struct arena *a, enum kind kind)
{
    struct scene_layout nothing = { .laid_count = 0 };
    struct scene_cross_view none = { .width_px = WIDE, .height_px = HIGH, .sticker_in_hand = -1 };
    if (kind == NOTCH || kind == DRILL || kind == BUTTON)
        return piece(a, pocket());
    if (kind == OVERLAP)
        return two_pieces(a, false);
    if (kind >= CROSS && kind <= STICKER)
        return scene_crosses(a, &none);
    return kind == NOT_MEASURED ? paint_scene_create(a) : laid(a, &nothing);
}

static void draw(struct arena *a, enum kind kind, struct mask *out)
{
    static struct mask beside;
    struct paint_scene scene = scene_of(a, kind);
    paint_mask(a, &scene, out);
    scene = beside_of(a, kind);
    paint_mask(a, &scene, &beside);
    out->count = 0;
    for (int i = 0; i < WIDE * HIGH; i++) {
        out->lit[i] = out->lit[i] && !beside.lit[i];
        out->count += out->lit[i];
    }
    centre(out);
}

/* --- tests ------------------------------------------------------------------------------------------------------- */

static const char *const names[KINDS] = { "cut line",      "piece to come", "seam line",  "ticked piece", "fold",
                                          "grain",         "grain, nap",    "match line", "cloth edge",   "notch",
                                          "drill mark",    "button",        "cross",      "cross nudged", "cross read",
                                          "check sticker", "section mark",  "overlap",    "not measured" };

/* A twelfth is what the heads of an arrow 400 mm long are of its light (by hand: two of 14 mm by 10 mm, halved, beside
 * 400 mm by 1.5 mm and the pixels that fade about it); own choice of what an eye needs at least. */
#define LEAST_APART (1.0 / 12)

static void any_two_differ_in_form(void **state)
{
    static struct mask masks[KINDS];
    (void)state;
    struct arena *a = base_arena_create();
    for (enum kind kind = 0; kind < KINDS; kind++) {
        draw(a, kind, &masks[kind]);
        assert_true(masks[kind].count > 20);
    }
    for (int i = 0; i < KINDS; i++)
        for (int j = i + 1; j < KINDS; j++)
            if (apart(&masks[i], &masks[j]) < LEAST_APART)
                fail_msg("%s and %s: only %.3f of their light differs", names[i], names[j],
                         apart(&masks[i], &masks[j]));
    base_arena_destroy(a);
}

/* What the test above goes by is blind to colour and level. */
static void colour_alone_is_no_difference(void **state)
{
    static struct mask one, other;
    (void)state;
    struct arena *a = base_arena_create();
    draw(a, SEAM, &one);
    chalks = &scene_chalks[5];
    draw(a, SEAM, &other);
    chalks = &scene_chalks[0];
    assert_true(one.count > 0);
    assert_near(apart(&one, &other), 0, 0);
    base_arena_destroy(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(any_two_differ_in_form),
        cmocka_unit_test(colour_alone_is_no_difference),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
