#include "drawing/squares.h"
#include "drawing/frames.h"
#include "drawing/meant.h"
#include "drawing/phrases.h"
#include "drawing/written.h"

#include <stdlib.h>
#include <string.h>

#define NEAR_LEAST_MM 10.0  /* that near words may be about a square; farther if they are large: */
#define NEAR_SIZES 5.0      /* times their font's size, */
#define NEAR_MOST_MM 30.0   /* but no farther */
#define SAME_SHARE 0.001    /* sides of a grid's squares */
#define ROUNDED_SHARE 0.006 /* a length in the other unit as rounded as people write it */
#define EVEN_SHARE 0.02     /* a square without words is that much a square */
#define CUT_SHARE 0.002     /* what is less a square and touches the page's edge was cut there */
#define EDGE_MM 0.5         /* from the page's edge */
#define AGAIN_MM 0.01       /* what is as large on another page is told once */
#define ABOUT_ONE_MM 0.5    /* from the centre of one frame about another to the other's */

enum {
    FRAMES_MOST = 4096,
    PHRASES_MOST = 4096, /* with a length in them */
    GRID_LEAST = 5,      /* equal squares without words on a page are a grid, and so are */
    CROWD_LEAST = 65,    /* with words */
    WORDS_MOST = 120     /* bytes in a square of whose size no idea is had but by them */
};

/* Words with lengths. */
struct told {
    const struct drawing_phrase *phrase;
    double sides_mm[DRAWING_WRITTEN_MOST];
    size_t side_count;
    bool taken; /* by the square it stands in */
};

struct candidate {
    struct drawing_frame frame;
    double width_mm, height_mm, mean_mm;
    double fits_mm[DRAWING_WRITTEN_MOST]; /* lengths that stand in it or near it and that it is near */
    size_t fit_count;
    double written_mm, likely_mm[2];
    bool halved; /* two are written, and either fits */
    bool seen;   /* all of it is */
};

struct finding {
    struct arena *a; /* for work */
    const struct drawing *d;
    struct candidate *candidates;
    size_t count;
    struct told *told;
    size_t told_count;
    const struct drawing_phrase *phrases;
    size_t phrase_count;
};

static int by_number(double a, double b)
{
    return (a > b) - (a < b);
}

/* ------------------------------------------------------------------------------------------------------ candidates */

static struct candidate candidate_of(const struct drawing_frame *frame)
{
    vec2 size = vec2_sub(frame->box.max, frame->box.min);
    return (
        struct candidate){ .frame = *frame, .width_mm = size.x, .height_mm = size.y, .mean_mm = (size.x + size.y) / 2 };
}

static double uneven(const struct candidate *c)
{
    return fabs(c->width_mm - c->height_mm) / c->mean_mm;
}

/* Sides at the page's edge: left, right, lower, upper. */
static int sides_at_edge(const struct drawing *d, const struct drawing_frame *f)
{
    const struct drawing_page *page = &d->pages[f->page];
    return (f->box.min.x <= EDGE_MM) + (f->box.max.x >= page->width_mm - EDGE_MM) + (f->box.min.y <= EDGE_MM) +
           (f->box.max.y >= page->height_mm - EDGE_MM);
}

static bool is_cut(const struct drawing *d, const struct candidate *c)
{
    int sides = sides_at_edge(d, &c->frame);
    return sides == 4 || (sides && uneven(c) > CUT_SHARE);
}

static bool is_seen(const struct drawing *d, const struct drawing_frame *f)
{
    const struct drawing_page *page = &d->pages[f->page];
    struct geometry_box window = { { 0, 0 }, { page->width_mm, page->height_mm } };
    if (f->clip != DRAWING_NONE) {
        const struct geometry_box *clip = &d->clips[f->clip];
        window.min = (vec2){ fmax(window.min.x, clip->min.x), fmax(window.min.y, clip->min.y) };
        window.max = (vec2){ fmin(window.max.x, clip->max.x), fmin(window.max.y, clip->max.y) };
    }
    return f->box.min.x >= window.min.x && f->box.min.y >= window.min.y && f->box.max.x <= window.max.x &&
           f->box.max.y <= window.max.y;
}

