#include "drawing/tiling.h"

#include <stdlib.h>
#include <string.h>

#define SIZE_STEP_MM 1.0   /* pages whose sides differ by less are of one size */
#define FRAME_SHARE 0.4    /* of a page's side: a frame is at least that long */
#define FRAME_APART_MM 0.3 /* frames of one size */
#define REPEATED_SHARE 0.4 /* of all pages: what stands at one place on more belongs to the pages */
#define FRAMED_SHARE 0.7   /* of all pages: have the frame that pages are told from */
#define CUT_SHARE 0.25     /* of the lines that end together where most do: more than that are cut there */
#define HIDDEN_SHARE 0.4   /* of the lines that pages hold: nothing is seen where every page holds the whole sheet */
#define WINDOW_SHARE 0.7   /* of all pages: show the sheet through one window */
#define CUT_STEP_MM 0.2    /* that is a line */
#define STRAIGHT_MM 0.01   /* how far a line along an axis may lean */

static double part(vec2 v, int axis)
{
    return axis ? v.y : v.x;
}

static vec2 scaled(const struct drawing_tiling *t, vec2 p)
{
    return (vec2){ p.x * t->scale.across, p.y * t->scale.up };
}

/* ------------------------------------------------------------------------------------------------- pages of one size
 */

struct sized {
    long wide, high;
    int page;
    bool drawn;
};

static int by_size(const void *x, const void *y)
{
    const struct sized *a = x, *b = y;
    if (a->wide != b->wide)
        return a->wide < b->wide ? -1 : 1;
    if (a->high != b->high)
        return a->high < b->high ? -1 : 1;
    return a->page - b->page;
}

static bool has_drawing(const struct drawing *d, const struct drawing_page *page)
{
    for (size_t i = page->first_line; i < page->first_line + page->line_count; i++)
        if (!d->styles[d->lines[i].style].lettering)
            return true;
    return false;
}

static struct sized *sized_pages(struct arena *a, const struct drawing *d)
{
    struct sized *s = base_arena_alloc(a, d->page_count, sizeof *s);
    for (size_t i = 0; i < d->page_count; i++)
        s[i] = (struct sized){ lround(d->pages[i].width_mm / SIZE_STEP_MM),
                               lround(d->pages[i].height_mm / SIZE_STEP_MM), (int)i, has_drawing(d, &d->pages[i]) };
    qsort(s, d->page_count, sizeof *s, by_size);
    return s;
}

/* The size that most pages with lines have, of two such the first in order. */
static void choose_pages(struct drawing_tiling *t)
{
    struct sized *s = sized_pages(t->a, t->d);
    size_t best = 0, best_count = 0, best_drawn = 0;
    for (size_t first = 0, next; first < t->d->page_count; first = next) {
        size_t drawn = 0;
        for (next = first; next < t->d->page_count && s[next].wide == s[first].wide && s[next].high == s[first].high;)
            drawn += s[next++].drawn;
        if (drawn > best_drawn || best_count == 0) {
            best = first;
            best_count = next - first;
            best_drawn = drawn;
        }
    }
    t->tiles = base_arena_alloc(t->a, best_count, sizeof *t->tiles);
    t->count = best_count;
    for (size_t i = 0; i < best_count; i++) {
        const struct drawing_page *page = &t->d->pages[s[best + i].page];
        t->tiles[i] =
            (struct drawing_tile){ .page = s[best + i].page,
                                   .size = { page->width_mm * t->scale.across, page->height_mm * t->scale.up },
                                   .seen = geometry_box_empty() };
    }
}

/* ------------------------------------------------------------------------------------------------------------- frames
 */

/* Lines along one axis, as long as a frame's: where the outermost lie, and from where to where they run. */
struct rails {
    double first, last; /* beside the axis */
    double from, to;    /* along it, the same for both within FRAME_APART_MM */
    int count;
};

