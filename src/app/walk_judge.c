/* What the readings so far give: a table and how true it is, a reading to question and what was probably meant. */
#include "app/sentence.h"
#include "app/walk_guess.h"
#include "app/walk_state.h"
#include "base/words.h"
#include "calibration/accuse.h"

#include <math.h>
#include <string.h>

enum { LEAST_SOLVED = 4, LEAST_QUESTIONED = 5 };

#define WORTH_ADDING 0.97 /* one more reading is spoken of where it lowers the worst doubt to less than this part */

static const struct app_walk_effects redraw = { .redraw = true }, changed = { .redraw = true, .save = true };

/* The cross that a sentence speaks of: its first number; else the one just read. */
static size_t accused(const struct app_walk *w, const struct err *e)
{
    size_t at = e->args[0].type == ERR_ARG_NUMBER ? app_walk_find(w, (int)e->args[0].number) : w->count;
    return at < w->count && w->items[at].read ? at : w->now;
}

/* Whether readings contradict each other, rather than being too few yet. */
static bool contradict(const struct err_list *errs)
{
    return base_err_list_has(errs, "calibration.contradict") || base_err_list_has(errs, "calibration.same_pixel");
}

/* The sentence of a refusal, or else of the first doubt, is kept to be shown. */
static void keep_sentence(struct app_walk *w, const struct err_list *errs)
{
    w->sentence = NULL;
    w->accused = w->now;
    for (int i = errs->count - 1; i >= 0; i--) {
        const struct err *e = &errs->items[i];
        bool laid = strcmp(e->kind->code, "calibration.floats") == 0; /* what floats is laid as she stands */
        if (laid || (!w->solved && e->kind->severity != ERR_FAULT))
            continue;
        w->sentence = app_sentence(w->said, e, w->start.unit);
        w->accused = accused(w, e);
    }
}

static void tell_next(struct app_walk *w)
{
    const struct calibration_solution *s = &w->solution;
    w->next_px = calibration_doubt_next(&s->map, &s->doubt, w->start.sigma_mm, &w->next_mm);
    w->worst_mm = calibration_doubt_worst_mm(&s->map, &s->doubt, &w->worst_px);
    w->has_next = !w->by_tape && w->next_mm < WORTH_ADDING * w->worst_mm && w->count < w->most;
}

static const char *unfixed_text(struct arena *a, size_t count)
{
    if (!count)
        return base_tr("None is read so far: at least four fix a table, and nine or more are best.");
    return base_arena_print(
        a,
        base_tr_count(count, "One cross is read so far: at least four fix a table, and nine or more are best.",
                      "%zu crosses are read so far: at least four fix a table, and nine or more are best."),
        count);
}

void app_walk_solve(struct app_walk *w)
{
    struct err_list *errs = base_err_list_create();
    w->solved_readings = app_walk_readings(w, w->said);
    if (w->follows)
        w->solved_readings = calibration_matscale_follow(w->said, &w->solved_readings, &w->scale);
    size_t count = w->solved_readings.count;
    w->repair.slip = CALIBRATION_SLIP_NONE;
    w->solved = count >= LEAST_SOLVED && calibration_solve_without_mistakes(w->said, NULL, &w->solved_readings,
                                                                            CALIBRATION_LENS_WEAK, &w->solution, errs);
    if (w->solved && w->solution.floats)
        app_walk_lay_afloat(w);
    if (w->solved) {
        calibration_question(NULL, &w->solution.map, errs);
        tell_next(w);
    }
    keep_sentence(w, errs);
    w->contradicts = contradict(errs);
    if (w->solved && w->solution.aside_count)
        w->repair = w->solution.aside[0];
    if (count < LEAST_SOLVED)
        w->sentence = unfixed_text(w->said, count);
    base_err_list_destroy(errs);
}

struct app_walk_effects app_walk_show_result(struct app_walk *w)
{
    app_walk_solve(w);
    w->page = APP_WALK_RESULT;
    return redraw;
}

struct app_walk_effects app_walk_go_on(struct app_walk *w)
{
    if (w->by_tape)
        return app_walk_next_tape(w);
    size_t next = app_walk_next_unread(w, w->now);
    if (next == w->count)
        return app_walk_offer_place(w) ? redraw : app_walk_show_result(w);
    app_walk_go_to(w, next);
    return redraw;
}

/* The readings with that of the cross shown now as the last. */
static struct calibration_readings readings_to_now(struct app_walk *w, struct arena *a)
{
    struct app_walk others = *w;
    const struct app_walk_item *now = &w->items[w->now];
    others.items = base_arena_alloc(a, w->count, sizeof *others.items);
    for (size_t i = 0; i < w->count; i++)
        others.items[i] = w->items[i];
    others.items[w->now].read = false;
    struct calibration_readings r = app_walk_readings(&others, a);
    r.items[r.count++] = app_walk_reading(now);
    return r;
}

