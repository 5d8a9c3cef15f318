/* lift_dump FILE TIMES: what is lifted from a PDF of one page, as JSON, without the jail and the program around it: for
 * the checks in marks_check.py. It is lifted so many times over; the shortest processor time is told, of dividing and
 * of all. */
#include "lifting/lift.h"
#include "read_pdf.h"

#include <stdio.h>
#include <stdlib.h>

static void print_text(const char *text)
{
    if (!text) {
        printf("null");
        return;
    }
    putchar('"');
    for (; *text; text++)
        if ((unsigned char)*text < 0x20 || *text == '"' || *text == '\\')
            printf("\\u%04x", (unsigned)(unsigned char)*text);
        else
            putchar(*text);
    putchar('"');
}

static void print_path(struct geometry_path p)
{
    printf("[");
    for (size_t i = 0; i < p.count; i++)
        printf("%s[%.6f,%.6f]", i ? "," : "", p.points[i].x, p.points[i].y);
    printf("]");
}

static void print_marks(const struct lifting_piece *p)
{
    static const char *const kinds[] = { "grain", "fold", "notch", "drill", "lengthen", "dart", "stitch", "inner" };
    printf("\"marks\":[");
    for (size_t i = 0; i < p->mark_count; i++) {
        const struct lifting_mark *m = &p->marks[i];
        printf("%s{\"kind\":\"%s\",\"size\":%d,\"apart\":%.3f,\"v\":%d,\"sure\":%d,\"points\":", i ? ",\n" : "",
               kinds[m->kind], m->size, m->apart_mm, m->is_v, m->sure);
        print_path(m->path.path);
        printf("}");
    }
    printf("]");
}

static void print_piece(const struct lifting_division *v, const struct lifting_piece *p)
{
    printf("{\"name\":");
    print_text(p->words.name);
    printf(",\"number\":");
    print_text(p->words.number);
    printf(",\"count\":%d,\"pairs\":%d,\"on_fold\":%d,\"cloths\":%u,\"counts\":[%d,%d,%d],\"sure\":%d,\"doubts\":%u,"
           "\"grain\":[%.9f,%.9f],\n\"outlines\":[",
           p->words.count, p->words.pairs, p->words.on_fold, p->words.cloths, p->words.counts[0], p->words.counts[1],
           p->words.counts[2], p->words.sure, p->doubts, p->grain.x, p->grain.y);
    for (size_t k = 0; k < v->size_count; k++) {
        printf("%s", k ? "," : "");
        print_path(p->outlines[k].there ? p->outlines[k].path.path : (struct geometry_path){ NULL, 0, true });
    }
    printf("],\n");
    print_marks(p);
    printf("}");
}

static void print_strands(const struct drawing *d, const struct lifting_division *v)
{
    static const char *const roles[] = { "unused", "common", "size" };
    printf("\"strands\":[");
    for (size_t i = 0; i < v->strand_count; i++) {
        const struct lifting_strand *s = &v->strands[i];
        printf("%s{\"layer\":", i ? ",\n" : "");
        print_text(s->layer == DRAWING_NONE ? NULL : d->layers[s->layer].name);
        printf(",\"rgb\":%u,\"dash\":[", (unsigned)s->rgb);
        for (size_t k = 0; k < s->dash_count; k++)
            printf("%s%.3f", k ? "," : "", s->dash_mm[k]);
        printf("],\"length\":%.1f,\"role\":\"%s\",\"size\":", s->length_mm, roles[s->role]);
        print_text(s->size == LIFTING_NONE ? NULL : v->sizes[s->size]);
        printf(",\"sure\":%d}", s->sure);
    }
    printf("],\n");
}

static void print_lifted(const struct drawing *d, const struct lifting_division *v, const struct lifting *l)
{
    printf("\"sizes\":[");
    for (size_t k = 0; k < v->size_count; k++) {
        printf("%s", k ? "," : "");
        print_text(v->sizes[k]);
    }
    printf("],\n");
    print_strands(d, v);
    printf("\"pieces\":[");
    for (size_t i = 0; i < l->piece_count; i++) {
        printf("%s", i ? ",\n" : "");
        print_piece(v, &l->pieces[i]);
    }
    printf("]}\n");
}

int main(int argc, char **argv)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct sheet sheet;
    struct drawing d;
    struct lifting_division v = { 0 };
    struct lifting l = { 0 };
    double divide = 1e9, all = 1e9;
    if (argc < 3 || !read_pdf(a, argv[1], &sheet) || !drawing_flatten(a, &sheet, &d, errs))
        return 1;
    for (int i = 0; i < atoi(argv[2]); i++) {
        double start = read_pdf_seconds();
        lifting_divide(a, &d, NULL, 0, &v);
        double divided = read_pdf_seconds();
        l = lifting_lift(a, &d, &v, NULL, 0, errs);
        divide = divided - start < divide ? divided - start : divide;
        all = read_pdf_seconds() - start < all ? read_pdf_seconds() - start : all;
    }
    printf("{\"divide\":%.6f,\"all\":%.6f,\n", divide, all);
    print_lifted(&d, &v, &l);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
