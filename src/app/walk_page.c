/* What the walk shows: crosses and sentences. */
#include "app/hands.h"
#include "app/walk_state.h"

#include "app/amount.h"
#include "app/app.h"
#include "base/words.h"
#include "base/wrap.h"

#include <math.h>

enum { COLUMNS = 60, MOST_LINES = 12, LINE_POINTS = 65, LEAST_TOLD = 6 };

#define MISS_PX_PER_MM 60.0 /* how long the line is that shows by how much a reading is out */
#define LONGEST_MISS_PX 90.0
#define LEAST_MISS_MM 0.05 /* rounds to 0.0: no line */

/* Warm-up: makers' manuals speak of 15 to 30 minutes until a lamp's picture stands still; common practice, no source.
 */
static void start_lines(const struct app_walk *w, struct arena *a, const char **lines)
{
    size_t read = app_walk_readings(w, a).count;
    *lines++ = base_tr("Make projector and mat ready");
    if (read)
        *lines++ = base_arena_print(
            a,
            base_tr_count(read, "%zu reading is there. Was projector or mat moved since? Ctrl N: begin afresh",
                          "%zu readings are there. Was projector or mat moved since? Ctrl N: begin afresh"),
            read);
    *lines++ = base_tr("Let it warm up: for 15 to 30 minutes the picture still creeps.");
    *lines++ = base_tr("Switch its own picture correction (keystone) off; square the light up by the mount.");
    *lines++ = base_tr("Focus until the finest lines are sharp, in the corners too.");
    *lines++ = base_arena_print(a, base_tr("Waves in the fine chequer: the picture is resized. Set it to %d × %d."),
                                w->start.width_px, w->start.height_px);
    *lines++ = w->by_tape ? base_tr("Have a good tape at hand; the table has to be flat.")
                          : base_tr("Lay the mat flat in the light, its zero at your left and near you.");
    *lines++ = base_tr("Any key: begin · Tab: turn the words to you · *: by number pad");
    *lines++ = base_tr("Page Down or F5: begin with a presenter");
}

static const char *surface_text(const struct app_walk *w, struct arena *a, size_t choice)
{
    if (choice >= w->start.mat_count)
        return app_walk_surface_name(w, choice);
    const struct calibration_mat *mat = &w->start.mats[choice];
    double unit_mm = units_mm_per(mat->unit);
    /* To: “mat 12 × 18 in” */
    return base_arena_print(a, base_tr("mat %.0f × %.0f %s"), mat->height_mm / unit_mm, mat->width_mm / unit_mm,
                            units_shown_name(mat->unit));
}

static void surface_lines(const struct app_walk *w, struct arena *a, const char **lines)
{
    size_t count = app_walk_surfaces(w);
    *lines++ = base_tr("What lies on the table?");
    for (size_t i = 0; i < count; i++)
        *lines++ = base_arena_print(a, "%s%zu: %s", i == w->surface ? "› " : "", i + 1, surface_text(w, a, i));
    *lines++ = base_tr("Type its number; or Page Down, Page Up: choose · Enter or F5: take it");
}

static const char *length_or_blank(const struct app_walk *w, struct arena *a, int field)
{
    const char *cursor = w->field == field ? "_" : "";
    return base_arena_print(a, "%s%s", *w->typed[field] || *cursor ? w->typed[field] : "…", cursor);
}

static const char *progress(const struct app_walk *w, struct arena *a)
{
    size_t count = app_walk_readings(w, a).count;
    if (!w->solved || count < LEAST_TOLD)
        return base_arena_print(a, base_tr("%zu of %zu are read"), count, w->count);
    return base_arena_print(a, base_tr("%zu of %zu are read; a place may be off by %s"), count, w->count,
                            app_mm(a, w->worst_mm));
}

