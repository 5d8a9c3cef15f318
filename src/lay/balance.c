/* Cloth that is folded to a depth: which pairs are cut at once in its double part, and which one by one in the single
 * part. What has no choice is counted first; then pairs from the largest to the smallest go where the longer of the two
 * parts stays the shorter, a part's length being the area in it over its width. */
#include "lay/items.h"

#include <stdlib.h>

struct pair {
    int cut;
    double area;
};

struct balance {
    const struct lay_task *task;
    double single, doubled;               /* widths */
    double single_length, doubled_length; /* so far */
    int *pairs;                           /* of each line, in the double part */
    struct pair *open;                    /* that may go into either */
    size_t open_count, cap;
};

int lay_pairs(int right, int left, bool alike)
{
    return alike ? (right + left) / 2 : right < left ? right : left;
}

static void put_single(struct balance *b, double area)
{
    b->single_length += area / b->single;
}

static void put_doubled(struct balance *b, double area)
{
    b->doubled_length += area / b->doubled;
}

static void count_folded(struct balance *b, const struct draft_piece *half, int count)
{
    double area = geometry_path_area(half->cut.path) * count;
    bool on_fold = lay_has_fold_for(&b->task->spread, half) && lay_extent(half, true).y <= b->doubled + LAY_FIT_MM;
    if (on_fold)
        put_doubled(b, area);
    else
        put_single(b, 2 * area);
}

static void count_pairs(struct arena *a, struct balance *b, int cut, const struct draft_piece *piece, int pairs)
{
    double area = geometry_path_area(piece->cut.path), across = lay_extent(piece, false).y - LAY_FIT_MM;
    b->pairs[cut] = across <= b->single ? 0 : pairs;
    if (across > b->single)
        put_doubled(b, area * pairs);
    else if (across > b->doubled)
        put_single(b, 2 * area * pairs);
    else {
        b->open = base_arena_grow(a, b->open, &b->cap, b->open_count + (size_t)pairs, sizeof *b->open);
        for (int i = 0; i < pairs; i++)
            b->open[b->open_count++] = (struct pair){ cut, area };
    }
}

static void count_line(struct arena *a, struct balance *b, int index)
{
    const struct draft_cut *cut = &b->task->draft->cuts[index];
    const struct draft_piece *piece = &b->task->draft->pieces[cut->piece];
    struct lay_hands here = lay_hands_here(b->task, index);
    if (piece->has_fold) {
        count_folded(b, piece, here.right);
        b->pairs[index] = here.right;
        return;
    }
    bool alike = b->task->cloth->sides_alike || lay_is_own_image(piece, !b->task->cloth->one_way);
    int pairs = lay_pairs(here.right, here.left, alike);
    put_single(b, geometry_path_area(piece->cut.path) * (here.right + here.left - 2 * pairs));
    count_pairs(a, b, index, piece, pairs);
}

static int by_area(const void *pa, const void *pb)
{
    const struct pair *a = pa, *b = pb;
    if (a->area != b->area)
        return a->area < b->area ? 1 : -1;
    return a->cut - b->cut;
}

static void put_open(struct balance *b, const struct pair *p)
{
    double single = fmax(b->single_length + 2 * p->area / b->single, b->doubled_length);
    double doubled = fmax(b->doubled_length + p->area / b->doubled, b->single_length);
    if (doubled <= single) {
        put_doubled(b, p->area);
        b->pairs[p->cut]++;
    } else {
        put_single(b, 2 * p->area);
    }
}

const int *lay_balance(struct arena *a, const struct lay_task *task)
{
    const struct draft *draft = task->draft;
    struct balance b = { .task = task,
                         .single = lay_widest_band(&task->spread, 1),
                         .doubled = lay_widest_band(&task->spread, 2),
                         .pairs = base_arena_alloc(a, draft->cut_count, sizeof *b.pairs) };
    for (size_t c = 0; c < draft->cut_count; c++)
        if (draft->cuts[c].cloth == task->material)
            count_line(a, &b, (int)c);
    if (b.open_count)
        qsort(b.open, b.open_count, sizeof *b.open, by_area);
    for (size_t i = 0; i < b.open_count; i++)
        put_open(&b, &b.open[i]);
    return b.pairs;
}
