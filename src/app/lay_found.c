#include "app/lay_found.h"

#include "app/amount.h"
#include "app/lay_words.h"
#include "packing/packing.h"

#include <math.h>

/* {0}: the piece, {1}: the other one, {2}: by how much, {3}: the advice. */
static const struct err_kind kinds[] = {
    [LAY_OVERLAP] = { "app.laid_over", ERR_FAULT, BASE_TR("“{0}” lies {2} over “{1}”{3}") },
    [LAY_OFF_CLOTH] = { "app.laid_off_cloth", ERR_FAULT, BASE_TR("“{0}” lies {2} past what can be cut there{3}") },
    [LAY_OFF_FOLD] = { "app.laid_off_fold", ERR_FAULT, BASE_TR("“{0}” lies {2} off the fold{3}") },
    [LAY_WRONG_HAND] = { "app.laid_wrong_hand", ERR_FAULT,
                         BASE_TR("“{0}” lies the other way round: it would be cut for the other side{3}") },
    [LAY_AGAINST_NAP] = { "app.laid_against_nap", ERR_FAULT,
                          BASE_TR("“{0}” lies the other way up, on one-way cloth{3}") },
    [LAY_OFF_GRAIN] = { "app.laid_off_grain", ERR_WARNING, BASE_TR("“{0}” lies {2} off the grain") },
    [LAY_OFF_REPEAT] = { "app.laid_off_repeat", ERR_WARNING,
                         BASE_TR("“{0}” lies {2} off the stripes it is matched by") },
    [LAY_IN_BLOCK] = { "app.laid_in_block", ERR_WARNING,
                       BASE_TR("“{0}” lies {2} within the block that is fused, and is not to be fused{3}") },
    [LAY_OFF_BLOCK] = { "app.laid_off_block", ERR_WARNING,
                        BASE_TR("“{0}” is to be fused and lies {2} outside the block: fuse it by itself, or move it") },
};

static const struct err_kind too_near = { "app.laid_near", ERR_FAULT, BASE_TR("“{0}” lies {2} too near to “{1}”{3}") };

/* Nearer to another than the gap that is to be kept, but not over it. */
static bool is_only_near(struct arena *a, const struct lay *lay, const struct lay_finding *f)
{
    if (f->fault != LAY_OVERLAP)
        return false;
    struct geometry_path one = lay_outline(a, lay->task, (size_t)f->item, &lay->places[f->item]).path;
    struct geometry_path other = lay_outline(a, lay->task, (size_t)f->other, &lay->places[f->other]).path;
    return packing_depth(a, one, (vec2){ 0, 0 }, other, (vec2){ 0, 0 }, NULL) <= 0;
}

struct err app_lay_found(struct arena *a, const struct lay *lay, const struct lay_finding *f, const char *advice)
{
    const char *other = f->other == LAY_NONE ? "" : lay_item_name(a, lay->task, (size_t)f->other);
    const char *amount = f->fault == LAY_OFF_GRAIN ? base_arena_print(a, "%s°", app_decimal(a, f->amount, 1))
                                                   : app_lay_off(a, f->amount);
    return (struct err){ .kind = is_only_near(a, lay, f) ? &too_near : &kinds[f->fault],
                         .args = { ERR_TEXT(lay_item_name(a, lay->task, (size_t)f->item)), ERR_TEXT(other),
                                   ERR_TEXT(amount), ERR_TEXT(advice) } };
}
