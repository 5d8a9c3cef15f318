#include "settings/settings.h"

#include "base/text.h"
#include "base/xdg.h"
#include "settings/state.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_TEXT_BYTES = 4096 }; /* a path has no more (Linux, PATH_MAX) */

static const struct settings_row *row_of(enum settings_name name)
{
    size_t count;
    return &settings_rows(&count)[name];
}

const char *settings_path(struct arena *a)
{
    return base_xdg_path(a, BASE_XDG_CONFIG, "settings.json");
}

const char *settings_file(const struct settings *s)
{
    return s->path;
}

/* --- asking ------------------------------------------------------------------------------------------------------ */

bool settings_is_usual(const struct settings *s, enum settings_name name)
{
    return !s->values[name].said;
}

int settings_word(const struct settings *s, enum settings_name name)
{
    assert(row_of(name)->type == SETTINGS_WORD);
    return s->values[name].number;
}

int settings_number(const struct settings *s, enum settings_name name)
{
    assert(row_of(name)->type == SETTINGS_NUMBER);
    return s->values[name].said ? s->values[name].number : row_of(name)->usual;
}

const char *settings_text(const struct settings *s, enum settings_name name)
{
    assert(row_of(name)->type == SETTINGS_TEXT || row_of(name)->type == SETTINGS_DATE);
    return s->values[name].count ? s->values[name].texts[0] : NULL;
}

size_t settings_texts(const struct settings *s, enum settings_name name, const char *const **out)
{
    assert(row_of(name)->type == SETTINGS_TEXTS);
    *out = s->values[name].texts;
    return s->values[name].count;
}

const char *settings_shown(struct arena *a, const struct settings *s, enum settings_name name)
{
    const struct settings_row *row = row_of(name);
    const struct settings_value *v = &s->values[name];
    const char *text = "";
    if (row->type == SETTINGS_WORD)
        return row->words[v->number];
    if (row->type == SETTINGS_NUMBER)
        return base_arena_print(a, "%d", settings_number(s, name));
    for (size_t i = 0; i < v->count; i++)
        text = base_arena_print(a, "%s%s%s", text, i ? "; " : "", v->texts[i]);
    return text;
}

/* --- setting ----------------------------------------------------------------------------------------------------- */

static int days_of(int year, int month)
{
    static const int days[] = { 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31 };
    bool leaps = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    return days[month - 1] + (month == 2 && leaps);
}

/* ISO 8601, year, month and day. */
static bool is_day(const char *text)
{
    static const char form[] = "0000-00-00";
    if (strlen(text) != strlen(form))
        return false;
    for (size_t i = 0; form[i]; i++)
        if (form[i] == '-' ? text[i] != '-' : text[i] < '0' || text[i] > '9')
            return false;
    int year = atoi(text), month = atoi(text + 5), day = atoi(text + 8);
    return month >= 1 && month <= 12 && day >= 1 && day <= days_of(year, month);
}

bool settings_is_text(const struct settings_row *row, const char *text)
{
    size_t bytes = strlen(text);
    if (row->type == SETTINGS_DATE)
        return is_day(text);
    return bytes > 0 && bytes <= MOST_TEXT_BYTES && base_text_is_utf8(text, bytes);
}

/* A value as a whole: what was put first before is in it or gone. */
static void set(struct settings *s, enum settings_name name, struct settings_value value)
{
    s->values[name] = value;
    s->changed[name] = true;
    if (name == SETTINGS_RECENT)
        s->first = (struct settings_value){ 0 };
}

static int count_words(const char *const *words)
{
    int count = 0;
    while (words[count])
        count++;
    return count;
}

void settings_set_word(struct settings *s, enum settings_name name, int word)
{
    assert(row_of(name)->type == SETTINGS_WORD && word >= 0 && word < count_words(row_of(name)->words));
    set(s, name, (struct settings_value){ .said = true, .number = word });
}

void settings_set_number(struct settings *s, enum settings_name name, int number)
{
    assert(row_of(name)->type == SETTINGS_NUMBER && number >= row_of(name)->least && number <= row_of(name)->most);
    set(s, name, (struct settings_value){ .said = true, .number = number });
}

static struct settings_value copied(struct arena *a, const char *const *texts, size_t count)
{
    const char **copies = base_arena_alloc(a, count, sizeof *copies);
    for (size_t i = 0; i < count; i++)
        copies[i] = base_arena_copy_text(a, texts[i]);
    return (struct settings_value){ .said = true, .texts = copies, .count = count };
}

