-- Other federal law that wet work meets: the general duty, protective equipment, confined
-- spaces, electricity by pools, falls, water below, noise, children.

rule {
  id = "us-fed.work.general-duty",
  title = "Free from recognised hazards",
  each = "production",
  harm = "everyone at work: killed or badly hurt by what was known",
  sources = { "Occupational Safety and Health Act 1970 s.5(a)(1), 29 USC 654(a)(1) (from memory)" },
  assess = function ()
    duty { met = nil, instrument = "Occupational Safety and Health Act 1970", section = "s.5(a)(1)",
      evidence = "each finding above the line, signed by who decided on it",
      because = "every finding of this assessment is a recognised hazard from now on; whether what " ..
        "can be done has been done is for a competent person to say" }
  end,
  examples = law.cases({}, { { "always asked", {}, "open" } }),
}

rule {
  id = "us-fed.work.protective-equipment",
  title = "Written certificate of the hazard assessment for protective equipment",
  each = "production",
  harm = "crew and performers: the wrong equipment, or none",
  sources = { "29 CFR 1910.132(d)(1)-(2): names the workplace, who certifies and the dates, and says " ..
    "that it is a certification of hazard assessment" },
  assess = function (p)
    duty { met = p.ppe_assessment_signed, instrument = "OSHA standard 29 CFR 1910.132", section = "(d)",
      evidence = "the certificate",
      because = "signed and dated: {ppe_assessment_signed}" }
  end,
  examples = law.needs({}, { "ppe_assessment_signed" }),
}

rule {
  id = "us-fed.work.confined-space",
  title = "Entry to a confined space",
  each = "site",
  harm = "crew in an enclosed set, void or chamber: gas or no air",
  sources = { "29 CFR 1910.146(b): oxygen below 19.5 %", "29 CFR 1910.146(b): above 23.5 %; entry by " ..
    "permit, 1910.146(c)-(e) (from memory)" },
  when = function (s) return s.confined_space end,
  assess = function (s)
    local air = s.air.oxygen >= q"19.5 %" and s.air.oxygen <= q"23.5 %"
    duty { met = s.confined_space_permit and air, instrument = "OSHA standard 29 CFR 1910.146",
      section = "(b) to (e)", evidence = "the permit, with the readings on it",
      because = "entry by permit: {confined_space_permit}; oxygen {air.oxygen} where 19.5 to 23.5 % " ..
        "is asked for",
      controls = { "entry-permit" } }
  end,
  examples = law.cases({ confined_space = "yes", confined_space_permit = "yes",
      ["air.oxygen"] = "19.5 %" }, {
    { "by permit, just enough oxygen", {}, true },
    { "too little", { ["air.oxygen"] = "19.4 %" }, false },
    { "as much as may be", { ["air.oxygen"] = "23.5 %" }, true },
    { "too much", { ["air.oxygen"] = "23.6 %" }, false },
    { "no permit", { confined_space_permit = "no" }, false },
    { "permit not known", { confined_space_permit = "?" }, false },
    { "open place", { confined_space = "no" }, "none" },
  }),
}

