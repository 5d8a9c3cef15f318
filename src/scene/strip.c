/* Words along the edges of the light: the strip at one of them, and a notice across the far one. Letters never shrink
 * and no word is cut off: what has no room in one row is said in fewer words or takes another row. */
#include "scene/strip.h"

#include "base/text.h"
#include "base/words.h"
#include "scene/parts.h"

#include <math.h>
#include <string.h>

#define STRIP_INSET_MM 12.0
#define BEYOND_PX 2.0   /* how far a box at the frame's edge reaches beyond it: pixels look a little to either side */
#define NOTICE_DEEP 2.2 /* of the cap height, of one row */
#define ROW_STEP 1.4    /* of the cap height, from row to row */
#define APART 2.0       /* of the cap height, between what is at the left and what is at the right */

/* Of the cap height: from the inset to the lowest letters, from the highest letters' foot to the rule, and from that to
 * where the strip ends; less of it about several rows, that pieces keep their light. */
static const struct {
    double below, to_rule, above;
} airs[] = { { 0.5, 1.6, 0.5 }, { 0.3, 1.4, 0.5 } };

static double inset_px(const struct scene_canvas *c)
{
    return STRIP_INSET_MM * c->page.px_per_mm;
}

static double foot_px(const struct scene_canvas *c, size_t rows)
{
    return inset_px(c) + airs[rows > 1].below * scene_page_cap(c);
}

static double rule_px(const struct scene_canvas *c, size_t rows)
{
    return foot_px(c, rows) + (airs[rows > 1].to_rule + ROW_STEP * (double)(rows - 1)) * scene_page_cap(c);
}

static double top_px(const struct scene_canvas *c, size_t rows)
{
    return rule_px(c, rows) + airs[rows > 1].above * scene_page_cap(c);
}

/* --- edges ------------------------------------------------------------------------------------------------------- */

/* The canvas with the page that the strip is written on: hers, or, along her left and right, as someone at her right
 * sees it. Words then run away from her, as dimensions of drawings do that are read from the right (ISO 129). */
static struct scene_canvas as_strip(const struct scene_canvas *c)
{
    struct scene_canvas on = *c;
    enum scene_side edge = c->view->strip_edge;
    if (edge == SCENE_LEFT || edge == SCENE_RIGHT)
        on.page = scene_page_of(c->view->map, scene_side_of_hers(c->view->side, SCENE_RIGHT));
    return on;
}

/* Whether it stands at the far edge of that page. */
static bool hangs(const struct scene_view *view)
{
    return view->strip_edge == SCENE_FAR || view->strip_edge == SCENE_LEFT;
}

/* A notice stands across the light from the strip. */
static enum scene_side notice_edge(const struct scene_view *view)
{
    return scene_side_of_hers(view->strip_edge, SCENE_FAR);
}

/* Whether it stands at the near edge of the strip's page. */
static bool is_notice_near(const struct scene_view *view)
{
    return hangs(view);
}

struct scene_room scene_room_of(const struct scene_canvas *c)
{
    struct scene_room room = { 0, 0, c->page.width, c->page.height };
    double notice = scene_notice_depth(c), strip = c->strip.top_px;
    enum scene_side edge = c->view ? c->view->strip_edge : SCENE_NEAR;
    double deep[SCENE_SIDES] = { 0 };
    deep[edge] = strip;
    deep[scene_side_of_hers(edge, SCENE_FAR)] = notice;
    room.left = deep[SCENE_LEFT];
    room.near = deep[SCENE_NEAR];
    room.right -= deep[SCENE_RIGHT];
    room.far -= deep[SCENE_FAR];
    return room;
}

/* --- between check stickers -------------------------------------------------------------------------------------- */

#define NUMBER_MM 40.0 /* from a mark on a check sticker as far as its number may stand */

/* From one end of an edge to the other, px. */
struct stretch {
    double from, to;
};

/* Whether marks lie over the words. */
static bool has_stickers(const struct scene_view *view)
{
    static const bool without[] = {
        [SCENE_HELP] = true, [SCENE_LIST] = true, [SCENE_BLANK] = true, [SCENE_WORK_LIGHT] = true
    };
    return view->mode >= sizeof without / sizeof without[0] || !without[view->mode];
}

