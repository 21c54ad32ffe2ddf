-- Commercial diving in the United States, 29 CFR 1910 subpart T. A diver is whoever breathes
-- compressed gas under water at work; entertainment is not among the exemptions. Depths in
-- the text are feet of sea water; in fresh water the same pressure lies 2.6 % deeper.

local subpart = "Commercial Diving Operations, 29 CFR 1910 subpart T"

-- How the gas comes, as the subpart names modes; performers may share a supply.
local function mode(i)
  if i.supply == nil then return "none" end
  local kind = i.supply.kind
  if kind == "surface-supplied" or kind == "compressor" then return "surface" end
  return "scuba"
end

local function mixed_gas(i) return i.supply ~= nil and i.supply.gas ~= "air" end

local function outside_no_stop(i) return i.time > calc.no_stop_limit(i.depth) end

local task_diving = { ["immersions.1.breathes_gas"] = "yes" }
local task_dry = { "nobody dives", given = { ["immersions.1.breathes_gas"] = "no" },
  expect = nothing }
local day_diving = { ["tasks.1.immersions.1.breathes_gas"] = "yes" }
local day_dry = { "nobody dives", given = { ["tasks.1.immersions.1.breathes_gas"] = "no" },
  expect = nothing }
local all_diving = { ["days.1.tasks.1.immersions.1.breathes_gas"] = "yes" }
local all_dry = { "nobody dives", given = { ["days.1.tasks.1.immersions.1.breathes_gas"] = "no" },
  expect = nothing }

rule {
  id = "us-fed.diving.manual",
  title = "Safe practices manual at the dive location",
  each = "production",
  harm = "everyone who dives: people act on different rules",
  sources = { "29 CFR 1910.420(a)-(b)", "29 CFR 1910.401(a)(2): no exemption for entertainment" },
  when = law.production_dives,
  assess = function (p)
    duty { met = p.safe_practice_manual, instrument = subpart, section = "§ 1910.420",
      evidence = "the manual at the water, with checklists and what to do in fire, failure, bad " ..
        "conditions, illness and injury",
      because = "a manual of diving practice is at the water: {safe_practice_manual}" }
  end,
  examples = example.join { law.needs(all_diving, { "safe_practice_manual" }), { all_dry } },
}

rule {
  id = "us-fed.diving.in-charge",
  title = "A designated person in charge at the dive location",
  each = "task",
  harm = "everyone who dives: nobody at the surface decides",
  sources = { "29 CFR 1910.410" },
  when = law.task_dives,
  assess = function (t)
    duty { met = t.supervisor_named and t.supervisor_at_water, instrument = subpart,
      section = "§ 1910.410(c)", evidence = "the call sheet, and the name in the dive log",
      because = "named: {supervisor_named}; at the water: {supervisor_at_water}" }
  end,
  examples = example.join { law.needs(task_diving, { "supervisor_named", "supervisor_at_water" }),
    { task_dry } },
}

rule {
  id = "us-fed.diving.team",
  title = "Dive team trained, in rescue breathing and first aid too",
  each = "post",
  harm = "everyone who dives: the rescuer cannot do the job",
  sources = { "29 CFR 1910.410(a)" },
  when = function (p) return (p.role == "safety-diver" or p.role == "standby-diver"
    or p.role == "diving-supervisor") and law.task_dives(p.task) end,
  assess = function (p)
    duty { met = p.qualified and p.person.rescue_breathing_trained and p.person.dive_theory,
      instrument = subpart, section = "§ 1910.410(a)",
      evidence = "certificates and training record",
      because = "{person.label} as {role}: trained for the work: {qualified}; in rescue breathing " ..
        "and first aid: {person.rescue_breathing_trained}; in diving physics and physiology: " ..
          "{person.dive_theory}" }
  end,
  examples = example.join {
    law.needs({ role = "safety-diver", ["task.immersions.1.breathes_gas"] = "yes" },
      { "qualified", "person.rescue_breathing_trained", "person.dive_theory" }),
    law.cases({ role = "standby-diver", ["task.immersions.1.breathes_gas"] = "yes",
        qualified = "no" }, {
      { "standby diver, not qualified", {}, false },
      { "supervisor, not qualified", { role = "diving-supervisor" }, false },
      { "another post", { role = "medic" }, "none" },
      { "nobody dives", { ["task.immersions.1.breathes_gas"] = "no" }, "none" },
    }),
  },
}

