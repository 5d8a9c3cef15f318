/* The quick way through a PDF's numbers and one-letter operators. Most of a drawn sheet is coordinates, and MuPDF takes
 * half of its time to read them: byte by byte, into a text, which it then turns into a number. The linker lets this
 * stand in front of MuPDF's pdf_lex (--wrap, see CMakeLists.txt): what is plain and lies whole in the stream's buffer
 * is read here; all else (and all that is odd, so that MuPDF decides what it means) is left to MuPDF, with the stream
 * where it was. */
#include "sheet_reader/mupdf.h"

#include <stdbool.h>

/* So many digits are whole numbers in a double, and so are the powers of ten they are divided by: the quotient is
 * rounded once, then once more to MuPDF's float. What MuPDF makes of more before the point is its own affair. */
enum { DIGITS_MOST = 15, WHOLE_DIGITS_MOST = 9 };

static const double powers[DIGITS_MOST + 1] = { 1,   1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15 };

/* MuPDF's two classes of characters that end a number or a name. */
enum { WHITE = 1, DELIMITER = 2 };
static const unsigned char classes[256] = {
    [0] = WHITE,       ['\t'] = WHITE,    ['\n'] = WHITE,    ['\f'] = WHITE,    ['\r'] = WHITE,    [' '] = WHITE,
    ['('] = DELIMITER, [')'] = DELIMITER, ['<'] = DELIMITER, ['>'] = DELIMITER, ['['] = DELIMITER, [']'] = DELIMITER,
    ['{'] = DELIMITER, ['}'] = DELIMITER, ['/'] = DELIMITER, ['%'] = DELIMITER,
};

struct digits {
    const unsigned char *at;
    int64_t value;
    int count;
};

/* Goes on with what was read before; never past `end`. */
static void read_digits(struct digits *d, const unsigned char *end)
{
    while (d->at < end && *d->at >= '0' && *d->at <= '9' && d->count <= DIGITS_MOST) {
        d->value = d->value * 10 + (*d->at++ - '0');
        d->count++;
    }
}

/* A sign or none, digits, perhaps a point among them. Where the number ends, or NULL when it is not for here. */
static const unsigned char *read_number(const unsigned char *at, const unsigned char *end, pdf_lexbuf *buf,
                                        pdf_token *token)
{
    bool below = *at == '-', whole = true;
    struct digits d = { at + (below || *at == '+'), 0, 0 };
    read_digits(&d, end);
    int before = d.count;
    if (d.at < end && *d.at == '.') {
        whole = false;
        d.at++;
        read_digits(&d, end);
    }
    if (d.at == end || !classes[*d.at] || !d.count || before > WHOLE_DIGITS_MOST || d.count > DIGITS_MOST)
        return NULL;
    int64_t value = below ? -d.value : d.value;
    if (whole)
        buf->i = value;
    else
        buf->f = (float)((double)value / powers[d.count - before]);
    *token = whole ? PDF_TOK_INT : PDF_TOK_REAL;
    return d.at;
}

/* A letter alone is an operator, but R, which belongs to a reference. */
static const unsigned char *read_letter(const unsigned char *at, const unsigned char *end, pdf_lexbuf *buf,
                                        pdf_token *token)
{
    if (at + 1 >= end || !classes[at[1]])
        return NULL;
    buf->scratch[0] = (char)*at;
    buf->scratch[1] = 0;
    buf->len = 1;
    *token = PDF_TOK_KEYWORD;
    return at + 1;
}

pdf_token __real_pdf_lex(fz_context *ctx, fz_stream *f, pdf_lexbuf *buf); /* NOLINT: the linker's names */
pdf_token __wrap_pdf_lex(fz_context *ctx, fz_stream *f, pdf_lexbuf *buf); /* NOLINT */

pdf_token __wrap_pdf_lex(fz_context *ctx, fz_stream *f, pdf_lexbuf *buf) /* NOLINT */
{
    const unsigned char *at = f->rp, *end = f->wp, *past = NULL;
    pdf_token token = PDF_TOK_ERROR;
    while (at < end && classes[*at] == WHITE)
        at++;
    if (at < end && ((*at >= '0' && *at <= '9') || *at == '-' || *at == '.' || *at == '+'))
        past = read_number(at, end, buf, &token);
    else if (at < end && ((*at >= 'a' && *at <= 'z') || (*at >= 'A' && *at <= 'Z' && *at != 'R')))
        past = read_letter(at, end, buf, &token);
    if (!past)
        return __real_pdf_lex(ctx, f, buf);
    f->rp += past - f->rp;
    return token;
}
