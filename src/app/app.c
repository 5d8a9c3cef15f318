#include "app/app.h"

#include "app/amount.h"
#include "app/copies.h"
#include "app/fitted.h"
#include "app/hands.h"
#include "app/lens.h"
#include "app/place.h"
#include "app/state.h"
#include "base/words.h"
#include "base/wrap.h"
#include "input/key.h"
#include "scene/crosses.h"

#include <math.h>
#include <string.h>

#define SQUARE_MM 100.0
#define SQUARE_IN_MM (4 * UNITS_MM_PER_IN)

enum { CAUTION_COLUMNS = 64, MOST_CAUTION_LINES = 24 };

static const char *const cautions[] = {
    BASE_TR("Before you begin"),
    BASE_TR("A very bright light hangs above you: do not look up into the lens, and keep children and pets away from "
            "the table."),
    BASE_TR("If the projector is marked “risk group 2” (RG2): as with any bright lamp, do not stare into the beam."),
    BASE_TR("What hangs above you must hold: follow the makers’ instructions for projector and mount, and local "
            "rules. Use the safety cable if the mount has a place for one."),
    BASE_TR("Blank the picture before you work near the lens. Keep the air vents free; the lamp is hot."),
    BASE_TR("Lead cables where no foot and no blade can reach them."),
    BASE_TR("The iron stays hot long after fusing: put it where nobody can touch it."),
    BASE_TR("Leave a lamp on: never cut in the dark."),
    BASE_TR("Close the blade guard after every cut, and keep your fingers behind the ruler."),
    BASE_TR("Measure the test square (S) before the first cut."),
};

size_t app_cautions(const char *const **out)
{
    *out = cautions;
    return sizeof cautions / sizeof cautions[0];
}

size_t app_caution_page(struct arena *a, const char *then, const struct scene_help_line **out)
{
    const char **texts = base_arena_alloc(a, MOST_CAUTION_LINES, sizeof *texts);
    struct scene_help_line *lines = base_arena_alloc(a, MOST_CAUTION_LINES, sizeof *lines);
    size_t count = 0;
    for (size_t i = 0; i < sizeof cautions / sizeof cautions[0]; i++)
        count = base_wrap(a, base_tr(cautions[i]), CAUTION_COLUMNS, texts, count, MOST_CAUTION_LINES);
    for (size_t i = 0; i < count; i++)
        lines[i].what = texts[i];
    if (then)
        lines[count++].what = then;
    *out = lines;
    return count;
}

static const struct draft_piece *opened_out(struct arena *a, const struct draft *draft)
{
    struct draft_piece *whole = base_arena_alloc(a, draft->piece_count, sizeof *whole);
    for (size_t i = 0; i < draft->piece_count; i++)
        whole[i] = draft_unfold(a, &draft->pieces[i]);
    return whole;
}

/* Whether what is shown is drawn for a surface above or below the table's. */
static bool is_raised(const struct app *app)
{
    return calibration_lens_is_known(&app->table.lens) && calibration_raise_mm(&app->surface) != 0;
}

void app_attend_surface(struct app *app)
{
    app->surface = app_place_surface(app);
    app->map = app->flat;
    if (is_raised(app))
        app->map = calibration_raised(&app->flat, &app->table.lens, calibration_raise_mm(&app->surface));
    app->height = app_surface_warning(app->a, &app->table, &app->surface);
}

const char *app_shown_surface_told(const struct app *app, struct arena *a)
{
    return app_surface_told(a, &app->table, &app->surface);
}

struct app *app_create(struct arena *a, const struct app_start *start, struct err_list *errs)
{
    const struct job *job = start->job;
    struct app *app = base_arena_alloc(a, 1, sizeof *app);
    *app = (struct app){ .a = a,
                         .job = job,
                         .table = start->table,
                         .stickers = start->table.stickers,
                         .font = start->font,
                         .unit = start->unit,
                         .cautions = start->cautions,
                         .chalks_all = start->chalks_all || job->ticket.way == JOB_CHALK_ALL,
                         .trust = { .looked_at_s = -1 },
                         .weight_mm = SCENE_CUT_WIDTH_MM,
                         .seeing = app_seeing_usual() };
    app->flat = start->table.map;
    app_attend_surface(app);
    if (!app_draft(a, job, &app->draft, errs))
        return NULL;
    app->whole = opened_out(a, &app->draft);
    app->places = base_arena_alloc(a, app->draft.cut_count + 1, sizeof *app->places);
    app_place_of_job(app, errs);
    return app;
}

