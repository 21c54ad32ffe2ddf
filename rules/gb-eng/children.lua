-- Children who perform in England: hours, breaks, rest, licence, chaperones.
-- The bands follow the age on the day: under 5, 5 to under 9, 9 and over until
-- compulsory school age ends.

local regulations = "Children (Performances and Activities) (England) Regulations 2014 (SI " ..
  "2014/3309)"
local hackney = "SI 2014/3309 regs 21 and 22, as tabled by the London Borough of Hackney"

local function child(pd) return pd.age < q"16 year" or pd.person.school_age end

-- Which of three values goes with the age.
local function by_age(pd, under_5, under_9, older)
  if pd.age < q"5 year" then return q(under_5) end
  if pd.age < q"9 year" then return q(under_9) end
  return q(older)
end

local function present(day) return day.child_wrap - day.child_call end

local adult = { ["person.born"] = "1990-05-02", ["person.school_age"] = "no" }
local twelve = { ["person.born"] = "2014-05-02", ["person.school_age"] = "yes" }

rule {
  id = "gb-eng.children.hours-at-place",
  title = "Time at the place of performance",
  each = "person-day",
  harm = "child performers: tired out",
  sources = { hackney },
  when = child,
  assess = function (pd)
    local time = present(pd.day)
    local limit = by_age(pd, "5 h", "8 h", "9.5 h")
    duty { met = time <= limit, instrument = regulations, section = "regs 21 and 22",
      because = "at the place for {total}; at most {ceiling} at this age; the chaperone's sheet " ..
        "shows it",
      values = { total = time, ceiling = limit }, controls = { "split-days" } }
  end,
  examples = {
    { "nine hours at twelve", given = example.like(twelve,
      { ["day.child_call"] = "08:30", ["day.child_wrap"] = "17:30" }),
      expect = duty { met = true } },
    { "ten hours at twelve", given = example.like(twelve,
      { ["day.child_call"] = "08:30", ["day.child_wrap"] = "18:30" }),
      expect = duty { met = false } },
    { "nine hours at eight", given = { ["person.born"] = "2020-01-01",
      ["person.school_age"] = "yes", ["day.child_call"] = "08:30", ["day.child_wrap"] = "17:30" },
      expect = duty { met = false } },
    { "five hours at four", given = { ["person.born"] = "2024-01-01", ["person.school_age"] = "no",
      ["day.child_call"] = "09:00", ["day.child_wrap"] = "14:00" }, expect = duty { met = true } },
    { "wrap not known", given = example.like(twelve, { ["day.child_call"] = "08:30",
      ["day.child_wrap"] = "?" }), expect = duty { met = false } },
    { "an adult", given = adult, expect = nothing },
  },
}

rule {
  id = "gb-eng.children.performing",
  title = "Time performing and rehearsing",
  each = "person-day",
  harm = "child performers: tired out",
  sources = { hackney },
  when = child,
  assess = function (pd)
    local time = pd.day.child_performing_time
    local limit = by_age(pd, "2 h", "3 h", "5 h")
    duty { met = time <= limit, instrument = regulations, section = "reg 22",
      because = "performing and rehearsing {total}; at most {ceiling} a day at this age",
      values = { total = time, ceiling = limit }, controls = { "split-days" } }
  end,
  examples = {
    { "within", given = example.like(twelve, { ["day.child_performing_time"] = "5 h" }),
      expect = duty { met = true } },
    { "beyond", given = example.like(twelve, { ["day.child_performing_time"] = "5 h 15 min" }),
      expect = duty { met = false } },
    { "eight years old", given = { ["person.born"] = "2020-01-01", ["person.school_age"] = "yes",
      ["day.child_performing_time"] = "4 h" }, expect = duty { met = false } },
    { "four years old", given = { ["person.born"] = "2024-01-01", ["person.school_age"] = "no",
      ["day.child_performing_time"] = "2 h" }, expect = duty { met = true } },
    { "not known", given = example.like(twelve, { ["day.child_performing_time"] = "?" }),
      expect = duty { met = false } },
    { "an adult", given = adult, expect = nothing },
  },
}

