/** Splits a text into facts, each with a key that identifies it in another version of the text. */

import { splitBlocks } from './blocks.ts';
import { HEADS } from './fields.ts';
import { headName, namedHeads, namesReadAgain } from './names.ts';
import type { Line } from './syntax.ts';

/** A head with what belongs to it, or one line. */
export interface Piece {
  /** Unique among its siblings. */
  readonly key: string;
  /** The field word of pieces that are keyed by their text, used to pair edited lines. */
  readonly group: string | undefined;
  /** The key of the inspection that it stands below, or is; its place in the text says its day. */
  readonly visit: string | undefined;
  /** Blank lines above it, as written. */
  readonly blanks: readonly string[];
  /** The comments right above a head and its line; or the line. */
  readonly lines: readonly string[];
  /** Text with normalized spacing. */
  readonly content: string;
  readonly parts: readonly Piece[];
  /** Of a tree the keys under its former tags. */
  readonly formerly: readonly string[];
}

export interface Pieces {
  readonly pieces: readonly Piece[];
  /** Blank lines at the end. */
  readonly tail: readonly string[];
}

interface PieceDraft {
  readonly name: string;
  readonly group: string | undefined;
  /** Whether it is an inspection. */
  readonly isVisit: boolean;
  readonly blanks: readonly string[];
  readonly lines: readonly string[];
  readonly content: string;
  readonly parts: PieceDraft[];
  readonly formerly: string[];
}

/** By the name of a block, the names in it that are read on several days. */
export type ReadAgain = ReadonlyMap<string, ReadonlySet<string>>;

/** What several versions of a text have several readings of. */
export function readAgainIn(texts: readonly string[]): ReadAgain {
  const again = new Map<string, Set<string>>();
  for (const { block } of texts.flatMap(text => [...splitBlocks(text)])) {
    const names = block.sections.length > 0 ? namesReadAgain(block) : new Set<string>();
    if (names.size === 0) continue;
    const tree = headName(block.lines[block.sections[0]!.head]!);
    again.set(tree, new Set([...(again.get(tree) ?? []), ...names]));
  }
  return again;
}

/**
 * @param text without byte order mark
 * @param again names that say the day of their reading
 */
export function piecesOf(text: string, again: ReadAgain): Pieces {
  const top: PieceDraft[] = [];
  let blanks: string[] = [];
  /** Comments directly above the next line: they belong to it if it is a head, otherwise they are pieces. */
  let leading: { readonly line: Line; readonly blanks: readonly string[] }[] = [];
  let under = top;
  const release = () => {
    for (const { line, blanks: above } of leading) under.push(leaf(line, above, 'comment'));
    leading = [];
  };
  const blocks = splitBlocks(text);
  blocks.forEach(({ block }, b) => {
    const first = block.sections[0] && headName(block.lines[block.sections[0].head]!);
    const named = namedHeads(block, again.get(first ?? '') ?? NONE);
    const heads = new Map(named.map(({ line }, i) => [line, i]));
    let section: string | undefined;
    let own = top;
    block.lines.forEach((line, i) => {
      // The empty line after a block's last line end belongs to the next block.
      if (block.starts[i] === block.text.length && b < blocks.length - 1) return;
      if (line.role === 'blank') {
        release();
        blanks.push(line.syntax.text);
        return;
      }
      if (line.role === 'comment') {
        leading.push({ line, blanks });
        blanks = [];
        return;
      }
      if (heads.has(i)) {
        const piece = headPiece(line, named[heads.get(i)!]!.name, leading, blanks);
        // The head of a block is a top-level piece; its inner heads are parts of it.
        if (heads.get(i) === 0) {
          top.push(piece);
          own = piece.parts;
        } else own.push(piece);
        under = piece.parts;
        section = block.sections[heads.get(i)!]!.word;
        leading = [];
      } else {
        release();
        under.push(leaf(line, blanks, groupOf(line, section)));
        const [tag] = line.word === 'formerly' && !line.mistake ? line.values : [];
        if (tag?.type === 'text') top.at(-1)?.formerly.push(`tree ${tag.text}`);
      }
      blanks = [];
    });
  });
  release();
  return { pieces: keyed(top), tail: blanks };
}

const NONE: ReadonlySet<string> = new Set();

function headPiece(
  line: Line,
  name: string,
  leading: readonly { readonly line: Line; readonly blanks: readonly string[] }[],
  blanks: readonly string[],
): PieceDraft {
  const lines = [...leading.map(one => one.line), line];
  return {
    name,
    group: undefined,
    isVisit: line.word === 'inspection',
    blanks: leading[0]?.blanks ?? blanks,
    lines: lines.map(({ syntax }) => syntax.text),
    content: lines.map(contentOf).join('\n'),
    parts: [],
    formerly: [],
  };
}

const leaf = (line: Line, blanks: readonly string[], group: string | undefined): PieceDraft => ({
  name: group === undefined ? line.word! : `${group}: ${contentOf(line)}`,
  group,
  isVisit: false,
  blanks,
  lines: [line.syntax.text],
  content: contentOf(line),
  parts: [],
  formerly: [],
});

/** Undefined for a field that occurs once: its word is its key. */
function groupOf({ word, mistake, role }: Line, section: string | undefined): string | undefined {
  if (role !== 'field' || mistake || word === undefined) return 'damaged';
  return HEADS.get(section ?? '')?.fields.get(word)?.many ? word : undefined;
}

/** A line with normalized spacing. */
function contentOf({ syntax, mistake }: Line): string {
  if (mistake || syntax.mistake) return syntax.text.trim();
  const words = syntax.items.map(({ start, end }) => syntax.text.slice(start, end));
  const comment = syntax.comment ? [syntax.text.slice(syntax.comment.start, syntax.comment.end).trim()] : [];
  return [...words, ...comment].join(' ');
}

function keyed(drafts: readonly PieceDraft[]): readonly Piece[] {
  const seen = new Map<string, number>();
  let visit: string | undefined;
  return drafts.map(({ name, parts, isVisit, ...draft }) => {
    const count = (seen.get(name) ?? 0) + 1;
    seen.set(name, count);
    const key = count === 1 ? name : `${name}\n${count}`;
    if (isVisit) visit = key;
    return { ...draft, key, visit, parts: keyed(parts) };
  });
}
