-- The tank and the set: depth, ways out, decks and edges, jumps.

local function young(i) return i.age < q"18 year" end

local function wet(site) return site.water_body ~= "none" end

local function to_surface(site)
  local e = site.emergency
  return e.notice_time + e.reach_time + e.surface_time
end

rule {
  id = "place.rescue-depth",
  title = "Deeper than a rescuer reaches",
  each = "immersion",
  harm = "performer: nobody can bring them up",
  sources = { "common practice: no deeper than the drill has shown a rescuer to reach" },
  reasoning = "a rescuer either reaches the bottom or does not: at the depth or a quarter " ..
    "beyond is unlikely harm, short of it likely",
  when = function (i) return i.depth > q"1.3 m" end,
  assess = function (i)
    hazard {
      likelihood = scale.minimum(i.task.rescue_reach, i.depth * 1.25, i.depth, i.depth,
        i.depth * 0.8),
      severity = scale.without_air(to_surface(i.site)), who = "1 person",
      because = "at {i.depth}, brought up from {reach}; at the surface {up} after trouble",
      values = { reach = i.task.rescue_reach, up = to_surface(i.site) },
      controls = { "shallower-set", "rescue-drill" },
      also = { "more-safety-divers" },
    }
  end,
  examples = example.join { {
    { "reached with a quarter to spare",
      given = { depth = "3 m", ["task.rescue_reach"] = "4 m",
        ["site.emergency.notice_time"] = "3 s",
                ["site.emergency.reach_time"] = "5 s", ["site.emergency.surface_time"] = "8 s" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "just reached",
      given = { depth = "3 m", ["task.rescue_reach"] = "3 m",
        ["site.emergency.notice_time"] = "3 s",
                ["site.emergency.reach_time"] = "5 s", ["site.emergency.surface_time"] = "8 s" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "out of reach",
      given = { depth = "6 m", ["task.rescue_reach"] = "2 m",
        ["site.emergency.notice_time"] = "60 s",
                ["site.emergency.reach_time"] = "100 s", ["site.emergency.surface_time"] = "30 s" },
      expect = hazard { likelihood = 5, severity = 5 } },
    { "reach not drilled",
      given = { depth = "3 m", ["site.emergency.notice_time"] = "3 s",
        ["site.emergency.reach_time"] = "5 s",
                ["site.emergency.surface_time"] = "8 s" },
                expect = hazard { likelihood = 5, severity = 3 } },
    { "a shallower set",
      given = { depth = "6 m", ["task.rescue_reach"] = "3 m",
        ["site.emergency.notice_time"] = "3 s",
                ["site.emergency.reach_time"] = "5 s", ["site.emergency.surface_time"] = "8 s" },
      with = { "shallower-set" }, expect = hazard { likelihood = 1, severity = 3 } },
    { "can stand", given = { depth = "1.2 m" }, expect = nothing },
  },
    example.edges({ depth = "3 m", ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
      ["site.emergency.surface_time"] = "8 s" }, "task.rescue_reach", 3,
      { "3.75 m", 1, "3.7 m", 2, "3 m", 2, "2.95 m", 4, "2.4 m", 4, "2.35 m", 5 }),
    example.edges({ ["task.rescue_reach"] = "4 m", ["site.emergency.notice_time"] = "3 s",
      ["site.emergency.reach_time"] = "5 s", ["site.emergency.surface_time"] = "8 s" }, "depth", 3,
      { "1.3 m", nothing, "1.33 m", 1 }),
  },
}

local under_set = { ["task.overhead"] = "yes", depth = "3 m", ["task.air_distance"] = "3 m", effort = "light",
  breath_hold = "15 s", ["person.mass"] = "60 kg", ["task.guide_line"] = "no", ["task.escape_panels"] = "no",
  ["task.air_pocket"] = "no", ["task.passage_width"] = "0.9 m", ["task.set_exits"] = "2",
  air_return_time = "6 s", age = "30 year" }

rule {
  id = "place.overhead",
  title = "Something between the performer and the air",
  each = "immersion",
  harm = "performer: cannot come straight up",
  sources = { "breath-hold limit as computed, hard work from then on; common practice: air never " ..
    "farther than the breath that is left",
              "15 m at 0.75 m/s takes 20 s; in costume 0.5 m/s is taken" },
  reasoning = breath.reasoning,
  when = function (i) return i.task.overhead and i.depth > q"0 m" end,
  assess = function (i)
    local t = i.task
    local way = calc.swim_time(t.air_distance, q"0.5 m/s")
    local left = breath.remains(i)
    local help = scale.count { t.guide_line, t.air_pocket or t.escape_panels }
    local worse = scale.count { t.passage_width < q"0.7 m", t.set_exits < 2 }
    hazard {
      likelihood = scale.within(scale.reserve(left, way) - help + worse),
      severity = scale.vulnerable(scale.without_air(max(i.air_return_time, way)), { young(i) }),
      because = "{left} of breath left for hard work after the take, {way} to open air or a gas point, gas " ..
        "brought in {i.air_return_time}",
      values = { left = left, way = way }, who = "1 performer",
      controls = { "escape-holes", "air-pocket", "guide-line", "shallower-set" },
    }
  end,
  examples = example.join { {
    { "three metres, two exits, a line followed",
      given = { ["task.overhead"] = "yes", depth = "3 m", ["task.air_distance"] = "3 m",
        effort = "light",
                breath_hold = "15 s", ["person.mass"] = "60 kg", ["task.guide_line"] = "yes",
                ["task.escape_panels"] = "no", ["task.air_pocket"] = "no",
                ["task.passage_width"] = "0.9 m",
                ["task.set_exits"] = "2", air_return_time = "6 s", age = "30 year" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "fifty metres of tunnel, one narrow way",
      given = { ["task.overhead"] = "yes", depth = "3 m", ["task.air_distance"] = "50 m",
        effort = "hard",
                breath_hold = "20 s", ["person.mass"] = "60 kg", ["task.guide_line"] = "no",
                ["task.escape_panels"] = "no", ["task.air_pocket"] = "no",
                ["task.passage_width"] = "0.5 m",
                ["task.set_exits"] = "1", air_return_time = "6 s", age = "30 year" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "distance not measured, a child",
      given = { ["task.overhead"] = "yes", depth = "3 m", effort = "light", breath_hold = "15 s",
                ["person.mass"] = "38 kg", ["task.guide_line"] = "no",
                ["task.escape_panels"] = "no",
                ["task.air_pocket"] = "no", ["task.passage_width"] = "0.9 m",
                ["task.set_exits"] = "2",
                air_return_time = "6 s", age = "12 year" },
                expect = hazard { likelihood = 5, severity = 5 } },
    { "holes cut",
      given = { ["task.overhead"] = "yes", depth = "3 m", ["task.air_distance"] = "50 m",
        effort = "light",
                breath_hold = "15 s", ["person.mass"] = "60 kg", ["task.guide_line"] = "no",
                ["task.escape_panels"] = "no", ["task.air_pocket"] = "no",
                ["task.passage_width"] = "0.5 m",
                ["task.set_exits"] = "2", air_return_time = "6 s", age = "30 year" },
      with = { "escape-holes" }, expect = hazard { likelihood = 1, severity = 3 } },
    { "open water above", given = { ["task.overhead"] = "no" }, expect = nothing },
    { "never under", given = { ["task.overhead"] = "yes", depth = "0 m" }, expect = nothing },
  },
    -- 15 of 62.5 s are used in the take; the rest of the breath is 17.8 s of hard work (3/8 of the time): three times
    -- the way of 2.97 m
    example.edges(under_set, "task.air_distance", 3, { "2.9 m", 1, "3 m", 2 }),
    example.edges(under_set, "task.passage_width", 3, { "0.7 m", 2, "0.69 m", 3 }),
    example.edges(under_set, "task.set_exits", 3, { "2", 2, "1", 3 }),
    example.edges(under_set, "task.air_pocket", 3, { "no", 2, "yes", 1 }),
    example.edges(under_set, "age", 3, { "18 year", 2, "17.9 year", hazard { likelihood = 2, severity = 4 } }),
  },
}

local laddered = { water_body = "tank", ["basin.exits"] = "4", ["basin.exit_spacing"] = "9 m",
  ["basin.freeboard"] = "0.35 m", ["deck.landing_platform"] = "no", ["deck.stretcher_exit"] = "yes",
  ["deck.ladder_depth"] = "1.2 m" }

rule {
  id = "place.ways-out",
  title = "Too few ways out of the water",
  each = "site",
  harm = "anyone in the water: tires before the ladder, or cannot be lifted out",
  worst = { likelihood = 5, severity = 3 },
  sources = { "29 CFR 1910.422(b): a way out that carries a diver and reaches below the " ..
    "surface, and a way for an injured one",
              "common practice: at most about ten to fifteen metres to a ladder" },
  limits = { spacing = { at_most = "15 m" } },
  when = wet,
  assess = function (s, limit)
    local b, d = s.basin, s.deck
    local likelihood = scale.protection(scale.frequent,
      { b.exits >= 2, b.exit_spacing <= limit.spacing, d.stretcher_exit },
      { b.freeboard > q"0.5 m" and not d.landing_platform, d.ladder_depth < q"0.3 m" })
    if likelihood < 2 then return end
    hazard {
      likelihood = likelihood, severity = 3, who = "everyone in the water",
      because = "{exits} ways out, {far} from the farthest point, edge {edge} above the water",
      values = { exits = b.exits, far = b.exit_spacing, edge = b.freeboard },
      controls = { "more-ladders", "stretcher-exit" },
    }
  end,
  examples = example.join { {
    { "ladders all round", given = { water_body = "tank", ["basin.exits"] = "4",
      ["basin.exit_spacing"] = "9 m",
                ["basin.freeboard"] = "0.35 m", ["deck.stretcher_exit"] = "yes",
                ["deck.ladder_depth"] = "1.2 m" },
      expect = nothing },
    { "one ladder, high edge",
      given = { water_body = "tank", ["basin.exits"] = "1", ["basin.exit_spacing"] = "30 m",
        ["basin.freeboard"] = "1 m",
                ["deck.landing_platform"] = "no", ["deck.stretcher_exit"] = "no",
                ["deck.ladder_depth"] = "0 m" },
      expect = hazard { likelihood = 5, severity = 3 } },
    { "number not known",
      given = { water_body = "tank", ["basin.exit_spacing"] = "9 m", ["basin.freeboard"] = "0.35 m",
                ["deck.stretcher_exit"] = "yes", ["deck.ladder_depth"] = "1.2 m" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "a way out lying flat",
      given = { water_body = "tank", ["basin.exits"] = "4", ["basin.exit_spacing"] = "9 m",
                ["basin.freeboard"] = "0.35 m", ["deck.stretcher_exit"] = "no",
                ["deck.ladder_depth"] = "1.2 m" },
      with = { "stretcher-exit" }, expect = nothing },
    { "no water body", given = { water_body = "none" }, expect = nothing },
  },
    example.edges(laddered, "basin.exits", 3, { "2", nothing, "1", 2 }),
    example.edges(laddered, "basin.exit_spacing", 3, { "15 m", nothing, "15.3 m", 2 }),
    example.edges(laddered, "basin.freeboard", 3, { "0.5 m", nothing, "0.51 m", 2 }),
    example.edges(laddered, "deck.ladder_depth", 3, { "0.3 m", nothing, "0.29 m", 2 }),
    { { "a high edge with a platform", given = example.like(laddered,
        { ["basin.freeboard"] = "1 m", ["deck.landing_platform"] = "yes" }), expect = nothing } },
  },
}

local rough_deck = { ["deck.wet"] = "yes", ["deck.slip_value"] = "40", ["deck.mats_or_drains"] = "yes",
  ["deck.trip_free"] = "yes", ["deck.light_level"] = "60 lux" }

rule {
  id = "place.wet-deck",
  title = "Wet deck and steps",
  each = "site",
  harm = "cast and crew: slip, fracture",
  worst = { likelihood = 5, severity = 3 },
  sources = { "UKSRG guidelines, BS EN 16165 Annex C: pendulum value 36 and more low, under 25 " ..
    "high slip potential" },
  limits = { slip = { at_least = "36" } },
  when = function (s) return s.deck.wet end,
  assess = function (s, limit)
    local d = s.deck
    hazard {
      likelihood = scale.protection(scale.frequent,
        { d.slip_value >= limit.slip, d.mats_or_drains, d.trip_free },
        { d.slip_value < 25, d.light_level < q"20 lux" }),
      severity = 3, who = "everyone on deck",
      because = "pendulum value {slip} wet, light {lit} on the ways",
      values = { slip = d.slip_value, lit = d.light_level },
      controls = { "slip-mats-and-drains", "clear-walkways" },
    }
  end,
  examples = example.join { {
    { "mats on a rough deck, lit and clear",
      given = { ["deck.wet"] = "yes", ["deck.slip_value"] = "40", ["deck.mats_or_drains"] = "yes",
                ["deck.trip_free"] = "yes", ["deck.light_level"] = "60 lux" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "smooth, dark and full of cables",
      given = { ["deck.wet"] = "yes", ["deck.slip_value"] = "20", ["deck.mats_or_drains"] = "no",
                ["deck.trip_free"] = "no", ["deck.light_level"] = "5 lux" },
      expect = hazard { likelihood = 5, severity = 3 } },
    { "never tested",
      given = { ["deck.wet"] = "yes", ["deck.mats_or_drains"] = "yes", ["deck.trip_free"] = "yes",
                ["deck.light_level"] = "60 lux" }, expect = hazard { likelihood = 3,
                severity = 3 } },
    { "mats laid",
      given = { ["deck.wet"] = "yes", ["deck.slip_value"] = "20", ["deck.mats_or_drains"] = "no",
                ["deck.trip_free"] = "yes", ["deck.light_level"] = "60 lux" },
      with = { "slip-mats-and-drains" }, expect = hazard { likelihood = 1, severity = 3 } },
    { "dry", given = { ["deck.wet"] = "no" }, expect = nothing },
  },
    example.edges(rough_deck, "deck.slip_value", 3, { "36", 1, "35", 2, "25", 2, "24", 3 }),
    example.edges(rough_deck, "deck.light_level", 3, { "20 lux", 1, "19.5 lux", 2 }),
  },
}

rule {
  id = "place.working-edge",
  title = "An edge to fall from",
  each = "site",
  harm = "crew and cast: fall, and into water",
  sources = { "Work at Height Regulations 2005 schedule 2 (from memory): main rail at least " ..
    "950 mm" },
  when = function (s) return s.deck.edge_height > q"0.5 m" end,
  assess = function (s)
    local d = s.deck
    local railed = d.guard_height >= q"0.95 m"
    local severity = 3
    if d.edge_height >= q"2 m" then severity = 4 end
    if d.edge_height >= q"4 m" then severity = 5 end
    local likelihood = 1
    if not railed then
      likelihood = scale.protection(scale.missing, { d.edge_harness, d.guard_height >= q"0.5 m" },
        { d.light_level < q"20 lux" })
    end
    hazard {
      likelihood = likelihood, severity = severity, who = "everyone on deck",
      because = "an edge of {edge} with a rail of {rail}",
      values = { edge = d.edge_height, rail = d.guard_height },
      controls = { "guard-rail", "edge-harness", "clear-walkways" },
    }
  end,
  examples = example.join { {
    { "railed at 1.1 m", given = { ["deck.edge_height"] = "1.5 m",
      ["deck.guard_height"] = "1.1 m" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "no rail, four metres, dark",
      given = { ["deck.edge_height"] = "4.5 m", ["deck.guard_height"] = "0 m",
        ["deck.edge_harness"] = "no",
                ["deck.light_level"] = "5 lux" }, expect = hazard { likelihood = 4,
                severity = 5 } },
    { "a low rail at two and a half metres, clipped on",
      given = { ["deck.edge_height"] = "2.5 m", ["deck.guard_height"] = "0.6 m",
        ["deck.edge_harness"] = "yes",
                ["deck.light_level"] = "60 lux" }, expect = hazard { likelihood = 1,
                severity = 4 } },
    { "rail not measured",
      given = { ["deck.edge_height"] = "1.5 m", ["deck.edge_harness"] = "no",
        ["deck.light_level"] = "60 lux" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "a rail", given = { ["deck.edge_height"] = "4.5 m", ["deck.guard_height"] = "0 m" },
      with = { "guard-rail" },
      expect = hazard { likelihood = 1, severity = 5 } },
    { "level with the water", given = { ["deck.edge_height"] = "0.3 m" }, expect = nothing },
  },
    example.edges({ ["deck.guard_height"] = "1.1 m" }, "deck.edge_height", 3,
      { "0.5 m", nothing, "0.51 m", 1, "1.95 m", 1, "2 m", hazard { likelihood = 1, severity = 4 },
        "3.9 m", hazard { likelihood = 1, severity = 4 }, "4 m", hazard { likelihood = 1, severity = 5 } }),
    example.edges({ ["deck.edge_height"] = "1.5 m", ["deck.edge_harness"] = "no", ["deck.light_level"] = "60 lux" },
      "deck.guard_height", 3, { "0.95 m", 1, "0.93 m", 2, "0.5 m", 2, "0.49 m", 3 }),
    example.edges({ ["deck.edge_height"] = "1.5 m", ["deck.edge_harness"] = "no", ["deck.guard_height"] = "0.6 m" },
      "deck.light_level", 3, { "20 lux", 2, "19.5 lux", 3 }),
  },
}

local over_water = { over_water_work = "yes", life_jackets = "yes", lifeguards = "1", light_level = "200 lux",
  ["site.water.temperature"] = "28 degC", ["site.emergency.notice_time"] = "3 s",
  ["site.emergency.reach_time"] = "5 s", ["site.emergency.surface_time"] = "8 s" }

rule {
  id = "place.over-water-work",
  title = "Crew work over or at the edge of deep water",
  each = "task",
  harm = "crew: fall in, clothed and unseen",
  sources = { "29 CFR 1926.106: life jackets, ring buoys and a boat; CDM Regulations 2015 reg " ..
    "26 (from memory)" },
  when = function (t) return t.over_water_work end,
  assess = function (t)
    hazard {
      likelihood = scale.protection(scale.missing, { t.life_jackets, t.lifeguards >= 1 },
        { t.light_level < q"20 lux", t.site.water.temperature < q"15 degC" }),
      severity = scale.without_air(to_surface(t.site)), who = "crew over the water",
      because = "at the surface {up} after trouble, water {cold}",
      values = { up = to_surface(t.site), cold = t.site.water.temperature },
      controls = { "life-jackets", "lifeguard", "work-lights" },
      also = { "edge-harness" },
    }
  end,
  examples = example.join { {
    { "jackets and a lifeguard",
      given = { over_water_work = "yes", life_jackets = "yes", lifeguards = "1",
        light_level = "200 lux",
                ["site.water.temperature"] = "28 degC", ["site.emergency.notice_time"] = "3 s",
                ["site.emergency.reach_time"] = "5 s", ["site.emergency.surface_time"] = "8 s" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "a cold lake at night",
      given = { over_water_work = "yes", life_jackets = "no", lifeguards = "0",
        light_level = "5 lux",
                ["site.water.temperature"] = "8 degC", ["site.emergency.notice_time"] = "60 s",
                ["site.emergency.reach_time"] = "90 s", ["site.emergency.surface_time"] = "8 s" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "jackets not known",
      given = { over_water_work = "yes", lifeguards = "0", light_level = "200 lux",
                ["site.water.temperature"] = "28 degC", ["site.emergency.notice_time"] = "3 s",
                ["site.emergency.reach_time"] = "5 s", ["site.emergency.surface_time"] = "8 s" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "jackets on",
      given = { over_water_work = "yes", life_jackets = "no", lifeguards = "1",
        light_level = "200 lux",
                ["site.water.temperature"] = "28 degC", ["site.emergency.notice_time"] = "3 s",
                ["site.emergency.reach_time"] = "5 s", ["site.emergency.surface_time"] = "8 s" },
      with = { "life-jackets" }, expect = hazard { likelihood = 1, severity = 3 } },
    { "nobody over it", given = { over_water_work = "no" }, expect = nothing },
  },
    example.edges(over_water, "light_level", 3, { "20 lux", 1, "19.5 lux", 2 }),
    example.edges(over_water, "site.water.temperature", 3, { "15 degC", 1, "14.7 degC", 2 }),
  },
}

-- Least depth of water below a platform of this height; the next higher row counts.
local function depth_for(height, feet_first)
  if height <= q"0.5 m" then return q"1.2 m" end
  if height <= q"1 m" then return feet_first and q"1.8 m" or q"3.2 m" end
  if height <= q"3 m" then return q"3.5 m" end
  if height <= q"5 m" then return q"3.7 m" end
  if height <= q"7.5 m" then return q"4.1 m" end
  return q"4.5 m"
end

local function comes_from_above(i)
  local entry = i.entry
  return entry == "jump" or entry == "dive" or entry == "fall"
end

rule {
  id = "place.landing-depth",
  title = "Water too shallow to land in",
  each = "immersion",
  harm = "performer: neck, spine or legs on the bottom",
  sources = { "World Aquatics facilities rules: minimum depth below platforms 3.2 m at 1 m, " ..
    "3.5 at 3, 3.7 at 5, 4.1 at 7.5, 4.5 at 10",
              "the same rules: nowhere less than 1.8 m in a diving pool; up to half a metre, " ..
              "feet first: 1.2 m, common practice" },
  when = comes_from_above,
  assess = function (i)
    local feet_first = i.entry == "jump"
    local need = depth_for(i.entry_height, feet_first)
    local severity = 4
    if feet_first and i.entry_height <= q"1 m" then severity = 3 end
    if i.entry_height >= q"3 m" then severity = 5 end
    hazard {
      likelihood = scale.minimum(i.task.landing_depth, need * 1.1, need, need, need * 0.8),
      severity = severity,
      because = "from {i.entry_height} into {deep}; {need} is the least",
      values = { deep = i.task.landing_depth, need = need },
      who = "1 performer", controls = { "lower-jump", "deeper-landing" },
      also = { "stunt-double" },
    }
  end,
  examples = example.join { {
    { "step in from the edge", given = { entry = "jump", entry_height = "0.3 m",
      ["task.landing_depth"] = "1.5 m" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "jump from a low bank into 1.1 m", given = { entry = "jump", entry_height = "0.9 m",
      ["task.landing_depth"] = "1.1 m" },
      expect = hazard { likelihood = 5, severity = 3 } },
    { "one metre into two", given = { entry = "dive", entry_height = "0.8 m",
      ["task.landing_depth"] = "2 m" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "two and a half metres into 3.2", given = { entry = "jump", entry_height = "2.5 m",
      ["task.landing_depth"] = "3.2 m" },
      expect = hazard { likelihood = 4, severity = 4 } },
    { "three metres into four", given = { entry = "jump", entry_height = "3 m",
      ["task.landing_depth"] = "4 m" },
      expect = hazard { likelihood = 1, severity = 5 } },
    { "five metres into four", given = { entry = "fall", entry_height = "5 m",
      ["task.landing_depth"] = "4 m" },
      expect = hazard { likelihood = 2, severity = 5 } },
    { "seven metres into three", given = { entry = "fall", entry_height = "7 m",
      ["task.landing_depth"] = "3 m" },
      expect = hazard { likelihood = 5, severity = 5 } },
    { "ten metres into five", given = { entry = "jump", entry_height = "10 m",
      ["task.landing_depth"] = "5 m" },
      expect = hazard { likelihood = 1, severity = 5 } },
    { "not sounded", given = { entry = "jump", entry_height = "2 m" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "sounded and deep enough", given = { entry = "jump", entry_height = "2 m",
      ["task.landing_depth"] = "2 m" },
      with = { "deeper-landing" }, expect = hazard { likelihood = 1, severity = 4 } },
    { "by the ladder", given = { entry = "ladder" }, expect = nothing },
  },
    -- each row of the table: its depth, and less; the first also 1.1 and 0.8 times
    example.edges({ entry = "jump", entry_height = "0.5 m" }, "task.landing_depth", 3,
      { "1.32 m", 1, "1.3 m", 2, "1.2 m", 2, "1.18 m", 4, "0.96 m", 4, "0.94 m", 5 }),
    example.edges({ entry = "jump", entry_height = "1 m" }, "task.landing_depth", 3, { "1.8 m", 2, "1.77 m", 4 }),
    example.edges({ entry = "dive", entry_height = "1 m" }, "task.landing_depth", 4, { "3.2 m", 2, "3.15 m", 4 }),
    example.edges({ entry = "jump", entry_height = "3 m" }, "task.landing_depth", 5, { "3.5 m", 2, "3.45 m", 4 }),
    example.edges({ entry = "fall", entry_height = "5 m" }, "task.landing_depth", 5, { "3.7 m", 2, "3.65 m", 4 }),
    example.edges({ entry = "fall", entry_height = "7.5 m" }, "task.landing_depth", 5, { "4.1 m", 2, "4.05 m", 4 }),
    example.edges({ entry = "fall", entry_height = "10 m" }, "task.landing_depth", 5, { "4.5 m", 2, "4.45 m", 4 }),
    -- from one row to the next
    example.edges({ entry = "jump", ["task.landing_depth"] = "1.5 m" }, "entry_height", 3, { "0.5 m", 1, "0.51 m", 4 }),
    example.edges({ entry = "dive", ["task.landing_depth"] = "3.3 m" }, "entry_height", 4, { "1 m", 2, "1.03 m", 4 }),
    example.edges({ entry = "fall", ["task.landing_depth"] = "3.6 m" }, "entry_height", 5, { "3 m", 2, "3.1 m", 4 }),
    example.edges({ entry = "fall", ["task.landing_depth"] = "3.9 m" }, "entry_height", 5, { "5 m", 2, "5.1 m", 4 }),
    example.edges({ entry = "fall", ["task.landing_depth"] = "4.3 m" }, "entry_height", 5, { "7.5 m", 2, "7.6 m", 4 }),
    example.edges({ entry = "jump", ["task.landing_depth"] = "5 m" }, "entry_height", 4,
      { "1 m", hazard { likelihood = 1, severity = 3 }, "1.03 m", 1, "2.95 m", 1,
        "3 m", hazard { likelihood = 1, severity = 5 } }),
  },
}

rule {
  id = "place.jump-height",
  title = "A jump or fall from high up",
  each = "immersion",
  harm = "performer: injury from the water itself",
  sources = { "Jung and others 2022, Science Advances: an average adult is likely hurt above 8 " ..
    "m head first, 12 m hands first, 15 m feet first" },
  when = function (i) return comes_from_above(i) and i.entry_height > q"1 m" end,
  assess = function (i)
    local likelihood = scale.limit(i.entry_height, q"3 m", q"5 m", q"8 m", q"12 m")
    local grade = i.person.stunt_grade
    if grade == "graded" or grade == "coordinator" then likelihood =
      scale.within(likelihood - 1) end
    local severity = 3
    if i.entry_height > q"8 m" then severity = 4 end
    if i.entry_height > q"15 m" then severity = 5 end
    hazard {
      likelihood = likelihood, severity = severity, who = "1 performer",
      because = "{i.entry_height}: meets the water at {speed}",
      values = { speed = calc.fall_speed(i.entry_height) },
      controls = { "lower-jump", "stunt-performer" },
      also = { "dummy-for-held-shot" },
    }
  end,
  examples = example.join { {
    { "two metres", given = { entry = "jump", entry_height = "2 m",
      ["person.stunt_grade"] = "none" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "ten metres, an actor", given = { entry = "fall", entry_height = "10 m",
      ["person.stunt_grade"] = "none" },
      expect = hazard { likelihood = 4, severity = 4 } },
    { "twenty metres, graded", given = { entry = "fall", entry_height = "20 m",
      ["person.stunt_grade"] = "graded" },
      expect = hazard { likelihood = 4, severity = 5 } },
    { "height not known", given = { entry = "fall", ["person.stunt_grade"] = "none" },
      expect = hazard { likelihood = 5, severity = 5 } },
    { "brought down", given = { entry = "fall", entry_height = "10 m",
      ["person.stunt_grade"] = "none" },
      with = { "lower-jump" }, expect = hazard { likelihood = 1, severity = 3 } },
    { "a step", given = { entry = "jump", entry_height = "0.5 m" }, expect = nothing },
    { "a ladder", given = { entry = "ladder" }, expect = nothing },
  },
    example.edges({ entry = "fall", ["person.stunt_grade"] = "none" }, "entry_height", 3,
      { "1 m", nothing, "1.03 m", 1, "3 m", 1, "3.1 m", 2, "5 m", 2, "5.1 m", 3, "8 m", 3,
        "8.2 m", hazard { likelihood = 4, severity = 4 }, "12 m", hazard { likelihood = 4, severity = 4 },
        "12.2 m", hazard { likelihood = 5, severity = 4 }, "15 m", hazard { likelihood = 5, severity = 4 },
        "15.3 m", hazard { likelihood = 5, severity = 5 } }),
    example.edges({ entry = "fall", entry_height = "10 m" }, "person.stunt_grade", 4,
      { "none", 4, "graded", 3, "coordinator", 3 }),
  },
}

rule {
  id = "place.landing-clear",
  title = "People where others or things land",
  each = "task",
  harm = "whoever is below: struck and knocked under",
  sources = { "common practice: a spotter calls the landing clear; nobody below" },
  when = function (t) return t.people_below end,
  assess = function (t)
    hazard {
      likelihood = scale.protection(scale.frequent, { t.clear_radius >= q"3 m", t.rehearsed }, {}),
      severity = 4,
      because = "people may be in the water where others or things land; {t.clear_radius} kept " ..
        "clear",
      who = "swimmers below", controls = { "landing-kept-clear" },
    }
  end,
  examples = example.join { {
    { "nobody below", given = { people_below = "no" }, expect = nothing },
    { "beside the landing, rehearsed", given = { people_below = "yes", clear_radius = "4 m",
      rehearsed = "yes" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "close, unrehearsed", given = { people_below = "yes", clear_radius = "1 m",
      rehearsed = "no" },
      expect = hazard { likelihood = 4, severity = 4 } },
    { "not known", given = { clear_radius = "1 m", rehearsed = "yes" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "called clear", given = { people_below = "yes" }, with = { "landing-kept-clear" },
      expect = nothing },
  },
    example.edges({ people_below = "yes", rehearsed = "no" }, "clear_radius", 4, { "3 m", 3, "2.95 m", 4 }),
  },
}
