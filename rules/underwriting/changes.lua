-- What changed since the last revision. A <change> of the dossier says what came with
-- a revision, on its date.

rule {
  id = "underwriting.change-not-described",
  title = "This revision does not say what it changed",
  each = "production",
  harm = "everyone: nobody knows what to read again",
  sources = { "common practice: a line a revision, the first one too" },
  assess = function (p)
    for _, change in ipairs(p.changes) do
      if change.on >= p.on and change.on <= p.on then return end
    end
    note { because = "no change is described for the revision of {on}" }
  end,
  examples = {
    { "described", given = { on = "2027-03-09", ["changes.1.on"] = "2027-03-09" },
      expect = nothing },
    { "the last description is older", given = { on = "2027-03-10",
      ["changes.1.on"] = "2027-03-09" }, expect = note {} },
    { "described for a day still to come", given = { on = "2027-03-08",
      ["changes.1.on"] = "2027-03-09" }, expect = note {} },
    { "no line at all", given = { changes = "none" }, expect = note {} },
  },
}

rule {
  id = "underwriting.changes-many",
  title = "Many revisions in one week",
  each = "production",
  harm = "everyone: the stage works from different papers",
  sources = { "common practice: from the fourth revision within a week the papers in hand are " ..
    "collected and handed out anew" },
  limits = { week = { at_least = "7 day" }, some = { at_most = "3" }, many = { at_most = "5" } },
  assess = function (p, limit)
    local n = 0
    for _, change in ipairs(p.changes) do
      if p.on - change.on < limit.week then n = n + 1 end
    end
    local count = q"1" * n
    if count <= limit.some then return end
    local likelihood = scale.missing
    if count > limit.many then likelihood = likelihood + 1 end
    hazard {
      likelihood = likelihood, severity = 2, who = "everyone on the stage",
      because = "{count} revisions within a week of this one", values = { count = count },
    }
  end,
  examples = {
    { "three in a week", given = { ["changes.2.on"] = "2027-03-08",
      ["changes.3.on"] = "2027-03-03" }, expect = nothing },
    { "four", given = { ["changes.2.on"] = "2027-03-08", ["changes.3.on"] = "2027-03-05",
      ["changes.4.on"] = "2027-03-03" }, expect = hazard { likelihood = 3, severity = 2 } },
    { "the fourth a week ago", given = { ["changes.2.on"] = "2027-03-08",
      ["changes.3.on"] = "2027-03-05", ["changes.4.on"] = "2027-03-02" }, expect = nothing },
    { "five", given = { ["changes.2.on"] = "2027-03-08", ["changes.3.on"] = "2027-03-05",
      ["changes.4.on"] = "2027-03-05", ["changes.5.on"] = "2027-03-05" },
      expect = hazard { likelihood = 3, severity = 2 } },
    { "six", given = { ["changes.2.on"] = "2027-03-08", ["changes.3.on"] = "2027-03-05",
      ["changes.4.on"] = "2027-03-05", ["changes.5.on"] = "2027-03-05",
      ["changes.6.on"] = "2027-03-05" }, expect = hazard { likelihood = 4, severity = 2 } },
    { "nothing written down: the rule before says so", given = { changes = "none" },
      expect = nothing },
  },
}

rule {
  id = "underwriting.changed-late",
  title = "Changed shortly before the work",
  each = "day",
  harm = "everyone who works from the paper of the day before",
  sources = { "common practice: two days between a revision and the work; a signed briefing " ..
    "on the day where there are fewer" },
  limits = { lead = { at_least = "2 day" }, least = { at_least = "1 day" } },
  when = function (d) return d.date >= d.production.on end,
  assess = function (d, limit)
    local lead = d.date - d.production.on
    if lead >= limit.lead then return end
    hazard {
      likelihood = scale.protection(scale.missing, { d.briefing_signed }, { lead < limit.least }),
      severity = 3, who = "everyone on the stage",
      because = "{lead} from this revision to the day; briefing signed: {briefing_signed}",
      values = { lead = lead }, controls = { "dive-plan" },
    }
  end,
  examples = example.join { {
    { "two days", given = { date = "2027-03-11", briefing_signed = "no" }, expect = nothing },
    { "the day before", given = { date = "2027-03-10", briefing_signed = "no" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "the day before, briefed", given = { date = "2027-03-10", briefing_signed = "yes" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "the same day", given = { briefing_signed = "no" },
      expect = hazard { likelihood = 4, severity = 3 } },
    { "the same day, nobody knows who was briefed", given = {},
      expect = hazard { likelihood = 4, severity = 3 } },
    { "already shot", given = { date = "2027-03-08", briefing_signed = "no" }, expect = nothing },
  },
    { { "briefed and signed", given = { date = "2027-03-10", briefing_signed = "no" }, with = { "dive-plan" },
        expect = hazard { likelihood = 2, severity = 3 } } },
  },
}
