#include "app/lay_report.h"

#include "app/amount.h"
#include "app/block.h"
#include "app/columns.h"
#include "app/lay_words.h"
#include "app/tear_report.h"
#include "app/torn.h"
#include "base/buffer.h"
#include "base/words.h"

#include <math.h>

#define SEEN_DEG 0.005
#define SEEN_MM 0.5

enum { ROW_CELLS = 5, WIDTH_CELLS = 5 };

/* --- words ------------------------------------------------------------------------------------------------------- */

static const char *length_text(struct arena *a, double mm, enum units_length unit)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(a, units_print_length(text, units_on_tape(mm, unit), unit));
}

const char *app_lay_short(struct arena *a, const struct lay *lay, enum units_length unit)
{
    struct lay_figures figures = lay_figures_of(lay, unit);
    return base_arena_print(a, base_tr("%s, cloth used %.0f %%"), app_lay_length(a, figures.length_mm, unit),
                            100 * figures.used);
}

const char *app_lay_title(struct arena *a, const struct app_layout *layout, enum units_length unit)
{
    struct lay_figures f = app_torn_both(layout->torn, &layout->figures, unit);
    return base_arena_print(a,
                            /* To: “Fabric, 150 cm wide, folded lengthwise: needs 1.63 m, cloth used 84 %” */
                            layout->torn ? base_tr("%s: needs %s with its torn strips, cloth used %.0f %%")
                                         : base_tr("%s: needs %s, cloth used %.0f %%"),
                            app_lay_cloth(a, layout->lay->task, unit), app_lay_length(a, f.length_mm, unit),
                            100 * f.used);
}

/* --- what is needed ---------------------------------------------------------------------------------------------- */

/* How many, and their names, of those for which there is a place on longer cloth, or of those others. */
struct left_out {
    size_t count;
    const char *names;
};

static struct left_out left_out_of(struct arena *a, const struct lay *lay, bool can_lie)
{
    struct left_out out = { 0, "" };
    for (size_t i = 0; i < lay->task->item_count; i++)
        if (!lay->places[i].is_laid && lay_can_lie(lay->task, i) == can_lie) {
            out.names = base_arena_print(a, "%s%s%s", out.names, out.count ? ", " : "",
                                         base_arena_print(a, base_tr("“%s”"), lay_item_name(a, lay->task, i)));
            out.count++;
        }
    return out;
}

/* The cloth as it is bought, strips and all. */
static const struct cloth *whole_cloth(const struct app_layout *layout)
{
    return layout->torn ? layout->torn->task->cloth : layout->lay->task->cloth;
}

/* The block of the fabric that this interfacing is for. */
static const struct lay_block *fabric_block(const struct app_layout *layout)
{
    return &layout->lay->task->fabric_block;
}

static bool is_any_laid(const struct lay *lay)
{
    return lay->left_out < lay->task->item_count;
}

/* What would do for what does not fit. */
static void add_more(struct base_buffer *out, const struct app_layout *layout, enum units_length unit)
{
    const struct lay_figures f = app_torn_both(layout->torn, &layout->on_more, unit);
    if (layout->fits_on_more)
        base_buffer_print(out, base_tr("  All of it needs %s of such cloth, washed and without faults. %s\n"),
                          app_lay_length(out->a, f.length_mm, unit),
                          app_lay_buy(out->a, whole_cloth(layout), f.to_buy_mm, unit));
    else
        base_buffer_print(out, base_tr("  More cloth would help, a wider one, or another spread.\n"));
}

