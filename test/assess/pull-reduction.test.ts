import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answersTo } from '../../server/assess/answering.ts';
import { assess } from '../../server/assess/assessment.ts';
import { enoughForParts } from '../../server/assess/enough-reduction.ts';
import { easedUnder } from '../../server/assess/load.ts';
import { decidingPull, partsBehind, pulledParts } from '../../server/assess/pull-tests.ts';
import { signsOf } from '../../server/assess/signs.ts';
import { dayContext } from './inventory.ts';

interface Maple {
  readonly force: string;
  readonly head?: string;
  readonly defects?: string;
  readonly pull?: string;
  readonly job?: string;
}

const maple = ({ force, head = '', defects = '', pull = '', job = '' }: Maple) =>
  dayContext(`site "Lane"
  wind 33 m/s, exposure B

tree 1
  species Acer macrophyllum
  dbh 30 in
  height 60 ft
  crown from 12 ft, 46 ft wide
  age young
${head}  inspection 2026-05-04 from ground
${defects}  pull test 2026-05-12 toward N
    force ${force}
    rope at 26 ft, 25 deg from horizontal
    inclination 0.2 deg, 0.2 deg
    soil moist
${pull}${job}`);

const optionOf = (context: ReturnType<typeof maple>, name: string) =>
  assess(context).options.find(({ option }) => option === name)!;

const CUT = (height: string, spread: string) => `  prescription R1 reduce
    height 60 ft to ${height}
    spread 46 ft to ${spread}
`;

describe('a reduction for a root plate that was pulled', () => {
  it('brings it within its limit where the doses allow, and says what it leaves', () => {
    const context = maple({ force: '6800 lbf' });
    const now = pulledParts(context.tree, context.site, context.settings)[0]!.judged;
    expect(now.standing).toBe('may exceed');
    const { support, eased, dose, because } = optionOf(context, 'reduce in one season');
    expect(support).toBe('supported');
    expect(eased!.map(({ name, judged }) => [name, judged.standing])).toEqual([['the root plate', 'within']]);
    expect(eased![0]!.judged.value.low).toBeGreaterThan(now.value.low);
    // No more than it takes.
    expect(eased![0]!.judged.value.low).toBeLessThan(now.setting.value * 1.01);
    expect(dose!.high).toBeGreaterThan(0);
    expect(because.join(' ')).toContain('brings the root plate within the limit of 1.5');
    expect(optionOf(context, 'leave and watch').eased).toEqual([expect.objectContaining({ judged: now })]);
  });

  it('says plainly where no reduction within the doses is enough, and what the most leaves', () => {
    const { support, eased, because } = optionOf(maple({ force: '3000 lbf' }), 'reduce in one season');
    expect(support).not.toBe('supported');
    expect(because.join(' ')).toMatch(
      /The most that 25 % of the foliage allows is .* It leaves the root plate with/,
    );
    expect(eased![0]!.judged.standing).not.toBe('within');
  });

  it('leaves open what a pull test does not judge', () => {
    const defects = `  defect A fungus
    on trunk at 0.5 ft, facing S
    species Kretzschmaria deusta
`;
    const { support, because, leaves } = optionOf(
      maple({ force: '6800 lbf', defects }),
      'reduce in one season',
    );
    expect(leaves.map(({ subject }) => subject)).toContain('A');
    expect(support).not.toBe('supported');
    expect(because.join(' ')).not.toContain('within one season');
  });

  it('writes lines that are enough, and a foot more is not', () => {
    const context = maple({ force: '6800 lbf', job: CUT('59 ft', '45 ft') });
    const { tree, site, settings } = context;
    const lines = enoughForParts(context, tree.prescriptions[0]!, pulledParts(tree, site, settings))!;
    const [top, wide] = lines.map(line => Number(/to ([\d.]+) ft/.exec(line)![1]));
    const standing = (height: number, spread: number) => {
      const one = maple({ force: '6800 lbf', job: CUT(`${height} ft`, `${spread} ft`) });
      return easedUnder(
        pulledParts(one.tree, one.site, one.settings),
        one.tree.prescriptions[0]!,
        one.tree,
        one.site,
        one.settings,
      )!.map(({ judged }) => judged.standing);
    };
    expect(standing(top!, wide!)).toEqual(['within']);
    expect(standing(top! + 1, wide! + 1)).toEqual(['may exceed']);
  });

  it('never answers for a butt that nobody measured', () => {
    const fungus = `  defect A fungus
    on trunk at 0.5 ft, facing S
    species Kretzschmaria deusta
`;
    const about = (pull: string) => {
      const context = maple({ force: '500 lbf', defects: fungus, pull, job: CUT('30 ft', '20 ft') });
      const sign = signsOf(context).find(({ subject }) => subject === 'A')!;
      return {
        sign,
        parts: partsBehind(sign, context.tree, context.site, context.settings),
        answers: answersTo(sign, context),
      };
    };
    expect(about('').sign.standing).toBe('exceeds');
    expect(about('').parts).toBeUndefined();
    expect(about('').answers).toEqual([]);
    expect(about('    strain 0.01 % at 1 ft\n').parts).toHaveLength(2);
  });
});

describe('the weight of a leaning tree on its roots', () => {
  it('lowers the factor toward the lean, the more it leans', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 48 }), tenths => {
        const at = (lean: number) => {
          const { tree, site, settings } = maple({
            force: '6800 lbf',
            head: lean > 0 ? `  lean ${lean / 10} deg toward E, steady\n` : '',
          });
          return decidingPull(tree, site, settings)!;
        };
        const [upright, less, more] = [at(0), at(tenths), at(tenths + 1)];
        expect(upright.against).toBeUndefined();
        expect(less.judged!.value.low).toBeLessThan(upright.judged!.value.low);
        expect(more.judged!.value.low).toBeLessThan(less.judged!.value.low);
        expect(less.against!.high).toBeGreaterThan(upright.judged!.value.high);
      }),
      { numRuns: 20 },
    );
  });

  it('is not judged where the diameter is not known', () => {
    const { tree, site, settings } = dayContext(`site "Lane"
  wind 33 m/s, exposure B

tree 1
  species Acer macrophyllum
  height 60 ft
  crown from 12 ft, 46 ft wide
  lean 3 deg toward E, steady
  pull test 2026-05-12 toward N
    force 6800 lbf
    rope at 26 ft, 25 deg from horizontal
    inclination 0.2 deg, 0.2 deg
    soil moist
`);
    expect(decidingPull(tree, site, settings)!.verdict).toMatchObject({
      standing: 'not judged',
      why: expect.stringContaining('its diameter'),
    });
  });
});
