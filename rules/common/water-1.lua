-- Treated water: disinfectant, chloramines, turnover, clarity, testing.

-- Whether the water is kept clean by treatment: not a natural body of water.
local function treated(site)
  local body = site.water_body
  return body == "tank" or body == "pool" or body == "stage-pool" or body == "flooded-set"
end

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
  when = treated,
  assess = function(s)
    local water = s.water
    local kind = water.disinfectant
    local busy = s.plant.bathers_per_day > 50
    local controls = { "raise-chlorine", "hold-ph", "uv-treatment", "fewer-bathers", "fresh-water", "water-test-schedule" }
    local likelihood = 4
    local because = "disinfectant: {s.water.disinfectant}; nothing measured that stays in the water"
    local values = nil
    if kind == "chlorine" or kind == "salt-chlorine" then
      local active = calc.hypochlorous_acid(water.free_chlorine, water.ph, water.temperature)
      likelihood = scale.minimum(active, q"0.45 mg/L", q"0.3 mg/L", q"0.2 mg/L", q"0.1 mg/L")
      values = { active = active }
      because = "free chlorine {s.water.free_chlorine} at pH {s.water.ph}: {active} of hypochlorous acid"
      if water.cyanuric_acid > q"0 mg/L" then
        local by_ratio = scale.minimum(water.free_chlorine * 45, water.cyanuric_acid * 2, water.cyanuric_acid * 1.5,
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
      severity = 3, because = because, values = values, controls = controls, who = "everyone in the water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(tank, { ["water.disinfectant"] = "chlorine", ["water.free_chlorine"] = "1.5 mg/L", ["water.ph"] = "7.4",
      ["water.temperature"] = "28 degC", ["water.cyanuric_acid"] = "0 mg/L", ["plant.bathers_per_day"] = "20" })
    return {
      { "a lake", given = { water_body = "lake" }, expect = nothing },
      { "well kept", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "little, pH high", given = like(base, { ["water.free_chlorine"] = "0.6 mg/L", ["water.ph"] = "7.9" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "hardly any, many people", given = like(base, { ["water.free_chlorine"] = "0.2 mg/L", ["plant.bathers_per_day"] = "80" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "much cyanurate", given = like(base, { ["water.cyanuric_acid"] = "80 mg/L" }), expect = hazard { likelihood = 4, severity = 3 } },
      { "bromine", given = like(base, { ["water.disinfectant"] = "bromine", ["water.bromine"] = "3.5 mg/L" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "nothing in it", given = like(base, { ["water.disinfectant"] = "none" }), expect = hazard { likelihood = 4, severity = 3 } },
      { "chlorine not measured", given = like(base, { ["water.free_chlorine"] = "?" }), expect = hazard { likelihood = 5, severity = 3 } },
      { "dosed", given = like(base, { ["water.free_chlorine"] = "0.2 mg/L" }), with = { "raise-chlorine" },
        expect = hazard { likelihood = 1, severity = 3 } },
    }
  end)(),
}

rule {
  id = "water.too-much-chlorine",
  title = "Too much chlorine, or bound chlorine",
  each = "site",
  harm = "everyone in or by the water: sore eyes and skin, cough, asthma",
  sources = {
    "CDC Model Aquatic Health Code (2018) as quoted: free chlorine at most 10 mg/L",
    "WHO vol 2 (2006): at most 5 mg/L (from memory)",
    "DIN 19643-1 (2023) as quoted: combined chlorine at most 0.2 mg/L",
    "Quebec Q-2, r. 39: chloramines at most 0.5 mg/L indoors, 1.0 mg/L outdoors",
    "INRS as quoted: trichloramine in air 0.5 mg/m3 over 8 h; 0.3 mg/m3 for comfort",
  },
  when = treated,
  assess = function(s)
    local water = s.water
    if water.free_chlorine > q"10 mg/L" then
      stop { because = "free chlorine {s.water.free_chlorine}: above 10 mg/L nobody goes in", controls = { "lower-chlorine" } }
    end
    hazard {
      likelihood = scale.limit(water.free_chlorine, q"3 mg/L", q"4 mg/L", q"5 mg/L", q"10 mg/L"),
      severity = 2, about = "free chlorine", because = "free chlorine {s.water.free_chlorine}",
      controls = { "lower-chlorine", "hold-ph" }, who = "everyone in the water",
    }
    local outdoors = s.indoor and 1 or 2
    hazard {
      likelihood = scale.limit(water.combined_chlorine, q"0.2 mg/L" * outdoors, q"0.3 mg/L" * outdoors, q"0.5 mg/L" * outdoors,
        q"1 mg/L" * outdoors),
      severity = 2, about = "combined chlorine", because = "combined chlorine {s.water.combined_chlorine}",
      controls = { "uv-treatment", "fresh-water", "ventilate-hall", "fewer-bathers" }, who = "everyone in or by the water",
    }
    if s.indoor then
      hazard {
        likelihood = scale.limit(s.air.trichloramine, q"0.2 mg/m3", q"0.3 mg/m3", q"0.5 mg/m3", q"1.5 mg/m3"),
        severity = 2, about = "trichloramine in the air", because = "trichloramine {s.air.trichloramine} above the water",
        controls = { "ventilate-hall", "uv-treatment", "fresh-water" }, who = "everyone in the hall",
      }
    end
  end,
  examples = (function()
    local like = example.like
    local base = like(tank, { ["water.free_chlorine"] = "1.5 mg/L", ["water.combined_chlorine"] = "0.2 mg/L", indoor = "yes",
      ["air.trichloramine"] = "0.1 mg/m3" })
    return {
      { "a river", given = { water_body = "river" }, expect = nothing },
      { "well kept", given = base, expect = hazard { likelihood = 1, severity = 2 } },
      { "chloramines indoors", given = like(base, { ["water.combined_chlorine"] = "0.8 mg/L" }),
        expect = hazard { likelihood = 4, severity = 2 } },
      { "the same outdoors", given = like(base, { ["water.combined_chlorine"] = "0.8 mg/L", indoor = "no" }),
        expect = hazard { likelihood = 3, severity = 2 } },
      { "sharp air", given = like(base, { ["air.trichloramine"] = "0.6 mg/m3" }), expect = hazard { likelihood = 4, severity = 2 } },
      { "shock dose left in", given = like(base, { ["water.free_chlorine"] = "14 mg/L" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 2 } } },
      { "free chlorine not measured", given = like(base, { ["water.free_chlorine"] = "?" }), expect = stop {} },
      { "brought down", given = like(base, { ["water.free_chlorine"] = "14 mg/L" }), with = { "lower-chlorine" },
        expect = hazard { likelihood = 1, severity = 2 } },
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
    "WHO as quoted in Br J Sports Med: 30 L of fresh water for each bather and day",
    "Gage and Bidwell (1926): one turnover filters 63 %",
  },
  when = treated,
  assess = function(s)
    local turnover = calc.turnover_time(s.basin.volume, s.plant.flow)
    local busy = s.plant.bathers_per_day > 50
    hazard {
      likelihood = scale.protection(scale.limit(turnover, q"4 h", q"5 h", q"6 h", q"8 h"), {},
        { s.plant.filter == "none", busy }),
      severity = 2, about = "turnover", because = "the water turns over in {turnover}", values = { turnover = turnover },
      controls = { "more-flow", "fewer-bathers" }, who = "everyone in the water",
    }
    hazard {
      likelihood = scale.minimum(s.plant.fresh_water, q"40 L", q"35 L", q"30 L", q"15 L"),
      severity = 1, about = "fresh water", because = "{s.plant.fresh_water} of fresh water for each bather and day",
      controls = { "fresh-water", "fewer-bathers" }, who = "everyone in the water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(tank, { ["basin.volume"] = "800 m3", ["plant.flow"] = "220 m3/h", ["plant.filter"] = "sand",
      ["plant.bathers_per_day"] = "20", ["plant.fresh_water"] = "40 L" })
    return {
      { "the sea", given = { water_body = "sea" }, expect = nothing },
      { "under four hours", given = base, expect = hazard { likelihood = 1, severity = 2 } },
      { "a slow plant", given = like(base, { ["plant.flow"] = "120 m3/h" }), expect = hazard { likelihood = 4, severity = 2 } },
      { "many people", given = like(base, { ["plant.bathers_per_day"] = "80" }), expect = hazard { likelihood = 2, severity = 2 } },
      { "no filter", given = like(base, { ["plant.filter"] = "none", ["plant.flow"] = "150 m3/h" }),
        expect = hazard { likelihood = 4, severity = 2 } },
      { "no fresh water", given = like(base, { ["plant.fresh_water"] = "0 L" }), expect = hazard { likelihood = 5, severity = 1 } },
      { "flow not known", given = like(base, { ["plant.flow"] = "?" }), expect = hazard { likelihood = 5, severity = 2 } },
      { "fewer people", given = like(base, { ["plant.bathers_per_day"] = "80" }), with = { "fewer-bathers" },
        expect = hazard { likelihood = 1, severity = 2 } },
    }
  end)(),
}

rule {
  id = "water.clarity",
  title = "The floor cannot be seen",
  each = "site",
  harm = "anyone under water: in trouble and not seen",
  sources = {
    "ARM 37.115.1315 (Montana, 2010): at most 1.0 NTU; excellent below 0.5",
    "common practice: the floor is seen from the edge, at every place people are",
  },
  when = treated,
  assess = function(s)
    local by_turbidity = scale.limit(s.water.turbidity, q"0.5 NTU", q"0.75 NTU", q"1 NTU", q"2 NTU")
    local by_depth = scale.reserve(s.water.visibility, s.basin.depth)
    local rescued = rescue.to_breath(s.emergency)
    hazard {
      likelihood = max(by_turbidity, min(by_depth, 4)),
      severity = scale.without_air(rescued),
      because = "{s.water.turbidity} of turbidity; a diver is seen over {s.water.visibility}, the floor is at {s.basin.depth}",
      values = { rescued = rescued },
      controls = { "clear-the-water", "stop-when-cloudy", "hand-on-performer" }, who = "everyone under water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(tank, { ["water.turbidity"] = "0.4 NTU", ["water.visibility"] = "15 m", ["basin.depth"] = "4 m",
      ["emergency.notice_time"] = "5 s", ["emergency.reach_time"] = "5 s", ["emergency.surface_time"] = "10 s",
      ["emergency.deck_time"] = "15 s", ["emergency.breath_time"] = "10 s" })
    return {
      { "a quarry", given = { water_body = "quarry" }, expect = nothing },
      { "clear", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "at the limit", given = like(base, { ["water.turbidity"] = "1 NTU" }), expect = hazard { likelihood = 3, severity = 3 } },
      { "cloudy", given = like(base, { ["water.turbidity"] = "5 NTU", ["water.visibility"] = "3 m" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "dyed: clear of dirt, but dark", given = like(base, { ["water.visibility"] = "4.1 m" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "not measured", given = like(base, { ["water.turbidity"] = "?" }), expect = hazard { likelihood = 5, severity = 3 } },
      { "slow rescue", given = like(base, { ["emergency.notice_time"] = "60 s" }), expect = hazard { likelihood = 1, severity = 4 } },
      { "filtered", given = like(base, { ["water.turbidity"] = "5 NTU", ["water.visibility"] = "3 m" }),
        with = { "clear-the-water" }, expect = hazard { likelihood = 1, severity = 3 } },
    }
  end)(),
}

-- Whether everyone under water is held by a hand or a line.
local function all_held(task)
  for _, i in ipairs(task.immersions) do
    if not (i.touch_contact or i.line_tended) then return false end
  end
  return true
end

rule {
  id = "water.sight-of-performer",
  title = "The watching diver does not see the performer",
  each = "task",
  harm = "performer: in trouble, or out of gas, and not seen",
  sources = {
    "US Army Corps EM 385-1-1 section 30 (course summary): no scuba below 3 ft of visibility",
    "common practice: the rescuer sees the performer all the time, with a reserve for what the take stirs up",
  },
  when = function(t) return t.sight_distance > q"0 m" end,
  assess = function(t)
    local seen = t.day.site.water.visibility
    local held = all_held(t)
    if seen < q"0.9 m" and not held then
      stop {
        because = "a diver is seen over {seen} only, and not everyone is held by a hand or a line", values = { seen = seen },
        controls = { "clear-the-water", "hand-on-performer" },
      }
    end
    local rescued = rescue.to_breath(t.day.site.emergency)
    hazard {
      likelihood = scale.protection(scale.reserve(seen, t.sight_distance), { held }),
      severity = scale.without_air(rescued),
      because = "the watching diver is {t.sight_distance} away and sees {seen}", values = { seen = seen, rescued = rescued },
      controls = { "clear-the-water", "diver-at-arms-reach", "hand-on-performer", "stop-when-cloudy", "no-additive" },
      who = "everyone under water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { sight_distance = "4 m", ["day.site.water.visibility"] = "15 m", ["immersions.1.touch_contact"] = "no",
      ["immersions.1.line_tended"] = "no", ["day.site.emergency.notice_time"] = "5 s", ["day.site.emergency.reach_time"] = "5 s",
      ["day.site.emergency.surface_time"] = "10 s", ["day.site.emergency.deck_time"] = "15 s",
      ["day.site.emergency.breath_time"] = "10 s" }
    return {
      { "nobody watches from a distance", given = like(base, { sight_distance = "0 m" }), expect = nothing },
      { "clear", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "just seen", given = like(base, { ["day.site.water.visibility"] = "4.5 m" }), expect = hazard { likelihood = 4, severity = 3 } },
      { "milk", given = like(base, { ["day.site.water.visibility"] = "0.4 m" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 3 } } },
      { "milk, on a line", given = like(base, { ["day.site.water.visibility"] = "0.4 m", ["immersions.1.line_tended"] = "yes" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "not measured", given = like(base, { ["day.site.water.visibility"] = "?" }), expect = stop {} },
      { "cleared", given = like(base, { ["day.site.water.visibility"] = "0.4 m" }), with = { "clear-the-water" },
        expect = hazard { likelihood = 1, severity = 3 } },
    }
  end)(),
}

rule {
  id = "water.testing",
  title = "The water is not tested often enough",
  each = "site",
  harm = "everyone in the water: what is wrong with it is found too late",
  sources = {
    "common practice: chlorine and pH before the first entry and every two to three hours in use; a log",
    "laboratory: no Pseudomonas, colony count at most 10 000 in 100 mL (from memory: check the text)",
  },
  when = treated,
  assess = function(s)
    hazard {
      likelihood = scale.protection(scale.limit(s.water.test_interval, q"2 h", q"3 h", q"4 h", q"8 h"), {}, { not s.plant.log_kept }),
      severity = 2, about = "tests on site", because = "up to {s.water.test_interval} between tests",
      controls = { "water-test-schedule" }, who = "everyone in the water",
    }
    if s.water.pseudomonas >= q"1 cfu/100mL" or s.water.colony_count > q"10000 cfu/100mL" then
      hazard {
        likelihood = 4, severity = 3, about = "laboratory",
        because = "the laboratory found Pseudomonas {s.water.pseudomonas}, colony count {s.water.colony_count}",
        controls = { "raise-chlorine", "clear-the-water", "fresh-water" }, who = "everyone in the water",
      }
    end
  end,
  examples = (function()
    local like = example.like
    local base = like(tank, { ["water.test_interval"] = "2 h", ["plant.log_kept"] = "yes", ["water.pseudomonas"] = "0 cfu/100mL",
      ["water.colony_count"] = "500 cfu/100mL" })
    return {
      { "a lake", given = { water_body = "lake" }, expect = nothing },
      { "every two hours, logged", given = base, expect = hazard { likelihood = 1, severity = 2 } },
      { "once a day, no log", given = like(base, { ["water.test_interval"] = "24 h", ["plant.log_kept"] = "no" }),
        expect = hazard { likelihood = 5, severity = 2 } },
      { "Pseudomonas", given = like(base, { ["water.pseudomonas"] = "20 cfu/100mL" }), expect = hazard { likelihood = 4, severity = 3 } },
      { "many colonies", given = like(base, { ["water.colony_count"] = "50000 cfu/100mL" }), expect = hazard { likelihood = 4, severity = 3 } },
      { "interval not known", given = like(base, { ["water.test_interval"] = "?" }), expect = hazard { likelihood = 5, severity = 2 } },
      { "scheduled", given = like(base, { ["water.test_interval"] = "24 h", ["plant.log_kept"] = "no" }),
        with = { "water-test-schedule" }, expect = hazard { likelihood = 1, severity = 2 } },
    }
  end)(),
}
