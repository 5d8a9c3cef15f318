/* What to do with a length of cloth before it is cut, in the order in which it is done. */
#include "base/words.h"
#include "cloth/cloth.h"

struct steps {
    struct arena *a;
    const struct cloth *cloth;
    enum units_length unit;
    struct cloth_ready *items;
    size_t count;
};

static void add(struct steps *s, enum cloth_step step, const char *sentence)
{
    s->items[s->count++] = (struct cloth_ready){ step, sentence };
}

static const char *length(const struct steps *s, double mm)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(s->a, units_print_length(text, units_on_tape(mm, s->unit), s->unit));
}

static void add_wash(struct steps *s)
{
    if (s->cloth->is_washed || s->cloth->kind == CLOTH_HIDE)
        return;
    add(s, CLOTH_WASH,
        s->cloth->kind == CLOTH_FUSIBLE
            ? base_tr("Soak it in warm water or steam it, as its maker says, and let it dry flat; do not wring it.")
            : base_tr("Wash it as the garment will be washed, and dry it."));
}

static void add_press(struct steps *s)
{
    add(s, CLOTH_PRESS,
        s->cloth->kind == CLOTH_HIDE      ? base_tr("Lay it flat; do not press it.")
        : s->cloth->kind == CLOTH_FUSIBLE ? base_tr("Do not press it: the iron would stick it to the board.")
        : s->cloth->one_way               ? base_tr("Press it from the wrong side, so that a nap is not crushed.")
                                          : base_tr("Press it along the threads, not across them."));
}

/* Of a washed width: whether it is what was reckoned with. */
static void add_width(struct steps *s)
{
    if (s->cloth->outline.path.count)
        return;
    add(s, CLOTH_MEASURE,
        base_arena_print(s->a, base_tr("Measure its width at three places: %s is reckoned with, selvedges included."),
                         length(s, cloth_washed_width(s->cloth))));
}

/* How the end is made square, by what the cloth allows. */
static void add_square(struct steps *s)
{
    static const char *const ways[] = {
        [CLOTH_WOVEN] = BASE_TR("Square the end: snip one selvedge, tear across to the other and snip that."),
        [CLOTH_EASY_CARE] = BASE_TR("Square the end with a ruler held to the selvedge; its threads stay as they are."),
        [CLOTH_CORD] = BASE_TR("Square the end: draw a thread across and cut along its line."),
        [CLOTH_KNIT] = BASE_TR("Square the end: cut along one row of loops."),
        [CLOTH_BONDED] = BASE_TR("Square the end with a ruler held to the edge."),
        [CLOTH_LACE] = BASE_TR("Square the end: cut along one row of its figures."),
        [CLOTH_HIDE] = NULL,
        [CLOTH_FUSIBLE] = BASE_TR("Square the end with a ruler held to the selvedge, and cut it; it is not torn."),
    };
    if (ways[s->cloth->kind] && !s->cloth->outline.path.count)
        add(s, CLOTH_SQUARE, base_tr(ways[s->cloth->kind]));
}

static void add_direction(struct steps *s)
{
    if (s->cloth->one_way)
        add(s, CLOTH_MARK_WAY, base_tr("Mark with arrows which way is up, on every layer."));
    if (s->cloth->one_way && s->cloth->spread == CLOTH_FOLDED_ACROSS)
        add(s, CLOTH_TURN_LAYER,
            base_tr("Cut it at the fold and turn the upper layer round, so that both layers run the same way."));
}

static void add_repeat(struct steps *s)
{
    const struct cloth_repeat *r = &s->cloth->repeat;
    if (r->along_mm <= 0 && r->across_mm <= 0)
        return;
    add(s, CLOTH_MARK_REPEAT, base_tr("Measure over ten repeats and divide by ten; mark the line to match by."));
    if (s->cloth->spread != CLOTH_SINGLE)
        add(s, CLOTH_PIN_LAYERS, base_tr("Pin stripe on stripe through both layers, a hand's breadth apart."));
}

const char *cloth_side_up(const struct cloth *cloth)
{
    bool resin = cloth->kind == CLOTH_FUSIBLE; /* its right side is the other one */
    if (cloth->sides_alike)
        return NULL;
    if (cloth->spread != CLOTH_SINGLE)
        return resin ? base_tr("resin sides out") : base_tr("right sides together");
    if (cloth->wrong_side_up)
        return resin ? base_tr("resin side up") : base_tr("wrong side up");
    return resin ? base_tr("resin side down") : base_tr("right side up");
}

static void add_side(struct steps *s)
{
    if (s->cloth->sides_alike)
        return;
    const char *find = s->cloth->kind == CLOTH_FUSIBLE
                           /* To: “…; it is laid right sides together.” */
                           ? base_tr("Find the side that its resin is on: it is rough, or it shines; it is laid %s.")
                           : base_tr("Find its right side and mark the wrong one with chalk; it is laid %s.");
    add(s, CLOTH_FIND_SIDE, base_arena_print(s->a, find, cloth_side_up(s->cloth)));
}

const char *cloth_step_name(enum cloth_step step)
{
    static const char *const names[CLOTH_STEPS] = {
        [CLOTH_WASH] = BASE_TR("wash"),
        [CLOTH_PRESS] = BASE_TR("press"),
        [CLOTH_REST] = BASE_TR("rest"),
        [CLOTH_SQUARE] = BASE_TR("square"),
        [CLOTH_MEASURE] = BASE_TR("measure"),
        [CLOTH_FIND_SIDE] = BASE_TR("find side"),
        [CLOTH_MARK_WAY] = BASE_TR("mark way"),
        [CLOTH_TURN_LAYER] = BASE_TR("turn layer"),
        [CLOTH_MARK_REPEAT] = BASE_TR("mark repeat"),
        [CLOTH_PIN_LAYERS] = BASE_TR("pin layers"),
        [CLOTH_LOOK_OVER] = BASE_TR("look over"),
    };
    return names[step];
}

size_t cloth_ready_list(struct arena *a, const struct cloth *cloth, enum units_length unit,
                        const struct cloth_ready **out)
{
    struct steps s = { a, cloth, unit, base_arena_alloc(a, CLOTH_STEPS, sizeof *s.items), 0 };
    add_wash(&s);
    add_press(&s);
    if (cloth->kind == CLOTH_KNIT)
        add(&s, CLOTH_REST, base_tr("Let it lie flat overnight, nothing hanging over the table's edge."));
    add_square(&s);
    add_width(&s);
    add_side(&s);
    add_direction(&s);
    add_repeat(&s);
    add(&s, CLOTH_LOOK_OVER,
        base_tr("Look it over against the light and mark each fault, so that no piece is cut there."));
    *out = s.items;
    return s.count;
}
