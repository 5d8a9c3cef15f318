/* Sizes, looks, layers, things drawn again, text, and documents that mean harm. Sizes by CSS Values and Units 3, 5.2
 * (96 units to the inch); the rest hand-worked by SVG 1.1. */
#include "sheet_reader/read_svg.h"

#include <unistd.h>

#define SVG "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' "

/* -------------------------------------------------------------------------------------------------------------- sizes
 */

/* A line from (0, 0) to (10, 0) is `ten_mm` long on a page of that size; its start lies at x, y of it. */
struct size_row {
    const char *attributes;
    double width_mm, height_mm, ten_mm, x, y;
    uint32_t notes;
};

static const struct size_row sizes[] = {
    { "width='210mm' height='297mm' viewBox='0 0 210 297'", 210, 297, 10, 0, 297, 0 },
    { "width='21cm' height='29.7cm' viewBox='0 0 420 594'", 210, 297, 5, 0, 297, 0 },
    { "width='8.5in' height='11in'", 215.9, 279.4, 2.6458333333333, 0, 279.4, 0 },
    { "width='96' height='192px'", 25.4, 50.8, 2.6458333333333, 0, 50.8, 0 },
    { "width='72pt' height='6pc'", 25.4, 25.4, 2.6458333333333, 0, 25.4, 0 },
    { "width='101.6Q' height='101.6q'", 25.4, 25.4, 2.6458333333333, 0, 25.4, 0 },
    { "viewBox='0 0 96 48'", 25.4, 12.7, 2.6458333333333, 0, 12.7, 1 },
    { "width='100%' height='100%' viewBox='0 0 96 48'", 25.4, 12.7, 2.6458333333333, 0, 12.7, 1 },
    /* as large as the line, and 10 mm about it */
    { "", 22.6458333333333, 20, 2.6458333333333, 10, 10, 1 },
    { "width='100mm' viewBox='0 0 200 100'", 100, 50, 5, 0, 50, 0 },
    { "height='100mm' viewBox='0 0 200 100'", 200, 100, 10, 0, 100, 0 },
    { "width='100mm' height='100mm' viewBox='10 20 100 100'", 100, 100, 10, -10, 120, 0 },
    /* 200 by 100 into 100 by 100: half as large, with 50 mm left over in height */
    { "width='100mm' height='100mm' viewBox='0 0 200 100'", 100, 100, 5, 0, 75, 0 },
    { "width='100mm' height='100mm' viewBox='0 0 200 100' preserveAspectRatio='xMidYMin'", 100, 100, 5, 0, 100, 0 },
    { "width='100mm' height='100mm' viewBox='0 0 200 100' preserveAspectRatio='xMidYMax meet'", 100, 100, 5, 0, 50, 0 },
    { "width='100mm' height='100mm' viewBox='0 0 200 100' preserveAspectRatio='xMinYMid slice'", 100, 100, 10, 0, 100,
      0 },
    { "width='100mm' height='100mm' viewBox='0 0 200 100' preserveAspectRatio='xMaxYMid slice'", 100, 100, 10, -100,
      100, 0 },
    { "width='100mm' height='100mm' viewBox='0 0 200 100' preserveAspectRatio='none'", 100, 100, 5, 0, 100, 1 },
};

static void sizes_are_the_standards(void **state)
{
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        const struct size_row *row = &sizes[i];
        struct read_svg r = read_svg(base_arena_print(*state, SVG "%s><path d='M0 0H10'/></svg>", row->attributes));
        print_message("%s\n", row->attributes);
        assert_int_equal(r.exit, SHEET_EXIT_DONE);
        assert_near(r.s.pages[0].width_mm, row->width_mm, 1e-9);
        assert_near(r.s.pages[0].height_mm, row->height_mm, 1e-9);
        assert_near(r.s.points[0].x, row->x, 1e-9);
        assert_near(r.s.points[0].y, row->y, 1e-9);
        assert_near(r.s.points[1].x - r.s.points[0].x, row->ten_mm, 1e-9);
        assert_int_equal(r.s.counts[SHEET_NOTES], row->notes);
        read_svg_close(&r);
    }
}

/* -------------------------------------------------------------------------------------------------------------- looks
 */

struct look_row {
    const char *drawing;
    unsigned flags;
    uint32_t rgb;
    double width_mm;
    size_t dashes;
    double first_dash;
};

