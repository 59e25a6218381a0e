/** What is to be done and was done: prescriptions, work, follow-ups, and exceptions on record. */

import type { BlockLine, BlockSection } from '../../grammar/syntax.ts';
import {
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
  quantities,
  quantity,
  type Reading,
  says,
  speciesOf,
  startOf,
  textOf,
  type Whole,
  window,
  word,
  words,
} from './lines.ts';
import type { Accept, FollowUp, Inspection, Prescription, SizeChange, Work } from './types.ts';

export function readPrescription(
  reading: Reading,
  section: BlockSection,
  last: Inspection | undefined,
): Prescription {
  const head = headLine(reading, section);
  const prescription: Whole<Prescription> = {
    at: contentOf(head),
    notes: notesOf(reading, section),
    id: nameOr(head, 'name'),
    kind: nameOr(head, 'kind'),
    height: undefined,
    spread: undefined,
    base: undefined,
    dose: undefined,
    cutDiameter: undefined,
    laterals: undefined,
    methods: NONE,
    painted: undefined,
    for: NONE,
    remove: NONE,
    between: undefined,
    priority: undefined,
    stages: undefined,
    because: undefined,
    by: undefined,
    dated: last?.date.value,
    crew: undefined,
    exclusion: undefined,
    piece: undefined,
    takedown: undefined,
    logs: NONE,
    stump: undefined,
    replacement: undefined,
    permit: undefined,
    replaces: undefined,
    alternatives: NONE,
    withdrawn: undefined,
  };
  for (const line of fieldLines(reading, section)) {
    if (!readSize(prescription, line)) readTerms(prescription, line);
  }
  return prescription as Prescription;
}

/** Fields about the size of the tree and of what is taken from it; false for any other. */
function readSize(prescription: Draft<Prescription>, line: BlockLine): boolean {
  switch (line.word) {
    case 'height':
    case 'spread':
    case 'base':
      prescription[line.word] = change(line);
      return true;
    case 'dose':
      prescription.dose = quantity(line, 'dose');
      return true;
    case 'cuts':
      prescription.cutDiameter = quantity(line, 'diameter');
      prescription.laterals = quantity(line, 'lateral');
      return true;
    case 'method':
      prescription.methods = words(line, 'method');
      return true;
    case 'paint':
      prescription.painted = textOf(line, 'paint') !== 'none';
      return true;
    case 'remove':
      prescription.remove = words(line, 'part');
      return true;
    case 'stages':
      prescription.stages = quantity(line, 'stages');
      return true;
    case 'exclusion':
      prescription.exclusion = quantity(line, 'radius');
      return true;
    case 'piece':
      prescription.piece = piece(line);
      return true;
    case 'takedown':
      prescription.takedown = takedown(line);
      return true;
    case 'logs':
      prescription.logs = quantities(line, 'length');
      return true;
    case 'stump':
      prescription.stump = stump(line);
      return true;
    default:
      return false;
  }
}

/** Fields about why, when, by whom and under which permit. */
function readTerms(prescription: Draft<Prescription>, line: BlockLine): void {
  switch (line.word) {
    case 'for':
      prescription.for = words(line, 'cause');
      break;
    case 'between':
      prescription.between = window(line, 'window');
      break;
    case 'priority':
      prescription.priority = word(line, 'priority');
      break;
    case 'because':
      prescription.because = word(line, 'text');
      break;
    case 'by':
      prescription.by = word(line, 'person');
      break;
    case 'dated':
      prescription.dated = dayOf(line, 'date');
      break;
    case 'with':
      prescription.crew = word(line, 'crew');
      break;
    case 'replace':
      prescription.replacement = replacement(line);
      break;
    case 'permit':
      prescription.permit = permit(line);
      break;
    case 'replaces':
      prescription.replaces = word(line, 'prescription');
      break;
    case 'or':
      prescription.alternatives = words(line, 'prescription');
      break;
    case 'withdrawn':
      prescription.withdrawn = day(line, 'date');
      break;
  }
}

