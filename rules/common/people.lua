-- The people in the water: what they can do, how old and how well they are, what they fear.

local function young(i) return i.age < q"18 year" end

-- From trouble until the face is at the surface, as the emergency plan has it.
local function to_surface(site)
  local e = site.emergency
  return e.notice_time + e.reach_time + e.surface_time
end

local function under_water(i) return i.breath_hold > q"0 s" or i.breathes_gas end

rule {
  id = "people.swimming",
  title = "Swims too little for the distance of the task",
  each = "immersion",
  harm = "performer: tires and goes under",
  sources = { "common practice: a watched test, in clothes like the task's, with margin over " ..
    "the task" },
  assess = function (i)
    local needed = max(i.surface_swim, i.task.exit_distance)
    local proved = i.person.swim_distance
    if not i.person.swims_clothed then proved = proved * 0.5 end
    local likelihood = scale.reserve(proved, needed)
    if i.can_stand then likelihood = scale.within(likelihood - 2) end
    hazard {
      likelihood = likelihood, severity = scale.without_air(to_surface(i.site)), who = "1 person",
      because = "proved {proved} (half counts when not in clothes) for {needed}; at the " ..
        "surface {up} after trouble",
      values = { proved = proved, needed = needed, up = to_surface(i.site) },
      controls = { "swim-training", "hidden-float" },
      also = { "stunt-double", "more-ladders" },
    }
  end,
  examples = example.join { {
    { "a strong swimmer",
      given = { surface_swim = "20 m", ["task.exit_distance"] = "9 m", can_stand = "no",
                ["person.swim_distance"] = "400 m", ["person.swims_clothed"] = "yes",
                ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
                ["site.emergency.surface_time"] = "8 s" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "weak, and not in clothes",
      given = { surface_swim = "20 m", ["task.exit_distance"] = "30 m", can_stand = "no",
                ["person.swim_distance"] = "50 m", ["person.swims_clothed"] = "no",
                ["site.emergency.notice_time"] = "60 s", ["site.emergency.reach_time"] = "60 s",
                ["site.emergency.surface_time"] = "10 s" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "weak, but stands everywhere",
      given = { surface_swim = "3 m", ["task.exit_distance"] = "3 m", can_stand = "yes",
                ["person.swim_distance"] = "0 m", ["person.swims_clothed"] = "no",
                ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
                ["site.emergency.surface_time"] = "3 s" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "never tested",
      given = { surface_swim = "20 m", ["task.exit_distance"] = "9 m", can_stand = "no",
                ["person.swims_clothed"] = "yes",
                ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
                ["site.emergency.surface_time"] = "8 s" },
      expect = hazard { likelihood = 5, severity = 3 } },
    { "trained",
      given = { surface_swim = "20 m", ["task.exit_distance"] = "30 m", can_stand = "no",
                ["person.swim_distance"] = "50 m", ["person.swims_clothed"] = "no",
                ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
                ["site.emergency.surface_time"] = "8 s" },
      with = { "swim-training" }, expect = hazard { likelihood = 1, severity = 3 } },
  },
    -- half of it counts for 20 m
    example.edges({ surface_swim = "20 m", ["task.exit_distance"] = "9 m", can_stand = "no",
      ["person.swims_clothed"] = "no", ["site.emergency.notice_time"] = "3 s",
      ["site.emergency.reach_time"] = "5 s", ["site.emergency.surface_time"] = "8 s" },
      "person.swim_distance", 3, { "120 m", 1, "118 m", 2 }),
  },
}

local shown_here = { breath_hold = "15 s", depth = "3 m", ["person.skill_place"] = "this-tank",
  ["person.skill_depth"] = "4 m", ["person.skill_in_appliance"] = "yes",
  ["person.skill_shown_on"] = "2027-03-02", air_return_time = "5 s", age = "30 year" }

rule {
  id = "people.skill-elsewhere",
  title = "Skill shown somewhere easier than here",
  each = "immersion",
  harm = "performer: cannot do at depth what was done in a pool",
  sources = { "common practice: a skill shown in a bath or a shallow pool is not shown at the " ..
    "task's depth" },
  limits = { shown = { at_most = "30 day" } },
  when = under_water,
  assess = function (i, limit)
    local place, p = i.person.skill_place, i.person
    local in_all_worn = #i.wears < 1 or p.skill_in_appliance
    local likelihood = scale.protection(scale.missing,
      { place == "this-tank" or place == "open-water", in_all_worn },
      { place == "none" or place == "bath", p.skill_depth < i.depth * 0.9,
        i.day.date - p.skill_shown_on > limit.shown })
    hazard {
      likelihood = likelihood,
      severity = scale.vulnerable(scale.without_air(i.air_return_time), { young(i) }),
      because = "skills shown to {p.skill_depth} ({i.person.skill_place}) for a task at " ..
        "{i.depth}; gas is {i.air_return_time} away",
      values = { ["p.skill_depth"] = p.skill_depth }, who = "1 person",
      controls = { "staged-training", "rehearsal-in-costume", "stunt-double" },
    }
  end,
  examples = example.join { {
    { "shown here last week, in everything worn",
      given = { breath_hold = "15 s", depth = "3 m", ["person.skill_place"] = "this-tank",
                ["person.skill_depth"] = "4 m", ["person.skill_in_appliance"] = "yes",
                ["person.skill_shown_on"] = "2027-03-02", air_return_time = "5 s",
                age = "30 year" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "shown in a bath in winter",
      given = { breath_hold = "15 s", depth = "3 m", ["person.skill_place"] = "bath",
                ["person.skill_depth"] = "0.5 m", ["person.skill_in_appliance"] = "no",
                ["person.skill_shown_on"] = "2026-12-02", air_return_time = "8 s",
                age = "12 year" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "depth of the skill not written down",
      given = { breath_hold = "15 s", depth = "3 m", ["person.skill_place"] = "this-tank",
                ["person.skill_in_appliance"] = "yes", ["person.skill_shown_on"] = "2027-03-02",
                air_return_time = "5 s", age = "30 year" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "trained here",
      given = { breath_hold = "15 s", depth = "3 m", ["person.skill_place"] = "shallow-pool",
                ["person.skill_depth"] = "1.5 m", ["person.skill_in_appliance"] = "yes",
                ["person.skill_shown_on"] = "2027-03-02", air_return_time = "5 s",
                age = "30 year" },
      with = { "staged-training" }, expect = hazard { likelihood = 1, severity = 3 } },
    { "breathes gas throughout",
      given = { breath_hold = "0 s", breathes_gas = "yes", depth = "3 m",
                ["person.skill_place"] = "this-tank", ["person.skill_depth"] = "4 m",
                ["person.skill_in_appliance"] = "yes", ["person.skill_shown_on"] = "2027-03-02",
                air_return_time = "5 s", age = "30 year" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "stays at the surface", given = { breath_hold = "0 s", breathes_gas = "no" },
      expect = nothing },
  },
    example.edges(shown_here, "person.skill_depth", 3, { "2.7 m", 1, "2.65 m", 2 }),
    -- thirty days before, and a day more
    example.edges(shown_here, "person.skill_shown_on", 3, { "2027-02-07", 1, "2027-02-06", 2 }),
    example.edges(shown_here, "age", 3, { "18 year", 1, "17.9 year", hazard { likelihood = 1, severity = 4 } }),
    example.edges(shown_here, "person.skill_place", 3,
      { "open-water", 1, "shallow-pool", 2, "bath", 3, "none", 3 }),
    { { "one thing worn, skill shown without it",
        given = example.like(shown_here, { ["person.skill_in_appliance"] = "no" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "nothing worn", given = example.like(shown_here, { ["person.skill_in_appliance"] = "no", wears = "none" }),
        expect = hazard { likelihood = 1, severity = 3 } } },
  },
}

local in_training = { breath_hold = "15 s", can_stand = "no", ["person.trained_since"] = "2026-08-01",
  ["person.training_days"] = "40", air_return_time = "5 s", age = "30 year" }

rule {
  id = "people.training-time",
  title = "Little time in training for breath-hold acting",
  each = "immersion",
  harm = "performer: does under pressure what is not yet a habit",
  sources = { "common practice: about six months from first lesson to first take for a strong " ..
    "swimmer who does not dive" },
  when = function (i)
    local role = i.person.role
    local acts = role == "performer" or role == "stand-in" or role == "visitor"
    return acts and i.breath_hold > q"10 s" and not i.can_stand
  end,
  assess = function (i)
    local training = i.day.date - i.person.trained_since
    local likelihood = scale.minimum(training, q"180 day", q"90 day", q"45 day", q"14 day")
    if i.person.training_days < 10 then likelihood = scale.within(likelihood + 1) end
    hazard {
      likelihood = likelihood,
      severity = scale.vulnerable(scale.without_air(i.air_return_time), { young(i) }),
      because = "{training} since training began, {i.person.training_days} days of it",
      values = { training = training }, who = "1 performer",
      controls = { "stunt-double" },
      also = { "staged-training", "own-diver" },
    }
  end,
  examples = example.join { {
    { "seven months, forty days",
      given = { breath_hold = "15 s", can_stand = "no", ["person.trained_since"] = "2026-08-01",
                ["person.training_days"] = "40", air_return_time = "5 s", age = "30 year" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "two weeks, four days",
      given = { breath_hold = "15 s", can_stand = "no", ["person.trained_since"] = "2027-02-28",
                ["person.training_days"] = "4", air_return_time = "5 s", age = "12 year" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "start of training not known",
      given = { breath_hold = "15 s", can_stand = "no", ["person.training_days"] = "40",
                air_return_time = "5 s", age = "30 year" },
      expect = hazard { likelihood = 5, severity = 3 } },
    { "a stunt performer", given = { ["person.role"] = "stunt-performer" }, expect = nothing },
    { "a short dip", given = { breath_hold = "5 s", can_stand = "no" }, expect = nothing },
  },
    example.edges(in_training, "breath_hold", 3, { "10 s", nothing, "10.2 s", 1 }),
    -- 180, 90, 45 and 14 days before, and a day less
    example.edges(in_training, "person.trained_since", 3,
      { "2026-09-10", 1, "2026-09-11", 2, "2026-12-09", 2, "2026-12-10", 3, "2027-01-23", 3, "2027-01-24", 4,
        "2027-02-23", 4, "2027-02-24", 5 }),
    example.edges(in_training, "person.training_days", 3, { "10", 1, "9", 2 }),
    example.edges(in_training, "person.role", 3, { "performer", 1, "stand-in", 1, "visitor", 1 }),
    example.edges(in_training, "can_stand", 3, { "yes", nothing }),
    { { "a child, and a double who is grown instead", given = example.like(in_training, { age = "12 year" }),
        with = { "stunt-double" }, expect = hazard { likelihood = 1, severity = 3 } } },
  },
}

rule {
  id = "people.drills",
  title = "Mouthpiece and mask drills not passed",
  each = "immersion",
  harm = "performer: swallows water, panics, bolts for the surface",
  sources = { "common practice: mouthpiece found, seated and cleared without a mask before the " ..
    "first take" },
  when = function (i) return i.breathes_gas end,
  assess = function (i)
    local mouthpiece, mask = i.person.mouthpiece_drill, i.person.mask_clearing
    local likelihood = scale.protection(scale.missing,
      { mouthpiece == "passed", mask == "passed" or i.own_safety_diver },
      { mouthpiece == "failed", i.gives_up_gas })
    hazard {
      likelihood = likelihood,
      severity = scale.vulnerable(scale.without_air(i.air_return_time), { young(i) }),
      because = "mouthpiece drill {i.person.mouthpiece_drill}, mask clearing " ..
        "{i.person.mask_clearing}",
      who = "1 person", controls = { "staged-training", "own-diver", "diver-seats-mouthpiece" },
    }
  end,
  examples = example.join { {
    { "both passed, keeps the gas",
      given = { breathes_gas = "yes", ["person.mouthpiece_drill"] = "passed",
                ["person.mask_clearing"] = "passed", gives_up_gas = "no", own_safety_diver = "no",
                air_return_time = "5 s", age = "30 year" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "failed, and gives up the gas",
      given = { breathes_gas = "yes", ["person.mouthpiece_drill"] = "failed",
                ["person.mask_clearing"] = "failed", gives_up_gas = "yes", own_safety_diver = "no",
                air_return_time = "5 s", age = "12 year" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "drills not written down",
      given = { breathes_gas = "yes", gives_up_gas = "no", own_safety_diver = "no",
                air_return_time = "5 s", age = "30 year" },
      expect = hazard { likelihood = 4, severity = 3 } },
    { "trained until passed",
      given = { breathes_gas = "yes", ["person.mouthpiece_drill"] = "failed",
                ["person.mask_clearing"] = "failed", gives_up_gas = "no", own_safety_diver = "no",
                air_return_time = "5 s", age = "30 year" },
      with = { "staged-training" }, expect = hazard { likelihood = 1, severity = 3 } },
    { "no gas", given = { breathes_gas = "no" }, expect = nothing },
  },
    example.edges({ breathes_gas = "yes", ["person.mouthpiece_drill"] = "passed",
      ["person.mask_clearing"] = "failed", gives_up_gas = "no", air_return_time = "5 s", age = "30 year" },
      "own_safety_diver", 3, { "no", 2, "yes", 1 }),
  },
}

rule {
  id = "people.fear",
  title = "Fear of deep water or of being shut in",
  each = "immersion",
  harm = "performer: panic, fast breathing, bolt to the surface",
  sources = { "common practice: asked alone, met in small steps, with the right to refuse" },
  assess = function (i)
    local water, shut = i.person.fear_of_water, i.person.fear_of_enclosure
    local covered = i.task.overhead or i.restrained
    if water == "none" and (shut == "none" or not covered) then return end
    local marked = water == "marked" or (covered and shut == "marked")
    local likelihood = scale.protection(marked and 4 or 3,
      { i.touch_contact or i.escorted, i.withdrawal_signal }, { covered, i.first_time })
    hazard {
      likelihood = likelihood, severity = scale.vulnerable(i.breathes_gas and 4 or 3, { young(i) }),
      discreet = true,
      because = "a fear is declared; a bolt for the surface is to be reckoned with",
      who = "1 performer",
      controls = { "staged-exposure", "own-stop-signal", "stunt-double" },
    }
  end,
  examples = example.join { {
    { "none", given = { ["person.fear_of_water"] = "none", ["person.fear_of_enclosure"] = "mild",
                ["task.overhead"] = "no", restrained = "no" }, expect = nothing },
    { "mild, escorted, own signal",
      given = { ["person.fear_of_water"] = "mild", ["person.fear_of_enclosure"] = "none",
                ["task.overhead"] = "no", restrained = "no", touch_contact = "no", escorted = "yes",
                withdrawal_signal = "yes", first_time = "no", breathes_gas = "no",
                age = "30 year" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "marked, under a set, for the first time, on gas",
      given = { ["person.fear_of_water"] = "none", ["person.fear_of_enclosure"] = "marked",
                ["task.overhead"] = "yes", restrained = "no", touch_contact = "no", escorted = "no",
                withdrawal_signal = "no", first_time = "yes", breathes_gas = "yes",
                age = "12 year" },
      expect = hazard { likelihood = 5, severity = 5 } },
    { "not asked",
      given = { ["person.fear_of_enclosure"] = "none", ["task.overhead"] = "no", restrained = "no",
                touch_contact = "no", escorted = "yes", withdrawal_signal = "yes",
                first_time = "no",
                breathes_gas = "no", age = "30 year" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "own signal agreed",
      given = { ["person.fear_of_water"] = "mild", ["person.fear_of_enclosure"] = "none",
                ["task.overhead"] = "no", restrained = "no", touch_contact = "no", escorted = "yes",
                withdrawal_signal = "no", first_time = "no", breathes_gas = "no", age = "30 year" },
      with = { "own-stop-signal" }, expect = hazard { likelihood = 1, severity = 3 } },
  },
    example.edges({ ["person.fear_of_water"] = "mild", ["person.fear_of_enclosure"] = "none",
      ["task.overhead"] = "no", restrained = "no", escorted = "no", withdrawal_signal = "yes", first_time = "no",
      breathes_gas = "no", age = "30 year" }, "touch_contact", 3, { "no", 2, "yes", 1 }),
    example.edges({ ["person.fear_of_water"] = "none", ["person.fear_of_enclosure"] = "mild",
      ["task.overhead"] = "no", touch_contact = "no", escorted = "yes", withdrawal_signal = "yes",
      first_time = "no", breathes_gas = "no", age = "30 year" }, "restrained", 3, { "no", nothing, "yes", 2 }),
    example.edges({ ["person.fear_of_water"] = "mild", ["person.fear_of_enclosure"] = "none",
      ["task.overhead"] = "no", restrained = "no", touch_contact = "no", escorted = "yes", withdrawal_signal = "yes",
      first_time = "no", age = "30 year" }, "breathes_gas", 4,
      { "no", hazard { likelihood = 1, severity = 3 }, "yes", 1 }),
  },
}

rule {
  id = "people.medical",
  title = "Not found fit by a diving doctor within twelve months",
  each = "immersion",
  harm = "performer: collapse under water from something a doctor would have found",
  sources = { "Diving at Work Regulations 1997 reg 15: certificate at most 12 months; HSE MA1 " ..
    "list of conditions" },
  when = function (i) return i.breathes_gas or (i.breath_hold > q"0 s" and not i.can_stand) end,
  assess = function (i)
    local by = i.person.medical
    local seen = by == "diving-doctor" or (by == "general-doctor" and not i.breathes_gas)
    local current = i.day.date - i.person.medical_on <= q"366 day"
    if seen and current then return end
    hazard {
      likelihood = scale.protection(scale.missing, { by ~= "none" and current },
        { i.breathes_gas and not seen }),
      severity = 4, who = "1 person", discreet = true,
      because = "medical: {i.person.medical}, {i.person.medical_on}",
      controls = { "diving-doctor" },
      also = { "stunt-double" },
    }
  end,
  examples = example.join { {
    { "diving doctor in October",
      given = { breath_hold = "15 s", breathes_gas = "yes", ["person.medical"] = "diving-doctor",
                ["person.medical_on"] = "2026-10-02" }, expect = nothing },
    { "family doctor, breath-hold only",
      given = { breath_hold = "15 s", breathes_gas = "no", can_stand = "no",
        ["person.medical"] = "general-doctor",
                ["person.medical_on"] = "2026-10-02" }, expect = nothing },
    { "run out",
      given = { breath_hold = "15 s", breathes_gas = "yes", ["person.medical"] = "diving-doctor",
                ["person.medical_on"] = "2025-10-02" }, expect = hazard { likelihood = 3,
                severity = 4 } },
    { "none, on gas",
      given = { breath_hold = "0 s", breathes_gas = "yes", ["person.medical"] = "none",
                ["person.medical_on"] = "2025-10-02" }, expect = hazard { likelihood = 4,
                severity = 4 } },
    { "not known",
      given = { breath_hold = "15 s", breathes_gas = "no", can_stand = "no",
        ["person.medical_on"] = "2026-10-02" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "examined",
      given = { breath_hold = "15 s", breathes_gas = "yes", ["person.medical"] = "declaration",
                ["person.medical_on"] = "2026-10-02" }, with = { "diving-doctor" },
                expect = nothing },
    { "stands in the pool", given = { breath_hold = "3 s", breathes_gas = "no", can_stand = "yes" },
      expect = nothing },
    { "stays at the surface", given = { breath_hold = "0 s", breathes_gas = "no" },
      expect = nothing },
  },
    example.edges({ breath_hold = "15 s", breathes_gas = "yes", ["person.medical"] = "diving-doctor" },
      "person.medical_on", 4, { "2026-03-08", nothing, "2026-03-07", 3 }),
    example.edges({ breath_hold = "15 s", can_stand = "no", ["person.medical"] = "general-doctor",
      ["person.medical_on"] = "2026-10-02" }, "breathes_gas", 4, { "no", nothing, "yes", 3 }),
    example.edges({ breath_hold = "15 s", breathes_gas = "no", ["person.medical"] = "none" }, "can_stand", 4,
      { "yes", nothing, "no", 3 }),
  },
}

local declared_well = { breath_hold = "15 s", breathes_gas = "no", ["person.conditions_cleared"] = "no",
  ["person.epilepsy"] = "no", ["person.heart_condition"] = "no", ["person.asthma"] = "no",
  ["person.ear_trouble"] = "no", ["person.diabetes"] = "no", ["person.medication"] = "no" }
local fells = { stop {}, hazard { likelihood = 4, severity = 5 } }

rule {
  id = "people.condition",
  title = "A condition that a diving doctor has not cleared",
  each = "immersion",
  harm = "performer: collapse, fit or lung injury under water",
  sources = { "HSE MA1 list of conditions; diver training guidance: pregnant or possibly pregnant, do not " ..
    "dive" },
  when = under_water,
  assess = function (i)
    local p = i.person
    if i.breathes_gas and p.pregnant then
      stop { because = "pregnant, or may be, and breathes compressed gas", discreet = true,
        also = { "stunt-double" } }
    end
    if p.conditions_cleared then return end
    if p.epilepsy or p.heart_condition or p.asthma then
      stop { because = "a condition that can fell somebody under water is not cleared",
             discreet = true,controls = { "diving-doctor" } }
      hazard { likelihood = 4, severity = 5, because = "fit, faint or lung injury under water",
        who = "1 person", discreet = true,
               controls = { "diving-doctor" },
               also = { "stunt-double" } }
      return
    end
    if p.ear_trouble or p.diabetes or p.medication then
      hazard { likelihood = 3, severity = 4, because = "a declared condition is not cleared",
        who = "1 person", discreet = true,
               controls = { "diving-doctor" },
               also = { "stunt-double" } }
    end
  end,
  examples = example.join { {
    { "all well",
      given = { breath_hold = "15 s", breathes_gas = "yes", ["person.pregnant"] = "no",
                ["person.conditions_cleared"] = "yes" }, expect = nothing },
    { "asthma, not cleared",
      given = { breath_hold = "15 s", breathes_gas = "yes", ["person.pregnant"] = "no",
                ["person.conditions_cleared"] = "no", ["person.epilepsy"] = "no",
                ["person.heart_condition"] = "no", ["person.asthma"] = "yes" },
      expect = { stop {}, hazard { likelihood = 4, severity = 5 } } },
    { "pregnant on gas",
      given = { breath_hold = "15 s", breathes_gas = "yes", ["person.pregnant"] = "yes",
                ["person.conditions_cleared"] = "yes" }, expect = stop {} },
    { "ears, not cleared",
      given = { breath_hold = "15 s", breathes_gas = "no", ["person.conditions_cleared"] = "no",
                ["person.epilepsy"] = "no", ["person.heart_condition"] = "no",
                ["person.asthma"] = "no",
                ["person.ear_trouble"] = "yes" }, expect = hazard { likelihood = 3,
                severity = 4 } },
    { "nothing asked", given = { breath_hold = "15 s", breathes_gas = "no" },
      expect = { stop {}, hazard { likelihood = 4, severity = 5 } } },
    { "cleared", given = { breath_hold = "15 s", breathes_gas = "no", ["person.asthma"] = "yes" },
      with = { "diving-doctor" }, expect = nothing },
    { "dry", given = { breath_hold = "0 s", breathes_gas = "no" }, expect = nothing },
  },
    example.edges(declared_well, "person.epilepsy", 5, { "no", nothing, "yes", fells }),
    example.edges(declared_well, "person.heart_condition", 5, { "yes", fells }),
    example.edges(declared_well, "person.asthma", 5, { "yes", fells }),
    example.edges(declared_well, "person.ear_trouble", 4, { "yes", 3 }),
    example.edges(declared_well, "person.diabetes", 4, { "yes", 3 }),
    example.edges(declared_well, "person.medication", 4, { "yes", 3 }),
  },
}

rule {
  id = "people.alcohol",
  title = "Alcohol, drugs or too little sleep before the water",
  each = "immersion",
  harm = "performer and whoever has to rescue: slow, cold, careless",
  sources = { "common practice: none for twelve hours, asked each morning" },
  assess = function (i)
    if i.alcohol_12_h then
      stop { because = "alcohol, drugs or little sleep within twelve hours", discreet = true,
        also = { "stunt-double" } }
      hazard { likelihood = 4, severity = 4, because = "not fit to be in the water today",
        who = "1 person", discreet = true,
               also = { "stunt-double" } }
      return
    end
    if not (i.day.health_asked and i.production.alcohol_policy) then
      hazard { likelihood = 2, severity = 3, who = "1 person",
               because = "nobody asks each morning, or there is no policy to ask by",
               controls = { "health-asked" } }
    end
  end,
  examples = example.join { {
    { "asked, sober", given = { alcohol_12_h = "no", ["day.health_asked"] = "yes",
                ["production.alcohol_policy"] = "yes" }, expect = nothing },
    { "a late night", given = { alcohol_12_h = "yes" },
      expect = { stop {}, hazard { likelihood = 4, severity = 4 } } },
    { "nobody asks", given = { alcohol_12_h = "no", ["day.health_asked"] = "no" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "not known", given = { ["day.health_asked"] = "yes", ["production.alcohol_policy"] = "yes" },
      expect = { stop {}, hazard { likelihood = 4, severity = 4 } } },
    { "asked from now on", given = { alcohol_12_h = "no", ["day.health_asked"] = "no",
                ["production.alcohol_policy"] = "yes" }, with = { "health-asked" },
                expect = nothing },
  },
    example.edges({ alcohol_12_h = "no", ["day.health_asked"] = "yes" }, "production.alcohol_policy", 3,
      { "yes", nothing, "no", 2 }),
  },
}

rule {
  id = "people.child-in-water",
  title = "Somebody under eighteen in the water",
  each = "immersion",
  harm = "child: less reserve, cools faster, does not say no",
  sources = { "common practice: a chaperone in sight, one diver of the child's own, a grown " ..
    "double for the rest",
              "Management of Health and Safety at Work Regulations 1999 reg 19" },
  when = young,
  assess = function (i)
    local p = i.person
    local likelihood = scale.protection(scale.missing,
      { i.task.chaperone_in_sight, i.own_safety_diver or i.can_stand,
        p.understands_action and p.guardian_consents },
      { i.first_time, i.age < q"9 year", p.fear_of_water == "marked" })
    hazard {
      likelihood = scale.repeats(likelihood, i.takes),
      severity = scale.vulnerable(scale.without_air(i.air_return_time), { true }),
      because = "{i.takes} takes; chaperone, a diver of the child's own, or an understood and " ..
        "agreed action may be missing",
      who = "1 child", controls = { "chaperone-in-sight", "own-diver", "stunt-double" },
      also = { "shorter-take" },
    }
  end,
  examples = example.join { {
    { "chaperone, own diver, understood",
      given = { age = "12 year", ["task.chaperone_in_sight"] = "yes", own_safety_diver = "yes",
                can_stand = "no", ["person.understands_action"] = "yes",
                ["person.guardian_consents"] = "yes", first_time = "no",
                ["person.fear_of_water"] = "none", takes = "6", air_return_time = "5 s" },
      expect = hazard { likelihood = 1, severity = 4 } },
    { "seven years old, first time, twelve takes, alone",
      given = { age = "7 year", ["task.chaperone_in_sight"] = "no", own_safety_diver = "no",
                can_stand = "no", ["person.understands_action"] = "no",
                ["person.guardian_consents"] = "yes", first_time = "yes",
                ["person.fear_of_water"] = "none", takes = "12", air_return_time = "100 s" },
      expect = hazard { likelihood = 5, severity = 5 } },
    { "fear not asked",
      given = { age = "12 year", ["task.chaperone_in_sight"] = "no", own_safety_diver = "yes",
                can_stand = "no", ["person.understands_action"] = "yes",
                ["person.guardian_consents"] = "yes", first_time = "no", takes = "6",
                air_return_time = "5 s" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "chaperone in sight",
      given = { age = "12 year", ["task.chaperone_in_sight"] = "no", own_safety_diver = "yes",
                can_stand = "no", ["person.understands_action"] = "yes",
                ["person.guardian_consents"] = "yes", first_time = "no",
                ["person.fear_of_water"] = "none", takes = "6", air_return_time = "5 s" },
      with = { "chaperone-in-sight" }, expect = hazard { likelihood = 1, severity = 4 } },
    { "grown up", given = { age = "30 year" }, expect = nothing },
  },
    example.edges({ ["task.chaperone_in_sight"] = "no", own_safety_diver = "yes", can_stand = "no",
      ["person.understands_action"] = "yes", ["person.guardian_consents"] = "yes", first_time = "no",
      ["person.fear_of_water"] = "none", takes = "6", air_return_time = "5 s" }, "age", 4,
      { "9 year", 1, "8.9 year", 2 }),
    example.edges({ age = "12 year", ["task.chaperone_in_sight"] = "no", own_safety_diver = "no",
      ["person.understands_action"] = "yes", ["person.guardian_consents"] = "yes", first_time = "no",
      ["person.fear_of_water"] = "none", takes = "6", air_return_time = "5 s" }, "can_stand", 4, { "no", 2, "yes", 1 }),
    example.edges({ age = "12 year", ["task.chaperone_in_sight"] = "no", own_safety_diver = "yes",
      can_stand = "no", ["person.understands_action"] = "yes", first_time = "no",
      ["person.fear_of_water"] = "none", takes = "6", air_return_time = "5 s" }, "person.guardian_consents", 4,
      { "yes", 1, "no", 2 }),
  },
}

rule {
  id = "people.stunt-match",
  title = "Action beyond what the person is trained for",
  each = "immersion",
  harm = "performer: fall, blow or lost orientation",
  worst = { likelihood = 5, severity = 4 },
  sources = { "common practice: falls, fights and held action go to graded stunt performers" },
  when = function (i)
    local action = i.task.action
    local entry = i.entry
    local drop = (entry == "jump" or entry == "fall" or entry == "dive") and i.entry_height > q"2 m"
    local role = i.person.role
    local acts = role == "performer" or role == "stunt-performer" or role == "stand-in"
    return acts and (action == "fight" or action == "fall" or action == "drive" or drop
      or i.restrained)
  end,
  assess = function (i)
    local grade = i.person.stunt_grade
    local graded = grade == "graded" or grade == "coordinator"
    local likelihood = scale.protection(scale.missing,
      { graded, graded or grade == "trainee", i.task.rehearsed }, { i.first_time, young(i) })
    hazard {
      likelihood = likelihood, severity = 4, who = "1 performer",
      because = "stunt standing {i.person.stunt_grade} for this action",
      controls = { "stunt-performer", "stunt-double", "lower-jump" },
    }
  end,
  examples = example.join { {
    { "swims only",
      given = { ["task.action"] = "swim", entry = "ladder", restrained = "no" }, expect = nothing },
    { "steps in from the edge",
      given = { ["task.action"] = "swim", entry = "jump", entry_height = "1 m", restrained = "no" },
      expect = nothing },
    { "graded and rehearsed",
      given = { ["task.action"] = "fight", restrained = "no", ["person.stunt_grade"] = "graded",
                ["task.rehearsed"] = "yes", first_time = "no", age = "30 year" },
      expect = hazard { likelihood = 1, severity = 4 } },
    { "an actor jumps from five metres, unrehearsed, first time",
      given = { ["task.action"] = "swim", entry = "jump", entry_height = "5 m", restrained = "no",
                ["person.stunt_grade"] = "none", ["task.rehearsed"] = "no", first_time = "yes",
                age = "30 year" },
      expect = hazard { likelihood = 4, severity = 4 } },
    { "a child fights", given = { ["task.action"] = "fight", restrained = "no",
                ["person.stunt_grade"] = "none", ["task.rehearsed"] = "no", first_time = "yes",
                age = "12 year" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "standing not known",
      given = { ["task.action"] = "fall", restrained = "no", ["task.rehearsed"] = "yes",
        first_time = "no",
                age = "30 year" }, expect = hazard { likelihood = 2, severity = 4 } },
    { "a stunt performer instead",
      given = { ["task.action"] = "fall", restrained = "no", ["person.stunt_grade"] = "none",
                ["task.rehearsed"] = "yes", first_time = "no", age = "30 year" },
      with = { "stunt-performer" }, expect = hazard { likelihood = 1, severity = 4 } },
  },
    example.edges({ ["task.action"] = "swim", entry = "jump", restrained = "no", ["person.stunt_grade"] = "none",
      ["task.rehearsed"] = "yes", first_time = "no", age = "30 year" }, "entry_height", 4,
      { "2 m", nothing, "2.1 m", 2 }),
    example.edges({ ["task.action"] = "fight", restrained = "no", ["person.stunt_grade"] = "trainee",
      ["task.rehearsed"] = "no", first_time = "no", age = "30 year" }, "person.role", 4,
      { "performer", 2, "stunt-performer", 2, "stand-in", 2, "camera-diver", nothing }),
    example.edges({ entry = "ladder", restrained = "no", ["person.stunt_grade"] = "trainee",
      ["task.rehearsed"] = "no", first_time = "no", age = "30 year" }, "task.action", 4,
      { "drive", 2, "fall", 2, "swim", nothing }),
    example.edges({ ["task.action"] = "swim", entry = "ladder", ["person.stunt_grade"] = "trainee",
      ["task.rehearsed"] = "no", first_time = "no", age = "30 year" }, "restrained", 4, { "no", nothing, "yes", 2 }),
    example.edges({ ["task.action"] = "swim", entry_height = "3 m", restrained = "no", ["person.stunt_grade"] = "none",
      ["task.rehearsed"] = "yes", first_time = "no", age = "30 year" }, "entry", 4,
      { "jump", 2, "fall", 2, "dive", 2, "slide", nothing }),
  },
}

rule {
  id = "people.signals",
  title = "Calls and signals not understood",
  each = "immersion",
  harm = "performer: does the wrong thing on a signal",
  worst = { likelihood = 5, severity = 4 },
  sources = { "common practice: one language or signals instead, drilled in the water" },
  limits = { rehearsed = { at_most = "14 day" } },
  assess = function (i, limit)
    local p = i.person
    local likelihood = scale.protection(scale.missing,
      { p.understands_calls or i.task.common_language, p.withdrawal_signal_taught },
      { i.day.date - p.signals_rehearsed_on > limit.rehearsed, i.first_time })
    if likelihood < 2 then return end
    hazard {
      likelihood = likelihood, severity = scale.vulnerable(3, { young(i) }), who = "1 person",
      because = "signals last rehearsed {rehearsed} before the day; language or stop signal " ..
        "may be missing",
      values = { rehearsed = max(q"0 day", i.day.date - p.signals_rehearsed_on) },
      controls = { "signal-drill", "own-stop-signal" },
    }
  end,
  examples = example.join { {
    { "drilled two days ago",
      given = { ["person.understands_calls"] = "yes", ["person.withdrawal_signal_taught"] = "yes",
                ["person.signals_rehearsed_on"] = "2027-03-07", first_time = "no" },
                expect = nothing },
    { "no language, no drill, first time",
      given = { ["person.understands_calls"] = "no", ["task.common_language"] = "no",
                ["person.withdrawal_signal_taught"] = "no",
                ["person.signals_rehearsed_on"] = "2026-09-07",
                first_time = "yes", age = "30 year" }, expect = hazard { likelihood = 5,
                severity = 3 } },
    { "drill not written down, a child",
      given = { ["person.understands_calls"] = "yes", ["person.withdrawal_signal_taught"] = "yes",
                first_time = "no", age = "12 year" }, expect = hazard { likelihood = 2,
                severity = 4 } },
    { "drilled in the water",
      given = { ["person.understands_calls"] = "no", ["task.common_language"] = "no",
                ["person.withdrawal_signal_taught"] = "yes",
                ["person.signals_rehearsed_on"] = "2027-03-07",
                first_time = "no", age = "30 year" }, with = { "signal-drill" }, expect = nothing },
  },
    example.edges({ ["person.understands_calls"] = "yes", ["person.withdrawal_signal_taught"] = "yes",
      first_time = "no", age = "30 year" }, "person.signals_rehearsed_on", 3,
      { "2027-02-23", nothing, "2027-02-22", 2 }),
    example.edges({ ["person.understands_calls"] = "no", ["person.withdrawal_signal_taught"] = "yes",
      ["person.signals_rehearsed_on"] = "2027-03-07", first_time = "no", age = "30 year" }, "task.common_language", 3,
      { "yes", nothing, "no", 2 }),
  },
}

rule {
  id = "people.guest",
  title = "A visitor, journalist or guest in the water",
  each = "immersion",
  harm = "guest: tires, swallows water, follows the mood of the group",
  sources = { "common practice: guests only in shallow water, one escort each, trained that day" },
  when = function (i) return i.person.role == "visitor" end,
  assess = function (i)
    local trained, medical = i.trained_that_day, i.person.medical
    local likelihood = scale.protection(scale.frequent,
      { i.can_stand, i.escorted, trained and medical ~= "none" }, { i.breathes_gas })
    hazard {
      likelihood = likelihood, severity = scale.without_air(to_surface(i.site)), who = "1 guest",
      because = "an untrained person in the water; at the surface {up} after trouble",
      values = { up = to_surface(i.site) }, controls = { "guest-terms" },
      also = { "no-guests" },
    }
  end,
  examples = example.join { {
    { "stands in the shallow end with an escort after a lesson",
      given = { ["person.role"] = "visitor", can_stand = "yes", escorted = "yes",
        trained_that_day = "yes",
                ["person.medical"] = "declaration", breathes_gas = "no",
                ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
                ["site.emergency.surface_time"] = "3 s" },
                expect = hazard { likelihood = 1, severity = 3 } },
    { "alone, deep, on gas, untrained",
      given = { ["person.role"] = "visitor", can_stand = "no", escorted = "no",
        trained_that_day = "no",
                ["person.medical"] = "none", breathes_gas = "yes",
                ["site.emergency.notice_time"] = "60 s", ["site.emergency.reach_time"] = "40 s",
                ["site.emergency.surface_time"] = "10 s" },
                expect = hazard { likelihood = 5, severity = 4 } },
    { "escort not known",
      given = { ["person.role"] = "visitor", can_stand = "yes", trained_that_day = "yes",
                ["person.medical"] = "declaration", breathes_gas = "no",
                ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
                ["site.emergency.surface_time"] = "3 s" },
                expect = hazard { likelihood = 2, severity = 3 } },
    { "on terms",
      given = { ["person.role"] = "visitor", can_stand = "no", escorted = "no",
        trained_that_day = "no",
                ["person.medical"] = "declaration", breathes_gas = "no",
                ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
                ["site.emergency.surface_time"] = "3 s" },
      with = { "guest-terms" }, expect = hazard { likelihood = 1, severity = 3 } },
    { "one of the cast", given = { ["person.role"] = "performer" }, expect = nothing },
  },
    example.edges({ ["person.role"] = "visitor", can_stand = "yes", escorted = "yes", trained_that_day = "yes",
      breathes_gas = "no", ["site.emergency.notice_time"] = "3 s", ["site.emergency.reach_time"] = "5 s",
      ["site.emergency.surface_time"] = "3 s" }, "person.medical", 3, { "declaration", 1, "none", 2 }),
  },
}

local cannot_swim = { non_swimmers = "2", life_jackets = "no", lifeguards = "1",
  ["site.basin.depth"] = "5 m", light_level = "100 lux", ["site.emergency.notice_time"] = "3 s",
  ["site.emergency.reach_time"] = "5 s", ["site.emergency.surface_time"] = "3 s" }

rule {
  id = "people.non-swimmers",
  title = "People who cannot swim, in or over the water",
  each = "task",
  harm = "cast and crew: fall in and go under",
  sources = { "common practice: life jacket, or water they can stand in, and a lifeguard who " ..
    "knows who they are" },
  when = function (t) return t.non_swimmers > 0 end,
  assess = function (t)
    local shallow = t.site.basin.depth <= q"1.3 m"
    local likelihood = scale.repeats(scale.protection(scale.missing,
      { t.life_jackets, t.lifeguards >= 1, shallow }, { t.light_level < q"20 lux" }),
      t.non_swimmers)
    hazard {
      likelihood = likelihood, severity = scale.without_air(to_surface(t.site)),
      because = "{t.non_swimmers} cannot swim; water {depth} deep; at the surface {up} after " ..
        "trouble",
      values = { depth = t.site.basin.depth, up = to_surface(t.site) },
      who = "those who cannot swim",
      controls = { "life-jackets", "lifeguard", "work-lights" },
      also = { "swim-training" },
    }
  end,
  examples = example.join { {
    { "all swim", given = { non_swimmers = "0" }, expect = nothing },
    { "two in a shallow pool with a lifeguard",
      given = { non_swimmers = "2", life_jackets = "no", lifeguards = "1",
        ["site.basin.depth"] = "1.2 m",
                light_level = "100 lux", ["site.emergency.notice_time"] = "3 s",
                ["site.emergency.reach_time"] = "5 s", ["site.emergency.surface_time"] = "3 s" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "twelve over deep water in the dark",
      given = { non_swimmers = "12", life_jackets = "no", lifeguards = "0",
        ["site.basin.depth"] = "5 m",
                light_level = "5 lux", ["site.emergency.notice_time"] = "60 s",
                ["site.emergency.reach_time"] = "40 s", ["site.emergency.surface_time"] = "10 s" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "nobody asked",
      given = { life_jackets = "yes", lifeguards = "1", ["site.basin.depth"] = "5 m",
                light_level = "100 lux", ["site.emergency.notice_time"] = "3 s",
                ["site.emergency.reach_time"] = "5 s", ["site.emergency.surface_time"] = "3 s" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "life jackets on",
      given = { non_swimmers = "2", life_jackets = "no", lifeguards = "1",
        ["site.basin.depth"] = "5 m",
                light_level = "100 lux", ["site.emergency.notice_time"] = "3 s",
                ["site.emergency.reach_time"] = "5 s", ["site.emergency.surface_time"] = "3 s" },
      with = { "life-jackets" }, expect = hazard { likelihood = 1, severity = 3 } },
  },
    example.edges(cannot_swim, "non_swimmers", 3, { "1", 2, "9", 2, "10", 3 }),
    example.edges(cannot_swim, "site.basin.depth", 3, { "1.3 m", 1, "1.33 m", 2 }),
    example.edges(cannot_swim, "light_level", 3, { "20 lux", 2, "19.5 lux", 3 }),
  },
}