static void add_rail(struct rails *r, double beside, double from, double to)
{
    if (r->count == 0)
        *r = (struct rails){ beside, beside, from, to, 0 };
    r->count++;
    r->first = fmin(r->first, beside);
    r->last = fmax(r->last, beside);
    r->from = fmin(r->from, from);
    r->to = fmax(r->to, to);
}

static void add_rails(const struct drawing_tiling *t, const struct drawing_tile *tile, const struct drawing_line *line,
                      struct rails rails[DRAWING_AXES])
{
    struct geometry_path path = line->path.path;
    size_t sides = path.closed ? path.count : path.count - 1;
    for (size_t i = 0; i < sides && sides <= 8; i++) {
        vec2 p = scaled(t, path.points[i]), q = scaled(t, path.points[(i + 1) % path.count]);
        for (int axis = 0; axis < DRAWING_AXES; axis++) {
            double length = fabs(part(q, axis) - part(p, axis));
            if (length >= FRAME_SHARE * tile->size[axis] && fabs(part(q, !axis) - part(p, !axis)) <= STRAIGHT_MM)
                add_rail(&rails[axis], part(p, !axis), fmin(part(p, axis), part(q, axis)),
                         fmax(part(p, axis), part(q, axis)));
        }
    }
}

/* The rectangle that lines repeated on pages make on this one. */
static bool frame_of(const struct drawing_tiling *t, const struct drawing_tile *tile, const struct drawing_repeats *r,
                     struct geometry_box *out)
{
    struct rails rails[DRAWING_AXES] = { { 0 } };
    const struct drawing_page *page = &t->d->pages[tile->page];
    for (size_t i = page->first_line; i < page->first_line + page->line_count; i++)
        if (r->of[i] != SIZE_MAX && r->shapes[r->of[i]].page_count > 1)
            add_rails(t, tile, &t->d->lines[i], rails);
    *out = (struct geometry_box){ { rails[0].from, rails[1].from }, { rails[0].to, rails[1].to } };
    return rails[0].count >= 2 && rails[1].count >= 2 && fabs(rails[0].from - rails[1].first) <= FRAME_APART_MM &&
           fabs(rails[0].to - rails[1].last) <= FRAME_APART_MM &&
           fabs(rails[1].from - rails[0].first) <= FRAME_APART_MM &&
           fabs(rails[1].to - rails[0].last) <= FRAME_APART_MM;
}

static bool same_size(const struct geometry_box *a, const struct geometry_box *b)
{
    vec2 p = vec2_sub(a->max, a->min), q = vec2_sub(b->max, b->min);
    return fabs(p.x - q.x) <= FRAME_APART_MM && fabs(p.y - q.y) <= FRAME_APART_MM;
}

/* Where most pages have a frame of one size, it is what places on them are told from: it may stand elsewhere on odd
 * pages than on even ones. */
static void find_origins(struct drawing_tiling *t, const struct drawing_repeats *r)
{
    struct geometry_box *frames = base_arena_alloc(t->a, t->count, sizeof *frames);
    bool *has = base_arena_alloc(t->a, t->count, sizeof *has);
    size_t first = t->count, same = 0;
    vec2 usual = { 0, 0 };
    for (size_t i = 0; i < t->count; i++) {
        has[i] = frame_of(t, &t->tiles[i], r, &frames[i]);
        if (has[i] && first == t->count)
            first = i;
        if (has[i] && same_size(&frames[i], &frames[first])) {
            usual = vec2_add(usual, frames[i].min);
            same++;
        }
    }
    if ((double)same < FRAMED_SHARE * (double)t->count || same == 0)
        return;
    for (size_t i = 0; i < t->count; i++) {
        t->tiles[i].framed = has[i] && same_size(&frames[i], &frames[first]);
        t->tiles[i].origin = t->tiles[i].framed ? frames[i].min : vec2_scale(usual, 1 / (double)same);
    }
    vec2 frame = vec2_sub(frames[first].max, frames[first].min);
    for (int axis = 0; axis < DRAWING_AXES; axis++) {
        t->guides[axis][t->guide_count[axis]++] = 0;
        t->guides[axis][t->guide_count[axis]++] = part(frame, axis);
    }
}

