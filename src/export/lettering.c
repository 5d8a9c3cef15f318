/* Room for a piece's words: the ways to write them in order, and of the places of each the nearest to the label's. */
#include "base/text.h"
#include "export/sheet.h"

#include <math.h>
#include <stdlib.h>

#define CLEAR_MM 2.0

enum { MOST_RINGS = 10 };

/* Large and upright is read best; across the stitching line is better than across the grain. */
static const struct way {
    double size_mm;
    vec2 along;
    bool over_stitching;
} ways[] = {
    { 10, { 1, 0 }, false }, { 8, { 1, 0 }, false }, { 10, { 0, 1 }, false }, { 8, { 0, 1 }, false },
    { 6, { 1, 0 }, false },  { 6, { 0, 1 }, false }, { 5, { 1, 0 }, false },  { 5, { 0, 1 }, false },
    { 5, { 1, 0 }, true },   { 5, { 0, 1 }, true },  { 4, { 1, 0 }, true },   { 4, { 0, 1 }, true },
    { 3, { 1, 0 }, true },   { 3, { 0, 1 }, true },
};

enum { WAYS = sizeof ways / sizeof ways[0] };

static size_t longest(const char *const *words, size_t count)
{
    size_t most = 0;
    for (size_t i = 0; i < count; i++) {
        size_t letters = base_text_letters(words[i]);
        most = letters > most ? letters : most;
    }
    return most;
}

/* Shortens the stretch [*from, *to] of a side to where it lies between two bounds along one axis. */
static void keep_between(double at, double run, double low, double high, double *from, double *to)
{
    if (run == 0) {
        *to = at < low || at > high ? -1 : *to;
        return;
    }
    double one = (low - at) / run, other = (high - at) / run;
    *from = fmax(*from, fmin(one, other));
    *to = fmin(*to, fmax(one, other));
}

static bool side_meets(const struct geometry_box *box, vec2 a, vec2 b)
{
    double from = 0, to = 1;
    keep_between(a.x, b.x - a.x, box->min.x, box->max.x, &from, &to);
    keep_between(a.y, b.y - a.y, box->min.y, box->max.y, &from, &to);
    return from <= to;
}

static bool path_meets(const struct geometry_box *box, struct geometry_path path)
{
    size_t sides = path.closed || path.count < 2 ? path.count : path.count - 1;
    for (size_t i = 0; i < sides; i++)
        if (side_meets(box, path.points[i], path.points[(i + 1) % path.count]))
            return true;
    return false;
}

static bool is_free(const struct draft_piece *piece, const struct export_stroke *lines, size_t count,
                    const struct geometry_box *box, bool over_stitching)
{
    if (!geometry_path_holds(piece->cut.path, vec2_lerp(box->min, box->max, 0.5)))
        return false;
    for (size_t i = 0; i < count; i++)
        if (!(over_stitching && lines[i].kind == EXPORT_STITCHING) && path_meets(box, lines[i].path))
            return false;
    return true;
}

/* The nearest free box of that half size about *middle, in rings of half such steps. */
static bool find_room(const struct draft_piece *piece, const struct export_stroke *lines, size_t count, vec2 half,
                      bool over_stitching, vec2 *middle)
{
    for (int ring = 0; ring <= MOST_RINGS; ring++)
        for (int up = -ring; up <= ring; up++)
            for (int right = -ring; right <= ring; right++) {
                vec2 at = vec2_add(*middle, (vec2){ right * half.x / 2, up * half.y / 2 });
                struct geometry_box box = { vec2_sub(at, half), vec2_add(at, half) };
                bool is_on_ring = abs(up) == ring || abs(right) == ring;
                if (!is_on_ring || !is_free(piece, lines, count, &box, over_stitching))
                    continue;
                *middle = at;
                return true;
            }
    return false;
}

/* Words whose box is `size` (as they are read) with that middle. */
static struct export_lettering centred(vec2 middle, vec2 along, vec2 size, double size_mm)
{
    vec2 down = vec2_scale(vec2_right(along), size_mm - size.y / 2);
    return (struct export_lettering){ vec2_add(vec2_sub(middle, vec2_scale(along, size.x / 2)), down), along, size_mm };
}

struct export_lettering export_lettering_place(const struct draft_piece *piece, const struct export_stroke *lines,
                                               size_t line_count, const char *const *words, size_t count, double scale)
{
    double letters = (double)longest(words, count);
    vec2 middle = { piece->label_at.x, piece->label_at.y }, size = { 0, 0 };
    double size_mm = 0;
    for (int w = 0; w < WAYS; w++) {
        const struct way *way = &ways[w];
        size_mm = way->size_mm * scale;
        size = (vec2){ letters * EXPORT_LETTER_WIDE * size_mm, (double)count * EXPORT_LEADING * size_mm };
        vec2 half = { size.x / 2 + CLEAR_MM, size.y / 2 + CLEAR_MM };
        if (way->along.y > 0)
            half = (vec2){ half.y, half.x };
        if (find_room(piece, lines, line_count, half, way->over_stitching, &middle))
            return centred(middle, way->along, size, size_mm);
    }
    return centred(middle, ways[WAYS - 1].along, size, size_mm);
}

vec2 export_lettering_line(const struct export_lettering *place, size_t index)
{
    return vec2_add(place->at, vec2_scale(vec2_right(place->along), (double)index * EXPORT_LEADING * place->size_mm));
}
