/* What the maker of a pattern calls its parts in other languages than the file's own. */
#include "base/words.h"
#include "pattern/reader.h"

#include <stdlib.h>
#include <string.h>

enum { MOST_WORDINGS = 2000 }; /* in a language; more than any pattern has names (our own bound) */

static const struct err_kind no_language = {
    "pattern.language", ERR_FAULT, BASE_TR("“{0}” is no language; write its code of two small letters, such as \"de\"")
};
static const struct err_kind many_wordings = { "pattern.many_words", ERR_FAULT,
                                               BASE_TR("has {0} words; a language has at most {1} here") };
static const struct err_kind not_called = {
    "pattern.not_called", ERR_WARNING,
    BASE_TR("nothing in the pattern is called “{0}”; what it is called in another language goes unread")
};

static bool is_language(const char *code)
{
    return strspn(code, "abcdefghijklmnopqrstuvwxyz") == 2 && code[2] == '\0';
}

static int by_text(const void *a, const void *b)
{
    const struct pattern_wording *one = a, *other = b;
    return strcmp(one->text, other->text);
}

/* Every language is read, so that a file has the same faults whoever opens it. */
static void read_language(const struct pattern_reader *r, const struct json_node *object)
{
    struct pattern_wording *list = base_arena_alloc(r->a, object->count, sizeof *list);
    size_t count = 0;
    if (object->count > MOST_WORDINGS) {
        json_fault(r->errs, object, &many_wordings, ERR_NUMBER(object->count), ERR_NUMBER(MOST_WORDINGS));
        return;
    }
    for (const struct json_node *n = object->first; n; n = n->next) {
        const char *words = json_need_text(object, n->key, r->errs);
        if (words)
            list[count++] = (struct pattern_wording){ n->key, words };
    }
    if (strcmp(object->key, base_words_language()) != 0)
        return;
    qsort(list, count, sizeof *list, by_text);
    r->p->wordings = list;
    r->p->wording_count = count;
}

void pattern_read_wordings(const struct pattern_reader *r, const struct json_node *object)
{
    for (size_t i = 0; i < sizeof pattern_corners / sizeof pattern_corners[0]; i++)
        pattern_calls(r, pattern_corners[i].edge);
    for (const struct json_node *n = object->first; n; n = n->next) {
        if (!is_language(n->key))
            json_fault(r->errs, n, &no_language, ERR_TEXT(n->key));
        if (json_is(n, JSON_OBJECT, r->errs))
            read_language(r, n);
    }
}

static const char *worded(const struct pattern *p, const char *text)
{
    struct pattern_wording key = { text, NULL };
    const struct pattern_wording *found =
        p->wording_count ? bsearch(&key, p->wordings, p->wording_count, sizeof key, by_text) : NULL;
    return found ? found->words : text;
}

/* The part of a name up to its next comma, and *name moved behind that; NULL behind the last. */
static const char *next_part(struct arena *a, const char **name)
{
    if (!*name)
        return NULL;
    const char *comma = strstr(*name, ", "), *from = *name;
    *name = comma ? comma + 2 : NULL;
    return comma ? base_arena_copy_bytes(a, from, (size_t)(comma - from)) : from;
}

const char *pattern_worded(struct arena *a, const struct pattern *p, const char *name)
{
    const char *whole = name ? worded(p, name) : NULL, *list = NULL;
    if (!name || whole != name || !p->wording_count)
        return whole;
    for (const char *part = next_part(a, &name); part; part = next_part(a, &name))
        list = list ? base_arena_print(a, "%s, %s", list, worded(p, part)) : worded(p, part);
    return list;
}

void pattern_calls(const struct pattern_reader *r, const char *name)
{
    if (!name)
        return;
    pattern_names_add(r->names, PATTERN_NAME_TEXT, PATTERN_NONE, name, 0);
    for (const char *part = next_part(r->a, &name); part; part = next_part(r->a, &name))
        pattern_names_add(r->names, PATTERN_NAME_TEXT, PATTERN_NONE, part, 0);
}

const char *pattern_shown(const struct pattern_reader *r, const char *text)
{
    pattern_calls(r, text);
    return pattern_worded(r->a, r->p, text);
}

void pattern_check_wordings(const struct pattern_reader *r, const struct json_node *object)
{
    for (const struct json_node *language = object->first; language; language = language->next)
        for (const struct json_node *n = language->first; n; n = n->next)
            if (n->key && pattern_names_find(r->names, PATTERN_NAME_TEXT, PATTERN_NONE, n->key) == PATTERN_NONE)
                json_fault(r->errs, n, &not_called, ERR_TEXT(n->key));
}