bool settings_set_text(struct settings *s, enum settings_name name, const char *text)
{
    const struct settings_row *row = row_of(name);
    assert(row->type == SETTINGS_TEXT || row->type == SETTINGS_DATE);
    if (!settings_is_text(row, text))
        return false;
    set(s, name, copied(s->a, &text, 1));
    return true;
}

bool settings_set_texts(struct settings *s, enum settings_name name, const char *const *texts, size_t count)
{
    const struct settings_row *row = row_of(name);
    assert(row->type == SETTINGS_TEXTS);
    if (count > (size_t)row->most)
        return false;
    for (size_t i = 0; i < count; i++)
        if (!settings_is_text(row, texts[i]))
            return false;
    set(s, name, copied(s->a, texts, count));
    return true;
}

void settings_forget(struct settings *s, enum settings_name name)
{
    set(s, name, (struct settings_value){ 0 });
}

static bool is_among(const char *text, const char *const *texts, size_t count)
{
    while (count && strcmp(text, texts[count - 1]) != 0)
        count--;
    return count > 0;
}

struct settings_value settings_joined(struct arena *a, const struct settings_row *row,
                                      const struct settings_value *more, const struct settings_value *list)
{
    const char **texts = base_arena_alloc(a, (size_t)row->most, sizeof *texts);
    size_t count = 0;
    for (size_t i = 0; i < more->count + list->count && count < (size_t)row->most; i++) {
        const char *text = i < more->count ? more->texts[i] : list->texts[i - more->count];
        if (!is_among(text, texts, count))
            texts[count++] = text;
    }
    return (struct settings_value){ .said = count > 0, .texts = texts, .count = count };
}

bool settings_put_first(struct settings *s, enum settings_name name, const char *text)
{
    const struct settings_row *row = row_of(name);
    assert(name == SETTINGS_RECENT);
    if (!settings_is_text(row, text))
        return false;
    if (s->values[name].count && strcmp(s->values[name].texts[0], text) == 0)
        return true;
    struct settings_value one = copied(s->a, &text, 1);
    s->values[name] = settings_joined(s->a, row, &one, &s->values[name]);
    s->first = settings_joined(s->a, row, &one, &s->first);
    return true;
}

/* --- as it is typed ---------------------------------------------------------------------------------------------- */

static bool set_typed_word(struct settings *s, enum settings_name name, const char *typed)
{
    const char *const *words = row_of(name)->words;
    int i = 0, count = count_words(words);
    while (i < count && base_text_distance(words[i], typed, 1) != 0) /* capitals are no matter */
        i++;
    if (i < count)
        settings_set_word(s, name, i);
    return i < count;
}

static bool set_typed_number(struct settings *s, enum settings_name name, const char *typed)
{
    char *end;
    long number = strtol(typed, &end, 10);
    if (end == typed || *end || number < row_of(name)->least || number > row_of(name)->most)
        return false;
    settings_set_number(s, name, (int)number);
    return true;
}

/* Without the blanks around it, in `a`. */
static const char *trimmed(struct arena *a, const char *from, const char *to)
{
    while (from < to && *from == ' ')
        from++;
    while (to > from && to[-1] == ' ')
        to--;
    return base_arena_copy_bytes(a, from, (size_t)(to - from));
}

static bool set_typed_texts(struct settings *s, enum settings_name name, const char *typed)
{
    struct arena *a = base_arena_create();
    const char **texts = NULL;
    size_t count = 0, cap = 0;
    for (const char *end; *typed; typed = *end ? end + 1 : end) {
        end = typed + strcspn(typed, ";");
        texts = base_arena_grow(a, texts, &cap, count + 1, sizeof *texts);
        texts[count++] = trimmed(a, typed, end);
    }
    bool ok = count && settings_set_texts(s, name, texts, count);
    base_arena_destroy(a);
    return ok;
}

bool settings_set_typed(struct settings *s, enum settings_name name, const char *typed)
{
    switch (row_of(name)->type) {
    case SETTINGS_WORD:
        return set_typed_word(s, name, typed);
    case SETTINGS_NUMBER:
        return set_typed_number(s, name, typed);
    case SETTINGS_TEXT:
    case SETTINGS_DATE:
        return settings_set_text(s, name, typed);
    case SETTINGS_TEXTS:
        return set_typed_texts(s, name, typed);
    }
    return false;
}
