/* Settings as a file: read as far as it is understood, written over with what was set and nothing else. */
#include "base/words.h"
#include "settings/settings.h"

#include "base/file.h"
#include "base/hold.h"
#include "base/text.h"
#include "base/xdg.h"
#include "settings/state.h"
#include "json/want.h"
#include "json/write.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#define KIND "settings"

enum { VERSION = 1, LONGEST_WAIT_MS = 5000 };

static const struct err_kind wrong_value = {
    "settings.wrong_value", ERR_WARNING,
    BASE_TR("{1} stands there, and it can be {0}. Until it is one of these, the usual value holds")
};
static const struct err_kind unknown_near = { "settings.unknown", ERR_WARNING,
                                              BASE_TR("“{0}” is no setting and does nothing: did you mean “{1}”?") };
static const struct err_kind unknown = { "settings.unknown", ERR_WARNING,
                                         BASE_TR("“{0}” is no setting and does nothing") };
static const struct err_kind damaged = { "settings.damaged", ERR_WARNING,
                                         BASE_TR(
                                             "is not used, and the usual settings hold. Mend it, or go on: it is kept "
                                             "under another name before anything is saved") };
static const struct err_kind newer = { "settings.newer", ERR_WARNING,
                                       BASE_TR("is left as it is, and the usual settings hold") };
static const struct err_kind newer_stays = {
    "settings.newer_stays", ERR_FAULT,
    BASE_TR("is of a newer Chalklight and is not written over, so nothing was saved. Update Chalklight")
};
static const struct err_kind kept_as = { "settings.kept", ERR_WARNING,
                                         BASE_TR("could not be used and is kept as {0}") };
static const struct err_kind not_kept = { "settings.not_kept", ERR_FAULT,
                                          BASE_TR(
                                              "cannot be used, and cannot be kept under another name: {0}. Nothing was "
                                              "saved; move it away by hand") };
static const struct err_kind no_home = {
    "settings.no_home", ERR_FAULT,
    BASE_TR("there is no home folder to keep settings in: HOME, or XDG_CONFIG_HOME, has to name a whole path")
};

/* --- reading ----------------------------------------------------------------------------------------------------- */

static bool read_word(const struct settings_row *row, const struct json_node *node, struct settings_value *out)
{
    if (node->type != JSON_TEXT)
        return false;
    while (row->words[out->number] && strcmp(row->words[out->number], node->text) != 0)
        out->number++;
    return row->words[out->number] != NULL;
}

static bool read_number(const struct settings_row *row, const struct json_node *node, struct settings_value *out)
{
    if (node->type != JSON_NUMBER || node->number < row->least || node->number > row->most ||
        node->number != floor(node->number))
        return false;
    out->number = (int)node->number;
    return true;
}

static bool read_text(struct arena *a, const struct settings_row *row, const struct json_node *node,
                      struct settings_value *out)
{
    if (node->type != JSON_TEXT || !settings_is_text(row, node->text))
        return false;
    const char **text = base_arena_alloc(a, 1, sizeof *text);
    *text = base_arena_copy_text(a, node->text);
    out->texts = text;
    out->count = 1;
    return true;
}

/* A list of the program's own that is too long, as another version may keep it, is taken as far as there is room. */
static bool read_texts(struct arena *a, const struct settings_row *row, const struct json_node *node,
                       struct settings_value *out)
{
    if (node->type != JSON_LIST || (node->count > (size_t)row->most && !row->own))
        return false;
    const char **texts = base_arena_alloc(a, node->count, sizeof *texts);
    const struct settings_value none = { 0 };
    out->texts = texts;
    for (const struct json_node *member = node->first; member; member = member->next) {
        if (member->type != JSON_TEXT || !settings_is_text(row, member->text))
            return false;
        texts[out->count++] = base_arena_copy_text(a, member->text);
    }
    *out = settings_joined(a, row, out, &none);
    return true;
}

static bool read_value(struct arena *a, const struct settings_row *row, const struct json_node *node,
                       struct settings_value *out)
{
    switch (row->type) {
    case SETTINGS_WORD:
        return read_word(row, node, out);
    case SETTINGS_NUMBER:
        return read_number(row, node, out);
    case SETTINGS_TEXT:
    case SETTINGS_DATE:
        return read_text(a, row, node, out);
    case SETTINGS_TEXTS:
        return read_texts(a, row, node, out);
    }
    return false;
}

static const char *what_stands(struct arena *a, const struct json_node *node)
{
    if (node->type == JSON_TEXT)
        return base_arena_print(a, "“%s”", json_shown(a, node->text));
    if (node->type == JSON_LIST)
        return base_arena_print(a, "a list of %zu", node->count);
    return node->type == JSON_NUMBER ? base_arena_print(a, "%.10g", node->number) : json_type_name(node->type);
}

