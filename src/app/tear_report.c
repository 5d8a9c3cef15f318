#include "app/tear_report.h"

#include "app/columns.h"
#include "app/lay_words.h"
#include "app/torn.h"
#include "base/buffer.h"
#include "base/text.h"
#include "base/words.h"

#include <math.h>

#define SEEN_MM 0.5
#define CLIP_MM 25.0    /* into the selvedge to begin a tear … */
#define CLIP_IN_MM 25.4 /* … about an inch (common practice, no source) */

enum { CELLS = 6 }; /* of a table of strips or of choices */

static const char *length(const struct export_words *w, double mm)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(w->a, units_print_length(text, units_on_tape(mm, w->unit), w->unit));
}

static const char *label_of(const struct export_words *w, const struct tearing_need *need)
{
    return base_text_one_line(w->a, need->piece->label);
}

/* --- the cloth ---------------------------------------------------------------------------------------------------- */

static void add_cloth(struct base_buffer *out, const struct export_words *w, const struct tearing_plan *p)
{
    const struct cloth *cloth = p->task->cloth;
    const char *material = base_text_capital(w->a, base_tr(pattern_cloth_name(p->task->material)));
    bool shrinks = cloth_washed_width(cloth) < cloth->width_mm;
    base_buffer_print(out, "%s", material);
    if (cloth->name)
        base_buffer_print(out, base_tr(": “%s”"), base_text_one_line(w->a, cloth->name));
    base_buffer_print(out, ", ");
    base_buffer_print(out,
                      shrinks ? base_tr("%s wide, %s without selvedges once it is washed\n")
                              : base_tr("%s wide, %s without selvedges\n"),
                      length(w, cloth->width_mm), length(w, cloth_usable_width(cloth)));
}

/* Whether the way that strips run makes a step of what shops cut. */
static bool does_way_matter(const struct tearing_plan *p)
{
    const struct tearing_task *task = p->task;
    return !isnan(p->other_mm) && cloth_to_buy(task->cloth, p->other_mm, task->unit) != p->to_buy_mm;
}

static void add_need(struct base_buffer *out, const struct export_words *w, const struct tearing_plan *p)
{
    const char *needs = app_lay_length(w->a, p->length_mm, w->unit);
    if (isnan(p->spare_mm))
        base_buffer_print(out, base_tr("  This tearing plan needs %s of washed cloth. %s\n"), needs,
                          app_lay_buy(w->a, p->task->cloth, p->to_buy_mm, w->unit));
    else if (p->spare_mm >= 0)
        base_buffer_print(
            out, base_tr("  This tearing plan needs %s of washed cloth; of the %s at hand %s are left over.\n"), needs,
            app_lay_left(w->a, cloth_washed_length(p->task->cloth), w->unit), app_lay_left(w->a, p->spare_mm, w->unit));
    else
        base_buffer_print(out,
                          base_tr("  This tearing plan needs %s of washed cloth; the %s at hand are too little. %s\n"),
                          needs, app_lay_left(w->a, cloth_washed_length(p->task->cloth), w->unit),
                          app_lay_buy(w->a, p->task->cloth, p->to_buy_mm, w->unit));
    base_buffer_print(out, base_tr("  Cloth used: %.0f %%."), 100 * p->used);
    if (does_way_matter(p))
        base_buffer_print(out,
                          p->along ? base_tr(" Strips across the cloth would need %s (--across).")
                                   : base_tr(" Strips along the cloth would need %s (--along)."),
                          app_lay_length(w->a, p->other_mm, w->unit));
    base_buffer_print(out, "\n");
}

/* --- what to do --------------------------------------------------------------------------------------------------- */

static void add_squaring(struct base_buffer *out, const struct export_words *w, const struct app_tearing *t)
{
    double off = t->plan->task->off_square_mm;
    base_buffer_print(
        out,
        base_tr("\n  1  Square the end: at its shortest point snip the selvedge %s deep, tear across to the "
                "other one and snip that.\n"),
        length(w, w->unit == UNITS_IN ? CLIP_IN_MM : CLIP_MM));
    if (t->off_square_told && off > 0)
        base_buffer_print(out, base_tr("     It is %s off square: so much is lost.\n"), length(w, off));
    else if (!t->off_square_told)
        base_buffer_print(out, base_tr("     By how much one selvedge was longer is lost, too, and not counted here "
                                       "(--off-square).\n"));
    base_buffer_print(out, base_tr("  2  Measure the length again: from the torn end %s are needed.\n"),
                      app_lay_length(w->a, t->plan->length_mm - off, w->unit));
}

