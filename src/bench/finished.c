/* The end: what was cut, by the cutting list, with her notes; how much cloth that took; and another copy of it. */
#include "app/arrange_look.h"
#include "base/words.h"
#include "bench/cut_list.h"
#include "bench/inside.h"
#include "bench/lack.h"
#include "bench/laying.h"
#include "bench/pieces.h"

#include <math.h>

static const double head_height = 32, least_row = 24, most_row = 34, side_width = 190, gap = 24;

static const struct form_key keys_cutting[] = { { BASE_TR_IN("key", "Enter"), BASE_TR("back to cutting") } };
static const struct form_key keys_copy[] = { { BASE_TR_IN("key", "Enter"), BASE_TR("begin another copy") },
                                             { BASE_TR_IN("key", "Page Up"), BASE_TR("back to cutting") } };

static void fill(struct bench_page *page)
{
    struct bench_cut_list list;
    struct bench_lack lack;
    page->title = base_tr("Done");
    if (bench_first_lack(bench_now(page->bench), false, &lack))
        bench_tell_lack(page, &lack);
    if (!bench_cut_list_of(page->a, page->bench, &list))
        return;
    page->sentence = list.left ? base_arena_print(page->a,
                                                  base_tr_count((size_t)list.left, "One piece is still to be cut.",
                                                                "%d pieces are still to be cut."),
                                                  list.left)
                               : base_tr("Everything on this ticket is cut and marked.");
    page->next = list.left ? base_tr("Back to cutting") : base_tr("Another copy");
    page->keys = list.left ? keys_cutting : keys_copy;
    page->key_count = list.left ? 1 : 2;
}

/* --- the table of pieces ----------------------------------------------------------------------------------------- */

enum { COLUMNS = 4 };

/* Where its columns begin, and the last ends, as shares of its width: piece, cut, marked, tape. */
static const double columns[COLUMNS + 1] = { 0, 0.26, 0.525, 0.785, 0.955 };

static void draw_cells(struct form_picture *p, struct bench_box row, const char *const cells[COLUMNS], bool heading)
{
    for (int i = 0; i < COLUMNS; i++) {
        enum form_style style = heading ? FORM_NOTE_STRONG : i ? FORM_SMALL : FORM_LABEL;
        double room = row.width * (columns[i + 1] - columns[i]) - 12;
        struct bench_pt at = { row.x + 10 + row.width * columns[i], row.y + row.height / 2 + form_drop(style) };
        form_text_fit(p, at, FORM_LEFT, style, i ? FORM_SMALL : FORM_NOTE, i && !heading ? FORM_INK_2 : FORM_INK, room,
                      heading ? base_tr(cells[i]) : cells[i]);
    }
}

/* What was cut, or how much of it is still open. */
static const char *cut_text(struct arena *a, const struct bench_cut_line *line)
{
    if (line->cut >= line->wanted)
        return line->brief;
    if (line->cut > 0)
        return base_arena_print(a, base_tr("%d of %d"), line->cut, line->wanted);
    /* To: of a piece that is not cut yet: "still: 1 pair" */
    return base_arena_print(a, base_tr("still: %s"), line->brief);
}

/* Its name goes on tape before it is ticked off. */
static const char *named_text(const struct bench_cut_line *line)
{
    return line->cut >= line->wanted ? base_tr_in("a piece, on tape", "named") : NULL;
}

