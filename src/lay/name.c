/* What an item is called among the others, and which of its layers is kept. */
#include "lay/lay.h"

#include <string.h>

const char *lay_handed_name(struct arena *a, const char *name, enum pattern_hand hand)
{
    if (hand == PATTERN_LEFT) /* To: “Sleeve (left)” */
        return base_arena_print(a, base_tr("%s (left)"), name);
    return hand == PATTERN_RIGHT ? base_arena_print(a, base_tr("%s (right)"), name) : name;
}

static enum pattern_hand hand_of(const struct lay_item *item)
{
    return item->hand == PATTERN_PAIRS ? PATTERN_AS_DRAWN : item->hand;
}

/* Called the same but for a number. */
static bool is_like(const struct lay_item *a, const struct lay_item *b)
{
    return strcmp(a->piece->label, b->piece->label) == 0 && hand_of(a) == hand_of(b);
}

const char *lay_item_name(struct arena *a, const struct lay_task *task, size_t item)
{
    const struct lay_item *it = &task->items[item];
    int before = 0, all = 0;
    for (size_t i = 0; i < task->item_count; i++) {
        before += i < item && is_like(&task->items[i], it);
        all += is_like(&task->items[i], it);
    }
    const char *name = all == 1 ? it->piece->label : base_arena_print(a, "%s %d", it->piece->label, before + 1);
    return lay_handed_name(a, name, it->hand);
}

const char *lay_kept_words(const struct lay *lay, size_t item)
{
    static const char *const words[] = { [LAY_KEEPS_ALL] = NULL,
                                         [LAY_KEEPS_EITHER] = BASE_TR("keep one"),
                                         [LAY_KEEPS_LOWER] = BASE_TR("keep the lower"),
                                         [LAY_KEEPS_UPPER] = BASE_TR("keep the upper") };
    const char *kept = words[lay_kept_of(lay, item)];
    return kept ? base_tr(kept) : NULL;
}
