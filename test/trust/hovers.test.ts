/** Whatever stands in an inventory stays text in what editors show of it, and no word of it becomes an order to them. */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import type { DatedWorkspace } from '../../server/facts/workspace.ts';
import { buildWorkspace, type FileSnapshot, readFile } from '../../server/facts/workspace.ts';
import { completions } from '../../server/language/completion.ts';
import { hover } from '../../server/language/hover.ts';
import { plainText } from '../../server/language/markdown.ts';
import { previewOf } from '../../server/language/preview.ts';
import { HIDDEN, HOSTILE_TEXTS, inventoryOf } from './hostile.ts';

/** The only things that our own Markdown has beside words: pictures within the text, and code. */
const PICTURE = /!\[(?:\\.|[^\]\\])*\]\(data:image\/svg\+xml;base64,[A-Za-z0-9+/=]+\)/g;
const CODE = /(?<!\\)(`+)(?!`)[^\n]*?(?<!`)\1(?!`)/g;

/** CommonMark 0.31, 2.4 and 2.5: what a backslash or an entity stands for is no mark any more. */
const withoutEscapes = (markdown: string): string =>
  markdown.replace(/\\[!-/:-@[-`{-~]/g, '').replace(/&(?:amp|lt|gt);/g, '');

/** What would begin a link, a picture, an element, code, an icon, mathematics, a heading or a list not of ours. */
const ACTIVE =
  /[[\]<>@$~`\\]|!(?=\[)|:\/\/|\bwww\.|(?<!\*)\*(?!\*)|^#(?!## )|^(?:[-+*] |\d+[.)] )?(?:[-+*]|\d+[.)])\s|^ {4}|^[-=]{2,}\s*$/m;

function expectInert(markdown: string): void {
  const left = withoutEscapes(markdown.replace(PICTURE, '').replace(CODE, ''));
  expect(left.replace(/^- /gm, '').replace(/^(?:\| --- )+\|$/gm, '')).not.toMatch(ACTIVE);
  expect(markdown).not.toMatch(HIDDEN);
  expect(markdown).not.toMatch(/\r/);
}

function opened(text: string): { readonly snapshot: DatedWorkspace; readonly file: FileSnapshot } {
  const file = readFile('a.wood', text);
  return { snapshot: { workspace: buildWorkspace([file]), today: parseDate('2026-06-01')! }, file };
}

/** Where a word, a value or a line begins or ends. */
const places = (text: string): readonly number[] => [...text.matchAll(/\b|$/gm)].map(({ index }) => index);

const spaced = (text: string): string => text.replace(/\s+/g, ' ').trim();

describe.each(HOSTILE_TEXTS)('%j', hostile => {
  const { snapshot, file } = opened(inventoryOf(hostile, '1'));
  const [tree] = file.trees;

  test('in hovers and beside proposals', () => {
    const shown = new Set<string>();
    let told = 0;
    for (const offset of places(file.text)) {
      if (offset < told) continue;
      const found = hover(snapshot, file, offset);
      if (!found) continue;
      shown.add(found.markdown);
      told = found.end;
    }
    for (const word of ['limit ', 'by ', 'with ', 'accept ', 'on ', 'risk ']) {
      const offset = file.text.indexOf(`  ${word}`) + 2 + word.length;
      for (const { documentation } of completions(snapshot, file, offset).items)
        if (documentation !== undefined) shown.add(documentation());
    }
    expect(shown.size).toBeGreaterThan(40);
    for (const markdown of shown) expectInert(markdown);
    // It is there to be read: as the name of the tree, of the person and of the view.
    const said = [...shown].map(plainText).filter(text => text.includes(spaced(hostile)));
    expect(said.length).toBeGreaterThan(2);
  });

  test('in the picture beside the text', () => {
    const { markdown } = previewOf(snapshot, file, tree!);
    expect(markdown.match(PICTURE)!.length).toBeGreaterThan(1);
    // Its own headings: the tree, and below it its parts.
    expectInert(markdown.replace(/^# (?=Tree )/m, '').replace(/^## (?=[A-Z])/gm, ''));
    expect(plainText(markdown)).toContain(spaced(hostile));
  });
});

test('the editor is told that no order and no HTML of ours is to be trusted', () => {
  const sources = ['extension', 'preview', 'report'].map(name => readFileSync(`client/${name}.ts`, 'utf8'));
  expect(sources.join('')).toMatch(/isTrusted: false, supportHtml: false/);
  expect(sources.join('')).not.toMatch(/isTrusted: true|supportHtml: true|enableCommandUris: true/);
});
