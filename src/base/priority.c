#include "base/priority.h"

#include <sys/resource.h>

/* The highest of setpriority(2): the least share. Of Linux' idle class a busy machine leaves next to nothing. */
enum { LOWEST = 19 };

/* On Linux a priority is a thread's, not its process's, and 0 is the calling one (setpriority(2), "C library/kernel
 * differences"). */
void base_lower_priority(void)
{
    setpriority(PRIO_PROCESS, 0, LOWEST);
}
