/** A tree over a period: what was done, what changed, and what is due. */

import { type Quantity, showQuantity } from '../base/quantity.ts';
import { listed } from '../base/words.ts';
import type { Settings } from '../facts/settings.ts';
import { treeOn } from '../facts/state.ts';
import type { Defect, Placed, Site, Tree, WrittenTree } from '../facts/types.ts';
import { defectName, isOpen } from './evidence.ts';
import { jobName } from './prescriptions.ts';
import { type Promised, promisesOf } from './promises.ts';
import { signsOf } from './signs.ts';

interface Done {
  readonly day: number;
  readonly kind: 'work' | 'inspection' | 'wildlife' | 'prescription' | 'felled';
  readonly what: string;
}

export interface Change {
  /** `height`, `cavity A: depth`. */
  readonly what: string;
  /** Undefined where there was nothing. */
  readonly before: string | undefined;
  readonly after: string | undefined;
}

export interface Season {
  readonly tree: Tree;
  readonly from: number;
  readonly to: number;
  /** No inspection or work is on record from before it. */
  readonly isNew: boolean;
  /** By day. */
  readonly done: readonly Done[];
  readonly changed: readonly Change[];
  /** Overdue, without a day, or due within a year from its end. */
  readonly due: readonly Promised[];
}

interface Context {
  readonly site: Site | undefined;
  readonly settings: Settings;
}

/** Days ahead that count as due. */
const AHEAD = 365;

/** From a day to a day, both included. */
export function seasonOf(written: WrittenTree, from: number, to: number, context: Context): Season {
  const before = treeOn(written, from - 1);
  const tree = treeOn(written, to);
  const isNew = !hasVisits(before) && hasVisits(tree);
  const changed = isNew
    ? []
    : [...sizesIn(before, tree), ...defectsIn(before, tree), ...standingsIn(before, tree, context)];
  const due = promisesOf({ ...context, tree, today: to });
  return {
    tree,
    from,
    to,
    isNew,
    done: doneIn(tree, from),
    changed,
    due: due.filter(({ due: day }) => day === undefined || day <= to + AHEAD),
  };
}

/** Whether there is something to tell of. */
export const isEventful = ({ done, changed, due }: Season): boolean =>
  done.length + changed.length + due.length > 0;

const hasVisits = ({ inspections, works }: Tree): boolean => inspections.length + works.length > 0;

const by = (who: Placed<string> | undefined): string => (who ? `, by ${who.value}` : '');

function doneIn(tree: Tree, from: number): readonly Done[] {
  const inspection = (day: number, what: string): Done => ({ day, kind: 'inspection', what });
  const all: readonly Done[] = [
    ...tree.works.map(({ date, prescription, by: who, unfinished }): Done => {
      const job = tree.prescriptions.find(({ id }) => id.value === prescription.value);
      const name = job ? jobName(job) : `work under ${prescription.value}`;
      const left = unfinished ? `; left: ${unfinished.value}` : '';
      return { day: date.value, kind: 'work', what: `${name}${by(who)}${left}` };
    }),
    ...tree.inspections.map(({ date, from: where, by: who }) =>
      inspection(date.value, `inspection from ${where.value}${by(who)}`),
    ),
    ...tree.followUps.flatMap(({ done, kind, id, by: who }) =>
      done ? [inspection(done.value, `${kind.value} ${id.value}${by(who)}`)] : [],
    ),
    ...tree.drillings.map(({ date, defect }) =>
      inspection(date.value, `resistance drilling of ${defect.value}`),
    ),
    ...tree.tomograms.map(({ date, defect }) => inspection(date.value, `tomogram of ${defect.value}`)),
    ...tree.pullTests.map(({ date }) => inspection(date.value, 'pull test')),
    ...tree.nestChecks.map(
      ({ date, by: who }): Done => ({ day: date.value, kind: 'wildlife', what: `nest check${by(who)}` }),
    ),
    ...tree.batChecks.map(
      ({ date, by: who }): Done => ({ day: date.value, kind: 'wildlife', what: `bat check${by(who)}` }),
    ),
    ...tree.prescriptions.flatMap((prescription): readonly Done[] =>
      prescription.dated === undefined
        ? []
        : [{ day: prescription.dated, kind: 'prescription', what: `prescribed: ${jobName(prescription)}` }],
    ),
    ...(tree.felled ? [{ day: tree.felled.value, kind: 'felled' as const, what: 'felled' }] : []),
  ];
  return all.filter(({ day }) => day >= from).sort((a, b) => a.day - b.day);
}

