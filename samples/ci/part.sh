#!/bin/sh
# One task of a job array: checks its part of an inventory.
#
#   part.sh FOLDER PARTS DAY [PATH...]
#
#   FOLDER     where the part result goes: FOLDER/part-K.json
#   PARTS      the number of parts
#   DAY        the day to check for, the same in all parts: 2026-03-14
#   PATH       files and folders (default: the working folder)
#   SOUNDWOOD  how to start the program (default: npx --no-install soundwood)
#
# Which part it is, Slurm says in SLURM_ARRAY_TASK_ID, from 1; other schedulers have another name for it.
# Exit codes: 0 the part result is written, whatever was found; 2 it could not be made.
set -u

folder=$1
parts=$2
day=$3
shift 3
part=$SLURM_ARRAY_TASK_ID
# shellcheck disable=SC2086 # The program may be several words.
exec ${SOUNDWOOD:-npx --no-install soundwood} check --part "$part/$parts" --on "$day" --to "$folder/part-$part.json" "$@"
