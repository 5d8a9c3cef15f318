#include "scene/crosses.h"

#include "scene/parts.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define ARM_FROM_PX 6.0
#define ARM_TO_PX 50.0
#define NUMBER_PX 38.0
#define READ_PX 18.0    /* radius of the ring that a read cross leaves */
#define MARK_PX 24.0    /* radius of the ring around a marked one */
#define READ_NUMBER 0.6 /* of a shown cross's number */
#define NOTE 0.75       /* of the number's letters, those of the note beside it */
#define NOTE_GAP 0.3    /* of the number's letters */
#define READ_LEVEL 0.5
#define TRAIL_LEVEL 0.6
#define TICK_PX 16.0  /* half of the stroke across a measured line's end */
#define EYELET_PX 4.5 /* radius of the ring where a nudged cross stood */
#define TRAIL_DASH_PX 6.0
#define TAG_AWAY_PX 12.0 /* from the cross to the corner of its tag */
#define TAG_HEIGHT 1.5   /* of the cap height, as all of a tag */
#define TAG_PAD 0.3
#define TAG_CUT 0.3             /* off the corners at its string's side */
#define GUESSED_WIDTH_MM 1500.0 /* of the light: only for the size of letters */
#define FIRST_LINE 1.8          /* of the cap height */
#define OTHER_LINES 1.2
#define LINE_STEP 1.8
#define LINES_WIDTH 0.94    /* of the page, at most */
#define LINES_GAP_PX 90.0   /* from the cross to the sentences beside it: clear of arms, number and tag */
#define MIDDLE_FOOT 0.38    /* of the page's height: the first sentence's, where no cross is shown */
#define TARGETS_FOOT 0.56   /* … and targets are */
#define CLEAR_ABOVE_PX 46.0 /* of a read cross: its number */
#define CLEAR_BELOW_PX 26.0 /* its rings */
#define TRY_STEP_PX 10.0

enum { RING_CORNERS = 24 };

/* Shares of the frame. The corners come first, around the table: from the fourth on a reading can be questioned. They
 * tell most and stand 3 % in from the edge; their second readings stand clear of the first, so that each is read afresh
 * and all can be shown at once. The middles of the edges tell most some way in. Nudged to 0.2 mm, 95 of 100 tables are
 * then within 0.51 mm everywhere (tests/calibration/campaign.h); close beside the first it would be 0.48. */
static const double standard_places[SCENE_STANDARD_CROSSES][2] = {
    { 0.03, 0.97 }, { 0.97, 0.97 }, { 0.97, 0.03 }, { 0.03, 0.03 }, { 0.5, 0.5 },   { 0.5, 0.9 },   { 0.8, 0.5 },
    { 0.5, 0.1 },   { 0.2, 0.5 },   { 0.97, 0.11 }, { 0.97, 0.89 }, { 0.03, 0.89 }, { 0.03, 0.11 },
};

struct px_pt scene_standard_cross(int number, int width_px, int height_px)
{
    assert(number >= 1 && number <= SCENE_STANDARD_CROSSES);
    const double *share = standard_places[number - 1];
    return (struct px_pt){ (int)(share[0] * width_px) + 0.5, (int)(share[1] * height_px) + 0.5 };
}

static void px_line(const struct scene_canvas *c, vec2 from, vec2 to, struct paint_pen pen, struct paint_ink ink)
{
    struct px_path line = { { base_arena_alloc(c->a, 2, sizeof(vec2)), 2, false } };
    line.path.points[0] = from;
    line.path.points[1] = to;
    paint_px_stroke(&c->out->px, line, pen, ink);
}

static const struct paint_pen whole = { .width = SCENE_LEAST_STROKE_PX };

/* Four arms about a dark middle: the place itself stays to be seen. */
static void draw_arms(const struct scene_canvas *c, vec2 at, double from, double to, struct paint_ink ink)
{
    static const vec2 directions[] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 } };
    for (int d = 0; d < 4; d++)
        px_line(c, vec2_add(at, vec2_scale(directions[d], from)), vec2_add(at, vec2_scale(directions[d], to)), whole,
                ink);
}

static void draw_ring(const struct scene_canvas *c, vec2 at, double radius, struct paint_ink ink)
{
    struct px_path ring = { { base_arena_alloc(c->a, RING_CORNERS, sizeof(vec2)), RING_CORNERS, true } };
    for (int i = 0; i < RING_CORNERS; i++) {
        double s, k;
        geometry_sincos(360.0 * i / RING_CORNERS, &s, &k);
        ring.path.points[i] = vec2_add(at, (vec2){ radius * k, radius * s });
    }
    paint_px_stroke(&c->out->px, ring, whole, ink);
}

