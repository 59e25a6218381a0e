/** Inventories of ordinary trees: whole feet or half metres, usual species, work such as offices write every week. */

import fc from 'fast-check';
import { formatDate, parseDate } from '../../server/base/dates.ts';
import type { Inventory } from './follow.ts';

const TODAY = parseDate('2026-06-01')!;

const PEOPLE = `person RV "Ruth Varga"
  qualified consulting arborist, remote pilot, bat worker

person MK "Mo Kerr"
  qualified line clearance, climbing arborist
  certificate "line clearance 12", until 2026-10-15

crew ROPE "Rope crew"
  members MK
  rope 400 lb

crew LINE "Line crew"
  members MK
  qualified line clearance
`;

const SPECIES = [
  'Acer macrophyllum',
  'Quercus rubra',
  'Quercus garryana',
  'Ulmus americana',
  'Fraxinus latifolia',
  'Pinus ponderosa',
  'Tilia cordata',
];
const KINDS = [
  'reduce',
  'thin',
  'raise',
  'clean',
  'restore',
  'fell',
  'monolith',
  'pollard',
  'watch',
] as const;

/** A writer's units: lengths of trees, and of what is measured with a tape on them. */
interface Units {
  readonly long: (feet: number) => string;
  readonly short: (inches: number) => string;
}
const FEET: Units = { long: feet => `${feet} ft`, short: inches => `${inches} in` };
const METRES: Units = {
  long: feet => `${Math.round(feet * 0.3048 * 2) / 2} m`,
  short: inches => `${Math.round(inches * 2.54)} cm`,
};

