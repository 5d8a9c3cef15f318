/* How the pieces lie on their cloth: found while she watches, moved by hand, and how much cloth that takes. */
#include "app/lay_words.h"
#include "app/sentence.h"
#include "base/words.h"
#include "bench/inside.h"
#include "bench/lack.h"
#include "bench/lay_picture.h"
#include "bench/laying.h"
#include "bench/turns.h"
#include "input/key.h"

#include <math.h>

enum { CLOTH = 1, GO };

static const double figures_height = 106, tiles_height = 28, rests_share = 0.4;

static const struct form_key keys[] = { { BASE_TR_IN("key", "Page Up Down"), BASE_TR("take a piece") },
                                        { BASE_TR_IN("key", "Arrows"), BASE_TR("move") },
                                        { "T", BASE_TR("turn") },
                                        { "B", BASE_TR("butt") },
                                        { "P", BASE_TR("hold") },
                                        { BASE_TR_IN("key", "Space"), BASE_TR("stop, go on") },
                                        { "R", BASE_TR("arrange again") },
                                        { "X", BASE_TR("take off") },
                                        { "O", BASE_TR("turn over") },
                                        { "Z", BASE_TR("undo") } };

/* As help shows them, in the words of the table's own help. */
static const struct form_key all_keys[] = {
    { BASE_TR_IN("key", "Page Up Down"), BASE_TR("take the next or previous piece in hand") },
    { BASE_TR_IN("key", "Arrows"), BASE_TR("move it by 10 mm") },
    { BASE_TR_IN("key", "Shift Arrows"), BASE_TR("by 1 mm") },
    { BASE_TR_IN("key", "Alt Arrows"), BASE_TR("slide it until it touches something") },
    { "B", BASE_TR("butt it against its neighbours") },
    { "T", BASE_TR("turn it end for end") },
    { ", .", BASE_TR("turn it by 1°, off the grain") },
    { "O", BASE_TR("turn it over, where it may lie either way") },
    { "P", BASE_TR("hold it in place (a dot by its name), or let it go") },
    { "X", BASE_TR("take it off the cloth, or lay it on") },
    { "R", BASE_TR("arrange the rest again, about what is held in place") },
    { BASE_TR_IN("key", "Space"), BASE_TR("stop arranging, or go on") },
    { "Z", BASE_TR("undo") },
};

size_t bench_laying_keys(const struct form_key **out)
{
    *out = all_keys;
    return sizeof all_keys / sizeof all_keys[0];
}

/* --- the arranging -------------------------------------------------------------------------------------------------
 */

void bench_end_laying(struct bench *b)
{
    app_arrange_destroy(b->laying.arrange);
    if (b->laying.a)
        base_arena_destroy(b->laying.a);
    b->laying.arrange = NULL;
    b->laying.a = NULL;
}

/* The arranging rests on a copy of the job: the history may move the job itself. */
static void begin_laying(struct bench *b)
{
    bench_end_laying(b);
    struct err_list *errs = base_err_list_create();
    b->laying.a = base_arena_create();
    struct app_arrange_start start = { .job = bench_copy(b->laying.a, bench_job(b)),
                                       .unit = b->manner.unit,
                                       .pool = b->pool,
                                       .cut = &b->progress,
                                       .widths = true,
                                       .wake = b->wake,
                                       .wake_user = b->wake_user };
    b->laying.arrange = app_arrange_create(&start, errs);
    b->laying.of = b->changes;
    if (!b->laying.arrange)
        b->laying.why =
            errs->count
                ? base_arena_copy_text(b->laying.a, app_sentence_short(errs->arena, &errs->items[0], b->manner.unit))
                : base_tr("Nothing can be laid out.");
    base_err_list_destroy(errs);
}

void bench_need_laying(struct bench *b)
{
    struct bench_lack lack;
    b->laying.why = NULL;
    if (bench_first_lack(bench_job(b), true, &lack) || (b->laying.arrange && b->laying.of == b->changes))
        return;
    begin_laying(b);
    if (!bench_is_held(b))
        bench_keep_laying(b);
}

struct app_arrange *bench_laying_now(const struct bench *b)
{
    return b->laying.of == b->changes ? b->laying.arrange : NULL;
}

void bench_keep_laying(struct bench *b)
{
    if (!b->laying.arrange || b->laying.of != b->changes)
        return;
    struct job laid = app_arrange_job(b->laying.arrange, bench_room(b));
    bench_replace(b, bench_copy(bench_room(b), &laid));
    b->laying.of = b->changes;
}

/* --- the page ------------------------------------------------------------------------------------------------------
 */

