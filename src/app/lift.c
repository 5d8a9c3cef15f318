#include "app/lift_state.h"
#include "base/words.h"

#include <stdarg.h>
#include <string.h>

#define MOST_PAN_MM 10000.0

const struct app_lift_effects app_lift_redraw = { .redraw = true };
const struct app_lift_effects app_lift_keep = { .redraw = true, .keep = true };

struct app_lift *app_lift_create(const struct app_lift_start *start)
{
    struct arena *a = base_arena_create();
    struct app_lift *lift = base_arena_alloc(a, 1, sizeof *lift);
    lift->start = *start;
    lift->a = a;
    lift->told_in = base_arena_create();
    lift->out = start->out;
    lift->trust.looked_at_s = -1;
    lift->weight_mm = SCENE_CUT_WIDTH_MM;
    return lift;
}

void app_lift_destroy(struct app_lift *lift)
{
    if (!lift)
        return;
    app_import_destroy(lift->im);
    base_arena_destroy(lift->told_in);
    base_arena_destroy(lift->a);
}

const struct geometry_map *app_lift_map(const struct app_lift *lift)
{
    return &lift->start.table.map;
}

void app_lift_tell(struct app_lift *lift, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    base_arena_reset(lift->told_in);
    lift->told = base_arena_vprint(lift->told_in, format, args);
    va_end(args);
}

void app_lift_set_trouble(struct app_lift *lift, const char *sentence)
{
    lift->trouble = sentence;
}

void app_lift_doubt_scale(struct app_lift *lift, enum app_doubt doubt)
{
    if (!lift->start.table.sample)
        lift->trust.doubt = doubt;
}

struct app_lift_effects app_lift_pass_time(struct app_lift *lift, double with_sleep_s, double awake_s)
{
    bool doubted = !lift->start.table.sample && app_trust_pass_time(&lift->trust, with_sleep_s, awake_s);
    return (struct app_lift_effects){ .redraw = doubted };
}

/* --- reading the file -------------------------------------------------------------------------------------------- */

struct app_lift_effects app_lift_progress(struct app_lift *lift, unsigned percent)
{
    bool other = percent != lift->percent;
    lift->percent = percent;
    return (struct app_lift_effects){ .redraw = other };
}

const char *app_lift_password(const struct app_lift *lift)
{
    return lift->password_typed ? lift->typed : NULL;
}

void app_lift_take(struct app_lift *lift, struct app_import *im)
{
    memset(lift->typed, 0, sizeof lift->typed); /* a password is not kept */
    lift->im = im;
    lift->hidden = base_arena_alloc(lift->a, im->flat.layer_count, sizeof *lift->hidden);
    lift->told = NULL;
    app_lift_go(lift, APP_LIFT_SCALE);
}

double app_lift_dpi(const struct app_lift *lift)
{
    return lift->dpi;
}

void app_lift_refuse(struct app_lift *lift, const char *sentence, enum app_lift_lack lack)
{
    static const enum app_lift_page pages[] = { [APP_LIFT_LACKS_ALL] = APP_LIFT_REFUSED,
                                                [APP_LIFT_LACKS_PASSWORD] = APP_LIFT_PASSWORD,
                                                [APP_LIFT_LACKS_DPI] = APP_LIFT_DPI };
    memset(lift->typed, 0, sizeof lift->typed);
    lift->page = pages[lack];
    lift->told = NULL;
    if (lack == APP_LIFT_LACKS_ALL)
        app_lift_tell(lift, "%s", sentence);
    else if (lack == APP_LIFT_LACKS_PASSWORD && lift->password_typed)
        app_lift_tell(lift, base_tr("That is not its password: type it again, capitals as they were given"));
}

struct app_import *app_lift_import(const struct app_lift *lift)
{
    return lift->im;
}

/* --- from page to page ------------------------------------------------------------------------------------------- */

static const enum app_lift_page order[] = { APP_LIFT_SCALE,  APP_LIFT_PAGES,     APP_LIFT_SIZES, APP_LIFT_WHOLE,
                                            APP_LIFT_PIECES, APP_LIFT_ALLOWANCE, APP_LIFT_SAVE };

enum { IN_ORDER = sizeof order / sizeof order[0] };

enum app_lift_page app_lift_next(const struct app_lift *lift, int by)
{
    int at = 0;
    while (at < IN_ORDER && order[at] != lift->page)
        at++;
    at += by;
    if (at >= 0 && at < IN_ORDER && order[at] == APP_LIFT_PAGES && lift->im->flat.page_count < 2)
        at += by;
    return at >= 0 && at < IN_ORDER ? order[at] : lift->page;
}

const char *app_lift_step_text(const struct app_lift *lift, struct arena *a)
{
    for (int at = 0; at < IN_ORDER; at++)
        if (order[at] == lift->page)
            return base_arena_print(a, base_tr("Step %d of %d · F1: keys"), at + 1, IN_ORDER);
    return base_tr("F1: keys");
}

