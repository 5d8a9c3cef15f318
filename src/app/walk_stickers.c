/* The end of the walk: marks of light are laid on small crosses stuck to the table outside the cloth. */
#include "app/walk_state.h"

/* Where they stand at first, in shares of the frame: far apart, and clear of strip and notice on whichever side she
 * stands. */
static const double places[CALIBRATION_MOST_STICKERS][2] = {
    { 0.06, 0.2 }, { 0.94, 0.2 }, { 0.94, 0.8 }, { 0.06, 0.8 }
};

static void take_in_hand(struct app_walk *w, int mark)
{
    w->mark = mark;
    app_walk_pace_afresh(w, APP_WALK_NEAR_STEP_PX);
}

struct app_walk_effects app_walk_lay_stickers(struct app_walk *w)
{
    w->page = APP_WALK_STICKERS;
    w->marks.count = CALIBRATION_MOST_STICKERS;
    for (int i = 0; i < CALIBRATION_MOST_STICKERS; i++) {
        w->laid[i] = false;
        w->marks.px[i] = (struct px_pt){ (int)(places[i][0] * w->start.width_px) + 0.5,
                                         (int)(places[i][1] * w->start.height_px) + 0.5 };
    }
    take_in_hand(w, 0);
    return (struct app_walk_effects){ .redraw = true, .done = true };
}

struct app_walk_effects app_walk_lay(struct app_walk *w, bool on_sticker)
{
    bool last = w->mark == CALIBRATION_MOST_STICKERS - 1;
    w->laid[w->mark] = on_sticker;
    take_in_hand(w, last ? w->mark : w->mark + 1);
    return (struct app_walk_effects){ .redraw = true, .done = true, .end = last };
}

struct app_walk_effects app_walk_take_mark(struct app_walk *w, int by)
{
    take_in_hand(w, (w->mark + CALIBRATION_MOST_STICKERS + by) % CALIBRATION_MOST_STICKERS);
    return (struct app_walk_effects){ .redraw = true };
}

struct calibration_stickers app_walk_laid(const struct app_walk *w)
{
    struct calibration_stickers laid = { .count = 0 };
    for (int i = 0; i < w->marks.count; i++)
        if (w->laid[i])
            laid.px[laid.count++] = w->marks.px[i];
    if (!calibration_stickers_are_apart(&w->solution.map, &laid))
        laid.count = 0;
    return laid;
}

struct calibration_table app_walk_table(const struct app_walk *w, struct arena *a, const char *made)
{
    struct calibration_table table = calibration_table_of(a, &w->solved_readings, &w->solution, made);
    table.stickers = app_walk_laid(w);
    for (int i = 0; i < APP_WALK_LINES; i++)
        if (w->lines[i].measured)
            table.checked[table.checked_count++] =
                (struct calibration_checked){ w->lines[i].drawn_mm, w->lines[i].read_mm, w->lines[i].may_be_off_mm };
    return table;
}
