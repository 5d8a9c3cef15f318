/* Any text as a pattern; one that is read is drafted in every size and cup group and its seams are measured: pieces
 * come out sound or are told. */
#include "fit/fullness.h"
#include "fit/girth.h"
#include "fit/seam.h"
#include "fuzz/sound_piece.h"
#include "pattern/read.h"
#include "support/at_size.h"

static void measure_soundly(struct arena *a, const struct draft_sized *sized, const struct pattern_seam *seam)
{
    struct fit_seam m = fit_seam_measure(a, sized, seam);
    fuzz_must(isfinite(m.off_mm) && isfinite(m.worst_mm) && m.worst_mm >= fabs(m.off_mm));
    fuzz_must(m.interval_count >= 1 && m.worst_interval <= m.interval_count);
    for (size_t i = 0; i < m.interval_count; i++)
        fuzz_must(isfinite(m.intervals[i].off_mm) && m.worst_mm >= fabs(m.intervals[i].off_mm));
}

static void measure_girth(struct arena *a, const struct draft_sized *sized, const struct pattern_girth *girth)
{
    struct fit_girth m = fit_girth_measure(a, sized, girth);
    fuzz_must(isfinite(m.mm) && m.mm >= 0);
    for (size_t i = 0; i < girth->part_count; i++)
        fuzz_must(m.parts[i].mm >= 0 && (m.parts[i].stretches > 0 || m.parts[i].mm == 0));
}

static void look_at_fullness(struct arena *a, const struct pattern *p, const struct draft *draft, size_t piece)
{
    const struct fit_fullness *found;
    size_t count = fit_fullness_of(a, p, draft, piece, &found);
    for (size_t i = 0; i < count; i++) {
        fuzz_must(isfinite(found[i].from_mm) && found[i].from_mm > found[i].to_mm && found[i].to_mm > 0);
        fuzz_must(found[i].edge < (int)p->pieces[draft->pieces[piece].index].edge_count);
    }
}

static void draft_at(const struct pattern *p, double position, int group)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct draft draft;
    bool ok = make_at_size(a, p, position, group, PATTERN_NONE, &draft, errs);
    fuzz_must(ok == (errs->faults == 0));
    for (size_t i = 0; i < draft.piece_count; i++) {
        sound_piece(&draft.pieces[i]);
        sound_unfolded(a, &draft.pieces[i]);
        look_at_fullness(a, p, &draft, i);
    }
    for (size_t s = 0; s < p->seam_count; s++)
        if (fit_seam_can_be_measured(draft.sized, &p->seams[s]))
            measure_soundly(a, draft.sized, &p->seams[s]);
    for (size_t i = 0; i < p->girth_count; i++)
        if (fit_girth_can_be_measured(draft.sized, &p->girths[i]))
            measure_girth(a, draft.sized, &p->girths[i]);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
}

static void draft_all(const struct pattern *p)
{
    int first = p->cup_group_count ? 0 : PATTERN_NONE;
    for (int group = first; group < (int)p->cup_group_count; group++)
        for (size_t size = 0; size < p->size_count; size++)
            draft_at(p, (double)size, group);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    const struct pattern *p = pattern_parse(a, "fuzz", (const char *)data, size, errs);
    fuzz_must((p != NULL) == (errs->faults == 0));
    for (int i = 0; i < errs->count; i++)
        fuzz_must(errs->items[i].place.line > 0);
    if (p)
        draft_all(p);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
