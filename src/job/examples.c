/* Alterations that a job's own pattern can have, in words: what to type is seen, not learned. */
#include "job/alterations.h"
#include "job/fitting.h"
#include "job/phrases.h"

#include <string.h>

/* So much as a person might alter there, in either measure (own choice). */
static const struct {
    double mm, in_mm;
} amounts[JOB_EXAMPLES] = { { 30, 25.4 }, { 20, 19.05 }, { 10, 12.7 }, { 5, 6.35 } };

struct examples {
    struct arena *a;
    const struct pattern *pattern;
    const bool *is_cut;
    enum units_length unit;
    const char **out;
    size_t count;
};

/* The words with a length behind them and what follows it. */
static void add(struct examples *e, const char *words, const char *after)
{
    char length[UNITS_TEXT];
    double mm = e->unit == UNITS_IN ? amounts[e->count].in_mm : amounts[e->count].mm;
    const char *kept = base_arena_print(e->a, "%s by %s%s", words, units_print_length(length, mm, e->unit), after);
    e->out[e->count++] = job_phrase_shown(e->a, e->pattern, kept);
}

static const char *line_of(const struct examples *e)
{
    for (size_t i = 0; i < e->pattern->piece_count; i++)
        for (size_t line = 0; e->is_cut[i] && line < e->pattern->pieces[i].line_count; line++)
            if (e->pattern->pieces[i].lines[line].name)
                return e->pattern->pieces[i].lines[line].name;
    return NULL;
}

static bool has_spread(const struct examples *e)
{
    for (size_t i = 0; i < e->pattern->piece_count; i++)
        if (e->is_cut[i] && e->pattern->pieces[i].bust_spread)
            return true;
    return false;
}

/* How many rows of the chart have a point on the seam, where pieces that are cut are sewn, and the last of them. */
static int levels_of(const struct examples *e, const struct pattern_seam *seam, int *last)
{
    const struct pattern_edge_ref *ref = seam->sides[0].edges;
    int count = 0;
    for (int row = 0; seam->sides[0].count && e->is_cut[ref->piece] && row < (int)e->pattern->row_count; row++)
        if (draft_edge_has_level(&e->pattern->pieces[ref->piece], ref->edge, row)) {
            *last = row;
            count++;
        }
    return count;
}

/* A side seam has more levels than a shoulder's. */
static const struct pattern_seam *seam_of(const struct examples *e, int *row)
{
    const struct pattern_seam *found = NULL;
    int most = 0;
    for (size_t i = 0; i < e->pattern->seam_count; i++) {
        int last, count = levels_of(e, &e->pattern->seams[i], &last);
        if (count <= most)
            continue;
        found = &e->pattern->seams[i];
        most = count;
        *row = last;
    }
    return found;
}

static void add_seam(struct examples *e)
{
    int row = 0;
    const struct pattern_seam *seam = seam_of(e, &row);
    if (!seam)
        return;
    const char *name = base_arena_copy_bytes(e->a, seam->name, strcspn(seam->name, ","));
    const char *where = base_arena_print(e->a, "%s at %s", name, e->pattern->chart[row].name);
    add(e, base_arena_print(e->a, "take in %s", where), " each side");
    add(e, base_arena_print(e->a, "let out %s", where), "");
}

size_t job_alteration_examples(struct arena *a, const struct job *job, enum units_length unit,
                               const char *out[JOB_EXAMPLES])
{
    struct examples e = { a, job->pattern, job_cut_pieces(a, job), unit, out, 0 };
    const char *line = line_of(&e);
    if (line)
        add(&e, base_arena_print(a, "lengthen %s", line), "");
    if (has_spread(&e))
        add(&e, "fuller bust", "");
    add_seam(&e);
    return e.count;
}

/* --- to choose from ---------------------------------------------------------------------------------------------- */

struct choices {
    struct examples of;
    struct job_alteration_choice *items;
    size_t count;
};

static const char sample[] = "7 mm"; /* stands where her length will, for the words around it */

static void add_choice(struct choices *c, const char *words)
{
    struct arena *a = c->of.a;
    for (size_t i = 0; i < c->count; i++)
        if (strcmp(c->items[i].words, words) == 0)
            return;
    const char *shown = job_phrase_shown(a, c->of.pattern, base_arena_print(a, "%s by %s", words, sample));
    const char *at = strstr(shown, sample);
    if (at)
        shown = base_arena_print(a, "%.*s__%s", (int)(at - shown), shown, at + strlen(sample));
    c->items[c->count++] = (struct job_alteration_choice){ words, shown };
}

static void add_line_choices(struct choices *c, const struct pattern_piece *piece)
{
    for (size_t i = 0; i < piece->line_count; i++)
        if (piece->lines[i].name) {
            add_choice(c, base_arena_print(c->of.a, "lengthen %s", piece->lines[i].name));
            add_choice(c, base_arena_print(c->of.a, "shorten %s", piece->lines[i].name));
        }
}

static void add_seam_choices(struct choices *c, const struct pattern_seam *seam)
{
    const struct pattern_edge_ref *ref = seam->sides[0].edges;
    const char *name = base_arena_copy_bytes(c->of.a, seam->name, strcspn(seam->name, ","));
    for (int row = 0; seam->sides[0].count && c->of.is_cut[ref->piece] && row < (int)c->of.pattern->row_count; row++)
        if (draft_edge_has_level(&c->of.pattern->pieces[ref->piece], ref->edge, row)) {
            const char *where = base_arena_print(c->of.a, "%s at %s", name, c->of.pattern->chart[row].name);
            add_choice(c, base_arena_print(c->of.a, "take in %s", where));
            add_choice(c, base_arena_print(c->of.a, "let out %s", where));
        }
}

size_t job_alteration_choices(struct arena *a, const struct job *job, const struct job_alteration_choice **out)
{
    const struct pattern *p = job->pattern;
    struct choices c = { .of = { .a = a, .pattern = p, .is_cut = job_cut_pieces(a, job) } };
    size_t most = 1 + 2 * p->seam_count * p->row_count;
    for (size_t i = 0; i < p->piece_count; i++)
        most += 2 * p->pieces[i].line_count;
    c.items = base_arena_alloc(a, most, sizeof *c.items);
    for (size_t i = 0; i < p->piece_count; i++)
        if (c.of.is_cut[i])
            add_line_choices(&c, &p->pieces[i]);
    if (has_spread(&c.of))
        add_choice(&c, "fuller bust");
    for (size_t i = 0; i < p->seam_count; i++)
        add_seam_choices(&c, &p->seams[i]);
    *out = c.items;
    return c.count;
}
