/* What can be done with strips that are longer than their rectangles need. Gathered rectangles may be wider or narrower
 * than they are drawn: each choice is drafted with that width, so that its ratio is what will be sewn. */
#include "fit/fullness.h"
#include "fit/seam.h"
#include "tearing/needs.h"

#include <math.h>

#define SAME_HEIGHT_MM 0.5 /* as high as can be torn alike */
#define WORTH_MM 1.0       /* a change of width under that is none */
#define LEAST_PART_MM 50.0 /* of what is left over, to be worth a join (our own choice) */

/* A rectangle whose edge is gathered. */
struct gathered {
    int need, edge, seam; /* need: the first of the lines it stands in */
    int pieces;           /* that are cut of it, in all lines */
    int side;             /* of the seam, the fuller one */
    double fixed_mm;      /* of its width, that is not sewn into the seam: allowances */
};

/* Choices under way. */
struct choosing {
    struct arena *a;
    const struct tearing_plan *plan;
    double between_mm; /* what torn edges take of each of two beside each other: of strips along the cloth */
    struct gathered *gathered;
    size_t gathered_count;
    struct tearing_choice *choices;
    size_t count, cap;
};

static const struct tearing_need *need_of(const struct choosing *c, size_t gathered)
{
    return &c->plan->needs[c->gathered[gathered].need];
}

static double across_mm(const struct choosing *c)
{
    return cloth_usable_width(c->plan->task->cloth);
}

static struct tearing_gathers gathers_in(struct choosing *c, const struct draft_sized *sized, size_t gathered)
{
    const struct gathered *g = &c->gathered[gathered];
    const struct tearing_task *task = c->plan->task;
    const struct pattern_seam *seam = &task->pattern->seams[g->seam];
    struct fit_seam m = fit_seam_measure(c->a, sized, seam);
    int times = tearing_times_sewn(task, seam);
    return (struct tearing_gathers){ seam->name, m.length_mm[g->side] * times, m.length_mm[!g->side] * times,
                                     tearing_hem_mm(task, sized, need_of(c, gathered)->piece->index, g->edge) };
}

