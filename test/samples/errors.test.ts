/**
 * One sample for each mistake of the notation and each rule, with what `soundwood check --format lines` says about it beside
 * it. UPDATE=1 rewrites what is expected.
 */

import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { describe, expect, it } from 'vitest';
import { MISTAKE_CODES } from '../../grammar/syntax.ts';
import { parseDate } from '../../server/base/dates.ts';
import { run } from '../../server/cli/program.ts';
import { RULES } from '../../server/rules/registry.ts';
import { plain } from '../../server/show/terminal.ts';
import { SAMPLES, sampleFiles } from './sample-files.ts';

const FOLDER = `${SAMPLES}errors`;
/** Sites, persons and crews that the samples share. */
const SHARED = 'site';

const nameOf = (path: string) => basename(path, '.wood');
const named = new Set([...MISTAKE_CODES, ...RULES.map(rule => rule.name)]);
const samples = sampleFiles('errors')
  .map(({ path }) => path)
  .filter(path => nameOf(path) !== SHARED);

/** The day of a check that needs a later one. */
const DAYS: Readonly<Record<string, string>> = {
  'law-not-in-force': '2026-04-30',
  'region-read-long-ago': '2028-02-01',
};

async function check(path: string, as: 'lines' | 'json'): Promise<{ out: string; err: string }> {
  let out = '';
  let err = '';
  const day = DAYS[nameOf(path)] ?? '2026-06-01';
  await run(['check', path, '--on', day, '--as', as], {
    cwd: FOLDER,
    out: text => {
      out += text;
    },
    err: text => {
      err += text;
    },
    paint: plain,
    columns: 80,
    interactive: false,
    debug: false,
    progress: false,
    today: parseDate(day)!,
    ask: async (_question, proposal) => proposal,
  });
  return { out, err };
}

describe('samples of errors', () => {
  it('exist for every mistake and every rule, and for nothing else', () => {
    expect(samples.map(nameOf).sort()).toEqual([...named].sort());
  });

  it.each(samples)('%s shows what it is named after', async path => {
    const { out, err } = await check(path, 'json');
    expect(err).toBe('');
    const { findings } = JSON.parse(out) as { findings: readonly { readonly rule: string }[] };
    expect(findings.map(({ rule }) => rule)).toContain(nameOf(path));
  });

  it.each(samples)('%s reads as expected', async path => {
    const { out, err } = await check(path, 'lines');
    expect(err).toBe('');
    const expected = `${FOLDER}/${path.replace(/\.wood$/, '.expected')}`;
    if (process.env.UPDATE === '1') writeFileSync(expected, out);
    expect(existsSync(expected), `${expected} is missing; UPDATE=1 writes it`).toBe(true);
    expect(out).toBe(readFileSync(expected, 'utf8'));
  });
});