static void draw_table(struct bench_page *page, struct bench_box box, const struct bench_cut_list *list)
{
    static const char *const heads[] = { BASE_TR("Piece"), BASE_TR("Cut"), BASE_TR("Marked"), BASE_TR("Tape") };
    struct form_picture *p = page->p;
    struct bench_box row = { box.x, box.y, box.width, head_height };
    double high = fmax(least_row, fmin(most_row, (box.height - head_height) / (double)list->count));
    form_fill_box(p, row, FORM_MANILA);
    draw_cells(p, row, heads, true);
    row.y += head_height;
    row.height = high;
    size_t room = (size_t)((box.height - head_height + 1) / high), shown = list->count > room ? room - 1 : list->count;
    for (size_t i = 0; i < shown; i++, row.y += high) {
        const struct bench_cut_line *line = &list->lines[i];
        const char *const cells[] = { line->piece->label, cut_text(page->a, line), line->marks, named_text(line) };
        struct bench_pt sign = { row.x + row.width - 12, row.y + high / 2 };
        draw_cells(p, row, cells, false);
        if (line->cut >= line->wanted)
            form_tick_mark(p, sign, 15, 2.6, FORM_GREEN);
        else if (line->cut > 0)
            form_to_do(p, sign);
        else
            form_not_begun(p, sign);
        form_line(p, (struct bench_pt){ row.x, row.y + high }, (struct bench_pt){ row.x + row.width, row.y + high }, 1,
                  FORM_HAIR);
    }
    if (shown < list->count) {
        const char *const cells[] = { base_arena_print(page->a, base_tr("and %zu more"), list->count - shown), NULL,
                                      NULL, NULL };
        draw_cells(p, row, cells, false);
    }
}

/* --- the cloth --------------------------------------------------------------------------------------------------- */

/* Behind the last piece; NULL: how long the cloth is was not told. */
static const char *left_over(const struct bench_page *page, const struct lay *lay)
{
    double left = lay->task->spread.most_length_mm - lay->length_mm;
    if (left <= 0)
        return NULL;
    return base_arena_print(page->a, base_tr("left over: %s"), bench_length(page->a, left, page->bench->manner.unit));
}

static double draw_cloth(struct bench_page *page, double x, double y, const struct app_arrange_look *look)
{
    struct form_picture *p = page->p;
    const char *name = bench_material(bench_now(page->bench)->cloths[look->cloth].material);
    form_text(p, (struct bench_pt){ x, y }, FORM_LEFT, FORM_LABEL, FORM_INK_2, side_width, name);
    form_text(p, (struct bench_pt){ x + side_width, y }, FORM_RIGHT, FORM_STRONG, FORM_INK, 0, look->needs);
    const char *const below[] = { look->means,
                                  base_arena_print(page->a, base_tr("cloth used: %.0f %%"), 100 * look->used),
                                  left_over(page, look->lay) };
    for (int i = 0; i < 3 && below[i]; i++, y += form_line_step(FORM_NOTE))
        form_text_fit(p, (struct bench_pt){ x, y + 22 }, FORM_LEFT, FORM_NOTE, FORM_SMALL, FORM_INK_2, side_width,
                      below[i]);
    form_line(p, (struct bench_pt){ x, y + 16 }, (struct bench_pt){ x + side_width, y + 16 }, 1, FORM_HAIR);
    return y + 42;
}

static double draw_cloths(struct bench_page *page, double x, double y)
{
    struct app_arrange *arrange = bench_laying_now(page->bench);
    form_text(page->p, (struct bench_pt){ x, y }, FORM_LEFT, FORM_HEADING, FORM_INK, side_width,
              base_tr("Cloth needed"));
    if (!arrange) {
        form_paragraph(page->p, (struct bench_pt){ x, y + 26 }, FORM_NOTE, FORM_INK_2, side_width,
                       base_tr("Nothing is laid out yet."));
        return y + 60;
    }
    struct app_arrange_look first = app_arrange_look(arrange, page->a);
    y += 30;
    for (size_t i = 0; i < first.cloth_count; i++) {
        app_arrange_show_cloth(arrange, i);
        struct app_arrange_look look = app_arrange_look(arrange, page->a);
        if (look.lay)
            y = draw_cloth(page, x, y, &look);
    }
    app_arrange_show_cloth(arrange, first.cloth);
    return y + 6;
}

