#include "table/placing.h"

#include "app/memory.h"
#include "app/place.h"
#include "input/key.h"
#include "table/bump.h"

#include <math.h>
#include <string.h>

enum { RING_CORNERS = 24 };

#define GAP_MM 60.0
#define FROM_END_MM 20.0

/* As in photo.c: 1.45 m wide. */
static const struct vt_setup over_the_table = { .name = "placing",
                                                .width_px = 1920,
                                                .height_px = 1080,
                                                .throw_ratio = 1.2,
                                                .height_mm = 1740,
                                                .tilt_deg = 4,
                                                .turn_deg = 0.4,
                                                .foot_x_mm = 450,
                                                .foot_y_mm = 100,
                                                .shift = 0.8 };

/* One after the other along the cloth, at its fold. */
static struct lay in_a_row(struct arena *a, const struct lay_task *task)
{
    struct lay_place *places = base_arena_alloc(a, task->item_count, sizeof *places);
    double x = FROM_END_MM;
    for (size_t i = 0; i < task->item_count; i++) {
        places[i] = (struct lay_place){ .is_laid = true, .motion = { .turn_deg = 90 } };
        struct geometry_box box = geometry_path_box(lay_outline(a, task, i, &places[i]).path);
        places[i].motion.shift = (vec2){ x - box.min.x, -box.min.y };
        x += box.max.x - box.min.x + GAP_MM;
    }
    return lay_of(a, task, places);
}

static struct lay packed(struct placing *p, const struct lay_task *task)
{
    enum { ROUNDS = 60 };
    struct lay_search *search = lay_search_begin(task, NULL, 1, NULL, NULL, p->room.errs);
    for (int i = 0; i < ROUNDS && lay_search_can_gain(search); i++)
        lay_search_round(search, NULL);
    struct lay lay = lay_search_best(p->room.a, search);
    lay_search_end(search);
    return lay;
}

const vec2 placing_scrap[PLACING_SCRAP_CORNERS] = { { 0, 0 }, { 1150, 40 }, { 1050, 600 }, { 700, 560 }, { 60, 640 } };

static struct cloth cloth_of(struct placing *p)
{
    static const double widths[] = { [PLACING_ROW] = 1400, [PLACING_PACKED] = 1150, [PLACING_SCRAP] = 640 };
    struct cloth cloth = cloth_plain(widths[p->cloth]);
    cloth.spread = p->cloth == PLACING_SCRAP ? CLOTH_SINGLE : CLOTH_FOLDED;
    if (p->cloth != PLACING_SCRAP)
        return cloth;
    cloth.is_washed = true;
    cloth.selvedge_mm = 0;
    cloth.outline.path.count = PLACING_SCRAP_CORNERS;
    cloth.outline.path.closed = true;
    cloth.outline.path.points = base_arena_alloc(p->room.a, PLACING_SCRAP_CORNERS, sizeof(vec2));
    memcpy(cloth.outline.path.points, placing_scrap, sizeof placing_scrap);
    return cloth;
}

static const struct lay *make_lay(struct placing *p, const struct app *app)
{
    struct arena *a = p->room.a;
    struct cloth *cloth = base_arena_alloc(a, 1, sizeof *cloth);
    struct lay_task *task = base_arena_alloc(a, 1, sizeof *task);
    struct lay *lay = base_arena_alloc(a, 1, sizeof *lay);
    *cloth = cloth_of(p);
    enum pattern_cloth material =
        p->cloth == PLACING_SCRAP ? PATTERN_INTERFACING : PATTERN_FABRIC; /* it is wide enough */
    if (!lay_task_make(a, &app->draft, NULL, cloth, material, task, p->room.errs))
        return NULL;
    *lay = p->cloth == PLACING_ROW ? in_a_row(a, task) : packed(p, task);
    return lay;
}

