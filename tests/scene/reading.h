/* Reading a draw list: the frame it is of, and what stands where in it. Lengths are the look's own. */
#ifndef TESTS_SCENE_READING_H
#define TESTS_SCENE_READING_H

#include "scene/scene.h"
#include "support/cmocka_all.h"

#define EXACT_MM 1e-6
#define CAP_MM 14.2 /* the least cap height that carries 2 px at 1 mm a pixel */
#define NAME_MM (1.35 * CAP_MM)

enum { WIDTH = 1000, HEIGHT = 600 };

struct here {
    struct arena *a;
    struct err_list *errs;
    struct text_font *font;
};

int here_set_up(void **state);
int here_tear_down(void **state);

#define scene_test(f) cmocka_unit_test_setup_teardown((f), here_set_up, here_tear_down)

/* One millimetre a pixel, the table's origin in the frame's middle; `hung` is how the picture hangs over it. */
extern const struct hanging {
    const char *name;
    double xu, yv;
} hangings[];

enum { HANGINGS = 2 };

struct geometry_map map_of(const struct hanging *hung);

/* Her right and away, by side: near, right, far, left. At the table's right end she faces left. */
extern const vec2 rights[SCENE_SIDES], aways[SCENE_SIDES];

/* The pixels' list as it falls on the table. */
struct paint_items on_table(struct here *h, const struct paint_scene *scene, const struct hanging *hung);

bool is_at(vec2 got, vec2 want);

/* Words that were looked for in a list. */
struct found_words {
    size_t count; /* how often they stand there */
    vec2 middle;  /* of the last ones, half way along and half a capital up */
    double level; /* of their light */
    size_t item;
};

/* Looks for words (as they are written: in capitals) of that height that read along a direction. The shapes of the
 * letters are the font's; tests/text holds them against FreeType. */
struct found_words find_words(struct here *h, const struct paint_items *in, const char *capitals, double cap,
                              vec2 right);

/* What letters of words cover, as she sees it: across and away. */
struct geometry_box box_seen(const struct paint_items *in, const struct found_words *words, vec2 right, vec2 away);

/* Whether the straight way between two places runs over a box, by its places a millimetre apart. */
bool runs_over(struct geometry_box box, vec2 from, vec2 to, vec2 right, vec2 away);

#endif
