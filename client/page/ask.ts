/** Questions to the language server about the text in an editor. */

import { LSPPlugin } from '@codemirror/lsp-client';
import type { EditorView } from '@codemirror/view';

/**
 * The answer about the text as it is now; null where there is none, or the request failed; `outdated` where the text
 * has changed since.
 */
export async function askAbout<Answer>(
  view: EditorView,
  method: string,
  params: (plugin: LSPPlugin) => object = () => ({}),
): Promise<Answer | null | 'outdated'> {
  const plugin = LSPPlugin.get(view);
  if (!plugin) return 'outdated';
  const { client, uri } = plugin;
  await client.initializing;
  client.sync();
  const { doc } = view.state;
  const answer = await client
    .request<object, Answer | null>(method, { textDocument: { uri }, ...params(plugin) })
    .catch(() => null);
  return doc === view.state.doc ? answer : 'outdated';
}

/** Calls back once, some time after the latest of its calls, in ms. */
export function later(
  call: () => void,
  after: number,
): { readonly soon: () => void; readonly end: () => void } {
  let timer: ReturnType<typeof setTimeout> | undefined;
  return {
    soon() {
      clearTimeout(timer);
      timer = setTimeout(call, after);
    },
    end: () => clearTimeout(timer),
  };
}
