#include "spans/marks.h"
#include "spans/waste.h"
#include "spans/windows.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const struct err_kind no_reach = { "spans.no_reach", ERR_FAULT,
                                          BASE_TR("the light reaches {0} along the cloth, and to cut section by "
                                                  "section it takes {1}: hang the projector higher") };
static const struct err_kind beyond_across = {
    "spans.beyond_across", ERR_FAULT,
    BASE_TR("pieces lie up to {0} from the near edge of the cloth, and the light "
            "reaches {1} across: fold the cloth lengthwise, "
            "or hang the projector higher")
};
static const struct err_kind mark_on_piece = {
    "spans.mark_on_piece", ERR_WARNING,
    BASE_TR("where sections {0} and {1} meet, the waste has no room for two chalk marks: one or both lie within "
            "pieces, so take chalk that comes out")
};
static const struct err_kind one_mark = { "spans.one_mark", ERR_WARNING,
                                          BASE_TR(
                                              "where sections {0} and {1} meet, the waste has room for one chalk mark: "
                                              "line up on it and along the fold or selvedge") };
static const struct err_kind no_mark = { "spans.no_mark", ERR_WARNING,
                                         BASE_TR("where sections {0} and {1} meet, the waste has no room for a chalk "
                                                 "mark: move a piece so that 4 cm are free there") };

static const struct err_place nowhere = { 0 };

/* What is laid, by item. */
struct laid {
    const int *items;
    const struct spans_extent *along;
    size_t count;
    double across_mm; /* up to here pieces lie */
};

static struct laid find_laid(struct arena *a, const struct spans_cloth *cloth)
{
    int *items = base_arena_alloc(a, cloth->count, sizeof *items);
    struct spans_extent *along = base_arena_alloc(a, cloth->count, sizeof *along);
    struct laid laid = { items, along, 0, 0 };
    for (size_t i = 0; i < cloth->count; i++) {
        if (cloth->outlines[i].path.count == 0)
            continue;
        struct geometry_box box = geometry_path_box(cloth->outlines[i].path);
        items[laid.count] = (int)i;
        along[laid.count++] = (struct spans_extent){ box.min.x, box.max.x };
        laid.across_mm = fmax(laid.across_mm, box.max.y);
    }
    return laid;
}

static bool check_reach(const struct laid *laid, struct spans_reach reach, double overlap_mm, struct err_list *errs)
{
    if (!(reach.along_mm >= 2 * overlap_mm && reach.along_mm > 0)) {
        base_err(errs, &no_reach, nowhere, ERR_MM(reach.along_mm), ERR_MM(2 * overlap_mm));
        return false;
    }
    if (laid->across_mm > reach.across_mm + SPANS_LITTLE_MM) {
        base_err(errs, &beyond_across, nowhere, ERR_MM(ceil(laid->across_mm)), ERR_MM(floor(reach.across_mm)));
        return false;
    }
    return true;
}

/* ---- What is cut in which span ---- */

struct turn_to_cut {
    struct spans_extent along;
    int item;
    struct spans_shown shown;
};

/* Nearest to the free end first. */
static int by_free_end(const void *a, const void *b)
{
    const struct turn_to_cut *p = a, *q = b;
    if (p->along.from != q->along.from)
        return p->along.from < q->along.from ? -1 : 1;
    if (p->along.to != q->along.to)
        return p->along.to < q->along.to ? -1 : 1;
    return (p->item > q->item) - (p->item < q->item);
}

static struct turn_to_cut *cutting_order(struct arena *a, const struct laid *laid, const struct spans_windows *w)
{
    struct turn_to_cut *order = base_arena_alloc(a, laid->count, sizeof *order);
    for (size_t i = 0; i < laid->count; i++)
        order[i] = (struct turn_to_cut){ laid->along[i], laid->items[i], spans_windows_show(w, laid->along[i]) };
    qsort(order, laid->count, sizeof *order, by_free_end);
    return order;
}

static void put_items(struct arena *a, struct spans_span *span, size_t k, const struct turn_to_cut *order, size_t count)
{
    int *items = base_arena_alloc(a, count, sizeof *items), *parts = base_arena_alloc(a, count, sizeof *parts);
    span->items = items;
    span->parts = parts;
    for (size_t i = 0; i < count; i++) {
        struct spans_shown shown = order[i].shown;
        if (shown.first == shown.last && shown.first == k)
            items[span->item_count++] = order[i].item;
        else if (shown.first < shown.last && shown.first <= k && k <= shown.last)
            parts[span->part_count++] = order[i].item;
    }
}

