#include "json/tree.h"

#include "base/file.h"
#include "base/text.h"
#include "json/lines.h"

#include <assert.h>
#include <cjson/cJSON.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { SHOWN_BYTES = 60 };

/* One row, one sentence: {0} is what stands at the flaw, {1} the flaw's line. */
/* clang-format off */
static const struct err_kind flaw_kinds[JSON_FLAWS] = {
    [JSON_EMPTY] = { "json.empty", ERR_FAULT,
        BASE_TR("this file is empty: download or copy it again")},
    [JSON_BREAKS_OFF] = { "json.breaks_off", ERR_FAULT,
        BASE_TR("this file breaks off in line {1}: download or copy it again, or add the closing bracket or quotation "
        "mark that is missing")},
    [JSON_NOT_UTF8] = { "json.not_utf8", ERR_FAULT,
        BASE_TR("here are characters that are not written in UTF-8: save the file again as UTF-8")},
    [JSON_NO_VALUE] = { "json.no_value", ERR_FAULT,
        BASE_TR("{0} cannot stand here: a number, true, false, an opening bracket or a text in straight double quotation "
        "marks has to")},
    [JSON_NO_NAME] = { "json.no_name", ERR_FAULT,
        BASE_TR("{0} cannot stand here: a name in straight double quotation marks has to")},
    [JSON_NO_COLON] = { "json.no_colon", ERR_FAULT,
        BASE_TR("a colon is missing before {0}: it stands between a name and its value")},
    [JSON_NO_COMMA] = { "json.no_comma", ERR_FAULT,
        BASE_TR("a comma or a closing bracket is missing before {0}")},
    [JSON_SPARE_COMMA] = { "json.spare_comma", ERR_FAULT,
        BASE_TR("nothing follows the comma before {0}: take the comma away")},
    [JSON_WRONG_CLOSE] = { "json.wrong_close", ERR_FAULT,
        BASE_TR("{0} does not match the bracket opened last: a square one closes a square one, a curly one a curly one")},
    [JSON_MORE_AFTER] = { "json.more_after", ERR_FAULT,
        BASE_TR("the content ends before {0}: take away what follows, or look for a bracket that closes too early")},
    [JSON_NUMBER_FORM] = { "json.number_form", ERR_FAULT,
        BASE_TR("a number cannot go on with {0}: write 0.5 for .5, 1 for 01, +1 or 1. and “5 cm” in double quotation marks")},
    [JSON_NUMBER_LONG] = { "json.number_long", ERR_FAULT,
        BASE_TR("this number is far too long: write fewer digits")},
    [JSON_LINE_BREAK] = { "json.line_break", ERR_FAULT,
        BASE_TR("a text is not closed before its line ends: add its quotation mark, or write \\n for a line break")},
    [JSON_CONTROL] = { "json.control", ERR_FAULT,
        BASE_TR("a text holds a character that cannot be seen: take it away, or write \\t for a tab")},
    [JSON_ESCAPE] = { "json.escape", ERR_FAULT,
        BASE_TR("a backslash and what follows make no whole character, see {0}: write \\\\ for the backslash itself")},
    [JSON_ZERO] = { "json.zero", ERR_FAULT,
        BASE_TR("a text holds the zero character \\u0000: take it away")},
    [JSON_TOO_DEEP] = { "json.too_deep", ERR_FAULT,
        BASE_TR("brackets stand in brackets too many times here: take some levels away")},
    [JSON_TOO_MANY] = { "json.too_many", ERR_FAULT,
        BASE_TR("this file holds more values than any of its kind needs: choose another")},
};
/* clang-format on */

static const struct err_kind too_large = {
    "json.too_large", ERR_FAULT, BASE_TR("is larger than {0} bytes, more than a file of this kind can hold")
};
static const struct err_kind no_memory = {
    "json.no_memory", ERR_FAULT, BASE_TR("there is not enough memory to read this file: close other programs")
};
static const struct err_kind number_size = { "json.number_size", ERR_FAULT,
                                             BASE_TR("this number is too large to reckon with: write a smaller one") };
