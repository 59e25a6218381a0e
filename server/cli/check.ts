/** `soundwood check`: reads inventories, checks them, shows what was found. */

import { resolve } from 'node:path';
import { splitLines } from '../../grammar/text.ts';
import type { FileSnapshot } from '../facts/workspace.ts';
import { checkFile, type Finding } from '../rules/check.ts';
import { siteNameOf } from '../rules/identity.ts';
import type { Level } from '../rules/rule.ts';
import { showJson } from '../show/json.ts';
import { showJunit } from '../show/junit.ts';
import { showMarkdown } from '../show/markdown.ts';
import { showSarif } from '../show/sarif.ts';
import { summarize } from '../show/summary.ts';
import { type Paint, showFinding, showSummary } from '../show/terminal.ts';
import { showProblems } from './files.ts';
import { CLEAN, COULD_NOT_RUN, FINDINGS, type Io, plain } from './io.ts';
import { loadWithPhotos } from './load.ts';
import { progressOf } from './progress.ts';
import { rejectedLevels, someRejected } from './reject.ts';

/** The forms of findings that are for programs and reviews; text is for the terminal. */
const FORMS = { json: showJson, sarif: showSarif, junit: showJunit, markdown: showMarkdown } as const;
type Form = 'text' | keyof typeof FORMS;

export interface CheckOptions {
  /** Day number. */
  readonly on?: number;
  readonly reject: Level | 'never';
  readonly as: Form;
  readonly to?: string;
  /** A commit: only what is new against it counts. */
  readonly since?: string;
}

interface Checked {
  readonly file: FileSnapshot;
  readonly findings: readonly Finding[];
}

export async function check(paths: readonly string[], options: CheckOptions, io: Io): Promise<number> {
  const today = options.on ?? io.today;
  const { workspace, files, problems, nameOf } = await loadWithPhotos(paths, io);
  const progress = await progressOf(io, files.length, 'checking');
  const all = files.map((file): Checked => {
    const findings = checkFile(workspace, file, today);
    progress.step();
    return { file, findings };
  });
  progress.end();
  const newOf = async (checked: readonly Checked[], since: string): Promise<readonly Checked[]> => {
    const { newSince } = await import('./since.ts');
    const found = checked.flatMap(result => result.findings);
    const news = await newSince(since, paths, workspace, found, today, io);
    return checked.map(({ file, findings: own }) => ({ file, findings: own.filter(one => news.has(one)) }));
  };
  const results = options.since === undefined ? all : await newOf(all, options.since);
  const findings = results.flatMap(result => result.findings);

  const trees = files.reduce((sum, file) => sum + file.trees.length, 0);
  const summary = summarize(findings, trees, files.length);
  const paint = options.to === undefined ? io.paint : plain;
  const rejected = rejectedLevels(options.reject);
  const report =
    options.as === 'text'
      ? showText(results, nameOf, paint)
      : FORMS[options.as]({
          on: today,
          findings,
          summary,
          unread: problems,
          files: files.map(({ path, trees: own }) => ({
            file: path,
            trees: own.map(({ fact }) => fact.tag.value),
          })),
          rejected,
          since: options.since,
          siteOf: file => siteNameOf(workspace, file),
          shown: nameOf,
        });
  if (options.to === undefined) io.out(report);
  else await (await import('./write-text.ts')).writeText(resolve(io.cwd, options.to), report, io.cwd);
  showProblems(problems, io);
  // Standard output is for the program that reads it.
  if (options.as === 'text' || options.to !== undefined)
    io.out(showSummary(summary, io.paint, options.since));

  if (problems.length > 0) return COULD_NOT_RUN;
  return someRejected(findings, rejected) ? FINDINGS : CLEAN;
}

function showText(results: readonly Checked[], nameOf: (file: string) => string, paint: Paint): string {
  const parts: string[] = [];
  for (const { file, findings } of results) {
    if (findings.length === 0) continue;
    const lines = splitLines(file.text);
    for (const finding of findings) {
      const related = finding.related?.map(place => ({ ...place, file: nameOf(place.file) }));
      const named = related ? { ...finding, related } : finding;
      parts.push(showFinding(named, nameOf(file.path), lines[finding.line - 1]?.text, paint));
    }
  }
  return parts.map(part => `${part}\n`).join('');
}