/* ---- Marks ---- */

struct marking {
    struct arena *scratch;
    struct spans_cloth cloth; /* with all marks that are chalked by then */
    struct cloth_pt *chalked;
    struct spans_reach reach;
    enum spans_cut *cut; /* by item: in this span or one before */
    struct err_list *errs;
};

static void add_cut(struct marking *m, const struct spans_span *span)
{
    for (size_t i = 0; i < span->item_count; i++)
        m->cut[span->items[i]] = SPANS_CUT;
    for (size_t i = 0; i < span->part_count; i++) { /* what its uncut part holds on to is the piece, not the waste */
        int item = span->parts[i];
        bool ends = geometry_path_box(m->cloth.outlines[item].path).max.x <= span->to_mm + SPANS_LITTLE_MM;
        m->cut[item] = ends ? SPANS_CUT : SPANS_BEGUN;
    }
}

static void add_chalked(struct marking *m, const struct cloth_pt *marks, int count)
{
    for (int i = 0; i < count; i++)
        m->chalked[m->cloth.chalked_count++] = marks[i];
}

static void tell_marks(const struct marking *m, const struct spans_span *to, size_t span)
{
    const struct err_kind *kinds[] = { &no_mark, &one_mark, NULL }, *kind = kinds[to->mark_count];
    for (int i = 0; i < to->mark_count && !kind; i++)
        kind = to->mark_items[i] != SPANS_WASTE ? &mark_on_piece : NULL;
    if (kind)
        base_err(m->errs, kind, nowhere, ERR_NUMBER(span), ERR_NUMBER(span + 1));
}

/* Marks that lie less well are taken where there are more of them, or by those in hand a place may be off by a quarter
 * more. Our own choice. */
#define WORTH 1.25

static bool is_worth_it(struct spans_pair pair, struct spans_pair in_hand)
{
    return pair.count > in_hand.count || WORTH * pair.cost < in_hand.cost;
}

/* Marks at opposite corners of what they tell, whose costs are 1, are as good as any. */
static bool is_best(struct spans_pair pair)
{
    return pair.count == 2 && pair.cost <= WORTH;
}

/* About what is cut in a span, as far as it is shown. */
static struct geometry_box cut_box(const struct marking *m, const struct spans_span *span)
{
    struct geometry_box box = geometry_box_empty();
    for (size_t i = 0; i < span->item_count; i++)
        box = geometry_box_join(box, geometry_path_box(m->cloth.outlines[span->items[i]].path));
    for (size_t i = 0; i < span->part_count; i++)
        box = geometry_box_join(box, geometry_path_box(m->cloth.outlines[span->parts[i]].path));
    box.min.x = fmax(box.min.x, span->from_mm);
    box.max.x = fmin(box.max.x, span->to_mm);
    return box;
}

/* Where marks are looked for: so much within what a span shows at its ends, from a place on. */
struct search {
    double within_mm, from_mm;
    bool must_hold, on_pieces;
};

/* Marks by which what is cut in `told` is found: well clear of all, unless less clear they are well worth it. */
static struct spans_pair choose_pair(const struct marking *m, const struct spans_span *span, struct search search,
                                     struct geometry_box told)
{
    static const double clear_mm[] = { SPANS_CLEAR_MM, SPANS_LEAST_CLEAR_MM };
    struct spans_stretch stretch = { span->from_mm + search.within_mm, span->to_mm - search.within_mm,
                                     m->reach.across_mm };
    struct spans_pair best = { .off = INFINITY, .cost = INFINITY };
    if (stretch.from_mm + search.within_mm >= stretch.to_mm)
        return best;
    for (int i = 0; i < 2 && !is_best(best); i++) {
        struct spans_ground ground = { m->cut, clear_mm[i], search.on_pieces };
        struct spans_waste waste =
            spans_waste_find(m->scratch, &m->cloth, stretch, fmax(search.from_mm, stretch.from_mm), &ground);
        if (search.must_hold && !waste.holds)
            continue;
        struct spans_pair pair = spans_marks_choose(&waste, told);
        if (is_worth_it(pair, best))
            best = pair;
    }
    return best;
}

/* Well within what the light shows: the cloth may be pushed so far, and they are still in the light. By others a place
 * must be off by half as much to be worth that. */
