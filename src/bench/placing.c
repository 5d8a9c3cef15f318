/* Placing: one of the cloths as it will lie on the table, what is done to lay it there, and the way to the table. */
#include "base/words.h"
#include "bench/cloth_picture.h"
#include "bench/inside.h"
#include "bench/keys.h"
#include "bench/lack.h"
#include "bench/turns.h"
#include "job/cloth.h"

#include <string.h>

enum { GO = 1, MATERIAL, MOST_STEPS = 4 };

static const double top = 14, indent = 26, card_height = 68, number_room = 20, between_steps = 8, row_height = 34;

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

/* --- which cloth ------------------------------------------------------------------------------------------------- */

/* How far a material is. */
enum stand { NO_CLOTH, NO_LAYOUT, TO_PLACE, PLACED, CUT };

static enum stand stand_of(const struct bench *b, enum pattern_cloth material)
{
    const struct job_cloth *cloth = job_find_cloth(bench_now(b), material);
    if (!cloth)
        return NO_CLOTH;
    if (!cloth->laid_count && !cloth->torn.rests)
        return NO_LAYOUT;
    for (size_t i = 0; i < b->progress.cloth_count; i++)
        if (b->progress.cloths[i].material == material && b->progress.cloths[i].is_placed)
            return b->progress.cloths[i].is_cut ? CUT : PLACED;
    return TO_PLACE;
}

/* Those of the view, and which of them is shown. */
struct cloths {
    enum pattern_cloth items[JOB_MATERIALS];
    size_t count, shown;
};

static struct cloths cloths_of(const struct bench *b)
{
    struct cloths cloths = { .count = 0 };
    cloths.count = bench_materials(bench_now(b), cloths.items);
    bool chosen = b->to_place >= 0 && (size_t)b->to_place < cloths.count;
    while (!chosen && cloths.shown + 1 < cloths.count && stand_of(b, cloths.items[cloths.shown]) == CUT)
        cloths.shown++;
    if (chosen)
        cloths.shown = (size_t)b->to_place;
    else if (stand_of(b, cloths.items[cloths.shown]) == CUT)
        cloths.shown = 0;
    return cloths;
}

static enum pattern_cloth shown_of(const struct bench *b)
{
    struct cloths cloths = cloths_of(b);
    return cloths.items[cloths.shown];
}

/* --- the form ---------------------------------------------------------------------------------------------------- */

static bool has_picture(const struct bench_page *page, struct bench_lying *lying)
{
    const struct job *job = bench_now(page->bench);
    enum pattern_cloth material = shown_of(page->bench);
    const struct job_cloth *cloth = job_find_cloth(job, material);
    if (!job_is_finished(job) || !cloth || !bench_lying_of(page->a, job, (size_t)(cloth - job->cloths), lying))
        return false;
    lying->turn = bench_turn_of(page->bench, material);
    return true;
}

static bool is_at_table(const struct bench *b)
{
    return b->at_table == BENCH_TO_CUT;
}

static const char *go_text(const struct bench *b)
{
    static const char *const texts[] = { [NO_CLOTH] = BASE_TR("Tell how wide it is"),
                                         [NO_LAYOUT] = BASE_TR("Lay it out"),
                                         [TO_PLACE] = BASE_TR("Place the cloth on the table"),
                                         [PLACED] = BASE_TR("Go on at the table"),
                                         [CUT] = BASE_TR("To the table") };
    return is_at_table(b) ? base_tr("Leave the table") : base_tr(texts[stand_of(b, shown_of(b))]);
}

