#include "scene/number.h"

#include "scene/parts.h"

#include <math.h>

/* Shares of the page's height, and how much of its width a sentence may take. */
#define NUMBER_CAP 0.42
#define NUMBER_FOOT 0.42
#define LINE_CAP 0.032
#define FIRST_LINE 0.28
#define LINE_STEP 0.085
#define LINE_WIDTH 0.92

static double cap_that_fits(const struct scene_canvas *c, const char *text, double cap, double room)
{
    double width = scene_letters_width(c, text, cap);
    return width > room ? cap * room / width : cap;
}

struct paint_scene scene_number(struct arena *a, const struct scene_number_view *view)
{
    struct paint_scene scene = paint_scene_create(a);
    struct scene_view words = { .font = view->font, .look = { 1, SCENE_CUT_WIDTH_MM, &scene_chalks[0] } };
    struct scene_page page = scene_page_turned(view->width_px, view->height_px, 0, 1);
    struct scene_canvas c = scene_canvas_of(a, &words, page, &scene);
    struct paint_ink ink = scene_letter_ink(&words.look);
    double middle = page.width / 2;
    scene_page_letters(&c, base_arena_print(a, "%d", view->number), SCENE_MIDDLE, middle, NUMBER_FOOT * page.height,
                       NUMBER_CAP * page.height, ink);
    for (int i = 0; i < SCENE_NUMBER_LINES && view->lines[i]; i++) {
        double cap = cap_that_fits(&c, view->lines[i], LINE_CAP * page.height, LINE_WIDTH * page.width);
        scene_page_letters(&c, view->lines[i], SCENE_MIDDLE, middle, (FIRST_LINE - i * LINE_STEP) * page.height, cap,
                           ink);
    }
    return scene;
}
