/** Merging fact by fact: edits of different facts add up, edits of one fact collide there alone, nothing is lost. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import { HEADS } from '../../grammar/fields.ts';
import { mergeInventories } from '../../grammar/merge.ts';
import { headName, isNaming } from '../../grammar/names.ts';
import { MAPLE, OAK, SITE } from './inventory.ts';

const BASE = `# the lawn\n\n${SITE}\n${OAK}\n${MAPLE}`;
const replaced = (text: string, from: string, to: string) => {
  expect(text).toContain(from);
  return text.replace(from, to);
};
const merged = (ours: string, theirs: string, base = BASE) => mergeInventories(base, ours, theirs);

test('every head but that of the site is found again by a name', () => {
  for (const { word, under, example } of HEADS.values()) {
    const { lines, sections } = parseBlock(under === undefined ? example : `${under} 1 "one"\n${example}`);
    const head = lines[sections.at(-1)!.head]!;
    expect(head.word).toBe(word);
    expect(
      head.values.some(value => isNaming(word, value)),
      word,
    ).toBe(word !== 'site');
    expect(headName(head)).toMatch(word === 'site' ? /^site$/ : new RegExp(`^${word} .`));
  }
});

describe('edits that do not touch', () => {
  const dbh = (text: string) => replaced(text, 'dbh         41 in', 'dbh         42 in');
  const height = (text: string) => replaced(text, 'height      52 ft', 'height      53 ft');

  test('of two lines below each other add up', () => {
    expect(merged(dbh(BASE), height(BASE))).toEqual({ text: height(dbh(BASE)), conflicts: 0 });
  });

  test('of a value and of the spacing of all lines add up', () => {
    const spaced = (text: string) => text.replaceAll(/^( {2,})(\S+) +/gm, '$1$2 ');
    expect(merged(dbh(BASE), spaced(BASE))).toEqual({
      text: replaced(spaced(BASE), 'dbh 41 in', 'dbh         42 in'),
      conflicts: 0,
    });
    expect(merged(spaced(BASE), dbh(BASE))).toEqual({
      text: replaced(spaced(BASE), 'dbh 41 in', 'dbh         42 in'),
      conflicts: 0,
    });
  });

  test('of a tag and of the record below it, on either side; two new tags of one tree collide', () => {
    const retagged = (text: string) =>
      replaced(text, 'tree 11 "Gate oak"', 'tree 111 "Gate oak"\n  formerly    11');
    const dose = (text: string) => replaced(text, 'dbh         41 in', 'dbh         42 in');
    const oak = (text: string) => replaced(text, 'height      61 ft', 'height      60 ft');
    for (const edit of [dose, oak]) {
      const expected = { text: retagged(edit(BASE)), conflicts: 0 };
      expect(merged(retagged(BASE), edit(BASE))).toEqual(expected);
      expect(merged(edit(BASE), retagged(BASE))).toEqual(expected);
    }
    expect(
      merged(retagged(BASE), replaced(BASE, 'tree 11 "Gate oak"', 'tree 112 "Gate oak"\n  formerly 11'))
        .conflicts,
    ).toBeGreaterThan(0);
  });

  test('of one place: trees that both append, records that both add to one tree', () => {
    const tree = (tag: string) => `\n# planted this year\ntree ${tag}\n  species Acer rubrum\n`;
    expect(merged(BASE + tree('20'), BASE + tree('21'))).toEqual({
      text: BASE + tree('20') + tree('21'),
      conflicts: 0,
    });
    const record = (name: string) => `\n  defect ${name} wound\n    diameter 3 in\n`;
    expect(merged(BASE + record('B'), BASE + record('C'))).toEqual({
      text: BASE + record('B') + record('C'),
      conflicts: 0,
    });
  });

  test('of order and of a value add up', () => {
    const turned = `# the lawn\n\n${SITE}\n${MAPLE}\n${OAK}`;
    expect(merged(turned, dbh(BASE))).toEqual({ text: dbh(turned), conflicts: 0 });
    expect(merged(dbh(BASE), turned)).toEqual({ text: dbh(turned), conflicts: 0 });
  });

  test('that are the same are made once', () => {
    expect(merged(height(dbh(BASE)), dbh(BASE))).toEqual({ text: height(dbh(BASE)), conflicts: 0 });
  });

  test('from two files that had no text', () => {
    expect(merged(OAK, MAPLE, '')).toEqual({ text: `${OAK}\n${MAPLE}`, conflicts: 0 });
  });

  test('keep line ends and byte order mark as the side that changed them has them', () => {
    const crlf = `\uFEFF${BASE.replaceAll('\n', '\r\n')}`;
    expect(merged(crlf, dbh(BASE)).text).toBe(dbh(crlf));
    expect(merged(dbh(BASE), crlf).text).toBe(dbh(crlf));
    expect(merged(dbh(crlf), height(crlf), crlf).text).toBe(height(dbh(crlf)));
  });
});

describe('edits that collide', () => {
  const dbh = (value: string) => replaced(BASE, '  dbh         41 in', `  dbh         ${value}`);

  test('of one field leave markers around that line', () => {
    const { text, conflicts } = merged(
      replaced(dbh('42 in'), 'vigor       good', 'vigor       fair'),
      dbh('43 in'),
    );
    expect(conflicts).toBe(1);
    expect(text).toBe(
      replaced(
        replaced(BASE, 'vigor       good', 'vigor       fair'),
        '  dbh         41 in\n',
        '<<<<<<< ours\n  dbh         42 in\n=======\n  dbh         43 in\n>>>>>>> theirs\n',
      ),
    );
  });

  test('of one line of many leave markers, too', () => {
    const photo = (name: string) => `tree 1\n  photo ${name}.jpg\n  photo z.jpg\n`;
    expect(merged(photo('b'), photo('c'), photo('a'))).toEqual({
      text: 'tree 1\n<<<<<<< ours\n  photo b.jpg\n=======\n  photo c.jpg\n>>>>>>> theirs\n  photo z.jpg\n',
      conflicts: 1,
    });
  });

  test('a record that one takes away and the other changes is left for people to decide', () => {
    const without = BASE.slice(0, BASE.indexOf('\n  prescription R1'));
    const { text, conflicts } = merged(without, replaced(BASE, 'dose      40 %', 'dose      18 %'));
    expect(conflicts).toBe(1);
    expect(text).toMatch(
      /\n<<<<<<< ours\n=======\n {2}prescription R1 reduce\n {4}dose {6}18 %\n[\s\S]*\n>>>>>>> theirs\n$/,
    );
    expect(merged(without, BASE)).toEqual({ text: without, conflicts: 0 });
  });

  test('two new trees of one tag are not mixed', () => {
    const tree = (species: string, more: string) => `${BASE}\ntree 20\n  species ${species}\n${more}`;
    const { text, conflicts } = merged(
      tree('Acer rubrum', '  dbh 3 in\n'),
      tree('Betula nigra', '  height 12 ft\n'),
    );
    expect(conflicts).toBe(1);
    expect(text).toBe(
      `${BASE}\n<<<<<<< ours\ntree 20\n  species Acer rubrum\n  dbh 3 in\n=======\ntree 20\n  species Betula nigra\n  height 12 ft\n>>>>>>> theirs\n`,
    );
  });

  test('markers are as long as they are asked for', () => {
    expect(mergeInventories(BASE, dbh('42 in'), dbh('43 in'), 12).text).toContain(
      `\n${'<'.repeat(12)} ours\n`,
    );
  });
});

/** An inventory as a value: trees with fields and defects, each edit touching one fact of it. */
type Facts = Readonly<Record<string, string>>;
interface TreeModel {
  readonly fields: Facts;
  readonly defects: Readonly<Record<string, Facts>>;
}
type Model = Readonly<Record<string, TreeModel>>;

