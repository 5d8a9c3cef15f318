#include "drawing/written.h"
#include "base/text.h"
#include "units/length.h"
#include "units/number.h"

#include <ctype.h>
#include <math.h>
#include <stdbool.h>
#include <string.h>

#define SAME_SHARE 1e-6

/* "2 in lining" is no length; with one of these behind it, or none, "in" is the inch. */
static const char *const behind_inch[] = { "x",    "by",    "square",  "squares", "sq",   "test", "box",  "check",
                                           "and",  "or",    "scale",   "high",    "wide", "tall", "long", "each",
                                           "side", "sides", "control", "quadrat", "grid", "when" };

enum { BEHIND_INCH = sizeof behind_inch / sizeof behind_inch[0] };

static bool is_digit(char c)
{
    return isdigit((unsigned char)c) != 0;
}

static bool is_letter(char c)
{
    return isalpha((unsigned char)c) != 0;
}

/* Whether these letters are the word, in small or capital letters. */
static bool is_word(const char *letters, size_t count, const char *word)
{
    size_t same = 0;
    while (same < count && tolower((unsigned char)letters[same]) == word[same])
        same++;
    return same == count && !word[same];
}

static bool is_times(unsigned long point)
{
    return point == 'x' || point == 'X' || point == '*' || point == 0xd7 || point == 0x2715 || point == 0x2a2f;
}

/* The next that is no space, or the end. */
static char next_mark(const char *at)
{
    units_skip_space(&at);
    return *at;
}

/* A comma between digits that does not part thousands. */
static bool is_decimal_comma(const char *text, size_t at)
{
    return text[at] == ',' && at && is_digit(text[at - 1]) && is_digit(text[at + 1]) &&
           strspn(text + at + 1, "0123456789") != 3;
}

/* A hyphen in "4-inch" or "1-1/2". */
static bool is_joining(const char *text, size_t at)
{
    return text[at] == '-' && at && is_digit(text[at - 1]) && (is_letter(text[at + 1]) || is_digit(text[at + 1]));
}

/* Whether the letters that end before `at` are a word of their own other than a unit: the "bo" of "box 10 cm". */
static bool ends_word(const char *text, size_t at)
{
    static const char *const units[] = { "mm", "cm", "in", "inch", "zoll" };
    size_t first = at;
    while (first && is_letter(text[first - 1]))
        first--;
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++)
        if (is_word(text + first, at - first, units[i]))
            return false;
    return at > first;
}

/* The same text with decimal points, and with "x" standing apart between two sizes, as the readers of lengths have it.
 */
static const char *plain(struct arena *a, const char *words)
{
    char *out = base_arena_alloc(a, 3 * strlen(words) + 1, 1), *to = out;
    for (const char *at = words; *at;) {
        const char *after = at;
        unsigned long point = base_text_next(&after);
        size_t here = (size_t)(at - words);
        if (is_times(point) && is_digit(next_mark(after)) && !ends_word(words, here)) {
            *to++ = ' ';
            *to++ = 'x';
            *to++ = ' ';
        } else if (is_decimal_comma(words, here)) {
            *to++ = '.';
        } else if (is_joining(words, here)) {
            *to++ = ' ';
        } else {
            memcpy(to, at, (size_t)(after - at));
            to += after - at;
        }
        at = after;
    }
    return out;
}

/* Whether "in", which ends before `at`, means inches. */
static bool means_inches(const char *at)
{
    units_skip_space(&at);
    if (!is_letter(*at))
        return true;
    size_t length = 0;
    while (is_letter(at[length]))
        length++;
    for (size_t i = 0; i < BEHIND_INCH; i++)
        if (is_word(at, length, behind_inch[i]))
            return true;
    return false;
}

static bool read_length(const char **at, double *mm)
{
    const char *ahead = *at;
    if (!units_read_length(&ahead, mm))
        return false;
    if (tolower((unsigned char)ahead[-1]) == 'n' && tolower((unsigned char)ahead[-2]) == 'i' && !means_inches(ahead))
        return false;
    *at = ahead;
    return true;
}

static bool read_number(const char **at, double *out)
{
    return units_read_mixed(at, out) || units_read_point_decimal(at, out);
}

static bool read_times(const char **at)
{
    const char *ahead = *at;
    units_skip_space(&ahead);
    if (*ahead != 'x' || ahead == *at)
        return false;
    ahead++;
    units_skip_space(&ahead);
    *at = ahead;
    return true;
}

/* A length, or two with "x" between them where the first may be a bare number in the second's unit. False where none
 * stands; *mm is 0 where it is no side of a square. */
static bool read_side(const char **at, double *mm)
{
    const char *ahead = *at;
    double bare = 0, second;
    bool has_unit = read_length(&ahead, mm);
    if (!has_unit && !read_number(&ahead, &bare))
        return false;
    *at = ahead;
    const char *number = NULL;
    if (read_times(&ahead) && (number = ahead, read_length(&ahead, &second))) {
        double amount;
        read_number(&number, &amount);
        double first = has_unit ? *mm : amount > 0 ? second * bare / amount : 0;
        *mm = fabs(first - second) <= SAME_SHARE * second ? second : 0;
        *at = ahead;
        return true;
    }
    if (!has_unit)
        *mm = 0;
    return true;
}

static bool is_new(const double *sides_mm, size_t count, double mm)
{
    for (size_t i = 0; i < count; i++)
        if (fabs(sides_mm[i] - mm) <= SAME_SHARE * mm)
            return false;
    return true;
}

size_t drawing_written_sides(struct arena *a, const char *words, double sides_mm[DRAWING_WRITTEN_MOST])
{
    const char *at = plain(a, words);
    size_t count = 0;
    bool starts = true; /* no letter or digit stands before */
    while (*at && count < DRAWING_WRITTEN_MOST) {
        double mm = 0;
        if (starts && read_side(&at, &mm)) {
            if (mm > 0 && is_new(sides_mm, count, mm))
                sides_mm[count++] = mm;
            starts = false;
            continue;
        }
        starts = !is_letter(*at) && !is_digit(*at) && *at != '.' && *at != '/';
        base_text_next(&at);
    }
    return count;
}
