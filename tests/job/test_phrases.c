/* Alterations as a person types them, in German and in English: both come to the same, and one form is kept. The German
 * is ordinary sewing usage; amounts are hand-worked. */
#include "base/words.h"
#include "job/job.h"
#include "job/phrases.h"
#include "support/room.h"

static const char *words_folder, *assets_folder;

/* The demo in view D (with the gathered skirt) for the demo's guide, altered so. */
static bool make(struct room *room, const char *alter, struct job *job)
{
    struct job_choices choices = { .pattern = base_arena_print(room->a, "%s/demo/pinafore.json", assets_folder),
                                   .body = base_arena_print(room->a, "%s/demo/guide.json", assets_folder),
                                   .view = "D",
                                   .alter = alter };
    return job_make(room->a, &choices, job, NULL, room->errs);
}

static const struct row {
    const char *german, *english;
    enum draft_alteration_kind kind;
    double mm;
    const char *shown; /* where it is not as it was typed */
} rows[] = {
    { "Rock um 3 cm verlängern", "lengthen skirt by 3 cm", DRAFT_LENGTHEN, 30, NULL },
    { "Latz um 1,5 cm kürzen", "shorten bib by 1,5 cm", DRAFT_LENGTHEN, -15, NULL },
    { "  latz  um 2 Zoll verlängern", "lengthen bib by 2 Zoll", DRAFT_LENGTHEN, 50.8, "Latz um 2 Zoll verlängern" },
    { "Latz auf 42 cm verlängern", "lengthen bib to 42 cm", DRAFT_LENGTHEN, 10, NULL }, /* drawn for 41 cm */
    { "Latz auf 40 cm kürzen", "shorten bib to 40 cm", DRAFT_LENGTHEN, -10, NULL },
    { "Latzseitennaht bei Taille um 1 cm je Seite enger nähen", "take in bib side at waist by 1 cm each side",
      DRAFT_TAKE_IN, 10, NULL },
    { "Latzseitennaht, C-D bei Taille um 5 mm auslassen", "let out bib side, C-D at waist by 5 mm", DRAFT_TAKE_IN, -5,
      NULL },
    { "Brust um 2 cm weiter machen", "fuller bust by 2 cm", DRAFT_BUST, 20, NULL },
    { "Latzrückenteil.Seitennaht mit 3 cm Nahtzugabe", "allow 3 cm at bib back.side", DRAFT_ALLOWANCE, 30, NULL },
    { "Kräuselrock vorn 70 cm breit zuschneiden", "cut skirt panel front 70 cm wide", DRAFT_WIDTH, 700, NULL },
};
enum { ROWS = sizeof rows / sizeof rows[0] };

static void german_phrases_are_kept_in_english(void **state)
{
    struct room *room = *state;
    assert_true(base_words_speak("de", words_folder));
    for (size_t i = 0; i < ROWS; i++) {
        struct job job;
        bool ok = make(room, rows[i].german, &job);
        room_nothing_told(room);
        assert_true(ok);
        assert_string_equal(job.alteration_texts[0], rows[i].english);
        assert_int_equal(job.alterations[0].kind, rows[i].kind);
        assert_near(job.alterations[0].amount_mm, rows[i].mm, 1e-9);
        assert_string_equal(job_phrase_shown(room->a, job.pattern, rows[i].english),
                            rows[i].shown ? rows[i].shown : rows[i].german);
    }
}

/* A job is read again in either language, and its text stays. */
static void english_is_read_in_every_language_and_kept_as_it_was_typed(void **state)
{
    struct room *room = *state;
    static const char *const languages[] = { "en", "de" };
    for (size_t i = 0; i < 2 * ROWS; i++) {
        struct job job, again;
        base_words_speak(languages[i % 2], words_folder);
        bool ok = make(room, rows[i / 2].english, &job);
        const char *text = job_print(room->a, &job);
        base_words_speak(languages[1 - i % 2], words_folder);
        ok = job_parse(room->a, "j.json", text, strlen(text), &again, room->errs) && ok;
        room_nothing_told(room);
        assert_true(ok);
        assert_string_equal(again.alteration_texts[0], rows[i / 2].english);
        assert_near(again.alterations[0].amount_mm, rows[i / 2].mm, 1e-9);
        assert_string_equal(job_print(room->a, &again), text);
    }
}