/* Of pieces that would have a place on longer cloth. */
static void add_too_far(struct base_buffer *out, const struct app_layout *layout, const struct left_out *far,
                        enum units_length unit)
{
    double at_hand = cloth_washed_length(layout->lay->task->cloth);
    const char *on = app_lay_left(out->a, at_hand, unit);
    if (!(at_hand > 0))
        base_buffer_print(
            out, base_tr_count(far->count, "  %zu piece does not fit: %s.\n", "  %zu pieces do not fit: %s.\n"),
            far->count, far->names);
    else if (layout->torn)
        base_buffer_print(out,
                          base_tr_count(far->count, "  On the %s left for it %zu piece does not fit: %s.\n",
                                        "  On the %s left for it %zu pieces do not fit: %s.\n"),
                          on, far->count, far->names);
    else
        base_buffer_print(out,
                          base_tr_count(far->count, "  On the %s at hand %zu piece does not fit: %s.\n",
                                        "  On the %s at hand %zu pieces do not fit: %s.\n"),
                          on, far->count, far->names);
}

/* Whether there would be room for one at least, were nothing faulty. */
static bool is_room_for_one(const struct lay_task *task)
{
    size_t i = 0;
    while (i < task->item_count && !(lay_can_lie(task, i) && lay_is_long_enough(task, i)))
        i++;
    return i < task->item_count;
}

/* Where faults are the reason. */
static void add_faults(struct base_buffer *out, const struct app_layout *layout)
{
    const struct lay *lay = layout->lay;
    if (!lay->task->cloth->fault_count)
        return;
    if (layout->fits_on_more && layout->on_more.length_mm <= cloth_washed_length(lay->task->cloth))
        base_buffer_print(out, base_tr("  Its faults are the reason: without them all of it would have room.\n"));
    else if (!is_any_laid(lay) && is_room_for_one(lay->task))
        base_buffer_print(out, base_tr("  Its faults are the reason: they leave no room for any of them.\n"));
}

static void add_left_out(struct base_buffer *out, const struct app_layout *layout, enum units_length unit)
{
    const struct lay *lay = layout->lay;
    struct left_out far = left_out_of(out->a, lay, true), never = left_out_of(out->a, lay, false);
    if (far.count)
        add_too_far(out, layout, &far, unit);
    if (far.count)
        add_faults(out, layout);
    if (never.count)
        base_buffer_print(out,
                          base_tr_count(never.count,
                                        "  However long the cloth, %zu piece does not fit where its folds and its "
                                        "repeat let it lie: %s.\n",
                                        "  However long the cloth, %zu pieces do not fit where its folds and its "
                                        "repeat let them lie: %s.\n"),
                          never.count, never.names);
    if (far.count)
        add_more(out, layout, unit);
    else
        base_buffer_print(out, base_tr("  Wider cloth would help, or another spread.\n"));
    if (is_any_laid(lay))
        base_buffer_print(out, base_tr("  What is shown is the rest.\n"));
}

/* The interfacing of a block is a rectangle, whatever its pieces are. */
static void add_fabric_block(struct base_buffer *out, const struct app_layout *layout, enum units_length unit)
{
    const struct lay_block *block = fabric_block(layout);
    if (block->count)
        base_buffer_print(
            out, base_tr("  The fabric is fused in a block before its pieces are cut: that is “Block” below, %s.\n"),
            app_block_words(out->a, block, unit));
}

/* What is fused first of this fabric, and where. */
static void add_block(struct base_buffer *out, const struct app_layout *layout, enum units_length unit)
{
    const struct lay_block *block = &layout->figures.block;
    if (block->count)
        base_buffer_print(out, "  %s\n", app_block_first(out->a, layout->lay, block, unit));
}

/* What is torn first. */
static void add_torn(struct base_buffer *out, const struct app_layout *layout, enum units_length unit)
{
    struct arena *a = out->a;
    const char *takes = app_lay_length(a, layout->torn->length_mm, unit);
    base_buffer_print(out, base_tr("  First the rectangles are torn (`chalklight tear`), which takes %s.\n"), takes);
    for (size_t i = 0; layout->torn->rests && i < layout->torn->rests->count; i++)
        base_buffer_print(out, base_tr("  Of %s are cut: %s.\n"), app_torn_rest_name(a, &layout->torn->rests->rests[i]),
                          app_torn_rest_pieces(a, &layout->torn->rests->rests[i]));
    if (is_any_laid(layout->lay))
        base_buffer_print(
            out, base_tr("  This layout lies behind them, its cut end where they were torn off, and needs %s.\n"),
            app_lay_length(a, layout->figures.length_mm, unit));
}

