/** What a work order allows: nobody climbs and no day counts while something is to be settled; figures are the stricter ones. */

import { expect, test } from 'vitest';
import { EN_STOPS } from '../../server/report/languages/en-findings.ts';
import { LANGUAGES } from '../../server/report/languages/language.ts';

import { folderWith } from '../cli/folder.ts';
import { pageText } from './page-text.ts';

const text = (page: string): string => pageText(page.replace(/<\/?strong\b[^>]*>/g, ''));

async function orderOf(inventory: string, ...args: readonly string[]): Promise<string> {
  const folder = await folderWith({ 'a.wood': inventory });
  const { out, code } = await folder.run('report', '--for', 'crew', ...args);
  expect(code).toBe(0);
  return text(out);
}

const PEOPLE = `person JM "Jonah Mraz"
  qualified climbing arborist

crew ROPE "Rope crew"
  members JM
  rope 400 lb
  lift 60 ft
`;

const order = (tree: string, prescription = '', site = 'region US-CA') => `site "Court"
  ${site}

${PEOPLE}
tree 1
  species Quercus garryana
  dbh 20 in
  height 40 ft
  crown from 9 ft, 30 ft wide
  vigor good
  age mature
  inspection 2026-05-14 from rope
    by JM
${tree}  prescription R1 reduce
    dose 5 %
    between 2026-10-05..2026-10-16
    with ROPE
${prescription}`;

const CLIMBS = 'Who may climb Jonah Mraz, after inspecting';

test('without anything to settle the climbers and the days are named', async () => {
  const free = await orderOf(order(''));
  expect(free).toContain(CLIMBS);
  expect(free).toContain('Days allowed October 5–16, 2026, as far as the record shows');
  expect(free).toContain('Last day allowed October 16, 2026');
});

test.each([
  ['a line too near, a warning', '  conductor "Service"\n    voltage 12 kV\n    distance 12 ft\n', ''],
  [
    'a part that is failing',
    '  defect A hanger\n    diameter 5 in\n  target "Path"\n    distance 4 ft\n    occupied frequent\n',
    '',
  ],
  ['no permit', '  protected by "list"\n', ''],
  ['a dose that is too large', '', '    dose 60 %\n'],
])('%s: nobody climbs and no day is named', async (_, tree, prescription) => {
  for (const language of ['en', 'es']) {
    const stopped = await orderOf(
      order(tree, prescription).replace(prescription === '' ? '' : '    dose 5 %\n', ''),
      '--crew-language',
      language,
    );
    expect(stopped).toContain(
      language === 'en' ? 'Who may climb nobody: see below' : 'Quién puede subir nadie: vea abajo',
    );
    expect(stopped).toMatch(
      language === 'en'
        ? /Days allowed none until what is said below is settled/
        : /Días permitidos ninguno hasta que/,
    );
    expect(stopped).not.toContain('Jonah Mraz, after');
    expect(stopped).not.toMatch(/Last day allowed|Último día permitido/);
  }
});

test('a crew that comes too near a line does not climb, whatever has been accepted', async () => {
  const near = `  conductor "Lane"
    voltage 12 kV
    distance 12 ft
`;
  const accepted = `  accept conductor-crew for R1
    until 2026-12-31
    by JM
    because "the owner has been asked"
`;
  const open = await orderOf(order(near, accepted));
  expect(open).toMatch(/Who may climb nobody(: see below| until the power line is settled)/);
  const off = await orderOf(order(`${near}    dead 2026-10-01..2026-10-31\n`));
  expect(off).toContain(CLIMBS);
});

test('a part that is failing is not climbed to, even where all targets are closed', async () => {
  const closed = `  defect A hanger
    diameter 5 in
  target "Path"
    distance 4 ft
    occupied frequent
    closed 2026-05-30, by JM
`;
  const soon = order(closed, '    remove A\n').replace('2026-10-05..2026-10-16', '2026-06-01..2026-06-02');
  expect(await orderOf(soon)).not.toContain(CLIMBS);
});

