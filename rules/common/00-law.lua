-- What the packs of the jurisdictions have in common: children who perform are asked
-- the same few questions everywhere, and a pack answers them with a table of bands of age,
-- youngest first. A band has `under`, the age at which the next begins (the last has none),
-- and, as its law sets them:
--   place                  most time at the place in a day
--   work, work_no_school   most time performing and rehearsing; on a day without school
--   continuous             longest stretch without a break
--   earliest, latest       hours between which the child may be there
--   one_day                how much longer when engaged for one day only
-- Each function below makes the `assess` of a rule from what the law says:
--   instrument, section    what it is called (a text or { name, from, to }) and where it stands
-- Times are texts, read when the rule runs.

local function band(bands, age)
  for _, row in ipairs(bands) do
    if row.under == nil or age < q(row.under) then return row end
  end
end

-- School age binds surely below one age and surely not from another on; between them it
-- ends on a school leaving date, and the school knows.
local function of_school_age(person, age, surely, surely_not)
  if age < q(surely) then return true end
  return age < q(surely_not) and person.school_age
end

-- Whether anybody breathes gas under water in a task, on a day, in all.
local function task_dives(task)
  for _, i in ipairs(task.immersions) do
    if i.breathes_gas then return true end
  end
  return false
end

local function day_dives(day)
  for _, task in ipairs(day.tasks) do
    if task_dives(task) then return true end
  end
  return false
end

local function production_dives(production)
  for _, day in ipairs(production.days) do
    if day_dives(day) then return true end
  end
  return false
end

-- Under water so that air may fail: what an authority asks about before a child does it.
local function under_water(i) return i.breath_hold > q"0 s" or i.breathes_gas end

-- after_school: taken off when the child was at school that day; meal: how far a meal may
-- lengthen the day.
local function at_place(law)
  return function (pd)
    local day = pd.day
    local time = day.child_wrap - day.child_call
    local row = band(law.bands, pd.age)
    local limit = q(row.place)
    if law.after_school and day.child_attended_school then limit = limit - q(law.after_school) end
    if row.one_day and day.child_one_day then limit = limit + q(row.one_day) end
    if law.meal and limit > q"0 h" then limit = limit + min(day.child_meal_break, q(law.meal)) end
    duty { met = time <= limit, instrument = law.instrument, section = law.section,
      because = "at the place for {total}; at most {ceiling} at this age that day",
      evidence = "the day's record of when the child came and left",
      values = { total = time, ceiling = limit }, controls = { "split-days" } }
  end
end

local function working(law)
  return function (pd)
    local day, row = pd.day, band(law.bands, pd.age)
    local limit = q(row.work)
    if row.work_no_school and not day.school_day then limit = q(row.work_no_school) end
    if row.one_day and day.child_one_day then limit = limit + q(row.one_day) end
    duty { met = day.child_performing_time <= limit, instrument = law.instrument,
      section = law.section,
      because = "performing and rehearsing {total}; at most {ceiling} at this " ..
        "age that day",
      evidence = "the day's record of each time on set",
      values = { total = day.child_performing_time, ceiling = limit }, controls = { "split-days" } }
  end
end

local function continuous(law)
  return function (pd)
    local limit = q(band(law.bands, pd.age).continuous)
    duty { met = pd.day.child_continuous_time <= limit, instrument = law.instrument,
      section = law.section,
      because = "longest stretch without a break {total}; at most {ceiling} " ..
        "at this age",
      evidence = "the day's record of each break",
      values = { total = pd.day.child_continuous_time, ceiling = limit }, controls = { "work-breaks" } }
  end
end

-- earliest: a text, or in the bands; latest: a function of the person-day, or in the bands;
-- permission: whether an authority may allow the night.
local function times_of_day(law)
  return function (pd)
    local day, row = pd.day, law.bands and band(law.bands, pd.age) or {}
    local earliest = q(row.earliest or law.earliest)
    local latest = q(row.latest or law.latest(pd))
    local within = day.child_call >= earliest and day.child_wrap <= latest
    duty { met = within or (law.permission and day.child_night_permission or false),
      instrument = law.instrument, section = law.section,
      because = "from {day.child_call} to {day.child_wrap}; {earliest} to {latest} at this age",
      evidence = law.permission and "the day's record, or the authority's leave in writing"
        or "the day's record of when the child came and left",
      values = { earliest = earliest, latest = latest }, controls = { "split-days" } }
  end
