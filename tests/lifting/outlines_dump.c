/* outlines_dump FILE TIMES [ROLE...]: the shapes that are found in a PDF of one page, as JSON, without the jail and the
 * program around it: for the checks in outlines_check.py. ROLE is for each layer of the file "common", "unused" or the
 * number of a size. Shapes are found so many times over; the shortest processor time is told. */
#include "lifting/outlines.h"
#include "read_pdf.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A strand for each layer and look. */
struct dividing {
    struct lifting_strand *strands;
    int *styles;
    size_t count;
};

static struct lifting_strand strand_of(const struct drawing *d, const struct drawing_line *line, char **roles,
                                       int role_count)
{
    const struct drawing_style *style = &d->styles[line->style];
    const char *role = line->layer < role_count ? roles[line->layer] : "unused";
    struct lifting_strand s = { .layer = line->layer,
                                .dash_mm = style->dash_mm,
                                .dash_count = style->dash_count,
                                .size = LIFTING_NONE,
                                .cup_group = LIFTING_NONE };
    if (strcmp(role, "common") == 0)
        s.role = LIFTING_COMMON;
    else if (strcmp(role, "unused") != 0) {
        s.role = LIFTING_SIZE;
        s.size = atoi(role);
    }
    return s;
}

static int find_strand(struct dividing *v, const struct drawing *d, const struct drawing_line *line, char **roles,
                       int role_count)
{
    if (d->styles[line->style].lettering || line->layer < 0)
        return LIFTING_NONE;
    for (size_t i = 0; i < v->count; i++)
        if (v->strands[i].layer == line->layer && v->styles[i] == line->style)
            return (int)i;
    v->styles[v->count] = line->style;
    v->strands[v->count] = strand_of(d, line, roles, role_count);
    return (int)v->count++;
}

static struct lifting_division divide(struct arena *a, const struct drawing *d, char **roles, int role_count)
{
    static const char *const names[LIFTING_SIZES_MOST];
    struct dividing v = { base_arena_alloc(a, d->line_count, sizeof *v.strands),
                          base_arena_alloc(a, d->line_count, sizeof *v.styles), 0 };
    int *of = base_arena_alloc(a, d->line_count, sizeof *of);
    struct lifting_division out = { .strands = v.strands, .strand_of_line = of, .sizes = names };
    for (size_t i = 0; i < d->line_count; i++)
        of[i] = find_strand(&v, d, &d->lines[i], roles, role_count);
    out.strand_count = v.count;
    for (size_t i = 0; i < v.count; i++)
        if (v.strands[i].size + 1 > (int)out.size_count)
            out.size_count = (size_t)v.strands[i].size + 1;
    return out;
}

static void print_path(struct geometry_path p)
{
    printf("[");
    for (size_t i = 0; i < p.count; i++)
        printf("%s[%.6f,%.6f]", i ? "," : "", p.points[i].x, p.points[i].y);
    printf("]");
}

static void print_shape(const struct drawing *d, const struct lifting_shape *s, size_t sizes)
{
    printf("{\"one_size\":%d,\"outlines\":[", s->one_size);
    for (size_t k = 0; k < sizes; k++) {
        printf(k ? ",\n" : "\n");
        if (s->outlines[k].there)
            print_path(s->outlines[k].path.path);
        else
            printf("null");
    }
    printf("],\"gaps\":[");
    for (size_t k = 0; k < sizes; k++)
        printf("%s%.4f", k ? "," : "", s->outlines[k].closed_over_mm);
    printf("],\"lines\":[");
    for (size_t i = 0; i < s->line_count; i++) {
        printf(i ? ",\n" : "\n");
        print_path(d->lines[s->lines[i]].path.path);
    }
    printf("],\"texts\":[");
    for (size_t i = 0; i < s->text_count; i++)
        printf("%s\"%s\"", i ? "," : "", d->texts[s->texts[i]].words);
    printf("]}");
}

static size_t find(struct arena *a, const struct drawing *d, const struct lifting_division *division, int times,
                   const struct lifting_shape **shapes, size_t *loose, double *seconds)
{
    struct err_list *errs = base_err_list_create();
    size_t count = 0;
    *seconds = 1e9;
    for (int i = 0; i < times; i++) {
        double from = read_pdf_seconds();
        count = lifting_find_shapes(a, d, division, shapes, loose, errs);
        double took = read_pdf_seconds() - from;
        *seconds = took < *seconds ? took : *seconds;
    }
    base_err_list_destroy(errs);
    return count;
}

static bool dump(struct arena *a, char **args, int arg_count)
{
    struct sheet s;
    struct drawing d;
    struct err_list *errs = base_err_list_create();
    bool ok = read_pdf(a, args[0], &s) && drawing_flatten(a, &s, &d, errs);
    base_err_list_destroy(errs);
    if (!ok)
        return false;
    const struct lifting_shape *shapes;
    size_t loose = 0;
    double seconds = 0;
    struct lifting_division division = divide(a, &d, args + 2, arg_count - 2);
    size_t count = find(a, &d, &division, atoi(args[1]), &shapes, &loose, &seconds);
    printf("{\"seconds\":%.4f,\"loose\":%zu,\"shapes\":[", seconds, loose);
    for (size_t i = 0; i < count; i++) {
        printf(i ? ",\n" : "\n");
        print_shape(&d, &shapes[i], division.size_count ? division.size_count : 1);
    }
    printf("]}\n");
    return true;
}

int main(int argc, char **argv)
{
    if (argc < 3)
        return 1;
    struct arena *a = base_arena_create();
    bool ok = dump(a, argv + 1, argc - 1);
    base_arena_destroy(a);
    return ok ? 0 : 1;
}
