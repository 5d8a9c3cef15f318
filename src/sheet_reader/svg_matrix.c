#include "sheet_reader/svg_matrix.h"

#include "geometry/turn.h"
#include "sheet_reader/svg_number.h"

#include <string.h>

struct svg_matrix svg_matrix_none(void)
{
    return (struct svg_matrix){ 1, 0, 0, 1, 0, 0 };
}

struct svg_matrix svg_matrix_then(struct svg_matrix i, struct svg_matrix o)
{
    return (struct svg_matrix){ o.a * i.a + o.c * i.b, o.b * i.a + o.d * i.b,       o.a * i.c + o.c * i.d,
                                o.b * i.c + o.d * i.d, o.a * i.e + o.c * i.f + o.e, o.b * i.e + o.d * i.f + o.f };
}

vec2 svg_matrix_apply(const struct svg_matrix *m, double x, double y)
{
    return (vec2){ m->a * x + m->c * y + m->e, m->b * x + m->d * y + m->f };
}

double svg_matrix_scale(const struct svg_matrix *m)
{
    return sqrt(fabs(m->a * m->d - m->b * m->c));
}

/* ------------------------------------------------------------------------------------------------ transform functions
 */

static struct svg_matrix shift(double x, double y)
{
    return (struct svg_matrix){ 1, 0, 0, 1, x, y };
}

static struct svg_matrix make_matrix(const double *v, int count)
{
    (void)count;
    return (struct svg_matrix){ v[0], v[1], v[2], v[3], v[4], v[5] };
}

static struct svg_matrix make_translate(const double *v, int count)
{
    return shift(v[0], count > 1 ? v[1] : 0);
}

static struct svg_matrix make_scale(const double *v, int count)
{
    return (struct svg_matrix){ v[0], 0, 0, count > 1 ? v[1] : v[0], 0, 0 };
}

static struct svg_matrix make_rotate(const double *v, int count)
{
    double s, c;
    geometry_sincos(v[0], &s, &c);
    struct svg_matrix turn = { c, s, -s, c, 0, 0 };
    if (count < 3)
        return turn;
    return svg_matrix_then(svg_matrix_then(shift(-v[1], -v[2]), turn), shift(v[1], v[2]));
}

/* The tangent; where there is none the skew is left out. */
static double slope(double degrees)
{
    double s, c;
    geometry_sincos(degrees, &s, &c);
    return c != 0 ? s / c : 0;
}

static struct svg_matrix make_skew_x(const double *v, int count)
{
    (void)count;
    return (struct svg_matrix){ 1, 0, slope(v[0]), 1, 0, 0 };
}

static struct svg_matrix make_skew_y(const double *v, int count)
{
    (void)count;
    return (struct svg_matrix){ 1, slope(v[0]), 0, 1, 0, 0 };
}

/* A function takes `fewest` or `most` numbers. */
static const struct function {
    const char *name;
    int fewest, most;
    struct svg_matrix (*make)(const double *v, int count);
} functions[] = {
    { "matrix", 6, 6, make_matrix }, { "translate", 1, 2, make_translate }, { "scale", 1, 2, make_scale },
    { "rotate", 1, 3, make_rotate }, { "skewX", 1, 1, make_skew_x },        { "skewY", 1, 1, make_skew_y },
};

static const struct function *scan_name(struct svg_scan *s)
{
    for (size_t i = 0; i < sizeof functions / sizeof functions[0]; i++) {
        size_t length = strlen(functions[i].name);
        if (strncmp(s->at, functions[i].name, length) == 0) {
            s->at += length;
            return &functions[i];
        }
    }
    return NULL;
}

/* The numbers between brackets. CSS writes angles as "deg" and lengths as "px", which are what bare numbers mean. */
static int scan_arguments(struct svg_scan *s, double v[6])
{
    static const char *const units[] = { "deg", "px" };
    int count = 0;
    svg_skip_space(s);
    if (*s->at++ != '(')
        return -1;
    svg_skip_space(s);
    while (*s->at != ')') {
        if (count == 6 || !svg_scan_number(s, &v[count++]))
            return -1;
        for (size_t i = 0; i < 2; i++)
            if (strncmp(s->at, units[i], strlen(units[i])) == 0)
                s->at += strlen(units[i]);
        svg_skip_comma(s);
    }
    s->at++;
    return count;
}

static bool scan_function(struct svg_scan *s, struct svg_matrix *out)
{
    double v[6] = { 0 };
    const struct function *f = scan_name(s);
    if (!f)
        return false;
    int count = scan_arguments(s, v);
    if (count != f->fewest && count != f->most)
        return false;
    *out = f->make(v, count);
    return true;
}

bool svg_matrix_read(const char *text, struct svg_matrix *out)
{
    struct svg_matrix all = svg_matrix_none(), one;
    struct svg_scan s = { text };
    svg_skip_space(&s);
    while (*s.at && strcmp(s.at, "none") != 0) {
        const char *before = s.at;
        if (!scan_function(&s, &one))
            return false;
        all = svg_matrix_then(one, all);
        svg_skip_comma(&s);
        if (s.at == before)
            return false;
    }
    *out = all;
    return true;
}

/* ---------------------------------------------------------------------------------------------------------- viewports
 */

bool svg_box_read(const char *text, struct svg_box *out)
{
    struct svg_scan s = { text };
    double v[4];
    svg_skip_space(&s);
    for (size_t i = 0; i < 4; i++) {
        if (!svg_scan_number(&s, &v[i]))
            return false;
        svg_skip_comma(&s);
    }
    if (*s.at || v[2] <= 0 || v[3] <= 0)
        return false;
    *out = (struct svg_box){ v[0], v[1], v[2], v[3] };
    return true;
}

/* What share of the room left over goes before the drawing: "xMin" none, "xMid" half, "xMax" all; likewise Y. */
static double share(const char *preserve, const char *least, const char *most)
{
    return strstr(preserve, least) ? 0 : strstr(preserve, most) ? 1 : 0.5;
}

struct svg_matrix svg_box_fit(struct svg_box view, struct svg_box port, const char *preserve)
{
    double x_scale = port.width / view.width, y_scale = port.height / view.height;
    if (!preserve)
        preserve = "";
    if (!strstr(preserve, "none")) {
        bool slice = strstr(preserve, "slice");
        double both = (x_scale < y_scale) == !slice ? x_scale : y_scale;
        x_scale = y_scale = both;
    }
    double x = port.x + share(preserve, "xMin", "xMax") * (port.width - view.width * x_scale);
    double y = port.y + share(preserve, "YMin", "YMax") * (port.height - view.height * y_scale);
    return (struct svg_matrix){ x_scale, 0, 0, y_scale, x - view.x * x_scale, y - view.y * y_scale };
}
