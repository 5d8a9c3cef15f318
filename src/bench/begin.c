/* The page where a ticket is begun. */
#include "base/file.h"
#include "base/hold.h"
#include "base/words.h"
#include "bench/inside.h"

#include <string.h>

enum { RECENT = 1, NEW, OPEN, EXAMPLE, TICKETS };

static const struct form_key keys[] = { { BASE_TR_IN("key", "Tab"), BASE_TR("choose") },
                                        { BASE_TR_IN("key", "Enter"), BASE_TR("begin") },
                                        { "F5", BASE_TR("settings") },
                                        { BASE_TR_IN("key", "Ctrl Q"), BASE_TR("leave") } };

struct card {
    int id;
    const char *label, *note;
};

static const struct card cards[] = {
    { NEW, BASE_TR("New ticket"), BASE_TR("measure someone and open a pattern file") },
    { OPEN, BASE_TR("Open a file"), BASE_TR("pattern, measurements or ticket; you may also drop it here") },
    { EXAMPLE, BASE_TR("The museum’s pinafore"),
      BASE_TR("an example, ready to be laid out and cut, with all its sizes") },
};
enum { CARDS = sizeof cards / sizeof cards[0] };

static void add_card(struct bench_page *page, struct card card)
{
    static const double indent = 26, height = 68, step = 84, top = 14;
    struct bench_box content = bench_content(page->p);
    form_add(&page->form,
             (struct form_item){ .id = card.id,
                                 .kind = FORM_CARD,
                                 .box = { content.x + indent, content.y + top + (double)page->form.count * step,
                                          content.width - indent, height },
                                 .label = card.label,
                                 .note = card.note });
}

static void fill(struct bench_page *page)
{
    const struct bench *b = page->bench;
    page->title = b->is_open ? base_tr("Another ticket") : b->recent ? base_tr("Begin") : base_tr("No ticket yet");
    page->sentence =
        base_tr("A ticket keeps one garment together: whose it is, the cloth, what is cut. Begin one here.");
    page->keys = keys;
    page->key_count = sizeof keys / sizeof keys[0];
    bool is_here = b->recent && b->tickets.open_here &&
                   strcmp(base_file_whole_path(page->a, b->recent), b->tickets.open_here) == 0;
    if (b->recent)
        add_card(page, (struct card){ RECENT, base_arena_print(page->a, base_tr("Go on with %s"), b->recent_name),
                                      !is_here && base_hold_is_taken(b->recent)
                                          ? base_tr("open in another window of this program")
                                          : base_tr("the ticket that was open last") });
    for (int i = 0; i < CARDS; i++)
        add_card(page, (struct card){ cards[i].id, base_tr(cards[i].label), base_tr(cards[i].note) });
    if (bench_has_tickets(b))
        add_card(page,
                 (struct card){ TICKETS, base_tr("All tickets"),
                                base_tr("what is kept here, each with what comes next; copy one, put one away") });
}

/* Pattern and measurements of the example, as if she had opened both. */
static void open_example(struct bench *b)
{
    struct err_list *errs = base_err_list_create();
    if (!bench_open(b, bench_blank(b))) {
        base_err_list_destroy(errs);
        return;
    }
    const struct job *job = job_with_pattern(bench_room(b), bench_job(b), b->example_pattern, errs);
    job = job_with_body(bench_room(b), job, b->example_body, errs);
    bench_take(b, job, base_tr("The example"), errs);
}

static void answer(struct bench *b, const struct form_answer *did)
{
    if (did->did != FORM_PRESSED)
        return;
    if (did->id == RECENT)
        bench_open_file(b, b->recent);
    else if (did->id == NEW)
        bench_open(b, bench_blank(b));
    else if (did->id == EXAMPLE)
        open_example(b);
    else if (did->id == TICKETS)
        bench_go(b, BENCH_TICKETS);
    else
        bench_go(b, BENCH_FILES);
}

const struct bench_stage bench_begin = { .fill = fill, .answer = answer };
