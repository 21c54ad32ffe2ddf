-- What is added to the water or gets into it, sprays, open water, chemicals,
-- suction, and who should stay out.

local tank = { water_body = "tank" }

local function anything_added(water)
  return water.additives_dye or water.additives_milk or water.additives_fog_juice or water.additives_sand
    or water.additives_soil or water.additives_leaves or water.additives_foam or water.additives_oil
    or water.additives_paint or water.additives_blood or water.additives_other
end

rule {
  id = "water.additives",
  title = "What is put into the water for the picture",
  each = "site",
  harm = "everyone in the water: skin, eyes, stomach; food for germs; filters blocked",
  sources = { "common practice: data sheet, trial on skin and eyes at working strength, clarity measured afterwards" },
  when = function(s) return anything_added(s.water) end,
  assess = function(s)
    local water = s.water
    local sheets, tried = water.additive_data_sheets, water.additive_skin_and_eye_tested
    local feeds = water.additives_milk or water.additives_soil or water.additives_leaves or water.additives_blood
    local clings = water.additives_oil or water.additives_paint
    hazard {
      likelihood = scale.protection(scale.missing, { sheets, tried }, { feeds, clings }),
      severity = 2,
      because = "in the water: {s.water.additives}",
      controls = { "no-additive", "additive-test" },
      also = { "clear-the-water", "raise-chlorine" },
        who = "everyone in the water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { ["water.additives"] = "dye", ["water.additive_data_sheets"] = "yes",
      ["water.additive_skin_and_eye_tested"] = "yes" }
    return example.join { {
      { "clear water", given = { ["water.additives"] = "none" }, expect = nothing },
      { "a tested dye", given = base, expect = hazard { likelihood = 1, severity = 2 } },
      { "milk, no sheet, no trial", given = like(base,
        { ["water.additives"] = "milk", ["water.additive_data_sheets"] = "no",
        ["water.additive_skin_and_eye_tested"] = "no" }),
          expect = hazard { likelihood = 4, severity = 2 } },
      { "oil and leaves", given = like(base, { ["water.additives"] = "leaves oil" }),
        expect = hazard { likelihood = 3, severity = 2 } },
      { "trial not known", given = like(base, { ["water.additive_skin_and_eye_tested"] = "?" }),
        expect = hazard { likelihood = 2, severity = 2 } },
      { "tried out", given = like(base,
        { ["water.additive_data_sheets"] = "no", ["water.additive_skin_and_eye_tested"] = "no" }),
        with = { "additive-test" }, expect = hazard { likelihood = 1, severity = 2 } },
    },
      example.edges(base, "water.additives", 2,
        { "fog-juice", 1, "sand", 1, "foam", 1, "other", 1, "soil", 2, "blood", 2, "milk", 2, "leaves", 2, "oil", 2,
          "paint", 2 }),
    }
  end)(),
}