test('of an unknown voltage the farthest distance is kept, on both sides of the sheet', async () => {
  const page = await orderOf(order('  conductor "Lane"\n    distance 90 ft\n'));
  expect(page).not.toMatch(/no limb (comes )?within \d+ ft to/);
  const [front, back] = [/no limb comes within (\d+ ft)/, /no limb within (\d+ ft)/].map(
    one => one.exec(page)?.[1],
  );
  expect(front).toMatch(/^[2-9]\d ft$/);
  expect(back).toBe(front);
});

test('late work is to be done soon, not never', async () => {
  const late = await orderOf(
    order(
      '  inspection 2026-01-10 from rope\n    by JM\n  target "Bench"\n    distance 4 ft\n    occupied frequent\n',
      '    priority high\n    dated 2026-01-10\n    exclusion 60 ft\n    because "light"\n',
    ),
  );
  expect(late).toContain('Days allowed overdue: as soon as possible; ask for a date');
  expect(late).toContain(CLIMBS);
});

test('breaking strengths stand apart from working loads, which are in the unit of the piece', async () => {
  const page = await orderOf(
    order('', '    piece 100 kg\n').replace('  rope 400 lb\n', '  rope 400 lb\n  block 80 kN\n'),
  );
  expect(page).toContain('Working load of the gear rope 181 kg (400 lb), lift up to 60 ft');
  expect(page).toContain('Breaking strength (not working load) block 80 kN');
});

test('cuts and drop zone are the stricter ones of record and check', async () => {
  const page = await orderOf(
    order(
      '  target "Path"\n    distance 4 ft\n    occupied frequent\n',
      '    cuts up to 9 in\n    exclusion 10 ft\n',
    ),
  );
  const cut = /Cuts up to (\S+ in)/.exec(page)![1]!;
  expect(cut).not.toBe('9 in');
  expect(page).toContain(`No cut over ${cut}`);
  const zone = /Drop zone (\S+ ft) around the trunk/.exec(page)![1]!;
  expect(Number.parseFloat(zone)).toBeGreaterThan(10);
  expect(page).toContain(`Nobody is within ${zone} of the trunk except those doing the work`);
  expect(page).toContain(`Distance: ${zone}.`);
});

test('whom to call is the firm, or said to be missing', async () => {
  expect(await orderOf(order(''))).toContain('Who to call no number on record: ask before you start');
  expect(await orderOf(order('', '', 'region US-CA\n  firm "Varga, 12 Mill Lane, 555 0142"'))).toContain(
    'Who to call Varga, 12 Mill Lane, 555 0142',
  );
  expect(await orderOf(order('', '', 'region US-CA\n  firm "Varga, 12 Mill Lane"'))).toContain(
    'Who to call Varga, 12 Mill Lane; no number on record: ask before you start',
  );
});

test('what the office has to write is not on the sheets of a crew', async () => {
  const folder = await folderWith({});
  for (const language of ['en', 'es']) {
    const { out } = await folder.run(
      'report',
      `${process.cwd()}/samples/fernhollow`,
      '--for',
      'crew',
      '--crew-language',
      language,
    );
    expect(text(out)).not.toMatch(
      /Below the target, write|soundwood weigh|record them under|Add an exclusion|Record the/,
    );
  }
});

test('a page for a Spanish crew is Spanish from head to foot', async () => {
  const folder = await folderWith({ 'a.wood': order('') });
  const { out } = await folder.run('report', '--for', 'crew', '--crew-language', 'es');
  expect(out).toContain('<html lang="es">');
  expect(out).toContain('"Página " counter(page) " de " counter(pages)');
  expect(text(out)).not.toMatch(/trees as of|Written from|To the content/);
});

/** What forbids to begin, to climb or to cut. */
const FORBIDS = {
  en: /Do not (start|climb|cut|fell|prune|touch|set up|work or climb|install)|(Cut|Remove) no live/i,
  es: /No (empiece|suba|corte|quite madera|tale|lo tale|pode|lo toque|la coloque|trabaje|lo instale)/i,
};

test.each(['en', 'es'] as const)('findings that forbid to begin in %s stop the work', code => {
  const { findings } = LANGUAGES[code];
  const forbidding = Object.keys(findings).filter(rule => FORBIDS[code].test(findings[rule]!));
  expect(forbidding.toSorted()).toEqual(Object.keys(EN_STOPS).toSorted());
});

