/* The trial strip: a bar in each colour of light, with a cut line and a dashed one, to be looked at on the cloth
 * itself. No reckoning knows a print. */
#include "base/words.h"
#include "scene/parts.h"

#include <math.h>

#define INSET_MM 12.0
#define NUMBER 1.35      /* of the cap height */
#define BAR_HIGH 0.45    /* of a row */
#define BAR_WIDE 0.27    /* of the page, each of bar and lines, where the words leave so much */
#define LEAST_WIDE 3.0   /* of the cap height */
#define AIR 2.0          /* of the cap height, between what stands in a row */
#define LOWER_LETTER 0.5 /* of the cap height, from a row's middle down to its letters' foot */

struct row {
    const struct scene_canvas *c;
    double left, middle, high, wide; /* px; wide: each of bar and lines */
    uint32_t chalk;
};

static double cap_of(const struct row *row)
{
    return scene_page_cap(row->c);
}

static void line(const struct row *row, enum scene_line kind, double left, double up, double wide)
{
    const struct scene_canvas *c = row->c;
    struct paint_pen pen = scene_pen(&c->view->look, kind);
    pen.width *= c->page.px_per_mm;
    for (int i = 0; i < PAINT_DASHES; i++)
        pen.dash[i] *= c->page.px_per_mm;
    struct paint_ink ink = { row->chalk, scene_ink(&c->view->look, kind).level };
    scene_page_line(c, (vec2){ left, up }, (vec2){ left + wide, up }, pen, ink);
}

/* Its name, and what it is used for now. */
static const char *words_of(const struct row *row, const char *name)
{
    const struct scene_chalks *chalks = row->c->view->look.chalks;
    const char *form = row->chalk == chalks->main     ? base_tr("%s: cut lines and words")
                       : row->chalk == chalks->second ? base_tr("%s: all other lines")
                                                      : "%s";
    return base_arena_print(row->c->a, form, base_tr(name));
}

static void draw_row(const struct row *row, int number, const char *name)
{
    const struct scene_canvas *c = row->c;
    double cap = cap_of(row), left = row->left + INSET_MM * c->page.px_per_mm, wide = row->wide;
    double foot = row->middle - LOWER_LETTER * cap;
    struct paint_ink ink = { row->chalk, 1 };
    scene_page_words(c, base_arena_print(c->a, "%d", number), SCENE_START, left, foot, NUMBER * cap, ink);
    left += AIR * NUMBER * cap;
    scene_page_box(c, left, row->middle - BAR_HIGH / 2 * row->high, left + wide, row->middle + BAR_HIGH / 2 * row->high,
                   ink);
    left += wide + AIR * cap;
    line(row, SCENE_CUT, left, row->middle + BAR_HIGH / 4 * row->high, wide);
    line(row, SCENE_SEAM, left, row->middle - BAR_HIGH / 4 * row->high, wide);
    left += wide + AIR * cap;
    scene_page_words(c, words_of(row, name), SCENE_START, left, foot, cap, ink);
}

/* Bars and lines leave the longest words their room. */
static double wide_beside_words(const struct scene_canvas *c, struct scene_room room)
{
    double cap = scene_page_cap(c), words = 0, inset = INSET_MM * c->page.px_per_mm;
    for (int i = 0; i < SCENE_CHALKS; i++) {
        struct row row = { .c = c, .chalk = scene_chalks[i].main };
        words = fmax(words, scene_words_width(c, words_of(&row, scene_chalks[i].name), cap));
    }
    double left = room.right - room.left - 2 * inset - AIR * NUMBER * cap - 2 * AIR * cap - words;
    return fmax(LEAST_WIDE * cap, fmin(BAR_WIDE * c->page.width, left / 2));
}

void scene_draw_trial(const struct scene_canvas *c)
{
    struct scene_room room = scene_room_between_stickers(c);
    double high = (room.far - room.near) / SCENE_CHALKS, wide = wide_beside_words(c, room);
    for (int i = 0; i < SCENE_CHALKS; i++) {
        struct row row = { c, room.left, room.far - (i + 0.5) * high, high, wide, scene_chalks[i].main };
        draw_row(&row, i + 1, scene_chalks[i].name);
    }
}
