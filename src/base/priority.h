/* How soon a thread is let to work beside others. */
#ifndef BASE_PRIORITY_H
#define BASE_PRIORITY_H

/* The calling thread works only with what others leave over, for good. Where the system refuses, nothing changes. */
void base_lower_priority(void);

#endif
