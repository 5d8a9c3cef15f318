/* What a pattern is called in her language. The catalogue only says which language that is; what the demo's parts are
 * called in German is ordinary sewing usage. */
#include "base/buffer.h"
#include "base/words.h"
#include "pattern/read.h"
#include "support/room.h"

static const char *words_folder, *assets_folder;

/* A pattern whose file ends with these words for other languages. */
static const struct pattern *parse(struct room *room, const char *words)
{
    const char *json = room_json(
        room, base_arena_print(room->a,
                               "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'stitching line',\n"
                               "  'name': 'Small bag', 'unit': 'cm', 'sizes': ['S'], 'chart': { 'waist': [60] },\n"
                               "  'main_measurement': 'waist', 'values': { 'wide': 'waist / 2' },\n"
                               "  'pieces': [ { 'name': 'front', 'label': 'Bag front',\n"
                               "    'rectangle': { 'width': 'wide', 'height': 10 },\n"
                               "    'lines': [ { 'kind': 'lengthen', 'name': 'bag', 'label': 'here',\n"
                               "      'from': 'near left', 'to': 'far right' } ] },\n"
                               "    { 'name': 'back', 'rectangle': { 'width': 'wide', 'height': 10 } } ],\n"
                               "  'seams': [ { 'name': 'side, left', 'join': [['front.left'], ['back.left']] } ],\n"
                               "  'notions': [ { 'name': 'zip' } ],\n"
                               "  'views': [ { 'name': 'plain', 'label': 'Without a lid',\n"
                               "    'cut': [ { 'piece': 'front', 'count': 1 } ] } ]%s%s }",
                               words ? ",\n  'words': " : "", words ? words : ""));
    return pattern_parse(room->a, "bag.json", json, strlen(json), room->errs);
}

static const char german[] =
    "{ 'de': { 'Small bag': 'Beutel', 'Bag front': 'Vorderteil', 'back': 'Rückenteil', 'here': 'hier', 'bag': 'Beutel',"
    " 'side': 'Seite', 'left': 'links', 'zip': 'Reißverschluss', 'plain': 'einfach', 'Without a lid': 'Ohne Klappe',"
    " 'waist': 'Taille' }, 'fr': { 'zip': 'fermeture' } }";

static void what_is_shown_is_in_her_language(void **state)
{
    struct room *room = *state;
    assert_true(base_words_speak("de", words_folder));
    const struct pattern *p = parse(room, german);
    room_nothing_told(room);
    assert_string_equal(p->name, "Beutel");
    assert_string_equal(p->pieces[0].label, "Vorderteil");
    assert_string_equal(p->pieces[1].label, "Rückenteil");
    assert_string_equal(p->pieces[0].lines[0].label, "hier");
    assert_string_equal(p->seams[0].label, "Seite, links");
    assert_string_equal(p->notions.items[0].name, "Reißverschluss");
    assert_string_equal(p->views[0].label, "Ohne Klappe");
    assert_string_equal(p->views[0].shown, "einfach");
    assert_string_equal(pattern_worded(room->a, p, "waist"), "Taille");
    assert_string_equal(pattern_worded(room->a, p, "hip"), "hip");
}

static void what_things_are_told_apart_by_is_as_it_is_written(void **state)
{
    struct room *room = *state;
    assert_true(base_words_speak("de", words_folder));
    const struct pattern *p = parse(room, german);
    assert_string_equal(p->pieces[1].name, "back");
    assert_string_equal(p->views[0].name, "plain");
    assert_string_equal(p->seams[0].name, "side, left");
    assert_string_equal(p->pieces[0].lines[0].name, "bag");
    assert_string_equal(p->chart[0].name, "waist");
}

static void a_language_that_is_lacking_shows_what_is_written(void **state)
{
    struct room *room = *state;
    static const char *const words[] = { NULL, "{}", "{ 'fr': { 'Bag front': 'devant' } }", german };
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        base_words_speak(words[i] == german ? "en" : "de", words_folder);
        const struct pattern *p = parse(room, words[i]);
        room_nothing_told(room);
        assert_string_equal(p->name, "Small bag");
        assert_string_equal(p->pieces[0].label, "Bag front");
        assert_string_equal(p->pieces[1].label, "back");
        assert_string_equal(p->seams[0].label, "side, left");
        assert_string_equal(p->views[0].shown, "plain");
    }
}

