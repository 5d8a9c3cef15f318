/* Any text as a size chart; one that is read goes with a lifted skirt of two sizes into a pattern, or is told why not.
 */
#include "fuzz/fuzz.h"
#include "lifting/write.h"
#include "pattern/read.h"

#include <math.h>
#include <string.h>

static void check_chart(const struct lifting_chart *chart)
{
    fuzz_must(chart->row_count >= 1 && chart->row_count <= LIFTING_CHART_ROWS_MOST);
    fuzz_must(chart->size_count >= 1 && chart->size_count <= LIFTING_SIZES_MOST && chart->main_row < chart->row_count);
    for (size_t r = 0; r < chart->row_count; r++)
        for (size_t k = 0; k < chart->size_count; k++)
            fuzz_must(isfinite(chart->rows[r].mm[k]) && chart->rows[r].mm[k] >= (k ? chart->rows[r].mm[k - 1] : 1));
    for (size_t i = 0; i < chart->piece_count; i++)
        for (size_t n = 0; n < chart->pieces[i].count; n++)
            fuzz_must(chart->pieces[i].levels[n].row < chart->row_count && chart->pieces[i].levels[n].mm >= 0);
}

static void write_skirt(struct arena *a, const struct lifting_chart *chart, struct err_list *errs)
{
    static const char *const sizes[] = { "S", "L" };
    vec2 points[2][5] = { { { 0, 0 }, { 300, 0 }, { 205, 500 }, { 180, 600 }, { 0, 600 } },
                          { { 0, 0 }, { 320, 0 }, { 225, 500 }, { 200, 600 }, { 0, 600 } } };
    struct lifting_outline outlines[2];
    for (size_t k = 0; k < 2; k++)
        outlines[k] = (struct lifting_outline){ .there = true, .path = { { points[k], 5, true } } };
    struct lifting_division division = { .sizes = sizes, .size_count = 2 };
    struct lifting_piece piece = {
        .words = { .name = "skirt", .count = 2 }, .cup_group = LIFTING_NONE, .outlines = outlines, .grain = { 0, 1 }
    };
    struct lifting l = { .division = &division, .pieces = &piece, .piece_count = 1 };
    struct lifting_wish wish = { .name = "Lifted", .unit = chart->unit, .chart = chart };
    const char *text = lifting_write(a, &l, &wish, errs);
    fuzz_must((text != NULL) == (errs->faults == 0));
    fuzz_must(!text || pattern_parse(a, "lifted", text, strlen(text), errs) != NULL);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    const struct lifting_chart *chart = lifting_chart_parse(a, "fuzz", (const char *)data, size, errs);
    fuzz_must((chart != NULL) == (errs->faults == 0));
    if (chart) {
        check_chart(chart);
        write_skirt(a, chart, errs);
    }
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
