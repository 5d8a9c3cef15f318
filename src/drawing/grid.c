#include "drawing/grid.h"
#include "drawing/jigsaw.h"
#include "drawing/trial.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define BETTER_SHARE 0.03 /* a later guess is taken only if it is better by that share */
#define TWICE_MOST 0.1    /* of the tiles: may lie in a cell that is taken */
#define GOES_ON_SHARE 0.5 /* of the lines that run out of pages: go on, where nothing but the order of pages speaks */
#define CLEAR_SHARE 0.75  /* above that nothing is doubtful */
#define MORE_SHARE 1.1    /* of the lines go on: then pages are off rather than apart */
#define LARGE_MM 500.0    /* both sides of a page that no one prints at home */
enum {
    RUNS_MOST = 100,
    EMPTY_FIRST_MOST = 4,
    JIGSAW_MOST = 120,
    WORDY_LEAST = 5,
    MATCHED_LEAST = 3,
    LEFT_OVER_MOST = 40
};

/* ----------------------------------------------------------------------------------------------------------------
 * cells */

static bool span(const struct drawing_tiling *t, struct drawing_grid *g)
{
    int least[2] = { INT32_MAX, INT32_MAX }, most[2] = { INT32_MIN, INT32_MIN };
    for (size_t i = 0; i < t->count; i++) {
        if (g->cells[i].column == DRAWING_NONE)
            continue;
        least[0] = g->cells[i].column < least[0] ? g->cells[i].column : least[0];
        least[1] = g->cells[i].row < least[1] ? g->cells[i].row : least[1];
        most[0] = g->cells[i].column > most[0] ? g->cells[i].column : most[0];
        most[1] = g->cells[i].row > most[1] ? g->cells[i].row : most[1];
    }
    if (most[0] < least[0])
        return false;
    for (size_t i = 0; i < t->count; i++)
        if (g->cells[i].column != DRAWING_NONE) {
            g->cells[i].column -= least[0];
            g->cells[i].row -= least[1];
        }
    g->columns = most[0] - least[0] + 1;
    g->rows = most[1] - least[1] + 1;
    return (double)g->columns * g->rows <= 4.0 * (double)t->count + 64;
}

bool drawing_fill_grid(struct arena *a, const struct drawing_tiling *t, struct drawing_grid *g)
{
    size_t twice = 0;
    if (!span(t, g))
        return false;
    size_t count = (size_t)g->columns * (size_t)g->rows;
    size_t *tiles = base_arena_alloc(a, count, sizeof *tiles);
    memset(tiles, 0xff, count * sizeof *tiles);
    for (size_t i = 0; i < t->count; i++) {
        if (g->cells[i].column == DRAWING_NONE)
            continue;
        size_t cell = (size_t)g->cells[i].row * (size_t)g->columns + (size_t)g->cells[i].column;
        if (tiles[cell] == SIZE_MAX) {
            tiles[cell] = i;
            continue;
        }
        g->cells[i].column = DRAWING_NONE;
        twice++;
    }
    g->tiles = tiles;
    return (double)twice <= TWICE_MOST * (double)t->count;
}

size_t drawing_tile_beside(const struct drawing_grid *g, size_t tile, int axis, bool after)
{
    int by = after ? 1 : -1, column = g->cells[tile].column + (axis == 0 ? by : 0),
        row = g->cells[tile].row - (axis == 1 ? by : 0);
    if (g->cells[tile].column == DRAWING_NONE || column < 0 || column >= g->columns || row < 0 || row >= g->rows)
        return SIZE_MAX;
    return g->tiles[(size_t)row * (size_t)g->columns + (size_t)column];
}

/* ------------------------------------------------------------------------------------------------------------- guesses
 */

struct guessing {
    struct drawing_tiling *t;
    const struct drawing_pages_choice *choice;
    struct drawing_trial *trial;
    struct arena *scratch; /* of the guess that is tried */
    struct drawing_grid best;
    double best_score;
    bool any;
};

static struct drawing_grid empty_grid(const struct guessing *g, enum drawing_joined how)
{
    return (struct drawing_grid){ .how = how,
                                  .cells = base_arena_alloc(g->scratch, g->t->count, sizeof(struct drawing_cell)) };
}

static void keep(struct guessing *g, const struct drawing_grid *grid, double score)
{
    size_t count = (size_t)grid->columns * (size_t)grid->rows;
    struct drawing_cell *cells = base_arena_alloc(g->t->a, g->t->count, sizeof *cells);
    size_t *tiles = base_arena_alloc(g->t->a, count, sizeof *tiles);
    memcpy(cells, grid->cells, g->t->count * sizeof *cells);
    memcpy(tiles, grid->tiles, count * sizeof *tiles);
    g->best = *grid;
    g->best.cells = cells;
    g->best.tiles = tiles;
    g->best_score = score;
    g->any = true;
}

