-- The words of rule files for plain Lua over bare numbers: the same rules without ranges, units or record.
-- Gives: the rules by id, and what was said since the list was last emptied.
local rules, said = {}, {}
local count = 0
local running -- the rule that is run

local function say(word)
  return function(body)
    count = count + 1
    body.word = word
    said[count] = body
    return body
  end
end

local say_hazard = say("hazard")

local function hazard(body)
  local steps = running and running.raised
  if steps then
    body.likelihood = math.min(5, body.likelihood + (steps.likelihood or 0))
    body.severity = math.min(5, body.severity + (steps.severity or 0))
  end
  return say_hazard(body)
end

local function copy(facts, changes)
  local both = {}
  for name, value in pairs(facts) do both[name] = value end
  for name, value in pairs(changes or {}) do both[name] = value end
  return both
end

local words = {
  type = type, tostring = tostring, ipairs = ipairs, pairs = pairs, error = error,
  string = { upper = string.upper, lower = string.lower, len = string.len, sub = string.sub },
  table = { insert = table.insert, concat = table.concat, copy = copy },
  math = { floor = math.floor, ceil = math.ceil },
  min = math.min, max = math.max, abs = math.abs, sqrt = math.sqrt, same = rawequal,
  calc = calc,
  hazard = hazard, duty = say("duty"), stop = say("stop"), note = say("note"),
  nothing = {},
  control = function() end, fact = function() end,
}

function words.sum(list, field, zero)
  for _, one in ipairs(list) do zero = zero + one[field] end
  return zero
end

function words.rule(body)
  rules[body.id] = body
  local limits = {} -- the table may be shared with another rule
  for name, limit in pairs(body.limits or {}) do limits[name] = number(limit.at_most or limit.at_least) end
  body.limits = limits
end

function words.raise(body) rules[body.rule].raised = body end

function words.tighten(body) rules[body.rule].limits[body.limit] = number(body.to) end
function words.share(name, value) words[name] = value end
-- For a text that is put together: every q"..." that stands in a file is a number before it runs.
function words.q(text) return number(text) end

local plain = {}

-- Compiles and runs one rule file.
function plain.load(text, name)
  text = text:gsub('%f[%w_]q%s*("[^"]*")', function(literal) return string.format("(%.17g)", number(literal:sub(2, -2))) end)
  assert(load(text, name, "t", setmetatable({}, { __index = words })))()
end

-- One rule over one subject; gives how many things it said.
function plain.once(rule, subject)
  count, running = 0, rule
  if not rule.when or rule.when(subject, rule.limits) then rule.assess(subject, rule.limits) end
  return count
end

-- Every pair so many times.
function plain.rounds(pairs_, times)
  local once = plain.once
  for _ = 1, times do
    for i = 1, #pairs_, 2 do once(pairs_[i], pairs_[i + 1]) end
  end
end

function plain.said(i) return said[i] end
function plain.rule(id) return rules[id] end

return plain
