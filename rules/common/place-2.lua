-- Machines and effects in, over and beside the water.

local function lifts(r)
  local kind = r.kind
  return kind == "lift" or kind == "platform" or kind == "camera-crane" or kind == "lamp"
    or kind == "dry-for-wet" or kind == "rain"
end

rule {
  id = "place.lifting-load",
  title = "Load on the hook with the water that is trapped in it",
  each = "rig",
  harm = "whoever is under or on it: the load falls",
  sources = { "mass of trapped water as computed; LOLER 1998 regs 5, 8 (from memory); rating " ..
    "from the certificate" },
  when = function (r) return lifts(r) and r.mass > q"0 kg" end,
  assess = function (r)
    local load = r.mass -- a lamp or a camera does not come out of the water
    if r.kind ~= "lamp" and r.kind ~= "camera-crane" then
      load = calc.hook_load(r.mass, r.trapped_water, q"1000 kg/m3")
    end
    local rating = r.load_rating
    if load > rating then
      stop { because = "{load} on a rig rated for {rating}",
        values = { load = load, rating = rating }, controls = { "drained-load" } }
    end
    if r.riders >= 1 and not r.person_rated then
      stop { because = "people ride on a rig that is not certified for people",
        also = { "clear-path", "dummy-for-held-shot" } }
    end
    hazard {
      likelihood = scale.limit(load, rating * 0.67, rating * 0.8, rating, rating * 1.1),
      severity = 5,
      because = "out of the water it weighs {load}, rated for {rating}",
      values = { load = load, rating = rating },
      who = "everyone under or on it", controls = { "drained-load" },
      also = { "second-suspension", "clear-path" },
    }
  end,
  examples = example.join { {
    { "half the rating",
      given = { kind = "lift", mass = "640 kg", trapped_water = "40 L", load_rating = "1500 kg",
        riders = "4", person_rated = "yes" },
      expect = hazard { likelihood = 1, severity = 5 } },
    { "full of water, too heavy",
      given = { kind = "lift", mass = "150 kg", trapped_water = "1000 L", load_rating = "500 kg",
        riders = "0" },
      expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "people on a goods lift",
      given = { kind = "platform", mass = "100 kg", trapped_water = "0 L", load_rating = "500 kg",
        riders = "2", person_rated = "no" },
      expect = { stop {}, hazard { likelihood = 1, severity = 5 } } },
    { "trapped water not known", given = { kind = "platform", mass = "100 kg",
      load_rating = "500 kg", riders = "0" },
      expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "drained as it rises",
      given = { kind = "lift", mass = "150 kg", trapped_water = "1000 L", load_rating = "500 kg",
        riders = "0" },
      with = { "drained-load" }, expect = hazard { likelihood = 1, severity = 5 } },
    { "a camera arm", given = { kind = "camera-crane", mass = "43 kg", load_rating = "80 kg",
      riders = "0" },
      expect = hazard { likelihood = 1, severity = 5 } },
    { "a wind machine", given = { kind = "wind-machine" }, expect = nothing },
    { "empty hook", given = { kind = "lift", mass = "0 kg" }, expect = nothing },
  },
    example.edges({ kind = "camera-crane", load_rating = "100 kg", riders = "0" }, "mass", 5,
      { "67 kg", 1, "68 kg", 2, "80 kg", 2, "82 kg", 3, "100 kg", 3,
        "102 kg", { stop {}, hazard { likelihood = 4, severity = 5 } },
        "110 kg", { stop {}, hazard { likelihood = 4, severity = 5 } },
        "112 kg", { stop {}, hazard { likelihood = 5, severity = 5 } } }),
    -- the same with half of it water
    example.edges({ kind = "platform", mass = "50 kg", load_rating = "100 kg", riders = "0" }, "trapped_water", 5,
      { "50 L", 3, "52 L", { stop {}, hazard { likelihood = 4, severity = 5 } } }),
    example.edges({ kind = "platform", mass = "50 kg", trapped_water = "0 L", load_rating = "100 kg",
      person_rated = "no" }, "riders", 5, { "0", 1, "1", { stop {}, hazard { likelihood = 1, severity = 5 } } }),
    example.edges({ mass = "100 kg", trapped_water = "600 L", load_rating = "1000 kg", riders = "0" }, "kind", 5,
      { "lamp", 1, "camera-crane", 1, "dry-for-wet", 2, "rain", 2, "lift", 2 }),
  },
}

