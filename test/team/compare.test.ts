/** compare: what changed between two states, in the trade's terms. */

import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseBlock, splitBlocks } from '../../grammar/blocks.ts';
import { tidy } from '../../grammar/tidy.ts';
import { parseDate } from '../../server/base/dates.ts';
import { compareStates } from '../../server/compare/compare.ts';
import { blockChanges } from '../../server/compare/records.ts';
import { buildWorkspace, readFile } from '../../server/facts/workspace.ts';
import schema from '../../server/show/comparison.schema.json';
import { ON } from '../cli/folder.ts';
import { FILES, MAPLE, OAK, PEOPLE, SITE } from './inventory.ts';
import { repositoryWith } from './repository.ts';

const validate = addFormats.default(new Ajv({ allErrors: true, allowUnionTypes: true })).compile(schema);

const workspace = (files: Readonly<Record<string, string>>) =>
  buildWorkspace(Object.entries(files).map(([path, text]) => readFile(path, text)));
const compared = (before: Readonly<Record<string, string>>, after: Readonly<Record<string, string>>) =>
  compareStates(workspace(before), workspace(after), parseDate(ON)!);
const withLawn = (text: string) => ({ ...FILES, 'lawn.wood': text });

/** The maple with one change, against the maple as it is. */
const changed = (from: string, to: string) => {
  expect(MAPLE).toContain(from);
  const { trees } = compared(FILES, withLawn(`${OAK}\n${MAPLE.replace(from, to)}`));
  expect(trees.map(({ tag }) => tag)).toEqual(['14']);
  return trees[0]!;
};

test('formatting, order, comments, units and other files are no change', () => {
  const sections = MAPLE.trimEnd().split('\n\n');
  const turned = [sections[0], sections[1], sections[3], sections[2]].join('\n\n');
  const written = turned
    .replace('dbh         41 in', 'dbh 104.14 cm # with a tape')
    .replace('facing SW', 'facing 225 deg')
    .replace('  age         mature\n  vigor       good\n', '  vigor good\n\n  # as always\n  age mature\n');
  expect(written).not.toContain('41 in');
  const after = {
    'all.wood': `${SITE}\n${PEOPLE}`,
    'trees.wood': `${written}\n\n${OAK}`.replaceAll('\n', '\r\n'),
  };
  expect(compared(FILES, after)).toEqual({ trees: [], others: [], came: [], went: [], notComputed: [] });
});

test('sizes, doses, dates and kinds stand before and after', () => {
  expect(changed('height      52 ft', 'height      46 ft').changes).toEqual([
    { record: '', field: 'height', kind: 'changed', before: '52 ft', after: '46 ft' },
  ]);
  expect(changed('dose      40 %', 'dose      18 %')).toMatchObject({
    changes: [{ record: 'prescription R1', field: 'dose', kind: 'changed', before: '40 %', after: '18 %' }],
    came: [],
  });
  expect(changed('2026-10-15..2026-11-30', '2026-10-15..2026-12-15').changes).toEqual([
    {
      record: 'prescription R1',
      field: 'between',
      kind: 'changed',
      before: '2026-10-15..2026-11-30',
      after: '2026-10-15..2026-12-15',
    },
  ]);
  expect(changed('A cavity', 'A decay').changes).toEqual([
    { record: 'defect A', field: 'kind', kind: 'changed', before: 'cavity', after: 'decay' },
  ]);
  expect(changed('  depth     8 in\n', '').changes).toEqual([
    { record: 'defect A', field: 'depth', kind: 'gone', before: '8 in' },
  ]);
});

test('defects are new, closed or gone; prescriptions withdrawn', () => {
  expect(
    changed('  prescription R1', '  defect B wound\n    diameter 12 in\n\n  prescription R1').changes,
  ).toEqual([{ record: 'defect B', field: '', kind: 'new', after: 'kind wound; diameter 12 in' }]);
  expect(
    changed('    depth     8 in\n', '    depth     8 in\n    closed 2026-05-01 "filled"\n').changes,
  ).toEqual([{ record: 'defect A', field: 'closed', kind: 'closed', after: '2026-05-01 "filled"' }]);
  const start = MAPLE.indexOf('  defect A');
  const defect = MAPLE.slice(start, MAPLE.indexOf('  prescription R1'));
  expect(changed(defect, '').changes).toMatchObject([{ record: 'defect A', field: '', kind: 'gone' }]);
});