#define LINE "M0 0H9V9"
static const struct look_row looks[] = {
    { "<path d='" LINE "'/>", SHEET_FILLED, 0, 0, 0, 0 },
    { "<path d='" LINE "' fill='none' stroke='red'/>", SHEET_STROKED, 0xff0000, 1, 0, 0 },
    { "<path d='" LINE "' fill='#0f0' stroke='#0000FF' stroke-width='.5'/>", SHEET_FILLED | SHEET_STROKED, 0xff, 0.5, 0,
      0 },
    { "<path d='" LINE "' style='fill : rgb(1, 2,3) ; fill-rule:evenodd'/>", SHEET_FILLED | SHEET_EVEN_ODD, 0x010203, 0,
      0, 0 },
    { "<path d='" LINE "' fill='rgb(100%,0%,50%)'/>", SHEET_FILLED, 0xff0080, 0, 0, 0 },
    { "<path d='" LINE "' fill='LightGoldenrodYellow'/>", SHEET_FILLED, 0xfafad2, 0, 0, 0 },
    { "<path d='" LINE "' fill='url(#p) teal'/>", SHEET_FILLED | SHEET_CLIP_PATTERN, 0x008080, 0, 0, 0 },
    { "<path d='" LINE "' fill='none' stroke='currentColor' color='navy'/>", SHEET_STROKED, 0x000080, 1, 0, 0 },
    { "<g fill='none' stroke='blue' stroke-width='2'><path d='" LINE "'/></g>", SHEET_STROKED, 0xff, 2, 0, 0 },
    { "<g stroke='blue' fill='none'><path d='" LINE "' stroke='red' style='stroke:inherit'/></g>", SHEET_STROKED, 0xff,
      1, 0, 0 },
    { "<g transform='scale(3)'><path d='" LINE "' fill='none' stroke='red' stroke-dasharray='1,2'/></g>", SHEET_STROKED,
      0xff0000, 3, 2, 3 },
    /* 25.4 / 96 mm whatever the scale */
    { "<g transform='scale(3)'><path d='" LINE "' fill='none' stroke='red' vector-effect='non-scaling-stroke'/></g>",
      SHEET_STROKED, 0xff0000, 0.264583333333, 0, 0 },
    { "<path d='" LINE "' fill='none' stroke='red' stroke-dasharray='4 2 1'/>", SHEET_STROKED, 0xff0000, 1, 6, 4 },
    { "<path d='" LINE "' fill='none' stroke='red' stroke-dasharray='4 -2'/>", SHEET_STROKED, 0xff0000, 1, 0, 0 },
    { "<path d='" LINE "' fill='none' stroke='red' stroke-dasharray='0 0'/>", SHEET_STROKED, 0xff0000, 1, 0, 0 },
    { "<g stroke-dasharray='3'><path d='" LINE "' fill='none' stroke='red' stroke-dasharray='none'/></g>",
      SHEET_STROKED, 0xff0000, 1, 0, 0 },
    { "<g stroke-dasharray='3'><path d='" LINE "' fill='none' stroke='red'/></g>", SHEET_STROKED, 0xff0000, 1, 2, 3 },
    /* a sheet is stronger than an attribute, a style stronger than a sheet, "!important" stronger than all */
    { "<style>.cut{fill:none;stroke:lime}</style><path class='a cut b' d='" LINE "' stroke='red'/>", SHEET_STROKED,
      0x00ff00, 1, 0, 0 },
    { "<style>.cut{fill:none;stroke:lime}</style><path class='cut' d='" LINE "' style='stroke:blue'/>", SHEET_STROKED,
      0xff, 1, 0, 0 },
    { "<style>.cut{fill:none;stroke:lime!important}</style><path class='cut' d='" LINE "' style='stroke:blue'/>",
      SHEET_STROKED, 0x00ff00, 1, 0, 0 },
    { "<style>#x{stroke:red} .cut{stroke:lime} path{stroke:blue;fill:none}</style><path id='x' class='cut' d='" LINE
      "'/>",
      SHEET_STROKED, 0xff0000, 1, 0, 0 },
    { "<style>path.cut{stroke:lime} .cut{stroke:red} *{fill:none}</style><path class='cut' d='" LINE "'/>",
      SHEET_STROKED, 0x00ff00, 1, 0, 0 },
    { "<style>/* { */ rect, path{fill:none;stroke:red} @media print{path{stroke:blue}} @import url(a);"
      "g>path{stroke:lime} a path:hover{stroke:blue}</style><g><path d='" LINE "'/></g>",
      SHEET_STROKED, 0x00ff00, 1, 0, 0 },
    { "<style><![CDATA[ .s10 path{fill:none;stroke:#00f;stroke-dasharray:5,2} ]]></style><g class='s10'><a><path "
      "d='" LINE "'/></a></g>",
      SHEET_STROKED, 0xff, 1, 2, 5 },
    { "<style>.t path{stroke:red}</style><g><path d='" LINE "'/></g>", SHEET_FILLED, 0, 0, 0, 0 },
    /* per cent of a stroke: of the root of half the squares' sum, which is 1000 mm here */
    { "<path d='" LINE "' fill='none' stroke='red' stroke-width='0.1%'/>", SHEET_STROKED, 0xff0000, 1, 0, 0 },
    { "<path d='" LINE "' fill='none' stroke='red' font-size='4' stroke-width='.5em'/>", SHEET_STROKED, 0xff0000, 2, 0,
      0 },
};

