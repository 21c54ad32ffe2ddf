-- What is worn in the water: make-up appliances, costume and gear.

local function young(i) return i.age < q"18 year" end

local masked = { ["wears.1.covers"] = "mouth", ["wears.1.remove_time"] = "5 s",
  ["wears.1.fits_mouthpiece"] = "no", ["person.mass"] = "60 kg", effort = "light", breath_hold = "15 s" }

rule {
  id = "worn.mouth-removal",
  title = "A covered mouth or nose cannot be freed in the breath that is left",
  each = "immersion",
  harm = "performer: cannot breathe through what is worn",
  sources = { "breath-hold limit as computed, hard work from then on; common practice: what covers " ..
    "the mouth comes off in seconds" },
  reasoning = breath.reasoning,
  when = function (i)
    for _, a in ipairs(i.wears) do
      if a.covers_mouth or a.covers_nose then return true end
    end
    return false
  end,
  assess = function (i)
    local left = breath.remains(i)
    for _, a in ipairs(i.wears) do
      if a.covers_mouth or a.covers_nose then
        local by = a.removed_by
        local tool = by == "tool" and not a.cutter_at_hand
        if by == "nobody" or tool then
          stop { about = a.label, because = "nobody can take it off under water",
                 controls = { "quick-release", "cutter-with-diver" } }
        end
        local likelihood = scale.reserve(left, a.remove_time)
        if a.fits_mouthpiece then likelihood = scale.within(likelihood - 1) end
        hazard {
          about = a.label, likelihood = likelihood, severity = scale.without_air(a.remove_time),
          because = "{left} of breath left for a struggle after the take, {removal} to free mouth and nose",
          values = { left = left, removal = a.remove_time }, who = "1 performer",
          controls = { "quick-release", "cutter-with-diver", "mouthpiece-fits-through",
                       "shorter-take" },
        }
      end
    end
  end,
  examples = example.join { {
    { "off in five seconds, mouthpiece fits",
      given = { ["wears.1.covers"] = "mouth", ["wears.1.removed_by"] = "wearer",
                ["wears.1.remove_time"] = "5 s", ["wears.1.fits_mouthpiece"] = "yes",
                ["person.mass"] = "60 kg", effort = "light", breath_hold = "15 s" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "two minutes to take off",
      given = { ["wears.1.covers"] = "nose", ["wears.1.removed_by"] = "diver",
                ["wears.1.remove_time"] = "120 s", ["wears.1.fits_mouthpiece"] = "no",
                ["person.mass"] = "60 kg", effort = "moderate", breath_hold = "20 s" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "the same with a quick release",
      given = { ["wears.1.covers"] = "nose", ["wears.1.removed_by"] = "diver",
                ["wears.1.remove_time"] = "120 s", ["wears.1.fits_mouthpiece"] = "no",
                ["person.mass"] = "60 kg", effort = "light", breath_hold = "15 s" },
      with = { "quick-release" }, expect = hazard { likelihood = 1, severity = 3 } },
    { "only a tool takes it off and no tool is there",
      given = { ["wears.1.covers"] = "mouth", ["wears.1.removed_by"] = "tool",
                ["wears.1.cutter_at_hand"] = "no", ["wears.1.remove_time"] = "10 s",
                ["wears.1.fits_mouthpiece"] = "yes", ["person.mass"] = "60 kg", effort = "light",
                breath_hold = "15 s" },
      expect = stop {} },
    { "time to take it off not known",
      given = { ["wears.1.covers"] = "mouth", ["wears.1.removed_by"] = "wearer",
                ["wears.1.remove_time"] = "?", ["wears.1.fits_mouthpiece"] = "no",
                ["person.mass"] = "60 kg", effort = "light", breath_hold = "15 s" },
      expect = hazard { likelihood = 5, severity = 5 } },
    { "gloves only", given = { ["wears.1.covers"] = "hands" }, expect = nothing },
  },
    example.edges(masked, "wears.1.removed_by", 3, { "wearer", 1, "diver", 1, "nobody", { stop {} } }),
    example.edges(example.like(masked, { ["wears.1.removed_by"] = "tool" }), "wears.1.cutter_at_hand", 3,
      { "yes", 1, "no", { stop {} } }),
    example.edges(example.like(masked, { ["wears.1.removed_by"] = "wearer", ["wears.2.removed_by"] = "wearer",
      ["wears.2.remove_time"] = "300 s" }),
      "wears.2.covers", 3, { "hands", 1, "nose", hazard { likelihood = 5, severity = 5 } }),
    example.edges(example.like(masked, { ["wears.1.removed_by"] = "wearer", ["wears.1.remove_time"] = "10 s" }),
      "wears.1.fits_mouthpiece", 3, { "no", 3, "yes", 2 }),
  },
}

rule {
  id = "worn.sight",
  title = "Performer cannot see diver, gas or way out",
  each = "immersion",
  harm = "performer: cannot find air",
  sources = { "Gislen and others 2003, Current Biology 13:833: unaided sight under water is poor",
              "about a tenth of sight in air or worse (from memory)" },
  when = function (i) return i.breath_hold > q"0 s" and not i.mask and not i.can_stand end,
  assess = function (i)
    local blind = false
    for _, a in ipairs(i.wears) do
      if a.sight == "none" then blind = true end
    end
    local likelihood = scale.protection(scale.missing,
      { i.touch_contact, i.own_safety_diver, i.task.lit_marker and not blind },
      { blind, i.person.sight == "poor" })
    hazard {
      likelihood = likelihood,
      severity = scale.vulnerable(scale.without_air(i.air_return_time), { blind, young(i) }),
      because = "no mask in the take; gas comes back after {i.air_return_time}, brought or " ..
        "found without sight",
      who = "1 performer",
      controls = { "tactile-line", "own-diver", "lit-gas-point" },
      also = { "mask-when-not-seen" },
    }
  end,
  examples = example.join { {
    { "hand on the performer, own diver, marker",
      given = { breath_hold = "15 s", mask = "no", can_stand = "no", ["wears.1.sight"] = "clear",
        touch_contact = "yes",
                own_safety_diver = "yes", ["task.lit_marker"] = "yes", ["person.sight"] = "good",
                air_return_time = "5 s", age = "30 year" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "face covered, nobody near",
      given = { breath_hold = "15 s", mask = "no", can_stand = "no", ["wears.1.sight"] = "none",
        touch_contact = "no",
                own_safety_diver = "no", ["task.lit_marker"] = "no", ["person.sight"] = "good",
                air_return_time = "12 s", age = "30 year" },
      expect = hazard { likelihood = 4, severity = 4 } },
    { "the same with a hand kept on",
      given = { breath_hold = "15 s", mask = "no", can_stand = "no", ["wears.1.sight"] = "none",
        touch_contact = "no",
                own_safety_diver = "no", ["task.lit_marker"] = "no", ["person.sight"] = "good",
                air_return_time = "12 s", age = "30 year" },
      with = { "tactile-line" }, expect = hazard { likelihood = 3, severity = 4 } },
    { "a child",
      given = { breath_hold = "15 s", mask = "no", can_stand = "no", ["wears.1.sight"] = "clear",
        touch_contact = "no",
                own_safety_diver = "yes", ["task.lit_marker"] = "no", ["person.sight"] = "good",
                air_return_time = "12 s", age = "12 year" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "touch not known",
      given = { breath_hold = "15 s", mask = "no", can_stand = "no", ["wears.1.sight"] = "clear",
                own_safety_diver = "no", ["task.lit_marker"] = "no", ["person.sight"] = "good",
                air_return_time = "12 s", age = "30 year" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "stands in the pool", given = { breath_hold = "3 s", mask = "no", can_stand = "yes" },
      expect = nothing },
    { "face stays dry", given = { breath_hold = "0 s", mask = "no" }, expect = nothing },
  },
    example.edges({ breath_hold = "15 s", mask = "no", can_stand = "no", ["wears.1.sight"] = "clear",
      touch_contact = "no", own_safety_diver = "yes", ["task.lit_marker"] = "no", ["person.sight"] = "good",
      air_return_time = "12 s" }, "age", 4, { "18 year", hazard { likelihood = 2, severity = 3 }, "17.9 year", 2 }),
    example.edges({ breath_hold = "15 s", can_stand = "no", ["wears.1.sight"] = "clear",
      touch_contact = "no", own_safety_diver = "yes", ["task.lit_marker"] = "no", ["person.sight"] = "poor",
      air_return_time = "12 s", age = "30 year" }, "mask", 3, { "yes", nothing, "no", 3 }),
    example.edges({ breath_hold = "15 s", mask = "no", can_stand = "no", touch_contact = "no",
      own_safety_diver = "no", ["task.lit_marker"] = "yes", ["person.sight"] = "good", air_return_time = "12 s",
      age = "30 year" }, "wears.1.sight", 3, { "clear", 2, "none", hazard { likelihood = 4, severity = 4 } }),
  },
}

rule {
  id = "worn.contact-lenses",
  title = "Contact lenses in the water",
  each = "immersion",
  harm = "performer: infection of the cornea, lost lens",
  sources = { "US FDA advice and PMC5499971: keep lenses away from all water; Acanthamoeba " ..
    "keratitis" },
  when = function (i) return i.person.contact_lenses end,
  assess = function (i)
    local body = i.site.water_body
    local open = body == "lake" or body == "river" or body == "sea" or body == "quarry"
    hazard {
      likelihood = scale.protection(scale.missing, { i.mask }, { open, i.eyes_open }),
      severity = 4, because = "lenses are worn with the eyes in the water", who = "1 performer",
      controls = { "no-contact-lenses" },
      also = { "mask-when-not-seen", "eye-rinse" },
    }
  end,
  examples = example.join { {
    { "in a lake, eyes open",
      given = { ["person.contact_lenses"] = "yes", ["site.water_body"] = "lake", mask = "no",
                eyes_open = "yes" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "in a tank behind a mask",
      given = { ["person.contact_lenses"] = "yes", ["site.water_body"] = "tank", mask = "yes",
                eyes_open = "no" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "lenses taken out",
      given = { ["person.contact_lenses"] = "yes", ["site.water_body"] = "lake", mask = "no",
                eyes_open = "yes" },
      with = { "no-contact-lenses" }, expect = nothing },
    { "not asked", given = { ["site.water_body"] = "tank", mask = "no", eyes_open = "yes" },
      expect = hazard { likelihood = 4, severity = 4 } },
  },
    example.edges({ ["person.contact_lenses"] = "yes", mask = "no", eyes_open = "no" }, "site.water_body", 4,
      { "tank", 3, "river", 4, "sea", 4, "quarry", 4 }),
  },
}

local deaf = { hears_recall = "no", can_stand = "no", touch_contact = "no", own_safety_diver = "no",
  line_tended = "no", voice_link = "no", ["task.overhead"] = "no", ["person.hearing"] = "good", age = "30 year" }

rule {
  id = "worn.recall-not-heard",
  title = "The recall does not reach the performer",
  each = "immersion",
  harm = "performer: stays in danger after everyone was called out",
  sources = { "common practice: a second signal for whoever cannot hear the first" },
  when = function (i) return not i.hears_recall and not i.can_stand end,
  assess = function (i)
    hazard {
      likelihood = scale.protection(scale.missing,
        { i.touch_contact, i.own_safety_diver, i.line_tended or i.voice_link },
        { i.task.overhead, i.person.hearing == "poor" }),
      severity = scale.vulnerable(3, { young(i) }),
      because = "what is worn keeps the recall from being heard or felt", who = "1 performer",
      controls = { "recall-by-touch", "own-diver", "tactile-line" },
    }
  end,
  examples = example.join { {
    { "deaf under the set, alone",
      given = { hears_recall = "no", can_stand = "no", touch_contact = "no",
        own_safety_diver = "no",
                line_tended = "no", voice_link = "no", ["task.overhead"] = "yes",
                ["person.hearing"] = "good", age = "30 year" },
      expect = hazard { likelihood = 4, severity = 3 } },
    { "own diver with a hand on the child",
      given = { hears_recall = "no", can_stand = "no", touch_contact = "yes",
                own_safety_diver = "yes", line_tended = "no", voice_link = "no",
                ["task.overhead"] = "no", ["person.hearing"] = "good", age = "12 year" },
      expect = hazard { likelihood = 1, severity = 4 } },
    { "taps instead",
      given = { hears_recall = "no", can_stand = "no", touch_contact = "no",
        own_safety_diver = "no",
                line_tended = "no", voice_link = "no", ["task.overhead"] = "yes",
                ["person.hearing"] = "good", age = "30 year" },
      with = { "recall-by-touch" }, expect = nothing },
    { "not tried",
      given = { can_stand = "no", touch_contact = "no", own_safety_diver = "no", line_tended = "no",
                voice_link = "no", ["task.overhead"] = "no", ["person.hearing"] = "good",
                age = "30 year" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "stands in the pool", given = { hears_recall = "no", can_stand = "yes" }, expect = nothing },
  },
    example.edges(deaf, "line_tended", 3, { "no", 3, "yes", 2 }),
    example.edges(deaf, "voice_link", 3, { "no", 3, "yes", 2 }),
    example.edges(deaf, "person.hearing", 3, { "aided", 3, "poor", 4 }),
  },
}

rule {
  id = "worn.walking",
  title = "Walking to the water in what is worn",
  each = "immersion",
  harm = "performer: trips, falls from the ladder",
  worst = { likelihood = 5, severity = 3 },
  sources = { "common practice: feet and tails are dressed in the water, or the wearer is " ..
    "carried" },
  assess = function (i)
    for _, a in ipairs(i.wears) do
      local walks = a.walking
      if walks ~= "free" and not a.put_on_in_water then
        hazard {
          about = a.label,
          likelihood = scale.protection(scale.frequent,
            { i.escorted, i.site.deck.handrails, i.site.deck.mats_or_drains },
            { walks == "impossible" }),
          severity = 3, who = "1 performer",
          because = "the wearer walks and climbs to the water in something that hinders the feet",
          controls = { "carried-to-water", "slip-mats-and-drains" },
        }
      end
    end
  end,
  examples = {
    { "walks freely", given = { ["wears.1.walking"] = "free" }, expect = nothing },
    { "hindered, helped to a railed stair with mats",
      given = { ["wears.1.walking"] = "hindered", ["wears.1.put_on_in_water"] = "no",
        escorted = "yes",
                ["site.deck.handrails"] = "yes", ["site.deck.mats_or_drains"] = "yes" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "a tail, alone on a bare deck",
      given = { ["wears.1.walking"] = "impossible", ["wears.1.put_on_in_water"] = "no",
                escorted = "no", ["site.deck.handrails"] = "no",
                ["site.deck.mats_or_drains"] = "no" },
      expect = hazard { likelihood = 5, severity = 3 } },
    { "the tail put on in the water",
      given = { ["wears.1.walking"] = "impossible", ["wears.1.put_on_in_water"] = "no",
                escorted = "no", ["site.deck.handrails"] = "no",
                ["site.deck.mats_or_drains"] = "no" },
      with = { "carried-to-water" }, expect = nothing },
    { "never fitted",
      given = { ["wears.1.put_on_in_water"] = "no", escorted = "no",
        ["site.deck.handrails"] = "yes",
                ["site.deck.mats_or_drains"] = "yes" },
      expect = hazard { likelihood = 3, severity = 3 } },
  },
}

rule {
  id = "worn.loose-parts",
  title = "A part comes off into airway or eyes, or keeps the mouthpiece from sealing",
  each = "immersion",
  harm = "performer: coughs or chokes under water",
  sources = { "common practice: pull test, fit test with mouthpiece and mask, spare on set" },
  assess = function (i)
    for _, a in ipairs(i.wears) do
      local seal = i.breathes_gas and not a.fits_mouthpiece
      local loose = a.loose_parts
      if seal or loose then
        hazard {
          about = a.label,
          likelihood = scale.repeats(scale.protection(scale.missing,
            { a.glue_checked_each_take, i.seats_mouthpiece }, { loose and seal }), i.takes),
          severity = scale.vulnerable(scale.without_air(i.air_return_time), { young(i) }),
          because = "something worn can come loose or break the seal; gas is " ..
            "{i.air_return_time} away",
          who = "1 performer",
          controls = { "loose-parts-fixed", "mouthpiece-fits-through", "glue-check" },
        }
      end
    end
  end,
  examples = example.join { {
    { "nothing loose, mouthpiece fits",
      given = { ["wears.1.loose_parts"] = "no", ["wears.1.fits_mouthpiece"] = "yes",
                breathes_gas = "yes" },
      expect = nothing },
    { "loose scales looked at each take",
      given = { ["wears.1.loose_parts"] = "yes", ["wears.1.fits_mouthpiece"] = "yes",
                ["wears.1.glue_checked_each_take"] = "yes", seats_mouthpiece = "yes",
                breathes_gas = "yes", takes = "6", air_return_time = "5 s", age = "30 year" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "loose and no seal, twelve takes",
      given = { ["wears.1.loose_parts"] = "yes", ["wears.1.fits_mouthpiece"] = "no",
                ["wears.1.glue_checked_each_take"] = "no", seats_mouthpiece = "no",
                breathes_gas = "yes", takes = "12", air_return_time = "100 s", age = "30 year" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "loose parts moulded in",
      given = { ["wears.1.loose_parts"] = "yes", ["wears.1.fits_mouthpiece"] = "yes",
                breathes_gas = "yes" },
      with = { "loose-parts-fixed" }, expect = nothing },
    { "no pull test, a child",
      given = { ["wears.1.fits_mouthpiece"] = "yes", ["wears.1.glue_checked_each_take"] = "no",
                seats_mouthpiece = "yes", breathes_gas = "yes", takes = "6",
                air_return_time = "5 s", age = "12 year" },
      expect = hazard { likelihood = 2, severity = 4 } },
  },
    example.edges({ ["wears.1.loose_parts"] = "no", ["wears.1.fits_mouthpiece"] = "no",
      ["wears.1.glue_checked_each_take"] = "yes", seats_mouthpiece = "no", takes = "6", air_return_time = "5 s",
      age = "30 year" }, "breathes_gas", 3, { "no", nothing, "yes", 2 }),
  },
}

rule {
  id = "worn.allergy",
  title = "A known allergy to what is worn",
  each = "immersion",
  harm = "performer: skin reaction, or a collapse that starts under water",
  sources = { "HSE skin at work; NIOSH 97-135 (from memory): a person sensitised to latex is " ..
    "kept from it" },
  worst = { likelihood = 4, severity = 5 },
  assess = function (i)
    local p = i.person
    for _, a in ipairs(i.wears) do
      if p.allergies_latex and a.materials_latex then
        stop { about = a.label, because = "latex on somebody allergic to latex", discreet = true,
               controls = { "other-material" } }
        hazard { about = a.label, likelihood = 4, severity = 5, who = "1 performer",
                 because = "a reaction to latex can be immediate and severe", discreet = true,
                 controls = { "other-material" } }
      end
      if (p.allergies_silicone and a.materials_silicone)
         or (p.allergies_acrylate and a.materials_acrylate) then
        hazard { about = a.label, likelihood = 4, severity = 2, who = "1 performer",
                 because = "the skin is known to react to this material", discreet = true,
                 controls = { "other-material" } }
      end
    end
  end,
  examples = example.join { {
    { "latex on an allergic wearer",
      given = { ["person.allergies"] = "latex", ["wears.1.materials"] = "latex foam" },
      expect = { stop {}, hazard { likelihood = 4, severity = 5 } } },
    { "silicone for a wearer who bears it",
      given = { ["person.allergies"] = "latex", ["wears.1.materials"] = "silicone" },
      expect = nothing },
    { "acrylate on an allergic wearer",
      given = { ["person.allergies"] = "acrylate", ["wears.1.materials"] = "acrylate" },
      expect = hazard { likelihood = 4, severity = 2 } },
    { "allergies not asked",
      given = { ["wears.1.materials"] = "latex" },
      expect = { stop {}, hazard { likelihood = 4, severity = 5 } } },
    { "another material",
      given = { ["person.allergies"] = "latex", ["wears.1.materials"] = "latex" },
      with = { "other-material" }, expect = nothing },
  },
    example.edges({ ["person.allergies"] = "silicone" }, "wears.1.materials", 2, { "silicone", 4, "acrylate", nothing }),
  },
}

rule {
  id = "worn.patch-test",
  title = "Glue and materials not tried on this skin",
  each = "immersion",
  harm = "performer: skin reaction under an appliance worn for hours",
  worst = { likelihood = 5, severity = 2 },
  sources = { "common practice: patch test at least two days before the first wear" },
  assess = function (i)
    for _, a in ipairs(i.wears) do
      local glue = a.adhesive
      if glue ~= "none" then
        hazard {
          about = a.label,
          likelihood = scale.protection(scale.missing, { a.patch_test_lead >= q"2 day" },
            { a.wear_time > q"8 h", glue == "cyanoacrylate" }),
          severity = 2, who = "1 performer",
          because = "worn {wear} with glue; tried on the skin {lead} before",
          values = { wear = a.wear_time, lead = a.patch_test_lead },
          controls = { "patch-test", "shorter-preparation", "barrier-cream" },
        }
      end
    end
  end,
  examples = example.join { {
    { "no glue", given = { ["wears.1.adhesive"] = "none" }, expect = nothing },
    { "tried four days before",
      given = { ["wears.1.adhesive"] = "silicone", ["wears.1.patch_test_lead"] = "4 day",
                ["wears.1.wear_time"] = "6 h" },
      expect = hazard { likelihood = 2, severity = 2 } },
    { "superglue for ten hours, not tried",
      given = { ["wears.1.adhesive"] = "cyanoacrylate", ["wears.1.patch_test_lead"] = "0 day",
                ["wears.1.wear_time"] = "10 h" },
      expect = hazard { likelihood = 5, severity = 2 } },
    { "not known whether tried",
      given = { ["wears.1.adhesive"] = "silicone", ["wears.1.wear_time"] = "6 h" },
      expect = hazard { likelihood = 3, severity = 2 } },
    { "tried two days before",
      given = { ["wears.1.adhesive"] = "silicone", ["wears.1.patch_test_lead"] = "0 day",
                ["wears.1.wear_time"] = "6 h" },
      with = { "patch-test" }, expect = hazard { likelihood = 2, severity = 2 } },
  },
    example.edges({ ["wears.1.adhesive"] = "silicone", ["wears.1.wear_time"] = "6 h" },
      "wears.1.patch_test_lead", 2, { "2 day", 2, "1.95 day", 3 }),
    example.edges({ ["wears.1.adhesive"] = "silicone", ["wears.1.patch_test_lead"] = "4 day" },
      "wears.1.wear_time", 2, { "8 h", 2, "8.2 h", 3 }),
  },
}

rule {
  id = "worn.solvent",
  title = "Solvent shut in under an appliance",
  each = "appliance",
  harm = "performer: vapour at nose and eyes, burnt skin",
  sources = { "HSE EH40/2005, 4th edition 2020 (from memory): solvents used with make-up have " ..
    "exposure limits" },
  when = function (a) return not a.solvent_free_before_wear end,
  assess = function (a)
    local by_mouth = a.covers_mouth or a.covers_nose
    hazard {
      likelihood = scale.protection(scale.missing, {}, { by_mouth }), severity = 2,
      because = "glue or remover is covered before the solvent has gone off", who = "wearer",
      controls = { "solvent-gone-off" },
    }
  end,
  examples = example.join { {
    { "gone off", given = { solvent_free_before_wear = "yes" }, expect = nothing },
    { "covered wet, over the nose", given = { solvent_free_before_wear = "no", covers = "nose" },
      expect = hazard { likelihood = 4, severity = 2 } },
    { "covered wet, on the hands", given = { solvent_free_before_wear = "no", covers = "hands" },
      expect = hazard { likelihood = 3, severity = 2 } },
    { "not known", given = { covers = "hands" }, expect = hazard { likelihood = 3, severity = 2 } },
    { "wait the maker's time", given = { covers = "hands" }, with = { "solvent-gone-off" },
      expect = nothing },
  },
    example.edges({ solvent_free_before_wear = "no" }, "covers", 2, { "mouth", 4, "hands", 3 }),
  },
}

rule {
  id = "worn.sinks",
  title = "Dressed, the performer sinks even with full lungs",
  each = "immersion",
  harm = "performer: cannot stay at the surface",
  sources = { "common practice: trimmed to float with full lungs; lead drops with one hand" },
  when = function (i) return not i.can_stand end,
  assess = function (i)
    if i.lift_lungs_full >= q"0 N" then return end
    hazard {
      likelihood = scale.protection(scale.missing,
        { i.ballast_droppable, i.escorted, i.line_tended }, { i.lift_lungs_full < q"-20 N" }),
      severity = scale.vulnerable(scale.without_air(i.air_return_time), { young(i) }),
      because = "net lift with full lungs is {i.lift_lungs_full}; gas is {i.air_return_time} away",
      who = "1 performer", controls = { "trim-check", "droppable-ballast", "line-tended" },
    }
  end,
  examples = example.join { {
    { "floats", given = { can_stand = "no", lift_lungs_full = "5 N" }, expect = nothing },
    { "a little heavy, drops the lead, escorted",
      given = { can_stand = "no", lift_lungs_full = "-8 N", ballast_droppable = "yes",
                escorted = "yes", line_tended = "no", air_return_time = "5 s", age = "30 year" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "very heavy, lead sewn in, alone",
      given = { can_stand = "no", lift_lungs_full = "-40 N", ballast_droppable = "no",
                escorted = "no", line_tended = "no", air_return_time = "100 s", age = "30 year" },
      expect = hazard { likelihood = 4, severity = 4 } },
    { "no trim check, child",
      given = { can_stand = "no", ballast_droppable = "yes", escorted = "yes", line_tended = "no",
                air_return_time = "5 s", age = "12 year" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "trimmed", given = { can_stand = "no", lift_lungs_full = "-40 N" }, with = { "trim-check" },
      expect = nothing },
    { "can stand", given = { can_stand = "yes" }, expect = nothing },
  },
    example.edges({ can_stand = "no", ballast_droppable = "yes", escorted = "no", line_tended = "no",
      air_return_time = "5 s", age = "30 year" }, "lift_lungs_full", 3,
      { "0 N", nothing, "-20 N", 2, "-20.5 N", 3 }),
    example.edges({ can_stand = "no", lift_lungs_full = "-8 N", ballast_droppable = "yes", escorted = "no",
      air_return_time = "5 s", age = "30 year" }, "line_tended", 3, { "no", 2, "yes", 1 }),
  },
}

rule {
  id = "worn.wet-weight",
  title = "Soaked costume too heavy for the ladder",
  each = "immersion",
  harm = "performer: falls from the ladder, strains the back",
  worst = { likelihood = 5, severity = 3 },
  sources = { "common practice: a soaked costume is taken off in the water or at a stage" },
  reasoning = "a third of the body's own mass is taken as the most a person climbs with: a " ..
    "working figure, from no published source",
  assess = function (i)
    local wet = q"0 kg"
    for _, a in ipairs(i.wears) do wet = wet + a.dry_mass + a.water_uptake * q"1 kg/L" end
    if wet < q"3 kg" then return end
    local likelihood = scale.reserve(i.person.mass / 3, wet)
    if i.site.deck.landing_platform then likelihood = scale.within(likelihood - 1) end
    hazard {
      likelihood = likelihood, severity = 3, who = "1 performer",
      because = "what is worn weighs {wet} out of the water on a body of {i.person.mass}",
      values = { wet = wet }, controls = { "landing-stage" },
    }
  end,
  examples = example.join { {
    { "a light mask",
      given = { ["wears.1.dry_mass"] = "0.6 kg", ["wears.1.water_uptake"] = "0.3 L" },
      expect = nothing },
    { "a wool coat on an adult",
      given = { ["wears.1.dry_mass"] = "4 kg", ["wears.1.water_uptake"] = "6 L",
                ["person.mass"] = "75 kg", ["site.deck.landing_platform"] = "no" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "the same on a child",
      given = { ["wears.1.dry_mass"] = "4 kg", ["wears.1.water_uptake"] = "8 L",
                ["person.mass"] = "33 kg", ["site.deck.landing_platform"] = "no" },
      expect = hazard { likelihood = 5, severity = 3 } },
    { "the same with a stage",
      given = { ["wears.1.dry_mass"] = "4 kg", ["wears.1.water_uptake"] = "8 L",
                ["person.mass"] = "33 kg", ["site.deck.landing_platform"] = "no" },
      with = { "landing-stage" }, expect = hazard { likelihood = 4, severity = 3 } },
    { "not weighed wet",
      given = { ["wears.1.dry_mass"] = "4 kg", ["person.mass"] = "75 kg",
                ["site.deck.landing_platform"] = "no" },
      expect = hazard { likelihood = 5, severity = 3 } },
  },
    example.edges({ ["wears.1.dry_mass"] = "0 kg", ["person.mass"] = "75 kg",
      ["site.deck.landing_platform"] = "no" }, "wears.1.water_uptake", 3, { "2.95 L", nothing, "3 L", 1 }),
    -- 12.5 kg is half of what 75 kg climb with
    example.edges({ ["wears.1.dry_mass"] = "4 kg", ["person.mass"] = "75 kg",
      ["site.deck.landing_platform"] = "no" }, "wears.1.water_uptake", 3, { "8.4 L", 2, "8.6 L", 3 }),
  },
}

rule {
  id = "worn.entanglement",
  title = "Trailing parts catch",
  each = "immersion",
  harm = "performer: held under water by costume, hair or wire",
  sources = { "common practice: trailing parts trimmed or breakaway, a cutter with the diver" },
  assess = function (i)
    for _, a in ipairs(i.wears) do
      if a.trailing_length > q"0.3 m" then
        hazard {
          about = a.label,
          likelihood = scale.protection(scale.missing, { a.breakaway, a.cutter_at_hand,
            i.can_stand },
            { i.task.snag_points, i.task.overhead, a.trailing_length > q"1.5 m" }),
          severity = scale.vulnerable(scale.without_air(a.remove_time), { young(i) }),
          because = "{trailing} trails; freed in {removal}",
          values = { trailing = a.trailing_length, removal = a.remove_time }, who = "1 performer",
          controls = { "shorter-trailing", "breakaway-parts", "cutter-with-diver",
                       "snags-cleared" },
        }
      end
    end
  end,
  examples = example.join { {
    { "nothing trails", given = { ["wears.1.trailing_length"] = "0.1 m" }, expect = nothing },
    { "breakaway hair in a clear set",
      given = { ["wears.1.trailing_length"] = "0.4 m", can_stand = "no",
        ["wears.1.breakaway"] = "yes",
                ["wears.1.cutter_at_hand"] = "yes", ["task.snag_points"] = "no",
                ["task.overhead"] = "no", ["wears.1.remove_time"] = "8 s", age = "30 year" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "a two-metre train in wreckage",
      given = { ["wears.1.trailing_length"] = "2 m", can_stand = "no", ["wears.1.breakaway"] = "no",
                ["wears.1.cutter_at_hand"] = "no", ["task.snag_points"] = "yes",
                ["task.overhead"] = "yes", ["wears.1.remove_time"] = "120 s", age = "30 year" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "set not looked over, a child",
      given = { ["wears.1.trailing_length"] = "0.4 m", can_stand = "no",
        ["wears.1.breakaway"] = "yes",
                ["wears.1.cutter_at_hand"] = "yes", ["task.overhead"] = "no",
                ["wears.1.remove_time"] = "8 s", age = "12 year" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "train cut short",
      given = { ["wears.1.trailing_length"] = "2 m", can_stand = "no",
        ["wears.1.breakaway"] = "no" },
      with = { "shorter-trailing" }, expect = nothing },
  },
    example.edges({ can_stand = "no", ["wears.1.breakaway"] = "yes", ["wears.1.cutter_at_hand"] = "no",
      ["task.snag_points"] = "no", ["task.overhead"] = "no", ["wears.1.remove_time"] = "8 s", age = "30 year" },
      "wears.1.trailing_length", 3, { "0.3 m", nothing, "0.31 m", 2, "1.5 m", 2, "1.53 m", 3 }),
    example.edges({ ["wears.1.trailing_length"] = "0.4 m", ["wears.1.breakaway"] = "yes",
      ["wears.1.cutter_at_hand"] = "no", ["task.snag_points"] = "no", ["task.overhead"] = "no",
      ["wears.1.remove_time"] = "8 s", age = "30 year" }, "can_stand", 3, { "no", 2, "yes", 1 }),
  },
}

rule {
  id = "worn.held",
  title = "Tied, weighted or fixed to the set under water",
  each = "immersion",
  harm = "performer: cannot leave",
  sources = { "common practice: nobody is held who cannot let go alone; a dummy for the rest",
    "breath-hold limit as computed, hard work from then on" },
  reasoning = breath.reasoning,
  when = function (i)
    if i.restrained then return true end
    for _, a in ipairs(i.wears) do
      if a.anchored then return true end
    end
    return false
  end,
  assess = function (i)
    if not i.self_release then
      stop { because = "held, and cannot let go alone",
             controls = { "dummy-for-held-shot", "self-release" } }
    end
    local left = breath.remains(i)
    hazard {
      likelihood = scale.reserve(left, i.release_time),
      severity = scale.vulnerable(scale.without_air(i.release_time),
        { not i.self_release, young(i) }),
      because = "{left} of breath left for a struggle after the take, free in {i.release_time}",
      values = { left = left },
      who = "1 performer", controls = { "dummy-for-held-shot", "self-release", "shorter-take" },
    }
  end,
  examples = {
    { "not held", given = { restrained = "no", ["wears.1.anchored"] = "no" }, expect = nothing },
    { "lets go alone in three seconds",
      given = { restrained = "yes", self_release = "yes", release_time = "3 s",
                ["person.mass"] = "60 kg", effort = "light", breath_hold = "15 s",
                age = "30 year" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "a diver with a key",
      given = { restrained = "no", ["wears.1.anchored"] = "yes", self_release = "no",
                release_time = "100 s", ["person.mass"] = "60 kg", effort = "moderate",
                breath_hold = "20 s", age = "30 year" },
      expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "release never timed",
      given = { restrained = "yes", self_release = "yes", ["person.mass"] = "60 kg",
                effort = "light", breath_hold = "15 s", age = "30 year" },
      expect = hazard { likelihood = 5, severity = 5 } },
    { "a child who lets go in three seconds",
      given = { restrained = "yes", self_release = "yes", release_time = "3 s",
                ["person.mass"] = "38 kg", effort = "light", breath_hold = "10 s",
                age = "12 year" },
      expect = hazard { likelihood = 1, severity = 4 } },
    { "a dummy", given = { restrained = "yes", self_release = "no", ["wears.1.anchored"] = "no" },
      with = { "dummy-for-held-shot" }, expect = nothing },
  },
}

rule {
  id = "worn.hours-in-it",
  title = "Hours in the chair and in the suit before the water",
  each = "immersion",
  harm = "performer: tired, hungry or desperate before the take",
  worst = { likelihood = 5, severity = 2 },
  sources = { "common practice: at most about four hours of preparation, less for children" },
  assess = function (i)
    local toilet = false
    for _, a in ipairs(i.wears) do
      if a.toilet_time > q"30 min" then toilet = true end
    end
    local likelihood = scale.limit(i.preparation_time, q"1.5 h", q"2.5 h", q"4 h", q"6 h")
    hazard {
      likelihood = scale.within(likelihood + scale.count { toilet, young(i) }), severity = 2,
      because = "{i.preparation_time} of make-up and costume before the water", who = "1 performer",
      controls = { "shorter-preparation", "work-breaks" },
      also = { "late-dressing" },
    }
  end,
  examples = example.join { {
    { "an hour", given = { preparation_time = "1 h", ["wears.1.toilet_time"] = "5 min",
      age = "30 year" },
      expect = hazard { likelihood = 1, severity = 2 } },
    { "seven hours", given = { preparation_time = "7 h", ["wears.1.toilet_time"] = "5 min",
      age = "30 year" },
      expect = hazard { likelihood = 5, severity = 2 } },
    { "three hours, a child, an hour to the toilet",
      given = { preparation_time = "3 h", ["wears.1.toilet_time"] = "60 min", age = "12 year" },
      expect = hazard { likelihood = 5, severity = 2 } },
    { "not known", given = { ["wears.1.toilet_time"] = "5 min", age = "30 year" },
      expect = hazard { likelihood = 5, severity = 2 } },
    { "split make-up", given = { preparation_time = "7 h", ["wears.1.toilet_time"] = "5 min",
      age = "30 year" },
      with = { "shorter-preparation" }, expect = hazard { likelihood = 2, severity = 2 } },
  },
    example.edges({ preparation_time = "1 h", age = "30 year" }, "wears.1.toilet_time", 2, { "30 min", 1, "31 min", 2 }),
    example.edges({ ["wears.1.toilet_time"] = "5 min", age = "30 year" }, "preparation_time", 2,
      { "1.5 h", 1, "1.53 h", 2, "2.5 h", 2, "2.55 h", 3, "4 h", 3, "4.1 h", 4, "6 h", 4, "6.2 h", 5 }),
  },
}

rule {
  id = "worn.consent",
  title = "Refusing or stopping is not easy enough",
  each = "immersion",
  harm = "performer: goes on when it is too much",
  worst = { likelihood = 5, severity = 3 },
  sources = { "common practice: everyone may refuse or stop without loss; rehearsed in " ..
    "everything worn" },
  assess = function (i)
    if not i.person.consents then
      stop { because = "the person has not freely agreed to the wet work",
        controls = { "stunt-double" } }
    end
    local unworn = false
    for _, a in ipairs(i.wears) do
      if not a.rehearsed_in_water then unworn = true end
    end
    local likelihood = scale.protection(scale.missing,
      { i.withdrawal_signal, i.production.refusal_without_penalty }, { unworn, young(i) })
    if likelihood < 2 then return end
    hazard {
      likelihood = likelihood, severity = 3, who = "1 performer",
      because = "a signal of one's own, freedom to refuse or a rehearsal in everything worn is " ..
        "missing",
      controls = { "own-stop-signal", "rehearsal-in-costume", "stunt-double" },
    }
  end,
  examples = {
    { "own signal, free to refuse, rehearsed",
      given = { ["person.consents"] = "yes", ["wears.1.rehearsed_in_water"] = "yes",
                withdrawal_signal = "yes", ["production.refusal_without_penalty"] = "yes",
                age = "30 year" },
      expect = nothing },
    { "a child, none of it",
      given = { ["person.consents"] = "yes", ["wears.1.rehearsed_in_water"] = "no",
                withdrawal_signal = "no", ["production.refusal_without_penalty"] = "no",
                age = "12 year" },
      expect = hazard { likelihood = 5, severity = 3 } },
    { "has not agreed", given = { ["person.consents"] = "no" }, expect = stop {} },
    { "not known whether rehearsed",
      given = { ["person.consents"] = "yes", withdrawal_signal = "yes",
                ["production.refusal_without_penalty"] = "yes", age = "30 year" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "signal agreed",
      given = { ["person.consents"] = "yes", ["wears.1.rehearsed_in_water"] = "yes",
                withdrawal_signal = "no", ["production.refusal_without_penalty"] = "yes",
                age = "30 year" },
      with = { "own-stop-signal" }, expect = nothing },
  },
}

rule {
  id = "worn.battery",
  title = "Electricity in something worn",
  each = "appliance",
  harm = "wearer: shock, loss of control in the water",
  sources = { "BS 7671 s.702 and CEI 64-8: at most 12 V alternating or 30 V direct in the water",
              "IEC 60479-1 (from memory): 12 V is not harmless to a wet body" },
  when = function (a) return a.battery_voltage > q"0 V" end,
  assess = function (a)
    if a.battery_voltage > q"30 V" then
      stop { because = "{a.battery_voltage} on a body in the water",
        controls = { "low-voltage-costume" } }
    end
    hazard {
      likelihood = scale.limit(a.battery_voltage, q"6 V", q"12 V", q"30 V", q"60 V"), severity = 4,
      because = "{a.battery_voltage} inside something worn in the water", who = "wearer",
      controls = { "low-voltage-costume" },
    }
  end,
  examples = example.join { {
    { "nothing electric", given = { battery_voltage = "0 V" }, expect = nothing },
    { "three volts", given = { battery_voltage = "3 V" },
      expect = hazard { likelihood = 1, severity = 4 } },
    { "forty-eight volts", given = { battery_voltage = "48 V" },
      expect = { stop {}, hazard { likelihood = 4, severity = 4 } } },
    { "not known", given = { battery_voltage = "?" },
      expect = { stop {}, hazard { likelihood = 5, severity = 4 } } },
    { "brought down to twelve", given = { battery_voltage = "48 V" },
      with = { "low-voltage-costume" },
      expect = hazard { likelihood = 2, severity = 4 } },
  },
    example.edges({}, "battery_voltage", 4,
      { "6 V", 1, "6.2 V", 2, "12 V", 2, "12.3 V", 3, "30 V", 3,
        "31 V", { stop {}, hazard { likelihood = 4, severity = 4 } },
        "60 V", { stop {}, hazard { likelihood = 4, severity = 4 } },
        "62 V", { stop {}, hazard { likelihood = 5, severity = 4 } } }),
  },
}

rule {
  id = "worn.hygiene",
  title = "Costume put on damp and unwashed",
  each = "appliance",
  harm = "wearer: skin infection",
  sources = { "common practice: rinsed, disinfected and dried after each day" },
  when = function (a) return not a.dried_and_cleaned end,
  assess = function (a)
    hazard {
      likelihood = scale.protection(scale.missing, {}, { a.materials_foam or a.materials_fur }),
      severity = 2, because = "it is not rinsed, disinfected and dried between days",
      who = "wearer",
      controls = { "rinsed-and-dried" },
    }
  end,
  examples = example.join { {
    { "cleaned", given = { dried_and_cleaned = "yes" }, expect = nothing },
    { "foam, put on damp", given = { dried_and_cleaned = "no", materials = "foam" },
      expect = hazard { likelihood = 4, severity = 2 } },
    { "plastic, put on damp", given = { dried_and_cleaned = "no", materials = "plastic" },
      expect = hazard { likelihood = 3, severity = 2 } },
    { "not known", given = { materials = "plastic" }, expect = hazard { likelihood = 3,
      severity = 2 } },
    { "cleaned from now on", given = { materials = "plastic" }, with = { "rinsed-and-dried" },
      expect = nothing },
  },
    example.edges({ dried_and_cleaned = "no" }, "materials", 2, { "fur", 4, "plastic", 3 }),
  },
}
