/* The table set-up: how true the one that is there is, and the way to making one. */
#include "base/file.h"
#include "base/words.h"
#include "bench/day.h"
#include "bench/inside.h"
#include "bench/keys.h"
#include "bench/light_picture.h"

#include <math.h>
#include <string.h>

enum { GO = 1, LAST, OPEN, SAMPLE, LEAVE };

static const double indent = 26, card_height = 60, card_step = 72, top = 10, words_below = 40;

/* What can be pressed. */
struct card {
    int id;
    const char *label, *note;
};

static const struct card set_up = { GO, BASE_TR("Set up the table"),
                                    BASE_TR("crosses of light on the mat, one at a time: say where each one falls") };
static const struct card open_one = { OPEN, BASE_TR("Use a table set-up that is there"),
                                      BASE_TR("a file from an earlier day, while nothing was moved") };

enum { CARDS = 2 };

/* How long the lamp has to warm up still; NULL: the program has shown it nothing yet. */
static const char *warm_up(const struct bench_page *page)
{
    const struct bench_lamp *lamp = &page->bench->lamp;
    if (!lamp->since)
        return NULL;
    if (lamp->left_min <= 0)
        return base_arena_print(page->a, base_tr("The light has been on since %s: the lamp is warm."), lamp->since);
    return base_arena_print(
        page->a,
        base_tr_count((size_t)lamp->left_min,
                      "The light has been on since %s. Let the lamp warm up: %d minute of 15 is left.",
                      "The light has been on since %s. Let the lamp warm up: %d minutes of 15 are left."),
        lamp->since, lamp->left_min);
}

static bool warms_up(const struct bench_lamp *lamp)
{
    return lamp->since && lamp->left_min > 0;
}

/* A set-up that was left before its end; NULL: there is none. */
static const char *read_so_far(struct arena *a, const struct bench_lamp *lamp)
{
    return lamp->read ? base_arena_print(a, base_tr("%d of %d crosses read"), lamp->read, lamp->of) : NULL;
}

/* The day of the one that was made last; NULL: there is none, or it cannot be read. */
static const char *made_last(const struct bench_page *page)
{
    const char *path = page->bench->own_table;
    struct calibration_table table;
    struct err_list *ignored = base_err_list_create();
    bool good = path && base_file_exists(path) && calibration_table_read(page->a, path, &table, ignored);
    base_err_list_destroy(ignored);
    return good ? bench_day_short(page->a, table.made) : NULL;
}

static struct card worded(struct card card)
{
    return (struct card){ card.id, base_tr(card.label), base_tr(card.note) };
}

static struct card last_of(const struct bench_page *page, const char *made)
{
    return (struct card){ LAST, base_tr("Use the last table set-up"),
                          base_arena_print(page->a, base_tr("of %s, while neither projector nor mat was moved since"),
                                           made) };
}

/* Of a ticket with another table than that one, what is pressed to take it, with its day. */
static const char *last_tag(const struct bench_page *page)
{
    const char *made = made_last(page);
    const struct calibration_table *table = &bench_now(page->bench)->table;
    bool same = made && !table->sample && strcmp(bench_day_short(page->a, table->made), made) == 0;
    return made && !same ? base_arena_print(page->a, base_tr("Last table set-up, of %s"), made) : NULL;
}

static void add_cards(struct bench_page *page)
{
    struct bench_box content = bench_content(page->p);
    const char *begun = read_so_far(page->a, &page->bench->lamp);
    const char *made = made_last(page);
    const struct card cards[CARDS] = { worded(set_up), made ? last_of(page, made) : worded(open_one) };
    for (int i = 0; i < CARDS; i++)
        form_add(&page->form, (struct form_item){ .id = cards[i].id,
                                                  .kind = FORM_CARD,
                                                  .box = { content.x + indent, content.y + top + i * card_step,
                                                           content.width - indent, card_height },
                                                  .label = cards[i].label,
                                                  .note = cards[i].note });
    if (begun)
        page->form.items[0].note = base_arena_print(page->a, base_tr("%s: it goes on from there"), begun);
}

/* What is done seldom stands at the foot. */
static void add_ways(struct bench_page *page, double x)
{
    add_cards(page);
    if (form_find(&page->form, LAST))
        x = bench_add_tag(page, x, OPEN, base_tr(open_one.label));
    bench_add_tag(page, x, SAMPLE, base_tr("Try it on a sample table"));
}

static void add_ways_to_another(struct bench_page *page, double x)
{
    const char *last = last_tag(page);
    x = bench_add_tag(page, x, GO, base_tr(set_up.label));
    if (last)
        x = bench_add_tag(page, x, LAST, last);
    bench_add_tag(page, x, OPEN, last ? base_tr("From a file") : base_tr(open_one.label));
}

/* Whether the crosses are read at the table now. */
static bool is_at_table(const struct bench *b)
{
    return b->at_table == BENCH_TO_SET_UP;
}

