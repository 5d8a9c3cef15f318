/* A cloth as a file of its own or as a part of a job: the fields are in DEVELOPERS.md. */
#include "cloth/kinds.h"

#include "values/length.h"
#include "json/want.h"

#include <stdlib.h>
#include <string.h>

#define LEAST_WIDTH_MM 1.0
#define MOST_WIDTH_MM 10000.0
#define MOST_THICKNESS_MM 50.0
#define MOST_GAP_MM 100.0
#define MOST_TRIM_MM 50.0
#define MOST_SHRINKAGE 50.0 /* percent */
#define MOST_TOLERANCE_DEG 45.0
#define LEAST_AREA_MM2 1.0

enum { MOST_POINTS = 500, MOST_FAULTS = 200 };

static const struct err_kind no_word = { "cloth.no_word", ERR_FAULT, BASE_TR("“{0}” is none of {1}") };
static const struct err_kind no_percent = {
    "cloth.no_percent", ERR_FAULT, BASE_TR("shrinkage is told in percent from 0 to {1} (5 is 5 %), and this is {0}")
};
static const struct err_kind no_tolerance = {
    "cloth.no_tolerance", ERR_FAULT, BASE_TR("a turn off the grain is told in degrees from 0 to {1}, and this is {0}")
};
static const struct err_kind no_colour = {
    "cloth.no_colour", ERR_FAULT, BASE_TR("“{0}” is no colour: write six hexadecimal digits such as \"#1B2730\"")
};
static const struct err_kind no_place = {
    "cloth.no_place", ERR_FAULT, BASE_TR("needs a place on the cloth: a list of two lengths, along it and across it")
};
static const struct err_kind no_outline = { "cloth.no_outline", ERR_FAULT,
                                            BASE_TR("needs an outline: a list of 3 to {0} places, and this has {1}") };
static const struct err_kind crosses_itself = {
    "cloth.crosses_itself", ERR_FAULT,
    BASE_TR("this outline crosses or touches itself near {0} along and {1} across: "
            "give its places in the order in which they lie around it")
};
static const struct err_kind flat_outline = { "cloth.flat_outline", ERR_FAULT,
                                              BASE_TR("this outline has no area: its places lie on one line") };
static const struct err_kind many_faults = { "cloth.many_faults", ERR_FAULT,
                                             BASE_TR("at most {0} faults can be marked, and there are {1}") };

static const struct err_kind idle_field = { "cloth.not_looked_at", ERR_WARNING,
                                            BASE_TR("“{0}” is not looked at: {1}") };
static const struct err_kind grown = {
    "cloth.grown", ERR_WARNING,
    BASE_TR("{0} wide before washing and {1} after it: cloth does not grow in the wash; measure both again")
};

struct reader {
    struct arena *a;
    enum units_length unit;
    struct err_list *errs;
};

static const char *word_list(struct arena *a, const char *const *words, int count)
{
    const char *list = "";
    for (int i = 0; i < count; i++)
        list = base_arena_print(a, "%s%s\"%s\"", list, i ? ", " : "", words[i]);
    return list;
}

/* The number of the word in its list; 0 where none stands there. */
static int word(const struct reader *r, const struct json_node *object, const char *name, const char *const *words,
                int count)
{
    const struct json_node *node = json_maybe(object, name, JSON_TEXT, r->errs);
    for (int i = 0; node && i < count; i++)
        if (strcmp(node->text, words[i]) == 0)
            return i;
    if (node)
        json_fault(r->errs, node, &no_word, ERR_TEXT(json_shown(r->errs->arena, node->text)),
                   ERR_TEXT(word_list(r->errs->arena, words, count)));
    return 0;
}

static bool flag(const struct reader *r, const struct json_node *object, const char *name)
{
    const struct json_node *node = json_find(object, name);
    if (!node || node->type == JSON_TRUE || node->type == JSON_FALSE)
        return node && node->type == JSON_TRUE;
    return json_is(node, JSON_TRUE, r->errs);
}