static void type_lines(const struct app_walk *w, struct arena *a, const char **lines)
{
    *lines++ = base_arena_print(a, base_tr("Along: %s   Away: %s"), length_or_blank(w, a, 0), length_or_blank(w, a, 1));
    *lines++ = w->refusal ? w->refusal
                          : base_arena_print(a, base_tr("Where does cross %d fall on the mat (%s)? %s"),
                                             w->items[w->now].number, units_shown_name(w->start.unit), progress(w, a));
    *lines++ = base_tr("Type the mat's number along, Enter, then its number away from zero, Enter");
    *lines++ = base_tr("B: it falls beside the mat · arrows: nudge it onto a ruling");
    *lines++ = base_tr("Tab: turn the words to you · * or F5: place it · F1: all keys");
}

static void place_lines(const struct app_walk *w, struct arena *a, const char **lines)
{
    char along[UNITS_TEXT], away[UNITS_TEXT];
    *lines++ = base_arena_print(a, base_tr("Cross %d onto %s along, %s away"), w->items[w->now].number,
                                units_print_length(along, w->target.x, w->start.unit),
                                units_print_length(away, w->target.y, w->start.unit));
    if (w->presenter) {
        *lines++ = app_walk_way_words(w, a);
        *lines++ = w->way < 2 ? base_tr("Turned back, finer · B: another way, and more · F5: it lies there")
                              : base_tr("B: another way, and more · F5: it lies there");
    } else {
        *lines++ = base_tr("4 left · 6 right · 8 away · 2 toward you; turned back, finer");
        *lines++ = base_tr("Enter: it lies there · *: type where it falls · 0: beside the mat");
        *lines++ = base_tr("3, 9: other crosses · 7: turn the words · 1: enough · /: leave");
    }
    *lines++ = progress(w, a);
}

static void tape_lines(const struct app_walk *w, struct arena *a, const char **lines)
{
    size_t ends[2], measured = 0;
    char now[UNITS_TEXT];
    app_walk_tape_ends(w, ends);
    for (size_t i = 0; i < APP_WALK_TAPES; i++)
        measured += w->tape_mm[i] > 0;
    *lines++ = base_arena_print(a, base_tr("From %d to %d: %s"), w->items[ends[0]].number, w->items[ends[1]].number,
                                !w->presenter ? base_arena_print(a, "%s_", w->typed[0])
                                : w->touched
                                    ? units_print_length(now, app_walk_tape_guess_mm(w) + w->adjusted_mm, w->start.unit)
                                    : "…");
    *lines++ = w->refusal ? w->refusal
                          : base_arena_print(a, base_tr("How far apart are their middles (%s)? %zu of %d are measured"),
                                             units_shown_name(w->start.unit), measured, APP_WALK_TAPES);
    *lines++ = base_tr("The first ten fix size and shape of the picture; the others make it truer.");
    *lines++ = w->presenter
                   ? base_tr("Page Down: longer · Page Up: shorter; turned back, finer · F5: so far · B: enough")
                   : base_tr("Type it, Enter · only Enter: not measured · up, down: other pairs · End: enough");
}

static void question_lines(const struct app_walk *w, struct arena *a, const char **lines)
{
    int number = w->items[w->accused].number;
    lines[0] = base_arena_print(a, base_tr("Cross %d?"), number);
    size_t count = base_wrap(a, w->sentence ? w->sentence : base_tr("This reading does not fit the others."), COLUMNS,
                             lines, 1, MOST_LINES - 1);
    if (w->repair.slip != CALIBRATION_SLIP_NONE)
        lines[count++] = w->presenter ? base_tr("Page Down: correct it so") : base_tr("C or 5: correct it so");
    lines[count] = base_arena_print(a,
                                    w->presenter ? base_tr("F5: read cross %d again · B: keep it for now")
                                                 : base_tr("Enter: read cross %d again · K or +: keep it for now"),
                                    number);
}

