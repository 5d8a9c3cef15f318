/* Every key of taking a sheet to pieces, once: what it does on which page. Help, `chalklight keys` and the tests read
 * the same rows. */
#include "app/key_lines.h"
#include "app/lift_state.h"
#include "base/text.h"
#include "base/words.h"
#include "input/key.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define LEAST_WEIGHT_MM 0.5
#define MOST_WEIGHT_MM 10.0

typedef struct app_lift_effects effects;

/* --- any page ---------------------------------------------------------------------------------------------------- */

static effects run_quit(struct app_lift *l, double unused)
{
    (void)l, (void)unused;
    return (effects){ .quit = true };
}

static effects run_help(struct app_lift *l, double unused)
{
    (void)unused;
    return app_lift_over(l, APP_LIFT_HELP);
}

static effects run_square(struct app_lift *l, double unused)
{
    (void)unused;
    return app_lift_over(l, APP_LIFT_SQUARE);
}

static effects run_side(struct app_lift *l, double by)
{
    l->side = (enum scene_side)(((int)l->side + (int)by) % SCENE_SIDES);
    return app_lift_redraw;
}

static effects run_chalks(struct app_lift *l, double by)
{
    l->chalks = (l->chalks + (int)by) % SCENE_CHALKS;
    return app_lift_redraw;
}

static effects run_to(struct app_lift *l, double page)
{
    return app_lift_go(l, (enum app_lift_page)page);
}

static effects run_on(struct app_lift *l, double unused)
{
    (void)unused;
    return app_lift_go(l, app_lift_next(l, +1));
}

/* Without stickers the square, or the sheet's own, is what tells that the table is true. */
static void looked_at(struct app_lift *l)
{
    if (!l->start.table.stickers.count)
        l->trust.doubt = APP_DOUBT_NONE;
}

static effects run_beneath(struct app_lift *l, double unused)
{
    (void)unused;
    if (l->page == APP_LIFT_SQUARE)
        looked_at(l);
    l->page = l->beneath;
    return app_lift_redraw;
}

static effects run_back(struct app_lift *l, double unused)
{
    (void)unused;
    if (l->page == APP_LIFT_SCALE)
        return app_lift_over(l, APP_LIFT_LEAVE);
    return app_lift_go(l, app_lift_next(l, -1));
}

static effects run_match(struct app_lift *l, double unused)
{
    (void)unused;
    if (l->start.table.stickers.count)
        l->trust.doubt = APP_DOUBT_NONE;
    else
        app_lift_tell(l, base_tr("This table has no check stickers: measure the test square (S)"));
    return app_lift_redraw;
}

static effects run_moved(struct app_lift *l, double unused)
{
    (void)unused;
    app_lift_tell(l, base_tr("The light was bumped: set up the table again. What you said of the sheet is kept"));
    return app_lift_redraw;
}

static effects run_read(struct app_lift *l, double unused)
{
    (void)unused;
    l->password_typed = l->page == APP_LIFT_PASSWORD;
    l->page = APP_LIFT_READING;
    l->percent = 0;
    return (effects){ .redraw = true, .read = true };
}

static effects run_dpi(struct app_lift *l, double unused)
{
    char *end;
    double dpi = strtod(l->typed, &end);
    if (end == l->typed || *end || !(dpi >= SHEET_DPI_LEAST && dpi <= SHEET_DPI_MOST)) {
        app_lift_tell(l, base_tr("That is not a number from %.0f to %.0f"), SHEET_DPI_LEAST, SHEET_DPI_MOST);
        return app_lift_redraw;
    }
    l->dpi = dpi;
    return run_read(l, unused);
}

static effects run_cancel(struct app_lift *l, double unused)
{
    (void)l, (void)unused;
    return (effects){ .cancel = true };
}

/* --- rows -------------------------------------------------------------------------------------------------------- */

static size_t row_count(const struct app_lift *l)
{
    const struct app_lift_way *ways;
    size_t now;
    if (l->page == APP_LIFT_SCALE)
        return app_lift_ways(l, l->told_in, &ways, &now);
    if (l->page == APP_LIFT_SIZES)
        return l->im->division.strand_count;
    return l->page == APP_LIFT_LAYERS ? l->im->flat.layer_count : 2;
}

