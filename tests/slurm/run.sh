#!/bin/sh
# Two Slurm nodes on this machine assess a book; one is killed in the middle with all that runs on it.
# Its task is queued again on the other, nothing is lost or done twice, and the bytes are those of one
# machine. Needs Debian's slurm-wlm and munge; 77 where they are not there or do not start. One to
# three minutes, most of it until Slurm takes a silent node for lost, so no part of the default run.
#
#   sh tests/slurm/run.sh build/release/tankside
set -eu
[ $# -eq 1 ] || { sed -n '2,8s/^# \{0,1\}//p' "$0"; exit 2; }
TANKSIDE=$(realpath "$1")
export TANKSIDE
source=$(cd "$(dirname "$0")/../.." && pwd)
PATH=$PATH:/usr/sbin
for program in munged mungekey slurmctld slurmd sbatch scontrol squeue; do
  command -v $program >/dev/null || { echo "skipped: no $program"; exit 77; }
done
work=$(mktemp -d)
chmod 755 "$work" # munged wants no folder that others can write
cd "$work"
SLURM_CONF=$work/slurm.conf
export SLURM_CONF
started=""

# Every process of a node knows its name and this configuration; no other has both.
of_node() { # NODE
  for process in /proc/[0-9]*; do
    { tr '\0' '\n' <"$process/environ"; } 2>/dev/null >environment || continue
    grep -qx "SLURM_CONF=$SLURM_CONF" environment || continue
    if grep -qx "SLURMD_NODENAME=$1" environment; then echo "${process#/proc/}"; fi
  done
  return 0
}
# Above them stands the daemon of the step, which would tell of their end: a machine that is lost tells
# nothing, so it must go first.
step_daemons() { # PROCESS...
  for process; do
    parent=$(sed -n 's/^PPid:[[:space:]]*//p' "/proc/$process/status" 2>/dev/null) || continue
    if [ "$(cat "/proc/$parent/comm" 2>/dev/null)" = slurmstepd ]; then echo "$parent"; fi
  done
  return 0
}
finish() {
  scancel --user="$(id -un)" 2>/dev/null || true
  there="$(of_node deck1) $(of_node deck2)"
  # shellcheck disable=SC2086
  kill -9 $started $(step_daemons $there) $there 2>/dev/null || true
  wait 2>/dev/null || true
  cd /
  rm -rf "$work"
}
trap finish EXIT
trap 'exit 2' INT TERM

cannot() {
  echo "skipped: $1"
  tail -n 5 ./*.log 2>/dev/null || true
  exit 77
}
until_true() { # SECONDS COMMAND...
  left=$(($1 * 5))
  shift
  until "$@" >/dev/null 2>&1; do
    left=$((left - 1))
    [ $left -gt 0 ] || return 1
    sleep 0.2
  done
}

# ---- a cluster ---------------------------------------------------------------------
mkdir munge state deck1 deck2
chmod 700 munge
mungekey --create --bits 256 --keyfile=munge/key || cannot "no key for munge"
munged --foreground --force --key-file="$work/munge/key" --socket="$work/munge.socket" \
  --pid-file="$work/munge/pid" --seed-file="$work/munge/seed" --log-file="$work/munged.log" >/dev/null 2>&1 &
started="$started $!"
until_true 10 test -S munge.socket || cannot "munged does not start"

host=$(hostname -s)
cat >slurm.conf <<CONF
ClusterName=book
SlurmctldHost=$host(127.0.0.1)
SlurmUser=$(id -un)
SlurmdUser=$(id -un)
AuthType=auth/munge
AuthInfo=socket=$work/munge.socket,cred_expire=5
SlurmctldPort=$((20000 + $$ % 10000))
SlurmctldPidFile=$work/slurmctld.pid
SlurmdPidFile=$work/%n.pid
SlurmctldLogFile=$work/slurmctld.log
SlurmdLogFile=$work/slurmd-%n.log
SlurmdSpoolDir=$work/%n
StateSaveLocation=$work/state
SlurmdTimeout=10
KillWait=2
ReturnToService=0
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SwitchType=switch/none
MpiDefault=none
SelectType=select/linear
SlurmdParameters=config_overrides
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
NodeName=deck1 NodeHostname=$host NodeAddr=127.0.0.1 Port=$((30000 + $$ % 10000)) CPUs=1
NodeName=deck2 NodeHostname=$host NodeAddr=127.0.0.1 Port=$((40000 + $$ % 10000)) CPUs=1
PartitionName=book Nodes=deck1,deck2 Default=YES State=UP MaxTime=60
CONF
slurmctld -D >slurmctld.out 2>&1 &
started="$started $!"
until_true 20 scontrol ping || cannot "slurmctld does not start"
for node in deck1 deck2; do
  slurmd -D -N $node >slurmd-$node.out 2>&1 &
  started="$started $!"
done
lost=$! # the slurmd of deck2
both_idle() { [ "$(sinfo -h -N -o '%N %t' | grep -c ' idle$')" = 2 ]; }
until_true 30 both_idle || { sinfo -N -l; cannot "slurmd does not start twice on one machine"; }

# ---- a book ------------------------------------------------------------------------
for n in 01 02 03 04 05 06 07 08 09 10 11 12; do
  mkdir -p book/p$n
  sed "s/title=\"[^\"]*\"/title=\"Production $n\"/" "$source/shared/productions/title-day/dossier.xml" >book/p$n/dossier.xml
  cp -r "$source/shared/productions/title-day/osier-lane" book/p$n/
  echo "p$n" >>book/list.txt
done
sbatch --array=1-2 --output="$work/part-%a.txt" "$source/shared/slurm/assess-book.sh" \
  "$work/book/list.txt" "$work/assessed" --no-pdf >submitted
job=$(sed 's/[^0-9]//g' submitted)

# ---- a machine is lost ---------------------------------------------------------------
on_deck2() { squeue -h -r -t running -w deck2 -o %K | grep .; }
until_true 30 on_deck2 || { cat slurmctld.log; exit 1; }
part=$(on_deck2)
some_done() { [ "$(grep -c "above the line" "part-$part.txt")" -ge 2 ]; }
until_true 60 some_done || { cat part-*.txt; exit 1; }
there=$(of_node deck2)
# shellcheck disable=SC2086
kill -9 "$lost" $(step_daemons $there) $there 2>/dev/null || true
done_before=$(grep -c "above the line" "part-$part.txt")
echo "deck2 was killed with part $part at $done_before of 6 dossiers"

all_ended() { [ -z "$(squeue -h -j "$job")" ]; }
until_true 180 all_ended || { squeue; cat slurmctld.log; exit 1; }
grep -qi "requeu.*$job" slurmctld.log || { echo "was not queued again"; cat slurmctld.log; exit 1; }

# ---- nothing lost, nothing twice, the same bytes ---------------------------------------
grep -h "^p[0-9]*: " part-1.txt part-2.txt >said
grep -v "as before$" said | cut -d: -f1 | sort >fresh
uniq -d fresh >twice
[ ! -s twice ] || { echo "done twice:"; cat twice said; exit 1; }
[ "$(cut -d: -f1 said | sort -u | wc -l)" = 12 ] || { echo "not all:"; cat said; exit 1; }
[ "$(grep -c "as before$" said)" -ge "$done_before" ] || { cat said; exit 1; }
"$TANKSIDE" assess --list book/list.txt -o alone --no-pdf >/dev/null || [ $? = 1 ]
diff -r alone assessed
[ -z "$(find assessed -name '.tankside*')" ] || { find assessed -name '.tankside*'; exit 1; }
echo "12 dossiers, $(wc -l <fresh) assessed once each and seen to the end; $(grep -c "as before$" said) found done by the part that was queued again; the bytes of one machine"
