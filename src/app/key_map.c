#include "app/key_map.h"

#include "base/text.h"
#include "base/words.h"
#include "input/key.h"

#include <ctype.h>
#include <string.h>

static const struct err_kind no_action = {
    "app.key_no_action", ERR_WARNING,
    BASE_TR("keys: “{0}” is no action that has a key, so this one is left out; “chalklight keys” lists them")
};
static const struct err_kind no_action_near = {
    "app.key_no_action", ERR_WARNING,
    BASE_TR("keys: “{0}” is no action that has a key, so this one is left out; did you mean “{1}”?")
};
static const struct err_kind no_key = {
    "app.key_no_key", ERR_WARNING,
    BASE_TR("keys: “{0}” is no key, so “{1}” keeps its own; write a key as help does, such as F6 or Ctrl K")
};
static const struct err_kind taken = {
    "app.key_taken", ERR_WARNING,
    BASE_TR("keys: {0} is the key of “{1}”, so “{2}” keeps its own; give “{1}” another key first")
};

enum { CUT = APP_KEYS_CUT, SET_UP = APP_KEYS_SET_UP, ARRANGE = APP_KEYS_ARRANGE, ALL = APP_KEYS_ALL };

/* Those of cutting first. */
static const struct app_key_name names[] = {
    { BASE_TR_IN("what a key does", "tick"), KEY_ENTER, 0, CUT | SET_UP },
    { BASE_TR_IN("what a key does", "tick all of it"), KEY_ENTER, MOD_SHIFT, CUT },
    { BASE_TR_IN("what a key does", "take back"), KEY_BACKSPACE, 0, CUT | SET_UP },
    { BASE_TR_IN("what a key does", "next"), KEY_PAGE_DOWN, 0, ALL },
    { BASE_TR_IN("what a key does", "previous"), KEY_PAGE_UP, 0, ALL },
    { BASE_TR_IN("what a key does", "move left"), KEY_LEFT, 0, ALL },
    { BASE_TR_IN("what a key does", "move right"), KEY_RIGHT, 0, ALL },
    { BASE_TR_IN("what a key does", "move away"), KEY_UP, 0, ALL },
    { BASE_TR_IN("what a key does", "move toward you"), KEY_DOWN, 0, ALL },
    { BASE_TR_IN("what a key does", "move left finely"), KEY_LEFT, MOD_SHIFT, CUT | ARRANGE },
    { BASE_TR_IN("what a key does", "move right finely"), KEY_RIGHT, MOD_SHIFT, CUT | ARRANGE },
    { BASE_TR_IN("what a key does", "move away finely"), KEY_UP, MOD_SHIFT, CUT | ARRANGE },
    { BASE_TR_IN("what a key does", "move toward you finely"), KEY_DOWN, MOD_SHIFT, CUT | ARRANGE },
    { BASE_TR_IN("what a key does", "move left a hair"), KEY_LEFT, MOD_CTRL, ALL },
    { BASE_TR_IN("what a key does", "move right a hair"), KEY_RIGHT, MOD_CTRL, ALL },
    { BASE_TR_IN("what a key does", "move away a hair"), KEY_UP, MOD_CTRL, ALL },
    { BASE_TR_IN("what a key does", "move toward you a hair"), KEY_DOWN, MOD_CTRL, ALL },
    { BASE_TR_IN("what a key does", "quarter turn"), KEY_CHAR + 't', 0, CUT },
    { BASE_TR_IN("what a key does", "quarter turn back"), KEY_CHAR + 't', MOD_SHIFT, CUT },
    { BASE_TR_IN("what a key does", "turn"), KEY_CHAR + ',', 0, CUT | ARRANGE },
    { BASE_TR_IN("what a key does", "turn back"), KEY_CHAR + '.', 0, CUT | ARRANGE },
    { BASE_TR_IN("what a key does", "turn a hair"), KEY_CHAR + ',', MOD_CTRL, CUT | ARRANGE },
    { BASE_TR_IN("what a key does", "turn back a hair"), KEY_CHAR + '.', MOD_CTRL, CUT | ARRANGE },
    { BASE_TR_IN("what a key does", "turn over"), KEY_CHAR + 'o', 0, CUT | ARRANGE },
    { BASE_TR_IN("what a key does", "as at first"), KEY_HOME, 0, CUT },
    { BASE_TR_IN("what a key does", "wider line"), KEY_CHAR + '+', 0, CUT },
    { BASE_TR_IN("what a key does", "finer line"), KEY_CHAR + '-', 0, CUT },
    { BASE_TR_IN("what a key does", "all pieces"), KEY_CHAR + 'a', 0, CUT },
    { BASE_TR_IN("what a key does", "layout"), KEY_CHAR + 'l', 0, CUT },
    { BASE_TR_IN("what a key does", "what is left"), KEY_CHAR + 'i', 0, CUT },
    { BASE_TR_IN("what a key does", "test square"), KEY_CHAR + 's', 0, CUT },
    { BASE_TR_IN("what a key does", "marks lie on stickers"), KEY_CHAR + 'm', 0, CUT },
    { BASE_TR_IN("what a key does", "marks lie beside"), KEY_CHAR + 'm', MOD_SHIFT, CUT },
    { BASE_TR_IN("what a key does", "how true"), KEY_CHAR + 'd', 0, CUT | SET_UP },
    { BASE_TR_IN("what a key does", "rulings"), KEY_CHAR + 'r', 0, CUT },
    { BASE_TR_IN("what a key does", "dark"), KEY_CHAR + 'b', 0, CUT },
    { BASE_TR_IN("what a key does", "work light"), KEY_CHAR + 'b', MOD_SHIFT, CUT },
    { BASE_TR_IN("what a key does", "opened out"), KEY_CHAR + 'u', 0, CUT },
    { BASE_TR_IN("what a key does", "cut edge"), KEY_CHAR + 'e', 0, CUT },
    { BASE_TR_IN("what a key does", "colours"), KEY_CHAR + 'c', 0, CUT | ARRANGE },
    { BASE_TR_IN("what a key does", "trial strip"), KEY_CHAR + 'c', MOD_SHIFT, CUT },
    { BASE_TR_IN("what a key does", "colour by the cloth"), KEY_CHAR + '0', 0, CUT },
    { BASE_TR_IN("what a key does", "colour 1"), KEY_CHAR + '1', 0, CUT },
    { BASE_TR_IN("what a key does", "colour 2"), KEY_CHAR + '2', 0, CUT },
    { BASE_TR_IN("what a key does", "colour 3"), KEY_CHAR + '3', 0, CUT },
    { BASE_TR_IN("what a key does", "colour 4"), KEY_CHAR + '4', 0, CUT },
    { BASE_TR_IN("what a key does", "colour 5"), KEY_CHAR + '5', 0, CUT },
    { BASE_TR_IN("what a key does", "colour 6"), KEY_CHAR + '6', 0, CUT },
    { BASE_TR_IN("what a key does", "pulse"), KEY_CHAR + 'p', 0, CUT },
    { BASE_TR_IN("what a key does", "band under words"), KEY_CHAR + 'g', 0, CUT },
    { BASE_TR_IN("what a key does", "stand elsewhere"), KEY_TAB, 0, ALL },
    { BASE_TR_IN("what a key does", "words elsewhere"), KEY_TAB, MOD_SHIFT, CUT },
    { BASE_TR_IN("what a key does", "cloth stays"), KEY_CHAR + 'f', 0, CUT },
    { BASE_TR_IN("what a key does", "leave out"), KEY_CHAR + 'x', 0, CUT },
    { BASE_TR_IN("what a key does", "other edge"), KEY_SPACE, 0, CUT },
    { BASE_TR_IN("what a key does", "cloth has moved"), KEY_CHAR + 'w', 0, CUT },
    { BASE_TR_IN("what a key does", "next cloth"), KEY_CHAR + 'n', 0, CUT },
    { BASE_TR_IN("what a key does", "help"), KEY_F1, 0, ALL },
    { BASE_TR_IN("what a key does", "help"), KEY_CHAR + 'h', 0, ALL },
    { BASE_TR_IN("what a key does", "back"), KEY_ESC, 0, ALL },
    { BASE_TR_IN("what a key does", "lock"), KEY_CHAR + 'l', MOD_CTRL, ALL },
    { BASE_TR_IN("what a key does", "leave"), KEY_CHAR + 'q', MOD_CTRL, ALL },
    { BASE_TR_IN("what a key does", "move left far"), KEY_LEFT, MOD_SHIFT, SET_UP },
    { BASE_TR_IN("what a key does", "move right far"), KEY_RIGHT, MOD_SHIFT, SET_UP },
    { BASE_TR_IN("what a key does", "move away far"), KEY_UP, MOD_SHIFT, SET_UP },
    { BASE_TR_IN("what a key does", "move toward you far"), KEY_DOWN, MOD_SHIFT, SET_UP },
    { BASE_TR_IN("what a key does", "beside the mat"), KEY_CHAR + 'b', 0, SET_UP },
    { BASE_TR_IN("what a key does", "what the readings give"), KEY_END, 0, SET_UP },
    { BASE_TR_IN("what a key does", "keep the reading"), KEY_CHAR + 'k', 0, SET_UP },
    { BASE_TR_IN("what a key does", "correct the reading"), KEY_CHAR + 'c', 0, SET_UP },
    { BASE_TR_IN("what a key does", "read again"), KEY_CHAR + 'r', 0, SET_UP },
    { BASE_TR_IN("what a key does", "one more cross"), KEY_CHAR + 'n', 0, SET_UP },
    { BASE_TR_IN("what a key does", "follow the tape"), KEY_CHAR + 't', 0, SET_UP },
    { BASE_TR_IN("what a key does", "begin afresh"), KEY_CHAR + 'n', MOD_CTRL, SET_UP },
    { BASE_TR_IN("what a key does", "slide left"), KEY_LEFT, MOD_ALT, ARRANGE },
    { BASE_TR_IN("what a key does", "slide right"), KEY_RIGHT, MOD_ALT, ARRANGE },
    { BASE_TR_IN("what a key does", "slide away"), KEY_UP, MOD_ALT, ARRANGE },
    { BASE_TR_IN("what a key does", "slide toward you"), KEY_DOWN, MOD_ALT, ARRANGE },
    { BASE_TR_IN("what a key does", "butt"), KEY_CHAR + 'b', 0, ARRANGE },
    { BASE_TR_IN("what a key does", "end for end"), KEY_CHAR + 't', 0, ARRANGE },
    { BASE_TR_IN("what a key does", "hold in place"), KEY_CHAR + 'p', 0, ARRANGE },
    { BASE_TR_IN("what a key does", "take off"), KEY_CHAR + 'x', 0, ARRANGE },
    { BASE_TR_IN("what a key does", "arrange again"), KEY_ENTER, 0, ARRANGE },
    { BASE_TR_IN("what a key does", "arrange again"), KEY_CHAR + 'r', 0, ARRANGE },
    { BASE_TR_IN("what a key does", "stop or go on"), KEY_SPACE, 0, ARRANGE },
    { BASE_TR_IN("what a key does", "undo"), KEY_CHAR + 'z', 0, ARRANGE },
    { BASE_TR_IN("what a key does", "undo"), KEY_CHAR + 'z', MOD_CTRL, ARRANGE },
    { BASE_TR_IN("what a key does", "do again"), KEY_CHAR + 'y', 0, ARRANGE },
    { BASE_TR_IN("what a key does", "do again"), KEY_CHAR + 'y', MOD_CTRL, ARRANGE },
    { BASE_TR_IN("what a key does", "first cloth"), KEY_F2, 0, ARRANGE },
    { BASE_TR_IN("what a key does", "second cloth"), KEY_F3, 0, ARRANGE },
    { BASE_TR_IN("what a key does", "third cloth"), KEY_F4, 0, ARRANGE },
};
enum { NAMES = sizeof names / sizeof names[0] };

