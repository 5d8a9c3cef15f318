#include "lifting/layer_name.h"
#include "base/buffer.h"
#include "lifting/tokens.h"

#include <stdlib.h>
#include <string.h>

enum kind { UNKNOWN, VALUE, SYSTEM, SIZE_WORD, CUP_WORD, ALL, COMMON, UNUSED, EMPTY, PAGE, UNIT, NOISE, SIGN };

static const char unit_words[] =
    " m mo mos months month mon monate monat mth mths y yr yrs years year jahre jahr j t w p cm ";

/* Words that layers are named by, plain. Common practice of drawing programs and pattern sheets, no source. */
static const struct {
    enum kind kind;
    const char *words; /* blanks before and behind each */
} rows[] = {
    { SYSTEM, " eu eur de d uk us usa gb fr f it i es au aus nz jp int intl " },
    { SIZE_WORD, " size sizes sz groesse groessen gr groe taille taglia talla maat konfektionsgroesse grosse grossen "
                 "groessenlinie size_ " },
    { CUP_WORD, " cup cups koerbchen koerbchengroesse cupgroesse " },
    { ALL, " all alle allen every each jede jeder saemtliche " },
    { UNUSED,
      " test testsquare square squares testquadrat quadrat kontrollquadrat kontrollkaestchen frame frames rahmen "
      "border borders "
      "rand raender logo instructions instruction anleitung anleitungen hinweise legend legende grid raster gitter "
      "background "
      "hintergrund watermark wasserzeichen copyright title titel titelblatt cover deckblatt scale massstab layout "
      "zuschneideplan schnittlageplan crop trim beschnitt registration passermarken klebemarken klebelinien "
      "hilfslinien "
      "guides guide chart tabelle masstabelle groessentabelle ruler lineal calibration kalibrierung seitenrahmen "
      "seitenrand seitenzahlen tiles tiling kacheln info information infos notes hinweis impressum calibration margin "
      "margins "
      "schnittmarken pagenumbers " },
    { COMMON,
      " common markings marking mark marks markierung markierungen markierungslinien text texte texts beschriftung "
      "beschriftungen label labels labelling lettering schrift notches notch knips knipse passzeichen passmarken grain "
      "grainline "
      "grainlines fadenlauf fadenlaeufe gemeinsam gemeinsame gemeinsames allgemein allgemeines annotation annotations "
      "annotationen symbols "
      "symbole zeichen darts dart abnaeher buttons button knoepfe knopfloecher buttonholes base basis general shared "
      "universal "
      "universell drill drills internal innen inner details detail fold bruch stoffbruch seams seam naht naehte "
      "nahtlinien "
      "names namen pocket pockets taschen placement positionen onesize einheitsgroesse names stitching stitchlines "
      "innenlinien hilfspunkte points punkte arrows pfeile " },
    { EMPTY, " layer layers ebene ebenen calque livello capa laag group gruppe path pfad object objekt g svg defpoints "
             "schicht sheet "
             "blatt element untitled unbenannt default standard zeichnung drawing " },
    { PAGE, " page pages seite seiten tile kachel blaetter " },
    { UNIT, unit_words },
    { NOISE,
      " cut cuts cutting cutline cutlines schnitt schnittlinie schnittlinien zuschnitt line lines linie linien "
      "outline outlines "
      "kontur konturen umriss umrisse pattern patterns schnittmuster muster only nur piece pieces teil teile "
      "schnittteile for "
      "fuer the der die das in und and or oder bis to von from not nicht copy kopie on off an aus damen herren kinder "
      "women men kids "
      "ladies adult misses plus " },
};

static bool is_in(const char *words, const char *plain)
{
    size_t length = strlen(plain);
    for (const char *at = words + 1; length && (at = strstr(at, plain)); at++)
        if (at[-1] == ' ' && at[length] == ' ')
            return true;
    return false;
}

/* xs, s, xxl; the word itself. */
static bool is_letters(const char *plain)
{
    size_t xs = strspn(plain, "x");
    return (strchr("sml", plain[xs]) && plain[xs] && !plain[xs + 1] && (xs == 0 || plain[xs] != 'm')) ||
           is_in(" small medium large klein mittel gross ", plain);
}

struct parse {
    struct arena *a;
    const char *name;
    struct lifting_tokens t;
    enum kind *kinds;
    bool *cups;
};

