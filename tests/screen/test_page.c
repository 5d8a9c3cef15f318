#include "screen/inside.h"
#include "support/room.h"
#include "text/find.h"

/* The sheet's colours, after the project's page on its look, as in page.c. */
enum { SHEET = 0xfbfaf6, RED = 0xa22227 };

struct desk {
    struct room room;
    struct screen_page_fonts fonts;
    SDL_Surface *page;
};

static TTF_Font *open_font(struct arena *a, enum text_weight weight)
{
    const char *path = NULL;
    int face = 0;
    return text_find_file(a, weight, &path, &face) ? TTF_OpenFontIndex(path, 16, face) : NULL;
}

static int open_desk(void **state)
{
    static struct desk desk;
    if (TTF_Init() != 0)
        return -1;
    room_init(&desk.room);
    desk.fonts.regular = open_font(desk.room.a, TEXT_REGULAR);
    desk.fonts.semibold = open_font(desk.room.a, TEXT_SEMIBOLD);
    desk.page = SDL_CreateRGBSurfaceWithFormat(0, 1024, 600, 32, SDL_PIXELFORMAT_XRGB8888);
    *state = &desk;
    return desk.fonts.regular && desk.fonts.semibold && desk.page ? 0 : -1;
}

static int close_desk(void **state)
{
    struct desk *desk = *state;
    SDL_FreeSurface(desk->page);
    TTF_CloseFont(desk->fonts.regular);
    TTF_CloseFont(desk->fonts.semibold);
    TTF_Quit();
    return room_close(state);
}

static Uint32 pixel(const SDL_Surface *page, int x, int y)
{
    return *(const Uint32 *)(const void *)((const char *)page->pixels + y * page->pitch + x * 4) & 0xffffff;
}

/* The smallest box around all that is not sheet between x0 and before x1; w is 0 when nothing is. */
static SDL_Rect inked(const SDL_Surface *page, int x0, int x1)
{
    SDL_Rect box = { 0 }, one = { 0, 0, 1, 1 };
    for (one.y = 0; one.y < page->h; one.y++)
        for (one.x = x0; one.x < x1; one.x++)
            if (pixel(page, one.x, one.y) != SHEET)
                SDL_UnionRect(&box, &one, &box);
    return box;
}

static void one_u_grows_in_quarters_with_the_window(void **state)
{
    (void)state;
    /* Rule: the largest of 1, 1.25, 1.5 … with W/s ≥ 1024 and H/s ≥ 600; worked by hand. */
    assert_near(screen_page_scale(1024, 600), 1, 0);
    assert_near(screen_page_scale(1279, 2000), 1, 0);
    assert_near(screen_page_scale(1280, 750), 1.25, 0);
    assert_near(screen_page_scale(1920, 1080), 1.75, 0);
    assert_near(screen_page_scale(3840, 2160), 3.5, 0);
    assert_near(screen_page_scale(640, 480), 1, 0);
}

static void an_empty_page_is_a_blank_sheet(void **state)
{
    struct desk *desk = *state;
    assert_int_equal(screen_page_draw(desk->page, &desk->fonts, NULL, 0), 0);
    assert_int_equal(inked(desk->page, 0, 1024).w, 0);
}

static void text_keeps_within_the_margins(void **state)
{
    struct desk *desk = *state;
    static const struct screen_note_line lines[] = {
        { SCREEN_NOTE_TITLE, "Placing the pieces", NULL },
        { SCREEN_NOTE_LINE,
          "A long line that goes on and on, past the edge of the window if it were not turned to a second line, which "
          "it is: nobody wants to guess at the end of a sentence.",
          NULL },
    };
    assert_int_equal(screen_page_draw(desk->page, &desk->fonts, lines, 2), 2);
    SDL_Rect box = inked(desk->page, 0, 1024);
    assert_true(box.w > 700);
    assert_true(box.x >= 27 && box.x + box.w <= 1024 - 27); /* margin 28, less one for a letter that overhangs */
    assert_true(box.y >= 28);
}

static void what_keys_do_stands_right_of_them_in_one_line_down(void **state)
{
    struct desk *desk = *state;
    static const struct screen_note_line lines[] = {
        { SCREEN_NOTE_LINE, "F1", "help" },
        { SCREEN_NOTE_LINE, "Shift Left", "a big step to the left" },
    };
    assert_int_equal(screen_page_draw(desk->page, &desk->fonts, lines, 2), 2);
    int keys_end = 28;
    while (inked(desk->page, keys_end, keys_end + 18).w > 0) /* the gap of 18 between keys and words */
        keys_end++;
    SDL_Rect keys = inked(desk->page, 0, keys_end), words = inked(desk->page, keys_end, 1024);
    assert_true(keys.w > 0 && words.w > keys.w);
    assert_true(abs(keys.y - words.y) <= 4); /* F and h both rise to about the same height */
}