const struct app_key_name *app_key_names(size_t *count)
{
    *count = NAMES;
    return names;
}

/* --- reading ----------------------------------------------------------------------------------------------------- */

static bool is_same(const char *name, const char *written)
{
    while (*name && *name == tolower((unsigned char)*written))
        name++, written++;
    return *name == *written;
}

static const struct app_key_name *find_name(const char *written)
{
    for (int i = 0; i < NAMES; i++)
        if (is_same(names[i].name, written))
            return &names[i];
    return NULL;
}

static const char *nearest_name(const char *name)
{
    const char *all[NAMES];
    for (int i = 0; i < NAMES; i++)
        all[i] = names[i].name;
    return base_text_nearest(name, all, NAMES);
}

static const char *trimmed(struct arena *a, const char *from, const char *to)
{
    while (from < to && isspace((unsigned char)*from))
        from++;
    while (to > from && isspace((unsigned char)to[-1]))
        to--;
    return base_arena_print(a, "%.*s", (int)(to - from), from);
}

/* One text; false when it names no action or no key. */
static bool read_one(struct arena *a, const char *text, struct app_given_key *out, struct err_list *errs)
{
    const char *sign = strchr(text, '='), *end = text + strlen(text);
    const char *name = trimmed(a, text, sign ? sign : end), *key = sign ? trimmed(a, sign + 1, end) : "";
    out->does = find_name(name);
    if (!out->does) {
        const char *near = nearest_name(name);
        base_err(errs, near ? &no_action_near : &no_action, (struct err_place){ 0 }, ERR_TEXT(name), ERR_TEXT(near));
        return false;
    }
    if (!input_key_from_name(key, &out->key, &out->mods)) {
        base_err(errs, &no_key, (struct err_place){ 0 }, ERR_TEXT(key), ERR_TEXT(out->does->name));
        return false;
    }
    return true;
}

