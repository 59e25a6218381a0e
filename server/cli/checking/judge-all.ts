/** Findings of the files of an inventory, piece by piece, in their order. */

import type { SignTally } from '../../assess/signs.ts';
import { byPlace } from '../../rules/finding.ts';
import { type Hands, inOrder } from './hands.ts';
import type { Found, JobOf, PieceToJudge } from './jobs.ts';
import { PIECE_BYTES } from './pieces.ts';
import type { InventoryFile, Survey } from './survey.ts';

/** Of one piece; of a file of several pieces there come several. */
export type Take = (file: InventoryFile, found: readonly Found[], isLast: boolean, signs: SignTally) => void;

interface JudgedPiece extends PieceToJudge {
  readonly file: InventoryFile;
  /** Offset in the file at which the next piece begins. */
  readonly end: number;
}

/** Judges all of these files, which are some of those surveyed. */
export async function judgeAll(
  { ground, across, nameOf }: Survey,
  files: readonly InventoryFile[],
  hands: Hands,
  take: Take,
): Promise<void> {
  await hands.tell({ kind: 'ground', ground });
  let of: InventoryFile | undefined;
  let beyond: readonly Found[] = [];
  await inOrder(
    hands.ahead,
    batches(files, nameOf),
    pieces => hands.judge(asked(pieces)),
    (results, pieces) => {
      pieces.forEach(({ file, start, end }, i) => {
        if (of !== file) beyond = across(file.path);
        of = file;
        const here = beyond.filter(({ finding }) => finding.start >= start && finding.start < end);
        const { found: own, signs } = results[i]!;
        const found = here.length === 0 ? own : [...own, ...here].sort(asInFile);
        take(file, found, end === Number.POSITIVE_INFINITY, signs);
      });
    },
  );
}

/** Without what only this side needs. */
const asked = (pieces: readonly JudgedPiece[]): JobOf<'judge'> => ({
  kind: 'judge',
  pieces: pieces.map(({ piece, path, shown, start, firstLine }) => ({
    piece,
    path,
    shown,
    start,
    firstLine,
  })),
});

/** Pieces for one job: of small files several. */
function* batches(
  files: readonly InventoryFile[],
  nameOf: (path: string) => string,
): Iterable<readonly JudgedPiece[]> {
  let batch: JudgedPiece[] = [];
  let bytes = 0;
  for (const file of files) {
    for (const [i, { piece, start, firstLine }] of file.pieces.entries()) {
      const end = file.pieces[i + 1]?.start ?? Number.POSITIVE_INFINITY;
      batch.push({ file, piece, path: file.path, shown: nameOf(file.path), start, firstLine, end });
      bytes += piece.to - piece.from;
      if (bytes < PIECE_BYTES) continue;
      yield batch;
      batch = [];
      bytes = 0;
    }
  }
  if (batch.length > 0) yield batch;
}

/** By place, then by rule; where both agree, what is said of the tree alone comes first. */
const asInFile = (a: Found, b: Found): number => byPlace(a.finding, b.finding);