unsigned app_shown_now(const struct app *app)
{
    switch (app->mode) {
    case SCENE_PIECES:
        return app_place_is_shown(app) ? APP_ON_LAYOUT : APP_ON_PIECES;
    case SCENE_STICKERS:
        return APP_ON_STICKERS;
    case SCENE_TRIAL:
        return APP_ON_TRIAL;
    case SCENE_TEST_SQUARE:
    case SCENE_TEST_FRAME:
    case SCENE_DOUBT:
    case SCENE_BLANK:
    case SCENE_WORK_LIGHT:
    case SCENE_LIST:
    case SCENE_HELP:
        break;
    }
    return APP_ON_REST;
}

static struct app_effects press(struct app *app, int key, int mods)
{
    const struct app_key_row *row = app_find_key(key, mods);
    if (app_is_locked_to(app, row))
        return (struct app_effects){ 0 };
    if (app->cautions) { /* any key goes on, and only the key that leaves does more */
        app->cautions = false;
        if (!row || row->action != &app_act_quit)
            return (struct app_effects){ .redraw = true };
    }
    if (app->mode == SCENE_WORK_LIGHT) {
        app->mode = SCENE_PIECES;
        if (!row || row->action != &app_act_quit)
            return (struct app_effects){ .redraw = true };
    }
    struct app_effects effects;
    if (app_place_is_shown(app) && app_place_press(app, key, mods, &effects))
        return effects;
    if (!row || !(row->action->on & app_shown_now(app)))
        return (struct app_effects){ 0 };
    if (row->action == &app_act_done && !app_lockout_takes(&app->lockout, &app->pressed))
        return (struct app_effects){ 0 };
    app->told = NULL;
    bool square = app->mode == SCENE_TEST_SQUARE;
    effects = row->action->run(app, row->amount);
    if (square && app->mode != SCENE_TEST_SQUARE && !app->stickers.count)
        app->trust.doubt = APP_DOUBT_NONE;
    return effects;
}

struct app_effects app_handle(struct app *app, struct input_event event)
{
    switch (event.type) {
    case INPUT_KEY:
        app->pressed = app_meant(app, event);
        return press(app, app->pressed.key, app->pressed.mods);
    case INPUT_STICKS:
        return app_steer(app, &event);
    case INPUT_SIZE:
    case INPUT_MOVED:
        return (struct app_effects){ .redraw = true };
    case INPUT_EXPOSE:
        return (struct app_effects){ .show = true };
    case INPUT_QUIT:
        return (struct app_effects){ .quit = !app->locked }; /* asked for by a key */
    case INPUT_POINT:                                        /* nothing on the table is pressed by the mouse */
    case INPUT_WHEEL:
    case INPUT_DROP:
    case INPUT_NONE:
        break;
    }
    return (struct app_effects){ 0 };
}

static const struct draft_piece *piece_of(const struct app *app, size_t cut)
{
    int piece = app->draft.cuts[cut].piece;
    return app->opened ? &app->whole[piece] : &app->draft.pieces[piece];
}

/* With the cloth, shortened, when it is not the main one, and the side that interfacing is fused on. */
static const char *count_text(const struct app *app, struct arena *a, size_t index)
{
    const struct draft_cut *cut = &app->draft.cuts[index];
    const char *copies = app_copies_text(a, cut, piece_of(app, index));
    if (cut->cloth == PATTERN_LINING) /* To: “Cut 2, lining” */
        return base_arena_print(a, base_tr("%s, lining"), copies);
    if (cut->cloth == PATTERN_INTERFACING) /* To: “Cut 2, interf. on wrong side” */
        return base_arena_print(a, base_tr("%s, interf. on %s"), copies, base_tr(pattern_side_name(cut->fuse)));
    return copies;
}

static bool is_shown(const struct app *app, size_t cut)
{
    return app->all ? app->draft.cuts[cut].cloth == app->draft.cuts[app->cut].cloth : cut == app->cut;
}

/* The lines of the cutting list that are on the table: one, or all of the same cloth. */
static void list_pieces(const struct app *app, struct arena *a, struct scene_view *view)
{
    struct scene_piece *pieces = base_arena_alloc(a, app->draft.cut_count, sizeof *pieces);
    view->pieces = pieces;
    for (size_t i = 0; i < app->draft.cut_count; i++)
        if (is_shown(app, i))
            pieces[view->piece_count++] =
                (struct scene_piece){ .piece = piece_of(app, i),
                                      .mirrored = app->draft.cuts[i].hand == PATTERN_LEFT,
                                      .lines = { count_text(app, a, i), app_size_text(a, app->job) } };
}

