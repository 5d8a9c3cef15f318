/* What an item is called among the others. */
#include "lay/lay.h"

static bool is_like(const struct lay_item *a, const struct lay_item *b)
{
    return a->cut == b->cut && a->hand == b->hand && a->copies == b->copies;
}

const char *lay_item_name(struct arena *a, const struct lay_task *task, size_t item)
{
    const struct lay_item *it = &task->items[item];
    const char *hand = it->hand == PATTERN_LEFT ? " (left)" : it->hand == PATTERN_RIGHT ? " (right)" : "";
    int before = 0, all = 0;
    for (size_t i = 0; i < task->item_count; i++) {
        before += i < item && is_like(&task->items[i], it);
        all += is_like(&task->items[i], it);
    }
    if (all == 1)
        return base_arena_print(a, "%s%s", it->piece->label, hand);
    return base_arena_print(a, "%s %d%s", it->piece->label, before + 1, hand);
}