/* ---------------------------------------------------------------------------------------------------------- furniture
 */

static size_t enough_pages(const struct drawing_tiling *t)
{
    size_t share = (size_t)ceil(REPEATED_SHARE * (double)t->count);
    return share > 2 ? share : 2;
}

static void mark_furniture(struct drawing_tiling *t, const struct drawing_repeats *texts)
{
    const struct drawing_repeats *lines = &t->lines;
    for (size_t i = 0; i < t->d->line_count; i++)
        t->furniture[i] = lines->of[i] != SIZE_MAX && lines->shapes[lines->of[i]].page_count >= enough_pages(t);
    for (size_t i = 0; i < t->d->text_count; i++)
        t->furniture_texts[i] = texts->of[i] != SIZE_MAX && texts->shapes[texts->of[i]].page_count >= enough_pages(t);
}

static void add_guide(struct drawing_tiling *t, int axis, double at)
{
    double *guides = t->guides[axis];
    for (size_t i = 0; i < t->guide_count[axis]; i++)
        if (fabs(guides[i] - at) < DRAWING_SAME_PLACE_MM / 2)
            return;
    if (t->guide_count[axis] < DRAWING_GUIDES_MOST)
        guides[t->guide_count[axis]++] = at;
}

/* Frames, crop marks and ticks stand where a page is to be cut or laid on another. */
static void add_line_guides(struct drawing_tiling *t, const struct drawing_tile *tile, const struct drawing_line *line)
{
    struct geometry_path path = line->path.path;
    for (size_t i = 0; i + 1 < path.count && path.count <= 8; i++) {
        vec2 p = vec2_sub(scaled(t, path.points[i]), tile->origin);
        vec2 q = vec2_sub(scaled(t, path.points[i + 1]), tile->origin);
        for (int axis = 0; axis < DRAWING_AXES; axis++)
            if (fabs(part(p, axis) - part(q, axis)) <= STRAIGHT_MM)
                add_guide(t, axis, part(p, axis));
    }
}

static void find_guides(struct drawing_tiling *t)
{
    const struct drawing_tile *tile = &t->tiles[t->count / 2];
    const struct drawing_page *page = &t->d->pages[tile->page];
    for (size_t i = page->first_line; i < page->first_line + page->line_count; i++)
        if (t->furniture[i])
            add_line_guides(t, tile, &t->d->lines[i]);
    for (int axis = 0; axis < DRAWING_AXES; axis++) {
        add_guide(t, axis, -part(tile->origin, axis));
        add_guide(t, axis, tile->size[axis] - part(tile->origin, axis));
    }
}

/* ------------------------------------------------------------------------------------------------------ what is seen
 */

struct geometry_box drawing_seen_box(const struct drawing *d, int page, int clip)
{
    struct geometry_box box = { { 0, 0 }, { d->pages[page].width_mm, d->pages[page].height_mm } };
    if (clip < 0 || (size_t)clip >= d->clip_count)
        return box;
    const struct geometry_box *c = &d->clips[clip];
    box.min = (vec2){ fmax(box.min.x, c->min.x), fmax(box.min.y, c->min.y) };
    box.max = (vec2){ fmin(box.max.x, c->max.x), fmin(box.max.y, c->max.y) };
    return box;
}

/* Liang and Barsky, ACM Transactions on Graphics 3 (1984). */
static bool clip_to_side(double by, double room, double *enter, double *leave)
{
    if (by == 0)
        return room >= 0;
    if (by < 0)
        *enter = fmax(*enter, room / by);
    else
        *leave = fmin(*leave, room / by);
    return *enter <= *leave;
}

