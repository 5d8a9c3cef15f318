#include "lifting/mend.h"
#include "geometry/unite.h"
#include "lifting/outlines.h"
#include "lifting/straight.h"
#include "lifting/words.h"

#define SAME_MM 1e-6
#define EDGE_LEAST_MM 5

static const struct err_kind no_piece = {
    "lifting.no_piece", ERR_WARNING,
    BASE_TR("there are only {1} pieces now: what was mended on piece {0} is left out; look through the pieces again")
};
static const struct err_kind not_joined = {
    "lifting.not_joined", ERR_WARNING,
    BASE_TR("“{0}” and “{1}” touch in no size and stay apart; pick pieces that share an edge")
};
static const struct err_kind not_parted = {
    "lifting.not_parted", ERR_WARNING,
    BASE_TR("the line does not cut “{0}” in two; set both points so that it runs right across the piece")
};
static const struct err_kind no_edge = {
    "lifting.no_edge", ERR_WARNING,
    BASE_TR("“{0}” has no straight edge that could lie on the fold; its outline is curved all around")
};
static const struct err_kind no_line = {
    "lifting.no_line", ERR_WARNING,
    BASE_TR("two points on one another show no direction: the grain of “{0}” stays as it was; set them apart")
};

struct mending {
    struct arena *a;
    struct lifting_piece *pieces;
    size_t count, cap, sizes;
    struct err_list *errs;
};

typedef void mend_one(struct mending *m, struct lifting_piece *piece, const struct lifting_mend *mend);

static vec2 at(struct sheet_pt p)
{
    return (vec2){ p.x, p.y };
}

static const char *name_of(const struct mending *m, const struct lifting_piece *piece)
{
    return piece->words.name ? piece->words.name : base_arena_print(m->a, "%d", (int)(piece - m->pieces) + 1);
}

static void put_piece(struct mending *m, size_t index, struct lifting_piece piece)
{
    m->pieces = base_arena_grow(m->a, m->pieces, &m->cap, m->count + 1, sizeof *m->pieces);
    for (size_t i = m->count++; i > index; i--)
        m->pieces[i] = m->pieces[i - 1];
    m->pieces[index] = piece;
}

static void remove_piece(struct mending *m, size_t index)
{
    for (size_t i = index + 1; i < m->count; i++)
        m->pieces[i - 1] = m->pieces[i];
    m->count--;
}

/* Room for marks that are kept and some more. */
static struct lifting_mark *room_for_marks(const struct mending *m, size_t count)
{
    return base_arena_alloc(m->a, count, sizeof(struct lifting_mark));
}

static void drop_marks(const struct mending *m, struct lifting_piece *piece, enum lifting_mark_kind kind)
{
    struct lifting_mark *kept = room_for_marks(m, piece->mark_count);
    size_t count = 0;
    for (size_t i = 0; i < piece->mark_count; i++)
        if (piece->marks[i].kind != kind)
            kept[count++] = piece->marks[i];
    piece->marks = kept;
    piece->mark_count = count;
}

static void add_mark(const struct mending *m, struct lifting_piece *piece, enum lifting_mark_kind kind, int size,
                     vec2 a, vec2 b)
{
    struct lifting_mark *marks = room_for_marks(m, piece->mark_count + 1);
    vec2 *points = base_arena_alloc(m->a, 2, sizeof *points);
    points[0] = a;
    points[1] = b;
    for (size_t i = 0; i < piece->mark_count; i++)
        marks[i] = piece->marks[i];
    marks[piece->mark_count++] =
        (struct lifting_mark){ .kind = kind, .size = size, .path = { { points, 2, false } }, .sure = true };
    piece->marks = marks;
}

static void rename_piece(struct mending *m, struct lifting_piece *piece, const struct lifting_mend *mend)
{
    bool named = mend->text && *mend->text;
    piece->words.name = named ? base_arena_copy_text(m->a, mend->text) : NULL;
    piece->doubts &= ~(unsigned)(LIFTING_DOUBT_NAME | LIFTING_DOUBT_READ);
    piece->doubts |= named ? 0U : (unsigned)LIFTING_DOUBT_NAME;
}

static bool has_fold(const struct lifting_piece *piece)
{
    for (size_t i = 0; i < piece->mark_count; i++)
        if (piece->marks[i].kind == LIFTING_FOLD)
            return true;
    return false;
}

