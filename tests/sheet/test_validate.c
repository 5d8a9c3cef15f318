/* What a result has to be: one that the reader's own writer made is taken as it was drawn, and each number that is
 * spoiled in it is found. The expected values are those of drawn.h, laid out by hand. */
#include "sheet/drawn.h"
#include "sheet/sheet.h"
#include "support/room.h"

#include <stddef.h>

struct drawn {
    unsigned char *bytes;
    size_t count;
};

static int draw(void **state)
{
    static struct drawn d;
    struct collect *c = draw_sheet();
    d.bytes = drawn_bytes(c, &d.count);
    collect_destroy(c);
    *state = &d;
    return d.bytes ? 0 : -1;
}

static int drop(void **state)
{
    free(((struct drawn *)*state)->bytes);
    return 0;
}

static void what_was_drawn_comes_back(void **state)
{
    const struct drawn *d = *state;
    struct sheet s;
    const char *flaw = NULL;
    assert_true(sheet_validate(d->bytes, d->count, &s, &flaw));
    assert_null(flaw);
    assert_int_equal(s.counts[SHEET_PAGES], 2);
    assert_near(s.pages[0].height_mm, 297, 0);
    assert_string_equal(sheet_text_at(&s, s.pages[0].label_text), "A 1");
    assert_string_equal(sheet_text_at(&s, s.pages[1].label_text), "");
    assert_int_equal(s.pages[0].item_count, 3);
    assert_int_equal(s.counts[SHEET_LAYERS], 2);
    assert_int_equal(s.layers[1].parent, 0);
    assert_string_equal(sheet_text_at(&s, s.layers[1].name_text), "größe 10");
    assert_int_equal(s.items[0].part_count, 2);
    assert_int_equal(s.parts[0].segment_count, 2);
    assert_int_equal(s.parts[0].closed, 1);
    assert_int_equal(s.parts[1].closed, 0);
    assert_int_equal(s.kinds[1], SHEET_CUBIC);
    assert_near(s.points[s.parts[1].first_point + 1].y, 7, 0);
    const struct sheet_style *dashed = &s.styles[s.items[0].style];
    assert_int_equal(dashed->dash_count, 3);
    assert_near(s.numbers[dashed->first_dash + 1], 2, 0);
    assert_int_equal(s.counts[SHEET_CLIPS], 2);
    assert_int_equal(s.items[0].clip, 0);
    assert_int_equal(s.items[1].clip, SHEET_NONE); /* its clip is larger than the page */
    assert_int_equal(s.items[2].clip, 1);
    assert_int_equal(s.items[3].clip, 0); /* the same box again */
    assert_near(s.clips[0].y1, 50, 0);
    assert_int_equal(s.clips[0].flags, 0);
    assert_near(s.clips[1].y1, SHEET_COORDINATE_MOST, 0);
    assert_int_equal(s.clips[1].flags, SHEET_CLIP_SHAPED);
    assert_int_equal(s.items[1].kind, SHEET_RUN);
    assert_near(s.runs[0].dy, 1, 0); /* (0, 2) at length 1 */
    assert_string_equal(sheet_text_at(&s, s.items[1].text), "cut 2");
    assert_int_equal(s.pixels[s.images[0].first_byte + 2], 255);
    assert_int_equal(s.notes[0].code, SHEET_NOTE_LEFT_OUT);
}

/* Where the first element of a section starts. */
static size_t at(const struct drawn *d, enum sheet_section section)
{
    return (size_t)((const struct sheet_head *)(const void *)d->bytes)->sections[section].offset;
}

struct spoil {
    const char *flaw;
    int section;   /* -1: the head */
    size_t offset; /* within it */
    uint64_t bits; /* written there */
    size_t size;
};

#define FIELD(type, member) offsetof(struct type, member)
#define NOT_A_NUMBER 0x7ff8000000000000u
#define INFINITE 0x7ff0000000000000u
#define BELOW_ZERO 0xbff0000000000000u /* -1 */
#define FAR_AWAY 0x416312d00ccccccdu   /* a little over 1e7, IEEE 754 */

