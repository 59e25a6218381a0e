/** The page of the preview: pictures whose parts are buttons, and the words below them. */

import type { PreviewPicture, TreePreview } from '../server/lsp/requests.ts';

/** In the colors of the editor. */
export const PAGE_STYLE =
  'body{font:var(--vscode-font-size)/1.5 var(--vscode-font-family);color:var(--vscode-editor-foreground);background:var(--vscode-editor-background)}';

/** Pictures in pairs if there is room, light or dark as the editor. */
const STYLE = `${PAGE_STYLE}
body{max-width:60em;padding-bottom:2em}.vscode-dark img,.vscode-high-contrast:not(.vscode-high-contrast-light) img{color-scheme:dark}
.picture{display:inline-block;position:relative;margin:0;width:max(15em,calc(50% - .4em));max-width:100%;vertical-align:top}
img{display:block;width:100%;height:auto}
button{position:absolute;padding:0;border:2px solid transparent;border-radius:4px;background:none;cursor:pointer}
button:hover{border-color:var(--vscode-focusBorder,#0060c0)}button:focus-visible{outline:2px solid var(--vscode-focusBorder,#0060c0);outline-offset:1px}
button[aria-current]{border:2px dashed var(--vscode-focusBorder,#0060c0)}
h1{font-size:1.2em;margin:.8em 0 .2em}h2{font-size:1em;margin:1.6em 0 .4em}table{border-collapse:collapse;margin:.4em 0}
th,td{padding:.2em 1em .2em 0;text-align:left;vertical-align:top;font-variant-numeric:tabular-nums}
th{font-weight:normal;color:var(--vscode-descriptionForeground)}thead:not(:has(th:not(:empty))){display:none}
tbody td{border-top:1px solid var(--vscode-widget-border,var(--vscode-editorWidget-border))}
ul{margin:.4em 0;padding-left:1.2em}li{margin:.2em 0}`;

/**
 * Marks the parts whose record the cursor is in; of several the smallest record. The state outlives a reload of the
 * window, when the page asks for the cursor again.
 */
const SCRIPT = `const editor = acquireVsCodeApi();
const parts = [...document.querySelectorAll('button[data-first]')];
const size = part => part.dataset.last - part.dataset.first;
addEventListener('message', ({ data: { uri, line } }) => {
  editor.setState({ uri, line });
  const holding = parts.filter(({ dataset }) => dataset.first <= line && line <= dataset.last);
  const least = Math.min(...holding.map(size));
  for (const part of parts) {
    if (holding.includes(part) && size(part) === least) part.setAttribute('aria-current', 'true');
    else part.removeAttribute('aria-current');
  }
});
document.addEventListener('click', ({ target }) => {
  const part = target.closest('button[data-first]');
  if (part) editor.postMessage({ line: Number(part.dataset.first) });
});
editor.postMessage({ ready: true });`;

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
export const escaped = (text: string): string => text.replace(/[&<>"]/g, mark => ENTITIES[mark]!);

/**
 * Its policy allows its own script and style alone.
 * @param words HTML in which everything of the inventory is escaped. A link is only ever what the editor takes a word for
 * (its renderer did so up to markdown-it 12 even where the address is escaped, from memory): it is left as the word.
 */
export function previewPage({ title, pictures }: TreePreview, words: string, nonce: string): string {
  const rules: string[] = [];
  const figures = pictures.map(picture => figure(picture, rules));
  const policy = `default-src 'none'; img-src data:; style-src 'nonce-${nonce}'; script-src 'nonce-${nonce}'`;
  return `<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>${escaped(title)}</title>
<meta http-equiv="Content-Security-Policy" content="${policy}">
<style nonce="${nonce}">${STYLE}${rules.join('')}</style></head><body><main aria-label="${escaped(title)}">${figures.join(' ')}${words.replace(/<\/?a\b[^>]*>/gi, '')}</main>
<script nonce="${nonce}">${SCRIPT}</script></body></html>`;
}

/** @param rules takes where its parts are: the policy of the page allows no style on an element */
function figure({ source, description, places }: PreviewPicture, rules: string[]): string {
  const buttons = places.map(({ name, area: [left, top, width, height], first, last }) => {
    const id = `part${rules.length}`;
    rules.push(`#${id}{left:${left}%;top:${top}%;width:${width}%;height:${height}%}`);
    const label = escaped(`Go to ${name}, line ${first + 1}`);
    return `<button type="button" id="${id}" data-first="${first}" data-last="${last}" aria-label="${label}" title="${label}"></button>`;
  });
  return `<figure class="picture"><img src="${escaped(source)}" alt="${escaped(description)}">${buttons.join('')}</figure>`;
}
