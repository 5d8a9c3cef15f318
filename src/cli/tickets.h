/* Files of tickets: a new one's name, whether one may be opened here, and putting one away. */
#ifndef CLI_TICKETS_H
#define CLI_TICKETS_H

#include "base/hold.h"
#include "cli/run.h"

/* A free name in the folder of tickets, held from now on; NULL with the reason. */
const char *cli_ticket_new(struct cli_run *run, struct base_file_hold *hold, struct err_list *errs);

/* Tells that there is no folder for what is kept. */
void cli_ticket_no_room(struct err_list *errs);

/* What stands there, in `a`; NULL: nothing that can be read. */
const char *cli_ticket_text(struct arena *a, const char *path);

/* Whether both name one file; NULL names none. */
bool cli_ticket_is(struct cli_run *run, const char *one, const char *other);

/* Holds a ticket that is about to be opened; false, with the reason: somebody else has it. */
bool cli_ticket_claim(struct cli_run *run, const char *path, struct base_file_hold *hold, struct err_list *errs);

/* Moves a ticket with its journal out of the folder; what came of it, good or bad, is in `errs`. */
void cli_ticket_put_away(struct cli_run *run, const char *path, struct err_list *errs);

#endif