static void add_tearing(struct base_buffer *out, const struct export_words *w, const struct tearing_plan *p)
{
    const char *one = length(w, p->start_mm + p->strip_length_mm + 2 * p->task->margin_mm);
    if (!p->along) {
        base_buffer_print(
            out, base_tr("  3  Tear off the strips below, each place measured from the torn end: snip, tear across, "
                         "snip.\n"));
        return;
    }
    if (p->start_mm > SEEN_MM)
        base_buffer_print(
            out,
            base_tr("  3  Tear off one length: %s from the torn end, of which the first %s are faulty. Take "
                    "the selvedges off.\n"),
            one, length(w, p->start_mm));
    else
        base_buffer_print(out, base_tr("  3  Tear off one length: %s from the torn end. Take the selvedges off.\n"),
                          one);
    base_buffer_print(out,
                      base_tr("     Tear it along into the strips below, each place measured from the near edge.\n"));
}

static void add_steps(struct base_buffer *out, const struct export_words *w, const struct app_tearing *t)
{
    const struct tearing_task *task = t->plan->task;
    add_squaring(out, w, t);
    add_tearing(out, w, t->plan);
    if (task->margin_mm > 0)
        base_buffer_print(out, base_tr("  4  Press each strip, trim %s off either torn edge, and cut it up.\n"),
                          length(w, task->margin_mm));
    else
        base_buffer_print(out, base_tr("  4  Press each strip, and cut it up.\n"));
    if (task->cloth->one_way)
        base_buffer_print(out, base_tr("     Mark first which way is up, on every strip.\n"));
}

/* --- the strips --------------------------------------------------------------------------------------------------- */

struct row {
    const char *cells[CELLS];
};

struct table {
    const struct export_words *w;
    struct row *rows;
    size_t count, cap;
};

static void add_row(struct table *t, struct row row)
{
    t->rows = base_arena_grow(t->w->a, t->rows, &t->cap, t->count + 1, sizeof *t->rows);
    t->rows[t->count++] = row;
}

static void add_table(struct base_buffer *out, const struct table *t)
{
    size_t widths[CELLS] = { 0 };
    for (size_t i = 0; i < t->count; i++)
        app_columns_widen(widths, t->rows[i].cells, CELLS);
    for (size_t i = 0; i < t->count; i++)
        app_columns_add(out, widths, t->rows[i].cells, CELLS);
}

/* How many equal ones lie beside each other from there on. */
static size_t alike(const struct tearing_strip *s, size_t first)
{
    size_t i = first + 1;
    while (i < s->spot_count && s->spots[i].kind == s->spots[first].kind && s->spots[i].along_mm == 0 &&
           s->spots[first].along_mm == 0)
        i++;
    return i - first;
}

/* "0 in and 26 1/8 in": where each of several equal ones begins. */
static const char *from_text(const struct export_words *w, const struct tearing_spot *spot, size_t count)
{
    const char *first = length(w, spot->across_mm);
    if (count == 1)
        return first;
    const char *second = length(w, count > 2 ? spot[1].across_mm - spot->across_mm : spot[1].across_mm);
    /* To: “0 cm, then every 26 cm”: where equal pieces begin */
    return base_arena_print(w->a, count > 2 ? base_tr("%s, then every %s") : base_tr("%s and %s"), first, second);
}

static void add_spots(struct table *t, const struct tearing_plan *p, const struct tearing_strip *s)
{
    const struct export_words *w = t->w;
    for (size_t i = 0, count; i < s->spot_count; i += count) {
        const struct tearing_spot *spot = &s->spots[i];
        const struct tearing_need *need = &p->needs[spot->kind];
        struct export_extent cut = { need->width_mm, need->height_mm };
        count = alike(s, i);
        const char *name = count > 1 ? base_arena_print(w->a, "  %zu × %s", count, app_torn_part_name(w->a, need))
                                     : base_arena_print(w->a, "  %s", app_torn_part_name(w->a, need));
        const char *from = from_text(w, spot, count);
        const char *up = spot->along_mm > SEEN_MM ? length(w, spot->along_mm) : "";
        add_row(t, (struct row){ { name, "", "", from, up, export_extent_text(w, cut) } });
    }
}

