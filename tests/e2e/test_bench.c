/* The bench in its window, from nothing to a ticket with a layout, by keys alone and by the mouse: what the window
 * shows is compared with a twin that is told the same, what is kept with the twin's job. It is killed at random
 * moments, and goes on with all that had been shown.
 *
 * test_bench CHALKLIGHT KILLS */
#include "base/file.h"
#include "base/hold.h"
#include "bench/bench.h"
#include "e2e/watch.h"
#include "geometry/random.h"
#include "input/key.h"
#include "screen/bench.h"
#include "support/room.h"

#include <X11/Xutil.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

enum { WIDTH = 1024, HEIGHT = 600, LOOKS = 3000, LOOK_AGAIN_US = 10000, BURST_MS = 400 };

static const char *program;
static int kills;

struct here {
    struct room room;
    struct watch watch;
    struct screen_letters *letters;
    struct bench *twin;
    const char *ticket; /* where the first one is kept */
};

/* --- the twin ------------------------------------------------------------------------------------------------------
 */

static void begin_twin(struct here *h, const char *recent)
{
    struct bench_start start = { .manner = { .unit = UNITS_CM },
                                 .recent = recent,
                                 .tickets = room_path(&h->room, "data/chalklight/tickets"),
                                 .example_pattern = DEMO_FOLDER "/pinafore.json",
                                 .example_body = DEMO_FOLDER "/guide.json" };
    bench_destroy(h->twin);
    h->twin = bench_create(&start);
    bench_fit(h->twin, WIDTH, HEIGHT, screen_letters_at(h->letters, bench_scale(h->twin, WIDTH, HEIGHT)));
}

/* SDL writes into the byte beside the colour as well. */
static struct paint_image twin_image(struct here *h, struct arena *a)
{
    struct paint_image image = paint_image_create(a, WIDTH, HEIGHT);
    screen_draw_bench(h->letters, bench_picture(h->twin), &image);
    for (size_t i = 0; i < (size_t)HEIGHT * image.stride; i++)
        image.pixels[i] &= 0xffffff;
    return image;
}

static void window_shows_the_twin(struct here *h, const char *what)
{
    struct arena *a = base_arena_create();
    struct paint_image image = twin_image(h, a);
    watch_for_picture(&h->watch, &image, what);
    base_arena_destroy(a);
}

static const char *twin_text(struct here *h)
{
    return job_print(h->room.a, bench_job(h->twin));
}

static const char *kept_text(struct here *h)
{
    struct base_bytes bytes;
    assert_true(base_file_read(h->room.a, h->ticket, 1 << 24, &bytes, h->room.errs));
    return bytes.data;
}

/* --- keys and the mouse, at the window and at the twin --------------------------------------------------------------
 */

static void tell_twin(struct here *h, const char *our_name)
{
    struct input_event e = { .type = INPUT_KEY };
    assert_true(input_key_from_name(our_name, &e.key, &e.mods));
    bench_handle(h->twin, e);
}

/* Names with semicolons between. */
static void press(struct here *h, const char *our_names)
{
    while (*our_names) {
        size_t count = strcspn(our_names, ";");
        const char *name = base_arena_copy_bytes(h->room.a, our_names, count);
        tell_twin(h, name);
        x_client_press(watch_key_name(h->room.a, name));
        our_names += count + (our_names[count] == ';');
    }
}

static void write_text(struct here *h, const char *text)
{
    for (; *text; text++)
        press(h, base_arena_copy_bytes(h->room.a, text, 1));
}

static const struct form_mark *find_mark(struct here *h, const char *text)
{
    const struct form_picture *p = bench_picture(h->twin);
    const struct form_mark *found = NULL;
    for (size_t i = 0; i < p->count; i++)
        if (p->marks[i].text && strcmp(p->marks[i].text, text) == 0)
            found = &p->marks[i];
    if (!found)
        fail_msg("the bench does not say “%s”", text);
    return found;
}

