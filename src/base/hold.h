/* A folder held against other programs while a file in it is read, changed and saved: each sees what the one before
 * has saved. Only those that ask are kept waiting. */
#ifndef BASE_HOLD_H
#define BASE_HOLD_H

/* Holds the folder of a file, waiting up to wait_ms for whoever has it. What is returned goes to base_hold_end; -1
 * where it cannot be held (some network drives, a program that does not let go): then there is nothing but to go on. */
int base_hold_folder(const char *path, int wait_ms);

/* Lets go; -1 is allowed. */
void base_hold_end(int hold);

#endif