rule {
  id = "us-fed.diving.diver",
  title = "Whoever dives is trained and willing, performers too",
  each = "immersion",
  harm = "the person who dives: out of their depth",
  sources = { "29 CFR 1910.410(a): every member of the team", "29 CFR 1910.410(b)(4)-(5): nobody " ..
    "unfit, nobody against their will (from memory)" },
  when = function (i) return i.breathes_gas end,
  assess = function (i)
    local p = i.person
    duty { met = p.dive_theory and p.rescue_breathing_trained and p.consents and not i.congested,
      instrument = subpart, section = "§ 1910.410(a) and (b)",
      evidence = "training record, and what was asked that day",
      because = "trained in diving physics and physiology: {person.dive_theory}; in rescue " ..
        "breathing and first aid: {person.rescue_breathing_trained}; agreed: {person.consents}; " ..
          "nose and ears blocked that day: {congested}" }
  end,
  examples = example.join {
    law.needs({ breathes_gas = "yes", congested = "no" },
      { "person.dive_theory", "person.rescue_breathing_trained", "person.consents" }),
    law.cases({ breathes_gas = "yes", ["person.dive_theory"] = "yes",
        ["person.rescue_breathing_trained"] = "yes", ["person.consents"] = "yes" }, {
      { "a cold", { congested = "yes" }, false },
      { "nobody asked", { congested = "?" }, false },
      { "does not dive", { breathes_gas = "no" }, "none" },
    }),
  },
}

rule {
  id = "us-fed.diving.emergency-aid",
  title = "Emergency list, first-aid kit and resuscitator at the dive location",
  each = "task",
  harm = "everyone who dives: help comes late",
  sources = { "29 CFR 1910.421(b)-(c)", "what the list has to name: 1910.421(b) (from memory)" },
  when = law.task_dives,
  assess = function (t)
    local e = t.site.emergency
    duty { met = e.contacts_posted and e.first_aid_kit and e.resuscitation_mask,
      instrument = subpart, section = "§ 1910.421(b) and (c)",
      evidence = "the list and the kit, seen at the water",
      because = "numbers of chamber, hospital, doctor, transport and rescue centre posted: " ..
        "{site.emergency.contacts_posted}; first-aid kit approved by a doctor: " ..
          "{site.emergency.first_aid_kit}; bag or mask for rescue breaths: " ..
            "{site.emergency.resuscitation_mask}",
      controls = { "written-plan" } }
  end,
  examples = example.join { law.needs(task_diving, { "site.emergency.contacts_posted",
    "site.emergency.first_aid_kit", "site.emergency.resuscitation_mask" }), { task_dry } },
}

rule {
  id = "us-fed.diving.link",
  title = "A two-way link for help from outside",
  each = "task",
  harm = "everyone who dives: no call",
  sources = { "29 CFR 1910.422(c): two-way communication at the dive location for emergency help" },
  when = law.task_dives,
  assess = function (t)
    duty { met = t.site.emergency.phone_coverage, instrument = subpart, section = "§ 1910.422(c)",
      evidence = "a call tried from the water",
      because = "telephone or radio works at the water: {site.emergency.phone_coverage}",
      controls = { "radio-at-water" } }
  end,
  examples = example.join { law.needs(task_diving, { "site.emergency.phone_coverage" }),
    { task_dry, { "with a radio", given = task_diving, with = { "radio-at-water" },
      expect = duty { met = true } } } },
}

