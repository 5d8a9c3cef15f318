#include "export/svg.h"

#include "base/buffer.h"
#include "base/words.h"
#include "export/list_words.h"
#include "export/svg_parts.h"
#include "export/xml.h"

#define HEAD_MM 6.0   /* of the grain's arrow heads, and half as wide */
#define DRILL_MM 2.0  /* radius of a drill mark's ring */
#define BUTTON_MM 3.0 /* half a button's cross, across and up */
#define FOLD_WORD_MM 5.0
#define FOLD_WORD_AWAY_MM 2.0
#define SQUARE_WORD_MM 8.0

static const struct {
    const char *name, *look;
} kind_rows[EXPORT_KINDS] = {
    [EXPORT_CUT] = { "cut", "stroke=\"#000\" stroke-width=\"0.7\"" },
    [EXPORT_STITCHING] = { "stitching", "stroke=\"#555\" stroke-width=\"0.4\" stroke-dasharray=\"6 3\"" },
    [EXPORT_FOLD] = { "fold", "stroke=\"#000\" stroke-width=\"0.5\" stroke-dasharray=\"20 4 4 4\"" },
    [EXPORT_GRAIN] = { "grain", "stroke=\"#000\" stroke-width=\"0.5\"" },
    [EXPORT_NOTCH] = { "notch", "stroke=\"#000\" stroke-width=\"0.7\"" },
    [EXPORT_DRILL] = { "drill", "stroke=\"#000\" stroke-width=\"0.4\"" },
    [EXPORT_DART] = { "dart", "stroke=\"#555\" stroke-width=\"0.4\" stroke-dasharray=\"6 3\"" },
    [EXPORT_FOLD_LINE] = { "fold-line", "stroke=\"#555\" stroke-width=\"0.4\" stroke-dasharray=\"12 3\"" },
    [EXPORT_LENGTHEN] = { "lengthen", "stroke=\"#555\" stroke-width=\"0.4\" stroke-dasharray=\"2 2\"" },
    [EXPORT_MATCH] = { "match", "stroke=\"#555\" stroke-width=\"0.4\" stroke-dasharray=\"12 3 2 3\"" },
    [EXPORT_PLACEMENT] = { "placement", "stroke=\"#555\" stroke-width=\"0.4\" stroke-dasharray=\"4 2\"" },
    [EXPORT_BUTTONHOLE] = { "buttonhole", "stroke=\"#000\" stroke-width=\"0.4\"" },
    [EXPORT_BUTTON] = { "button", "stroke=\"#000\" stroke-width=\"0.4\"" },
};

struct svg {
    struct base_buffer out;
    const struct draft *draft;
    const struct export_names *names;
    struct export_sheet sheet;
    vec2 shift; /* of the piece that is being written */
};

/* A point of the piece on the page. */
static vec2 on_page(const struct svg *s, vec2 p)
{
    return export_svg_point(vec2_add(p, s->shift), s->sheet.height);
}

/* From `at` along a unit direction, both of the piece. */
static void put_words(struct svg *s, const char *text, vec2 at, vec2 along, double size_mm)
{
    base_buffer_print(&s->out, "      ");
    export_svg_words(&s->out, text, vec2_add(at, s->shift), along, size_mm, s->sheet.height,
                     "fill=\"#000\" stroke=\"none\"");
}

static void put_path(struct svg *s, const char *class, struct geometry_path path)
{
    base_buffer_print(&s->out, "      <path%s d=\"", class);
    export_svg_path(&s->out, path, s->shift, s->sheet.height);
    base_buffer_print(&s->out, "\"/>\n");
}

/* Along the fold, inside the piece, which lies to the left of the outline's direction. */
static void put_fold_word(struct svg *s, struct geometry_path fold)
{
    vec2 along = vec2_unit(vec2_sub(fold.points[1], fold.points[0]));
    vec2 at =
        vec2_sub(vec2_lerp(fold.points[0], fold.points[1], 0.5), vec2_scale(vec2_right(along), FOLD_WORD_AWAY_MM));
    put_words(s, base_tr("fold"), at, along, FOLD_WORD_MM);
}

/* A cross aslant. */
static void put_button(struct svg *s, vec2 at)
{
    for (int up = -1; up <= 1; up += 2) {
        vec2 arm = { BUTTON_MM, up * BUTTON_MM };
        put_path(s, "", (struct geometry_path){ (vec2[]){ vec2_sub(at, arm), vec2_add(at, arm) }, 2, false });
    }
}

