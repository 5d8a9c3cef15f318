#include "lifting/one_size.h"
#include "lifting/outlines.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* An outline is of a size when more of it than this is drawn for that alone: where lines are drawn over each other,
 * rounding leaves a little on either side. */
#define OWN_LEAST_MM 1.0

/* Outlines are the same when boxes and lengths differ by less. */
#define SAME_MM 0.05

struct finding {
    struct arena *a;
    const struct one_size_sheet *sheet;
    struct network_line *lines; /* ids are the drawing's */
    size_t line_count;
    struct network network;
    struct nest_outline *outlines;
    size_t count, cap;
};

static const struct lifting_strand *strand_of(const struct one_size_sheet *s, size_t line)
{
    int strand = s->division->strand_of_line[line];
    return strand == LIFTING_NONE ? NULL : &s->division->strands[strand];
}

bool one_size_has(const struct one_size_sheet *s, size_t line, int size, int cup_group)
{
    const struct lifting_strand *strand = strand_of(s, line);
    if (!strand || s->is_letter[line] || strand->role == LIFTING_UNUSED)
        return false;
    if (strand->role == LIFTING_SIZE && (size == LIFTING_NONE || strand->size != size))
        return false;
    return strand->cup_group == LIFTING_NONE || strand->cup_group == cup_group;
}

/* ---- Its lines ---- */

static void gather_lines(struct finding *f, int size, int cup_group)
{
    const struct drawing *d = f->sheet->d;
    f->lines = base_arena_alloc(f->a, d->line_count, sizeof *f->lines);
    for (size_t i = 0; i < d->line_count; i++) {
        if (!one_size_has(f->sheet, i, size, cup_group) || d->lines[i].path.path.count < 2)
            continue;
        const struct drawing_style *style = &d->styles[d->lines[i].style];
        struct geometry_path path = d->lines[i].path.path;
        path.closed = path.closed || (style->filled && !style->stroked);
        f->lines[f->line_count++] = (struct network_line){ path, (uint32_t)i };
    }
}

static const uint32_t *dashes_of(const struct finding *f)
{
    uint32_t *dashes = base_arena_alloc(f->a, f->line_count, sizeof *dashes);
    for (size_t i = 0; i < f->line_count; i++)
        dashes[i] = f->sheet->dash_of_strand[f->sheet->division->strand_of_line[f->lines[i].id]];
    return dashes;
}

static const bool *sized_of(const struct finding *f)
{
    bool *sized = base_arena_alloc(f->a, f->line_count, sizeof *sized);
    for (size_t i = 0; i < f->line_count; i++)
        sized[i] = strand_of(f->sheet, f->lines[i].id)->role == LIFTING_SIZE;
    return sized;
}

/* ---- Outlines out of rings ---- */

static int by_line(const void *a, const void *b)
{
    const struct nest_use *p = a, *q = b;
    if (p->line != q->line)
        return p->line < q->line ? -1 : 1;
    return p->length_mm < q->length_mm ? -1 : p->length_mm > q->length_mm;
}

static void sum_uses(struct nest_outline *o, struct nest_use *uses, size_t count)
{
    if (count)
        qsort(uses, count, sizeof *uses, by_line);
    for (size_t i = 0; i < count; i++) {
        if (o->use_count && uses[o->use_count - 1].line == uses[i].line)
            uses[o->use_count - 1].length_mm += uses[i].length_mm;
        else
            uses[o->use_count++] = uses[i];
    }
    o->uses = uses;
}

/* What an edge is drawn for: at best for all. */
struct drawn_for {
    bool any, size, cup;
};

static struct drawn_for drawn_for(const struct finding *f, uint32_t edge)
{
    struct drawn_for out = { false, true, true };
    for (uint32_t u = f->network.edges[edge].first_use; u != NETWORK_NONE; u = f->network.uses[u].next) {
        uint32_t line = f->network.courses[f->network.uses[u].course].line;
        if (line == NETWORK_NO_LINE)
            continue;
        const struct lifting_strand *strand = strand_of(f->sheet, f->lines[line].id);
        out.any = true;
        out.size = out.size && strand->role == LIFTING_SIZE;
        out.cup = out.cup && strand->cup_group != LIFTING_NONE;
    }
    return out;
}

static double edge_length(const struct finding *f, uint32_t edge)
{
    const struct network_edge *e = &f->network.edges[edge];
    return vec2_length(vec2_sub(f->network.nodes[e->node[1]].at, f->network.nodes[e->node[0]].at));
}

