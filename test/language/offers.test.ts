/** Proposals for what may be written at a place: what they write and say, from text. */

import { describe, expect, test } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import { HEADS } from '../../grammar/fields.ts';
import { completions } from '../../server/language/completion.ts';
import { RULES } from '../../server/rules/registry.ts';
import { fixture } from './fixture.ts';

const completed = (source: string) => {
  const { snapshot, file, offset } = fixture(source);
  return completions(snapshot, file, offset).items;
};
const labels = (source: string) => completed(source).map(({ label }) => label);

describe('names', () => {
  const tree = (line: string, more = '') =>
    `--- a.wood\ntree 1\n stem North\n limb L1\n defect A cavity\n target "Play ""lawn"""\n prescription R1 reduce\n follow-up F1 tomogram\n${more} ${line}\n--- p.wood\nperson RV "Ruth Varga"\n qualified consulting arborist\ncrew ROPE "Rope crew"\n`;

  test('of targets are quoted as they have to be written', () => {
    expect(labels(tree('risk ‸'))).toEqual(['"Play ""lawn"""']);
  });

  test('say what they are the name of', () => {
    expect(completed(tree('follow-up F2 tomogram\n of ‸'))).toContainEqual(
      expect.objectContaining({ label: 'A', kind: 'name', detail: 'cavity' }),
    );
    expect(completed(tree('work ‸'))).toMatchObject([{ label: 'R1', detail: 'reduce' }]);
    expect(completed(tree('defect B cavity\n on ‸'))[0]).toMatchObject({
      label: 'trunk',
      detail: 'the main stem',
    });
  });

  test('of persons say what they are qualified for', () => {
    expect(completed(tree('inspection 2026-03-14 from ground\n by ‸'))).toMatchObject([
      { label: 'RV', detail: 'Ruth Varga' },
    ]);
    const [person] = completed(tree('inspection 2026-03-14 from ground\n by varga‸'));
    expect(person!.label).toBe('RV');
    expect(person!.documentation!()).toContain('consulting arborist');
  });

  test('what an exception or a risk is about is a defect, a prescription or a part', () => {
    expect(labels(tree('accept season-dose for ‸'))).toEqual(['A', 'R1']);
    expect(labels(tree('risk "Play ""lawn""" from ‸'))).toEqual(
      expect.arrayContaining(['A', 'trunk', 'North', 'L1']),
    );
  });

  test('new ones are the next free: letters for defects, numbers for the others', () => {
    expect(labels(tree('defect ‸'))).toEqual(['B']);
    expect(labels(tree('limb ‸'))).toEqual(['L2']);
    expect(labels(tree('prescription ‸'))).toEqual(['R2']);
    expect(labels(tree('follow-up ‸'))).toEqual(['F2']);
    expect(labels(tree('stem ‸'))).toEqual([]);
  });

  test('of a tree are those of its own block', () => {
    expect(labels('tree 1\n defect A cavity\ntree 2\n defect ‸\n')).toEqual(['A']);
  });
});

describe('values', () => {
  test('rules that may be accepted; in a practice block all; a long list is found by typing', () => {
    for (const { name, acceptable } of RULES) {
      const begun = name.slice(0, -1);
      expect(labels(`practice "x"\n severity ${begun}‸\n`)).toContain(name);
      expect(labels(`tree 1\n accept ${begun}‸\n`).includes(name), name).toBe(acceptable);
    }
  });

  test('a window of days without power begins today, and a bearing is a point of the compass', () => {
    expect(labels('tree 1\n conductor "x"\n dead ‸\n')).toEqual(['2026-06-01..']);
    expect(labels('tree 1\n lean 12 deg toward ‸\n')).toEqual(expect.arrayContaining(['N', 'SW', 'NNE']));
  });

  test('regions by code and name, with what they are', () => {
    expect(completed('site "x"\n region Oreg‸\n')[0]).toMatchObject({ label: 'US-OR', detail: 'Oregon' });
    expect(labels('site "x"\n region ‸\n')).toEqual(expect.arrayContaining(['US', 'US-OR', 'GB', 'DE']));
  });

  test('the days of a season are those in force', () => {
    expect(labels('site "x"\n region US\npractice "x"\n season bat maternity ‸\n')).toEqual(['05-01..08-15']);
  });

  test('when something was seen is a day of an inspection, or today', () => {
    const inspected = 'inspection 2026-03-14 from ground\n inspection 2026-05-02 from rope\n';
    expect(completed(`tree 1\n ${inspected} defect A cavity\n seen ‸\n`)).toMatchObject([
      { label: '2026-05-02', detail: 'inspection from rope' },
      { label: '2026-03-14', detail: 'inspection from ground' },
      { label: '2026-06-01', detail: 'today' },
    ]);
  });

  test('what nobody saw may be written as unseen', () => {
    expect(labels('tree 1\n defect A cavity\n depth ‸\n')).toEqual(['unseen']);
  });
});

