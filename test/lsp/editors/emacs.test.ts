/** Emacs with Eglot as an independent client, set up by the very lines of the README. */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { PROGRAM } from '../../built.ts';
import { isMissing, linesOfReadme, MENDED, visit } from './editors.ts';

const missing = isMissing(
  'emacs',
  ['--batch', '--eval', "(require 'eglot)"],
  'apt-get install emacs-nox elpa-eglot',
);

describe.skipIf(missing)('Emacs with Eglot', () => {
  test('shows a problem, tells, proposes, mends, renames over files and tidies', async () => {
    const script = readFileSync('test/lsp/editors/emacs.el', 'utf8');
    const { seen, files } = await visit(
      'emacs',
      file => ['--batch', '-l', file('init.el'), '-l', file('work.el')],
      PROGRAM,
      { 'init.el': linesOfReadme('elisp'), 'work.el': script },
    );
    expect(seen.mode).toBe('soundwood-mode');
    expect(seen.problem).toMatchObject({ line: 3, column: 14, severity: 1 });
    expect(seen.problem.message).toContain('fiar');
    expect(seen.hover).toContain('Oregon white oak');
    expect(seen.completion).toEqual(['good', 'fair', 'poor', 'dead']);
    expect(seen.fixes).toEqual(['Write fair']);
    expect(files).toEqual(MENDED);
  });
});
