#include "lifting/write.h"

#include "lifting/grain_line.h"
#include "lifting/leveled.h"
#include "lifting/marking.h"
#include "json/write.h"

#include <math.h>
#include <string.h>

enum { FORMAT_VERSION = 2 };

static const struct err_kind no_piece = {
    "lifting.no_piece", ERR_FAULT,
    BASE_TR("no piece was found to be written: say which lines are which size, or join what is drawn in parts")
};
static const struct err_kind stands_in = {
    "lifting.stands_in", ERR_WARNING,
    BASE_TR("piece “{0}” is not drawn in size {1}: the size nearest to it stands in, look whether that is meant")
};
static const struct err_kind no_fold = { "lifting.no_fold", ERR_WARNING,
                                         BASE_TR("piece “{0}” is cut on the fold, but which of its edges lies there "
                                                 "was not found: say it, or half the piece is cut") };
static const struct err_kind left_out_marks = {
    "lifting.left_out", ERR_WARNING,
    BASE_TR("of piece “{0}” not all that is marked could be taken over (left out: {1}); mark it by hand")
};

/* A pattern's text under construction. */
struct writer {
    struct arena *a;
    const struct lifting *l;
    const struct lifting_wish *wish;
    struct err_list *errs;
    size_t size_count;
    const char **names; /* of the pieces */
    bool *has_fold;     /* likewise */
};

/* Names of a piece's points so far, and which of them lie on a level of the body. */
struct names {
    size_t between, controls;
    const struct lifting_levels *levels; /* of the piece, or NULL */
    struct lifting_leveled leveled;
    struct json_out *levels_to;
    struct json_out **lists; /* for each level, or NULL: no point yet */
};

/* ---- Numbers ---- */

/* Nearer than 0.0005 mm: what its digits are cut to. */
static double in_unit(const struct writer *w, double mm)
{
    static const double parts[] = { [UNITS_MM] = 1e3, [UNITS_CM] = 1e4, [UNITS_IN] = 1e5 };
    double part = parts[w->wish->unit];
    double number = round(mm / units_mm_per(w->wish->unit) * part) / part;
    return number == 0 ? 0 : number; /* no minus zero */
}

/* One number where all are the same. */
static void put_value(const struct writer *w, struct json_out *to, const char *key, const struct lifting_made *made,
                      const double *mm, size_t every)
{
    bool same = true;
    double first = in_unit(w, mm[0]);
    for (size_t d = 1; d < made->size_count; d++)
        same = same && in_unit(w, mm[d * every]) == first;
    if (same) {
        json_out_number(to, key, first);
        return;
    }
    struct json_out *list = json_out_list(to, key);
    for (size_t k = 0; k < w->size_count; k++)
        json_out_number(list, NULL, in_unit(w, mm[made->stands_for[k] * every]));
}

static void put_point(const struct writer *w, struct json_out *points, const char *name,
                      const struct lifting_made *made, const vec2 *at)
{
    struct json_out *pair = json_out_list(points, name);
    put_value(w, pair, NULL, made, &at->x, sizeof *at / sizeof at->x);
    put_value(w, pair, NULL, made, &at->y, sizeof *at / sizeof at->y);
}

/* ---- Outlines ---- */

static const char *corner_name(const struct writer *w, const struct lifting_made *made, size_t corner)
{
    return base_arena_print(w->a, "p%zu", corner % made->match.corner_count + 1);
}

/* `level`: of the piece's, or LIFTING_NONE. */
static void put_on_level(const struct writer *w, const struct names *names, int level, const char *point)
{
    if (level == LIFTING_NONE)
        return;
    if (!names->lists[level])
        names->lists[level] =
            json_out_list(names->levels_to, w->wish->chart->rows[names->levels->levels[level].row].name);
    json_out_text(names->lists[level], NULL, point);
}

