-- Minors in the entertainment industry in California. The last band runs to 18; who was at
-- school that day has six hours less. A minor who has finished school works as an adult does:
-- that is for the permit office to say, not asked here.

local regulations = "Employment of Minors in the Entertainment Industry, 8 CCR 11750 to 11765"
local code = "California Labor Code"
local reference = "8 CCR 11760, quick reference of the Division of Labor Standards Enforcement"

local bands = {
  { under = "15 day", place = "0 h", work = "0 h" },
  { under = "0.5 year", place = "2 h", work = "20 min" },
  { under = "2 year", place = "4 h", work = "2 h" },
  { under = "6 year", place = "6 h", work = "3 h" },
  { under = "9 year", place = "8 h", work = "4 h", work_no_school = "6 h" },
  { under = "16 year", place = "9 h", work = "5 h", work_no_school = "7 h" },
  { place = "10 h", work = "6 h", work_no_school = "8 h" },
}

local function minor(pd) return pd.age < q"18 year" end

local adult = { age = "18 year" }

-- At the place from 08:00 on, without a meal break and not from school.
local function until_time(age, wrap)
  return { age = age, ["day.child_call"] = "08:00", ["day.child_wrap"] = wrap,
    ["day.child_meal_break"] = "0 min", ["day.child_attended_school"] = "no" }
end

rule {
  id = "us-ca.children.hours-at-place",
  title = "Time at the place of employment",
  each = "person-day",
  harm = "child performers: tired out",
  sources = { reference, "8 CCR 11761: half an hour longer for a meal; DLSE policy: six hours less " ..
    "after regular school" },
  when = minor,
  assess = law.at_place { instrument = regulations, section = "§ 11760 and § 11761", bands = bands,
    after_school = "6 h", meal = "0.5 h" },
  examples = law.cases({}, {
    { "nobody under fifteen days", until_time("14.9 day", "08:01"), false },
    { "a meal changes nothing there", example.like(until_time("14.9 day", "08:20"),
      { ["day.child_meal_break"] = "30 min" }), false },
    { "2 h at fifteen days", until_time("15 day", "10:00"), true },
    { "longer before six months", until_time("0.49 year", "10:06"), false },
    { "longer at six months", until_time("0.5 year", "10:06"), true },
    { "4 h before two", until_time("1.99 year", "12:00"), true },
    { "longer before two", until_time("1.99 year", "12:10"), false },
    { "longer at two", until_time("2 year", "12:10"), true },
    { "6 h before six", until_time("5.99 year", "14:00"), true },
    { "longer before six", until_time("5.99 year", "14:10"), false },
    { "longer at six", until_time("6 year", "14:10"), true },
    { "8 h before nine", until_time("8.99 year", "16:00"), true },
    { "longer before nine", until_time("8.99 year", "16:10"), false },
    { "longer at nine", until_time("9 year", "16:10"), true },
    { "9 h before sixteen", until_time("15.99 year", "17:00"), true },
    { "longer before sixteen", until_time("15.99 year", "17:10"), false },
    { "longer at sixteen", until_time("16 year", "17:10"), true },
    { "10 h before eighteen", until_time("17.99 year", "18:00"), true },
    { "longer before eighteen", until_time("17.99 year", "18:10"), false },
    { "an adult", until_time("18 year", "20:00"), "none" },
    { "half an hour's meal", example.like(until_time("12 year", "17:30"),
      { ["day.child_meal_break"] = "30 min" }), true },
    { "an hour's meal adds no more", example.like(until_time("12 year", "17:32"),
      { ["day.child_meal_break"] = "60 min" }), false },
    { "3 h after school", example.like(until_time("12 year", "11:00"),
      { ["day.child_attended_school"] = "yes" }), true },
    { "longer after school", example.like(until_time("12 year", "11:06"),
      { ["day.child_attended_school"] = "yes" }), false },
    { "release not known", until_time("12 year", "?"), false },
    { "school not known", example.like(until_time("12 year", "12:00"),
      { ["day.child_attended_school"] = "?" }), false },
  }),
}

local function worked(age, time, school)
  return { age = age, ["day.child_performing_time"] = time, ["day.school_day"] = school }
end