/* What a tape said of the table last. */
static double draw_tape_check(struct bench_page *page, double x, double y)
{
    const struct job *job = bench_now(page->bench);
    if (!job->has_table || !job->table.checked_count)
        return y;
    const struct calibration_checked *line = &job->table.checked[job->table.checked_count - 1];
    char off[UNITS_TEXT];
    units_print_length(off, round(10 * fabs(line->taped_mm - line->drawn_mm)) / 10, UNITS_MM);
    size_t rows = form_paragraph(page->p, (struct bench_pt){ x, y }, FORM_NOTE, FORM_INK_2, side_width,
                                 base_arena_print(page->a, base_tr("tape check: out by %s"), off));
    return y + 14 + form_line_step(FORM_NOTE) * (double)rows;
}

/* What she wrote of pieces, as far as there is room. */
static void draw_notes(struct bench_page *page, double x, double y)
{
    struct form_picture *p = page->p;
    struct bench_box content = bench_content(p);
    struct job_words notes = bench_now(page->bench)->ticket.notes;
    double step = form_line_step(FORM_NOTE), low = content.y + content.height;
    if (notes.count)
        form_text(p, (struct bench_pt){ x, y }, FORM_LEFT, FORM_HEADING, FORM_INK, side_width, base_tr("Notes"));
    y += 24;
    for (size_t i = 0; i < notes.count; i++) {
        const char *label = bench_piece_label(bench_now(page->bench), notes.items[i].of);
        const char *text = base_arena_print(page->a, "%s: %s", label, notes.items[i].text);
        if (y + step * (double)form_paragraph_lines(p, FORM_NOTE, side_width, text) > low)
            return;
        y += step * (double)form_paragraph(p, (struct bench_pt){ x, y }, FORM_NOTE, FORM_INK_2, side_width, text) + 6;
    }
}

static void draw(struct bench_page *page)
{
    struct bench_cut_list list;
    struct bench_box content = bench_content(page->p), table = content;
    if (!bench_cut_list_of(page->a, page->bench, &list))
        return;
    table.width -= side_width + gap;
    draw_table(page, table, &list);
    double x = content.x + content.width - side_width;
    draw_notes(page, x, draw_tape_check(page, x, draw_cloths(page, x, content.y + 20)));
}

/* --- what she did ------------------------------------------------------------------------------------------------ */

/* The layout is looked at as it was kept; none is made here. */
static void open_page(struct bench *b)
{
    const struct job *job = bench_job(b);
    bool laid = job->cloth_count > 0;
    for (size_t i = 0; i < job->cloth_count; i++)
        laid = laid && job->cloths[i].laid_count > 0;
    if (laid)
        bench_need_laying(b);
}

static void answer(struct bench *b, const struct form_answer *did)
{
    (void)b;
    (void)did;
}

/* While pieces are still to be cut, back to them; then the same choices and layout on a ticket of its own, of which
 * nothing is cut. */
static bool next(struct bench *b)
{
    struct bench_cut_list list;
    if (bench_cut_list_of(b->frame, b, &list) && list.left) {
        bench_go(b, BENCH_CUT);
        return false;
    }
    bench_open(b, bench_copy(bench_room(b), bench_job(b)));
    bench_go(b, BENCH_PLACING);
    bench_say(b, base_tr("Another copy is begun on a ticket of its own: nothing of it is cut yet."));
    return false;
}

static void says(const struct bench *b, struct arena *a, struct bench_line *line)
{
    struct bench_cut_list list;
    struct bench_lack lack;
    if (bench_first_lack(bench_now(b), false, &lack))
        line->says = lack.brief;
    else if (!b->progress.is_placed || !bench_cut_list_of(a, b, &list))
        line->says = base_tr("after cutting");
    else if (list.left)
        line->says =
            base_arena_print(a, base_tr_count((size_t)list.left, "%d piece is left", "%d pieces are left"), list.left);
    if (line->says)
        return;
    line->says = base_tr("all is cut");
    line->stand = BENCH_DONE;
}

const struct bench_stage bench_finished = {
    .says = says, .open = open_page, .fill = fill, .draw = draw, .answer = answer, .next = next
};