static struct app *open_app(struct placing *p, struct text_font *font)
{
    struct app *app = rig_app(p->room.a, &p->table, font, p->room.errs);
    const struct lay *lay = app ? make_lay(p, app) : NULL;
    if (lay)
        app_place_add(app, lay);
    return lay ? app : NULL;
}

static bool open_in(struct placing *p, struct text_font *font, struct vt_setup setup, enum placing_cloth_kind cloth)
{
    *p = (struct placing){ .setup = setup, .noise = { 7 }, .cloth = cloth };
    room_init(&p->room);
    if (!rig_exact_table(p->room.a, &p->setup, &p->table, p->room.errs))
        return false;
    p->app = open_app(p, font);
    return p->app != NULL;
}

static bool open_as(struct placing *p, struct text_font *font, enum placing_cloth_kind cloth)
{
    return open_in(p, font, over_the_table, cloth);
}

bool placing_open(struct placing *p, struct text_font *font)
{
    return open_as(p, font, PLACING_ROW);
}

int placing_set_up(void **state)
{
    static struct placing p;
    *state = &p;
    if (placing_open(&p, NULL))
        return 0;
    room_print_told(&p.room);
    return -1;
}

int placing_tear_down(void **state)
{
    struct placing *p = *state;
    room_finish(&p->room);
    return 0;
}

bool placing_open_narrow(struct placing *p, struct text_font *font)
{
    struct vt_setup narrow = over_the_table;
    narrow.width_px = 900;
    narrow.throw_ratio *= (double)over_the_table.width_px / narrow.width_px;
    return open_in(p, font, narrow, PLACING_ROW);
}

bool placing_open_packed(struct placing *p, struct text_font *font)
{
    return open_as(p, font, PLACING_PACKED);
}

bool placing_open_scrap(struct placing *p, struct text_font *font)
{
    return open_as(p, font, PLACING_SCRAP);
}

struct app *placing_again(struct placing *p)
{
    struct app *app = open_app(p, p->app->font);
    assert_non_null(app);
    return app;
}

void placing_refuses(struct placing *p, const char *text, const char *other)
{
    const char *line = app_remember(p->app, p->room.a), *at = strstr(line, text);
    if (!at)
        fail_msg("%s is not in %s", text, line);
    const char *spoilt = base_arena_print(p->room.a, "%.*s%s%s", (int)(at - line), line, other, at + strlen(text));
    struct app *again = placing_again(p);
    const char *before = app_remember(again, p->room.a);
    if (app_recall(again, spoilt, p->room.errs))
        fail_msg("taken: %s", spoilt);
    assert_true(base_err_list_has(p->room.errs, "app.memory"));
    assert_string_equal(app_remember(again, p->room.a), before);
}

const struct app_place_cloth *placing_cloth(const struct placing *p)
{
    return app_place_now(p->app);
}

bool placing_press(struct placing *p, const char *name)
{
    struct input_event event = { .type = INPUT_KEY };
    assert_true(input_key_from_name(name, &event.key, &event.mods));
    return app_handle(p->app, event).redraw;
}

void placing_type(struct placing *p, const char *text)
{
    for (; *text; text++) {
        int key = *text == ' ' ? KEY_SPACE : KEY_CHAR + *text;
        app_handle(p->app, (struct input_event){ .type = INPUT_KEY, .key = key });
    }
}

/* --- light and cloth --------------------------------------------------------------------------------------------- */

/* Where the light of a place of the app's table falls. */
static vec2 light_of(const struct placing *p, struct table_pt at)
{
    struct px_pt px = { NAN, NAN };
    vec2 mat = { NAN, NAN };
    if (geometry_map_to_px(app_map(p->app), at, &px))
        vt_px_to_mat(&p->setup, px.x, px.y, &mat.x, &mat.y);
    return mat;
}

vec2 placing_truly(const struct placing *p, vec2 cloth)
{
    struct geometry_mover m = geometry_mover_of(p->lies);
    return geometry_move(&m, vec2_scale(cloth, 1 + p->stretch));
}