export const ordinary: fc.Arbitrary<Inventory> = fc.gen().map(gen => {
  const whole = (min: number, max: number) => gen(fc.integer, { min, max });
  const often = (share: number) => whole(1, 100) <= share;
  const pick = <T>(...from: readonly T[]): T => from[whole(0, from.length - 1)]!;
  const units = pick(FEET, METRES);
  const about = (text: string) => (often(15) ? `~${text}` : text);
  const day = (min: number, max: number) => formatDate(TODAY + whole(min, max));
  const lines: string[] = [];
  const add = (share: number, ...text: readonly string[]) => {
    if (often(share)) lines.push(...text);
  };

  const height = whole(25, 90);
  const base = whole(6, Math.floor(height / 2));
  const spread = whole(16, 60);
  const diameter = whole(10, 44);
  lines.push('tree 1', `  species ${pick(...SPECIES)}`, `  dbh ${about(units.short(diameter))}`);
  add(95, `  height ${about(units.long(height))}`);
  add(90, `  crown from ${units.long(base)}, ${units.long(spread)} wide`);
  add(50, `  age ${pick('young', 'semi-mature', 'mature', 'over-mature')}`);
  add(40, `  vigor ${pick('good', 'fair', 'poor')}`);
  add(8, `  stressed by drought, since ${day(-300, -20)}`);
  add(25, `  protected by "city list"${often(60) ? ` permit TR-9, until ${day(-20, 300)}` : ''}`);
  add(5, `  lean ${whole(5, 20)} deg toward N, ${pick('new', 'increasing', 'steady')}`);
  add(4, `  soil ${pick('heaving', 'cracked', 'firm')}`);
  lines.push(`  inspection ${day(-300, -1)} from ground`, '    by RV');

  const parts = often(20);
  if (parts) {
    lines.push(
      '  stem West',
      `    diameter ${units.short(whole(8, 20))}`,
      `    union ${pick('included bark', 'sound')}, with East`,
      '  stem East',
      `    diameter ${units.short(whole(8, 20))}`,
    );
  }
  const hollow = often(45);
  if (hollow) {
    const across = whole(10, diameter);
    lines.push(
      `  defect A ${pick('cavity', 'decay', 'cavity')}`,
      `    on trunk at ${units.long(whole(1, base + 10))}, facing ${pick('S', 'NE', 'W')}`,
    );
    add(85, `    diameter ${units.short(across)}`);
    add(40, `    opening ${units.short(whole(2, Math.max(2, Math.floor(across / 2))))} wide`);
    add(45, `    wall ${units.short(whole(1, Math.max(1, Math.floor(across / 3))))}`);
    add(
      35,
      `    depth ${often(50) ? '> ' : ''}${units.short(whole(2, Math.max(2, Math.floor(across / 2))))}`,
    );
    add(10, '    state suspected');
  }
  if (hollow && often(15)) {
    lines.push(
      '  defect B cavity',
      `    on trunk at ${units.long(whole(1, base + 10))}, facing N`,
      `    diameter ${units.short(whole(10, diameter))}`,
      `    depth ${units.short(whole(2, 6))}`,
      `  joined A, B ${pick('suspected', 'proved', 'excluded')}`,
    );
  }
  if (often(50)) {
    lines.push('  target "Path"', `    distance ${units.long(whole(3, 90))}`);
    add(60, '    occupied frequent', '    kind people');
    if (often(30)) {
      lines.push(`  risk "Path"${hollow && often(50) ? ' from A' : ''}`);
      add(90, `    failure ${pick('improbable', 'possible', 'probable', 'imminent')}`);
      lines.push(
        `    impact ${pick('low', 'medium', 'high')}`,
        `    consequences ${pick('minor', 'significant', 'severe')}`,
      );
      add(70, `    rating ${pick('low', 'moderate', 'high', 'extreme')}`);
    }
  }
  if (often(15)) {
    lines.push(
      '  conductor "Lane"',
      `    voltage ${pick('12.5', '69')} kV`,
      `    distance ${units.long(whole(3, 60))}`,
    );
    add(40, `    dead ${window(whole(0, 120), whole(0, 20))}`);
  }
  if (often(8))
    lines.push(
      '  view "Hills"',
      `    eye ${units.long(6)}, ${units.long(100)} away`,
      `    ${pick('open', 'hide')} ${units.long(30)}, ${units.long(500)} beyond`,
    );
  add(
    30,
    `  nest check ${day(-20, 0)} from ${pick('rope', 'ground')}`,
    '    by RV',
    `    found ${pick('none', 'none', 'active', 'unclear', 'old', 'active Buteo jamaicensis')}`,
  );
  if (hollow)
    add(
      20,
      `  bat check ${day(-20, 0)} from rope`,
      '    by RV',
      `    found ${pick('none', 'none', 'none', 'roost in A', 'signs in A')}`,
    );

  const count = whole(1, 3);
  for (let i = 1; i <= count; i++) {
    const kind = pick(...KINDS, 'reduce', 'reduce', 'thin', 'clean');
    lines.push(`  prescription R${i} ${kind}`);
    const doses = ['reduce', 'thin', 'raise', 'clean', 'restore'].includes(kind);
    if (doses) add(60, `    dose ${whole(1, 12) * 5} %`);
    if (kind === 'reduce' || kind === 'pollard') {
      add(50, `    height ${units.long(height)} to ${units.long(Math.max(base + 4, height - whole(2, 20)))}`);
      add(40, `    spread ${units.long(spread)} to ${units.long(Math.max(6, spread - whole(2, 14)))}`);
    }
    if (kind === 'raise')
      lines.push(`    base ${units.long(base)} to ${units.long(Math.min(height - 4, base + whole(2, 25)))}`);
    if (parts && kind === 'fell') add(60, `    remove ${pick('West', 'East')}`);
    if (hollow) add(30, '    for A');
    else if (parts) add(30, `    for ${pick('West', 'East')}`);
    if (doses) add(25, `    cuts up to ${units.short(whole(1, 8))}, laterals ${pick('0.2', '0.33', '0.5')}`);
    if (doses)
      add(15, `    method ${pick('reduction cuts', 'topping', 'flush cuts', 'heading cuts', 'collar cuts')}`);
    add(5, '    paint wounds painted');
    add(20, `    stages ${whole(2, 3)}`);
    add(80, `    between ${window(whole(-10, 200), whole(0, 70))}`);
    add(30, `    priority ${pick('immediate', 'high', 'moderate', 'low')}`);
    add(60, `    with ${pick('ROPE', 'LINE')}`);
    add(40, `    exclusion ${units.long(whole(10, 90))}`);
    if (kind === 'fell' || kind === 'reduce')
      add(30, `    piece ${units.long(whole(3, 20))}, ${units.short(whole(6, 30))} thick`);
    if (kind === 'fell') add(50, '    stump leave');
    add(10, `    permit P-${i}, until ${day(-20, 200)}`);
    if (i > 1) add(15, `    or R${i - 1}`);
  }
  if (often(25)) {
    lines.push(`  work R1 ${day(-900, -1)}`);
    add(60, `    dose ${whole(1, 6) * 5} %`);
    add(30, '    with ROPE');
  }
  add(15, '  follow-up F1 climbing inspection', ...(hollow ? ['    of A'] : []), `    due ${day(-30, 60)}`);

  const office = [
    '  limit exclusion-ratio 1.37',
    '  limit lateral-ratio 0.45',
    '  limit cut-diameter 6.3 cm',
    '  limit stage-interval 2 years',
    '  limit bat-check-validity 10 days',
    '  limit permit-dose 10 %',
    '  limit raised-crown-ratio 0.5',
    '  limit stress-ratio 0.9',
    '  limit strength-loss 27 %',
    '  season nesting 08-15..02-28',
    '  season pruning 10-01..11-15',
  ].filter(() => often(25));
  const practice = often(30)
    ? `\npractice "Office"\n${office.map(line => `${line}\n    because "ours"\n`).join('')}`
    : '';
  const site = `site "Court"\n  region ${pick('US-OR', 'US-CA', 'US-MN', 'US-NY', 'GB', 'AU')}\n${practice}`;
  return {
    files: [
      { path: 'people.wood', text: PEOPLE },
      { path: 'site.wood', text: site },
      { path: 'trees.wood', text: `${lines.join('\n')}\n` },
    ],
    today: TODAY,
  };
});

const window = (from: number, length: number): string =>
  `${formatDate(TODAY + from)}..${formatDate(TODAY + from + length)}`;
