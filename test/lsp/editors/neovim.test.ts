/** Neovim as an independent client, set up by the very lines of the README. */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { PROGRAM } from '../../built.ts';
import { isMissing, linesOfReadme, MENDED, visit } from './editors.ts';

const missing = isMissing('nvim', ['--version'], 'apt-get install neovim');

describe.skipIf(missing)('Neovim', () => {
  test('shows a problem, tells, proposes, mends, renames over files and tidies', async () => {
    const script = readFileSync('test/lsp/editors/neovim.lua', 'utf8');
    const { seen, files } = await visit(
      'nvim',
      file => ['--headless', '-i', 'NONE', '-n', '-u', file('init.lua'), '-S', file('work.lua')],
      PROGRAM,
      { 'init.lua': linesOfReadme('lua'), 'work.lua': script },
    );
    expect(seen.filetype).toBe('soundwood');
    expect([seen.comments, seen.indent]).toEqual(['# %s', 2]);
    expect(seen.problem).toMatchObject({ line: 3, column: 14, severity: 1 });
    expect(seen.problem.message).toContain('fiar');
    expect(seen.hover).toContain('Oregon white oak');
    expect(seen.completion).toEqual(['good', 'fair', 'poor', 'dead']);
    expect(seen.fixes).toEqual(['Write fair']);
    expect(files).toEqual(MENDED);
  });
});