const FIELDS = ['dbh', 'height', 'age', 'vigor', 'soil'] as const;
const VALUES: Readonly<Record<string, readonly string[]>> = {
  dbh: ['12 in', '13 in', '~14 in', '30..35 cm'],
  height: ['30 ft', '31 ft', '9..10 m'],
  age: ['young', 'mature', 'veteran'],
  vigor: ['good', 'fair', 'poor'],
  soil: ['firm', 'wet', 'unseen'],
  diameter: ['10 in', '11 in', '12 in'],
  depth: ['> 3 in', '4 in', 'unseen'],
  length: ['1 ft', '2 ft'],
};
const TAGS = ['1', '2', '3', '4', '5', '6'];
const DEFECTS = ['A', 'B', 'C'];

const factsOf = (words: readonly string[]): fc.Arbitrary<Facts> =>
  fc.record(Object.fromEntries(words.map(word => [word, fc.constantFrom(...VALUES[word]!)])), {
    requiredKeys: [],
  }) as fc.Arbitrary<Facts>;
const defects = factsOf(['diameter', 'depth', 'length']);
const trees: fc.Arbitrary<TreeModel> = fc.record({
  fields: factsOf(FIELDS),
  defects: fc.dictionary(fc.constantFrom(...DEFECTS), defects, { noNullPrototype: true }),
});
const models: fc.Arbitrary<Model> = fc.dictionary(fc.constantFrom(...TAGS), trees, { noNullPrototype: true });

