-- Child performers in New York, 12 NYCRR part 186. The hours of its table are recalled; the
-- rest was read. Who was at school that day has three hours less at the place, and a day that
-- stands alone may be two hours longer.

local regulations = "Child Performers, 12 NYCRR part 186"
local annual = { name = "New York Labor Law, child performer permits", from = "2011-07-21" }
local table_of_hours = "12 NYCRR 186-6.2(f), the table of hours (from memory)"
local hours = "12 NYCRR 186-6.2(d): up to two hours more for a one-day assignment, from six months " ..
  "on; (e): three hours less at the place after school"

local bands = {
  { under = "15 day", place = "0 h", work = "0 h" },
  { under = "0.5 year", place = "2 h", work = "20 min" },
  { under = "2 year", place = "4 h", work = "2 h", one_day = "2 h" },
  { under = "6 year", place = "6 h", work = "3 h", one_day = "2 h" },
  { under = "9 year", place = "8 h", work = "4 h", work_no_school = "6 h", one_day = "2 h" },
  { under = "16 year", place = "9 h", work = "5 h", work_no_school = "7 h", one_day = "2 h" },
  { place = "10 h", work = "6 h", work_no_school = "8 h", one_day = "2 h" },
}

local function child(pd) return pd.age < q"18 year" end

local adult = { age = "18 year" }

local function until_time(age, wrap)
  return { age = age, ["day.child_call"] = "08:00", ["day.child_wrap"] = wrap,
    ["day.child_attended_school"] = "no", ["day.child_one_day"] = "no" }
end

local function single(age, wrap)
  return example.like(until_time(age, wrap), { ["day.child_one_day"] = "yes" })
end

rule {
  id = "us-ny.children.hours-at-place",
  title = "Time at the workplace",
  each = "person-day",
  harm = "child performers: tired out",
  sources = { table_of_hours, hours },
  when = child,
  assess = law.at_place { instrument = regulations, section = "186-6.2(d) to (f)", bands = bands,
    after_school = "3 h" },
  examples = law.cases({}, {
    { "nobody under fifteen days", until_time("14.9 day", "08:01"), false },
    { "2 h at fifteen days", until_time("15 day", "10:00"), true },
    { "longer before six months", until_time("0.49 year", "10:06"), false },
    { "a single day does not help before six months", example.like(until_time("0.49 year",
      "10:06"), { ["day.child_one_day"] = "yes" }), false },
    { "longer at six months", until_time("0.5 year", "10:06"), true },
    { "a single day at six months", example.like(until_time("0.5 year", "13:00"),
      { ["day.child_one_day"] = "yes" }), true },
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
    { "an adult", until_time("18 year", "21:00"), "none" },
    { "6 h after school", example.like(until_time("12 year", "14:00"),
      { ["day.child_attended_school"] = "yes" }), true },
    { "longer after school", example.like(until_time("12 year", "14:06"),
      { ["day.child_attended_school"] = "yes" }), false },
    { "11 h on a single day", example.like(until_time("12 year", "19:00"),
      { ["day.child_one_day"] = "yes" }), true },
    { "longer on a single day", example.like(until_time("12 year", "19:06"),
      { ["day.child_one_day"] = "yes" }), false },
    { "6 h on a single day before two", single("1.99 year", "14:00"), true },
    { "longer before two", single("1.99 year", "14:06"), false },
    { "8 h on a single day before six", single("5.99 year", "16:00"), true },
    { "longer before six", single("5.99 year", "16:06"), false },
    { "10 h on a single day before nine", single("8.99 year", "18:00"), true },
    { "longer before nine", single("8.99 year", "18:06"), false },
    { "12 h on a single day at sixteen", single("16 year", "20:00"), true },
    { "longer at sixteen", single("16 year", "20:06"), false },
    { "release not known", until_time("12 year", "?"), false },
  }),
}

local function worked(age, time, school)
  return { age = age, ["day.child_performing_time"] = time, ["day.school_day"] = school,
    ["day.child_one_day"] = "no" }
end