/* The way from one corner to the next. */
static void put_span(const struct writer *w, struct json_out *points, struct json_out *path,
                     const struct lifting_made *made, size_t corner, struct names *names)
{
    const struct lifting_curve *curve = &made->curves[corner % made->match.corner_count];
    for (size_t s = 0; s < curve->step_count; s++) {
        const vec2 *at = &curve->points[(3 * s + 1) * curve->size_count];
        struct json_out *to = path;
        for (int i = 0; i < 2 && !curve->is_line[s]; i++) {
            const char *control = base_arena_print(w->a, "c%zu", ++names->controls);
            put_point(w, points, control, made, at + (size_t)i * curve->size_count);
            to = i ? to : json_out_list(path, NULL);
            json_out_text(to, NULL, control);
        }
        bool is_last = s + 1 == curve->step_count;
        const char *end = is_last ? corner_name(w, made, corner + 1) : base_arena_print(w->a, "q%zu", ++names->between);
        if (!is_last) {
            put_point(w, points, end, made, at + 2 * curve->size_count);
            put_on_level(w, names, names->leveled.after[corner % made->match.corner_count][s], end);
        }
        json_out_text(to, NULL, end);
    }
}

static void put_edge(const struct writer *w, struct json_out *points, struct json_out *outline,
                     const struct lifting_made *made, size_t edge, struct names *names)
{
    const struct lifting_made_edge *e = &made->edges[edge];
    struct json_out *object = json_out_object(outline, NULL);
    json_out_text(object, "name", e->name);
    struct json_out *path = json_out_list(object, "path");
    json_out_text(path, NULL, corner_name(w, made, e->first));
    bool is_fold = (int)edge == made->fold;
    for (size_t i = 0; i < e->spans; i++) {
        size_t corner = (e->first + i) % made->match.corner_count;
        if (!is_fold || i == 0) {
            put_point(w, points, corner_name(w, made, corner), made, made->curves[corner].points);
            put_on_level(w, names, names->leveled.corner[corner], corner_name(w, made, corner));
        }
        if (!is_fold)
            put_span(w, points, path, made, corner, names);
    }
    if (is_fold)
        json_out_text(path, NULL, corner_name(w, made, e->first + e->spans));
}

/* ---- Marks ---- */

static void put_notch(const struct writer *w, struct json_out *list, const struct lifting_made *made,
                      const struct lifting_marked *mark)
{
    struct json_out *notch = json_out_object(list, NULL);
    json_out_text(notch, "edge", made->edges[mark->edge].name);
    put_value(w, notch, mark->from_end ? "from_end" : "at", made, mark->at_mm, 1);
    if (mark->like->is_v)
        json_out_text(notch, "shape", "v");
    if (!(mark->like->apart_mm > 0))
        return;
    json_out_bool(notch, "double", true);
    json_out_number(notch, "apart", in_unit(w, mark->like->apart_mm));
}

/* Puts a mark's points under names of their own, which it then tells. */
static void put_points(const struct writer *w, struct json_out *points, const struct lifting_made *made,
                       const struct lifting_marked *mark, size_t count, const char *letter, size_t number,
                       const char **names)
{
    for (size_t i = 0; i < count; i++) {
        names[i] = count > 1 ? base_arena_print(w->a, "%s%zu %zu", letter, number, i + 1)
                             : base_arena_print(w->a, "%s%zu", letter, number);
        put_point(w, points, names[i], made, &mark->points[i * made->size_count]);
    }
}

static void put_drill(const struct writer *w, struct json_out *list, struct json_out *points,
                      const struct lifting_made *made, const struct lifting_marked *mark, size_t number)
{
    const char *name;
    put_points(w, points, made, mark, 1, "m", number, &name);
    json_out_text(list, NULL, name);
}

static void put_dart(const struct writer *w, struct json_out *list, struct json_out *points,
                     const struct lifting_made *made, const struct lifting_marked *mark, size_t number)
{
    const char *names[3];
    put_points(w, points, made, mark, 3, "d", number, names);
    struct json_out *dart = json_out_object(list, NULL), *legs;
    json_out_text(dart, "edge", made->edges[mark->edge].name);
    legs = json_out_list(dart, "legs");
    json_out_text(legs, NULL, names[0]);
    json_out_text(legs, NULL, names[2]);
    json_out_text(dart, "apex", names[1]);
}

static void put_line(const struct writer *w, struct json_out *list, struct json_out *points,
                     const struct lifting_made *made, const struct lifting_marked *mark, size_t number)
{
    const char *names[2];
    put_points(w, points, made, mark, 2, "l", number, names);
    struct json_out *line = json_out_object(list, NULL);
    json_out_text(line, "kind", mark->kind == LIFTING_LENGTHEN ? "lengthen" : "placement");
    json_out_text(line, "from", names[0]);
    json_out_text(line, "to", names[1]);
}

