/** Block → fact. */

import type { Block, Section } from '../../grammar/syntax.ts';
import { readCrew, readPerson, readPractice, readSite } from './build-top.ts';
import { readTree } from './build-tree.ts';
import type { Reading } from './lines.ts';
import type { Fact } from './types.ts';

/** The fact that a block states; undefined for text before the first head of the file. */
export function factOf(block: Block): Fact | undefined {
  const first = block.sections[0];
  if (!first) return undefined;
  const reading: Reading = { block, repeated: [] };
  const fact = readHead(reading, first, block.sections);
  return fact && reading.repeated.length > 0 ? { ...fact, repeated: reading.repeated } : fact;
}

function readHead(reading: Reading, first: Section, sections: readonly Section[]): Fact | undefined {
  switch (first.word) {
    case 'site':
      return readSite(reading, first);
    case 'person':
      return readPerson(reading, first);
    case 'crew':
      return readCrew(reading, first);
    case 'practice':
      return readPractice(reading, sections);
    case 'tree':
      return readTree(reading, sections);
    default:
      // A head that belongs inside another one, with none above it.
      return undefined;
  }
}
