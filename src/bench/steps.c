#include "bench/steps.h"

#include "base/words.h"
#include "form/parts.h"

static const double square = 18, words_x = 32, step_height = 42;

static const char *const names[APP_PARTS] = {
    [APP_PART_CUT] = BASE_TR_IN("what is done with a piece", "Cut"),
    [APP_PART_NOTCHES] = BASE_TR_IN("what is done with a piece", "Notches"),
    [APP_PART_MARKS] = BASE_TR_IN("what is done with a piece", "Marks on every layer"),
    [APP_PART_NAME] = BASE_TR_IN("what is done with a piece", "Name on tape"),
};

static const char *name_of(enum app_part part, bool chalks)
{
    if (part == APP_PART_CUT && chalks)
        return base_tr_in("what is done with a piece", "Chalk its outline");
    return base_tr_in("what is done with a piece", names[part]);
}

static bool has(const struct bench_cut_line *line, enum app_part part)
{
    return (part != APP_PART_NOTCHES || line->snips) && (part != APP_PART_MARKS || line->kinds);
}

static const char *note_of(struct arena *a, const struct bench_cut_line *line, enum app_part part)
{
    if (!has(line, part))
        return base_tr("none on this piece");
    switch (part) {
    case APP_PART_CUT:
        return line->copies;
    case APP_PART_NOTCHES:
        return base_arena_print(a, base_tr_count(line->snips, "%zu snip", "%zu snips"), line->snips);
    case APP_PART_MARKS:
        return line->kinds;
    case APP_PART_NAME:
    case APP_PARTS:
        break;
    }
    return base_tr("on the wrong side");
}

static double height_of(const struct form_picture *p, double width, const char *note)
{
    size_t rows = form_paragraph_lines(p, FORM_SMALL, width - words_x, note);
    return step_height + form_line_step(FORM_SMALL) * (double)(rows - 1);
}

double bench_steps_height(const struct form_picture *p, double width, const struct bench_cut_line *line)
{
    double height = 0;
    for (int part = 0; part < APP_PARTS; part++)
        height += height_of(p, width, note_of(p->a, line, (enum app_part)part));
    return height;
}

static void draw_square(struct form_picture *p, struct bench_pt at, bool done, bool here, bool none)
{
    struct bench_box box = { at.x, at.y, square, square };
    form_frame_box(p, box, here ? 3 : 1.5, here ? FORM_BLUE : none ? FORM_HAIR : FORM_LINE);
    if (done && !none)
        form_tick_mark(p, (struct bench_pt){ at.x + square / 2, at.y + square / 2 }, 14, 2.6, FORM_GREEN);
}

void bench_draw_steps(struct form_picture *p, struct bench_box box, const struct bench_cut_line *line,
                      const struct app_progress *progress)
{
    bool all = line->cut >= line->wanted, known = line->in_hand && progress->part < APP_PARTS && !all;
    for (int i = 0; i < APP_PARTS; i++) {
        enum app_part part = (enum app_part)i;
        bool none = !has(line, part), here = known && progress->part == part;
        const char *note = note_of(p->a, line, part);
        draw_square(p, (struct bench_pt){ box.x, box.y + 4 }, all || (known && part < progress->part), here, none);
        form_text_fit(p, (struct bench_pt){ box.x + words_x, box.y + 14 }, FORM_LEFT,
                      here ? FORM_NOTE_STRONG : FORM_NOTE, FORM_SMALL, none ? FORM_INK_2 : FORM_INK,
                      box.width - words_x, name_of(part, known && progress->chalks));
        form_paragraph(p, (struct bench_pt){ box.x + words_x, box.y + 31 }, FORM_SMALL, FORM_INK_2, box.width - words_x,
                       note);
        box.y += height_of(p, box.width, note);
    }
}
