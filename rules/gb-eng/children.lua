-- Children who perform in England: hours, breaks, rest, licence, chaperones. The bands
-- follow the age on the day; the last runs until school age ends, on the last Friday in June
-- of the school year in which the child turns 16.

local regulations = {
  name = "Children (Performances and Activities) (England) Regulations 2014 (SI 2014/3309)",
  from = "2015-02-06",
}
local hackney = "SI 2014/3309 regs 21 and 22, as tabled by the London Borough of Hackney " ..
  "(second hand)"
local edges = "SI 2014/3309 reg 22: bands end on reaching 5 and 9 (from memory)"

local bands = {
  { under = "5 year", place = "5 h", work = "2 h", continuous = "30 min", latest = "22:00" },
  { under = "9 year", place = "8 h", work = "3 h", continuous = "2.5 h", latest = "23:00" },
  { place = "9.5 h", work = "5 h", continuous = "2.5 h", latest = "23:00" },
}

local function child(pd) return law.of_school_age(pd.person, pd.age, "16 year", "17 year") end

local adult = { age = "17 year" }
local twelve = { age = "12 year" }
local nine = { age = "9 year" }
local eight = { age = "8.99 year" }
local five = { age = "5 year" }
local four = { age = "4.99 year" }

-- Somebody at the place from 09:00 on, for so long.
local function until_time(facts, wrap)
  return example.like(facts, { ["day.child_call"] = "09:00", ["day.child_wrap"] = wrap })
end

rule {
  id = "gb-eng.children.hours-at-place",
  title = "Time at the place of performance",
  each = "person-day",
  harm = "child performers: tired out",
  sources = { hackney, edges, "Children and Young Persons Act 1963 s.37: until the last Friday in " ..
    "June of the school year of the 16th birthday" },
  when = child,
  assess = law.at_place { instrument = regulations, section = "reg 22", bands = bands },
  examples = law.cases({}, {
    { "9 h 30 min at nine", until_time(nine, "18:30"), true },
    { "a quarter longer", until_time(nine, "18:45"), false },
    { "8 h a day before nine", until_time(eight, "17:00"), true },
    { "a quarter longer, a day before nine", until_time(eight, "17:15"), false },
    { "5 h 15 min at five", until_time(five, "14:15"), true },
    { "5 h a day before five", until_time(four, "14:00"), true },
    { "a quarter longer, a day before five", until_time(four, "14:15"), false },
    { "the week of the fifth birthday", until_time({ ["person.born"] = "2022-03-09" }, "14:15"),
      true },
    { "a day too early", until_time({ ["person.born"] = "2022-03-10" }, "14:15"), false },
    { "release not known", until_time(twelve, "?"), false },
    { "age not known", until_time({}, "14:15"), false },
    { "sixteen, still of school age",
      until_time({ age = "16.9 year", ["person.school_age"] = "yes" }, "19:00"), false },
    { "sixteen, school over",
      until_time({ age = "16 year", ["person.school_age"] = "no" }, "19:00"), "none" },
    { "fifteen is of school age, whatever is said",
      until_time({ age = "15.99 year", ["person.school_age"] = "no" }, "19:00"), false },
    { "an adult", until_time(adult, "19:00"), "none" },
    { "before the regulations", until_time({ age = "9 year", ["day.date"] = "2015-02-05" },
      "19:00"), "none" },
    { "their first day", until_time({ age = "9 year", ["day.date"] = "2015-02-06" }, "19:00"),
      false },
  }),
}

rule {
  id = "gb-eng.children.performing",
  title = "Time performing and rehearsing",
  each = "person-day",
  harm = "child performers: tired out",
  sources = { hackney, edges },
  when = child,
  assess = law.working { instrument = regulations, section = "reg 22", bands = bands },
  examples = law.cases({}, {
    { "5 h at nine", { age = "9 year", ["day.child_performing_time"] = "5 h" }, true },
    { "more at nine", { age = "9 year", ["day.child_performing_time"] = "5.2 h" }, false },
    { "3 h before nine", { age = "8.99 year", ["day.child_performing_time"] = "3 h" }, true },
    { "more before nine", { age = "8.99 year", ["day.child_performing_time"] = "3.1 h" }, false },
    { "more at five", { age = "5 year", ["day.child_performing_time"] = "2.1 h" }, true },
    { "2 h before five", { age = "4.99 year", ["day.child_performing_time"] = "2 h" }, true },
    { "more before five", { age = "4.99 year", ["day.child_performing_time"] = "2.1 h" }, false },
    { "not known", { age = "12 year", ["day.child_performing_time"] = "?" }, false },
    { "an adult", adult, "none" },
  }),
}

