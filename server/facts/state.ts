/**
 * A tree as it is on a day: without what happened later, with the newest reading of everything, and as the work done has
 * left it. Assessments and rules look at such states; names, photographs and exports at the tree as written.
 */

import { HEADS } from '../../grammar/fields.ts';
import { READ_ANEW } from '../../grammar/fields-top.ts';
import { memo } from '../base/memo.ts';
import type { Quantity } from '../base/quantity.ts';
import { lastDayOf, recordOn } from './days.ts';
import { EMPTY_FACTS } from './facts.generated.ts';
import type { Placed } from './placed.ts';
import { hasReadings, joinedReadings, READ_AGAIN } from './readings.ts';
import { membersOf } from './schema.ts';
import { stagesLeft } from './stages.ts';
import type {
  Defect,
  Inspection,
  Prescription,
  ReadAgainFact,
  StemOrLimb,
  Support,
  Tree,
  Work,
  WrittenTree,
} from './types.ts';

type Unfinished<T> = { -readonly [K in keyof T]: T[K] };

/** The members of a tree that an inspection may state anew, but its sizes. */
const READ_MEMBERS = [
  ...new Set(READ_ANEW.flatMap(entry => membersOf(HEADS.get('tree')!.fields.get(entry.word)!))),
].map(({ name }) => name as keyof Inspection & keyof Tree);
const MEASURED = [...new Set(READ_MEMBERS)];

/** Says when the record of a tree ends, and whether it is its own state then. */
export function settle(tree: Unfinished<WrittenTree>): void {
  tree.lastDay = lastDayOf(tree);
  tree.isSettled = isSettled(tree);
}

function isSettled(tree: WrittenTree): boolean {
  if (tree.works.length > 0 && tree.prescriptions.length > 0) return false;
  if (tree.stressed?.none) return false;
  for (const inspection of tree.inspections) if (measures(inspection)) return false;
  for (const { removed } of tree.parts) if (removed) return false;
  for (const { removed } of tree.targets) if (removed) return false;
  for (const { removed } of tree.conductors) if (removed) return false;
  return !hasReadings(tree);
}

function measures(inspection: Inspection): boolean {
  if (inspection.height !== undefined || inspection.diameters.length > 0) return true;
  for (let i = 0; i < MEASURED.length; i++) if (inspection[MEASURED[i]!] !== undefined) return true;
  return false;
}

/** The tree as it is on a day; itself where nothing on record makes another of it. */
export function treeOn(tree: WrittenTree, day: number): Tree {
  if (tree.lastDay <= day) return tree.isSettled ? (tree as Tree) : stateOf(tree);
  return stateBefore(tree, day);
}

/** The tree as its whole record has it. */
export const latestState = (tree: WrittenTree): Tree => treeOn(tree, Number.POSITIVE_INFINITY);

/** The tree as written, of a state of it. */
export const asWritten = (tree: Tree): WrittenTree => tree.written ?? tree;

const stateBefore = memo((tree: WrittenTree, day: number): Tree => {
  const record: Unfinished<WrittenTree> = recordOn(tree, day);
  record.hasLater = true;
  settle(record);
  return record.isSettled ? (record as Tree) : stateOf(record);
});

const stateOf = memo((written: WrittenTree): Tree => {
  // Of the hidden class of trees as written.
  const tree = Object.assign(EMPTY_FACTS.tree!(written.at), written) as Unfinished<Tree>;
  const dated = new Map<string, number | undefined>();
  tree.written = written;
  tree.dated = dated;
  // The state of a state is itself.
  tree.isSettled = true;
  for (const kind of READ_AGAIN)
    (tree as Record<string, unknown>)[kind.list] = joinedReadings(
      written[kind.list] as readonly ReadAgainFact[],
      kind,
    );
  if (written.inspections.length > 0) readInspections(tree, written.inspections, dated);
  if (tree.stressed?.none) tree.stressed = undefined;
  if (written.works.length > 0) doWork(tree, written, dated);
  withoutRemoved(tree);
  return tree;
});

const thickness = ({ diameters }: Inspection): number =>
  diameters.reduce((sum, { value }) => sum + value.low, 0);

/** Gravest last; of other words the later one in the table. */
const SOIL = ['firm', 'unseen', 'compacted', 'wet', 'cracked', 'heaving'];

/**
 * Which of two inspections of one day counts, since the place in the file says nothing: the graver. Below zero, the one
 * at hand does.
 */
