/**
 * Findings for people at a terminal: by tree, the most urgent first and of equally urgent ones that with the gravest
 * findings; then those about sites, people and files; then the cautions, each once.
 */

import { URGENCIES, type Urgency } from '../assess/urgency.ts';
import { counted } from '../base/words.ts';
import { type Finding, gravityOf, LEAST_GRAVE } from '../rules/check.ts';
import { acceptedWords } from './accepted.ts';
import { Cautions } from './cautions.ts';
import type { PlacedFinding, Report, StartForm } from './check-result.ts';
import { readInRegion } from './in-region.ts';
import { wrap } from './layout.ts';
import type { RegionCode } from './long-date.ts';
import { sanitizeLine } from './sanitize.ts';
import { excerpt, type Paint, paintAs } from './terminal.ts';

/** Findings: more than anybody reads, and so few that memory does not grow with the inventory. */
const MOST = { trees: 5000, others: 1000 };

/** Columns: narrower ones leave no room for words, wider ones are hard to read. */
const NARROWEST = 60;
const WIDEST = 110;

const HEADINGS: Readonly<Record<Urgency, string>> = {
  now: 'NOW',
  'this season': 'THIS SEASON',
  watch: 'WATCH',
};

/** Findings of one tree, or of one file outside of its trees; at least one. */
type FoundGroup = readonly [PlacedFinding, ...PlacedFinding[]];

/** @param columns width of the terminal */
export const findingsText =
  (paint: Paint, columns: number): StartForm =>
  ({ shown, regionOf }, write) => {
    const width = Math.min(Math.max(columns, NARROWEST), WIDEST);
    const [trees, others] = [new WorstGroups(MOST.trees), new WorstGroups(MOST.others)];
    const cautions = new Cautions();
    const show = (heading: string, groups: readonly FoundGroup[]) => {
      if (groups.length > 0) write(`${paint('bold', heading)}\n\n`);
      for (const group of groups) {
        const file = group[0].finding.file;
        write(`${groupText(group, shown, { code: regionOf(file) }, paint, width)}\n`);
      }
    };
    return {
      add(found) {
        for (const group of byTree(found)) (group[0].tree ? trees : others).add(group);
        for (const { finding } of found) {
          const region = { code: regionOf(finding.file) };
          cautions.add(finding, text => readInRegion(text, region));
        }
      },
      end() {
        const worst = trees.all;
        for (const urgency of URGENCIES) {
          const urgent = worst.filter(([{ tree }]) => tree?.urgency === urgency);
          show(`${HEADINGS[urgency]}: ${counted(urgent.length, 'tree')}`, urgent);
        }
        show('SITES, PEOPLE AND FILES', byFile(others.all));
        if (cautions.all.length > 0) write(`${paint('bold', 'CAUTIONS')}\n\n`);
        for (const { text, about } of cautions.all)
          write(`${wrap(text, 2, 2, width)}\n${paint('dim', wrap(`For ${about}.`, 4, 4, width))}\n\n`);
        const left = trees.left + others.left;
        return left > 0 ? `${counted(left, 'finding')} (--format lines prints all)` : undefined;
      },
    };
  };

/** Those of one tree come one after the other, and all at once. */
function* byTree(found: readonly PlacedFinding[]): Iterable<FoundGroup> {
  let group: [PlacedFinding, ...PlacedFinding[]] | undefined;
  for (const one of found) {
    if (group && isSameTree(group[0], one)) group.push(one);
    else {
      if (group) yield group;
      group = [one];
    }
  }
  if (group) yield group;
}

const isSameTree = (a: PlacedFinding, b: PlacedFinding): boolean =>
  a.tree !== undefined && a.tree.line === b.tree?.line && a.finding.file === b.finding.file;

/** Of one file together, by line; the file with the gravest finding first. */
function byFile(groups: readonly FoundGroup[]): readonly FoundGroup[] {
  const files = new Map<string, [PlacedFinding, ...PlacedFinding[]]>();
  for (const [one] of groups) {
    const known = files.get(one.finding.file);
    if (known) known.push(one);
    else files.set(one.finding.file, [one]);
  }
  return [...files.values()].map(found => found.sort((a, b) => a.finding.start - b.finding.start));
}

/** The worst groups: as many as have a number of findings together. */
class WorstGroups {
  private ranked: { readonly rank: readonly number[]; readonly group: FoundGroup }[] = [];
  private kept = 0;
  private count = 0;
  /** Findings that are left out. */
  left = 0;