rule {
  id = "us-ca.children.work",
  title = "Time at work",
  each = "person-day",
  harm = "child performers: tired out",
  sources = { reference },
  when = minor,
  assess = law.working { instrument = regulations, section = "§ 11760", bands = bands },
  examples = law.cases({}, {
    { "nothing under fifteen days", worked("14.9 day", "1 min", "no"), false },
    { "20 min before six months", worked("0.49 year", "20 min", "no"), true },
    { "more before six months", worked("0.49 year", "21 min", "no"), false },
    { "2 h before two", worked("1.99 year", "2 h", "no"), true },
    { "more before two", worked("1.99 year", "2.1 h", "no"), false },
    { "3 h before six", worked("5.99 year", "3 h", "no"), true },
    { "more before six", worked("5.99 year", "3.1 h", "no"), false },
    { "4 h before nine, school", worked("8.99 year", "4 h", "yes"), true },
    { "more before nine, school", worked("8.99 year", "4.1 h", "yes"), false },
    { "6 h before nine, no school", worked("8.99 year", "6 h", "no"), true },
    { "more before nine, no school", worked("8.99 year", "6.1 h", "no"), false },
    { "5 h before sixteen, school", worked("15.99 year", "5 h", "yes"), true },
    { "more before sixteen, school", worked("15.99 year", "5.1 h", "yes"), false },
    { "7 h before sixteen, no school", worked("15.99 year", "7 h", "no"), true },
    { "more before sixteen, no school", worked("15.99 year", "7.1 h", "no"), false },
    { "6 h at sixteen, school", worked("16 year", "6 h", "yes"), true },
    { "more at sixteen, school", worked("16 year", "6.1 h", "yes"), false },
    { "8 h at sixteen, no school", worked("16 year", "8 h", "no"), true },
    { "more at sixteen, no school", worked("16 year", "8.1 h", "no"), false },
    { "school not known", worked("12 year", "6 h", "?"), false },
    { "an adult", worked("18 year", "9 h", "no"), "none" },
  }),
}

rule {
  id = "us-ca.children.day-and-week",
  title = "Eight hours a day, forty-eight a week",
  each = "person-day",
  harm = "child performers: worn out",
  sources = { "California Labor Code 1308.7 and 1392" },
  when = minor,
  assess = function (pd)
    duty { met = pd.day.child_performing_time <= q"8 h" and pd.day.child_week_time <= q"48 h",
      instrument = code, section = "s.1308.7 and s.1392", evidence = "the records of the week",
      because = "{day.child_performing_time} that day where 8 h is the most, " ..
        "{day.child_week_time} in seven days where 48 h is",
      controls = { "split-days" } }
  end,
  examples = law.cases({ age = "17.99 year", ["day.child_performing_time"] = "8 h",
      ["day.child_week_time"] = "48 h" }, {
    { "at both limits", {}, true },
    { "a longer day", { ["day.child_performing_time"] = "8.1 h" }, false },
    { "a longer week", { ["day.child_week_time"] = "49 h" }, false },
    { "not known", { ["day.child_week_time"] = "?" }, false },
    { "an adult", adult, "none" },
  }),
}

local function between(call, wrap, school_tomorrow)
  return { age = "17.99 year", ["day.child_call"] = call, ["day.child_wrap"] = wrap,
    ["day.next_school_day"] = school_tomorrow }
end

rule {
  id = "us-ca.children.times-of-day",
  title = "Earliest and latest hour",
  each = "person-day",
  harm = "child performers: no night's rest",
  sources = { "California Labor Code 1308.7: 5 a.m. to 10 p.m., to half past midnight before a day " ..
    "without school" },
  when = minor,
  assess = law.times_of_day { instrument = code, section = "s.1308.7", earliest = "05:00",
    latest = function (pd) return pd.day.next_school_day and "22:00" or "24:30" end },
  examples = law.cases({}, {
    { "from five to ten", between("05:00", "22:00", "yes"), true },
    { "too early", between("04:59", "12:00", "yes"), false },
    { "too late before school", between("15:00", "22:01", "yes"), false },
    { "to half past midnight", between("15:00", "24:30", "no"), true },
    { "too late", between("15:00", "24:31", "no"), false },
    { "school not known", between("15:00", "23:00", "?"), false },
    { "an adult", adult, "none" },
  }),
}

rule {
  id = "us-ca.children.rest",
  title = "Rest between dismissal and the next call",
  each = "person-day",
  harm = "child performers: tired from the day before",
  sources = { "8 CCR 11760(i), as a studio teacher's page has it (second hand)" },
  when = minor,
  assess = law.rest { instrument = regulations, section = "§ 11760(i)", least = "12 h" },
  examples = law.cases({ age = "17.99 year" }, {
    { "12 h", { ["day.child_rest_before"] = "12 h" }, true },
    { "less", { ["day.child_rest_before"] = "11.9 h" }, false },
    { "not known", { ["day.child_rest_before"] = "?" }, false },
    { "an adult", adult, "none" },
  }),
}

