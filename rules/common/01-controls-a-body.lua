-- Controls for cold, heat, skin, eyes and fatigue.

control {
  id = "warmer-water", kind = "engineering",
  title = "Warmer water",
  say = "Heat the water to at least 30 degC before people go in.",
  check = "thermometer at half a metre and at the bottom", often = "before the first entry and hourly",
    who = "water technician",
  changes = {
    { fact = "water.temperature", at_least = "30 degC" },
  },
  source = "common practice",
}

control {
  id = "suit-under-costume", kind = "ppe",
  title = "A wetsuit under the costume",
  say = "Wear at least 3 mm of neoprene under the costume.",
  check = "seen at dressing", often = "each dressing", who = "costume supervisor",
  changes = {
    { fact = "immersion.neoprene", at_least = "3 mm" },
    { fact = "immersion.suit", becomes = "wetsuit" },
  },
  source = "common practice",
}

control {
  id = "slow-entry", kind = "administrative",
  title = "Slow entry, face last",
  say = "Get in by the ladder, slowly, face last; wait until breathing is calm.",
  check = "diver says \"calm\" before anything else happens", often = "every entry",
    who = "diving supervisor",
  changes = {
    { fact = "immersion.slow-entry", becomes = "yes" },
    { fact = "immersion.entry", becomes = "ladder" },
  },
  source = "Transport Canada TP 13822 (2003): cold shock passes within 3 to 5 min",
}

control {
  id = "shorter-wet-time", kind = "administrative",
  title = "Less time wet",
  say = "Keep nobody wet for longer than an hour; then out, dry and warm.",
  check = "time in and out on the tally board", often = "every entry", who = "assistant director",
  changes = {
    { fact = "immersion.wet-time", at_most = "60 min" },
  },
  source = "common practice",
}

control {
  id = "child-wet-time", kind = "administrative",
  title = "Wet time scaled down for small people",
  say = "Keep children wet for no longer than twenty minutes at a time, then dry and warm.",
  check = "time in and out on the tally board", often = "every entry", who = "chaperone",
  changes = {
    { fact = "immersion.wet-time", at_most = "20 min" },
  },
  source = "common practice",
}

control {
  id = "robe-and-warm-room", kind = "engineering",
  title = "Dry robe and warm room at the exit",
  say = "Put a robe on at the exit and take the person to the warm room within twenty metres.",
  check = "robe and warm room seen before entry", often = "every exit", who = "costume supervisor",
  changes = {
    { fact = "immersion.robe", becomes = "yes" },
    { fact = "site.warm-room-distance", at_most = "20 m" },
    { fact = "site.warm-room-temperature", at_least = "25 degC" },
  },
  source = "common practice",
}

control {
  id = "call-order", kind = "administrative",
  title = "Call order that spares waiting",
  say = "Call wet performers last to the set and first off it; no wait longer than ten minutes.",
  check = "times on the call sheet against the clock", often = "every set-up", who = "assistant director",
  changes = {
    { fact = "immersion.deck-wait", at_most = "10 min" },
  },
  source = "common practice",
}

control {
  id = "windbreak", kind = "engineering",
  title = "Windbreak at the exit",
  say = "Put up a windbreak or close the doors; stop draughts at the exit.",
  check = "anemometer", often = "each morning", who = "safety officer",
  changes = {
    { fact = "air.wind", at_most = "1 m/s" },
  },
  source = "common practice",
}

control {
  id = "cooler-water", kind = "engineering",
  title = "Cooler water for hard work",
  say = "Cool the water to 30 degC or below before hard work.",
  check = "thermometer", often = "before the first entry and hourly", who = "water technician",
  changes = {
    { fact = "water.temperature", at_most = "30 degC" },
  },
  source = "common practice",
}

control {
  id = "work-breaks", kind = "administrative",
  title = "Timed breaks out of heat or water",
  say = "Take ten minutes out of the heat and a drink in every hour.",
  check = "breaks on the call sheet, seen", often = "every hour", who = "assistant director",
  lowers = { likelihood = 1 },
  source = "NIOSH 2016-106",
}

control {
  id = "shade-and-drink", kind = "engineering",
  title = "Shade and drink where people wait",
  say = "Put up shade or a cool room, and drinking water, where people wait in costume.",
  check = "seen", often = "each morning", who = "safety officer",
  changes = {
    { fact = "site.shade", becomes = "yes" },
    { fact = "site.drinking-water", becomes = "yes" },
  },
  source = "NIOSH 2016-106",
}

