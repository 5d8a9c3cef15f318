/* A search of packing's on a task, and what cannot be searched for: pins that are not possible are told; a piece that
 * is longer than the cloth at hand, or finds no room beside what is blocked, is left out. */
#include "lay/items.h"
#include "lay/problem.h"

#include "geometry/region.h"

/* What is spent on the block before the first lay is there. */
enum { BLOCK_ROUNDS = 6 };

#define ON_EDGE_MM 1.0

static const struct err_kind pin_overlap = {
    "lay.pin_overlap", ERR_FAULT,
    BASE_TR("“{0}” and “{1}” are held in place over each other, by {2}: move one of "
            "them, or let it go")
};
static const struct err_kind pin_off_cloth = {
    "lay.pin_off_cloth", ERR_FAULT,
    BASE_TR("“{0}” is held where it lies {1} off the cloth that it is to be cut of, or "
            "on a fault of it: move it, or let it go")
};
static const struct err_kind pin_opened = { "lay.pin_opened", ERR_FAULT,
                                            BASE_TR("“{0}” is held as it lay on the fold, and as the cloth lies now it "
                                                    "is cut opened out: let it go, or fold the cloth") };
static const struct err_kind pin_off_fold = {
    "lay.pin_off_fold", ERR_FAULT, BASE_TR("“{0}” is held {1} off the fold: move it onto the fold, or let it go")
};
static const struct err_kind pin_wrong_hand = {
    "lay.pin_wrong_hand", ERR_FAULT, BASE_TR("“{0}” is held as its mirror image: turn it over, or let it go")
};
static const struct err_kind pin_against_nap = {
    "lay.pin_against_nap", ERR_FAULT,
    BASE_TR("“{0}” is held upside down, and the cloth has a direction: turn it "
            "round, or let it go")
};

static const struct err_kind held_in_block = {
    "lay.held_in_block", ERR_WARNING,
    BASE_TR(
        "“{0}” is held where the block of interfacing is fused, and would be fused as well: move it, or let it go")
};

static const struct err_kind off_block = {
    "lay.held_off_block", ERR_WARNING,
    BASE_TR(
        "“{0}” lies outside the block of interfacing, with what is held in place: fuse it by itself, or let that go")
};

static const struct err_place nowhere = { NULL, NULL, 0 };

struct lay_search {
    struct arena *a;
    const struct lay_task *task;
    struct lay_place *fixed;    /* where what is pinned lies, and what is fused in a block */
    struct geometry_path block; /* around that; without points: there is none */
    struct lay_problem problem;
    struct packing_search *packing; /* NULL: there is nothing to be moved */
};

/* What holding a piece may not do. Off the grain, or off the stripes, is a person's own choice. */
static const struct err_kind *kind_of(enum lay_fault fault)
{
    static const struct err_kind *const kinds[] = {
        [LAY_OVERLAP] = &pin_overlap,
        [LAY_OFF_CLOTH] = &pin_off_cloth,
        [LAY_OFF_FOLD] = &pin_off_fold,
        [LAY_WRONG_HAND] = &pin_wrong_hand,
        [LAY_AGAINST_NAP] = &pin_against_nap,
        [LAY_OFF_GRAIN] = NULL,
        [LAY_OFF_REPEAT] = NULL,
        [LAY_IN_BLOCK] = NULL, /* told once all of the block lies */
        [LAY_OFF_BLOCK] = NULL,
    };
    return kinds[fault];
}

/* A piece on the fold that is opened out, as the cloth lies, and is held as if that still had its fold at the edge. */
static bool is_held_on_edge(const struct lay_task *task, const struct lay_item *item, const struct lay_place *place)
{
    if (item->cut == LAY_NONE)
        return false;
    const struct draft_piece *half = &task->draft->pieces[task->draft->cuts[item->cut].piece];
    struct geometry_mover m = geometry_mover_of(place->motion);
    return !item->on_fold && half->has_fold &&
           fabs(geometry_move(&m, (vec2){ half->fold[0].x, half->fold[0].y }).y) < ON_EDGE_MM &&
           fabs(geometry_move(&m, (vec2){ half->fold[1].x, half->fold[1].y }).y) < ON_EDGE_MM;
}

