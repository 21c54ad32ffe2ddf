-- Breathing: held breaths, the count-in, rest between takes, ascent, ears, the
-- mouthpiece and how near a second source is.

-- Where the last breath before the take is drawn: at depth by somebody who
-- gives a mouthpiece away, else at the surface.
local function breath_depth(i)
  if i.gives_up_gas then return i.depth end
  return q"0 m"
end

-- Times of the plan that give first breath after 45 s, face at surface after 20 s.
local plan = {
  ["site.emergency.notice_time"] = "5 s", ["site.emergency.reach_time"] = "5 s",
  ["site.emergency.gas_time"] = "4 s", ["site.emergency.surface_time"] = "10 s",
  ["site.emergency.deck_time"] = "15 s", ["site.emergency.breath_time"] = "10 s",
}

rule {
  id = "air.take-length",
  title = "Held breath longer than a performer can act on",
  each = "immersion",
  harm = "performer: urge to breathe, panic, water swallowed or breathed in",
  sources = {
    "common practice: 15 to 20 s of performance on one breath for a trained performer at tank depth",
    "Sadler et al., Diving Hyperb Med 2020: at light cycling breath was held 46 to 50 s",
  },
  limits = { rest = { at_most = "20 s" }, light = { at_most = "20 s" },
    moderate = { at_most = "15 s" }, hard = { at_most = "10 s" } },
  when = function(i) return i.breath_hold > q"0 s" end,
  assess = function(i, limit)
    local span = limit[i.effort]
    local proved = i.person.breath_hold_proved
    local by_span = scale.limit(i.breath_hold, span * 0.75, span, span * 1.5, span * 2)
    local by_proof = scale.reserve(proved, i.breath_hold)
    hazard {
      likelihood = max(by_span, by_proof),
      severity = scale.without_air(i.air_return_time),
      because = "a {i.breath_hold} take where {span} is the most at this effort; {proved} shown in the water",
      values = { span = span, proved = proved },
      controls = { "cut-the-breath-hold", "shorter-take", "air-within-the-take", "trained-double",
        "calmer-action", "diver-at-arms-reach" },
      who = "1 performer",
    }
  end,
  examples = (function()
    local base = { breath_hold = "15 s", effort = "light", air_return_time = "4 s",
      ["person.breath_hold_proved"] = "50 s" }
    local like = example.like
    return example.join { {
      { "face stays dry", given = like(base, { breath_hold = "0 s" }), expect = nothing },
      { "short take, trained", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "at the edge", given = like(base, { breath_hold = "20 s", ["person.breath_hold_proved"] = "60 s" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "never shown for long", given = like(base, { ["person.breath_hold_proved"] = "16 s" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "a fight", given = like(base, { effort = "hard", ["person.breath_hold_proved"] = "60 s" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "length not known", given = like(base, { breath_hold = "?" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "gas comes late", given = like(base, { air_return_time = "100 s" }),
        expect = hazard { likelihood = 1, severity = 4 } },
      { "cut to short takes", given = like(base, { breath_hold = "40 s" }), with = { "shorter-take" },
        expect = hazard { likelihood = 1, severity = 3 } },
    },
      example.edges(like(base, { ["person.breath_hold_proved"] = "200 s" }), "breath_hold", 3,
        { "15 s", 1, "15.5 s", 2, "20 s", 2, "20.5 s", 3, "30 s", 3, "31 s", 4, "40 s", 4, "41 s", 5 }),
      example.edges(like(base, { ["person.breath_hold_proved"] = "200 s", effort = "rest" }), "breath_hold", 3,
        { "20 s", 2, "20.5 s", 3 }),
      example.edges(like(base, { ["person.breath_hold_proved"] = "200 s", effort = "moderate" }), "breath_hold", 3,
        { "15 s", 2, "15.5 s", 3 }),
      example.edges(like(base, { ["person.breath_hold_proved"] = "200 s", effort = "hard" }), "breath_hold", 3,
        { "10 s", 2, "10.4 s", 3 }),
    }
  end)(),
}

rule {
  id = "air.return-margin",
  title = "Too little breath left when gas comes back",
  each = "immersion",
  harm = "performer: loss of consciousness under water without warning",
  sources = {
    "oxygen budget of one breath to 50 mmHg back at the surface: calc.breath_hold_limit",
    "Sadler et al., Diving Hyperb Med 2020: low oxygen in held breaths came without symptoms",
    "Craig, J Appl Physiol 1961: exercise after over-breathing ended at oxygen linked with unconsciousness",
    "common practice: a face under water for up to 5 s is a splash, not a held breath",
  },
  reasoning = breath.reasoning,
  when = function(i) return i.breath_hold > q"5 s" end,
  assess = function(i)
    local most = breath.lasts(i, i.effort, breath_depth(i))
    local needed = i.breath_hold + i.air_return_time
    local margin = most - needed
    local rescued = rescue.to_breath(i.site.emergency)
    hazard {
      likelihood = scale.repeats(scale.reserve(most, needed), i.takes),
      severity = scale.vulnerable(scale.without_air(rescued), { i.age < q"18 year", not i.sees_diver }),
      because = "{i.breath_hold} of take and {i.air_return_time} until gas leave {margin} of {most}; "
        .. "first breath {rescued} after trouble",
      values = { most = most, margin = margin, rescued = rescued },
      controls = { "cut-the-breath-hold", "shorter-take", "air-within-the-take", "diver-at-arms-reach",
        "calmer-action", "trained-double", "take-counter" },
      also = { "second-air-source", "hand-on-performer" },
      who = "1 performer",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { breath_hold = "10 s", effort = "light", air_return_time = "3 s",
      ["person.mass"] = "70 kg", depth = "2.5 m", gives_up_gas = "yes", takes = "6", sees_diver = "yes",
      ["person.born"] = "1990-01-01", ["day.date"] = "2027-03-09" })
    return example.join { {
      { "a splash", given = like(base, { breath_hold = "4 s" }), expect = nothing },
      { "diver at arm's length", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "many takes", given = like(base, { takes = "12" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "diver out of shot", given = like(base, { breath_hold = "65 s", air_return_time = "15 s" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "a child", given = like(base, { ["person.born"] = "2016-01-01", ["person.mass"] = "34 kg" }),
        expect = hazard { likelihood = 1, severity = 4 } },
      { "does not see the diver", given = like(base, { sees_diver = "no" }),
        expect = hazard { likelihood = 1, severity = 4 } },
      { "longer", given = like(base, { breath_hold = "20 s" }),
        expect = hazard { likelihood = 1, severity = 3 } },
      { "longer, breath drawn at the surface",
        given = like(base, { breath_hold = "20 s", gives_up_gas = "no" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "hold not known", given = like(base, { breath_hold = "?" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "shorter take", given = like(base, { breath_hold = "65 s" }), with = { "shorter-take" },
        expect = hazard { likelihood = 1, severity = 3 } },
    },
      example.edges(base, "breath_hold", 3, { "5 s", nothing, "5.2 s", 1 }),
      -- eighteen on the day, and the day after
      example.edges(base, "person.born", 4, { "2009-03-09", hazard { likelihood = 1, severity = 3 }, "2009-03-10", 1 }),
      -- twice the budget of 32.5 s at the surface is 65 s: three, two, 1.5 and 1.1 times take and return
      example.edges(like(base, { gives_up_gas = "no" }), "breath_hold", 3,
        { "18 s", 1, "19 s", 2, "29 s", 2, "30 s", 3, "40 s", 3, "41 s", 4, "55.5 s", 4, "56.5 s", 5 }),
      example.edges(base, "takes", 3, { "9", 1, "10", 2, "99", 2, "100", 3 }),
      -- 195, 39 and 24 s at other efforts
      example.edges(like(base, { gives_up_gas = "no", effort = "rest" }), "breath_hold", 3, { "61 s", 1, "63 s", 2 }),
      example.edges(like(base, { gives_up_gas = "no", effort = "moderate" }), "breath_hold", 3,
        { "16 s", 2, "17 s", 3 }),
      example.edges(like(base, { gives_up_gas = "no", effort = "hard" }), "breath_hold", 3,
        { "8.9 s", 2, "9.5 s", 3 }),
    }
  end)(),
}

rule {
  id = "air.over-breathing",
  title = "Over-breathing before a take",
  each = "immersion",
  harm = "performer: loss of consciousness under water without warning",
  sources = {
    "common practice: blow out once, one full breath in, mouthpiece away",
    "diver training text: at most 3 to 4 deep breaths before a dive; newer advice: none",
    "Pernett et al. 2023: over-breathing lowers carbon dioxide before the hold and oxygen after it",
  },
  when = function(i) return i.breath_hold > q"0 s" end,
  assess = function(i)
    local breaths = i.count_in_breaths
    local rescued = rescue.to_breath(i.site.emergency)
    local many = breaths > 3
    local quick = i.count_in_time < breaths * q"3 s"
    if i.light_headed and many then
      stop {
        discreet = true,
        because = "light-headed, and {i.count_in_breaths} deep breaths in the count-in: no take with this count-in",
        controls = { "fixed-count-in" },
      }
    end
    local likelihood = scale.limit(breaths, 1, 2, 3, 6)
    hazard {
      likelihood = scale.protection(likelihood, {}, { quick and breaths > 1, i.light_headed }),
      severity = scale.without_air(rescued),
      because = "{i.count_in_breaths} deep breaths in {i.count_in_time} before the take; "
        .. "first breath {rescued} after trouble",
      values = { rescued = rescued },
      controls = { "fixed-count-in", "breath-watcher", "cut-the-breath-hold" },
      also = { "longer-rest" },
      who = "1 performer",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { breath_hold = "15 s", count_in_breaths = "1", count_in_time = "6 s",
      light_headed = "no" })
    return example.join { {
      { "no held breath", given = like(base, { breath_hold = "0 s" }), expect = nothing },
      { "one full breath", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "one quick breath", given = like(base, { count_in_time = "2 s" }),
        expect = hazard { likelihood = 1, severity = 3 } },
      { "three slow breaths", given = like(base, { count_in_breaths = "3", count_in_time = "20 s" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "five fast breaths", given = like(base, { count_in_breaths = "5" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "light-headed after one breath", given = like(base, { light_headed = "yes" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "light-headed after five", given = like(base, { count_in_breaths = "5", light_headed = "yes" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 3 } } },
      { "count-in not known", given = like(base, { count_in_breaths = "?" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "count-in fixed", given = like(base, { count_in_breaths = "8" }), with = { "fixed-count-in" },
        expect = hazard { likelihood = 1, severity = 3 } },
    },
      example.edges(like(base, { count_in_time = "60 s" }), "count_in_breaths", 3,
        { "1", 1, "2", 2, "3", 3, "4", 4, "6", 4, "7", 5 }),
      example.edges(like(base, { count_in_breaths = "2" }), "count_in_time", 3, { "6 s", 2, "5.8 s", 3 }),
      example.edges(like(base, { count_in_time = "60 s", light_headed = "yes" }), "count_in_breaths", 3,
        { "3", 4, "4", { stop {}, hazard { likelihood = 5, severity = 3 } } }),
    }
  end)(),
}

rule {
  id = "air.rest-between-takes",
  title = "Too little rest between held breaths",
  each = "immersion",
  harm = "performer: oxygen falls from take to take; loss of consciousness under water",
  sources = {
    "common practice: rest at least twice the hold",
    "Mulder et al., Diving Hyperb Med: after long holds, twice the dive time did not stop oxygen falling",
  },
  when = function(i) return i.breath_hold > q"0 s" and i.takes > 1 end,
  assess = function(i)
    local hold = i.breath_hold
    local rescued = rescue.to_breath(i.site.emergency)
    hazard {
      likelihood = scale.repeats(scale.minimum(i.interval, hold * 4, hold * 3, hold * 2, hold), i.takes),
      severity = scale.without_air(rescued),
      because = "{i.interval} of free breathing between takes of {i.breath_hold}, {i.takes} takes",
      values = { rescued = rescued },
      controls = { "longer-rest", "take-counter", "shorter-take", "breath-watcher", "trained-double" },
      who = "1 performer",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { breath_hold = "15 s", takes = "6", interval = "2 min" })
    return example.join { {
      { "no held breath", given = like(base, { breath_hold = "0 s" }), expect = nothing },
      { "one take", given = like(base, { takes = "1" }), expect = nothing },
      { "two minutes", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "twice the hold", given = like(base, { interval = "30 s" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "at once again", given = like(base, { interval = "10 s", takes = "20" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "interval not known", given = like(base, { interval = "?" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "rest called", given = like(base, { interval = "10 s" }), with = { "longer-rest" },
        expect = hazard { likelihood = 1, severity = 3 } },
    },
      example.edges(base, "interval", 3,
        { "60 s", 1, "58 s", 2, "45 s", 2, "44 s", 3, "30 s", 3, "29 s", 4, "15 s", 4, "14.5 s", 5 }),
      example.edges(base, "takes", 3, { "2", 1, "9", 1, "10", 2 }),
    }
  end)(),
}

rule {
  id = "air.compressed-gas-ascent",
  title = "Going up with a breath of compressed gas held",
  each = "immersion",
  harm = "performer or diver: over-expansion of the lungs, gas embolism",
  sources = {
    "MSD Manual, Barotrauma (2023): from about 1 m (4 ft) after breathing compressed gas; cases in pools of 3 to 4 ft",
    "US Navy Diving Manual: ascent at 30 ft/min",
  },
  when = function(i) return i.depth >= q"1 m" and i.breathes_gas end,
  assess = function(i)
    local density = calc.water_density(i.site.water.temperature, q"0 g/kg")
    local ratio = calc.lung_expansion_ratio(i.depth, pressure.surface(i.site), density)
    local exhales = i.exhales_on_ascent
    local alone = i.free_ascent_planned
    if alone and not exhales then
      stop {
        because = "a swim up alone is planned after breathing compressed gas at {i.depth}, "
          .. "and breathing out is neither trained nor watched",
        controls = { "no-free-ascent", "exhale-drill", "ascent-escort" },
      }
    end
    local drilled = i.person.exhale_drill == "passed"
    local with_diver = i.escorted or i.touch_contact
    hazard {
      likelihood = scale.protection(scale.missing, { exhales, drilled, with_diver },
        { alone, i.gives_up_gas }),
      severity = 5,
      because = "gas breathed at {i.depth} would fill {ratio} times the room at the surface",
      values = { ratio = ratio },
      controls = { "no-free-ascent", "exhale-drill", "ascent-escort", "hand-on-performer", "depth-cap" },
      also = { "second-air-source" },
      who = "1 person under water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { depth = "3 m", breathes_gas = "yes", exhales_on_ascent = "yes",
      free_ascent_planned = "no",
      ["person.exhale_drill"] = "passed", escorted = "yes", touch_contact = "no", gives_up_gas = "yes",
      ["site.altitude"] = "0 m", ["site.water.temperature"] = "28 degC" }
    return example.join { {
      { "shallow", given = like(base, { depth = "0.8 m" }), expect = nothing },
      { "breathes no gas", given = like(base, { breathes_gas = "no" }), expect = nothing },
      { "drilled, escorted", given = base, expect = hazard { likelihood = 1, severity = 5 } },
      { "not drilled", given = like(base, { ["person.exhale_drill"] = "not-done", escorted = "no" }),
        expect = hazard { likelihood = 3, severity = 5 } },
      { "swims up alone, untrained",
        given = like(base, { free_ascent_planned = "yes", exhales_on_ascent = "no" }),
        expect = { stop {}, hazard { likelihood = 3, severity = 5 } } },
      { "drill not known", given = like(base, { ["person.exhale_drill"] = "?" }),
        expect = hazard { likelihood = 2, severity = 5 } },
      { "free ascent taken out",
        given = like(base, { free_ascent_planned = "yes", exhales_on_ascent = "no" }),
          with = { "no-free-ascent" },
        expect = hazard { likelihood = 2, severity = 5 } },
    },
      example.edges(base, "depth", 5, { "1 m", 1, "0.96 m", nothing }),
      example.edges(like(base, { free_ascent_planned = "yes" }), "exhales_on_ascent", 5, { "yes", 2 }),
      example.edges(like(base, { escorted = "no" }), "touch_contact", 5, { "no", 2, "yes", 1 }),
      example.edges(like(base, { escorted = "no" }), "gives_up_gas", 5, { "yes", 2, "no", 1 }),
    }
  end)(),
}

rule {
  id = "air.hypoxia-on-ascent",
  title = "Oxygen falls on the way up from a held breath",
  each = "immersion",
  harm = "performer: faints near the surface",
  sources = {
    "oxygen budget of one breath, back at the surface: calc.alveolar_oxygen_after",
    "Craig, J Appl Physiol 1961: 34 mmHg and below linked with unconsciousness",
  },
  reasoning = breath.reasoning,
  when = function(i)
    return i.breath_hold > q"0 s" and i.depth > q"1 m" and (i.free_ascent_planned or not i.breathes_gas)
  end,
  assess = function(i)
    -- somebody who does not rise at all is as one who rises very slowly
    local up = i.depth / max(i.ascent_rate, q"0.1 m/min")
    local held = i.breath_hold + up
    local left = calc.alveolar_oxygen_after(i.person.mass, scale.mets(i.effort), breath_depth(i),
      held / breath.budgets)
    local rescued = rescue.to_breath(i.site.emergency)
    hazard {
      likelihood = scale.repeats(scale.minimum(left, q"80 mmHg", q"65 mmHg", q"50 mmHg", q"34 mmHg"),
        i.takes),
      severity = scale.vulnerable(scale.without_air(rescued), { i.age < q"18 year" }),
      because = "{held} on one breath, {up} of it on the way up, would leave {left} of oxygen in the lungs",
      values = { held = held, up = up, left = left, rescued = rescued },
      controls = { "depth-cap", "ascent-escort", "shorter-take", "no-free-ascent", "calmer-action",
        "trained-double" },
      who = "1 performer",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { breath_hold = "8 s", depth = "2 m", ascent_rate = "30 m/min",
      effort = "light",
      ["person.mass"] = "70 kg", free_ascent_planned = "no", breathes_gas = "no", gives_up_gas = "no",
      takes = "4", ["person.born"] = "1990-01-01", ["day.date"] = "2027-03-09" })
    return example.join { {
      { "gas at the end of the take", given = like(base, { breathes_gas = "yes" }), expect = nothing },
      { "at the surface", given = like(base, { depth = "0.5 m" }), expect = nothing },
      { "no held breath", given = like(base, { breath_hold = "0 s" }), expect = nothing },
      { "a short dip", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "long and hard", given = like(base, { breath_hold = "30 s", effort = "hard", depth = "6 m" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "a child", given = like(base, { ["person.born"] = "2016-01-01" }),
        expect = hazard { likelihood = 1, severity = 4 } },
      { "does not rise", given = like(base, { ascent_rate = "0 m/min" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "length not known", given = like(base, { breath_hold = "?" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "cut to short takes", given = like(base, { breath_hold = "30 s", effort = "moderate" }),
        with = { "shorter-take" },
        expect = hazard { likelihood = 1, severity = 3 } },
    },
      example.edges(base, "depth", 3, { "1 m", nothing, "1.04 m", 1 }),
      example.edges(base, "person.born", 4, { "2009-03-09", hazard { likelihood = 1, severity = 3 }, "2009-03-10", 1 }),
      -- 14.7 kPa less 0.249 kPa a second of half the hold, 4 s of it on the way up
      example.edges(base, "breath_hold", 3,
        { "27 s", 1, "30 s", 2, "43 s", 2, "46 s", 3, "59 s", 3, "62 s", 4, "77 s", 4, "79 s", 5 }),
      example.edges(like(base, { breathes_gas = "yes" }), "free_ascent_planned", 3, { "no", nothing, "yes", 1 }),
    }
  end)(),
}
