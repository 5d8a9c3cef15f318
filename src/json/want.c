#include "json/want.h"

#include "base/text.h"

#include <limits.h>
#include <math.h>
#include <string.h>

enum { MOST_CHARACTERS = 200 };

static const struct err_kind missing = { "json.missing", ERR_FAULT, BASE_TR("“{0}” is missing here: add it, {1}") };
static const struct err_kind wrong_type = { "json.wrong_type", ERR_FAULT,
                                            BASE_TR("has to be {0}, but {1} stands here") };
static const struct err_kind unknown_near = { "json.unknown_name", ERR_FAULT,
                                              BASE_TR("“{0}” is no name that can stand here: did you mean “{1}”?") };
static const struct err_kind unknown = {
    "json.unknown_name", ERR_FAULT, BASE_TR("“{0}” is no name that can stand here: take it away, or choose from {1}")
};
static const struct err_kind text_size = { "json.text_size", ERR_FAULT,
                                           BASE_TR("needs a text of 1 to {0} characters, and this one has {1}") };
static const struct err_kind not_whole = { "json.not_whole", ERR_FAULT,
                                           BASE_TR("needs a whole number from {0} to {1}, and this is {2}") };
static const struct err_kind not_ours = {
    "json.not_ours", ERR_FAULT,
    BASE_TR("this is not a file of Chalklight's, it does not open with “chalklight”: “{0}”. Choose another file")
};
static const struct err_kind other_kind = { "json.other_kind", ERR_FAULT,
                                            BASE_TR("this is a {0} file, not a {1} file: choose another") };
static const struct err_kind newer = { "json.newer", ERR_FAULT,
                                       BASE_TR(
                                           "this file was made by a newer Chalklight: it has version {0}, and this one "
                                           "reads up to {1}. Update Chalklight") };

const char *json_type_name(enum json_type type)
{
    static const char *const names[] = {
        [JSON_NULL] = BASE_TR("nothing"),
        [JSON_FALSE] = BASE_TR("false"),
        [JSON_TRUE] = BASE_TR("true"),
        [JSON_NUMBER] = BASE_TR("a number"),
        [JSON_TEXT] = BASE_TR("a text"),
        [JSON_LIST] = BASE_TR("a list"),
        [JSON_OBJECT] = BASE_TR("a group of fields"),
    };
    return base_tr(names[type]);
}

bool json_is(const struct json_node *node, enum json_type type, struct err_list *errs)
{
    if (node->type == type)
        return true;
    const char *wanted =
        type == JSON_TRUE ? base_tr("true or false") : json_type_name(type); /* who asks for true has seen false */
    json_fault(errs, node, &wrong_type, ERR_TEXT(wanted), ERR_TEXT(json_type_name(node->type)));
    return false;
}

const struct json_node *json_need(const struct json_node *object, const char *name, enum json_type type,
                                  struct err_list *errs)
{
    const struct json_node *member = json_find(object, name);
    if (member)
        return json_is(member, type, errs) ? member : NULL;
    if (object)
        json_fault(errs, object, &missing, ERR_TEXT(name), ERR_TEXT(json_type_name(type)));
    return NULL;
}

const struct json_node *json_maybe(const struct json_node *object, const char *name, enum json_type type,
                                   struct err_list *errs)
{
    const struct json_node *member = json_find(object, name);
    return member && json_is(member, type, errs) ? member : NULL;
}

static size_t count_of(const char *const *names)
{
    size_t count = 0;
    while (names[count])
        count++;
    return count;
}

static bool is_among(const char *name, const char *const *names)
{
    while (*names && strcmp(*names, name) != 0)
        names++;
    return *names;
}

static const char *joined(struct arena *a, const char *const *names)
{
    const char *text = names[0] ? names[0] : "nothing";
    for (size_t i = 1; i < count_of(names); i++)
        text = base_arena_print(a, "%s, %s", text, names[i]);
    return text;
}

