#include "lifting/arrows.h"

/* Heads are so large, and sit so near to the end: common practice, no source. */
#define HEAD_MOST_MM 18.0
#define TIP_MM 1.5
#define SIDE_LEAST_MM 0.25
#define SIDES_ALIKE 0.4
#define LONG_SHARE 0.5

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

/* How far to either side of the shaft, and along it, what may be a head reaches. */
struct sides {
    double left, right, ahead, behind;
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
        sides->ahead = fmax(sides->ahead, ahead);
        sides->behind = fmax(sides->behind, -ahead);
    }
    return true;
}

/* A bar across the end has no length along the shaft. */
static bool is_head(const struct sides *s)
{
    double wide = fmax(s->left, s->right);
    return s->ahead + s->behind >= LONG_SHARE * wide && s->left >= SIDE_LEAST_MM && s->right >= SIDE_LEAST_MM &&
           fabs(s->left - s->right) <= SIDES_ALIKE * wide;
}

/* Whether the shaft's line has its own head drawn at that end. */
static bool has_own_head(const struct lifting_stroke *shaft, vec2 end, vec2 way)
{
    struct sides sides = { 0 };
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

/* What may be a head at an end of a shaft. */
struct place {
    struct lifting_finding *m;
    const struct lifting_heads *heads;
    const struct lifting_stroke *shaft;
    vec2 end, way;
};

static bool may_be_head(const struct place *p, const struct lifting_stroke *s, struct sides *own)
{
    *own = (struct sides){ 0 };
    return s != p->shaft && !s->taken && s->size == p->shaft->size && fits(s) &&
           lifting_stroke_reach(s) < p->shaft->length_mm && add_sides(own, s->corners, s->corner_count, p->end, p->way);
}

/* A triangle or V with a corner there. */
static bool whole_head(const struct place *p, double reach, bool take)
{
    const struct lifting_spot *spot;
    bool found = false;
    for (size_t cursor = 0; (spot = lifting_next_spot(&p->heads->corners, p->end, reach, &cursor));) {
        struct lifting_stroke *s = &p->m->strokes[spot->of];
        struct sides own;
        if (s->corner_count < 3 || !may_be_head(p, s, &own) || !is_head(&own))
            continue;
        found = true;
        s->taken = take;
    }
    return found;
}

/* Two strokes that run back from there, one on each side, as long as each other. */
static bool head_of_two(const struct place *p, bool take)
{
    const struct lifting_spot *spot;
    struct lifting_stroke *left = NULL, *right = NULL;
    struct sides both = { 0 };
    for (size_t cursor = 0; (spot = lifting_next_spot(&p->heads->corners, p->end, TIP_MM, &cursor));) {
        struct lifting_stroke *s = &p->m->strokes[spot->of];
        struct sides own;
        if (s->corner_count != 2 || !may_be_head(p, s, &own) || own.ahead > TIP_MM || own.behind <= 0)
            continue;
        *(own.left > own.right ? &left : &right) = s;
        both.left = fmax(both.left, own.left);
        both.right = fmax(both.right, own.right);
        both.behind = fmax(both.behind, own.behind);
    }
    if (!left || !right || !is_head(&both) || fabs(left->length_mm - right->length_mm) > SIDES_ALIKE * left->length_mm)
        return false;
    left->taken = right->taken = take;
    return true;
}

/* At the tip, else with its base at the shaft's end. */
bool lifting_head_at(struct lifting_finding *m, const struct lifting_heads *heads, const struct lifting_stroke *shaft,
                     vec2 from, vec2 end, bool take)
{
    struct place p = { m, heads, shaft, end, vec2_unit(vec2_sub(end, from)) };
    return has_own_head(shaft, end, p.way) || whole_head(&p, TIP_MM, take) || head_of_two(&p, take) ||
           whole_head(&p, HEAD_MOST_MM / 2, take);
}
