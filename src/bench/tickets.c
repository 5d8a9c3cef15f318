/* The tickets in her own folder: whose each is, when it was changed last, what comes next. */
#include "base/file.h"
#include "base/folder.h"
#include "base/hold.h"
#include "base/words.h"
#include "bench/day.h"
#include "bench/inside.h"

#include <stdlib.h>
#include <string.h>

enum { ROWS = 1, COPY, AWAY, NEW, RENAME };

static const double row_height = 34, tag_gap = 16;

static const struct form_key keys[] = { { "↑ ↓", BASE_TR("choose") },
                                        { BASE_TR_IN("key", "Enter"), BASE_TR("open") },
                                        { BASE_TR_IN("key", "Esc"), BASE_TR("back") } };

struct bench_ticket {
    const char *path, *name, *whose, *changed, *next;
    bool is_taken; /* open in another window */
};

/* --- what is in the folder --------------------------------------------------------------------------------------- */

static const char *next_of(struct arena *a, const char *path, const struct job *job)
{
    static const char *const stages[] = { [JOB_STAGE_MEASUREMENTS] = BASE_TR("measurements next"),
                                          [JOB_STAGE_PATTERN] = BASE_TR("pattern and size next"),
                                          [JOB_STAGE_CLOTH] = BASE_TR("cloth next"),
                                          [JOB_STAGE_LAYOUT] = BASE_TR("layout next"),
                                          [JOB_STAGE_TABLE] = BASE_TR("table set-up next") };
    const struct job_lacking *lacks;
    if (base_file_exists(base_arena_print(a, "%s.journal", path)))
        return base_tr("begun at the table");
    return app_lacks(a, job, &lacks) ? base_tr(stages[lacks[0].stage]) : base_tr("ready to cut");
}

static bool read_ticket(struct arena *a, const char *path, bool is_open_here, struct bench_ticket *out)
{
    struct err_list *ignored = base_err_list_create();
    struct job job;
    bool good = job_read_begun(a, path, &job, ignored);
    base_err_list_destroy(ignored);
    if (!good)
        return false;
    bool taken = !is_open_here && base_hold_is_taken(path);
    *out = (struct bench_ticket){ .path = path,
                                  .name = bench_job_name(a, &job),
                                  .whose = job.body && *job.body->name ? job.body->name : "",
                                  .changed = base_file_changed(a, path),
                                  .next = is_open_here ? base_tr("open here")
                                          : taken      ? base_tr("open in another window")
                                                       : next_of(a, path, &job),
                                  .is_taken = taken };
    return true;
}

/* Those changed last first, by the hour of that day too. */
static int by_change(const void *one, const void *other)
{
    const struct bench_ticket *x = one, *y = other;
    int order = strcmp(y->changed, x->changed);
    return order ? order : strcmp(x->path, y->path);
}

void bench_read_tickets(struct bench *b)
{
    struct arena *a = b->tickets.a;
    const struct base_entry *entries = NULL;
    size_t count = 0;
    base_arena_reset(a);
    b->tickets.count = 0;
    struct err_list *ignored = base_err_list_create();
    if (b->tickets.folder)
        base_folder_list(a, b->tickets.folder, &entries, &count, ignored);
    base_err_list_destroy(ignored);
    b->tickets.items = base_arena_alloc(a, count, sizeof *b->tickets.items);
    for (size_t i = 0; i < count; i++) {
        const char *path = base_arena_print(a, "%s/%s", b->tickets.folder, entries[i].name);
        bool here = b->tickets.open_here && strcmp(path, b->tickets.open_here) == 0;
        if (!entries[i].is_folder && read_ticket(a, path, here, &b->tickets.items[b->tickets.count]))
            b->tickets.count++;
    }
    qsort(b->tickets.items, b->tickets.count, sizeof *b->tickets.items, by_change);
    if (b->tickets.at >= b->tickets.count)
        b->tickets.at = 0;
}

bool bench_has_tickets(const struct bench *b)
{
    struct arena *a = base_arena_create();
    struct err_list *ignored = base_err_list_create();
    const struct base_entry *entries = NULL;
    size_t count = 0;
    bool some = b->tickets.folder && base_folder_list(a, b->tickets.folder, &entries, &count, ignored) && count > 0 &&
                !entries[count - 1].is_folder; /* folders come first */
    base_err_list_destroy(ignored);
    base_arena_destroy(a);
    return some;
}

/* --- the page ----------------------------------------------------------------------------------------------------- */

static void draw_cell(struct form_picture *p, struct bench_box box, double from, double to, enum form_style style,
                      enum form_colour colour, const char *text)
{
    double room = (to - from) * box.width - 12;
    form_text(p, (struct bench_pt){ box.x + 16 + from * box.width, box.y + box.height / 2 + form_drop(style) },
              FORM_LEFT, style, colour, room, form_cut_text(p, style, room, text));
}