rule {
  id = "us-fed.diving.before",
  title = "Before the dive: plan, briefing, equipment looked over",
  each = "day",
  harm = "everyone who dives: the unforeseen",
  sources = { "29 CFR 1910.421(d)-(g); nine points of a plan as in 8 CCR 6055" },
  when = law.day_dives,
  assess = function (d)
    duty { met = d.dive_plan_written and d.briefing_signed and d.dive_gear_inspected,
      instrument = subpart, section = "§ 1910.421(d) to (g)",
      evidence = "the plan, the signed briefing and the check list",
      because = "plan written: {dive_plan_written}; it covers mode, conditions, gas, warmth, " ..
        "equipment, team, gas left from earlier dives, decompression with altitude, and " ..
          "emergencies; briefed: {briefing_signed}; equipment looked over: {dive_gear_inspected}",
      controls = { "dive-plan" } }
  end,
  examples = example.join { law.needs(day_diving, { "dive_plan_written", "briefing_signed",
    "dive_gear_inspected" }), { day_dry } },
}

rule {
  id = "us-fed.diving.flag",
  title = "Diving flag where vessels can pass",
  each = "task",
  harm = "everyone who dives: run over",
  sources = { "29 CFR 1910.421(h): a rigid code flag A at least 1 m high, lit at night" },
  when = function (t)
    return law.task_dives(t) and t.site.openwater.boat_traffic ~= "none"
      and waters.natural(t.site)
  end,
  assess = function (t)
    duty { met = t.site.openwater.dive_flag, instrument = subpart, section = "§ 1910.421(h)",
      evidence = "the flag, seen, and its light after dark",
      because = "boats of others: {site.openwater.boat_traffic}; flag shown, and lit after dark: " ..
        "{site.openwater.dive_flag}" }
  end,
  examples = law.cases({ ["immersions.1.breathes_gas"] = "yes", ["site.water_body"] = "lake",
      ["site.openwater.boat_traffic"] = "light", ["site.openwater.dive_flag"] = "yes" }, {
    { "shown", {}, true },
    { "not shown", { ["site.openwater.dive_flag"] = "no" }, false },
    { "not known", { ["site.openwater.dive_flag"] = "?" }, false },
    { "no boats", { ["site.openwater.boat_traffic"] = "none" }, "none" },
    { "a tank", { ["site.water_body"] = "tank" }, "none" },
    { "nobody dives", { ["immersions.1.breathes_gas"] = "no" }, "none" },
  }),
}

rule {
  id = "us-fed.diving.way-out",
  title = "A way in and out, and a way out for the injured",
  each = "task",
  harm = "everyone who dives: cannot get out of the water",
  sources = { "29 CFR 1910.422(b): it carries the diver and reaches below the surface" },
  when = law.task_dives,
  assess = function (t)
    duty { met = t.site.deck.ladder_depth > q"0 m" and t.site.deck.stretcher_exit,
      instrument = subpart, section = "§ 1910.422(b)",
      evidence = "the ladder and the stretcher exit, tried",
      because = "ladder reaches {site.deck.ladder_depth} below the surface; somebody can be lifted " ..
        "out lying flat: {site.deck.stretcher_exit}",
      controls = { "more-ladders", "stretcher-exit" } }
  end,
  examples = law.cases({ ["immersions.1.breathes_gas"] = "yes", ["site.deck.ladder_depth"] = "1 cm",
      ["site.deck.stretcher_exit"] = "yes" }, {
    { "both", {}, true },
    { "ends at the surface", { ["site.deck.ladder_depth"] = "0 m" }, false },
    { "no stretcher", { ["site.deck.stretcher_exit"] = "no" }, false },
    { "not known", { ["site.deck.stretcher_exit"] = "?" }, false },
    { "nobody dives", { ["immersions.1.breathes_gas"] = "no" }, "none" },
  }),
}

rule {
  id = "us-fed.diving.stop-signs",
  title = "When the dive ends is agreed",
  each = "task",
  harm = "everyone who dives: the dive goes on too long",
  sources = { "29 CFR 1910.422(i): when asked, when a diver does not answer, when communication is " ..
    "lost", "29 CFR 1910.422(i): on reserve gas (from memory)" },
  when = law.task_dives,
  assess = function (t)
    duty { met = t.abort_agreed and t.anyone_can_stop, instrument = subpart,
      section = "§ 1910.422(i)", evidence = "the briefing",
      because = "what ends the take is agreed and said aloud: {abort_agreed}; anyone may give the " ..
        "stop: {anyone_can_stop}; it ends when a diver asks or does not answer, when " ..
          "communication is lost, and on reserve gas" }
  end,
  examples = example.join { law.needs(task_diving, { "abort_agreed", "anyone_can_stop" }),
    { task_dry } },
}

