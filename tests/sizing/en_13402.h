/* Women's bust classes of EN 13402-3 (2005): centres, and the edges between classes; a class is [lower, upper). As
 * coded in the R package Anthropometry 1.20 (R/plotPrototypes.R and man/bustSizesStandard.Rd), which cites the
 * standard. The steps are 4 cm up to 104 and 6 cm from there; every edge between two classes lies midway between their
 * centres, at the change of step too (104 and 110: 107), so the nearest centre and, of two, the larger is the class. */
#ifndef TESTS_SIZING_EN_13402_H
#define TESTS_SIZING_EN_13402_H

enum { EN_BUST_CLASSES = 12 };

static const double en_bust_centre_cm[EN_BUST_CLASSES] = { 76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122, 128 };
static const double en_bust_edge_cm[EN_BUST_CLASSES + 1] = { 74, 78, 82, 86, 90, 94, 98, 102, 107, 113, 119, 125, 131 };

/* A pattern whose chart is these classes; written with ' for ". */
#define EN_BUST_PATTERN                                                                                                \
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Classes', 'unit': 'cm',"                                        \
    "  'sizes': ['1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12'],"                                      \
    "  'chart': { 'bust': [76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122, 128] }, 'main_measurement': 'bust',"       \
    "  'pieces': [ { 'name': 'p', 'rectangle': { 'width': 1, 'height': 1 } } ],"                                       \
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }"

#endif