/* The longer of what a mark on an edge so deep leaves on either side of it. */
static struct stretch beside_mark(struct stretch s, double at, double half)
{
    if (at + half < s.from || at - half > s.to)
        return s;
    return at - half - s.from > s.to - at - half ? (struct stretch){ s.from, at - half }
                                                 : (struct stretch){ at + half, s.to };
}

/* What an edge of that page has for words that reach so deep into it. */
static struct stretch stretch_of(const struct scene_canvas *on, double inset, double deep, bool far)
{
    struct stretch s = { inset, on->page.width - inset };
    double mm = on->page.px_per_mm, half = SCENE_STICKER_MM * mm, below = NUMBER_MM * mm;
    if (!on->view->sticker_count || !has_stickers(on->view))
        return s;
    if (on->view->map && fabs(vec2_dot(scene_page_of(on->view->map, on->view->side).up, on->page.up)) < 0.5)
        half = below; /* numbers face her, beside their marks on this page */
    for (int i = 0; i < on->view->sticker_count; i++) {
        vec2 at = scene_page_at(&on->page, on->view->stickers[i]);
        double off = far ? on->page.height - at.y : at.y;
        if (off - below < deep)
            s = beside_mark(s, at.x, half);
    }
    return s;
}

/* --- rows of words ----------------------------------------------------------------------------------------------- */

/* How many bytes of a text have room, up to a blank: one word at least. */
static size_t bytes_with_room(const struct scene_canvas *c, const char *text, const char *behind, double room)
{
    size_t fits = 0;
    if (scene_words_width(c, text, scene_page_cap(c)) <= room)
        return strlen(text);
    for (size_t end = 0; !fits || text[end]; end++) {
        end += strcspn(text + end, " ");
        const char *part = base_arena_print(c->a, "%.*s%s", (int)end, text, text[end] ? behind : "");
        if (fits && scene_words_width(c, part, scene_page_cap(c)) > room)
            break;
        fits = end;
        if (!text[end])
            break;
    }
    return fits;
}

/* Without what parts it from the next thing, where that stands in the next row. */
static size_t without_parting(const char *row, size_t bytes)
{
    static const char parting[] = " ·";
    size_t ends = sizeof parting - 1;
    return bytes > ends && memcmp(row + bytes - ends, parting, ends) == 0 ? bytes - ends : bytes;
}

/* A text broken at blanks, the last of `most` rows cut where it is still too long; returns how many. */
static size_t in_rows(const struct scene_canvas *c, const char *text, double room, size_t most,
                      const char *rows[SCENE_STRIP_ROWS])
{
    size_t count = 0;
    while (text && *text && count < most) {
        bool last = count + 1 == most;
        size_t bytes = bytes_with_room(c, text, last ? "…" : "", room);
        const char *cut = last && text[bytes] ? "…" : "";
        rows[count++] = base_arena_print(c->a, "%.*s%s", (int)without_parting(text, bytes), text, cut);
        text += bytes + (text[bytes] != '\0');
    }
    return count;
}

static const char between[] = " · ";

/* Where the last thing that is told begins, with what parts it from the one before; its end where it is the only one.
 */
static size_t last_of(const char *text)
{
    const char *last = text + strlen(text);
    for (const char *next = strstr(text, between); next; next = strstr(next + 1, between))
        last = next;
    return (size_t)(last - text);
}

/* Whether that leads to all keys, by whichever key she gave to it. */
static bool is_help(const char *last)
{
    const char *colon = strchr(last, ':'), *keys = strchr(base_tr("F1: keys"), ':');
    return colon && keys && strcmp(colon, keys) == 0;
}

/* What is told at the right without its last thing, or without the one before where the last leads to all keys; NULL
 * when there is but one. */
static const char *with_less(const struct scene_canvas *c, const char *text)
{
    size_t head = last_of(text);
    if (!text[head])
        return NULL;
    const char *rest = base_arena_print(c->a, "%.*s", (int)head, text);
    if (!is_help(text + head) || !rest[last_of(rest)])
        return rest;
    return base_arena_print(c->a, "%.*s%s", (int)last_of(rest), rest, text + head);
}

/* --- the strip --------------------------------------------------------------------------------------------------- */

