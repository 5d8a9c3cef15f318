/* What she mends of the pieces, one step after the other; each can be taken back. */
#include "app/lift_state.h"
#include "app/sentence.h"
#include "base/words.h"

static const struct lifting_piece *shown(const struct app_lift *lift)
{
    const struct lifting *l = &lift->im->lifting;
    return lift->piece < l->piece_count ? &l->pieces[lift->piece] : NULL;
}

static size_t stepped(size_t at, int by, size_t count)
{
    return count ? (at + count + (size_t)(by < 0 ? -1 : 1)) % count : 0;
}

/* The other one of two, where one is chosen, is never the piece itself. */
struct app_lift_effects app_lift_step_piece(struct app_lift *lift, int by)
{
    size_t count = lift->im->lifting.piece_count;
    if (lift->page != APP_LIFT_JOIN) {
        lift->piece = stepped(lift->piece, by, count);
        lift->lies = (struct geometry_motion){ 0 };
        return app_lift_redraw;
    }
    do
        lift->other = stepped(lift->other, by, count);
    while (lift->other == lift->piece && count > 1);
    return app_lift_redraw;
}

struct app_lift_effects app_lift_begin_mend(struct app_lift *lift, enum lifting_mend_kind kind)
{
    if (!shown(lift))
        return app_lift_redraw;
    lift->mend = kind;
    lift->lay = lift->lies;
    lift->marks.count = 0;
    lift->turned_deg = 0;
    if (kind == LIFTING_MEND_JOIN && lift->im->lifting.piece_count < 2) {
        app_lift_tell(lift, base_tr("There is no other piece to join it with"));
        return app_lift_redraw;
    }
    lift->page = kind == LIFTING_MEND_JOIN ? APP_LIFT_JOIN : APP_LIFT_MARK;
    if (kind == LIFTING_MEND_JOIN) {
        lift->other = lift->piece;
        app_lift_step_piece(lift, +1);
    }
    return app_lift_redraw;
}

/* What cannot be done is told, and is no step to be taken back. */
struct app_lift_effects app_lift_mend(struct app_lift *lift, struct lifting_mend mend)
{
    struct app_import *im = lift->im;
    if (!shown(lift))
        return app_lift_redraw;
    int told = im->told->count;
    mend.of[0] = lift->piece;
    app_import_mend(im, &mend);
    app_import_make(im, APP_IMPORT_PIECES);
    if (im->told->count > told) {
        app_lift_tell(lift, "%s", app_sentence(lift->a, &im->told->items[im->told->count - 1], lift->start.unit));
        app_import_take_back(im);
    }
    app_lift_go(lift, APP_LIFT_PIECES);
    return app_lift_keep;
}

const char *app_lift_no_piece(const struct app_lift *lift)
{
    return lift->im->mended && lift->im->choices.mend_count ? base_tr("No piece is left: U takes that back")
                                                            : base_tr("No piece was found: look at the sizes (F4)");
}

struct app_lift_effects app_lift_take_back(struct app_lift *lift)
{
    if (!app_import_take_back(lift->im)) {
        app_lift_tell(lift, base_tr("Nothing was mended yet"));
        return app_lift_redraw;
    }
    app_lift_go(lift, APP_LIFT_PIECES);
    return app_lift_keep;
}

/* Where the marked places are on the sheet: they are told from the middle of the piece's box. */
static void on_sheet(const struct app_lift *lift, struct sheet_pt at[2])
{
    int size = app_lift_shown_size(lift);
    struct geometry_box box = geometry_path_box(shown(lift)->outlines[size].path.path);
    vec2 middle = vec2_lerp(box.min, box.max, 0.5);
    for (int i = 0; i < 2; i++) {
        vec2 p = vec2_add(middle, lift->marks.at[i]);
        at[i] = (struct sheet_pt){ p.x, p.y };
    }
}

struct app_lift_effects app_lift_mend_marked(struct app_lift *lift)
{
    struct lifting_mend mend = { .kind = lift->mend, .number = 1 };
    if (lift->marks.at[0].x == lift->marks.at[1].x && lift->marks.at[0].y == lift->marks.at[1].y) {
        app_lift_tell(lift, base_tr("These two places are one: move on, then mark the second"));
        lift->marks.count = 1;
        return app_lift_redraw;
    }
    on_sheet(lift, mend.at);
    return app_lift_mend(lift, mend);
}

struct app_lift_effects app_lift_take_turned(struct app_lift *lift)
{
    struct geometry_mover turn = geometry_mover_of((struct geometry_motion){ .turn_deg = lift->turned_deg });
    lift->marks.at[0] = (vec2){ 0, 0 };
    lift->marks.at[1] = vec2_scale(geometry_move(&turn, shown(lift)->grain), 100);
    return app_lift_mend_marked(lift);
}
