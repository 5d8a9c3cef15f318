/* The form of a sheet result: the bytes that the reader (chalklight-sheet) hands to the program. Fixed width,
 * little-endian, offsets from the start, no pointers. The reader writes it, validate.c checks every number of it.
 *
 * It is packed: the sections follow each other in the order of enum sheet_section, each at the next multiple of 8 (the
 * gap is zero bytes), and within a section things lie in the order in which they are used, without gaps or overlaps:
 * the items of page after page, the parts of item after item, the points of part after part. So nothing can be told
 * twice, and checking it takes one pass.
 *
 * Lengths are mm on the page; a page's origin is its lower left corner, y up. */
#ifndef SHEET_FORM_H
#define SHEET_FORM_H

#include <stdint.h>

#define SHEET_MAGIC "CHLKSHT1" /* 8 bytes, without the zero */

enum { SHEET_VERSION = 1, SHEET_BUILD_BYTES = 16 };

/* No index: no layer, no text, no parent. */
#define SHEET_NONE UINT32_MAX

enum sheet_section {
    SHEET_PAGES,
    SHEET_LAYERS,
    SHEET_STYLES,
    SHEET_CLIPS,
    SHEET_ITEMS,
    SHEET_PARTS,
    SHEET_RUNS,
    SHEET_IMAGES,
    SHEET_TEXTS,
    SHEET_NOTES,
    SHEET_POINTS,
    SHEET_NUMBERS,
    SHEET_KINDS,
    SHEET_BYTES,
    SHEET_PIXELS,
    SHEET_SECTIONS
};

/* Bounds of what a sheet may hold; the reader stops at them, and the validator refuses what is beyond. */
#define SHEET_RESULT_MOST ((uint64_t)512 << 20) /* bytes of a whole result */
#define SHEET_COORDINATE_MOST 1e7               /* mm, of every length and coordinate */
enum { SHEET_PAGES_MOST = 10000, SHEET_LAYERS_MOST = 20000, SHEET_NOTES_MOST = 10000, SHEET_IMAGE_SIDE_MOST = 65535 };

struct sheet_span {
    uint64_t offset; /* bytes from the start */
    uint64_t count;  /* elements */
};

struct sheet_head {
    char magic[8];
    uint32_t version;
    uint32_t head_bytes;                 /* sizeof (struct sheet_head) */
    uint8_t build_id[SHEET_BUILD_BYTES]; /* reader and program come from one build */
    uint64_t total_bytes;
    struct sheet_span sections[SHEET_SECTIONS];
};

struct sheet_page {
    double width_mm, height_mm; /* above 0 */
    uint32_t first_item, item_count;
    uint32_t label_text; /* or SHEET_NONE */
    uint32_t reserved;
};

enum { SHEET_LAYER_ON = 1, SHEET_LAYER_LOCKED = 2, SHEET_LAYER_RADIO = 4 };

/* A tree in the order in which a person sees it: a parent stands before its children. */
struct sheet_layer {
    uint32_t parent; /* a layer before this one, or SHEET_NONE */
    uint32_t name_text;
    uint32_t flags; /* on by default, locked, one of a group of which one is on */
    uint32_t reserved;
};

enum {
    SHEET_STROKED = 1,
    SHEET_FILLED = 2,
    SHEET_EVEN_ODD = 4,
    SHEET_CLIP_PATTERN = 8, /* painted through a clip, or with a pattern or a run of colours */
    SHEET_TEXT = 16,        /* outlines of letters */
    SHEET_TRACED = 32,      /* followed in an image: lines along their middle, patches by their outline */
    SHEET_STYLE_FLAGS = 63
};

struct sheet_style {
    double width_mm; /* of a stroke; 0: as thin as can be */
    uint32_t rgb;    /* 0xRRGGBB, of the stroke if there is one, else of the fill */
    uint16_t flags, dash_count;
    uint32_t first_dash; /* into SHEET_NUMBERS, mm: dash, gap, … */
    uint32_t reserved;
};

enum {
    SHEET_CLIP_SHAPED = 1, /* what shows of it is smaller than the box, which only holds it */
    SHEET_CLIP_FLAGS = 1
};

/* What is seen of an item that is drawn through a window: all clips in force, as their common box in mm on the page. In
 * the order in which items first name them. Without width or height nothing is seen. */
struct sheet_clip {
    double x0, y0, x1, y1; /* x0 <= x1, y0 <= y1; may reach beyond the page, which clips as well */
    uint32_t flags;
    uint32_t reserved;
};

enum sheet_kind { SHEET_PATH, SHEET_RUN, SHEET_IMAGE };

