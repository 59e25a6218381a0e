/** What a language server keeps: memory for a large file, and after thousands of keys. */

import { Store } from '../lsp/store.ts';
import { shownOf } from '../rules/check.ts';
import { generateTrees, printTrees } from './inventory.ts';
import { heapInUse } from './measure.ts';

const BYTES_A_MEGABYTE = 2 ** 20;
/** 2026-06-01. */
const TODAY = 20605;
const WARM_UP = 500;
const URI = 'file:///bench/trees.wood';

export interface Kept {
  readonly trees: number;
  readonly edits: number;
  /** MB in use after a collection: with the file open and judged, and after the edits. */
  readonly before: number;
  readonly after: number;
}

export function measureKept(trees: number, edits: number): Kept {
  const inUse = (): number => heapInUse() / BYTES_A_MEGABYTE;
  const store = new Store();
  const text = printTrees(generateTrees(trees));
  store.addFolder('file:///bench', { base: 'file:///bench', files: [{ uri: URI, text }], problems: [] });
  store.openDocument({ uri: URI, version: 1, text });
  const lines = text.split('\n').flatMap((line, i) => (line.startsWith('  dbh') ? [i] : []));
  const judge = () => {
    const { root, file } = store.find(URI)!;
    shownOf(root.workspace, file, TODAY, 1000);
  };
  const edit = (i: number) => {
    // A digit into one tree after the other, and out of it again.
    const line = lines[(i >> 1) % lines.length]!;
    const isTyped = i % 2 === 0;
    const range = { start: { line, character: 14 }, end: { line, character: isTyped ? 14 : 15 } };
    store.changeDocument(URI, i + 2, [{ range, text: isTyped ? '1' : '' }]);
    judge();
  };
  judge();
  for (let i = 0; i < WARM_UP; i++) edit(i);
  const before = inUse();
  for (let i = WARM_UP; i < WARM_UP + edits; i++) edit(i);
  return { trees, edits, before, after: inUse() };
}
