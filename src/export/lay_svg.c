#include "export/lay_svg.h"

#include "base/buffer.h"
#include "base/text.h"
#include "base/words.h"
#include "export/sheet.h"
#include "export/svg_parts.h"
#include "export/xml.h"

#include <math.h>

#define EDGE_WORD_MM 14.0
#define EDGE_WORD_AWAY_MM 6.0
#define TITLE_MM 18.0
#define HEAD_MM 14.0 /* of the grain's arrow heads */

enum { MOST_WORDS = 2 };

/* Lines of a piece that help to see which it is and how it lies. */
static const struct {
    const char *name, *look;
} kind_rows[EXPORT_KINDS] = {
    [EXPORT_CUT] = { "cut", "fill=\"#eee\" stroke=\"#000\" stroke-width=\"1.2\"" },
    [EXPORT_GRAIN] = { "grain", "fill=\"none\" stroke=\"#000\" stroke-width=\"1\"" },
    [EXPORT_NOTCH] = { "notch", "fill=\"none\" stroke=\"#000\" stroke-width=\"1\"" },
    [EXPORT_FOLD] = { "fold", "fill=\"none\" stroke=\"#000\" stroke-width=\"2\" stroke-dasharray=\"20 5 5 5\"" },
};

struct page {
    struct base_buffer out;
    const struct lay *lay;
    double length, width, height; /* of the cloth as it is shown; of the page */
};

static const vec2 corner = { EXPORT_LAY_MARGIN_MM, EXPORT_LAY_MARGIN_MM };

/* In the row of the near edge's word, which is as long as "selvedge" at most. */
static const vec2 behind_edge_word = { 10 * EDGE_WORD_MM, -EDGE_WORD_AWAY_MM - EDGE_WORD_MM };

static void put_path(struct page *s, const char *class, const char *look, struct geometry_path path)
{
    base_buffer_print(&s->out, "    ");
    export_svg_shape(&s->out, class, look, path, corner, s->height);
}

static void put_line(struct page *s, const char *class, const char *look, vec2 from, vec2 to)
{
    put_path(s, class, look, (struct geometry_path){ (vec2[]){ from, to }, 2, false });
}

static void put_words(struct page *s, const char *text, vec2 at, vec2 along, double size_mm)
{
    base_buffer_print(&s->out, "    ");
    export_svg_words(&s->out, text, vec2_add(at, corner), along, size_mm, s->height, "fill=\"#000\" stroke=\"none\"");
}

/* Along the cloth, smaller where a short layout has no room for it. */
static void put_row(struct page *s, const char *text, vec2 at, double size_mm)
{
    double room = s->width - EXPORT_LAY_MARGIN_MM - at.x, letters = (double)base_text_letters(text);
    put_words(s, text, at, (vec2){ 1, 0 }, fmin(size_mm, room / (EXPORT_LETTER_WIDE * letters)));
}

/* --- the cloth --------------------------------------------------------------------------------------------------- */

/* Its word stands outside, along a border between two bands before the cut end. */
static void put_edge(struct page *s, bool is_fold, double y)
{
    const char *look = is_fold ? "fill=\"none\" stroke=\"#06c\" stroke-width=\"2\" stroke-dasharray=\"30 8 8 8\""
                               : "fill=\"none\" stroke=\"#06c\" stroke-width=\"1\"";
    const char *word = is_fold ? base_tr("fold") : base_tr("selvedge");
    bool is_near = y <= 0, is_far = y >= s->lay->task->spread.width_mm;
    put_line(s, is_fold ? "cloth-fold" : "selvedge", look, (vec2){ 0, y }, (vec2){ s->length, y });
    if (is_near)
        put_words(s, word, (vec2){ 0, y - EDGE_WORD_AWAY_MM - EDGE_WORD_MM }, (vec2){ 1, 0 }, EDGE_WORD_MM);
    else if (is_far)
        put_words(s, word, (vec2){ 0, y + EDGE_WORD_AWAY_MM }, (vec2){ 1, 0 }, EDGE_WORD_MM);
    else
        put_words(s, word, (vec2){ -EDGE_WORD_AWAY_MM, y }, (vec2){ 0, 1 }, EDGE_WORD_MM);
}

