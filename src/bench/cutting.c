/* Cutting and marking: the cutting list with what is ticked off at the table, and one of its pieces. */
#include "base/words.h"
#include "bench/cut_list.h"
#include "bench/inside.h"
#include "bench/lack.h"
#include "bench/pieces.h"
#include "bench/steps.h"
#include "bench/where.h"
#include "job/cloth.h"

#include <math.h>

enum { ROWS = 1, WAY, NOTE, GO };

static const double list_width = 256, gap = 20, side_width = 186, row_height = 34, note_up = 14;
static const double steps_down = 28, way_height = 28; /* from the content's top to the steps of a piece */

static const char *const ways[] = {
    [JOB_CUT_ON_LIGHT] = BASE_TR("Cut on the light"), [JOB_CHALK_ALL] = BASE_TR("Chalk all, cut by lamp")
};

enum { WAYS = sizeof ways / sizeof ways[0] };

static const struct form_key keys[] = { { "↑ ↓", BASE_TR("choose a piece") },
                                        { BASE_TR_IN("key", "Tab"), BASE_TR("next") },
                                        { "F12", BASE_TR("to the table") } };

/* --- the form ---------------------------------------------------------------------------------------------------- */

static double side_x(const struct bench_page *page)
{
    struct bench_box content = bench_content(page->p);
    return content.x + content.width - side_width;
}

static void draw_sign(struct form_picture *p, const struct bench_cut_line *line, struct bench_pt at)
{
    if (line->in_hand)
        form_here(p, at);
    else if (line->cut >= line->wanted)
        form_tick_mark(p, at, 18, 3, FORM_GREEN);
    else if (line->cut > 0)
        form_to_do(p, at);
    else
        form_not_begun(p, at);
}

static void draw_row(struct form_picture *p, const struct form_item *item, struct bench_box box, size_t choice,
                     bool bold)
{
    const struct bench_cut_line *line = (const struct bench_cut_line *)item->of + choice;
    double y = box.y + box.height / 2, x = box.x + 36, end = box.x + box.width - 8;
    const char *copies =
        line->cut > 0 ? base_arena_print(p->a, base_tr("%d of %d"), line->cut, line->wanted) : line->brief;
    double room = end - x - form_width(p->type, FORM_SMALL, copies) - 8;
    enum form_style style = bold ? FORM_STRONG : FORM_LABEL;
    draw_sign(p, line, (struct bench_pt){ box.x + 18, y });
    form_text(p, (struct bench_pt){ x, y + form_drop(style) }, FORM_LEFT, style,
              line->cut >= line->wanted ? FORM_INK_2 : FORM_INK, room,
              form_cut_text(p, style, room, line->piece->label));
    form_text(p, (struct bench_pt){ end, y + form_drop(FORM_SMALL) }, FORM_RIGHT, FORM_SMALL, FORM_INK_2, 0, copies);
    form_line(p, (struct bench_pt){ box.x, box.y + box.height },
              (struct bench_pt){ box.x + box.width, box.y + box.height }, 1, FORM_HAIR);
}

static size_t at_piece(const struct bench *b, const struct bench_cut_list *list)
{
    return b->piece < list->count ? b->piece : 0;
}

static void add_rows(struct bench_page *page, const struct bench_cut_list *list)
{
    struct bench_box content = bench_content(page->p);
    size_t at = at_piece(page->bench, list), room = (size_t)(content.height / row_height);
    size_t first = at >= room ? at - room + 1 : 0, rows = list->count - first < room ? list->count - first : room;
    const char **names = base_arena_alloc(page->a, list->count, sizeof *names);
    for (size_t i = 0; i < list->count; i++)
        names[i] = list->lines[i].piece->label;
    form_add(&page->form, (struct form_item){ .id = ROWS,
                                              .kind = FORM_TILES,
                                              .box = { content.x, content.y, list_width, (double)rows * row_height },
                                              .columns = 1,
                                              .choices = names + first,
                                              .choice_count = rows,
                                              .chosen = (int)(at - first),
                                              .draw_tile = draw_row,
                                              .of = list->lines + first,
                                              .first = first,
                                              .total = list->count });
}