static int by_size(const void *left, const void *right)
{
    const struct candidate *a = left, *b = right;
    if (a->frame.page != b->frame.page)
        return a->frame.page < b->frame.page ? -1 : 1;
    int order = by_number(a->mean_mm, b->mean_mm);
    return order ? order : (a->frame.item > b->frame.item) - (a->frame.item < b->frame.item);
}

static bool has_words(const struct candidate *c)
{
    return c->written_mm > 0 || c->halved;
}

/* Drops each group of equal candidates on a page that has `least` or more; those with words stay if `spare` says so. */
static void drop_crowds(struct finding *f, size_t least, bool spare)
{
    size_t kept = 0;
    qsort(f->candidates, f->count, sizeof *f->candidates, by_size);
    for (size_t first = 0, end; first < f->count; first = end) {
        const struct candidate *c = f->candidates;
        for (end = first + 1; end < f->count && c[end].frame.page == c[first].frame.page &&
                              c[end].mean_mm - c[end - 1].mean_mm <= SAME_SHARE * c[end].mean_mm;)
            end++;
        size_t bare = 0;
        for (size_t i = first; i < end; i++)
            bare += !spare || !has_words(&c[i]);
        for (size_t i = first; i < end; i++)
            if (bare < least || (spare && has_words(&c[i])))
                f->candidates[kept++] = c[i];
    }
    f->count = kept;
}

static void take_candidates(struct finding *f)
{
    struct drawing_frames frames = drawing_find_frames(f->a, f->d);
    f->candidates = base_arena_alloc(f->a, frames.count, sizeof *f->candidates);
    for (size_t i = 0; i < frames.count; i++) {
        struct candidate c = candidate_of(&frames.rows[i]);
        c.seen = is_seen(f->d, &frames.rows[i]);
        if (!is_cut(f->d, &c))
            f->candidates[f->count++] = c;
    }
    drop_crowds(f, CROWD_LEAST, false);
    if (f->count > FRAMES_MOST)
        f->count = FRAMES_MOST;
}

/* ------------------------------------------------------------------------------------------------------------ words */

static void take_words(struct finding *f)
{
    f->phrase_count = drawing_phrases(f->a, f->d, &f->phrases);
    f->told = base_arena_alloc(f->a, PHRASES_MOST, sizeof *f->told);
    for (size_t i = 0; i < f->phrase_count && f->told_count < PHRASES_MOST; i++) {
        struct told *told = &f->told[f->told_count];
        told->phrase = &f->phrases[i];
        told->side_count = drawing_written_sides(f->a, f->phrases[i].words, told->sides_mm);
        f->told_count += told->side_count > 0;
    }
}

static bool stands_in(const struct drawing_phrase *phrase, const struct candidate *c)
{
    vec2 middle = vec2_lerp(phrase->box.min, phrase->box.max, 0.5);
    return phrase->page == c->frame.page && middle.x > c->frame.box.min.x && middle.x < c->frame.box.max.x &&
           middle.y > c->frame.box.min.y && middle.y < c->frame.box.max.y;
}

/* From the words' box to the square's. */
static double apart(const struct drawing_phrase *phrase, const struct candidate *c)
{
    double across = fmax(phrase->box.min.x - c->frame.box.max.x, c->frame.box.min.x - phrase->box.max.x);
    double up = fmax(phrase->box.min.y - c->frame.box.max.y, c->frame.box.min.y - phrase->box.max.y);
    return vec2_length((vec2){ fmax(across, 0), fmax(up, 0) });
}

static double reach_of(const struct drawing_phrase *phrase)
{
    return fmin(fmax(NEAR_LEAST_MM, NEAR_SIZES * phrase->size_mm), NEAR_MOST_MM);
}