/* A number of only 6s and 9s has a bar below it. */
static void draw_digits(const struct scene_canvas *c, const char *text, double left, double foot, double cap,
                        struct paint_ink ink)
{
    scene_page_words(c, text, SCENE_START, left, foot, cap, ink);
    if (text[strspn(text, "69")] == '\0')
        scene_page_box(c, left, foot - 0.32 * cap, left + scene_words_width(c, text, cap), foot - 0.22 * cap, ink);
}

/* Where what is written beside a cross stands: toward the middle, where there is light to show it. */
struct beside {
    vec2 at; /* the cross, on the page */
    bool leftward, downward;
};

static struct beside beside(const struct scene_canvas *c, struct px_pt cross)
{
    vec2 at = scene_page_at(&c->page, cross);
    return (struct beside){ at, at.x > c->page.width - 3 * NUMBER_PX, at.y > c->page.height - 2 * NUMBER_PX };
}

/* Away from a read one that stands close on its right or above it. */
static struct beside beside_others(const struct scene_canvas *c, const struct scene_cross_view *view, size_t index)
{
    struct beside b = beside(c, view->crosses[index].at);
    for (size_t i = 0; i < view->count; i++) {
        vec2 off = vec2_sub(scene_page_at(&c->page, view->crosses[i].at), b.at);
        bool read = view->crosses[i].state == SCENE_CROSS_READ;
        bool right = off.x > 0 && off.x < 2 * NUMBER_PX && fabs(off.y) < NUMBER_PX;
        bool above = off.y > 0 && off.y < 3 * NUMBER_PX && fabs(off.x) < NUMBER_PX;
        b.leftward = b.leftward || (read && right);
        b.downward = b.downward || (read && above && b.at.y > 2 * NUMBER_PX);
    }
    return b;
}

/* The number, and further out on its line the note, if there is one. */
static void draw_number(const struct scene_canvas *c, const struct scene_cross *cross, struct beside b, double cap,
                        struct paint_ink ink, struct paint_ink note_ink)
{
    const char *text = base_arena_print(c->a, "%d", cross->number);
    double width = scene_words_width(c, text, cap), foot = b.at.y + (b.downward ? -1.8 : 0.8) * cap;
    double left = b.at.x + (b.leftward ? -width - 0.5 * cap : 0.5 * cap);
    draw_digits(c, text, left, foot, cap, ink);
    double note_at = b.leftward ? left - NOTE_GAP * cap : left + width + NOTE_GAP * cap;
    scene_page_words(c, cross->note, b.leftward ? SCENE_END : SCENE_START, note_at, foot, NOTE * cap, note_ink);
}

/* A lit tag, two of its corners cut, tied to the cross; the page's places of its outline. */
static void draw_tag(const struct scene_canvas *c, double string, double away, double near, double far, double cut,
                     struct paint_ink ink)
{
    double in = string + (away > string ? cut : -cut);
    const vec2 outline[] = { { in, near }, { away, near },        { away, far },
                             { in, far },  { string, far - cut }, { string, near + cut } };
    enum { CORNERS = sizeof outline / sizeof outline[0] };
    struct px_path tag = { { base_arena_alloc(c->a, CORNERS, sizeof(vec2)), CORNERS, true } };
    for (int i = 0; i < CORNERS; i++) {
        struct px_pt p = scene_page_px(&c->page, outline[i].x, outline[i].y);
        tag.path.points[i] = (vec2){ p.x, p.y };
    }
    paint_px_fill(&c->out->px, &tag, 1, ink);
}

/* The number of a nudged cross: unlit on a lit tag, so that none is taken for one that stands where it stood. */
static void draw_tagged_number(const struct scene_canvas *c, const struct scene_cross *cross, struct beside b,
                               struct paint_ink ink)
{
    const char *text = base_arena_print(c->a, "%d", cross->number);
    double cap = NUMBER_PX, width = scene_words_width(c, text, cap), depth = width + 2 * TAG_PAD * cap;
    double string = b.at.x + (b.leftward ? -TAG_AWAY_PX : TAG_AWAY_PX);
    double near = b.at.y + (b.downward ? -TAG_AWAY_PX - TAG_HEIGHT * cap : TAG_AWAY_PX);
    draw_tag(c, string, string + (b.leftward ? -depth : depth), near, near + TAG_HEIGHT * cap, TAG_CUT * cap, ink);
    double left = string + (b.leftward ? -depth : 0) + TAG_PAD * cap;
    draw_digits(c, text, left, near + 0.38 * cap, cap, (struct paint_ink){ scene_chalks[0].main, 0 });
}