rule {
  id = "gb-eng.children.continuous",
  title = "Time without a break",
  each = "person-day",
  harm = "child performers: tired out",
  sources = { hackney, edges },
  when = child,
  assess = law.continuous { instrument = regulations, section = "reg 22", bands = bands },
  examples = law.cases({}, {
    { "2 h 30 min at nine", { age = "9 year", ["day.child_continuous_time"] = "2.5 h" }, true },
    { "more at nine", { age = "9 year", ["day.child_continuous_time"] = "2.6 h" }, false },
    { "2 h 30 min before nine", { age = "8.99 year", ["day.child_continuous_time"] = "2.5 h" },
      true },
    { "more before nine", { age = "8.99 year", ["day.child_continuous_time"] = "2.6 h" }, false },
    { "more at five", { age = "5 year", ["day.child_continuous_time"] = "32 min" }, true },
    { "30 min before five", { age = "4.99 year", ["day.child_continuous_time"] = "30 min" }, true },
    { "more before five", { age = "4.99 year", ["day.child_continuous_time"] = "32 min" }, false },
    { "not known", { age = "12 year", ["day.child_continuous_time"] = "?" }, false },
    { "an adult", adult, "none" },
  }),
}

-- From one time to another, with leave for the night or without.
local function between(age, call, wrap, leave)
  return { age = age, ["day.child_call"] = call, ["day.child_wrap"] = wrap,
    ["day.child_night_permission"] = leave }
end

rule {
  id = "gb-eng.children.times-of-day",
  title = "Earliest and latest time at the place",
  each = "person-day",
  harm = "child performers: no night's rest",
  sources = { hackney, edges, "SI 2014/3309 reg 28: night work only with the authority's leave" },
  when = child,
  assess = law.times_of_day { instrument = regulations, section = "regs 21 and 28",
    bands = bands, earliest = "07:00", permission = true },
  examples = law.cases({}, {
    { "from seven to eleven", between("9 year", "07:00", "23:00", "no"), true },
    { "too early", between("9 year", "06:59", "15:00", "no"), false },
    { "too late at nine", between("9 year", "15:00", "23:01", "no"), false },
    { "too late, with leave", between("9 year", "15:00", "23:01", "yes"), true },
    { "leave not known", between("9 year", "15:00", "23:01", "?"), false },
    { "eleven before nine", between("8.99 year", "15:00", "23:00", "no"), true },
    { "too late before nine", between("8.99 year", "15:00", "23:01", "no"), false },
    { "after ten at five", between("5 year", "18:00", "22:01", "no"), true },
    { "ten before five", between("4.99 year", "18:00", "22:00", "no"), true },
    { "after ten before five", between("4.99 year", "18:00", "22:01", "no"), false },
    { "call not known", between("12 year", "?", "15:00", "no"), false },
    { "an adult", adult, "none" },
  }),
}

-- A day of so long, with a meal break and so many others.
local function day_with(wrap, meal, breaks)
  return until_time({ age = "12 year", ["day.child_meal_break"] = meal,
    ["day.child_short_breaks"] = breaks }, wrap)
end

