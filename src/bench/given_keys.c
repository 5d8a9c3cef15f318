/* The page where what is done at the table is given another key: its row, then the key. */
#include "app/key_map.h"
#include "app/sentence.h"
#include "base/words.h"
#include "bench/inside.h"
#include "input/key.h"

#include <string.h>

enum { ROWS = 1 };

static const double row_height = 26;

static const struct form_key keys[] = {
    { "↑ ↓", BASE_TR("choose") },
    { BASE_TR_IN("key", "Enter"), BASE_TR("give another key") },
    { BASE_TR_IN("key", "Delete"), BASE_TR("the usual key again") },
    { BASE_TR_IN("key", "Esc"), BASE_TR("back") },
};

/* --- what is given ----------------------------------------------------------------------------------------------- */

/* What can be given a key, each once. */
static const struct app_key_name *actions(struct arena *a, size_t *count)
{
    size_t all;
    const struct app_key_name *names = app_key_names(&all);
    struct app_key_name *out = base_arena_alloc(a, all, sizeof *out);
    *count = 0;
    for (size_t i = 0; i < all; i++)
        if (!*count || strcmp(out[*count - 1].name, names[i].name) != 0)
            out[(*count)++] = names[i];
    return out;
}

static struct app_key_map map_of(const struct bench *b, struct arena *a, struct err_list *errs)
{
    return app_key_map_read(a, b->given.texts, b->given.count, errs);
}

void bench_set_given_keys(struct bench *b, const char *const *texts, size_t count)
{
    struct arena *in = base_arena_create();
    const char **copies = base_arena_alloc(in, count, sizeof *copies);
    for (size_t i = 0; i < count; i++)
        copies[i] = base_arena_copy_text(in, texts[i]);
    if (b->given.in)
        base_arena_destroy(b->given.in);
    b->given.in = in;
    b->given.texts = copies;
    b->given.count = count;
}

size_t bench_given_keys(const struct bench *b, const char *const **out)
{
    *out = b->given.texts;
    return b->given.count;
}

/* All that is given and can be read, but what is given to that action. */
static const char **others(const struct bench *b, struct arena *a, const struct app_key_name *but, size_t *count)
{
    struct err_list *ignored = base_err_list_create();
    struct app_key_map map = map_of(b, a, ignored);
    const char **out = base_arena_alloc(a, map.count + 1, sizeof *out);
    base_err_list_destroy(ignored);
    *count = 0;
    for (size_t i = 0; i < map.count; i++) {
        char key[INPUT_KEY_TEXT];
        if (strcmp(map.given[i].does->name, but->name) != 0)
            out[(*count)++] = base_arena_print(a, "%s = %s", map.given[i].does->name,
                                               input_key_written(key, map.given[i].key, map.given[i].mods));
    }
    return out;
}

static const struct app_key_name *chosen(const struct bench *b, struct arena *a)
{
    size_t count;
    const struct app_key_name *all = actions(a, &count);
    return &all[b->given.at < count ? b->given.at : 0];
}

static void take(struct bench *b, const char *const *texts, size_t count)
{
    bench_set_given_keys(b, texts, count);
    b->effects.own_keys = b->effects.redraw = true;
}

static void take_back(struct bench *b)
{
    struct arena *a = base_arena_create();
    size_t count;
    const char **left = others(b, a, chosen(b, a), &count);
    take(b, left, count);
    base_arena_destroy(a);
}

/* A key that does something else already is told, and nothing changes. */
static void give(struct bench *b, int key, int mods)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    const struct app_key_name *to = chosen(b, a);
    size_t count;
    char name[INPUT_KEY_TEXT];
    const char **texts = others(b, a, to, &count);
    texts[count++] = base_arena_print(a, "%s = %s", to->name, input_key_written(name, key, mods));
    app_key_map_read(a, texts, count, errs);
    if (errs->count)
        bench_say(b, app_sentence(a, &errs->items[0], b->manner.unit));
    else
        take(b, texts, count);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
}

/* --- the page ---------------------------------------------------------------------------------------------------- */

static const char *shown(const struct app_key_name *action)
{
    return base_tr_in("what a key does", action->name);
}

/* What a row has beside its name. */
struct beside {
    const char *key, *where;
};