static effects run_row(struct app_lift *l, double by)
{
    size_t count = row_count(l);
    if (count && l->row >= count)
        l->row = by < 0 ? count - 1 : 0; /* none was marked */
    else if (count)
        l->row = (l->row + count + (size_t)(by < 0 ? -1 : 1)) % count;
    return app_lift_redraw;
}

/* --- scale ------------------------------------------------------------------------------------------------------- */

static effects run_take_way(struct app_lift *l, double unused)
{
    (void)unused;
    return app_lift_take_way(l);
}

static effects run_checked(struct app_lift *l, double unused)
{
    (void)unused;
    looked_at(l);
    l->page = APP_LIFT_SCALE;
    return run_on(l, 0);
}

static effects run_not_so(struct app_lift *l, double unused)
{
    (void)unused;
    return app_lift_go(l, APP_LIFT_SCALE);
}

static effects run_page_of_file(struct app_lift *l, double by)
{
    int count = (int)l->im->flat.page_count;
    l->page_in_hand = (l->page_in_hand + count + (int)by) % count;
    l->marks.count = 0;
    return app_lift_redraw;
}

static effects run_mark(struct app_lift *l, double unused)
{
    (void)unused;
    if (l->page == APP_LIFT_MARK && l->mend == LIFTING_MEND_GRAIN && l->turned_deg != 0)
        return app_lift_take_turned(l);
    return app_lift_mark_place(l);
}

static effects run_pan_right(struct app_lift *l, double mm)
{
    return app_lift_pan(l, mm, 0);
}

static effects run_pan_away(struct app_lift *l, double mm)
{
    return app_lift_pan(l, 0, mm);
}

/* --- pages ------------------------------------------------------------------------------------------------------- */

static effects run_columns(struct app_lift *l, double by)
{
    return app_lift_columns(l, (int)by);
}

static effects run_by_columns(struct app_lift *l, double unused)
{
    (void)unused;
    return app_lift_by_columns(l);
}

static effects run_leave_out(struct app_lift *l, double unused)
{
    (void)unused;
    return app_lift_leave_out(l);
}

static effects run_as_found(struct app_lift *l, double unused)
{
    (void)unused;
    return app_lift_as_found(l);
}

static effects run_cell_right(struct app_lift *l, double by)
{
    return app_lift_move_cell(l, (int)by, 0);
}

static effects run_cell_away(struct app_lift *l, double by)
{
    return app_lift_move_cell(l, 0, (int)by);
}

static effects run_page_right(struct app_lift *l, double mm)
{
    return app_lift_move_page(l, mm, 0);
}

static effects run_page_away(struct app_lift *l, double mm)
{
    return app_lift_move_page(l, 0, mm);
}

/* --- sizes ------------------------------------------------------------------------------------------------------- */

static effects run_role(struct app_lift *l, double by)
{
    return app_lift_role(l, (int)by);
}

static effects run_draw_size(struct app_lift *l, double unused)
{
    (void)unused;
    return app_lift_draw_size(l);
}

static effects run_type(struct app_lift *l, double what)
{
    return app_lift_type(l, (enum app_lift_typing)what);
}

/* --- on the table ------------------------------------------------------------------------------------------------ */

/* Kept as tenths of a degree, as in cutting. */
static effects run_turn(struct app_lift *l, double deg)
{
    if (l->page == APP_LIFT_MARK) {
        l->turned_deg += deg;
        return app_lift_redraw;
    }
    struct geometry_motion *m = app_lift_motion(l);
    m->turn_deg = fmod(round((m->turn_deg + deg) * 10) / 10, 360) + 0.0;
    return app_lift_redraw;
}

static effects run_turn_over(struct app_lift *l, double unused)
{
    (void)unused;
    l->whole.mirror = !l->whole.mirror;
    l->whole.turn_deg = 0 - l->whole.turn_deg;
    return app_lift_redraw;
}

static effects run_middle(struct app_lift *l, double unused)
{
    (void)unused;
    *app_lift_motion(l) = (struct geometry_motion){ 0 };
    return app_lift_redraw;
}

