/* First placing of a scrap: cloth without an edge or an end that is straight lies by its outline and its grain, as the
 * cloth's file tells them. */
#include "app/place_state.h"
#include "base/words.h"

#include <math.h>

#define CORNER_SIGMA_MM 1.5 /* a corner as it was measured and is seen again; our own choice */
#define GRAIN_SHARE 0.8     /* of the way across the scrap that its grain line takes */

bool app_place_is_scrap(const struct app_place_cloth *cloth)
{
    return cloth->lay->task->cloth->outline.path.count > 0;
}

bool app_place_has_grain(const struct app_place_cloth *cloth)
{
    return cloth->lay->task->cloth->kind != CLOTH_HIDE;
}

struct geometry_path app_place_outline(struct arena *a, const struct app_place_cloth *cloth)
{
    const struct cloth *of = cloth->lay->task->cloth;
    struct geometry_path path = cloth_washed_path(a, of, of->outline.path);
    vec2 first = geometry_path_box(path).min; /* its box is the cloth (cloth/spread.c) */
    for (size_t i = 0; i < path.count; i++)
        path.points[i] = vec2_sub(path.points[i], first);
    if (geometry_path_area(path) < 0) /* so that the cloth is at its left */
        geometry_path_reverse(path);
    return path;
}

/* The longest way along the grain at the middle of the scrap, and some less at both ends. */
void app_place_grain_line(struct arena *a, const struct app_place_cloth *cloth, struct cloth_pt ends[2])
{
    struct geometry_path path = app_place_outline(a, cloth);
    double y = geometry_path_box(path).max.y / 2, *at = base_arena_alloc(a, path.count, sizeof *at), longest = 0;
    size_t count = geometry_path_crossings(path, y, at);
    for (size_t i = 0; i + 1 < count; i += 2) {
        double long_mm = at[i + 1] - at[i], spare = (1 - GRAIN_SHARE) / 2 * long_mm;
        if (long_mm <= longest)
            continue;
        longest = long_mm;
        ends[0] = (struct cloth_pt){ at[i] + spare, y };
        ends[1] = (struct cloth_pt){ at[i + 1] - spare, y };
    }
}

/* The two of its corners in the light that lie farthest apart. */
static bool find_corners(struct arena *a, const struct app_place_cloth *cloth, struct cloth_pt out[2])
{
    struct geometry_path path = app_place_outline(a, cloth);
    struct spans_reach reach = app_place_reach(cloth);
    double farthest = 0;
    for (size_t i = 0; i < path.count; i++)
        for (size_t j = i + 1; j < path.count; j++) {
            vec2 p = path.points[i], q = path.points[j];
            double apart = vec2_length(vec2_sub(q, p));
            if (apart <= farthest || fmax(p.x, q.x) > reach.along_mm || fmax(p.y, q.y) > reach.across_mm)
                continue;
            farthest = apart;
            out[0] = (struct cloth_pt){ p.x, p.y };
            out[1] = (struct cloth_pt){ q.x, q.y };
        }
    return farthest > 0;
}

bool app_place_aim_corners(struct app *app, struct app_place_cloth *cloth)
{
    struct geometry_motion straight = app_place_straight(cloth, 0);
    struct arena *a = base_arena_create();
    struct cloth_pt corners[APP_PLACE_CORNERS];
    bool found = find_corners(a, cloth, corners);
    app_place_aim_anew(cloth);
    for (int i = 0; found && i < APP_PLACE_CORNERS; i++) {
        static const char *const names[APP_PLACE_CORNERS] = { "1", "2" };
        struct app_chalk corner = { names[i], corners[i], false };
        app_place_aim_mark(cloth, &straight, &corner);
        cloth->aims[i].sighting.sigma_mm = CORNER_SIGMA_MM;
    }
    if (!found)
        app->told = base_tr("The light shows no two corners of this scrap: hang the projector higher");
    base_arena_destroy(a);
    return found;
}

/* From one to the other on the cloth and on the table. */
struct geometry_motion app_place_by_corners(const struct app_place_cloth *cloth)
{
    const struct spans_sighting *p = &cloth->aims[0].sighting, *q = &cloth->aims[1].sighting;
    vec2 is = { q->table.x - p->table.x, q->table.y - p->table.y };
    vec2 was = { q->cloth.x - p->cloth.x, q->cloth.y - p->cloth.y };
    struct geometry_motion m = { .turn_deg = geometry_direction(vec2_cross(was, is), vec2_dot(was, is)) };
    struct table_pt first = app_place_at(&m, p->cloth);
    m.shift = (vec2){ p->table.x - first.x, p->table.y - first.y };
    return m;
}
