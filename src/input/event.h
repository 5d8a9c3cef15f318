/* What the outside world tells the app. */
#ifndef INPUT_EVENT_H
#define INPUT_EVENT_H

#include <stdbool.h>

enum input_type {
    INPUT_NONE,
    INPUT_KEY,    /* pressed or repeated */
    INPUT_STICKS, /* sticks of a game controller: told again and again while one is held, at rest once more */
    INPUT_EXPOSE, /* the window's picture was lost: show it again */
    INPUT_SIZE,   /* the window now has another size */
    INPUT_MOVED,  /* displays came or went, or the window is on another one now */
    INPUT_QUIT,   /* the window system asks to end */
    INPUT_POINT,  /* the mouse was pressed at x, y */
    INPUT_WHEEL,  /* turned by `steps`, away from the person above 0 */
    INPUT_DROP,   /* a file was dropped: its path is `path` */
};

/* How far a stick is held, from -1 to 1 each way; what is nearly at rest is 0. */
struct input_stick {
    double right, away; /* as the person holds it */
};

struct input_event {
    enum input_type type;
    int window;                     /* which of the windows that were asked (screen/window.h) */
    double at_s;                    /* when it came, in seconds from some fixed moment */
    int key, mods;                  /* INPUT_KEY: enum input_key (or KEY_CHAR + character), MOD_ flags */
    bool is_repeat;                 /* INPUT_KEY: not pressed again, but held since an event before */
    unsigned long printed;          /* INPUT_KEY: the very character that it wrote, 0: none or as `key` says */
    int width, height;              /* INPUT_SIZE: px */
    int x, y;                       /* INPUT_POINT: px of its window */
    int steps;                      /* INPUT_WHEEL */
    const char *path;               /* INPUT_DROP: lives until the next event is asked for */
    struct input_stick left, right; /* INPUT_STICKS … */
    double held_s;                  /* … and for how long since the event before */
};

#endif
