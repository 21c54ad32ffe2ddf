-- Boats, vehicles, moving water, ice, hanging performers and props.

local function young(i) return i.age < q"18 year" end

local function to_hold(site) return site.emergency.notice_time + site.emergency.reach_time end

rule {
  id = "place.propeller",
  title = "A propeller near people in the water",
  each = "craft",
  harm = "swimmers: cut",
  sources = { "common practice: guard or jet, kill cord worn, engine off near swimmers, lookout" },
  when = function (c) return c.engine ~= "none" end,
  assess = function (c)
    hazard {
      likelihood = scale.protection(scale.missing, { c.propeller_guard, c.kill_cord_worn,
        c.lookout },
        { c.swimmer_distance < q"10 m", c.speed > q"3 m/s" and not c.propeller_guard }),
      severity = 5,
      because = "engine runs with people in the water at {c.swimmer_distance}, at {c.speed}",
      who = "people in the water",
      controls = { "propeller-guard", "engine-off-near-swimmers", "electric-drive" },
    }
  end,
  examples = example.join { {
    { "guarded, cord worn, far off", given = { engine = "petrol", propeller_guard = "yes",
      kill_cord_worn = "yes", lookout = "yes", swimmer_distance = "25 m", speed = "5 m/s" },
      expect = hazard { likelihood = 1, severity = 5 } },
    { "open, close and fast", given = { engine = "petrol", propeller_guard = "no",
      kill_cord_worn = "no", lookout = "no", swimmer_distance = "4 m", speed = "6 m/s" },
      expect = hazard { likelihood = 5, severity = 5 } },
    { "guard not known", given = { engine = "diesel", kill_cord_worn = "yes", lookout = "no",
      swimmer_distance = "25 m", speed = "2 m/s" },
      expect = hazard { likelihood = 2, severity = 5 } },
    { "a guard", given = { engine = "petrol", propeller_guard = "no", kill_cord_worn = "no",
      lookout = "yes", swimmer_distance = "25 m", speed = "2 m/s" },
      with = { "propeller-guard" }, expect = hazard { likelihood = 1, severity = 5 } },
    { "no engine", given = { engine = "none" }, expect = nothing },
  },
    example.edges({ engine = "petrol", propeller_guard = "yes", kill_cord_worn = "yes", lookout = "no",
      speed = "2 m/s" }, "swimmer_distance", 5, { "10 m", 1, "9.8 m", 2 }),
    example.edges({ engine = "petrol", propeller_guard = "no", kill_cord_worn = "yes", lookout = "yes",
      swimmer_distance = "25 m" }, "speed", 5, { "3 m/s", 1, "3.1 m/s", 2 }),
  },
}

local afloat = { kind = "boat", aboard = "2", capacity = "20", load = "200 kg", load_rating = "500 kg",
  freeboard = "0.4 m", stability_tried = "yes", life_jackets_worn = "no" }

