-- Cold: the first minutes, cooling in the water, hands, children, wet on deck.

local function insulated(i)
  return i.suit == "wetsuit" or i.suit == "drysuit"
end

local plan = {
  ["site.emergency.notice_time"] = "5 s", ["site.emergency.reach_time"] = "5 s",
  ["site.emergency.surface_time"] = "10 s", ["site.altitude"] = "0 m",
}

rule {
  id = "body.cold-shock",
  title = "The gasp on entering cold water",
  each = "immersion",
  harm = "anyone entering: gasps, breathes water in; heart trouble",
  sources = {
    "C. House, J. R. Nav. Med. Serv. 2017: cold shock from below 25 degC, greatest at 10 degC",
    "Transport Canada TP 13822 (2003): 3 to 5 min",
    "Giesbrecht: 1 min to gain control of breathing below 15 degC",
  },
  when = function(i) return i.site.water.temperature < q"25 degC" end,
  assess = function(i)
    local by_cold = scale.minimum(i.site.water.temperature, q"23 degC", q"20 degC", q"15 degC", q"10 degC")
    local sudden = not i.slow_entry
    local heart = i.person.heart_condition
    local surfaced = rescue.to_surface(i.site.emergency)
    hazard {
      likelihood = scale.protection(by_cold, { not sudden, insulated(i) }, { heart }),
      severity = heart and 5 or scale.without_air(surfaced),
      because = "water at {i.site.water.temperature}; face at the surface {surfaced} after trouble",
      values = { surfaced = surfaced },
      controls = { "warmer-water", "slow-entry", "suit-under-costume", "trained-double" },
      who = "1 person in the water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { ["site.water.temperature"] = "18 degC", slow_entry = "yes", suit = "wetsuit",
      ["person.heart_condition"] = "no" })
    return example.join { {
      { "warm water", given = like(base, { ["site.water.temperature"] = "28 degC" }), expect = nothing },
      { "cool, slow, in a suit", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "winter lake, jumps in", given = like(base,
        { ["site.water.temperature"] = "8 degC", slow_entry = "no",
        suit = "costume" }), expect = hazard { likelihood = 5, severity = 3 } },
      { "heart condition", given = like(base,
        { ["site.water.temperature"] = "16 degC", ["person.heart_condition"] = "yes" }),
        expect = hazard { likelihood = 2, severity = 5 } },
      { "temperature not known", given = like(base, { ["site.water.temperature"] = "?" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "water heated", given = like(base, { ["site.water.temperature"] = "12 degC" }),
        with = { "warmer-water" },
        expect = nothing },
      { "slow entry", given = like(base, { ["site.water.temperature"] = "12 degC", slow_entry = "no" }),
        with = { "slow-entry" }, expect = hazard { likelihood = 2, severity = 3 } },
    },
      example.edges(like(base, { slow_entry = "no", suit = "costume" }), "site.water.temperature", 3,
        { "25 degC", nothing, "24.8 degC", 1, "23 degC", 1, "22.8 degC", 2, "20 degC", 2, "19.8 degC", 3,
          "15 degC", 3, "14.8 degC", 4, "10 degC", 4, "9.8 degC", 5 }),
    }
  end)(),
}

-- How far the core of a near-naked adult would fall in a time. Those who were measured near-naked
-- were in water of 15 degC and more; colder water is never milder than that, though those who were
-- measured in it had clothes on.
local function bare_fall(water, effort, time)
  local measured = max(water, q"15 degC")
  local rate = effort == "rest" and calc.cooling_rate_rest(measured) or calc.cooling_rate_exercise(measured)
  if water < q"15 degC" then rate = max(rate, q"7 K" / calc.survival_time(water)) end
  return rate * time
end

-- How much longer a suit makes it last, as a factor.
local function suit_factor(i)
  if i.suit == "drysuit" then return 4 end
  if i.suit ~= "wetsuit" then return 1 end
  local surface = calc.air_pressure(i.site.altitude)
  local ambient = calc.ambient_pressure(i.depth, surface, q"1000 kg/m3")
  return 1 + calc.suit_insulation(i.neoprene, ambient, surface) / q"0.08 m2 K/W"
end

