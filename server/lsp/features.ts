/** Requests about one file: adapters between the protocol and server/language. */

import type { CancellationToken } from 'vscode-languageserver';
import {
  CodeActionKind,
  type Command,
  type DocumentSymbol,
  FoldingRangeKind,
  type InlayHint,
  InlayHintKind,
  type SelectionRange,
} from 'vscode-languageserver-types';
import type { FileSnapshot } from '../facts/workspace.ts';
import { fixAll, fixes } from '../language/fixes.ts';
import { formatted, formattedOnLineEnd, formattedWithin } from '../language/formatting.ts';
import { hints } from '../language/hints.ts';
import type { Hover } from '../language/hover.ts';
import { type Lens, lenses, lensText } from '../language/lenses.ts';
import { photoLinks } from '../language/photos.ts';
import { folds, selections } from '../language/ranges.ts';
import { ruleLinks } from '../language/rule-links.ts';
import type { Edit } from '../language/snapshot.ts';
import { type OutlineSymbol, outline } from '../language/symbols.ts';
import { lintInSteps } from '../rules/check.ts';
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
import type { Publisher } from './diagnostics.ts';
import { listOf, partOf } from './json.ts';
import { aboutFile, aboutFileInTurns, type Session, toldOf } from './session.ts';
import { uriOf } from './uris.ts';

const pictureAt = (uri: string): string =>
  `![Photograph](${uri.replaceAll('(', '%28').replaceAll(')', '%29')})`;

export function registerReadFeatures(session: Session, publisher: Publisher): void {
  const { connection, store, capabilities, host } = session;
  const hovered = markup(capabilities.textDocument?.hover?.contentFormat);
  connection.onHover(
    aboutFile(session, 'hover', async ({ position }, { file, root, snapshot }) => {
      // Loaded where somebody asks for it, with what draws.
      const { hover } = await import('../language/hover.ts');
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
    listing(session, 'documentSymbol', file => outline(file).map(symbol => toSymbol(file, symbol))),
  );
  connection.onFoldingRanges(
    listing(session, 'foldingRange', file =>
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
    listing(session, 'codeLens', (file, uri) =>
      lenses(file).map(({ shows, ...lens }) => ({
        range: toRange(file, lens),
        data: { uri, shows } satisfies LensData,
      })),
    ),
  );
  connection.onCodeLensResolve(async (lens, token) => {
    const { uri, shows } = lens.data as LensData;
    const command = aboutFile(session, 'codeLens/resolve', (_, { file, snapshot }) => {
      const text = lensText(snapshot, file, toOffset(file, lens.range.start));
      if (!text) return NO_COMMAND;
      return shows === 'findings'
        ? { title: text.findings, command: '' }
        : { title: 'weigh', command: WEIGH, arguments: [uri, text.tag] };
    });
    return { ...lens, command: (await command({ textDocument: { uri } }, token)) ?? NO_COMMAND };
  });
  connection.languages.inlayHint.on(
    aboutFileInTurns(session, 'inlayHint', function* ({ textDocument, range }, { file, snapshot }) {
      // Editors ask for what is in view.
      if (store.see(textDocument.uri, range.start.line, range.end.line)) publisher.seen(textDocument.uri);
      const found: InlayHint[] = [];
      for (const own of hints(snapshot, file, toSpan(file, range))) {
        for (const hint of own)
          found.push({
            position: toPosition(file, hint.at),
            label: hint.text,
            tooltip: hint.tooltip,
            kind: InlayHintKind.Type,
            paddingLeft: true,
          });
        yield;
      }
      return found;
    }),
  );
}

/** By which a lens is resolved. */
interface LensData {
  readonly uri: string;
  readonly shows: Lens['shows'];
}

/** Of a lens whose tree is gone. */
const NO_COMMAND: Command = { title: '', command: '' };

/**
 * A request for a long list. It is kept as JSON for each block, and sent as such (json.ts): the library behind the
 * handlers passes it on as it is.
 */
function listing<P extends { readonly textDocument: { readonly uri: string } }, T extends object>(
  session: Session,
  name: string,
  list: (block: FileSnapshot, uri: string) => T[],
): (params: P, token: CancellationToken) => Promise<T[] | null> {
  const part = partOf(list);
  return aboutFileInTurns(session, name, ({ textDocument }: P, { file }) =>
    listOf(file, part, textDocument.uri),
  ) as (params: P, token: CancellationToken) => Promise<never>;
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
    aboutFileInTurns(session, 'codeAction', function* ({ textDocument, range, context }, located) {
      const { file, snapshot } = located;
      yield* lintInSteps(snapshot.workspace, file, snapshot.today);
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
      const safe = wanted(FIX_ALL) ? fixAll(snapshot, file) : [];
      const all =
        safe.length > 0
          ? [
              {
                title: 'Rewrite everything that is unambiguous',
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