test('ratings of risk and exceptions are records with a name of their own', () => {
  const risk = (rating: string) =>
    `${OAK}\n  risk "Play lawn"\n    rating ${rating}\n\n  risk "Play lawn" from A\n    rating low\n`;
  const { trees } = compared(withLawn(risk('low')), withLawn(risk('high')));
  expect(trees[0]!.changes).toEqual([
    { record: 'risk Play lawn', field: 'rating', kind: 'changed', before: 'low', after: 'high' },
  ]);
});

test('strength loss and stress ratio before and after, where a reading or a dimension changed', () => {
  const reduced = `${MAPLE}    height    52 ft to 46 ft\n    spread    58 ft to 52 ft\n`;
  const deeper = reduced.replace('depth     8 in', 'depth     20 in');
  const { trees } = compared(withLawn(reduced), withLawn(deeper));
  const figures = trees[0]!.figures;
  expect(figures.map(({ what, at }) => `${what} at ${at}`)).toEqual([
    'strength loss at defect A',
    'stress ratio at defect A under R1',
  ]);
  for (const { before, after } of figures) expect(after!.high).toBeGreaterThan(before!.high);
  const [added] = compared(withLawn(MAPLE), withLawn(reduced)).trees;
  expect(added!.figures).toMatchObject([{ what: 'stress ratio', at: 'defect A under R1' }]);
  expect(added!.figures[0]).not.toHaveProperty('before');
});

test('a practice that changes is named, and what it does to findings stands with the trees', () => {
  const practice = 'practice "Office limits"\n  limit strength-loss 1 %\n    because "busy lawn"\n';
  const { others, trees, came } = compared(FILES, { ...FILES, 'practice.wood': practice });
  expect(others).toMatchObject([{ name: 'practice Office limits', state: 'added' }]);
  expect(trees.map(({ tag, changes }) => [tag, changes.length])).toEqual([['14', 0]]);
  expect(trees[0]!.came.length).toBe(came.length);
  expect(came.length).toBeGreaterThan(0);
});

test('trees are added, gone, felled, given a new tag, moved to another site', () => {
  const states = (before: string, after: string) =>
    compared(withLawn(before), withLawn(after)).trees.map(({ tag, state, felled, formerly }) => ({
      tag,
      state,
      felled,
      formerly,
    }));
  const kept = { state: 'kept', felled: false, formerly: undefined };
  expect(states(OAK, `${OAK}\n${MAPLE}`)).toEqual([{ ...kept, tag: '14', state: 'added' }]);
  expect(states(`${OAK}\n${MAPLE}`, OAK)).toEqual([{ ...kept, tag: '14', state: 'gone' }]);
  expect(states(OAK, OAK.replace('\n\n', '\n  felled 2026-05-20\n\n'))).toEqual([
    { ...kept, tag: '11', felled: true },
  ]);
  // The old tag is given to another tree at once.
  const retagged = `${OAK.replace('tree 11 "Gate oak"', 'tree 111 "Gate oak"\n  formerly 11')}\n${MAPLE.replace('tree 14', 'tree 11')}`;
  expect(states(OAK, retagged)).toEqual([
    { ...kept, tag: '11', state: 'added' },
    { ...kept, tag: '111', formerly: '11' },
  ]);
  // What is found of the tree as a whole stays what it was under the new tag.
  const slender = OAK.replace('height      61 ft', 'height      161 ft');
  const renamed = slender.replace('tree 11 "Gate oak"', 'tree 111 "Gate oak"\n  formerly 11');
  const { trees, came, went } = compared(withLawn(slender), withLawn(renamed));
  expect(compared(withLawn(OAK), withLawn(slender)).came.map(({ rule }) => rule)).toContain('slenderness');
  expect({ tags: trees.map(({ tag }) => tag), came, went }).toEqual({ tags: ['111'], came: [], went: [] });
  const park = SITE.replace('Fernhollow Court', 'Wren Park');
  const moved = compared(
    { 'a/site.wood': SITE, 'a/trees.wood': OAK, 'b/site.wood': park },
    { 'a/site.wood': SITE, 'b/trees.wood': OAK, 'b/site.wood': park },
  );
  expect(moved.trees).toMatchObject([
    { tag: '11', state: 'kept', site: 'Wren Park', from: 'Fernhollow Court' },
  ]);
});

