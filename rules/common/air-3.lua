-- Breathing gas: how long it lasts, how pure it is, where it is drawn from.

-- The last date of the schedule.
local function last_day(production)
  local latest = nil
  for _, day in ipairs(production.days) do
    latest = latest and max(latest, day.date) or day.date
  end
  return latest
end

local plan = {
  ["site.emergency.notice_time"] = "5 s", ["site.emergency.reach_time"] = "5 s",
  ["site.emergency.surface_time"] = "10 s", ["site.emergency.deck_time"] = "15 s",
  ["site.emergency.breath_time"] = "10 s", ["site.altitude"] = "0 m",
    ["site.water.temperature"] = "28 degC",
}

rule {
  id = "air.endurance",
  title = "The gas does not last the planned time with its reserve",
  each = "immersion",
  harm = "performer or diver: out of gas under water",
  sources = {
    "US Navy Diving Manual Rev 4: gas used grows with absolute pressure; duration by free gas and rate",
    "46 CFR 197.340: primary supply for the planned dive, reserve enough to reach the surface",
  },
  when = function(i)
    return i.breathes_gas and i.supply ~= nil and i.supply.kind ~= "compressor"
  end,
  assess = function(i)
    local supply = i.supply
    local lasts = calc.gas_endurance(supply.cylinder_volume * supply.cylinders, supply.pressure,
      supply.reserve_pressure, supply.surface_consumption, pressure.ambient(i.site, i.depth), supply.users)
    local watched = supply.pressure_logged or supply.low_pressure_alarm
    local surfaced = rescue.to_surface(i.site.emergency)
    hazard {
      likelihood = scale.protection(scale.reserve(lasts, i.time), { watched }),
      severity = scale.without_air(surfaced),
      because = "{lasts} of gas down to the reserve for {i.time} at {i.depth}",
      values = { lasts = lasts, surfaced = surfaced },
      controls = { "pressure-log", "low-pressure-alarm", "shorter-bottom-time", "depth-cap" },
      also = { "second-bank", "second-air-source" },
      who = "everyone on that supply",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { breathes_gas = "yes", depth = "3 m", time = "30 min",
      ["supply.kind"] = "surface-supplied",
      ["supply.cylinder_volume"] = "50 L", ["supply.cylinders"] = "2", ["supply.pressure"] = "200 bar",
      ["supply.reserve_pressure"] = "50 bar", ["supply.surface_consumption"] = "25 L/min",
        ["supply.users"] = "2",
      ["supply.pressure_logged"] = "yes", ["supply.low_pressure_alarm"] = "no" })
    return example.join { {
      { "breathes no gas", given = like(base, { breathes_gas = "no" }), expect = nothing },
      { "no supply", given = { breathes_gas = "yes", supply = "none" }, expect = nothing },
      { "fed by a compressor", given = like(base, { ["supply.kind"] = "compressor" }), expect = nothing },
      { "a large bank", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "nobody reads the gauge", given = like(base,
        { time = "130 min", ["supply.pressure_logged"] = "no" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "too many on it", given = like(base,
        { ["supply.users"] = "12", ["supply.pressure_logged"] = "no" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "pressure not known", given = like(base, { ["supply.pressure"] = "?" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "with a log", given = like(base, { time = "130 min", ["supply.pressure_logged"] = "no" }),
        with = { "pressure-log" }, expect = hazard { likelihood = 2, severity = 3 } },
    },
      example.edges(like(base, { time = "130 min", ["supply.pressure_logged"] = "no" }), "supply.low_pressure_alarm", 3,
        { "no", 3, "yes", 2 }),
    }
  end)(),
}

local purity_controls = { "air-test", "filter-change" }
local purity_also = { "intake-in-clean-air", "electric-compressor", "carbon-monoxide-alarm" }

rule {
  id = "air.carbon-monoxide",
  title = "Carbon monoxide in the breathing gas",
  each = "supply",
  harm = "everyone on that supply: poisoning, loss of consciousness under water",
  sources = {
    "EN 12021:2014: 5 ppm",
    "CGA G-7.1 grade E: 10 ppm; 29 CFR 1910.430(b)(3): 20 ppm",
  },
  assess = function(s)
    local rescued = rescue.to_breath(s.site.emergency)
    if s.carbon_monoxide > q"20 ppm" then
      stop { because = "{s.carbon_monoxide} of carbon monoxide: above every limit for diving air",
        controls = purity_controls, also = purity_also }
    end
    hazard {
      likelihood = scale.limit(s.carbon_monoxide, q"3 ppm", q"4 ppm", q"5 ppm", q"10 ppm"),
      severity = scale.without_air(rescued),
      because = "{s.carbon_monoxide} of carbon monoxide at the surface, more in effect at depth; limit 5 ppm",
      controls = purity_controls, also = purity_also, who = "everyone on that supply",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { carbon_monoxide = "2 ppm" })
    return example.join { {
      { "clean", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "at the limit", given = like(base, { carbon_monoxide = "5 ppm" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "exhaust drawn in", given = like(base, { carbon_monoxide = "40 ppm" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 3 } } },
      { "not tested", given = like(base, { carbon_monoxide = "?" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 3 } } },
      { "filter changed", given = like(base, { carbon_monoxide = "40 ppm" }), with = { "filter-change" },
        expect = hazard { likelihood = 1, severity = 3 } },
    },
      example.edges(base, "carbon_monoxide", 3,
        { "3 ppm", 1, "3.1 ppm", 2, "4 ppm", 2, "4.1 ppm", 3, "5 ppm", 3, "5.1 ppm", 4, "10 ppm", 4, "10.3 ppm", 5,
          "20 ppm", 5, "20.5 ppm", { stop {}, hazard { likelihood = 5, severity = 3 } } }),
    }
  end)(),
}

rule {
  id = "air.purity",
  title = "Carbon dioxide, oil or odour in the breathing gas",
  each = "supply",
  harm = "everyone on that supply: headache, fast breathing, lung irritation",
  sources = {
    "EN 12021:2014: carbon dioxide 500 ppm, oil 0.5 mg/m3",
    "29 CFR 1910.430(b)(3): carbon dioxide 1000 ppm, oil mist 5 mg/m3",
    "29 CFR 1910.430(b)(3): no pronounced odour (from memory: check the text)",
  },
  worst = { likelihood = 5, severity = 3 },
  assess = function(s)
    hazard {
      likelihood = scale.limit(s.carbon_dioxide, q"450 ppm", q"480 ppm", q"500 ppm", q"1000 ppm"),
      severity = 2, about = "carbon dioxide",
        because = "{s.carbon_dioxide} of carbon dioxide; limit 500 ppm",
      controls = purity_controls, also = purity_also, who = "everyone on that supply",
    }
    hazard {
      likelihood = scale.limit(s.oil, q"0.1 mg/m3", q"0.3 mg/m3", q"0.5 mg/m3", q"5 mg/m3"),
      severity = 3, about = "oil", because = "{s.oil} of oil; limit 0.5 mg/m3",
      controls = purity_controls, also = purity_also, who = "everyone on that supply",
    }
    if s.odour then
      hazard {
        likelihood = 4, severity = 3, about = "odour",
          because = "the gas smells or tastes: it is not clean",
        controls = purity_controls, also = purity_also, who = "everyone on that supply",
      }
    end
  end,
  examples = (function()
    local like = example.like
    local base = { carbon_dioxide = "420 ppm", oil = "0.1 mg/m3", odour = "no" }
    return example.join { {
      { "clean", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "stale", given = like(base, { carbon_dioxide = "1500 ppm" }),
        expect = hazard { likelihood = 5, severity = 2 } },
      { "oil", given = like(base, { oil = "2 mg/m3" }), expect = hazard { likelihood = 4, severity = 3 } },
      { "smells", given = like(base, { odour = "yes" }), expect = hazard { likelihood = 4, severity = 3 } },
      { "never tested", given = {}, expect = hazard { likelihood = 5, severity = 3 } },
      { "filter changed", given = like(base, { oil = "2 mg/m3" }), with = { "filter-change" },
        expect = hazard { likelihood = 1, severity = 3 } },
    },
      example.edges(base, "carbon_dioxide", 2,
        { "450 ppm", hazard { likelihood = 1, severity = 3 }, "460 ppm", 2, "480 ppm", 2, "485 ppm", 3,
          "500 ppm", 3, "510 ppm", 4, "1000 ppm", 4, "1020 ppm", 5 }),
      example.edges(base, "oil", 3,
        { "0.1 mg/m3", 1, "0.105 mg/m3", 2, "0.3 mg/m3", 2, "0.31 mg/m3", 3, "0.5 mg/m3", 3, "0.51 mg/m3", 4,
          "5 mg/m3", 4, "5.1 mg/m3", 5 }),
    }
  end)(),
}

rule {
  id = "air.wet-gas",
  title = "Wet gas in cold water: the regulator can freeze open",
  each = "supply",
  harm = "everyone on that supply: gas lost at once",
  sources = { "EN 12021: water at most 50 mg/m3 in cylinders of 40 to 200 bar",
    "common practice: freezing from water below 10 degC" },
  when = function(s) return s.site.water.temperature < q"10 degC" end,
  assess = function(s)
    local surfaced = rescue.to_surface(s.site.emergency)
    hazard {
      likelihood = scale.limit(s.moisture, q"25 mg/m3", q"35 mg/m3", q"50 mg/m3", q"100 mg/m3"),
      severity = scale.without_air(surfaced),
      because = "{s.moisture} of water in the gas; face at the surface {surfaced} after trouble",
        values = { surfaced = surfaced },
      controls = { "filter-change", "warmer-water" },
      also = { "second-air-source" }, who = "everyone on that supply",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { moisture = "20 mg/m3", ["site.water.temperature"] = "6 degC" })
    return example.join { {
      { "warm water", given = like(base, { ["site.water.temperature"] = "28 degC" }), expect = nothing },
      { "dry gas", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "wet gas", given = like(base, { moisture = "80 mg/m3" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "not tested", given = like(base, { moisture = "?" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "filter changed", given = like(base, { moisture = "80 mg/m3" }), with = { "filter-change" },
        expect = hazard { likelihood = 1, severity = 3 } },
    },
      example.edges(base, "site.water.temperature", 3, { "9.8 degC", 1, "10 degC", nothing }),
      example.edges(base, "moisture", 3,
        { "25 mg/m3", 1, "26 mg/m3", 2, "35 mg/m3", 2, "36 mg/m3", 3, "50 mg/m3", 3, "51 mg/m3", 4,
          "100 mg/m3", 4, "103 mg/m3", 5 }),
    }
  end)(),
}

rule {
  id = "air.test-age",
  title = "The gas was tested too long ago",
  each = "supply",
  harm = "everyone on that supply: impurity that nobody has measured",
  sources = {
    "29 CFR 1910.430: output of a compressor tested every 6 months (from memory)",
    "common practice: every 3 months, and after each move or repair",
  },
  assess = function(s)
    local age = last_day(s.production) - s.tested_on
    local rescued = rescue.to_breath(s.site.emergency)
    hazard {
      likelihood = scale.limit(age, q"31 day", q"92 day", q"183 day", q"365 day"),
      severity = scale.without_air(rescued),
      because = "on the last day of the schedule the test of the gas is {age} old",
      values = { age = age },
      controls = { "air-test" },
      also = { "carbon-monoxide-alarm" },
      who = "everyone on that supply",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { tested_on = "2027-02-20", ["production.days.1.date"] = "2027-03-09" })
    return example.join { {
      { "last month", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "within three months", given = like(base, { tested_on = "2026-12-20" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "half a year", given = like(base, { tested_on = "2026-10-01" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "two years", given = like(base, { tested_on = "2025-03-01" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "date not known", given = like(base, { tested_on = "?" }),
        expect = hazard { likelihood = 5, severity = 3 } },
    },
      -- 31, 92, 183 and 365 days before the last day, and a day more
      example.edges(base, "tested_on", 3,
        { "2027-02-06", 1, "2027-02-05", 2, "2026-12-07", 2, "2026-12-06", 3, "2026-09-07", 3, "2026-09-06", 4,
          "2026-03-09", 4, "2026-03-08", 5 }),
      -- 27 days before the first day; 30 and 38 before the second
      example.edges(like(base, { tested_on = "2027-02-10" }), "production.days.2.date", 3,
        { "2027-03-12", 1, "2027-03-20", 2 }),
    }
  end)(),
}

rule {
  id = "air.compressor-intake",
  title = "Exhaust drawn into the compressor",
  each = "supply",
  harm = "everyone on that supply: carbon monoxide poisoning under water",
  sources = {
    "WAC 296-37-570 (Washington State): carbon monoxide alarm at 10 ppm or lower, calibrated monthly",
    "common practice: intake upwind and at least 5 to 10 m from every exhaust",
  },
  when = function(s) return s.compressor_drive ~= "none" end,
  assess = function(s)
    local engine = s.compressor_drive ~= "electric"
    local rescued = rescue.to_breath(s.site.emergency)
    hazard {
      likelihood = scale.protection(scale.missing,
        { s.intake_upwind, s.intake_distance >= q"10 m", s.carbon_monoxide_alarm },
        { engine, engine and s.site.indoor }),
      severity = scale.without_air(rescued),
      because = "intake {s.intake_distance} from the nearest exhaust, compressor drive {s.compressor_drive}",
      values = { rescued = rescued },
      controls = { "electric-compressor", "intake-in-clean-air", "carbon-monoxide-alarm", "air-test" },
      who = "everyone on that supply",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { compressor_drive = "electric", intake_upwind = "yes",
      intake_distance = "12 m",
      carbon_monoxide_alarm = "yes", ["site.indoor"] = "no" })
    return example.join { {
      { "filled elsewhere", given = like(base, { compressor_drive = "none" }), expect = nothing },
      { "electric, in clean air", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "engine near the intake", given = like(base,
        { compressor_drive = "diesel", intake_distance = "3 m" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "engine indoors, no alarm",
        given = like(base, { compressor_drive = "petrol", intake_distance = "3 m", intake_upwind = "no",
          carbon_monoxide_alarm = "no", ["site.indoor"] = "yes" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "alarm not known", given = like(base, { carbon_monoxide_alarm = "?", intake_distance = "3 m" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "electric instead", given = like(base, { compressor_drive = "petrol", intake_distance = "3 m",
        intake_upwind = "no" }), with = { "electric-compressor" },
          expect = hazard { likelihood = 2, severity = 3 } },
    },
      example.edges(like(base, { intake_upwind = "no" }), "intake_distance", 3, { "10 m", 1, "9.8 m", 2 }),
    }
  end)(),
}
