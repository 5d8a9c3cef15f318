/* Every key of the walk, once: what it does on which page. Help, `chalklight keys` and the tests read the same rows. */
#include "app/hands.h"
#include "app/key_lines.h"
#include "app/walk_guess.h"
#include "app/walk_state.h"

#include "app/amount.h"
#include "base/words.h"
#include "input/key.h"
#include "units/typed.h"

#include <math.h>
#include <string.h>

#define FINEST_STEP_PX 0.25
#define COARSEST_STEP_PX 16.0
#define STEP_RATIO 4.0

enum { MOST_ONE_WAY = 4 }; /* presses at one step: more were not needed had the turn back been meant */

static const struct app_walk_effects redraw = { .redraw = true };

/* --- typing ------------------------------------------------------------------------------------------------------ */

/* One number was typed: along first, then away, and only both together make a reading. */
static struct app_walk_effects run_typed(struct app_walk *w, double unused)
{
    (void)unused;
    double mm;
    struct table_pt at = { w->along_mm, 0 };
    if (!units_typed_length(w->typed[w->field], w->start.unit, &mm)) {
        w->refusal = app_no_length(w->said, w->typed[w->field], base_tr("That is not a length: write 41.5 or 16 1/4"));
        return redraw;
    }
    *(w->field ? &at.y : &at.x) = mm;
    if (!calibration_on_mat(&w->start.mat, at)) {
        struct table_pt exchanged = { at.y, at.x };
        w->refusal = w->field && calibration_on_mat(&w->start.mat, exchanged)
                         ? base_tr("That lies beside the mat; exchanged it would not: along first, then away")
                         : base_tr("That lies beside the mat's rulings: read it again, or press B");
        return redraw;
    }
    w->along_mm = at.x;
    w->refusal = NULL;
    if (w->field++ == 0)
        return redraw;
    return app_walk_take(w, at);
}

static struct app_walk_effects run_rub_out(struct app_walk *w, double unused)
{
    (void)unused;
    size_t length = strlen(w->typed[w->field]);
    w->refusal = NULL;
    if (length)
        w->typed[w->field][length - 1] = '\0';
    else
        w->field = 0;
    return redraw;
}

/* --- placing ----------------------------------------------------------------------------------------------------- */

static struct app_walk_effects run_placed(struct app_walk *w, double unused)
{
    (void)unused;
    return app_walk_take(w, w->target);
}

/* One step that way; finer after a turn back, coarser again when she goes on and on. */
static double paced(struct app_walk_pace *pace, int direction)
{
    if (pace->last && direction != pace->last) {
        pace->step_px = fmax(FINEST_STEP_PX, pace->step_px / STEP_RATIO);
        pace->run = 0;
    } else if (pace->run >= MOST_ONE_WAY && pace->step_px < COARSEST_STEP_PX) {
        pace->step_px *= STEP_RATIO;
        pace->run = 0;
    }
    pace->last = direction;
    pace->run++;
    return direction * pace->step_px;
}

static struct app_walk_effects run_toward_right(struct app_walk *w, double direction)
{
    w->moved = true;
    return app_walk_nudge(w, paced(&w->pace[0], (int)direction), 0);
}

static struct app_walk_effects run_toward_away(struct app_walk *w, double direction)
{
    w->moved = true;
    return app_walk_nudge(w, 0, paced(&w->pace[1], (int)direction));
}

static struct app_walk_effects name_crossing(struct app_walk *w, double along, double away)
{
    struct arena *scratch = base_arena_create();
    struct calibration_readings r = app_walk_readings(w, scratch);
    double ruling = app_walk_ruling(&r);
    w->target = app_walk_crossing(&r, (struct table_pt){ w->target.x + along * ruling, w->target.y + away * ruling });
    base_arena_destroy(scratch);
    return redraw;
}

static struct app_walk_effects run_name_along(struct app_walk *w, double by)
{
    return name_crossing(w, by, 0);
}

static struct app_walk_effects run_name_away(struct app_walk *w, double by)
{
    return name_crossing(w, 0, by);
}

/* --- both -------------------------------------------------------------------------------------------------------- */

static struct app_walk_effects run_across(struct app_walk *w, double px)
{
    return app_walk_nudge(w, px, 0);
}

static struct app_walk_effects run_away(struct app_walk *w, double px)
{
    return app_walk_nudge(w, 0, px);
}

static struct app_walk_effects run_beside(struct app_walk *w, double unused)
{
    (void)unused;
    return app_walk_leave_out(w);
}

static struct app_walk_effects run_step(struct app_walk *w, double by)
{
    app_walk_go_to(w, (w->now + w->count + (size_t)(by < 0 ? -1 : 1)) % w->count);
    return redraw;
}

