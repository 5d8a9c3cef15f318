#include "lettering/alphabet.h"

#include "base/text.h"
#include "lettering/drawn.h"
#include "text/faces.h"
#include "text/run.h"

#include <string.h>

enum { FACES_MOST = 24, CONTOURS_MOST = 12 };

#define SLANT 0.2   /* of a slanted letter: 11°, common practice, no source */
#define ALIKE 0.005 /* apart: a letter that another font has so, too */
#define ALIKE_HIGH 0.02

/* What is drawn, and the text it stands for. */
static const struct {
    const char *drawn, *text;
} letters[] = {
    { "?", "?" },  { "A", "A" },  { "B", "B" },  { "C", "C" },  { "D", "D" }, { "E", "E" },   { "F", "F" },
    { "G", "G" },  { "H", "H" },  { "I", "I" },  { "J", "J" },  { "K", "K" }, { "L", "L" },   { "M", "M" },
    { "N", "N" },  { "O", "O" },  { "P", "P" },  { "Q", "Q" },  { "R", "R" }, { "S", "S" },   { "T", "T" },
    { "U", "U" },  { "V", "V" },  { "W", "W" },  { "X", "X" },  { "Y", "Y" }, { "Z", "Z" },   { "a", "a" },
    { "b", "b" },  { "c", "c" },  { "d", "d" },  { "e", "e" },  { "f", "f" }, { "g", "g" },   { "h", "h" },
    { "i", "i" },  { "j", "j" },  { "k", "k" },  { "l", "l" },  { "m", "m" }, { "n", "n" },   { "o", "o" },
    { "p", "p" },  { "q", "q" },  { "r", "r" },  { "s", "s" },  { "t", "t" }, { "u", "u" },   { "v", "v" },
    { "w", "w" },  { "x", "x" },  { "y", "y" },  { "z", "z" },  { "0", "0" }, { "1", "1" },   { "2", "2" },
    { "3", "3" },  { "4", "4" },  { "5", "5" },  { "6", "6" },  { "7", "7" }, { "8", "8" },   { "9", "9" },
    { "Ä", "Ä" },  { "Ö", "Ö" },  { "Ü", "Ü" },  { "ä", "ä" },  { "ö", "ö" }, { "ü", "ü" },   { "ß", "ß" },
    { "é", "é" },  { "è", "è" },  { "à", "à" },  { "ç", "ç" },  { "ñ", "ñ" }, { ".", "." },   { ",", "," },
    { ":", ":" },  { ";", ";" },  { "-", "-" },  { "–", "-" },  { "/", "/" }, { "(", "(" },   { ")", ")" },
    { "+", "+" },  { "&", "&" },  { "×", "x" },  { "%", "%" },  { "'", "'" }, { "\"", "\"" }, { "!", "!" },
    { "=", "=" },  { "#", "#" },  { "*", "*" },  { "½", "½" },  { "¼", "¼" }, { "¾", "¾" },   { "°", "°" },
    { "’", "'" },  { "“", "\"" }, { "”", "\"" }, { "„", "\"" }, { "_", "_" }, { "@", "@" },   { "ﬁ", "fi" },
    { "ﬂ", "fl" }, { "ﬀ", "ff" }, { "©", "©" },  { "→", "→" },
};

enum { LETTER_COUNT = sizeof letters / sizeof letters[0] };

struct filling {
    struct arena *a;
    struct lettering_sort *sorts;
    size_t count, cap;
    size_t first_of[LETTER_COUNT], next_cap; /* the last sort of each letter + 1 */
    size_t *before;                          /* for each sort the one before of the same letter + 1 */
};

const char *lettering_letter_text(int letter)
{
    return letters[letter].text;
}

static bool is_known(const struct filling *f, const struct lettering_sort *sort)
{
    for (size_t at = f->first_of[sort->letter]; at; at = f->before[at - 1]) {
        const struct lettering_sort *old = &f->sorts[at - 1];
        if (fabs(old->top - sort->top) < ALIKE_HIGH && fabs(old->bottom - sort->bottom) < ALIKE_HIGH &&
            lettering_forms_apart(&old->form, &sort->form, ALIKE) < ALIKE)
            return true;
    }
    return false;
}

static void put(struct filling *f, const struct lettering_sort *sort)
{
    if (is_known(f, sort))
        return;
    f->sorts = base_arena_grow(f->a, f->sorts, &f->cap, f->count + 1, sizeof *f->sorts);
    f->before = base_arena_grow(f->a, f->before, &f->next_cap, f->count + 1, sizeof *f->before);
    f->before[f->count] = f->first_of[sort->letter];
    f->sorts[f->count++] = *sort;
    f->first_of[sort->letter] = f->count;
}

static void put_run(struct filling *f, int letter, struct text_run run)
{
    struct lettering_sort sort = { .letter = letter, .form = lettering_form_of(run.contours, run.count) };
    struct geometry_box box = geometry_box_empty();
    for (size_t i = 0; i < run.count; i++)
        box = geometry_box_join(box, geometry_path_box(run.contours[i]));
    sort.bottom = box.min.y;
    sort.top = box.max.y;
    if (sort.form.height > 0)
        put(f, &sort);
}

static void slant(struct text_run run)
{
    for (size_t i = 0; i < run.count; i++)
        for (size_t k = 0; k < run.contours[i].count; k++)
            run.contours[i].points[k].x += SLANT * run.contours[i].points[k].y;
}

static void put_slanted(struct filling *f, int letter, struct text_run run)
{
    slant(run);
    put_run(f, letter, run);
}

static void put_letter(struct filling *f, struct arena *work, struct text_font *font, int letter, bool upright)
{
    const char *drawn = letters[letter].drawn, *at = drawn;
    if (!text_font_has(font, base_text_next(&at)))
        return;
    struct text_run run = text_run_outline(work, font, drawn, 1);
    if (run.count > CONTOURS_MOST)
        return;
    put_run(f, letter, run);
    if (upright)
        put_slanted(f, letter, run);
}

static void put_face(struct filling *f, const struct text_face_file *file)
{
    struct text_font *font = text_font_open_face(file);
    struct arena *work = base_arena_create();
    for (int i = 0; i < LETTER_COUNT && font; i++)
        put_letter(f, work, font, i, !file->slanted);
    base_arena_destroy(work);
    text_font_close(font);
}

static int letter_called(const char *text)
{
    int letter = 0;
    while (strcmp(letters[letter].text, text) != 0)
        letter++;
    return letter;
}

static void put_drawn(struct filling *f)
{
    struct arena *work = base_arena_create();
    for (size_t form = 0; form < DRAWN_FORMS; form++)
        for (size_t weight = 0; weight < DRAWN_WEIGHTS; weight++) {
            struct text_run run = lettering_draw(work, form, weight);
            put_run(f, letter_called(lettering_drawn_letter(form)), run);
            put_slanted(f, letter_called(lettering_drawn_letter(form)), run);
        }
    base_arena_destroy(work);
}

struct lettering_alphabet lettering_alphabet_of_fonts(struct arena *a)
{
    struct text_face_file files[FACES_MOST];
    struct filling f = { .a = a };
    size_t count = text_find_faces(a, files, FACES_MOST);
    for (size_t i = 0; i < count; i++)
        put_face(&f, &files[i]);
    if (f.count)
        put_drawn(&f);
    return (struct lettering_alphabet){ f.sorts, f.count, LETTER_COUNT };
}
