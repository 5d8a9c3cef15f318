#include "screen/widths.h"

#include "base/arena.h"
#include "base/digest.h"

#include <string.h>

/* A place is found by the text's digest, or comes after that of others; a quarter of them stays free. */
enum { PLACES = 4096, MOST = PLACES / 4 * 3 };

struct width {
    const char *text; /* NULL: a free place */
    size_t bytes;
    enum form_style style;
    int px;
};

struct screen_widths {
    struct arena *arena; /* owns this */
    struct arena *texts;
    size_t count;
    struct width places[PLACES];
};

struct screen_widths *screen_widths_create(void)
{
    struct arena *arena = base_arena_create();
    struct screen_widths *w = base_arena_alloc(arena, 1, sizeof *w);
    w->arena = arena;
    w->texts = base_arena_create();
    return w;
}

void screen_widths_destroy(struct screen_widths *w)
{
    if (!w)
        return;
    base_arena_destroy(w->texts);
    base_arena_destroy(w->arena);
}

void screen_widths_forget(struct screen_widths *w)
{
    base_arena_reset(w->texts);
    memset(w->places, 0, sizeof w->places);
    w->count = 0;
}

static bool is_of(const struct width *at, enum form_style style, const char *text, size_t bytes)
{
    return at->style == style && at->bytes == bytes && memcmp(at->text, text, bytes) == 0;
}

/* Where it stands, or the free place where it would. */
static struct width *find(struct screen_widths *w, enum form_style style, const char *text, size_t bytes)
{
    size_t i = (size_t)(base_digest(BASE_DIGEST_NONE, text, bytes) + (uint64_t)style) % PLACES;
    while (w->places[i].text && !is_of(&w->places[i], style, text, bytes))
        i = (i + 1) % PLACES;
    return &w->places[i];
}

int *screen_widths_of(struct screen_widths *w, enum form_style style, const char *text, size_t bytes)
{
    struct width *at = find(w, style, text, bytes);
    if (at->text)
        return &at->px;
    if (w->count == MOST) {
        screen_widths_forget(w);
        at = find(w, style, text, bytes);
    }
    *at = (struct width){ base_arena_copy_bytes(w->texts, text, bytes), bytes, style, -1 };
    w->count++;
    return &at->px;
}
