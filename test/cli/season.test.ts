import { Ajv } from 'ajv';
import { expect, test } from 'vitest';
import schema from '../../server/show/season.schema.json';
import { folderWith } from './folder.ts';

const validate = new Ajv({ strict: true, allowUnionTypes: true }).compile(schema);

const COURT = `person RV "Ruth Varga"

tree 1 "Lime"
  species     Tilia cordata
  inspection 2024-05-04 from ground
    by        RV
    height    60 ft
  defect A wound
    on        trunk at 4 ft
    share     10 % of circumference
  prescription R1 reduce
    height    60 ft to 50 ft
    between   2025-01-10..2025-03-01
  prescription R2 clean
    between   2025-01-10..2025-03-01
  work R1 2025-02-10
    by        RV
  inspection 2025-09-04 from rope
    by        RV
  defect A wound
    share     45 % of circumference

tree 2
  inspection 2025-09-04 from ground
    by        RV

tree 3
  felled 2021-01-04
  inspection 2020-09-04 from ground
`;

interface Told {
  readonly trees: readonly {
    tag: string;
    isNew: boolean;
    done: readonly { on: string; kind: string; what: string }[];
    changed: readonly { what: string; before: string | null; after: string | null }[];
    due: readonly { what: string; due: string | null; overdue: boolean }[];
  }[];
}

async function told(...args: string[]): Promise<Told> {
  const folder = await folderWith({ 'court.wood': COURT });
  const { code, out } = await folder.run('compare', '.', '--format', 'json', '--date', '2026-01-01', ...args);
  expect(code).toBe(0);
  const season = JSON.parse(out);
  expect(validate(season), JSON.stringify(validate.errors)).toBe(true);
  return season;
}

test('what was done, what changed and what is due', async () => {
  const [lime, second, ...others] = (await told('--since', '2025-01-01')).trees;
  expect(lime!.done.map(({ on, kind, what }) => `${on} ${kind}: ${what}`)).toEqual([
    '2025-02-10 work: reduce R1, by RV',
    '2025-09-04 inspection: inspection from rope, by RV',
  ]);
  expect(lime!.changed).toEqual([
    { what: 'height', before: '60 ft', after: '50 ft' },
    { what: 'wound A: share', before: '10 % of circumference', after: '45 % of circumference' },
    { what: 'wound A: verdict', before: 'within', after: 'exceeds' },
  ]);
  expect(lime!.due[0]).toMatchObject({ what: 'clean R2', due: '2025-03-01', overdue: true });
  expect(second).toMatchObject({ tag: '2', isNew: true, changed: [] });
  // Gone before.
  expect(others).toEqual([]);
});

test('a period holds its first day, and not the day before', async () => {
  const done = async (since: string) => (await told('--since', since)).trees[0]!.done.map(({ on }) => on);
  expect(await done('2025-02-10')).toContain('2025-02-10');
  expect(await done('2025-02-11')).not.toContain('2025-02-10');
});

test('as text, as Markdown and in the report', async () => {
  const folder = await folderWith({ 'court.wood': COURT });
  const run = (...args: string[]) => folder.run(...args, '--since', '2025-01-01', '--date', '2026-01-01');
  const { out } = await run('compare', '.');
  expect(out).toContain(
    '2 trees: 2 inspected, 1 worked on, 0 felled, 2 changed or new and 1 with something overdue.',
  );
  expect(out).toContain('    Height: 60 ft → 50 ft.\n');
  expect(out).toContain('    Clean R2, overdue since 1 March 2025.\n');
  expect((await run('compare', '.', '--format', 'markdown')).out).toContain(
    '- changed: Height: 60 ft → 50 ft.',
  );
  expect((await run('report', '--for', 'client')).out).toContain('From 1 January 2025 to 1 January 2026');
});

test('asked the wrong way, it says how to ask', async () => {
  const folder = await folderWith({ 'court.wood': COURT });
  expect((await folder.run('compare')).err).toContain('or use --since DATE');
  expect((await folder.run('compare', '.', '--since', '2030-01-01', '--date', '2026-01-01')).err).toContain(
    'ends before it begins',
  );
  expect((await folder.run('compare', '.', '.', '--since', '2025-01-01')).err).toContain('one inventory');
});