/* Whether what was just read lies too far from where the others put it; the sentence and the repair are then kept. */
static bool is_doubtful(struct app_walk *w)
{
    struct arena *scratch = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct calibration_readings r = readings_to_now(w, scratch);
    bool doubtful = calibration_last_is_doubtful(&r, &w->repair);
    if (doubtful) {
        calibration_accuse(NULL, &r, CALIBRATION_ONE_WRONG, (struct calibration_repair[]){ w->repair, w->repair },
                           errs);
        w->sentence = app_sentence(w->said, &errs->items[0], w->start.unit);
        w->accused = w->now;
    }
    base_err_list_destroy(errs);
    base_arena_destroy(scratch);
    return doubtful;
}

struct app_walk_effects app_walk_judge(struct app_walk *w)
{
    size_t count = app_walk_readings(w, w->said).count;
    bool question = w->items[w->now].read && is_doubtful(w);
    if (!question && count >= LEAST_QUESTIONED) {
        app_walk_solve(w);
        question = w->contradicts && app_walk_next_unread(w, w->now) < w->count;
    }
    if (!question)
        app_walk_go_on(w);
    else
        w->page = APP_WALK_QUESTION;
    return changed;
}

static bool is_whole(double mm, double ruling_mm)
{
    return fabs(mm / ruling_mm - round(mm / ruling_mm)) < 1e-6;
}

/* Moved onto a crossing of rulings: that is met better than it is read between two. */
static bool is_nudged(const struct app_walk *w, const struct app_walk_item *item)
{
    struct calibration_readings mat = { .unit = w->start.unit, .mat = w->start.mat };
    double ruling = app_walk_ruling(&mat);
    bool moved = item->px.x != item->home.x || item->px.y != item->home.y;
    return moved && is_whole(item->at.x, ruling) && is_whole(item->at.y, ruling);
}

struct app_walk_effects app_walk_take(struct app_walk *w, struct table_pt at)
{
    struct app_walk_item *item = &w->items[w->now];
    item->read = true;
    item->beside = false;
    item->at = at;
    item->read_px = item->px;
    item->kind = w->placing || is_nudged(w, item) ? CALIBRATION_NUDGE : CALIBRATION_POSITION;
    return app_walk_judge(w);
}

struct app_walk_effects app_walk_leave_out(struct app_walk *w)
{
    w->items[w->now].beside = true;
    w->items[w->now].read = false;
    return app_walk_judge(w);
}

/* One more reading of a cross that was read before. */
static void add_reading(struct app_walk *w, const struct calibration_reading *is)
{
    if (w->count < w->most)
        w->items[w->count++] = (struct app_walk_item){ .number = is->cross,
                                                       .home = is->px,
                                                       .px = is->px,
                                                       .read_px = is->px,
                                                       .read = true,
                                                       .kind = is->kind,
                                                       .place = is->place,
                                                       .at = is->at };
}

/* It is another cross's reading: that one's, and this one is to be read still. */
static void give_to_another(struct app_walk *w, const struct calibration_reading *is)
{
    size_t meant = app_walk_find(w, is->cross);
    w->items[w->accused].read = false;
    if (meant == w->count || w->items[meant].read) {
        add_reading(w, is);
        return;
    }
    w->items[meant].read = true;
    w->items[meant].beside = false;
    w->items[meant].px = w->items[meant].read_px = is->px;
    w->items[meant].at = is->at;
}

struct app_walk_effects app_walk_correct(struct app_walk *w)
{
    const struct calibration_reading *is = &w->repair.repaired;
    if (w->repair.slip == CALIBRATION_SLIP_NONE)
        return redraw;
    if (is->kind == CALIBRATION_DISTANCE)
        app_walk_correct_tape(w, w->repair.index, is);
    else if (w->repair.slip == CALIBRATION_SLIP_CROSS)
        give_to_another(w, is);
    else
        w->items[w->accused].at = is->at;
    w->repair.slip = CALIBRATION_SLIP_NONE;
    app_walk_go_on(w);
    return changed;
}

int app_walk_new_number(const struct app_walk *w)
{
    int number = 0;
    for (size_t i = 0; i < w->count; i++)
        number = w->items[i].number > number ? w->items[i].number : number;
    return number + 1;
}

struct app_walk_effects app_walk_add_next(struct app_walk *w)
{
    if (!w->solved || !w->has_next || w->count == w->most)
        return redraw;
    struct px_pt home = { (int)w->next_px.x + 0.5, (int)w->next_px.y + 0.5 };
    w->items[w->count] =
        (struct app_walk_item){ .number = app_walk_new_number(w), .home = home, .px = home, .place = w->place };
    app_walk_go_to(w, w->count++);
    return redraw;
}
