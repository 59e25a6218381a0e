#!/bin/sh
# A job for any build server: reports what a change adds to its base, for the reviewer and for the server.
#
#   job.sh BASE [FOLDER]
#
#   BASE              the commit to compare with, such as origin/main; '' reports everything, as for the main branch
#   FOLDER            where the reports go (default: reports)
#   SOUNDWOOD         command that starts the program (default: npx --no-install soundwood)
#   SOUNDWOOD_REJECT  error (default), warning, note, never
#   SOUNDWOOD_PATHS   files and folders to check, separated by spaces (default: the current folder)
#   SOUNDWOOD_DATE    day to check for (default: today, the same for all steps)
#
# Writes review.md (new findings, then changes tree by tree), findings.sarif and findings.xml (JUnit).
# Exit codes: 0 nothing new, 1 new findings at or above the severity, 2 the check could not run.
set -u

if [ $# -lt 1 ] || [ $# -gt 2 ]; then
  echo "usage: $0 BASE [FOLDER]" >&2
  exit 2
fi
base=$1
reports=${2:-reports}
reject=${SOUNDWOOD_REJECT:-error}
program=${SOUNDWOOD:-npx --no-install soundwood}
date=${SOUNDWOOD_DATE:-$(date +%F)}
paths=${SOUNDWOOD_PATHS:-.}
mkdir -p "$reports" || exit 2
rm -f "$reports/review.md" "$reports/changes.md" "$reports/findings.sarif" "$reports/findings.xml"

# Keeps the highest exit code; every step runs, whatever the one before it found.
code=0
step() {
  # shellcheck disable=SC2086 # The program may be several words.
  $program "$@"
  result=$?
  [ "$result" -gt 2 ] && result=2
  [ "$result" -gt "$code" ] && code=$result
}

set -- --date "$date" --fail-on "$reject"
[ -n "$base" ] && set -- "$@" --since "$base"
# shellcheck disable=SC2086 # Several paths.
{
  step check $paths "$@" --format lines --format "sarif:$reports/findings.sarif" \
    --format "junit:$reports/findings.xml" --format "markdown:$reports/review.md"
  [ -n "$base" ] &&
    step compare "$base.." $paths --date "$date" --fail-on never --format markdown --output "$reports/changes.md"
}

if [ -f "$reports/review.md" ] && [ -f "$reports/changes.md" ]; then
  { echo; cat "$reports/changes.md"; } >>"$reports/review.md" && rm "$reports/changes.md" || code=2
fi
exit "$code"