static void choose_witnesses(struct marking *m, struct spans_span *span)
{
    struct geometry_box told = cut_box(m, span);
    struct spans_pair best =
        choose_pair(m, span, (struct search){ SPANS_PUSHED_MM, span->from_mm, false, false }, told);
    struct spans_pair any = choose_pair(m, span, (struct search){ 0, span->from_mm, false, false }, told);
    if (any.count > best.count || 2 * any.off < best.off)
        best = any;
    memcpy(span->witnesses, best.at, sizeof best.at);
    span->witness_count = best.count;
    add_chalked(m, span->witnesses, span->witness_count);
}

static int item_at(const struct spans_cloth *cloth, struct cloth_pt at)
{
    for (size_t i = 0; i < cloth->count; i++)
        if (cloth->outlines[i].path.count && geometry_path_holds(cloth->outlines[i].path, (vec2){ at.x, at.y }))
            return (int)i;
    return SPANS_WASTE;
}

/* The marks that a span shares with the next one, for which there is less room than for its own: where the waste has
 * too little, within pieces that are still held. */
static void share_marks(struct marking *m, struct spans_span spans[2], size_t number)
{
    struct search search = { 0, spans[1].from_mm, true, false };
    struct geometry_box told = cut_box(m, &spans[1]);
    struct spans_pair pair = choose_pair(m, &spans[0], search, told);
    search.on_pieces = true;
    if (pair.count < 2) {
        struct spans_pair on_pieces = choose_pair(m, &spans[0], search, told);
        if (on_pieces.count > pair.count)
            pair = on_pieces;
    }
    memcpy(spans[1].marks, pair.at, sizeof pair.at);
    spans[1].mark_count = pair.count;
    for (int i = 0; i < pair.count; i++)
        spans[1].mark_items[i] = item_at(&m->cloth, pair.at[i]);
    add_chalked(m, spans[1].marks, spans[1].mark_count);
    tell_marks(m, &spans[1], number);
}

static void mark_spans(const struct spans_cloth *cloth, struct spans_reach reach, struct spans_span *spans,
                       size_t count, struct err_list *errs)
{
    struct arena *kept = base_arena_create(), *scratch = base_arena_create();
    size_t most = cloth->chalked_count + count * (SPANS_MARKS + SPANS_WITNESSES);
    struct marking m = { .scratch = scratch,
                         .cloth = *cloth,
                         .chalked = base_arena_alloc(kept, most, sizeof *m.chalked),
                         .reach = reach,
                         .cut = base_arena_alloc(kept, cloth->count, sizeof *m.cut),
                         .errs = errs };
    if (cloth->chalked_count)
        memcpy(m.chalked, cloth->chalked, cloth->chalked_count * sizeof *m.chalked);
    m.cloth.chalked = m.chalked;
    for (size_t k = 0; k < count; k++) {
        add_cut(&m, &spans[k]);
        if (k + 1 < count)
            share_marks(&m, &spans[k], k + 1);
        choose_witnesses(&m, &spans[k]);
        base_arena_reset(scratch);
    }
    base_arena_destroy(scratch);
    base_arena_destroy(kept);
}

bool spans_make(struct arena *a, const struct spans_cloth *cloth, struct spans_reach reach, double overlap_mm,
                struct spans_plan *out, struct err_list *errs)
{
    assert(cloth->width_mm > 0 && cloth->length_mm > 0 && overlap_mm >= 0);
    struct laid laid = find_laid(a, cloth);
    *out = (struct spans_plan){ 0 };
    if (laid.count == 0)
        return true;
    if (!check_reach(&laid, reach, overlap_mm, errs))
        return false;
    struct spans_windows w = spans_windows_make(a, laid.along, laid.count, cloth->begin_mm, reach.along_mm, overlap_mm);
    struct turn_to_cut *order = cutting_order(a, &laid, &w);
    struct spans_span *spans = base_arena_alloc(a, w.count, sizeof *spans);
    for (size_t k = 0; k < w.count; k++) {
        spans[k] = (struct spans_span){ .from_mm = w.from[k], .to_mm = w.from[k] + w.reach };
        spans[k].slide_mm = k > 0 ? w.from[k] - w.from[k - 1] : 0;
        put_items(a, &spans[k], k, order, laid.count);
    }
    mark_spans(cloth, reach, spans, w.count, errs);
    *out = (struct spans_plan){ spans, w.count };
    return true;
}
