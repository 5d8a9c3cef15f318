/* A rectangle that is given another width: what is cut, what follows it, and the gathers it leaves. The skirt is the
 * trade's example: two panels of 34 in as cut, 5/8 in allowances, gathered to a seam of 34 in. */
#include "fit/fullness.h"
#include "fit/mismatch.h"
#include "fit/seam.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"

#define IN(n) ((n)*25.4)
#define MM 1e-6

/* The outline is the stitching line (%s) or the cutting line: the panel is 34 in as cut in both. */
static const char *const text[] = {
    "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'stitching line', 'name': 'P', 'unit': 'in', 'sizes': ['1'],"
    "  'pieces': [ { 'name': 'panel', 'rectangle': { 'width': 32.75, 'height': 20 }, 'allowance': '5/8 in',",
    "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'cutting line', 'name': 'P', 'unit': 'in', 'sizes': ['1'],"
    "  'pieces': [ { 'name': 'panel', 'rectangle': { 'width': 34, 'height': 21.25 }, 'allowance': '5/8 in',",
};
static const char rest[] =
    "      'notches': [ { 'edge': 'top', 'at': 8.1875 } ] },"
    "    { 'name': 'half', 'rectangle': { 'width': 16.375, 'height': 20 }, 'allowance': '5/8 in', 'fold': 'left' },"
    "    { 'name': 'band', 'rectangle': { 'width': 34, 'height': 2 } },"
    "    { 'name': 'facing', 'rectangle': { 'width': 'length(panel.bottom)', 'height': 2 } } ],"
    "  'seams': [ { 'name': 'waist', 'join': [ ['panel.top', 'panel.top'], ['band.bottom'] ], 'ratio': '65.5 / 34' },"
    "    { 'name': 'facing', 'join': [ ['panel.bottom'], ['facing.top'] ] } ],"
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'panel', 'count': 2 }, { 'piece': 'half', 'count': 1 },"
    "    { 'piece': 'band', 'count': 1 }, { 'piece': 'facing', 'count': 2 } ] } ] }";

enum { PANEL, HALF, BAND, FACING };

static struct draft drafted(struct room *room, int outline, struct draft_alteration one, struct draft_alteration two)
{
    struct draft_alteration *kept = base_arena_alloc(room->a, 2, sizeof *kept);
    const char *json = room_json(room, base_arena_print(room->a, "%s%s", text[outline], rest));
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    struct draft_figure figure = draft_figure_at(0, PATTERN_NONE);
    struct draft d = { .piece_count = 0 };
    room_nothing_told(room);
    kept[0] = one;
    kept[1] = two;
    figure.alterations = kept;
    figure.alteration_count = two.what ? 2 : 1;
    draft_make(room->a, p, &figure, 0, &d, room->errs);
    return d;
}

static struct draft_alteration wide(const char *piece, double in)
{
    return (struct draft_alteration){ DRAFT_WIDTH, piece, PATTERN_NONE, IN(in) };
}

static const struct draft_alteration none = { .what = NULL };

static double cut_width(const struct draft_piece *piece)
{
    struct geometry_box box = geometry_path_box(piece->cut.path);
    return box.max.x - box.min.x;
}

static double waist_ratio(struct room *room, const struct draft *d)
{
    struct fit_seam m = fit_seam_measure(room->a, d->sized, &d->sized->pattern->seams[0]);
    return m.length_mm[0] / m.length_mm[1];
}

/* Hand-worked: sewn into a ring, two panels lose 4 allowances of 5/8 in. (2 x 34 - 2.5) / 34 = 65.5 / 34 = 1.926, the
 * example's 1.93; (2 x 28 - 2.5) / 34 = 53.5 / 34 = 1.574, its 1.57. */
