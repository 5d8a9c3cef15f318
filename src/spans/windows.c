/* The windows by dynamic programming over where they may start.
 *
 * What is parted. Of two neighbours that start at f and q, an extent is parted between them when it begins before q and
 * ends past f + reach: neither f nor an earlier one shows it whole, nor q or a later one. One that is parted nowhere is
 * shown whole. So the parts of a chain of windows are counted at each step of it, and steps can be chosen one by one.
 *
 * Where windows may start. A chain has to keep to from(k+1) <= from(k) + reach - overlap, and to from(k) <= extent.from
 * for some extents, those it begins with; all else it keeps to, that windows reach far enough, holds the better the
 * farther they start. So every chain may be pushed on until each window starts where an extent does, or `step` past
 * the one before, and nothing is lost: only such places are looked at.
 *
 * When no extent is longer than the reach, this comes to greedy windows, each from where the first extent begins that
 * is not shown yet, or a step on if that is nearer. They part nothing. No chain that parts nothing has fewer: let g(k)
 * be the greedy ones, w(k) any others, in order. w(k) <= g(k) for all k: the first start at the cut end both; and if it
 * holds up to k, then w(k+1) <= w(k) + step <= g(k) + step, and w(k+1) <= the `from` of the first extent not yet shown
 * by g: else an earlier w(j) <= g(j) shows it, and as it was left over by g so far, g(j) <= its from: g(j) shows it,
 * too. So whatever k others show, k greedy ones show. */
#include "spans/windows.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>

struct stop {
    double at;
    size_t parted, windows, before; /* the best chain that ends here, and its stop before */
};

static int by_place(const void *a, const void *b)
{
    const struct stop *p = a, *q = b;
    return (p->at > q->at) - (p->at < q->at);
}

static double first_from(const struct spans_extent *extents, size_t count, double begin)
{
    double first = begin;
    for (size_t i = 0; i < count; i++)
        if (extents[i].from < first - SPANS_LITTLE_MM)
            first = extents[i].from;
    return first;
}

static double end_of(const struct spans_extent *extents, size_t count)
{
    double end = extents[0].to;
    for (size_t i = 1; i < count; i++)
        end = fmax(end, extents[i].to);
    return end;
}

/* All places from one on, a step apart, before `past`. */
static size_t put_stops(struct stop *stops, size_t count, double from, double step, double past)
{
    for (size_t k = 0; from + (double)k * step < past; k++)
        stops[count++].at = from + (double)k * step;
    return count;
}

static size_t without_equals(struct stop *stops, size_t count)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++)
        if (kept == 0 || stops[i].at > stops[kept - 1].at + SPANS_LITTLE_MM)
            stops[kept++] = stops[i];
    return kept;
}

/* Places where windows may start, rising from the first, in `a`; none a step or more past the first that shows the end.
 */
static struct stop *find_stops(struct arena *a, const struct spans_extent *extents, size_t count, double begin,
                               double reach, double step, size_t *stop_count)
{
    double first = first_from(extents, count, begin);
    double past = fmax(end_of(extents, count) - reach, first) + step;
    size_t most = (count + 1) * ((size_t)((past - first) / step) + 2), found = 0;
    struct stop *stops = base_arena_alloc(a, most, sizeof *stops);
    found = put_stops(stops, found, first, step, past);
    for (size_t i = 0; i < count; i++)
        found = put_stops(stops, found, fmax(extents[i].from, first), step, past);
    assert(found <= most);
    qsort(stops, found, sizeof *stops, by_place);
    *stop_count = without_equals(stops, found);
    return stops;
}

static size_t parted_between(const struct spans_extent *extents, size_t count, double end, double next)
{
    size_t parted = 0;
    for (size_t i = 0; i < count; i++)
        parted += extents[i].from < next - SPANS_LITTLE_MM && extents[i].to > end + SPANS_LITTLE_MM;
    return parted;
}

