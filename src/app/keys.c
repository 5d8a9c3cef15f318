/* Every key of the program, once. Help, `chalklight keys` and the tests read the same rows. */
#include "app/amount.h"
#include "app/key_lines.h"
#include "app/state.h"
#include "base/words.h"
#include "input/key.h"

#include <string.h>

static const struct app_key_row key_rows[] = {
    { KEY_LEFT, 0, &app_act_across, -10 },
    { KEY_RIGHT, 0, &app_act_across, +10 },
    { KEY_UP, 0, &app_act_away, +10 },
    { KEY_DOWN, 0, &app_act_away, -10 },
    { KEY_LEFT, MOD_SHIFT, &app_act_across, -1 },
    { KEY_RIGHT, MOD_SHIFT, &app_act_across, +1 },
    { KEY_UP, MOD_SHIFT, &app_act_away, +1 },
    { KEY_DOWN, MOD_SHIFT, &app_act_away, -1 },
    { KEY_LEFT, MOD_CTRL, &app_act_across, -0.2 },
    { KEY_RIGHT, MOD_CTRL, &app_act_across, +0.2 },
    { KEY_UP, MOD_CTRL, &app_act_away, +0.2 },
    { KEY_DOWN, MOD_CTRL, &app_act_away, -0.2 },
    { KEY_CHAR + 't', 0, &app_act_turn, +90 },
    { KEY_CHAR + 't', MOD_SHIFT, &app_act_turn, -90 },
    { KEY_CHAR + ',', 0, &app_act_turn, +1 },
    { KEY_CHAR + '.', 0, &app_act_turn, -1 },
    { KEY_CHAR + ',', MOD_CTRL, &app_act_turn, +0.1 },
    { KEY_CHAR + '.', MOD_CTRL, &app_act_turn, -0.1 },
    { KEY_CHAR + 'o', 0, &app_act_over, 0 },
    { KEY_CHAR + '+', 0, &app_act_weight, +0.5 },
    { KEY_CHAR + '-', 0, &app_act_weight, -0.5 },
    { KEY_PAGE_DOWN, 0, &app_act_step, +1 },
    { KEY_PAGE_UP, 0, &app_act_step, -1 },
    { KEY_CHAR + 'a', 0, &app_act_all, 0 },
    { KEY_CHAR + 'l', 0, &app_act_layout, 0 },
    { KEY_CHAR + 'i', 0, &app_act_left, 0 },
    { KEY_HOME, 0, &app_act_middle, 0 },
    { KEY_CHAR + 's', 0, &app_act_square, 0 },
    { KEY_CHAR + 'm', 0, &app_act_match, 0 },
    { KEY_CHAR + 'm', MOD_SHIFT, &app_act_moved, 0 },
    { KEY_ENTER, 0, &app_act_done, 0 },
    { KEY_CHAR + 'd', 0, &app_act_doubt, 0 },
    { KEY_CHAR + 'r', 0, &app_act_rulings, 0 },
    { KEY_CHAR + 'b', 0, &app_act_blank, 0 },
    { KEY_CHAR + 'b', MOD_SHIFT, &app_act_work_light, 0 },
    { KEY_CHAR + 'u', 0, &app_act_open_out, 0 },
    { KEY_CHAR + 'e', 0, &app_act_cut_edge, 0 },
    { KEY_CHAR + 'c', 0, &app_act_chalks, +1 },
    { KEY_CHAR + 'c', MOD_SHIFT, &app_act_trial, 0 },
    { KEY_CHAR + '1', 0, &app_act_chalk, 1 },
    { KEY_CHAR + '2', 0, &app_act_chalk, 2 },
    { KEY_CHAR + '3', 0, &app_act_chalk, 3 },
    { KEY_CHAR + '4', 0, &app_act_chalk, 4 },
    { KEY_CHAR + '5', 0, &app_act_chalk, 5 },
    { KEY_CHAR + '6', 0, &app_act_chalk, 6 },
    { KEY_CHAR + '0', 0, &app_act_chalk, 0 },
    { KEY_CHAR + 'p', 0, &app_act_pulse, 0 },
    { KEY_CHAR + 'g', 0, &app_act_band, 0 },
    { KEY_TAB, 0, &app_act_side, +1 },
    { KEY_TAB, MOD_SHIFT, &app_act_strip, +1 },
    { KEY_F1, 0, &app_act_help, 0 },
    { KEY_CHAR + 'h', 0, &app_act_help, 0 },
    { KEY_ESC, 0, &app_act_back, 0 },
    { KEY_CHAR + 'l', MOD_CTRL, &app_act_lock, 0 },
    { KEY_CHAR + 'q', MOD_CTRL, &app_act_quit, 0 },
};

const struct app_key_row *app_key_rows(size_t *count)
{
    *count = sizeof key_rows / sizeof key_rows[0];
    return key_rows;
}

static const struct app_key_row *find(int key, int mods)
{
    for (size_t i = 0; i < sizeof key_rows / sizeof key_rows[0]; i++)
        if (key_rows[i].key == key && key_rows[i].mods == mods)
            return &key_rows[i];
    return NULL;
}

const struct app_key_row *app_find_key(int key, int mods)
{
    const struct app_key_row *row = find(key, mods);
    int does = input_key_does(key, mods);
    return row || does == KEY_NONE ? row : find(does, 0);
}

static const char *amount_text(struct arena *a, const struct app_key_row *row)
{
    return app_decimal(a, row->amount < 0 ? -row->amount : row->amount, 1);
}

/* The help sentence with its # replaced by the amount. */
static const char *help_text(struct arena *a, const struct app_key_row *row)
{
    const char *help = base_tr(row->action->help);
    for (const char *p = help; *p; p++)
        if (*p == '#')
            return base_arena_print(a, "%.*s%s%s", (int)(p - help), help, amount_text(a, row), p + 1);
    return help;
}

/* Neighbouring rows that say the same share a line. */
size_t app_key_help(struct arena *a, const struct app_key_map *map, unsigned on, const struct scene_help_line **out)
{
    enum { ROWS = sizeof key_rows / sizeof key_rows[0] };
    struct app_key *keys = base_arena_alloc(a, ROWS, sizeof *keys);
    const char *before = "";
    size_t count = 0;
    for (size_t i = 0; i < ROWS; i++) {
        if (!(key_rows[i].action->on & on))
            continue;
        const char *what = help_text(a, &key_rows[i]);
        keys[count++] =
            (struct app_key){ 0, key_rows[i].key, key_rows[i].mods, strcmp(what, before) == 0 ? NULL : what };
        app_key_map_shown(map, APP_KEYS_CUT, &keys[count - 1].key, &keys[count - 1].mods);
        before = what;
    }
    return app_key_lines(a, keys, count, out);
}

size_t app_help_lines(struct arena *a, const struct app_key_map *map, const struct scene_help_line **out)
{
    return app_key_help(a, map, APP_ON_ALL, out);
}