static void tell_pin(struct arena *a, const struct lay_task *task, const struct lay_place *pins,
                     const struct lay_finding *f, struct err_list *errs)
{
    const struct err_kind *kind = kind_of(f->fault);
    const char *name = lay_item_name(a, task, (size_t)f->item);
    if (f->fault == LAY_OVERLAP)
        base_err(errs, kind, nowhere, ERR_TEXT(name), ERR_TEXT(lay_item_name(a, task, (size_t)f->other)),
                 ERR_MM(f->amount));
    else if (f->fault == LAY_OFF_CLOTH && is_held_on_edge(task, &task->items[f->item], &pins[f->item]))
        base_err(errs, &pin_opened, nowhere, ERR_TEXT(name));
    else if (kind)
        base_err(errs, kind, nowhere, ERR_TEXT(name), ERR_MM(f->amount));
}

/* The pins alone, as a lay. */
static bool pins_are_possible(const struct lay_search *s, struct err_list *errs)
{
    int before = errs->faults;
    const struct lay_finding *found;
    struct arena *scratch = base_arena_create();
    struct lay lay = lay_of(scratch, s->task, s->fixed);
    size_t count = lay_judge(scratch, &lay, &found);
    for (size_t i = 0; i < count; i++)
        tell_pin(scratch, s->task, s->fixed, &found[i], errs);
    base_arena_destroy(scratch);
    return errs->faults == before;
}

static struct lay_place *pins_of(struct arena *a, const struct lay_task *task, const struct lay_place *pinned)
{
    struct lay_place *pins = base_arena_alloc(a, task->item_count, sizeof *pins);
    for (size_t i = 0; pinned && i < task->item_count; i++)
        if (pinned[i].is_pinned && pinned[i].is_laid)
            pins[i] = pinned[i];
    return pins;
}

/* Leaves out what finds no place by itself until there is a search to begin. */
static void begin(struct lay_search *s, bool *left_out, uint64_t seed, struct base_pool *pool)
{
    int item, other;
    s->problem = lay_problem_of(s->a, s->task, s->fixed, s->block, left_out);
    while (s->problem.packing.item_count && packing_check(&s->problem.packing, &item, &other) != PACKING_CAN_BE_LAID) {
        left_out[s->problem.items[item]] = true;
        s->problem = lay_problem_of(s->a, s->task, s->fixed, s->block, left_out);
    }
    s->packing = s->problem.packing.item_count ? packing_begin(&s->problem.packing, seed, pool) : NULL;
}

static void put_best(const struct lay_search *s, struct lay_place *places)
{
    const struct packing_lay *best = s->packing ? packing_best(s->packing) : NULL;
    for (size_t i = 0; best && i < best->item_count; i++)
        if (best->places[i].shape != PACKING_NONE)
            places[s->problem.items[i]] = lay_place_of(&s->problem, &best->places[i]);
}

/* The rectangle around what is fused, where nothing else may lie. */
static void close_block(struct lay_search *s, struct err_list *errs)
{
    struct lay_fusing fusing = lay_fusing_of(s->a, s->task, s->fixed);
    s->block = fusing.block;
    for (size_t i = 0; s->block.count && i < s->task->item_count; i++) {
        if (!s->fixed[i].is_laid || fusing.inside[i])
            continue;
        const char *name = lay_item_name(s->a, s->task, i);
        if (s->task->items[i].covered)
            base_err(errs, &off_block, nowhere, ERR_TEXT(name));
        else if (geometry_common_area(s->block, lay_outline(s->a, s->task, i, &s->fixed[i]).path) > LAY_FIT_MM)
            base_err(errs, &held_in_block, nowhere, ERR_TEXT(name));
    }
}

/* Where pieces of the block are held, which it then begins at, so that nothing lies fused and empty before them; else
 * as near to the cut end as it may. */
static double block_begin(const struct lay_search *s)
{
    const struct cloth_band *strip = &s->task->block;
    double begin = INFINITY;
    for (size_t i = 0; i < s->task->item_count; i++) {
        if (!s->task->items[i].covered || !s->fixed[i].is_laid)
            continue;
        struct geometry_box box = geometry_path_box(lay_outline(s->a, s->task, i, &s->fixed[i]).path);
        if (box.min.y >= strip->from_mm - LAY_FIT_MM && box.max.y <= strip->to_mm + LAY_FIT_MM)
            begin = fmin(begin, box.min.x);
    }
    return isinf(begin) ? LAY_BLOCK_PAST_MM : fmax(begin, LAY_BLOCK_PAST_MM);
}

