#include "drawing/meant.h"
#include "drawing/squares.h"

#include <assert.h>

#define EVEN_MM 0.02  /* across and up differ by less: the drawing's own rounding */
#define AGREE_MM 0.05 /* two squares that say the same may differ by this, and by AGREE_SHARE */
#define AGREE_SHARE 0.0005
#define OUTVOTED 3      /* so many that agree go before one that does not */
#define SCALE_MOST 10.0 /* and its inverse */

enum { HEARD_MOST = 64 }; /* squares; the first ones, which are the largest */

static double mean_mm(const struct drawing_square *s)
{
    return (s->width_mm + s->height_mm) / 2;
}

/* Of a scan it is by no more than a dot that both ways differ, else the drawing's own rounding. */
static struct drawing_scale saved_at(const struct drawing_square *s, double side_mm)
{
    if (fabs(s->width_mm - s->height_mm) <= fmax(EVEN_MM, s->dot_mm))
        return (struct drawing_scale){ mean_mm(s) / side_mm, mean_mm(s) / side_mm };
    return (struct drawing_scale){ s->width_mm / side_mm, s->height_mm / side_mm };
}

/* By no more than a fine line, or than a scan's dot. */
static bool is_true(const struct drawing_square *s, double side_mm, double share)
{
    return fabs(share - 1) <= fmax(DRAWING_TRUE_SHARE, s->dot_mm / side_mm);
}

/* A scan that is off one way only is true the other. */
static struct drawing_scale without_dots(const struct drawing_square *s, double side_mm, struct drawing_scale saved)
{
    if (s->dot_mm > 0 && is_true(s, side_mm, saved.across))
        saved.across = 1;
    if (s->dot_mm > 0 && is_true(s, side_mm, saved.up))
        saved.up = 1;
    return saved;
}

struct drawing_truth drawing_judge_as(const struct drawing_square *square, double side_mm)
{
    assert(side_mm > 0);
    struct drawing_scale saved = saved_at(square, side_mm);
    if (!is_true(square, side_mm, saved.across) || !is_true(square, side_mm, saved.up))
        return (struct drawing_truth){ DRAWING_OFF, square, side_mm, without_dots(square, side_mm, saved) };
    /* what it is off by may be the square's own: nothing is corrected */
    return (struct drawing_truth){ DRAWING_TRUE, square, side_mm, { 1, 1 } };
}

static bool agrees_one_way(double one, double other, double within_mm, double side_mm)
{
    return fabs(one - other) <= AGREE_SHARE * one + within_mm / side_mm;
}

/* Whether the square, meant as `side_mm`, says that scale. */
static bool says(const struct drawing_square *square, double side_mm, struct drawing_scale saved)
{
    struct drawing_scale own = saved_at(square, side_mm);
    double within_mm = AGREE_MM + square->dot_mm;
    return agrees_one_way(saved.across, own.across, within_mm, side_mm) &&
           agrees_one_way(saved.up, own.up, within_mm, side_mm);
}

/* How many of the squares that have their size written say the same as this one. */
static size_t votes_for(const struct drawing_square *squares, size_t count, size_t index)
{
    struct drawing_scale saved = saved_at(&squares[index], squares[index].written_mm);
    size_t votes = 0;
    for (size_t i = 0; i < count; i++)
        votes += says(&squares[i], squares[i].written_mm, saved);
    return votes;
}

static struct drawing_truth judge_written(const struct drawing_square *squares, size_t count)
{
    size_t best = 0, most = 0;
    for (size_t i = 0; i < count; i++) {
        size_t votes = votes_for(squares, count, i);
        if (votes > most) {
            most = votes;
            best = i;
        }
    }
    struct drawing_truth truth = drawing_judge_as(&squares[best], squares[best].written_mm);
    if (most < OUTVOTED * (count - most))
        truth.kind = DRAWING_DISAGREE;
    return truth;
}

/* A scale that one of the squares without a size would say. */
struct guess {
    const struct drawing_square *square;
    double side_mm;
    struct drawing_scale saved;
    size_t votes;   /* of squares that are a round side at that scale, those of one size once */
    size_t against; /* that are none */
};

static bool is_round_at(const struct drawing_square *square, struct drawing_scale saved)
{
    for (int k = 0; k < 2; k++)
        if (square->likely_mm[k] > 0 && says(square, square->likely_mm[k], saved))
            return true;
    return false;
}

/* Whether a square before this one is as large. */
static bool is_another(const struct drawing_square *squares, size_t index)
{
    for (size_t i = 0; i < index; i++)
        if (fabs(mean_mm(&squares[i]) - mean_mm(&squares[index])) <= AGREE_MM)
            return true;
    return false;
}

static struct guess guess_of(const struct drawing_square *squares, size_t count, size_t index, double side_mm)
{
    struct guess g = { &squares[index], side_mm, saved_at(&squares[index], side_mm), 0, 0 };
    for (size_t i = 0; i < count; i++) {
        bool round = is_round_at(&squares[i], g.saved);
        g.votes += round && !is_another(squares, i);
        g.against += !round;
    }
    /* That it comes out round to a thousandth by chance is as unlikely as that a second one fits by chance. */
    g.votes += is_true(g.square, side_mm, mean_mm(g.square) / side_mm);
    return g;
}

static struct guess best_guess(const struct drawing_square *squares, size_t count)
{
    struct guess best = { 0 };
    for (size_t i = 0; i < count; i++) {
        for (int k = 0; k < 2 && squares[i].likely_mm[k] > 0; k++) {
            struct guess g = guess_of(squares, count, i, squares[i].likely_mm[k]);
            if (g.votes > best.votes)
                best = g;
        }
    }
    return best;
}

/* Whether there is another scale as good. */
static bool is_rivalled(const struct drawing_square *squares, size_t count, const struct guess *best)
{
    for (size_t i = 0; i < count; i++)
        for (int k = 0; k < 2 && squares[i].likely_mm[k] > 0; k++)
            if (!says(&squares[i], squares[i].likely_mm[k], best->saved) &&
                guess_of(squares, count, i, squares[i].likely_mm[k]).votes >= best->votes)
                return true;
    return false;
}

static struct drawing_truth judge_likely(const struct drawing_square *squares, size_t count)
{
    struct guess best = best_guess(squares, count);
    if (best.votes >= 2 && best.against * OUTVOTED <= count - best.against && !is_rivalled(squares, count, &best))
        return drawing_judge_as(best.square, best.side_mm);
    return (struct drawing_truth){ DRAWING_ASK_SIZE, squares, 0, { 1, 1 } };
}

struct drawing_truth drawing_judge(const struct drawing_square *squares, size_t count)
{
    size_t written = 0, heard = count < HEARD_MOST ? count : HEARD_MOST;
    while (written < heard && squares[written].written_mm > 0)
        written++;
    if (!count)
        return (struct drawing_truth){ DRAWING_NO_SQUARE, NULL, 0, { 1, 1 } };
    return written ? judge_written(squares, written) : judge_likely(squares, heard);
}

bool drawing_scale_by_points(vec2 from, vec2 to, double true_mm, struct drawing_scale *scale)
{
    double drawn_mm = vec2_length(vec2_sub(to, from));
    if (!(drawn_mm > 0) || !(true_mm <= SCALE_MOST * drawn_mm) || !(drawn_mm <= SCALE_MOST * true_mm))
        return false;
    *scale = (struct drawing_scale){ true_mm / drawn_mm, true_mm / drawn_mm };
    return true;
}

struct drawing_scale drawing_correction(struct drawing_scale saved)
{
    return (struct drawing_scale){ 1 / saved.across, 1 / saved.up };
}