const change = (line: BlockLine): SizeChange => ({
  start: startOf(line),
  end: endOf(line),
  from: quantity(line, 'from')!,
  to: quantity(line, 'to')!,
});

function piece(line: BlockLine): NonNullable<Prescription['piece']> {
  const draft: Draft<NonNullable<Prescription['piece']>> = { start: startOf(line), end: endOf(line) };
  draft.mass = quantity(line, 'mass');
  draft.length = quantity(line, 'length');
  draft.diameter = quantity(line, 'diameter');
  return draft as NonNullable<Prescription['piece']>;
}

function takedown(line: BlockLine): NonNullable<Prescription['takedown']> {
  const toward = bearing(line, 'toward');
  return {
    start: startOf(line),
    end: endOf(line),
    how: says(line, 'crane') ? 'by crane' : toward === undefined ? 'dismantled' : 'whole',
    ...(toward === undefined ? {} : { toward }),
  };
}

function stump(line: BlockLine): NonNullable<Prescription['stump']> {
  const size = quantity(line, 'depth') ?? quantity(line, 'height');
  return {
    start: startOf(line),
    end: endOf(line),
    what: says(line, 'grind') ? 'grind' : 'leave',
    ...(size ? { size } : {}),
  };
}

/** `none` is a count of 0. */
function replacement(line: BlockLine): NonNullable<Prescription['replacement']> {
  const draft: Draft<NonNullable<Prescription['replacement']>> = {
    start: startOf(line),
    end: endOf(line),
    count: quantity(line, 'count')?.value.low ?? 0,
  };
  draft.species = speciesOf(line, 'species');
  draft.text = textOf(line, 'text');
  return draft as NonNullable<Prescription['replacement']>;
}

function permit(line: BlockLine): NonNullable<Prescription['permit']> {
  const until = day(line, 'until');
  return { number: word(line, 'permit')!, ...(until ? { until } : {}) };
}

/** Undefined where the head does not give its day. */
export function readWork(reading: Reading, section: BlockSection): Work | undefined {
  const head = headLine(reading, section);
  const date = day(head, 'date');
  if (!date) return undefined;
  const work: Draft<Work> = {
    at: contentOf(head),
    notes: notesOf(reading, section),
    prescription: nameOr(head, 'prescription'),
    date,
  };
  for (const line of fieldLines(reading, section)) {
    switch (line.word) {
      case 'by':
        work.by = word(line, 'person');
        break;
      case 'with':
        work.crew = word(line, 'crew');
        break;
      case 'dose':
      case 'height':
      case 'spread':
        work[line.word] = quantity(line, line.word);
        break;
      case 'cuts':
        work.cutDiameter = quantity(line, 'diameter');
        work.laterals = quantity(line, 'lateral');
        break;
    }
  }
  return work as Work;
}

export function readFollowUp(reading: Reading, section: BlockSection): FollowUp {
  const head = headLine(reading, section);
  const followUp: Draft<FollowUp> = {
    at: contentOf(head),
    notes: notesOf(reading, section),
    id: nameOr(head, 'name'),
    kind: nameOr(head, 'kind'),
    of: NONE,
  };
  for (const line of fieldLines(reading, section)) {
    switch (line.word) {
      case 'of':
        followUp.of = words(line, 'cause');
        break;
      case 'due':
      case 'done':
        followUp[line.word] = day(line, 'date');
        break;
      case 'by':
        followUp.by = word(line, 'person');
        break;
    }
  }
  return followUp as FollowUp;
}

export function readAccept(reading: Reading, section: BlockSection): Accept {
  const head = headLine(reading, section);
  const accept: Draft<Accept> = { at: contentOf(head), rule: nameOr(head, 'rule') };
  accept.subject = word(head, 'subject');
  for (const line of fieldLines(reading, section)) {
    switch (line.word) {
      case 'until':
        accept.until = day(line, 'until');
        break;
      case 'by':
        accept.by = word(line, 'person');
        break;
      case 'because':
        accept.because = word(line, 'text');
        break;
    }
  }
  return accept as Accept;
}
