#include "export/dxf.h"

#include "base/buffer.h"
#include "base/text.h"
#include "export/list_words.h"

#include <string.h>

#define HEAD_WORD_MM 10.0 /* of the words about the whole file, below the pieces */

enum { WORDS_LAYER = 15, WORDS_BYTES = 250, NAME_LETTERS = 20, WORDS_A_CUT = 3 };

/* Kinds of lines as a set. */
#define ON(kind) (1u << EXPORT_##kind)

/* Layers of ASTM D6673-10, from memory: what is written on each, and what there is none of in a draft. Notches are
 * slits or Vs; a buttonhole is a slit that is cut. Colours are indices of the format's own table: 7 is black or white.
 */
static const struct {
    int layer, colour; /* colour 0: nothing is on it */
    unsigned kinds;
    const char *what;
} layer_rows[] = {
    { 1, 7, ON(CUT), "boundary" },
    { 2, 0, 0, "turn points" },
    { 3, 0, 0, "curve points" },
    { 4, 1, ON(NOTCH), "slit and V notches" },
    { 5, 0, 0, "grade reference" },
    { 6, 6, ON(FOLD), "mirror line" },
    { 7, 5, ON(GRAIN), "grain line" },
    { 8, 4, ON(DART) | ON(FOLD_LINE) | ON(LENGTHEN) | ON(MATCH) | ON(PLACEMENT), "internal lines, drawn" },
    { 9, 0, 0, "stripe reference" },
    { 10, 0, 0, "plaid reference" },
    { 11, 2, ON(BUTTONHOLE), "internal lines, cut" },
    { 13, 1, ON(DRILL) | ON(BUTTON), "drill holes" },
    { 14, 3, ON(STITCHING), "sew line" },
    { WORDS_LAYER, 7, 0, "annotation" },
    { 80, 0, 0, "T notches" },
    { 81, 0, 0, "castle notches" },
    { 82, 0, 0, "check notches" },
    { 83, 0, 0, "U notches" },
    { 84, 0, 0, "quality curve of the boundary" },
    { 85, 0, 0, "quality curve of internal lines, drawn" },
    { 86, 0, 0, "quality curve of internal lines, cut" },
    { 87, 0, 0, "quality curve of the sew line" },
};

enum { LAYER_ROWS = sizeof layer_rows / sizeof layer_rows[0] };

/* 0, the format's own, when no row has it. */
static int layer_of(enum export_kind kind)
{
    for (size_t i = 0; i < LAYER_ROWS; i++)
        if (layer_rows[i].kinds & (1u << kind))
            return layer_rows[i].layer;
    return 0;
}

struct dxf {
    struct base_buffer out;
    const struct draft *draft;
    const struct export_names *names;
    struct export_sheet sheet;
};

/* A group: its code and its value, each on a line. */
static void put(struct dxf *d, int code, const char *value)
{
    base_buffer_print(&d->out, "%3d\n%s\n", code, value);
}

static void put_whole(struct dxf *d, int code, int value)
{
    base_buffer_print(&d->out, "%3d\n%d\n", code, value);
}

/* The coordinates of a point: groups 10, 20 and 30. */
static void put_at(struct dxf *d, int code, vec2 at)
{
    base_buffer_print(&d->out, "%3d\n%.4f\n%3d\n%.4f\n%3d\n0.0\n", code, export_mm(at.x), code + 10, export_mm(at.y),
                      code + 20);
}

static void begin(struct dxf *d, const char *entity, int layer)
{
    put(d, 0, entity);
    put_whole(d, 8, layer);
}

/* ASCII as a text entity has it, in `a`: what it takes for an escape (\, % and ^) is escaped, too. */
static const char *plain(struct arena *a, const char *text)
{
    struct base_buffer out = { .a = a };
    unsigned long c;
    while ((c = base_text_next(&text)) && out.count + strlen("\\U+0000") <= WORDS_BYTES) {
        bool as_it_is = c < 0x7f && c != '\\' && c != '%' && c != '^';
        if (c < ' ' || c == 0x7f)
            base_buffer_print(&out, " ");
        else if (as_it_is)
            base_buffer_print(&out, "%c", (int)c);
        else if (c <= 0xffff)
            base_buffer_print(&out, "\\U+%04lX", c);
        else
            base_buffer_print(&out, "?");
    }
    return base_buffer_text(&out);
}

