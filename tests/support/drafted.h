/* A pattern drafted wholly to a body, and its edges, points and areas by their names, for tests of the drafts that come
 * with the program. The test has ASSETS_FOLDER. */
#ifndef TESTS_SUPPORT_DRAFTED_H
#define TESTS_SUPPORT_DRAFTED_H

#include "draft/draft.h"
#include "fit/seam.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"

/* What a tape says of a person. */
struct taped {
    const char *name;
    double mm;
};

static inline const struct pattern *read_draft(struct room *room, const char *file)
{
    const struct pattern *p = pattern_read(room->a, base_arena_print(room->a, ASSETS_FOLDER "/%s", file), room->errs);
    room_nothing_told(room);
    assert_non_null(p);
    return p;
}

/* In the first size, but for what the body says. */
static inline struct draft_figure figure_of(struct arena *a, const struct pattern *p, const struct taped *body,
                                            size_t count)
{
    struct draft_figure figure = draft_figure_at(0, PATTERN_NONE);
    double *body_mm = base_arena_alloc(a, p->figure_count, sizeof *body_mm);
    for (size_t i = 0; i < p->figure_count; i++)
        body_mm[i] = 0;
    for (size_t i = 0; i < count; i++) {
        int found = pattern_find_figure(p, body[i].name);
        assert_true(found != PATTERN_NONE);
        body_mm[found] = body[i].mm;
    }
    figure.body_mm = body_mm;
    return figure;
}

/* Every piece drafted without a word. */
static inline struct draft draft_figure_soundly(struct arena *a, const struct pattern *p,
                                                const struct draft_figure *figure, struct room *room)
{
    struct draft out;
    bool ok = draft_make(a, p, figure, PATTERN_NONE, &out, room->errs);
    room_nothing_told(room);
    assert_true(ok);
    return out;
}

static inline struct draft draft_to_body(struct room *room, const struct pattern *p, const struct taped *body,
                                         size_t count)
{
    struct draft_figure figure = figure_of(room->a, p, body, count);
    return draft_figure_soundly(room->a, p, &figure, room);
}

static inline const struct draft_sized_piece *sized_piece(const struct draft *d, const char *piece)
{
    int found = pattern_find_piece(d->sized->pattern, piece);
    assert_true(found != PATTERN_NONE);
    return &d->sized->pieces[found];
}

/* An edge or a curve, as written. */
static inline struct geometry_path edge_of(const struct draft *d, const char *piece, const char *edge)
{
    int found =
        pattern_find_edge_or_curve(&d->sized->pattern->pieces[pattern_find_piece(d->sized->pattern, piece)], edge);
    assert_true(found != PATTERN_NONE);
    return sized_piece(d, piece)->edge_paths[found];
}

static inline double edge_mm(const struct draft *d, const char *piece, const char *edge)
{
    return geometry_path_length(edge_of(d, piece, edge));
}

static inline vec2 point_of(const struct draft *d, const char *piece, const char *point)
{
    int found = pattern_find_point(&d->sized->pattern->pieces[pattern_find_piece(d->sized->pattern, piece)], point);
    assert_true(found != PATTERN_NONE);
    return sized_piece(d, piece)->points[found];
}

static inline const struct draft_piece *drafted_piece(const struct draft *d, const char *piece)
{
    for (size_t i = 0; i < d->piece_count; i++)
        if (strcmp(d->pieces[i].name, piece) == 0)
            return &d->pieces[i];
    fail_msg("no piece %s", piece);
    return NULL;
}

/* Of the stitching line. */
static inline double area_mm2(const struct draft *d, const char *piece)
{
    return geometry_path_area(drafted_piece(d, piece)->seam.path);
}

/* Every seam as it is meant to be, interval by interval, within `tolerance_mm`. */
static inline void seams_match(struct arena *a, const struct draft *d, double tolerance_mm)
{
    const struct pattern *p = d->sized->pattern;
    for (size_t s = 0; s < p->seam_count; s++) {
        struct fit_seam m = fit_seam_measure(a, d->sized, &p->seams[s]);
        if (!m.marks_agree || m.worst_mm > tolerance_mm)
            fail_msg("seam %s is off by %.3f mm in interval %zu of %zu", p->seams[s].name, m.worst_mm, m.worst_interval,
                     m.interval_count);
    }
}

#endif
