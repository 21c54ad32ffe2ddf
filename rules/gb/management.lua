-- Management of health and safety in Great Britain: the assessment itself, young
-- persons, emergencies, rest, noise, drowning, substances, what is reported.

local management = "Management of Health and Safety at Work Regulations 1999 (SI 1999/3242)"

rule {
  id = "gb.management.review",
  title = "The assessment is looked at again when it may no longer hold",
  each = "day",
  harm = "everyone: decided on old facts",
  sources = { "Management of Health and Safety at Work Regulations 1999 reg 3(3), 3(6)" },
  assess = function (d)
    duty {
      met = d.production.review_by >= d.date, instrument = management,
      section = "reg 3(3) and 3(6)",
      evidence = "a dated revision, approved by name",
      because = "to be looked at again by {production.review_by}; a dated revision, approved " ..
        "by name, is the evidence",
    }
  end,
  examples = {
    { "on the day", given = { ["production.review_by"] = "2027-03-09" },
      expect = duty { met = true } },
    { "the day before", given = { ["production.review_by"] = "2027-03-08" },
      expect = duty { met = false } },
    { "no date", given = {}, expect = duty { met = false } },
  },
}

rule {
  id = "gb.management.serious-danger",
  title = "Procedures for serious and imminent danger, and outside help",
  each = "site",
  harm = "everyone at the water: no procedure, no call",
  sources = { "Management of Health and Safety at Work Regulations 1999 regs 8 and 9" },
  assess = function (s)
    local e = s.emergency
    duty {
      met = e.plan_written and e.alarm_heard, instrument = management, section = "reg 8",
      about = "procedures",
      evidence = "the posted plan, and the drill",
      because = "plan written and posted: {emergency.plan_written}; alarm heard everywhere: " ..
        "{emergency.alarm_heard}",
      controls = { "written-plan", "alarm-under-water" },
    }
    duty {
      met = e.contacts_posted and e.phone_coverage, instrument = management, section = "reg 9",
      about = "outside help",
      evidence = "the posted numbers, and a call tried from the water",
      because = "numbers posted: {emergency.contacts_posted}; telephone or radio works at the " ..
        "water: {emergency.phone_coverage}",
      controls = { "written-plan", "radio-at-water" },
    }
  end,
  examples = {
    { "all there",
      given = { ["emergency.plan_written"] = "yes", ["emergency.alarm_heard"] = "yes",
                ["emergency.contacts_posted"] = "yes", ["emergency.phone_coverage"] = "yes" },
      expect = duty { met = true } },
    { "no telephone",
      given = { ["emergency.plan_written"] = "yes", ["emergency.alarm_heard"] = "yes",
                ["emergency.contacts_posted"] = "yes", ["emergency.phone_coverage"] = "no" },
      expect = duty { met = false } },
    { "not known", given = {}, expect = duty { met = false } },
    { "written, with a radio", given = { ["emergency.alarm_heard"] = "yes" },
      with = { "written-plan", "radio-at-water" }, expect = duty { met = true } },
  },
}

rule {
  id = "gb.management.young-person",
  title = "Work a young person can recognise the dangers of",
  each = "immersion",
  harm = "young person: danger not recognised or avoided",
  sources = { "Management of Health and Safety at Work Regulations 1999 reg 19 as made" },
  when = function (i) return i.age < q"18 year" end,
  assess = function (i)
    local p = i.person
    duty {
      met = p.understands_action and not i.restrained and i.site.water.temperature >= q"15 degC",
      instrument = management, section = "reg 19(2)",
      evidence = "a note of the talk with the young person, and the water log",
      because = "has said back what happens and how to stop it: {person.understands_action}; " ..
        "held: {restrained}; water {site.water.temperature}; not beyond capacity, no extreme " ..
          "cold, no danger that cannot be recognised",
      controls = { "stunt-double" },
    }
  end,
  examples = {
    { "understood, free, warm",
      given = { ["person.born"] = "2014-05-02", ["person.understands_action"] = "yes",
        restrained = "no",
                ["site.water.temperature"] = "29 degC" }, expect = duty { met = true } },
    { "held under water",
      given = { ["person.born"] = "2014-05-02", ["person.understands_action"] = "yes",
        restrained = "yes",
                ["site.water.temperature"] = "29 degC" }, expect = duty { met = false } },
    { "as cold as may be",
      given = { age = "17.9 year", ["person.understands_action"] = "yes", restrained = "no",
        ["site.water.temperature"] = "15 degC" }, expect = duty { met = true } },
    { "colder",
      given = { age = "12 year", ["person.understands_action"] = "yes", restrained = "no",
        ["site.water.temperature"] = "14.9 degC" }, expect = duty { met = false } },
    { "never asked",
      given = { ["person.born"] = "2014-05-02", restrained = "no",
        ["site.water.temperature"] = "29 degC" },
      expect = duty { met = false } },
    { "a grown double", given = { ["person.born"] = "2014-05-02", restrained = "yes" },
      with = { "stunt-double" },
      expect = nothing },
    { "eighteen", given = { age = "18 year", restrained = "yes" }, expect = nothing },
  },
}