/* The same whichever language is in use. */
static void words_that_cannot_be_are_told(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *words, *code, *path;
    } rows[] = {
        { "[]", "json.wrong_type", "words" },
        { "{ 'de': [] }", "json.wrong_type", "words.de" },
        { "{ 'german': { 'zip': 'RV' } }", "pattern.language", "words.german" },
        { "{ 'DE': { 'zip': 'RV' } }", "pattern.language", "words.DE" },
        { "{ 'de': { 'zip': 3 } }", "json.wrong_type", "words.de.zip" },
        { "{ 'de': { 'zip': '' } }", "json.text_size", "words.de.zip" },
        { "{ 'fr': { 'zap': 'fermeture' } }", "pattern.not_called", "words.fr.zap" },
    };
    for (size_t i = 0; i < 2 * sizeof rows / sizeof rows[0]; i++) {
        base_words_speak(i % 2 ? "de" : "en", words_folder);
        parse(room, rows[i / 2].words);
        room_only_told_at(room, rows[i / 2].code, rows[i / 2].path);
        room_forget(room);
    }
}

static void more_words_than_a_pattern_has_names_are_refused(void **state)
{
    struct room *room = *state;
    struct base_buffer text = { .a = room->a };
    base_buffer_print(&text, "{ 'de': { 'zip': 'RV'");
    for (int i = 0; i < 2000; i++)
        base_buffer_print(&text, ", 'zip %d': 'RV'", i);
    base_buffer_print(&text, "} }");
    parse(room, text.data);
    assert_string_equal(room->errs->items[0].kind->code, "pattern.many_words");
}

static void has_german(struct room *room, const struct pattern *p, const char *text)
{
    if (text && strcmp(pattern_worded(room->a, p, text), text) == 0)
        fail_msg("%s: no German for “%s”", p->name, text);
}

static void notions_have_german(struct room *room, const struct pattern *p, const struct pattern_notions *notions)
{
    for (size_t i = 0; i < notions->count; i++)
        has_german(room, p, notions->items[i].name);
}

static void piece_has_german(struct room *room, const struct pattern *german_one, const struct pattern_piece *piece)
{
    has_german(room, german_one, piece->label);
    has_german(room, german_one, piece->name);
    for (size_t i = 0; i < piece->line_count; i++) {
        has_german(room, german_one, piece->lines[i].name);
        has_german(room, german_one, piece->lines[i].label);
    }
}

/* All that a person is shown of our own patterns has German words, and none are left over. */
static void pattern_has_german(struct room *room, const char *path)
{
    base_words_speak("en", words_folder);
    const struct pattern *p = pattern_read(room->a, path, room->errs);
    base_words_speak("de", words_folder);
    const struct pattern *to = pattern_read(room->a, path, room->errs);
    room_nothing_told(room);
    has_german(room, to, p->name);
    for (size_t i = 0; i < p->piece_count; i++)
        piece_has_german(room, to, &p->pieces[i]);
    for (size_t i = 0; i < p->seam_count; i++)
        has_german(room, to, p->seams[i].label);
    for (size_t i = 0; i < p->figure_count; i++)
        has_german(room, to, p->figures[i]);
    for (size_t i = 0; i < p->view_count; i++) {
        if (strlen(p->views[i].name) > 1)
            has_german(room, to, p->views[i].shown);
        has_german(room, to, p->views[i].label);
        notions_have_german(room, to, &p->views[i].notions);
    }
    notions_have_german(room, to, &p->notions);
}

static void our_own_patterns_speak_german(void **state)
{
    struct room *room = *state;
    static const char *const files[] = { "demo/pinafore",        "demo/skirt",           "drafts/bias-strips",
                                         "drafts/bodice-block",  "drafts/circle-skirts", "drafts/gathered-skirts",
                                         "drafts/patch-pockets", "drafts/skirt-block",   "drafts/waistbands" };
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++)
        pattern_has_german(room, base_arena_print(room->a, "%s/%s.json", assets_folder, files[i]));
}

int main(int argc, char **argv)
{
    if (argc != 3)
        return 1;
    words_folder = argv[1];
    assets_folder = argv[2];
    const struct CMUnitTest tests[] = {
        room_test(what_is_shown_is_in_her_language),
        room_test(what_things_are_told_apart_by_is_as_it_is_written),
        room_test(a_language_that_is_lacking_shows_what_is_written),
        room_test(words_that_cannot_be_are_told),
        room_test(more_words_than_a_pattern_has_names_are_refused),
        room_test(our_own_patterns_speak_german),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
