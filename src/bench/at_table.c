/* The stages that are worked at the table: what is done there, where it stands, and the way to it. */
#include "bench/inside.h"

enum { GO = 1, OPEN };

static const double indent = 26, card_height = 68, card_step = 84, top = 14;

static const struct form_key keys[] = { { "Tab", "choose" }, { "Enter", "go there" }, { "F12", "to the table" } };

struct card {
    int id;
    const char *label, *note;
    bool unfinished; /* it can be pressed while pieces cannot be drafted yet */
};

/* Page titles, sentences and what can be pressed. */
static const struct page {
    const char *title, *sentence, *next;
    struct card cards[2];
    int card_count;
} set_up = { "Table set-up",
             "The light is measured against your cutting mat, so that every line is as long as it should be.",
             "Next: placing",
             { { GO, "Set up the table", "crosses of light on the mat, one at a time: say where each one falls", true },
               { OPEN, "Use a table set-up that is there", "a file from an earlier day, while nothing was moved",
                 true } },
             2 },
  placing = { "Place the cloth",
              "Lay the cloth to the projected lines, the grain true, and see that it lies flat.",
              "Next: cut and mark",
              { { GO, "Place the cloth on the table", "lines for the fold or selvedge and for the cut end show where",
                  false } },
              1 };

static void fill_from(struct bench_page *page, const struct page *words)
{
    const struct job *job = bench_now(page->bench);
    struct bench_box content = bench_content(page->p);
    bool ready = job_is_finished(job);
    page->title = words->title;
    page->sentence = words->sentence;
    page->next = words->next;
    page->keys = keys;
    page->key_count = sizeof keys / sizeof keys[0];
    for (int i = 0; i < words->card_count; i++) {
        const struct card *card = &words->cards[i];
        bool usable = ready || card->unfinished;
        form_add(&page->form,
                 (struct form_item){ .id = card->id,
                                     .kind = FORM_CARD,
                                     .state = usable ? FORM_PLAIN : FORM_NOT_NOW,
                                     .box = { content.x + indent, content.y + top + i * card_step,
                                              content.width - indent, card_height },
                                     .label = card->label,
                                     .note = usable ? card->note : "choose pattern, view and size first" });
    }
}

static void fill_set_up(struct bench_page *page)
{
    fill_from(page, &set_up);
}

static void fill_placing(struct bench_page *page)
{
    fill_from(page, &placing);
}

/* --- the table that is there ---------------------------------------------------------------------------------------
 */

static void draw_figure_of(struct bench_page *page, double x, double y, const char *figure, const char *words)
{
    double width = form_width(page->p->type, FORM_FIGURE, figure);
    form_text(page->p, (struct bench_pt){ x, y }, FORM_LEFT, FORM_FIGURE, FORM_BLUE, 0, figure);
    form_text(page->p, (struct bench_pt){ x + width + 12, y }, FORM_LEFT, FORM_LABEL, FORM_INK, 0, words);
}

static void draw_set_up(struct bench_page *page)
{
    const struct job *job = bench_now(page->bench);
    struct bench_box content = bench_content(page->p);
    double x = content.x + indent, y = content.y + top + 2 * card_step + 24;
    if (!job->has_table) {
        form_text(page->p, (struct bench_pt){ x, y }, FORM_LEFT, FORM_HEADING, FORM_INK, 0, "No table set-up yet");
        form_paragraph(
            page->p, (struct bench_pt){ x, y + 22 }, FORM_NOTE, FORM_INK_2, content.width - indent,
            "Let the lamp warm up for 15 minutes first: the picture moves a little while it does. Do not look "
            "into the lens.");
        return;
    }
    form_text(page->p, (struct bench_pt){ x, y }, FORM_LEFT, FORM_HEADING, FORM_INK, content.width - indent,
              base_arena_print(page->a, "%s, set up on %s", job->table.name, job->table.made));
    form_text(page->p, (struct bench_pt){ x, y + 22 }, FORM_LEFT, FORM_NOTE, FORM_INK_2, content.width - indent,
              job->table.sample ? "A sample: nothing of it was measured on your table."
                                : base_arena_print(page->a, "from %zu readings", job->table.readings));
    if (!job->table.sample)
        draw_figure_of(page, x, y + 84, base_arena_print(page->a, "%.1f mm", job->table.worst_mm),
                       "is the reading that fits worst out by");
}

/* --- what she did --------------------------------------------------------------------------------------------------
 */

static void go_to(struct bench *b, enum bench_way way, const struct form_answer *did)
{
    if (did->did != FORM_PRESSED)
        return;
    if (did->id == OPEN)
        bench_go(b, BENCH_FILES);
    else
        b->effects.to = way;
}

static void answer_set_up(struct bench *b, const struct form_answer *did)
{
    go_to(b, BENCH_TO_SET_UP, did);
}

static void answer_placing(struct bench *b, const struct form_answer *did)
{
    go_to(b, BENCH_TO_CUT, did);
}

static void says_set_up(const struct bench *b, struct arena *a, struct bench_line *line)
{
    const struct job *job = bench_now(b);
    (void)a;
    if (!job->has_table)
        return;
    line->says = job->table.sample ? "a sample only" : job->table.made;
    line->mood = job->table.sample ? FORM_TO_DO : FORM_PLAIN;
    line->stand = job->table.sample ? BENCH_TO_DO : BENCH_DONE;
}

const struct bench_stage bench_set_up = {
    .says = says_set_up, .fill = fill_set_up, .draw = draw_set_up, .answer = answer_set_up
};
static void says_placing(const struct bench *b, struct arena *a, struct bench_line *line)
{
    (void)a;
    if (!b->progress.is_placed)
        return;
    line->says = "the cloth is placed";
    line->stand = BENCH_DONE;
}

const struct bench_stage bench_placing = { .says = says_placing, .fill = fill_placing, .answer = answer_placing };