/* Whether it is the same rectangle as one found before, from another line; counted there then. */
static bool is_counted(struct choosing *c, const struct tearing_need *need)
{
    for (size_t i = 0; i < c->gathered_count; i++)
        if (need_of(c, i)->piece == need->piece) {
            c->gathered[i].pieces += need->pieces;
            return true;
        }
    return false;
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
        while (i < count && (full[i].kind != FIT_GATHERED || full[i].edge % TEARING_ACROSS_EDGES != 0))
            i++;
        if (i == count || need->is_rest || is_counted(c, need))
            continue;
        double sewn = fit_sewn_mm(task->draft->sized, need->piece->index, full[i].edge) *
                      tearing_halves(&task->pattern->pieces[need->piece->index]);
        struct fit_seam m = fit_seam_measure(c->a, task->draft->sized, &task->pattern->seams[full[i].seam]);
        c->gathered[c->gathered_count++] = (struct gathered){
            (int)n, full[i].edge, full[i].seam, need->pieces, m.length_mm[1] > m.length_mm[0], need->whole_mm - sewn
        };
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

/* The plan's needs as they are in another draft, in parts again where they are too wide. */
static bool needs_so(struct arena *a, const struct choosing *c, const struct draft_sized *sized,
                     struct tearing_plan *other)
{
    struct tearing_need *needs = base_arena_alloc(a, 2 * c->plan->need_count, sizeof *needs);
    struct err_list *untold = base_err_list_create();
    other->need_count = 0;
    for (size_t n = 0; n < c->plan->need_count; n++)
        if (!c->plan->needs[n].is_rest)
            needs[other->need_count++] = tearing_need_so(other->task, &c->plan->needs[n], sized);
    other->needs = needs;
    bool fits = tearing_piece_wide(other, needs, untold);
    base_err_list_destroy(untold);
    return fits;
}

static bool is_about(const struct choosing *c, const struct tearing_choice *choice, const struct tearing_need *need)
{
    for (size_t i = 0; i < choice->change_count; i++)
        if (c->plan->needs[choice->changes[i].need].piece == need->piece)
            return true;
    return false;
}

/* How many strips its rectangles take by themselves, and what is left over of those. */
static void reckon_strips(struct arena *a, const struct choosing *c, struct tearing_plan other,
                          struct tearing_choice *choice)
{
    struct tearing_need *needs = base_arena_alloc(a, other.need_count, sizeof *needs);
    size_t count = 0;
    for (size_t n = 0; n < other.need_count; n++)
        if (is_about(c, choice, &other.needs[n]))
            needs[count++] = other.needs[n];
    other.needs = needs;
    other.need_count = count;
    tearing_lay_strips(a, &other);
    choice->strips = (int)other.strip_count;
    for (size_t i = 0; i < other.strip_count; i++)
        choice->left_mm += other.strip_length_mm - other.strips[i].used_mm;
}

/* What the whole plan is then; `sized` NULL: as it is. */
static bool reckon(const struct choosing *c, const struct draft_sized *sized, struct tearing_choice *choice)
{
    struct arena *scratch = base_arena_create();
    struct tearing_plan other = *c->plan;
    bool ok = !sized || (needs_so(scratch, c, sized, &other) && tearing_lay_best(scratch, &other));
    if (ok) {
        choice->length_mm = other.length_mm;
        choice->along = other.along;
        reckon_strips(scratch, c, other, choice);
    }
    base_arena_destroy(scratch);
    return ok;
}

static void add(struct choosing *c, struct tearing_choice choice)
{
    c->choices = base_arena_grow(c->a, c->choices, &c->cap, c->count + 1, sizeof *c->choices);
    c->choices[c->count++] = choice;
}

static bool spares(const struct choosing *c, const struct tearing_choice *choice)
{
    return choice->length_mm < c->plan->length_mm - WORTH_MM;
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
    if (is_gathered && is_change && reckon(c, sized, &choice) && (kind == TEARING_FULLER || spares(c, &choice)))
        add(c, choice);
}

static void offer_trimming(struct choosing *c, size_t first, size_t count)
{
    struct tearing_choice choice = { .kind = TEARING_TRIM,
                                     .changes = changes_of(c, first, count),
                                     .change_count = count };
    for (size_t i = first; i < first + count; i++) {
        choice.joins += c->gathered[i].pieces * (need_of(c, i)->parts - 1);
        choice.seam_mm = tearing_join_mm(c->plan->task, need_of(c, i)->piece);
    }
    reckon(c, NULL, &choice);
    add(c, choice);
}

/* So many beside each other, as wide as they can be. */
static void offer_beside(struct choosing *c, size_t one, int beside, enum tearing_choice_kind kind)
{
    struct tearing_change *changes = changes_of(c, one, 1);
    changes[0].width_mm = mark_below(c, across_mm(c) / beside - c->between_mm);
    offer(c, kind, changes, one, 1);
}

/* What that saves of a plan with strips across; INFINITY: it has none. */
static double across_length(const struct choosing *c)
{
    return !c->plan->along ? c->plan->length_mm : isnan(c->plan->other_mm) ? INFINITY : c->plan->other_mm;
}

/* Whole ones as they are, and others joined of what is left over beside them, where that saves a strip. */
static void offer_piecing(struct choosing *c, size_t one, int beside)
{
    const struct tearing_need *need = need_of(c, one);
    int pieces = c->gathered[one].pieces;
    double width = across_mm(c), left = width - beside * need->width_mm;
    double join = tearing_join_mm(c->plan->task, need->piece), part = left - 2 * join;
    int strips = 1, whole = (pieces + beside - 1) / beside;
    if (left < LEAST_PART_MM || part <= 0)
        return;
    int parts = (int)ceil((need->width_mm - 2 * join) / part - TEARING_SLACK_MM);
    while (beside * strips + strips / parts < pieces)
        strips++;
    int joins = (pieces - beside * strips) * (parts - 1);
    struct tearing_choice choice = { .kind = TEARING_PIECE,
                                     .changes = changes_of(c, one, 1),
                                     .change_count = 1,
                                     .strips = strips,
                                     .left_mm = strips * width - pieces * need->width_mm - 2 * join * joins,
                                     .length_mm = across_length(c) -
                                                  (whole - strips) * (need->height_mm + 2 * c->plan->task->margin_mm),
                                     .joins = joins,
                                     .seam_mm = join };
    if (joins > 0 && strips < whole && spares(c, &choice))
        add(c, choice);
}

static void choose_one(struct choosing *c, size_t one)
{
    const struct tearing_need *need = need_of(c, one);
    int pieces = c->gathered[one].pieces;
    int beside = (int)floor((across_mm(c) + TEARING_SLACK_MM) / (need->whole_mm + c->between_mm));
    beside = beside < pieces ? beside : pieces;
    offer_trimming(c, one, 1);
    if (beside < pieces)
        offer_beside(c, one, beside + 1, TEARING_SPARER);
    if (beside > 0)
        offer_beside(c, one, beside, TEARING_FULLER);
    if (beside > 0 && c->plan->task->way != TEARING_ALONG)
        offer_piecing(c, one, beside);
}

static double cut_width(const struct choosing *c, size_t first, size_t count)
{
    double mm = 0;
    for (size_t i = first; i < first + count; i++)
        mm += need_of(c, i)->whole_mm * c->gathered[i].pieces;
    return mm;
}

/* Several of one height into one strip, each by the same share of what is sewn. */
static void choose_together(struct choosing *c, size_t first, size_t count)
{
    struct tearing_change *changes = changes_of(c, first, count);
    double wide = cut_width(c, first, count), fixed = 0;
    for (size_t i = first; i < first + count; i++)
        fixed += c->gathered[i].fixed_mm * c->gathered[i].pieces;
    double share = (across_mm(c) - fixed) / (wide - fixed);
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
    bool along = c->plan->task->way == TEARING_ALONG;
    find_gathered(c);
    sort_by_height(c);
    for (size_t first = 0, count; first < c->gathered_count; first += count) {
        count = 1;
        while (!along && first + count < c->gathered_count &&
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
    struct choosing c = { .a = a, .plan = plan };
    c.between_mm = plan->task->way == TEARING_ALONG ? 2 * plan->task->margin_mm : 0;
    choose(&c);
    *out = c.choices;
    return c.count;
}
