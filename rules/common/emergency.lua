-- The time line from trouble to hospital, and whether the plan holds what it promises.

local function wet(s) return s.water_body ~= "none" end

local function gas_somewhere(s) return wet(s) and #s.supplies > 0 end

local function to_gas(e) return e.notice_time + e.reach_time + e.gas_time end

local function to_deck(e) return e.notice_time + e.reach_time + e.surface_time + e.deck_time end

rule {
  id = "emergency.gas-in-mouth",
  title = "From trouble until gas is in the mouth",
  each = "site",
  harm = "whoever is in trouble under water: no air",
  sources = { "about a minute without air and a full recovery (from memory); times from drills " ..
    "without warning" },
  when = gas_somewhere,
  assess = function (s)
    local total = to_gas(s.emergency)
    hazard {
      likelihood = scale.reserve(q"60 s", total), severity = scale.without_air(total),
      because = "gas is in the mouth {total} after trouble; a minute is what the body allows",
      values = { total = total },
      who = "whoever is under water", controls = { "reach-drilled" },
      also = { "more-safety-divers", "own-diver" },
    }
  end,
  examples = example.join { {
    { "sixteen seconds", given = { water_body = "tank", ["emergency.notice_time"] = "5 s",
      ["emergency.reach_time"] = "6 s",
                ["emergency.gas_time"] = "5 s" }, expect = hazard { likelihood = 1,
                severity = 3 } },
    { "two minutes", given = { water_body = "tank", ["emergency.notice_time"] = "60 s",
      ["emergency.reach_time"] = "50 s",
                ["emergency.gas_time"] = "10 s" }, expect = hazard { likelihood = 5,
                severity = 4 } },
    { "never drilled", given = { water_body = "tank", ["emergency.reach_time"] = "6 s",
      ["emergency.gas_time"] = "5 s" },
      expect = hazard { likelihood = 5, severity = 5 } },
    { "drilled", given = { water_body = "tank", ["emergency.notice_time"] = "60 s",
      ["emergency.reach_time"] = "50 s",
                ["emergency.gas_time"] = "10 s" }, with = { "reach-drilled" },
                expect = hazard { likelihood = 1, severity = 3 } },
    { "no gas here", given = { water_body = "tank", supplies = "none" }, expect = nothing },
    { "no water body", given = { water_body = "none" }, expect = nothing },
  },
    example.edges({ water_body = "tank", ["emergency.notice_time"] = "5 s", ["emergency.reach_time"] = "5 s" },
      "emergency.gas_time", 3,
      { "10 s", 1, "10.5 s", 2, "20 s", 2, "20.5 s", 3, "30 s", 3, "31 s", 4, "44 s", 4, "45 s", 5 }),
  },
}

