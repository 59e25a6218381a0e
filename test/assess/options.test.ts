import { describe, expect, it, test } from 'vitest';
import { assess } from '../../server/assess/assessment.ts';
import { OPTIONS } from '../../server/assess/options.ts';
import { parseDate } from '../../server/base/dates.ts';
import { dayContext } from './inventory.ts';

const today = parseDate('2026-06-01')!;

const weighed = (wall: string, more = '', head = '') => {
  const { tree, settings } = dayContext(`tree 1
  dbh 30 in
  height 60 ft
  crown from 15 ft, 40 ft wide
${head}
  inspection 2026-05-04 from ground
  defect A decay
    on trunk at 4 ft
    diameter 30 in
    wall ${wall}
${more}`);
  return assess({ tree, site: undefined, settings, person: () => undefined, crew: () => undefined, today });
};

const supports = (wall: string, more = '', head = '') =>
  Object.fromEntries(weighed(wall, more, head).options.map(({ option, support }) => [option, support]));

describe('what is open', () => {
  it('is all of them, in their order, for every standing tree', () => {
    expect(weighed('3 in').options.map(({ option }) => option)).toEqual([...OPTIONS]);
    expect(weighed('3 in', '', '  felled 2026-03-01').options).toEqual([]);
  });

  test.each<[string, string, string, string, Record<string, string>]>([
    [
      'thick walls: leave it',
      '8 in',
      '',
      '',
      {
        'leave and watch': 'supported',
        'reduce in one season': 'not called for',
        'remove the stem or limb': 'not called for',
        support: 'not called for',
        fell: 'not called for',
        'investigate first': 'not called for',
      },
    ],
    [
      'thin walls, young: 31 to 43 % of the foliage exceed 25 %',
      '3 in',
      '',
      '  age young',
      {
        'leave and watch': 'not supported',
        'reduce in one season': 'not supported',
        // Nor do stages: within three years no more than 25 % may go.
        'reduce in stages': 'not supported',
        support: 'open',
        fell: 'open',
      },
    ],
    [
      'a shell: no pruning offsets it',
      '1 in',
      '',
      '  age mature',
      {
        'leave and watch': 'not supported',
        'reduce in one season': 'not supported',
        'reduce in stages': 'not supported',
        fell: 'called for',
      },
    ],
    [
      'a wall that nobody knows: read it first',
      '1..8 in',
      '',
      '  age mature',
      {
        'leave and watch': 'depends on a reading',
        'reduce in one season': 'depends on a reading',
        fell: 'depends on a reading',
        'investigate first': 'supported',
      },
    ],
    [
      'dead: pruning does not help',
      '3 in',
      '',
      '  vigor dead',
      {
        'leave and watch': 'not supported',
        'reduce in one season': 'not supported',
        'reduce in stages': 'not supported',
        fell: 'called for',
      },
    ],
  ])('%s', (_title, wall, more, head, expected) => {
    expect(supports(wall, more, head)).toMatchObject(expected);
  });

  it('no cable restores a hollow trunk; of its bark and its holes support says nothing', () => {
    const because = (kind: string, fields: string) => {
      const context = dayContext(
        `tree 1\n  inspection 2026-05-04 from ground\n  defect A ${kind}\n    on trunk at 4 ft\n${fields}`,
      );
      return assess({ ...context, crew: () => undefined }).options.find(
        ({ option }) => option === 'support',
      )!;
    };
    expect(because('decay', '    diameter 30 in\n    wall 3 in\n').because[0]).toMatch(
      /^No cable or brace restores the wood that the trunk has lost at decay A/,
    );
    expect(because('loose bark', '    share 60 % of circumference\n').support).toBe('not called for');
    expect(because('crack', '    runs through\n').because[0]).toMatch(
      /^A cable, a brace or a prop may hold crack A/,
    );
  });

  it('does not rest on a reduction of a crown that is not written down', () => {
    const { tree, settings } = dayContext(
      'tree 1\n  inspection 2026-05-04 from ground\n  defect A decay\n    on trunk at 4 ft\n    diameter 30 in\n    wall 3 in\n',
    );
    const { options } = assess({
      tree,
      site: undefined,
      settings,
      person: () => undefined,
      crew: () => undefined,
      today,
    });
    expect(options.map(({ support }) => support)).toEqual([
      'not supported',
      'no figure',
      'no figure',
      'not called for',
      'open',
      'open',
      'not called for',
    ]);
  });

  it('says nothing for or against where no section was measured', () => {
    const { tree, settings } = dayContext('tree 1\n  height 60 ft\n');
    const { options } = assess({
      tree,
      site: undefined,
      settings,
      person: () => undefined,
      crew: () => undefined,
      today,
    });
    expect(options.map(({ support }) => support)).toEqual([
      'no figure',
      'no figure',
      'no figure',
      'not called for',
      'not called for',
      'no figure',
      'not called for',
    ]);
  });

  it('hides of a view what the crown under each option does', () => {
    const view = '  view "Window"\n    eye 5 ft, 40 ft away\n    hide 20..80 ft, 40 ft beyond\n';
    const { options } = weighed('3 in', view, '  age mature');
    const hidden = (name: string) =>
      options.find(({ option }) => option === name)!.views.map(({ hidden }) => hidden.high);
    // Lines to 20 and 80 ft pass the stem at 12.5 and 42.5 ft: 27.5 of 30 ft are crown; all of it above 15 ft.
    expect(hidden('leave and watch')[0]).toBeCloseTo(27.5 / 30, 9);
    expect(hidden('fell')).toEqual([0]);
    const [reduced] = hidden('reduce in stages');
    expect(reduced).toBeCloseTo(27.5 / 30, 9);
  });

  it('asks for the nesting season, a nest in use, the permit, the line and the bats', () => {
    const more = `  nest check 2026-05-20 from ground
    found active Turdus migratorius at 30 ft
  defect B cavity
    on trunk at 12 ft
  conductor "Lane line"
    distance 20 ft
`;
    const { options } = weighed('3 in', more, '  protected permit TR-1, until 2026-12-31');
    const { asks } = options.find(({ option }) => option === 'fell')!;
    for (const word of ['nesting season', '2026-05-20', 'TR-1', 'overhead power line', 'bat check'])
      expect(
        asks.filter(ask => ask.includes(word)),
        word,
      ).toHaveLength(1);
  });

  it('asks pruning, and nothing else, to keep out of the weeks closed for it', () => {
    const { options } = weighed('3 in', '', '  species Ulmus americana');
    const asked = options.filter(({ asks }) => asks.some(ask => ask.includes('Dutch elm disease')));
    expect(asked.map(({ option }) => option)).toEqual(['reduce in one season', 'reduce in stages']);
  });

  it('counts work that a record holds for a later day as still to be done', () => {
    const reduction = '  prescription R1 reduce\n    height 60 ft to 54 ft\n';
    expect(weighed('3 in', reduction).loads).toHaveLength(1);
    expect(weighed('3 in', `${reduction}  work R1 2026-10-02\n`).loads).toHaveLength(1);
    expect(weighed('3 in', `${reduction}  work R1 2026-05-20\n`).loads).toHaveLength(0);
  });

  it('counts the mass of a stem where its wood is known, and none where it is not', () => {
    const salvage = (species: string) =>
      weighed('3 in', '', `  species ${species}`).options.find(({ option }) => option === 'fell')!.salvage!;
    expect(salvage('Eucalyptus globulus').mass).toBeUndefined();
    const { volume, mass } = salvage('Quercus rubra');
    // 1071 kg/m³ with its bark, a tenth either way; of a kind that only its genus tells, a fifth.
    expect(mass!.low / volume.low).toBeCloseTo(0.9 * 1070.82, 0);
    expect(mass!.high / volume.high).toBeCloseTo(1.1 * 1070.82, 0);
    const lime = salvage('Tilia platyphyllos');
    expect(lime.mass!.high / lime.volume.high / (lime.mass!.low / lime.volume.low)).toBeCloseTo(1.5, 6);
  });
});
