#include "lifting/arrows.h"

/* Heads are so large, and sit so near to the end: common practice, no source. */
#define HEAD_MOST_MM 18.0
#define TIP_MM 1.5
#define SIDE_LEAST_MM 0.25
#define SIDES_ALIKE 0.4

struct lifting_heads lifting_gather_heads(const struct lifting_finding *m)
{
    struct lifting_heads heads = { { NULL, 0 } };
    size_t count = 0;
    for (size_t i = 0; i < m->stroke_count; i++)
        count += m->strokes[i].corner_count;
    heads.corners.items = base_arena_alloc(m->a, count, sizeof *heads.corners.items);
    for (size_t i = 0; i < m->stroke_count; i++) {
        const struct lifting_stroke *s = &m->strokes[i];
        for (size_t k = 0; k < s->corner_count && !s->taken && lifting_stroke_reach(s) <= HEAD_MOST_MM; k++)
            heads.corners.items[heads.corners.count++] = (struct lifting_spot){ s->corners[k], i };
    }
    lifting_sort_spots(&heads.corners);
    return heads;
}

/* How far to either side of the shaft what may be a head reaches. */
struct sides {
    double left, right;
};

/* Corners behind the end, beside the shaft. Ahead of it there may be the tip alone, on the shaft's line. */
static bool add_sides(struct sides *sides, const vec2 *corners, size_t count, vec2 end, vec2 way)
{
    for (size_t k = 0; k < count; k++) {
        vec2 to = vec2_sub(corners[k], end);
        double ahead = vec2_dot(to, way), aside = vec2_cross(way, to);
        if (vec2_length(to) > HEAD_MOST_MM || (ahead > TIP_MM && fabs(aside) > SIDE_LEAST_MM + TIP_MM / 4))
            return false;
        sides->left = fmax(sides->left, aside);
        sides->right = fmax(sides->right, -aside);
    }
    return true;
}

static bool is_head(const struct sides *s)
{
    double wide = fmax(s->left, s->right);
    return s->left >= SIDE_LEAST_MM && s->right >= SIDE_LEAST_MM && fabs(s->left - s->right) <= SIDES_ALIKE * wide;
}

/* Whether the shaft's line has its own head drawn at that end. */
static bool has_own_head(const struct lifting_stroke *shaft, vec2 end, vec2 way)
{
    struct sides sides = { 0, 0 };
    for (size_t k = 0; k < shaft->corner_count; k++) {
        vec2 to = vec2_sub(shaft->corners[k], end);
        if (vec2_length(to) <= HEAD_MOST_MM && vec2_dot(to, way) < TIP_MM)
            add_sides(&sides, &shaft->corners[k], 1, end, way);
    }
    return is_head(&sides);
}

/* A triangle or V is a head by itself, two strokes are one together. */
static bool fits(const struct lifting_stroke *s)
{
    return (s->corner_count == 2 && !s->path.closed) || s->corner_count == 3 ||
           (s->corner_count == 4 && s->path.closed);
}

/* Goes through what may be a head at that end, triangles and Vs first at the tip, then with their base there, and two
 * strokes; with `take`, takes it. */
static bool look_for_head(struct lifting_finding *m, const struct lifting_heads *heads,
                          const struct lifting_stroke *shaft, vec2 end, vec2 way, bool take)
{
    struct sides together = { 0, 0 };
    const struct lifting_spot *spot;
    double reach = TIP_MM;
    bool found = false;
    for (int pass = 0; pass < 2 && !found; pass++, reach = HEAD_MOST_MM / 2) {
        for (size_t cursor = 0; (spot = lifting_next_spot(&heads->corners, end, reach, &cursor));) {
            struct lifting_stroke *s = &m->strokes[spot->of];
            struct sides own = { 0, 0 };
            if (s == shaft || s->taken || !fits(s) || !add_sides(&own, s->corners, s->corner_count, end, way))
                continue;
            bool whole = is_head(&own);
            bool part = pass == 0 && s->corner_count == 2 && fmax(own.left, own.right) >= SIDE_LEAST_MM;
            if (!whole && !part)
                continue;
            together.left = fmax(together.left, own.left);
            together.right = fmax(together.right, own.right);
            found = found || whole;
            s->taken = take;
        }
        found = found || is_head(&together);
    }
    return found;
}

bool lifting_head_at(struct lifting_finding *m, const struct lifting_heads *heads, const struct lifting_stroke *shaft,
                     vec2 from, vec2 end, bool take)
{
    vec2 way = vec2_unit(vec2_sub(end, from));
    if (has_own_head(shaft, end, way))
        return true;
    bool found = look_for_head(m, heads, shaft, end, way, false);
    if (found && take)
        look_for_head(m, heads, shaft, end, way, true);
    return found;
}