static struct app_walk_effects run_side(struct app_walk *w, double by)
{
    const struct app_walk_item *item = &w->items[w->now];
    w->quarter = (w->quarter + 4 + (by < 0 ? -1 : 1)) % 4;
    if (w->page == APP_WALK_PLACE && item->px.x == item->home.x && item->px.y == item->home.y)
        app_walk_name(w);
    return redraw;
}

static struct app_walk_effects run_result(struct app_walk *w, double unused)
{
    (void)unused;
    if (w->page == APP_WALK_LAY)
        app_walk_leave_place(w);
    return app_walk_show_result(w);
}

static void judge_by(struct app_walk *w, bool placing, bool presenter)
{
    w->placing = placing;
    w->presenter = presenter;
    if (w->by_tape) {
        app_walk_next_tape(w);
        return;
    }
    if (w->page == APP_WALK_START && app_walk_next_unread(w, 0) == w->count) {
        app_walk_go_on(w); /* all were read before */
        return;
    }
    w->page = placing ? APP_WALK_PLACE : APP_WALK_TYPE;
    if (placing)
        app_walk_aim(w);
}

static struct app_walk_effects run_type(struct app_walk *w, double unused)
{
    (void)unused;
    judge_by(w, false, false);
    return redraw;
}

static struct app_walk_effects run_place(struct app_walk *w, double presenter)
{
    judge_by(w, true, presenter != 0);
    return redraw;
}

/* --- questions --------------------------------------------------------------------------------------------------- */

static struct app_walk_effects run_read_again(struct app_walk *w, double unused)
{
    (void)unused;
    w->items[w->accused].read = false;
    app_walk_go_to(w, w->accused);
    return (struct app_walk_effects){ .redraw = true, .save = true };
}

static struct app_walk_effects run_keep(struct app_walk *w, double unused)
{
    (void)unused;
    return app_walk_go_on(w);
}

/* What the sentence speaks of is read, or measured, again. */
static struct app_walk_effects run_again(struct app_walk *w, double unused)
{
    if (!w->solved || !w->solution.aside_count)
        return redraw;
    if (w->repair.repaired.kind == CALIBRATION_DISTANCE)
        return app_walk_tape_again(w, w->repair.index);
    return run_read_again(w, unused);
}

/* A presenter's Page Down and Page Up on the result: where a reading was left out, correct it or read it again; else
 * the next or previous cross. */
static struct app_walk_effects run_result_step(struct app_walk *w, double by)
{
    if (w->solved && w->solution.aside_count)
        return by < 0 ? run_again(w, 0) : app_walk_correct(w);
    if (w->by_tape)
        return app_walk_step_tape(w, by < 0 ? -1 : 1);
    return run_step(w, by);
}

static struct app_walk_effects run_correct(struct app_walk *w, double unused)
{
    (void)unused;
    return app_walk_correct(w);
}

static struct app_walk_effects run_add_next(struct app_walk *w, double unused)
{
    (void)unused;
    return app_walk_add_next(w);
}

static struct app_walk_effects run_doubt(struct app_walk *w, double unused)
{
    (void)unused;
    if (!w->solved)
        return redraw;
    bool places = w->page == APP_WALK_DOUBT && w->doubt_of == SCENE_DOUBT_OF_PLACES;
    w->page = w->page == APP_WALK_DOUBT && !places ? APP_WALK_RESULT : APP_WALK_DOUBT;
    w->doubt_of = places ? SCENE_DOUBT_OF_LINES : SCENE_DOUBT_OF_PLACES;
    return redraw;
}

static struct app_walk_effects run_choose_surface(struct app_walk *w, double by)
{
    return app_walk_choose_surface(w, by < 0 ? -1 : 1);
}

static struct app_walk_effects run_take_surface(struct app_walk *w, double unused)
{
    (void)unused;
    return app_walk_take_surface(w, w->surface);
}

static struct app_walk_effects run_taped(struct app_walk *w, double unused)
{
    (void)unused;
    return app_walk_taped(w);
}

/* By a presenter: longer, shorter, finer after each turn back. */
static struct app_walk_effects run_set_tape(struct app_walk *w, double direction)
{
    w->adjusted_mm += w->touched ? paced(&w->pace[0], (int)direction) : 0; /* the first press only shows the length */
    w->touched = true;
    return redraw;
}

static struct app_walk_effects run_step_tape(struct app_walk *w, double by)
{
    return app_walk_step_tape(w, by < 0 ? -1 : 1);
}

static struct app_walk_effects run_mat_lies(struct app_walk *w, double unused)
{
    (void)unused;
    return app_walk_mat_lies(w);
}

static struct app_walk_effects run_accept(struct app_walk *w, double unused)
{
    (void)unused;
    return w->solved ? app_walk_begin_check(w) : redraw;
}