/* The cloth that the block may take: its pieces keep off the edges and the cut end, so that it ends on the cloth. */
static struct lay_task block_strip(struct arena *a, const struct lay_task *task, double begin_mm)
{
    struct lay_task strip = *task;
    struct cloth_path *blocked = base_arena_alloc(a, task->spread.blocked_count + 1, sizeof *blocked);
    for (size_t i = 0; i < task->spread.blocked_count; i++)
        blocked[i] = task->spread.blocked[i];
    strip.spread.bands[0] = task->block;
    strip.spread.band_count = 1;
    strip.spread.width_mm = task->block.to_mm;
    blocked[strip.spread.blocked_count++].path =
        lay_rectangle(a, (struct geometry_box){ { 0, 0 }, { begin_mm, strip.spread.width_mm } });
    strip.spread.blocked = blocked;
    return strip;
}

/* Lays what is fused and not held from there on, where it has room. True: all of it had. */
static bool lay_block_from(struct lay_search *s, double begin_mm, uint64_t seed, struct base_pool *pool,
                           const atomic_bool *stop)
{
    const struct lay_task *task = s->task;
    struct lay_task strip = block_strip(s->a, task, begin_mm);
    bool *left_out = base_arena_alloc(s->a, task->item_count, sizeof *left_out), all = true;
    for (size_t i = 0; i < task->item_count; i++)
        left_out[i] = !task->items[i].covered;
    s->task = &strip;
    begin(s, left_out, seed, pool);
    for (int i = 0; i < BLOCK_ROUNDS && !(stop && *stop) && lay_search_can_gain(s); i++)
        lay_search_round(s, stop);
    put_best(s, s->fixed);
    packing_end(s->packing);
    s->packing = NULL;
    s->task = task;
    for (size_t i = 0; i < task->item_count; i++)
        all = all && (!task->items[i].covered || s->fixed[i].is_laid);
    return all;
}

/* What is fused is laid first, by itself, on a strip as wide as the block may be; then it stays. */
static void lay_block(struct lay_search *s, uint64_t seed, struct base_pool *pool, const atomic_bool *stop,
                      struct err_list *errs)
{
    size_t i = 0;
    while (i < s->task->item_count && !s->task->items[i].covered)
        i++;
    if (i == s->task->item_count)
        return;
    double begin_mm = block_begin(s);
    if (!lay_block_from(s, begin_mm, seed, pool, stop) && begin_mm > LAY_BLOCK_PAST_MM)
        lay_block_from(s, LAY_BLOCK_PAST_MM, seed, pool, stop);
    close_block(s, errs);
}

/* What is fused and found no room in the block is not laid beside it. */
static bool *beyond_block(struct lay_search *s)
{
    bool *left_out = base_arena_alloc(s->a, s->task->item_count, sizeof *left_out);
    for (size_t i = 0; i < s->task->item_count; i++)
        left_out[i] = s->task->items[i].covered && !s->fixed[i].is_laid;
    return left_out;
}

struct lay_search *lay_search_begin(const struct lay_task *task, const struct lay_place *pinned, uint64_t seed,
                                    struct base_pool *pool, const atomic_bool *stop, struct err_list *errs)
{
    struct arena *a = base_arena_create();
    struct lay_search *s = base_arena_alloc(a, 1, sizeof *s);
    *s = (struct lay_search){ .a = a, .task = task, .fixed = pins_of(a, task, pinned) };
    if (!pins_are_possible(s, errs)) {
        base_arena_destroy(a);
        return NULL;
    }
    lay_block(s, seed, pool, stop, errs);
    begin(s, beyond_block(s), seed, pool);
    return s;
}

void lay_search_use_pool(struct lay_search *search, struct base_pool *pool)
{
    if (search->packing)
        packing_use_pool(search->packing, pool);
}

void lay_search_end(struct lay_search *search)
{
    if (!search)
        return;
    packing_end(search->packing);
    base_arena_destroy(search->a);
}

bool lay_search_round(struct lay_search *search, const atomic_bool *stop)
{
    return search->packing && packing_round(search->packing, stop);
}

bool lay_search_can_gain(const struct lay_search *search)
{
    return search->packing && packing_can_gain(search->packing);
}

size_t lay_search_rounds(const struct lay_search *search)
{
    return search->packing ? packing_rounds(search->packing) : 0;
}

size_t lay_search_rounds_without_gain(const struct lay_search *search)
{
    return search->packing ? packing_rounds_without_gain(search->packing) : 0;
}

struct lay lay_search_best(struct arena *a, const struct lay_search *search)
{
    struct lay_place *places = base_arena_alloc(a, search->task->item_count, sizeof *places);
    for (size_t i = 0; i < search->task->item_count; i++)
        places[i] = search->fixed[i];
    put_best(search, places);
    return lay_of(a, search->task, places);
}
