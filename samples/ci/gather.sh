#!/bin/sh
# Combines part results into reports for people, for the build server and for the review.
#
#   gather.sh FOLDER PART...
#
#   FOLDER            where the reports go
#   PART              the part results, all of them
#   SOUNDWOOD         command that starts the program (default: npx --no-install soundwood)
#   SOUNDWOOD_REJECT  error (default), warning, note
#
# Writes review.md, findings.sarif and findings.xml (JUnit).
# Exit codes: 0 clean, 1 findings at or above the severity, 2 a part is missing or does not match, or a file was not read.
set -u

if [ $# -lt 2 ]; then
  echo "usage: $0 FOLDER PART..." >&2
  exit 2
fi
reports=$1
shift
reject=${SOUNDWOOD_REJECT:-error}
program=${SOUNDWOOD:-npx --no-install soundwood}
mkdir -p "$reports" || exit 2
rm -f "$reports/review.md" "$reports/findings.sarif" "$reports/findings.xml"

# shellcheck disable=SC2086 # The program may be several words.
$program gather --fail-on "$reject" "$@"
code=$?
[ "$code" -gt 2 ] && code=2
for form in sarif:findings.sarif junit:findings.xml markdown:review.md; do
  # The first run printed any problem with the parts; these exit with the same code.
  # shellcheck disable=SC2086
  $program gather --fail-on "$reject" --format "${form%%:*}" --output "$reports/${form#*:}" "$@" >/dev/null 2>&1
  [ -f "$reports/${form#*:}" ] && continue
  [ "$code" -lt 2 ] && echo "$0: $reports/${form#*:} could not be written" >&2
  code=2
done
exit "$code"