/* What is begun goes on as it was begun (app/place_memory.c), and the table asks once, when it is gone to. */
static bool is_begun(const struct bench *b, const struct bench_cut_list *list)
{
    bool begun = b->progress.is_placed || b->at_table == BENCH_TO_CUT;
    for (size_t i = 0; i < list->count; i++)
        begun = begun || list->lines[i].cut > 0;
    return begun;
}

static void draw_way(struct form_picture *p, const struct form_item *item, struct bench_box box, size_t choice,
                     bool bold)
{
    form_text_fit(p, (struct bench_pt){ box.x + 12, box.y + box.height / 2 + form_drop(FORM_NOTE) }, FORM_LEFT,
                  bold ? FORM_NOTE_STRONG : FORM_NOTE, FORM_SMALL, FORM_INK, box.width - 18, item->choices[choice]);
}

/* Where what stands below the steps begins: its heading's baseline. */
static double below_steps(const struct bench_page *page, const struct bench_cut_list *list)
{
    const struct bench_cut_line *line = &list->lines[at_piece(page->bench, list)];
    return bench_content(page->p).y + steps_down + bench_steps_height(page->p, side_width, line) + 24;
}

static void add_way(struct bench_page *page, const struct bench_cut_list *list)
{
    if (is_begun(page->bench, list))
        return;
    const char **words = base_arena_alloc(page->a, WAYS, sizeof *words);
    for (int i = 0; i < WAYS; i++)
        words[i] = base_tr(ways[i]);
    form_add(&page->form,
             (struct form_item){ .id = WAY,
                                 .kind = FORM_TILES,
                                 .box = { side_x(page), below_steps(page, list) + 12, side_width, WAYS * way_height },
                                 .columns = 1,
                                 .choices = words,
                                 .choice_count = WAYS,
                                 .chosen = (int)bench_now(page->bench)->ticket.way,
                                 .draw_tile = draw_way });
}

static void add_side(struct bench_page *page, const struct bench_cut_list *list)
{
    struct bench_box content = bench_content(page->p);
    const struct draft_piece *piece = list->lines[at_piece(page->bench, list)].piece;
    double x = side_x(page), low = content.y + content.height;
    form_add(&page->form,
             (struct form_item){ .id = NOTE,
                                 .kind = FORM_FIELD,
                                 .box = { x, low - BENCH_TAG_HEIGHT - note_up - 34, side_width, 34 },
                                 .text = job_words_of(bench_now(page->bench)->ticket.notes, piece->name) });
    form_add(&page->form,
             (struct form_item){ .id = GO,
                                 .kind = FORM_TAG,
                                 .box = { x, low - BENCH_TAG_HEIGHT, side_width, BENCH_TAG_HEIGHT },
                                 .label = page->bench->at_table == BENCH_TO_CUT ? base_tr("Leave the table")
                                                                                : base_tr("To the table") });
}

static const char *sentence_of(const struct bench_page *page, const struct bench_cut_list *list)
{
    const struct bench *b = page->bench;
    bool shown = b->at_table == BENCH_TO_CUT && b->progress.in_hand >= 0 && (size_t)b->progress.in_hand < list->count;
    if (list->done == list->count)
        return base_tr("Everything on the list is cut.");
    if (shown)
        return base_arena_print(page->a, base_tr("In hand at the table: %s. Lines of the list ticked off: %zu of %zu."),
                                list->lines[b->progress.in_hand].piece->label, list->done, list->count);
    if (list->done)
        return base_arena_print(page->a,
                                base_tr_count(list->done, "%zu of %zu lines of the list is ticked off.",
                                              "%zu of %zu lines of the list are ticked off."),
                                list->done, list->count);
    return base_tr("Piece by piece, or section by section where the light does not reach it all.");
}

static void fill(struct bench_page *page)
{
    struct bench_cut_list list;
    struct bench_lack lack;
    page->title = base_tr("Cut and mark");
    page->keys = keys;
    page->key_count = sizeof keys / sizeof keys[0];
    page->next = base_tr("Next: done");
    if (bench_first_lack(bench_now(page->bench), false, &lack))
        bench_tell_lack(page, &lack);
    if (!bench_cut_list_of(page->a, page->bench, &list) || !list.count)
        return;
    page->sentence = sentence_of(page, &list);
    add_rows(page, &list);
    add_way(page, &list);
    add_side(page, &list);
}

