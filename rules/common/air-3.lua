-- Breathing gas: how long it lasts, how pure it is, where it is drawn from,
-- time under pressure, flights, enriched gas.

local function surface_pressure(site)
  return calc.air_pressure(site.altitude)
end

local function ambient_pressure(site, depth)
  local density = calc.water_density(site.water.temperature, q"0 g/kg")
  return calc.ambient_pressure(depth, surface_pressure(site), density)
end

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
  ["site.emergency.breath_time"] = "10 s", ["site.altitude"] = "0 m", ["site.water.temperature"] = "28 degC",
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
      supply.reserve_pressure, supply.surface_consumption, ambient_pressure(i.site, i.depth), supply.users)
    local watched = supply.pressure_logged or supply.low_pressure_alarm
    local surfaced = rescue.to_surface(i.site.emergency)
    hazard {
      likelihood = scale.protection(scale.reserve(lasts, i.time), { watched }),
      severity = scale.without_air(surfaced),
      because = "{lasts} of gas down to the reserve for {i.time} at {i.depth}",
      values = { lasts = lasts, surfaced = surfaced },
      controls = { "pressure-log", "low-pressure-alarm", "second-bank", "second-air-source", "shorter-bottom-time",
        "depth-cap" },
      who = "everyone on that supply",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { breathes_gas = "yes", depth = "3 m", time = "30 min", ["supply.kind"] = "surface-supplied",
      ["supply.cylinder_volume"] = "50 L", ["supply.cylinders"] = "2", ["supply.pressure"] = "200 bar",
      ["supply.reserve_pressure"] = "50 bar", ["supply.surface_consumption"] = "25 L/min", ["supply.users"] = "2",
      ["supply.pressure_logged"] = "yes", ["supply.low_pressure_alarm"] = "no" })
    return {
      { "breathes no gas", given = like(base, { breathes_gas = "no" }), expect = nothing },
      { "no supply", given = { breathes_gas = "yes", supply = "none" }, expect = nothing },
      { "fed by a compressor", given = like(base, { ["supply.kind"] = "compressor" }), expect = nothing },
      { "a large bank", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "nobody reads the gauge", given = like(base, { time = "130 min", ["supply.pressure_logged"] = "no" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "too many on it", given = like(base, { ["supply.users"] = "12", ["supply.pressure_logged"] = "no" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "pressure not known", given = like(base, { ["supply.pressure"] = "?" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "with a log", given = like(base, { time = "130 min", ["supply.pressure_logged"] = "no" }),
        with = { "pressure-log" }, expect = hazard { likelihood = 2, severity = 3 } },
    }
  end)(),
}

rule {
  id = "air.purity",
  title = "Impure breathing gas",
  each = "supply",
  harm = "everyone on that supply: poisoning under water, lung irritation",
  sources = {
    "EN 12021:2014: carbon monoxide 5 ppm, carbon dioxide 500 ppm, oil 0.5 mg/m3",
    "EN 12021: water 50 mg/m3 in cylinders of 40 to 200 bar",
    "29 CFR 1910.430(b)(3): carbon monoxide 20 ppm, carbon dioxide 1000 ppm, oil mist 5 mg/m3",
    "29 CFR 1910.430(b)(3): no pronounced odour (from memory)",
  },
  assess = function(s)
    local rescued = rescue.to_breath(s.site.emergency)
    local controls = { "air-test", "filter-change", "intake-in-clean-air", "electric-compressor",
      "carbon-monoxide-alarm" }
    if s.carbon_monoxide > q"20 ppm" then
      stop {
        because = "{s.carbon_monoxide} of carbon monoxide: above every limit for diving air",
        controls = controls, about = "carbon monoxide",
      }
    end
    hazard {
      likelihood = scale.limit(s.carbon_monoxide, q"3 ppm", q"4 ppm", q"5 ppm", q"10 ppm"),
      severity = scale.without_air(rescued), about = "carbon monoxide",
      because = "{s.carbon_monoxide} of carbon monoxide at the surface, more in effect at depth; limit 5 ppm",
      controls = controls, who = "everyone on that supply",
    }
    hazard {
      likelihood = scale.limit(s.carbon_dioxide, q"450 ppm", q"480 ppm", q"500 ppm", q"1000 ppm"),
      severity = 2, about = "carbon dioxide",
      because = "{s.carbon_dioxide} of carbon dioxide; limit 500 ppm",
      controls = controls, who = "everyone on that supply",
    }
    hazard {
      likelihood = scale.limit(s.oil, q"0.1 mg/m3", q"0.3 mg/m3", q"0.5 mg/m3", q"5 mg/m3"),
      severity = 3, about = "oil",
      because = "{s.oil} of oil; limit 0.5 mg/m3", controls = controls, who = "everyone on that supply",
    }
    if s.moisture > q"50 mg/m3" and s.site.water.temperature < q"10 degC" then
      hazard {
        likelihood = 4, severity = scale.without_air(rescued), about = "water",
        because = "{s.moisture} of water in the gas and cold water: a regulator can freeze open",
        controls = { "filter-change", "second-air-source" }, who = "everyone on that supply",
      }
    end
    if s.odour then
      hazard {
        likelihood = 4, severity = 3, about = "odour", because = "the gas smells or tastes: it is not clean",
        controls = controls, who = "everyone on that supply",
      }
    end
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { carbon_monoxide = "2 ppm", carbon_dioxide = "420 ppm", oil = "0.1 mg/m3",
      moisture = "30 mg/m3", odour = "no" })
    return {
      { "clean", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "at the limit", given = like(base, { carbon_monoxide = "5 ppm" }), expect = hazard { likelihood = 3, severity = 3 } },
      { "exhaust drawn in", given = like(base, { carbon_monoxide = "40 ppm" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 3 } } },
      { "oil", given = like(base, { oil = "2 mg/m3" }), expect = hazard { likelihood = 4, severity = 3 } },
      { "wet gas, cold water", given = like(base, { moisture = "80 mg/m3", ["site.water.temperature"] = "6 degC" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "wet gas, warm water", given = like(base, { moisture = "80 mg/m3" }),
        expect = hazard { likelihood = 1, severity = 3 } },
      { "smells", given = like(base, { odour = "yes" }), expect = hazard { likelihood = 4, severity = 3 } },
      { "carbon monoxide not tested", given = like(base, { carbon_monoxide = "?" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 3 } } },
      { "filter changed", given = like(base, { carbon_monoxide = "40 ppm" }), with = { "filter-change" },
        expect = hazard { likelihood = 1, severity = 3 } },
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
      controls = { "air-test", "carbon-monoxide-alarm" },
      who = "everyone on that supply",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { tested_on = "2027-02-20", ["production.days.1.date"] = "2027-03-09" })
    return {
      { "last month", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "within three months", given = like(base, { tested_on = "2026-12-20" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "half a year", given = like(base, { tested_on = "2026-10-01" }), expect = hazard { likelihood = 3, severity = 3 } },
      { "two years", given = like(base, { tested_on = "2025-03-01" }), expect = hazard { likelihood = 5, severity = 3 } },
      { "date not known", given = like(base, { tested_on = "?" }), expect = hazard { likelihood = 5, severity = 3 } },
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
    local base = like(plan, { compressor_drive = "electric", intake_upwind = "yes", intake_distance = "12 m",
      carbon_monoxide_alarm = "yes", ["site.indoor"] = "no" })
    return {
      { "filled elsewhere", given = like(base, { compressor_drive = "none" }), expect = nothing },
      { "electric, in clean air", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "engine near the intake", given = like(base, { compressor_drive = "diesel", intake_distance = "3 m" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "engine indoors, no alarm",
        given = like(base, { compressor_drive = "petrol", intake_distance = "3 m", intake_upwind = "no",
          carbon_monoxide_alarm = "no", ["site.indoor"] = "yes" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "alarm not known", given = like(base, { carbon_monoxide_alarm = "?", intake_distance = "3 m" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "electric instead", given = like(base, { compressor_drive = "petrol", intake_distance = "3 m",
        intake_upwind = "no" }), with = { "electric-compressor" }, expect = hazard { likelihood = 2, severity = 3 } },
    }
  end)(),
}

-- Whether the person breathes compressed gas that day.
local function on_gas(pd)
  for _, i in ipairs(pd.immersions) do
    if i.breathes_gas then return true end
  end
  return false
end

local gas_day = {
  ["immersions.1.breathes_gas"] = "yes", ["day.site.altitude"] = "0 m", ["day.records"] = "none",
  ["day.site.water.temperature"] = "28 degC",
}

rule {
  id = "air.bottom-time",
  title = "Time at depth against the no-stop limit",
  each = "person-day",
  harm = "performer or diver: decompression illness",
  sources = {
    "US Navy Diving Manual Rev 7 (2016): no-stop limits for air",
    "ZH-L16C model for altitude: calc.no_stop_limit_model",
  },
  reasoning = "all time under water on one day is taken as one dive at the greatest depth: more cautious than "
    .. "crediting time at the surface, and right for many short descents",
  when = function(pd) return pd.deepest > q"3 m" and on_gas(pd) end,
  assess = function(pd)
    local site = pd.day.site
    local most = calc.no_stop_limit(pd.deepest)
    if site.altitude > q"300 m" then
      most = min(most, calc.no_stop_limit_model(ambient_pressure(site, pd.deepest), surface_pressure(site), 0.79))
    end
    hazard {
      likelihood = scale.reserve(most, pd.time),
      severity = 4,
      because = "{pd.time} at up to {pd.deepest} where {most} needs no stop",
      values = { most = most },
      controls = { "shorter-bottom-time", "supervised-tables", "depth-cap" },
      who = "1 person under water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(gas_day, { ["immersions.1.depth"] = "6 m", ["immersions.1.time"] = "150 min" })
    return {
      { "shallow", given = like(base, { ["immersions.1.depth"] = "2.5 m" }), expect = nothing },
      { "on no gas", given = like(base, { ["immersions.1.breathes_gas"] = "no" }), expect = nothing },
      { "deep and long", given = like(base, { ["immersions.1.depth"] = "18 m", ["immersions.1.time"] = "90 min" }),
        expect = hazard { likelihood = 5, severity = 4 } },
      { "a tank all day", given = base, expect = hazard { likelihood = 1, severity = 4 } },
      { "a mountain lake", given = like(base, { ["day.site.altitude"] = "2000 m", ["immersions.1.depth"] = "15 m",
        ["immersions.1.time"] = "55 min" }), expect = hazard { likelihood = 4, severity = 4 } },
      { "time not known", given = like(base, { ["immersions.1.depth"] = "12 m", ["immersions.1.time"] = "?" }),
        expect = hazard { likelihood = 5, severity = 4 } },
      { "an hour instead", given = like(base, { ["immersions.1.depth"] = "12 m", ["immersions.1.time"] = "200 min" }),
        with = { "shorter-bottom-time" }, expect = hazard { likelihood = 2, severity = 4 } },
    }
  end)(),
}

rule {
  id = "air.flying-after",
  title = "Flying or mountain road too soon after diving",
  each = "person-day",
  harm = "performer or diver: decompression illness in the aircraft",
  sources = {
    "Flying After Diving Workshop, May 2002: 12 h after one no-stop dive, 18 h after several",
    "US Navy Diving Manual Rev 7 (2016) Table 9-6: interval by repetitive group",
  },
  when = function(pd) return pd.deepest > q"1 m" and on_gas(pd) end,
  assess = function(pd)
    local several = pd.immersion_count > 1 or pd.consecutive_days > 1
    local by_workshop = several and q"18 h" or q"12 h"
    local needed = max(by_workshop, calc.flying_interval(calc.repetitive_group(pd.deepest, pd.time)))
    local planned = pd.person.flight_after
    hazard {
      likelihood = scale.minimum(planned, needed * 4 / 3, needed * 7 / 6, needed, needed / 2),
      severity = 4,
      because = "{planned} from the last dive to a flight where {needed} is the least",
      values = { needed = needed, planned = planned },
      controls = { "later-flight", "shorter-bottom-time", "depth-cap" },
      who = "1 person under water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(gas_day, { ["immersions.1.depth"] = "5 m", ["immersions.1.time"] = "60 min",
      ["person.flight_after"] = "10000 h" })
    return {
      { "on no gas", given = like(base, { ["immersions.1.breathes_gas"] = "no" }), expect = nothing },
      { "face wet only", given = like(base, { ["immersions.1.depth"] = "0.5 m" }), expect = nothing },
      { "travel not known", given = like(base, { ["person.flight_after"] = "?" }),
        expect = hazard { likelihood = 5, severity = 4 } },
      { "flight put off", given = like(base, { ["person.flight_after"] = "3 h" }), with = { "later-flight" },
        expect = hazard { likelihood = 1, severity = 4 } },
      { "two immersions, flight after 16 h", given = like(base, { ["immersions.2.depth"] = "5 m",
        ["immersions.2.time"] = "30 min", ["immersions.2.breathes_gas"] = "yes", ["person.flight_after"] = "16 h" }),
        expect = hazard { likelihood = 4, severity = 4 } },
      { "no flight", given = base, expect = hazard { likelihood = 1, severity = 4 } },
      { "flight next morning", given = like(base, { ["person.flight_after"] = "10 h" }),
        expect = hazard { likelihood = 4, severity = 4 } },
      { "flight the same evening", given = like(base, { ["person.flight_after"] = "3 h" }),
        expect = hazard { likelihood = 5, severity = 4 } },
    }
  end)(),
}

rule {
  id = "air.enriched-gas",
  title = "Oxygen pressure of other gas than air",
  each = "immersion",
  harm = "diver: convulsion under water, or too little oxygen near the surface",
  sources = {
    "NOAA Diving Manual: oxygen pressure up to 1.6 atmospheres in normal exposure tables",
    "HSE L103 and L104 (2014): 1.4 bar in the water (from memory)",
    "diver education text: inspired oxygen from 0.16 bar",
  },
  when = function(i) return i.breathes_gas and i.supply ~= nil and i.supply.gas ~= "air" end,
  assess = function(i)
    local supply = i.supply
    local fraction = supply.oxygen_fraction
    local deep = calc.partial_pressure(fraction, ambient_pressure(i.site, i.depth))
    local shallow = calc.partial_pressure(fraction, surface_pressure(i.site))
    local controls = { "gas-analysis", "leaner-mix", "depth-cap", "supervised-tables" }
    if deep > q"1.6 bar" then
      stop { because = "oxygen pressure {deep} at {i.depth}: above 1.6 bar", values = { deep = deep }, controls = controls }
    end
    if shallow < q"0.16 bar" then
      stop { because = "oxygen pressure {shallow} at the surface: below 0.16 bar", values = { shallow = shallow },
        controls = controls }
    end
    local analysed = supply.analysed
    if not analysed then
      stop { because = "the gas has not been analysed by its user", controls = { "gas-analysis" } }
    end
    local rescued = rescue.to_breath(i.site.emergency)
    hazard {
      likelihood = scale.protection(scale.limit(deep, q"1.1 bar", q"1.3 bar", q"1.4 bar", q"1.6 bar"), {}, { not analysed }),
      severity = scale.without_air(rescued),
      because = "oxygen pressure {deep} at {i.depth}",
      values = { deep = deep, rescued = rescued },
      controls = controls, who = "1 person under water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { breathes_gas = "yes", depth = "6 m", ["supply.gas"] = "nitrox",
      ["supply.oxygen_fraction"] = "36 %", ["supply.analysed"] = "yes" })
    return {
      { "air", given = like(base, { ["supply.gas"] = "air" }), expect = nothing },
      { "no supply", given = { breathes_gas = "yes", supply = "none" }, expect = nothing },
      { "36 % in a tank", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "rich and deep", given = like(base, { ["supply.oxygen_fraction"] = "50 %", depth = "20 m" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "oxygen at 8 m", given = like(base, { ["supply.oxygen_fraction"] = "100 %", depth = "8 m" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 3 } } },
      { "too lean", given = like(base, { ["supply.gas"] = "other", ["supply.oxygen_fraction"] = "12 %" }), expect = stop {} },
      { "not analysed", given = like(base, { ["supply.analysed"] = "no" }),
        expect = { stop {}, hazard { likelihood = 2, severity = 3 } } },
      { "fraction not known", given = like(base, { ["supply.oxygen_fraction"] = "?" }), expect = stop {} },
      { "leaner mix", given = like(base, { ["supply.oxygen_fraction"] = "60 %", depth = "20 m" }), with = { "leaner-mix" },
        expect = hazard { likelihood = 1, severity = 3 } },
    }
  end)(),
}
