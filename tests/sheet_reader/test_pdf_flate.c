/* Whether streams that are unpacked whole (sheet_reader/pdf_flate.c) hold what MuPDF unpacks piece by piece with zlib,
 * which is the reference: sound ones, and ones that are cut off, spoiled, followed by something or too large. The
 * linker knows both: fz_open_flated is ours, which stands in front, __real_fz_open_flated is MuPDF's. */
#include "support/room.h"

#include "sheet_reader/mupdf.h"

#include <string.h>

enum { WINDOW_BITS = 15, SMALL = 100000 };

fz_stream *__real_fz_open_flated(fz_context *ctx, fz_stream *chain, int window_bits); /* NOLINT: the linker's name */

/* splitmix64 (Steele, Lea and Flood, 2014). */
static uint64_t random_bits(uint64_t *state)
{
    uint64_t z = *state += 0x9e3779b97f4a7c15u;
    z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9u;
    z = (z ^ z >> 27) * 0x94d049bb133111ebu;
    return z ^ z >> 31;
}

static void say_nothing(void *user, const char *message)
{
    (void)user, (void)message;
}

static fz_context *quiet_context(void)
{
    fz_context *ctx = fz_new_context(NULL, NULL, FZ_STORE_DEFAULT);
    fz_set_warning_callback(ctx, say_nothing, NULL);
    fz_set_error_callback(ctx, say_nothing, NULL);
    return ctx;
}

/* Digits and spaces, as coordinates are. */
static fz_buffer *digits(fz_context *ctx, size_t count)
{
    fz_buffer *b = fz_new_buffer(ctx, count);
    uint64_t state = 1;
    for (size_t i = 0; i < count; i++)
        fz_append_byte(ctx, b, "0123456789. \n123"[random_bits(&state) % 16]);
    return b;
}

static fz_buffer *packed(fz_context *ctx, fz_buffer *plain)
{
    size_t count = 0;
    unsigned char *data = fz_new_deflated_data_from_buffer(ctx, &count, plain, FZ_DEFLATE_DEFAULT);
    return fz_new_buffer_from_data(ctx, data, count);
}

/* All that comes out, by reading in steps of different lengths; a stream that breaks off gives what came before. */
static fz_buffer *drain(fz_context *ctx, fz_stream *f)
{
    static unsigned char some[1 << 16];
    fz_buffer *out = fz_new_buffer(ctx, 1024);
    size_t step = 1, got = 0;
    do {
        got = fz_read(ctx, f, some, step);
        fz_append_data(ctx, out, some, got);
        step = step * 3 % sizeof some + 1;
    } while (got > 0);
    fz_drop_stream(ctx, f);
    return out;
}

static void hold_alike(fz_context *ctx, fz_buffer *from)
{
    fz_stream *chain = fz_open_buffer(ctx, from), *again = fz_open_buffer(ctx, from);
    fz_buffer *got = drain(ctx, fz_open_flated(ctx, chain, WINDOW_BITS));
    fz_buffer *want = drain(ctx, __real_fz_open_flated(ctx, again, WINDOW_BITS));
    assert_true(got->len == want->len);
    assert_memory_equal(got->data, want->data, want->len);
    fz_drop_buffer(ctx, got);
    fz_drop_buffer(ctx, want);
    fz_drop_stream(ctx, chain);
    fz_drop_stream(ctx, again);
}

static void a_sound_stream_is_unpacked(void **state)
{
    fz_context *ctx = quiet_context();
    (void)state;
    for (size_t count = 0; count < SMALL; count = count * 3 + 1) {
        fz_buffer *plain = digits(ctx, count), *from = packed(ctx, plain);
        fz_stream *chain = fz_open_buffer(ctx, from);
        fz_buffer *got = drain(ctx, fz_open_flated(ctx, chain, WINDOW_BITS));
        assert_true(got->len == count);
        assert_memory_equal(got->data, plain->data, count);
        fz_drop_buffer(ctx, got);
        fz_drop_stream(ctx, chain);
        fz_drop_buffer(ctx, from);
        fz_drop_buffer(ctx, plain);
    }
    fz_drop_context(ctx);
}

static void a_broken_stream_gives_what_it_gave(void **state)
{
    fz_context *ctx = quiet_context();
    fz_buffer *plain = digits(ctx, SMALL), *from = packed(ctx, plain);
    uint64_t random = 1;
    (void)state;
    for (int i = 0; i < 200; i++) {
        fz_buffer *spoiled = fz_new_buffer_from_copied_data(ctx, from->data, from->len);
        size_t at = random_bits(&random) % from->len;
        if (i % 2)
            fz_resize_buffer(ctx, spoiled, at); /* cut off */
        else
            spoiled->data[at] ^= (unsigned char)(1 << i / 2 % 8);
        hold_alike(ctx, spoiled);
        fz_drop_buffer(ctx, spoiled);
    }
    fz_append_data(ctx, from, "\r\nendstream", 11);
    hold_alike(ctx, from);
    fz_drop_buffer(ctx, from);
    fz_drop_buffer(ctx, plain);
    fz_drop_context(ctx);
}

/* More unpacked than is unpacked whole, and more packed than is. */
static void a_large_stream_is_unpacked_too(void **state)
{
    fz_context *ctx = quiet_context();
    fz_buffer *zeros = fz_new_buffer(ctx, 40u << 20), *noise = fz_new_buffer(ctx, 9u << 20);
    uint64_t random = 1;
    (void)state;
    zeros->len = zeros->cap;
    memset(zeros->data, 0, zeros->len);
    while (noise->len + sizeof random <= noise->cap) {
        uint64_t bits = random_bits(&random);
        memcpy(noise->data + noise->len, &bits, sizeof bits);
        noise->len += sizeof bits;
    }
    fz_buffer *from[2] = { packed(ctx, zeros), packed(ctx, noise) };
    for (size_t i = 0; i < 2; i++) {
        hold_alike(ctx, from[i]);
        fz_drop_buffer(ctx, from[i]);
    }
    fz_drop_buffer(ctx, zeros);
    fz_drop_buffer(ctx, noise);
    fz_drop_context(ctx);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sound_stream_is_unpacked),
        cmocka_unit_test(a_broken_stream_gives_what_it_gave),
        cmocka_unit_test(a_large_stream_is_unpacked_too),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
