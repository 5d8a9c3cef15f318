/* What is known of each kind of cloth. */
#include "cloth/kinds.h"

const char *const cloth_kind_words[CLOTH_KINDS] = {
    [CLOTH_WOVEN] = "woven",   [CLOTH_EASY_CARE] = "easy-care", [CLOTH_CORD] = "cord", [CLOTH_KNIT] = "knit",
    [CLOTH_BONDED] = "bonded", [CLOTH_LACE] = "lace",           [CLOTH_HIDE] = "hide", [CLOTH_FUSIBLE] = "fusible",
};

const char *const cloth_spread_words[CLOTH_SPREADS] = {
    [CLOTH_SINGLE] = "single",
    [CLOTH_FOLDED] = "folded",
    [CLOTH_FOLDED_TO] = "folded to a depth",
    [CLOTH_TO_MIDDLE] = "folded to the middle",
    [CLOTH_FOLDED_ACROSS] = "folded across",
};

/* Why it does not tear true, and what to do; NULL: it does. Cords, easy-care finishes, knits and bonded cloth: a
 * university extension's leaflet on tearing (see tests/cloth); lace and hides have no threads that run across. */
static const struct {
    const char *name, *no_tear;
} kinds[CLOTH_KINDS] = {
    [CLOTH_WOVEN] = { "woven cloth", NULL },
    [CLOTH_EASY_CARE] = { "easy-care cloth",
                          "easy-care cloth does not tear true, as its finish holds the threads where "
                          "they are: cut it along a ruled line instead" },
    [CLOTH_CORD] = { "corded cloth",
                     "corded cloth does not tear true, as the tear jumps from cord to cord: cut it along "
                     "a drawn thread instead" },
    [CLOTH_KNIT] = { "knitted cloth",
                     "knitted cloth cannot be torn, as it has loops and no threads that run across: cut "
                     "it along a row of loops instead" },
    [CLOTH_BONDED] = { "bonded cloth", "bonded cloth cannot be torn, as its fibres run every way: cut it along a ruled "
                                       "line instead" },
    [CLOTH_LACE] = { "lace", "lace cannot be torn, as no thread runs straight across it: cut it along its figures "
                             "instead" },
    [CLOTH_HIDE] = { "leather", "leather cannot be torn, as it has no threads: cut it along a ruled line instead" },
    [CLOTH_FUSIBLE] = { "fusible interfacing", "fusible interfacing does not tear true, as its resin holds the threads "
                                               "where they are: cut it along a ruled line instead" },
};

const char *cloth_kind_name(enum cloth_kind kind)
{
    return kinds[kind].name;
}

void cloth_make_interfacing(struct cloth *cloth)
{
    if (!cloth->is_kind_told)
        cloth->kind = CLOTH_FUSIBLE;
    if (cloth->kind == CLOTH_FUSIBLE && !cloth->is_selvedge_told)
        cloth->selvedge_mm = 0;
}

bool cloth_tears(const struct cloth *cloth, const char **why_not)
{
    if (why_not)
        *why_not = kinds[cloth->kind].no_tear;
    return !kinds[cloth->kind].no_tear;
}

const char *cloth_spread_name(enum cloth_spread_kind spread)
{
    static const char *const names[CLOTH_SPREADS] = {
        [CLOTH_SINGLE] = "in a single layer",
        [CLOTH_FOLDED] = "folded lengthwise",
        [CLOTH_FOLDED_TO] = "folded lengthwise to a set depth",
        [CLOTH_TO_MIDDLE] = "folded with both selvedges to the middle",
        [CLOTH_FOLDED_ACROSS] = "folded crosswise",
    };
    return names[spread];
}
