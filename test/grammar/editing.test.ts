import { describe, expect, test } from 'vitest';
import { HEADS } from '../../grammar/fields.ts';
import { languageConfiguration, markdownInjection, textMateGrammar } from '../../server/docs/editor-files.ts';

/** The rules of the grammar that colour a line, as far as their own pattern goes. */
function scopeOf(line: string): string | undefined {
  const { patterns } = textMateGrammar() as {
    patterns: { begin?: string; beginCaptures?: Record<string, { name: string }> }[];
  };
  const found = patterns.find(
    ({ begin }) => begin && new RegExp(begin.replaceAll('\\x{FEFF}', '\\uFEFF'), 'u').test(line),
  );
  return found?.beginCaptures?.[1]?.name;
}

describe('highlighting', () => {
  test.each([...HEADS.values()].map(head => [head.word, head] as const))('%s and its fields', (_, head) => {
    expect(scopeOf(head.example)).toBe('keyword.control.head.soundwood');
    for (const field of head.fields.values()) {
      expect(scopeOf(`    ${field.example}`), field.example).toBe('variable.other.property.field.soundwood');
    }
  });

  test('a word that is none stays plain', () => {
    expect(scopeOf('  heigth 52 ft')).toBeUndefined();
    expect(scopeOf('trees 14')).toBeUndefined();
  });
});

describe('fenced blocks of Markdown', () => {
  const [rule] = (markdownInjection() as { patterns: { begin: string; end: string }[] }).patterns;
  const begins = (text: string) =>
    new RegExp(
      rule!.begin.replaceAll('|\\G', '').replace('(?i:wood|soundwood)', 'wood|soundwood'),
      'iu',
    ).exec(text);
  test.each(['```wood', '  ~~~ Soundwood', '````wood {.numbered}'])('%s begins one', text => {
    const fence = begins(text)![3]!;
    const end = new RegExp(rule!.end.replaceAll('|\\G', '').replace('\\3', fence), 'u');
    expect(end.test(fence)).toBe(true);
    expect(end.test('  height 52 ft')).toBe(false);
  });
  test.each(['```woodwork', '```ts', '`wood`', 'wood'])('%s begins none', text => {
    expect(begins(text)).toBeNull();
  });
});

test('what stands after a head is indented', () => {
  const { indentationRules } = languageConfiguration() as {
    indentationRules: { increaseIndentPattern: string };
  };
  const pattern = new RegExp(indentationRules.increaseIndentPattern, 'u');
  expect(pattern.test('  nest check 2026-03-14 from drone')).toBe(true);
  expect(pattern.test('  height 52 ft')).toBe(false);
});
