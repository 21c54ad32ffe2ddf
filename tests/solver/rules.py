"""What some shipped rules say, written down a second time, by hand, as constraints.

Each rule is read from its Lua and from the scales in rules/common/00-scale.lua; nothing is
taken from the program. Where Lua reads a fact only on some courses, `only` says on which:
nothing may be scored 1 where a fact was read that is not known.
"""
from z3 import And, BoolVal, If, IntVal, Not, Or, Sum, ToReal, is_int, is_expr

from facts import q

RULES = []


def rule(name, subject, facts, **more):
    """The facts to draw at random; `words` are kinds to draw from, `unknown` is how often one is open."""
    def keep(says):
        RULES.append(dict(more, id=name, subject=subject, facts=facts.split(), says=says))
        return says
    return keep


# ---- comparing -------------------------------------------------------------------------

TOLERANCE = q("0.000000000001")  # relative: values nearer than this count as equal


def real(x):
    return ToReal(x) if is_expr(x) and is_int(x) else x


def below(a, b):
    """a < b, for b that is not negative."""
    return real(a) < real(b) * (1 - TOLERANCE)


def above(a, b):
    return below(b, a)


def at_most(a, b):
    return Not(below(b, a))


def at_least(a, b):
    return Not(below(a, b))


# ---- the scales ------------------------------------------------------------------------

def steps(likelihoods):
    """The first whose condition holds; 5 where none does."""
    result = IntVal(5)
    for likelihood, condition in reversed(list(enumerate(likelihoods, 1))):
        result = If(condition, IntVal(likelihood), result)
    return result


def limit(value, inside, near, top, far):
    return steps([at_most(value, end) for end in (inside, near, top, far)])


def minimum(value, inside, near, bottom, far):
    return steps([at_least(value, end) for end in (inside, near, bottom, far)])


def reserve(available, needed):
    return steps([at_least(available, needed * q(times)) for times in ("3", "2", "1.5", "1.1")])


def within(level):
    return If(level < 1, IntVal(1), If(level > 5, IntVal(5), level))


def count(*flags):
    return Sum([If(flag, IntVal(1), IntVal(0)) for flag in flags])


def protection(base, present, aggravating=()):
    return within(base - count(*present) + count(*aggravating))


def repeats(likelihood, exposures):
    more = If(exposures >= 100, IntVal(2), If(exposures >= 10, IntVal(1), IntVal(0)))
    return within(likelihood + more)


def without_air(time):
    return If(at_most(time, q("90 s")), IntVal(3), If(at_most(time, q("180 s")), IntVal(4), IntVal(5)))


def largest(first, *others):
    for other in others:
        first = If(first >= other, first, other)
    return first


# ---- one threshold after another on one fact ---------------------------------------------

@rule("worn.battery", "appliance", "appliance.battery-voltage")
def battery(b):
    volts = b.number("appliance.battery-voltage")
    electric = above(volts, 0)
    b.stop(And(electric, above(volts, q("30 V"))))
    b.hazard(electric, limit(volts, q("6 V"), q("12 V"), q("30 V"), q("60 V")), 4)


@rule("place.noise", "rig", "rig.noise rig.kind", words=["pyrotechnics", "wind-machine", "rain"])
def noise(b):
    level = b.number("rig.noise")
    bang = b.word("rig.kind", "pyrotechnics")
    work = limit(level, *map(q, ("85 dBA", "87 dBA", "90 dBA", "100 dBA")))
    once = limit(level, *map(q, ("120 dBA", "130 dBA", "137 dBA", "140 dBA")))
    b.hazard(above(level, q("80 dBA")), If(bang, once, work), 3)


@rule("air.purity", "supply", "supply.carbon-dioxide supply.oil supply.odour")
def purity(b):
    always = BoolVal(True)
    gas = b.number("supply.carbon-dioxide")
    b.hazard(always, limit(gas, *map(q, ("450 ppm", "480 ppm", "500 ppm", "1000 ppm"))), 2, "carbon dioxide")
    oil = b.number("supply.oil")
    b.hazard(always, limit(oil, *map(q, ("0.1 mg/m3", "0.3 mg/m3", "0.5 mg/m3", "5 mg/m3"))), 3, "oil")
    b.hazard(b.yes("supply.odour"), 4, 3, "odour")


# ---- flags and choices -------------------------------------------------------------------

@rule("place.touch", "rig", "rig.surface-temperature rig.guarded rig.people-distance rig.exclusion-zone",
      unknown=0.15, boxes=80)