/* Takes it if it is clearly better than what there was before; those that are likelier by nature come first. */
static void take(struct guessing *g, struct drawing_grid *grid)
{
    if (drawing_fill_grid(g->scratch, g->t, grid)) {
        double score = drawing_try(g->trial, grid);
        double better = g->any ? g->best_score + BETTER_SHARE * fabs(g->best_score) + 1 : -INFINITY;
        if (score > better)
            keep(g, grid, score);
    }
    base_arena_reset(g->scratch);
}

/* Each row of the table turns a label into a cell: which of its two numbers is the column, and whether rows are counted
 * from the top. */
static void guess_by_pairs(struct guessing *g, const struct drawing_signs *signs)
{
    static const struct {
        bool first_is_column, from_foot;
    } ways[] = { { true, false }, { false, false }, { true, true }, { false, true } };
    for (size_t w = 0; w < sizeof ways / sizeof ways[0]; w++) {
        if (signs->kind == DRAWING_LABEL_ROW_COLUMN && ways[w].first_is_column)
            continue;
        struct drawing_grid grid = empty_grid(g, DRAWING_BY_LABEL);
        grid.signs = signs;
        for (size_t i = 0; i < g->t->count; i++) {
            const struct drawing_label *label = &signs->of[i];
            int column = ways[w].first_is_column ? label->first : label->second;
            int row = ways[w].first_is_column ? label->second : label->first;
            bool none = label->kind == DRAWING_LABEL_NONE;
            grid.cells[i] = (struct drawing_cell){ none ? DRAWING_NONE : column, ways[w].from_foot ? -row : row };
        }
        take(g, &grid);
    }
}

/* Pages one after another in rows of `run`, or in columns of `run`. `number` has DRAWING_NONE for those left out. */
static void guess_run(struct guessing *g, const int *number, int run, bool by_columns,
                      const struct drawing_signs *signs)
{
    struct drawing_grid grid = empty_grid(g, DRAWING_BY_ORDER);
    grid.signs = signs;
    for (size_t i = 0; i < g->t->count; i++) {
        int along = number[i] % run, beside = number[i] / run;
        if (number[i] == DRAWING_NONE)
            grid.cells[i] = (struct drawing_cell){ DRAWING_NONE, 0 };
        else
            grid.cells[i] =
                by_columns ? (struct drawing_cell){ beside, along } : (struct drawing_cell){ along, beside };
    }
    take(g, &grid);
}

static int last_of(const int *number, size_t count)
{
    int last = -1;
    for (size_t i = 0; i < count; i++)
        last = number[i] > last ? number[i] : last;
    return last;
}

/* Columns she said, both ways; else whole grids before others, each way. */
static void guess_runs(struct guessing *g, const int *number, const struct drawing_signs *signs, int total)
{
    int count = last_of(number, g->t->count) + 1, said = g->choice ? g->choice->columns : 0;
    count = total > count && total <= 2 * count ? total : count;
    bool down = g->choice && g->choice->by_columns;
    if (said > 0) {
        int run = down ? (count + said - 1) / said : said;
        guess_run(g, number, run > 0 ? run : 1, down, signs);
        return;
    }
    for (int whole = 1; whole >= 0; whole--)
        for (int by_columns = down; by_columns <= 1; by_columns++)
            for (int run = 1; run <= count && run <= RUNS_MOST; run++)
                if ((count % run == 0) == (whole == 1))
                    guess_run(g, number, run, by_columns, signs);
}

static void guess_by_numbers(struct guessing *g, const struct drawing_signs *signs)
{
    int *number = base_arena_alloc(g->t->a, g->t->count, sizeof *number);
    int total = 0;
    for (size_t i = 0; i < g->t->count; i++) {
        const struct drawing_label *label = &signs->of[i];
        number[i] = label->kind == DRAWING_LABEL_NONE ? DRAWING_NONE : label->first - 1;
        if (label->kind == DRAWING_LABEL_OF && label->second > total)
            total = label->second;
    }
    /* Counted from the first number there is, too: covers may have been numbered. */
    int first = INT32_MAX;
    for (size_t i = 0; i < g->t->count; i++)
        first = number[i] != DRAWING_NONE && number[i] < first ? number[i] : first;
    if (last_of(number, g->t->count) > 8 * (int)g->t->count + 64)
        return;
    guess_runs(g, number, signs, total);
    for (size_t i = 0; first > 0 && i < g->t->count; i++)
        number[i] -= number[i] == DRAWING_NONE ? 0 : first;
    if (first > 0)
        guess_runs(g, number, signs, 0);
}

