/** The fact of a tree block: its own fields, and the heads inside it in the order of the text. */

import type { BlockLine, BlockSection } from '../../grammar/syntax.ts';
import { readDefect, readInspection, readJoined, readPart, resolveSeen } from './build-evidence.ts';
import { fillSizes, readSize } from './build-sizes.ts';
import { readConductor, readRisk, readTarget, readView } from './build-surroundings.ts';
import { readBatCheck, readNestCheck } from './build-wildlife.ts';
import { readAccept, readFollowUp, readPrescription, readWork } from './build-work.ts';
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
  position,
  quantity,
  type Reading,
  species,
  startOf,
  textOf,
  type Whole,
  word,
} from './lines.ts';
import type { Defect, Inspection, Tree } from './types.ts';

export function readTree(reading: Reading, sections: readonly BlockSection[]): Tree {
  const head = headLine(reading, sections[0]!);
  const tree: Whole<Tree> = {
    kind: 'tree',
    at: contentOf(head),
    notes: notesOf(reading, sections[0]!),
    repeated: undefined,
    damage: undefined,
    tag: nameOr(head, 'tag'),
    name: word(head, 'name'),
    species: undefined,
    position: undefined,
    diameters: NONE,
    measuredAt: undefined,
    height: undefined,
    crownBase: undefined,
    crownSpread: undefined,
    liveCrown: undefined,
    lean: undefined,
    soil: undefined,
    age: undefined,
    vigor: undefined,
    stressed: undefined,
    protection: undefined,
    formerly: NONE,
    felled: undefined,
    photos: NONE,
    inspections: NONE,
    parts: NONE,
    defects: NONE,
    joined: NONE,
    targets: NONE,
    risks: NONE,
    conductors: NONE,
    nestChecks: NONE,
    batChecks: NONE,
    views: NONE,
    prescriptions: NONE,
    works: NONE,
    followUps: NONE,
    accepts: NONE,
  };
  for (const line of fieldLines(reading, sections[0]!)) readField(tree, line);
  let inspection: Inspection | undefined;
  for (let i = 1; i < sections.length; i++) {
    const section = sections[i]!;
    if (section.word === 'inspection') {
      const read = readInspection(reading, section);
      if (read) tree.inspections = append(tree.inspections, (inspection = read));
    } else readSection(tree, reading, section, inspection);
  }
  fillSizes(tree, tree.inspections);
  // In place: a copy would be of another kind to whoever reads very many.
  for (const defect of tree.defects) resolveSeen(defect as Draft<Defect>, tree.inspections);
  return tree as Tree;
}

function readField(tree: Draft<Tree>, line: BlockLine): void {
  if (readSize(tree, line)) return;
  switch (line.word) {
    case 'species':
      tree.species = species(line, 'species');
      break;
    case 'position':
      tree.position = position(line);
      break;
    case 'crown':
      tree.crownBase = quantity(line, 'base');
      tree.crownSpread = quantity(line, 'spread');
      break;
    case 'live-crown':
      tree.liveCrown = quantity(line, 'ratio');
      break;
    case 'lean':
      tree.lean = lean(line);
      break;
    case 'soil':
      tree.soil = word(line, 'soil');
      break;
    case 'age':
      tree.age = word(line, 'age');
      break;
    case 'vigor':
    case 'vigour':
      tree.vigor ??= word(line, 'vigor');
      break;
    case 'stressed':
      tree.stressed = stressed(line);
      break;
    case 'protected':
      tree.protection = protection(line);
      break;
    case 'formerly':
      tree.formerly = append(tree.formerly, word(line, 'tag')!);
      break;
    case 'felled':
      tree.felled = day(line, 'date');
      break;
    case 'photo':
      tree.photos = append(tree.photos, word(line, 'path')!);
      break;
  }
}

function readSection(
  tree: Draft<Tree>,
  reading: Reading,
  section: BlockSection,
  last: Inspection | undefined,
): void {
  switch (section.word) {
    case 'stem':
    case 'limb':
      tree.parts = append(tree.parts, readPart(reading, section));
      break;
    case 'defect':
      tree.defects = append(tree.defects, readDefect(reading, section, last));
      break;
    case 'joined':
      tree.joined = append(tree.joined, readJoined(reading, section, last));
      break;
    case 'target':
      tree.targets = append(tree.targets, readTarget(reading, section));
      break;
    case 'risk':
      tree.risks = append(tree.risks, readRisk(reading, section, last));
      break;
    case 'conductor':
      tree.conductors = append(tree.conductors, readConductor(reading, section));
      break;
    case 'nest check':
      tree.nestChecks = keep(tree.nestChecks, readNestCheck(reading, section));
      break;
    case 'bat check':
      tree.batChecks = keep(tree.batChecks, readBatCheck(reading, section));
      break;
    case 'view':
      tree.views = append(tree.views, readView(reading, section));
      break;
    case 'prescription':
      tree.prescriptions = append(tree.prescriptions, readPrescription(reading, section, last));
      break;
    case 'work':
      tree.works = keep(tree.works, readWork(reading, section));
      break;
    case 'follow-up':
      tree.followUps = append(tree.followUps, readFollowUp(reading, section));
      break;
    case 'accept':
      tree.accepts = append(tree.accepts, readAccept(reading, section));
      break;
  }
}

const keep = <T>(list: readonly T[], read: T | undefined): readonly T[] =>
  read === undefined ? list : append(list, read);

function lean(line: BlockLine): NonNullable<Tree['lean']> {
  const draft: Draft<NonNullable<Tree['lean']>> = { angle: quantity(line, 'lean')! };
  draft.toward = bearing(line, 'toward');
  draft.course = textOf(line, 'course');
  return draft as NonNullable<Tree['lean']>;
}

function stressed(line: BlockLine): NonNullable<Tree['stressed']> {
  const since = dayOf(line, 'since');
  return {
    start: startOf(line),
    end: endOf(line),
    cause: textOf(line, 'cause')!,
    ...(since === undefined ? {} : { since }),
  };
}

function protection(line: BlockLine): NonNullable<Tree['protection']> {
  const draft: Draft<NonNullable<Tree['protection']>> = { start: startOf(line), end: endOf(line) };
  draft.by = textOf(line, 'by');
  draft.permit = word(line, 'permit');
  draft.until = dayOf(line, 'until');
  draft.scope = textOf(line, 'scope');
  return draft as NonNullable<Tree['protection']>;
}