test('a later stage says what the earlier ones took: nobody takes the whole dose again', async () => {
  const folder = await folderWith({
    'a.wood': `site "Court"
  region US-OR

tree 1
  species Quercus garryana
  height 60 ft
  inspection 2024-05-04 from ground
  prescription R1 reduce
    dose 20 %
    stages 2
    dated 2024-05-04
  work R1 2024-10-12
    dose 10 %
  prescription R2 raise
    stages 2
    dated 2024-05-04
  work R2 2024-10-12
`,
  });
  for (const reader of ['crew', 'client']) {
    const { out } = await folder.run('report', '--for', reader, '--date', '2026-06-01');
    expect(text(out)).toContain('about 20 % of the foliage, of which 10 % was taken already');
    expect(text(out)).toContain('begun already: ask what is left');
  }
});

test.each([
  [
    'roots that nobody can judge',
    '  defect F fungus\n    on trunk at 1 ft\n    species Kretzschmaria deusta\n',
    'fungus F',
  ],
  ['a dying crown', '  dieback 60..80 %\n', 'dieback'],
])('nobody climbs above %s before somebody has decided', async (_, tree, reason) => {
  const page = await orderOf(order(tree));
  expect(page).toContain('Who may climb nobody until a qualified person has decided: see below');
  expect(page).toMatch(new RegExp(`Do not climb yet.* Reason: [^.]*${reason}`));
});

test('nobody climbs a tree that nobody inspected, or whose failure is rated imminent', async () => {
  const page = await orderOf(order('').replace('  inspection 2026-05-14 from rope\n    by JM\n', ''));
  expect(page).toContain('Who may climb nobody until a qualified person has inspected the tree');
  const rated = await orderOf(
    order('  target "Hut"\n    distance 90 ft\n  risk "Hut"\n    failure imminent\n'),
  );
  expect(rated).not.toContain(CLIMBS);
});

test('a certificate that runs out during the work is named with its last day', async () => {
  const certified = (until: string) =>
    order('').replace('arborist\n', `arborist\n  certificate "climbing 4", until ${until}\n`);
  expect(await orderOf(certified('2026-10-16'))).toContain(CLIMBS);
  expect(await orderOf(certified('2026-10-10'))).toContain(
    'Who may climb Jonah Mraz (certificate until October 10, 2026), after inspecting',
  );
  expect(await orderOf(certified('2026-10-04'))).toContain('Who may climb nobody');
});

test.each([
  ['the site', ['  region US-CA\n', '  region US-CA\n  storm yesterday\n']],
  ['a member of the crew', ['arborist\n', 'arborist\n  certificate "climbing 4" until 2025-01-01\n']],
  ['the crew', ['rope 400 lb', 'rope 400 lbz']],
] as const)('a line of %s that could not be read stops the work', async (_, [from, to]) => {
  for (const [language, told] of [
    ['en', 'A line of the record could not be read.'],
    ['es', 'Una línea del expediente tiene un error y no se pudo leer.'],
  ] as const) {
    const page = await orderOf(order('').replace(from, to), '--crew-language', language);
    expect(page).toContain(told);
    expect(page).not.toMatch(/Jonah Mraz, (after|después)|as far as the record|según lo que consta/);
  }
});

test('where no nesting season is known no day is allowed', async () => {
  const page = await orderOf(order('', '', 'region BR'));
  expect(page).toContain('Days allowed none until the nesting season of the place is known');
  expect(page).not.toContain('Last day allowed');
});

