/* What an item is called among the others. */
#include "lay/lay.h"

#include <string.h>

static const char *hand_of(const struct lay_item *item)
{
    return item->hand == PATTERN_LEFT ? " (left)" : item->hand == PATTERN_RIGHT ? " (right)" : "";
}

/* Called the same but for a number. */
static bool is_like(const struct lay_item *a, const struct lay_item *b)
{
    return strcmp(a->piece->label, b->piece->label) == 0 && strcmp(hand_of(a), hand_of(b)) == 0;
}

const char *lay_item_name(struct arena *a, const struct lay_task *task, size_t item)
{
    const struct lay_item *it = &task->items[item];
    const char *hand = hand_of(it);
    int before = 0, all = 0;
    for (size_t i = 0; i < task->item_count; i++) {
        before += i < item && is_like(&task->items[i], it);
        all += is_like(&task->items[i], it);
    }
    if (all == 1)
        return base_arena_print(a, "%s%s", it->piece->label, hand);
    return base_arena_print(a, "%s %d%s", it->piece->label, before + 1, hand);
}
