#include "scene/look.h"

#include "base/words.h"

#define LEAST_DASH_PX 4.0
#define LEAST_CAP_PX 14.2 /* 2 px / 0.141 */

const struct scene_chalks scene_chalks[SCENE_CHALKS] = {
    { .name = BASE_TR("white"), .main = 0xffffff, .second = 0x86ffb4 },
    { .name = BASE_TR("lemon"), .main = 0xffee4a, .second = 0x86ffb4 },
    { .name = BASE_TR("apricot"), .main = 0xffb259, .second = 0x86ffb4 },
    { .name = BASE_TR("rose"), .main = 0xff9cc2, .second = 0xffee4a },
    { .name = BASE_TR("mint"), .main = 0x86ffb4, .second = 0xffee4a },
    { .name = BASE_TR("sky"), .main = 0x86d4ff, .second = 0xffee4a },
};

static const struct {
    double width_mm;
    double dash_mm[PAINT_DASHES];
    double level;
    bool second;
} line_rows[SCENE_LINES] = {
    [SCENE_CUT] = { SCENE_CUT_WIDTH_MM, { 0 }, 1.0, false },
    [SCENE_SEAM] = { 1.5, { 12, 6, 12, 6 }, 0.8, true },
    [SCENE_FOLD] = { 2.0, { 36, 6, 9, 6 }, 1.0, true },
    [SCENE_GRAIN] = { 1.5, { 0 }, 1.0, true },
    [SCENE_DART] = { 1.5, { 12, 6, 12, 6 }, 0.8, true },
    [SCENE_FOLD_LINE] = { 1.5, { 36, 6, 9, 6 }, 0.8, true },
    [SCENE_LENGTHEN] = { 1.5, { 0 }, 0.8, true },
    [SCENE_MATCH] = { 1.5, { 18, 6, 3, 6 }, 1.0, true },
    [SCENE_NOTCH] = { 1.5, { 0 }, 1.0, false },
    [SCENE_DRILL] = { 1.5, { 0 }, 1.0, true },
    [SCENE_BUTTON] = { 1.5, { 0 }, 1.0, true },
    [SCENE_SQUARE] = { 1.5, { 0 }, 1.0, false },
    [SCENE_RULING] = { 1.0, { 0 }, 0.5, true },
    [SCENE_CROSS] = { 0.0, { 0 }, 1.0, false },
    [SCENE_STICKER] = { 2.0, { 0 }, 1.0, false },
    [SCENE_CLOTH_EDGE] = { 2.0, { 0 }, 1.0, true },
    [SCENE_CUT_LATER] = { 1.5, { 0 }, 0.6, false },
    [SCENE_CUT_BEFORE] = { 1.5, { 30, 15, 30, 15 }, 0.35, false },
    [SCENE_OVERLAP] = { 0.0, { 0 }, 1.0, false },
    [SCENE_FLAW] = { 1.5, { 3, 9, 3, 9 }, 0.6, false },
    [SCENE_TICK] = { 5.0, { 0 }, 0.5, false },
    [SCENE_SPAN_MARK] = { 2.0, { 0 }, 1.0, false },
    [SCENE_LEADER] = { 1.5, { 0 }, 0.5, false },
    [SCENE_RULE] = { 1.5, { 0 }, 0.35, false },
};

static double larger(double a, double b)
{
    return a > b ? a : b;
}

struct paint_pen scene_pen(const struct scene_look *look, enum scene_line line)
{
    double width = line == SCENE_CUT ? look->weight_mm : line_rows[line].width_mm;
    struct paint_pen pen = { .width = larger(width, SCENE_LEAST_STROKE_PX * look->mm_per_px) };
    for (int i = 0; i < PAINT_DASHES && line_rows[line].dash_mm[0] > 0; i++)
        pen.dash[i] = larger(line_rows[line].dash_mm[i], LEAST_DASH_PX * look->mm_per_px);
    return pen;
}

struct paint_ink scene_ink(const struct scene_look *look, enum scene_line line)
{
    const struct scene_chalks *c = look->chalks;
    bool second = line_rows[line].second;
    double least = second ? c->least_second_level : c->least_level;
    return (struct paint_ink){ second ? c->second : c->main, larger(line_rows[line].level * (1 - c->dimmed), least) };
}

struct paint_ink scene_letter_ink(const struct scene_look *look)
{
    return (struct paint_ink){ look->chalks->main, 1.0 };
}

double scene_cut_width(const struct scene_look *look)
{
    return scene_pen(look, SCENE_CUT).width;
}

double scene_cap_height(const struct scene_look *look)
{
    return larger(SCENE_LEAST_CAP_MM, LEAST_CAP_PX * look->mm_per_px);
}
