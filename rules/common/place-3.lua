-- The tank as a structure, and what is electric or enclosed: walls, floors, windows, levels, power.

local function wet(site) return site.water_body ~= "none" end

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
             controls = { "lower-level" },
             also = { "engineer-signs" } }
    end
    hazard {
      likelihood = scale.limit(load, rating * 0.67, rating * 0.8, rating, rating * 1.1),
      severity = 5,
      because = "water and tank press {load} on a floor rated for {rating}",
      values = { load = load, rating = rating },
      who = "everyone in and below the tank", controls = { "lower-level" },
      also = { "engineer-signs" },
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
    example.edges({ ["basin.depth"] = "1.2 m", ["basin.length"] = "7 m", ["basin.width"] = "5 m",
      ["structure.tank_mass"] = "2600 kg", ["structure.floor_load_rating"] = "15 kPa" }, "water_body", 5,
      { "tank", 3, "stage-pool", 3, "flooded-set", 3, "pool", nothing }),
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
             controls = { "lower-level" },
             also = { "engineer-signs" } }
    end
    hazard {
      likelihood = scale.limit(thrust, rated * 0.67, rated * 0.8, rated, rated * 1.1), severity = 5,
      because = "the water pushes {thrust}; rated for {rated}",
      values = { thrust = thrust, rated = rated },
      who = "everyone at the window", controls = { "lower-level" },
      also = { "engineer-signs" },
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
    example.edges({ ["plant.level_change_while_occupied"] = "no", ["plant.level_lock_out"] = "no" }, "water_body", 4,
      { "pool", 2, "stage-pool", 2, "flooded-set", 2, "lake", nothing }),
    example.edges({ water_body = "tank", ["plant.level_change_while_occupied"] = "yes",
      ["plant.level_rate"] = "0.1 m/h" }, "plant.level_lock_out", 4, { "yes", 1, "no", 2 }),
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
      controls = { "battery-in-water" },
      also = { "isolator-manned" },
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
      controls = { "mains-moved-back", "rcd-30-ma", "isolator-manned" },
      also = { "battery-in-water" },
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
    example.edges(mains, "water_body", 5, { "lake", 2, "none", nothing }),
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
      controls = { "lamps-double-hung" },
      also = { "clear-path" },
    }
  end,
  examples = example.join { {
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
    { { "not hung twice, nobody above", given = { water_body = "tank", ["power.lamps_secured"] = "no",
        ["deck.toe_boards"] = "yes", ["deck.people_overhead"] = "no" },
        expect = hazard { likelihood = 2, severity = 4 } } },
    example.edges({ water_body = "tank", ["power.lamps_secured"] = "yes", ["deck.people_overhead"] = "yes" },
      "deck.toe_boards", 4, { "yes", 2, "no", 3 }),
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
