/* The program in its window on an X server, as a person has it before her: keys go in, and what the server says of the
 * window's picture comes out. */
#ifndef TESTS_BENCH_AT_WINDOW_H
#define TESTS_BENCH_AT_WINDOW_H

#include <stdbool.h>

struct at_window;

/* Makes a job of a pattern whose pieces have at least that many segments of cutting line, starts `program` on it, and
 * waits until all pieces are shown. NULL, with the reason on the standard error, when that fails. */
struct at_window *at_window_start(const char *program, int segments);

/* Starts `program` alone, in a home of its own: its bench, with nothing open. *first_frame_ms: from its start until the
 * window shows a picture of it. */
struct at_window *at_window_start_bench(const char *program, double *first_frame_ms);

/* Ends the program. */
void at_window_end(struct at_window *w);

/* Presses and lets go of a key (an X keysym) and waits until the window's picture was put anew; ms from the press to
 * the server's word of it. Below 0 when it does not come. */
double at_window_press(struct at_window *w, unsigned long keysym);

/* The same of a key that opens another window over the one before: that one is watched from then on. */
double at_window_press_over(struct at_window *w, unsigned long keysym);

/* Processor time of the program so far, all threads, in s; below 0 when it is not there. */
double at_window_cpu_s(const struct at_window *w);

/* The same of its threads of low priority that are there now. */
double at_window_low_cpu_s(const struct at_window *w);

#endif
