/** `soundwood check`: reads inventories, checks them, shows what was found. */

import { resolve } from 'node:path';
import { splitLines } from '../../grammar/text.ts';
import { buildWorkspace, type FileSnapshot, readFile } from '../facts/workspace.ts';
import { checkFile, type Finding } from '../rules/check.ts';
import type { Level } from '../rules/rule.ts';
import { showJson } from '../show/json.ts';
import { summarize } from '../show/summary.ts';
import { showFinding, showSummary } from '../show/terminal.ts';
import { findFiles, inWorkspace, isProblem, type Problem, readSource, shown, surroundings } from './files.ts';
import { CLEAN, COULD_NOT_RUN, FINDINGS, type Io, plain } from './io.ts';
import { progressOf } from './progress.ts';
import { writeText } from './write-text.ts';

export interface CheckOptions {
  /** Day number. */
  readonly on?: number;
  readonly reject: Level | 'never';
  readonly as: 'text' | 'json';
  readonly to?: string;
}

/** From the gravest on. */
const LEVELS: readonly Level[] = ['error', 'warning', 'note'];

export async function check(paths: readonly string[], options: CheckOptions, io: Io): Promise<number> {
  const today = options.on ?? io.today;
  const found = await findFiles(paths, io.cwd);
  const around = await surroundings(found.paths, io.cwd);
  const problems: Problem[] = [...found.problems];
  const progress = await progressOf(io, found.paths.length * 2);

  const snapshotOf = async (path: string): Promise<FileSnapshot | undefined> => {
    const source = await readSource(path, io.cwd);
    if (!isProblem(source)) return readFile(inWorkspace(around.root, path), source.text);
    problems.push(source);
    return undefined;
  };
  const checked: FileSnapshot[] = [];
  for (const path of found.paths) {
    const snapshot = await snapshotOf(path);
    if (snapshot) checked.push(snapshot);
    progress.step();
  }
  const others: FileSnapshot[] = [];
  for (const path of around.paths) {
    const snapshot = await snapshotOf(path);
    if (snapshot) others.push(snapshot);
  }
  const workspace = buildWorkspace([...checked, ...others]);
  const findings: Finding[] = [];
  for (const file of checked) {
    findings.push(...checkFile(workspace, file, today));
    progress.step();
  }
  progress.end();

  const nameOf = (file: string) => shown(io.cwd, resolve(around.root, file));
  const trees = checked.reduce((sum, file) => sum + file.trees.length, 0);
  const summary = summarize(findings, trees, checked.length);
  const paint = options.to === undefined ? io.paint : plain;
  const report =
    options.as === 'json'
      ? showJson({ on: today, findings, summary, unread: problems }, nameOf)
      : showText(findings, checked, nameOf, paint);
  if (options.to === undefined) io.out(report);
  else await writeText(resolve(io.cwd, options.to), report, io.cwd);
  for (const { file, message } of problems) io.err(`soundwood: ${file} ${message}\n`);
  // Standard output is for the program that reads it.
  if (options.as === 'text' || options.to !== undefined) io.out(showSummary(summary, io.paint));

  if (problems.length > 0) return COULD_NOT_RUN;
  const rejected = options.reject === 'never' ? [] : LEVELS.slice(0, LEVELS.indexOf(options.reject) + 1);
  return findings.some(({ level, accepted }) => !accepted && rejected.includes(level)) ? FINDINGS : CLEAN;
}

function showText(
  findings: readonly Finding[],
  files: readonly FileSnapshot[],
  nameOf: (file: string) => string,
  paint: Io['paint'],
): string {
  const parts: string[] = [];
  for (const file of files) {
    const own = findings.filter(finding => finding.file === file.path);
    if (own.length === 0) continue;
    const lines = splitLines(file.text);
    for (const finding of own) {
      const related = finding.related?.map(place => ({ ...place, file: nameOf(place.file) }));
      const named = related ? { ...finding, related } : finding;
      parts.push(showFinding(named, nameOf(file.path), lines[finding.line - 1]?.text, paint));
    }
  }
  return parts.map(part => `${part}\n`).join('');
}