control {
  id = "cooling-worn", kind = "ppe",
  title = "The wearer is cooled while waiting",
  say = "Open the suit, use fan or cooling vest from dressing until the call.",
  check = "seen by the dresser", often = "all the time in the suit", who = "costume supervisor",
  changes = {
    { fact = "appliance.cooling", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "late-dressing", kind = "administrative",
  title = "Heavy costume goes on last",
  say = "Close the suit only when the camera is ready: no longer than fifteen minutes on deck.",
  check = "clock at dressing", often = "every set-up", who = "costume supervisor",
  changes = {
    { fact = "immersion.dressed-wait", at_most = "15 min" },
  },
  source = "common practice",
}

control {
  id = "mixing-valve", kind = "engineering",
  title = "A mixing valve set to 41 degC",
  say = "Fit a thermostatic mixing valve, set it to 41 degC and check it.",
  check = "thermometer after a minute of running", often = "monthly, and each morning by hand",
    who = "water technician",
  changes = {
    { fact = "site.shower-temperature", at_most = "41 degC" },
    { fact = "site.mixing-valve", becomes = "yes" },
  },
  source = "thermostatic mixing valve practice: shower 41 degC",
}

control {
  id = "cooler-rig-water", kind = "engineering",
  title = "Rig water at skin temperature",
  say = "Mix the rig's water to 38 degC or below before it reaches anyone.",
  check = "thermometer in the stream", often = "before each session", who = "special effects supervisor",
  changes = {
    { fact = "rig.water-temperature", at_most = "38 degC" },
  },
  source = "common practice",
}

control {
  id = "barrier-cream", kind = "ppe",
  title = "Barrier cream before, skin care after",
  say = "Use barrier cream before the first entry and skin care after the last.",
  check = "medic looks at the skin", often = "daily", who = "set medic",
  lowers = { likelihood = 1 },
  source = "common practice",
}

control {
  id = "drying-breaks", kind = "administrative",
  title = "Skin dries between sets",
  say = "Take appliance edges off and let the skin dry between sets.",
  check = "medic looks at the skin", often = "every break", who = "make-up supervisor",
  lowers = { likelihood = 1 },
  source = "common practice",
}

control {
  id = "mask-when-not-seen", kind = "ppe",
  title = "Mask or goggles whenever the face is not in shot",
  say = "Wear mask or goggles at rehearsal and wherever the face is not in shot.",
  check = "seen", often = "every descent", who = "diving supervisor",
  changes = {
    { fact = "immersion.eyes-open-time", at_most = "15 min" },
  },
  source = "common practice",
}

control {
  id = "eyes-open-limit", kind = "administrative",
  title = "Less time with open eyes",
  say = "Open the eyes on the word only: ten minutes a day.",
  check = "time in the dive log", often = "every take", who = "diving supervisor",
  changes = {
    { fact = "immersion.eyes-open-time", at_most = "10 min" },
  },
  source = "common practice: soreness within half an hour",
}

control {
  id = "eye-rinse", kind = "administrative",
  title = "Eye rinse by the water",
  say = "Rinse the eyes after each session.",
  check = "rinse in date, seen", often = "each session", who = "set medic",
  changes = {
    { fact = "site.eye-rinse", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "under-water-cap", kind = "administrative",
  title = "A cap on the time under water",
  say = "Cap each person's time under water at ninety minutes a day.",
  check = "dive log, added up after each descent", often = "every descent", who = "diving supervisor",
  changes = {
    { fact = "immersion.time", at_most = "45 min" },
  },
  source = "common practice: 3 h a day is the ceiling",
}

control {
  id = "split-days", kind = "administrative",
  title = "The wet work is spread over more days",
  say = "Spread the wet work so that no one has wet days in a row.",
  check = "schedule against log", often = "at each change of the schedule", who = "assistant director",
  lowers = { likelihood = 1 },
  source = "common practice",
}

control {
  id = "double-shares", kind = "substitution",
  title = "A double shares the wet work",
  say = "Give at least half of the wet takes to a trained double.",
  check = "takes on the call sheet", often = "every day", who = "assistant director",
  lowers = { likelihood = 1 },
  source = "common practice",
}
