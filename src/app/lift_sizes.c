/* Which line is which size, and which sizes are to be drawn. */
#include "app/lift_state.h"
#include "app/sheet_report.h"
#include "base/words.h"

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

static size_t place_of(const char *const *names, size_t count, const char *name)
{
    size_t at = 0;
    while (at < count && strcmp(names[at], name) != 0)
        at++;
    return at;
}

/* The sizes that were found, then those that she added: one that no line is of any more can be gone back to. */
static size_t all_sizes(const struct app_import *im, struct arena *a, const char ***out)
{
    const struct lifting_division *d = &im->division;
    const char **names = base_arena_alloc(a, im->found_size_count + d->size_count, sizeof *names);
    size_t count = 0;
    for (size_t i = 0; i < im->found_size_count; i++)
        names[count++] = im->found_sizes[i];
    for (size_t i = 0; i < d->size_count; i++)
        if (place_of(names, count, d->sizes[i]) == count)
            names[count++] = d->sizes[i];
    *out = names;
    return count;
}

/* Not used, all sizes, then size by size, around. */
struct app_lift_effects app_lift_role(struct app_lift *lift, int by)
{
    const struct lifting_strand *s = marked(lift);
    const char **names;
    if (!s)
        return app_lift_redraw;
    size_t sizes = all_sizes(lift->im, lift->told_in, &names), count = sizes + 2, now = s->role == LIFTING_COMMON;
    if (s->role == LIFTING_SIZE)
        now = 2 + place_of(names, sizes, size_name(&lift->im->division, s->size));
    size_t then = (now + count + (size_t)by) % count;
    if (then < 2)
        return say(lift, then ? LIFTING_COMMON : LIFTING_UNUSED, NULL);
    return say(lift, LIFTING_SIZE, names[then - 2]);
}

struct app_lift_effects app_lift_new_size(struct app_lift *lift, const char *name)
{
    return say(lift, LIFTING_SIZE, name);
}

struct app_lift_effects app_lift_draw_size(struct app_lift *lift)
{
    const struct lifting_strand *s = marked(lift);
    if (!s || s->role != LIFTING_SIZE) {
        app_lift_tell(lift, base_tr("This line is of no size. D is for the line of your size"));
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
    const char *look = s->filled       ? base_tr_in("line", "filled")
                       : s->dash_count ? base_tr_in("line", "dashed")
                                       : base_tr_in("line", "whole");
    const char *width = app_strand_width(a, &lift->im->division, s);
    if (!layer)
        return base_arena_print(a, "%s, %s%s", app_colour_name(s->rgb), look, width);
    return base_arena_print(a, "%s (%s, %s%s)", layer, app_colour_name(s->rgb), look, width);
}
