/* pdf_dump FILE [PASSWORD [DPI]]: what the reader makes of a file, as JSON, without the jail and the program around it:
 * for the checks in pdf_check.py and picture_check.py. An empty password is none. Exits 0 when the result is sound,
 * whatever the reader said of the file; 1 when it is not. */
#include "sheet/sheet.h"
#include "sheet_reader/collect.h"
#include "sheet_reader/kind.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static char *read_whole(FILE *f, size_t *count)
{
    size_t cap = 1 << 16;
    char *bytes = malloc(cap);
    *count = 0;
    for (size_t got; bytes && (got = fread(bytes + *count, 1, cap - *count, f)) > 0;) {
        *count += got;
        if (*count == cap)
            bytes = realloc(bytes, cap *= 2);
    }
    return bytes;
}

static void print_text(const char *text)
{
    putchar('"');
    for (; *text; text++) {
        unsigned char c = (unsigned char)*text;
        if (c < 0x20 || c == '"' || c == '\\')
            printf("\\u%04x", c);
        else
            putchar(c);
    }
    putchar('"');
}

static void print_pages(const struct sheet *s)
{
    printf("\"pages\":[");
    for (size_t i = 0; i < s->counts[SHEET_PAGES]; i++)
        printf("%s[%.6f,%.6f]", i ? "," : "", s->pages[i].width_mm, s->pages[i].height_mm);
    printf("],\n\"labels\":[");
    for (size_t i = 0; i < s->counts[SHEET_PAGES]; i++) {
        fputs(i ? "," : "", stdout);
        print_text(sheet_text_at(s, s->pages[i].label_text));
    }
    printf("],\n");
}

static void print_layers(const struct sheet *s)
{
    printf("\"layers\":[");
    for (size_t i = 0; i < s->counts[SHEET_LAYERS]; i++) {
        const struct sheet_layer *l = &s->layers[i];
        printf("%s{\"name\":", i ? ",\n" : "");
        print_text(sheet_text_at(s, l->name_text));
        printf(",\"parent\":%ld,\"flags\":%u}", l->parent == SHEET_NONE ? -1L : (long)l->parent, l->flags);
    }
    printf("],\n");
}

static void print_points(const struct sheet *s, const struct sheet_item *item)
{
    printf(",\"parts\":[");
    for (uint32_t i = 0; i < item->part_count; i++) {
        const struct sheet_part *p = &s->parts[item->first_part + i];
        size_t n = 1;
        for (uint32_t k = 0; k < p->segment_count; k++)
            n += s->kinds[p->first_kind + k] == SHEET_CUBIC ? 3 : 1;
        printf("%s{\"closed\":%u,\"segments\":%u,\"kinds\":[", i ? "," : "", p->closed, p->segment_count);
        for (uint32_t k = 0; k < p->segment_count; k++)
            printf("%s%u", k ? "," : "", s->kinds[p->first_kind + k]);
        printf("],\"points\":[");
        for (size_t k = 0; k < n; k++)
            printf("%s[%.6f,%.6f]", k ? "," : "", s->points[p->first_point + k].x, s->points[p->first_point + k].y);
        printf("]}");
    }
    printf("]");
}

static void print_run(const struct sheet *s, const struct sheet_item *item)
{
    const struct sheet_run *run = &s->runs[item->extra];
    printf(",\"text\":");
    print_text(sheet_text_at(s, item->text));
    printf(",\"run\":[%.6f,%.6f,%.6f,%.6f,%.6f]", run->x, run->y, run->dx, run->dy, run->size_mm);
}

static void print_image(const struct sheet *s, const struct sheet_item *item)
{
    const struct sheet_image *m = &s->images[item->extra];
    printf(",\"pixels\":[%u,%u],\"at\":[%.6f,%.6f,%.6f,%.6f,%.6f,%.6f],\"first\":%u,\"last\":%u", m->width, m->height,
           m->across[0], m->across[1], m->up[0], m->up[1], m->origin[0], m->origin[1], s->pixels[m->first_byte],
           s->pixels[m->first_byte + (size_t)m->width * m->height - 1]);
}

/* Null without one, else its box and whether that only holds it. */
static void print_clip(const struct sheet *s, const struct sheet_item *item)
{
    if (item->clip == SHEET_NONE) {
        printf(",\"clip\":null");
        return;
    }
    const struct sheet_clip *c = &s->clips[item->clip];
    printf(",\"clip\":[%.6f,%.6f,%.6f,%.6f,%u]", c->x0, c->y0, c->x1, c->y1, c->flags);
}

static void print_items(const struct sheet *s)
{
    static const char *const kinds[] = { "path", "run", "image" };
    printf("\"items\":[");
    for (size_t i = 0; i < s->counts[SHEET_ITEMS]; i++) {
        const struct sheet_item *item = &s->items[i];
        const struct sheet_style *style = &s->styles[item->style];
        printf("%s{\"kind\":\"%s\",\"page\":%u,\"layer\":%ld,\"width\":%.6f,\"rgb\":%u,\"flags\":%u,\"dash\":[",
               i ? ",\n" : "", kinds[item->kind], item->page, item->layer == SHEET_NONE ? -1L : (long)item->layer,
               style->width_mm, style->rgb, style->flags);
        for (unsigned k = 0; k < style->dash_count; k++)
            printf("%s%.6f", k ? "," : "", s->numbers[style->first_dash + k]);
        printf("]");
        print_points(s, item);
        print_clip(s, item);
        if (item->kind == SHEET_RUN)
            print_run(s, item);
        if (item->kind == SHEET_IMAGE)
            print_image(s, item);
        printf("}");
    }
    printf("],\n");
}

static void print_notes(const struct sheet *s)
{
    printf("\"notes\":[");
    for (size_t i = 0; i < s->counts[SHEET_NOTES]; i++) {
        const struct sheet_note *n = &s->notes[i];
        printf("%s{\"code\":%u,\"a\":%u,\"b\":%u,\"text\":", i ? "," : "", n->code, n->a, n->b);
        print_text(sheet_text_at(s, n->text));
        printf("}");
    }
    printf("]");
}

/* The result through a file and the validator, as the program gets it. */
static bool print_result(struct collect *c)
{
    struct sheet s;
    const char *flaw = NULL;
    FILE *f = tmpfile();
    size_t count = 0;
    if (!f || !collect_write(c, fileno(f)))
        return false;
    rewind(f);
    char *bytes = read_whole(f, &count);
    bool sound = sheet_validate(bytes, count, &s, &flaw);
    if (sound) {
        print_pages(&s);
        print_layers(&s);
        print_items(&s);
        print_notes(&s);
        printf("\n,");
    } else
        fprintf(stderr, "flaw: %s\n", flaw);
    free(bytes);
    fclose(f);
    return sound;
}

int main(int argc, char **argv)
{
    if (argc < 2)
        return 1;
    FILE *f = fopen(argv[1], "rb");
    if (!f)
        return 1;
    size_t count = 0;
    char *bytes = read_whole(f, &count);
    fclose(f);
    struct collect *c = collect_create(-1);
    struct kind_orders orders = { argc > 2 && *argv[2] ? argv[2] : NULL, argc > 3 ? strtod(argv[3], NULL) : 0 };
    enum sheet_exit exit = kind_read(c, bytes, count, &orders);
    printf("{");
    bool sound = exit != SHEET_EXIT_DONE || print_result(c);
    printf("\"exit\":%d}\n", (int)exit);
    collect_destroy(c);
    free(bytes);
    return sound ? 0 : 1;
}
