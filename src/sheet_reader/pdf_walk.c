#include "sheet_reader/pdf_walk.h"

enum { MARKS_DEEP = 256, FORMS_DEEP = 24 };

struct walk {
    pdf_processor paint; /* MuPDF's own operators */
    struct pdf_device *device;
    struct pdf_layers *layers;
    struct pdf_walk_bounds *bounds;
    uint32_t marks[MARKS_DEEP]; /* layers of the marked content that is open, innermost last */
    int floor;                  /* of the form that is open: it cannot close what was open before it */
    int mark_count;             /* may be more than MARKS_DEEP: those keep the layer of the last that fits */
    pdf_obj
        *resources[FORMS_DEEP + 1]; /* of the page and the forms that are open: MuPDF does not tell an image's object */
    int form_count;
};

static struct walk *walk_of(fz_context *ctx)
{
    return fz_user_context(ctx);
}

static uint32_t layer_now(const struct walk *w)
{
    if (w->mark_count == 0)
        return SHEET_NONE;
    return w->marks[(w->mark_count < MARKS_DEEP ? w->mark_count : MARKS_DEEP) - 1];
}

/* MuPDF gathers text and paints it later; a change of the matrix by nothing makes it paint now. */
static void paint_text(fz_context *ctx, const struct walk *w, pdf_processor *proc)
{
    w->paint.op_cm(ctx, proc, 1, 0, 0, 1, 0, 0);
}

static void open_mark(fz_context *ctx, struct walk *w, pdf_processor *proc, pdf_obj *oc)
{
    uint32_t now = layer_now(w), layer = oc ? pdf_layers_find(ctx, w->layers, now, oc) : now;
    if (layer != now)
        paint_text(ctx, w, proc);
    if (w->mark_count < MARKS_DEEP)
        w->marks[w->mark_count] = layer;
    w->mark_count++;
    pdf_device_layer(w->device, layer_now(w));
}

/* Closes marked content until only so much is open. */
static void close_marks(fz_context *ctx, struct walk *w, pdf_processor *proc, int to)
{
    uint32_t was = layer_now(w);
    if (w->mark_count <= to)
        return;
    w->mark_count = to;
    if (layer_now(w) != was)
        paint_text(ctx, w, proc);
    pdf_device_layer(w->device, layer_now(w));
}

static void on_BMC(fz_context *ctx, pdf_processor *proc, const char *tag)
{
    (void)tag;
    open_mark(ctx, walk_of(ctx), proc, NULL);
}

static void on_BDC(fz_context *ctx, pdf_processor *proc, const char *tag, pdf_obj *raw, pdf_obj *cooked)
{
    (void)raw;
    bool layered = tag[0] == 'O' && tag[1] == 'C' && tag[2] == 0;
    open_mark(ctx, walk_of(ctx), proc, layered ? cooked : NULL);
}

static void on_EMC(fz_context *ctx, pdf_processor *proc)
{
    struct walk *w = walk_of(ctx);
    if (w->mark_count > w->floor)
        close_marks(ctx, w, proc, w->mark_count - 1);
}

/* Form and image objects may belong to a layer themselves. */
static pdf_obj *own_resources(fz_context *ctx, const struct walk *w, pdf_obj *form)
{
    pdf_obj *own = pdf_dict_get(ctx, form, PDF_NAME(Resources));
    return own ? own : w->resources[w->form_count];
}

static bool may_draw(struct walk *w)
{
    if (w->form_count < FORMS_DEEP && w->bounds->forms_left > 0) {
        w->bounds->forms_left--;
        return true;
    }
    w->bounds->left_out++;
    return false;
}

/* What was open before a form is open after it, whatever the form itself opens or closes. */
static void leave_form(struct walk *w, int marks, int floor)
{
    w->form_count--;
    w->floor = floor;
    if (w->mark_count < marks)
        w->mark_count = marks;
}

static void on_Do_form(fz_context *ctx, pdf_processor *proc, const char *name, pdf_obj *form, pdf_obj *page_resources)
{
    struct walk *w = walk_of(ctx);
    int marks = w->mark_count, floor = w->floor;
    if (!may_draw(w))
        return;
    open_mark(ctx, w, proc, pdf_dict_get(ctx, form, PDF_NAME(OC)));
    pdf_obj *resources = own_resources(ctx, w, form);
    w->resources[++w->form_count] = resources;
    w->floor = marks + 1;
    fz_try(ctx) w->paint.op_Do_form(ctx, proc, name, form, page_resources);
    fz_always(ctx) leave_form(w, marks, floor);
    fz_catch(ctx)
    {
        w->mark_count = marks;
        pdf_device_layer(w->device, layer_now(w));
        fz_rethrow(ctx);
    }
    close_marks(ctx, w, proc, marks);
}

