/* Layouts at the table: where the cloth lies, section by section, and what is done. For the files that make it; not for
 * other folders. Those call one way: keys, then cloth, then span, then edges, then aims, then anew, then plan, then
 * chalk and warn; page and memory look on. */
#ifndef APP_PLACE_STATE_H
#define APP_PLACE_STATE_H

#include "app/key_lines.h"
#include "app/piece_marks.h"
#include "app/state.h"
#include "lay/lay.h"
#include "spans/spans.h"
#include "tearing/rests.h"

/* What the light shows of a layout; keys mean what they mean on it. */
enum app_place_stage {
    APP_PLACE_LINES, /* two lines to lay the cloth's edge and its cut end along */
    APP_PLACE_EDGE,  /* points are nudged onto the cloth as it lies instead */
    APP_PLACE_GRAIN, /* edge to edge is measured at both ends */
    APP_PLACE_CUT,
    APP_PLACE_SLIDE, /* the cloth is slid, and marks are nudged onto their chalk */
    APP_PLACE_MOVED, /* the cloth has moved: likewise */
    APP_PLACE_LAMP,  /* all is chalked; pieces are cut by the room's lamp, wherever the cloth lies */
    APP_PLACE_DONE,
    APP_PLACE_STAGES
};

enum { APP_PLACE_AIMS = 10, APP_PLACE_TYPED = 24, APP_PLACE_CHALK = 4 };

/* How well a point is nudged onto a pressed fold or a torn edge, seen against a line of light; common practice, no
 * source. */
#define APP_PLACE_LINE_SIGMA_MM 0.5

/* A mark that is chalked on the cloth. */
struct app_chalk {
    const char *name;
    struct cloth_pt at;
    bool before; /* in an earlier section: it serves again */
};

/* A point of light that is nudged onto the cloth. */
struct app_aim {
    const char *name;
    struct spans_sighting sighting;
};

enum app_step_kind {
    APP_STEP_WITNESSES, /* chalk the section's own two, should the cloth move while it is cut */
    APP_STEP_CUT,       /* a piece; where all is chalked first, it is chalked */
    APP_STEP_MARKS,     /* chalk those that the next section shares */
    APP_STEP_LAMP       /* a piece that was chalked is cut; of no section, behind the last one */
};

/* One thing to do in a section. */
struct app_step {
    size_t span;
    enum app_step_kind kind;
    int item; /* of APP_STEP_CUT and APP_STEP_LAMP, else LAY_NONE */
    bool done;
    enum app_part part; /* in hand, once what comes before it is done */
};

/* Where the light was on the cloth when the rest was planned anew, behind that section, and which steps were done. */
struct app_anew {
    size_t span;
    double from_mm, to_mm, across_mm;
    const size_t *done;
    size_t done_count;
};

/* What was cut and chalked by a layout that was arranged anew since: it stays so. */
struct app_earlier {
    const double *cut_to_mm; /* of each item, as app_place_cut_to */
    const bool *lamp;        /* of each item: chalked then, and cut since */
    const struct app_chalk *chalk;
    int chalk_count;
};

enum { APP_PLACE_WARNINGS = 8 };

/* Of what section and the next one something is to be known where they meet. */
struct app_warning {
    size_t span;
    const char *sentence;
};

/* One material's layout, or what is cut of the rest of a strip. */
struct app_place_cloth {
    const struct lay *lay;
    const struct tearing_rest *rest;    /* of a strip, that is laid on; NULL: it is the length of cloth */
    const struct tearing_plan *torn;    /* off the cloth, before anything is laid on it; NULL: nothing is */
    const struct lay_finding *overlaps; /* pieces that lie over each other, which is all of `amount`; worst first */
    size_t overlap_count;
    bool chalks_all;           /* all is chalked first, and cut then */
    const char *trouble;       /* why it cannot be shown in this light, or NULL */
    struct geometry_box light; /* where sections lie; fixed once the cloth is placed … */
    int quarter;               /* … and by how many quarter turns the cloth's length lies off the table's */
    struct spans_plan plan;
    struct app_warning warnings[APP_PLACE_WARNINGS]; /* when that was made */
    int warning_count;
    const struct app_earlier *earlier; /* what plan and steps leave aside; NULL: nothing */
    struct app_step *steps;            /* section after section */
    size_t step_count;
    const struct app_anew *anew; /* what plan and steps were made by, beside the light, one after the other */
    size_t anew_count;