/* On a text that stands there, so many px beside its beginning. */
static void click(struct here *h, const char *text, int beside)
{
    const struct form_mark *mark = find_mark(h, text);
    struct input_event e = { .type = INPUT_POINT, .x = (int)mark->at.x + beside, .y = (int)mark->at.y - 4 };
    bench_handle(h->twin, e);
    const char *command = base_arena_print(h->room.a, "xdotool mousemove %d %d click 1", e.x, e.y);
    assert_int_equal(system(command), 0);
    window_shows_the_twin(h, text);
}

/* --- what she does -------------------------------------------------------------------------------------------------
 */

static void start(struct here *h)
{
    const char *const words[] = { program, NULL };
    watch_start(&h->watch, words);
    watch_for_light(&h->watch, WIDTH, HEIGHT);
}

/* Killed while keys are pressed: what is kept is the job as it was after the picture seen last, or after a later key.
 */
static void kill_while_she_writes(struct here *h, double ms)
{
    static const char *const keys[] = { "9", "1", "Tab", "9", "7", ".", "5",  "Tab",
                                        "8", "0", "Tab", "1", "0", "3", "Tab" };
    enum { KEYS = sizeof keys / sizeof keys[0] };
    struct arena *a = base_arena_create();
    struct paint_image pictures[KEYS + 1];
    const char *texts[KEYS + 1], *pressed[KEYS + 1];
    size_t seen_at = 0, kept_at = KEYS + 1;
    for (size_t i = 0; i <= KEYS; i++) {
        pictures[i] = twin_image(h, a);
        texts[i] = twin_text(h);
        pressed[i] = i < KEYS ? watch_key_name(h->room.a, keys[i]) : NULL;
        if (i < KEYS)
            tell_twin(h, keys[i]);
    }
    watch_press_on(&h->watch, pressed);
    XImage *seen = watch_kill_within(&h->watch, ms);
    for (size_t i = 0; i <= KEYS; i++)
        if (watch_is(seen, &pictures[i]))
            seen_at = i;
    XDestroyImage(seen);
    const char *kept = kept_text(h);
    for (size_t i = 0; i <= KEYS; i++)
        if (strcmp(kept, texts[i]) == 0)
            kept_at = i;
    if (kept_at > KEYS)
        fail_msg("killed after %.0f ms, what is kept is the job after no key:\n%s", ms, kept);
    if (strcmp(texts[kept_at], texts[seen_at]) != 0 && kept_at < seen_at)
        fail_msg("killed after %.0f ms, key %zu was shown and key %zu is kept", ms, seen_at, kept_at);
    base_arena_destroy(a);
}

/* Goes on with the ticket that is kept. */
static void go_on(struct here *h)
{
    begin_twin(h, h->ticket);
    start(h);
    window_shows_the_twin(h, "starting again");
    press(h, "Enter");
    window_shows_the_twin(h, "going on with the ticket");
    assert_string_equal(twin_text(h), kept_text(h));
}

static void begin_ticket(struct here *h)
{
    begin_twin(h, NULL);
    start(h);
    window_shows_the_twin(h, "starting with nothing");
    press(h, "Enter");
    write_text(h, "guide");
    press(h, "Tab");
    window_shows_the_twin(h, "a name");
    assert_string_equal(twin_text(h), kept_text(h));
}

static void choose_pattern(struct here *h)
{
    press(h, "Page Down;Enter");
    window_shows_the_twin(h, "the page of files");
    press(h, "Down;Down;Enter");
    window_shows_the_twin(h, "a pattern");
    press(h, "Right");
    window_shows_the_twin(h, "a view");
    assert_true(job_is_finished(bench_job(h->twin)));
}

static size_t count_kept_laid(struct here *h)
{
    struct job job;
    size_t count = 0;
    assert_true(job_read_begun(h->room.a, h->ticket, &job, h->room.errs));
    for (size_t i = 0; i < job.cloth_count; i++)
        count += job.cloths[i].laid_count;
    return count;
}

/* The layout page changes while it is looked at: only what is kept of it is asked for. Once it is left the layout
 * stays, and the twin takes on the one that was the best by then. */