rule {
  id = "gb.management.expectant-mother",
  title = "Risk to a new or expectant mother",
  each = "person",
  harm = "mother and child",
  sources = { "Management of Health and Safety at Work Regulations 1999 regs 16 to 18 (from " ..
    "memory)" },
  when = function (p) return p.pregnant end,
  assess = function (p)
    duty {
      met = p.conditions_cleared, instrument = management,
      section = "regs 16 to 18",
      evidence = "the doctor's letter, kept confidential",
      because = "work looked at with a doctor and altered, or the person is kept out of it: " ..
        "{conditions_cleared}",
      controls = { "diving-doctor" }, discreet = true,
    }
  end,
  examples = {
    { "not pregnant", given = { pregnant = "no" }, expect = nothing },
    { "looked at", given = { pregnant = "yes", conditions_cleared = "yes" },
      expect = duty { met = true } },
    { "not looked at", given = { pregnant = "yes", conditions_cleared = "no" },
      expect = duty { met = false } },
    { "not asked", given = { conditions_cleared = "?" }, expect = duty { met = false } },
    { "seen by a doctor", given = { pregnant = "yes" }, with = { "diving-doctor" },
      expect = duty { met = true } },
  },
}

rule {
  id = "gb.management.rest",
  title = "Rest between days and in the day",
  each = "day",
  harm = "crew and performers: tired at the water",
  sources = { "Working Time Regulations 1998 (SI 1998/1833) regs 10 and 12: 11 h in 24; 20 min " ..
    "in a day over 6 h" },
  assess = function (d)
    duty {
      met = d.rest_before >= q"11 h", instrument = "Working Time Regulations 1998 (SI 1998/1833)",
      section = "reg 10",
      about = "daily rest",
      evidence = "the call sheets of both days",
      because = "{rest_before} since the wrap before; 11 h is the least for an adult",
    }
    if d.wrap - d.call > q"6 h" then
      duty {
        met = d.meal_break >= q"20 min",
        instrument = "Working Time Regulations 1998 (SI 1998/1833)", section = "reg 12",
        about = "break",
        evidence = "the call sheet",
        because = "longest break {meal_break}; 20 min is the least in a day over 6 h",
        controls = { "work-breaks" },
      }
    end
  end,
  examples = {
    { "11 h and a break of 20 min", given = { rest_before = "11 h", call = "08:00", wrap = "18:00",
      meal_break = "20 min" }, expect = duty { met = true } },
    { "a shorter night", given = { rest_before = "10.9 h", call = "08:00", wrap = "13:00" },
      expect = duty { met = false } },
    { "a shorter break", given = { rest_before = "12 h", call = "08:00", wrap = "14:10",
      meal_break = "19 min" }, expect = duty { met = false } },
    { "6 h without a break", given = { rest_before = "12 h", call = "08:00", wrap = "14:00",
      meal_break = "0 min" }, expect = duty { met = true } },
    { "not known", given = { call = "08:00", wrap = "13:00" }, expect = duty { met = false } },
  },
}