/* A length that may be left out: *out stays as it is. */
static void length(const struct reader *r, const struct json_node *object, const char *name, double least, double most,
                   double *out)
{
    if (json_find(object, name))
        values_need_length(object, name, r->unit, least, most, out, r->errs);
}

/* A number that may be left out (0). */
static double number(const struct reader *r, const struct json_node *object, const char *name, double most,
                     const struct err_kind *fault)
{
    const struct json_node *node = json_maybe(object, name, JSON_NUMBER, r->errs);
    if (!node)
        return 0;
    if (node->number >= 0 && node->number <= most)
        return node->number;
    json_fault(r->errs, node, fault, ERR_NUMBER(node->number), ERR_NUMBER(most));
    return 0;
}

static void read_shrinkage(const struct reader *r, const struct json_node *object, struct cloth *out)
{
    const struct json_node *shrinkage = json_maybe(object, "shrinkage", JSON_OBJECT, r->errs);
    if (!shrinkage)
        return;
    json_only(shrinkage, (const char *const[]){ "along", "across", NULL }, r->errs);
    out->shrink_warp = number(r, shrinkage, "along", MOST_SHRINKAGE, &no_percent) / 100;
    out->shrink_weft = number(r, shrinkage, "across", MOST_SHRINKAGE, &no_percent) / 100;
}

static void read_repeat(const struct reader *r, const struct json_node *object, struct cloth_repeat *out)
{
    const struct json_node *repeat = json_maybe(object, "repeat", JSON_OBJECT, r->errs);
    if (!repeat)
        return;
    json_only(repeat, (const char *const[]){ "along", "across", "line_along", "line_across", "uneven", NULL }, r->errs);
    length(r, repeat, "along", 0, MOST_WIDTH_MM, &out->along_mm);
    length(r, repeat, "across", 0, MOST_WIDTH_MM, &out->across_mm);
    length(r, repeat, "line_along", 0, UNITS_FARTHEST_MM, &out->line_along_mm);
    length(r, repeat, "line_across", 0, MOST_WIDTH_MM, &out->line_across_mm);
    out->uneven = flag(r, repeat, "uneven");
}

static bool read_point(const struct reader *r, const struct json_node *node, vec2 *out)
{
    if (node->type == JSON_LIST && node->count == 2)
        return values_length(node->first, r->unit, &out->x, r->errs) &&
               values_length(node->first->next, r->unit, &out->y, r->errs);
    json_fault(r->errs, node, &no_place, ERR_NONE);
    return false;
}

/* Checks what the points come to, and turns them counter-clockwise. */
static void sound_outline(const struct reader *r, const struct json_node *list, struct geometry_path path)
{
    vec2 where;
    if (geometry_path_crosses_itself(path, &where))
        json_fault(r->errs, list, &crosses_itself, ERR_MM(where.x), ERR_MM(where.y));
    else if (fabs(geometry_path_area(path)) < LEAST_AREA_MM2)
        json_fault(r->errs, list, &flat_outline, ERR_NONE);
    else if (geometry_path_area(path) < 0)
        geometry_path_reverse(path);
}

static struct cloth_path read_outline(const struct reader *r, const struct json_node *list)
{
    struct geometry_path path = { NULL, 0, true };
    if (!json_is(list, JSON_LIST, r->errs))
        return (struct cloth_path){ path };
    if (list->count < 3 || list->count > MOST_POINTS) {
        json_fault(r->errs, list, &no_outline, ERR_NUMBER(MOST_POINTS), ERR_NUMBER(list->count));
        return (struct cloth_path){ path };
    }
    path.points = base_arena_alloc(r->a, list->count, sizeof *path.points);
    bool ok = true;
    for (const struct json_node *node = list->first; node; node = node->next)
        ok = read_point(r, node, &path.points[path.count++]) && ok;
    if (ok)
        sound_outline(r, list, path);
    return (struct cloth_path){ path };
}