  constructor(private readonly most: number) {}

  add(group: FoundGroup): void {
    this.ranked.push({ rank: [...rankOf(group), this.count++], group });
    this.kept += group.length;
    if (this.kept > 2 * this.most) this.cut();
  }

  /** The worst first. */
  get all(): readonly FoundGroup[] {
    this.cut();
    return this.ranked.map(({ group }) => group);
  }

  private cut(): void {
    this.ranked.sort((a, b) => compare(a.rank, b.rank));
    let [kept, groups] = [0, 0];
    while (groups < this.ranked.length && kept < this.most) kept += this.ranked[groups++]!.group.length;
    this.ranked.length = groups;
    this.left += this.kept - kept;
    this.kept = kept;
  }
}

/** The lower, the worse: by urgency, then by the number of findings of each gravity. */
function rankOf(group: FoundGroup): readonly number[] {
  const counts = new Array<number>(LEAST_GRAVE + 1).fill(0);
  for (const { finding } of group) counts[gravityOf(finding)]!--;
  // A mistake of writing is an error too.
  const [mistakes, errors, ...others] = counts as [number, number, ...number[]];
  const { tree } = group[0];
  return [tree ? URGENCIES.indexOf(tree.urgency) : 0, mistakes + errors, ...others];
}

function compare(a: readonly number[], b: readonly number[]): number {
  const place = a.findIndex((rank, i) => rank !== b[i]);
  return place < 0 ? 0 : a[place]! - b[place]!;
}

/** Width of the column of severities and labels. */
const LABEL = 'accepted'.length;

function groupText(
  group: FoundGroup,
  nameOf: Report['shown'],
  region: RegionCode,
  paint: Paint,
  width: number,
): string {
  const ordered = group.toSorted(
    (a, b) => gravityOf(a.finding) - gravityOf(b.finding) || a.finding.start - b.finding.start,
  );
  const places = ordered.map(({ finding: { line, column } }) => `${line}:${column}`);
  const placeWidth = Math.max(...places.map(place => place.length), 8);
  const labelAt = placeWidth + 2;
  const textAt = labelAt + LABEL + 1;
  const row = (place: string, label: string, text: string) =>
    `${paint('dim', place.padStart(placeWidth))}  ${label}${wrap(text, textAt, textAt, width).slice(labelAt + LABEL)}`;
  const gutter = `${' '.repeat(labelAt)}| `;
  const rows = ordered.flatMap(({ finding, line }, i) => {
    const isShownAbove = i > 0 && isSameSpan(ordered[i - 1]!.finding, finding);
    const { file, level, message, remedy, rule, accepted, related = [] } = finding;
    const name = `[${rule}]`;
    const severity = paintAs(finding, paint, (accepted ? 'accepted' : level).padEnd(LABEL));
    return [
      row(places[i]!, severity, `${sanitizeLine(readInRegion(message, region))} ${name}`).replace(name, () =>
        paint('dim', name),
      ),
      ...(isShownAbove ? [] : excerpt(finding, line, paint, [gutter, gutter])),
      accepted
        ? row('', ' '.repeat(LABEL), sanitizeLine(acceptedWords(accepted, region)))
        : row('', 'to do'.padEnd(LABEL), sanitizeLine(readInRegion(remedy, region))),
      ...related.map(place => {
        const other = place.file === file ? '' : `${nameOf(place.file)}:`;
        return row(
          '',
          'see'.padEnd(LABEL),
          sanitizeLine(`${other}${place.line}:${place.column} ${readInRegion(place.message, region)}`),
        );
      }),
    ];
  });
  return `${[headOf(group[0], nameOf, paint), ...rows].join('\n')}\n`;
}

const isSameSpan = (a: Finding, b: Finding): boolean => a.start === b.start && a.end === b.end;

function headOf({ finding, tree }: PlacedFinding, nameOf: Report['shown'], paint: Paint): string {
  const file = sanitizeLine(nameOf(finding.file));
  if (!tree) return paint('bold', file);
  const name = tree.name === undefined ? '' : ` "${sanitizeLine(tree.name)}"`;
  const species = tree.species === undefined ? '' : `, ${sanitizeLine(tree.species)}`;
  return `${paint('bold', `Tree ${sanitizeLine(finding.tree ?? '')}${name}`)}${species} (${file})`;
}
