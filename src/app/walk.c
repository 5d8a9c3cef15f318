#include "app/walk.h"

#include "app/sentence.h"
#include "app/wrap.h"
#include "input/key.h"
#include "scene/crosses.h"

#include <ctype.h>
#include <string.h>

enum { TYPED = 24, COLUMNS = 62, MOST_LINES = 12, LEAST_QUESTIONED = 5 };

enum page { PAGE_CAUTIONS, PAGE_READ, PAGE_QUESTION, PAGE_RESULT };

struct item {
    int number;
    struct px_pt px; /* where it is shown, nudges included */
    bool read, beside;
    struct table_pt at;
};

struct app_walk {
    struct app_walk_start start;
    struct item *items; /* the walk's own crosses, then others that a file of readings brought along */
    size_t count, now;
    enum page page;
    int quarter;
    char typed[2][TYPED]; /* along, away */
    int field;
    double along_mm;      /* taken already, while away is being typed */
    const char *refusal;  /* why what was typed is not taken, or NULL */
    struct arena *said;   /* the last solve and its sentences, remade with every reading */
    const char *sentence; /* why the readings were refused, or what is doubtful, or NULL */
    size_t accused;       /* the cross that the sentence speaks of */
    bool solved;
    struct calibration_solution solution;
    struct calibration_readings solved_readings;
};

/* Shares of the frame, 3 % in from its edge; the second reading of a corner stands a little further in, so that it is
 * read afresh. */
static const double places[APP_WALK_CROSSES][2] = {
    { 0.03, 0.97 }, { 0.5, 0.97 },  { 0.97, 0.97 }, { 0.97, 0.5 },  { 0.5, 0.5 },   { 0.03, 0.5 },  { 0.03, 0.03 },
    { 0.5, 0.03 },  { 0.97, 0.03 }, { 0.95, 0.06 }, { 0.95, 0.94 }, { 0.05, 0.94 }, { 0.05, 0.06 },
};

static const char *const caution_page[] = {
    "Setting up the table",
    "A very bright light hangs above you: do not look up into the lens.",
    "Let the projector warm up, and switch its own picture correction off.",
    "Lay the mat flat in the light, its zero at your left and near you.",
    "A bumped projector or a moved mat undoes the set-up: measure again then.",
    "Any key: begin",
    NULL,
};

static void go_to(struct app_walk *w, size_t index)
{
    w->now = index;
    w->field = 0;
    w->refusal = NULL;
    memset(w->typed, 0, sizeof w->typed);
    w->page = PAGE_READ;
}

static size_t next_unread(const struct app_walk *w, size_t from)
{
    for (size_t i = 0; i < w->count; i++) {
        size_t at = (from + i) % w->count;
        if (!w->items[at].read && !w->items[at].beside)
            return at;
    }
    return w->count;
}

static size_t find_item(const struct app_walk *w, int number)
{
    size_t i = 0;
    while (i < w->count && w->items[i].number != number)
        i++;
    return i;
}

/* Every reading of the file is kept, that of a cross which is not one of the walk's too. */
static void take_over(struct app_walk *w, const struct calibration_readings *before)
{
    for (size_t i = 0; before && i < before->count; i++) {
        const struct calibration_reading *r = &before->items[i];
        size_t at = find_item(w, r->cross);
        if (at < w->count && w->items[at].read)
            at = w->count; /* read more than once */
        w->items[at] = (struct item){ r->cross, r->px, true, false, r->at };
        w->count += at == w->count;
    }
}

struct app_walk *app_walk_create(struct arena *a, const struct app_walk_start *start)
{
    struct app_walk *w = base_arena_alloc(a, 1, sizeof *w);
    size_t most = APP_WALK_CROSSES + (start->before ? start->before->count : 0);
    w->start = *start;
    w->said = a;
    w->items = base_arena_alloc(a, most, sizeof *w->items);
    for (int i = 0; i < APP_WALK_CROSSES; i++) /* on half pixels, where an arm is sharpest */
        w->items[w->count++] = (struct item){ .number = i + 1,
                                              .px = { (int)(places[i][0] * start->width_px) + 0.5,
                                                      (int)(places[i][1] * start->height_px) + 0.5 } };
    take_over(w, start->before);
    size_t first = next_unread(w, 0);
    go_to(w, first < w->count ? first : 0);
    w->page = PAGE_CAUTIONS;
    return w;
}

