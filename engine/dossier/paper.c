/* Evidence, applied controls and waivers. */
#include "dossier/reader.h"
#include "dossier/words.h"

#include <string.h>

/* A date as written, as a point in time; false with a report when it is not one. */
static bool exact_date(const ts_reader *reader, const xmlNode *element, const char *attribute,
                       const char *text, double *when) {
  char why[256];
  ts_range range;
  ts_dim dim;
  bool read = ts_quantity_read(reader->dossier->units, text, &range, &dim, why, sizeof why);
  if (read && dim == TS_MOMENT && !strchr(text, ':') && range.lo == range.hi) {
    if (when) *when = range.lo;
    return true;
  }
  ts_reader_error(reader, element, attribute,
                  "cannot read \"%s\" for \"%s\": expected one exact date, like \"2027-03-09\"%s%s",
                  text, attribute, read ? "" : "; ", read ? "" : why);
  return false;
}

/* A date that may be left out; what is not a date counts as left out. */
static const char *optional_date(const ts_reader *reader, const xmlNode *element,
                                 const char *attribute) {
  const char *text = ts_reader_attribute(reader, element, attribute);
  return text && exact_date(reader, element, attribute, text, NULL) ? text : NULL;
}

static const char *required(const ts_reader *reader, const xmlNode *element,
                            const char *attribute) {
  const char *text = ts_reader_attribute(reader, element, attribute);
  if (text && *text) return text;
  ts_reader_error(reader, element, text ? attribute : NULL, "\"%s\" lacks \"%s\"",
                  (const char *)element->name, attribute);
  return NULL;
}

/* One of the words, which end with NULL. */
static const char *one_of(const ts_reader *reader, const xmlNode *element, const char *attribute,
                          const char *const *words) {
  const char *text = required(reader, element, attribute);
  size_t count = 0;
  if (!text) return NULL;
  for (; words[count]; count++)
    if (ts_same(words[count], text)) return text;
  const char *near = ts_nearest(text, words, count);
  ts_reader_error(reader, element, attribute, "impossible choice \"%s\" for \"%s\"%s%s%s", text,
                  attribute, near ? "; the nearest is \"" : "", near ? near : "", near ? "\"" : "");
  return NULL;
}

static void no_children(const ts_reader *reader, const xmlNode *element) {
  ts_reader_words(reader, element);
  for (const xmlNode *node = element->children; node; node = node->next)
    if (node->type == XML_ELEMENT_NODE)
      ts_reader_error(reader, node, NULL, "nothing may stand in \"%s\"",
                      (const char *)element->name);
}

/* ---- controls ---------------------------------------------------------- */

static void warn(const ts_reader *reader, const xmlNode *element, const char *attribute,
                 const char *text, const char *about) {
  ts_report(reader->problems, TS_WARNING, ts_reader_file(reader),
            ts_xml_attribute_line(reader->xml, element, attribute), text, about);
}

bool ts_read_control(ts_reader *reader, const xmlNode *element, ts_subject scope) {
  static const char *const allowed[] = {"ref", "state", "to", "by", "on", "evidence", NULL};
  static const char *const states[] = {"planned", "in-place", NULL};
  ts_dossier *dossier = reader->dossier;
  if (!ts_reader_is(element, "control")) return false;
  ts_reader_only(reader, element, allowed);
  no_children(reader, element);
  ts_applied_control control = {.scope = scope,
                                .control = required(reader, element, "ref"),
                                .to = ts_reader_attribute(reader, element, "to"),
                                .by = ts_reader_attribute(reader, element, "by"),
                                .on = optional_date(reader, element, "on"),
                                .evidence = ts_reader_attribute(reader, element, "evidence"),
                                .file = dossier->sources[reader->file].name,
                                .line = ts_xml_line(reader->xml, element)};
  const char *state = one_of(reader, element, "state", states);
  bool said = ts_same(state, "in-place");
  control.claimed = said;
  control.in_place = said && control.by && *control.by && control.on;
  if (said && !control.in_place && control.control)
    warn(reader, element, "state",
         "control \"%s\" is in-place but does not say by whom and on which date it was checked; "
         "it counts as planned",
         control.control);
  TS_GROW(dossier->controls, dossier->control_count, dossier->control_capacity);
  dossier->controls[dossier->control_count++] = control;
  return true;
}

/* ---- evidence ---------------------------------------------------------- */

