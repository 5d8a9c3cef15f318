/* What each page shows. */
#include "app/amount.h"
#include "app/app.h"
#include "app/lift_state.h"
#include "app/sheet_report.h"
#include "app/sheet_truth.h"
#include "base/text.h"
#include "base/words.h"
#include "scene/crosses.h"

#include <math.h>
#include <string.h>

enum { MOST_NOTES = 3 };

#define SQUARE_MM 100.0
#define SQUARE_IN_MM (4 * UNITS_MM_PER_IN)

/* What must not be overlooked, the gravest first; on pages that are not true to scale that they are not. */
static const char *notice(const struct app_lift *l, bool is_true)
{
    if (l->trouble)
        return l->trouble;
    if (l->told)
        return l->told;
    if (!is_true)
        return base_tr(app_trust_not_true);
    const char *doubt = app_trust_notice(&l->trust, l->start.table.stickers.count > 0);
    if (doubt)
        return doubt;
    return l->start.table.sample ? base_tr(app_trust_sample) : NULL;
}

/* Of a page without a picture and without a line of the sheet. */
static const char *told(const struct app_lift *l)
{
    return l->trouble ? l->trouble : l->told;
}

static struct scene_view view_of(const struct app_lift *l, struct arena *a)
{
    bool inches = l->start.unit == UNITS_IN;
    return (
        struct scene_view){ .map = app_lift_map(l),
                            .mat = &l->start.table.mat,
                            .font = l->start.font,
                            .look = { geometry_map_mm_per_px(app_lift_map(l)), l->weight_mm, &scene_chalks[l->chalks] },
                            .side = l->side,
                            .square_mm = inches ? SQUARE_IN_MM : SQUARE_MM,
                            .test_unit = inches ? UNITS_IN : UNITS_MM,
                            .stickers = l->start.table.stickers.px,
                            .sticker_count = l->start.table.stickers.count,
                            .sticker_in_hand = -1,
                            .strip_right = app_lift_step_text(l, a) };
}

/* --- pages of words ---------------------------------------------------------------------------------------------- */

/* A sentence, and what stands in its own letters; either may be NULL. */
static struct paint_scene words_scene(const struct app_lift *l, struct arena *a, const char *title,
                                      const char *sentence, const char *line, const char *strip)
{
    struct scene_view view = view_of(l, a);
    const char *const sentences[] = { sentence, NULL }, *const lines[] = { line, NULL };
    struct scene_board board = { .title = title, .lines = sentences, .as_written = lines };
    view.notice = told(l);
    view.strip_left = strip;
    if (!l->im)
        view.strip_right = base_tr("Ctrl Q: leave");
    return scene_board(a, &view, &board);
}

static struct paint_scene reading_scene(const struct app_lift *l, struct arena *a)
{
    return words_scene(l, a, base_arena_print(a, base_tr("Reading: %u %%"), l->percent), NULL, l->start.file,
                       base_tr("Esc: read no more"));
}

/* What is typed is not shown. */
static struct paint_scene password_scene(const struct app_lift *l, struct arena *a)
{
    const char *dots = "";
    for (size_t i = 0; i < base_text_letters(l->typed); i++)
        dots = base_arena_print(a, "%s•", dots);
    return words_scene(l, a, base_tr("The file is locked: type its password"),
                       base_arena_print(a, base_tr("Password: %s_"), dots), NULL,
                       base_tr("Type the password that came with the file, then Enter"));
}

static struct paint_scene dpi_scene(const struct app_lift *l, struct arena *a)
{
    return words_scene(l, a, base_tr("A picture"), base_arena_print(a, base_tr("Dots to the inch: %s_"), l->typed),
                       NULL, base_tr("Type at how many dots per inch it was scanned, as 300, then Enter"));
}

static struct paint_scene refused_scene(const struct app_lift *l, struct arena *a)
{
    struct scene_view view = view_of(l, a);
    const char *const lines[] = { l->told, NULL }, *const file[] = { l->start.file, NULL };
    struct scene_board board = { .title = base_tr("This file cannot be read"), .lines = lines, .as_written = file };
    view.strip_left = base_tr("Any key: leave");
    view.strip_right = NULL;
    return scene_board(a, &view, &board);
}