/* What a page shows is made from the stages up to this one. */
static enum app_import_stage stage_of(enum app_lift_page page)
{
    switch (page) {
    case APP_LIFT_PAGES:
        return APP_IMPORT_PAGES;
    case APP_LIFT_SIZES:
    case APP_LIFT_WHOLE:
    case APP_LIFT_LAYERS:
        return APP_IMPORT_SIZES;
    case APP_LIFT_PIECES:
    case APP_LIFT_JOIN:
    case APP_LIFT_MARK:
    case APP_LIFT_ALLOWANCE:
    case APP_LIFT_SAVE:
        return APP_IMPORT_PIECES;
    default:
        return APP_IMPORT_TRUTH;
    }
}

static size_t first_row(const struct app_lift *lift)
{
    const struct app_lift_way *ways;
    size_t now = 0;
    if (lift->page == APP_LIFT_SCALE)
        app_lift_ways(lift, lift->told_in, &ways, &now);
    else if (lift->page == APP_LIFT_ALLOWANCE)
        now = !lift->im->choices.allowance.said ? APP_LIFT_NO_ROW : !lift->im->choices.allowance.cutting_line;
    return now;
}

struct app_lift_effects app_lift_go(struct app_lift *lift, enum app_lift_page page)
{
    app_import_make(lift->im, stage_of(page));
    if ((page == APP_LIFT_PIECES || page == APP_LIFT_ALLOWANCE || page == APP_LIFT_SAVE) &&
        app_lift_shown_size(lift) == LIFTING_NONE) {
        app_lift_tell(lift, lift->im->division.size_count
                                ? base_tr("Which size is yours? D on its line, then Enter")
                                : base_tr("No line is of a size yet: Right on a line makes it so"));
        page = APP_LIFT_SIZES;
    }
    if (page == APP_LIFT_SAVE && !lift->im->choices.allowance.said) {
        app_lift_tell(lift, base_tr("Where is the seam allowance? Say so first"));
        page = APP_LIFT_ALLOWANCE;
    }
    if (lift->page == APP_LIFT_MARK || (lift->page == APP_LIFT_HELP && lift->beneath == APP_LIFT_MARK))
        lift->lies = lift->lay;
    lift->page = page;
    lift->row = first_row(lift);
    lift->marks.count = 0;
    memset(lift->typed, 0, sizeof lift->typed);
    if (lift->piece >= lift->im->lifting.piece_count)
        lift->piece = 0;
    return app_lift_redraw;
}

struct app_lift_effects app_lift_over(struct app_lift *lift, enum app_lift_page page)
{
    lift->beneath = lift->page;
    lift->page = page;
    return app_lift_redraw;
}

/* --- what lies under the cross ----------------------------------------------------------------------------------- */

struct geometry_motion *app_lift_motion(struct app_lift *lift)
{
    if (lift->page == APP_LIFT_WHOLE)
        return &lift->whole;
    return lift->page == APP_LIFT_POINTS ? &lift->flat : &lift->lies;
}

static double within(double value)
{
    return fmin(fmax(value, -MOST_PAN_MM), MOST_PAN_MM);
}

struct app_lift_effects app_lift_pan(struct app_lift *lift, double right, double away)
{
    struct geometry_motion *m = app_lift_motion(lift);
    vec2 by = vec2_add(vec2_scale(scene_side_right(lift->side), right), vec2_scale(scene_side_away(lift->side), away));
    m->shift = (vec2){ within(m->shift.x + by.x), within(m->shift.y + by.y) };
    return app_lift_redraw;
}

/* What the motion brings to the middle of the light. */
vec2 app_lift_under_cross(struct app_lift *lift)
{
    struct geometry_motion m = *app_lift_motion(lift);
    struct geometry_mover back = geometry_mover_of((struct geometry_motion){ .turn_deg = -m.turn_deg });
    vec2 p = geometry_move(&back, vec2_scale(m.shift, -1));
    return m.mirror ? (vec2){ -p.x, p.y } : p;
}

struct app_lift_effects app_lift_mark_place(struct app_lift *lift)
{
    if (lift->marks.count == 2)
        lift->marks.count = 0;
    lift->marks.at[lift->marks.count++] = app_lift_under_cross(lift);
    if (lift->marks.count < 2)
        return app_lift_redraw;
    return lift->page == APP_LIFT_POINTS ? app_lift_type(lift, APP_LIFT_TYPE_APART) : app_lift_mend_marked(lift);
}

/* --- saving ------------------------------------------------------------------------------------------------------ */

const char *app_lift_out(const struct app_lift *lift)
{
    return lift->out;
}

bool app_lift_replaces(const struct app_lift *lift)
{
    return lift->replace;
}

const char *app_lift_size(const struct app_lift *lift)
{
    if (!lift->im)
        return NULL;
    const struct lifting_division *d = &lift->im->division;
    if (d->size_count == 1)
        return d->sizes[0];
    return lift->im->choices.size_count == 1 ? lift->im->choices.sizes[0] : NULL;
}

void app_lift_saved(struct app_lift *lift, const char *kept)
{
    lift->kept = kept ? base_arena_copy_text(lift->a, kept) : NULL;
    lift->page = APP_LIFT_SAVED;
    lift->told = NULL;
}

void app_lift_not_saved(struct app_lift *lift, const char *sentence)
{
    app_lift_tell(lift, "%s", sentence);
}

void app_lift_is_there(struct app_lift *lift, bool is_there)
{
    lift->start.out_is_there = is_there;
}
