import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { splitBlocks } from '../../grammar/blocks.ts';
import { splitLines } from '../../grammar/text.ts';
import { tidy } from '../../grammar/tidy.ts';
import { damagesOf } from './damage.ts';
import { SAMPLE } from './sample.ts';

/** Every word, mark and comment, without white space: what tidying may never change. */
const substance = (text: string) => text.replace(/^\uFEFF/, '').replace(/\s+/g, '');

/** Words and values, without places. */
const meaning = (text: string) =>
  splitBlocks(text).flatMap(({ block }) =>
    block.lines
      .filter(line => line.word !== undefined)
      .map(line => [line.word, line.values.map(({ start: _, end: __, ...value }) => value)]),
  );

describe('tidy', () => {
  test('the canonical print stays as it is', () => {
    expect(tidy(SAMPLE)).toEqual({ text: SAMPLE, left: [] });
  });

  test('sets white space and nothing else', () => {
    const untidy =
      'tree   14 "Oak"\n species Quercus garryana # big\n\n\n  dbh  ~ 26in,9 .. 12 in\nstem  A\nfrom > 9 ft\ntree 15';
    expect(tidy(untidy).text).toBe(
      [
        'tree 14 "Oak"',
        '  species     Quercus garryana  # big',
        '',
        '  dbh         ~26 in, 9..12 in',
        '  stem A',
        '    from      > 9 ft',
        '',
        'tree 15',
        '',
      ].join('\n'),
    );
  });

  test('names keep their parts together, whatever they look like', () => {
    const text = ['12-5', '14m', '7.2.1', '14-a', '00127', '2026-03-14', 'a/b', 'T-014', '3.5x']
      .map(tag => `tree ${tag}\n`)
      .join('\n');
    expect(tidy(text)).toEqual({ text, left: [] });
  });

  test('a blank line above a damaged head stays where it is', () => {
    const text = ';\n# x\n\n  2024-02-29\n';
    expect(tidy(text).text).toBe(text);
  });

  test('a range is no name', () => {
    expect(tidy('tree 1..3\n').left).toEqual([0]);
  });

  test('a remark at the end of a block stays in it', () => {
    const text = 'tree 1\n  dbh         9 in\n  # looked at twice\n\n# the next one\ntree 2\n';
    expect(tidy(text).text).toBe(text);
  });

  test('keeps CRLF where the file has it, and drops a byte order mark', () => {
    expect(tidy('\uFEFFtree 1\r\ndbh 9 in\r\n').text).toBe('tree 1\r\n  dbh         9 in\r\n');
  });

  test('leaves a line with a mistake as it is and says which', () => {
    const { text, left } = tidy('tree 1\n   dbh   nine\n   height 9 m\n');
    expect(text).toBe('tree 1\n   dbh   nine\n  height      9 m\n');
    expect(left).toEqual([1]);
  });

  test('keeps everything, keeps the meaning and is idempotent on shaken and spoilt text', () => {
    const lines = splitLines(SAMPLE).texts;
    const shaken = fc
      .array(
        fc.tuple(
          fc.nat(lines.length - 1),
          fc.constantFrom('indent', 'blank', 'comment', 'spoil', 'wide'),
          fc.nat(40),
        ),
        {
          maxLength: 25,
        },
      )
      .map(changes => {
        const out = [...lines];
        for (const [at, how, n] of changes) {
          const line = out[at]!;
          if (how === 'indent') out[at] = ' '.repeat(n % 9) + line.trimStart();
          else if (how === 'blank') out[at] = `${line}\n\n\n`;
          else if (how === 'comment') out[at] = `${line}\n${' '.repeat(n % 5)}# remark ${n}`;
          else if (how === 'wide' && !line.includes('"')) out[at] = line.replace(/ /g, '  \t');
          else if (how === 'spoil') out[at] = damagesOf(line)[n]?.line ?? line;
        }
        return out.join(changes.length % 2 ? '\n' : '\r\n');
      });
    fc.assert(
      fc.property(shaken, text => {
        const once = tidy(text).text;
        expect(substance(once)).toBe(substance(text));
        expect(tidy(once).text).toBe(once);
        expect(meaning(once)).toEqual(meaning(text));
      }),
      { numRuns: 400, seed: 20260601 },
    );
  });

  test('any text at all: nothing is lost and the second time changes nothing', () => {
    const word = fc.constantFrom(
      'tree',
      'defect',
      '14',
      '"',
      '#',
      'dbh',
      '26 in',
      '..',
      ',',
      '\n',
      '\r\n',
      '~',
      '🌲',
      '2026-02-30',
      'x',
      '\t',
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'grapheme' }),
          fc.array(word).map(words => words.join(' ')),
        ),
        text => {
          const once = tidy(text).text;
          expect(substance(once)).toBe(substance(text));
          expect(tidy(once).text).toBe(once);
        },
      ),
      { numRuns: 2000, seed: 20260602 },
    );
  });
});
