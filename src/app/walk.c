#include "app/walk_state.h"

#include "app/walk_guess.h"

#include <string.h>

enum { MOST_ADDED = 48 }; /* crosses beyond the standard ones that she may ask for */

#define FAR_STEP_PX 16.0 /* the first step of a cross that may be rulings away from the crossing */

static const struct app_walk_effects redraw = { .redraw = true };

size_t app_walk_next_unread(const struct app_walk *w, size_t from)
{
    for (size_t i = 0; i < w->count; i++) {
        size_t at = (from + i) % w->count;
        if (!w->items[at].read && !w->items[at].beside)
            return at;
    }
    return w->count;
}

static struct app_walk_guess guess_of(const struct app_walk *w, const struct calibration_readings *readings)
{
    return app_walk_guess(readings, scene_page_turned(w->start.width_px, w->start.height_px, w->quarter, 1).right);
}

/* Those made where the mat lay when the cross shown now is read, as if there were no other place. */
static struct calibration_readings readings_here(const struct app_walk *w, struct arena *a)
{
    struct calibration_readings r = app_walk_readings(w, a);
    size_t all = r.count;
    r.count = 0;
    for (size_t i = 0; i < all; i++)
        if (r.items[i].place == w->items[w->now].place) {
            r.items[r.count] = r.items[i];
            r.items[r.count++].place = 0;
        }
    return r;
}

void app_walk_name(struct app_walk *w)
{
    struct arena *scratch = base_arena_create();
    const struct app_walk_item *item = &w->items[w->now];
    struct calibration_readings r = readings_here(w, scratch);
    struct app_walk_guess guess = guess_of(w, &r);
    w->target = app_walk_crossing(&r, item->read ? item->at : geometry_map_to_table(&guess.map, item->px));
    base_arena_destroy(scratch);
}

static bool is_in_frame(const struct app_walk *w, struct px_pt px)
{
    return px.x >= 0 && px.y >= 0 && px.x <= w->start.width_px && px.y <= w->start.height_px;
}

/* Once the readings tell well enough where the named crossing is, an unread cross goes there by itself. */
static bool send(struct app_walk *w)
{
    struct arena *scratch = base_arena_create();
    struct app_walk_item *item = &w->items[w->now];
    struct calibration_readings r = readings_here(w, scratch);
    struct app_walk_guess guess = guess_of(w, &r);
    struct px_pt there;
    bool sent = guess.near && !item->read && geometry_map_to_px(&guess.map, w->target, &there) && is_in_frame(w, there);
    if (sent)
        item->px = there;
    base_arena_destroy(scratch);
    return sent;
}

void app_walk_pace_afresh(struct app_walk *w, double step_px)
{
    for (int axis = 0; axis < 2; axis++)
        w->pace[axis] = (struct app_walk_pace){ .step_px = step_px };
    w->way = 0;
    w->moved = false;
}

void app_walk_aim(struct app_walk *w)
{
    app_walk_name(w);
    bool sent = send(w);
    app_walk_pace_afresh(w, sent ? APP_WALK_NEAR_STEP_PX : FAR_STEP_PX);
}

void app_walk_go_to(struct app_walk *w, size_t index)
{
    w->now = index;
    if (w->items[index].read)
        w->items[index].px = w->items[index].read_px;
    w->field = 0;
    w->refusal = NULL;
    memset(w->typed, 0, sizeof w->typed);
    w->page = w->placing ? APP_WALK_PLACE : APP_WALK_TYPE;
    if (w->placing)
        app_walk_aim(w);
}

size_t app_walk_find(const struct app_walk *w, int number)
{
    size_t i = 0;
    while (i < w->count && w->items[i].number != number)
        i++;
    return i;
}

