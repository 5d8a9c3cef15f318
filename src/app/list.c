#include "app/list.h"

#include "app/columns.h"
#include "base/buffer.h"
#include "base/text.h"
#include "base/words.h"

#include <string.h>

enum column { COLUMN_PIECE, COLUMN_CUT, COLUMN_KIND, COLUMN_AS_CUT, COLUMN_FINISHED, COLUMNS };

struct row {
    const char *cells[COLUMNS];
};

static struct row row_of(const struct export_words *w, const struct export_line *line)
{
    const char *count = export_count_text(w, &line->cut);
    struct row row = { {
        [COLUMN_PIECE] = export_piece_text(w, line->piece),
        [COLUMN_CUT] = line->piece->has_fold ? base_arena_print(w->a, base_tr("%s on the fold"), count) : count,
        [COLUMN_KIND] = line->is_rectangle ? base_tr("rectangle") : base_tr("drawn"),
        [COLUMN_FINISHED] = line->is_rectangle && !line->is_block ? export_extent_text(w, line->finished) : "",
        [COLUMN_AS_CUT] = export_extent_text(w, line->as_cut),
    } };
    return row;
}

static void add_title(struct base_buffer *out, const struct export_list *list)
{
    struct arena *a = out->a;
    const char *label = list->view->label, *name = list->view->shown;
    bool same = strcmp(label, name) == 0;
    /* To: “Pinafore, view A: with pockets” */
    const char *title = same ? base_arena_print(a, base_tr("%s, view %s"), list->pattern->name, name)
                             : base_arena_print(a, base_tr("%s, view %s: %s"), list->pattern->name, name, label);
    base_buffer_print(out, "%s\n%s\n", base_text_one_line(a, title), base_text_one_line(a, list->whom));
}

static void add_end(struct base_buffer *out, const struct export_words *w, const struct export_list *list)
{
    if (list->notion_count)
        base_buffer_print(out, base_tr("\n  Notions\n"));
    for (size_t i = 0; i < list->notion_count; i++)
        base_buffer_print(out, "  %s\n", export_notion_text(w, &list->notions[i]));
    if (strstr(base_buffer_text(out), EXPORT_ROUNDED_MARK))
        base_buffer_print(out, "\n%s\n", export_rounding_text(w));
}

/* What a line says beside its row. */
static void add_below(struct base_buffer *out, const struct export_words *w, const struct export_list *list,
                      const struct export_line *line)
{
    const char *block = export_block_text(w, list, line);
    if (line->piece->has_fold)
        base_buffer_print(out, base_tr("      opened out, as cut %s\n"), export_extent_text(w, line->opened));
    if (block)
        base_buffer_print(out, "      %s\n", block);
    for (size_t f = 0; f < line->fullness_count; f++)
        base_buffer_print(out, "      %s\n", export_fullness_text(w, list, line, &line->fullness[f]));
}

static bool is_same_cloth(const struct draft_cut *a, const struct draft_cut *b)
{
    return a->cloth == b->cloth && a->fuse == b->fuse;
}

/* Whether no line before this one is of its cloth. */
static bool is_first_of_cloth(const struct export_list *list, size_t line)
{
    size_t i = 0;
    while (i < line && !is_same_cloth(&list->lines[i].cut, &list->lines[line].cut))
        i++;
    return i == line;
}

static struct row titles_of(const struct export_words *w, const struct draft_cut *cut)
{
    struct row titles = { { NULL, base_tr_in("heading", "cut"), base_tr("shape"), base_tr("as cut"),
                            base_tr("finished") } };
    titles.cells[COLUMN_PIECE] = base_text_capital(w->a, export_cloth_text(w->a, cut));
    return titles;
}

static void add_cloth(struct base_buffer *out, const struct export_words *w, const struct export_list *list,
                      const size_t widths[COLUMNS], size_t first)
{
    const struct draft_cut *cut = &list->lines[first].cut;
    struct row titles = titles_of(w, cut);
    base_buffer_print(out, "\n");
    app_columns_add(out, widths, titles.cells, COLUMNS);
    for (size_t i = first; i < list->line_count; i++) {
        if (!is_same_cloth(&list->lines[i].cut, cut))
            continue;
        struct row row = row_of(w, &list->lines[i]);
        app_columns_add(out, widths, row.cells, COLUMNS);
        add_below(out, w, list, &list->lines[i]);
    }
}