static void lay_out(struct here *h)
{
    struct job job;
    press(h, "Page Down;Tab;Tab;Tab");
    write_text(h, "115");
    press(h, "Tab");
    window_shows_the_twin(h, "the cloth's width");
    press(h, "Page Down");
    for (int i = 0; i < LOOKS && !count_kept_laid(h); i++)
        usleep(LOOK_AGAIN_US);
    assert_true(count_kept_laid(h) > 5);
    press(h, "Ctrl Page Down");
    window_shows_the_twin(h, "the page of the table set-up");
    assert_true(job_read_begun(h->room.a, h->ticket, &job, h->room.errs));
    bench_take_layouts(h->twin, &job);
    press(h, "Page Down");
    window_shows_the_twin(h, "the page of placing");
}

/* The table is black at its edge, where the bench has its own grey. */
static void go_to_table_and_back(struct here *h)
{
    const struct bench_lamp lamp = { .since = "20:05", .left_min = BENCH_WARM_MIN }; /* lit less than a minute ago */
    bool dark = false;
    x_client_press("F12");
    for (int i = 0; i < LOOKS && !dark; i++) {
        XImage *seen = x_client_look(h->watch.x);
        dark = x_client_pixel(seen, 2, HEIGHT / 2) == 0;
        XDestroyImage(seen);
        if (!dark)
            usleep(LOOK_AGAIN_US);
    }
    assert_true(dark);
    x_client_press("F12");
    bench_set_at_table(h->twin, BENCH_TO_CUT);
    bench_set_at_table(h->twin, BENCH_STAY);
    bench_set_lamp(h->twin, &lamp);
    window_shows_the_twin(h, "coming back from the table");
}

static void a_ticket_is_filled_by_keys_and_nothing_of_it_is_lost(void **state)
{
    struct here *h = *state;
    uint64_t seed = 8;
    begin_ticket(h);
    for (int i = 0; i < kills; i++) {
        kill_while_she_writes(h, random_between(&seed, 0, BURST_MS));
        go_on(h);
        press(h, "Tab");
        window_shows_the_twin(h, "the first measurement");
    }
    press(h, "Tab");     /* past her height */
    write_text(h, "91"); /* size and cup group go by these, however early it was killed */
    press(h, "Tab");
    write_text(h, "97.5");
    press(h, "Tab");
    choose_pattern(h);
    lay_out(h);
    go_to_table_and_back(h);
    size_t laid = count_kept_laid(h);
    watch_kill(&h->watch);
    assert_int_equal(count_kept_laid(h), laid);
    go_on(h);
    x_client_press("ctrl+q");
    watch_for_end(&h->watch);
}

static void a_ticket_is_filled_by_the_mouse(void **state)
{
    struct here *h = *state;
    begin_twin(h, NULL);
    start(h);
    window_shows_the_twin(h, "starting with nothing");
    click(h, "New ticket", 4);
    click(h, "Full bust", 160);
    write_text(h, "96");
    click(h, "Pattern and size", 4);
    assert_near(sizing_body_find(bench_job(h->twin)->body, "bust")->mm, 960, 1e-9);
    click(h, "Open a pattern file", 4);
    click(h, "pinafore.json", 4);
    click(h, "pinafore.json", 4);
    click(h, "B", 0);
    assert_int_equal(bench_job(h->twin)->view, 1);
    click(h, "Cloth", 4);
    click(h, "choose", 4);
    click(h, "red", 4);
    click(h, "wash", 4);
    click(h, "Folded", 0);
    assert_int_equal(bench_job(h->twin)->cloths[0].cloth.spread, CLOTH_FOLDED);
    assert_string_equal(twin_text(h), kept_text(h));
    x_client_press("ctrl+q");
    watch_for_end(&h->watch);
}

/* --- one ticket, several programs ----------------------------------------------------------------------------------
 */

static bool nobody_may(void *of, const char *path, struct err_list *errs)
{
    static const struct err_kind kind = {
        "test", ERR_FAULT, "is open in another window of this program. Go on there, or open another ticket here"
    };
    (void)of;
    base_err(errs, &kind, base_err_in_file(path), ERR_NONE);
    return false;
}

