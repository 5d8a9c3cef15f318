/* The form kit: what can be filled in on a bench page, as a list that a page makes anew each time from what it knows.
 * The list says what stands where; `struct form_hand` is all that the kit itself remembers: where she is, what she is
 * just writing. What she did comes back as an answer; the page changes its values by it and makes the list anew. */
#ifndef FORM_FORM_H
#define FORM_FORM_H

#include "form/picture.h"
#include "input/event.h"

#include <stdbool.h>

enum form_kind {
    FORM_FIELD,   /* one line to write in */
    FORM_LIST,    /* one of several words; opens */
    FORM_TICK,    /* a box to tick, its words right of it */
    FORM_STEPPER, /* less, a value, more */
    FORM_TILES,   /* one of several, all of them seen: pictures side by side, or rows one below the other */
    FORM_TAG,     /* a paper tag to press */
    FORM_CARD     /* a large box to press, a word and a line below it */
};

enum form_state { FORM_PLAIN, FORM_FAULT, FORM_TO_DO, FORM_NOT_NOW };

struct form_item;

/* Draws one of a FORM_TILES' choices into its box; `bold` is the one that is chosen. */
typedef void form_draw_tile(struct form_picture *p, const struct form_item *item, struct bench_box box, size_t choice,
                            bool bold);

struct form_item {
    int id; /* the page's own, above 0, once on a page */
    enum form_kind kind;
    enum form_state state;
    struct bench_box box;
    double label_x;     /* where number and label begin, left of the box; 0: no label */
    const char *number; /* before the label, or NULL */
    const char *label;  /* of a tick, a tag and a card: the words in or beside it */
    const char *text;   /* what stands in it: a field, a list, a stepper; NULL: nothing yet */
    const char *unit;   /* inside at the right, or NULL */
    const char *note;  /* what is wrong, wanted or worth knowing, or NULL: right of the box, of a card below the word */
    const char *mend;  /* what to do about a fault, after the note, or NULL */
    const char *offer; /* what F4 writes into the field, or NULL */
    double note_room;  /* u right of the box; 0: the note stands below */
    double below_room; /* u that it has there; 0: to the page's right */
    double note_past;  /* u more to the right that it begins: past another box of the row */
    bool hidden;       /* scrolled out of the page: to be reached by keys, not seen */
    bool on;           /* a tick is set; a tag is the filled one */
    const char *const *choices; /* of a list and of tiles … */
    size_t choice_count;
    int chosen;               /* … and the one that is chosen, -1: none */
    size_t first, total;      /* rows that a page has scrolled past, and all there are; 0, 0: all of them are shown */
    const uint32_t *swatches; /* a list's: the colour of each choice, 0x00RRGGBB, FORM_NO_SWATCH: none; or NULL */
    size_t columns;           /* tiles side by side; 1: rows */
    double gap;               /* between tiles */
    form_draw_tile *draw_tile;
    const void *of; /* for it */
};

#define FORM_NO_SWATCH UINT32_MAX

struct form {
    struct arena *a; /* owns the list, not its texts */
    double height;   /* of the page, u: an open list stays on it */
    struct form_item *items;
    size_t count, cap;
};

struct form_item *form_add(struct form *form, struct form_item item);
const struct form_item *form_find(const struct form *form, int id);

enum { FORM_MOST_TEXT = 256 };

struct form_hand {
    int focus;    /* an item's id; 0: none */
    bool writing; /* the field's text is being changed: `text`, and the caret after so many bytes of it */
    char text[FORM_MOST_TEXT];
    size_t caret;
    bool open; /* the list is open, and she is at `at` */
    int at;
};

enum form_did {
    FORM_NOT_MINE, /* the event means nothing here */
    FORM_LOOKED,   /* the picture changes, no value does */
    FORM_WROTE,    /* a field has another text: `text` */
    FORM_CHOSE,    /* a list or tiles: `choice` */
    FORM_TICKED,   /* a tick: it is to be the other way */
    FORM_STEPPED,  /* a stepper: by `step`, -1 or 1 */
    FORM_PRESSED   /* a tag, a card, or the row that was chosen already: `choice` */
};

struct form_answer {
    enum form_did did;
    int id;
    char text[FORM_MOST_TEXT];
    int choice, step;
};

/* A key. Whatever she was writing is told when she leaves the field. */
struct form_answer form_press(const struct form *form, struct form_hand *hand, struct input_event e);

/* Ends what she is writing or choosing; a text that is another than before is told. */
struct form_answer form_leave(const struct form *form, struct form_hand *hand);

/* A press of the mouse; what she was writing elsewhere was told before by form_leave. */
struct form_answer form_point(const struct form *form, struct form_hand *hand, struct bench_pt at);

/* Where the focus is after the page has changed: on the same item while it is there, else on the first; never on what
 * is not to be used now. */
void form_settle(const struct form *form, struct form_hand *hand);

/* Draws all of it. */
void form_draw(struct form_picture *p, const struct form *form, const struct form_hand *hand);

/* The box of one tile. */
struct bench_box form_tile_box(const struct form_item *item, size_t choice);

/* An open list hangs below its field, higher where the page ends there; one that is longer than the page shows a part,
 * with her in it. */
struct form_hang {
    struct bench_box box; /* of all rows that are seen */
    size_t first, count;  /* those rows */
};

struct form_hang form_hang_of(const struct form *form, const struct form_hand *hand, const struct form_item *item);

/* One of its rows that are seen. */
struct bench_box form_row_box(const struct form_hang *hang, size_t choice);

#endif
