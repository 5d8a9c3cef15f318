/* What the outside world tells the app. */
#ifndef INPUT_EVENT_H
#define INPUT_EVENT_H

enum input_type {
    INPUT_NONE,
    INPUT_KEY,    /* pressed or repeated */
    INPUT_EXPOSE, /* the window's picture was lost: show it again */
    INPUT_SIZE,   /* the window now has another size */
    INPUT_MOVED,  /* displays came or went, or the window is on another one now */
    INPUT_QUIT,   /* the window system asks to end */
};

struct input_event {
    enum input_type type;
    int key, mods;     /* INPUT_KEY: enum input_key (or KEY_CHAR + character), MOD_ flags */
    int width, height; /* INPUT_SIZE: px */
};

#endif
