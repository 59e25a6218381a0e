import { describe, expect, test } from 'vitest';
import type { LawRow } from '../../server/practice/law/law-row.ts';
import { isFromMemory, lawRows, lawsIn, ofKind } from '../../server/practice/law/laws-of.ts';

/** The rows that were gathered; some are split in the data. */
const IDS = `
at-bird-1 at-line-1 at-tree-1 au-all-1 au-drone-1 au-nsw-line-1 au-qld-line-1 au-qld-wild-1 au-sa-line-1 
au-sa-tree-1 au-sa-tree-2 au-tas-1 au-vic-line-1 au-vic-line-2 au-vic-line-3 au-wa-line-1 be-bru-1 be-bru-2 
be-line-1 be-line-2 be-vlg-1 be-vlg-2 ca-ab-1 ca-ab-2 ca-bc-1 ca-bc-2 ca-bc-3 ca-bc-4 ca-bc-5 ca-bc-6 
ca-bird-1 ca-bird-2 ca-bird-3 ca-bird-4 ca-drone-1 ca-drone-2 ca-drone-3 ca-mb-1 ca-on-1 ca-on-2 ca-on-3 
ca-qc-1 ca-qc-2 ca-qc-3 ca-sk-1 ch-bird-1 ch-drone-1 ch-tree-1 ch-tree-2 de-bat-1 de-bird-1 de-cut-1 de-cut-2 
de-cut-3 de-drone-1 de-fell-1 de-line-1 de-line-2 de-work-1 dk-bird-1 dk-bird-2 dk-bird-3 dk-bird-4 dk-tree-1 
es-bird-1 es-line-1 es-line-2 es-line-3 eu-bird-1 eu-drone-1 eu-drone-2 eu-drone-3 eu-line-1 fr-bird-1 
fr-cut-1 fr-cut-2 fr-line-1 fr-line-2 fr-tree-1 gb-bat-1 gb-bird-1 gb-drone-1 gb-fell-1 gb-fell-lic-1 
gb-line-1 gb-line-2 gb-line-3 gb-nir-1 gb-nir-2 gb-nir-3 gb-sct-1 gb-sct-2 gb-sct-3 gb-sct-4 gb-sct-5 
gb-tpo-1 gb-tpo-2 hk-bird-1 hk-drone-1 hk-tree-1 ie-1 ie-2 ie-3 ie-4 ie-5 ie-6 ie-7 it-bird-1 it-cut-1 
it-line-1 nl-bird-1 nl-tree-1 nz-bat-1 nz-bird-1 nz-drone-1 nz-line-1 nz-line-2 nz-line-3 nz-trade-1 
pl-bird-1 pl-line-1 pl-prune-1 pl-tree-1 se-bat-1 se-bird-1 sg-bird-1 sg-drone-1 sg-tree-1 sg-tree-2 us-bat-1 
us-bat-2 us-bird-1 us-bird-2 us-bird-3 us-ca-1 us-ca-2 us-ca-3 us-ca-4 us-drone-1 us-drone-2 us-drone-3 
us-eagle-1 us-eagle-2 us-eagle-3 us-eagle-4 us-eagle-5 us-eagle-6 us-eagle-7 us-fell-1 us-fell-2 us-fell-3 
us-fell-3a us-fell-4 us-fell-5 us-fl-1 us-fl-2 us-fl-3 us-fl-4 us-fl-5 us-fl-6 us-fl-7 us-hi-1 us-il-1 
us-line-1 us-line-10 us-line-11 us-line-12 us-line-13 us-line-14 us-line-15 us-line-16 us-line-17 us-line-18 
us-line-19 us-line-2 us-line-20 us-line-21 us-line-22 us-line-23 us-line-24 us-line-3 us-line-4 us-line-5 
us-line-6 us-line-7 us-line-8 us-line-9 us-ma-1 us-ma-2 us-md-1 us-md-2 us-mi-1 us-mi-2 us-ny-1 us-ny-2 
us-ny-3 us-or-1 us-or-2 us-or-3 us-pa-1 us-pa-2 us-tx-1 us-tx-2 us-tx-3 us-tx-4 us-va-1 us-va-2 us-va-3 
us-wa-1 us-wa-2 us-wa-3 us-wa-4 za-bird-1 za-drone-1 za-tree-1 za-tree-2 
`;

const inForce = (region: string): readonly string[] => lawsIn(region, '2026-11-29').map(({ id }) => id);

describe('rows of law', () => {
  test('every row is there, once', () => {
    const ids = lawRows.map(({ id }) => id);
    expect(ids.length).toBe(new Set(ids).size);
    expect(
      IDS.trim()
        .split(/\s+/)
        .filter(id => !ids.includes(id)),
    ).toEqual([]);
  });

  test.each(lawRows.map(row => [row.id, row] as const))(
    '%s says what, whom and where it is from',
    (_, row: LawRow) => {
      for (const text of [row.says, row.binds, row.source]) expect(text.trim()).not.toBe('');
      for (const day of [row.from, row.until])
        if (day !== undefined) expect(day).toMatch(/^\d{4}-\d{2}-\d{2}$/);
      if (row.read === 'in part' || row.read === 'older text')
        expect(row.doubt ?? row.until ?? row.source).toBeTruthy();
    },
  );

  test('steps of distances rise with the voltage', () => {
    for (const { id, rule } of ofKind(lawRows, 'approach'))
      for (const [i, [upTo, distance]] of rule.steps.entries()) {
        const before = rule.steps[i - 1];
        expect(before === undefined || (before[0] < upTo && before[1] <= distance), id).toBe(true);
      }
  });

  test('a state has the rows of its country, a member those of the Union, and nobody those of another country', () => {
    expect(inForce('US-OR')).toEqual(expect.arrayContaining(['us-line-8', 'us-or-1']));
    expect(inForce('US-OR')).not.toContain('us-wa-1');
    expect(inForce('DE-BY')).toEqual(expect.arrayContaining(['eu-drone-1', 'de-line-1']));
    expect(inForce('CH')).not.toContain('eu-drone-1');
    expect(lawsIn('BR', '2026-11-29').every(({ region }) => region.includes('everywhere'))).toBe(true);
  });

  test('a row counts while it is valid', () => {
    expect(lawsIn('NZ', '2024-01-01').map(({ id }) => id)).toContain('nz-line-2');
    expect(inForce('NZ')).not.toContain('nz-line-2');
    expect(lawsIn('FR', '2024-12-18').map(({ id }) => id)).not.toContain('fr-line-1');
  });

  test('what nobody read is known as such', () => {
    expect(lawRows.filter(isFromMemory).length).toBeGreaterThan(40);
  });
});
