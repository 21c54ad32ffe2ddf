-- The papers behind the facts: evidence, checks of controls, waivers, and what changed.
-- These are about the dossier as it is written, and each is a prompt to ask, so the
-- severity stays low: a paper that is missing hurts nobody by itself.

rule {
  id = "underwriting.evidence-missing",
  title = "Little evidence for what is stated",
  each = "production",
  harm = "everyone: decided on hearsay",
  sources = { "common practice: a reviewer looks for 20 pieces of evidence, and asks below 10" },
  limits = { plenty = { at_least = "20" }, enough = { at_least = "10" }, few = { at_least = "5" },
    least = { at_least = "2" } },
  assess = function (p, limit)
    local likelihood = scale.minimum(p.evidence_count, limit.plenty, limit.enough, limit.few,
      limit.least)
    if likelihood < 2 then return end
    hazard {
      likelihood = likelihood, severity = 2, who = "everyone",
      because = "{evidence_count} pieces of evidence for all that is stated",
    }
  end,
  examples = {
    { "twenty", given = { evidence_count = "20" }, expect = nothing },
    { "nineteen", given = { evidence_count = "19" },
      expect = hazard { likelihood = 2, severity = 2 } },
    { "ten", given = { evidence_count = "10" },
      expect = hazard { likelihood = 2, severity = 2 } },
    { "nine", given = { evidence_count = "9" },
      expect = hazard { likelihood = 3, severity = 2 } },
    { "five", given = { evidence_count = "5" },
      expect = hazard { likelihood = 3, severity = 2 } },
    { "four", given = { evidence_count = "4" },
      expect = hazard { likelihood = 4, severity = 2 } },
    { "two", given = { evidence_count = "2" },
      expect = hazard { likelihood = 4, severity = 2 } },
    { "one", given = { evidence_count = "1" },
      expect = hazard { likelihood = 5, severity = 2 } },
    { "none at all", given = {}, expect = hazard { likelihood = 5, severity = 2 } },
  },
}

rule {
  id = "underwriting.evidence-weak",
  title = "Evidence that is an estimate, or that nobody can look up",
  each = "production",
  harm = "everyone: decided on hearsay",
  sources = { "common practice: a quarter of the evidence at most is an estimate or without a " ..
    "paper to look it up in" },
  limits = { share = { at_most = "0.25" }, most = { at_most = "0.5" } },
  when = function (p) return p.evidence_count > 0 end,
  assess = function (p, limit)
    local weak = max(p.evidence_estimates, p.evidence_without_reference)
    if weak <= limit.share * p.evidence_count then return end
    local likelihood = scale.missing
    if weak > limit.most * p.evidence_count then likelihood = likelihood + 1 end
    hazard {
      likelihood = likelihood, severity = 2, who = "everyone",
      because = "of {evidence_count} pieces of evidence {evidence_estimates} are estimates and " ..
        "{evidence_without_reference} name no paper",
    }
  end,
  examples = {
    { "a quarter estimated", given = { evidence_count = "40", evidence_estimates = "10",
      evidence_without_reference = "0" }, expect = nothing },
    { "a little more", given = { evidence_count = "40", evidence_estimates = "11",
      evidence_without_reference = "0" }, expect = hazard { likelihood = 3, severity = 2 } },
    { "half without a paper", given = { evidence_count = "40", evidence_estimates = "0",
      evidence_without_reference = "20" }, expect = hazard { likelihood = 3, severity = 2 } },
    { "over half", given = { evidence_count = "40", evidence_estimates = "0",
      evidence_without_reference = "21" }, expect = hazard { likelihood = 4, severity = 2 } },
    { "anything from none to all", given = { evidence_count = "40",
      evidence_estimates = "0..40" }, expect = hazard { likelihood = 4, severity = 2 } },
    { "one, and that an estimate", given = { evidence_count = "1", evidence_estimates = "1",
      evidence_without_reference = "0" }, expect = hazard { likelihood = 4, severity = 2 } },
    { "no evidence: the rule before says so", given = {}, expect = nothing },
  },
}

rule {
  id = "underwriting.evidence-old",
  title = "Measurements older than the work they are for",
  each = "production",
  harm = "everyone: decided on what was so once",
  sources = { "common practice: measured within the week before the revision, never a month " ..
    "before" },
  limits = { fresh = { at_most = "7 day" }, oldest = { at_most = "31 day" } },
  assess = function (p, limit)
    if p.evidence_age <= limit.fresh then return end
    local likelihood = scale.missing
    if p.evidence_age > limit.oldest then likelihood = likelihood + 1 end
    hazard {
      likelihood = likelihood, severity = 2, who = "everyone",
      because = "the oldest measurement is {evidence_age} older than this revision",
    }
  end,
  examples = {
    { "a week", given = { evidence_age = "7 day" }, expect = nothing },
    { "over a week", given = { evidence_age = "7.5 day" },
      expect = hazard { likelihood = 3, severity = 2 } },
    { "a month", given = { evidence_age = "31 day" },
      expect = hazard { likelihood = 3, severity = 2 } },
    { "over a month", given = { evidence_age = "33 day" },
      expect = hazard { likelihood = 4, severity = 2 } },
    { "some day in spring", given = { evidence_age = "0..60 day" },
      expect = hazard { likelihood = 4, severity = 2 } },
    { "no measurement", given = {}, expect = nothing },
  },
}