/* Which place of the cloth lies at a place of the mat. */
static vec2 on_cloth(const struct placing *p, vec2 mat)
{
    struct geometry_mover back = geometry_mover_of((struct geometry_motion){ .turn_deg = -p->lies.turn_deg });
    return vec2_scale(geometry_move(&back, vec2_sub(mat, p->lies.shift)), 1 / (1 + p->stretch));
}

/* --- nudging ----------------------------------------------------------------------------------------------------- */

static bool is_ring(const struct paint_items *in, size_t item)
{
    const struct geometry_path *path = &in->paths[in->items[item].first_path];
    return in->items[item].kind == PAINT_STROKE && path->closed && path->count == RING_CORNERS;
}

vec2 placing_light_in_hand(struct placing *p)
{
    struct paint_scene scene = app_scene(p->app, p->room.a);
    const struct paint_items *table = &scene.table.in, *px = &scene.px.in;
    vec2 mat = { NAN, NAN };
    for (size_t i = 0; i < table->count; i++)
        if (is_ring(table, i)) {
            vec2 at = geometry_path_centre(table->paths[table->items[i].first_path]);
            return light_of(p, (struct table_pt){ at.x, at.y });
        }
    for (size_t i = 0; i < px->count; i++)
        if (is_ring(px, i)) {
            vec2 at = geometry_path_centre(px->paths[px->items[i].first_path]);
            vt_px_to_mat(&p->setup, at.x, at.y, &mat.x, &mat.y);
            return mat;
        }
    fail_msg("no point is in hand");
    return mat;
}

static vec2 chalked(const struct placing *p, const char *name)
{
    for (int i = p->mark_count - 1; i >= 0; i--)
        if (strcmp(p->marks[i].name, name) == 0)
            return p->marks[i].at;
    fail_msg("no mark %s is chalked", name);
    return (vec2){ NAN, NAN };
}

/* The way from the light in hand to what it is for: a mark, or the nearest place of a line. */
static vec2 way_to_go(const struct placing *p, vec2 light)
{
    const struct app_place_cloth *c = placing_cloth(p);
    const struct app_aim *aim = &c->aims[c->in_hand];
    if (c->stage == APP_PLACE_EDGE && aim->sighting.sign == SPANS_MARK) /* a corner */
        return vec2_sub(placing_truly(p, (vec2){ aim->sighting.cloth.x, aim->sighting.cloth.y }), light);
    if (aim->sighting.sign == SPANS_MARK)
        return vec2_sub(placing_truly(p, chalked(p, aim->name)), light);
    vec2 foot = on_cloth(p, light);
    if (aim->sighting.sign == SPANS_ALONG_LINE)
        foot.y = aim->sighting.cloth.y > 0 ? c->lay->task->cloth->width_mm / 2 : 0; /* folded, selvedges and all */
    else
        foot.x = 0;
    return vec2_sub(placing_truly(p, foot), light);
}

void placing_nudge(struct placing *p)
{
    for (int presses = 0; presses < 300; presses++) {
        const char *key = bump_key_toward(way_to_go(p, placing_light_in_hand(p)));
        if (!key) {
            placing_press(p, "enter");
            return;
        }
        placing_press(p, key);
    }
    const struct app_place_cloth *c = placing_cloth(p);
    fail_msg("the point in hand, %s, does not come to where it should", c->aims[c->in_hand].name);
}

void placing_nudge_all(struct placing *p)
{
    for (int left = placing_cloth(p)->aim_count - placing_cloth(p)->in_hand; left > 0; left--)
        placing_nudge(p);
}

/* --- what she does ----------------------------------------------------------------------------------------------- */

void placing_lay(struct placing *p)
{
    p->lies = app_place_straight(placing_cloth(p), 0);
    placing_press(p, "enter");
    placing_press(p, "enter");
}

