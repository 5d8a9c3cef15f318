/* Whether the light lies where it did: the marks on the check stickers, and what to do when they have left them. */
#include "app/amount.h"
#include "app/sentence.h"
#include "app/state.h"
#include "base/words.h"

#include <math.h>

static const struct app_effects redraw = { .redraw = true };

#define MOST_DOUBT_MM 3.0 /* a cut so far off is a spoilt piece; common practice, no source */

static const struct err_kind too_doubtful = {
    "app.too_doubtful", ERR_FAULT,
    BASE_TR("The light has moved in a way that these stickers tell too little of: a "
            "place may be off by {0}. Set up the table again")
};

static const char no_stickers[] = BASE_TR("This table has no check stickers: measure the test square (S)");

struct app_effects app_move_mark(struct app *app, vec2 by)
{
    struct px_pt *px = &app->moving.px[app->in_hand], to;
    struct table_pt at = geometry_map_to_table(&app->map, *px);
    bool lit = geometry_map_to_px(&app->map, (struct table_pt){ at.x + by.x, at.y + by.y }, &to);
    if (lit && to.x >= 0 && to.y >= 0 && to.x <= app->map.width_px && to.y <= app->map.height_px)
        *px = to;
    return redraw;
}

struct app_effects app_next_mark(struct app *app, int by)
{
    app->in_hand = (app->in_hand + app->stickers.count + by) % app->stickers.count;
    return redraw;
}

bool app_follow(struct app *app, const struct calibration_stickers *are, struct calibration_followed *out,
                struct err_list *errs)
{
    if (!calibration_follow(&app->table.map, &app->table.stickers, are, out, errs))
        return false;
    if (out->doubt_mm > MOST_DOUBT_MM) {
        base_err(errs, &too_doubtful, base_err_in_file(NULL), ERR_OFF_MM(out->doubt_mm));
        return false;
    }
    app->flat = out->map;
    app_attend_surface(app);
    app->stickers = *are;
    app->bump_doubt_mm = out->doubt_mm;
    return true;
}

struct app_effects app_pass_time(struct app *app, double with_sleep_s, double awake_s)
{
    bool doubted = !app->table.sample && app_trust_pass_time(&app->trust, with_sleep_s, awake_s);
    bool pulses = app_seeing_pass_time(&app->seeing, awake_s);
    return (struct app_effects){ .redraw = doubted || pulses };
}

static struct app_effects run_match(struct app *app, double unused)
{
    (void)unused;
    if (app->stickers.count)
        app->trust.doubt = APP_DOUBT_NONE;
    else
        app->told = base_tr(no_stickers);
    return redraw;
}

static struct app_effects run_moved(struct app *app, double unused)
{
    (void)unused;
    if (!app->stickers.count) {
        app->told = base_tr(no_stickers);
        return redraw;
    }
    app->moving = app->stickers;
    app->in_hand = 0;
    app->mode = SCENE_STICKERS;
    return redraw;
}

/* What the marks told, as far as it is of use at the table. */
static const char *told(struct app *app, const struct calibration_followed *f)
{
    if (f->bump == CALIBRATION_BUMP_NONE)
        return base_tr("The marks lie on their stickers: the table is as it was");
    return base_arena_print(app->a,
                            f->bump == CALIBRATION_BUMP_SLID
                                ? base_tr("The light has shifted by up to %s since the set-up: mended. A place may be "
                                          "off by %s more. Now measure the test square (S)")
                                : base_tr("The light has tilted by up to %s since the set-up: mended. A place may be "
                                          "off by %s more. Now measure the test square (S)"),
                            app_mm(app->a, f->moved_mm), app_mm(app->a, f->doubt_mm));
}

static struct app_effects run_done(struct app *app, double unused)
{
    (void)unused;
    struct err_list *errs = base_err_list_create();
    struct calibration_followed found;
    if (app_follow(app, &app->moving, &found, errs)) {
        app->told = told(app, &found);
        app->trust.doubt = APP_DOUBT_NONE;
        app->mode = SCENE_PIECES;
    } else {
        app->told = app_sentence(app->a, &errs->items[0], app->unit);
    }
    base_err_list_destroy(errs);
    return redraw;
}

const struct app_action app_act_match = { BASE_TR("the marks lie on their check stickers"),
                                          APP_ON_PIECES | APP_ON_REST | APP_ON_LAYOUT, run_match };
const struct app_action app_act_moved = { BASE_TR("they do not: move them there"),
                                          APP_ON_PIECES | APP_ON_REST | APP_ON_LAYOUT, run_moved };
const struct app_action app_act_done = { BASE_TR("all marks lie on their stickers now"), APP_ON_STICKERS, run_done };
