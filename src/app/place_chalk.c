/* Marks that are chalked on the cloth, and what they are called. */
#include "app/place_state.h"

#define TWIN_MM 40.0 /* marks nearer to each other are one: their letters would not stand apart */
#define SAME_MM 15.0 /* of one that is chalked already: nearer no cut parts them, which both keep 8 mm clear of */

/* The mark that a section shares with the next one and that lies so near that one does for both; -1: none. */
static int twin_of(const struct app_place_cloth *c, size_t span, int witness)
{
    struct cloth_pt at = c->plan.spans[span].witnesses[witness];
    for (int i = 0; span + 1 < c->plan.count && i < c->plan.spans[span + 1].mark_count; i++) {
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

static bool has_step(const struct app_place_cloth *c, size_t span, enum app_step_kind kind)
{
    for (size_t i = 0; i < c->step_count; i++)
        if (c->steps[i].span == span && c->steps[i].kind == kind)
            return true;
    return false;
}

static bool is_witness(const char *name)
{
    return name[0] == 'W' && name[1];
}

static bool is_same(struct cloth_pt p, struct cloth_pt q)
{
    return vec2_length((vec2){ p.x - q.x, p.y - q.y }) < SAME_MM;
}

/* How many names of a kind an earlier layout took. */
static int chalked_before(const struct app_place_cloth *c, bool witnesses)
{
    int count = 0;
    for (int i = 0; c->earlier && i < c->earlier->chalk_count; i++)
        count += is_witness(c->earlier->chalk[i].name) == witnesses;
    return count;
}

/* A mark's own letter; W is for those of one section alone. */
static struct app_chalk new_mark(struct arena *a, const struct app_place_cloth *c, size_t span, int mark)
{
    enum { LETTERS = 22 }; /* A to V */
    int number = mark + chalked_before(c, false);
    for (size_t i = 0; i < span; i++)
        number += c->plan.spans[i].mark_count;
    return (struct app_chalk){ base_arena_print(a, "%c", 'A' + number % LETTERS), c->plan.spans[span].marks[mark],
                               false };
}

/* Of a section's witnesses up to one, those that are no shared mark as well. */
static int alone_before(const struct app_place_cloth *c, size_t span, int end)
{
    int count = 0;
    for (int i = 0; i < end; i++)
        count += twin_of(c, span, i) < 0;
    return count;
}

static struct app_chalk new_witness(struct arena *a, const struct app_place_cloth *c, size_t span, int witness)
{
    int number = alone_before(c, span, witness) + 1 + chalked_before(c, true);
    for (size_t i = 0; i < span; i++)
        number += has_step(c, i, APP_STEP_WITNESSES) ? alone_before(c, i, c->plan.spans[i].witness_count) : 0;
    return (struct app_chalk){ base_arena_print(a, "W%d", number), c->plan.spans[span].witnesses[witness], false };
}

static struct app_chalk as_chalked(struct arena *a, const struct app_place_cloth *c, size_t span,
                                   struct app_chalk mark);

/* The first that is chalked at a place, by an earlier layout or in a section before that one. */
static bool find_before(struct arena *a, const struct app_place_cloth *c, size_t span, struct cloth_pt at,
                        struct app_chalk *out)
{
    for (int i = 0; c->earlier && i < c->earlier->chalk_count; i++)
        if (is_same(c->earlier->chalk[i].at, at)) {
            *out = c->earlier->chalk[i];
            return true;
        }
    for (size_t s = 0; s < span; s++) {
        bool own = has_step(c, s, APP_STEP_WITNESSES), shared = has_step(c, s, APP_STEP_MARKS);
        for (int i = 0; i < c->plan.spans[s + 1].mark_count; i++)
            if (is_same(c->plan.spans[s + 1].marks[i], at) && (is_twin(c, s, i) ? own : shared)) {
                *out = as_chalked(a, c, s, new_mark(a, c, s + 1, i));
                return true;
            }
        for (int i = 0; own && i < c->plan.spans[s].witness_count; i++)
            if (is_same(c->plan.spans[s].witnesses[i], at) && twin_of(c, s, i) < 0) {
                *out = as_chalked(a, c, s, new_witness(a, c, s, i));
                return true;
            }
    }
    return false;
}

/* One that lies where another is chalked already is that one. */
static struct app_chalk as_chalked(struct arena *a, const struct app_place_cloth *c, size_t span, struct app_chalk mark)
{
    struct app_chalk first;
    if (!find_before(a, c, span, mark.at, &first))
        return mark;
    first.before = true;
    return first;
}

/* Chalked in the section before its own. */
static struct app_chalk mark_of(struct arena *a, const struct app_place_cloth *c, size_t span, int mark)
{
    return as_chalked(a, c, span - 1, new_mark(a, c, span, mark));
}

static int list_witnesses(struct arena *a, const struct app_place_cloth *c, size_t span, struct app_chalk *out)
{
    int count = c->plan.spans[span].witness_count;
    for (int i = 0; i < count; i++) {
        int twin = twin_of(c, span, i);
        out[i] = twin >= 0 ? mark_of(a, c, span + 1, twin) : as_chalked(a, c, span, new_witness(a, c, span, i));
    }
    return count;
}

static int list_marks(struct arena *a, const struct app_place_cloth *c, size_t span, struct app_chalk *out)
{
    int count = 0;
    for (int i = 0; span + 1 < c->plan.count && i < c->plan.spans[span + 1].mark_count; i++)
        if (!is_twin(c, span, i))
            out[count++] = mark_of(a, c, span + 1, i);
    return count;
}

int app_place_marks(struct arena *a, const struct app_place_cloth *cloth, size_t span, enum app_step_kind kind,
                    struct app_chalk out[APP_PLACE_CHALK])
{
    switch (kind) {
    case APP_STEP_WITNESSES:
        return list_witnesses(a, cloth, span, out);
    case APP_STEP_MARKS:
        return list_marks(a, cloth, span, out);
    case APP_STEP_CUT:
    case APP_STEP_LAMP:
        break;
    }
    return 0;
}

int app_place_chalk(struct arena *a, const struct app_place_cloth *cloth, size_t span, enum app_step_kind kind,
                    struct app_chalk out[APP_PLACE_CHALK])
{
    int all = app_place_marks(a, cloth, span, kind, out), count = 0;
    for (int i = 0; i < all; i++)
        if (!out[i].before)
            out[count++] = out[i];
    return count;
}

/* None are to be chalked, as all are. */
static bool are_all_before(const struct app_place_cloth *c, size_t span, enum app_step_kind kind)
{
    struct arena *scratch = base_arena_create();
    struct app_chalk marks[APP_PLACE_CHALK];
    bool all = app_place_marks(scratch, c, span, kind, marks) > 0 && !app_place_chalk(scratch, c, span, kind, marks);
    base_arena_destroy(scratch);
    return all;
}

bool app_place_are_chalked(const struct app_place_cloth *cloth, size_t span, enum app_step_kind kind)
{
    for (size_t i = 0; i < cloth->step_count; i++)
        if (cloth->steps[i].span == span && cloth->steps[i].kind == kind && cloth->steps[i].done)
            return true;
    return are_all_before(cloth, span, kind);
}

/* One within a piece goes with it once it is cut out. */
static bool is_cut_out(const struct app_place_cloth *c, size_t span, int mark)
{
    int item = c->plan.spans[span].mark_items[mark];
    return item != SPANS_WASTE && !c->chalks_all && app_place_is_cut(c, (size_t)item);
}

static bool is_on_cloth(const struct app_place_cloth *c, size_t span, int mark)
{
    if (is_cut_out(c, span, mark))
        return false;
    struct arena *scratch = base_arena_create();
    bool before = mark_of(scratch, c, span, mark).before;
    base_arena_destroy(scratch);
    return before ||
           app_place_are_chalked(c, span - 1, is_twin(c, span - 1, mark) ? APP_STEP_WITNESSES : APP_STEP_MARKS);
}

bool app_place_are_shared_chalked(const struct app_place_cloth *cloth, size_t span)
{
    for (int i = 0; i < cloth->plan.spans[span].mark_count; i++)
        if (is_on_cloth(cloth, span, i))
            return true;
    return false;
}

int app_place_shared(struct arena *a, const struct app_place_cloth *cloth, size_t span,
                     struct app_chalk out[APP_PLACE_CHALK])
{
    int count = 0;
    for (int i = 0; i < cloth->plan.spans[span].mark_count; i++)
        if (is_on_cloth(cloth, span, i))
            out[count++] = mark_of(a, cloth, span, i);
    return count;
}

int app_place_all_chalk(struct arena *a, const struct app_place_cloth *c, const struct app_chalk **out)
{
    static const enum app_step_kind kinds[] = { APP_STEP_WITNESSES, APP_STEP_MARKS };
    int count = c->earlier ? c->earlier->chalk_count : 0;
    struct app_chalk *all = base_arena_alloc(a, (size_t)count + 2 * APP_PLACE_CHALK * c->plan.count, sizeof *all);
    for (int i = 0; i < count; i++)
        all[i] = c->earlier->chalk[i];
    for (size_t span = 0; span < c->plan.count; span++)
        for (int k = 0; k < 2; k++)
            if (app_place_are_chalked(c, span, kinds[k]))
                count += app_place_chalk(a, c, span, kinds[k], all + count);
    *out = all;
    return count;
}
