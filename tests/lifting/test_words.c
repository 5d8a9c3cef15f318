#include "drawing/drawn.h"
#include "lifting/words.h"
#include "support/room.h"

#include <stdio.h>
#include <string.h>

/* Phrasings as they stand on sheets: common practice, no source; what each says, worked out by hand. */

enum { LINES_MOST = 8 };

static struct lifting_words read(struct arena *a, struct collect *c, const struct lifting_division *division)
{
    static const struct lifting_division none = { 0 };
    struct drawing *d = base_arena_alloc(a, 1, sizeof *d);
    *d = drawn_drawing(a, c);
    size_t *texts = base_arena_alloc(a, d->text_count, sizeof *texts);
    for (size_t i = 0; i < d->text_count; i++)
        texts[i] = i;
    struct lifting_shape shape = { .texts = texts, .text_count = d->text_count };
    struct lifting_words words;
    lifting_read_words(a, d, division ? division : &none, &shape, 1, &words);
    return words;
}

/* Lines apart by "|", below each other, 5 mm high. */
static struct lifting_words read_lines(struct arena *a, const char *text, const struct lifting_division *division)
{
    struct collect *c = collect_create(-1);
    collect_page(c, 500, 500, NULL);
    double y = 300;
    for (const char *from = text; *from; y -= 7) {
        size_t length = strcspn(from, "|");
        drawn_words(c, SHEET_NONE, 100, y, 5, base_arena_copy_bytes(a, from, length));
        from += length + (from[length] == '|');
    }
    return read(a, c, division);
}

#define F (1U << LIFTING_FABRIC)
#define I (1U << LIFTING_INTERFACING)
#define L (1U << LIFTING_LINING)

