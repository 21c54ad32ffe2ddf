-- Controls for the tank, the set, access, loads, power and machines.

control {
  id = "shallower-set", title = "Shallower set", kind = "substitution",
  say = "Build the set where the water is no deeper than a rescuer reaches.",
  check = "sounding line", often = "when the set is placed", who = "production manager",
  changes = {
    { fact = "immersion.depth", at_most = "2 m" },
    { fact = "task.air-distance", at_most = "2 m" },
  },
  source = "common practice",
}

control {
  id = "escape-holes", title = "Holes cut in the set", kind = "engineering",
  say = "Cut holes or hang panels so that air is never farther than three metres.",
  check = "tape under water, swum blind", often = "each set", who = "rigging supervisor",
  changes = {
    { fact = "task.escape-panels", becomes = "yes" },
    { fact = "task.air-distance", at_most = "3 m" },
    { fact = "task.passage-width", at_least = "0.8 m" },
  },
  source = "common practice",
}

control {
  id = "air-pocket", title = "Gas point in the set", kind = "engineering",
  say = "Fix a gas point in the set within reach of the action.",
  check = "breathed from at depth", often = "before each session", who = "diving supervisor",
  changes = {
    { fact = "task.air-pocket", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "guide-line", title = "Line to air, followed blind", kind = "engineering",
  say = "Lay a line to air; everyone follows it once with eyes shut.",
  check = "followed blind", often = "each person, each set", who = "diving supervisor",
  changes = {
    { fact = "task.guide-line", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "more-ladders", title = "More ways out", kind = "engineering",
  say = "Add ladders until nobody swims more than ten metres to one, reaching well under the " ..
    "surface.",
  check = "counted, tape", often = "when the set is placed", who = "site manager",
  changes = {
    { fact = "basin.exits", at_least = "3" },
    { fact = "basin.exit-spacing", at_most = "10 m" },
    { fact = "deck.ladder-depth", at_least = "1 m" },
    { fact = "deck.landing-platform", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "stretcher-exit", title = "Way out for somebody lying flat", kind = "engineering",
  say = "Keep a way out where a person lying flat is lifted out.",
  check = "tried with a person on the board", often = "each set", who = "safety officer",
  changes = {
    { fact = "deck.stretcher-exit", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "slip-mats-and-drains", title = "Mats and drains on wet ways", kind = "engineering",
  say = "Lay drained mats on every wet way and step.",
  check = "pendulum test, wet", often = "before the first day and each week", who = "site manager",
  changes = {
    { fact = "deck.mats-or-drains", becomes = "yes" },
    { fact = "deck.slip-value", at_least = "36" },
  },
  source = "common practice",
}

control {
  id = "clear-walkways", title = "Walkways kept clear and lit", kind = "administrative",
  say = "Keep cables, rails and gear off the ways; light them through the take.",
  check = "walked by the assistant director", often = "each set-up", who = "assistant director",
  changes = {
    { fact = "deck.trip-free", becomes = "yes" },
    { fact = "deck.light-level", at_least = "50 lux" },
  },
  source = "common practice",
}

control {
  id = "guard-rail", title = "Guard rail at working edges", kind = "engineering",
  say = "Put a rail of at least 0.95 m with a middle rail and toe-board at every working edge.",
  check = "tape, push", often = "each day", who = "rigging supervisor",
  changes = {
    { fact = "deck.guard-height", at_least = "1 m" },
    { fact = "deck.toe-boards", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "edge-harness", title = "Harness, clipped on", kind = "ppe",
  say = "Wear a harness and clip on wherever the rail is open.",
  check = "buddy check", often = "each time", who = "rigging supervisor",
  changes = {
    { fact = "deck.edge-harness", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "life-jackets", title = "Life jackets over deep water", kind = "ppe",
  say = "Wear a life jacket when working over or at the edge of deep water.",
  check = "pull and light checked", often = "each day", who = "safety officer",
  changes = {
    { fact = "task.life-jackets", becomes = "yes" },
    { fact = "deck.edge-life-jackets", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "lower-jump", title = "Lower jump", kind = "substitution",
  say = "Bring the jump down to three metres or less; cut the rest together.",
  check = "tape", often = "each set-up", who = "stunt coordinator",
  changes = {
    { fact = "immersion.entry-height", at_most = "3 m" },
  },
  source = "common practice",
}

control {
  id = "deeper-landing", title = "Deeper, sounded landing", kind = "engineering",
  say = "Land only where the water has been sounded and is deep enough for the height.",
  check = "sounding line", often = "each set-up", who = "stunt coordinator",
  changes = {
    { fact = "task.landing-depth", at_least = "4.5 m" },
  },
  source = "common practice",
}

control {
  id = "landing-kept-clear", title = "Landing kept clear", kind = "administrative",
  say = "Nobody in the water within the landing; a spotter calls it clear.",
  check = "called aloud", often = "each take", who = "stunt coordinator",
  changes = {
    { fact = "task.people-below", becomes = "no" },
  },
  source = "common practice",
}

control {
  id = "engineer-signs", title = "Engineer signs the tank at this depth", kind = "engineering",
  say = "Fill only to the depth an engineer has signed, in stages, with a look at each.",
  check = "certificate seen, stages logged", often = "each filling", who = "structural engineer",
  changes = {
    { fact = "structure.engineer-signed", becomes = "yes" },
    { fact = "structure.filled-in-stages", becomes = "yes" },
    { fact = "structure.leak-alarm", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "lower-level", title = "Lower level of water", kind = "elimination",
  say = "Lower the water to the depth the tank, floor and window are rated for.",
  check = "gauge board", often = "each filling", who = "water technician",
  changes = {
    { fact = "basin.depth", at_most = "1 m" },
    { fact = "structure.window-top-depth", at_most = "0.2 m" },
  },
  source = "common practice",
}

control {
  id = "empty-while-filling", title = "Nobody in while the level changes", kind = "elimination",
  say = "Change the level only with everyone out; lock the valves while people are in.",
  check = "lock and tag", often = "each session", who = "water technician",
  changes = {
    { fact = "plant.level-change-while-occupied", becomes = "no" },
    { fact = "plant.level-lock-out", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "battery-in-water", title = "Battery lamps in the water", kind = "substitution",
  say = "Use only battery equipment of thirty volts direct current or less in the water.",
  check = "label and meter", often = "each item", who = "chief electrician",
  changes = {
    { fact = "power.source", becomes = "battery" },
    { fact = "power.ac-voltage-in-water", at_most = "0 V" },
    { fact = "power.dc-voltage-in-water", at_most = "24 V" },
    { fact = "power.hand-tools-in-water", becomes = "no" },
  },
  source = "common practice",
}

control {
  id = "mains-moved-back", title = "Mains moved back from the water", kind = "engineering",
  say = "Keep mains voltage at least 3.5 m from the water's edge and 2.5 m above it.",
  check = "tape", often = "each set-up", who = "chief electrician",
  changes = {
    { fact = "power.nearest-mains", at_least = "3.5 m" },
  },
  source = "common practice",
}

control {
  id = "rcd-30-ma", title = "Trip of 30 mA on every circuit in reach", kind = "engineering",
  say = "Put a 30 mA trip on every circuit that wet people can reach; test it each morning.",
  check = "tester, time written down", often = "each day", who = "chief electrician",
  changes = {
    { fact = "power.rcd", becomes = "yes" },
    { fact = "power.rcd-current", at_most = "30 mA" },
    { fact = "power.rcd-trip-time", at_most = "40 ms" },
  },
  source = "common practice",
}

control {
  id = "isolator-manned", title = "Somebody at the isolator", kind = "administrative",
  say = "Stand at the isolator through every take, hand on the switch.",
  check = "seen", often = "each take", who = "chief electrician",
  changes = {
    { fact = "power.isolator-manned", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "lamps-double-hung", title = "Lamps hung twice and guarded", kind = "engineering",
  say = "Hang every lamp over water from two points, with a guard against broken glass.",
  check = "seen and pulled", often = "each rig", who = "chief electrician",
  changes = {
    { fact = "power.lamps-secured", becomes = "yes" },
    { fact = "deck.toe-boards", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "lighter-deck", title = "Less load on the deck", kind = "elimination",
  say = "Take people, lamps and scenery off the deck until it stands under its rating.",
  check = "load list", often = "each set-up", who = "rigging supervisor",
  changes = {
    { fact = "deck.load", at_most = "1.5 kPa" },
  },
  source = "common practice",
}

control {
  id = "drained-load", title = "Load drained as it rises", kind = "engineering",
  say = "Drill drain holes; lift slowly through the surface with a load cell read aloud.",
  check = "trial lift", often = "each load", who = "rigging supervisor",
  changes = {
    { fact = "rig.drain-holes", becomes = "yes" },
    { fact = "rig.load-cell", becomes = "yes" },
    { fact = "rig.trapped-water", at_most = "10 L" },
  },
  source = "common practice",
}

control {
  id = "second-suspension", title = "Second, independent suspension", kind = "engineering",
  say = "Hang every load over people from a second, independent suspension.",
  check = "seen and logged", often = "each rig", who = "rigging supervisor",
  changes = {
    { fact = "rig.second-suspension", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "clear-path", title = "Nobody under or in the path", kind = "administrative",
  say = "Keep everyone out from under the load and out of the machine's path.",
  check = "spotter calls it clear", often = "each run", who = "rigging supervisor",
  changes = {
    { fact = "rig.exclusion-zone", becomes = "yes" },
    { fact = "rig.over-people", becomes = "no" },
  },
  source = "common practice",
}

control {
  id = "guards-on", title = "Guards on blades, jets and pinch points", kind = "engineering",
  say = "Keep guards on every blade, jet, hot part and pinch point.",
  check = "seen", often = "each start", who = "special effects supervisor",
  changes = {
    { fact = "rig.guarded", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "interlock-on-release", title = "Machine released by the diving supervisor",
  kind = "engineering",
  say = "Lock the machine until the diving supervisor releases it.",
  check = "tried before the first take", often = "each day", who = "special effects supervisor",
  changes = {
    { fact = "rig.interlock", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "dummy-run", title = "Run at full strength with a dummy", kind = "administrative",
  say = "Run the effect at full strength with a dummy before people.",
  check = "test record", often = "each change", who = "special effects supervisor",
  changes = {
    { fact = "rig.tested-with-dummy", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "catch-net", title = "Net that stops people being carried off", kind = "engineering",
  say = "Stretch a net or boom that stops people being carried away.",
  check = "loaded with a dummy", often = "each set-up", who = "stunt coordinator",
  changes = {
    { fact = "rig.catch-net", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "less-water", title = "Less water, slower", kind = "substitution",
  say = "Let go less water from less height.",
  check = "float and watch", often = "each change", who = "special effects supervisor",
  changes = {
    { fact = "rig.water-speed", at_most = "1 m/s" },
    { fact = "rig.water-depth", at_most = "0.3 m" },
    { fact = "rig.stream-area", at_most = "0.1 m2" },
  },
  source = "common practice",
}

control {
  id = "no-smoke-over-water", title = "No heavy gas over water", kind = "elimination",
  say = "Keep dry ice, carbon dioxide and nitrogen away from water with people in it.",
  check = "effects list", often = "each set-up", who = "special effects supervisor",
  changes = {
    { fact = "rig.agent", becomes = "none" },
  },
  source = "common practice",
}

control {
  id = "gas-monitor-at-water", title = "Gas measured at the surface of the water",
  kind = "engineering",
  say = "Hang a gas meter with an alarm a hand above the water.",
  check = "bump test", often = "each day", who = "special effects supervisor",
  changes = {
    { fact = "rig.gas-monitor", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "quieter-machine", title = "Quieter machine or ear protection", kind = "ppe",
  say = "Wear ear protection near the machine; give the recall by light.",
  check = "meter", often = "each day", who = "special effects supervisor",
  lowers = { likelihood = 1, severity = 0 },
  source = "common practice",
}

control {
  id = "nobody-in-for-charges", title = "Nobody in the water for a charge", kind = "elimination",
  say = "Fire no charge under or on the water while anybody is in it.",
  check = "head count before the key is handed over", often = "each charge",
  who = "special effects supervisor",
  changes = {
    { fact = "rig.charge-under-water", becomes = "no" },
  },
  source = "common practice",
}

control {
  id = "electric-drive", title = "Electric drive", kind = "substitution",
  say = "Use an electric engine, or lead the exhaust out of the building.",
  check = "carbon monoxide meter", often = "each session", who = "special effects supervisor",
  changes = {
    { fact = "rig.exhaust-outside", becomes = "yes" },
    { fact = "rig.drive", becomes = "electric" },
    { fact = "craft.engine", becomes = "electric" },
  },
  source = "common practice",
}

control {
  id = "propeller-guard", title = "Guarded propeller, kill cord worn", kind = "engineering",
  say = "Fit a guard or a jet; wear the kill cord whenever the engine runs.",
  check = "engine stopped by the cord", often = "each start", who = "boat master",
  changes = {
    { fact = "craft.propeller-guard", becomes = "yes" },
    { fact = "craft.kill-cord-worn", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "engine-off-near-swimmers", title = "Engine off near swimmers", kind = "administrative",
  say = "Stop the engine with people in the water within twenty metres; keep a lookout.",
  check = "seen", often = "each take", who = "boat master",
  changes = {
    { fact = "craft.swimmer-distance", at_least = "20 m" },
    { fact = "craft.lookout", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "lighter-boat", title = "Fewer people and less gear aboard", kind = "elimination",
  say = "Take people and gear off until the plate on the boat is kept.",
  check = "counted, weighed", often = "each trip", who = "boat master",
  changes = {
    { fact = "craft.aboard", at_most = "2" },
    { fact = "craft.load", at_most = "200 kg" },
  },
  source = "common practice",
}

control {
  id = "vehicle-made-ready", title = "Vehicle stripped, opened and fitted with gas",
  kind = "engineering",
  say = "Take out glass and fluids, open a second way out, fix gas within reach of every seat.",
  check = "each person leaves it blind under water", often = "before each session",
  who = "stunt coordinator",
  changes = {
    { fact = "craft.air-carried", becomes = "yes" },
    { fact = "craft.glass-removed", becomes = "yes" },
    { fact = "craft.fluids-drained", becomes = "yes" },
    { fact = "craft.exits", at_least = "2" },
    { fact = "craft.exit-width", at_least = "0.6 m" },
    { fact = "craft.recovery-line", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "animal-handler", title = "Handler with each animal", kind = "administrative",
  say = "Keep a handler at each animal with the means to part it from people.",
  check = "seen", often = "each take", who = "props master",
  changes = {
    { fact = "task.animal-handler", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "no-load-on-ice", title = "Nothing on the ice", kind = "elimination",
  say = "Keep people and gear off the ice.",
  check = "seen", often = "each day", who = "site manager",
  changes = {
    { fact = "openwater.ice-load", at_most = "0 kg" },
  },
  source = "common practice",
}

control {
  id = "shorter-hang", title = "Shorter time hanging", kind = "administrative",
  say = "Let people down after at most five minutes; three with the head down.",
  check = "stop-watch, called aloud", often = "each take", who = "stunt coordinator",
  changes = {
    { fact = "rig.hang-time", at_most = "3 min" },
  },
  source = "common practice",
}

control {
  id = "quick-lowering", title = "Quick way to the floor", kind = "engineering",
  say = "Rig so that a limp person is on the floor within twenty seconds.",
  check = "drill with a dummy", often = "each day", who = "rigging supervisor",
  changes = {
    { fact = "rig.lowering-time", at_most = "20 s" },
    { fact = "rig.spotters", at_least = "1" },
  },
  source = "common practice",
}

control {
  id = "entry-permit", title = "Entry by permit", kind = "administrative",
  say = "Enter the enclosed part only by permit, with a watcher outside and rescue ready.",
  check = "permit seen", often = "each entry", who = "safety officer",
  changes = {
    { fact = "site.confined-space-permit", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "tethered-prop", title = "Prop held by a rated tether", kind = "engineering",
  say = "Hold the prop by a tether of twice its greatest lift or weight in water.",
  check = "spring balance", often = "each session", who = "rigging supervisor",
  changes = {
    { fact = "prop.tethered", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "soft-prop", title = "Soft skin where it meets people", kind = "engineering",
  say = "Cover every hard or sharp part that can meet people.",
  check = "run over by hand", often = "each session", who = "props master",
  changes = {
    { fact = "prop.soft-skin", becomes = "yes" },
    { fact = "prop.sharp-edges", becomes = "no" },
  },
  source = "common practice",
}

control {
  id = "prop-without-electrics", title = "Prop driven by water or air", kind = "substitution",
  say = "Drive the prop by water or air; nothing electric inside it under water.",
  check = "drawing", often = "when it is built", who = "special effects supervisor",
  changes = {
    { fact = "prop.electrics-inside", becomes = "no" },
    { fact = "prop.drive", becomes = "water" },
    { fact = "prop.voltage", at_most = "0 V" },
  },
  source = "common practice",
}

control {
  id = "spotter-on-prop", title = "Operator sees everyone near the prop", kind = "administrative",
  say = "Move the prop only with everyone near it in sight, or a spotter on the line.",
  check = "seen", often = "each run", who = "special effects supervisor",
  changes = {
    { fact = "prop.operator-sees-people", becomes = "yes" },
  },
  source = "common practice",
}

control {
  id = "line-tended", title = "Line held from the surface", kind = "engineering",
  say = "Tie a line to each person in moving water, held by a tender.",
  check = "pull signals answered", often = "each session", who = "diving supervisor",
  changes = {
    { fact = "immersion.line-tended", becomes = "yes" },
  },
  source = "common practice",
}
