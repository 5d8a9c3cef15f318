#include "job/ticket.h"

#include "json/want.h"

#include <string.h>

static const struct err_kind no_way = { "job.no_way", ERR_FAULT,
                                        "“{0}” is neither \"cut on the light\" nor \"chalk all\"" };
static const struct err_kind no_step = { "job.no_step", ERR_FAULT,
                                         "“{0}” is no step of making cloth ready; the steps are {1}" };

static const char *const ways[] = { [JOB_CUT_ON_LIGHT] = "cut on the light", [JOB_CHALK_ALL] = "chalk all" };

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

const char *job_ticket_note(const struct job_ticket *ticket, const char *piece)
{
    for (size_t i = 0; i < ticket->note_count; i++)
        if (strcmp(ticket->notes[i].piece, piece) == 0)
            return ticket->notes[i].text;
    return NULL;
}

const char *job_ticket_unread(const struct job_ticket *ticket, const char *field)
{
    for (size_t i = 0; i < ticket->unread_count; i++)
        if (strcmp(ticket->unread[i].field, field) == 0)
            return ticket->unread[i].text;
    return NULL;
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

static void unread_from(struct arena *a, const struct json_node *object, struct job_ticket *out, struct err_list *errs)
{
    struct job_unread *unread = base_arena_alloc(a, object ? object->count : 0, sizeof *unread);
    for (const struct json_node *node = object ? object->first : NULL; node; node = node->next)
        if (json_is(node, JSON_TEXT, errs))
            unread[out->unread_count++] = (struct job_unread){ node->key, node->text };
    out->unread = unread;
}

static void notes_from(struct arena *a, const struct json_node *object, struct job_ticket *out, struct err_list *errs)
{
    struct job_note *notes = base_arena_alloc(a, object ? object->count : 0, sizeof *notes);
    for (const struct json_node *node = object ? object->first : NULL; node; node = node->next)
        if (json_is(node, JSON_TEXT, errs))
            notes[out->note_count++] = (struct job_note){ node->key, node->text };
    out->notes = notes;
}

void job_ticket_from(struct arena *a, const struct json_node *object, struct job_ticket *out, struct err_list *errs)
{
    *out = (struct job_ticket){ 0 };
    if (!object)
        return;
    const char *fields[FLAGS + 6] = { "name", "way", "ready", "unread", "notes" };
    for (size_t i = 0; i < FLAGS; i++)
        fields[5 + i] = flag_rows[i].name;
    json_only(object, fields, errs);
    if (json_find(object, "name"))
        out->name = json_need_text(object, "name", errs);
    flags_from(object, out, errs);
    way_from(json_maybe(object, "way", JSON_TEXT, errs), out, errs);
    ready_from(json_maybe(object, "ready", JSON_OBJECT, errs), out, errs);
    unread_from(a, json_maybe(object, "unread", JSON_OBJECT, errs), out, errs);
    notes_from(a, json_maybe(object, "notes", JSON_OBJECT, errs), out, errs);
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

static void words_write(struct json_out *to, const struct job_ticket *ticket)
{
    struct json_out *unread = ticket->unread_count ? json_out_object(to, "unread") : NULL;
    for (size_t i = 0; i < ticket->unread_count; i++)
        json_out_text(unread, ticket->unread[i].field, ticket->unread[i].text);
    struct json_out *notes = ticket->note_count ? json_out_object(to, "notes") : NULL;
    for (size_t i = 0; i < ticket->note_count; i++)
        json_out_text(notes, ticket->notes[i].piece, ticket->notes[i].text);
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
    ready_write(to, ticket);
    words_write(to, ticket);
}