static effects run_weight(struct app_lift *l, double mm)
{
    double least = fmax(LEAST_WEIGHT_MM, SCENE_LEAST_STROKE_PX * geometry_map_mm_per_px(app_lift_map(l)));
    l->weight_mm = fmin(fmax(fmax(l->weight_mm, least) + mm, least), MOST_WEIGHT_MM);
    return app_lift_redraw;
}

static effects run_everything(struct app_lift *l, double unused)
{
    (void)unused;
    l->everything = !l->everything;
    return app_lift_redraw;
}

static effects run_layers(struct app_lift *l, double unused)
{
    (void)unused;
    if (!l->im->flat.layer_count) {
        app_lift_tell(l, base_tr("This sheet has no layers"));
        return app_lift_redraw;
    }
    l->row = 0;
    return app_lift_go(l, APP_LIFT_LAYERS);
}

static effects run_layer(struct app_lift *l, double unused)
{
    (void)unused;
    l->hidden[l->row] = !l->hidden[l->row];
    return app_lift_redraw;
}

/* Brings the middle of a piece to the middle of the light, as the sheet lies. */
static effects run_to_piece(struct app_lift *l, double by)
{
    const struct drawing_page *page = &l->im->chosen.pages[0];
    app_import_make(l->im, APP_IMPORT_PIECES);
    size_t count = l->im->lifting.piece_count;
    int size = app_lift_shown_size(l);
    if (!count || size == LIFTING_NONE)
        return app_lift_redraw;
    l->piece = (l->piece + count + (size_t)(by < 0 ? -1 : 1)) % count;
    struct geometry_box box = geometry_path_box(l->im->lifting.pieces[l->piece].outlines[size].path.path);
    struct geometry_motion turn = { l->whole.mirror, l->whole.turn_deg, { 0, 0 } };
    struct geometry_mover mover = geometry_mover_of(turn);
    vec2 from = vec2_sub(vec2_lerp(box.min, box.max, 0.5), (vec2){ page->width_mm / 2, page->height_mm / 2 });
    if (l->im->lifting.pieces[l->piece].outlines[size].there)
        l->whole.shift = vec2_scale(geometry_move(&mover, from), -1);
    return app_lift_redraw;
}

/* --- pieces ------------------------------------------------------------------------------------------------------ */

static effects run_piece(struct app_lift *l, double by)
{
    return app_lift_step_piece(l, (int)by);
}

static effects run_begin(struct app_lift *l, double kind)
{
    return app_lift_begin_mend(l, (enum lifting_mend_kind)kind);
}

static effects run_mend(struct app_lift *l, double kind)
{
    return app_lift_mend(l, (struct lifting_mend){ .kind = (enum lifting_mend_kind)kind });
}

static effects run_join(struct app_lift *l, double unused)
{
    (void)unused;
    return app_lift_mend(l, (struct lifting_mend){ .kind = LIFTING_MEND_JOIN, .of = { 0, l->other } });
}

static effects run_take_back(struct app_lift *l, double unused)
{
    (void)unused;
    return app_lift_take_back(l);
}

static effects run_back_to_pieces(struct app_lift *l, double unused)
{
    (void)unused;
    return app_lift_go(l, APP_LIFT_PIECES);
}

static effects run_back_to_whole(struct app_lift *l, double unused)
{
    (void)unused;
    return app_lift_go(l, APP_LIFT_WHOLE);
}

/* --- the end ----------------------------------------------------------------------------------------------------- */

static effects run_allowance(struct app_lift *l, double unused)
{
    (void)unused;
    return app_lift_take_allowance(l);
}

static effects run_save(struct app_lift *l, double unused)
{
    (void)unused;
    return app_lift_ask_save(l);
}

static effects run_replace(struct app_lift *l, double unused)
{
    (void)unused;
    l->replace = true;
    return app_lift_ask_save(l);
}

static effects run_cut(struct app_lift *l, double unused)
{
    (void)unused;
    if (l->start.may_cut && app_lift_size(l))
        return (effects){ .cut = true, .quit = true };
    return app_lift_redraw;
}

static effects run_typed(struct app_lift *l, double unused)
{
    (void)unused;
    return app_lift_typed(l);
}