rule {
  id = "us-ca.children.school",
  title = "Schooling and rest on a school day",
  each = "person-day",
  harm = "child performers: schooling and play lost to work",
  sources = { "8 CCR 11760: three hours of school and one of rest and recreation, as studio teachers' " ..
    "pages have it (second hand)" },
  when = function (pd) return minor(pd) and pd.age >= q"6 year" and pd.day.school_day end,
  assess = function (pd)
    local day = pd.day
    local on_set = day.child_school_time >= q"3 h" and day.child_recreation_time >= q"1 h"
    duty { met = on_set or day.child_attended_school, instrument = regulations,
      section = "§ 11760", evidence = "the studio teacher's record",
      because = "school {day.child_school_time} where 3 h is the least, rest and recreation " ..
        "{day.child_recreation_time} where 1 h is; at school before coming: " ..
          "{day.child_attended_school}" }
  end,
  examples = law.cases({ age = "6 year", ["day.school_day"] = "yes",
      ["day.child_school_time"] = "3 h", ["day.child_recreation_time"] = "1 h",
      ["day.child_attended_school"] = "no" }, {
    { "both", {}, true },
    { "too little school", { ["day.child_school_time"] = "2.9 h" }, false },
    { "too little rest", { ["day.child_recreation_time"] = "58 min" }, false },
    { "was at school", { ["day.child_school_time"] = "0 h",
      ["day.child_attended_school"] = "yes" }, true },
    { "not known", { ["day.child_school_time"] = "?" }, false },
    { "no school that day", { ["day.school_day"] = "no" }, "none" },
    { "before six", { age = "5.99 year" }, "none" },
    { "an adult", adult, "none" },
  }),
}

rule {
  id = "us-ca.children.studio-teacher",
  title = "Studio teachers for the minors called",
  each = "day",
  harm = "child performers: nobody who may say no for them",
  sources = { "8 CCR 11755.2, as the Division of Labor Standards Enforcement states it: one for ten, " ..
    "one for twenty on Saturdays, Sundays, holidays and in vacation" },
  when = function (d) return d.children > 0 end,
  assess = function (d)
    local per = d.school_day and 10 or 20
    duty { met = d.teachers * per >= d.children, instrument = regulations, section = "§ 11755.2",
      evidence = "names and certificates on the call sheet",
      because = "{teachers} studio teachers for {children} minors; each may have at most {per} that " ..
        "day; for those of sixteen and more where their schooling wants it",
      values = { per = per } }
  end,
  examples = law.cases({ teachers = "1", school_day = "yes" }, {
    { "one for ten, school", { children = "10" }, true },
    { "one for eleven, school", { children = "11" }, false },
    { "one for twenty, no school", { children = "20", school_day = "no" }, true },
    { "one for twenty-one, no school", { children = "21", school_day = "no" }, false },
    { "none for one", { children = "1", teachers = "0" }, false },
    { "not known", { children = "1", teachers = "?" }, false },
    { "no minors", { children = "0" }, "none" },
  }),
}

rule {
  id = "us-ca.children.teacher-may-stop",
  title = "The studio teacher may take a minor away",
  each = "day",
  harm = "child performers: danger seen and not stopped",
  sources = { "8 CCR 11755.3: health, safety and morals; may refuse to let a minor work (from memory)" },
  when = function (d) return d.children > 0 end,
  assess = function (d)
    duty { met = d.teacher_may_stop, instrument = regulations, section = "§ 11755.3",
      evidence = "the briefing, signed by the teacher",
      because = "the teacher has been told that they may stop a take or take a child away: " ..
        "{teacher_may_stop}" }
  end,
  examples = example.join { law.needs({ children = "1" }, { "teacher_may_stop" }),
    law.cases({}, { { "no minors", { children = "0" }, "none" } }) },
}

rule {
  id = "us-ca.children.guardian",
  title = "Parent or guardian within sight or sound",
  each = "person-day",
  harm = "child performers: nobody of their own",
  sources = { "8 CCR 11757, as a studio teacher's page has it (second hand)" },
  when = function (pd) return pd.age < q"16 year" end,
  assess = function (pd)
    duty { met = pd.day.child_guardian_near, instrument = regulations, section = "§ 11757",
      evidence = "seen on the day",
      because = "a parent or guardian within sight or sound: {day.child_guardian_near}" }
  end,
  examples = example.join { law.needs({ age = "15.99 year" }, { "day.child_guardian_near" }),
    law.cases({}, { { "sixteen", { age = "16 year" }, "none" } }) },
}

