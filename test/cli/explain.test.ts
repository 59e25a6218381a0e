import { expect, test } from 'vitest';
import { HEADS } from '../../grammar/fields.ts';
import { REGION_NAMES } from '../../server/practice/law/region-names.ts';
import { limitNames } from '../../server/practice/limits.ts';
import { regionPack } from '../../server/practice/regions.ts';
import { RULES } from '../../server/rules/registry.ts';
import { folderWith } from './folder.ts';

test('without a name it lists every rule and every limit', async () => {
  const folder = await folderWith({});
  const { code, out } = await folder.run('explain');
  expect(code).toBe(0);
  const words = new Set(out.split(/\s+/));
  for (const name of [...RULES.map(rule => rule.name), ...limitNames]) expect(words).toContain(name);
});

test.each(RULES.map(rule => rule.name))(
  '%s: summary, explanation, sources, examples, when not',
  async name => {
    const folder = await folderWith({});
    const { code, out } = await folder.run('explain', name);
    const rule = RULES.find(known => known.name === name)!;
    const flat = out.replace(/\s+/g, ' ');
    const inIt = (text: string) => expect(flat).toContain(text.replace(/\s+/g, ' ').trim());
    expect(code).toBe(0);
    inIt(rule.summary);
    inIt(rule.explanation);
    inIt(rule.limitations);
    for (const source of rule.sources)
      inIt(`${source.full}${source.url ? ` ${source.url}` : ''} (${source.confidence})`);
    for (const example of rule.examples) inIt(`Example: ${example.title}`);
    expect(out).not.toContain('#!');
  },
);

test('a limit shows its value, its source and how to change it', async () => {
  const folder = await folderWith({});
  const { out } = await folder.run('explain', 'wall-ratio');
  expect(out).toContain('at least 0.3 (published)');
  expect(out).toContain('Mattheck');
  expect(out).toContain('limit wall-ratio 0.3');
});

test('a mistake of the notation has its page', async () => {
  const folder = await folderWith({});
  expect((await folder.run('explain', 'missing-unit')).out).toContain('needs a unit');
});

test('every head and field has its page, with its form and an example', async () => {
  const folder = await folderWith({});
  for (const head of HEADS.values()) {
    const { code, out } = await folder.run('explain', ...head.word.split(' '));
    expect(code).toBe(0);
    expect(out).toContain(`    ${head.example}\n`);
    for (const field of head.fields.values()) {
      expect(out, head.word).toContain(`  ${field.example}`);
      const page = (await folder.run('explain', field.word)).out.replace(/\s+/g, ' ');
      expect(page).toContain(`${field.word} ${field.shown}`.replace(/\s+/g, ' ').trim());
      expect(page).toContain(`${field.word} (field of `);
    }
  }
});

test('an unknown name gives the nearest one', async () => {
  const folder = await folderWith({});
  expect((await folder.run('explain', 'Bat')).err).toContain(
    'names that contain it: bat-check-missing, bat-check-stale, bat-roost, bat-check-validity, bat check',
  );
  expect((await folder.run('explain', 'prescripton')).err).toContain('did you mean prescription?');
  const { code, err } = await folder.run('explain', 'wall-ration');
  expect(code).toBe(2);
  expect(err).toContain('did you mean wall-ratio?');
});

test('--here shows what applies and where it comes from', async () => {
  const folder = await folderWith({
    'site.wood': 'site "Fernhollow Court"\n  region US-OR\n',
    'grove/practice.wood':
      'practice "Grove"\n\n  limit wall-ratio 0.35\n    because "old trees over a path"\n\n  season nesting 01-15..09-15\n    because "herons"\n',
    'grove/trees.wood': 'tree 1\n',
  });
  const { code, out } = await folder.run('explain', '--here', 'grove');
  expect(code).toBe(0);
  expect(out).toContain('In grove: site "Fernhollow Court", region ');
  expect(out).toMatch(
    /wall-ratio +at least 0\.35 +practice "Grove" in grove\/practice\.wood: old trees over a path/,
  );
  expect(out).toMatch(/nesting +01-15\.\.09-15 +practice "Grove" in grove\/practice\.wood: herons/);
  expect((await folder.run('explain', '--here', 'grove/trees.wood')).out).toContain('at least 0.35');
  const above = await folder.run('explain', 'wall-ratio', '--here', '.');
  expect(above.out).toMatch(/wall-ratio +at least 0\.3 +common to all regions/);
  expect((await folder.run('explain', '--here', 'gone')).code).toBe(2);
});

test('--here gives lengths in the units of the place, but as written those of its own practice', async () => {
  const folder = await folderWith({
    'site.wood': 'site "Court"\n  region GB-ENG\n',
    'grove/practice.wood': 'practice "Grove"\n\n  limit nest-stand-off 60 ft\n    because "herons"\n',
  });
  const { out } = await folder.run('explain', '--here', 'grove');
  expect(out).toMatch(/cut-diameter +at most 10 cm/);
  expect(out).toMatch(/drilling-error +at least 1 cm/);
  expect(out).toMatch(/nest-stand-off +at least 60 ft/);
});

test('--regions lists every region, with the force of what is on record', async () => {
  const folder = await folderWith({});
  const { code, out } = await folder.run('explain', '--regions');
  expect(code).toBe(0);
  for (const [region, name] of Object.entries(REGION_NAMES)) expect(out).toContain(`${region} ${name}\n`);
  expect(out).toMatch(/AU-NSW New South Wales\n {2}lines: guidance, from memory\n/);
});

test('--here shows the whole pack of the place, with force, source and what was read', async () => {
  const folder = await folderWith({ 'site.wood': 'site "Kauri road"\n  region NZ\n' });
  const flat = async () => (await folder.run('explain', '--here', '.')).out.replace(/\s+/g, ' ');
  const out = await flat();
  for (const { id, says, source } of regionPack('NZ').pack.rows) {
    expect(out, id).toContain(says);
    expect(out, id).toContain(source);
  }
  expect(out).toContain('trees with bats 05-01..09-30');
  expect(out).toContain('(law; NZECP 34:2001; binds anyone; text read on 2026-11-29)');
  expect(out).toContain('(custom; common practice; from memory)');
  // No law of another country, and no stand-in where there is a distance.
  expect(out).not.toContain('CFR');
  expect(out).not.toContain('not the law of any place');
});