static struct app_walk_effects run_measured(struct app_walk *w, double unused)
{
    (void)unused;
    return app_walk_measured(w);
}

static struct app_walk_effects run_adjust(struct app_walk *w, double steps)
{
    return app_walk_adjust(w, steps);
}

static struct app_walk_effects run_checked(struct app_walk *w, double unused)
{
    (void)unused;
    return app_walk_show_checked(w);
}

static struct app_walk_effects run_follow_tape(struct app_walk *w, double unused)
{
    (void)unused;
    return app_walk_follow_tape(w);
}

static struct app_walk_effects run_save(struct app_walk *w, double unused)
{
    (void)unused;
    return app_walk_lay_stickers(w);
}

static struct app_walk_effects turn_over(struct app_walk *w, enum app_walk_page page)
{
    w->beneath = w->page;
    w->page = page;
    return redraw;
}

static struct app_walk_effects run_ask_leave(struct app_walk *w, double unused)
{
    (void)unused;
    return turn_over(w, APP_WALK_LEAVE);
}

static struct app_walk_effects run_ask_anew(struct app_walk *w, double unused)
{
    (void)unused;
    return turn_over(w, APP_WALK_ANEW);
}

static struct app_walk_effects run_anew(struct app_walk *w, double unused)
{
    (void)w, (void)unused;
    return (struct app_walk_effects){ .redraw = true, .anew = true };
}

static struct app_walk_effects run_help(struct app_walk *w, double unused)
{
    (void)unused;
    return turn_over(w, APP_WALK_HELP);
}

static struct app_walk_effects run_lock(struct app_walk *w, double unused)
{
    (void)unused;
    w->locked = !w->locked;
    return redraw;
}

static struct app_walk_effects run_quit(struct app_walk *w, double unused)
{
    (void)w, (void)unused;
    return (struct app_walk_effects){ .quit = true };
}

/* --- check stickers ---------------------------------------------------------------------------------------------- */

static struct app_walk_effects run_lay(struct app_walk *w, double unused)
{
    (void)unused;
    return app_walk_lay(w, true);
}

static struct app_walk_effects run_no_sticker(struct app_walk *w, double unused)
{
    (void)unused;
    return app_walk_lay(w, false);
}

static struct app_walk_effects run_step_mark(struct app_walk *w, double by)
{
    return app_walk_take_mark(w, by < 0 ? -1 : 1);
}

static struct app_walk_effects run_enough(struct app_walk *w, double unused)
{
    (void)w, (void)unused;
    return (struct app_walk_effects){ .done = true, .end = true };
}

/* --- a presenter's few keys -------------------------------------------------------------------------------------- */

#define ON(page) (1u << (page))

enum {
    CAUTIONS = ON(APP_WALK_CAUTIONS),
    SURFACE = ON(APP_WALK_SURFACE),
    START = ON(APP_WALK_START),
    TYPE = ON(APP_WALK_TYPE),
    PLACE = ON(APP_WALK_PLACE),
    TAPE = ON(APP_WALK_TAPE),
    QUESTION = ON(APP_WALK_QUESTION),
    LAY = ON(APP_WALK_LAY),
    RESULT = ON(APP_WALK_RESULT),
    DOUBT = ON(APP_WALK_DOUBT),
    CHECK = ON(APP_WALK_CHECK),
    CHECKED = ON(APP_WALK_CHECKED),
    STICKERS = ON(APP_WALK_STICKERS),
    LEAVE = ON(APP_WALK_LEAVE),
    ANEW = ON(APP_WALK_ANEW),
    HELP = ON(APP_WALK_HELP),
    CROSS = TYPE | PLACE,
    MOVED = PLACE | STICKERS,
    EVERY = CROSS | TAPE | QUESTION | LAY | RESULT | DOUBT | CHECK | CHECKED | STICKERS,
};

/* What Page Down does with the amount, and Page Up with its opposite. */
static const struct way {
    unsigned on;
    const char *words;
    struct app_walk_effects (*run)(struct app_walk *, double);
    bool moves;
} ways[] = {
    { MOVED, BASE_TR("Page Down: right · Page Up: left"), run_toward_right, true },
    { MOVED, BASE_TR("Page Down: away · Page Up: toward you"), run_toward_away, true },
    { PLACE, BASE_TR("Page Down, Page Up: name another ruling along"), run_name_along, false },
    { PLACE, BASE_TR("Page Down, Page Up: name another ruling away"), run_name_away, false },
    { PLACE, BASE_TR("Page Down, Page Up: next or previous cross"), run_step, false },
    { STICKERS, BASE_TR("Page Down, Page Up: next or previous mark"), run_step_mark, false },
    { STICKERS, BASE_TR("Page Down: no sticker here"), run_no_sticker, false },
    { STICKERS, BASE_TR("Page Down: enough, all is done"), run_enough, false },
    { PLACE, BASE_TR("Page Down: it cannot be laid on the mat"), run_beside, false },
    { MOVED, BASE_TR("Page Down, Page Up: turn the words to another side"), run_side, false },
    { PLACE, BASE_TR("Page Down: enough, show what the readings give"), run_result, false },
    { PLACE, BASE_TR("Page Down: leave; the readings are kept"), run_ask_leave, false },
};

