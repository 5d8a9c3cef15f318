/* What a file calls the kinds of cloth and the ways to spread it, for this folder alone. */
#ifndef CLOTH_KINDS_H
#define CLOTH_KINDS_H

#include "cloth/cloth.h"

enum { CLOTH_KINDS = CLOTH_FUSIBLE + 1, CLOTH_SPREADS = CLOTH_FOLDED_ACROSS + 1 };

/* In the order of their enums. */
extern const char *const cloth_kind_words[CLOTH_KINDS];
extern const char *const cloth_spread_words[CLOTH_SPREADS];

#endif