const SAME_DAY: Readonly<Record<string, (one: Inspection, other: Inspection) => number>> = {
  diameters: (one, other) => thickness(one) - thickness(other),
  height: (one, other) => other.height!.value.high - one.height!.value.high,
  taper: (one, other) => one.taper!.diameter.value.low - other.taper!.diameter.value.low,
  crownBase: (one, other) => one.crownBase!.value.low - other.crownBase!.value.low,
  crownSpread: (one, other) => other.crownSpread!.value.high - one.crownSpread!.value.high,
  liveCrown: (one, other) => one.liveCrown!.value.low - other.liveCrown!.value.low,
  lean: (one, other) => other.lean!.angle.value.high - one.lean!.angle.value.high,
  soil: (one, other) => SOIL.indexOf(other.soil!.value) - SOIL.indexOf(one.soil!.value),
  age: (one, other) => placeOf('age', other.age!) - placeOf('age', one.age!),
  vigor: (one, other) => placeOf('vigor', other.vigor!) - placeOf('vigor', one.vigor!),
  stressed: (one, other) => Number(one.stressed!.none) - Number(other.stressed!.none),
  dieback: (one, other) => other.dieback!.value.high - one.dieback!.value.high,
};

function placeOf(word: string, { value }: Placed<string>): number {
  const form = HEADS.get('tree')!.fields.get(word)!.values.get(word)!;
  return form.kind === 'choice' ? form.words.indexOf(value) : 0;
}

/** What a tree states without a day is older than what any inspection says. */
function readInspections(
  tree: Unfinished<Tree>,
  inspections: readonly Inspection[],
  dated: Map<string, number | undefined>,
): void {
  const newest = (name: 'diameters' | keyof Inspection, states: (one: Inspection) => boolean) => {
    let found: Inspection | undefined;
    for (const one of inspections) {
      if (!states(one)) continue;
      if (
        !found ||
        one.date.value > found.date.value ||
        (one.date.value === found.date.value && SAME_DAY[name]!(one, found) < 0)
      )
        found = one;
    }
    if (found) dated.set(name, found.date.value);
    return found;
  };
  const taped = newest('diameters', ({ diameters }) => diameters.length > 0);
  if (taped) {
    tree.diameters = taped.diameters;
    tree.measuredAt = taped.measuredAt;
  }
  const tall = newest('height', ({ height }) => height !== undefined);
  if (tall) tree.height = tall.height;
  for (const name of MEASURED) {
    const read = newest(name, one => one[name] !== undefined);
    if (!read) continue;
    // Where a lean goes, and how it develops, holds until another is stated or measured.
    if (name === 'lean') tree.lean = leanOf(inspections, read, tree.lean);
    else (tree as Record<string, unknown>)[name] = read[name];
  }
}

/** Courses of a lean that reassure. */
const CALMING: ReadonlySet<string | undefined> = new Set(['steady', 'corrected']);

function leanOf(
  inspections: readonly Inspection[],
  { lean, date }: Inspection,
  own: Tree['lean'],
): Tree['lean'] {
  const before = [...inspections]
    .filter(one => one.lean && one.date.value < date.value)
    .sort((a, b) => b.date.value - a.date.value)
    .map(one => one.lean);
  const all = [lean, ...before, own];
  const told = all.find(one => one?.course !== undefined);
  const isSteeper = told !== undefined && told !== lean && lean!.angle.value.high > told.angle.value.high;
  return {
    ...lean!,
    toward: all.find(one => one?.toward !== undefined)?.toward,
    // A steeper lean is no longer the one that was called steady.
    course: isSteeper && CALMING.has(told.course) ? undefined : told?.course,
  };
}

/** What the work done, in the order of its days, has made of the tree. */
function doWork(tree: Unfinished<Tree>, written: WrittenTree, dated: Map<string, number | undefined>): void {
  for (const work of [...written.works].sort((a, b) => a.date.value - b.date.value)) {
    const prescription = written.prescriptions.find(({ id }) => id.value === work.prescription.value);
    if (!prescription) continue;
    const isLast =
      !work.unfinished &&
      stagesLeft(written, prescription) === 0 &&
      !written.works.some(
        other => other.prescription.value === work.prescription.value && other.date.value > work.date.value,
      );
    resize(tree, work, isLast ? prescription : undefined, dated);
    if (!isLast) continue;
    shorten(tree, work, prescription);
    removeParts(tree, work, prescription);
    support(tree, work, prescription);
    takeDown(tree, work, prescription);
    if (prescription.kind.value === 'fell' && prescription.remove.length === 0)
      tree.felled = tree.felled ?? { ...work.date };
  }
}

/** The sizes that work left: as it states them, else as they were prescribed and nothing says otherwise. */
function resize(
  tree: Unfinished<Tree>,
  work: Work,
  prescription: Prescription | undefined,
  dated: Map<string, number | undefined>,
): void {
  const day = work.date.value;
  const put = (name: 'height' | 'crownSpread' | 'crownBase', size: Placed<Quantity> | undefined) => {
    if (!size || (dated.get(name) ?? Number.NEGATIVE_INFINITY) > day) return;
    tree[name] = size;
    dated.set(name, day);
  };
  put('height', work.height ?? prescription?.height?.to);
  put('crownSpread', work.spread ?? prescription?.spread?.to);
  put('crownBase', work.base ?? prescription?.base?.to);
}

