-- Weather, open water, the dark, the public.

local function open_water(site)
  local body = site.water_body
  return body == "lake" or body == "river" or body == "sea" or body == "quarry"
end

local function to_surface(site)
  local e = site.emergency
  return e.notice_time + e.reach_time + e.surface_time
end

rule {
  id = "outside.lightning",
  title = "Lightning while people are in or by the water",
  each = "site",
  harm = "everyone outdoors: struck, or stunned and drowned",
  sources = { "NWS and NOAA 30-30 rule: out at 30 s from flash to bang, wait 30 minutes" },
  limits = { out = { at_least = "30 s" } },
  when = function (s) return not s.indoor end,
  assess = function (s, limit)
    local a = s.air
    if a.flash_to_bang <= limit.out then
      stop { because = "thunder {bang} after the flash: a storm {far} away",
        controls = { "lightning-shelter" },
             values = { bang = a.flash_to_bang, far = calc.lightning_distance(a.flash_to_bang) } }
    end
    local likelihood = scale.minimum(a.flash_to_bang, q"180 s", q"90 s", q"60 s", q"30 s")
    if not a.lightning_plan then likelihood = scale.within(likelihood + 1) end
    hazard {
      likelihood = likelihood, severity = 5, who = "everyone outdoors",
      because = "thunder {bang} after the flash", values = { bang = a.flash_to_bang },
      controls = { "lightning-shelter" },
    }
  end,
  examples = example.join { {
    { "none heard, a plan",
      given = { indoor = "no", ["air.flash_to_bang"] = "600 s", ["air.lightning_plan"] = "yes" },
      expect = hazard { likelihood = 1, severity = 5 } },
    { "forty seconds, no plan",
      given = { indoor = "no", ["air.flash_to_bang"] = "40 s", ["air.lightning_plan"] = "no" },
      expect = hazard { likelihood = 5, severity = 5 } },
    { "twenty seconds",
      given = { indoor = "no", ["air.flash_to_bang"] = "20 s", ["air.lightning_plan"] = "yes" },
      expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "not known", given = { indoor = "no", ["air.lightning_plan"] = "yes" },
      expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "a shelter",
      given = { indoor = "no", ["air.flash_to_bang"] = "600 s", ["air.lightning_plan"] = "no" },
      with = { "lightning-shelter" }, expect = hazard { likelihood = 1, severity = 5 } },
    { "under a roof", given = { indoor = "yes" }, expect = nothing },
  },
    example.edges({ indoor = "no", ["air.lightning_plan"] = "yes" }, "air.flash_to_bang", 5,
      { "180 s", 1, "177 s", 2, "90 s", 2, "88 s", 3, "60 s", 3, "59 s", 4, "31 s", 4,
        "30 s", { stop {}, hazard { likelihood = 4, severity = 5 } },
        "29 s", { stop {}, hazard { likelihood = 5, severity = 5 } } }),
    example.edges({ indoor = "no", ["air.flash_to_bang"] = "180 s" }, "air.lightning_plan", 5, { "yes", 1, "no", 2 }),
  },
}

local calm = { ["site.water_body"] = "lake", wind_forecast = "3 m/s", wave_forecast = "0.1 m",
  ["site.openwater.wind_limit"] = "10 m/s", ["site.openwater.wave_limit"] = "0.5 m",
  ["site.openwater.current"] = "0.05 m/s", ["site.openwater.current_limit"] = "0.25 m/s" }

