#include "pattern/pattern.h"

#include "base/words.h"
#include "pattern/reader.h"

#include <string.h>

const char *const pattern_outline_words[] = { "stitching line", "cutting line" };
const char *const pattern_cloth_words[] = { BASE_TR("fabric"), BASE_TR("interfacing"), BASE_TR("lining") };
const char *const pattern_side_words[] = { BASE_TR("wrong side"), BASE_TR("right side") };
const char *const pattern_line_words[] = {
    BASE_TR_IN("line on a piece", "dart"),      BASE_TR_IN("line on a piece", "fold"),
    BASE_TR_IN("line on a piece", "lengthen"),  BASE_TR_IN("line on a piece", "match"),
    BASE_TR_IN("line on a piece", "placement"), BASE_TR_IN("line on a piece", "buttonhole")
};
const char *const pattern_button_words[] = { BASE_TR_IN("line on a piece", "button"),
                                             BASE_TR_IN("line on a piece", "buttonhole") };
const char *const pattern_dart_fold_words[] = { "", BASE_TR_IN("of an edge", "start"),
                                                BASE_TR_IN("of an edge", "end") };

/* Every table searched here is an array of structs that begin with their name. */
static int find_named(const void *items, size_t count, size_t size, const char *name)
{
    for (size_t i = 0; i < count; i++) {
        const char *const *item_name = (const void *)((const char *)items + i * size);
        if (*item_name && strcmp(*item_name, name) == 0)
            return (int)i;
    }
    return PATTERN_NONE;
}

int pattern_find_row(const struct pattern *p, const char *name)
{
    return find_named(p->chart, p->row_count, sizeof *p->chart, name);
}

int pattern_find_size(const struct pattern *p, const char *name)
{
    return find_named(p->sizes, p->size_count, sizeof *p->sizes, name);
}

int pattern_find_cup_group(const struct pattern *p, const char *name)
{
    return find_named(p->cup_groups, p->cup_group_count, sizeof *p->cup_groups, name);
}

int pattern_find_piece(const struct pattern *p, const char *name)
{
    return find_named(p->pieces, p->piece_count, sizeof *p->pieces, name);
}

int pattern_find_view(const struct pattern *p, const char *name)
{
    return find_named(p->views, p->view_count, sizeof *p->views, name);
}

int pattern_find_figure(const struct pattern *p, const char *name)
{
    return find_named(p->figures, p->figure_count, sizeof *p->figures, name);
}

int pattern_find_edge_or_curve(const struct pattern_piece *piece, const char *name)
{
    return find_named(piece->edges, piece->edge_count + piece->curve_count, sizeof *piece->edges, name);
}

int pattern_find_edge(const struct pattern_piece *piece, const char *name)
{
    return find_named(piece->edges, piece->edge_count, sizeof *piece->edges, name);
}

int pattern_find_point(const struct pattern_piece *piece, const char *name)
{
    return find_named(piece->points, piece->point_count, sizeof *piece->points, name);
}

bool pattern_has_chart(const struct pattern *p)
{
    return p->row_count > 0;
}

bool pattern_has_group_busts(const struct pattern *p)
{
    bool has = p->cup_group_count > 0;
    for (size_t g = 0; g < p->cup_group_count; g++)
        has = has && pattern_value_is_given(p->cup_groups[g].bust);
    return has;
}

static const struct pattern_value not_given = { .mm = NULL };

struct pattern_value pattern_drawn_for(const struct pattern *p, const char *name, int cup_group)
{
    if (p->cup_group_count && cup_group != PATTERN_NONE && strcmp(name, PATTERN_BUST) == 0)
        return p->cup_groups[cup_group].bust;
    int row = pattern_find_row(p, name);
    return row == PATTERN_NONE ? not_given : p->chart[row].value;
}

static struct pattern_value of_garment(const struct pattern *p, const struct pattern_finished *items, size_t count,
                                       const char *name, int cup_group)
{
    int index = find_named(items, count, sizeof *items, name);
    if (index == PATTERN_NONE || (p->cup_group_count && cup_group == PATTERN_NONE))
        return not_given;
    return items[index].by_group[p->cup_group_count ? cup_group : 0];
}

struct pattern_value pattern_finished(const struct pattern *p, const char *name, int cup_group)
{
    return of_garment(p, p->finished, p->finished_count, name, cup_group);
}

struct pattern_value pattern_intended_ease(const struct pattern *p, const char *name, int cup_group)
{
    return of_garment(p, p->ease, p->ease_count, name, cup_group);
}

const char *pattern_outline_name(enum pattern_outline outline)
{
    return pattern_outline_words[outline];
}

const struct pattern_girth *pattern_find_girth(const struct pattern *p, const char *name)
{
    int index = find_named(p->girths, p->girth_count, sizeof *p->girths, name);
    return index == PATTERN_NONE ? NULL : &p->girths[index];
}

const char *pattern_cloth_name(enum pattern_cloth cloth)
{
    return pattern_cloth_words[cloth];
}

const char *pattern_side_name(enum pattern_side side)
{
    return pattern_side_words[side];
}

const char *pattern_line_name(enum pattern_line_kind kind)
{
    return pattern_line_words[kind];
}

const char *pattern_button_name(enum pattern_button_kind kind)
{
    return pattern_button_words[kind];
}

const char *pattern_dart_fold_name(enum pattern_dart_fold fold)
{
    return pattern_dart_fold_words[fold];
}

size_t pattern_seam_marks(const struct pattern *p, const struct pattern_seam *seam, int side)
{
    size_t marks = 0;
    for (size_t i = 0; i < seam->sides[side].count; i++) {
        struct pattern_edge_ref ref = seam->sides[side].edges[i];
        const struct pattern_piece *piece = &p->pieces[ref.piece];
        marks += ref.mark_after;
        for (size_t n = 0; n < piece->notch_count; n++)
            marks += piece->notches[n].edge == ref.edge;
    }
    return marks;
}

bool pattern_is_seam_ratio(double ratio)
{
    return ratio >= 0.01 && ratio <= 100;
}

bool pattern_in_cup_group(int group, int chosen)
{
    return group == PATTERN_NONE || group == chosen;
}
