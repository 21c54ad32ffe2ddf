-- Heat, hot water, skin, eyes, and the length of the days.

rule {
  id = "body.warm-water",
  title = "Hard work in warm water",
  each = "immersion",
  harm = "anyone working in warm water: heat exhaustion, faintness under water",
  sources = {
    "PWTAG technical note (Dec 2010): 26 to 28 degC for hard swimming, 28 to 30 degC for leisure",
    "FINA open water rules: no race above 31 degC",
    "WHO vol 2 (2006): at most 40 degC, and then about 15 min (from memory)",
  },
  when = function(i) return i.site.water.temperature > q"28 degC" end,
  assess = function(i)
    local water = i.site.water.temperature
    if water > q"40 degC" then
      stop { because = "water at {i.site.water.temperature}: above 40 degC nobody works in it",
        controls = { "cooler-water" } }
    end
    local hard = i.effort == "moderate" or i.effort == "hard"
    local by_heat = nil
    if hard then by_heat = scale.limit(water, q"29 degC", q"30 degC", q"31 degC", q"33 degC")
    else by_heat = scale.limit(water, q"33 degC", q"34 degC", q"36 degC", q"38 degC") end
    local packed = i.neoprene > q"2 mm"
    hazard {
      likelihood = scale.protection(by_heat, { i.time <= q"15 min" }, { packed }),
      severity = 3,
      because = "{i.effort} work for {i.time} in water at {i.site.water.temperature}",
      controls = { "cooler-water", "calmer-action", "work-breaks", "shorter-bottom-time" },
      who = "1 person in the water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { ["site.water.temperature"] = "30 degC", effort = "light", time = "40 min",
      neoprene = "0 mm" }
    return example.join { {
      { "cool enough", given = like(base, { ["site.water.temperature"] = "27 degC" }), expect = nothing },
      { "warm tank, light work", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "a fight at 32 degC in a suit",
        given = like(base, { ["site.water.temperature"] = "32 degC", effort = "hard",
        neoprene = "5 mm" }), expect = hazard { likelihood = 5, severity = 3 } },
      { "light work at 35 degC", given = like(base, { ["site.water.temperature"] = "35 degC" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "a quarter of an hour at 35 degC",
        given = like(base, { ["site.water.temperature"] = "35 degC", time = "15 min" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "hotter than a hot tub", given = like(base, { ["site.water.temperature"] = "42 degC" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 3 } } },
      { "temperature not known", given = like(base, { ["site.water.temperature"] = "?" }),
        expect = stop {} },
      { "water cooled", given = like(base, { ["site.water.temperature"] = "32 degC", effort = "hard" }),
        with = { "cooler-water" }, expect = hazard { likelihood = 2, severity = 3 } },
    },
      example.edges(base, "site.water.temperature", 3,
        { "28 degC", nothing, "28.3 degC", 1, "33 degC", 1, "33.3 degC", 2, "34 degC", 2, "34.3 degC", 3,
          "36 degC", 3, "36.3 degC", 4, "38 degC", 4, "38.4 degC", 5, "40 degC", 5,
          "40.4 degC", { stop {}, hazard { likelihood = 5, severity = 3 } } }),
      example.edges(like(base, { effort = "hard" }), "site.water.temperature", 3,
        { "29 degC", 1, "29.3 degC", 2, "30 degC", 2, "30.3 degC", 3, "31 degC", 3, "31.3 degC", 4,
          "33 degC", 4, "33.3 degC", 5 }),
      example.edges(base, "neoprene", 3, { "2 mm", 1, "2.1 mm", 2 }),
      example.edges(like(base, { ["site.water.temperature"] = "35 degC" }), "time", 3, { "15 min", 2, "15.5 min", 3 }),
      example.edges(like(base, { effort = "moderate" }), "site.water.temperature", 3, { "29 degC", 1, "29.3 degC", 2 }),
    }
  end)(),
}

-- What clothing adds to the WBGT, from the heaviest thing worn, and whether that is cooled.
local function clothing(i)
  local added, cooled = q"0 K", true
  for _, worn in ipairs(i.wears) do
    local load = worn.heat_load
    if load == "sealed" then added = max(added, q"10 K") end
    if load == "heavy" then added = max(added, q"3 K") end
    if load == "sealed" or load == "heavy" then cooled = cooled and worn.cooling end
  end
  return added, cooled
end

rule {
  id = "body.hot-deck",
  title = "Waiting in costume on a hot deck",
  each = "immersion",
  harm = "performer: heat exhaustion, heat stroke; faintness before the water",
  sources = {
    "NIOSH 2016-106: limit of WBGT by work, unacclimatised: calc.wbgt_limit_unacclimatised",
    "Bernard et al. 2007: a vapour barrier adds 7.5 K, 10 K recommended; 3 K for heavy costume (from memory: double layer)",
  },
  when = function(i) return i.dressed_wait > q"5 min" end,
  assess = function(i)
    local added, cooled = clothing(i)
    local most = calc.wbgt_limit_unacclimatised(scale.watts(i.task.work_rate))
    local felt = i.site.air.wbgt + added
    local margin = most - felt
    local by_heat = scale.minimum(margin, q"4 K", q"2 K", q"0 K", q"-3 K")
    hazard {
      likelihood = scale.protection(by_heat, { i.dressed_wait <= q"15 min", cooled and added > q"0 K" },
        { not i.site.shade and by_heat > 1 }),
      severity = 3,
      because = "WBGT {i.site.air.wbgt} and {added} for clothing, where {most} is the limit at this work",
      values = { margin = margin, added = added, most = most },
      controls = { "late-dressing", "cooling-worn", "shade-and-drink", "work-breaks", "trained-double" },
      who = "1 performer",
    }
  end,
  worst = { likelihood = 5, severity = 3 },
  examples = (function()
    local like = example.like
    local base = { dressed_wait = "25 min", ["wears.1.heat_load"] = "normal", ["wears.1.cooling"] = "no",
      ["task.work_rate"] = "light", ["site.air.wbgt"] = "22 degC", ["site.shade"] = "yes" }
    return example.join { {
      { "called at once", given = like(base, { dressed_wait = "4 min" }), expect = nothing },
      { "mild studio", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "sealed suit", given = like(base, { ["wears.1.heat_load"] = "sealed" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "sealed suit, cooled, fifteen minutes",
        given = like(base, { ["wears.1.heat_load"] = "sealed", ["wears.1.cooling"] = "yes",
        dressed_wait = "15 min" }), expect = hazard { likelihood = 3, severity = 3 } },
      { "hot day, no shade", given = like(base, { ["site.air.wbgt"] = "27 degC", ["site.shade"] = "no" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "heavy costume", given = like(base, { ["wears.1.heat_load"] = "heavy" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "WBGT not measured", given = like(base, { ["site.air.wbgt"] = "?" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "dressed late", given = like(base, { ["site.air.wbgt"] = "29 degC" }), with = { "late-dressing" },
        expect = hazard { likelihood = 3, severity = 3 } },
    },
      example.edges(base, "dressed_wait", 3, { "5 min", nothing, "5.2 min", 1 }),
      -- the limit for light work is 28.1 degC
      example.edges(base, "site.air.wbgt", 3,
        { "24 degC", 1, "24.2 degC", 2, "26 degC", 2, "26.2 degC", 3, "28 degC", 3, "28.2 degC", 4,
          "31 degC", 4, "31.2 degC", 5 }),
      example.edges(like(base, { ["site.air.wbgt"] = "26.2 degC" }), "dressed_wait", 3, { "15 min", 2, "15.5 min", 3 }),
      example.edges(like(base, { ["site.shade"] = "no" }), "site.air.wbgt", 3, { "24 degC", 1, "24.2 degC", 3 }),
      example.edges(like(base, { ["wears.1.heat_load"] = "heavy" }), "site.air.wbgt", 3,
        { "21 degC", 1, "21.2 degC", 2 }),
      example.edges(like(base, { ["wears.1.heat_load"] = "sealed" }), "site.air.wbgt", 3,
        { "18 degC", 3, "18.2 degC", 4 }),
      -- 30.7, 25.0, 23.0 and 21.6 degC are the limits for other work
      example.edges(like(base, { ["task.work_rate"] = "rest" }), "site.air.wbgt", 3, { "26.6 degC", 1, "26.9 degC", 2 }),
      example.edges(like(base, { ["task.work_rate"] = "moderate" }), "site.air.wbgt", 3,
        { "20.8 degC", 1, "21.1 degC", 2 }),
      example.edges(like(base, { ["task.work_rate"] = "heavy" }), "site.air.wbgt", 3,
        { "18.8 degC", 1, "19.1 degC", 2 }),
      example.edges(like(base, { ["task.work_rate"] = "very-heavy" }), "site.air.wbgt", 3,
        { "17.4 degC", 1, "17.8 degC", 2 }),
      { { "two heavy things, one of them cooled", given = like(base, { ["wears.1.heat_load"] = "heavy",
          ["wears.2.heat_load"] = "heavy", ["wears.2.cooling"] = "yes" }),
          expect = hazard { likelihood = 2, severity = 3 } },
        { "a heavy thing, cooled", given = like(base, { ["wears.1.heat_load"] = "heavy", ["wears.1.cooling"] = "yes" }),
          expect = hazard { likelihood = 1, severity = 3 } } },
    }
  end)(),
}

-- How likely and how bad hot water at the skin is.
local function scald(temperature)
  local severity = 2
  if temperature > q"48 degC" then severity = 3 end
  if temperature > q"55 degC" then severity = 4 end
  return scale.limit(temperature, q"41 degC", q"43 degC", q"44 degC", q"48 degC"), severity
end

local scald_sources = {
  "thermostatic mixing valve practice: shower 41 degC, bath 44 degC, 48 degC at most in homes",
  "anti-scald trade table: second-degree burn after 8 min at 49 degC, 17 s at 55 degC, 3 s at 60 degC",
  "US CPSC: 5 min at 120 degF (49 degC), 2 s at 150 degF (66 degC)",
}

rule {
  id = "body.scald-shower",
  title = "Scalding water in showers and hoses",
  each = "site",
  harm = "anyone rinsing off: burns",
  sources = scald_sources,
  when = function(s) return s.shower_temperature > q"38 degC" end,
  assess = function(s)
    local burns_in = calc.scald_time_table(s.shower_temperature)
    local likelihood, severity = scald(s.shower_temperature)
    hazard {
      likelihood = scale.protection(likelihood, { s.mixing_valve and likelihood < 5 }),
      severity = severity,
      because = "{s.shower_temperature} at the skin burns in {burns_in}",
      values = { burns_in = burns_in },
      controls = { "mixing-valve" }, who = "everyone who showers",
    }
  end,
  examples = example.join { {
    { "lukewarm", given = { shower_temperature = "37 degC", mixing_valve = "no" }, expect = nothing },
    { "valve at 41 degC", given = { shower_temperature = "41 degC", mixing_valve = "yes" },
      expect = hazard { likelihood = 1, severity = 2 } },
    { "46 degC, no valve", given = { shower_temperature = "46 degC", mixing_valve = "no" },
      expect = hazard { likelihood = 4, severity = 2 } },
    { "52 degC", given = { shower_temperature = "52 degC", mixing_valve = "yes" },
      expect = hazard { likelihood = 5, severity = 3 } },
    { "60 degC", given = { shower_temperature = "60 degC", mixing_valve = "no" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "not measured", given = { shower_temperature = "?", mixing_valve = "no" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "valve fitted", given = { shower_temperature = "60 degC", mixing_valve = "no" },
      with = { "mixing-valve" },
      expect = hazard { likelihood = 1, severity = 2 } },
  },
    example.edges({ mixing_valve = "no" }, "shower_temperature", 2,
      { "38 degC", nothing, "38.4 degC", 1, "41 degC", 1, "41.4 degC", 2, "43 degC", 2, "43.4 degC", 3,
        "44 degC", 3, "44.4 degC", 4, "48 degC", 4, "48.4 degC", hazard { likelihood = 5, severity = 3 },
        "55 degC", hazard { likelihood = 5, severity = 3 }, "55.5 degC", hazard { likelihood = 5, severity = 4 } }),
    example.edges({ mixing_valve = "yes" }, "shower_temperature", 2,
      { "44.4 degC", 3, "48.4 degC", hazard { likelihood = 5, severity = 3 } }),
  },
}

rule {
  id = "body.scald-rig",
  title = "Scalding water from a rig",
  each = "rig",
  harm = "performer under rain, hose or dump tank: burns",
  sources = scald_sources,
  when = function(r)
    return r.water_temperature > q"38 degC" and (r.water_volume > q"0 m3" or r.stream_area > q"0 m2")
  end,
  assess = function(r)
    local burns_in = calc.scald_time_table(r.water_temperature)
    local likelihood, severity = scald(r.water_temperature)
    hazard {
      likelihood = likelihood, severity = severity,
      because = "{r.water_temperature} at the skin burns in {burns_in}",
      values = { burns_in = burns_in },
      controls = { "cooler-rig-water" }, who = "everyone the rig wets",
    }
  end,
  examples = example.join { {
    { "cold rain", given = { water_temperature = "15 degC" }, expect = nothing },
    { "wets nobody", given = { water_temperature = "45 degC", water_volume = "0 m3",
      stream_area = "0 m2" }, expect = nothing },
    { "warm dump tank", given = { water_temperature = "40 degC", water_volume = "5 m3" },
      expect = hazard { likelihood = 1, severity = 2 } },
    { "hot hose", given = { water_temperature = "50 degC", water_volume = "0 m3", stream_area = "0.01 m2" },
      expect = hazard { likelihood = 5, severity = 3 } },
    { "very hot", given = { water_temperature = "58 degC", water_volume = "1 m3" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "not measured", given = { water_temperature = "?", water_volume = "1 m3" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "mixed cooler", given = { water_temperature = "50 degC", water_volume = "1 m3" },
      with = { "cooler-rig-water" },
      expect = nothing },
  },
    example.edges({ water_volume = "5 m3", stream_area = "0 m2" }, "water_temperature", 2,
      { "38 degC", nothing, "38.4 degC", 1, "44 degC", 3, "44.4 degC", 4 }),
  },
}

-- Whether anything glued is worn that day.
local function glued(pd)
  for _, i in ipairs(pd.immersions) do
    for _, worn in ipairs(i.wears) do
      if worn.adhesive ~= "none" then return true end
    end
  end
  return false
end

rule {
  id = "body.wet-skin",
  title = "Wet skin for hours",
  each = "person-day",
  harm = "anyone wet for long: sore, soft skin; rash under appliances",
  sources = { "German rules on wet work, TRGS 401: more than 2 h a day (from memory: check the text)" },
  when = function(pd) return pd.wet_time > q"30 min" end,
  assess = function(pd)
    local glue = glued(pd)
    local lasting = glue or pd.consecutive_days > 4
    local ceiling = q"120 min"
    hazard {
      likelihood = scale.limit(pd.wet_time, q"60 min", q"90 min", ceiling, q"240 min"),
      severity = lasting and 2 or 1,
      because = "wet for {pd.wet_time} that day, day {pd.consecutive_days} in a row",
      values = { total = pd.wet_time, ceiling = ceiling },
      controls = { "barrier-cream", "drying-breaks", "shorter-wet-time", "split-days", "double-shares" },
      who = "1 person",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { ["immersions.1.wet_time"] = "50 min", ["immersions.1.wears.1.adhesive"] = "none" }
    return example.join { {
      { "half an hour", given = like(base, { ["immersions.1.wet_time"] = "20 min" }), expect = nothing },
      { "under an hour", given = base, expect = hazard { likelihood = 1, severity = 1 } },
      { "two hours", given = like(base, { ["immersions.1.wet_time"] = "120 min" }),
        expect = hazard { likelihood = 3, severity = 1 } },
      { "the sixth day", given = like(base, { consecutive_days = "6" }),
        expect = hazard { likelihood = 1, severity = 2 } },
      { "five hours, glued", given = like(base,
        { ["immersions.1.wet_time"] = "300 min", ["immersions.1.wears.1.adhesive"] = "silicone" }),
        expect = hazard { likelihood = 5, severity = 2 } },
      { "time not known", given = like(base, { ["immersions.1.wet_time"] = "?" }),
        expect = hazard { likelihood = 5, severity = 1 } },
      { "an hour", given = like(base, { ["immersions.1.wet_time"] = "300 min" }),
        with = { "shorter-wet-time" },
        expect = hazard { likelihood = 1, severity = 1 } },
    },
      example.edges(base, "immersions.1.wet_time", 1,
        { "30 min", nothing, "31 min", 1, "60 min", 1, "62 min", 2, "90 min", 2, "92 min", 3,
          "120 min", 3, "123 min", 4, "240 min", 4, "245 min", 5 }),
      example.edges(base, "consecutive_days", 2, { "4", hazard { likelihood = 1, severity = 1 }, "5", 1 }),
    }
  end)(),
}

rule {
  id = "body.eyes",
  title = "Open eyes in treated water",
  each = "immersion",
  harm = "performer: sore, red eyes; blurred sight for hours",
  sources = {
    "common practice: soreness without a mask within about half an hour",
    "DIN 19643-1 (2023) as quoted: combined chlorine at most 0.2 mg/L; pH 6.5 to 7.2 or 7.5",
    "WHO vol 2 (2006): pH 7.2 to 7.8 (from memory)",
  },
  when = function(i) return i.eyes_open and not i.mask end,
  assess = function(i)
    local water = i.site.water
    local harsh = water.combined_chlorine > q"0.4 mg/L" or water.free_chlorine > q"3 mg/L"
    local off = water.ph < 7.0 or water.ph > 7.8
    hazard {
      likelihood = scale.protection(
        scale.limit(i.eyes_open_time, q"10 min", q"20 min", q"30 min", q"60 min"), {}, { harsh, off }),
      severity = (harsh and off) and 2 or 1,
      because = "open eyes for {i.eyes_open_time}; free chlorine {i.site.water.free_chlorine}, combined "
        .. "{i.site.water.combined_chlorine}, pH {i.site.water.ph}",
      controls = { "eyes-open-limit", "mask-when-not-seen", "uv-treatment", "lower-chlorine", "hold-ph" },
      also = { "eye-rinse" },
      who = "1 performer",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { eyes_open = "yes", mask = "no", eyes_open_time = "10 min",
      ["site.water.combined_chlorine"] = "0.2 mg/L",
      ["site.water.free_chlorine"] = "1 mg/L", ["site.water.ph"] = "7.4" }
    return example.join { {
      { "eyes shut", given = like(base, { eyes_open = "no" }), expect = nothing },
      { "a mask", given = like(base, { mask = "yes" }), expect = nothing },
      { "ten minutes, good water", given = base, expect = hazard { likelihood = 1, severity = 1 } },
      { "half an hour", given = like(base, { eyes_open_time = "30 min" }),
        expect = hazard { likelihood = 3, severity = 1 } },
      { "much chlorine", given = like(base, { ["site.water.free_chlorine"] = "5 mg/L" }),
        expect = hazard { likelihood = 2, severity = 1 } },
      { "chloramines, pH high", given = like(base,
        { ["site.water.combined_chlorine"] = "0.8 mg/L", ["site.water.ph"] = "8.1" }),
        expect = hazard { likelihood = 3, severity = 2 } },
      { "pH low", given = like(base, { ["site.water.ph"] = "6.6" }),
        expect = hazard { likelihood = 2, severity = 1 } },
      { "time not known", given = like(base, { eyes_open_time = "?" }),
        expect = hazard { likelihood = 5, severity = 1 } },
      { "limited", given = like(base, { eyes_open_time = "80 min" }), with = { "eyes-open-limit" },
        expect = hazard { likelihood = 1, severity = 1 } },
    },
      example.edges(base, "site.water.combined_chlorine", 1, { "0.4 mg/L", 1, "0.41 mg/L", 2 }),
      example.edges(base, "site.water.free_chlorine", 1, { "3 mg/L", 1, "3.1 mg/L", 2 }),
      example.edges(base, "site.water.ph", 1, { "7.0", 1, "6.9", 2, "7.8", 1, "7.9", 2 }),
      example.edges(base, "eyes_open_time", 1,
        { "10 min", 1, "10.3 min", 2, "20 min", 2, "20.5 min", 3, "30 min", 3, "31 min", 4, "60 min", 4, "61 min", 5 }),
    }
  end)(),
}

rule {
  id = "body.fatigue",
  title = "Tired under water",
  each = "person-day",
  harm = "anyone with long wet days: slow, careless, does not notice trouble",
  sources = {
    "common practice: up to about 3 h under water a day as a ceiling, breathing from a mouthpiece between takes; children less",
    "common practice: five such days in seven; half of it for those under 18",
  },
  limits = { ceiling = { at_most = "180 min" }, young = { at_most = "90 min" } },
  when = function(pd) return pd.time > q"0 min" end,
  assess = function(pd, limit)
    local young = pd.age < q"18 year"
    local ceiling = limit.ceiling
    if young then ceiling = limit.young end
    local by_day = scale.limit(pd.time, ceiling * 0.5, ceiling * 0.75, ceiling, ceiling * 1.25)
    local by_week = scale.limit(pd.time_7_days, ceiling * 3, ceiling * 4, ceiling * 5, ceiling * 6)
    hazard {
      likelihood = scale.protection(max(by_day, by_week), {},
        { pd.at_place_time > q"12 h", pd.preparation_time > q"4 h" }),
      severity = 3,
      because = "{pd.time} under water that day, {pd.time_7_days} in seven days; ceiling {ceiling} a day; "
        .. "{pd.at_place_time} at the place, {pd.preparation_time} of it in make-up",
      values = { ceiling = ceiling, total = pd.time,
        ceiling_in_7_days = ceiling * 5, total_in_7_days = pd.time_7_days },
      controls = { "under-water-cap", "double-shares", "split-days", "trained-double" },
      who = "1 person under water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { ["immersions.1.time"] = "60 min", ["immersions.1.preparation_time"] = "2 h",
      ["day.records"] = "none",
      ["person.born"] = "1990-01-01", ["day.date"] = "2027-03-09", ["day.call"] = "08:00",
        ["day.wrap"] = "18:00" }
    return example.join { {
      { "an hour", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "never under water", given = like(base, { ["immersions.1.time"] = "0 min" }), expect = nothing },
      { "three hours", given = like(base, { ["immersions.1.time"] = "180 min" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "long day, long make-up", given = like(base,
        { ["day.wrap"] = "22:00", ["immersions.1.preparation_time"] = "6 h" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "a child", given = like(base, { ["person.born"] = "2014-01-01" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "time not known", given = like(base, { ["immersions.1.time"] = "?" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "capped", given = like(base, { ["immersions.1.time"] = "200 min" }), with = { "under-water-cap" },
        expect = hazard { likelihood = 1, severity = 3 } },
    },
      example.edges(base, "immersions.1.time", 3,
        { "90 min", 1, "92 min", 2, "135 min", 2, "137 min", 3, "180 min", 3, "184 min", 4, "225 min", 4, "229 min", 5 }),
      example.edges(base, "time_7_days", 3,
        { "9 h", 1, "9.1 h", 2, "12 h", 2, "12.2 h", 3, "15 h", 3, "15.2 h", 4, "18 h", 4, "18.3 h", 5 }),
      example.edges(base, "person.born", 3, { "2009-03-09", 1, "2009-03-10", 2 }),
      example.edges(like(base, { ["person.born"] = "2014-01-01" }), "immersions.1.time", 3, { "90 min", 3, "92 min", 4 }),
      example.edges(base, "day.wrap", 3, { "20:00", 1, "20:20", 2 }),
      example.edges(base, "immersions.1.preparation_time", 3, { "4 h", 1, "4.1 h", 2 }),
    }
  end)(),
}
