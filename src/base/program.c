#include "base/program.h"

#include <unistd.h>

enum { LONGEST_PATH = 4096 };

const char *base_program_path(struct arena *a, const char *from_there)
{
    char program[LONGEST_PATH];
    ssize_t length = readlink("/proc/self/exe", program, sizeof program);
    if (length <= 0 || length == (ssize_t)sizeof program)
        return NULL;
    while (length > 0 && program[length - 1] != '/')
        length--;
    return base_arena_print(a, "%.*s%s", (int)length, program, from_there);
}