static const struct {
    unsigned kinds; /* bits of 1 << enum lifting_mark_kind */
    const char *field;
    void (*put)(const struct writer *, struct json_out *, struct json_out *, const struct lifting_made *,
                const struct lifting_marked *, size_t);
} mark_rows[] = {
    { 1u << LIFTING_DRILL, "drill_marks", put_drill },
    { 1u << LIFTING_DART, "darts", put_dart },
    { 1u << LIFTING_LENGTHEN | 1u << LIFTING_INNER, "lines", put_line },
};

static void put_marks(const struct writer *w, struct json_out *object, struct json_out *points,
                      const struct lifting_made *made, const struct lifting_marked *marks, size_t count)
{
    struct json_out *notches = NULL;
    for (size_t i = 0; i < count; i++) {
        if (marks[i].kind != LIFTING_NOTCH)
            continue;
        notches = notches ? notches : json_out_list(object, "notches");
        put_notch(w, notches, made, &marks[i]);
    }
    for (size_t row = 0; row < sizeof mark_rows / sizeof mark_rows[0]; row++) {
        struct json_out *list = NULL;
        size_t number = 0;
        for (size_t i = 0; i < count; i++) {
            if (!(mark_rows[row].kinds & 1u << marks[i].kind))
                continue;
            list = list ? list : json_out_list(object, mark_rows[row].field);
            mark_rows[row].put(w, list, points, made, &marks[i], ++number);
        }
    }
}

#define GRAIN_MM 50.0 /* half of the line that tells the grain where none was found in the piece */

/* As it is drawn, else in the middle. */
static void grain_in(const struct lifting_made *made, size_t drawn, vec2 ends[2])
{
    bool found = lifting_grain_line(made->piece, (int)made->size[drawn], ends);
    struct geometry_box box = geometry_path_box(made->outlines[made->size_count - 1]);
    vec2 middle = vec2_lerp(box.min, box.max, 0.5), along = vec2_scale(vec2_unit(made->piece->grain), GRAIN_MM);
    ends[0] = found ? vec2_add(ends[0], made->shift[drawn]) : vec2_sub(middle, along);
    ends[1] = found ? vec2_add(ends[1], made->shift[drawn]) : vec2_add(middle, along);
}

static void put_grain(const struct writer *w, struct json_out *object, struct json_out *points,
                      const struct lifting_made *made)
{
    if (made->piece->doubts & LIFTING_DOUBT_GRAIN)
        return; /* none was found: the proof-reader says so, too */
    struct json_out *list = json_out_list(object, "grain");
    vec2 *ends[2];
    for (int i = 0; i < 2; i++)
        ends[i] = base_arena_alloc(w->a, made->size_count, sizeof(vec2));
    for (size_t d = 0; d < made->size_count; d++) {
        vec2 line[2];
        grain_in(made, d, line);
        ends[0][d] = line[0];
        ends[1][d] = line[1];
    }
    for (int i = 0; i < 2; i++) {
        const char *name = i ? "grain 2" : "grain 1";
        put_point(w, points, name, made, ends[i]);
        json_out_text(list, NULL, name);
    }
}

/* ---- Pieces ---- */

static void tell(const struct writer *w, const struct err_kind *kind, size_t piece, struct err_arg what)
{
    base_err(w->errs, kind, base_err_in_file(NULL), ERR_TEXT(w->names[piece]), what);
}

static void tell_stand_ins(const struct writer *w, size_t piece, const struct lifting_made *made)
{
    const char *list = "";
    for (size_t k = 0; k < w->size_count; k++)
        if (!made->piece->one_size && made->size[made->stands_for[k]] != k)
            list = base_arena_print(w->a, "%s%s%s", list, *list ? ", " : "", w->l->division->sizes[k]);
    if (*list)
        tell(w, &stands_in, piece, ERR_TEXT(list));
}

/* Name and number, as the instructions call it. */
static const char *label_of(const struct writer *w, size_t piece)
{
    const struct lifting_words *words = &w->l->pieces[piece].words;
    if (!words->name)
        return w->names[piece];
    return words->number ? base_arena_print(w->a, "%s %s", words->number, words->name) : words->name;
}

