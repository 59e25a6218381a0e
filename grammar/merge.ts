/**
 * Merging two states of an inventory that grew from a third, fact by fact: lines that stand beside each other but
 * belong to different facts do not collide, and where both changed one fact the markers stand around it alone.
 */

import { type Piece, type Pieces, piecesOf, readAgainIn } from './pieces.ts';
import { lineEnd } from './text.ts';

export interface Merged {
  readonly text: string;
  /** Places where both changed the same fact in different ways; both are in the text, between markers. */
  readonly conflicts: number;
}

/** Git's default length of conflict markers. */
const MARKER_SIZE = 7;

const MARK = '\uFEFF';

/** Everything that either side added is in the result; what one side removed and the other left alone is gone. */
export function mergeInventories(
  base: string,
  ours: string,
  theirs: string,
  markerSize = MARKER_SIZE,
): Merged {
  // Changed on one side only.
  if (ours === base || ours === theirs) return { text: theirs, conflicts: 0 };
  if (theirs === base) return { text: ours, conflicts: 0 };
  const pick = <T>(of: (text: string) => T): T => (of(ours) === of(base) ? of(theirs) : of(ours));
  const texts = [base, ours, theirs].map(text => (text.startsWith(MARK) ? text.slice(1) : text));
  const again = readAgainIn(texts);
  const [b, o, t] = texts.map(text => piecesOf(text, again)) as [Pieces, Pieces, Pieces];
  const merge = new Merge(markerSize);
  merge.file(b.pieces, o.pieces, t.pieces);
  merge.blanks(b.tail, o.tail, t.tail);
  const mark = pick(text => text.startsWith(MARK)) ? MARK : '';
  return { text: mark + merge.lines.join(pick(lineEnd)), conflicts: merge.conflicts };
}

const sameLines = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((line, i) => line === b[i]);

/** The content of a piece and its parts, independent of the order of the parts. */
const saying = ({ content, parts }: Piece): string =>
  JSON.stringify([content, ...parts.map(part => part.key + saying(part)).sort()]);

class Merge {
  readonly lines: string[] = [];
  conflicts = 0;

  constructor(private readonly markerSize: number) {}

  file(base: readonly Piece[], ours: readonly Piece[], theirs: readonly Piece[]): void {
    this.lists(base, ours, theirs, new Set([ours[0], theirs[0]]));
  }

  /** @param firsts pieces at the beginning of a file */
  private lists(
    base: readonly Piece[],
    ours: readonly Piece[],
    theirs: readonly Piece[],
    firsts?: ReadonlySet<Piece | undefined>,
  ): void {
    const [o, t] = [ours, theirs].map(side => asEdits(base, withEarlierTags(base, side))) as [
      Piece[],
      Piece[],
    ];
    const [inBase, inOurs, inTheirs] = [byKey(base), byKey(o), byKey(t)];
    const order = mergedOrder(keys(base), keys(o), keys(t));
    for (const key of belowTheirVisits(order, inBase, inOurs, inTheirs)) {
      const [was, our, their] = [inBase.get(key), inOurs.get(key), inTheirs.get(key)];
      // A piece that was the first of its file needs a blank line above it if it no longer is.
      if (this.lines.length > 0 && firsts?.has(our ?? their) && (our ?? their)!.blanks.length === 0)
        this.lines.push('');
      if (our && their) this.piece(was, our, their);
      else this.oneSided(was, our, their);
    }
  }

  /** On one side only: added there, or removed on the other. */
  private oneSided(was: Piece | undefined, ours: Piece | undefined, theirs: Piece | undefined): void {
    const there = (ours ?? theirs)!;
    if (!was) this.whole(there);
    else if (saying(was) !== saying(there))
      this.conflict(there, ours && wholeLines(ours), theirs && wholeLines(theirs));
  }

  private piece(was: Piece | undefined, ours: Piece, theirs: Piece): void {
    if (!was) {
      // Two unrelated records with the same name must not be mixed.
      if (saying(ours) === saying(theirs)) this.whole(ours);
      else this.conflict(ours, wholeLines(ours), wholeLines(theirs));
      return;
    }
    if (ours.content !== theirs.content && ours.content !== was.content && theirs.content !== was.content) {
      this.conflict(ours, ours.lines, theirs.lines);
    } else {
      // If only the spacing differs, take the side that changed it.
      const kept =
        ours.content === was.content && (theirs.content !== was.content || sameLines(ours.lines, was.lines));
      this.blanks(was.blanks, ours.blanks, theirs.blanks);
      this.lines.push(...(kept ? theirs : ours).lines);
    }
    this.lists(was.parts, ours.parts, theirs.parts);
  }