rule {
  id = "us-fed.work.electricity",
  title = "Electricity in and beside a pool or tank",
  each = "site",
  harm = "anyone in or beside the water: electric shock",
  sources = { "NFPA 70 (NEC) 680.22: within 20 ft of the water behind a ground-fault interrupter; no " ..
    "luminaire within 5 ft unless 12 ft above the water",
    "NEC 680.2: 15 V AC, 30 V DC; UL 943: trips at 4 to 6 mA (from memory)" },
  when = function (s) return waters.treated(s) end,
  assess = function (s)
    local p = s.power
    local interrupter = p.rcd and p.rcd_current <= q"6 mA"
    local inside = p.ac_voltage_in_water <= q"15 V" and p.dc_voltage_in_water <= q"30 V"
    local beside = p.nearest_mains > q"20 ft" or (p.nearest_mains >= q"5 ft" and interrupter)
    duty { met = inside and beside, instrument = "NFPA 70, National Electrical Code",
      section = "article 680", evidence = "the electrician's certificate for this set-up",
      because = "{power.ac_voltage_in_water} AC and {power.dc_voltage_in_water} DC in the water; " ..
        "mains {power.nearest_mains} away, ground-fault interrupter: {power.rcd}, " ..
          "{power.rcd_current}; the code as the state or city has adopted it decides",
      controls = { "battery-in-water", "mains-moved-back" } }
  end,
  examples = law.cases({ water_body = "tank", ["power.ac_voltage_in_water"] = "15 V",
      ["power.dc_voltage_in_water"] = "30 V", ["power.rcd"] = "yes", ["power.rcd_current"] = "6 mA",
      ["power.nearest_mains"] = "5 ft" }, {
    { "at every limit", {}, true },
    { "too much alternating", { ["power.ac_voltage_in_water"] = "16 V" }, false },
    { "too much direct", { ["power.dc_voltage_in_water"] = "31 V" }, false },
    { "too near", { ["power.nearest_mains"] = "4.9 ft" }, false },
    { "coarse interrupter", { ["power.rcd_current"] = "6.3 mA" }, false },
    { "none", { ["power.rcd"] = "no" }, false },
    { "not known", { ["power.rcd"] = "?" }, false },
    { "none, 20 ft away", { ["power.rcd"] = "no", ["power.nearest_mains"] = "20 ft" }, false },
    { "none, farther", { ["power.rcd"] = "no", ["power.nearest_mains"] = "21 ft" }, true },
    { "a lake", { water_body = "lake" }, "none" },
  }),
}

rule {
  id = "us-fed.work.edge",
  title = "Falls from edges of four feet and more",
  each = "site",
  harm = "crew at an edge: a fall, or a fall and then water",
  sources = { "29 CFR 1910.29(b)(1): top rail 42 in, 3 in more or less",
    "29 CFR 1910.28(b): from 4 ft, over water too (from memory)" },
  when = function (s) return s.deck.edge_height >= q"4 ft" end,
  assess = function (s)
    duty { met = s.deck.guard_height >= q"39 in" or s.deck.edge_harness,
      instrument = "OSHA standard 29 CFR 1910 subpart D", section = "§ 1910.28(b) and 1910.29(b)",
      evidence = "the edge as seen on the day",
      because = "drop of {deck.edge_height}, guard rail {deck.guard_height} where 39 in is the " ..
        "least, harness worn and clipped on: {deck.edge_harness}",
      controls = { "guard-rail", "edge-harness" } }
  end,
  examples = law.cases({ ["deck.edge_height"] = "4 ft", ["deck.guard_height"] = "39 in",
      ["deck.edge_harness"] = "no" }, {
    { "guarded", {}, true },
    { "low rail", { ["deck.guard_height"] = "38.5 in" }, false },
    { "harness instead", { ["deck.guard_height"] = "0 in", ["deck.edge_harness"] = "yes" }, true },
    { "rail not known", { ["deck.guard_height"] = "?" }, false },
    { "a lower edge", { ["deck.edge_height"] = "3.9 ft", ["deck.guard_height"] = "0 in" }, "none" },
  }),
}