rule {
  id = "us-ca.children.preparation",
  title = "Make-up and wardrobe under a studio teacher",
  each = "person-day",
  harm = "child performers: hours in the chair that nobody counts",
  sources = { "8 CCR 11762: up to an hour without one where school is out and a parent is there" },
  when = function (pd) return pd.age < q"16 year" end,
  assess = function (pd)
    local day = pd.day
    local short = pd.preparation_time <= q"1 h" and not day.school_day and day.child_guardian_near
    duty { met = day.teachers >= 1 or short, instrument = regulations, section = "§ 11762",
      evidence = "the studio teacher's record",
      because = "{preparation_time} in make-up and costume; studio teachers {day.teachers}; school " ..
        "day: {day.school_day}; a parent there: {day.child_guardian_near}",
      controls = { "shorter-preparation" } }
  end,
  examples = law.cases({ age = "15.99 year", preparation_time = "1 h", ["day.school_day"] = "no",
      ["day.child_guardian_near"] = "yes", ["day.teachers"] = "0" }, {
    { "an hour, school out, a parent there", {}, true },
    { "longer", { preparation_time = "1.05 h" }, false },
    { "longer, under a teacher", { preparation_time = "3 h", ["day.teachers"] = "1" }, true },
    { "a school day", { ["day.school_day"] = "yes" }, false },
    { "no parent", { ["day.child_guardian_near"] = "no" }, false },
    { "teachers not known", { preparation_time = "3 h", ["day.teachers"] = "?" }, false },
    { "sixteen", { age = "16 year", preparation_time = "3 h" }, "none" },
  }),
}

rule {
  id = "us-ca.children.permit",
  title = "Entertainment work permit",
  each = "person-day",
  harm = "child performers: nobody outside has looked at the work",
  sources = { "California Labor Code 1308.5 and 1308.6; 8 CCR 11753: for six months" },
  when = minor,
  assess = law.permit { instrument = regulations, section = "§ 11753, and Labor Code s.1308.5",
    valid = "184 day" },
  examples = law.cases({ age = "17.99 year", ["person.performance_licence"] = "yes",
      ["day.date"] = "2027-03-09", ["person.licence_until"] = "2027-03-30" }, {
    { "held", {}, true },
    { "its last day", { ["person.licence_until"] = "2027-03-09" }, true },
    { "over the day before", { ["person.licence_until"] = "2027-03-08" }, false },
    { "six months on", { ["person.licence_until"] = "2027-09-09" }, true },
    { "longer than any can hold", { ["person.licence_until"] = "2027-09-10" }, false },
    { "not held", { ["person.performance_licence"] = "no" }, false },
    { "not known", { ["person.performance_licence"] = "?" }, false },
    { "an adult", adult, "none" },
  }),
}

rule {
  id = "us-ca.children.permit-to-employ",
  title = "Permit to employ minors",
  each = "day",
  harm = "child performers: an employer nobody has looked at",
  sources = { "California Labor Code 1308.5; 8 CCR 11751 to 11754" },
  when = function (d) return d.children > 0 end,
  assess = function (d)
    duty { met = d.production.permit_to_employ_children, instrument = regulations,
      section = "§ 11754", evidence = "the permit itself, seen",
      because = "held by the producer: {production.permit_to_employ_children}" }
  end,
  examples = example.join {
    law.needs({ children = "1" }, { "production.permit_to_employ_children" }),
    law.cases({}, { { "no minors", { children = "0" }, "none" } }) },
}

local function baby(age, call, wrap)
  return { age = age, ["day.child_call"] = call, ["day.child_wrap"] = wrap, ["day.infants"] = "3",
    ["day.teachers"] = "1", ["day.nurses"] = "1", ["person.medical"] = "general-doctor" }
end