static const struct spoil spoils[] = {
    { "it does not begin as a result", -1, 0, 'X', 1 },
    { "its writer belongs to another build", -1, FIELD(sheet_head, version), 2, 4 },
    { "its writer belongs to another build", -1, FIELD(sheet_head, build_id), 0, 1 },
    { "its head has another size", -1, FIELD(sheet_head, head_bytes), 8, 4 },
    { "it is not as long as it says", -1, FIELD(sheet_head, total_bytes), 1, 8 },
    { "a section is not where it belongs", -1, FIELD(sheet_head, sections), 8, 8 },
    { "a section is not where it belongs", -1, FIELD(sheet_head, sections) + 16, UINT64_MAX, 8 },
    { "a section runs over the end", -1, FIELD(sheet_head, sections) + 8, UINT64_MAX / 32, 8 },
    { "a section is not where it belongs", -1, FIELD(sheet_head, sections) + 8, 1, 8 },
    { "something follows the last section", -1, FIELD(sheet_head, sections) + 16 * SHEET_PIXELS + 8, 5, 8 },
    { "a page has no size", SHEET_PAGES, 0, NOT_A_NUMBER, 8 },
    { "a page has no size", SHEET_PAGES, 0, 0, 8 },
    { "a page has no size", SHEET_PAGES, 8, FAR_AWAY, 8 },
    { "a page's items are out of place", SHEET_PAGES, FIELD(sheet_page, first_item), 1, 4 },
    { "a page's items are out of place", SHEET_PAGES, FIELD(sheet_page, item_count), UINT32_MAX, 4 },
    { "a page's items are out of place", SHEET_PAGES, FIELD(sheet_page, item_count), 2, 4 },
    { "a page's label is no text", SHEET_PAGES, FIELD(sheet_page, label_text), 99, 4 },
    { "a page holds what it should not", SHEET_PAGES, FIELD(sheet_page, reserved), 1, 4 },
    { "a layer's parent does not stand before it", SHEET_LAYERS, FIELD(sheet_layer, parent), 0, 4 },
    { "a layer's parent does not stand before it", SHEET_LAYERS, FIELD(sheet_layer, parent), 1, 4 },
    { "a layer's name is no text", SHEET_LAYERS, FIELD(sheet_layer, name_text), UINT32_MAX, 4 },
    { "a layer holds what it should not", SHEET_LAYERS, FIELD(sheet_layer, flags), 8, 4 },
    { "a line's width is no length", SHEET_STYLES, 0, BELOW_ZERO, 8 },
    { "a style holds what it should not", SHEET_STYLES, FIELD(sheet_style, rgb), 0x1000000, 4 },
    { "a style holds what it should not", SHEET_STYLES, FIELD(sheet_style, flags), 64, 2 },
    { "a line's dashes are out of place", SHEET_STYLES, FIELD(sheet_style, dash_count), 4, 2 },
    { "a line's dashes are out of place", SHEET_STYLES, FIELD(sheet_style, dash_count), 2, 2 },
    { "a dash is no length", SHEET_NUMBERS, 8, BELOW_ZERO, 8 },
    { "an item is of no kind", SHEET_ITEMS, FIELD(sheet_item, kind), 3, 4 },
    { "an item has no style", SHEET_ITEMS, FIELD(sheet_item, style), 99, 4 },
    { "an item is on no layer there is", SHEET_ITEMS, FIELD(sheet_item, layer), 2, 4 },
    { "an item is on another page than it says", SHEET_ITEMS, FIELD(sheet_item, page), 1, 4 },
    { "an item's lines are out of place", SHEET_ITEMS, FIELD(sheet_item, first_part), 1, 4 },
    { "an item's lines are out of place", SHEET_ITEMS, FIELD(sheet_item, part_count), 1, 4 },
    { "an item's lines are out of place", SHEET_ITEMS, FIELD(sheet_item, part_count), UINT32_MAX, 4 },
    { "a path is not a path alone", SHEET_ITEMS, FIELD(sheet_item, text), 0, 4 },
    { "a path is not a path alone", SHEET_ITEMS, FIELD(sheet_item, extra), 0, 4 },
    { "a clip is no box", SHEET_CLIPS, FIELD(sheet_clip, x0), NOT_A_NUMBER, 8 },
    { "a clip is no box", SHEET_CLIPS, FIELD(sheet_clip, x1), BELOW_ZERO, 8 },
    { "a clip is no box", SHEET_CLIPS, FIELD(sheet_clip, y1), FAR_AWAY, 8 },
    { "a clip holds what it should not", SHEET_CLIPS, FIELD(sheet_clip, flags), 2, 4 },
    { "a clip holds what it should not", SHEET_CLIPS, FIELD(sheet_clip, reserved), 1, 4 },
    { "an item's clip is out of place", SHEET_ITEMS, FIELD(sheet_item, clip), 1, 4 },
    { "an item's clip is out of place", SHEET_ITEMS, FIELD(sheet_item, clip), 2, 4 },
    { "there are lines, texts, images or clips of no item", SHEET_ITEMS,
      2 * sizeof(struct sheet_item) + FIELD(sheet_item, clip), 0, 4 },
    { "a run of text is out of place", SHEET_ITEMS, sizeof(struct sheet_item) + FIELD(sheet_item, extra), 1, 4 },
    { "an image is out of place", SHEET_ITEMS, 2 * sizeof(struct sheet_item) + FIELD(sheet_item, extra), 1, 4 },
    { "a line's points are out of place", SHEET_PARTS, FIELD(sheet_part, first_point), 1, 4 },
    { "a line's segments are out of place", SHEET_PARTS, FIELD(sheet_part, first_kind), 1, 4 },
    { "a line's segments are out of place", SHEET_PARTS, FIELD(sheet_part, segment_count), UINT32_MAX, 4 },
    { "a line is neither open nor closed", SHEET_PARTS, FIELD(sheet_part, closed), 2, 4 },
    { "a segment is of no kind", SHEET_KINDS, 0, 2, 1 },
    { "a line's points are out of place", SHEET_KINDS, 0, SHEET_CUBIC, 1 },
    { "a point has no place", SHEET_POINTS, 0, INFINITE, 8 },
    { "a point has no place", SHEET_POINTS, 24, NOT_A_NUMBER, 8 },
    { "a point has no place", SHEET_POINTS, 8, FAR_AWAY, 8 },
    { "a run of text has no place", SHEET_RUNS, 0, INFINITE, 8 },
    { "a run of text has no direction", SHEET_RUNS, FIELD(sheet_run, dy), 0, 8 },
    { "a run of text has no place", SHEET_RUNS, FIELD(sheet_run, size_mm), BELOW_ZERO, 8 },
    { "an image has no place", SHEET_IMAGES, 0, NOT_A_NUMBER, 8 },
    { "an image is too large", SHEET_IMAGES, FIELD(sheet_image, width), 65536, 4 },
    { "an image's pixels are out of place", SHEET_IMAGES, FIELD(sheet_image, height), 3, 4 },
    { "an image's pixels are out of place", SHEET_IMAGES, FIELD(sheet_image, first_byte), 1, 8 },
    { "there are pixels of no image", SHEET_IMAGES, FIELD(sheet_image, height), 1, 4 },
    { "a text is out of place", SHEET_TEXTS, 0, 1, 4 },
    { "a text is out of place", SHEET_TEXTS, FIELD(sheet_text, byte_count), UINT32_MAX, 4 },
    { "a text does not end where it says", SHEET_TEXTS, FIELD(sheet_text, byte_count), 2, 4 },
    { "a text is not UTF-8", SHEET_BYTES, 0, 0xff, 1 },
    { "a text does not end where it says", SHEET_BYTES, 1, 0, 1 },
    { "a note says nothing that is known", SHEET_NOTES, 0, SHEET_NOTE_CODES, 4 },
    { "a note says nothing that is known", SHEET_NOTES, FIELD(sheet_note, text), 99, 4 },
};