/** Whether a part was read again after a day. */
const isReadAfter = (part: StemOrLimb, day: number): boolean => (part.seen ?? Number.NEGATIVE_INFINITY) > day;

function shorten(tree: Unfinished<Tree>, work: Work, { shortened }: Prescription): void {
  if (shortened.length === 0) return;
  tree.parts = tree.parts.map(part => {
    const cut = shortened.find(one => one.part.value === part.name.value);
    if (!cut || (isReadAfter(part, work.date.value) && !part.older?.has('length'))) return part;
    const older = new Map(part.older);
    older.set('length', work.date.value);
    return { ...part, length: cut.to, older };
  });
}

function removeParts(tree: Unfinished<Tree>, { date }: Work, { remove }: Prescription): void {
  if (remove.length === 0) return;
  const names = new Set(remove.map(({ value }) => value));
  tree.parts = tree.parts.map(part =>
    names.has(part.name.value) && !part.removed && !isReadAfter(part, date.value)
      ? { ...part, removed: date }
      : part,
  );
}

/** What is on the ground once a tree is cleaned of it. */
const TAKEN_DOWN: ReadonlySet<string> = new Set(['dead wood', 'hanger', 'loose bark']);

function takeDown(tree: Unfinished<Tree>, { date }: Work, { kind, id, for: causes }: Prescription): void {
  if (kind.value !== 'clean' || causes.length === 0) return;
  const names = new Set(causes.map(({ value }) => value));
  tree.defects = tree.defects.map((defect): Defect => {
    const isDown =
      names.has(defect.id.value) &&
      TAKEN_DOWN.has(defect.kind.value) &&
      !defect.closed &&
      (defect.seen ?? Number.NEGATIVE_INFINITY) <= date.value;
    return isDown
      ? { ...defect, closed: date, closedBecause: { ...date, value: `clean ${id.value} done` } }
      : defect;
  });
}

const SUPPORTS: ReadonlySet<string> = new Set(['cable', 'brace', 'prop', 'guy']);

/** A cable that was prescribed is there once the work is done, unless a record of its own says so. */
function support(tree: Unfinished<Tree>, work: Work, prescription: Prescription): void {
  const { kind, id, fixed, slope, rated, breaking } = prescription;
  if (!SUPPORTS.has(kind.value)) return;
  const parts = new Set(tree.parts.map(({ name }) => name.value));
  const holds = prescription.for.filter(({ value }) => parts.has(value));
  const names = (held: Support['holds']): string =>
    held
      .map(({ value }) => value)
      .sort()
      .join('\n');
  const isRecorded = tree.supports.some(
    one =>
      one.kind.value === kind.value &&
      (one.installed?.value === work.date.value ||
        one.id.value === id.value ||
        names(one.holds) === names(holds)),
  );
  if (isRecorded) return;
  const put = EMPTY_FACTS.support!(work.at) as Unfinished<Support>;
  put.id = id;
  put.kind = kind as Support['kind'];
  put.holds = holds;
  put.fixed = fixed;
  put.slope = slope;
  put.rated = rated;
  put.breaking = breaking;
  put.installed = work.date;
  put.installedBy = work.by;
  tree.supports = [...tree.supports, put];
}

/** What is gone is there no longer, nor is what was wrong with it. */
function withoutRemoved(tree: Unfinished<Tree>): void {
  const isThere = ({ removed }: { readonly removed: unknown }) => removed === undefined;
  const gone = tree.parts.filter(({ removed }) => removed);
  if (gone.length > 0) {
    tree.parts = tree.parts.filter(isThere);
    const there = new Set(tree.parts.map(({ name }) => name.value));
    const removed = new Map(gone.map(part => [part.name.value, part]));
    tree.defects = tree.defects.map((defect): Defect => {
      const name = defect.part?.value;
      const part = name === undefined || there.has(name) ? undefined : removed.get(name);
      if (!part || defect.closed || (defect.seen ?? Number.NEGATIVE_INFINITY) > part.removed!.value)
        return defect;
      const because = { ...part.removed!, value: `${part.kind} ${part.name.value} removed` };
      return { ...defect, closed: part.removed, closedBecause: because };
    });
  }
  if (!tree.targets.every(isThere)) tree.targets = tree.targets.filter(isThere);
  if (!tree.conductors.every(isThere)) tree.conductors = tree.conductors.filter(isThere);
}
