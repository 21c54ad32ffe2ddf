-- Controls for breathing gas, its supply, bottom time and dry chambers.

control {
  id = "second-bank", kind = "engineering",
  title = "A second bank that takes over by itself",
  say = "Connect a second bank with automatic changeover.",
  check = "shut the first bank and watch the gauge hold", often = "before each session",
    who = "gas technician",
  changes = {
    { fact = "supply.automatic-changeover", becomes = "yes" },
    { fact = "supply.independent-second", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "low-pressure-alarm", kind = "engineering",
  title = "Low pressure sounds an alarm",
  say = "Fit a low-pressure alarm that is heard at the panel.",
  check = "bleed the line until it sounds", often = "each morning", who = "gas technician",
  changes = {
    { fact = "supply.low-pressure-alarm", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "pressure-log", kind = "administrative",
  title = "Pressure is read and written before each take",
  say = "Read out and write down the pressure before each take; nobody goes at the turn pressure.",
  check = "log against gauge", often = "every take", who = "diving supervisor",
  changes = {
    { fact = "supply.pressure-logged", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "air-test", kind = "administrative",
  title = "The gas is tested before use",
  say = "Have the gas tested for carbon monoxide, carbon dioxide, oil and water before the first session.",
  check = "certificate with date and figures", often = "every three months and after each repair",
    who = "gas technician",
  lowers = { likelihood = 1 },
  source = "EN 12021:2014",
}

control {
  id = "filter-change", kind = "engineering",
  title = "New filters, and the gas tested after it",
  say = "Change the filters, run the compressor clear and test the gas again.",
  check = "test after the change", often = "by running hours, as the maker says", who = "gas technician",
  changes = {
    { fact = "supply.oil", at_most = "0.1 mg/m3" },
    { fact = "supply.carbon-monoxide", at_most = "3 ppm" },
    { fact = "supply.carbon-dioxide", at_most = "450 ppm" },
    { fact = "supply.moisture", at_most = "25 mg/m3" },
    { fact = "supply.odour", becomes = "no" },
  },
  source = "EN 12021:2014",
}

control {
  id = "intake-in-clean-air", kind = "engineering",
  title = "The intake stands upwind, far from every exhaust",
  say = "Move the intake upwind and at least ten metres from every exhaust, and have somebody watch the wind.",
  check = "smoke or ribbon at the intake", often = "each start and each change of wind",
    who = "gas technician",
  changes = {
    { fact = "supply.intake-upwind", becomes = "yes" },
    { fact = "supply.intake-distance", at_least = "10 m" },
  },
  source = "common practice",
}

control {
  id = "electric-compressor", kind = "substitution",
  title = "An electric compressor",
  say = "Use an electric compressor in place of an engine.",
  check = "seen", often = "once", who = "gas technician",
  changes = {
    { fact = "supply.compressor-drive", becomes = "electric" },
  },
  source = "common practice",
}

control {
  id = "carbon-monoxide-alarm", kind = "engineering",
  title = "Carbon monoxide alarm on the compressor",
  say = "Fit a carbon monoxide alarm set to 10 ppm or lower on the delivered air.",
  check = "test gas", often = "monthly, logged", who = "gas technician",
  changes = {
    { fact = "supply.carbon-monoxide-alarm", becomes = "yes" },
  },
  source = "WAC 296-37-570 (Washington State)",
}

control {
  id = "shorter-bottom-time", kind = "administrative",
  title = "Less time under water for each person",
  say = "Cap each person's time under water at one hour a task.",
  check = "dive log, added up after each descent", often = "every descent", who = "diving supervisor",
  changes = {
    { fact = "immersion.time", at_most = "60 min" },
  },
  source = "common practice",
}

control {
  id = "supervised-tables", kind = "administrative",
  title = "A supervisor's dive plan by tables for each person",
  say = "Plan each person's day by tables, with earlier dives counted, and stay well inside the limit.",
  check = "plan against log after each dive", often = "every dive", who = "diving supervisor",
  lowers = { likelihood = 1 },
  source = "US Navy Diving Manual Rev 7",
}

control {
  id = "later-flight", kind = "administrative",
  title = "Flights wait a day",
  say = "Book no flight or mountain road until a full day after the last dive on gas.",
  check = "travel plan against dive log", often = "at each change of the schedule",
    who = "production manager",
  changes = {
    { fact = "person.flight-after", at_least = "24 h" },
  },
  source = "Flying After Diving Workshop, May 2002",
}

control {
  id = "gas-analysis", kind = "administrative",
  title = "Enriched gas is analysed by its user",
  say = "Analyse each cylinder with its user, write fraction and greatest depth on the tag, both sign.",
  check = "tag against analyser", often = "every filling", who = "gas technician",
  changes = {
    { fact = "supply.analysed", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "leaner-mix", kind = "substitution",
  title = "A leaner mix",
  say = "Fill with no more than 32 % oxygen.",
  check = "analyser", often = "every filling", who = "gas technician",
  changes = {
    { fact = "supply.oxygen-fraction", at_most = "32 %" },
  },
  source = "common practice",
}

control {
  id = "chamber-more-flow", kind = "engineering",
  title = "More fresh air into the dry chamber",
  say = "Raise the flow into the chamber to at least 600 L/min.",
  check = "flow meter at the panel", often = "before each entry and every quarter of an hour",
    who = "gas technician",
  changes = {
    { fact = "chamber.supply-flow", at_least = "600 L/min" },
  },
  source = "common practice",
}

control {
  id = "chamber-fewer-people", kind = "administrative",
  title = "Fewer people in the dry chamber",
  say = "Let no more than two people in at once.",
  check = "tally at the entrance", often = "all the time", who = "diving supervisor",
  changes = {
    { fact = "chamber.occupants", at_most = "2" },
  },
  source = "common practice",
}

control {
  id = "chamber-shorter-stay", kind = "administrative",
  title = "Short stays in the dry chamber",
  say = "Bring everyone out after twenty minutes.",
  check = "clock at the panel", often = "every entry", who = "diving supervisor",
  changes = {
    { fact = "chamber.stay", at_most = "20 min" },
  },
  source = "common practice",
}

control {
  id = "chamber-gas-monitor", kind = "engineering",
  title = "Gas in the dry chamber is watched, with alarm",
  say = "Hang an oxygen and carbon dioxide monitor with alarm at head height.",
  check = "breathe on it; test gas weekly", often = "each morning", who = "gas technician",
  changes = {
    { fact = "chamber.gas-monitor", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "chamber-flow-alarm", kind = "engineering",
  title = "Loss of flow sounds an alarm",
  say = "Fit a flow alarm at the chamber's supply.",
  check = "shut the valve until it sounds", often = "each morning", who = "gas technician",
  changes = {
    { fact = "chamber.flow-alarm", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "chamber-non-return-valve", kind = "engineering",
  title = "A non-return valve holds the air in",
  say = "Fit a non-return valve where the hose enters the chamber.",
  check = "open the hose at the panel and watch the water level", often = "each morning",
    who = "gas technician",
  changes = {
    { fact = "chamber.non-return-valve", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "chamber-second-supply", kind = "engineering",
  title = "A second supply to the dry chamber",
  say = "Connect a second, independent source to the chamber.",
  check = "change over and back with nobody inside", often = "each morning", who = "gas technician",
  changes = {
    { fact = "chamber.second-supply", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "chamber-standby-air", kind = "engineering",
  title = "Mouthpieces for everyone in the dry chamber",
  say = "Hang one mouthpiece for each person inside, fed from standby cylinders.",
  check = "breathe from each", often = "before each entry", who = "diving supervisor",
  changes = {
    { fact = "chamber.standby-mouthpieces", at_least = "30" },
    { fact = "chamber.standby-gas", at_least = "6000 L" },
  },
  source = "common practice",
}

control {
  id = "chamber-evacuation-drill", kind = "administrative",
  title = "Getting out of the dry chamber is drilled",
  say = "Drill the evacuation with everyone until all are at the surface within three minutes.",
  check = "stop-watch", often = "before the first day and weekly", who = "diving supervisor",
  changes = {
    { fact = "chamber.evacuation-time", at_most = "3 min" },
  },
  source = "common practice",
}

control {
  id = "chamber-escorted-exit", kind = "administrative",
  title = "Everyone leaves the dry chamber with a diver",
  say = "Take each person out with a diver who sees that they breathe out on the way up.",
  check = "diver signs the log", often = "every exit", who = "diving supervisor",
  changes = {
    { fact = "chamber.escorted-exit", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "chamber-bottom-time", kind = "administrative",
  title = "Time in the dry chamber is logged as time at depth",
  say = "Log time in the chamber as time at its depth.",
  check = "dive log", often = "every entry", who = "diving supervisor",
  changes = {
    { fact = "chamber.counted-as-bottom-time", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "chamber-attendant", kind = "administrative",
  title = "A diver stays in the dry chamber with the performers",
  say = "Keep one diver inside for as long as a performer is inside.",
  check = "seen on the monitor", often = "every entry", who = "diving supervisor",
  changes = {
    { fact = "chamber.attendant", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "chamber-anchors", kind = "engineering",
  title = "Anchors rated for twice the lift",
  say = "Anchor the chamber for at least twice the lift of its air, on an engineer's drawing.",
  check = "certificate; anchors looked at by a diver", often = "each morning", who = "structural engineer",
  changes = {
    { fact = "chamber.uplift-rating", at_least = "1000 kN" },
  },
  source = "common practice",
}

control {
  id = "chamber-low-voltage", kind = "substitution",
  title = "Nothing above 12 V in the dry chamber",
  say = "Take everything electric above 12 V out of the chamber; light it from outside.",
  check = "label and meter", often = "each morning", who = "chief electrician",
  changes = {
    { fact = "chamber.voltage", at_most = "12 V" },
  },
  source = "BS 7671 section 702",
}

control {
  id = "chamber-second-exit", kind = "engineering",
  title = "Two wide ways out of the dry chamber",
  say = "Open a second way out, both at least 0.9 m wide.",
  check = "swum through in costume", often = "once, and after each change of the set",
    who = "diving supervisor",
  changes = {
    { fact = "chamber.exits", at_least = "2" },
    { fact = "chamber.exit-width", at_least = "0.9 m" },
  },
  source = "common practice",
}
