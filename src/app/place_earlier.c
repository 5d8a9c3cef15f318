/* Layouts that were arranged anew after something of them was cut: which one a line of the memory is of, and what was
 * cut and chalked by it. Items are counted as the material has them; where a cut one lies is told by a number that
 * another place would hardly give, so that what was cut elsewhere is not taken for it. */
#include "app/place_state.h"
#include "base/buffer.h"
#include "base/digest.h"
#include "base/text.h"
#include "job/cloth.h"
#include "json/tree.h"
#include "json/write.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { MOST_CLOTHS = 1000, MOST_CHALK = 400, DIGEST = 16 + 1 };

/* --- which layout it is --------------------------------------------------------------------------------------------
 */

static void digest_of(char out[DIGEST], const char *text)
{
    snprintf(out, DIGEST, "%016" PRIx64, base_digest_text(text));
}

/* Of a cloth of the job, or of what which of its strips left. */
static void of_cloth(const struct app *app, const struct app_place_cloth *c, char out[DIGEST])
{
    struct arena *a = base_arena_create();
    const struct job_cloth *from = job_find_cloth(app->job, c->lay->task->material);
    const char *cloth = from ? job_print_cloth(a, from) : "";
    digest_of(out, base_arena_print(a, "%s%s", cloth, c->rest ? app_place_name(a, c) : ""));
    base_arena_destroy(a);
}

/* Where pieces lie: all that are laid or, with `cut`, those of them that are begun. */
static void of_places(const struct app_place_cloth *c, const double *cut_to_mm, char out[DIGEST])
{
    struct arena *a = base_arena_create();
    struct base_buffer text = { .a = a };
    for (size_t i = 0; i < c->lay->task->item_count; i++) {
        const struct lay_place *p = &c->lay->places[i];
        if (p->is_laid && (!cut_to_mm || cut_to_mm[i] > -INFINITY))
            base_buffer_print(&text, "%zu %s %d %.17g %.17g %.17g;", i, c->lay->task->items[i].piece->name,
                              p->motion.mirror, p->motion.turn_deg, p->motion.shift.x, p->motion.shift.y);
    }
    digest_of(out, base_buffer_text(&text));
    base_arena_destroy(a);
}

static bool is_text(const struct json_node *node, const char *text)
{
    return node && node->type == JSON_TEXT && strcmp(node->text, text) == 0;
}

static bool is_of_cloth(const struct app *app, size_t index, const struct json_node *of)
{
    char digest[DIGEST];
    of_cloth(app, &app->place->cloths[index], digest);
    return is_text(of, digest);
}

static bool index_of(const struct json_node *node, size_t *index)
{
    return app_place_whole_below(json_find(node, "cloth"), MOST_CLOTHS, index);
}

/* The one that is where it was, before any other like it. */
enum app_place_of app_place_find_told(const struct app *app, const struct json_node *node, size_t *index)
{
    const struct json_node *of = json_find(node, "of");
    size_t count = app->place->count;
    char digest[DIGEST];
    if (!index_of(node, index))
        return APP_PLACE_OF_NONE;
    if (!of) /* from before layouts could be arranged anew */
        return *index < count ? APP_PLACE_OF_THIS : APP_PLACE_OF_NONE;
    if (*index >= count || !is_of_cloth(app, *index, of))
        for (*index = 0; *index < count && !is_of_cloth(app, *index, of);)
            ++*index;
    if (*index == count)
        return APP_PLACE_OF_NONE;
    of_places(&app->place->cloths[*index], NULL, digest);
    return is_text(json_find(node, "lies"), digest) ? APP_PLACE_OF_THIS : APP_PLACE_OF_EARLIER;
}

bool app_place_is_uncut(const struct json_node *node)
{
    const struct json_node *cut = json_find(json_find(node, "cut"), "items");
    size_t index;
    return index_of(node, &index) && cut && cut->type == JSON_LIST && cut->count == 0;
}

/* --- writing -------------------------------------------------------------------------------------------------------
 */

static void write_chalk(struct json_out *to, const struct app_chalk *chalk, int count)
{
    struct json_out *names = json_out_list(to, "names"), *places = json_out_list(to, "chalk");
    for (int i = 0; i < count; i++) {
        struct json_out *at = json_out_list(places, NULL);
        json_out_text(names, NULL, chalk[i].name);
        json_out_number(at, NULL, chalk[i].at.x);
        json_out_number(at, NULL, chalk[i].at.y);
    }
}

/* Each item with the line that it is cut as far as, where it is not cut wholly. */
static void write_cut(struct json_out *to, const struct app_place_cloth *c, const double *cut_to_mm,
                      const bool *by_lamp, const struct app_chalk *chalk, int chalk_count)
{
    char lie[DIGEST];
    struct json_out *items = json_out_list(to, "items"), *lamp = json_out_list(to, "lamp");
    for (size_t i = 0; i < c->lay->task->item_count; i++) {
        if (by_lamp[i])
            json_out_number(lamp, NULL, (double)i);
        if (cut_to_mm[i] == -INFINITY)
            continue;
        struct json_out *one = json_out_list(items, NULL);
        json_out_number(one, NULL, (double)i);
        if (cut_to_mm[i] < INFINITY)
            json_out_number(one, NULL, cut_to_mm[i]);
    }
    of_places(c, cut_to_mm, lie);
    json_out_text(to, "lie", lie);
    write_chalk(to, chalk, chalk_count);
}