rule {
  id = "us-fed.diving.hand-tools",
  title = "Electric hand tools dead on the way in and out",
  each = "site",
  harm = "divers: electric shock",
  sources = { "29 CFR 1910.422(f)" },
  when = function (s) return s.power.hand_tools_in_water end,
  assess = function (s)
    duty { met = s.power.hand_tools_isolated, instrument = subpart, section = "§ 1910.422(f)",
      evidence = "the switch and who holds it, seen",
      because = "dead on the way in and out, live only when the diver asks: " ..
        "{power.hand_tools_isolated}" }
  end,
  examples = example.join { law.needs({ ["power.hand_tools_in_water"] = "yes" },
    { "power.hand_tools_isolated" }),
    { { "no tools", given = { ["power.hand_tools_in_water"] = "no" }, expect = nothing } } },
}

rule {
  id = "us-fed.diving.log",
  title = "Depth and time of each diver written down",
  each = "day",
  harm = "everyone who dives: exposure that nobody can add up",
  sources = { "29 CFR 1910.422(e) and 1910.423(d): each diver's profile and the record of the dive" },
  when = law.day_dives,
  assess = function (d)
    duty { met = d.dive_log_kept, instrument = subpart, section = "§ 1910.422(e) and 1910.423(d)",
      evidence = "the dive log",
      because = "each descent written down as it happens: {dive_log_kept}",
      controls = { "log-at-each-descent" } }
  end,
  examples = example.join { law.needs(day_diving, { "dive_log_kept" }), { day_dry } },
}

rule {
  id = "us-fed.diving.after",
  title = "After the dive: condition, chamber, flying",
  each = "day",
  harm = "everyone who dives: decompression illness noticed late",
  sources = { "29 CFR 1910.423(b)" },
  when = law.day_dives,
  assess = function (d)
    duty { met = d.divers_checked_after, instrument = subpart, section = "§ 1910.423(b)",
      evidence = "a line in the dive log for each diver",
      because = "each diver looked at, and told what to report, where the chamber is and about " ..
        "flying: {divers_checked_after}" }
  end,
  examples = example.join { law.needs(day_diving, { "divers_checked_after" }), { day_dry } },
}

rule {
  id = "us-fed.diving.chamber",
  title = "Decompression chamber at the dive location",
  each = "immersion",
  harm = "the person who dives: decompression illness untreated",
  sources = { "29 CFR 1910.423(c): to 165 fsw, for air from the surface deeper than 100 fsw, mixed " ..
    "gas, and outside the no-decompression limits",
    "ready within 5 minutes: WAC 296-37-545, the same words in 1910.423(c)(3) (second hand)",
    "29 CFR 1910.402: mixed gas is any other than air (from memory)",
    "29 CFR 1910.424(b)(2): SCUBA deeper than 100 fsw" },
  when = function (i)
    return i.breathes_gas and (i.depth > q"100 ft" or mixed_gas(i) or outside_no_stop(i))
  end,
  assess = function (i)
    duty { met = i.site.emergency.chamber_time <= q"5 min", instrument = subpart,
      section = "§ 1910.423(c)", evidence = "the chamber, seen, and a drill to it",
      because = "{depth} for {time}; chamber {site.emergency.chamber_time} away where 5 min is the " ..
        "most: deeper than 100 fsw, on a gas other than air, or outside the no-decompression limits",
      controls = { "air-not-nitrox", "shorter-bottom-time", "depth-cap" } }
  end,
  examples = example.join { law.cases({ breathes_gas = "yes", depth = "30 ft", time = "20 min",
      ["supply.kind"] = "scuba", ["supply.gas"] = "air",
      ["site.emergency.chamber_time"] = "5.1 min" }, {
    { "shallow, short, air", {}, "none" },
    { "on nitrox", { ["supply.gas"] = "nitrox" }, false },
    { "on nitrox, a chamber there", { ["supply.gas"] = "nitrox",
      ["site.emergency.chamber_time"] = "5 min" }, true },
    { "gas not known", { ["supply.gas"] = "?" }, false },
    { "100 ft", { depth = "100 ft", time = "5 min" }, "none" },
    { "deeper than 100 ft", { depth = "101 ft", time = "5 min" }, false },
    { "time at the limit", { depth = "60 ft", time = "63 min" }, "none" },
    { "outside the limit", { depth = "60 ft", time = "64 min" }, false },
    { "does not dive", { breathes_gas = "no" }, "none" },
  }), {
    { "on nitrox, air instead", given = { breathes_gas = "yes", depth = "30 ft", time = "20 min",
      ["supply.gas"] = "nitrox" }, with = { "air-not-nitrox" }, expect = nothing },
    { "from nothing listed, shallow", given = { breathes_gas = "yes", supply = "none",
      depth = "30 ft", time = "20 min" }, expect = nothing },
  } },
}