/* Which piece it is that something is typed of. */
static const char *typed_of(const struct app_lift *l, struct arena *a)
{
    bool of_piece = l->typing == APP_LIFT_TYPE_NAME || l->typing == APP_LIFT_TYPE_COUNT;
    const struct lifting *found = &l->im->lifting;
    if (!of_piece || l->piece >= found->piece_count)
        return NULL;
    const struct lifting_words *words = &found->pieces[l->piece].words;
    const char *name = words->name ? base_arena_print(a, "“%s”", words->name) : base_tr("no name");
    /* To: “Piece 3 of 12: “Pocket”, cut 2 pairs” */
    return base_arena_print(a, base_tr("Piece %zu of %zu: %s, cut %s"), l->piece + 1, found->piece_count, name,
                            app_lifting_count(a, words));
}

static struct paint_scene type_scene(const struct app_lift *l, struct arena *a)
{
    return words_scene(l, a, app_lift_type_sentence(l), typed_of(l, a), base_arena_print(a, "%s_", l->typed),
                       base_tr("Enter: so it is · Esc: back"));
}

static struct paint_scene help_scene(const struct app_lift *l, struct arena *a, bool cautions)
{
    struct scene_view view = view_of(l, a);
    view.mode = SCENE_HELP;
    view.help_count = cautions ? app_caution_page(a, NULL, &view.help) : app_lift_page_keys(a, l->beneath, &view.help);
    view.strip_left = cautions ? base_tr("Any key: read the sheet") : base_tr("Any key: back");
    view.strip_right = base_tr("Ctrl Q: leave");
    return scene_make(a, &view);
}

static struct paint_scene square_scene(const struct app_lift *l, struct arena *a)
{
    struct scene_view view = view_of(l, a);
    view.mode = SCENE_TEST_SQUARE;
    view.notice = notice(l, true);
    view.strip_left = base_tr("Measure the square with a rule: all sides, then both diagonals");
    view.strip_right = base_tr("S: back");
    return scene_make(a, &view);
}

static struct paint_scene leave_scene(const struct app_lift *l, struct arena *a)
{
    return words_scene(l, a, base_tr("Leave?"),
                       base_tr("What you said of this sheet is kept: the same command goes on from it."), NULL,
                       base_tr("Enter: leave · any other key: stay"));
}

/* --- scale ------------------------------------------------------------------------------------------------------- */

/* What the squares say, and what the reader tells beside the drawing; a NULL ends them. */
static const char *const *scale_sentences(const struct app_lift *l, struct arena *a)
{
    const struct sheet *sheet = l->im->sheet;
    const char **lines = base_arena_alloc(a, MOST_NOTES + 3, sizeof *lines);
    size_t notes = sheet ? sheet->counts[SHEET_NOTES] : 0, count = 0;
    lines[count++] = app_sheet_told_text(a, l->im, &l->im->found, l->start.unit);
    for (size_t i = 0; i < notes && i < MOST_NOTES; i++)
        lines[count++] = app_sheet_note(a, sheet, &sheet->notes[i]);
    if (notes > MOST_NOTES)
        lines[count] =
            base_arena_print(a, base_tr("%zu more such notes: “chalklight sheet” says them all."), notes - MOST_NOTES);
    return lines;
}

static struct paint_scene scale_scene(const struct app_lift *l, struct arena *a)
{
    struct scene_view view = view_of(l, a);
    const struct app_lift_way *ways;
    size_t now, count = app_lift_ways(l, a, &ways, &now);
    struct scene_board_row *rows = base_arena_alloc(a, count, sizeof *rows);
    for (size_t i = 0; i < count; i++)
        rows[i] = (struct scene_board_row){ .texts = { app_lift_way_text(l, a, &ways[i]) }, .marked = i == l->row };
    struct scene_board board = {
        .title = base_tr("Is it true to scale?"), .lines = scale_sentences(l, a), .rows = rows, .row_count = count
    };
    view.notice = told(l);
    view.strip_left = base_tr("Up, Down: choose · Enter: take it, and measure it on the table");
    return scene_board(a, &view, &board);
}

