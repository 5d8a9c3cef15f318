/* Which cloth a material is laid on: by options, else the job's own, else a usual one. */
#ifndef CLI_LAY_CLOTH_H
#define CLI_LAY_CLOTH_H

#include "cli/run.h"
#include "lay/lay.h"

/* What --for, --on, --width and --spread say. */
struct cli_lay_wish {
    bool all;                    /* every material in turn … */
    enum pattern_cloth material; /* … or this one; what is said of cloth is said of this one, all or not */
    bool says_cloth, says_width, says_spread;
    struct cloth cloth; /* read from --on */
    double width_mm;
    enum cloth_spread_kind spread;
    double fold_depth_mm;
};

struct cli_lay_cloth {
    struct cloth cloth;
    const char *file;   /* that tells of it; NULL: the options do, or nobody */
    bool is_usual;      /* nobody told of it */
    bool is_jobs;       /* it is the job's own, unchanged */
    bool may_be_opened; /* nobody said how it is spread: folded, or in a single layer where that does not do */
};

/* Reads the options; false with a sentence. */
bool cli_lay_read_wish(struct cli_run *run, struct cli_lay_wish *out);

/* Where only one other material than the main fabric is cut, what is said of cloth is said of that. */
void cli_lay_settle(struct cli_lay_wish *wish, const struct draft *draft);

/* The cloth of a material. False with a sentence when the options do not go together with it. */
bool cli_lay_choose(struct cli_run *run, const struct cli_lay_wish *wish, const struct job *job,
                    enum pattern_cloth material, struct cli_lay_cloth *out);

/* Tells what was collected of that cloth; what is wrong with the cloth, with its file, or else its material. */
void cli_lay_pass_on(struct cli_run *run, const struct cli_lay_cloth *of, enum pattern_cloth material,
                     const struct err_list *told);

#endif
