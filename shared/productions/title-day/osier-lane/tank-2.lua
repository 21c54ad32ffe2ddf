-- What is special about tank 2 at Osier Lane, for every production that comes here.
--
-- A pack is a folder of files like this one. It is loaded after the rules that come with
-- tankside, either because the dossier names it (packs="osier-lane") or with --pack. It
-- may add facts, rules and controls, tighten a limit and raise a score. It can take nothing
-- back: a rule that should not count is set aside in the dossier, by a <waiver> that says
-- who, why and until when.
--
-- Prove it after each change:   tankside rules check --pack osier-lane
-- See what a rule says:         tankside rules try osier-lane.ledge DOSSIER --pack osier-lane

-- ---- facts of our own ----------------------------------------------------------
-- Written in the dossier as <fact name="ledge-depth" value="1.1 m"/> inside <basin>.
-- Between low and high lies what we would believe. Whoever leaves it out is asked for it,
-- and until then every depth between the two counts.

fact {
  entity = "basin", name = "ledge-depth", type = "quantity", unit = "m",
  low = "0.3 m", high = "2 m", sees = "open",
  meaning = "depth of water over the ledge along the north wall",
  measured = "pole, at the shallowest place", asked = "water technician",
}

fact {
  entity = "basin", name = "ledge-marked", type = "flag", sees = "open",
  meaning = "a line of floats shows where the ledge ends",
  measured = "seen from the deck", asked = "safety officer",
}

-- ---- a limit tightened ----------------------------------------------------------
-- `tankside rules explain place.ways-out` shows the rule and its limits. Only the stricter
-- way is taken: "20 m" here would be an error.

tighten {
  rule = "place.ways-out", limit = "spacing", to = "10 m",
  because = "the north wall has no ladder, and swimmers keep away from the ledge",
}

-- ---- a score raised --------------------------------------------------------------
-- Adds a step to the likelihood of whatever the rule finds; 5 stays the most.

raise {
  rule = "place.wet-deck", likelihood = 1,
  because = "two falls on the north steps in the last twelve months: accident book",
}

-- ---- a control of our own ---------------------------------------------------------
-- `changes` says what is so once it is in place; the rules then work out what that is worth.

control {
  id = "osier-lane.float-line", title = "Line of floats along the ledge", kind = "engineering",
  say = "Stretch the line of floats one metre outside the ledge, and stay outside it.",
  check = "seen from the deck, pulled by hand", often = "before each session",
  who = "safety officer",
  changes = { { fact = "basin.ledge-marked", becomes = "yes" } },
  source = "common practice",
}

-- ---- a rule of our own --------------------------------------------------------------
-- Asked of each immersion. What it needs and what there is are compared by `scale`, so that
-- it scores as any other rule would.

rule {
  id = "osier-lane.ledge",
  title = "The ledge along the north wall",
  each = "immersion",
  harm = "performer: strikes the ledge while sinking or swimming without sight",
  sources = { "common practice: room for twice the depth of a sinking body below the surface; " ..
    "tank log of Osier Lane, two grazes in 2026" },
  limits = { room = { at_least = "1.5 m" } },
  when = function (i) return i.eyes_open or not i.mask end,
  assess = function (i, limit)
    local ledge = i.site.basin.ledge_depth
    if ledge >= limit.room * 1.2 then return end
    hazard {
      likelihood = scale.protection(scale.missing, { i.site.basin.ledge_marked, i.escorted },
        { ledge < limit.room, i.first_time }),
      severity = 3, who = "1 performer",
      because = "{site.basin.ledge_depth} over the ledge; marked: {site.basin.ledge_marked}, " ..
        "escorted: {escorted}",
      controls = { "osier-lane.float-line" },
    }
  end,
  -- On each side of every limit, one with a fact not known, one with the control in place.
  examples = (function ()
    local like = example.like
    local base = { eyes_open = "yes", mask = "no", ["site.basin.ledge_depth"] = "1.4 m",
      ["site.basin.ledge_marked"] = "no", escorted = "no", first_time = "no" }
    local marked = { "osier-lane.float-line" }
    return {
      { "deep enough", given = like(base, { ["site.basin.ledge_depth"] = "1.8 m" }),
        expect = nothing },
      { "nearly", given = like(base, { ["site.basin.ledge_depth"] = "1.75 m" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "just room enough", given = like(base, { ["site.basin.ledge_depth"] = "1.5 m" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "too shallow", given = base, expect = hazard { likelihood = 4, severity = 3 } },
      { "too shallow, escorted", given = like(base, { escorted = "yes" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "for the first time", given = like(base, { first_time = "yes" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "nobody has measured it", given = like(base, { ["site.basin.ledge_depth"] = "?" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "eyes shut, no mask", given = like(base, { eyes_open = "no" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "sees, with a mask on", given = like(base, { eyes_open = "no", mask = "yes" }),
        expect = nothing },
      { "with the line of floats", given = base, with = marked,
        expect = hazard { likelihood = 3, severity = 3 } },
    }
  end)(),
}