/* The row at the right beside the last at the left, or else, beginning where that does, below it. */
static struct scene_strip in_stretch(const struct scene_canvas *on, const char *left, const char *right,
                                     struct stretch s)
{
    struct scene_strip strip = { .from_px = s.from, .to_px = s.to };
    double cap = scene_page_cap(on), room = s.to - s.from, wide = scene_words_width(on, right, cap);
    strip.left_count = in_rows(on, left, room, SCENE_STRIP_ROWS, strip.left);
    const char *last = strip.left_count ? strip.left[strip.left_count - 1] : "";
    strip.rows = strip.left_count ? strip.left_count : 1;
    strip.right = right;
    if (*last && wide > 0 && scene_words_width(on, last, cap) + APART * cap + wide > room)
        strip.below_count = in_rows(on, right, room, SCENE_STRIP_ROWS - strip.rows, strip.below);
    if (strip.below_count)
        strip.right = NULL;
    strip.rows += strip.below_count;
    strip.top_px = top_px(on, strip.rows);
    return strip;
}

/* Check stickers are minded as deep as the strip then is. */
static struct scene_strip laid_out(const struct scene_canvas *on, const char *left, const char *right)
{
    struct scene_strip strip = { .rows = 0 };
    for (size_t rows = 1; rows > strip.rows; rows++) {
        struct scene_strip next =
            in_stretch(on, left, right, stretch_of(on, inset_px(on), top_px(on, rows), hangs(on->view)));
        if (next.rows <= rows)
            return next;
        strip = next;
    }
    return strip;
}

/* All of it in one row; else said in fewer words; else in as many rows as there are, with less and less at the right.
 * Where even that has no room it covers what lies there: words that are cut off help nobody. */
static struct scene_strip rows_of(const struct scene_canvas *on, const char *right, size_t most)
{
    const char *left = on->view->strip_left, *less = on->view->strip_less ? on->view->strip_less : left;
    const char *const lefts[] = { left, less };
    for (size_t rows = 1; rows <= most; rows += rows < most ? most - rows : 1)
        for (int i = 0; i < 2; i++) {
            struct scene_strip strip = laid_out(on, lefts[i], right);
            if (strip.rows <= rows)
                return strip;
        }
    struct scene_strip strip = laid_out(on, less, right);
    for (const char *told = right ? with_less(on, right) : NULL; told && strip.rows > most; told = with_less(on, told))
        strip = laid_out(on, less, told);
    return strip;
}

struct scene_strip scene_strip_of(const struct scene_canvas *c, const char *right, size_t most)
{
    const struct scene_canvas on = as_strip(c);
    return rows_of(&on, right, most);
}

size_t scene_strip_most_rows(const struct scene_canvas *c, double clear_px)
{
    size_t rows = SCENE_STRIP_ROWS;
    if (clear_px < top_px(c, 1)) /* they lie under the first row as it is */
        return rows;
    while (rows > 1 && top_px(c, rows) > clear_px)
        rows--;
    return rows;
}

/* The foot of a row's letters above its page's near edge: rows follow each other down, wherever the strip is. */
static double row_foot(const struct scene_canvas *on, size_t row)
{
    const struct scene_strip *strip = &on->strip;
    double cap = scene_page_cap(on), step = ROW_STEP * cap, foot = foot_px(on, strip->rows);
    if (hangs(on->view))
        return on->page.height - foot - cap - (double)row * step;
    return foot + (double)(strip->rows - 1 - row) * step;
}

/* Its ground and, where that is dark, the rule that parts it from the cloth. */
static void draw_ground(const struct scene_canvas *on, struct paint_ink ground)
{
    double inset = inset_px(on), rule = rule_px(on, on->strip.rows), deep = on->strip.top_px, wide = on->page.width;
    double thick = scene_pen(&on->view->look, SCENE_RULE).width * on->page.px_per_mm, high = on->page.height;
    struct paint_ink ink = scene_ink(&on->view->look, SCENE_RULE);
    if (hangs(on->view))
        scene_page_box(on, -BEYOND_PX, high - deep, wide + BEYOND_PX, high + BEYOND_PX, ground);
    else
        scene_page_box(on, -BEYOND_PX, -BEYOND_PX, wide + BEYOND_PX, deep, ground);
    if (ground.level > 0)
        return;
    double near = hangs(on->view) ? high - rule - thick : rule;
    scene_page_box(on, inset, near, wide - inset, near + thick, ink);
}