bool ts_read_evidence(ts_reader *reader, const xmlNode *element) {
  static const char *const allowed[] = {"for", "kind", "by", "on", "ref", NULL};
  static const char *const kinds[] = {"measured", "certificate", "statement", "estimate", NULL};
  ts_dossier *dossier = reader->dossier;
  if (!ts_reader_is(element, "evidence")) return false;
  ts_reader_only(reader, element, allowed);
  no_children(reader, element);
  ts_evidence evidence = {.target = required(reader, element, "for"),
                          .kind = one_of(reader, element, "kind", kinds),
                          .by = required(reader, element, "by"),
                          .on = required(reader, element, "on"),
                          .ref = ts_reader_attribute(reader, element, "ref"),
                          .line = ts_xml_attribute_line(reader->xml, element, "for")};
  if (evidence.on && !exact_date(reader, element, "on", evidence.on, NULL)) evidence.on = NULL;
  if (!evidence.target) return true; /* reported; nothing could be said about it */
  if (dossier->evidence_count == dossier->evidence_capacity) {
    size_t capacity = dossier->evidence_capacity ? 2 * dossier->evidence_capacity : 8;
    dossier->evidence = ts_resize(dossier->evidence, capacity * sizeof *dossier->evidence);
    dossier->evidence_file =
        ts_resize(dossier->evidence_file, capacity * sizeof *dossier->evidence_file);
    dossier->evidence_capacity = capacity;
  }
  dossier->evidence_file[dossier->evidence_count] = reader->file;
  dossier->evidence[dossier->evidence_count++] = evidence;
  return true;
}

/* ---- waivers ----------------------------------------------------------- */

bool ts_read_waiver(ts_reader *reader, const xmlNode *element) {
  static const char *const allowed[] = {"rule", "subject", "by", "until", "because", NULL};
  ts_dossier *dossier = reader->dossier;
  if (!ts_reader_is(element, "waiver")) return false;
  ts_reader_only(reader, element, allowed);
  no_children(reader, element);
  ts_waiver waiver = {.rule = required(reader, element, "rule"),
                      .subject = ts_reader_attribute(reader, element, "subject"),
                      .by = ts_reader_attribute(reader, element, "by"),
                      .until = optional_date(reader, element, "until"),
                      .because = ts_reader_attribute(reader, element, "because"),
                      .file = dossier->sources[reader->file].name,
                      .line = ts_xml_line(reader->xml, element)};
  if (!waiver.rule) return true;
  TS_GROW(dossier->waivers, dossier->waiver_count, dossier->waiver_capacity);
  dossier->waivers[dossier->waiver_count++] = waiver;
  return true;
}

/* ---- when everything is read ------------------------------------------- */

static const char *path_of_file(const ts_dossier *dossier, const char *name) {
  for (size_t i = 0; i < dossier->source_count; i++)
    if (ts_same(dossier->sources[i].name, name)) return dossier->sources[i].path;
  return name;
}

/* The last day of the schedule, or where there is none the day of the revision. */
static double last_day(const ts_dossier *dossier) {
  double last = ts_world_value(dossier, ts_world_slot(dossier, 0, "on"))->range.hi;
  bool any = false;
  for (ts_subject s = 0; s < dossier->subject_count; s++) {
    uint32_t slot = ts_world_slot(dossier, s, "date");
    if (slot == TS_ABSENT || !ts_world_is(dossier, s, "day") ||
        !ts_world_value(dossier, slot)->text)
      continue;
    double when = ts_world_value(dossier, slot)->range.hi;
    if (!any || when > last) last = when;
    any = true;
  }
  return last;
}

static const char *waiver_lacks(const ts_waiver *waiver) {
  if (!waiver->by || !*waiver->by) return "by";
  if (!waiver->until) return "until";
  if (!waiver->because || !*waiver->because) return "because";
  return NULL;
}

static bool runs_out(const ts_dossier *dossier, const ts_waiver *waiver) {
  char why[64];
  ts_range until;
  ts_dim dim;
  return ts_quantity_read(dossier->units, waiver->until, &until, &dim, why, sizeof why) &&
         until.hi < last_day(dossier);
}

static void check_waiver(const ts_reader *reader, ts_waiver *waiver) {
  const ts_dossier *dossier = reader->dossier;
  const char *file = path_of_file(dossier, waiver->file), *lacks = waiver_lacks(waiver);
  ts_subject subject;
  uint32_t slot;
  if (waiver->subject &&
      (!ts_world_path(dossier, waiver->subject, &subject, &slot) || slot != TS_ABSENT))
    ts_world_no_path(dossier, "waiver for subject", waiver->subject, reader->problems, file,
                     waiver->line);
  if (lacks)
    ts_report(reader->problems, TS_WARNING, file, waiver->line,
              "the waiver of rule \"%s\" lacks \"%s\" and does not count", waiver->rule, lacks);
  else if (runs_out(dossier, waiver))
    ts_report(reader->problems, TS_WARNING, file, waiver->line,
              "the waiver of rule \"%s\" ends on %s, before the last day of the schedule, and does "
              "not count",
              waiver->rule, waiver->until);
  else
    waiver->valid = true;
}

void ts_read_papers_check(ts_reader *reader) {
  ts_dossier *dossier = reader->dossier;
  ts_subject subject;
  uint32_t slot;
  for (size_t i = 0; i < dossier->evidence_count; i++)
    if (!ts_world_path(dossier, dossier->evidence[i].target, &subject, &slot))
      ts_world_no_path(dossier, "evidence for", dossier->evidence[i].target, reader->problems,
                       dossier->sources[dossier->evidence_file[i]].path, dossier->evidence[i].line);
  for (size_t i = 0; i < dossier->waiver_count; i++) check_waiver(reader, &dossier->waivers[i]);
}
