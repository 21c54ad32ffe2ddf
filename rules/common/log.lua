-- The dive log against the plan: what was done that nobody had planned. A rule that names a value
-- `recorded` beside one named `planned` is also shown by `tankside day`.

local sources = {
  "Diving at Work Regulations (Northern Ireland) 2005 reg 6(2)(a), as in Great Britain 1997: the plan is "
    .. "updated as necessary while the project goes on",
  "29 CFR 1910.423(d)(1): greatest depth and bottom time of each diver are recorded (from memory)",
  "common practice: what goes beyond the plan is gone over, and the plan changed, before the next descent",
}

local function greatest(list, fact)
  local most = list[1][fact]
  for _, one in ipairs(list) do most = max(most, one[fact]) end
  return most
end

local function sum(list, fact)
  local total = list[1][fact]
  for n, one in ipairs(list) do
    if n > 1 then total = total + one[fact] end
  end
  return total
end

-- The next time is as far beyond what rescue, gas and limits were worked out for.
local function beyond(what, recorded, planned, severity)
  if recorded <= planned then return end
  hazard {
    about = what, likelihood = scale.limit(recorded, planned, planned * 1.1, planned * 1.25, planned * 1.5),
    severity = severity, who = "1 person",
    because = "the log has {recorded}, the plan {planned}",
    values = { recorded = recorded, planned = planned },
    also = { "dive-plan", "log-at-each-descent" },
  }
end

rule {
  id = "records.beyond-plan",
  title = "The log goes beyond the plan",
  each = "person-day",
  harm = "diver or performer: rescue, gas and limits were worked out for less",
  sources = sources,
  reasoning = "by a tenth, a quarter and a half beyond what is planned, as likely as the next one is to be so; a "
    .. "plan that is followed does not stand in the log as broken",
  when = function (pd) return #pd.records > 0 and #pd.immersions > 0 end,
  assess = function (pd)
    beyond("depth", greatest(pd.records, "depth"), greatest(pd.immersions, "depth"), 4)
    beyond("time", pd.time_recorded, pd.time_planned, 3)
    beyond("takes", sum(pd.records, "takes"), pd.takes, 2)
  end,
  examples = (function ()
    local like = example.like
    local base = { ["immersions.1.depth"] = "4 m", ["immersions.1.time"] = "40 min", ["immersions.1.takes"] = "20",
      ["records.1.depth"] = "4 m", ["records.1.down"] = "10:00", ["records.1.up"] = "10:40",
      ["records.1.takes"] = "20" }
    local twice = like(base, { ["records.2.depth"] = "3 m", ["records.2.down"] = "11:00",
      ["records.2.up"] = "11:10", ["records.2.takes"] = "0" })
    return example.join { {
      { "as planned", given = base, expect = nothing },
      { "nothing in the log", given = { records = "none" }, expect = nothing },
      { "no immersion planned", given = { immersions = "none" }, expect = nothing },
      { "two entries add up", given = twice, expect = hazard { likelihood = 3, severity = 3 } },
      { "two planned", given = like(twice, { ["immersions.2.depth"] = "5 m", ["immersions.2.time"] = "10 min",
        ["immersions.2.takes"] = "0" }), expect = nothing },
      { "the deeper of two counts", given = like(twice, { ["records.2.depth"] = "4.3 m",
        ["records.2.up"] = "11:00" }), expect = hazard { likelihood = 2, severity = 4 } },
      { "takes of two add up", given = like(twice, { ["records.2.takes"] = "4", ["records.2.up"] = "11:00" }),
        expect = hazard { likelihood = 3, severity = 2 } },
      { "still in the water", given = like(base, { ["records.1.up"] = "?" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "planned depth not known", given = like(base, { ["immersions.1.depth"] = "?" }),
        expect = hazard { likelihood = 5, severity = 4 } },
    },
      example.edges(base, "records.1.depth", 4, { "4.1 m", 2, "4.4 m", 2, "4.5 m", 3, "5 m", 3, "5.1 m", 4,
        "6 m", 4, "6.1 m", 5 }),
      example.edges(base, "records.1.up", 3, { "10:41", 2, "10:44", 2, "10:45", 3, "10:50", 3, "10:51", 4,
        "11:00", 4, "11:01", 5 }),
      example.edges(base, "records.1.takes", 2, { "21", 2, "22", 2, "23", 3, "25", 3, "26", 4, "30", 4, "31", 5 }),
    }
  end)(),
}

-- The person's own among the day's immersions or posts.
local function own(list, person)
  local mine = {}
  for _, one in ipairs(list) do
    if same(one.person, person) then table.insert(mine, one) end
  end
  return mine
end

rule {
  id = "records.not-planned",
  title = "In the log, but in no plan",
  each = "record",
  harm = "diver or performer: nobody watched them, no standby was counted for them",
  sources = sources,
  when = function (r)
    return not (#own(r.day.immersions, r.person) > 0 or #own(r.day.posts, r.person) > 0)
  end,
  assess = function ()
    hazard { likelihood = 3, severity = 4, who = "1 person",
      because = "the log has somebody who is in no immersion and on no post that day",
      also = { "dive-plan", "log-at-each-descent" } }
  end,
  examples = {
    { "planned", given = {}, expect = nothing },
    { "at a post", given = { ["day.immersions"] = "none" }, expect = nothing },
    { "neither", given = { ["day.immersions"] = "none", ["day.posts"] = "none" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "somebody else's", given = { ["day.immersions.1.person.role"] = "performer", ["day.posts"] = "none",
      ["person.role"] = "performer" }, expect = nothing },
  },
}

local function planned_gases(r)
  local planned = {}
  for _, i in ipairs(own(r.day.immersions, r.person)) do
    if i.breathes_gas and i.supply ~= nil then planned[i.supply.gas] = true end
  end
  return planned
end

rule {
  id = "records.other-gas",
  title = "Another gas was breathed than planned",
  each = "record",
  harm = "diver or performer: limits of depth and time were worked out for another gas",
  sources = sources,
  when = function (r) return r.gas ~= "none" and #own(r.day.immersions, r.person) > 0 end,
  assess = function (r)
    if planned_gases(r)[r.gas] then return end
    hazard { likelihood = 3, severity = 4, who = "1 person", because = "the log has {r.gas}, which is not planned",
      also = { "dive-plan", "log-at-each-descent" } }
  end,
  examples = (function ()
    local like = example.like
    local base = { gas = "air", ["day.immersions.1.breathes_gas"] = "yes", ["day.immersions.1.supply.gas"] = "air" }
    local other = hazard { likelihood = 3, severity = 4 }
    return {
      { "as planned", given = base, expect = nothing },
      { "no gas", given = like(base, { gas = "none" }), expect = nothing },
      { "nitrox", given = like(base, { gas = "nitrox" }), expect = other },
      { "no gas was planned", given = like(base, { ["day.immersions.1.breathes_gas"] = "no" }), expect = other },
      { "no supply is named", given = { gas = "air", ["day.immersions.1.breathes_gas"] = "yes",
        ["day.immersions.1.supply"] = "none" }, expect = other },
      { "gas not written", given = like(base, { gas = "?" }), expect = other },
      { "not planned at all", given = { gas = "air", ["day.immersions"] = "none" }, expect = nothing },
    }
  end)(),
}
