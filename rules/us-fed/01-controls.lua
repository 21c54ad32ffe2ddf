-- What federal law makes a difference to and the common catalogue has no reason to name.

control {
  id = "air-not-nitrox", title = "Air instead of a mixed gas", kind = "substitution",
  say = "Fill the cylinders with air; nitrox counts as mixed gas.",
  check = "oxygen analyser, and the cylinder's label", often = "each filling", who = "gas supplier",
  changes = {
    { fact = "supply.gas", becomes = "air" },
    { fact = "supply.oxygen-fraction", at_most = "21 %" },
  },
  source = "29 CFR 1910.423(c)(1)(ii)",
}
