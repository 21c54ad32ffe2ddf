-- Single points of failure: what has nothing beside it when it fails. Each rule
-- names one; the last counts how many meet in one task.

rule {
  id = "underwriting.one-air",
  title = "One source of air",
  each = "immersion",
  harm = "performer or diver: no air when the only source fails",
  sources = { "common practice: a second source that does not share a part with the first" },
  when = function (i) return i.breathes_gas end,
  assess = function (i)
    if i.air_sources >= 2 then return end
    hazard {
      likelihood = scale.protection(scale.missing, { i.touch_contact, i.own_safety_diver }),
      severity = 5, who = "1 person",
      because = "{air_sources} to breathe from; a diver in touch and a diver of one's own " ..
        "count as help at hand",
      controls = { "second-air-source" },
    }
  end,
  examples = {
    { "two", given = { breathes_gas = "yes", air_sources = "2" }, expect = nothing },
    { "one, alone", given = { breathes_gas = "yes", air_sources = "1", touch_contact = "no",
      own_safety_diver = "no" }, expect = hazard { likelihood = 3, severity = 5 } },
    { "one, with a diver of one's own",
      given = { breathes_gas = "yes", air_sources = "1", touch_contact = "no",
        own_safety_diver = "yes" }, expect = hazard { likelihood = 2, severity = 5 } },
    { "one, with a diver who holds on",
      given = { breathes_gas = "yes", air_sources = "1", touch_contact = "yes",
        own_safety_diver = "yes" }, expect = hazard { likelihood = 1, severity = 5 } },
    { "nobody has counted", given = { breathes_gas = "yes", touch_contact = "no",
      own_safety_diver = "no" }, expect = hazard { likelihood = 3, severity = 5 } },
    { "holds the breath", given = { breathes_gas = "no", air_sources = "1" }, expect = nothing },
    { "a second one is there", given = { breathes_gas = "yes", air_sources = "1" },
      with = { "second-air-source" }, expect = nothing },
  },
}

rule {
  id = "underwriting.one-rescuer",
  title = "One rescuer, or none",
  each = "task",
  harm = "everyone in the water: whoever could bring them up is busy or in trouble too",
  sources = { "common practice: never fewer than two who can bring somebody up" },
  when = function (t) return #t.immersions > 0 end,
  assess = function (t)
    local hands = t.safety_divers + t.standby_divers
    if hands >= 2 then return end
    hazard {
      likelihood = scale.protection(scale.missing, {}, { hands < 1, t.people_under_water > 1 }),
      severity = 5, who = "everyone in the water",
      because = "{hands} to bring up {people_under_water}", values = { hands = hands },
      controls = { "more-safety-divers", "standby-diver" },
    }
  end,
  examples = example.join { {
    { "a safety diver and a standby diver", given = { safety_divers = "1", standby_divers = "1" },
      expect = nothing },
    { "one for one", given = { safety_divers = "1", standby_divers = "0" },
      expect = hazard { likelihood = 3, severity = 5 } },
    { "one for two", given = { safety_divers = "1", standby_divers = "0",
      people_under_water = "2" }, expect = hazard { likelihood = 4, severity = 5 } },
    { "nobody for one", given = { safety_divers = "0", standby_divers = "0" },
      expect = hazard { likelihood = 4, severity = 5 } },
    { "not known", given = {}, expect = hazard { likelihood = 4, severity = 5 } },
    { "nobody in the water", given = { immersions = "none" }, expect = nothing },
  },
    { { "more of them", given = { safety_divers = "1", standby_divers = "0" }, with = { "more-safety-divers" },
        expect = nothing },
      { "one stands by", given = { safety_divers = "1", standby_divers = "0" }, with = { "standby-diver" },
        expect = nothing } },
  },
}