static struct paint_scene points_scene(const struct app_lift *l, struct arena *a)
{
    struct scene_view view = view_of(l, a);
    struct scene_sheet sheet = app_lift_flat(l, a);
    view.motion = l->flat;
    view.notice = notice(l, false);
    view.strip_left = l->marks.count == 1 ? base_tr("Arrows: the second point under the cross · Enter: mark it")
                                          : base_tr("Arrows: the first point under the cross · Enter: mark it");
    view.strip_right =
        base_arena_print(a, base_tr("page %d of %zu · F1: keys"), l->page_in_hand + 1, l->im->flat.page_count);
    struct paint_scene scene = scene_sheet(a, &view, &sheet);
    scene_draw_marks(a, &view, &l->marks, &scene);
    return scene;
}

static struct paint_scene check_scene(const struct app_lift *l, struct arena *a)
{
    const struct app_import_choices *c = &l->im->choices;
    struct scene_view view = view_of(l, a);
    struct scene_sheet sheet = app_lift_corrected(l, a);
    double is_mm = c->scale == APP_IMPORT_BY_POINTS ? c->true_mm : l->im->truth.side_mm;
    char is[UNITS_TEXT];
    units_print_length(is, is_mm, l->start.unit);
    view.notice = notice(l, true);
    view.strip_left =
        c->scale == APP_IMPORT_AS_DRAWN || !(is_mm > 0)
            ? base_tr("Measure what you know of this sheet with a rule")
            : base_arena_print(a,
                               c->scale == APP_IMPORT_BY_POINTS
                                   ? base_tr("Measure with a rule: %s from point to point it has to be")
                                   : base_tr("Measure with a rule: %s each side of the square it has to be"),
                               is);
    view.strip_right = base_tr("Enter: it is · Esc: it is not");
    struct paint_scene scene = scene_sheet(a, &view, &sheet);
    struct scene_marks marks = { .count = c->scale == APP_IMPORT_BY_POINTS ? 2 : 0 };
    for (size_t i = 0; i < marks.count; i++)
        marks.at[i] =
            vec2_sub((vec2){ c->points[i].x * l->im->scale.across, c->points[i].y * l->im->scale.up }, sheet.middle);
    scene_draw_marked(a, &view, &marks, &scene);
    return scene;
}

/* --- pages ------------------------------------------------------------------------------------------------------- */

static bool is_in(const int *list, size_t count, int what)
{
    for (size_t i = 0; i < count; i++)
        if (list[i] == what)
            return true;
    return false;
}

static const char *page_name(const struct app_lift *l, struct arena *a, int page)
{
    const char *label = l->im->flat.pages[page].label;
    return label && *label ? label : base_arena_print(a, "%d", page + 1);
}

static const struct scene_board_frame *frames_of(const struct app_lift *l, struct arena *a, size_t *count)
{
    const struct app_import *im = l->im;
    const struct drawing_pages *pages = &im->pages;
    struct scene_board_frame *frames = base_arena_alloc(a, pages->place_count + pages->missing_count, sizeof *frames);
    vec2 size = { 0, 0 };
    *count = 0;
    for (size_t i = 0; i < pages->place_count; i++) {
        const struct drawing_place *p = &pages->places[i];
        vec2 from = { p->window[0].x * im->scale.across, p->window[0].y * im->scale.up };
        vec2 to = { p->window[1].x * im->scale.across, p->window[1].y * im->scale.up };
        size = vec2_sub(to, from);
        frames[(*count)++] = (struct scene_board_frame){ .box = { vec2_add(p->shift, from), vec2_add(p->shift, to) },
                                                         .name = page_name(l, a, p->page),
                                                         .marked = p->page == l->page_in_hand };
    }
    for (size_t i = 0; i < pages->missing_count; i++) {
        int column = pages->missing[i] % pages->columns, row = pages->missing[i] / pages->columns;
        vec2 at = { column * size.x, (pages->rows - 1 - row) * size.y };
        frames[(*count)++] = (struct scene_board_frame){ .box = { at, vec2_add(at, size) },
                                                         .name = base_tr("missing"),
                                                         .missing = true };
    }
    return frames;
}