/* What is left of a strip, or beside all of them: where it begins, as a rectangle there would. */
static void add_left(struct table *t, const struct tearing_plan *p, int strip)
{
    struct tearing_rest *left;
    size_t count = tearing_left(t->w->a, p, &left);
    for (size_t i = 0; i < count; i++) {
        const struct cloth *c = &left[i].cloth;
        if (left[i].strip != strip || !tearing_is_worth_telling(&left[i]))
            continue;
        bool beside = strip == TEARING_BESIDE;
        vec2 own = p->along ? (vec2){ p->start_mm, beside ? 0 : p->strips[strip].from_mm }
                            : (vec2){ p->strips[strip].from_mm, 0 };
        vec2 at = vec2_sub(left[i].at.min, own);
        double margin = p->task->margin_mm, from = p->along ? at.x - margin : at.y, up = p->along ? at.y : at.x;
        up -= beside ? 0 : margin;
        add_row(t, (struct row){ { beside ? base_tr_in("beside the strips", "beside") : base_tr("  left over"),
                                   beside ? length(t->w, up) : "", "", length(t->w, from),
                                   !beside && up > SEEN_MM ? length(t->w, up) : "",
                                   export_extent_text(t->w, (struct export_extent){ c->width_mm, c->length_mm }) } });
    }
}

static void add_strips(struct base_buffer *out, const struct export_words *w, const struct tearing_plan *p)
{
    struct table t = { .w = w };
    bool along = p->along;
    add_row(&t, (struct row){ { base_tr("strip"), base_tr("tear at"),
                                along ? base_tr_in("heading", "wide") : base_tr_in("heading", "high"),
                                along ? base_tr("from the end") : base_tr("from the edge"), base_tr_in("heading", "up"),
                                base_tr("as cut") } });
    for (size_t i = 0; i < p->strip_count; i++) {
        const struct tearing_strip *s = &p->strips[i];
        const char *at = length(w, s->to_mm);
        if (i ? s->from_mm - p->strips[i - 1].to_mm > SEEN_MM : s->from_mm > SEEN_MM)
            at = base_arena_print(w->a, base_tr("%s and %s"), length(w, s->from_mm), at);
        add_row(&t, (struct row){ { base_arena_print(w->a, "%zu", i + 1), at, length(w, s->size_mm), "", "", "" } });
        add_spots(&t, p, s);
        add_left(&t, p, (int)i);
    }
    add_left(&t, p, TEARING_BESIDE);
    base_buffer_print(out, "\n");
    add_table(out, &t);
}

/* What is said of rests that could be used, and of those that are. */
static const struct rest_words {
    const char *plain, *as_short, *spares;
} rest_words[] = {
    { BASE_TR("Strips leave cloth that other pieces can be cut of (--keep)"),
      BASE_TR("Strips leave cloth that other pieces can be cut of (--keep), as the length at hand does not do for all"),
      BASE_TR("Strips leave cloth that other pieces can be cut of (--keep), which spares about %s") },
    { BASE_TR("Strips leave cloth that other pieces are cut of, each rest by itself"),
      BASE_TR("Strips leave cloth that other pieces are cut of, each rest by itself, as the length at hand does not do "
              "for all"),
      BASE_TR("Strips leave cloth that other pieces are cut of, each rest by itself, which spares about %s") },
};