void scene_draw_strip(const struct scene_canvas *c)
{
    const struct scene_canvas on = as_strip(c);
    const struct scene_strip *strip = &on.strip;
    double cap = scene_page_cap(&on);
    bool white = c->view->mode == SCENE_WORK_LIGHT, band = c->view->band || white;
    struct paint_ink lit = white ? (struct paint_ink){ 0xffffff, 1 } : scene_letter_ink(&c->view->look);
    struct paint_ink unlit = { 0, 0 }, ink = band ? unlit : lit;
    draw_ground(&on, band ? lit : unlit);
    for (size_t i = 0; i < strip->left_count; i++)
        scene_page_words(&on, strip->left[i], SCENE_START, strip->from_px, row_foot(&on, i), cap, ink);
    for (size_t i = 0; i < strip->below_count; i++)
        scene_page_words(&on, strip->below[i], SCENE_START, strip->from_px, row_foot(&on, strip->left_count + i), cap,
                         ink);
    scene_page_words(&on, strip->right, SCENE_END, strip->to_px, row_foot(&on, strip->rows - 1), cap, ink);
}

/* --- the notice -------------------------------------------------------------------------------------------------- */

static double notice_deep(size_t rows)
{
    return rows ? NOTICE_DEEP + ROW_STEP * (double)(rows - 1) : 0;
}

double scene_notice_depth(const struct scene_canvas *c)
{
    return notice_deep(c->notice.count) * scene_page_cap(c);
}

static struct scene_notice notice_in(const struct scene_canvas *on, const char *text)
{
    struct scene_notice notice = { .count = 0 };
    double cap = scene_page_cap(on);
    for (size_t rows = 1; rows <= SCENE_STRIP_ROWS; rows++) {
        struct stretch s = stretch_of(on, cap, notice_deep(rows) * cap, !is_notice_near(on->view));
        notice.count = in_rows(on, text, s.to - s.from, SCENE_STRIP_ROWS, notice.rows);
        notice.middle_px = (s.from + s.to) / 2;
        if (notice.count <= rows)
            break;
    }
    return notice;
}

/* Where a text ends without its last sentence, or the last thing that is told; 0 where it has but one. */
static size_t last_sentence(const char *text)
{
    static const char *const ends[] = { ". ", "? ", "! ", between };
    size_t last = 0;
    for (size_t i = 0; text[i]; i++)
        for (size_t k = 0; k < sizeof ends / sizeof ends[0]; k++)
            if (base_text_behind(text + i, ends[k]))
                last = i + (k < 3);
    return last;
}

struct scene_notice scene_notice_of(const struct scene_canvas *c)
{
    const struct scene_canvas on = as_strip(c);
    const char *text = on.view->notice;
    struct scene_notice notice = notice_in(&on, text);
    for (size_t ends; on.view->notice_in_a_row && notice.count > 1 && (ends = last_sentence(text)) > 0;) {
        text = base_arena_print(c->a, "%.*s", (int)ends, text);
        notice = notice_in(&on, text);
    }
    return notice;
}

void scene_draw_notice(const struct scene_canvas *c)
{
    const struct scene_canvas on = as_strip(c);
    double cap = scene_page_cap(&on), deep = scene_notice_depth(&on);
    double top = is_notice_near(on.view) ? deep : on.page.height;
    struct paint_ink lit = scene_letter_ink(&on.view->look), unlit = { 0, 0 };
    if (!on.notice.count)
        return;
    double near = is_notice_near(on.view) ? -BEYOND_PX : top - deep;
    scene_page_box(&on, -BEYOND_PX, near, on.page.width + BEYOND_PX, near + deep + BEYOND_PX, lit);
    for (size_t i = 0; i < on.notice.count; i++)
        scene_page_words(&on, on.notice.rows[i], SCENE_MIDDLE, on.notice.middle_px,
                         top - (1.6 + ROW_STEP * (double)i) * cap, cap, unlit);
}

/* --- the light between them -------------------------------------------------------------------------------------- */

struct scene_canvas scene_canvas_of(struct arena *a, const struct scene_view *view, struct scene_page page,
                                    struct paint_scene *out)
{
    struct scene_canvas c = { .a = a, .view = view, .page = page, .out = out };
    c.strip = scene_strip_of(&c, view->strip_right, SCENE_STRIP_ROWS);
    c.notice = scene_notice_of(&c);
    return c;
}

/* A box without so much of it at that side of the table. */
static struct geometry_box without(struct geometry_box box, enum scene_side side, double mm)
{
    vec2 away = scene_side_away(side);
    if (away.x + away.y > 0)
        box.min = vec2_add(box.min, vec2_scale(away, mm));
    else
        box.max = vec2_add(box.max, vec2_scale(away, mm));
    return box;
}