static int lane_of(const struct drawing_pages *pages, size_t place, bool rows)
{
    return rows ? pages->places[place].row : pages->places[place].column;
}

/* How many columns, or rows, are in the picture: those of pages without a line are not. */
static int lanes_with_lines(const struct drawing_pages *pages, bool rows)
{
    int count = 0;
    for (int lane = 0; lane < (rows ? pages->rows : pages->columns); lane++) {
        bool any = false;
        for (size_t i = 0; i < pages->place_count && !any; i++)
            any = lane_of(pages, i, rows) == lane;
        for (size_t i = 0; i < pages->missing_count && !any; i++)
            any = (rows ? pages->missing[i] / pages->columns : pages->missing[i] % pages->columns) == lane;
        count += any;
    }
    return count;
}

static const char *and_then(struct arena *a, const char *text, const char *sentence)
{
    return base_arena_print(a, "%s %s", text, sentence);
}

static const char *missing_sentence(struct arena *a, const struct drawing_pages *pages)
{
    const char *first = drawing_cell_text(a, pages, pages->missing[0]);
    if (pages->missing_count == 1)
        return base_arena_print(a, base_tr("Missing: %s."), first);
    return base_arena_print(a, base_tr("Missing: %s and %zu more."), first, pages->missing_count - 1);
}

static const char *broken_sentence(struct arena *a, const struct drawing_pages *pages)
{
    const char *first = app_break_text(a, &pages->broken[0]);
    if (pages->broken_count == 1) /* To: “Lines break off between pages 1 and 2.” */
        return base_arena_print(a, base_tr("Lines break off %s."), first);
    return base_arena_print(a, base_tr("Lines break off %s, %zu more such."), first, pages->broken_count - 1);
}

static const char *pages_sentence(const struct app_lift *l, struct arena *a)
{
    static const char *const hows[] = { [DRAWING_ALONE] = BASE_TR("each page stands alone"),
                                        [DRAWING_BY_LABEL] = BASE_TR("by their names"),
                                        [DRAWING_BY_ORDER] = BASE_TR("in their order"),
                                        [DRAWING_BY_TRIAL] = BASE_TR("by the lines that go on from page to page"),
                                        [DRAWING_REPEATED] = BASE_TR("each shows a part of the whole sheet"),
                                        [DRAWING_BY_HAND] = BASE_TR("as you said") };
    const struct drawing_pages *pages = &l->im->pages;
    const char *text =
        /* To: “9 pages, 3 across and 3 down: in their order.” */
        base_arena_print(a, base_tr("%zu pages, %d across and %d down: %s."), pages->place_count,
                         lanes_with_lines(pages, false), lanes_with_lines(pages, true), base_tr(hows[pages->how]));
    if (pages->empty_count)
        text = and_then(a, text, base_arena_print(a, base_tr("%zu more without a line."), pages->empty_count));
    if (pages->left_out_count)
        text = and_then(a, text, base_arena_print(a, base_tr("%zu left out."), pages->left_out_count));
    if (pages->missing_count)
        text = and_then(a, text, missing_sentence(a, pages));
    const struct drawing_place *untied = drawing_untied(pages, 0);
    if (untied)
        text = and_then(
            a, text,
            base_arena_print(a, base_tr("No line goes on from page %s to another."), page_name(l, a, untied->page)));
    if (pages->broken_count)
        text = and_then(a, text, broken_sentence(a, pages));
    else if (pages->misfit_mm > 0)
        text = and_then(
            a, text,
            base_arena_print(a, base_tr("Lines meet within %s mm."), app_decimal(a, fmax(pages->misfit_mm, 0.01), 2)));
    return text;
}

static const char *hand_sentence(const struct app_lift *l, struct arena *a)
{
    const struct drawing_pages *pages = &l->im->pages;
    const char *name = page_name(l, a, l->page_in_hand);
    if (is_in(pages->left_out, pages->left_out_count, l->page_in_hand))
        return base_arena_print(a, base_tr("In hand: page %s, left out. X: take it in"), name);
    if (is_in(pages->empty, pages->empty_count, l->page_in_hand))
        return base_arena_print(a, base_tr("In hand: page %s, without a line"), name);
    return base_arena_print(a, base_tr("In hand: page %s. Arrows: another place · X: leave it out"), name);
}