/* Instructions: mostly words, and hardly a line that runs out of the page; or it lacks the frame that others have. */
static bool is_cover(const struct guessing *g, size_t tile, bool framed)
{
    const struct drawing_tile *t = &g->t->tiles[tile];
    size_t words = g->t->d->pages[t->page].text_count, runs_out = drawing_runs_out(g->trial, tile);
    bool wordy = words >= WORDY_LEAST && words > g->t->d->pages[t->page].line_count / 2;
    return (wordy && 3 * runs_out < words) || (framed && !t->framed && runs_out == 0);
}

static bool any_framed(const struct drawing_tiling *t)
{
    for (size_t i = 0; i < t->count; i++)
        if (t->tiles[i].framed)
            return true;
    return false;
}

/* In the order of the file, without covers; and without one, two, … of the first pages that no line runs out of: they
 * may be covers, or empty corners of the sheet. */
static void guess_by_order(struct guessing *g)
{
    int *number = base_arena_alloc(g->t->a, g->t->count, sizeof *number);
    bool framed = any_framed(g->t);
    int count = 0, idle = 0;
    for (size_t i = 0; i < g->t->count; i++) {
        number[i] = is_cover(g, i, framed) ? DRAWING_NONE : count++;
        if (number[i] != DRAWING_NONE && idle == number[i] && drawing_runs_out(g->trial, i) == 0)
            idle++;
    }
    for (int skip = 0; skip <= idle && skip <= EMPTY_FIRST_MOST && skip < count; skip++) {
        guess_runs(g, number, NULL, 0);
        for (size_t i = 0; i < g->t->count; i++)
            number[i] -= number[i] == DRAWING_NONE ? 0 : 1;
    }
}

/* Cells that the person said, of the pages that there are. */
static void take_said(struct guessing *g)
{
    struct drawing_grid grid = empty_grid(g, DRAWING_BY_HAND);
    int columns = g->choice->columns > 0 ? g->choice->columns : 1;
    for (size_t i = 0; i < g->t->count; i++) {
        int cell = g->choice->cells[g->t->tiles[i].page];
        grid.cells[i] =
            (struct drawing_cell){ cell < 0 ? DRAWING_NONE : cell % columns, cell < 0 ? 0 : cell / columns };
    }
    take(g, &grid);
}

static void guess_all(struct guessing *g, const struct drawing_signs *signs, size_t count)
{
    bool order_only = g->choice && (g->choice->columns > 0 || g->choice->by_columns);
    for (size_t i = 0; i < count; i++) {
        enum drawing_label_kind kind = signs[i].kind;
        bool pair = kind == DRAWING_LABEL_ROW_COLUMN || kind == DRAWING_LABEL_LETTER || kind == DRAWING_LABEL_PAIR;
        if (pair && !order_only)
            guess_by_pairs(g, &signs[i]);
        else if (!pair)
            guess_by_numbers(g, &signs[i]);
    }
    guess_by_order(g);
    struct drawing_grid jigsaw = empty_grid(g, DRAWING_BY_TRIAL);
    if (!order_only && g->t->count <= JIGSAW_MOST && drawing_jigsaw(g->trial, g->t, &jigsaw))
        take(g, &jigsaw);
}

/* ---------------------------------------------------------------------------------------------------- pages left over
 */

/* How many lines go on between a tile and its neighbours if it lies in a cell, and how many run out. */
static size_t fits(const struct guessing *g, size_t tile, int column, int row, size_t *runs_out)
{
    static const int beside[][2] = {
        { -1, 0 }, { 1, 0 }, { 0, 1 }, { 0, -1 }
    }; /* columns, rows: left, right, below, above */
    size_t matched = 0;
    *runs_out = 0;
    for (size_t k = 0; k < 4; k++) {
        int c = column + beside[k][0], r = row + beside[k][1], axis = k < 2 ? 0 : 1;
        bool within = c >= 0 && c < g->best.columns && r >= 0 && r < g->best.rows;
        size_t other = within ? g->best.tiles[(size_t)r * (size_t)g->best.columns + (size_t)c] : SIZE_MAX, out = 0;
        if (other == SIZE_MAX)
            continue;
        bool before = k == 0 || k == 2;
        matched += drawing_try_pair(g->trial, before ? other : tile, before ? tile : other, axis, &out);
        *runs_out += out;
    }
    return matched;
}