/* "the rest of strip 2, 30 × 9 in, is used for: Pocket". */
static void add_rests(struct base_buffer *out, const struct export_words *w, const struct app_tearing *t)
{
    bool used = t->plan->rests != NULL;
    if (!t->rests)
        return;
    const struct rest_words *words = &rest_words[used];
    base_buffer_print(out, "\n  ");
    if (t->is_short)
        base_buffer_print(out, "%s", base_tr(words->as_short));
    else if (t->spared_mm > 0)
        base_buffer_print(out, base_tr(words->spares), length(w, t->spared_mm));
    else
        base_buffer_print(out, "%s", base_tr(words->plain));
    base_buffer_print(out, ":\n");
    for (size_t i = 0; i < t->rests->count; i++) {
        const struct tearing_rest *rest = &t->rests->rests[i];
        struct export_extent size = { rest->cloth.width_mm, rest->cloth.length_mm };
        base_buffer_print(
            /* To: “the rest of strip 2, 30 × 9 in, is used for: Pocket” */
            out, used ? base_tr("    %s, %s, is used for: %s\n") : base_tr("    %s, %s, has room for: %s\n"),
            app_torn_rest_name(w->a, rest), export_extent_text(w, size), app_torn_rest_pieces(w->a, rest));
    }
    if (used)
        base_buffer_print(
            out, base_tr("  On the table each of them follows the layout as a cloth of its own (N); --leave-rests "
                         "leaves them alone.\n"));
}

static void add_kept(struct base_buffer *out, const struct app_tearing *t)
{
    if (t->is_kept)
        base_buffer_print(
            out, base_tr("\n  The job keeps this plan: `chalklight lay` lays the rest behind it; --drop takes it "
                         "back.\n"));
}

static void add_others(struct base_buffer *out, const struct export_words *w, const struct tearing_plan *p)
{
    const char *names = "";
    for (size_t i = 0; i < p->other_count; i++)
        names = base_arena_print(w->a, "%s%s%s", names, i ? ", " : "", base_text_one_line(w->a, p->others[i]));
    if (p->other_count)
        base_buffer_print(out, base_tr("\n  No rectangles, to be laid out: %s.\n"), names);
}

/* --- strips longer than needed ------------------------------------------------------------------------------------ */

static const char *gathers_text(const struct export_words *w, struct tearing_gathers g)
{
    char ratio[UNITS_TEXT];
    /* To: “64 in to 32 in (2 : 1)”, of an edge that is gathered */
    return base_arena_print(w->a, base_tr("%s to %s (%s : 1)"), length(w, g.from_mm), length(w, g.to_mm),
                            units_print_decimal(ratio, g.from_mm / g.to_mm, 2));
}

/* "34 in wide, as it is"; with its name where the choice is about several. */
static const char *choice_text(const struct export_words *w, const struct tearing_plan *p,
                               const struct tearing_choice *c, const struct tearing_change *change)
{
    const char *text = base_arena_print(w->a, base_tr("%s wide"), length(w, change->width_mm));
    if (c->kind == TEARING_TRIM)
        text = base_arena_print(w->a, base_tr("%s, as it is"), text);
    if (c->joins)
        text = base_arena_print(w->a, base_tr_count((size_t)c->joins, "%s, %d join", "%s, %d joins"), text, c->joins);
    return c->change_count > 1 ? base_arena_print(w->a, "%s %s", label_of(w, &p->needs[change->need]), text) : text;
}

/* With what it was, where it becomes another. */
static const char *hem_text(const struct export_words *w, const struct tearing_change *change)
{
    const char *is = change->is.hem_mm > 0 ? length(w, change->is.hem_mm) : "";
    if (fabs(change->is.hem_mm - change->was.hem_mm) < SEEN_MM)
        return is;
    return base_arena_print(w->a, base_tr("%s, was %s"), is, length(w, change->was.hem_mm));
}

static const char *needs_text(const struct export_words *w, const struct tearing_choice *c)
{
    /* To: “1.63 m, along”: strips torn along the cloth */
    return base_arena_print(w->a, c->along ? base_tr("%s, along") : base_tr("%s, across"),
                            app_lay_length(w->a, c->length_mm, w->unit));
}

static void add_choice_rows(struct table *t, const struct tearing_plan *p, const struct tearing_choice *c)
{
    const struct export_words *w = t->w;
    for (size_t i = 0; i < c->change_count; i++) {
        const struct tearing_change *change = &c->changes[i];
        add_row(t, (struct row){ { choice_text(w, p, c, change), i ? "" : base_arena_print(w->a, "%d", c->strips),
                                   i ? "" : length(w, c->left_mm), gathers_text(w, change->is), hem_text(w, change),
                                   i ? "" : needs_text(w, c) } });
    }
}