rule {
  id = "water.accident",
  title = "Faeces, vomit or blood in the water",
  each = "site",
  harm = "everyone in the water: infection of the gut",
  sources = {
    "Arkansas Department of Health, faecal accidents: formed stool 25 min at 2 mg/L (CT 50)",
    "CDC disinfection timetable: Cryptosporidium 15 300 mg min/L",
    "CDC MAHC 6.5.3.2.1: with cyanurate 30 h at 40 mg/L (CT 72 000)",
    "vomit and blood as formed stool (from memory: check the text)",
  },
  worst = { likelihood = 5, severity = 3 },
  when = function(s) return waters.treated(s) and s.water.accident ~= "none" end,
  assess = function(s)
    local water = s.water
    local needed = q"50 mg min/L"
    if water.accident == "loose-stool" then
      needed = q"15300 mg min/L"
      if water.cyanuric_acid > q"0 mg/L" then needed = q"72000 mg min/L" end
    end
    local reached = calc.ct_value(water.accident_chlorine, water.accident_contact_time)
    if reached < needed then
      stop {
        because = "{reached} of chlorine and time since the accident where {needed} is needed: nobody goes in yet",
        values = { reached = reached, needed = needed }, controls = { "hold-for-ct" },
      }
    end
    hazard {
      likelihood = scale.protection(scale.minimum(reached, needed * 2, needed * 1.5, needed, needed * 0.5),
        { s.plant.secondary_treatment ~= "none" }),
      severity = 3,
      because = "{s.water.accident}: {reached} of chlorine and time held, {needed} needed",
      values = { reached = reached, needed = needed },
      controls = { "hold-for-ct", "uv-treatment" },
      also = { "accident-procedure" }, who = "everyone in the water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = like(tank, { ["water.accident"] = "formed-stool", ["water.accident_chlorine"] = "4 mg/L",
      ["water.accident_contact_time"] = "30 min", ["water.cyanuric_acid"] = "0 mg/L",
        ["plant.secondary_treatment"] = "none" })
    return example.join { {
      { "none", given = like(tank, { ["water.accident"] = "none" }), expect = nothing },
      { "held more than twice as long", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "just long enough", given = like(base, { ["water.accident_contact_time"] = "14 min" }),
        expect = hazard { likelihood = 3, severity = 3 } },
      { "too short", given = like(base, { ["water.accident_contact_time"] = "5 min" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 3 } } },
      { "too short, with ultraviolet", given = like(base, { ["water.accident_contact_time"] = "5 min",
        ["plant.secondary_treatment"] = "uv" }),
          expect = { stop {}, hazard { likelihood = 4, severity = 3 } } },
      { "loose stool, an hour", given = like(base,
        { ["water.accident"] = "loose-stool", ["water.accident_contact_time"] = "60 min" }),
        expect = { stop {}, hazard { likelihood = 5, severity = 3 } } },
      { "loose stool, cyanurate", given = like(base,
        { ["water.accident"] = "loose-stool", ["water.accident_contact_time"] = "80 h",
        ["water.cyanuric_acid"] = "30 mg/L" }),
          expect = { stop {}, hazard { likelihood = 5, severity = 3 } } },
      { "time not known", given = like(base, { ["water.accident_contact_time"] = "?" }), expect = stop {} },
      { "held", given = like(base, { ["water.accident"] = "loose-stool" }), with = { "hold-for-ct" },
        expect = hazard { likelihood = 3, severity = 3 } },
    },
      -- 4 mg/L: twice, 1.5 times, once and half of 50 mg min/L
      example.edges(base, "water.accident_contact_time", 3,
        { "25 min", 1, "24.5 min", 2, "18.8 min", 2, "18.4 min", 3, "12.5 min", 3,
          "12.3 min", { stop {}, hazard { likelihood = 4, severity = 3 } },
          "6.3 min", { stop {}, hazard { likelihood = 4, severity = 3 } },
          "6.1 min", { stop {}, hazard { likelihood = 5, severity = 3 } } }),
      example.edges(like(base, { ["water.accident"] = "loose-stool" }), "water.accident_contact_time", 3,
        { "3825 min", 3, "3800 min", { stop {}, hazard { likelihood = 4, severity = 3 } } }),
      example.edges(like(base, { ["water.accident"] = "loose-stool", ["water.accident_chlorine"] = "40 mg/L",
        ["water.cyanuric_acid"] = "30 mg/L" }), "water.accident_contact_time", 3,
        { "30 h", 3, "29.5 h", { stop {}, hazard { likelihood = 4, severity = 3 } } }),
      example.edges(base, "water_body", 3, { "pool", 1, "lake", nothing }),
    }
  end)(),
}

rule {
  id = "water.accident-procedure",
  title = "Nobody has written what to do when somebody soils the water",
  each = "site",
  harm = "everyone in the water: infection of the gut",
  sources = { "common practice: a written procedure, a log, and treatment that kills what chlorine does not" },
  when = waters.treated,
  assess = function(s)
    local written = s.water.accident_procedure
    hazard {
      likelihood = scale.protection(scale.missing,
        { written, s.plant.log_kept, s.plant.secondary_treatment ~= "none" }),
      severity = 2,
      because = "procedure, water log and second treatment: what is missing lets an accident go unnoticed",
      controls = { "accident-procedure", "water-test-schedule", "uv-treatment" },
        who = "everyone in the water",
    }
  end,
  examples = {
    { "a lake", given = { water_body = "lake" }, expect = nothing },
    { "written, logged, ultraviolet", given = { water_body = "pool", ["water.accident_procedure"] = "yes",
      ["plant.log_kept"] = "yes",
      ["plant.secondary_treatment"] = "uv" }, expect = hazard { likelihood = 1, severity = 2 } },
    { "nothing", given = { water_body = "pool", ["water.accident_procedure"] = "no",
      ["plant.log_kept"] = "no",
      ["plant.secondary_treatment"] = "none" }, expect = hazard { likelihood = 3, severity = 2 } },
    { "not known", given = { water_body = "pool", ["water.accident_procedure"] = "?",
      ["plant.log_kept"] = "yes",
      ["plant.secondary_treatment"] = "none" }, expect = hazard { likelihood = 2, severity = 2 } },
    { "written", given = { water_body = "pool", ["water.accident_procedure"] = "no",
      ["plant.log_kept"] = "yes",
      ["plant.secondary_treatment"] = "none" }, with = { "accident-procedure" },
        expect = hazard { likelihood = 1, severity = 2 } },
  },
}

