-- For the examples of rules: facts that several examples have in common, and
-- what one of them has otherwise.

local function like(facts, changes)
  local given = {}
  for name, value in pairs(facts) do given[name] = value end
  for name, value in pairs(changes or {}) do given[name] = value end
  return given
end

share("example", { like = like })