rule {
  id = "place.boat-load",
  title = "Boat or platform with too many people or too much gear",
  each = "craft",
  harm = "everyone aboard: capsize, swamped",
  worst = { likelihood = 5, severity = 4 },
  sources = { "builder's plate; common practice: tried with the load, people to one side" },
  when = function (c) return c.kind ~= "road-vehicle" and c.kind ~= "aircraft"
    and c.aboard >= 1 end,
  assess = function (c)
    if c.aboard > c.capacity or c.load > c.load_rating then
      stop { because = "{c.aboard} aboard of {c.capacity}, {c.load} of {c.load_rating}",
        controls = { "lighter-boat" } }
    end
    local likelihood = max(scale.limit(c.aboard, c.capacity * 0.75, c.capacity, c.capacity,
      c.capacity * 1.1),
                           scale.limit(c.load, c.load_rating * 0.67, c.load_rating * 0.8,
                           c.load_rating, c.load_rating * 1.1))
    likelihood = scale.within(likelihood + scale.count { c.freeboard < q"0.25 m",
      not c.stability_tried } - scale.count { c.life_jackets_worn })
    hazard {
      likelihood = likelihood, severity = 4,
      because = "{c.aboard} aboard of {c.capacity}, {c.load} of {c.load_rating}, side " ..
        "{c.freeboard} above the water",
      who = "everyone aboard", controls = { "lighter-boat" },
      also = { "life-jackets" },
    }
  end,
  examples = example.join { {
    { "half full", given = { kind = "boat", aboard = "2", capacity = "6", load = "200 kg",
      load_rating = "500 kg", freeboard = "0.4 m",
                stability_tried = "yes", life_jackets_worn = "yes" },
                expect = hazard { likelihood = 1, severity = 4 } },
    { "overfull", given = { kind = "raft", aboard = "9", capacity = "6", load = "200 kg",
      load_rating = "500 kg", freeboard = "0.1 m",
                stability_tried = "no", life_jackets_worn = "no" },
                expect = { stop {}, hazard { likelihood = 5, severity = 4 } } },
    { "near the plate, untried", given = { kind = "boat", aboard = "5", capacity = "6",
      load = "450 kg", load_rating = "500 kg", freeboard = "0.4 m",
                stability_tried = "no", life_jackets_worn = "yes" },
                expect = hazard { likelihood = 3, severity = 4 } },
    { "load not known", given = { kind = "boat", aboard = "2", capacity = "6",
      load_rating = "500 kg", freeboard = "0.4 m",
                stability_tried = "yes", life_jackets_worn = "yes" },
                expect = { stop {}, hazard { likelihood = 4, severity = 4 } } },
    { "two aboard", given = { kind = "raft", aboard = "9", capacity = "6", load = "700 kg",
      load_rating = "500 kg", freeboard = "0.4 m",
                stability_tried = "yes", life_jackets_worn = "yes" }, with = { "lighter-boat" },
                expect = hazard { likelihood = 1, severity = 4 } },
    { "a car", given = { kind = "road-vehicle" }, expect = nothing },
    { "nobody aboard", given = { kind = "boat", aboard = "0" }, expect = nothing },
  },
    example.edges(afloat, "aboard", 4,
      { "0", nothing, "1", 1, "15", 1, "16", 2, "20", 2,
        "21", { stop {}, hazard { likelihood = 4, severity = 4 } },
        "22", { stop {}, hazard { likelihood = 4, severity = 4 } },
        "23", { stop {}, hazard { likelihood = 5, severity = 4 } } }),
    example.edges(afloat, "load", 4,
      { "335 kg", 1, "340 kg", 2, "400 kg", 2, "410 kg", 3, "500 kg", 3,
        "510 kg", { stop {}, hazard { likelihood = 4, severity = 4 } },
        "550 kg", { stop {}, hazard { likelihood = 4, severity = 4 } },
        "560 kg", { stop {}, hazard { likelihood = 5, severity = 4 } } }),
    example.edges(afloat, "freeboard", 4, { "0.25 m", 1, "0.24 m", 2 }),
    example.edges(afloat, "kind", 4, { "jet-ski", 1, "road-vehicle", nothing, "aircraft", nothing }),
  },
}

local sinks = { occupied_under_water = "yes", air_carried = "yes", glass_removed = "no", exits = "2",
  recovery_line = "no", exit_width = "0.65 m", sink_time = "50 s" }