rule {
  id = "gb-eng.children.breaks",
  title = "Meal break and other breaks",
  each = "person-day",
  harm = "child performers: tired and hungry in the water",
  sources = { "SI 2014/3309 reg 23, as summarised by a practitioner (second hand)",
    "SI 2014/3309 reg 23: under five a meal break, and rest whenever not performing (from memory)" },
  when = child,
  assess = function (pd)
    local day = pd.day
    local time = day.child_wrap - day.child_call
    if time <= q"4 h" then return end
    local breaks = time < q"8 h" and 1 or 2
    if pd.age < q"5 year" then breaks = 0 end
    duty { met = day.child_meal_break >= q"45 min" and day.child_short_breaks >= breaks,
      instrument = regulations, section = "reg 23",
      because = "at the place for {time}: a meal break of {day.child_meal_break} where 45 min " ..
        "is the least, and {day.child_short_breaks} other breaks of 15 min where {breaks} is " ..
          "the least",
      evidence = "the day's record of each break",
      values = { time = time, breaks = breaks }, controls = { "work-breaks" } }
  end,
  examples = law.cases({}, {
    { "4 h", day_with("13:00", "0 min", "0"), "none" },
    { "just over 4 h, nothing", day_with("13:10", "0 min", "0"), false },
    { "just over 4 h, a meal and a break", day_with("13:10", "45 min", "1"), true },
    { "meal too short", day_with("13:10", "44 min", "1"), false },
    { "no other break", day_with("13:10", "45 min", "0"), false },
    { "just under 8 h", day_with("16:50", "45 min", "1"), true },
    { "8 h, one break", day_with("17:00", "45 min", "1"), false },
    { "8 h, two", day_with("17:00", "45 min", "2"), true },
    { "under five, a meal alone", example.like(day_with("13:30", "45 min", "0"),
      { age = "4.99 year" }), true },
    { "under five, meal too short", example.like(day_with("13:30", "44 min", "0"),
      { age = "4.99 year" }), false },
    { "five, a meal alone", example.like(day_with("13:30", "45 min", "0"), { age = "5 year" }),
      false },
    { "meal not known", day_with("15:00", "?", "2"), false },
    { "an adult", until_time(adult, "18:00"), "none" },
  }),
}

rule {
  id = "gb-eng.children.overnight",
  title = "Rest between two days",
  each = "person-day",
  harm = "child performers: tired from the day before",
  sources = { "SI 2014/3309 reg 24: 12 h", "SI 2014/3309 reg 28: 16 h after the night, as in the " ..
    "Welsh text, WSI 2015/1757 reg 30 (second hand)" },
  when = child,
  assess = law.rest { instrument = regulations, section = "regs 24 and 28", least = "12 h",
    after_night = "16 h" },
  examples = law.cases({ age = "12 year", ["day.child_night_before"] = "no" }, {
    { "12 h", { ["day.child_rest_before"] = "12 h" }, true },
    { "less", { ["day.child_rest_before"] = "11.9 h" }, false },
    { "not known", { ["day.child_rest_before"] = "?" }, false },
    { "16 h after a night", { ["day.child_rest_before"] = "16 h",
      ["day.child_night_before"] = "yes" }, true },
    { "less after a night", { ["day.child_rest_before"] = "15.9 h",
      ["day.child_night_before"] = "yes" }, false },
    { "an adult", adult, "none" },
  }),
}

rule {
  id = "gb-eng.children.days-in-a-row",
  title = "Days in a row",
  each = "person-day",
  harm = "child performers: worn out",
  sources = { "SI 2014/3309 reg 26, as Middlesbrough Council has it (second hand)" },
  when = child,
  assess = law.days_in_a_row { instrument = regulations, section = "reg 26", most = 6 },
  examples = law.cases({ age = "12 year" }, {
    { "sixth day", { consecutive_days = "6" }, true },
    { "seventh day", { consecutive_days = "7" }, false },
    { "age not known", { age = "?", consecutive_days = "7" }, false },
    { "an adult", adult, "none" },
  }),
}

rule {
  id = "gb-eng.children.full-weeks",
  title = "Weeks on the most days allowed",
  each = "person-day",
  harm = "child performers: worn out over months",
  sources = { "SI 2014/3309 reg 27 (from memory); the Welsh and Scottish texts were read" },
  when = child,
  assess = law.full_weeks { instrument = regulations, section = "reg 27", most = 8, beside = "" },
  examples = law.cases({ age = "12 year" }, {
    { "eighth week", { ["person.full_weeks"] = "8" }, true },
    { "ninth week", { ["person.full_weeks"] = "9" }, false },
    { "not known", { ["person.full_weeks"] = "?" }, false },
    { "an adult", adult, "none" },
  }),
}

