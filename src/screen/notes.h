/* Notes in a plain window beside the light: what the keys do, what is going on, what is wrong. A second display shows
 * them where the first is the projector's. Nothing in them is true to scale. */
#ifndef SCREEN_NOTES_H
#define SCREEN_NOTES_H

#include "base/err_list.h"

#include <stdbool.h>

enum screen_note_style { SCREEN_NOTE_LINE, SCREEN_NOTE_HEADING, SCREEN_NOTE_TITLE, SCREEN_NOTE_WARNING };

/* One line; long texts turn to further ones. UTF-8; NULL is an empty text. */
struct screen_note_line {
    enum screen_note_style style;
    const char *text;
    const char
        *second; /* only of a SCREEN_NOTE_LINE: `text` (keys) stands left of it (what they do); NULL: all is `text` */
};

struct screen_notes;

/* Opens the window on a display other than `avoid_display` (from 0) when there is one. It is empty. The caller owns it.
 * NULL, with the reason, when it cannot. */
struct screen_notes *screen_notes_open(int avoid_display, const char *title, struct err_list *errs);

/* NULL is allowed. */
void screen_notes_close(struct screen_notes *notes);

/* False once the person has closed the window; it is still the caller's to close. */
bool screen_notes_is_open(const struct screen_notes *notes);

/* Shows these lines instead of those before; the texts are copied, and drawn again as the window changes. The same
 * lines as before draw nothing. Titles and warnings at the start run across; what follows turns to two or three columns
 * when one is too short. False when even so the last lines find no room, or when the window is closed. */
bool screen_notes_show(struct screen_notes *notes, const struct screen_note_line *lines, int count);

#endif
