/* How a layout looks on cloth: photo_place OUT paints the pages of placing and cutting the demo's layout for a
 * projector of the virtual table, and photographs the table from above, on linen and on navy: OUT-lines-linen.png and
 * so on. For people to look at, and for README (OUT-section-linen.png). */
#include "export/png.h"
#include "table/placing.h"

#include <stdio.h>

enum { WIDTH = 1280, HEIGHT = 740 };

#define MM_PER_PX 1.16
#define DOWN_MM 24.0 /* from the middle of what pieces may use to that of the light: the strip */

/* As in photo.c. */
static const struct {
    const char *name, *chalk;
    struct vt_cloth cloth;
} shots[] = {
    { "linen", "lemon", { 0xd8c9a8, 0.22, 0.88 } },
    { "navy", "white", { 0x2b3a5e, 0.9, 3.6 } },
};

static bool shoot(struct placing *p, const char *out, const char *page)
{
    struct arena *a = p->room.a;
    struct geometry_box light = placing_cloth(p)->light;
    vec2 middle = vec2_lerp(light.min, light.max, 0.5);
    struct vt_pt corner = { middle.x - WIDTH * MM_PER_PX / 2, middle.y + HEIGHT * MM_PER_PX / 2 - DOWN_MM };
    bool ok = true;
    for (size_t i = 0; ok && i < sizeof shots / sizeof shots[0]; i++) {
        struct paint_image image = paint_image_create(a, WIDTH, HEIGHT);
        struct vt_photo photo = { image.pixels, WIDTH, HEIGHT, (int)image.stride, corner, MM_PER_PX };
        ok = app_set_chalks(p->app, shots[i].chalk);
        struct paint_image frame = rig_paint(a, p->app);
        struct vt_frame seen = rig_frame(&frame);
        vt_picture(&p->setup, &seen, &shots[i].cloth, &photo);
        ok = ok && export_png(base_arena_print(a, "%s-%s-%s.png", out, page, shots[i].name), &image, p->room.errs);
    }
    return ok;
}

/* All but the last nudge of a page, so that the page is still there. */
static void nudge_but_the_last(struct placing *p)
{
    for (int left = placing_cloth(p)->aim_count; left > 1; left--)
        placing_nudge(p);
}

static bool first_placing(struct placing *p, const char *out)
{
    bool ok = shoot(p, out, "lines");
    p->lies = app_place_straight(placing_cloth(p), 0);
    placing_push(p, (vec2){ 12, 15 }, 1);
    placing_press(p, "f");
    nudge_but_the_last(p);
    ok = ok && shoot(p, out, "edge");
    placing_nudge(p);
    placing_type(p, "665");
    placing_press(p, "enter");
    placing_type(p, "66");
    ok = ok && shoot(p, out, "grain");
    placing_press(p, "esc");
    return ok;
}

static bool sections(struct placing *p, const char *out)
{
    placing_lay(p);
    bool ok = shoot(p, out, "begin");
    for (int i = 0; i < 3; i++)
        placing_do_step(p);
    ok = ok && shoot(p, out, "section");
    placing_press(p, "w");
    ok = ok && shoot(p, out, "moved");
    placing_press(p, "esc");
    placing_do_section(p);
    ok = ok && shoot(p, out, "slide");
    placing_slide(p, (vec2){ 4, -3 }, 0.4);
    placing_nudge_all(p);
    ok = ok && shoot(p, out, "told");
    placing_do_step(p);
    return ok && shoot(p, out, "second");
}

/* A scrap, its two corners nudged onto. */
static bool scrap(const char *out, struct text_font *font)
{
    static struct placing p;
    bool ok = placing_open_scrap(&p, font) && shoot(&p, out, "scrap");
    p.lies = app_place_straight(placing_cloth(&p), 0);
    placing_push(&p, (vec2){ 15, 20 }, 2);
    placing_press(&p, "f");
    placing_nudge(&p);
    ok = ok && shoot(&p, out, "corners");
    placing_nudge(&p);
    ok = ok && shoot(&p, out, "weave");
    placing_press(&p, "enter");
    ok = ok && shoot(&p, out, "scrap-cut");
    room_finish(&p.room);
    return ok;
}

int main(int argc, char **argv)
{
    struct err_list *errs = base_err_list_create();
    struct text_font *font = text_font_open(errs);
    static struct placing p;
    bool ok = argc == 2 && font && placing_open_packed(&p, font) && first_placing(&p, argv[1]) && sections(&p, argv[1]) &&
              scrap(argv[1], font);
    if (!ok) {
        room_print_told(&p.room);
        fputs("photo_place: no picture; usage: photo_place OUT\n", stderr);
    }
    text_font_close(font);
    base_err_list_destroy(errs);
    room_finish(&p.room);
    return ok ? 0 : 1;
}