/* "cut panel 28 in wide; cut …", as it is typed. */
static const char *command_text(const struct export_words *w, const struct app_tearing *t,
                                const struct tearing_choice *c)
{
    const char *words = "";
    for (size_t i = 0; i < c->change_count; i++)
        words = base_arena_print(w->a, "%s%scut %s %s wide", words, i ? "; " : "",
                                 t->plan->needs[c->changes[i].need].piece->name, length(w, c->changes[i].width_mm));
    return base_arena_print(w->a, "chalklight alter %s --alter %s", t->job ? base_text_typed(w->a, t->job) : "JOB",
                            base_text_typed(w->a, words));
}

/* The choices for some rectangles: that of trimming them, and others after it. */
static void add_group(struct base_buffer *out, const struct export_words *w, const struct app_tearing *t, size_t first,
                      size_t count)
{
    const struct tearing_choice *trim = &t->choices[first];
    const char *names = "";
    for (size_t i = 0; i < trim->change_count; i++) {
        const char *name = label_of(w, &t->plan->needs[trim->changes[i].need]);
        names = i ? base_arena_print(w->a, base_tr("%s and %s"), names, name) : name;
    }
    struct table rows = { .w = w };
    add_row(&rows, (struct row){ { names, base_tr("strips"), base_tr("left of the strips"), base_tr("gathered"),
                                   base_tr("hem girth"), base_tr("plan needs") } });
    for (size_t i = first; i < first + count; i++)
        add_choice_rows(&rows, t->plan, &t->choices[i]);
    base_buffer_print(out, "\n");
    add_table(out, &rows);
}

static void add_commands(struct base_buffer *out, const struct export_words *w, const struct app_tearing *t)
{
    base_buffer_print(out, base_tr("  Gathers of 1.5 : 1 are light, 2 : 1 usual, 2.5 : 1 full, 3 : 1 very full.\n"));
    base_buffer_print(out, base_tr("  Another width is taken by one of\n"));
    for (size_t i = 0; i < t->choice_count; i++)
        if (t->choices[i].kind == TEARING_FULLER || t->choices[i].kind == TEARING_SPARER)
            base_buffer_print(out, "    %s\n", command_text(w, t, &t->choices[i]));
}

/* Rectangles that can only be trimmed have no choice. */
static void add_choices(struct base_buffer *out, const struct export_words *w, const struct app_tearing *t)
{
    bool any = false;
    for (size_t first = 0, count; first < t->choice_count; first += count) {
        count = 1;
        while (first + count < t->choice_count && t->choices[first + count].kind != TEARING_TRIM)
            count++;
        if (count == 1)
            continue;
        if (!any)
            base_buffer_print(out, base_tr("\n  Strips are longer than needed: trim them, or choose another width.\n"));
        any = true;
        add_group(out, w, t, first, count);
    }
    if (any)
        base_buffer_print(out,
                          base_tr("\n  Strips, and what is left of them, are told as if nothing else lay in them.\n"));
    if (any)
        add_commands(out, w, t);
}

const char *app_tear_title(const struct export_words *w, const struct app_tearing *t)
{
    const struct tearing_task *task = t->plan->task;
    /* To: “Pinafore, view A: 2.30 m of fabric, 150 cm wide” */
    return base_arena_print(w->a, base_tr("%s: %s of %s, %s wide"), t->title,
                            app_lay_length(w->a, t->plan->length_mm, w->unit),
                            base_tr(pattern_cloth_name(task->material)), length(w, task->cloth->width_mm));
}

const char *app_tear_report(const struct export_words *w, const struct app_tearing *t)
{
    struct base_buffer out = { .a = w->a };
    base_buffer_print(&out, base_tr("%s: tearing plan"), base_text_one_line(w->a, t->title));
    base_buffer_print(&out, "\n%s\n\n", base_text_one_line(w->a, t->whom));
    add_cloth(&out, w, t->plan);
    add_need(&out, w, t->plan);
    add_steps(&out, w, t);
    add_strips(&out, w, t->plan);
    add_others(&out, w, t->plan);
    add_rests(&out, w, t);
    add_kept(&out, t);
    add_choices(&out, w, t);
    return base_buffer_text(&out);
}