describe('days for work', () => {
  const site = 'site "x"\n region US-OR\n';
  const work = (more: string, typed = '') =>
    completed(
      `${site}tree 1\n species Acer rubrum\n${more} prescription R1 reduce\n  dose 10 %\n  between ${typed}‸\n`,
    );

  test('are clear of the seasons, and say what closes those around them', () => {
    const [window] = work('');
    expect(window!.label).toBe('2026-09-01..2027-01-31');
    expect(window!.detail).toMatch(/before: days in the nesting season.*; after: days in the nesting season/);
  });

  test('of a window begun, the last day', () => {
    expect(work('', '2026-10-01..').map(({ label }) => label)).toEqual(['2026-10-01..2027-01-31']);
    expect(work('', '2026-07-01..')).toEqual([]);
  });

  test('begin today where a check found no nest', () => {
    const checked = ' nest check 2026-05-30 from ground\n  found none\n';
    expect(work(checked).map(({ label }) => label)).toEqual([
      '2026-06-01..2026-06-06',
      '2026-09-01..2027-01-31',
    ]);
  });

  test('no later day for a tree that is failing now', () => {
    const failing = ' inspection 2026-06-01 from ground\n lean 20 deg, new\n soil heaving\n';
    const [only, ...others] = work(failing.replace(/^.*\n/, ''));
    expect(others).toEqual([]);
    expect(only).toMatchObject({
      label: '2026-06-01..2026-06-01',
      detail: expect.stringContaining('Keep people out of its reach now'),
    });
  });
});

test('no label twice, at any place of any line', () => {
  for (const head of HEADS.values()) {
    const begun = head.under === undefined ? '' : `${HEADS.get(head.under)!.example}\n`;
    for (const { word } of head.fields.values()) {
      const found = labels(`${begun}${head.example}\n  ${word} ‸\n`);
      expect(new Set(found).size, word).toBe(found.length);
    }
  }
});

/** Why nothing leads to the value of an example: it is the writer's own. What has a closed set or a known name must. */
const OWN: Readonly<Record<string, string>> = {
  text: 'words',
  name: 'a new name',
  number: 'a count, a ratio or a coordinate',
  date: 'a day',
  window: 'days',
  monthDays: 'days that differ from those in force',
};

describe('the value of every example is led to', () => {
  const others = `--- p.wood
site "Fernhollow Court"
  region US-OR
person RV "Ruth Varga"
person JM "Jo Marsh"
person TL "Tam Lee"
crew ROPE "Rope crew"
`;
  const tree = `tree 14 "Lawn maple"
  stem North
  stem South
  limb L2
  defect A cavity
  defect B cavity
  target "Play lawn"
  prescription R1 reduce
`;
  const paths = [
    'photos/14-north.jpg',
    'photos/14-whole.jpg',
    'photos/14-a.jpg',
    'photos/14-reduced.jpg',
    'drill/14-a.csv',
  ];
  const offered = (before: string): readonly string[] => {
    const { snapshot, file, offset } = fixture(`--- a.wood\n${before}‸\n${others}`);
    const { items } = completions(snapshot, file, offset, paths);
    return items.map(({ start, end, label, text = label }) =>
      `${file.text.slice(0, start)}${text}${file.text.slice(end)}`.trimEnd(),
    );
  };

  const lines = [...HEADS.values()].flatMap(head => {
    const above = head.under === 'tree' ? tree : head.under === 'practice' ? 'practice "x"\n' : '';
    return [
      { name: head.word, above, spec: head },
      ...[...head.fields.values()].map(spec => ({
        name: `${head.word}: ${spec.word}`,
        above: `${above}${head.example}\n`,
        spec,
      })),
    ];
  });

  test.each(lines.map(line => [line.name, line] as const))('%s', (_, { above, spec }) => {
    const { example } = spec;
    const { values } = parseBlock(`${above}${example}`).lines.at(-1)!;
    /** Whether a proposal goes on with the example, where it is written up to there. */
    const leadsOn = (column: number, end: number): boolean =>
      offered(`${above}${example.slice(0, column)}`).some(
        text =>
          `${above}${example.slice(0, end)}`.startsWith(text) &&
          text.length > `${above}${example.slice(0, column)}`.trimEnd().length,
      );
    if (values.length === 0) expect(leadsOn(spec.word.length + 1, example.length)).toBe(true);
    for (const { type, start, end, name } of values) {
      const written = example.slice(start, end);
      const known = spec.values.get(name)!;
      const isOwn = known.kind === 'value' && known.refers === undefined && OWN[known.type] !== undefined;
      // A quantity is measured; its unit is proposed. A long list is found by typing.
      const begun = type === 'quantity' ? /^.*\d/.exec(written)![0].length : 3;
      if (isOwn || written.length === begun) continue;
      expect(leadsOn(start, end) || leadsOn(start + begun, end), `${written} of ${example}`).toBe(true);
    }
  });
});