static struct paint_scene pages_scene(const struct app_lift *l, struct arena *a)
{
    struct scene_view view = view_of(l, a);
    const struct drawing *d = &l->im->joined;
    struct geometry_path *lines = base_arena_alloc(a, d->line_count, sizeof *lines);
    for (size_t i = 0; i < d->line_count; i++)
        lines[i] = d->lines[i].path.path;
    struct scene_board_picture picture = { .lines = lines, .line_count = d->line_count };
    picture.frames = frames_of(l, a, &picture.frame_count);
    const char *const sentences[] = { pages_sentence(l, a), hand_sentence(l, a), NULL };
    struct scene_board board = { .title = l->im->pages.doubtful ? base_tr("Do the pages lie so? Look closely")
                                                                : base_tr("Do the pages lie so?"),
                                 .lines = sentences,
                                 .picture = &picture };
    view.notice = notice(l, false);
    view.strip_left = base_tr("Enter: they do · + −: pages across · R: across or down · Page Down: another page");
    return scene_board(a, &view, &board);
}

/* --- sizes ------------------------------------------------------------------------------------------------------- */

static const char *remark(const struct app_lift *l, const struct lifting_strand *s)
{
    const struct lifting_division *d = &l->im->division;
    bool drawn = s->role == LIFTING_SIZE && (d->size_count == 1 || app_import_draws(l->im, d->sizes[s->size]));
    if (drawn)
        return s->sure ? base_tr_in("on the table", "drawn") : base_tr("drawn · guessed");
    return s->sure ? NULL : base_tr("guessed");
}

static struct paint_scene sizes_scene(const struct app_lift *l, struct arena *a)
{
    struct scene_view view = view_of(l, a);
    const struct lifting_division *d = &l->im->division;
    struct scene_board_row *rows = base_arena_alloc(a, d->strand_count, sizeof *rows);
    for (size_t i = 0; i < d->strand_count; i++) {
        const struct lifting_strand *s = &d->strands[i];
        rows[i] = (struct scene_board_row){ .sample = { true, s->width_mm, s->dash_mm, s->dash_count },
                                            .texts = { app_lift_strand_name(l, a, s), app_strand_role(a, d, s),
                                                       remark(l, s) },
                                            .marked = i == l->row };
    }
    const char *const lines[] = { base_tr("Right, Left: what the marked line is. D: the size that you cut."), NULL };
    struct scene_board board = {
        .title = base_tr("Which line is which size?"), .lines = lines, .rows = rows, .row_count = d->strand_count
    };
    view.notice = told(l);
    view.strip_left = base_tr("Up, Down: choose · Right: other size · D: draw it · Enter: they are right");
    return scene_board(a, &view, &board);
}

/* --- the whole sheet --------------------------------------------------------------------------------------------- */

static const char *drawn_sizes(const struct app_lift *l, struct arena *a)
{
    const char *text = NULL;
    const struct app_import_choices *c = &l->im->choices;
    for (size_t i = 0; i < c->size_count; i++)
        text = base_arena_print(a, "%s%s", text ? base_arena_print(a, "%s, ", text) : "", c->sizes[i]);
    return text ? app_size_said(a, text) : base_tr("all sizes");
}

static struct paint_scene whole_scene(const struct app_lift *l, struct arena *a)
{
    struct scene_view view = view_of(l, a);
    struct scene_sheet sheet = app_lift_whole(l, a);
    view.motion = l->whole;
    view.notice = notice(l, true);
    view.strip_left = base_arena_print(
        a,
        /* To: “The sheet, size 38, turned over · arrows: …” */
        l->whole.mirror ? base_tr("The sheet, %s, turned over · arrows: move it · Enter: to the pieces")
                        : base_tr("The sheet, %s · arrows: move it · Enter: to the pieces"),
        drawn_sizes(l, a));
    return scene_sheet(a, &view, &sheet);
}

