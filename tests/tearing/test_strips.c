/* Rectangles in strips: by hand, against every way that a few can lie, and many at random. */
#include "support/room.h"
#include "tearing/strips.h"

#include <math.h>

#define IN(n) ((n)*25.4)
#define FOUND_MM 0.011 /* the least length along is found to a hundredth of a millimetre */
#define OVER_MM 1e-5

enum { MOST_SINGLES = 5, WAYS = 400, MANY = 60 };

/* Numbers of our own, the same in every run. */
static int throw_dice(unsigned long long *state, int sides)
{
    *state = *state * 6364136223846793005ULL + 1442695040888963407ULL;
    return (int)((*state >> 33) % (unsigned long long)sides);
}

/* --- every way that single rectangles can lie: each in turn in every column and strip there is, and in a new one ---
 */

struct single {
    double width, height;
    int strip, column;
};

struct every {
    struct single items[MOST_SINGLES];
    int count;
    double width, extra, best;
    bool along; /* the strips' common length is wanted, and `width` is what they take side by side */
};

/* A strip is as high as its highest. */
static double strip_height(const struct every *e, int strip)
{
    double high = 0;
    for (int i = 0; i < e->count; i++)
        if (e->items[i].strip == strip)
            high = fmax(high, e->items[i].height);
    return high;
}

/* A column is as wide as its widest; INFINITY where one is higher than its strip. */
static double strip_width(const struct every *e, int strip)
{
    double sum = 0;
    for (int c = 0; c < e->count; c++) {
        double wide = 0, high = 0;
        for (int i = 0; i < e->count; i++) {
            if (e->items[i].strip != strip || e->items[i].column != c)
                continue;
            wide = fmax(wide, e->items[i].width);
            high += e->items[i].height;
        }
        sum += high > strip_height(e, strip) + OVER_MM ? INFINITY : wide;
    }
    return sum;
}

static void judge(struct every *e)
{
    double length = 0, widest = 0;
    for (int s = 0; s < e->count; s++) {
        double high = strip_height(e, s);
        length += high > 0 ? high + e->extra : 0;
        widest = fmax(widest, strip_width(e, s));
    }
    if (!e->along && widest <= e->width + OVER_MM)
        e->best = fmin(e->best, length);
    if (e->along && length <= e->width + OVER_MM)
        e->best = fmin(e->best, widest);
}

static void try_from(struct every *e, int item)
{
    int strips = 0;
    if (item == e->count || item == MOST_SINGLES) { /* the latter for the compiler, which unrolls this */
        judge(e);
        return;
    }
    for (int i = 0; i < item; i++)
        strips = e->items[i].strip + 1 > strips ? e->items[i].strip + 1 : strips;
    for (int s = 0; s <= strips; s++) {
        int columns = 0;
        for (int i = 0; i < item; i++)
            if (e->items[i].strip == s && e->items[i].column + 1 > columns)
                columns = e->items[i].column + 1;
        for (int c = 0; c <= columns; c++) {
            e->items[item].strip = s;
            e->items[item].column = c;
            try_from(e, item + 1);
        }
    }
}

static double best_of_every_way(const struct tearing_kind *kinds, int count, double width, double extra, bool along)
{
    struct every e = { .width = width, .extra = extra, .best = INFINITY, .along = along };
    for (int k = 0; k < count; k++)
        for (int i = 0; i < kinds[k].count; i++)
            e.items[e.count++] = (struct single){ .width = kinds[k].width_mm, .height = kinds[k].height_mm };
    try_from(&e, 0);
    return e.best;
}

/* --- what must hold of any filling --- */

static struct single spot_box(const struct tearing_kind *kinds, const struct tearing_spot *s, double to[2])
{
    to[0] = s->across_mm + kinds[s->kind].width_mm;
    to[1] = s->along_mm + kinds[s->kind].height_mm;
    return (struct single){ .width = s->across_mm, .height = s->along_mm };
}

