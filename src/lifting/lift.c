#include "lifting/lift.h"
#include "lifting/marks.h"
#include "lifting/mend.h"
#include "lifting/words.h"

#define GAP_TOLD_MM 0.05 /* gaps below this are rounding of the file */

static unsigned doubts_of_outlines(const struct lifting_division *division, const struct lifting_shape *shape)
{
    unsigned doubts = 0;
    for (size_t k = 0; k < division->size_count; k++) {
        if (!shape->outlines[k].there)
            doubts |= LIFTING_DOUBT_SIZES;
        else if (shape->outlines[k].closed_over_mm > GAP_TOLD_MM)
            doubts |= LIFTING_DOUBT_GAP;
    }
    return doubts;
}

/* A bracket may tell it where no words do. */
static bool has_fold(const struct lifting_piece *piece)
{
    for (size_t i = 0; piece->marks && i < piece->mark_count; i++)
        if (piece->marks[i].kind == LIFTING_FOLD)
            return true;
    return false;
}

static struct lifting_piece piece_of(struct arena *a, const struct drawing *d, const struct lifting_division *division,
                                     const struct lifting_shape *shape, struct lifting_words words)
{
    struct lifting_piece piece = { .words = words,
                                   .cup_group = shape->cup_group,
                                   .one_size = shape->one_size,
                                   .outlines = shape->outlines,
                                   .doubts = doubts_of_outlines(division, shape) };
    if (!piece.words.name)
        piece.doubts |= LIFTING_DOUBT_NAME;
    if (!piece.words.count)
        piece.doubts |= LIFTING_DOUBT_COUNT;
    piece.mark_count =
        lifting_find_marks(a, d, division, shape, &piece.words, &piece.marks, &piece.grain, &piece.doubts);
    piece.words.on_fold = piece.words.on_fold || has_fold(&piece);
    return piece;
}

struct lifting lifting_lift(struct arena *a, const struct drawing *d, const struct lifting_division *division,
                            const struct lifting_mend *mends, size_t mend_count, struct err_list *errs)
{
    const struct lifting_shape *shapes;
    struct lifting out = { .division = division };
    out.piece_count = lifting_find_shapes(a, d, division, &shapes, &out.loose_count, errs);
    struct lifting_piece *pieces = base_arena_alloc(a, out.piece_count, sizeof *pieces);
    struct lifting_words *words = base_arena_alloc(a, out.piece_count, sizeof *words);
    lifting_read_words(a, d, division, shapes, out.piece_count, words);
    for (size_t i = 0; i < out.piece_count; i++)
        pieces[i] = piece_of(a, d, division, &shapes[i], words[i]);
    out.pieces = pieces;
    lifting_apply_mends(a, &out, mends, mend_count, errs);
    return out;
}
