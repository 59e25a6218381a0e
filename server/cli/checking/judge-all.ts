/** Findings of the files of an inventory, piece by piece, in their order. */

import { statSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { byPlace } from '../../rules/finding.ts';
import { canShare, type Hands, inOrder } from './hands.ts';
import type { Found, JobOf, PieceToJudge } from './jobs.ts';
import { PIECE_BYTES } from './pieces.ts';
import type { InventoryFile, Sources, Survey } from './survey.ts';

/**
 * With less than this many bytes for each, two workers are no faster than one: every thread loads the program and has it
 * optimized anew, which costs it about a second. Of 25 MB two take a tenth less time on a busy machine, as much on one
 * that has rested, and a quarter more CPU; of 250 MB a third less time (npm run bench).
 */
const BYTES_PER_WORKER = 10 * 1024 * 1024;

/** Texts of fewer bytes in all are kept from one reading to the next. */
const BYTES_KEPT = 2 * 1024 * 1024;

export interface Plan {
  readonly workers: number;
  /** Whether the texts are kept from the survey, since all of them together are small. */
  readonly keep: boolean;
}

/** @param workers as asked for; else as many as the machine has cores and the inventory has work for */
export function planFor(sources: Sources, workers: number | undefined): Plan {
  const most = workers ?? (canShare() ? availableParallelism() : 1);
  const enough = BYTES_PER_WORKER * Math.max(most, 1);
  let bytes = 0;
  for (const path of sources.paths) {
    if (bytes >= enough) break;
    bytes += statSync(path, { throwIfNoEntry: false })?.size ?? 0;
  }
  return {
    workers: workers ?? Math.max(1, Math.min(most, Math.floor(bytes / BYTES_PER_WORKER))),
    keep: bytes < BYTES_KEPT,
  };
}

/** Of one piece; of a file of several pieces there come several. */
export type Take = (file: InventoryFile, found: readonly Found[], isLast: boolean) => void;

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
        const found = here.length === 0 ? results[i]! : [...results[i]!, ...here].sort(asInFile);
        take(file, found, end === Number.POSITIVE_INFINITY);
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
