/* photo_form FILE.png WIDTHxHEIGHT [night]: the form kit as it looks, to be looked at. */
#include "bench/frame.h"
#include "export/png.h"
#include "form/kit_page.h"
#include "screen/bench.h"

#include <stdio.h>
#include <string.h>

static const struct form_key window_keys[] = {
    { "F2", "inches" }, { "F3", "night" }, { "F1", "help" }, { "F12", "to the table" }
};
static const struct form_key keys[] = {
    { "Tab", "next" }, { "Shift Tab", "back" }, { "Space", "tick" }, { "Ctrl Z", "undo" }
};

static const struct bench_frame frame = {
    .job = "Guide’s pinafore",
    .whose = "lamp-room guide",
    .lines = { { "Measurements", "7 taken", BENCH_DONE, FORM_PLAIN },
               { "Pattern and size", "width to mend", BENCH_NOT_BEGUN, FORM_FAULT },
               { "Cloth", "waits for the width", BENCH_TO_DO, FORM_TO_DO },
               { "Layout", NULL, BENCH_NOT_BEGUN, FORM_PLAIN },
               { "Table set-up", NULL, BENCH_NOT_BEGUN, FORM_PLAIN },
               { "Placing", NULL, BENCH_NOT_BEGUN, FORM_PLAIN },
               { "Cut and mark", NULL, BENCH_NOT_BEGUN, FORM_PLAIN },
               { "Done", NULL, BENCH_NOT_BEGUN, FORM_PLAIN } },
    .here = 1,
    .title = "The form kit",
    .sentence = "Every part in every state, for whoever codes it. Not a page of the program.",
    .keys = keys,
    .key_count = 4,
    .window_keys = window_keys,
    .window_key_count = 4,
};

int main(int argc, char **argv)
{
    int width, height;
    struct err_list *errs = base_err_list_create();
    struct screen_letters *letters = screen_letters_open(errs);
    if (argc < 3 || sscanf(argv[2], "%dx%d", &width, &height) != 2 || !letters)
        return 1;
    struct arena *a = base_arena_create();
    double scale = form_scale(width, height, 0);
    struct form_picture p = form_picture_create(a, screen_letters_at(letters, scale), width, height, scale, argc > 3);
    struct form form = { .a = a, .height = form_page_height(&p) };
    struct form_hand hand = {
        .focus = argc > 4 ? KIT_LIST : KIT_FOCUS, .writing = argc <= 4, .text = "150", .caret = 3, .open = argc > 4
    };
    kit_make(&form);
    bench_draw_frame(&p, &frame);
    bench_draw_knot(&p, 217);
    size_t first = p.count;
    form_draw(&p, &form, &hand);
    const char *strong = "A slip asks.", *sentence = "It never covers the page and never waits for an answer.";
    struct bench_frame told = frame;
    told.slip = bench_slip_box(&p, first, strong, sentence);
    form_slip(&p, told.slip, strong, sentence);
    bench_draw_title(&p, &told);
    struct paint_image image = paint_image_create(a, width, height);
    screen_draw_bench(letters, &p, &image);
    return export_png(argv[1], &image, errs) ? 0 : 1;
}