rule {
  id = "place.over-people",
  title = "A load passes over or carries people",
  each = "rig",
  harm = "whoever is below or aboard: struck, crushed",
  sources = { "common practice: nobody under a load; where there must be, a second independent " ..
    "suspension" },
  when = function (r)
    local kind = r.kind
    local moves = lifts(r) or kind == "dump-tank" or kind == "other"
    return moves and (r.over_people or r.riders >= 1)
  end,
  assess = function (r)
    hazard {
      likelihood = scale.protection(scale.missing, { r.second_suspension,
        r.exclusion_zone or not r.over_people },
        { not r.operator_sees_people, r.stop_time > q"5 s" }),
      severity = 5, because = "{r.mass} moves over or with people, stopped in {r.stop_time}",
      who = "whoever is below or aboard",
      controls = { "second-suspension", "clear-path" },
    }
  end,
  examples = example.join { {
    { "nobody below", given = { kind = "lift", over_people = "no", riders = "0" },
      expect = nothing },
    { "riders on two suspensions",
      given = { kind = "lift", over_people = "no", riders = "4", second_suspension = "yes",
        exclusion_zone = "no", operator_sees_people = "yes",
                stop_time = "1.5 s" }, expect = hazard { likelihood = 1, severity = 5 } },
    { "one hook over swimmers, blind, slow",
      given = { kind = "lift", over_people = "yes", riders = "0", second_suspension = "no",
        exclusion_zone = "no", operator_sees_people = "no",
                stop_time = "8 s" }, expect = hazard { likelihood = 5, severity = 5 } },
    { "not known", given = { kind = "lift", over_people = "yes", riders = "0",
      exclusion_zone = "yes", operator_sees_people = "yes", stop_time = "1 s" },
      expect = hazard { likelihood = 2, severity = 5 } },
    { "path kept clear", given = { kind = "lift", over_people = "yes", riders = "0" },
      with = { "clear-path" }, expect = nothing },
  },
    example.edges({ kind = "lift", over_people = "no", riders = "1", second_suspension = "yes",
      exclusion_zone = "no", operator_sees_people = "yes" }, "stop_time", 5, { "5 s", 1, "5.2 s", 2 }),
    example.edges({ over_people = "yes", riders = "0", second_suspension = "no", exclusion_zone = "no",
      operator_sees_people = "yes", stop_time = "1 s" }, "kind", 5,
      { "dump-tank", 3, "other", 3, "rain", 3, "wind-machine", nothing }),
  },
}

rule {
  id = "place.moving-machine",
  title = "Machine that can catch or strike people",
  each = "rig",
  harm = "whoever is near: crushed or struck limb",
  worst = { likelihood = 5, severity = 4 },
  sources = { "PUWER 1998 regs 4-9, 16 (from memory): guards, stop, trained operator; common " ..
    "practice: released by the diving supervisor" },
  when = function (r)
    local kind = r.kind
    return kind ~= "smoke" and kind ~= "lamp" and kind ~= "pyrotechnics" and kind ~= "rain"
      and kind ~= "dry-for-wet"
  end,
  assess = function (r)
    local likelihood = scale.protection(scale.frequent, { r.guarded, r.operator_sees_people,
      r.exclusion_zone or r.interlock },
      { r.stop_time > q"5 s", r.people_distance < q"0.5 m" and not r.guarded })
    if likelihood < 2 then return end
    hazard {
      likelihood = likelihood, severity = 4, who = "whoever is near",
      because = "people at {r.people_distance}, stopped in {r.stop_time}; guard, view or " ..
        "release is missing",
      controls = { "guards-on", "interlock-on-release", "clear-path" },
    }
  end,
  examples = example.join { {
    { "guarded, seen, released", given = { kind = "wave-maker", guarded = "yes",
      operator_sees_people = "yes", exclusion_zone = "no",
                interlock = "yes", stop_time = "2 s" }, expect = nothing },
    { "open, blind, close, slow", given = { kind = "wave-maker", guarded = "no",
      operator_sees_people = "no", exclusion_zone = "no",
                interlock = "no", stop_time = "10 s", people_distance = "0.2 m" },
                expect = hazard { likelihood = 5, severity = 4 } },
    { "not released by the supervisor", given = { kind = "platform", guarded = "yes",
      operator_sees_people = "yes",
                exclusion_zone = "no", interlock = "no", stop_time = "2 s" },
                expect = hazard { likelihood = 2, severity = 4 } },
    { "guard not known, two metres off", given = { kind = "platform", operator_sees_people = "yes",
      exclusion_zone = "no",
                interlock = "yes", stop_time = "2 s", people_distance = "2 m" },
                expect = hazard { likelihood = 2, severity = 4 } },
    { "released by the supervisor", given = { kind = "platform", guarded = "yes",
      operator_sees_people = "yes",
                exclusion_zone = "no", interlock = "no", stop_time = "2 s" },
                with = { "interlock-on-release" }, expect = nothing },
    { "a lamp", given = { kind = "lamp" }, expect = nothing },
  },
    example.edges({ kind = "platform", guarded = "yes", operator_sees_people = "yes", exclusion_zone = "no",
      interlock = "no" }, "stop_time", 4, { "5 s", 2, "5.2 s", 3 }),
    example.edges({ kind = "platform", guarded = "no", operator_sees_people = "yes", exclusion_zone = "yes",
      interlock = "no", stop_time = "2 s" }, "people_distance", 4, { "0.5 m", 2, "0.49 m", 3 }),
    example.edges({ guarded = "no", operator_sees_people = "yes", interlock = "yes", stop_time = "2 s",
      people_distance = "2 m" }, "kind", 4,
      { "current", 2, "smoke", nothing, "pyrotechnics", nothing, "rain", nothing, "dry-for-wet", nothing }),
  },
}

local function moves_water(r)
  local kind = r.kind
  return kind == "dump-tank" or kind == "wave-maker" or kind == "current"
end