rule {
  id = "us-fed.diving.scuba-limits",
  title = "Limits of SCUBA",
  each = "immersion",
  harm = "the person who dives: out of gas, swept away or shut in",
  sources = { "29 CFR 1910.424(b)" },
  when = function (i) return i.breathes_gas and mode(i) == "scuba" end,
  assess = function (i)
    local current = max(i.task.flow_speed, waters.natural(i.site) and i.site.openwater.current
      or q"0 m/s")
    local tended = i.line_tended or (current <= q"1 knot" and not i.task.overhead)
    duty { met = i.depth <= q"130 ft" and tended, instrument = subpart, section = "§ 1910.424(b)",
      evidence = "the dive plan",
      because = "{depth} where 130 fsw is the most; current {current}, set or hull overhead: " ..
        "{task.overhead}; line-tended: {line_tended}, needed above 1 knot and in an enclosed place",
      values = { current = current }, controls = { "line-tended", "depth-cap" } }
  end,
  examples = example.join { law.cases({ breathes_gas = "yes", ["supply.kind"] = "scuba", depth = "130 ft",
      line_tended = "no", ["task.overhead"] = "no", ["task.flow_speed"] = "0 m/s",
      ["site.water_body"] = "lake", ["site.openwater.current"] = "1 knot" }, {
    { "at every limit", {}, true },
    { "deeper", { depth = "131 ft" }, false },
    { "faster current", { ["site.openwater.current"] = "1.05 knot" }, false },
    { "faster current, tended", { ["site.openwater.current"] = "1.05 knot", line_tended = "yes" },
      true },
    { "a machine's current", { ["task.flow_speed"] = "1.05 knot" }, false },
    { "a tank", { ["site.water_body"] = "tank", ["site.openwater.current"] = "3 knot" }, true },
    { "enclosed", { ["task.overhead"] = "yes" }, false },
    { "enclosed, tended", { ["task.overhead"] = "yes", line_tended = "yes" }, true },
    { "tended not known", { ["task.overhead"] = "yes", line_tended = "?" }, false },
    { "a mouthpiece of another", { ["supply.kind"] = "diver-carried", ["task.overhead"] = "yes" },
      false },
    { "from the surface", { ["supply.kind"] = "surface-supplied" }, "none" },
    { "does not dive", { breathes_gas = "no" }, "none" },
  }), {
    { "no supply", given = { breathes_gas = "yes", supply = "none" }, expect = nothing },
  } },
}

