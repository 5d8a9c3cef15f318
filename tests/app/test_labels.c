/* Letters on a section of a layout, against the lines drawn there: none, and no dark or lit ground of any, lies on a
 * cut line, from whichever side she sees it. The layout is the demo's, as the program packs it. */
#include "app/app.h"
#include "table/placing.h"

#include <math.h>
#include <string.h>

enum { DOT_CORNERS = 12 };

/* Of letters, or of the ground they stand on: arrow heads are triangles, a leader's dot has 12 corners. */
static bool is_text(const struct paint_items *in, const struct paint_item *item)
{
    size_t corners = in->paths[item->first_path].count;
    if (item->kind != PAINT_FILL)
        return false;
    return item->paths > 1 || corners > DOT_CORNERS || (item->ink.level == 0 && corners == 4) || corners == 6;
}

static bool is_cut_line(const struct paint_items *in, const struct paint_item *item, const struct scene_look *look)
{
    static const enum scene_line kinds[] = { SCENE_CUT, SCENE_CUT_LATER, SCENE_CUT_BEFORE };
    bool is = false;
    for (int i = 0; i < 3; i++) {
        struct paint_pen pen = scene_pen(look, kinds[i]);
        struct paint_ink ink = scene_ink(look, kinds[i]);
        is = is || (item->pen.width == pen.width && item->pen.dash[0] == pen.dash[0] && item->ink.level == ink.level &&
                    item->ink.chalk == ink.chalk);
    }
    return item->kind == PAINT_STROKE && is && in->paths[item->first_path].count > 3;
}

static bool is_in(struct geometry_box box, vec2 p)
{
    return p.x > box.min.x && p.x < box.max.x && p.y > box.min.y && p.y < box.max.y;
}

/* A place each millimetre of the line is asked. */
static bool runs_through(struct geometry_path line, struct geometry_box box)
{
    size_t sides = line.closed ? line.count : line.count - 1;
    for (size_t i = 0; i < sides; i++) {
        vec2 from = line.points[i], to = line.points[(i + 1) % line.count];
        double long_mm = vec2_length(vec2_sub(to, from));
        for (double at = 0; at < long_mm; at++)
            if (is_in(box, vec2_lerp(from, to, at / long_mm)))
                return true;
    }
    return false;
}

static struct geometry_box box_of(const struct paint_items *in, const struct paint_item *item)
{
    struct geometry_box box = geometry_box_empty();
    for (size_t i = 0; i < item->paths; i++)
        box = geometry_box_join(box, geometry_path_box(in->paths[item->first_path + i]));
    return box;
}

/* How many texts were looked at. */
static int check_frame(struct placing *p, enum scene_side side, size_t section)
{
    struct paint_scene scene = app_scene(p->app, p->room.a);
    const struct paint_items *in = &scene.table.in;
    struct scene_look look = { geometry_map_mm_per_px(app_map(p->app)), SCENE_CUT_WIDTH_MM, &scene_chalks[0] };
    int texts = 0;
    for (size_t t = 0; t < in->count; t++) {
        if (!is_text(in, &in->items[t]))
            continue;
        struct geometry_box box = box_of(in, &in->items[t]);
        texts++;
        for (size_t i = 0; i < in->count; i++)
            if (is_cut_line(in, &in->items[i], &look) && runs_through(in->paths[in->items[i].first_path], box))
                fail_msg("section %zu from the %s side: letters at %.0f, %.0f to %.0f, %.0f lie on a cut line",
                         section + 1, scene_side_name(side), box.min.x, box.min.y, box.max.x, box.max.y);
    }
    return texts;
}

static void no_letters_lie_on_a_cut_line(void **state)
{
    struct placing *p = *state;
    struct err_list *errs = base_err_list_create();
    struct text_font *font = text_font_open(errs);
    assert_non_null(font);
    assert_true(placing_open_packed(p, font));
    for (int side = 0; side < SCENE_SIDES; side++) {
        enum scene_side stands = (enum scene_side)side;
        assert_true(app_set_side(p->app, scene_side_name(stands)));
        app_stand(p->app);
        for (size_t s = 0; s < app_section_count(p->app); s++) {
            app_go_to_section(p->app, s);
            assert_true(check_frame(p, stands, s) > 4);
        }
    }
    room_finish(&p->room);
    text_font_close(font);
    base_err_list_destroy(errs);
}

int main(void)
{
    static struct placing p;
    const struct CMUnitTest tests[] = { cmocka_unit_test_prestate(no_letters_lie_on_a_cut_line, &p) };
    return cmocka_run_group_tests_name("app labels", tests, NULL, NULL);
}
