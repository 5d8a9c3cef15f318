/* Where the block of a lay is, whoever laid its pieces, and what interfacing it takes.
 *
 * Pieces of the block that lie by each other are a group. The largest group is the block, and others belong to it as
 * long as one piece of interfacing is wide enough for all, and nothing else comes to lie within: so a piece that is
 * carried off by hand is told, and not all that lies between. */
#include "lay/items.h"

#include "geometry/region.h"

/* A block under way. */
struct fusing {
    struct arena *a;
    const struct lay_task *task;
    const struct lay_place *places;
    struct geometry_path *outlines; /* of each item as it lies; without points: it is not laid */
    struct geometry_box *boxes;
    bool *inside;
};

static bool may_be_inside(const struct fusing *f, size_t item)
{
    return f->task->items[item].covered && f->outlines[item].count;
}

static double width_of(struct geometry_box box)
{
    return box.max.y - box.min.y;
}

/* The interfacing around that, which ends with the cloth or goes on over the fold. */
static struct geometry_box grown(const struct fusing *f, struct geometry_box box)
{
    const vec2 past = { LAY_BLOCK_PAST_MM, LAY_BLOCK_PAST_MM };
    box = (struct geometry_box){ vec2_sub(box.min, past), vec2_add(box.max, past) };
    box.min = (vec2){ fmax(0, box.min.x), f->task->block.fold_at_from ? 0 : fmax(0, box.min.y) };
    box.max.y = fmin(f->task->spread.width_mm, box.max.y);
    return box;
}

static bool is_wide(const struct fusing *f, struct geometry_box box)
{
    double opened = width_of(grown(f, box)) * (f->task->block.fold_at_from ? 2 : 1);
    return opened > f->task->cloth->block_mm + LAY_FIT_MM;
}

struct geometry_path lay_rectangle(struct arena *a, struct geometry_box box)
{
    const vec2 corners[] = { box.min, { box.max.x, box.min.y }, box.max, { box.min.x, box.max.y } };
    struct geometry_path path = { base_arena_alloc(a, 4, sizeof(vec2)), 4, true };
    for (int i = 0; i < 4; i++)
        path.points[i] = corners[i];
    return path;
}

/* How many items that are not to be fused would be. */
static size_t strangers(const struct fusing *f, struct geometry_box box)
{
    struct geometry_path block = lay_rectangle(f->a, grown(f, box));
    size_t count = 0;
    for (size_t i = 0; i < f->task->item_count; i++)
        count += !f->task->items[i].covered && f->outlines[i].count &&
                 geometry_common_area(block, f->outlines[i]) > LAY_FIT_MM;
    return count;
}

/* --- groups ------------------------------------------------------------------------------------------------------- */

/* Whether their interfacing would meet. */
static bool lie_together(const struct fusing *f, size_t i, size_t k)
{
    double reach = 2 * LAY_BLOCK_PAST_MM + f->task->cloth->gap_mm;
    struct geometry_box a = f->boxes[i], b = f->boxes[k];
    return a.min.x <= b.max.x + reach && b.min.x <= a.max.x + reach && a.min.y <= b.max.y + reach &&
           b.min.y <= a.max.y + reach;
}

/* Gives all that lie with an item, one by the other, its group. */
static void spread_group(const struct fusing *f, int *group, size_t from)
{
    size_t *found = base_arena_alloc(f->a, f->task->item_count, sizeof *found), count = 1;
    found[0] = from;
    group[from] = (int)from;
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < f->task->item_count; k++)
            if (may_be_inside(f, k) && group[k] == LAY_NONE && lie_together(f, found[i], k)) {
                group[k] = (int)from;
                found[count++] = k;
            }
}

static struct geometry_box box_of(const struct fusing *f, const int *group, int which)
{
    struct geometry_box box = geometry_box_empty();
    for (size_t i = 0; i < f->task->item_count; i++)
        if (may_be_inside(f, i) && group[i] == which)
            box = geometry_box_join(box, f->boxes[i]);
    return box;
}

static double area_of(const struct fusing *f, const int *group, int which)
{
    double area = 0;
    for (size_t i = 0; i < f->task->item_count; i++)
        if (may_be_inside(f, i) && group[i] == which)
            area += geometry_path_area(f->outlines[i]);
    return area;
}

/* The group that the block is, LAY_NONE: there is none; told by the item that it was begun with. */
static int largest(const struct fusing *f, int *group)
{
    int best = LAY_NONE;
    double most = 0;
    for (size_t i = 0; i < f->task->item_count; i++)
        group[i] = LAY_NONE;
    for (size_t i = 0; i < f->task->item_count; i++) {
        if (!may_be_inside(f, i) || group[i] != LAY_NONE)
            continue;
        spread_group(f, group, i);
        double area = area_of(f, group, (int)i);
        best = area > most ? (int)i : best;
        most = fmax(most, area);
    }
    return best;
}

static void take_in(struct fusing *f, const int *group, int which)
{
    for (size_t i = 0; i < f->task->item_count; i++)
        f->inside[i] = f->inside[i] || (may_be_inside(f, i) && group[i] == which);
}

static struct geometry_box inside_box(const struct fusing *f, size_t but)
{
    struct geometry_box box = geometry_box_empty();
    for (size_t i = 0; i < f->task->item_count; i++)
        if (f->inside[i] && i != but)
            box = geometry_box_join(box, f->boxes[i]);
    return box;
}

