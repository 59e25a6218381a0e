/** The same inventory in other units gives the same findings: a grade that hangs on the unit is chance. */

import { describe, expect, it } from 'vitest';
import { parseDate } from '../../server/base/dates.ts';
import { unitOf } from '../../server/base/quantity.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { RULES } from '../../server/rules/registry.ts';
import { sampleFiles } from '../samples/sample-files.ts';

interface Text {
  readonly path: string;
  readonly text: string;
}

/** One unit for each dimension. */
type Units = Readonly<Record<'length' | 'mass' | 'voltage' | 'speed', string>>;

const METRIC: Units = { length: 'm', mass: 'kg', voltage: 'V', speed: 'm/s' };
const IN: readonly Units[] = [
  METRIC,
  { ...METRIC, length: 'cm', speed: 'km/h' },
  { ...METRIC, length: 'mm' },
  { length: 'ft', mass: 'lb', voltage: 'kV', speed: 'mph' },
  { length: 'in', mass: 'lb', voltage: 'kV', speed: 'mph' },
];

const NUMBER = String.raw`\d+(?:\.\d+)?`;
const QUANTITY = new RegExp(
  String.raw`(?<![\w."-])(?:(${NUMBER})(\.\.| x | × ))?(${NUMBER}) (in|ft|mm|cm|m|kg|lb|kV|V|mph|m\/s|km\/h)(?![\w/]| lens)`,
  'g',
);

/** Of what stands in quotes or behind a # nothing is a quantity. */
const OUTSIDE_TEXT = /"[^"]*"|#.*$|[^"#]+/gm;

function inUnits(text: string, units: Units): string {
  const converted = (number: string, from: number, to: number) =>
    String(Number(((Number(number) * from) / to).toPrecision(15)));
  return text.replace(OUTSIDE_TEXT, stretch =>
    /^["#]/.test(stretch)
      ? stretch
      : stretch.replace(
          QUANTITY,
          (_all, first: string | undefined, between: string, last: string, symbol: string) => {
            const unit = unitOf(symbol)!;
            const to = unitOf(units[unit.dimension as keyof Units])!;
            const [a, b] = [first, last].map(number => number && converted(number, unit.factor, to.factor));
            return `${first === undefined ? '' : `${a}${between}`}${b} ${to.symbol}`;
          },
        ),
  );
}

function found(texts: readonly Text[], on: string): readonly string[] {
  const workspace = buildWorkspace(texts.map(({ path, text }) => readFile(path, text)));
  return checkWorkspace(workspace, parseDate(on)!)
    .map(({ tree, rule, subject, level, grade }) => [tree, rule, subject, level, grade].join(' '))
    .sort();
}

describe.each(IN)('in $length, $mass, $voltage and $speed', units => {
  const same = (texts: readonly Text[], on = '2026-06-01') =>
    expect(
      found(
        texts.map(({ path, text }) => ({ path, text: inUnits(text, units) })),
        on,
      ),
    ).toEqual(found(texts, on));

  it('samples/fernhollow gives the same findings', () => same(sampleFiles('fernhollow')));

  it.each(RULES.map(({ name, examples }) => [name, examples] as const))(
    '%s says the same',
    (name, examples) => {
      for (const { text, on } of examples)
        same([{ path: `${name}.wood`, text: text.replace(/ *#!.*$/gm, '') }], on);
    },
  );
});

/** Each figure exactly at its limit, or at what it has to reach, in feet and pounds as the trade rounds them. */
const AT_LIMITS = (feet: number) => `site "Fernhollow Court"
  region US-OR

person RV "Ruth Varga"
  qualified consulting arborist, remote pilot

crew ROPE "Rope crew"
  qualified climbing arborist
  rope 400 lb

practice "Office"
  limit exclusion-ratio 1.5
    because "tops fly"

tree 1 "Felled whole, kept clear to one and a half heights"
  height ${feet} ft
  target "Path"
    distance ${feet * 1.5} ft
  prescription R1 fell
    between 2026-09-15..2026-10-30
    exclusion ${feet * 1.5} ft

tree 2 "Pruned, kept clear to the crown"
  height ${feet} ft
  crown from ${feet / 4} ft, ${feet} ft wide
  target "Path"
    distance ${feet / 2} ft
  prescription R1 reduce
    dose 10 %
    between 2026-09-15..2026-10-30
    exclusion ${feet / 2} ft
    piece ${feet / 5} ft, 10 in thick

tree 3 "At the approach distance"
  height ${feet} ft
  crown from ${feet / 4} ft, 20 ft wide
  conductor "Lane line"
    voltage 12.5 kV
    distance 10 ft
  conductor "Field line"
    voltage 230 kV
    distance 16 ft
  conductor "Far line"
    voltage 12.5 kV
    distance 20 ft
  prescription R1 clean
    dose 5 %
    between 2026-09-15..2026-10-30
    with ROPE
    piece 400 lb

tree 4 "Felled as far as the line"
  height ${feet} ft
  crown 20 ft wide
  conductor "Lane line"
    voltage 12.5 kV
    distance ${feet} ft
  prescription R1 fell
    between 2026-09-15..2026-10-30

tree 5 "Flights and nests"
  height 30 ft
  dbh 20 in
  inspection 2026-04-22 from drone
    by RV
    flown 400 ft, permission owner, 50 ft stand-off
  nest check 2026-04-20 from ground
    found active Colaptes auratus at 20 ft
  nest check 2026-06-05 from ground
    found none
  prescription R1 clean
    dose 5 %
    cuts up to 4 in
    between 2026-06-06..2026-06-08

tree 6 "Sizes"
  species Betula pendula
  height 50 ft
  dbh 12 in
  crown from 35 ft, 200 ft wide
  stem North
    diameter 14 in
    union sound, with South
  stem South
    diameter 20 in
  defect A crack
    on North at 30 ft
  prescription R1 raise
    base ${feet / 10} ft to ${feet / 10 + (50 - feet / 10) * 0.15} ft
    dose 5 %
    cuts up to 2 in
    between 2026-09-15..2026-10-30
`;

describe('exactly at the limits', () => {
  it.each([40, 41, 43, 47, 50, 53, 59, 60, 61, 67, 70, 71, 73, 79, 80, 83, 89, 97, 101, 103])(
    '%i ft',
    feet => {
      const text = AT_LIMITS(feet);
      const before = found([{ path: 'at.wood', text }], '2026-06-01');
      expect(before.join('\n')).not.toMatch(/syntax|internal-error/);
      for (const units of IN)
        expect(found([{ path: 'at.wood', text: inUnits(text, units) }], '2026-06-01'), units.length).toEqual(
          before,
        );
    },
  );
});
