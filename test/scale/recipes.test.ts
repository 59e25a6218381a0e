/** The recipes of samples/ci for a check on several machines: the matrix of a build server, the array of a scheduler. */

import { spawnSync } from 'node:child_process';
import { chmodSync, copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { load } from 'js-yaml';
import { afterAll, describe, expect, test } from 'vitest';
import { PROGRAM } from '../built.ts';
import { type Folder, folderWith, ON } from '../cli/folder.ts';
import { type Slurm, startSlurm, whyNoSlurm } from './slurm.ts';

const samples = fileURLToPath(new URL('../../samples/ci/', import.meta.url));
const COMMAND = `${process.execPath} ${PROGRAM}`;

const tree = (tag: number) =>
  `tree ${tag}\n  species Quercus garryana\n  dbh ${tag % 3 === 0 ? '41' : '16 in'}\n`;
const inventory = (): Promise<Folder> =>
  folderWith({
    'trees/site.wood': 'site "Fernhollow Court"\n  region US-OR\n',
    ...Object.fromEntries(Array.from({ length: 12 }, (_, i) => [`trees/t${i}.wood`, tree((i % 9) + 1)])),
  });

function shell(folder: Folder, command: string, environment: Readonly<Record<string, string>> = {}) {
  const { status, stdout, stderr } = spawnSync('sh', ['-c', command], {
    cwd: folder.path,
    encoding: 'utf8',
    env: { ...process.env, SOUNDWOOD: COMMAND, ...environment },
  });
  return { status, stdout, stderr };
}

/** What the reports of a folder hold is what one run finds. */
async function expectReports(folder: Folder, reports: string): Promise<void> {
  for (const [form, name] of [
    ['sarif', 'findings.sarif'],
    ['junit', 'findings.xml'],
    ['markdown', 'review.md'],
  ] as const) {
    const { out } = await folder.run('check', 'trees', '--as', form);
    expect(readFileSync(join(folder.path, reports, name), 'utf8')).toBe(out);
  }
}

interface Workflow {
  readonly jobs: Readonly<
    Record<
      string,
      {
        readonly strategy?: { readonly matrix: { readonly part: readonly number[] } };
        readonly steps: readonly { readonly run?: string }[];
      }
    >
  >;
}

test('the matrix: its commands find what one run finds', async () => {
  const folder = await inventory();
  const { jobs } = load(readFileSync(join(samples, 'matrix.yml'), 'utf8')) as Workflow;
  const commands = (job: string, values: Readonly<Record<string, string>>) =>
    jobs[job]!.steps.flatMap(({ run }) => (run === undefined || run === 'npm ci' ? [] : [run])).map(run =>
      run
        .replaceAll('npx --no-install soundwood', COMMAND)
        .replaceAll(/\$\{\{ (.+?) \}\}/g, (_all, name: string) => values[name]!),
    );
  mkdirSync(folder.file('ci'));
  copyFileSync(join(samples, 'gather.sh'), folder.file('ci/gather.sh'));

  const output = folder.file('output');
  for (const command of commands('day', {})) shell(folder, command, { GITHUB_OUTPUT: output });
  expect(readFileSync(output, 'utf8')).toMatch(/^day=\d{4}-\d\d-\d\d\n$/);

  const { part } = jobs.part!.strategy!.matrix;
  for (const own of part) {
    const values = {
      'matrix.part': String(own),
      'strategy.job-total': String(part.length),
      'needs.day.outputs.day': ON,
    };
    for (const command of commands('part', values)) {
      expect(shell(folder, command)).toMatchObject({ status: 0, stderr: '' });
    }
  }
  // The gathering job downloads what those uploaded.
  mkdirSync(folder.file('parts'));
  for (const own of part)
    copyFileSync(folder.file(`part-${own}.json`), folder.file(`parts/part-${own}.json`));
  const [command, ...others] = commands('gather', {});
  expect(others).toEqual([]);
  const gathered = shell(folder, command!);
  expect(gathered).toEqual({
    status: 1,
    stdout: (await folder.run('check', 'trees', '--as', 'lines')).out,
    stderr: '',
  });
  await expectReports(folder, 'reports');
  expect(shell(folder, command!, { SOUNDWOOD_REJECT: 'never' }).status).toBe(0);
});

test('the gathering says what is missing, and how it is called', async () => {
  const folder = await inventory();
  const gather = `sh ${join(samples, 'gather.sh')}`;
  const missing = shell(folder, `${gather} reports part-1.json`);
  expect(missing).toEqual({ status: 2, stdout: '', stderr: 'soundwood: part-1.json does not exist.\n' });
  expect(shell(folder, gather)).toMatchObject({ status: 2, stderr: expect.stringContaining('usage:') });
});

const whyNot = await whyNoSlurm();
if (whyNot !== undefined) console.warn(`The tests of the job array are passed over: ${whyNot}.`);

describe.skipIf(whyNot !== undefined)('the job array, on Slurm', () => {
  let started: Promise<Slurm> | undefined;
  /** Brought up by the first test that wants it, so that its failure is that of a test. */
  const slurm = () => {
    started ??= startSlurm();
    return started;
  };
  afterAll(async () => (await started?.catch(() => undefined))?.end());

  test('finds what one run finds, and says it with its exit code', async () => {
    const folder = await inventory();
    const environment = { ...(await slurm()).environment, SOUNDWOOD_ON: ON };
    const ran = shell(folder, `sh ${join(samples, 'array.sh')} 3 'out of it' trees`, environment);
    expect(ran).toEqual({
      status: 1,
      stdout: (await folder.run('check', 'trees', '--as', 'lines')).out,
      stderr: '',
    });
    await expectReports(folder, 'out of it');
    for (const part of [1, 2, 3])
      expect(readFileSync(folder.file(`out of it/part-${part}.log`), 'utf8')).toMatch(
        new RegExp(`^Part ${part} of 3: `),
      );
  });

  test('says which part is not there when a task failed', async () => {
    const folder = await inventory();
    writeFileSync(
      folder.file('failing'),
      `#!/bin/sh\ncase "$*" in *"--shard 2/2"*) exit 137 ;; esac\nexec ${COMMAND} "$@"\n`,
    );
    chmodSync(folder.file('failing'), 0o755);
    const environment = {
      ...(await slurm()).environment,
      SOUNDWOOD_ON: ON,
      SOUNDWOOD: folder.file('failing'),
    };
    const ran = shell(folder, `sh ${join(samples, 'array.sh')} 2 out trees`, environment);
    expect(ran).toEqual({
      status: 2,
      stdout: 'soundwood: out/part-2.json does not exist.\n',
      stderr: '',
    });
  });
});
