/** Fixes for the findings in a span of a file. */

import { HEADS } from '../../grammar/fields.ts';
import { DIMENSIONS } from '../../grammar/forms.ts';
import { type ExpectedNext, expectedAfter } from '../../grammar/match.ts';
import { isSlip, near } from '../../grammar/nearest.ts';
import { parseLine } from '../../grammar/parser.ts';
import { headNamed } from '../../grammar/read-line.ts';
import type { Span } from '../../grammar/text.ts';
import { type Dimension, unitMeant, unitsFor } from '../base/quantity.ts';
import type { DatedWorkspace, FileSnapshot } from '../facts/workspace.ts';
import type { Finding } from '../rules/check.ts';
import { cursorAt, meets } from './cursor.ts';
import { recordFixes } from './record-fixes.ts';
import { type Edit, type Fix, findingsOf } from './snapshot.ts';

export function fixes(snapshot: DatedWorkspace, file: FileSnapshot, within: Span): readonly Fix[] {
  const all = findingsOf(snapshot, file)
    .filter(finding => meets(finding, within))
    .flatMap(finding => {
      const replacement = fixOf(finding, file.text.slice(finding.start, finding.end));
      return [
        ...(replacement ? [replacement] : []),
        ...unitFixes(file, finding),
        ...wordFixes(file, finding, replacement?.edits[0]?.text),
        ...recordFixes(snapshot, file, finding),
      ];
    });
  // Several findings may have the same fix.
  const byTitle = new Map<string, Fix>();
  for (const fix of all) {
    const key = `${fix.title} ${fix.edits.map(({ start }) => start).join(' ')}`;
    if (!byTitle.has(key)) byTitle.set(key, fix);
  }
  return [...byTitle.values()];
}

/** Rules whose fix is the nearest word, which may not be the one meant. */
const NEAREST: ReadonlySet<string> = new Set([
  'unknown-word',
  'unknown-unit',
  'unknown-reference',
  'unknown-limit',
  'unknown-rule',
  'species-unknown',
]);

function fixOf(finding: Finding, written: string): Fix | undefined {
  const { fix, start, end } = finding;
  if (fix === undefined) return undefined;
  const title = fix === '' ? `Remove ${written}` : `Write ${fix.trim()}`;
  const preferred =
    !NEAREST.has(finding.rule) || isSlip(written.replaceAll('"', ''), fix.replaceAll('"', ''));
  return { title, edits: [{ start, end, text: fix }], finding, preferred };
}

/** Whether the fix cannot change the meaning: misspellings, and unambiguous words for a unit. */
function isSafe(finding: Finding, written: string): boolean {
  if (finding.fix === undefined) return false;
  if (finding.rule === 'unknown-unit') return unitMeant(written)?.symbol === finding.fix;
  return finding.rule === 'unknown-word' && isSlip(written, finding.fix);
}

/** All safe fixes of a file at once. */
export const safeEdits = (snapshot: DatedWorkspace, file: FileSnapshot): readonly Edit[] =>
  findingsOf(snapshot, file)
    .filter(finding => isSafe(finding, file.text.slice(finding.start, finding.end)))
    .map(({ start, end, fix }) => ({ start, end, text: fix! }));

/** What the form allows at the place of a mistake, given the words before it. */
function expectedAt(file: FileSnapshot, offset: number): readonly ExpectedNext[] {
  const { line, column, head, lineIndex, section } = cursorAt(file, offset);
  const read = parseLine(line.syntax.text.slice(0, column));
  const named = headNamed(read);
  if (named) return expectedAfter(read, named.words, named.head.node);
  const first = read.items[0];
  if (first?.kind !== 'word') return [];
  // A head line has no owner; a field belongs to the head above.
  const owner = section?.head === lineIndex ? undefined : head;
  const field = owner?.fields.get(first.text);
  return field ? expectedAfter(read, 1, field.node) : [];
}

/** For a number without unit, a fix for each possible unit. */
function unitFixes(file: FileSnapshot, finding: Finding): readonly Fix[] {
  const { rule, start, end, fix } = finding;
  if ((rule !== 'missing-unit' && rule !== 'unknown-unit') || fix !== undefined) return [];
  const written = file.text.slice(start, end);
  const at = rule === 'missing-unit' ? start : start - 1;
  const dimensions = expectedAt(file, at).flatMap(expected =>
    (expected.kind === 'value' || expected.kind === 'unit') && DIMENSIONS.has(expected.type)
      ? [expected.type as Dimension]
      : [],
  );
  return [...new Set(dimensions)].flatMap(unitsFor).map(({ symbol }) => {
    const text = rule === 'missing-unit' ? `${written} ${symbol}` : symbol;
    return { title: `Write ${text}`, edits: [{ start, end, text }], finding, preferred: false };
  });
}

/** Maximum number of words offered. */
const MOST_WORDS = 3;

/** Allowed words of which the one written may be a misspelling; a word that is merely similar may mean the opposite. */
function wordFixes(file: FileSnapshot, finding: Finding, offered: string | undefined): readonly Fix[] {
  const { rule, start, end } = finding;
  if (rule !== 'unknown-word' && rule !== 'unexpected') return [];
  const written = file.text.slice(start, end);
  if (!/^[\p{L}-]+$/u.test(written)) return [];
  return near(written, wordsAt(file, start))
    .filter(({ candidate }) => candidate !== offered && isSlip(written, candidate))
    .sort((a, b) => a.apart - b.apart || (a.candidate < b.candidate ? -1 : 1))
    .slice(0, MOST_WORDS)
    .map(({ candidate }) => ({
      title: `Write ${candidate}`,
      edits: [{ start, end, text: candidate }],
      finding,
      preferred: false,
    }));
}

function wordsAt(file: FileSnapshot, offset: number): readonly string[] {
  const { line, column, head } = cursorAt(file, offset);
  if (line.syntax.text.slice(0, column).trim() !== '')
    return expectedAt(file, offset).flatMap(expected => (expected.kind === 'word' ? [expected.words] : []));
  return [...(head?.fields.keys() ?? []), ...HEADS.keys()];
}
