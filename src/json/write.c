#include "json/write.h"

#include "base/text.h"
#include "json/lines.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Written by hand and not through cJSON: it prints numbers that read back only nearly the same. */

enum { INDENT = 2 };

struct json_out {
    struct arena *a;    /* the top's own, shared by all below it */
    const char *key;    /* NULL in a list or at the top */
    const char *scalar; /* as it stands in the text; NULL for a list or an object */
    char opener, closer;
    int depth;
    struct json_out *first, *last, *next;
};

/* A text that grows. */
struct text {
    struct arena *a;
    char *bytes;
    size_t count, cap;
};

static void put_bytes(struct text *t, const char *bytes, size_t count)
{
    t->bytes = base_arena_grow(t->a, t->bytes, &t->cap, t->count + count, 1);
    memcpy(t->bytes + t->count, bytes, count);
    t->count += count;
}

static void put(struct text *t, const char *text)
{
    put_bytes(t, text, strlen(text));
}

static void put_char(struct text *t, char c)
{
    put_bytes(t, &c, 1);
}

static const char *ended(struct text *t)
{
    put_char(t, '\0');
    return t->bytes;
}

/* RFC 8259, section 7: only these must be escaped. */
static void put_escaped(struct text *t, char c)
{
    static const char plain[] = "\"\\\b\f\n\r\t", letters[] = "\"\\bfnrt";
    const char *found = strchr(plain, c);
    if (found) {
        put_char(t, '\\');
        put_char(t, letters[found - plain]);
    } else if ((unsigned char)c < 0x20) {
        char code[sizeof "\\u001f"];
        snprintf(code, sizeof code, "\\u%04x", (unsigned)c);
        put(t, code);
    } else {
        put_char(t, c);
    }
}

static void put_quoted(struct text *t, const char *text)
{
    put_char(t, '"');
    for (; *text; text++)
        put_escaped(t, *text);
    put_char(t, '"');
}

static const char *quoted(struct arena *a, const char *text)
{
    struct text t = { .a = a };
    put_quoted(&t, text);
    return ended(&t);
}

/* The fewest digits from which the same double is read: 15 for most, 17 for any (IEEE 754). */
static const char *shortest(struct arena *a, double value)
{
    const char *text = NULL;
    for (int digits = 15; digits <= 17 && (!text || strtod(text, NULL) != value); digits++)
        text = base_arena_print(a, "%.*g", digits, value);
    return text;
}

struct json_out *json_out_create(void)
{
    struct arena *a = base_arena_create();
    struct json_out *top = base_arena_alloc(a, 1, sizeof *top);
    *top = (struct json_out){ .a = a, .opener = '{', .closer = '}', .depth = 1 };
    return top;
}

void json_out_destroy(struct json_out *top)
{
    if (top)
        base_arena_destroy(top->a);
}

/* Only asserted, so unused in a release. */
__attribute__((unused)) static bool has(const struct json_out *to, const char *key)
{
    const struct json_out *member = to->first;
    while (member && strcmp(member->key, key) != 0)
        member = member->next;
    return member;
}

__attribute__((unused)) static bool fits(const struct json_out *to, const char *key)
{
    if (to->scalar || to->depth > JSON_DEEPEST)
        return false;
    if (to->opener == '[')
        return !key;
    return key && base_text_is_utf8(key, strlen(key)) && !has(to, key);
}

static struct json_out *add(struct json_out *to, const char *key, struct json_out what)
{
    assert(fits(to, key));
    struct json_out *member = base_arena_alloc(to->a, 1, sizeof *member);
    *member = what;
    member->a = to->a;
    member->key = key ? base_arena_copy_text(to->a, key) : NULL;
    member->depth = to->depth + 1;
    *(to->last ? &to->last->next : &to->first) = member;
    to->last = member;
    return member;
}

void json_out_text(struct json_out *to, const char *key, const char *value)
{
    assert(!value || base_text_is_utf8(value, strlen(value)));
    add(to, key, (struct json_out){ .scalar = value ? quoted(to->a, value) : "null" });
}

void json_out_number(struct json_out *to, const char *key, double value)
{
    assert(isfinite(value));
    add(to, key, (struct json_out){ .scalar = shortest(to->a, value) });
}

void json_out_bool(struct json_out *to, const char *key, bool value)
{
    add(to, key, (struct json_out){ .scalar = value ? "true" : "false" });
}

struct json_out *json_out_list(struct json_out *to, const char *key)
{
    assert(to->depth < JSON_DEEPEST);
    return add(to, key, (struct json_out){ .opener = '[', .closer = ']' });
}

struct json_out *json_out_object(struct json_out *to, const char *key)
{
    assert(to->depth < JSON_DEEPEST);
    return add(to, key, (struct json_out){ .opener = '{', .closer = '}' });
}

static void add_members(struct json_out *to, const struct json_node *of)
{
    for (const struct json_node *member = of->first; member; member = member->next)
        json_out_node(to, member->key, member);
}

/* Recursion is bounded by JSON_DEEPEST. */
void json_out_node(struct json_out *to, const char *key, const struct json_node *value)
{
    switch (value->type) {
    case JSON_NULL:
        json_out_text(to, key, NULL);
        break;
    case JSON_FALSE:
    case JSON_TRUE:
        json_out_bool(to, key, value->type == JSON_TRUE);
        break;
    case JSON_NUMBER:
        json_out_number(to, key, value->number);
        break;
    case JSON_TEXT:
        json_out_text(to, key, value->text);
        break;
    case JSON_LIST:
        add_members(json_out_list(to, key), value);
        break;
    case JSON_OBJECT:
        add_members(json_out_object(to, key), value);
        break;
    }
}

/* A list of plain values, such as a point, reads best in one line. */
static bool in_one_line(const struct json_out *item)
{
    const struct json_out *member = item->first;
    while (member && member->scalar)
        member = member->next;
    return !member && (item->opener == '[' || !item->first);
}

static void put_line_break(struct text *t, int levels)
{
    put_char(t, '\n');
    for (int i = 0; i < levels * INDENT; i++)
        put_char(t, ' ');
}

enum { ALL_IN_ONE_LINE = -1 };

/* `levels` is how far the item's own line is indented, or ALL_IN_ONE_LINE. Recursion is bounded by JSON_DEEPEST. */
static void put_item(struct text *t, const struct json_out *item, int levels)
{
    if (item->scalar) {
        put(t, item->scalar);
        return;
    }
    bool one_line = levels == ALL_IN_ONE_LINE || in_one_line(item);
    int inner = levels == ALL_IN_ONE_LINE ? levels : levels + 1;
    put_char(t, item->opener);
    for (const struct json_out *member = item->first; member; member = member->next) {
        if (!one_line)
            put_line_break(t, inner);
        if (member->key) {
            put_quoted(t, member->key);
            put(t, ": ");
        }
        put_item(t, member, inner);
        if (member->next)
            put(t, one_line ? ", " : ",");
    }
    if (!one_line)
        put_line_break(t, levels);
    put_char(t, item->closer);
}

const char *json_out_print(struct arena *a, const struct json_out *top)
{
    struct text t = { .a = a };
    put_item(&t, top, 0);
    put_char(&t, '\n');
    return ended(&t);
}

const char *json_out_print_line(struct arena *a, const struct json_out *top)
{
    struct text t = { .a = a };
    put_item(&t, top, ALL_IN_ONE_LINE);
    return ended(&t);
}
