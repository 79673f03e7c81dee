/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws SVG with librsvg on cairo's PDF and image surfaces. */
#include "paper.h"

#include <cairo-pdf.h>
#include <fontconfig/fontconfig.h>
#include <librsvg/rsvg.h>
#include <string.h>

/* CSS: 96 px are an inch. PDF: 72 points are one. */
#define PX_PER_INCH 96.0
#define POINTS_PER_PX 0.75
#define PNG_SCALE 2.0
/* The largest side of an image that cairo allows. */
#define PIXELS_MAX 32767.0

/* A parsed drawing and its size in CSS px. */
struct picture {
    RsvgHandle *handle;
    double width, height;
};

static enum mensur_status open_picture(const struct mensur_paper_page *page,
                                       struct picture *picture) {
    const guint8 *bytes = (const guint8 *)page->svg;
    GInputStream *stream = g_memory_input_stream_new_from_data(bytes, (gssize)page->length, NULL);
    RsvgHandle *handle =
        rsvg_handle_new_from_stream_sync(stream, NULL, RSVG_HANDLE_FLAGS_NONE, NULL, NULL);
    g_object_unref(stream);
    if (handle == NULL) {
        return MENSUR_DATA;
    }
    rsvg_handle_set_dpi(handle, PX_PER_INCH);
    *picture = (struct picture){.handle = handle};
    if (!rsvg_handle_get_intrinsic_size_in_pixels(handle, &picture->width, &picture->height) ||
        !(picture->width > 0.0) || !(picture->height > 0.0)) {
        g_object_unref(handle);
        return MENSUR_DATA;
    }
    return MENSUR_OK;
}

static enum mensur_status status_of(cairo_status_t status) {
    switch (status) {
    case CAIRO_STATUS_SUCCESS:
        return MENSUR_OK;
    case CAIRO_STATUS_NO_MEMORY:
        return MENSUR_MEMORY;
    case CAIRO_STATUS_WRITE_ERROR:
        return MENSUR_WRITE;
    default:
        return MENSUR_DATA;
    }
}

static cairo_status_t write_bytes(void *closure, const unsigned char *bytes, unsigned length) {
    const struct mensur_sink *sink = closure;
    return sink->write(sink->context, (const char *)bytes, length) == MENSUR_OK
               ? CAIRO_STATUS_SUCCESS
               : CAIRO_STATUS_WRITE_ERROR;
}

/* Pango draws what it can where a font fails, and tells of it in GLib's log alone, which has one
 * writer as long as the process lasts: so what it was told outlives its functions. */
static struct {
    bool watched, any;
    struct mensur_fault first;
} warned;

static GLogWriterOutput take_log(GLogLevelFlags level, const GLogField *fields, gsize count,
                                 gpointer unused) {
    const char *domain = "", *message = "the reason is not told";
    for (gsize i = 0; i < count; i++) {
        if (strcmp(fields[i].key, "GLIB_DOMAIN") == 0) {
            domain = fields[i].value;
        } else if (strcmp(fields[i].key, "MESSAGE") == 0) {
            message = fields[i].value;
        }
    }
    if (strcmp(domain, "Pango") != 0 || level > G_LOG_LEVEL_WARNING) {
        return g_log_writer_default(level, fields, count, unused);
    }
    if (!warned.any) {
        mensur_fault_set(&warned.first, "%s", message);
    }
    warned.any = true;
    return G_LOG_WRITER_HANDLED;
}

static void watch_letters(void) {
    if (!warned.watched) {
        g_log_set_writer_func(take_log, NULL, NULL);
    }
    warned.watched = true;
    warned.any = false;
}

/* The status of a drawing, now that its letters are drawn. */
static enum mensur_status judge_letters(enum mensur_status status, struct mensur_fault *fault) {
    if (status != MENSUR_OK || !warned.any) {
        return status;
    }
    *fault = warned.first;
    return MENSUR_READ;
}

