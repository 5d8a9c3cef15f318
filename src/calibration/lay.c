/* Laying a solution that floats where a person says. */
#include "calibration/solve.h"

enum { TERMS = GEOMETRY_MAP_TERMS };

/* A move is linear in the eight projective terms, h22 = 1 aside: row i of `by` says what moved term i is of the old. */
static void moving(struct calibration_move move, double by[TERMS][TERMS])
{
    double c = cos(move.turn_rad), s = sin(move.turn_rad), side = move.flip ? -1 : 1;
    for (int i = 0; i < TERMS; i++)
        for (int j = 0; j < TERMS; j++)
            by[i][j] = i == j;
    for (int i = 0; i < 3; i++) {
        by[GEOMETRY_H00 + i][GEOMETRY_H00 + i] = side * c;
        by[GEOMETRY_H00 + i][GEOMETRY_H10 + i] = -s;
        by[GEOMETRY_H10 + i][GEOMETRY_H00 + i] = side * s;
        by[GEOMETRY_H10 + i][GEOMETRY_H10 + i] = c;
    }
    for (int i = 0; i < 2; i++) {
        by[GEOMETRY_H00 + i][GEOMETRY_H20 + i] = move.shift_mm.x;
        by[GEOMETRY_H10 + i][GEOMETRY_H20 + i] = move.shift_mm.y;
    }
}

static void multiply(double a[TERMS][TERMS], double b[TERMS][TERMS], bool transposed, double out[TERMS][TERMS])
{
    for (int i = 0; i < TERMS; i++)
        for (int j = 0; j < TERMS; j++) {
            out[i][j] = 0;
            for (int k = 0; k < TERMS; k++)
                out[i][j] += a[i][k] * (transposed ? b[j][k] : b[k][j]);
        }
}

void calibration_lay(struct calibration_solution *solution, struct calibration_move move)
{
    double by[TERMS][TERMS], half[TERMS][TERMS];
    moving(move, by);
    multiply(by, solution->doubt.covariance, false, half);
    multiply(half, by, true, solution->doubt.covariance);
    solution->map = calibration_move_map(&solution->map, move);
}