rule {
  id = "underwriting.one-way-out",
  title = "One way out of the water",
  each = "task",
  harm = "everyone in the water: the way out is blocked or taken",
  sources = { "common practice: two ways out that one event does not block together" },
  when = function (t) return #t.immersions > 0 end,
  assess = function (t)
    if t.site.basin.exits >= 2 then return end
    hazard {
      likelihood = scale.protection(scale.missing, {}, { t.people_under_water > 1 }), severity = 3,
      who = "everyone in the water",
      because = "{site.basin.exits} out of the water for {people_under_water}",
      controls = { "more-ladders" },
    }
  end,
  examples = example.join { {
    { "two", given = { ["site.basin.exits"] = "2" }, expect = nothing },
    { "one, for one", given = { ["site.basin.exits"] = "1" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "one, for two", given = { ["site.basin.exits"] = "1", people_under_water = "2" },
      expect = hazard { likelihood = 4, severity = 3 } },
    { "not known", given = {}, expect = hazard { likelihood = 3, severity = 3 } },
    { "nobody in the water", given = { immersions = "none", ["site.basin.exits"] = "1" },
      expect = nothing },
  },
    { { "more ladders", given = { ["site.basin.exits"] = "1" }, with = { "more-ladders" }, expect = nothing } },
  },
}

rule {
  id = "underwriting.one-way-out-of-chamber",
  title = "One way out of a dry chamber under the surface",
  each = "chamber",
  harm = "everyone in the chamber: shut in by whatever blocks it",
  sources = { "common practice: two ways out, or nobody stays longer than it takes to clear it" },
  assess = function (c)
    if c.exits >= 2 then return end
    hazard {
      likelihood = scale.protection(scale.missing, { c.attendant }), severity = 5, who = "everyone in the chamber",
      because = "{exits} out of the chamber; an attendant inside: {attendant}",
      controls = { "chamber-second-exit" },
    }
  end,
  examples = example.join { {
    { "two", given = { exits = "2" }, expect = nothing },
    { "one, with an attendant", given = { exits = "1", attendant = "yes" },
      expect = hazard { likelihood = 2, severity = 5 } },
    { "one, and nobody inside", given = { exits = "1", attendant = "no" },
      expect = hazard { likelihood = 3, severity = 5 } },
    { "not known", given = {}, expect = hazard { likelihood = 3, severity = 5 } },
  },
    { { "a second one", given = { exits = "1" }, with = { "chamber-second-exit" }, expect = nothing } },
  },
}

-- People who hold the post of diving supervisor in a task.
local function supervisors(t)
  local n = 0
  for _, post in ipairs(t.posts) do
    if post.role == "diving-supervisor" then n = n + 1 end
  end
  return n
end

rule {
  id = "underwriting.one-supervisor",
  title = "One supervisor and nobody to relieve them",
  each = "task",
  harm = "everyone in the water: nobody decides when the only one is busy, ill or wrong",
  sources = { "common practice: a second person who can stop and take over is named" },
  when = function (t) return #t.immersions > 0 end,
  assess = function (t)
    local n = supervisors(t)
    if n > 1 then return end
    hazard {
      likelihood = scale.protection(scale.missing, { n > 0 }, { n < 1, t.supervisor_other_duties }),
      severity = 3, who = "everyone in the water",
      because = n < 1 and "no post of diving supervisor is filled"
        or "one person holds the post; other duties: {supervisor_other_duties}",
      controls = { "appoint-supervisor" },
    }
  end,
  examples = example.join { {
    { "two", given = { ["posts.1.role"] = "diving-supervisor",
      ["posts.2.role"] = "diving-supervisor" }, expect = nothing },
    { "one, with no other job", given = { ["posts.1.role"] = "diving-supervisor",
      supervisor_other_duties = "no" }, expect = hazard { likelihood = 2, severity = 3 } },
    { "one, with another job", given = { ["posts.1.role"] = "diving-supervisor",
      supervisor_other_duties = "yes" }, expect = hazard { likelihood = 3, severity = 3 } },
    { "none", given = { ["posts.1.role"] = "lifeguard", supervisor_other_duties = "no" },
      expect = hazard { likelihood = 4, severity = 3 } },
    { "one, and nobody said what else they do",
      given = { ["posts.1.role"] = "diving-supervisor" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "nobody in the water", given = { immersions = "none" }, expect = nothing },
  },
    { { "freed of the other job", given = { ["posts.1.role"] = "diving-supervisor",
        supervisor_other_duties = "yes" }, with = { "appoint-supervisor" },
        expect = hazard { likelihood = 2, severity = 3 } } },
  },
}

rule {
  id = "underwriting.single-points",
  title = "Several things at once that have nothing beside them",
  each = "task",
  harm = "everyone in the water: the first failure meets the second",
  sources = { "common practice: three in one task are looked at together" },
  when = function (t) return #t.immersions > 0 end,
  assess = function (t)
    local one_air = false
    for _, i in ipairs(t.immersions) do
      if i.breathes_gas and i.air_sources < 2 then one_air = true end
    end
    local n = scale.count { one_air, t.safety_divers + t.standby_divers < 2,
      t.site.basin.exits < 2, supervisors(t) < 2 }
    if n < 3 then return end
    hazard {
      likelihood = n, severity = 5, who = "everyone in the water",
      because = "of air, rescuer, way out and supervisor, three or all four are single",
      controls = { "second-air-source", "more-safety-divers", "more-ladders" },
    }
  end,
  examples = example.join { {
    { "supervisor only", given = { ["immersions.1.air_sources"] = "2", safety_divers = "2",
      ["site.basin.exits"] = "2", ["posts.1.role"] = "diving-supervisor" }, expect = nothing },
    { "two of them", given = { ["immersions.1.air_sources"] = "2", safety_divers = "2",
      ["site.basin.exits"] = "1", ["posts.1.role"] = "diving-supervisor" }, expect = nothing },
    { "three", given = { ["immersions.1.breathes_gas"] = "yes",
      ["immersions.1.air_sources"] = "2", safety_divers = "1", standby_divers = "0",
      ["site.basin.exits"] = "1", ["posts.1.role"] = "diving-supervisor" },
      expect = hazard { likelihood = 3, severity = 5 } },
    { "all four", given = { ["immersions.1.breathes_gas"] = "yes",
      ["immersions.1.air_sources"] = "1", safety_divers = "1", standby_divers = "0",
      ["site.basin.exits"] = "1", ["posts.1.role"] = "diving-supervisor" },
      expect = hazard { likelihood = 4, severity = 5 } },
    { "two rescuers, one of them standing by", given = { ["immersions.1.breathes_gas"] = "yes",
      ["immersions.1.air_sources"] = "1", safety_divers = "1", standby_divers = "1",
      ["site.basin.exits"] = "2", ["posts.1.role"] = "diving-supervisor" }, expect = nothing },
    { "all but a second supervisor", given = { ["immersions.1.breathes_gas"] = "yes",
      ["immersions.1.air_sources"] = "1", safety_divers = "1", standby_divers = "0",
      ["site.basin.exits"] = "1", ["posts.1.role"] = "diving-supervisor",
      ["posts.2.role"] = "diving-supervisor" },
      expect = hazard { likelihood = 3, severity = 5 } },
    { "nothing known", given = {}, expect = hazard { likelihood = 4, severity = 5 } },
    { "nobody in the water", given = { immersions = "none" }, expect = nothing },
  },
    { { "more of everything", given = { ["immersions.1.breathes_gas"] = "yes", ["immersions.1.air_sources"] = "1",
        safety_divers = "1", standby_divers = "0", ["site.basin.exits"] = "1" },
        with = { "second-air-source", "more-safety-divers", "more-ladders" }, expect = nothing } },
  },
}
