/* MuPDF, and all of its interface that differs between its versions. Whoever moves to another version looks here: at
 * the functions below, and at the tables of functions that pdf_walk.c (operators) and pdf_device.c (painting) fill in,
 * whose arguments the compiler checks. */
#ifndef SHEET_READER_MUPDF_H
#define SHEET_READER_MUPDF_H

#include <mupdf/fitz.h>
#include <mupdf/pdf.h>

#if FZ_VERSION_MAJOR != 1 || FZ_VERSION_MINOR != 21
#error "sheet_reader is written for MuPDF 1.21: look at mupdf.h before another version is let in"
#endif

/* It would write to standard error. */
static inline void mupdf_say_nothing(void *user, const char *message)
{
    (void)user, (void)message;
}

/* A context that keeps so many bytes of what it has read; NULL without memory. */
static inline fz_context *mupdf_context(size_t store_bytes)
{
    fz_context *ctx = fz_new_context(NULL, NULL, store_bytes);
    if (!ctx)
        return NULL;
    fz_set_warning_callback(ctx, mupdf_say_nothing, NULL);
    fz_set_error_callback(ctx, mupdf_say_nothing, NULL);
    fz_disable_icc(ctx);
    return ctx;
}

/* The interpreter that paints to `device` and shows all layers, whatever their state (usage NULL). */
static inline pdf_processor *mupdf_painter(fz_context *ctx, pdf_document *doc, fz_device *device, fz_cookie *cookie)
{
    (void)doc;
    return pdf_new_run_processor(ctx, device, fz_identity, NULL, NULL, NULL, cookie);
}

/* A page by its index, which the caller drops. (1.21's own look-up keeps it for the caller only once the page tree is
 * loaded, and says so nowhere.) */
static inline pdf_obj *mupdf_page(fz_context *ctx, pdf_document *doc, int index)
{
    if (doc->fwd_page_map && index < doc->map_page_count)
        return pdf_load_object(ctx, doc, doc->fwd_page_map[index]);
    return pdf_keep_obj(ctx, pdf_lookup_page_obj(ctx, doc, index));
}

/* Puts a page's content through an interpreter. */
static inline void mupdf_interpret(fz_context *ctx, pdf_processor *proc, pdf_document *doc, pdf_obj *page,
                                   fz_cookie *cookie)
{
    pdf_obj *resources = pdf_dict_get_inheritable(ctx, page, PDF_NAME(Resources));
    /* the header names the two the other way round */
    pdf_process_contents(ctx, proc, doc, resources, pdf_dict_get(ctx, page, PDF_NAME(Contents)), cookie);
}

#endif