test('a state against itself, however it is printed, shows nothing', () => {
  const blocks = `${OAK}\n${MAPLE}`.trimEnd().split(/\n\n(?=tree)/);
  fc.assert(
    fc.property(fc.shuffledSubarray(blocks, { minLength: 2 }), fc.boolean(), (some, tidied) => {
      const text = `${some.join('\n\n')}\n`;
      const after = tidied ? tidy(text).text : text.replace(/ {2,}/g, '\t');
      expect(compared(FILES, withLawn(after))).toEqual({
        trees: [],
        others: [],
        came: [],
        went: [],
        notComputed: [],
      });
    }),
    { numRuns: 20 },
  );
});

test('no edit of a value in the sample inventory goes unseen', () => {
  const sample = fileURLToPath(new URL('../../samples/fernhollow/', import.meta.url));
  const names = readdirSync(sample, { recursive: true, encoding: 'utf8' }).filter(name =>
    name.endsWith('.wood'),
  );
  let edits = 0;
  for (const { block } of names.flatMap(name => splitBlocks(readFileSync(sample + name, 'utf8')))) {
    const lines = block.text.split('\n');
    // The head of the file itself is what a block is found by.
    for (let i = (block.sections[0]?.head ?? 0) + 1; i < lines.length; i++) {
      const [content] = lines[i]!.split('#');
      const text = content!.replace(/\d(?=\D*$)/, digit => String((Number(digit) + 1) % 10));
      if (text === content) continue;
      const edited = parseBlock([...lines.slice(0, i), text, ...lines.slice(i + 1)].join('\n'));
      expect(blockChanges(block, edited), `${lines[i]} → ${text}`).not.toEqual([]);
      edits++;
    }
  }
  expect(edits).toBeGreaterThan(300);
});

test('a range of commits is compared as git has it, and can be limited to paths', async () => {
  const grove = (height: string) => OAK.replace('tree 11', 'tree 12').replace('61 ft', height);
  const repository = await repositoryWith({ ...FILES, 'grove/oak.wood': grove('61 ft') });
  await repository.git('tag', 'start');
  await repository.git('switch', '--quiet', '--create', 'side');
  await repository.write({ 'grove/oak.wood': grove('62 ft') });
  await repository.commit('Grove');
  await repository.git('switch', '--quiet', 'main');
  await repository.write({ 'lawn.wood': FILES['lawn.wood'].replace('52 ft', '53 ft') });
  await repository.commit('Lawn');
  const tags = async (...args: string[]) => {
    const { code, out, err } = await repository.run('compare', ...args, '--format', 'json');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    return (JSON.parse(out) as { trees: { tag: string }[] }).trees.map(({ tag }) => tag);
  };
  expect(await tags('start..main')).toEqual(['14']);
  expect(await tags('start..')).toEqual(['14']);
  expect(await tags('side..main')).toEqual(['12', '14']);
  expect(await tags('side...main')).toEqual(['14']);
  expect(await tags('main...side')).toEqual(['12']);
  expect(await tags('side..main', 'grove')).toEqual(['12']);
  expect(await tags('side..main', 'lawn.wood')).toEqual(['14']);
  expect(await tags('side..main', 'lawn.wood', 'grove')).toEqual(['12', '14']);
  expect(await repository.run('compare', 'side..nothing')).toMatchObject({
    code: 2,
    err: expect.stringContaining('nothing is not the name of exactly one commit here'),
  });
  expect((await repository.run('compare', 'side...nothing')).err).toContain('have no common commit here');
  expect((await repository.run('compare', 'side', 'main', 'grove')).err).toContain(
    'soundwood compare side..main grove',
  );
  expect((await repository.run('compare', 'side..main', '../..')).err).toContain('outside this repository');
});

