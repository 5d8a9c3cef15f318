/* The walk over a JSON text before any tree is made of it: whether the text keeps to RFC 8259 to the letter, and the
 * line each value begins on. cJSON answers neither: it reads 01 and 1., raw control characters, broken UTF-8 and half a
 * surrogate pair, and its nodes do not keep their line. The walk does not recurse and never reads past `count`. */
#ifndef JSON_LINES_H
#define JSON_LINES_H

#include "base/arena.h"

#include <stddef.h>

enum json_flaw {
    JSON_SOUND,
    JSON_EMPTY,       /* nothing but space */
    JSON_BREAKS_OFF,  /* ends inside a value */
    JSON_NOT_UTF8,    /* RFC 3629 */
    JSON_NO_VALUE,    /* something else where a value has to begin */
    JSON_NO_NAME,     /* something else where a member's name has to begin */
    JSON_NO_COLON,    /* after a name */
    JSON_NO_COMMA,    /* after a member */
    JSON_SPARE_COMMA, /* before a closing bracket */
    JSON_WRONG_CLOSE, /* ] for { or } for [ */
    JSON_MORE_AFTER,  /* text after the value */
    JSON_NUMBER_FORM, /* 01, +1, .5, 1., 1e */
    JSON_NUMBER_LONG, /* more than JSON_NUMBER_CHARS */
    JSON_LINE_BREAK,  /* in a text */
    JSON_CONTROL,     /* another control character in a text */
    JSON_ESCAPE,      /* a backslash before something else than RFC 8259 lists, or half a surrogate pair */
    JSON_ZERO,        /* \u0000: C texts end there */
    JSON_TOO_DEEP,    /* more than JSON_DEEPEST */
    JSON_TOO_MANY,    /* more than JSON_MOST_VALUES */
    JSON_FLAWS
};

enum {
    JSON_DEEPEST = 64,
    JSON_MOST_VALUES = 1000 * 1000, /* bounds the tree's memory to some 200 MB */
    JSON_NUMBER_CHARS = 63          /* what cJSON reads of a number */
};

struct json_lines {
    int *line; /* one entry a value (not a name), in the order they begin in the text */
    size_t count;
    enum json_flaw flaw; /* the first one; the walk ends there */
    int flaw_line;       /* from 1 */
    size_t flaw_at;      /* offset of the first byte that does not fit; `count` of the bytes when they break off */
};

/* The lines live in `a`. A byte order mark before the value is passed over. */
struct json_lines json_find_lines(struct arena *a, const char *bytes, size_t count);

/* How many bytes the byte order mark at the start takes: 3 or 0. */
size_t json_mark_bytes(const char *bytes, size_t count);

#endif
