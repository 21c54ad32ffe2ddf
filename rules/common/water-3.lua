-- Treatment chemicals, suction, and who should stay out of the water.

rule {
  id = "water.treatment-chemicals",
  title = "Treatment chemicals escape or react",
  each = "site",
  harm = "everyone in or by the water: chlorine gas, burns of skin and eyes",
  sources = {
    "common practice: acid and hypochlorite apart, dosing locked to circulation, dosing by hand only out of hours",
    "chlorine gas when acid meets hypochlorite, or when stagnant doses are pushed out on restart (common practice)",
  },
  worst = { likelihood = 5, severity = 4 },
  when = function(s) return waters.treated(s) and s.plant.dosing ~= "none" end,
  assess = function(s)
    local plant = s.plant
    local apart = plant.acid_and_hypochlorite_apart
    local occupied = plant.dosing_while_occupied
    if occupied and not apart then
      stop {
        because = "chemicals are added by hand with people in the water, and acid and hypochlorite stand together",
        controls = { "dose-out-of-hours", "chemicals-apart" },
      }
    end
    hazard {
      likelihood = scale.protection(scale.missing, { apart, plant.dosing_interlock, plant.chlorine_alarm },
        { occupied, not plant.chemical_store_ventilated }),
      severity = 4,
      because = "store, interlock, alarm and time of dosing: what is missing lets chlorine gas reach people",
      controls = { "dose-out-of-hours", "dosing-interlock", "chemicals-apart", "chlorine-alarm" },
      who = "everyone in or by the water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { water_body = "tank", ["plant.dosing"] = "automatic",
      ["plant.acid_and_hypochlorite_apart"] = "yes",
      ["plant.dosing_interlock"] = "yes", ["plant.dosing_while_occupied"] = "no",
        ["plant.chlorine_alarm"] = "no",
      ["plant.chemical_store_ventilated"] = "yes" }
    return example.join { {
      { "no dosing", given = like(base, { ["plant.dosing"] = "none" }), expect = nothing },
      { "apart, interlocked", given = base, expect = hazard { likelihood = 1, severity = 4 } },
      { "together, no interlock", given = like(base,
        { ["plant.acid_and_hypochlorite_apart"] = "no", ["plant.dosing_interlock"] = "no" }),
        expect = hazard { likelihood = 3, severity = 4 } },
      { "by hand with people in", given = like(base, { ["plant.acid_and_hypochlorite_apart"] = "no",
        ["plant.dosing_interlock"] = "no", ["plant.dosing_while_occupied"] = "yes" }),
        expect = { stop {}, hazard { likelihood = 4, severity = 4 } } },
      { "interlock not known", given = like(base, { ["plant.dosing_interlock"] = "?" }),
        expect = hazard { likelihood = 2, severity = 4 } },
      { "interlock fitted", given = like(base, { ["plant.dosing_interlock"] = "no" }),
        with = { "dosing-interlock" },
        expect = hazard { likelihood = 1, severity = 4 } },
    },
      example.edges(base, "water_body", 4, { "pool", 1, "lake", nothing }),
      example.edges(base, "plant.dosing_while_occupied", 4, { "yes", 2 }),
      example.edges(like(base, { ["plant.dosing_interlock"] = "no" }), "plant.chlorine_alarm", 4, { "no", 2, "yes", 1 }),
      example.edges(base, "plant.chemical_store_ventilated", 4, { "yes", 1, "no", 2 }),
    }
  end)(),
}

-- How bad being held is, from how fast the suction stops.
local function held(plant)
  if plant.pump_cut_off then return scale.without_air(plant.pump_cut_off_time) end
  return 5
end

local function sucks(site)
  return site.plant.drain_flow > q"0 m3/h" and site.plant.drains > 0
end

local drains = {
  ["plant.drains"] = "2", ["plant.drain_flow"] = "100 m3/h", ["plant.drain_open_area"] = "0.1 m2",
  ["plant.drain_cover"] = "anti-entrapment", ["plant.drain_cover_fixed"] = "yes",
    ["plant.pump_cut_off"] = "yes",
  ["plant.pump_cut_off_time"] = "5 s", ["plant.drain_spacing"] = "3 m", ["plant.drain_width"] = "0.3 m",
}