    enum app_place_stage stage, back;           /* back: where it was when the cloth moved */
    size_t span;                                /* in the light now */
    size_t now;                                 /* the step in hand */
    struct spans_sighting seen[APP_PLACE_AIMS]; /* the seat was found by these; none: it is not placed yet */
    int seen_count;
    struct spans_seat seat;
    struct app_aim aims[APP_PLACE_AIMS]; /* what is nudged now */
    int aim_count, in_hand;
    bool stretch_told;              /* that the cloth lies stretched: once more Enter goes on all the same */
    bool apart_told;                /* that they do not agree: none but the one to blame may be left out */
    char typed[2][APP_PLACE_TYPED]; /* edge to edge, at her left and right, or near and far */
    int field;
    bool grain_told; /* that it is not true: once more Enter goes on all the same */
};

struct app_place {
    struct app_place_cloth *cloths;
    size_t count, now;
    bool on; /* shown, rather than pieces one by one */
};

/* The layout that is shown now. */
struct app_place_cloth *app_place_now(const struct app *app);

/* --- plan (place_plan.c) --- */

/* Makes sections for a light and a turn that are told, what was done before forgotten; false when no sections can be
 * made. */
bool app_place_plan_in(struct app *app, struct app_place_cloth *cloth, struct geometry_box light, int quarter);

/* Steps of the sections from that one on, behind what is done of those before. */
void app_place_steps_anew(struct arena *a, struct app_place_cloth *cloth, size_t from);

/* The same with nothing done yet, for the light as she stands. */
void app_place_fresh(struct app *app, struct app_place_cloth *cloth);

/* --- what is cut (place_cut.c) --- */

/* How far along the cloth an item is cut, or chalked where all is chalked first: INFINITY: wholly, -INFINITY: not
 * begun, APP_PLACE_BEGUN_MM: its outline is, and something else is to be done with it. */
double app_place_cut_to(const struct app_place_cloth *cloth, size_t item);
#define APP_PLACE_BEGUN_MM (-1e5)

/* Whether it is cut out of the cloth. */
bool app_place_is_cut(const struct app_place_cloth *cloth, size_t item);

/* What of the layout is still to be cut, as cloth for who knows no garment; what is cut is blocked. Of a piece that is
 * cut as far as some line, what is beyond. With `all`, pieces that no step is for as well. In `a`. */
struct spans_cloth app_place_to_cut(struct arena *a, const struct app_place_cloth *cloth, bool all);

/* What is to be known of that section where it meets its neighbours; NULL: nothing. */
const char *app_place_warning(const struct app_place_cloth *cloth, size_t span);

/* What pieces may use of the light as it is now. */
struct geometry_box app_place_light(const struct app *app, const struct app_place_cloth *cloth);

/* What of the light as she stands is clear of a notice, wherever pieces lie. */
struct geometry_box app_place_clear_light(const struct app *app);

/* Whether its sections were made for more than that. */
bool app_place_reaches_out(const struct app *app, const struct app_place_cloth *cloth);

/* How the cloth would lie with its place `from_mm` at the light's edge, exactly along it. */
struct geometry_motion app_place_straight(const struct app_place_cloth *cloth, double from_mm);

/* Of the cloth without its near selvedge, which is in the light as well. */
struct spans_reach app_place_reach(const struct app_place_cloth *cloth);

/* A place of the cloth on the table. */
struct table_pt app_place_at(const struct geometry_motion *to_table, struct cloth_pt at);

/* Whether light falls there. */
bool app_place_is_lit(const struct app *app, struct table_pt at);

/* The way of the cloth's length on the table, and whether that is away from her rather than to her side. */
vec2 app_place_along(const struct app_place_cloth *cloth);
bool app_place_lies_away(const struct app *app, const struct app_place_cloth *cloth);

/* Whether who stands on that side has the cut end at her right, or at the far end where the cloth lies away from her.
 */
bool app_place_end_is_second(const struct app_place_cloth *cloth, enum scene_side side);

/* "left" or "near", of its two ends as she stands; and "at your left" or "at the near end". */
const char *app_place_end_name(const struct app *app, const struct app_place_cloth *cloth, int end);
const char *app_place_end_text(const struct app *app, const struct app_place_cloth *cloth, int end);