/* The pages that a name is of. */
static const char *where_text(unsigned of)
{
    static const char *const texts[APP_KEYS_ALL + 1] = {
        [APP_KEYS_CUT] = BASE_TR_IN("where a key counts", "cutting"),
        [APP_KEYS_SET_UP] = BASE_TR_IN("where a key counts", "table set-up"),
        [APP_KEYS_ARRANGE] = BASE_TR_IN("where a key counts", "layout"),
        [APP_KEYS_CUT | APP_KEYS_SET_UP] = BASE_TR_IN("where a key counts", "cutting, table set-up"),
        [APP_KEYS_CUT | APP_KEYS_ARRANGE] = BASE_TR_IN("where a key counts", "cutting, layout"),
        [APP_KEYS_SET_UP | APP_KEYS_ARRANGE] = BASE_TR_IN("where a key counts", "table set-up, layout"),
        [APP_KEYS_ALL] = BASE_TR_IN("where a key counts", "everywhere"),
    };
    return base_tr_in("where a key counts", texts[of]);
}

static void draw_row(struct form_picture *p, const struct form_item *item, struct bench_box box, size_t choice,
                     bool bold)
{
    const struct beside *beside = &((const struct beside *)item->of)[choice];
    double y = box.y + box.height / 2 + form_drop(FORM_NOTE), third = box.width / 3;
    form_text(p, (struct bench_pt){ box.x + 16, y }, FORM_LEFT, bold ? FORM_NOTE_STRONG : FORM_NOTE, FORM_INK,
              third - 20, form_cut_text(p, FORM_NOTE_STRONG, third - 20, item->choices[choice]));
    form_text(p, (struct bench_pt){ box.x + third, y }, FORM_LEFT, FORM_NOTE_STRONG, FORM_INK, third - 14,
              form_cut_text(p, FORM_NOTE_STRONG, third - 14, beside->key));
    form_text(p, (struct bench_pt){ box.x + 2 * third, y }, FORM_LEFT, FORM_NOTE, FORM_INK_2, third - 14,
              form_cut_text(p, FORM_NOTE, third - 14, beside->where));
    form_line(p, (struct bench_pt){ box.x, box.y + box.height },
              (struct bench_pt){ box.x + box.width, box.y + box.height }, 1, FORM_HAIR);
}

static const char *sentence_of(const struct bench_page *page)
{
    if (!page->bench->given.waits)
        return base_tr("What is done at the table, where, and the key for it. Give it any other that is free there.");
    return base_arena_print(page->a, base_tr("Press the key for “%s”. Esc: leave it as it is."),
                            shown(chosen(page->bench, page->a)));
}

static void fill(struct bench_page *page)
{
    const struct bench *b = page->bench;
    struct bench_box content = bench_content(page->p);
    struct err_list *ignored = base_err_list_create();
    struct app_key_map map = map_of(b, page->a, ignored);
    base_err_list_destroy(ignored);
    size_t count, room = (size_t)(content.height / row_height);
    const struct app_key_name *all = actions(page->a, &count);
    size_t at = b->given.at < count ? b->given.at : 0;
    size_t first = at >= room ? at - room + 1 : 0, rows = count - first < room ? count - first : room;
    const char **names = base_arena_alloc(page->a, rows, sizeof *names);
    struct beside *beside = base_arena_alloc(page->a, rows, sizeof *beside);
    for (size_t i = 0; i < rows; i++) {
        char key[INPUT_KEY_TEXT];
        int now = all[first + i].key, mods = all[first + i].mods;
        app_key_map_shown(&map, all[first + i].of, &now, &mods);
        names[i] = shown(&all[first + i]);
        beside[i] = (struct beside){ base_arena_copy_text(page->a, input_key_name(key, now, mods)),
                                     where_text(all[first + i].of) };
    }
    page->title = base_tr("Keys of your own");
    page->sentence = sentence_of(page);
    page->keys = keys;
    page->key_count = sizeof keys / sizeof keys[0];
    form_add(&page->form, (struct form_item){ .id = ROWS,
                                              .kind = FORM_TILES,
                                              .box = { content.x, content.y, content.width, (double)rows * row_height },
                                              .columns = 1,
                                              .choices = names,
                                              .choice_count = rows,
                                              .chosen = (int)(at - first),
                                              .draw_tile = draw_row,
                                              .of = beside,
                                              .first = first,
                                              .total = count });
}

static void answer(struct bench *b, const struct form_answer *did)
{
    if (did->did == FORM_CHOSE)
        b->given.at = (size_t)did->choice + form_find(&b->made.form, ROWS)->first;
    b->given.waits = did->did == FORM_PRESSED;
    b->effects.redraw = true;
}

/* The key that is waited for, whatever it does else; and the one that gives the usual one back. */
static bool press(struct bench *b, struct input_event e)
{
    bool waited = b->given.waits;
    b->given.waits = false;
    if (waited && e.key != KEY_ESC)
        give(b, e.key, e.mods);
    else if (!waited && e.key == KEY_DELETE && !e.mods)
        take_back(b);
    else if (!waited)
        return false;
    b->effects.redraw = true;
    return true;
}

const struct bench_stage bench_own_keys = { .fill = fill, .answer = answer, .press = press };
