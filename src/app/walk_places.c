/* The mat is smaller than the light: it is laid in several places, at each corner that it did not reach. */
#include "app/walk_state.h"

enum { CORNERS = 4, AROUND = 5 };

/* By their numbers (scene/crosses.c): a corner, its second cross, and what ties the place to the others. */
static const int groups[CORNERS][AROUND] = {
    { 1, 12, 6, 9, 5 }, { 2, 11, 6, 7, 5 }, { 3, 10, 7, 8, 5 }, { 4, 13, 8, 9, 5 }
};

static bool is_missing(const struct app_walk *w, int corner)
{
    size_t at = app_walk_find(w, groups[corner][0]);
    return at < w->count && w->items[at].beside && !w->items[at].read;
}

bool app_walk_offer_place(struct app_walk *w)
{
    for (int corner = 0; corner < CORNERS; corner++) {
        if (w->offered[corner] || !is_missing(w, corner) || w->place + 1 >= CALIBRATION_MOST_PLACES ||
            w->count + AROUND > w->most)
            continue;
        w->offered[corner] = true;
        w->corner = corner;
        w->page = APP_WALK_LAY;
        return true;
    }
    return false;
}

size_t app_walk_around(const struct app_walk *w, const int **numbers)
{
    *numbers = groups[w->corner];
    return AROUND;
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

struct app_walk_effects app_walk_mat_lies(struct app_walk *w)
{
    w->place++;
    size_t first = w->count;
    for (int i = 0; i < AROUND; i++) {
        size_t at = asked_there(w, groups[w->corner][i]);
        first = i == 0 ? at : first;
    }
    app_walk_go_to(w, first);
    return (struct app_walk_effects){ .redraw = true };
}
