#!/bin/sh
# One task of a job array: checks its part of an inventory.
#
#   part.sh FOLDER PARTS DAY [PATH...]
#
#   FOLDER     where the part result goes: FOLDER/part-K.json
#   PARTS      the number of parts
#   DAY        the date to check as of, the same for all parts: 2026-03-14
#   PATH       files and folders (default: the working folder)
#   SOUNDWOOD  command that starts the program (default: npx --no-install soundwood)
#
# Slurm sets SLURM_ARRAY_TASK_ID, counting from 1, to the number of the part; other schedulers use another variable.
# Exit codes: 0 the part result was written, whatever it contains; 2 it could not be made.
set -u

folder=$1
parts=$2
day=$3
shift 3
part=$SLURM_ARRAY_TASK_ID
# shellcheck disable=SC2086 # The program may be several words.
exec ${SOUNDWOOD:-npx --no-install soundwood} check --shard "$part/$parts" --date "$day" --output "$folder/part-$part.json" "$@"
