#include "app/key_lines.h"

#include "base/words.h"
#include "input/key.h"

#include <string.h>

/* --- tables ------------------------------------------------------------------------------------------------------ */

static const struct app_key *key_at(const struct app_key_table *table, size_t row)
{
    return (const void *)((const char *)table->rows + row * table->row_size);
}

static bool is_on(const struct app_key *key, unsigned on)
{
    return !key->on || (key->on & on);
}

static const void *find(const struct app_key_table *table, unsigned on, int key, int mods)
{
    for (size_t i = 0; i < table->count; i++) {
        const struct app_key *row = key_at(table, i);
        if (is_on(row, on) && row->key == key && row->mods == mods)
            return row;
    }
    return NULL;
}

const void *app_find_row(const struct app_key_table *table, unsigned on, int key, int mods)
{
    const void *row = find(table, on, key, mods);
    int does = input_key_does(key, mods);
    return row || does == KEY_NONE ? row : find(table, on, does, 0);
}

static struct app_key in_her_language(const struct app_key *key)
{
    struct app_key said = *key;
    said.what = key->what ? base_tr(key->what) : NULL;
    return said;
}

size_t app_table_lines(struct arena *a, const struct app_key_table *table, const struct app_key_map *map, unsigned on,
                       const struct scene_help_line **out)
{
    struct app_key *keys = base_arena_alloc(a, table->count, sizeof *keys);
    size_t count = 0;
    for (size_t i = 0; i < table->count; i++) {
        if (!is_on(key_at(table, i), on))
            continue;
        keys[count] = in_her_language(key_at(table, i));
        app_key_map_shown(map, table->of, &keys[count].key, &keys[count].mods);
        count++;
    }
    return app_key_lines(a, keys, count, out);
}

/* --- lines ------------------------------------------------------------------------------------------------------- */

enum { ARROWS = 4, IN_A_ROW = 3 /* function keys that are told from the first to the last */ };

/* Whether all four arrows come next, in any order, with the same keys held. */
static bool are_arrows(const struct app_key *keys, size_t count)
{
    unsigned seen = 0;
    for (size_t i = 0; i < ARROWS && i < count; i++)
        if (keys[i].mods == keys[0].mods && keys[i].key >= KEY_LEFT && keys[i].key <= KEY_DOWN)
            seen |= 1u << (keys[i].key - KEY_LEFT);
    return seen == (1u << ARROWS) - 1;
}

/* "Arrows", "Shift arrows": the keys held are the name of one of them without its own. */
static const char *arrows_text(struct arena *a, int mods)
{
    char one[INPUT_KEY_TEXT], bare[INPUT_KEY_TEXT];
    input_key_name(one, KEY_LEFT, mods);
    input_key_name(bare, KEY_LEFT, 0);
    if (!mods)
        return base_tr("Arrows");
    const char *held = base_arena_print(a, "%.*s", (int)(strlen(one) - strlen(bare)) - 1, one);
    /* To: “Shift arrows” */
    return base_arena_print(a, base_tr("%s arrows"), held);
}

/* How many function keys come next, one after the other. */
static size_t function_keys(const struct app_key *keys, size_t count)
{
    size_t run = 0;
    while (run < count && !keys[run].mods && keys[run].key == keys[0].key + (int)run && keys[run].key >= KEY_F1 &&
           keys[run].key <= KEY_F12)
        run++;
    return run;
}

/* "F2 to F8". */
static const char *functions_text(struct arena *a, const struct app_key *keys, size_t count)
{
    char first[INPUT_KEY_TEXT], last[INPUT_KEY_TEXT];
    /* To: “F2 to F8” */
    return base_arena_print(a, base_tr("%s to %s"), input_key_name(first, keys[0].key, 0),
                            input_key_name(last, keys[count - 1].key, 0));
}

/* The keys of one line. */
static const char *keys_text(struct arena *a, const struct app_key *keys, size_t count)
{
    const char *text = "";
    for (size_t i = 0; i < count;) {
        char name[INPUT_KEY_TEXT];
        bool arrows = are_arrows(keys + i, count - i);
        size_t functions = function_keys(keys + i, count - i);
        const char *next = arrows                  ? arrows_text(a, keys[i].mods)
                           : functions >= IN_A_ROW ? functions_text(a, keys + i, functions)
                                                   : input_key_name(name, keys[i].key, keys[i].mods);
        text = i ? base_arena_print(a, base_tr("%s or %s"), text, next) : base_arena_copy_text(a, next);
        i += arrows ? ARROWS : functions >= IN_A_ROW ? functions : 1;
    }
    return text;
}

size_t app_key_lines(struct arena *a, const struct app_key *keys, size_t count, const struct scene_help_line **out)
{
    struct scene_help_line *lines = base_arena_alloc(a, count, sizeof *lines);
    size_t line_count = 0;
    for (size_t first = 0, end; first < count; first = end) {
        for (end = first + 1; end < count && !keys[end].what;)
            end++;
        lines[line_count++] = (struct scene_help_line){ keys_text(a, keys + first, end - first), keys[first].what };
    }
    *out = lines;
    return line_count;
}
