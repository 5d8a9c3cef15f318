/* Pattern, view, size, cup group, and how it is fitted to her. */
#include "base/words.h"
#include "bench/chart.h"
#include "bench/inside.h"
#include "bench/pieces.h"
#include "bench/taken.h"
#include "input/key.h"

#include <math.h>
#include <string.h>

enum { OPEN = 1, VIEWS, SIZE, CONFIRM, CUP, BLEND, LEVEL, LEVEL_SIZE, TO_BODY, TRIAL, ALTER, EXAMPLE };
enum { MOST_TILES = 4 };

static const double label_width = 160, left_width = 342, tile_height = 74, quarter = 0.25, pin_room = 28;

static const struct form_key keys[] = { { BASE_TR_IN("key", "Tab"), BASE_TR("next") },
                                        { BASE_TR_IN("key", "Arrows"), BASE_TR("choose") },
                                        { "+ −", BASE_TR("a quarter size") },
                                        { BASE_TR_IN("key", "Space"), BASE_TR("tick") },
                                        { BASE_TR_IN("key", "Ctrl Z"), BASE_TR("undo") } };

static const struct form_key keys_blank[] = { { BASE_TR_IN("key", "Enter"), BASE_TR("open") },
                                              { BASE_TR_IN("key", "Ctrl Z"), BASE_TR("undo") } };

/* --- the form ---------------------------------------------------------------------------------------------------- */

/* Where the chart's room begins. */
static double above_chart(const struct bench_page *page)
{
    struct bench_box content = bench_content(page->p);
    return content.y + content.height - bench_chart_height(bench_now(page->bench)->pattern) - 14;
}

static void add_card(struct bench_page *page, int id, const char *label, const char *note)
{
    static const double indent = 26, top = 14, height = 68, step = 84;
    struct bench_box content = bench_content(page->p);
    form_add(&page->form,
             (struct form_item){ .id = id,
                                 .kind = FORM_CARD,
                                 .box = { content.x + indent, content.y + top + step * (double)page->form.count,
                                          content.width - indent, height },
                                 .label = label,
                                 .note = note });
}

static void fill_blank(struct bench_page *page)
{
    page->sentence = base_tr("Open a pattern file of ours, or drop it here.");
    page->keys = keys_blank;
    page->key_count = sizeof keys_blank / sizeof keys_blank[0];
    add_card(page, OPEN, base_tr("Open a pattern file"),
             base_tr("or a pattern sheet (PDF, SVG): its pieces are taken from it at the table"));
    if (page->bench->example_pattern)
        add_card(page, EXAMPLE, base_tr("The museum’s pinafore"), base_tr("the pattern that comes with the program"));
}

static void draw_view_tile(struct form_picture *p, const struct form_item *item, struct bench_box box, size_t choice,
                           bool bold)
{
    struct bench_box inner = { box.x + 8, box.y + 8, box.width - 16, box.height - 34 };
    bench_draw_view(p, inner, item->of, (int)choice, bold);
    form_text(p, (struct bench_pt){ box.x + box.width / 2, box.y + box.height - 9 }, FORM_MIDDLE,
              bold ? FORM_NOTE_STRONG : FORM_NOTE, FORM_INK, box.width - 6, item->choices[choice]);
}

static void add_views(struct bench_page *page, struct bench_rows *rows)
{
    const struct job *job = bench_now(page->bench);
    size_t count = job->pattern->view_count;
    const char **names = base_arena_alloc(page->a, count, sizeof *names);
    for (size_t i = 0; i < count; i++)
        names[i] = count <= MOST_TILES ? job->pattern->views[i].shown : job->pattern->views[i].label;
    struct form_item item = { .id = VIEWS, .choices = names, .choice_count = count, .chosen = job->view, .of = job };
    if (count <= MOST_TILES) {
        item.kind = FORM_TILES;
        item.columns = count;
        item.gap = 8;
        item.box = (struct bench_box){ rows->label_x, rows->y + 4, fmin(left_width, (double)count * 92), tile_height };
        item.draw_tile = draw_view_tile;
        rows->y += tile_height + 12;
    } else {
        item.kind = FORM_LIST;
        item.label = base_tr("View");
        item.label_x = rows->label_x;
        item.box = bench_row(rows);
        item.text = job->view == PATTERN_NONE ? base_tr("choose") : names[job->view];
        item.state = job->view == PATTERN_NONE ? FORM_TO_DO : FORM_PLAIN;
    }
    form_add(&page->form, item);
}