static void draw_row(struct form_picture *p, const struct form_item *item, struct bench_box box, size_t choice,
                     bool bold)
{
    const struct bench_ticket *ticket = (const struct bench_ticket *)item->of + choice;
    draw_cell(p, box, 0, 0.34, bold ? FORM_STRONG : FORM_LABEL, ticket->is_taken ? FORM_INK_2 : FORM_INK, ticket->name);
    draw_cell(p, box, 0.34, 0.56, FORM_NOTE, FORM_INK_2, ticket->whose);
    draw_cell(p, box, 0.56, 0.75, FORM_NOTE, FORM_INK_2, bench_day_short(p->a, ticket->changed));
    draw_cell(p, box, 0.75, 0.98, FORM_NOTE, FORM_INK_2, ticket->next);
    form_line(p, (struct bench_pt){ box.x, box.y + box.height },
              (struct bench_pt){ box.x + box.width, box.y + box.height }, 1, FORM_HAIR);
}

static void add_rows(struct bench_page *page)
{
    const struct bench *b = page->bench;
    struct bench_box content = bench_content(page->p);
    size_t room = (size_t)((content.height - BENCH_TAG_HEIGHT - tag_gap) / row_height), at = b->tickets.at;
    size_t count = b->tickets.count, first = at >= room ? at - room + 1 : 0;
    size_t rows = count - first < room ? count - first : room;
    const char **names = base_arena_alloc(page->a, count, sizeof *names);
    for (size_t i = 0; i < count; i++)
        names[i] = b->tickets.items[i].name;
    form_add(&page->form, (struct form_item){ .id = ROWS,
                                              .kind = FORM_TILES,
                                              .box = { content.x, content.y, content.width, (double)rows * row_height },
                                              .columns = 1,
                                              .choices = names + first,
                                              .choice_count = rows,
                                              .chosen = (int)(at - first),
                                              .draw_tile = draw_row,
                                              .of = b->tickets.items + first,
                                              .first = first,
                                              .total = count });
}

static void add_tags(struct bench_page *page)
{
    static const struct {
        int id;
        const char *label;
    } tags[] = { { NEW, BASE_TR("New ticket") },
                 { COPY, BASE_TR("A copy of it") },
                 { AWAY, BASE_TR("Put it away") },
                 { RENAME, BASE_TR("Rename it") } };
    enum { TAGS = sizeof tags / sizeof tags[0] };
    double x = bench_content(page->p).x;
    for (int i = 0; i < TAGS && (!i || page->bench->tickets.count); i++)
        x = bench_add_tag(page, x, tags[i].id, base_tr(tags[i].label));
}

static void fill(struct bench_page *page)
{
    page->title = base_tr("All tickets");
    page->sentence = page->bench->tickets.count ? base_tr("The one that was changed last stands first.")
                                                : base_tr("No ticket is kept yet.");
    page->keys = keys;
    page->key_count = sizeof keys / sizeof keys[0];
    if (page->bench->tickets.count)
        add_rows(page);
    add_tags(page);
}

/* --- what she did ------------------------------------------------------------------------------------------------- */

/* As another job, without what was done at the table. */
static void copy(struct bench *b, const struct bench_ticket *ticket)
{
    struct err_list *errs = base_err_list_create();
    struct job *job = base_arena_alloc(bench_room(b), 1, sizeof *job);
    bool good = job_read_begun(bench_room(b), ticket->path, job, errs) && bench_open(b, job);
    bench_take(b, bench_job(b), NULL, errs);
    if (good)
        bench_say(b, base_tr("This is a ticket of its own now: nothing of it is cut yet."));
}

/* Its name is written on its first page. */
static void rename_it(struct bench *b, const struct bench_ticket *ticket)
{
    bool is_here = b->tickets.open_here && strcmp(ticket->path, b->tickets.open_here) == 0;
    if (!is_here)
        bench_open_file(b, ticket->path);
    if (!is_here && !b->effects.opened)
        return; /* it is open elsewhere, which was told */
    bench_go(b, BENCH_MEASUREMENTS);
    b->hand.focus = BENCH_TICKET_NAME;
}

static void answer(struct bench *b, const struct form_answer *did)
{
    const struct form_item *rows = form_find(&b->made.form, ROWS);
    const struct bench_ticket *ticket = b->tickets.count ? &b->tickets.items[b->tickets.at] : NULL;
    if (did->id == NEW)
        bench_open(b, bench_blank(b));
    else if (did->id == COPY && ticket)
        copy(b, ticket);
    else if (did->id == RENAME && ticket)
        rename_it(b, ticket);
    else if (did->id == AWAY && ticket)
        b->effects.put_away = ticket->path;
    else if (did->did == FORM_CHOSE && rows)
        b->tickets.at = (size_t)did->choice + rows->first;
    else if (did->did == FORM_PRESSED && ticket)
        bench_open_file(b, ticket->path);
}

const struct bench_stage bench_tickets = { .open = bench_read_tickets, .fill = fill, .answer = answer };
