-- Clarity, sight of the performer, testing.

local tank = { water_body = "tank" }

rule {
  id = "water.clarity",
  title = "The floor cannot be seen",
  each = "site",
  harm = "anyone under water: in trouble and not seen",
  sources = {
    "ARM 37.115.1315 (Montana, 2010): at most 1.0 NTU; excellent below 0.5",
    "common practice: the floor is seen from the edge, at every place people are",
  },
  when = waters.treated,
  assess = function(s)
    local by_turbidity = scale.limit(s.water.turbidity, q"0.5 NTU", q"0.75 NTU", q"1 NTU", q"2 NTU")
    local by_depth = scale.reserve(s.water.visibility, s.basin.depth)
    local rescued = rescue.to_breath(s.emergency)
    hazard {
      likelihood = max(by_turbidity, min(by_depth, 4)),
      severity = scale.without_air(rescued),
      because = "{s.water.turbidity} of turbidity; a diver is seen over {s.water.visibility}, the floor is at {s.basin.depth}",
      values = { rescued = rescued },
      controls = { "clear-the-water", "stop-when-cloudy" },
      also = { "hand-on-performer" },
        who = "everyone under water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(tank, { ["water.turbidity"] = "0.4 NTU", ["water.visibility"] = "15 m",
      ["basin.depth"] = "4 m",
      ["emergency.notice_time"] = "5 s", ["emergency.reach_time"] = "5 s",
        ["emergency.surface_time"] = "10 s",
      ["emergency.deck_time"] = "15 s", ["emergency.breath_time"] = "10 s" })
    return example.join { {
      { "a quarry", given = { water_body = "quarry" }, expect = nothing },
      { "clear", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "at the limit", given = like(base, { ["water.turbidity"] = "1 NTU" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "cloudy", given = like(base, { ["water.turbidity"] = "5 NTU", ["water.visibility"] = "3 m" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "dyed: clear of dirt, but dark", given = like(base, { ["water.visibility"] = "4.1 m" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "not measured", given = like(base, { ["water.turbidity"] = "?" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "slow rescue", given = like(base, { ["emergency.notice_time"] = "60 s" }),
        expect = hazard { likelihood = 1, severity = 4 } },
      { "filtered", given = like(base, { ["water.turbidity"] = "5 NTU", ["water.visibility"] = "3 m" }),
        with = { "clear-the-water" }, expect = hazard { likelihood = 1, severity = 3 } },
    },
      example.edges(base, "water.turbidity", 3,
        { "0.5 NTU", 1, "0.51 NTU", 2, "0.75 NTU", 2, "0.77 NTU", 3, "1 NTU", 3, "1.03 NTU", 4,
          "2 NTU", 4, "2.05 NTU", 5 }),
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
        because = "a diver is seen over {seen} only, and not everyone is held by a hand or a line",
          values = { seen = seen },
        controls = { "clear-the-water", "hand-on-performer" },
      }
    end
    local rescued = rescue.to_breath(t.day.site.emergency)
    hazard {
      likelihood = scale.protection(scale.reserve(seen, t.sight_distance), { held }),
      severity = scale.without_air(rescued),
      because = "the watching diver is {t.sight_distance} away and sees {seen}",
        values = { seen = seen, rescued = rescued },
      controls = { "clear-the-water", "hand-on-performer", "stop-when-cloudy", "no-additive" },
      also = { "diver-at-arms-reach" },
      who = "everyone under water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { sight_distance = "4 m", ["day.site.water.visibility"] = "15 m",
      ["immersions.1.touch_contact"] = "no",
      ["immersions.1.line_tended"] = "no", ["day.site.emergency.notice_time"] = "5 s",
        ["day.site.emergency.reach_time"] = "5 s",
      ["day.site.emergency.surface_time"] = "10 s", ["day.site.emergency.deck_time"] = "15 s",
      ["day.site.emergency.breath_time"] = "10 s" }
    return example.join { {
      { "nobody watches from a distance", given = like(base, { sight_distance = "0 m" }),
        expect = nothing },
      { "clear", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "just seen", given = like(base, { ["day.site.water.visibility"] = "4.5 m" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "milk", given = like(base, { ["day.site.water.visibility"] = "0.4 m" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 3 } } },
      { "milk, on a line", given = like(base,
        { ["day.site.water.visibility"] = "0.4 m", ["immersions.1.line_tended"] = "yes" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "not measured", given = like(base, { ["day.site.water.visibility"] = "?" }), expect = stop {} },
      { "cleared", given = like(base, { ["day.site.water.visibility"] = "0.4 m" }),
        with = { "clear-the-water" },
        expect = hazard { likelihood = 1, severity = 3 } },
    },
      example.edges(base, "day.site.water.visibility", 3,
        { "0.9 m", 5, "0.88 m", { stop {}, hazard { likelihood = 5, severity = 3 } } }),
      example.edges(like(base, { ["day.site.water.visibility"] = "0.4 m" }), "immersions.1.touch_contact", 3,
        { "yes", 4 }),
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
  when = waters.treated,
  assess = function(s)
    hazard {
      likelihood = scale.protection(scale.limit(s.water.test_interval, q"2 h", q"3 h", q"4 h", q"8 h"), {},
        { not s.plant.log_kept }),
      severity = 2, about = "tests on site", because = "up to {s.water.test_interval} between tests",
      controls = { "water-test-schedule" }, who = "everyone in the water",
    }
    if s.water.pseudomonas >= q"1 cfu/100mL" or s.water.colony_count > q"10000 cfu/100mL" then
      hazard {
        likelihood = 4, severity = 3, about = "laboratory",
        because = "the laboratory found Pseudomonas {s.water.pseudomonas}, colony count {s.water.colony_count}",
        also = { "raise-chlorine", "clear-the-water", "fresh-water" }, who = "everyone in the water",
      }
    end
  end,
  examples = (function()
    local like = example.like
    local base = like(tank, { ["water.test_interval"] = "2 h", ["plant.log_kept"] = "yes",
      ["water.pseudomonas"] = "0 cfu/100mL",
      ["water.colony_count"] = "500 cfu/100mL" })
    return example.join { {
      { "a lake", given = { water_body = "lake" }, expect = nothing },
      { "every two hours, logged", given = base, expect = hazard { likelihood = 1, severity = 2 } },
      { "once a day, no log", given = like(base,
        { ["water.test_interval"] = "24 h", ["plant.log_kept"] = "no" }),
        expect = hazard { likelihood = 5, severity = 2 } },
      { "Pseudomonas", given = like(base, { ["water.pseudomonas"] = "20 cfu/100mL" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "many colonies", given = like(base, { ["water.colony_count"] = "50000 cfu/100mL" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "interval not known", given = like(base, { ["water.test_interval"] = "?" }),
        expect = hazard { likelihood = 5, severity = 2 } },
      { "scheduled", given = like(base, { ["water.test_interval"] = "24 h", ["plant.log_kept"] = "no" }),
        with = { "water-test-schedule" }, expect = hazard { likelihood = 1, severity = 2 } },
    },
      example.edges(base, "water.test_interval", 2,
        { "2 h", 1, "2.05 h", 2, "3 h", 2, "3.1 h", 3, "4 h", 3, "4.1 h", 4, "8 h", 4, "8.2 h", 5 }),
      example.edges(base, "water.pseudomonas", 2,
        { "0.97 cfu/100mL", 1, "1 cfu/100mL", hazard { likelihood = 4, severity = 3 } }),
      example.edges(base, "water.colony_count", 2,
        { "10000 cfu/100mL", 1, "10200 cfu/100mL", hazard { likelihood = 4, severity = 3 } }),
    }
  end)(),
}
