/**
 * Trees with a history of several visits: the order in which it is written down says nothing, and the state on a day is
 * that of a record which ends there.
 */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatDate, parseDate } from '../../server/base/dates.ts';
import { figuresOf } from '../../server/compare/figures.ts';
import { treeOn } from '../../server/facts/state.ts';
import { buildWorkspace, readFile, settingsFor, siteOf } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';

const RUNS = Number(process.env.HISTORY_RUNS ?? 60);
const NOW = parseDate('2032-01-01')!;

/** A line that may say a day of its own. */
interface Line {
  readonly text: string;
  readonly day?: number;
}

/** A record, or the lines of the tree itself; its day is that of its head, else of the visit it stands below. */
interface Section {
  readonly head: string;
  readonly day?: number;
  readonly lines: readonly Line[];
}

interface Visit {
  readonly day: number;
  readonly looked: Section;
  readonly seen: readonly Section[];
}

interface History {
  readonly own: readonly Line[];
  /** Above all inspections. */
  readonly first: readonly Section[];
  readonly visits: readonly Visit[];
}

const SITE = `site "Court"
  region US-OR
  wind 92 mph, exposure B
  interval 36 months
person RV "Ruth Varga"
  qualified consulting arborist
`;

const some = <T>(lines: readonly T[]): fc.Arbitrary<T[]> => fc.subarray([...lines]);
const line = (text: string): Line => ({ text });
const cm = (from: number, to: number) => fc.integer({ min: from, max: to }).map(value => `${value} cm`);

/** Days apart, so that each visit has its own. */
const days = fc
  .uniqueArray(fc.integer({ min: 0, max: 90 }), { minLength: 1, maxLength: 4 })
  .map(months => months.sort((a, b) => a - b).map(month => parseDate('2018-05-01')! + 31 * month));

const treeLines = fc
  .tuple(cm(50, 70), fc.integer({ min: 15, max: 25 }), fc.constantFrom('good', 'fair', 'poor'), cm(0, 9))
  .chain(([dbh, height, vigor, lean]) =>
    some([
      line(`dbh ${dbh}`),
      line(`height ${height} m`),
      line(`vigor ${vigor}`),
      line('crown from 4 m, 12 m wide'),
      line(`lean ${Number.parseInt(lean, 10)} deg toward SW`),
      line('soil firm'),
      line('age mature'),
    ]),
  );

const cavity = fc
  .tuple(cm(55, 65), cm(3, 25), cm(5, 30), fc.constantFrom('steady', 'increasing', 'healed', 'suspected'))
  .chain(([diameter, wall, opening, state]) =>
    some([
      line(`diameter ${diameter}`),
      line(`wall ${wall} at N, ${wall} at S`),
      line(`opening ${opening} wide`),
      line(`state ${state}`),
      line('depth > 9 cm'),
    ]),
  )
  .map((lines): Section => ({ head: 'defect A cavity', lines }));

const others = (day: number): readonly fc.Arbitrary<Section>[] => [
  cavity,
  fc.constantFrom('state gone', 'length 3 m', 'state steady').map(text => ({
    head: 'defect B hanger',
    lines: [line(text)],
  })),
  some([line('length 8 m'), line('diameter 20 cm'), line('union sound'), line('union included bark')]).map(
    lines => ({
      head: 'limb L1',
      lines: lines.filter(
        ({ text }, i) => !lines.slice(0, i).some(one => one.text.split(' ')[0] === text.split(' ')[0]),
      ),
    }),
  ),
  some([line('distance 5 m'), line('occupied frequent'), line('kind people')]).map(lines => ({
    head: 'target "Lane"',
    lines,
  })),
  fc.integer({ min: 0, max: 400 }).map(after => ({
    head: 'target "Bench"',
    lines: [line('distance 9 m'), { text: `removed ${formatDate(day + after)}`, day: day + after }],
  })),
];

/** Work under a prescription of this visit, or none. */
const worked = (day: number, visit: number): fc.Arbitrary<Section[]> =>
  fc
    .record({
      kind: fc.constantFrom('height 20 m to 17 m', 'dose 12 %', 'stages 2', 'between 2027-09-01..2027-11-30'),
      verb: fc.constantFrom('reduce', 'reduce', 'thin', 'clean', 'fell'),
      works: fc.array(fc.integer({ min: 1, max: 500 }), { maxLength: 2 }),
      unfinished: fc.boolean(),
    })
    .map(({ kind, verb, works, unfinished }) => [
      { head: `prescription R${visit} ${verb}`, lines: [line(kind), line('for A')] },
      ...works.map((after, i) => ({
        head: `work R${visit} ${formatDate(day + after + 700 * i)}`,
        day: day + after + 700 * i,
        lines: [line('by RV'), ...(unfinished && i === 0 ? [line('unfinished "the top"')] : [])],
      })),
    ]);

const visitOn = (day: number, number: number): fc.Arbitrary<Visit> =>
  fc
    .tuple(
      treeLines,
      fc.constantFrom('ground', 'rope'),
      fc.tuple(...others(day).map(section => fc.option(section, { nil: undefined }))),
      fc.option(worked(day, number), { nil: [] }),
    )
    .map(([lines, from, seen, work]) => ({
      day,
      looked: { head: `inspection ${formatDate(day)} from ${from}`, day, lines: [line('by RV'), ...lines] },
      // A prescription and a defect named by it are of one visit.
      seen: [...seen.flatMap(one => one ?? []), ...work],
    }));