rule {
  id = "place.surge",
  title = "Moving water sweeps people off their feet",
  each = "rig",
  harm = "performers: swept away, struck against the set",
  sources = { "Cox, Shand and Blacka 2010, AR&R: depth times speed, adults: 0.6 m2/s low, 0.8 " ..
    "moderate, 1.2 significant, beyond it extreme" },
  when = moves_water,
  assess = function (r)
    local push = calc.depth_velocity(r.water_depth, r.water_speed)
    if push > q"1.2 m2/s" and not r.catch_net then
      stop { because = "depth times speed {push}: nobody stands, and nothing stops who is " ..
        "carried off", values = { push = push },
             controls = { "less-water", "catch-net" } }
    end
    local likelihood = scale.limit(push, q"0.4 m2/s", q"0.6 m2/s", q"0.8 m2/s", q"1.2 m2/s")
    local made_sure = r.tested_with_dummy and r.interlock and r.catch_net
    if made_sure then likelihood = scale.within(likelihood - 1) end
    hazard {
      likelihood = likelihood, severity = 4, who = "performers in the stream",
      because = "depth times speed {push} where people stand", values = { push = push },
      controls = { "less-water", "interlock-on-release", "dummy-run", "catch-net" },
    }
  end,
  examples = example.join { {
    { "knee-deep and slow", given = { kind = "current", water_depth = "0.3 m",
      water_speed = "1 m/s", tested_with_dummy = "no" },
      expect = hazard { likelihood = 1, severity = 4 } },
    { "half a metre at two, made sure",
      given = { kind = "dump-tank", water_depth = "0.5 m", water_speed = "2 m/s",
        tested_with_dummy = "yes", interlock = "yes", catch_net = "yes" },
      expect = hazard { likelihood = 3, severity = 4 } },
    { "a metre at three, no net",
      given = { kind = "wave-maker", water_depth = "1 m", water_speed = "3 m/s",
        tested_with_dummy = "no", catch_net = "no" },
      expect = { stop {}, hazard { likelihood = 5, severity = 4 } } },
    { "speed not measured", given = { kind = "dump-tank", water_depth = "0.5 m",
      tested_with_dummy = "no", catch_net = "no" },
      expect = { stop {}, hazard { likelihood = 5, severity = 4 } } },
    { "less water, slower", given = { kind = "wave-maker", water_depth = "1 m",
      water_speed = "3 m/s", tested_with_dummy = "no", catch_net = "no" },
      with = { "less-water" }, expect = hazard { likelihood = 1, severity = 4 } },
    { "rain", given = { kind = "rain" }, expect = nothing },
  },
    example.edges({ kind = "current", water_depth = "1 m", tested_with_dummy = "no", catch_net = "no" },
      "water_speed", 4,
      { "0.4 m/s", 1, "0.41 m/s", 2, "0.6 m/s", 2, "0.61 m/s", 3, "0.8 m/s", 3, "0.82 m/s", 4, "1.2 m/s", 4,
        "1.23 m/s", { stop {}, hazard { likelihood = 5, severity = 4 } } }),
    example.edges({ kind = "current", water_depth = "1 m", water_speed = "2 m/s", tested_with_dummy = "no" },
      "catch_net", 4, { "yes", 5, "no", { stop {}, hazard { likelihood = 5, severity = 4 } } }),
    example.edges({ kind = "current", water_depth = "1 m", water_speed = "1 m/s", tested_with_dummy = "yes",
      catch_net = "yes" }, "interlock", 4, { "yes", 3, "no", 4 }),
    example.edges({ kind = "current", water_depth = "1 m", water_speed = "1 m/s", tested_with_dummy = "yes",
      interlock = "yes" }, "catch_net", 4, { "yes", 3, "no", 4 }),
  },
}

