#!/bin/sh
# Rules that ask too much, never end or fill the memory: the assessment ends all the same, says
# what it could not see, and takes nothing away from what the other rules find.
set -eu
cd "$WORK"
has() { grep -qF -e "$2" "$1" || { echo "no \"$2\" in $1:"; cat "$1"; exit 1; }; }
dossier=$SOURCE/shared/productions/lake-stunt/dossier.xml

mkdir -p greedy
cat >greedy/greedy.lua <<'LUA'
-- Nothing of this is known of two of the people: 2^20 courses.
rule {
  id = "greedy.asks", title = "Asks twenty things", each = "person", harm = "nobody: nothing",
  sources = { "common practice" },
  worst = { likelihood = 4, severity = 5 },
  assess = function (p)
    local yes = 0
    if p.swims_clothed then yes = yes + 1 end
    if p.skill_in_appliance then yes = yes + 1 end
    if p.withdrawal_signal_taught then yes = yes + 1 end
    if p.consents then yes = yes + 1 end
    if p.understands_action then yes = yes + 1 end
    if p.ear_trouble then yes = yes + 1 end
    if p.heart_condition then yes = yes + 1 end
    if p.asthma then yes = yes + 1 end
    if p.epilepsy then yes = yes + 1 end
    if p.diabetes then yes = yes + 1 end
    if p.pregnant then yes = yes + 1 end
    if p.medication then yes = yes + 1 end
    if p.open_wounds then yes = yes + 1 end
    if p.diarrhoea_14_days then yes = yes + 1 end
    if p.conditions_cleared then yes = yes + 1 end
    if p.contact_lenses then yes = yes + 1 end
    if p.school_age then yes = yes + 1 end
    if p.performance_licence then yes = yes + 1 end
    if p.guardian_consents then yes = yes + 1 end
    if p.double_available then yes = yes + 1 end
    hazard { likelihood = yes > 10 and 2 or 1, severity = 1, because = "twenty questions" }
  end,
  examples = {},
}

rule {
  id = "greedy.loops", title = "Never ends", each = "production", harm = "nobody: nothing",
  sources = { "common practice" },
  assess = function (p) while true do end end,
  examples = {},
}

rule {
  id = "greedy.hoards", title = "Builds a text of 1 GiB", each = "production", harm = "nobody: nothing",
  sources = { "common practice" },
  assess = function (p)
    local text = "0123456789abcdef"
    for _ = 1, 26 do text = text .. text end
    note { because = "built it" }
  end,
  examples = {},
}
LUA

# assess FOLDER OPTION...: in bounded time, something to look at.
assess() {
  folder=$1
  shift
  status=0
  timeout 120 "$TANKSIDE" assess "$dossier" -o "$folder" --no-pdf "$@" >"$folder.out" 2>"$folder.err" || status=$?
  [ $status -eq 1 ] || { echo "exit status $status"; cat "$folder.err"; exit 1; }
}
assess plain
assess packed --pack greedy
has packed.out "NOT COMPLETE"
has packed.out "greedy.loops on production"
has packed.out "greedy.hoards on production"
for rule in greedy.loops greedy.hoards; do
  [ "$(grep -c "<failure rule=\"$rule\" subject=\"production\"" packed/assessment.xml)" = 1 ]
  if grep -q "<finding [^>]*rule=\"$rule\"" packed/assessment.xml; then echo "$rule found something"; exit 1; fi
done

# One line a finding or duty: rule, subject, what it is about, and how it stands in each view.
stands() {
  awk '
    function attribute(name) { return match($0, " " name "=\"[^\"]*\"") ? substr($0, RSTART + 1, RLENGTH - 1) : "" }
    function done() { if (all != "") print all; all = "" }
    /<finding |<duty / { done(); all = attribute("rule") " " attribute("subject") " " attribute("about") " " \
      attribute("word") attribute("state") " " attribute("settled") " " attribute("unresolved") }
    /<score / { sub(/^ */, ""); all = all " " $0 }
    END { done() }' "$1" | LC_ALL=C sort
}
stands plain/assessment.xml >plain.stands
stands packed/assessment.xml >packed.all
[ "$(wc -l <plain.stands)" -gt 100 ]
[ "$(grep -v ' state="' plain.stands | grep -vc '<score')" = 0 ] # a duty is met or not, and has no score
grep -v 'rule="greedy\.' packed.all >packed.stands
diff plain.stands packed.stands || { echo "other findings stand otherwise"; exit 1; }

# At the worst it declares where not all could be seen, and marked so.
grep 'rule="greedy.asks"' packed.all >asks
for person in kay gus; do
  grep "subject=\"$person\"" asks >one || { cat asks; exit 1; }
  has one 'unresolved="yes"'
  for view in described in-place planned; do
    has one "<score as=\"$view\" worst-likelihood=\"4\" worst-severity=\"5\" worst=\"20\""
  done
done
