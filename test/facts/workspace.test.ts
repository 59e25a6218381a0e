import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import { factOf } from '../../server/facts/build.ts';
import { valuesOf } from '../../server/facts/interval.ts';
import type { WrittenTree } from '../../server/facts/types.ts';
import {
  buildWorkspace,
  type FileSnapshot,
  readFile,
  settingsFor,
  siteOf,
  treesNamed,
} from '../../server/facts/workspace.ts';

const build = (files: Readonly<Record<string, string>>) =>
  buildWorkspace(Object.entries(files).map(([path, text]) => readFile(path, text)));

const FILES = {
  'office.wood': `person RV "Ruth Varga"
crew ROPE "Rope crew"
practice "Office limits"
  limit strength-loss 30 %
    because "busy"
  limit lean 30 deg
    because "busy"
  season nesting 02-01..08-31
    because "local custom"
`,
  'court/site.wood': 'site "Fernhollow Court"\n  region US-OR\n',
  'court/lawn/trees.wood': 'tree 14 "Lawn maple"\n',
  'court/grove/site.wood': `site "Old grove"
  region GB
practice "Grove"
  limit strength-loss 20 %
    because "veterans"
  severity dose-unstated off
    because "veterans"
`,
  'court/grove/trees.wood': 'tree 14\ntree 15\n',
};

describe('a workspace', () => {
  const workspace = build(FILES);
  const lawn = settingsFor(workspace, 'court/lawn/trees.wood');
  const grove = settingsFor(workspace, 'court/grove/trees.wood');

  it('gives a file the site of its folder, or of the nearest one above', () => {
    expect(siteOf(workspace, 'court/lawn/trees.wood')?.name.value).toBe('Fernhollow Court');
    expect(siteOf(workspace, 'court/grove/trees.wood')?.name.value).toBe('Old grove');
    expect(siteOf(workspace, 'court/grove/deep/er/trees.wood')?.name.value).toBe('Old grove');
    expect(siteOf(workspace, 'courtyard/trees.wood')).toBeUndefined();
    expect(siteOf(workspace, 'office.wood')).toBeUndefined();
  });

  it('knows persons, crews and the trees of a site', () => {
    expect([...workspace.persons.keys()]).toEqual(['RV']);
    expect([...workspace.crews.keys()]).toEqual(['ROPE']);
    const paths = (path: string, tag: string) => treesNamed(workspace, path, tag).map(tree => tree.path);
    expect(paths('court/site.wood', '14')).toEqual(['court/lawn/trees.wood']);
    expect(paths('court/grove/site.wood', '14')).toEqual(['court/grove/trees.wood']);
    expect(paths('court/site.wood', '15')).toEqual([]);
  });

  it('lets the nearest practice block win, with its origin', () => {
    expect(lawn.limit('strength-loss')).toMatchObject({
      value: 0.3,
      origin: { from: 'practice', name: 'Office limits', file: 'office.wood', because: 'busy' },
    });
    expect(grove.limit('strength-loss')).toMatchObject({
      value: 0.2,
      origin: { name: 'Grove', file: 'court/grove/site.wood' },
    });
    expect(grove.limit('lean')).toMatchObject({ value: 30, unit: 'deg' });
    expect(lawn.limit('wall-ratio')).toMatchObject({ value: 0.3, origin: { from: 'table' } });
    expect(lawn.severity('dose-unstated')).toBeUndefined();
    expect(grove.severity('dose-unstated')).toBe('off');
  });

  it('takes seasons from practice, else from the region of the site', () => {
    expect(lawn.nesting).toMatchObject({
      window: { from: { month: 2, day: 1 } },
      origin: { from: 'practice' },
    });
    expect(lawn.raptorNesting?.origin).toMatchObject({ from: 'region', name: lawn.region.name });
    expect([lawn.region.code, lawn.regionApplied]).toEqual(['US-OR', 'exact']);
    expect(grove.region.code).toBe('GB');
    expect(settingsFor(workspace, 'office.wood').regionApplied).toBe('unstated');
    expect(settingsFor(build({ 'a.wood': 'site "A"\n  region US-XX\n' }), 'a.wood').regionApplied).toBe(
      'country',
    );
  });

  it('takes the validity of a nest check from practice, then from the region', () => {
    expect(lawn.limit('nest-check-validity').origin.from).toBe('region');
    const three = build({
      'a.wood': 'practice "Permit"\n  limit nest-check-validity 3 days\n    because "permit"\n',
    });
    expect(settingsFor(three, 'a.wood').limit('nest-check-validity')).toMatchObject({
      value: 3,
      origin: { from: 'practice' },
    });
  });

  it('passes over limits of another dimension, takes the stricter of two whichever stands first', () => {
    const odd = settingsFor(
      build({
        'a.wood': 'practice "A"\n  limit lean 3 ft\n  limit strength-loss 20 %\n  limit strength-loss 25 %\n',
      }),
      'a.wood',
    );
    expect(odd.limit('lean').origin.from).toBe('table');
    expect(odd.limit('strength-loss').value).toBe(0.2);
  });

  it('refuses a limit that does not exist', () => {
    expect(() => lawn.limit('strenght-loss')).toThrow(RangeError);
  });

  it('hands its settings on while nothing that bears on them changes', () => {
    const file = readFile('court/lawn/trees.wood', 'tree 14 "Lawn maple"\n  height 52 ft\n');
    const others = [...workspace.files.values()].filter(({ path }) => path !== file.path);
    const next = buildWorkspace([...others, file], workspace);
    expect(settingsFor(next, file.path)).toBe(lawn);
    const office = readFile('office.wood', 'person RV "Ruth Varga"\n');
    const changed = buildWorkspace(
      [...next.files.values()].map(f => (f.path === office.path ? office : f)),
      next,
    );
    expect(settingsFor(changed, file.path).limit('strength-loss').value).toBeCloseTo(0.33, 12);
  });
});