static void fill(struct bench_page *page)
{
    const struct bench *b = page->bench;
    struct bench_box content = bench_content(page->p);
    struct app_arrange *arrange = bench_laying_now(b);
    struct bench_lack lack;
    page->title = base_tr("Layout");
    page->keys = keys;
    page->key_count = arrange ? sizeof keys / sizeof keys[0] : 0;
    page->next = base_tr("Next: table set-up");
    page->sentence = b->laying.why;
    if (bench_first_lack(bench_now(b), true, &lack))
        bench_tell_lack(page, &lack);
    if (!arrange)
        return;
    struct app_arrange_look look = app_arrange_look(arrange, page->a);
    const struct job *job = bench_job(b);
    const char *trouble = look.searching ? NULL : bench_table_trouble(b, job->cloths[look.cloth].material);
    page->sentence = look.refused    ? look.refused
                     : look.wrong    ? look.wrong
                     : look.left_out ? look.left_out
                     : look.told     ? look.told
                     : look.torn     ? look.torn
                     : look.fused    ? look.fused
                     : trouble       ? trouble
                     : look.searching
                         ? base_tr("All pieces lie with the grain true. Better layouts are still being tried.")
                         : base_tr("All pieces lie with the grain true.");
    if (job->cloth_count < 2)
        return;
    const char **names = base_arena_alloc(page->a, job->cloth_count, sizeof *names);
    for (size_t i = 0; i < job->cloth_count; i++)
        names[i] = bench_material(job->cloths[i].material);
    form_add(&page->form, (struct form_item){ .id = CLOTH,
                                              .kind = FORM_TILES,
                                              .box = { content.x + content.width - 330, 8, 330, tiles_height },
                                              .columns = job->cloth_count,
                                              .gap = 6,
                                              .choices = names,
                                              .choice_count = job->cloth_count,
                                              .chosen = (int)look.cloth });
}

/* Beside each other: how wide, how much of it, and how it is spread where it is not spread alike. */
static void draw_widths(struct bench_page *page, struct bench_box box, const struct app_arrange_look *look)
{
    static const double needs_down = 19, how_down = 36;
    struct form_picture *p = page->p;
    enum units_length unit = page->bench->manner.unit;
    double width = box.width / (double)look->width_count;
    for (size_t i = 0; i < look->width_count; i++) {
        const struct app_lay_width *w = &look->widths[i];
        struct bench_pt at = { box.x + (double)i * width, box.y };
        form_text(p, at, FORM_LEFT, FORM_NOTE, FORM_INK_2, width - 8, bench_length(page->a, w->width_mm, unit));
        at.y += needs_down;
        form_text(p, at, FORM_LEFT, FORM_NOTE_STRONG, FORM_INK, width - 8,
                  w->fits ? app_lay_length(page->a, w->figures.length_mm, unit) : base_tr("does not fit"));
        at.y += how_down - needs_down;
        if (w->fits && w->opened)
            form_text(p, at, FORM_LEFT, FORM_SMALL, FORM_INK_2, width - 8, base_tr("in a single layer"));
    }
}

static void draw_figures(struct bench_page *page, struct bench_box box, const struct app_arrange_look *look)
{
    struct form_picture *p = page->p;
    double middle = box.x + box.width * 0.36;
    form_text(p, (struct bench_pt){ box.x, box.y + 12 }, FORM_LEFT, FORM_HEADING, FORM_INK, 0, base_tr("Needed"));
    form_text(p, (struct bench_pt){ box.x, box.y + 56 }, FORM_LEFT, FORM_FIGURE, FORM_INK, middle - box.x - 10,
              look->needs);
    const char *means = base_arena_print(page->a, base_tr("%s · cloth used: %.0f %%"), look->means, 100 * look->used);
    bool fits = form_width(p->type, FORM_NOTE, means) <= middle - box.x - 10;
    form_paragraph(p, (struct bench_pt){ box.x, box.y + 80 }, fits ? FORM_NOTE : FORM_SMALL, FORM_INK_2,
                   middle - box.x - 10, means);
    if (look->width_count && !look->hand) {
        form_text(p, (struct bench_pt){ middle, box.y + 12 }, FORM_LEFT, FORM_HEADING, FORM_INK, 0,
                  base_tr("On other widths"));
        draw_widths(page, (struct bench_box){ middle, box.y + 36, box.x + box.width - middle, 0 }, look);
        return;
    }
    form_text(p, (struct bench_pt){ middle, box.y + 12 }, FORM_LEFT, FORM_HEADING, look->hand ? FORM_BLUE : FORM_INK, 0,
              look->hand ? base_tr("In hand") : base_tr("By hand"));
    form_paragraph(p, (struct bench_pt){ middle, box.y + 36 }, FORM_NOTE, look->hand ? FORM_INK : FORM_INK_2,
                   box.x + box.width - middle,
                   look->hand
                       ? look->hand
                       : base_tr("Page Down takes a piece in hand: move it, turn it, hold it in place; R arranges the "
                                 "rest again around it."));
}