def touch(b):
    surface = b.number("rig.surface-temperature")
    burns = Or(above(surface, q("60 degC")), below(surface, q("-20 degC")))
    guarded = b.yes("rig.guarded", burns)
    distance = b.number("rig.people-distance", And(burns, Not(guarded)))
    kept_off = b.yes("rig.exclusion-zone")
    b.hazard(And(burns, Not(guarded), at_most(distance, q("1.5 m"))),
             protection(3, [kept_off], [below(distance, q("0.5 m"))]), 2)


LIFTS = ["lift", "platform", "camera-crane", "lamp", "dry-for-wet", "rain"]


@rule("place.over-people", "rig", "rig.kind rig.over-people rig.riders rig.second-suspension rig.exclusion-zone "
      "rig.operator-sees-people rig.stop-time", words=LIFTS + ["dump-tank", "other", "smoke"], unknown=0.2)
def over_people(b):
    moves = b.word("rig.kind", *LIFTS, "dump-tank", "other")
    over = b.yes("rig.over-people")
    clear = b.yes("rig.exclusion-zone")
    ridden = at_least(b.number("rig.riders", Or(Not(over), Not(clear))), 1)
    second, seen = b.yes("rig.second-suspension"), b.yes("rig.operator-sees-people")
    slow = above(b.number("rig.stop-time"), q("5 s"))
    b.hazard(And(moves, Or(over, ridden)),
             protection(3, [second, Or(clear, And(ridden, Not(over)))], [Not(seen), slow]), 5)


@rule("place.propeller", "craft", "craft.engine craft.propeller-guard craft.kill-cord-worn craft.lookout "
      "craft.swimmer-distance craft.speed", unknown=0.2)
def propeller(b):
    guard = b.yes("craft.propeller-guard")
    present = [guard, b.yes("craft.kill-cord-worn"), b.yes("craft.lookout")]
    worse = [below(b.number("craft.swimmer-distance"), q("10 m")),
             And(above(b.number("craft.speed"), q("3 m/s")), Not(guard))]
    b.hazard(Not(b.word("craft.engine", "none")), protection(3, present, worse), 5)


@rule("air.ears", "immersion", "immersion.depth immersion.congested immersion.descent-rate person.dives "
      "person.ear-trouble immersion.descents", unknown=0.2)
def ears(b):
    deep = above(b.number("immersion.depth"), q("1.2 m"))
    blocked = b.yes("immersion.congested")
    b.stop(And(deep, blocked))
    slow = at_most(b.number("immersion.descent-rate"), q("9 m/min"))
    used_to_it = at_least(b.number("person.dives"), 10)
    trouble = b.yes("person.ear-trouble")
    often = above(b.number("immersion.descents"), 10)
    b.hazard(deep, protection(3, [slow, used_to_it], [blocked, trouble, often]), If(trouble, 4, 2))


@rule("people.condition", "immersion", "immersion.breath-hold immersion.breathes-gas person.pregnant "
      "person.conditions-cleared person.epilepsy person.heart-condition person.asthma person.ear-trouble "
      "person.diabetes person.medication", unknown=0.3)
def condition(b):
    gas = b.yes("immersion.breathes-gas")
    under = Or(above(b.number("immersion.breath-hold"), 0), gas)
    open_case = And(under, Not(b.yes("person.conditions-cleared")))
    grave = Or(b.yes("person.epilepsy"), b.yes("person.heart-condition"), b.yes("person.asthma"))
    less = Or(b.yes("person.ear-trouble"), b.yes("person.diabetes"), b.yes("person.medication"))
    b.stop(Or(And(under, gas, b.yes("person.pregnant")), And(open_case, grave)))
    b.hazard(And(open_case, Or(grave, less)), If(grave, 4, 3), If(grave, 5, 4))


@rule("place.ways-out", "site", "site.water-body basin.exits basin.exit-spacing deck.stretcher-exit "
      "basin.freeboard deck.landing-platform deck.ladder-depth")
def ways_out(b):
    wet = Not(b.word("site.water-body", "none"))
    ways = [at_least(b.number("basin.exits"), 2), at_most(b.number("basin.exit-spacing"), q("15 m")),
            b.yes("deck.stretcher-exit")]
    high = above(b.number("basin.freeboard"), q("0.5 m"))
    worse = [And(high, Not(b.yes("deck.landing-platform", high))),
             below(b.number("deck.ladder-depth"), q("0.3 m"))]
    likelihood = protection(4, ways, worse)
    b.hazard(And(wet, likelihood >= 2), likelihood, 3)