static void put_words(struct dxf *d, const char *text, const struct export_lettering *place, size_t line)
{
    begin(d, "TEXT", WORDS_LAYER);
    put_at(d, 10, export_lettering_line(place, line));
    base_buffer_print(&d->out, "%3d\n%.4f\n", 40, place->size_mm);
    put(d, 1, plain(d->out.a, text));
    put_whole(d, 50, place->along.y > 0 ? 90 : 0); /* degrees */
}

static void put_polyline(struct dxf *d, int layer, struct geometry_path path)
{
    begin(d, "POLYLINE", layer);
    put_whole(d, 66, 1);
    put_at(d, 10, (vec2){ 0, 0 });
    put_whole(d, 70, path.closed);
    for (size_t i = 0; i < path.count; i++) {
        begin(d, "VERTEX", layer);
        put_at(d, 10, path.points[i]);
    }
    begin(d, "SEQEND", layer);
}

static void put_sides(struct dxf *d, int layer, struct geometry_path path)
{
    for (size_t i = 1; i < path.count; i++) {
        begin(d, "LINE", layer);
        put_at(d, 10, path.points[i - 1]);
        put_at(d, 11, path.points[i]);
    }
}

static void put_point(struct dxf *d, int layer, vec2 at)
{
    begin(d, "POINT", layer);
    put_at(d, 10, at);
}

static void put_line(struct dxf *d, const struct draft_piece *piece, const struct export_stroke *line)
{
    int layer = layer_of(line->kind);
    if (line->kind == EXPORT_NOTCH)
        put_point(d, layer, line->at);
    else if (line->path.count == 1)
        put_point(d, layer, line->path.points[0]);
    if (line->kind == EXPORT_CUT)
        put_polyline(d, layer, piece->cut.path);
    else if (line->kind == EXPORT_STITCHING)
        put_polyline(d, layer, line->path);
    else
        put_sides(d, layer, line->path);
}

/* A block's name in that release: at most 31 capitals, digits and _; the number makes it the only one. */
static const char *block_name(const struct dxf *d, size_t piece)
{
    char letters[NAME_LETTERS + 1] = "";
    const char *name = d->draft->pieces[piece].name;
    for (size_t i = 0; i < NAME_LETTERS && name[i]; i++) {
        bool is_small = name[i] >= 'a' && name[i] <= 'z';
        bool is_kept = (name[i] >= 'A' && name[i] <= 'Z') || (name[i] >= '0' && name[i] <= '9');
        letters[i] = is_small ? (char)(name[i] - 'a' + 'A') : is_kept ? name[i] : '_';
    }
    return base_arena_print(d->out.a, "P%zu_%s", piece + 1, letters);
}

static size_t words_of(const struct dxf *d, size_t piece, const char ***out)
{
    struct arena *a = d->out.a;
    const char **words = base_arena_alloc(a, WORDS_A_CUT * d->draft->cut_count + 2, sizeof *words);
    size_t count = 0;
    words[count++] = base_arena_print(a, "PIECE NAME: %s", d->draft->pieces[piece].name);
    words[count++] = base_arena_print(a, "SIZE: %s", d->names->size);
    for (size_t i = 0; i < d->draft->cut_count; i++) {
        const struct draft_cut *cut = &d->draft->cuts[i];
        if (cut->piece != (int)piece)
            continue;
        words[count++] = base_arena_print(a, "QUANTITY: %d", cut->count);
        words[count++] = base_arena_print(a, "MATERIAL: %s", pattern_cloth_name(cut->cloth));
        words[count++] = base_arena_print(a, "ANNOTATION: %s%s", d->names->copies[i], export_fuse_text(cut));
    }
    *out = words;
    return count;
}