/** Printed in one order, so that equal models have equal texts. */
function printed(model: Model): string {
  const lines = (facts: Facts, words: readonly string[], indent: string) =>
    words.flatMap(word => (facts[word] === undefined ? [] : [`${indent}${word} ${facts[word]}\n`])).join('');
  return TAGS.flatMap(tag => {
    const tree = model[tag];
    if (!tree) return [];
    const inner = DEFECTS.flatMap(id =>
      tree.defects[id]
        ? [`\n  defect ${id} cavity\n${lines(tree.defects[id], ['diameter', 'depth', 'length'], '    ')}`]
        : [],
    );
    return [`tree ${tag}\n${lines(tree.fields, FIELDS, '  ')}${inner.join('')}`];
  }).join('\n');
}

/** Three-way merge of the values themselves; undefined where both changed the same one. */
function ideal<T>(
  base: Readonly<Record<string, T>>,
  ours: Readonly<Record<string, T>>,
  theirs: Readonly<Record<string, T>>,
  both: (base: T, ours: T, theirs: T) => T | undefined,
): Readonly<Record<string, T>> | undefined {
  const result: Record<string, T> = {};
  const same = (a: T | undefined, b: T | undefined) => JSON.stringify(a) === JSON.stringify(b);
  for (const key of new Set([base, ours, theirs].flatMap(record => Object.keys(record)))) {
    const [b, o, t] = [base[key], ours[key], theirs[key]];
    let value: T | undefined;
    if (same(o, t) || same(t, b)) value = o;
    else if (same(o, b)) value = t;
    else if (b === undefined || o === undefined || t === undefined) return undefined;
    else {
      value = both(b, o, t);
      if (value === undefined) return undefined;
    }
    if (value !== undefined) result[key] = value;
  }
  return result;
}

const collide = () => undefined;
const idealTree = (b: TreeModel, o: TreeModel, t: TreeModel): TreeModel | undefined => {
  const fields = ideal(b.fields, o.fields, t.fields, collide);
  const inner = ideal(b.defects, o.defects, t.defects, (d, e, f) => ideal(d, e, f, collide));
  return fields && inner ? { fields, defects: inner } : undefined;
};

/** The facts of a text with their places, in no order: what merging may order as it likes. */
const sorted = (text: string) => {
  let at = '';
  let section = '';
  return text
    .split('\n')
    .filter(line => line !== '')
    .map(line => {
      if (line.startsWith('tree')) [at, section] = [line, ''];
      else if (line.startsWith('  defect')) section = line;
      return `${at}|${section}|${line}`;
    })
    .sort();
};

