/* What can be done with strips that are longer than their rectangles need. Gathered rectangles may be wider or narrower
 * than they are drawn: each choice is drafted with that width, so that its ratio is what will be sewn. */
#include "fit/fullness.h"
#include "fit/seam.h"
#include "tearing/needs.h"

#include <math.h>

#define SAME_HEIGHT_MM 0.5 /* as high as can be torn alike */
#define WORTH_MM 1.0       /* a change of width under that is none */
#define LEAST_PART_MM 50.0 /* of what is left over, to be worth a join (our own choice) */

enum { ACROSS = 2 /* edges of a rectangle by turns: bottom and top run across */, OPPOSITE = 2 };

/* A need whose edge is gathered. */
struct gathered {
    int need, edge, seam;
    int side;        /* of the seam, the fuller one */
    double fixed_mm; /* of its width, that is not sewn into the seam: allowances */
};

/* Choices under way. */
struct choosing {
    struct arena *a;
    const struct tearing_plan *plan; /* with strips across */
    double to_beat_mm;               /* what the plan needs as it is; INFINITY: it runs across itself, and gathers that
                                        spare nothing are a choice, too */
    struct gathered *gathered;
    size_t gathered_count;
    struct tearing_choice *choices;
    size_t count, cap;
};

static const struct tearing_need *need_of(const struct choosing *c, size_t gathered)
{
    return &c->plan->needs[c->gathered[gathered].need];
}

/* Halves that are drawn of a whole piece. */
static double halves(const struct choosing *c, const struct draft_piece *piece)
{
    int fold = c->plan->task->pattern->pieces[piece->index].fold;
    return fold != PATTERN_NONE && fold % ACROSS != 0 ? 2 : 1;
}

static bool is_sewn_to(const struct pattern *pattern, int piece, int edge)
{
    for (size_t s = 0; s < pattern->seam_count; s++)
        for (int side = 0; side < 2; side++)
            for (size_t i = 0; i < pattern->seams[s].sides[side].count; i++)
                if (pattern->seams[s].sides[side].edges[i].piece == piece &&
                    pattern->seams[s].sides[side].edges[i].edge == edge)
                    return true;
    return false;
}

static struct tearing_gathers gathers_in(struct choosing *c, const struct draft_sized *sized, size_t gathered)
{
    const struct gathered *g = &c->gathered[gathered];
    const struct pattern *pattern = c->plan->task->pattern;
    const struct tearing_need *need = need_of(c, gathered);
    struct fit_seam m = fit_seam_measure(c->a, sized, &pattern->seams[g->seam]);
    double hem = 0;
    int hem_edge = (g->edge + OPPOSITE) % 4;
    if (!is_sewn_to(pattern, need->piece->index, hem_edge))
        hem = fit_sewn_mm(sized, need->piece->index, hem_edge) * halves(c, need->piece) * need->pieces;
    return (struct tearing_gathers){ pattern->seams[g->seam].name, m.length_mm[g->side], m.length_mm[!g->side], hem };
}

static void find_gathered(struct choosing *c)
{
    const struct tearing_task *task = c->plan->task;
    c->gathered = base_arena_alloc(c->a, c->plan->need_count, sizeof *c->gathered);
    for (size_t n = 0; n < c->plan->need_count; n++) {
        const struct tearing_need *need = &c->plan->needs[n];
        const struct fit_fullness *full;
        size_t i = 0, count = fit_fullness_of(c->a, task->pattern, task->draft,
                                              (size_t)(need->piece - task->draft->pieces), &full);
        while (i < count && (full[i].kind != FIT_GATHERED || full[i].edge % ACROSS != 0))
            i++;
        if (i == count || need->is_rest)
            continue;
        double sewn = fit_sewn_mm(task->draft->sized, need->piece->index, full[i].edge) * halves(c, need->piece);
        struct fit_seam m = fit_seam_measure(c->a, task->draft->sized, &task->pattern->seams[full[i].seam]);
        c->gathered[c->gathered_count++] = (struct gathered){ (int)n, full[i].edge, full[i].seam,
                                                              m.length_mm[1] > m.length_mm[0], need->whole_mm - sewn };
    }
}

/* The mark of the unit's tape at or just below it, so that so many fit. */
static double mark_below(const struct choosing *c, double mm)
{
    double mark = units_on_tape(mm, c->plan->task->unit);
    double step = c->plan->task->unit == UNITS_IN ? UNITS_MM_PER_IN / 8 : 1;
    return mark > mm + TEARING_SLACK_MM ? mark - step : mark;
}

