/* A tearing plan as an SVG file (W3C SVG 1.1) at true scale: the cloth as it lies single and washed, where it is torn
 * and cut, and what is lost. */
#ifndef EXPORT_TEAR_SVG_H
#define EXPORT_TEAR_SVG_H

#include "export/list_words.h"
#include "tearing/tearing.h"

/* The file's text, in the words' arena. One user unit is 1 mm, without transforms but of words: the end of the cloth is
 * at the left, one selvedge below, EXPORT_TEAR_MARGIN_MM from the page's. It shows the cloth at hand, or what is needed
 * where that is more or none was told. Tears are paths of class "tear", rectangles paths of class "cut" in groups of
 * class "piece", what is lost paths of class "waste". */
const char *export_tear_svg(const struct export_words *w, const struct tearing_plan *plan, const char *title);

#define EXPORT_TEAR_MARGIN_MM 40.0

#endif