/* The best stop before each. The chain of steps from the first is always there, so one is found. */
static void chain_stops(struct stop *stops, size_t stop_count, const struct spans_extent *extents, size_t count,
                        double reach, double step)
{
    stops[0].windows = 1;
    for (size_t q = 1; q < stop_count; q++) {
        stops[q].parted = SIZE_MAX;
        for (size_t f = q; f-- > 0 && stops[f].at >= stops[q].at - step - SPANS_LITTLE_MM;) {
            size_t parted = stops[f].parted + parted_between(extents, count, stops[f].at + reach, stops[q].at);
            size_t windows = stops[f].windows + 1;
            if (parted < stops[q].parted || (parted == stops[q].parted && windows < stops[q].windows))
                stops[q] = (struct stop){ stops[q].at, parted, windows, f };
        }
        assert(stops[q].parted < SIZE_MAX);
    }
}

/* Of the stops that show the end, the one of the best chain. */
static size_t last_stop(const struct stop *stops, size_t count, double end, double reach)
{
    size_t best = count - 1;
    for (size_t i = count; i-- > 0 && stops[i].at + reach >= end - SPANS_LITTLE_MM;)
        if (stops[i].parted < stops[best].parted ||
            (stops[i].parted == stops[best].parted && stops[i].windows <= stops[best].windows))
            best = i;
    return best;
}

/* How far back each window may start so that it and those behind it still show what they have to, and overlap. */
static double *lowest_starts(struct arena *a, const struct spans_windows *w, const struct spans_extent *extents,
                             size_t count, double step)
{
    double *low = base_arena_alloc(a, w->count, sizeof *low);
    for (size_t k = 0; k < w->count; k++)
        low[k] = w->from[0];
    for (size_t i = 0; i < count; i++) {
        size_t last = spans_windows_show(w, extents[i]).last;
        low[last] = fmax(low[last], extents[i].to - w->reach);
    }
    for (size_t k = w->count - 1; k-- > 0;)
        low[k] = fmax(low[k], low[k + 1] - step);
    return low;
}

/* The windows pushed back from where they may start at the latest, so that overlaps become large and alike. What a
 * window begins with it still shows from its beginning, so nothing more is parted. */
static void share_overlap(struct arena *a, double *from, const struct spans_windows *w,
                          const struct spans_extent *extents, size_t count, double step)
{
    size_t n = w->count;
    const double *low = lowest_starts(a, w, extents, count, step);
    double first = from[0], last = low[n - 1];
    for (size_t k = 1; k < n; k++) {
        double even = first + (last - first) * (double)k / (double)(n - 1);
        from[k] = fmin(fmax(even, low[k]), fmin(from[k], from[k - 1] + step));
    }
}

struct spans_windows spans_windows_make(struct arena *a, const struct spans_extent *extents, size_t count, double begin,
                                        double reach, double overlap)
{
    assert(count > 0 && overlap >= 0 && reach > overlap);
    double step = reach - overlap;
    size_t stop_count;
    struct stop *stops = find_stops(a, extents, count, begin, reach, step, &stop_count);
    chain_stops(stops, stop_count, extents, count, reach, step);
    size_t at = last_stop(stops, stop_count, end_of(extents, count), reach);
    size_t windows = stops[at].windows;
    double *from = base_arena_alloc(a, windows, sizeof *from);
    for (size_t k = windows; k-- > 0; at = stops[at].before)
        from[k] = stops[at].at;
    struct spans_windows w = { .from = from, .count = windows, .reach = reach };
    share_overlap(a, from, &w, extents, count, step);
    return w;
}

struct spans_shown spans_windows_show(const struct spans_windows *w, struct spans_extent extent)
{
    struct spans_shown shown = { 0, w->count - 1 };
    while (shown.first + 1 < w->count && w->from[shown.first + 1] <= extent.from + SPANS_LITTLE_MM)
        shown.first++;
    while (shown.last > 0 && w->from[shown.last - 1] + w->reach >= extent.to - SPANS_LITTLE_MM)
        shown.last--;
    if (shown.first > shown.last) /* several show it whole */
        shown.first = shown.last;
    return shown;
}