/* "at the far left", as she stands; the middle third of the page is "in the middle". */
static const char *where(const struct app_walk *w, struct px_pt px)
{
    static const char *const words[3][3] = {
        { BASE_TR("at the near left"), BASE_TR("at the near side"), BASE_TR("at the near right") },
        { BASE_TR("at the left"), BASE_TR("in the middle"), BASE_TR("at the right") },
        { BASE_TR("at the far left"), BASE_TR("at the far side"), BASE_TR("at the far right") }
    };
    struct scene_page page = scene_page_turned(w->start.width_px, w->start.height_px, w->quarter, 1);
    vec2 at = scene_page_at(&page, px);
    int across = (int)fmin(fmax(3 * at.x / page.width, 0), 2), up = (int)fmin(fmax(3 * at.y / page.height, 0), 2);
    return base_tr(words[up][across]);
}

/* By how much a length of 100 mm may be off at most, over the frame. */
static double worst_hundred_mm(const struct calibration_solution *s)
{
    double worst = 0;
    for (int row = 0; row < CALIBRATION_DOUBT_ROWS; row++)
        for (int column = 0; column < CALIBRATION_DOUBT_COLUMNS; column++) {
            struct px_pt px = calibration_doubt_grid(&s->map, column, row);
            worst = fmax(worst, calibration_doubt_hundred_mm(&s->map, &s->doubt, px));
        }
    return worst;
}

/* What a solved table may be off by, and what would make it truer. */
static size_t truth_lines(const struct app_walk *w, struct arena *a, const char **lines)
{
    size_t count = 0;
    /* To: “A place may be off by 0.4 mm, worst at the far left” */
    lines[count++] = base_arena_print(a, base_tr("A place may be off by %s, worst %s"), app_mm(a, w->worst_mm),
                                      where(w, w->worst_px));
    lines[count++] = base_arena_print(a, base_tr("A line of 100 mm may be off by %s at most"),
                                      app_mm(a, worst_hundred_mm(&w->solution)));
    if (!w->has_next)
        return count;
    /* To: “One more cross at the far left brings a place to 0.3 mm” */
    const char *next = base_arena_print(a, base_tr("One more cross %s brings a place to %s"), where(w, w->next_px),
                                        app_mm(a, w->next_mm));
    lines[count++] = w->presenter ? next : base_arena_print(a, "%s · %s", next, base_tr("N or +: read it"));
    return count;
}

/* "3, 10, 7, 8 and 5" */
static const char *around_text(const struct app_walk *w, struct arena *a)
{
    const int *numbers;
    size_t count = app_walk_around(w, &numbers);
    const char *text = base_arena_print(a, "%d", numbers[0]);
    for (size_t i = 1; i < count; i++)
        text = base_arena_print(a, i + 1 < count ? "%s, %d" : base_tr("%s and %d"), text, numbers[i]);
    return text;
}

static void lay_lines(const struct app_walk *w, struct arena *a, const char **lines)
{
    const int *numbers;
    app_walk_around(w, &numbers);
    /* To: “Lay the mat at the far left” */
    *lines++ = base_arena_print(a, base_tr("Lay the mat %s"), where(w, w->items[app_walk_find(w, numbers[0])].home));
    *lines++ = base_tr("There the table is not measured yet, as the mat did not reach.");
    *lines++ =
        base_arena_print(a, base_tr("Crosses %s should fall on its rulings; it may lie askew."), around_text(w, a));
    *lines++ = w->presenter ? base_tr("F5: it lies there · B: leave it at what was read")
                            : base_tr("Enter: it lies there · 1 or End: leave it at what was read");
}

static const char *average_text(const struct app_walk *w, struct arena *a)
{
    const struct calibration_solution *s = &w->solution;
    const struct calibration_reading *worst = &w->solved_readings.items[s->worst];
    const char *name = worst->kind == CALIBRATION_DISTANCE
                           ? base_arena_print(a, base_tr("from %d to %d"), worst->cross, worst->other)
                           : base_arena_print(a, base_tr("cross %d"), worst->cross);
    /* To: “9 readings, out by 0.31 mm on average; the farthest, cross 14, by 0.6 mm” */
    return base_arena_print(a, base_tr("%zu readings, out by %s mm on average; the farthest, %s, by %s mm"),
                            w->solved_readings.count, app_decimal(a, s->rms_mm, 2), name,
                            app_decimal(a, s->worst_mm, 2));
}

