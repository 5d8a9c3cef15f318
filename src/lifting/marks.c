#include "lifting/marks.h"
#include "lifting/counts.h"
#include "lifting/finding.h"

#include <string.h>

#define TOUCH_MM 0.35
#define ON_THE_WAY_MM 0.08 /* points so near to the way between others are no corners */

/* A line that runs beside the outline: what is usual for allowances, and how even it is. Common practice, no source. */
#define BESIDE_LEAST_MM 2.5
#define BESIDE_MOST_MM 45
#define EVEN_MM 0.6
#define EVEN_SHARE 0.06
#define STITCH_LEAST_SHARE 0.4 /* of the way around */

enum { POINTS_LOOKED_AT = 400, SAMPLES = 24, STROKES_MOST = 20000 };

/* Points of a line that are corners; 0 when there are too many. */
static size_t find_corners(struct geometry_path p, vec2 corners[LIFTING_CORNERS_MOST])
{
    size_t count = 0, from = 0;
    if (p.count > POINTS_LOOKED_AT)
        return 0;
    corners[count++] = p.points[0];
    for (size_t k = 1; k < p.count; k++) {
        bool corner = k + 1 == p.count && !p.closed;
        vec2 next = p.points[(k + 1) % p.count];
        for (size_t i = from + 1; i <= k && !corner; i++)
            corner = lifting_off_line(p.points[i], p.points[from], next) > ON_THE_WAY_MM;
        if (!corner)
            continue;
        if (count == LIFTING_CORNERS_MOST)
            return 0;
        corners[count++] = p.points[k];
        from = k;
    }
    return count;
}

static bool is_alone(const struct drawing *d, size_t line)
{
    bool before = line > 0 && d->lines[line - 1].item == d->lines[line].item;
    return !before && !(line + 1 < d->line_count && d->lines[line + 1].item == d->lines[line].item);
}

/* The size whose outline is touched by a corner of the stroke, the most exactly. */
static int touched_size(const struct lifting_finding *m, const struct lifting_stroke *s)
{
    int best = LIFTING_NONE;
    double least = TOUCH_MM;
    for (size_t k = 0; k < m->division->size_count; k++)
        for (size_t i = 0; m->near[k] && i < s->corner_count; i++) {
            struct lifting_place place;
            if (lifting_near_find(m->near[k], s->corners[i], least, &place) && place.away < least) {
                least = place.away;
                best = (int)k;
            }
        }
    return best;
}

/* What an outline was drawn with twice, or lines of another's. */
static bool lies_on_outline(const struct lifting_finding *m, const struct lifting_stroke *s)
{
    int size = lifting_outline_for(m, s->size);
    struct lifting_place place;
    bool on = size != LIFTING_NONE && s->corner_count > 1;
    for (size_t i = 0; on && i < s->corner_count; i++)
        on = lifting_near_find(m->near[size], s->corners[i], TOUCH_MM, &place) &&
             lifting_near_find(m->near[size], vec2_lerp(s->corners[i], s->corners[i ? i - 1 : 1], 0.5), TOUCH_MM,
                               &place);
    return on;
}

static void put_stroke(struct lifting_finding *m, size_t line)
{
    int strand = m->division->strand_of_line[line];
    struct geometry_path path = m->d->lines[line].path.path;
    if (strand == LIFTING_NONE || m->division->strands[strand].role == LIFTING_UNUSED || path.count < 2)
        return;
    int size = m->division->strands[strand].size;
    if (size != LIFTING_NONE && !m->near[size] && !m->division->strands[strand].shares_colour)
        return;
    struct lifting_stroke *s = &m->strokes[m->stroke_count++];
    *s = (struct lifting_stroke){ .line = line,
                                  .size = size,
                                  .path = path,
                                  .box = geometry_path_box(path),
                                  .length_mm = geometry_path_length(path),
                                  .filled = m->division->strands[strand].filled,
                                  .alone = is_alone(m->d, line) };
    if (m->stroke_count > STROKES_MOST)
        return; /* an ornament rather than a piece: no corners are looked for */
    s->corner_count = find_corners(path, s->corners);
    if (s->corner_count > 3 && !path.closed && s->corners[0].x == s->corners[s->corner_count - 1].x &&
        s->corners[0].y == s->corners[s->corner_count - 1].y) {
        s->corner_count--; /* drawn back to its start without being closed */
        s->path.closed = true;
    }
    if (size != LIFTING_NONE && m->division->strands[strand].shares_colour)
        s->size = touched_size(m, s);
    if (lies_on_outline(m, s))
        m->stroke_count--;
}

