/* The mat is smaller than the light: it is laid in several places, at each corner that it did not reach. */
#include "app/walk_state.h"

enum { CORNERS = 4, OWN = 2, LEAST_AT_PLACE = 2 };

/* A corner and its second cross, by their numbers (scene/crosses.c). */
static const int own[CORNERS][OWN] = { { 1, 12 }, { 2, 11 }, { 3, 10 }, { 4, 13 } };

/* What ties a place to the others, in shares of how far a mat reaches from its corner of the light: the farther apart,
 * the firmer (tests/calibration/campaign.h, four places). */
static const vec2 ties[APP_WALK_AROUND - OWN] = { { 1, 0.05 }, { 0.05, 1 }, { 0.65, 1 } };

#define REACH 0.9 /* of the mat that is asked for: it may lie askew */

/* How far a mat of 24 x 36 in reaches so in a light 1.5 m wide, in shares of the picture. */
static const vec2 usual_reach = { 0.55, 0.65 };

static bool is_missing(const struct app_walk *w, int corner)
{
    size_t at = app_walk_find(w, own[corner][0]);
    return at < w->count && w->items[at].beside && !w->items[at].read;
}

/* The picture's side from one place to another on the table. */
static vec2 side(const struct app_walk *w, struct px_pt from, struct px_pt to)
{
    struct table_pt a = geometry_map_to_table(&w->solution.map, from), b = geometry_map_to_table(&w->solution.map, to);
    return (vec2){ b.x - a.x, b.y - a.y };
}

/* How far the mat reaches from a corner, in shares of the picture, if it is laid as it lay at first. */
static vec2 reach(const struct app_walk *w)
{
    const struct calibration_mat *mat = &w->start.mat;
    double wide = w->start.width_px, high = w->start.height_px;
    if (!w->solved || !mat->name)
        return usual_reach;
    vec2 across = side(w, (struct px_pt){ 0, high / 2 }, (struct px_pt){ wide, high / 2 });
    vec2 up = side(w, (struct px_pt){ wide / 2, high }, (struct px_pt){ wide / 2, 0 });
    bool along = fabs(across.x) >= fabs(across.y);
    double mat_across = along ? mat->width_mm : mat->height_mm, mat_up = along ? mat->height_mm : mat->width_mm;
    return (vec2){ REACH * fmin(1, mat_across / vec2_length(across)), REACH * fmin(1, mat_up / vec2_length(up)) };
}

/* A cross that is not asked for yet. Returns its number. */
static int add_tie(struct app_walk *w, struct px_pt corner, vec2 shares)
{
    double wide = w->start.width_px, high = w->start.height_px, x = shares.x * wide, y = shares.y * high;
    struct px_pt home = { floor(corner.x < wide / 2 ? x : wide - x) + 0.5,
                          floor(corner.y < high / 2 ? y : high - y) + 0.5 };
    int number = app_walk_new_number(w);
    w->items[w->count++] = (struct app_walk_item){ .number = number, .home = home, .px = home, .beside = true };
    return number;
}

static void ask_around(struct app_walk *w, int corner)
{
    vec2 far = reach(w);
    struct px_pt home = w->items[app_walk_find(w, own[corner][0])].home;
    for (int i = 0; i < OWN; i++)
        w->around[i] = own[corner][i];
    for (int i = OWN; i < APP_WALK_AROUND; i++)
        w->around[i] = add_tie(w, home, (vec2){ far.x * ties[i - OWN].x, far.y * ties[i - OWN].y });
}

bool app_walk_offer_place(struct app_walk *w)
{
    for (int corner = 0; corner < CORNERS; corner++) {
        if (w->offered[corner] || !is_missing(w, corner) || w->place + 1 >= CALIBRATION_MOST_PLACES ||
            w->count + APP_WALK_AROUND > w->most)
            continue;
        w->offered[corner] = true;
        ask_around(w, corner);
        w->page = APP_WALK_LAY;
        return true;
    }
    return false;
}

void app_walk_leave_place(struct app_walk *w)
{
    w->count -= APP_WALK_AROUND - OWN; /* the last ones */
}

void app_walk_put_off_place(struct app_walk *w)
{
    w->offered[w->around[0] - 1] = false;
    app_walk_leave_place(w);
}

size_t app_walk_around(const struct app_walk *w, const int **numbers)
{
    *numbers = w->around;
    return APP_WALK_AROUND;
}

/* One cross of the new place: itself when it was beside the mat until now, else another one that stands where it did.
 */
static size_t asked_there(struct app_walk *w, int number)
{
    size_t at = app_walk_find(w, number);
    struct app_walk_item *item = &w->items[at];
    if (item->read) {
        struct px_pt home = item->home;
        at = w->count++;
        item = &w->items[at];
        *item = (struct app_walk_item){ .number = app_walk_new_number(w), .home = home };
    }
    item->px = item->home;
    item->beside = false;
    item->place = w->place;
    return at;
}

/* A single reading says nothing of how the mat lay: its place is given up. */
static bool is_firm(struct app_walk *w)
{
    size_t count = 0;
    for (size_t i = 0; i < w->count; i++)
        count += w->items[i].read && w->items[i].place == w->place;
    for (size_t i = 0; i < w->count && count < LEAST_AT_PLACE; i++)
        if (w->items[i].read && w->items[i].place == w->place) {
            w->items[i].read = false;
            w->items[i].beside = true;
        }
    return count >= LEAST_AT_PLACE;
}

struct app_walk_effects app_walk_mat_lies(struct app_walk *w)
{
    w->place += is_firm(w);
    size_t first = w->count;
    for (int i = 0; i < APP_WALK_AROUND; i++) {
        size_t at = asked_there(w, w->around[i]);
        first = i == 0 ? at : first;
    }
    app_walk_go_to(w, first);
    return (struct app_walk_effects){ .redraw = true, .save = true };
}