/* Of a scrap there is no edge to speak of but its outline. */
static void put_edges(struct page *s)
{
    const struct cloth_spread *spread = &s->lay->task->spread;
    for (int b = 0; b < spread->band_count && !s->lay->task->cloth->outline.path.count; b++) {
        const struct cloth_band *band = &spread->bands[b];
        put_edge(s, band->fold_at_from, band->from_mm);
        if (b + 1 == spread->band_count)
            put_edge(s, band->fold_at_to, band->to_mm);
    }
}

static void put_cloth(struct page *s)
{
    const struct cloth_spread *spread = &s->lay->task->spread;
    vec2 ends[] = { { 0, 0 }, { s->length, 0 }, { s->length, spread->width_mm }, { 0, spread->width_mm } };
    struct geometry_path block = lay_block_outline(s->out.a, s->lay).path;
    base_buffer_print(&s->out, "  <g class=\"cloth\">\n");
    put_path(s, "spread", "fill=\"#fff\" stroke=\"#06c\" stroke-width=\"0.5\"",
             (struct geometry_path){ ends, 4, true });
    for (size_t i = 0; i < spread->blocked_count; i++)
        put_path(s, "blocked", "fill=\"#bbb\" stroke=\"none\"", spread->blocked[i].path);
    if (block.count) {
        put_path(s, "fused", "fill=\"#eef\" stroke=\"#06c\" stroke-width=\"1.5\" stroke-dasharray=\"4 4\"", block);
        put_row(s, base_tr("dashed: the block that is fused first"), behind_edge_word, EDGE_WORD_MM);
    }
    if (!s->lay->task->cloth->outline.path.count) { /* a scrap has none */
        put_line(s, "cut-end", "fill=\"none\" stroke=\"#06c\" stroke-width=\"2\"", ends[0], ends[3]);
        put_words(s, base_tr("cut end"), (vec2){ -EDGE_WORD_AWAY_MM, 0 }, (vec2){ 0, 1 }, EDGE_WORD_MM);
    }
    put_edges(s);
    base_buffer_print(&s->out, "  </g>\n");
}

/* --- the pieces -------------------------------------------------------------------------------------------------- */

static struct geometry_path moved(struct arena *a, const struct geometry_mover *mover, struct geometry_path path)
{
    struct geometry_path out = geometry_path_copy(a, path);
    for (size_t i = 0; i < path.count; i++)
        out.points[i] = geometry_move(mover, path.points[i]);
    return out;
}

/* The lines of a piece as it lies that are shown; in the page's arena. */
static size_t lines_of(struct page *s, const struct draft_piece *piece, const struct geometry_mover *mover,
                       struct export_stroke **out)
{
    const struct export_stroke *all;
    size_t count = export_strokes(s->out.a, piece, &all), shown = 0;
    struct export_stroke *lines = base_arena_alloc(s->out.a, count, sizeof *lines);
    for (size_t i = 0; i < count; i++)
        if (kind_rows[all[i].kind].name) {
            lines[shown] = all[i];
            lines[shown++].path = moved(s->out.a, mover, all[i].path);
        }
    *out = lines;
    return shown;
}

/* On one-way cloth all upper ends lie away from the cut end, and the arrow has one head. */
static void put_heads(struct page *s, struct geometry_path shaft)
{
    base_buffer_print(&s->out, "    ");
    if (!lay_is_one_way(s->lay->task->cloth)) {
        export_svg_heads(&s->out, shaft, corner, s->height, HEAD_MM);
        return;
    }
    int far = shaft.points[1].x > shaft.points[0].x;
    export_svg_head(&s->out, shaft.points[!far], shaft.points[far], corner, s->height, HEAD_MM);
}

static void put_lines(struct page *s, struct geometry_path outline, const struct export_stroke *lines, size_t count)
{
    put_path(s, kind_rows[EXPORT_CUT].name, kind_rows[EXPORT_CUT].look, outline);
    for (size_t i = 0; i < count; i++) {
        enum export_kind kind = lines[i].kind;
        if (kind == EXPORT_CUT)
            continue; /* open along the fold; the outline is closed */
        put_path(s, kind_rows[kind].name, kind_rows[kind].look, lines[i].path);
        if (kind == EXPORT_GRAIN)
            put_heads(s, lines[i].path);
    }
}

