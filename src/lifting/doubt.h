/* What is doubtful of a piece's sizes beside each other. Not for other folders. */
#ifndef LIFTING_DOUBT_H
#define LIFTING_DOUBT_H

#include "lifting/lifting.h"

/* LIFTING_DOUBT_MATCH, LIFTING_DOUBT_ORDER or none, of so many sizes of the division. */
unsigned lifting_doubt_sizes(const struct lifting_piece *piece, size_t sizes);

#endif
