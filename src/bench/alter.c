/* Alterations in words: one more, the list of them, and taking one off. */
#include "base/words.h"
#include "bench/inside.h"
#include "input/key.h"
#include "job/alterations.h"
#include "job/phrases.h"

enum { ADD = 1, ROWS };

static const double field_width = 420, rows_top = 132, row_height = 34;

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

static void fill(struct bench_page *page)
{
    const struct job *job = bench_now(page->bench);
    struct bench_box content = bench_content(page->p);
    page->title = base_tr("Alterations");
    page->sentence = base_tr("What is altered in the pattern, in words; the pieces are drafted anew at once.");
    page->keys = keys;
    page->key_count = sizeof keys / sizeof keys[0];
    page->next = base_tr("Back to pattern and size");
    form_add(&page->form, (struct form_item){ .id = ADD,
                                              .kind = FORM_FIELD,
                                              .label = base_tr("One more"),
                                              .label_x = content.x,
                                              .box = { content.x + 122, content.y, field_width, 34 } });
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
    double x = content.x + 122;
    form_paragraph(page->p, (struct bench_pt){ x, content.y + 54 }, FORM_NOTE, FORM_INK_2, content.width - 122,
                   such_as(page));
    if (!bench_now(page->bench)->alteration_count)
        form_text(page->p, (struct bench_pt){ x, content.y + rows_top + 22 }, FORM_LEFT, FORM_LABEL, FORM_INK_2, 0,
                  base_tr("Nothing is altered yet."));
}

static void answer(struct bench *b, const struct form_answer *did)
{
    if (did->did == FORM_CHOSE)
        b->alteration = (size_t)did->choice + form_find(&b->made.form, ROWS)->first;
    if (did->did != FORM_WROTE || !*did->text)
        return;
    struct arena *a = bench_room(b);
    struct err_list *errs = base_err_list_create();
    const struct job *job = job_with_alteration(a, bench_job(b), base_arena_copy_text(a, did->text), errs);
    bench_take(b, job, base_arena_copy_text(a, did->text), errs);
    b->hand.focus = ADD;
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
