/** Findings as text for a terminal, as they come. */

import type { PlacedFinding, Report, StartForm } from './check-result.ts';
import { type Paint, showFinding } from './terminal.ts';

/** Findings that become one string: that of all findings of a large file may be longer than strings can be. */
const AT_A_TIME = 1000;

export const findingsText =
  (paint: Paint): StartForm =>
  ({ shown }, write) => ({
    add(found) {
      for (let i = 0; i < found.length; i += AT_A_TIME) {
        const some = found.slice(i, i + AT_A_TIME);
        write(some.map(one => asText(one, shown, paint)).join(''));
      }
    },
    end: () => undefined,
  });

function asText({ finding, line }: PlacedFinding, nameOf: Report['shown'], paint: Paint): string {
  const related = finding.related?.map(place => ({ ...place, file: nameOf(place.file) }));
  const named = related ? { ...finding, related } : finding;
  return `${showFinding(named, nameOf(finding.file), line, paint)}\n`;
}
