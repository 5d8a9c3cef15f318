#include "values/length.h"

#include "json/want.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static const struct err_kind no_length = {
    "values.no_length", ERR_FAULT,
    BASE_TR("needs a length: a number of {0} or a text such as \"5/8 in\" or \"94 cm\", not {1}")
};
static const struct err_kind unread_length = {
    "values.unread_length", ERR_FAULT,
    BASE_TR("“{0}” is not a length; write a number of {1} or a text such as \"37 1/2 in\" or \"94 cm\"")
};
static const struct err_kind too_long = { "values.too_long", ERR_FAULT,
                                          BASE_TR("{0} {1} is longer than 100 m; write a shorter length") };
static const struct err_kind out_of_bounds = { "values.out_of_bounds", ERR_FAULT,
                                               BASE_TR("needs a length from {0} to {1}, and this is {2}") };
static const struct err_kind no_unit = { "values.no_unit", ERR_FAULT,
                                         BASE_TR("“{0}” is not a unit; write \"mm\", \"cm\" or \"in\"") };

static bool from_number(const struct json_node *node, enum units_length unit, double *out_mm, struct err_list *errs)
{
    double mm = node->number * units_mm_per(unit);
    if (!(fabs(mm) <= UNITS_FARTHEST_MM)) {
        json_fault(errs, node, &too_long, ERR_NUMBER(node->number), ERR_TEXT(units_name(unit)));
        return false;
    }
    *out_mm = mm;
    return true;
}

bool values_length(const struct json_node *node, enum units_length unit, double *out_mm, struct err_list *errs)
{
    assert(node);
    if (node->type == JSON_NUMBER)
        return from_number(node, unit, out_mm, errs);
    if (node->type != JSON_TEXT) {
        json_fault(errs, node, &no_length, ERR_TEXT(units_name(unit)), ERR_TEXT(json_type_name(node->type)));
        return false;
    }
    if (units_parse_length(node->text, unit, out_mm))
        return true;
    json_fault(errs, node, &unread_length, ERR_TEXT(json_shown(errs->arena, node->text)), ERR_TEXT(units_name(unit)));
    return false;
}

bool values_need_length(const struct json_node *object, const char *name, enum units_length unit, double least_mm,
                        double most_mm, double *out_mm, struct err_list *errs)
{
    const struct json_node *node = json_find(object, name);
    double mm;
    if (!node) {
        json_need(object, name, JSON_NUMBER, errs); /* tells that it is missing */
        return false;
    }
    if (!values_length(node, unit, &mm, errs))
        return false;
    if (mm < least_mm || mm > most_mm) {
        json_fault(errs, node, &out_of_bounds, ERR_MM(least_mm), ERR_MM(most_mm), ERR_MM(mm));
        return false;
    }
    *out_mm = mm;
    return true;
}

bool values_unit(const struct json_node *object, enum units_length *out, struct err_list *errs)
{
    *out = UNITS_MM;
    const char *name = json_need_text(object, "unit", errs);
    if (!name)
        return false;
    if (units_from_name(name, out))
        return true;
    json_fault(errs, json_find(object, "unit"), &no_unit, ERR_TEXT(json_shown(errs->arena, name)));
    return false;
}

void values_write_length(struct json_out *to, const char *key, double mm, enum units_length unit)
{
    double per = units_mm_per(unit), value = mm / per;
    /* A division seldom gives back the number that was read: 12.3 in becomes 12.299999999999999. */
    for (int digits = 1; digits <= 17; digits++) {
        char text[32];
        snprintf(text, sizeof text, "%.*g", digits, mm / per);
        double shorter = strtod(text, NULL);
        if (shorter * per == mm) {
            value = shorter;
            break;
        }
    }
    json_out_number(to, key, value);
}