# ---- sums, products, ratios ----------------------------------------------------------------

@rule("place.lifting-load", "rig", "rig.kind rig.mass rig.trapped-water rig.load-rating rig.riders rig.person-rated",
      words=LIFTS + ["smoke"], unknown=0.15)
def lifting_load(b):
    mass = b.number("rig.mass")
    lifts = And(b.word("rig.kind", *LIFTS), above(mass, 0))
    dry = b.word("rig.kind", "lamp", "camera-crane")
    load = If(dry, mass, mass + b.number("rig.trapped-water", Not(dry)) * q("1000"))
    rating = b.number("rig.load-rating")
    ridden = at_least(b.number("rig.riders"), 1)
    b.stop(And(lifts, Or(above(load, rating), And(ridden, Not(b.yes("rig.person-rated", ridden))))))
    b.hazard(lifts, limit(load, rating * q("0.67"), rating * q("0.8"), rating, rating * q("1.1")), 5)


@rule("place.boat-load", "craft", "craft.kind craft.aboard craft.capacity craft.load craft.load-rating "
      "craft.freeboard craft.stability-tried craft.life-jackets-worn",
      words=["boat", "raft", "inflatable", "jet-ski", "aircraft"], unknown=0.1, boxes=60)
def boat_load(b):
    aboard, capacity = b.number("craft.aboard"), b.number("craft.capacity")
    boat = And(Not(b.word("craft.kind", "road-vehicle", "aircraft")), at_least(aboard, 1))
    load, rating = b.number("craft.load"), b.number("craft.load-rating")
    b.stop(And(boat, Or(above(aboard, capacity), above(load, rating))))
    people = limit(aboard, real(capacity) * q("0.75"), capacity, capacity, real(capacity) * q("1.1"))
    goods = limit(load, rating * q("0.67"), rating * q("0.8"), rating, rating * q("1.1"))
    worse = count(below(b.number("craft.freeboard"), q("0.25 m")), Not(b.yes("craft.stability-tried")))
    b.hazard(boat, within(largest(people, goods) + worse - count(b.yes("craft.life-jackets-worn"))), 4)


@rule("place.surge", "rig", "rig.kind rig.water-depth rig.water-speed rig.catch-net rig.tested-with-dummy "
      "rig.interlock", words=["dump-tank", "wave-maker", "current", "rain"], unknown=0.15)
def surge(b):
    moves = b.word("rig.kind", "dump-tank", "wave-maker", "current")
    push = b.number("rig.water-depth") * b.number("rig.water-speed")
    much = above(push, q("1.2"))
    tried = b.yes("rig.tested-with-dummy")
    released = b.yes("rig.interlock", tried)
    net = b.yes("rig.catch-net", Or(much, And(tried, released)))
    b.stop(And(moves, much, Not(net)))
    b.hazard(moves, within(limit(push, *map(q, ("0.4", "0.6", "0.8", "1.2"))) - count(And(tried, released, net))), 4)


@rule("place.stream-force", "rig", "rig.kind rig.stream-area rig.water-speed rig.tested-with-dummy "
      "rig.debris-kept-out", words=["dump-tank", "rain"], unknown=0.1, boxes=80)
def stream_force(b):
    speed = b.number("rig.water-speed")
    force = q("1000") * b.number("rig.stream-area") * speed * speed
    felt = And(b.word("rig.kind", "dump-tank", "rain"), at_least(force, q("25 N")))
    tried = b.yes("rig.tested-with-dummy")
    better = count(And(tried, b.yes("rig.debris-kept-out", tried)))
    b.hazard(felt, within(limit(force, q("100 N"), q("175 N"), q("250 N"), q("500 N")) - better),
             If(above(speed, q("7 m/s")), 4, 3))


@rule("place.hanging", "rig", "rig.kind rig.hang-time rig.body-position rig.lowering-time rig.spotters rig.rest-time",
      words=["dry-for-wet"], unknown=0.15, boxes=80)
def hanging(b):
    time = b.number("rig.hang-time")
    hangs = And(above(time, 0), b.word("rig.kind", "dry-for-wet"))
    upright = limit(time, q("3 min"), q("5 min"), q("10 min"), q("15 min"))
    inverted = limit(time, q("1.5 min"), q("3 min"), q("5 min"), q("8 min"))
    worse = count(above(b.number("rig.lowering-time"), q("60 s")), below(b.number("rig.spotters"), 1),
                  below(b.number("rig.rest-time"), time))
    b.hazard(hangs, within(If(b.word("rig.body-position", "head-down"), inverted, upright) + worse), 4)


