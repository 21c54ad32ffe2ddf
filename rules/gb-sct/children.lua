-- Children who perform in Scotland. The bands are those of England, the hours within them
-- are not: less time performing, shorter stretches, longer meals, and a later start and earlier
-- end for the youngest. School age ends on a leaving date that the birthday decides.

local regulations = {
  name = "Children (Performances and Activities) (Scotland) Regulations 2014 (SSI 2014/372)",
  from = "2015-02-20",
}
local authority = "SSI 2014/372 part 5, as tabled in a licensing authority's guidance (second hand)"
local leaving = "Education (Scotland) Act 1980 s.33: born from March to September, the last of May; " ..
  "else the Christmas holiday"

local bands = {
  { under = "5 year", place = "5 h", work = "2 h", continuous = "45 min", earliest = "08:00",
    latest = "20:00" },
  { under = "9 year", place = "8 h", work = "3 h", continuous = "1 h", earliest = "07:00",
    latest = "23:00" },
  { place = "9.5 h", work = "4 h", continuous = "1 h", earliest = "07:00", latest = "23:00" },
}

-- The youngest leave on the last of May before a birthday at the end of September, the oldest
-- on that day after one at the beginning of March.
local function child(pd) return law.of_school_age(pd.person, pd.age, "15.66 year", "16.25 year") end

local adult = { age = "16.25 year" }

local function until_time(age, wrap)
  return { age = age, ["day.child_call"] = "09:00", ["day.child_wrap"] = wrap }
end

rule {
  id = "gb-sct.children.hours-at-place",
  title = "Time at the place of performance",
  each = "person-day",
  harm = "child performers: tired out",
  sources = { authority, leaving },
  when = child,
  assess = law.at_place { instrument = regulations, section = "part 5", bands = bands },
  examples = law.cases({}, {
    { "9 h 30 min at nine", until_time("9 year", "18:30"), true },
    { "a quarter longer", until_time("9 year", "18:45"), false },
    { "8 h before nine", until_time("8.99 year", "17:00"), true },
    { "a quarter longer before nine", until_time("8.99 year", "17:15"), false },
    { "5 h 15 min at five", until_time("5 year", "14:15"), true },
    { "5 h before five", until_time("4.99 year", "14:00"), true },
    { "a quarter longer before five", until_time("4.99 year", "14:15"), false },
    { "release not known", until_time("12 year", "?"), false },
    { "before any leaving date", example.like(until_time("15.6 year", "19:00"),
      { ["person.school_age"] = "no" }), false },
    { "left school at fifteen and eight months", example.like(until_time("15.66 year", "19:00"),
      { ["person.school_age"] = "no" }), "none" },
    { "still at school at sixteen and two months", example.like(until_time("16.2 year", "19:00"),
      { ["person.school_age"] = "yes" }), false },
    { "past every leaving date", until_time("16.25 year", "19:00"), "none" },
    { "before the regulations", example.like(until_time("9 year", "19:00"),
      { ["day.date"] = "2015-02-19" }), "none" },
    { "their first day", example.like(until_time("9 year", "19:00"),
      { ["day.date"] = "2015-02-20" }), false },
  }),
}

