#include "job/ticket.h"

#include "json/want.h"

#include <string.h>

static const struct err_kind no_way = { "job.no_way", ERR_FAULT,
                                        BASE_TR("“{0}” is neither \"cut on the light\" nor \"chalk all\"") };
static const struct err_kind no_step = { "job.no_step", ERR_FAULT,
                                         BASE_TR("“{0}” is no step of making cloth ready; the steps are {1}") };

static const struct err_kind no_page = { "job.no_page", ERR_FAULT, BASE_TR("“{0}” is no page of a ticket") };

static const char *const ways[] = { [JOB_CUT_ON_LIGHT] = "cut on the light", [JOB_CHALK_ALL] = "chalk all" };

static const char *const pages[JOB_PAGES] = {
    [JOB_NO_PAGE] = "",
    [JOB_PAGE_MEASUREMENTS] = "measurements",
    [JOB_PAGE_PATTERN] = "pattern",
    [JOB_PAGE_CLOTH] = "cloth",
    [JOB_PAGE_LAYOUT] = "layout",
    [JOB_PAGE_TABLE] = "table",
    [JOB_PAGE_PLACING] = "placing",
    [JOB_PAGE_CUT] = "cut",
    [JOB_PAGE_DONE] = "done",
};

/* The flags by their names in the file. */
static const struct flag_row {
    const char *name;
    size_t at;
} flag_rows[] = {
    { "size_confirmed", offsetof(struct job_ticket, size_confirmed) },
    { "size_by_hand", offsetof(struct job_ticket, size_by_hand) },
    { "cup_group_by_hand", offsetof(struct job_ticket, cup_by_hand) },
    { "blend_by_body", offsetof(struct job_ticket, blend_by_body) },
};

enum { FLAGS = sizeof flag_rows / sizeof flag_rows[0] };

const char *job_words_of(struct job_words words, const char *of)
{
    for (size_t i = 0; i < words.count; i++)
        if (strcmp(words.items[i].of, of) == 0)
            return words.items[i].text;
    return NULL;
}

struct job_words job_words_with(struct arena *a, struct job_words words, const char *of, const char *text)
{
    struct job_word *items = base_arena_alloc(a, words.count + 1, sizeof *items);
    size_t count = 0;
    for (size_t i = 0; i < words.count; i++)
        if (strcmp(words.items[i].of, of) != 0)
            items[count++] = words.items[i];
    if (text)
        items[count++] = (struct job_word){ base_arena_copy_text(a, of), base_arena_copy_text(a, text) };
    return (struct job_words){ items, count };
}

static void flags_from(const struct json_node *object, struct job_ticket *out, struct err_list *errs)
{
    for (size_t i = 0; i < FLAGS; i++) {
        const struct json_node *node = json_find(object, flag_rows[i].name);
        if (node && node->type != JSON_FALSE && json_is(node, JSON_TRUE, errs))
            *(bool *)((char *)out + flag_rows[i].at) = true;
    }
}

static void way_from(const struct json_node *node, struct job_ticket *out, struct err_list *errs)
{
    for (int way = 0; node && way <= JOB_CHALK_ALL; way++)
        if (strcmp(node->text, ways[way]) == 0) {
            out->way = (enum job_way)way;
            return;
        }
    if (node)
        json_fault(errs, node, &no_way, ERR_TEXT(json_shown(errs->arena, node->text)));
}

static void page_from(const struct json_node *node, struct job_ticket *out, struct err_list *errs)
{
    for (int page = JOB_NO_PAGE + 1; node && page < JOB_PAGES; page++)
        if (strcmp(node->text, pages[page]) == 0) {
            out->page = (enum job_page)page;
            return;
        }
    if (node)
        json_fault(errs, node, &no_page, ERR_TEXT(json_shown(errs->arena, node->text)));
}

static const char *step_names(struct arena *a)
{
    const char *list = "";
    for (int s = 0; s < CLOTH_STEPS; s++)
        list = base_arena_print(a, "%s%s\"%s\"", list, s ? ", " : "", cloth_step_name((enum cloth_step)s));
    return list;
}

