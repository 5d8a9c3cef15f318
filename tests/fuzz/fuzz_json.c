/* Any bytes as a JSON file: either a tree with lines and paths that make sense, whose print is read back as the same
 * tree, or no tree and a reason with a line of the file. */
#include "fuzz/fuzz.h"
#include "json/lines.h"
#include "json/tree.h"
#include "json/want.h"
#include "json/write.h"

#include <math.h>
#include <string.h>

static int lines_in(const uint8_t *data, size_t size)
{
    int lines = 1;
    for (size_t i = 0; i < size; i++)
        lines += data[i] == '\n';
    return lines;
}

static void check_reasons(const struct err_list *errs, int lines)
{
    fuzz_must(errs->faults > 0);
    for (int i = 0; i < errs->count; i++) {
        fuzz_must(errs->items[i].place.line >= 1 && errs->items[i].place.line <= lines);
        fuzz_must(strcmp(errs->items[i].kind->code, "json.no_memory") != 0);
    }
}

static void check_node(struct arena *a, const struct json_node *node, int least_line, int lines, int depth)
{
    fuzz_must(node->line >= least_line && node->line <= lines);
    fuzz_must(depth <= JSON_DEEPEST + 1);
    fuzz_must(node->type != JSON_NUMBER || isfinite(node->number));
    fuzz_must((node->type == JSON_TEXT) == (node->text != NULL));
    fuzz_must((json_place(a, node).path != NULL) == (node->parent != NULL));
    size_t index = 0;
    for (const struct json_node *n = node->first; n; n = n->next) {
        fuzz_must(n->parent == node && n->index == index++);
        fuzz_must((n->key != NULL) == (node->type == JSON_OBJECT));
        fuzz_must(!n->key || json_find(node, n->key) == n);
        check_node(a, n, node->line, lines, depth + 1);
    }
    fuzz_must(index == node->count);
}

static void write_node(struct json_out *to, const char *key, const struct json_node *node)
{
    struct json_out *group = NULL;
    switch (node->type) {
    case JSON_NULL:
        json_out_text(to, key, NULL);
        return;
    case JSON_FALSE:
    case JSON_TRUE:
        json_out_bool(to, key, node->type == JSON_TRUE);
        return;
    case JSON_NUMBER:
        json_out_number(to, key, node->number);
        return;
    case JSON_TEXT:
        json_out_text(to, key, node->text);
        return;
    case JSON_LIST:
        group = json_out_list(to, key);
        break;
    case JSON_OBJECT:
        group = json_out_object(to, key);
        break;
    }
    for (const struct json_node *n = node->first; n; n = n->next)
        write_node(group, n->key, n);
}

static bool same_text(const char *a, const char *b)
{
    return a && b ? strcmp(a, b) == 0 : a == b;
}

static void check_same(const struct json_node *one, const struct json_node *other)
{
    fuzz_must(one->type == other->type && one->count == other->count);
    fuzz_must(same_text(one->text, other->text));
    fuzz_must(memcmp(&one->number, &other->number, sizeof one->number) == 0);
    const struct json_node *b = other->first;
    for (const struct json_node *a = one->first; a; a = a->next, b = b->next) {
        fuzz_must(same_text(a->key, b->key));
        check_same(a, b);
    }
}

/* The print has an object at its top, so it takes one level more than the tree. */
static int depth_of(const struct json_node *node)
{
    int deepest = 0;
    for (const struct json_node *n = node->first; n; n = n->next) {
        int depth = depth_of(n);
        deepest = depth > deepest ? depth : deepest;
    }
    return node->type == JSON_LIST || node->type == JSON_OBJECT ? deepest + 1 : 0;
}

static void print_and_read_back(struct arena *a, const struct json_node *tree, struct err_list *errs)
{
    if (depth_of(tree) == JSON_DEEPEST)
        return;
    struct json_out *top = json_out_create();
    write_node(top, "it", tree);
    const char *text = json_out_print(a, top);
    json_out_destroy(top);
    const struct json_node *back = json_parse(a, "print", text, strlen(text), errs);
    fuzz_must(back && errs->count == 0);
    check_same(tree, json_find(back, "it"));
}

static void ask(const struct json_node *tree, struct err_list *errs)
{
    static const char *const names[] = { "chalklight", "version", "name", "unit", NULL };
    int whole = 7;
    if (tree->type != JSON_OBJECT)
        return;
    json_only(tree, names, errs);
    const char *name = json_need_text(tree, "name", errs);
    fuzz_must(!name || *name);
    fuzz_must(json_need_whole(tree, "version", 1, 9, &whole, errs) ? whole >= 1 && whole <= 9 : whole == 7);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    int lines = lines_in(data, size);
    const struct json_node *tree = json_parse(a, "input", (const char *)data, size, errs);
    if (tree) {
        fuzz_must(errs->count == 0);
        check_node(a, tree, 1, lines, 1);
        print_and_read_back(a, tree, errs);
        ask(tree, errs);
    } else {
        check_reasons(errs, lines);
    }
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