struct geometry_box scene_usable_light(const struct scene_view *view)
{
    double strip = 2.5 * scene_cap_height(&view->look) + STRIP_INSET_MM;
    return without(scene_light_box(view->map), scene_side_of_hers(view->side, view->strip_edge), strip);
}

struct geometry_box scene_clear_light(const struct scene_view *view)
{
    double notice = notice_deep(1) * scene_cap_height(&view->look);
    return without(scene_usable_light(view), scene_side_of_hers(view->side, notice_edge(view)), notice);
}

/* Whether a place lies in the room. */
static bool is_lit_within(const struct scene_canvas *c, vec2 at, struct scene_room room)
{
    struct px_pt px;
    if (!geometry_map_to_px(c->view->map, (struct table_pt){ at.x, at.y }, &px))
        return false;
    vec2 p = scene_page_at(&c->page, px);
    return p.x >= room.left && p.x <= room.right && p.y >= room.near && p.y <= room.far;
}

bool scene_is_lit(const struct scene_canvas *c, vec2 at)
{
    return is_lit_within(c, at, scene_room_of(c));
}

/* --- what is to be cut ------------------------------------------------------------------------------------------- */

enum { MOST_NAMED = 2 };

/* How far a place of the page is from the strip's edge. */
static double from_edge(const struct scene_canvas *c, vec2 p)
{
    const double far[SCENE_SIDES] = {
        [SCENE_NEAR] = p.y, [SCENE_RIGHT] = c->page.width - p.x, [SCENE_FAR] = c->page.height - p.y, [SCENE_LEFT] = p.x
    };
    return far[c->view->strip_edge];
}

/* How far from the strip's edge the nearest place of these paths is drawn: none of their lines is wider than a cut
 * line.
 */
static double nearest_px(const struct scene_canvas *c, const struct scene_obstacles *outlines)
{
    double nearest = INFINITY;
    struct px_pt px;
    for (size_t i = 0; i < outlines->count; i++)
        for (size_t j = 0; j < outlines->paths[i].count; j++) {
            vec2 at = outlines->paths[i].points[j];
            if (geometry_map_to_px(c->view->map, (struct table_pt){ at.x, at.y }, &px))
                nearest = fmin(nearest, from_edge(c, scene_page_at(&c->page, px)));
        }
    return nearest - scene_pen(&c->view->look, SCENE_CUT).width / 2 * c->page.px_per_mm;
}

/* What more than a row of a notice covers is back in the light with the next key; of a layout, which stays where the
 * cloth is, all of it. */
static bool is_wholly_lit(const struct scene_canvas *c, struct geometry_path outline)
{
    struct scene_canvas without = *c;
    without.notice.count = c->notice.count && !c->view->layout ? 1 : 0;
    struct scene_room room = scene_room_of(&without);
    for (size_t i = 0; i < outline.count; i++)
        if (!is_lit_within(c, outline.points[i], room))
            return false;
    return true;
}

/* "Pocket lies partly outside the light: …", or NULL. */
static const char *outside_text(const struct scene_canvas *c, const struct scene_to_cut *to_cut)
{
    const char **names = base_arena_alloc(c->a, to_cut->outlines.count, sizeof *names);
    size_t count = 0;
    for (size_t i = 0; i < to_cut->outlines.count; i++)
        if (!is_wholly_lit(c, to_cut->outlines.paths[i]))
            names[count++] = to_cut->labels[i];
    if (!count)
        return NULL;
    const char *text = base_arena_print(
        c->a, base_tr_count(count, "%s lies partly outside the light", "%s lie partly outside the light"),
        base_text_list(c->a, names, count, MOST_NAMED));
    return c->view->outside ? base_arena_print(c->a, "%s: %s", text, c->view->outside) : text;
}

void scene_keep_in_light(struct scene_canvas *c, const struct scene_to_cut *to_cut)
{
    const struct scene_view *view = c->view;
    size_t most = scene_strip_most_rows(c, fmin(nearest_px(c, &to_cut->outlines), nearest_px(c, &to_cut->lines)));
    c->strip = scene_strip_of(c, view->strip_right, most);
    const char *outside = outside_text(c, to_cut), *right = view->strip_right ? view->strip_right : "";
    if (!outside)
        return;
    right = base_arena_print(c->a, "%s%s%s", outside, *right ? " · " : "", right);
    c->strip = scene_strip_of(c, right, most);
}
