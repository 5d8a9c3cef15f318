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
    [CLOTH_WOVEN] = { BASE_TR("woven cloth"), NULL },
    [CLOTH_EASY_CARE] = { BASE_TR("easy-care cloth"),
                          BASE_TR("easy-care cloth does not tear true, as its finish holds the threads where "
                                  "they are: cut it along a ruled line instead") },
    [CLOTH_CORD] = { BASE_TR("corded cloth"),
                     BASE_TR("corded cloth does not tear true, as the tear jumps from cord to cord: cut it along "
                             "a drawn thread instead") },
    [CLOTH_KNIT] = { BASE_TR("knitted cloth"),
                     BASE_TR("knitted cloth cannot be torn, as it has loops and no threads that run across: cut "
                             "it along a row of loops instead") },
    [CLOTH_BONDED] = { BASE_TR("bonded cloth"),
                       BASE_TR("bonded cloth cannot be torn, as its fibres run every way: cut it along a ruled "
                               "line instead") },
    [CLOTH_LACE] = { BASE_TR("lace"),
                     BASE_TR("lace cannot be torn, as no thread runs straight across it: cut it along its figures "
                             "instead") },
    [CLOTH_HIDE] = { BASE_TR("leather"),
                     BASE_TR("leather cannot be torn, as it has no threads: cut it along a ruled line instead") },
    [CLOTH_FUSIBLE] = { BASE_TR("fusible interfacing"),
                        BASE_TR("fusible interfacing does not tear true, as its resin holds the threads "
                                "where they are: cut it along a ruled line instead") },
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
        [CLOTH_SINGLE] = BASE_TR("in a single layer"),
        [CLOTH_FOLDED] = BASE_TR("folded lengthwise"),
        [CLOTH_FOLDED_TO] = BASE_TR("folded lengthwise to a set depth"),
        [CLOTH_TO_MIDDLE] = BASE_TR("folded with both selvedges to the middle"),
        [CLOTH_FOLDED_ACROSS] = BASE_TR("folded crosswise"),
    };
    return names[spread];
}