describe('any three states', () => {
  const triples = fc
    .tuple(models, models, models, fc.boolean())
    // Neighbours of one state, as edits are; sometimes three that have little in common.
    .map(([base, one, other, near]): readonly [Model, Model, Model] =>
      near ? [base, { ...base, ...pickOne(one) }, { ...base, ...pickOne(other) }] : [base, one, other],
    );
  const pickOne = (model: Model): Model => Object.fromEntries(Object.entries(model).slice(0, 1));

  test('are merged to what applying both edits gives, or collide where the facts do', () => {
    fc.assert(
      fc.property(triples, ([base, ours, theirs]) => {
        const both = ideal(base, ours, theirs, idealTree);
        const { text, conflicts } = mergeInventories(printed(base), printed(ours), printed(theirs));
        expect(conflicts > 0).toBe(both === undefined);
        if (both) expect(sorted(text)).toEqual(sorted(printed(both)));
      }),
      { numRuns: 400 },
    );
  });

  test('the two sides may change places', () => {
    fc.assert(
      fc.property(triples, ([base, ours, theirs]) => {
        const [one, other] = [
          mergeInventories(printed(base), printed(ours), printed(theirs)),
          mergeInventories(printed(base), printed(theirs), printed(ours)),
        ];
        expect(other.conflicts).toBe(one.conflicts);
        if (one.conflicts === 0) expect(sorted(other.text)).toEqual(sorted(one.text));
      }),
      { numRuns: 300 },
    );
  });

  /** Lines of any kind, damaged ones among them. */
  const anyText = fc
    .array(
      fc.oneof(
        fc.constantFrom(
          'tree 1',
          'tree 2 "Gate oak"',
          'tree',
          '  defect A cavity',
          '  defect A',
          '  dbh 12 in',
          '  dbh 12',
          '  height 3 m # taped',
          '  photo a.jpg',
          '  photo b.jpg',
          '  note "one"',
          '  note "two',
          '# a remark',
          '  # another',
          '',
          '   ',
          'site "x"',
          '  widht 3 ft',
          '<<<<<<< ours',
          '=======',
          '>>>>>>> theirs',
          'person RV "Ruth Varga"',
          '  accept season-dose for R1',
        ),
        fc.string(),
      ),
      { maxLength: 14 },
    )
    .map(lines => lines.map(line => line.replaceAll(/[\r\n]/g, '')).join('\n'));

  const linesOf = (text: string) => text.split('\n').map(line => line.trim());

  test('lose nothing that either added, whatever the texts are', () => {
    fc.assert(
      fc.property(anyText, anyText, anyText, (base, ours, theirs) => {
        const there = new Set(
          linesOf(mergeInventories(base, ours, theirs).text).map(line => line.replace(/\s+/g, ' ')),
        );
        const was = new Set(linesOf(base).map(line => line.replace(/\s+/g, ' ')));
        for (const line of [...linesOf(ours), ...linesOf(theirs)].map(text => text.replace(/\s+/g, ' '))) {
          if (line !== '' && !was.has(line)) expect(there).toContain(line);
        }
      }),
      { numRuns: 1000 },
    );
  });

  test('of which one did not change give the other, to the letter', () => {
    fc.assert(
      fc.property(anyText, anyText, (base, changed) => {
        // The other edit, far from all others, keeps out the shortcut for texts that did not change.
        const [was, now] = ['# begin\n\n', '# beginning\n\n'];
        expect(mergeInventories(was + base, was + changed, now + base).text).toBe(now + changed);
        expect(mergeInventories(was + base, now + base, was + changed).text).toBe(now + changed);
      }),
      { numRuns: 400 },
    );
  });
});

describe('inspections of one tree on two branches', () => {
  const VISIT = 'tree 14\n  inspection 2021-05-04 from ground\n  defect A cavity\n    wall 8 cm\n';
  const later = (day: string, wall: string) =>
    `  inspection ${day} from ground\n  defect A cavity\n    wall ${wall}\n`;
  const inspections = (text: string) => text.match(/inspection \S+|wall .*|defect B/g);

  test('of different days add up, each defect below its own inspection', () => {
    const [ours, theirs] = [VISIT + later('2023-05-16', '7 cm'), VISIT + later('2024-05-02', '6 cm')];
    for (const [one, other] of [
      [ours, theirs],
      [theirs, ours],
    ] as const) {
      const { text, conflicts } = merged(one, other, VISIT);
      expect(conflicts).toBe(0);
      const found = inspections(text)!;
      expect(found).toHaveLength(6);
      for (const [day, wall] of [
        ['2021-05-04', '8 cm'],
        ['2023-05-16', '7 cm'],
        ['2024-05-02', '6 cm'],
      ] as const)
        expect(found[found.indexOf(`inspection ${day}`) + 1]).toBe(`wall ${wall}`);
    }
  });

  test('leave a record that was added below an earlier one where it was', () => {
    const [ours, theirs] = [`${VISIT}  defect B crack\n`, VISIT + later('2024-05-02', '6 cm')];
    for (const [one, other] of [
      [ours, theirs],
      [theirs, ours],
    ] as const) {
      const found = inspections(merged(one, other, VISIT).text)!;
      expect(found.indexOf('defect B')).toBeLessThan(found.indexOf('inspection 2024-05-02'));
    }
  });

  test('collide where both corrected one reading, and in no other', () => {
    const both = VISIT + later('2023-05-16', '7 cm');
    const corrected = (wall: string) => both.replace('7 cm', wall);
    const { text, conflicts } = merged(corrected('7.1 cm'), corrected('6.9 cm'), both);
    expect(conflicts).toBe(1);
    expect(text).toContain('wall 8 cm\n');
  });
});
