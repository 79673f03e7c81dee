/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The reply to the script. */
#include "engine.h"

struct mensur_sink page_sink(struct page *page) {
    return (struct mensur_sink){mensur_kept_bytes_add, &page->reply};
}

void page_reply_clear(struct page *page) {
    page->reply.length = 0;
}