/* --- what is seen beside it -------------------------------------------------------------------------------------- */

/* Where it is cut of several cloths, the first that is not done yet: the table counts one after the other. */
static void draw_first(struct form_picture *p, double x, double y, const struct bench_cut_list *list)
{
    int m = 0;
    while (m < JOB_MATERIALS - 1 && !list->left_of[m])
        m++;
    if (list->left_of[m] < list->left)
        /* To: “Main fabric: 16” */
        form_text_fit(
            p, (struct bench_pt){ x, y }, FORM_LEFT, FORM_NOTE, FORM_SMALL, FORM_INK_2, side_width,
            base_arena_print(p->a, base_tr("%s: %d"), bench_material((enum pattern_cloth)m), list->left_of[m]));
}

static void draw_left(struct form_picture *p, double x, double y, const struct bench_cut_list *list)
{
    int left = list->left;
    const char *figure = base_arena_print(p->a, "%d", left);
    double width = form_width(p->type, FORM_FIGURE, figure);
    form_text(p, (struct bench_pt){ x, y }, FORM_LEFT, FORM_HEADING, FORM_INK, side_width,
              base_tr_in("pieces still to cut", "Left"));
    form_text(p, (struct bench_pt){ x, y + 40 }, FORM_LEFT, FORM_FIGURE, FORM_INK, side_width, figure);
    form_text(p, (struct bench_pt){ x + width + 10, y + 40 }, FORM_LEFT, FORM_NOTE, FORM_INK_2, side_width - width - 10,
              base_tr_count((size_t)left, "piece to cut", "pieces to cut"));
    draw_first(p, x, y + 40 + form_line_step(FORM_SMALL), list);
}

/* How she works, until she has begun; then what is left. */
static void draw_below_steps(struct bench_page *page, const struct bench_cut_list *list)
{
    double x = side_x(page), y = below_steps(page, list);
    form_line(page->p, (struct bench_pt){ x, y - 22 }, (struct bench_pt){ x + side_width, y - 22 }, 1, FORM_HAIR);
    if (is_begun(page->bench, list))
        draw_left(page->p, x, y, list);
    else
        form_text(page->p, (struct bench_pt){ x, y }, FORM_LEFT, FORM_HEADING, FORM_INK, side_width,
                  form_cut_text(page->p, FORM_HEADING, side_width, base_tr("Way of working")));
}

static const double caption = 26;

/* At the foot of a box: what the table shows; returns how much of the box it took. */
static double draw_shown(struct bench_page *page, struct bench_box box)
{
    const struct bench *b = page->bench;
    if (b->at_table != BENCH_TO_CUT || !b->glance.count)
        return 0;
    double high = fmin(box.width * b->glance.height, box.height / 2);
    struct bench_box below = { box.x, box.y + box.height - high, box.width, high };
    form_text(page->p, (struct bench_pt){ box.x, below.y - 7 }, FORM_LEFT, FORM_SMALL, FORM_INK_2, box.width,
              base_tr("on the table now; not true to scale here"));
    bench_draw_glance(page->p, below, &b->glance);
    return high + caption;
}

/* The same of where the piece lies in its layout. */
static double draw_where(struct bench_page *page, struct bench_box box, const struct bench_cut_list *list, size_t at)
{
    static const double most = 108;
    const struct bench *b = page->bench;
    enum pattern_cloth material = list->draft.cuts[at].cloth;
    const struct job *job = bench_now(b);
    const struct job_cloth *cloth = job_find_cloth(job, material);
    struct bench_lying lying;
    if (!cloth || !cloth->laid_count || !bench_lying_of(page->a, job, (size_t)(cloth - job->cloths), &lying))
        return 0;
    double high = bench_where_height(&lying, box.width, most);
    struct bench_box below = { box.x, box.y + box.height - high, box.width, high };
    if (high <= 0)
        return 0;
    form_text(page->p, (struct bench_pt){ box.x, below.y - 7 }, FORM_LEFT, FORM_SMALL, FORM_INK_2, box.width,
              base_tr("where it lies"));
    bench_draw_where(page->p, below, &lying, (int)at, app_progress_find(&b->progress, material));
    return high + caption;
}