rule {
  id = "gb.management.young-worker",
  title = "Hours and rest of young workers",
  each = "person-day",
  harm = "young person: tired at the water",
  sources = { "Working Time Regulations 1998 (SI 1998/1833) regs 5A, 10, 12: over school age and under " ..
    "18, 8 h a day, 12 h of rest, 30 min in a day over 4.5 h; school age as in regs 3(4)-(5) of SI " ..
      "1999/3242" },
  when = function (pd)
    return pd.age < q"18 year" and not law.of_school_age(pd.person, pd.age, "15.66 year", "17 year")
  end,
  assess = function (pd)
    local day = pd.day
    local time = day.child_wrap - day.child_call
    local pause = time <= q"4.5 h" or day.child_meal_break >= q"30 min"
    duty { met = time <= q"8 h" and day.child_rest_before >= q"12 h" and pause,
      instrument = "Working Time Regulations 1998 (SI 1998/1833)", section = "regs 5A, 10 and 12",
      evidence = "the call sheets of both days",
      because = "{time} where 8 h is the most, {day.child_rest_before} of rest before where 12 h is " ..
        "the least, a break of {day.child_meal_break} where 30 min is, in a day over 4 h 30 min",
      values = { time = time }, controls = { "work-breaks" } }
  end,
  examples = law.cases({ age = "17.99 year", ["day.child_call"] = "09:00", ["day.child_wrap"] = "17:00",
      ["day.child_rest_before"] = "12 h", ["day.child_meal_break"] = "30 min" }, {
    { "at every limit", {}, true },
    { "longer", { ["day.child_wrap"] = "17:10" }, false },
    { "less rest", { ["day.child_rest_before"] = "11.9 h" }, false },
    { "a shorter break", { ["day.child_meal_break"] = "29 min" }, false },
    { "no break in 4 h 30 min", { ["day.child_wrap"] = "13:30", ["day.child_meal_break"] = "0 min" },
      true },
    { "no break in more", { ["day.child_wrap"] = "13:36", ["day.child_meal_break"] = "0 min" }, false },
    { "rest not known", { ["day.child_rest_before"] = "?" }, false },
    { "sixteen and at school", { age = "16.9 year", ["person.school_age"] = "yes" }, "none" },
    { "sixteen and not", { age = "16.9 year", ["person.school_age"] = "no" }, true },
    { "before any leaving date", { age = "15.6 year", ["person.school_age"] = "no" }, "none" },
    { "left at fifteen and eight months", { age = "15.66 year", ["person.school_age"] = "no" }, true },
    { "seventeen, whatever is said", { age = "17 year", ["person.school_age"] = "yes" }, true },
    { "eighteen", { age = "18 year" }, "none" },
  }),
}

rule {
  id = "gb.management.noise",
  title = "Noise above the upper action value",
  each = "rig",
  harm = "everyone near it: hearing loss",
  sources = { "Control of Noise at Work Regulations 2005 (SI 2005/1643) reg 4: 80 and 85 " ..
    "dB(A), limit 87 dB(A)" },
  when = function (r) return r.noise > q"85 dBA" and r.kind ~= "pyrotechnics" end,
  assess = function ()
    duty {
      met = nil, instrument = "Control of Noise at Work Regulations 2005 (SI 2005/1643)",
      section = "reg 4",
      evidence = "a measured day, or the hearing protection issued",
      because = "{noise} at the nearest person: whether the day's exposure stays under 85 " ..
        "dB(A), or ears are protected, is to be shown by a measured day",
      controls = { "quieter-machine" },
    }
  end,
  examples = {
    { "at the value", given = { noise = "85 dBA" }, expect = nothing },
    { "above it", given = { noise = "85.5 dBA" }, expect = duty { met = nil } },
    { "not measured", given = {}, expect = duty { met = nil } },
    { "a bang", given = { kind = "pyrotechnics", noise = "115 dBA" }, expect = nothing },
  },
}