static void looks_follow_the_cascade(void **state)
{
    size_t wrong = 0;
    for (size_t i = 0; i < sizeof looks / sizeof looks[0]; i++) {
        const struct look_row *row = &looks[i];
        struct read_svg r = read_svg(base_arena_print(*state, MM_SVG "%s</svg>", row->drawing));
        assert_int_equal(r.s.counts[SHEET_ITEMS], 1);
        const struct sheet_style *style = &r.s.styles[r.s.items[0].style];
        if (style->flags != row->flags || style->rgb != row->rgb || fabs(style->width_mm - row->width_mm) > 1e-9 ||
            style->dash_count != row->dashes ||
            (row->dashes && fabs(r.s.numbers[style->first_dash] - row->first_dash) > 1e-9)) {
            print_error("%s\n  got flags %u, %06x, %g mm, %u dashes\n", row->drawing, style->flags, style->rgb,
                        style->width_mm, style->dash_count);
            wrong++;
        }
        read_svg_close(&r);
    }
    assert_int_equal(wrong, 0);
}

/* ------------------------------------------------------------------------------------------------------------- layers
 */

static void named_groups_are_layers(void **state)
{
    (void)state;
    struct read_svg r = read_svg(MM_SVG "<path d='" LINE "'/>"
                                        "<g id='sizes'><g><title> Size\n 10 </title><path d='" LINE "'/></g>"
                                        "<g id='g12' style='display:none'><g><path d='" LINE "'/></g></g></g>"
                                        "<g><path d='" LINE "'/></g></svg>");
    assert_int_equal(r.s.counts[SHEET_LAYERS], 3);
    assert_string_equal(sheet_text_at(&r.s, r.s.layers[0].name_text), "sizes");
    assert_string_equal(sheet_text_at(&r.s, r.s.layers[1].name_text), "Size 10");
    assert_string_equal(sheet_text_at(&r.s, r.s.layers[2].name_text), "g12");
    assert_int_equal(r.s.layers[0].parent, SHEET_NONE);
    assert_int_equal(r.s.layers[1].parent, 0);
    assert_int_equal(r.s.layers[2].parent, 0);
    assert_int_equal(r.s.layers[1].flags, SHEET_LAYER_ON);
    assert_int_equal(r.s.layers[2].flags, 0);
    static const uint32_t of_items[] = { SHEET_NONE, 1, 2, SHEET_NONE };
    assert_int_equal(r.s.counts[SHEET_ITEMS], 4);
    for (size_t i = 0; i < 4; i++)
        assert_int_equal(r.s.items[i].layer, of_items[i]);
    assert_int_equal(r.s.counts[SHEET_NOTES], 0);
    read_svg_close(&r);
}

static void what_is_hidden_is_counted(void **state)
{
    (void)state;
    struct read_svg r = read_svg(MM_SVG "<g display='none'><path d='" LINE "'/><path d='" LINE "'/></g>"
                                        "<path d='" LINE "' visibility='hidden'/><path d='" LINE "' opacity='0'/>"
                                        "<g visibility='hidden'><path d='" LINE "' visibility='visible'/></g></svg>");
    assert_int_equal(r.s.counts[SHEET_ITEMS], 1);
    assert_int_equal(r.s.counts[SHEET_NOTES], 1);
    assert_int_equal(r.s.notes[0].code, SHEET_NOTE_HIDDEN);
    assert_int_equal(r.s.notes[0].a, 3);
    read_svg_close(&r);
}

