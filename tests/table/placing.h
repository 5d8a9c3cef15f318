/* A person at the virtual table who lays cloth, chalks marks, slides the cloth and nudges light onto it: what she sees
 * is what the app draws, where it falls is the virtual table's affair. */
#ifndef TESTS_TABLE_PLACING_H
#define TESTS_TABLE_PLACING_H

#include "app/place_state.h"
#include "support/room.h"
#include "table/rig.h"

enum { PLACING_MARKS = 64 };

/* A mark that is on the cloth: where in the cloth's own mm. */
struct placing_mark {
    const char *name;
    vec2 at;
};

/* A row of the demo's pieces on folded cloth; the same as the program lays them; what has room on a scrap. */
enum placing_cloth_kind { PLACING_ROW, PLACING_PACKED, PLACING_SCRAP };

/* The scrap's corners, mm from its box's corner at the cut end and the near edge. */
enum { PLACING_SCRAP_CORNERS = 5 };
extern const vec2 placing_scrap[PLACING_SCRAP_CORNERS];

struct placing {
    struct room room;
    struct vt_setup setup;
    struct calibration_table table;
    struct app *app;
    enum placing_cloth_kind cloth;
    struct geometry_motion lies; /* how the cloth really lies: cloth mm to the mat */
    struct vt_noise noise;
    double chalk_sigma_mm; /* how well she chalks, in each coordinate */
    struct placing_mark marks[PLACING_MARKS];
    int mark_count;
    double stretch; /* of the cloth, since it was chalked: 0.01 is 1 % longer */
};

/* A table of exact readings and the demo's job, with all pieces of its main fabric in one row on cloth that is folded
 * lengthwise: several sections. False, told in the room, when it cannot be. */
bool placing_open(struct placing *p, struct text_font *font);

/* Set-up and tear-down of a test with that, no letters: *state is its struct placing. */
int placing_set_up(void **state);
int placing_tear_down(void **state);

/* The same in a light that is 68 cm wide: some pieces are longer. */
bool placing_open_narrow(struct placing *p, struct text_font *font);

/* The same with its pieces laid as the program lays them. */
bool placing_open_packed(struct placing *p, struct text_font *font);

/* On a scrap, in a single layer. */
bool placing_open_scrap(struct placing *p, struct text_font *font);

/* Another app of the same job, table and layout, as the program finds it when it is started again. */
struct app *placing_again(struct placing *p);

/* Fails unless another app refuses what this one remembers with `other` in place of `text`, and stands as it stood. */
void placing_refuses(struct placing *p, const char *text, const char *other);

/* The layout that is shown. */
const struct app_place_cloth *placing_cloth(const struct placing *p);

/* Presses a key by our name of it; whether anything was to be drawn. */
bool placing_press(struct placing *p, const char *name);

/* Types a length, character by character. */
void placing_type(struct placing *p, const char *text);

/* Where the point in hand shines on the mat: the middle of its ring in the draw list. */
vec2 placing_light_in_hand(struct placing *p);

/* Nudges the point in hand until it lies where it should as well as the finest step allows; then Enter. */
void placing_nudge(struct placing *p);

/* The same for all points of the page. */
void placing_nudge_all(struct placing *p);

/* The cloth is placed so that it truly lies along the lines, the grain not measured. */
void placing_lay(struct placing *p);

/* Does a step: marks are chalked where their light falls on the cloth. */
void placing_do_step(struct placing *p);

/* All steps of the section. */
void placing_do_section(struct placing *p);

/* The cloth slides by what it is told to, and by mm and degrees besides, about the light's middle. */
void placing_slide(struct placing *p, vec2 off_mm, double off_deg);

/* The cloth is moved on the table likewise. */
void placing_push(struct placing *p, vec2 by_mm, double by_deg);

/* Where a place of the cloth really lies on the mat. */
vec2 placing_truly(const struct placing *p, vec2 cloth);

/* How far the light of the pieces to be cut falls from where they lie on the cloth, at most of all their corners; fails
 * where there is none. */
double placing_worst_off(struct placing *p);

#endif
