#!/bin/sh
# Checks an inventory by a job array on Slurm, and gathers the parts in a job that follows it.
#
#   array.sh PARTS FOLDER [PATH...]
#
#   PARTS             the number of parts, each a task of the array
#   FOLDER            for part results, logs and reports; on storage that all nodes share
#   PATH              files and folders (default: the working folder), on such storage, too
#   SOUNDWOOD         how to start the program (default: npx --no-install soundwood)
#   SOUNDWOOD_REJECT  error (default), warning, note
#   SOUNDWOOD_ON      the day to check for (default: today)
#
# Waits for the end and shows what was found. Options of one's own for sbatch, such as a partition or a time limit,
# are set by its variables: SBATCH_PARTITION, SBATCH_TIMELIMIT.
# Exit codes: 0 clean, 1 findings at or above the level, 2 the check could not run.
set -u

if [ $# -lt 2 ]; then
  echo "usage: $0 PARTS FOLDER [PATH...]" >&2
  exit 2
fi
parts=$1
folder=$2
shift 2
here=$(cd "$(dirname "$0")" && pwd) || exit 2
# One day for all parts, though the last of them may begin after midnight.
day=${SOUNDWOOD_ON:-$(date +%F)}
mkdir -p "$folder" || exit 2
# What an earlier run left must not stand in for a part of this one.
rm -f "$folder"/part-*.json "$folder"/part-*.log "$folder"/gather.log

array=$(sbatch --parsable --job-name=soundwood-part --array="1-$parts" --output="$folder/part-%a.log" \
  "$here/part.sh" "$folder" "$parts" "$day" "$@") || exit 2
# With several clusters its name follows the number.
array=${array%%;*}

set --
part=1
while [ "$part" -le "$parts" ]; do
  set -- "$@" "$folder/part-$part.json"
  part=$((part + 1))
done
# After any end of the array: where a task failed, the gathering says which part is not there.
sbatch --wait --job-name=soundwood-gather --dependency="afterany:$array" --output="$folder/gather.log" \
  "$here/gather.sh" "$folder" "$@" >/dev/null
code=$?
[ "$code" -gt 2 ] && code=2
cat "$folder/gather.log" || code=2
exit "$code"
