/* Whether the quick way through numbers and operators (sheet_reader/pdf_lex.c) gives what MuPDF's own reading gives:
 * MuPDF is the reference. The linker knows both: pdf_lex is ours, which stands in front, __real_pdf_lex is MuPDF's. */
#include "support/room.h"

#include "sheet_reader/mupdf.h"

#include <math.h>
#include <string.h>

pdf_token __real_pdf_lex(fz_context *ctx, fz_stream *f, pdf_lexbuf *buf); /* NOLINT: the linker's name */

enum { WORDS = 60, TEXT = 4096, ROUNDS = 3000 };

static const char *const words[] = {
    "0",
    "7",
    "-3",
    "+12",
    "1234567",
    "999999999999999",
    "1234567890123456",
    "00012",
    "-0",
    "0.5",
    "-.25",
    "+.5",
    "5.",
    "-5.",
    "123.456",
    "841.8898",
    "0.00001",
    "1.2.3",
    "1-2",
    "--5",
    "-",
    "+",
    ".",
    "-.",
    "1e5",
    "12a",
    "0x12",
    "m",
    "l",
    "c",
    "h",
    "re",
    "S",
    "f*",
    "R",
    "12 0 R",
    "q",
    "Q",
    "cm",
    "BT",
    "true",
    "null",
    "/Name",
    "/m",
    "(m 1 2)",
    "(a\\) b",
    "<41 42>",
    "<<",
    ">>",
    "[",
    "]",
    "% 1 2 m",
    "\n",
    "\r\n",
    "'",
    "\"",
    "1000000000.0000000000",
    "123456789.1",
    "3.14159265358979",
    "-99999.9999",
};
enum { WORD_COUNT = sizeof words / sizeof words[0] };

/* splitmix64 (Steele, Lea and Flood, 2014). */
static uint64_t random_bits(uint64_t *state)
{
    uint64_t z = *state += 0x9e3779b97f4a7c15u;
    z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9u;
    z = (z ^ z >> 27) * 0x94d049bb133111ebu;
    return z ^ z >> 31;
}

/* Words and random numbers one after the other, mostly with something between. */
static size_t write_text(uint64_t *state, char *text)
{
    static const char *const between[] = { " ", " ", " ", "\n", "", "  ", "\t", "\f" };
    size_t count = 0;
    for (int i = 0; i < WORDS && count + 100 < TEXT; i++) {
        uint64_t bits = random_bits(state);
        const char *gap = between[bits % 8];
        if (bits >> 8 & 1)
            count += (size_t)sprintf(text + count, "%s%s", words[(bits >> 16) % WORD_COUNT], gap);
        else
            count += (size_t)sprintf(text + count, "%.*f%s", (int)(bits >> 16 & 7),
                                     ldexp((double)(int32_t)(bits >> 32), -(int)(bits >> 20 & 31)), gap);
    }
    return count;
}

/* A stream that hands its text out in pieces of one to seven bytes, so that words are cut at each place. */
struct pieces {
    const char *text;
    size_t count, at;
    uint64_t state;
};

static int next_piece(fz_context *ctx, fz_stream *f, size_t most)
{
    struct pieces *p = f->state;
    size_t length = 1 + random_bits(&p->state) % 7;
    (void)ctx, (void)most;
    if (p->at == p->count)
        return EOF;
    if (length > p->count - p->at)
        length = p->count - p->at;
    f->rp = (unsigned char *)p->text + p->at;
    f->wp = f->rp + length;
    p->at += length;
    f->pos += (int64_t)length;
    return *f->rp++;
}

/* The next token by both, alike in all that MuPDF's interpreter looks at. */
static pdf_token next_alike(fz_context *ctx, fz_stream *ours, fz_stream *theirs, pdf_lexbuf bufs[2])
{
    pdf_token got = pdf_lex(ctx, ours, &bufs[0]), want = __real_pdf_lex(ctx, theirs, &bufs[1]);
    assert_int_equal(got, want);
    if (want == PDF_TOK_INT)
        assert_true(bufs[0].i == bufs[1].i);
    if (want == PDF_TOK_REAL) /* one step of a float at most: MuPDF rounds once */
        assert_true(fabs((double)bufs[0].f - (double)bufs[1].f) <= fabs((double)bufs[1].f) * 1.2e-7);
    if (want == PDF_TOK_KEYWORD)
        assert_string_equal(bufs[0].scratch, bufs[1].scratch);
    if (want == PDF_TOK_NAME || want == PDF_TOK_STRING) {
        assert_int_equal(bufs[0].len, bufs[1].len);
        assert_memory_equal(bufs[0].scratch, bufs[1].scratch, bufs[1].len);
    }
    assert_int_equal(fz_tell(ctx, ours), fz_tell(ctx, theirs));
    return want;
}

static void compare(fz_context *ctx, fz_stream *ours, fz_stream *theirs)
{
    pdf_lexbuf bufs[2];
    pdf_lexbuf_init(ctx, &bufs[0], PDF_LEXBUF_SMALL);
    pdf_lexbuf_init(ctx, &bufs[1], PDF_LEXBUF_SMALL);
    while (next_alike(ctx, ours, theirs, bufs) != PDF_TOK_EOF)
        continue;
    pdf_lexbuf_fin(ctx, &bufs[0]);
    pdf_lexbuf_fin(ctx, &bufs[1]);
    fz_drop_stream(ctx, ours);
    fz_drop_stream(ctx, theirs);
}

static void reads_what_mupdf_reads(void **state)
{
    fz_context *ctx = fz_new_context(NULL, NULL, FZ_STORE_DEFAULT);
    uint64_t random = 1;
    static char text[TEXT];
    (void)state;
    for (int round = 0; round < ROUNDS; round++) {
        size_t count = write_text(&random, text);
        compare(ctx, fz_open_memory(ctx, (unsigned char *)text, count),
                fz_open_memory(ctx, (unsigned char *)text, count));
    }
    fz_drop_context(ctx);
}

static void reads_it_in_pieces_too(void **state)
{
    fz_context *ctx = fz_new_context(NULL, NULL, FZ_STORE_DEFAULT);
    uint64_t random = 2;
    static char text[TEXT];
    (void)state;
    for (int round = 0; round < ROUNDS; round++) {
        size_t count = write_text(&random, text);
        struct pieces cut = { text, count, 0, random };
        compare(ctx, fz_new_stream(ctx, &cut, next_piece, NULL), fz_open_memory(ctx, (unsigned char *)text, count));
    }
    fz_drop_context(ctx);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_what_mupdf_reads),
        cmocka_unit_test(reads_it_in_pieces_too),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
