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

/* How large a square about the origin may be, half its side, before it meets a straight line between two places: convex
 * along the line, so that it is least at an end or where the line passes before a corner of the square. */
static double square_before(vec2 p, vec2 q)
{
    vec2 way = vec2_sub(q, p);
    const double corners[] = { p.x - p.y, way.y - way.x, p.x + p.y, -way.y - way.x };
    double least = fmin(fmax(fabs(p.x), fabs(p.y)), fmax(fabs(q.x), fabs(q.y)));
    for (int i = 0; i < 4; i += 2) {
        double share = corners[i] / corners[i + 1];
        if (!(share > 0 && share < 1))
            continue;
        vec2 at = vec2_lerp(p, q, share);
        least = fmin(least, fmax(fabs(at.x), fabs(at.y)));
    }
    return least;
}

/* The largest rectangle of one shape within a frame, about a place in it. */
static struct geometry_box largest_of_shape(struct geometry_path frame, vec2 middle, double width_share)
{
    double half = INFINITY;
    for (size_t i = 0; i < frame.count; i++) {
        vec2 p = vec2_sub(frame.points[i], middle), q = vec2_sub(frame.points[(i + 1) % frame.count], middle);
        half = fmin(half, square_before((vec2){ p.x / width_share, p.y * width_share },
                                        (vec2){ q.x / width_share, q.y * width_share }));
    }
    vec2 corner = { half * width_share, half / width_share };
    return (struct geometry_box){ vec2_sub(middle, corner), vec2_add(middle, corner) };
}

struct geometry_box scene_light_box(const struct geometry_map *map)
{
    static const double width_shares[] = {
        1.25, 1.33, 1.15, 1.4, 1, 0.87, 0.8, 0.75, 0.71
    }; /* square roots of shapes, those of most projectors first */
    struct arena *a = base_arena_create();
    struct geometry_path frame = geometry_map_frame(a, map, FRAME_STEPS).path;
    vec2 middle = geometry_path_centre(frame);
    struct geometry_box best = geometry_box_empty();
    double best_area = 0;
    for (size_t i = 0; i < sizeof width_shares / sizeof width_shares[0] && geometry_path_holds(frame, middle); i++) {
        struct geometry_box box = largest_of_shape(frame, middle, width_shares[i]);
        double area = (box.max.x - box.min.x) * (box.max.y - box.min.y);
        if (area > best_area) {
            best = box;
            best_area = area;
        }
    }
    base_arena_destroy(a);
    return best;
}