static bool is_given(const struct app_given_key *given, size_t count, const struct app_key_name *name)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(given[i].does->name, name->name) == 0)
            return true;
    return false;
}

/* Whether two names would be done by that key on the same page. */
static bool clash(const struct app_given_key *given, const struct app_key_name *other, int key, int mods)
{
    return key == given->key && mods == given->mods && (other->of & given->does->of) &&
           strcmp(other->name, given->does->name) != 0;
}

/* Another action that the key of one would do as well: one whose usual key it is, or that was given it before. */
static const struct app_key_name *other_of(const struct app_given_key *given, size_t count, size_t which)
{
    const struct app_given_key *g = &given[which];
    for (size_t i = 0; i < which; i++)
        if (clash(g, given[i].does, given[i].key, given[i].mods))
            return given[i].does;
    for (int i = 0; i < NAMES; i++)
        if (clash(g, &names[i], names[i].key, names[i].mods) && !is_given(given, count, &names[i]))
            return &names[i];
    return NULL;
}

/* Takes out one whose key is another action's, and tells it; what goes gives its usual key back, which may be
 * another's, so all are looked at again. */
static bool drop_taken(struct app_given_key *given, size_t *count, struct err_list *errs)
{
    for (size_t i = 0; i < *count; i++) {
        const struct app_key_name *other = other_of(given, *count, i);
        char key[INPUT_KEY_TEXT];
        if (!other)
            continue;
        base_err(errs, &taken, (struct err_place){ 0 }, ERR_TEXT(input_key_name(key, given[i].key, given[i].mods)),
                 ERR_TEXT(other->name), ERR_TEXT(given[i].does->name));
        memmove(given + i, given + i + 1, (*count - i - 1) * sizeof *given);
        (*count)--;
        return true;
    }
    return false;
}