static void find_uses(const struct finding *f, const struct regions_ring *ring, struct nest_outline *o)
{
    struct nest_use *uses = NULL;
    size_t count = 0, cap = 0;
    double of_size = 0, of_cup = 0;
    for (size_t i = 0; i < ring->edge_count; i++) {
        double length = edge_length(f, ring->edges[i]);
        struct drawn_for who = drawn_for(f, ring->edges[i]);
        of_size += who.any && who.size ? length : 0;
        of_cup += who.any && who.cup ? length : 0;
        for (uint32_t u = f->network.edges[ring->edges[i]].first_use; u != NETWORK_NONE; u = f->network.uses[u].next) {
            uint32_t line = f->network.courses[f->network.uses[u].course].line;
            if (line == NETWORK_NO_LINE)
                continue;
            uses = base_arena_grow(f->a, uses, &cap, count + 1, sizeof *uses);
            uses[count++] = (struct nest_use){ f->lines[line].id, length };
        }
    }
    sum_uses(o, uses, count);
    o->of_size = of_size > OWN_LEAST_MM;
    o->of_cup = of_cup > OWN_LEAST_MM;
}

static void add_outline(struct finding *f, struct nest_outline o)
{
    f->outlines = base_arena_grow(f->a, f->outlines, &f->cap, f->count + 1, sizeof *f->outlines);
    f->outlines[f->count++] = o;
}

static void add_ring(struct finding *f, const struct regions_ring *ring)
{
    struct nest_outline o = { .path = ring->path,
                              .area_mm2 = ring->area_mm2,
                              .length_mm = ring->length_mm,
                              .gap_mm = ring->gap_mm,
                              .box = geometry_path_box(ring->path) };
    find_uses(f, ring, &o);
    add_outline(f, o);
}

/* ---- Closed lines that others cross ---- */

/* A closed line is an outline, also where others cross it and go on beyond: the network has only its parts then. */
static struct nest_outline outline_of_line(const struct finding *f, const struct network_line *line)
{
    const struct lifting_strand *strand = strand_of(f->sheet, line->id);
    struct nest_outline o = { .path = geometry_path_copy(f->a, line->path),
                              .length_mm = geometry_path_length(line->path),
                              .area_mm2 = geometry_path_area(line->path),
                              .box = geometry_path_box(line->path),
                              .of_size = strand->role == LIFTING_SIZE,
                              .of_cup = strand->cup_group != LIFTING_NONE,
                              .use_count = 1 };
    if (o.area_mm2 < 0)
        geometry_path_reverse(o.path);
    o.area_mm2 = fabs(o.area_mm2);
    struct nest_use *use = base_arena_alloc(f->a, 1, sizeof *use);
    *use = (struct nest_use){ line->id, o.length_mm };
    o.uses = use;
    return o;
}

static bool is_known(const struct finding *f, const struct nest_outline *o, size_t *work)
{
    for (size_t i = 0; i<f->count && * work> 0; i++) {
        --*work;
        if (nest_is_same(&f->outlines[i], o, SAME_MM))
            return true;
    }
    return false;
}

static void add_closed_lines(struct finding *f, size_t *work)
{
    for (size_t i = 0; i < f->line_count; i++) {
        if (!f->lines[i].path.closed || f->lines[i].path.count < 3)
            continue;
        struct nest_outline o = outline_of_line(f, &f->lines[i]);
        vec2 where;
        if (regions_is_large(o.area_mm2, o.length_mm) && !is_known(f, &o, work) &&
            !geometry_path_crosses_itself(o.path, &where))
            add_outline(f, o);
    }
}

/* ---- All together ---- */

static size_t keep_pieces(struct finding *f)
{
    size_t left = 0;
    for (size_t i = 0; i < f->count; i++)
        if (f->outlines[i].piece)
            f->outlines[left++] = f->outlines[i];
    return left;
}

bool one_size_find(struct arena *a, const struct one_size_sheet *s, int size, int cup_group, size_t *work,
                   const struct nest_outline **out, size_t *count)
{
    struct finding f = { .a = a, .sheet = s };
    const struct regions_ring *rings;
    gather_lines(&f, size, cup_group);
    if (!network_build(a, f.lines, f.line_count, LIFTING_GAP_MM, work, &f.network))
        return false;
    struct faces faces = faces_find(a, &f.network);
    struct regions_asked asked = { dashes_of(&f), sized_of(&f), s->letters, s->letter_count };
    size_t ring_count = regions_find(a, &faces, &asked, &rings);
    for (size_t i = 0; i < ring_count; i++)
        add_ring(&f, &rings[i]);
    add_closed_lines(&f, work);
    if (!nest_find(a, f.outlines, f.count, &s->asked, work))
        return false;
    *out = f.outlines;
    *count = keep_pieces(&f);
    return true;
}