/* What is told of how it is cut; which of two layers is kept says that there are two. NULL: nothing. */
static const char *cut_words(struct page *s, size_t item)
{
    const struct lay_item *of = &s->lay->task->items[item];
    const char *kept = lay_kept_words(s->lay, item);
    if (kept)
        return kept;
    if (of->on_fold)
        return of->copies > 1 ? base_arena_print(s->out.a, base_tr("%d layers, on the fold"), of->copies)
                              : base_tr("on the fold");
    return of->copies > 1 ? base_arena_print(s->out.a, base_tr("%d layers"), of->copies) : NULL;
}

/* Its name, and how it is cut: below that, or behind it. */
static size_t words_of(struct page *s, size_t item, bool joined, const char *words[MOST_WORDS])
{
    words[0] = lay_item_name(s->out.a, s->lay->task, item);
    words[1] = cut_words(s, item);
    if (!words[1])
        return 1;
    if (!joined)
        return 2;
    words[0] = base_arena_print(s->out.a, "%s, %s", words[0], words[1]);
    return 1;
}

/* In the form that leaves room for the larger letters. */
static void put_words_on(struct page *s, size_t item, const struct draft_piece *piece,
                         const struct export_stroke *lines, size_t line_count)
{
    const char *words[2][MOST_WORDS];
    size_t counts[2];
    struct export_lettering at[2];
    for (int joined = 0; joined < 2; joined++) {
        counts[joined] = words_of(s, item, joined, words[joined]);
        at[joined] = export_lettering_place(piece, lines, line_count, words[joined], counts[joined], EXPORT_ON_CLOTH);
    }
    int best = at[1].size_mm > at[0].size_mm;
    for (size_t i = 0; i < counts[best]; i++)
        put_words(s, words[best][i], export_lettering_line(&at[best], i), at[best].along, at[best].size_mm);
}

static void put_piece(struct page *s, size_t item)
{
    struct arena *a = s->out.a;
    const struct lay_place *place = &s->lay->places[item];
    struct geometry_mover mover = geometry_mover_of(place->motion);
    struct draft_piece piece = *s->lay->task->items[item].piece;
    struct export_stroke *lines;
    size_t count = lines_of(s, &piece, &mover, &lines);
    vec2 label = geometry_move(&mover, (vec2){ piece.label_at.x, piece.label_at.y });
    piece.label_at = (struct piece_pt){ label.x, label.y };
    piece.cut.path = lay_outline(a, s->lay->task, item, place).path;
    base_buffer_print(&s->out, "  <g class=\"piece\" id=\"item-%zu\">\n    <title>%s</title>\n", item + 1,
                      export_xml_text(a, lay_item_name(a, s->lay->task, item)));
    put_lines(s, piece.cut.path, lines, count);
    put_words_on(s, item, &piece, lines, count);
    base_buffer_print(&s->out, "  </g>\n");
}

static void put_title(struct page *s, const char *title)
{
    put_row(s, title, (vec2){ 0, s->lay->task->spread.width_mm + EXPORT_LAY_MARGIN_MM - EDGE_WORD_AWAY_MM }, TITLE_MM);
}

const char *export_lay_svg(struct arena *a, const struct lay *lay, const char *title)
{
    const struct cloth_spread *spread = &lay->task->spread;
    double length = spread->most_length_mm > 0 ? spread->most_length_mm : lay->length_mm;
    double frame = 2 * EXPORT_LAY_MARGIN_MM;
    struct page s = { .out = { .a = a },
                      .lay = lay,
                      .length = length,
                      .width = length + frame,
                      .height = spread->width_mm + frame + TITLE_MM };
    export_svg_begin(&s.out, s.width, s.height, title);
    put_title(&s, title);
    put_cloth(&s);
    for (size_t i = 0; i < lay->task->item_count; i++)
        if (lay->places[i].is_laid)
            put_piece(&s, i);
    base_buffer_print(&s.out, "</svg>\n");
    return base_buffer_text(&s.out);
}