static void step_from(const struct json_node *node, bool done[CLOTH_STEPS], struct err_list *errs)
{
    int s = 0;
    if (!json_is(node, JSON_TEXT, errs))
        return;
    while (s < CLOTH_STEPS && strcmp(node->text, cloth_step_name((enum cloth_step)s)) != 0)
        s++;
    if (s < CLOTH_STEPS)
        done[s] = true;
    else
        json_fault(errs, node, &no_step, ERR_TEXT(json_shown(errs->arena, node->text)),
                   ERR_TEXT(step_names(errs->arena)));
}

static void ready_from(const struct json_node *object, struct job_ticket *out, struct err_list *errs)
{
    const char *names[JOB_MATERIALS + 1] = { NULL };
    for (int m = 0; m < JOB_MATERIALS; m++)
        names[m] = pattern_cloth_name((enum pattern_cloth)m);
    json_only(object, names, errs);
    for (int m = 0; m < JOB_MATERIALS; m++) {
        const struct json_node *list = object ? json_maybe(object, names[m], JSON_LIST, errs) : NULL;
        for (const struct json_node *node = list ? list->first : NULL; node; node = node->next)
            step_from(node, out->ready[m], errs);
    }
}

static struct job_words words_from(struct arena *a, const struct json_node *object, struct err_list *errs)
{
    struct job_word *items = base_arena_alloc(a, object ? object->count : 0, sizeof *items);
    size_t count = 0;
    for (const struct json_node *node = object ? object->first : NULL; node; node = node->next)
        if (json_is(node, JSON_TEXT, errs))
            items[count++] = (struct job_word){ node->key, node->text };
    return (struct job_words){ items, count };
}

void job_ticket_from(struct arena *a, const struct json_node *object, struct job_ticket *out, struct err_list *errs)
{
    *out = (struct job_ticket){ 0 };
    if (!object)
        return;
    const char *fields[FLAGS + 7] = { "name", "way", "page", "ready", "unread", "notes" };
    for (size_t i = 0; i < FLAGS; i++)
        fields[6 + i] = flag_rows[i].name;
    json_only(object, fields, errs);
    if (json_find(object, "name"))
        out->name = json_need_text(object, "name", errs);
    flags_from(object, out, errs);
    way_from(json_maybe(object, "way", JSON_TEXT, errs), out, errs);
    page_from(json_maybe(object, "page", JSON_TEXT, errs), out, errs);
    ready_from(json_maybe(object, "ready", JSON_OBJECT, errs), out, errs);
    out->unread = words_from(a, json_maybe(object, "unread", JSON_OBJECT, errs), errs);
    out->notes = words_from(a, json_maybe(object, "notes", JSON_OBJECT, errs), errs);
}

static bool is_any_done(const bool done[CLOTH_STEPS])
{
    for (int s = 0; s < CLOTH_STEPS; s++)
        if (done[s])
            return true;
    return false;
}

static void ready_write(struct json_out *to, const struct job_ticket *ticket)
{
    struct json_out *object = NULL;
    for (int m = 0; m < JOB_MATERIALS; m++) {
        if (!is_any_done(ticket->ready[m]))
            continue;
        object = object ? object : json_out_object(to, "ready");
        struct json_out *list = json_out_list(object, pattern_cloth_name((enum pattern_cloth)m));
        for (int s = 0; s < CLOTH_STEPS; s++)
            if (ticket->ready[m][s])
                json_out_text(list, NULL, cloth_step_name((enum cloth_step)s));
    }
}

static void words_write(struct json_out *to, const char *name, struct job_words words)
{
    struct json_out *object = words.count ? json_out_object(to, name) : NULL;
    for (size_t i = 0; i < words.count; i++)
        json_out_text(object, words.items[i].of, words.items[i].text);
}

void job_ticket_write(struct json_out *top, const struct job_ticket *ticket)
{
    struct json_out *to = json_out_object(top, "ticket");
    if (ticket->name)
        json_out_text(to, "name", ticket->name);
    for (size_t i = 0; i < FLAGS; i++)
        if (*(const bool *)((const char *)ticket + flag_rows[i].at))
            json_out_bool(to, flag_rows[i].name, true);
    if (ticket->way)
        json_out_text(to, "way", ways[ticket->way]);
    if (ticket->page)
        json_out_text(to, "page", pages[ticket->page]);
    ready_write(to, ticket);
    words_write(to, "unread", ticket->unread);
    words_write(to, "notes", ticket->notes);
}