enum { WAYS = sizeof ways / sizeof ways[0] };

const char *app_walk_way_words(const struct app_walk *w, struct arena *a)
{
    const struct way *way = &ways[w->way];
    const char *words = base_tr(way->words);
    if (!way->moves)
        return words;
    double step = w->pace[w->way].step_px;
    /* To: “Page Down: right · Page Up: left, by 4 pixels” */
    return base_arena_print(a, base_tr_count(step > 1 ? (size_t)step : 1, "%s, by %s pixel", "%s, by %s pixels"), words,
                            app_decimal(a, step, 2));
}

static struct app_walk_effects run_way(struct app_walk *w, double by)
{
    return ways[w->way].run(w, by);
}

/* Once the cross was moved, B goes back and forth between its two directions; pressed again at once, further on. */
static struct app_walk_effects run_other_way(struct app_walk *w, double unused)
{
    (void)unused;
    if (w->moved && ways[w->way].moves)
        w->way = 1 - w->way;
    else
        do
            w->way = (w->way + 1) % WAYS;
        while (!(ways[w->way].on & ON(w->page)));
    w->moved = false;
    return redraw;
}

static struct app_walk_effects go_back(struct app_walk *w)
{
    w->page = w->beneath;
    return redraw;
}

/* Back from where the mat is to be laid: it will be asked for again. */
static struct app_walk_effects run_not_yet(struct app_walk *w)
{
    app_walk_put_off_place(w);
    return run_step(w, -1);
}

/* A presenter's start key sends F5 and Esc by turns; on a keyboard Esc goes back. */
static struct app_walk_effects run_escape(struct app_walk *w, double unused)
{
    switch (w->page) {
    case APP_WALK_PLACE:
        return w->presenter ? run_placed(w, unused) : run_type(w, unused);
    case APP_WALK_QUESTION:
        return run_read_again(w, unused);
    case APP_WALK_RESULT:
        return w->presenter ? run_accept(w, unused) : run_step(w, -1);
    case APP_WALK_LEAVE:
        return w->presenter ? run_quit(w, unused) : go_back(w);
    case APP_WALK_TAPE:
        return w->presenter ? run_taped(w, unused) : run_step_tape(w, -1);
    case APP_WALK_LAY:
        return w->presenter ? run_mat_lies(w, unused) : run_not_yet(w);
    case APP_WALK_DOUBT:
        return app_walk_show_result(w);
    case APP_WALK_CHECK:
        return w->presenter ? run_measured(w, unused) : app_walk_show_result(w);
    case APP_WALK_CHECKED:
        return w->presenter ? run_save(w, unused) : app_walk_begin_check(w);
    case APP_WALK_STICKERS:
        return w->presenter ? run_lay(w, unused) : app_walk_show_result(w);
    case APP_WALK_CAUTIONS:
    case APP_WALK_SURFACE:
    case APP_WALK_START:
    case APP_WALK_TYPE:
    case APP_WALK_ANEW:
    case APP_WALK_HELP:
        break;
    }
    return redraw;
}

/* --- the rows ---------------------------------------------------------------------------------------------------- */