rule {
  id = "gb.management.drowning",
  title = "Crew over water: fall prevented, rescue ready",
  each = "task",
  harm = "crew: fall in and drown",
  sources = { "Construction (Design and Management) Regulations 2015 (SI 2015/51) reg 26 (from " ..
    "memory): building a set can be construction work" },
  when = function (t) return t.over_water_work end,
  assess = function (t)
    local rescue = t.lifeguards >= 1 or t.safety_divers >= 1
    duty {
      met = t.life_jackets and rescue,
      instrument = "Construction (Design and Management) Regulations 2015 (SI 2015/51)",
      section = "reg 26",
      evidence = "jackets and rescuers seen on the day",
      because = "life jackets: {life_jackets}; lifeguards {lifeguards}, safety divers " ..
        "{safety_divers}",
      controls = { "life-jackets", "lifeguard" },
    }
  end,
  examples = {
    { "jackets and a lifeguard", given = { over_water_work = "yes", life_jackets = "yes",
      lifeguards = "1" }, expect = duty { met = true } },
    { "jackets and a diver", given = { over_water_work = "yes", life_jackets = "yes",
      lifeguards = "0", safety_divers = "1" },
      expect = duty { met = true } },
    { "nobody to pull them out", given = { over_water_work = "yes", life_jackets = "yes",
      lifeguards = "0", safety_divers = "0" },
      expect = duty { met = false } },
    { "jackets not known", given = { over_water_work = "yes", lifeguards = "1" },
      expect = duty { met = false } },
    { "jackets on", given = { over_water_work = "yes", lifeguards = "1" },
      with = { "life-jackets" }, expect = duty { met = true } },
    { "nobody over it", given = { over_water_work = "no" }, expect = nothing },
  },
}

rule {
  id = "gb.management.substances",
  title = "Substances put into water or air are assessed",
  each = "site",
  harm = "everyone in the water: skin, eyes, lungs",
  sources = { "Control of Substances Hazardous to Health Regulations 2002 reg 6 (from memory)" },
  when = function (s)
    local w = s.water
    return w.additives_dye or w.additives_milk or w.additives_fog_juice or w.additives_foam
      or w.additives_oil
      or w.additives_paint or w.additives_blood or w.additives_other
  end,
  assess = function (s)
    duty {
      met = s.water.additive_data_sheets,
      instrument = "Control of Substances Hazardous to Health Regulations 2002 (SI 2002/2677)",
      section = "reg 6",
      evidence = "the data sheets, with what was decided on each",
      because = "data sheet of each additive at hand: {water.additive_data_sheets}",
      controls = { "additive-test", "no-additive" },
    }
  end,
  examples = example.join {
    example.edges({ ["water.additive_data_sheets"] = "yes" }, "water.additives", nil, {
      "dye", duty { met = true }, "milk", duty { met = true }, "fog-juice", duty { met = true },
      "foam", duty { met = true }, "oil", duty { met = true }, "paint", duty { met = true },
      "blood", duty { met = true }, "other", duty { met = true }, "none", nothing,
      "leaves", nothing }),
    law.cases({ ["water.additives"] = "paint" }, {
      { "paint without", { ["water.additive_data_sheets"] = "no" }, false },
      { "not known", { ["water.additive_data_sheets"] = "?" }, false },
    }),
  },
}

rule {
  id = "gb.management.report",
  title = "Whether an incident under water has to be reported",
  each = "record",
  harm = "everyone: the authority does not know",
  sources = { "Reporting of Injuries, Diseases and Dangerous Occurrences Regulations 2013 (SI " ..
    "2013/1471) schedules 1 and 2: within 10 days; diving equipment failure, diver endangered " ..
      "(schedule 2 from memory)" },
  when = function (r) return r.incident == "equipment" or r.incident == "injury"
    or r.incident == "light-headed" end,
  assess = function ()
    duty {
      met = nil,
      instrument = "Reporting of Injuries, Diseases and Dangerous Occurrences Regulations 2013 " ..
        "(SI 2013/1471)",
      section = "schedules 1 and 2",
      evidence = "a note of who decided whether it is reported, and when",
      because = "the log has: {incident}; a note of who decided whether it is reported, and " ..
        "when, is the evidence",
    }
  end,
  examples = {
    { "nothing", given = { incident = "none" }, expect = nothing },
    { "cold", given = { incident = "cold" }, expect = nothing },
    { "equipment", given = { incident = "equipment" }, expect = duty { met = nil } },
    { "not filled in", given = {}, expect = duty { met = nil } },
  },
}
