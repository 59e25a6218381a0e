/**
 * The two kinds of work on an inventory that can be shared out, by thread or by machine: to survey files, which
 * says what other files need to know of them; and, with that known, to judge their pieces one by one.
 * Everything that goes in and out is plain data.
 */

import type { createHash as CreateHash } from 'node:crypto';
import { ownText } from '../../../grammar/text.ts';
import type { SignTally } from '../../assess/signs.ts';
import { outlineOf, type Stretch } from '../../facts/outline.ts';
import { photoPaths } from '../../facts/photos.ts';
import { buildWorkspace, readFile, settingsFor, type Workspace, withPhotos } from '../../facts/workspace.ts';
import { readPhotos } from '../../host/photos.ts';
import { checkFile, type Finding, signTally } from '../../rules/check.ts';
import { moved as movedFinding } from '../../rules/finding.ts';
import { fromStandardInput, isStandardInput } from '../standard-input.ts';
import { type Piece, piecesOf, textOfPiece } from './pieces.ts';

/** What others need to know of a piece. Places count from the beginning of the file. */
export interface SurveyedPiece {
  readonly piece: Piece;
  /** Offset at which it begins, in UTF-16 code units, and its first line, from 0. */
  readonly start: number;
  readonly firstLine: number;
  /** Tags of its trees in their order, each followed by a line end, which no tag contains. */
  readonly tags: string;
  readonly trees: number;
  readonly formerly: readonly string[];
  readonly shared: readonly Stretch[];
}

export type SurveyedFile =
  | { readonly pieces: readonly SurveyedPiece[]; readonly digest: string | undefined }
  | { readonly problem: string };

/** What holds for all files: the stretches about sites, practice, persons and crews, by path in the workspace. */
export interface Ground {
  /** Absolute; what the paths are relative to. */
  readonly root: string;
  readonly files: readonly { readonly path: string; readonly shared: readonly Stretch[] }[];
  /** Day number. */
  readonly today: number;
}

/** A piece to be judged. */
export interface PieceToJudge {
  readonly piece: Piece;
  /** In the workspace. */
  readonly path: string;
  /** For people. */
  readonly shown: string;
  readonly start: number;
  readonly firstLine: number;
}

/** What was found in a piece, and how the signs of its trees stand. */
export interface Judged {
  readonly found: readonly Found[];
  readonly signs: SignTally;
}

/** A finding, and the text of the line on which it begins. */
export interface Found {
  readonly finding: Finding;
  readonly line: string;
}

export type Job =
  | {
      readonly kind: 'survey';
      readonly paths: readonly string[];
      readonly keep: boolean;
      readonly digest: boolean;
    }
  | { readonly kind: 'ground'; readonly ground: Ground }
  | { readonly kind: 'judge'; readonly pieces: readonly PieceToJudge[] };

export type JobOf<Kind extends Job['kind']> = Extract<Job, { readonly kind: Kind }>;

export type Answered<Kind extends Job['kind']> = {
  readonly survey: readonly SurveyedFile[];
  readonly ground: undefined;
  readonly judge: readonly Judged[];
}[Kind];

/** Does one job after the other; what a job of kind `ground` says holds for those that follow. */
export function worker(): (job: Job) => Promise<Answered<Job['kind']>> {
  let judging: ((piece: PieceToJudge) => Promise<Judged>) | undefined;
  return async job => {
    switch (job.kind) {
      case 'survey': {
        // Only a part of an inventory is sent elsewhere with digests; loading it would cost every check its time.
        const hash = job.digest ? (await import('node:crypto')).createHash : undefined;
        const input = job.paths.some(isStandardInput) ? await fromStandardInput() : undefined;
        return job.paths.map(path =>
          survey(piecesOf(path, job.keep, isStandardInput(path) ? input : undefined), hash),
        );
      }
      case 'ground':
        judging = judgeOn(job.ground);
        return undefined;
      case 'judge': {
        const judged: Judged[] = [];
        // One after the other: each has a text and its syntax in hand.
        for (const piece of job.pieces) judged.push(await judging!(piece));
        return judged;
      }
    }
  };
}

/** @param createHash to make a digest with, where one is wanted */
function survey(found: ReturnType<typeof piecesOf>, createHash: typeof CreateHash | undefined): SurveyedFile {
  const pieces: SurveyedPiece[] = [];
  const digest = createHash?.('sha256');
  let start = 0;
  let firstLine = 0;
  for (const read of found) {
    if ('problem' in read) return read;
    digest?.update(read.bytes);
    const { tags, formerly, shared, lineEnds } = outlineOf(read.text);
    pieces.push({
      piece: read.piece,
      start,
      firstLine,
      tags: tags.map(tag => `${tag}\n`).join(''),
      trees: tags.length,
      formerly,
      shared: shared.map(moved(start, firstLine)),
    });
    start += read.text.length;
    firstLine += lineEnds;
  }
  return { pieces, digest: digest?.digest('hex') };
}

/** Out of the piece into the file. */
export const moved =
  (byStart: number, byLine: number) =>
  ({ start, firstLine, text }: Stretch): Stretch => ({
    start: start + byStart,
    firstLine: firstLine + byLine,
    text: ownText(text),
  });

function judgeOn({ files, root, today }: Ground): (piece: PieceToJudge) => Promise<Judged> {
  const workspace = buildWorkspace(
    files.map(({ path, shared }) => readFile(path, shared.map(({ text }) => text).join(''))),
  );
  return async ({ piece, path, shown, start, firstLine }) => {
    const text = textOfPiece(piece, shown);
    const file = readFile(path, text);
    // Rules across files see none here: they have the whole inventory before them elsewhere.
    settingsFor(workspace, path);
    const alone: Workspace = { ...workspace, files: new Map(), practices: new Map() };
    const photos = await readPhotos(root, photoPaths(file));
    const seen = withPhotos(alone, photos);
    const found = checkFile(seen, file, today).map(finding => ({
      // About one tree: what is related lies in it, too.
      finding: start === 0 ? finding : movedFinding(finding, start, firstLine),
      line: lineAt(text, finding.start - finding.column + 1),
    }));
    return { found, signs: signTally(seen, file) };
  };
}

/** The line of a text that starts at an offset. It is kept with its finding, the text is not. */
export function lineAt(text: string, start: number): string {
  LINE.lastIndex = start;
  return ownText(LINE.exec(text)![0]);
}

const LINE = /[^\r\n]*/y;
