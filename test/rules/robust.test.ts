/**
 * Whatever an inventory says, every rule has its say in plain words, at a place in the file. FUZZ_RUNS asks for
 * a longer search.
 */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile, withPhotos } from '../../server/facts/workspace.ts';
import { checkWorkspace, type Finding } from '../../server/rules/check.ts';
import { INTERNAL_ERROR } from '../../server/rules/raw-finding.ts';
import { type Inventory, inventory } from './inventories.ts';

const RUNS = Number(process.env.FUZZ_RUNS ?? 80);
const SEED = 20260601;

/** What no sentence for people may hold. */
const UNREADABLE = [
  /\b(?:NaN|Infinity|undefined|null)\b/,
  /\[object /,
  /\d[eE][+-]?\d/,
  /\d\.\d{6}/,
  /-0(?![.\d])/,
  / {2}/,
  /\(\)/,
  /\(common practice[^)]*\) \(/,
];

const check = ({ files, photos, today }: Inventory): readonly Finding[] =>
  checkWorkspace(
    withPhotos(buildWorkspace(files.map(({ path, text }) => readFile(path, text))), photos),
    today,
  );

/** What people get to read of it. */
const wordsOf = ({ subject, message, remedy, caution, fix, related = [] }: Finding): readonly string[] => [
  subject,
  message,
  remedy,
  ...(caution ? [caution] : []),
  ...(fix ? [fix] : []),
  ...related.map(one => one.message),
];

function faultsOf({ files }: Inventory, findings: readonly Finding[]): readonly string[] {
  const texts = new Map(files.map(({ path, text }) => [path, text]));
  const faults: string[] = [];
  findings.forEach((finding, i) => {
    const fault = (what: string) =>
      faults.push(
        `${what}: ${finding.file}:${finding.line} [${finding.rule}] ${finding.message} ${finding.remedy}`,
      );
    if (finding.rule === INTERNAL_ERROR) fault('failed');
    for (const words of wordsOf(finding)) {
      const bad = UNREADABLE.find(pattern => pattern.test(words));
      if (bad) fault(`${bad} in “${words}”`);
    }
    if (finding.grade !== 'syntax' && !(/[.?]$/.test(finding.message) && /[.?]$/.test(finding.remedy)))
      fault('not a sentence');
    const text = texts.get(finding.file) ?? '';
    if (!(finding.start >= 0 && finding.end >= finding.start && finding.end <= text.length))
      fault('out of its file');
    const before = findings[i - 1];
    if (before && compare(before, finding) > 0) fault('out of order');
  });
  return faults;
}

const order = (a: string | number, b: string | number) => (a < b ? -1 : a > b ? 1 : 0);
const compare = (a: Finding, b: Finding) =>
  order(a.file, b.file) || a.start - b.start || a.end - b.end || order(a.rule, b.rule);

const shown = ({ files, today }: Inventory): string =>
  [`on ${formatDate(today)}`, ...files.map(({ path, text }) => `== ${path}\n${text}`)].join('\n');

describe('odd inventories', () => {
  it('are judged in words, in order, and in their file', { timeout: 0 }, () => {
    fc.assert(
      fc.property(inventory, given => {
        const findings = check(given);
        const faults = faultsOf(given, findings);
        expect(faults, shown(given)).toEqual([]);
      }),
      { numRuns: RUNS, seed: SEED, endOnFailure: true },
    );
  });

  it('are judged alike in whatever order their files come', { timeout: 0 }, () => {
    fc.assert(
      fc.property(inventory, given => {
        const turned = { ...given, files: given.files.toReversed() };
        expect(check(turned)).toEqual(check(given));
      }),
      { numRuns: Math.ceil(RUNS / 4), seed: SEED + 1, endOnFailure: true },
    );
  });
});
