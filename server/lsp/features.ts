/** Requests about one file: adapters between the protocol and server/language. */

import {
  CodeActionKind,
  type DocumentSymbol,
  FoldingRangeKind,
  InlayHintKind,
  type SelectionRange,
} from 'vscode-languageserver-types';
import type { FileSnapshot } from '../facts/workspace.ts';
import { fixAll, fixes } from '../language/fixes.ts';
import { formatted, formattedOnLineEnd, formattedWithin } from '../language/formatting.ts';
import { hints } from '../language/hints.ts';
import { type Hover, hover } from '../language/hover.ts';
import { lenses } from '../language/lenses.ts';
import { photoLinks } from '../language/photos.ts';
import { folds, selections } from '../language/ranges.ts';
import { ruleLinks } from '../language/rule-links.ts';
import type { Edit } from '../language/snapshot.ts';
import { type OutlineSymbol, outline } from '../language/symbols.ts';
import {
  markup,
  SYMBOL_KINDS,
  toDiagnostic,
  toEdit,
  toOffset,
  toPosition,
  toRange,
  toSpan,
} from './convert.ts';
import { aboutFile, type Session, toldOf } from './session.ts';
import { uriOf } from './uris.ts';

const pictureAt = (uri: string): string =>
  `![Photograph](${uri.replaceAll('(', '%28').replaceAll(')', '%29')})`;

export function registerReadFeatures(session: Session): void {
  const { connection, capabilities, host } = session;
  const hovered = markup(capabilities.textDocument?.hover?.contentFormat);
  connection.onHover(
    aboutFile(session, 'hover', async ({ position }, { file, root, snapshot }) => {
      const at = toOffset(file, position);
      const found = toldOf<Hover | undefined>(
        session,
        'hover',
        () => hover(snapshot, file, at),
        markdown => ({ markdown, start: at, end: at }),
      );
      if (!found) return null;
      const { markdown, photo } = found;
      const picture = photo === undefined ? undefined : await host.files.photoPicture?.(root.base, photo);
      const shown = picture === undefined ? markdown : `${pictureAt(picture)}\n\n${markdown}`;
      return { contents: hovered(shown), range: toRange(file, found) };
    }),
  );
  connection.onDocumentSymbol(
    aboutFile(session, 'documentSymbol', (_, { file }) =>
      outline(file).map(symbol => toSymbol(file, symbol)),
    ),
  );
  connection.onFoldingRanges(
    aboutFile(session, 'foldingRange', (_, { file }) =>
      folds(file).map(({ first, last, kind }) => ({
        startLine: first,
        endLine: last,
        ...(kind === 'comment' ? { kind: FoldingRangeKind.Comment } : {}),
      })),
    ),
  );
  connection.onSelectionRanges(
    aboutFile(session, 'selectionRange', ({ positions }, { file }) =>
      positions.map(position => {
        const spans = selections(file, toOffset(file, position));
        return spans.reduceRight<SelectionRange | undefined>(
          (parent, span) => ({ range: toRange(file, span), ...(parent ? { parent } : {}) }),
          undefined,
        )!;
      }),
    ),
  );
  connection.onDocumentLinks(
    aboutFile(session, 'documentLink', (_, { file, root }) =>
      [
        ...photoLinks(file).map(link => ({ ...link, target: uriOf(root.base, link.target) })),
        ...ruleLinks(file).map(link => ({ ...link, target: host.pageOf(link.rule) })),
      ].flatMap(({ target, ...link }) =>
        target === undefined ? [] : [{ range: toRange(file, link), target }],
      ),
    ),
  );
  connection.onCodeLens(
    aboutFile(session, 'codeLens', ({ textDocument }, { file, snapshot }) =>
      lenses(snapshot, file).map(lens => ({
        range: toRange(file, lens),
        command:
          lens.weigh === undefined
            ? { title: lens.title, command: '' }
            : { title: lens.title, command: WEIGH, arguments: [textDocument.uri, lens.weigh] },
      })),
    ),
  );
  connection.languages.inlayHint.on(
    aboutFile(session, 'inlayHint', ({ range }, { file, snapshot }, token) =>
      hints(snapshot, file, toSpan(file, range), () => token.isCancellationRequested).map(hint => ({
        position: toPosition(file, hint.at),
        label: hint.text,
        tooltip: hint.tooltip,
        kind: InlayHintKind.Type,
        paddingLeft: true,
      })),
    ),
  );
}

/** The command of a tree's code lens; its arguments are the URI of the file and the tag. */
export const WEIGH = 'soundwood.weigh';

const toSymbol = (file: FileSnapshot, symbol: OutlineSymbol): DocumentSymbol => ({
  name: symbol.name,
  detail: symbol.detail,
  kind: SYMBOL_KINDS[symbol.kind],
  range: toRange(file, symbol),
  selectionRange: toRange(file, symbol.head),
  children: symbol.children.map(child => toSymbol(file, child)),
});

export function registerEditFeatures(session: Session): void {
  const { connection } = session;
  connection.onDocumentFormatting(
    aboutFile(session, 'formatting', (_, { file }) => formatted(file).map(edit => toEdit(file, edit))),
  );
  connection.onDocumentRangeFormatting(
    aboutFile(session, 'rangeFormatting', ({ range }, { file }) =>
      formattedWithin(file, toSpan(file, range)).map(edit => toEdit(file, edit)),
    ),
  );
  connection.onDocumentOnTypeFormatting(
    aboutFile(session, 'onTypeFormatting', ({ position }, { file }) =>
      formattedOnLineEnd(file, toOffset(file, position)).map(edit => toEdit(file, edit)),
    ),
  );
  connection.onCodeAction(
    aboutFile(session, 'codeAction', ({ textDocument, range, context }, located) => {
      const { file, snapshot } = located;
      const wanted = (kind: string) => context.only?.some(only => isWithin(kind, only)) ?? true;
      const { store, host } = session;
      const changes = (edits: readonly Edit[], path = file.path) => {
        const changed = snapshot.workspace.files.get(path) ?? file;
        const uri = path === file.path ? textDocument.uri : store.uriOf(located.root, path);
        return { changes: { [uri]: edits.map(edit => toEdit(changed, edit)) } };
      };
      const quick = wanted(CodeActionKind.QuickFix)
        ? fixes(snapshot, file, toSpan(file, range)).map(
            ({ title, path, edits, finding, also = [], preferred }) => ({
              title,
              kind: CodeActionKind.QuickFix,
              diagnostics: [finding, ...also].map(one => toDiagnostic(store, located, one, host.pageOf)),
              isPreferred: preferred,
              edit: changes(edits, path),
            }),
          )
        : [];
      const safe = wanted(FIX_ALL) ? fixAll(file) : [];
      const all =
        safe.length > 0
          ? [
              {
                title: 'Rewrite everything that can mean one thing only',
                kind: FIX_ALL,
                edit: changes(safe),
              },
            ]
          : [];
      return [...quick, ...all];
    }),
  );
}

export const FIX_ALL = `${CodeActionKind.SourceFixAll}.soundwood`;

/** `source.fixAll` is within `source`. */
const isWithin = (kind: string, only: string): boolean => kind === only || kind.startsWith(`${only}.`);