/* From where it stands back to an eyelet where it stood. */
static void draw_trail(const struct scene_canvas *c, const struct scene_cross *cross)
{
    struct paint_ink ink = { scene_chalks[0].main, TRAIL_LEVEL };
    struct paint_pen dashed = { SCENE_LEAST_STROKE_PX, { TRAIL_DASH_PX, TRAIL_DASH_PX } };
    vec2 at = { cross->at.x, cross->at.y }, from = { cross->from.x, cross->from.y };
    vec2 along = vec2_unit(vec2_sub(at, from));
    double length = vec2_length(vec2_sub(at, from));
    if (length <= EYELET_PX + ARM_FROM_PX)
        return;
    draw_ring(c, from, EYELET_PX, ink);
    px_line(c, vec2_add(from, vec2_scale(along, EYELET_PX)), vec2_add(at, vec2_scale(along, -ARM_FROM_PX)), dashed,
            ink);
}

static void draw_shown(const struct scene_canvas *c, const struct scene_cross_view *view, size_t index)
{
    const struct scene_cross *cross = &view->crosses[index];
    struct beside b = beside_others(c, view, index);
    struct paint_ink full = { scene_chalks[0].main, 1 };
    draw_arms(c, (vec2){ cross->at.x, cross->at.y }, ARM_FROM_PX, ARM_TO_PX, full);
    if (!cross->nudged) {
        draw_number(c, cross, b, NUMBER_PX, full, full);
        return;
    }
    draw_trail(c, cross);
    draw_tagged_number(c, cross, b, full);
}

static void draw_read(const struct scene_canvas *c, const struct scene_cross_view *view, size_t index)
{
    const struct scene_cross *cross = &view->crosses[index];
    struct paint_ink full = { scene_chalks[0].main, 1 }, ink = { scene_chalks[0].main, READ_LEVEL };
    vec2 at = { cross->at.x, cross->at.y };
    draw_ring(c, at, READ_PX, ink);
    draw_arms(c, at, 0, READ_PX / 2, ink);
    draw_number(c, cross, beside_others(c, view, index), NUMBER_PX * READ_NUMBER, ink, full);
    if (cross->miss.x != 0 || cross->miss.y != 0)
        px_line(c, at, vec2_add(at, cross->miss), whole, full);
    if (cross->marked)
        draw_ring(c, at, MARK_PX, full);
}

static void draw_cross(const struct scene_canvas *c, const struct scene_cross_view *view, size_t index)
{
    switch (view->crosses[index].state) {
    case SCENE_CROSS_SHOWN:
        draw_shown(c, view, index);
        break;
    case SCENE_CROSS_READ:
        draw_read(c, view, index);
        break;
    case SCENE_CROSS_HIDDEN:
        break;
    }
}

/* The tape goes from one cross stroke's middle to the other's. */
static void draw_measured(const struct scene_canvas *c, struct px_path line)
{
    struct paint_ink full = { scene_chalks[0].main, 1 };
    vec2 *p = line.path.points;
    size_t last = line.path.count - 1;
    vec2 from = vec2_unit(vec2_sub(p[1], p[0])), to = vec2_unit(vec2_sub(p[last], p[last - 1]));
    vec2 across_from = vec2_scale((vec2){ -from.y, from.x }, TICK_PX),
         across_to = vec2_scale((vec2){ -to.y, to.x }, TICK_PX);
    paint_px_stroke(&c->out->px, line, whole, full);
    px_line(c, vec2_add(p[0], across_from), vec2_sub(p[0], across_from), whole, full);
    px_line(c, vec2_add(p[last], across_to), vec2_sub(p[last], across_to), whole, full);
}

static const struct scene_cross *shown(const struct scene_cross_view *view)
{
    for (size_t i = 0; i < view->count; i++)
        if (view->crosses[i].state == SCENE_CROSS_SHOWN)
            return &view->crosses[i];
    return NULL;
}

/* The width of all sentences and the height from the first one's top to the last one's foot, px, at a letter unit of
 * 1 px. */
static vec2 measure(const struct scene_canvas *c, const char *const *lines)
{
    double share = FIRST_LINE, step = FIRST_LINE; /* step: from foot to foot, and to the first from its top */
    vec2 size = { 1, 0 };
    for (const char *const *line = lines; *line; line++, share = OTHER_LINES) {
        size.x = fmax(size.x, scene_words_width(c, *line, share));
        size.y += step;
        step = LINE_STEP * share;
    }
    return size;
}

static double within(double value, double least, double most)
{
    return fmin(fmax(value, least), most);
}

/* How many read crosses a block of sentences would lie on, from its top down, in the middle of the page. */
static int crosses_under(const struct scene_canvas *c, const struct scene_cross_view *view, vec2 size, double top)
{
    int count = 0;
    for (size_t i = 0; i < view->count; i++) {
        vec2 at = scene_page_at(&c->page, view->crosses[i].at);
        count += view->crosses[i].state == SCENE_CROSS_READ && at.y - CLEAR_BELOW_PX < top &&
                 at.y + CLEAR_ABOVE_PX > top - size.y && fabs(at.x - c->page.width / 2) < size.x / 2 + CLEAR_ABOVE_PX;
    }
    return count;
}