static const char *sentence_of(const struct bench_page *page)
{
    bool said_below = !is_at_table(page->bench) && !bench_now(page->bench)->has_table;
    if (warms_up(&page->bench->lamp) && !said_below)
        return warm_up(page);
    return is_at_table(page->bench)
               ? base_tr("The crosses are read at the table now: the one in hand is blue here, too.")
               : base_tr(
                     "The light is measured against your cutting mat, so that every line is as long as it should be.");
}

/* With a table the cards make room for its picture: what can be pressed stands below it as tags. */
static void fill(struct bench_page *page)
{
    double x = bench_content(page->p).x + indent;
    page->title = base_tr("Table set-up");
    page->sentence = sentence_of(page);
    page->next = base_tr("Next: placing");
    page->key_count = bench_at_table_keys(&page->keys);
    if (is_at_table(page->bench))
        bench_add_tag(page, x, LEAVE, base_tr("Leave the table"));
    else if (!bench_now(page->bench)->has_table)
        add_ways(page, x);
    else
        add_ways_to_another(page, x);
}

/* --- the table that is there ---------------------------------------------------------------------------------------
 */

static double row_below(struct bench_page *page, double y, const char *what, const char *amount)
{
    struct bench_box light = bench_picture_box(page->p);
    double x = light.x + light.width + BENCH_SIDE_GAP;
    double room = BENCH_SIDE_WIDTH - form_width(page->p->type, FORM_STRONG, amount) - 10;
    form_text(page->p, (struct bench_pt){ x, y }, FORM_LEFT, FORM_NOTE, FORM_INK_2, room,
              form_cut_text(page->p, FORM_NOTE, room, what));
    form_text(page->p, (struct bench_pt){ x + BENCH_SIDE_WIDTH, y }, FORM_RIGHT, FORM_STRONG, FORM_INK, 0, amount);
    return y + 24;
}

static double heading_below(struct bench_page *page, double y, const char *words)
{
    struct bench_box light = bench_picture_box(page->p);
    struct bench_pt at = { light.x + light.width + BENCH_SIDE_GAP, y };
    size_t rows = form_paragraph(page->p, at, FORM_HEADING, FORM_INK, BENCH_SIDE_WIDTH, words);
    return y + 26 + form_line_step(FORM_HEADING) * (double)(rows - 1);
}

/* In mm whatever she measures in: small things are. */
static const char *off_by(struct arena *a, double mm)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(a, units_print_length(text, round(10 * mm) / 10, UNITS_MM));
}

/* It grows outwards, so that it is worst at the crosses around. */
static double worst_measured_mm(const struct calibration_table *table)
{
    double worst = 0;
    for (size_t i = 0; i < table->doubt.hull_count; i++)
        worst = fmax(worst, calibration_doubt_place_mm(&table->map, &table->doubt, table->doubt.hull[i]));
    return worst;
}

static double draw_doubts(struct bench_page *page, const struct calibration_table *table, double y)
{
    struct px_pt middle = { table->map.width_px / 2.0, table->map.height_px / 2.0 }, worst;
    double most = calibration_doubt_worst_mm(&table->map, &table->doubt, &worst);
    y = heading_below(page, y, base_tr("A place may be off by"));
    y = row_below(page, y, base_tr("in the middle"),
                  off_by(page->a, calibration_doubt_place_mm(&table->map, &table->doubt, middle)));
    y = row_below(page, y, base_tr("within the crosses"), off_by(page->a, worst_measured_mm(table)));
    return row_below(page, y, base_tr("at the light's edge"), off_by(page->a, most)) + 14;
}

static double draw_checked(struct bench_page *page, const struct calibration_table *table, double y)
{
    if (!table->checked_count)
        return y;
    y = heading_below(page, y, base_tr("Checked with a tape"));
    const struct calibration_checked *line = &table->checked[table->checked_count - 1];
    enum units_length unit = page->bench->manner.unit;
    char drawn[UNITS_TEXT];
    units_print_length(drawn, line->drawn_mm, unit);
    return row_below(page, y, base_arena_print(page->a, base_tr("%s long: out by"), drawn),
                     off_by(page->a, fabs(line->taped_mm - line->drawn_mm))) +
           14;
}

static void draw_side(struct bench_page *page, const struct calibration_table *table)
{
    struct bench_box light = bench_picture_box(page->p);
    double x = light.x + light.width + BENCH_SIDE_GAP, y = light.y + 12;
    if (table->has_doubt && !table->sample)
        y = draw_doubts(page, table, y);
    y = draw_checked(page, table, y);
    y = heading_below(page, y, table->name);
    y = row_below(page, y, base_tr("set up on"), bench_day_short(page->a, table->made));
    y = row_below(page, y, base_tr("readings"), base_arena_print(page->a, "%zu", table->readings));
    if (!table->sample)
        y = row_below(page, y, base_tr("the worst is out by"), off_by(page->a, table->worst_mm));
    if (table->stickers.count)
        y = row_below(page, y, base_tr("check stickers"), base_arena_print(page->a, "%d", table->stickers.count));
    if (table->sample)
        form_paragraph(page->p, (struct bench_pt){ x, y + 6 }, FORM_NOTE, FORM_AMBER, BENCH_SIDE_WIDTH,
                       base_tr("A sample: nothing of it was measured on your table. Set up your own before you cut."));
}

