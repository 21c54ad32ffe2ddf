-- The dry chamber as a structure in the water: anchors, electricity, ways out.

rule {
  id = "air.chamber-uplift",
  title = "The dry chamber tears off its anchors",
  each = "chamber",
  harm = "everyone in and above the chamber: thrown up, crushed, air lost at once",
  sources = { "Archimedes: calc.buoyancy",
    "common practice: anchors with a working load of twice the lift of the full air space" },
  assess = function(c)
    local density = calc.water_density(c.site.water.temperature, q"0 g/kg")
    local lift = calc.buoyancy(c.volume, density)
    if c.uplift_rating < lift then
      stop { because = "the air lifts with {lift}, the anchors are rated for {c.uplift_rating}",
        values = { lift = lift },
        controls = { "chamber-anchors" } }
    end
    hazard {
      likelihood = scale.reserve(c.uplift_rating, lift * 2 / 3), severity = 5,
      because = "the air lifts with {lift}, the anchors are rated for {c.uplift_rating}",
        values = { lift = lift },
      controls = { "chamber-anchors" }, who = "everyone in and above the chamber",
    }
  end,
  reasoning = "a rating already holds the maker's factor: twice the lift counts as a reserve of three",
  examples = (function()
    local like = example.like
    local base = { volume = "6 m3", uplift_rating = "300 kN", ["site.water.temperature"] = "28 degC" }
    return example.join { {
      { "five times the lift", given = base, expect = hazard { likelihood = 1, severity = 5 } },
      { "one and a half times", given = like(base, { uplift_rating = "90 kN" }),
        expect = hazard { likelihood = 2, severity = 5 } },
      { "barely", given = like(base, { uplift_rating = "70 kN" }),
        expect = hazard { likelihood = 3, severity = 5 } },
      { "not enough", given = like(base, { uplift_rating = "40 kN" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
      { "not rated", given = like(base, { uplift_rating = "?" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
      { "anchored", given = like(base, { uplift_rating = "40 kN" }), with = { "chamber-anchors" },
        expect = hazard { likelihood = 1, severity = 5 } },
    },
      -- the lift of 6 m3 is 58.6 kN: twice it, 4/3 of it and just that
      example.edges(base, "uplift_rating", 5,
        { "118.5 kN", 1, "116 kN", 2, "79 kN", 2, "77.4 kN", 3, "59.2 kN", 3,
          "58 kN", { stop {}, hazard { likelihood = 4, severity = 5 } } }),
    }
  end)(),
}

rule {
  id = "air.chamber-electricity",
  title = "Voltage in the dry chamber",
  each = "chamber",
  harm = "everyone in the chamber: electric shock, wet through",
  sources = { "BS 7671 section 702, IEC 60364-7-702, zone 0: at most 12 V AC or 30 V DC, source outside the zones" },
  when = function(c) return c.voltage > q"0 V" end,
  assess = function(c)
    if c.voltage > q"30 V" then
      stop { because = "{c.voltage} where people are wet and enclosed: above 30 V",
        controls = { "chamber-low-voltage" } }
    end
    hazard {
      likelihood = scale.limit(c.voltage, q"12 V", q"15 V", q"24 V", q"30 V"), severity = 5,
      because = "{c.voltage} where people are wet and enclosed", controls = { "chamber-low-voltage" },
      who = "everyone in the chamber",
    }
  end,
  examples = example.join { {
    { "nothing electric", given = { voltage = "0 V" }, expect = nothing },
    { "12 V", given = { voltage = "12 V" }, expect = hazard { likelihood = 1, severity = 5 } },
    { "24 V", given = { voltage = "24 V" }, expect = hazard { likelihood = 3, severity = 5 } },
    { "mains", given = { voltage = "230 V" },
      expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "not known", given = { voltage = "?" },
      expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "12 V instead", given = { voltage = "48 V" }, with = { "chamber-low-voltage" },
      expect = hazard { likelihood = 1, severity = 5 } },
  },
    example.edges({}, "voltage", 5,
      { "12 V", 1, "12.3 V", 2, "15 V", 2, "15.3 V", 3, "24 V", 3, "24.5 V", 4, "30 V", 4,
        "31 V", { stop {}, hazard { likelihood = 5, severity = 5 } } }),
  },
}

rule {
  id = "air.chamber-exits",
  title = "Ways out of the dry chamber",
  each = "chamber",
  harm = "everyone in the chamber: held up at the one way out, or shut in",
  sources = { "common practice: two ways out, 0.8 m wide for somebody in costume; one is enough for one or two people with an attendant" },
  reasoning = "a mouthpiece for each keeps those who wait for the way out breathing: severity 3; without, 5",
  assess = function(c)
    local two = c.exits >= 2
    local wide = c.exit_width >= q"0.8 m"
    local few = c.occupants <= 2 and c.attendant
    local narrow = c.exit_width < q"0.6 m"
    hazard {
      likelihood = scale.protection(scale.missing, { two, wide, few },
        { narrow, c.occupants > 4 and not two }),
      severity = c.standby_mouthpieces >= c.occupants and 3 or 5,
      because = "{c.occupants} people, {c.exits} way(s) out of {c.exit_width}",
      controls = { "chamber-second-exit", "chamber-fewer-people", "chamber-standby-air",
        "chamber-attendant" },
      who = "everyone in the chamber",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { exits = "2", exit_width = "0.9 m", occupants = "3", attendant = "yes",
      standby_mouthpieces = "4" }
    return example.join { {
      { "two wide ones", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "one, two people with a diver", given = like(base, { exits = "1", occupants = "2" }),
        expect = hazard { likelihood = 1, severity = 3 } },
      { "one, narrow", given = like(base, { exits = "1", exit_width = "0.5 m" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "one, narrow, crowded, no mouthpieces",
        given = like(base, { exits = "1", exit_width = "0.5 m", occupants = "6",
        standby_mouthpieces = "0" }), expect = hazard { likelihood = 5, severity = 5 } },
      { "width not known", given = like(base, { exit_width = "?" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "second way out", given = like(base, { exits = "1", exit_width = "0.5 m" }),
        with = { "chamber-second-exit" },
        expect = hazard { likelihood = 1, severity = 3 } },
    },
      example.edges(base, "exit_width", 3, { "0.8 m", 1, "0.79 m", 2, "0.6 m", 2, "0.59 m", 3 }),
      example.edges(like(base, { exits = "1", standby_mouthpieces = "6" }), "occupants", 3, { "4", 2, "5", 3 }),
      example.edges(like(base, { exits = "1", occupants = "2" }), "attendant", 3, { "yes", 1, "no", 2 }),
    }
  end)(),
}