static struct paint_scene layers_scene(const struct app_lift *l, struct arena *a)
{
    struct scene_view view = view_of(l, a);
    const struct drawing *d = &l->im->flat;
    const bool *undrawn = app_lift_undrawn_layers(l, a);
    struct scene_board_row *rows = base_arena_alloc(a, d->layer_count, sizeof *rows);
    for (size_t i = 0; i < d->layer_count; i++)
        rows[i] = (struct scene_board_row){ .texts = { d->layers[i].name,
                                                       l->hidden[i] ? base_tr("not shown")
                                                       : undrawn[i] ? base_tr("not drawn: of no size that you cut")
                                                                    : base_tr("shown") },
                                            .marked = i == l->row };
    struct scene_board board = { .title = base_tr("Which layers are shown?"),
                                 .rows = rows,
                                 .row_count = d->layer_count };
    view.notice = told(l);
    view.strip_left = base_tr("Up, Down: choose · Space: show it, or not · Enter: back to the sheet");
    return scene_board(a, &view, &board);
}

/* --- pieces ------------------------------------------------------------------------------------------------------ */

static void turn_grain(struct draft_piece *piece, double deg)
{
    struct geometry_mover turn = geometry_mover_of((struct geometry_motion){ .turn_deg = deg });
    vec2 ends[2] = { { piece->grain[0].x, piece->grain[0].y }, { piece->grain[1].x, piece->grain[1].y } };
    vec2 middle = vec2_lerp(ends[0], ends[1], 0.5);
    for (int i = 0; i < 2; i++) {
        vec2 p = vec2_add(middle, geometry_move(&turn, vec2_sub(ends[i], middle)));
        piece->grain[i] = (struct piece_pt){ p.x, p.y };
    }
}

/* One piece as pieces are cut, or, while they are joined, two. How many are there in this size. */
static size_t draft_shown(const struct app_lift *l, struct arena *a, struct scene_piece *pieces)
{
    const struct lifting *found = &l->im->lifting;
    int size = app_lift_shown_size(l);
    const size_t which[] = { l->piece, l->other };
    size_t count = 0;
    for (size_t i = 0; i < (l->page == APP_LIFT_JOIN ? 2u : 1u); i++) {
        struct draft_piece *drafted = base_arena_alloc(a, 1, sizeof *drafted);
        if (which[i] >= found->piece_count || !app_lift_draft(a, &found->pieces[which[i]], size, drafted))
            continue;
        if (l->page == APP_LIFT_MARK)
            turn_grain(drafted, l->turned_deg);
        const char *count_text =
            base_arena_print(a, base_tr("cut %s"), app_lifting_count(a, &found->pieces[which[i]].words));
        const char *of_size = app_size_said(a, found->division->sizes[size]);
        pieces[count++] = (struct scene_piece){ .piece = drafted, .lines = { count_text, of_size } };
    }
    return count;
}

static const char *mark_sentence(const struct app_lift *l)
{
    bool second = l->marks.count == 1;
    if (l->mend == LIFTING_MEND_GRAIN && l->turned_deg != 0)
        return base_tr("Enter: the grain runs so");
    if (l->mend == LIFTING_MEND_GRAIN)
        return second ? base_tr("A second place that the grain runs through under the cross · Enter")
                      : base_tr("A place that the grain runs through under the cross · Enter; or turn it: , .");
    if (l->mend == LIFTING_MEND_FOLD)
        return second ? base_tr("The other end of the fold edge under the cross · Enter")
                      : base_tr("One end of the edge on the fold under the cross · Enter");
    return second ? base_tr("Where the line ends under the cross · Enter: part the piece")
                  : base_tr("Where the line begins to part it along under the cross · Enter");
}

static const char *piece_sentence(const struct app_lift *l, struct arena *a, size_t shown)
{
    const struct lifting *found = &l->im->lifting;
    if (!found->piece_count)
        return app_lift_no_piece(l);
    if (l->page == APP_LIFT_JOIN)
        return base_tr("Join these two? Enter: yes · Page Down: another one · Esc: no");
    if (l->page == APP_LIFT_MARK)
        return mark_sentence(l);
    if (!shown)
        return base_tr("This piece is not there in your size · Page Down: the next");
    const char *doubt = app_lifting_doubts(a, found->pieces[l->piece].doubts, true);
    return *doubt ? base_arena_print(a, base_tr("Look: %s"), doubt)
                  : base_tr("Page Down: the next piece · Enter: all are right");
}

