-- Paper: plan, briefing, log, certificates and their dates, totals that must agree.

local function wet(site) return site.water_body ~= "none" end

local function diving(d)
  for _, t in ipairs(d.tasks) do
    for _, i in ipairs(t.immersions) do
      if i.breathes_gas then return true end
    end
  end
  return false
end

rule {
  id = "records.dive-plan",
  title = "Plan, approval, briefing or log of the day is missing",
  each = "day",
  harm = "everyone under water: the plan is in one head only",
  sources = { "Diving at Work Regulations 1997 reg 8: project plan; 29 CFR 1910.421(d): nine " ..
    "points; common practice: briefing signed" },
  when = function (d)
    for _, t in ipairs(d.tasks) do
      if #t.immersions > 0 then return true end
    end
    return false
  end,
  assess = function (d)
    local missing = scale.count { not d.briefing_signed }
    if diving(d) then
      missing = missing + scale.count { not d.dive_plan_written, not d.dive_plan_approved,
        not d.dive_log_kept }
    end
    if missing < 1 then return end
    hazard {
      likelihood = scale.within(missing + 1), severity = 3, who = "everyone under water",
      because = "the day's plan, its approval, the signed briefing or the log at each descent " ..
        "is missing", controls = { "dive-plan" },
    }
  end,
  examples = {
    { "complete", given = { ["tasks.1.immersions.1.breathes_gas"] = "yes",
      dive_plan_written = "yes", dive_plan_approved = "yes", briefing_signed = "yes",
      dive_log_kept = "yes" }, expect = nothing },
    { "briefing unsigned", given = { ["tasks.1.immersions.1.breathes_gas"] = "yes",
      dive_plan_written = "yes", dive_plan_approved = "yes", briefing_signed = "no",
      dive_log_kept = "yes" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "nothing known", given = {}, expect = hazard { likelihood = 5, severity = 3 } },
    { "nobody breathes gas", given = { ["tasks.1.immersions.1.breathes_gas"] = "no",
      briefing_signed = "yes" }, expect = nothing },
    { "written now", given = {}, with = { "dive-plan" }, expect = nothing },
    { "nobody wet", given = { ["tasks.1.immersions"] = "none" }, expect = nothing },
  },
}

rule {
  id = "records.log-total",
  title = "The log's total is not the sum of its entries",
  each = "record",
  harm = "diver or performer: exposure counted wrong",
  sources = { "common practice: totals by day and by seven days, added by machine" },
  assess = function (r)
    local total = q"0 min"
    for _, other in ipairs(r.day.records) do
      if same(other.person, r.person) then total = total + other.duration end
      if same(other, r) then break end
    end
    local off = abs(total - r.day_total_stated)
    if off <= q"1 min" then return end
    local likelihood = 3
    if off > q"15 min" then likelihood = 4 end
    hazard {
      likelihood = likelihood, severity = 2, who = "1 person",
      because = "the log says {r.day_total_stated}, its entries make {total}",
      values = { total = total, off = off },
      also = { "log-at-each-descent" },
    }
  end,
  examples = example.join { {
    { "agrees", given = { down = "10:52", up = "11:09", day_total_stated = "17 min" },
      expect = nothing },
    { "five minutes off", given = { down = "10:52", up = "11:09", day_total_stated = "22 min" },
      expect = hazard { likelihood = 3, severity = 2 } },
    { "half an hour off", given = { down = "10:52", up = "11:09", day_total_stated = "47 min" },
      expect = hazard { likelihood = 4, severity = 2 } },
    { "another person's entry does not count",
      given = { down = "11:30", up = "11:40", day_total_stated = "27 min",
        ["day.records.2.down"] = "10:52", ["day.records.2.up"] = "11:09",
                ["day.records.2.person.role"] = "performer" },
                expect = hazard { likelihood = 4, severity = 2 } },
    { "not written", given = { down = "10:52", up = "11:09" },
      expect = hazard { likelihood = 4, severity = 2 } },
  },
    example.edges({ down = "10:52", up = "11:09" }, "day_total_stated", 2,
      { "18 min", nothing, "18.05 min", 3, "32 min", 3, "32.5 min", 4 }),
  },
}

rule {
  id = "records.incident",
  title = "An incident in the log",
  each = "record",
  harm = "diver or performer: the next one is worse",
  sources = { "common practice: what went wrong is read before the person goes in again" },
  when = function (r) return r.incident ~= "none" end,
  assess = function (r)
    local what = r.incident
    hazard {
      likelihood = r.production.near_miss_reporting and 2 or 3,
      severity = (what == "light-headed" or what == "injury") and 4 or 2,
      because = "the log has: {r.incident}", who = "1 person", also = { "log-at-each-descent" },
    }
  end,
  examples = {
    { "nothing", given = { incident = "none" }, expect = nothing },
    { "cold", given = { incident = "cold", ["production.near_miss_reporting"] = "yes" },
      expect = hazard { likelihood = 2, severity = 2 } },
    { "light-headed, and nobody reads it", given = { incident = "light-headed",
      ["production.near_miss_reporting"] = "no" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "not filled in", given = { ["production.near_miss_reporting"] = "yes" },
      expect = hazard { likelihood = 2, severity = 4 } },
  },
}

-- A certificate that must not have run out on the day: one finding for each that has.
local function expired(what, day, runs_out, severity)
  if runs_out >= day.date then return end
  hazard {
    about = what, likelihood = 3, severity = severity, who = "everyone who relies on it",
    because = "ran out on {date}", values = { date = runs_out },
    controls = { "renewed-certificates" },
  }
end

-- A test that is too old on the day.
local function too_old(what, day, on, at_most, severity)
  local age = max(q"0 day", day.date - on)
  if age <= at_most then return end
  local likelihood = 3
  if age > at_most * 2 then likelihood = 4 end
  hazard {
    about = what, likelihood = likelihood, severity = severity, who = "everyone who relies on it",
    because = "{age} old on the day; {most} is the most", values = { age = age, most = at_most },
    controls = { "renewed-certificates" },
  }
end

rule {
  id = "records.window-certificate",
  title = "Certificate of a window with water behind it",
  each = "day",
  harm = "everyone at the window",
  sources = { "the certificate's own date, measured against the day" },
  when = function (d) return d.site.structure.windows > 0 end,
  assess = function (d) expired("window", d, d.site.structure.window_certificate_until, 4) end,
  examples = example.join { {
    { "holds", given = { ["site.structure.windows"] = "2",
      ["site.structure.window_certificate_until"] = "2027-11-30" }, expect = nothing },
    { "run out", given = { ["site.structure.windows"] = "2",
      ["site.structure.window_certificate_until"] = "2027-03-01" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "not known", given = { ["site.structure.windows"] = "2" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "no window", given = { ["site.structure.windows"] = "0" }, expect = nothing },
  },
    example.edges({ ["site.structure.windows"] = "1" }, "site.structure.window_certificate_until", 4,
      { "2027-03-09", nothing, "2027-03-08", 3 }),
  },
}

rule {
  id = "records.tank-inspection",
  title = "Inspection of walls, liner and anchors",
  each = "day",
  harm = "everyone in and below the tank",
  sources = { "common practice: a temporary tank each month, a permanent one each half year" },
  when = function (d)
    local body = d.site.water_body
    return body == "tank" or body == "stage-pool" or body == "flooded-set"
  end,
  assess = function (d)
    too_old("inspection", d, d.site.structure.inspected_on,
      d.site.structure.temporary and q"31 day" or q"183 day", 4)
  end,
  examples = example.join { {
    { "last month", given = { ["site.water_body"] = "tank", ["site.structure.temporary"] = "no",
      ["site.structure.inspected_on"] = "2027-02-15" }, expect = nothing },
    { "six weeks, temporary", given = { ["site.water_body"] = "stage-pool",
      ["site.structure.temporary"] = "yes", ["site.structure.inspected_on"] = "2027-01-25" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "last year, temporary", given = { ["site.water_body"] = "flooded-set",
      ["site.structure.temporary"] = "yes", ["site.structure.inspected_on"] = "2026-03-15" },
      expect = hazard { likelihood = 4, severity = 4 } },
    { "not known", given = { ["site.water_body"] = "tank", ["site.structure.temporary"] = "no" },
      expect = hazard { likelihood = 4, severity = 4 } },
    { "a lake", given = { ["site.water_body"] = "lake" }, expect = nothing },
  },
    -- 31 and 62 days before, and a day more; then 183
    example.edges({ ["site.water_body"] = "tank", ["site.structure.temporary"] = "yes" },
      "site.structure.inspected_on", 4,
      { "2027-02-06", nothing, "2027-02-05", 3, "2027-01-06", 3, "2027-01-05", 4 }),
    example.edges({ ["site.water_body"] = "tank", ["site.structure.temporary"] = "no" },
      "site.structure.inspected_on", 4, { "2026-09-07", nothing, "2026-09-06", 3 }),
  },
}

rule {
  id = "records.electrical-tests",
  title = "Tests of trips and installation near the water",
  each = "day",
  harm = "everyone wet",
  sources = { "US Navy Diving Manual 6-6.9: trips tested at intervals; common practice: trips " ..
    "timed each quarter, installation each year" },
  when = function (d) return wet(d.site) and d.site.power.mains_voltage > q"50 V" end,
  assess = function (d)
    too_old("trip", d, d.site.power.rcd_tested_on, q"92 day", 3)
    too_old("installation", d, d.site.power.inspected_on, q"366 day", 3)
  end,
  examples = example.join { {
    { "this week", given = { ["site.water_body"] = "tank", ["site.power.mains_voltage"] = "230 V",
      ["site.power.rcd_tested_on"] = "2027-03-07",
                ["site.power.inspected_on"] = "2026-09-18" }, expect = nothing },
    { "trip last summer", given = { ["site.water_body"] = "tank",
      ["site.power.mains_voltage"] = "230 V", ["site.power.rcd_tested_on"] = "2026-07-07",
                ["site.power.inspected_on"] = "2026-09-18" },
                expect = hazard { likelihood = 4, severity = 3 } },
    { "trip four months ago", given = { ["site.water_body"] = "tank",
      ["site.power.mains_voltage"] = "230 V", ["site.power.rcd_tested_on"] = "2026-11-07",
                ["site.power.inspected_on"] = "2026-09-18" },
                expect = hazard { likelihood = 3, severity = 3 } },
    { "not known", given = { ["site.water_body"] = "tank", ["site.power.mains_voltage"] = "230 V",
      ["site.power.inspected_on"] = "2026-09-18" },
      expect = hazard { likelihood = 4, severity = 3 } },
    { "no mains", given = { ["site.water_body"] = "tank", ["site.power.mains_voltage"] = "24 V" },
      expect = nothing },
  },
    example.edges({ ["site.water_body"] = "tank", ["site.power.rcd_tested_on"] = "2026-11-07",
      ["site.power.inspected_on"] = "2026-09-18" }, "site.power.mains_voltage", 3, { "50 V", nothing, "51 V", 3 }),
    -- 92 and 366 days before, and a day more
    example.edges({ ["site.water_body"] = "tank", ["site.power.mains_voltage"] = "230 V",
      ["site.power.inspected_on"] = "2026-09-18" }, "site.power.rcd_tested_on", 3,
      { "2026-12-07", nothing, "2026-12-06", 3 }),
    example.edges({ ["site.water_body"] = "tank", ["site.power.mains_voltage"] = "230 V",
      ["site.power.rcd_tested_on"] = "2027-03-07" }, "site.power.inspected_on", 3,
      { "2026-03-08", nothing, "2026-03-07", 3 }),
    example.edges({ ["site.power.mains_voltage"] = "230 V", ["site.power.rcd_tested_on"] = "2026-11-07",
      ["site.power.inspected_on"] = "2026-09-18" }, "site.water_body", 3, { "lake", 3, "none", nothing }),
  },
}

rule {
  id = "records.rig-certificates",
  title = "Certificate and examination of lifting and moving machines",
  each = "task",
  harm = "whoever is under or on it",
  sources = { "LOLER 1998 reg 9(3): 6 months where people are lifted, else 12; the " ..
    "certificate's own date" },
  assess = function (t)
    for _, r in ipairs(t.rigs) do
      local kind = r.kind
      if kind == "lift" or kind == "platform" or kind == "camera-crane" or kind == "dry-for-wet"
        or kind == "dump-tank" then
        expired(r.label .. ": certificate", t.day, r.certificate_until, 4)
        too_old(r.label .. ": examination", t.day, r.inspected_on,
          r.riders >= 1 and q"183 day" or q"366 day", 4)
      end
    end
  end,
  examples = example.join { {
    { "in date", given = { ["rigs.1.kind"] = "lift", ["rigs.1.certificate_until"] = "2027-08-31",
      ["rigs.1.inspected_on"] = "2027-02-22", ["rigs.1.riders"] = "4" },
      expect = nothing },
    { "people lifted, examined eight months ago",
      given = { ["rigs.1.kind"] = "lift", ["rigs.1.certificate_until"] = "2027-08-31",
        ["rigs.1.inspected_on"] = "2026-07-05", ["rigs.1.riders"] = "1" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "the same without people",
      given = { ["rigs.1.kind"] = "lift", ["rigs.1.certificate_until"] = "2027-08-31",
        ["rigs.1.inspected_on"] = "2026-07-05", ["rigs.1.riders"] = "0" },
      expect = nothing },
    { "not known", given = { ["rigs.1.kind"] = "dump-tank", ["rigs.1.inspected_on"] = "2027-02-22",
      ["rigs.1.riders"] = "0" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "examined three years ago",
      given = { ["rigs.1.kind"] = "platform", ["rigs.1.certificate_until"] = "2027-08-31",
        ["rigs.1.inspected_on"] = "2024-02-05", ["rigs.1.riders"] = "0" },
      expect = hazard { likelihood = 4, severity = 4 } },
    { "a wind machine", given = { ["rigs.1.kind"] = "wind-machine" }, expect = nothing },
  },
    example.edges({ ["rigs.1.kind"] = "lift", ["rigs.1.certificate_until"] = "2027-08-31", ["rigs.1.riders"] = "1" },
      "rigs.1.inspected_on", 4, { "2026-09-07", nothing, "2026-09-06", 3 }),
    example.edges({ ["rigs.1.kind"] = "camera-crane", ["rigs.1.certificate_until"] = "2027-08-31",
      ["rigs.1.riders"] = "0" }, "rigs.1.inspected_on", 4, { "2026-03-08", nothing, "2026-03-07", 3 }),
    example.edges({ ["rigs.1.certificate_until"] = "2027-02-01", ["rigs.1.inspected_on"] = "2027-02-22",
      ["rigs.1.riders"] = "0" }, "rigs.1.kind", 4,
      { "lift", 3, "platform", 3, "camera-crane", 3, "dry-for-wet", 3, "dump-tank", 3, "rain", nothing }),
  },
}

rule {
  id = "records.cylinders",
  title = "Cylinder test run out",
  each = "day",
  harm = "whoever fills or carries it: it bursts",
  sources = { "the stamp's own date, measured against the day" },
  assess = function (d)
    for _, s in ipairs(d.site.supplies) do expired(s.label .. ": cylinders", d,
      s.cylinder_test_until, 4) end
  end,
  examples = {
    { "holds", given = { ["site.supplies.1.cylinder_test_until"] = "2029-06-30" },
      expect = nothing },
    { "run out", given = { ["site.supplies.1.cylinder_test_until"] = "2027-02-28" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "not known", given = {}, expect = hazard { likelihood = 3, severity = 4 } },
  },
}

rule {
  id = "records.regulators",
  title = "Regulators and hoses not serviced within a year",
  each = "day",
  harm = "whoever breathes from it: gas fails",
  sources = { "29 CFR 1910.430 (from memory): hoses tested each year; common practice: " ..
    "regulators each year" },
  assess = function (d)
    for _, s in ipairs(d.site.supplies) do too_old(s.label .. ": regulators", d,
      s.regulators_serviced_on, q"366 day", 3) end
  end,
  examples = example.join { {
    { "in autumn", given = { ["site.supplies.1.regulators_serviced_on"] = "2026-11-20" },
      expect = nothing },
    { "fourteen months", given = { ["site.supplies.1.regulators_serviced_on"] = "2026-01-02" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "not known", given = {}, expect = hazard { likelihood = 4, severity = 3 } },
  },
    example.edges({}, "site.supplies.1.regulators_serviced_on", 3, { "2026-03-08", nothing, "2026-03-07", 3 }),
  },
}

rule {
  id = "records.qualification",
  title = "Qualification of somebody on post has run out",
  each = "post",
  harm = "whoever the post watches",
  sources = { "the certificate's own date, measured against the day" },
  when = function (p)
    local role = p.role
    return role == "diving-supervisor" or role == "safety-diver" or role == "standby-diver"
      or role == "lifeguard" or role == "medic"
  end,
  assess = function (p) expired("qualification", p.day, p.person.qualification_until, 3) end,
  examples = example.join { {
    { "holds", given = { role = "medic", ["person.qualification_until"] = "2028-09-30" },
      expect = nothing },
    { "ran out last week", given = { role = "safety-diver",
      ["person.qualification_until"] = "2027-03-01" }, expect = hazard { likelihood = 3,
      severity = 3 } },
    { "not known", given = { role = "lifeguard" }, expect = hazard { likelihood = 3,
      severity = 3 } },
    { "somebody who counts heads", given = { role = "head-counter" }, expect = nothing },
  },
    example.edges({ ["person.qualification_until"] = "2027-03-08" }, "role", 3,
      { "diving-supervisor", 3, "standby-diver", 3, "lifeguard", 3, "medic", 3 }),
    example.edges({ role = "lifeguard" }, "person.qualification_until", 3, { "2027-03-09", nothing, "2027-03-08", 3 }),
  },
}

rule {
  id = "records.mixing-valve",
  title = "Mixing valve of the showers not checked within half a year",
  each = "day",
  harm = "whoever showers: scald",
  sources = { "common practice: set and checked each half year" },
  when = function (d) return d.site.mixing_valve end,
  assess = function (d) too_old("mixing valve", d, d.site.mixing_valve_checked_on, q"183 day",
    2) end,
  examples = example.join { {
    { "last month", given = { ["site.mixing_valve"] = "yes",
      ["site.mixing_valve_checked_on"] = "2027-02-26" }, expect = nothing },
    { "last summer", given = { ["site.mixing_valve"] = "yes",
      ["site.mixing_valve_checked_on"] = "2026-07-26" },
      expect = hazard { likelihood = 3, severity = 2 } },
    { "not known", given = { ["site.mixing_valve"] = "yes" },
      expect = hazard { likelihood = 4, severity = 2 } },
    { "none fitted", given = { ["site.mixing_valve"] = "no" }, expect = nothing },
  },
    example.edges({ ["site.mixing_valve"] = "yes" }, "site.mixing_valve_checked_on", 2,
      { "2026-09-07", nothing, "2026-09-06", 3 }),
  },
}

rule {
  id = "records.water-log",
  title = "Water log and laboratory sample",
  each = "day",
  harm = "everyone in the water: nobody knows what it was like",
  sources = { "common practice: every test written down, a laboratory sample each month" },
  when = function (d)
    local body = d.site.water_body
    return body == "tank" or body == "pool" or body == "stage-pool" or body == "flooded-set"
  end,
  assess = function (d)
    too_old("sample", d, d.site.water.sampled_on, q"31 day", 2)
    if not (d.site.plant.log_kept and d.water_tested_before_entry) then
      hazard { about = "log", likelihood = 3, severity = 2,
        because = "the water is not tested before the first entry, or no log shows it",
               who = "everyone in the water", controls = { "water-test-schedule" } }
    end
  end,
  examples = example.join { {
    { "sampled last week, log kept", given = { ["site.water_body"] = "tank",
      ["site.water.sampled_on"] = "2027-03-04", ["site.plant.log_kept"] = "yes",
                water_tested_before_entry = "yes" }, expect = nothing },
    { "sampled at new year, no log", given = { ["site.water_body"] = "pool",
      ["site.water.sampled_on"] = "2027-01-04", ["site.plant.log_kept"] = "no" },
      expect = hazard { likelihood = 4, severity = 2 } },
    { "sampled six weeks ago", given = { ["site.water_body"] = "pool",
      ["site.water.sampled_on"] = "2027-01-26", ["site.plant.log_kept"] = "yes",
                water_tested_before_entry = "yes" }, expect = hazard { likelihood = 3,
                severity = 2 } },
    { "log not known", given = { ["site.water_body"] = "tank",
      ["site.water.sampled_on"] = "2027-03-04", water_tested_before_entry = "yes" },
      expect = hazard { likelihood = 3, severity = 2 } },
    { "a lake", given = { ["site.water_body"] = "lake" }, expect = nothing },
  },
    example.edges({ ["site.water_body"] = "pool", ["site.plant.log_kept"] = "yes",
      water_tested_before_entry = "yes" }, "site.water.sampled_on", 2, { "2027-02-06", nothing, "2027-02-05", 3 }),
    example.edges({ ["site.water.sampled_on"] = "2027-01-26", ["site.plant.log_kept"] = "yes",
      water_tested_before_entry = "yes" }, "site.water_body", 2, { "stage-pool", 3, "flooded-set", 3 }),
    example.edges({ ["site.water_body"] = "pool", ["site.water.sampled_on"] = "2027-03-04",
      ["site.plant.log_kept"] = "yes" }, "water_tested_before_entry", 2, { "yes", nothing, "no", 3 }),
    { { "tests timetabled and logged", given = { ["site.water_body"] = "pool",
        ["site.water.sampled_on"] = "2027-03-04", ["site.plant.log_kept"] = "no",
        water_tested_before_entry = "yes" }, with = { "water-test-schedule" }, expect = nothing } },
  },
}

rule {
  id = "records.induction",
  title = "Not shown the place and its dangers",
  each = "immersion",
  harm = "whoever is new here",
  sources = { "common practice: everyone is shown ways out, alarms and dangers before the " ..
    "first day, and again after a change" },
  assess = function (i) too_old("induction", i.day, i.person.inducted_on, q"92 day", 2) end,
  examples = example.join { {
    { "last week", given = { ["person.inducted_on"] = "2027-03-02" }, expect = nothing },
    { "four months ago", given = { ["person.inducted_on"] = "2026-11-02" },
      expect = hazard { likelihood = 3, severity = 2 } },
    { "a year ago", given = { ["person.inducted_on"] = "2026-03-02" },
      expect = hazard { likelihood = 4, severity = 2 } },
    { "not known", given = {}, expect = hazard { likelihood = 4, severity = 2 } },
  },
    example.edges({}, "person.inducted_on", 2, { "2026-12-07", nothing, "2026-12-06", 3 }),
  },
}

rule {
  id = "records.review",
  title = "The assessment is past its date of review",
  each = "day",
  harm = "everyone: decided on old facts",
  sources = { "Management of Health and Safety at Work Regulations 1999 reg 3(3): reviewed " ..
    "when no longer valid; the assessment's own date" },
  assess = function (d)
    if d.production.review_by < d.date then
      note { because = "to be looked at again by {by}: before this day",
        values = { by = d.production.review_by } }
    end
  end,
  examples = {
    { "in time", given = { ["production.review_by"] = "2027-03-14" }, expect = nothing },
    { "past", given = { ["production.review_by"] = "2027-03-01" }, expect = note {} },
    { "no date", given = {}, expect = note {} },
  },
}

rule {
  id = "records.standing-papers",
  title = "Appointments, policies and insurance",
  each = "production",
  harm = "everyone: nobody answers for it",
  sources = { "common practice: competent person in writing, near misses read out, everyone " ..
    "may stop; Insurance Act 2015 s.3: fair presentation" },
  assess = function (p)
    local missing = scale.count { not p.competent_person_appointed, not p.near_miss_reporting,
      not p.right_to_stop_briefed,
                                  not p.liability_insured, not p.health_declarations }
    if missing < 1 then return end
    hazard {
      likelihood = scale.within(missing + 1), severity = 2, who = "everyone",
      because = "a competent person in writing, near-miss reports, the right to stop, " ..
        "insurance or health declarations is missing",
    }
  end,
  examples = {
    { "complete", given = { competent_person_appointed = "yes", near_miss_reporting = "yes",
      right_to_stop_briefed = "yes", liability_insured = "yes",
                health_declarations = "yes" }, expect = nothing },
    { "no near-miss book", given = { competent_person_appointed = "yes", near_miss_reporting = "no",
      right_to_stop_briefed = "yes", liability_insured = "yes",
                health_declarations = "yes" }, expect = hazard { likelihood = 2, severity = 2 } },
    { "nothing known", given = {}, expect = hazard { likelihood = 5, severity = 2 } },
  },
}