/* The first text of a list that is none; NULL when that is not what is wrong. */
static const struct json_node *wrong_text(const struct settings_row *row, const struct json_node *list)
{
    const struct json_node *member = row->type == SETTINGS_TEXTS && list->type == JSON_LIST ? list->first : NULL;
    while (member && member->type == JSON_TEXT && settings_is_text(row, member->text))
        member = member->next;
    return member;
}

static void tell_wrong(enum settings_name name, const struct json_node *node, struct err_list *errs)
{
    struct arena *a = base_arena_create();
    size_t count;
    const struct settings_row *row = &settings_rows(&count)[name];
    const struct json_node *text = wrong_text(row, node), *wrong = text ? text : node;
    json_fault(errs, wrong, &wrong_value, ERR_TEXT(text ? base_tr(row->what) : settings_allowed(a, name)),
               ERR_TEXT(what_stands(a, wrong)));
    base_arena_destroy(a);
}

static void take(struct settings *s, const struct json_node *top, struct err_list *errs)
{
    size_t count;
    const struct settings_row *rows = settings_rows(&count);
    for (size_t i = 0; i < count; i++) {
        const struct json_node *node = json_find(top, rows[i].name);
        struct settings_value value = { .said = true };
        if (!node)
            continue;
        if (read_value(s->a, &rows[i], node, &value))
            s->values[i] = value;
        else
            tell_wrong((enum settings_name)i, node, errs);
    }
}

static struct settings *create(struct arena *a, const char *path)
{
    struct settings *s = base_arena_alloc(a, 1, sizeof *s);
    *s = (struct settings){ .a = a, .path = path ? base_arena_copy_text(a, path) : NULL };
    return s;
}

/* What a program may do without is no fault. */
static void tell_as_warnings(const struct err_list *from, struct err_list *errs)
{
    for (int i = 0; i < from->count; i++) {
        struct err_kind *kind = base_arena_alloc(errs->arena, 1, sizeof *kind);
        *kind = *from->items[i].kind;
        kind->severity = ERR_WARNING;
        base_err_add(errs, kind, from->items[i].place, from->items[i].args);
    }
}

struct settings *settings_open(struct arena *a, const char *path, struct err_list *errs)
{
    struct settings *s = create(a, path);
    if (!path || !base_file_exists(path))
        return s;
    struct err_list *found = base_err_list_create();
    const struct json_node *top = json_open_ours(a, path, KIND, VERSION, found);
    tell_as_warnings(found, errs);
    if (top)
        take(s, top, errs);
    else
        base_err(errs, base_err_list_has(found, "json.newer") ? &newer : &damaged, base_err_in_file(path), ERR_NONE);
    base_err_list_destroy(found);
    return s;
}

/* --- proof-reading ----------------------------------------------------------------------------------------------- */

static bool is_known(const char *key)
{
    enum settings_name name;
    return settings_find(key, &name) || strcmp(key, "chalklight") == 0 || strcmp(key, "version") == 0;
}

static void tell_unknown(const struct json_node *top, struct err_list *errs)
{
    size_t count;
    const struct settings_row *rows = settings_rows(&count);
    const char *names[SETTINGS_COUNT];
    for (size_t i = 0; i < count; i++)
        names[i] = rows[i].name;
    for (const struct json_node *member = top->first; member; member = member->next) {
        if (is_known(member->key))
            continue;
        const char *nearest = base_text_nearest(member->key, names, count);
        json_fault(errs, member, nearest ? &unknown_near : &unknown, ERR_TEXT(json_shown(errs->arena, member->key)),
                   ERR_TEXT(nearest));
    }
}

static struct settings *proof_read(struct arena *a, const char *file, const struct json_node *top,
                                   struct err_list *errs)
{
    if (!top)
        return NULL;
    struct settings *s = create(a, file);
    take(s, top, errs);
    tell_unknown(top, errs);
    return s;
}

struct settings *settings_read(struct arena *a, const char *path, struct err_list *errs)
{
    return proof_read(a, path, json_open_ours(a, path, KIND, VERSION, errs), errs);
}

struct settings *settings_parse(struct arena *a, const char *file, const char *bytes, size_t count,
                                struct err_list *errs)
{
    return proof_read(a, file, json_parse_ours(a, file, bytes, count, KIND, VERSION, errs), errs);
}

/* --- writing ----------------------------------------------------------------------------------------------------- */