static const char *aside_keys(const struct app_walk *w)
{
    bool known = w->repair.slip != CALIBRATION_SLIP_NONE;
    if (w->presenter)
        return known ? base_tr("Page Down: correct it so · Page Up: read it again") : base_tr("Page Up: read it again");
    return known ? base_tr("C or 5: correct it so · R or 0: read it again") : base_tr("R or 0: read it again");
}

static void result_lines(const struct app_walk *w, struct arena *a, const char **lines)
{
    if (!w->solved) {
        lines[0] = base_tr("These readings do not fix the table");
        size_t count = base_wrap(a, w->sentence ? w->sentence : "", COLUMNS, lines, 1, MOST_LINES - 1);
        lines[count] = base_tr("Page Up: back through the crosses");
        return;
    }
    const struct calibration_solution *s = &w->solution;
    bool aside = s->aside_count > 0; /* the less is said of the rest */
    size_t count = truth_lines(w, a, lines);
    if (aside)
        count = 1;
    else
        lines[count++] = average_text(w, a);
    if (w->sentence)
        count = base_wrap(a, w->sentence, COLUMNS, lines, count, MOST_LINES - 2);
    if (aside)
        lines[count++] = aside_keys(w);
    const char *keys = w->presenter ? base_tr("F5: take this table · B: how true it is")
                                    : base_tr("Enter: take this table · D: how true it is");
    lines[count] = aside ? keys : base_arena_print(a, "%s · %s", keys, base_tr("Page Up: read a cross again"));
}

static void doubt_lines(const struct app_walk *w, struct arena *a, const char **lines)
{
    size_t count = truth_lines(w, a, lines);
    lines[count++] = w->doubt_of == SCENE_DOUBT_OF_LINES
                         ? base_tr("Where each line runs, 100 mm may be off by what is written on it, in mm")
                         : base_tr("Along each line a place may be off by what is written on it, in mm");
    lines[count++] = base_tr("Hatched: outside the crosses, not measured");
    lines[count] = !w->presenter ? base_tr("D: places, lines of 100 mm, and back · Esc: back")
                   : w->has_next ? base_tr("Page Down: read that cross · B: back")
                                 : base_tr("B: back");
}

static void check_lines(const struct app_walk *w, struct arena *a, const char **lines)
{
    const struct app_walk_line *l = &w->lines[w->line];
    char drawn[UNITS_TEXT], now[UNITS_TEXT];
    units_print_length(drawn, l->drawn_mm, w->start.unit);
    if (w->presenter)
        *lines++ = base_arena_print(a, base_tr("Tape: %s"),
                                    w->touched ? units_print_length(now, l->drawn_mm + w->adjusted_mm, w->start.unit)
                                               : base_tr("not measured"));
    else
        *lines++ = base_arena_print(a, base_tr("Tape: %s_"), w->typed[0]);
    *lines++ = w->refusal ? w->refusal
                          : base_arena_print(a, base_tr("Measure %s, %d of %d: it is drawn %s long"),
                                             app_walk_line_name(w->line), w->line + 1, APP_WALK_LINES, drawn);
    *lines++ = base_tr("Lay a good tape from end to end, along the middle of the light.");
    *lines++ = w->presenter ? base_tr("Page Down: longer · Page Up: shorter · F5: so long · B: no more")
                            : base_tr("Type its length, Enter · only Enter: not measured · End: no more");
}

