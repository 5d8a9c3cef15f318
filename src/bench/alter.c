/* Alterations: one more, chosen or in words, the list of them, and taking one off. */
#include "base/words.h"
#include "bench/inside.h"
#include "bench/lengths.h"
#include "input/key.h"
#include "job/alterations.h"
#include "job/phrases.h"
#include "units/typed.h"

enum { WHAT = 1, BY, ADD, ROWS };

static const double field_width = 420, length_width = 130, label_width = 130, rows_top = 218, row_height = 34,
                    next_field = 42;
static const char unread[] = "alteration"; /* a length that could not be read, by that name on the ticket */

static const struct form_key keys[] = { { BASE_TR_IN("key", "Enter"), BASE_TR("add") },
                                        { "↑ ↓", BASE_TR("choose") },
                                        { BASE_TR_IN("key", "Delete"), BASE_TR("take off") },
                                        { BASE_TR_IN("key", "Esc"), BASE_TR("back") },
                                        { BASE_TR_IN("key", "Ctrl Z"), BASE_TR("undo") } };

/* Those that were made, as she reads them. */
static const char *const *shown(struct arena *a, const struct job *job)
{
    const char **texts = base_arena_alloc(a, job->alteration_count, sizeof *texts);
    for (size_t i = 0; i < job->alteration_count; i++)
        texts[i] = job_phrase_shown(a, job->pattern, job->alteration_texts[i]);
    return texts;
}

static size_t at_row(const struct bench *b)
{
    return b->alteration < bench_now(b)->alteration_count ? b->alteration : 0;
}

static void add_field(struct bench_page *page, int row, double width, struct form_item item)
{
    struct bench_box content = bench_content(page->p);
    item.label_x = content.x;
    item.box = (struct bench_box){ content.x + label_width, content.y + row * next_field, width, 34 };
    form_add(&page->form, item);
}

static size_t chosen_of(const struct bench *b, size_t count)
{
    return b->alter_by < count ? b->alter_by : 0;
}

/* What is altered, of all that can be, and by how much. */
static void add_choice(struct bench_page *page)
{
    const struct job *job = bench_now(page->bench);
    const struct job_alteration_choice *all;
    size_t count = job_is_finished(job) ? job_alteration_choices(page->a, job, &all) : 0;
    const char **shown = base_arena_alloc(page->a, count, sizeof *shown);
    const char *written = job_words_of(job->ticket.unread, unread);
    for (size_t i = 0; i < count; i++)
        shown[i] = all[i].shown;
    if (!count)
        return;
    size_t at = chosen_of(page->bench, count);
    add_field(page, 0, field_width,
              (struct form_item){ .id = WHAT,
                                  .kind = FORM_LIST,
                                  .label = base_tr("What"),
                                  .text = shown[at],
                                  .choices = shown,
                                  .choice_count = count,
                                  .chosen = (int)at });
    add_field(
        page, 1, length_width,
        (struct form_item){ .id = BY,
                            .kind = FORM_FIELD,
                            .label = base_tr("By how much"),
                            .unit = units_shown_name(page->bench->manner.unit),
                            .text = written,
                            .state = written ? FORM_FAULT : FORM_PLAIN,
                            .note = written ? base_tr("That is not a length.") : NULL,
                            .mend = written ? bench_two_ways(page->a, written, base_tr("Write 2 cm or 3/4 in.")) : NULL,
                            .note_room = bench_content(page->p).width - label_width - length_width });
}

static void fill(struct bench_page *page)
{
    const struct job *job = bench_now(page->bench);
    struct bench_box content = bench_content(page->p);
    page->title = base_tr("Alterations");
    page->sentence = base_tr("What is altered in the pattern; the pieces are drafted anew at once.");
    page->keys = keys;
    page->key_count = sizeof keys / sizeof keys[0];
    page->next = base_tr("Back to pattern and size");
    add_choice(page);
    add_field(page, 2, field_width,
              (struct form_item){ .id = ADD, .kind = FORM_FIELD, .label = base_tr("Or in words") });
    if (!job->alteration_count)
        return;
    size_t at = at_row(page->bench), room = (size_t)((content.height - rows_top) / row_height);
    size_t first = at >= room ? at - room + 1 : 0, left = job->alteration_count - first;
    size_t rows = left < room ? left : room;
    form_add(&page->form, (struct form_item){ .id = ROWS,
                                              .kind = FORM_TILES,
                                              .box = { content.x + 26, content.y + rows_top, content.width - 26,
                                                       (double)rows * row_height },
                                              .columns = 1,
                                              .choices = shown(page->a, job) + first,
                                              .choice_count = rows,
                                              .chosen = (int)(at - first),
                                              .draw_tile = bench_draw_row,
                                              .first = first,
                                              .total = job->alteration_count });
}

