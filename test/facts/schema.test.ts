/** What the tables say of heads and fields reaches the facts, the names, the dates and the export. */

import { readdirSync, readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import { describe, expect, it, test } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import { type FieldSpec, HEADS, type HeadSpec } from '../../grammar/fields.ts';
import type { Line, Value } from '../../grammar/syntax.ts';
import { formatDate, formatMonthDay } from '../../server/base/dates.ts';
import { factOf } from '../../server/facts/build.ts';
import { namesUsed } from '../../server/facts/references.ts';
import type { Defect, Fact, Prescription } from '../../server/facts/types.ts';
import { buildWorkspace, readFile, settingsFor } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { factsJsonLines } from '../../server/show/export-jsonl.ts';
import schema from '../../server/show/inventory.schema.json';
import { allRows } from '../../server/show/row-form.ts';

/** A line of a head or field under the heads that it needs. */
interface Stated {
  readonly name: string;
  readonly head: HeadSpec;
  readonly spec: FieldSpec;
  /** With the line, and without it. */
  readonly text: string;
  readonly without: string;
}

function stated(head: HeadSpec, spec: FieldSpec, example: string): Stated {
  const parent = head.under ? `${HEADS.get(head.under)!.example}\n` : '';
  const above = spec === head ? parent : `${parent}${head.example}\n`;
  return {
    name: spec === head ? head.word : `${head.word} ${spec.word}`,
    head,
    spec,
    text: `${above}${example}\n`,
    without: above,
  };
}

const ALL = [...HEADS.values()].flatMap(head =>
  [head, ...head.fields.values()].map(spec => stated(head, spec, spec.example)),
);

const factIn = (text: string): Fact | undefined => factOf(parseBlock(text));
const lineIn = (text: string): Line => parseBlock(text.trimEnd()).lines.at(-1)!;

function jsonOf(text: string): string {
  const workspace = buildWorkspace([readFile('a.wood', text)]);
  const settings = settingsFor(workspace, 'a.wood');
  return [...workspace.files.values()]
    .map(({ facts }) =>
      allRows(
        factsJsonLines,
        facts.map(placed => ({ placed, file: 'a.wood', settings })),
      ),
    )
    .join('');
}

/** A fact without the places of what it has. */
const withoutPlaces = (fact: unknown): string =>
  JSON.stringify(fact, (key, value: unknown) =>
    ['start', 'end', 'at', 'inspection'].includes(key) ? undefined : value,
  );

describe('each line of the notation reaches the fact', () => {
  it.each(ALL)('$name', ({ text, without }) => {
    expect(lineIn(text).mistake).toBeUndefined();
    expect(withoutPlaces(factIn(text))).not.toBe(withoutPlaces(without === '' ? undefined : factIn(without)));
  });
});

/** The value as the JSON Lines have it. */
function asJson(value: Value): unknown {
  switch (value.type) {
    case 'quantity':
      return expect.objectContaining({ form: value.quantity.form, low: expect.any(Number) });
    case 'dates':
      return value.from === value.to
        ? formatDate(value.from)
        : { from: formatDate(value.from), to: formatDate(value.to) };
    case 'monthDays':
      return { from: formatMonthDay(value.from), to: formatMonthDay(value.to) };
    case 'text':
      return value.text;
    case 'bearing':
      return value.degrees;
    case 'species':
      return expect.objectContaining({ name: value.species.name });
  }
}

/** Every value in a tree of objects and lists, with the name of its member. */
function* valuesIn(json: unknown, name = ''): Iterable<readonly [name: string, value: unknown]> {
  yield [name, json];
  if (Array.isArray(json)) for (const one of json) yield* valuesIn(one, name);
  else if (typeof json === 'object' && json !== null)
    for (const [key, one] of Object.entries(json)) yield* valuesIn(one, key);
}

describe('each value comes out of the export in its own form', () => {
  it.each(ALL.filter(({ spec }) => spec.reader === undefined))('$name', ({ text, spec }) => {
    const json: unknown = JSON.parse(jsonOf(text).trim());
    for (const value of lineIn(text).values) {
      const known = spec.values.get(value.name)!;
      const isFlag = known.kind === 'choice' && known.words.length === 1;
      const found = [...valuesIn(json)].filter(([name]) => name === value.name).map(([, one]) => one);
      expect(found).toContainEqual(isFlag ? true : asJson(value));
    }
  });
});

describe('each name that a line refers to is found', () => {
  const referring = ALL.filter(({ spec }) =>
    [...spec.values.values()].some(value => value.kind === 'value' && value.refers !== undefined),
  );
  expect(referring.length).toBeGreaterThan(20);
  it.each(referring)('$name', ({ text, spec }) => {
    const fact = factIn(`${text}${DECLARED}`)!;
    const used = new Set(namesUsed(fact).map(({ start, end }) => `${start}..${end}`));
    const line = parseBlock(text.trimEnd());
    const at = line.starts.at(-1)!;
    for (const value of line.lines.at(-1)!.values) {
      const known = spec.values.get(value.name)!;
      if (known.kind === 'value' && known.refers !== undefined && fact.kind === 'tree')
        expect(used).toContain(`${at + value.start}..${at + value.end}`);
    }
  });
});

/** So that what an exception is for has a name. */
const DECLARED = '\ndefect A cavity\n';

/** Days that may lie ahead: last days, and what is only planned. */
const AHEAD = ['until', 'authorizedUntil', 'due', 'target closed', 'site storm'];

describe('each day is known to the check of dates, or may lie ahead', () => {
  const dated = ALL.flatMap(one =>
    lineIn(one.text).values.flatMap(value => {
      const known = one.spec.values.get(value.name)!;
      const isDate = known.kind === 'value' && known.type === 'date';
      return isDate && !AHEAD.includes(value.name) && !AHEAD.includes(one.name)
        ? [{ ...one, value, label: `${one.name}: ${value.name}` }]
        : [];
    }),
  );
  expect(dated.length).toBeGreaterThan(10);
  it.each(dated)('$label', ({ text, value }) => {
    const lines = text.trimEnd().split('\n');
    const last = lines.pop()!;
    const ahead = `${last.slice(0, value.start)}2999-01-01${last.slice(value.end)}`;
    const found = checkWorkspace(
      buildWorkspace([readFile('a.wood', [...lines, ahead, ''].join('\n'))]),
      0,
    ).filter(({ rule }) => rule === 'date-order');
    expect(found.map(({ message }) => message).join()).toContain('2999-01-01');
  });
});

const validate = new Ajv({ strict: true, allowUnionTypes: true }).compile(schema);

describe('the schema of the export', () => {
  const folder = new URL('../../samples/', import.meta.url);
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(name =>
    name.endsWith('.wood'),
  );
  it.each(files)('%s', name => {
    for (const line of jsonOf(readFileSync(new URL(name, folder), 'utf8'))
      .split('\n')
      .filter(Boolean)) {
      const isValid = validate(JSON.parse(line));
      expect(validate.errors ?? []).toEqual([]);
      expect(isValid).toBe(true);
    }
  });

  it('knows a member that nothing states', () => {
    expect(validate({ ...JSON.parse(jsonOf('tree 1\n')), girht: 1 })).toBe(false);
    expect(validate({ ...JSON.parse(jsonOf('tree 1\n')), felled: 10286 })).toBe(false);
  });
});

test('what a damaged head fails to say is left out of the export, and what is called ? stays', () => {
  const json = JSON.parse(jsonOf('tree 1\ndefect\ndiameter 20 in\ntarget "?"\n'));
  expect(json.defects).toEqual([expect.not.objectContaining({ id: expect.anything() })]);
  expect(json.targets).toMatchObject([{ name: '?' }]);
});

test('a kind that the notation has not does not compile', () => {
  const isRedwood = (defect: Defect, prescription: Prescription) =>
    // @ts-expect-error
    defect.kind.value === 'cavty' ||
    // @ts-expect-error
    prescription.kind.value !== 'redcue';
  expect(isRedwood).toBeTypeOf('function');
});