struct calibration_readings app_walk_readings(const struct app_walk *w, struct arena *a)
{
    struct calibration_readings r = { .name = w->start.name,
                                      .unit = w->start.unit,
                                      .width_px = w->start.width_px,
                                      .height_px = w->start.height_px,
                                      .sigma_mm = w->start.sigma_mm,
                                      .mat = w->start.mat,
                                      .items = base_arena_alloc(a, w->count, sizeof *r.items) };
    for (size_t i = 0; i < w->count; i++)
        if (w->items[i].read)
            r.items[r.count++] = (struct calibration_reading){ w->items[i].number, w->items[i].px, w->items[i].at };
    return r;
}

struct calibration_table app_walk_table(const struct app_walk *w, struct arena *a, const char *made)
{
    return calibration_table_of(a, &w->solved_readings, &w->solution, made);
}

/* The cross that a refusal accuses: its first number; else the one just read. */
static size_t accused(const struct app_walk *w, const struct err *e)
{
    size_t at = e->args[0].type == ERR_ARG_NUMBER ? find_item(w, (int)e->args[0].number) : w->count;
    return at < w->count && w->items[at].read ? at : w->now;
}

/* Solves what is there. The sentence of a refusal, or else of the first doubt, is kept to be shown. */
static void solve(struct app_walk *w)
{
    struct err_list *errs = base_err_list_create();
    w->solved_readings = app_walk_readings(w, w->said);
    w->solved = calibration_solve(w->said, NULL, &w->solved_readings, CALIBRATION_LENS_WEAK, &w->solution, errs);
    if (w->solved)
        calibration_question(NULL, &w->solution.map, errs);
    w->sentence = NULL;
    w->accused = w->now;
    for (int i = errs->count - 1; i >= 0; i--) {
        const struct err *e = &errs->items[i];
        if (!w->solved && e->kind->severity != ERR_FAULT)
            continue;
        w->sentence = app_sentence(w->said, e, w->start.unit);
        w->accused = accused(w, e);
    }
    base_err_list_destroy(errs);
}

static const struct app_walk_effects redraw = { .redraw = true };

static struct app_walk_effects show_result(struct app_walk *w)
{
    solve(w);
    w->page = PAGE_RESULT;
    return redraw;
}

static struct app_walk_effects go_on(struct app_walk *w)
{
    size_t next = next_unread(w, w->now);
    if (next == w->count)
        return show_result(w);
    go_to(w, next);
    return redraw;
}

/* From the fifth reading on a new one that does not fit is questioned at once. */
static struct app_walk_effects made_reading(struct app_walk *w)
{
    size_t count = app_walk_readings(w, w->said).count;
    if (count >= LEAST_QUESTIONED)
        solve(w);
    if (count >= LEAST_QUESTIONED && !w->solved && next_unread(w, w->now) < w->count)
        w->page = PAGE_QUESTION;
    else
        go_on(w);
    return (struct app_walk_effects){ .redraw = true, .save = true };
}

/* One number was typed: along first, then away, and only both together make a reading. */
static struct app_walk_effects take_typed(struct app_walk *w)
{
    struct item *item = &w->items[w->now];
    double mm;
    struct table_pt at = { w->along_mm, 0 };
    if (!units_parse_length(w->typed[w->field], w->start.unit, &mm)) {
        w->refusal = "That is not a length: write 41.5 or 16 1/4";
        return redraw;
    }
    *(w->field ? &at.y : &at.x) = mm;
    if (!calibration_on_mat(&w->start.mat, at)) {
        w->refusal = "That lies beside the mat's rulings: read it again, or press B";
        return redraw;
    }
    w->along_mm = at.x;
    w->refusal = NULL;
    if (w->field++ == 0)
        return redraw;
    *item = (struct item){ item->number, item->px, true, false, at };
    return made_reading(w);
}