static void write_value(struct json_out *to, const char *key, const struct settings_row *row,
                        const struct settings_value *v)
{
    if (row->type == SETTINGS_WORD) {
        json_out_text(to, key, row->words[v->number]);
    } else if (row->type == SETTINGS_NUMBER) {
        json_out_number(to, key, v->said ? v->number : row->usual);
    } else if (row->type == SETTINGS_TEXTS) {
        struct json_out *list = json_out_list(to, key);
        for (size_t i = 0; i < v->count; i++)
            json_out_text(list, NULL, v->texts[i]);
    } else {
        json_out_text(to, key, v->count ? v->texts[0] : NULL);
    }
}

void settings_write(struct json_out *to, const char *key, const struct settings *s, enum settings_name name)
{
    size_t count;
    write_value(to, key, &settings_rows(&count)[name], &s->values[name]);
}

/* What was set here, before what the file has. */
static void write_setting(struct arena *a, struct json_out *out, const struct settings *s, enum settings_name name,
                          const struct json_node *there)
{
    size_t count;
    const struct settings_row *row = &settings_rows(&count)[name];
    struct settings_value list = { 0 };
    if (s->changed[name]) {
        if (s->values[name].said)
            write_value(out, row->name, row, &s->values[name]);
    } else if (name == SETTINGS_RECENT && s->first.count) {
        if (there && !read_texts(a, row, there, &list))
            list = (struct settings_value){ 0 };
        list = settings_joined(a, row, &s->first, &list);
        write_value(out, row->name, row, &list);
    } else if (there) {
        json_out_node(out, row->name, there);
    }
}

/* The file's text as it is to be, over what stands there (NULL: nothing); in `a`. */
static const char *text_over(struct arena *a, const struct settings *s, const struct json_node *top)
{
    struct json_out *out = json_out_create();
    size_t count;
    const struct settings_row *rows = settings_rows(&count);
    json_out_text(out, "chalklight", KIND);
    json_out_number(out, "version", VERSION);
    for (size_t i = 0; i < count; i++)
        write_setting(a, out, s, (enum settings_name)i, json_find(top, rows[i].name));
    for (const struct json_node *member = top ? top->first : NULL; member; member = member->next)
        if (!is_known(member->key))
            json_out_node(out, member->key, member);
    const char *text = json_out_print(a, out);
    json_out_destroy(out);
    return text;
}

static const char *free_name(struct arena *a, const char *path)
{
    const char *name = base_arena_print(a, "%s.old", path);
    for (int i = 2; base_file_exists(name); i++)
        name = base_arena_print(a, "%s.old%d", path, i);
    return name;
}

/* What is no file (a folder) is left to the saving to be told of. */
static bool keep_beside(struct arena *a, const char *path, struct err_list *errs)
{
    struct stat st;
    if (stat(path, &st) != 0 || !S_ISREG(st.st_mode))
        return true;
    const char *name = free_name(a, path);
    bool ok = rename(path, name) == 0;
    base_err(errs, ok ? &kept_as : &not_kept, base_err_in_file(path), ERR_TEXT(ok ? name : strerror(errno)));
    return ok;
}

/* The file as it stands now, in *top; NULL where there is none, or where it was damaged and is kept beside now. False,
 * with a sentence, when nothing may be written there. */
static bool look_again(struct arena *a, const char *path, const struct json_node **top, struct err_list *errs)
{
    struct err_list *found = base_err_list_create();
    bool there = base_file_exists(path), ok = true;
    *top = there ? json_open_ours(a, path, KIND, VERSION, found) : NULL;
    if (base_err_list_has(found, "json.newer")) {
        base_err(errs, &newer_stays, base_err_in_file(path), ERR_NONE);
        ok = false;
    } else if (there && !*top) {
        ok = keep_beside(a, path, errs);
    }
    base_err_list_destroy(found);
    return ok;
}

static bool is_changed(const struct settings *s)
{
    bool changed = s->first.count > 0;
    for (int i = 0; i < SETTINGS_COUNT; i++)
        changed = changed || s->changed[i];
    return changed;
}

static bool save_over(struct arena *a, const struct settings *s, struct err_list *errs)
{
    const struct json_node *top;
    if (!look_again(a, s->path, &top, errs))
        return false;
    const char *text = text_over(a, s, top);
    return base_file_save(s->path, text, strlen(text), errs);
}

bool settings_save(struct settings *s, struct err_list *errs)
{
    if (!is_changed(s))
        return true;
    if (!s->path) {
        base_err(errs, &no_home, base_err_in_file(NULL), ERR_NONE);
        return false;
    }
    if (!base_xdg_make_folders(s->path, errs))
        return false;
    struct arena *a = base_arena_create();
    int hold = base_hold_folder(s->path, LONGEST_WAIT_MS); /* from reading to saving no other program saves */
    bool ok = save_over(a, s, errs);
    base_hold_end(hold);
    base_arena_destroy(a);
    if (!ok)
        return false;
    memset(s->changed, 0, sizeof s->changed);
    s->first = (struct settings_value){ 0 };
    return true;
}