rule {
  id = "us-ny.children.work",
  title = "Time at work",
  each = "person-day",
  harm = "child performers: tired out",
  sources = { table_of_hours, hours },
  when = child,
  assess = law.working { instrument = regulations, section = "186-6.2(d) and (f)", bands = bands },
  examples = law.cases({}, {
    { "nothing under fifteen days", worked("14.9 day", "1 min", "no"), false },
    { "20 min at fifteen days", worked("15 day", "20 min", "no"), true },
    { "more before six months", worked("0.49 year", "21 min", "no"), false },
    { "a single day does not help before six months", example.like(worked("0.49 year", "21 min",
      "no"), { ["day.child_one_day"] = "yes" }), false },
    { "a single day at six months", example.like(worked("0.5 year", "4 h", "no"),
      { ["day.child_one_day"] = "yes" }), true },
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
    { "7 h on a single day", example.like(worked("12 year", "7 h", "yes"),
      { ["day.child_one_day"] = "yes" }), true },
    { "more on a single day", example.like(worked("12 year", "7.1 h", "yes"),
      { ["day.child_one_day"] = "yes" }), false },
    { "school not known", worked("12 year", "6 h", "?"), false },
    { "an adult", worked("18 year", "9 h", "no"), "none" },
  }),
}

local function between(call, wrap, school_tomorrow, performances)
  return { age = "17.99 year", ["day.child_call"] = call, ["day.child_wrap"] = wrap,
    ["day.next_school_day"] = school_tomorrow, ["day.performances"] = performances }
end

local function latest(pd)
  if not pd.day.next_school_day then return "24:30" end
  if pd.day.performances > 0 then return "24:00" end
  return "22:00"
end

rule {
  id = "us-ny.children.times-of-day",
  title = "Earliest and latest hour",
  each = "person-day",
  harm = "child performers: no night's rest",
  sources = { "12 NYCRR 186-6.2(a): 5 a.m. to 10 p.m. before school days, to half past midnight " ..
    "otherwise", "12 NYCRR 186-6.2(b): live performance to midnight before school days" },
  when = child,
  assess = law.times_of_day { instrument = regulations, section = "186-6.2(a) and (b)",
    earliest = "05:00", latest = latest },
  examples = law.cases({}, {
    { "from five to ten", between("05:00", "22:00", "yes", "0"), true },
    { "too early", between("04:59", "12:00", "yes", "0"), false },
    { "too late before school", between("15:00", "22:01", "yes", "0"), false },
    { "live to midnight", between("15:00", "24:00", "yes", "1"), true },
    { "live, too late", between("15:00", "24:01", "yes", "1"), false },
    { "to half past midnight", between("15:00", "24:30", "no", "0"), true },
    { "too late", between("15:00", "24:31", "no", "1"), false },
    { "school not known", between("15:00", "23:00", "?", "0"), false },
    { "an adult", adult, "none" },
  }),
}

rule {
  id = "us-ny.children.rest",
  title = "Rest between two workdays",
  each = "person-day",
  harm = "child performers: tired from the day before",
  sources = { "12 NYCRR 186-6.2(c)" },
  when = child,
  assess = law.rest { instrument = regulations, section = "186-6.2(c)", least = "12 h" },
  examples = law.cases({ age = "17.99 year" }, {
    { "12 h", { ["day.child_rest_before"] = "12 h" }, true },
    { "less", { ["day.child_rest_before"] = "11.9 h" }, false },
    { "not known", { ["day.child_rest_before"] = "?" }, false },
    { "an adult", adult, "none" },
  }),
}

rule {
  id = "us-ny.children.responsible-person",
  title = "A responsible person within sight or sound",
  each = "person-day",
  harm = "child performers: nobody of their own",
  sources = { "12 NYCRR 186-4.6(a): aged 18 or more, for each child under 16" },
  when = function (pd) return pd.age < q"16 year" end,
  assess = function (pd)
    duty { met = pd.day.child_guardian_near, instrument = regulations, section = "186-4.6(a)",
      evidence = "the name on the call sheet, and seen on the day",
      because = "a parent, or an adult whom a parent named, within sight or sound: " ..
        "{day.child_guardian_near}" }
  end,
  examples = example.join { law.needs({ age = "15.99 year" }, { "day.child_guardian_near" }),
    law.cases({}, { { "sixteen", { age = "16 year" }, "none" } }) },
}