static bool fits(const struct candidate *c, const struct told *told)
{
    for (size_t i = 0; i < told->side_count; i++)
        if (drawing_is_near(c->mean_mm / told->sides_mm[i]))
            return true;
    return false;
}

/* Of "4 in (10.2 cm)" the second is the first in other words. */
static void take_fit(struct candidate *c, double mm)
{
    for (size_t i = 0; i < c->fit_count; i++) {
        if (fabs(c->fits_mm[i] - mm) > ROUNDED_SHARE * mm)
            continue;
        if (!drawing_is_plain(c->fits_mm[i]) && drawing_is_plain(mm))
            c->fits_mm[i] = mm;
        return;
    }
    if (c->fit_count < DRAWING_WRITTEN_MOST)
        c->fits_mm[c->fit_count++] = mm;
}

static void take_fits(struct candidate *c, const struct told *told)
{
    for (size_t i = 0; i < told->side_count; i++)
        if (drawing_is_near(c->mean_mm / told->sides_mm[i]))
            take_fit(c, told->sides_mm[i]);
}

/* Words in a square are about it if they fit. */
static void read_within(struct finding *f)
{
    for (size_t i = 0; i < f->count; i++) {
        for (size_t k = 0; k < f->told_count; k++) {
            if (!stands_in(f->told[k].phrase, &f->candidates[i]) || !fits(&f->candidates[i], &f->told[k]))
                continue;
            take_fits(&f->candidates[i], &f->told[k]);
            f->told[k].taken = true;
        }
    }
}

/* Other words are about the nearest square that they fit, if it has none in it. */
static void read_beside(struct finding *f)
{
    bool *within = base_arena_alloc(f->a, f->count, sizeof *within);
    for (size_t i = 0; i < f->count; i++)
        within[i] = f->candidates[i].fit_count > 0;
    for (size_t k = 0; k < f->told_count; k++) {
        const struct drawing_phrase *phrase = f->told[k].phrase;
        size_t nearest = f->count;
        double least = reach_of(phrase);
        for (size_t i = 0; i < f->count && !f->told[k].taken; i++) {
            const struct candidate *c = &f->candidates[i];
            if (c->frame.page != phrase->page || apart(phrase, c) > least || !fits(c, &f->told[k]))
                continue;
            least = apart(phrase, c);
            nearest = i;
        }
        if (nearest < f->count && !within[nearest])
            take_fits(&f->candidates[nearest], &f->told[k]);
    }
}

static bool has_few_words(const struct finding *f, const struct candidate *c)
{
    size_t bytes = 0;
    for (size_t i = 0; i < f->phrase_count && bytes <= WORDS_MOST; i++)
        if (stands_in(&f->phrases[i], c))
            bytes += strlen(f->phrases[i].words);
    return bytes <= WORDS_MOST;
}

/* The one length in a square that has only few words and fits none; 0: there is none. */
static double only_within(const struct finding *f, const struct candidate *c)
{
    double only = 0;
    for (size_t k = 0; k < f->told_count; k++) {
        if (!stands_in(f->told[k].phrase, c))
            continue;
        if (only > 0 || f->told[k].side_count > 1 || f->told[k].taken)
            return 0;
        only = f->told[k].sides_mm[0];
    }
    return only > 0 && has_few_words(f, c) ? only : 0;
}

/* What a candidate is meant as, by what fits. */
static void settle(const struct finding *f, struct candidate *c)
{
    if (c->fit_count > 2)
        c->fit_count = 2;
    if (c->fit_count == 2 && !drawing_likelier_first(c->mean_mm, c->fits_mm)) {
        memcpy(c->likely_mm, c->fits_mm, sizeof c->likely_mm);
        c->halved = true;
    } else if (c->fit_count) {
        c->written_mm = c->fits_mm[0];
    } else {
        double only = only_within(f, c);
        if (only > 0 && c->mean_mm <= DRAWING_FAR * only && only <= DRAWING_FAR * c->mean_mm)
            c->written_mm = only;
        else if (uneven(c) <= EVEN_SHARE && !c->frame.filled && !c->frame.askew)
            drawing_likely_sides(c->mean_mm, c->likely_mm);
    }
}

