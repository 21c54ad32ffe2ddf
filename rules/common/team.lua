-- Who watches, who is ready, who may speak.

local function young(i) return i.age < q"18 year" end

local function held_breath(i) return i.breath_hold > q"0 s" and not i.can_stand end

-- From trouble until somebody holds the person, and gas is in the mouth.
local function to_gas(site)
  local e = site.emergency
  return e.notice_time + e.reach_time + e.gas_time
end

local function to_surface(site)
  local e = site.emergency
  return e.notice_time + e.reach_time + e.surface_time
end

rule {
  id = "team.supervisor",
  title = "Nobody with no other job is in charge at the water",
  each = "task",
  harm = "everyone in the water: nobody sees the whole and stops it",
  sources = { "Diving at Work Regulations 1997 regs 6, 10: one supervisor for each operation, " ..
    "who does not dive meanwhile (reg 10 from memory)" },
  when = function (t) return #t.immersions > 0 end,
  assess = function (t)
    local likelihood = scale.protection(scale.frequent,
      { t.supervisor_named, t.supervisor_at_water, not t.supervisor_other_duties }, {})
    if likelihood < 2 then return end
    hazard {
      likelihood = likelihood, severity = 4, who = "everyone in the water",
      because = "the supervisor is not named, not at the water, or has another job",
      controls = { "appoint-supervisor" },
    }
  end,
  examples = example.join { {
    { "named, there, free",
      given = { supervisor_named = "yes", supervisor_at_water = "yes",
        supervisor_other_duties = "no" },
      expect = nothing },
    { "films at the same time",
      given = { supervisor_named = "yes", supervisor_at_water = "yes",
        supervisor_other_duties = "yes" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "nobody",
      given = { supervisor_named = "no", supervisor_at_water = "no",
        supervisor_other_duties = "yes" },
      expect = hazard { likelihood = 4, severity = 4 } },
    { "not known", given = {}, expect = hazard { likelihood = 4, severity = 4 } },
    { "appointed",
      given = { supervisor_named = "no", supervisor_at_water = "no",
        supervisor_other_duties = "yes" },
      with = { "appoint-supervisor" }, expect = nothing },
  },
    { { "nobody wet", given = { immersions = "none" }, expect = nothing } },
  },
}

rule {
  id = "team.safety-divers",
  title = "Fewer safety divers than performers on a held breath",
  each = "task",
  harm = "performers: nobody is free to bring air",
  worst = { likelihood = 5, severity = 5 },
  sources = { "BBC safety guidance for diving: one more qualified buddy for each diver; common " ..
    "practice: one to one" },
  reasoning = "one diver for one performer is the practice itself, not a reserve, so the ratio " ..
    "is scored in its own steps",
  assess = function (t)
    local divers, performers = t.safety_divers, 0
    for _, i in ipairs(t.immersions) do
      if held_breath(i) then performers = performers + 1 end
    end
    if divers >= performers then return end
    local likelihood = 5
    if divers >= 1 then likelihood = 4 end
    if divers * 2 >= performers then likelihood = 3 end
    hazard {
      likelihood = likelihood, severity = scale.without_air(to_gas(t.site)),
      because = "{t.safety_divers} safety divers; gas reaches a mouth {gas} after trouble",
      values = { gas = to_gas(t.site) }, who = "performers on a held breath",
      controls = { "more-safety-divers", "own-diver" },
      also = { "second-air-source" },
    }
  end,
  examples = {
    { "one for one", given = { safety_divers = "1", ["immersions.1.breath_hold"] = "15 s",
                ["immersions.1.can_stand"] = "no" }, expect = nothing },
    { "one for two",
      given = { safety_divers = "1", ["immersions.1.breath_hold"] = "15 s",
        ["immersions.1.can_stand"] = "no",
                ["immersions.2.breath_hold"] = "15 s", ["immersions.2.can_stand"] = "no",
                ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
                ["site.emergency.gas_time"] = "4 s" }, expect = hazard { likelihood = 3,
                severity = 3 } },
    { "one for three",
      given = { safety_divers = "1", ["immersions.1.breath_hold"] = "15 s",
        ["immersions.1.can_stand"] = "no",
                ["immersions.2.breath_hold"] = "15 s", ["immersions.2.can_stand"] = "no",
                ["immersions.3.breath_hold"] = "15 s", ["immersions.3.can_stand"] = "no",
                ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
                ["site.emergency.gas_time"] = "4 s" }, expect = hazard { likelihood = 4,
                severity = 3 } },
    { "none, and help far off",
      given = { safety_divers = "0", ["immersions.1.breath_hold"] = "15 s",
        ["immersions.1.can_stand"] = "no",
                ["site.emergency.notice_time"] = "60 s", ["site.emergency.reach_time"] = "60 s",
                ["site.emergency.gas_time"] = "10 s" }, expect = hazard { likelihood = 5,
                severity = 4 } },
    { "number not known",
      given = { ["immersions.1.breath_hold"] = "15 s", ["immersions.1.can_stand"] = "no",
                ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
                ["site.emergency.gas_time"] = "4 s" }, expect = hazard { likelihood = 5,
                severity = 3 } },
    { "more divers",
      given = { safety_divers = "0", ["immersions.1.breath_hold"] = "15 s",
        ["immersions.1.can_stand"] = "no" },
      with = { "more-safety-divers" }, expect = nothing },
    { "faces dry", given = { ["immersions.1.breath_hold"] = "0 s" }, expect = nothing },
  },
}

rule {
  id = "team.standby-diver",
  title = "No standby diver",
  each = "task",
  harm = "divers and performers: no second rescuer when the first is in trouble",
  sources = { "29 CFR 1910.424(c): a standby diver whenever a diver is in the water; HSE L104: " ..
    "supervisor, diver, standby, tenders" },
  when = function (t)
    for _, i in ipairs(t.immersions) do
      if i.breathes_gas then return true end
    end
    return false
  end,
  assess = function (t)
    if t.standby_divers >= 1 then return end
    hazard {
      likelihood = scale.protection(scale.missing, { t.safety_divers >= 2, t.lifeguards >= 1 },
        { t.overhead }),
      severity = 4, because = "nobody dressed in waits at the edge", who = "everyone under water",
      controls = { "standby-diver" },
    }
  end,
  examples = {
    { "one stands by", given = { standby_divers = "1", ["immersions.1.breathes_gas"] = "yes" },
      expect = nothing },
    { "none, two safety divers and a lifeguard",
      given = { standby_divers = "0", ["immersions.1.breathes_gas"] = "yes", safety_divers = "2",
                lifeguards = "1", overhead = "no" }, expect = hazard { likelihood = 1,
                severity = 4 } },
    { "none, under a set, alone",
      given = { standby_divers = "0", ["immersions.1.breathes_gas"] = "yes", safety_divers = "1",
                lifeguards = "0", overhead = "yes" }, expect = hazard { likelihood = 4,
                severity = 4 } },
    { "not known",
      given = { ["immersions.1.breathes_gas"] = "yes", safety_divers = "1", lifeguards = "0",
        overhead = "no" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "dressed in", given = { ["immersions.1.breathes_gas"] = "yes", standby_divers = "0" },
      with = { "standby-diver" }, expect = nothing },
    { "no gas", given = { ["immersions.1.breathes_gas"] = "no" }, expect = nothing },
  },
}

rule {
  id = "team.standby-ready",
  title = "The standby diver is slow into the water",
  each = "post",
  harm = "whoever is in trouble: waits for the second rescuer",
  sources = { "the body allows about a minute without lasting harm; common practice: in the " ..
    "water within half a minute" },
  when = function (p) return p.role == "standby-diver" end,
  assess = function (p)
    local needed = p.site.emergency.notice_time + p.ready_time
    hazard {
      likelihood = scale.within(scale.reserve(q"90 s", needed) + scale.count { p.other_duties,
        not p.dressed_in }),
      severity = scale.without_air(needed + p.site.emergency.surface_time),
      who = "everyone under water",
      because = "{needed} from trouble until the standby diver is in the water",
      values = { needed = needed },
      controls = { "standby-diver", "one-post-one-person" },
    }
  end,
  examples = example.join { {
    { "in the water in twenty seconds",
      given = { role = "standby-diver", ready_time = "20 s", dressed_in = "yes",
        other_duties = "no",
                ["site.emergency.notice_time"] = "4 s", ["site.emergency.surface_time"] = "8 s" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "not dressed, two minutes",
      given = { role = "standby-diver", ready_time = "120 s", dressed_in = "no",
        other_duties = "yes",
                ["site.emergency.notice_time"] = "4 s", ["site.emergency.surface_time"] = "8 s" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "never timed",
      given = { role = "standby-diver", dressed_in = "yes", other_duties = "no",
                ["site.emergency.notice_time"] = "4 s", ["site.emergency.surface_time"] = "8 s" },
      expect = hazard { likelihood = 5, severity = 5 } },
    { "dressed in and timed",
      given = { role = "standby-diver", ready_time = "120 s", dressed_in = "no",
        other_duties = "no",
                ["site.emergency.notice_time"] = "4 s", ["site.emergency.surface_time"] = "8 s" },
      with = { "standby-diver" }, expect = hazard { likelihood = 1, severity = 3 } },
    { "another post", given = { role = "medic" }, expect = nothing },
  },
    example.edges({ role = "standby-diver", dressed_in = "yes", other_duties = "no",
      ["site.emergency.notice_time"] = "4 s", ["site.emergency.surface_time"] = "8 s" }, "ready_time", 3,
      { "26 s", 1, "27 s", 2 }),
  },
}

rule {
  id = "team.divers-seen",
  title = "Divers hard to see without a mask",
  each = "immersion",
  harm = "performer: cannot find whoever brings the air",
  sources = { "Luria and Kinney colour tables (NOAA and US Navy manuals): black, grey and " ..
    "colours of the background vanish first" },
  when = function (i) return held_breath(i) and not i.mask end,
  assess = function (i)
    local contrast = i.task.diver_contrast
    hazard {
      likelihood = scale.protection(scale.missing,
        { i.touch_contact, i.task.lit_marker, contrast == "strong" },
        { contrast == "none", i.task.overhead }),
      severity = scale.vulnerable(scale.without_air(i.air_return_time), { young(i) }),
      who = "1 performer",
      because = "contrast of the divers: {i.task.diver_contrast}; gas is {i.air_return_time} away",
      controls = { "divers-in-contrast", "tactile-line", "lit-gas-point" },
    }
  end,
  examples = example.join { {
    { "yellow divers, marker",
      given = { breath_hold = "15 s", can_stand = "no", mask = "no",
        ["task.diver_contrast"] = "strong",
                touch_contact = "no", ["task.lit_marker"] = "yes", ["task.overhead"] = "no",
                air_return_time = "5 s", age = "30 year" },
                expect = hazard { likelihood = 1, severity = 3 } },
    { "black on black, under a set, a child",
      given = { breath_hold = "15 s", can_stand = "no", mask = "no",
        ["task.diver_contrast"] = "none",
                touch_contact = "no", ["task.lit_marker"] = "no", ["task.overhead"] = "yes",
                air_return_time = "9 s", age = "12 year" },
                expect = hazard { likelihood = 5, severity = 4 } },
    { "never looked at",
      given = { breath_hold = "15 s", can_stand = "no", mask = "no", touch_contact = "no",
                ["task.lit_marker"] = "yes", ["task.overhead"] = "no", air_return_time = "5 s",
                age = "30 year" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "in contrast",
      given = { breath_hold = "15 s", can_stand = "no", mask = "no",
        ["task.diver_contrast"] = "none",
                touch_contact = "no", ["task.lit_marker"] = "yes", ["task.overhead"] = "no",
                air_return_time = "5 s", age = "30 year" },
      with = { "divers-in-contrast" }, expect = hazard { likelihood = 1, severity = 3 } },
    { "behind a mask", given = { breath_hold = "15 s", can_stand = "no", mask = "yes" },
      expect = nothing },
    { "face dry", given = { breath_hold = "0 s" }, expect = nothing },
  },
    example.edges({ breath_hold = "15 s", can_stand = "no", mask = "no", ["task.diver_contrast"] = "strong",
      touch_contact = "no", ["task.lit_marker"] = "yes", ["task.overhead"] = "no", air_return_time = "5 s" },
      "age", 4, { "18 year", hazard { likelihood = 1, severity = 3 }, "17.9 year", 1 }),
    example.edges({ breath_hold = "15 s", can_stand = "no", mask = "no", ["task.diver_contrast"] = "strong",
      ["task.lit_marker"] = "no", ["task.overhead"] = "no", air_return_time = "5 s", age = "30 year" },
      "touch_contact", 3, { "no", 2, "yes", 1 }),
    example.edges({ breath_hold = "15 s", mask = "no", ["task.diver_contrast"] = "strong", touch_contact = "no",
      ["task.lit_marker"] = "no", ["task.overhead"] = "no", air_return_time = "5 s", age = "30 year" },
      "can_stand", 3, { "no", 2, "yes", nothing }),
  },
}

rule {
  id = "team.lifeguard",
  title = "Nobody watches the surface",
  each = "task",
  harm = "everyone in the water: goes under unseen and in silence",
  sources = { "Pia 1974 (from memory): a struggle at the surface lasts 20 to 60 s and is silent",
              "trade standard: seen within 10 s, reached within 20 s" },
  when = function (t) return #t.immersions > 0 end,
  assess = function (t)
    if t.lifeguards >= 1 then return end
    hazard {
      likelihood = scale.protection(scale.missing, { t.safety_divers >= 1, t.seen_from_surface },
        { t.light_level < q"20 lux" }),
      severity = scale.without_air(to_surface(t.site)), who = "everyone in the water",
      because = "no lifeguard; at the surface {up} after trouble",
      values = { up = to_surface(t.site) },
      controls = { "lifeguard", "clear-view", "work-lights" },
    }
  end,
  examples = example.join { {
    { "a lifeguard", given = { lifeguards = "1" }, expect = nothing },
    { "none, a diver in clear water",
      given = { lifeguards = "0", safety_divers = "1", seen_from_surface = "yes",
        light_level = "200 lux",
                ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
                ["site.emergency.surface_time"] = "8 s" },
                expect = hazard { likelihood = 1, severity = 3 } },
    { "none, in the dark",
      given = { lifeguards = "0", safety_divers = "0", seen_from_surface = "no",
        light_level = "5 lux",
                ["site.emergency.notice_time"] = "60 s", ["site.emergency.reach_time"] = "60 s",
                ["site.emergency.surface_time"] = "8 s" },
                expect = hazard { likelihood = 4, severity = 4 } },
    { "not known",
      given = { safety_divers = "0", seen_from_surface = "yes", light_level = "200 lux",
                ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
                ["site.emergency.surface_time"] = "8 s" },
                expect = hazard { likelihood = 2, severity = 3 } },
    { "one is posted", given = { lifeguards = "0" }, with = { "lifeguard" }, expect = nothing },
  },
    { { "nobody wet", given = { immersions = "none" }, expect = nothing } },
    example.edges({ lifeguards = "0", safety_divers = "1", seen_from_surface = "yes",
      ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
      ["site.emergency.surface_time"] = "8 s" }, "light_level", 3, { "20 lux", 1, "19.5 lux", 2 }),
  },
}

rule {
  id = "team.medic",
  title = "Nobody at the water gives breath and oxygen at once",
  each = "task",
  harm = "whoever is brought out: waits for the first breath",
  sources = { "St John Ambulance drowning advice: five rescue breaths first; common practice: " ..
    "a medic at the water" },
  when = function (t) return #t.immersions > 0 end,
  assess = function (t)
    local e = t.site.emergency
    local likelihood = scale.protection(scale.missing, { e.medic_on_site, e.first_aiders >= 2 },
      { e.first_aiders < 1 })
    if likelihood < 2 then return end
    hazard {
      likelihood = likelihood, severity = 4, who = "everyone in the water",
      because = "no medic at the water, or fewer than two people trained in rescue breathing",
      controls = { "medic-at-water" },
    }
  end,
  examples = example.join { {
    { "medic and helpers", given = { ["site.emergency.medic_on_site"] = "yes",
      ["site.emergency.first_aiders"] = "4" },
      expect = nothing },
    { "helpers only", given = { ["site.emergency.medic_on_site"] = "no",
      ["site.emergency.first_aiders"] = "4" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "nobody", given = { ["site.emergency.medic_on_site"] = "no",
      ["site.emergency.first_aiders"] = "0" },
      expect = hazard { likelihood = 4, severity = 4 } },
    { "not known", given = { ["site.emergency.first_aiders"] = "4" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "a medic", given = { ["site.emergency.medic_on_site"] = "no",
      ["site.emergency.first_aiders"] = "4" },
      with = { "medic-at-water" }, expect = nothing },
  },
    { { "nobody wet", given = { immersions = "none" }, expect = nothing } },
    example.edges({ ["site.emergency.medic_on_site"] = "no" }, "site.emergency.first_aiders", 4,
      { "2", 2, "1", 3, "0", 4 }),
  },
}

rule {
  id = "team.recall",
  title = "One way of calling people out, or too many voices",
  each = "task",
  harm = "everyone under water: the stop is missed or mistaken for direction",
  worst = { likelihood = 5, severity = 3 },
  sources = { "common practice: two kinds of recall tested each morning, one voice, anyone may " ..
    "stop" },
  when = function (t) return #t.immersions > 0 end,
  assess = function (t)
    local kinds = scale.count { t.recall_signals_speaker, t.recall_signals_lights,
      t.recall_signals_taps }
    local two = kinds >= 2
    local likelihood = scale.protection(scale.frequent,
      { two, t.day.signals_tested, t.one_voice and t.anyone_can_stop }, { t.overhead and not two })
    if likelihood < 2 then return end
    hazard {
      likelihood = likelihood, severity = 3, who = "everyone under water",
      because = "fewer than two kinds of recall, not tested that morning, or more than one voice",
      controls = { "recall-signals", "one-voice" },
    }
  end,
  examples = example.join { {
    { "speaker and lights, tested, one voice",
      given = { recall_signals = "speaker lights", ["day.signals_tested"] = "yes",
        one_voice = "yes",
                anyone_can_stop = "yes", overhead = "yes" }, expect = nothing },
    { "not tested",
      given = { recall_signals = "speaker lights", ["day.signals_tested"] = "no", one_voice = "yes",
                anyone_can_stop = "yes", overhead = "yes" },
                expect = hazard { likelihood = 2, severity = 3 } },
    { "a shout, under a set",
      given = { recall_signals = "hand", ["day.signals_tested"] = "no", one_voice = "no",
                anyone_can_stop = "no", overhead = "yes" },
                expect = hazard { likelihood = 5, severity = 3 } },
    { "signals not known",
      given = { ["day.signals_tested"] = "yes", one_voice = "yes", anyone_can_stop = "yes",
        overhead = "no" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "one voice",
      given = { recall_signals = "speaker taps", ["day.signals_tested"] = "yes", one_voice = "no",
                anyone_can_stop = "no", overhead = "no" }, with = { "one-voice" },
                expect = nothing },
  },
    { { "nobody wet", given = { immersions = "none" }, expect = nothing } },
    example.edges({ ["day.signals_tested"] = "yes", one_voice = "yes", anyone_can_stop = "yes", overhead = "no" },
      "recall_signals", 3, { "speaker", 2, "lights taps", nothing }),
    example.edges({ recall_signals = "speaker lights", ["day.signals_tested"] = "yes", one_voice = "yes",
      overhead = "no" }, "anyone_can_stop", 3, { "yes", nothing, "no", 2 }),
  },
}

-- Whether somebody's face goes under in the same task.
local function is_in_water(t, person)
  for _, i in ipairs(t.immersions) do
    if same(i.person, person) then return true end
  end
  return false
end

local function posts_of(t, person)
  local n = 0
  for _, p in ipairs(t.posts) do
    if same(p.person, person) then n = n + 1 end
  end
  return n
end

rule {
  id = "team.two-jobs",
  title = "A post is held by somebody with another job",
  each = "post",
  harm = "whoever the post watches: nobody looks at the moment it matters",
  worst = { likelihood = 5, severity = 4 },
  sources = { "common practice: one person, one post; nobody watches and performs at once" },
  assess = function (p)
    local wet = p.role ~= "safety-diver" and is_in_water(p.task, p.person)
    local twice = posts_of(p.task, p.person) > 1
    if not (wet or twice or p.other_duties) then return end
    hazard {
      likelihood = scale.within(3 + scale.count { wet, twice }), severity = 4,
      who = "those the post watches",
      because = "{p.person.label} holds this post and has another job in the same task",
      controls = { "one-post-one-person" },
    }
  end,
  examples = example.join { {
    { "one job", given = { ["person.role"] = "medic", other_duties = "no", role = "medic",
                ["task.immersions"] = "none" }, expect = nothing },
    { "two jobs", given = { other_duties = "yes", role = "medic", ["task.immersions"] = "none" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "lifeguard and performer at once", given = { other_duties = "no", role = "lifeguard" },
      expect = hazard { likelihood = 4, severity = 4 } },
    { "not known", given = { role = "medic", ["task.immersions"] = "none" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "one post, one person", given = { other_duties = "yes", role = "medic",
      ["task.immersions"] = "none" },
      with = { "one-post-one-person" }, expect = nothing },
  },
    { { "two posts, one person", given = { other_duties = "no", role = "medic", ["task.immersions"] = "none",
        ["person.posts.2.role"] = "head-counter" }, expect = hazard { likelihood = 4, severity = 4 } } },
    { { "others in the water and on post", given = { other_duties = "no", role = "medic",
        ["task.immersions"] = "none", ["task.immersions.1.entry"] = "ladder", ["task.posts.2.role"] = "lifeguard" },
        expect = nothing },
      { "a safety diver in the water", given = { other_duties = "no", role = "safety-diver" }, expect = nothing } },
  },
}

local counted_late = { head_counted = "yes", count_interval = "60 min", seen_from_surface = "yes",
  light_level = "200 lux", people_under_water = "3" }

rule {
  id = "team.head-count",
  title = "Heads are not counted",
  each = "task",
  harm = "anyone in the water: missing for minutes before it is known",
  worst = { likelihood = 5, severity = 4 },
  sources = { "common practice: a board, one who counts, at most a quarter of an hour between " ..
    "counts" },
  when = function (t) return #t.immersions > 0 end,
  assess = function (t)
    local counted = t.head_counted
    if counted and t.count_interval <= q"15 min" then return end
    local likelihood = scale.protection(scale.missing, { counted, t.seen_from_surface },
      { t.light_level < q"20 lux", t.people_under_water >= 10 })
    hazard {
      likelihood = likelihood, severity = 4, who = "everyone in the water",
      because = "{t.people_under_water} people; counted every {t.count_interval}, or not at all",
      controls = { "tally-board", "clear-view" },
      also = { "light-sticks" },
    }
  end,
  examples = example.join { {
    { "every ten minutes", given = { head_counted = "yes", count_interval = "10 min" },
      expect = nothing },
    { "each hour, in clear water",
      given = { head_counted = "yes", count_interval = "60 min", seen_from_surface = "yes",
        light_level = "200 lux",
                people_under_water = "3" }, expect = hazard { likelihood = 1, severity = 4 } },
    { "never, twelve people in the dark",
      given = { head_counted = "no", seen_from_surface = "no", light_level = "5 lux",
        people_under_water = "12",
                count_interval = "60 min" }, expect = hazard { likelihood = 5, severity = 4 } },
    { "not known", given = { seen_from_surface = "yes", light_level = "200 lux",
      people_under_water = "3" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "on a board", given = { head_counted = "no", count_interval = "60 min" },
      with = { "tally-board" },
      expect = nothing },
  },
    { { "nobody wet", given = { immersions = "none" }, expect = nothing } },
    example.edges(counted_late, "count_interval", 4, { "15 min", nothing, "15.5 min", 1 }),
    example.edges(counted_late, "light_level", 4, { "20 lux", 1, "19.5 lux", 2 }),
    example.edges(counted_late, "people_under_water", 4, { "9", 1, "10", 2 }),
  },
}

rule {
  id = "team.watch",
  title = "A watcher who cannot see, watches too many or too long",
  each = "post",
  harm = "whoever is watched: trouble is not seen",
  worst = { likelihood = 5, severity = 4 },
  sources = { "trade standard: seen within 10 s; Brener and Oostman 2002: 57 % of trials not " ..
    "noticed in half a minute",
              "common practice: a watcher is relieved each half hour to hour" },
  when = function (p)
    local role = p.role
    return role == "safety-diver" or role == "lifeguard" or role == "spotter" or role == "lookout"
  end,
  assess = function (p)
    local likelihood = scale.protection(scale.missing, { p.view_clear, p.in_position },
      { p.scan_time > q"10 s", p.relief_interval > q"60 min",
        p.role == "safety-diver" and p.watches > 1 })
    if likelihood < 2 then return end
    hazard {
      likelihood = likelihood, severity = 4, who = "those the post watches",
      because = "watches {p.watches}, looks over them in {p.scan_time}, relieved after " ..
        "{p.relief_interval}",
      controls = { "clear-view", "post-relief" },
      also = { "own-diver", "lifeguard" },
    }
  end,
  examples = example.join { {
    { "sees all, relieved each half hour",
      given = { role = "lifeguard", view_clear = "yes", in_position = "yes", scan_time = "6 s",
                relief_interval = "30 min" }, expect = nothing },
    { "glare, twenty seconds, three hours",
      given = { role = "lifeguard", view_clear = "no", in_position = "no", scan_time = "20 s",
                relief_interval = "180 min" }, expect = hazard { likelihood = 5, severity = 4 } },
    { "a safety diver with two to watch",
      given = { role = "safety-diver", view_clear = "yes", in_position = "yes", scan_time = "3 s",
                relief_interval = "30 min", watches = "2" },
                expect = hazard { likelihood = 2, severity = 4 } },
    { "a safety diver with one",
      given = { role = "safety-diver", view_clear = "yes", in_position = "yes", scan_time = "3 s",
                relief_interval = "30 min", watches = "1" }, expect = nothing },
    { "view not tried",
      given = { role = "lifeguard", in_position = "yes", scan_time = "6 s",
        relief_interval = "30 min" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "moved out of the glare",
      given = { role = "lifeguard", view_clear = "no", in_position = "yes", scan_time = "6 s",
                relief_interval = "30 min" }, with = { "clear-view" }, expect = nothing },
    { "a medic", given = { role = "medic" }, expect = nothing },
  },
    example.edges({ role = "lifeguard", view_clear = "yes", in_position = "yes", relief_interval = "30 min" },
      "scan_time", 4, { "10 s", nothing, "10.3 s", 2 }),
    example.edges({ role = "lookout", view_clear = "yes", in_position = "yes", scan_time = "6 s" },
      "relief_interval", 4, { "60 min", nothing, "62 min", 2 }),
    example.edges({ view_clear = "yes", in_position = "yes", scan_time = "12 s", relief_interval = "30 min",
      watches = "1" }, "role", 4, { "spotter", 2, "lookout", 2, "safety-diver", 2, "chaperone", nothing }),
  },
}

rule {
  id = "team.rescuer-fit",
  title = "A rescuer without the qualification, the tool or the gas",
  each = "post",
  harm = "whoever is in trouble: the rescuer cannot do what is needed",
  sources = { "common practice: every safety diver carries a second mouthpiece and a cutter, " ..
    "and is qualified for the post" },
  when = function (p)
    local role = p.role
    return role == "safety-diver" or role == "standby-diver"
  end,
  assess = function (p)
    local likelihood = scale.protection(scale.frequent, { p.qualified, p.spare_gas, p.cutter },
      { not p.can_stop })
    if likelihood < 2 then return end
    hazard {
      likelihood = likelihood, severity = 4, who = "those the post watches",
      because = "qualification, second mouthpiece, cutter or the means to stop the take is missing",
      controls = { "cutter-with-diver" },
      also = { "second-air-source" },
    }
  end,
  examples = {
    { "complete", given = { role = "safety-diver", qualified = "yes", spare_gas = "yes",
      cutter = "yes", can_stop = "yes" },
      expect = nothing },
    { "no cutter", given = { role = "safety-diver", qualified = "yes", spare_gas = "yes",
      cutter = "no", can_stop = "yes" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "nothing", given = { role = "standby-diver", qualified = "no", spare_gas = "no",
      cutter = "no", can_stop = "no" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "not known", given = { role = "safety-diver", spare_gas = "yes", cutter = "yes",
      can_stop = "yes" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "a cutter", given = { role = "safety-diver", qualified = "yes", spare_gas = "yes",
      cutter = "no", can_stop = "yes" },
      with = { "cutter-with-diver" }, expect = nothing },
    { "a medic", given = { role = "medic" }, expect = nothing },
  },
}