static void draw_middle(struct bench_page *page, struct bench_box box, const struct bench_cut_list *list, size_t at)
{
    box.height -= draw_shown(page, box);
    box.height -= draw_where(page, box, list, at);
    bench_draw_piece(page->p, box, list->lines[at].piece);
}

static void draw(struct bench_page *page)
{
    struct bench_cut_list list;
    struct form_picture *p = page->p;
    struct bench_box content = bench_content(p);
    if (!bench_cut_list_of(page->a, page->bench, &list) || !list.count)
        return;
    size_t at = at_piece(page->bench, &list);
    double x = side_x(page), left = content.x + list_width + gap;
    draw_middle(page, (struct bench_box){ left, content.y, x - gap - left, content.height }, &list, at);
    form_text(p, (struct bench_pt){ x, content.y + 14 }, FORM_LEFT, FORM_HEADING, FORM_INK, side_width,
              form_cut_text(p, FORM_HEADING, side_width, list.lines[at].piece->label));
    bench_draw_steps(p, (struct bench_box){ x, content.y + steps_down, side_width, 0 }, &list.lines[at],
                     &page->bench->progress);
    draw_below_steps(page, &list);
    form_text(p, (struct bench_pt){ x, content.y + content.height - BENCH_TAG_HEIGHT - note_up - 44 }, FORM_LEFT,
              FORM_HEADING, FORM_INK, side_width, base_tr("Note"));
}

/* --- what she did ------------------------------------------------------------------------------------------------ */

static void take_note(struct bench *b, const char *text)
{
    struct bench_cut_list list;
    struct arena *a = bench_room(b);
    if (!bench_cut_list_of(b->frame, b, &list) || !list.count)
        return;
    const char *piece = list.lines[at_piece(b, &list)].piece->name;
    bench_take(b, job_with_note(a, bench_job(b), piece, base_arena_copy_text(a, text)), base_tr("The note"), NULL);
}

static void take_way(struct bench *b, enum job_way way)
{
    bench_take(b, job_with_way(bench_room(b), bench_job(b), way), base_tr(ways[way]), NULL);
}

static void answer(struct bench *b, const struct form_answer *did)
{
    if (did->id == WAY && did->did == FORM_CHOSE)
        take_way(b, (enum job_way)did->choice);
    else if (did->id == NOTE)
        take_note(b, did->text);
    else if (did->id == GO && b->at_table == BENCH_TO_CUT)
        b->effects.leave = true;
    else if (did->id == GO)
        b->effects.to = BENCH_TO_CUT;
    else if (did->id == ROWS && did->did == FORM_CHOSE)
        b->piece = (size_t)did->choice + form_find(&b->made.form, ROWS)->first;
    else if (did->id == ROWS && did->did == FORM_PRESSED)
        b->hand.focus = NOTE;
}

/* --- on the ticket ----------------------------------------------------------------------------------------------- */

static void says(const struct bench *b, struct arena *a, struct bench_line *line)
{
    struct bench_cut_list list = { .count = 0 };
    struct bench_lack lack;
    if (bench_first_lack(bench_now(b), false, &lack))
        line->says = lack.brief;
    else if (!bench_cut_list_of(a, b, &list))
        return;
    else if (!b->progress.is_placed)
        line->says =
            base_arena_print(a, base_tr_count((size_t)list.left, "%d piece to cut", "%d pieces to cut"), list.left);
    if (line->says)
        return;
    bool all = list.done == list.count;
    line->says = base_arena_print(a, base_tr("%zu of %zu ticked off"), list.done, list.count);
    line->stand = all ? BENCH_DONE : BENCH_TO_DO;
    line->mood = all ? FORM_PLAIN : FORM_TO_DO;
}

const struct bench_stage bench_cutting = { .says = says, .fill = fill, .draw = draw, .answer = answer };
