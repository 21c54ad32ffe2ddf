-- Breathing: ears, the mouthpiece, and how many sources of gas are near.

rule {
  id = "air.ears",
  title = "Ears and sinuses on the way down",
  each = "immersion",
  harm = "performer or diver: ear or sinus injury",
  sources = {
    "Diving and Subaquatic Medicine: ears have to be cleared from about 25 cm of water",
    "Atlas of Emergency Medicine: the tube to the middle ear locks at about 1.2 m (4 ft)",
    "common practice: many short descents strain ears more than one long one",
  },
  when = function(i) return i.depth > q"1.2 m" end,
  assess = function(i)
    local blocked = i.congested
    if blocked then
      stop {
        discreet = true,
        because = "congested, and the descent goes below the depth at which a blocked ear locks",
        controls = { "congested-stay-dry" },
      }
    end
    local slow = i.descent_rate <= q"9 m/min"
    local used_to_it = i.person.dives >= 10
    local trouble = i.person.ear_trouble
    hazard {
      likelihood = scale.protection(scale.missing, { slow, used_to_it },
        { blocked, trouble, i.descents > 10 }),
      severity = trouble and 4 or 2,
      because = "{i.descents} descents to {i.depth} at {i.descent_rate}",
      controls = { "congested-stay-dry", "descent-line", "fewer-descents", "depth-cap" },
      who = "1 person under water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { depth = "3 m", congested = "no", descent_rate = "6 m/min", descents = "6",
      ["person.dives"] = "40", ["person.ear_trouble"] = "no" }
    return example.join { {
      { "shallow", given = like(base, { depth = "1 m" }), expect = nothing },
      { "slow, on a line", given = base, expect = hazard { likelihood = 1, severity = 2 } },
      { "fast, many, new to it", given = like(base,
        { descent_rate = "20 m/min", descents = "30", ["person.dives"] = "2" }),
        expect = hazard { likelihood = 4, severity = 2 } },
      { "ears that do not clear", given = like(base, { ["person.ear_trouble"] = "yes" }),
        expect = hazard { likelihood = 2, severity = 4 } },
      { "a cold", given = like(base, { congested = "yes" }), expect = stop {} },
      { "cold not asked about", given = like(base, { congested = "?" }), expect = stop {} },
      { "rate not known", given = like(base, { descent_rate = "?" }),
        expect = hazard { likelihood = 2, severity = 2 } },
      { "with a line", given = like(base, { descent_rate = "20 m/min" }), with = { "descent-line" },
        expect = hazard { likelihood = 1, severity = 2 } },
    },
      example.edges(base, "depth", 2, { "1.2 m", nothing, "1.25 m", 1 }),
      example.edges(like(base, { ["person.dives"] = "2" }), "descent_rate", 2, { "9 m/min", 2, "9.3 m/min", 3 }),
      example.edges(base, "person.dives", 2, { "9", 2, "10", 1 }),
      example.edges(base, "descents", 2, { "10", 1, "11", 2 }),
    }
  end)(),
}

-- Whether anything worn covers hands that then cannot do fine work.
local function clumsy(i)
  for _, worn in ipairs(i.wears) do
    if worn.covers_hands and worn.dexterity ~= "full" then return true end
  end
  return false
end

-- Whether anything worn covers the mouth and was not tried with the mouthpiece.
local function mouth_untried(i)
  for _, worn in ipairs(i.wears) do
    if worn.covers_mouth and not worn.fits_mouthpiece then return true end
  end
  return false
end

