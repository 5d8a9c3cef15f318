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

enum { NAMES_MOST = 1000 };

struct sample {
    double left, right, y;
    int look;
};

/* How often a name stands beside lines of a look. */
struct vote {
    int look;
    const char *plain, *size;
    size_t votes;
};

struct legend {
    struct arena *a;
    struct sample *samples;
    size_t sample_count;
    struct vote *votes;
    size_t vote_count, vote_cap;
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

/* The nearest sample to the left or right of a name, at the height of its letters. */
static const struct sample *sample_beside(const struct legend *l, const struct drawing_phrase *p)
{
    double room = BESIDE_MM + BESIDE_SIZES * p->size_mm, nearest = room;
    const struct sample *best = NULL;
    double low = p->box.min.y - 0.3 * p->size_mm, high = p->box.max.y + 0.3 * p->size_mm;
    for (size_t i = first_from(l, low); i < l->sample_count && l->samples[i].y <= high; i++) {
        const struct sample *s = &l->samples[i];
        double away = fmax(p->box.min.x - s->right, s->left - p->box.max.x);
        if (away >= -0.5 * p->size_mm && away < nearest) {
            nearest = away;
            best = s;
        }
    }
    return best;
}

static void vote(struct legend *l, int look, const char *size)
{
    const char *plain = lifting_plain(l->a, size);
    for (size_t i = 0; i < l->vote_count; i++)
        if (l->votes[i].look == look && strcmp(l->votes[i].plain, plain) == 0) {
            l->votes[i].votes++;
            return;
        }
    l->votes = base_arena_grow(l->a, l->votes, &l->vote_cap, l->vote_count + 1, sizeof *l->votes);
    l->votes[l->vote_count++] = (struct vote){ look, plain, size, 1 };
}

/* “38”, “Gr. 38”, “XL”: nothing but a size. */
static const char *size_in(struct arena *a, const struct drawing_phrase *p)
{
    if (strlen(p->words) > NAME_BYTES_MOST || p->along.x < 0.99)
        return NULL;
    struct lifting_layer_name name = lifting_layer_name(a, p->words);
    return name.kind == LIFTING_NAMED_SIZE && !name.odd ? name.size : NULL;
}

static bool is_first_choice(const struct legend *l, const struct vote *v)
{
    for (size_t i = 0; i < l->vote_count; i++) {
        const struct vote *w = &l->votes[i];
        bool rival = w != v && (w->look == v->look || strcmp(w->plain, v->plain) == 0);
        if (rival && w->votes >= v->votes)
            return false;
    }
    return true;
}

size_t lifting_sizes_by_legend(struct arena *a, const struct drawing *d, const struct lifting_strands *s,
                               const bool *open, const struct lifting_look_size **out)
{
    struct legend l = { .a = a };
    const struct drawing_phrase *phrases;
    size_t count = drawing_phrases(a, d, &phrases), names = 0, found = 0;
    find_samples(&l, d, s, open);
    for (size_t i = 0; i < count && names < NAMES_MOST && l.sample_count; i++) {
        const char *size = size_in(a, &phrases[i]);
        const struct sample *sample = size ? sample_beside(&l, &phrases[i]) : NULL;
        names += size != NULL;
        if (sample)
            vote(&l, sample->look, size);
    }
    struct lifting_look_size *sizes = base_arena_alloc(a, l.vote_count, sizeof *sizes);
    for (size_t i = 0; i < l.vote_count; i++)
        if (is_first_choice(&l, &l.votes[i]))
            sizes[found++] = (struct lifting_look_size){ l.votes[i].look, l.votes[i].size };
    *out = sizes;
    return found > 1 ? found : 0;
}
