#include "bench/cut_list.h"

#include "app/copies.h"
#include "bench/inside.h"
#include "bench/pieces.h"

#include <string.h>

/* "1 on the fold" of "Cut 1 on the fold". */
static const char *copies_of(struct arena *a, const struct draft_cut *cut, const struct draft_piece *piece)
{
    static const char *const others[] = { [PATTERN_INTERFACING] = ", interfacing", [PATTERN_LINING] = ", lining" };
    const char *text = app_copies_text(a, cut, piece);
    if (strncmp(text, "Cut ", 4) == 0)
        text += 4;
    return cut->cloth == PATTERN_FABRIC ? text : base_arena_print(a, "%s%s", text, others[cut->cloth]);
}

static const char *brief_of(struct arena *a, const struct draft_cut *cut, const char *copies)
{
    static const char *const others[] = { [PATTERN_INTERFACING] = "interfacing", [PATTERN_LINING] = "lining" };
    return cut->cloth == PATTERN_FABRIC ? copies : base_arena_print(a, "%d, %s", cut->count, others[cut->cloth]);
}

static const char *marks_of(struct arena *a, const struct draft_piece *piece)
{
    size_t notches = piece->notch_count, dots = piece->drill_mark_count;
    const char *some = base_arena_print(a, "%zu notch%s", notches, notches == 1 ? "" : "es");
    const char *others = base_arena_print(a, "%zu dot%s", dots, dots == 1 ? "" : "s");
    if (notches && dots)
        return base_arena_print(a, "%s, %s", some, others);
    return notches ? some : dots ? others : "–";
}

bool bench_cut_list_of(struct arena *a, const struct bench *b, struct bench_cut_list *out)
{
    const struct job *job = bench_now(b);
    *out = (struct bench_cut_list){ .count = 0 };
    if (!job_is_finished(job) || !bench_draft(a, job, &out->draft))
        return false;
    struct bench_cut_line *lines = base_arena_alloc(a, out->draft.cut_count, sizeof *lines);
    bool known = b->progress.line_count == out->draft.cut_count;
    for (size_t i = 0; i < out->draft.cut_count; i++) {
        const struct draft_cut *cut = &out->draft.cuts[i];
        const struct draft_piece *piece = &out->draft.pieces[cut->piece];
        int done = known ? b->progress.lines[i].cut : 0;
        const char *copies = copies_of(a, cut, piece);
        lines[i] = (struct bench_cut_line){
            piece, copies, brief_of(a, cut, copies), marks_of(a, piece), cut->count, done
        };
        out->done += done >= cut->count;
        out->left += done < cut->count ? cut->count - done : 0;
    }
    out->lines = lines;
    out->count = out->draft.cut_count;
    return true;
}
