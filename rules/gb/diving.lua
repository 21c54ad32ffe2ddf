-- Diving at work: who is in charge, who may dive, what is written down. A
-- performer who breathes compressed gas under water, or sits in a chamber more than
-- 100 mbar above the atmosphere, dives.

local regulations = "Diving at Work Regulations 1997 (SI 1997/2776)"

rule {
  id = "gb.diving.contractor",
  title = "One diving contractor for the project",
  each = "production",
  harm = "everyone who dives: nobody answers for the whole",
  sources = { "Diving at Work Regulations 1997 regs 5 and 6" },
  when = law.production_dives,
  assess = function (p)
    duty { met = p.diving_contractor_appointed, instrument = regulations, section = "regs 5 and 6",
      evidence = "the contract",
      because = "one diving contractor appointed: {diving_contractor_appointed}; the contract " ..
        "shows it" }
  end,
  examples = {
    { "appointed", given = { ["days.1.tasks.1.immersions.1.breathes_gas"] = "yes",
      diving_contractor_appointed = "yes" }, expect = duty { met = true } },
    { "not appointed", given = { ["days.1.tasks.1.immersions.1.breathes_gas"] = "yes",
      diving_contractor_appointed = "no" }, expect = duty { met = false } },
    { "not known", given = { ["days.1.tasks.1.immersions.1.breathes_gas"] = "yes",
      diving_contractor_appointed = "?" }, expect = duty { met = false } },
    { "nobody dives", given = { ["days.1.tasks.1.immersions.1.breathes_gas"] = "no" },
      expect = nothing },
  },
}

rule {
  id = "gb.diving.plan",
  title = "Diving project plan before the first dive",
  each = "day",
  harm = "everyone who dives: people act on different plans",
  sources = { "Diving at Work Regulations 1997 regs 6 and 8" },
  when = law.day_dives,
  assess = function (d)
    duty { met = d.dive_plan_written and d.dive_plan_approved, instrument = regulations,
      section = "regs 6 and 8",
      evidence = "the plan, signed by the supervisor",
      because = "plan written: {dive_plan_written}; approved by the diving supervisor: " ..
        "{dive_plan_approved}; it rests on this assessment and names the code of practice that " ..
          "applies",
      controls = { "dive-plan" } }
  end,
  examples = {
    { "written and approved", given = { ["tasks.1.immersions.1.breathes_gas"] = "yes",
      dive_plan_written = "yes", dive_plan_approved = "yes" }, expect = duty { met = true } },
    { "not approved", given = { ["tasks.1.immersions.1.breathes_gas"] = "yes",
      dive_plan_written = "yes", dive_plan_approved = "no" }, expect = duty { met = false } },
    { "not known", given = { ["tasks.1.immersions.1.breathes_gas"] = "yes", dive_plan_written = "?",
      dive_plan_approved = "yes" }, expect = duty { met = false } },
    { "nobody dives", given = { ["tasks.1.immersions.1.breathes_gas"] = "no" }, expect = nothing },
  },
}

rule {
  id = "gb.diving.supervisor",
  title = "One supervisor, in writing, who does not dive",
  each = "task",
  harm = "everyone who dives: nobody at the surface decides",
  sources = { "Diving at Work Regulations 1997 reg 6: in writing",
    "Diving at Work Regulations 1997 reg 10: does not dive while supervising (from memory)" },
  when = law.task_dives,
  assess = function (t)
    local appointed = t.production.supervisor_in_writing and t.supervisor_named
    local there = t.supervisor_at_water and not t.supervisor_other_duties
    duty { met = appointed and there, instrument = regulations,
      section = "reg 6; reg 10",
      evidence = "the letter of appointment, and the call sheet",
      because = "appointed in writing: {production.supervisor_in_writing}; named: " ..
        "{supervisor_named}; at the water: {supervisor_at_water}; other duties: " ..
          "{supervisor_other_duties}" }
  end,
  examples = example.join {
    law.needs({ ["immersions.1.breathes_gas"] = "yes", supervisor_other_duties = "no" },
      { "production.supervisor_in_writing", "supervisor_named", "supervisor_at_water" }),
    law.cases({ ["immersions.1.breathes_gas"] = "yes", supervisor_named = "yes",
        ["production.supervisor_in_writing"] = "yes", supervisor_at_water = "yes",
        supervisor_other_duties = "yes" }, {
      { "dives as well", {}, false },
      { "nobody dives", { ["immersions.1.breathes_gas"] = "no" }, "none" },
    }),
  },
}