static const char *width_text(const struct app *app, const struct scene_look *look, struct arena *a)
{
    char whole[UNITS_TEXT], half[UNITS_TEXT];
    double width = scene_cut_width(look);
    units_print_length(whole, width, UNITS_MM);
    units_print_length(half, width / 2, UNITS_MM);
    const char *text = app->outer_edge ? base_arena_print(a, base_tr("line %s, all inside"), whole)
                                       : base_arena_print(a, base_tr("line %s, %s a side"), whole, half);
    return width > app->weight_mm ? base_arena_print(a, base_tr("%s (the finest this light can draw)"), text) : text;
}

/* "6 mm above the table", where that matters, in the text that has a place for it; else the other one. */
static const char *on_surface(const struct app *app, struct arena *a, const char *plain, const char *raised)
{
    return is_raised(app) ? base_arena_print(a, raised, app_surface_text(a, &app->surface)) : plain;
}

/* What the set-up leaves open, and what a bump since then has added. */
static const char *doubt_text(const struct app *app, struct arena *a)
{
    double set_up = calibration_doubt_worst_mm(&app->map, &app->table.doubt, NULL);
    if (app->doubt_of == SCENE_DOUBT_OF_LINES)
        return base_tr("A line of 100 mm may be off by what is written on each line, in mm · D: back");
    if (app->bump_doubt_mm > 0)
        return base_arena_print(
            a, base_tr("A place may be off by %s at most, since the bump; before it by what is written on each line"),
            app_mm(a, hypot(set_up, app->bump_doubt_mm)));
    return base_arena_print(
        a, base_tr("A place may be off by %s at most, on each line by what is written there; hatched: not measured"),
        app_mm(a, set_up));
}

static const char *strip_left(const struct app *app, const struct scene_look *look, struct arena *a)
{
    switch (app->mode) {
    case SCENE_TEST_SQUARE:
        return on_surface(app, a, base_tr("Measure the square with a rule: all sides, then both diagonals"),
                          base_tr("Measure the square with a rule on the cloth, %s: all sides, then both diagonals"));
    case SCENE_TEST_FRAME:
        return on_surface(app, a, base_tr("Measure the long lines with a tape: sides, then both diagonals"),
                          base_tr("Measure the long lines with a tape on the cloth, %s: sides, then both diagonals"));
    case SCENE_STICKERS:
        return base_arena_print(
            a, base_tr("Move mark S%d onto its sticker: arrows, with Shift finer, with Ctrl finest"), app->in_hand + 1);
    case SCENE_DOUBT:
        return doubt_text(app, a);
    case SCENE_BLANK:
        return base_tr("Dark: B brings the light back");
    case SCENE_TRIAL:
        return app_trial_text(app, a);
    case SCENE_WORK_LIGHT:
        return base_tr("White for the blade: any key ends it");
    case SCENE_LIST:
    case SCENE_HELP:
        return base_tr("Esc: back to the pieces");
    case SCENE_PIECES:
        break;
    }
    if (app_place_is_shown(app) && !app->rulings)
        return app_place_strip_left(app, a);
    if (app->rulings && !app->table.mat.name)
        return base_tr("This table names no mat, so there are no rulings to show");
    if (app->rulings && is_raised(app))
        return base_arena_print(a, base_tr("Rulings as they lie on the cloth, %s"), app_surface_text(a, &app->surface));
    const struct geometry_motion *m = &app->places[app_place_index(app)];
    const char *edge =
        app->outer_edge ? base_tr("Cut on the outer edge of the light") : base_tr("Cut on the middle of the light");
    const char *text = base_arena_print(a, "%s · %s", edge, width_text(app, look, a));
    if (m->mirror)
        text = base_arena_print(a, base_tr("%s, turned over"), text);
    if (m->turn_deg != 0)
        text = base_arena_print(a, base_tr("%s, turned %s°"), text, app_decimal(a, m->turn_deg, 1));
    bool pairs = !app->all && app->draft.cuts[app->cut].hand == PATTERN_PAIRS;
    return pairs && !m->mirror ? base_arena_print(a, "%s · %s", text, base_tr("O: the other of the pair")) : text;
}

/* Where what is cut leaves a standing notice no room, or another notice has its place: what must not be overlooked then
 * stands on the strip. */
static const char *kept_notice(const struct app *app, struct arena *a)
{
    bool has_room = !app_place_needs_notice_side(app);
    if (has_room && !app->told && !app_place_notice(app, a))
        return NULL;
    if (app->trust.doubt)
        return app->stickers.count ? base_tr("not checked: M") : base_tr("not checked: S");
    if (app->table.sample)
        return base_tr("sample table");
    return has_room ? NULL : app_place_doubt_kept(app, a);
}

