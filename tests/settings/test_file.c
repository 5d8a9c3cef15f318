/* Settings as a file: what comes back, what stays, and what is told. */
#include "settings/settings.h"

#include "base/file.h"
#include "support/folder.h"
#include "support/room.h"
#include "json/tree.h"

#include <stdlib.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define OPENING "{ 'chalklight': 'settings', 'version': 1"

static const char *put(struct room *room, const char *text)
{
    return room_put(room, "settings.json", room_json(room, text));
}

static struct settings *open_at(struct room *room, const char *path)
{
    return settings_open(room->a, path, room->errs);
}

static const char *shown(struct room *room, const char *path, enum settings_name name)
{
    return settings_shown(room->a, open_at(room, path), name);
}

static const char *text_of(struct room *room, const char *path)
{
    struct base_bytes bytes;
    assert_true(base_file_read(room->a, path, 100000, &bytes, room->errs));
    return bytes.data;
}

static void save(struct room *room, struct settings *s)
{
    if (!settings_save(s, room->errs)) {
        room_print_told(room);
        fail();
    }
}

static void no_file_is_no_matter_and_none_is_made_for_nothing(void **state)
{
    struct room *room = *state;
    const char *path = room_path(room, "config/chalklight/settings.json");
    struct settings *s = open_at(room, path);
    save(room, s);
    assert_false(base_file_exists(path));
    settings_set_word(s, SETTINGS_UNIT, SETTINGS_UNIT_INCHES);
    save(room, s);
    room_nothing_told(room);
    assert_int_equal(settings_word(open_at(room, path), SETTINGS_UNIT), SETTINGS_UNIT_INCHES);
}

static void every_setting_comes_back(void **state)
{
    struct room *room = *state;
    const char *path = room_path(room, "settings.json"), *keys[] = { "tick = space", "\"quoted\" = \\" };
    struct settings *s = open_at(room, path);
    settings_set_word(s, SETTINGS_UNIT, SETTINGS_UNIT_CM);
    settings_set_word(s, SETTINGS_LANGUAGE, SETTINGS_LANGUAGE_GERMAN);
    settings_set_word(s, SETTINGS_NIGHT, SETTINGS_NIGHT_NO);
    settings_set_number(s, SETTINGS_BENCH_SIZE, -1);
    assert_true(settings_set_text(s, SETTINGS_PROJECTOR, "Größe 7\""));
    settings_set_word(s, SETTINGS_SIDE, SETTINGS_LEFT);
    settings_set_word(s, SETTINGS_HAND, SETTINGS_HAND_LEFT);
    settings_set_word(s, SETTINGS_STRIP, SETTINGS_FAR);
    settings_set_word(s, SETTINGS_WAY, SETTINGS_WAY_CHALK_ALL);
    settings_set_word(s, SETTINGS_CHALK, 2);
    settings_set_number(s, SETTINGS_ROOM_LUX, 90);
    settings_set_number(s, SETTINGS_LIGHT_LUX, 2000);
    settings_set_number(s, SETTINGS_LOCKOUT_MS, 0);
    assert_true(settings_set_texts(s, SETTINGS_KEYS, keys, 2));
    assert_true(settings_set_text(s, SETTINGS_CAUTIONED, "2026-11-30"));
    assert_true(settings_put_first(s, SETTINGS_RECENT, "/a b/c.json"));
    save(room, s);
    struct settings *back = open_at(room, path);
    for (int i = 0; i < SETTINGS_COUNT; i++) {
        enum settings_name name = (enum settings_name)i;
        assert_false(settings_is_usual(back, name));
        assert_string_equal(settings_shown(room->a, back, name), settings_shown(room->a, s, name));
    }
    assert_string_equal(settings_shown(room->a, back, SETTINGS_CHALK), "lemon");
    assert_string_equal(settings_shown(room->a, back, SETTINGS_KEYS), "tick = space; \"quoted\" = \\");
    room_nothing_told(room);
}

static void what_is_set_back_leaves_the_file(void **state)
{
    struct room *room = *state;
    const char *path = put(room, OPENING ", 'unit': 'inches', 'hand': 'left' }");
    struct settings *s = open_at(room, path);
    settings_forget(s, SETTINGS_UNIT);
    save(room, s);
    assert_string_equal(text_of(room, path),
                        "{\n  \"chalklight\": \"settings\",\n  \"version\": 1,\n  \"hand\": \"left\"\n}\n");
}