static const struct {
    const char *text;
    const char *name, *number;
    int count;
    bool pairs, fold;
    unsigned cloths;
    int counts[3];
} phrases[] = {
    { "Front|cut 2", "Front", NULL, 2, false, false, 0, { 0 } },
    { "Back|Cut 1 on fold", "Back", NULL, 1, false, true, 0, { 0 } },
    { "Back|CUT 1|ON FOLD", "Back", NULL, 1, false, true, 0, { 0 } },
    { "SLEEVE|CUT 1 PAIR", "SLEEVE", NULL, 1, true, false, 0, { 0 } },
    { "Sleeve|Cut a pair", "Sleeve", NULL, 1, true, false, 0, { 0 } },
    { "Sleeve|cut 2 (1 pair)", "Sleeve", NULL, 1, true, false, 0, { 0 } },
    { "Cuff|cut 2 pairs", "Cuff", NULL, 2, true, false, 0, { 0 } },
    { "Collar|cut 2 fabric, 1 interfacing", "Collar", NULL, 2, false, false, F | I, { 0, 1, 0 } },
    { "Collar|Cut 2 self|Cut 1 fusible", "Collar", NULL, 2, false, false, F | I, { 0, 1, 0 } },
    { "Yoke|Cut 1 main fabric + 1 lining on the fold", "Yoke", NULL, 1, false, true, F | L, { 0 } },
    { "Pocket|Cut 4 (2 fabric, 2 lining)", "Pocket", NULL, 2, false, false, F | L, { 0 } },
    { "Facing|cut 1 from fabric and interfacing", "Facing", NULL, 1, false, false, F | I, { 0 } },
    { "Waistband|Main fabric: 1|Interfacing: 1", "Waistband", NULL, 1, false, false, F | I, { 0 } },
    { "Strap: cut two", "Strap", NULL, 2, false, false, 0, { 0 } },
    { "Strap|cut x 2", "Strap", NULL, 2, false, false, 0, { 0 } },
    { "Strap x2", "Strap", NULL, 2, false, false, 0, { 0 } },
    { "Side panel - Cut 2 mirrored", "Side panel", NULL, 1, true, false, 0, { 0 } },
    { "Side panel|cut 1 + 1 mirrored", "Side panel", NULL, 1, true, false, 0, { 0 } },
    { "Piece 3|Bodice front|Cut 1 in lining", "Bodice front", "3", 1, false, false, L, { 0 } },
    { "Pattern piece 4 of 12|Upper collar|cut twice", "Upper collar", "4", 2, false, false, 0, { 0 } },
    { "1. Vorderteil|1 x im Stoffbruch", "Vorderteil", "1", 1, false, true, 0, { 0 } },
    { "Teil 7a|Tasche|2× zuschneiden", "Tasche", "7a", 2, false, false, 0, { 0 } },
    { "Nr. 2 Ärmel|2 × gegengleich", "Ärmel", "2", 1, true, false, 0, { 0 } },
    { "Ärmel|1x gegengleich zuschneiden", "Ärmel", NULL, 1, true, false, 0, { 0 } },
    { "#5 Rueckenteil|1x im Bruch zuschneiden", "Rueckenteil", "5", 1, false, true, 0, { 0 } },
    { "\xe2\x91\xa3|Kragen|2x Oberstoff, Einlage 1x", "Kragen", "4", 2, false, false, F | I, { 0, 1, 0 } },
    { "Kragen|Oberstoff 2x|Einlage 1x", "Kragen", NULL, 2, false, false, F | I, { 0, 1, 0 } },
    { "BUND|OBERSTOFF: 1|VLIESEINLAGE: 1", "BUND", NULL, 1, false, false, F | I, { 0 } },
    { "Passe|zweimal zuschneiden", "Passe", NULL, 2, false, false, 0, { 0 } },
    { "Schlaufe|Schneide 2", "Schlaufe", NULL, 2, false, false, 0, { 0 } },
    { "Schlaufe|4 mal", "Schlaufe", NULL, 4, false, false, 0, { 0 } },
    { "Taschenbeutel|4x Futter (2 Paar)", "Taschenbeutel", NULL, 2, true, false, L, { 0 } },
    { "Manschette|2 Stück aus Oberstoff, 2 Stück aus Einlage", "Manschette", NULL, 2, false, false, F | I, { 0 } },
    { "Beleg|1 Paar aus Oberstoff|1 Paar aus Einlage", "Beleg", NULL, 1, true, false, F | I, { 0 } },
    { "Gr\xc3\xb6\xc3\x9f"
      "e 34 - 46|Vorderrock|Fadenlauf|1x im Stoffbruch",
      "Vorderrock",
      NULL,
      1,
      false,
      true,
      0,
      { 0 } },
    { "Sizes XS-XL|Hood|Cut 2|Grainline", "Hood", NULL, 2, false, false, 0, { 0 } },
    { "Back|cut 2|1.5 cm seam allowance included", "Back", NULL, 2, false, false, 0, { 0 } },
    { "Back|Nahtzugabe 1 cm ist enthalten|2 x", "Back", NULL, 2, false, false, 0, { 0 } },
    { "Skirt front|View A|cut 1 on the fold|center front", "Skirt front", NULL, 1, false, true, 0, { 0 } },
    { "Futter Vorderteil|2x", "Futter Vorderteil", NULL, 2, false, false, L, { 0 } },
    { "Pocket lining|Cut 2", "Pocket lining", NULL, 2, false, false, L, { 0 } },
    { "Guide 60 x 8 cm|Cut 1", "Guide", NULL, 1, false, false, 0, { 0 } },
    { "Bow|place on fold|1 x", "Bow", NULL, 1, false, true, 0, { 0 } },
    { "Bow|do not cut on fold|cut 2", "Bow", NULL, 2, false, false, 0, { 0 } },
    { "lengthen or shorten here|Leg|cut 2", "Leg", NULL, 2, false, false, 0, { 0 } },
    { "Vorderteil - 38|1x", "Vorderteil", NULL, 1, false, false, 0, { 0 } },
    { "34 36 38 40|Front|cut 2", "Front", NULL, 2, false, false, 0, { 0 } },
    { "12|Front|cut 2|38", "Front", "12", 2, false, false, 0, { 0 } },
    { "Front|Bodice|cut 1", "Front Bodice", NULL, 1, false, false, 0, { 0 } },
    { "\xc2\xa9 2020 www.example.com|Mittelteil|1 x Stoff", "Mittelteil", NULL, 1, false, false, F, { 0 } },
    { "28. R\xc3\xbc"
      "ckenfutter - 1 x im Stoffbruch zuschneiden Futter",
      "R\xc3\xbc"
      "ckenfutter",
      "28",
      1,
      false,
      true,
      L,
      { 0 } },
    { "Front|36|cut 2", "Front", "36", 2, false, false, 0, { 0 } },
    { "36|Front|cut 2", "Front", "36", 2, false, false, 0, { 0 } },
    { "R\xc3\xbc"
      "ckenteil|im Stoffbruch zuschneiden",
      "R\xc3\xbc"
      "ckenteil",
      NULL,
      1,
      false,
      true,
      0,
      { 0 } },
    { "Pocket bag|Cut 2 pairs (4 total) in lining", "Pocket bag", NULL, 2, true, false, L, { 0 } },
    { "Front facing|1 x Fabric / 1 x Interfacing", "Front facing", NULL, 1, false, false, F | I, { 0 } },
    { "Schneiden Sie 2 Teile zu|Kragen", "Kragen", NULL, 2, false, false, 0, { 0 } },
    { "Belt loop|cut 1 strip 3 x 50 cm", "Belt loop", NULL, 1, false, false, 0, { 0 } },
    { "Halsb\xc3\xbcndchen|1x B\xc3\xbcndchenware im Bruch", "Halsb\xc3\xbcndchen", NULL, 1, false, true, 0, { 0 } },
    { "CUFF cut 4 + 2 interfacing", "CUFF", NULL, 4, false, false, F | I, { 0, 2, 0 } },
    { "Main x 2, Lining x 2|Hood", "Hood", NULL, 2, false, false, F | L, { 0 } },
    { "", NULL, NULL, 0, false, false, 0, { 0 } },
    { "xx|%|((((|, , ,", NULL, NULL, 0, false, false, 0, { 0 } },
};