  blanks(was: readonly string[], ours: readonly string[], theirs: readonly string[]): void {
    this.lines.push(...(sameLines(ours, was) ? theirs : ours));
  }

  private whole(piece: Piece): void {
    this.lines.push(...piece.blanks, ...wholeLines(piece));
  }

  private conflict({ blanks }: Piece, ours: readonly string[] = [], theirs: readonly string[] = []): void {
    this.conflicts++;
    const marker = (sign: string, label: string) => `${sign.repeat(this.markerSize)}${label}`;
    this.lines.push(
      ...blanks,
      marker('<', ' ours'),
      ...ours,
      marker('=', ''),
      ...theirs,
      marker('>', ' theirs'),
    );
  }
}

const wholeLines = ({ lines, parts }: Piece): readonly string[] => [
  ...lines,
  ...parts.flatMap(part => [...part.blanks, ...wholeLines(part)]),
];

const keys = (pieces: readonly Piece[]): readonly string[] => pieces.map(({ key }) => key);
const byKey = (pieces: readonly Piece[]): ReadonlyMap<string, Piece> =>
  new Map(pieces.map(piece => [piece.key, piece]));

/** The same order, with each piece below the inspection that it stood below: that gives it its day. */
function belowTheirVisits(
  order: readonly string[],
  base: ReadonlyMap<string, Piece>,
  ours: ReadonlyMap<string, Piece>,
  theirs: ReadonlyMap<string, Piece>,
): readonly string[] {
  const places = new Map(order.map((key, i) => [key, i]));
  const visitOf = (key: string): string | undefined => {
    const [was, our, their] = [base.get(key), ours.get(key), theirs.get(key)];
    return our && (!their || our.visit !== was?.visit) ? our.visit : their?.visit;
  };
  const ranks = new Map(
    order.map((key, i) => {
      const visit = visitOf(key);
      return [key, visit === undefined ? -1 : (places.get(visit) ?? i)];
    }),
  );
  return order.toSorted((a, b) => ranks.get(a)! - ranks.get(b)!);
}

/**
 * Lines whose key is their text lose it with every edit. In each group, what came stands for what went, one for
 * one in their order, so that two edits of one line are seen as such.
 */
function asEdits(base: readonly Piece[], now: readonly Piece[]): readonly Piece[] {
  const [before, after] = [new Set(keys(base)), new Set(keys(now))];
  const gone = new Map<string, string[]>();
  for (const { key, group } of base) {
    if (group === undefined || after.has(key)) continue;
    const list = gone.get(group);
    if (list) list.push(key);
    else gone.set(group, [key]);
  }
  if (gone.size === 0) return now;
  return now.map(piece => {
    if (piece.group === undefined || before.has(piece.key)) return piece;
    const edited = gone.get(piece.group)?.shift();
    return edited === undefined ? piece : { ...piece, key: edited };
  });
}

/** The trees that were given another tag, under the one that they had: what the other side changed is of the same tree. */
function withEarlierTags(base: readonly Piece[], now: readonly Piece[]): readonly Piece[] {
  const [before, after] = [new Set(keys(base)), new Set(keys(now))];
  return now.map(piece => {
    if (before.has(piece.key)) return piece;
    const was = piece.formerly.find(key => before.has(key) && !after.has(key));
    return was === undefined ? piece : { ...piece, key: was };
  });
}

/**
 * All keys that are in ours or theirs, in the order of the state that changed it (ours, if both did), each
 * of the other state's own behind the one that it follows there.
 */
function mergedOrder(
  base: readonly string[],
  ours: readonly string[],
  theirs: readonly string[],
): readonly string[] {
  const was = new Set(base);
  const [inOurs, inTheirs] = [new Set(ours), new Set(theirs)];
  const common = (list: readonly string[]) => list.filter(key => was.has(key) && inOurs.has(key));
  const oursMoved = !sameLines(common(base), common(ours));
  const [spine, other, inSpine] = oursMoved ? [ours, theirs, inOurs] : [theirs, ours, inTheirs];
  const following = new Map<string | undefined, string[]>();
  let previous: string | undefined;
  for (const key of other) {
    if (inSpine.has(key)) previous = key;
    else {
      const list = following.get(previous);
      if (list) list.push(key);
      else following.set(previous, [key]);
    }
  }
  return [...(following.get(undefined) ?? []), ...spine.flatMap(key => [key, ...(following.get(key) ?? [])])];
}