/* What is not said of cloths and the fold stays as it was. */
static void count_piece(struct mending *m, struct lifting_piece *piece, const struct lifting_mend *mend)
{
    struct lifting_words said = { .count = mend->number };
    (void)m;
    if (!(mend->text && lifting_read_count(mend->text, &said)) && mend->number < 1)
        return;
    piece->words.count = said.count;
    piece->words.pairs = said.pairs;
    piece->words.cloths = said.cloths ? said.cloths : piece->words.cloths;
    for (int cloth = 0; cloth < 3; cloth++)
        piece->words.counts[cloth] = said.counts[cloth];
    if (said.on_fold && !has_fold(piece))
        piece->doubts |= LIFTING_DOUBT_FOLD;
    piece->words.on_fold = piece->words.on_fold || said.on_fold;
    piece->doubts &= ~(unsigned)LIFTING_DOUBT_COUNT;
}

static void set_grain(struct mending *m, struct lifting_piece *piece, const struct lifting_mend *mend)
{
    vec2 from = at(mend->at[0]), to = at(mend->at[1]);
    if (vec2_length(vec2_sub(to, from)) < SAME_MM) {
        base_err(m->errs, &no_line, (struct err_place){ 0 }, ERR_TEXT(name_of(m, piece)));
        return;
    }
    drop_marks(m, piece, LIFTING_GRAIN);
    add_mark(m, piece, LIFTING_GRAIN, LIFTING_NONE, from, to);
    piece->grain = vec2_unit(vec2_sub(to, from));
    piece->doubts &= ~(unsigned)LIFTING_DOUBT_GRAIN;
}

static double off_line(vec2 p, vec2 a, vec2 b)
{
    vec2 way = vec2_sub(b, a);
    double length = vec2_length(way), t = length > 0 ? vec2_dot(vec2_sub(p, a), way) / (length * length) : 0;
    return vec2_length(vec2_sub(p, vec2_lerp(a, b, fmax(0, fmin(1, t)))));
}

/* The straight edge nearest to two points. */
static bool edge_near(struct geometry_path p, vec2 a, vec2 b, vec2 edge[2])
{
    double least = -1;
    vec2 from, to;
    for (size_t cursor = 0; lifting_next_edge(p, &cursor, &from, &to);) {
        double away = off_line(a, from, to) + off_line(b, from, to);
        if (vec2_length(vec2_sub(to, from)) < EDGE_LEAST_MM || (least >= 0 && away >= least))
            continue;
        least = away;
        edge[0] = from;
        edge[1] = to;
    }
    return least >= 0;
}

static bool add_fold(struct mending *m, struct lifting_piece *piece, const struct lifting_mend *mend)
{
    bool any = false;
    for (size_t k = 0; k < m->sizes; k++) {
        vec2 edge[2];
        const struct lifting_outline *outline = &piece->outlines[k];
        if (!outline->there || !edge_near(outline->path.path, at(mend->at[0]), at(mend->at[1]), edge))
            continue;
        add_mark(m, piece, LIFTING_FOLD, piece->one_size ? LIFTING_NONE : (int)k, edge[0], edge[1]);
        any = true;
        if (piece->one_size)
            break;
    }
    return any;
}

static void set_fold(struct mending *m, struct lifting_piece *piece, const struct lifting_mend *mend)
{
    struct lifting_piece before = *piece;
    drop_marks(m, piece, LIFTING_FOLD);
    piece->words.on_fold = mend->number != 0;
    if (mend->number != 0 && !add_fold(m, piece, mend)) {
        *piece = before;
        base_err(m->errs, &no_edge, (struct err_place){ 0 }, ERR_TEXT(name_of(m, piece)));
        return;
    }
    piece->doubts &= ~(unsigned)LIFTING_DOUBT_FOLD;
}

/* ---- The other way round ---- */

static struct geometry_path mirrored(struct arena *a, struct geometry_path p, double axis)
{
    struct geometry_path out = geometry_path_copy(a, p);
    for (size_t i = 0; i < out.count; i++)
        out.points[i].x = 2 * axis - out.points[i].x;
    return out;
}

/* About the upright line through the middle of all its sizes. */
static double axis_of(const struct mending *m, const struct lifting_piece *piece)
{
    struct geometry_box box = geometry_box_empty();
    for (size_t k = 0; k < m->sizes; k++)
        if (piece->outlines[k].there)
            box = geometry_box_join(box, geometry_path_box(piece->outlines[k].path.path));
    return (box.min.x + box.max.x) / 2;
}