rule {
  id = "place.surge-child",
  title = "Moving water too strong for a small person",
  each = "immersion",
  harm = "child: swept away",
  sources = { "Cox, Shand and Blacka 2010, AR&R: height times mass 25 to 50 m kg: 0.4 m2/s " ..
    "low, 0.6 significant, beyond it extreme; below 25 extreme at any flow" },
  when = function (i) return i.person.height * i.person.mass < q"50 m kg" end,
  assess = function (i)
    local size = i.person.height * i.person.mass
    for _, r in ipairs(i.task.rigs) do
      if moves_water(r) then
        local push = calc.depth_velocity(r.water_depth, r.water_speed)
        if size < q"25 m kg" or push > q"0.6 m2/s" then
          stop { about = r.label,
            because = "depth times speed {push} for somebody of height times mass {size}",
                 values = { push = push, size = size }, controls = { "less-water" },
                 also = { "stunt-double" } }
        end
        hazard {
          about = r.label, likelihood = scale.limit(push, q"0.2 m2/s", q"0.3 m2/s", q"0.4 m2/s",
            q"0.6 m2/s"), severity = 5,
          because = "depth times speed {push} for somebody of height times mass {size}",
          values = { push = push, size = size },
          who = "1 child", controls = { "less-water" },
          also = { "catch-net", "stunt-double" },
        }
      end
    end
  end,
  examples = example.join { {
    { "grown", given = { ["person.height"] = "1.7 m", ["person.mass"] = "60 kg" },
      expect = nothing },
    { "a shallow stream",
      given = { ["person.height"] = "1.2 m", ["person.mass"] = "24 kg",
        ["task.rigs.1.kind"] = "current",
                ["task.rigs.1.water_depth"] = "0.2 m", ["task.rigs.1.water_speed"] = "0.8 m/s" },
      expect = hazard { likelihood = 1, severity = 5 } },
    { "a surge",
      given = { ["person.height"] = "1.2 m", ["person.mass"] = "24 kg",
        ["task.rigs.1.kind"] = "dump-tank",
                ["task.rigs.1.water_depth"] = "0.5 m", ["task.rigs.1.water_speed"] = "2 m/s" },
      expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "very small",
      given = { ["person.height"] = "1 m", ["person.mass"] = "18 kg",
        ["task.rigs.1.kind"] = "current",
                ["task.rigs.1.water_depth"] = "0.2 m", ["task.rigs.1.water_speed"] = "0.8 m/s" },
                expect = stop {} },
    { "size and speed not known", given = { ["task.rigs.1.kind"] = "current" },
      expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "less water", given = { ["person.height"] = "1.2 m", ["person.mass"] = "24 kg",
      ["task.rigs.1.kind"] = "dump-tank",
                ["task.rigs.1.water_depth"] = "0.5 m", ["task.rigs.1.water_speed"] = "0.9 m/s" },
                with = { "less-water" },
      expect = hazard { likelihood = 2, severity = 5 } },
    { "only rain", given = { ["person.height"] = "1.2 m", ["person.mass"] = "24 kg",
      ["task.rigs.1.kind"] = "rain" }, expect = nothing },
  },
    example.edges({ ["person.height"] = "1 m", ["task.rigs.1.kind"] = "current",
      ["task.rigs.1.water_depth"] = "0.2 m", ["task.rigs.1.water_speed"] = "0.8 m/s" }, "person.mass", 5,
      { "50 kg", nothing, "49 kg", 1, "25 kg", 1, "24.6 kg", { stop {}, hazard { likelihood = 1, severity = 5 } } }),
    example.edges({ ["person.height"] = "1.2 m", ["person.mass"] = "24 kg", ["task.rigs.1.kind"] = "current",
      ["task.rigs.1.water_depth"] = "0.5 m" }, "task.rigs.1.water_speed", 5,
      { "0.4 m/s", 1, "0.41 m/s", 2, "0.6 m/s", 2, "0.61 m/s", 3, "0.8 m/s", 3, "0.82 m/s", 4, "1.2 m/s", 4,
        "1.23 m/s", { stop {}, hazard { likelihood = 5, severity = 5 } } }),
  },
}