bool drawing_clip_bit(const struct geometry_box *box, vec2 *from, vec2 *to)
{
    vec2 p = *from, by = vec2_sub(*to, *from);
    double enter = 0, leave = 1;
    if (!clip_to_side(-by.x, p.x - box->min.x, &enter, &leave) ||
        !clip_to_side(by.x, box->max.x - p.x, &enter, &leave) ||
        !clip_to_side(-by.y, p.y - box->min.y, &enter, &leave) || !clip_to_side(by.y, box->max.y - p.y, &enter, &leave))
        return false;
    if (leave < 1)
        *to = vec2_add(p, vec2_scale(by, leave));
    if (enter > 0)
        *from = vec2_add(p, vec2_scale(by, enter));
    return true;
}

/* What is done with each bit of a page's lines of the sheet, from its origin. */
typedef void bit_taker(struct drawing_tiling *t, struct drawing_tile *tile, vec2 from, vec2 to, long look);

static void take_line(struct drawing_tiling *t, struct drawing_tile *tile, const struct drawing_line *line,
                      bit_taker *take)
{
    struct geometry_path path = line->path.path;
    struct geometry_box box = drawing_seen_box(t->d, line->page, line->clip);
    size_t sides = path.closed ? path.count : path.count - 1;
    long look = drawing_look_of(&t->looks, line);
    for (size_t i = 0; i < sides; i++) {
        vec2 from = path.points[i], to = path.points[i + 1 < path.count ? i + 1 : 0];
        if (drawing_clip_bit(&box, &from, &to))
            take(t, tile, vec2_sub(scaled(t, from), tile->origin), vec2_sub(scaled(t, to), tile->origin), look);
    }
}

static void take_lines(struct drawing_tiling *t, bit_taker *take)
{
    for (size_t k = 0; k < t->count; k++) {
        const struct drawing_page *page = &t->d->pages[t->tiles[k].page];
        for (size_t i = page->first_line; i < page->first_line + page->line_count; i++)
            if (!t->furniture[i] && !t->d->styles[t->d->lines[i].style].lettering)
                take_line(t, &t->tiles[k], &t->d->lines[i], take);
    }
}

static void see(struct drawing_tiling *t, struct drawing_tile *tile, vec2 from, vec2 to, long look)
{
    struct geometry_box box = { { fmin(from.x, to.x), fmin(from.y, to.y) },
                                { fmax(from.x, to.x), fmax(from.y, to.y) } };
    (void)t, (void)look;
    tile->seen = geometry_box_join(tile->seen, box);
    tile->line_count++;
}

/* Lines that end where the tile's outermost do: many do where a page was cut, one or two where the sheet ends. */
static void count_ends(struct drawing_tiling *t, struct drawing_tile *tile, vec2 from, vec2 to, long look)
{
    (void)t, (void)look;
    for (int axis = 0; axis < DRAWING_AXES; axis++) {
        tile->ends[axis][0] += fmin(part(from, axis), part(to, axis)) - part(tile->seen.min, axis) <= CUT_STEP_MM / 4;
        tile->ends[axis][1] += part(tile->seen.max, axis) - fmax(part(from, axis), part(to, axis)) <= CUT_STEP_MM / 4;
    }
}

/* Where a tile's lines end, and how many do there. */
struct ending {
    double at;
    size_t lines;
};

static int outermost_first(const void *x, const void *y)
{
    const struct ending *a = x, *b = y;
    return (a->at < b->at) - (a->at > b->at);
}

/* The outermost place where many lines end; the outermost of all where none do. */
static double common_end(struct ending *ends, size_t count)
{
    size_t most = 0;
    qsort(ends, count, sizeof *ends, outermost_first);
    for (int round = 0; round < 2; round++)
        for (size_t first = 0, next; first < count; first = next) {
            size_t lines = 0;
            for (next = first; next < count && ends[first].at - ends[next].at <= CUT_STEP_MM; next++)
                lines += ends[next].lines;
            if (round == 1 && lines >= 2 && (double)lines >= CUT_SHARE * (double)most)
                return ends[first].at;
            most = lines > most ? lines : most;
        }
    return ends[0].at;
}

