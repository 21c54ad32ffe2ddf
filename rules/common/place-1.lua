-- The tank and the set: depth, ways out, decks and edges, jumps, walls and windows, power.

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
      controls = { "shallower-set", "more-safety-divers", "rescue-drill" },
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
  sources = { "breath-hold limit as computed; common practice: air never farther than the " ..
    "breath that is left",
              "15 m at 0.75 m/s takes 20 s; in costume 0.5 m/s is taken" },
  when = function (i) return i.task.overhead and i.depth > q"0 m" end,
  assess = function (i)
    local t = i.task
    local way = calc.swim_time(t.air_distance, q"0.5 m/s")
    local left = calc.breath_hold_limit(i.person.mass, scale.mets(i.effort), q"0 m") - i.breath_hold
    local help = scale.count { t.guide_line, t.air_pocket or t.escape_panels }
    local worse = scale.count { t.passage_width < q"0.7 m", t.set_exits < 2 }
    hazard {
      likelihood = scale.within(scale.reserve(left, way) - help + worse),
      severity = scale.vulnerable(scale.without_air(max(i.air_return_time, way)), { young(i) }),
      because = "{left} of breath after the take, {way} to open air or a gas point, gas " ..
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
    -- 31.2 s on one breath, 15 s of them in the take: 16.2 s are three times the way of 2.7 m
    example.edges(under_set, "task.air_distance", 3, { "2.65 m", 1, "2.75 m", 2 }),
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
  when = wet,
  assess = function (s)
    local b, d = s.basin, s.deck
    local likelihood = scale.protection(scale.frequent,
      { b.exits >= 2, b.exit_spacing <= q"15 m", d.stretcher_exit },
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
  when = function (s) return s.deck.wet end,
  assess = function (s)
    local d = s.deck
    hazard {
      likelihood = scale.protection(scale.frequent,
        { d.slip_value >= 36, d.mats_or_drains, d.trip_free },
        { d.slip_value < 25, d.light_level < q"20 lux" }),
      severity = 3, who = "everyone on deck",
      because = "pendulum value {slip} wet, light {light} on the ways",
      values = { slip = d.slip_value, light = d.light_level },
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
      controls = { "life-jackets", "lifeguard", "edge-harness", "work-lights" },
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
      who = "1 performer", controls = { "lower-jump", "deeper-landing", "stunt-double" },
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
      controls = { "lower-jump", "stunt-performer", "dummy-for-held-shot" },
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

rule {
  id = "place.tank-rated",
  title = "The tank is not shown to hold this depth of water",
  each = "day",
  harm = "everyone in and below the tank: collapse, flood",
  sources = { "common practice: filled only to the depth an engineer has signed; no value " ..
    "without a certificate" },
  when = function (d)
    local body = d.site.water_body
    return body == "tank" or body == "stage-pool" or body == "flooded-set"
  end,
  assess = function (d)
    local s, depth = d.site.structure, d.site.basin.depth
    if depth > s.rated_depth then
      stop { because = "{depth} of water in a tank rated for {rated}",
        values = { depth = depth, rated = s.rated_depth },
             controls = { "lower-level", "engineer-signs" } }
    end
    if s.temporary and not s.engineer_signed then
      stop { because = "a tank built for this production, signed by no engineer at this depth",
        controls = { "engineer-signs" } }
    end
    hazard {
      likelihood = scale.protection(scale.missing, { s.engineer_signed,
        s.certificate_until >= d.date },
        { s.defects, depth > s.rated_depth }),
      severity = 5, who = "everyone in and below the tank",
      because = "{depth} of water, rated for {rated}; certificate until {until}",
      values = { depth = depth, rated = s.rated_depth, ["until"] = s.certificate_until },
      controls = { "engineer-signs", "lower-level" },
    }
  end,
  examples = {
    { "signed, in date, no defects",
      given = { ["site.water_body"] = "tank", ["site.basin.depth"] = "4.8 m",
        ["site.structure.rated_depth"] = "5.5 m",
                ["site.structure.temporary"] = "no", ["site.structure.engineer_signed"] = "yes",
                ["site.structure.certificate_until"] = "2028-01-31",
                ["site.structure.defects"] = "no" },
      expect = hazard { likelihood = 1, severity = 5 } },
    { "run out and cracked",
      given = { ["site.water_body"] = "tank", ["site.basin.depth"] = "4.8 m",
        ["site.structure.rated_depth"] = "5.5 m",
                ["site.structure.temporary"] = "no", ["site.structure.engineer_signed"] = "no",
                ["site.structure.certificate_until"] = "2027-01-31",
                ["site.structure.defects"] = "yes" },
      expect = hazard { likelihood = 4, severity = 5 } },
    { "too deep",
      given = { ["site.water_body"] = "stage-pool", ["site.basin.depth"] = "1.6 m",
        ["site.structure.rated_depth"] = "1.4 m",
                ["site.structure.temporary"] = "yes", ["site.structure.engineer_signed"] = "yes",
                ["site.structure.certificate_until"] = "2028-01-31",
                ["site.structure.defects"] = "no" },
      expect = { stop {}, hazard { likelihood = 2, severity = 5 } } },
    { "built for the show, unsigned",
      given = { ["site.water_body"] = "flooded-set", ["site.basin.depth"] = "1 m",
        ["site.structure.rated_depth"] = "1.4 m",
                ["site.structure.temporary"] = "yes", ["site.structure.engineer_signed"] = "no",
                ["site.structure.certificate_until"] = "2028-01-31",
                ["site.structure.defects"] = "no" },
      expect = stop {} },
    { "rated depth not known",
      given = { ["site.water_body"] = "tank", ["site.basin.depth"] = "4.8 m",
        ["site.structure.temporary"] = "no",
                ["site.structure.engineer_signed"] = "yes",
                ["site.structure.certificate_until"] = "2028-01-31",
                ["site.structure.defects"] = "no" }, expect = { stop {},
                hazard { likelihood = 2, severity = 5 } } },
    { "signed at this depth",
      given = { ["site.water_body"] = "flooded-set", ["site.basin.depth"] = "1 m",
        ["site.structure.rated_depth"] = "1.4 m",
                ["site.structure.temporary"] = "yes", ["site.structure.engineer_signed"] = "no",
                ["site.structure.certificate_until"] = "2028-01-31",
                ["site.structure.defects"] = "no" },
      with = { "engineer-signs" }, expect = hazard { likelihood = 1, severity = 5 } },
    { "a lake", given = { ["site.water_body"] = "lake" }, expect = nothing },
  },
}

rule {
  id = "place.floor-load",
  title = "The floor under the tank carries too much",
  each = "site",
  harm = "everyone in and below the tank: collapse",
  sources = { "weight of water as computed; the rating is the engineer's" },
  when = function (s)
    local body = s.water_body
    return body == "tank" or body == "stage-pool" or body == "flooded-set"
  end,
  assess = function (s)
    local b, rating = s.basin, s.structure.floor_load_rating
    local load = calc.hydrostatic_pressure(b.depth,
      q"1000 kg/m3") + s.structure.tank_mass * q"9.80665 m/s2" / (b.length * b.width)
    if load > rating then
      stop { because = "{load} on a floor rated for {rating}",
        values = { load = load, rating = rating },
             controls = { "lower-level", "engineer-signs" } }
    end
    hazard {
      likelihood = scale.limit(load, rating * 0.67, rating * 0.8, rating, rating * 1.1),
      severity = 5,
      because = "water and tank press {load} on a floor rated for {rating}",
      values = { load = load, rating = rating },
      who = "everyone in and below the tank", controls = { "lower-level", "engineer-signs" },
    }
  end,
  examples = example.join { {
    { "well inside",
      given = { water_body = "stage-pool", ["basin.depth"] = "1.2 m", ["basin.length"] = "7 m",
        ["basin.width"] = "5 m",
                ["structure.tank_mass"] = "2600 kg", ["structure.floor_load_rating"] = "30 kPa" },
      expect = hazard { likelihood = 1, severity = 5 } },
    { "over it",
      given = { water_body = "stage-pool", ["basin.depth"] = "1.2 m", ["basin.length"] = "7 m",
        ["basin.width"] = "5 m",
                ["structure.tank_mass"] = "2600 kg", ["structure.floor_load_rating"] = "5 kPa" },
      expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "rating not known",
      given = { water_body = "tank", ["basin.depth"] = "1.2 m", ["basin.length"] = "7 m",
        ["basin.width"] = "5 m",
                ["structure.tank_mass"] = "2600 kg" }, expect = { stop {},
                hazard { likelihood = 5, severity = 5 } } },
    { "level lowered",
      given = { water_body = "stage-pool", ["basin.depth"] = "1.8 m", ["basin.length"] = "7 m",
        ["basin.width"] = "5 m",
                ["structure.tank_mass"] = "2600 kg", ["structure.floor_load_rating"] = "17 kPa" },
      with = { "lower-level" }, expect = hazard { likelihood = 1, severity = 5 } },
    { "a lake", given = { water_body = "lake" }, expect = nothing },
  },
    -- 11.77 kPa of water and 0.73 kPa of tank
    example.edges({ water_body = "stage-pool", ["basin.depth"] = "1.2 m", ["basin.length"] = "7 m",
      ["basin.width"] = "5 m", ["structure.tank_mass"] = "2600 kg" }, "structure.floor_load_rating", 5,
      { "18.8 kPa", 1, "18.5 kPa", 2, "15.7 kPa", 2, "15.5 kPa", 3, "12.52 kPa", 3,
        "12.47 kPa", { stop {}, hazard { likelihood = 4, severity = 5 } },
        "11.4 kPa", { stop {}, hazard { likelihood = 4, severity = 5 } },
        "11.2 kPa", { stop {}, hazard { likelihood = 5, severity = 5 } } }),
  },
}

rule {
  id = "place.window",
  title = "Thrust on the window",
  each = "site",
  harm = "everyone at and behind the window: it bursts",
  sources = { "thrust of still water as computed; rated force from the window's certificate" },
  when = function (s) return s.structure.windows > 0 end,
  assess = function (s)
    local w = s.structure
    local thrust = calc.window_thrust(w.window_width, w.window_height,
      w.window_top_depth + w.window_height / 2, q"1000 kg/m3")
    local rated = w.window_rated_force
    if thrust > rated then
      stop { because = "{thrust} on a window rated for {rated}",
        values = { thrust = thrust, rated = rated },
             controls = { "lower-level", "engineer-signs" } }
    end
    hazard {
      likelihood = scale.limit(thrust, rated * 0.67, rated * 0.8, rated, rated * 1.1), severity = 5,
      because = "the water pushes {thrust}; rated for {rated}",
      values = { thrust = thrust, rated = rated },
      who = "everyone at the window", controls = { "lower-level", "engineer-signs" },
    }
  end,
  examples = example.join { {
    { "a third of the rating",
      given = { ["structure.windows"] = "3", ["structure.window_width"] = "2.4 m",
        ["structure.window_height"] = "1.6 m",
                ["structure.window_top_depth"] = "1.2 m",
                ["structure.window_rated_force"] = "240 kN" },
      expect = hazard { likelihood = 1, severity = 5 } },
    { "beyond it",
      given = { ["structure.windows"] = "1", ["structure.window_width"] = "2.4 m",
        ["structure.window_height"] = "1.6 m",
                ["structure.window_top_depth"] = "1.2 m",
                ["structure.window_rated_force"] = "60 kN" },
      expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "no certificate",
      given = { ["structure.windows"] = "1", ["structure.window_width"] = "2.4 m",
        ["structure.window_height"] = "1.6 m",
                ["structure.window_top_depth"] = "1.2 m" },
                expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "level lowered",
      given = { ["structure.windows"] = "1", ["structure.window_width"] = "2.4 m",
        ["structure.window_height"] = "1.6 m",
                ["structure.window_top_depth"] = "1.2 m",
                ["structure.window_rated_force"] = "60 kN" },
      with = { "lower-level" }, expect = hazard { likelihood = 1, severity = 5 } },
    { "no window", given = { ["structure.windows"] = "0" }, expect = nothing },
  },
    -- 3.84 m2 with their middle 2 m deep: 75.3 kN
    example.edges({ ["structure.windows"] = "1", ["structure.window_width"] = "2.4 m",
      ["structure.window_height"] = "1.6 m", ["structure.window_top_depth"] = "1.2 m" },
      "structure.window_rated_force", 5,
      { "113.5 kN", 1, "111.5 kN", 2, "95 kN", 2, "93.3 kN", 3, "76 kN", 3,
        "74.5 kN", { stop {}, hazard { likelihood = 4, severity = 5 } },
        "69 kN", { stop {}, hazard { likelihood = 4, severity = 5 } },
        "68 kN", { stop {}, hazard { likelihood = 5, severity = 5 } } }),
  },
}

rule {
  id = "place.level-change",
  title = "The level changes while people are in, or could",
  each = "site",
  harm = "everyone in the water: current, lost footing, trapped by a falling level",
  sources = { "common practice: level changes only with everyone out and the valves locked" },
  when = function (s)
    local body = s.water_body
    return body == "tank" or body == "pool" or body == "stage-pool" or body == "flooded-set"
  end,
  assess = function (s)
    local p = s.plant
    if not p.level_change_while_occupied and p.level_lock_out then return end
    local likelihood = 2
    if p.level_change_while_occupied then
      likelihood = scale.limit(p.level_rate, q"0.1 m/h", q"0.3 m/h", q"1 m/h", q"3 m/h")
      if not p.level_lock_out then likelihood = scale.within(likelihood + 1) end
    end
    hazard {
      likelihood = likelihood, severity = 4, who = "everyone in the water",
      because = "the level can move {rate} with people in the water",
      values = { rate = p.level_rate },
      controls = { "empty-while-filling" },
    }
  end,
  examples = example.join { {
    { "locked off", given = { water_body = "tank", ["plant.level_change_while_occupied"] = "no",
      ["plant.level_lock_out"] = "yes" },
      expect = nothing },
    { "not locked", given = { water_body = "tank", ["plant.level_change_while_occupied"] = "no",
      ["plant.level_lock_out"] = "no" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "fast, with people in",
      given = { water_body = "tank", ["plant.level_change_while_occupied"] = "yes",
        ["plant.level_lock_out"] = "no",
                ["plant.level_rate"] = "5 m/h" }, expect = hazard { likelihood = 5,
                severity = 4 } },
    { "not known", given = { water_body = "tank", ["plant.level_rate"] = "0.1 m/h" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "emptied first", given = { water_body = "tank",
      ["plant.level_change_while_occupied"] = "yes" },
      with = { "empty-while-filling" }, expect = nothing },
    { "no water body", given = { water_body = "none" }, expect = nothing },
  },
    example.edges({ water_body = "tank", ["plant.level_change_while_occupied"] = "yes",
      ["plant.level_lock_out"] = "yes" }, "plant.level_rate", 4,
      { "0.1 m/h", 1, "0.103 m/h", 2, "0.3 m/h", 2, "0.31 m/h", 3, "1 m/h", 3, "1.03 m/h", 4, "3 m/h", 4, "3.1 m/h", 5 }),
  },
}

rule {
  id = "place.first-filling",
  title = "A new tank filled in one go, or watched by nobody",
  each = "site",
  harm = "everyone near: wall, liner or floor gives way",
  sources = { "common practice: filled in stages with a look at each; movement and leaks " ..
    "watched while people are in" },
  when = function (s) return s.structure.temporary end,
  assess = function (s)
    local likelihood = scale.protection(scale.missing, { s.structure.filled_in_stages,
      s.structure.leak_alarm }, { s.structure.defects })
    if likelihood < 2 then return end
    hazard {
      likelihood = likelihood, severity = 4, who = "everyone in and near the tank",
      because = "the tank is built for this production; staged filling or a watch on movement " ..
        "is missing",
      controls = { "engineer-signs" },
    }
  end,
  examples = {
    { "in stages, watched", given = { ["structure.temporary"] = "yes",
      ["structure.filled_in_stages"] = "yes",
                ["structure.leak_alarm"] = "yes", ["structure.defects"] = "no" },
                expect = nothing },
    { "in one go, cracked", given = { ["structure.temporary"] = "yes",
      ["structure.filled_in_stages"] = "no",
                ["structure.leak_alarm"] = "no", ["structure.defects"] = "yes" },
                expect = hazard { likelihood = 4, severity = 4 } },
    { "not known", given = { ["structure.temporary"] = "yes", ["structure.leak_alarm"] = "yes",
      ["structure.defects"] = "no" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "engineer there", given = { ["structure.temporary"] = "yes",
      ["structure.filled_in_stages"] = "no",
                ["structure.leak_alarm"] = "no", ["structure.defects"] = "no" },
                with = { "engineer-signs" }, expect = nothing },
    { "a permanent tank", given = { ["structure.temporary"] = "no" }, expect = nothing },
  },
}

rule {
  id = "place.voltage-in-water",
  title = "Voltage in the water",
  each = "site",
  harm = "everyone in the water: shock, loss of control, drowning",
  sources = { "BS 7671 s.702 zone 0 and CEI 64-8: at most 12 V alternating or 30 V direct",
              "29 CFR 1910.422(f): hand tools dead before they go in or out" },
  when = function (s) return s.power.equipment_in_water end,
  assess = function (s)
    local p = s.power
    if p.ac_voltage_in_water > q"12 V" or p.dc_voltage_in_water > q"30 V" then
      stop { because = "{ac} alternating, {dc} direct in the water",
        values = { ac = p.ac_voltage_in_water, dc = p.dc_voltage_in_water },
             controls = { "battery-in-water" } }
    end
    local likelihood = max(scale.limit(p.ac_voltage_in_water, q"0 V", q"6 V", q"12 V", q"25 V"),
                           scale.limit(p.dc_voltage_in_water, q"24 V", q"30 V", q"30 V", q"60 V"))
    if p.hand_tools_in_water then likelihood = scale.within(likelihood + 1) end
    hazard {
      likelihood = likelihood, severity = 5, who = "everyone in the water",
      because = "{ac} alternating, {dc} direct in the water",
      values = { ac = p.ac_voltage_in_water, dc = p.dc_voltage_in_water },
      controls = { "battery-in-water", "isolator-manned" },
    }
  end,
  examples = example.join { {
    { "24 V batteries", given = { ["power.equipment_in_water"] = "yes",
      ["power.ac_voltage_in_water"] = "0 V",
                ["power.dc_voltage_in_water"] = "24 V", ["power.hand_tools_in_water"] = "no" },
      expect = hazard { likelihood = 1, severity = 5 } },
    { "mains lamps", given = { ["power.equipment_in_water"] = "yes",
      ["power.ac_voltage_in_water"] = "230 V",
                ["power.dc_voltage_in_water"] = "0 V", ["power.hand_tools_in_water"] = "yes" },
      expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "12 V and a drill", given = { ["power.equipment_in_water"] = "yes",
      ["power.ac_voltage_in_water"] = "12 V",
                ["power.dc_voltage_in_water"] = "24 V", ["power.hand_tools_in_water"] = "yes" },
      expect = hazard { likelihood = 4, severity = 5 } },
    { "voltage not known", given = { ["power.equipment_in_water"] = "yes",
      ["power.dc_voltage_in_water"] = "24 V",
                ["power.hand_tools_in_water"] = "no" }, expect = { stop {},
                hazard { likelihood = 5, severity = 5 } } },
    { "batteries instead", given = { ["power.equipment_in_water"] = "yes",
      ["power.ac_voltage_in_water"] = "230 V",
                ["power.dc_voltage_in_water"] = "0 V", ["power.hand_tools_in_water"] = "yes" },
      with = { "battery-in-water" }, expect = hazard { likelihood = 1, severity = 5 } },
    { "nothing electric", given = { ["power.equipment_in_water"] = "no" }, expect = nothing },
  },
    example.edges({ ["power.equipment_in_water"] = "yes", ["power.dc_voltage_in_water"] = "0 V",
      ["power.hand_tools_in_water"] = "no" }, "power.ac_voltage_in_water", 5,
      { "0 V", 1, "0.1 V", 2, "6 V", 2, "6.2 V", 3, "12 V", 3,
        "12.3 V", { stop {}, hazard { likelihood = 4, severity = 5 } },
        "25 V", { stop {}, hazard { likelihood = 4, severity = 5 } },
        "25.5 V", { stop {}, hazard { likelihood = 5, severity = 5 } } }),
    example.edges({ ["power.equipment_in_water"] = "yes", ["power.ac_voltage_in_water"] = "0 V",
      ["power.hand_tools_in_water"] = "no" }, "power.dc_voltage_in_water", 5,
      { "24 V", 1, "24.5 V", 2, "30 V", 2, "30.7 V", { stop {}, hazard { likelihood = 4, severity = 5 } },
        "60 V", { stop {}, hazard { likelihood = 4, severity = 5 } },
        "61 V", { stop {}, hazard { likelihood = 5, severity = 5 } } }),
  },
}

local mains = { water_body = "tank", ["power.mains_voltage"] = "230 V", ["power.nearest_mains"] = "4 m",
  ["power.rcd"] = "yes", ["power.rcd_current"] = "30 mA", ["power.isolator_manned"] = "no",
  ["power.electrician_present"] = "no", ["power.ip_water"] = "7" }

rule {
  id = "place.mains-near-water",
  title = "Mains voltage near the water",
  each = "site",
  harm = "everyone wet: shock at the edge, lamp into the water",
  sources = { "BS 7671 s.702: no mains within 2.0 m of the rim or 2.5 m above it, 30 mA trip " ..
    "to 3.5 m (zone 2 from memory)",
              "BS EN 61008-1 (from memory): a 30 mA trip acts within 300 ms, within 40 ms at " ..
              "five times" },
  when = function (s) return wet(s) and s.power.mains_voltage > q"50 V" end,
  assess = function (s)
    local p = s.power
    local tripped = p.rcd and p.rcd_current <= q"30 mA"
    hazard {
      likelihood = scale.protection(scale.frequent,
        { p.nearest_mains >= q"3.5 m", tripped, p.isolator_manned, p.electrician_present },
        { p.nearest_mains < q"2 m", p.ip_water < 4 }),
      severity = 5, who = "everyone wet",
      because = "{volts} at {near} from the water, trip {trip}",
      values = { volts = p.mains_voltage, near = p.nearest_mains, trip = p.rcd_current },
      controls = { "mains-moved-back", "rcd-30-ma", "isolator-manned", "battery-in-water" },
    }
  end,
  examples = example.join { {
    { "four metres off, tripped, manned",
      given = { water_body = "tank", ["power.mains_voltage"] = "230 V",
        ["power.nearest_mains"] = "4 m", ["power.rcd"] = "yes",
                ["power.rcd_current"] = "30 mA", ["power.isolator_manned"] = "yes",
                ["power.electrician_present"] = "yes",
                ["power.ip_water"] = "7" }, expect = hazard { likelihood = 1, severity = 5 } },
    { "one metre off, no trip",
      given = { water_body = "tank", ["power.mains_voltage"] = "230 V",
        ["power.nearest_mains"] = "1 m", ["power.rcd"] = "no",
                ["power.isolator_manned"] = "no", ["power.electrician_present"] = "no",
                ["power.ip_water"] = "0" },
      expect = hazard { likelihood = 5, severity = 5 } },
    { "a 300 mA trip",
      given = { water_body = "tank", ["power.mains_voltage"] = "230 V",
        ["power.nearest_mains"] = "3 m", ["power.rcd"] = "yes",
                ["power.rcd_current"] = "300 mA", ["power.isolator_manned"] = "yes",
                ["power.electrician_present"] = "yes",
                ["power.ip_water"] = "5" }, expect = hazard { likelihood = 2, severity = 5 } },
    { "trip not known",
      given = { water_body = "tank", ["power.mains_voltage"] = "230 V",
        ["power.nearest_mains"] = "3 m", ["power.rcd_current"] = "30 mA",
                ["power.isolator_manned"] = "yes", ["power.electrician_present"] = "yes",
                ["power.ip_water"] = "5" },
      expect = hazard { likelihood = 2, severity = 5 } },
    { "moved back",
      given = { water_body = "tank", ["power.mains_voltage"] = "230 V",
        ["power.nearest_mains"] = "1 m", ["power.rcd"] = "yes",
                ["power.rcd_current"] = "30 mA", ["power.isolator_manned"] = "yes",
                ["power.electrician_present"] = "yes",
                ["power.ip_water"] = "5" }, with = { "mains-moved-back" },
                expect = hazard { likelihood = 1, severity = 5 } },
    { "no mains", given = { water_body = "tank", ["power.mains_voltage"] = "0 V" },
      expect = nothing },
  },
    example.edges(mains, "power.mains_voltage", 5, { "50 V", nothing, "51 V", 2 }),
    example.edges(mains, "power.nearest_mains", 5, { "3.5 m", 2, "3.45 m", 3, "2 m", 3, "1.95 m", 4 }),
    example.edges(mains, "power.rcd_current", 5, { "30 mA", 2, "30.5 mA", 3 }),
    example.edges(mains, "power.ip_water", 5, { "4", 2, "3", 3 }),
  },
}

rule {
  id = "place.trip-time",
  title = "The trip acts late or was never timed",
  each = "site",
  harm = "everyone wet: current flows long enough to kill",
  sources = { "BS EN 61008-1 (from memory): 300 ms at rated current, 40 ms at five times; IEC " ..
    "60479-1 curves" },
  when = function (s) return wet(s) and s.power.mains_voltage > q"50 V" and s.power.rcd end,
  assess = function (s)
    local time = s.power.rcd_trip_time
    hazard {
      likelihood = scale.limit(time, q"40 ms", q"200 ms", q"300 ms", q"500 ms"), severity = 4,
      who = "everyone wet",
      because = "the trip acts in {time}", values = { time = time }, controls = { "rcd-30-ma" },
    }
  end,
  examples = example.join { {
    { "24 ms", given = { water_body = "tank", ["power.mains_voltage"] = "230 V",
      ["power.rcd"] = "yes", ["power.rcd_trip_time"] = "24 ms" },
      expect = hazard { likelihood = 1, severity = 4 } },
    { "half a second", given = { water_body = "tank", ["power.mains_voltage"] = "230 V",
      ["power.rcd"] = "yes", ["power.rcd_trip_time"] = "600 ms" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "never timed", given = { water_body = "tank", ["power.mains_voltage"] = "230 V",
      ["power.rcd"] = "yes" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "tested each morning", given = { water_body = "tank", ["power.mains_voltage"] = "230 V",
      ["power.rcd"] = "yes" },
      with = { "rcd-30-ma" }, expect = hazard { likelihood = 1, severity = 4 } },
    { "no mains", given = { water_body = "tank", ["power.mains_voltage"] = "24 V" },
      expect = nothing },
  },
    example.edges({ water_body = "tank", ["power.mains_voltage"] = "230 V", ["power.rcd"] = "yes" },
      "power.rcd_trip_time", 4,
      { "40 ms", 1, "41 ms", 2, "200 ms", 2, "205 ms", 3, "300 ms", 3, "306 ms", 4, "500 ms", 4, "510 ms", 5 }),
    example.edges({ water_body = "tank", ["power.rcd"] = "yes", ["power.rcd_trip_time"] = "40 ms" },
      "power.mains_voltage", 4, { "50 V", nothing, "51 V", 1 }),
    { { "no trip at all", given = { water_body = "tank", ["power.mains_voltage"] = "230 V", ["power.rcd"] = "no" },
        expect = nothing },
      { "no water body", given = { water_body = "none" }, expect = nothing } },
  },
}

rule {
  id = "place.things-falling",
  title = "Lamps, tools or people above those in the water",
  each = "site",
  harm = "whoever is in the water: struck",
  sources = { "common practice: every lamp hung twice, every tool tied on, toe-boards on every " ..
    "edge" },
  when = wet,
  assess = function (s)
    local likelihood = scale.protection(scale.missing, { s.power.lamps_secured,
      s.deck.toe_boards or not s.deck.people_overhead }, { s.deck.people_overhead })
    if likelihood < 2 then return end
    hazard {
      likelihood = likelihood, severity = 4, who = "everyone in the water",
      because = "lamps are not hung twice, edges have no toe-boards, or people work overhead",
      controls = { "lamps-double-hung", "clear-path" },
    }
  end,
  examples = {
    { "hung twice, toe-boards", given = { water_body = "tank", ["power.lamps_secured"] = "yes",
      ["deck.toe_boards"] = "yes",
                ["deck.people_overhead"] = "no" }, expect = nothing },
    { "single hooks and people on the grid", given = { water_body = "tank",
      ["power.lamps_secured"] = "no", ["deck.toe_boards"] = "no",
                ["deck.people_overhead"] = "yes" }, expect = hazard { likelihood = 4,
                severity = 4 } },
    { "not known", given = { water_body = "tank", ["power.lamps_secured"] = "yes",
      ["deck.toe_boards"] = "no" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "hung twice now", given = { water_body = "tank", ["power.lamps_secured"] = "no",
      ["deck.toe_boards"] = "no",
                ["deck.people_overhead"] = "no" }, with = { "lamps-double-hung" },
                expect = nothing },
    { "no water body", given = { water_body = "none" }, expect = nothing },
  },
}

rule {
  id = "place.deck-load",
  title = "Decks and platforms loaded beyond their rating",
  each = "site",
  harm = "everyone on deck: it gives way, into the water",
  sources = { "the engineer's rating; common practice: people, lamps, cameras and wet scenery " ..
    "are all counted" },
  when = function (s) return s.deck.load > q"0 kPa" end,
  assess = function (s)
    local load, rating = s.deck.load, s.deck.load_rating
    if load > rating then
      stop { because = "{load} planned on a deck rated for {rating}",
        values = { load = load, rating = rating }, controls = { "lighter-deck" } }
    end
    hazard {
      likelihood = scale.limit(load, rating * 0.67, rating * 0.8, rating, rating * 1.1),
      severity = 4, who = "everyone on deck",
      because = "{load} planned on a deck rated for {rating}",
      values = { load = load, rating = rating }, controls = { "lighter-deck" },
    }
  end,
  examples = example.join { {
    { "half the rating", given = { ["deck.load"] = "2.4 kPa", ["deck.load_rating"] = "5 kPa" },
      expect = hazard { likelihood = 1, severity = 4 } },
    { "beyond it", given = { ["deck.load"] = "6 kPa", ["deck.load_rating"] = "5 kPa" },
      expect = { stop {}, hazard { likelihood = 5, severity = 4 } } },
    { "rating not known", given = { ["deck.load"] = "2.4 kPa" },
      expect = { stop {}, hazard { likelihood = 5, severity = 4 } } },
    { "taken off", given = { ["deck.load"] = "6 kPa", ["deck.load_rating"] = "5 kPa" },
      with = { "lighter-deck" },
      expect = hazard { likelihood = 1, severity = 4 } },
    { "no deck", given = { ["deck.load"] = "0 kPa" }, expect = nothing },
  },
    example.edges({ ["deck.load_rating"] = "5 kPa" }, "deck.load", 4,
      { "3.35 kPa", 1, "3.4 kPa", 2, "4 kPa", 2, "4.1 kPa", 3, "5 kPa", 3,
        "5.1 kPa", { stop {}, hazard { likelihood = 4, severity = 4 } },
        "5.5 kPa", { stop {}, hazard { likelihood = 4, severity = 4 } },
        "5.6 kPa", { stop {}, hazard { likelihood = 5, severity = 4 } } }),
  },
}

rule {
  id = "place.confined-space",
  title = "An enclosed place that can trap gas or water",
  each = "site",
  harm = "whoever is inside: no air, rising water, no way out",
  sources = { "Confined Spaces Regulations 1997 reg 1: drowning from a rising liquid counts; " ..
    "29 CFR 1910.146(b): oxygen 19.5 to 23.5 %" },
  when = function (s) return s.confined_space end,
  assess = function (s)
    if s.air.oxygen < q"19.5 %" then
      stop { because = "oxygen {oxygen} in an enclosed place", values = { oxygen = s.air.oxygen },
        controls = { "entry-permit" } }
    end
    hazard {
      likelihood = scale.protection(scale.missing, { s.confined_space_permit,
        s.air.oxygen >= q"20 %" }, {}), severity = 5,
      because = "entry by permit is missing, or oxygen is {oxygen}",
      values = { oxygen = s.air.oxygen },
      who = "whoever enters", controls = { "entry-permit" },
    }
  end,
  examples = example.join { {
    { "by permit in good air", given = { confined_space = "yes", confined_space_permit = "yes",
      ["air.oxygen"] = "20.9 %" },
      expect = hazard { likelihood = 1, severity = 5 } },
    { "no permit", given = { confined_space = "yes", confined_space_permit = "no",
      ["air.oxygen"] = "20.9 %" },
      expect = hazard { likelihood = 2, severity = 5 } },
    { "thin air, no permit", given = { confined_space = "yes", confined_space_permit = "no",
      ["air.oxygen"] = "19 %" },
      expect = { stop {}, hazard { likelihood = 3, severity = 5 } } },
    { "permit not known", given = { confined_space = "yes", ["air.oxygen"] = "20.9 %" },
      expect = hazard { likelihood = 2, severity = 5 } },
    { "by permit from now on", given = { confined_space = "yes", confined_space_permit = "no",
      ["air.oxygen"] = "20.9 %" },
      with = { "entry-permit" }, expect = hazard { likelihood = 1, severity = 5 } },
    { "open", given = { confined_space = "no" }, expect = nothing },
  },
    example.edges({ confined_space = "yes", confined_space_permit = "yes" }, "air.oxygen", 5,
      { "20 %", 1, "19.9 %", 2, "19.5 %", 2, "19.4 %", { stop {}, hazard { likelihood = 2, severity = 5 } } }),
  },
}