rule {
  id = "us-fed.diving.scuba-team",
  title = "SCUBA: standby diver, a partner in sight or a line, a reserve",
  each = "immersion",
  harm = "the person who dives: nobody there, nothing to breathe",
  sources = { "29 CFR 1910.424(c)" },
  when = function (i) return i.breathes_gas and mode(i) == "scuba" end,
  assess = function (i)
    local watched = i.line_tended or (i.own_safety_diver and i.sees_diver)
    local entrance = not i.task.overhead or i.task.entrance_diver
    duty { met = i.task.standby_divers >= 1 and watched and i.supply.carried_reserve and entrance,
      instrument = subpart, section = "§ 1910.424(c)",
      evidence = "the call sheet, and the gear check",
      because = "standby divers {task.standby_divers}; line-tended: {line_tended}; a diver of " ..
        "their own, in sight throughout: {own_safety_diver}, {sees_diver}; reserve carried: " ..
          "{supply.carried_reserve}; a diver at the entrance of an enclosed set: " ..
            "{task.entrance_diver}",
      controls = { "standby-diver", "own-diver", "line-tended" } }
  end,
  examples = law.cases({ breathes_gas = "yes", ["supply.kind"] = "scuba", line_tended = "no",
      own_safety_diver = "yes", sees_diver = "yes", ["task.standby_divers"] = "1",
      ["supply.carried_reserve"] = "yes", ["task.overhead"] = "no" }, {
    { "all there", {}, true },
    { "no standby diver", { ["task.standby_divers"] = "0" }, false },
    { "nobody of their own", { own_safety_diver = "no" }, false },
    { "not in sight", { sees_diver = "no" }, false },
    { "not in sight, on a line", { sees_diver = "no", line_tended = "yes" }, true },
    { "no reserve", { ["supply.carried_reserve"] = "no" }, false },
    { "reserve not known", { ["supply.carried_reserve"] = "?" }, false },
    { "enclosed, nobody at the entrance", { ["task.overhead"] = "yes",
      ["task.entrance_diver"] = "no" }, false },
    { "enclosed, a diver at the entrance", { ["task.overhead"] = "yes",
      ["task.entrance_diver"] = "yes" }, true },
    { "from the surface", { ["supply.kind"] = "surface-supplied" }, "none" },
    { "does not dive", { breathes_gas = "no" }, "none" },
  }),
}

rule {
  id = "us-fed.diving.surface-supplied",
  title = "Gas from the surface: tended, in talk, within depth",
  each = "immersion",
  harm = "the person who dives: nobody holds the other end",
  sources = { "29 CFR 1910.425: 190 fsw, 220 fsw for at most 30 minutes; tended; standby diver " ..
    "beyond 100 fsw or the no-decompression limits", "29 CFR 1910.422(c): two-way voice" },
  when = function (i) return i.breathes_gas and mode(i) == "surface" end,
  assess = function (i)
    local depth = i.depth <= q"190 ft" or i.time <= q"30 min"
    local near = i.depth <= q"100 ft" and not outside_no_stop(i)
    duty { met = depth and i.line_tended and i.voice_link and (near or i.task.standby_divers >= 1),
      instrument = subpart, section = "§ 1910.425 and 1910.422(c)",
      evidence = "the dive plan, and the line and voice link tried",
      because = "{depth} for {time}; tended: {line_tended}; two-way voice: {voice_link}; standby " ..
        "divers {task.standby_divers}, needed beyond 100 fsw or the no-decompression limits",
      controls = { "line-tended", "standby-diver" } }
  end,
  examples = law.cases({ breathes_gas = "yes", ["supply.kind"] = "surface-supplied",
      depth = "100 ft", time = "25 min", line_tended = "yes", voice_link = "yes",
      ["task.standby_divers"] = "0" }, {
    { "tended and in talk", {}, true },
    { "fed by a compressor", { ["supply.kind"] = "compressor" }, true },
    { "not tended", { line_tended = "no" }, false },
    { "no voice", { voice_link = "no" }, false },
    { "voice not known", { voice_link = "?" }, false },
    { "outside the limit", { time = "26 min" }, false },
    { "outside the limit, a standby diver", { time = "26 min", ["task.standby_divers"] = "1" }, true },
    { "deeper than 100 ft", { depth = "101 ft", time = "1 min" }, false },
    { "190 ft, long", { depth = "190 ft", time = "31 min", ["task.standby_divers"] = "1" }, true },
    { "deeper, long", { depth = "191 ft", time = "31 min", ["task.standby_divers"] = "1" }, false },
    { "deeper, short", { depth = "191 ft", time = "30 min", ["task.standby_divers"] = "1" }, true },
    { "on SCUBA", { ["supply.kind"] = "scuba" }, "none" },
    { "does not dive", { breathes_gas = "no" }, "none" },
  }),
}