static const struct walk_key {
    struct app_key key;
    struct app_walk_effects (*run)(struct app_walk *, double);
    double amount;
} key_rows[] = {
    { { TYPE, KEY_ENTER, 0, BASE_TR("take what is typed") }, run_typed, 0 },
    { { SURFACE, KEY_ENTER, 0, BASE_TR("it is the one that is marked") }, run_take_surface, 0 },
    { { SURFACE, KEY_F5, 0, NULL }, run_take_surface, 0 },
    { { SURFACE, KEY_F5, MOD_SHIFT, NULL }, run_take_surface, 0 },
    { { SURFACE, KEY_PAGE_DOWN, 0, BASE_TR("mark the next one, or the one before") }, run_choose_surface, +1 },
    { { SURFACE, KEY_PAGE_UP, 0, NULL }, run_choose_surface, -1 },
    { { TAPE, KEY_ENTER, 0, BASE_TR("so far apart they are; nothing typed: not measured") }, run_taped, 0 },
    { { TAPE, KEY_F5, 0, NULL }, run_taped, 0 },
    { { TAPE, KEY_F5, MOD_SHIFT, NULL }, run_taped, 0 },
    { { TAPE, KEY_PAGE_DOWN, 0, BASE_TR("by a presenter: longer, shorter; turned back, finer") }, run_set_tape, +1 },
    { { TAPE, KEY_PAGE_UP, 0, NULL }, run_set_tape, -1 },
    { { TAPE, KEY_UP, 0, BASE_TR("the pair before, or the next") }, run_step_tape, -1 },
    { { TAPE, KEY_DOWN, 0, NULL }, run_step_tape, +1 },
    { { TAPE, KEY_CHAR + 'b', 0, BASE_TR("enough, show what the distances give") }, run_result, 0 },
    { { CHECK, KEY_ENTER, 0, BASE_TR("so long it is by the tape; nothing typed: not measured") }, run_measured, 0 },
    { { CHECK, KEY_F5, 0, NULL }, run_measured, 0 },
    { { CHECK, KEY_F5, MOD_SHIFT, NULL }, run_measured, 0 },
    { { CHECK, KEY_PAGE_DOWN, 0, BASE_TR("by a presenter: longer, shorter") }, run_adjust, +1 },
    { { CHECK, KEY_PAGE_UP, 0, NULL }, run_adjust, -1 },
    { { CHECK, KEY_END, 0, BASE_TR("measure no more") }, run_checked, 0 },
    { { CHECK, KEY_CHAR + 'b', 0, NULL }, run_checked, 0 },
    { { CHECKED, KEY_CHAR + 't', 0, BASE_TR("the rulings are off: follow the tape") }, run_follow_tape, 0 },
    { { CHECKED, KEY_CHAR + '5', 0, NULL }, run_follow_tape, 0 },
    { { CHECKED, KEY_PAGE_DOWN, 0, NULL }, run_follow_tape, 0 },
    { { CHECKED, KEY_ENTER, 0, BASE_TR("save the table") }, run_save, 0 },
    { { CHECKED, KEY_F5, 0, NULL }, run_save, 0 },
    { { CHECKED, KEY_F5, MOD_SHIFT, NULL }, run_save, 0 },
    { { TYPE | TAPE | CHECK, KEY_BACKSPACE, 0, BASE_TR("rub out") }, run_rub_out, 0 },
    { { TYPE | TAPE | CHECK, KEY_CHAR + '+', 0, NULL }, run_rub_out, 0 },
    { { TYPE, KEY_CHAR + 'b', 0, BASE_TR("it falls beside the mat") }, run_beside, 0 },
    { { TYPE, KEY_CHAR + '*', 0, BASE_TR("on the number pad (Num Lock lit): move it instead") }, run_place, 0 },
    { { TYPE, KEY_F5, 0, BASE_TR("by a presenter: move it instead") }, run_place, 1 },
    { { PLACE, KEY_ENTER, 0, BASE_TR("it lies on the crossing that is named") }, run_placed, 0 },
    { { PLACE, KEY_F5, 0, NULL }, run_placed, 0 },
    { { PLACE, KEY_F5, MOD_SHIFT, NULL }, run_placed, 0 },
    { { STICKERS, KEY_ENTER, 0, BASE_TR("the mark lies on its sticker") }, run_lay, 0 },
    { { STICKERS, KEY_F5, 0, NULL }, run_lay, 0 },
    { { STICKERS, KEY_F5, MOD_SHIFT, NULL }, run_lay, 0 },
    { { STICKERS, KEY_CHAR + '0', 0, BASE_TR("no sticker here") }, run_no_sticker, 0 },
    { { MOVED, KEY_CHAR + '4', 0, BASE_TR("move it left or right; turned back, finer") }, run_toward_right, -1 },
    { { MOVED, KEY_CHAR + '6', 0, NULL }, run_toward_right, +1 },
    { { MOVED, KEY_CHAR + '8', 0, BASE_TR("move it away or toward you; turned back, finer") }, run_toward_away, +1 },
    { { MOVED, KEY_CHAR + '2', 0, NULL }, run_toward_away, -1 },
    { { PLACE, KEY_CHAR + '0', 0, BASE_TR("it falls beside the mat") }, run_beside, 0 },
    { { PLACE, KEY_CHAR + '*', 0, BASE_TR("type where it falls instead") }, run_type, 0 },
    { { MOVED, KEY_PAGE_DOWN, 0, BASE_TR("what the words in the picture say") }, run_way, +1 },
    { { MOVED, KEY_PAGE_UP, 0, NULL }, run_way, -1 },
    { { MOVED, KEY_CHAR + 'b', 0, BASE_TR("Page Down and Page Up do something else") }, run_other_way, 0 },
    { { MOVED, KEY_CHAR + '.', 0, NULL }, run_other_way, 0 },
    { { CROSS | STICKERS, KEY_LEFT, 0, BASE_TR("nudge it by a pixel") }, run_across, -1 },
    { { CROSS | STICKERS, KEY_RIGHT, 0, NULL }, run_across, +1 },
    { { CROSS | STICKERS, KEY_UP, 0, NULL }, run_away, +1 },
    { { CROSS | STICKERS, KEY_DOWN, 0, NULL }, run_away, -1 },
    { { CROSS | STICKERS, KEY_LEFT, MOD_CTRL, BASE_TR("by a quarter of a pixel") }, run_across, -0.25 },
    { { CROSS | STICKERS, KEY_RIGHT, MOD_CTRL, NULL }, run_across, +0.25 },
    { { CROSS | STICKERS, KEY_UP, MOD_CTRL, NULL }, run_away, +0.25 },
    { { CROSS | STICKERS, KEY_DOWN, MOD_CTRL, NULL }, run_away, -0.25 },
    { { CROSS | STICKERS, KEY_LEFT, MOD_SHIFT, BASE_TR("by sixteen pixels") }, run_across, -16 },
    { { CROSS | STICKERS, KEY_RIGHT, MOD_SHIFT, NULL }, run_across, +16 },
    { { CROSS | STICKERS, KEY_UP, MOD_SHIFT, NULL }, run_away, +16 },
    { { CROSS | STICKERS, KEY_DOWN, MOD_SHIFT, NULL }, run_away, -16 },
    { { LAY, KEY_ENTER, 0, BASE_TR("the mat lies there") }, run_mat_lies, 0 },
    { { LAY, KEY_F5, 0, NULL }, run_mat_lies, 0 },
    { { LAY, KEY_F5, MOD_SHIFT, NULL }, run_mat_lies, 0 },
    { { LAY, KEY_CHAR + 'b', 0, BASE_TR("leave it at what was read") }, run_result, 0 },
    { { LAY, KEY_CHAR + '.', 0, NULL }, run_result, 0 },
    { { QUESTION, KEY_ENTER, 0, BASE_TR("read it again") }, run_read_again, 0 },
    { { QUESTION, KEY_F5, 0, NULL }, run_read_again, 0 },
    { { QUESTION, KEY_CHAR + 'k', 0, BASE_TR("keep it for now") }, run_keep, 0 },
    { { QUESTION, KEY_CHAR + '+', 0, NULL }, run_keep, 0 },
    { { QUESTION, KEY_CHAR + 'b', 0, NULL }, run_keep, 0 },
    { { QUESTION, KEY_CHAR + '.', 0, NULL }, run_keep, 0 },
    { { QUESTION | RESULT, KEY_CHAR + 'c', 0, BASE_TR("correct it to what was probably meant") }, run_correct, 0 },
    { { QUESTION | RESULT, KEY_CHAR + '5', 0, NULL }, run_correct, 0 },
    { { QUESTION, KEY_PAGE_DOWN, 0, NULL }, run_correct, 0 },
    { { RESULT, KEY_CHAR + 'r', 0, BASE_TR("read again what was left out") }, run_again, 0 },
    { { RESULT, KEY_CHAR + '0', 0, NULL }, run_again, 0 },
    { { RESULT | DOUBT, KEY_CHAR + 'n', 0, BASE_TR("read one more cross, where it helps most") }, run_add_next, 0 },
    { { RESULT | DOUBT, KEY_CHAR + '+', 0, NULL }, run_add_next, 0 },
    { { RESULT | DOUBT, KEY_CHAR + 'd', 0, BASE_TR("how true the table is, and back") }, run_doubt, 0 },
    { { RESULT | DOUBT, KEY_CHAR + '.', 0, NULL }, run_doubt, 0 },
    { { RESULT | DOUBT, KEY_CHAR + 'b', 0, NULL }, run_doubt, 0 },
    { { DOUBT, KEY_ENTER, 0, NULL }, run_doubt, 0 },
    { { DOUBT, KEY_F5, 0, NULL }, run_doubt, 0 },
    { { RESULT, KEY_ENTER, 0, BASE_TR("take this table: hold a tape to it") }, run_accept, 0 },
    { { RESULT, KEY_F5, 0, NULL }, run_accept, 0 },
    { { TYPE, KEY_PAGE_DOWN, 0, BASE_TR("next or previous cross") }, run_step, +1 },
    { { TYPE, KEY_PAGE_UP, 0, NULL }, run_step, -1 },
    { { RESULT, KEY_PAGE_DOWN, 0, BASE_TR("next or previous cross; correct, or read again, what was left out") },
      run_result_step,
      +1 },
    { { RESULT, KEY_PAGE_UP, 0, NULL }, run_result_step, -1 },
    { { DOUBT, KEY_PAGE_DOWN, 0, BASE_TR("by a presenter: read one more cross") }, run_add_next, 0 },
    { { PLACE | QUESTION | RESULT, KEY_CHAR + '3', 0, BASE_TR("on the number pad: next or previous cross") },
      run_step,
      +1 },
    { { PLACE | QUESTION | RESULT, KEY_CHAR + '9', 0, NULL }, run_step, -1 },
    { { STICKERS, KEY_CHAR + '3', 0, BASE_TR("next or previous mark") }, run_step_mark, +1 },
    { { STICKERS, KEY_CHAR + '9', 0, NULL }, run_step_mark, -1 },
    { { STICKERS, KEY_END, 0, BASE_TR("enough, all is done") }, run_enough, 0 },
    { { STICKERS, KEY_CHAR + '1', 0, NULL }, run_enough, 0 },
    { { CROSS | TAPE | QUESTION | LAY, KEY_END, 0, BASE_TR("what the readings made so far give") }, run_result, 0 },
    { { PLACE | QUESTION | LAY, KEY_CHAR + '1', 0, BASE_TR("on the number pad: the same") }, run_result, 0 },
    { { EVERY | CAUTIONS | SURFACE | START, KEY_TAB, 0, BASE_TR("you stand on another side") }, run_side, +1 },
    { { PLACE | QUESTION | LAY | RESULT | DOUBT | CHECKED | STICKERS, KEY_CHAR + '7', 0,
        BASE_TR("on the number pad: the same") },
      run_side,
      +1 },
    { { START, KEY_BUTTON_NEAR, 0, BASE_TR("begin with a game controller") }, run_place, 0 },
    { { START, KEY_F5, 0, BASE_TR("begin with a presenter") }, run_place, 1 },
    { { START, KEY_PAGE_DOWN, 0, NULL }, run_place, 1 },
    { { START, KEY_CHAR + '*', 0, BASE_TR("begin with a number pad") }, run_place, 0 },
    { { LEAVE, KEY_ENTER, 0, BASE_TR("leave") }, run_quit, 0 },
    { { LEAVE, KEY_F5, 0, NULL }, run_quit, 0 },
    { { EVERY | LEAVE, KEY_ESC, 0, BASE_TR("back; of a presenter, the same as F5") }, run_escape, 0 },
    { { EVERY | START, KEY_CHAR + 'n', MOD_CTRL, BASE_TR("begin afresh, as projector or mat was moved") },
      run_ask_anew,
      0 },
    { { ANEW, KEY_ENTER, 0, BASE_TR("begin afresh") }, run_anew, 0 },
    { { ANEW, KEY_F5, 0, NULL }, run_anew, 0 },
    { { EVERY, KEY_F1, 0, BASE_TR("these keys") }, run_help, 0 },
    { { EVERY, KEY_CHAR + 'h', 0, NULL }, run_help, 0 },
    { { PLACE | QUESTION | RESULT | STICKERS, KEY_CHAR + '/', 0, BASE_TR("leave, asked once; the readings are kept") },
      run_ask_leave,
      0 },
    { { EVERY | SURFACE | START | LEAVE | ANEW, KEY_CHAR + 'l', MOD_CTRL,
        BASE_TR("lock all keys, against children and cats; unlock them") },
      run_lock,
      0 },
    { { EVERY | CAUTIONS | SURFACE | START | LEAVE | ANEW | HELP, KEY_CHAR + 'q', MOD_CTRL,
        BASE_TR("leave; the readings are kept") },
      run_quit,
      0 },
};