void app_place_write_earlier(const struct app *app, const struct app_place_cloth *c, struct json_out *to)
{
    struct arena *a = base_arena_create();
    double *cut_to = base_arena_alloc(a, c->lay->task->item_count, sizeof *cut_to);
    const struct app_chalk *chalk;
    char digest[DIGEST];
    of_cloth(app, c, digest);
    json_out_text(to, "of", digest);
    of_places(c, NULL, digest);
    json_out_text(to, "lies", digest);
    bool *lamp = base_arena_alloc(a, c->lay->task->item_count, sizeof *lamp);
    for (size_t i = 0; i < c->lay->task->item_count; i++) {
        cut_to[i] = app_place_cut_to(c, i);
        lamp[i] = c->chalks_all && app_place_is_cut(c, i);
    }
    int count = app_place_all_chalk(a, c, &chalk);
    write_cut(json_out_object(to, "cut"), c, cut_to, lamp, chalk, count);
    if (c->earlier)
        write_cut(json_out_object(to, "earlier"), c, c->earlier->cut_to_mm, c->earlier->lamp, c->earlier->chalk,
                  c->earlier->chalk_count);
    base_arena_destroy(a);
}

/* --- reading -------------------------------------------------------------------------------------------------------
 */

static bool read_items(const struct json_node *list, size_t item_count, double *cut_to_mm)
{
    for (size_t i = 0; i < item_count; i++)
        cut_to_mm[i] = -INFINITY;
    if (!list || list->type != JSON_LIST)
        return false;
    for (const struct json_node *n = list->first; n; n = n->next) {
        double row[2] = { 0, INFINITY };
        size_t item;
        if (n->type != JSON_LIST || n->count < 1 || n->count > 2 || !app_place_numbers_of(n, n->count, row) ||
            !app_place_whole_below(n->first, (double)item_count, &item))
            return false;
        cut_to_mm[item] = row[1];
    }
    return true;
}

static bool read_lamp(const struct json_node *list, size_t item_count, bool *lamp)
{
    for (const struct json_node *n = list && list->type == JSON_LIST ? list->first : NULL; n; n = n->next) {
        size_t item;
        if (!app_place_whole_below(n, (double)item_count, &item))
            return false;
        lamp[item] = true;
    }
    return list && list->type == JSON_LIST;
}

static bool read_chalk(struct arena *a, const struct json_node *node, struct app_earlier *out)
{
    const struct json_node *names = json_find(node, "names"), *places = json_find(node, "chalk");
    if (!names || !places || names->type != JSON_LIST || places->type != JSON_LIST || names->count != places->count ||
        names->count > MOST_CHALK)
        return false;
    struct app_chalk *chalk = base_arena_alloc(a, names->count, sizeof *chalk);
    const struct json_node *name = names->first;
    for (const struct json_node *n = places->first; n; n = n->next, name = name->next) {
        double at[2] = { 0 };
        if (name->type != JSON_TEXT || !*name->text || !app_place_numbers_of(n, 2, at))
            return false;
        chalk[out->chalk_count++] = (struct app_chalk){ base_arena_copy_text(a, name->text), { at[0], at[1] }, true };
    }
    out->chalk = chalk;
    return true;
}

/* False where it was cut elsewhere than pieces lie now. Nothing cut is nothing: *out is NULL then. */
static bool read_cut(struct app *app, const struct app_place_cloth *c, const struct json_node *node,
                     const struct app_earlier **out)
{
    size_t count = c->lay->task->item_count;
    struct app_earlier *earlier = base_arena_alloc(app->a, 1, sizeof *earlier);
    double *cut_to = base_arena_alloc(app->a, count, sizeof *cut_to);
    const struct json_node *items = json_find(node, "items");
    char lie[DIGEST];
    *out = NULL;
    bool *lamp = base_arena_alloc(app->a, count, sizeof *lamp);
    if (!read_items(items, count, cut_to) || !read_lamp(json_find(node, "lamp"), count, lamp) ||
        !read_chalk(app->a, node, earlier))
        return false;
    if (!items->count)
        return true;
    for (size_t i = 0; i < count; i++)
        if (cut_to[i] > -INFINITY && !c->lay->places[i].is_laid)
            return false;
    of_places(c, cut_to, lie);
    earlier->cut_to_mm = cut_to;
    earlier->lamp = lamp;
    *out = earlier;
    return is_text(json_find(node, "lie"), lie);
}

bool app_place_read_earlier(struct app *app, const struct app_place_cloth *c, const struct json_node *node,
                            const struct app_earlier **out)
{
    const struct json_node *earlier = json_find(node, "earlier");
    *out = NULL;
    return !earlier || read_cut(app, c, earlier, out);
}

bool app_place_read_cut(struct app *app, const struct app_place_cloth *c, const struct json_node *node,
                        const struct app_earlier **out)
{
    return read_cut(app, c, json_find(node, "cut"), out);
}