/* Rows are closer here than on other pages, and boxes lower. */
static struct bench_box next_row(struct bench_rows *rows)
{
    static const double lower = 4;
    struct bench_box box = bench_row(rows);
    box.height -= lower;
    return box;
}

static struct form_item *add(struct bench_page *page, struct bench_rows *rows, struct form_item item)
{
    item.label_x = rows->label_x;
    item.box = next_row(rows);
    return form_add(&page->form, item);
}

static void add_tick(struct bench_page *page, struct bench_rows *rows, int id, const char *label, bool on, double room)
{
    struct bench_box row = next_row(rows);
    form_add(&page->form, (struct form_item){ .id = id,
                                              .kind = FORM_TICK,
                                              .box = { rows->label_x + 28, row.y + 4, 22, 22 },
                                              .label = label,
                                              .on = on,
                                              .note_room = room });
}

static bool size_is_known(const struct job *job)
{
    return job->position >= 0;
}

/* "5", or "5–6 · 18 %" between two sizes. */
static const char *short_size(struct arena *a, const struct pattern *pattern, double position)
{
    size_t lower = (size_t)position;
    int percent = (int)floor(100 * (position - (double)lower) + 0.5);
    if (percent == 0 || percent == 100)
        return pattern->sizes[lower + (percent == 100)];
    return base_arena_print(a, "%s–%s · %d %%", pattern->sizes[lower], pattern->sizes[lower + 1], percent);
}

static void add_size(struct bench_page *page, struct bench_rows *rows)
{
    const struct job *job = bench_now(page->bench);
    struct form_item *size =
        add(page, rows, (struct form_item){ .id = SIZE, .kind = FORM_STEPPER, .label = base_tr("Size") });
    size->text = size_is_known(job) ? short_size(page->a, job->pattern, job->position) : base_tr("to choose");
    size->state = size_is_known(job) && job->ticket.size_confirmed ? FORM_PLAIN : FORM_TO_DO;
    if (!job->pattern->cup_group_count)
        return;
    const char **names = base_arena_alloc(page->a, job->pattern->cup_group_count, sizeof *names);
    for (size_t i = 0; i < job->pattern->cup_group_count; i++)
        names[i] = job->pattern->cup_groups[i].name;
    struct form_item *cup =
        add(page, rows, (struct form_item){ .id = CUP, .kind = FORM_LIST, .label = base_tr("Cup group") });
    cup->choices = names;
    cup->choice_count = job->pattern->cup_group_count;
    cup->chosen = job->cup_group;
    cup->text = job->cup_group == PATTERN_NONE ? base_tr("to choose") : names[job->cup_group];
    cup->state = job->cup_group == PATTERN_NONE ? FORM_TO_DO : FORM_PLAIN;
}

static void add_blend(struct bench_page *page, struct bench_rows *rows)
{
    const struct bench *b = page->bench;
    const struct job *job = bench_now(b);
    const struct pattern *pattern = job->pattern;
    if (!pattern->row_count || pattern->size_count < 2)
        return;
    add_tick(page, rows, BLEND, base_tr("Blend between sizes"), job->level_position != NULL, 160);
    if (!job->level_position)
        return;
    const char **names = base_arena_alloc(page->a, pattern->row_count, sizeof *names);
    for (size_t i = 0; i < pattern->row_count; i++)
        names[i] = bench_measure_label(page->a, pattern, pattern->chart[i].name);
    size_t level = b->level < pattern->row_count ? b->level : 0;
    struct bench_box step = next_row(rows), list = step;
    list.x = rows->label_x;
    list.width = step.x - list.x - pin_room;
    form_add(&page->form, (struct form_item){ .id = LEVEL,
                                              .kind = FORM_LIST,
                                              .box = list,
                                              .choices = names,
                                              .choice_count = pattern->row_count,
                                              .chosen = (int)level,
                                              .text = names[level] });
    form_add(&page->form, (struct form_item){ .id = LEVEL_SIZE,
                                              .kind = FORM_STEPPER,
                                              .box = step,
                                              .text = short_size(page->a, pattern, job->level_position[level]) });
}