static void what_is_left_out_is_told(void **state)
{
    (void)state;
    struct read_svg r = read_svg(MM_SVG "<image width='9' height='9'/><image/><defs><path d='" LINE "'/></defs>"
                                        "<clipPath id='c'><path d='" LINE "'/></clipPath><use href='#no'/></svg>");
    assert_int_equal(r.s.counts[SHEET_ITEMS], 0);
    assert_int_equal(r.s.counts[SHEET_NOTES], 2);
    assert_string_equal(sheet_text_at(&r.s, r.s.notes[0].text), "image");
    assert_int_equal(r.s.notes[0].a, 2);
    assert_string_equal(sheet_text_at(&r.s, r.s.notes[1].text), "use");
    read_svg_close(&r);
}

/* ------------------------------------------------------------------------------------------------------------- images
 */

/* 120 by 60 dots with a block of ink, 60 by 40, its lower left corner at 20, 10 (tests/fuzz/seeds/picture/block.png).
 */
#define BLOCK                                                                                                          \
    "data:image/"                                                                                                      \
    "png;base64,iVBORw0KGgoAAAANSUhEUgAAAHgAAAA8CAAAAACIxiF0AAAACXBIWXMAABcSAAAXEgFnn9JSAAAAOklEQVR4nO3NQRUA"          \
    "IAgFsN+/NHZQnnDYCiw1JGKxWNwa54FYLBaLxWKxWCwWi8VisVi8Jf5BLBaLrx3bdq5PGJ2kpwAAAABJRU5ErkJggg=="

struct image_row {
    const char *drawing;
    double left, top, right, low; /* of the picture in the drawing, y down */
    size_t items, traced;
};

static const struct image_row images[] = {
    { "<path d='" LINE "'/><image x='10' y='20' width='240' height='120' href='" BLOCK "'/>", 10, 20, 250, 140, 2, 0 },
    { "<image href='" BLOCK "'/><path d='" LINE "'/>", 0, 0, 120, 60, 2, 0 },
    { "<image transform='scale(2)' xlink:href='" BLOCK "' xmlns:xlink='http://www.w3.org/1999/xlink'/>", 0, 0, 240, 120,
      2, 1 },
    /* fitted: half as high as it is wide */
    { "<image width='240' height='240' href='" BLOCK "'/>", 0, 60, 240, 180, 2, 1 },
    { "<image width='240' height='240' preserveAspectRatio='none' href='" BLOCK "'/>", 0, 0, 240, 240, 2, 1 },
};

static void images_have_a_place(void **state)
{
    for (size_t i = 0; i < sizeof images / sizeof images[0]; i++) {
        const struct image_row *row = &images[i];
        struct read_svg r = read_svg(base_arena_print(*state, MM_SVG "%s</svg>", row->drawing));
        print_message("row %zu\n", i);
        assert_int_equal(r.s.counts[SHEET_ITEMS], row->items);
        assert_int_equal(r.s.counts[SHEET_IMAGES], 1);
        const struct sheet_image *m = &r.s.images[0];
        assert_near(m->origin[0], row->left, 1e-9);
        assert_near(m->origin[1], 1000 - row->low, 1e-9);
        assert_near(m->across[0], row->right - row->left, 1e-9);
        assert_near(m->up[1], row->low - row->top, 1e-9);
        assert_int_equal(r.s.counts[SHEET_NOTES], row->traced);
        if (row->traced) {
            const struct sheet_point *p = &r.s.points[r.s.parts[r.s.items[1].first_part].first_point];
            double dot = (row->right - row->left) / 120, high = (row->low - row->top) / 60;
            assert_int_equal(r.s.notes[0].code, SHEET_NOTE_SCAN);
            assert_int_equal(r.s.styles[r.s.items[1].style].flags, SHEET_FILLED | SHEET_TRACED);
            assert_true(p->x >= row->left + 19 * dot && p->x <= row->left + 81 * dot);
            assert_true(p->y >= 1000 - row->low + 9 * high && p->y <= 1000 - row->low + 51 * high);
        }
        read_svg_close(&r);
    }
}