rule {
  id = "outside.wind-and-water",
  title = "Wind, waves or current near the plan's limits",
  each = "day",
  harm = "everyone in or on the water: swept off, out of reach",
  worst = { likelihood = 5, severity = 4 },
  sources = { "the plan's own limits; common practice: the one who calls the stop is named" },
  when = function (d) return open_water(d.site) end,
  assess = function (d)
    local o = d.site.openwater
    local likelihood = max(
      scale.limit(d.wind_forecast, o.wind_limit * 0.6, o.wind_limit * 0.8, o.wind_limit,
        o.wind_limit * 1.3),
      scale.limit(d.wave_forecast, o.wave_limit * 0.6, o.wave_limit * 0.8, o.wave_limit,
        o.wave_limit * 1.3),
      scale.limit(o.current, o.current_limit * 0.6, o.current_limit * 0.8, o.current_limit,
        o.current_limit * 1.3))
    hazard {
      likelihood = likelihood, severity = 4, who = "everyone in or on the water",
      because = "gusts {d.wind_forecast} of {wind}, waves {d.wave_forecast} of {wave}, current " ..
        "{current} of {most}",
      values = { wind = o.wind_limit, wave = o.wave_limit, current = o.current,
        most = o.current_limit },
      controls = { "calm-water" },
      also = { "stop-line", "rescue-boat" },
    }
  end,
  examples = example.join { {
    { "calm",
      given = { ["site.water_body"] = "lake", wind_forecast = "3 m/s", wave_forecast = "0.1 m",
                ["site.openwater.wind_limit"] = "8 m/s", ["site.openwater.wave_limit"] = "0.5 m",
                ["site.openwater.current"] = "0.05 m/s",
                ["site.openwater.current_limit"] = "0.25 m/s" },
      expect = hazard { likelihood = 1, severity = 4 } },
    { "a gale",
      given = { ["site.water_body"] = "sea", wind_forecast = "20 m/s", wave_forecast = "0.1 m",
                ["site.openwater.wind_limit"] = "8 m/s", ["site.openwater.wave_limit"] = "0.5 m",
                ["site.openwater.current"] = "0.05 m/s",
                ["site.openwater.current_limit"] = "0.25 m/s" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "no forecast of waves",
      given = { ["site.water_body"] = "river", wind_forecast = "3 m/s",
        ["site.openwater.wind_limit"] = "8 m/s",
                ["site.openwater.wave_limit"] = "0.5 m", ["site.openwater.current"] = "0.05 m/s",
                ["site.openwater.current_limit"] = "0.25 m/s" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "waiting for calm",
      given = { ["site.water_body"] = "quarry", wind_forecast = "20 m/s", wave_forecast = "1 m",
                ["site.openwater.wind_limit"] = "9 m/s", ["site.openwater.wave_limit"] = "0.5 m",
                ["site.openwater.current"] = "0.5 m/s",
                ["site.openwater.current_limit"] = "0.25 m/s" },
      with = { "calm-water" }, expect = hazard { likelihood = 1, severity = 4 } },
    { "a tank", given = { ["site.water_body"] = "tank" }, expect = nothing },
  },
    example.edges(calm, "wind_forecast", 4,
      { "6 m/s", 1, "6.1 m/s", 2, "8 m/s", 2, "8.2 m/s", 3, "10 m/s", 3, "10.2 m/s", 4, "13 m/s", 4, "13.3 m/s", 5 }),
    example.edges(calm, "wave_forecast", 4,
      { "0.3 m", 1, "0.31 m", 2, "0.4 m", 2, "0.41 m", 3, "0.5 m", 3, "0.52 m", 4, "0.65 m", 4, "0.67 m", 5 }),
    example.edges(calm, "site.openwater.current", 4,
      { "0.15 m/s", 1, "0.155 m/s", 2, "0.2 m/s", 2, "0.205 m/s", 3, "0.25 m/s", 3, "0.26 m/s", 4,
        "0.325 m/s", 4, "0.335 m/s", 5 }),
  },
}

rule {
  id = "outside.stop-line",
  title = "Nobody is named to stop the work for weather, current or cold",
  each = "task",
  harm = "everyone in the water: the work goes on past its limits",
  sources = { "common practice: limits set beforehand, called by one named person" },
  when = function (t) return open_water(t.site) or not t.site.indoor end,
  assess = function (t)
    if t.stop_line then return end
    hazard {
      likelihood = scale.protection(scale.missing, { t.anyone_can_stop },
        { t.day.forecast ~= "settled" }),
      severity = 3, who = "everyone in the water",
      because = "no limits of wind, wave, current, light and cold; forecast {day.forecast}",
      controls = { "stop-line" },
    }
  end,
  examples = {
    { "limits set", given = { ["site.indoor"] = "no", ["site.water_body"] = "lake",
      stop_line = "yes" },
      expect = nothing },
    { "none, settled, anyone may stop",
      given = { ["site.indoor"] = "no", ["site.water_body"] = "tank", stop_line = "no",
                anyone_can_stop = "yes", ["day.forecast"] = "settled" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "none, a gale coming",
      given = { ["site.water_body"] = "lake", stop_line = "no", anyone_can_stop = "no",
                ["day.forecast"] = "gale" },
      expect = hazard { likelihood = 4, severity = 3 } },
    { "not known",
      given = { ["site.water_body"] = "lake", anyone_can_stop = "yes",
        ["day.forecast"] = "settled" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "set now", given = { ["site.water_body"] = "lake", stop_line = "no" }, with = { "stop-line" },
      expect = nothing },
    { "under a roof", given = { ["site.water_body"] = "tank", ["site.indoor"] = "yes" },
      expect = nothing },
  },
}

rule {
  id = "outside.rising-water",
  title = "Tide, flood or a release from upstream",
  each = "site",
  harm = "everyone in or by the water: cut off, swept away",
  worst = { likelihood = 5, severity = 4 },
  sources = { "common practice: tide table and gauge read for the day, word from whoever runs " ..
    "the dam" },
  when = open_water,
  assess = function (s)
    local o = s.openwater
    local dam = o.dam_upstream and not o.dam_release_agreed
    local rate = scale.limit(o.level_rise, q"0.05 m/h", q"0.1 m/h", q"0.3 m/h", q"1 m/h")
    local tide = scale.limit(o.tide_range, q"1 m", q"2 m", q"4 m", q"6 m")
    local likelihood = max(rate, tide)
    if dam then likelihood = scale.within(max(likelihood, 3) + 1) end
    hazard {
      likelihood = likelihood, severity = 4, who = "everyone in or by the water",
      because = "level rises {rise}, tide {tide}; a release upstream may be agreed with nobody",
      values = { rise = o.level_rise, tide = o.tide_range },
      controls = { "agreed-with-dam" },
      also = { "stop-line" },
    }
  end,
  examples = example.join { {
    { "a lake without a dam",
      given = { water_body = "lake", ["openwater.dam_upstream"] = "no",
        ["openwater.level_rise"] = "0 m/h",
                ["openwater.tide_range"] = "0 m" }, expect = hazard { likelihood = 1,
                severity = 4 } },
    { "below a dam, nobody asked",
      given = { water_body = "river", ["openwater.dam_upstream"] = "yes",
                ["openwater.dam_release_agreed"] = "no", ["openwater.level_rise"] = "0 m/h",
                ["openwater.tide_range"] = "0 m" }, expect = hazard { likelihood = 4,
                severity = 4 } },
    { "range of the tide not known",
      given = { water_body = "sea", ["openwater.dam_upstream"] = "no",
        ["openwater.level_rise"] = "0 m/h" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "agreed",
      given = { water_body = "river", ["openwater.dam_upstream"] = "yes",
        ["openwater.level_rise"] = "0 m/h",
                ["openwater.tide_range"] = "0 m" },
      with = { "agreed-with-dam" }, expect = hazard { likelihood = 1, severity = 4 } },
    { "a tank", given = { water_body = "tank" }, expect = nothing },
  },
    example.edges({ water_body = "sea", ["openwater.dam_upstream"] = "no", ["openwater.tide_range"] = "0 m" },
      "openwater.level_rise", 4,
      { "0.05 m/h", 1, "0.051 m/h", 2, "0.1 m/h", 2, "0.102 m/h", 3, "0.3 m/h", 3, "0.31 m/h", 4,
        "1 m/h", 4, "1.03 m/h", 5 }),
    example.edges({ water_body = "sea", ["openwater.dam_upstream"] = "no", ["openwater.level_rise"] = "0 m/h" },
      "openwater.tide_range", 4,
      { "1 m", 1, "1.03 m", 2, "2 m", 2, "2.05 m", 3, "4 m", 3, "4.1 m", 4, "6 m", 4, "6.2 m", 5 }),
  },
}

rule {
  id = "outside.remote",
  title = "Far from help, or out of reach of a telephone",
  each = "site",
  harm = "whoever is hurt: hours from hospital",
  sources = { "common practice: an ambulance on site when the nearest is more than a quarter " ..
    "of an hour away" },
  assess = function (s)
    local e = s.emergency
    local wait = e.call_time + e.ambulance_time
    local likelihood = scale.limit(wait + e.hospital_time, q"30 min", q"60 min", q"120 min",
      q"240 min")
    likelihood = likelihood - scale.count { e.ambulance_on_site,
      e.medic_on_site and e.oxygen_on_site }
    if not e.phone_coverage then likelihood = likelihood + 2 end
    hazard {
      likelihood = scale.within(likelihood), severity = 4, who = "whoever is hurt",
      because = "ambulance there {wait} after it is called, hospital {drive} further",
      values = { wait = wait, drive = e.hospital_time },
      controls = { "ambulance-on-site", "radio-at-water" },
    }
  end,
  examples = example.join { {
    { "in town, a medic with oxygen",
      given = { ["emergency.call_time"] = "30 s", ["emergency.ambulance_time"] = "12 min",
                ["emergency.hospital_time"] = "20 min", ["emergency.ambulance_on_site"] = "no",
                ["emergency.medic_on_site"] = "yes", ["emergency.oxygen_on_site"] = "yes",
                ["emergency.phone_coverage"] = "yes" }, expect = hazard { likelihood = 1,
                severity = 4 } },
    { "up a valley with no telephone",
      given = { ["emergency.call_time"] = "300 s", ["emergency.ambulance_time"] = "60 min",
                ["emergency.hospital_time"] = "90 min", ["emergency.ambulance_on_site"] = "no",
                ["emergency.medic_on_site"] = "no", ["emergency.oxygen_on_site"] = "no",
                ["emergency.phone_coverage"] = "no" }, expect = hazard { likelihood = 5,
                severity = 4 } },
    { "coverage not tried",
      given = { ["emergency.call_time"] = "30 s", ["emergency.ambulance_time"] = "12 min",
                ["emergency.hospital_time"] = "20 min", ["emergency.ambulance_on_site"] = "no",
                ["emergency.medic_on_site"] = "yes", ["emergency.oxygen_on_site"] = "yes" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "a radio",
      given = { ["emergency.call_time"] = "30 s", ["emergency.ambulance_time"] = "12 min",
                ["emergency.hospital_time"] = "20 min", ["emergency.ambulance_on_site"] = "no",
                ["emergency.medic_on_site"] = "yes", ["emergency.oxygen_on_site"] = "yes",
                ["emergency.phone_coverage"] = "no" }, with = { "radio-at-water" },
      expect = hazard { likelihood = 1, severity = 4 } },
  },
    -- ten minutes, and the way to hospital
    example.edges({ ["emergency.call_time"] = "30 s", ["emergency.ambulance_time"] = "9.5 min",
      ["emergency.ambulance_on_site"] = "no", ["emergency.medic_on_site"] = "no",
      ["emergency.phone_coverage"] = "yes" }, "emergency.hospital_time", 4,
      { "20 min", 1, "21 min", 2, "50 min", 2, "51 min", 3, "110 min", 3, "112 min", 4, "230 min", 4, "235 min", 5 }),
    example.edges({ ["emergency.call_time"] = "30 s", ["emergency.ambulance_time"] = "9.5 min",
      ["emergency.hospital_time"] = "50 min", ["emergency.medic_on_site"] = "no",
      ["emergency.phone_coverage"] = "yes" }, "emergency.ambulance_on_site", 4, { "no", 2, "yes", 1 }),
    example.edges({ ["emergency.call_time"] = "30 s", ["emergency.ambulance_time"] = "9.5 min",
      ["emergency.hospital_time"] = "50 min", ["emergency.ambulance_on_site"] = "no",
      ["emergency.medic_on_site"] = "yes", ["emergency.phone_coverage"] = "yes" }, "emergency.oxygen_on_site", 4,
      { "no", 2, "yes", 1 }),
  },
}

rule {
  id = "outside.dark",
  title = "Too dark to see and count the people in the water",
  each = "task",
  harm = "everyone in the water: lost from sight",
  sources = { "common practice: everyone in dark water carries a light, heads are counted " ..
    "against a board" },
  when = function (t) return t.light_level < q"20 lux" end,
  assess = function (t)
    hazard {
      likelihood = scale.protection(scale.missing,
        { t.light_sticks, t.head_counted, t.site.emergency.emergency_lighting },
        { t.light_level < q"2 lux" }),
      severity = 4, who = "everyone in the water",
      because = "{t.light_level} on the water", controls = { "light-sticks", "tally-board",
        "work-lights" },
    }
  end,
  examples = example.join { {
    { "lit", given = { light_level = "200 lux" }, expect = nothing },
    { "night scene, lights on people, counted",
      given = { light_level = "5..10 lux", light_sticks = "yes", head_counted = "yes",
                ["site.emergency.emergency_lighting"] = "yes" },
                expect = hazard { likelihood = 1, severity = 4 } },
    { "black, nothing",
      given = { light_level = "0..1 lux", light_sticks = "no", head_counted = "no",
                ["site.emergency.emergency_lighting"] = "no" },
                expect = hazard { likelihood = 4, severity = 4 } },
    { "not measured",
      given = { light_sticks = "no", head_counted = "yes",
        ["site.emergency.emergency_lighting"] = "yes" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "work lights on",
      given = { light_level = "0..1 lux", light_sticks = "no" }, with = { "work-lights" },
      expect = nothing },
  },
    example.edges({ light_sticks = "no", head_counted = "no", ["site.emergency.emergency_lighting"] = "no" },
      "light_level", 4, { "20 lux", nothing, "19.5 lux", 3, "2 lux", 3, "1.95 lux", 4 }),
  },
}

rule {
  id = "outside.public",
  title = "The public, or other boats, at the working place",
  each = "site",
  harm = "swimmers and public: run down, or drawn in",
  sources = { "common practice: cordon on land, buoys or a guard boat on the water; a diving " ..
    "flag (29 CFR 1910.421(h))" },
  assess = function (s)
    local traffic = false
    if open_water(s) then
      local boats = s.openwater.boat_traffic
      traffic = boats ~= "none" and not s.openwater.traffic_kept_out
    end
    if s.public_excluded and not traffic then return end
    hazard {
      likelihood = scale.protection(scale.missing, { s.public_excluded }, { traffic }),
      severity = traffic and 5 or 3, who = "swimmers and public",
      because = "people or boats that do not belong to the production can come to the water",
      controls = { "cordon" },
    }
  end,
  examples = {
    { "walls round it", given = { water_body = "tank", public_excluded = "yes" },
      expect = nothing },
    { "a park without a cordon", given = { water_body = "pool", public_excluded = "no" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "a harbour",
      given = { water_body = "sea", public_excluded = "no", ["openwater.boat_traffic"] = "busy",
                ["openwater.traffic_kept_out"] = "no" },
                expect = hazard { likelihood = 4, severity = 5 } },
    { "traffic not known", given = { water_body = "lake", public_excluded = "yes" },
      expect = hazard { likelihood = 3, severity = 5 } },
    { "cordon and guard boat",
      given = { water_body = "lake", public_excluded = "no", ["openwater.boat_traffic"] = "busy" },
      with = { "cordon" }, expect = nothing },
  },
}

rule {
  id = "outside.rescue-boat",
  title = "Away from the shore without a rescue boat",
  each = "site",
  harm = "swimmers: out of reach",
  sources = { "29 CFR 1926.106(d): at least one lifesaving skiff at once available; OSHA " ..
    "letter 1991 (from memory): 3 to 4 minutes from the fall" },
  when = function (s) return open_water(s) and s.openwater.shore_distance > q"15 m" end,
  assess = function (s)
    local o = s.openwater
    local likelihood = 5
    if o.rescue_boat then likelihood = scale.limit(o.rescue_boat_time, q"45 s", q"90 s", q"180 s",
      q"240 s") end
    hazard {
      likelihood = likelihood, severity = 4, who = "everyone in the water",
      because = "{far} from firm ground; a rescue boat is there in {time}, or there is none",
      values = { far = o.shore_distance, time = o.rescue_boat_time },
      controls = { "rescue-boat" },
      also = { "life-jackets" },
    }
  end,
  examples = example.join { {
    { "manned, half a minute",
      given = { water_body = "lake", ["openwater.shore_distance"] = "80 m",
        ["openwater.rescue_boat"] = "yes",
                ["openwater.rescue_boat_time"] = "30 s" },
                expect = hazard { likelihood = 1, severity = 4 } },
    { "none",
      given = { water_body = "sea", ["openwater.shore_distance"] = "80 m",
        ["openwater.rescue_boat"] = "no" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "never timed",
      given = { water_body = "lake", ["openwater.shore_distance"] = "80 m",
        ["openwater.rescue_boat"] = "yes" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "a boat", given = { water_body = "lake", ["openwater.shore_distance"] = "80 m",
      ["openwater.rescue_boat"] = "no" },
      with = { "rescue-boat" }, expect = hazard { likelihood = 1, severity = 4 } },
    { "at the bank", given = { water_body = "lake", ["openwater.shore_distance"] = "5 m" },
      expect = nothing },
    { "a tank", given = { water_body = "tank" }, expect = nothing },
  },
    example.edges({ water_body = "lake", ["openwater.rescue_boat"] = "no" }, "openwater.shore_distance", 4,
      { "15 m", nothing, "15.3 m", 5 }),
    example.edges({ water_body = "lake", ["openwater.shore_distance"] = "80 m", ["openwater.rescue_boat"] = "yes" },
      "openwater.rescue_boat_time", 4,
      { "45 s", 1, "46 s", 2, "90 s", 2, "92 s", 3, "180 s", 3, "184 s", 4, "240 s", 4, "246 s", 5 }),
  },
}

rule {
  id = "outside.bottom",
  title = "The bottom is not known",
  each = "site",
  harm = "swimmers: cuts, held by weed or nets, drop-off",
  sources = { "common practice: divers look over bottom and edges before anybody else goes in" },
  when = function (s) return s.water_body ~= "none" end,
  assess = function (s)
    local open, sharp, held, looked = open_water(s), s.basin.sharp_bottom, false, true
    if open then held, looked = s.openwater.weed_or_nets, s.openwater.bottom_surveyed end
    if looked and not sharp and not held then return end
    local severity = 3
    if held then severity = scale.without_air(to_surface(s)) end
    hazard {
      likelihood = scale.protection(scale.missing, { looked }, { sharp, held }),
      severity = severity, who = "everyone in the water",
      because = "the bottom is not looked over, or has sharp or holding things on it",
      controls = { "bottom-surveyed" },
    }
  end,
  examples = example.join { {
    { "a clean tank", given = { water_body = "tank", ["basin.sharp_bottom"] = "no" },
      expect = nothing },
    { "broken tiles", given = { water_body = "pool", ["basin.sharp_bottom"] = "yes" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "nets in a quarry, nobody looked",
      given = { water_body = "quarry", ["basin.sharp_bottom"] = "yes",
        ["openwater.weed_or_nets"] = "yes",
                ["openwater.bottom_surveyed"] = "no", ["emergency.notice_time"] = "60 s",
                ["emergency.reach_time"] = "60 s", ["emergency.surface_time"] = "20 s" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "not surveyed",
      given = { water_body = "lake", ["basin.sharp_bottom"] = "no",
        ["openwater.weed_or_nets"] = "no" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "looked over", given = { water_body = "lake" }, with = { "bottom-surveyed" },
      expect = nothing },
    { "no water body", given = { water_body = "none" }, expect = nothing },
  },
    example.edges({ water_body = "lake", ["basin.sharp_bottom"] = "no", ["openwater.bottom_surveyed"] = "yes",
      ["emergency.notice_time"] = "5 s", ["emergency.reach_time"] = "5 s", ["emergency.surface_time"] = "10 s" },
      "openwater.weed_or_nets", 3, { "no", nothing, "yes", 3 }),
  },
}
