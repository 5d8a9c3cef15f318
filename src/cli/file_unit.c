/* The unit that a fault of a file is told in: the file's own, as that is what stands there. */
#include "cli/run.h"
#include "json/tree.h"

#include <string.h>

static bool named_unit(const struct json_node *top, enum units_length *out)
{
    const struct json_node *unit = json_find(top, "unit");
    return unit && unit->type == JSON_TEXT && units_from_name(unit->text, out);
}

/* Of a job, which has none, the unit of the pattern it holds. */
static bool unit_of_copy(struct arena *a, const struct json_node *top, struct err_list *ignored, enum units_length *out)
{
    const struct json_node *copy = json_find(json_find(top, "pattern"), "copy");
    return copy && copy->type == JSON_TEXT &&
           named_unit(json_parse(a, "copy", copy->text, strlen(copy->text), ignored), out);
}

enum units_length cli_file_unit(const struct cli_run *run, const char *path)
{
    struct arena *scratch = base_arena_create();
    struct err_list *ignored = base_err_list_create();
    const struct json_node *top = json_read_file(scratch, path, ignored);
    enum units_length unit = run->unit;
    if (!named_unit(top, &unit))
        unit_of_copy(scratch, top, ignored, &unit);
    base_err_list_destroy(ignored);
    base_arena_destroy(scratch);
    return unit;
}