static const char *strip_right(const struct app *app, struct arena *a)
{
    if (app->mode == SCENE_STICKERS)
        return base_tr("Page Down: next mark · Enter: all lie there · Esc: leave it");
    if (app->mode == SCENE_TEST_SQUARE)
        return base_tr("S: now long lines, for a tape · F1: keys");
    if (app->mode == SCENE_TEST_FRAME)
        return base_tr("S: back to the pieces · F1: keys");
    if (app->mode == SCENE_TRIAL)
        return base_tr("Esc: done · 0: by the cloth");
    if (app->mode == SCENE_WORK_LIGHT)
        return NULL;
    if (app->mode == SCENE_HELP)
        return base_tr("Ctrl Q: leave");
    if (app_place_is_shown(app)) {
        const char *kept = kept_notice(app, a), *keys = app_place_strip_right(app, a);
        return kept ? base_arena_print(a, "%s · %s", kept, keys) : keys;
    }
    if (app->all || app->mode != SCENE_PIECES)
        return base_tr("F1: keys");
    return base_arena_print(a, base_tr("%s · %zu of %zu · F1: keys"), count_text(app, a, app->cut), app->cut + 1,
                            app->draft.cut_count);
}

/* What helps where a piece lies partly outside the light. */
static const char *outside_text(const struct app *app)
{
    if (app_place_is_shown(app))
        return base_tr("move the cloth, then W");
    return app->all ? base_tr("arrows move them, A shows one alone") : base_tr("arrows move it, T turns it");
}

struct paint_scene app_away_page(struct arena *frame, const struct geometry_map *map, struct text_font *font, int width,
                                 int height, bool home)
{
    const char **lines = base_arena_alloc(frame, 4, sizeof *lines);
    if (home) {
        lines[0] = base_tr("Not true to scale");
        lines[1] = base_arena_print(
            frame, base_tr("This table was set up for a frame of %d × %d pixels; this one has %d × %d."), map->width_px,
            map->height_px, width, height);
        lines[2] = base_tr("Give the projector its old setting, or set up the table again. Ctrl Q: leave");
    } else {
        lines[0] = base_tr("The projector is away");
        lines[1] = base_tr("Nothing is lost: plug it in or switch it on, and the pieces come back.");
        lines[2] = base_tr("Ctrl Q: leave");
    }
    struct scene_cross_view view = { .width_px = width, .height_px = height, .font = font, .lines = lines };
    return scene_crosses(frame, &view);
}

struct paint_scene app_away_scene(const struct app *app, struct arena *frame, int width, int height, bool home)
{
    return app_away_page(frame, &app->map, app->font, width, height, home);
}

void app_doubt_scale(struct app *app, enum app_doubt doubt)
{
    app->trust.doubt = doubt;
}

void app_set_trouble(struct app *app, const char *sentence)
{
    app->trouble = sentence;
}

/* What is to be known of the light as long as nothing is done about it. */
static const char *standing_notice(const struct app *app)
{
    if (app_place_is_shown(app) && app_place_needs_notice_side(app))
        return NULL;
    if (app->trust.doubt)
        return app_trust_notice(&app->trust, app->stickers.count > 0);
    if (app->table.sample)
        return base_tr(app_trust_sample);
    return app->height ? app->height : app_seeing_warning(app);
}

/* What must not be overlooked, the gravest first. What stands takes no more room of a layout than was left for it. */
static void put_notice(const struct app *app, struct arena *frame, struct scene_view *view)
{
    const char *of_layout = app_place_is_shown(app) ? app_place_notice(app, frame) : NULL;
    view->notice = app->trouble;
    if (app->trouble || app->cautions) /* they are a page of their own; the rest is told once they were read */
        return;
    view->notice = app->told ? app->told : of_layout; /* where nothing is cut: the rest is told when something is */
    view->notice_in_a_row = of_layout && !app->told && app_place_is_cutting(app);
    if (view->notice)
        return;
    view->notice = standing_notice(app);
    view->notice_in_a_row = app_place_is_shown(app);
}

/* Of a layout its page's own keys first, then those that mean the same everywhere. */
static size_t help_lines(const struct app *app, struct arena *a, const struct scene_help_line **out)
{
    const struct scene_help_line *own, *common;
    if (!app_place_is_on(app))
        return app_help_lines(a, &app->keys, out);
    size_t own_count = app_place_help(app, a, &own), common_count = app_key_help(a, &app->keys, APP_ON_LAYOUT, &common);
    struct scene_help_line *lines = base_arena_alloc(a, own_count + common_count, sizeof *lines);
    if (own_count)
        memcpy(lines, own, own_count * sizeof *lines);
    memcpy(lines + own_count, common, common_count * sizeof *lines);
    *out = lines;
    return own_count + common_count;
}