static void a_warning_has_a_red_bar_beside_it(void **state)
{
    struct desk *desk = *state;
    static const struct screen_note_line warning = { SCREEN_NOTE_WARNING, "Cross 4 looks one ruling off.", NULL };
    assert_int_equal(screen_page_draw(desk->page, &desk->fonts, &warning, 1), 1);
    SDL_Rect bar = inked(desk->page, 0, 32);
    assert_int_equal(bar.x, 28);
    assert_int_equal(bar.w, 4);
    assert_true(bar.h >= 17);
    for (int y = bar.y; y < bar.y + bar.h; y++)
        assert_int_equal(pixel(desk->page, 30, y), RED);
    SDL_Rect words = inked(desk->page, 32, 1024);
    assert_true(words.x > 36 && words.w > 100);
}

/* So many lines, each of a key and what it does. */
static int drawn_of(struct desk *desk, int count)
{
    struct screen_note_line *lines = base_arena_alloc(desk->room.a, (size_t)count, sizeof *lines);
    for (int i = 0; i < count; i++)
        lines[i] = (struct screen_note_line){ SCREEN_NOTE_LINE, "F1", "help" };
    return screen_page_draw(desk->page, &desk->fonts, lines, count);
}

static void more_lines_than_one_column_holds_turn_to_two_and_three(void **state)
{
    struct desk *desk = *state;
    int one = 1;
    while (drawn_of(desk, one) == one && inked(desk->page, 512, 1024).w == 0)
        one++;
    assert_int_equal(drawn_of(desk, one), one); /* the first number that takes two columns */
    assert_int_equal(inked(desk->page, 28 + (1024 - 2 * 28 - 36) / 2, 512).w, 0);
    assert_true(inked(desk->page, 512, 1024).w > 0);
    int column = one - 1;
    assert_int_equal(drawn_of(desk, 3 * column), 3 * column);
    assert_true(inked(desk->page, 690, 1024).w > 0);
    assert_int_equal(drawn_of(desk, 3 * column + 1), 3 * column); /* and the last is told to be missing */
}

static void a_heading_is_not_left_alone_at_the_foot(void **state)
{
    struct desk *desk = *state;
    int column = 1;
    while (drawn_of(desk, column + 1) == column + 1 && inked(desk->page, 512, 1024).w == 0)
        column++;
    struct screen_note_line *lines = base_arena_alloc(desk->room.a, (size_t)column + 2, sizeof *lines);
    for (int i = 0; i < column + 2; i++)
        lines[i] = (struct screen_note_line){ SCREEN_NOTE_LINE, "x", NULL };
    lines[column - 1] = (struct screen_note_line){ SCREEN_NOTE_HEADING, "x", NULL };
    assert_int_equal(screen_page_draw(desk->page, &desk->fonts, lines, column + 2), column + 2);
    SDL_Rect second = inked(desk->page, 512, 1024);
    assert_true(second.w > 400); /* its rule runs over the second column, not the first */
}

static void texts_of_nothing_and_of_broken_bytes_are_drawn_too(void **state)
{
    struct desk *desk = *state;
    static const struct screen_note_line lines[] = {
        { SCREEN_NOTE_LINE, NULL, NULL },
        { SCREEN_NOTE_LINE, "", "" },
        { SCREEN_NOTE_LINE, "\xff\xfe a", "\xc3" },
        { SCREEN_NOTE_WARNING, NULL, NULL },
    };
    assert_int_equal(screen_page_draw(desk->page, &desk->fonts, lines, 4), 4);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, open_desk, close_desk)
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_u_grows_in_quarters_with_the_window),
        TEST(an_empty_page_is_a_blank_sheet),
        TEST(text_keeps_within_the_margins),
        TEST(what_keys_do_stands_right_of_them_in_one_line_down),
        TEST(a_warning_has_a_red_bar_beside_it),
        TEST(more_lines_than_one_column_holds_turn_to_two_and_three),
        TEST(a_heading_is_not_left_alone_at_the_foot),
        TEST(texts_of_nothing_and_of_broken_bytes_are_drawn_too),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