#undef F
#undef I
#undef L

static bool same_text(const char *a, const char *b)
{
    return a && b ? strcmp(a, b) == 0 : a == b;
}

static void phrases_are_read(void **state)
{
    static const char *const sizes[] = { "36", "38", "40" };
    struct lifting_division division = { .sizes = sizes, .size_count = 3 };
    size_t wrong = 0;
    for (size_t i = 0; i < sizeof phrases / sizeof phrases[0]; i++) {
        struct lifting_words w = read_lines(*state, phrases[i].text, &division);
        bool name = !phrases[i].name || same_text(w.name, phrases[i].name);
        if (name && same_text(w.number, phrases[i].number) && w.count == phrases[i].count &&
            w.pairs == phrases[i].pairs && w.on_fold == phrases[i].fold && w.cloths == phrases[i].cloths &&
            memcmp(w.counts, phrases[i].counts, sizeof w.counts) == 0)
            continue;
        wrong++;
        fprintf(stderr, "“%s”: name %s, number %s, count %d%s%s, cloths %u, %d %d %d\n", phrases[i].text,
                w.name ? w.name : "-", w.number ? w.number : "-", w.count, w.pairs ? " pairs" : "",
                w.on_fold ? " on fold" : "", w.cloths, w.counts[0], w.counts[1], w.counts[2]);
    }
    assert_int_equal(wrong, 0);
}

static const struct {
    const char *text;
    enum lifting_said said;
} said[] = {
    { "Fadenlauf", LIFTING_SAID_GRAIN },
    { "FADENLAUF", LIFTING_SAID_GRAIN },
    { "grain", LIFTING_SAID_GRAIN },
    { "Grainline", LIFTING_SAID_GRAIN },
    { "Straight of grain", LIFTING_SAID_GRAIN },
    { "gerader Fadenlauf", LIFTING_SAID_GRAIN },
    { "place on fold", LIFTING_SAID_FOLD },
    { "PLACE ON THE FOLD", LIFTING_SAID_FOLD },
    { "cut on fold", LIFTING_SAID_FOLD },
    { "Stoffbruch", LIFTING_SAID_FOLD },
    { "fold", LIFTING_SAID_FOLD },
    { "Bruch", LIFTING_SAID_FOLD },
    { "Fadenlauf / Stoffbruch", LIFTING_SAID_FOLD },
    { "lengthen or shorten here", LIFTING_SAID_LENGTHEN },
    { "hier verl\xc3\xa4ngern oder k\xc3\xbcrzen", LIFTING_SAID_LENGTHEN },
    { "hier verla\xcc\x88ngern", LIFTING_SAID_LENGTHEN }, /* two dots as a sign of their own */
    { "hier verlaengern", LIFTING_SAID_LENGTHEN },
    { "lengthen/shorten", LIFTING_SAID_LENGTHEN },
    { "fold line", LIFTING_SAID_NOTHING },
    { "Umbruch", LIFTING_SAID_NOTHING },
    { "straight leg", LIFTING_SAID_NOTHING },
    { "not on fold", LIFTING_SAID_NOTHING },
    { "Front", LIFTING_SAID_NOTHING },
    { "", LIFTING_SAID_NOTHING },
};

