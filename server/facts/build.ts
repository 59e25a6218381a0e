/** Block → fact. */

import { type Block, type BlockSection, placedLine } from '../../grammar/syntax.ts';
import { readCrew, readPerson, readPractice, readSite } from './build-top.ts';
import { readTree } from './build-tree.ts';
import { type Reading, startOf } from './lines.ts';
import type { Damage, Fact } from './types.ts';

/** The fact that a block states; undefined for text before the first head of the file. */
export function factOf(block: Block): Fact | undefined {
  const first = block.sections[0];
  if (!first) return undefined;
  const reading: Reading = { block, repeated: [] };
  const fact = readHead(reading, first, block.sections);
  const { repeated } = reading;
  const damage = damageOf(block);
  if (!fact || (repeated.length === 0 && !damage)) return fact;
  return { ...fact, ...(repeated.length > 0 ? { repeated } : {}), ...(damage ? { damage } : {}) };
}

/** What the block fails to say because of mistakes; undefined where it has none. */
function damageOf(block: Block): Damage | undefined {
  const { lines, sections } = block;
  let damage: Map<number, Set<string>> | undefined;
  for (let i = 0; i < lines.length; i++) {
    const { mistake, role, word } = lines[i]!;
    if (!mistake && role !== 'bad') continue;
    const section = sections.findLast(({ head }) => head <= i) ?? sections[0]!;
    damage ??= new Map();
    const at = startOf(placedLine(block, section.head));
    const words = damage.get(at);
    const damaged = role === 'field' ? word! : '*';
    if (words) words.add(damaged);
    else damage.set(at, new Set([damaged]));
  }
  return damage;
}

function readHead(
  reading: Reading,
  first: BlockSection,
  sections: readonly BlockSection[],
): Fact | undefined {
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
