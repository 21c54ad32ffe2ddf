-- Controls for water quality, clarity and treatment.

control {
  id = "raise-chlorine", kind = "engineering",
  title = "More disinfectant",
  say = "Raise free chlorine to 1.5 mg/L and let it mix before people go in.",
  check = "photometer at two places", often = "before the first entry, then every two hours",
    who = "water technician",
  changes = {
    { fact = "water.free-chlorine", at_least = "1.5 mg/L" },
  },
  source = "CDC Model Aquatic Health Code (2018) as quoted",
}

control {
  id = "lower-chlorine", kind = "engineering",
  title = "Less chlorine",
  say = "Let free chlorine fall to 3 mg/L or below, by dilution or neutraliser, before people go in.",
  check = "photometer at two places", often = "before the first entry", who = "water technician",
  changes = {
    { fact = "water.free-chlorine", at_most = "3 mg/L" },
  },
  source = "common practice",
}

control {
  id = "hold-ph", kind = "engineering",
  title = "pH held at 7.4",
  say = "Hold the pH at 7.4.",
  check = "pH meter, calibrated", often = "before the first entry, then every two hours",
    who = "water technician",
  changes = {
    { fact = "water.ph", becomes = "7.4" },
  },
  source = "WHO Guidelines for safe recreational water environments vol 2 (2006) (from memory)",
}

control {
  id = "uv-treatment", kind = "engineering",
  title = "Ultraviolet treatment",
  say = "Fit ultraviolet treatment in the return line.",
  check = "lamp hours and dose", often = "weekly", who = "water technician",
  changes = {
    { fact = "plant.secondary-treatment", becomes = "uv" },
    { fact = "water.combined-chlorine", at_most = "0.2 mg/L" },
  },
  source = "common practice",
}

control {
  id = "fresh-water", kind = "engineering",
  title = "More fresh water",
  say = "Add at least 40 L of fresh water for each bather and day; drain what is old.",
  check = "make-up meter", often = "daily", who = "water technician",
  changes = {
    { fact = "plant.fresh-water", at_least = "40 L" },
    { fact = "water.combined-chlorine", at_most = "0.2 mg/L" },
    { fact = "water.cyanuric-acid", at_most = "25 mg/L" },
  },
  source = "WHO figure of 30 L per bather, as quoted in Br J Sports Med",
}

control {
  id = "ventilate-hall", kind = "engineering",
  title = "Fresh air over the water",
  say = "Give the hall at least four changes of fresh air an hour, drawn off low over the water.",
  check = "ventilation record", often = "each morning", who = "water technician",
  changes = {
    { fact = "air.air-changes", at_least = "4 1/h" },
    { fact = "air.trichloramine", at_most = "0.2 mg/m3" },
  },
  source = "ASHRAE HVAC Applications (from memory)",
}

control {
  id = "more-flow", kind = "engineering",
  title = "More circulation",
  say = "Raise the circulation until the water turns over within four hours.",
  check = "flow meter", often = "each morning", who = "water technician",
  lowers = { likelihood = 1 },
  source = "UK turnover guidance as quoted",
}

control {
  id = "fewer-bathers", kind = "administrative",
  title = "Fewer people in the water",
  say = "Let in only those the shot needs; everyone showers first.",
  check = "tally board", often = "all the time", who = "assistant director",
  changes = {
    { fact = "plant.bathers-per-day", at_most = "30" },
  },
  source = "common practice",
}

control {
  id = "clear-the-water", kind = "engineering",
  title = "Filter and backwash until the floor is seen",
  say = "Filter and backwash until the floor and the far diver are seen sharply.",
  check = "disc on a tape, under water, set lighting",
    often = "before the first entry and after each additive", who = "water technician",
  changes = {
    { fact = "water.turbidity", at_most = "0.5 NTU" },
    { fact = "water.visibility", at_least = "15 m" },
  },
  source = "ARM 37.115.1315 (Montana, 2010)",
}

