/* Every way to fill strips, by counts: how many of each kind are left is a state, numbered like a number whose digits
 * they are, the highest kind's first. What may be one column, what may be one strip, and the least length of the rest
 * are worked out once for each state. */
#include "tearing/fill.h"

#include <math.h>
#include <string.h>

enum { MOST_KINDS = 16 };
#define SAME_MM 1e-9 /* two ways that long are equally good */

struct search {
    struct tearing_filling *f;
    size_t step[MOST_KINDS]; /* what one of a kind counts in a state's number */
    size_t states;
    double *height, *width;     /* of each state as one column */
    double *wide[MOST_KINDS];   /* the least width of each state in a strip as high as that kind */
    size_t *column[MOST_KINDS]; /* and the column that it begins with */
    double *least;              /* length of each state */
    size_t *strip;              /* the strip it begins with */
};

/* One state's parts, from the first that has one of its highest kind. */
struct parts {
    int most[MOST_KINDS], digits[MOST_KINDS];
    size_t first, at;
};

static double steps_needed(const struct tearing_filling *f)
{
    double parts = 1;
    for (size_t k = 0; k < f->count; k++)
        parts *= (f->kinds[k].count + 1.0) * (f->kinds[k].count + 2.0) / 2;
    return parts * (double)(f->count + 1);
}

static size_t first_kind(const struct search *s, size_t state)
{
    size_t k = 0;
    while (state < s->step[k])
        k++;
    return k;
}

static struct parts parts_of(const struct search *s, size_t state)
{
    struct parts p = { .first = first_kind(s, state) };
    for (size_t k = p.first; k < s->f->count; k++) {
        p.most[k] = (int)(state / s->step[k]);
        state %= s->step[k];
    }
    p.digits[p.first] = 1;
    p.at = s->step[p.first];
    return p;
}

static bool next_part(const struct search *s, struct parts *p)
{
    for (size_t k = s->f->count; k-- > p->first;) {
        if (p->digits[k] < p->most[k]) {
            p->digits[k]++;
            p->at += s->step[k];
            return true;
        }
        p->at -= (size_t)p->digits[k] * s->step[k];
        p->digits[k] = 0;
    }
    return false;
}

static void reckon_columns(struct search *s)
{
    for (size_t state = 1; state < s->states; state++) {
        size_t k = first_kind(s, state), rest = state - s->step[k];
        s->height[state] = s->height[rest] + s->f->kinds[k].height_mm;
        s->width[state] = fmax(s->width[rest], s->f->kinds[k].width_mm);
    }
}

/* The least width of each state without higher kinds, in a strip as high as this one. */
static void reckon_widths(struct search *s, size_t kind)
{
    double high = s->f->kinds[kind].height_mm + TEARING_SLACK_MM;
    size_t end = s->step[kind] * (size_t)(s->f->kinds[kind].count + 1);
    s->wide[kind] = base_arena_alloc(s->f->a, end, sizeof **s->wide);
    s->column[kind] = base_arena_alloc(s->f->a, end, sizeof **s->column);
    for (size_t state = 1; state < end; state++) {
        struct parts p = parts_of(s, state);
        double best = INFINITY;
        do {
            double mm = s->height[p.at] <= high ? s->width[p.at] + s->wide[kind][state - p.at] : INFINITY;
            if (mm < best - SAME_MM) {
                best = mm;
                s->column[kind][state] = p.at;
            }
        } while (next_part(s, &p));
        s->wide[kind][state] = best;
    }
}

/* Of strips that are as good, the fullest goes first. */
static void reckon_least(struct search *s, size_t state)
{
    struct parts p = parts_of(s, state);
    const double *wide = s->wide[p.first];
    double strip_mm = s->f->kinds[p.first].height_mm + s->f->extra_mm, best = INFINITY;
    do {
        double mm = wide[p.at] <= s->f->width_mm + TEARING_SLACK_MM ? strip_mm + s->least[state - p.at] : INFINITY;
        bool as_good = mm < best + SAME_MM && wide[p.at] > wide[s->strip[state]];
        if (mm < best - SAME_MM || as_good) {
            best = mm;
            s->strip[state] = p.at;
        }
    } while (next_part(s, &p));
    s->least[state] = best;
}

static void lay_column(const struct search *s, size_t column)
{
    tearing_begin_column(s->f);
    for (size_t k = 0; k < s->f->count; k++)
        for (; column >= s->step[k] && s->step[k]; column -= s->step[k])
            tearing_add(s->f, k);
}

static void lay(const struct search *s)
{
    for (size_t state = s->states - 1; state; state -= s->strip[state]) {
        size_t kind = first_kind(s, state);
        tearing_begin_row(s->f, s->f->kinds[kind].height_mm);
        for (size_t left = s->strip[state]; left; left -= s->column[kind][left])
            lay_column(s, s->column[kind][left]);
    }
}

bool tearing_fill_least(struct tearing_filling *f)
{
    struct search s = { .f = f, .states = 1 };
    if (f->count > MOST_KINDS || steps_needed(f) > f->most_steps)
        return false;
    for (size_t k = f->count; k-- > 0; s.states *= (size_t)(f->kinds[k].count + 1))
        s.step[k] = s.states;
    s.height = base_arena_alloc(f->a, s.states, sizeof *s.height);
    s.width = base_arena_alloc(f->a, s.states, sizeof *s.width);
    s.least = base_arena_alloc(f->a, s.states, sizeof *s.least);
    s.strip = base_arena_alloc(f->a, s.states, sizeof *s.strip);
    reckon_columns(&s);
    for (size_t k = 0; k < f->count; k++)
        reckon_widths(&s, k);
    for (size_t state = 1; state < s.states; state++)
        reckon_least(&s, state);
    lay(&s);
    return true;
}