/* How alterations of this pattern are written. */
static const char *such_as(struct bench_page *page)
{
    const char *examples[JOB_EXAMPLES], *list = "";
    size_t count = job_alteration_examples(page->a, bench_now(page->bench), page->bench->manner.unit, examples);
    for (size_t i = 0; i < count; i++)
        list = base_arena_print(page->a, "%s%s%s", list, i ? "; " : "", examples[i]);
    return count ? base_arena_print(page->a, base_tr("Such as: %s."), list) : "";
}

static void draw(struct bench_page *page)
{
    struct bench_box content = bench_content(page->p);
    double x = content.x + label_width;
    form_paragraph(page->p, (struct bench_pt){ x, content.y + 2 * next_field + 54 }, FORM_NOTE, FORM_INK_2,
                   content.width - label_width, such_as(page));
    if (!bench_now(page->bench)->alteration_count)
        form_text(page->p, (struct bench_pt){ x, content.y + rows_top + 22 }, FORM_LEFT, FORM_LABEL, FORM_INK_2, 0,
                  base_tr("Nothing is altered yet."));
}

/* What is no alteration is told in short: what can be is chosen above. */
static void add_in_words(struct bench *b, const char *text)
{
    struct arena *a = bench_room(b);
    struct err_list *errs = base_err_list_create();
    const struct job *job = job_with_alteration(a, bench_job(b), text, errs);
    bool is_none = base_err_list_has(errs, "job.alteration");
    bench_take(b, job, text, errs);
    if (is_none)
        bench_say(b, base_tr("That is no alteration. Choose it above, or write it as in the examples."));
}

static void add_by(struct bench *b, const char *text)
{
    struct arena *a = bench_room(b);
    const struct job *job = bench_job(b);
    const struct job_alteration_choice *all;
    size_t count = job_alteration_choices(a, job, &all);
    double mm;
    bool good = !*text || units_typed_length(text, b->manner.unit, &mm);
    if (!good || job_words_of(job->ticket.unread, unread))
        bench_take(b, job_with_unread(a, job, unread, good ? NULL : base_arena_copy_text(a, text)),
                   base_tr("The length"), NULL);
    b->hand.focus = BY;
    if (!good || !*text || !count)
        return;
    add_in_words(b, base_arena_print(a, "%s by %.6g %s", all[chosen_of(b, count)].words,
                                     mm / units_mm_per(b->manner.unit), units_name(b->manner.unit)));
}

static void answer(struct bench *b, const struct form_answer *did)
{
    if (did->id == WHAT && did->did == FORM_CHOSE)
        b->alter_by = (size_t)did->choice;
    else if (did->id == BY && did->did == FORM_WROTE)
        add_by(b, did->text);
    else if (did->did == FORM_CHOSE)
        b->alteration = (size_t)did->choice + form_find(&b->made.form, ROWS)->first;
    else if (did->did == FORM_WROTE && *did->text) {
        add_in_words(b, base_arena_copy_text(bench_room(b), did->text));
        b->hand.focus = ADD;
    }
}

static bool press(struct bench *b, struct input_event e)
{
    const struct job *job = bench_job(b);
    if (e.key != KEY_DELETE || b->hand.focus != ROWS || !job->alteration_count)
        return false;
    struct err_list *errs = base_err_list_create();
    size_t at = at_row(b);
    const char *done = base_arena_print(bench_room(b), base_tr("taken off: %s"),
                                        job_phrase_shown(bench_room(b), job->pattern, job->alteration_texts[at]));
    bench_take(b, job_without_alteration(bench_room(b), job, at, errs), done, errs);
    return true;
}

static bool next(struct bench *b)
{
    bench_go(b, BENCH_PATTERN);
    return false;
}

const struct bench_stage bench_alter = { .fill = fill, .draw = draw, .answer = answer, .press = press, .next = next };
