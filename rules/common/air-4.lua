-- Dry chambers: air spaces under the surface in which people act or rest.
-- Carbon dioxide is counted as surface equivalent: what people give off, as
-- free gas, over the air the chamber gets at its own pressure.

local reference = "75 kg" -- body mass of an occupant: adult, rather above the middle

local function pressure_ratio(c)
  return calc.expansion_ratio(pressure.ambient(c.site, c.depth), pressure.surface(c.site))
end

local function mets(c)
  return scale.mets(c.effort)
end

rule {
  id = "air.chamber-carbon-dioxide",
  title = "Carbon dioxide builds up in the dry chamber",
  each = "chamber",
  harm = "everyone in the chamber: headache, fast breathing, confusion, loss of consciousness",
  sources = {
    "US Navy Diving Manual par. 15-14: 0.5 % surface equivalent",
    "HSE EH40/2005: 0.5 % over 8 h, 1.5 % over 15 min",
    "NIOSH: 4 % immediately dangerous to life or health",
  },
  reasoning = "above 4 % people lose consciousness in a place they can only leave under water: severity 5",
  limits = { long_term = { at_most = "0.5 %" }, short_term = { at_most = "1.5 %" } },
  assess = function(c, limit)
    local dangerous = q"4 %"
    local each = calc.carbon_dioxide_output(q(reference), mets(c))
    local flow = c.supply_flow / pressure_ratio(c)
    local reached = calc.carbon_dioxide_after(c.volume, c.occupants, each, flow, 0.0004, c.stay, 0.0004)
    local highest = max(reached, c.carbon_dioxide)
    local controls = { "chamber-more-flow", "chamber-fewer-people", "chamber-shorter-stay",
      "chamber-gas-monitor" }
    if highest > dangerous then
      stop {
        because = "{reached} of carbon dioxide worked out, {c.carbon_dioxide} measured: above 4 %",
        values = { reached = reached }, controls = controls,
      }
    end
    local by_figure = scale.limit(highest, 0.003, limit.long_term, limit.short_term, 0.03)
    hazard {
      likelihood = scale.protection(by_figure, {}, { by_figure > 1 and not c.gas_monitor }),
      severity = highest > dangerous and 5 or 3,
      because = "{c.occupants} people for {c.stay} on {c.supply_flow} reach {reached} of carbon dioxide; "
        .. "{c.carbon_dioxide} measured",
      values = { reached = reached, flow = flow, ceiling_8_h = limit.long_term, ceiling_15_min = limit.short_term },
      controls = controls, who = "everyone in the chamber",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { volume = "6 m3", occupants = "2", stay = "20 min", effort = "light",
      supply_flow = "600 L/min",
      depth = "3 m", carbon_dioxide = "0.3 %", gas_monitor = "yes", ["site.altitude"] = "0 m",
      ["site.water.temperature"] = "28 degC" }
    return example.join { {
      { "two people, ample air", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "harder work", given = like(base, { effort = "moderate" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "rest, few, plenty", given = like(base,
        { effort = "rest", occupants = "1", carbon_dioxide = "0.1 %" }),
        expect = hazard { likelihood = 1, severity = 3 } },
      { "no monitor", given = like(base, { gas_monitor = "no", effort = "moderate" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "many, little air", given = like(base, { occupants = "10", supply_flow = "200 L/min" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "four per cent measured", given = like(base, { carbon_dioxide = "4.5 %" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
      { "flow not known", given = like(base, { supply_flow = "?" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "fewer people", given = like(base, { occupants = "10", supply_flow = "200 L/min" }),
        with = { "chamber-fewer-people", "chamber-more-flow" },
          expect = hazard { likelihood = 1, severity = 3 } },
    },
      example.edges(like(base, { effort = "rest", occupants = "1" }), "carbon_dioxide", 3,
        { "0.3 %", 1, "0.31 %", 2, "0.5 %", 2, "0.51 %", 3, "1.5 %", 3, "1.55 %", 4, "3 %", 4, "3.1 %", 5,
          "4 %", 5, "4.1 %", { stop {}, hazard { likelihood = 5, severity = 5 } } }),
      example.edges(like(base, { effort = "rest", occupants = "1", gas_monitor = "no" }), "carbon_dioxide", 3,
        { "0.3 %", 1, "0.31 %", 3 }),
      -- two people at 0.69 L/min each and 233 L/min at the pressure of 3 m: 0.2996 and 0.3009 %
      example.edges(like(base, { supply_flow = "300 L/min", carbon_dioxide = "0.1 %" }), "stay", 3,
        { "14.9 min", 1, "15 min", 2 }),
    }
  end)(),
}

rule {
  id = "air.chamber-oxygen",
  title = "Oxygen in the dry chamber too low or too high",
  each = "chamber",
  harm = "everyone in the chamber: loss of consciousness, or a fire that burns fiercely",
  sources = {
    "working band 19.5 to 23.5 % (from memory: check the text)",
    "29 CFR 1910.430(f)(3): chamber atmosphere below 25 % oxygen",
    "gas-safety table: first signs at 16 %",
  },
  assess = function(c)
    local uptake = calc.oxygen_uptake(q(reference), mets(c))
    local settles = calc.oxygen_steady(c.occupants, uptake, c.supply_flow, 0.209)
    local lowest, highest = min(settles, c.oxygen), c.oxygen
    local controls = { "chamber-more-flow", "chamber-fewer-people" }
    local also = { "chamber-gas-monitor" }
    if lowest < 0.16 then
      stop { because = "{settles} of oxygen worked out, {c.oxygen} measured: below 16 %",
        values = { settles = settles },
        controls = controls, also = also }
    end
    if highest > 0.25 then
      stop { because = "{c.oxygen} of oxygen: a fire would burn fiercely; below 25 % is required",
        controls = controls, also = also }
    end
    hazard {
      likelihood = scale.minimum(lowest, 0.2, 0.1975, 0.195, 0.17),
      severity = 5, about = "too little",
      because = "{settles} of oxygen worked out, {c.oxygen} measured", values = { settles = settles },
      controls = controls, also = also, who = "everyone in the chamber",
    }
    if highest > 0.215 then
      hazard {
        likelihood = scale.limit(highest, 0.22, 0.23, 0.235, 0.25),
        severity = 5, about = "too much", because = "{c.oxygen} of oxygen measured",
        controls = controls, also = also, who = "everyone in the chamber",
      }
    end
  end,
  examples = (function()
    local like = example.like
    local base = { occupants = "2", effort = "light", supply_flow = "600 L/min", oxygen = "20.6 %" }
    return example.join { {
      { "ample air", given = base, expect = hazard { likelihood = 1, severity = 5 } },
      { "at the lower limit", given = like(base, { oxygen = "19.6 %" }),
        expect = hazard { likelihood = 3, severity = 5 } },
      { "little air, many people", given = like(base, { occupants = "8", supply_flow = "100 L/min" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
      { "oxygen leaks in", given = like(base, { oxygen = "23 %" }),
        expect = hazard { likelihood = 2, severity = 5 } },
      { "far too much", given = like(base, { oxygen = "28 %" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
      { "not measured", given = like(base, { oxygen = "?" }), expect = stop {} },
      { "fewer people, more flow", given = like(base, { occupants = "8", supply_flow = "100 L/min" }),
        with = { "chamber-fewer-people", "chamber-more-flow" },
          expect = hazard { likelihood = 1, severity = 5 } },
    },
      example.edges(like(base, { occupants = "1", effort = "rest" }), "oxygen", 5,
        { "20 %", 1, "19.9 %", 2, "19.75 %", 2, "19.7 %", 3, "19.5 %", 3, "19.4 %", 4, "17 %", 4, "16.8 %", 5,
          "16 %", 5, "15.9 %", { stop {}, hazard { likelihood = 5, severity = 5 } },
          "22 %", 1, "22.4 %", 2, "23 %", 2, "23.2 %", 3, "23.5 %", 3, "23.8 %", 4, "25 %", 4,
          "25.3 %", { stop {}, hazard { likelihood = 5, severity = 5 } } }),
    }
  end)(),
}

rule {
  id = "air.chamber-supply-loss",
  title = "The dry chamber loses its air",
  each = "chamber",
  harm = "everyone in the chamber: bad air or rising water before all are out",
  sources = {
    "well-mixed balance from 0.5 % to 1.5 % carbon dioxide: calc.time_to_carbon_dioxide",
    "HSE EH40/2005: 1.5 % carbon dioxide over 15 min",
    "common practice: non-return valve, standby air and an evacuation drill for every dry space",
  },
  assess = function(c)
    local each = calc.carbon_dioxide_output(q(reference), mets(c))
    local good_for = calc.time_to_carbon_dioxide(c.volume, c.occupants, each, 0.005, 0.015)
    local wanted = calc.gas_needed(q"40 L/min", pressure.ambient(c.site, c.depth), pressure.surface(c.site),
      c.evacuation_time, c.occupants)
    local standby = c.standby_mouthpieces >= c.occupants and c.standby_gas >= wanted
    local by_time = scale.reserve(good_for, c.evacuation_time)
    hazard {
      likelihood = scale.protection(by_time, { c.second_supply },
        { not c.non_return_valve, not c.flow_alarm }),
      severity = standby and 3 or 5,
      because = "the air is good for {good_for} once the supply is lost; everyone is out in {c.evacuation_time}; "
        .. "standby gas {c.standby_gas}, {wanted} needed until then",
      values = { good_for = good_for, wanted = wanted },
      controls = { "chamber-second-supply", "chamber-non-return-valve", "chamber-flow-alarm",
        "chamber-standby-air",
        "chamber-evacuation-drill", "chamber-fewer-people" },
      who = "everyone in the chamber",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { volume = "6 m3", occupants = "2", effort = "light", evacuation_time = "3 min",
      second_supply = "yes",
      standby_mouthpieces = "4", standby_gas = "2000 L", non_return_valve = "yes", flow_alarm = "yes",
        depth = "3 m",
      ["site.altitude"] = "0 m", ["site.water.temperature"] = "28 degC" }
    return example.join { {
      { "drilled, second supply, mouthpieces", given = base,
        expect = hazard { likelihood = 1, severity = 3 } },
      { "no mouthpieces", given = like(base, { standby_mouthpieces = "0" }),
        expect = hazard { likelihood = 1, severity = 5 } },
      { "mouthpieces, little gas", given = like(base, { standby_gas = "200 L" }),
        expect = hazard { likelihood = 1, severity = 5 } },
      { "slow to clear", given = like(base, { volume = "2 m3", occupants = "6", evacuation_time = "6 min",
        second_supply = "no" }), expect = hazard { likelihood = 5, severity = 5 } },
      { "no valve, no alarm", given = like(base, { non_return_valve = "no", flow_alarm = "no" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "evacuation never timed", given = like(base, { evacuation_time = "?", second_supply = "no" }),
        expect = hazard { likelihood = 5, severity = 5 } },
      { "with a drill", given = like(base, { evacuation_time = "20 min" }),
        with = { "chamber-evacuation-drill" },
        expect = hazard { likelihood = 1, severity = 3 } },
    },
      -- 6 m3 are good for 43.6 min: just over and under twice the time; too little standby gas for that long
      example.edges(like(base, { second_supply = "no" }), "evacuation_time", 5, { "21.6 min", 2, "22 min", 3 }),
      -- 40 L/min, two people, 3 min, 1.29 times the pressure of the surface: 309 L
      example.edges(base, "standby_gas", 5, { "315 L", hazard { likelihood = 1, severity = 3 }, "300 L", 1 }),
    }
  end)(),
}

rule {
  id = "air.chamber-leaving",
  title = "Leaving a dry chamber after breathing its compressed air",
  each = "chamber",
  harm = "performer: over-expansion of the lungs on the way up; time at depth that nobody counts",
  sources = {
    "MSD Manual, Barotrauma (2023): from about 1 m after breathing compressed gas",
    "common practice: time in the chamber counts as time at its depth",
  },
  when = function(c) return c.depth >= q"1 m" end,
  assess = function(c)
    local ratio = pressure_ratio(c)
    local escorted = c.escorted_exit
    local counted = c.counted_as_bottom_time
    if not counted then
      note { because = "time in the chamber at {c.depth} is not logged as time at depth: totals and flights are wrong" }
    end
    hazard {
      likelihood = scale.protection(scale.missing, { escorted, c.attendant, c.voice_link },
        { not counted }),
      severity = 5,
      because = "air breathed at {c.depth} would fill {ratio} times the room at the surface",
      values = { ratio = ratio },
      controls = { "chamber-escorted-exit", "chamber-attendant", "chamber-bottom-time" },
      also = { "exhale-drill" },
      who = "everyone in the chamber",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { depth = "3 m", escorted_exit = "yes", counted_as_bottom_time = "yes", attendant = "yes",
      voice_link = "no", ["site.altitude"] = "0 m", ["site.water.temperature"] = "28 degC" }
    return example.join { {
      { "just under the surface", given = like(base, { depth = "0.5 m" }), expect = nothing },
      { "escorted", given = base, expect = hazard { likelihood = 1, severity = 5 } },
      { "alone, not counted", given = like(base,
        { escorted_exit = "no", attendant = "no", counted_as_bottom_time = "no" }),
        expect = { note {}, hazard { likelihood = 4, severity = 5 } } },
      { "escort not known", given = like(base, { escorted_exit = "?" }),
        expect = hazard { likelihood = 2, severity = 5 } },
      { "with an escort", given = like(base, { escorted_exit = "no" }), with = { "chamber-escorted-exit" },
        expect = hazard { likelihood = 1, severity = 5 } },
    },
      example.edges(base, "depth", 5, { "1 m", 1, "0.96 m", nothing }),
      example.edges(like(base, { escorted_exit = "no" }), "voice_link", 5, { "no", 2, "yes", 1 }),
    }
  end)(),
}