static size_t inside_count(const struct fusing *f)
{
    size_t count = 0;
    for (size_t i = 0; i < f->task->item_count; i++)
        count += f->inside[i];
    return count;
}

/* Leaves out what makes it too wide, the piece that stands out most first; one stays. */
static void narrow(struct fusing *f)
{
    size_t none = f->task->item_count;
    for (size_t count = inside_count(f); count > 1 && is_wide(f, inside_box(f, none)); count--) {
        size_t out = none;
        for (size_t i = 0; i < none; i++)
            if (f->inside[i] && (out == none || width_of(inside_box(f, i)) < width_of(inside_box(f, out))))
                out = i;
        f->inside[out] = false;
    }
}

static void add_others(struct fusing *f, const int *group, int core)
{
    struct geometry_box box = inside_box(f, f->task->item_count);
    for (size_t i = 0; i < f->task->item_count; i++) {
        if (!may_be_inside(f, i) || group[i] != (int)i || group[i] == core)
            continue;
        struct geometry_box both = geometry_box_join(box, box_of(f, group, (int)i));
        if (is_wide(f, both) || strangers(f, both) > strangers(f, box))
            continue;
        take_in(f, group, (int)i);
        box = both;
    }
}

struct lay_fusing lay_fusing_of(struct arena *a, const struct lay_task *task, const struct lay_place *places)
{
    size_t n = task->item_count;
    struct fusing f = { .a = a, .task = task, .places = places };
    struct lay_fusing out = { .block = { NULL, 0, true }, .inside = base_arena_alloc(a, n, sizeof *out.inside) };
    int *group = base_arena_alloc(a, n, sizeof *group);
    f.inside = out.inside;
    if (!task->block.layers)
        return out;
    f.outlines = base_arena_alloc(a, n, sizeof *f.outlines);
    f.boxes = base_arena_alloc(a, n, sizeof *f.boxes);
    for (size_t i = 0; i < n; i++)
        if (places[i].is_laid) {
            f.outlines[i] = lay_outline(a, task, i, &places[i]).path;
            f.boxes[i] = geometry_path_box(f.outlines[i]);
        }
    int core = largest(&f, group);
    if (core == LAY_NONE)
        return out;
    take_in(&f, group, core);
    narrow(&f);
    add_others(&f, group, core);
    out.block = lay_rectangle(a, grown(&f, inside_box(&f, n)));
    return out;
}

struct cloth_path lay_block_outline(struct arena *a, const struct lay *lay)
{
    return (struct cloth_path){ lay_fusing_of(a, lay->task, lay->places).block };
}

/* --- the interfacing ---------------------------------------------------------------------------------------------- */

/* What a piece takes of the lines that interfacing of it is cut by. */
static void take_from_lines(const struct draft *draft, int piece, struct lay_hands taken, struct lay_hands *lines)
{
    for (size_t i = 0; i < draft->cut_count; i++) {
        const struct draft_cut *cut = &draft->cuts[i];
        if (cut->piece != piece || cut->cloth != PATTERN_INTERFACING || cut->fuse != PATTERN_WRONG_SIDE)
            continue;
        struct lay_hands all = lay_hands_of(cut);
        lines[i].right = all.right < taken.right ? all.right : taken.right;
        lines[i].left = all.left < taken.left ? all.left : taken.left;
        taken.right -= lines[i].right;
        taken.left -= lines[i].left;
    }
}

const struct lay_hands *lay_in_block(struct arena *a, const struct lay *fabric)
{
    const struct lay_task *task = fabric->task;
    const struct draft *draft = task->draft;
    struct lay_hands *lines = base_arena_alloc(a, draft->cut_count, sizeof *lines);
    bool *inside = lay_fusing_of(a, task, fabric->places).inside;
    for (size_t p = 0; p < draft->piece_count; p++) {
        const struct lay_hands all = lay_fused_of(draft, (int)p, PATTERN_WRONG_SIDE);
        struct lay_hands rest = all;
        for (size_t i = 0; i < task->item_count; i++)
            if (inside[i] && draft->cuts[task->items[i].cut].piece == (int)p)
                lay_take_fused(&rest, &task->items[i]);
        take_from_lines(draft, (int)p, (struct lay_hands){ all.right - rest.right, all.left - rest.left }, lines);
    }
    return lines;
}

struct lay_block lay_block_of(const struct lay *fabric)
{
    const struct lay_task *task = fabric->task;
    struct arena *scratch = base_arena_create();
    struct geometry_path path = lay_fusing_of(scratch, task, fabric->places).block;
    struct geometry_box box = geometry_path_box(path);
    bool any = path.count > 0, over_fold = task->block.fold_at_from;
    base_arena_destroy(scratch);
    if (!any)
        return (struct lay_block){ .count = 0 };
    return (struct lay_block){ .length_mm = box.max.x - box.min.x,
                               .width_mm = width_of(box) * (over_fold ? 2 : 1),
                               .from_cut_end_mm = box.min.x,
                               .from_near_edge_mm = box.min.y,
                               .count = over_fold ? 1 : task->block.layers,
                               .over_fold = over_fold };
}
