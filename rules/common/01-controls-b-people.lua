-- Controls for what is worn, for the people in the water and for the team around them.

control {
  id = "quick-release", title = "Quick release the wearer finds blind", kind = "engineering",
  say = "Fit a quick release that the wearer finds and opens with eyes shut.",
  check = "wearer opens it under water with eyes shut",
  often = "at the fitting and before each day", who = "make-up supervisor",
  changes = {
    { fact = "appliance.quick-release", becomes = "yes" },
    { fact = "appliance.removed-by", becomes = "wearer" },
    { fact = "appliance.remove-time", at_most = "4 s" },
  },
  source = "common practice",
}

control {
  id = "cutter-with-diver", title = "Cutting tool carried by the diver", kind = "engineering",
  say = "Carry a cutter that goes through everything worn; try it on a sample.",
  check = "cut a sample of the costume", often = "before each session", who = "safety diver",
  changes = {
    { fact = "appliance.cutter-at-hand", becomes = "yes" },
    { fact = "post.cutter", becomes = "yes" },
    { fact = "appliance.remove-time", at_most = "15 s" },
  },
  source = "common practice",
}

control {
  id = "mouthpiece-fits-through", title = "Mouth opening that takes the mouthpiece",
  kind = "engineering",
  say = "Open the mouth of the piece so that the mouthpiece seats with the piece on.",
  check = "seat and clear the mouthpiece at depth", often = "at each new piece",
  who = "make-up supervisor",
  changes = {
    { fact = "appliance.fits-mouthpiece", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "no-contact-lenses", title = "No contact lenses in the water", kind = "elimination",
  say = "Take contact lenses out before going near the water.",
  check = "asked at the water's edge", often = "each entry", who = "set medic",
  changes = {
    { fact = "person.contact-lenses", becomes = "no" },
  },
  source = "common practice",
}

control {
  id = "tactile-line", title = "Hand or line on the performer until the take", kind = "engineering",
  say = "Keep a hand on the performer, or the performer's hand on the line, until the take " ..
    "starts and again at its end.",
  check = "seen from the surface", often = "each take", who = "safety diver",
  changes = {
    { fact = "immersion.touch-contact", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "recall-by-touch", title = "Recall that is felt, not heard", kind = "engineering",
  say = "Give the recall by taps on the body or by the line as well as by the speaker.",
  check = "performer answers the signal in everything worn", often = "each morning",
  who = "diving supervisor",
  changes = {
    { fact = "immersion.hears-recall", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "carried-to-water", title = "Carried or wheeled to the water", kind = "engineering",
  say = "Carry or wheel the performer to the water's edge; dress feet and tail in the water.",
  check = "seen at the first rehearsal", often = "each entry", who = "costume supervisor",
  changes = {
    { fact = "appliance.put-on-in-water", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "loose-parts-fixed", title = "Loose parts sewn, moulded or left off", kind = "elimination",
  say = "Leave off or mould in every part that a pull of the hand could loosen.",
  check = "pull test on each part", often = "before each session", who = "make-up supervisor",
  changes = {
    { fact = "appliance.loose-parts", becomes = "no" },
  },
  source = "common practice",
}

control {
  id = "glue-check", title = "Edges and glue looked at before each take", kind = "administrative",
  say = "Look at every edge and glue line before each take.",
  check = "tick on the take sheet", often = "each take", who = "make-up supervisor",
  changes = {
    { fact = "appliance.glue-checked-each-take", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "other-material", title = "Another material against the skin", kind = "substitution",
  say = "Use a material and glue that the wearer is known to bear.",
  check = "patch test", often = "before the first fitting", who = "make-up supervisor",
  changes = {
    { fact = "appliance.materials", becomes = "fabric" },
  },
  source = "common practice",
}

control {
  id = "patch-test", title = "Patch test days before", kind = "administrative",
  say = "Test glue, remover and material on the wearer's skin at least two days before.",
  check = "skin looked at after two days", often = "each new material", who = "make-up supervisor",
  changes = {
    { fact = "appliance.patch-test-lead", at_least = "2 day" },
  },
  source = "common practice",
}

control {
  id = "solvent-gone-off", title = "Solvent gone off before it is covered", kind = "administrative",
  say = "Wait the maker's time before covering glue or remover.",
  check = "timer", often = "each fitting", who = "make-up supervisor",
  changes = {
    { fact = "appliance.solvent-free-before-wear", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "droppable-ballast", title = "Ballast that one hand drops", kind = "engineering",
  say = "Put all lead on one belt or pocket that drops with one pull.",
  check = "dropped under water by the wearer", often = "each costume, each week",
  who = "diving supervisor",
  changes = {
    { fact = "immersion.ballast-droppable", becomes = "yes" },
    { fact = "appliance.ballast-droppable", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "trim-check", title = "Trim brought to afloat with lungs full", kind = "engineering",
  say = "Take lead off until the performer floats with full lungs.",
  check = "trim check at the surface in everything worn", often = "each change of costume",
  who = "diving supervisor",
  changes = {
    { fact = "immersion.lift-lungs-full", at_least = "5 N" },
  },
  source = "common practice",
}

control {
  id = "landing-stage", title = "Stage at water level", kind = "engineering",
  say = "Put a stage just under the surface where the soaked costume is taken off.",
  check = "load test", often = "before the first day", who = "rigging supervisor",
  changes = {
    { fact = "deck.landing-platform", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "breakaway-parts", title = "Trailing parts tear off", kind = "engineering",
  say = "Fix trains, hair and wires so that a light pull frees them.",
  check = "spring balance", often = "each costume", who = "costume supervisor",
  changes = {
    { fact = "appliance.breakaway", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "shorter-trailing", title = "Trailing parts cut short", kind = "elimination",
  say = "Cut trailing parts to under a hand's length.",
  check = "tape", often = "at the fitting", who = "costume supervisor",
  changes = {
    { fact = "appliance.trailing-length", at_most = "0.1 m" },
  },
  source = "common practice",
}

control {
  id = "snags-cleared", title = "Snags cleared from the set", kind = "elimination",
  say = "Clear nails, nets, cables and branches from where people swim.",
  check = "diver's hand over every edge", often = "each morning", who = "diving supervisor",
  changes = {
    { fact = "task.snag-points", becomes = "no" },
  },
  source = "common practice",
}

control {
  id = "dummy-for-held-shot", title = "Dummy in place of a held performer", kind = "elimination",
  say = "Use a dummy for every frame in which the person is held.",
  check = "on the shot list", often = "each set-up", who = "stunt coordinator",
  changes = {
    { fact = "immersion.restrained", becomes = "no" },
    { fact = "appliance.anchored", becomes = "no" },
  },
  source = "common practice",
}

control {
  id = "self-release", title = "Release in the performer's own hand", kind = "engineering",
  say = "Build the tie so that the performer lets go alone, blind, with one hand.",
  check = "released at depth with eyes shut", often = "before each session",
  who = "stunt coordinator",
  changes = {
    { fact = "immersion.self-release", becomes = "yes" },
    { fact = "appliance.release", becomes = "wearer" },
    { fact = "immersion.release-time", at_most = "3 s" },
    { fact = "appliance.release-time", at_most = "3 s" },
  },
  source = "common practice",
}

control {
  id = "shorter-preparation", title = "Less time in the chair", kind = "administrative",
  say = "Split the make-up, or dress a second performer, so that nobody sits longer than two " ..
    "and a half hours.",
  check = "call sheet", often = "each day", who = "make-up supervisor",
  changes = {
    { fact = "immersion.preparation-time", at_most = "2.5 h" },
    { fact = "appliance.wear-time", at_most = "5 h" },
  },
  source = "common practice",
}

control {
  id = "rehearsal-in-costume", title = "Rehearsal in everything worn", kind = "administrative",
  say = "Swim the action at depth in everything worn before the day.",
  check = "rehearsal record", often = "each change of costume", who = "assistant director",
  changes = {
    { fact = "appliance.rehearsed-in-water", becomes = "yes" },
    { fact = "person.skill-in-appliance", becomes = "yes" },
    { fact = "task.rehearsed-in-costume", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "own-stop-signal", title = "A signal of one's own that ends the take",
  kind = "administrative",
  say = "Agree a signal that is the performer's own; use it once at rehearsal.",
  check = "used at rehearsal", often = "each set-up", who = "diving supervisor",
  changes = {
    { fact = "immersion.withdrawal-signal", becomes = "yes" },
    { fact = "person.withdrawal-signal-taught", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "low-voltage-costume", title = "Battery of twelve volts or less in costumes",
  kind = "substitution",
  say = "Use sealed batteries of twelve volts or less in anything worn.",
  check = "label and meter", often = "each costume", who = "special effects supervisor",
  changes = {
    { fact = "appliance.battery-voltage", at_most = "12 V" },
  },
  source = "common practice",
}

control {
  id = "rinsed-and-dried", title = "Costume rinsed, disinfected and dried", kind = "administrative",
  say = "Rinse, disinfect and dry everything worn after each day.",
  check = "log", often = "each day", who = "costume supervisor",
  changes = {
    { fact = "appliance.dried-and-cleaned", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "swim-training", title = "Swimming trained in clothes like the task's",
  kind = "administrative",
  say = "Train swimming, in clothes like the task's, until the test is passed.",
  check = "watched swim test", often = "before the first day", who = "diving supervisor",
  changes = {
    { fact = "person.swim-distance", at_least = "100 m" },
    { fact = "person.swims-clothed", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "hidden-float", title = "Float hidden in the costume", kind = "engineering",
  say = "Sew a float into the costume that holds the head up.",
  check = "worn in the water before the day", often = "each costume", who = "costume supervisor",
  lowers = { likelihood = 1, severity = 0 },
  source = "common practice",
}

control {
  id = "staged-training", title = "Training in stages up to this tank", kind = "administrative",
  say = "Train in stages from shallow to this tank at the depth of the task.",
  check = "skills shown at depth, written down", often = "until shown here",
  who = "diving supervisor",
  changes = {
    { fact = "person.skill-place", becomes = "this-tank" },
    { fact = "person.skill-depth", at_least = "5 m" },
    { fact = "person.mouthpiece-drill", becomes = "passed" },
    { fact = "person.mask-clearing", becomes = "passed" },
  },
  source = "common practice",
}

control {
  id = "staged-exposure", title = "Fear met in small steps, alone", kind = "administrative",
  say = "Let the person meet the water in small steps, alone with the diver; stop at their word.",
  check = "talk alone before each step", often = "each step", who = "diving supervisor",
  lowers = { likelihood = 1, severity = 0 },
  source = "common practice",
}

control {
  id = "diving-doctor", title = "Examination by a diving doctor", kind = "administrative",
  say = "Have everyone who breathes or holds breath under water examined by a diving doctor.",
  check = "certificate seen", often = "each year", who = "production manager",
  changes = {
    { fact = "person.medical", becomes = "diving-doctor" },
    { fact = "person.conditions-cleared", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "health-asked", title = "Health asked each morning", kind = "administrative",
  say = "Ask everyone alone each morning: cold, wounds, stomach, alcohol, sleep.",
  check = "sheet", often = "each day", who = "set medic",
  changes = {
    { fact = "day.health-asked", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "chaperone-in-sight", title = "Chaperone who sees the child throughout",
  kind = "administrative",
  say = "Stand where you see the child, and can stop the take.",
  check = "seen", often = "each take", who = "chaperone",
  changes = {
    { fact = "task.chaperone-in-sight", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "own-diver", title = "One diver for one performer", kind = "administrative",
  say = "Give each performer a safety diver who watches nobody else.",
  check = "call sheet", often = "each set-up", who = "diving supervisor",
  changes = {
    { fact = "immersion.own-safety-diver", becomes = "yes" },
    { fact = "task.safety-divers", at_least = "4" },
  },
  source = "common practice",
}

control {
  id = "stunt-performer", title = "Stunt performer for the action", kind = "substitution",
  say = "Give the action to a graded stunt performer.",
  check = "register", often = "each set-up", who = "stunt coordinator",
  changes = {
    { fact = "person.stunt-grade", becomes = "graded" },
  },
  source = "common practice",
}

control {
  id = "stunt-double", title = "Grown, trained double for the shot", kind = "substitution",
  say = "Shoot the wet part with a grown, trained double.",
  check = "call sheet", often = "each set-up", who = "stunt coordinator",
  changes = {
    { fact = "immersion.age", at_least = "18 year" },
    { fact = "person.stunt-grade", becomes = "graded" },
    { fact = "person.skill-place", becomes = "this-tank" },
    { fact = "immersion.first-time", becomes = "no" },
  },
  source = "common practice",
}

control {
  id = "signal-drill", title = "Signals drilled in the water", kind = "administrative",
  say = "Drill every signal in the water, in a language or by hands all understand.",
  check = "each person gives and answers each signal", often = "each day",
  who = "diving supervisor",
  changes = {
    { fact = "person.understands-calls", becomes = "yes" },
    { fact = "task.common-language", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "no-guests", title = "No guests in the water", kind = "elimination",
  say = "Keep visitors, press and guests out of the water.",
  check = "call sheet", often = "each day", who = "production manager",
  changes = {
    { fact = "task.visitors-in-water", at_most = "0" },
  },
  source = "common practice",
}

control {
  id = "guest-terms", title = "Guests only where they can stand, each with an escort",
  kind = "engineering",
  say = "Take a guest in only where they can stand, with one escort each, after training that day.",
  check = "seen", often = "each guest", who = "diving supervisor",
  changes = {
    { fact = "immersion.can-stand", becomes = "yes" },
    { fact = "immersion.escorted", becomes = "yes" },
    { fact = "immersion.trained-that-day", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "appoint-supervisor", title = "One supervisor with no other job", kind = "administrative",
  say = "Name one supervisor, at the water, with no other job.",
  check = "call sheet", often = "each day", who = "production manager",
  changes = {
    { fact = "task.supervisor-named", becomes = "yes" },
    { fact = "task.supervisor-at-water", becomes = "yes" },
    { fact = "task.supervisor-other-duties", becomes = "no" },
  },
  source = "common practice",
}

control {
  id = "standby-diver", title = "Standby diver dressed in", kind = "administrative",
  say = "Sit a standby diver at the edge, dressed in, with no other job.",
  check = "timed from the word into the water", often = "each day", who = "diving supervisor",
  changes = {
    { fact = "task.standby-divers", at_least = "1" },
    { fact = "post.dressed-in", becomes = "yes" },
    { fact = "post.ready-time", at_most = "15 s" },
  },
  source = "common practice",
}

control {
  id = "more-safety-divers", title = "More safety divers", kind = "administrative",
  say = "Put one safety diver in the water for each performer under it.",
  check = "call sheet", often = "each set-up", who = "diving supervisor",
  changes = {
    { fact = "task.safety-divers", at_least = "4" },
  },
  source = "common practice",
}

control {
  id = "divers-in-contrast", title = "Divers in a colour that stands out", kind = "substitution",
  say = "Dress safety divers in a colour that stands out from set and keying colour.",
  check = "seen under water through the performer's eyes", often = "each set",
  who = "diving supervisor",
  changes = {
    { fact = "task.diver-contrast", becomes = "strong" },
  },
  source = "common practice",
}

control {
  id = "lit-gas-point", title = "Light at the place where gas is given", kind = "engineering",
  say = "Put a light that the performer sees at the place where gas is given.",
  check = "swum to blind of everything else", often = "each set-up", who = "diving supervisor",
  changes = {
    { fact = "task.lit-marker", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "lifeguard", title = "Lifeguard at the surface", kind = "administrative",
  say = "Stand a lifeguard where all of the water is seen.",
  check = "scan timed", often = "each session", who = "safety officer",
  changes = {
    { fact = "task.lifeguards", at_least = "1" },
  },
  source = "common practice",
}

control {
  id = "medic-at-water", title = "Medic at the water", kind = "administrative",
  say = "Keep a medic at the water whenever people are in.",
  check = "call sheet", often = "each day", who = "production manager",
  changes = {
    { fact = "emergency.medic-on-site", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "recall-signals", title = "Two kinds of recall, tested each morning", kind = "engineering",
  say = "Give the recall by sound, light and touch; test each in the morning.",
  check = "everyone in the water answers", often = "each morning", who = "diving supervisor",
  lowers = { likelihood = 1, severity = 0 },
  source = "common practice",
}

control {
  id = "one-voice", title = "One voice under water; anyone may stop", kind = "administrative",
  say = "One named voice calls; anyone may give the stop.",
  check = "said aloud at the briefing", often = "each day", who = "assistant director",
  changes = {
    { fact = "task.one-voice", becomes = "yes" },
    { fact = "task.anyone-can-stop", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "one-post-one-person", title = "One person, one post", kind = "administrative",
  say = "Give every post a person with no other job.",
  check = "call sheet against the posts", often = "each set-up", who = "diving supervisor",
  changes = {
    { fact = "post.other-duties", becomes = "no" },
  },
  source = "common practice",
}

control {
  id = "tally-board", title = "Heads counted on a board", kind = "administrative",
  say = "Count everyone in and out on a board; call the count aloud.",
  check = "board against heads", often = "every ten minutes", who = "safety officer",
  changes = {
    { fact = "task.head-counted", becomes = "yes" },
    { fact = "task.count-interval", at_most = "10 min" },
  },
  source = "common practice",
}

control {
  id = "post-relief", title = "Watch posts relieved", kind = "administrative",
  say = "Relieve every watcher at least each half hour.",
  check = "roster", often = "each half hour", who = "diving supervisor",
  changes = {
    { fact = "post.relief-interval", at_most = "30 min" },
  },
  source = "common practice",
}

control {
  id = "clear-view", title = "View of the bottom without glare", kind = "engineering",
  say = "Move the post, the lamps or the screen until the bottom is seen.",
  check = "a plate on the bottom is read", often = "each set-up", who = "diving supervisor",
  changes = {
    { fact = "post.view-clear", becomes = "yes" },
    { fact = "task.seen-from-surface", becomes = "yes" },
  },
  source = "common practice",
}