static void find_ends(struct drawing_tiling *t, int axis)
{
    struct ending *lows = base_arena_alloc(t->a, t->count, sizeof *lows);
    struct ending *highs = base_arena_alloc(t->a, t->count, sizeof *highs);
    size_t count = 0;
    for (size_t i = 0; i < t->count; i++) {
        const struct drawing_tile *tile = &t->tiles[i];
        if (!tile->line_count)
            continue;
        lows[count] = (struct ending){ -part(tile->seen.min, axis), tile->ends[axis][0] };
        highs[count++] = (struct ending){ part(tile->seen.max, axis), tile->ends[axis][1] };
    }
    if (count == 0) {
        t->low[axis] = -part(t->tiles[0].origin, axis);
        t->high[axis] = t->tiles[0].size[axis] + t->low[axis];
        return;
    }
    t->low[axis] = -common_end(lows, count);
    t->high[axis] = common_end(highs, count);
}

/* The clip that most lines of a tile have, from its origin. */
static bool clip_of_tile(const struct drawing_tiling *t, const struct drawing_tile *tile, struct geometry_box *out)
{
    const struct drawing_page *page = &t->d->pages[tile->page];
    int clip = DRAWING_NONE;
    size_t lead = 0; /* Boyer and Moore's vote */
    for (size_t i = page->first_line; i < page->first_line + page->line_count; i++) {
        if (t->furniture[i])
            continue;
        bool same = t->d->lines[i].clip == clip;
        clip = lead ? clip : t->d->lines[i].clip;
        lead = same || lead == 0 ? lead + 1 : lead - 1;
    }
    if (lead == 0 || clip < 0 || (size_t)clip >= t->d->clip_count)
        return false;
    struct geometry_box box = drawing_seen_box(t->d, tile->page, clip);
    out->min = vec2_sub(scaled(t, box.min), tile->origin);
    out->max = vec2_sub(scaled(t, box.max), tile->origin);
    return out->min.x < out->max.x && out->min.y < out->max.y;
}

static bool is_same_box(const struct geometry_box *a, const struct geometry_box *b)
{
    return fabs(a->min.x - b->min.x) <= CUT_STEP_MM && fabs(a->min.y - b->min.y) <= CUT_STEP_MM &&
           fabs(a->max.x - b->max.x) <= CUT_STEP_MM && fabs(a->max.y - b->max.y) <= CUT_STEP_MM;
}

/* Where nearly all pages show the sheet through one window, that is what is seen. */
static bool find_window(struct drawing_tiling *t)
{
    struct geometry_box window = geometry_box_empty(), box;
    size_t lead = 0, same = 0, drawn = 0;
    for (size_t i = 0; i < t->count; i++) {
        if (!t->tiles[i].line_count || !clip_of_tile(t, &t->tiles[i], &box))
            continue;
        bool is_same = lead && is_same_box(&box, &window);
        window = lead ? window : box;
        lead = is_same || lead == 0 ? lead + 1 : lead - 1;
    }
    for (size_t i = 0; i < t->count; i++) {
        drawn += t->tiles[i].line_count > 0;
        same += t->tiles[i].line_count && clip_of_tile(t, &t->tiles[i], &box) && is_same_box(&box, &window);
    }
    if (drawn == 0 || (double)same < WINDOW_SHARE * (double)drawn)
        return false;
    for (int axis = 0; axis < DRAWING_AXES; axis++) {
        t->low[axis] = part(window.min, axis);
        t->high[axis] = part(window.max, axis);
    }
    return true;
}

/* ------------------------------------------------------------------------------------------------ lines near the sides
 */

