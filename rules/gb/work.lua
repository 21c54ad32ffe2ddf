-- Other law that wet work in Great Britain meets: competent help, parents, height, lifting,
-- confined spaces, electricity.

rule {
  id = "gb.work.competent-person",
  title = "Competent help with health and safety",
  each = "production",
  harm = "everyone: nobody whose task it is",
  sources = { "Management of Health and Safety at Work Regulations 1999 (SI 1999/3242) reg 7 " ..
    "(from memory)" },
  assess = function (p)
    duty { met = p.competent_person_appointed,
      instrument = "Management of Health and Safety at Work Regulations 1999 (SI 1999/3242)",
      section = "reg 7",
      evidence = "the letter of appointment",
      because = "a competent person is appointed in writing: {competent_person_appointed}" }
  end,
  examples = {
    { "appointed", given = { competent_person_appointed = "yes" }, expect = duty { met = true } },
    { "nobody", given = { competent_person_appointed = "no" }, expect = duty { met = false } },
    { "not known", given = { competent_person_appointed = "?" }, expect = duty { met = false } },
  },
}

rule {
  id = "gb.work.young-person-told",
  title = "Parents told what the assessment found",
  each = "immersion",
  harm = "child performers: parents agree without knowing",
  sources = { "Management of Health and Safety at Work Regulations 1999 regs 3(4)-(5) and 10(2): below " ..
    "school leaving age, in Scotland from fifteen and eight months, in England to the June after " ..
      "the sixteenth birthday" },
  when = function (i) return law.of_school_age(i.person, i.age, "15.66 year", "17 year") end,
  assess = function (i)
    duty { met = i.person.guardian_consents,
      instrument = "Management of Health and Safety at Work Regulations 1999 (SI 1999/3242)",
      section = "reg 10(2)",
      evidence = "what the parents were given, and their signature",
      because = "a parent or guardian has seen the place and agreed: " ..
        "{person.guardian_consents}; before work the parents of a child of school age get the " ..
          "key findings and controls" }
  end,
  examples = law.cases({ age = "15.6 year", ["person.school_age"] = "no",
      ["person.guardian_consents"] = "yes" }, {
    { "told", {}, true },
    { "not told", { ["person.guardian_consents"] = "no" }, false },
    { "not known", { ["person.guardian_consents"] = "?" }, false },
    { "school left at fifteen and eight months", { age = "15.66 year" }, "none" },
    { "at school at sixteen", { age = "16.9 year", ["person.school_age"] = "yes" }, true },
    { "seventeen", { age = "17 year", ["person.school_age"] = "yes" }, "none" },
  }),
}

rule {
  id = "gb.work.edge",
  title = "Falls from edges over water or floor",
  each = "site",
  harm = "crew at an edge: a fall, or a fall and then water",
  sources = { "Work at Height Regulations 2005 (SI 2005/735): any fall that could injure; " ..
    "schedule 2: guard rail 950 mm (from memory)" },
  when = function (s) return s.deck.edge_height > q"0 m" end,
  assess = function (s)
    duty { met = s.deck.guard_height >= q"0.95 m" or s.deck.edge_harness,
      instrument = "Work at Height Regulations 2005 (SI 2005/735)",
      section = "reg 6 and schedule 2",
      evidence = "the edge as seen on the day",
      because = "drop of {deck.edge_height}, guard rail {deck.guard_height} where 95 cm is the " ..
        "least, harness worn and clipped on: {deck.edge_harness}" }
  end,
  examples = {
    { "guarded", given = { ["deck.edge_height"] = "0.3 m", ["deck.guard_height"] = "0.95 m",
      ["deck.edge_harness"] = "no" }, expect = duty { met = true } },
    { "low rail", given = { ["deck.edge_height"] = "0.3 m", ["deck.guard_height"] = "0.94 m",
      ["deck.edge_harness"] = "no" }, expect = duty { met = false } },
    { "harness instead", given = { ["deck.edge_height"] = "3 m", ["deck.guard_height"] = "0 m",
      ["deck.edge_harness"] = "yes" }, expect = duty { met = true } },
    { "rail not known", given = { ["deck.edge_height"] = "3 m", ["deck.guard_height"] = "?",
      ["deck.edge_harness"] = "no" }, expect = duty { met = false } },
    { "no edge", given = { ["deck.edge_height"] = "0 m" }, expect = nothing },
  },
}