static void add_tag(struct bench_page *page)
{
    bench_add_tag(page, bench_content(page->p).x + indent, GO, go_text(page->bench));
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

static void draw_material(struct form_picture *p, const struct form_item *item, struct bench_box box, size_t choice,
                          bool bold)
{
    static void (*const signs[])(struct form_picture *, struct bench_pt) = { [NO_CLOTH] = form_not_begun,
                                                                             [NO_LAYOUT] = form_not_begun,
                                                                             [TO_PLACE] = form_to_do,
                                                                             [PLACED] = form_here,
                                                                             [CUT] = form_done };
    const enum stand *stands = item->of;
    double y = box.y + box.height / 2;
    signs[stands[choice]](p, (struct bench_pt){ box.x + 18, y });
    form_text_fit(p, (struct bench_pt){ box.x + 36, y + form_drop(FORM_LABEL) }, FORM_LEFT,
                  bold ? FORM_STRONG : FORM_LABEL, FORM_NOTE, FORM_INK, box.width - 40, item->choices[choice]);
}

static double side_x(const struct bench_page *page)
{
    struct bench_box picture = bench_picture_box(page->p);
    return picture.x + picture.width + BENCH_SIDE_GAP;
}

/* Each material, above what is done to lay it; where there is but one its name stands there. */
static void add_materials(struct bench_page *page)
{
    struct cloths cloths = cloths_of(page->bench);
    const char **names = base_arena_alloc(page->a, JOB_MATERIALS, sizeof *names);
    enum stand *stands = base_arena_alloc(page->a, JOB_MATERIALS, sizeof *stands);
    for (size_t i = 0; i < cloths.count; i++) {
        names[i] = bench_material(cloths.items[i]);
        stands[i] = stand_of(page->bench, cloths.items[i]);
    }
    if (cloths.count > 1)
        form_add(&page->form, (struct form_item){ .id = MATERIAL,
                                                  .kind = FORM_TILES,
                                                  .box = { side_x(page), bench_picture_box(page->p).y, BENCH_SIDE_WIDTH,
                                                           (double)cloths.count * row_height },
                                                  .columns = 1,
                                                  .choices = names,
                                                  .choice_count = cloths.count,
                                                  .chosen = (int)cloths.shown,
                                                  .draw_tile = draw_material,
                                                  .of = stands });
}

static void fill(struct bench_page *page)
{
    struct bench_lack lack;
    page->title = base_tr("Place the cloth");
    page->sentence = base_tr("Lay the cloth to the projected lines, the grain true, and see that it lies flat.");
    page->next = base_tr("Next: cut and mark");
    page->key_count = bench_at_table_keys(&page->keys);
    if (bench_first_lack(bench_now(page->bench), false, &lack)) {
        bench_tell_lack(page, &lack);
    } else if (!bench_now(page->bench)->cloth_count) {
        add_card(page);
    } else {
        const char *trouble = bench_table_trouble(page->bench, shown_of(page->bench));
        if (trouble)
            page->sentence = trouble;
        add_materials(page);
        add_tag(page);
    }
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

/* Below the names of the materials, or its own; returns where what comes next begins. */
static double draw_head(struct bench_page *page)
{
    struct bench_box picture = bench_picture_box(page->p);
    struct cloths cloths = cloths_of(page->bench);
    if (cloths.count > 1)
        return picture.y + (double)cloths.count * row_height + 24;
    form_text(page->p, (struct bench_pt){ side_x(page), picture.y + 12 }, FORM_LEFT, FORM_HEADING, FORM_INK,
              BENCH_SIDE_WIDTH, bench_material(cloths.items[0]));
    return picture.y + 34;
}

static double draw_note(struct bench_page *page, double y, const char *text)
{
    struct bench_pt at = { side_x(page), y };
    size_t lines = form_paragraph(page->p, at, FORM_NOTE, FORM_INK_2, BENCH_SIDE_WIDTH, text);
    return y + 4 + form_line_step(FORM_NOTE) * (double)lines + between_steps;
}

static void draw_steps(struct bench_page *page, const struct bench_lying *lying, const char *across, double y)
{
    const struct cloth *cloth = lying->task.cloth;
    y = draw_note(page, y, base_tr(cloth_spread_name(cloth->spread)));
    for (int i = 0; i < MOST_STEPS && step_of(cloth, i); i++)
        y = draw_step(page->p, side_x(page), y, base_arena_print(page->a, "%d", i + 1),
                      base_arena_print(page->a, base_tr(step_of(cloth, i)), unbroken(page->a, across)));
}

/* What of it is still to be done before it can be placed; NULL: nothing. */
static const char *lacking(const struct bench *b)
{
    enum stand stand = stand_of(b, shown_of(b));
    return stand == NO_CLOTH    ? base_tr("How wide it is was not told yet.")
           : stand == NO_LAYOUT ? base_tr("It has no layout yet: lay it out first.")
                                : NULL;
}

static void draw(struct bench_page *page)
{
    struct bench_lying lying;
    struct bench_lack lack;
    struct bench_box picture = bench_picture_box(page->p);
    if (bench_first_lack(bench_now(page->bench), false, &lack) || !bench_now(page->bench)->cloth_count)
        return;
    double y = draw_head(page);
    if (lacking(page->bench))
        y = draw_note(page, y, lacking(page->bench));
    if (!has_picture(page, &lying))
        return;
    const char *across = bench_length(page->a, bench_width_lying(&lying), page->bench->manner.unit);
    bench_draw_cloth(page->p, picture, &lying, across);
    form_paragraph(page->p, (struct bench_pt){ picture.x, picture.y + picture.height + 18 }, FORM_SMALL, FORM_INK_2,
                   picture.width, base_tr("Blue: lines of light. You stand on the near side; not true to scale here."));
    if (!lacking(page->bench))
        draw_steps(page, &lying, across, y);
}

/* --- what she did ------------------------------------------------------------------------------------------------ */

static void open_page(struct bench *b)
{
    b->to_place = BENCH_FIRST_OPEN;
}

static void go(struct bench *b)
{
    static const enum pattern_cloth materials[JOB_MATERIALS] = { PATTERN_FABRIC, PATTERN_INTERFACING, PATTERN_LINING };
    enum pattern_cloth material = shown_of(b);
    enum stand stand = stand_of(b, material);
    bool any = bench_now(b)->cloth_count > 0; /* else pieces are cut one by one */
    if (any && stand == NO_CLOTH) {
        bench_show_material(b, material);
        bench_go(b, BENCH_CLOTH);
    } else if (any && stand == NO_LAYOUT) {
        bench_go(b, BENCH_LAYOUT);
    } else {
        b->effects.to = BENCH_TO_CUT;
        b->effects.cloth = any ? &materials[material] : NULL;
    }
}

static void answer(struct bench *b, const struct form_answer *did)
{
    if (did->id == MATERIAL && did->did == FORM_CHOSE)
        b->to_place = did->choice;
    else if (did->did == FORM_PRESSED && is_at_table(b))
        b->effects.leave = true;
    else if (did->did == FORM_PRESSED)
        go(b);
}

/* --- on the ticket ----------------------------------------------------------------------------------------------- */

/* The first that lies in a layout and is not placed, once another one is; JOB_MATERIALS: none. */
static int next_to_place(const struct bench *b)
{
    struct cloths cloths = cloths_of(b);
    for (size_t i = 0; bench_now(b)->cloth_count && i < cloths.count; i++)
        if (stand_of(b, cloths.items[i]) < PLACED)
            return (int)cloths.items[i];
    return JOB_MATERIALS;
}

/* While a layout is still searched for nothing is told of it. */
static bool has_trouble(const struct bench *b)
{
    struct cloths cloths = cloths_of(b);
    for (size_t i = 0; i < cloths.count && !bench_is_working(b); i++)
        if (stand_of(b, cloths.items[i]) == TO_PLACE && bench_table_trouble(b, cloths.items[i]))
            return true;
    return false;
}

static void says(const struct bench *b, struct arena *a, struct bench_line *line)
{
    /* To: on the work ticket, at most 154 u */
    static const char *const next[JOB_MATERIALS] = { BASE_TR("fabric still to be placed"),
                                                     BASE_TR("interfacing to place"), BASE_TR("lining to place") };
    struct bench_lack lack;
    (void)a;
    if (has_trouble(b)) {
        *line = (struct bench_line){ line->name, base_tr("does not fit the light"), BENCH_TO_DO, FORM_TO_DO };
        return;
    }
    if (!b->progress.is_placed) {
        line->says = bench_first_lack(bench_now(b), false, &lack) ? lack.brief
                     : bench_now(b)->has_table                    ? base_tr("still to be placed")
                                                                  : base_tr("table set-up first");
        return;
    }
    int open = next_to_place(b);
    line->says = open < JOB_MATERIALS ? base_tr(next[open]) : base_tr("the cloth is placed");
    line->stand = open < JOB_MATERIALS ? BENCH_TO_DO : BENCH_DONE;
    line->mood = open < JOB_MATERIALS ? FORM_TO_DO : FORM_PLAIN;
}

const struct bench_stage bench_placing = {
    .says = says, .open = open_page, .fill = fill, .draw = draw, .answer = answer
};
