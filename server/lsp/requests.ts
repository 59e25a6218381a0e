/**
 * The requests beyond the protocol: their names, and the shapes of their parameters and results. The server answers
 * `preview`, `measure`, `visit`, `report`, `paper`, `page` and `names`, and tells `day` and `counts`; the server in a browser sends
 * `files`, `photos` and `namedPaths` to the extension.
 */

import type { TextDocumentPositionParams } from 'vscode-languageserver';
import type { TextEdit } from 'vscode-languageserver-types';
import type { MeasureAsked, Measurement } from '../language/measuring.ts';
import type { TakenDown, Visit } from '../language/visit.ts';

export { NAMED_GLOB } from '../facts/photos.ts';
export type { NamedThing } from '../language/explained.ts';
export type { MeasureAsked } from '../language/measuring.ts';
export type { PreviewPicture, TreePreview } from '../language/preview.ts';
export type { TakenDown } from '../language/visit.ts';

/** Takes a text document and a position; answers with a TreePreview of the tree there, or null. */
export const PREVIEW = 'soundwood/preview';

/**
 * Takes MeasureParams; answers with a MeasureAnswer about the photograph that the line names, or null if it names none.
 * The server writes nothing.
 */
export const MEASURE = 'soundwood/measure';

export interface MeasureParams extends TextDocumentPositionParams {
  readonly asked?: MeasureAsked;
}

export interface MeasureAnswer extends Omit<Measurement, 'edits' | 'photo'> {
  /** URI of the photograph. */
  readonly photo: string;
  readonly edits?: readonly TextEdit[];
}

/**
 * Takes VisitParams; answers with a VisitAnswer about the tree at the position: who may have looked at it, and the edits that
 * write what was taken down there, or the questions that stand before. The server writes nothing.
 */
export const VISIT = 'soundwood/visit';

export interface VisitParams extends TextDocumentPositionParams {
  readonly taken?: TakenDown;
}

export interface VisitAnswer extends Omit<Visit, 'edits'> {
  readonly edits: readonly TextEdit[];
}

/**
 * Takes `{ uri }` of a folder or of a file in it; answers with the report on the folder as one HTML page, or null if
 * the folder is not open. The page names photographs and does not show them: the server reads no pictures.
 */
export const REPORT = 'soundwood/report';

/** Takes PaperParams; answers with the Paper, as the program writes it, or null if the folder is not open. */
export const PAPER = 'soundwood/paper';

export interface PaperParams {
  /** URI of the folder, or of a file in it. */
  readonly uri: string;
  readonly kind: PaperKind;
  /** Tag of the only tree wanted. */
  readonly tag?: string;
}

export type PaperKind = 'weigh' | 'history' | 'calendar' | 'csv' | 'geojson' | 'jsonl';

export interface Paper {
  /** Of the file that it can be kept in. */
  readonly name: string;
  readonly mediaType: string;
  readonly text: string;
  /** What could not be computed, for people. */
  readonly problems: readonly string[];
}

/**
 * Takes PageParams; answers with a page in Markdown on the rule, the limit and the word of the notation of that name, or
 * null if there are none.
 */
export const PAGE = 'soundwood/page';

/** Answers with a NamedThing for each name that `page` knows. */
export const NAMES = 'soundwood/names';

export interface PageParams {
  readonly name: string;
}

/**
 * A notification with CountsParams, to clients with `counts: true` among their initialization options: how much there is
 * in a file of which not all diagnostics are sent, and, once more, when all are sent again.
 */
export const COUNTS = 'soundwood/counts';

export interface CountsParams {
  /** URI of the file. */
  readonly uri: string;
  /** Null if its diagnostics are all there. */
  readonly counts: { readonly errors: number; readonly warnings: number } | null;
}

/** Takes FilesParams; answers with the SourceText of every .wood file. Files outside the folder are ignored. */
export const FILES = 'soundwood/files';

/** Takes PhotosParams; answers with a PhotoHead for each photograph of which something is known. */
export const PHOTOS = 'soundwood/photos';

/** Tells DayParams: at the start, and whenever it changes. Clients without a use for it ignore it, as its name asks. */
export const DAY = '$/soundwood/day';

export interface DayParams {
  /** As of which inventories are checked: 2026-06-01. */
  readonly day: string;
  /** Whether no other day is stated. */
  readonly isToday: boolean;
  /** What is wrong with the day that is stated. */
  readonly mistake?: string;
}

/** Takes NamedPathsParams; answers with the paths of the photographs and measured files in the folder, relative to it, with `/`. */
export const NAMED_PATHS = 'soundwood/namedPaths';

export interface NamedPathsParams {
  /** URI. */
  readonly folder: string;
  readonly most: number;
}

export interface FilesParams {
  /** URI. */
  readonly folder: string;
  /** URI of the only file wanted; all of the folder if absent. */
  readonly file?: string;
}

export interface SourceText {
  readonly uri: string;
  readonly text: string;
}

export interface PhotosParams {
  /** URI. */
  readonly folder: string;
  /** Relative to the folder, with `/`. */
  readonly paths: readonly string[];
  /** How many of the first bytes are wanted. */
  readonly bytes: number;
}

export interface PhotoHead {
  readonly path: string;
  readonly missing: boolean;
  /** Absent if the file exists and could not be read. */
  readonly head?: Uint8Array;
}
