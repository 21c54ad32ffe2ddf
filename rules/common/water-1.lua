-- Treated water: disinfectant, chloramines, turnover, fresh water.

local tank = { water_body = "tank" }

rule {
  id = "water.too-little-disinfectant",
  title = "Too little disinfectant",
  each = "site",
  harm = "everyone in the water: infection of gut, skin, ears and eyes",
  sources = {
    "CDC Model Aquatic Health Code (2018) as quoted: free chlorine 1 mg/L, with cyanurate 2 mg/L; cyanurate at most 90 mg/L",
    "CDC MAHC (2023): cyanurate at most 45 times free chlorine (from memory: check the text)",
    "DIN 19643-1 (2023) as quoted: free chlorine from 0.3 mg/L at pH 6.5 to 7.2",
    "La Porte County (Indiana) Code 92.25: bromine from 2 mg/L",
    "hypochlorous acid by J.C. Morris (1966): calc.hypochlorous_acid",
  },
  reasoning = "what kills is hypochlorous acid: the limits of it used here are those of DIN at its highest pH "
    .. "(0.2 mg/L) and about twice it with the margin",
  worst = { likelihood = 5, severity = 3 },
  when = waters.treated,
  assess = function(s)
    local water = s.water
    local kind = water.disinfectant
    local busy = s.plant.bathers_per_day > 50
    local controls = { "raise-chlorine", "hold-ph", "fewer-bathers", "fresh-water" }
    local also = { "uv-treatment", "water-test-schedule" }
    local likelihood = 4
    local because = "disinfectant: {s.water.disinfectant}; nothing measured that stays in the water"
    local values = nil
    if kind == "chlorine" or kind == "salt-chlorine" then
      local active = calc.hypochlorous_acid(water.free_chlorine, water.ph, water.temperature)
      likelihood = scale.minimum(active, q"0.45 mg/L", q"0.3 mg/L", q"0.2 mg/L", q"0.1 mg/L")
      values = { active = active }
      because = "free chlorine {s.water.free_chlorine} at pH {s.water.ph}: {active} of hypochlorous acid"
      if water.cyanuric_acid > q"0 mg/L" then
        local by_ratio = scale.minimum(water.free_chlorine * 45, water.cyanuric_acid * 2,
          water.cyanuric_acid * 1.5,
          water.cyanuric_acid, water.cyanuric_acid * 0.5)
        likelihood = max(likelihood, by_ratio)
        because = "free chlorine {s.water.free_chlorine} at pH {s.water.ph}, bound by {s.water.cyanuric_acid} of cyanurate"
      end
    elseif kind == "bromine" then
      likelihood = scale.minimum(water.bromine, q"4 mg/L", q"3 mg/L", q"2 mg/L", q"1 mg/L")
      because = "bromine {s.water.bromine}"
    end
    hazard {
      likelihood = scale.protection(likelihood, {}, { busy and likelihood > 1 }),
      severity = 3, because = because, values = values, controls = controls, also = also, who = "everyone in the water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(tank, { ["water.disinfectant"] = "chlorine", ["water.free_chlorine"] = "1.5 mg/L",
      ["water.ph"] = "7.4",
      ["water.temperature"] = "28 degC", ["water.cyanuric_acid"] = "0 mg/L",
        ["plant.bathers_per_day"] = "20" })
    return example.join { {
      { "a lake", given = { water_body = "lake" }, expect = nothing },
      { "well kept", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "little, pH high", given = like(base,
        { ["water.free_chlorine"] = "0.6 mg/L", ["water.ph"] = "7.9" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "hardly any, many people", given = like(base,
        { ["water.free_chlorine"] = "0.2 mg/L", ["plant.bathers_per_day"] = "80" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "much cyanurate", given = like(base, { ["water.cyanuric_acid"] = "80 mg/L" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "bromine", given = like(base,
        { ["water.disinfectant"] = "bromine", ["water.bromine"] = "3.5 mg/L" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "nothing in it", given = like(base, { ["water.disinfectant"] = "none" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "chlorine not measured", given = like(base, { ["water.free_chlorine"] = "?" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "dosed", given = like(base, { ["water.free_chlorine"] = "0.2 mg/L" }), with = { "raise-chlorine" },
        expect = hazard { likelihood = 1, severity = 3 } },
    },
      -- at pH 7.4 and 28 degC 56.4 % of it is hypochlorous acid
      example.edges(base, "water.free_chlorine", 3,
        { "0.8 mg/L", 1, "0.78 mg/L", 2, "0.54 mg/L", 2, "0.52 mg/L", 3, "0.36 mg/L", 3, "0.35 mg/L", 4,
          "0.18 mg/L", 4, "0.174 mg/L", 5 }),
      example.edges(like(base, { ["water.free_chlorine"] = "0.78 mg/L" }), "plant.bathers_per_day", 3,
        { "50", 2, "51", 3 }),
      example.edges(base, "plant.bathers_per_day", 3, { "80", 1 }),
      example.edges(like(base, { ["water.disinfectant"] = "salt-chlorine" }), "water.free_chlorine", 3,
        { "0.8 mg/L", 1, "0.78 mg/L", 2 }),
      -- 45 times 1.5 mg/L is 67.5 mg/L
      example.edges(base, "water.cyanuric_acid", 3,
        { "33 mg/L", 1, "34.5 mg/L", 2, "44.5 mg/L", 2, "45.5 mg/L", 3, "67 mg/L", 3, "68.5 mg/L", 4,
          "134 mg/L", 4, "137 mg/L", 5 }),
      example.edges(like(base, { ["water.disinfectant"] = "bromine" }), "water.bromine", 3,
        { "4 mg/L", 1, "3.9 mg/L", 2, "3 mg/L", 2, "2.9 mg/L", 3, "2 mg/L", 3, "1.95 mg/L", 4,
          "1 mg/L", 4, "0.97 mg/L", 5 }),
    }
  end)(),
}

rule {
  id = "water.too-much-chlorine",
  title = "Too much chlorine",
  each = "site",
  harm = "everyone in the water: sore eyes and skin, bleached costume and hair",
  sources = {
    "CDC Model Aquatic Health Code (2018) as quoted: free chlorine at most 10 mg/L",
    "WHO vol 2 (2006): at most 5 mg/L (from memory: check the text)",
  },
  when = waters.treated,
  assess = function(s)
    local water = s.water
    if water.free_chlorine > q"10 mg/L" then
      stop { because = "free chlorine {s.water.free_chlorine}: above 10 mg/L nobody goes in",
        controls = { "lower-chlorine" } }
    end
    hazard {
      likelihood = scale.limit(water.free_chlorine, q"3 mg/L", q"4 mg/L", q"5 mg/L", q"10 mg/L"),
      severity = 2, because = "free chlorine {s.water.free_chlorine}",
      controls = { "lower-chlorine" },
      also = { "hold-ph" }, who = "everyone in the water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(tank, { ["water.free_chlorine"] = "1.5 mg/L" })
    return example.join { {
      { "a river", given = { water_body = "river" }, expect = nothing },
      { "well kept", given = base, expect = hazard { likelihood = 1, severity = 2 } },
      { "at the WHO limit", given = like(base, { ["water.free_chlorine"] = "5 mg/L" }),
        expect = hazard { likelihood = 3, severity = 2 } },
      { "shock dose left in", given = like(base, { ["water.free_chlorine"] = "14 mg/L" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 2 } } },
      { "not measured", given = like(base, { ["water.free_chlorine"] = "?" }), expect = stop {} },
      { "brought down", given = like(base, { ["water.free_chlorine"] = "14 mg/L" }),
        with = { "lower-chlorine" },
        expect = hazard { likelihood = 1, severity = 2 } },
    },
      example.edges(base, "water.free_chlorine", 2,
        { "3 mg/L", 1, "3.1 mg/L", 2, "4 mg/L", 2, "4.1 mg/L", 3, "5 mg/L", 3, "5.1 mg/L", 4, "10 mg/L", 4,
          "10.3 mg/L", { stop {}, hazard { likelihood = 5, severity = 2 } } }),
      example.edges(base, "water_body", 2, { "pool", 1, "stage-pool", 1, "flooded-set", 1 }),
    }
  end)(),
}

rule {
  id = "water.combined-chlorine",
  title = "Bound chlorine in the water",
  each = "site",
  harm = "everyone in or by the water: sore eyes and skin, cough, asthma",
  sources = {
    "DIN 19643-1 (2023) as quoted: combined chlorine at most 0.2 mg/L",
    "Quebec Q-2, r. 39: chloramines at most 0.5 mg/L indoors, 1.0 mg/L outdoors",
  },
  when = waters.treated,
  assess = function(s)
    local outdoors = s.indoor and 1 or 2
    hazard {
      likelihood = scale.limit(s.water.combined_chlorine, q"0.2 mg/L" * outdoors, q"0.3 mg/L" * outdoors,
        q"0.5 mg/L" * outdoors, q"1 mg/L" * outdoors),
      severity = 2, because = "combined chlorine {s.water.combined_chlorine}",
      controls = { "uv-treatment", "fresh-water" },
      also = { "ventilate-hall", "fewer-bathers" },
        who = "everyone in or by the water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(tank, { ["water.combined_chlorine"] = "0.2 mg/L", indoor = "yes" })
    return example.join { {
      { "a river", given = { water_body = "river" }, expect = nothing },
      { "well kept", given = base, expect = hazard { likelihood = 1, severity = 2 } },
      { "much of it indoors", given = like(base, { ["water.combined_chlorine"] = "0.8 mg/L" }),
        expect = hazard { likelihood = 4, severity = 2 } },
      { "the same outdoors", given = like(base,
        { ["water.combined_chlorine"] = "0.8 mg/L", indoor = "no" }),
        expect = hazard { likelihood = 3, severity = 2 } },
      { "not measured", given = like(base, { ["water.combined_chlorine"] = "?" }),
        expect = hazard { likelihood = 5, severity = 2 } },
      { "ultraviolet", given = like(base, { ["water.combined_chlorine"] = "0.8 mg/L" }),
        with = { "uv-treatment" },
        expect = hazard { likelihood = 1, severity = 2 } },
    },
      example.edges(base, "water.combined_chlorine", 2,
        { "0.2 mg/L", 1, "0.205 mg/L", 2, "0.3 mg/L", 2, "0.31 mg/L", 3, "0.5 mg/L", 3, "0.51 mg/L", 4,
          "1 mg/L", 4, "1.03 mg/L", 5 }),
      example.edges(like(base, { indoor = "no" }), "water.combined_chlorine", 2, { "0.4 mg/L", 1, "0.41 mg/L", 2 }),
    }
  end)(),
}

rule {
  id = "water.trichloramine",
  title = "Trichloramine in the air of the hall",
  each = "site",
  harm = "everyone in the hall, crew on deck first: cough, tight chest, asthma",
  sources = { "INRS as quoted: 0.5 mg/m3 over 8 h, 1.5 mg/m3 over 15 min; 0.3 mg/m3 for comfort" },
  when = function(s) return s.indoor and waters.treated(s) end,
  assess = function(s)
    hazard {
      likelihood = scale.limit(s.air.trichloramine, q"0.2 mg/m3", q"0.3 mg/m3", q"0.5 mg/m3", q"1.5 mg/m3"),
      severity = 2, because = "trichloramine {s.air.trichloramine} above the water",
      controls = { "ventilate-hall" },
      also = { "uv-treatment", "fresh-water" }, who = "everyone in the hall",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(tank, { indoor = "yes", ["air.trichloramine"] = "0.1 mg/m3" })
    return example.join { {
      { "outdoors", given = like(base, { indoor = "no" }), expect = nothing },
      { "fresh", given = base, expect = hazard { likelihood = 1, severity = 2 } },
      { "sharp air", given = like(base, { ["air.trichloramine"] = "0.6 mg/m3" }),
        expect = hazard { likelihood = 4, severity = 2 } },
      { "not measured", given = like(base, { ["air.trichloramine"] = "?" }),
        expect = hazard { likelihood = 5, severity = 2 } },
      { "ventilated", given = like(base, { ["air.trichloramine"] = "0.6 mg/m3" }),
        with = { "ventilate-hall" },
        expect = hazard { likelihood = 1, severity = 2 } },
    },
      example.edges(base, "air.trichloramine", 2,
        { "0.2 mg/m3", 1, "0.205 mg/m3", 2, "0.3 mg/m3", 2, "0.31 mg/m3", 3, "0.5 mg/m3", 3, "0.51 mg/m3", 4,
          "1.5 mg/m3", 4, "1.53 mg/m3", 5 }),
    }
  end)(),
}

rule {
  id = "water.turnover",
  title = "Water is not filtered often enough",
  each = "site",
  harm = "everyone in the water: infection, irritation, cloudy water",
  sources = {
    "Wis. Admin. Code SPS 390.14: swimming and diving 6 h at most",
    "UK turnover guidance as quoted: 3 to 4 h for a 50 m pool, 4 to 8 h for diving",
    "Gage and Bidwell (1926): one turnover filters 63 %",
  },
  when = waters.treated,
  assess = function(s)
    local turnover = calc.turnover_time(s.basin.volume, s.plant.flow)
    local busy = s.plant.bathers_per_day > 50
    hazard {
      likelihood = scale.protection(scale.limit(turnover, q"4 h", q"5 h", q"6 h", q"8 h"), {},
        { s.plant.filter == "none", busy }),
      severity = 2, because = "the water turns over in {turnover}", values = { turnover = turnover },
      controls = { "more-flow", "fewer-bathers" }, who = "everyone in the water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(tank, { ["basin.volume"] = "800 m3", ["plant.flow"] = "220 m3/h",
      ["plant.filter"] = "sand",
      ["plant.bathers_per_day"] = "20" })
    return example.join { {
      { "the sea", given = { water_body = "sea" }, expect = nothing },
      { "under four hours", given = base, expect = hazard { likelihood = 1, severity = 2 } },
      { "a slow plant", given = like(base, { ["plant.flow"] = "120 m3/h" }),
        expect = hazard { likelihood = 4, severity = 2 } },
      { "many people", given = like(base, { ["plant.bathers_per_day"] = "80" }),
        expect = hazard { likelihood = 2, severity = 2 } },
      { "no filter", given = like(base, { ["plant.filter"] = "none", ["plant.flow"] = "150 m3/h" }),
        expect = hazard { likelihood = 4, severity = 2 } },
      { "flow not known", given = like(base, { ["plant.flow"] = "?" }),
        expect = hazard { likelihood = 5, severity = 2 } },
      { "fewer people", given = like(base, { ["plant.bathers_per_day"] = "80" }),
        with = { "fewer-bathers" },
        expect = hazard { likelihood = 1, severity = 2 } },
    },
      -- 4, 5, 6 and 8 h, and a little more
      example.edges(base, "plant.flow", 2,
        { "200 m3/h", 1, "197 m3/h", 2, "160 m3/h", 2, "158 m3/h", 3, "133.4 m3/h", 3, "131.5 m3/h", 4,
          "100 m3/h", 4, "98 m3/h", 5 }),
      example.edges(base, "plant.bathers_per_day", 2, { "50", 1, "51", 2 }),
    }
  end)(),
}

rule {
  id = "water.fresh-water",
  title = "Too little fresh water is added",
  each = "site",
  harm = "everyone in the water: bound chlorine and salts build up; sore eyes and skin",
  sources = { "WHO as quoted in Br J Sports Med: 30 L of fresh water for each bather and day" },
  when = waters.treated,
  assess = function(s)
    hazard {
      likelihood = scale.minimum(s.plant.fresh_water, q"40 L", q"35 L", q"30 L", q"15 L"),
      severity = 1, because = "{s.plant.fresh_water} of fresh water for each bather and day",
      controls = { "fresh-water" },
      also = { "fewer-bathers" }, who = "everyone in the water",
    }
  end,
  examples = example.join { {
    { "the sea", given = { water_body = "sea" }, expect = nothing },
    { "40 L", given = { water_body = "tank", ["plant.fresh_water"] = "40 L" },
      expect = hazard { likelihood = 1, severity = 1 } },
    { "30 L", given = { water_body = "tank", ["plant.fresh_water"] = "30 L" },
      expect = hazard { likelihood = 3, severity = 1 } },
    { "none", given = { water_body = "tank", ["plant.fresh_water"] = "0 L" },
      expect = hazard { likelihood = 5, severity = 1 } },
    { "not known", given = { water_body = "tank", ["plant.fresh_water"] = "?" },
      expect = hazard { likelihood = 5, severity = 1 } },
    { "more", given = { water_body = "tank", ["plant.fresh_water"] = "5 L" }, with = { "fresh-water" },
      expect = hazard { likelihood = 1, severity = 1 } },
  },
    example.edges({ water_body = "tank" }, "plant.fresh_water", 1,
      { "40 L", 1, "39 L", 2, "35 L", 2, "34.2 L", 3, "30 L", 3, "29.4 L", 4, "15 L", 4, "14.6 L", 5 }),
  },
}
