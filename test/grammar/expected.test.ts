/** What may be written next in a line, by the form of its field. */

import { describe, expect, test } from 'vitest';
import { HEADS } from '../../grammar/fields.ts';
import { expectedAfter, matchLine } from '../../grammar/match.ts';
import { parseLine } from '../../grammar/parser.ts';

/** After a field of a head, or the head itself: words, commas, and values as `name:type`. */
function expected(line: string, head: string): readonly string[] {
  const syntax = parseLine(line);
  const spec = HEADS.get(head)!;
  const field = spec.fields.get(line.trim().split(' ')[0]!);
  const { node } = field ?? spec;
  return expectedAfter(syntax, field ? 1 : head.split(' ').length, node).map(one => {
    if (one.kind === 'word') return one.words;
    if (one.kind === 'comma') return ',';
    return one.kind === 'unit' ? `unit of ${one.type}` : `${one.name}:${one.type}`;
  });
}

describe('after the word of a field', () => {
  test('the values and words of its form', () => {
    expect(expected('vigor', 'tree')).toEqual(['good', 'fair', 'poor', 'dead']);
    expect(expected('height', 'tree')).toEqual([expect.stringMatching(/:length$/)]);
    expect(expected('photo', 'defect')).toEqual(['path:path']);
  });
});

describe('within a line', () => {
  test('a number lacks its unit, and a unit nothing', () => {
    expect(expected('height 52', 'tree')).toEqual(['unit of length']);
    expect(expected('height 52 ft', 'tree')).toEqual([]);
  });

  test('what is optional, in any order and once', () => {
    expect(expected('photo a.jpg', 'defect')).toEqual([',']);
    expect(expected('photo a.jpg,', 'defect')).toContain('from');
    expect(expected('photo a.jpg, from 20 ft', 'defect')).toEqual([',']);
  });

  test('a list goes on after each of its members', () => {
    expect(expected('method reduction cuts', 'prescription')).toEqual([',']);
    expect(expected('method reduction cuts,', 'prescription')).toContain('collar cuts');
  });

  test('nothing within several words that are one value: they are expected at its beginning', () => {
    expect(expected('method reduction', 'prescription')).toEqual([]);
    expect(expected('method', 'prescription')).toContain('reduction cuts');
  });

  test('nothing after what does not fit', () => {
    expect(expected('vigor purple', 'tree')).toEqual([]);
    expect(expected('height "tall"', 'tree')).toEqual([]);
    expect(expected('height 52 kg', 'tree')).toEqual([]);
  });

  test('a botanical name is one value, however many words it has', () => {
    expect(expected('found active Colaptes auratus', 'nest check')).toEqual(['at']);
  });
});

test('the example of every field and head is followed word by word', () => {
  for (const head of HEADS.values())
    for (const { word, node, example, values } of [head, ...head.fields.values()]) {
      const full = parseLine(example);
      const first = word.split(' ').length;
      for (let length = first; length < full.items.length; length++) {
        const begun = parseLine(example.slice(0, full.items[length - 1]!.end));
        // A name of several items, such as `TR-2291` or a botanical one, may be cut in its middle.
        if (begun.items.length !== length || begun.mistake) continue;
        const next = full.items[length]!;
        const touches = next.start === full.items[length - 1]!.end;
        const isWithinName = /\b[A-Z][a-z]+$/.test(begun.text) || next.kind === 'cultivar';
        const around = example.slice(full.items[length - 1]!.start, next.end);
        const isWithinChoice = [...values.values()].some(
          value => value.kind === 'choice' && value.words.some(words => words.includes(around)),
        );
        if (touches || isWithinName || isWithinChoice) continue;
        expect(expectedAfter(begun, first, node), `${example.slice(0, next.start)}…`).not.toEqual([]);
      }
    }
});

describe('a figure below zero', () => {
  const mistakeIn = (line: string, head: string) =>
    matchLine(parseLine(line), 1, HEADS.get(head)!.fields.get(line.split(' ')[0]!)!.node, '').mistake;

  test.each([
    ['height -5 ft', 'tree'],
    ['height -12..52 ft', 'tree'],
    ['height <-5 ft', 'tree'],
    ['dbh 12 in, -3 in', 'tree'],
    ['voltage -1 kV', 'conductor'],
    ['dose -18 %', 'prescription'],
  ])('is a mistake: %s', (line, head) => {
    expect(mistakeIn(line, head)).toMatchObject({ code: 'bad-range' });
  });

  test.each([
    ['position -33.9, -70.6', 'site'],
    ['altitude -3 m', 'site'],
    ['height 0..5 ft', 'tree'],
  ])('is none where it has a meaning: %s', (line, head) => {
    expect(mistakeIn(line, head)).toBeUndefined();
  });
});