/* The second window lies over the first. */
static void a_second_window_is_told(struct here *h)
{
    struct watch second = { .x = h->watch.x };
    const char *const words[] = { program, h->ticket, NULL };
    struct bench_start start = { .manner = { .unit = UNITS_CM },
                                 .recent = h->ticket,
                                 .tickets = room_path(&h->room, "data/chalklight/tickets"),
                                 .claim = nobody_may };
    struct bench *first = h->twin;
    h->twin = bench_create(&start);
    bench_fit(h->twin, WIDTH, HEIGHT, screen_letters_at(h->letters, bench_scale(h->twin, WIDTH, HEIGHT)));
    bench_handle(h->twin, (struct input_event){ .type = INPUT_DROP, .path = h->ticket });
    watch_start(&second, words);
    window_shows_the_twin(h, "opening a ticket that is open");
    watch_kill(&second);
    bench_destroy(h->twin);
    h->twin = first;
    XSetInputFocus(h->watch.x, x_client_find(h->watch.x, "Chalklight"), RevertToPointerRoot, CurrentTime);
    window_shows_the_twin(h, "ending the second");
}

static void a_ticket_is_one_windows_alone(void **state)
{
    struct here *h = *state;
    begin_twin(h, NULL);
    start(h);
    press(h, "Tab;Tab;Enter;Page Down;Right");
    window_shows_the_twin(h, "the example");
    assert_true(job_is_finished(bench_job(h->twin)));
    char *kept = base_arena_copy_text(h->room.a, kept_text(h));
    const char *command = base_arena_print(h->room.a, "%s lay %s --for fabric --width '115 cm' 2>%s", program,
                                           h->ticket, room_path(&h->room, "said"));
    assert_int_not_equal(system(command), 0);
    assert_int_equal(
        system(base_arena_print(h->room.a, "grep -q 'open as a work ticket' %s", room_path(&h->room, "said"))), 0);
    assert_string_equal(kept_text(h), kept);
    a_second_window_is_told(h);

    /* Written over all the same, by what asks nobody: that is kept beside. */
    assert_true(base_file_save(h->ticket, "{}", 2, h->room.errs));
    press(h, "Page Up;Tab");
    write_text(h, "91");
    press(h, "Tab");
    for (int i = 0; i < LOOKS && strcmp(kept_text(h), twin_text(h)) != 0; i++)
        usleep(LOOK_AGAIN_US);
    assert_string_equal(kept_text(h), twin_text(h));
    assert_true(base_file_exists(base_arena_print(h->room.a, "%s.old", h->ticket)));
    x_client_press("ctrl+q");
    watch_for_end(&h->watch);
    assert_false(base_hold_is_taken(h->ticket));
}

/* --- from a menu ---------------------------------------------------------------------------------------------------
 */

/* Where the desktop's small window has its button, of SDL's making. */
enum { BUTTON_UP = 27 };

/* The only window there is; None: there is none. */
static Window only_window(Display *x)
{
    Window root, parent, *children = NULL, found = None;
    unsigned count = 0;
    XQueryTree(x, DefaultRootWindow(x), &root, &parent, &children, &count);
    if (count)
        found = children[0];
    if (children)
        XFree(children);
    return found;
}

/* No terminal, and no font: the reason is in a window, which ends it when it is closed. */
static void without_a_terminal_a_fault_is_told_in_a_window(void **state)
{
    struct here *h = *state;
    const char *none = room_put(&h->room, "no-fonts", "<?xml version=\"1.0\"?><fontconfig></fontconfig>");
    const char *said = room_path(&h->room, "said");
    const char *command =
        base_arena_print(h->room.a, "FONTCONFIG_FILE=%s %s </dev/null >/dev/null 2>%s", none, program, said);
    const char *const words[] = { "/bin/sh", "-c", command, NULL };
    XWindowAttributes at;
    Window window = None;
    int status = -1;
    watch_start(&h->watch, words);
    for (int i = 0; i < LOOKS && window == None; i++) {
        usleep(LOOK_AGAIN_US);
        window = only_window(h->watch.x);
    }
    usleep(50 * LOOK_AGAIN_US); /* mapped, drawn and listening */
    assert_true(window != None && XGetWindowAttributes(h->watch.x, window, &at));
    command = base_arena_print(h->room.a, "xdotool mousemove %d %d sleep 0.3 click 1", at.x + at.width / 2,
                               at.y + at.height - BUTTON_UP);
    assert_int_equal(system(command), 0);
    assert_int_equal(waitpid(h->watch.child, &status, 0), h->watch.child);
    h->watch.child = 0;
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 1);
    assert_int_equal(system(base_arena_print(h->room.a, "grep -q 'No font' %s", said)), 0);
}