static void images_elsewhere_are_told(void **state)
{
    static const char *const addresses[] = { "a.png",
                                             "file:///etc/passwd",
                                             "data:image/png,abc",
                                             "data:image/png;base64,",
                                             "data:image/png;base64,iVBORw0KGgo=",
                                             "data:;base64,iVBO",
                                             "data:text/plain;base64,aGVsbG8=" };
    for (size_t i = 0; i < sizeof addresses / sizeof addresses[0]; i++) {
        struct read_svg r =
            read_svg(base_arena_print(*state, MM_SVG "<image width='9' height='9' href='%s'/></svg>", addresses[i]));
        assert_int_equal(r.s.counts[SHEET_ITEMS], 0);
        assert_int_equal(r.s.counts[SHEET_NOTES], 1);
        assert_string_equal(sheet_text_at(&r.s, r.s.notes[0].text), "image");
        read_svg_close(&r);
    }
}

/* -------------------------------------------------------------------------------------------------------- drawn again
 */

struct again_row {
    const char *drawing, *drawn;
};

static const struct again_row agains[] = {
    { "<defs><path id='p' d='M1 2L3 4'/></defs><use href='#p' x='10' y='20'/>", "M 11 22 L 13 24" },
    { "<defs><path id='p' d='M1 2L3 4' transform='scale(2)'/></defs>"
      "<use xlink:href='#p' x='10' transform='scale(3)'/>",
      "M 36 12 L 48 24" },
    { "<symbol id='s' viewBox='0 0 10 10'><path d='M1 2L3 4'/></symbol><use href='#s' width='100' height='100'/>",
      "M 10 20 L 30 40" },
    { "<symbol id='s'><path d='M1 2L3 4'/></symbol><use href='#s' x='5'/>", "M 6 2 L 8 4" },
    { "<defs><g id='a'><use href='#b' x='1'/></g><path id='b' d='M1 2L3 4'/></defs><use href='#a' y='1'/>",
      "M 2 3 L 4 5" },
    { "<svg x='10' y='20' width='100' height='50' viewBox='0 0 10 10'><path d='M0 0L1 1'/></svg>", "M 35 20 L 40 25" },
    { "<svg x='10' y='20'><rect width='50%' height='1'/></svg>", "M 10 20 L 510 20 L 510 21 L 10 21 Z" },
    { "<switch><path requiredExtensions='x' d='M5 5L6 6'/><path d='M1 2L3 4'/><path d='M7 7L8 8'/></switch>",
      "M 1 2 L 3 4" },
};

static void things_are_drawn_again(void **state)
{
    size_t wrong = 0;
    for (size_t i = 0; i < sizeof agains / sizeof agains[0]; i++) {
        struct read_svg r = read_svg(base_arena_print(
            *state, SVG "width='1000mm' height='1000mm' viewBox='0 0 1000 1000'>%s</svg>", agains[i].drawing));
        const char *got = r.s.counts[SHEET_ITEMS] == 1 ? drawn_text(*state, &r.s, &r.s.items[0]) : "not one item";
        if (strcmp(got, agains[i].drawn) != 0) {
            print_error("%s\n  want %s\n  got  %s\n", agains[i].drawing, agains[i].drawn, got);
            wrong++;
        }
        read_svg_close(&r);
    }
    assert_int_equal(wrong, 0);
}

/* --------------------------------------------------------------------------------------------------------------- clips
 */

struct clip_row {
    const char *drawing;
    double x0, y0, x1, y1; /* of the drawing, y down; all 0: none */
    uint32_t shaped;       /* 2: its box is not known */
    uint32_t left_out;
};