rule {
  id = "gb-eng.children.continuous",
  title = "Time without a break",
  each = "person-day",
  harm = "child performers: tired out",
  sources = { hackney },
  when = child,
  assess = function (pd)
    local time = pd.day.child_continuous_time
    local limit = by_age(pd, "30 min", "2.5 h", "2.5 h")
    duty { met = time <= limit, instrument = regulations, section = "reg 22",
      because = "longest stretch without a break {total}; at most {ceiling} at this age",
      values = { total = time, ceiling = limit }, controls = { "work-breaks" } }
  end,
  examples = {
    { "within", given = example.like(twelve, { ["day.child_continuous_time"] = "2 h" }),
      expect = duty { met = true } },
    { "beyond", given = example.like(twelve, { ["day.child_continuous_time"] = "3 h" }),
      expect = duty { met = false } },
    { "eight years old", given = { ["person.born"] = "2020-01-01", ["person.school_age"] = "yes",
      ["day.child_continuous_time"] = "2 h" }, expect = duty { met = true } },
    { "four years old", given = { ["person.born"] = "2024-01-01", ["person.school_age"] = "no",
      ["day.child_continuous_time"] = "1 h" }, expect = duty { met = false } },
    { "not known", given = example.like(twelve, { ["day.child_continuous_time"] = "?" }),
      expect = duty { met = false } },
    { "an adult", given = adult, expect = nothing },
  },
}

rule {
  id = "gb-eng.children.times-of-day",
  title = "Earliest and latest time at the place",
  each = "person-day",
  harm = "child performers: no night's rest",
  sources = { hackney, "SI 2014/3309 reg 28: night work only with the authority's permission" },
  when = child,
  assess = function (pd)
    local latest = by_age(pd, "22:00", "23:00", "23:00")
    local within = pd.day.child_call >= q"07:00" and pd.day.child_wrap <= latest
    duty { met = within or pd.day.child_night_permission, instrument = regulations,
      section = "regs 21 and 28",
      because = "from {day.child_call} to {day.child_wrap}; 07:00 to {latest} at this age " ..
        "unless night work is permitted",
      values = { latest = latest }, controls = { "split-days" } }
  end,
  examples = {
    { "a working day", given = example.like(twelve, { ["day.child_call"] = "08:30",
      ["day.child_wrap"] = "17:30", ["day.child_night_permission"] = "no" }),
      expect = duty { met = true } },
    { "too early", given = example.like(twelve, { ["day.child_call"] = "06:30",
      ["day.child_wrap"] = "15:00", ["day.child_night_permission"] = "no" }),
      expect = duty { met = false } },
    { "too late", given = example.like(twelve, { ["day.child_call"] = "15:00",
      ["day.child_wrap"] = "23:30", ["day.child_night_permission"] = "no" }),
      expect = duty { met = false } },
    { "too late, permitted", given = example.like(twelve,
      { ["day.child_call"] = "15:00", ["day.child_wrap"] = "23:30",
        ["day.child_night_permission"] = "yes" }), expect = duty { met = true } },
    { "eight years old", given = { ["person.born"] = "2020-01-01", ["person.school_age"] = "yes",
      ["day.child_call"] = "15:00", ["day.child_wrap"] = "22:30",
      ["day.child_night_permission"] = "no" }, expect = duty { met = true } },
    { "four years old", given = { ["person.born"] = "2024-01-01", ["person.school_age"] = "no",
      ["day.child_call"] = "18:00", ["day.child_wrap"] = "22:30",
      ["day.child_night_permission"] = "no" }, expect = duty { met = false } },
    { "not known", given = example.like(twelve, { ["day.child_call"] = "?" }),
      expect = duty { met = false } },
    { "an adult", given = adult, expect = nothing },
  },
}