static bool tells_count(struct arena *a, const char *words)
{
    struct lifting_tokens t = lifting_tokens_of(a, words);
    struct lifting_spoken *spoken = base_arena_alloc(a, t.count, sizeof *spoken);
    struct lifting_counts counts = { .count = 0 };
    lifting_speak(&t, spoken);
    lifting_find_counts(spoken, t.count, &counts);
    return strpbrk(words, "0123456789") != NULL && counts.count > 0;
}

static void find_sayings(struct lifting_finding *m)
{
    const struct drawing_phrase *phrases;
    size_t count = drawing_phrases_of(m->a, m->d, m->shape->texts, m->shape->text_count, &phrases);
    m->sayings = base_arena_alloc(m->a, count, sizeof *m->sayings);
    for (size_t i = 0; i < count; i++) {
        enum lifting_said said = lifting_said_of_line(phrases[i].words);
        vec2 middle = vec2_lerp(phrases[i].box.min, phrases[i].box.max, 0.5);
        if (said)
            m->sayings[m->saying_count++] = (struct lifting_saying){ said, tells_count(m->a, phrases[i].words), middle,
                                                                     phrases[i].along, phrases[i].size_mm };
    }
}

/* Whether a long line runs beside the outline all the way. */
static bool runs_beside(const struct lifting_finding *m, const struct lifting_stroke *s)
{
    int size = lifting_outline_for(m, s->size);
    double least = BESIDE_MOST_MM, most = 0;
    if (size == LIFTING_NONE || s->length_mm < STITCH_LEAST_SHARE * lifting_near_length(m->near[size]))
        return false;
    for (int k = 0; k <= SAMPLES; k++) {
        struct lifting_place place;
        vec2 way, at = geometry_path_at(s->path, s->length_mm * (0.05 + 0.9 * k / SAMPLES), &way);
        if (!lifting_near_find(m->near[size], at, BESIDE_MOST_MM, &place))
            return false;
        least = fmin(least, place.away);
        most = fmax(most, place.away);
    }
    return least >= BESIDE_LEAST_MM && most - least <= 2 * fmax(EVEN_MM, EVEN_SHARE * least);
}

/* What none has taken: lines that run beside the outline, and others. Filled things are letters or ornaments. */
static void put_rest(struct lifting_finding *m)
{
    for (size_t i = 0; i < m->stroke_count; i++) {
        struct lifting_stroke *s = &m->strokes[i];
        if (s->taken || s->filled)
            continue;
        enum lifting_mark_kind kind = runs_beside(m, s) ? LIFTING_STITCH : LIFTING_INNER;
        struct lifting_mark *mark = lifting_put_mark(m, kind, s->size, s->path.points, s->path.count);
        mark->path.path.closed = s->path.closed;
        mark->sure = kind == LIFTING_INNER;
    }
}

static struct lifting_finding begin(struct arena *a, const struct drawing *d, const struct lifting_division *division,
                                    const struct lifting_shape *shape, const struct lifting_words *words)
{
    struct lifting_finding m = { .a = a, .d = d, .division = division, .shape = shape, .words = words };
    m.near = base_arena_alloc(a, division->size_count, sizeof(void *));
    for (size_t k = 0; k < division->size_count; k++)
        if (shape->outlines[k].there)
            m.near[k] = lifting_near_of(a, shape->outlines[k].path.path);
    m.strokes = base_arena_alloc(a, shape->line_count, sizeof *m.strokes);
    for (size_t i = 0; i < shape->line_count; i++)
        put_stroke(&m, shape->lines[i]);
    find_sayings(&m);
    return m;
}

size_t lifting_find_marks(struct arena *a, const struct drawing *d, const struct lifting_division *division,
                          const struct lifting_shape *shape, const struct lifting_words *words,
                          const struct lifting_mark **out, vec2 *grain, unsigned *doubts)
{
    struct lifting_finding m = begin(a, d, division, shape, words);
    lifting_find_drills(&m);
    lifting_find_brackets(&m);
    lifting_find_lengthen(&m);
    lifting_find_grain(&m);
    lifting_find_notches(&m);
    lifting_find_darts(&m);
    lifting_find_fold(&m);
    put_rest(&m);
    *doubts |= m.doubts | (m.grain_sure ? 0U : (unsigned)LIFTING_DOUBT_GRAIN);
    *grain = m.grain.x == 0 && m.grain.y == 0 ? (vec2){ 0, 1 } : m.grain;
    *out = m.marks;
    return m.mark_count;
}