describe('what a reading may stand for', () => {
  const settings = settingsFor(build({ 'a.wood': 'practice "A"\n  limit estimate-margin 20 %\n' }), 'a.wood');
  const height = (written: string) =>
    valuesOf((factOf(parseBlock(`tree 1\n  height ${written}\n`)) as WrittenTree).height!.value, settings);

  it.each([
    ['10 m', 10, 10],
    ['~10 m', 8, 12],
    ['8..11 m', 8, 11],
    ['> 10 m', 10, Number.POSITIVE_INFINITY],
    ['< 10 m', 0, 10],
    ['unseen', 0, Number.POSITIVE_INFINITY],
  ])('%s', (written, low, high) => {
    const read = height(written);
    expect(read.low).toBeCloseTo(low, 12);
    expect(read.high === high || Math.abs(read.high - high) < 1e-12).toBe(true);
  });
});

describe('reading a file again', () => {
  const shape = ({ blocks, facts }: FileSnapshot) => ({
    blocks: blocks.map(({ start, firstLine, block }) => [start, firstLine, block.text]),
    facts: facts.map(({ start, fact }) => [start, fact]),
  });

  it('takes over every block that was left alone', () => {
    const before = readFile('a.wood', 'site "A"\n\ntree 1\n  height 5 m\ntree 2\n  height 6 m\ntree 3\n');
    const after = readFile('a.wood', before.text.replace('6 m', '7 m\n  dbh 20 cm'), before);
    expect(after.nodes[0]).toBe(before.nodes[0]);
    expect(after.nodes[3]).toBe(before.nodes[3]);
    expect(shape(after)).toEqual(shape(readFile('a.wood', after.text)));
  });

  const piece = fc.constantFrom(
    'tree 1\n',
    'tree 2 "Gate oak"\r\n',
    'tre 3\n  height 5 m\n',
    '  height 5 m\n',
    '  defect A cavity\n',
    'site "A"\n',
    '\n',
    '# note\n',
    'x',
    ' ',
    '"',
    'practice "P"\n',
    '  limit lean 3 deg\n',
    '\r',
    'tree',
  );
  const text = fc.array(piece, { maxLength: 14 }).map(pieces => pieces.join(''));

  it('gives what reading it afresh gives, whatever the edit', () => {
    fc.assert(
      fc.property(text, text, fc.nat(), fc.nat(), (before, put, at, length) => {
        const from = at % (before.length + 1);
        const edited =
          before.slice(0, from) + put + before.slice(from + (length % (before.length - from + 1)));
        const again = readFile('a.wood', edited, readFile('a.wood', before));
        expect(shape(again)).toEqual(shape(readFile('a.wood', edited)));
      }),
      { numRuns: 1000 },
    );
  });
});
