-- Time under pressure: bottom time, flights, enriched gas, the speed of ascents.

local plan = {
  ["site.emergency.notice_time"] = "5 s", ["site.emergency.reach_time"] = "5 s",
  ["site.emergency.surface_time"] = "10 s", ["site.emergency.deck_time"] = "15 s",
  ["site.emergency.breath_time"] = "10 s", ["site.altitude"] = "0 m",
    ["site.water.temperature"] = "28 degC",
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
      most = min(most, calc.no_stop_limit_model(pressure.ambient(site, pd.deepest), pressure.surface(site),
        0.79))
    end
    hazard {
      likelihood = scale.reserve(most, pd.time),
      severity = 4,
      because = "{pd.time} at up to {pd.deepest} where {ceiling} needs no stop",
      values = { ceiling = most, total = pd.time },
      controls = { "shorter-bottom-time", "supervised-tables", "depth-cap" },
      who = "1 person under water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(gas_day, { ["immersions.1.depth"] = "6 m", ["immersions.1.time"] = "150 min" })
    return example.join { {
      { "shallow", given = like(base, { ["immersions.1.depth"] = "2.5 m" }), expect = nothing },
      { "on no gas", given = like(base, { ["immersions.1.breathes_gas"] = "no" }), expect = nothing },
      { "deep and long", given = like(base,
        { ["immersions.1.depth"] = "18 m", ["immersions.1.time"] = "90 min" }),
        expect = hazard { likelihood = 5, severity = 4 } },
      { "a tank all day", given = base, expect = hazard { likelihood = 1, severity = 4 } },
      { "a mountain lake", given = like(base,
        { ["day.site.altitude"] = "2000 m", ["immersions.1.depth"] = "15 m",
        ["immersions.1.time"] = "55 min" }), expect = hazard { likelihood = 4, severity = 4 } },
      { "time not known", given = like(base,
        { ["immersions.1.depth"] = "12 m", ["immersions.1.time"] = "?" }),
        expect = hazard { likelihood = 5, severity = 4 } },
      { "an hour instead", given = like(base,
        { ["immersions.1.depth"] = "12 m", ["immersions.1.time"] = "200 min" }),
        with = { "shorter-bottom-time" }, expect = hazard { likelihood = 2, severity = 4 } },
    },
      example.edges(base, "immersions.1.depth", 4, { "3 m", nothing, "3.1 m", 1 }),
      -- 63 min by the table at sea level, 59 min by the model at 310 m: on both sides of twice 31 min
      example.edges(like(base, { ["immersions.1.depth"] = "18.2 m", ["immersions.1.time"] = "31 min" }),
        "day.site.altitude", 4, { "300 m", 2, "310 m", 3 }),
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
  reasoning = "how high the journey goes is not asked: a cabin or a pass at 8000 ft is taken",
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
    return example.join { {
      { "on no gas", given = like(base, { ["immersions.1.breathes_gas"] = "no" }), expect = nothing },
      { "face wet only", given = like(base, { ["immersions.1.depth"] = "0.5 m" }), expect = nothing },
      { "travel not known", given = like(base, { ["person.flight_after"] = "?" }),
        expect = hazard { likelihood = 5, severity = 4 } },
      { "flight put off", given = like(base, { ["person.flight_after"] = "3 h" }),
        with = { "later-flight" },
        expect = hazard { likelihood = 1, severity = 4 } },
      { "two immersions, flight after 16 h", given = like(base, { ["immersions.2.depth"] = "5 m",
        ["immersions.2.time"] = "30 min", ["immersions.2.breathes_gas"] = "yes",
          ["person.flight_after"] = "16 h" }),
        expect = hazard { likelihood = 4, severity = 4 } },
      { "no flight", given = base, expect = hazard { likelihood = 1, severity = 4 } },
      { "flight next morning", given = like(base, { ["person.flight_after"] = "10 h" }),
        expect = hazard { likelihood = 4, severity = 4 } },
      { "flight the same evening", given = like(base, { ["person.flight_after"] = "3 h" }),
        expect = hazard { likelihood = 5, severity = 4 } },
    },
      example.edges(base, "immersions.1.depth", 4, { "1 m", nothing, "1.04 m", 1 }),
      example.edges(base, "person.flight_after", 4,
        { "16 h", 1, "15.8 h", 2, "14 h", 2, "13.8 h", 3, "12 h", 3, "11.8 h", 4, "6 h", 4, "5.9 h", 5 }),
      example.edges(like(base, { ["person.flight_after"] = "12 h" }), "consecutive_days", 4, { "1", 3, "2", 4 }),
      example.edges(like(base, { consecutive_days = "2" }), "person.flight_after", 4,
        { "18 h", 3, "17.7 h", 4 }),
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
    local deep = calc.partial_pressure(fraction, pressure.ambient(i.site, i.depth))
    local shallow = calc.partial_pressure(fraction, pressure.surface(i.site))
    local controls = { "gas-analysis", "leaner-mix", "depth-cap", "supervised-tables" }
    if deep > q"1.6 bar" then
      stop { because = "oxygen pressure {deep} at {i.depth}: above 1.6 bar", values = { deep = deep },
        controls = controls }
    end
    if shallow < q"0.16 bar" then
      stop { because = "oxygen pressure {shallow} at the surface: below 0.16 bar",
        values = { shallow = shallow },
        controls = controls }
    end
    local analysed = supply.analysed
    if not analysed then
      stop { because = "the gas has not been analysed by its user", controls = { "gas-analysis" } }
    end
    local rescued = rescue.to_breath(i.site.emergency)
    hazard {
      likelihood = scale.protection(scale.limit(deep, q"1.1 bar", q"1.3 bar", q"1.4 bar", q"1.6 bar"), {},
        { not analysed }),
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
    return example.join { {
      { "air", given = like(base, { ["supply.gas"] = "air" }), expect = nothing },
      { "no supply", given = { breathes_gas = "yes", supply = "none" }, expect = nothing },
      { "36 % in a tank", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "rich and deep", given = like(base, { ["supply.oxygen_fraction"] = "50 %", depth = "20 m" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "oxygen at 8 m", given = like(base, { ["supply.oxygen_fraction"] = "100 %", depth = "8 m" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 3 } } },
      { "too lean", given = like(base, { ["supply.gas"] = "other", ["supply.oxygen_fraction"] = "12 %" }),
        expect = stop {} },
      { "not analysed", given = like(base, { ["supply.analysed"] = "no" }),
        expect = { stop {}, hazard { likelihood = 2, severity = 3 } } },
      { "fraction not known", given = like(base, { ["supply.oxygen_fraction"] = "?" }), expect = stop {} },
      { "leaner mix", given = like(base, { ["supply.oxygen_fraction"] = "60 %", depth = "20 m" }),
        with = { "leaner-mix" },
        expect = hazard { likelihood = 1, severity = 3 } },
    },
      -- all oxygen: its pressure is that of the surface, 1.013 bar, and 0.0977 bar a metre
      example.edges(like(base, { ["supply.oxygen_fraction"] = "100 %" }), "depth", 3,
        { "0.87 m", 1, "1 m", 2, "2.9 m", 2, "3 m", 3, "3.9 m", 3, "4 m", 4, "6 m", 4,
          "6.1 m", { stop {}, hazard { likelihood = 5, severity = 3 } } }),
      example.edges(like(base, { ["supply.gas"] = "other" }), "supply.oxygen_fraction", 3,
        { "15.9 %", 1, "15.6 %", stop {} }),
      example.edges(base, "breathes_gas", 3, { "no", nothing }),
    }
  end)(),
}

rule {
  id = "air.ascent-rate",
  title = "Coming up too fast after breathing compressed gas",
  each = "immersion",
  harm = "performer or diver: decompression illness, over-expansion of the lungs",
  sources = {
    "US Navy Diving Manual Rev 7: 30 ft/min (9 m/min)",
    "other agencies: 10 or 18 m/min (from memory: check the text)",
  },
  when = function(i) return i.breathes_gas and i.depth > q"3 m" end,
  assess = function(i)
    hazard {
      likelihood = scale.protection(scale.limit(i.ascent_rate, q"9 m/min", q"10 m/min", q"12 m/min",
        q"18 m/min"), {},
        { i.descents > 10 and i.ascent_rate > q"9 m/min" }),
      severity = 4,
      because = "up at {i.ascent_rate} from {i.depth}, {i.descents} times",
      controls = { "ascent-escort", "fewer-descents", "depth-cap" },
      also = { "exhale-drill" },
      who = "1 person under water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { breathes_gas = "yes", depth = "6 m", ascent_rate = "9 m/min", descents = "4" }
    return example.join { {
      { "shallow", given = like(base, { depth = "2 m" }), expect = nothing },
      { "no gas", given = like(base, { breathes_gas = "no" }), expect = nothing },
      { "nine metres a minute", given = base, expect = hazard { likelihood = 1, severity = 4 } },
      { "often, nine metres a minute", given = like(base, { descents = "20" }),
        expect = hazard { likelihood = 1, severity = 4 } },
      { "fifteen", given = like(base, { ascent_rate = "15 m/min" }),
        expect = hazard { likelihood = 4, severity = 4 } },
      { "fifteen, often", given = like(base, { ascent_rate = "15 m/min", descents = "20" }),
        expect = hazard { likelihood = 5, severity = 4 } },
      { "not known", given = like(base, { ascent_rate = "?" }),
        expect = hazard { likelihood = 5, severity = 4 } },
      { "escorted", given = like(base, { ascent_rate = "15 m/min" }), with = { "ascent-escort" },
        expect = hazard { likelihood = 1, severity = 4 } },
    },
      example.edges(base, "depth", 4, { "3 m", nothing, "3.1 m", 1 }),
      example.edges(base, "ascent_rate", 4,
        { "9 m/min", 1, "9.3 m/min", 2, "10 m/min", 2, "10.2 m/min", 3, "12 m/min", 3, "12.3 m/min", 4,
          "18 m/min", 4, "18.4 m/min", 5 }),
      example.edges(like(base, { ascent_rate = "12 m/min" }), "descents", 4, { "10", 3, "11", 4 }),
      example.edges(like(base, { descents = "20" }), "ascent_rate", 4, { "9 m/min", 1, "9.3 m/min", 3 }),
    }
  end)(),
}
