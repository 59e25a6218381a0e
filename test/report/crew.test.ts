/** What a work order allows: nobody climbs and no day counts while something is to be settled; figures are the stricter ones. */

import { expect, test } from 'vitest';
import { EN_STOPS } from '../../server/report/languages/en-findings.ts';
import { LANGUAGES } from '../../server/report/languages/language.ts';

import { folderWith } from '../cli/folder.ts';

const text = (page: string): string =>
  page
    .replace(/<(script|style)>.*?<\/\1>/gs, '')
    .replace(/<\/?(?:span|wbr|strong)\b[^>]*>/g, '')
    .replace(/<[^>]*>/g, ' ')
    .replaceAll('&quot;', '"')
    .replace(/\s+/g, ' ');

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