rule {
  id = "gb.diving.medical",
  title = "Certificate of medical fitness to dive",
  each = "immersion",
  harm = "the person who dives: a condition that gas under pressure makes deadly",
  sources = { "Diving at Work Regulations 1997 regs 12 and 15: at most 12 months, performers " ..
    "not exempt" },
  when = function (i) return i.breathes_gas end,
  assess = function (i)
    local age = i.day.date - i.person.medical_on
    duty { met = i.person.medical == "diving-doctor" and age <= q"365 day",
      instrument = regulations, section = "regs 12 and 15",
      evidence = "the certificate, with the examiner's number",
      because = "found fit by: {person.medical}; {age} before the day; a certificate of an " ..
        "approved medical examiner holds at most 12 months", discreet = true,
      values = { age = age } }
  end,
  examples = {
    { "in date", given = { breathes_gas = "yes", ["person.medical"] = "diving-doctor",
      ["day.date"] = "2027-03-09", ["person.medical_on"] = "2026-09-01" },
      expect = duty { met = true } },
    { "a year old", given = { breathes_gas = "yes", ["person.medical"] = "diving-doctor",
      ["day.date"] = "2027-03-09", ["person.medical_on"] = "2026-03-09" },
      expect = duty { met = true } },
    { "a day too old", given = { breathes_gas = "yes", ["person.medical"] = "diving-doctor",
      ["day.date"] = "2027-03-09", ["person.medical_on"] = "2026-03-08" },
      expect = duty { met = false } },
    { "a declaration only", given = { breathes_gas = "yes", ["person.medical"] = "declaration",
      ["day.date"] = "2027-03-09", ["person.medical_on"] = "2026-09-01" },
      expect = duty { met = false } },
    { "date not known", given = { breathes_gas = "yes", ["person.medical"] = "diving-doctor",
      ["day.date"] = "2027-03-09", ["person.medical_on"] = "?" }, expect = duty { met = false } },
    { "does not dive", given = { breathes_gas = "no" }, expect = nothing },
  },
}

rule {
  id = "gb.diving.qualification",
  title = "Approved qualification of the safety team",
  each = "post",
  harm = "everyone who dives: the rescuer cannot do the job",
  sources = { "Diving at Work Regulations 1997 reg 12; an actor or similar is exempt from the " ..
    "qualification, not from the medical" },
  when = function (p) return p.role == "safety-diver" or p.role == "standby-diver"
    or p.role == "diving-supervisor" end,
  assess = function (p)
    duty { met = p.qualified, instrument = regulations, section = "reg 12",
      evidence = "the certificate, seen",
      because = "{person.label} as {role}: qualification held and in date: {qualified}" }
  end,
  examples = {
    { "held", given = { role = "safety-diver", qualified = "yes" }, expect = duty { met = true } },
    { "lapsed", given = { role = "standby-diver", qualified = "no" },
      expect = duty { met = false } },
    { "not known", given = { role = "diving-supervisor", qualified = "?" },
      expect = duty { met = false } },
    { "another post", given = { role = "medic" }, expect = nothing },
  },
}

rule {
  id = "gb.diving.standby",
  title = "Enough people for the dive and for what may go wrong",
  each = "task",
  harm = "everyone who dives: nobody free to fetch them",
  sources = { "Diving at Work Regulations 1997 reg 6: competent people and plant, emergencies " ..
    "included" },
  when = law.task_dives,
  assess = function (t)
    duty { met = t.standby_divers >= 1, instrument = regulations, section = "reg 6(3)",
      evidence = "the call sheet, and the drill",
      because = "{standby_divers} standby divers, dressed in, with no other job; the code of " ..
        "practice that applies sets the team",
      controls = { "standby-diver" } }
  end,
  examples = {
    { "one", given = { ["immersions.1.breathes_gas"] = "yes", standby_divers = "1" },
      expect = duty { met = true } },
    { "none", given = { ["immersions.1.breathes_gas"] = "yes", standby_divers = "0" },
      expect = duty { met = false } },
    { "not known", given = { ["immersions.1.breathes_gas"] = "yes", standby_divers = "?" },
      expect = duty { met = false } },
    { "nobody dives", given = { ["immersions.1.breathes_gas"] = "no" }, expect = nothing },
  },
}