rule {
  id = "water.suction-hair",
  title = "Hair or costume drawn into a drain",
  each = "site",
  harm = "anyone near a drain: held under water by hair or costume",
  sources = {
    "EN 13451-3 as described by PWTAG: at most 0.5 m/s through the grate",
    "US state codes as described: at most 1.5 ft/s; velocity alone concerns hair, not bodies",
  },
  when = sucks,
  assess = function(s)
    local plant = s.plant
    local speed = calc.grate_velocity(plant.drain_flow, plant.drain_open_area * plant.drains)
    hazard {
      likelihood = scale.limit(speed, q"0.2 m/s", q"0.35 m/s", q"0.5 m/s", q"1 m/s"),
      severity = held(plant), because = "{speed} through the grates", values = { speed = speed },
      controls = { "pumps-off", "pump-cut-off", "second-drain" }, who = "everyone in the water",
    }
  end,
  examples = (function()
    local like = example.like
    return example.join { {
      { "no drains", given = like(drains, { ["plant.drains"] = "0" }), expect = nothing },
      { "pumps off", given = like(drains, { ["plant.drain_flow"] = "0 m3/h" }), expect = nothing },
      { "two, slow, cut-off manned", given = drains, expect = hazard { likelihood = 1, severity = 3 } },
      { "fast", given = like(drains, { ["plant.drain_flow"] = "500 m3/h" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "no cut-off", given = like(drains, { ["plant.pump_cut_off"] = "no" }),
        expect = hazard { likelihood = 1, severity = 5 } },
      { "flow not known", given = like(drains, { ["plant.drain_flow"] = "?" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "pumps off while people are in", given = like(drains, { ["plant.drain_flow"] = "500 m3/h" }),
        with = { "pumps-off" },
        expect = nothing },
    },
      -- through 0.2 m2: 0.2, 0.35, 0.5 and 1 m/s, and a little more
      example.edges(drains, "plant.drain_flow", 3,
        { "144 m3/h", 1, "147 m3/h", 2, "252 m3/h", 2, "257 m3/h", 3, "360 m3/h", 3, "367 m3/h", 4,
          "720 m3/h", 4, "735 m3/h", 5 }),
    }
  end)(),
}

rule {
  id = "water.suction-body",
  title = "A body held on a drain",
  each = "site",
  harm = "anyone near a drain: held under water by suction",
  sources = {
    "two drains at least 3 ft apart, or a grate too large to cover, 18 by 23 in (from memory: check the text)",
    "a missing or loose cover closes the pool: Virginia Graeme Baker Act (from memory: check the text)",
  },
  when = sucks,
  assess = function(s)
    local plant = s.plant
    local cover, fixed = plant.drain_cover, plant.drain_cover_fixed
    if cover == "none" or not fixed then
      stop { because = "a suction outlet has no cover, or one that is not screwed down and whole",
        controls = { "drain-covers", "pumps-off" } }
    end
    local alone = plant.drains < 2 or plant.drain_spacing < q"0.9 m"
    if alone and plant.drain_width < q"0.45 m" then
      hazard {
        likelihood = scale.protection(scale.missing, { cover == "anti-entrapment" }),
          severity = held(plant),
        because = "one body can cover all the suction of a pump: {s.plant.drains} outlet(s), {s.plant.drain_width} wide",
        controls = { "pumps-off", "second-drain", "drain-covers", "pump-cut-off" },
          who = "everyone in the water",
      }
    end
  end,
  examples = (function()
    local like = example.like
    local one = like(drains, { ["plant.drains"] = "1", ["plant.drain_cover"] = "flat-grille" })
    return example.join { {
      { "no drains", given = like(drains, { ["plant.drains"] = "0" }), expect = nothing },
      { "pumps off", given = like(drains, { ["plant.drain_flow"] = "0 m3/h" }), expect = nothing },
      { "two apart", given = drains, expect = nothing },
      { "one small drain", given = one, expect = hazard { likelihood = 3, severity = 3 } },
      { "one large drain", given = like(one, { ["plant.drain_width"] = "0.6 m" }), expect = nothing },
      { "two side by side", given = like(drains, { ["plant.drain_spacing"] = "0.4 m" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "loose cover", given = like(drains, { ["plant.drain_cover_fixed"] = "no" }), expect = stop {} },
      { "cover not checked", given = like(drains, { ["plant.drain_cover_fixed"] = "?" }),
        expect = stop {} },
      { "second drain", given = like(one, { ["plant.drain_spacing"] = "0.2 m" }),
        with = { "second-drain" }, expect = nothing },
    },
      example.edges(drains, "plant.drain_spacing", 3, { "0.9 m", nothing, "0.88 m", 2 }),
      example.edges(one, "plant.drain_width", 3, { "0.45 m", nothing, "0.44 m", 3 }),
      example.edges(drains, "plant.drain_cover", 3, { "none", stop {}, "flat-grille", nothing }),
    }
  end)(),
}

rule {
  id = "water.illness",
  title = "Somebody who should stay out of the water",
  each = "immersion",
  harm = "everyone in the water: infection from one person; that person: infected wounds",
  sources = {
    "exclusion for 14 days after diarrhoea (from memory: check the text)",
    "common practice: wounds covered or out of the water, in open water out",
  },
  when = function(i) return i.site.water_body ~= "none" end,
  assess = function(i)
    if i.person.diarrhoea_14_days then
      stop { because = "diarrhoea or vomiting within 14 days: stays out of the water", discreet = true,
        controls = { "exclude-ill" } }
    end
    if i.person.open_wounds then
      local open = waters.natural(i.site)
      hazard {
        likelihood = open and 4 or 2, severity = open and 3 or 2,
        because = "open wounds or skin disease in the water", discreet = true,
          controls = { "cover-wounds", "exclude-ill", "trained-double" },
        who = "1 person in the water",
      }
    end
  end,
  examples = (function()
    local like = example.like
    local base = { ["site.water_body"] = "tank", ["person.diarrhoea_14_days"] = "no",
      ["person.open_wounds"] = "no" }
    return {
      { "no water", given = like(base, { ["site.water_body"] = "none" }), expect = nothing },
      { "well", given = base, expect = nothing },
      { "wound in a tank", given = like(base, { ["person.open_wounds"] = "yes" }),
        expect = hazard { likelihood = 2, severity = 2 } },
      { "wound in a river", given = like(base,
        { ["site.water_body"] = "river", ["person.open_wounds"] = "yes" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "diarrhoea", given = like(base, { ["person.diarrhoea_14_days"] = "yes" }), expect = stop {} },
      { "not asked", given = like(base, { ["person.diarrhoea_14_days"] = "?" }), expect = stop {} },
      { "kept out", given = like(base, { ["person.diarrhoea_14_days"] = "yes" }), with = { "exclude-ill" },
        expect = nothing },
    }
  end)(),
}
