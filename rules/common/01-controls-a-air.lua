-- Controls for breathing, breath-hold, ascent, ears and the mouthpiece.

control {
  id = "cut-the-breath-hold", kind = "elimination",
  title = "The action is told with the face dry or with gas",
  say = "Shoot the moment with the face above water, or with the mouthpiece in and hidden.",
  check = "storyboard and rehearsal show no held breath", often = "at each change of the storyboard",
    who = "assistant director",
  changes = {
    { fact = "immersion.breath-hold", becomes = "0 s" },
  },
  source = "common practice",
}

control {
  id = "shorter-take", kind = "substitution",
  title = "Shorter breath-hold takes, joined in the edit",
  say = "Break the action into takes of ten seconds or less without gas.",
  check = "stop-watch from mouthpiece out to mouthpiece in", often = "every take",
    who = "diving supervisor",
  changes = {
    { fact = "immersion.breath-hold", at_most = "10 s" },
  },
  source = "common practice: 15 to 20 s of performance on one breath is the most",
}

control {
  id = "air-within-the-take", kind = "engineering",
  title = "Gas is given within the take",
  say = "Fix gas points along the action and give a breath at each of them.",
  check = "rehearsed with the stop-watch at every gas point",
    often = "before the first take of each set-up", who = "diving supervisor",
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
  check = "the double's training record covers this depth and costume", often = "before the first take",
    who = "stunt coordinator",
  lowers = { likelihood = 2 },
  source = "common practice",
}

control {
  id = "calmer-action", kind = "substitution",
  title = "The action is slowed to light effort",
  say = "Slow the movement down until the performer breathes calmly afterwards.",
  check = "breathing is calm within half a minute of the take", often = "each rehearsal and take",
    who = "stunt coordinator",
  changes = {
    { fact = "immersion.effort", becomes = "light" },
  },
  source = "oxygen uptake rises with effort (Compendium of Physical Activities)",
}

control {
  id = "diver-at-arms-reach", kind = "administrative",
  title = "A safety diver with gas at arm's length",
  say = "Keep one safety diver with a spare mouthpiece at arm's length, just out of frame, for each performer.",
  check = "measured at rehearsal: gas in the mouth within four seconds", often = "every set-up",
    who = "diving supervisor",
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
  check = "breathe from it at depth with the first one shut off", often = "before each session",
    who = "diving supervisor",
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
  check = "breaths counted aloud by the diver who takes the mouthpiece", often = "every take",
    who = "diving supervisor",
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
  check = "the watcher says \"breathing calm\" before the count", often = "every take",
    who = "diving supervisor",
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
  check = "watched from pool depth up, then at task depth",
    often = "before the first session, then weekly", who = "diving supervisor",
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
  check = "storyboard and rehearsal show no ascent alone", often = "at each change of the storyboard",
    who = "diving supervisor",
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
  check = "diver stops anyone faster than nine metres a minute", often = "every descent",
    who = "diving supervisor",
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
  check = "ten times in a row, watched",
    often = "before the first take, and after each change of appliance", who = "diving supervisor",
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
  check = "the performer holds and seats the mouthpiece", often = "at fitting and before each session",
    who = "make-up supervisor",
  changes = {
    { fact = "appliance.dexterity", becomes = "full" },
  },
  source = "common practice",
}

control {
  id = "diver-seats-mouthpiece", kind = "administrative",
  title = "The safety diver seats the mouthpiece",
  say = "Let the diver seat, hold and purge the mouthpiece; rehearse it blind.",
  check = "rehearsed ten times with the performer's eyes shut", often = "before the first take",
    who = "diving supervisor",
  lowers = { likelihood = 1 },
  source = "common practice",
}