/* Where cloth of no told length is folded crosswise, or cut, so that its repeat matches; 0: anywhere. */
static double fold_of(const struct lay *lay)
{
    const struct cloth *cloth = lay->task->cloth;
    bool by_repeat = cloth->spread == CLOTH_FOLDED_ACROSS && cloth->repeat.along_mm > 0;
    return by_repeat ? cloth_fold_past(cloth, lay->length_mm) : 0;
}

static void add_fold(struct base_buffer *out, const struct app_layout *layout, enum units_length unit)
{
    double fold_mm = fold_of(layout->lay);
    char text[UNITS_TEXT];
    if (fold_mm > 0)
        base_buffer_print(
            out,
            layout->lay->task->cloth->one_way
                ? base_tr("  Cut it %s from the cut end: there its repeat matches through both layers.\n")
                : base_tr("  Fold it %s from the cut end: there its repeat matches through both layers.\n"),
            units_print_length(text, units_to_sixteenth(fold_mm, unit), unit));
}

/* Of cloth at hand what is left over, or what does not fit; else what to buy. */
static void add_need(struct base_buffer *out, const struct app_layout *layout, enum units_length unit)
{
    struct arena *a = out->a;
    const struct lay *lay = layout->lay;
    const struct tearing_plan *torn = layout->torn;
    const struct lay_figures *f = &layout->figures, both = app_torn_both(torn, f, unit);
    const struct cloth *cloth = whole_cloth(layout);
    bool is_at_hand = !isnan(f->spare_mm);
    if (torn)
        add_torn(out, layout, unit);
    if (lay->left_out) {
        add_left_out(out, layout, unit);
    } else if (is_at_hand) {
        base_buffer_print(
            out,
            torn ? base_tr("  Both together need %s of washed cloth; of the %s at hand %s are left over.\n")
                 : base_tr("  This layout needs %s of washed cloth; of the %s at hand %s are left over.\n"),
            app_lay_length(a, both.length_mm, unit), app_lay_left(a, cloth_washed_length(cloth), unit),
            app_lay_left(a, fmax(0, both.spare_mm), unit));
    } else {
        base_buffer_print(out,
                          torn ? base_tr("  Both together need %s of washed cloth. %s\n")
                               : base_tr("  This layout needs %s of washed cloth. %s\n"),
                          app_lay_length(a, both.length_mm, unit), app_lay_buy(a, cloth, both.to_buy_mm, unit));
    }
    if (!is_any_laid(lay))
        return;
    add_fold(out, layout, unit);
    if (torn)
        base_buffer_print(out, base_tr("  Cloth used: %.0f %% of both, %.0f %% of the layout.\n"), 100 * both.used,
                          100 * f->used);
    else
        base_buffer_print(out, base_tr("  Cloth used: %.0f %%.\n"), 100 * both.used);
    add_block(out, layout, unit);
}

/* --- where each piece lies ---------------------------------------------------------------------------------------- */

/* Whether its upper end lies towards the cut end. */
static bool is_turned_round(const struct lay_place *place, const struct draft_piece *piece)
{
    vec2 grain = { piece->grain[1].x - piece->grain[0].x, piece->grain[1].y - piece->grain[0].y };
    struct geometry_mover turn = geometry_mover_of(
        (struct geometry_motion){ .mirror = place->motion.mirror, .turn_deg = place->motion.turn_deg });
    vec2 up = geometry_move(&turn, grain.y < 0 ? vec2_scale(grain, -1) : grain);
    return up.x < 0;
}

static const char *with(struct arena *a, const char *list, const char *more)
{
    return *list ? base_arena_print(a, "%s, %s", list, more) : more;
}