static const struct err_kind name_twice = {
    "json.name_twice", ERR_FAULT,
    BASE_TR("the name “{0}” is here a second time, first in line {1}: take one of them away")
};

/* One tree under construction. */
struct making {
    struct arena *a;
    const char *file;
    const int *line; /* of the value that comes next */
    struct err_list *errs;
};

static size_t whole_characters(const char *text, size_t most)
{
    while (most && ((unsigned char)text[most] & 0xc0) == 0x80)
        most--;
    return most;
}

const char *json_shown(struct arena *a, const char *text)
{
    if (strnlen(text, SHOWN_BYTES + 1) <= SHOWN_BYTES)
        return text;
    return base_arena_print(a, "%.*s…", (int)whole_characters(text, SHOWN_BYTES), text);
}

static bool is_word_byte(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

/* What stands at an offset, quoted: a word, or one character; nothing when it cannot be shown. */
static const char *quoted(struct arena *a, const char *bytes, size_t count)
{
    size_t length = 0;
    while (length < count && length < SHOWN_BYTES && is_word_byte(bytes[length]))
        length++;
    if (length)
        return base_arena_print(a, "“%.*s”", (int)length, bytes);
    for (length = 1; length <= 4 && length <= count; length++)
        if (base_text_is_utf8(bytes, length) && (unsigned char)bytes[0] > ' ')
            return base_arena_print(a, "“%.*s”", (int)length, bytes);
    return "a character that cannot be seen";
}

static bool refuse_flawed(struct making *m, const char *bytes, size_t count, const struct json_lines *lines)
{
    if (lines->flaw == JSON_SOUND)
        return false;
    struct err_place place = { m->file, NULL, lines->flaw_line };
    const char *found = quoted(m->a, bytes + lines->flaw_at, count - lines->flaw_at);
    base_err(m->errs, &flaw_kinds[lines->flaw], place, ERR_TEXT(found), ERR_NUMBER(lines->flaw_line));
    return true;
}

static enum json_type type_of(const cJSON *from)
{
    static const struct {
        int theirs;
        enum json_type ours;
    } rows[] = {
        { cJSON_False, JSON_FALSE },   { cJSON_True, JSON_TRUE },   { cJSON_NULL, JSON_NULL },
        { cJSON_Number, JSON_NUMBER }, { cJSON_String, JSON_TEXT }, { cJSON_Array, JSON_LIST },
        { cJSON_Object, JSON_OBJECT },
    };
    size_t row = 0;
    while ((from->type & 0xff) != rows[row].theirs)
        row++;
    return rows[row].ours;
}

static int by_name_and_place(const void *left, const void *right)
{
    const struct json_node *l = *(const struct json_node *const *)left, *r = *(const struct json_node *const *)right;
    int order = strcmp(l->key, r->key);
    return order ? order : (l->index > r->index) - (l->index < r->index);
}

/* Sorted rather than each name against each other: an object may have a million. */
static void tell_names_met_twice(struct making *m, const struct json_node *object)
{
    if (object->type != JSON_OBJECT || object->count < 2)
        return;
    const struct json_node **by_name = base_arena_alloc(m->a, object->count, sizeof(const struct json_node *));
    for (const struct json_node *n = object->first; n; n = n->next)
        by_name[n->index] = n;
    qsort(by_name, object->count, sizeof(const struct json_node *), by_name_and_place);
    const struct json_node *earlier = by_name[0];
    for (size_t i = 1; i < object->count; i++) {
        if (strcmp(by_name[i]->key, earlier->key) == 0)
            json_fault(m->errs, by_name[i], &name_twice, ERR_TEXT(json_shown(m->a, earlier->key)),
                       ERR_NUMBER(earlier->line));
        else
            earlier = by_name[i];
    }
}

/* Recursion is bounded: the walk refused what is deeper than JSON_DEEPEST. */
static struct json_node *make_node(struct making *m, const cJSON *from, const struct json_node *parent, size_t index)
{
    struct json_node *node = base_arena_alloc(m->a, 1, sizeof *node);
    *node = (struct json_node){
        .type = type_of(from), .line = *m->line++, .file = m->file, .parent = parent, .index = index
    };
    node->key = from->string ? base_arena_copy_text(m->a, from->string) : NULL;
    node->text = node->type == JSON_TEXT ? base_arena_copy_text(m->a, from->valuestring) : NULL;
    node->number = node->type == JSON_NUMBER ? from->valuedouble : 0;
    if (!isfinite(node->number))
        json_fault(m->errs, node, &number_size, ERR_NONE);
    const struct json_node **link = &node->first;
    for (const cJSON *child = from->child; child; child = child->next) {
        struct json_node *made = make_node(m, child, node, node->count++);
        *link = made;
        link = &made->next;
    }
    tell_names_met_twice(m, node);
    return node;
}

/* The walk has found the text sound, so only memory can be missing. */
static const struct json_node *make_tree(struct making *m, const char *bytes, size_t count)
{
    size_t mark = json_mark_bytes(bytes, count);
    cJSON *theirs = cJSON_ParseWithLength(bytes + mark, count - mark);
    if (!theirs) {
        base_err(m->errs, &no_memory, base_err_in_file(m->file), ERR_NONE);
        return NULL;
    }
    int faults_before = m->errs->faults;
    const struct json_node *top = make_node(m, theirs, NULL, 0);
    cJSON_Delete(theirs);
    return m->errs->faults == faults_before ? top : NULL;
}

const struct json_node *json_parse(struct arena *a, const char *file, const char *bytes, size_t count,
                                   struct err_list *errs)
{
    if (count > JSON_MOST_BYTES) {
        base_err(errs, &too_large, base_err_in_file(file), ERR_NUMBER(JSON_MOST_BYTES));
        return NULL;
    }
    struct json_lines lines = json_find_lines(a, bytes, count);
    struct making m = { a, file ? base_arena_copy_text(a, file) : NULL, lines.line, errs };
    if (refuse_flawed(&m, bytes, count, &lines))
        return NULL;
    const struct json_node *top = make_tree(&m, bytes, count);
    assert(!top || m.line == lines.line + lines.count);
    return top;
}

const struct json_node *json_read_file(struct arena *a, const char *path, struct err_list *errs)
{
    struct base_bytes bytes;
    if (!base_file_read(a, path, JSON_MOST_BYTES, &bytes, errs))
        return NULL;
    return json_parse(a, path, bytes.data, bytes.count, errs);
}

const struct json_node *json_find(const struct json_node *object, const char *name)
{
    if (!object || object->type != JSON_OBJECT)
        return NULL;
    const struct json_node *member = object->first;
    while (member && strcmp(member->key, name) != 0)
        member = member->next;
    return member;
}

/* The last step of the path to a value; a name after another is parted from it by a dot. */
static const char *step_to(struct arena *a, const struct json_node *node)
{
    if (!node->key)
        return base_arena_print(a, "[%zu]", node->index);
    return base_arena_print(a, "%s%s", node->parent->parent ? "." : "", json_shown(a, node->key));
}

struct err_place json_place(struct arena *a, const struct json_node *node)
{
    struct err_place place = { node->file, NULL, node->line };
    for (; node->parent; node = node->parent)
        place.path = base_arena_print(a, "%s%s", step_to(a, node), place.path ? place.path : "");
    return place;
}

/* A full list only counts: no place is worked out for what it will not keep. */
void json_complain(const struct json_node *node, const struct err_kind *kind, const struct err_arg args[ERR_ARGS],
                   struct err_list *errs)
{
    bool kept = errs->count < ERR_MOST;
    base_err_add(errs, kind, kept ? json_place(errs->arena, node) : base_err_in_file(node->file), args);
}