rule {
  id = "gb.diving.record",
  title = "Record of the diving operation, and each diver's own",
  each = "day",
  harm = "everyone who dives: exposure that nobody can add up",
  sources = { "Diving at Work Regulations 1997 reg 6(3)", "reg 12(3): the diver's daily record" },
  when = law.day_dives,
  assess = function (d)
    duty { met = d.dive_log_kept, instrument = regulations, section = "regs 6(3) and 12(3)",
      evidence = "the log of the operation, and each diver's own",
      because = "each descent written down as it happens: {dive_log_kept}",
      controls = { "log-at-each-descent" } }
  end,
  examples = {
    { "kept", given = { ["tasks.1.immersions.1.breathes_gas"] = "yes", dive_log_kept = "yes" },
      expect = duty { met = true } },
    { "not kept", given = { ["tasks.1.immersions.1.breathes_gas"] = "yes", dive_log_kept = "no" },
      expect = duty { met = false } },
    { "not known", given = { ["tasks.1.immersions.1.breathes_gas"] = "yes", dive_log_kept = "?" },
      expect = duty { met = false } },
    { "nobody dives", given = { ["tasks.1.immersions.1.breathes_gas"] = "no" }, expect = nothing },
  },
}

rule {
  id = "gb.diving.record-kept",
  title = "Diving records kept for two years",
  each = "production",
  harm = "everyone who dives: an injury that shows later cannot be traced",
  sources = { "Diving at Work Regulations 1997 reg 6(3)(f)" },
  when = law.production_dives,
  assess = function (p)
    duty { met = p.dive_record_retention >= q"2 year", instrument = regulations,
      section = "reg 6(3)(f)",
      evidence = "the written policy",
      because = "records kept for {dive_record_retention}; at least 2 years after the last entry" }
  end,
  examples = {
    { "two years", given = { ["days.1.tasks.1.immersions.1.breathes_gas"] = "yes",
      dive_record_retention = "2 year" }, expect = duty { met = true } },
    { "less", given = { ["days.1.tasks.1.immersions.1.breathes_gas"] = "yes",
      dive_record_retention = "1.9 year" }, expect = duty { met = false } },
    { "nobody dives", given = { ["days.1.tasks.1.immersions.1.breathes_gas"] = "no" },
      expect = nothing },
    { "not known", given = { ["days.1.tasks.1.immersions.1.breathes_gas"] = "yes",
      dive_record_retention = "?" }, expect = duty { met = false } },
  },
}

rule {
  id = "gb.diving.chamber",
  title = "Recompression chamber within reach",
  each = "immersion",
  harm = "the person who dives: decompression illness untreated",
  sources = { "HSE approved codes of practice L104 to L107 (2014): to 10 m without stops within 6 h, " ..
    "else within 2 h (from memory)" },
  when = function (i) return i.breathes_gas end,
  assess = function (i)
    local near = i.depth <= q"10 m" and i.time <= calc.no_stop_limit(i.depth)
    local limit = near and q"6 h" or q"2 h"
    duty { met = i.site.emergency.chamber_time <= limit,
      instrument = "Diving at Work Regulations 1997 (SI 1997/2776), approved codes of practice",
      section = "compression chamber",
      evidence = "the chamber's word, and the route",
      because = "{depth} for {time}; chamber {site.emergency.chamber_time} away where {limit} is " ..
        "the most; beyond 50 m or 20 minutes of stops it has to be on the site",
      values = { limit = limit }, controls = { "chamber-agreed", "depth-cap" } }
  end,
  examples = law.cases({ breathes_gas = "yes", depth = "10 m", time = "30 min",
      ["site.emergency.chamber_time"] = "6 h" }, {
    { "shallow, six hours", {}, true },
    { "shallow, farther", { ["site.emergency.chamber_time"] = "6.1 h" }, false },
    { "deeper, two hours", { depth = "10.1 m", ["site.emergency.chamber_time"] = "2 h" }, true },
    { "deeper, farther", { depth = "10.1 m", ["site.emergency.chamber_time"] = "2.1 h" }, false },
    { "shallow, with stops", { time = "8 h", ["site.emergency.chamber_time"] = "2.1 h" }, false },
    { "time not known", { time = "?", ["site.emergency.chamber_time"] = "2.1 h" }, false },
    { "does not dive", { breathes_gas = "no" }, "none" },
  }),
}
