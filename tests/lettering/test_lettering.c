#include "geometry/turn.h"
#include "lettering/lettering.h"
#include "support/room.h"
#include "text/faces.h"
#include "text/run.h"

#include <string.h>

/* Letters are drawn by an installed font; what is to be read is the text itself. */

struct sheet {
    struct arena *a;
    struct lettering_shape *shapes;
    size_t count, cap;
    struct text_font *font;
    const struct lettering_row *rows;
    size_t row_count;
};

static struct sheet sheet_of(struct arena *a)
{
    struct text_face_file file;
    struct sheet s = { .a = a };
    assert_int_equal(text_find_faces(a, &file, 1), 1);
    s.font = text_font_open_face(&file);
    assert_non_null(s.font);
    return s;
}

static void put(struct sheet *s, struct geometry_path path)
{
    s->shapes = base_arena_grow(s->a, s->shapes, &s->cap, s->count + 1, sizeof *s->shapes);
    s->shapes[s->count++] = (struct lettering_shape){ path, 0 };
}

static void write(struct sheet *s, const char *words, vec2 at, double cap, double degrees)
{
    struct text_run run = text_run_outline(s->a, s->font, words, cap);
    struct geometry_mover mover = geometry_mover_of((struct geometry_motion){ false, degrees, at });
    for (size_t i = 0; i < run.count; i++) {
        for (size_t k = 0; k < run.contours[i].count; k++)
            run.contours[i].points[k] = geometry_move(&mover, run.contours[i].points[k]);
        put(s, run.contours[i]);
    }
}

static void put_ring(struct sheet *s, vec2 at, double radius)
{
    struct geometry_path path = { base_arena_alloc(s->a, 24, sizeof(vec2)), 24, true };
    for (int i = 0; i < 24; i++) {
        double sine, cosine;
        geometry_sincos(15.0 * i, &sine, &cosine);
        path.points[i] = (vec2){ at.x + radius * cosine, at.y + radius * sine };
    }
    put(s, path);
}

static void put_box(struct sheet *s, double x, double y, double w, double h)
{
    struct geometry_path path = { base_arena_alloc(s->a, 4, sizeof(vec2)), 4, true };
    const vec2 corners[] = { { x, y }, { x + w, y }, { x + w, y + h }, { x, y + h } };
    memcpy(path.points, corners, sizeof corners);
    put(s, path);
}

static void read_all(struct sheet *s, const struct lettering_vocabulary *vocabulary)
{
    s->row_count = lettering_read(s->a, s->shapes, s->count, vocabulary, &s->rows);
    text_font_close(s->font);
}

static void words_are_read_whichever_way_they_run(void **state)
{
    static const double turns[] = { 0, 90, 180, -37 };
    for (size_t i = 0; i < sizeof turns / sizeof turns[0]; i++) {
        struct sheet s = sheet_of(*state);
        double sine, cosine;
        geometry_sincos(turns[i], &sine, &cosine);
        write(&s, "Sleeve cut 2 pairs", (vec2){ 300, 200 }, 5, turns[i]);
        read_all(&s, NULL);
        assert_int_equal(s.row_count, 1);
        assert_string_equal(s.rows[0].words, "Sleeve cut 2 pairs");
        assert_near(s.rows[0].cap_mm, 5, 0.4); /* it is told by the likest letters of all fonts */
        assert_near(s.rows[0].along.x, cosine, 0.003);
        assert_near(s.rows[0].along.y, sine, 0.003);
        assert_near(s.rows[0].at.x, 300, 0.6); /* an S begins within a ninth of its height */
        assert_near(s.rows[0].at.y, 200, 0.6);
    }
}

static void every_shape_of_a_letter_is_in_its_row(void **state)
{
    struct sheet s = sheet_of(*state);
    write(&s, "Bxij", (vec2){ 0, 0 }, 4, 0);
    size_t letters = s.count;
    assert_int_equal(letters, 8); /* B with two holes; x; i and j with their dots */
    put_box(&s, 0, -100, 30, 40); /* and no other */
    read_all(&s, NULL);
    assert_int_equal(s.row_count, 1);
    assert_string_equal(s.rows[0].words, "Bxij");
    assert_int_equal(s.rows[0].shape_count, letters);
}