/* The draft with those widths too; NULL when it cannot be made. */
static const struct draft_sized *drafted_so(struct choosing *c, const struct tearing_change *changes, size_t count)
{
    struct draft_figure figure = c->plan->task->draft->sized->figure;
    size_t before = figure.alteration_count;
    struct draft_alteration *all = base_arena_alloc(c->a, before + count, sizeof *all);
    for (size_t i = 0; i < before; i++)
        all[i] = figure.alterations[i];
    for (size_t i = 0; i < count; i++)
        all[before + i] = (struct draft_alteration){ DRAFT_WIDTH, c->plan->needs[changes[i].need].piece->name,
                                                     PATTERN_NONE, changes[i].width_mm };
    figure.alterations = all;
    figure.alteration_count = before + count;
    struct err_list *untold = base_err_list_create();
    const struct draft_sized *sized = draft_size(c->a, c->plan->task->pattern, &figure, untold);
    bool ok = untold->faults == 0;
    base_err_list_destroy(untold);
    return ok ? sized : NULL;
}

static bool is_other_width(const struct tearing_choice *choice)
{
    return choice->kind == TEARING_FULLER || choice->kind == TEARING_SPARER;
}

/* The plan's needs with those widths, in one part each. */
static struct tearing_need *needs_so(struct arena *a, const struct choosing *c, const struct tearing_choice *choice)
{
    struct tearing_need *needs = base_arena_alloc(a, c->plan->need_count, sizeof *needs);
    for (size_t n = 0; n < c->plan->need_count; n++) {
        needs[n] = c->plan->needs[n];
        for (size_t i = 0; is_other_width(choice) && i < choice->change_count; i++) {
            if (needs[n].cut != c->plan->needs[choice->changes[i].need].cut)
                continue;
            needs[n].width_mm = needs[n].is_rest ? 0 : choice->changes[i].width_mm;
            needs[n].count = needs[n].is_rest ? 0 : needs[n].pieces;
        }
    }
    return needs;
}

static bool is_about(const struct choosing *c, const struct tearing_choice *choice, const struct tearing_need *need)
{
    for (size_t i = 0; i < choice->change_count; i++)
        if (c->plan->needs[choice->changes[i].need].cut == need->cut)
            return true;
    return false;
}

/* How long the plan is then; how many strips its rectangles take by themselves, and what is left over of those. */
static void reckon(const struct choosing *c, struct tearing_choice *choice)
{
    struct arena *scratch = base_arena_create();
    struct tearing_plan other = *c->plan;
    const struct tearing_need *needs = needs_so(scratch, c, choice);
    struct tearing_kind *kinds = base_arena_alloc(scratch, other.need_count, sizeof *kinds);
    double used = 0;
    for (size_t n = 0; n < other.need_count; n++) {
        bool counts = is_about(c, choice, &needs[n]);
        kinds[n] = (struct tearing_kind){ needs[n].width_mm, needs[n].height_mm, counts ? needs[n].count : 0 };
        used += kinds[n].width_mm * kinds[n].count;
    }
    other.needs = needs;
    choice->length_mm = tearing_lay_strips(scratch, &other) ? other.length_mm : NAN;
    choice->strips = (int)tearing_fill(scratch, kinds, other.need_count, other.strip_length_mm, 0).row_count;
    choice->left_mm = choice->strips * other.strip_length_mm - used;
    base_arena_destroy(scratch);
}

static void add(struct choosing *c, struct tearing_choice choice)
{
    if (choice.kind != TEARING_TRIM && choice.length_mm > c->to_beat_mm - WORTH_MM)
        return;
    c->choices = base_arena_grow(c->a, c->choices, &c->cap, c->count + 1, sizeof *c->choices);
    c->choices[c->count++] = choice;
}

/* Widths as they are, to be filled in. */
static struct tearing_change *changes_of(struct choosing *c, size_t first, size_t count)
{
    struct tearing_change *changes = base_arena_alloc(c->a, count, sizeof *changes);
    for (size_t i = 0; i < count; i++) {
        changes[i].need = c->gathered[first + i].need;
        changes[i].width_mm = need_of(c, first + i)->whole_mm;
        changes[i].was = changes[i].is = gathers_in(c, c->plan->task->draft->sized, first + i);
    }
    return changes;
}

/* Keeps a choice of other widths that can be drafted and still is gathered; fewer gathers only where that saves cloth.
 */
static void offer(struct choosing *c, enum tearing_choice_kind kind, struct tearing_change *changes, size_t first,
                  size_t count)
{
    const struct draft_sized *sized = drafted_so(c, changes, count);
    struct tearing_choice choice = { .kind = kind, .changes = changes, .change_count = count };
    bool is_gathered = sized != NULL, is_change = false;
    for (size_t i = 0; sized && i < count; i++) {
        is_change = is_change || fabs(changes[i].width_mm - need_of(c, first + i)->whole_mm) > WORTH_MM;
        changes[i].is = gathers_in(c, sized, first + i);
        is_gathered = is_gathered && changes[i].is.from_mm > FIT_MOST_EASE * changes[i].is.to_mm;
    }
    if (!is_gathered || !is_change)
        return;
    reckon(c, &choice);
    if (kind == TEARING_FULLER || choice.length_mm < c->plan->length_mm - WORTH_MM)
        add(c, choice);
}