/* A whole character, however many bytes it has. */
static effects run_rub_out(struct app_lift *l, double unused)
{
    (void)unused;
    base_text_rub_out(l->typed);
    return app_lift_redraw;
}

/* --- the rows ---------------------------------------------------------------------------------------------------- */

#define ON(page) (1u << (page))

enum {
    SCALE = ON(APP_LIFT_SCALE),
    POINTS = ON(APP_LIFT_POINTS),
    CHECK = ON(APP_LIFT_CHECK),
    PAGES = ON(APP_LIFT_PAGES),
    SIZES = ON(APP_LIFT_SIZES),
    WHOLE = ON(APP_LIFT_WHOLE),
    LAYERS = ON(APP_LIFT_LAYERS),
    PIECES = ON(APP_LIFT_PIECES),
    JOIN = ON(APP_LIFT_JOIN),
    MARK = ON(APP_LIFT_MARK),
    ALLOWANCE = ON(APP_LIFT_ALLOWANCE),
    SAVE = ON(APP_LIFT_SAVE),
    SAVED = ON(APP_LIFT_SAVED),
    TYPE = ON(APP_LIFT_TYPE),
    SQUARE = ON(APP_LIFT_SQUARE),
    LEAVE = ON(APP_LIFT_LEAVE),
    MAIN = SCALE | PAGES | SIZES | WHOLE | PIECES | ALLOWANCE | SAVE,
    PANNED = POINTS | WHOLE | PIECES | MARK,
    CROSSED = POINTS | MARK,
    ROWS = SCALE | SIZES | LAYERS | ALLOWANCE,
    EVERY = MAIN | POINTS | CHECK | LAYERS | JOIN | MARK | SAVED,
    ALL = (1u << APP_LIFT_PAGE_COUNT) - 1
};

