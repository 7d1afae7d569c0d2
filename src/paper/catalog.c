/* SPDX-License-Identifier: MIT */
#include "paper/catalog.h"

enum { ROW = 20 }; /* bytes of an entry in a table of offsets */

/* --- reading ------------------------------------------------------------------------------------------------------ */

/* Where a piece first stands in a text; its len when it does not. */
static size_t find(const ds_str text, const char *const piece)
{
    const size_t len = strlen(piece);
    for (size_t i = 0; i + len <= text.len; i++) {
        if (memcmp(text.at + i, piece, len) == 0) {
            return i;
        }
    }
    return text.len;
}

/* What follows a key up to the end of its line; empty when the key is not there. */
static ds_str value_of(const ds_str text, const char *const key)
{
    const size_t at = find(text, key);
    if (at == text.len) {
        return DS_STR("");
    }
    const ds_str rest = ds_str_from(text, at + strlen(key));
    return (ds_str){rest.at, find(rest, "\n")};
}

static size_t number_at(const ds_str text)
{
    size_t value = 0;
    for (size_t i = 0; i < text.len && text.at[i] >= '0' && text.at[i] <= '9'; i++) {
        value = value * 10 + (size_t)(text.at[i] - '0');
    }
    return value;
}

/* The tables of a file as cairo ends it. */
typedef struct file {
    ds_str bytes;
    size_t table; /* where the table of offsets stands */
    size_t size;  /* number of objects */
    size_t root;
    ds_str info;
} file;

static bool open_file(file *const out, const ds_str bytes)
{
    const size_t tail = bytes.len > 200 ? bytes.len - 200 : 0;
    const ds_str end = ds_str_from(bytes, tail);
    out->bytes = bytes;
    out->table = number_at(value_of(end, "startxref\n"));
    out->size = number_at(value_of(end, "/Size "));
    out->root = number_at(value_of(end, "/Root "));
    out->info = value_of(end, "/Info ");
    const ds_str table = ds_str_from(bytes, out->table);
    return out->root && out->info.len && ds_str_starts(table, DS_STR("xref\n0 ")) &&
           table.len > out->size * ROW;
}

/* The inside of an object's dictionary; empty when it is none. */
static ds_str object_of(const file *const f, const size_t number)
{
    const ds_str table = ds_str_from(f->bytes, f->table);
    const size_t rows = find((ds_str){table.at, table.len < 40 ? table.len : 40}, "0000000000 65535 f");
    const ds_str row = ds_str_from(table, rows + number * ROW);
    const ds_str rest = ds_str_from(f->bytes, number < f->size ? number_at(row) : f->bytes.len);
    const size_t start = find(rest, "<<");
    const ds_str inside = ds_str_from(rest, start + 2);
    return (ds_str){inside.at, find(inside, "\n>>\nendobj")};
}

/* --- writing ------------------------------------------------------------------------------------------------------ */

/* An object's place, ten digits as the table has them. */
static void put_row(ds_text *const out, const size_t number, const size_t offset)
{
    char digits[11] = "0000000000";
    size_t value = offset;
    for (int i = 9; i >= 0; i--, value /= 10) {
        digits[i] = (char)('0' + value % 10);
    }
    ds_text_int(out, (int64_t)number);
    ds_text_add(out, " 1\n");
    ds_text_add(out, digits);
    ds_text_add(out, " 00000 n \n");
}

static size_t put_object(ds_text *const out, const size_t number)
{
    const size_t offset = out->len;
    ds_text_int(out, (int64_t)number);
    ds_text_add(out, " 0 obj\n<<");
    return offset;
}

static void put_reference(ds_text *const out, const char *const key, const size_t number)
{
    ds_text_add(out, key);
    ds_text_int(out, (int64_t)number);
    ds_text_add(out, " 0 R");
}

static size_t put_catalog(ds_text *const out, const file *const f, const ds_str old,
                          const char *const language, const size_t tree)
{
    const size_t offset = put_object(out, f->root);
    const size_t cut = tree ? find(old, "\n   /StructTreeRoot ") : old.len;
    ds_text_bytes(out, old.at, cut);
    if (tree) {
        const ds_str rest = ds_str_from(old, cut + 1);
        put_reference(out, "\n   /StructTreeRoot ", tree);
        ds_text_add(out, "\n   /MarkInfo << /Marked true >>");
        ds_text_adds(out, ds_str_from(rest, find(rest, "\n")));
    }
    ds_text_add(out, "\n   /Lang (");
    ds_text_add(out, language);
    ds_text_add(out, ")\n   /ViewerPreferences << /DisplayDocTitle true >>\n>>\nendobj\n");
    return offset;
}

/* The old root of the tags becomes the Document, which its children name as their parent already; a new root holds it. */
static void put_tags(ds_text *const out, const size_t document, const size_t tree, const ds_str children,
                     const ds_str parents, size_t offsets[2])
{
    offsets[0] = put_object(out, document);
    ds_text_add(out, " /Type /StructElem /S /Document");
    put_reference(out, " /P ", tree);
    ds_text_add(out, "\n   /K ");
    ds_text_adds(out, children);
    ds_text_add(out, "\n>>\nendobj\n");
    offsets[1] = put_object(out, tree);
    put_reference(out, " /Type /StructTreeRoot /K ", document);
    ds_text_add(out, "\n   /ParentTree ");
    ds_text_adds(out, parents);
    ds_text_add(out, "\n>>\nendobj\n");
}

static void put_end(ds_text *const out, const file *const f, const size_t size, const size_t table)
{
    ds_text_add(out, "trailer\n<< /Size ");
    ds_text_int(out, (int64_t)size);
    put_reference(out, " /Root ", f->root);
    ds_text_add(out, " /Info ");
    ds_text_adds(out, f->info);
    ds_text_add(out, " /Prev ");
    ds_text_int(out, (int64_t)f->table);
    ds_text_add(out, " >>\nstartxref\n");
    ds_text_int(out, (int64_t)table);
    ds_text_add(out, "\n%%EOF\n");
}

bool ds_catalog_complete(ds_text *const pdf, const char *const language)
{
    file f;
    if (!open_file(&f, ds_text_str(pdf))) {
        return false;
    }
    const ds_str catalog = object_of(&f, f.root);
    const size_t document = number_at(value_of(catalog, "/StructTreeRoot "));
    const ds_str tags = document ? object_of(&f, document) : DS_STR("");
    const ds_str children = value_of(tags, "/K ");
    const ds_str parents = value_of(tags, "/ParentTree ");
    if (!catalog.len || (document && (!children.len || !parents.len))) {
        return false;
    }
    ds_text add; /* what it borrows moves when the file grows */
    ds_text_init(&add, pdf->alloc);
    size_t offsets[2] = {0};
    const size_t tree = document ? f.size : 0;
    const size_t offset = put_catalog(&add, &f, catalog, language, tree);
    if (document) {
        put_tags(&add, document, tree, children, parents, offsets);
    }
    const size_t table = add.len;
    ds_text_add(&add, "xref\n");
    if (document) {
        put_row(&add, document, f.bytes.len + offsets[0]);
    }
    put_row(&add, f.root, f.bytes.len + offset);
    if (document) {
        put_row(&add, tree, f.bytes.len + offsets[1]);
    }
    put_end(&add, &f, f.size + (document > 0), f.bytes.len + table);
    ds_text_adds(pdf, ds_text_str(&add));
    const bool good = ds_text_ok(&add) && ds_text_ok(pdf);
    ds_text_free(&add);
    return good;
}