static void mirror_piece(struct mending *m, struct lifting_piece *piece, const struct lifting_mend *mend)
{
    (void)mend;
    double axis = axis_of(m, piece);
    struct lifting_outline *outlines = base_arena_alloc(m->a, m->sizes, sizeof *outlines);
    struct lifting_mark *marks = room_for_marks(m, piece->mark_count);
    for (size_t k = 0; k < m->sizes; k++) {
        outlines[k] = piece->outlines[k];
        if (outlines[k].there) {
            outlines[k].path.path = mirrored(m->a, outlines[k].path.path, axis);
            geometry_path_reverse(outlines[k].path.path);
        }
    }
    for (size_t i = 0; i < piece->mark_count; i++) {
        marks[i] = piece->marks[i];
        marks[i].path.path = mirrored(m->a, marks[i].path.path, axis);
        if (marks[i].kind == LIFTING_FOLD) /* along the outline, as before */
            geometry_path_reverse(marks[i].path.path);
    }
    piece->outlines = outlines;
    piece->marks = marks;
    piece->grain.x = -piece->grain.x;
}

/* ---- Two made one ---- */

/* False when they touch in no size. */
static bool join_outlines(const struct mending *m, struct lifting_piece *out, const struct lifting_piece *other)
{
    struct lifting_outline *outlines = base_arena_alloc(m->a, m->sizes, sizeof *outlines);
    bool any = false;
    for (size_t k = 0; k < m->sizes; k++) {
        const struct lifting_outline *p = &out->outlines[k], *q = &other->outlines[k];
        outlines[k].closed_over_mm = fmax(p->closed_over_mm, q->closed_over_mm);
        outlines[k].there = p->there && q->there &&
                            geometry_unite(m->a, p->path.path, q->path.path, LIFTING_GAP_MM, &outlines[k].path.path);
        any = any || outlines[k].there;
        if (!outlines[k].there)
            out->doubts |= LIFTING_DOUBT_SIZES;
    }
    out->outlines = outlines;
    return any;
}

static void join_marks(const struct mending *m, struct lifting_piece *out, const struct lifting_piece *other)
{
    struct lifting_mark *marks = room_for_marks(m, out->mark_count + other->mark_count);
    size_t count = 0;
    for (size_t i = 0; i < out->mark_count; i++)
        marks[count++] = out->marks[i];
    for (size_t i = 0; i < other->mark_count; i++)
        if (other->marks[i].kind != LIFTING_GRAIN || (out->doubts & LIFTING_DOUBT_GRAIN) != 0)
            marks[count++] = other->marks[i];
    out->marks = marks;
    out->mark_count = count;
}

/* What one does not say the other may. */
static void join_words(struct lifting_piece *out, const struct lifting_piece *other)
{
    unsigned unsaid = LIFTING_DOUBT_NAME | LIFTING_DOUBT_COUNT | LIFTING_DOUBT_GRAIN;
    if (!out->words.name)
        out->words.name = other->words.name;
    if (!out->words.number)
        out->words.number = other->words.number;
    if (!out->words.count) {
        out->words.count = other->words.count;
        out->words.pairs = other->words.pairs;
        out->words.cloths = other->words.cloths;
        for (int cloth = 0; cloth < 3; cloth++)
            out->words.counts[cloth] = other->words.counts[cloth];
    }
    if ((out->doubts & LIFTING_DOUBT_GRAIN) != 0)
        out->grain = other->grain;
    out->words.on_fold = out->words.on_fold || other->words.on_fold;
    out->doubts = (out->doubts & other->doubts & unsaid) | ((out->doubts | other->doubts) & ~unsaid);
}

static void join_pieces(struct mending *m, struct lifting_piece *piece, const struct lifting_mend *mend)
{
    struct lifting_piece *other = &m->pieces[mend->of[1]], joined = *piece;
    if (other == piece || !join_outlines(m, &joined, other)) {
        base_err(m->errs, &not_joined, (struct err_place){ 0 }, ERR_TEXT(name_of(m, piece)),
                 ERR_TEXT(name_of(m, other)));
        return;
    }
    join_marks(m, &joined, other);
    join_words(&joined, other);
    joined.one_size = piece->one_size && other->one_size;
    size_t first = mend->of[0] < mend->of[1] ? mend->of[0] : mend->of[1];
    size_t last = mend->of[0] < mend->of[1] ? mend->of[1] : mend->of[0];
    m->pieces[first] = joined;
    remove_piece(m, last);
}

/* ---- One made two ---- */

static bool is_left(vec2 p, vec2 from, vec2 to)
{
    return vec2_cross(vec2_sub(to, from), vec2_sub(p, from)) >= 0;
}

