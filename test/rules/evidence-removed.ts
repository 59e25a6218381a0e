/** What becomes of the errors about a tree when a line of its record is taken away. */

import { buildWorkspace, type FileSnapshot, readFile, type Workspace } from '../../server/facts/workspace.ts';
import { checkFile, type Finding } from '../../server/rules/check.ts';

export interface Text {
  readonly path: string;
  readonly text: string;
}

export interface Removal {
  readonly path: string;
  /** Tag of the tree. */
  readonly tree: string;
  /** Head of the section that the line stands in, `tree` for its own fields. */
  readonly head: string;
  /** `prescription R1 clean`. */
  readonly headLine: string;
  /** First word of the line; that of the section itself where the whole of it goes. */
  readonly field: string;
  /** What was taken away. */
  readonly taken: string;
  /** The tree with it. */
  readonly block: string;
  /** Errors that went, and errors that came for it or say something else now. */
  readonly went: readonly string[];
  readonly came: readonly string[];
}

const indentOf = (line: string): number => line.length - line.trimStart().length;
const HEADS = /^(?:nest check|bat check|follow-up|\S+)/;

const keyOf = ({ rule, subject }: Finding): string => `${rule} ${subject}`;

/** By what it is about, what is said: an error on record as accepted asks for nothing. */
type Said = ReadonlyMap<string, string>;

const errorsOf = (findings: readonly Finding[]): Said =>
  new Map(
    findings
      .filter(({ level, accepted }) => level === 'error' && !accepted)
      .map(finding => [keyOf(finding), finding.message]),
  );

/** What was not said before, or says something else now. */
const newIn = (after: Said, before: Said): readonly string[] =>
  [...after].flatMap(([key, said]) => (before.get(key) === said ? [] : [key]));

interface Block {
  readonly isTree: boolean;
  readonly lines: readonly string[];
}

function blocksOf(text: string): readonly Block[] {
  const blocks: { isTree: boolean; lines: string[] }[] = [];
  for (const line of text.split('\n')) {
    if (/^\S/.test(line) && !line.startsWith('#'))
      blocks.push({ isTree: line.startsWith('tree '), lines: [] });
    blocks.at(-1)?.lines.push(line);
  }
  return blocks;
}

/** Every way to take one field, or one whole section, out of a tree. */
function* removals(
  lines: readonly string[],
): Iterable<{ head: string; headLine: string; field: string; from: number; to: number }> {
  let head = 'tree';
  let headLine = lines[0]!;
  for (let i = 1; i < lines.length; i++) {
    const line = lines[i]!;
    if (line.trim() === '' || line.trim().startsWith('#')) continue;
    const word = HEADS.exec(line.trim())![0];
    const indent = indentOf(line);
    let to = i + 1;
    while (to < lines.length && (lines[to]!.trim() === '' || indentOf(lines[to]!) > indent)) to++;
    const opens =
      lines.slice(i + 1, to).some(below => below.trim() !== '') ||
      /^(?:prescription|work|inspection|nest check|bat check|follow-up|defect|joined|stem|limb|target|risk|conductor|view|accept)$/.test(
        word,
      );
    if (indent <= 2 && opens) {
      head = word;
      headLine = line.trim();
      yield { head, headLine, field: word, from: i, to };
    } else yield { head: indent <= 2 ? 'tree' : head, headLine, field: word, from: i, to: i + 1 };
  }
}

/** What every removal does that makes an error go; each tree is looked at among what its files share. */
export function* vanishing(texts: readonly Text[], today: number): Iterable<Removal> {
  const shared = texts.map(({ path, text }) => ({
    path,
    text: blocksOf(text)
      .filter(({ isTree }) => !isTree)
      .flatMap(({ lines }) => lines)
      .join('\n'),
  }));
  const others: readonly FileSnapshot[] = shared.map(({ path, text }) => readFile(path, text));
  for (const { path, text } of texts) {
    for (const { isTree, lines } of blocksOf(text)) {
      if (!isTree) continue;
      const here = path.replace(/[^/]*$/, 'one-tree.wood');
      let last: Workspace | undefined;
      const check = (kept: readonly string[]) => {
        const file = readFile(here, `${kept.join('\n')}\n`);
        last = buildWorkspace([...others, file], last);
        return errorsOf(checkFile(last, file, today));
      };
      const before = check(lines);
      if (before.size === 0) continue;
      const tree = lines[0]!.split(/\s+/)[1]!;
      for (const { head, headLine, field, from, to } of removals(lines)) {
        const after = check(lines.toSpliced(from, to - from));
        const went = [...before.keys()].filter(key => !after.has(key));
        if (went.length === 0) continue;
        const came = newIn(after, before);
        yield {
          path,
          tree,
          head,
          headLine,
          field,
          taken: lines.slice(from, to).join('\n'),
          block: lines.join('\n'),
          went,
          came,
        };
      }
    }
  }
}
