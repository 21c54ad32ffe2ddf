-- What California asks for beside federal law where crew work over water.

rule {
  id = "us-ca.work.ring-buoys",
  title = "Crew over water: longer lines than federal law asks for",
  each = "task",
  harm = "crew: fall in and drown",
  sources = { "8 CCR 1602: 30-inch ring buoys with at least 150 ft of line, at most 200 ft apart; a " ..
    "lifesaving boat with oars, boathook, anchor and buoy. Building a set can be construction" },
  when = function (t) return t.over_water_work end,
  assess = function (t)
    local deck = t.site.deck
    local boat = waters.treated(t.site) or t.site.openwater.rescue_boat
    duty { met = deck.ring_buoy_line >= q"150 ft" and deck.ring_buoy_spacing <= q"200 ft" and boat,
      instrument = "Construction Safety Orders, 8 CCR 1602", section = "§ 1602",
      evidence = "buoys and boat seen on the day",
      because = "ring buoys {site.deck.ring_buoy_spacing} apart with {site.deck.ring_buoy_line} of " ..
        "line where 150 ft is the least; boat: {site.openwater.rescue_boat}",
      controls = { "rescue-boat" } }
  end,
  examples = law.cases({ over_water_work = "yes", ["site.deck.ring_buoy_line"] = "150 ft",
      ["site.deck.ring_buoy_spacing"] = "200 ft", ["site.water_body"] = "lake",
      ["site.openwater.rescue_boat"] = "yes" }, {
    { "all there", {}, true },
    { "the federal line", { ["site.deck.ring_buoy_line"] = "90 ft" }, false },
    { "a little short", { ["site.deck.ring_buoy_line"] = "149 ft" }, false },
    { "too far apart", { ["site.deck.ring_buoy_spacing"] = "205 ft" }, false },
    { "no boat", { ["site.openwater.rescue_boat"] = "no" }, false },
    { "boat not known", { ["site.openwater.rescue_boat"] = "?" }, false },
    { "no boat on a tank", { ["site.openwater.rescue_boat"] = "no", ["site.water_body"] = "tank" },
      true },
    { "nobody over it", { over_water_work = "no" }, "none" },
  }),
}
