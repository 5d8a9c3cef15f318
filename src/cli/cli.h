/* The command line: commands, their options, exit codes. */
#ifndef CLI_CLI_H
#define CLI_CLI_H

enum { CLI_OK = 0, CLI_FAULT = 1, CLI_WRONG_USE = 2 };

/* Runs one command; the process's exit code. Results go to standard output, sentences about faults to standard error.
 */
int cli_main(int argc, char **argv);

#endif