/* Below the picture, at its right. */
static void add_alter(struct bench_page *page)
{
    const struct job *job = bench_now(page->bench);
    struct bench_box content = bench_content(page->p);
    const char *label = job->alteration_count
                            ? base_arena_print(page->a, base_tr("Alterations: %zu"), job->alteration_count)
                            : base_tr("Alter the pattern");
    double width = bench_tag_width(page->p, label);
    form_add(&page->form, (struct form_item){ .id = ALTER,
                                              .kind = FORM_TAG,
                                              .state = job_is_finished(job) ? FORM_PLAIN : FORM_NOT_NOW,
                                              .box = { content.x + content.width - width,
                                                       above_chart(page) - BENCH_TAG_HEIGHT, width, BENCH_TAG_HEIGHT },
                                              .label = label });
}

/* "back length, waist to knee": what has to be measured still; NULL: nothing has. */
static const char *to_measure(struct arena *a, const struct job *job)
{
    const struct job_measure *needed;
    const char *list = NULL;
    size_t count = job_needed_measurements(a, job, &needed);
    for (size_t i = 0; i < count; i++)
        if (needed[i].is_wanted) {
            const char *name = bench_measure_short(a, job->pattern, needed[i].name);
            list = list ? base_arena_print(a, "%s, %s", list, name) : name;
        }
    return list;
}

static const char *sentence_of(const struct bench_page *page)
{
    const struct job *job = bench_now(page->bench);
    const char *missing = job->to_body ? to_measure(page->a, job) : NULL;
    if (missing)
        /* To: back length, waist to knee */
        return base_arena_print(page->a, base_tr("Made to the measurements: still to be measured: %s."), missing);
    if (job->view == PATTERN_NONE)
        return base_tr("Choose a view: what is cut depends on it.");
    if (!size_is_known(job))
        return job->pattern->main_row == PATTERN_NONE
                   ? base_tr("This pattern names its sizes: choose yours with + and −.")
                   : base_tr("Your size follows once you have measured; or choose it with + and −.");
    const char *size = pattern_size_shown(page->a, job->pattern, job->position);
    const char *view = job->pattern->views[job->view].label;
    if (job->ticket.size_by_hand)
        return base_arena_print(page->a, base_tr("%s, size %s as you chose it."), view, size);
    return base_arena_print(page->a, base_tr("%s. By your measurements size %s: keep it, or blend."), view, size);
}

static void fill(struct bench_page *page)
{
    const struct job *job = bench_now(page->bench);
    page->title = base_tr("Pattern and size");
    page->keys = keys;
    page->key_count = sizeof keys / sizeof keys[0];
    page->next = base_tr("Next: cloth");
    if (!job->pattern) {
        fill_blank(page);
        return;
    }
    struct bench_box content = bench_content(page->p);
    struct bench_rows rows = bench_rows(page->p, content.x, content.x + label_width + pin_room, 154, 0);
    rows.step -= 6;
    page->sentence = sentence_of(page);
    add_views(page, &rows);
    add_size(page, &rows);
    add_blend(page, &rows);
    if (job->to_body || job_has_measurements(job))
        add_tick(page, &rows, TO_BODY, base_tr("Made to the measurements"), job->to_body, 200);
    add_tick(page, &rows, TRIAL, base_tr("Trial garment first"), job->trial, 160);
    add_alter(page);
    if (size_is_known(job) && !job->ticket.size_confirmed)
        page->next = base_tr("Keep this size");
    else if (job->to_body && to_measure(page->a, job))
        page->next = base_tr("To the measurements");
}

static void draw_no_view(struct form_picture *p, struct bench_box box)
{
    static const double margin = 18;
    form_fill_box(p, box, FORM_SELVEDGE);
    form_paragraph(p, (struct bench_pt){ box.x + margin, box.y + margin + 12 }, FORM_NOTE, FORM_INK_2,
                   box.width - 2 * margin,
                   base_tr("Once a view is chosen its largest pieces are seen here in all sizes."));
}

static void draw(struct bench_page *page)
{
    const struct job *job = bench_now(page->bench);
    if (!job->pattern)
        return;
    struct bench_box content = bench_content(page->p);
    double x = content.x + left_width + 30, chart = bench_chart_height(job->pattern);
    struct bench_box nest = { x, content.y, content.x + content.width - x,
                              above_chart(page) - BENCH_TAG_HEIGHT - 10 - content.y };
    if (job->view != PATTERN_NONE)
        bench_draw_nest(page->p, nest, page->bench->nest, job, page->bench->manner.unit);
    else
        draw_no_view(page->p, nest);
    bench_draw_chart(page->p, (struct bench_box){ content.x, content.y + content.height - chart, content.width, chart },
                     job, page->bench->manner.unit);
}

/* --- what she did ------------------------------------------------------------------------------------------------ */

