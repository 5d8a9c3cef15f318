#include "app/copies.h"

#include "base/words.h"

/* By hand, and whether the piece lies on the fold. */
static const char *const heads[][2] = {
    [PATTERN_AS_DRAWN] = { BASE_TR("Cut %d"), BASE_TR("Cut %d on the fold") },
    [PATTERN_LEFT] = { BASE_TR("Cut %d, left"), BASE_TR("Cut %d, left on the fold") },
    [PATTERN_RIGHT] = { BASE_TR("Cut %d, right"), BASE_TR("Cut %d, right on the fold") },
};
static const char *const cells[][2] = {
    [PATTERN_AS_DRAWN] = { "%d", BASE_TR("%d on the fold") },
    [PATTERN_LEFT] = { BASE_TR("%d, left"), BASE_TR("%d, left on the fold") },
    [PATTERN_RIGHT] = { BASE_TR("%d, right"), BASE_TR("%d, right on the fold") },
};

static const char *text_of(struct arena *a, const struct draft_cut *cut, const struct draft_piece *piece,
                           const char *const texts[][2])
{
    size_t pairs = (size_t)cut->count / 2;
    if (cut->hand != PATTERN_PAIRS)
        return base_arena_print(a, base_tr(texts[cut->hand][piece->has_fold]), cut->count);
    if (piece->has_fold)
        return base_arena_print(a, base_tr_count(pairs, "%zu pair on the fold", "%zu pairs on the fold"), pairs);
    return base_arena_print(a, base_tr_count(pairs, "%zu pair", "%zu pairs"), pairs);
}

const char *app_copies_text(struct arena *a, const struct draft_cut *cut, const struct draft_piece *piece)
{
    return text_of(a, cut, piece, heads);
}

const char *app_copies_cell(struct arena *a, const struct draft_cut *cut, const struct draft_piece *piece)
{
    return text_of(a, cut, piece, cells);
}

const char *app_size_text(struct arena *a, const struct job *job)
{
    struct draft_figure figure = job_figure(job);
    return draft_figure_text(a, job->pattern, &figure);
}
