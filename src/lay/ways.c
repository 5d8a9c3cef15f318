/* The grain's turn, that and half a turn, a little to either side where the cloth allows it; as drawn or mirrored. */
#include "lay/ways.h"

#include "lay/items.h"
#include "lay/match.h"

#include "geometry/offset.h"

enum { MOST_WAYS = 12 };

static struct geometry_path moved(struct arena *a, struct geometry_path path, struct geometry_motion how)
{
    struct geometry_mover m = geometry_mover_of(how);
    struct geometry_path out = geometry_path_copy(a, path);
    for (size_t i = 0; i < out.count; i++)
        out.points[i] = geometry_move(&m, path.points[i]);
    if (how.mirror)
        geometry_path_reverse(out);
    return out;
}

static double normal_turn(double deg)
{
    return deg > 180 ? deg - 360 : deg <= -180 ? deg + 360 : deg;
}

/* The places first, first + step … within a range. */
static struct packing_range stepped(struct packing_range within, struct packing_range lines, double place)
{
    double first = lines.first - place;
    first += ceil((within.first - LAY_FIT_MM - first) / lines.step) * lines.step;
    return (struct packing_range){ first, within.last, lines.step };
}

static void add_range(struct lay_way *w, struct packing_range range)
{
    if (range.last < range.first - LAY_FIT_MM)
        return;
    range.last = fmax(range.first, range.last);
    w->across[w->across_count++] = range;
}

/* Where the fold edge lies on a fold, with the piece on the band's side of it. */
static void range_on_fold(struct lay_way *w, const struct lay_item *item, const struct cloth_band *band)
{
    struct geometry_mover m = geometry_mover_of(w->turn);
    struct geometry_box box = geometry_path_box(w->outline);
    double fold = geometry_move(&m, (vec2){ item->piece->fold[0].x, item->piece->fold[0].y }).y;
    double above = box.max.y - fold, below = fold - box.min.y, depth = band->to_mm - band->from_mm + LAY_FIT_MM;
    if (band->fold_at_from && above > below && above <= depth)
        add_range(w, (struct packing_range){ band->from_mm - fold, band->from_mm - fold, 0 });
    if (band->fold_at_to && below > above && below <= depth)
        add_range(w, (struct packing_range){ band->to_mm - fold, band->to_mm - fold, 0 });
}

static void range_in_band(struct lay_way *w, const struct lay_task *task, const struct lay_match *match,
                          const struct cloth_band *band)
{
    struct geometry_mover m = geometry_mover_of(w->turn);
    struct geometry_box box = geometry_path_box(w->outline);
    struct packing_range range = { band->from_mm - box.min.y, band->to_mm - box.max.y, 0 };
    if (match->has_across)
        range = stepped(range, lay_lines_across(task), geometry_move(&m, match->across).y);
    add_range(w, range);
}

/* A fold piece lies across as its fold does: the stripes of a fold on a line match of themselves. */
static void set_ranges(struct lay_way *w, const struct lay_task *task, const struct lay_item *item)
{
    struct lay_match match = lay_match_of(task, item);
    struct geometry_mover m = geometry_mover_of(w->turn);
    for (int i = 0; i < task->spread.band_count; i++) {
        const struct cloth_band *band = &task->spread.bands[i];
        if (band->layers != item->layers)
            continue;
        if (item->on_fold)
            range_on_fold(w, item, band);
        else
            range_in_band(w, task, &match, band);
    }
    if (match.has_along) {
        w->along = lay_lines_along(task);
        w->along.first -= geometry_move(&m, match.along).x;
    }
}

static struct lay_way way_of(struct arena *a, const struct lay_task *task, const struct lay_item *item,
                             struct geometry_motion turn)
{
    struct lay_way w = { .turn = turn, .outline = moved(a, item->piece->cut.path, turn), .half_turn = LAY_NONE };
    set_ranges(&w, task, item);
    return w;
}

struct lay_way lay_way_of(struct arena *a, const struct lay_task *task, const struct lay_item *item,
                          const struct lay_place *place)
{
    return way_of(a, task, item,
                  (struct geometry_motion){ .mirror = place->motion.mirror, .turn_deg = place->motion.turn_deg });
}

/* A way and, where the cloth has no direction, the same turned round. A piece that is the same then needs no second. */
static size_t add_both_ways(struct arena *a, const struct lay_task *task, const struct lay_item *item,
                            struct geometry_motion turn, struct lay_way *ways, size_t count)
{
    turn.turn_deg = normal_turn(turn.turn_deg);
    ways[count] = way_of(a, task, item, turn);
    if (lay_is_one_way(task->cloth))
        return count + 1;
    bool same = lay_is_own_half_turn(ways[count].outline);
    if (same && !(ways[count].along.step > 0)) {
        ways[count].half_turn = (int)count;
        return count + 1;
    }
    turn.turn_deg = normal_turn(turn.turn_deg + 180);
    ways[count + 1] = way_of(a, task, item, turn);
    ways[count].half_turn = (int)count + 1;
    ways[count + 1].half_turn = (int)count;
    return count + 2;
}

size_t lay_ways(struct arena *a, const struct lay_task *task, const struct lay_item *item, struct lay_way **out)
{
    struct lay_way *ways = base_arena_alloc(a, MOST_WAYS, sizeof *ways);
    double tolerance = item->on_fold ? 0 : task->cloth->grain_tolerance_deg;
    const double off[] = { 0, -tolerance, tolerance };
    size_t count = 0, offs = tolerance > 0 ? 3 : 1;
    for (int mirror = 0; mirror < 2; mirror++) {
        bool either = item->either_hand && !item->own_image;
        if (!either && mirror != (int)item->mirrored)
            continue;
        double turn = lay_turn_of(lay_lengthwise(item->piece, item->on_fold), mirror);
        for (size_t i = 0; i < offs; i++)
            count = add_both_ways(a, task, item,
                                  (struct geometry_motion){ .mirror = mirror, .turn_deg = turn + off[i] }, ways, count);
    }
    *out = ways;
    return count;
}

bool lay_can_lie(const struct lay_task *task, size_t item)
{
    struct arena *scratch = base_arena_create();
    struct lay_way *ways;
    size_t count = lay_ways(scratch, task, &task->items[item], &ways), i = 0;
    while (i < count && !ways[i].across_count)
        i++;
    base_arena_destroy(scratch);
    return i < count;
}

bool lay_is_long_enough(const struct lay_task *task, size_t item)
{
    double most = task->spread.most_length_mm;
    return !(most > 0) || lay_extent(task->items[item].piece, task->items[item].on_fold).x <= most + LAY_FIT_MM;
}

struct geometry_path lay_grown(struct arena *a, const struct lay_task *task, struct geometry_path outline)
{
    struct geometry_path grown;
    if (!(task->cloth->gap_mm > 0))
        return outline;
    double *half = base_arena_alloc(a, outline.count, sizeof *half);
    for (size_t i = 0; i < outline.count; i++)
        half[i] = task->cloth->gap_mm / 2;
    return geometry_offset(a, outline, half, NULL, &grown) ? grown : outline;
}
