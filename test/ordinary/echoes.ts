/** Lines of the samples damaged one at a time, and what else than the mistake is then told. */

import { splitBlocks } from '../../grammar/blocks.ts';
import { parseDate } from '../../server/base/dates.ts';
import { buildWorkspace, type FileSnapshot, readFile } from '../../server/facts/workspace.ts';
import { checkFile, type Finding } from '../../server/rules/check.ts';
import { type SampleFile, sampleFiles } from '../samples/sample-files.ts';

const TODAY = parseDate('2026-06-01')!;

/** Of so many damages one is tried, each kind in other lines; `ECHOES=1` for all. */
const EACH = Number(process.env.ECHOES ?? 9);

const read = ({ path, text }: SampleFile): FileSnapshot => readFile(path, text);

/** What slips into a line of a field: its unit, its date, its quotes, its first word, all that follows it. */
function damagesOf(line: string, word: string): readonly string[] {
  const at = line.indexOf(word);
  const head = line.slice(0, at + word.length);
  const rest = line.slice(at + word.length);
  const unit = /(\d\s*)(?:in|ft|mm|cm|m|%|deg|kV|V|kg|lb|months?|years?)(?![\w/])/;
  const changed = [
    rest.replace(unit, '$1zz'),
    rest.replace(unit, '$1'),
    rest.replace(/\d{4}-\d{2}-\d{2}/, '2026-13-45'),
    rest.replace(/"([^"]*)"/, '"$1'),
  ].filter(one => one !== rest);
  return [
    `${head} @@`,
    `${head} qqq`,
    head,
    `${line.trimEnd()} zzz`,
    ...(word.length > 3 ? [`${line.slice(0, at)}${word}${word.at(-1)}${rest}`] : []),
    ...changed.map(one => head + one),
  ];
}

export interface Echo {
  readonly rule: string;
  /** `target distance`. */
  readonly field: string;
  readonly damaged: string;
  readonly message: string;
}

interface Place {
  readonly head: string;
  readonly word: string;
  readonly line: number;
}

/** Fields of trees, not the heads: a block whose name is gone is another story. */
const fieldsIn = (text: string): readonly Place[] =>
  splitBlocks(text).flatMap(({ firstLine, block }) =>
    block.sections[0]?.word === 'tree'
      ? block.sections.flatMap(section =>
          section.fields.flatMap(line => {
            const { word, mistake } = block.lines[line]!;
            return mistake || word === undefined
              ? []
              : [{ head: section.word, word, line: firstLine + line }];
          }),
        )
      : [],
  );

/** The same rule about the same thing or in the same line: lines keep their numbers. */
const isKnown = (before: readonly Finding[], { rule, line, subject }: Finding): boolean =>
  before.some(one => one.rule === rule && (one.line === line || one.subject === subject));

const isMistake = ({ grade }: Finding) => grade === 'syntax';

function echoesIn(around: readonly FileSnapshot[], { path, text }: SampleFile): readonly Echo[] {
  const judged = (changed: string): readonly Finding[] => {
    const file = readFile(path, changed);
    return checkFile(buildWorkspace([...around, file]), file, TODAY);
  };
  const before = judged(text);
  const lines = text.split('\n');
  return fieldsIn(text).flatMap(({ head, word, line }) =>
    damagesOf(lines[line]!, word).flatMap((damaged, i) => {
      if ((line + i) % EACH > 0) return [];
      const after = judged(lines.with(line, damaged).join('\n'));
      // What still reads well is no damage.
      if (!after.some(one => isMistake(one) && one.line === line + 1)) return [];
      return after
        .filter(one => !isMistake(one) && !isKnown(before, one))
        .map(
          ({ rule, message }): Echo => ({
            rule,
            field: `${head} ${word}`,
            damaged: damaged.trim(),
            message,
          }),
        );
    }),
  );
}

const folderOf = (path: string) => path.slice(0, path.lastIndexOf('/') + 1);

/** Of each tree of an inventory by itself, with the sites, people and practice around it. */
function echoesOf(files: readonly SampleFile[]): readonly Echo[] {
  const pieces = files.flatMap(({ path, text }) =>
    splitBlocks(text).map(({ block }) => ({
      path,
      text: block.text,
      isTree: block.sections[0]?.word === 'tree',
    })),
  );
  const around = files.map(({ path }) =>
    readFile(
      path,
      pieces
        .filter(piece => piece.path === path && !piece.isTree)
        .map(piece => piece.text)
        .join(''),
    ),
  );
  return pieces
    .filter(({ isTree }) => isTree)
    .flatMap(({ path, text }) => echoesIn(around, { path: `${folderOf(path)}one-tree.wood`, text }));
}

const errors = sampleFiles('errors').filter(({ path }) => !path.includes('/'));
const [shared] = errors.filter(({ path }) => path === 'site.wood');

/** Of the sample inventory, and of the samples that show one rule each. */
export const echoesOfSamples = (): readonly Echo[] => [
  ...echoesOf(sampleFiles('fernhollow')),
  ...errors.filter(file => file !== shared).flatMap(file => echoesIn([read(shared!)], file)),
];
