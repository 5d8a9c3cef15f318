#include "app/arrange_state.h"

#include <string.h>

void app_arrange_begin_steps(struct arena *a, struct app_arrange_steps *steps, size_t items)
{
    for (size_t i = 0; i < APP_ARRANGE_STEPS; i++)
        steps->values[i] = base_arena_alloc(a, items + 1, sizeof *steps->values[i]);
    memset(steps->values[0], 0, (items + 1) * sizeof *steps->values[0]);
    steps->count = 1;
    steps->now = 0;
}

const struct lay_place *app_arrange_places(const struct app_arranged *cloth)
{
    return cloth->steps.values[cloth->steps.now];
}

bool app_arrange_stays(const struct app_arranged *cloth, size_t item)
{
    const struct lay_place *place = &app_arrange_places(cloth)[item];
    return place->is_laid && (place->is_pinned || cloth->begun[item]);
}

/* Room for one more after the one that is now: the oldest is forgotten where all are taken. */
static void make_room(struct app_arrange_steps *steps)
{
    if (steps->now + 1 < APP_ARRANGE_STEPS)
        return;
    struct lay_place *oldest = steps->values[0];
    for (size_t i = 0; i + 1 < APP_ARRANGE_STEPS; i++)
        steps->values[i] = steps->values[i + 1];
    steps->values[APP_ARRANGE_STEPS - 1] = oldest;
    steps->now--;
}

struct lay_place *app_arrange_step(struct app_arranged *cloth, enum app_arrange_deed deed)
{
    struct app_arrange_steps *steps = &cloth->steps;
    bool more = deed != APP_ARRANGE_ELSE && deed == cloth->deed && steps->now > 0;
    cloth->deed = deed;
    cloth->is_made = false;
    if (!more) {
        make_room(steps);
        size_t items = cloth->task.item_count;
        memcpy(steps->values[steps->now + 1], steps->values[steps->now], items * sizeof *steps->values[0]);
        steps->now++;
    }
    steps->count = steps->now + 1;
    return steps->values[steps->now];
}

bool app_arrange_step_by(struct app_arranged *cloth, int by)
{
    struct app_arrange_steps *steps = &cloth->steps;
    if (by < 0 ? steps->now == 0 : steps->now + 1 == steps->count)
        return false;
    steps->now = by < 0 ? steps->now - 1 : steps->now + 1;
    cloth->deed = APP_ARRANGE_ELSE;
    cloth->is_made = false;
    return true;
}

static void make(struct app_arranged *cloth)
{
    if (cloth->is_made)
        return;
    base_arena_reset(cloth->made);
    cloth->lay = lay_of(cloth->made, &cloth->task, app_arrange_places(cloth));
    cloth->finding_count = lay_judge(cloth->made, &cloth->lay, &cloth->findings);
    cloth->is_made = true;
}

const struct lay *app_arrange_lay(struct app_arranged *cloth)
{
    make(cloth);
    return &cloth->lay;
}

size_t app_arrange_findings(struct app_arranged *cloth, const struct lay_finding **out)
{
    make(cloth);
    *out = cloth->findings;
    return cloth->finding_count;
}