rule {
  id = "gb-eng.children.two-performances",
  title = "Rest between two performances",
  each = "person-day",
  harm = "child performers: tired in the second performance",
  sources = { "SI 2014/3309 reg 23 (second hand)" },
  when = function (pd) return child(pd) and pd.day.performances > 1 end,
  assess = function (pd)
    duty { met = pd.day.performance_gap >= q"1.5 h", instrument = regulations, section = "reg 23",
      because = "{day.performance_gap} between two performances; 1 h 30 min is the least",
      evidence = "the day's running order" }
  end,
  examples = law.cases({ age = "12 year", ["day.performances"] = "2" }, {
    { "one", { ["day.performances"] = "1" }, "none" },
    { "an hour and a half between", { ["day.performance_gap"] = "1.5 h" }, true },
    { "less between", { ["day.performance_gap"] = "1.4 h" }, false },
    { "gap not known", { ["day.performance_gap"] = "?" }, false },
    { "an adult, two performances", adult, "none" },
  }),
}

rule {
  id = "gb-eng.children.licence",
  title = "Licence for a child who performs",
  each = "person-day",
  harm = "child performers: nobody outside has looked at the work",
  sources = { "Children and Young Persons Act 1963 s.37; Middlesbrough and Hackney guidance: " ..
    "needed when paid, away from school, or performing on more than 3 days in 6 months (second " ..
      "hand)" },
  when = function (pd) return pd.person.role == "performer" and child(pd) end,
  assess = law.permit { instrument = "Children and Young Persons Act 1963", section = "s.37" },
  examples = law.cases({ age = "12 year", ["person.role"] = "performer",
      ["person.performance_licence"] = "yes", ["day.date"] = "2027-03-09",
      ["person.licence_until"] = "2027-03-30" }, {
    { "held", {}, true },
    { "its last day", { ["person.licence_until"] = "2027-03-09" }, true },
    { "over the day before", { ["person.licence_until"] = "2027-03-08" }, false },
    { "not held", { ["person.performance_licence"] = "no" }, false },
    { "not known", { ["person.performance_licence"] = "?" }, false },
    { "end not known", { ["person.licence_until"] = "?" }, false },
    { "a child who only visits", { ["person.role"] = "visitor" }, "none" },
    { "an adult", adult, "none" },
  }),
}

rule {
  id = "gb-eng.children.chaperones",
  title = "Chaperones for the children called",
  each = "day",
  harm = "child performers: nobody whose only job is the child",
  sources = { "SI 2014/3309 reg 15 (from memory)" },
  when = function (d) return d.children > 0 end,
  assess = law.ratio { instrument = regulations, section = "reg 15", adults = "chaperones",
    per = 12 },
  examples = law.cases({}, {
    { "no children", { children = "0" }, "none" },
    { "one for twelve", { children = "12", chaperones = "1" }, true },
    { "one for thirteen", { children = "13", chaperones = "1" }, false },
    { "none for one", { children = "1", chaperones = "0" }, false },
    { "not known", { children = "1", chaperones = "?" }, false },
  }),
}

rule {
  id = "gb-eng.children.danger",
  title = "Performance in which life or limb may be endangered",
  each = "immersion",
  harm = "child performers: a performance the law forbids under 16",
  sources = { "Children and Young Persons Act 1933 s.23 (from memory)" },
  when = function (i) return i.age < q"16 year" and law.under_water(i) end,
  assess = law.danger { instrument = "Children and Young Persons Act 1933", section = "s.23",
    authority = "the licensing authority" },
  examples = law.cases({ age = "15.99 year" }, {
    { "holding breath", { breath_hold = "1 s", breathes_gas = "no" }, "open" },
    { "on gas", { breath_hold = "0 s", breathes_gas = "yes" }, "open" },
    { "face dry", { breath_hold = "0 s", breathes_gas = "no" }, "none" },
    { "sixteen", { age = "16 year", breath_hold = "10 s" }, "none" },
    { "age not known", { age = "?", breath_hold = "10 s", breathes_gas = "no" }, "open" },
  }),
}