static struct app_walk_effects run_enter(struct app_walk *w, double unused)
{
    (void)unused;
    switch (w->page) {
    case PAGE_READ:
        return take_typed(w);
    case PAGE_QUESTION: /* read the one that does not fit again */
        w->items[w->accused].read = false;
        go_to(w, w->accused);
        return (struct app_walk_effects){ .redraw = true, .save = true };
    case PAGE_RESULT:
        return (struct app_walk_effects){ .redraw = true, .done = w->solved };
    case PAGE_CAUTIONS:
        break;
    }
    return redraw;
}

static struct app_walk_effects run_result(struct app_walk *w, double unused)
{
    (void)unused;
    return show_result(w);
}

static struct app_walk_effects run_keep(struct app_walk *w, double unused)
{
    (void)unused;
    return w->page == PAGE_QUESTION ? go_on(w) : redraw;
}

static struct app_walk_effects run_back(struct app_walk *w, double unused)
{
    (void)unused;
    size_t length = strlen(w->typed[w->field]);
    w->refusal = NULL;
    if (w->page == PAGE_READ && length)
        w->typed[w->field][length - 1] = '\0';
    else if (w->page == PAGE_READ && w->field)
        w->field = 0;
    return redraw;
}

static struct app_walk_effects run_step(struct app_walk *w, double by)
{
    go_to(w, (w->now + w->count + (size_t)(by < 0 ? -1 : 1)) % w->count);
    return redraw;
}

static struct app_walk_effects run_beside(struct app_walk *w, double unused)
{
    (void)unused;
    if (w->page != PAGE_READ)
        return redraw;
    w->items[w->now].beside = true;
    w->items[w->now].read = false;
    return made_reading(w);
}

/* Her own right and away, on whichever side she stands; the cross stays in the frame. */
static struct app_walk_effects nudge(struct app_walk *w, double right, double away)
{
    struct scene_page page = scene_page_turned(w->start.width_px, w->start.height_px, w->quarter, 1);
    struct item *item = &w->items[w->now];
    if (w->page != PAGE_READ)
        return redraw;
    vec2 by = vec2_add(vec2_scale(page.right, right), vec2_scale(page.up, away));
    struct px_pt to = { item->px.x + by.x, item->px.y + by.y };
    if (to.x >= 0 && to.y >= 0 && to.x <= w->start.width_px && to.y <= w->start.height_px)
        item->px = to;
    bool was_read = item->read; /* what was read of it was read elsewhere */
    item->read = false;
    return (struct app_walk_effects){ .redraw = true, .save = was_read };
}

static struct app_walk_effects run_across(struct app_walk *w, double px)
{
    return nudge(w, px, 0);
}

static struct app_walk_effects run_away(struct app_walk *w, double px)
{
    return nudge(w, 0, px);
}

static struct app_walk_effects run_side(struct app_walk *w, double by)
{
    w->quarter = (w->quarter + (int)by) % 4;
    return redraw;
}

static struct app_walk_effects run_quit(struct app_walk *w, double unused)
{
    (void)w, (void)unused;
    return (struct app_walk_effects){ .quit = true };
}