#define CLIP(inside) "<clipPath id='c'>" inside "</clipPath>"
static const struct clip_row clips[] = {
    { "<path d='" LINE "'/>", 0, 0, 0, 0, 0, 0 },
    { CLIP("<rect x='10' y='20' width='30' height='40'/>") "<path d='" LINE "' clip-path='url(#c)'/>", 10, 20, 40, 60,
      0, 0 },
    { CLIP("<rect x='10' y='20' width='30' height='40'/>") "<g style='clip-path : url( \"#c\" )'><path d='" LINE
                                                           "'/></g>",
      10, 20, 40, 60, 0, 0 },
    { "<style>.k{clip-path:url('#c')}</style>" CLIP("<path d='M10 20V60H40V20z'/>") "<path class='k' d='" LINE "'/>",
      10, 20, 40, 60, 0, 0 },
    { CLIP("<path d='M10 20V60H40V20z'/>") "<path transform='translate(5)scale(2)' d='" LINE "' clip-path='url(#c)'/>",
      25, 40, 85, 120, 0, 0 },
    { "<clipPath id='c' transform='translate(1 2)'><rect x='10' y='20' width='30' height='40' transform='scale(2)'/>"
      "</clipPath><path d='" LINE "' clip-path='url(#c)'/>",
      21, 42, 81, 122, 0, 0 },
    { CLIP("<circle cx='50' cy='60' r='20'/>") "<path d='" LINE "' clip-path='url(#c)'/>", 30, 40, 70, 80, 1, 0 },
    { CLIP("<rect x='10' y='20' width='30' height='40' rx='5'/>") "<path d='" LINE "' clip-path='url(#c)'/>", 10, 20,
      40, 60, 1, 0 },
    { CLIP("<rect width='10' height='10'/><rect x='20' y='30' width='10' height='10'/>"
           "<rect width='99' height='99' display='none'/>") "<path d='" LINE "' clip-path='url(#c)'/>",
      0, 0, 30, 40, 1, 0 },
    { "<defs><rect id='r' width='10' height='20'/></defs>" CLIP(
          "<use href='#r' x='3' y='4'/>") "<text y='9' "
                                          "clip-path='url(#c)'>cut 2</text>",
      3, 4, 13, 24, 0, 0 },
    { "<g clip-path='url(#c)'><g clip-path='url(#d)'><path d='" LINE "'/></g></g>" CLIP(
          "<rect width='50' height='50'/>") "<clipPath id='d'><rect x='20' y='10' width='99' height='99'/></clipPath>",
      20, 10, 50, 50, 0, 0 },
    { "<path d='" LINE
      "' clip-path='url(#d)'/>" CLIP("<rect width='50' height='50'/>") "<clipPath id='d' "
                                                                       "clip-path='url(#c)'><rect x='20' y='10' "
                                                                       "width='99' height='99'/></clipPath>",
      20, 10, 50, 50, 0, 0 },
    { CLIP("") "<path d='" LINE "' clip-path='url(#c)'/>", 1e7, 1e7, 1e7, 1e7, 2, 0 },
    { CLIP("<rect width='50' height='50'/>") "<g clip-path='url(#c)'><path d='" LINE "' clip-path='none'/></g>", 0, 0,
      50, 50, 0, 0 },
    { CLIP("<text>A</text>") "<path d='" LINE "' clip-path='url(#c)'/>", 0, 0, 0, 0, 2, 0 },
    { "<clipPath id='c' clipPathUnits='objectBoundingBox'><rect width='1' height='1'/></clipPath><path d='" LINE
      "' clip-path='url(#c)'/>",
      0, 0, 0, 0, 2, 1 },
    { "<path d='" LINE "' clip-path='circle(50%)'/>", 0, 0, 0, 0, 2, 1 },
    { "<path d='" LINE "' clip-path='url(#no)'/>", 0, 0, 0, 0, 2, 1 },
    { "<mask id='m'><rect width='5' height='5'/></mask><path d='" LINE "' mask='url(#m)'/>", 0, 0, 0, 0, 2, 1 },
    { "<clipPath id='c' clip-path='url(#c)'><rect width='5' height='5'/></clipPath><path d='" LINE
      "' clip-path='url(#c)'/>",
      0, 0, 5, 5, 1, 2 },
    { "<svg x='10' y='20' width='100' height='50' viewBox='0 0 10 10'><path d='" LINE "'/></svg>", 10, 20, 110, 70, 0,
      0 },
    { "<svg x='10' y='20' width='100' height='50' overflow='visible'><path d='" LINE "'/></svg>", 0, 0, 0, 0, 0, 0 },
    { "<symbol id='s' viewBox='0 0 10 10'><path d='" LINE "'/></symbol><use href='#s' x='1' width='100' height='100'/>",
      1, 0, 101, 100, 0, 0 },
};