/* ---------------------------------------------------------------------------------------------------------- choosing
 */

/* Of two frames about each other with one length written, as a line drawn double, only one can have it: the one that
 * comes out rounder. Where both are as round the person is asked. */
static bool is_less_round(const struct candidate *c, const struct candidate *other)
{
    vec2 from = vec2_lerp(c->frame.box.min, c->frame.box.max, 0.5),
         to = vec2_lerp(other->frame.box.min, other->frame.box.max, 0.5);
    return c->frame.page == other->frame.page && c->written_mm > 0 && c->written_mm == other->written_mm &&
           vec2_length(vec2_sub(to, from)) <= ABOUT_ONE_MM &&
           drawing_scale_rank(c->mean_mm / c->written_mm) > drawing_scale_rank(other->mean_mm / other->written_mm);
}

static bool is_again(const struct candidate *c, const struct candidate *other)
{
    return c->frame.page != other->frame.page && c->written_mm == other->written_mm && c->halved == other->halved &&
           fabs(c->width_mm - other->width_mm) <= AGAIN_MM && fabs(c->height_mm - other->height_mm) <= AGAIN_MM;
}

static int class_of(const struct candidate *c)
{
    return c->written_mm > 0 ? 0 : c->halved ? 1 : 2;
}

/* As they are told: those with words first, then the larger; of those that are as large the one that is seen whole. */
static int by_worth(const void *left, const void *right)
{
    const struct candidate *a = left, *b = right;
    int order = class_of(a) - class_of(b);
    if (!order)
        order = by_number(round(b->mean_mm / AGAIN_MM), round(a->mean_mm / AGAIN_MM));
    if (!order)
        order = b->seen - a->seen;
    if (!order)
        order = a->frame.page - b->frame.page;
    return order ? order : (a->frame.item > b->frame.item) - (a->frame.item < b->frame.item);
}

/* Whether the candidate is nothing new beside those before it, or less than another. */
static bool is_idle(const struct candidate *rows, size_t count, size_t index)
{
    for (size_t i = 0; i < count; i++)
        if ((i < index && is_again(&rows[index], &rows[i])) || is_less_round(&rows[index], &rows[i]))
            return true;
    return false;
}

static struct drawing_square square_of(const struct drawing *d, const struct candidate *c)
{
    bool traced = d->styles[c->frame.style].traced;
    return (struct drawing_square){ .page = c->frame.page,
                                    .layer = c->frame.layer,
                                    .corner = { c->frame.box.min.x, c->frame.box.min.y },
                                    .width_mm = c->width_mm,
                                    .height_mm = c->height_mm,
                                    .written_mm = c->written_mm,
                                    .likely_mm = { c->likely_mm[0], c->likely_mm[1] },
                                    .dot_mm = traced ? d->pages[c->frame.page].dot_mm : 0 };
}

size_t drawing_find_squares(struct arena *a, const struct drawing *flat, const struct drawing_square **out)
{
    struct finding f = { .a = base_arena_create(), .d = flat };
    take_candidates(&f);
    take_words(&f);
    read_within(&f);
    read_beside(&f);
    for (size_t i = 0; i < f.count; i++)
        settle(&f, &f.candidates[i]);
    drop_crowds(&f, GRID_LEAST, true);
    qsort(f.candidates, f.count, sizeof *f.candidates, by_worth);
    struct drawing_square *squares = base_arena_alloc(a, f.count, sizeof *squares);
    size_t count = 0;
    for (size_t i = 0; i < f.count; i++)
        if ((has_words(&f.candidates[i]) || f.candidates[i].likely_mm[0] > 0) && !is_idle(f.candidates, f.count, i))
            squares[count++] = square_of(flat, &f.candidates[i]);
    *out = squares;
    base_arena_destroy(f.a);
    return count;
}
