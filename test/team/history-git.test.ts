/** history --git: who changed what in the record of a tree, in repositories made on the spot. */

import { existsSync } from 'node:fs';
import { Ajv } from 'ajv';
import { expect, test } from 'vitest';
import schema from '../../server/show/history.schema.json';
import { folderWith } from '../cli/folder.ts';
import { repositoryWith } from './repository.ts';

const validate = new Ajv({ strict: true, allowUnionTypes: true }).compile(schema);

const tree = (height: string, more = '') =>
  `tree 1\n  height ${height}\n  inspection 2025-05-04 from ground\n${more}\ntree 2\n  height 5 m\n`;

interface Edit {
  readonly by: string;
  readonly commit: string;
  readonly state: string;
  readonly changes: readonly string[];
}

test('each commit that changed the tree, the newest first; what changed another tree is not of it', async () => {
  const repository = await repositoryWith({ 'a.wood': tree('60 ft') });
  await repository.git('config', 'user.name', 'Tom Lind');
  await repository.write({ 'a.wood': tree('60 ft', '  defect A wound\n    share 10 % of circumference\n') });
  await repository.commit('A wound');
  // Another name for the file, with a line break in it, and a change to the other tree.
  await repository.git('mv', 'a.wood', 'b\n:(glob)*.wood');
  await repository.commit('Moved');
  await repository.write({
    'b\n:(glob)*.wood': tree('60 ft', '  defect A wound\n    share 20 % of circumference\n').replace(
      '5 m',
      '6 m',
    ),
  });
  await repository.commit('Both');
  await repository.write({
    'b\n:(glob)*.wood': tree('60 ft', '  defect A wound\n    share 20 % of circumference\n').replace(
      '5 m',
      '7 m',
    ),
  });
  await repository.commit('The other');
  const { code, out } = await repository.run('history', '1', '--git', '--format', 'json');
  expect(code).toBe(0);
  const report = JSON.parse(out);
  expect(validate(report), JSON.stringify(validate.errors)).toBe(true);
  const edits: readonly Edit[] = report.trees[0].edits;
  expect(edits.map(({ by, state, changes }) => [by, state, changes.at(-1)])).toEqual([
    ['Tom Lind', 'kept', 'defect A: share 10 % of circumference → 20 % of circumference'],
    ['Tom Lind', 'kept', 'defect A: new: kind wound; share 10 % of circumference'],
    ['Ruth Varga', 'added', expect.stringContaining('inspection 2025-05-04')],
  ]);
  const text = (await repository.run('history', '1', '--git')).out;
  expect(text).toContain('Changes to the record, from git');
  expect(text).toContain(`Tom Lind (${edits[0]!.commit.slice(0, 7)}): defect A: share`);
  expect((await repository.run('history', '1')).out).not.toContain('from git');
});

test('no repository, no commit, a tree that no commit has', async () => {
  const folder = await folderWith({ 'a.wood': tree('60 ft') });
  const alone = await folder.run('history', '1', '--git');
  expect(alone.code).toBe(2);
  expect(alone.err).toContain('git');
  const repository = await repositoryWith({});
  await repository.write({ 'new.wood': tree('60 ft') });
  expect((await repository.run('history', '1', '--git')).out).toContain('This tree is in no commit.');
});

test('nothing that the settings of a repository name is started', async () => {
  const repository = await repositoryWith({ 'a.wood': tree('60 ft') });
  const mark = repository.file('started');
  for (const name of ['core.fsmonitor', 'gpg.program', 'diff.external', 'core.pager', 'diff.x.textconv'])
    await repository.git('config', name, `touch ${mark}`);
  await repository.git('config', 'log.showSignature', 'true');
  await repository.write({ '.gitattributes': '*.wood diff=x\n' });
  expect((await repository.run('history', '1', '--git')).code).toBe(0);
  expect((await repository.run('compare', '.', '--since', '2025-01-01')).code).toBe(0);
  expect(existsSync(mark)).toBe(false);
});