/* Makes the piece's outline follow its levels, which go to `object`. */
static void find_levels(const struct writer *w, struct arena *work, struct lifting_made *made, size_t piece,
                        struct json_out *object, struct names *names)
{
    names->levels = lifting_chart_levels(w->wish->chart, w->names[piece]);
    lifting_find_leveled(work, made, names->levels, &names->leveled, w->errs);
    if (!names->levels || !names->levels->count)
        return;
    names->levels_to = json_out_object(object, "levels");
    names->lists = base_arena_alloc(work, names->levels->count, sizeof(struct json_out *));
}

static void put_piece(const struct writer *w, struct json_out *pieces, size_t piece)
{
    const struct lifting_piece *from = &w->l->pieces[piece];
    struct arena *work = base_arena_create();
    struct lifting_made made;
    const struct lifting_marked *marks;
    struct names names = { 0 };
    size_t left_out;
    lifting_make(work, from, w->size_count, &made);
    size_t mark_count = lifting_gather_marks(work, &made, w->wish, &marks, &left_out);
    struct json_out *object = json_out_object(pieces, NULL);
    json_out_text(object, "name", w->names[piece]);
    json_out_text(object, "label", label_of(w, piece));
    if (from->cup_group != LIFTING_NONE)
        json_out_text(object, "cup_group", w->l->division->cup_groups[from->cup_group]);
    struct json_out *points = json_out_object(object, "points"), *outline = json_out_list(object, "outline");
    find_levels(w, work, &made, piece, object, &names);
    for (size_t e = 0; e < made.edge_count; e++)
        put_edge(w, points, outline, &made, e, &names);
    if (w->wish->allowance_mm > 0)
        json_out_number(object, "allowance", in_unit(w, w->wish->allowance_mm));
    w->has_fold[piece] = made.fold != LIFTING_NONE;
    if (w->has_fold[piece])
        json_out_text(object, "fold", made.edges[made.fold].name);
    else if (from->words.on_fold)
        tell(w, &no_fold, piece, ERR_NONE);
    put_grain(w, object, points, &made);
    put_marks(w, object, points, &made, marks, mark_count);
    tell_stand_ins(w, piece, &made);
    if (left_out)
        tell(w, &left_out_marks, piece, ERR_NUMBER(left_out));
    base_arena_destroy(work);
}

static bool is_drawn(const struct writer *w, size_t piece)
{
    for (size_t k = 0; k < w->size_count; k++)
        if (w->l->pieces[piece].outlines[k].there && w->l->pieces[piece].outlines[k].path.path.count >= 3)
            return true;
    return false;
}

/* ---- Names ---- */

static bool is_taken(const struct writer *w, size_t count, const char *name)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(w->names[i], name) == 0)
            return true;
    return false;
}

/* Seams name pieces and their edges with a full stop between. */
static const char *without_stops(const struct writer *w, const char *name)
{
    char *copy = base_arena_copy_text(w->a, name);
    for (char *at = copy; *at; at++)
        if (*at == '.')
            *at = ' ';
    return copy;
}

/* As it is called, else by its number; told apart by the cup group, then by counting. */
static const char *name_of(const struct writer *w, size_t piece)
{
    const struct lifting_piece *p = &w->l->pieces[piece];
    const char *name = p->words.name     ? without_stops(w, p->words.name)
                       : p->words.number ? base_arena_print(w->a, "piece %s", without_stops(w, p->words.number))
                                         : base_arena_print(w->a, "piece %zu", piece + 1);
    if (is_taken(w, piece, name) && p->cup_group != LIFTING_NONE)
        name = base_arena_print(w->a, "%s %s", name, without_stops(w, w->l->division->cup_groups[p->cup_group]));
    const char *one = name;
    for (size_t i = 2; is_taken(w, piece, one); i++)
        one = base_arena_print(w->a, "%s %zu", name, i);
    return one;
}

/* ---- The file ---- */

static void put_chart(const struct writer *w, struct json_out *top)
{
    const struct lifting_chart *from = w->wish->chart;
    if (!from)
        return;
    struct json_out *chart = json_out_object(top, "chart");
    for (size_t r = 0; r < from->row_count; r++) {
        struct json_out *list = json_out_list(chart, from->rows[r].name);
        for (size_t k = 0; k < w->size_count; k++)
            json_out_number(list, NULL, in_unit(w, from->rows[r].mm[k]));
    }
    json_out_text(top, "main_measurement", from->rows[from->main_row].name);
}