static const char *plain_at(const struct parse *p, size_t k)
{
    return k < p->t.count ? p->t.items[k].plain : "";
}

static bool joined(const struct parse *p, size_t k)
{
    return k < p->t.count && !p->t.items[k].spaced;
}

static enum kind kind_of_word(const char *plain)
{
    if (is_letters(plain))
        return VALUE;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (is_in(rows[i].words, plain))
            return rows[i].kind;
    return UNKNOWN;
}

/* 2XL, 4x, 12m, 2T, 14w: what hangs on the number belongs to it. */
static bool belongs_to_number(const struct parse *p, size_t k)
{
    const char *plain = plain_at(p, k);
    bool hangs = joined(p, k) && k > 0 && p->t.items[k - 1].kind == LIFTING_NUMBER;
    bool words = k > 0 && p->t.items[k - 1].kind == LIFTING_NUMBER && strlen(plain) > 1 && is_in(unit_words, plain);
    return (hangs && (is_in(" xs xl xxl x ", plain) || is_letters(plain) || is_in(unit_words, plain))) || words;
}

/* “Extra large”, “X-Small”. */
static bool is_extra(const struct lifting_tokens *t, size_t k)
{
    if (!lifting_token_is(t, k, "extra") && !lifting_token_is(t, k, "x"))
        return false;
    size_t next = k + 1;
    while (next < t->count && t->items[next].kind == LIFTING_SIGN)
        next++;
    return next < t->count && is_letters(t->items[next].plain) && strlen(t->items[next].plain) > 1;
}

static enum kind kind_of(const struct parse *p, size_t k)
{
    const struct lifting_token *t = &p->t.items[k];
    if (is_extra(&p->t, k))
        return VALUE;
    if (t->kind == LIFTING_NUMBER)
        return VALUE;
    if (t->kind == LIFTING_SIGN)
        return SIGN;
    if (belongs_to_number(p, k))
        return VALUE;
    enum kind kind = kind_of_word(t->plain);
    bool before_number = k + 1 < p->t.count && p->t.items[k + 1].kind == LIFTING_NUMBER;
    bool behind_number = k > 0 && p->t.items[k - 1].kind == LIFTING_NUMBER && strlen(t->plain) > 1;
    bool no_system = kind == SYSTEM && !before_number && !behind_number;
    return kind == UNIT || no_system ? UNKNOWN : kind;
}

/* a, b, dd */
static bool is_cup_letter(const struct parse *p, size_t k)
{
    const char *plain = plain_at(p, k);
    size_t length = strlen(plain);
    return k < p->t.count && p->t.items[k].kind == LIFTING_WORD && *plain >= 'a' && *plain <= 'h' &&
           strspn(plain, (const char[]){ *plain, 0 }) == length && length <= 2;
}

/* Signs that join: A/B, A-B, A+B. */
static bool is_joint(const struct parse *p, size_t k)
{
    return k < p->t.count && p->t.items[k].kind == LIFTING_SIGN && strchr("/-+&", *plain_at(p, k));
}

/* Letters of cups from `k` on, joined by signs; where they end. */
static size_t cups_end(const struct parse *p, size_t k)
{
    if (!is_cup_letter(p, k))
        return k;
    for (k++; is_joint(p, k) && is_cup_letter(p, k + 1);)
        k += 2;
    return k;
}

static const char *cup_text(const struct parse *p, size_t first, size_t end)
{
    char *out = base_arena_alloc(p->a, 3 * (end - first) + 1, 1);
    size_t used = 0;
    for (size_t k = first; k < end; k++)
        for (const char *c = plain_at(p, k); *c; c++)
            out[used++] = (char)(*c >= 'a' && *c <= 'h' ? *c - 'a' + 'A' : '/');
    return out;
}

static void mark_cups(struct parse *p, size_t first, size_t end)
{
    for (size_t k = first; k < end; k++)
        p->cups[k] = true;
}

/* “Cup C”, “A/B cup”: letters before or behind the word. */
static bool find_called_cup(struct parse *p, struct lifting_layer_name *out)
{
    for (size_t w = 0; w < p->t.count; w++) {
        if (p->kinds[w] != CUP_WORD)
            continue;
        size_t first = w + 1;
        while (first < p->t.count && p->kinds[first] == SIGN)
            first++;
        size_t end = cups_end(p, first);
        for (size_t k = 0; k < w && end == first; k++) {
            size_t e = cups_end(p, k);
            if (e > k && (e == w || (e + 1 == w && p->kinds[e] == SIGN)))
                first = k, end = e;
        }
        p->cups[w] = true;
        if (end == first)
            continue;
        mark_cups(p, first, end);
        out->cup = cup_text(p, first, end);
        out->cup_surely = true;
        return true;
    }
    return false;
}

