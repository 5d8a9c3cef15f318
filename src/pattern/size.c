/* Places of the size chart by name: a size's own, or "12 to 14 at 40%" between two neighbours. */
#include "base/text.h"
#include "base/words.h"
#include "pattern/pattern.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char to[] = " to ", at_share[] = " at ";

/* What follows "A to B": nothing, which is half way, or " at 40%". 0 when it is neither. */
static int read_percent(const char *text)
{
    if (!*text)
        return 50;
    const char *at = base_text_behind(text, at_share);
    size_t digits = at ? strspn(at, "0123456789") : 0;
    if (digits < 1 || digits > 2)
        return 0;
    const char *sign = at + digits + (at[digits] == ' ');
    return strcmp(sign, "%") == 0 ? atoi(at) : 0;
}

bool pattern_find_position(const struct pattern *p, const char *name, double *position)
{
    int size = pattern_find_size(p, name), percent = 0;
    if (size != PATTERN_NONE)
        *position = size;
    for (size_t i = 0; size == PATTERN_NONE && i + 1 < p->size_count && !percent; i++) {
        const char *rest = base_text_behind(base_text_behind(base_text_behind(name, p->sizes[i]), to), p->sizes[i + 1]);
        percent = rest ? read_percent(rest) : 0;
        if (percent)
            *position = pattern_position_between(i, percent);
    }
    return size != PATTERN_NONE || percent;
}

double pattern_position_between(size_t lower, int percent)
{
    return (double)lower + percent / 100.0;
}

static int percent_of(double part)
{
    return (int)fmin(fmax(floor(100 * part + 0.5), 1), 99);
}

const char *pattern_size_text(struct arena *a, const struct pattern *p, double position)
{
    size_t lower = (size_t)position;
    double part = position - (double)lower;
    if (part == 0)
        return p->sizes[lower];
    int percent = percent_of(part);
    const char *between = base_arena_print(a, "%s%s%s", p->sizes[lower], to, p->sizes[lower + 1]);
    return percent == 50 ? between : base_arena_print(a, "%s%s%d%%", between, at_share, percent);
}

const char *pattern_size_shown(struct arena *a, const struct pattern *p, double position)
{
    size_t lower = (size_t)position;
    double part = position - (double)lower;
    if (part == 0)
        return p->sizes[lower];
    int percent = percent_of(part);
    if (percent == 50)
        return base_arena_print(a, base_tr("%s to %s"), p->sizes[lower], p->sizes[lower + 1]);
    return base_arena_print(a, base_tr("%s to %s at %d%%"), p->sizes[lower], p->sizes[lower + 1], percent);
}