static const struct lift_key {
    struct app_key key;
    effects (*run)(struct app_lift *, double);
    double amount;
} key_rows[] = {
    { { SCALE, KEY_ENTER, 0, BASE_TR("take the marked one, and see it on the table") }, run_take_way, 0 },
    { { CHECK, KEY_ENTER, 0, BASE_TR("the rule says the same: go on") }, run_checked, 0 },
    { { CHECK, KEY_ESC, 0, BASE_TR("it does not: another scale") }, run_not_so, 0 },
    { { CROSSED, KEY_ENTER, 0, BASE_TR("mark the place under the cross") }, run_mark, 0 },
    { { CROSSED, KEY_SPACE, 0, NULL }, run_mark, 0 },
    { { POINTS, KEY_PAGE_DOWN, 0, BASE_TR("next or previous page of the file") }, run_page_of_file, +1 },
    { { POINTS, KEY_PAGE_UP, 0, NULL }, run_page_of_file, -1 },
    { { POINTS, KEY_ESC, 0, BASE_TR("back to the scale") }, run_not_so, 0 },
    { { PAGES, KEY_ENTER, 0, BASE_TR("they lie so: go on") }, run_on, 0 },
    { { PAGES, KEY_CHAR + '+', 0, BASE_TR("one page more, or fewer, across") }, run_columns, +1 },
    { { PAGES, KEY_CHAR + '-', 0, NULL }, run_columns, -1 },
    { { PAGES, KEY_CHAR + 'r', 0, BASE_TR("pages follow each other across, or down") }, run_by_columns, 0 },
    { { PAGES, KEY_PAGE_DOWN, 0, BASE_TR("another page in hand") }, run_page_of_file, +1 },
    { { PAGES, KEY_PAGE_UP, 0, NULL }, run_page_of_file, -1 },
    { { PAGES, KEY_LEFT, 0, BASE_TR("change places with its neighbour") }, run_cell_right, -1 },
    { { PAGES, KEY_RIGHT, 0, NULL }, run_cell_right, +1 },
    { { PAGES, KEY_UP, 0, NULL }, run_cell_away, +1 },
    { { PAGES, KEY_DOWN, 0, NULL }, run_cell_away, -1 },
    { { PAGES, KEY_LEFT, MOD_SHIFT, BASE_TR("move it by 1 mm") }, run_page_right, -1 },
    { { PAGES, KEY_RIGHT, MOD_SHIFT, NULL }, run_page_right, +1 },
    { { PAGES, KEY_UP, MOD_SHIFT, NULL }, run_page_away, +1 },
    { { PAGES, KEY_DOWN, MOD_SHIFT, NULL }, run_page_away, -1 },
    { { PAGES, KEY_LEFT, MOD_CTRL, BASE_TR("by 0.1 mm") }, run_page_right, -0.1 },
    { { PAGES, KEY_RIGHT, MOD_CTRL, NULL }, run_page_right, +0.1 },
    { { PAGES, KEY_UP, MOD_CTRL, NULL }, run_page_away, +0.1 },
    { { PAGES, KEY_DOWN, MOD_CTRL, NULL }, run_page_away, -0.1 },
    { { PAGES, KEY_CHAR + 'x', 0, BASE_TR("leave it out, or take it in") }, run_leave_out, 0 },
    { { PAGES, KEY_HOME, 0, BASE_TR("all as they were found") }, run_as_found, 0 },
    { { SIZES, KEY_ENTER, 0, BASE_TR("lines and sizes are so: go on") }, run_on, 0 },
    { { ROWS, KEY_DOWN, 0, BASE_TR("mark the next line, or the one before") }, run_row, +1 },
    { { ROWS, KEY_UP, 0, NULL }, run_row, -1 },
    { { ROWS, KEY_PAGE_DOWN, 0, NULL }, run_row, +1 },
    { { ROWS, KEY_PAGE_UP, 0, NULL }, run_row, -1 },
    { { SIZES, KEY_RIGHT, 0, BASE_TR("it is another size, all sizes, or not used") }, run_role, +1 },
    { { SIZES, KEY_LEFT, 0, NULL }, run_role, -1 },
    { { SIZES, KEY_CHAR + 'n', 0, BASE_TR("it is a size that is typed") }, run_type, APP_LIFT_TYPE_SIZE },
    { { SIZES, KEY_CHAR + 'd', 0, BASE_TR("its size is drawn, or not") }, run_draw_size, 0 },
    { { WHOLE, KEY_ENTER, 0, BASE_TR("go on to the pieces") }, run_on, 0 },
    { { WHOLE, KEY_LEFT, 0, BASE_TR("move the sheet by 50 mm") }, run_pan_right, -50 },
    { { WHOLE, KEY_RIGHT, 0, NULL }, run_pan_right, +50 },
    { { WHOLE, KEY_UP, 0, NULL }, run_pan_away, +50 },
    { { WHOLE, KEY_DOWN, 0, NULL }, run_pan_away, -50 },
    { { POINTS | PIECES | MARK, KEY_LEFT, 0, BASE_TR("move it by 10 mm") }, run_pan_right, -10 },
    { { POINTS | PIECES | MARK, KEY_RIGHT, 0, NULL }, run_pan_right, +10 },
    { { POINTS | PIECES | MARK, KEY_UP, 0, NULL }, run_pan_away, +10 },
    { { POINTS | PIECES | MARK, KEY_DOWN, 0, NULL }, run_pan_away, -10 },
    { { PANNED, KEY_LEFT, MOD_SHIFT, BASE_TR("by 1 mm") }, run_pan_right, -1 },
    { { PANNED, KEY_RIGHT, MOD_SHIFT, NULL }, run_pan_right, +1 },
    { { PANNED, KEY_UP, MOD_SHIFT, NULL }, run_pan_away, +1 },
    { { PANNED, KEY_DOWN, MOD_SHIFT, NULL }, run_pan_away, -1 },
    { { PANNED, KEY_LEFT, MOD_CTRL, BASE_TR("by 0.2 mm") }, run_pan_right, -0.2 },
    { { PANNED, KEY_RIGHT, MOD_CTRL, NULL }, run_pan_right, +0.2 },
    { { PANNED, KEY_UP, MOD_CTRL, NULL }, run_pan_away, +0.2 },
    { { PANNED, KEY_DOWN, MOD_CTRL, NULL }, run_pan_away, -0.2 },
    { { POINTS, KEY_LEFT, MOD_ALT, BASE_TR("by 100 mm") }, run_pan_right, -100 },
    { { POINTS, KEY_RIGHT, MOD_ALT, NULL }, run_pan_right, +100 },
    { { POINTS, KEY_UP, MOD_ALT, NULL }, run_pan_away, +100 },
    { { POINTS, KEY_DOWN, MOD_ALT, NULL }, run_pan_away, -100 },
    { { WHOLE | PIECES, KEY_CHAR + 't', 0, BASE_TR("turn it by 90°") }, run_turn, +90 },
    { { WHOLE | PIECES, KEY_CHAR + 't', MOD_SHIFT, NULL }, run_turn, -90 },
    { { WHOLE | PIECES | MARK, KEY_CHAR + ',', 0, BASE_TR("turn it by 1°; when the grain is set, the grain") },
      run_turn,
      +1 },
    { { WHOLE | PIECES | MARK, KEY_CHAR + '.', 0, NULL }, run_turn, -1 },
    { { WHOLE | PIECES | MARK, KEY_CHAR + ',', MOD_CTRL, BASE_TR("by 0.1°") }, run_turn, +0.1 },
    { { WHOLE | PIECES | MARK, KEY_CHAR + '.', MOD_CTRL, NULL }, run_turn, -0.1 },
    { { WHOLE, KEY_CHAR + 'o', 0, BASE_TR("turn the sheet over") }, run_turn_over, 0 },
    { { WHOLE, KEY_PAGE_DOWN, 0, BASE_TR("the next or previous piece into the light") }, run_to_piece, +1 },
    { { WHOLE, KEY_PAGE_UP, 0, NULL }, run_to_piece, -1 },
    { { WHOLE, KEY_CHAR + 'l', 0, BASE_TR("which layers are shown") }, run_layers, 0 },
    { { LAYERS, KEY_SPACE, 0, BASE_TR("show it, or not") }, run_layer, 0 },
    { { LAYERS, KEY_ENTER, 0, BASE_TR("back to the sheet") }, run_back_to_whole, 0 },
    { { LAYERS, KEY_ESC, 0, NULL }, run_back_to_whole, 0 },
    { { WHOLE, KEY_CHAR + 'a', 0, BASE_TR("the other lines, too, as thin ones") }, run_everything, 0 },
    { { PIECES, KEY_ENTER, 0, BASE_TR("the pieces are right: go on") }, run_on, 0 },
    { { PIECES, KEY_PAGE_DOWN, 0, BASE_TR("next or previous piece") }, run_piece, +1 },
    { { PIECES, KEY_PAGE_UP, 0, NULL }, run_piece, -1 },
    { { PIECES, KEY_CHAR + 'n', 0, BASE_TR("type its name") }, run_type, APP_LIFT_TYPE_NAME },
    { { PIECES, KEY_CHAR + 'x', 0, BASE_TR("type how often it is cut") }, run_type, APP_LIFT_TYPE_COUNT },
    { { PIECES, KEY_CHAR + 'g', 0, BASE_TR("set the grain: two places, or turn it") }, run_begin, LIFTING_MEND_GRAIN },
    { { PIECES, KEY_CHAR + 'f', 0, BASE_TR("it lies on the fold: two places of that edge") },
      run_begin,
      LIFTING_MEND_FOLD },
    { { PIECES, KEY_CHAR + 'f', MOD_SHIFT, BASE_TR("it lies on no fold") }, run_mend, LIFTING_MEND_FOLD },
    { { PIECES, KEY_CHAR + 'j', 0, BASE_TR("join it with another piece") }, run_begin, LIFTING_MEND_JOIN },
    { { PIECES, KEY_CHAR + 'p', 0, BASE_TR("part it along a line between two places") }, run_begin, LIFTING_MEND_PART },
    { { PIECES, KEY_CHAR + 'o', 0, BASE_TR("it is drawn the other way round: turn it over") },
      run_mend,
      LIFTING_MEND_MIRROR },
    { { PIECES, KEY_BACKSPACE, 0, BASE_TR("it is no piece") }, run_mend, LIFTING_MEND_DROP },
    { { PIECES, KEY_CHAR + 'u', 0, BASE_TR("take the last of these back") }, run_take_back, 0 },
    { { WHOLE | PIECES | POINTS | MARK, KEY_HOME, 0, BASE_TR("back to how it lay at first") }, run_middle, 0 },
    { { JOIN, KEY_PAGE_DOWN, 0, BASE_TR("another piece") }, run_piece, +1 },
    { { JOIN, KEY_PAGE_UP, 0, NULL }, run_piece, -1 },
    { { JOIN, KEY_ENTER, 0, BASE_TR("join these two") }, run_join, 0 },
    { { JOIN | MARK, KEY_ESC, 0, BASE_TR("back to the pieces") }, run_back_to_pieces, 0 },
    { { WHOLE | PIECES | JOIN | MARK, KEY_CHAR + '+', 0, BASE_TR("cut line 0.5 mm wider or finer") },
      run_weight,
      +0.5 },
    { { WHOLE | PIECES | JOIN | MARK, KEY_CHAR + '-', 0, NULL }, run_weight, -0.5 },
    { { ALLOWANCE, KEY_ENTER, 0, BASE_TR("it is so: go on") }, run_allowance, 0 },
    { { ALLOWANCE | TYPE | ON(APP_LIFT_PASSWORD) | ON(APP_LIFT_DPI), KEY_BACKSPACE, 0, BASE_TR("rub out") },
      run_rub_out,
      0 },
    { { SAVE, KEY_ENTER, 0, BASE_TR("save the pattern") }, run_save, 0 },
    { { SAVE, KEY_CHAR + 'n', 0, BASE_TR("save it under another name") }, run_type, APP_LIFT_TYPE_OUT },
    { { SAVE, KEY_CHAR + 'r', 0, BASE_TR("replace what stands there") }, run_replace, 0 },
    { { SAVED, KEY_ENTER, 0, BASE_TR("leave") }, run_quit, 0 },
    { { SAVED, KEY_CHAR + 'c', 0, BASE_TR("cut the pieces now") }, run_cut, 0 },
    { { SAVED, KEY_ESC, 0, BASE_TR("back to the pieces") }, run_back_to_pieces, 0 },
    { { TYPE, KEY_ENTER, 0, BASE_TR("take what is typed") }, run_typed, 0 },
    { { TYPE | SQUARE | LEAVE, KEY_ESC, 0, BASE_TR("back") }, run_beneath, 0 },
    { { SQUARE, KEY_ENTER, 0, NULL }, run_beneath, 0 },
    { { SQUARE, KEY_CHAR + 's', 0, NULL }, run_beneath, 0 },
    { { LEAVE, KEY_ENTER, 0, BASE_TR("leave") }, run_quit, 0 },
    { { ON(APP_LIFT_PASSWORD), KEY_ENTER, 0, BASE_TR("open it with this password") }, run_read, 0 },
    { { ON(APP_LIFT_DPI), KEY_ENTER, 0, BASE_TR("read it so") }, run_dpi, 0 },
    { { ON(APP_LIFT_READING), KEY_ESC, 0, BASE_TR("read no more") }, run_cancel, 0 },
    { { EVERY, KEY_F2, 0, BASE_TR("scale, pages, sizes, sheet, pieces, allowance, saving") }, run_to, APP_LIFT_SCALE },
    { { EVERY, KEY_F3, 0, NULL }, run_to, APP_LIFT_PAGES },
    { { EVERY, KEY_F4, 0, NULL }, run_to, APP_LIFT_SIZES },
    { { EVERY, KEY_F5, 0, NULL }, run_to, APP_LIFT_WHOLE },
    { { EVERY, KEY_F6, 0, NULL }, run_to, APP_LIFT_PIECES },
    { { EVERY, KEY_F7, 0, NULL }, run_to, APP_LIFT_ALLOWANCE },
    { { EVERY, KEY_F8, 0, NULL }, run_to, APP_LIFT_SAVE },
    { { MAIN, KEY_ESC, 0, BASE_TR("the page before") }, run_back, 0 },
    { { EVERY & ~ALLOWANCE, KEY_CHAR + 's', 0, BASE_TR("test square: measure it") }, run_square, 0 },
    { { EVERY & ~ALLOWANCE, KEY_CHAR + 'm', 0, BASE_TR("the marks lie on their check stickers") }, run_match, 0 },
    { { EVERY & ~ALLOWANCE, KEY_CHAR + 'm', MOD_SHIFT, BASE_TR("they do not") }, run_moved, 0 },
    { { EVERY & ~(SAVED | ALLOWANCE), KEY_CHAR + 'c', 0, BASE_TR("other colours of light") }, run_chalks, +1 },
    { { EVERY | TYPE, KEY_TAB, 0, BASE_TR("you stand on another side") }, run_side, +1 },
    { { EVERY, KEY_F1, 0, BASE_TR("these keys") }, run_help, 0 },
    { { EVERY & ~ALLOWANCE, KEY_CHAR + 'h', 0, NULL }, run_help, 0 },
    { { ALL, KEY_CHAR + 'q', MOD_CTRL, BASE_TR("leave; what you said is kept") }, run_quit, 0 },
};

