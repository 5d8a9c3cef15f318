/* Drafted pieces as files at true scale, for other programs and other tools than light. */
#include "app/copies.h"
#include "app/fitted.h"
#include "base/words.h"
#include "cli/run.h"
#include "export/dxf.h"
#include "export/svg.h"

static const struct kind_row {
    const char *ending;
    const char *(*text)(struct arena *a, const struct draft *draft, const struct export_names *names);
} kind_rows[] = {
    { ".svg", export_svg },
    { ".dxf", export_dxf },
};

/* The kind of file that a path's ending names, in capitals or not; NULL with a sentence. */
static const struct kind_row *kind_of(struct cli_run *run, const char *path)
{
    for (size_t i = 0; i < sizeof kind_rows / sizeof kind_rows[0]; i++)
        if (cli_ends_in(path, kind_rows[i].ending))
            return &kind_rows[i];
    cli_wrong(run, "--out needs a name that ends in .svg or .dxf, not “{0}”", path);
    return NULL;
}

static struct export_names names_of(struct cli_run *run, const struct job *job, const struct draft *draft)
{
    const char **copies = base_arena_alloc(run->a, draft->cut_count, sizeof *copies);
    for (size_t i = 0; i < draft->cut_count; i++)
        copies[i] = app_copies_text(run->a, &draft->cuts[i], &draft->pieces[draft->cuts[i].piece]);
    return (struct export_names){ job->pattern->name, app_size_text(run->a, job), copies };
}

/* How long an edge is in the stitching line as it is drawn: with the caps of darts that are folded. */
static double drawn_mm(const struct draft_piece *piece, const struct draft_edge *edge)
{
    struct geometry_path seam = piece->seam.path;
    double mm = 0;
    for (size_t i = 0; i < edge->count; i++)
        mm += vec2_length(
            vec2_sub(seam.points[(edge->first + i + 1) % seam.count], seam.points[(edge->first + i) % seam.count]));
    return mm;
}

/* Lengths to compare the file with: what another program reads from it must come to them. */
static void piece_json(struct json_out *to, const struct pattern *pattern, const struct draft_piece *piece)
{
    const struct pattern_piece *written = &pattern->pieces[piece->index];
    vec2 grain = { piece->grain[1].x - piece->grain[0].x, piece->grain[1].y - piece->grain[0].y };
    json_out_text(to, "name", piece->name);
    json_out_number(to, "outline_mm", geometry_path_length(piece->cut.path));
    json_out_number(to, "cut_mm", geometry_path_length(piece->cut_line.path));
    json_out_number(to, "stitching_mm", geometry_path_length(piece->seam_line.path));
    json_out_number(to, "grain_mm", vec2_length(grain));
    struct json_out *edges = json_out_list(to, "edges");
    for (size_t e = 0; e < piece->edge_count; e++) {
        struct json_out *edge = json_out_object(edges, NULL);
        json_out_text(edge, "name", written->edges[e].name);
        json_out_number(edge, "length_mm", piece->edges[e].length_mm);
        json_out_number(edge, "drawn_mm", drawn_mm(piece, &piece->edges[e]));
    }
}

static void draft_json(struct cli_run *run, const struct pattern *pattern, const struct draft *draft, const char *path)
{
    struct json_out *pieces = json_out_list(run->json, "pieces");
    for (size_t i = 0; i < draft->piece_count; i++)
        piece_json(json_out_object(pieces, NULL), pattern, &draft->pieces[i]);
    json_out_text(run->json, "file", path);
}

int cli_run_draft(struct cli_run *run)
{
    const char *path = cli_need(run, OPT_OUT);
    const struct kind_row *kind = path ? kind_of(run, path) : NULL;
    struct job job;
    struct draft draft;
    if (!kind)
        return CLI_WRONG_USE;
    int code = cli_job(run, true, &job);
    if (code != CLI_OK)
        return code;
    if (!app_draft(run->a, &job, &draft, run->errs))
        return CLI_FAULT;
    struct export_names names = names_of(run, &job, &draft);
    if (cli_save_text(run, path, kind->text(run->a, &draft, &names)) != CLI_OK)
        return CLI_FAULT;
    if (run->json)
        draft_json(run, job.pattern, &draft, path);
    cli_say_fitted(run, &job);
    cli_say(run,
            base_tr_count(draft.piece_count, "%s: %zu piece, %s, 1 unit is 1 mm", "%s: %zu pieces, %s, 1 unit is 1 mm"),
            path, draft.piece_count, names.size);
    return CLI_OK;
}