static double stepped(const struct pattern *pattern, double position, int step)
{
    double last = (double)(pattern->size_count - 1);
    if (position < 0)
        return floor(last / 2);
    double to = (step > 0 ? floor(position / quarter + 1e-6) : ceil(position / quarter - 1e-6)) + step;
    return fmin(last, fmax(0, to * quarter));
}

static void take_size(struct bench *b, int step, struct err_list *errs)
{
    const struct job *job = bench_job(b);
    double to = stepped(job->pattern, job->position, step);
    struct arena *a = bench_room(b);
    bench_take(b, job_with_size(a, job, to, errs),
               base_arena_print(a, base_tr("Size %s"), pattern_size_shown(a, job->pattern, to)), errs);
}

static void take_level(struct bench *b, int step, struct err_list *errs)
{
    const struct job *job = bench_job(b);
    struct arena *a = bench_room(b);
    double to = stepped(job->pattern, job->level_position[b->level], step);
    bench_take(b, job_with_blend(a, job, (int)b->level, to, errs), base_tr("The blend"), errs);
}

static void take_blend(struct bench *b, struct err_list *errs)
{
    const struct job *job = bench_job(b);
    struct arena *a = bench_room(b);
    bench_take(b, job->level_position ? job_without_blend(a, job, errs) : job_with_blend_by_body(a, job, errs),
               base_tr("Blend between sizes"), errs);
}

static void answer(struct bench *b, const struct form_answer *did)
{
    const struct job *job = bench_job(b);
    struct arena *a = bench_room(b);
    struct err_list *errs = base_err_list_create();
    switch (did->id) {
    case OPEN:
        bench_go(b, BENCH_FILES);
        break;
    case EXAMPLE:
        bench_take(b, job_with_pattern(a, job, b->example_pattern, errs), base_tr("The example"), errs);
        return;
    case VIEWS:
        bench_take(b, job_with_view(a, job, did->choice, errs), base_tr("The view"), errs);
        return;
    case SIZE:
        take_size(b, did->step, errs);
        return;
    case CUP:
        bench_take(b, job_with_cup_group(a, job, did->choice, errs), base_tr("The cup group"), errs);
        return;
    case BLEND:
        take_blend(b, errs);
        return;
    case LEVEL:
        b->level = (size_t)did->choice;
        break;
    case LEVEL_SIZE:
        take_level(b, did->step, errs);
        return;
    case TO_BODY:
        bench_take(b, job_with_made_to(a, job, !job->to_body, errs), base_tr("Made to the measurements"), errs);
        return;
    case ALTER:
        bench_go(b, BENCH_ALTER);
        break;
    case TRIAL:
        bench_take(b, job_with_trial(a, job, !job->trial, errs), base_tr("Trial garment"), errs);
        return;
    default:
        break;
    }
    base_err_list_destroy(errs);
}

/* The tag at the foot agrees to the size first, then leads to what has to be measured for it. */
static bool next(struct bench *b)
{
    const struct job *job = bench_job(b);
    bool keeps = job->pattern && size_is_known(job) && !job->ticket.size_confirmed;
    if (!keeps && job->pattern && job->to_body && to_measure(b->frame, job)) {
        bench_go(b, BENCH_MEASUREMENTS);
        return false;
    }
    if (!keeps)
        return true;
    bench_take(b, job_with_size_confirmed(bench_room(b), job, true), base_tr("The size kept"), NULL);
    return false;
}

/* --- on the ticket ----------------------------------------------------------------------------------------------- */

static void says(const struct bench *b, struct arena *a, struct bench_line *line)
{
    const struct job *job = bench_now(b);
    line->stand = BENCH_TO_DO;
    line->mood = FORM_TO_DO;
    if (!job->pattern) {
        line->says = base_tr("choose a pattern");
        line->stand = BENCH_NOT_BEGUN;
    } else if (job->view == PATTERN_NONE) {
        line->says = base_tr("choose a view");
    } else if (!size_is_known(job)) {
        line->says = base_tr("size to choose");
    } else if (!job->ticket.size_confirmed) {
        line->says = base_tr("size to confirm");
    } else {
        line->says = base_arena_print(a, base_tr("View %s, size %s"), job->pattern->views[job->view].shown,
                                      short_size(a, job->pattern, job->position));
        line->stand = BENCH_DONE;
        line->mood = FORM_PLAIN;
    }
}

const struct bench_stage bench_pattern = { .says = says, .fill = fill, .draw = draw, .answer = answer, .next = next };
