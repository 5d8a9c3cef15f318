/* Any text as a pattern; the cutting lists of its views come out as CSV whose quotes are closed and as sheets whose
 * tags are, whatever its names hold. */
#include "export/csv.h"
#include "export/worksheet.h"
#include "fuzz/fuzz.h"
#include "pattern/read.h"
#include "support/at_size.h"

#include <math.h>
#include <stdbool.h>

static size_t times(const char *text, char c)
{
    size_t count = 0;
    for (; *text; text++)
        count += *text == c;
    return count;
}

static void have_no_control_characters(const char *text)
{
    for (; *text; text++)
        fuzz_must((unsigned char)*text >= 0x20 || *text == '\n' || *text == '\r');
}

static void list_view(struct arena *a, const struct pattern *p, int view, int group)
{
    struct err_list *errs = base_err_list_create();
    struct export_words w = { .a = a, .unit = p->unit, .fraction = 8 };
    struct draft draft;
    if (make_at_size(a, p, (double)(p->size_count - 1) / 2, group, view, &draft, errs)) {
        struct export_list list = export_list_of(a, p, view, &draft);
        const char *csv = export_csv_list(&w, &list);
        have_no_control_characters(csv);
        fuzz_must(times(csv, '"') % 2 == 0);
        for (size_t page = 0; page < export_worksheet_pages(&list) && page < 3; page++) {
            const char *sheet = export_worksheet_page(&w, &list, page);
            have_no_control_characters(sheet);
            fuzz_must(times(sheet, '<') == times(sheet, '>') && times(sheet, '"') % 2 == 0);
        }
    }
    base_err_list_destroy(errs);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    const struct pattern *p = pattern_parse(a, "fuzz", (const char *)data, size, errs);
    for (size_t v = 0; p && v < p->view_count; v++)
        list_view(a, p, (int)v, p->cup_group_count ? 0 : PATTERN_NONE);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
