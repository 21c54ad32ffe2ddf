-- The scales from which rules take their numbers, so that two rules that look
-- at the same reserve give the same score. Severity 1..5 and likelihood 1..5
-- are ordinal: a prompt for a decision, not a probability.
--
-- Severity: the worst credible harm if it happens once, with rescue as planned.
--   1 first aid, back at work          2 medical treatment, off a day or more
--   3 hospital, lasting weeks; any loss of consciousness with full recovery
--   4 permanent injury to one person   5 death, or permanent injury to several
-- Likelihood: over the whole task as described, all takes and all people exposed.
--   1 rare  2 unlikely  3 possible  4 likely  5 expected

local function within(level)
  return min(5, max(1, level))
end

local function count(flags)
  local n = 0
  for _, flag in ipairs(flags) do
    if flag then n = n + 1 end
  end
  return n
end

-- Likelihood from what there is and what is needed, as a ratio.
local function reserve(available, needed)
  if available >= needed * 3 then return 1 end
  if available >= needed * 2 then return 2 end
  if available >= needed * 1.5 then return 3 end
  if available >= needed * 1.1 then return 4 end
  return 5
end

-- Likelihood where protection may be missing: each independent protection in
-- place takes one from the base, each aggravating fact adds one.
local function protection(base, present, aggravating)
  return within(base - count(present) + count(aggravating or {}))
end

-- Likelihood raised for many exposures: by one from 10, by two from 100.
local function repeats(likelihood, exposures)
  if exposures >= 100 then return within(likelihood + 2) end
  if exposures >= 10 then return within(likelihood + 1) end
  return within(likelihood)
end

-- Likelihood against a published upper limit: up to `inside` (the source's own
-- margin) 1, up to `near` 2, up to `limit` 3, up to `far` 4, above it 5.
local function limit(value, inside, near, top, far)
  if value <= inside then return 1 end
  if value <= near then return 2 end
  if value <= top then return 3 end
  if value <= far then return 4 end
  return 5
end

-- The same against a published lower limit.
local function minimum(value, inside, near, bottom, far)
  if value >= inside then return 1 end
  if value >= near then return 2 end
  if value >= bottom then return 3 end
  if value >= far then return 4 end
  return 5
end

-- Severity when breathing stops or somebody is held under water, from the time
-- until air reaches them. The body allows about four minutes without oxygen
-- before lasting brain injury (from memory); within one and a half a full recovery
-- is expected, within three some lasting injury has to be reckoned with.
local function without_air(time)
  if time <= q"90 s" then return 3 end
  if time <= q"180 s" then return 4 end
  return 5
end

-- Severity for somebody under 18, unable to see, to free themselves or to
-- call: the higher of two neighbours.
local function vulnerable(severity, flags)
  if count(flags) > 0 then return within(severity + 1) end
  return severity
end

-- How hard a person works in a take, in multiples of the resting uptake of
-- oxygen (Compendium of Physical Activities; US Navy Diving Manual fig. 3-6,
-- from memory).
local efforts = { rest = 1, light = 3, moderate = 5, hard = 8 }

-- How hard a person works on deck, in watts, as NIOSH 2016-106 gives the five
-- classes of work.
local rates = {
  rest = "117 W", light = "180 W", moderate = "300 W", heavy = "415 W", ["very-heavy"] = "520 W",
}

share("scale", {
  reserve = reserve,
  protection = protection,
  repeats = repeats,
  limit = limit,
  minimum = minimum,
  without_air = without_air,
  vulnerable = vulnerable,
  within = within,
  count = count,
  missing = 3,   -- base for missing protection
  frequent = 4,  -- base for events that are frequent by nature: slips on a wet deck
  mets = function(effort) return efforts[effort] end,
  watts = function(work_rate) return q(rates[work_rate]) end,
})

-- Times of the emergency plan, from the moment somebody is in trouble.
share("rescue", {
  to_gas = function(emergency)
    return emergency.notice_time + emergency.reach_time + emergency.gas_time
  end,
  to_surface = function(emergency)
    return emergency.notice_time + emergency.reach_time + emergency.surface_time
  end,
  to_breath = function(emergency)
    return emergency.notice_time + emergency.reach_time + emergency.surface_time
      + emergency.deck_time + emergency.breath_time
  end,
})

-- How long one breath lasts, drawn at a depth, at an effort. The oxygen budget of
-- calc.breath_hold_limit counts the gas in the lungs alone; blood and muscle hold as
-- much again, and volunteers at light work held about twice as long as it says.
local budgets = 2

local function lasts(i, effort, drawn_at)
  return calc.breath_hold_limit(i.person.mass, scale.mets(effort), drawn_at) * budgets
end

share("breath", {
  budgets = budgets,
  reasoning = "twice the oxygen budget of the lungs is taken as what there is: the budget leaves out blood and "
    .. "muscle, and volunteers at 60 W held 46 s without fainting where it gives about half (Sadler et al. 2020)",
  lasts = lasts,
  -- What the take leaves, for somebody who then has to struggle: the share of the oxygen
  -- that is not used up, spent at hard work.
  remains = function(i)
    local used = i.breath_hold / lasts(i, i.effort, q"0 m")
    return lasts(i, "hard", q"0 m") * (1 - used)
  end,
})

-- Pressures at a site: at its surface, and at a depth of its water.
local function surface(site)
  return calc.air_pressure(site.altitude)
end

share("pressure", {
  surface = surface,
  ambient = function(site, depth)
    local density = calc.water_density(site.water.temperature, q"0 g/kg")
    return calc.ambient_pressure(depth, surface(site), density)
  end,
})

-- Kinds of water: kept clean by treatment, or natural.
share("waters", {
  treated = function(site)
    local body = site.water_body
    return body == "tank" or body == "pool" or body == "stage-pool" or body == "flooded-set"
  end,
  natural = function(site)
    local body = site.water_body
    return body == "lake" or body == "river" or body == "sea" or body == "quarry"
  end,
})