const history: fc.Arbitrary<History> = fc
  .tuple(treeLines, days, fc.array(fc.constantFrom(...others(0).slice(0, 4)), { maxLength: 2 }))
  .chain(([own, all, undated]) =>
    fc
      .tuple(
        fc.tuple(...undated),
        fc.tuple(...all.map((day, i) => visitOn(day, i))),
        fc.array(fc.integer({ min: 0, max: 4500 }), { maxLength: 2 }),
      )
      .map(([first, visits, checks]) => ({
        own: [line('species Tilia cordata'), ...own],
        first: [
          { head: 'defect A cavity', lines: [line('on trunk at 1 m')] },
          ...first.filter(
            ({ head }, i) => head !== 'defect A cavity' && first.findIndex(one => one.head === head) === i,
          ),
          ...checks.map(after => {
            const day = parseDate('2018-05-01')! + after;
            return { head: `nest check ${formatDate(day)} from ground`, day, lines: [line('found none')] };
          }),
        ],
        visits,
      })),
  );

type Shuffle = <T>(list: readonly T[]) => readonly T[];
const inPlace: Shuffle = list => list;

const printed = ({ head, lines }: Section, shuffle: Shuffle): string =>
  [`  ${head}`, ...shuffle(lines).map(({ text }) => `    ${text}`)].join('\n');

const written = ({ own, first, visits }: History, shuffle: Shuffle = inPlace): string =>
  [
    SITE,
    'tree 1',
    ...shuffle(own).map(({ text }) => `  ${text}`),
    ...shuffle(first).map(section => printed(section, shuffle)),
    ...shuffle(visits).flatMap(({ looked, seen }) => [
      printed(looked, shuffle),
      ...shuffle(seen).map(section => printed(section, shuffle)),
    ]),
    '',
  ].join('\n');

/** The history as it was written down on a day. */
function cutAt({ own, first, visits }: History, day: number): History {
  const before = (sections: readonly Section[]) =>
    sections
      .filter(section => section.day === undefined || section.day <= day)
      .map(section => ({
        ...section,
        lines: section.lines.filter(one => one.day === undefined || one.day <= day),
      }));
  return {
    own,
    first: before([
      ...first,
      // What has a day of its own may be from before the visit below which it stands.
      ...visits
        .filter(visit => visit.day > day)
        .flatMap(({ seen }) => seen.filter(one => one.day !== undefined)),
    ]),
    visits: visits.filter(visit => visit.day <= day).map(visit => ({ ...visit, seen: before(visit.seen) })),
  };
}

function judged(text: string, day: number) {
  const workspace = { ...buildWorkspace([readFile('a.wood', text)]), now: NOW };
  const file = workspace.files.get('a.wood')!;
  const findings = checkWorkspace(workspace, day);
  const mistake = findings.find(({ grade }) => grade === 'syntax');
  if (mistake) throw new Error(`${mistake.message}\n${text}`);
  const [placed] = file.trees;
  const tree = treeOn(placed!.fact, day);
  return {
    findings: findings.map(({ rule, subject, level }) => [rule, subject, level].join(' ')).sort(),
    figures: [...figuresOf(tree, siteOf(workspace, 'a.wood'), settingsFor(workspace, 'a.wood'))].sort(),
    felled: tree.felled?.value,
    sizes: [tree.diameters, tree.height, tree.crownSpread, tree.lean?.angle]
      .flat()
      .map(size => size?.value.low),
    words: [tree.vigor, tree.soil, tree.age].map(word => word?.value),
    things: [...tree.defects, ...tree.parts, ...tree.targets, ...tree.supports]
      .map(one => {
        const { at, inspection, older, earlier, ...rest } = one;
        return JSON.stringify([rest, earlier.length], (key, value) =>
          key === 'start' || key === 'end' || key === 'inspection' ? undefined : value,
        );
      })
      .sort(),
  };
}

describe('a history of several visits', () => {
  it('is the same in whatever order it is written down', () => {
    fc.assert(
      fc.property(history, fc.gen(), (given, gen) => {
        const shuffle: Shuffle = list =>
          gen(() => fc.shuffledSubarray([...list], { minLength: list.length, maxLength: list.length }));
        expect(judged(written(given, shuffle), NOW)).toEqual(judged(written(given), NOW));
      }),
      { numRuns: RUNS },
    );
  }, 0);

  it('is on a day what it would be if it ended there', () => {
    let cut = 0;
    fc.assert(
      fc.property(history, fc.integer({ min: 0, max: 4500 }), (given, after) => {
        const day = parseDate('2018-04-01')! + after;
        const [whole, before] = [written(given), written(cutAt(given, day))];
        if (whole !== before) cut++;
        expect(judged(whole, day)).toEqual(judged(before, day));
      }),
      { numRuns: 2 * RUNS },
    );
    expect(cut).toBeGreaterThan(RUNS / 2);
  }, 0);
});