static void draw_rests(struct bench_page *page, struct bench_box box, const struct app_arrange_look *look)
{
    if (look->rest_count)
        bench_draw_rests(page->p, box, look->rests, look->rest_count);
}

static void draw(struct bench_page *page)
{
    struct app_arrange *arrange = bench_laying_now(page->bench);
    struct app_arrange_look look = arrange ? app_arrange_look(arrange, page->a) : (struct app_arrange_look){ 0 };
    struct bench_box content = bench_content(page->p), picture = content;
    picture.y -= 8;
    if (!look.lay) {
        draw_rests(page, picture, &look);
        return;
    }
    picture.height -= figures_height;
    struct bench_box rests = { picture.x, picture.y + picture.height, picture.width, 0 };
    if (look.rest_count) {
        rests.height = picture.height * rests_share;
        rests.y -= rests.height;
        picture.height -= rests.height;
    }
    double took = bench_draw_lay(page->p, picture, &look, page->bench->manner.unit);
    rests.y = picture.y + took + 8;
    draw_rests(page, rests, &look);
    double y = fmin(rests.y + rests.height + 12, content.y + content.height - figures_height + 10);
    draw_figures(page, (struct bench_box){ content.x, y, content.width, figures_height }, &look);
}

/* Past the last piece, and before the first, the ticket's other pages come. */
static bool leaves(struct app_arrange *arrange, struct input_event e)
{
    if (e.type != INPUT_KEY || e.mods || (e.key != KEY_PAGE_UP && e.key != KEY_PAGE_DOWN))
        return false;
    struct arena *a = base_arena_create();
    struct app_arrange_look look = app_arrange_look(arrange, a);
    size_t count = look.lay ? look.lay->task->item_count : 0;
    base_arena_destroy(a);
    return e.key == KEY_PAGE_UP ? look.in_hand >= count : !count || look.in_hand + 1 == count;
}

/* Keys that the form does not need are those of arranging, unless the table has it in hand. */
static bool press(struct bench *b, struct input_event e)
{
    struct app_arrange *arrange = bench_laying_now(b);
    bool own = e.key == KEY_TAB || e.key == KEY_F1 || e.key == KEY_CHAR + 'h' || e.key == KEY_F2 || e.key == KEY_F3 ||
               e.key == KEY_ENTER || (e.mods & MOD_CTRL && e.key == KEY_CHAR + 'q') || e.key == KEY_F12;
    if (!arrange || own || bench_is_held(b))
        return false;
    bool ends = leaves(arrange, e);
    if (ends && e.key == KEY_PAGE_UP)
        return false;
    struct app_arrange_effects effects = app_arrange_handle(arrange, e); /* of the last piece: puts it down */
    if (ends)
        return false;
    if (effects.keep)
        bench_keep_laying(b);
    b->effects.redraw = b->effects.redraw || effects.redraw;
    return effects.redraw || effects.keep;
}

static void answer(struct bench *b, const struct form_answer *did)
{
    struct app_arrange *arrange = bench_laying_now(b);
    if (arrange && did->id == CLOTH)
        app_arrange_show_cloth(arrange, (size_t)did->choice);
}

/* --- on the ticket -------------------------------------------------------------------------------------------------
 */

static const char *lack_text(struct arena *a, const struct job_lacking *lack)
{
    /* To: on the work ticket, at most 154 u */
    static const char *const to_lay[JOB_MATERIALS] = { BASE_TR("to lay out"), BASE_TR("interfacing to lay out"),
                                                       BASE_TR("lining to lay out") };
    if (lack->kind == JOB_LACKS_LAYOUT)
        return base_tr(to_lay[lack->material]);
    return base_arena_print(a, base_tr_count(lack->count, "one piece has no place", "%zu pieces have no place"),
                            lack->count);
}

static void says(const struct bench *b, struct arena *a, struct bench_line *line)
{
    const struct job *job = bench_now(b);
    const struct job_lacking *lacks;
    struct bench_lack lack;
    size_t count = bench_lacks(b, &lacks);
    if (bench_first_lack(job, true, &lack)) {
        line->says = lack.brief;
        return;
    }
    line->says = base_tr("laid out");
    line->stand = BENCH_DONE;
    for (size_t i = 0; i < count && line->stand == BENCH_DONE; i++)
        if (lacks[i].stage == JOB_STAGE_LAYOUT) {
            line->says = lack_text(a, &lacks[i]);
            line->stand = BENCH_TO_DO;
            line->mood = FORM_TO_DO;
        }
}

const struct bench_stage bench_layout = {
    .says = says, .open = bench_need_laying, .fill = fill, .draw = draw, .answer = answer, .press = press
};