static void a_ticket_is_found_among_all_copied_and_put_away(void **state)
{
    struct here *h = *state;
    const char *second = room_path(&h->room, "data/chalklight/tickets/ticket-2.json");
    const char *away = room_path(&h->room, "data/chalklight/tickets/put-away/ticket-1.json");
    begin_twin(h, NULL);
    start(h);
    press(h, "Tab;Tab;Enter");
    window_shows_the_twin(h, "the example");
    bench_set_path(h->twin, h->ticket);
    press(h, "Ctrl N;Tab;Tab;Tab;Enter");
    window_shows_the_twin(h, "all tickets");
    press(h, "Tab;Tab;Enter");
    window_shows_the_twin(h, "a copy");
    bench_set_path(h->twin, second);
    for (int i = 0; i < LOOKS && !base_file_exists(second); i++)
        usleep(LOOK_AGAIN_US);
    assert_true(base_file_exists(second));
    assert_false(base_hold_is_taken(h->ticket));

    /* The one that was changed last, by its file, stands first: it goes, the one that is open stays. */
    assert_int_equal(system(base_arena_print(h->room.a, "touch -d tomorrow %s", h->ticket)), 0);
    x_client_press("ctrl+n");
    x_client_press("Tab Tab Tab Return");
    x_client_press("Tab Tab Tab Return");
    for (int i = 0; i < LOOKS && !base_file_exists(away); i++)
        usleep(LOOK_AGAIN_US);
    assert_true(base_file_exists(away));
    assert_false(base_file_exists(h->ticket));
    assert_true(base_file_exists(second));
    x_client_press("ctrl+q");
    watch_for_end(&h->watch);
}

/* She stands in a folder of her own, with one file in it: what others put beside the demo changes no list here. */
static bool stand_at_desk(struct room *room)
{
    struct base_bytes pattern;
    const char *desk = room_path(room, "desk");
    return base_file_read(room->a, DEMO_FOLDER "/pinafore.json", 1 << 24, &pattern, room->errs) &&
           mkdir(desk, 0700) == 0 && room_put(room, "desk/pinafore.json", pattern.data) && chdir(desk) == 0;
}

static int set_up(void **state)
{
    static struct here h;
    h = (struct here){ .twin = NULL };
    room_init(&h.room);
    h.letters = screen_letters_open(h.room.errs);
    h.ticket = room_path(&h.room, "data/chalklight/tickets/ticket-1.json");
    setenv("HOME", "/tmp", 0); /* the list of files has it */
    setenv("XDG_DATA_HOME", room_path(&h.room, "data"), 1);
    *state = &h;
    return watch_open(&h.watch) && h.letters && stand_at_desk(&h.room) ? 0 : -1;
}

static int tear_down(void **state)
{
    struct here *h = *state;
    watch_close(&h->watch);
    bench_destroy(h->twin);
    screen_letters_close(h->letters);
    return room_close(state);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_ticket_is_filled_by_keys_and_nothing_of_it_is_lost, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_ticket_is_filled_by_the_mouse, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_ticket_is_one_windows_alone, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_ticket_is_found_among_all_copied_and_put_away, set_up, tear_down),
        cmocka_unit_test_setup_teardown(without_a_terminal_a_fault_is_told_in_a_window, set_up, tear_down),
    };
    if (argc != 3)
        return 2;
    program = argv[1];
    kills = atoi(argv[2]);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
