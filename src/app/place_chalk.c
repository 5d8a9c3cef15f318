/* Marks that are chalked on the cloth, and what they are called. */
#include "app/place_state.h"

#define TWIN_MM 40.0 /* marks nearer to each other are one: their letters would not stand apart */

enum { MARKS = 2 /* that two sections share, of those there is room for: with the edge, all that it takes */ };

static int mark_count(const struct app_place_cloth *cloth, size_t span)
{
    int count = cloth->plan.spans[span].mark_count;
    return count < MARKS ? count : MARKS;
}

static struct app_chalk mark_of(struct arena *a, const struct app_place_cloth *c, size_t span, int mark)
{
    enum { LETTERS = 22 }; /* A to V: W is for those of one section alone */
    int number = mark;
    for (size_t i = 0; i < span; i++)
        number += mark_count(c, i);
    return (struct app_chalk){ base_arena_print(a, "%c", 'A' + number % LETTERS), c->plan.spans[span].marks[mark] };
}

static struct app_chalk witness_of(struct arena *a, const struct app_place_cloth *c, size_t span, int witness)
{
    int number = witness + 1;
    for (size_t i = 0; i < span; i++)
        number += c->plan.spans[i].witness_count;
    return (struct app_chalk){ base_arena_print(a, "W%d", number), c->plan.spans[span].witnesses[witness] };
}

/* The mark that a section shares with the next one and that lies so near that one does for both; -1: none. */
static int twin_of(const struct app_place_cloth *c, size_t span, int witness)
{
    struct cloth_pt at = c->plan.spans[span].witnesses[witness];
    for (int i = 0; span + 1 < c->plan.count && i < mark_count(c, span + 1); i++) {
        struct cloth_pt mark = c->plan.spans[span + 1].marks[i];
        if (vec2_length((vec2){ mark.x - at.x, mark.y - at.y }) < TWIN_MM)
            return i;
    }
    return -1;
}

static bool is_twin(const struct app_place_cloth *c, size_t span, int mark)
{
    for (int i = 0; i < c->plan.spans[span].witness_count; i++)
        if (twin_of(c, span, i) == mark)
            return true;
    return false;
}

static int list_witnesses(struct arena *a, const struct app_place_cloth *c, size_t span, struct app_chalk *out)
{
    int count = c->plan.spans[span].witness_count;
    for (int i = 0; i < count; i++) {
        int twin = twin_of(c, span, i);
        out[i] = twin >= 0 ? mark_of(a, c, span + 1, twin) : witness_of(a, c, span, i);
    }
    return count;
}

static int list_marks(struct arena *a, const struct app_place_cloth *c, size_t span, struct app_chalk *out)
{
    int count = 0;
    for (int i = 0; span + 1 < c->plan.count && i < mark_count(c, span + 1); i++)
        if (!is_twin(c, span, i))
            out[count++] = mark_of(a, c, span + 1, i);
    return count;
}

int app_place_chalk(struct arena *a, const struct app_place_cloth *cloth, size_t span, enum app_step_kind kind,
                    struct app_chalk out[APP_PLACE_CHALK])
{
    switch (kind) {
    case APP_STEP_WITNESSES:
        return list_witnesses(a, cloth, span, out);
    case APP_STEP_MARKS:
        return list_marks(a, cloth, span, out);
    case APP_STEP_CUT:
        break;
    }
    return 0;
}

bool app_place_are_chalked(const struct app_place_cloth *cloth, size_t span, enum app_step_kind kind)
{
    for (size_t i = 0; i < cloth->step_count; i++)
        if (cloth->steps[i].span == span && cloth->steps[i].kind == kind && cloth->steps[i].done)
            return true;
    return false;
}

bool app_place_are_shared_chalked(const struct app_place_cloth *cloth, size_t span)
{
    bool twins = false;
    for (int i = 0; i < mark_count(cloth, span); i++)
        twins = twins || is_twin(cloth, span - 1, i);
    return app_place_are_chalked(cloth, span - 1, APP_STEP_MARKS) || (twins && app_place_are_chalked(cloth, span - 1, APP_STEP_WITNESSES));
}

int app_place_shared(struct arena *a, const struct app_place_cloth *cloth, size_t span,
                     struct app_chalk out[APP_PLACE_CHALK])
{
    int count = mark_count(cloth, span);
    for (int i = 0; i < count; i++)
        out[i] = mark_of(a, cloth, span, i);
    return count;
}
