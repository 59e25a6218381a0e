import { describe, expect, test } from 'vitest';
import { anyHollow, generator, POINTS } from '../assess/any-hollow.ts';
import { folderWith, ON } from './folder.ts';

const SITE = 'site "Court"\n  region US-OR\n  wind 92 mph, exposure B\n\n';
const tree = (tag: number, ...lines: readonly string[]) =>
  [
    `tree ${tag}`,
    '  species Quercus alba',
    '  dbh 30 in',
    '  height 60 ft',
    '  crown from 15 ft, 40 ft wide',
    '  inspection 2026-05-04 from ground',
    ...lines.map(line => `  ${line}`),
    '',
    '',
  ].join('\n');

describe('whatever was read of a hollow', () => {
  test('no command throws, and every hollow with a diameter has its figure', async () => {
    const random = generator(20260601);
    const trees = Array.from({ length: 150 }, (_, i) => {
      const two = random() < 0.3;
      return tree(
        i + 1,
        ...anyHollow(random, 'A'),
        ...(two ? anyHollow(random, 'B') : []),
        ...(two ? [`joined A, B ${random() < 0.5 ? 'suspected' : 'proved'}`] : []),
      );
    });
    const text = SITE + trees.join('');
    const folder = await folderWith({ 'court.wood': text });
    const checked = await folder.run('check', '--on', ON);
    expect(checked.err).toBe('');
    expect(checked.code).toBe(1);
    const weighed = await folder.run('weigh', '--on', ON, '--as', 'json');
    expect(weighed.err).toBe('');
    expect(weighed.code).toBe(0);
    const report = JSON.parse(weighed.out);
    expect(report.trees).toHaveLength(150);
    for (const { defects } of report.trees)
      for (const { strengthLoss } of defects) {
        expect(strengthLoss[0]).toBeGreaterThanOrEqual(0);
        expect(strengthLoss[1]).toBeLessThanOrEqual(1);
        expect(strengthLoss[0]).toBeLessThanOrEqual(strengthLoss[1]);
      }
    const hollows = report.trees.flatMap(({ defects }: { defects: unknown[] }) => defects);
    expect(hollows).toHaveLength(text.match(/ defect /g)!.length);
  });

  // Z of the stem by a search once had its ends the wrong way round: nothing but a stack was put out.
  test('an opening of unknown width before a shallow void has a figure', async () => {
    const random = generator(7);
    const trees = Array.from({ length: 80 }, (_, i) => {
      const from = 1 + Math.floor(8 * random());
      return tree(
        i + 1,
        'defect A cavity',
        `  on trunk at ${3 + i} ft, facing SW`,
        '  diameter 26 in',
        `  opening ${from}..${from + 1 + Math.floor(8 * random())} in wide`,
        `  depth ${(0.2 + 2 * random()).toFixed(1)} in`,
      );
    });
    const folder = await folderWith({ 'court.wood': SITE + trees.join('') });
    const { code, err, out } = await folder.run('weigh', '--on', ON);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out.match(/A cavity, \d+ ft .* %/g)?.length).toBeGreaterThanOrEqual(80);
  });

  test('one line of 120 uncertain walls is checked, and so is what stands beside it', async () => {
    const walls = Array.from({ length: 120 }, (_, i) => `2..4 in at ${3 * i} deg`).join(', ');
    const folder = await folderWith({
      'court.wood': `${SITE}${tree(1, 'defect A decay', '  diameter 30 in', `  wall ${walls}`)}${tree(2, 'defect A decay', '  diameter 30 in', '  wall 1 in')}`,
    });
    const { out, code } = await folder.run('check', '--on', ON, '--format', 'lines');
    expect(code).toBe(1);
    expect(out).toMatch(/Decay A: by its section \d+(\.\d)?\.\.\d+(\.\d)? % loss of bending strength/);
    expect(out).toContain('court.wood:21:3: error: Decay A: by its section');
  });
});

/** The same length in each unit, as exactly as whole inches go. */
const UNITS: Readonly<Record<string, (inches: number) => string>> = {
  in: inches => `${inches} in`,
  cm: inches => `${Number((2.54 * inches).toFixed(4))} cm`,
  mm: inches => `${Number((25.4 * inches).toFixed(3))} mm`,
  m: inches => `${Number((0.0254 * inches).toFixed(6))} m`,
};

describe('the unit of a reading', () => {
  /** A hollow by lengths in inches; depth and the wall behind it often make the diameter up, exactly. */
  function anySizes(random: () => number) {
    const whole = (from: number, to: number) => Math.floor(from + random() * (to - from + 1));
    const diameter = whole(12, 48);
    const wall = whole(1, diameter / 2);
    const depth = random() < 0.5 ? diameter - wall : whole(1, diameter);
    return {
      diameter,
      wall,
      depth,
      opening: whole(1, diameter),
      facing: POINTS[whole(0, 7)]!,
      form: whole(0, 5),
    };
  }

  test('makes no difference to what is found, nor to a figure', async () => {
    const random = generator(18);
    const sizes = Array.from({ length: 40 }, () => anySizes(random));
    const found = await Promise.all(
      Object.values(UNITS).map(async unit => {
        const trees = sizes.map(({ diameter, wall, depth, opening, facing, form }, i) =>
          tree(
            i + 1,
            'defect A cavity',
            `  on trunk at 6 ft, facing ${facing}`,
            `  diameter ${unit(diameter)}`,
            ...(form === 0 ? [] : [`  opening ${unit(opening)} wide`]),
            ...(form === 1 ? [] : [`  depth ${unit(depth)}`]),
            ...(form === 2
              ? []
              : [
                  `  wall ${unit(wall)}${form > 3 ? ` at ${facing}, ${unit(wall)} at ${POINTS[i % 8]}` : ''}`,
                ]),
          ),
        );
        const folder = await folderWith({ 'court.wood': SITE + trees.join('') });
        const checked = await folder.run('check', '--on', ON, '--as', 'json');
        const weighed = await folder.run('weigh', '--on', ON, '--as', 'json');
        const { findings } = JSON.parse(checked.out);
        return {
          findings: findings.map(
            ({ rule, grade, level, tree: tag, subject }: Record<string, unknown>) =>
              `${tag} ${subject} ${rule} ${level} ${grade}`,
          ),
          losses: JSON.parse(weighed.out).trees.flatMap(
            ({ defects }: { defects: { strengthLoss: number[] }[] }) =>
              defects.flatMap(({ strengthLoss }) => strengthLoss),
          ) as number[],
        };
      }),
    );
    const [inches, ...others] = found;
    expect(inches!.findings.length).toBeGreaterThan(40);
    expect(inches!.findings.join()).toContain('readings-contradict');
    expect(inches!.findings.join()).not.toContain('undefined');
    for (const other of others) {
      expect(other.findings).toEqual(inches!.findings);
      expect(other.losses).toHaveLength(inches!.losses.length);
      other.losses.forEach((loss, i) => {
        expect(loss).toBeCloseTo(inches!.losses[i]!, 6);
      });
    }
  });
});