/* "fabric", or "the rest of strip 2"; in `a`. */
const char *app_place_name(struct arena *a, const struct app_place_cloth *cloth);

/* Whether anything was done with it: its sections then stay where they are. */
bool app_place_is_begun(const struct app_place_cloth *cloth);

/* Whether strips are still to be torn off its cloth, as far as anybody can know: it does not lie on the table yet. */
bool app_place_is_to_tear(const struct app_place_cloth *cloth);

/* Whether the near edge is a fold. */
bool app_place_on_fold(const struct app_place_cloth *cloth);

/* Where on the cloth these two edges are to be seen: a selvedge lies beyond what pieces lie on. */
double app_place_near_mm(const struct app_place_cloth *cloth);
double app_place_far_mm(const struct app_place_cloth *cloth);

/* How an edge of the cloth is called: on its line, and where something is laid along it. */
struct app_edge {
    const char *label, *the, *the_other;
};

/* Fold or selvedge, and the cut end; a rest has others. In her language. */
struct app_edge app_place_near_edge(const struct app_place_cloth *cloth);
struct app_edge app_place_far_edge(const struct app_place_cloth *cloth);
struct app_edge app_place_end(const struct app_place_cloth *cloth);

/* --- what is not cut (place_warn.c) --- */

/* Pieces that would cut into each other. */
void app_place_find_overlaps(struct app *app, struct app_place_cloth *cloth);
bool app_place_overlaps(const struct app_place_cloth *cloth, int item);

/* The first material of the job that has no layout at the table; NULL: each has. In her language. */
const char *app_place_not_laid_out(const struct app *app);

/* All pieces of the material are cut by the layout. */
bool app_place_is_whole(const struct app_place_cloth *cloth);

/* A length in her unit, to 0.1 mm or the nearest sixteenth; in `a`. */
const char *app_place_amount(const struct app *app, struct arena *a, double mm);

/* --- chalk (place_chalk.c) --- */

/* Marks of the section for a step of that kind, with their names: "W1", for cloth that moves, and "A", for those that
 * the next section shares; one may do for both, or be one that an earlier section chalked. Names live in `a`; returns
 * how many. */
int app_place_marks(struct arena *a, const struct app_place_cloth *cloth, size_t span, enum app_step_kind kind,
                    struct app_chalk out[APP_PLACE_CHALK]);

/* Those of them that are chalked in that step, not before. */
int app_place_chalk(struct arena *a, const struct app_place_cloth *cloth, size_t span, enum app_step_kind kind,
                    struct app_chalk out[APP_PLACE_CHALK]);

/* Whether marks of a section are on the cloth. */
bool app_place_are_chalked(const struct app_place_cloth *cloth, size_t span, enum app_step_kind kind);

/* Whether any that a section shares with the one before it is on the cloth. */
bool app_place_are_shared_chalked(const struct app_place_cloth *cloth, size_t span);

/* All that are on the cloth, with those of an earlier layout; in `a`. */
int app_place_all_chalk(struct arena *a, const struct app_place_cloth *cloth, const struct app_chalk **out);

/* Those of them that are on the cloth. */
int app_place_shared(struct arena *a, const struct app_place_cloth *cloth, size_t span,
                     struct app_chalk out[APP_PLACE_CHALK]);

/* --- what is said of a piece (place_page.c) --- */

/* "Both layers", "On the fold": how often it is cut where it lies; in `a`. */
const char *app_place_copies(struct arena *a, const struct app_place_cloth *cloth, int item);

/* --- aims (place_aims.c) --- */

/* Nothing is nudged yet. */
void app_place_aim_anew(struct app_place_cloth *cloth);

/* Another point: a mark, the edge or the cut end, where it lies by `expected`. */
void app_place_aim_mark(struct app_place_cloth *cloth, const struct geometry_motion *expected,
                        const struct app_chalk *mark);
void app_place_aim_line(struct app *app, struct app_place_cloth *cloth, const struct geometry_motion *expected,
                        enum spans_sign sign, struct cloth_pt at);

void app_place_aim_point(struct app *app, struct app_place_cloth *cloth, struct spans_sighting sighting);