static void put_block(struct dxf *d, size_t index)
{
    const struct draft_piece *piece = &d->draft->pieces[index];
    const struct export_stroke *lines;
    const char **words, *name = block_name(d, index);
    size_t line_count = export_strokes(d->out.a, piece, &lines), count = words_of(d, index, &words);
    struct export_lettering place = export_lettering_place(piece, lines, line_count, words, count, 1);
    begin(d, "BLOCK", 1);
    put(d, 2, name);
    put_whole(d, 70, 0);
    put_at(d, 10, (vec2){ 0, 0 });
    put(d, 3, name);
    for (size_t i = 0; i < line_count; i++)
        put_line(d, piece, &lines[i]);
    for (size_t i = 0; i < count; i++)
        put_words(d, words[i], &place, i);
    begin(d, "ENDBLK", 1);
}

static void begin_section(struct dxf *d, const char *name)
{
    put(d, 0, "SECTION");
    put(d, 2, name);
}

static void put_header(struct dxf *d)
{
    put(d, 999, "Chalklight: one drawing unit is 1 mm; layer numbers after ASTM D6673-10, from memory");
    for (size_t i = 0; i < LAYER_ROWS; i++)
        put(d, 999,
            base_arena_print(d->out.a, "layer %d: %s%s", layer_rows[i].layer, layer_rows[i].what,
                             layer_rows[i].colour ? "" : "; none here"));
    begin_section(d, "HEADER");
    put(d, 9, "$ACADVER");
    put(d, 1, "AC1009");
    put(d, 9, "$EXTMIN");
    put_at(d, 10, (vec2){ 0, 0 });
    put(d, 9, "$EXTMAX");
    put_at(d, 10, (vec2){ d->sheet.width, d->sheet.height });
    put(d, 0, "ENDSEC");
}

static void put_layer(struct dxf *d, int layer, int colour)
{
    put(d, 0, "LAYER");
    put_whole(d, 2, layer);
    put_whole(d, 70, 0);
    put_whole(d, 62, colour);
    put(d, 6, "CONTINUOUS");
}

static void put_tables(struct dxf *d)
{
    begin_section(d, "TABLES");
    put(d, 0, "TABLE");
    put(d, 2, "LTYPE");
    put_whole(d, 70, 1);
    put(d, 0, "LTYPE");
    put(d, 2, "CONTINUOUS");
    put_whole(d, 70, 0);
    put(d, 3, "Solid line");
    put_whole(d, 72, 65);
    put_whole(d, 73, 0);
    put(d, 40, "0.0");
    put(d, 0, "ENDTAB");
    put(d, 0, "TABLE");
    put(d, 2, "LAYER");
    put_whole(d, 70, LAYER_ROWS + 1); /* at most */
    put_layer(d, 0, 7);
    for (size_t i = 0; i < LAYER_ROWS; i++)
        if (layer_rows[i].colour)
            put_layer(d, layer_rows[i].layer, layer_rows[i].colour);
    put(d, 0, "ENDTAB");
    put(d, 0, "ENDSEC");
}

/* Where the pieces stand, and what the file says of itself below them. */
static void put_entities(struct dxf *d)
{
    const char *const words[] = { base_arena_print(d->out.a, "STYLE NAME: %s", d->names->pattern),
                                  base_arena_print(d->out.a, "SIZE: %s", d->names->size), "UNITS: METRIC",
                                  "1 drawing unit = 1 mm" };
    const struct export_lettering place = { { 0, -EXPORT_LEADING * HEAD_WORD_MM }, { 1, 0 }, HEAD_WORD_MM };
    begin_section(d, "ENTITIES");
    for (size_t i = 0; i < d->draft->piece_count; i++) {
        begin(d, "INSERT", 1);
        put(d, 2, block_name(d, i));
        put_at(d, 10, d->sheet.shifts[i]);
    }
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        put_words(d, words[i], &place, i);
    put(d, 0, "ENDSEC");
}

const char *export_dxf(struct arena *a, const struct draft *draft, const struct export_names *names)
{
    struct dxf d = { .out = { .a = a }, .draft = draft, .names = names, .sheet = export_sheet_of(a, draft) };
    put_header(&d);
    put_tables(&d);
    begin_section(&d, "BLOCKS");
    for (size_t i = 0; i < draft->piece_count; i++)
        put_block(&d, i);
    put(&d, 0, "ENDSEC");
    put_entities(&d);
    put(&d, 0, "EOF");
    return base_buffer_text(&d.out);
}