static bool clip_fits(const struct read_svg *r, const struct clip_row *row)
{
    const struct sheet_item *item = &r->s.items[0];
    if (r->s.counts[SHEET_ITEMS] != 1 || r->s.counts[SHEET_NOTES] != (row->left_out > 0 ? row->left_out : 0))
        return false;
    if (item->clip == SHEET_NONE)
        return row->x1 == 0 && row->shaped == 0;
    const struct sheet_clip *c = &r->s.clips[item->clip];
    if (row->shaped == 2 && row->x0 == 0) /* nothing is known of it */
        return c->x0 == -1e7 && c->y1 == 1e7 && c->flags == SHEET_CLIP_SHAPED;
    if (row->shaped == 2) /* nothing is seen */
        return c->x0 == c->x1 && c->y0 == c->y1;
    return fabs(c->x0 - row->x0) < 1e-9 && fabs(c->x1 - row->x1) < 1e-9 && fabs(1000 - c->y1 - row->y0) < 1e-9 &&
           fabs(1000 - c->y0 - row->y1) < 1e-9 && c->flags == row->shaped;
}

/* Hand-worked by SVG 1.1, 14.3; the line itself comes whole. */
static void what_is_seen_is_known(void **state)
{
    size_t wrong = 0;
    for (size_t i = 0; i < sizeof clips / sizeof clips[0]; i++) {
        struct read_svg r = read_svg(base_arena_print(*state, MM_SVG "%s</svg>", clips[i].drawing));
        if (!clip_fits(&r, &clips[i])) {
            const struct sheet_item *item = r.s.items;
            const struct sheet_clip none = { 0 }, *c = item->clip == SHEET_NONE ? &none : &r.s.clips[item->clip];
            print_error("%s\n  got %g %g %g %g, %u, %zu notes\n", clips[i].drawing, c->x0, 1000 - c->y1, c->x1,
                        1000 - c->y0, c->flags, r.s.counts[SHEET_NOTES]);
            wrong++;
        }
        read_svg_close(&r);
    }
    assert_int_equal(wrong, 0);
}

/* --------------------------------------------------------------------------------------------------------------- text
 */

static void text_comes_in_runs(void **state)
{
    (void)state;
    struct read_svg r = read_svg(MM_SVG "<text x='10' y='20' font-size='5'> Front \n <tspan fill='red'>body</tspan>"
                                        "<tspan x='10' dy='6'>cut 2</tspan></text>"
                                        "<text transform='rotate(90)' x='1' y='2' font-size='2'>größe</text>"
                                        "<text> </text></svg>");
    assert_int_equal(r.s.counts[SHEET_RUNS], 3);
    assert_string_equal(sheet_text_at(&r.s, r.s.items[0].text), "Front body");
    assert_string_equal(sheet_text_at(&r.s, r.s.items[1].text), "cut 2");
    assert_string_equal(sheet_text_at(&r.s, r.s.items[2].text), "größe");
    assert_near(r.s.runs[0].x, 10, 1e-9);
    assert_near(r.s.runs[0].y, 980, 1e-9);
    assert_near(r.s.runs[0].dx, 1, 1e-9);
    assert_near(r.s.runs[0].size_mm, 5, 1e-9);
    assert_near(r.s.runs[1].y, 974, 1e-9);
    assert_near(r.s.runs[2].x, -2, 1e-9); /* a quarter turn clockwise on the screen: (1, 2) to (-2, 1) */
    assert_near(r.s.runs[2].y, 999, 1e-9);
    assert_near(r.s.runs[2].dy, -1, 1e-9);
    assert_int_equal(r.s.styles[r.s.items[0].style].flags, SHEET_FILLED | SHEET_TEXT);
    read_svg_close(&r);
}

/* ------------------------------------------------------------------------------------------------- damaged, or hostile
 */

static void a_torn_drawing_is_read_as_far_as_it_goes(void **state)
{
    (void)state;
    struct read_svg r = read_svg(MM_SVG "<path d='" LINE "'/><path d='M1 1");
    assert_int_equal(r.exit, SHEET_EXIT_DONE);
    assert_int_equal(r.s.counts[SHEET_ITEMS], 1);
    assert_int_equal(r.s.notes[0].code, SHEET_NOTE_MENDED);
    read_svg_close(&r);
}

