#include "export/svg_parts.h"

#include "export/sheet.h"
#include "export/xml.h"

void export_svg_begin(struct base_buffer *out, double width, double height, const char *title)
{
    base_buffer_print(out,
                      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" "
                      "version=\"1.1\" width=\"%.4fmm\" height=\"%.4fmm\" viewBox=\"0 0 %.4f %.4f\" "
                      "font-family=\"sans-serif\">\n  <title>%s</title>\n",
                      width, height, width, height, export_xml_text(out->a, title));
}

vec2 export_svg_point(vec2 p, double height)
{
    return (vec2){ export_mm(p.x), export_mm(height - p.y) };
}

void export_svg_path(struct base_buffer *out, struct geometry_path path, vec2 shift, double height)
{
    for (size_t i = 0; i < path.count; i++) {
        vec2 p = export_svg_point(vec2_add(path.points[i], shift), height);
        base_buffer_print(out, "%s%.4f,%.4f", i ? " L" : "M", p.x, p.y);
    }
    if (path.count == 1 && !path.closed) { /* a dot, which a place alone would not be */
        vec2 p = export_svg_point(vec2_add(path.points[0], shift), height);
        base_buffer_print(out, " L%.4f,%.4f", p.x, p.y);
    }
    base_buffer_print(out, "%s", path.closed ? " Z" : "");
}

void export_svg_shape(struct base_buffer *out, const char *class, const char *look, struct geometry_path path,
                      vec2 shift, double height)
{
    base_buffer_print(out, "<path class=\"%s\" %s d=\"", class, look);
    export_svg_path(out, path, shift, height);
    base_buffer_print(out, "\"/>\n");
}

void export_svg_head(struct base_buffer *out, vec2 from, vec2 tip, vec2 shift, double height, double head_mm)
{
    vec2 along = vec2_unit(vec2_sub(tip, from)), foot = vec2_sub(tip, vec2_scale(along, head_mm));
    vec2 side = vec2_scale(vec2_right(along), head_mm / 4);
    vec2 corners[] = { vec2_add(foot, side), tip, vec2_sub(foot, side) };
    base_buffer_print(out, "      <path class=\"head\" d=\"");
    export_svg_path(out, (struct geometry_path){ corners, 3, false }, shift, height);
    base_buffer_print(out, "\"/>\n");
}

void export_svg_heads(struct base_buffer *out, struct geometry_path shaft, vec2 shift, double height, double head_mm)
{
    for (int end = 0; end < 2; end++)
        export_svg_head(out, shaft.points[!end], shaft.points[end], shift, height, head_mm);
}

void export_svg_words(struct base_buffer *out, const char *text, vec2 at, vec2 along, double size_mm, double height,
                      const char *look)
{
    vec2 p = export_svg_point(at, height);
    base_buffer_print(out, "<text transform=\"matrix(%.6f %.6f %.6f %.6f %.4f %.4f)\" font-size=\"%g\" %s>%s</text>\n",
                      export_mm(along.x), export_mm(-along.y), export_mm(along.y), export_mm(along.x), p.x, p.y,
                      size_mm, look, export_xml_text(out->a, text));
}
