/** What a remedy tells to type stays as it is typed where people read the rest in the words of their region. */

import { expect, test } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import { HEADS } from '../../grammar/fields.ts';
import { HABITS } from '../../grammar/habits.ts';
import { parseDate } from '../../server/base/dates.ts';
import { examplePhotos } from '../../server/rules/example-photos.ts';
import { RULES } from '../../server/rules/registry.ts';
import { inRegion } from '../../server/show/in-region.ts';
import { findingsOf } from '../advice/follow.ts';
import { sampleFiles } from '../samples/sample-files.ts';

const ON = parseDate('2026-06-01')!;

interface Told {
  readonly remedy: string;
  /** Lines that it may tell to write. */
  readonly lines: readonly string[];
}

const ofFindings: readonly Told[] = [
  ...RULES.flatMap(({ examples }) =>
    examples.map(example => ({
      files: [{ path: 'example.wood', text: example.text }],
      photos: examplePhotos(example),
      today: parseDate(example.on ?? '2026-06-01')!,
    })),
  ),
  ...['errors', 'fernhollow'].map(name => ({ files: sampleFiles(name), today: ON })),
]
  .flatMap(findingsOf)
  .map(({ remedy, advice = [], fix = '' }) => ({
    remedy,
    lines: [fix, ...advice.flatMap(({ head = '', lines }) => [head, ...lines])],
  }));

/** @param below lines above it */
const ofLine = (line: string, below: string): readonly Told[] =>
  parseBlock(`${below}\n${line}`).lines.flatMap(({ mistake }) =>
    mistake ? [{ remedy: mistake.remedy, lines: [mistake.fix ?? '', ...(mistake.choices ?? [])] }] : [],
  );

const ofHabits = HABITS.flatMap(({ examples }) =>
  examples.flatMap(({ written, below = 'tree 1' }) =>
    ofLine(written, /^(?:tree|site|person|crew|practice) /.test(below) ? below : `tree 1\n${below}`),
  ),
);

/** Every field with nothing behind it, and with a date that none is. */
const ofFields = [...HEADS.values()].flatMap(head =>
  [...head.fields.values()].flatMap(({ word, example }) =>
    [word, example.replace(/\d{4}-\d\d-\d\d/, '2026-02-31')].flatMap(line =>
      ofLine(line, head.under === undefined ? head.example : `tree 1\n${head.example}`),
    ),
  ),
);

const all = [...ofFindings, ...ofHabits, ...ofFields];

const LONG = /\b(?:January|February|March|April|May|June|July|August|September|October|November|December) \d/;

test('no date that is to be typed is made long', () => {
  expect(ofFields.filter(({ remedy }) => /Example: .*\d{4}-\d\d-\d\d/.test(remedy)).length).toBeGreaterThan(
    9,
  );
  const made = all.flatMap(({ remedy }) => {
    const read = inRegion(remedy, { code: 'US-OR' });
    return read
      .split(/(?<=\.) /)
      .filter(sentence =>
        LONG.test((/\b(?:[Ww]rite|[Aa]dd|as in|like|such as|Example:) .*/.exec(sentence) ?? [''])[0]),
      )
      .filter(sentence => !remedy.includes(sentence));
  });
  expect([...new Set(made)]).toEqual([]);
});

test('a line that a remedy names is there as it is typed', () => {
  const changed = all.flatMap(({ remedy, lines }) =>
    lines
      .map(line => line.trim().replace(/\s+/g, ' '))
      .filter(line => /\s/.test(line) && remedy.includes(line))
      .filter(line => ['US-OR', 'GB-ENG'].some(code => !inRegion(remedy, { code }).includes(line))),
  );
  expect([...new Set(changed)]).toEqual([]);
});
