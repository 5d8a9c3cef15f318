#include "lettering/guess.h"

/* Own bounds, no source: how much another shape of the box, and another count of contours, is apart. */
#define ASPECT_APART 0.15
#define HOLE_APART 0.15
#define PART_APART 0.3
#define FARTHEST 1.2
#define SAME 0.002 /* the same letter of the same font again, its points rounded otherwise */
#define SAME_ASPECT 0.0004

/* So much takes about a second; what more there is are no letters. */
enum { REMEMBERED_MOST = 1000, FRESH_MOST = 6000 };

struct remembered {
    struct lettering_form form;
    struct lettering_guesses guesses;
};

struct lettering_reader {
    struct arena *a;
    struct lettering_alphabet alphabet;
    struct remembered *seen;
    size_t seen_count, seen_cap;
    size_t guessed; /* letters that were not met before */
};

struct lettering_reader *lettering_reader_create(struct arena *a, struct lettering_alphabet alphabet)
{
    struct lettering_reader *r = base_arena_alloc(a, 1, sizeof *r);
    r->a = a;
    r->alphabet = alphabet;
    return r;
}

/* 0 for boxes of one shape; like the square of the logarithm of what one is narrower by. Full stops and strokes have
 * next to no width of their own in one direction. */
static double aspect_apart(const struct lettering_form *a, const struct lettering_form *b)
{
    double one = a->width * b->height, other = b->width * a->height;
    if (!(one > 0) || !(other > 0))
        return one > 0 || other > 0 ? FARTHEST : 0;
    return one / other + other / one - 2;
}

static double counts_apart(const struct lettering_form *a, const struct lettering_form *b)
{
    return HOLE_APART * fmin(3, fabs((double)a->holes - b->holes)) +
           PART_APART * fmin(3, fabs((double)a->parts - b->parts));
}

static struct lettering_guesses nothing_like(void)
{
    return (struct lettering_guesses){ { { LETTERING_UNKNOWN, FARTHEST, 0, 1 } }, 1 };
}

static struct lettering_guesses guess_anew(const struct lettering_reader *r, const struct lettering_form *form)
{
    struct lettering_guesses out = { .count = 0 };
    for (size_t i = 0; i < r->alphabet.count; i++) {
        const struct lettering_sort *sort = &r->alphabet.sorts[i];
        double apart = ASPECT_APART * aspect_apart(form, &sort->form) + counts_apart(form, &sort->form);
        double most = out.count < GUESSES_MOST ? FARTHEST : out.items[out.count - 1].apart;
        if (apart >= most)
            continue;
        apart += lettering_forms_apart(form, &sort->form, most - apart);
        size_t at = 0;
        while (at < out.count && out.items[at].letter != sort->letter)
            at++;
        if (apart >= (at < out.count ? out.items[at].apart : most))
            continue;
        if (at == out.count)
            at = out.count < GUESSES_MOST ? out.count++ : out.count - 1;
        for (; at > 0 && out.items[at - 1].apart > apart; at--)
            out.items[at] = out.items[at - 1];
        out.items[at] = (struct lettering_guess){ sort->letter, apart, sort->bottom, sort->top };
    }
    return out.count ? out : nothing_like();
}

static bool is_same(const struct lettering_form *a, const struct lettering_form *b)
{
    return a->parts == b->parts && a->holes == b->holes && aspect_apart(a, b) < SAME_ASPECT &&
           lettering_forms_apart(a, b, SAME) < SAME;
}

struct lettering_guesses lettering_guess(struct lettering_reader *r, const struct lettering_form *form)
{
    for (size_t i = 0; i < r->seen_count; i++)
        if (is_same(&r->seen[i].form, form))
            return r->seen[i].guesses;
    struct lettering_guesses guesses = r->guessed < FRESH_MOST ? guess_anew(r, form) : nothing_like();
    r->guessed++;
    if (r->seen_count < REMEMBERED_MOST) {
        r->seen = base_arena_grow(r->a, r->seen, &r->seen_cap, r->seen_count + 1, sizeof *r->seen);
        r->seen[r->seen_count++] = (struct remembered){ *form, guesses };
    }
    return guesses;
}