static const struct calibration_stickers *stickers_shown(const struct app *app)
{
    return app->mode == SCENE_STICKERS ? &app->moving : &app->stickers;
}

struct paint_scene app_scene(struct app *app, struct arena *frame)
{
    bool inches = app->unit == UNITS_IN;
    struct scene_chalks chalks = app_chalks(app);
    struct scene_view view = { .map = &app->map,
                               .mat = &app->table.mat,
                               .font = app->font,
                               .look = { geometry_map_mm_per_px(&app->map), app->weight_mm, &chalks },
                               .side = app->side,
                               .strip_edge = app_strip_edge(app),
                               .left_handed = app->left_handed,
                               .mode = app->mode,
                               .rulings = app->rulings,
                               .band = app_has_band(app),
                               .cut_outer_edge = app->outer_edge,
                               .motion = *app_motion(app),
                               .square_mm = inches ? SQUARE_IN_MM : SQUARE_MM,
                               .test_unit = inches ? UNITS_IN : UNITS_MM,
                               .doubt = &app->table.doubt,
                               .doubt_of = app->doubt_of,
                               .stickers = stickers_shown(app)->px,
                               .sticker_count = app->stickers.count,
                               .sticker_in_hand = app->mode == SCENE_STICKERS ? app->in_hand : -1 };
    put_notice(app, frame, &view);
    if (app_place_is_shown(app))
        view.layout = app_place_scene(app, frame);
    else
        list_pieces(app, frame, &view);
    const char *less = app_place_is_shown(app) && !app->rulings ? app_place_strip_less(app, frame) : NULL;
    view.strip_left = app_key_map_said(&app->keys, APP_KEYS_CUT, frame, strip_left(app, &view.look, frame));
    view.strip_right = app_key_map_said(&app->keys, APP_KEYS_CUT, frame, strip_right(app, frame));
    view.strip_less = app_key_map_said(&app->keys, APP_KEYS_CUT, frame, less);
    view.outside = outside_text(app);
    if (app->mode == SCENE_HELP)
        view.help_count = help_lines(app, frame, &view.help);
    else if (app->mode == SCENE_LIST)
        view.help_count = app_left_lines(app, frame, &view.help);
    if (app->cautions) {
        view.mode = SCENE_HELP;
        view.help_count = app_caution_page(frame, NULL, &view.help);
        view.strip_left = base_tr("Any key: begin");
        view.strip_right = app_key_map_said(&app->keys, APP_KEYS_CUT, frame, base_tr("Ctrl Q: leave"));
        view.strip_less = NULL;
    }
    if (app->locked) {
        view.strip_left = app_lock_text(frame, &app->keys, APP_KEYS_CUT);
        view.strip_right = view.strip_less = NULL;
    }
    return scene_make(frame, &view);
}

const struct geometry_map *app_map(const struct app *app)
{
    return &app->map;
}

bool app_show_piece(struct app *app, const char *name)
{
    app->all = name == NULL;
    app_place_show(app, false);
    for (size_t i = 0; name && i < app->draft.cut_count; i++) {
        if (strcmp(piece_of(app, i)->name, name) != 0)
            continue;
        app->cut = i;
        return true;
    }
    return name == NULL;
}

void app_place(struct app *app, struct geometry_motion motion)
{
    *app_motion(app) = motion;
}

void app_set_weight(struct app *app, double mm)
{
    app->weight_mm = mm;
}

void app_set_mode(struct app *app, enum scene_mode mode)
{
    app->mode = mode;
}

void app_set_rulings(struct app *app, bool on)
{
    app->rulings = on;
}

bool app_set_side(struct app *app, const char *name)
{
    return scene_side_find(name, &app->side);
}

bool app_set_strip(struct app *app, const char *edge)
{
    return scene_side_find(edge, &app->strip);
}

void app_set_left_handed(struct app *app, bool on)
{
    app->left_handed = on;
}

void app_stand(struct app *app)
{
    if (app->side != SCENE_NEAR || app->strip != SCENE_NEAR)
        app_place_turned(app, app->side);
}

size_t app_cut_count(const struct app *app)
{
    return app->draft.cut_count;
}

void app_go_to_cut(struct app *app, size_t index)
{
    app->all = false;
    app->cut = index;
    app_place_show(app, false);
}

const char *app_cut_name(const struct app *app, size_t index)
{
    return piece_of(app, index)->name;
}
