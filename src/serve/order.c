/* SPDX-License-Identifier: MIT */
#include "serve/order.h"

static const char PDF[] = "application/pdf";
static const char XLSX[] = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

static const ds_order_form FORMS[DS_ORDER_KINDS] = {
    {DS_ORDER_PAPER, "paper", PDF, "dripstone.pdf", {"for", "size"}},
    {DS_ORDER_LABELS,
     "labels",
     PDF,
     "dripstone-labels.pdf",
     {"size", "grid", "label", "corner", "gap", "skip"}},
    {DS_ORDER_SHEET, "sheet", XLSX, "dripstone.xlsx", {"for"}},
    {DS_ORDER_CHANGES, "changes", PDF, "dripstone-changes.pdf", {"size", "before", "after"}},
};

const ds_order_form *ds_order_form_of(const ds_order_kind kind)
{
    return &FORMS[kind];
}

const ds_order_form *ds_order_named(const ds_str name)
{
    for (size_t i = 0; i < DS_ORDER_KINDS; i++) {
        if (ds_str_is(name, FORMS[i].name)) {
            return &FORMS[i];
        }
    }
    return NULL;
}
