/* Any bytes as the reader's result; of one that is taken every index can be followed, and all is within its bounds. The
 * head's name of the build and its length are put right first: what is tried is what stands behind them. Seeds: results
 * written by tests/sheet/drawn.h. */
#include "fuzz/fuzz.h"
#include "sheet/sheet.h"

#include <math.h>
#include <string.h>

static void follow_part(const struct sheet *s, const struct sheet_part *part)
{
    size_t points = 1;
    for (size_t k = 0; k < part->segment_count; k++)
        points += s->kinds[part->first_kind + k] == SHEET_CUBIC ? 3 : 1;
    for (size_t p = 0; p < points; p++)
        fuzz_must(fabs(s->points[part->first_point + p].x) <= SHEET_COORDINATE_MOST);
}

static void follow_item(const struct sheet *s, const struct sheet_item *item)
{
    const struct sheet_style *style = &s->styles[item->style];
    if (item->clip != SHEET_NONE)
        fuzz_must(s->clips[item->clip].x0 <= s->clips[item->clip].x1);
    for (size_t i = 0; i < style->dash_count; i++)
        fuzz_must(s->numbers[style->first_dash + i] >= 0);
    for (size_t i = 0; i < item->part_count; i++)
        follow_part(s, &s->parts[item->first_part + i]);
    if (item->layer != SHEET_NONE)
        fuzz_must(strlen(sheet_text_at(s, s->layers[item->layer].name_text)) < s->byte_count);
    if (item->kind == SHEET_RUN)
        fuzz_must(s->runs[item->extra].size_mm >= 0 && strlen(sheet_text_at(s, item->text)) < s->byte_count);
    if (item->kind == SHEET_IMAGE) {
        const struct sheet_image *image = &s->images[item->extra];
        unsigned sum = 0;
        for (size_t i = 0; i < (size_t)image->width * image->height; i++)
            sum += s->pixels[image->first_byte + i];
        fuzz_must(sum <= 255u * image->width * image->height);
    }
}

static void follow(const struct sheet *s)
{
    size_t items = 0;
    for (size_t p = 0; p < s->counts[SHEET_PAGES]; p++) {
        fuzz_must(s->pages[p].width_mm > 0 && strlen(sheet_text_at(s, s->pages[p].label_text)) < s->byte_count);
        for (size_t i = 0; i < s->pages[p].item_count; i++, items++)
            follow_item(s, &s->items[s->pages[p].first_item + i]);
    }
    fuzz_must(items == s->counts[SHEET_ITEMS]);
    for (size_t l = 0; l < s->counts[SHEET_LAYERS]; l++) {
        size_t depth = 0;
        for (uint32_t up = s->layers[l].parent; up != SHEET_NONE; up = s->layers[up].parent)
            fuzz_must(++depth <= l);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    uint8_t *bytes = malloc(size + !size); /* at a multiple of 8, as a mapping is */
    struct sheet s;
    const char *flaw = NULL;
    if (!bytes)
        return 0;
    memcpy(bytes, data, size);
    if (size >= sizeof(struct sheet_head)) {
        struct sheet_head head;
        memcpy(&head, bytes, sizeof head);
        sheet_build_id(head.build_id);
        head.total_bytes = size;
        memcpy(bytes, &head, sizeof head);
    }
    if (sheet_validate(bytes, size, &s, &flaw))
        follow(&s);
    else
        fuzz_must(flaw && !s.bytes);
    free(bytes);
    return 0;
}