rule {
  id = "gb-sct.children.performing",
  title = "Time performing and rehearsing",
  each = "person-day",
  harm = "child performers: tired out",
  sources = { authority },
  when = child,
  assess = law.working { instrument = regulations, section = "part 5", bands = bands },
  examples = law.cases({}, {
    { "4 h at nine", { age = "9 year", ["day.child_performing_time"] = "4 h" }, true },
    { "more at nine", { age = "9 year", ["day.child_performing_time"] = "4.2 h" }, false },
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
  id = "gb-sct.children.continuous",
  title = "Time without a break",
  each = "person-day",
  harm = "child performers: tired out",
  sources = { authority },
  when = child,
  assess = law.continuous { instrument = regulations, section = "part 5", bands = bands },
  examples = law.cases({}, {
    { "1 h at nine", { age = "9 year", ["day.child_continuous_time"] = "1 h" }, true },
    { "more at nine", { age = "9 year", ["day.child_continuous_time"] = "62 min" }, false },
    { "1 h at five", { age = "5 year", ["day.child_continuous_time"] = "1 h" }, true },
    { "more at five", { age = "5 year", ["day.child_continuous_time"] = "62 min" }, false },
    { "45 min before five", { age = "4.99 year", ["day.child_continuous_time"] = "45 min" }, true },
    { "more before five", { age = "4.99 year", ["day.child_continuous_time"] = "47 min" }, false },
    { "not known", { age = "12 year", ["day.child_continuous_time"] = "?" }, false },
    { "an adult", adult, "none" },
  }),
}

local function between(age, call, wrap, leave)
  return { age = age, ["day.child_call"] = call, ["day.child_wrap"] = wrap,
    ["day.child_night_permission"] = leave }
end

rule {
  id = "gb-sct.children.times-of-day",
  title = "Earliest and latest time at the place",
  each = "person-day",
  harm = "child performers: no night's rest",
  sources = { authority, "SSI 2014/372 reg 28: later only with leave, after midnight only where it " ..
    "cannot end before" },
  when = child,
  assess = law.times_of_day { instrument = regulations, section = "part 5 and reg 28",
    bands = bands, permission = true },
  examples = law.cases({}, {
    { "from seven to eleven", between("9 year", "07:00", "23:00", "no"), true },
    { "too early", between("9 year", "06:59", "15:00", "no"), false },
    { "too late", between("9 year", "15:00", "23:01", "no"), false },
    { "too late, with leave", between("9 year", "15:00", "23:01", "yes"), true },
    { "from seven to eleven before nine", between("8.99 year", "07:00", "23:00", "no"), true },
    { "too early before nine", between("8.99 year", "06:59", "15:00", "no"), false },
    { "too late before nine", between("8.99 year", "15:00", "23:01", "no"), false },
    { "before eight at five", between("5 year", "07:59", "15:00", "no"), true },
    { "from eight to eight before five", between("4.99 year", "08:00", "20:00", "no"), true },
    { "before eight before five", between("4.99 year", "07:59", "12:00", "no"), false },
    { "after eight before five", between("4.99 year", "16:00", "20:01", "no"), false },
    { "call not known", between("12 year", "?", "15:00", "no"), false },
    { "an adult", adult, "none" },
  }),
}

local function day_with(wrap, meal, second, age)
  return example.like(until_time(age or "12 year", wrap),
    { ["day.child_meal_break"] = meal, ["day.child_second_meal"] = second })
end

rule {
  id = "gb-sct.children.breaks",
  title = "Meal breaks",
  each = "person-day",
  harm = "child performers: tired and hungry in the water",
  sources = { authority },
  when = function (pd) return child(pd) and pd.age >= q"5 year" end,
  assess = function (pd)
    local day = pd.day
    local time = day.child_wrap - day.child_call
    if time <= q"3.5 h" then return end
    local second = time <= q"8 h" or day.child_second_meal >= q"30 min"
    duty { met = day.child_meal_break >= q"1 h" and second,
      instrument = regulations, section = "part 5",
      because = "at the place for {time}: a meal break of {day.child_meal_break} where 1 h is the " ..
        "least, and over 8 h a second of {day.child_second_meal} where 30 min is the least",
      evidence = "the day's record of each break",
      values = { time = time }, controls = { "work-breaks" } }
  end,
  examples = law.cases({}, {
    { "3 h 30 min", day_with("12:30", "0 min", "0 min"), "none" },
    { "just longer, no meal", day_with("12:40", "0 min", "0 min"), false },
    { "just longer, a meal", day_with("12:40", "60 min", "0 min"), true },
    { "meal too short", day_with("12:40", "59 min", "30 min"), false },
    { "8 h, one meal", day_with("17:00", "60 min", "0 min"), true },
    { "just over 8 h, one meal", day_with("17:10", "60 min", "0 min"), false },
    { "just over 8 h, two", day_with("17:10", "60 min", "30 min"), true },
    { "second too short", day_with("17:10", "60 min", "29 min"), false },
    { "meal not known", day_with("15:00", "?", "30 min"), false },
    { "at five", day_with("13:30", "0 min", "0 min", "5 year"), false },
    { "before five", day_with("13:30", "0 min", "0 min", "4.99 year"), "none" },
    { "an adult", day_with("18:00", "0 min", "0 min", "16.25 year"), "none" },
  }),
}

rule {
  id = "gb-sct.children.overnight",
  title = "Rest between two days",
  each = "person-day",
  harm = "child performers: tired from the day before",
  sources = { "SSI 2014/372 regs 22 and 28: 12 h, and 16 h after the night, as in a licensing " ..
    "authority's guidance (second hand)" },
  when = child,
  assess = law.rest { instrument = regulations, section = "regs 22 and 28", least = "12 h",
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
  id = "gb-sct.children.days-in-a-row",
  title = "Days in a row",
  each = "person-day",
  harm = "child performers: worn out",
  sources = { "SSI 2014/372 reg 26" },
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
  id = "gb-sct.children.full-weeks",
  title = "Weeks on the most days allowed",
  each = "person-day",
  harm = "child performers: worn out over months",
  sources = { "SSI 2014/372 reg 27: 14 days without a performance, a rehearsal or any other " ..
    "employment" },
  when = child,
  assess = law.full_weeks { instrument = regulations, section = "reg 27", most = 8,
    beside = ", from other employment too" },
  examples = law.cases({ age = "12 year" }, {
    { "eighth week", { ["person.full_weeks"] = "8" }, true },
    { "ninth week", { ["person.full_weeks"] = "9" }, false },
    { "not known", { ["person.full_weeks"] = "?" }, false },
    { "an adult", adult, "none" },
  }),
}

rule {
  id = "gb-sct.children.teacher",
  title = "Private teacher for children away from school",
  each = "day",
  harm = "child performers: schooling lost",
  sources = { "SSI 2014/372 reg 12(3) and (4): away for more than 5 school days under the licence; " ..
    "at most 5 other children at the same time" },
  when = function (d) return d.children > 0 and d.school_day and d.school_days_away > 5 end,
  assess = law.ratio { instrument = regulations, section = "reg 12(3) and (4)",
    adults = "teachers", per = 6 },
  examples = law.cases({ children = "6", teachers = "1", school_day = "yes",
      school_days_away = "6" }, {
    { "one for six", {}, true },
    { "one for seven", { children = "7" }, false },
    { "none for one", { children = "1", teachers = "0" }, false },
    { "none", { teachers = "0" }, false },
    { "not known", { teachers = "?" }, false },
    { "no children", { children = "0", teachers = "0" }, "none" },
    { "no school that day", { school_day = "no", teachers = "0" }, "none" },
    { "away five days", { school_days_away = "5", teachers = "0" }, "none" },
  }),
}

rule {
  id = "gb-sct.children.licence",
  title = "Licence for a child who performs",
  each = "person-day",
  harm = "child performers: nobody outside has looked at the work",
  sources = { "Children and Young Persons Act 1963 s.37, and SSI 2014/372 reg 1(3)", leaving },
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
    { "a child who only visits", { ["person.role"] = "visitor" }, "none" },
    { "an adult", adult, "none" },
  }),
}

rule {
  id = "gb-sct.children.chaperones",
  title = "Chaperones for the children called",
  each = "day",
  harm = "child performers: nobody whose only job is the child",
  sources = { "SSI 2014/372 part 4: at most 12 in charge (from memory)" },
  when = function (d) return d.children > 0 end,
  assess = law.ratio { instrument = regulations, section = "part 4", adults = "chaperones",
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
  id = "gb-sct.children.danger",
  title = "Performance in which life or limb may be endangered",
  each = "immersion",
  harm = "child performers: a performance the law forbids under 16",
  sources = { "Children and Young Persons (Scotland) Act 1937 s.33 (from memory)" },
  when = function (i) return i.age < q"16 year" and law.under_water(i) end,
  assess = law.danger { instrument = "Children and Young Persons (Scotland) Act 1937",
    section = "s.33", authority = "the education authority" },
  examples = law.cases({ age = "15.99 year" }, {
    { "holding breath", { breath_hold = "1 s", breathes_gas = "no" }, "open" },
    { "on gas", { breath_hold = "0 s", breathes_gas = "yes" }, "open" },
    { "face dry", { breath_hold = "0 s", breathes_gas = "no" }, "none" },
    { "sixteen", { age = "16 year", breath_hold = "10 s" }, "none" },
    { "age not known", { age = "?", breath_hold = "10 s", breathes_gas = "no" }, "open" },
  }),
}