static void chalk(struct placing *p, const struct app_chalk *mark)
{
    vec2 light = light_of(p, app_place_at(&placing_cloth(p)->seat.to_table, mark->at));
    light.x += p->chalk_sigma_mm * vt_noise_draw(&p->noise);
    light.y += p->chalk_sigma_mm * vt_noise_draw(&p->noise);
    assert_true(p->mark_count < PLACING_MARKS);
    p->marks[p->mark_count++] = (struct placing_mark){ mark->name, on_cloth(p, light) };
}

void placing_do_step(struct placing *p)
{
    const struct app_place_cloth *c = placing_cloth(p);
    const struct app_step *step = &c->steps[c->now];
    struct app_chalk marks[APP_PLACE_CHALK];
    int count = app_place_chalk(p->room.a, c, step->span, step->kind, marks);
    for (int i = 0; i < count; i++)
        chalk(p, &marks[i]);
    placing_press(p, "shift enter");
}

void placing_do_section(struct placing *p)
{
    size_t span = placing_cloth(p)->span;
    while (placing_cloth(p)->stage == APP_PLACE_CUT && placing_cloth(p)->span == span)
        placing_do_step(p);
}

void placing_push(struct placing *p, vec2 by_mm, double by_deg)
{
    struct geometry_box light = placing_cloth(p)->light;
    vec2 middle = vec2_lerp(light.min, light.max, 0.5);
    struct geometry_mover turn = geometry_mover_of((struct geometry_motion){ .turn_deg = by_deg });
    vec2 shift = geometry_move(&turn, vec2_sub(p->lies.shift, middle));
    p->lies.turn_deg += by_deg;
    p->lies.shift = vec2_add(vec2_add(shift, middle), by_mm);
}

void placing_slide(struct placing *p, vec2 off_mm, double off_deg)
{
    vec2 slide = app_place_slide_by(placing_cloth(p));
    placing_push(p, vec2_add(slide, off_mm), off_deg);
}

/* --- what came of it --------------------------------------------------------------------------------------------- */

/* The place of any cut line's light that is nearest. */
static double nearest_cut(const struct placing *p, const struct paint_items *in, vec2 mat)
{
    double best = INFINITY;
    for (size_t i = 0; i < in->count; i++) {
        const struct geometry_path *path = &in->paths[in->items[i].first_path];
        if (in->items[i].kind != PAINT_STROKE || fabs(in->items[i].pen.width - SCENE_CUT_WIDTH_MM) > 1e-9)
            continue;
        for (size_t j = 0; j < path->count; j++) {
            vec2 light = light_of(p, (struct table_pt){ path->points[j].x, path->points[j].y });
            double off = vec2_length(vec2_sub(light, mat));
            best = off < best ? off : best;
        }
    }
    return best;
}

/* A tenth of a turn of the outline apart: its first point and so on. */
static double item_off(struct placing *p, const struct paint_items *in, size_t item)
{
    const struct app_place_cloth *c = placing_cloth(p);
    struct geometry_path path = lay_outline(p->room.a, c->lay->task, item, &c->lay->places[item]).path;
    double worst = 0;
    for (size_t i = 0; i < path.count; i += 1 + path.count / 10) {
        double off = nearest_cut(p, in, placing_truly(p, path.points[i]));
        worst = fmax(worst, off);
    }
    return worst;
}

double placing_worst_off(struct placing *p)
{
    const struct app_place_cloth *c = placing_cloth(p);
    struct paint_scene scene = app_scene(p->app, p->room.a);
    double worst = 0;
    int found = 0;
    for (size_t i = 0; i < c->step_count; i++) {
        const struct app_step *step = &c->steps[i];
        if (step->kind != APP_STEP_CUT || step->span != c->span || step->done)
            continue;
        worst = fmax(worst, item_off(p, &scene.table.in, (size_t)step->item));
        found++;
    }
    assert_true(found > 0);
    return worst;
}
