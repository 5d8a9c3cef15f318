/* The quick way through packed streams: unpacked whole, by libdeflate, which takes a third of the time that zlib takes
 * to unpack them piece by piece. As with pdf_lex.c, the linker lets this stand in front of MuPDF's own (--wrap). What
 * becomes too large, or is not sound to its end, is unpacked by MuPDF, piece by piece and as far as it goes. */
#include "sheet_reader/mupdf.h"

#include <libdeflate.h>
#include <stdbool.h>

/* Bytes unpacked: what is packed comes to five times as much as a rule; more than the most is for zlib. */
enum { PACKED_MOST = 8 << 20, UNPACKED_MOST = 32 << 20, UNPACKED_ROOM = 1 << 16, UNPACKED_TIMES = 8 };
enum { WINDOW_BITS = 15 }; /* of streams in a PDF */

fz_stream *__real_fz_open_flated(fz_context *ctx, fz_stream *chain, int window_bits); /* NOLINT: the linker's names */
fz_stream *__wrap_fz_open_flated(fz_context *ctx, fz_stream *chain, int window_bits); /* NOLINT */

/* NULL when it is not for here. */
static fz_buffer *unpack_into(fz_context *ctx, struct libdeflate_decompressor *tool, fz_buffer *packed, size_t room)
{
    fz_buffer *out = fz_new_buffer(ctx, room);
    size_t used = 0, made = 0;
    enum libdeflate_result how =
        libdeflate_zlib_decompress_ex(tool, packed->data, packed->len, out->data, out->cap, &used, &made);
    if (how == LIBDEFLATE_SUCCESS) {
        out->len = made;
        return out;
    }
    fz_drop_buffer(ctx, out);
    if (how == LIBDEFLATE_INSUFFICIENT_SPACE && room < UNPACKED_MOST)
        return unpack_into(ctx, tool, packed, UNPACKED_MOST);
    return NULL;
}

static fz_buffer *unpack(fz_context *ctx, fz_buffer *packed)
{
    struct libdeflate_decompressor *tool = libdeflate_alloc_decompressor();
    size_t room = UNPACKED_ROOM + packed->len * UNPACKED_TIMES;
    fz_buffer *out = NULL;
    fz_var(out);
    if (!tool)
        return NULL;
    fz_try(ctx) out = unpack_into(ctx, tool, packed, room < UNPACKED_MOST ? room : UNPACKED_MOST);
    fz_always(ctx) libdeflate_free_decompressor(tool);
    fz_catch(ctx) fz_rethrow(ctx);
    return out;
}

/* What there is, up to one byte more than the most that is unpacked here. */
static fz_buffer *read_packed(fz_context *ctx, fz_stream *chain)
{
    fz_buffer *packed = fz_new_buffer(ctx, UNPACKED_ROOM);
    fz_try(ctx)
    {
        for (size_t got = 1; got && packed->len <= PACKED_MOST; packed->len += got) {
            if (packed->len == packed->cap)
                fz_resize_buffer(ctx, packed, packed->cap * 2);
            got = fz_read(ctx, chain, packed->data + packed->len, packed->cap - packed->len);
        }
    }
    fz_catch(ctx)
    {
        fz_drop_buffer(ctx, packed);
        fz_rethrow(ctx);
    }
    return packed;
}

/* What was read, and what is still to come of the chain. */
static fz_stream *as_it_was(fz_context *ctx, fz_buffer *packed, fz_stream *chain)
{
    fz_stream *whole = fz_open_concat(ctx, 2, 0), *first = NULL;
    fz_var(first);
    fz_try(ctx)
    {
        first = fz_open_buffer(ctx, packed);
        fz_concat_push_drop(ctx, whole, first);
        fz_concat_push_drop(ctx, whole, fz_keep_stream(ctx, chain));
    }
    fz_catch(ctx)
    {
        fz_drop_stream(ctx, whole);
        fz_rethrow(ctx);
    }
    return whole;
}

static fz_stream *by_zlib(fz_context *ctx, fz_buffer *packed, fz_stream *chain)
{
    fz_stream *whole = as_it_was(ctx, packed, chain), *out = NULL;
    fz_var(out);
    fz_try(ctx) out = __real_fz_open_flated(ctx, whole, WINDOW_BITS);
    fz_always(ctx) fz_drop_stream(ctx, whole);
    fz_catch(ctx) fz_rethrow(ctx);
    return out;
}

/* The chain stays the caller's, as with MuPDF's own. */
fz_stream *__wrap_fz_open_flated(fz_context *ctx, fz_stream *chain, int window_bits) /* NOLINT */
{
    fz_buffer *packed = NULL, *unpacked = NULL;
    fz_stream *out = NULL;
    if (window_bits != WINDOW_BITS)
        return __real_fz_open_flated(ctx, chain, window_bits);
    fz_var(packed);
    fz_var(unpacked);
    fz_var(out);
    fz_try(ctx)
    {
        packed = read_packed(ctx, chain);
        unpacked = packed->len <= PACKED_MOST ? unpack(ctx, packed) : NULL;
        out = unpacked ? fz_open_buffer(ctx, unpacked) : by_zlib(ctx, packed, chain);
    }
    fz_always(ctx)
    {
        fz_drop_buffer(ctx, packed);
        fz_drop_buffer(ctx, unpacked);
    }
    fz_catch(ctx) fz_rethrow(ctx);
    return out;
}
