/** Part results put together: whether they are all the parts of one inventory, and the whole that they make. */

import { version } from '../../../package.json';
import { formatDate } from '../../base/dates.ts';
import type { PartFile, PartResult } from '../../show/part.ts';

/** A part result, and the name of the file that holds it. */
export interface NamedPart {
  readonly name: string;
  readonly result: PartResult;
}

/** What keeps the parts, of which there are some, from being put together, each with how to mend it. */
export function faultsOf(parts: readonly NamedPart[]): readonly string[] {
  const odd = [...programFaults(parts), ...disagreements(parts)];
  // Of other parts than these nothing can be missing or doubled.
  if (odd.length > 0) return odd;
  const incomplete = [...doubled(parts), ...missing(parts)];
  return incomplete.length > 0 ? incomplete : misplaced(parts);
}

const programFaults = (parts: readonly NamedPart[]): readonly string[] =>
  parts
    .filter(({ result }) => result.program !== version)
    .map(
      ({ name, result }) =>
        `${name} was made by soundwood ${result.program}, but this is ${version}: make and gather all parts with the same version.`,
    );

/** What all parts have to agree in: how it is said of one, and how to mend it. */
const AGREED: readonly {
  readonly of: (result: PartResult) => string;
  readonly said: (result: PartResult) => string;
  readonly remedy: string;
}[] = [
  {
    of: ({ on }) => formatDate(on),
    said: ({ on }) => `was checked for ${formatDate(on)}`,
    remedy: 'make all parts with the same --date DATE',
  },
  {
    of: ({ of }) => String(of),
    said: ({ part, of }) => `is part ${part} of ${of}`,
    remedy: 'make all parts with the same number of parts',
  },
  {
    of: ({ inventory, unread }) => JSON.stringify([inventory.sha256, inventory.files, unread]),
    said: ({ inventory, unread }) =>
      `is of an inventory of ${inventory.files} files${unread.length === 0 ? '' : ` (${unread.length} not read)`} with the digest ${inventory.sha256.slice(0, 12)}`,
    remedy: 'make all parts from the same state of the files, with the same paths, in the same folder',
  },
];

/** Parts that say another thing than the first one. */
function disagreements(parts: readonly NamedPart[]): readonly string[] {
  const [first, ...others] = parts;
  return AGREED.flatMap(({ of, said, remedy }) =>
    others
      .filter(({ result }) => of(result) !== of(first!.result))
      .map(
        ({ name, result }) =>
          `${name} ${said(result)}, but ${first!.name} ${said(first!.result)}: ${remedy}.`,
      ),
  );
}

function doubled(parts: readonly NamedPart[]): readonly string[] {
  const seen = new Map<number, string>();
  return parts.flatMap(({ name, result: { part, of } }) => {
    const before = seen.get(part);
    if (before === undefined) {
      seen.set(part, name);
      return [];
    }
    return [
      before === name
        ? `${name} was given twice: give each part once.`
        : `${before} and ${name} are both part ${part} of ${of}: give each part once.`,
    ];
  });
}

/** Of missing parts, how many are named. */
const LISTED = 20;

function missing(parts: readonly NamedPart[]): readonly string[] {
  const there = new Set(parts.map(({ result }) => result.part));
  const { of, on } = parts[0]!.result;
  const gone = Array.from({ length: of }, (_, i) => i + 1).filter(part => !there.has(part));
  if (gone.length === 0) return [];
  const one = gone.length === 1;
  const more = gone.length - LISTED;
  const list = gone.slice(0, LISTED).join(', ') + (more > 0 ? ` and ${more} more` : '');
  return [
    `${one ? 'part' : 'parts'} ${list} of ${of} ${one ? 'is' : 'are'} missing: make ${one ? 'it' : 'each'} with soundwood check --shard ${gone[0]}/${of} --date ${formatDate(on)}${one ? '' : ' and so on'}, and give all ${of}.`,
  ];
}

/** Each place in the inventory has to be filled once. */
function misplaced(parts: readonly NamedPart[]): readonly string[] {
  const { files } = parts[0]!.result.inventory;
  const places = new Set<number>();
  let filled = 0;
  for (const { result } of parts) {
    for (const { place } of result.files) {
      filled++;
      if (place < files) places.add(place);
    }
  }
  return filled === files && places.size === files
    ? []
    : [`the parts do not cover each of the ${files} files exactly once: make all of them again.`];
}

/** The files of all parts, in the order of the inventory. */
export const filesOf = (parts: readonly NamedPart[]): readonly PartFile[] =>
  parts.flatMap(({ result }) => result.files).sort((a, b) => a.place - b.place);