rule {
  id = "us-ny.children.adults",
  title = "Adults for a group of children",
  each = "day",
  harm = "child performers: too many for one adult",
  sources = { "12 NYCRR 186-4.1(b)(2): one for every 20 or fraction, under a group certificate" },
  when = function (d) return d.children > 0 end,
  assess = law.ratio { instrument = regulations, section = "186-4.1(b)", adults = "chaperones",
    per = 20 },
  examples = law.cases({}, {
    { "no children", { children = "0" }, "none" },
    { "one for twenty", { children = "20", chaperones = "1" }, true },
    { "one for twenty-one", { children = "21", chaperones = "1" }, false },
    { "none for one", { children = "1", chaperones = "0" }, false },
    { "not known", { children = "1", chaperones = "?" }, false },
  }),
}

rule {
  id = "us-ny.children.told",
  title = "Hazards explained, place shown, action rehearsed",
  each = "immersion",
  harm = "child performers: danger not understood",
  sources = { "12 NYCRR 186-6.5(a)-(c): information on the hazards of the activity, instruction and " ..
    "rehearsal time, orientation to the place" },
  when = function (i) return i.age < q"18 year" end,
  assess = function (i)
    local p = i.person
    duty { met = p.understands_action and p.guardian_consents and p.inducted_on <= i.day.date
        and i.task.rehearsed,
      instrument = regulations, section = "186-6.5(a) and (b)",
      evidence = "the signed induction, and the rehearsal record",
      because = "the child has said back what happens: {person.understands_action}; a parent has " ..
        "seen the place and agreed: {person.guardian_consents}; shown round on " ..
          "{person.inducted_on}; rehearsed: {task.rehearsed}" }
  end,
  examples = example.join {
    law.needs({ age = "17.99 year", ["person.inducted_on"] = "2027-03-09",
      ["day.date"] = "2027-03-09" },
      { "person.understands_action", "person.guardian_consents", "task.rehearsed" }),
    law.cases({ age = "17.99 year", ["person.understands_action"] = "yes",
        ["person.guardian_consents"] = "yes", ["task.rehearsed"] = "yes",
        ["day.date"] = "2027-03-09" }, {
      { "shown round a day late", { ["person.inducted_on"] = "2027-03-10" }, false },
      { "never shown", { ["person.inducted_on"] = "?" }, false },
      { "an adult", adult, "none" },
    }),
  },
}

rule {
  id = "us-ny.children.permit",
  title = "Child performer permit",
  each = "person-day",
  harm = "child performers: nobody outside has looked at the work",
  sources = { "New York State Register of 6 March 2013, notice LAB-36-12-00007-A: annual instead of " ..
    "half-yearly from 21 July 2011" },
  when = child,
  assess = law.permit { instrument = annual, section = "permit", valid = "366 day" },
  examples = law.cases({ age = "17.99 year", ["person.performance_licence"] = "yes",
      ["day.date"] = "2027-03-09", ["person.licence_until"] = "2027-03-30" }, {
    { "held", {}, true },
    { "while permits were half-yearly", { ["day.date"] = "2011-07-20" }, "none" },
    { "its last day", { ["person.licence_until"] = "2027-03-09" }, true },
    { "over the day before", { ["person.licence_until"] = "2027-03-08" }, false },
    { "a year on", { ["person.licence_until"] = "2028-03-09" }, true },
    { "longer than any can hold", { ["person.licence_until"] = "2028-03-10" }, false },
    { "not held", { ["person.performance_licence"] = "no" }, false },
    { "not known", { ["person.performance_licence"] = "?" }, false },
    { "an adult", adult, "none" },
  }),
}

rule {
  id = "us-ny.children.fitness",
  title = "Doctor's certificate of physical fitness",
  each = "person-day",
  harm = "child performers: unfit for the work",
  sources = { "New York Department of Labor, permit application: a physician, within 12 months" },
  when = child,
  assess = function (pd)
    local p = pd.person
    local age = pd.day.date - p.medical_on
    local doctor = p.medical == "general-doctor" or p.medical == "diving-doctor"
    duty { met = doctor and age <= q"366 day", instrument = regulations, section = "permit",
      evidence = "the certificate that came with the application",
      because = "found fit by: {person.medical}, {age} before the day; within 12 months is asked for",
      values = { age = age } }
  end,
  examples = law.cases({ age = "17.99 year", ["person.medical"] = "general-doctor",
      ["day.date"] = "2027-03-09", ["person.medical_on"] = "2026-03-08" }, {
    { "a year old", {}, true },
    { "a day older", { ["person.medical_on"] = "2026-03-07" }, false },
    { "by a diving doctor", { ["person.medical"] = "diving-doctor" }, true },
    { "a declaration only", { ["person.medical"] = "declaration" }, false },
    { "not known", { ["person.medical"] = "?" }, false },
    { "an adult", adult, "none" },
  }),
}