static enum mensur_status render(const struct picture *picture, cairo_surface_t *surface,
                                 double scale) {
    cairo_t *cairo = cairo_create(surface);
    RsvgRectangle area = {
        .x = 0.0, .y = 0.0, .width = picture->width * scale, .height = picture->height * scale};
    enum mensur_status status = status_of(cairo_status(cairo));
    bool drawn =
        status == MENSUR_OK && rsvg_handle_render_document(picture->handle, cairo, &area, NULL);
    status = status == MENSUR_OK ? status_of(cairo_status(cairo)) : status;
    cairo_destroy(cairo);
    return status == MENSUR_OK && !drawn ? MENSUR_DATA : status;
}

static enum mensur_status put_page(const struct mensur_paper_page *page, cairo_surface_t *pdf) {
    struct picture picture;
    enum mensur_status status = open_picture(page, &picture);
    if (status != MENSUR_OK) {
        return status;
    }
    cairo_pdf_surface_set_size(pdf, picture.width * POINTS_PER_PX, picture.height * POINTS_PER_PX);
    status = render(&picture, pdf, POINTS_PER_PX);
    cairo_surface_show_page(pdf);
    g_object_unref(picture.handle);
    return status;
}

enum mensur_status mensur_paper_pdf(const struct mensur_paper_page *pages, size_t count,
                                    const char *title, const struct mensur_sink *sink,
                                    struct mensur_fault *fault) {
    struct mensur_sink to = *sink;
    watch_letters();
    cairo_surface_t *pdf = cairo_pdf_surface_create_for_stream(write_bytes, &to, 1.0, 1.0);
    enum mensur_status status = status_of(cairo_surface_status(pdf));
    /* No date, so that the same drawing gives the same bytes. */
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATE_DATE, "");
    if (title != NULL) {
        cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_TITLE, title);
    }
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        status = put_page(&pages[i], pdf);
    }
    cairo_surface_finish(pdf);
    if (status == MENSUR_OK) {
        status = status_of(cairo_surface_status(pdf));
    }
    cairo_surface_destroy(pdf);
    return judge_letters(status, fault);
}

enum mensur_status mensur_paper_png(const struct mensur_paper_page *page,
                                    const struct mensur_sink *sink, struct mensur_fault *fault) {
    struct mensur_sink to = *sink;
    struct picture picture;
    enum mensur_status status = open_picture(page, &picture);
    if (status != MENSUR_OK) {
        return status;
    }
    double width = picture.width * PNG_SCALE;
    double height = picture.height * PNG_SCALE;
    if (width > PIXELS_MAX || height > PIXELS_MAX) {
        g_object_unref(picture.handle);
        return MENSUR_DOMAIN;
    }
    watch_letters();
    cairo_surface_t *image =
        cairo_image_surface_create(CAIRO_FORMAT_ARGB32, (int)(width + 0.5), (int)(height + 0.5));
    status = status_of(cairo_surface_status(image));
    if (status == MENSUR_OK) {
        status = render(&picture, image, PNG_SCALE);
    }
    if (status == MENSUR_OK) {
        status = status_of(cairo_surface_write_to_png_stream(image, write_bytes, &to));
    }
    cairo_surface_destroy(image);
    g_object_unref(picture.handle);
    return judge_letters(status, fault);
}

bool mensur_paper_has_letters(void) {
    FcPattern *wanted = FcPatternCreate();
    FcCharSet *letters = FcCharSetCreate();
    FcObjectSet *families = FcObjectSetBuild(FC_FAMILY, (char *)NULL);
    bool whole = wanted != NULL && letters != NULL && families != NULL;
    for (FcChar32 code = ' '; whole && code < 0x7F; code++) {
        whole = FcCharSetAddChar(letters, code);
    }
    whole = whole && FcPatternAddCharSet(wanted, FC_CHARSET, letters);
    FcFontSet *found = whole ? FcFontList(NULL, wanted, families) : NULL;
    bool any = found != NULL && found->nfont > 0;
    if (found != NULL) {
        FcFontSetDestroy(found);
    }
    if (families != NULL) {
        FcObjectSetDestroy(families);
    }
    if (letters != NULL) {
        FcCharSetDestroy(letters);
    }
    if (wanted != NULL) {
        FcPatternDestroy(wanted);
    }
    return any;
}
