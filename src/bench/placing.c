/* Placing: the first cloth as it will lie on the table, what is done to lay it there, and the way to the table. */
#include "base/words.h"
#include "bench/cloth_picture.h"
#include "bench/inside.h"
#include "bench/keys.h"
#include "bench/lack.h"

#include <string.h>

enum { GO = 1, MOST_STEPS = 4 };

static const double top = 14, indent = 26, card_height = 68, number_room = 20, between_steps = 8;

/* What is done, in order, by how the cloth is spread; %s: how wide it lies. */
static const char *const steps[][MOST_STEPS] = {
    [CLOTH_SINGLE] = { BASE_TR("Lay the selvedge along its line of light."),
                       BASE_TR("Lay the cut end at the line across it."),
                       BASE_TR("Measure from selvedge to selvedge at both ends: %s."),
                       BASE_TR("Smooth it until it lies flat, and do not stretch it.") },
    [CLOTH_FOLDED] = { BASE_TR("Lay the fold along its line of light."),
                       BASE_TR("Lay the cut end at the line across it."),
                       BASE_TR("Measure from fold to selvedge at both ends: %s."),
                       BASE_TR("Press the fold flat: where it is thick the light is not exact.") },
    [CLOTH_FOLDED_TO] = { BASE_TR("Lay the fold along its line of light."),
                          BASE_TR("Lay the cut end at the line across it."),
                          BASE_TR("Measure from fold to selvedge at both ends: %s."),
                          BASE_TR("Press the fold flat: where it is thick the light is not exact.") },
    [CLOTH_TO_MIDDLE] = { BASE_TR("Lay one fold along its line of light, the selvedges in the middle."),
                          BASE_TR("Lay the cut end at the line across it."),
                          BASE_TR("Measure from fold to fold at both ends: %s."),
                          BASE_TR("Press both folds flat: where they are thick the light is not exact.") },
    [CLOTH_FOLDED_ACROSS] = { BASE_TR("Lay the selvedges, one on the other, along their line of light."),
                              BASE_TR("Lay the cut ends at the line across them."),
                              BASE_TR("Measure from selvedge to selvedge at both ends: %s."),
                              BASE_TR("Press the fold flat: where it is thick the light is not exact.") },
};
static const char *const scrap_steps[MOST_STEPS] = { BASE_TR("Lay it over its outline of light."),
                                                     BASE_TR("Turn it until its grain runs along the line “grain”."),
                                                     BASE_TR("Smooth it until it lies flat, and do not stretch it.") };

/* --- the form ---------------------------------------------------------------------------------------------------- */

static bool has_picture(const struct bench_page *page, struct bench_lying *lying)
{
    const struct job *job = bench_now(page->bench);
    return job_is_finished(job) && bench_lying_of(page->a, job, lying);
}

static bool is_at_table(const struct bench *b)
{
    return b->at_table == BENCH_TO_CUT;
}

static void add_tag(struct bench_page *page)
{
    const char *label = is_at_table(page->bench) ? base_tr("Leave the table") : base_tr("Place the cloth on the table");
    bench_add_tag(page, bench_content(page->p).x + indent, GO, label);
}

/* Where no cloth was told there is nothing to be seen: the way to the table alone. */
static void add_card(struct bench_page *page)
{
    struct bench_box content = bench_content(page->p);
    form_add(&page->form,
             (struct form_item){ .id = GO,
                                 .kind = FORM_CARD,
                                 .box = { content.x + indent, content.y + top, content.width - indent, card_height },
                                 .label = base_tr("Place the cloth on the table"),
                                 .note = base_tr("lines for the fold or selvedge and for the cut end show where") });
}

static void fill(struct bench_page *page)
{
    struct bench_lying lying;
    struct bench_lack lack;
    page->title = base_tr("Place the cloth");
    page->sentence = base_tr("Lay the cloth to the projected lines, the grain true, and see that it lies flat.");
    page->next = base_tr("Next: cut and mark");
    page->key_count = bench_at_table_keys(&page->keys);
    if (bench_first_lack(bench_now(page->bench), false, &lack))
        bench_tell_lack(page, &lack);
    else if (has_picture(page, &lying))
        add_tag(page);
    else
        add_card(page);
}