static const struct walk_key {
    int key, mods;
    struct app_walk_effects (*run)(struct app_walk *, double);
    double amount;
    const char *help; /* NULL: the row before says it */
} key_rows[] = {
    { KEY_ENTER, 0, run_enter, 0, "take what is typed; accept" },
    { KEY_BACKSPACE, 0, run_back, 0, "rub out" },
    { KEY_LEFT, 0, run_across, -1, "nudge the cross by a pixel" },
    { KEY_RIGHT, 0, run_across, +1, NULL },
    { KEY_UP, 0, run_away, +1, NULL },
    { KEY_DOWN, 0, run_away, -1, NULL },
    { KEY_LEFT, MOD_CTRL, run_across, -0.25, "by a quarter of a pixel" },
    { KEY_RIGHT, MOD_CTRL, run_across, +0.25, NULL },
    { KEY_UP, MOD_CTRL, run_away, +0.25, NULL },
    { KEY_DOWN, MOD_CTRL, run_away, -0.25, NULL },
    { KEY_LEFT, MOD_SHIFT, run_across, -16, "by sixteen pixels" },
    { KEY_RIGHT, MOD_SHIFT, run_across, +16, NULL },
    { KEY_UP, MOD_SHIFT, run_away, +16, NULL },
    { KEY_DOWN, MOD_SHIFT, run_away, -16, NULL },
    { KEY_END, 0, run_result, 0, "what the readings made so far give" },
    { KEY_PAGE_DOWN, 0, run_step, +1, "next or previous cross" },
    { KEY_PAGE_UP, 0, run_step, -1, NULL },
    { KEY_CHAR + 'b', 0, run_beside, 0, "it falls beside the mat" },
    { KEY_CHAR + 'k', 0, run_keep, 0, "keep a reading that was questioned" },
    { KEY_TAB, 0, run_side, +1, "you stand on another side" },
    { KEY_CHAR + 'q', MOD_CTRL, run_quit, 0, "leave; the readings are kept" },
};

enum { KEY_ROWS = sizeof key_rows / sizeof key_rows[0] };

size_t app_walk_help_lines(struct arena *a, const struct scene_help_line **out)
{
    struct scene_help_line *lines = base_arena_alloc(a, KEY_ROWS, sizeof *lines);
    size_t count = 0;
    for (size_t i = 0; i < KEY_ROWS; i++) {
        char name[INPUT_KEY_TEXT];
        input_key_name(name, key_rows[i].key, key_rows[i].mods);
        if (key_rows[i].help)
            lines[count++] = (struct scene_help_line){ base_arena_copy_text(a, name), key_rows[i].help };
        else
            lines[count - 1].key = base_arena_print(a, "%s or %s", lines[count - 1].key, name);
    }
    *out = lines;
    return count;
}

/* What a length is written with. */
static bool is_of_a_length(int key)
{
    return key == KEY_SPACE || (key > KEY_CHAR && key < KEY_CHAR + 0x80 && strchr("0123456789.,/-", key - KEY_CHAR));
}

static struct app_walk_effects type(struct app_walk *w, int key)
{
    size_t length = strlen(w->typed[w->field]);
    w->refusal = NULL;
    if (w->page == PAGE_READ && length + 1 < TYPED)
        w->typed[w->field][length] = key == KEY_SPACE ? ' ' : (char)(key - KEY_CHAR);
    return redraw;
}

static struct app_walk_effects press(struct app_walk *w, int key, int mods)
{
    for (size_t i = 0; i < KEY_ROWS; i++) {
        if (key_rows[i].key != key || key_rows[i].mods != mods)
            continue;
        if (w->page == PAGE_CAUTIONS && key_rows[i].run != run_quit && key_rows[i].run != run_side)
            break;
        return key_rows[i].run(w, key_rows[i].amount);
    }
    if (w->page == PAGE_CAUTIONS && next_unread(w, 0) == w->count)
        return show_result(w);
    if (w->page == PAGE_CAUTIONS)
        w->page = PAGE_READ;
    else if (!mods && is_of_a_length(key))
        return type(w, key);
    return redraw;
}

struct app_walk_effects app_walk_handle(struct app_walk *w, struct input_event event)
{
    switch (event.type) {
    case INPUT_KEY:
        return press(w, event.key, event.mods);
    case INPUT_EXPOSE:
    case INPUT_SIZE:
    case INPUT_MOVED:
        return redraw;
    case INPUT_QUIT:
        return (struct app_walk_effects){ .quit = true };
    case INPUT_NONE:
        break;
    }
    return (struct app_walk_effects){ 0 };
}