rule {
  id = "place.stream-force",
  title = "Falling or jetted water strikes people",
  each = "rig",
  harm = "performers: knocked down, hurt eyes and ears",
  sources = { "force of a stream that stops on a body, as computed; about 250 N is the push of " ..
    "1 m/s on a standing adult" },
  reasoning = "250 N, the push that 1 m/s of water has on a standing adult, is taken as the " ..
    "limit; no published limit was found",
  when = function (r)
    local kind = r.kind
    return kind == "dump-tank" or kind == "rain"
  end,
  assess = function (r)
    local force = q"1000 kg/m3" * r.stream_area * r.water_speed * r.water_speed
    if force < q"25 N" then return end
    local likelihood = scale.limit(force, q"100 N", q"175 N", q"250 N", q"500 N")
    if r.tested_with_dummy and r.debris_kept_out then likelihood = scale.within(likelihood - 1) end
    local severity = 3
    if r.water_speed > q"7 m/s" then severity = 4 end
    hazard {
      likelihood = likelihood, severity = severity, who = "performers in the stream",
      because = "the stream pushes with {force} at {r.water_speed}", values = { force = force },
      controls = { "less-water", "dummy-run" },
      also = { "clear-path" },
    }
  end,
  examples = example.join { {
    { "rain", given = { kind = "rain", stream_area = "0.0002 m2", water_speed = "6 m/s" },
      expect = nothing },
    { "a bucket", given = { kind = "dump-tank", stream_area = "0.02 m2", water_speed = "2 m/s",
      tested_with_dummy = "no" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "a tank from four metres", given = { kind = "dump-tank", stream_area = "0.3 m2",
      water_speed = "8 m/s", tested_with_dummy = "no" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "area not known, run with a dummy", given = { kind = "dump-tank", water_speed = "3 m/s",
      tested_with_dummy = "yes", debris_kept_out = "yes" },
      expect = hazard { likelihood = 4, severity = 3 } },
    { "less of it", given = { kind = "dump-tank", stream_area = "0.3 m2", water_speed = "8 m/s",
      tested_with_dummy = "no" },
      with = { "less-water" }, expect = hazard { likelihood = 1, severity = 3 } },
    { "a wind machine", given = { kind = "wind-machine" }, expect = nothing },
  },
    -- 4 kN for a square metre at 2 m/s
    example.edges({ kind = "dump-tank", water_speed = "2 m/s", tested_with_dummy = "no" }, "stream_area", 3,
      { "0.0061 m2", nothing, "0.00625 m2", 1, "0.025 m2", 1, "0.0255 m2", 2, "0.0437 m2", 2, "0.0446 m2", 3,
        "0.0625 m2", 3, "0.0638 m2", 4, "0.125 m2", 4, "0.128 m2", 5 }),
    example.edges({ kind = "dump-tank", stream_area = "0.001 m2", tested_with_dummy = "no" }, "water_speed", 3,
      { "7 m/s", 1, "7.1 m/s", hazard { likelihood = 1, severity = 4 } }),
    example.edges({ kind = "dump-tank", stream_area = "0.05 m2", water_speed = "2 m/s", tested_with_dummy = "yes" },
      "debris_kept_out", 3, { "yes", 2, "no", 3 }),
  },
}

rule {
  id = "place.wind-machine",
  title = "Blades and what the wind carries",
  each = "rig",
  harm = "cast and crew: struck by blade or debris",
  sources = { "common practice: guarded blades, swept ground, nobody in front of or beside the " ..
    "disc" },
  when = function (r) return r.kind == "wind-machine" end,
  assess = function (r)
    hazard {
      likelihood = scale.protection(scale.missing, { r.guarded, r.debris_kept_out },
        { r.people_distance < q"2 m", r.wind_speed > q"15 m/s" }),
      severity = 4, because = "people at {r.people_distance}, wind {r.wind_speed}",
      who = "everyone in the wind",
      controls = { "guards-on" },
      also = { "clear-path" },
    }
  end,
  examples = example.join { {
    { "ducted, swept, four metres", given = { kind = "wind-machine", guarded = "yes",
      debris_kept_out = "yes", people_distance = "4 m", wind_speed = "7 m/s" },
      expect = hazard { likelihood = 1, severity = 4 } },
    { "open propeller at a metre", given = { kind = "wind-machine", guarded = "no",
      debris_kept_out = "no", people_distance = "1 m", wind_speed = "25 m/s" },
      expect = hazard { likelihood = 5, severity = 4 } },
    { "guard not known", given = { kind = "wind-machine", debris_kept_out = "yes",
      people_distance = "4 m", wind_speed = "7 m/s" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "guarded", given = { kind = "wind-machine", guarded = "no", debris_kept_out = "yes",
      people_distance = "4 m", wind_speed = "7 m/s" },
      with = { "guards-on" }, expect = hazard { likelihood = 1, severity = 4 } },
    { "rain", given = { kind = "rain" }, expect = nothing },
  },
    example.edges({ kind = "wind-machine", guarded = "yes", debris_kept_out = "no", wind_speed = "7 m/s" },
      "people_distance", 4, { "2 m", 2, "1.95 m", 3 }),
    example.edges({ kind = "wind-machine", guarded = "yes", debris_kept_out = "no", people_distance = "4 m" },
      "wind_speed", 4, { "15 m/s", 2, "15.3 m/s", 3 }),
  },
}

rule {
  id = "place.noise",
  title = "Noise of the machine",
  each = "rig",
  harm = "cast and crew: hearing loss; recall not heard",
  sources = { "Control of Noise at Work Regulations 2005 reg 4: 80 and 85 dB(A) action values, " ..
    "87 dB(A) limit; peaks 135, 137, 140 dB(C)" },
  when = function (r) return r.noise > q"80 dBA" end,
  assess = function (r)
    local likelihood = scale.limit(r.noise, q"85 dBA", q"87 dBA", q"90 dBA", q"100 dBA")
    if r.kind == "pyrotechnics" then -- one bang, not a working day
      likelihood = scale.limit(r.noise, q"120 dBA", q"130 dBA", q"137 dBA", q"140 dBA")
    end
    hazard {
      likelihood = likelihood, severity = 3,
      because = "{r.noise} at the nearest person", who = "everyone near it",
      controls = { "quieter-machine" },
      also = { "clear-path" },
    }
  end,
  examples = example.join { {
    { "quiet", given = { noise = "76 dBA" }, expect = nothing },
    { "between the action values", given = { noise = "83 dBA" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "a hundred and ten", given = { noise = "110 dBA" },
      expect = hazard { likelihood = 5, severity = 3 } },
    { "one bang", given = { kind = "pyrotechnics", noise = "115 dBA" },
      expect = hazard { likelihood = 1, severity = 3 } },
    { "not measured", given = {}, expect = hazard { likelihood = 5, severity = 3 } },
    { "ear protection", given = { noise = "89 dBA" }, with = { "quieter-machine" },
      expect = hazard { likelihood = 3, severity = 3 } },
  },
    example.edges({ kind = "wind-machine" }, "noise", 3,
      { "80 dBA", nothing, "81 dBA", 1, "85 dBA", 1, "86 dBA", 2, "87 dBA", 2, "88 dBA", 3, "90 dBA", 3, "91 dBA", 4,
        "100 dBA", 4, "101 dBA", 5 }),
    example.edges({ kind = "pyrotechnics" }, "noise", 3,
      { "120 dBA", 1, "121 dBA", 2, "130 dBA", 2, "131 dBA", 3, "137 dBA", 3, "138 dBA", 4, "140 dBA", 4,
        "141 dBA", 5 }),
  },
}

local function heavy(agent)
  return agent == "dry-ice" or agent == "carbon-dioxide" or agent == "liquid-nitrogen"
end

rule {
  id = "place.gas-on-water",
  title = "Heavy gas lies on the water where swimmers breathe",
  each = "rig",
  harm = "swimmers: breathe carbon dioxide or too little oxygen",
  sources = { "gas let go as computed (about 0.54 m3 of gas from 1 kg at room temperature); " ..
    "1.5 % for 15 minutes, 0.5 % for a day are the usual workplace values (from memory)" },
  reasoning = "the gas is taken to lie in the lowest half metre over the water: how it really " ..
    "spreads is not known beforehand",
  when = function (r) return r.kind == "smoke" and heavy(r.agent) end,
  assess = function (r)
    local b = r.site.basin
    local layer = b.length * b.width * q"0.5 m"
    local gas = r.agent_mass * q"0.54 m3/kg"
    local share = calc.carbon_dioxide_after_release(layer, gas, 0.0004)
    local near = not r.exclusion_zone
    if near and share > q"3 %" and not r.gas_monitor then
      stop { because = "{share} of the air over the water would be the effect's gas, " ..
        "unmeasured, with people in it",
             values = { share = share }, controls = { "no-smoke-over-water",
               "gas-monitor-at-water" } }
    end
    local likelihood = scale.limit(share, q"0.5 %", q"1 %", q"1.5 %", q"3 %")
    likelihood = scale.within(likelihood - scale.count { r.gas_monitor, not near })
    hazard {
      likelihood = likelihood, severity = 5, who = "everyone in the water",
      because = "{share} of the air in the half metre over the water would be the effect's gas",
      values = { share = share },
      controls = { "no-smoke-over-water", "gas-monitor-at-water", "clear-path" },
    }
  end,
  examples = example.join { {
    { "a little, in a wide tank, measured",
      given = { kind = "smoke", agent = "dry-ice", ["site.basin.length"] = "22 m",
        ["site.basin.width"] = "14 m", agent_mass = "1 kg",
                exclusion_zone = "no", gas_monitor = "yes" },
                expect = hazard { likelihood = 1, severity = 5 } },
    { "six kilos on a small pool",
      given = { kind = "smoke", agent = "dry-ice", ["site.basin.length"] = "7 m",
        ["site.basin.width"] = "5 m", agent_mass = "6 kg",
                exclusion_zone = "no", gas_monitor = "no" },
                expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "mass not known, nobody in the water",
      given = { kind = "smoke", agent = "liquid-nitrogen", ["site.basin.length"] = "7 m",
        ["site.basin.width"] = "5 m",
                exclusion_zone = "yes", gas_monitor = "no" },
                expect = hazard { likelihood = 4, severity = 5 } },
    { "no heavy gas",
      given = { kind = "smoke", agent = "dry-ice", ["site.basin.length"] = "7 m",
        ["site.basin.width"] = "5 m", agent_mass = "6 kg",
                exclusion_zone = "no", gas_monitor = "no" }, with = { "no-smoke-over-water" },
                expect = nothing },
    { "glycol", given = { kind = "smoke", agent = "glycol" }, expect = nothing },
  },
    -- 0.54 m3 from a kilo into 17.5 m3 that hold 0.04 % already
    example.edges({ kind = "smoke", agent = "carbon-dioxide", ["site.basin.length"] = "7 m",
      ["site.basin.width"] = "5 m", exclusion_zone = "no", gas_monitor = "no" }, "agent_mass", 5,
      { "148.7 g", 1, "149.6 g", 2, "310 g", 2, "316 g", 3, "470 g", 3, "480 g", 4, "950 g", 4,
        "970 g", { stop {}, hazard { likelihood = 5, severity = 5 } } }),
    example.edges({ kind = "smoke", agent = "dry-ice", ["site.basin.length"] = "7 m", ["site.basin.width"] = "5 m",
      agent_mass = "2 kg", exclusion_zone = "no" }, "gas_monitor", 5,
      { "yes", 4, "no", { stop {}, hazard { likelihood = 5, severity = 5 } } }),
    example.edges({ agent = "dry-ice", agent_mass = "2 kg" }, "kind", 5, { "rain", nothing }),
  },
}

rule {
  id = "place.fog-hides",
  title = "Smoke or fog hides people in the water",
  each = "task",
  harm = "swimmers: trouble is not seen",
  sources = { "ANSI E1.5: glycol 10 mg/m3 over 8 hours, 40 mg/m3 peak; common practice: the " ..
    "water stays in sight" },
  when = function (t) return t.involves_smoke end,
  assess = function (t)
    local likelihood = scale.protection(scale.missing, { t.seen_from_surface, t.head_counted },
      { t.lifeguards < 1 })
    if likelihood < 2 then return end
    hazard {
      likelihood = likelihood, severity = 4, who = "everyone in the water",
      because = "smoke or fog over the water with people in it",
      controls = { "clear-view", "tally-board", "lifeguard" },
    }
  end,
  examples = {
    { "seen and counted", given = { involves = "smoke", seen_from_surface = "yes",
      head_counted = "yes", lifeguards = "1" }, expect = nothing },
    { "not seen, nobody watching", given = { involves = "smoke", seen_from_surface = "no",
      head_counted = "no", lifeguards = "0" },
      expect = hazard { likelihood = 4, severity = 4 } },
    { "not known", given = { involves = "smoke", head_counted = "yes", lifeguards = "1" },
      expect = hazard { likelihood = 2, severity = 4 } },
    { "in sight again", given = { involves = "smoke", seen_from_surface = "no",
      head_counted = "yes", lifeguards = "1" },
      with = { "clear-view" }, expect = nothing },
    { "no smoke", given = { involves = "rain" }, expect = nothing },
  },
}

rule {
  id = "place.charge",
  title = "Charges near or under water",
  each = "rig",
  harm = "swimmers: burst ears, lungs and gut; burns",
  sources = { "R. H. Cole, Underwater Explosions 1948: peak pressure in water (from memory); " ..
    "common practice: nobody in the water for a charge in it" },
  when = function (r) return (r.kind == "pyrotechnics"
    or r.kind == "other") and r.charge > q"0 g" end,
  assess = function (r)
    local wetted = r.charge_under_water
    if wetted then
      local peak = calc.blast_peak_pressure(r.charge, max(r.people_distance, q"0.1 m"))
      stop { because = "a charge under or on the water, {peak} at the nearest person if " ..
        "anybody is in it", values = { peak = peak },
             controls = { "nobody-in-for-charges" } }
    end
    hazard {
      likelihood = scale.protection(scale.missing, { r.fire_cover, r.exclusion_zone },
        { wetted, r.people_distance < q"5 m", not r.operator_sees_people }),
      severity = wetted and 5 or 4, because = "{r.charge} at {r.people_distance}",
      who = "everyone near",
      controls = { "nobody-in-for-charges", "clear-path" },
    }
  end,
  examples = example.join { {
    { "none", given = { kind = "pyrotechnics", charge = "0 g" }, expect = nothing },
    { "a lift", given = { kind = "lift" }, expect = nothing },
    { "on the jetty, keyed and clear",
      given = { kind = "pyrotechnics", charge = "100 g", charge_under_water = "no",
        fire_cover = "yes", exclusion_zone = "yes", people_distance = "25 m",
        operator_sees_people = "yes" },
      expect = hazard { likelihood = 1, severity = 4 } },
    { "under water",
      given = { kind = "pyrotechnics", charge = "100 g", charge_under_water = "yes",
        fire_cover = "no", exclusion_zone = "no", people_distance = "3 m",
        operator_sees_people = "no" },
      expect = { stop {}, hazard { likelihood = 5, severity = 5 } } },
    { "size and place not known", given = { kind = "pyrotechnics", fire_cover = "yes",
      exclusion_zone = "yes", people_distance = "25 m", operator_sees_people = "yes" },
      expect = { stop {}, hazard { likelihood = 2, severity = 5 } } },
    { "out of the water",
      given = { kind = "pyrotechnics", charge = "100 g", charge_under_water = "yes",
        fire_cover = "yes", exclusion_zone = "yes", people_distance = "25 m",
        operator_sees_people = "yes" },
      with = { "nobody-in-for-charges" }, expect = hazard { likelihood = 1, severity = 4 } },
  },
    example.edges({ kind = "pyrotechnics", charge = "100 g", charge_under_water = "no", fire_cover = "yes",
      exclusion_zone = "yes", operator_sees_people = "yes" }, "people_distance", 4, { "5 m", 1, "4.9 m", 2 }),
    example.edges({ charge = "100 g", charge_under_water = "no", fire_cover = "yes", exclusion_zone = "yes",
      people_distance = "25 m", operator_sees_people = "no" }, "kind", 4,
      { "pyrotechnics", 2, "other", 2, "smoke", nothing }),
  },
}

rule {
  id = "place.exhaust-indoors",
  title = "A petrol or diesel engine indoors",
  each = "rig",
  harm = "everyone in the hall: carbon monoxide",
  sources = { "29 CFR 1910.1000: 50 ppm; NIOSH 35 ppm, 200 ppm ceiling; ACGIH 25 ppm; GB 20 " ..
    "ppm over 8 h, 100 ppm over 15 min (from memory)" },
  when = function (r) return r.site.indoor and (r.drive == "petrol" or r.drive == "diesel") end,
  assess = function (r)
    local co = r.site.air.carbon_monoxide
    local likelihood = scale.limit(co, q"5 ppm", q"10 ppm", q"20 ppm", q"100 ppm")
    if not r.exhaust_outside then likelihood = scale.within(max(likelihood, 3) + 1) end
    hazard {
      likelihood = likelihood, severity = 5,
      because = "exhaust in the building, {co} over the water", values = { co = co },
      who = "everyone in the hall", controls = { "electric-drive" },
    }
  end,
  examples = example.join { {
    { "led outside, clean air", given = { ["site.indoor"] = "yes", drive = "diesel",
      exhaust_outside = "yes", ["site.air.carbon_monoxide"] = "1 ppm" },
      expect = hazard { likelihood = 1, severity = 5 } },
    { "into the hall", given = { ["site.indoor"] = "yes", drive = "petrol", exhaust_outside = "no",
      ["site.air.carbon_monoxide"] = "150 ppm" },
      expect = hazard { likelihood = 5, severity = 5 } },
    { "not known", given = { ["site.indoor"] = "yes", drive = "petrol",
      ["site.air.carbon_monoxide"] = "1 ppm" },
      expect = hazard { likelihood = 4, severity = 5 } },
    { "electric", given = { ["site.indoor"] = "yes", drive = "petrol" },
      with = { "electric-drive" }, expect = nothing },
    { "outdoors", given = { ["site.indoor"] = "no" }, expect = nothing },
  },
    example.edges({ ["site.indoor"] = "yes", drive = "diesel", exhaust_outside = "yes" },
      "site.air.carbon_monoxide", 5,
      { "5 ppm", 1, "5.1 ppm", 2, "10 ppm", 2, "10.2 ppm", 3, "20 ppm", 3, "20.5 ppm", 4, "100 ppm", 4, "102 ppm", 5 }),
  },
}

rule {
  id = "place.touch",
  title = "Hot or very cold surface within reach",
  each = "rig",
  harm = "cast and crew: burn or cold burn on wet skin",
  sources = { "common practice: nothing above about 60 degrees or below about -20 within a wet arm's reach, or guarded" },
  when = function (r)
    return r.surface_temperature > q"60 degC" or r.surface_temperature < q"-20 degC"
  end,
  assess = function (r)
    if r.guarded or r.people_distance > q"1.5 m" then return end
    hazard {
      likelihood = scale.protection(scale.missing, { r.exclusion_zone }, { r.people_distance < q"0.5 m" }),
      severity = 2, because = "{r.surface_temperature} at {r.people_distance}, unguarded",
      who = "everyone near it", controls = { "guards-on", "clear-path" },
    }
  end,
  examples = example.join { {
    { "warm", given = { surface_temperature = "40 degC" }, expect = nothing },
    { "a lamp, guarded", given = { surface_temperature = "95 degC", guarded = "yes" }, expect = nothing },
    { "a lamp out of reach", given = { surface_temperature = "95 degC", guarded = "no",
        people_distance = "2.8 m" }, expect = nothing },
    { "dry ice beside bare feet", given = { surface_temperature = "-78 degC", guarded = "no",
        people_distance = "0.2 m", exclusion_zone = "no" },
      expect = hazard { likelihood = 4, severity = 2 } },
    { "a metre off, kept clear", given = { surface_temperature = "-78 degC", guarded = "no",
        people_distance = "1 m", exclusion_zone = "yes" },
      expect = hazard { likelihood = 2, severity = 2 } },
    { "not measured", given = { guarded = "no", people_distance = "1 m", exclusion_zone = "no" },
      expect = hazard { likelihood = 3, severity = 2 } },
    { "guarded", given = { surface_temperature = "95 degC", people_distance = "1 m" },
      with = { "guards-on" }, expect = nothing },
  },
    example.edges({ guarded = "no", people_distance = "1 m", exclusion_zone = "no" }, "surface_temperature", 2,
      { "60 degC", nothing, "61 degC", 3, "-20 degC", nothing, "-20.5 degC", 3 }),
    example.edges({ surface_temperature = "95 degC", guarded = "no", exclusion_zone = "no" }, "people_distance", 2,
      { "1.5 m", 3, "1.55 m", nothing, "0.5 m", 3, "0.49 m", 4 }),
  },
}

rule {
  id = "place.boat-exhaust",
  title = "A boat's petrol or diesel engine under a roof",
  each = "craft",
  harm = "everyone in the hall: carbon monoxide",
  sources = { "29 CFR 1910.1000: 50 ppm; NIOSH 35 ppm; GB 20 ppm over 8 h (from memory)" },
  when = function (c) return c.site.indoor and (c.engine == "petrol" or c.engine == "diesel") end,
  assess = function (c)
    local co = c.site.air.carbon_monoxide
    local likelihood = 3 -- there is an engine
    if co > q"20 ppm" then likelihood = 4 end
    if co > q"100 ppm" then likelihood = 5 end
    hazard {
      likelihood = likelihood, severity = 5,
      because = "exhaust over the water indoors, {co} measured", values = { co = co },
      who = "everyone in the hall", controls = { "electric-drive" },
    }
  end,
  examples = example.join { {
    { "measured low", given = { ["site.indoor"] = "yes", engine = "petrol",
        ["site.air.carbon_monoxide"] = "1 ppm" }, expect = hazard { likelihood = 3, severity = 5 } },
    { "measured high", given = { ["site.indoor"] = "yes", engine = "diesel",
        ["site.air.carbon_monoxide"] = "150 ppm" }, expect = hazard { likelihood = 5, severity = 5 } },
    { "not measured", given = { ["site.indoor"] = "yes", engine = "petrol" },
      expect = hazard { likelihood = 5, severity = 5 } },
    { "electric", given = { ["site.indoor"] = "yes", engine = "petrol" }, with = { "electric-drive" },
      expect = nothing },
    { "outdoors", given = { ["site.indoor"] = "no" }, expect = nothing },
  },
    example.edges({ ["site.indoor"] = "yes", engine = "diesel" }, "site.air.carbon_monoxide", 5,
      { "20 ppm", 3, "20.5 ppm", 4, "100 ppm", 4, "102 ppm", 5 }),
  },
}