/* How it lies other than as it is drawn, its upper end away from the cut end. */
static const char *turned_text(struct arena *a, const struct lay *lay, size_t item)
{
    const struct lay_place *place = &lay->places[item];
    const struct lay_item *it = &lay->task->items[item];
    double off = lay_off_grain(place, it);
    const char *text = is_turned_round(place, it->piece) ? base_tr("end for end") : "";
    if (place->motion.mirror && it->layers == 1) /* through two layers both hands are cut, or a whole one */
        text = with(a, text, base_tr("turned over"));
    if (off > SEEN_DEG)
        text = with(a, text, base_arena_print(a, base_tr("%s° off the grain"), app_decimal(a, off, 1)));
    if (place->is_pinned)
        text = with(a, text, base_tr("held in place"));
    return text;
}

struct row {
    const char *cells[ROW_CELLS];
};

static struct row titles_of(struct arena *a, const struct lay_task *task)
{
    /* To: “from the near edge”, over a column of lengths */
    const char *from = base_arena_print(a, base_tr("from %s"), app_lay_near_edge(task));
    return (struct row){ { base_tr("piece"), base_tr("layers"), base_tr("from the cut end"), from, "" } };
}

static const char *layers_text(struct arena *a, const struct lay *lay, size_t item)
{
    const char *kept = lay_kept_words(lay, item);
    if (lay->task->items[item].on_fold)
        return base_tr_in("edge of the cloth", "fold");
    const char *layers = base_arena_print(a, "%d", lay->task->items[item].layers);
    return kept ? with(a, layers, kept) : layers;
}

static struct row row_of(struct arena *a, const struct lay *lay, size_t item, enum units_length unit)
{
    struct geometry_box box = geometry_path_box(lay_outline(a, lay->task, item, &lay->places[item]).path);
    return (struct row){ { lay_item_name(a, lay->task, item), layers_text(a, lay, item),
                           length_text(a, fabs(box.min.x) < SEEN_MM ? 0 : box.min.x, unit),
                           length_text(a, fabs(box.min.y) < SEEN_MM ? 0 : box.min.y, unit),
                           turned_text(a, lay, item) } };
}

static void add_places(struct base_buffer *out, const struct lay *lay, enum units_length unit)
{
    struct row titles = titles_of(out->a, lay->task);
    size_t widths[ROW_CELLS] = { 0 };
    struct row *rows = base_arena_alloc(out->a, lay->task->item_count, sizeof *rows);
    if (!is_any_laid(lay))
        return;
    app_columns_widen(widths, titles.cells, ROW_CELLS);
    for (size_t i = 0; i < lay->task->item_count; i++)
        if (lay->places[i].is_laid) {
            rows[i] = row_of(out->a, lay, i, unit);
            app_columns_widen(widths, rows[i].cells, ROW_CELLS);
        }
    base_buffer_print(out, "\n");
    app_columns_add(out, widths, titles.cells, ROW_CELLS);
    for (size_t i = 0; i < lay->task->item_count; i++)
        if (lay->places[i].is_laid)
            app_columns_add(out, widths, rows[i].cells, ROW_CELLS);
}

/* --- other widths, making ready ------------------------------------------------------------------------------------
 */

struct width_row {
    const char *cells[WIDTH_CELLS];
};

static struct width_row width_row_of(struct arena *a, const struct app_lay_width *w, enum units_length unit)
{
    char text[UNITS_TEXT];
    const char *width = base_arena_copy_text(a, units_print_length(text, units_on_tape(w->width_mm, unit), unit));
    const char *too_wide = w->too_wide ? base_arena_print(a, base_tr("“%s” is too wide"), w->too_wide) : "";
    if (!w->fits)
        return (struct width_row){ { width, base_tr("does not fit"), "", "", too_wide } };
    return (struct width_row){
        { width, app_lay_length(a, w->figures.length_mm, unit), app_lay_to_buy(a, w->figures.to_buy_mm, unit),
          base_arena_print(a, "%.0f %%", 100 * w->figures.used), w->opened ? base_tr("in a single layer") : "" }
    };
}

