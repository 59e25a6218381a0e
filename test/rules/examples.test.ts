/** The examples of every rule are its tests: it reports on the marked lines, as marked, and nowhere else. */

import { describe, expect, it } from 'vitest';
import { splitLines } from '../../grammar/text.ts';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, readFile, withPhotos } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { examplePhotos } from '../../server/rules/example-photos.ts';
import { INTERNAL_ERROR } from '../../server/rules/raw-finding.ts';
import { RULES } from '../../server/rules/registry.ts';
import type { Example, Rule } from '../../server/rules/rule.ts';

const MARKER = /#!\s*(?:(error|warning|note)\s+)?(exceeds|may exceed|stated)\s*$/;

interface Expected {
  readonly line: number;
  readonly grade: string;
  /** Undefined where the marker leaves it to the grade. */
  readonly level: string | undefined;
}

function markers(text: string): readonly Expected[] {
  return splitLines(text).texts.flatMap((line, i) => {
    const match = MARKER.exec(line);
    if (line.includes('#!') && !match) throw new Error(`line ${i + 1}: this marker cannot be read: ${line}`);
    return match ? [{ line: i + 1, grade: match[2]!, level: match[1] }] : [];
  });
}

const usualLevel = (rule: Rule, grade: string) =>
  grade === 'exceeds' ? 'error' : grade === 'may exceed' ? 'warning' : rule.level;

function check(rule: Rule, example: Example) {
  const { text, on = '2026-06-01' } = example;
  const read = buildWorkspace([readFile('example.wood', text)]);
  const photos = examplePhotos(example);
  const workspace = photos ? withPhotos(read, photos) : read;
  const all = checkWorkspace(workspace, parseDate(on)!);
  const unsound = all.filter(({ grade, rule: name }) => grade === 'syntax' || name === INTERNAL_ERROR);
  return { unsound, own: all.filter(finding => finding.rule === rule.name) };
}

describe.each(RULES.map(rule => [rule.name, rule] as const))('%s', (_name, rule) => {
  it('has an example that it reports on', () => {
    expect(rule.examples.flatMap(({ text }) => markers(text))).not.toEqual([]);
  });

  it.each(rule.examples.map(example => [example.title, example] as const))('%s', (_title, example) => {
    const { unsound, own } = check(rule, example);
    expect(unsound.map(({ line, message }) => `${line}: ${message}`)).toEqual([]);
    const expected = markers(example.text);
    const found = own.map(({ line, grade, level }) => {
      const marked = expected.find(marker => marker.line === line);
      return { line, grade, level: marked && marked.level === undefined ? undefined : level };
    });
    // Several findings on one line need one marker.
    expect(found.filter((one, i) => i === 0 || one.line !== found[i - 1]!.line)).toEqual(expected);
    for (const { line, grade, level } of own) {
      const marked = expected.find(marker => marker.line === line)!;
      expect({ grade, level }).toEqual({
        grade: marked.grade,
        level: marked.level ?? usualLevel(rule, marked.grade),
      });
    }
  });
});
