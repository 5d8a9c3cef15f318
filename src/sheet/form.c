#include "sheet/form.h"

#include <stddef.h>

_Static_assert(sizeof(struct sheet_page) == 32 && sizeof(struct sheet_layer) == 16 &&
                   sizeof(struct sheet_style) == 24 && sizeof(struct sheet_clip) == 40 &&
                   sizeof(struct sheet_item) == 36 && sizeof(struct sheet_part) == 16 &&
                   sizeof(struct sheet_run) == 40 && sizeof(struct sheet_image) == 64 &&
                   sizeof(struct sheet_text) == 8 && sizeof(struct sheet_note) == 16 &&
                   sizeof(struct sheet_point) == 16 && sizeof(struct sheet_orders) == 16,
               "the form has no gaps but those it names");
_Static_assert(offsetof(struct sheet_head, sections) == 40, "the head has no gaps");
_Static_assert(sizeof(SHEET_BUILD_ID) > SHEET_BUILD_BYTES, "the build's name is long enough");

const uint8_t sheet_element_bytes[SHEET_SECTIONS] = {
    [SHEET_PAGES] = sizeof(struct sheet_page),
    [SHEET_LAYERS] = sizeof(struct sheet_layer),
    [SHEET_STYLES] = sizeof(struct sheet_style),
    [SHEET_CLIPS] = sizeof(struct sheet_clip),
    [SHEET_ITEMS] = sizeof(struct sheet_item),
    [SHEET_PARTS] = sizeof(struct sheet_part),
    [SHEET_RUNS] = sizeof(struct sheet_run),
    [SHEET_IMAGES] = sizeof(struct sheet_image),
    [SHEET_TEXTS] = sizeof(struct sheet_text),
    [SHEET_NOTES] = sizeof(struct sheet_note),
    [SHEET_POINTS] = sizeof(struct sheet_point),
    [SHEET_NUMBERS] = sizeof(double),
    [SHEET_KINDS] = 1,
    [SHEET_BYTES] = 1,
    [SHEET_PIXELS] = 1,
};

void sheet_build_id(uint8_t id[SHEET_BUILD_BYTES])
{
    for (size_t i = 0; i < SHEET_BUILD_BYTES; i++)
        id[i] = (uint8_t)SHEET_BUILD_ID[i];
}

uint64_t sheet_aligned(uint64_t offset)
{
    return (offset + 7) & ~(uint64_t)7;
}