static void read_faults(const struct reader *r, const struct json_node *object, struct cloth *out)
{
    const struct json_node *list = json_maybe(object, "faults", JSON_LIST, r->errs);
    if (!list)
        return;
    if (list->count > MOST_FAULTS) {
        json_fault(r->errs, list, &many_faults, ERR_NUMBER(MOST_FAULTS), ERR_NUMBER(list->count));
        return;
    }
    struct cloth_path *faults = base_arena_alloc(r->a, list->count, sizeof *faults);
    for (const struct json_node *node = list->first; node; node = node->next)
        faults[out->fault_count++] = read_outline(r, node);
    out->faults = faults;
}

static const char *read_colour(const struct reader *r, const struct json_node *object)
{
    const struct json_node *node = json_maybe(object, "colour", JSON_TEXT, r->errs);
    if (!node)
        return NULL;
    if (node->text[0] == '#' && strlen(node->text) == 7 && strspn(node->text + 1, "0123456789abcdefABCDEF") == 6)
        return base_arena_copy_text(r->a, node->text);
    json_fault(r->errs, node, &no_colour, ERR_TEXT(json_shown(r->errs->arena, node->text)));
    return NULL;
}

uint32_t cloth_rgb(const char *colour, uint32_t untold)
{
    return colour ? (uint32_t)strtoul(colour + 1, NULL, 16) : untold;
}

/* What it measures. A scrap is as wide as its outline. That, a hide, and a fusible, which is sold by the width that its
 * resin covers (common practice, no source), have no selvedge unless it is said. */
static void read_measures(const struct reader *r, const struct json_node *object, struct cloth *out)
{
    const struct json_node *outline = json_find(object, "outline");
    bool has_selvedge = !outline && out->kind != CLOTH_HIDE && out->kind != CLOTH_FUSIBLE;
    out->is_selvedge_told = json_find(object, "selvedge") != NULL;
    out->selvedge_mm = has_selvedge ? cloth_plain(0).selvedge_mm : 0;
    if (outline)
        out->outline = read_outline(r, outline);
    if (!outline || json_find(object, "width"))
        values_need_length(object, "width", r->unit, LEAST_WIDTH_MM, MOST_WIDTH_MM, &out->width_mm, r->errs);
    read_shrinkage(r, object, out);
    length(r, object, "washed_width", LEAST_WIDTH_MM, MOST_WIDTH_MM, &out->washed_width_mm);
    length(r, object, "selvedge", 0, MOST_WIDTH_MM, &out->selvedge_mm);
    length(r, object, "length", LEAST_WIDTH_MM, UNITS_FARTHEST_MM, &out->length_mm);
    length(r, object, "thickness", 0, MOST_THICKNESS_MM, &out->thickness_mm);
    read_repeat(r, object, &out->repeat);
    read_faults(r, object, out);
}

/* How it is to be laid and cut. */
static void read_use(const struct reader *r, const struct json_node *object, struct cloth *out)
{
    out->spread = (enum cloth_spread_kind)word(r, object, "spread", cloth_spread_words, CLOTH_SPREADS);
    length(r, object, "fold_depth", 0, MOST_WIDTH_MM, &out->fold_depth_mm);
    length(r, object, "gap", 0, MOST_GAP_MM, &out->gap_mm);
    length(r, object, "trim", 0, MOST_TRIM_MM, &out->trim_mm);
    out->grain_tolerance_deg = number(r, object, "grain_tolerance", MOST_TOLERANCE_DEG, &no_tolerance);
    length(r, object, "fuse_block", LEAST_WIDTH_MM, MOST_WIDTH_MM, &out->block_mm);
}

