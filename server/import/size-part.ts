/** Sizes of a tree: its diameters, its height, its crown. */

import {
  factPart,
  leave,
  type PartReader,
  type Refused,
  type TableColumn,
  type TreeDraft,
  textOf,
} from './draft.ts';
import { type LengthUnit, metresPer, type Size } from './meanings.ts';
import { fieldStart, notationSizes } from './notation.ts';
import { type DecimalSign, decimalSign, NO_SIZE, readSize, showSize, signConflict } from './sizes.ts';
import type { Separator } from './table.ts';
import { memoized } from './text.ts';

/**
 * Larger values (m) are typing errors, not record trees. From memory, rounded up from the greatest known:
 * the tallest tree 116 m (Sequoia sempervirens), the largest trunk some 14 m (Taxodium mucronatum at Tule, by
 * tape), spreads of crowns on one trunk about 60 m (Samanea saman).
 */
const GREATEST: Readonly<Record<Size, { readonly metres: number; readonly said: string }>> = {
  dbh: { metres: 15, said: 'no trunk is that thick' },
  girth: { metres: 15 * Math.PI, said: 'no trunk is that thick' },
  height: { metres: 120, said: 'no tree is that tall' },
  crown: { metres: 80, said: 'no crown is that wide' },
  'crown-radius': { metres: 40, said: 'no crown is that wide' },
  'crown-base': { metres: 120, said: 'no tree is that tall' },
};

/** A plain number, as in most cells, short enough to print without an exponent. */
const PLAIN = { point: /^\d{1,9}(?:\.\d{1,6})?$/, comma: /^\d{1,9}(?:,\d{1,6})?$/ } as const;

type SizesReader = (cell: string) => string | Refused;

/** Reads cells of a size column into canonical sizes. */
function sizesReader({ meaning, sign }: TableColumn, separator: Separator): SizesReader {
  const { kind, unit } = meaning as { readonly kind: Size; readonly unit: LengthUnit };
  const atMost = kind === 'dbh' || kind === 'girth' ? Number.POSITIVE_INFINITY : 1;
  const { metres: greatest, said } = GREATEST[kind];
  const metres = metresPer(unit);

  function parseCell(cell: string, known: DecimalSign | undefined): string | Refused {
    // A size in the notation's own form is kept as written.
    const written = known === 'comma' ? undefined : notationSizes(kind, cell);
    if (written?.metres.every(size => size <= greatest)) return written.text;
    const conflict = known && signConflict(cell, known, separator);
    if (conflict !== undefined) return { refused: conflict };
    const read = readSize(cell, known);
    if (read.kind !== 'sizes') return { refused: read.reason };
    if (read.sizes.length > atMost) return { refused: 'it has several sizes where a tree has one' };
    if (read.sizes.some(size => size.high * metresPer(size.unit ?? unit) > greatest))
      return { refused: said };
    const shown = read.sizes.map(size => showSize(size, unit)).join(', ');
    return notationSizes(kind, shown)?.text ?? { refused: 'it is not a size' };
  }

  let known = sign;
  let read = memoized(cell => parseCell(cell, known));
  return cell => {
    if (known === undefined) {
      known = decimalSign([cell], separator);
      if (known !== undefined) read = memoized(text => parseCell(text, known));
    }
    if (!PLAIN[known ?? 'point'].test(cell)) return read(cell);
    const value = Number(known === 'comma' ? cell.replace(',', '.') : cell);
    if (value === 0) return { refused: NO_SIZE };
    return value * metres > greatest ? { refused: said } : `${value} ${unit}`;
  };
}

export function sizePart(column: TableColumn, separator: Separator): PartReader {
  const read = sizesReader(column, separator);
  const start = fieldStart(column.meaning.kind);
  return factPart(column, cell => {
    const sizes = read(cell);
    return typeof sizes === 'string' ? start + sizes : sizes;
  });
}

/** Crown base and spread share one line. */
export function crownPart(
  base: TableColumn | undefined,
  spread: TableColumn | undefined,
  separator: Separator,
): PartReader {
  const readBase = base && sizesReader(base, separator);
  const readSpread = spread && sizesReader(spread, separator);
  const isRadius = spread?.meaning.kind === 'crown-radius';
  const start = fieldStart('crown');
  return (cells, draft) => {
    const from = sizeAt(base, readBase, cells, draft);
    const size = sizeAt(spread, readSpread, cells, draft);
    const wide = isRadius && size !== undefined ? doubled(size) : size;
    if (from === undefined && wide === undefined) return;
    const spreadWords = wide === undefined ? '' : `${wide} wide`;
    if (from === undefined) draft.facts += `${start}${spreadWords}\n`;
    else draft.facts += `${start}from ${from}${wide === undefined ? '' : `, ${spreadWords}`}\n`;
  };
}

/** A spread from a radius, in the notation: `~2.5..3 m` → `~5..6 m`. */
const doubled = (size: string): string =>
  size.replace(/\d+(?:\.\d+)?/g, number => String(Number((Number(number) * 2).toPrecision(12))));

function sizeAt(
  column: TableColumn | undefined,
  read: SizesReader | undefined,
  cells: readonly string[],
  draft: TreeDraft,
): string | undefined {
  if (!column || !read) return undefined;
  const cell = textOf(cells, column);
  if (cell === '') {
    draft.empty.push(column.name);
    return undefined;
  }
  const size = read(cell);
  if (typeof size === 'string') return size;
  leave(draft, column, cell, size.refused);
  return undefined;
}
