#include "lifting/lift.h"
#include "lifting/doubt.h"
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
    if (piece.words.doubtful)
        piece.doubts |= LIFTING_DOUBT_READ;
    if (shape->own_text_count < shape->text_count)
        piece.doubts |= LIFTING_DOUBT_TWO;
    if (!piece.words.count)
        piece.doubts |= LIFTING_DOUBT_COUNT;
    piece.doubts |= lifting_doubt_sizes(&piece, division->size_count);
    piece.mark_count =
        lifting_find_marks(a, d, division, shape, &piece.words, &piece.marks, &piece.grain, &piece.doubts);
    piece.words.on_fold = piece.words.on_fold || has_fold(&piece);
    return piece;
}

/* Whether a line's middle lies in the shape, in the line's size. */
static bool holds(const struct lifting_division *division, const struct lifting_shape *shape,
                  const struct drawing_line *line, int strand)
{
    struct geometry_path path = line->path.path;
    vec2 way, middle = geometry_path_at(path, geometry_path_length(path) / 2, &way);
    int size = strand == LIFTING_NONE ? LIFTING_NONE : division->strands[strand].size;
    for (size_t k = 0; k < division->size_count; k++)
        if (shape->outlines[k].there && (size == LIFTING_NONE || size == (int)k) &&
            geometry_path_holds(shape->outlines[k].path.path, middle))
            return true;
    return false;
}

/* A line that touches several shapes is a mark of those that it lies in: a notch at an edge that two of them share. */
static void leave_to_neighbours(struct arena *a, const struct drawing *d, const struct lifting_division *division,
                                struct lifting_shape *shapes, size_t count)
{
    unsigned char *touched = base_arena_alloc(a, d->line_count, 1);
    bool *held = base_arena_alloc(a, d->line_count, sizeof *held);
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < shapes[i].line_count; k++)
            if (touched[shapes[i].lines[k]] < 2)
                touched[shapes[i].lines[k]]++;
    for (int pass = 0; pass < 2; pass++)
        for (size_t i = 0; i < count; i++) {
            size_t *kept = base_arena_alloc(a, shapes[i].line_count, sizeof *kept), n = 0;
            for (size_t k = 0; k < shapes[i].line_count; k++) {
                size_t line = shapes[i].lines[k];
                bool within =
                    touched[line] > 1 && holds(division, &shapes[i], &d->lines[line], division->strand_of_line[line]);
                held[line] = held[line] || within;
                if (within || !held[line] || pass == 0)
                    kept[n++] = line;
            }
            shapes[i].lines = kept;
            shapes[i].line_count = n;
        }
}

/* What stands in an outline within is not mixed into what a piece says by itself, if that is a name and a count. */
static void read_words(struct arena *a, const struct drawing *d, const struct lifting_division *division,
                       const struct lifting_shape *shapes, size_t count, struct lifting_words *words)
{
    struct lifting_shape *own = base_arena_alloc(a, count, sizeof *own);
    bool again = false;
    for (size_t i = 0; i < count; i++) {
        own[i] = shapes[i];
        own[i].text_count = shapes[i].own_text_count;
    }
    lifting_read_words(a, d, division, own, count, words);
    for (size_t i = 0; i < count; i++)
        if (own[i].text_count < shapes[i].text_count && (!words[i].name || !words[i].count)) {
            own[i] = shapes[i];
            again = true;
        }
    if (again)
        lifting_read_words(a, d, division, own, count, words);
}

struct lifting lifting_lift(struct arena *a, const struct drawing *d, const struct lifting_division *division,
                            const struct lifting_mend *mends, size_t mend_count, struct err_list *errs)
{
    const struct lifting_shape *found;
    struct lifting out = { .division = division };
    out.piece_count = lifting_find_shapes(a, d, division, &found, &out.loose_count, errs);
    struct lifting_shape *shapes = base_arena_alloc(a, out.piece_count, sizeof *shapes);
    for (size_t i = 0; i < out.piece_count; i++)
        shapes[i] = found[i];
    leave_to_neighbours(a, d, division, shapes, out.piece_count);
    struct lifting_piece *pieces = base_arena_alloc(a, out.piece_count, sizeof *pieces);
    struct lifting_words *words = base_arena_alloc(a, out.piece_count, sizeof *words);
    read_words(a, d, division, shapes, out.piece_count, words);
    for (size_t i = 0; i < out.piece_count; i++)
        pieces[i] = piece_of(a, d, division, &shapes[i], words[i]);
    out.pieces = pieces;
    lifting_apply_mends(a, &out, mends, mend_count, errs);
    return out;
}