static const struct app_key_table key_table = { key_rows, sizeof key_rows / sizeof key_rows[0], sizeof key_rows[0],
                                                APP_KEYS_SET_UP };

const struct app_key_table *app_walk_key_table(void)
{
    return &key_table;
}

size_t app_walk_page_keys(struct arena *a, const struct app_key_map *map, enum app_walk_page page,
                          const struct scene_help_line **out)
{
    return app_table_lines(a, &key_table, map, ON(page), out);
}

size_t app_walk_help_lines(struct arena *a, const struct app_key_map *map, int list, const char **title,
                           const char **name, const struct scene_help_line **out)
{
    static const struct {
        enum app_walk_page page;
        const char *title, *name;
    } lists[APP_WALK_KEY_LISTS] = {
        { APP_WALK_TYPE, BASE_TR("While setting up the table, typing where a cross falls"), "setting_up" },
        { APP_WALK_PLACE, BASE_TR("Moving a cross onto a crossing of rulings, by number pad or presenter"), "placing" },
        { APP_WALK_SURFACE, BASE_TR("Choosing what lies on the table"), "surface" },
        { APP_WALK_TAPE, BASE_TR("Telling how far apart two crosses are"), "distances" },
        { APP_WALK_QUESTION, BASE_TR("When a reading is questioned"), "question" },
        { APP_WALK_RESULT, BASE_TR("When all crosses are read"), "result" },
        { APP_WALK_CHECK, BASE_TR("Holding a tape to lines of light"), "tape" },
        { APP_WALK_STICKERS, BASE_TR("Laying marks on check stickers"), "stickers" },
    };
    *title = base_tr(lists[list].title);
    *name = lists[list].name;
    return app_walk_page_keys(a, map, lists[list].page, out);
}