static const char *verdict(const struct app_walk *w, struct arena *a, int line)
{
    const struct app_walk_line *l = &w->lines[line];
    char drawn[UNITS_TEXT];
    units_print_length(drawn, l->drawn_mm, w->start.unit);
    double off = l->read_mm - l->drawn_mm;
    if (app_walk_line_is_true(l))
        return base_arena_print(a, base_tr("%s, %s: out by %s, and may be by %s: true"), app_walk_line_name(line),
                                drawn, app_mm(a, fabs(off)), app_mm(a, l->may_be_off_mm));
    return base_arena_print(a,
                            /* To: “one diagonal, 1352 mm: 2.1 mm too long, and may be off by 0.4 mm” */
                            off > 0 ? base_tr("%s, %s: %s too long, and may be off by %s")
                                    : base_tr("%s, %s: %s too short, and may be off by %s"),
                            app_walk_line_name(line), drawn, app_mm(a, fabs(off)), app_mm(a, l->may_be_off_mm));
}

static void checked_lines(const struct app_walk *w, struct arena *a, const char **lines)
{
    size_t count = 1, measured = 0, off = 0;
    for (int i = 0; i < APP_WALK_LINES; i++) {
        if (!w->lines[i].measured)
            continue;
        lines[count++] = verdict(w, a, i);
        measured++;
        off += !app_walk_line_is_true(&w->lines[i]);
    }
    lines[0] = measured == 0 ? base_tr("Nothing was measured")
               : off         ? base_tr("Light and tape do not agree")
                             : base_tr("The table is true");
    if (measured == 0)
        lines[count++] = base_tr("Measure the test square before you cut.");
    if (w->scale_is_off) {
        lines[count++] =
            base_arena_print(a, base_tr("By the tape a metre of the mat's rulings is %s along, %s away."),
                             app_mm(a, 1000 * (1 + w->scale.along)), app_mm(a, 1000 * (1 + w->scale.away)));
        lines[count++] = w->presenter ? base_tr("Page Down: trust the tape, not the mat")
                                      : base_tr("T or 5: trust the tape, not the mat");
    } else if (off)
        lines[count++] =
            base_tr("Measure again; if it stays so, read the crosses again, or trust another mat or tape.");
    lines[count] = w->presenter ? base_tr("F5: save the table") : base_tr("Enter: save the table · Esc: measure again");
}

static void sticker_lines(const struct app_walk *w, struct arena *a, const char **lines)
{
    *lines++ = base_arena_print(a,
                                w->laid[w->mark] ? base_tr("Mark S%d: it lies on its sticker")
                                                 : base_tr("Mark S%d: stick a small cross under it"),
                                w->mark + 1);
    *lines++ = base_tr("The table is saved. Marks on check stickers show at once when it was bumped.");
    *lines++ = base_tr("Stick them outside the cloth, far apart; move the mark onto the cross.");
    if (w->presenter) {
        *lines++ = app_walk_way_words(w, a);
        *lines++ = base_tr("Turned back, finer · B: another way, and more · F5: it lies there");
        return;
    }
    *lines++ = base_tr("4 left · 6 right · 8 away · 2 toward you, or arrows; turned back, finer");
    *lines++ = base_tr("Enter: it lies there · 0: no sticker here · 3, 9: other marks · 1 or End: enough");
}

static void leave_lines(const struct app_walk *w, const char **lines)
{
    lines[0] = base_tr("Leave?");
    lines[1] = base_tr("The readings are kept: the next set-up of this table goes on from them.");
    lines[2] = w->presenter ? base_tr("F5: leave · Page Down: stay") : base_tr("Enter: leave · any other key: stay");
}

static void anew_lines(const char **lines)
{
    lines[0] = base_tr("Begin afresh?");
    lines[1] = base_tr("After projector or mat was moved the old readings are wrong: they are put aside.");
    lines[2] = base_tr("Four crosses, far apart, are the least; the others make it truer (End: enough).");
    lines[3] = base_tr("Enter or F5: begin afresh · any other key: back");
}

