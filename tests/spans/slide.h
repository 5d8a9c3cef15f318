/* A person who cuts a lay span by span: she chalks the marks of the next span where the light shows them, slides the
 * cloth, not quite straight, and nudges the light onto her marks. How far the pieces' light is then from where it
 * should be, and what doubt was told. */
#ifndef TESTS_SPANS_SLIDE_H
#define TESTS_SPANS_SLIDE_H

#include "geometry/map.h"
#include "spans/spans.h"
#include "virtual_table.h"

/* Light falls where the table's map says it does, as far as the virtual table agrees; both NULL: just there. */
struct slide_light {
    const struct geometry_map *map;
    const struct vt_setup *setup;
};

struct slide_person {
    double chalk_mm;      /* sigma of a chalk mark in each coordinate */
    double eye_mm;        /* sigma of her judgement that light lies on chalk or on the fold */
    double step_mm;       /* the light moves in steps of this; 0: at will */
    bool sights_the_fold; /* at both ends of the light, too */
};

/* Who cuts what in which light. */
struct slide_work {
    const struct spans_cloth *cloth;
    struct slide_light light;
    struct slide_person person;
    struct vt_noise noise;
    struct err_list *errs;
};

/* The cloth on the table: as it lies in truth, and as the program has it. */
struct slide {
    struct geometry_motion lies, seat;
};

struct slide_outcome {
    bool is_told;          /* false: spans_sit refused */
    size_t pieces, inside; /* of the span; those of which no place is off by more than the most doubt of any of them */
    double off_mm;         /* the most that a place of them is off … */
    double doubt_mm;       /* … and the most doubt */
};

/* The first span, its near left corner at that place of the table: placed without error. */
struct slide slide_first(const struct spans_span *span, struct table_pt corner);

/* Chalks, slides to the next span, 5 mm off in any direction and half a degree about the middle of the light, nudges,
 * and sits. Pieces are where they should be when they are where the light of the span before would have them. */
struct slide_outcome slide_on(struct slide *slide, struct slide_work *work, const struct spans_span *next);

/* She has chalked the witnesses of the span; the cloth is pulled 30 mm in any direction and turned by 2 degrees; she
 * nudges and sits. Pieces are where they should be when they are where the light had them. */
struct slide_outcome slide_pulled(struct slide *slide, struct slide_work *work, const struct spans_span *span);

/* Where a place of the cloth lies in truth, and where the program has it: once slid, of what it was before. */
vec2 slide_meant(const struct slide *before, const struct slide *now, vec2 cloth);
vec2 slide_told(const struct slide *now, vec2 cloth);

/* Where the light of a place of the table falls. */
vec2 slide_falls(const struct slide_light *light, vec2 at);

#endif
