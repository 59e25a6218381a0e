/** What rests on law or safety is not switched off by a line of practice, nor by a line that is left out. */

import { expect, test } from 'vitest';
import { folderWith, ON } from './folder.ts';

const SITE = `site "Fernhollow Court"
  region US-OR
  grounds private

person RV "Ruth Varga"
  qualified consulting arborist, remote pilot

person HK "Hana Kowal"
  qualified wildlife biologist

crew ROPE "Rope crew"
  qualified climbing arborist
`;

const TREES = `tree 1
  inspection 2026-05-20 from drone
    by RV
    flown 450 ft, permission owner, 60 ft stand-off
  nest check 2026-05-14 from ground
    by HK
    found active Buteo jamaicensis at 60 ft

tree 2
  protected by "heritage tree list no. 2"
  inspection 2026-05-20 from ground
    by RV
  prescription R1 clean
    dose 5 %
    between 2026-09-15..2026-10-30

tree 3
  height 60 ft
  inspection 2026-05-20 from ground
    by RV
  conductor "Lane line"
    voltage 12.5 kV
    distance 4 ft
  prescription R1 clean
    dose 5 %
    between 2026-06-08..2026-06-12
    with ROPE
`;

async function check(practice: string, region = 'US-OR') {
  const folder = await folderWith({
    'site.wood': SITE.replace('US-OR', region),
    'practice.wood': practice === '' ? '' : `practice "Office"\n${practice}`,
    'trees.wood': TREES,
  });
  const { code, out } = await folder.run('check', '--on', ON, '--as', 'json');
  const { findings } = JSON.parse(out) as {
    findings: { rule: string; level: string; file: string; tree?: string; message: string }[];
  };
  return {
    code,
    ofTrees: findings
      .filter(({ tree, level }) => tree && level === 'error')
      .map(({ tree, rule }) => `${tree} ${rule}`),
    ofPractice: findings.filter(({ file }) => file === 'practice.wood'),
  };
}

const line = (text: string) => `  ${text}\n    because "as we like it"\n`;

const LAW = [
  '1 flight-height',
  '1 flight-near-nest',
  '2 permit-missing',
  '3 conductor-distance',
  '3 nest-check-missing',
];

test('by themselves', async () => {
  const { code, ofTrees } = await check('');
  expect(code).toBe(1);
  expect(ofTrees).toEqual(expect.arrayContaining(LAW));
});

test.each([
  'limit drone-height 5000 ft',
  'limit permit-dose 100 %',
  'limit nest-buffer-raptor 0',
  'limit nest-buffer-raptor 1 mm',
  'limit line-crew-ratio 0',
  'limit exclusion-ratio 0.1',
  'limit strength-loss 90 %',
  'limit lean 89 deg',
])('%s: refused, and what was in force stays in force', async limit => {
  const { ofTrees, ofPractice } = await check(line(limit));
  expect(ofTrees).toEqual(expect.arrayContaining(LAW));
  expect(ofPractice.map(({ rule, level }) => `${level} ${rule}`)).toEqual(['error limit-loosened']);
  expect(ofPractice[0]!.message).toMatch(/stays in force/);
});

test.each(['off', 'note', 'warning'])('severity … %s: refused', async level => {
  const rules = [
    'flight-height',
    'flight-near-nest',
    'permit-missing',
    'conductor-distance',
    'nest-check-missing',
  ];
  const { ofTrees, ofPractice } = await check(rules.map(rule => line(`severity ${rule} ${level}`)).join(''));
  expect(ofTrees).toEqual(expect.arrayContaining(LAW));
  const told = ofPractice.map(({ rule }) => rule);
  // A warning is graver than some of what flight-near-nest says.
  expect(told).toEqual(Array(level === 'warning' ? 4 : 5).fill('accept-not-allowed'));
});

test('a graver severity and a stricter limit count', async () => {
  const { ofTrees, ofPractice } = await check(
    line('severity conductor-voltage-missing error') + line('limit nest-buffer-raptor 1000 ft'),
  );
  expect(ofTrees).toEqual(expect.arrayContaining(LAW));
  expect(ofPractice).toEqual([]);
});

test('an authorization on record is told and counts up to its last day', async () => {
  const waiver = (until: string) =>
    `${line('limit drone-height 500 ft')}    authorized by "waiver 107W-2026-0123", until ${until}\n`;
  const held = await check(waiver('2026-12-31'));
  expect(held.ofTrees).not.toContain('1 flight-height');
  expect(held.ofPractice.map(({ level, rule }) => `${level} ${rule}`)).toEqual(['note limit-loosened']);
  const ended = await check(waiver('2026-05-19'));
  expect(ended.ofTrees).toContain('1 flight-height');
  expect(ended.ofPractice.map(({ level, rule }) => `${level} ${rule}`)).toEqual(['warning limit-loosened']);
  // The flight was made in its time.
  expect((await check(waiver('2026-05-25'))).ofTrees).not.toContain('1 flight-height');
});

test('safety has no authorization', async () => {
  const { ofPractice } = await check(
    `${line('limit strength-loss 50 %')}    authorized by "the owner", until 2026-12-31\n`,
  );
  expect(ofPractice.map(({ level, rule }) => `${level} ${rule}`)).toEqual(['error limit-loosened']);
});

test('a season by custom that is shortened is told; one given by law stays', async () => {
  const custom = await check(line('season nesting 12-24..12-24'));
  expect(custom.ofPractice.map(({ level, rule }) => `${level} ${rule}`)).toEqual(['warning limit-loosened']);
  const law = await check(line('season nesting 12-24..12-24'), 'DE');
  expect(law.ofTrees).toContain('3 nest-check-missing');
  expect(law.ofPractice.map(({ level, rule }) => `${level} ${rule}`)).toEqual(['error limit-loosened']);
  expect((await check(line('season nesting 02-01..10-15'), 'DE')).ofPractice).toEqual([]);
});

test('a narrower margin of estimates lets more pass, and is told', async () => {
  const { ofPractice } = await check(line('limit estimate-margin 1 %') + line('limit density-margin 1 %'));
  expect(ofPractice.map(({ level, rule }) => `${level} ${rule}`)).toEqual(
    Array(2).fill('note limit-loosened'),
  );
  expect((await check(line('limit estimate-margin 20 %'))).ofPractice).toEqual([]);
});

test.each(['protection-radius', 'drone-people'])(
  'the limit %s, which nothing reads, is refused',
  async name => {
    const { ofPractice } = await check(line(`limit ${name} 1`));
    expect(ofPractice.map(({ level, rule }) => `${level} ${rule}`)).toEqual(['error unknown-limit']);
  },
);

test('of two limits in one folder the stricter counts, whichever stands first, and both are told', async () => {
  const two = ['limit nest-buffer-raptor 600 ft', 'limit nest-buffer-raptor 900 ft'].map(line);
  for (const practice of [two.join(''), two.toReversed().join('')]) {
    const { ofPractice } = await check(practice);
    expect(ofPractice.map(({ rule }) => rule)).toEqual(['duplicate-name']);
  }
});
