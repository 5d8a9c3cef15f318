/* The jail: from then on the process may use its memory, the clock and the descriptors it holds, and leave. */
#ifndef SHEET_READER_JAIL_H
#define SHEET_READER_JAIL_H

enum { JAIL_NO_FILTER = 1, JAIL_NO_FILE_RULES = 2 };
enum { JAIL_MEMORY_MIB = 512, JAIL_PROCESSOR_S = 10 };

/* Gives up all other rights, for good. Returns which of its walls this system could not put up, 0 when all stand:
 * limits of memory, processor time and files; no more privileges; no file by name (Landlock); no system call but those
 * few (seccomp), where any other one ends the process. */
unsigned jail_enter(void);

#endif
