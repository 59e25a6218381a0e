/** Six years of a village green: what each commit of its history says is what the inventory says on that day. */

import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { formatDate, parseDate } from '../../server/base/dates.ts';
import { treeOn } from '../../server/facts/state.ts';
import { buildWorkspace, readFile, type Workspace } from '../../server/facts/workspace.ts';
import { checkWorkspace } from '../../server/rules/check.ts';
import { lifeOf } from '../../server/show/life.ts';
import { sampleFiles } from './sample-files.ts';

const NOW = parseDate('2026-06-01')!;
const files = sampleFiles('quillbrook');
const whole = workspaceOf(files);

function workspaceOf(all: readonly { readonly path: string; readonly text: string }[]): Workspace {
  return { ...buildWorkspace(all.map(({ path, text }) => readFile(path, text))), now: NOW };
}

const treesOf = (workspace: Workspace) => [...workspace.files.values()].flatMap(({ trees }) => trees);

/** Findings about trees, without their lines: those differ where later records are missing. */
const findingsOn = (workspace: Workspace, day: number, tags: ReadonlySet<string>) =>
  checkWorkspace(workspace, day)
    .filter(({ tree }) => tree !== undefined && tags.has(tree))
    .map(({ tree, rule, subject, level, message }) => `${tree} ${rule} ${subject} ${level}: ${message}`)
    .sort();

describe('the history of the inventory', () => {
  let folder: string;
  let commits: readonly { readonly day: number; readonly author: string; readonly workspace: Workspace }[];

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'soundwood-years-'));
    execFileSync(process.execPath, ['samples/quillbrook/history.mjs', folder]);
    const git = (args: readonly string[], input = '') =>
      execFileSync('git', ['-C', folder, ...args], { input, maxBuffer: 1e8 });
    const log = git(['log', '--reverse', '--format=%H %as %an']).toString().trim().split('\n');
    commits = log.map(line => {
      const [, hash, day, author] = /^(\S+) (\S+) (.*)$/.exec(line)!;
      const names = files.map(({ path }) => `${hash}:${path}`).join('\n');
      const objects = git(['cat-file', '--batch'], names);
      let at = 0;
      const texts = files.map(({ path }) => {
        const head = objects.subarray(at, objects.indexOf(10, at)).toString();
        const start = at + head.length + 1;
        at = start + Number(head.split(' ')[2]) + 1;
        return { path, text: objects.subarray(start, at - 1).toString() };
      });
      return { day: parseDate(day!)!, author: author!, workspace: workspaceOf(texts) };
    });
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  test('spans six years of several people and ends in the inventory as it is', () => {
    expect(commits.length).toBeGreaterThan(10);
    expect(formatDate(commits[0]!.day)).toBe('2021-04-20');
    expect(formatDate(commits.at(-1)!.day)).toBe('2026-04-14');
    expect(new Set(commits.map(({ author }) => author)).size).toBeGreaterThan(3);
    const last = commits.at(-1)!.workspace;
    for (const { path, text } of files) expect(last.files.get(path)!.text, path).toBe(text);
  });

  test('no commit has a mistake of writing, and each judges as the inventory does on its day', () => {
    for (const { day, workspace } of commits) {
      const mistakes = checkWorkspace(workspace, day).filter(({ grade }) => grade === 'syntax');
      expect(mistakes, formatDate(day)).toEqual([]);
      const tags = new Set(treesOf(workspace).map(({ fact }) => fact.tag.value));
      expect(findingsOn(workspace, day, tags), formatDate(day)).toEqual(findingsOn(whole, day, tags));
    }
  });

  test('the life of every tree up to a commit is that of the inventory up to its day', () => {
    for (const { day, workspace } of commits)
      for (const { fact, block } of treesOf(workspace)) {
        const now = treesOf(whole).find(placed => placed.fact.tag.value === fact.tag.value)!;
        const told = (placed: typeof now) => lifeOf(treeOn(placed.fact, day), placed.block, day);
        expect(told({ ...now, fact, block }), `${fact.tag.value} ${formatDate(day)}`).toEqual(told(now));
      }
  });
});

test('twelve trees and more, each visited twice and more', () => {
  const trees = treesOf(whole).map(({ fact }) => fact);
  expect(trees.length).toBeGreaterThanOrEqual(12);
  for (const { tag, inspections } of trees)
    expect(new Set(inspections.map(({ date }) => date.value)).size, tag.value).toBeGreaterThan(1);
});
