/* What lies on the table: one of the mats that come with the program, other rulings, or nothing but a tape. */
#include "app/walk_state.h"
#include "base/words.h"

static const struct app_walk_effects redraw = { .redraw = true };

size_t app_walk_surfaces(const struct app_walk *w)
{
    return w->start.mat_count + 2;
}

bool app_walk_asks_surface(const struct app_walk *w)
{
    return w->start.mat_count && !w->start.mat.name && !w->start.before;
}

const char *app_walk_surface_name(const struct app_walk *w, size_t choice)
{
    if (choice < w->start.mat_count)
        return w->start.mats[choice].name;
    return choice == w->start.mat_count ? base_tr("other rulings") : base_tr("no rulings: a tape alone");
}

struct app_walk_effects app_walk_choose_surface(struct app_walk *w, int by)
{
    w->surface = (w->surface + app_walk_surfaces(w) + (size_t)(by < 0 ? -1 : 1)) % app_walk_surfaces(w);
    return redraw;
}

struct app_walk_effects app_walk_take_surface(struct app_walk *w, size_t choice)
{
    if (choice >= app_walk_surfaces(w))
        return redraw;
    w->surface = choice;
    w->by_tape = choice == w->start.mat_count + 1;
    if (choice < w->start.mat_count) {
        w->start.mat = w->start.mats[choice];
        if (!w->start.unit_is_asked)
            w->start.unit = w->start.mat.unit;
    }
    w->page = APP_WALK_START;
    return redraw;
}