static void add_widths(struct base_buffer *out, const struct app_layout *layout, enum units_length unit)
{
    const struct width_row titles = { { base_tr("width"), base_tr("needs"), base_tr_in("heading", "buy"),
                                        base_tr("cloth used"), "" } };
    size_t widths[WIDTH_CELLS] = { 0 };
    if (!layout->width_count)
        return;
    app_columns_widen(widths, titles.cells, WIDTH_CELLS);
    for (size_t i = 0; i < layout->width_count; i++)
        app_columns_widen(widths, width_row_of(out->a, &layout->widths[i], unit).cells, WIDTH_CELLS);
    base_buffer_print(out, "\n");
    app_columns_add(out, widths, titles.cells, WIDTH_CELLS);
    for (size_t i = 0; i < layout->width_count; i++)
        app_columns_add(out, widths, width_row_of(out->a, &layout->widths[i], unit).cells, WIDTH_CELLS);
}

static void add_ready(struct base_buffer *out, const struct cloth *cloth, enum units_length unit)
{
    const struct cloth_ready *steps;
    size_t count = cloth_ready_list(out->a, cloth, unit, &steps);
    base_buffer_print(out, base_tr("\n  Making the cloth ready\n"));
    for (size_t i = 0; i < count; i++)
        base_buffer_print(out, "  %2zu  %s\n", i + 1, steps[i].sentence);
}

static const char *const before_words[] = {
    [APP_LAY_NONE_BEFORE] = "",
    [APP_LAY_STAYS] = BASE_TR("  What was found now is no better than the layout that the job had, which stays.\n"),
    [APP_LAY_WAS_LONGER] = BASE_TR("  It takes the place of the layout that the job had, which was longer.\n"),
    [APP_LAY_LACKED] =
        BASE_TR("  It takes the place of the layout that the job had, in which more pieces had no place.\n"),
    [APP_LAY_WAS_WRONG] =
        BASE_TR("  It takes the place of the layout that the job had, in which pieces lay over each other or "
                "where they may not.\n"),
    [APP_LAY_OTHER_LIST] =
        BASE_TR("  It takes the place of the layout that the job had, which was for another list of pieces.\n"),
    [APP_LAY_OTHER_CLOTH] =
        BASE_TR("  It takes the place of the layout that the job had, which was for another cloth or another "
                "spread.\n"),
};

static const char *const tried_words[] = {
    [APP_LAY_NONE_BEFORE] = "",
    [APP_LAY_STAYS] = BASE_TR("  What was found now is no better than the layout that the job had, which stays.\n"),
    [APP_LAY_WAS_LONGER] = BASE_TR("  It is only tried: the job's own layout, which is longer, stays.\n"),
    [APP_LAY_LACKED] =
        BASE_TR("  It is only tried: the job's own layout, in which more pieces have no place, stays.\n"),
    [APP_LAY_WAS_WRONG] = BASE_TR("  It is only tried: the job's own layout, in which pieces lie over each other or "
                                  "where they may not, stays.\n"),
    [APP_LAY_OTHER_LIST] =
        BASE_TR("  It is only tried: the job's own layout, which is for another list of pieces, stays.\n"),
    [APP_LAY_OTHER_CLOTH] =
        BASE_TR("  It is only tried: the job's own layout, which is for another cloth or another spread, stays.\n"),
};

static const char *before_text(const struct app_layout *layout)
{
    if (!layout->is_tried)
        return base_tr(before_words[layout->before]);
    return is_any_laid(layout->lay) ? base_tr(tried_words[layout->before]) : "";
}

