---@meta
-- What a rule file may use, for a Lua language server. Only its comments count: nothing here is
-- ever run. What editors read is made by `tankside vocabulary --editor`, of this and of the packs.

---A number with its unit and its range, and how it was made. Compare with < <= > >=, never with ==.
---@class tankside.quantity
---@operator add(tankside.quantity|number): tankside.quantity
---@operator sub(tankside.quantity|number): tankside.quantity
---@operator mul(tankside.quantity|number): tankside.quantity
---@operator div(tankside.quantity|number): tankside.quantity
---@operator pow(integer): tankside.quantity
---@operator unm: tankside.quantity

---A quantity: q"4.2 m", q"3.8..4.5 m", q"26 degC", q"1 h 20 min".
---@param text string
---@return tankside.quantity
function q(text) end

---The least of these; of plain numbers a plain number.
---@generic T
---@param first T
---@param ... T
---@return T
function min(first, ...) end

---The greatest of these; of plain numbers a plain number.
---@generic T
---@param first T
---@param ... T
---@return T
function max(first, ...) end

---@param value tankside.quantity
---@return tankside.quantity
function abs(value) end

---@param value tankside.quantity
---@return tankside.quantity
function sqrt(value) end

---One field of every subject of a list, added to a start: sum(task.immersions, "time", q"0 s").
---@param list tankside.subject[]
---@param field string
---@param start tankside.quantity|number
---@return tankside.quantity
function sum(list, field, start) end

---Whether two are the same subject.
---@param a tankside.subject
---@param b tankside.subject
---@return boolean
function same(a, b) end

---What an example expects when the rule has nothing to say.
---@type tankside.expected
nothing = {}

---@class tankside.expected

---Something that can hurt somebody, scored.
---@class (exact) tankside.hazard
---@field likelihood integer 1 rare, 2 unlikely, 3 possible, 4 likely, 5 expected; over the whole task
---@field severity integer 1 first aid, 2 treatment, 3 hospital, 4 permanent injury, 5 death; if it happens once
---@field because? string why, with values in braces: "a hold of {i.breath_hold}"; needed when a rule says it
---@field values? table<string, tankside.quantity> named values, for the working
---@field controls? string[] ids from the catalogue: what can change the score
---@field also? string[] what helps too, though the score does not go by it
---@field about? string which of several things the rule looks at
---@field who? string who is harmed, where it is not those the subject names
---@field discreet? boolean rests on something personal: readers who may not see that learn only that it is there

---@param said tankside.hazard
---@return tankside.expected
function hazard(said) end

---A law or code that holds on some days only.
---@class (exact) tankside.instrument
---@field name string
---@field from? string the first day on which it holds: "2015-02-06"
---@field to? string the last

---What a law, a code or the production's policy asks for.
---@class (exact) tankside.duty
---@field met? boolean true met, false not met, nil open
---@field instrument? string|tankside.instrument the law or code; needed when a rule says it
---@field section? string where in it; needed when a rule says it
---@field evidence? string what shows that it is met
---@field because? string
---@field values? table<string, tankside.quantity>
---@field controls? string[]
---@field also? string[]
---@field about? string
---@field who? string
---@field discreet? boolean

---@param said tankside.duty
---@return tankside.expected
function duty(said) end

---@class (exact) tankside.said
---@field because? string
---@field values? table<string, tankside.quantity>
---@field controls? string[]
---@field also? string[]
---@field about? string
---@field who? string
---@field discreet? boolean

---The task must not go ahead as described, whatever the score.
---@param said? tankside.said
---@return tankside.expected
function stop(said) end

---Something a reader should know.
---@param said? tankside.said
---@return tankside.expected
function note(said) end

---@class (exact) tankside.example
---@field [1] string what it shows
---@field given? table<string, string> facts by path: ["person.mass"] = "60 kg"
---@field with? string[] controls in place
---@field expect tankside.expected|tankside.expected[]

---@class (exact) tankside.rule
---@field id string small letters with a point: "ledge.too-deep"
---@field title string
---@field each tankside.kind the kind of subject it is asked of
---@field harm string who is harmed, and how
---@field sources string[] document, year, section; or "common practice"
---@field reasoning? string where the score does not follow the shared scales
---@field worst? { likelihood: integer, severity: integer } what counts when not every course can be seen
---@field limits? table<string, tankside.limit> thresholds by name, which a later pack may tighten
---@field when? fun(subject: tankside.subject, limits: table<string, tankside.quantity>): boolean? where it applies
---@field assess fun(subject: tankside.subject, limits: table<string, tankside.quantity>)
---@field examples tankside.example[]

---@class (exact) tankside.limit
---@field at_most? string stricter is less: "20 s"
---@field at_least? string stricter is more

---@param declared tankside.rule
function rule(declared) end

---@class (exact) tankside.change
---@field fact string "immersion.breath-hold"
---@field at_most? string
---@field at_least? string
---@field becomes? string

---@class (exact) tankside.control
---@field id string
---@field title string
---@field kind "elimination"|"substitution"|"engineering"|"administrative"|"ppe"
---@field say string what the crew does, as an order
---@field check string how it is checked
---@field often string how often
---@field who string who checks
---@field changes? tankside.change[] facts it changes; its effect is then computed
---@field lowers? { likelihood: integer?, severity: integer? } steps, where no fact carries it
---@field source? string

---@param declared tankside.control
function control(declared) end

---@class (exact) tankside.fact
---@field entity tankside.kind
---@field name string small letters with hyphens
---@field type "quantity"|"count"|"flag"|"choice"|"set"|"date"|"clock"
---@field unit? string
---@field low? string least plausible value
---@field high? string greatest plausible value
---@field choices? string words with spaces between
---@field meaning string
---@field measured string how it is found out
---@field asked string who usually knows
---@field sees? "open"|"crew"|"confidential"

---A fact of the site's own; in the dossier: <fact name="..." value="..."/>.
---@param declared tankside.fact
function fact(declared) end

---Makes a limit of a rule of another pack stricter; never looser.
---@param declared { rule: string, limit: string, to: string, because: string }
function tighten(declared) end

---Raises what a rule of another pack says, by steps; never lowers it.
---@param declared { rule: string, likelihood: integer?, severity: integer?, because: string }
function raise(declared) end

---Makes a table known by that name in every file loaded later.
---@param name string
---@param shared table
function share(name, shared) end

---"quantity", "subject", or what Lua calls it.
---@param value any
---@return string
function type(value) end

---@param value string|number|boolean
---@return string
function tostring(value) end

---@generic T
---@param list T[]
---@return fun(list: T[], i: integer): integer, T
---@return T[]
---@return integer
function ipairs(list) end

---In the order of the keys, which are strings.
---@generic V
---@param keyed table<string, V>
---@return fun(keyed: table<string, V>, key: string?): string, V
---@return table<string, V>
function pairs(keyed) end

---@class (exact) stringlib
string = {}
---@param text string
---@return string
function string.upper(text) end
---@param text string
---@return string
function string.lower(text) end
---@param text string
---@return integer
function string.len(text) end
---@param text string
---@param from integer
---@param to? integer
---@return string
function string.sub(text, from, to) end

---@class (exact) tablelib
table = {}
---@param list any[]
---@param value any
function table.insert(list, value) end
---@param list string[]
---@param between? string
---@return string
function table.concat(list, between) end
---A new table of both; where both have a name, with what `changes` has.
---@param facts table
---@param changes? table
---@return table
function table.copy(facts, changes) end

---@class (exact) mathlib
math = {}
---@param x number
---@return integer
function math.floor(x) end
---@param x number
---@return integer
function math.ceil(x) end