test('the drop zone is as wide as the wood may reach, whoever is about', async () => {
  const felled = (zone: string, height = '  height 40 ft\n', piece = '') =>
    order('', `    takedown whole, toward NE\n${zone}${piece}`)
      .replace('R1 reduce\n    dose 5 %', 'R1 fell')
      .replace('  height 40 ft\n', height);
  for (const zone of ['', '    exclusion 10 ft\n', '    exclusion unseen\n', '    exclusion > 10 ft\n']) {
    const page = await orderOf(felled(zone));
    expect(page).toContain('Drop zone 80 ft around the trunk');
    expect(page).toContain('Nobody is within 80 ft of the trunk');
  }
  expect(await orderOf(felled('    exclusion 70..120 ft\n'))).toContain('Drop zone 120 ft around the trunk');
  expect(await orderOf(felled('    exclusion 100 ft\n'))).toContain('Drop zone 100 ft around the trunk');
  const unmeasured = await orderOf(felled('    exclusion 10 ft\n', ''));
  expect(unmeasured).toContain('Drop zone 10 ft is stated, which may be too small');
  expect(unmeasured).toContain('The area where wood may fall is closed.');
  const pieces = felled('    exclusion 30 ft\n').replace('whole, toward NE', 'dismantled');
  expect(await orderOf(pieces)).toContain('Drop zone 40 ft around the trunk');
  const cut = await orderOf(order('', '    exclusion 5 ft\n'));
  expect(cut).toContain('Nobody is within 15 ft of the trunk');
});

test('an exception that ends before the work does not count for it', async () => {
  const accepted = (until: string) =>
    order(
      '',
      `  accept season-dose for R1
    until ${until}
    by JM
    because "the client insists"
`,
    ).replace('dose 5 %', 'dose 60 %');
  const covered = await orderOf(accepted('2026-12-31'));
  expect(covered).not.toContain('Cut no live wood');
  expect(covered).toMatch(
    /Accepted; the danger remains Jonah Mraz, until December 31, 2026: The dose of 60 %/,
  );
  expect(await orderOf(accepted('2026-10-10'))).toContain('Cut no live wood');
});

test('what the crew has to know of the tree as a whole is in the briefing', async () => {
  const page = await orderOf(
    order(
      '  limb L\n    from 15 ft\n    union included bark\n  defect C crack\n    on L at 16 ft\n    runs shallow\n  follow-up F1 re-inspection\n    of C\n    due 2027-02-01\n  conductor "Lane"\n    distance 90 ft\n',
      '',
      'region US-CA\n  storm 2026-05-20 "gale"',
    ).replace('R1 reduce\n    dose 5 %', 'R1 clean'),
  );
  expect(page).toContain('Nobody climbs or ties in above the union before it has been examined.');
  expect(page).toContain('Treat the line as the most dangerous kind.');
  expect(page).toContain('has not been inspected since the storm');
});

test('the crew reads how the tree comes down, where the block hangs, what was left and what is tied', async () => {
  const page = await orderOf(
    order(
      '  stem N\n    from 9 ft\n  support C1 cable\n    holds N\n',
      `    takedown whole, toward 205 deg
    anchor trunk at 30 ft, 14 in thick
    rigged caught, drop 4 ft, rope 40 ft
    exemption "letter 44", until 2026-10-31
  work R1 2026-05-20
    unfinished "a limb hangs in the crown"
`,
    ).replace('R1 reduce\n    dose 5 %', 'R1 fell'),
  );
  for (const told of [
    'How it comes down whole, toward SSW (205°)',
    'Anchor of the block trunk at 30 ft, 14 in thick, drop 4 ft, 40 ft of rope',
    'Exemption letter 44, until October 31, 2026',
    'Left undone on May 20, 2026 A limb hangs in the crown.',
    'Supports in the tree cable C1, holds N',
  ])
    expect(page).toContain(told);
});

test('the next stage waits for a year', async () => {
  const page = await orderOf(order('', '    stages 2\n  work R1 2026-01-20\n    dose 2 %\n'));
  expect(page).toContain('Days allowed none, as far as the record shows');
  expect(page).toContain('The last stage of reduce R1 was done on January 20, 2026.');
});

test('without days an expired permit and a nest that may be in use are told as such', async () => {
  const page = await orderOf(
    order('  nest check 2026-05-20 from rope\n    by JM\n    found unclear\n')
      .replace(/ {4}between .*\n/, '')
      .replace('  age mature\n', '  age mature\n  protected by "list" permit P1, until 2026-05-30\n'),
  );
  expect(page).toContain('Permit P1 ended on May 30, 2026: obtain a new one for this work.');
  expect(page).toContain('The nest found unclear, perhaps active, on May 20, 2026 closes the work');
});

