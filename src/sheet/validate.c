/* Every number of a result is looked at before anything uses it: what wrote it has read a stranger's file. */
#include "base/text.h"
#include "sheet/sheet.h"

#include <math.h>
#include <string.h>

/* What is being looked at; the first flaw stays. */
struct look {
    struct sheet *s;
    const char *flaw;
};

/* How far the things that lie packed have been used up. */
struct used {
    uint64_t parts, points, kinds, runs, images, pixels, bytes, dashes, clips;
};

static bool must(struct look *look, bool holds, const char *flaw)
{
    if (!holds && !look->flaw)
        look->flaw = flaw;
    return holds;
}

static bool is_length(double mm)
{
    return mm >= 0 && mm <= SHEET_COORDINATE_MOST; /* false for what is not a number */
}

static bool is_place(double mm)
{
    return fabs(mm) <= SHEET_COORDINATE_MOST;
}

static bool is_index(uint32_t at, size_t count)
{
    return at < count;
}

static bool is_index_or_none(uint32_t at, size_t count)
{
    return at == SHEET_NONE || at < count;
}

/* -------------------------------------------------------------------------------------------------- head, sections */

static bool head_is_sound(struct look *look, const struct sheet_head *head, size_t count)
{
    uint8_t id[SHEET_BUILD_BYTES];
    sheet_build_id(id);
    return must(look, memcmp(head->magic, SHEET_MAGIC, sizeof head->magic) == 0, "it does not begin as a result") &&
           must(look, head->version == SHEET_VERSION && memcmp(head->build_id, id, sizeof id) == 0,
                "its writer belongs to another build") &&
           must(look, head->head_bytes == sizeof *head, "its head has another size") &&
           must(look, head->total_bytes == count, "it is not as long as it says");
}

/* The sections follow each other without gaps but those up to a multiple of 8. */
static bool sections_are_sound(struct look *look, const struct sheet_head *head, const unsigned char *bytes)
{
    uint64_t at = sizeof *head;
    for (size_t i = 0; i < SHEET_SECTIONS; i++) {
        struct sheet_span span = head->sections[i];
        for (uint64_t gap = at; gap < sheet_aligned(at) && gap < head->total_bytes; gap++)
            if (!must(look, bytes[gap] == 0, "a gap between sections is not empty"))
                return false;
        at = sheet_aligned(at);
        if (!must(look, span.offset == at && at <= head->total_bytes, "a section is not where it belongs") ||
            !must(look, span.count <= (head->total_bytes - at) / sheet_element_bytes[i],
                  "a section runs over the end") ||
            !must(look, span.count < SHEET_NONE, "a section holds more than can be counted"))
            return false;
        at += span.count * sheet_element_bytes[i];
    }
    return must(look, at == head->total_bytes, "something follows the last section");
}

static void view_sections(struct sheet *s, const struct sheet_head *head, const unsigned char *bytes)
{
    const void *at[SHEET_SECTIONS];
    for (size_t i = 0; i < SHEET_SECTIONS; i++) {
        at[i] = bytes + head->sections[i].offset;
        s->counts[i] = (size_t)head->sections[i].count;
    }
    s->pages = at[SHEET_PAGES];
    s->layers = at[SHEET_LAYERS];
    s->styles = at[SHEET_STYLES];
    s->clips = at[SHEET_CLIPS];
    s->items = at[SHEET_ITEMS];
    s->parts = at[SHEET_PARTS];
    s->runs = at[SHEET_RUNS];
    s->images = at[SHEET_IMAGES];
    s->texts = at[SHEET_TEXTS];
    s->notes = at[SHEET_NOTES];
    s->points = at[SHEET_POINTS];
    s->numbers = at[SHEET_NUMBERS];
    s->kinds = at[SHEET_KINDS];
    s->text_bytes = at[SHEET_BYTES];
    s->pixels = at[SHEET_PIXELS];
}

/* ------------------------------------------------------------------------------------------------------ each section
 */

static void texts_are_sound(struct look *look)
{
    const struct sheet *s = look->s;
    uint64_t at = 0;
    for (size_t i = 0; i < s->counts[SHEET_TEXTS] && !look->flaw; i++) {
        struct sheet_text t = s->texts[i];
        if (!must(look, t.first_byte == at && at + t.byte_count < s->counts[SHEET_BYTES], "a text is out of place"))
            return;
        const char *bytes = s->text_bytes + at;
        must(look, bytes[t.byte_count] == 0 && !memchr(bytes, 0, t.byte_count), "a text does not end where it says");
        must(look, base_text_is_utf8(bytes, t.byte_count), "a text is not UTF-8");
        at += (uint64_t)t.byte_count + 1;
    }
    must(look, at == s->counts[SHEET_BYTES], "there are bytes of no text");
}

