-- Exposure: how many hours, how many people at once, how many of them under 18. What
-- goes wrong once in so many hours goes wrong in proportion to them. No published
-- table says where to ask again: the limits are common practice, and an insurer's own
-- pack may tighten them.

local before_the_camera = {
  performer = true, ["stunt-performer"] = true, ["stand-in"] = true, visitor = true,
}

local function hours_of(day)
  local total = q"0 h"
  for _, one in ipairs(day.person_days) do
    if before_the_camera[one.person.role] then total = total + one.time end
  end
  return total
end

rule {
  id = "underwriting.hours-day",
  title = "Performer-hours under water in one day",
  each = "day",
  harm = "performers: tired, and so many chances for something to happen",
  sources = { "common practice: 3 h under water a day as the ceiling for one performer, so 6 h " ..
    "is two performers at it and 9 h three" },
  limits = { few = { at_most = "2 h" }, some = { at_most = "4 h" }, many = { at_most = "6 h" },
    most = { at_most = "9 h" } },
  assess = function (d, limit)
    local total = hours_of(d)
    local likelihood = scale.limit(total, limit.few, limit.some, limit.many, limit.most)
    if likelihood < 2 then return end
    hazard {
      likelihood = likelihood, severity = 3, who = "performers of the day",
      because = "{total} of performers' time under water on this day", values = { total = total },
      controls = { "split-days", "double-shares" },
    }
  end,
  examples = {
    { "two hours", given = { ["person_days.1.time"] = "2 h" }, expect = nothing },
    { "a little over two", given = { ["person_days.1.time"] = "2 h 6 min" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "four hours", given = { ["person_days.1.time"] = "4 h" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "a little over four", given = { ["person_days.1.time"] = "4 h 12 min" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "six hours", given = { ["person_days.1.time"] = "6 h" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "a little over six", given = { ["person_days.1.time"] = "6 h 18 min" },
      expect = hazard { likelihood = 4, severity = 3 } },
    { "nine hours", given = { ["person_days.1.time"] = "9 h" },
      expect = hazard { likelihood = 4, severity = 3 } },
    { "a little over nine", given = { ["person_days.1.time"] = "9 h 30 min" },
      expect = hazard { likelihood = 5, severity = 3 } },
    { "a safety diver's hours are not performers'",
      given = { ["person_days.1.time"] = "9 h", ["person_days.1.person.role"] = "safety-diver" },
      expect = nothing },
    { "nobody knows how long", given = {}, expect = hazard { likelihood = 5, severity = 3 } },
  },
}

rule {
  id = "underwriting.hours-production",
  title = "Performer-hours under water in the whole schedule",
  each = "production",
  harm = "performers: so many chances for something to happen",
  sources = { "common practice: asked about above 10 performer-hours, again at each doubling" },
  limits = { few = { at_most = "10 h" }, some = { at_most = "20 h" }, many = { at_most = "40 h" },
    most = { at_most = "80 h" } },
  assess = function (p, limit)
    local total = q"0 h"
    for _, day in ipairs(p.days) do total = total + hours_of(day) end
    local likelihood = scale.limit(total, limit.few, limit.some, limit.many, limit.most)
    if likelihood < 2 then return end
    hazard {
      likelihood = likelihood, severity = 3, who = "all performers",
      because = "{total} of performers' time under water over the schedule",
      values = { total = total }, controls = { "double-shares" },
    }
  end,
  examples = {
    { "ten hours", given = { ["days.1.person_days.1.time"] = "10 h" }, expect = nothing },
    { "a little over ten", given = { ["days.1.person_days.1.time"] = "10 h 30 min" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "twenty", given = { ["days.1.person_days.1.time"] = "20 h" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "a little over twenty", given = { ["days.1.person_days.1.time"] = "21 h" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "forty", given = { ["days.1.person_days.1.time"] = "40 h" },
      expect = hazard { likelihood = 3, severity = 3 } },
    { "a little over forty", given = { ["days.1.person_days.1.time"] = "42 h" },
      expect = hazard { likelihood = 4, severity = 3 } },
    { "eighty", given = { ["days.1.person_days.1.time"] = "80 h" },
      expect = hazard { likelihood = 4, severity = 3 } },
    { "a little over eighty", given = { ["days.1.person_days.1.time"] = "84 h" },
      expect = hazard { likelihood = 5, severity = 3 } },
    { "the safety divers' hours",
      given = { ["days.1.person_days.1.time"] = "84 h",
        ["days.1.person_days.1.person.role"] = "safety-diver" }, expect = nothing },
    { "not known, for two people",
      given = { ["days.1.tasks.1.immersions.2.person.role"] = "performer" },
      expect = hazard { likelihood = 4, severity = 3 } },
  },
}

rule {
  id = "underwriting.accumulation",
  title = "Many people under water at once",
  each = "task",
  harm = "everyone in the water: one event reaches all of them",
  sources = { "common practice: named in the schedule from 4 people on" },
  assess = function (t)
    local together = t.people_under_water
    if together < 4 then return end
    note { because = "{together} people under water at once: one event reaches all of them",
      values = { together = together } }
  end,
  examples = {
    { "three", given = { people_under_water = "3" }, expect = nothing },
    { "four", given = { people_under_water = "4" }, expect = note {} },
    { "three or four, not known which", given = { people_under_water = "3..4" },
      expect = note {} },
  },
}

rule {
  id = "underwriting.minors",
  title = "Under 18 and under water",
  each = "person-day",
  harm = "young performer: smaller reserve, cools faster, does not refuse",
  sources = { "common practice: 15 min a day is little, 1 h a day the most without asking again" },
  limits = { little = { at_most = "15 min" }, some = { at_most = "30 min" },
    much = { at_most = "60 min" }, most = { at_most = "90 min" } },
  when = function (d) return d.age < q"18 year" end,
  assess = function (d, limit)
    hazard {
      likelihood = scale.limit(d.time, limit.little, limit.some, limit.much, limit.most),
      severity = scale.vulnerable(3, { true }), who = "1 person under 18",
      because = "aged {age}, {time} under water on this day", controls = { "shorter-bottom-time" },
    }
  end,
  examples = example.join { {
    { "a quarter of an hour", given = { age = "12 year", time = "15 min" },
      expect = hazard { likelihood = 1, severity = 4 } },
    { "a little more", given = { age = "12 year", time = "16 min" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "half an hour", given = { age = "12 year", time = "30 min" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "over half an hour", given = { age = "12 year", time = "32 min" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "an hour", given = { age = "12 year", time = "60 min" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "over an hour", given = { age = "12 year", time = "63 min" },
      expect = hazard { likelihood = 4, severity = 4 } },
    { "an hour and a half", given = { age = "12 year", time = "90 min" },
      expect = hazard { likelihood = 4, severity = 4 } },
    { "over that", given = { age = "12 year", time = "95 min" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "seventeen", given = { age = "17 year", time = "20 min" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "eighteen", given = { age = "18 year", time = "95 min" }, expect = nothing },
    { "age not known", given = { time = "20 min" },
      expect = hazard { likelihood = 2, severity = 4 } },
  },
    { { "an hour at most", given = { age = "12 year", ["immersions.1.time"] = "95 min", ["day.records"] = "none" },
        with = { "shorter-bottom-time" }, expect = hazard { likelihood = 3, severity = 4 } } },
  },
}