static void each_spoiled_number_is_found(void **state)
{
    struct drawn *d = *state;
    size_t wrong = 0;
    unsigned char *kept = malloc(d->count);
    memcpy(kept, d->bytes, d->count);
    for (size_t i = 0; i < sizeof spoils / sizeof spoils[0]; i++) {
        const struct spoil *p = &spoils[i];
        struct sheet s;
        const char *flaw = NULL;
        memcpy(d->bytes + (p->section < 0 ? 0 : at(d, (enum sheet_section)p->section)) + p->offset, &p->bits, p->size);
        bool taken = sheet_validate(d->bytes, d->count, &s, &flaw);
        if (taken || !flaw || strcmp(flaw, p->flaw) != 0 || s.bytes) {
            print_error("row %zu: want “%s”, got “%s”\n", i, p->flaw, flaw ? flaw : "nothing");
            wrong++;
        }
        memcpy(d->bytes, kept, d->count);
    }
    free(kept);
    assert_int_equal(wrong, 0);
}

static void a_gap_that_is_not_empty_is_found(void **state)
{
    struct drawn *d = *state;
    const struct sheet_head *head = (const void *)d->bytes;
    struct sheet s;
    const char *flaw = NULL;
    size_t end = at(d, SHEET_KINDS) + head->sections[SHEET_KINDS].count;
    assert_true(end % 8 != 0);
    d->bytes[end] = 1;
    assert_false(sheet_validate(d->bytes, d->count, &s, &flaw));
    assert_string_equal(flaw, "a gap between sections is not empty");
}

/* Cut anywhere, whatever the head says of its length. */
static void no_part_of_a_result_is_a_result(void **state)
{
    struct drawn *d = *state;
    struct sheet s;
    const char *flaw = NULL;
    for (size_t count = 0; count < d->count; count++) {
        unsigned char *part = malloc(count + !count);
        memcpy(part, d->bytes, count);
        uint64_t total = count;
        if (count >= sizeof(struct sheet_head))
            memcpy(part + offsetof(struct sheet_head, total_bytes), &total, sizeof total);
        assert_false(sheet_validate(part, count, &s, &flaw));
        free(part);
    }
}

#define drawn_test(f) cmocka_unit_test_setup_teardown((f), draw, drop)

int main(void)
{
    const struct CMUnitTest tests[] = {
        drawn_test(what_was_drawn_comes_back),
        drawn_test(each_spoiled_number_is_found),
        drawn_test(a_gap_that_is_not_empty_is_found),
        drawn_test(no_part_of_a_result_is_a_result),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
