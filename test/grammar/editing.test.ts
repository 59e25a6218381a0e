import { describe, expect, test } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import { HEADS } from '../../grammar/fields.ts';
import { languageConfiguration, snippets, textMateGrammar } from '../../server/docs/editor-files.ts';

interface Snippet {
  readonly body: readonly string[];
}

/** What stands in the text when nobody has written anything at the stops yet. */
const unfilled = (line: string): string =>
  line
    .replace(/\$\{\d+\|([^,|]*)[^}]*\|\}/g, '$1')
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
    .replace(/\$\d+/g, '')
    .replace('$CURRENT_YEAR-$CURRENT_MONTH-$CURRENT_DATE', '2026-06-01');

describe('snippets', () => {
  test.each(Object.entries(snippets() as Record<string, Snippet>))(
    '%s opens its head and its fields',
    (word, snippet) => {
      const head = HEADS.get(word)!;
      const parent = head.under ? [HEADS.get(head.under)!.example] : [];
      const { lines } = parseBlock([...parent, ...snippet.body.map(unfilled)].join('\n'));
      const own = lines.slice(parent.length).filter(line => line.role !== 'blank');
      expect(own[0]).toMatchObject({ role: 'head', word });
      expect(own.slice(1).map(line => head.fields.has(line.word ?? ''))).toEqual(
        own.slice(1).map(() => true),
      );
    },
  );

  test('no snippet brings a measurement or a reason of its own', () => {
    const given = Object.values(snippets() as Record<string, Snippet>)
      .flatMap(({ body }) => parseBlock(body.map(unfilled).join('\n')).lines)
      .flatMap(line => line.values)
      .filter(
        value =>
          (value.type === 'quantity' && value.quantity.form !== 'unseen') ||
          (value.type === 'text' && /^(text|because)$/.test(value.name) && value.text !== ''),
      );
    expect(given).toEqual([]);
  });
});

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
      expect(scopeOf(`    ${field.example}`), field.example).toBe('support.type.property-name.soundwood');
    }
  });

  test('a word that is none stays plain', () => {
    expect(scopeOf('  heigth 52 ft')).toBeUndefined();
    expect(scopeOf('trees 14')).toBeUndefined();
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
