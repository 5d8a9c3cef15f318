/* How often a garment has what the pattern names once, and where its hem is. */
#include "fit/seam.h"
#include "tearing/needs.h"

enum { OPPOSITE = 2, EDGES = 4 };        /* of a rectangle */
enum { MATERIALS = PATTERN_LINING + 1 }; /* cloths there are */

/* What is walked of one side of a seam. */
struct side {
    const struct pattern_edge_ref *edges;
    size_t count;
};

int tearing_halves(const struct pattern_piece *piece)
{
    bool is_whole = piece->fold == PATTERN_NONE || (piece->is_rectangle && piece->fold % TEARING_ACROSS_EDGES == 0);
    return is_whole ? 1 : 2;
}

/* How many are cut of a piece: of the cloth it is cut of most, as linings and interfacings lie on the same place. */
static int pieces_cut(const struct draft *draft, int piece)
{
    int most = 0, of[MATERIALS] = { 0 };
    for (size_t i = 0; i < draft->cut_count; i++)
        if (draft->pieces[draft->cuts[i].piece].index == piece) {
            int *count = &of[draft->cuts[i].cloth];
            *count += draft->cuts[i].count;
            most = *count > most ? *count : most;
        }
    return most;
}

static int copies(const struct tearing_task *task, int piece)
{
    return pieces_cut(task->draft, piece) * tearing_halves(&task->pattern->pieces[piece]);
}

static struct side side_of(const struct pattern_seam *seam, size_t which)
{
    return (struct side){ seam->sides[which].edges, seam->sides[which].count };
}

static int times_in(struct side side, struct pattern_edge_ref edge)
{
    int times = 0;
    for (size_t i = 0; i < side.count; i++)
        times += side.edges[i].piece == edge.piece && side.edges[i].edge == edge.edge;
    return times;
}

int tearing_times_sewn(const struct tearing_task *task, const struct pattern_seam *seam)
{
    int least = 0;
    for (size_t s = 0; s < 2; s++)
        for (size_t i = 0; i < seam->sides[s].count; i++) {
            struct pattern_edge_ref edge = seam->sides[s].edges[i];
            int times = copies(task, edge.piece) / times_in(side_of(seam, s), edge);
            least = least == 0 || times < least ? times : least;
        }
    return least > 1 ? least : 1;
}

/* The other side of the next seam of pieces that are cut with that edge on it; an empty one when there is no more. */
static struct side sewn_to(const struct tearing_task *task, struct pattern_edge_ref edge, size_t *next)
{
    while (*next < 2 * task->pattern->seam_count) {
        const struct pattern_seam *seam = &task->pattern->seams[*next / 2];
        struct side own = side_of(seam, *next % 2), other = side_of(seam, 1 - *next % 2);
        ++*next;
        if (other.count && times_in(own, edge) && copies(task, other.edges[0].piece))
            return other;
    }
    return (struct side){ NULL, 0 };
}

static double free_edge_mm(const struct tearing_task *task, const struct draft_sized *sized,
                           struct pattern_edge_ref edge, size_t tiers_left);

/* The hems of the rectangles that hang on that side of a seam, each counted once. */
static double below_mm(const struct tearing_task *task, const struct draft_sized *sized, struct side side,
                       size_t tiers_left)
{
    double mm = 0;
    for (size_t i = 0; i < side.count; i++) {
        struct pattern_edge_ref top = side.edges[i], hem = top;
        bool hangs = task->pattern->pieces[top.piece].is_rectangle && top.edge % TEARING_ACROSS_EDGES == 0;
        hem.edge = (top.edge + OPPOSITE) % EDGES;
        if (hangs && !times_in((struct side){ side.edges, i }, top))
            mm += free_edge_mm(task, sized, hem, tiers_left - 1);
    }
    return mm;
}

/* Of an edge that is sewn to nothing, all copies of it. A skirt has fewer tiers than there are pieces. */
static double free_edge_mm(const struct tearing_task *task, const struct draft_sized *sized,
                           struct pattern_edge_ref edge, size_t tiers_left)
{
    size_t next = 0;
    double mm = 0;
    bool is_sewn = false;
    if (!tiers_left)
        return 0;
    for (struct side side; (side = sewn_to(task, edge, &next)).count; is_sewn = true)
        mm += below_mm(task, sized, side, tiers_left);
    return is_sewn ? mm : fit_sewn_mm(sized, edge.piece, edge.edge) * copies(task, edge.piece);
}

double tearing_hem_mm(const struct tearing_task *task, const struct draft_sized *sized, int piece, int edge)
{
    struct pattern_edge_ref opposite = { .piece = piece, .edge = (edge + OPPOSITE) % EDGES };
    return free_edge_mm(task, sized, opposite, task->pattern->piece_count);
}
