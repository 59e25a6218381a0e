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
$program gather --fail-on "$reject" --format lines --format "sarif:$reports/findings.sarif" \
  --format "junit:$reports/findings.xml" --format "markdown:$reports/review.md" "$@"
code=$?
[ "$code" -gt 2 ] && code=2
for file in findings.sarif findings.xml review.md; do
  [ -f "$reports/$file" ] && continue
  [ "$code" -lt 2 ] && echo "$0: $reports/$file could not be written" >&2
  code=2
done
exit "$code"