/* Mends that wait are told, as is what cannot be told of one piece. */
static const char *pieces_notice(const struct app_lift *l, struct arena *a)
{
    const struct app_import *im = l->im;
    if (!l->told && !l->trouble && im->choices.mend_count && !im->mended)
        return base_arena_print(a, base_tr("%zu mends wait: they were made of other pieces, with other sizes or pages"),
                                im->choices.mend_count);
    return notice(l, true);
}

static struct paint_scene pieces_scene(const struct app_lift *l, struct arena *a)
{
    struct scene_view view = view_of(l, a);
    struct scene_piece pieces[2];
    const struct lifting *found = &l->im->lifting;
    const char *steps = view.strip_right;
    view.mode = SCENE_PIECES;
    view.piece_count = draft_shown(l, a, pieces);
    view.pieces = pieces;
    view.motion = l->lies;
    view.notice = pieces_notice(l, a);
    view.strip_left = piece_sentence(l, a, view.piece_count);
    view.strip_right = found->piece_count ? base_arena_print(a, base_tr("Piece %zu of %zu · %s"), l->piece + 1,
                                                             found->piece_count, steps)
                                          : steps;
    struct paint_scene scene = scene_make(a, &view);
    if (l->page != APP_LIFT_JOIN && view.piece_count) {
        const struct geometry_path *inner;
        struct geometry_box box = geometry_path_box(pieces[0].piece->cut.path);
        size_t count = app_lift_inner_lines(a, &found->pieces[l->piece], app_lift_shown_size(l), &inner);
        scene_draw_inner(a, &view, inner, count, vec2_lerp(box.min, box.max, 0.5), &scene);
    }
    if (l->page == APP_LIFT_MARK)
        scene_draw_marks(a, &view, &l->marks, &scene);
    return scene;
}

/* --- the end ----------------------------------------------------------------------------------------------------- */

static struct paint_scene allowance_scene(const struct app_lift *l, struct arena *a)
{
    struct scene_view view = view_of(l, a);
    const struct app_import_allowance *said = &l->im->choices.allowance;
    char width[UNITS_TEXT] = "";
    if (said->said)
        units_print_length(width, said->mm, l->start.unit);
    const char *typed = base_arena_print(a, base_tr("How wide, in %s? %s_"), units_shown_name(l->start.unit),
                                         *l->typed ? l->typed : width);
    const char *const lines[] = { base_tr("Every pattern says so somewhere; the lines do not tell."), typed, NULL };
    const struct scene_board_row rows[] = {
        { .texts = { base_tr("Yes: I cut on the outline, the allowance lies inside it") }, .marked = l->row == 0 },
        { .texts = { base_tr("No: I sew on the outline, the allowance is added outside it") }, .marked = l->row == 1 },
    };
    struct scene_board board = {
        .title = base_tr("Is the seam allowance in the outline?"), .lines = lines, .rows = rows, .row_count = 2
    };
    view.notice = told(l);
    view.strip_left = base_tr("Up, Down: yes or no · type how wide · Enter: so it is");
    return scene_board(a, &view, &board);
}

static size_t count_doubtful(const struct lifting *found)
{
    size_t count = 0;
    for (size_t i = 0; i < found->piece_count; i++)
        count += found->pieces[i].doubts != 0;
    return count;
}

static const char *sizes_words(struct arena *a, size_t count)
{
    /* To: stands in “12 pieces in …” */
    return base_arena_print(a, base_tr_count(count, "%zu size", "%zu sizes"), count);
}

