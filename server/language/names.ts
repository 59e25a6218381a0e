/** The name at an offset, its definitions and its references. */

import { laterReadings } from '../facts/readings.ts';
import { type Named, namesGiven, namesUsed } from '../facts/references.ts';
import { type FileSnapshot, type PlacedFact, treesNamed, type Workspace } from '../facts/workspace.ts';
import { cursorAt, holds } from './cursor.ts';
import type { FilePlace } from './snapshot.ts';

export interface NameAt extends Named {
  readonly path: string;
  /** The fact that defines or uses the name. */
  readonly holder: PlacedFact;
  readonly given: boolean;
}

const placedNames = (holder: PlacedFact): readonly NameAt[] => {
  const at = (given: boolean) => (named: Named) => ({
    ...named,
    start: holder.start + named.start,
    end: holder.start + named.end,
    path: holder.path,
    holder,
    given,
  });
  return [...namesGiven(holder.fact).map(at(true)), ...namesUsed(holder.fact).map(at(false))];
};

export function nameAt(file: FileSnapshot, offset: number): NameAt | undefined {
  const { fact } = cursorAt(file, offset);
  return fact && placedNames(fact).find(named => holds(named, offset));
}

/** The facts that share the name's scope. */
function scopeOf(workspace: Workspace, { kind, holder, name }: NameAt): readonly PlacedFact[] {
  switch (kind) {
    case 'person':
    case 'crew':
      return [...workspace.files.values()].flatMap(({ facts }) => facts);
    case 'tag':
      return treesNamed(workspace, holder.path, name);
    default:
      return [holder];
  }
}

/** Every occurrence of a name, by path and offset. */
export const placesOf = (workspace: Workspace, name: NameAt): readonly NameAt[] =>
  scopeOf(workspace, name)
    .flatMap(placedNames)
    .filter(other => other.kind === name.kind && other.name === name.name)
    .sort((a, b) => (a.path === b.path ? a.start - b.start : a.path < b.path ? -1 : 1));

const placeOf = ({ path, start, end }: NameAt): FilePlace => ({ path, start, end });

/**
 * The definitions of the name at an offset: of what is read again at later inspections the first reading; several if
 * different things have the name.
 */
export const definitions = (
  workspace: Workspace,
  file: FileSnapshot,
  offset: number,
): readonly FilePlace[] => {
  const name = nameAt(file, offset);
  if (!name) return [];
  const { fact } = name.holder;
  const again = fact.kind === 'tree' ? laterReadings(fact, name.kind) : NONE;
  return placesOf(workspace, name)
    .filter(({ given, start, holder }) => given && !again.has(start - holder.start))
    .map(placeOf);
};

const NONE: ReadonlySet<number> = new Set();

export function references(
  workspace: Workspace,
  file: FileSnapshot,
  offset: number,
  withDefinition: boolean,
): readonly FilePlace[] {
  const name = nameAt(file, offset);
  if (!name) return [];
  return placesOf(workspace, name)
    .filter(({ given }) => withDefinition || !given)
    .map(placeOf);
}

export interface Highlight extends FilePlace {
  readonly given: boolean;
}

/** The occurrences in the same file. */
export function highlights(workspace: Workspace, file: FileSnapshot, offset: number): readonly Highlight[] {
  const name = nameAt(file, offset);
  if (!name) return [];
  return placesOf(workspace, name)
    .filter(({ path }) => path === file.path)
    .map(place => ({ ...placeOf(place), given: place.given }));
}

/** Whether the wanted name is already defined in the name's scope. */
export function isTaken(workspace: Workspace, name: NameAt, wanted: string): boolean {
  const rivals = name.kind === 'tag' ? treesNamed(workspace, name.path, wanted) : scopeOf(workspace, name);
  return rivals
    .flatMap(({ fact }) => namesGiven(fact))
    .some(given => given.kind === name.kind && given.name === wanted);
}