control {
  id = "stop-when-cloudy", kind = "administrative",
  title = "Work stops when the far marker is lost",
  say = "Hang a marker at the farthest working place; stop when it is not seen.",
  check = "marker seen by the supervisor", often = "before every take", who = "diving supervisor",
  lowers = { likelihood = 1 },
  source = "common practice",
}

control {
  id = "additive-test", kind = "administrative",
  title = "Additives are tried on skin and eyes first",
  say = "Read the data sheet of each additive and try it at working strength on skin and eyes the day before.",
  check = "test record", often = "each new batch", who = "special effects supervisor",
  changes = {
    { fact = "water.additive-data-sheets", becomes = "yes" },
    { fact = "water.additive-skin-and-eye-tested", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "no-additive", kind = "elimination",
  title = "The look is made by light, lens or in post",
  say = "Make the look with light, lens or in post; put nothing into the water.",
  check = "effects list", often = "at each change of the effects list", who = "special effects supervisor",
  lowers = { likelihood = 2 },
  source = "common practice",
}

control {
  id = "accident-procedure", kind = "administrative",
  title = "A procedure for faeces, vomit and blood",
  say = "Post the procedure; clear the water at once and let nobody back before the time is up.",
  check = "everyone at the water can say it", often = "at induction", who = "water technician",
  changes = {
    { fact = "water.accident-procedure", becomes = "yes" },
  },
  source = "CDC and state procedures for faecal accidents, as quoted",
}

control {
  id = "hold-for-ct", kind = "engineering",
  title = "Chlorine is held until the germs are dead",
  say = "Hold 10 mg/L for 26 hours with the pumps running before anyone goes in, then bring it down.",
  check = "photometer, logged hourly", often = "after each accident", who = "water technician",
  changes = {
    { fact = "water.accident-chlorine", at_least = "10 mg/L" },
    { fact = "water.accident-contact-time", at_least = "26 h" },
  },
  source = "CDC disinfection timetable: 15 300 mg min/L",
}

control {
  id = "flush-and-disinfect", kind = "engineering",
  title = "Spray water is disinfected and flushed",
  say = "Disinfect the rig's water, flush hoses and heads away from people, drain them after each day.",
  check = "log", often = "each morning", who = "water technician",
  changes = {
    { fact = "plant.spray-water-treated", becomes = "yes" },
    { fact = "water.stagnation", at_most = "1 day" },
  },
  source = "HSE ACoP L8",
}

control {
  id = "cool-spray-water", kind = "engineering",
  title = "Spray water below 20 degC",
  say = "Keep the rig's tank and hoses below 20 degC until use.",
  check = "thermometer in tank and hose", often = "each morning", who = "special effects supervisor",
  changes = {
    { fact = "rig.water-temperature", at_most = "19 degC" },
  },
  source = "HSE ACoP L8",
}

control {
  id = "bathing-water-test", kind = "administrative",
  title = "The water is tested at the working place",
  say = "Have the water tested for E. coli and enterococci at the working place within the week.",
  check = "laboratory report", often = "weekly, and after rain", who = "water technician",
  lowers = { likelihood = 1 },
  source = "Directive 2006/7/EC",
}

control {
  id = "move-the-place", kind = "elimination",
  title = "The scene moves to clean water",
  say = "Move the scene to a tank or to tested water.",
  check = "site list", often = "before the schedule is fixed", who = "production manager",
  lowers = { likelihood = 3 },
  source = "common practice",
}

control {
  id = "cover-wounds", kind = "ppe",
  title = "Wounds are covered, or the person stays out",
  say = "Cover every wound with a waterproof dressing, or stay out of the water.",
  check = "medic looks", often = "each morning", who = "set medic",
  lowers = { likelihood = 1 },
  source = "common practice",
}

control {
  id = "nose-clip", kind = "ppe",
  title = "Noses stay shut in warm fresh water",
  say = "Wear a nose clip or keep the head out of warm fresh water.",
  check = "seen", often = "every entry", who = "diving supervisor",
  lowers = { likelihood = 1 },
  source = "CDC Naegleria page as quoted",
}

control {
  id = "dose-out-of-hours", kind = "elimination",
  title = "No dosing by hand while people are in",
  say = "Dose only when the water is empty, and test before anyone goes in.",
  check = "plant log", often = "daily", who = "water technician",
  changes = {
    { fact = "plant.dosing-while-occupied", becomes = "no" },
  },
  source = "common practice",
}

control {
  id = "dosing-interlock", kind = "engineering",
  title = "Dosing stops when circulation stops",
  say = "Wire the dosing pumps so that they stop when circulation stops.",
  check = "stop the circulation and see dosing stop", often = "monthly", who = "water technician",
  changes = {
    { fact = "plant.dosing-interlock", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "chemicals-apart", kind = "engineering",
  title = "Acid and hypochlorite apart",
  say = "Keep acid and hypochlorite in separate, bunded, marked, ventilated places, with connectors that do not fit each other.",
  check = "seen", often = "daily", who = "water technician",
  changes = {
    { fact = "plant.acid-and-hypochlorite-apart", becomes = "yes" },
    { fact = "plant.chemical-store-ventilated", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "chlorine-alarm", kind = "engineering",
  title = "Chlorine gas alarm",
  say = "Fit a chlorine gas alarm in store and hall.",
  check = "test gas", often = "monthly", who = "water technician",
  changes = {
    { fact = "plant.chlorine-alarm", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "pumps-off", kind = "elimination",
  title = "Suction is off while people are in",
  say = "Shut the bottom suction and lock the valve while people are in the water.",
  check = "lock and tag seen", often = "every entry", who = "water technician",
  changes = {
    { fact = "plant.drain-flow", becomes = "0 m3/h" },
  },
  source = "common practice",
}

control {
  id = "drain-covers", kind = "engineering",
  title = "Whole, screwed-down covers that cannot hold a body",
  say = "Fit anti-entrapment covers, screwed down and whole.",
  check = "diver's hand on each", often = "each morning", who = "water technician",
  changes = {
    { fact = "plant.drain-cover", becomes = "anti-entrapment" },
    { fact = "plant.drain-cover-fixed", becomes = "yes" },
  },
  source = "EN 13451-3 as described by PWTAG",
}

control {
  id = "second-drain", kind = "engineering",
  title = "Two suctions apart on each pump",
  say = "Connect at least two suctions, a metre or more apart, to each pump.",
  check = "drawing and tape", often = "once", who = "water technician",
  changes = {
    { fact = "plant.drains", at_least = "2" },
    { fact = "plant.drain-spacing", at_least = "1 m" },
  },
  source = "common practice",
}

control {
  id = "pump-cut-off", kind = "engineering",
  title = "Pump cut-off at the poolside, manned",
  say = "Put a marked pump cut-off within reach and one person at it.",
  check = "shout and stop-watch: five seconds", often = "each morning", who = "water technician",
  changes = {
    { fact = "plant.pump-cut-off", becomes = "yes" },
    { fact = "plant.pump-cut-off-time", at_most = "5 s" },
  },
  source = "common practice",
}

control {
  id = "exclude-ill", kind = "elimination",
  title = "Whoever had diarrhoea stays out for 14 days",
  say = "Ask everyone alone; whoever had diarrhoea within fourteen days stays out of the water.",
  check = "health declaration that day", often = "each morning", who = "set medic",
  changes = {
    { fact = "person.diarrhoea-14-days", becomes = "no" },
  },
  source = "exclusion time (from memory: check the text)",
}

control {
  id = "water-test-schedule", kind = "administrative",
  title = "Water is tested on a schedule and logged",
  say = "Test chlorine and pH before the first entry and every two hours; write it down.",
  check = "log against the clock", often = "every two hours", who = "water technician",
  changes = {
    { fact = "water.test-interval", at_most = "2 h" },
    { fact = "plant.log-kept", becomes = "yes" },
  },
  source = "common practice",
}