static void pages_are_sound(struct look *look)
{
    const struct sheet *s = look->s;
    uint64_t at = 0;
    must(look, s->counts[SHEET_PAGES] > 0 && s->counts[SHEET_PAGES] <= SHEET_PAGES_MOST,
         "it has no pages, or too many");
    for (size_t i = 0; i < s->counts[SHEET_PAGES] && !look->flaw; i++) {
        const struct sheet_page *p = &s->pages[i];
        must(look, is_length(p->width_mm) && is_length(p->height_mm) && p->width_mm > 0 && p->height_mm > 0,
             "a page has no size");
        must(look, p->first_item == at && p->item_count <= s->counts[SHEET_ITEMS] - at,
             "a page's items are out of place");
        must(look, is_index_or_none(p->label_text, s->counts[SHEET_TEXTS]), "a page's label is no text");
        must(look, p->reserved == 0, "a page holds what it should not");
        at += p->item_count;
    }
    must(look, at == s->counts[SHEET_ITEMS], "there are items of no page");
}

static void layers_are_sound(struct look *look)
{
    const struct sheet *s = look->s;
    must(look, s->counts[SHEET_LAYERS] <= SHEET_LAYERS_MOST, "it has too many layers");
    for (size_t i = 0; i < s->counts[SHEET_LAYERS] && !look->flaw; i++) {
        const struct sheet_layer *l = &s->layers[i];
        must(look, is_index_or_none(l->parent, i), "a layer's parent does not stand before it");
        must(look, is_index(l->name_text, s->counts[SHEET_TEXTS]), "a layer's name is no text");
        must(look, l->flags <= (SHEET_LAYER_ON | SHEET_LAYER_LOCKED | SHEET_LAYER_RADIO) && l->reserved == 0,
             "a layer holds what it should not");
    }
}

static void styles_are_sound(struct look *look, struct used *used)
{
    const struct sheet *s = look->s;
    for (size_t i = 0; i < s->counts[SHEET_STYLES] && !look->flaw; i++) {
        const struct sheet_style *t = &s->styles[i];
        must(look, is_length(t->width_mm), "a line's width is no length");
        must(look, t->rgb <= 0xffffff && t->flags <= SHEET_STYLE_FLAGS && t->reserved == 0,
             "a style holds what it should not");
        must(look, t->first_dash == used->dashes && t->dash_count <= s->counts[SHEET_NUMBERS] - used->dashes,
             "a line's dashes are out of place");
        used->dashes += t->dash_count;
    }
    must(look, used->dashes == s->counts[SHEET_NUMBERS], "there are dashes of no line");
    for (size_t i = 0; i < s->counts[SHEET_NUMBERS] && !look->flaw; i++)
        must(look, is_length(s->numbers[i]), "a dash is no length");
}

static void clips_are_sound(struct look *look)
{
    const struct sheet *s = look->s;
    for (size_t i = 0; i < s->counts[SHEET_CLIPS] && !look->flaw; i++) {
        const struct sheet_clip *c = &s->clips[i];
        must(look,
             is_place(c->x0) && is_place(c->y0) && is_place(c->x1) && is_place(c->y1) && c->x0 <= c->x1 &&
                 c->y0 <= c->y1,
             "a clip is no box");
        must(look, c->flags <= SHEET_CLIP_FLAGS && c->reserved == 0, "a clip holds what it should not");
    }
}

static void runs_are_sound(struct look *look)
{
    const struct sheet *s = look->s;
    for (size_t i = 0; i < s->counts[SHEET_RUNS] && !look->flaw; i++) {
        const struct sheet_run *r = &s->runs[i];
        must(look, is_place(r->x) && is_place(r->y) && is_length(r->size_mm), "a run of text has no place");
        must(look, fabs(r->dx * r->dx + r->dy * r->dy - 1) <= 1e-9, "a run of text has no direction");
    }
}

static void images_are_sound(struct look *look, struct used *used)
{
    const struct sheet *s = look->s;
    for (size_t i = 0; i < s->counts[SHEET_IMAGES] && !look->flaw; i++) {
        const struct sheet_image *m = &s->images[i];
        for (size_t k = 0; k < 2; k++)
            must(look, is_place(m->across[k]) && is_place(m->up[k]) && is_place(m->origin[k]), "an image has no place");
        must(look, m->width <= SHEET_IMAGE_SIDE_MOST && m->height <= SHEET_IMAGE_SIDE_MOST, "an image is too large");
        uint64_t size = (uint64_t)m->width * m->height;
        must(look, m->first_byte == used->pixels && size <= s->counts[SHEET_PIXELS] - used->pixels,
             "an image's pixels are out of place");
        used->pixels += size;
    }
    must(look, used->pixels == s->counts[SHEET_PIXELS], "there are pixels of no image");
}

/* A point, one for each line, three for each cubic, where the part before it ended. */
static void part_is_sound(struct look *look, const struct sheet_part *part, struct used *used)
{
    const struct sheet *s = look->s;
    if (!must(look, part->first_kind == used->kinds && part->segment_count <= s->counts[SHEET_KINDS] - used->kinds,
              "a line's segments are out of place"))
        return;
    uint64_t points = 1;
    for (size_t i = 0; i < part->segment_count; i++) {
        uint8_t kind = s->kinds[used->kinds + i];
        must(look, kind == SHEET_LINE || kind == SHEET_CUBIC, "a segment is of no kind");
        points += kind == SHEET_CUBIC ? 3 : 1;
    }
    must(look, part->first_point == used->points && points <= s->counts[SHEET_POINTS] - used->points,
         "a line's points are out of place");
    must(look, part->closed <= 1, "a line is neither open nor closed");
    used->kinds += part->segment_count;
    used->points += points;
}

