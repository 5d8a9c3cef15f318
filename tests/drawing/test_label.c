#include "drawing/label.h"
#include "support/cmocka_all.h"

/* What people print in the corners of pages; by hand, no source. */
static void labels_of_pages_are_read(void **state)
{
    static const struct {
        const char *text;
        enum drawing_label_kind kind;
        int first, second;
    } rows[] = {
        { "A1", DRAWING_LABEL_LETTER, 1, 1 },
        { "B2", DRAWING_LABEL_LETTER, 2, 2 },
        { "AB12", DRAWING_LABEL_LETTER, 28, 12 },
        { "c-4", DRAWING_LABEL_LETTER, 3, 4 },
        { "1a", DRAWING_LABEL_LETTER, 1, 1 },
        { "12 d", DRAWING_LABEL_LETTER, 4, 12 },
        { "Page C7", DRAWING_LABEL_LETTER, 3, 7 },
        { "Seite 2b", DRAWING_LABEL_LETTER, 2, 2 },
        { "P3", DRAWING_LABEL_LETTER, 16, 3 },
        { "1/24", DRAWING_LABEL_OF, 1, 24 },
        { "Page 3 of 24", DRAWING_LABEL_OF, 3, 24 },
        { "PAGE 3 OF 24", DRAWING_LABEL_OF, 3, 24 },
        { "Seite 3 von 24", DRAWING_LABEL_OF, 3, 24 },
        { "Blatt 7 / 9", DRAWING_LABEL_OF, 7, 9 },
        { "(3 of 24)", DRAWING_LABEL_OF, 3, 24 },
        { "page 3", DRAWING_LABEL_RUNNING, 3, 0 },
        { "No. 17", DRAWING_LABEL_RUNNING, 17, 0 },
        { "Seite: 5", DRAWING_LABEL_RUNNING, 5, 0 },
        { "- 3 -", DRAWING_LABEL_NUMBER, 3, 0 },
        { "#12", DRAWING_LABEL_NUMBER, 12, 0 },
        { "row 2, column 3", DRAWING_LABEL_ROW_COLUMN, 2, 3 },
        { "column 3, row 2", DRAWING_LABEL_ROW_COLUMN, 2, 3 },
        { "Reihe 2 Spalte 3", DRAWING_LABEL_ROW_COLUMN, 2, 3 },
        { "Row B, Col. 4", DRAWING_LABEL_ROW_COLUMN, 2, 4 },
        { "R2C3", DRAWING_LABEL_ROW_COLUMN, 2, 3 },
        { "Zeile 4", DRAWING_LABEL_ROW, 4, 0 },
        { "Column 5", DRAWING_LABEL_COLUMN, 0, 5 },
        { "2-3", DRAWING_LABEL_PAIR, 2, 3 },
        { "2 x 3", DRAWING_LABEL_PAIR, 2, 3 },
        { "9/4", DRAWING_LABEL_PAIR, 9, 4 },
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct drawing_label got = drawing_label_read(rows[i].text);
        if (got.kind != rows[i].kind || got.first != rows[i].first || got.second != rows[i].second)
            fail_msg("“%s” is read as %d: %d, %d", rows[i].text, (int)got.kind, got.first, got.second);
    }
}

static void other_words_are_no_labels(void **state)
{
    static const char *const rows[] = { "",
                                        "cut 2",
                                        "glue here",
                                        "Front",
                                        "999999999999999999999",
                                        "row 999999",
                                        "column ZZZ",
                                        "cut 2 on fold of fabric and 1 of interfacing",
                                        "....",
                                        "Reihe",
                                        "x",
                                        "Größe 36",
                                        "1 2 3 4 5 6 7 8 9 10 11 12 13" };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (drawing_label_read(rows[i]).kind != DRAWING_LABEL_NONE)
            fail_msg("“%s” is read as a label", rows[i]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(labels_of_pages_are_read),
        cmocka_unit_test(other_words_are_no_labels),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