/* The sentences in the picture. */
static const char *const *lines_of(const struct app_walk *w, struct arena *a)
{
    const char **lines = base_arena_alloc(a, MOST_LINES + 1, sizeof *lines);
    switch (w->page) {
    case APP_WALK_CAUTIONS:
        return NULL;
    case APP_WALK_SURFACE:
        surface_lines(w, a, lines);
        break;
    case APP_WALK_TAPE:
        tape_lines(w, a, lines);
        break;
    case APP_WALK_START:
        start_lines(w, a, lines);
        break;
    case APP_WALK_TYPE:
        type_lines(w, a, lines);
        break;
    case APP_WALK_PLACE:
        place_lines(w, a, lines);
        break;
    case APP_WALK_QUESTION:
        question_lines(w, a, lines);
        break;
    case APP_WALK_LAY:
        lay_lines(w, a, lines);
        break;
    case APP_WALK_RESULT:
        result_lines(w, a, lines);
        break;
    case APP_WALK_CHECK:
        check_lines(w, a, lines);
        break;
    case APP_WALK_CHECKED:
        checked_lines(w, a, lines);
        break;
    case APP_WALK_DOUBT:
        doubt_lines(w, a, lines);
        break;
    case APP_WALK_STICKERS:
        sticker_lines(w, a, lines);
        break;
    case APP_WALK_LEAVE:
        leave_lines(w, lines);
        break;
    case APP_WALK_ANEW:
        anew_lines(lines);
        break;
    case APP_WALK_HELP:
        break;
    }
    for (size_t i = 0; i < MOST_LINES; i++)
        lines[i] = app_key_map_said(w->start.keys, APP_KEYS_SET_UP, a, lines[i]);
    return lines;
}

static bool is_judged(const struct app_walk *w)
{
    return w->page == APP_WALK_TYPE || w->page == APP_WALK_PLACE;
}

static bool is_around(const struct app_walk *w, int number)
{
    const int *numbers;
    size_t count = app_walk_around(w, &numbers);
    for (size_t i = 0; i < count; i++)
        if (numbers[i] == number)
            return true;
    return false;
}

static enum scene_cross_state state_of(const struct app_walk *w, size_t index)
{
    if (index == w->now && is_judged(w))
        return SCENE_CROSS_SHOWN;
    if (w->page == APP_WALK_TAPE) {
        size_t ends[2];
        app_walk_tape_ends(w, ends);
        return index == ends[0] || index == ends[1] ? SCENE_CROSS_SHOWN : SCENE_CROSS_HIDDEN;
    }
    if (w->page == APP_WALK_LAY)
        return is_around(w, w->items[index].number) ? SCENE_CROSS_READ : SCENE_CROSS_HIDDEN;
    if (w->page != APP_WALK_RESULT && w->page != APP_WALK_QUESTION && w->page != APP_WALK_LEAVE && !is_judged(w))
        return SCENE_CROSS_HIDDEN;
    return w->items[index].read ? SCENE_CROSS_READ : SCENE_CROSS_HIDDEN;
}

/* A length on the table at a place of the frame, in pixels and drawn larger. */
static vec2 drawn_miss(const struct geometry_map *map, struct px_pt at, vec2 mm)
{
    struct geometry_jacobian j = geometry_map_jacobian(map, at);
    double det = j.xu * j.yv - j.xv * j.yu, length = vec2_length(mm);
    vec2 px = { (j.yv * mm.x - j.xv * mm.y) / det, (j.xu * mm.y - j.yu * mm.x) / det };
    if (length < LEAST_MISS_MM)
        return (vec2){ 0, 0 };
    return vec2_scale(vec2_unit(px), fmin(MISS_PX_PER_MM * length, LONGEST_MISS_PX));
}

/* On the result every read cross says by how much it is out, and to which side it was read; the farthest is ringed. */
static void tell_miss(const struct app_walk *w, struct arena *a, struct scene_cross *cross, size_t reading)
{
    const struct calibration_solution *s = &w->solution;
    cross->note = app_decimal(a, s->residual_mm[reading], 1);
    cross->miss = drawn_miss(&s->map, cross->at, vec2_scale(s->residual[reading], -1));
    cross->marked = reading == s->worst;
}

