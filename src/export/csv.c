#include "export/csv.h"

#include "base/buffer.h"
#include "base/text.h"

#include <string.h>

enum column {
    COLUMN_KIND,
    COLUMN_NAME,
    COLUMN_LABEL,
    COLUMN_COUNT,
    COLUMN_PAIRS,
    COLUMN_HAND,
    COLUMN_MATERIAL,
    COLUMN_FUSE,
    COLUMN_FOLD,
    COLUMN_FINISHED_WIDTH,
    COLUMN_FINISHED_HEIGHT,
    COLUMN_CUT_WIDTH,
    COLUMN_CUT_HEIGHT,
    COLUMN_OPENED_WIDTH,
    COLUMN_OPENED_HEIGHT,
    COLUMN_SIZE,
    COLUMN_LENGTH,
    COLUMN_UNIT,
    COLUMN_ROUNDED,
    COLUMN_FULLNESS,
    COLUMN_BLOCK,
    COLUMNS
};

static const char *const headings[COLUMNS] = {
    [COLUMN_KIND] = "kind",
    [COLUMN_NAME] = "name",
    [COLUMN_LABEL] = "label",
    [COLUMN_COUNT] = "count",
    [COLUMN_PAIRS] = "pairs",
    [COLUMN_HAND] = "hand",
    [COLUMN_MATERIAL] = "material",
    [COLUMN_FUSE] = "fused on",
    [COLUMN_FOLD] = "on the fold",
    [COLUMN_FINISHED_WIDTH] = "finished width",
    [COLUMN_FINISHED_HEIGHT] = "finished height",
    [COLUMN_CUT_WIDTH] = "cut width",
    [COLUMN_CUT_HEIGHT] = "cut height",
    [COLUMN_OPENED_WIDTH] = "opened width",
    [COLUMN_OPENED_HEIGHT] = "opened height",
    [COLUMN_SIZE] = "size",
    [COLUMN_LENGTH] = "length",
    [COLUMN_UNIT] = "unit",
    [COLUMN_ROUNDED] = "rounded",
    [COLUMN_FULLNESS] = "fullness",
    [COLUMN_BLOCK] = "block",
};

struct row {
    const struct export_words *w;
    const char *fields[COLUMNS];
    bool rounded;
};

const char *export_csv_field(struct arena *a, const char *text)
{
    const char *plain = base_text_plain(a, text);
    if (!strpbrk(plain, ",\"\n"))
        return plain;
    char *quoted = base_arena_alloc(a, 2 * strlen(plain) + 3, 1), *to = quoted;
    *to++ = '"';
    for (const char *p = plain; *p; p++) {
        if (*p == '"')
            *to++ = '"';
        *to++ = *p;
    }
    *to = '"';
    return quoted;
}

static void add_row(struct base_buffer *out, const struct row *row)
{
    for (int c = 0; c < COLUMNS; c++)
        base_buffer_print(out, "%s%s", c ? "," : "", row->fields[c] ? export_csv_field(row->w->a, row->fields[c]) : "");
    base_buffer_print(out, "\r\n");
}

/* A length that is not given stays empty. Sixteenths of an inch have four decimals. */
static void set_length(struct row *row, enum column column, double mm)
{
    if (!(mm > 0))
        return;
    const struct export_words *w = row->w;
    row->fields[column] = base_arena_print(w->a, "%.10g", export_mark(w, mm) / units_mm_per(w->unit));
    row->fields[COLUMN_UNIT] = units_name(w->unit);
    row->rounded = row->rounded || export_is_rounded(w, mm);
}

/* A height stands behind its width. */
static void set_extent(struct row *row, enum column width, struct export_extent e)
{
    set_length(row, width, e.width_mm);
    set_length(row, width + 1, e.height_mm);
}

static void set_number(struct row *row, enum column column, int number)
{
    row->fields[column] = base_arena_print(row->w->a, "%d", number);
}

static const char *yes_or_no(bool yes)
{
    return yes ? "yes" : "no";
}

static void set_count(struct row *row, const struct draft_cut *cut)
{
    static const char *const hands[] = {
        [PATTERN_AS_DRAWN] = "", [PATTERN_LEFT] = "left", [PATTERN_RIGHT] = "right", [PATTERN_PAIRS] = "both"
    };
    set_number(row, COLUMN_COUNT, cut->count);
    if (cut->hand == PATTERN_PAIRS)
        set_number(row, COLUMN_PAIRS, cut->count / 2);
    row->fields[COLUMN_HAND] = hands[cut->hand];
    row->fields[COLUMN_MATERIAL] = pattern_cloth_name(cut->cloth);
    if (cut->cloth == PATTERN_INTERFACING)
        row->fields[COLUMN_FUSE] = pattern_side_name(cut->fuse);
}

static void add_line(struct base_buffer *out, const struct export_words *w, const struct export_list *list,
                     const struct export_line *line)
{
    struct row row = { .w = w };
    row.fields[COLUMN_KIND] = line->is_block ? "block" : line->is_rectangle ? "rectangle" : "drawn";
    row.fields[COLUMN_NAME] = line->piece->name;
    row.fields[COLUMN_LABEL] = line->piece->label;
    set_count(&row, &line->cut);
    row.fields[COLUMN_FOLD] = yes_or_no(line->piece->has_fold);
    row.fields[COLUMN_BLOCK] = export_block_text(w, list, line);
    if (line->is_rectangle && !line->is_block)
        set_extent(&row, COLUMN_FINISHED_WIDTH, line->finished);
    set_extent(&row, COLUMN_CUT_WIDTH, line->as_cut);
    if (line->piece->has_fold)
        set_extent(&row, COLUMN_OPENED_WIDTH, line->opened);
    row.fields[COLUMN_ROUNDED] = yes_or_no(row.rounded);
    const char *fullness = "";
    for (size_t i = 0; i < line->fullness_count; i++)
        fullness = base_arena_print(w->a, "%s%s%s", fullness, i ? "; " : "",
                                    export_fullness_text(w, list, line, &line->fullness[i]));
    row.fields[COLUMN_FULLNESS] = fullness;
    add_row(out, &row);
}

static void add_notion(struct base_buffer *out, const struct export_words *w, const struct draft_notion *notion)
{
    struct row row = { .w = w };
    row.fields[COLUMN_KIND] = "notion";
    row.fields[COLUMN_NAME] = notion->name;
    set_number(&row, COLUMN_COUNT, notion->count);
    set_length(&row, COLUMN_SIZE, notion->size_mm);
    set_length(&row, COLUMN_LENGTH, notion->length_mm);
    row.fields[COLUMN_ROUNDED] = yes_or_no(row.rounded);
    add_row(out, &row);
}

const char *export_csv_list(const struct export_words *w, const struct export_list *list)
{
    struct base_buffer out = { .a = w->a };
    struct row titles = { .w = w };
    memcpy(titles.fields, headings, sizeof headings);
    add_row(&out, &titles);
    for (size_t i = 0; i < list->line_count; i++)
        add_line(&out, w, list, &list->lines[i]);
    for (size_t i = 0; i < list->notion_count; i++)
        add_notion(&out, w, &list->notions[i]);
    return base_buffer_text(&out);
}