static void add_bit(struct drawing_tiling *t, struct drawing_bits *b, const struct drawing_bit *bit)
{
    b->bits = base_arena_grow(t->a, b->bits, &b->cap, b->count + 1, sizeof *b->bits);
    b->bits[b->count++] = *bit;
}

static void put_near(struct drawing_tiling *t, struct drawing_tile *tile, vec2 from, vec2 to, long look)
{
    for (int axis = 0; axis < DRAWING_AXES; axis++) {
        double zone = fmin(DRAWING_ZONE_MM, (t->high[axis] - t->low[axis]) / 2);
        bool turned = part(from, axis) > part(to, axis);
        vec2 p = turned ? to : from, q = turned ? from : to;
        struct drawing_bit bit = { { part(p, axis), part(p, !axis) }, { part(q, axis), part(q, !axis) }, look };
        if (bit.from[0] == bit.to[0])
            continue;
        if (bit.from[0] <= t->low[axis] + zone)
            add_bit(t, &tile->bits[axis][0], &bit);
        if (bit.to[0] >= t->high[axis] - zone)
            add_bit(t, &tile->bits[axis][1], &bit);
    }
}

static void count_hidden(struct drawing_tiling *t, struct drawing_tile *tile, const struct drawing_line *line)
{
    struct geometry_box seen = drawing_seen_box(t->d, line->page, line->clip), box = geometry_path_box(line->path.path);
    tile->whole_count++;
    tile->hidden_count +=
        box.min.x > seen.max.x || box.max.x < seen.min.x || box.min.y > seen.max.y || box.max.y < seen.min.y;
}

/* Whether much of what pages hold is not seen on them. */
static bool is_repeated(struct drawing_tiling *t)
{
    size_t whole = 0, hidden = 0;
    for (size_t k = 0; k < t->count; k++) {
        struct drawing_tile *tile = &t->tiles[k];
        const struct drawing_page *page = &t->d->pages[tile->page];
        for (size_t i = page->first_line; i < page->first_line + page->line_count; i++)
            if (!t->furniture[i] && !t->d->styles[t->d->lines[i].style].lettering)
                count_hidden(t, tile, &t->d->lines[i]);
        whole += tile->whole_count;
        hidden += tile->hidden_count;
    }
    return t->count > 1 && hidden > 0 && (double)hidden >= HIDDEN_SHARE * (double)whole;
}

static const int *pages_of(const struct drawing_tiling *t)
{
    int *pages = base_arena_alloc(t->a, t->count, sizeof *pages);
    for (size_t i = 0; i < t->count; i++)
        pages[i] = t->tiles[i].page;
    return pages;
}

struct drawing_tiling drawing_look_at_pages(struct arena *a, const struct drawing *d, struct drawing_scale scale)
{
    struct drawing_tiling t = { .a = a, .d = d, .scale = scale, .looks = drawing_find_looks(a, d) };
    t.furniture = base_arena_alloc(a, d->line_count, sizeof *t.furniture);
    t.furniture_texts = base_arena_alloc(a, d->text_count, sizeof *t.furniture_texts);
    choose_pages(&t);
    if (t.count == 0)
        return t;
    t.lines = drawing_repeated_lines(a, d, pages_of(&t), t.count);
    struct drawing_repeats texts = drawing_repeated_texts(a, d, pages_of(&t), t.count);
    find_origins(&t, &t.lines);
    mark_furniture(&t, &texts);
    find_guides(&t);
    take_lines(&t, see);
    t.repeated = is_repeated(&t);
    take_lines(&t, count_ends);
    t.windowed = find_window(&t);
    for (int axis = 0; axis < DRAWING_AXES; axis++) {
        if (!t.windowed)
            find_ends(&t, axis);
        add_guide(&t, axis, t.low[axis]);
        add_guide(&t, axis, t.high[axis]);
    }
    take_lines(&t, put_near);
    return t;
}