end

-- least; after_night: after permitted work in the night, where the law says so.
local function rest(law)
  return function (pd)
    local day, least = pd.day, q(law.least)
    if law.after_night and day.child_night_before then least = q(law.after_night) end
    duty { met = day.child_rest_before >= least, instrument = law.instrument,
      section = law.section,
      because = "{day.child_rest_before} since leaving the place the day before; {least} is the " ..
        "least",
      evidence = "the records of both days", values = { least = least },
      controls = { "split-days" } }
  end
end

local function days_in_a_row(law)
  return function (pd)
    duty { met = pd.consecutive_days <= law.most, instrument = law.instrument,
      section = law.section,
      because = "day {consecutive_days} in a row in this schedule; at most {most}, rehearsals " ..
        "counted",
      evidence = "the schedule", values = { most = law.most } }
  end
end

local function full_weeks(law)
  return function (pd)
    duty { met = pd.person.full_weeks <= law.most, instrument = law.instrument,
      section = law.section, because = "week {person.full_weeks} in a row on the most days " ..
        "allowed; after {most} such weeks 14 days off" .. law.beside,
      evidence = "the schedule, and what the family says of other work",
      values = { most = law.most } }
  end
end

-- valid: how long such a permit can hold, where the law says; one that claims more is none.
local function permit(law)
  return function (pd)
    local p = pd.person
    local left = p.licence_until - pd.day.date
    local current = left >= q"0 day" and (law.valid == nil or left <= q(law.valid))
    duty { met = p.performance_licence and current, instrument = law.instrument,
      section = law.section,
      because = "held: {person.performance_licence}, good for {left} after this day" ..
        (law.valid and "; such a permit holds for at most " .. law.valid or ""),
      evidence = "the permit itself, seen", values = { left = left } }
  end
end

-- per: children for each adult of the field `adults`.
local function ratio(law)
  return function (d)
    local adults = d[law.adults]
    duty { met = adults * law.per >= d.children, instrument = law.instrument,
      section = law.section,
      because = "{adults} for {children} children; each may have at most {per} in charge",
      evidence = "names on the call sheet, and each one's approval",
      values = { adults = adults, per = law.per }, controls = {} }
  end
end

-- Whether a performance endangers a child is for an authority to say, before the day.
local function danger(law)
  return function (i)
    duty { met = nil, instrument = law.instrument, section = law.section,
      because = "somebody of {age} holds the breath or breathes gas under water: whether that " ..
        "endangers them is for " .. law.authority .. " to say before the day, on this assessment",
      evidence = "its answer in writing" }
  end
end

-- Examples of a duty that wants several things: met with all of them; not met without
-- any one, nor while one is not known.
local function needs(facts, names)
  local all, list = {}, {}
  for name, value in pairs(facts) do all[name] = value end
  for _, name in ipairs(names) do all[name] = "yes" end
  table.insert(list, { "all there", given = all, expect = duty { met = true } })
  for _, name in ipairs(names) do
    for _, value in ipairs({ "no", "?" }) do
      local given = {}
      for key, has in pairs(all) do given[key] = has end
      given[name] = value
      table.insert(list, { name .. " " .. value, given = given, expect = duty { met = false } })
    end
  end
  return list
end

-- Rows of examples: a name, what it has otherwise than `facts`, and whether the duty is met
-- ("open" and "none" too).
local expected = { ["true"] = duty { met = true }, ["false"] = duty { met = false },
  open = duty {}, none = nothing }

local function cases(facts, rows)
  local list = {}
  for _, row in ipairs(rows) do
    table.insert(list, { row[1], given = example.like(facts, row[2]),
      expect = expected[tostring(row[3])] })
  end
  return list
end

share("law", {
  band = band,
  of_school_age = of_school_age,
  task_dives = task_dives,
  day_dives = day_dives,
  production_dives = production_dives,
  under_water = under_water,
  at_place = at_place,
  working = working,
  continuous = continuous,
  times_of_day = times_of_day,
  rest = rest,
  days_in_a_row = days_in_a_row,
  full_weeks = full_weeks,
  permit = permit,
  ratio = ratio,
  danger = danger,
  needs = needs,
  cases = cases,
})
