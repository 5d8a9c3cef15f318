/* Rests of strips are filled one piece after the other: with each one more, what is cut of a rest is laid anew, and
 * stays as it was where that leaves one out. */
#include "tearing/rests.h"

#include <math.h>
#include <stdlib.h>

#define LEAST_MM 20.0 /* of a rest, either way: less is good for nothing (our own choice) */

enum {
    ROUNDS = 3, /* that a piece is sought room for … */
    MOST_AT_ONCE = 2,
    MOST_TRIES = 40 /* … and how often: some tenths of a second, and more than a garment takes */
};

/* A rest as it is filled. */
struct open_rest {
    struct tearing_rest rest;
    size_t nth;               /* of all that is left */
    struct lay_hands *pieces; /* of each line of the cutting list … */
    bool *refused;            /* … and of which it has no room for one more */
    double left_mm2;
};

/* What goes into rests together, or not at all. */
struct batch {
    int cut;
    struct lay_hands hands;
    double area_mm2; /* of each */
};

struct using_rests {
    struct arena *a;
    const struct tearing_plan *plan;
    struct open_rest *rests;       /* the smallest first */
    size_t rest_count, left_count; /* left: too small ones, too */
    struct batch *batches;         /* the largest first */
    size_t batch_count, batch_cap;
    int tries;
};

/* --- the rests ---------------------------------------------------------------------------------------------------- */

/* To a square millimetre, so that equal rests are equal wherever they lie. */
static int by_room(const void *pa, const void *pb)
{
    const struct open_rest *a = pa, *b = pb;
    double of_a = floor(a->left_mm2 + 0.5), of_b = floor(b->left_mm2 + 0.5);
    if (of_a != of_b)
        return of_a < of_b ? -1 : 1;
    return a->nth < b->nth ? -1 : 1;
}

static void find_rests(struct using_rests *u)
{
    struct tearing_rest *left;
    size_t count = tearing_left(u->a, u->plan, &left);
    u->rests = base_arena_alloc(u->a, count, sizeof *u->rests);
    for (size_t i = 0; i < count; i++) {
        double length = left[i].cloth.length_mm, width = left[i].cloth.width_mm;
        if (length < LEAST_MM || width < LEAST_MM)
            continue;
        size_t cuts = u->plan->task->draft->cut_count;
        u->rests[u->rest_count++] =
            (struct open_rest){ left[i], i, base_arena_alloc(u->a, cuts, sizeof(struct lay_hands)),
                                base_arena_alloc(u->a, cuts, sizeof(bool)), length * width };
    }
    if (u->rest_count)
        qsort(u->rests, u->rest_count, sizeof *u->rests, by_room);
    u->left_count = count;
}

/* --- what goes into them ------------------------------------------------------------------------------------------ */

static void add_batches(struct using_rests *u, int cut, struct lay_hands hands, int times)
{
    const struct draft *draft = u->plan->task->draft;
    struct draft_piece whole = draft_unfold(u->a, &draft->pieces[draft->cuts[cut].piece]);
    double area = geometry_path_area(whole.cut.path);
    for (int i = 0; i < times; i++) {
        u->batches = base_arena_grow(u->a, u->batches, &u->batch_cap, u->batch_count + 1, sizeof *u->batches);
        u->batches[u->batch_count++] = (struct batch){ cut, hands, area };
    }
}

/* Pieces that two layers are cut for at once stay together. */
static void add_line(struct using_rests *u, int cut)
{
    const struct tearing_task *task = u->plan->task;
    const struct draft_piece *piece = &task->draft->pieces[task->draft->cuts[cut].piece];
    struct lay_hands all = lay_hands_of(&task->draft->cuts[cut]);
    bool doubled = task->cloth->spread != CLOTH_SINGLE && !piece->has_fold;
    int pairs = !doubled ? 0 : all.right < all.left ? all.right : all.left;
    struct lay_hands left = { all.right - pairs, all.left - pairs };
    int twos = doubled ? left.right / 2 : 0;
    add_batches(u, cut, (struct lay_hands){ 1, 1 }, pairs);
    add_batches(u, cut, (struct lay_hands){ 2, 0 }, twos);
    add_batches(u, cut, (struct lay_hands){ 1, 0 }, left.right - 2 * twos);
    add_batches(u, cut, (struct lay_hands){ 0, 1 }, left.left);
}

static int by_size(const void *pa, const void *pb)
{
    const struct batch *a = pa, *b = pb;
    if (a->area_mm2 != b->area_mm2)
        return a->area_mm2 > b->area_mm2 ? -1 : 1;
    return a->cut - b->cut;
}

static void find_batches(struct using_rests *u)
{
    const struct tearing_task *task = u->plan->task;
    for (size_t i = 0; i < task->draft->cut_count; i++) {
        const struct draft_piece *piece = &task->draft->pieces[task->draft->cuts[i].piece];
        if (task->draft->cuts[i].cloth == task->material && !task->pattern->pieces[piece->index].is_rectangle)
            add_line(u, (int)i);
    }
    if (u->batch_count)
        qsort(u->batches, u->batch_count, sizeof *u->batches, by_size);
}

/* --- filling ------------------------------------------------------------------------------------------------------ */

/* All of the cutting list but what the rest has. */
static const struct lay_hands *elsewhere(struct using_rests *u, const struct open_rest *open)
{
    const struct draft *draft = u->plan->task->draft;
    struct lay_hands *hands = base_arena_alloc(u->a, draft->cut_count, sizeof *hands);
    for (size_t i = 0; i < draft->cut_count; i++) {
        struct lay_hands all = lay_hands_of(&draft->cuts[i]);
        hands[i] = (struct lay_hands){ all.right - open->pieces[i].right, all.left - open->pieces[i].left };
    }
    return hands;
}