static void a_frame_around_words_is_none_of_their_letters(void **state)
{
    struct sheet s = sheet_of(*state);
    write(&s, "Waistband", (vec2){ 10, 10 }, 4, 0);
    size_t letters = s.count;
    put_box(&s, 5, 5, 50, 15);
    read_all(&s, NULL);
    assert_int_equal(s.row_count, 1);
    assert_string_equal(s.rows[0].words, "Waistband");
    assert_int_equal(s.rows[0].shape_count, letters);
}

static void rows_and_columns_are_told_apart(void **state)
{
    struct sheet s = sheet_of(*state);
    write(&s, "Size 38", (vec2){ 0, 20 }, 4, 0);
    write(&s, "Front", (vec2){ 0, 13 }, 4, 0);
    write(&s, "Back", (vec2){ 60, 13 }, 4, 0);
    read_all(&s, NULL);
    assert_int_equal(s.row_count, 3);
    assert_string_equal(s.rows[0].words, "Size 38");
    assert_string_equal(s.rows[1].words, "Front");
    assert_string_equal(s.rows[2].words, "Back");
}

static void rings_and_boxes_in_a_row_are_no_words(void **state)
{
    struct sheet s = sheet_of(*state);
    for (int i = 0; i < 8; i++) {
        put_ring(&s, (vec2){ 6 * i, 0 }, 2);
        put_box(&s, 6 * i, 50, 0.6, 5);
        put_box(&s, 6 * i, 90, 5, 5);
    }
    read_all(&s, NULL);
    assert_int_equal(s.row_count, 0);
}

static bool is_lining(const char *word, void *user)
{
    ++*(int *)user;
    return strcmp(word, "lining") == 0;
}

/* With a capital I for its l, which is one stroke, too. */
static void a_known_word_is_taken_where_letters_are_alike(void **state)
{
    struct sheet s = sheet_of(*state);
    int asked = 0;
    write(&s, "Iining", (vec2){ 0, 0 }, 4, 0);
    read_all(&s, &(struct lettering_vocabulary){ is_lining, &asked });
    assert_int_equal(s.row_count, 1);
    assert_string_equal(s.rows[0].words, "lining");
    assert_false(s.rows[0].doubtful);
    assert_true(asked > 0);
}

/* Nonsense of any kind: each shape is in one row at most, and twice the same is read. */
static void anything_can_be_read(void **state)
{
    unsigned seed = 1;
    for (int round = 0; round < 4; round++) {
        struct sheet s = sheet_of(*state);
        for (int i = 0; i < 200; i++) {
            struct geometry_path path = { base_arena_alloc(s.a, 40, sizeof(vec2)), 0, true };
            double x = (seed = seed * 1103515245 + 12345) >> 16 & 127, size = 1 + (seed >> 8 & 15);
            for (unsigned n = (seed >> 20) % 40; path.count < n; path.count++) {
                seed = seed * 1103515245 + 12345;
                path.points[path.count] = (vec2){ x + size * (seed >> 16 & 7), 4 * round + size * (seed >> 20 & 7) };
            }
            put(&s, path);
        }
        write(&s, "Kragen", (vec2){ 20, 3 * round }, 3, 9 * round);
        read_all(&s, NULL);
        bool *met = base_arena_alloc(s.a, s.count, sizeof *met);
        for (size_t i = 0; i < s.row_count; i++)
            for (size_t k = 0; k < s.rows[i].shape_count; k++) {
                assert_true(s.rows[i].shapes[k] < s.count);
                assert_false(met[s.rows[i].shapes[k]]);
                met[s.rows[i].shapes[k]] = true;
            }
        const struct lettering_row *again;
        assert_int_equal(lettering_read(s.a, s.shapes, s.count, NULL, &again), s.row_count);
        for (size_t i = 0; i < s.row_count; i++)
            assert_string_equal(again[i].words, s.rows[i].words);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(words_are_read_whichever_way_they_run),
        room_arena_test(every_shape_of_a_letter_is_in_its_row),
        room_arena_test(a_frame_around_words_is_none_of_their_letters),
        room_arena_test(rows_and_columns_are_told_apart),
        room_arena_test(rings_and_boxes_in_a_row_are_no_words),
        room_arena_test(a_known_word_is_taken_where_letters_are_alike),
        room_arena_test(anything_can_be_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
