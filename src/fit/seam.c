#include "fit/seam.h"

#include "draft/draft.h"

#include <math.h>
#include <stdlib.h>

struct mark {
    double mm; /* from the seam's beginning */
    enum { A_NOTCH, A_DOUBLE_NOTCH, A_JOINT } kind;
};

/* One side of a seam under the tape: how far the walk has come, and where its marks are. */
struct walk {
    const struct draft_sized *sized;
    double length_mm;
    struct mark *marks; /* in order */
    size_t mark_count;
};

/* How much of an edge's first `along` mm is sewn to the other side: all but the darts' mouths. */
static double sewn_until(const struct draft_sized *sized, int index, int edge, double along)
{
    const struct pattern_piece *piece = &sized->pattern->pieces[index];
    double sewn = along;
    for (size_t i = 0; i < piece->dart_count; i++) {
        double mouth[2];
        if (piece->darts[i].edge == edge && draft_dart_mouth(&sized->pieces[index], &piece->darts[i], mouth))
            sewn -= fmax(0, fmin(along, mouth[1]) - mouth[0]);
    }
    return sewn;
}

double fit_sewn_mm(const struct draft_sized *sized, int piece, int edge)
{
    return sewn_until(sized, piece, edge, sized->pieces[piece].edge_mm[edge]);
}

static int by_place(const void *a, const void *b)
{
    double first = ((const struct mark *)a)->mm, second = ((const struct mark *)b)->mm;
    return (first > second) - (first < second);
}

static void walk_edge(struct walk *w, struct pattern_edge_ref ref)
{
    const struct pattern_piece *piece = &w->sized->pattern->pieces[ref.piece];
    const struct draft_sized_piece *at_size = &w->sized->pieces[ref.piece];
    double sewn = fit_sewn_mm(w->sized, ref.piece, ref.edge);
    size_t first = w->mark_count;
    for (size_t i = 0; i < piece->notch_count; i++) {
        if (piece->notches[i].edge != ref.edge)
            continue;
        double at = sewn_until(w->sized, ref.piece, ref.edge, at_size->notch_mm[i]);
        w->marks[w->mark_count++] = (struct mark){ w->length_mm + (ref.backwards ? sewn - at : at),
                                                   piece->notches[i].is_double ? A_DOUBLE_NOTCH : A_NOTCH };
    }
    qsort(w->marks + first, w->mark_count - first, sizeof *w->marks, by_place);
    w->length_mm += sewn;
    if (ref.mark_after)
        w->marks[w->mark_count++] = (struct mark){ w->length_mm, A_JOINT };
}

static struct walk walk_side(struct arena *scratch, const struct draft_sized *sized, const struct pattern_seam *seam,
                             int side)
{
    size_t marks = pattern_seam_marks(sized->pattern, seam, side);
    struct walk w = { .sized = sized, .marks = base_arena_alloc(scratch, marks, sizeof(struct mark)) };
    for (size_t i = 0; i < seam->sides[side].count; i++)
        walk_edge(&w, seam->sides[side].edges[i]);
    return w;
}

/* Length from mark `interval` - 1 (or the beginning) to the next mark (or the end). */
static double interval_length(const struct walk *w, size_t interval, size_t count)
{
    double from = interval ? w->marks[interval - 1].mm : 0;
    double to = interval + 1 < count ? w->marks[interval].mm : w->length_mm;
    return to - from;
}

/* The first pair of notches, from 1, of which one is double and the other is not; 0: there is none. Where edges meet,
 * any notch may be met. */
static size_t unlike_pair(const struct walk sides[2])
{
    for (size_t i = 0; i < sides[0].mark_count && i < sides[1].mark_count; i++) {
        unsigned first = sides[0].marks[i].kind, second = sides[1].marks[i].kind;
        if (first != second && first != A_JOINT && second != A_JOINT)
            return i + 1;
    }
    return 0;
}

static double difference_meant(const struct pattern_seam *seam, const struct draft_sized_seam *meant, size_t interval,
                               size_t count, double second, double second_whole)
{
    if (meant->ratio > 0)
        return (meant->ratio - 1) * second;
    if (meant->interval_mm && seam->interval_count == count)
        return meant->interval_mm[interval];
    return second_whole > 0 ? meant->difference_mm * (second / second_whole) : meant->difference_mm / (double)count;
}

static void note_worst(struct fit_seam *m, double off_mm, size_t interval)
{
    if (fabs(off_mm) <= m->worst_mm && interval)
        return;
    m->worst_mm = fabs(off_mm);
    m->worst_interval = interval;
}

bool fit_seam_can_be_measured(const struct draft_sized *sized, const struct pattern_seam *seam)
{
    for (int side = 0; side < 2; side++)
        for (size_t i = 0; i < seam->sides[side].count; i++)
            if (!sized->pieces[seam->sides[side].edges[i].piece].is_sound)
                return false;
    return draft_seam_at(sized, seam)->is_sound;
}

struct fit_seam fit_seam_measure(struct arena *scratch, const struct draft_sized *sized,
                                 const struct pattern_seam *seam)
{
    struct walk sides[2];
    for (int side = 0; side < 2; side++)
        sides[side] = walk_side(scratch, sized, seam, side);
    const struct draft_sized_seam *meant = draft_seam_at(sized, seam);
    double second = sides[1].length_mm;
    struct fit_seam m = { .length_mm = { sides[0].length_mm, second },
                          .ratio = meant->ratio,
                          .marks_agree = sides[0].mark_count == sides[1].mark_count };
    m.off_mm = sides[0].length_mm - (meant->ratio > 0 ? meant->ratio * second : second + meant->difference_mm);
    m.unlike_mark = m.marks_agree ? unlike_pair(sides) : 0;
    m.interval_count = m.marks_agree ? sides[0].mark_count + 1 : 1;
    struct fit_interval *intervals = base_arena_alloc(scratch, m.interval_count, sizeof *intervals);
    for (size_t i = 0; i < m.interval_count; i++) {
        for (int side = 0; side < 2; side++)
            intervals[i].length_mm[side] = interval_length(&sides[side], i, m.interval_count);
        double there = intervals[i].length_mm[1];
        intervals[i].meant_mm = difference_meant(seam, meant, i, m.interval_count, there, second);
        intervals[i].off_mm = intervals[i].length_mm[0] - there - intervals[i].meant_mm;
        note_worst(&m, intervals[i].off_mm, i);
    }
    note_worst(&m, m.off_mm, m.interval_count);
    m.intervals = intervals;
    return m;
}