test('a piece told by its sizes is told with its mass, or that nobody knows it', async () => {
  const page = await orderOf(order('', '    piece 6 ft, 12 in thick\n'));
  expect(page).toMatch(/Heaviest piece 6 ft long, 12 in thick, weighs \d+–\d+ lb/);
  const long = await orderOf(order('', '    piece 6 ft\n'));
  expect(long).toContain('Heaviest piece 6 ft long, its weight is not known');
});

test('the certificate of a climber is one for climbing', async () => {
  const expired = order('').replace(
    'arborist\n',
    'arborist\n  certificate "tree climber 4", until 2020-01-01\n',
  );
  expect(await orderOf(expired)).toContain('Who may climb nobody: no climbing arborist on record');
});

test('the list of orders shows no window as open in which no day is allowed', async () => {
  const two = (first: string, stages = '') =>
    order(
      '',
      `${stages}  prescription R2 clean\n    between 2026-10-05..2026-10-16\n    with ROPE\n`,
    ).replace('2026-10-05..2026-10-16', first);
  expect(await orderOf(two('2026-04-01..2026-04-20'))).toContain('Rope crew April 1–20, 2026 (past)');
  expect(
    await orderOf(two('2026-10-05..2026-10-16', '    stages 2\n  work R1 2026-01-20\n    dose 2 %\n')),
  ).toContain('Rope crew October 5–16, 2026: none, as far as the record shows');
});

test('a line that was off before the work is live; a crew for lines reads its own distance', async () => {
  const line = (dead: string) =>
    `  conductor "Lane"\n    voltage 12 kV\n    distance 90 ft\n    dead ${dead}\n`;
  const live = await orderOf(order(line('2026-03-01..2026-03-05')));
  expect(live).toContain('from the crown or the work; energized;');
  expect(live).toContain('treated as energized');
  expect(live).not.toContain('those of the crew who are');
  const off = await orderOf(
    order(line('2026-10-01..2026-10-20')).replace('arborist\n', 'arborist, line clearance\n'),
  );
  expect(off).toContain('de-energized October 1–20, 2026;');
  expect(off).toMatch(/; those of the crew who are, and their tools, no nearer than [\d.]+ ft \(/);
});

test('a coarse nest check, a target without a distance and who prescribed without a qualification are in the briefing', async () => {
  const page = await orderOf(
    order(
      `  defect B cavity
    on L at 16 ft
    diameter 12 in
    wall 1 in
  limb L
    from 15 ft
  nest check 2026-05-30 from ground
    by TL
    found none
  target "Path"
`,
    )
      .replace('crew ROPE', 'person TL "Tam Lee"\n\ncrew ROPE')
      .replace('from rope\n    by JM', 'from rope\n    by TL')
      .replace('2026-10-05..2026-10-16', '2026-06-01..2026-06-03'),
  );
  expect(page).toContain('found no nest from the ground');
  expect(page).toContain('Drop zone 15 ft around the trunk; others keep 20 ft beyond it');
  expect(page).toContain('Tam Lee, who is without any qualification');
  expect(page).toContain('No distance from the trunk is recorded for "Path"');
});

test('a rough position is told as such: an ambulance would look in the wrong place', async () => {
  const at = (position: string) =>
    order('').replace('  age mature\n', `  age mature\n  position ${position}\n`);
  expect(await orderOf(at('44.31, -122.87'))).toContain('Position 44.31, -122.87, a rough position');
  expect(await orderOf(at('44.31281, -122.87131'))).toContain('Position 44.31281, -122.87131 ');
});

test('gear that is too weak is told as such: it does not read as if it bore more than the force', async () => {
  const page = await orderOf(
    order(
      '',
      '    piece 6 ft, 10 in thick\n    rigged caught, drop 3 ft, rope 45 ft\n    anchor trunk at 25 ft, 14 in thick\n',
    ).replace('  lift 60 ft\n', '  lift 60 ft\n  line 5000 lbf, stretches 1 %\n'),
  );
  expect(page).toMatch(/rope beyond a limit: breaks at [\d.–]+ times the force; at least 10 is required/);
  expect(page).not.toContain('rope exceeds');
});

test('what an inspection could not see is examined before the first cut', async () => {
  const page = await orderOf(order('    unseen "base: ivy"\n'));
  expect(page).toContain('Not seen by the inspection of May 14, 2026: base: ivy. Examined now;');
});