/* --- what is seen beside it -------------------------------------------------------------------------------------- */

/* One-way cloth is cut at the fold across it (cloth/cloth.h), and lies flat by itself then. */
static const char *step_of(const struct cloth *cloth, int i)
{
    if (cloth->outline.path.count)
        return scrap_steps[i];
    bool is_cut = cloth->spread == CLOTH_FOLDED_ACROSS && cloth->one_way;
    return steps[i == MOST_STEPS - 1 && is_cut ? CLOTH_SINGLE : cloth->spread][i];
}

static double draw_step(struct form_picture *p, double x, double y, const char *number, const char *text)
{
    form_text(p, (struct bench_pt){ x, y }, FORM_LEFT, FORM_NOTE_STRONG, FORM_BLUE, number_room, number);
    size_t lines = form_paragraph(p, (struct bench_pt){ x + number_room, y }, FORM_NOTE, FORM_INK,
                                  BENCH_SIDE_WIDTH - number_room, text);
    return y + (double)lines * form_line_step(FORM_NOTE) + between_steps;
}

/* A number and its unit stay in one line: between them U+00A0. */
static const char *unbroken(struct arena *a, const char *text)
{
    const char *blank = strchr(text, ' ');
    if (!blank)
        return text;
    return base_arena_print(a, "%.*s\302\240%s", (int)(blank - text), text, unbroken(a, blank + 1));
}

static void draw_steps(struct bench_page *page, const struct bench_lying *lying, const char *across)
{
    struct bench_box picture = bench_picture_box(page->p);
    const struct cloth *cloth = lying->task.cloth;
    double x = picture.x + picture.width + BENCH_SIDE_GAP, y = picture.y + 12;
    form_text(page->p, (struct bench_pt){ x, y }, FORM_LEFT, FORM_HEADING, FORM_INK, BENCH_SIDE_WIDTH,
              bench_material(bench_now(page->bench)->cloths[0].material));
    y += 4 + form_line_step(FORM_NOTE) *
                 (1 + (double)form_paragraph(page->p, (struct bench_pt){ x, y + 22 }, FORM_NOTE, FORM_INK_2,
                                             BENCH_SIDE_WIDTH, base_tr(cloth_spread_name(cloth->spread))));
    y += between_steps;
    for (int i = 0; i < MOST_STEPS && step_of(cloth, i); i++)
        y = draw_step(page->p, x, y, base_arena_print(page->a, "%d", i + 1),
                      base_arena_print(page->a, base_tr(step_of(cloth, i)), unbroken(page->a, across)));
}

static void draw(struct bench_page *page)
{
    struct bench_lying lying;
    if (!has_picture(page, &lying))
        return;
    struct bench_box picture = bench_picture_box(page->p);
    const char *across = bench_length(page->a, bench_width_lying(&lying), page->bench->manner.unit);
    bench_draw_cloth(page->p, picture, &lying, across);
    form_paragraph(page->p, (struct bench_pt){ picture.x, picture.y + picture.height + 18 }, FORM_SMALL, FORM_INK_2,
                   picture.width, base_tr("Blue: lines of light. You stand on the near side; not true to scale here."));
    draw_steps(page, &lying, across);
}

/* --- what she did ------------------------------------------------------------------------------------------------ */

static void answer(struct bench *b, const struct form_answer *did)
{
    if (did->did != FORM_PRESSED)
        return;
    if (is_at_table(b))
        b->effects.leave = true;
    else
        b->effects.to = BENCH_TO_CUT;
}

static void says(const struct bench *b, struct arena *a, struct bench_line *line)
{
    struct bench_lack lack;
    (void)a;
    if (!b->progress.is_placed) {
        line->says = bench_first_lack(bench_now(b), false, &lack) ? lack.brief
                     : bench_now(b)->has_table                    ? base_tr("still to be placed")
                                                                  : base_tr("table set-up first");
        return;
    }
    line->says = base_tr("the cloth is placed");
    line->stand = BENCH_DONE;
}

const struct bench_stage bench_placing = { .says = says, .fill = fill, .draw = draw, .answer = answer };