static void wrong_values_are_told_and_the_rest_holds(void **state)
{
    static const struct {
        const char *text, *path;
    } rows[] = {
        { "'unit': 'furlongs'", "unit" },
        { "'unit': 'Inches'", "unit" },
        { "'unit': 1", "unit" },
        { "'side': null", "side" },
        { "'bench_size': 0.5", "bench_size" },
        { "'lockout_ms': 2001", "lockout_ms" },
        { "'lockout_ms': '400'", "lockout_ms" },
        { "'projector': ''", "projector" },
        { "'projector': ['a']", "projector" },
        { "'cautioned': '2026-02-30'", "cautioned" },
        { "'keys': 'tick = space'", "keys" },
        { "'keys': ['tick = space', 4]", "keys[1]" },
        { "'recent': ['']", "recent[0]" },
    };
    struct room *room = *state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *path = put(room, base_arena_print(room->a, OPENING ", 'hand': 'left',\n%s }", rows[i].text));
        struct settings *s = open_at(room, path);
        const struct err *e = room_only_told_at(room, "settings.wrong_value", rows[i].path);
        assert_int_equal(e->kind->severity, ERR_WARNING);
        assert_int_equal(e->place.line, 2);
        assert_int_equal(settings_word(s, SETTINGS_HAND), SETTINGS_HAND_LEFT);
        room_forget(room);
    }
}

static void too_many_keys_are_told_and_too_many_jobs_are_not(void **state)
{
    struct room *room = *state;
    const char *list = "'0'";
    for (int i = 1; i <= 100; i++)
        list = base_arena_print(room->a, "%s, '%d'", list, i);
    const char *path = put(room, base_arena_print(room->a, OPENING ", 'keys': [%s], 'recent': [%s] }", list, list));
    struct settings *s = open_at(room, path);
    room_only_told_at(room, "settings.wrong_value", "keys");
    assert_string_equal(settings_shown(room->a, s, SETTINGS_RECENT), "0; 1; 2; 3; 4; 5; 6; 7; 8; 9");
}

/* A newer program's names and words are not lost by an older one. */
static void what_is_not_known_stays(void **state)
{
    struct room *room = *state;
    const char *path = put(room, OPENING ", 'language': 'Danish', 'hand': 'left', 'glow': { 'a': [1, { 'b': null }] }, "
                                         "'loud': true }");
    struct settings *s = open_at(room, path);
    room_only_told_at(room, "settings.wrong_value", "language");
    room_forget(room);
    settings_set_word(s, SETTINGS_HAND, SETTINGS_HAND_RIGHT);
    save(room, s);
    const struct json_node *top = json_read_file(room->a, path, room->errs);
    room_nothing_told(room);
    assert_string_equal(json_find(top, "language")->text, "Danish");
    assert_string_equal(json_find(top, "hand")->text, "right");
    assert_int_equal(json_find(top, "loud")->type, JSON_TRUE);
    assert_int_equal(json_find(json_find(json_find(top, "glow"), "a")->first->next, "b")->type, JSON_NULL);
    settings_set_word(s, SETTINGS_LANGUAGE, SETTINGS_LANGUAGE_ENGLISH);
    save(room, s);
    assert_string_equal(shown(room, path, SETTINGS_LANGUAGE), "English");
    room_nothing_told(room);
}

/* As deep as a file may be (json/lines.h): the object and 63 lists in it. */
static void what_lies_deep_stays(void **state)
{
    struct room *room = *state;
    char opened[64], closed[64];
    memset(opened, '[', 63);
    memset(closed, ']', 63);
    opened[63] = closed[63] = '\0';
    const char *path = put(room, base_arena_print(room->a, OPENING ", 'deep': %s%s }", opened, closed));
    struct settings *s = open_at(room, path);
    settings_set_word(s, SETTINGS_HAND, SETTINGS_HAND_LEFT);
    save(room, s);
    const struct json_node *node = json_find(json_read_file(room->a, path, room->errs), "deep");
    int levels = 0;
    for (; node; node = node->first)
        levels++;
    assert_int_equal(levels, 63);
    room_nothing_told(room);
}

