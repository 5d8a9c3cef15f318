/* Pieces out of a joined sheet: which lines are which size, closed outlines, what is marked and written on them; one
 * shape in every size. Everything is told as it was found, with what is doubtful marked. From it a pattern file is
 * written (write.h). Lengths in mm on the sheet. */
#ifndef LIFTING_LIFTING_H
#define LIFTING_LIFTING_H

#include "drawing/drawing.h"

enum { LIFTING_NONE = -1, LIFTING_SIZES_MOST = 100 };

/* What a strand is for. */
enum lifting_role {
    LIFTING_UNUSED, /* no part of a piece: frames, instructions, a logo */
    LIFTING_COMMON, /* of all sizes */
    LIFTING_SIZE    /* of one size (of one cup group, where there are several) */
};

/* Lines of one layer and one look (colour, dash, weight). Where the sizes are layers, a size may have several strands;
 * where there are no layers, the look alone tells them apart. */
struct lifting_strand {
    int layer; /* or DRAWING_NONE */
    uint32_t rgb;
    const double *dash_mm;
    size_t dash_count;
    double width_mm;
    bool filled; /* filled and not stroked */
    size_t line_count;
    double length_mm; /* of all its lines */
    enum lifting_role role;
    int size;           /* in the sizes, or LIFTING_NONE */
    int cup_group;      /* in the cup groups, or LIFTING_NONE: in all */
    bool sure;          /* false: guessed, the person should look */
    bool shares_colour; /* undashed, while other sizes of its colour are told by their dashes: short marks may be theirs
                         */
};

/* How a sheet is divided. Strands in the order of the layers, then as they are met. */
struct lifting_division {
    const struct lifting_strand *strands;
    size_t strand_count;
    const int *strand_of_line; /* for each line of the drawing its strand, or LIFTING_NONE: letters */
    const char *const *sizes;  /* their names, from small to large */
    size_t size_count;
    const char *const *cup_groups;
    size_t cup_group_count;
};

/* What the person says of a strand. */
struct lifting_say {
    size_t strand;
    enum lifting_role role;
    const char *size;      /* a name; a new one is added behind the others */
    const char *cup_group; /* or NULL */
};

/* Divides a joined sheet by its layers' names, else by a legend, else by lines of different looks that run beside each
 * other. What she says of strands goes before what is found. There is always a size: where none is found, all lines
 * that are used are common and the only size is “one size”. Sizes past LIFTING_SIZES_MOST are taken as common, unsure.
 * Lives in `a` and in what the drawing lives in. */
void lifting_divide(struct arena *a, const struct drawing *d, const struct lifting_say *says, size_t say_count,
                    struct lifting_division *out);

/* For each layer what its name, with those of the layers it lies in, says that it is for; in `a`. One that says nothing
 * is of all sizes. */
const enum lifting_role *lifting_layer_roles(struct arena *a, const struct drawing *d);

enum lifting_mark_kind {
    LIFTING_GRAIN,    /* two points */
    LIFTING_FOLD,     /* the edge that lies on the fold, from end to end */
    LIFTING_NOTCH,    /* one point on the outline; `apart_mm` above 0: double, its middle */
    LIFTING_DRILL,    /* one point */
    LIFTING_LENGTHEN, /* a line to lengthen or shorten at */
    LIFTING_DART,     /* three points: leg's end on the outline, apex, leg's end */
    LIFTING_STITCH,   /* a line within that runs beside the outline */
    LIFTING_INNER     /* any other line within */
};

struct lifting_mark {
    enum lifting_mark_kind kind;
    int size; /* LIFTING_NONE: the same in all sizes */
    struct sheet_path path;
    double apart_mm;
    bool is_v; /* a notch drawn as a V or triangle */
    bool sure;
};

/* What is written on a piece. */
struct lifting_words {
    const char *name;   /* or NULL */
    const char *number; /* "7", "7a"; or NULL */
    int count;          /* 0: not found */
    bool pairs;         /* count is of pairs */
    bool on_fold;
    unsigned cloths; /* bits of 1 << enum lifting_cloth */
    int counts[3];   /* by cloth where they differ: "cut 2, interfacing 1"; 0: `count` */
    bool sure;
    bool doubtful; /* read from drawn letters, of which one may be another */
};

enum lifting_cloth { LIFTING_FABRIC, LIFTING_INTERFACING, LIFTING_LINING };

/* A piece in one size. */
struct lifting_outline {
    bool there;
    struct sheet_path path; /* closed, counter-clockwise, without points twice in a row */
    double closed_over_mm;  /* the widest gap that was closed */
};

/* Why a person should look at a piece. */
enum {
    LIFTING_DOUBT_NAME = 1,   /* none was found */
    LIFTING_DOUBT_COUNT = 2,  /* the same */
    LIFTING_DOUBT_GRAIN = 4,  /* none was found: straight up */
    LIFTING_DOUBT_FOLD = 8,   /* on the fold, but which edge? */
    LIFTING_DOUBT_SIZES = 16, /* not there in every size */
    LIFTING_DOUBT_GAP = 32,   /* gaps were closed */
    LIFTING_DOUBT_MATCH = 64, /* its sizes have different corners */
    LIFTING_DOUBT_ORDER = 128, /* a larger size is smaller somewhere: sizes may be mixed up */
    LIFTING_DOUBT_TWO = 256,   /* an outline within tells a count of its own: are there two pieces? */
    LIFTING_DOUBT_READ = 512   /* its words are drawn as outlines, and a letter of them may be another */
};

struct lifting_piece {
    struct lifting_words words;
    int cup_group;                          /* LIFTING_NONE: of all */
    bool one_size;                          /* the same outline for all */
    const struct lifting_outline *outlines; /* one for each size */
    const struct lifting_mark *marks;
    size_t mark_count;
    vec2 grain; /* direction, length 1 */
    unsigned doubts;
};

struct lifting {
    const struct lifting_division *division;
    const struct lifting_piece *pieces; /* from the top left, row by row */
    size_t piece_count;
    size_t loose_count; /* lines of sizes that belong to no outline */
};

#endif