static void lines_are_told_apart(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++)
        if (lifting_said_of_line(said[i].text) != said[i].said)
            fail_msg("“%s” says %d", said[i].text, lifting_said_of_line(said[i].text));
}

/* Every letter a run of its own, as some programs write: 5 mm letters, 3 mm apart, a blank left out as room. */
static void letters_are_put_together(void **state)
{
    struct collect *c = collect_create(-1);
    collect_page(c, 500, 500, NULL);
    static const char text[] = "Cut 2 lining";
    double x = 100;
    for (size_t i = 0; text[i]; i++, x += 2.7)
        if (text[i] != ' ')
            drawn_words(c, SHEET_NONE, x, 200, 5, (const char[]){ text[i], 0 });
    drawn_words(c, SHEET_NONE, 100, 207, 5, "Hood");
    struct lifting_words w = read(*state, c, NULL);
    assert_string_equal(w.name, "Hood");
    assert_int_equal(w.count, 2);
    assert_int_equal(w.cloths, 1 << LIFTING_LINING);
}

static void put_turned(struct collect *c, double x, double y, const char *words)
{
    static const struct collect_style black = { 0, 0, SHEET_FILLED | SHEET_TEXT, NULL, 0 };
    collect_begin_run(c, SHEET_NONE, &black, words, strlen(words), &(struct sheet_run){ x, y, 0, 1, 5 });
    collect_end(c);
}

/* Written upwards, a line below another stands to its right. */
static void turned_text_reads_along_its_own_lines(void **state)
{
    struct collect *c = collect_create(-1);
    collect_page(c, 500, 500, NULL);
    put_turned(c, 107, 100, "Cut");
    put_turned(c, 107, 109, "3");
    put_turned(c, 100, 100, "Side");
    put_turned(c, 100, 111.5, "gore");
    struct lifting_words w = read(*state, c, NULL);
    assert_string_equal(w.name, "Side gore");
    assert_int_equal(w.count, 3);
}

/* The pattern's name is the largest on every piece, and none of theirs. */
static void what_stands_on_all_pieces_is_the_patterns_name(void **state)
{
    struct arena *a = *state;
    static const char *const names[] = { "Front", "Back", "Gore", "Cuff" };
    struct collect *c = collect_create(-1);
    collect_page(c, 900, 500, NULL);
    size_t texts[4][2];
    struct lifting_shape shapes[4] = { 0 };
    struct lifting_words words[4];
    for (size_t i = 0; i < 4; i++) {
        drawn_words(c, SHEET_NONE, 200.0 * (double)i, 200, 9, "Meadow dress");
        drawn_words(c, SHEET_NONE, 200.0 * (double)i, 190, 5, names[i]);
        texts[i][0] = 2 * i;
        texts[i][1] = 2 * i + 1;
        shapes[i] = (struct lifting_shape){ .texts = texts[i], .text_count = 2 };
    }
    struct drawing d = drawn_drawing(a, c);
    lifting_read_words(a, &d, &(struct lifting_division){ 0 }, shapes, 4, words);
    for (size_t i = 0; i < 4; i++)
        assert_string_equal(words[i].name, names[i]);
}

