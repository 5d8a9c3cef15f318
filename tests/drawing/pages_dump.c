/* pages_dump FILE ACROSS UP [quiet]: how the pages of a PDF lie and what the joined sheet holds, as JSON, without the
 * jail: for pages_check.py. ACROSS and UP are what corrects lengths as drawn. Exits 0 when the file was read. */
#include "drawing/drawn_file.h"
#include "drawing/pages.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static const char *const ways[] = { "alone", "label", "order", "trial", "repeated", "hand" };

static void print_numbers(const char *name, const int *numbers, size_t count)
{
    printf("\"%s\":[", name);
    for (size_t i = 0; i < count; i++)
        printf("%s%d", i ? "," : "", numbers[i]);
    printf("],\n");
}

static void print_places(const struct drawing_pages *p)
{
    printf("\"how\":\"%s\",\"columns\":%d,\"rows\":%d,\"misfit\":%.6f,\"doubtful\":%s,\n", ways[p->how], p->columns,
           p->rows, p->misfit_mm, p->doubtful ? "true" : "false");
    print_numbers("left_out", p->left_out, p->left_out_count);
    print_numbers("empty", p->empty, p->empty_count);
    print_numbers("missing", p->missing, p->missing_count);
    printf("\"places\":[");
    for (size_t i = 0; i < p->place_count; i++) {
        const struct drawing_place *at = &p->places[i];
        printf("%s{\"page\":%d,\"column\":%d,\"row\":%d,\"shift\":[%.6f,%.6f],\"window\":[%.4f,%.4f,%.4f,%.4f],"
               "\"misfit\":%.6f,\"tied_by\":%zu}",
               i ? ",\n" : "", at->page, at->column, at->row, at->shift.x, at->shift.y, at->window[0].x,
               at->window[0].y, at->window[1].x, at->window[1].y, at->misfit_mm, at->tied_by);
    }
    printf("],\n");
}

static void print_joined(const struct drawing *d)
{
    printf("\"size\":[%.4f,%.4f],\"lines\":[", d->pages[0].width_mm, d->pages[0].height_mm);
    for (size_t i = 0; i < d->line_count; i++) {
        const struct drawing_line *line = &d->lines[i];
        printf("%s{\"layer\":%d,\"closed\":%d,\"lettering\":%d,\"points\":[", i ? ",\n" : "", line->layer,
               line->path.path.closed, d->styles[line->style].lettering);
        for (size_t k = 0; k < line->path.path.count; k++)
            printf("%s[%.4f,%.4f]", k ? "," : "", line->path.path.points[k].x, line->path.path.points[k].y);
        printf("]}");
    }
    printf("],\n\"texts\":[");
    for (size_t i = 0; i < d->text_count; i++) {
        printf("%s[%.4f,%.4f,\"", i ? "," : "", d->texts[i].at.x, d->texts[i].at.y);
        for (const char *c = d->texts[i].words; *c; c++)
            printf(*c == '"' || *c == '\\' || (unsigned char)*c < 32 ? "?" : "%c", *c);
        printf("\"]");
    }
    printf("]\n");
}

static double now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static void print_all(struct arena *a, const struct drawing *flat, struct drawing_scale scale, bool quiet)
{
    struct drawing_pages pages;
    double start = now_ms();
    drawing_find_pages(a, flat, scale, NULL, &pages);
    double found = now_ms();
    struct drawing joined = drawing_join(a, flat, scale, &pages);
    printf("{\"find_ms\":%.2f,\"join_ms\":%.2f,", found - start, now_ms() - found);
    print_places(&pages);
    if (quiet)
        printf("\"line_count\":%zu", joined.line_count);
    else
        print_joined(&joined);
    printf("}\n");
}

int main(int argc, char **argv)
{
    struct drawing flat;
    int exit = 0;
    struct arena *a = base_arena_create();
    bool read = argc >= 4 && drawn_file(a, argv[1], NULL, &flat, &exit);
    if (read)
        print_all(a, &flat, (struct drawing_scale){ strtod(argv[2], NULL), strtod(argv[3], NULL) }, argc > 4);
    base_arena_destroy(a);
    return read ? 0 : 1;
}