/* Every reading of the file is kept, that of a cross which is not one of the walk's too. */
static void take_over(struct app_walk *w, const struct calibration_readings *before)
{
    bool taped = false, ruled = false;
    for (size_t i = 0; before && i < before->count; i++) {
        const struct calibration_reading *r = &before->items[i];
        if (r->kind == CALIBRATION_DISTANCE) {
            taped = true;
            if (!app_walk_take_over_tape(w, r))
                w->carried[w->carried_count++] = *r;
            continue;
        }
        ruled = true;
        size_t at = app_walk_find(w, r->cross);
        if (at < w->count && w->items[at].read)
            at = w->count; /* read more than once */
        struct px_pt home = at < w->count ? w->items[at].home : r->px;
        w->items[at] = (struct app_walk_item){ .number = r->cross,
                                               .home = home,
                                               .px = r->px,
                                               .read_px = r->px,
                                               .read = true,
                                               .at = r->at,
                                               .kind = r->kind,
                                               .place = r->place };
        w->place = r->place > w->place ? r->place : w->place;
        w->count += at == w->count;
    }
    for (size_t i = 0; before && i < before->beside_count; i++) {
        size_t at = app_walk_find(w, before->beside[i]);
        if (at < w->count)
            w->items[at].beside = !w->items[at].read;
    }
    w->by_tape = taped && !ruled;
}

struct app_walk *app_walk_create(struct arena *a, const struct app_walk_start *start)
{
    struct app_walk *w = base_arena_alloc(a, 1, sizeof *w);
    size_t most = APP_WALK_CROSSES + MOST_ADDED + (start->before ? start->before->count : 0);
    w->most = most;
    w->start = *start;
    w->lockout.lasts_s = start->lockout_s;
    w->said = a;
    w->items = base_arena_alloc(a, most, sizeof *w->items);
    for (int number = 1; number <= APP_WALK_CROSSES; number++) {
        struct px_pt home = scene_standard_cross(number, start->width_px, start->height_px);
        w->items[w->count++] = (struct app_walk_item){ .number = number, .home = home, .px = home };
    }
    w->carried = base_arena_alloc(a, start->before ? start->before->count : 0, sizeof *w->carried);
    take_over(w, start->before);
    size_t first = app_walk_next_unread(w, 0);
    app_walk_go_to(w, first < w->count ? first : 0);
    w->page = !start->cautions_read ? APP_WALK_CAUTIONS : app_walk_asks_surface(w) ? APP_WALK_SURFACE : APP_WALK_START;
    return w;
}

struct calibration_reading app_walk_reading(const struct app_walk_item *item)
{
    struct calibration_reading r = calibration_position(item->number, item->read_px, item->at);
    r.kind = item->kind;
    r.place = item->place;
    return r;
}

struct calibration_readings app_walk_readings(const struct app_walk *w, struct arena *a)
{
    struct calibration_readings r = { .name = w->start.name,
                                      .unit = w->start.unit,
                                      .width_px = w->start.width_px,
                                      .height_px = w->start.height_px,
                                      .sigma_mm = w->start.sigma_mm,
                                      .mat = w->start.mat,
                                      .items = base_arena_alloc(a, w->count + APP_WALK_TAPES + w->carried_count,
                                                                sizeof *r.items),
                                      .beside = base_arena_alloc(a, w->count, sizeof *r.beside) };
    for (size_t i = 0; i < w->count; i++) {
        const struct app_walk_item *item = &w->items[i];
        if (item->read)
            r.items[r.count++] = app_walk_reading(item);
        else if (item->beside && item->number <= APP_WALK_CROSSES)
            r.beside[r.beside_count++] = item->number;
    }
    app_walk_add_tapes(w, &r);
    return r;
}

void app_walk_set_trouble(struct app_walk *w, const char *sentence)
{
    w->trouble = sentence;
}

struct app_walk_effects app_walk_nudge(struct app_walk *w, double right, double away)
{
    struct scene_page page = scene_page_turned(w->start.width_px, w->start.height_px, w->quarter, 1);
    struct app_walk_item *item = &w->items[w->now];
    struct px_pt *px = w->page == APP_WALK_STICKERS ? &w->marks.px[w->mark] : &item->px;
    vec2 by = vec2_add(vec2_scale(page.right, right), vec2_scale(page.up, away));
    struct px_pt to = { px->x + by.x, px->y + by.y };
    if (is_in_frame(w, to))
        *px = to;
    return redraw;
}