/* A fold edge goes to both sides, each with its part; else what a mark is at decides. */
static bool mark_on_side(const struct mending *m, struct lifting_mark *mark, vec2 from, vec2 to, bool left)
{
    struct geometry_path p = mark->path.path;
    bool first = is_left(p.points[0], from, to), last = is_left(p.points[p.count - 1], from, to);
    if (mark->kind != LIFTING_FOLD || first == last) {
        vec2 middle = p.count == 3 ? p.points[1] : vec2_lerp(p.points[0], p.points[p.count - 1], 0.5);
        return is_left(middle, from, to) == left;
    }
    double a = vec2_cross(vec2_sub(to, from), vec2_sub(p.points[0], from));
    double b = vec2_cross(vec2_sub(to, from), vec2_sub(p.points[1], from));
    mark->path.path = geometry_path_copy(m->a, p);
    mark->path.path.points[first == left ? 1 : 0] = vec2_lerp(p.points[0], p.points[1], a / (a - b));
    return true;
}

static struct lifting_piece part_of(const struct mending *m, const struct lifting_piece *piece, vec2 from, vec2 to,
                                    bool left)
{
    struct lifting_piece out = *piece;
    struct lifting_outline *outlines = base_arena_alloc(m->a, m->sizes, sizeof *outlines);
    struct lifting_mark *marks = room_for_marks(m, piece->mark_count);
    bool fold = false;
    out.mark_count = 0;
    for (size_t k = 0; k < m->sizes; k++) {
        struct geometry_path sides[2];
        outlines[k] = piece->outlines[k];
        if (!outlines[k].there)
            continue;
        outlines[k].there = geometry_part(m->a, piece->outlines[k].path.path, from, to, sides);
        outlines[k].path.path = outlines[k].there ? sides[left ? 0 : 1] : outlines[k].path.path;
        out.doubts |= outlines[k].there ? 0U : (unsigned)LIFTING_DOUBT_SIZES;
    }
    for (size_t i = 0; i < piece->mark_count; i++) {
        struct lifting_mark mark = piece->marks[i];
        if (!mark_on_side(m, &mark, from, to, left))
            continue;
        marks[out.mark_count++] = mark;
        fold = fold || mark.kind == LIFTING_FOLD;
    }
    out.words.on_fold = fold;
    out.outlines = outlines;
    out.marks = marks;
    return out;
}

static bool is_there(const struct mending *m, const struct lifting_piece *piece)
{
    for (size_t k = 0; k < m->sizes; k++)
        if (piece->outlines[k].there)
            return true;
    return false;
}

static void part_piece(struct mending *m, struct lifting_piece *piece, const struct lifting_mend *mend)
{
    vec2 from = at(mend->at[0]), to = at(mend->at[1]);
    struct lifting_piece left = part_of(m, piece, from, to, true), right = part_of(m, piece, from, to, false);
    if (!is_there(m, &left)) {
        base_err(m->errs, &not_parted, (struct err_place){ 0 }, ERR_TEXT(name_of(m, piece)));
        return;
    }
    if (right.words.name)
        right.words.name = base_arena_print(m->a, "%s 2", right.words.name);
    *piece = left;
    put_piece(m, mend->of[0] + 1, right);
}

static void drop_piece(struct mending *m, struct lifting_piece *piece, const struct lifting_mend *mend)
{
    (void)piece;
    remove_piece(m, mend->of[0]);
}

static mend_one *const menders[] = {
    [LIFTING_MEND_JOIN] = join_pieces,    [LIFTING_MEND_PART] = part_piece, [LIFTING_MEND_MIRROR] = mirror_piece,
    [LIFTING_MEND_RENAME] = rename_piece, [LIFTING_MEND_GRAIN] = set_grain, [LIFTING_MEND_COUNT] = count_piece,
    [LIFTING_MEND_FOLD] = set_fold,       [LIFTING_MEND_DROP] = drop_piece
};

void lifting_apply_mends(struct arena *a, struct lifting *l, const struct lifting_mend *mends, size_t count,
                         struct err_list *errs)
{
    struct mending m = { .a = a, .sizes = l->division->size_count, .errs = errs };
    for (size_t i = 0; i < l->piece_count; i++)
        put_piece(&m, i, l->pieces[i]);
    for (size_t i = 0; i < count; i++) {
        size_t needed =
            mends[i].kind == LIFTING_MEND_JOIN && mends[i].of[1] > mends[i].of[0] ? mends[i].of[1] : mends[i].of[0];
        if (needed >= m.count)
            base_err(errs, &no_piece, (struct err_place){ 0 }, ERR_NUMBER(needed + 1), ERR_NUMBER(m.count));
        else
            menders[mends[i].kind](&m, &m.pieces[mends[i].of[0]], &mends[i]);
    }
    l->pieces = m.pieces;
    l->piece_count = m.count;
}
