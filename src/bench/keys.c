#include "bench/keys.h"

#include "base/words.h"
#include "bench/inside.h"
#include "input/key.h"

/* Help or settings, and back. */
static void show_aside(struct bench *b, int page)
{
    if (b->page == page) {
        bench_go(b, b->page_before_help);
        return;
    }
    if (!bench_is_aside(b->page))
        b->page_before_help = b->page;
    bench_go(b, page);
}

static void change_unit(struct bench *b, int amount)
{
    (void)amount;
    b->manner.unit = b->manner.unit == UNITS_IN ? UNITS_CM : UNITS_IN;
    b->effects.settings = b->effects.redraw = true;
}

static void change_night(struct bench *b, int amount)
{
    (void)amount;
    b->manner.night = !b->manner.night;
    b->effects.settings = b->effects.redraw = true;
}

/* A step smaller while that shows, and round again. */
static void change_size(struct bench *b, int amount)
{
    double before = bench_scale(b, b->width, b->height);
    b->manner.steps += amount;
    if (b->manner.steps > BENCH_MOST_STEPS || bench_scale(b, b->width, b->height) == before)
        b->manner.steps = 0;
    b->effects.settings = b->effects.redraw = true;
}

static void go_by(struct bench *b, int amount)
{
    int to = b->page + amount;
    if (b->page < BENCH_STAGES && to < BENCH_STAGES)
        bench_go(b, to);
    else if (b->page == BENCH_ALTER)
        bench_go(b, BENCH_PATTERN + amount);
}

static void undo(struct bench *b, int amount)
{
    (void)amount;
    const char *what = b->is_open ? job_history_undo_text(b->history) : NULL;
    if (!what) {
        bench_say(b, base_tr("There is nothing to undo."));
        return;
    }
    if (!bench_step(b, job_history_undo, job_history_redo))
        return;
    bench_say(b, base_arena_print(b->frame, base_tr("Undone: %s."), what));
}

static void redo(struct bench *b, int amount)
{
    (void)amount;
    const char *what = b->is_open ? job_history_redo_text(b->history) : NULL;
    if (!what) {
        bench_say(b, base_tr("There is nothing to do again."));
        return;
    }
    if (!bench_step(b, job_history_redo, job_history_undo))
        return;
    bench_say(b, base_arena_print(b->frame, base_tr("Done again: %s."), what));
}

/* Each page has its own work there. */
static void to_table(struct bench *b, int amount)
{
    (void)amount;
    bool ready = b->is_open && job_is_finished(bench_job(b));
    if (b->at_table)
        b->effects.to = b->at_table;
    else if (b->page == BENCH_TABLE)
        b->effects.to = BENCH_TO_SET_UP;
    else if (ready)
        b->effects.to = b->page == BENCH_LAYOUT ? BENCH_TO_ARRANGE : BENCH_TO_CUT;
    else
        bench_say(b, base_tr("Nothing can be shown on the table yet. Choose pattern, view and size first."));
}

static void begin_other(struct bench *b, int amount)
{
    (void)amount;
    bench_go(b, BENCH_BEGIN);
}

static void back(struct bench *b, int amount)
{
    (void)amount;
    if (b->page == BENCH_HELP || b->page == BENCH_SETTINGS)
        bench_go(b, b->page_before_help);
    else if (b->page == BENCH_OWN_KEYS)
        bench_go(b, BENCH_SETTINGS);
    else if (b->page == BENCH_ALTER)
        bench_go(b, BENCH_PATTERN);
    else if (b->page == BENCH_TICKETS)
        bench_go(b, BENCH_BEGIN);
    else if (b->page == BENCH_FILES)
        bench_go(b, b->files.from);
    else if (b->page == BENCH_BEGIN && b->is_open)
        bench_go(b, BENCH_MEASUREMENTS);
}

static void quit(struct bench *b, int amount)
{
    (void)amount;
    b->effects.quit = true;
}

static const struct bench_key_row rows[] = {
    { KEY_F1, 0, BENCH_HELP, BASE_TR("help, and back"), show_aside },
    { KEY_F2, 0, 0, BASE_TR("inches or centimetres"), change_unit },
    { KEY_F3, 0, 0, BASE_TR("day or night"), change_night },
    { KEY_F5, 0, BENCH_SETTINGS, BASE_TR("settings, and back"), show_aside },
    { KEY_F6, 0, 1, BASE_TR("smaller letters, or large"), change_size },
    { KEY_F12, 0, 0, BASE_TR("to the table, and back"), to_table },
    { KEY_PAGE_DOWN, 0, 1, BASE_TR("the next line of the ticket"), go_by },
    { KEY_PAGE_UP, 0, -1, BASE_TR("the line before"), go_by },
    { KEY_PAGE_DOWN, MOD_CTRL, 1, BASE_TR("the same, also with a piece in hand"), go_by },
    { KEY_PAGE_UP, MOD_CTRL, -1, NULL, go_by },
    { KEY_CHAR + 'z', MOD_CTRL, 0, BASE_TR("undo"), undo },
    { KEY_CHAR + 'z', MOD_CTRL | MOD_SHIFT, 0, BASE_TR("do again"), redo },
    { KEY_CHAR + 'y', MOD_CTRL, 0, NULL, redo },
    { KEY_CHAR + 'n', MOD_CTRL, 0, BASE_TR("another ticket"), begin_other },
    { KEY_ESC, 0, 0, BASE_TR("back"), back },
    { KEY_CHAR + 'q', MOD_CTRL, 0, BASE_TR("leave; everything is kept"), quit },
};

const struct bench_key_row *bench_key_rows(size_t *count)
{
    *count = sizeof rows / sizeof rows[0];
    return rows;
}

const struct bench_key_row *bench_find_key(int key, int mods)
{
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (rows[i].key == key && rows[i].mods == mods)
            return &rows[i];
    return NULL;
}

size_t bench_at_table_keys(const struct form_key **out)
{
    static const struct form_key keys[] = { { BASE_TR_IN("key", "Tab"), BASE_TR("choose") },
                                            { BASE_TR_IN("key", "Enter"), BASE_TR("go there") },
                                            { "F12", BASE_TR("to the table") } };
    *out = keys;
    return sizeof keys / sizeof keys[0];
}

size_t bench_window_keys(const struct bench *b, struct arena *a, const struct form_key **out)
{
    const struct form_key keys[] = { { "F2", b->manner.unit == UNITS_IN ? base_tr("cm") : base_tr("inches") },
                                     { "F3", b->manner.night ? base_tr("day") : base_tr("night") },
                                     { "F1", base_tr("help") },
                                     { "F12", base_tr("to the table") } };
    enum { COUNT = sizeof keys / sizeof keys[0] };
    struct form_key *kept = base_arena_alloc(a, COUNT, sizeof *kept);
    for (int i = 0; i < COUNT; i++)
        kept[i] = keys[i];
    *out = kept;
    return COUNT;
}