/* “8 A/B”, “34C”, or “A/B” alone: cups if there are others beside. */
static void find_bare_cup(struct parse *p, struct lifting_layer_name *out)
{
    for (size_t k = 0; k < p->t.count; k++) {
        size_t end = cups_end(p, k), before = k;
        while (before > 0 && p->kinds[before - 1] == SIGN)
            before--;
        bool behind = before > 0 && p->kinds[before - 1] == VALUE, alone = before == 0;
        if (end == k || end < p->t.count || (!behind && !alone))
            continue;
        mark_cups(p, k, end);
        out->cup = cup_text(p, k, end);
        return;
    }
}

static bool is_of_size(const struct parse *p, size_t k)
{
    return k < p->t.count && !p->cups[k] && (p->kinds[k] == VALUE || p->kinds[k] == SYSTEM);
}

/* From the first token that tells a size to the last that is joined to it. */
static bool find_size(const struct parse *p, size_t *first, size_t *end)
{
    size_t k = 0;
    while (k < p->t.count && !is_of_size(p, k))
        k++;
    *first = *end = k;
    for (; k < p->t.count && (is_of_size(p, k) || (p->kinds[k] == SIGN && !p->cups[k]) ||
                              strcmp(plain_at(p, k), "bis") == 0 || strcmp(plain_at(p, k), "to") == 0);
         k++)
        if (is_of_size(p, k))
            *end = k + 1;
    if (*end < p->t.count && lifting_token_is(&p->t, *end, ")") && *end > *first + 1)
        ++*end;
    return *end > *first;
}

static size_t count_kind(const struct parse *p, enum kind kind)
{
    size_t count = 0;
    for (size_t k = 0; k < p->t.count; k++)
        count += p->kinds[k] == kind && !p->cups[k];
    return count;
}

static const char *stem_of(const struct parse *p, size_t first, size_t end)
{
    struct base_buffer out = { .a = p->a };
    for (size_t k = 0; k < p->t.count; k++)
        if (!p->cups[k] && (k <= first || k >= end))
            base_buffer_print(&out, "%s ", k == first ? "#" : plain_at(p, k));
    return base_buffer_text(&out);
}

/* “34 or 36”, “not 34”: a condition that holds for several sizes. */
static bool is_of_several(const struct parse *p, size_t first, size_t end)
{
    bool several =
        first > 0 && (lifting_token_is(&p->t, first - 1, "not") || lifting_token_is(&p->t, first - 1, "nicht"));
    for (size_t k = end; k < p->t.count && !several; k++)
        several = is_of_size(p, k) && p->kinds[k] == VALUE && !lifting_token_is(&p->t, k - 1, "not");
    return several;
}

static void read_size(const struct parse *p, struct lifting_layer_name *out)
{
    size_t first, end;
    if (!find_size(p, &first, &end) || count_kind(p, EMPTY) || count_kind(p, PAGE))
        return;
    if (is_of_several(p, first, end)) {
        out->kind = LIFTING_NAMED_COMMON;
        return;
    }
    size_t values = 0;
    bool system = false, many_letters = false;
    for (size_t k = first; k < end; k++) {
        values += p->kinds[k] == VALUE && !belongs_to_number(p, k) && !is_extra(&p->t, k);
        system = system || p->kinds[k] == SYSTEM;
        many_letters = many_letters || (p->kinds[k] == VALUE && plain_at(p, k)[0] == 'x');
    }
    if (!values)
        return;
    out->kind = values > 2 && !system ? LIFTING_NAMED_COMMON : LIFTING_NAMED_SIZE;
    out->size = base_arena_copy_bytes(p->a, p->name + p->t.items[first].first,
                                      p->t.items[end - 1].end - p->t.items[first].first);
    out->whole = p->name + p->t.items[first].first;
    out->stem = stem_of(p, first, end);
    out->surely = count_kind(p, SIZE_WORD) || system;
    out->odd = count_kind(p, UNKNOWN) > 0 || (count_kind(p, COMMON) > 0 && !out->surely);
}

