/* The words after the command's name: operands and options, checked against the command's own list. */
#ifndef CLI_OPTIONS_H
#define CLI_OPTIONS_H

#include "base/err_list.h"

#include <stdbool.h>
#include <stddef.h>

enum cli_option {
    OPT_BODY,
    OPT_VIEW,
    OPT_SIZE,
    OPT_CUP,
    OPT_MADE_TO,
    OPT_BLEND,
    OPT_ALTER,
    OPT_DROP,
    OPT_TRIAL,
    OPT_FINAL,
    OPT_TABLE,
    OPT_MAT,
    OPT_OUT,
    OPT_REPLACE,
    OPT_PIECE,
    OPT_ALL,
    OPT_MIRROR,
    OPT_ROTATE,
    OPT_PAN,
    OPT_WEIGHT,
    OPT_SQUARE,
    OPT_LONG_LINES,
    OPT_SECTION,
    OPT_RULINGS,
    OPT_SIDE,
    OPT_CHALK,
    OPT_FRAME,
    OPT_READINGS,
    OPT_SIGMA,
    OPT_FOLLOW_TAPE,
    OPT_LAY,
    OPT_TURN_OVER,
    OPT_CLOTH,
    OPT_LAYERS,
    OPT_MAT_GOES,
    OPT_MAT_COMES,
    OPT_HEIGHT,
    OPT_FOOT,
    OPT_BOARD,
    OPT_THICKNESS,
    OPT_FRACTION,
    OPT_CSV,
    OPT_SHEET_LAYERS,
    OPT_PASSWORD_STDIN,
    OPT_DPI,
    OPT_SIDE_IS,
    OPT_AS_DRAWN,
    OPT_ACROSS,
    OPT_DOWN_FIRST,
    OPT_OUTLINE,
    OPT_ALLOWANCE,
    OPT_CHART,
    OPT_NAME,
    OPT_FOR,
    OPT_ON,
    OPT_WIDTH,
    OPT_SPREAD,
    OPT_ROUNDS,
    OPT_SECONDS,
    OPT_SEED,
    OPT_LET_GO,
    OPT_TRY,
    OPT_WIDTHS,
    OPT_OFF_SQUARE,
    OPT_MARGIN,
    OPT_ALONG,
    OPT_TEAR_ACROSS,
    OPT_TEAR_KEEP,
    OPT_TEAR_DROP,
    OPT_LEAVE_RESTS,
    OPT_DISPLAY,
    OPT_NOTES,
    OPT_UNIT,
    OPT_JSON,
    OPT_HELP,
    CLI_OPTIONS /* how many there are; the end of a list of them */
};

struct cli_args {
    const char *operand;            /* the command's first operand, or NULL */
    const char *second;             /* of a command with two; or NULL */
    const char *value[CLI_OPTIONS]; /* "" for an option without value that was given; NULL: not given */
};

/* Reads the words. Each must be an option in `allowed` (ended by CLI_OPTIONS), with its value after it or behind "=",
 * or one of as many operands as the command takes, 0 to 2. False, with a sentence in `errs`, when not. */
bool cli_read_options(int argc, char **argv, const enum cli_option *allowed, int operands, struct cli_args *out,
                      struct err_list *errs);

/* Whether an option is in a list of them. */
bool cli_is_allowed(const enum cli_option *allowed, enum cli_option o);

/* "--size NAME" and what it does, for help. */
const char *cli_option_usage(struct arena *a, enum cli_option o);
const char *cli_option_help(enum cli_option o);

#endif
