-- For the examples of rules: facts that several examples have in common, what
-- one of them has otherwise, and rows of examples on both sides of an edge.

local function like(facts, changes) return table.copy(facts, changes) end

-- One example a value of one fact: `steps` has each value followed by what it
-- gives, a likelihood at that severity or another expectation.
local function edges(facts, fact, severity, steps)
  local list = {}
  for i = 1, #steps, 2 do
    local value, expect = steps[i], steps[i + 1]
    if type(expect) == "number" then expect = hazard { likelihood = expect, severity = severity } end
    local given = like(facts)
    given[fact] = value
    table.insert(list, { fact .. " " .. value, given = given, expect = expect })
  end
  return list
end

local function join(lists)
  local all = {}
  for _, list in ipairs(lists) do
    for _, one in ipairs(list) do table.insert(all, one) end
  end
  return all
end

share("example", { like = like, edges = edges, join = join })
