/* A piece on the fold as one whole piece, for cutting in a single layer. */
#include "draft/draft.h"

#include "draft/work.h"

#include <assert.h>

#define SAME_PLACE_MM 0.01 /* a mark this near the fold lies on it and is its own image */

/* The fold as a place and a unit direction. */
struct mirror {
    vec2 at, along;
};

static vec2 image(const struct mirror *m, vec2 p)
{
    vec2 from = vec2_sub(p, m->at);
    double on = vec2_dot(from, m->along);
    return vec2_add(m->at, vec2_sub(vec2_scale(m->along, 2 * on), from));
}

static vec2 image_of_direction(const struct mirror *m, vec2 d)
{
    return vec2_sub(vec2_scale(m->along, 2 * vec2_dot(d, m->along)), d);
}

static struct piece_pt image_pt(const struct mirror *m, struct piece_pt p)
{
    return draft_as_pt(image(m, draft_as_vec2(p)));
}

static bool is_own_image(const struct mirror *m, struct piece_pt p)
{
    return fabs(vec2_cross(m->along, vec2_sub(draft_as_vec2(p), m->at))) <= SAME_PLACE_MM;
}

/* A line open along the fold, and back along its image: closed, and counter-clockwise as the half was. */
static struct geometry_path whole_path(struct arena *a, const struct mirror *m, struct geometry_path half)
{
    struct geometry_path whole = { base_arena_alloc(a, 2 * half.count, sizeof(vec2)), 0, true };
    for (size_t i = 0; i < half.count; i++)
        whole.points[whole.count++] = half.points[i];
    for (size_t i = half.count - 1; i-- > 1;) /* its ends lie on the fold */
        whole.points[whole.count++] = image(m, half.points[i]);
    return whole;
}

/* The half's seam line begins where the fold's edge ends. */
static const struct draft_edge *whole_edges(struct arena *a, const struct draft_piece *half)
{
    struct draft_edge *edges = base_arena_alloc(a, half->edge_count, sizeof *edges);
    size_t count = half->seam.path.count;
    const struct draft_edge *fold = &half->edges[half->fold_edge];
    for (size_t e = 0; e < half->edge_count; e++) {
        size_t begin = half->edges[e].first + 2 * count - fold->first - fold->count;
        edges[e] = (struct draft_edge){ begin % count, half->edges[e].count, half->edges[e].length_mm };
    }
    edges[half->fold_edge] = (struct draft_edge){ 0, 0, 0 };
    return edges;
}

/* The mouth in the outline's direction, which a mirror turns round. */
static struct draft_notch_place image_place(const struct mirror *m, const struct draft_notch_place *p)
{
    return (struct draft_notch_place){ image_pt(m, p->at),
                                       image_pt(m, p->on_seam),
                                       image_of_direction(m, p->inward),
                                       { image_pt(m, p->mouth[1]), image_pt(m, p->mouth[0]) } };
}

/* On the fold a V is cut by halves: the side that stood at the fold becomes the image of the other. */
static void complete_mouth(const struct mirror *m, struct draft_notch_place *p)
{
    int at_fold = is_own_image(m, p->mouth[0]) ? 0 : 1;
    p->mouth[at_fold] = image_pt(m, p->mouth[1 - at_fold]);
}

static void whole_notches(struct arena *a, const struct mirror *m, const struct draft_piece *half,
                          struct draft_piece *whole)
{
    struct draft_notch *notches = base_arena_alloc(a, 2 * half->notch_count, sizeof *notches);
    whole->notch_count = 0;
    for (size_t i = 0; i < half->notch_count; i++) {
        struct draft_notch n = half->notches[i];
        notches[whole->notch_count++] = n;
        if (n.place_count == 1 && is_own_image(m, n.places[0].at)) {
            complete_mouth(m, &notches[whole->notch_count - 1].places[0]);
            continue;
        }
        for (size_t p = 0; p < n.place_count; p++)
            n.places[p] = image_place(m, &n.places[p]);
        notches[whole->notch_count++] = n;
    }
    whole->notches = notches;
}

/* Drill marks or buttons of both halves; `count` becomes how many they are then. */
static const struct piece_pt *whole_places(struct arena *a, const struct mirror *m, const struct piece_pt *half,
                                           size_t *count)
{
    struct piece_pt *whole = base_arena_alloc(a, 2 * *count, sizeof *whole);
    size_t filled = 0;
    for (size_t i = 0; i < *count; i++) {
        whole[filled++] = half[i];
        if (!is_own_image(m, half[i]))
            whole[filled++] = image_pt(m, half[i]);
    }
    *count = filled;
    return whole;
}

/* A line from the fold outwards becomes one line across, others stand on both halves. */
static void whole_lines(struct arena *a, const struct mirror *m, const struct draft_piece *half,
                        struct draft_piece *whole)
{
    struct draft_line *lines = base_arena_alloc(a, 2 * half->line_count, sizeof *lines);
    whole->line_count = 0;
    for (size_t i = 0; i < half->line_count; i++) {
        struct draft_line line = half->lines[i];
        lines[whole->line_count++] = line;
        if (is_own_image(m, line.ends[0]) && is_own_image(m, line.ends[1]))
            continue;
        line.ends[0] = image_pt(m, line.ends[0]);
        line.ends[1] = image_pt(m, line.ends[1]);
        lines[whole->line_count++] = line;
    }
    whole->lines = lines;
}

struct draft_piece draft_unfold(struct arena *a, const struct draft_piece *half)
{
    struct draft_piece whole = *half;
    if (!half->has_fold)
        return whole;
    vec2 from = draft_as_vec2(half->fold[0]), to = draft_as_vec2(half->fold[1]);
    struct mirror m = { from, vec2_unit(vec2_sub(to, from)) };
    whole.has_fold = false;
    whole.fold_edge = PATTERN_NONE;
    whole.seam.path = whole_path(a, &m, half->seam_line.path);
    whole.cut.path = whole_path(a, &m, half->cut_line.path);
    whole.seam_line = whole.seam;
    whole.cut_line = whole.cut;
    whole.edges = whole_edges(a, half);
    whole_notches(a, &m, half, &whole);
    whole.drill_marks = whole_places(a, &m, half->drill_marks, &whole.drill_mark_count);
    whole.buttons = whole_places(a, &m, half->buttons, &whole.button_count);
    whole_lines(a, &m, half, &whole);
    vec2 grain = vec2_sub(draft_as_vec2(half->grain[1]), draft_as_vec2(half->grain[0]));
    draft_place_grain(&whole, geometry_path_centre(whole.seam.path), vec2_unit(grain));
    return whole;
}