const char *app_lay_report(struct arena *a, const struct app_layout *layout, enum units_length unit)
{
    struct base_buffer out = { .a = a };
    const struct lay_task *task = layout->lay->task;
    base_buffer_print(&out, "%s\n", app_lay_cloth(a, task, unit));
    if (layout->is_usual)
        base_buffer_print(
            &out, base_tr("  Nothing was said of this cloth; that is a usual one. --width, --spread and --on say "
                          "otherwise.\n"));
    base_buffer_print(&out, "%s", before_text(layout));
    add_need(&out, layout, unit);
    add_fabric_block(&out, layout, unit);
    add_places(&out, layout->lay, unit);
    add_widths(&out, layout, unit);
    add_ready(&out, whole_cloth(layout), unit);
    return base_buffer_text(&out);
}

/* --- JSON --------------------------------------------------------------------------------------------------------- */

void app_json_path(struct json_out *to, const char *key, struct geometry_path path)
{
    struct json_out *list = json_out_list(to, key);
    for (size_t i = 0; i < path.count; i++) {
        struct json_out *point = json_out_list(list, NULL);
        json_out_number(point, NULL, path.points[i].x);
        json_out_number(point, NULL, path.points[i].y);
    }
}

static void figures_json(struct json_out *to, const struct lay_figures *f)
{
    json_out_number(to, "length_mm", f->length_mm);
    if (!isnan(f->to_buy_mm))
        json_out_number(to, "to_buy_mm", f->to_buy_mm);
    json_out_number(to, "used", f->used);
    if (!isnan(f->spare_mm))
        json_out_number(to, "spare_mm", f->spare_mm);
    app_block_json(to, "block", &f->block);
}

static void torn_json(struct arena *a, struct json_out *to, const struct tearing_plan *plan,
                      const struct lay_figures *laid, enum units_length unit)
{
    if (!plan)
        return;
    struct lay_figures both = app_torn_both(plan, laid, unit);
    struct json_out *torn = json_out_object(to, "torn_first");
    json_out_bool(torn, "along", plan->along);
    json_out_number(torn, "off_square_mm", plan->task->off_square_mm);
    json_out_number(torn, "margin_mm", plan->task->margin_mm);
    json_out_number(torn, "length_mm", plan->length_mm);
    json_out_number(torn, "used", plan->used);
    struct json_out *rests = plan->rests ? json_out_list(torn, "rests") : NULL;
    for (size_t i = 0; rests && i < plan->rests->count; i++)
        app_tear_rest_json(a, rests, &plan->rests->rests[i]);
    figures_json(json_out_object(to, "both"), &both);
}

static void piece_json(struct arena *a, struct json_out *rows, const struct lay *lay, size_t item)
{
    const struct lay_item *it = &lay->task->items[item];
    const struct lay_place *place = &lay->places[item];
    struct json_out *row = json_out_object(rows, NULL);
    json_out_text(row, "name", lay_item_name(a, lay->task, item));
    json_out_text(row, "piece", it->piece->name);
    json_out_number(row, "copies", it->copies);
    json_out_bool(row, "on_fold", it->on_fold);
    json_out_bool(row, "laid", place->is_laid);
    if (!place->is_laid)
        return;
    struct geometry_path outline = lay_outline(a, lay->task, item, place).path;
    struct geometry_box box = geometry_path_box(outline);
    json_out_bool(row, "held", place->is_pinned);
    json_out_bool(row, "mirror", place->motion.mirror);
    json_out_number(row, "turn_deg", place->motion.turn_deg);
    json_out_number(row, "shift_x_mm", place->motion.shift.x);
    json_out_number(row, "shift_y_mm", place->motion.shift.y);
    json_out_number(row, "off_grain_deg", lay_off_grain(place, it));
    json_out_number(row, "from_cut_end_mm", box.min.x);
    json_out_number(row, "from_near_edge_mm", box.min.y);
    app_json_path(row, "outline_mm", outline);
}

