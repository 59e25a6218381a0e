/** A comparison for a terminal, tree by tree. */

import { counted } from '../base/words.ts';
import type { Comparison, FigureChange, OtherChange, TreeChange } from '../compare/compare.ts';
import { showFigure } from '../compare/compare.ts';
import type { FieldChange } from '../compare/records.ts';
import type { Finding } from '../rules/check.ts';
import { acceptedWords } from './accepted.ts';
import { readInRegion, readRanges } from './in-region.ts';
import type { RegionCode } from './long-date.ts';
import { sanitizeForLog } from './sanitize.ts';
import type { Paint } from './terminal.ts';

export type RegionOf = (file: string) => RegionCode;

export function showComparison(
  { trees, others, came, went }: Comparison,
  paint: Paint,
  regionOf: RegionOf,
): string {
  const beside = {
    came: came.filter(({ tree }) => tree === undefined),
    went: went.filter(({ tree }) => tree === undefined),
  };
  const parts = [
    ...trees.map(tree => [heading(tree, paint), ...treeLines(tree, paint, regionOf)]),
    ...others.map(other => [paint('bold', sanitizeForLog(other.name)), ...otherLines(other)]),
    ...(beside.came.length + beside.went.length > 0
      ? [[paint('bold', 'Beside the trees'), ...findingLines(beside, paint, regionOf)]]
      : []),
  ];
  return [...parts.map(lines => lines.map(line => `${line}\n`).join('')), showCounts(trees, came, went)].join(
    '\n',
  );
}

/** `tree 114 "Lawn maple" (Fernhollow Court), formerly 14`. */
export function treeTitle({ site, tag, name, formerly, from, state, felled }: TreeChange): string {
  const title = [
    `tree ${tag}`,
    ...(name === undefined ? [] : [`"${name}"`]),
    ...(site === undefined ? [] : [`(${site})`]),
  ];
  const notes = [
    ...(state === 'kept' ? [] : [state === 'added' ? 'added' : 'gone from the record']),
    ...(felled ? ['felled'] : []),
    ...(formerly === undefined ? [] : [`formerly ${formerly}`]),
    ...(from === undefined ? [] : [from === '' ? 'was in no site' : `was in ${from}`]),
  ];
  return [title.join(' '), ...notes].join(', ');
}

const heading = (tree: TreeChange, paint: Paint) => paint('bold', sanitizeForLog(treeTitle(tree)));

function treeLines(tree: TreeChange, paint: Paint, regionOf: RegionOf): readonly string[] {
  return [
    ...(tree.summary ? [`  ${sanitizeForLog(tree.summary)}`] : []),
    ...tree.changes.map(change => `  ${sanitizeForLog(changeWords(change))}`),
    ...tree.figures.map(figure => `  ${sanitizeForLog(figureWords(figure))}`),
    ...findingLines(tree, paint, regionOf),
  ];
}

const otherLines = ({ changes }: OtherChange): readonly string[] =>
  changes.map(change => `  ${sanitizeForLog(changeWords(change))}`);

const KINDS = { new: 'new', gone: 'gone', closed: 'closed', withdrawn: 'withdrawn' } as const;

/** `defect A: diameter 26 in → 28 in`, `defect B: new: cavity; on trunk at 9 ft`. */
export function changeWords({ record, field, kind, before, after }: FieldChange): string {
  const where = record === '' ? '' : `${record}: `;
  if (kind === 'changed') return `${where}${field} ${before} → ${after}`;
  const what = field === '' || field === kind ? KINDS[kind] : `${field} ${KINDS[kind]}`;
  const text = after ?? before ?? '';
  return text === '' ? `${where}${what}` : `${where}${what}: ${text}`;
}

/** `strength loss at defect A: 12.5 % → 34.3 %`. */
export function figureWords({ what, at, before, after }: FigureChange): string {
  const shown = (value: FigureChange['before']) => (value ? readRanges(showFigure({ what, value })) : 'none');
  return `${what} at ${at}: ${shown(before)} → ${shown(after)}`;
}

interface Findings {
  readonly came: readonly Finding[];
  readonly went: readonly Finding[];
}

const COLOURS = { error: 'red', warning: 'yellow', note: 'blue' } as const;

function findingLines({ came, went }: Findings, paint: Paint, regionOf: RegionOf): readonly string[] {
  const line = (sign: string, finding: Finding) => {
    const { level, rule, accepted } = finding;
    const region = regionOf(finding.file);
    const message = readInRegion(finding.message, region);
    const label = accepted ? paint('dim', 'accepted:') : paint(COLOURS[level], `${level}:`);
    const by = accepted ? ` ${acceptedWords(accepted, region)}` : '';
    return `  ${sign} ${label} ${sanitizeForLog(message + by)} ${paint('dim', `[${rule}]`)}`;
  };
  return [...came.map(finding => line('+', finding)), ...went.map(finding => line('-', finding))];
}

/** `2 trees changed, 1 added, 0 felled, 0 gone; 3 new findings, 1 no longer reported.` */
export function showCounts(
  trees: readonly TreeChange[],
  came: readonly Finding[],
  went: readonly Finding[],
): string {
  const count = (state: TreeChange['state']) => trees.filter(tree => tree.state === state).length;
  const changed = count('kept');
  const felled = trees.filter(tree => tree.felled).length;
  const findings = `${counted(came.length, 'new finding')}, ${went.length} no longer reported`;
  return `${changed} ${changed === 1 ? 'tree' : 'trees'} changed, ${count('added')} added, ${felled} felled, ${count('gone')} gone; ${findings}.\n`;
}
