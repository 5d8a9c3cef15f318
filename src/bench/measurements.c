/* Whose measurements, and each of them. */
#include "base/words.h"
#include "bench/figure.h"
#include "bench/inside.h"
#include "bench/taken.h"
#include "units/typed.h"

#include <math.h>
#include <string.h>

enum { PERSON = 1, MEASURES };

static const double box_width = 112, column = 424, figure_width = 240, note_x = 554;

static const struct form_key keys[] = { { BASE_TR_IN("key", "Tab"), BASE_TR("next") },
                                        { BASE_TR_IN("key", "Enter"), BASE_TR("keep") },
                                        { BASE_TR_IN("key", "Esc"), BASE_TR("put back") },
                                        { BASE_TR_IN("key", "Ctrl Z"), BASE_TR("undo") } };
static const struct form_key keys_offer[] = { { BASE_TR_IN("key", "Tab"), BASE_TR("next") },
                                              { BASE_TR_IN("key", "Enter"), BASE_TR("keep") },
                                              { "F4", BASE_TR("take what is offered") },
                                              { BASE_TR_IN("key", "Esc"), BASE_TR("put back") },
                                              { BASE_TR_IN("key", "Ctrl Z"), BASE_TR("undo") } };

static struct bench_box figure_box(const struct form_picture *p)
{
    struct bench_box content = bench_content(p);
    return (struct bench_box){ content.x + content.width - figure_width, content.y - 10, figure_width,
                               content.height - 46 };
}

/* The name under which words of a measurement that could not be read are kept. */
static const char *field_name(struct arena *a, const char *name)
{
    return base_arena_print(a, "measurement %s", name);
}

/* What is asked of a number that it can hardly be. */
static void ask(struct bench_page *page, struct form_item *item, const struct job_measure *need)
{
    const struct bench *b = page->bench;
    struct sizing_question q = need->question;
    if (need->at_odds) {
        item->state = FORM_FAULT;
        item->note = base_tr("This and another are hardly one person’s.");
        item->mend = base_tr("Measure both again.");
    }
    if (!q.range)
        return;
    item->state = FORM_FAULT;
    /* To: 60 cm; a full bust */
    item->note = base_arena_print(page->a, q.small ? base_tr("%s is small for %s.") : base_tr("%s is large for %s."),
                                  bench_length(page->a, need->mm, b->manner.unit), base_tr(q.range->in_sentence));
    if (!q.unit)
        return;
    item->offer = bench_length(page->a, q.meant_mm, b->manner.unit);
    item->mend = base_arena_print(page->a, base_tr("In %s? F4 makes it %s."), base_tr(q.unit),
                                  bench_length_about(page->a, q.meant_mm, b->manner.unit));
}

/* What it is for, as a note. */
static const char *use_of(const struct bench_page *page, const struct job_measure *need)
{
    static const char *const uses[] = {
        [JOB_PICKS_SIZE] = BASE_TR("picks the size"),
        [JOB_PICKS_CUP_GROUP] = BASE_TR("picks the cup group"),
        [JOB_COMPARED] = BASE_TR("compared with the chart"),
        [JOB_USUAL] = NULL,
        [JOB_UNUSED] = BASE_TR("not asked for by this pattern"),
    };
    if (need->use != JOB_DRAFTS)
        return uses[need->use] ? base_tr(uses[need->use]) : NULL;
    return need->piece ? base_arena_print(page->a, base_tr("needed for “%s”"), need->piece)
                       : base_tr("the pattern is drafted by it");
}

static void fill_item(struct bench_page *page, struct form_item *item, const struct job_measure *need)
{
    const struct job *job = bench_now(page->bench);
    const char *unread = job_words_of(job->ticket.unread, field_name(page->a, need->name));
    if (unread) {
        item->state = FORM_FAULT;
        item->text = unread;
        item->note = base_tr("That is not a length.");
        item->mend = bench_two_ways(page->a, unread,
                                    page->bench->manner.unit == UNITS_IN ? base_tr("Write 37 1/2, 37 1/2 in or 95 cm.")
                                                                         : base_tr("Write 94, 94.5 or 37 in."));
    } else if (need->mm > 0) {
        item->text = bench_number(page->a, need->mm, page->bench->manner.unit);
        item->note = use_of(page, need);
        ask(page, item, need);
    } else if (need->is_wanted || need->use == JOB_USUAL) {
        item->state = FORM_TO_DO;
        item->text = base_tr("to take");
        item->note = use_of(page, need);
    }
}

