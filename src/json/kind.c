#include "json/kind.h"

#include "base/err_list.h"
#include "base/file.h"
#include "json/tree.h"

#include <string.h>
#include <unistd.h>

enum { HEAD = 1024 };

static const char *skip_blanks(const char *at)
{
    return at + strspn(at, " \t\r\n");
}

/* The text after a name, a colon and a quote, up to the next quote. */
static const char *kind_in(struct arena *a, const char *head)
{
    static const char name[] = "\"chalklight\"";
    const char *at = strstr(head, name);
    if (!at)
        return NULL;
    at = skip_blanks(at + sizeof name - 1);
    if (*at != ':')
        return NULL;
    at = skip_blanks(at + 1);
    const char *end = *at == '"' ? strchr(at + 1, '"') : NULL;
    return end ? base_arena_copy_bytes(a, at + 1, (size_t)(end - at - 1)) : NULL;
}

const char *json_kind(struct arena *a, const char *path)
{
    char head[HEAD + 1];
    struct err_list *ignored = base_err_list_create();
    int file = base_file_open(path, JSON_MOST_BYTES, ignored);
    base_err_list_destroy(ignored);
    if (file < 0)
        return NULL;
    ssize_t count = read(file, head, HEAD);
    close(file);
    head[count > 0 ? count : 0] = 0;
    return kind_in(a, head);
}