static struct paint_scene save_scene(const struct app_lift *l, struct arena *a)
{
    struct scene_view view = view_of(l, a);
    const struct lifting *found = &l->im->lifting;
    size_t doubtful = count_doubtful(found);
    const char *pieces = base_arena_print(a, base_tr_count(found->piece_count, "%zu piece in %s", "%zu pieces in %s"),
                                          found->piece_count, sizes_words(a, found->division->size_count));
    if (doubtful) /* To: “12 pieces in 5 sizes; of 2 something is still doubtful (F6)” */
        pieces = base_arena_print(a, base_tr("%s; of %zu something is still doubtful (F6)"), pieces, doubtful);
    const char *const lines[] = { pieces,
                                  l->start.out_is_there && !l->replace ? base_tr("A file stands already where it goes:")
                                                                       : base_tr("It goes to"),
                                  NULL };
    const char *const out[] = { l->out, NULL };
    struct scene_board board = { .title = base_tr("Save these pieces as a pattern"),
                                 .lines = lines,
                                 .as_written = out };
    view.notice = told(l);
    view.strip_left = l->start.out_is_there && !l->replace
                          ? base_tr("R: replace it, the old one is kept beside · N: another name")
                          : base_tr("Enter: save · N: under another name");
    return scene_board(a, &view, &board);
}

static struct paint_scene saved_scene(const struct app_lift *l, struct arena *a)
{
    struct scene_view view = view_of(l, a);
    const char *size = app_lift_size(l);
    const char *const lines[] = {
        l->kept ? base_tr("What stood there before is kept beside it. Check it, then begin a job with it:")
                : base_tr("Check it, then begin a job with it:"),
        NULL
    };
    const char *out = base_text_typed(a, l->out);
    const char *const words[] = {
        base_arena_print(a, "chalklight check %s", out),
        base_arena_print(a, "chalklight job %s --size %s --table %s", out, size ? base_text_typed(a, size) : "SIZE",
                         l->start.table_path ? base_text_typed(a, l->start.table_path) : "TABLE"),
        l->kept, NULL
    };
    struct scene_board board = { .title = base_tr("The pattern is saved"), .lines = lines, .as_written = words };
    view.notice = told(l);
    view.strip_left = l->start.may_cut && size
                          ? base_tr("Enter: done · C: cut the pieces now · Esc: back to the pieces")
                          : base_tr("Enter: done · Esc: back to the pieces");
    return scene_board(a, &view, &board);
}

struct paint_scene app_lift_scene(struct app_lift *l, struct arena *a)
{
    switch (l->page) {
    case APP_LIFT_CAUTIONS:
        return help_scene(l, a, true);
    case APP_LIFT_READING:
        return reading_scene(l, a);
    case APP_LIFT_PASSWORD:
        return password_scene(l, a);
    case APP_LIFT_DPI:
        return dpi_scene(l, a);
    case APP_LIFT_REFUSED:
        return refused_scene(l, a);
    case APP_LIFT_SCALE:
        return scale_scene(l, a);
    case APP_LIFT_POINTS:
        return points_scene(l, a);
    case APP_LIFT_CHECK:
        return check_scene(l, a);
    case APP_LIFT_PAGES:
        return pages_scene(l, a);
    case APP_LIFT_SIZES:
        return sizes_scene(l, a);
    case APP_LIFT_WHOLE:
        return whole_scene(l, a);
    case APP_LIFT_LAYERS:
        return layers_scene(l, a);
    case APP_LIFT_PIECES:
    case APP_LIFT_JOIN:
    case APP_LIFT_MARK:
        return pieces_scene(l, a);
    case APP_LIFT_ALLOWANCE:
        return allowance_scene(l, a);
    case APP_LIFT_SAVE:
        return save_scene(l, a);
    case APP_LIFT_SAVED:
        return saved_scene(l, a);
    case APP_LIFT_TYPE:
        return type_scene(l, a);
    case APP_LIFT_SQUARE:
        return square_scene(l, a);
    case APP_LIFT_LEAVE:
        return leave_scene(l, a);
    case APP_LIFT_HELP:
    case APP_LIFT_PAGE_COUNT:
        break;
    }
    return help_scene(l, a, false);
}

struct paint_scene app_lift_away_scene(const struct app_lift *l, struct arena *frame, int width, int height, bool home)
{
    return app_away_page(frame, app_lift_map(l), l->start.font, width, height, home);
}