static void parts_are_sound(struct look *look, struct used *used)
{
    const struct sheet *s = look->s;
    for (size_t i = 0; i < s->counts[SHEET_PARTS] && !look->flaw; i++)
        part_is_sound(look, &s->parts[i], used);
    must(look, used->points == s->counts[SHEET_POINTS] && used->kinds == s->counts[SHEET_KINDS],
         "there are points of no line");
    for (size_t i = 0; i < s->counts[SHEET_POINTS] && !look->flaw; i++)
        must(look, is_place(s->points[i].x) && is_place(s->points[i].y), "a point has no place");
}

/* What an item of each kind has beside its parts. */
static void extra_is_sound(struct look *look, const struct sheet_item *m, struct used *used)
{
    const struct sheet *s = look->s;
    switch (m->kind) {
    case SHEET_PATH:
        must(look, m->text == SHEET_NONE && m->extra == SHEET_NONE && m->part_count > 0, "a path is not a path alone");
        return;
    case SHEET_RUN:
        must(look, m->extra == used->runs && is_index(m->text, s->counts[SHEET_TEXTS]),
             "a run of text is out of place");
        used->runs++;
        return;
    case SHEET_IMAGE:
        must(look, m->extra == used->images && m->text == SHEET_NONE && m->part_count == 0, "an image is out of place");
        used->images++;
        return;
    }
    must(look, false, "an item is of no kind");
}

/* A clip that was named before, or the next one. */
static void clip_is_sound(struct look *look, uint32_t clip, struct used *used)
{
    if (clip == SHEET_NONE)
        return;
    must(look, clip <= used->clips && clip < look->s->counts[SHEET_CLIPS], "an item's clip is out of place");
    used->clips += clip == used->clips;
}

static void items_are_sound(struct look *look, struct used *used)
{
    const struct sheet *s = look->s;
    size_t page = 0;
    for (size_t i = 0; i < s->counts[SHEET_ITEMS] && !look->flaw; i++) {
        const struct sheet_item *m = &s->items[i];
        while (i >= (size_t)s->pages[page].first_item + s->pages[page].item_count)
            page++; /* the pages hold all items, packed */
        must(look, m->page == page, "an item is on another page than it says");
        must(look, is_index(m->style, s->counts[SHEET_STYLES]), "an item has no style");
        must(look, is_index_or_none(m->layer, s->counts[SHEET_LAYERS]), "an item is on no layer there is");
        must(look, m->first_part == used->parts && m->part_count <= s->counts[SHEET_PARTS] - used->parts,
             "an item's lines are out of place");
        used->parts += m->part_count;
        clip_is_sound(look, m->clip, used);
        extra_is_sound(look, m, used);
    }
    must(look,
         used->parts == s->counts[SHEET_PARTS] && used->runs == s->counts[SHEET_RUNS] &&
             used->images == s->counts[SHEET_IMAGES] && used->clips == s->counts[SHEET_CLIPS],
         "there are lines, texts, images or clips of no item");
}

static void notes_are_sound(struct look *look)
{
    const struct sheet *s = look->s;
    must(look, s->counts[SHEET_NOTES] <= SHEET_NOTES_MOST, "it has too many notes");
    for (size_t i = 0; i < s->counts[SHEET_NOTES] && !look->flaw; i++)
        must(look, s->notes[i].code < SHEET_NOTE_CODES && is_index_or_none(s->notes[i].text, s->counts[SHEET_TEXTS]),
             "a note says nothing that is known");
}

bool sheet_validate(const void *bytes, size_t count, struct sheet *out, const char **flaw)
{
    struct look look = { out, NULL };
    struct used used = { 0 };
    const struct sheet_head *head = bytes;
    *out = (struct sheet){ 0 };
    if (must(&look, count >= sizeof *head && count <= SHEET_RESULT_MOST, "it is too short or too long") &&
        head_is_sound(&look, head, count) && sections_are_sound(&look, head, bytes)) {
        out->bytes = bytes;
        out->byte_count = count;
        view_sections(out, head, bytes);
        texts_are_sound(&look);
        pages_are_sound(&look);
        layers_are_sound(&look);
        styles_are_sound(&look, &used);
        clips_are_sound(&look);
        runs_are_sound(&look);
        images_are_sound(&look, &used);
        parts_are_sound(&look, &used);
        if (!look.flaw)
            items_are_sound(&look, &used); /* which walks the pages */
        notes_are_sound(&look);
    }
    *flaw = look.flaw;
    if (look.flaw)
        *out = (struct sheet){ 0 };
    return !look.flaw;
}

const char *sheet_text_at(const struct sheet *s, uint32_t text)
{
    return text == SHEET_NONE ? "" : s->text_bytes + s->texts[text].first_byte;
}