static const struct app_key_table key_table = { key_rows, sizeof key_rows / sizeof key_rows[0], sizeof key_rows[0], 0 };

size_t app_lift_page_keys(struct arena *a, enum app_lift_page page, const struct scene_help_line **out)
{
    return app_table_lines(a, &key_table, NULL, ON(page), out);
}

size_t app_lift_help_lines(struct arena *a, int list, const char **title, const char **name,
                           const struct scene_help_line **out)
{
    static const struct {
        enum app_lift_page page;
        const char *title, *name;
    } lists[APP_LIFT_KEY_LISTS] = {
        { APP_LIFT_SCALE, BASE_TR("Taking a sheet to pieces: its scale"), "sheet_scale" },
        { APP_LIFT_POINTS, BASE_TR("Marking two points of a sheet"), "sheet_points" },
        { APP_LIFT_PAGES, BASE_TR("Its pages"), "sheet_pages" },
        { APP_LIFT_SIZES, BASE_TR("Its sizes"), "sheet_sizes" },
        { APP_LIFT_WHOLE, BASE_TR("The whole sheet on the table"), "sheet_whole" },
        { APP_LIFT_PIECES, BASE_TR("Its pieces"), "sheet_pieces" },
        { APP_LIFT_SAVE, BASE_TR("Saving them as a pattern"), "sheet_save" },
    };
    *title = base_tr(lists[list].title);
    *name = lists[list].name;
    return app_lift_page_keys(a, lists[list].page, out);
}

