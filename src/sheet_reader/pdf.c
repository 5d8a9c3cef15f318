#include "sheet_reader/pdf.h"
#include "sheet_reader/mupdf.h"
#include "sheet_reader/pdf_annots.h"
#include "sheet_reader/pdf_device.h"
#include "sheet_reader/pdf_labels.h"
#include "sheet_reader/pdf_layers.h"
#include "sheet_reader/pdf_page.h"
#include "sheet_reader/pdf_walk.h"

#include <string.h>

enum { STORE_BYTES = 8 << 20, FORMS_MOST = 200000, FAILED_IN_A_ROW = 100 };

struct reading {
    fz_context *ctx;
    struct collect *collect;
    pdf_document *doc;
    fz_stream *stream;
    struct pdf_layers *layers;
    struct pdf_labels *labels;
    struct pdf_device *device;
    fz_cookie cookie;
    struct pdf_walk_bounds bounds;
    bool listed;      /* pages are found without counting */
    int pages;        /* that were put into the sheet */
    int failed;       /* in a row */
    uint32_t remarks; /* comments and form fields that are not drawn */
};

static void begin_page(struct reading *r, const struct pdf_frame *frame, int index)
{
    char *label = pdf_labels_find(r->ctx, r->labels, index);
    collect_page(r->collect, frame->width_mm, frame->height_mm, label);
    fz_free(r->ctx, label);
    r->pages++;
}

/* One page, as far as it can be read. */
static void read_page(struct reading *r, pdf_obj *page, int index)
{
    fz_context *ctx = r->ctx;
    struct pdf_frame frame = pdf_frame_of(ctx, page);
    uint32_t number = (uint32_t)index + 1;
    const struct pdf_walk_with with = { r->doc, r->device, r->layers, &r->cookie, &r->bounds };
    begin_page(r, &frame, index);
    r->cookie.errors = 0;
    pdf_device_page(ctx, r->device, &frame);
    pdf_walk_page(ctx, &with, page);
    uint32_t dpi = pdf_device_page_end(ctx, r->device);
    if (dpi)
        collect_note(r->collect, SHEET_NOTE_SCAN, NULL, number, dpi);
    r->remarks += pdf_annots_draw(ctx, &with, page);
    if (r->cookie.errors)
        collect_note(r->collect, SHEET_NOTE_MENDED, NULL, number, 0);
}

/* A page that breaks off is told of, and the rest goes on; without memory it all ends. */
static void try_page(struct reading *r, int index)
{
    fz_context *ctx = r->ctx;
    pdf_obj *page = NULL;
    fz_var(page);
    fz_try(ctx)
    {
        page = mupdf_page(ctx, r->doc, index);
        read_page(r, page, index);
        r->failed = 0;
    }
    fz_always(ctx) pdf_drop_obj(ctx, page);
    fz_catch(ctx)
    {
        if (fz_caught(ctx) == FZ_ERROR_MEMORY)
            fz_rethrow(ctx);
        collect_note(r->collect, SHEET_NOTE_MENDED, NULL, (uint32_t)index + 1, 1);
        r->failed++;
    }
}

/* Without the list of pages, finding each one counts from the first again; a broken tree has no list. */
static bool list_pages(struct reading *r)
{
    bool listed = true;
    fz_var(listed);
    fz_try(r->ctx) pdf_load_page_tree(r->ctx, r->doc);
    fz_catch(r->ctx)
    {
        if (fz_caught(r->ctx) == FZ_ERROR_MEMORY)
            fz_rethrow(r->ctx);
        listed = false;
    }
    return listed;
}

static void read_pages(struct reading *r)
{
    int n = pdf_count_pages(r->ctx, r->doc);
    for (int i = 0; i < n && r->failed < FAILED_IN_A_ROW && !collect_failed(r->collect); i++) {
        try_page(r, i);
        collect_progress(r->collect, (unsigned)((i + 1) * 100LL / n));
    }
}

static void tell(struct reading *r)
{
    if (pdf_was_repaired(r->ctx, r->doc))
        collect_note(r->collect, SHEET_NOTE_MENDED, NULL, 0, 0);
    if (r->remarks)
        collect_note(r->collect, SHEET_NOTE_LEFT_OUT, "comments and form fields", r->remarks, 0);
    if (r->bounds.left_out)
        collect_note(r->collect, SHEET_NOTE_LEFT_OUT, "drawings nested too deep", (uint32_t)r->bounds.left_out, 0);
}

/* A reader's password opens as the owner's does; that less is allowed with it is told. */
static enum sheet_exit unlock(struct reading *r, const char *password)
{
    if (!pdf_needs_password(r->ctx, r->doc))
        return SHEET_EXIT_DONE;
    if (!password)
        return SHEET_EXIT_PASSWORD_NEEDED;
    if (!pdf_authenticate_password(r->ctx, r->doc, password))
        return SHEET_EXIT_PASSWORD_WRONG;
    return SHEET_EXIT_DONE;
}

static enum sheet_exit read_document(struct reading *r, const char *bytes, size_t count, const char *password)
{
    fz_context *ctx = r->ctx;
    r->stream = fz_open_memory(ctx, (const unsigned char *)bytes, count);
    r->doc = pdf_open_document_with_stream(ctx, r->stream);
    enum sheet_exit locked = unlock(r, password);
    if (locked != SHEET_EXIT_DONE)
        return locked;
    if (!pdf_has_permission(ctx, r->doc, FZ_PERMISSION_COPY))
        collect_note(r->collect, SHEET_NOTE_PERMISSIONS, NULL, 0, 0);
    r->layers = pdf_layers_read(ctx, r->doc, r->collect);
    r->labels = pdf_labels_read(ctx, r->doc);
    r->device = pdf_device_create(ctx, r->collect, &r->cookie);
    r->listed = list_pages(r);
    read_pages(r);
    tell(r);
    return r->pages ? collect_exit(r->collect) : SHEET_EXIT_DAMAGED;
}

static enum sheet_exit read_caught(struct reading *r, const char *bytes, size_t count, const char *password)
{
    fz_context *ctx = r->ctx;
    enum sheet_exit exit = SHEET_EXIT_DAMAGED;
    fz_var(exit);
    fz_try(ctx) exit = read_document(r, bytes, count, password);
    fz_always(ctx)
    {
        if (r->device)
            fz_drop_device(ctx, pdf_device_base(r->device));
        pdf_layers_drop(ctx, r->layers);
        pdf_labels_drop(ctx, r->labels);
        if (r->listed)
            pdf_drop_page_tree(ctx, r->doc);
        pdf_drop_document(ctx, r->doc);
        fz_drop_stream(ctx, r->stream);
    }
    fz_catch(ctx) exit = fz_caught(ctx) == FZ_ERROR_MEMORY ? SHEET_EXIT_TOO_LARGE : SHEET_EXIT_DAMAGED;
    return exit;
}

enum sheet_exit pdf_read(struct collect *c, const char *bytes, size_t count, const char *password)
{
    struct reading r = { .collect = c, .bounds = { .forms_left = FORMS_MOST } };
    r.ctx = mupdf_context(STORE_BYTES);
    if (!r.ctx)
        return SHEET_EXIT_TOO_LARGE;
    enum sheet_exit exit = read_caught(&r, bytes, count, password);
    fz_drop_context(r.ctx);
    return exit;
}