/* What a person types; worked out by hand. A count of 0: not understood. */
static void a_count_that_is_typed_is_read_whole(void **state)
{
    enum { FABRIC = 1U << LIFTING_FABRIC, INTERFACING = 1U << LIFTING_INTERFACING };
    static const struct {
        const char *typed;
        struct lifting_words words;
    } rows[] = {
        { "2", { .count = 2 } },
        { "1 pair", { .count = 1, .pairs = true } },
        { "2 of interfacing", { .count = 2, .cloths = INTERFACING } },
        { "1 on the fold", { .count = 1, .on_fold = true } },
        { "cut 2", { .count = 2 } },
        { "2 of fabric, 1 of interfacing",
          { .count = 2, .cloths = FABRIC | INTERFACING, .counts = { [LIFTING_INTERFACING] = 1 } } },
        { "2 Paar", { .count = 2, .pairs = true } },
        { "many", { .count = 0 } },
        { "2 of moonlight", { .count = 0 } },
        { "", { .count = 0 } },
        { "0", { .count = 0 } },
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct lifting_words words = { .count = 0 };
        const struct lifting_words *want = &rows[i].words;
        if (lifting_read_count(rows[i].typed, &words) != (want->count > 0))
            fail_msg("“%s”", rows[i].typed);
        assert_int_equal(words.count, want->count);
        assert_int_equal(words.pairs, want->pairs);
        assert_int_equal(words.on_fold, want->on_fold);
        assert_int_equal(words.cloths, want->cloths);
        assert_int_equal(words.counts[LIFTING_INTERFACING], want->counts[LIFTING_INTERFACING]);
    }
}

static void a_lot_of_text_is_no_trouble(void **state)
{
    struct collect *c = collect_create(-1);
    static const char *const some[] = { "cut 2", "2", "x", "Futter", "fold", "34", "\xc3\xa4\xcc\x88", "::::" };
    collect_page(c, 5000, 5000, NULL);
    for (size_t i = 0; i < 200000; i++)
        drawn_words(c, SHEET_NONE, (double)(i % 400) * 12, (double)(i / 400) * 9, 5, some[i * 7 % 8]);
    assert_true(read(*state, c, NULL).count > 0);
}

/* What a pattern in one size has at its edge; one as large as the name is the piece's number. */
static void a_small_number_far_from_the_name_is_a_size(void **state)
{
    static const struct {
        double x, y, high;
        const char *words, *number;
    } rows[] = {
        { 100, 40, 3, "38", NULL }, { 100, 40, 9, "38", "38" }, { 100, 40, 3, "7", "7" }, { 100, 306, 3, "38", "38" }
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct collect *c = collect_create(-1);
        collect_page(c, 500, 500, NULL);
        drawn_words(c, SHEET_NONE, 100, 300, 5, "Vorderteil");
        drawn_words(c, SHEET_NONE, rows[i].x, rows[i].y, rows[i].high, rows[i].words);
        struct lifting_words words = read(*state, c, NULL);
        assert_string_equal(words.name, "Vorderteil");
        if (rows[i].number)
            assert_string_equal(words.number, rows[i].number);
        else
            assert_null(words.number);
    }
}

/* One piece in three cup groups has its words three times, and they are no title. */
static void words_of_three_cups_are_of_one_piece(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    const size_t texts[] = { 0, 1 };
    struct lifting_shape shapes[3] = { 0 };
    struct lifting_words words[3];
    static const struct lifting_division none = { 0 };
    collect_page(c, 500, 500, NULL);
    drawn_words(c, SHEET_NONE, 50, 200, 6, "Vorderteil");
    drawn_words(c, SHEET_NONE, 50, 190, 5, "cut 2");
    struct drawing d = drawn_drawing(a, c);
    for (int i = 0; i < 3; i++)
        shapes[i] = (struct lifting_shape){ .cup_group = i, .texts = texts, .text_count = 2 };
    lifting_read_words(a, &d, &none, shapes, 3, words);
    for (size_t i = 0; i < 3; i++) {
        assert_string_equal(words[i].name, "Vorderteil");
        assert_int_equal(words[i].count, 2);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(phrases_are_read),
        room_arena_test(lines_are_told_apart),
        room_arena_test(letters_are_put_together),
        room_arena_test(turned_text_reads_along_its_own_lines),
        room_arena_test(what_stands_on_all_pieces_is_the_patterns_name),
        room_arena_test(a_count_that_is_typed_is_read_whole),
        room_arena_test(words_of_three_cups_are_of_one_piece),
        room_arena_test(a_small_number_far_from_the_name_is_a_size),
        room_arena_test(a_lot_of_text_is_no_trouble),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