rule {
  id = "us-fed.work.over-water",
  title = "Crew over water: life jackets, ring buoys, a skiff",
  each = "task",
  harm = "crew: fall in and drown",
  sources = { "29 CFR 1926.106: life jackets; ring buoys with at least 90 ft of line, at most 200 ft " ..
    "apart; a lifesaving skiff; OSHA letter of 10 December 1998: whatever the fall protection. " ..
      "Building a set can be construction" },
  when = function (t) return t.over_water_work end,
  assess = function (t)
    local deck = t.site.deck
    local skiff = waters.treated(t.site) or t.site.openwater.rescue_boat
    duty { met = t.life_jackets and deck.ring_buoy_line >= q"90 ft"
        and deck.ring_buoy_spacing <= q"200 ft" and skiff,
      instrument = "OSHA standard 29 CFR 1926.106", section = "(a) to (d)",
      evidence = "jackets, buoys and boat seen on the day",
      because = "life jackets: {life_jackets}; ring buoys {site.deck.ring_buoy_spacing} apart with " ..
        "{site.deck.ring_buoy_line} of line; rescue boat: {site.openwater.rescue_boat}",
      controls = { "life-jackets", "rescue-boat" } }
  end,
  examples = law.cases({ over_water_work = "yes", life_jackets = "yes",
      ["site.deck.ring_buoy_line"] = "90 ft", ["site.deck.ring_buoy_spacing"] = "200 ft",
      ["site.water_body"] = "lake", ["site.openwater.rescue_boat"] = "yes" }, {
    { "all there", {}, true },
    { "no jackets", { life_jackets = "no" }, false },
    { "jackets not known", { life_jackets = "?" }, false },
    { "short line", { ["site.deck.ring_buoy_line"] = "89 ft" }, false },
    { "too far apart", { ["site.deck.ring_buoy_spacing"] = "205 ft" }, false },
    { "no boat", { ["site.openwater.rescue_boat"] = "no" }, false },
    { "no boat on a tank", { ["site.openwater.rescue_boat"] = "no", ["site.water_body"] = "tank" },
      true },
    { "nobody over it", { over_water_work = "no" }, "none" },
  }),
}

rule {
  id = "us-fed.work.noise",
  title = "Noise above 90 dB(A)",
  each = "rig",
  harm = "everyone near it: hearing loss",
  sources = { "29 CFR 1910.95 table G-16: 90 dB(A) for 8 h, 115 dB(A) for a quarter of an hour, " ..
    "nothing above" },
  when = function (r) return r.noise > q"90 dBA" and r.kind ~= "pyrotechnics" end,
  assess = function (r)
    local shown
    if r.noise > q"115 dBA" then shown = false end
    duty { met = shown, instrument = "OSHA standard 29 CFR 1910.95", section = "(b) and table G-16",
      evidence = "a measured day, or the hearing protection issued",
      because = "{noise} at the nearest person: the table sets how long that may last, " ..
        "and ends at 115 dB(A)",
      controls = { "quieter-machine" } }
  end,
  examples = law.cases({}, {
    { "at the value", { noise = "90 dBA" }, "none" },
    { "above it", { noise = "90.5 dBA" }, "open" },
    { "the end of the table", { noise = "115 dBA" }, "open" },
    { "beyond", { noise = "116 dBA" }, false },
    { "a bang", { kind = "pyrotechnics", noise = "116 dBA" }, "none" },
    { "not measured", { noise = "?" }, false },
  }),
}

rule {
  id = "us-fed.work.child-labour",
  title = "Children who work and are not seen performing",
  each = "person-day",
  harm = "children: work that only performing is exempt from",
  sources = { "29 CFR 570.125, 29 USC 213(c)(3): only those who perform are exempt, not stand-ins " ..
    "unseen or technicians", "29 CFR 570.2: the child labour rules end at 18 (from memory)" },
  when = function (pd) return pd.age < q"18 year" and pd.person.role ~= "performer" end,
  assess = function (pd)
    duty { met = nil, instrument = "Child labor regulations, 29 CFR part 570", section = "§ 570.125",
      evidence = "advice of counsel, in writing",
      because = "a {person.role} of {age} in the water: the exemption covers performing only, so the " ..
        "federal limits on age, hours and hazardous work have to be looked at" }
  end,
  examples = law.cases({ age = "17.9 year", ["person.role"] = "stand-in" }, {
    { "a young double", {}, "open" },
    { "a young performer", { ["person.role"] = "performer" }, "none" },
    { "eighteen", { age = "18 year" }, "none" },
    { "age not known", { age = "?" }, "open" },
  }),
}