static void tell_unknown(struct arena *a, const struct json_node *member, const char *const *names,
                         struct err_list *errs)
{
    const char *nearest = base_text_nearest(member->key, names, count_of(names));
    json_fault(errs, member, nearest ? &unknown_near : &unknown, ERR_TEXT(json_shown(a, member->key)),
               ERR_TEXT(nearest ? nearest : joined(a, names)));
}

void json_only(const struct json_node *object, const char *const *names, struct err_list *errs)
{
    struct arena *a = base_arena_create();
    for (const struct json_node *member = object ? object->first : NULL; member; member = member->next) {
        if (is_among(member->key, names))
            continue;
        tell_unknown(a, member, names, errs);
        base_arena_reset(a);
    }
    base_arena_destroy(a);
}

/* In UTF-8 every byte but those that continue one begins a character. */
static size_t characters(const char *text)
{
    size_t count = 0;
    for (; *text; text++)
        count += ((unsigned char)*text & 0xc0) != 0x80;
    return count;
}

const char *json_need_text(const struct json_node *object, const char *name, struct err_list *errs)
{
    const struct json_node *member = json_need(object, name, JSON_TEXT, errs);
    if (!member)
        return NULL;
    size_t count = characters(member->text);
    if (count >= 1 && count <= MOST_CHARACTERS)
        return member->text;
    json_fault(errs, member, &text_size, ERR_NUMBER(MOST_CHARACTERS), ERR_NUMBER(count));
    return NULL;
}

bool json_is_whole(const struct json_node *node, int least, int most, int *out, struct err_list *errs)
{
    if (!json_is(node, JSON_NUMBER, errs))
        return false;
    if (node->number >= least && node->number <= most && node->number == floor(node->number)) {
        *out = (int)node->number;
        return true;
    }
    json_fault(errs, node, &not_whole, ERR_NUMBER(least), ERR_NUMBER(most), ERR_NUMBER(node->number));
    return false;
}

bool json_need_whole(const struct json_node *object, const char *name, int least, int most, int *out,
                     struct err_list *errs)
{
    const struct json_node *member = json_need(object, name, JSON_NUMBER, errs);
    return member && json_is_whole(member, least, most, out, errs);
}

static bool is_of_kind(struct arena *a, const struct json_node *top, const char *kind, struct err_list *errs)
{
    const struct json_node *member = json_find(top, "chalklight");
    if (!member || member->type != JSON_TEXT) {
        json_fault(errs, member ? member : top, &not_ours, ERR_TEXT(kind));
        return false;
    }
    if (strcmp(member->text, kind) == 0)
        return true;
    json_fault(errs, member, &other_kind, ERR_TEXT(json_shown(a, member->text)), ERR_TEXT(kind));
    return false;
}

static bool is_readable_version(const struct json_node *top, int newest, struct err_list *errs)
{
    int version;
    if (!json_need_whole(top, "version", 1, INT_MAX, &version, errs))
        return false;
    if (version <= newest)
        return true;
    json_fault(errs, json_find(top, "version"), &newer, ERR_NUMBER(version), ERR_NUMBER(newest));
    return false;
}

static const struct json_node *checked(struct arena *a, const struct json_node *top, const char *kind, int newest,
                                       struct err_list *errs)
{
    return top && is_of_kind(a, top, kind, errs) && is_readable_version(top, newest, errs) ? top : NULL;
}

const struct json_node *json_open_ours(struct arena *a, const char *path, const char *kind, int newest,
                                       struct err_list *errs)
{
    return checked(a, json_read_file(a, path, errs), kind, newest, errs);
}

const struct json_node *json_parse_ours(struct arena *a, const char *file, const char *bytes, size_t count,
                                        const char *kind, int newest, struct err_list *errs)
{
    return checked(a, json_parse(a, file, bytes, count, errs), kind, newest, errs);
}
