#include "sheet_reader/pdf_labels.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A tree may name itself: so many of its nodes and rows are looked at. Numbers beyond the last two bounds are written
 * in digits: letters and numerals would fill lines. */
enum { NODES_MOST = 20000, NODES_DEEP = 32, NUMBER_BYTES = 160, ROMAN_MOST = 99999, LETTERS_MOST = 2600 };

/* Pages from one on are labelled alike. */
struct range {
    int first;
    pdf_obj *how;
};

struct pdf_labels {
    struct range *rows;
    int count, cap;
    int left; /* nodes and rows that are still looked at */
};

static void add(fz_context *ctx, struct pdf_labels *l, int first, pdf_obj *how)
{
    if (l->count == l->cap) {
        int cap = l->cap ? l->cap * 2 : 16;
        l->rows = fz_realloc(ctx, l->rows, (size_t)cap * sizeof *l->rows);
        l->cap = cap;
    }
    l->rows[l->count++] = (struct range){ first, pdf_keep_obj(ctx, how) };
}

/* A number tree (7.9.7): pairs in Nums, more nodes in Kids. */
static void read_node(fz_context *ctx, struct pdf_labels *l, pdf_obj *node, int deep)
{
    pdf_obj *pairs = pdf_dict_get(ctx, node, PDF_NAME(Nums)), *kids = pdf_dict_get(ctx, node, PDF_NAME(Kids));
    int n = pdf_array_len(ctx, pairs);
    for (int i = 0; i + 1 < n && l->left-- > 0; i += 2) {
        pdf_obj *first = pdf_array_get(ctx, pairs, i), *how = pdf_array_get(ctx, pairs, i + 1);
        if (pdf_is_int(ctx, first) && pdf_is_dict(ctx, how))
            add(ctx, l, pdf_to_int(ctx, first), how);
    }
    n = pdf_array_len(ctx, kids);
    for (int i = 0; i < n && deep < NODES_DEEP && l->left-- > 0; i++)
        read_node(ctx, l, pdf_array_get(ctx, kids, i), deep + 1);
}

static int by_first(const void *left, const void *right)
{
    const struct range *a = left, *b = right;
    return (a->first > b->first) - (a->first < b->first);
}

struct pdf_labels *pdf_labels_read(fz_context *ctx, pdf_document *doc)
{
    struct pdf_labels *l = fz_malloc_struct(ctx, struct pdf_labels);
    l->left = NODES_MOST;
    fz_try(ctx)
    {
        pdf_obj *root = pdf_dict_get(ctx, pdf_trailer(ctx, doc), PDF_NAME(Root));
        read_node(ctx, l, pdf_dict_gets(ctx, root, "PageLabels"), 0);
    }
    fz_catch(ctx)
    {
        if (fz_caught(ctx) == FZ_ERROR_MEMORY) {
            pdf_labels_drop(ctx, l);
            fz_rethrow(ctx);
        }
    }
    if (l->count)
        qsort(l->rows, (size_t)l->count, sizeof *l->rows, by_first);
    return l;
}

void pdf_labels_drop(fz_context *ctx, struct pdf_labels *l)
{
    if (!l)
        return;
    for (int i = 0; i < l->count; i++)
        pdf_drop_obj(ctx, l->rows[i].how);
    fz_free(ctx, l->rows);
    fz_free(ctx, l);
}

/* ---------------------------------------------------------------------------------------------------------- numbering
 */

static void in_digits(int64_t n, char out[NUMBER_BYTES])
{
    snprintf(out, NUMBER_BYTES, "%lld", (long long)n);
}

static void in_numerals(int64_t n, char out[NUMBER_BYTES])
{
    static const struct {
        int worth;
        const char *letters;
    } rows[] = { { 1000, "M" }, { 900, "CM" }, { 500, "D" }, { 400, "CD" }, { 100, "C" }, { 90, "XC" }, { 50, "L" },
                 { 40, "XL" },  { 10, "X" },   { 9, "IX" },  { 5, "V" },    { 4, "IV" },  { 1, "I" } };
    size_t at = 0;
    if (n > ROMAN_MOST) {
        in_digits(n, out);
        return;
    }
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        for (; n >= rows[i].worth; n -= rows[i].worth)
            for (const char *c = rows[i].letters; *c; c++)
                out[at++] = *c;
    out[at] = 0;
}

/* A to Z, then AA to ZZ, then AAA. */
static void in_letters(int64_t n, char out[NUMBER_BYTES])
{
    if (n > LETTERS_MOST) {
        in_digits(n, out);
        return;
    }
    size_t count = (size_t)((n - 1) / 26 + 1);
    memset(out, 'A' + (int)((n - 1) % 26), count);
    out[count] = 0;
}

static void to_lower(char *text)
{
    for (; *text; text++)
        *text = (char)(*text >= 'A' && *text <= 'Z' ? *text - 'A' + 'a' : *text);
}

/* What S names; without one the pages have no number. */
static void number_of(const char *style, int64_t n, char out[NUMBER_BYTES])
{
    static const struct {
        char name;
        void (*write)(int64_t n, char out[NUMBER_BYTES]);
        bool low;
    } rows[] = { { 'D', in_digits, false },
                 { 'R', in_numerals, false },
                 { 'r', in_numerals, true },
                 { 'A', in_letters, false },
                 { 'a', in_letters, true } };
    *out = 0;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (style[0] == rows[i].name && !style[1]) {
            rows[i].write(n, out);
            if (rows[i].low)
                to_lower(out);
        }
}

/* The last range that starts at the page or before it; the last of several that start together. */
static const struct range *range_of(const struct pdf_labels *l, int page)
{
    int low = 0, high = l->count;
    while (low < high) {
        int middle = (low + high) / 2;
        if (l->rows[middle].first <= page)
            low = middle + 1;
        else
            high = middle;
    }
    return low ? &l->rows[low - 1] : NULL;
}

char *pdf_labels_find(fz_context *ctx, const struct pdf_labels *l, int page)
{
    const struct range *r = range_of(l, page);
    char number[NUMBER_BYTES];
    if (!r)
        return NULL;
    int start = pdf_to_int(ctx, pdf_dict_gets(ctx, r->how, "St"));
    number_of(pdf_to_name(ctx, pdf_dict_get(ctx, r->how, PDF_NAME(S))),
              (start > 0 ? start : 1) + (int64_t)page - r->first, number);
    const char *prefix = pdf_dict_get_text_string(ctx, r->how, PDF_NAME(P));
    return *prefix || *number ? fz_asprintf(ctx, "%s%s", prefix, number) : NULL;
}
