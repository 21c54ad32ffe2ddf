-- Certificates that have run out on the day of this revision, run out before the last
-- day of the schedule, or leave no room for it to run over. What has run out on a given
-- day is in the records of that day (records.lua of the common rules); here the
-- reviewer sees it coming.

local function last_day(production)
  local last = production.on
  for _, day in ipairs(production.days) do last = max(last, day.date) end
  return last
end

local function lapses(what, until_when, production, room, severity)
  local last = last_day(production)
  local to_spare = until_when - last
  if to_spare >= room then return end
  local likelihood = 2
  local because = "holds until {until}: {spare} past the last day, no room to run over"
  if until_when < last then
    likelihood, because = 4, "runs out on {until}, before the last day, {last}"
  end
  if until_when < production.on then
    likelihood, because = 5, "had run out on {until} when this revision was drawn up"
  end
  hazard {
    about = what, likelihood = likelihood, severity = severity, who = "everyone who relies on it",
    because = because, controls = { "renewed-certificates" },
    values = { ["until"] = until_when, last = last, spare = to_spare },
  }
end

local sources = { "the certificate's own date, measured against the schedule; common practice: " ..
  "two weeks for a schedule that runs over" }
local reasoning = "a date that has passed is expected, one that passes during the work likely, " ..
  "one that passes soon after unlikely"
local limits = { room = { at_least = "14 day" } }

-- The day of the revision is 9 March 2027 in these examples, and so is the only day of work.
local function examples_of(fact, severity)
  local found = function (likelihood)
    return hazard { likelihood = likelihood, severity = severity }
  end
  return {
    { "two weeks to spare", given = { [fact] = "2027-03-23" }, expect = nothing },
    { "a day less", given = { [fact] = "2027-03-22" }, expect = found(2) },
    { "holds on the last day", given = { [fact] = "2027-03-09" }, expect = found(2) },
    { "runs out between the revision and the last day",
      given = { [fact] = "2027-03-09", ["production.days.1.date"] = "2027-03-10" },
      expect = found(4) },
    { "ran out the day before", given = { [fact] = "2027-03-08" }, expect = found(5) },
    { "not known", given = {}, expect = found(5) },
    { "renewed", given = { [fact] = "2027-03-23" }, with = { "renewed-certificates" },
      expect = nothing },
  }
end

rule {
  id = "underwriting.structure-certificate",
  title = "Certificate of the tank's structure over the schedule",
  each = "structure", harm = "everyone in and below the tank",
  sources = sources, reasoning = reasoning, limits = limits,
  when = function (s) return s.rated_depth > q"0 m" end,
  assess = function (s, limit)
    lapses("structure", s.certificate_until, s.production, limit.room, 4)
  end,
  examples = examples_of("certificate_until", 4),
}

rule {
  id = "underwriting.window-certificate",
  title = "Certificate of windows over the schedule",
  each = "structure", harm = "everyone at the window",
  sources = sources, reasoning = reasoning, limits = limits,
  when = function (s) return s.windows > 0 end,
  assess = function (s, limit)
    lapses("windows", s.window_certificate_until, s.production, limit.room, 4)
  end,
  examples = example.join { examples_of("window_certificate_until", 4),
    example.edges({ window_certificate_until = "2027-03-08" }, "windows", 4, { "0", nothing, "1", 5 }),
  },
}

rule {
  id = "underwriting.cylinder-test",
  title = "Test of cylinders over the schedule",
  each = "supply", harm = "whoever fills, carries or breathes from it",
  sources = sources, reasoning = reasoning, limits = limits,
  assess = function (s, limit)
    lapses("cylinders", s.cylinder_test_until, s.production, limit.room, 4)
  end,
  examples = examples_of("cylinder_test_until", 4),
}

rule {
  id = "underwriting.rig-certificate",
  title = "Certificate of a machine over the schedule",
  each = "rig", harm = "everyone at, on or below it",
  sources = sources, reasoning = reasoning, limits = limits,
  assess = function (r, limit)
    lapses("machine", r.certificate_until, r.production, limit.room, 4)
  end,
  examples = examples_of("certificate_until", 4),
}

rule {
  id = "underwriting.qualification",
  title = "Qualification of somebody on post over the schedule",
  each = "person", harm = "whoever they watch over",
  sources = sources, reasoning = reasoning, limits = limits,
  when = function (p)
    return p.role == "diving-supervisor" or p.role == "safety-diver" or p.role == "standby-diver"
      or p.role == "lifeguard" or p.role == "medic"
  end,
  assess = function (p, limit)
    lapses("qualification", p.qualification_until, p.production, limit.room, 3)
  end,
  examples = (function ()
    local all = examples_of("qualification_until", 3)
    for _, one in ipairs(all) do one.given.role = "safety-diver" end
    for _, role in ipairs { "diving-supervisor", "standby-diver", "lifeguard", "medic" } do
      table.insert(all, { role .. ", ran out",
        given = { role = role, qualification_until = "2027-03-08" },
        expect = hazard { likelihood = 5, severity = 3 } })
    end
    table.insert(all, { "a performer needs none",
      given = { role = "performer", qualification_until = "2027-03-08" }, expect = nothing })
    return all
  end)(),
}

rule {
  id = "underwriting.fit-to-dive",
  title = "Medical certificate of whoever goes in over the schedule",
  each = "person", harm = "whoever dives unfit",
  sources = { "Diving at Work Regulations 1997 reg 15: a certificate of fitness holds for 12 " ..
    "months at most; common practice: two weeks for a schedule that runs over" },
  reasoning = reasoning, limits = limits,
  when = function (p) return #p.immersions > 0 end,
  assess = function (p, limit)
    lapses("fitness", p.medical_on + q"365 day", p.production, limit.room, 4)
  end,
  examples = {
    { "two weeks to spare", given = { medical_on = "2026-03-23" }, expect = nothing },
    { "a day less", given = { medical_on = "2026-03-22" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "a year on the last day", given = { medical_on = "2026-03-09" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "a year over between the revision and the last day",
      given = { medical_on = "2026-03-09", ["production.days.1.date"] = "2027-03-10" },
      expect = hazard { likelihood = 4, severity = 4 } },
    { "a year and a day", given = { medical_on = "2026-03-08" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "not known", given = {}, expect = hazard { likelihood = 5, severity = 4 } },
    { "stays dry", given = { immersions = "none", medical_on = "2025-03-08" }, expect = nothing },
  },
}
