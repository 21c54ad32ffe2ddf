-- Controls for breathing, breath-hold, compressed gas and dry chambers.

control {
  id = "cut-the-breath-hold", kind = "elimination",
  title = "The action is told with the face dry or with gas",
  say = "Shoot the moment with the face above water, or with the mouthpiece in and hidden.",
  check = "storyboard and rehearsal show no held breath", often = "at each change of the storyboard", who = "assistant director",
  changes = {
    { fact = "immersion.breath-hold", becomes = "0 s" },
  },
  source = "common practice",
}

control {
  id = "shorter-take", kind = "substitution",
  title = "Shorter breath-hold takes, joined in the edit",
  say = "Break the action into takes of ten seconds or less without gas.",
  check = "stop-watch from mouthpiece out to mouthpiece in", often = "every take", who = "diving supervisor",
  changes = {
    { fact = "immersion.breath-hold", at_most = "10 s" },
  },
  source = "common practice: 15 to 20 s of performance on one breath is the most",
}

control {
  id = "air-within-the-take", kind = "engineering",
  title = "Gas is given within the take",
  say = "Fix gas points along the action and give a breath at each of them.",
  check = "rehearsed with the stop-watch at every gas point", often = "before the first take of each set-up", who = "diving supervisor",
  changes = {
    { fact = "immersion.breath-hold", at_most = "8 s" },
    { fact = "immersion.air-sources", at_least = "2" },
  },
  source = "common practice",
}

control {
  id = "trained-double", kind = "substitution",
  title = "A trained double takes the wet action",
  say = "Put a trained double in the performer's place for this action.",
  check = "the double's training record covers this depth and costume", often = "before the first take", who = "stunt coordinator",
  lowers = { likelihood = 2 },
  source = "common practice",
}

control {
  id = "calmer-action", kind = "substitution",
  title = "The action is slowed to light effort",
  say = "Slow the movement down until the performer breathes calmly afterwards.",
  check = "breathing is calm within half a minute of the take", often = "each rehearsal and take", who = "stunt coordinator",
  changes = {
    { fact = "immersion.effort", becomes = "light" },
  },
  source = "oxygen uptake rises with effort (Compendium of Physical Activities)",
}

