#!/bin/sh
# Checks an inventory with a Slurm job array and combines the parts in a job that depends on it.
#
#   array.sh PARTS FOLDER [PATH...]
#
#   PARTS             number of parts; each is a task of the array
#   FOLDER            for part results, logs and reports; on storage that all nodes share
#   PATH              files and folders (default: the working folder), also on shared storage
#   SOUNDWOOD         command that starts the program (default: npx --no-install soundwood)
#   SOUNDWOOD_REJECT  error (default), warning, note
#   SOUNDWOOD_ON      the date to check as of (default: today)
#
# Waits for the jobs and prints the findings. Set further sbatch options with its environment variables, such as
# SBATCH_PARTITION and SBATCH_TIMELIMIT.
# Exit codes: 0 clean, 1 findings at or above the severity, 2 the check could not run.
set -u

if [ $# -lt 2 ]; then
  echo "usage: $0 PARTS FOLDER [PATH...]" >&2
  exit 2
fi
parts=$1
folder=$2
shift 2
here=$(cd "$(dirname "$0")" && pwd) || exit 2
# The same date for all parts: the last may start after midnight.
day=${SOUNDWOOD_ON:-$(date +%F)}
mkdir -p "$folder" || exit 2
# Results of an earlier run must not be taken for parts of this one.
rm -f "$folder"/part-*.json "$folder"/part-*.log "$folder"/gather.log

array=$(sbatch --parsable --job-name=soundwood-part --array="1-$parts" --output="$folder/part-%a.log" \
  "$here/part.sh" "$folder" "$parts" "$day" "$@") || exit 2
# With several clusters, sbatch appends the name of the cluster to the number.
array=${array%%;*}

set --
part=1
while [ "$part" -le "$parts" ]; do
  set -- "$@" "$folder/part-$part.json"
  part=$((part + 1))
done
# afterany: if a task failed, gather names the missing part.
sbatch --wait --job-name=soundwood-gather --dependency="afterany:$array" --output="$folder/gather.log" \
  "$here/gather.sh" "$folder" "$@" >/dev/null
code=$?
[ "$code" -gt 2 ] && code=2
cat "$folder/gather.log" || code=2
exit "$code"