/* In painting order. */
struct sheet_item {
    uint32_t kind; /* enum sheet_kind */
    uint32_t style;
    uint32_t layer; /* or SHEET_NONE */
    uint32_t page;
    uint32_t first_part, part_count; /* of a run: the outlines of its letters, if they are known */
    uint32_t text;                   /* a run's characters; else SHEET_NONE */
    uint32_t extra;                  /* into SHEET_RUNS or SHEET_IMAGES; of a path SHEET_NONE */
    uint32_t clip;                   /* or SHEET_NONE: the page alone clips it. The lines come whole all the same. */
};

/* One subpath: a point, then one for each line and three for each cubic. */
struct sheet_part {
    uint32_t first_point;
    uint32_t segment_count;
    uint32_t first_kind; /* into SHEET_KINDS, one byte a segment */
    uint32_t closed;     /* 0 or 1; the first point is not repeated for the closing line */
};

enum { SHEET_LINE, SHEET_CUBIC };

struct sheet_point {
    double x, y;
};

struct sheet_run {
    double x, y;    /* where it starts, on its baseline */
    double dx, dy;  /* the way it runs, length 1 */
    double size_mm; /* of its font */
};

struct sheet_image {
    double across[2], up[2],
        origin[2];          /* mm: its unit square stands at origin + s across + t up, t from its lowest row */
    uint32_t width, height; /* pixels, rows from the top */
    uint64_t first_byte;    /* into SHEET_PIXELS: 8 bits of grey each, 0 black */
};

/* UTF-8 in SHEET_BYTES, ended there by a zero byte that is not counted; no zero byte within. */
struct sheet_text {
    uint32_t first_byte, byte_count;
};

/* What the person is told of the file beside its drawing. */
enum sheet_note_code {
    SHEET_NOTE_NO_JAIL,     /* read without the jail: a: 1 no system call filter, 2 no file rules, or both */
    SHEET_NOTE_MENDED,      /* damaged, and read as far as it could be; text: what */
    SHEET_NOTE_HIDDEN,      /* a: how many things are hidden and of no layer, so left out */
    SHEET_NOTE_SCAN,        /* a: the page that is an image alone; b: its dots per inch, rounded */
    SHEET_NOTE_NO_SIZE,     /* the drawing does not say how large it is: taken as 96 units to the inch */
    SHEET_NOTE_LEFT_OUT,    /* text: a kind of content that was not read; a: how often */
    SHEET_NOTE_STRETCHED,   /* a: page whose drawing is stretched, across and up by different factors */
    SHEET_NOTE_PERMISSIONS, /* opened with a password that allows viewing only */
    SHEET_NOTE_CODES
};

struct sheet_note {
    uint32_t code; /* enum sheet_note_code */
    uint32_t text; /* or SHEET_NONE */
    uint32_t a, b;
};

/* Bytes of one element of each section. */
extern const uint8_t sheet_element_bytes[SHEET_SECTIONS];

/* The name of this build: of the program's version and of the form, as CMake reckons it from this file. */
void sheet_build_id(uint8_t id[SHEET_BUILD_BYTES]);

/* The next multiple of 8, where a section may start. */
uint64_t sheet_aligned(uint64_t offset);

/* Bytes of a file that is read at all. */
#define SHEET_FILE_MOST ((uint64_t)256 << 20)

/* The reader's descriptors, and how it leaves. */
enum { SHEET_FD_FILE = 3, SHEET_FD_RESULT = 4, SHEET_FD_PROGRESS = 5, SHEET_FD_ORDERS = 6, SHEET_FD_AFTER = 7 };
enum { SHEET_PASSWORD_MOST = 1024 }; /* bytes, UTF-8 */

/* Bounds of a picture's dots per inch. */
#define SHEET_DPI_LEAST 10.0
#define SHEET_DPI_MOST 10000.0

/* What the reader is asked: the first bytes through the pipe of its orders; the password follows, and the pipe's end.
 */
struct sheet_orders {
    double dpi;              /* of a picture, whatever it says itself; 0: what it says */
    uint32_t password_bytes; /* 0: none */
    uint32_t reserved;
};

enum sheet_exit {
    SHEET_EXIT_DONE = 0,
    SHEET_EXIT_NOT_A_SHEET = 10, /* no kind of file that is read */
    SHEET_EXIT_PASSWORD_NEEDED,
    SHEET_EXIT_PASSWORD_WRONG,
    SHEET_EXIT_TOO_LARGE, /* more than memory or the bounds above hold */
    SHEET_EXIT_DAMAGED,
    SHEET_EXIT_DPI_NEEDED,      /* a picture that does not say how large it is */
    SHEET_EXIT_BAD_SURROUNDINGS /* not started as sheet/start.c starts it */
};

#endif