static void what_is_no_drawing_is_told(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        enum sheet_exit exit;
    } rows[] = {
        { "", SHEET_EXIT_DAMAGED },
        { "<", SHEET_EXIT_DAMAGED },
        { "<html><svg/></html>", SHEET_EXIT_NOT_A_SHEET },
        { SVG "width='1e11mm' height='1mm'/>", SHEET_EXIT_DAMAGED },
        { MM_SVG "<path d='M0 0L1e9 0' transform='scale(1e9)'/></svg>", SHEET_EXIT_DAMAGED },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_int_equal(read_svg(rows[i].text).exit, rows[i].exit);
}

static void nothing_else_is_read(void **state)
{
    struct room *room = *state;
    const char *secret = room_put(room, "secret", "M1 2L3 4");
    struct read_svg r = read_svg(base_arena_print(
        room->a,
        "<!DOCTYPE svg SYSTEM 'file://%s' [<!ENTITY e SYSTEM 'file://%s'><!ENTITY f 'M1 2L3 4'>]>" MM_SVG
        "<text>&e;</text><path d='M0 0L1 1'/></svg>",
        secret, secret));
    assert_int_equal(r.exit, SHEET_EXIT_DONE);
    assert_int_equal(r.s.counts[SHEET_ITEMS], 1);
    assert_int_equal(r.s.counts[SHEET_RUNS], 0);
    read_svg_close(&r);
}

/* Ten uses of ten uses, eight deep: 100 million lines from a kilobyte. */
static void uses_of_uses_come_to_an_end(void **state)
{
    struct base_buffer out = { .a = *state };
    base_buffer_print(&out, MM_SVG "<defs><path id='u0' d='M0 0L1 1'/>");
    for (int i = 1; i <= 8; i++) {
        base_buffer_print(&out, "<g id='u%d'>", i);
        for (int k = 0; k < 10; k++)
            base_buffer_print(&out, "<use href='#u%d'/>", i - 1);
        base_buffer_print(&out, "</g>");
    }
    base_buffer_print(&out, "</defs><use href='#u8'/></svg>");
    assert_int_equal(read_svg(base_buffer_text(&out)).exit, SHEET_EXIT_TOO_LARGE);
}

static void a_use_of_itself_comes_to_an_end(void **state)
{
    (void)state;
    struct read_svg r = read_svg(MM_SVG "<g id='a'><use href='#a'/><path d='" LINE "'/></g></svg>");
    assert_int_equal(r.exit, SHEET_EXIT_DONE);
    assert_int_equal(r.s.counts[SHEET_LAYERS], 1);
    assert_int_equal(r.s.notes[0].code, SHEET_NOTE_LEFT_OUT);
    read_svg_close(&r);
}

static void entities_do_not_multiply(void **state)
{
    (void)state;
    struct read_svg r = read_svg("<!DOCTYPE svg [<!ENTITY a 'aaaaaaaaaa'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;'>"
                                 "<!ENTITY c '&b;&b;&b;&b;&b;&b;&b;&b;'><!ENTITY d '&c;&c;&c;&c;&c;&c;&c;&c;'>"
                                 "<!ENTITY e '&d;&d;&d;&d;&d;&d;&d;&d;'><!ENTITY f '&e;&e;&e;&e;&e;&e;&e;&e;'>]>" MM_SVG
                                 "<text>&f;&f;&f;</text><path id='&f;&f;&f;&f;&f;' d='" LINE "'/></svg>");
    assert_true(r.exit == SHEET_EXIT_DONE || r.exit == SHEET_EXIT_DAMAGED);
    assert_true(r.s.counts[SHEET_BYTES] < 100000);
    read_svg_close(&r);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(sizes_are_the_standards),
        room_arena_test(looks_follow_the_cascade),
        cmocka_unit_test(named_groups_are_layers),
        cmocka_unit_test(what_is_hidden_is_counted),
        cmocka_unit_test(what_is_left_out_is_told),
        room_arena_test(things_are_drawn_again),
        room_arena_test(what_is_seen_is_known),
        room_arena_test(images_have_a_place),
        room_arena_test(images_elsewhere_are_told),
        cmocka_unit_test(text_comes_in_runs),
        cmocka_unit_test(a_torn_drawing_is_read_as_far_as_it_goes),
        cmocka_unit_test(what_is_no_drawing_is_told),
        room_test(nothing_else_is_read),
        room_arena_test(uses_of_uses_come_to_an_end),
        cmocka_unit_test(a_use_of_itself_comes_to_an_end),
        cmocka_unit_test(entities_do_not_multiply),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