static struct lay search(struct arena *a, const struct lay_task *task, const atomic_bool *stop, struct err_list *errs)
{
    struct lay_search *s = lay_search_begin(task, NULL, 1, NULL, stop, errs);
    struct lay best = lay_search_best(a, s); /* nothing is held, so there is one */
    for (int i = 0; best.left_out && i < ROUNDS && !(stop && *stop) && lay_search_can_gain(s); i++) {
        lay_search_round(s, stop);
        best = lay_search_best(a, s);
    }
    lay_search_end(s);
    return best;
}

/* What the rest has, laid; NULL when that leaves something out. */
static const struct lay *laid_on(struct using_rests *u, const struct open_rest *open)
{
    const struct tearing_task *of = u->plan->task;
    struct err_list *untold = base_err_list_create();
    struct lay_task *task = base_arena_alloc(u->a, 1, sizeof *task);
    struct lay *lay = NULL;
    if (lay_task_make(u->a, of->draft, elsewhere(u, open), &open->rest.cloth, of->material, task, untold)) {
        lay = base_arena_alloc(u->a, 1, sizeof *lay);
        *lay = search(u->a, task, of->stop, untold);
    }
    base_err_list_destroy(untold);
    return lay && !lay->left_out ? lay : NULL;
}

static void count(struct open_rest *open, const struct batch *b, bool left, int times)
{
    struct lay_hands *hands = &open->pieces[b->cut];
    *(left ? &hands->left : &hands->right) += times;
    open->left_mm2 -= times * b->area_mm2;
}

/* A piece that was put into a rest, and what was cut of that before. */
struct put {
    struct open_rest *in; /* NULL: there is no room for it */
    const struct lay *before;
};

static bool is_stopped(const struct using_rests *u)
{
    return u->plan->task->stop && *u->plan->task->stop;
}

static struct put put_one(struct using_rests *u, const struct batch *b, bool left)
{
    for (size_t i = 0; i < u->rest_count; i++) {
        struct open_rest *open = &u->rests[i];
        const struct lay *lay = NULL, *before = open->rest.lay;
        if (open->refused[b->cut] || open->left_mm2 < b->area_mm2 || u->tries == MOST_TRIES || is_stopped(u))
            continue;
        u->tries++;
        count(open, b, left, 1);
        lay = laid_on(u, open);
        if (lay) {
            open->rest.lay = lay;
            return (struct put){ open, before };
        }
        count(open, b, left, -1);
        open->refused[b->cut] = true;
    }
    return (struct put){ NULL, NULL };
}

/* All of them, or none. */
static void put_batch(struct using_rests *u, const struct batch *b)
{
    struct put puts[MOST_AT_ONCE];
    int all = b->hands.right + b->hands.left, done = 0;
    for (; done < all; done++) {
        puts[done] = put_one(u, b, done >= b->hands.right);
        if (!puts[done].in)
            break;
    }
    if (done == all)
        return;
    while (done-- > 0) {
        count(puts[done].in, b, done >= b->hands.right, -1);
        puts[done].in->rest.lay = puts[done].before;
        puts[done].in->refused[b->cut] = false; /* there is room for one again */
    }
}

/* --- what became of it -------------------------------------------------------------------------------------------- */

static void add_used(const struct open_rest *open, struct tearing_rest *rests, struct lay_hands *pieces,
                     struct tearing_rests *out)
{
    const struct lay_task *task = open->rest.lay->task;
    rests[out->count++] = open->rest;
    for (size_t c = 0; c < task->draft->cut_count; c++) {
        pieces[c].right += open->pieces[c].right;
        pieces[c].left += open->pieces[c].left;
    }
    for (size_t k = 0; k < task->item_count; k++)
        out->area_mm2 += geometry_path_area(task->items[k].piece->cut.path);
}

/* In the order in which they are left. */
static void gather(struct using_rests *u, struct tearing_rests *out)
{
    struct tearing_rest *rests = base_arena_alloc(u->a, u->rest_count, sizeof *rests);
    struct lay_hands *pieces = base_arena_alloc(u->a, u->plan->task->draft->cut_count, sizeof *pieces);
    for (size_t nth = 0; nth < u->left_count; nth++)
        for (size_t i = 0; i < u->rest_count; i++)
            if (u->rests[i].rest.lay && u->rests[i].nth == nth)
                add_used(&u->rests[i], rests, pieces, out);
    out->rests = rests;
    out->pieces = pieces;
}

bool tearing_rests_find(struct arena *a, const struct tearing_plan *plan, struct tearing_rests *out)
{
    struct using_rests u = { .a = a, .plan = plan };
    const struct cloth *cloth = plan->task->cloth;
    *out = (struct tearing_rests){ NULL, 0, NULL, 0 };
    if (cloth->repeat.along_mm > 0 || cloth->repeat.across_mm > 0 || cloth->block_mm > 0)
        return true;
    find_rests(&u);
    find_batches(&u);
    for (size_t i = 0; i < u.batch_count && !is_stopped(&u); i++)
        put_batch(&u, &u.batches[i]);
    if (is_stopped(&u)) /* some may be there for which a search was cut short */
        return false;
    gather(&u, out);
    return true;
}

void tearing_rests_take(struct tearing_plan *plan, const struct tearing_rests *rests)
{
    plan->rests = rests;
    plan->used += rests->area_mm2 / (cloth_usable_width(plan->task->cloth) * plan->length_mm);
}
