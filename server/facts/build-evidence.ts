/** What was seen: inspections, stems and limbs, defects. */

import type { BlockLine, BlockSection } from '../../grammar/syntax.ts';
import type { Quantity } from '../base/quantity.ts';
import { readSize } from './build-sizes.ts';
import {
  append,
  bearing,
  contentOf,
  type Draft,
  day,
  dayOf,
  endOf,
  fieldLines,
  headLine,
  NONE,
  nameOr,
  notesOf,
  photo,
  quantity,
  type Reading,
  says,
  species,
  startOf,
  textOf,
  vantage,
  type Whole,
  word,
  words,
} from './lines.ts';
import type { Defect, Inspection, Joined, Placed, StemOrLimb } from './types.ts';

/** Undefined where the head does not give its day. */
export function readInspection(reading: Reading, section: BlockSection): Inspection | undefined {
  const head = headLine(reading, section);
  const date = day(head, 'date');
  if (!date) return undefined;
  const inspection: Whole<Inspection> = {
    at: contentOf(head),
    notes: notesOf(reading, section),
    date,
    from: vantage(head),
    by: undefined,
    level: undefined,
    flown: undefined,
    diameters: NONE,
    measuredAt: undefined,
    height: undefined,
    tools: NONE,
    unseen: NONE,
    photos: NONE,
  };
  for (const line of fieldLines(reading, section)) {
    if (readSize(inspection, line)) continue;
    switch (line.word) {
      case 'by':
        inspection.by = word(line, 'person');
        break;
      case 'level':
        inspection.level = word(line, 'level');
        break;
      case 'flown':
        inspection.flown = flown(line);
        break;
      case 'with':
        inspection.tools = words(line, 'tool');
        break;
      case 'unseen':
        inspection.unseen = append(inspection.unseen, word(line, 'text')!);
        break;
      case 'photo':
        inspection.photos = append(inspection.photos, photo(line));
        break;
    }
  }
  return inspection as Inspection;
}

function flown(line: BlockLine): NonNullable<Inspection['flown']> {
  const draft: Draft<NonNullable<Inspection['flown']>> = {
    start: startOf(line),
    end: endOf(line),
    height: quantity(line, 'height')!,
    overPeople: says(line, 'over'),
  };
  draft.permission = textOf(line, 'permission');
  draft.time = textOf(line, 'time');
  draft.standOff = quantity(line, 'standoff');
  return draft as NonNullable<Inspection['flown']>;
}

export function readPart(reading: Reading, section: BlockSection): StemOrLimb {
  const head = headLine(reading, section);
  const part: Draft<StemOrLimb> = {
    at: contentOf(head),
    notes: notesOf(reading, section),
    kind: section.word as StemOrLimb['kind'],
    name: nameOr(head, 'name'),
  };
  for (const line of fieldLines(reading, section)) {
    switch (line.word) {
      case 'from':
        part.from = quantity(line, 'height');
        part.facing = bearing(line, 'facing');
        break;
      case 'diameter':
        part.diameter = quantity(line, 'diameter');
        break;
      case 'height':
        part.height = quantity(line, 'height');
        break;
      case 'length':
        part.length = quantity(line, 'length');
        break;
      case 'union':
        part.union = word(line, 'union');
        part.unionWith = word(line, 'with');
        break;
      case 'lean':
        part.lean = quantity(line, 'lean');
        break;
      case 'crown':
        part.crownBase = quantity(line, 'base');
        part.crownSpread = quantity(line, 'spread');
        break;
    }
  }
  return part as StemOrLimb;
}

export function readDefect(reading: Reading, section: BlockSection, last: Inspection | undefined): Defect {
  const head = headLine(reading, section);
  const defect: Whole<Defect> = {
    at: contentOf(head),
    notes: notesOf(reading, section),
    id: nameOr(head, 'name'),
    kind: nameOr(head, 'kind'),
    part: undefined,
    height: undefined,
    facing: undefined,
    seen: last?.date.value,
    inspection: last,
    state: undefined,
    diameter: undefined,
    across: undefined,
    bark: undefined,
    opening: undefined,
    depth: undefined,
    walls: NONE,
    length: undefined,
    width: undefined,
    share: undefined,
    species: undefined,
    closed: undefined,
    photos: NONE,
  };
  for (const line of fieldLines(reading, section)) {
    if (line.word === 'photo') defect.photos = append(defect.photos, photo(line));
    else readDefectField(defect, line);
  }
  return defect as Defect;
}

function readDefectField(defect: Draft<Defect>, line: BlockLine): void {
  switch (line.word) {
    case 'on':
      defect.part = word(line, 'part');
      defect.height = quantity(line, 'height');
      defect.facing = bearing(line, 'facing');
      break;
    case 'seen':
      defect.seen = dayOf(line, 'date');
      break;
    case 'state':
      defect.state = word(line, 'state');
      break;
    case 'diameter':
      defect.diameter = quantity(line, 'diameter');
      defect.across = quantity(line, 'across');
      break;
    case 'bark':
      defect.bark = quantity(line, 'bark');
      break;
    case 'opening':
      defect.opening = opening(line);
      break;
    case 'depth':
      defect.depth = quantity(line, 'depth');
      break;
    case 'wall':
      defect.walls = walls(line);
      break;
    case 'length':
      defect.length = quantity(line, 'length');
      break;
    case 'width':
      defect.width = quantity(line, 'width');
      break;
    case 'share':
      defect.share = { share: quantity(line, 'share')!, of: textOf(line, 'of')! };
      break;
    case 'species':
      defect.species = species(line, 'species');
      break;
    case 'closed':
      defect.closed = day(line, 'date');
      break;
  }
}

function opening(line: BlockLine): NonNullable<Defect['opening']> {
  const draft: Draft<NonNullable<Defect['opening']>> = {
    start: startOf(line),
    end: endOf(line),
    closed: says(line, 'closed'),
  };
  draft.width = quantity(line, 'width');
  draft.tall = quantity(line, 'tall');
  return draft as NonNullable<Defect['opening']>;
}

/** Each reading of the wall takes the bearing that follows it. */
function walls(line: BlockLine): Defect['walls'] {
  const read: { thickness: Placed<Quantity>; bearing?: number }[] = [];
  for (const value of line.values) {
    if (value.type === 'quantity') {
      const start = line.start + value.start;
      read.push({ thickness: { value: value.quantity, start, end: line.start + value.end } });
    } else if (value.type === 'bearing') read[read.length - 1]!.bearing = value.degrees;
  }
  return read;
}

/** A defect that names the day on which it was seen belongs to the inspection of that day, wherever it stands. */
export function resolveSeen(defect: Draft<Defect>, inspections: readonly Inspection[]): void {
  if (defect.seen === defect.inspection?.date.value) return;
  defect.inspection = inspections.findLast(({ date }) => date.value === defect.seen);
}

export function readJoined(reading: Reading, section: BlockSection, last: Inspection | undefined): Joined {
  const head = headLine(reading, section);
  const seen = fieldLines(reading, section).find(line => line.word === 'seen');
  const day = seen ? dayOf(seen, 'date') : last?.date.value;
  const notes = notesOf(reading, section);
  return {
    at: contentOf(head),
    ...(notes ? { notes } : {}),
    defects: words(head, 'defect'),
    // Where the head is damaged, the weakest claim stands.
    state: (textOf(head, 'state') ?? 'suspected') as Joined['state'],
    ...(day === undefined ? {} : { seen: day }),
  };
}
