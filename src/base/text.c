#include "base/text.h"

#include <ctype.h>
#include <string.h>

enum { LONGEST_COMPARED = 64, LONGEST_SEQUENCE = 4 };

/* One row a class of lead byte: mask and value of the lead, bytes that follow, smallest code point allowed. */
static const struct {
    unsigned char mask, lead;
    int follow;
    unsigned long smallest;
} utf8_rows[] = {
    { 0x80, 0x00, 0, 0 },
    { 0xe0, 0xc0, 1, 0x80 },
    { 0xf0, 0xe0, 2, 0x800 },
    { 0xf8, 0xf0, 3, 0x10000 },
};

/* Decodes one code point from at most `left` bytes; returns the bytes it took, 0 when malformed. */
static size_t decode(const char *bytes, size_t left, unsigned long *point)
{
    unsigned char lead = (unsigned char)bytes[0];
    for (size_t r = 0; r < sizeof utf8_rows / sizeof utf8_rows[0]; r++) {
        if ((lead & utf8_rows[r].mask) != utf8_rows[r].lead)
            continue;
        size_t follow = (size_t)utf8_rows[r].follow;
        if (follow >= left)
            return 0;
        unsigned long value = lead & (unsigned char)~utf8_rows[r].mask;
        for (size_t i = 1; i <= follow; i++) {
            if (((unsigned char)bytes[i] & 0xc0) != 0x80)
                return 0;
            value = value << 6 | ((unsigned char)bytes[i] & 0x3f);
        }
        if (value < utf8_rows[r].smallest || value > 0x10ffff || (value >= 0xd800 && value <= 0xdfff))
            return 0;
        *point = value;
        return follow + 1;
    }
    return 0;
}

bool base_text_is_utf8(const char *bytes, size_t count)
{
    unsigned long point;
    for (size_t i = 0; i < count;) {
        size_t took = decode(bytes + i, count - i, &point);
        if (!took)
            return false;
        i += took;
    }
    return true;
}

unsigned long base_text_next(const char **text)
{
    unsigned long point = 0;
    size_t left = strnlen(*text, LONGEST_SEQUENCE); /* a long text is not counted over and over */
    if (!left)
        return 0;
    size_t took = decode(*text, left, &point);
    *text += took ? took : 1;
    return took ? point : 0xfffd;
}

static int smaller(int a, int b)
{
    return a < b ? a : b;
}

int base_text_distance(const char *a, const char *b, int limit)
{
    size_t na = strlen(a), nb = strlen(b);
    if (na > LONGEST_COMPARED || nb > LONGEST_COMPARED)
        return limit;
    int row[LONGEST_COMPARED + 1];
    for (size_t j = 0; j <= nb; j++)
        row[j] = (int)j;
    for (size_t i = 1; i <= na; i++) {
        int diagonal = row[0];
        row[0] = (int)i;
        for (size_t j = 1; j <= nb; j++) {
            int same = tolower((unsigned char)a[i - 1]) == tolower((unsigned char)b[j - 1]);
            int change = diagonal + (same ? 0 : 1);
            diagonal = row[j];
            row[j] = smaller(change, smaller(row[j], row[j - 1]) + 1);
        }
    }
    return smaller(row[nb], limit);
}

const char *base_text_nearest(const char *text, const char *const *names, size_t count)
{
    const char *nearest = NULL;
    int best = (int)(strlen(text) / 3) + 1;
    if (best > 3)
        best = 3;
    if (best >= (int)strlen(text))
        best = (int)strlen(text) - 1; /* with every character changed it is another word */
    for (size_t i = 0; i < count; i++) {
        int d = base_text_distance(text, names[i], best + 1);
        if (d <= best && (!nearest || d < best)) {
            nearest = names[i];
            best = d;
        }
    }
    return nearest;
}

size_t base_text_put(char out[4], unsigned long point)
{
    static const unsigned lead[] = { 0, 0, 0xc0, 0xe0, 0xf0 };
    size_t count = point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
    for (size_t i = count; i-- > 1; point >>= 6)
        out[i] = (char)(0x80 | (point & 0x3f));
    out[0] = (char)(lead[count] | point);
    return count;
}

void base_text_type(char *text, size_t size, unsigned long point)
{
    char bytes[4];
    size_t length = strlen(text), more = base_text_put(bytes, point);
    if (length + more >= size)
        return;
    memcpy(text + length, bytes, more);
    text[length + more] = '\0';
}

void base_text_rub_out(char *text)
{
    size_t length = strlen(text);
    while (length && ((unsigned char)text[--length] & 0xc0) == 0x80)
        ;
    text[length] = '\0';
}

size_t base_text_letters(const char *text)
{
    size_t count = 0;
    while (base_text_next(&text))
        count++;
    return count;
}

const char *base_text_behind(const char *text, const char *word)
{
    size_t length = strlen(word);
    return text && strncmp(text, word, length) == 0 ? text + length : NULL;
}

/* How many bytes the letter at the start has; 1 where what stands there is none. */
static size_t letter_bytes(const char *text)
{
    size_t left = strnlen(text, 4);
    for (size_t count = 2; count <= left; count++)
        if (base_text_is_utf8(text, count) && (unsigned char)*text >= 0x80)
            return count;
    return 1;
}

const char *base_text_plain(struct arena *a, const char *text)
{
    char *plain = base_arena_copy_text(a, text);
    for (char *p = plain; *p; p += letter_bytes(p)) {
        bool controls = ((unsigned char)*p < 0x20 && *p != '\n') || *p == 0x7f;
        if (controls || ((unsigned char)*p >= 0x80 && letter_bytes(p) == 1))
            *p = '?';
    }
    return plain;
}

const char *base_text_capital(struct arena *a, const char *text)
{
    char *copy = base_arena_copy_text(a, text);
    if (*copy >= 'a' && *copy <= 'z')
        *copy = (char)(*copy - 'a' + 'A');
    return copy;
}

const char *base_text_one_line(struct arena *a, const char *text)
{
    char *line = base_arena_copy_text(a, text);
    for (char *p = line; *p; p++)
        if (*p == '\n' || *p == '\r')
            *p = ' ';
    return line;
}

const char *base_text_cut(struct arena *a, const char *text, size_t letters)
{
    if (base_text_letters(text) <= letters)
        return text;
    const char *end = text;
    for (size_t i = 1; i < letters; i++)
        base_text_next(&end);
    return base_arena_print(a, "%.*s…", (int)(end - text), text);
}

static bool is_plain_byte(unsigned char byte)
{
    return byte >= 0x80 || isalnum(byte) || strchr("-_.,/+:=@%", byte) != NULL;
}

/* Single quotes take all but themselves, which stand outside, behind a backslash. */
static const char *in_single_quotes(struct arena *a, const char *text)
{
    const char *out = "'";
    for (; *text; text++)
        out = *text == '\'' ? base_arena_print(a, "%s'\\''", out) : base_arena_print(a, "%s%c", out, *text);
    return base_arena_print(a, "%s'", out);
}

const char *base_text_typed(struct arena *a, const char *text)
{
    size_t plain = 0;
    while (text[plain] && is_plain_byte((unsigned char)text[plain]))
        plain++;
    if (plain && !text[plain])
        return base_arena_copy_text(a, text);
    return strpbrk(text, "\"$`\\!") ? in_single_quotes(a, text) : base_arena_print(a, "\"%s\"", text);
}