/* Two programs have it open; each saves what it set, over what the other has saved. */
static void what_others_set_meanwhile_stays(void **state)
{
    struct room *room = *state;
    const char *path = put(room, OPENING ", 'unit': 'cm', 'recent': ['/old.json'] }");
    struct settings *one = open_at(room, path), *other = open_at(room, path);
    settings_set_word(one, SETTINGS_UNIT, SETTINGS_UNIT_INCHES);
    settings_set_word(one, SETTINGS_SIDE, SETTINGS_FAR);
    assert_true(settings_put_first(one, SETTINGS_RECENT, "/one.json"));
    settings_set_number(other, SETTINGS_LOCKOUT_MS, 300);
    settings_set_word(other, SETTINGS_SIDE, SETTINGS_LEFT);
    assert_true(settings_put_first(other, SETTINGS_RECENT, "/other.json"));
    save(room, one);
    save(room, other);
    assert_string_equal(shown(room, path, SETTINGS_UNIT), "inches");
    assert_string_equal(shown(room, path, SETTINGS_LOCKOUT_MS), "300");
    assert_string_equal(shown(room, path, SETTINGS_SIDE), "left"); /* the last one saved */
    assert_string_equal(shown(room, path, SETTINGS_RECENT), "/other.json; /one.json; /old.json");
    settings_set_word(one, SETTINGS_HAND, SETTINGS_HAND_LEFT); /* what it saved before is not saved again */
    save(room, one);
    assert_string_equal(shown(room, path, SETTINGS_SIDE), "left");
    settings_forget(one, SETTINGS_RECENT);
    save(room, one);
    assert_string_equal(shown(room, path, SETTINGS_RECENT), "");
    room_nothing_told(room);
}

/* A program of its own: adds jobs, one save each. */
static void add_jobs(const char *path, int who)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    bool ok = true;
    for (int i = 0; i < 5 && ok; i++) {
        struct settings *s = settings_open(a, path, errs);
        ok = settings_put_first(s, SETTINGS_RECENT, base_arena_print(a, "/%d/%d.json", who, i)) &&
             settings_save(s, errs) && errs->count == 0;
    }
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    _exit(ok ? 0 : 1);
}

static void two_programs_at_once_lose_nothing_of_each_other(void **state)
{
    struct room *room = *state;
    const char *path = put(room, OPENING " }");
    for (int who = 0; who < 2; who++) {
        pid_t pid = fork();
        assert_true(pid >= 0);
        if (pid == 0)
            add_jobs(path, who);
    }
    for (int who = 0; who < 2; who++) {
        int status = -1;
        assert_true(wait(&status) > 0);
        assert_int_equal(status, 0);
    }
    const char *const *jobs;
    assert_int_equal(settings_texts(open_at(room, path), SETTINGS_RECENT, &jobs), 10);
    room_nothing_told(room);
}

static const char *const damaged_texts[] = {
    "{ 'chalklight': 'settings', 'version': 1, 'unit': ",
    "",
    "[]",
    "{ 'chalklight': 'body', 'version': 1 }",
    "{ 'unit': 'cm' }",
    "{ 'chalklight': 'settings', 'version': 1, 'unit': 'cm', 'unit': 'inches' }",
};

static void a_damaged_file_is_kept_beside(void **state)
{
    struct room *room = *state;
    for (size_t i = 0; i < sizeof damaged_texts / sizeof damaged_texts[0]; i++) {
        const char *path = put(room, damaged_texts[i]);
        const char *name = i ? base_arena_print(room->a, "settings.json.old%zu", i + 1) : "settings.json.old";
        struct settings *s = open_at(room, path);
        assert_true(base_err_list_has(room->errs, "settings.damaged"));
        assert_true(room->errs->count >= 2 && room->errs->faults == 0); /* what is wrong, and what is done about it */
        assert_true(settings_is_usual(s, SETTINGS_UNIT));
        room_forget(room);
        save(room, s);
        assert_string_equal(text_of(room, path), room_json(room, damaged_texts[i])); /* nothing to save: left there */
        settings_set_word(s, SETTINGS_HAND, SETTINGS_HAND_LEFT);
        save(room, s);
        room_only_told(room, "settings.kept");
        room_forget(room);
        assert_string_equal(text_of(room, room_path(room, name)), room_json(room, damaged_texts[i]));
        assert_string_equal(shown(room, path, SETTINGS_HAND), "left");
        room_nothing_told(room);
    }
}