/* Typed as the piece is labelled; the label is another in the other language. */
static void a_piece_may_be_called_by_its_label(void **state)
{
    struct room *room = *state;
    struct job job, again;
    base_words_speak("en", words_folder);
    bool ok = make(room, "cut Gathered skirt front 70 cm wide", &job);
    const char *text = job_print(room->a, &job);
    base_words_speak("de", words_folder);
    ok = job_parse(room->a, "j.json", text, strlen(text), &again, room->errs) && ok;
    room_nothing_told(room);
    assert_true(ok);
    assert_string_equal(again.alterations[0].what, "skirt panel front");
}

static void english_shows_english_as_it_is(void **state)
{
    struct room *room = *state;
    struct job job;
    base_words_speak("en", words_folder);
    assert_true(make(room, NULL, &job));
    for (size_t i = 0; i < ROWS; i++)
        assert_string_equal(job_phrase_shown(room->a, job.pattern, rows[i].english), rows[i].english);
    assert_string_equal(job_phrase_shown(room->a, job.pattern, "bib side seam at waist, take in 1 cm each side"),
                        "bib side seam at waist, take in 1 cm each side");
}

/* What the page proposes can be typed as it stands. */
static void examples_are_alterations_of_that_pattern(void **state)
{
    struct room *room = *state;
    static const char *const languages[] = { "en", "de" };
    static const char *const firsts[][2] = { { "lengthen bib by 3 cm", "lengthen bib by 1 in" },
                                             { "Latz um 3 cm verlängern", "Latz um 1 Zoll verlängern" } };
    for (size_t i = 0; i < 4; i++) {
        struct job job, altered;
        const char *examples[JOB_EXAMPLES];
        base_words_speak(languages[i / 2], words_folder);
        assert_true(make(room, NULL, &job));
        size_t count = job_alteration_examples(room->a, &job, i % 2 ? UNITS_IN : UNITS_CM, examples);
        assert_int_equal(count, JOB_EXAMPLES);
        assert_string_equal(examples[0], firsts[i / 2][i % 2]);
        for (size_t k = 0; k < count; k++)
            assert_true(make(room, examples[k], &altered));
        room_nothing_told(room);
    }
}

static void what_is_wrong_with_a_german_phrase_is_told(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *words, *code, *told; /* what the sentence names besides the words */
    } wrong[] = {
        { "Rock verlängern", "job.alteration", NULL },
        { "Ärmel um 3 cm verlängern", "job.no_line", "„Latz“, „Rock“" },
        { "Rock um drei verlängern", "job.alteration_length", NULL },
        { "Mittelnaht bei Taille um 1 cm enger nähen", "job.no_seam", NULL },
        { "Latzseitennaht bei Knie um 1 cm enger nähen", "job.no_level", NULL },
        { "Latzrückenteil.Kragen mit 3 cm Nahtzugabe", "job.no_edge", NULL },
        { "Kragen 70 cm breit zuschneiden", "job.no_rectangle", NULL },
    };
    base_words_speak("de", words_folder);
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        struct job job;
        assert_false(make(room, wrong[i].words, &job));
        const struct err *told = room_only_told(room, wrong[i].code);
        assert_string_equal(told->args[0].text, wrong[i].words);
        if (wrong[i].told)
            assert_string_equal(told->args[2].text, wrong[i].told);
        room_forget(room);
    }
}

static void a_long_text_takes_no_time(void **state)
{
    struct room *room = *state;
    struct job job;
    char *text = base_arena_alloc(room->a, 2000000, 1);
    for (size_t i = 0; i + 4 < 2000000; i += 4)
        memcpy(text + i, " by ", 4);
    memcpy(text, "take in", 7);
    base_words_speak("de", words_folder);
    assert_false(make(room, text, &job));
}

int main(int argc, char **argv)
{
    if (argc != 3)
        return 1;
    words_folder = argv[1];
    assets_folder = argv[2];
    const struct CMUnitTest tests[] = {
        room_test(german_phrases_are_kept_in_english),
        room_test(english_is_read_in_every_language_and_kept_as_it_was_typed),
        room_test(a_piece_may_be_called_by_its_label),
        room_test(english_shows_english_as_it_is),
        room_test(examples_are_alterations_of_that_pattern),
        room_test(what_is_wrong_with_a_german_phrase_is_told),
        room_test(a_long_text_takes_no_time),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
