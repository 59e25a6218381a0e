/** Searches for nests and for bats. */

import type { BlockLine, BlockSection } from '../../grammar/syntax.ts';
import {
  append,
  contentOf,
  type Draft,
  day,
  endOf,
  fieldLines,
  headLine,
  NONE,
  notesOf,
  photo,
  quantity,
  type Reading,
  speciesOf,
  startOf,
  textOf,
  vantage,
  type Whole,
  word,
} from './lines.ts';
import type { BatCheck, NestCheck } from './types.ts';

/** Undefined where the head does not give its day. */
export function readNestCheck(reading: Reading, section: BlockSection): NestCheck | undefined {
  const head = headLine(reading, section);
  const date = day(head, 'date');
  if (!date) return undefined;
  const check: Whole<NestCheck> = {
    at: contentOf(head),
    notes: notesOf(reading, section),
    date,
    from: vantage(head),
    by: undefined,
    standOff: undefined,
    found: NONE,
    photos: NONE,
  };
  for (const line of fieldLines(reading, section)) {
    switch (line.word) {
      case 'by':
        check.by = word(line, 'person');
        break;
      case 'stand-off':
        check.standOff = quantity(line, 'distance');
        break;
      case 'found':
        check.found = append(check.found, nest(line));
        break;
      case 'photo':
        check.photos = append(check.photos, photo(line));
        break;
    }
  }
  return check as NestCheck;
}

function nest(line: BlockLine): NestCheck['found'][number] {
  const draft: Draft<NestCheck['found'][number]> = {
    start: startOf(line),
    end: endOf(line),
    use: (textOf(line, 'use') ?? 'none') as NestCheck['found'][number]['use'],
  };
  draft.species = speciesOf(line, 'species');
  draft.height = quantity(line, 'height');
  return draft as NestCheck['found'][number];
}

/** Undefined where the head does not give its day. */
export function readBatCheck(reading: Reading, section: BlockSection): BatCheck | undefined {
  const head = headLine(reading, section);
  const date = day(head, 'date');
  if (!date) return undefined;
  const check: Draft<BatCheck> = {
    at: contentOf(head),
    notes: notesOf(reading, section),
    date,
    from: vantage(head),
    found: NONE,
  };
  for (const line of fieldLines(reading, section)) {
    if (line.word === 'by') check.by = word(line, 'person');
    else if (line.word === 'found') {
      const defect = word(line, 'defect');
      check.found = append(check.found, {
        start: startOf(line),
        end: endOf(line),
        use: textOf(line, 'use') ?? 'none',
        ...(defect ? { defect } : {}),
      });
    }
  }
  return check as BatCheck;
}