rule {
  id = "us-fed.diving.breathing-air",
  title = "Purity of the gas that divers breathe",
  each = "supply",
  harm = "everyone who breathes it: poisoned under water",
  sources = { "29 CFR 1910.430(b)(3): carbon monoxide 20 ppm, carbon dioxide 1,000 ppm, oil mist 5 " ..
    "mg/m3, no pronounced odour", "29 CFR 1910.430(b)(4): tested every 6 months (from memory)" },
  assess = function (s)
    local clean = s.carbon_monoxide <= q"20 ppm" and s.carbon_dioxide <= q"1000 ppm"
      and s.oil <= q"5 mg/m3" and not s.odour
    for _, day in ipairs(s.production.days) do
      local since = day.date - s.tested_on
      duty { met = clean and since <= q"184 day", instrument = subpart, section = "§ 1910.430(b)",
        about = day.label, evidence = "the test certificate",
        because = "carbon monoxide {carbon_monoxide}, carbon dioxide {carbon_dioxide}, oil {oil}, " ..
          "odour: {odour}; tested {since} before the day where 6 months is the most",
        values = { since = since }, controls = { "air-test" } }
    end
  end,
  examples = law.cases({ carbon_monoxide = "20 ppm", carbon_dioxide = "1000 ppm", oil = "5 mg/m3",
      odour = "no", tested_on = "2026-09-06", ["production.days.1.date"] = "2027-03-09" }, {
    { "at every limit", {}, true },
    { "carbon monoxide", { carbon_monoxide = "21 ppm" }, false },
    { "carbon dioxide", { carbon_dioxide = "1050 ppm" }, false },
    { "oil", { oil = "5.1 mg/m3" }, false },
    { "smells", { odour = "yes" }, false },
    { "smell not known", { odour = "?" }, false },
    { "a day too old", { tested_on = "2026-09-05" }, false },
  }),
}

rule {
  id = "us-fed.diving.records-kept",
  title = "Records of dives and of medicals kept",
  each = "production",
  harm = "everyone who dives: an injury that shows later cannot be traced",
  sources = { "29 CFR 1910.440(b)(3): dives 1 year, 5 with decompression sickness; medical records 5 " ..
    "years" },
  when = law.production_dives,
  assess = function (p)
    duty { met = p.dive_record_retention >= q"1 year" and p.medical_record_retention >= q"5 year",
      instrument = subpart, section = "§ 1910.440(b)(3)", evidence = "the written policy",
      because = "dives kept for {dive_record_retention}, 1 year at least and 5 after decompression " ..
        "sickness; medical records for {medical_record_retention}, 5 years at least" }
  end,
  examples = law.cases({ ["days.1.tasks.1.immersions.1.breathes_gas"] = "yes",
      dive_record_retention = "1 year", medical_record_retention = "5 year" }, {
    { "just long enough", {}, true },
    { "dives too short", { dive_record_retention = "0.95 year" }, false },
    { "medicals too short", { medical_record_retention = "4.9 year" }, false },
    { "not known", { medical_record_retention = "?" }, false },
    { "nobody dives", { ["days.1.tasks.1.immersions.1.breathes_gas"] = "no" }, "none" },
  }),
}

rule {
  id = "us-fed.diving.incident",
  title = "Whether an incident is recorded and reported",
  each = "record",
  harm = "everyone: the authority does not know",
  sources = { "29 CFR 1910.440(a)(2): an injury or illness with 24 hours in hospital is recorded",
    "29 CFR 1904.39: a death within 8 h, a stay in hospital within 24 h (from memory)" },
  when = function (r) return r.incident == "equipment" or r.incident == "injury"
    or r.incident == "light-headed" end,
  assess = function ()
    duty { met = nil, instrument = subpart, section = "§ 1910.440(a)(2), and 29 CFR 1904.39",
      evidence = "a note of who decided whether it is recorded and reported, and when",
      because = "the log has: {incident}" }
  end,
  examples = law.cases({}, {
    { "nothing", { incident = "none" }, "none" },
    { "cold", { incident = "cold" }, "none" },
    { "equipment", { incident = "equipment" }, "open" },
    { "injury", { incident = "injury" }, "open" },
    { "light-headed", { incident = "light-headed" }, "open" },
    { "not filled in", { incident = "?" }, "open" },
  }),
}