/* Moves the one in hand by mm on the table; it stays in the light. */
void app_place_move_aim(struct app *app, struct app_place_cloth *cloth, vec2 by);

/* The one in hand lies there; true when it was the last and the cloth's seat is found by all. Else the next is in hand,
 * or it is told why these do not tell. */
bool app_place_take_aim(struct app *app, struct app_place_cloth *cloth);

/* The one in hand is left out. */
void app_place_drop_aim(struct app *app, struct app_place_cloth *cloth);

/* The seat by sightings; false, told, when they do not tell it. */
bool app_place_sit(struct app *app, struct app_place_cloth *cloth, const struct spans_sighting *seen, int count);

/* "A place may be off by 0.6 mm": of what is cut in this section, table and seat together; in `a`. */
const char *app_place_doubt_text(const struct app *app, const struct app_place_cloth *cloth, struct arena *a);

/* "120 mm to your left and 20 mm toward you", as she stands; in `a`. */
const char *app_place_way_text(const struct app *app, vec2 by, struct arena *a);

/* "Some of it lies out of the light …", with the way in, or nothing; in `a`. */
const char *app_place_outside_text(const struct app *app, const struct app_place_cloth *cloth, struct arena *a);

/* The same, with what to do, where it is so much that a seam shows it; else NULL. */
const char *app_place_doubt_warning(const struct app *app, const struct app_place_cloth *cloth, struct arena *a);

/* The largest of those doubts, mm. */
double app_place_doubt_mm(const struct app *app, const struct app_place_cloth *cloth);

/* --- the rest anew (place_anew.c) --- */

/* Where not all of this section lies in the light any more: sections again over what is not cut, from where the cloth
 * lies. False, nothing changed, when the cloth must be moved instead: nothing of the section is in the light, or
 * something lies before it, beside it, or longer than it. */
bool app_place_plan_anew(struct app *app, struct app_place_cloth *cloth);

/* The same from where the light was, whose lists live on; false, with nothing changed, when that cannot be. */
bool app_place_apply_anew(struct app *app, struct app_place_cloth *cloth, struct app_anew anew);

/* --- scraps (place_scrap.c) --- */

enum { APP_PLACE_CORNERS = 2 };

/* Whether the cloth is one, which lies by its outline; and whether it has a grain, as all but leather has. */
bool app_place_is_scrap(const struct app_place_cloth *cloth);
bool app_place_has_grain(const struct app_place_cloth *cloth);

/* Its outline as it lies, and a line along its grain. */
struct geometry_path app_place_outline(struct arena *a, const struct app_place_cloth *cloth);
void app_place_grain_line(struct arena *a, const struct app_place_cloth *cloth, struct cloth_pt ends[2]);

/* Two of its corners are nudged onto; false, told, when the light shows no two. */
bool app_place_aim_corners(struct app *app, struct app_place_cloth *cloth);

/* How it lies by those as they are now. */
struct geometry_motion app_place_by_corners(const struct app_place_cloth *cloth);

/* --- first placing (place_cloth.c) --- */

/* From lines to points, and back. */
void app_place_exchange(struct app *app, struct app_place_cloth *cloth);

/* The cloth lies along the lines. */
void app_place_lies(struct app *app, struct app_place_cloth *cloth);

/* The lines turned by a quarter. */
void app_place_turn(struct app *app, struct app_place_cloth *cloth);

/* The length in hand is typed. */
void app_place_measured(struct app *app, struct app_place_cloth *cloth);

void app_place_to_lines(struct app_place_cloth *cloth);
void app_place_to_grain(struct app *app, struct app_place_cloth *cloth);

/* --- edges (place_edges.c) --- */

/* Points on edges of what a section shows, by where the cloth is expected to lie. */
void app_place_aim_edges(struct app *app, struct app_place_cloth *cloth, size_t span,
                         const struct geometry_motion *expected);

/* The point in hand goes to another edge. */
void app_place_other_edge(struct app *app, struct app_place_cloth *cloth);

/* Whether a point is for the edge across from the near one. */
bool app_place_is_far_edge(const struct spans_sighting *sighting);

/* --- section by section (place_span.c) --- */

/* Where the cloth is taken to lie: where it was seen last or, where it is slid now, that much further. */
struct geometry_motion app_place_expected(const struct app_place_cloth *cloth);

