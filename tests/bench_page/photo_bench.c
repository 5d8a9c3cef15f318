/* photo_bench FILE.png WIDTHxHEIGHT PATTERN BODY [KEY …]: the bench after keys, to be looked at. A key by its name
 * ("Tab", "Ctrl Z"), "=text" to type, or "@PATH": a file that is dropped. Without any: the cautions of a
 * first start. Speaks what LANGUAGE names. */
#include "base/text.h"
#include "base/words.h"
#include "bench/bench.h"
#include "export/png.h"
#include "input/key.h"
#include "screen/bench.h"

#include <stdio.h>
#include <string.h>

static void type_text(struct bench *b, const char *text)
{
    while (*text) {
        unsigned long point = base_text_next(&text);
        bench_handle(b, (struct input_event){ .type = INPUT_KEY, .key = input_key_printing(point), .printed = point });
    }
}

static bool press(struct bench *b, const char *name)
{
    int key, mods;
    if (name[0] == '=') {
        type_text(b, name + 1);
        return true;
    }
    if (name[0] == '@') {
        bench_handle(b, (struct input_event){ .type = INPUT_DROP, .path = name + 1 });
        return true;
    }
    if (!input_key_from_name(name, &key, &mods))
        return false;
    bench_handle(b, (struct input_event){ .type = INPUT_KEY, .key = key, .mods = mods });
    return true;
}

int main(int argc, char **argv)
{
    int width, height;
    base_words_speak(base_words_of_desktop(), CHALK_WORDS);
    struct err_list *errs = base_err_list_create();
    struct screen_letters *letters = screen_letters_open(errs);
    if (argc < 5 || sscanf(argv[2], "%dx%d", &width, &height) != 2 || !letters)
        return 1;
    struct bench_start start = {
        .manner = { .unit = UNITS_CM }, .example_pattern = argv[3], .example_body = argv[4], .cautions = argc == 5
    };
    struct bench *b = bench_create(&start);
    bench_fit(b, width, height, screen_letters_at(letters, bench_scale(b, width, height)));
    for (int i = 5; i < argc; i++)
        if (!press(b, argv[i]))
            return fprintf(stderr, "no key %s\n", argv[i]), 1;
    struct arena *a = base_arena_create();
    struct paint_image image = paint_image_create(a, width, height);
    const struct form_picture *p = bench_picture(b);
    const struct form_mark *wide = form_first_too_wide(p);
    if (wide)
        fprintf(stderr, "no room for: %s\n", wide->text);
    screen_draw_bench(letters, p, &image);
    bool good = export_png(argv[1], &image, errs);
    base_arena_destroy(a);
    bench_destroy(b);
    screen_letters_close(letters);
    base_err_list_destroy(errs);
    return good ? 0 : 1;
}
