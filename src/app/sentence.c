#include "app/sentence.h"

#include "base/text.h"

#include <string.h>

static const char *arg_text(struct arena *a, const struct err_arg *arg, enum units_length unit)
{
    char length[UNITS_TEXT];
    switch (arg->type) {
    case ERR_ARG_NONE:
        return "";
    case ERR_ARG_TEXT:
        return arg->text ? arg->text : "";
    case ERR_ARG_NUMBER:
        return base_arena_print(a, "%.10g", arg->number);
    case ERR_ARG_MM:
        return base_arena_copy_text(a, units_print_length(length, arg->number, unit));
    case ERR_ARG_TAPE_MM:
        return base_arena_copy_text(a, units_print_length(length, units_to_sixteenth(arg->number, unit), unit));
    case ERR_ARG_OFF_MM:
        return base_arena_copy_text(a, units_print_length(length, arg->number, UNITS_MM));
    }
    return "";
}

static bool is_placeholder(const char *p)
{
    return p[0] == '{' && p[1] >= '0' && p[1] < '0' + ERR_ARGS && p[2] == '}';
}

/* The kind's sentence with {0} to {3} filled in. */
static const char *filled(struct arena *a, const struct err *e, enum units_length unit)
{
    const char *out = "", *rest = base_tr(e->kind->sentence);
    for (const char *p = rest; *p; p++) {
        if (!is_placeholder(p))
            continue;
        out = base_arena_print(a, "%s%.*s%s", out, (int)(p - rest), rest, arg_text(a, &e->args[p[1] - '0'], unit));
        rest = p + 3;
        p += 2;
    }
    return base_arena_print(a, "%s%s", out, rest);
}

static const char *place_text(struct arena *a, const char *file, const struct err_place *place)
{
    const char *out = "";
    if (file)
        out = place->line ? base_arena_print(a, "%s:%d: ", file, place->line) : base_arena_print(a, "%s: ", file);
    if (place->path && *place->path)
        out = base_arena_print(a, "%s%s: ", out, place->path);
    return out;
}

const char *app_sentence(struct arena *a, const struct err *e, enum units_length unit)
{
    return base_text_plain(a, base_arena_print(a, "%s%s", place_text(a, e->place.file, &e->place), filled(a, e, unit)));
}

const char *app_sentence_short(struct arena *a, const struct err *e, enum units_length unit)
{
    const char *slash = e->place.file ? strrchr(e->place.file, '/') : NULL, *name = slash ? slash + 1 : e->place.file;
    const char *place = place_text(a, name, &e->place), *sentence = base_text_plain(a, filled(a, e, unit));
    return *place ? base_text_plain(a, base_arena_print(a, "%s%s", place, sentence)) : base_text_capital(a, sentence);
}

void app_sentence_json(struct json_out *list, struct arena *a, const struct err *e, enum units_length unit)
{
    struct json_out *object = json_out_object(list, NULL);
    json_out_text(object, "code", e->kind->code);
    json_out_text(object, "severity", e->kind->severity == ERR_FAULT ? "fault" : "warning");
    if (e->place.file)
        json_out_text(object, "file", base_text_plain(a, e->place.file));
    if (e->place.path)
        json_out_text(object, "path", e->place.path);
    if (e->place.line)
        json_out_number(object, "line", e->place.line);
    json_out_text(object, "sentence", base_text_plain(a, filled(a, e, unit)));
}