/* --- events ------------------------------------------------------------------------------------------------------ */

/* What a length is written with. */
static bool is_of_a_length(int key)
{
    return key == KEY_SPACE || (key > KEY_CHAR && key < KEY_CHAR + 0x80 && strchr("0123456789.,/-", key - KEY_CHAR));
}

static void type(struct app_walk *w, int key)
{
    size_t length = strlen(w->typed[w->field]);
    w->refusal = NULL;
    if (length + 1 < APP_WALK_TYPED)
        w->typed[w->field][length] = key == KEY_SPACE ? ' ' : (char)(key - KEY_CHAR);
}

/* A key without a row: a character of a length, or any key where any key will do. */
static struct app_walk_effects press_other(struct app_walk *w, int key, int mods)
{
    switch (w->page) {
    case APP_WALK_CAUTIONS:
        w->page = app_walk_asks_surface(w) ? APP_WALK_SURFACE : APP_WALK_START;
        break;
    case APP_WALK_SURFACE:
        if (key > KEY_CHAR + '0' && key <= KEY_CHAR + '9')
            return app_walk_take_surface(w, (size_t)(key - KEY_CHAR - '1'));
        break;
    case APP_WALK_START:
        if (w->by_tape)
            return app_walk_next_tape(w);
        if (app_walk_next_unread(w, 0) == w->count)
            return app_walk_go_on(w);
        judge_by(w, false, false);
        break;
    case APP_WALK_TYPE:
    case APP_WALK_TAPE:
    case APP_WALK_CHECK:
        if (!mods && is_of_a_length(key))
            type(w, key);
        break;
    case APP_WALK_HELP:
    case APP_WALK_LEAVE:
    case APP_WALK_ANEW:
        return go_back(w);
    case APP_WALK_PLACE:
    case APP_WALK_QUESTION:
    case APP_WALK_RESULT:
    case APP_WALK_LAY:
    case APP_WALK_DOUBT:
    case APP_WALK_CHECKED:
    case APP_WALK_STICKERS:
        break;
    }
    return redraw;
}