static const char *length_or_blank(const struct app_walk *w, struct arena *a, int field)
{
    const char *cursor = w->field == field ? "_" : "";
    return base_arena_print(a, "%s%s", *w->typed[field] || *cursor ? w->typed[field] : "…", cursor);
}

static void read_lines(const struct app_walk *w, struct arena *a, const char **lines)
{
    size_t read = app_walk_readings(w, a).count;
    lines[0] = base_arena_print(a, "Cross %d · along: %s · away from you: %s", w->items[w->now].number,
                                length_or_blank(w, a, 0), length_or_blank(w, a, 1));
    lines[1] = w->refusal ? w->refusal
                          : base_arena_print(a, "Where does it fall on the mat's rulings, in %s? %zu of %zu are read",
                                             units_name(w->start.unit), read, w->count);
    lines[2] = "Type how far along, Enter, then how far away from you, Enter.";
    lines[3] = "Arrows nudge it onto a ruling (Ctrl: finer, Shift: farther).";
    lines[4] = "B: it falls beside the mat · Tab: turn the words to you · End: enough · Ctrl Q: leave";
}

static void result_lines(const struct app_walk *w, struct arena *a, const char **lines)
{
    if (!w->solved) {
        lines[0] = "These readings do not fix the table";
        size_t count = app_wrap(a, w->sentence ? w->sentence : "", COLUMNS, lines, 1, MOST_LINES);
        lines[count] = "Page Up: back through the crosses";
        return;
    }
    const struct calibration_solution *s = &w->solution;
    lines[0] = base_arena_print(a, "%zu readings, out by %.2f mm on average", w->solved_readings.count, s->rms_mm);
    lines[1] = base_arena_print(a, "Farthest: cross %d, out by %.2f mm", w->solved_readings.items[s->worst].cross,
                                s->worst_mm);
    lines[2] = "Enter: take this table · Page Up: read a cross again";
    lines[3] = "Then measure the test square before you cut";
    if (w->sentence)
        app_wrap(a, w->sentence, COLUMNS, lines, 4, MOST_LINES);
}

/* The sentences in the picture. */
static const char *const *lines_of(const struct app_walk *w, struct arena *a)
{
    const char **lines = base_arena_alloc(a, MOST_LINES + 1, sizeof *lines);
    size_t count;
    switch (w->page) {
    case PAGE_CAUTIONS:
        return caution_page;
    case PAGE_READ:
        read_lines(w, a, lines);
        break;
    case PAGE_QUESTION:
        lines[0] = base_arena_print(a, "Cross %d?", w->items[w->accused].number);
        count = app_wrap(a, w->sentence ? w->sentence : "This reading does not fit the others.", COLUMNS, lines, 1,
                         MOST_LINES);
        lines[count] =
            base_arena_print(a, "Enter: read cross %d again · K: keep it for now", w->items[w->accused].number);
        break;
    case PAGE_RESULT:
        result_lines(w, a, lines);
        break;
    }
    return lines;
}

static enum scene_cross_state state_of(const struct app_walk *w, size_t index)
{
    if (index == w->now && w->page == PAGE_READ)
        return SCENE_CROSS_SHOWN;
    return w->items[index].read ? SCENE_CROSS_READ : SCENE_CROSS_HIDDEN;
}

struct paint_scene app_walk_scene(const struct app_walk *w, struct arena *frame)
{
    struct scene_cross *crosses = base_arena_alloc(frame, w->count, sizeof *crosses);
    for (size_t i = 0; i < w->count; i++)
        crosses[i] = (struct scene_cross){ w->items[i].number, w->items[i].px, state_of(w, i) };
    struct scene_cross_view view = { .width_px = w->start.width_px,
                                     .height_px = w->start.height_px,
                                     .quarter = w->quarter,
                                     .font = w->start.font,
                                     .crosses = crosses,
                                     .count = w->count,
                                     .lines = lines_of(w, frame) };
    return scene_crosses(frame, &view);
}