static void a_newer_file_is_not_written_over(void **state)
{
    struct room *room = *state;
    const char *text = "{ 'chalklight': 'settings', 'version': 2, 'hand': 'both' }", *path = put(room, text);
    struct settings *s = open_at(room, path);
    assert_true(base_err_list_has(room->errs, "json.newer") && base_err_list_has(room->errs, "settings.newer"));
    assert_int_equal(room->errs->faults, 0);
    room_forget(room);
    settings_set_word(s, SETTINGS_HAND, SETTINGS_HAND_LEFT);
    assert_false(settings_save(s, room->errs));
    room_only_told(room, "settings.newer_stays");
    assert_string_equal(text_of(room, path), room_json(room, text));
    assert_int_equal(support_folder_count(room->folder), 1);
}

static void what_cannot_be_saved_is_told_and_tried_again(void **state)
{
    struct room *room = *state;
    const char *path = room_path(room, "settings.json");
    assert_int_equal(mkdir(path, 0777), 0);
    struct settings *s = open_at(room, path);
    assert_true(base_err_list_has(room->errs, "settings.damaged"));
    room_forget(room);
    settings_set_word(s, SETTINGS_HAND, SETTINGS_HAND_LEFT);
    assert_false(settings_save(s, room->errs));
    room_only_told(room, "file.cannot_save");
    assert_int_equal(rmdir(path), 0);
    save(room, s);
    assert_string_equal(shown(room, path, SETTINGS_HAND), "left");
}

static void without_a_home_nothing_is_saved(void **state)
{
    struct room *room = *state;
    struct settings *s = open_at(room, NULL);
    save(room, s);
    room_nothing_told(room);
    settings_set_word(s, SETTINGS_HAND, SETTINGS_HAND_LEFT);
    assert_false(settings_save(s, room->errs));
    room_only_told(room, "settings.no_home");
}

/* XDG Base Directory Specification 0.8: $XDG_CONFIG_HOME, $HOME/.config. */
static void the_path_is_among_the_person_s_configuration(void **state)
{
    struct arena *a = *state;
    assert_int_equal(setenv("XDG_CONFIG_HOME", "/some/config", 1), 0);
    assert_string_equal(settings_path(a), "/some/config/chalklight/settings.json");
    assert_int_equal(unsetenv("XDG_CONFIG_HOME"), 0);
    assert_int_equal(setenv("HOME", "/some", 1), 0);
    assert_string_equal(settings_path(a), "/some/.config/chalklight/settings.json");
    assert_int_equal(unsetenv("HOME"), 0);
    assert_null(settings_path(a));
}

static void proof_reading_tells_of_unknown_names_too(void **state)
{
    struct room *room = *state;
    assert_non_null(settings_read(room->a, put(room, OPENING ", 'units': 'cm' }"), room->errs));
    assert_int_equal(room_only_told_at(room, "settings.unknown", "units")->kind->severity, ERR_WARNING);
    room_forget(room);
    assert_null(settings_read(room->a, put(room, "{ 'chalklight': 'mat', 'version': 1 }"), room->errs));
    assert_int_equal(room_only_told(room, "json.other_kind")->kind->severity, ERR_FAULT);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(no_file_is_no_matter_and_none_is_made_for_nothing),
        room_test(every_setting_comes_back),
        room_test(what_is_set_back_leaves_the_file),
        room_test(wrong_values_are_told_and_the_rest_holds),
        room_test(too_many_keys_are_told_and_too_many_jobs_are_not),
        room_test(what_is_not_known_stays),
        room_test(what_lies_deep_stays),
        room_test(what_others_set_meanwhile_stays),
        room_test(two_programs_at_once_lose_nothing_of_each_other),
        room_test(a_damaged_file_is_kept_beside),
        room_test(a_newer_file_is_not_written_over),
        room_test(what_cannot_be_saved_is_told_and_tried_again),
        room_test(without_a_home_nothing_is_saved),
        room_arena_test(the_path_is_among_the_person_s_configuration),
        room_test(proof_reading_tells_of_unknown_names_too),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