static struct scene_cross *crosses_of(const struct app_walk *w, struct arena *a)
{
    struct scene_cross *crosses = base_arena_alloc(a, w->count, sizeof *crosses);
    size_t reading = 0;
    for (size_t i = 0; i < w->count; i++) {
        const struct app_walk_item *item = &w->items[i];
        bool nudged = item->px.x != item->home.x || item->px.y != item->home.y;
        crosses[i] = (struct scene_cross){
            .number = item->number, .at = item->px, .state = state_of(w, i), .from = item->home, .nudged = nudged
        };
        if (item->read && w->page == APP_WALK_RESULT && w->solved)
            tell_miss(w, a, &crosses[i], reading);
        reading += item->read;
    }
    return crosses;
}

/* The line that is measured, bent as the lens bends it. */
static struct px_path line_px(const struct app_walk *w, struct arena *a)
{
    const struct app_walk_line *l = &w->lines[w->line];
    struct px_path path = { { base_arena_alloc(a, LINE_POINTS, sizeof(vec2)), 0, false } };
    for (int i = 0; i < LINE_POINTS; i++) {
        vec2 at = vec2_lerp(l->from, l->to, i / (double)(LINE_POINTS - 1));
        struct px_pt px;
        if (geometry_map_to_px(&w->solution.map, (struct table_pt){ at.x, at.y }, &px))
            path.path.points[path.path.count++] = (vec2){ px.x, px.y };
    }
    return path;
}

static const char *notice(const struct app_walk *w, struct arena *a)
{
    if (w->trouble)
        return w->trouble;
    if (w->locked)
        return app_lock_text(a, w->start.keys, APP_KEYS_SET_UP);
    return w->page == APP_WALK_START ? w->start.notice : NULL;
}

struct paint_scene app_walk_scene(const struct app_walk *w, struct arena *frame)
{
    struct scene_cross_view view = { .width_px = w->start.width_px,
                                     .height_px = w->start.height_px,
                                     .quarter = w->quarter,
                                     .font = w->start.font,
                                     .crosses = crosses_of(w, frame),
                                     .count = w->count,
                                     .lines = lines_of(w, frame),
                                     .notice = notice(w, frame),
                                     .targets = w->page == APP_WALK_START,
                                     .stickers = w->marks.px,
                                     .sticker_count = w->page == APP_WALK_STICKERS ? w->marks.count : 0,
                                     .sticker_in_hand = w->mark };
    if (w->page == APP_WALK_CHECK)
        view.line = line_px(w, frame);
    if (w->page == APP_WALK_DOUBT) {
        view.map = &w->solution.map;
        view.doubt = &w->solution.doubt;
        view.doubt_of = w->doubt_of;
    }
    if (w->page == APP_WALK_CAUTIONS)
        view.help_count = app_caution_page(frame, base_tr("Any key: go on"), &view.help);
    if (w->page == APP_WALK_HELP)
        view.help_count = app_walk_page_keys(frame, w->start.keys, w->beneath, &view.help);
    return scene_crosses(frame, &view);
}

struct paint_scene app_walk_away_scene(const struct app_walk *w, struct arena *frame, int width, int height, bool home)
{
    const char **lines = base_arena_alloc(frame, 4, sizeof *lines);
    if (home) {
        lines[0] = base_tr("The crosses wait");
        lines[1] =
            base_arena_print(frame, base_tr("They were read in a frame of %d × %d pixels; this one has %d × %d."),
                             w->start.width_px, w->start.height_px, width, height);
        lines[2] = base_tr("Give the projector its old setting, and they come back. Nothing is lost. Ctrl Q: leave");
    } else {
        lines[0] = base_tr("The projector is away");
        lines[1] = base_tr("Nothing is lost: plug it in or switch it on, and the crosses come back.");
        lines[2] = base_tr("Ctrl Q: leave");
    }
    struct scene_cross_view view = { .width_px = width,
                                     .height_px = height,
                                     .quarter = w->quarter,
                                     .font = w->start.font,
                                     .lines = lines,
                                     .notice = w->trouble };
    return scene_crosses(frame, &view);
}
