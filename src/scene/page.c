#include "scene/page.h"

#include <math.h>
#include <string.h>

static const struct {
    const char *name;
    vec2 right, away;
} side_rows[SCENE_SIDES] = {
    [SCENE_NEAR] = { "near", { 1, 0 }, { 0, 1 } },
    [SCENE_RIGHT] = { "right", { 0, 1 }, { -1, 0 } },
    [SCENE_FAR] = { "far", { -1, 0 }, { 0, -1 } },
    [SCENE_LEFT] = { "left", { 0, -1 }, { 1, 0 } },
};

const char *scene_side_name(enum scene_side side)
{
    return side_rows[side].name;
}

bool scene_side_find(const char *name, enum scene_side *out)
{
    for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++)
        if (strcmp(side_rows[side].name, name) == 0) {
            *out = side;
            return true;
        }
    return false;
}

enum scene_side scene_side_of_hers(enum scene_side stands, enum scene_side hers)
{
    return (enum scene_side)(((int)stands + (int)hers) % SCENE_SIDES);
}

vec2 scene_side_right(enum scene_side side)
{
    return side_rows[side].right;
}

vec2 scene_side_away(enum scene_side side)
{
    return side_rows[side].away;
}

/* The pixel direction that falls along a direction of the table: the Jacobian's inverse times it. */
static vec2 px_direction(struct geometry_jacobian j, vec2 table)
{
    double det = j.xu * j.yv - j.xv * j.yu;
    return (vec2){ (j.yv * table.x - j.xv * table.y) / det, (j.xu * table.y - j.yu * table.x) / det };
}

static vec2 nearest_axis(vec2 d)
{
    if (fabs(d.x) >= fabs(d.y))
        return (vec2){ d.x < 0 ? -1 : 1, 0 };
    return (vec2){ 0, d.y < 0 ? -1 : 1 };
}

/* The corner of the frame that reading and rising lead away from, and how far they lead. */
static void lay_page(struct scene_page *page, double w, double h)
{
    vec2 diagonal = vec2_add(page->right, page->up);
    page->origin = (vec2){ diagonal.x > 0 ? 0 : w, diagonal.y > 0 ? 0 : h };
    page->width = page->right.x != 0 ? w : h;
    page->height = page->right.x != 0 ? h : w;
}

struct scene_page scene_page_of(const struct geometry_map *map, enum scene_side side)
{
    double w = map->width_px, h = map->height_px;
    struct geometry_jacobian j = geometry_map_jacobian(map, (struct px_pt){ w / 2, h / 2 });
    vec2 right = px_direction(j, side_rows[side].right), away = px_direction(j, side_rows[side].away);
    struct scene_page page = { .right = nearest_axis(right) };
    /* Away is the other axis of the frame, whichever way round the map shows it. */
    page.up = page.right.x != 0 ? (vec2){ 0, away.y < 0 ? -1 : 1 } : (vec2){ away.x < 0 ? -1 : 1, 0 };
    lay_page(&page, w, h);
    page.px_per_mm = (vec2_length(right) + vec2_length(away)) / 2;
    return page;
}

struct scene_page scene_page_turned(int width_px, int height_px, int quarter, double px_per_mm)
{
    static const vec2 rights[] = { { 1, 0 }, { 0, -1 }, { -1, 0 }, { 0, 1 } };
    struct scene_page page = { .right = rights[quarter % 4], .px_per_mm = px_per_mm };
    page.up = vec2_right(page.right); /* pixels run down: what is right in a plane that runs up is up here */
    lay_page(&page, width_px, height_px);
    return page;
}

struct px_pt scene_page_px(const struct scene_page *page, double across, double up)
{
    vec2 p = vec2_add(page->origin, vec2_add(vec2_scale(page->right, across), vec2_scale(page->up, up)));
    return (struct px_pt){ p.x, p.y };
}

vec2 scene_page_at(const struct scene_page *page, struct px_pt px)
{
    vec2 off = vec2_sub((vec2){ px.x, px.y }, page->origin);
    return (vec2){ vec2_dot(off, page->right), vec2_dot(off, page->up) };
}

enum { FRAME_STEPS = 16 };

static bool box_is_lit(struct geometry_path frame, struct geometry_box box)
{
    for (int i = 0; i <= FRAME_STEPS; i++) {
        vec2 at = vec2_lerp(box.min, box.max, (double)i / FRAME_STEPS);
        bool lit = geometry_path_holds(frame, (vec2){ at.x, box.min.y }) &&
                   geometry_path_holds(frame, (vec2){ at.x, box.max.y }) &&
                   geometry_path_holds(frame, (vec2){ box.min.x, at.y }) &&
                   geometry_path_holds(frame, (vec2){ box.max.x, at.y });
        if (!lit)
            return false;
    }
    return true;
}

static struct geometry_box box_about(vec2 middle, double half_width, double half_height)
{
    return (struct geometry_box){ { middle.x - half_width, middle.y - half_height },
                                  { middle.x + half_width, middle.y + half_height } };
}

/* The largest lit rectangle of one shape about the middle, by halving the interval of its size. */
static struct geometry_box largest_of_shape(struct geometry_path frame, vec2 middle, double width_share, double reach)
{
    double least = 0, most = reach;
    for (int i = 0; i < 40; i++) {
        double half = (least + most) / 2;
        if (box_is_lit(frame, box_about(middle, half * width_share, half / width_share)))
            least = half;
        else
            most = half;
    }
    return box_about(middle, least * width_share, least / width_share);
}

struct geometry_box scene_light_box(const struct geometry_map *map)
{
    static const double width_shares[] = {
        1.25, 1.33, 1.15, 1.4, 1, 0.87, 0.8, 0.75, 0.71
    }; /* square roots of shapes, those of most projectors first */
    struct arena *a = base_arena_create();
    struct geometry_path frame = geometry_map_frame(a, map, FRAME_STEPS).path;
    struct geometry_box around = geometry_path_box(frame), best = geometry_box_empty();
    vec2 middle = geometry_path_centre(frame);
    double reach = vec2_length(vec2_sub(around.max, around.min)), best_area = 0;
    for (size_t i = 0; i < sizeof width_shares / sizeof width_shares[0]; i++) {
        double half = sqrt(best_area) / 2;
        if (!box_is_lit(frame, box_about(middle, half * width_shares[i], half / width_shares[i])))
            continue; /* none of this shape is larger */
        struct geometry_box box = largest_of_shape(frame, middle, width_shares[i], reach);
        double area = (box.max.x - box.min.x) * (box.max.y - box.min.y);
        if (area > best_area) {
            best = box;
            best_area = area;
        }
    }
    base_arena_destroy(a);
    return best;
}
