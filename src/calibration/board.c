#include "calibration/board.h"

#include "geometry/vec2.h"

#include <math.h>

enum { GRID = 9, PLACES = GRID * GRID };

#define LEAST_SIGMA_MM 0.2      /* no reading is trusted to be better than a nudged one (DEVELOPERS.md, Calibration) */
#define BOARD_SIGMA_MM 0.25     /* how well a board's thickness is measured */
#define LAID_BACK_SIGMA_MM 0.5  /* how well the mat is laid back */
#define CLEARLY 4.0             /* spreads of the scale by which it must be under 1 */
#define MOST_MISFIT_MM 1.0      /* two tables of one light, read to 0.3 mm, lie 0.4 mm apart */
#define MISFIT_SIGMAS 4.0       /* … and coarser ones more */
#define MOST_TURN_SHARE 0.1     /* of 1 - s: a turn of that much shifts the foot by a tenth of the foot's distance */
#define PROBABLY 1.96           /* spreads within which 95 % of a normal error lies */
#define PROBABLY_ON_PLANE 2.448 /* the same for a place: sqrt(-2 ln 0.05) */

static const struct err_kind other_frame = {
    "calibration.board_frame", ERR_FAULT,
    BASE_TR(
        "was set up for a frame of {0} × {1} pixels, and the table for {2} × {3}: both have to be of one projector")
};
static const struct err_kind not_smaller = {
    "calibration.board_not_smaller", ERR_FAULT,
    BASE_TR("on a board {0} thick the light has to be clearly smaller than on the table, and a length of 1000 mm "
            "there is {1} mm here. Was this one set up on the board? If so, take a thicker board, or measure the "
            "lens's height with a tape")
};
static const struct err_kind moved = {
    "calibration.board_moved", ERR_FAULT,
    BASE_TR("differs from the table by {0} mm more than a board's height explains, so the projector was moved "
            "between the two, or one of them is wrong: set up both again")
};
static const struct err_kind no_lens = {
    "calibration.board_no_lens", ERR_FAULT,
    BASE_TR("puts the lens {0} high, and that can hardly be: it should be from {1} to {2}. Is the board {3} thick?")
};
static const struct err_kind turned = {
    "calibration.board_turned", ERR_WARNING,
    BASE_TR(
        "the mat lay turned by {0}° against the table, so where the spot below the lens is cannot be told from it. The "
        "height "
        "of the lens holds; measure the spot with a tape if you want to know where shadows fall")
};

/* One light's places on both tables, about their middles. */
struct pair {
    vec2 table[PLACES], board[PLACES], table_middle, board_middle;
};

static vec2 place_of(const struct geometry_map *map, int i)
{
    int column = i % GRID, row = i / GRID;
    struct px_pt px = { (double)map->width_px * column / (GRID - 1), (double)map->height_px * row / (GRID - 1) };
    struct table_pt at = geometry_map_to_table(map, px);
    return (vec2){ at.x, at.y };
}

/* The map's places about their middle, which is returned. */
static vec2 places_of(const struct geometry_map *map, vec2 out[PLACES])
{
    vec2 sum = { 0, 0 };
    for (int i = 0; i < PLACES; i++) {
        out[i] = place_of(map, i);
        sum = vec2_add(sum, out[i]);
    }
    vec2 middle = vec2_scale(sum, 1.0 / PLACES);
    for (int i = 0; i < PLACES; i++)
        out[i] = vec2_sub(out[i], middle);
    return middle;
}

/* The second place is the first times scale, turned, plus a shift. */
struct similarity {
    double scale, turn_rad;
    double misfit_mm;  /* root mean square of what is left */
    double squares_mm; /* mean square of the places' distances from their middle, mm² */
};

/* In the plane Umeyama's singular values come to this: the sums of dot and cross products are the scaled cosine and
 * sine of the turn. */
static struct similarity fit_similarity(const struct pair *p)
{
    double dot = 0, cross = 0, squares = 0, left = 0;
    for (int i = 0; i < PLACES; i++) {
        dot += vec2_dot(p->table[i], p->board[i]);
        cross += vec2_cross(p->table[i], p->board[i]);
        squares += vec2_dot(p->table[i], p->table[i]);
    }
    vec2 turn = { dot / squares, cross / squares };
    for (int i = 0; i < PLACES; i++) {
        vec2 at = p->table[i], moved_there = { turn.x * at.x - turn.y * at.y, turn.y * at.x + turn.x * at.y };
        vec2 off = vec2_sub(p->board[i], moved_there);
        left += vec2_dot(off, off);
    }
    return (struct similarity){ vec2_length(turn), atan2(turn.y, turn.x), sqrt(left / PLACES), squares / PLACES };
}