rule {
  id = "emergency.first-breath",
  title = "From trouble until the first rescue breath",
  each = "site",
  harm = "whoever is pulled out: brain without oxygen",
  sources = { "Quan and others 2016, Resuscitation 104:63: outcome falls after 5 to 6 minutes; " ..
    "brain injury from about 4 minutes (from memory)" },
  when = wet,
  assess = function (s)
    local total = to_deck(s.emergency) + s.emergency.breath_time
    hazard {
      likelihood = scale.reserve(q"4 min", total), severity = scale.without_air(total),
      because = "first rescue breath {total} after trouble; four minutes is what the body allows",
      values = { total = total },
      who = "whoever is pulled out", controls = { "rescue-drill" },
      also = { "stretcher-exit", "more-ladders", "lifeguard" },
    }
  end,
  examples = example.join { {
    { "seventy seconds", given = { water_body = "tank", ["emergency.notice_time"] = "5 s",
      ["emergency.reach_time"] = "6 s",
                ["emergency.surface_time"] = "10 s", ["emergency.deck_time"] = "40 s",
                ["emergency.breath_time"] = "9 s" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "four minutes and more", given = { water_body = "lake", ["emergency.notice_time"] = "60 s",
      ["emergency.reach_time"] = "60 s",
                ["emergency.surface_time"] = "20 s", ["emergency.deck_time"] = "110 s",
                ["emergency.breath_time"] = "20 s" },
      expect = hazard { likelihood = 5, severity = 5 } },
    { "way to the deck never timed", given = { water_body = "tank",
      ["emergency.notice_time"] = "5 s", ["emergency.reach_time"] = "6 s",
                ["emergency.surface_time"] = "10 s", ["emergency.breath_time"] = "9 s" },
                expect = hazard { likelihood = 5, severity = 5 } },
    { "drilled", given = { water_body = "tank", ["emergency.notice_time"] = "10 s",
      ["emergency.reach_time"] = "60 s",
                ["emergency.surface_time"] = "20 s", ["emergency.deck_time"] = "110 s",
                ["emergency.breath_time"] = "20 s" },
      with = { "rescue-drill" }, expect = hazard { likelihood = 1, severity = 3 } },
    { "no water body", given = { water_body = "none" }, expect = nothing },
  },
    -- a minute, and the breath
    example.edges({ water_body = "tank", ["emergency.notice_time"] = "5 s", ["emergency.reach_time"] = "5 s",
      ["emergency.surface_time"] = "10 s", ["emergency.deck_time"] = "40 s" }, "emergency.breath_time", 4,
      { "20 s", hazard { likelihood = 1, severity = 3 }, "21 s", hazard { likelihood = 2, severity = 3 },
        "30 s", hazard { likelihood = 2, severity = 3 }, "31 s", 2, "60 s", 2, "62 s", 3, "100 s", 3, "101 s", 4,
        "120 s", 4, "122 s", hazard { likelihood = 4, severity = 5 } }),
  },
}

rule {
  id = "emergency.oxygen",
  title = "Oxygen after a rescue",
  each = "site",
  harm = "whoever is pulled out: lungs and brain short of oxygen",
  sources = { "HSE and UHMS guidance (from memory): oxygen at once, enough for the way to " ..
    "hospital and a reserve" },
  when = wet,
  assess = function (s)
    local e = s.emergency
    local wait = e.call_time + e.ambulance_time
    if not e.oxygen_on_site or e.oxygen_flow <= q"0 L/min" then
      local needed = scale.limit(wait, q"3 min", q"8 min", q"15 min", q"30 min")
      hazard { likelihood = scale.within(needed), severity = 4,
        because = "no oxygen; the ambulance is there {wait} after the call",
               values = { wait = wait }, who = "whoever is pulled out",
               controls = { "oxygen-at-exit", "ambulance-on-site" } }
      return
    end
    local lasts = e.oxygen_volume / e.oxygen_flow
    hazard {
      likelihood = max(scale.reserve(lasts, wait), scale.limit(e.oxygen_time, q"60 s", q"120 s",
        q"240 s", q"480 s")), severity = 3,
      because = "oxygen flows {flows} after the deck and lasts {lasts}; the ambulance is there " ..
        "after {wait}",
      values = { lasts = lasts, wait = wait, flows = e.oxygen_time }, who = "whoever is pulled out",
      controls = { "oxygen-at-exit", "ambulance-on-site" },
    }
  end,
  examples = example.join { {
    { "a minute, two hours of it", given = { water_body = "tank",
      ["emergency.oxygen_on_site"] = "yes", ["emergency.oxygen_volume"] = "2000 L",
                ["emergency.oxygen_flow"] = "15 L/min", ["emergency.oxygen_time"] = "60 s",
                ["emergency.call_time"] = "30 s",
                ["emergency.ambulance_time"] = "16 min" },
                expect = hazard { likelihood = 1, severity = 3 } },
    { "none, half an hour out", given = { water_body = "lake", ["emergency.oxygen_on_site"] = "no",
      ["emergency.call_time"] = "60 s",
                ["emergency.ambulance_time"] = "40 min" },
                expect = hazard { likelihood = 5, severity = 4 } },
    { "none, ten minutes out", given = { water_body = "tank", ["emergency.oxygen_on_site"] = "no",
      ["emergency.call_time"] = "30 s",
                ["emergency.ambulance_time"] = "10 min" },
                expect = hazard { likelihood = 3, severity = 4 } },
    { "on site, but the set gives nothing", given = { water_body = "tank",
      ["emergency.oxygen_on_site"] = "yes", ["emergency.oxygen_flow"] = "0 L/min",
                ["emergency.call_time"] = "30 s", ["emergency.ambulance_time"] = "10 min" },
                expect = hazard { likelihood = 3, severity = 4 } },
    { "volume not read", given = { water_body = "tank", ["emergency.oxygen_on_site"] = "yes",
      ["emergency.oxygen_flow"] = "15 L/min",
                ["emergency.oxygen_time"] = "60 s", ["emergency.call_time"] = "30 s",
                ["emergency.ambulance_time"] = "16 min" },
      expect = hazard { likelihood = 5, severity = 3 } },
    { "at the way out", given = { water_body = "tank", ["emergency.oxygen_on_site"] = "no",
      ["emergency.oxygen_volume"] = "0 L",
                ["emergency.oxygen_flow"] = "15 L/min", ["emergency.oxygen_time"] = "300 s",
                ["emergency.call_time"] = "30 s",
                ["emergency.ambulance_time"] = "10 min" }, with = { "oxygen-at-exit" },
                expect = hazard { likelihood = 1, severity = 3 } },
    { "no water body", given = { water_body = "none" }, expect = nothing },
  },
    example.edges({ water_body = "tank", ["emergency.oxygen_on_site"] = "no", ["emergency.call_time"] = "30 s" },
      "emergency.ambulance_time", 4,
      { "2.5 min", 1, "2.6 min", 2, "7.5 min", 2, "7.7 min", 3, "14.5 min", 3, "14.8 min", 4,
        "29.5 min", 4, "30 min", 5 }),
    example.edges({ water_body = "tank", ["emergency.oxygen_on_site"] = "yes",
      ["emergency.oxygen_volume"] = "2000 L", ["emergency.oxygen_flow"] = "15 L/min",
      ["emergency.call_time"] = "30 s", ["emergency.ambulance_time"] = "16 min" }, "emergency.oxygen_time", 3,
      { "60 s", 1, "62 s", 2, "120 s", 2, "123 s", 3, "240 s", 3, "246 s", 4, "480 s", 4, "490 s", 5 }),
  },
}

rule {
  id = "emergency.defibrillator",
  title = "Defibrillator on a dried chest",
  each = "site",
  harm = "whoever's heart has stopped",
  worst = { likelihood = 3, severity = 4 },
  sources = { "American Heart Association 2010 part 12: dry the chest only; breaths matter " ..
    "after drowning" },
  when = wet,
  assess = function (s)
    local e = s.emergency
    local likelihood = 3
    if e.defibrillator_on_site then
      if e.defibrillator_time <= q"120 s" then likelihood = 1
      elseif e.defibrillator_time <= q"240 s" then likelihood = 2 end
    end
    hazard {
      likelihood = likelihood, severity = 4,
      because = "{time} from the deck until it is on, or there is none",
      values = { time = e.defibrillator_time }, who = "whoever's heart has stopped",
      controls = { "defibrillator-at-exit" },
    }
  end,
  reasoning = "the chain of rescue rests on breaths first, so a late defibrillator is held at " ..
    "possible",
  examples = example.join { {
    { "ninety seconds", given = { water_body = "tank", ["emergency.defibrillator_on_site"] = "yes",
      ["emergency.defibrillator_time"] = "90 s" },
      expect = hazard { likelihood = 1, severity = 4 } },
    { "none", given = { water_body = "tank", ["emergency.defibrillator_on_site"] = "no" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "never timed", given = { water_body = "tank", ["emergency.defibrillator_on_site"] = "yes" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "at the way out", given = { water_body = "tank", ["emergency.defibrillator_on_site"] = "no",
      ["emergency.defibrillator_time"] = "300 s" },
      with = { "defibrillator-at-exit" }, expect = hazard { likelihood = 1, severity = 4 } },
    { "no water body", given = { water_body = "none" }, expect = nothing },
  },
    example.edges({ water_body = "tank", ["emergency.defibrillator_on_site"] = "yes" },
      "emergency.defibrillator_time", 4, { "120 s", 1, "123 s", 2, "240 s", 2, "246 s", 3 }),
  },
}

rule {
  id = "emergency.recompression",
  title = "Far from a recompression chamber",
  each = "site",
  harm = "divers and performers on gas: decompression illness treated late",
  sources = { "HSE Approved Codes of Practice 2014 (from memory): within 6 hours to 10 m " ..
    "without stops, within 2 hours deeper" },
  when = gas_somewhere,
  assess = function (s)
    local time = s.emergency.chamber_time
    local depth = s.basin.depth
    local allowed = q"6 h"
    if depth > q"10 m" then allowed = q"2 h" end
    hazard {
      likelihood = scale.limit(time, allowed * 0.5, allowed * 0.75, allowed, allowed * 2),
      severity = 4,
      because = "{time} to a chamber from water {depth} deep; {allowed} is the most",
      values = { time = time, depth = depth, allowed = allowed },
      who = "everyone on gas", controls = { "chamber-agreed" },
    }
  end,
  examples = example.join { {
    { "an hour and a half from a tank", given = { water_body = "tank",
      ["emergency.chamber_time"] = "90 min", ["basin.depth"] = "4.8 m" },
      expect = hazard { likelihood = 1, severity = 4 } },
    { "five hours from a deep quarry", given = { water_body = "quarry",
      ["emergency.chamber_time"] = "5 h", ["basin.depth"] = "25 m" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "not known", given = { water_body = "tank", ["basin.depth"] = "4.8 m" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "agreed, an hour", given = { water_body = "quarry", ["emergency.chamber_time"] = "5 h",
      ["basin.depth"] = "25 m" },
      with = { "chamber-agreed" }, expect = hazard { likelihood = 1, severity = 4 } },
    { "no gas here", given = { water_body = "tank", supplies = "none" }, expect = nothing },
  },
    example.edges({ water_body = "tank", ["basin.depth"] = "4.8 m" }, "emergency.chamber_time", 4,
      { "3 h", 1, "3.1 h", 2, "4.5 h", 2, "4.6 h", 3, "6 h", 3, "6.2 h", 4, "12 h", 4, "12.3 h", 5 }),
    example.edges({ water_body = "quarry", ["basin.depth"] = "25 m" }, "emergency.chamber_time", 4,
      { "2 h", 3, "2.1 h", 4 }),
    example.edges({ water_body = "quarry", ["emergency.chamber_time"] = "90 min" }, "basin.depth", 4,
      { "10 m", 1, "10.2 m", 2 }),
  },
}

rule {
  id = "emergency.promise",
  title = "The plan promises less time than its own steps add up to",
  each = "site",
  harm = "whoever relies on the plan: help comes later than promised",
  worst = { likelihood = 3, severity = 5 },
  sources = { "sum of the drilled steps of the plan against what it promises" },
  reasoning = "what is promised is a wish, not what the body allows: up to a tenth beyond it is " ..
    "unlikely to matter, more is possible",
  when = wet,
  assess = function (s)
    local e = s.emergency
    local deck = to_deck(e)
    if deck > e.promised_deck_time then
      hazard { about = "deck", likelihood = deck > e.promised_deck_time * 1.1 and 3 or 2,
        severity = scale.without_air(deck),
               because = "on the deck after {deck}, promised {promised}",
               values = { deck = deck, promised = e.promised_deck_time },
               who = "whoever is pulled out", controls = { "rescue-drill" },
               also = { "more-ladders" } }
    end
    if #s.supplies < 1 then return end
    local gas = to_gas(e)
    if gas > e.promised_gas_time then
      hazard { about = "gas", likelihood = gas > e.promised_gas_time * 1.1 and 3 or 2,
        severity = scale.without_air(gas),
               because = "gas in the mouth after {gas}, promised {promised}",
               values = { gas = gas, promised = e.promised_gas_time },
               who = "whoever is under water", controls = { "reach-drilled" },
               also = { "own-diver" } }
    end
  end,
  examples = example.join { {
    { "kept", given = { water_body = "tank", ["emergency.notice_time"] = "3 s",
      ["emergency.reach_time"] = "4 s", ["emergency.gas_time"] = "5 s",
                ["emergency.surface_time"] = "8 s", ["emergency.deck_time"] = "30 s",
                ["emergency.promised_gas_time"] = "20 s",
                ["emergency.promised_deck_time"] = "60 s" }, expect = nothing },
    { "gas not kept", given = { water_body = "tank", ["emergency.notice_time"] = "10 s",
      ["emergency.reach_time"] = "14 s", ["emergency.gas_time"] = "5 s",
                ["emergency.surface_time"] = "8 s", ["emergency.deck_time"] = "20 s",
                ["emergency.promised_gas_time"] = "20 s",
                ["emergency.promised_deck_time"] = "60 s" },
                expect = hazard { likelihood = 3, severity = 3 } },
    { "deck not kept, no gas here", given = { water_body = "lake", supplies = "none",
      ["emergency.notice_time"] = "30 s", ["emergency.reach_time"] = "35 s",
                ["emergency.surface_time"] = "20 s", ["emergency.deck_time"] = "60 s",
                ["emergency.promised_deck_time"] = "60 s" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "both a second late", given = { water_body = "tank", ["emergency.notice_time"] = "8 s",
      ["emergency.reach_time"] = "8 s", ["emergency.gas_time"] = "5 s",
                ["emergency.surface_time"] = "10 s", ["emergency.deck_time"] = "35 s",
                ["emergency.promised_gas_time"] = "20 s",
                ["emergency.promised_deck_time"] = "60 s" },
                expect = hazard { likelihood = 2, severity = 3 } },
    { "promise not written", given = { water_body = "tank", supplies = "none",
      ["emergency.notice_time"] = "3 s", ["emergency.reach_time"] = "4 s",
                ["emergency.surface_time"] = "8 s", ["emergency.deck_time"] = "30 s" },
                expect = hazard { likelihood = 3, severity = 3 } },
    { "no water body", given = { water_body = "none" }, expect = nothing },
  },
    example.edges({ water_body = "lake", supplies = "none", ["emergency.notice_time"] = "5 s",
      ["emergency.reach_time"] = "5 s", ["emergency.surface_time"] = "10 s",
      ["emergency.promised_deck_time"] = "60 s" }, "emergency.deck_time", 3,
      { "40 s", nothing, "41 s", 2, "46 s", 2, "47 s", 3 }),
    example.edges({ water_body = "tank", ["emergency.notice_time"] = "5 s", ["emergency.reach_time"] = "5 s",
      ["emergency.surface_time"] = "10 s", ["emergency.deck_time"] = "30 s",
      ["emergency.promised_deck_time"] = "60 s", ["emergency.promised_gas_time"] = "20 s" },
      "emergency.gas_time", 3, { "10 s", nothing, "10.5 s", 2, "12 s", 2, "12.5 s", 3 }),
    { { "gas not kept, then drilled", given = { water_body = "tank", ["emergency.notice_time"] = "10 s",
      ["emergency.reach_time"] = "14 s", ["emergency.gas_time"] = "5 s", ["emergency.surface_time"] = "8 s",
      ["emergency.deck_time"] = "20 s", ["emergency.promised_gas_time"] = "20 s",
      ["emergency.promised_deck_time"] = "60 s" }, with = { "reach-drilled" }, expect = nothing } },
  },
}

rule {
  id = "emergency.plan",
  title = "Emergency plan, numbers and way for the ambulance",
  each = "site",
  harm = "whoever is hurt: minutes lost",
  sources = { "29 CFR 1910.420 and 1910.421(b): plan, numbers and kit at the place; common " ..
    "practice: the way kept clear and manned" },
  assess = function (s)
    local e = s.emergency
    local missing = scale.count { not e.plan_written, not e.contacts_posted, not e.access_clear,
      not e.alarm_heard }
    if missing < 1 then return end
    hazard {
      likelihood = scale.within(missing + 1), severity = 4, who = "everyone at the water",
      because = "the written plan, the posted numbers, the clear way or an alarm heard " ..
        "everywhere is missing",
      controls = { "written-plan", "alarm-under-water" },
    }
  end,
  examples = {
    { "complete", given = { ["emergency.plan_written"] = "yes",
      ["emergency.contacts_posted"] = "yes", ["emergency.access_clear"] = "yes",
                ["emergency.alarm_heard"] = "yes" }, expect = nothing },
    { "alarm not heard under water", given = { ["emergency.plan_written"] = "yes",
      ["emergency.contacts_posted"] = "yes",
                ["emergency.access_clear"] = "yes", ["emergency.alarm_heard"] = "no" },
                expect = hazard { likelihood = 2, severity = 4 } },
    { "nothing known", given = {}, expect = hazard { likelihood = 5, severity = 4 } },
    { "written and posted", given = { ["emergency.alarm_heard"] = "yes" },
      with = { "written-plan" }, expect = nothing },
  },
}

rule {
  id = "emergency.procedures",
  title = "What to do is not written for each case",
  each = "site",
  harm = "everyone at the water: confusion in the first minutes",
  worst = { likelihood = 2, severity = 4 },
  sources = { "29 CFR 1910.420(b): procedures for fire, failure, environment, illness; common " ..
    "practice: missing person, dark, chemical, moving tank" },
  when = wet,
  assess = function (s)
    local e = s.emergency
    local function say(what, there, severity)
      if there then return end
      hazard { about = what, likelihood = 2, severity = severity, who = "everyone at the water",
               because = "nothing is written for the case",
               controls = { "procedures-written", "work-lights" } }
    end
    say("missing person", e.lost_person_procedure, 4)
    say("power failure", e.power_failure_procedure and e.emergency_lighting, 3)
    local store = s.plant.dosing
    if store ~= "none" then say("chemical release", e.chemical_release_procedure, 3) end
    local body = s.water_body
    if body == "tank" or body == "stage-pool" or body == "flooded-set" then say("moving tank",
      e.structure_alarm_procedure, 3) end
  end,
  examples = example.join { {
    { "all written", given = { water_body = "tank", ["plant.dosing"] = "automatic",
      ["emergency.lost_person_procedure"] = "yes",
                ["emergency.power_failure_procedure"] = "yes",
                ["emergency.emergency_lighting"] = "yes",
                ["emergency.chemical_release_procedure"] = "yes",
                ["emergency.structure_alarm_procedure"] = "yes" }, expect = nothing },
    { "nothing for a missing person", given = { water_body = "lake", ["plant.dosing"] = "none",
      ["emergency.lost_person_procedure"] = "no",
                ["emergency.power_failure_procedure"] = "yes",
                ["emergency.emergency_lighting"] = "yes" },
                expect = hazard { likelihood = 2, severity = 4 } },
    { "nothing for chemicals or the tank", given = { water_body = "stage-pool",
      ["plant.dosing"] = "manual", ["emergency.lost_person_procedure"] = "yes",
                ["emergency.power_failure_procedure"] = "yes",
                ["emergency.emergency_lighting"] = "yes",
                ["emergency.chemical_release_procedure"] = "no",
                ["emergency.structure_alarm_procedure"] = "no" },
                expect = hazard { likelihood = 2, severity = 3 } },
    { "not known", given = { water_body = "lake", ["plant.dosing"] = "none",
      ["emergency.power_failure_procedure"] = "yes",
                ["emergency.emergency_lighting"] = "yes" },
                expect = hazard { likelihood = 2, severity = 4 } },
    { "written", given = { water_body = "flooded-set", ["plant.dosing"] = "manual",
      ["emergency.emergency_lighting"] = "yes" },
      with = { "procedures-written" }, expect = nothing },
    { "no water body", given = { water_body = "none" }, expect = nothing },
  },
    example.edges({ water_body = "lake", ["plant.dosing"] = "none", ["emergency.lost_person_procedure"] = "yes",
      ["emergency.emergency_lighting"] = "yes" },
      "emergency.power_failure_procedure", 3, { "yes", nothing, "no", 2 }),
    example.edges({ water_body = "lake", ["plant.dosing"] = "none", ["emergency.lost_person_procedure"] = "yes",
      ["emergency.power_failure_procedure"] = "yes" },
      "emergency.emergency_lighting", 3, { "yes", nothing, "no", 2 }),
    example.edges({ ["plant.dosing"] = "none", ["emergency.lost_person_procedure"] = "yes",
      ["emergency.power_failure_procedure"] = "yes", ["emergency.emergency_lighting"] = "yes",
      ["emergency.structure_alarm_procedure"] = "no" }, "water_body", 3,
      { "tank", 2, "stage-pool", 2, "flooded-set", 2, "lake", nothing }),
    example.edges({ water_body = "lake", ["emergency.lost_person_procedure"] = "yes",
      ["emergency.power_failure_procedure"] = "yes", ["emergency.emergency_lighting"] = "yes",
      ["emergency.chemical_release_procedure"] = "no" }, "plant.dosing", 3, { "none", nothing, "manual", 2 }),
  },
}

rule {
  id = "emergency.drills",
  title = "Rescue and evacuation not drilled here lately",
  each = "day",
  harm = "everyone in the water: the first real rescue is the first try",
  sources = { "common practice: a full rescue drill at this place before the first day, and " ..
    "each month" },
  when = function (d) return wet(d.site) and #d.tasks > 0 end,
  assess = function (d)
    local e = d.site.emergency
    local function say(what, on)
      local age = max(q"0 day", d.date - on)
      local likelihood = scale.limit(age, q"31 day", q"60 day", q"90 day", q"180 day")
      if likelihood < 2 then return end
      hazard { about = what, likelihood = likelihood, severity = 3,
        because = "last drilled {age} before", values = { age = age },
               who = "everyone in the water", also = { "rescue-drill" } }
    end
    say("rescue", e.rescue_drill_on)
    say("evacuation", e.evacuation_drill_on)
  end,
  examples = example.join { {
    { "both this week", given = { ["site.water_body"] = "tank",
      ["site.emergency.rescue_drill_on"] = "2027-03-07",
                ["site.emergency.evacuation_drill_on"] = "2027-03-07" }, expect = nothing },
    { "evacuation last year", given = { ["site.water_body"] = "tank",
      ["site.emergency.rescue_drill_on"] = "2027-03-07",
                ["site.emergency.evacuation_drill_on"] = "2026-03-07" },
                expect = hazard { likelihood = 5, severity = 3 } },
    { "never written down", given = { ["site.water_body"] = "tank",
      ["site.emergency.evacuation_drill_on"] = "2027-03-07" },
      expect = hazard { likelihood = 5, severity = 3 } },
    { "no water body", given = { ["site.water_body"] = "none" }, expect = nothing },
  },
    -- 31, 60, 90 and 180 days before, and a day more
    example.edges({ ["site.water_body"] = "tank", date = "2027-03-09",
      ["site.emergency.evacuation_drill_on"] = "2027-03-09" }, "site.emergency.rescue_drill_on", 3,
      { "2027-02-06", nothing, "2027-02-05", 2, "2027-01-08", 2, "2027-01-07", 3, "2026-12-09", 3,
        "2026-12-08", 4, "2026-09-10", 4, "2026-09-09", 5 }),
    { { "nothing on that day", given = { ["site.water_body"] = "tank", tasks = "none" }, expect = nothing } },
  },
}

rule {
  id = "emergency.neck",
  title = "A neck injury without a board and people trained on it",
  each = "task",
  harm = "whoever fell or dived: spine made worse on the way out",
  worst = { likelihood = 2, severity = 4 },
  sources = { "Watson and others 2001, J Trauma (from memory): about 0.5 % of those submerged, " ..
    "after a fall, dive or vehicle" },
  when = function (t)
    if t.involves_fall or t.involves_vehicle then return true end
    for _, i in ipairs(t.immersions) do
      local entry = i.entry
      if entry == "dive" or entry == "fall" or entry == "jump" then return true end
    end
    return false
  end,
  assess = function (t)
    if t.site.emergency.spinal_board then return end
    hazard { likelihood = 2, severity = 4,
      because = "people fall, dive or are in a vehicle; no board, or nobody trained on it in water",
             who = "whoever falls or dives", controls = { "spinal-board" } }
  end,
  examples = example.join { {
    { "a board", given = { involves = "fall", ["site.emergency.spinal_board"] = "yes" },
      expect = nothing },
    { "none", given = { involves = "fall", ["site.emergency.spinal_board"] = "no" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "not known, dives in", given = { involves = "none", ["immersions.1.entry"] = "dive" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "a board now", given = { involves = "fall", ["site.emergency.spinal_board"] = "no" },
      with = { "spinal-board" }, expect = nothing },
    { "by the ladder", given = { involves = "none", ["immersions.1.entry"] = "ladder" },
      expect = nothing },
  },
    example.edges({ involves = "none", ["site.emergency.spinal_board"] = "no" }, "immersions.1.entry", 4,
      { "fall", 2, "jump", 2, "dive", 2, "slide", nothing }),
    example.edges({ ["site.emergency.spinal_board"] = "no", ["immersions.1.entry"] = "ladder" }, "involves", 4,
      { "vehicle", 2, "rain", nothing }),
  },
}

rule {
  id = "emergency.child-protection",
  title = "Nobody on call for child protection",
  each = "day",
  harm = "children: nobody to turn to",
  sources = { "common practice: a policy that names a lead on call, and chaperones with no " ..
    "other job" },
  when = function (d) return d.children > 0 end,
  assess = function (d)
    local likelihood = scale.protection(scale.missing, { d.site.emergency.child_protection_contact,
      d.production.child_protection_policy }, { d.chaperones < 1 })
    if likelihood < 2 then return end
    hazard { likelihood = likelihood, severity = 3,
      because = "{d.children} children, {d.chaperones} chaperones; policy or contact is missing",
             who = "children", controls = { "procedures-written" },
             also = { "chaperone-in-sight" } }
  end,
  examples = {
    { "policy, contact, chaperone", given = { children = "1", chaperones = "1",
      ["site.emergency.child_protection_contact"] = "yes",
                ["production.child_protection_policy"] = "yes" }, expect = nothing },
    { "none of them", given = { children = "3", chaperones = "0",
      ["site.emergency.child_protection_contact"] = "no",
                ["production.child_protection_policy"] = "no" },
                expect = hazard { likelihood = 4, severity = 3 } },
    { "contact not known", given = { children = "1", chaperones = "1",
      ["production.child_protection_policy"] = "yes" }, expect = hazard { likelihood = 2,
      severity = 3 } },
    { "a contact", given = { children = "1", chaperones = "1",
      ["production.child_protection_policy"] = "yes" }, with = { "procedures-written" },
      expect = nothing },
    { "no children", given = { children = "0" }, expect = nothing },
  },
}
