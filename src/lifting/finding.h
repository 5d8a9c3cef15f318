/* The lines of one shape while it is found out what they mark. Each finder takes the lines that it knows and leaves the
 * others. Inside lifting alone. */
#ifndef LIFTING_FINDING_H
#define LIFTING_FINDING_H

#include "drawing/phrases.h"
#include "lifting/marks.h"
#include "lifting/near.h"

enum { LIFTING_CORNERS_MOST = 24 };

/* A line that may be, or be part of, a mark. */
struct lifting_stroke {
    size_t line;
    int size; /* LIFTING_NONE: of all */
    struct geometry_path path;
    struct geometry_box box;
    double length_mm;
    bool filled, alone; /* alone: nothing else was painted with it */
    bool taken;
    size_t corner_count;                /* 0: more than can be, a curve */
    vec2 corners[LIFTING_CORNERS_MOST]; /* its points without those that lie on the way between others */
};

/* A text that says something of a line. */
struct lifting_saying {
    enum lifting_said said;
    bool counts; /* “cut 1 on fold”: of the piece rather than of a line */
    vec2 middle, along;
    double size_mm;
};

struct lifting_bracket;

struct lifting_finding {
    struct arena *a;
    const struct drawing *d;
    const struct lifting_division *division;
    const struct lifting_shape *shape;
    const struct lifting_words *words;
    struct lifting_near **near; /* of each size's outline; NULL: not there */
    struct lifting_stroke *strokes;
    size_t stroke_count;
    struct lifting_saying *sayings;
    size_t saying_count;
    struct lifting_bracket *brackets; /* of the fold */
    size_t bracket_count;
    struct lifting_mark *marks;
    size_t mark_count, mark_cap;
    vec2 grain; /* null: none was found */
    bool grain_sure;
    unsigned doubts;
};

/* The finders, in the order in which they look. */
void lifting_find_drills(struct lifting_finding *m);
void lifting_find_brackets(struct lifting_finding *m);
void lifting_find_lengthen(struct lifting_finding *m);
void lifting_find_grain(struct lifting_finding *m);
void lifting_find_notches(struct lifting_finding *m);
void lifting_find_darts(struct lifting_finding *m);
void lifting_find_fold(struct lifting_finding *m);

/* Adds a mark with its points copied. */
struct lifting_mark *lifting_put_mark(struct lifting_finding *m, enum lifting_mark_kind kind, int size,
                                      const vec2 *points, size_t count);

/* Between its two ends nothing but a straight line. */
bool lifting_is_straight(const struct lifting_stroke *s);

/* Longest way across its box. */
double lifting_stroke_reach(const struct lifting_stroke *s);

/* The first size that has an outline where a line of that size lies; of all: the first that is there. LIFTING_NONE:
 * none. */
int lifting_outline_for(const struct lifting_finding *m, int size);

/* mm from a point to the line between two. */
double lifting_off_line(vec2 at, vec2 a, vec2 b);

/* Points sorted to be found again: those within `reach` of a place are visited. */
struct lifting_spot {
    vec2 at;
    size_t of; /* what the caller makes of it */
};

struct lifting_spots {
    struct lifting_spot *items;
    size_t count;
};

/* Both ends of all straight lines that none has taken. */
struct lifting_spots lifting_ends_of_straights(const struct lifting_finding *m);

void lifting_sort_spots(struct lifting_spots *spots);

/* The next spot within `reach` of `at`, from *cursor (0 at first) on; NULL when there are no more. */
const struct lifting_spot *lifting_next_spot(const struct lifting_spots *spots, vec2 at, double reach, size_t *cursor);

#endif