struct app_key_map app_key_map_read(struct arena *a, const char *const *texts, size_t count, struct err_list *errs)
{
    struct app_given_key *given = base_arena_alloc(a, count, sizeof *given);
    size_t good = 0;
    for (size_t i = 0; i < count; i++)
        good += read_one(a, texts[i], &given[good], errs);
    while (drop_taken(given, &good, errs))
        ;
    return (struct app_key_map){ given, good };
}

/* --- use --------------------------------------------------------------------------------------------------------- */

/* What a length is typed with, and the number pad's other keys. */
static bool is_of_numbers(int key, int mods)
{
    unsigned long point = input_key_printed(key, mods);
    return point && point < 128 && strchr("0123456789.,+-*/", (int)point);
}

static bool holds(const struct app_given_key *given, unsigned of)
{
    return (given->does->of & of) && !(of == APP_KEYS_SET_UP && is_of_numbers(given->key, given->mods));
}

/* The first that is given to that name there; NULL: none is. */
static const struct app_given_key *given_to(const struct app_key_map *map, unsigned of, const struct app_key_name *name)
{
    for (size_t i = 0; map && i < map->count; i++)
        if (holds(&map->given[i], of) && strcmp(map->given[i].does->name, name->name) == 0)
            return &map->given[i];
    return NULL;
}

