/* Which line is which size, and which sizes are to be drawn. */
#include "app/lift_state.h"

#include <string.h>

static const struct lifting_strand *marked(const struct app_lift *lift)
{
    const struct lifting_division *d = &lift->im->division;
    return lift->row < d->strand_count ? &d->strands[lift->row] : NULL;
}

static const char *size_name(const struct lifting_division *d, int size)
{
    return size == LIFTING_NONE ? NULL : d->sizes[size];
}

static const char *cup_name(const struct lifting_division *d, int cup)
{
    return cup == LIFTING_NONE ? NULL : d->cup_groups[cup];
}

static struct app_lift_effects say(struct app_lift *lift, enum lifting_role role, const char *size)
{
    const struct lifting_strand *s = marked(lift);
    if (!s)
        return app_lift_redraw;
    app_import_say(lift->im, lift->row, role, size, cup_name(&lift->im->division, s->cup_group));
    app_import_make(lift->im, APP_IMPORT_SIZES);
    return app_lift_keep;
}

/* Not used, all sizes, then size by size, around. */
struct app_lift_effects app_lift_role(struct app_lift *lift, int by)
{
    const struct lifting_division *d = &lift->im->division;
    const struct lifting_strand *s = marked(lift);
    if (!s)
        return app_lift_redraw;
    int count = (int)d->size_count + 2, now = s->role == LIFTING_SIZE ? 2 + s->size : s->role == LIFTING_COMMON;
    int then = (now + by + count) % count;
    if (then < 2)
        return say(lift, then ? LIFTING_COMMON : LIFTING_UNUSED, NULL);
    return say(lift, LIFTING_SIZE, d->sizes[then - 2]);
}

struct app_lift_effects app_lift_new_size(struct app_lift *lift, const char *name)
{
    return say(lift, LIFTING_SIZE, name);
}

struct app_lift_effects app_lift_draw_size(struct app_lift *lift)
{
    const struct lifting_strand *s = marked(lift);
    if (!s || s->role != LIFTING_SIZE) {
        app_lift_tell(lift, "This line is of no size. D is for the line of your size");
        return app_lift_redraw;
    }
    const char *name = size_name(&lift->im->division, s->size);
    app_import_draw(lift->im, name, !app_import_draws(lift->im, name));
    return app_lift_keep;
}

int app_lift_shown_size(const struct app_lift *lift)
{
    const struct lifting_division *d = &lift->im->division;
    for (size_t i = 0; i < d->size_count; i++)
        if (d->size_count == 1 || app_import_draws(lift->im, d->sizes[i]))
            return (int)i;
    return LIFTING_NONE;
}

/* --- words ------------------------------------------------------------------------------------------------------- */

/* By the largest of red, green and blue and the one that is next: as a person would call it from afar. */
const char *app_lift_colour(uint32_t rgb)
{
    int r = (int)(rgb >> 16 & 255), g = (int)(rgb >> 8 & 255), b = (int)(rgb & 255);
    int most = r > g ? (r > b ? r : b) : (g > b ? g : b), least = r < g ? (r < b ? r : b) : (g < b ? g : b);
    if (most - least < 40)
        return most < 70 ? "black" : most < 220 ? "grey" : "white";
    if (r == most && b == least)
        return 2 * (g - least) < most - least ? (4 * (g - least) < most - least ? "red" : "orange")
                                              : (4 * (most - g) < most - least ? "yellow" : "orange");
    if (r == most)
        return 2 * (b - least) < most - least ? "red" : "pink";
    if (g == most)
        return 2 * (b - least) > most - least ? "turquoise" : "green";
    if (2 * (r - least) > most - least)
        return "violet";
    return 2 * (g - least) > most - least ? "turquoise" : "blue";
}

/* The layer's name with those it lies in. */
static const char *layer_name(const struct drawing *d, struct arena *a, int layer)
{
    if (layer == DRAWING_NONE)
        return NULL;
    const char *above = layer_name(d, a, d->layers[layer].parent);
    return above ? base_arena_print(a, "%s · %s", above, d->layers[layer].name) : d->layers[layer].name;
}

const char *app_lift_strand_name(const struct app_lift *lift, struct arena *a, const struct lifting_strand *s)
{
    const char *layer = layer_name(&lift->im->chosen, a, s->layer);
    const char *look = s->filled ? "filled" : s->dash_count ? "dashed" : "whole";
    if (!layer)
        return base_arena_print(a, "%s, %s", app_lift_colour(s->rgb), look);
    return base_arena_print(a, "%s (%s)", layer, app_lift_colour(s->rgb));
}

const char *app_lift_strand_role(const struct app_lift *lift, struct arena *a, const struct lifting_strand *s)
{
    const struct lifting_division *d = &lift->im->division;
    const char *cup = cup_name(d, s->cup_group);
    if (s->role == LIFTING_UNUSED)
        return "not used";
    if (s->role == LIFTING_COMMON)
        return "all sizes";
    return base_arena_print(a, "size %s%s%s", size_name(d, s->size), cup ? ", cup " : "", cup ? cup : "");
}
