/* What strips leave: behind their rectangles, above those that are lower than the strip, and beside strips along. */
#include "base/text.h"
#include "base/words.h"
#include "tearing/rests.h"

#include <math.h>
#include <string.h>

#define SEEN_MM 1.0   /* less is nothing */
#define LEFT_MM 10.0  /* less is not worth telling … */
#define ABOVE_MM 50.0 /* … or above rectangles, where there may be many (both our own choice) */

struct leaving {
    struct arena *a;
    const struct tearing_plan *plan;
    struct tearing_rest *rests;
    size_t count, cap;
};

/* Columns side by side that are filled up to one height: from and to along the strip, and how high. */
struct columns {
    double from_mm, to_mm, up_mm;
    const char *label; /* of the last one's topmost rectangle */
    const char *names; /* of all of those */
};

static struct cloth cloth_of(const struct cloth *whole, vec2 size)
{
    struct cloth rest = *whole;
    rest.width_mm = size.y;
    rest.washed_width_mm = rest.selvedge_mm = 0;
    rest.length_mm = size.x;
    rest.is_washed = true;
    rest.spread = CLOTH_SINGLE;
    rest.faults = NULL; /* strips lie past them */
    rest.fault_count = 0;
    return rest;
}

static void add(struct leaving *l, int strip, const char *above, struct geometry_box at)
{
    vec2 size = vec2_sub(at.max, at.min);
    if (size.x < SEEN_MM || size.y < SEEN_MM)
        return;
    l->rests = base_arena_grow(l->a, l->rests, &l->cap, l->count + 1, sizeof *l->rests);
    l->rests[l->count++] = (struct tearing_rest){
        .strip = strip, .above = above, .along = l->plan->along, .at = at, .cloth = cloth_of(l->plan->task->cloth, size)
    };
}

/* A part of a trimmed strip: along its own length, and up from its first edge. */
static struct geometry_box part(const struct tearing_plan *p, const struct tearing_strip *s, double from, double to,
                                double low, double high)
{
    double margin = p->task->margin_mm, edge = s->from_mm + margin, begin = p->start_mm + margin;
    if (!p->along)
        return (struct geometry_box){ { edge + low, from }, { edge + high, to } };
    return (struct geometry_box){ { begin + from, edge + low }, { begin + to, edge + high } };
}

static const char *with_name(struct arena *a, const char *names, const char *label)
{
    const char *name = base_arena_print(a, base_tr("“%s”"), base_text_one_line(a, label));
    if (!names)
        return name;
    return strstr(names, name) ? names : base_arena_print(a, base_tr("%s and %s"), names, name);
}

/* The column that begins with that rectangle; *spot: the first of the next. */
static struct columns column_at(struct arena *a, const struct tearing_plan *p, const struct tearing_strip *s,
                                size_t *spot)
{
    struct columns c = { s->spots[*spot].across_mm, s->used_mm, 0, NULL, NULL };
    size_t i = *spot;
    for (; i < s->spot_count && s->spots[i].across_mm < c.from_mm + SEEN_MM; i++) {
        const struct tearing_need *need = &p->needs[s->spots[i].kind];
        c.up_mm = s->spots[i].along_mm + (p->along ? need->width_mm : need->height_mm);
        c.label = need->piece->label;
    }
    c.names = with_name(a, NULL, c.label);
    if (i < s->spot_count)
        c.to_mm = s->spots[i].across_mm;
    *spot = i;
    return c;
}

static void leave_above(struct leaving *l, int strip, const struct columns *c)
{
    const struct tearing_strip *s = &l->plan->strips[strip];
    add(l, strip, c->names, part(l->plan, s, c->from_mm, c->to_mm, c->up_mm, s->size_mm));
}

static void leave_of(struct leaving *l, int strip)
{
    const struct tearing_strip *s = &l->plan->strips[strip];
    size_t spot = 0;
    struct columns now = column_at(l->a, l->plan, s, &spot);
    while (spot < s->spot_count) {
        struct columns next = column_at(l->a, l->plan, s, &spot);
        if (fabs(next.up_mm - now.up_mm) < SEEN_MM) {
            now.to_mm = next.to_mm;
            now.up_mm = fmax(now.up_mm, next.up_mm);
            now.names = with_name(l->a, now.names, next.label);
            continue;
        }
        leave_above(l, strip, &now);
        now = next;
    }
    leave_above(l, strip, &now);
    add(l, strip, NULL, part(l->plan, s, s->used_mm, l->plan->strip_length_mm, 0, s->size_mm));
}

static void leave_beside(struct leaving *l)
{
    const struct tearing_plan *p = l->plan;
    double margin = p->task->margin_mm, begin = p->start_mm + margin,
           from = p->strips[p->strip_count - 1].to_mm + margin;
    struct geometry_box at = { { begin, from }, { begin + p->strip_length_mm, cloth_usable_width(p->task->cloth) } };
    add(l, TEARING_BESIDE, NULL, at);
}

size_t tearing_left(struct arena *a, const struct tearing_plan *plan, struct tearing_rest **out)
{
    struct leaving l = { .a = a, .plan = plan };
    for (size_t i = 0; i < plan->strip_count; i++)
        leave_of(&l, (int)i);
    if (plan->along && plan->strip_count)
        leave_beside(&l);
    *out = l.rests;
    return l.count;
}

bool tearing_is_worth_telling(const struct tearing_rest *rest)
{
    return fmin(rest->cloth.width_mm, rest->cloth.length_mm) >= (rest->above ? ABOVE_MM : LEFT_MM);
}