const changeOf = (what: string, before: string | undefined, after: string | undefined): readonly Change[] =>
  before === after ? [] : [{ what, before, after }];

const shown = (quantity: Placed<Quantity> | undefined): string | undefined =>
  quantity && showQuantity(quantity.value);

function sizesIn(before: Tree, after: Tree): readonly Change[] {
  if (after.felled) return [];
  const change = (what: string, of: (tree: Tree) => string | undefined) =>
    changeOf(what, of(before), of(after));
  return [
    ...change('diameter', ({ diameters }) =>
      diameters.length === 0 ? undefined : diameters.map(({ value }) => showQuantity(value)).join(', '),
    ),
    ...change('height', ({ height }) => shown(height)),
    ...change('crown spread', ({ crownSpread }) => shown(crownSpread)),
    ...change('crown base', ({ crownBase }) => shown(crownBase)),
    ...change('lean', ({ lean }) => shown(lean?.angle)),
    ...change('dieback', ({ dieback }) => shown(dieback)),
    ...change('vigor', ({ vigor }) => vigor?.value),
    ...change('soil at the collar', ({ soil }) => soil?.value),
  ];
}

function defectsIn(before: Tree, after: Tree): readonly Change[] {
  const known = new Map(before.defects.map(one => [defectName(one), one]));
  return after.defects.flatMap((now): readonly Change[] => {
    const name = defectName(now);
    const was = known.get(name);
    if (!was) return [{ what: name, before: undefined, after: isOpen(now) ? 'found' : endOf(now) }];
    if (isOpen(was) && !isOpen(now)) return [{ what: name, before: 'open', after: endOf(now) }];
    const change = (what: string, of: (defect: Defect) => string | undefined) =>
      changeOf(`${name}: ${what}`, of(was), of(now));
    return [
      ...change('depth', ({ depth }) => shown(depth)),
      ...change('sound wall', ({ walls }) =>
        walls.length === 0
          ? undefined
          : walls.map(({ thickness }) => showQuantity(thickness.value)).join(', '),
      ),
      ...change('opening', ({ opening }) => (opening?.closed ? 'closed' : shown(opening?.width))),
      ...change('length', ({ length }) => shown(length)),
      ...change('width', ({ width }) => shown(width)),
      ...change('share', ({ share }) => share && `${showQuantity(share.share.value)} of ${share.of}`),
      ...change('state', ({ state }) => state?.value),
    ];
  });
}

const endOf = ({ state, closed, closedBecause }: Defect): string =>
  closed ? `closed${closedBecause ? ` (${closedBecause.value})` : ''}` : (state?.value ?? 'gone');

/** Verdicts that are other than they were. */
function standingsIn(before: Tree, after: Tree, context: Context): readonly Change[] {
  if (after.felled) return [];
  const known = new Map(signsOf({ ...context, tree: before }).map(({ name, standing }) => [name, standing]));
  return signsOf({ ...context, tree: after }).flatMap(({ name, standing }) => {
    const was = known.get(name);
    return was === undefined ? [] : changeOf(`${name}: verdict`, was, standing);
  });
}

/** `12 trees: 5 inspected, 3 worked on, 1 felled, 4 changed and 2 with something overdue`, of those that stood then. */
export function seasonCounts(all: readonly Season[]): string {
  const seasons = all.filter(({ tree, from }) => !tree.felled || tree.felled.value >= from);
  const count = (has: (season: Season) => boolean) => seasons.filter(has).length;
  const did = (kind: Done['kind']) => count(({ done }) => done.some(one => one.kind === kind));
  return `${seasons.length} ${seasons.length === 1 ? 'tree' : 'trees'}: ${listed([
    `${did('inspection')} inspected`,
    `${did('work')} worked on`,
    `${did('felled')} felled`,
    `${count(({ changed, isNew }) => isNew || changed.length > 0)} changed or new`,
    `${count(({ due, to }) => due.some(one => one.due !== undefined && one.due < to))} with something overdue`,
  ])}`;
}