rule {
  id = "gb-eng.children.breaks",
  title = "Meal break and other breaks",
  each = "person-day",
  harm = "child performers: tired and hungry in the water",
  sources = { "SI 2014/3309 reg 23" },
  when = child,
  assess = function (pd)
    local time = present(pd.day)
    if time <= q"4 h" then return end
    local breaks = time < q"8 h" and 1 or 2
    duty { met = pd.day.child_meal_break >= q"45 min" and pd.day.child_short_breaks >= breaks,
      instrument = regulations, section = "reg 23",
      because = "at the place for {time}: a meal break of {day.child_meal_break} where 45 min " ..
        "is the least, and {day.child_short_breaks} other breaks of 15 min; one from 4 h, two " ..
          "from 8 h",
      values = { time = time }, controls = { "work-breaks" } }
  end,
  examples = {
    { "short day", given = example.like(twelve, { ["day.child_call"] = "09:00",
      ["day.child_wrap"] = "12:30" }), expect = nothing },
    { "six hours, one break", given = example.like(twelve,
      { ["day.child_call"] = "09:00", ["day.child_wrap"] = "15:00",
        ["day.child_meal_break"] = "45 min", ["day.child_short_breaks"] = "1" }),
        expect = duty { met = true } },
    { "nine hours, one break", given = example.like(twelve,
      { ["day.child_call"] = "09:00", ["day.child_wrap"] = "18:00",
        ["day.child_meal_break"] = "45 min", ["day.child_short_breaks"] = "1" }),
        expect = duty { met = false } },
    { "short meal", given = example.like(twelve, { ["day.child_call"] = "09:00",
      ["day.child_wrap"] = "15:00", ["day.child_meal_break"] = "30 min",
      ["day.child_short_breaks"] = "2" }), expect = duty { met = false } },
    { "meal not known", given = example.like(twelve, { ["day.child_call"] = "09:00",
      ["day.child_wrap"] = "15:00", ["day.child_meal_break"] = "?",
      ["day.child_short_breaks"] = "2" }), expect = duty { met = false } },
    { "an adult", given = adult, expect = nothing },
  },
}

rule {
  id = "gb-eng.children.overnight",
  title = "Rest between two days",
  each = "person-day",
  harm = "child performers: tired from the day before",
  sources = { "SI 2014/3309 reg 24" },
  when = child,
  assess = function (pd)
    duty { met = pd.day.child_rest_before >= q"12 h", instrument = regulations, section = "reg 24",
      because = "{day.child_rest_before} since leaving the place the day before; 12 h is the least",
      controls = { "split-days" } }
  end,
  examples = {
    { "a night", given = example.like(twelve, { ["day.child_rest_before"] = "14 h" }),
      expect = duty { met = true } },
    { "too short", given = example.like(twelve, { ["day.child_rest_before"] = "11 h" }),
      expect = duty { met = false } },
    { "not known", given = example.like(twelve, { ["day.child_rest_before"] = "?" }),
      expect = duty { met = false } },
    { "an adult", given = adult, expect = nothing },
  },
}

rule {
  id = "gb-eng.children.days-in-a-row",
  title = "Days in a row",
  each = "person-day",
  harm = "child performers: worn out",
  sources = { "SI 2014/3309 reg 26; Middlesbrough Council, licence questions" },
  when = child,
  assess = function (pd)
    duty { met = pd.consecutive_days <= 6, instrument = regulations, section = "reg 26",
      because = "day {consecutive_days} in a row in this schedule; at most 6, rehearsals counted" }
  end,
  examples = {
    { "first day", given = twelve, expect = duty { met = true } },
    { "seventh day", given = example.like(twelve, { consecutive_days = "7" }),
      expect = duty { met = false } },
    { "an adult", given = adult, expect = nothing },
  },
}

rule {
  id = "gb-eng.children.two-performances",
  title = "Rest between two performances",
  each = "person-day",
  harm = "child performers: tired in the second performance",
  sources = { "SI 2014/3309 reg 23" },
  when = function (pd) return child(pd) and pd.day.performances > 1 end,
  assess = function (pd)
    duty { met = pd.day.performance_gap >= q"1.5 h", instrument = regulations, section = "reg 23",
      because = "{day.performance_gap} between two performances; 1 h 30 min is the least" }
  end,
  examples = {
    { "one", given = example.like(twelve, { ["day.performances"] = "1" }), expect = nothing },
    { "two hours between", given = example.like(twelve, { ["day.performances"] = "2",
      ["day.performance_gap"] = "2 h" }), expect = duty { met = true } },
    { "one hour between", given = example.like(twelve, { ["day.performances"] = "2",
      ["day.performance_gap"] = "1 h" }), expect = duty { met = false } },
    { "gap not known", given = example.like(twelve, { ["day.performances"] = "2",
      ["day.performance_gap"] = "?" }), expect = duty { met = false } },
    { "an adult, two performances", given = example.like(adult, { ["day.performances"] = "2" }),
      expect = nothing },
  },
}

