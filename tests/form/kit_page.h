/* Every part of the form kit in every state, on one page. Not a page of the program. */
#ifndef TEST_KIT_PAGE_H
#define TEST_KIT_PAGE_H

#include "form/form.h"

enum kit_id {
    KIT_PLAIN = 1,
    KIT_FOCUS,
    KIT_FAULT,
    KIT_TO_DO,
    KIT_NOT_NOW,
    KIT_LIST,
    KIT_NEXT,
    KIT_NOT_YET,
    KIT_TICKED,
    KIT_STEPPER,
    KIT_TILES,
    KIT_ROWS,
    KIT_TAG
};

void kit_make(struct form *form);

#endif