control {
  id = "diver-at-arms-reach", kind = "administrative",
  title = "A safety diver with gas at arm's length",
  say = "Keep one safety diver with a spare mouthpiece at arm's length, just out of frame, for each performer.",
  check = "measured at rehearsal: gas in the mouth within four seconds", often = "every set-up", who = "diving supervisor",
  changes = {
    { fact = "immersion.diver-distance", at_most = "1 m" },
    { fact = "immersion.air-return-time", at_most = "4 s" },
    { fact = "immersion.own-safety-diver", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "second-air-source", kind = "engineering",
  title = "Independent second source of air",
  say = "Put a second mouthpiece with its own hose, valve and gas within arm's reach of each performer.",
  check = "breathe from it at depth with the first one shut off", often = "before each session", who = "diving supervisor",
  changes = {
    { fact = "immersion.air-sources", at_least = "2" },
    { fact = "supply.independent-second", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "hand-on-performer", kind = "administrative",
  title = "A hand or a line on the performer until the take",
  say = "Keep a hand on the performer until the take, and go back to the hand at once after it.",
  check = "seen by the supervisor on the monitor", often = "every take", who = "diving supervisor",
  changes = {
    { fact = "immersion.touch-contact", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "fixed-count-in", kind = "administrative",
  title = "Fixed count-in: blow out once, one full breath",
  say = "Use the same count-in every time: blow out once, breathe in once, mouthpiece away.",
  check = "breaths counted aloud by the diver who takes the mouthpiece", often = "every take", who = "diving supervisor",
  changes = {
    { fact = "immersion.count-in-breaths", at_most = "1" },
    { fact = "immersion.count-in-time", at_least = "5 s" },
  },
  source = "common practice: blow out once, one full breath",
}

control {
  id = "breath-watcher", kind = "administrative",
  title = "Somebody watches the breathing and calls the take off",
  say = "Watch the performer's breathing before each take; call it off at fast breathing or light-headedness.",
  check = "the watcher says \"breathing calm\" before the count", often = "every take", who = "diving supervisor",
  lowers = { likelihood = 1 },
  source = "common practice",
}

control {
  id = "longer-rest", kind = "administrative",
  title = "A minimum rest between takes is called and timed",
  say = "Hold the next take until two minutes of free breathing have passed.",
  check = "stop-watch at the camera", often = "every take", who = "assistant director",
  changes = {
    { fact = "immersion.interval", at_least = "2 min" },
  },
  source = "common practice: at least twice the hold; longer for many takes",
}

control {
  id = "take-counter", kind = "administrative",
  title = "Takes are counted and capped",
  say = "Count takes on the slate; after nine, change to the double or rest for the day.",
  check = "count on the slate and in the dive log", often = "every take", who = "assistant director",
  changes = {
    { fact = "immersion.takes", at_most = "9" },
  },
  source = "common practice",
}

control {
  id = "exhale-drill", kind = "administrative",
  title = "Breathing out on the way up is drilled and watched",
  say = "Drill breathing out all the way up until it happens without a thought; a diver watches it each time.",
  check = "watched from pool depth up, then at task depth", often = "before the first session, then weekly", who = "diving supervisor",
  changes = {
    { fact = "immersion.exhales-on-ascent", becomes = "yes" },
    { fact = "person.exhale-drill", becomes = "passed" },
  },
  source = "MSD Manual, Barotrauma (2023): injury from about 1 m after breathing compressed gas",
}

control {
  id = "no-free-ascent", kind = "elimination",
  title = "Nobody swims up alone",
  say = "Take the swim to the surface out of the action; end every take with gas in the mouth at depth.",
  check = "storyboard and rehearsal show no ascent alone", often = "at each change of the storyboard", who = "diving supervisor",
  changes = {
    { fact = "immersion.free-ascent-planned", becomes = "no" },
  },
  source = "common practice",
}

control {
  id = "ascent-escort", kind = "administrative",
  title = "Every ascent is escorted",
  say = "Bring each performer up with a diver face to face, slower than nine metres a minute.",
  check = "diver signs the log for each ascent", often = "every ascent", who = "diving supervisor",
  changes = {
    { fact = "immersion.escorted", becomes = "yes" },
    { fact = "immersion.ascent-rate", at_most = "9 m/min" },
  },
  source = "US Navy Diving Manual: 30 ft/min",
}

control {
  id = "depth-cap", kind = "substitution",
  title = "The action moves up to three metres or less",
  say = "Raise the platform so that the action is at three metres or less.",
  check = "depth gauge on the platform", often = "after each change of the set", who = "diving supervisor",
  changes = {
    { fact = "immersion.depth", at_most = "3 m" },
  },
  source = "common practice",
}

control {
  id = "descent-line", kind = "engineering",
  title = "A descent line, and slow descents",
  say = "Rig a line and go down hand under hand, clearing ears before each arm's length.",
  check = "diver stops anyone faster than nine metres a minute", often = "every descent", who = "diving supervisor",
  changes = {
    { fact = "immersion.descent-rate", at_most = "9 m/min" },
  },
  source = "common practice",
}

control {
  id = "fewer-descents", kind = "administrative",
  title = "Stay down between takes; few descents",
  say = "Rest at depth on gas between takes instead of coming up; no more than six descents.",
  check = "descents counted in the dive log", often = "every session", who = "diving supervisor",
  changes = {
    { fact = "immersion.descents", at_most = "6" },
  },
  source = "common practice: many short descents strain ears more than one long one",
}

control {
  id = "congested-stay-dry", kind = "elimination",
  title = "Whoever cannot clear the ears stays dry",
  say = "Ask everyone that morning; whoever is congested does not go under.",
  check = "asked alone, ears cleared in front of the medic", often = "every morning", who = "set medic",
  changes = {
    { fact = "immersion.congested", becomes = "no" },
  },
  source = "common practice",
}

control {
  id = "mouthpiece-test", kind = "administrative",
  title = "The mouthpiece is seated unaided in everything worn",
  say = "Test in the shallow end, then at depth: find, seat and clear the mouthpiece without help or mask.",
  check = "ten times in a row, watched", often = "before the first take, and after each change of appliance", who = "diving supervisor",
  changes = {
    { fact = "immersion.seats-mouthpiece", becomes = "yes" },
    { fact = "person.mouthpiece-drill", becomes = "passed" },
  },
  source = "common practice",
}

control {
  id = "cut-back-fingers", kind = "engineering",
  title = "Fingers are cut back so that the hands work",
  say = "Cut back glove and claw fingertips, or use half-hands, until the mouthpiece can be held.",
  check = "the performer holds and seats the mouthpiece", often = "at fitting and before each session", who = "make-up supervisor",
  changes = {
    { fact = "appliance.dexterity", becomes = "full" },
  },
  source = "common practice",
}

control {
  id = "diver-seats-mouthpiece", kind = "administrative",
  title = "The safety diver seats the mouthpiece",
  say = "Let the diver seat, hold and purge the mouthpiece; rehearse it blind.",
  check = "rehearsed ten times with the performer's eyes shut", often = "before the first take", who = "diving supervisor",
  lowers = { likelihood = 1 },
  source = "common practice",
}

control {
  id = "second-bank", kind = "engineering",
  title = "A second bank that takes over by itself",
  say = "Connect a second bank with automatic changeover.",
  check = "shut the first bank and watch the gauge hold", often = "before each session", who = "gas technician",
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
  check = "certificate with date and figures", often = "every three months and after each repair", who = "gas technician",
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
  check = "smoke or ribbon at the intake", often = "each start and each change of wind", who = "gas technician",
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
  check = "travel plan against dive log", often = "at each change of the schedule", who = "production manager",
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
  check = "flow meter at the panel", often = "before each entry and every quarter of an hour", who = "gas technician",
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
  check = "open the hose at the panel and watch the water level", often = "each morning", who = "gas technician",
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