/* --- events ------------------------------------------------------------------------------------------------------ */

static bool types(enum app_lift_page page)
{
    return page == APP_LIFT_TYPE || page == APP_LIFT_PASSWORD || page == APP_LIFT_DPI || page == APP_LIFT_ALLOWANCE;
}

/* A key without a row: a character where one is typed, or any key where any key will do. */
static effects press_other(struct app_lift *l, int key, int mods)
{
    unsigned long point = input_key_printed(key, mods);
    if (l->page == APP_LIFT_CAUTIONS)
        return run_read(l, 0);
    if (l->page == APP_LIFT_HELP || l->page == APP_LIFT_LEAVE || l->page == APP_LIFT_SQUARE)
        return run_beneath(l, 0);
    if (l->page == APP_LIFT_REFUSED)
        return (effects){ .quit = true };
    if (types(l->page) && point)
        base_text_type(l->typed, sizeof l->typed, point);
    return app_lift_redraw;
}

static effects press(struct app_lift *l, int key, int mods)
{
    const struct lift_key *row = app_find_row(&key_table, ON(l->page), key, mods);
    if (l->page != APP_LIFT_PASSWORD && l->page != APP_LIFT_DPI && l->page != APP_LIFT_REFUSED)
        l->told = NULL;
    return row ? row->run(l, row->amount) : press_other(l, key, mods);
}

struct app_lift_effects app_lift_handle(struct app_lift *l, struct input_event event)
{
    switch (event.type) {
    case INPUT_KEY:
        return press(l, event.key, event.mods);
    case INPUT_SIZE:
    case INPUT_MOVED:
        return app_lift_redraw;
    case INPUT_EXPOSE:
        return (effects){ .show = true };
    case INPUT_QUIT:
        return (effects){ .quit = true };
    case INPUT_STICKS:
    case INPUT_POINT: /* nothing on the table is pressed by the mouse */
    case INPUT_WHEEL:
    case INPUT_DROP:
    case INPUT_NONE:
        break;
    }
    return (effects){ 0 };
}
