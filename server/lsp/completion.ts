/** Completion: short lists, and more about an item when somebody looks at it. */

import {
  type CompletionItem,
  CompletionItemKind,
  type CompletionList,
  InsertTextFormat,
  type MarkupContent,
} from 'vscode-languageserver-types';
import type { FileSnapshot } from '../facts/workspace.ts';
import { completions, type PlacedCompletionItem, wantsPaths } from '../language/completion.ts';
import type { CompletionKind } from '../language/completion-items.ts';
import { markup, toOffset, toRange } from './convert.ts';
import { aboutFile, answering, type Session } from './session.ts';

const KINDS: Record<CompletionKind, CompletionItemKind> = {
  head: CompletionItemKind.Keyword,
  field: CompletionItemKind.Field,
  record: CompletionItemKind.Snippet,
  word: CompletionItemKind.EnumMember,
  unit: CompletionItemKind.Unit,
  species: CompletionItemKind.Class,
  name: CompletionItemKind.Variable,
  rule: CompletionItemKind.Constant,
  limit: CompletionItemKind.Constant,
  date: CompletionItemKind.Value,
  region: CompletionItemKind.Constant,
  file: CompletionItemKind.File,
};

/** Kinds whose detail says what a bare name means, and is shown in the list itself. */
const EXPLAINED: ReadonlySet<CompletionKind> = new Set([
  'species',
  'name',
  'region',
] satisfies CompletionKind[]);

/** Ways of clients that completion depends on. */
interface Ways {
  readonly snippets: boolean;
  readonly labelDetails: boolean;
  readonly documented: (markdown: string) => MarkupContent;
  /**
   * Compares filter texts with the symbol at the cursor alone, as Eglot does: with the last word of what a proposal
   * takes the place of.
   */
  readonly comparesLastWord: boolean;
}

/** The latest list, in which items are looked up that somebody wants to know more about. */
interface Latest {
  readonly number: number;
  readonly items: readonly PlacedCompletionItem[];
}

export function registerCompletion(session: Session): void {
  const { connection, capabilities, client, host } = session;
  const item = capabilities.textDocument?.completion?.completionItem;
  const ways: Ways = {
    snippets: item?.snippetSupport === true,
    labelDetails: item?.labelDetailsSupport === true,
    documented: markup(item?.documentationFormat),
    // Its older versions do not say who they are, but name the folder in the way of older clients.
    comparesLastWord: client.name === undefined ? client.namesRootPath : client.name === 'Eglot',
  };
  let latest: Latest = { number: 0, items: [] };

  connection.onCompletion(
    aboutFile(
      session,
      'completion',
      async ({ position }, { file, root, snapshot }): Promise<CompletionList> => {
        const offset = toOffset(file, position);
        const paths =
          host.files.namedPaths && wantsPaths(file, offset) ? await host.files.namedPaths(root.base) : [];
        const { items, isComplete } = completions(snapshot, file, offset, paths);
        const { number } = (latest = { number: latest.number + 1, items });
        return {
          isIncomplete: !isComplete,
          items: items.map((one, rank) => ({ ...toItem(file, one, rank, ways), data: [number, rank] })),
        };
      },
    ),
  );
  connection.onCompletionResolve(
    answering(session, 'completionItem/resolve', (asked: CompletionItem): CompletionItem => {
      const [number, rank] = Array.isArray(asked.data) ? asked.data : [];
      const found = number === latest.number ? latest.items[rank] : undefined;
      if (!found) return asked;
      const { detail, documentation } = found;
      return {
        ...asked,
        ...(detail === undefined ? {} : { detail }),
        ...(documentation ? { documentation: ways.documented(documentation()) } : {}),
      };
    }) as (asked: CompletionItem) => Promise<CompletionItem>,
  );
}

/** What the list shows, and what is written; detail and documentation are left to the second request. */
function toItem(
  file: FileSnapshot,
  { label, kind, text, snippet, detail, filterText, start, end }: PlacedCompletionItem,
  rank: number,
  { snippets, labelDetails, comparesLastWord }: Ways,
): CompletionItem {
  const isSnippet = snippets && snippet !== undefined;
  const filter = comparesLastWord ? filterText.slice(lastWord(file.text.slice(start, end))) : filterText;
  return {
    label,
    kind: isSnippet && snippet !== label ? CompletionItemKind.Snippet : KINDS[kind],
    sortText: String(rank).padStart(2, '0'),
    ...(filter === label ? {} : { filterText: filter }),
    textEdit: { range: toRange(file, { start, end }), newText: isSnippet ? snippet : (text ?? label) },
    ...(isSnippet ? { insertTextFormat: InsertTextFormat.Snippet } : {}),
    ...(labelDetails && detail !== undefined && EXPLAINED.has(kind)
      ? { labelDetails: { description: detail } }
      : {}),
  };
}

/** Where the last word of a text begins. */
const lastWord = (text: string): number => text.length - /[^\s"]*"?$/.exec(text)![0].length;
