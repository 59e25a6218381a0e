/**
 * Findings in the format of compilers, which editors and scripts parse, as they come:
 * `path:line:column: error: message [rule]`, the line with the span underlined, and the remedy.
 */

import type { Finding } from '../rules/check.ts';
import { acceptedWords } from './accepted.ts';
import { Cautions } from './cautions.ts';
import type { PlacedFinding, Report, StartForm } from './check-result.ts';
import { sanitizeLine } from './sanitize.ts';
import { excerpt, type Paint, paintAs } from './terminal.ts';

/** Findings that become one string: that of all findings of a large file may be longer than strings can be. */
const AT_A_TIME = 1000;

export const findingsLines =
  (paint: Paint): StartForm =>
  ({ shown }, write) => {
    const cautions = new Cautions();
    return {
      add(found) {
        for (let i = 0; i < found.length; i += AT_A_TIME) {
          const some = found.slice(i, i + AT_A_TIME);
          write(some.map(one => asLines(one, shown, paint)).join(''));
        }
        for (const { finding } of found) cautions.add(finding);
      },
      end() {
        // Indented, like all that is not the place of a finding.
        const lines = cautions.all.map(({ text, about }) => paint('dim', `  Caution for ${about}: ${text}`));
        if (lines.length > 0) write(`${lines.join('\n')}\n\n`);
        return undefined;
      },
    };
  };

function asLines({ finding, line }: PlacedFinding, nameOf: Report['shown'], paint: Paint): string {
  const related = finding.related?.map(place => ({ ...place, file: nameOf(place.file) }));
  const named = related ? { ...finding, related } : finding;
  return `${showFinding(named, nameOf(finding.file), line, paint)}\n`;
}

/**
 * One finding.
 * @param file path as shown to the reader
 * @param line text of the line on which it begins, without line end
 */
export function showFinding(finding: Finding, file: string, line: string, paint: Paint): string {
  const { level, accepted } = finding;
  const place = paint('bold', `${sanitizeLine(file)}:${finding.line}:${finding.column}:`);
  const label = paintAs(finding, paint, accepted ? 'note: accepted:' : `${level}:`);
  const parts = [
    `${place} ${label} ${sanitizeLine(finding.message)} ${paint('dim', `[${finding.rule}]`)}`,
    ...excerpt(finding, line, paint, [`${String(finding.line).padStart(6)} | `, `${' '.repeat(6)} | `]),
    `  ${sanitizeLine(accepted ? acceptedWords(accepted) : finding.remedy)}`,
  ];
  for (const { file: other, line: otherLine, column, message } of finding.related ?? [])
    parts.push(`  ${sanitizeLine(other)}:${otherLine}:${column}: ${sanitizeLine(message)}`);
  return `${parts.join('\n')}\n`;
}
