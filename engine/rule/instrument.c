#include "rule/instrument.h"

/* A date in a field of the table on the top, or NULL where it has none. */
static const char *date_field(lua_State *L, ts_sandbox *box, const char *name, double *date) {
  char why[200];
  ts_range range;
  ts_dim dim;
  lua_getfield(L, -1, name);
  const char *text = lua_isnil(L, -1) ? NULL : lua_tostring(L, -1);
  bool read = text != NULL && ts_quantity_read(box->units, text, &range, &dim, why, sizeof why) &&
              dim == TS_MOMENT;
  if (!read && !lua_isnil(L, -1))
    luaL_error(L, "duty: \"%s\" of an instrument must be a date, like \"2015-02-06\"", name);
  if (read) *date = range.lo;
  text = text ? ts_arena_copy(box->arena, text) : NULL;
  lua_pop(L, 1);
  return text;
}

void ts_instrument_read(lua_State *L, ts_sandbox *box, ts_outcome *out) {
  lua_getfield(L, 1, "instrument");
  if (lua_istable(L, -1)) {
    out->from = date_field(L, box, "from", &out->holds_from);
    out->to = date_field(L, box, "to", &out->holds_to);
    lua_getfield(L, -1, "name");
    lua_replace(L, -2);
  }
  if (lua_type(L, -1) != LUA_TSTRING)
    luaL_error(L, "duty: \"instrument\" must be a text, or { name = , from = , to = }");
  out->instrument = ts_arena_copy(box->arena, lua_tostring(L, -1));
  lua_pop(L, 1);
}

static bool day_of(const ts_sandbox *box, double *date) {
  ts_subject day = ts_leads_to(box->dossier, box->subject, "day");
  ts_subject dated = day != TS_NO_SUBJECT ? day : 0;
  ts_field field = ts_subject_field(box->dossier, dated, day != TS_NO_SUBJECT ? "date" : "on");
  if (field.kind != TS_FIELD_FACT) return false;
  const ts_value *value = ts_slot_value(box->dossier, field.slot);
  *date = value->range.lo;
  return value->text != NULL;
}

bool ts_instrument_in_force(const ts_sandbox *box, const ts_outcome *out) {
  double date;
  if ((out->from == NULL && out->to == NULL) || !day_of(box, &date)) return true;
  return (out->from == NULL || date >= out->holds_from) &&
         (out->to == NULL || date <= out->holds_to);
}