/* How well one coordinate was read. The residuals' distances stand in for a coordinate's spread: from eight readings on
 * that makes up for what the map's own terms took of them. */
static double sigma_of(const struct calibration_table *t)
{
    return fmax(t->rms_mm, LEAST_SIGMA_MM);
}

/* Variance of a mean coordinate of the light from both tables' readings; over the mean square distance from the middle
 * it is that of the scale. */
static double middle_variance(const struct calibration_table *table, const struct calibration_table *board)
{
    return sigma_of(table) * sigma_of(table) / (double)table->readings +
           sigma_of(board) * sigma_of(board) / (double)board->readings;
}

static struct calibration_found_lens lens_of(const struct pair *p, const struct similarity *s, double variance,
                                             double board_mm)
{
    double shrink = 1 - s->scale, height = board_mm / shrink;
    double scale_spread = sqrt(variance / s->squares_mm) / shrink, board_spread = BOARD_SIGMA_MM / board_mm;
    /* What stays in place: N (1 - s) = (second middle) - s (first middle). */
    vec2 way = vec2_scale(vec2_sub(p->board_middle, p->table_middle), 1 / shrink);
    vec2 foot = vec2_add(p->table_middle, way);
    double shift = sqrt(variance + LAID_BACK_SIGMA_MM * LAID_BACK_SIGMA_MM) / shrink;
    return (struct calibration_found_lens){
        .lens = { { foot.x, foot.y }, height },
        .height_doubt_mm = PROBABLY * height * hypot(scale_spread, board_spread),
        .foot_doubt_mm = PROBABLY_ON_PLANE * hypot(shift, vec2_length(way) * scale_spread),
    };
}

static bool is_one_light(struct err_place place, const struct similarity *s, double spread, double sigma_mm,
                         double board_mm, struct err_list *errs)
{
    if (!(1 - s->scale > CLEARLY * spread)) {
        base_err(errs, &not_smaller, place, ERR_MM(board_mm), ERR_NUMBER(round(1e4 * s->scale) / 10));
        return false;
    }
    if (!(s->misfit_mm <= fmax(MOST_MISFIT_MM, MISFIT_SIGMAS * sigma_mm))) {
        base_err(errs, &moved, place, ERR_NUMBER(round(10 * s->misfit_mm) / 10));
        return false;
    }
    return true;
}

bool calibration_find_lens(const char *file, const struct calibration_table *table,
                           const struct calibration_table *board, double board_mm, struct calibration_found_lens *out,
                           struct err_list *errs)
{
    struct err_place place = base_err_in_file(file);
    const struct geometry_map *first = &table->map, *second = &board->map;
    if (first->width_px != second->width_px || first->height_px != second->height_px) {
        base_err(errs, &other_frame, place, ERR_NUMBER(second->width_px), ERR_NUMBER(second->height_px),
                 ERR_NUMBER(first->width_px), ERR_NUMBER(first->height_px));
        return false;
    }
    struct pair p;
    p.table_middle = places_of(first, p.table);
    p.board_middle = places_of(second, p.board);
    struct similarity s = fit_similarity(&p);
    double variance = middle_variance(table, board), sigma = fmax(sigma_of(table), sigma_of(board));
    if (!is_one_light(place, &s, sqrt(variance / s.squares_mm), sigma, board_mm, errs))
        return false;
    struct calibration_found_lens found = lens_of(&p, &s, variance, board_mm);
    if (!calibration_lens_is_valid(&found.lens)) {
        base_err(errs, &no_lens, place, ERR_MM(found.lens.height_mm), ERR_MM(CALIBRATION_LEAST_LENS_MM),
                 ERR_MM(CALIBRATION_MOST_LENS_MM), ERR_MM(board_mm));
        return false;
    }
    if (fabs(s.turn_rad) > MOST_TURN_SHARE * (1 - s.scale) + PROBABLY * sqrt(variance / s.squares_mm))
        base_err(errs, &turned, place, ERR_NUMBER(round(s.turn_rad * 1800 / 3.14159265358979323846) / 10));
    *out = found;
    return true;
}
