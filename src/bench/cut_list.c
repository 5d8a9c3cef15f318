#include "bench/cut_list.h"

#include "app/copies.h"
#include "app/piece_marks.h"
#include "base/words.h"
#include "bench/inside.h"
#include "bench/pieces.h"
#include "job/cloth.h"
#include "lay/lay.h"

/* What is not the main fabric is told, after how many of it are cut. */
static const char *copies_of(struct arena *a, const struct draft_cut *cut, const struct draft_piece *piece)
{
    static const char *const others[] = {
        [PATTERN_INTERFACING] = BASE_TR("%s, interfacing"), [PATTERN_LINING] = BASE_TR("%s, lining")
    };
    const char *text = app_copies_cell(a, cut, piece);
    return cut->cloth == PATTERN_FABRIC ? text : base_arena_print(a, base_tr(others[cut->cloth]), text);
}

static const char *brief_of(struct arena *a, const struct draft_cut *cut, const char *copies)
{
    static const char *const others[] = {
        [PATTERN_INTERFACING] = BASE_TR("%d, interfacing"), [PATTERN_LINING] = BASE_TR("%d, lining")
    };
    return cut->cloth == PATTERN_FABRIC ? copies : base_arena_print(a, base_tr(others[cut->cloth]), cut->count);
}

/* Whether the piece is cut opened out of the cloth that there is for it. */
static bool is_opened(struct arena *a, const struct job *job, const struct draft_cut *cut,
                      const struct draft_piece *piece)
{
    const struct job_cloth *cloth = job_find_cloth(job, cut->cloth);
    struct err_list *untold = base_err_list_create();
    struct cloth_spread spread;
    bool opened = cloth && cloth_spread(a, &cloth->cloth, &spread, untold) && lay_is_opened(&spread, piece);
    base_err_list_destroy(untold);
    return opened;
}

/* As the table asks for them. */
static void note_marks(struct arena *a, struct bench_cut_line *line, bool opened)
{
    const char *kinds[APP_MARK_KINDS];
    size_t count = app_mark_kinds(line->piece, kinds);
    struct draft_piece whole = opened ? draft_unfold(a, line->piece) : *line->piece;
    line->snips = app_snips(&whole);
    for (size_t i = 0; i < count; i++)
        line->kinds = line->kinds ? base_arena_print(a, "%s, %s", line->kinds, kinds[i]) : kinds[i];
    line->marks = line->kinds ? base_tr("marks") : base_tr("nothing to mark");
    if (line->snips)
        line->marks =
            base_arena_print(a,
                             line->kinds ? base_tr_count(line->snips, "%zu notch, marks", "%zu notches, marks")
                                         : base_tr_count(line->snips, "%zu notch", "%zu notches"),
                             line->snips);
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
        lines[i] =
            (struct bench_cut_line){ .piece = piece,
                                     .copies = copies,
                                     .brief = brief_of(a, cut, copies),
                                     .wanted = cut->count,
                                     .cut = done,
                                     .in_hand = known && b->at_table == BENCH_TO_CUT && b->progress.in_hand == (int)i };
        note_marks(a, &lines[i], is_opened(a, job, cut, piece));
        out->done += done >= cut->count;
        int left = done < cut->count ? cut->count - done : 0;
        out->left += left;
        out->left_of[cut->cloth] += left;
    }
    out->lines = lines;
    out->count = out->draft.cut_count;
    return true;
}