static void put_cup_groups(const struct writer *w, struct json_out *top)
{
    if (!w->l->division->cup_group_count)
        return;
    struct json_out *list = json_out_list(top, "cup_groups");
    for (size_t g = 0; g < w->l->division->cup_group_count; g++)
        json_out_text(json_out_object(list, NULL), "name", w->l->division->cup_groups[g]);
}

/* Once where nothing was found; both halves of a piece on the fold are alike. */
static void put_cut(const struct writer *w, struct json_out *cut, size_t piece, enum lifting_cloth cloth)
{
    static const char *const cloths[] = { "fabric", "interfacing", "lining" };
    const struct lifting_words *words = &w->l->pieces[piece].words;
    int count = words->counts[cloth] ? words->counts[cloth] : words->count ? words->count : 1;
    struct json_out *line = json_out_object(cut, NULL);
    json_out_text(line, "piece", w->names[piece]);
    bool pairs = words->pairs && !w->has_fold[piece];
    json_out_number(line, pairs ? "pairs" : "count", words->pairs && !pairs ? 2 * count : count);
    if (cloth != LIFTING_FABRIC)
        json_out_text(line, "cloth", cloths[cloth]);
}

static void put_view(const struct writer *w, struct json_out *top)
{
    struct json_out *view = json_out_object(json_out_list(top, "views"), NULL);
    json_out_text(view, "name", "all");
    json_out_text(view, "label", "All pieces");
    struct json_out *cut = json_out_list(view, "cut");
    for (size_t i = 0; i < w->l->piece_count; i++) {
        unsigned cloths = w->l->pieces[i].words.cloths;
        for (int cloth = LIFTING_FABRIC; cloth <= LIFTING_LINING && is_drawn(w, i); cloth++)
            if ((cloths ? cloths : 1u << LIFTING_FABRIC) & 1u << cloth)
                put_cut(w, cut, i, (enum lifting_cloth)cloth);
    }
}

static void put_sizes(const struct writer *w, struct json_out *top)
{
    struct json_out *list = json_out_list(top, "sizes");
    for (size_t k = 0; k < w->size_count; k++)
        json_out_text(list, NULL, w->l->division->sizes[k]);
}

static void put_all(const struct writer *w, struct json_out *top)
{
    json_out_text(top, "chalklight", "pattern");
    json_out_number(top, "version", FORMAT_VERSION);
    json_out_text(top, "name", w->wish->name);
    json_out_text(top, "unit", units_name(w->wish->unit));
    json_out_text(top, "outline", w->wish->cutting_line ? "cutting line" : "stitching line");
    put_sizes(w, top);
    put_chart(w, top);
    put_cup_groups(w, top);
    struct json_out *pieces = json_out_list(top, "pieces");
    for (size_t i = 0; i < w->l->piece_count; i++)
        if (is_drawn(w, i))
            put_piece(w, pieces, i);
    put_view(w, top);
}

const char *lifting_write(struct arena *a, const struct lifting *l, const struct lifting_wish *wish,
                          struct err_list *errs)
{
    struct arena *work = base_arena_create();
    struct writer w = { work, l, wish, errs, l->division->size_count, NULL, NULL };
    const char *text = NULL;
    size_t drawn = 0;
    int before = errs->faults;
    w.names = base_arena_alloc(work, l->piece_count, sizeof *w.names);
    w.has_fold = base_arena_alloc(work, l->piece_count, sizeof *w.has_fold);
    for (size_t i = 0; i < l->piece_count; i++) {
        w.names[i] = name_of(&w, i);
        drawn += is_drawn(&w, i);
    }
    if (!drawn) {
        base_err(errs, &no_piece, base_err_in_file(NULL), ERR_NONE);
    } else if (!wish->chart || lifting_chart_suits(wish->chart, l->division, w.names, l->piece_count, errs)) {
        struct json_out *top = json_out_create();
        put_all(&w, top);
        text = errs->faults == before ? json_out_print(a, top) : NULL;
        json_out_destroy(top);
    }
    base_arena_destroy(work);
    return text;
}