test('commits, the working tree and folders are compared alike', async () => {
  const repository = await repositoryWith({
    ...FILES,
    'lawn.wood': `${OAK}\n${MAPLE.replace('40 %', '5 %')}`,
  });
  const copies = Object.fromEntries(
    Object.entries(FILES).map(([name, text]) => [`.copies/now/${name}`, text]),
  );
  const olds = Object.fromEntries(
    Object.entries({ ...FILES, 'lawn.wood': `${OAK}\n${MAPLE.replace('40 %', '5 %')}` }).map(
      ([name, text]) => [`.copies/old/${name}`, text],
    ),
  );
  await repository.write({ ...copies, ...olds, ...FILES });
  const work = await repository.run('compare', 'main', '--on', ON);
  expect(work.code).toBe(1);
  expect(work.err).toBe('');
  expect(work.out).toContain('tree 14 "Lawn maple" (Fernhollow Court)\n  prescription R1: dose 5 % → 40 %\n');
  expect(work.out).toMatch(/\n {2}\+ error: .* \[season-dose\]\n/);
  expect(work.out).toMatch(
    /\n1 tree changed, 0 added, 0 felled, 0 gone; \d+ new findings?, 0 no longer reported\.\n$/,
  );
  await repository.commit('Second state');
  expect((await repository.run('compare', 'HEAD~1', 'main', '--on', ON)).out).toBe(work.out);
  expect((await repository.run('compare', '.copies/old', '.copies/now', '--on', ON)).out).toBe(work.out);
  expect(await repository.run('compare', 'main', '--on', ON, '--reject', 'note')).toEqual({
    code: 0,
    out: '0 trees changed, 0 added, 0 felled, 0 gone; 0 new findings, 0 no longer reported.\n',
    err: '',
  });
  expect((await repository.run('compare', 'HEAD~1', '--on', ON, '--reject', 'never')).code).toBe(0);
  const gone = await repository.run('compare', 'gone');
  expect(gone).toMatchObject({ code: 2, out: '' });
  expect(gone.err).toContain('gone is not the name of exactly one commit here');
});

test('--as json follows the published schema, in both directions; --as markdown shows no mark-up of the user', async () => {
  const risky = MAPLE.replace('"Lawn maple"', '"Lawn | <b>maple</b> *"').replace(
    'dose      40 %',
    'height 52 ft to 46 ft',
  );
  const repository = await repositoryWith({ ...FILES, 'lawn.wood': OAK });
  await repository.write({ 'lawn.wood': risky, 'site.wood': SITE.replace('US-OR', 'US-WA') });
  await repository.commit('Second state');
  for (const states of [
    ['HEAD~1', 'HEAD'],
    ['HEAD', 'HEAD~1'],
  ]) {
    const { out } = await repository.run('compare', ...states, '--as', 'json', '--on', ON);
    const report = JSON.parse(out);
    expect(validate(report), JSON.stringify(validate.errors)).toBe(true);
    expect(report).toMatchObject({ version: 1, on: ON, before: states[0], after: states[1] });
    expect(report.trees.map(({ tag }: { tag: string }) => tag)).toEqual(['11', '14']);
    expect(report.others).toMatchObject([{ name: 'site Fernhollow Court' }]);
  }
  const { out } = await repository.run('compare', 'HEAD~1', '--as', 'markdown', '--on', ON);
  expect(out).toContain('**tree 14 "Lawn \\| &lt;b&gt;maple&lt;/b&gt; \\*" (Fernhollow Court), added**');
});
