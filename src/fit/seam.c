#include "fit/seam.h"

#include "draft/draft.h"

static double side_length(struct arena *scratch, const struct pattern *pattern, const struct pattern_seam *seam,
                          int side, double position)
{
    double length = 0;
    for (size_t i = 0; i < seam->sides[side].count; i++) {
        struct pattern_edge_ref ref = seam->sides[side].edges[i];
        length += draft_edge_length(scratch, &pattern->pieces[ref.piece], ref.edge, position);
    }
    return length;
}

struct fit_seam fit_seam_measure(struct arena *scratch, const struct pattern *pattern, const struct pattern_seam *seam,
                                 double position)
{
    double first = side_length(scratch, pattern, seam, 0, position);
    double second = side_length(scratch, pattern, seam, 1, position);
    double wanted = seam->by_ratio ? seam->ratio * second : second + seam->difference_mm;
    return (struct fit_seam){ { first, second }, first - wanted };
}
