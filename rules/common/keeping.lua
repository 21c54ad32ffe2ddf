-- What is kept after the production, and papers that run out on a day of their own.

local function breathes_gas(p)
  for _, i in ipairs(p.immersions) do
    if i.breathes_gas then return true end
  end
  return false
end

rule {
  id = "records.retention",
  title = "Dive and medical records thrown away too soon",
  each = "production",
  harm = "whoever was under water: nothing shows what they were exposed to",
  sources = {
    "Merchant Shipping (Diving Safety) Regulations 2002 reg 14(2), the figure of the Diving at Work Regulations "
      .. "1997 reg 12(3): a diver's record at least 2 years after the last entry",
    "29 CFR 1910.440(b)(3): medical records 5 years, dive record 1 year, 5 after decompression sickness",
  },
  limits = { dive = { at_least = "2 year" }, medical = { at_least = "5 year" } },
  when = function (p) return breathes_gas(p) end,
  assess = function (p, limits)
    local short = { p.dive_record_retention < limits.dive, p.medical_record_retention < limits.medical }
    if scale.count(short) < 1 then return end
    hazard {
      likelihood = scale.within(2 + scale.count(short)), severity = 2,
      who = "everyone who breathes gas under water",
      because = "dive records are kept {dive_record_retention}, medical records {medical_record_retention}",
      controls = { "records-kept" },
    }
  end,
  reasoning = "one for each kind of record that is kept too short, on top of what is usual for a missing paper",
  examples = example.join {
    example.edges({ ["immersions.1.breathes_gas"] = "yes", medical_record_retention = "5 year" },
      "dive_record_retention", 2, { "1.95 year", 3, "2 year", nothing }),
    example.edges({ ["immersions.1.breathes_gas"] = "yes", dive_record_retention = "2 year" },
      "medical_record_retention", 2, { "4.9 year", 3, "5 year", nothing }),
    {
      { "both short", given = { ["immersions.1.breathes_gas"] = "yes", dive_record_retention = "1 year",
        medical_record_retention = "1 year" }, expect = hazard { likelihood = 4, severity = 2 } },
      { "nobody breathes gas", given = { ["immersions.1.breathes_gas"] = "no", dive_record_retention = "0 year" },
        expect = nothing },
      { "nothing known", given = {}, expect = hazard { likelihood = 4, severity = 2 } },
      { "kept now", given = { ["immersions.1.breathes_gas"] = "yes" }, with = { "records-kept" }, expect = nothing },
    },
  },
}

rule {
  id = "records.harness-certificate",
  title = "The harnesses' certificate has run out",
  each = "task",
  harm = "whoever hangs in the harness",
  sources = { "LOLER 1998 reg 9(3): accessories for lifting people at least every 6 months; the certificate's own date" },
  assess = function (t)
    for _, r in ipairs(t.rigs) do
      if r.kind == "dry-for-wet" then
        local left = r.harness_certificate_until - t.day.date
        if left < q"0 day" then
          hazard {
            likelihood = scale.missing + (left < q"-183 day" and 1 or 0), severity = 5,
            about = r.label, who = "those who hang in it",
            because = "harnesses certified until {harness}, the task is on {day.date}",
            values = { harness = r.harness_certificate_until },
            controls = { "harness-checked" },
          }
        end
      end
    end
  end,
  examples = example.join {
    example.edges({ ["rigs.1.kind"] = "dry-for-wet", ["day.date"] = "2027-03-08" }, "rigs.1.harness_certificate_until", 5,
      { "2027-03-08", nothing, "2027-03-07", 3, "2026-09-06", 3, "2026-09-05", 4 }),
    {
      { "another machine", given = { ["rigs.1.kind"] = "wind-machine" }, expect = nothing },
      { "not known", given = { ["rigs.1.kind"] = "dry-for-wet" }, expect = hazard { likelihood = 4, severity = 5 } },
      { "checked now", given = { ["rigs.1.kind"] = "dry-for-wet", ["rigs.1.harness_certificate_until"] = "2027-01-01" },
        with = { "harness-checked" }, expect = nothing },
    },
  },
}
