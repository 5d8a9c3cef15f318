/* The line each value of a JSON text begins on, in the order of the text. cJSON's nodes do not keep it. */
#ifndef JSON_LINES_H
#define JSON_LINES_H

#include "base/arena.h"

#include <stddef.h>

struct json_lines {
    int *line; /* one entry a value (not a key), in the order they begin in the text */
    size_t count;
    int deepest;   /* deepest nesting met, 1 for a single list or object */
    int deep_line; /* line where nesting first passed JSON_DEEPEST; 0: nowhere */
    int zero_line; /* line of the first escaped zero character (\u0000); 0: none */
};

/* Walks over text that need not be well formed: it only promises right lines for text that is. Never reads past `count`. */
struct json_lines json_find_lines(struct arena *a, const char *bytes, size_t count);

#endif
