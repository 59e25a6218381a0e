/** Trees and what is in them, of all files, to go to. */

import { useEffect, useState } from 'preact/hooks';
import type { SymbolInformation } from 'vscode-languageserver-protocol';
import { Dialog } from './dialog.ts';
import { html } from './html.ts';
import type { Language } from './language.ts';
import { pathOf } from './opened.ts';

/** More are found by more of their name. */
const MOST = 100;

export function SymbolList({
  language,
  goTo,
  close,
}: {
  language: Language;
  goTo: (path: string, line: number) => void;
  close: () => void;
}) {
  const [query, setQuery] = useState('tree ');
  const [found, setFound] = useState<readonly SymbolInformation[]>();
  useEffect(() => {
    let isWanted = true;
    const ask = async () => {
      await language.client.initializing;
      language.client.sync();
      const all = await language.client
        .request<object, readonly SymbolInformation[] | null>('workspace/symbol', { query })
        .catch(() => null);
      if (isWanted) setFound(all ?? []);
    };
    void ask();
    return () => {
      isWanted = false;
    };
  }, [query]);
  return html`<${Dialog} title="Go to" close=${close}>
    <input
      type="text"
      aria-label="Tag, name, species, defect, person"
      value=${query}
      onInput=${(event: Event) => setQuery((event.target as HTMLInputElement).value)}
    />
    <ul class="symbols" role="list">
      ${found?.slice(0, MOST).map(
        ({ name, location: { uri, range } }) => html`<li>
          <button
            onClick=${() => {
              close();
              goTo(pathOf(uri), range.start.line);
            }}
          >${name}</button>
        </li>`,
      )}
    </ul>
    <p role="status">
      ${
        found === undefined
          ? 'Looking…'
          : found.length === 0
            ? 'Nothing by that name is on record.'
            : found.length > MOST
              ? `The first ${MOST}; type more of the name to find others.`
              : null
      }
    </p>
  <//>`;
}