/* Puts a tile that was left out, as its label could not be read, into the hole that its lines fit. */
static bool fill_hole(struct guessing *g, size_t tile)
{
    struct drawing_cell best = { DRAWING_NONE, 0 };
    size_t best_matched = MATCHED_LEAST - 1;
    for (int k = 0; k < g->best.columns * g->best.rows; k++) {
        size_t runs_out;
        if (g->best.tiles[k] != SIZE_MAX)
            continue;
        int column = k % g->best.columns, row = k / g->best.columns;
        size_t matched = fits(g, tile, column, row, &runs_out);
        if (matched > best_matched && (double)matched >= GOES_ON_SHARE * (double)runs_out) {
            best = (struct drawing_cell){ column, row };
            best_matched = matched;
        }
    }
    g->best.cells[tile] = best;
    return best.column != DRAWING_NONE;
}

static void fill_holes(struct guessing *g)
{
    int asked = 0;
    for (size_t i = 0; i < g->t->count && asked < LEFT_OVER_MOST; i++) {
        if (g->best.cells[i].column != DRAWING_NONE || drawing_runs_out(g->trial, i) == 0)
            continue;
        asked++;
        if (fill_hole(g, i) && drawing_fill_grid(g->t->a, g->t, &g->best))
            g->best_score = drawing_try(g->trial, &g->best);
    }
}

/* Tiles of the grid on which a line of the sheet is seen. */
static size_t drawn_tiles(const struct drawing_tiling *t, const struct drawing_grid *g)
{
    size_t count = 0;
    for (size_t i = 0; i < t->count; i++)
        count += g->cells[i].column != DRAWING_NONE && t->tiles[i].line_count > 0;
    return count;
}

/* What she said holds. Whether pages so large are joined at all is for lines to say; small ones may be joined by their
 * labels alone. */
static bool is_joined(const struct drawing_tiling *t, const struct drawing_pages_choice *choice, struct drawing_grid *g)
{
    double goes_on = (double)g->matched, runs_out = goes_on + (double)g->open;
    bool large = t->tiles[0].size[0] >= LARGE_MM && t->tiles[0].size[1] >= LARGE_MM;
    size_t least = t->count < MATCHED_LEAST ? t->count : MATCHED_LEAST;
    bool by_lines = g->matched >= least && goes_on >= GOES_ON_SHARE * runs_out;
    g->doubtful = g->matched < least || goes_on < CLEAR_SHARE * (runs_out + (double)g->loose / 4);
    if (g->how == DRAWING_BY_HAND || (choice && choice->columns > 0))
        return true;
    if (drawn_tiles(t, g) < 2)
        return false;
    return by_lines || (g->how == DRAWING_BY_LABEL && !large && (g->matched >= least || g->open == 0));
}

/* Whether pages that lines run out of are left out, or it is doubtful for another reason. */
static bool is_wanting(const struct guessing *g)
{
    for (size_t i = 0; i < g->t->count; i++)
        if (g->best.cells[i].column == DRAWING_NONE && drawing_runs_out(g->trial, i) > 0)
            return true;
    double goes_on = (double)g->best.matched;
    return goes_on < CLEAR_SHARE * (goes_on + (double)g->best.open + (double)g->best.loose);
}

bool drawing_find_grid(struct drawing_tiling *t, const struct drawing_twins *twins,
                       const struct drawing_pages_choice *choice, struct drawing_grid *out)
{
    static const double near_mm[] = { 0.3, 1.2 }; /* pages that lie as they should, and those that are off */
    struct drawing_signs *signs;
    size_t count = drawing_find_signs(t, &signs);
    bool joined = false;
    for (size_t k = 0; k < sizeof near_mm / sizeof near_mm[0]; k++) {
        struct guessing g = { .t = t, .choice = choice, .trial = drawing_start_trial(t, twins, near_mm[k]) };
        g.scratch = base_arena_create();
        if (choice && choice->cells)
            take_said(&g);
        else if (t->count > 1)
            guess_all(&g, signs, count);
        if (g.any && g.best.how != DRAWING_BY_HAND)
            fill_holes(&g);
        base_arena_destroy(g.scratch);
        if (!g.any || !is_joined(t, choice, &g.best) ||
            (joined && (double)g.best.matched < MORE_SHARE * (double)out->matched))
            continue;
        *out = g.best;
        joined = true;
        if (!is_wanting(&g))
            break;
    }
    if (joined && out->signs)
        drawing_mark_signs(t, out->signs);
    return joined;
}