static void no_two_overlap(const struct tearing_kind *kinds, const struct tearing_row *row)
{
    for (size_t i = 0; i < row->spot_count; i++)
        for (size_t j = 0; j < i; j++) {
            double a[2], b[2];
            struct single one = spot_box(kinds, &row->spots[i], a), two = spot_box(kinds, &row->spots[j], b);
            assert_true(one.width >= b[0] - OVER_MM || two.width >= a[0] - OVER_MM || one.height >= b[1] - OVER_MM ||
                        two.height >= a[1] - OVER_MM);
        }
}

static void lies_well(const struct tearing_rows *out, const struct tearing_kind *kinds, int count, double width,
                      double extra)
{
    int found[MANY] = { 0 };
    double length = 0;
    for (size_t r = 0; r < out->row_count; r++) {
        const struct tearing_row *row = &out->rows[r];
        length += row->height_mm + extra;
        assert_true(row->used_mm <= width + OVER_MM);
        assert_true(r == 0 || row->height_mm <= out->rows[r - 1].height_mm);
        for (size_t i = 0; i < row->spot_count; i++) {
            double to[2];
            struct single from = spot_box(kinds, &row->spots[i], to);
            found[row->spots[i].kind]++;
            assert_true(from.width >= -OVER_MM && to[0] <= row->used_mm + OVER_MM);
            assert_true(from.height >= -OVER_MM && to[1] <= row->height_mm + OVER_MM);
        }
        no_two_overlap(kinds, row);
    }
    for (int k = 0; k < count; k++)
        assert_int_equal(found[k], kinds[k].count);
    assert_near(length, out->length_mm, OVER_MM);
}

/* --- tests --- */

/* Hand-worked: two panels of 28 in go into 56 in side by side, two of 34 in do not; a 2 in margin to each strip.
 * 1 x (20 + 2) and 2 x (20 + 2) in. */
static void panels_lie_side_by_side_where_they_fit(void **state)
{
    static const struct {
        double wide, length;
    } rows[] = { { IN(28), IN(22) }, { IN(34), IN(44) } };
    for (int i = 0; i < 2; i++) {
        struct tearing_kind panel = { rows[i].wide, IN(20), 2 };
        struct tearing_rows out = tearing_fill(*state, &panel, 1, IN(56), IN(2));
        lies_well(&out, &panel, 1, IN(56), IN(2));
        assert_near(out.length_mm, rows[i].length, OVER_MM);
        assert_true(out.is_least);
    }
}

/* Hand-worked: beside a panel of 34 x 20 in, 22 in are left: four pockets of 10 x 9 in lie there two and two, one above
 * the other, and need no strip of their own. */
static void small_ones_lie_above_each_other_beside_a_high_one(void **state)
{
    static const struct tearing_kind kinds[] = { { IN(10), IN(9), 4 }, { IN(34), IN(20), 1 } };
    struct tearing_rows out = tearing_fill(*state, kinds, 2, IN(56), 0);
    lies_well(&out, kinds, 2, IN(56), 0);
    assert_int_equal(out.row_count, 1);
    assert_near(out.length_mm, IN(20), OVER_MM);
    assert_near(out.rows[0].used_mm, IN(54), OVER_MM);
}

static int some_kinds(unsigned long long *dice, struct tearing_kind *kinds)
{
    int left = 1 + throw_dice(dice, MOST_SINGLES), count = 0;
    while (left > 0) {
        int same = left > 1 ? 1 + throw_dice(dice, 2) : 1;
        kinds[count++] = (struct tearing_kind){ 30 + throw_dice(dice, 60), 10 + 5 * throw_dice(dice, 12), same };
        left -= same;
    }
    return count;
}