static void on_Do_image(fz_context *ctx, pdf_processor *proc, const char *name, fz_image *image)
{
    struct walk *w = walk_of(ctx);
    int marks = w->mark_count;
    pdf_obj *objects = pdf_dict_get(ctx, w->resources[w->form_count], PDF_NAME(XObject));
    open_mark(ctx, w, proc, pdf_dict_get(ctx, pdf_dict_gets(ctx, objects, name), PDF_NAME(OC)));
    fz_try(ctx) w->paint.op_Do_image(ctx, proc, name, image);
    fz_always(ctx)
    {
        w->mark_count = marks;
        pdf_device_layer(w->device, layer_now(w));
    }
    fz_catch(ctx) fz_rethrow(ctx);
}

/* The operators that fill and stroke one path. */
static void on_both(fz_context *ctx, pdf_processor *proc, void (*paint)(fz_context *, pdf_processor *))
{
    struct pdf_device *device = walk_of(ctx)->device;
    pdf_device_both_begin(ctx, device);
    paint(ctx, proc);
    pdf_device_both_end(ctx, device);
}

static void on_B(fz_context *ctx, pdf_processor *proc)
{
    on_both(ctx, proc, walk_of(ctx)->paint.op_B);
}

static void on_Bstar(fz_context *ctx, pdf_processor *proc)
{
    on_both(ctx, proc, walk_of(ctx)->paint.op_Bstar);
}

static void on_b(fz_context *ctx, pdf_processor *proc)
{
    on_both(ctx, proc, walk_of(ctx)->paint.op_b);
}

static void on_bstar(fz_context *ctx, pdf_processor *proc)
{
    on_both(ctx, proc, walk_of(ctx)->paint.op_bstar);
}

static void wrap(struct walk *w, pdf_processor *proc)
{
    w->paint = *proc;
    proc->op_BMC = on_BMC;
    proc->op_BDC = on_BDC;
    proc->op_EMC = on_EMC;
    proc->op_Do_form = on_Do_form;
    proc->op_Do_image = on_Do_image;
    proc->op_B = on_B;
    proc->op_Bstar = on_Bstar;
    proc->op_b = on_b;
    proc->op_bstar = on_bstar;
}

/* A page's content, or a form by itself: one of the two is set. */
struct content {
    pdf_obj *page, *form, *oc;
    fz_matrix at;
};

static void interpret(fz_context *ctx, const struct pdf_walk_with *with, struct walk *w, pdf_processor *proc,
                      const struct content *content)
{
    const fz_matrix *m = &content->at;
    if (content->page) {
        mupdf_interpret(ctx, proc, with->doc, content->page, with->cookie);
        return;
    }
    open_mark(ctx, w, proc, content->oc);
    proc->op_cm(ctx, proc, m->a, m->b, m->c, m->d, m->e, m->f);
    proc->op_Do_form(ctx, proc, "", content->form, NULL);
    close_marks(ctx, w, proc, 0);
}

static void paint(fz_context *ctx, const struct pdf_walk_with *with, struct walk *w, const struct content *content)
{
    pdf_processor *proc = mupdf_painter(ctx, with->doc, pdf_device_base(with->device), with->cookie);
    fz_try(ctx)
    {
        wrap(w, proc);
        fz_set_user_context(ctx, w);
        interpret(ctx, with, w, proc, content);
        pdf_close_processor(ctx, proc);
    }
    fz_always(ctx)
    {
        fz_set_user_context(ctx, NULL);
        pdf_drop_processor(ctx, proc);
    }
    fz_catch(ctx) fz_rethrow(ctx);
}

static struct walk walk_start(const struct pdf_walk_with *with)
{
    return (struct walk){ .device = with->device, .layers = with->layers, .bounds = with->bounds };
}

void pdf_walk_page(fz_context *ctx, const struct pdf_walk_with *with, pdf_obj *page)
{
    struct walk w = walk_start(with);
    w.resources[0] = pdf_dict_get_inheritable(ctx, page, PDF_NAME(Resources));
    paint(ctx, with, &w, &(struct content){ .page = page });
}

void pdf_walk_form(fz_context *ctx, const struct pdf_walk_with *with, pdf_obj *form, fz_matrix at, pdf_obj *oc)
{
    struct walk w = walk_start(with);
    pdf_device_layer(with->device, SHEET_NONE);
    paint(ctx, with, &w, &(struct content){ .form = form, .oc = oc, .at = at });
}
