#include "drawing/phrases.h"
#include "lifting/layer_name.h"
#include "lifting/sizes_by_look.h"
#include "lifting/tokens.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A sample of a line: common practice of legends, no source. */
#define SAMPLE_LEAST_MM 5
#define SAMPLE_MOST_MM 120
#define LEVEL 0.02  /* rise of a level line */
#define BESIDE_MM 8 /* between a sample and its name, and so many heights of the letters more */
#define BESIDE_SIZES 3
#define NAME_BYTES_MOST 24
#define SAME_LENGTH 0.05

enum { ENTRIES_MOST = 250 };

struct sample {
    double left, right, y;
    int look;
};

/* A sample with the name beside it. */
struct entry {
    double wide; /* the sample's; below zero when it stands to the right of its name */
    int look;
    const char *plain, *size;
};

struct legend {
    struct arena *a;
    struct sample *samples;
    size_t sample_count;
    struct entry *entries;
    size_t count, cap;
};

static int by_y(const void *pa, const void *pb)
{
    const struct sample *a = pa, *b = pb;
    if (a->y != b->y)
        return a->y < b->y ? -1 : 1;
    if (a->left != b->left)
        return a->left < b->left ? -1 : 1;
    return a->look - b->look;
}

static bool is_sample(const struct drawing_line *line)
{
    struct geometry_path p = line->path.path;
    struct geometry_box box = geometry_path_box(p);
    double wide = box.max.x - box.min.x;
    return !p.closed && p.count >= 2 && wide >= SAMPLE_LEAST_MM && wide <= SAMPLE_MOST_MM &&
           box.max.y - box.min.y <= LEVEL * wide;
}

static void find_samples(struct legend *l, const struct drawing *d, const struct lifting_strands *s, const bool *open)
{
    l->samples = base_arena_alloc(l->a, d->line_count, sizeof *l->samples);
    for (size_t i = 0; i < d->line_count; i++) {
        int strand = s->of_line[i];
        if (strand == LIFTING_NONE || !open[strand] || !is_sample(&d->lines[i]))
            continue;
        struct geometry_box box = geometry_path_box(d->lines[i].path.path);
        l->samples[l->sample_count++] =
            (struct sample){ box.min.x, box.max.x, (box.min.y + box.max.y) / 2, s->looks[strand] };
    }
    qsort(l->samples, l->sample_count, sizeof *l->samples, by_y);
}

static size_t first_from(const struct legend *l, double y)
{
    size_t low = 0, high = l->sample_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (l->samples[middle].y < y)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* The nearest sample to the left or right of a name, between its baseline and the top of its letters. */
static const struct sample *sample_beside(const struct legend *l, const struct drawing_phrase *p)
{
    double nearest = BESIDE_MM + BESIDE_SIZES * p->size_mm;
    const struct sample *best = NULL;
    for (size_t i = first_from(l, p->box.min.y); i < l->sample_count && l->samples[i].y <= p->box.max.y; i++) {
        const struct sample *s = &l->samples[i];
        double away = fmax(p->box.min.x - s->right, s->left - p->box.max.x);
        if (away >= 0 && away < nearest) {
            nearest = away;
            best = s;
        }
    }
    return best;
}

static void put_entry(struct legend *l, const struct drawing_phrase *p, const struct sample *s, const char *size)
{
    double wide = s->right - s->left;
    l->entries = base_arena_grow(l->a, l->entries, &l->cap, l->count + 1, sizeof *l->entries);
    l->entries[l->count++] =
        (struct entry){ s->left > p->box.min.x ? -wide : wide, s->look, lifting_plain(l->a, size), size };
}

/* “38”, “Gr. 38”, “XL”: nothing but a size. */
static const char *size_in(struct arena *a, const struct drawing_phrase *p)
{
    if (strlen(p->words) > NAME_BYTES_MOST || p->along.x < 0.99)
        return NULL;
    struct lifting_layer_name name = lifting_layer_name(a, p->words);
    return name.kind == LIFTING_NAMED_SIZE && !name.odd ? name.size : NULL;
}

/* Entries of one legend have samples of one length on one side. */
static bool is_with(const struct entry *a, const struct entry *b)
{
    return fabs(a->wide - b->wide) <= SAME_LENGTH * fabs(a->wide);
}

/* Whether something else of the same legend gainsays the entry, or an earlier one has said it. */
static bool is_gainsaid(const struct legend *l, const struct entry *of, const struct entry *e)
{
    for (size_t i = 0; i < l->count; i++) {
        const struct entry *o = &l->entries[i];
        if (!is_with(of, o))
            continue;
        bool look = o->look == e->look, name = strcmp(o->plain, e->plain) == 0;
        if (look != name || (look && o < e))
            return true;
    }
    return false;
}

/* The legend that the entry stands in. */
static size_t legend_of(const struct legend *l, const struct entry *of, struct lifting_look_size *out)
{
    size_t found = 0;
    for (size_t i = 0; i < l->count; i++)
        if (is_with(of, &l->entries[i]) && !is_gainsaid(l, of, &l->entries[i]))
            out[found++] = (struct lifting_look_size){ l->entries[i].look, l->entries[i].size };
    return found;
}

size_t lifting_sizes_by_legend(struct arena *a, const struct drawing *d, const struct lifting_strands *s,
                               const bool *open, const struct lifting_look_size **out)
{
    struct legend l = { .a = a };
    const struct drawing_phrase *phrases;
    size_t count = drawing_phrases(a, d, &phrases), most = 0;
    find_samples(&l, d, s, open);
    for (size_t i = 0; i < count && l.count < ENTRIES_MOST && l.sample_count; i++) {
        const char *size = size_in(a, &phrases[i]);
        const struct sample *sample = size ? sample_beside(&l, &phrases[i]) : NULL;
        if (sample)
            put_entry(&l, &phrases[i], sample, size);
    }
    struct lifting_look_size *best = base_arena_alloc(a, l.count, sizeof *best);
    struct lifting_look_size *now = base_arena_alloc(a, l.count, sizeof *now);
    for (size_t i = 0; i < l.count; i++) {
        size_t found = legend_of(&l, &l.entries[i], now);
        for (size_t k = 0; found > most && k < found; k++)
            best[k] = now[k];
        most = found > most ? found : most;
    }
    *out = best;
    return most > 1 ? most : 0;
}
