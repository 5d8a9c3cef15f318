#include "lifting/finding.h"

/* Dots, circles and crosses: common practice of pattern sheets, no source. */
#define ROUND_LEAST_MM 0.9
#define ROUND_MOST_MM 13
#define ROUND_EVEN 0.12 /* of its radius */
#define ARM_LEAST_MM 2
#define ARM_MOST_MM 16
#define ARMS_ALIKE 0.2
#define MIDDLES_MM 0.5
#define ACROSS 0.85 /* sine of the angle between the arms */
#define SAME_MM 0.6

static vec2 middle_of(const struct lifting_stroke *s)
{
    return vec2_lerp(s->box.min, s->box.max, 0.5);
}

static bool is_round(const struct lifting_stroke *s)
{
    double wide = s->box.max.x - s->box.min.x, high = s->box.max.y - s->box.min.y, radius = (wide + high) / 4;
    if (wide < ROUND_LEAST_MM || wide > ROUND_MOST_MM || fabs(wide - high) > 2 * ROUND_EVEN * radius ||
        s->path.count < 8)
        return false;
    vec2 first = s->path.points[0], last = s->path.points[s->path.count - 1];
    if (!s->path.closed && vec2_length(vec2_sub(first, last)) > ROUND_EVEN * radius)
        return false;
    for (size_t i = 0; i < s->path.count; i++)
        if (fabs(vec2_length(vec2_sub(s->path.points[i], middle_of(s))) - radius) > ROUND_EVEN * radius)
            return false;
    return !s->filled || s->alone; /* else an o */
}

/* One arm of a cross. */
static bool is_arm(const struct lifting_stroke *s)
{
    return !s->taken && lifting_is_straight(s) && s->length_mm >= ARM_LEAST_MM && s->length_mm <= ARM_MOST_MM;
}

static bool are_cross(const struct lifting_stroke *a, const struct lifting_stroke *b)
{
    vec2 u = vec2_unit(vec2_sub(a->corners[1], a->corners[0])), v = vec2_unit(vec2_sub(b->corners[1], b->corners[0]));
    return a != b && a->size == b->size && fabs(a->length_mm - b->length_mm) <= ARMS_ALIKE * a->length_mm &&
           fabs(vec2_cross(u, v)) >= ACROSS;
}

/* Drills that were found, by their size. */
struct drills {
    struct lifting_spots spots;
    int *sizes;
};

static void put(struct drills *drills, vec2 at, int size)
{
    drills->sizes[drills->spots.count] = size;
    drills->spots.items[drills->spots.count] = (struct lifting_spot){ at, drills->spots.count };
    drills->spots.count++;
}

static void find_crosses(struct lifting_finding *m, struct drills *drills)
{
    struct lifting_spots arms = { base_arena_alloc(m->a, m->stroke_count, sizeof *arms.items), 0 };
    for (size_t i = 0; i < m->stroke_count; i++)
        if (is_arm(&m->strokes[i]))
            arms.items[arms.count++] = (struct lifting_spot){ middle_of(&m->strokes[i]), i };
    lifting_sort_spots(&arms);
    for (size_t i = 0; i < arms.count; i++) {
        struct lifting_stroke *a = &m->strokes[arms.items[i].of];
        const struct lifting_spot *other;
        for (size_t cursor = 0;
             !a->taken && (other = lifting_next_spot(&arms, arms.items[i].at, MIDDLES_MM, &cursor));) {
            struct lifting_stroke *b = &m->strokes[other->of];
            if (b->taken || !are_cross(a, b))
                continue;
            a->taken = b->taken = true;
            put(drills, arms.items[i].at, a->size);
        }
    }
}

/* A circle about a cross is one mark with it. */
static void put_marks(struct lifting_finding *m, struct drills *drills)
{
    bool *done = base_arena_alloc(m->a, drills->spots.count, sizeof *done);
    lifting_sort_spots(&drills->spots);
    for (size_t i = 0; i < drills->spots.count; i++) {
        const struct lifting_spot *spot = &drills->spots.items[i], *other;
        int size = drills->sizes[spot->of];
        if (done[spot->of])
            continue;
        for (size_t cursor = 0; (other = lifting_next_spot(&drills->spots, spot->at, SAME_MM, &cursor));)
            done[other->of] = done[other->of] || drills->sizes[other->of] == size;
        lifting_put_mark(m, LIFTING_DRILL, size, &spot->at, 1);
    }
}

void lifting_find_drills(struct lifting_finding *m)
{
    struct drills drills = { { base_arena_alloc(m->a, m->stroke_count, sizeof *drills.spots.items), 0 },
                             base_arena_alloc(m->a, m->stroke_count, sizeof *drills.sizes) };
    find_crosses(m, &drills);
    for (size_t i = 0; i < m->stroke_count; i++)
        if (!m->strokes[i].taken && is_round(&m->strokes[i])) {
            m->strokes[i].taken = true;
            put(&drills, middle_of(&m->strokes[i]), m->strokes[i].size);
        }
    put_marks(m, &drills);
}
