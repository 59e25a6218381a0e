import { describe, expect, it } from 'vitest';
import { splitBlocks } from '../../grammar/blocks.ts';
import { HEADS } from '../../grammar/fields.ts';
import type { Value } from '../../grammar/syntax.ts';
import { tidy } from '../../grammar/tidy.ts';
import { sampleFiles } from './sample-files.ts';

const files = sampleFiles('fernhollow');
const blocks = files.flatMap(({ path, text }) => splitBlocks(text).map(placed => ({ path, ...placed })));

/** Heads as `tree`, fields as `tree dbh`. */
const used = new Set(
  blocks.flatMap(({ block }) =>
    block.sections.flatMap(section => [
      section.word,
      ...section.fields.map(line => `${section.word} ${block.lines[line]!.word}`),
    ]),
  ),
);

describe('the inventory of Fernhollow Court', () => {
  it('has no mistake of syntax', () => {
    const mistakes = blocks.flatMap(({ path, firstLine, block }) =>
      block.lines.flatMap((line, i) =>
        line.mistake ? [`${path}:${firstLine + i + 1}: ${line.mistake.message} [${line.mistake.code}]`] : [],
      ),
    );
    expect(mistakes).toEqual([]);
  });

  it('uses every head and every field of the notation', () => {
    const all = [...HEADS.values()].flatMap(head => [
      head.word,
      ...[...head.fields.keys()].map(field => `${head.word} ${field}`),
    ]);
    expect(all.length).toBeGreaterThan(100);
    expect(all.filter(word => !used.has(word))).toEqual([]);
  });

  it('has at least 44 trees in several files and folders, their tags unique in their folder', () => {
    const tags = blocks
      .filter(({ block }) => block.sections[0]?.word === 'tree')
      .map(
        ({ path, block }) =>
          `${path.startsWith('wren-park/')} ${String(tagOf(block.lines[block.sections[0]!.head]!.values))}`,
      );
    expect(tags.length).toBeGreaterThanOrEqual(44);
    expect(new Set(tags).size).toBe(tags.length);
    expect(new Set(files.map(({ path }) => path.split('/').slice(0, -1).join('/'))).size).toBeGreaterThan(1);
  });

  it.each(files)('$path is tidy', ({ text }) => {
    expect(tidy(text).text).toBe(text);
  });
});

function tagOf(values: readonly Value[]): string | undefined {
  const tag = values.find(value => value.name === 'tag');
  return tag?.type === 'text' ? tag.text : undefined;
}
