#include "drawing/repeats.h"
#include "drawing/label.h"

#include <stdint.h>
#include <string.h>

enum { CHAIN_MOST = 64 }; /* of shapes looked at in one square: what is beyond is taken as new */

#define SQUARE_MM 1.0 /* of the squares that shapes are found again by */

/* Shapes by the square that their lower left corner lies in: an open hash of chains. */
struct finding {
    struct arena *a;
    const struct drawing *d;
    bool of_texts;
    size_t *heads, *next; /* index + 1 */
    size_t slots, cap;
    struct drawing_repeat *shapes;
    size_t count, next_cap;
};

static size_t slot_of(const struct finding *f, double x, double y)
{
    uint64_t h = (uint64_t)(int64_t)x * 0x9E3779B97F4A7C15u ^ (uint64_t)(int64_t)y * 0xC2B2AE3D27D4EB4Fu;
    h ^= h >> 29;
    return (size_t)(h % f->slots);
}

static bool is_near(vec2 p, vec2 q)
{
    return fabs(p.x - q.x) <= DRAWING_SAME_PLACE_MM && fabs(p.y - q.y) <= DRAWING_SAME_PLACE_MM;
}

static bool same_line(const struct drawing *d, size_t one, size_t other)
{
    struct geometry_path p = d->lines[one].path.path, q = d->lines[other].path.path;
    return p.count == q.count && p.closed == q.closed && is_near(p.points[0], q.points[0]) &&
           is_near(p.points[p.count / 2], q.points[q.count / 2]);
}

/* Labels of one kind count as the same: they number pages, or the joins between them. */
static bool same_words(const char *one, const char *other)
{
    enum drawing_label_kind kind = drawing_label_read(one).kind;
    return strcmp(one, other) == 0 || (kind != DRAWING_LABEL_NONE && kind == drawing_label_read(other).kind);
}

static bool is_same(const struct finding *f, const struct drawing_repeat *old, const struct drawing_repeat *new)
{
    if (!is_near(old->box.min, new->box.min) || !is_near(old->box.max, new->box.max))
        return false;
    if (f->of_texts)
        return same_words(f->d->texts[old->first].words, f->d->texts[new->first].words);
    return same_line(f->d, old->first, new->first);
}

/* The shape it is, in its square or one beside it; SIZE_MAX: a new one. */
static size_t find(const struct finding *f, const struct drawing_repeat *new)
{
    double x = floor(new->box.min.x / SQUARE_MM + 0.5), y = floor(new->box.min.y / SQUARE_MM + 0.5);
    for (int k = 0; k < 4; k++) {
        int looked = 0;
        size_t at = f->heads[slot_of(f, x - (k & 1), y - (k >> 1))];
        for (; at && looked < CHAIN_MOST; at = f->next[at - 1], looked++)
            if (is_same(f, &f->shapes[at - 1], new))
                return at - 1;
    }
    return SIZE_MAX;
}

static size_t put(struct finding *f, struct drawing_repeat new)
{
    size_t slot = slot_of(f, floor(new.box.min.x / SQUARE_MM), floor(new.box.min.y / SQUARE_MM));
    f->shapes = base_arena_grow(f->a, f->shapes, &f->cap, f->count + 1, sizeof *f->shapes);
    f->next = base_arena_grow(f->a, f->next, &f->next_cap, f->count + 1, sizeof *f->next);
    f->shapes[f->count] = new;
    f->next[f->count] = f->heads[slot];
    f->heads[slot] = ++f->count;
    return f->count - 1;
}

static size_t note(struct finding *f, struct drawing_repeat new)
{
    size_t at = find(f, &new);
    if (at == SIZE_MAX)
        return put(f, new);
    if (f->shapes[at].last_page != new.last_page)
        f->shapes[at].page_count++;
    f->shapes[at].last_page = new.last_page;
    return at;
}

static struct finding start(struct arena *a, const struct drawing *d, bool of_texts)
{
    size_t things = of_texts ? d->text_count : d->line_count;
    struct finding f = { .a = a, .d = d, .of_texts = of_texts, .slots = 2 * things + 1 };
    f.heads = base_arena_alloc(a, f.slots, sizeof *f.heads);
    f.shapes = base_arena_grow(a, NULL, &f.cap, 1, sizeof *f.shapes);
    f.next = base_arena_grow(a, NULL, &f.next_cap, 1, sizeof *f.next);
    return f;
}

static size_t *no_shapes(struct arena *a, size_t count)
{
    size_t *of = base_arena_alloc(a, count, sizeof *of);
    memset(of, 0xff, count * sizeof *of);
    return of;
}

struct drawing_repeats drawing_repeated_lines(struct arena *a, const struct drawing *d, const int *pages, size_t count)
{
    struct finding f = start(a, d, false);
    size_t *of = no_shapes(a, d->line_count);
    for (size_t k = 0; k < count; k++) {
        const struct drawing_page *page = &d->pages[pages[k]];
        for (size_t i = page->first_line; i < page->first_line + page->line_count; i++)
            if (!d->styles[d->lines[i].style].lettering)
                of[i] = note(&f, (struct drawing_repeat){ geometry_path_box(d->lines[i].path.path), i, 1, pages[k] });
    }
    return (struct drawing_repeats){ f.shapes, f.count, of };
}

struct drawing_repeats drawing_repeated_texts(struct arena *a, const struct drawing *d, const int *pages, size_t count)
{
    struct finding f = start(a, d, true);
    size_t *of = no_shapes(a, d->text_count);
    for (size_t k = 0; k < count; k++) {
        const struct drawing_page *page = &d->pages[pages[k]];
        for (size_t i = page->first_text; i < page->first_text + page->text_count; i++) {
            vec2 at = { d->texts[i].at.x, d->texts[i].at.y };
            of[i] = note(&f, (struct drawing_repeat){ { at, at }, i, 1, pages[k] });
        }
    }
    return (struct drawing_repeats){ f.shapes, f.count, of };
}