static void add_person(struct bench_page *page, struct bench_rows *rows)
{
    const struct job *job = bench_now(page->bench);
    struct form_item item = { .id = PERSON,
                              .kind = FORM_FIELD,
                              .label_x = rows->label_x + 20,
                              .label = base_tr_in("whom it is sewn for", "For") };
    item.box = bench_row(rows);
    item.box.width = 236;
    item.text = job->body && *job->body->name ? job->body->name : NULL;
    form_add(&page->form, item);
}

/* What she calls this ticket; while she does not, it is called by its pattern. */
static void add_ticket(struct bench_page *page, struct bench_rows *rows)
{
    const char *name = bench_now(page->bench)->ticket.name;
    struct form_item item = {
        .id = BENCH_TICKET_NAME, .kind = FORM_FIELD, .label_x = rows->label_x + 20, .label = base_tr("Ticket name")
    };
    item.box = bench_row(rows);
    item.box.width = 236;
    item.text = name && *name ? name : NULL;
    form_add(&page->form, item);
}

/* What a note with what mends it wants beyond its row. */
static double note_over(const struct bench_page *page, const struct form_item *item, double row)
{
    size_t lines = item->note ? form_paragraph_lines(page->p, FORM_NOTE, item->note_room, item->note) : 0;
    lines += item->mend ? form_paragraph_lines(page->p, FORM_NOTE, item->note_room, item->mend) : 0;
    return fmax(0, (double)lines * form_line_step(FORM_NOTE) + 4 - row);
}

static void fill(struct bench_page *page)
{
    const struct job *job = bench_now(page->bench);
    struct bench_rows rows =
        bench_rows(page->p, bench_content(page->p).x, column, box_width, figure_box(page->p).x - note_x);
    const struct job_measure *needed;
    size_t count = job_needed_measurements(page->a, job, &needed);
    bool offers = false;
    page->title = base_tr("Measurements");
    page->sentence = page->bench->manner.unit == UNITS_IN
                         ? base_tr("Write each as you read it off the tape: 37, 37 1/2, 94 cm.")
                         : base_tr("Write each as you read it off the tape: 94, 94.5, 37 in or 37 1/2\".");
    page->next = base_tr("Next: pattern and size");
    page->scrolls = true;
    add_person(page, &rows);
    for (size_t i = 0; i < count; i++) {
        struct form_item item = { .id = MEASURES + (int)i,
                                  .kind = FORM_FIELD,
                                  .label_x = rows.label_x,
                                  .number = base_arena_print(page->a, "%zu", i + 1),
                                  .label =
                                      bench_measure_label(page->a, bench_now(page->bench)->pattern, needed[i].name),
                                  .unit = units_shown_name(page->bench->manner.unit),
                                  .note_room = rows.note_room };
        item.box = bench_row(&rows);
        fill_item(page, &item, &needed[i]);
        rows.y += note_over(page, &item, rows.step);
        offers = offers || item.offer;
        form_add(&page->form, item);
    }
    add_ticket(page, &rows);
    page->keys = offers ? keys_offer : keys;
    page->key_count = offers ? sizeof keys_offer / sizeof keys_offer[0] : sizeof keys / sizeof keys[0];
}