const char *app_list_table(const struct export_words *w, const struct export_list *list)
{
    struct base_buffer out = { .a = w->a };
    size_t widths[COLUMNS] = { 0 };
    for (size_t i = 0; i < list->line_count; i++) {
        struct row row = row_of(w, &list->lines[i]), titles = titles_of(w, &list->lines[i].cut);
        app_columns_widen(widths, row.cells, COLUMNS);
        app_columns_widen(widths, titles.cells, COLUMNS);
    }
    add_title(&out, list);
    for (size_t i = 0; i < list->line_count; i++)
        if (is_first_of_cloth(list, i))
            add_cloth(&out, w, list, widths, i);
    add_end(&out, w, list);
    return base_buffer_text(&out);
}

static void extent_json(struct json_out *to, const char *name, struct export_extent extent)
{
    struct json_out *object = json_out_object(to, name);
    json_out_number(object, "width_mm", extent.width_mm);
    json_out_number(object, "height_mm", extent.height_mm);
}

static void fullness_json(struct json_out *rows, const struct export_list *list, const struct export_line *line,
                          const struct fit_fullness *f)
{
    struct json_out *row = json_out_object(rows, NULL);
    json_out_text(row, "kind", fit_fullness_name(f->kind));
    json_out_text(row, "edge", list->pattern->pieces[line->piece->index].edges[f->edge].name);
    json_out_text(row, "seam", list->pattern->seams[f->seam].name);
    json_out_number(row, "from_mm", f->from_mm);
    json_out_number(row, "to_mm", f->to_mm);
    json_out_bool(row, "half", f->is_half);
    json_out_bool(row, "with_others", f->with_others);
    if (f->interval_count) {
        json_out_number(row, "interval", (double)f->interval + 1);
        json_out_number(row, "intervals", (double)f->interval_count);
    }
}

static void line_json(struct json_out *rows, const struct export_list *list, const struct export_line *line)
{
    static const char *const hands[] = {
        [PATTERN_AS_DRAWN] = NULL, [PATTERN_LEFT] = "left", [PATTERN_RIGHT] = "right", [PATTERN_PAIRS] = "both"
    };
    struct json_out *row = json_out_object(rows, NULL);
    json_out_text(row, "piece", line->piece->name);
    json_out_text(row, "label", line->piece->label);
    json_out_number(row, "count", line->cut.count);
    if (line->cut.hand == PATTERN_PAIRS)
        json_out_number(row, "pairs", line->cut.count / 2.0);
    json_out_text(row, "hand", hands[line->cut.hand]);
    json_out_text(row, "material", pattern_cloth_name(line->cut.cloth));
    if (line->cut.cloth == PATTERN_INTERFACING)
        json_out_text(row, "fuse", pattern_side_name(line->cut.fuse));
    json_out_bool(row, "on_fold", line->piece->has_fold);
    json_out_text(row, "kind", line->is_rectangle ? "rectangle" : "drawn");
    if (line->is_rectangle)
        extent_json(row, "finished", line->finished);
    extent_json(row, "as_cut", line->as_cut);
    if (line->piece->has_fold)
        extent_json(row, "opened", line->opened);
    struct json_out *fullness = json_out_list(row, "fullness");
    for (size_t i = 0; i < line->fullness_count; i++)
        fullness_json(fullness, list, line, &line->fullness[i]);
}

static void notion_json(struct json_out *rows, const struct draft_notion *notion)
{
    struct json_out *row = json_out_object(rows, NULL);
    json_out_text(row, "name", notion->name);
    json_out_number(row, "count", notion->count);
    if (notion->size_mm > 0)
        json_out_number(row, "size_mm", notion->size_mm);
    if (notion->length_mm > 0)
        json_out_number(row, "length_mm", notion->length_mm);
}

void app_list_json(struct json_out *to, const struct export_list *list)
{
    json_out_text(to, "pattern", list->pattern->name);
    json_out_text(to, "view", list->view->name);
    json_out_text(to, "size", list->size);
    json_out_text(to, "cup_group", list->cup_group);
    struct json_out *lines = json_out_list(to, "lines"), *notions = json_out_list(to, "notions");
    for (size_t i = 0; i < list->line_count; i++)
        line_json(lines, list, &list->lines[i]);
    for (size_t i = 0; i < list->notion_count; i++)
        notion_json(notions, &list->notions[i]);
}