rule {
  id = "place.sinking-vehicle",
  title = "People in something that sinks",
  each = "craft",
  harm = "performers: shut in under water",
  sources = { "common practice: glass and fluids out, two ways out, gas fixed at every seat, " ..
    "each way out swum blind" },
  when = function (c) return c.occupied_under_water end,
  assess = function (c)
    if not c.air_carried and c.exits < 2 then
      stop { because = "{c.exits} ways out and no gas inside",
        controls = { "vehicle-made-ready" },
        also = { "dummy-for-held-shot" } }
    end
    hazard {
      likelihood = scale.protection(scale.frequent, { c.air_carried,
        c.glass_removed and c.fluids_drained, c.exits >= 2, c.recovery_line },
        { c.exit_width < q"0.55 m", c.sink_time < q"20 s" }),
      severity = 5, because = "{c.exits} openings of {c.exit_width}, under after {c.sink_time}",
      who = "performers inside",
      controls = { "vehicle-made-ready" },
      also = { "dummy-for-held-shot", "stunt-performer" },
    }
  end,
  examples = example.join { {
    { "made ready", given = { occupied_under_water = "yes", air_carried = "yes",
      glass_removed = "yes", fluids_drained = "yes", exits = "2",
                recovery_line = "yes", exit_width = "0.65 m", sink_time = "50 s" },
                expect = hazard { likelihood = 1, severity = 5 } },
    { "as it came from the street", given = { occupied_under_water = "yes", air_carried = "no",
      glass_removed = "no", exits = "1",
                recovery_line = "no", exit_width = "0.4 m", sink_time = "10 s" },
                expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "gas not known", given = { occupied_under_water = "yes", glass_removed = "yes",
      fluids_drained = "yes", exits = "1", recovery_line = "yes",
                exit_width = "0.65 m", sink_time = "50 s" },
                expect = { stop {}, hazard { likelihood = 2, severity = 5 } } },
    { "made ready now", given = { occupied_under_water = "yes", air_carried = "no", exits = "1",
      sink_time = "50 s" },
      with = { "vehicle-made-ready" }, expect = hazard { likelihood = 1, severity = 5 } },
    { "two ways out, no gas", given = { occupied_under_water = "yes", air_carried = "no",
      glass_removed = "yes", fluids_drained = "yes", exits = "2",
                recovery_line = "no", exit_width = "0.65 m", sink_time = "50 s" },
                expect = hazard { likelihood = 2, severity = 5 } },
    { "stays afloat", given = { occupied_under_water = "no" }, expect = nothing },
  },
    example.edges(sinks, "exits", 5, { "2", 2, "1", 3 }),
    example.edges(sinks, "exit_width", 5, { "0.55 m", 2, "0.54 m", 3 }),
    example.edges(sinks, "sink_time", 5, { "20 s", 2, "19.5 s", 3 }),
    example.edges(example.like(sinks, { glass_removed = "yes" }), "fluids_drained", 5, { "yes", 1, "no", 2 }),
  },
}

rule {
  id = "place.current",
  title = "Current stronger than the swimmer",
  each = "immersion",
  harm = "performer: carried off",
  sources = { "US Navy Diving Manual 6-5.3.5.1: scuba severely handicapped above 1.0 kn (0.51 " ..
    "m/s), weighted and tended to 1.5 kn (0.77 m/s)" },
  when = function (i) return i.task.flow_speed > q"0 m/s" and not i.can_stand end,
  assess = function (i)
    local likelihood = scale.limit(i.task.flow_speed, q"0.15 m/s", q"0.25 m/s", q"0.51 m/s",
      q"0.77 m/s")
    if i.line_tended then likelihood = scale.within(likelihood - 1) end
    hazard {
      likelihood = likelihood, severity = scale.vulnerable(scale.without_air(to_hold(i.site)),
        { young(i) }),
      because = "water moves at {flow}; held {hold} after trouble",
      values = { flow = i.task.flow_speed, hold = to_hold(i.site) },
      who = "1 person", controls = { "line-tended" },
      also = { "catch-net", "calm-water" },
    }
  end,
  examples = example.join { {
    { "still", given = { ["task.flow_speed"] = "0 m/s" }, expect = nothing },
    { "a slow stream, on a line", given = { ["task.flow_speed"] = "0.1 m/s", can_stand = "no",
      line_tended = "yes",
                ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
                age = "30 year" }, expect = hazard { likelihood = 1, severity = 3 } },
    { "a knot and a half, a child", given = { ["task.flow_speed"] = "0.8 m/s", can_stand = "no",
      line_tended = "no",
                ["site.emergency.notice_time"] = "60 s", ["site.emergency.reach_time"] = "60 s",
                age = "12 year" }, expect = hazard { likelihood = 5, severity = 5 } },
    { "not measured", given = { can_stand = "no", line_tended = "yes",
      ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
                age = "30 year" }, expect = hazard { likelihood = 4, severity = 3 } },
    { "on a line", given = { ["task.flow_speed"] = "0.4 m/s", can_stand = "no", line_tended = "no",
      ["site.emergency.notice_time"] = "3 s",
                ["site.emergency.reach_time"] = "5 s", age = "30 year" }, with = { "line-tended" },
                expect = hazard { likelihood = 2, severity = 3 } },
    { "stands", given = { ["task.flow_speed"] = "0.4 m/s", can_stand = "yes" }, expect = nothing },
  },
    example.edges({ can_stand = "no", line_tended = "no", ["site.emergency.notice_time"] = "3 s",
      ["site.emergency.reach_time"] = "5 s", age = "30 year" }, "task.flow_speed", 3,
      { "0.15 m/s", 1, "0.155 m/s", 2, "0.25 m/s", 2, "0.255 m/s", 3, "0.51 m/s", 3, "0.52 m/s", 4,
        "0.77 m/s", 4, "0.785 m/s", 5 }),
    example.edges({ can_stand = "no", line_tended = "no", ["site.emergency.notice_time"] = "3 s",
      ["site.emergency.reach_time"] = "5 s", ["task.flow_speed"] = "0.15 m/s" }, "age", 3,
      { "18 year", 1, "17.9 year", hazard { likelihood = 1, severity = 4 } }),
  },
}