static enum lifting_named kind_by_words(const struct parse *p, const struct lifting_layer_name *out)
{
    bool all = count_kind(p, ALL) && (count_kind(p, SIZE_WORD) || count_kind(p, COMMON));
    if (count_kind(p, UNUSED) && !out->surely)
        return LIFTING_NAMED_UNUSED;
    if (all)
        return LIFTING_NAMED_COMMON;
    if (out->kind == LIFTING_NAMED_SIZE || out->kind == LIFTING_NAMED_COMMON)
        return out->kind;
    return count_kind(p, COMMON) ? LIFTING_NAMED_COMMON : LIFTING_NAMED_NOTHING;
}

/* Names are told by their first words; what is longer is cut. */
enum { NAME_BYTES_MOST = 256 };

static const char *underscores_as_blanks(struct arena *a, const char *name)
{
    size_t bytes = strnlen(name, NAME_BYTES_MOST);
    while (bytes > 0 && ((unsigned char)name[bytes] & 0xc0) == 0x80)
        bytes--;
    char *out = base_arena_copy_bytes(a, name, bytes);
    for (char *c = out; *c; c++)
        if (*c == '_')
            *c = ' ';
    return out;
}

struct lifting_layer_name lifting_layer_name(struct arena *a, const char *name)
{
    struct lifting_layer_name out = { 0 };
    struct parse p = { .a = a, .name = underscores_as_blanks(a, name) };
    p.t = lifting_tokens_of(a, p.name);
    p.kinds = base_arena_alloc(a, p.t.count, sizeof *p.kinds);
    p.cups = base_arena_alloc(a, p.t.count, sizeof *p.cups);
    for (size_t k = 0; k < p.t.count; k++)
        p.kinds[k] = kind_of(&p, k);
    if (!find_called_cup(&p, &out))
        find_bare_cup(&p, &out);
    read_size(&p, &out);
    out.kind = kind_by_words(&p, &out);
    if (out.kind == LIFTING_NAMED_UNUSED || out.kind == LIFTING_NAMED_COMMON)
        out.size = NULL;
    return out;
}

/* XS is below S, XL above L, and 2XL is XXL; M is 0. */
static double letters_place(const char *plain, double times)
{
    double xs = (double)strspn(plain, "x");
    xs = times > 0 ? times : xs;
    switch (plain[strspn(plain, "x")]) {
    case 's':
        return -1 - xs;
    case 'l':
    case 'g':
        return 1 + xs;
    case 'k':
        return -1;
    case 0:
        return 1.5 + xs; /* 1X is more than XL */
    default:
        return 0;
    }
}

/* Zeros before the number: 00 is below 0. */
static double number_place(const char *plain)
{
    size_t zeros = strspn(plain, "0");
    bool comma = strchr(plain, ',') != NULL;
    if (zeros > 1 && zeros == strlen(plain))
        return 1 - (double)zeros;
    double value = strtod(plain, NULL);
    return comma ? value + strtod(strchr(plain, ',') + 1, NULL) / 100 : value;
}

bool lifting_size_place(struct arena *a, const char *size, double *place, bool *letters)
{
    struct lifting_tokens t = lifting_tokens_of(a, size);
    size_t k = 0;
    bool extra = false;
    for (; k < t.count && t.items[k].kind != LIFTING_NUMBER && !is_letters(t.items[k].plain); k++)
        extra = extra || is_extra(&t, k);
    *letters = k < t.count && t.items[k].kind == LIFTING_WORD;
    if (k == t.count)
        return false;
    const char *plain = t.items[k].plain, *next = k + 1 < t.count && !t.items[k + 1].spaced ? t.items[k + 1].plain : "";
    if (*letters) {
        *place = letters_place(plain, extra ? 1 : 0);
    } else if (*next == 'x') {
        *letters = true;
        *place = letters_place(next, strtod(plain, NULL));
    } else {
        bool months = *next == 'm' || (k + 1 < t.count && strncmp(t.items[k + 1].plain, "mo", 2) == 0);
        for (size_t i = k; i < t.count && !months; i++)
            months = strcmp(t.items[i].plain, "m") == 0 || strncmp(t.items[i].plain, "mo", 2) == 0;
        *place = months ? number_place(plain) / 12 : number_place(plain);
    }
    return true;
}
