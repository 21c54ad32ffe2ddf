#!/bin/sh
# A book of dossiers over the machines of a Slurm cluster: task K of an array of N takes each Nth
# dossier from the Kth on.
#
#   sbatch --array=1-8 [--cpus-per-task=4] assess-book.sh LIST OUT [OPTION OF ASSESS]...
#
# LIST (a dossier or folder a line, from its own folder; or a folder) and OUT must be the same on every
# machine, and so must tankside and its rules. The array must begin at 1 and have no gaps. A task whose
# machine is lost is queued again, and any may be submitted again: what is done is not done again, and
# a dossier that another task is at is left to it.
#SBATCH --job-name=assess-book
#SBATCH --ntasks=1
#SBATCH --requeue
#SBATCH --open-mode=append
set -eu
[ $# -ge 2 ] || { echo "usage: sbatch --array=1-N assess-book.sh LIST OUT [OPTION]..." >&2; exit 2; }
list=$1 out=$2
shift 2
[ -d "$list" ] || set -- --list "$list" "$@"
[ ! -d "$list" ] || set -- "$list" "$@"
status=0
"${TANKSIDE:-tankside}" assess "$@" -o "$out" --workers "${SLURM_CPUS_PER_TASK:-1}" \
  --part "${SLURM_ARRAY_TASK_ID:-1}/${SLURM_ARRAY_TASK_COUNT:-1}" || status=$?
# 1 says that something stands above the line: for Slurm the task has succeeded.
[ $status -le 1 ] || exit $status