/* No way at all is shorter, of all ways to put up to five rectangles into columns and strips. */
static void no_way_is_shorter(void **state)
{
    unsigned long long dice = 7;
    for (int i = 0; i < WAYS; i++) {
        struct tearing_kind kinds[MOST_SINGLES];
        int count = some_kinds(&dice, kinds);
        double width = 90 + throw_dice(&dice, 120), extra = throw_dice(&dice, 2) ? 0 : 7;
        struct tearing_rows out = tearing_fill(*state, kinds, (size_t)count, width, extra);
        lies_well(&out, kinds, count, width, extra);
        assert_true(out.is_least);
        assert_near(out.length_mm, best_of_every_way(kinds, count, width, extra, false), OVER_MM);
    }
}

/* The same of strips along the cloth, where their common length counts. */
static void no_way_along_is_shorter(void **state)
{
    unsigned long long dice = 11;
    int fit = 0;
    for (int i = 0; i < WAYS; i++) {
        struct tearing_kind kinds[MOST_SINGLES], turned[MOST_SINGLES];
        struct tearing_rows out;
        int count = some_kinds(&dice, kinds);
        double width = 60 + throw_dice(&dice, 120), extra = throw_dice(&dice, 2) ? 0 : 7, length = 0;
        for (int k = 0; k < count; k++)
            turned[k] = (struct tearing_kind){ kinds[k].height_mm, kinds[k].width_mm, kinds[k].count };
        double best = best_of_every_way(turned, count, width, extra, true);
        bool ok = tearing_fill_along(*state, kinds, (size_t)count, width, extra, &length, &out);
        assert_int_equal(ok, best < INFINITY);
        if (!ok)
            continue;
        fit++;
        lies_well(&out, turned, count, length, extra);
        assert_true(out.length_mm <= width + OVER_MM);
        assert_near(length, best, FOUND_MM);
    }
    assert_true(fit > WAYS / 2);
}

/* Too many to look at every way: none is lost, none lies over another; no shorter than all areas over the width, and no
 * longer than twice that and one strip more, the bound of next fit by falling height (Coffman, Garey, Johnson and
 * Tarjan 1980), than which each in its best place does no worse. */
static void many_are_laid_in_turn(void **state)
{
    unsigned long long dice = 3;
    for (int i = 0; i < 40; i++) {
        struct tearing_kind kinds[MANY];
        double area = 0, high = 0, width = 400;
        int count = 20 + throw_dice(&dice, MANY - 20);
        for (int k = 0; k < count; k++) {
            kinds[k] = (struct tearing_kind){ 20 + throw_dice(&dice, 200), 20 + throw_dice(&dice, 300),
                                              1 + throw_dice(&dice, 4) };
            area += kinds[k].width_mm * kinds[k].height_mm * kinds[k].count;
            high = fmax(high, kinds[k].height_mm);
        }
        struct tearing_rows out = tearing_fill(*state, kinds, (size_t)count, width, 0);
        lies_well(&out, kinds, count, width, 0);
        assert_false(out.is_least);
        assert_true(out.length_mm >= area / width - OVER_MM);
        assert_true(out.length_mm <= 2 * area / width + high + OVER_MM);
    }
}

/* A hundred squares of 10 cm on 110 cm: eleven side by side, ten strips (hand-worked). */
static void a_hundred_squares(void **state)
{
    struct tearing_kind square = { 100, 100, 100 };
    struct tearing_rows out = tearing_fill(*state, &square, 1, 1100, 0);
    assert_int_equal(out.row_count, 10);
    assert_near(out.length_mm, 1000, OVER_MM);
}

int main(void)
{
    static const struct CMUnitTest tests[] = {
        room_arena_test(panels_lie_side_by_side_where_they_fit),
        room_arena_test(small_ones_lie_above_each_other_beside_a_high_one),
        room_arena_test(no_way_is_shorter),
        room_arena_test(no_way_along_is_shorter),
        room_arena_test(many_are_laid_in_turn),
        room_arena_test(a_hundred_squares),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
