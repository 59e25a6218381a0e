/** Converts between offsets and plain data of server/language and the types of the protocol. */

import {
  type Diagnostic,
  DiagnosticSeverity,
  DiagnosticTag,
  type Location,
  type MarkupContent,
  MarkupKind,
  type Position,
  type Range,
  SymbolKind,
  type TextEdit,
} from 'vscode-languageserver-types';
import type { Span } from '../../grammar/text.ts';
import { offsetIn, positionIn } from '../facts/positions.ts';
import { type FileSnapshot, settingsFor } from '../facts/workspace.ts';
import { plainText } from '../language/markdown.ts';
import type { Edit, FilePlace } from '../language/snapshot.ts';
import type * as symbols from '../language/symbols.ts';
import type { Finding } from '../rules/check.ts';
import { readInRegion } from '../show/in-region.ts';
import type { Located, Root, Store } from './store.ts';

export function toPosition(file: FileSnapshot, offset: number): Position {
  const { line, column } = positionIn(file, offset);
  return { line, character: column };
}

export const toRange = (file: FileSnapshot, { start, end }: Span): Range => ({
  start: toPosition(file, start),
  end: toPosition(file, end),
});

export const toOffset = (file: FileSnapshot, { line, character }: Position): number =>
  offsetIn(file, { line, column: character });

export const toSpan = (file: FileSnapshot, { start, end }: Range): Span => ({
  start: toOffset(file, start),
  end: toOffset(file, end),
});

export const toEdit = (file: FileSnapshot, edit: Edit): TextEdit => ({
  range: toRange(file, edit),
  newText: edit.text,
});

export function toLocation(store: Store, root: Root, place: FilePlace): Location {
  const file = root.workspace.files.get(place.path)!;
  return { uri: store.uriOf(root, place.path), range: toRange(file, place) };
}

const LEVELS: Record<Finding['level'], DiagnosticSeverity> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  note: DiagnosticSeverity.Information,
};

/** The source of every diagnostic. */
const SOURCE = 'soundwood';

/**
 * In the words of the region.
 * @param pageOf URI of a rule's page
 */
export function toDiagnostic(
  store: Store,
  { root, file }: Located,
  finding: Finding,
  pageOf: (rule: string) => string | undefined,
): Diagnostic {
  const { rule, level, message, remedy, caution, accepted, related } = finding;
  const page = pageOf(rule);
  const { region } = settingsFor(root.workspace, file.path);
  const text = [
    readInRegion(message, region),
    ...[remedy, caution].flatMap(part => (part === undefined ? [] : readInRegion(part, region))),
    ...(accepted ? [`Accepted by ${accepted.by}: ${accepted.because}`] : []),
  ].join('\n');
  return {
    range: {
      start: { line: finding.line - 1, character: finding.column - 1 },
      end: { line: finding.endLine - 1, character: finding.endColumn - 1 },
    },
    // Accepted findings stay visible but unobtrusive.
    severity: accepted ? DiagnosticSeverity.Hint : LEVELS[level],
    code: rule,
    ...(page === undefined ? {} : { codeDescription: { href: page } }),
    source: SOURCE,
    message: text,
    ...(accepted || rule === 'accept-stale' || rule === 'accept-expired'
      ? { tags: [DiagnosticTag.Unnecessary] }
      : {}),
    ...(related
      ? {
          relatedInformation: related.map(place => ({
            location: {
              uri: store.uriOf(root, place.file),
              range: pointAt(place.line - 1, place.column - 1),
            },
            message: readInRegion(place.message, region),
          })),
        }
      : {}),
  };
}

/** Something about the file as a whole. */
export const atTop = (message: string): Diagnostic => ({
  range: pointAt(0, 0),
  severity: DiagnosticSeverity.Information,
  source: SOURCE,
  message,
});

const pointAt = (line: number, character: number): Range => ({
  start: { line, character },
  end: { line, character },
});

export const SYMBOL_KINDS: Record<symbols.SymbolKind, SymbolKind> = {
  site: SymbolKind.Namespace,
  person: SymbolKind.Object,
  crew: SymbolKind.Object,
  practice: SymbolKind.Constant,
  tree: SymbolKind.Class,
  event: SymbolKind.Event,
  part: SymbolKind.Field,
  other: SymbolKind.Property,
};

/** Markdown, or plain text for clients that do not support it. */
export const markup =
  (formats: readonly string[] | undefined) =>
  (markdown: string): MarkupContent =>
    formats?.includes(MarkupKind.Markdown)
      ? { kind: MarkupKind.Markdown, value: markdown }
      : { kind: MarkupKind.PlainText, value: plainText(markdown) };