/* What says that something lies there, or is so long. */
static bool is_taking(const struct app_walk *w, const struct walk_key *row)
{
    static struct app_walk_effects (*const taking[])(
        struct app_walk *, double) = { run_placed,       run_lay,    run_no_sticker, run_taped, run_measured,
                                       run_take_surface, run_accept, run_mat_lies,   run_save };
    for (size_t i = 0; i < sizeof taking / sizeof taking[0]; i++)
        if (row->run == taking[i])
            return true;
    return row->run == run_escape && w->presenter;
}

static struct app_walk_effects press(struct app_walk *w, struct input_event *event)
{
    if (!app_key_map_usual(w->start.keys, APP_KEYS_SET_UP, &event->key, &event->mods))
        event->key = KEY_NONE;
    int key = event->key, mods = event->mods;
    if (w->locked && (!app_is_lock_key(event) || event->is_repeat))
        return (struct app_walk_effects){ 0 };
    const struct walk_key *row = app_find_row(&key_table, ON(w->page), key, mods);
    if (row && is_taking(w, row) && !app_lockout_takes(&w->lockout, event))
        return (struct app_walk_effects){ 0 };
    return row ? row->run(w, row->amount) : press_other(w, key, mods);
}

/* Either stick moves the cross, or the mark in hand. */
static struct app_walk_effects steer(struct app_walk *w, const struct input_event *event)
{
    static const double px_per_s = 250;
    vec2 by =
        vec2_add(app_steered(event->left, event->held_s, px_per_s), app_steered(event->right, event->held_s, px_per_s));
    if (w->locked || !((CROSS | STICKERS) & ON(w->page)) || (by.x == 0 && by.y == 0))
        return (struct app_walk_effects){ 0 };
    return app_walk_nudge(w, by.x, by.y);
}

struct app_walk_effects app_walk_handle(struct app_walk *w, struct input_event event)
{
    switch (event.type) {
    case INPUT_KEY:
        return press(w, &event);
    case INPUT_STICKS:
        return steer(w, &event);
    case INPUT_EXPOSE:
    case INPUT_SIZE:
    case INPUT_MOVED:
        return redraw;
    case INPUT_QUIT:
        return (struct app_walk_effects){ .quit = !w->locked };
    case INPUT_POINT: /* nothing on the table is pressed by the mouse */
    case INPUT_WHEEL:
    case INPUT_DROP:
    case INPUT_NONE:
        break;
    }
    return (struct app_walk_effects){ 0 };
}