rule {
  id = "body.cooling",
  title = "Cooling while wet",
  each = "immersion",
  harm = "anyone in the water: shivering, clumsiness, hypothermia",
  sources = {
    "Fujishima et al., Appl. Human Sci. 1996: core cooling near-naked at 15 to 25 degC",
    "Hayward, Eckerson and Collis 1975: time to a core of 30 degC, clothed; used below 15 degC",
    "Swiss staging: hypothermia from a core of 35 degC, 2 K below normal",
    "DuBois and DuBois 1916: skin area; 264 cm2/kg for an adult of 70 kg and 1.75 m",
    "skin and tissue insulate with about 0.08 m2 K/W when cold (from memory); drysuit four times (common practice)",
  },
  reasoning = "half of the wet time counts where a robe and a warm place stand ready, but never less than the time "
    .. "under water",
  worst = { likelihood = 5, severity = 3 },
  when = function(i) return i.site.water.temperature < q"33 degC" end,
  assess = function(i)
    local water = i.site.water.temperature
    local wet = i.robe and max(i.time, i.wet_time / 2) or max(i.time, i.wet_time)
    local small = calc.surface_per_mass(i.person.mass, i.person.height) / q"0.0264 m2/kg"
    local fall = bare_fall(water, i.effort, wet) * max(small, 1) / suit_factor(i)
    local severity = 3
    if water >= q"25 degC" then severity = 2 end
    hazard {
      likelihood = scale.reserve(q"2 K", fall),
      severity = severity,
      because = "{wet} of cold at {i.site.water.temperature} would cool the core by {fall}; 2 K is hypothermia",
      values = { fall = fall, wet = wet },
      controls = { "warmer-water", "suit-under-costume", "shorter-wet-time", "robe-and-warm-room",
        "child-wet-time",
        "double-shares" },
      who = "1 person in the water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { ["site.water.temperature"] = "28 degC", time = "45 min",
      wet_time = "150 min", robe = "yes",
      effort = "light", suit = "none", neoprene = "0 mm", depth = "3 m", ["person.mass"] = "70 kg",
      ["person.height"] = "1.75 m" })
    return example.join { {
      { "body-warm water", given = like(base, { ["site.water.temperature"] = "34 degC" }),
        expect = nothing },
      { "a warm tank", given = base, expect = hazard { likelihood = 1, severity = 2 } },
      { "still and wet all day", given = like(base, { effort = "rest", wet_time = "300 min", robe = "no" }),
        expect = hazard { likelihood = 5, severity = 2 } },
      { "20 degC, bare", given = like(base, { ["site.water.temperature"] = "20 degC" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "20 degC in 5 mm", given = like(base,
        { ["site.water.temperature"] = "20 degC", suit = "wetsuit", neoprene = "5 mm" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "10 degC in a drysuit", given = like(base,
        { ["site.water.temperature"] = "10 degC", suit = "drysuit" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "a small child", given = like(base,
        { ["person.mass"] = "20 kg", ["person.height"] = "1.10 m", wet_time = "200 min" }),
        expect = hazard { likelihood = 2, severity = 2 } },
      { "temperature not known", given = like(base, { ["site.water.temperature"] = "?", effort = "rest" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "shorter", given = like(base, { ["site.water.temperature"] = "20 degC" }),
        with = { "shorter-wet-time" },
        expect = hazard { likelihood = 2, severity = 3 } },
    },
      example.edges(base, "site.water.temperature", 2,
        { "33 degC", nothing, "32.8 degC", 1, "25 degC", 2, "24.8 degC", hazard { likelihood = 2, severity = 3 } }),
      -- 1.234 K/h at 20 degC, half of the wet time: 2 K in 97 min
      example.edges(like(base, { ["site.water.temperature"] = "20 degC", time = "5 min" }), "wet_time", 3,
        { "64 min", 1, "66 min", 2, "96 min", 2, "99 min", 3, "128 min", 3, "131 min", 4, "175 min", 4, "179 min", 5 }),
      -- 0.354 K/h at 28 degC, 1.47 times for 388 cm2/kg of skin
      example.edges(like(base, { ["person.mass"] = "20 kg", ["person.height"] = "1.10 m" }), "wet_time", 2,
        { "152 min", 1, "156 min", 2 }),
      -- 1.784 K/h at 15 degC, and no less below; then 7 K in 177 min at 10 degC
      example.edges(like(base, { time = "5 min", wet_time = "66 min" }), "site.water.temperature", 3,
        { "15 degC", 2, "14 degC", 2 }),
      example.edges(like(base, { time = "5 min", wet_time = "68 min" }), "site.water.temperature", 3,
        { "15 degC", 3, "14 degC", 3 }),
      example.edges(like(base, { ["site.water.temperature"] = "10 degC", time = "5 min" }), "wet_time", 3,
        { "33 min", 1, "34.5 min", 2 }),
      -- 5 mm insulate with 0.0736 m2 K/W at 3 m, so 1.92 times as long; 7 mm with 0.0477 at 15 m: 1.60 times
      example.edges(like(base, { ["site.water.temperature"] = "20 degC", suit = "wetsuit", neoprene = "5 mm" }),
        "wet_time", 3, { "185 min", 2, "189 min", 3 }),
      example.edges(like(base, { ["site.water.temperature"] = "20 degC", suit = "wetsuit", neoprene = "7 mm",
        depth = "15 m" }), "wet_time", 3, { "154.5 min", 2, "156 min", 3 }),
      -- four times as long in a drysuit; a heavy body counts as no slower than an adult of 70 kg
      example.edges(like(base, { ["site.water.temperature"] = "10 degC", suit = "drysuit" }), "wet_time", 3,
        { "200 min", 2, "205 min", 3 }),
      example.edges(like(base, { ["site.water.temperature"] = "20 degC", time = "5 min", wet_time = "66 min" }),
        "person.mass", 3, { "70 kg", 2, "100 kg", 2 }),
    }
  end)(),
}

rule {
  id = "body.cold-hands",
  title = "Hands that no longer obey",
  each = "immersion",
  harm = "anyone in cold water: cannot hold mouthpiece, ladder or release",
  sources = {
    "Giesbrecht, 1-10-1: about 10 min of meaningful movement in cold water: calc.hand_function_time",
    "common practice: with a suit come gloves, and warm arms feed warm hands",
  },
  when = function(i) return i.site.water.temperature < q"15 degC" end,
  assess = function(i)
    local hands = calc.hand_function_time(i.site.water.temperature)
    local surfaced = rescue.to_surface(i.site.emergency)
    hazard {
      likelihood = scale.protection(scale.reserve(hands, i.time), { i.escorted, insulated(i) }),
      severity = scale.without_air(surfaced),
      because = "{i.time} in water at {i.site.water.temperature}, where bare hands obey for {hands}",
      values = { hands = hands, surfaced = surfaced },
      controls = { "warmer-water", "ascent-escort", "shorter-bottom-time", "trained-double" },
      who = "1 person in the water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { ["site.water.temperature"] = "10 degC", time = "3 min", escorted = "no",
      suit = "costume" })
    return example.join { {
      { "15 degC and warmer", given = like(base, { ["site.water.temperature"] = "16 degC" }),
        expect = nothing },
      { "a short dip", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "half an hour", given = like(base, { time = "30 min" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "half an hour in a drysuit", given = like(base, { time = "30 min", suit = "drysuit" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "half an hour, escorted", given = like(base, { time = "30 min" }), with = { "ascent-escort" },
        expect = hazard { likelihood = 4, severity = 3 } },
      { "time not known", given = like(base, { time = "?" }),
        expect = hazard { likelihood = 5, severity = 3 } },
    },
      example.edges(base, "site.water.temperature", 3, { "15 degC", nothing, "14.8 degC", 1 }),
    }
  end)(),
}

rule {
  id = "body.children-cool-faster",
  title = "Children cool faster than adults",
  each = "immersion",
  harm = "child: chilled before anyone else is, and does not say so",
  sources = {
    "DuBois: 352 cm2/kg of skin at 140 cm and 32 kg, 264 for an adult",
    "PWTAG technical note (Dec 2010): 28 to 30 degC for leisure, 27 to 29 degC for teaching",
    "common practice: time in the water scaled down with size",
  },
  when = function(i) return i.age < q"18 year" and i.site.water.temperature < q"32 degC" end,
  assess = function(i)
    local small = calc.surface_per_mass(i.person.mass, i.person.height)
    local much_skin = small > q"0.033 m2/kg"
    local by_warmth = scale.minimum(i.site.water.temperature, q"30 degC", q"29 degC", q"28 degC",
      q"25 degC")
    hazard {
      likelihood = scale.protection(by_warmth, { insulated(i), i.robe },
        { much_skin, i.wet_time > q"30 min" }),
      severity = 3,
      because = "{small} of skin, {i.wet_time} wet at {i.site.water.temperature}",
      values = { small = small },
      controls = { "warmer-water", "child-wet-time", "robe-and-warm-room", "suit-under-costume",
        "trained-double" },
      who = "1 child",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(plan, { ["person.born"] = "2015-03-01", ["day.date"] = "2027-03-09",
      ["person.mass"] = "32 kg",
      ["person.height"] = "1.40 m", ["site.water.temperature"] = "30 degC", wet_time = "60 min",
        robe = "yes", suit = "none" })
    return example.join { {
      { "an adult", given = like(base, { ["person.born"] = "1990-01-01" }), expect = nothing },
      { "body-warm water", given = like(base, { ["site.water.temperature"] = "33 degC" }),
        expect = nothing },
      { "warm, with a robe", given = base, expect = hazard { likelihood = 2, severity = 3 } },
      { "26 degC, no robe", given = like(base, { ["site.water.temperature"] = "26 degC", robe = "no" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "a tall sixteen-year-old, short time",
        given = like(base, { ["person.born"] = "2010-06-01", ["person.mass"] = "62 kg",
        ["person.height"] = "1.75 m", wet_time = "20 min" }),
          expect = hazard { likelihood = 1, severity = 3 } },
      { "age not known", given = like(base, { ["person.born"] = "?" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "time scaled down", given = base, with = { "child-wet-time" },
        expect = hazard { likelihood = 1, severity = 3 } },
    },
      example.edges(base, "person.born", 3, { "2009-03-09", nothing, "2009-03-10", 2 }),
      example.edges(like(base, { suit = "wetsuit" }), "site.water.temperature", 3,
        { "32 degC", nothing, "31.8 degC", 1, "30 degC", 1, "29.8 degC", 2, "29 degC", 2, "28.8 degC", 3,
          "28 degC", 3, "27.8 degC", 4, "25 degC", 4, "24.8 degC", 5 }),
      -- 330 cm2/kg at 1.40 m is 35.8 kg
      example.edges(base, "person.mass", 3, { "35.5 kg", 2, "36.2 kg", 1 }),
      example.edges(base, "wet_time", 3, { "30 min", 1, "31 min", 2 }),
    }
  end)(),
}

rule {
  id = "body.wet-on-deck",
  title = "Waiting wet on deck",
  each = "immersion",
  harm = "anyone out of the water: chilled by wind on wet skin",
  sources = {
    "wind chill, Environment Canada 2001: dry skin; wet skin is colder still",
    "Wallace et al. 2023: seated in light clothing at 0 degC, core fell 0.3 K after 20 min at the earliest",
    "common practice: robe, warm room, call order",
  },
  when = function(i) return i.deck_wait > q"2 min" and i.site.air.temperature < q"30 degC" end,
  assess = function(i)
    local air = i.site.air
    local felt = calc.wind_chill(air.temperature, air.wind)
    local by_cold = scale.minimum(felt, q"27 degC", q"23 degC", q"18 degC", q"10 degC")
    local near = i.site.warm_room_distance <= q"50 m"
    local severity = 2
    if felt < q"0 degC" then severity = 3 end
    hazard {
      likelihood = scale.protection(by_cold, { i.robe, near },
        { i.deck_wait > q"15 min", air.wind > q"3 m/s" }),
      severity = severity,
      because = "{i.deck_wait} wet on deck in air that feels like {felt} on dry skin",
      values = { felt = felt },
      controls = { "robe-and-warm-room", "call-order", "windbreak" },
      who = "1 person on deck",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { deck_wait = "10 min", robe = "yes", ["site.air.temperature"] = "24 degC",
      ["site.air.wind"] = "0.2 m/s",
      ["site.warm_room_distance"] = "20 m" }
    return example.join { {
      { "no wait", given = like(base, { deck_wait = "1 min" }), expect = nothing },
      { "hot air", given = like(base, { ["site.air.temperature"] = "32 degC" }), expect = nothing },
      { "warm studio, robe", given = base, expect = hazard { likelihood = 1, severity = 2 } },
      { "windy evening", given = like(base,
        { ["site.air.temperature"] = "14 degC", ["site.air.wind"] = "6 m/s",
        robe = "no", ["site.warm_room_distance"] = "300 m", deck_wait = "25 min" }),
        expect = hazard { likelihood = 5, severity = 2 } },
      { "frost", given = like(base, { ["site.air.temperature"] = "-2 degC", ["site.air.wind"] = "2 m/s" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "wait not known", given = like(base, { deck_wait = "?", ["site.air.temperature"] = "14 degC" }),
        expect = hazard { likelihood = 3, severity = 2 } },
      { "robe and warm room", given = like(base, { ["site.air.temperature"] = "14 degC", robe = "no",
        ["site.warm_room_distance"] = "300 m" }), with = { "robe-and-warm-room" },
        expect = hazard { likelihood = 2, severity = 2 } },
    },
      example.edges(base, "deck_wait", 2, { "2 min", nothing, "2.1 min", 1 }),
      example.edges(like(base, { robe = "no", ["site.warm_room_distance"] = "300 m" }), "site.air.temperature", 2,
        { "30 degC", nothing, "29.8 degC", 1, "27 degC", 1, "26.7 degC", 2, "23 degC", 2, "22.7 degC", 3,
          "18 degC", 3, "17.7 degC", 4, "10.1 degC", 4, "9.8 degC", 5 }),
      example.edges(like(base, { robe = "no", ["site.air.temperature"] = "18 degC" }), "site.warm_room_distance", 2,
        { "50 m", 2, "51 m", 3 }),
      example.edges(like(base, { robe = "no", ["site.warm_room_distance"] = "300 m" }), "deck_wait", 2,
        { "15 min", 2, "15.5 min", 3 }),
      example.edges(like(base, { robe = "no", ["site.warm_room_distance"] = "300 m" }), "site.air.wind", 2,
        { "3 m/s", 2, "3.1 m/s", 3 }),
    }
  end)(),
}
