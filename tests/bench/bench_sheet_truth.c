/* Whether a drawn sheet's scale is found, and how fast; sheets of tests/lifting/pattern_sheets.py.
 *
 * sheet.scale_error_pct: by how many percent the scale that the test square says differs at most from the one that a
 * sheet was saved at, across and up, over all sheets below; each is to be called true or off as it is.
 * sheet.flatten_ms_NAME, sheet.squares_ms_NAME: processor time of drawing_flatten, and of finding and judging the
 * squares, as a median: an A0 with twelve sizes of forty pieces, and the same with its curves in 200,000 short lines.
 */
#include "bench/clock.h"
#include "bench/figure.h"
#include "drawing/drawn_file.h"
#include "drawing/squares.h"

#include <math.h>
#include <stdlib.h>

enum { ROUNDS = 31, PATH = 512 };

static const struct {
    const char *name;
    double across, up;
} rows[] = {
    { "a0.pdf", 1, 1 },
    { "a0_200k.pdf", 1, 1 },
    { "a0_94.pdf", 0.94, 0.94 },
    { "a0_110.pdf", 1.1, 1.1 },
    { "a0_97_100.pdf", 0.97, 1 },
    { "a0_user_unit.pdf", 1, 1 },
    { "a0_outlined_text.pdf", 1, 1 },
    { "a0_frame_letter_94.pdf", 0.94, 0.94 },
    { "small_lap_110.pdf", 1.1, 1.1 },
    { "small_svg_94.svg", 0.94, 0.94 },
};

static const struct sheet *read_sheet(struct arena *a, const char *name)
{
    char path[PATH];
    int exit;
    snprintf(path, sizeof path, "%s/%s", SHEETS, name);
    const struct sheet *s = drawn_sheet_file(a, path, NULL, &exit);
    if (!s)
        fprintf(stderr, "%s was not read\n", path);
    return s;
}

static bool flatten(struct arena *a, const struct sheet *s, struct drawing *out)
{
    struct err_list *errs = base_err_list_create();
    bool ok = drawing_flatten(a, s, out, errs);
    base_err_list_destroy(errs);
    return ok;
}

static struct drawing_truth judge(struct arena *a, const struct drawing *d)
{
    const struct drawing_square *squares;
    size_t count = drawing_find_squares(a, d, &squares);
    return drawing_judge(squares, count);
}

/* Of the square that the judgement rests on, whose measure is the scale. */
static double error_of(const struct drawing_truth *truth, double across, double up)
{
    return fmax(fabs(truth->square->width_mm / truth->side_mm / across - 1),
                fabs(truth->square->height_mm / truth->side_mm / up - 1));
}

static bool error_figure(void)
{
    double most = 0;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct arena *a = base_arena_create();
        struct drawing d;
        const struct sheet *s = read_sheet(a, rows[i].name);
        bool ok = s && flatten(a, s, &d);
        if (ok) {
            struct drawing_truth truth = judge(a, &d);
            ok = truth.kind == (rows[i].across == 1 && rows[i].up == 1 ? DRAWING_TRUE : DRAWING_OFF);
            most = ok ? fmax(most, error_of(&truth, rows[i].across, rows[i].up)) : INFINITY;
        }
        base_arena_destroy(a);
        if (!ok)
            return false;
    }
    figure("sheet.scale_error_pct", 100 * most, "percent");
    return true;
}

static void median_figure(const char *what, const char *name, double times[ROUNDS])
{
    char whole[PATH];
    qsort(times, ROUNDS, sizeof times[0], by_size);
    snprintf(whole, sizeof whole, "sheet.%s_ms_%s", what, name);
    figure(whole, times[ROUNDS / 2], "ms");
}

static bool time_figures(const char *file, const char *name)
{
    struct arena *all = base_arena_create();
    double flattening[ROUNDS], finding[ROUNDS];
    const struct sheet *s = read_sheet(all, file);
    bool ok = s != NULL;
    for (int i = 0; ok && i < ROUNDS; i++) {
        struct arena *a = base_arena_create();
        struct drawing d;
        double start = cpu_ms();
        ok = flatten(a, s, &d);
        double flat = cpu_ms();
        ok = ok && judge(a, &d).kind == DRAWING_TRUE;
        flattening[i] = flat - start;
        finding[i] = cpu_ms() - flat;
        base_arena_destroy(a);
    }
    if (ok) {
        median_figure("flatten", name, flattening);
        median_figure("squares", name, finding);
    }
    base_arena_destroy(all);
    return ok;
}

int main(void)
{
    return error_figure() && time_figures("a0.pdf", "a0") && time_figures("a0_200k.pdf", "200k") ? 0 : 1;
}
