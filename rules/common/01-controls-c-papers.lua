-- Controls of papers: what is kept, and for how long.

control {
  id = "records-kept", kind = "administrative",
  title = "Dive and medical records kept five years",
  say = "Give the dive log and the medical forms to the office that keeps them for five years.",
  check = "receipt in the file", often = "at the end of the production", who = "production manager",
  changes = {
    { fact = "production.dive-record-retention", at_least = "5 year" },
    { fact = "production.medical-record-retention", at_least = "5 year" },
  },
  source = "29 CFR 1910.440(b)(3)",
}

control {
  id = "harness-checked", kind = "administrative",
  title = "Harnesses examined before anybody hangs",
  say = "Have the harnesses examined and certified again before anybody hangs in them.",
  check = "certificate and tag on each harness", often = "every six months", who = "rigging supervisor",
  changes = { { fact = "rig.harness-certificate-until", at_least = "2100-01-01" } },
  source = "LOLER 1998 reg 9(3)",
}
