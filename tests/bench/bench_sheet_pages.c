/* Whether print-at-home pages are joined as they were cut, and how fast; sheets of tests/lifting/pattern_sheets.py,
 * each an A0 with twelve sizes of forty pieces on 25 pages.
 *
 * sheet.join_error_mm: the most that a page's shift differs from the truth's, up to one that is common to all, or that
 * a corner of an outline lies off its line on the joined sheet, at true scale. sheet.join_ms_NAME: processor time of
 * finding how pages lie and of joining them, as a median. */
#include "bench/clock.h"
#include "bench/figure.h"
#include "drawing/drawn_file.h"
#include "drawing/pages.h"
#include "json/tree.h"

#include <math.h>
#include <stdlib.h>

enum { ROUNDS = 11, PATH = 512 };

#define LOST_MM 1.0 /* a corner that no line is near counts as that far off */

static const struct {
    const char *name;
    double scale;
} rows[] = {
    { "a0_frame_a4", 1 },           { "a0_lap_a4", 1 }, { "a0_cut_letter", 1 }, { "a0_whole_a4", 1 },
    { "a0_frame_letter_94", 0.94 },
};

static const struct json_node *item(const struct json_node *list, size_t index)
{
    const struct json_node *node = list ? list->first : NULL;
    for (size_t i = 0; node && i < index; i++)
        node = node->next;
    return node;
}

static vec2 point(const struct json_node *pair)
{
    const struct json_node *x = item(pair, 0), *y = item(pair, 1);
    return x && y ? (vec2){ x->number, y->number } : (vec2){ NAN, NAN };
}

/* How far a place's shift is from the truth's. */
static vec2 off(const struct json_node *truth, const struct drawing_place *place, double scale)
{
    const struct json_node *page = item(json_find(truth, "pages"), (size_t)place->page);
    return vec2_sub(place->shift, vec2_scale(point(json_find(page, "shift_mm")), 1 / scale));
}

static double shift_error(const struct json_node *truth, const struct drawing_pages *pages, double scale, vec2 *common)
{
    double worst = 0;
    *common = (vec2){ 0, 0 };
    for (size_t i = 0; i < pages->place_count; i++)
        *common = vec2_add(*common, vec2_scale(off(truth, &pages->places[i], scale), 1 / (double)pages->place_count));
    for (size_t i = 0; i < pages->place_count; i++)
        worst = fmax(worst, vec2_length(vec2_sub(off(truth, &pages->places[i], scale), *common)));
    return worst;
}

static double distance(const struct drawing *d, const struct geometry_box *boxes, vec2 at)
{
    double best = LOST_MM, along;
    for (size_t i = 0; i < d->line_count; i++)
        if (at.x >= boxes[i].min.x - LOST_MM && at.x <= boxes[i].max.x + LOST_MM && at.y >= boxes[i].min.y - LOST_MM &&
            at.y <= boxes[i].max.y + LOST_MM)
            best = fmin(best, geometry_path_distance(d->lines[i].path.path, at, &along));
    return best;
}

static double outline_error(const struct drawing *d, const struct geometry_box *boxes, const struct json_node *outline,
                            vec2 common)
{
    double worst = 0;
    for (const struct json_node *edge = outline ? outline->first : NULL; edge; edge = edge->next)
        worst = fmax(worst, distance(d, boxes, vec2_add(point(item(json_find(edge, "points"), 0)), common)));
    return worst;
}

static double corner_error(struct arena *a, const struct json_node *truth, const struct drawing *d, vec2 common)
{
    double worst = 0;
    struct geometry_box *boxes = base_arena_alloc(a, d->line_count, sizeof *boxes);
    const struct json_node *pieces = json_find(truth, "pieces");
    for (size_t i = 0; i < d->line_count; i++)
        boxes[i] = geometry_path_box(d->lines[i].path.path);
    for (const struct json_node *piece = pieces ? pieces->first : NULL; piece; piece = piece->next) {
        const struct json_node *sizes = json_find(piece, "sizes");
        for (const struct json_node *size = sizes ? sizes->first : NULL; size; size = size->next)
            worst = fmax(worst, outline_error(d, boxes, json_find(size, "outline"), common));
    }
    return worst;
}

static double join_ms(const struct drawing *flat, struct drawing_scale scale)
{
    double took[ROUNDS];
    for (int k = 0; k < ROUNDS; k++) {
        struct arena *a = base_arena_create();
        struct drawing_pages pages;
        double start = cpu_ms();
        drawing_find_pages(a, flat, scale, NULL, &pages);
        drawing_join(a, flat, scale, &pages);
        took[k] = cpu_ms() - start;
        base_arena_destroy(a);
    }
    qsort(took, ROUNDS, sizeof *took, by_size);
    return took[ROUNDS / 2];
}

/* INFINITY, and told, when the sheet or its truth cannot be read. */
static double error_of(struct arena *a, const char *name, double saved)
{
    char path[PATH], figure_name[PATH];
    int exit;
    struct drawing flat;
    struct drawing_pages pages;
    struct drawing_scale scale = { 1 / saved, 1 / saved };
    struct err_list *errs = base_err_list_create();
    vec2 common;
    snprintf(path, sizeof path, "%s/%s.truth.json", SHEETS, name);
    const struct json_node *truth = json_read_file(a, path, errs);
    base_err_list_destroy(errs);
    snprintf(path, sizeof path, "%s/%s.pdf", SHEETS, name);
    if (!truth || !drawn_file(a, path, NULL, &flat, &exit)) {
        fprintf(stderr, "%s was not read\n", path);
        return INFINITY;
    }
    drawing_find_pages(a, &flat, scale, NULL, &pages);
    struct drawing joined = drawing_join(a, &flat, scale, &pages);
    double shift = shift_error(truth, &pages, saved, &common), corner = corner_error(a, truth, &joined, common);
    snprintf(figure_name, sizeof figure_name, "sheet.join_ms_%s", name);
    figure(figure_name, join_ms(&flat, scale), "ms");
    return fmax(shift, corner);
}

int main(void)
{
    double worst = 0;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct arena *a = base_arena_create();
        worst = fmax(worst, error_of(a, rows[i].name, rows[i].scale));
        base_arena_destroy(a);
    }
    figure("sheet.join_error_mm", worst, "mm");
    return 0;
}