static void put_line(struct svg *s, const struct export_stroke *line)
{
    vec2 page = on_page(s, line->path.points[0]);
    if (line->kind == EXPORT_DRILL) {
        base_buffer_print(&s->out, "      <circle cx=\"%.4f\" cy=\"%.4f\" r=\"%g\"/>\n", page.x, page.y, DRILL_MM);
        return;
    }
    if (line->kind == EXPORT_BUTTON) {
        put_button(s, line->path.points[0]);
        return;
    }
    put_path(s, "", line->path);
    if (line->kind == EXPORT_GRAIN)
        export_svg_heads(&s->out, line->path, s->shift, s->sheet.height, HEAD_MM);
    if (line->kind == EXPORT_FOLD)
        put_fold_word(s, line->path);
}

static void put_lines(struct svg *s, const struct export_stroke *lines, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        enum export_kind kind = lines[i].kind;
        if (i == 0 || lines[i - 1].kind != kind)
            base_buffer_print(&s->out, "    <g class=\"%s\" fill=\"none\" %s>\n", kind_rows[kind].name,
                              kind_rows[kind].look);
        put_line(s, &lines[i]);
        if (i + 1 == count || lines[i + 1].kind != kind)
            base_buffer_print(&s->out, "    </g>\n");
    }
}

/* Name, size, and how often it is cut of which cloth. */
static size_t words_of(const struct svg *s, size_t piece, const char ***out)
{
    const char **words = base_arena_alloc(s->out.a, s->draft->cut_count + 2, sizeof *words);
    size_t count = 0;
    words[count++] = s->draft->pieces[piece].label;
    words[count++] = s->names->size;
    for (size_t i = 0; i < s->draft->cut_count; i++)
        if (s->draft->cuts[i].piece == (int)piece)
            words[count++] = base_arena_print(s->out.a, "%s, %s", s->names->copies[i],
                                              export_cloth_text(s->out.a, &s->draft->cuts[i]));
    *out = words;
    return count;
}

static void put_piece(struct svg *s, size_t index)
{
    const struct draft_piece *piece = &s->draft->pieces[index];
    const struct export_stroke *lines;
    const char **words;
    size_t line_count = export_strokes(s->out.a, piece, &lines), count = words_of(s, index, &words);
    struct export_lettering place = export_lettering_place(piece, lines, line_count, words, count, 1);
    s->shift = s->sheet.shifts[index];
    base_buffer_print(&s->out, "  <g class=\"piece\" id=\"piece-%zu\">\n    <title>", index + 1);
    base_buffer_print(&s->out, "%s</title>\n", export_xml_text(s->out.a, piece->name));
    put_lines(s, lines, line_count);
    base_buffer_print(&s->out, "    <g class=\"words\">\n");
    for (size_t i = 0; i < count; i++)
        put_words(s, words[i], export_lettering_line(&place, i), place.along, place.size_mm);
    base_buffer_print(&s->out, "    </g>\n  </g>\n");
}

static void put_square(struct svg *s)
{
    static const char *const words[] = { BASE_TR("Test square"), "100 × 100 mm" };
    const struct export_lettering place = { { SQUARE_WORD_MM, EXPORT_SQUARE_MM / 2 }, { 1, 0 }, SQUARE_WORD_MM };
    s->shift = s->sheet.square;
    vec2 corner = on_page(s, (vec2){ 0, EXPORT_SQUARE_MM });
    base_buffer_print(&s->out,
                      "  <g class=\"test-square\">\n    <rect x=\"%.4f\" y=\"%.4f\" width=\"%g\" height=\"%g\" "
                      "fill=\"none\" stroke=\"#000\" stroke-width=\"0.3\"/>\n",
                      corner.x, corner.y, EXPORT_SQUARE_MM, EXPORT_SQUARE_MM);
    for (size_t i = 0; i < 2; i++)
        put_words(s, base_tr(words[i]), export_lettering_line(&place, i), place.along, place.size_mm);
    base_buffer_print(&s->out, "  </g>\n");
}

const char *export_svg(struct arena *a, const struct draft *draft, const struct export_names *names)
{
    struct svg s = { .out = { .a = a }, .draft = draft, .names = names, .sheet = export_sheet_of(a, draft) };
    export_svg_begin(&s.out, s.sheet.width, s.sheet.height, base_arena_print(a, "%s, %s", names->pattern, names->size));
    put_square(&s);
    for (size_t i = 0; i < draft->piece_count; i++)
        put_piece(&s, i);
    base_buffer_print(&s.out, "</svg>\n");
    return base_buffer_text(&s.out);
}