rule {
  id = "us-ca.children.infants",
  title = "Infants under six months",
  each = "person-day",
  harm = "infants: harmed by the work itself",
  sources = { "California Labor Code 1308.8: under one month a doctor certifies; 8 CCR 11760(a) and " ..
    "11764: 9.30 to 11.30 or 14.30 to 16.30, a studio teacher and a nurse for three infants under " ..
      "six weeks, for ten under six months, as studio teachers' pages have it (second hand)" },
  when = function (pd) return pd.age < q"0.5 year" end,
  assess = function (pd)
    local day = pd.day
    local morning = day.child_call >= q"09:30" and day.child_wrap <= q"11:30"
    local afternoon = day.child_call >= q"14:30" and day.child_wrap <= q"16:30"
    local per = pd.age < q"42 day" and 3 or 10
    local staff = day.teachers * per >= day.infants and day.nurses * per >= day.infants
    local certified = pd.age >= q"30 day" or pd.person.medical == "general-doctor"
    duty { met = (morning or afternoon) and staff and certified, instrument = regulations,
      section = "§ 11760(a) and § 11764, and Labor Code s.1308.8",
      evidence = "the call sheet, the nurse's name and the doctor's certificate",
      because = "{age} old, from {day.child_call} to {day.child_wrap}; {day.teachers} teachers and " ..
        "{day.nurses} nurses for {day.infants} infants, at most {per} each; found fit by: " ..
          "{person.medical}",
      values = { per = per } }
  end,
  examples = law.cases({}, {
    { "a morning", baby("16 day", "09:30", "11:30"), true },
    { "too early", baby("16 day", "09:29", "11:00"), false },
    { "too late in the morning", baby("16 day", "09:30", "11:31"), false },
    { "an afternoon", baby("16 day", "14:30", "16:30"), true },
    { "between the two", baby("16 day", "14:29", "16:30"), false },
    { "too late", baby("16 day", "14:30", "16:31"), false },
    { "no certificate", example.like(baby("29 day", "09:30", "11:30"),
      { ["person.medical"] = "none" }), false },
    { "no certificate at a month", example.like(baby("30 day", "09:30", "11:30"),
      { ["person.medical"] = "none" }), true },
    { "four for one nurse", example.like(baby("41 day", "09:30", "11:30"),
      { ["day.infants"] = "4", ["day.teachers"] = "2" }), false },
    { "four for one teacher", example.like(baby("41 day", "09:30", "11:30"),
      { ["day.infants"] = "4", ["day.nurses"] = "2" }), false },
    { "ten for one nurse at six weeks", example.like(baby("42 day", "09:30", "11:30"),
      { ["day.infants"] = "10" }), true },
    { "eleven for one nurse", example.like(baby("42 day", "09:30", "11:30"),
      { ["day.infants"] = "11", ["day.teachers"] = "2" }), false },
    { "eleven for one teacher", example.like(baby("0.49 year", "09:30", "11:30"),
      { ["day.infants"] = "11", ["day.nurses"] = "2" }), false },
    { "nurses not known", example.like(baby("42 day", "09:30", "11:30"),
      { ["day.nurses"] = "?" }), false },
    { "six months", baby("0.5 year", "09:00", "13:00"), "none" },
  }),
}

rule {
  id = "us-ca.children.infant-light",
  title = "Light on infants",
  each = "immersion",
  harm = "infants: eyes",
  sources = { "8 CCR 11760(a): 100 foot-candles, 30 seconds at a time, as a studio teacher's page has " ..
    "it (second hand)" },
  when = function (i) return i.age < q"0.5 year" end,
  assess = function (i)
    duty { met = i.task.light_level <= q"1076 lux", instrument = regulations,
      section = "§ 11760(a)", evidence = "a light meter at the infant's face",
      because = "{task.light_level} where 100 foot-candles, 1076 lux, is the most, for 30 s at a time" }
  end,
  examples = law.cases({ age = "0.49 year" }, {
    { "at the limit", { ["task.light_level"] = "1076 lux" }, true },
    { "brighter", { ["task.light_level"] = "1100 lux" }, false },
    { "not known", { ["task.light_level"] = "?" }, false },
    { "six months", { age = "0.5 year", ["task.light_level"] = "5000 lux" }, "none" },
  }),
}

rule {
  id = "us-ca.children.danger",
  title = "Work that the permit does not cover",
  each = "immersion",
  harm = "child performers: an environment improper for a minor",
  sources = { "California Labor Code 1308.6 and 8 CCR 11753: refused where the environment is improper " ..
    "or harmful to health" },
  when = function (i) return i.age < q"18 year" and law.under_water(i) end,
  assess = law.danger { instrument = code, section = "s.1308.6", authority = "the Labor Commissioner" },
  examples = law.cases({ age = "17.99 year" }, {
    { "holding breath", { breath_hold = "1 s", breathes_gas = "no" }, "open" },
    { "on gas", { breath_hold = "0 s", breathes_gas = "yes" }, "open" },
    { "face dry", { breath_hold = "0 s", breathes_gas = "no" }, "none" },
    { "eighteen", { age = "18 year", breath_hold = "10 s" }, "none" },
    { "age not known", { age = "?", breath_hold = "10 s", breathes_gas = "no" }, "open" },
  }),
}
