/** Fixes for the findings in a span of a file. */

import { HEADS } from '../../grammar/fields.ts';
import { DIMENSIONS } from '../../grammar/forms.ts';
import { type ExpectedNext, expectedAfter } from '../../grammar/match.ts';
import { isSlip, near } from '../../grammar/nearest.ts';
import { parseLine } from '../../grammar/parser.ts';
import { headNamed } from '../../grammar/read-line.ts';
import { rewrites } from '../../grammar/rewrite.ts';
import type { Span } from '../../grammar/text.ts';
import { memo } from '../base/memo.ts';
import { type Dimension, unitsFor } from '../base/quantity.ts';
import type { BlockNode } from '../facts/file.ts';
import { type DatedWorkspace, type FileSnapshot, siteOf } from '../facts/workspace.ts';
import { namesFor, orderOf, rewriteLine } from '../fix/fix.ts';
import type { DateOrder } from '../practice/date-orders.ts';
import type { Finding } from '../rules/check.ts';
import { cursorAt, meets } from './cursor.ts';
import { lineFixes } from './line-fixes.ts';
import { recordFixes } from './record-fixes.ts';
import { type Edit, type Fix, findingsOf } from './snapshot.ts';

export function fixes(snapshot: DatedWorkspace, file: FileSnapshot, within: Span): readonly Fix[] {
  const all = findingsOf(snapshot, file)
    .filter(finding => meets(finding, within))
    .flatMap(finding => fixesFor(snapshot, file, finding));
  // Several findings may have the same fix.
  const byTitle = new Map<string, Fix>();
  for (const fix of all) {
    const key = `${fix.title} ${fix.path ?? ''} ${fix.edits.map(({ start }) => start).join(' ')}`;
    const same = byTitle.get(key);
    byTitle.set(key, same ? { ...same, also: [...(same.also ?? []), fix.finding] } : fix);
  }
  return [...byTitle.values()];
}

/** Fixes for one finding of a file. */
export function fixesFor(snapshot: DatedWorkspace, file: FileSnapshot, finding: Finding): readonly Fix[] {
  const written = file.text.slice(finding.start, finding.end);
  const replacement = fixOf(finding, written);
  return [
    ...(replacement ? [replacement] : []),
    ...choicesOf(finding, written),
    ...nameChoices(snapshot, file, finding),
    ...unitFixes(file, finding),
    ...wordFixes(file, finding, replacement?.edits[0]?.text),
    ...lineFixes(file, finding),
    ...recordFixes(snapshot, file, finding),
  ];
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
  const { fix, start, end, sure = false } = finding;
  if (fix === undefined) return undefined;
  const preferred =
    sure || !NEAREST.has(finding.rule) || isSlip(written.replaceAll('"', ''), fix.replaceAll('"', ''));
  return { title: titleOf(fix, written), edits: [{ start, end, text: fix }], finding, preferred };
}

const titleOf = (fix: string, written: string): string =>
  fix.trim() === '' ? `Remove ${written.trim()}` : `Write ${fix.trim()}`;

/** What a habit can mean, where it can mean several things. */
const choicesOf = (finding: Finding, written: string): readonly Fix[] =>
  (finding.choices ?? []).map(text => ({
    title: titleOf(text, written),
    edits: [{ start: finding.start, end: finding.end, text }],
    finding,
    preferred: false,
  }));

const blockRewrites = memo(
  (node: BlockNode, region: string | undefined, order: DateOrder | undefined): readonly Edit[] =>
    rewrites(node.block.text, rewriteLine({ region }, order)),
  (_node, region, order) => [region, order],
);

/** Everything of a file that can mean one thing only, rewritten at once. */
export function fixAll({ workspace }: DatedWorkspace, file: FileSnapshot): readonly Edit[] {
  const { nodes, starts } = file;
  if (!nodes.some(({ isDamaged }) => isDamaged)) return [];
  const region = siteOf(workspace, file.path)?.region?.value;
  const order = orderOf(file.text, region);
  return nodes.flatMap((node, i) =>
    node.isDamaged
      ? blockRewrites(node, region, order).map(({ start, end, text }) => ({
          start: start + starts[i]!,
          end: end + starts[i]!,
          text,
        }))
      : [],
  );
}

/** The botanical names of what people call a tree, a bird or a fungus. */
function nameChoices({ workspace }: DatedWorkspace, file: FileSnapshot, finding: Finding): readonly Fix[] {
  if (finding.rule !== 'species-unknown' && finding.grade !== 'syntax') return [];
  const { placed, lineIndex, lineStart } = cursorAt(file, finding.start);
  const names = namesFor(placed, lineIndex, siteOf(workspace, file.path)?.region?.value);
  return names.map(({ name, rewrite: { start, end, text } }) => ({
    title: `Write ${name}`,
    edits: [{ start: lineStart + start, end: lineStart + end, text }],
    finding,
    preferred: names.length === 1,
  }));
}

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

const UNIT_MISTAKES: ReadonlySet<string> = new Set(['missing-unit', 'unknown-unit', 'wrong-unit']);

/** For a number without unit, or with that of another kind, a fix for each possible unit. */
function unitFixes(file: FileSnapshot, finding: Finding): readonly Fix[] {
  const { rule, start, end, fix, choices } = finding;
  if (!UNIT_MISTAKES.has(rule) || fix !== undefined || choices) return [];
  const whole = file.text.slice(start, end);
  const written = rule === 'wrong-unit' ? whole.replace(/\s*[\p{L}%/]+$/u, '') : whole;
  const at = rule === 'unknown-unit' ? start - 1 : start;
  const dimensions = expectedAt(file, at).flatMap(expected =>
    (expected.kind === 'value' || expected.kind === 'unit') && DIMENSIONS.has(expected.type)
      ? [expected.type as Dimension]
      : [],
  );
  return [...new Set(dimensions)].flatMap(unitsFor).map(({ symbol }) => {
    const text = rule === 'unknown-unit' ? symbol : `${written} ${symbol}`;
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
