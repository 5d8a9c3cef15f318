#include "sheet_reader/thin.h"

#include <stdlib.h>

void thin_finish(struct thin_map *m)
{
    free(m->dots);
    free(m->ink);
    *m = (struct thin_map){ 0 };
}

bool thin_start(struct thin_map *m, const uint8_t *grey, size_t width, size_t height, unsigned threshold)
{
    size_t count = 0;
    *m = (struct thin_map){ .width = width + 2, .height = height + 2 };
    for (size_t i = 0; i < width * height; i++)
        count += grey[i] < threshold;
    m->dots = calloc(m->width * m->height, 1);
    m->ink = malloc((count + 1) * sizeof *m->ink);
    if (!m->dots || !m->ink) {
        thin_finish(m);
        return false;
    }
    for (size_t y = 0; y < height; y++)
        for (size_t x = 0; x < width; x++)
            if (grey[y * width + x] < threshold) {
                size_t at = (y + 1) * m->width + x + 1;
                m->dots[at] = THIN_INK | THIN_LINE;
                m->ink[m->count++] = (uint32_t)at;
            }
    return true;
}

void thin_neighbours(const struct thin_map *m, ptrdiff_t steps[8])
{
    const ptrdiff_t w = (ptrdiff_t)m->width;
    const ptrdiff_t around[8] = { -w, -w + 1, 1, w + 1, w, w - 1, -1, -w - 1 };
    for (int i = 0; i < 8; i++)
        steps[i] = around[i];
}

int thin_degree(const struct thin_map *m, size_t at, uint8_t what, int *begins)
{
    ptrdiff_t steps[8];
    int count = 0;
    thin_neighbours(m, steps);
    *begins = 0;
    bool before = m->dots[(ptrdiff_t)at + steps[7]] & what;
    for (int i = 0; i < 8; i++) {
        bool now = m->dots[(ptrdiff_t)at + steps[i]] & what;
        count += now;
        *begins += now && !before;
        before = now;
    }
    return count;
}

static bool has(const struct thin_map *m, size_t at, ptrdiff_t step)
{
    return m->dots[(ptrdiff_t)at + step] & THIN_LINE;
}

/* Conditions (a) to (d) of Zhang and Suen; the second half of a round looks the other way. */
static bool goes(const struct thin_map *m, size_t at, bool second)
{
    ptrdiff_t w = (ptrdiff_t)m->width;
    int begins, count = thin_degree(m, at, THIN_LINE, &begins);
    if (count < 2 || count > 6 || begins != 1)
        return false;
    bool up = has(m, at, -w), right = has(m, at, 1), down = has(m, at, w), left = has(m, at, -1);
    return second ? !(up && right && left) && !(up && down && left)
                  : !(up && right && down) && !(right && down && left);
}

/* Dots that are no line any more leave the list. */
static void drop_gone(struct thin_map *m)
{
    size_t kept = 0;
    for (size_t i = 0; i < m->count; i++)
        if (m->dots[m->ink[i]] & THIN_LINE)
            m->ink[kept++] = m->ink[i];
    m->count = kept;
}

/* Whether any dot went. */
static bool half_round(struct thin_map *m, bool second)
{
    bool any = false;
    for (size_t i = 0; i < m->count; i++)
        if (goes(m, m->ink[i], second)) {
            m->dots[m->ink[i]] |= THIN_MARK;
            any = true;
        }
    for (size_t i = 0; i < m->count && any; i++)
        if (m->dots[m->ink[i]] & THIN_MARK)
            m->dots[m->ink[i]] = THIN_INK;
    if (any)
        drop_gone(m);
    return any;
}

/* One after the other: a dot of a step goes when its neighbours stay joined without it (S. Yokoi, J. Toriwaki and
 * T. Fukumura, 1975: connectivity number 1) and it is no end. */
static void thin_steps(struct thin_map *m)
{
    ptrdiff_t steps[8];
    thin_neighbours(m, steps);
    for (size_t i = 0; i < m->count; i++) {
        size_t at = m->ink[i];
        int begins, number = 0;
        if (thin_degree(m, at, THIN_LINE, &begins) < 2)
            continue;
        for (int k = 0; k < 8; k += 2)
            number += !has(m, at, steps[k]) && (has(m, at, steps[(k + 1) % 8]) || has(m, at, steps[(k + 2) % 8]));
        if (number == 1)
            m->dots[at] = THIN_INK;
    }
    drop_gone(m);
}

/* All ink that is joined to a dot is a patch: filled from there, by a list of what is still to be gone on from. */
static bool fill_patch(struct thin_map *m, size_t from)
{
    ptrdiff_t steps[8];
    size_t count = 0, cap = 1024;
    uint32_t *todo = malloc(cap * sizeof *todo);
    thin_neighbours(m, steps);
    if (!todo)
        return false;
    m->dots[from] = THIN_INK | THIN_PATCH;
    todo[count++] = (uint32_t)from;
    while (count) {
        size_t at = todo[--count];
        if (count + 8 > cap) {
            uint32_t *more = realloc(todo, (cap *= 2) * sizeof *todo);
            if (!more) {
                free(todo);
                return false;
            }
            todo = more;
        }
        for (int i = 0; i < 8; i++) {
            size_t next = (size_t)((ptrdiff_t)at + steps[i]);
            if ((m->dots[next] & (THIN_INK | THIN_PATCH)) != THIN_INK)
                continue;
            m->dots[next] = THIN_INK | THIN_PATCH;
            todo[count++] = (uint32_t)next;
        }
    }
    free(todo);
    return true;
}

/* How many dots of a line are joined to a dot, counted up to `most`; they are marked. */
static size_t length_from(struct thin_map *m, size_t from, size_t most, uint32_t *todo)
{
    ptrdiff_t steps[8];
    size_t count = 0, seen = 0;
    thin_neighbours(m, steps);
    todo[count++] = (uint32_t)from;
    m->dots[from] |= THIN_MARK;
    for (; seen < count && count < most; seen++)
        for (int i = 0; i < 8 && count < most; i++) {
            size_t next = (size_t)((ptrdiff_t)todo[seen] + steps[i]);
            if ((m->dots[next] & (THIN_LINE | THIN_MARK)) != THIN_LINE)
                continue;
            m->dots[next] |= THIN_MARK;
            todo[count++] = (uint32_t)next;
        }
    for (size_t i = 0; i < count; i++)
        m->dots[todo[i]] &= (uint8_t)~THIN_MARK;
    return count;
}

/* Thick ink still has dots with ink all around; short ink has a short middle. */
static bool find_patches(struct thin_map *m, size_t shortest)
{
    uint32_t *todo = malloc((shortest + 1) * sizeof *todo);
    bool ok = todo;
    for (size_t i = 0; i < m->count && ok; i++) {
        int begins;
        size_t at = m->ink[i];
        if (!(m->dots[at] & THIN_LINE))
            continue;
        if (thin_degree(m, at, THIN_LINE, &begins) == 8 || length_from(m, at, shortest, todo) < shortest)
            ok = fill_patch(m, at);
    }
    free(todo);
    drop_gone(m);
    return ok;
}

bool thin_lines(struct thin_map *m, unsigned rounds, size_t shortest)
{
    for (unsigned i = 0; i < rounds; i++) {
        bool first = half_round(m, false), second = half_round(m, true);
        if (!first && !second)
            break;
    }
    if (!find_patches(m, shortest))
        return false;
    thin_steps(m);
    return true;
}