static const struct app_key_name *usual_of(unsigned of, int key, int mods)
{
    for (int i = 0; i < NAMES; i++)
        if ((names[i].of & of) && names[i].key == key && names[i].mods == mods)
            return &names[i];
    return NULL;
}

bool app_key_map_usual(const struct app_key_map *map, unsigned of, int *key, int *mods)
{
    for (size_t i = 0; map && i < map->count; i++)
        if (map->given[i].key == *key && map->given[i].mods == *mods && holds(&map->given[i], of)) {
            *key = map->given[i].does->key;
            *mods = map->given[i].does->mods;
            return true;
        }
    const struct app_key_name *usual = usual_of(of, *key, *mods);
    return !usual || !given_to(map, of, usual);
}

void app_key_map_shown(const struct app_key_map *map, unsigned of, int *key, int *mods)
{
    const struct app_key_name *usual = usual_of(of, *key, *mods);
    const struct app_given_key *given = usual ? given_to(map, of, usual) : NULL;
    if (!given)
        return;
    *key = given->key;
    *mods = given->mods;
}

/* --- what is told about keys ------------------------------------------------------------------------------------- */

static const char between_parts[] = " · ", after_keys[] = ": ", between_keys[] = ", ";

/* The first of `what` in a text, or its end. */
static const char *next_of(const char *from, const char *to, const char *what)
{
    const char *found = strstr(from, what);
    return found && found < to ? found : to;
}

/* One name of a usual key as she gave it; any other text as it is. */
static const char *said_key(const struct app_key_map *map, unsigned of, struct arena *a, const char *from,
                            const char *to)
{
    char name[INPUT_KEY_TEXT];
    const char *said = base_arena_print(a, "%.*s", (int)(to - from), from);
    for (int i = 0; i < NAMES; i++) {
        int key = names[i].key, mods = names[i].mods;
        if (!(names[i].of & of) || strcmp(input_key_name(name, key, mods), said) != 0)
            continue;
        app_key_map_shown(map, of, &key, &mods);
        return base_arena_print(a, "%s", input_key_name(name, key, mods));
    }
    return said;
}

/* All names there, with what stands between them. */
static const char *said_keys(const struct app_key_map *map, unsigned of, struct arena *a, const char *from,
                             const char *to)
{
    const char *said = "", *joint = base_arena_print(a, base_tr("%s or %s"), "", "");
    while (from < to) {
        const char *comma = next_of(from, to, between_keys), *other = next_of(from, to, joint);
        const char *end = comma < other ? comma : other;
        const char *next = end == to ? to : end + strlen(comma < other ? between_keys : joint);
        said = base_arena_print(a, "%s%s%.*s", said, said_key(map, of, a, from, end), (int)(next - end), end);
        from = next;
    }
    return said;
}

const char *app_key_map_said(const struct app_key_map *map, unsigned of, struct arena *a, const char *text)
{
    const char *said = "";
    if (!text || !map || map->count == 0)
        return text;
    for (const char *at = text, *end = text + strlen(text); at < end;) {
        const char *part = next_of(at, end, between_parts);
        const char *next = part == end ? end : part + strlen(between_parts), *colon = next_of(at, part, after_keys);
        const char *keys = colon == part ? "" : said_keys(map, of, a, at, colon);
        const char *rest = colon == part ? at : colon;
        said = base_arena_print(a, "%s%s%.*s", said, keys, (int)(next - rest), rest);
        at = next;
    }
    return said;
}
