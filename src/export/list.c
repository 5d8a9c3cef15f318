#include "export/list.h"

static struct export_extent extent_of(struct geometry_path path)
{
    struct geometry_box box = geometry_path_box(path);
    return (struct export_extent){ box.max.x - box.min.x, box.max.y - box.min.y };
}

static struct export_line line_of(struct arena *a, const struct pattern *pattern, const struct draft *draft,
                                  const struct draft_cut *cut)
{
    const struct draft_piece *piece = &draft->pieces[cut->piece];
    struct draft_piece whole = draft_unfold(a, piece);
    struct export_line line = { .piece = piece,
                                .cut = *cut,
                                .is_rectangle = pattern->pieces[piece->index].is_rectangle,
                                .finished = extent_of(piece->seam.path),
                                .as_cut = extent_of(piece->cut.path),
                                .opened = extent_of(whole.cut.path) };
    if (cut->cloth != PATTERN_INTERFACING)
        line.fullness_count = fit_fullness_of(a, pattern, draft, (size_t)cut->piece, &line.fullness);
    return line;
}

struct export_list export_list_of(struct arena *a, const struct pattern *pattern, int view, const struct draft *draft)
{
    struct export_line *lines = base_arena_alloc(a, draft->cut_count, sizeof *lines);
    const struct draft_figure *figure = &draft->sized->figure;
    struct export_list list = { .pattern = pattern,
                                .view = &pattern->views[view],
                                .size = pattern_size_text(a, pattern, figure->position),
                                .whom = draft_figure_text(a, pattern, figure),
                                .lines = lines,
                                .line_count = draft->cut_count,
                                .notions = draft->notions,
                                .notion_count = draft->notion_count };
    if (figure->cup_group != PATTERN_NONE)
        list.cup_group = pattern->cup_groups[figure->cup_group].name;
    for (size_t i = 0; i < draft->cut_count; i++)
        lines[i] = line_of(a, pattern, draft, &draft->cuts[i]);
    return list;
}

static struct export_line block_line(struct arena *a, const struct lay_block *block)
{
    const struct draft_piece *piece = lay_block_piece(a, block->width_mm, block->length_mm);
    struct export_extent extent = extent_of(piece->cut.path);
    return (struct export_line){ .piece = piece,
                                 .cut = { .count = block->count,
                                          .hand = PATTERN_AS_DRAWN,
                                          .cloth = PATTERN_INTERFACING,
                                          .fuse = PATTERN_WRONG_SIDE },
                                 .is_rectangle = true,
                                 .finished = extent,
                                 .as_cut = extent,
                                 .opened = extent,
                                 .is_block = true };
}

void export_list_put_block(struct arena *a, struct export_list *list, const struct lay_block *block,
                           const struct lay_hands *in_block)
{
    if (!block->count)
        return;
    struct export_line *lines = base_arena_alloc(a, list->line_count + 1, sizeof *lines);
    size_t first = 0, count = 0;
    while (first < list->line_count && list->lines[first].cut.cloth != PATTERN_INTERFACING)
        first++;
    for (size_t i = 0; i < list->line_count; i++) {
        if (i == first)
            lines[count++] = block_line(a, block);
        lines[count] = list->lines[i];
        lines[count++].in_block = in_block[i].right + in_block[i].left;
    }
    list->lines = lines;
    list->line_count = count;
}