/* The top of the sentences where no cross is shown: as near below or above the middle as they lie on the fewest. */
static double clearest_top(const struct scene_canvas *c, const struct scene_cross_view *view, vec2 size, double usual)
{
    double best = usual;
    int fewest = crosses_under(c, view, size, usual);
    for (double away = TRY_STEP_PX; away < c->page.height && fewest > 0; away += TRY_STEP_PX)
        for (int side = -1; side <= 1; side += 2) {
            double top = usual + side * away;
            int under = crosses_under(c, view, size, top);
            if (top > c->page.height || top < size.y || under >= fewest)
                continue;
            best = top;
            fewest = under;
        }
    return best;
}

/* The middle of the first sentence's foot: beyond the cross, where she bends over it and covers nothing, or before it
 * where there is no room; without a shown cross in the middle of the page, clear of those that were read. */
static vec2 lines_place(const struct scene_canvas *c, const struct scene_cross_view *view, vec2 size, double first_cap)
{
    const struct scene_cross *cross = shown(view);
    double half = size.x / 2, margin = (1 - LINES_WIDTH) / 2 * c->page.width;
    double foot = view->targets ? TARGETS_FOOT : MIDDLE_FOOT;
    double usual = fmax(foot * c->page.height + first_cap, size.y + LINES_GAP_PX); /* many lines begin higher */
    if (!cross)
        return (vec2){ c->page.width / 2, clearest_top(c, view, size, usual) - first_cap };
    vec2 at = scene_page_at(&c->page, cross->at);
    double most = c->page.width - half - margin;
    double across = half + margin < most ? within(at.x, half + margin, most) : c->page.width / 2;
    double up = at.y < c->page.height / 2 ? at.y + LINES_GAP_PX + size.y : at.y - LINES_GAP_PX;
    return (vec2){ across, up - first_cap };
}

/* Dark behind the sentences. */
static void clear_lines(const struct scene_canvas *c, vec2 at, vec2 size, double cap)
{
    double top = at.y + 1.5 * cap;
    scene_page_box(c, at.x - size.x / 2 - cap, top - size.y - cap, at.x + size.x / 2 + cap, top,
                   (struct paint_ink){ 0, 0 });
}

/* Letters shrink so that the longest sentence fits between the edges of a narrow page. */
static void draw_lines(const struct scene_canvas *c, const struct scene_cross_view *view)
{
    if (!view->lines)
        return;
    vec2 size = measure(c, view->lines);
    double unit = fmin(scene_page_cap(c), LINES_WIDTH * c->page.width / size.x), cap = FIRST_LINE * unit;
    vec2 at = lines_place(c, view, vec2_scale(size, unit), cap);
    if (view->doubt || view->line.path.count)
        clear_lines(c, at, vec2_scale(size, unit), cap);
    for (const char *const *line = view->lines; *line; line++) {
        scene_page_words(c, *line, SCENE_MIDDLE, at.x, at.y, cap, (struct paint_ink){ scene_chalks[0].main, 1 });
        at.y -= LINE_STEP * cap;
        cap = OTHER_LINES * unit;
    }
}

struct paint_scene scene_crosses(struct arena *a, const struct scene_cross_view *view)
{
    struct paint_scene scene = paint_scene_create(a);
    double mm_per_px = GUESSED_WIDTH_MM / view->width_px;
    struct scene_view words = { .font = view->font,
                                .look = { mm_per_px, SCENE_CUT_WIDTH_MM, &scene_chalks[0] },
                                .help = view->help,
                                .help_count = view->help_count,
                                .notice = view->notice,
                                .stickers = view->stickers,
                                .sticker_count = view->sticker_count,
                                .sticker_in_hand = view->sticker_in_hand };
    struct scene_page page = scene_page_turned(view->width_px, view->height_px, view->quarter, 1 / mm_per_px);
    struct scene_canvas c = scene_canvas_of(a, &words, page, &scene);
    for (size_t i = 0; i < view->count && !view->help; i++)
        draw_cross(&c, view, i);
    if (view->line.path.count)
        draw_measured(&c, view->line);
    if (view->targets)
        scene_draw_targets(&c, view->width_px, view->height_px);
    if (view->doubt)
        scene_draw_doubt(&c, view->map, view->doubt, view->doubt_of);
    if (view->help)
        scene_draw_help(&c);
    else
        draw_lines(&c, view);
    scene_draw_notice(&c);
    if (!view->help)
        scene_draw_stickers(&c, false);
    return scene;
}