static void spread_json(struct json_out *to, const struct cloth_spread *spread)
{
    struct json_out *object = json_out_object(to, "as_it_lies");
    json_out_number(object, "width_mm", spread->width_mm);
    json_out_number(object, "usable_mm", spread->usable_mm);
    if (spread->most_length_mm > 0)
        json_out_number(object, "most_length_mm", spread->most_length_mm);
    struct json_out *bands = json_out_list(object, "bands"), *blocked = json_out_list(object, "blocked_mm");
    for (int b = 0; b < spread->band_count; b++) {
        struct json_out *band = json_out_object(bands, NULL);
        json_out_number(band, "from_mm", spread->bands[b].from_mm);
        json_out_number(band, "to_mm", spread->bands[b].to_mm);
        json_out_number(band, "layers", spread->bands[b].layers);
        json_out_bool(band, "fold_at_from", spread->bands[b].fold_at_from);
        json_out_bool(band, "fold_at_to", spread->bands[b].fold_at_to);
    }
    for (size_t i = 0; i < spread->blocked_count; i++)
        app_json_path(blocked, NULL, spread->blocked[i].path);
}

static void widths_json(struct json_out *to, const struct app_layout *layout)
{
    struct json_out *list = layout->width_count ? json_out_list(to, "other_widths") : NULL;
    for (size_t i = 0; i < layout->width_count; i++) {
        const struct app_lay_width *w = &layout->widths[i];
        struct json_out *row = json_out_object(list, NULL);
        json_out_number(row, "width_mm", w->width_mm);
        json_out_bool(row, "fits", w->fits);
        if (!w->fits)
            continue;
        json_out_bool(row, "single_layer", w->opened);
        figures_json(row, &w->figures);
    }
}

static void ready_json(struct arena *a, struct json_out *to, const struct cloth *cloth, enum units_length unit)
{
    const struct cloth_ready *steps;
    size_t count = cloth_ready_list(a, cloth, unit, &steps);
    struct json_out *ready = json_out_list(to, "making_ready");
    for (size_t i = 0; i < count; i++)
        json_out_text(ready, NULL, steps[i].sentence);
}

void app_lay_torn_json(struct arena *a, struct json_out *to, const struct tearing_plan *torn, bool is_usual)
{
    const struct tearing_task *task = torn->task;
    const struct lay_figures none = { 0 };
    json_out_text(to, "material", pattern_cloth_name(task->material));
    json_out_bool(to, "usual_cloth", is_usual);
    cloth_write(json_out_object(to, "cloth"), task->cloth);
    torn_json(a, to, torn, &none, task->unit);
    json_out_number(to, "left_out", 0);
    json_out_list(to, "pieces");
    ready_json(a, to, task->cloth, task->unit);
}

void app_lay_json(struct arena *a, struct json_out *to, const struct app_layout *layout, enum units_length unit)
{
    const struct lay *lay = layout->lay;
    const struct cloth *cloth = whole_cloth(layout);
    json_out_text(to, "material", pattern_cloth_name(lay->task->material));
    json_out_bool(to, "usual_cloth", layout->is_usual);
    cloth_write(json_out_object(to, "cloth"), cloth);
    spread_json(to, &lay->task->spread);
    json_out_number(to, "as_it_lies_length_mm", lay->length_mm);
    if (fold_of(lay) > 0)
        json_out_number(to, "fold_mm", fold_of(lay));
    figures_json(to, &layout->figures);
    torn_json(a, to, layout->torn, &layout->figures, unit);
    app_block_json(to, "fabric_block", fabric_block(layout));
    json_out_number(to, "left_out", (double)lay->left_out);
    if (layout->fits_on_more) {
        struct lay_figures more = app_torn_both(layout->torn, &layout->on_more, unit);
        figures_json(json_out_object(to, "on_more"), &more);
    }
    json_out_number(to, "rounds", (double)layout->rounds);
    json_out_bool(to, "kept", layout->before == APP_LAY_STAYS);
    struct json_out *pieces = json_out_list(to, "pieces");
    for (size_t i = 0; i < lay->task->item_count; i++)
        piece_json(a, pieces, lay, i);
    widths_json(to, layout);
    ready_json(a, to, cloth, unit);
}