rule {
  id = "place.animal",
  title = "Animals with people in the water",
  each = "task",
  harm = "performers: bitten, kicked, held under",
  sources = { "common practice: a handler for each animal, with the means to part it from people" },
  when = function (t) return t.involves_animal end,
  assess = function (t)
    hazard {
      likelihood = scale.protection(scale.missing, { t.animal_handler, t.rehearsed },
        { t.lifeguards < 1 }), severity = 4,
      because = "an animal and people in the same water", who = "everyone near it",
      controls = { "animal-handler", "lifeguard" },
    }
  end,
  examples = {
    { "handler, rehearsed", given = { involves = "animal", animal_handler = "yes",
      rehearsed = "yes", lifeguards = "1" }, expect = hazard { likelihood = 1, severity = 4 } },
    { "neither", given = { involves = "animal", animal_handler = "no", rehearsed = "no",
      lifeguards = "0" }, expect = hazard { likelihood = 4, severity = 4 } },
    { "not known", given = { involves = "animal", rehearsed = "yes", lifeguards = "1" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "a handler", given = { involves = "animal", animal_handler = "no", rehearsed = "yes",
      lifeguards = "1" }, with = { "animal-handler" },
      expect = hazard { likelihood = 1, severity = 4 } },
    { "none", given = { involves = "none" }, expect = nothing },
  },
}

rule {
  id = "place.ice",
  title = "People or gear on ice",
  each = "site",
  harm = "crew: break through",
  sources = { "Gold formula, 3.515 kg/cm2 the cautious of two published coefficients; white " ..
    "ice counts half" },
  when = function (s)
    local water = s.water_body
    local open = water == "lake" or water == "river" or water == "sea" or water == "quarry"
    return open and s.openwater.ice_load > q"0 kg" and s.openwater.ice_quality ~= "none"
  end,
  assess = function (s)
    local o = s.openwater
    local quality = o.ice_quality
    if quality == "melting" then stop { because = "people or gear on melting ice",
      controls = { "no-load-on-ice" } } end
    local strength = q"1.757 kg/cm2"
    if quality == "clear" then strength = q"3.515 kg/cm2" end
    local holds = calc.ice_capacity(o.ice_thickness, strength)
    hazard {
      likelihood = scale.reserve(holds, o.ice_load), severity = 5,
      because = "{thick} of ice holds {holds}; {load} stands on it",
      values = { thick = o.ice_thickness, holds = holds, load = o.ice_load },
      who = "everyone on the ice", controls = { "no-load-on-ice" },
    }
  end,
  examples = example.join { {
    { "a tank", given = { water_body = "tank" }, expect = nothing },
    { "no ice", given = { water_body = "lake", ["openwater.ice_load"] = "0 kg" },
      expect = nothing },
    { "thick and clear", given = { water_body = "lake", ["openwater.ice_load"] = "300 kg",
      ["openwater.ice_quality"] = "clear", ["openwater.ice_thickness"] = "30 cm" },
      expect = hazard { likelihood = 1, severity = 5 } },
    { "thin and white", given = { water_body = "lake", ["openwater.ice_load"] = "300 kg",
      ["openwater.ice_quality"] = "white", ["openwater.ice_thickness"] = "8 cm" },
      expect = hazard { likelihood = 5, severity = 5 } },
    { "melting", given = { water_body = "lake", ["openwater.ice_load"] = "300 kg",
      ["openwater.ice_quality"] = "melting", ["openwater.ice_thickness"] = "30 cm" },
      expect = stop {} },
    { "quality not known", given = { water_body = "lake", ["openwater.ice_load"] = "300 kg",
      ["openwater.ice_thickness"] = "15 cm" },
      expect = { stop {}, hazard { likelihood = 4, severity = 5 } } },
    { "nothing on it", given = { water_body = "lake", ["openwater.ice_load"] = "300 kg",
      ["openwater.ice_quality"] = "white", ["openwater.ice_thickness"] = "8 cm" },
      with = { "no-load-on-ice" }, expect = nothing },
  },
    -- ten centimetres hold 351 kg, or half of it: a third of that, and more
    example.edges({ water_body = "river", ["openwater.ice_quality"] = "clear",
      ["openwater.ice_thickness"] = "10 cm" }, "openwater.ice_load", 5, { "115 kg", 1, "119 kg", 2 }),
    example.edges({ water_body = "quarry", ["openwater.ice_quality"] = "white",
      ["openwater.ice_thickness"] = "10 cm" }, "openwater.ice_load", 5, { "57.5 kg", 1, "59.5 kg", 2 }),
    example.edges({ ["openwater.ice_quality"] = "clear", ["openwater.ice_thickness"] = "10 cm",
      ["openwater.ice_load"] = "200 kg" }, "water_body", 5, { "lake", 3, "sea", 3, "pool", nothing }),
  },
}

local hangs = { kind = "dry-for-wet", body_position = "upright", lowering_time = "20 s", spotters = "2",
  rest_time = "60 min" }

rule {
  id = "place.hanging",
  title = "Hanging in a harness or head down instead of in water",
  each = "rig",
  harm = "performer: faint in the harness, blood to the head",
  worst = { likelihood = 5, severity = 4 },
  sources = { "common practice: ten minutes hanging upright at most, five head down; a limp " ..
    "person on the floor at once" },
  when = function (r) return r.hang_time > q"0 min" and r.kind == "dry-for-wet" end,
  assess = function (r)
    local likelihood = scale.limit(r.hang_time, q"3 min", q"5 min", q"10 min", q"15 min")
    if r.body_position == "head-down" then likelihood = scale.limit(r.hang_time, q"1.5 min",
      q"3 min", q"5 min", q"8 min") end
    likelihood = scale.within(likelihood + scale.count { r.lowering_time > q"60 s", r.spotters < 1,
      r.rest_time < r.hang_time })
    hazard {
      likelihood = likelihood, severity = 4,
      because = "hangs {r.hang_time}, rests {r.rest_time}, on the floor in {r.lowering_time}",
      who = "1 performer", controls = { "shorter-hang", "quick-lowering" },
    }
  end,
  examples = example.join { {
    { "three minutes upright, watched", given = { kind = "dry-for-wet", hang_time = "3 min",
      body_position = "upright", lowering_time = "20 s", spotters = "2",
                rest_time = "15 min" }, expect = hazard { likelihood = 1, severity = 4 } },
    { "twelve minutes head down, alone", given = { kind = "dry-for-wet", hang_time = "12 min",
      body_position = "head-down", lowering_time = "90 s", spotters = "0",
                rest_time = "5 min" }, expect = hazard { likelihood = 5, severity = 4 } },
    { "position not known", given = { kind = "dry-for-wet", hang_time = "4 min",
      lowering_time = "20 s", spotters = "2", rest_time = "15 min" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "shorter", given = { kind = "dry-for-wet", hang_time = "12 min", body_position = "horizontal",
      lowering_time = "20 s", spotters = "2", rest_time = "15 min" },
      with = { "shorter-hang" }, expect = hazard { likelihood = 1, severity = 4 } },
    { "nobody hangs", given = { kind = "dry-for-wet", hang_time = "0 min" }, expect = nothing },
  },
    example.edges(hangs, "hang_time", 4,
      { "3 min", 1, "3.1 min", 2, "5 min", 2, "5.1 min", 3, "10 min", 3, "10.2 min", 4, "15 min", 4, "15.3 min", 5 }),
    example.edges(example.like(hangs, { body_position = "head-down" }), "hang_time", 4,
      { "1.5 min", 1, "1.53 min", 2, "3 min", 2, "3.1 min", 3, "5 min", 3, "5.1 min", 4, "8 min", 4, "8.2 min", 5 }),
    example.edges(example.like(hangs, { hang_time = "3 min" }), "lowering_time", 4, { "60 s", 1, "61 s", 2 }),
    example.edges(example.like(hangs, { hang_time = "3 min" }), "spotters", 4, { "1", 1, "0", 2 }),
    example.edges(example.like(hangs, { hang_time = "4 min" }), "kind", 4, { "dry-for-wet", 2, "lift", nothing }),
  },
}

local tethered = { air_chambers = "no", tethered = "yes", tether_rating = "5000 N",
  operator_sees_people = "yes", fail_state = "neutral" }

rule {
  id = "place.prop-rises",
  title = "A prop that rises or sinks on somebody",
  each = "prop",
  harm = "performers: struck, held down",
  sources = { "common practice: held by a tether of twice its lift or weight in water, fails " ..
    "to where nobody is" },
  when = function (p) return p.air_chambers or abs(p.net_buoyancy) > q"50 N" end,
  assess = function (p)
    local force = abs(p.net_buoyancy)
    local held = p.tethered and p.tether_rating >= force * 2
    local severity = 3
    if force > q"500 N" then severity = 4 end
    hazard {
      likelihood = scale.protection(scale.missing, { held,
        p.operator_sees_people or p.people_distance >= q"2 m" },
        { p.fail_state ~= "neutral" and not held }),
      severity = severity,
      because = "its lift in water is {p.net_buoyancy}; when it fails it is {p.fail_state}",
      who = "performers near it",
      controls = { "tethered-prop", "spotter-on-prop" },
      also = { "soft-prop" },
    }
  end,
  examples = example.join { {
    { "trimmed and solid", given = { air_chambers = "no", net_buoyancy = "-20..10 N" },
      expect = nothing },
    { "tethered twice over, seen", given = { air_chambers = "yes", net_buoyancy = "-200..150 N",
      tethered = "yes", tether_rating = "2000 N",
                operator_sees_people = "yes", fail_state = "sinking" },
                expect = hazard { likelihood = 1, severity = 3 } },
    { "loose and heavy, close by", given = { air_chambers = "no", net_buoyancy = "-900 N",
      tethered = "no", operator_sees_people = "no",
                people_distance = "0.5 m", fail_state = "sinking" },
                expect = hazard { likelihood = 4, severity = 4 } },
    { "weak tether, far off", given = { air_chambers = "no", net_buoyancy = "-300 N",
      tethered = "yes", tether_rating = "400 N", operator_sees_people = "no",
                people_distance = "5 m", fail_state = "neutral" },
                expect = hazard { likelihood = 2, severity = 3 } },
    { "lift not known", given = { air_chambers = "yes", tethered = "no",
      operator_sees_people = "yes", fail_state = "floating" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "tethered", given = { air_chambers = "yes", net_buoyancy = "-200..150 N", tethered = "no",
      tether_rating = "2000 N", operator_sees_people = "yes",
                fail_state = "sinking" }, with = { "tethered-prop" },
                expect = hazard { likelihood = 1, severity = 3 } },
  },
    example.edges(tethered, "net_buoyancy", 3,
      { "50 N", nothing, "51 N", 1, "500 N", 1, "510 N", hazard { likelihood = 1, severity = 4 } }),
    example.edges(example.like(tethered, { net_buoyancy = "-300 N" }), "tether_rating", 3, { "600 N", 1, "590 N", 2 }),
    example.edges(example.like(tethered, { net_buoyancy = "-300 N", operator_sees_people = "no" }),
      "people_distance", 3, { "2 m", 1, "1.95 m", 2 }),
  },
}

rule {
  id = "place.prop-electrics",
  title = "Electricity inside a prop under water",
  each = "prop",
  harm = "performers: shock; the prop moves by itself",
  sources = { "common practice: no electrics inside under water; BS 7671 s.702: at most 12 V " ..
    "alternating, 30 V direct" },
  when = function (p) return p.electrics_inside end,
  assess = function (p)
    if p.voltage > q"30 V" then
      stop { because = "{p.voltage} inside a prop under water",
        controls = { "prop-without-electrics" } }
    end
    hazard {
      likelihood = scale.limit(p.voltage, q"6 V", q"12 V", q"30 V", q"60 V"), severity = 5,
      because = "{p.voltage} inside a prop under water",
      who = "performers near it", controls = { "prop-without-electrics" },
    }
  end,
  examples = example.join { {
    { "driven by water", given = { electrics_inside = "no" }, expect = nothing },
    { "a five volt lamp", given = { electrics_inside = "yes", voltage = "5 V" },
      expect = hazard { likelihood = 1, severity = 5 } },
    { "mains motor", given = { electrics_inside = "yes", voltage = "230 V" },
      expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "voltage not known", given = { electrics_inside = "yes" },
      expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "driven by air instead", given = { electrics_inside = "yes", voltage = "230 V" },
      with = { "prop-without-electrics" }, expect = nothing },
  },
    example.edges({ electrics_inside = "yes" }, "voltage", 5,
      { "6 V", 1, "6.2 V", 2, "12 V", 2, "12.3 V", 3, "30 V", 3,
        "31 V", { stop {}, hazard { likelihood = 4, severity = 5 } },
        "60 V", { stop {}, hazard { likelihood = 4, severity = 5 } },
        "62 V", { stop {}, hazard { likelihood = 5, severity = 5 } } }),
  },
}

rule {
  id = "place.prop-contact",
  title = "A moving, hard or sharp prop meets people",
  each = "prop",
  harm = "performers: blow, cut, snag",
  sources = { "common practice: soft skin, no edges, moved only in sight of everyone near it" },
  when = function (p) return p.people_distance < q"1 m" end,
  assess = function (p)
    local likelihood = scale.protection(scale.missing, { p.soft_skin, p.operator_sees_people },
      { p.sharp_edges, p.speed > q"1 m/s" })
    if likelihood < 2 then return end
    hazard {
      likelihood = likelihood, severity = 3,
      because = "moves at {p.speed}, {p.people_distance} from people, stopped in {p.stop_time}",
      who = "performers near it", controls = { "soft-prop", "spotter-on-prop" },
    }
  end,
  examples = example.join { {
    { "far off", given = { people_distance = "5 m" }, expect = nothing },
    { "soft and seen", given = { people_distance = "0.2 m", soft_skin = "yes",
      operator_sees_people = "yes", sharp_edges = "no", speed = "0.5 m/s" }, expect = nothing },
    { "wreckage at speed", given = { people_distance = "0.2 m", soft_skin = "no",
      operator_sees_people = "no", sharp_edges = "yes", speed = "2 m/s" },
      expect = hazard { likelihood = 5, severity = 3 } },
    { "edges not felt over", given = { people_distance = "0.2 m", soft_skin = "yes",
      operator_sees_people = "yes", speed = "0.5 m/s" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "covered", given = { people_distance = "0.2 m", soft_skin = "no",
      operator_sees_people = "yes", sharp_edges = "yes", speed = "0.5 m/s" },
      with = { "soft-prop" }, expect = nothing },
  },
    example.edges({ soft_skin = "no", operator_sees_people = "yes", sharp_edges = "no", speed = "0.5 m/s" },
      "people_distance", 3, { "1 m", nothing, "0.98 m", 2 }),
    example.edges({ soft_skin = "no", operator_sees_people = "yes", sharp_edges = "no", people_distance = "0.2 m" },
      "speed", 3, { "1 m/s", 2, "1.03 m/s", 3 }),
  },
}
