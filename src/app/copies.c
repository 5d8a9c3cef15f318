#include "app/copies.h"

const char *app_copies_text(struct arena *a, const struct draft_cut *cut, const struct draft_piece *piece)
{
    static const char *const hands[] = {
        [PATTERN_AS_DRAWN] = "", [PATTERN_LEFT] = ", left", [PATTERN_RIGHT] = ", right", [PATTERN_PAIRS] = ""
    };
    const char *fold = piece->has_fold ? " on the fold" : "";
    if (cut->hand == PATTERN_PAIRS)
        return base_arena_print(a, "%d pair%s%s", cut->count / 2, cut->count == 2 ? "" : "s", fold);
    return base_arena_print(a, "Cut %d%s%s", cut->count, hands[cut->hand], fold);
}

const char *app_size_text(struct arena *a, const struct job *job)
{
    struct draft_figure figure = job_figure(job);
    return draft_figure_text(a, job->pattern, &figure);
}