rule {
  id = "water.legionella",
  title = "Legionella in spray",
  each = "rig",
  harm = "everyone who breathes the spray: pneumonia",
  sources = {
    "HSE ACoP L8 as quoted: Legionella grows at 20 to 45 degC; WHO: best at 32 to 42 degC",
    "HSE ACoP L8: little-used outlets flushed weekly (from memory: check the text)",
    "HSE HSG274: act from 100, shut down above 1000 cfu/L (from memory: check the text)",
  },
  when = function(r) return r.aerosol end,
  assess = function(r)
    local site, base = r.site, 2
    if r.water_temperature >= q"20 degC" and r.water_temperature <= q"45 degC" then base = scale.missing end
    local stale = site.water.stagnation > q"7 day"
    local clean = site.plant.spray_water_treated
    local found = site.water.legionella
    if found > q"1000 cfu/L" then
      stop { because = "Legionella {found}: no spray until the system is cleaned and tested again",
        values = { found = found },
        controls = { "flush-and-disinfect" } }
    end
    hazard {
      likelihood = scale.protection(base, { clean }, { stale, found > q"100 cfu/L" }),
      severity = 3,
      because = "spray at {r.water_temperature}, water that stood for {stood}, Legionella {found}",
      values = { stood = site.water.stagnation, found = found },
      controls = { "flush-and-disinfect", "cool-spray-water" }, who = "everyone who breathes the spray",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { aerosol = "yes", water_temperature = "15 degC", ["site.water.stagnation"] = "1 day",
      ["site.plant.spray_water_treated"] = "yes", ["site.water.legionella"] = "0 cfu/L" }
    return example.join { {
      { "no spray", given = like(base, { aerosol = "no" }), expect = nothing },
      { "cold, treated", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "warm rain, treated", given = like(base, { water_temperature = "35 degC" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "hotter than it grows", given = like(base, { water_temperature = "50 degC" }),
        expect = hazard { likelihood = 1, severity = 3 } },
      { "stood for two weeks, warm", given = like(base,
        { water_temperature = "30 degC", ["site.water.stagnation"] = "14 day",
        ["site.plant.spray_water_treated"] = "no" }), expect = hazard { likelihood = 4, severity = 3 } },
      { "found", given = like(base, { ["site.water.legionella"] = "400 cfu/L" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "much found", given = like(base, { ["site.water.legionella"] = "5000 cfu/L" }),
        expect = { stop {}, hazard { likelihood = 2, severity = 3 } } },
      { "temperature not known", given = like(base, { water_temperature = "?" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "flushed and disinfected", given = like(base,
        { water_temperature = "30 degC", ["site.water.stagnation"] = "14 day",
        ["site.plant.spray_water_treated"] = "no" }), with = { "flush-and-disinfect" },
          expect = hazard { likelihood = 2, severity = 3 } },
    },
      example.edges(base, "water_temperature", 3, { "19.5 degC", 1, "20 degC", 2, "45 degC", 2, "45.5 degC", 1 }),
      example.edges(base, "site.water.stagnation", 3, { "7 day", 1, "7.2 day", 2 }),
      example.edges(base, "site.water.legionella", 3,
        { "100 cfu/L", 1, "103 cfu/L", 2, "1000 cfu/L", 2,
          "1020 cfu/L", { stop {}, hazard { likelihood = 2, severity = 3 } } }),
    }
  end)(),
}

-- Highest likelihood by the two germs that stand for sewage.
local function sewage(site)
  local found = site.openwater
  if site.water_body == "sea" then
    return max(scale.limit(found.e_coli, q"125 cfu/100mL", q"250 cfu/100mL", q"500 cfu/100mL",
      q"1000 cfu/100mL"),
      scale.limit(found.enterococci, q"50 cfu/100mL", q"100 cfu/100mL", q"185 cfu/100mL", q"370 cfu/100mL"))
  end
  return max(scale.limit(found.e_coli, q"250 cfu/100mL", q"500 cfu/100mL", q"900 cfu/100mL",
    q"1800 cfu/100mL"),
    scale.limit(found.enterococci, q"100 cfu/100mL", q"200 cfu/100mL", q"330 cfu/100mL", q"660 cfu/100mL"))
end

rule {
  id = "water.open-water-germs",
  title = "Dirty open water",
  each = "site",
  harm = "everyone in the water: infection of gut, skin and ears",
  sources = {
    "Directive 2006/7/EC Annex I: inland E. coli 500, 1000, 900 and enterococci 200, 400, 330; coast 250, 500, 500 and "
      .. "100, 200, 185 cfu in 100 mL",
    "common practice: no entry for 48 h after heavy rain below an outfall",
  },
  worst = { likelihood = 5, severity = 3 },
  when = waters.natural,
  assess = function(s)
    local found = s.openwater
    local by_germs = sewage(s)
    local washed_in = found.rain_48_h > q"10 mm" and found.outfall_distance < q"2 km"
    hazard {
      likelihood = scale.protection(by_germs, {}, { washed_in }),
      severity = 3,
      because = "E. coli {e_coli}, enterococci {enterococci}; {rain} of rain in 48 h, outfall {outfall} away",
      values = { e_coli = found.e_coli, enterococci = found.enterococci, rain = found.rain_48_h,
        outfall = found.outfall_distance },
      controls = { "bathing-water-test", "move-the-place", "cover-wounds" }, who = "everyone in the water",
    }
  end,
  examples = (function()
    local like = example.like
    local base = { water_body = "lake", ["openwater.e_coli"] = "80 cfu/100mL",
      ["openwater.enterococci"] = "30 cfu/100mL",
      ["openwater.rain_48_h"] = "2 mm", ["openwater.outfall_distance"] = "8 km" }
    return example.join { {
      { "a tank", given = tank, expect = nothing },
      { "a clean lake", given = base, expect = hazard { likelihood = 1, severity = 3 } },
      { "rain below an outfall", given = like(base,
        { ["openwater.rain_48_h"] = "25 mm", ["openwater.outfall_distance"] = "500 m" }),
        expect = hazard { likelihood = 2, severity = 3 } },
      { "poor", given = like(base, { ["openwater.e_coli"] = "1500 cfu/100mL" }),
        expect = hazard { likelihood = 4, severity = 3 } },
      { "the same at sea", given = like(base,
        { water_body = "sea", ["openwater.e_coli"] = "1500 cfu/100mL" }),
        expect = hazard { likelihood = 5, severity = 3 } },
      { "not sampled", given = like(base, { ["openwater.e_coli"] = "?" }),
        expect = hazard { likelihood = 5, severity = 3 } },
    },
      example.edges(like(base, { ["openwater.outfall_distance"] = "500 m" }), "openwater.rain_48_h", 3,
        { "10 mm", 1, "10.3 mm", 2 }),
      example.edges(like(base, { ["openwater.rain_48_h"] = "25 mm" }), "openwater.outfall_distance", 3,
        { "2 km", 1, "1.95 km", 2 }),
      example.edges(base, "openwater.e_coli", 3,
        { "250 cfu/100mL", 1, "255 cfu/100mL", 2, "500 cfu/100mL", 2, "510 cfu/100mL", 3, "900 cfu/100mL", 3,
          "920 cfu/100mL", 4, "1800 cfu/100mL", 4, "1840 cfu/100mL", 5 }),
      example.edges(base, "openwater.enterococci", 3,
        { "100 cfu/100mL", 1, "102 cfu/100mL", 2, "200 cfu/100mL", 2, "204 cfu/100mL", 3, "330 cfu/100mL", 3,
          "337 cfu/100mL", 4, "660 cfu/100mL", 4, "674 cfu/100mL", 5 }),
      example.edges(like(base, { water_body = "sea" }), "openwater.e_coli", 3,
        { "125 cfu/100mL", 1, "128 cfu/100mL", 2, "250 cfu/100mL", 2, "255 cfu/100mL", 3, "500 cfu/100mL", 3,
          "510 cfu/100mL", 4, "1000 cfu/100mL", 4, "1020 cfu/100mL", 5 }),
      example.edges(like(base, { water_body = "sea" }), "openwater.enterococci", 3,
        { "50 cfu/100mL", 1, "51 cfu/100mL", 2, "100 cfu/100mL", 2, "102 cfu/100mL", 3, "185 cfu/100mL", 3,
          "189 cfu/100mL", 4, "370 cfu/100mL", 4, "378 cfu/100mL", 5 }),
    }
  end)(),
}

rule {
  id = "water.rats",
  title = "Rats or livestock at the water",
  each = "site",
  harm = "everyone in the water: leptospirosis through wounds, eyes and mouth",
  sources = { "common practice: rats and cattle carry leptospirosis; wounds covered, hands and face washed, doctor told" },
  when = waters.natural,
  assess = function(s)
    if s.openwater.rats then
      hazard {
        likelihood = 2, severity = 3, because = "rats or livestock use the bank",
        controls = { "cover-wounds", "move-the-place" }, who = "everyone in the water",
      }
    end
  end,
  examples = example.join { {
    { "a tank", given = tank, expect = nothing },
    { "none seen", given = { water_body = "river", ["openwater.rats"] = "no" }, expect = nothing },
    { "seen", given = { water_body = "river", ["openwater.rats"] = "yes" },
      expect = hazard { likelihood = 2, severity = 3 } },
    { "not looked for", given = { water_body = "river", ["openwater.rats"] = "?" },
      expect = hazard { likelihood = 2, severity = 3 } },
  },
    example.edges({ ["openwater.rats"] = "yes" }, "water_body", 3, { "lake", 2, "sea", 2, "quarry", 2 }),
  },
}

rule {
  id = "water.open-water-life",
  title = "Blue-green algae, and amoebae in warm fresh water",
  each = "site",
  harm = "everyone in the water: liver, gut and skin poisoning; brain infection through the nose",
  sources = {
    "WHO vol 1 (2003): blue-green algae 20 000 and 100 000 cells/mL (from memory: check the text)",
    "CDC Naegleria page as quoted: infection likelier above 27 degC (80 degF), not in salt water",
  },
  reasoning = "amoebic infection is nearly always fatal and very rare: likelihood 1 up to 32 degC, 2 above",
  when = waters.natural,
  assess = function(s)
    local found = s.openwater
    if found.scum then
      stop { because = "blue-green scum or streaks are seen: nobody goes in",
        controls = { "move-the-place" } }
    end
    hazard {
      likelihood = scale.limit(found.cyanobacteria, q"5000 1/mL", q"20000 1/mL", q"50000 1/mL",
        q"100000 1/mL"),
      severity = 2, about = "blue-green algae", because = "{cells} of blue-green algae",
        values = { cells = found.cyanobacteria },
      controls = { "bathing-water-test", "move-the-place" }, who = "everyone in the water",
    }
    local water = s.water.temperature
    if s.water_body ~= "sea" and water > q"27 degC" then
      local likelihood = 1
      if water > q"32 degC" then likelihood = 2 end
      hazard {
        likelihood = likelihood, severity = 5, about = "amoebae",
          because = "warm fresh water at {s.water.temperature}",
        controls = { "nose-clip", "move-the-place" }, who = "everyone whose head goes under",
      }
    end
  end,
  examples = (function()
    local like = example.like
    local base = { water_body = "lake", ["openwater.scum"] = "no", ["openwater.cyanobacteria"] = "500 1/mL",
      ["water.temperature"] = "18 degC" }
    return example.join { {
      { "a tank", given = tank, expect = nothing },
      { "a clear lake", given = base, expect = hazard { likelihood = 1, severity = 2 } },
      { "a bloom", given = like(base, { ["openwater.cyanobacteria"] = "80000 1/mL" }),
        expect = hazard { likelihood = 4, severity = 2 } },
      { "scum", given = like(base, { ["openwater.scum"] = "yes" }), expect = stop {} },
      { "scum not looked for", given = like(base, { ["openwater.scum"] = "?" }), expect = stop {} },
      { "a warm pond", given = like(base, { ["water.temperature"] = "29 degC" }),
        expect = hazard { likelihood = 1, severity = 5 } },
      { "a hot spring", given = like(base, { ["water.temperature"] = "35 degC" }),
        expect = hazard { likelihood = 2, severity = 5 } },
      { "a warm sea", given = like(base, { water_body = "sea", ["water.temperature"] = "29 degC" }),
        expect = hazard { likelihood = 1, severity = 2 } },
    },
      example.edges(base, "openwater.cyanobacteria", 2,
        { "5000 1/mL", 1, "5100 1/mL", 2, "20000 1/mL", 2, "20400 1/mL", 3, "50000 1/mL", 3, "51000 1/mL", 4,
          "100000 1/mL", 4, "102000 1/mL", 5 }),
      example.edges(base, "water.temperature", 5,
        { "27 degC", hazard { likelihood = 1, severity = 2 }, "27.5 degC", 1, "32 degC", 1, "32.5 degC", 2 }),
    }
  end)(),
}