rule {
  id = "gb.work.lifting",
  title = "Thorough examination of lifting equipment",
  each = "rig",
  harm = "people under or on the load: it falls",
  sources = { "Lifting Operations and Lifting Equipment Regulations 1998 (SI 1998/2307) reg " ..
    "9(3): 6 months where people are lifted, else 12" },
  when = function (r) return r.kind == "lift" or r.kind == "dry-for-wet"
    or r.kind == "camera-crane" end,
  assess = function (r)
    for _, day in ipairs(r.production.days) do
      local since = day.date - r.inspected_on
      local lifts_people = r.kind == "dry-for-wet" or r.person_rated
      local limit = lifts_people and q"183 day" or q"365 day"
      duty { met = since <= limit,
        instrument = "Lifting Operations and Lifting Equipment Regulations 1998 (SI 1998/2307)",
        section = "reg 9(3)", about = day.label,
        evidence = "the report of thorough examination",
        because = "last thorough examination {since} before the day; at most {limit}",
        values = { since = since, limit = limit } }
    end
  end,
  examples = {
    { "half a year, people", given = { kind = "lift", person_rated = "yes",
      inspected_on = "2026-09-07", ["production.days.1.date"] = "2027-03-09" },
      expect = duty { met = true } },
    { "a day more, people", given = { kind = "lift", person_rated = "yes",
      inspected_on = "2026-09-06", ["production.days.1.date"] = "2027-03-09" },
      expect = duty { met = false } },
    { "a day more, people on a dry rig", given = { kind = "dry-for-wet", person_rated = "no",
      inspected_on = "2026-09-06", ["production.days.1.date"] = "2027-03-09" },
      expect = duty { met = false } },
    { "a year, loads", given = { kind = "camera-crane", person_rated = "no",
      inspected_on = "2026-03-09", ["production.days.1.date"] = "2027-03-09" },
      expect = duty { met = true } },
    { "a day more, loads", given = { kind = "camera-crane", person_rated = "no",
      inspected_on = "2026-03-08", ["production.days.1.date"] = "2027-03-09" },
      expect = duty { met = false } },
    { "not known", given = { kind = "dry-for-wet", inspected_on = "?",
      ["production.days.1.date"] = "2027-03-09" }, expect = duty { met = false } },
    { "rain", given = { kind = "rain" }, expect = nothing },
  },
}

rule {
  id = "gb.work.confined-space",
  title = "Entry to a confined space",
  each = "site",
  harm = "crew in an enclosed set, void or chamber: gas or no air",
  sources = { "Confined Spaces Regulations 1997 (SI 1997/1713) regs 4 and 5 (from memory)" },
  when = function (s) return s.confined_space end,
  assess = function (s)
    duty { met = s.confined_space_permit,
      instrument = "Confined Spaces Regulations 1997 (SI 1997/1713)",
      section = "regs 4 and 5",
      evidence = "the permit, and the rescue plan it names",
      because = "entry by permit, with rescue arranged: {confined_space_permit}" }
  end,
  examples = {
    { "by permit", given = { confined_space = "yes", confined_space_permit = "yes" },
      expect = duty { met = true } },
    { "no permit", given = { confined_space = "yes", confined_space_permit = "no" },
      expect = duty { met = false } },
    { "not known", given = { confined_space = "yes", confined_space_permit = "?" },
      expect = duty { met = false } },
    { "open place", given = { confined_space = "no" }, expect = nothing },
  },
}

rule {
  id = "gb.work.electricity",
  title = "Electricity where people are wet",
  each = "site",
  harm = "anyone in or beside the water: electric shock",
  sources = { "Electricity at Work Regulations 1989 (SI 1989/635) reg 6: wet places (from memory)",
    "BS 7671:2018 section 702: 12 V AC or 30 V DC in the water, 30 mA RCD beside it (from " ..
      "memory)" },
  assess = function (s)
    local inside = s.power.ac_voltage_in_water <= q"12 V" and s.power.dc_voltage_in_water <= q"30 V"
    local beside = s.power.rcd and s.power.rcd_current <= q"30 mA"
    duty { met = inside and beside and s.power.bonding,
      instrument = "Electricity at Work Regulations 1989 (SI 1989/635)",
      section = "reg 6",
      evidence = "the electrician's certificate for this set-up",
      because = "{power.ac_voltage_in_water} AC and {power.dc_voltage_in_water} DC in the " ..
        "water; RCD: {power.rcd}, {power.rcd_current}; metal bonded: {power.bonding}; section " ..
          "702 of BS 7671 is the usual evidence" }
  end,
  examples = law.cases({ ["power.ac_voltage_in_water"] = "12 V",
      ["power.dc_voltage_in_water"] = "30 V", ["power.rcd"] = "yes",
      ["power.rcd_current"] = "30 mA", ["power.bonding"] = "yes" }, {
    { "low voltage, protected", {}, true },
    { "too much alternating", { ["power.ac_voltage_in_water"] = "13 V" }, false },
    { "too much direct", { ["power.dc_voltage_in_water"] = "31 V" }, false },
    { "coarse RCD", { ["power.rcd_current"] = "31 mA" }, false },
    { "no RCD", { ["power.rcd"] = "no" }, false },
    { "not bonded", { ["power.bonding"] = "no" }, false },
    { "bonding not known", { ["power.bonding"] = "?" }, false },
  }),
}
