-- Controls for weather, open water, the emergency plan and the papers.

control {
  id = "lightning-shelter", title = "Shelter from lightning", kind = "administrative",
  say = "Clear the water and go to the shelter at thirty seconds from flash to bang; wait " ..
    "thirty minutes.",
  check = "drill", often = "before the first day", who = "safety officer",
  changes = {
    { fact = "air.lightning-plan", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "stop-line", title = "Stop line for weather and water", kind = "administrative",
  say = "Stop at the limits of wind, wave, current, light and cold in the plan.",
  check = "called by name", often = "each hour", who = "safety officer",
  changes = {
    { fact = "task.stop-line", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "calm-water", title = "Wait for calm water", kind = "elimination",
  say = "Wait until wind, waves and current are well inside the plan's limits.",
  check = "gauge", often = "each hour", who = "boat master",
  changes = {
    { fact = "day.wind-forecast", at_most = "5 m/s" },
    { fact = "day.wave-forecast", at_most = "0.2 m" },
    { fact = "openwater.current", at_most = "0.1 m/s" },
  },
  source = "common practice",
}

control {
  id = "agreed-with-dam", title = "Release agreed with the dam", kind = "administrative",
  say = "Agree with whoever runs the dam that nothing is released, or that you are warned in time.",
  check = "letter; call that morning", often = "each day", who = "site manager",
  changes = {
    { fact = "openwater.dam-release-agreed", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "ambulance-on-site", title = "Ambulance with crew on site", kind = "administrative",
  say = "Keep an ambulance and its crew at the water.",
  check = "call sheet", often = "each day", who = "production manager",
  changes = {
    { fact = "emergency.ambulance-on-site", becomes = "yes" },
    { fact = "emergency.ambulance-time", at_most = "3 min" },
    { fact = "emergency.call-time", at_most = "30 s" },
  },
  source = "common practice",
}

control {
  id = "light-sticks", title = "Light on every person", kind = "ppe",
  say = "Give everyone in dark water a light stick.",
  check = "counted from the deck", often = "each entry", who = "safety officer",
  changes = {
    { fact = "task.light-sticks", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "work-lights", title = "Work lights ready", kind = "engineering",
  say = "Keep work lights that cover all of the water on one switch.",
  check = "switched on", often = "each take", who = "chief electrician",
  changes = {
    { fact = "emergency.emergency-lighting", becomes = "yes" },
    { fact = "task.light-level", at_least = "50 lux" },
  },
  source = "common practice",
}

control {
  id = "cordon", title = "Cordon with somebody at it", kind = "administrative",
  say = "Keep the public and other water users out with a cordon and somebody at it.",
  check = "seen", often = "each day", who = "site manager",
  changes = {
    { fact = "site.public-excluded", becomes = "yes" },
    { fact = "openwater.traffic-kept-out", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "rescue-boat", title = "Rescue boat manned", kind = "engineering",
  say = "Keep a manned boat at the water that lifts a person in.",
  check = "timed to a swimmer", often = "each day", who = "boat master",
  changes = {
    { fact = "openwater.rescue-boat", becomes = "yes" },
    { fact = "openwater.rescue-boat-time", at_most = "30 s" },
  },
  source = "common practice",
}

control {
  id = "bottom-surveyed", title = "Bottom looked over by divers", kind = "engineering",
  say = "Have divers look over the bottom and clear or mark what could cut or hold.",
  check = "survey signed", often = "each morning", who = "diving supervisor",
  changes = {
    { fact = "openwater.bottom-surveyed", becomes = "yes" },
    { fact = "openwater.weed-or-nets", becomes = "no" },
    { fact = "basin.sharp-bottom", becomes = "no" },
  },
  source = "common practice",
}

control {
  id = "reach-drilled", title = "Reach drilled until it takes seconds", kind = "administrative",
  say = "Drill seeing, reaching and giving gas until the three together take under ten seconds.",
  check = "drill without warning", often = "each day", who = "safety diver",
  changes = {
    { fact = "emergency.notice-time", at_most = "2 s" },
    { fact = "emergency.reach-time", at_most = "3 s" },
    { fact = "emergency.gas-time", at_most = "4 s" },
  },
  source = "common practice",
}

control {
  id = "rescue-drill", title = "Full rescue drill, timed", kind = "administrative",
  say = "Drill the whole rescue, in costume and without warning, with a stop-watch.",
  check = "times written down", often = "before the first day and each week",
  who = "diving supervisor",
  changes = {
    { fact = "emergency.reach-time", at_most = "10 s" },
    { fact = "emergency.surface-time", at_most = "10 s" },
    { fact = "emergency.deck-time", at_most = "30 s" },
    { fact = "emergency.breath-time", at_most = "10 s" },
  },
  source = "common practice",
}

control {
  id = "oxygen-at-exit", title = "Oxygen at the way out", kind = "engineering",
  say = "Stand oxygen at the way out, opened and tried.",
  check = "gauge and flow", often = "each day", who = "set medic",
  changes = {
    { fact = "emergency.oxygen-on-site", becomes = "yes" },
    { fact = "emergency.oxygen-time", at_most = "60 s" },
    { fact = "emergency.oxygen-volume", at_least = "2000 L" },
  },
  source = "common practice",
}

control {
  id = "defibrillator-at-exit", title = "Defibrillator at the way out", kind = "engineering",
  say = "Stand a defibrillator at the way out with towel and razor.",
  check = "self-test lamp", often = "each day", who = "set medic",
  changes = {
    { fact = "emergency.defibrillator-on-site", becomes = "yes" },
    { fact = "emergency.defibrillator-time", at_most = "90 s" },
  },
  source = "common practice",
}

control {
  id = "written-plan", title = "Emergency plan written and posted", kind = "administrative",
  say = "Write the plan for this place, post it with numbers and address, keep the way clear.",
  check = "read aloud at the briefing", often = "each day", who = "safety officer",
  changes = {
    { fact = "emergency.plan-written", becomes = "yes" },
    { fact = "emergency.contacts-posted", becomes = "yes" },
    { fact = "emergency.access-clear", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "radio-at-water", title = "Telephone or radio that works at the water", kind = "engineering",
  say = "Keep a telephone or radio that works at the water.",
  check = "called from the water's edge", often = "each morning", who = "safety officer",
  changes = {
    { fact = "emergency.phone-coverage", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "procedures-written", title = "What to do, written for each case", kind = "administrative",
  say = "Write down what to do for a missing person, failed light, escaped chemical and a " ..
    "moving tank.",
  check = "walked through", often = "before the first day", who = "safety officer",
  changes = {
    { fact = "emergency.lost-person-procedure", becomes = "yes" },
    { fact = "emergency.power-failure-procedure", becomes = "yes" },
    { fact = "emergency.chemical-release-procedure", becomes = "yes" },
    { fact = "emergency.structure-alarm-procedure", becomes = "yes" },
    { fact = "emergency.child-protection-contact", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "alarm-under-water", title = "Alarm heard and seen under water", kind = "engineering",
  say = "Fit an alarm that is heard and seen under water and everywhere around.",
  check = "everyone answers it", often = "each morning", who = "safety officer",
  changes = {
    { fact = "emergency.alarm-heard", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "spinal-board", title = "Spinal board and people trained on it", kind = "engineering",
  say = "Keep a spinal board at the water and people trained to use it in the water.",
  check = "drill", often = "each week", who = "set medic",
  changes = {
    { fact = "emergency.spinal-board", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "chamber-agreed", title = "Chamber nearer, or agreed", kind = "administrative",
  say = "Agree with the nearest chamber that takes emergencies how and how fast a diver gets " ..
    "there.",
  check = "called that morning", often = "each diving day", who = "diving supervisor",
  changes = {
    { fact = "emergency.chamber-time", at_most = "60 min" },
  },
  source = "common practice",
}

control {
  id = "dive-plan", title = "Dive plan written, approved and briefed", kind = "administrative",
  say = "Write the day's dive plan, have the supervisor sign it, brief it, sign the briefing.",
  check = "signatures", often = "each day", who = "diving supervisor",
  changes = {
    { fact = "day.dive-plan-written", becomes = "yes" },
    { fact = "day.dive-plan-approved", becomes = "yes" },
    { fact = "day.briefing-signed", becomes = "yes" },
    { fact = "day.dive-log-kept", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "log-at-each-descent", title = "Log written at each descent", kind = "administrative",
  say = "Write each descent down as it happens; add the day's total by machine.",
  check = "totals checked at wrap", often = "each descent", who = "diving supervisor",
  changes = {
    { fact = "day.dive-log-kept", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "renewed-certificates", title = "Certificates renewed before the day",
  kind = "administrative",
  say = "Renew what runs out before the day it is used.",
  check = "list of dates at the prep meeting", often = "each week", who = "production manager",
  lowers = { likelihood = 1, severity = 0 },
  source = "common practice",
}