/* The form with a bubble for each measurement that it can show, and how the one that is written now is taken. */
static void draw(struct bench_page *page)
{
    struct bench_box content = bench_content(page->p), box = figure_box(page->p);
    const struct job_measure *needed;
    size_t count = job_needed_measurements(page->a, bench_now(page->bench), &needed), shown = 0;
    struct bench_taken *taken = base_arena_alloc(page->a, count, sizeof *taken);
    const struct bench_measure *here = NULL;
    for (size_t i = 0; i < count; i++) {
        const struct bench_measure *row = bench_measure_find(needed[i].name);
        bool at = page->bench->hand.focus == MEASURES + (int)i;
        if (row && row->at >= 0)
            taken[shown++] = (struct bench_taken){ base_arena_print(page->a, "%zu", i + 1), row->at, row->to, at };
        here = at ? row : here;
    }
    bench_draw_figure(page->p, box, taken, shown);
    if (!here)
        return;
    struct bench_pt at = { box.x + box.width / 2, content.y + content.height - 24 };
    form_text_fit(page->p, at, FORM_MIDDLE, FORM_NOTE_STRONG, FORM_SMALL, FORM_INK, figure_width + 20,
                  base_tr(here->where));
    form_text_fit(page->p, (struct bench_pt){ at.x, at.y + 19 }, FORM_MIDDLE, FORM_NOTE, FORM_SMALL, FORM_INK_2,
                  figure_width + 20, base_tr(here->how));
}

/* --- what she did ------------------------------------------------------------------------------------------------ */

static void take_measure(struct bench *b, const char *name, const char *text)
{
    struct arena *a = bench_room(b);
    struct err_list *errs = base_err_list_create();
    const struct job *job = bench_job(b);
    const char *field = field_name(a, name), *label = bench_measure_label(a, job->pattern, name);
    double mm = 0;
    bool empty = !text[strspn(text, " ")];
    if (!empty && (!units_typed_length(text, b->manner.unit, &mm) || mm <= 0)) {
        bench_take(b, job_with_unread(a, job, field, base_arena_copy_text(a, text)), label, errs);
        return;
    }
    job = job_with_measurement(a, job_with_unread(a, job, field, NULL), name, mm, errs);
    bench_take(b, job,
               empty ? base_arena_print(a, base_tr("%s taken out"), label)
                     : base_arena_print(a, "%s %s", label, bench_length(a, mm, b->manner.unit)),
               errs);
}

static void answer(struct bench *b, const struct form_answer *did)
{
    struct arena *a = bench_room(b);
    if (did->did != FORM_WROTE)
        return;
    if (did->id == PERSON) {
        bench_take(b, job_with_person(a, bench_job(b), did->text), base_tr("The name"), NULL);
        return;
    }
    if (did->id == BENCH_TICKET_NAME) {
        bench_take(b, job_with_name(a, bench_job(b), base_arena_copy_text(a, did->text)), base_tr("The ticket’s name"),
                   NULL);
        return;
    }
    const struct job_measure *needed;
    size_t count = job_needed_measurements(a, bench_job(b), &needed), i = (size_t)(did->id - MEASURES);
    if (i < count)
        take_measure(b, needed[i].name, did->text);
}

/* --- on the ticket ----------------------------------------------------------------------------------------------- */

static void says(const struct bench *b, struct arena *a, struct bench_line *line)
{
    const struct job *job = bench_now(b);
    const struct job_measure *needed;
    const char *name = NULL;
    size_t count = job_needed_measurements(a, job, &needed), taken = 0, missing = 0, odd = 0;
    for (size_t i = 0; i < count; i++) {
        bool unread = job_words_of(job->ticket.unread, field_name(a, needed[i].name)) != NULL;
        taken += needed[i].mm > 0;
        if (needed[i].is_wanted && !unread) {
            name = needed[i].name;
            missing++;
        }
        odd += unread || needed[i].question.range || needed[i].at_odds;
    }
    if (missing == 1 && !odd)
        /* To: "still missing: full bust"; on the work ticket, at most 154 u */
        line->says = base_arena_print(a, base_tr("still missing: %s"), bench_measure_short(a, job->pattern, name));
    else if (missing && odd)
        line->says = base_arena_print(a, base_tr("%zu to take, %zu to look at"), missing, odd);
    else if (missing || odd)
        line->says = base_arena_print(a, missing ? base_tr("%zu to take") : base_tr("%zu to look at"), missing + odd);
    else
        line->says = taken ? base_arena_print(a, base_tr("%zu taken"), taken) : base_tr("to take");
    line->mood = odd ? FORM_FAULT : missing || !taken ? FORM_TO_DO : FORM_PLAIN;
    line->stand = missing || odd ? BENCH_TO_DO : taken ? BENCH_DONE : BENCH_NOT_BEGUN;
}

const struct bench_stage bench_measurements = { .says = says, .fill = fill, .draw = draw, .answer = answer };