static bool fields_from(const struct reader *r, const struct json_node *object, struct cloth *out)
{
    int before = r->errs->faults;
    *out = (struct cloth){ .unit = r->unit };
    if (json_find(object, "name")) {
        const char *name = json_need_text(object, "name", r->errs);
        out->name = name ? base_arena_copy_text(r->a, name) : NULL;
    }
    out->kind = (enum cloth_kind)word(r, object, "kind", cloth_kind_words, CLOTH_KINDS);
    out->is_kind_told = json_find(object, "kind") != NULL;
    out->colour = read_colour(r, object);
    out->is_washed = flag(r, object, "washed");
    out->sides_alike = flag(r, object, "sides_alike");
    out->wrong_side_up = flag(r, object, "wrong_side_up");
    out->one_way = flag(r, object, "one_way");
    read_measures(r, object, out);
    read_use(r, object, out);
    return r->errs->faults == before;
}

static bool is_scrap(const struct cloth *cloth)
{
    return cloth->outline.path.count > 0;
}

static bool is_washed(const struct cloth *cloth)
{
    return cloth->is_washed;
}

static bool has_no_depth(const struct cloth *cloth)
{
    return cloth->spread != CLOTH_FOLDED_TO;
}

/* Fields that another one makes idle: one of the two is a slip. */
static const struct {
    const char *field;
    bool (*is_idle)(const struct cloth *cloth);
    const char *because;
} idle_rows[] = {
    { "width", is_scrap, BASE_TR("a scrap is as wide as its outline") },
    { "length", is_scrap, BASE_TR("a scrap is as long as its outline") },
    { "washed_width", is_scrap, BASE_TR("a scrap is as wide as its outline") },
    { "washed_width", is_washed, BASE_TR("with \"washed\": true “width” was measured after washing") },
    { "shrinkage", is_washed, BASE_TR("with \"washed\": true nothing shrinks any more") },
    { "fold_depth", has_no_depth, BASE_TR("only cloth that is spread \"folded to a depth\" has one") },
};

/* What is told in a cloth's own file, though it can be laid on: slips, most likely. */
static void tell_slips(const struct reader *r, const struct json_node *object, const struct cloth *cloth)
{
    for (size_t i = 0; i < sizeof idle_rows / sizeof idle_rows[0]; i++)
        if (json_find(object, idle_rows[i].field) && idle_rows[i].is_idle(cloth))
            json_fault(r->errs, json_find(object, idle_rows[i].field), &idle_field, ERR_TEXT(idle_rows[i].field),
                       ERR_TEXT(base_tr(idle_rows[i].because)));
    if (!cloth->is_washed && !is_scrap(cloth) && cloth->washed_width_mm > cloth->width_mm)
        json_fault(r->errs, json_find(object, "washed_width"), &grown, ERR_MM(cloth->width_mm),
                   ERR_MM(cloth->washed_width_mm));
}

#define FIELDS                                                                                                         \
    "name", "unit", "kind", "width", "shrinkage", "washed_width", "selvedge", "length", "washed", "sides_alike",       \
        "wrong_side_up", "one_way", "repeat", "thickness", "colour", "spread", "fold_depth", "gap", "grain_tolerance", \
        "trim", "fuse_block", "outline", "faults", NULL

bool cloth_from(struct arena *a, const struct json_node *object, enum units_length unit, struct cloth *out,
                struct err_list *errs)
{
    int before = errs->faults;
    struct reader r = { a, unit, errs };
    *out = (struct cloth){ 0 };
    if (!json_is(object, JSON_OBJECT, errs))
        return false;
    json_only(object, (const char *const[]){ FIELDS }, errs);
    if (json_find(object, "unit"))
        values_unit(object, &r.unit, errs);
    fields_from(&r, object, out);
    return errs->faults == before;
}

bool cloth_read(struct arena *a, const char *path, struct cloth *out, struct err_list *errs)
{
    int before = errs->faults;
    struct reader r = { a, UNITS_MM, errs };
    *out = (struct cloth){ 0 };
    const struct json_node *file = json_open_ours(a, path, "cloth", CLOTH_VERSION, errs);
    if (!file)
        return false;
    json_only(file, (const char *const[]){ "chalklight", "version", FIELDS }, errs);
    values_unit(file, &r.unit, errs);
    if (fields_from(&r, file, out))
        tell_slips(&r, file, out);
    return errs->faults == before;
}