static void two_panels_of_28_in_are_gathered_less(void **state)
{
    struct room *room = *state;
    for (int outline = 0; outline < 2; outline++) {
        struct draft was = drafted(room, outline, wide("panel", 34), none);
        assert_near(cut_width(&was.pieces[PANEL]), IN(34), MM);
        assert_near(waist_ratio(room, &was), 65.5 / 34, 1e-9);
        struct draft now = drafted(room, outline, wide("panel", 28), none);
        assert_near(cut_width(&now.pieces[PANEL]), IN(28), MM);
        assert_near(waist_ratio(room, &now), 53.5 / 34, 1e-9);
        assert_near(2 * fit_sewn_mm(now.sized, PANEL, 0), IN(53.5), MM); /* hem girth */
        room_nothing_told(room);
    }
}

/* What is drafted from its edge follows; its height, and a notch's share of the edge (a quarter), stay. */
static void what_rests_on_the_width_follows(void **state)
{
    struct room *room = *state;
    struct draft d = drafted(room, 0, wide("panel", 28), none);
    struct geometry_box box = geometry_path_box(d.pieces[PANEL].cut.path);
    assert_near(box.max.y - box.min.y, IN(21.25), MM);
    assert_near(d.sized->pieces[PANEL].notch_mm[0], IN(26.75) / 4, MM);
    assert_near(cut_width(&d.pieces[FACING]), IN(26.75), MM);
}

/* 28 in opened out are 14 on the fold. */
static void on_the_fold_the_width_is_opened_out(void **state)
{
    struct room *room = *state;
    struct draft d = drafted(room, 0, wide("half", 28), none);
    assert_near(cut_width(&d.pieces[HALF]), IN(14), MM);
    struct draft_piece whole = draft_unfold(room->a, &d.pieces[HALF]);
    assert_near(cut_width(&whole), IN(28), MM);
}

/* An allowance of her own is within the width: 28 in as cut, 1 in on the right instead of 5/8. The last width counts.
 */
static void her_own_allowance_is_within(void **state)
{
    struct room *room = *state;
    for (int outline = 0; outline < 2; outline++) {
        struct draft d = drafted(room, outline, wide("panel", 28),
                                 (struct draft_alteration){ DRAFT_ALLOWANCE, "panel.right", PATTERN_NONE, IN(1) });
        assert_near(cut_width(&d.pieces[PANEL]), IN(28), MM);
        assert_near(fit_sewn_mm(d.sized, PANEL, 0), IN(28 - 1 - 0.625), MM);
        d = drafted(room, outline, wide("panel", 28), wide("panel", 30));
        assert_near(cut_width(&d.pieces[PANEL]), IN(30), MM);
    }
}

/* More or less full is what was meant, and told as a ratio; too short to reach is a mismatch. */
static void fullness_is_told_and_what_does_not_reach_is_off(void **state)
{
    struct room *room = *state;
    struct draft d = drafted(room, 0, wide("panel", 28), none);
    fit_tell_mismatches(d.sized, NULL, room->errs);
    const struct err *told = room_only_told(room, "fit.fullness");
    assert_string_equal(told->args[3].text, "1.57");
    assert_near(told->args[1].number, IN(53.5), MM);
    assert_int_equal(told->args[1].type, ERR_ARG_TAPE_MM); /* a tape has no decimals of an inch */
    assert_int_equal(told->args[2].type, ERR_ARG_TAPE_MM);
    room_forget(room);
    d = drafted(room, 0, wide("panel", 17), none); /* 2 x 17 - 2.5 = 31.5, less than the band's 34 */
    fit_tell_mismatches(d.sized, NULL, room->errs);
    told = room_only_told(room, "fit.mismatch"); /* by 65.5 - 31.5 in, which is no matter of millimetres */
    assert_int_equal(told->args[1].type, ERR_ARG_MM);
    assert_near(told->args[1].number, IN(34), MM);
}

static void narrower_than_its_allowances_is_refused(void **state)
{
    struct room *room = *state;
    drafted(room, 0, wide("panel", 1.25), none);
    room_only_told(room, "draft.too_narrow");
}

int main(void)
{
    static const struct CMUnitTest tests[] = {
        room_test(two_panels_of_28_in_are_gathered_less),
        room_test(what_rests_on_the_width_follows),
        room_test(on_the_fold_the_width_is_opened_out),
        room_test(her_own_allowance_is_within),
        room_test(fullness_is_told_and_what_does_not_reach_is_off),
        room_test(narrower_than_its_allowances_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