static void draw_no_table(struct bench_page *page)
{
    struct bench_box content = bench_content(page->p);
    const char *begun = read_so_far(page->a, &page->bench->lamp), *warm = warm_up(page);
    double x = content.x + indent, y = content.y + top + 2 * card_step + 16, width = content.width - indent;
    form_text(page->p, (struct bench_pt){ x, y }, FORM_LEFT, FORM_HEADING, FORM_INK, 0,
              begun ? base_tr("A table set-up is begun") : base_tr("No table set-up yet"));
    y += 20;
    y += form_line_step(FORM_NOTE) *
         (double)form_paragraph(page->p, (struct bench_pt){ x, y }, FORM_NOTE, FORM_INK_2, width,
                                warm ? warm
                                     : base_tr("Let the lamp warm up for 15 minutes first: the picture moves a little "
                                               "while it does."));
    double foot = content.y + content.height - BENCH_TAG_HEIGHT - 10;
    bench_draw_cautions_ever(page->p, (struct bench_box){ x, y + 6, width, foot - y - 6 });
}

/* What the table shows while it is set up. */
static void draw_crosses(struct bench_page *page)
{
    const struct bench_glance *glance = &page->bench->glance;
    struct bench_box content = bench_content(page->p);
    struct bench_box box = { content.x, content.y + top, content.width,
                             content.height - top - BENCH_TAG_HEIGHT - words_below };
    if (!glance->count) {
        form_paragraph(page->p, (struct bench_pt){ box.x + indent, box.y + 20 }, FORM_NOTE, FORM_INK_2,
                       box.width - indent, base_tr("There are words on the table now: read them there."));
        return;
    }
    double high = bench_draw_glance(page->p, box, glance);
    form_text(page->p, (struct bench_pt){ box.x + box.width / 2, box.y + high + 18 }, FORM_MIDDLE, FORM_SMALL,
              FORM_INK_2, box.width, base_tr("on the table now; not true to scale here"));
}

static void draw(struct bench_page *page)
{
    const struct calibration_table *table = &bench_now(page->bench)->table;
    if (is_at_table(page->bench)) {
        draw_crosses(page);
        return;
    }
    if (!bench_now(page->bench)->has_table) {
        draw_no_table(page);
        return;
    }
    struct bench_box light = bench_picture_box(page->p);
    struct bench_pt below = { light.x, light.y + light.height + 18 };
    bench_draw_light(page->p, light, table);
    draw_side(page, table);
    form_text(page->p, below, FORM_LEFT, FORM_SMALL, FORM_INK_2, light.width / 2,
              table->has_doubt ? base_tr("Lines: a place may be off by so many mm.")
                               : base_tr("How true it is was not kept: set it up anew."));
    if (table->has_doubt)
        form_text(page->p, (struct bench_pt){ below.x + light.width, below.y }, FORM_RIGHT, FORM_SMALL, FORM_INK_2,
                  light.width / 2, base_tr("Hatched: not measured."));
}

/* --- what she did --------------------------------------------------------------------------------------------------
 */

static void answer(struct bench *b, const struct form_answer *did)
{
    if (did->did != FORM_PRESSED)
        return;
    if (did->id == LEAVE)
        b->effects.leave = true;
    else if (did->id == LAST)
        bench_open_file(b, b->own_table);
    else if (did->id == OPEN)
        bench_go(b, BENCH_FILES);
    else if (did->id == SAMPLE)
        b->effects.wants_sample = true;
    else
        b->effects.to = BENCH_TO_SET_UP;
}

static const char *open_text(struct arena *a, const struct bench_lamp *lamp)
{
    if (!warms_up(lamp))
        return base_tr("still to be set up");
    return base_arena_print(
        a, base_tr_count((size_t)lamp->left_min, "warming up: %d minute left", "warming up: %d minutes left"),
        lamp->left_min);
}

static void says(const struct bench *b, struct arena *a, struct bench_line *line)
{
    const struct job *job = bench_now(b);
    line->says = read_so_far(a, &b->lamp);
    if (!line->says && !job->has_table)
        line->says = open_text(a, &b->lamp);
    line->mood = line->says ? FORM_TO_DO : FORM_PLAIN;
    line->stand = b->lamp.read ? BENCH_TO_DO : BENCH_NOT_BEGUN;
    if (!job->has_table)
        return;
    line->says = job->table.sample ? base_tr("a sample only") : bench_day(a, job->table.made);
    line->mood = job->table.sample ? FORM_TO_DO : FORM_PLAIN;
    line->stand = job->table.sample ? BENCH_TO_DO : BENCH_DONE;
}

const struct bench_stage bench_set_up = { .says = says, .fill = fill, .draw = draw, .answer = answer };