static void offer_trimming(struct choosing *c, size_t first, size_t count)
{
    struct tearing_choice choice = { .kind = TEARING_TRIM,
                                     .changes = changes_of(c, first, count),
                                     .change_count = count };
    for (size_t i = first; i < first + count; i++) {
        choice.joins += need_of(c, i)->pieces * (need_of(c, i)->parts - 1);
        choice.seam_mm = tearing_join_mm(c->plan->task, need_of(c, i)->piece);
    }
    reckon(c, &choice);
    add(c, choice);
}

/* So many beside each other, as wide as they can be. */
static void offer_beside(struct choosing *c, size_t one, int beside, enum tearing_choice_kind kind)
{
    struct tearing_change *changes = changes_of(c, one, 1);
    changes[0].width_mm = mark_below(c, c->plan->strip_length_mm / beside);
    offer(c, kind, changes, one, 1);
}

/* Whole ones as they are, and others joined of what is left over beside them, where that saves a strip. */
static void offer_piecing(struct choosing *c, size_t one, int beside)
{
    const struct tearing_need *need = need_of(c, one);
    double width = c->plan->strip_length_mm, left = width - beside * need->width_mm;
    double join = tearing_join_mm(c->plan->task, need->piece), part = left - 2 * join;
    int strips = 1, whole = (need->count + beside - 1) / beside;
    if (left < LEAST_PART_MM || part <= 0)
        return;
    int parts = (int)ceil((need->width_mm - 2 * join) / part - TEARING_SLACK_MM);
    while (beside * strips + strips / parts < need->count)
        strips++;
    int joins = (need->count - beside * strips) * (parts - 1);
    if (joins <= 0 || strips >= whole)
        return;
    add(c, (struct tearing_choice){ .kind = TEARING_PIECE,
                                    .changes = changes_of(c, one, 1),
                                    .change_count = 1,
                                    .strips = strips,
                                    .left_mm = strips * width - need->count * need->width_mm - 2 * join * joins,
                                    .length_mm = c->plan->length_mm -
                                                 (whole - strips) * (need->height_mm + 2 * c->plan->task->margin_mm),
                                    .joins = joins,
                                    .seam_mm = join });
}

static void choose_one(struct choosing *c, size_t one)
{
    const struct tearing_need *need = need_of(c, one);
    int beside = (int)floor((c->plan->strip_length_mm + TEARING_SLACK_MM) / need->whole_mm);
    beside = beside < need->pieces ? beside : need->pieces;
    offer_trimming(c, one, 1);
    if (beside < need->pieces)
        offer_beside(c, one, beside + 1, TEARING_SPARER);
    if (beside > 0) {
        offer_beside(c, one, beside, TEARING_FULLER);
        offer_piecing(c, one, beside);
    }
}

static double cut_width(const struct choosing *c, size_t first, size_t count)
{
    double mm = 0;
    for (size_t i = first; i < first + count; i++)
        mm += need_of(c, i)->whole_mm * need_of(c, i)->pieces;
    return mm;
}

/* Several of one height into one strip, each by the same share of what is sewn. */
static void choose_together(struct choosing *c, size_t first, size_t count)
{
    struct tearing_change *changes = changes_of(c, first, count);
    double wide = cut_width(c, first, count), fixed = 0;
    for (size_t i = first; i < first + count; i++)
        fixed += c->gathered[i].fixed_mm * need_of(c, i)->pieces;
    double share = (c->plan->strip_length_mm - fixed) / (wide - fixed);
    for (size_t i = 0; i < count; i++) {
        double kept = c->gathered[first + i].fixed_mm;
        changes[i].width_mm = mark_below(c, kept + share * (need_of(c, first + i)->whole_mm - kept));
    }
    offer_trimming(c, first, count);
    offer(c, share > 1 ? TEARING_FULLER : TEARING_SPARER, changes, first, count);
}

/* Those of one height follow each other. */
static void sort_by_height(struct choosing *c)
{
    for (size_t i = 1; i < c->gathered_count; i++)
        for (size_t k = i; k > 0 && need_of(c, k)->height_mm > need_of(c, k - 1)->height_mm; k--) {
            struct gathered g = c->gathered[k];
            c->gathered[k] = c->gathered[k - 1];
            c->gathered[k - 1] = g;
        }
}

static void choose(struct choosing *c)
{
    find_gathered(c);
    sort_by_height(c);
    for (size_t first = 0, count; first < c->gathered_count; first += count) {
        count = 1;
        while (first + count < c->gathered_count &&
               need_of(c, first)->height_mm - need_of(c, first + count)->height_mm < SAME_HEIGHT_MM)
            count++;
        if (count == 1)
            choose_one(c, first);
        else
            choose_together(c, first, count);
    }
}

size_t tearing_choices(struct arena *a, const struct tearing_plan *plan, const struct tearing_choice **out)
{
    struct tearing_plan across = *plan;
    struct choosing c = { .a = a, .plan = &across, .to_beat_mm = plan->along ? plan->length_mm : INFINITY };
    across.along = false;
    if (plan->task->way != TEARING_ALONG && tearing_lay_strips(a, &across))
        choose(&c);
    *out = c.choices;
    return c.count;
}
