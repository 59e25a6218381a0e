/** The outline of a file, and the search for trees, what is in them, sites, persons and crews over all files. */

import { HEADS } from '../../grammar/fields.ts';
import { readingDays } from '../../grammar/names.ts';
import { type PlacedBlock, placedLine } from '../../grammar/syntax.ts';
import type { Span } from '../../grammar/text.ts';
import type { Defect, Fact, Prescription } from '../facts/types.ts';
import type { FileSnapshot, Workspace } from '../facts/workspace.ts';
import { contentOf, linesOfSection } from './cursor.ts';
import { commonName } from './organisms.ts';
import type { FilePlace } from './snapshot.ts';

export type SymbolKind = 'site' | 'person' | 'crew' | 'practice' | 'tree' | 'event' | 'part' | 'other';

export interface OutlineSymbol extends Span {
  readonly name: string;
  readonly detail: string;
  readonly kind: SymbolKind;
  /** The words of the head line. */
  readonly head: Span;
  readonly children: readonly OutlineSymbol[];
}

/** Blocks with the heads inside them. Damaged heads are in it too: they open a block all the same. */
export const outline = (file: FileSnapshot): readonly OutlineSymbol[] =>
  file.blocks.flatMap(placed => {
    const [first, ...inner] = placed.block.sections;
    if (!first) return [];
    const days = readingDays(placed.block);
    const children = inner.map(section => {
      const symbol = sectionSymbol(placed, linesOfSection(placed, section), section.word);
      const day = days.get(section.head);
      return day === undefined ? symbol : { ...symbol, detail: `of ${day}` };
    });
    const all = { first: first.head, last: lastLine(placed) };
    return [{ ...sectionSymbol(placed, all, first.word), children }];
  });

function lastLine({ block }: PlacedBlock): number {
  return Math.max(
    0,
    block.lines.findLastIndex(({ role }) => role === 'head' || role === 'field' || role === 'bad'),
  );
}

function sectionSymbol(
  placed: PlacedBlock,
  { first, last }: { readonly first: number; readonly last: number },
  word: string,
): OutlineSymbol {
  const at = (line: number) => contentOf(placed, placedLine(placed.block, line));
  const head = at(first);
  return {
    name: placed.block.text.slice(head.start - placed.start, head.end - placed.start) || word,
    detail: detailOf(placed, word, first, last),
    kind: kindOf(word),
    start: head.start,
    end: Math.max(head.end, at(last).end),
    head,
    children: [],
  };
}

/** Of a tree its species; of the others nothing that their head does not say. */
function detailOf({ block }: PlacedBlock, word: string, first: number, last: number): string {
  if (word !== 'tree') return '';
  const line = block.lines.slice(first, last + 1).find(one => one.word === 'species');
  const value = line?.values.find(({ type }) => type === 'species');
  return value?.type === 'species' ? value.species.name : '';
}

/** What needs a day is an event. */
function kindOf(word: string): SymbolKind {
  const { under, declares, needs, values } = HEADS.get(word)!;
  if (under === undefined) return word as SymbolKind;
  if (declares === 'part') return 'part';
  const needed = needs === undefined ? undefined : values.get(needs);
  return needed?.kind === 'value' && needed.type === 'date' ? 'event' : 'other';
}

export interface FoundSymbol extends FilePlace {
  readonly name: string;
  readonly kind: SymbolKind;
  /** What it lies in: the name of the file. */
  readonly container: string;
}

/** A list of this length is never read to its end. */
const MOST_FOUND = 500;

/** Facts, defects and prescriptions whose name holds all words of the query, in any case. */
export function searchSymbols(
  workspace: Workspace,
  query: string,
  stop: () => boolean = () => false,
): readonly FoundSymbol[] {
  const words = query.toLowerCase().split(/\s+/).filter(Boolean);
  const found: FoundSymbol[] = [];
  for (const { path, facts } of workspace.files.values()) {
    if (stop()) break;
    for (const { start, fact } of facts) {
      for (const { name, kind, at } of namedIn(fact)) {
        const folded = name.toLowerCase();
        if (!words.every(word => folded.includes(word))) continue;
        found.push({ name, kind, path, start: start + at.start, end: start + at.end, container: path });
        if (found.length === MOST_FOUND) return found;
      }
    }
  }
  return found;
}

type NamedSymbol = Pick<FoundSymbol, 'name' | 'kind'> & { readonly at: Span };

function namedIn(fact: Fact): readonly NamedSymbol[] {
  const own: NamedSymbol = { name: nameOf(fact), kind: fact.kind, at: fact.at };
  if (fact.kind !== 'tree') return [own];
  const inside = (head: string, { id, kind, at }: Defect | Prescription): NamedSymbol => ({
    name: `${head} ${id.value} ${kind.value} of tree ${fact.tag.value}`,
    kind: kindOf(head),
    at,
  });
  return [
    own,
    ...fact.defects.map(defect => inside('defect', defect)),
    ...fact.prescriptions.map(prescription => inside('prescription', prescription)),
  ];
}

function nameOf(fact: Fact): string {
  switch (fact.kind) {
    case 'site':
    case 'practice':
      return `${fact.kind} ${fact.name.value}`;
    case 'person':
    case 'crew':
      return `${fact.kind} ${fact.id.value} ${fact.name.value}`;
    case 'tree': {
      const species = fact.species?.value;
      const common = species && commonName(species);
      return [`tree ${fact.tag.value}`, fact.name?.value, species?.name, common && `(${common})`]
        .filter(part => part !== undefined)
        .join(' ');
    }
  }
}
