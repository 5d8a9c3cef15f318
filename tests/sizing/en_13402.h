/* Women's classes of EN 13402-3 (2005): centres, and the edges between classes; a class is [lower, upper). As coded in
 * the R package Anthropometry 1.20 (R/plotPrototypes.R and man/bustSizesStandard.Rd), which cites the standard. Of the
 * hip it has the centres alone; the edges here are midway between them, as those of bust and waist are. The steps of
 * the bust are 4 cm up to 104 and 6 cm from there; every edge between two classes lies midway between their centres, at
 * the change of step too (104 and 110: 107), so the nearest centre and, of two, the larger is the class. */
#ifndef TESTS_SIZING_EN_13402_H
#define TESTS_SIZING_EN_13402_H

enum { EN_BUST, EN_WAIST, EN_HIP, EN_ROWS, EN_CLASSES = 12 };

static const struct {
    const char *name;
    double centre_cm[EN_CLASSES], edge_cm[EN_CLASSES + 1];
} en_rows[EN_ROWS] = {
    [EN_BUST] = { "bust",
                  { 76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122, 128 },
                  { 74, 78, 82, 86, 90, 94, 98, 102, 107, 113, 119, 125, 131 } },
    [EN_WAIST] = { "waist",
                   { 60, 64, 68, 72, 76, 80, 84, 88, 94, 100, 106, 112 },
                   { 58, 62, 66, 70, 74, 78, 82, 86, 91, 97, 103, 109, 115 } },
    [EN_HIP] = { "hip",
                 { 84, 88, 92, 96, 100, 104, 108, 112, 117, 122, 127, 132 },
                 { 82, 86, 90, 94, 98, 102, 106, 110, 114.5, 119.5, 124.5, 129.5, 134.5 } },
};

#define EN_SIZES "['1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12']"
#define EN_REST                                                                                                        \
    "'main_measurement': 'bust', 'pieces': [ { 'name': 'p', 'rectangle': { 'width': 1, 'height': 1 } } ],"             \
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }"

/* A pattern whose chart is the bust's classes, and one with waist and hip; written with ' for ". */
#define EN_BUST_PATTERN                                                                                                \
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Classes', 'unit': 'cm', 'sizes': " EN_SIZES ","                 \
    "  'chart': { 'bust': [76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122, 128] }, " EN_REST
#define EN_PATTERN                                                                                                     \
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Classes', 'unit': 'cm', 'sizes': " EN_SIZES ","                 \
    "  'chart': { 'bust': [76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122, 128],"                                     \
    "    'waist': [60, 64, 68, 72, 76, 80, 84, 88, 94, 100, 106, 112],"                                                \
    "    'hip': [84, 88, 92, 96, 100, 104, 108, 112, 117, 122, 127, 132] }, " EN_REST

#endif