@rule("place.prop-rises", "prop", "prop.air-chambers prop.net-buoyancy prop.tethered prop.tether-rating "
      "prop.operator-sees-people prop.people-distance prop.fail-state", unknown=0.15)
def prop_rises(b):
    lift = b.number("prop.net-buoyancy")
    force = If(lift < 0, -lift, lift)
    tethered = b.yes("prop.tethered")
    held = And(tethered, at_least(b.number("prop.tether-rating", tethered), force * 2))
    seen = b.yes("prop.operator-sees-people")
    away = Or(seen, at_least(b.number("prop.people-distance", Not(seen)), q("2 m")))
    b.hazard(Or(b.yes("prop.air-chambers"), above(force, q("50 N"))),
             protection(3, [held, away], [And(Not(b.word("prop.fail-state", "neutral")), Not(held))]),
             If(above(force, q("500 N")), 4, 3))


@rule("team.standby-ready", "post", "emergency.notice-time emergency.surface-time post.ready-time "
      "post.other-duties post.dressed-in")
def standby_ready(b):
    needed = b.number("emergency.notice-time") + b.number("post.ready-time")
    worse = count(b.yes("post.other-duties"), Not(b.yes("post.dressed-in")))
    b.hazard(BoolVal(True), within(reserve(q("90 s"), needed) + worse),
             without_air(needed + b.number("emergency.surface-time")))


@rule("people.swimming", "immersion", "immersion.surface-swim task.exit-distance person.swim-distance "
      "person.swims-clothed immersion.can-stand emergency.notice-time emergency.reach-time emergency.surface-time",
      unknown=0.1)
def swimming(b):
    swim, out = b.number("immersion.surface-swim"), b.number("task.exit-distance")
    proved = b.number("person.swim-distance")
    proved = If(b.yes("person.swims-clothed"), proved, proved / 2)
    likelihood = reserve(proved, If(swim >= out, swim, out))
    b.hazard(BoolVal(True), If(b.yes("immersion.can-stand"), within(likelihood - 2), likelihood),
             without_air(b.sum("emergency", "notice-time", "reach-time", "surface-time")))


@rule("people.training-time", "immersion", "immersion.breath-hold immersion.can-stand person.trained-since "
      "person.training-days immersion.air-return-time", unknown=0.1)
def training_time(b):
    applies = And(above(b.number("immersion.breath-hold"), q("10 s")), Not(b.yes("immersion.can-stand")))
    training = b.day - b.number("person.trained-since")
    likelihood = minimum(training, q("180 day"), q("90 day"), q("45 day"), q("14 day"))
    few = below(b.number("person.training-days"), 10)
    severity = without_air(b.number("immersion.air-return-time"))
    b.hazard(applies, within(likelihood + count(few)), within(severity + count(BoolVal(b.child))))


@rule("air.rest-between-takes", "immersion", "immersion.breath-hold immersion.takes immersion.interval "
      "emergency.notice-time emergency.reach-time emergency.surface-time emergency.deck-time emergency.breath-time",
      unknown=0.1)
def rest_between_takes(b):
    hold, takes = b.number("immersion.breath-hold"), b.number("immersion.takes")
    rest = minimum(b.number("immersion.interval"), hold * 4, hold * 3, hold * 2, hold)
    first_breath = b.sum("emergency", "notice-time", "reach-time", "surface-time", "deck-time", "breath-time")
    b.hazard(And(above(hold, 0), above(takes, 1)), repeats(rest, takes), without_air(first_breath))


@rule("emergency.oxygen", "site", "site.water-body emergency.call-time emergency.ambulance-time "
      "emergency.oxygen-on-site emergency.oxygen-volume emergency.oxygen-flow emergency.oxygen-time", boxes=60)
def oxygen(b):
    wet = Not(b.word("site.water-body", "none"))
    wait = b.sum("emergency", "call-time", "ambulance-time")
    there = b.yes("emergency.oxygen-on-site")
    flow = b.number("emergency.oxygen-flow", there)
    gives = And(there, above(flow, 0))
    lasts = b.number("emergency.oxygen-volume", gives) / flow
    late = limit(wait, q("3 min"), q("8 min"), q("15 min"), q("30 min"))
    flows = limit(b.number("emergency.oxygen-time", gives), q("60 s"), q("120 s"), q("240 s"), q("480 s"))
    b.hazard(wet, If(gives, largest(reserve(lasts, wait), flows), late), If(gives, 3, 4))