rule {
  id = "air.mouthpiece",
  title = "The mouthpiece cannot be held, found or seated",
  each = "immersion",
  harm = "performer: gas is there and cannot be breathed",
  sources = {
    "common practice: the performer holds and seats the mouthpiece unaided in everything worn, "
      .. "shown in the shallow end and then at depth",
  },
  when = function(i) return i.breathes_gas and i.depth > q"0.5 m" end,
  assess = function(i)
    local seats = i.seats_mouthpiece
    local untried = mouth_untried(i)
    if untried and not seats then
      stop {
        because = "the mouth is covered by something not tried with the mouthpiece, "
          .. "and the mouthpiece has not been seated in it",
        controls = { "mouthpiece-test" },
      }
    end
    local surfaced = rescue.to_surface(i.site.emergency)
    hazard {
      likelihood = scale.protection(scale.missing,
        { seats, i.person.mouthpiece_drill == "passed", i.touch_contact }, { clumsy(i), untried }),
      severity = scale.without_air(surfaced),
      because = "if the mouthpiece is missed the face is at the surface after {surfaced}",
      values = { surfaced = surfaced },
      controls = { "mouthpiece-test", "cut-back-fingers", "diver-seats-mouthpiece", "hand-on-performer",
        "depth-cap" },
      also = { "second-air-source" },
      who = "1 performer",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { breathes_gas = "yes", depth = "3 m", seats_mouthpiece = "yes", touch_contact = "yes",
      ["person.mouthpiece_drill"] = "passed", ["wears.1.covers"] = "hands mouth",
        ["wears.1.dexterity"] = "full",
      ["wears.1.fits_mouthpiece"] = "yes", ["site.emergency.notice_time"] = "5 s",
      ["site.emergency.reach_time"] = "5 s", ["site.emergency.surface_time"] = "10 s" }
    return example.join { {
      { "breathes no gas", given = like(base, { breathes_gas = "no" }), expect = nothing },
      { "face at the surface", given = like(base, { depth = "0.3 m" }), expect = nothing },
      { "tested in everything worn", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "claws", given = like(base, { ["wears.1.dexterity"] = "none", seats_mouthpiece = "no",
        ["person.mouthpiece_drill"] = "failed" }), expect = hazard { likelihood = 3, severity = 3 } },
      { "mask never tried", given = like(base,
        { ["wears.1.fits_mouthpiece"] = "no", seats_mouthpiece = "no" }),
        expect = { stop {}, hazard { likelihood = 2, severity = 3 } } },
      { "test not known", given = like(base, { seats_mouthpiece = "?", touch_contact = "no" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "fingers cut back", given = like(base, { ["wears.1.dexterity"] = "none", touch_contact = "no" }),
        with = { "cut-back-fingers" }, expect = hazard { likelihood = 1, severity = 3 } },
    },
      example.edges(base, "depth", 3, { "0.5 m", nothing, "0.52 m", 1 }),
      example.edges(like(base, { ["wears.1.dexterity"] = "none", touch_contact = "no" }), "wears.1.covers", 3,
        { "mouth", 1, "hands", 2 }),
      example.edges(like(base, { ["wears.1.fits_mouthpiece"] = "no" }), "seats_mouthpiece", 3, { "yes", 1 }),
    }
  end)(),
}

rule {
  id = "air.second-source",
  title = "Only one source of gas within reach",
  each = "immersion",
  harm = "performer or diver: no gas when the one source fails",
  sources = {
    "29 CFR 1910.424(c): reserve gas for each diver",
    "46 CFR 197.340(c): reserve enough to reach the surface, another source, or a standby diver",
    "common practice: two independent sources for each performer",
  },
  when = function(i)
    return i.depth > q"0.5 m" and not i.can_stand and (i.breathes_gas or i.breath_hold > q"0 s")
  end,
  assess = function(i)
    local surfaced = rescue.to_surface(i.site.emergency)
    local near = i.diver_distance <= q"2 m"
    local two = i.air_sources >= 2
    local tied = i.restrained
    hazard {
      likelihood = scale.protection(scale.missing, { two, i.own_safety_diver, near },
        { not two and (tied or i.task.overhead), not i.sees_diver }),
      severity = scale.vulnerable(scale.without_air(surfaced), { tied }),
      because = "{i.air_sources} source(s) within reach, diver at {i.diver_distance}; "
        .. "face at the surface after {surfaced}",
      values = { surfaced = surfaced },
      controls = { "second-air-source", "diver-at-arms-reach", "depth-cap" },
      also = { "hand-on-performer" },
      who = "1 person under water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { depth = "3 m", can_stand = "no", breathes_gas = "yes", breath_hold = "15 s",
      air_sources = "2",
      own_safety_diver = "yes", diver_distance = "1 m", restrained = "no", ["task.overhead"] = "no",
      sees_diver = "yes", ["site.emergency.notice_time"] = "5 s", ["site.emergency.reach_time"] = "5 s",
      ["site.emergency.surface_time"] = "10 s" }
    return example.join { {
      { "can stand", given = like(base, { can_stand = "yes" }), expect = nothing },
      { "face dry", given = like(base, { breathes_gas = "no", breath_hold = "0 s" }), expect = nothing },
      { "held breath only", given = like(base, { breathes_gas = "no" }),
        expect = hazard { likelihood = 1, severity = 3 } },
      { "at the surface", given = like(base, { depth = "0.2 m" }), expect = nothing },
      { "two sources, diver near", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "one source, diver far", given = like(base, { air_sources = "1", diver_distance = "6 m" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "one source, tied, blind", given = like(base,
        { air_sources = "1", restrained = "yes", sees_diver = "no" }),
        expect = hazard { likelihood = 3, severity = 4 } },
      { "number of sources not known", given = like(base, { air_sources = "?", own_safety_diver = "no" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "second source", given = like(base, { air_sources = "1", own_safety_diver = "no" }),
        with = { "second-air-source" },
        expect = hazard { likelihood = 1, severity = 3 } },
    },
      example.edges(base, "depth", 3, { "0.5 m", nothing, "0.52 m", 1 }),
      example.edges(like(base, { air_sources = "1" }), "diver_distance", 3, { "2 m", 1, "2.1 m", 2 }),
      example.edges(like(base, { air_sources = "1" }), "task.overhead", 3, { "no", 1, "yes", 2 }),
    }
  end)(),
}