rule {
  id = "gb-eng.children.licence",
  title = "Licence for a child who performs",
  each = "person",
  harm = "child performers: nobody outside has looked at the work",
  sources = { "Children and Young Persons Act 1963 s.37; Middlesbrough and Hackney guidance" },
  when = function (p) return p.role == "performer" and (p.age_at_start < q"16 year"
    or p.school_age) end,
  assess = function (p)
    duty { met = p.performance_licence, instrument = "Children and Young Persons Act 1963",
      section = "s.37",
      because = "licence held: {performance_licence}; needed when paid, away from school, or " ..
        "on more than 3 days in 6 months" }
  end,
  examples = {
    { "held", given = { role = "performer", born = "2014-05-02", school_age = "yes",
      performance_licence = "yes" }, expect = duty { met = true } },
    { "not held", given = { role = "performer", born = "2014-05-02", school_age = "yes",
      performance_licence = "no" }, expect = duty { met = false } },
    { "not known", given = { role = "performer", born = "2014-05-02", school_age = "yes",
      performance_licence = "?" }, expect = duty { met = false } },
    { "an adult", given = { role = "performer", born = "1990-05-02", school_age = "no" },
      expect = nothing },
  },
}

rule {
  id = "gb-eng.children.chaperones",
  title = "Chaperones for the children called",
  each = "day",
  harm = "child performers: nobody whose only job is the child",
  sources = { "SI 2014/3309 reg 15 (from memory)" },
  when = function (d) return d.children > 0 end,
  assess = function (d)
    duty { met = d.chaperones * 12 >= d.children, instrument = regulations,
      section = "reg 15 (from memory: check the text)",
      because = "{chaperones} chaperones for {children} children; each may have at most 12 in " ..
        "charge" }
  end,
  examples = {
    { "no children", given = { children = "0" }, expect = nothing },
    { "one for one", given = { children = "1", chaperones = "1" }, expect = duty { met = true } },
    { "one for thirteen", given = { children = "13", chaperones = "1" },
      expect = duty { met = false } },
    { "not known", given = { children = "1", chaperones = "?" }, expect = duty { met = false } },
  },
}

rule {
  id = "gb-eng.children.danger",
  title = "Performance in which life or limb may be endangered",
  each = "immersion",
  harm = "child performers: a performance the law forbids under 16",
  sources = { "Children and Young Persons Act 1933 s.23 (from memory)" },
  when = function (i) return i.age < q"16 year" and (i.breath_hold > q"0 s" or i.breathes_gas) end,
  assess = function ()
    duty { met = nil, instrument = "Children and Young Persons Act 1933",
      section = "s.23 (from memory: check the text)",
      because = "a person under 16 holds the breath or breathes gas under water; whether this " ..
        "endangers life or limb is for the licensing authority to say before the day, on this " ..
          "assessment" }
  end,
  examples = {
    { "twelve, holding breath", given = { ["person.born"] = "2014-05-02", breath_hold = "10 s",
      breathes_gas = "no" }, expect = duty { met = nil } },
    { "twelve, on gas", given = { ["person.born"] = "2014-05-02", breath_hold = "0 s",
      breathes_gas = "yes" }, expect = duty { met = nil } },
    { "twelve, face dry", given = { ["person.born"] = "2014-05-02", breath_hold = "0 s",
      breathes_gas = "no" }, expect = nothing },
    { "adult", given = { ["person.born"] = "1990-05-02", breath_hold = "10 s" }, expect = nothing },
    { "age not known", given = { ["person.born"] = "?", breath_hold = "10 s", breathes_gas = "no" },
      expect = duty { met = nil } },
  },
}