@rule("outside.remote", "site", "emergency.call-time emergency.ambulance-time emergency.hospital-time "
      "emergency.ambulance-on-site emergency.medic-on-site emergency.oxygen-on-site emergency.phone-coverage")
def remote(b):
    way = b.sum("emergency", "call-time", "ambulance-time", "hospital-time")
    medic = b.yes("emergency.medic-on-site")
    help_there = count(b.yes("emergency.ambulance-on-site"), And(medic, b.yes("emergency.oxygen-on-site", medic)))
    deaf = If(b.yes("emergency.phone-coverage"), IntVal(0), IntVal(2))
    likelihood = limit(way, q("30 min"), q("60 min"), q("120 min"), q("240 min"))
    b.hazard(BoolVal(True), within(likelihood - help_there + deaf), 4)


OPEN_WATER = ["lake", "river", "sea", "quarry"]


@rule("outside.wind-and-water", "day", "site.water-body day.wind-forecast day.wave-forecast openwater.wind-limit "
      "openwater.wave-limit openwater.current openwater.current-limit", unknown=0.05)
def wind_and_water(b):
    def against(value, most):
        return limit(value, most * q("0.6"), most * q("0.8"), most, most * q("1.3"))
    b.hazard(b.word("site.water-body", *OPEN_WATER), largest(
        against(b.number("day.wind-forecast"), b.number("openwater.wind-limit")),
        against(b.number("day.wave-forecast"), b.number("openwater.wave-limit")),
        against(b.number("openwater.current"), b.number("openwater.current-limit"))), 4)


# ---- two hazards of one rule, and loops -------------------------------------------------------

@rule("emergency.promise", "site", "site.water-body emergency.notice-time emergency.reach-time emergency.gas-time "
      "emergency.surface-time emergency.deck-time emergency.promised-gas-time emergency.promised-deck-time")
def promise(b):
    wet = Not(b.word("site.water-body", "none"))
    for about, last in (("deck", ["surface-time", "deck-time"]), ("gas", ["gas-time"])):
        time = b.sum("emergency", "notice-time", "reach-time", *last)
        promised = b.number(f"emergency.promised-{about}-time")
        b.hazard(And(wet, above(time, promised)), If(above(time, promised * q("1.1")), 3, 2),
                 without_air(time), about)


@rule("team.safety-divers", "task", "task.safety-divers emergency.notice-time emergency.reach-time "
      "emergency.gas-time immersion.breath-hold immersion.can-stand", immersions=3, unknown=0.15)
def safety_divers(b):
    divers = b.number("task.safety-divers")
    holding = count(*[And(above(i.number("immersion.breath-hold"), 0), Not(i.yes("immersion.can-stand")))
                      for i in b.each("immersion")])
    likelihood = If(divers * 2 >= holding, IntVal(3), If(divers >= 1, IntVal(4), IntVal(5)))
    b.hazard(And(holding >= 1, divers < holding), likelihood,
             without_air(b.sum("emergency", "notice-time", "reach-time", "gas-time")))


@rule("worn.consent", "immersion", "person.consents immersion.withdrawal-signal appliance.rehearsed-in-water",
      appliances=3)
def consent(b):
    b.stop(Not(b.yes("person.consents")))
    unworn = Or([Not(worn.yes("appliance.rehearsed-in-water")) for worn in b.each("appliance")])
    signal = b.yes("immersion.withdrawal-signal")
    free = b.yes("production.refusal-without-penalty")
    likelihood = protection(3, [signal, free], [unworn, BoolVal(b.child)])
    b.hazard(likelihood >= 2, likelihood, 3)


@rule("worn.entanglement", "immersion", "appliance.trailing-length appliance.breakaway appliance.cutter-at-hand "
      "appliance.remove-time immersion.can-stand task.snag-points task.overhead", appliances=2, unknown=0.06)
def entanglement(b):
    stands, snags, overhead = b.yes("immersion.can-stand"), b.yes("task.snag-points"), b.yes("task.overhead")
    for worn in b.each("appliance"):
        length = worn.number("appliance.trailing-length")
        trails = above(length, q("0.3 m"))
        time = worn.number("appliance.remove-time", trails)
        present = [worn.yes("appliance.breakaway", trails), worn.yes("appliance.cutter-at-hand", trails), stands]
        b.hazard(trails, protection(3, present, [snags, overhead, above(length, q("1.5 m"))]),
                 within(without_air(time) + count(BoolVal(b.child))), worn.title)