rule {
  id = "underwriting.controls-unproved",
  title = "Controls in place without evidence",
  each = "production",
  harm = "everyone: credited for what nobody saw",
  sources = { "common practice: a quarter of the controls in place at most without evidence; " ..
    "none claimed without who checked it and when" },
  limits = { share = { at_most = "0.25" }, most = { at_most = "0.5" } },
  assess = function (p, limit)
    if p.controls_unchecked > 0 then
      note { about = "unchecked", because = "{controls_unchecked} stated in-place without who " ..
        "checked and when; counted as planned" }
    end
    if p.controls_without_evidence <= limit.share * p.controls_in_place then return end
    local likelihood = scale.missing
    if p.controls_without_evidence > limit.most * p.controls_in_place then
      likelihood = likelihood + 1
    end
    hazard {
      likelihood = likelihood, severity = 3, who = "everyone the controls protect",
      because = "{controls_without_evidence} of {controls_in_place} controls in place have no " ..
        "evidence",
    }
  end,
  examples = {
    { "a quarter", given = { controls_in_place = "40", controls_without_evidence = "10" },
      expect = nothing },
    { "a little more", given = { controls_in_place = "40", controls_without_evidence = "11" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "half", given = { controls_in_place = "40", controls_without_evidence = "20" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "over half", given = { controls_in_place = "40", controls_without_evidence = "21" },
      expect = hazard { likelihood = 4, severity = 3 } },
    { "not known how many", given = { controls_in_place = "40",
      controls_without_evidence = "0..40" }, expect = hazard { likelihood = 4, severity = 3 } },
    { "one claimed, and nobody checked it", given = { controls_unchecked = "1" },
      expect = note {} },
    { "no control", given = {}, expect = nothing },
  },
}

rule {
  id = "underwriting.waivers-many",
  title = "Many rules set aside",
  each = "production",
  harm = "everyone the rules protect",
  sources = { "common practice: three waivers are read one by one, more than six are a way of " ..
    "working" },
  limits = { some = { at_most = "3" }, many = { at_most = "6" } },
  assess = function (p, limit)
    if p.waivers_refused > 0 then
      note { about = "refused", because = "{waivers_refused} waivers do not count: they lack " ..
        "who, why or until when, or run out before the last day" }
    end
    if p.waiver_count <= limit.some then return end
    local likelihood = scale.missing
    if p.waiver_count > limit.many then likelihood = likelihood + 1 end
    hazard {
      likelihood = likelihood, severity = 3, who = "everyone",
      because = "{waiver_count} waivers",
    }
  end,
  examples = {
    { "three", given = { waiver_count = "3" }, expect = nothing },
    { "four", given = { waiver_count = "4" }, expect = hazard { likelihood = 3, severity = 3 } },
    { "six", given = { waiver_count = "6" }, expect = hazard { likelihood = 3, severity = 3 } },
    { "seven", given = { waiver_count = "7" }, expect = hazard { likelihood = 4, severity = 3 } },
    { "not counted", given = { waiver_count = "0..9" },
      expect = hazard { likelihood = 4, severity = 3 } },
    { "one that does not count", given = { waiver_count = "1", waivers_refused = "1" },
      expect = note {} },
    { "none", given = {}, expect = nothing },
  },
}

rule {
  id = "underwriting.waiver-reach",
  title = "A waiver that runs on",
  each = "production",
  harm = "everyone the rule protects",
  sources = { "common practice: a month, and a quarter at the very most" },
  limits = { month = { at_most = "31 day" }, quarter = { at_most = "92 day" } },
  assess = function (p, limit)
    if p.waiver_reach <= limit.month then return end
    local likelihood = scale.missing
    if p.waiver_reach > limit.quarter then likelihood = likelihood + 1 end
    hazard {
      likelihood = likelihood, severity = 3, who = "everyone",
      because = "a waiver still holds {waiver_reach} after this revision",
    }
  end,
  examples = {
    { "a month", given = { waiver_reach = "31 day" }, expect = nothing },
    { "over a month", given = { waiver_reach = "33 day" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "a quarter", given = { waiver_reach = "92 day" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "over a quarter", given = { waiver_reach = "96 day" },
      expect = hazard { likelihood = 4, severity = 3 } },
    { "until some day this year", given = { waiver_reach = "0..300 day" },
      expect = hazard { likelihood = 4, severity = 3 } },
    { "no waiver", given = {}, expect = nothing },
  },
}

rule {
  id = "underwriting.waiver-by-author",
  title = "A waiver by whoever drew up the assessment",
  each = "production",
  harm = "everyone the rule protects: nobody else has looked",
  sources = { "common practice: whoever waives is not whoever drafts" },
  assess = function (p)
    if p.waivers_by_author < 1 then return end
    hazard {
      likelihood = scale.missing, severity = 3, who = "everyone",
      because = "{waivers_by_author} of {waiver_count} waivers are by whoever drew up this " ..
        "assessment",
    }
  end,
  examples = {
    { "by somebody else", given = { waiver_count = "1", waivers_by_author = "0" },
      expect = nothing },
    { "by the author", given = { waiver_count = "1", waivers_by_author = "1" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "perhaps", given = { waiver_count = "1", waivers_by_author = "0..1" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "no waiver", given = {}, expect = nothing },
  },
}