void app_place_begin(struct app *app, struct app_place_cloth *cloth);

/* How far on the table the cloth is slid from where it lies now, so that the next section is in the midst of its light,
 * turned as it is. */
vec2 app_place_slide_by(const struct app_place_cloth *cloth);

/* What is in hand of a step is done; what comes next of its piece, else the next step, or sliding. */
void app_place_step_done(struct app *app, struct app_place_cloth *cloth);

/* All of the step in hand is. */
void app_place_step_ticked(struct app *app, struct app_place_cloth *cloth);

/* What was done before is not after all; of the first step, the cloth is placed anew. */
void app_place_step_undone(struct app *app, struct app_place_cloth *cloth);

/* Another step of this section that is not done. */
void app_place_choose_step(struct app_place_cloth *cloth, int by);

/* The marks were found after sliding, or after the cloth has moved. */
void app_place_slid(struct app *app, struct app_place_cloth *cloth);
void app_place_found_again(struct app *app, struct app_place_cloth *cloth);

/* The cloth has moved: its chalked marks are to be found. */
void app_place_moved(struct app *app, struct app_place_cloth *cloth);

/* Why the cloth is to be found again though she did not say that it has moved. */
enum app_find_why { APP_FIND_ARRANGED, APP_FIND_SET_UP };

/* After its layout was arranged anew, or the table set up: the cloth may have moved meanwhile. Marks of before are to
 * be found. */
void app_place_find_again(struct app *app, struct app_place_cloth *cloth, enum app_find_why why);

/* It has not moved after all. */
void app_place_back(struct app *app, struct app_place_cloth *cloth);

/* How many pieces of the section are not done; behind the last section, how many are not cut that are chalked. */
size_t app_place_left(const struct app_place_cloth *cloth, size_t span);

/* How many pieces there are something to be done with in sections `from` to `to`: what is cut through two layers is
 * two, what reaches over several sections is counted once. */
size_t app_place_pieces_left(const struct app_place_cloth *cloth, size_t from, size_t to);

/* --- what is done with a piece (place_parts.c) --- */

/* The next part that a step has from that one on, or, by -1, the one from there back; APP_PARTS: none. */
enum app_part app_place_part_from(const struct app_place_cloth *cloth, const struct app_step *step, int part, int by);

/* "Bib front: snip 3 notches"; NULL of the first part; in `a`. */
const char *app_place_part_text(const struct app_place_cloth *cloth, const struct app_step *step, struct arena *a);
/* --- an earlier layout (place_earlier.c) --- */

/* As members of a layout's line: by what layout it is, what is cut and chalked, and what was by earlier ones. */
void app_place_write_earlier(const struct app *app, const struct app_place_cloth *cloth, struct json_out *to);

/* Of a line: of which layout it is, where it says so. */
enum app_place_of { APP_PLACE_OF_NONE, APP_PLACE_OF_THIS, APP_PLACE_OF_EARLIER };
enum app_place_of app_place_find_told(const struct app *app, const struct json_node *node, size_t *index);

/* What was done before the line's own layout; false when it fits none. *out: NULL: nothing was. */
bool app_place_read_earlier(struct app *app, const struct app_place_cloth *cloth, const struct json_node *node,
                            const struct app_earlier **out);

/* The same with what was done by the line's layout itself. */
bool app_place_read_cut(struct app *app, const struct app_place_cloth *cloth, const struct json_node *node,
                        const struct app_earlier **out);

/* Of a line that is of no layout: whether nothing was cut of its own. */
bool app_place_is_uncut(const struct json_node *node);

/* --- reading (place_memory.c) --- */

/* A whole number from 0 to below `end`; and so many numbers of a list, none farther than a place can be. False where
 * it is none. */
bool app_place_whole_below(const struct json_node *n, double end, size_t *out);
bool app_place_numbers_of(const struct json_node *list, size_t count, double *out);

/* --- keys (place_keys.c) --- */

/* What a key does; its pages are bits by their stage. */
struct app_place_key {
    struct app_key key;
    void (*run)(struct app *app, struct app_place_cloth *cloth, double amount);
    double amount;
};

/* All rows, for the test that no key stands twice. */
const struct app_place_key *app_place_key_rows(size_t *count);

#endif