rule {
  id = "us-ny.children.certificate",
  title = "Employer certificate of eligibility",
  each = "day",
  harm = "child performers: an employer nobody has looked at",
  sources = { "12 NYCRR 186-4.1(a)" },
  when = function (d) return d.children > 0 end,
  assess = function (d)
    duty { met = d.production.permit_to_employ_children, instrument = regulations,
      section = "186-4.1(a)", evidence = "the certificate itself, seen",
      because = "held by the producer: {production.permit_to_employ_children}" }
  end,
  examples = example.join {
    law.needs({ children = "1" }, { "production.permit_to_employ_children" }),
    law.cases({}, { { "no children", { children = "0" }, "none" } }) },
}

rule {
  id = "us-ny.children.teacher",
  title = "A teacher where work keeps children from school",
  each = "day",
  harm = "child performers: schooling lost",
  sources = { "New York register notice LAB-36-12-00007-A: a teacher where the schedule keeps a child " ..
    "from school" },
  when = function (d) return d.children > 0 and d.school_day and not d.child_attended_school end,
  assess = function (d)
    duty { met = d.teachers >= 1, instrument = regulations, section = "education",
      evidence = "the teacher's name on the call sheet, and the record",
      because = "{teachers} teachers on a school day for children who were not at school" }
  end,
  examples = law.cases({ children = "1", school_day = "yes", child_attended_school = "no" }, {
    { "one", { teachers = "1" }, true },
    { "none", { teachers = "0" }, false },
    { "not known", { teachers = "?" }, false },
    { "no school that day", { school_day = "no" }, "none" },
    { "came from school", { child_attended_school = "yes" }, "none" },
    { "no children", { children = "0" }, "none" },
  }),
}

rule {
  id = "us-ny.children.infant-light",
  title = "Light on infants",
  each = "immersion",
  harm = "infants: eyes",
  sources = { "12 NYCRR 186-6.5(d): 100 foot-candles" },
  when = function (i) return i.age < q"0.5 year" end,
  assess = function (i)
    duty { met = i.task.light_level <= q"1076 lux", instrument = regulations,
      section = "186-6.5(d)", evidence = "a light meter at the infant's face",
      because = "{task.light_level} where 100 foot-candles, 1076 lux, is the most" }
  end,
  examples = law.cases({ age = "0.49 year" }, {
    { "at the limit", { ["task.light_level"] = "1076 lux" }, true },
    { "brighter", { ["task.light_level"] = "1100 lux" }, false },
    { "not known", { ["task.light_level"] = "?" }, false },
    { "six months", { age = "0.5 year", ["task.light_level"] = "5000 lux" }, "none" },
  }),
}

rule {
  id = "us-ny.children.danger",
  title = "Work for which no certificate is given",
  each = "immersion",
  harm = "child performers: an activity that may be hazardous",
  sources = { "12 NYCRR 186-4.1(c): refused where the activity may be hazardous" },
  when = function (i) return i.age < q"18 year" and law.under_water(i) end,
  assess = law.danger { instrument = regulations, section = "186-4.1(c)",
    authority = "the Commissioner of Labor" },
  examples = law.cases({ age = "17.99 year" }, {
    { "holding breath", { breath_hold = "1 s", breathes_gas = "no" }, "open" },
    { "on gas", { breath_hold = "0 s", breathes_gas = "yes" }, "open" },
    { "face dry", { breath_hold = "0 s", breathes_gas = "no" }, "none" },
    { "eighteen", { age = "18 year", breath_hold = "10 s" }, "none" },
    { "age not known", { age = "?", breath_hold = "10 s", breathes_gas = "no" }, "open" },
  }),
}
