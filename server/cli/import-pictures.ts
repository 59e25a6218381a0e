/** `soundwood import FOLDER`: proposes the photographs of a folder for the records of the trees that they show. */

import { readFile } from 'node:fs/promises';
import { relative, resolve } from 'node:path';
import type { LatitudeLongitude } from '../base/distance.ts';
import { grouped } from '../base/grouped.ts';
import { UserError } from '../base/user-error.ts';
import { counted } from '../base/words.ts';
import { isPlaced } from '../facts/nest-index.ts';
import { folderOf } from '../facts/paths.ts';
import { photosOf, resolveInside } from '../facts/photos.ts';
import type { WrittenTree } from '../facts/types.ts';
import { type FileSnapshot, type PlacedFact, settingsFor } from '../facts/workspace.ts';
import { shown, slashed } from '../host/paths.ts';
import {
  crossingOf,
  distanceTo,
  groupPictures,
  type PicturedTree,
  type Shot,
  treesByTag,
} from '../import/pictures.ts';
import { farUnit, type PictureRecord, pictureEdits, writtenDistance } from '../language/picture-records.ts';
import { sanitizeForLog, sanitizeLine } from '../show/sanitize.ts';
import { type EditedFile, linesOfEdits, writeEdits } from './edits.ts';
import { reasonOf, showProblems } from './files.ts';
import { EXIT_CLEAN, EXIT_FAILURE, EXIT_FINDINGS, type Io } from './io.ts';
import { loadWorkspace } from './load.ts';
import { baseName, NAMED, namesOf, summaryOf, timeOf } from './picture-words.ts';
import { readPictures } from './read-pictures.ts';

export interface ImportPicturesOptions {
  /** Files and folders of the inventory. */
  readonly into?: readonly string[];
  readonly from: string;
  readonly by?: string;
  readonly asText?: boolean;
  readonly yes?: boolean;
  /** Path of a file: `IMG_0012.jpg 14` on each line. */
  readonly answers?: string;
}

interface Candidate extends PicturedTree {
  readonly file: FileSnapshot;
  readonly placed: PlacedFact<WrittenTree>;
}

/** Pictures of one tree on one day. */
interface Claim {
  readonly tree: Candidate;
  readonly shots: readonly Shot[];
}

/** What only a person can tell, with its key for scripts: the first of the pictures. */
interface Question {
  readonly key: string;
  readonly shots: readonly Shot[];
  readonly text: string;
  readonly proposal: string;
}

const NONE = 'none';

export async function importPictures(given: string, options: ImportPicturesOptions, io: Io): Promise<number> {
  const folder = resolve(io.cwd, given);
  const { workspace, files, root, problems } = await loadWorkspace(options.into ?? [], io);
  const trees = files.flatMap(file =>
    file.trees.map((placed): Candidate => {
      const { tag, position } = placed.fact;
      return { tag: tag.value, position: isPlaced(position) ? position : undefined, file, placed };
    }),
  );
  if (trees.length === 0) {
    showProblems(problems, io);
    throw new UserError(
      'there are no trees to match the pictures to: name the inventory with --into, or start one with soundwood init.',
    );
  }
  const inRoot = slashed(relative(root, folder));
  if (inRoot === '..' || inRoot.startsWith('../'))
    throw new UserError(
      `${shown(io.cwd, folder)} is outside the inventory, so records cannot refer to its pictures: move it below ${shown(io.cwd, root)}.`,
    );
  const read = await readPictures(folder, path => (inRoot === '' ? path : `${inRoot}/${path}`), io);
  const nameOf = (path: string) => shown(io.cwd, resolve(root, path));
  if (read.shots.length + read.unread.length === 0)
    throw new UserError(`${shown(io.cwd, folder)} contains no pictures (JPEG, HEIC, PNG, WebP or TIFF).`);

  const recorded = new Set(
    trees.flatMap(({ file, placed }) =>
      photosOf(placed.fact).flatMap(({ path }) => resolveInside(folderOf(file.path), path) ?? []),
    ),
  );
  const fresh = read.shots.filter(({ path }) => !recorded.has(path));
  const errorAt = ({ path }: FileSnapshot) => settingsFor(workspace, path).limit('tree-position-error').value;
  const places = [...workspace.sites.values()].flatMap(({ fact }) => fact.position ?? []);
  const treeError = Math.max(...files.map(errorAt));
  const found = groupPictures(fresh, trees, { treeError, places });

  const ask = await answerer(options, trees, nameOf, io);
  const claims: Claim[] = [];
  const open: Question[] = [];
  const settle = async (
    question: Question,
    candidates: readonly Candidate[],
  ): Promise<Candidate | undefined> => {
    const answer = await ask(question);
    if (answer === undefined) open.push(question);
    return answer === undefined || answer === NONE
      ? undefined
      : (candidates.find(({ tag }) => tag === answer) ?? treesByTag(trees).get(answer));
  };
  for (const { shots, candidates, doubt } of found.groups) {
    const [best] = candidates;
    if (!best) continue;
    const tree = doubt === undefined ? best : await settle(questionOf(shots, candidates, doubt), candidates);
    if (tree) claims.push({ tree, shots });
  }
  const bare = trees.filter(({ position }) => position === undefined).sort(byTag);
  const propose = (all: readonly Claim[]): readonly EditedFile[] => {
    const records = all.flatMap(claim => recordsOf(claim, all, treeError, options));
    const summary = summaryOf(read, fresh, found, all, {
      bare: bare.length,
      asked: open.flatMap(({ shots }) => shots),
      nameOf,
    });
    if (options.asText) io.out(sanitizeForLog(textOf(records, open, summary)));
    else {
      for (const line of summary) io.out(`${sanitizeLine(line)}\n`);
      for (const record of records) {
        const lines = linesOfEdits(record.file.text, pictureEdits(record)).join('\n');
        const { fact } = record.placed;
        io.out(sanitizeForLog(`\nTree ${fact.tag.value}, in ${nameOf(record.file.path)}:\n${lines}\n`));
      }
      for (const { text } of open) io.out(`${sanitizeLine(`Open: ${text}`)}\n`);
    }
    return [...grouped(records, ({ file }) => file)].map(
      ([file, own]): EditedFile => ({ file, edits: own.flatMap(pictureEdits) }),
    );
  };
  // A person sees the order of the walk in the proposal, tree by tree, and says yes or no to it there.
  const walk = inOrder(found.spots, bare);
  const order = walk && (await ask(walk.question));
  const isAssumed =
    walk !== undefined && order === undefined && io.interactive && !options.yes && !options.asText;
  if (walk && order === undefined && !isAssumed) open.push(walk.question);
  else if (!walk || !/^y(es)?$/i.test(order ?? 'yes'))
    claims.push(...(await claimSpots(found.spots, bare, settle)));
  let edited = propose(
    walk && (isAssumed || /^y(es)?$/i.test(order ?? '')) ? [...claims, ...walk.claims] : claims,
  );
  const question = isAssumed
    ? `Write this, with the pictures of ${counted(found.spots.length, 'place')} in the order of the tags (yes, no, or each to name the tree of each place)?`
    : WRITE;
  let agreed = edited.length === 0 || options.asText ? undefined : await agrees(question, options, io);
  if (isAssumed && agreed === 'each') {
    edited = propose([...claims, ...(await claimSpots(found.spots, bare, settle))]);
    agreed = edited.length === 0 ? undefined : await agrees(WRITE, options, io);
  }
  if (agreed === 'yes') {
    await writeEdits(edited, root, io);
    io.out(`Written: ${counted(edited.length, 'file')}. Next: soundwood check\n`);
  } else if (agreed !== undefined)
    io.out(`Nothing was written${io.interactive ? '' : '. Use --yes to write without asking'}.\n`);
  showProblems(problems, io);
  for (const { path, reason } of read.unread)
    io.err(`${sanitizeLine(`soundwood: ${nameOf(path)} ${reason}.`)}\n`);
  if (problems.length > 0 || read.unread.length > 0) return EXIT_FAILURE;
  return open.length > 0 ? EXIT_FINDINGS : EXIT_CLEAN;
}

const byTag = (a: Candidate, b: Candidate): number => a.tag.localeCompare(b.tag, 'en', { numeric: true });

const WRITE = 'Write this (yes or no)?';

/** Nothing is written without a yes. */
async function agrees(
  question: string,
  { yes }: ImportPicturesOptions,
  io: Io,
): Promise<'yes' | 'no' | 'each'> {
  if (yes) return 'yes';
  const answer = io.interactive ? (await io.ask(question, 'no')).toLowerCase() : 'no';
  return /^y(es)?$/.test(answer) ? 'yes' : answer === 'each' ? 'each' : 'no';
}

/** Answers of a file, then of the person at the terminal; undefined where nobody tells. */
async function answerer(
  { answers, asText }: ImportPicturesOptions,
  trees: readonly Candidate[],
  nameOf: (path: string) => string,
  io: Io,
): Promise<(question: Question) => Promise<string | undefined>> {
  const told = answers === undefined ? new Map<string, string>() : await readAnswers(answers, io);
  const tags = new Set(trees.map(({ tag }) => tag));
  const isAnswer = (answer: string) => answer === NONE || tags.has(answer);
  return async ({ key, shots, text, proposal }) => {
    const keys = key === ORDER ? [ORDER] : shots.flatMap(({ path }) => [path, nameOf(path), baseName(path)]);
    const answer = keys.flatMap(one => told.get(one) ?? [])[0];
    if (answer !== undefined) {
      if (key !== ORDER && !isAnswer(answer))
        throw new UserError(`${answers}: there is no tree ${answer}; give the tag of a tree, or none.`);
      return answer;
    }
    if (!io.interactive || asText || key === ORDER) return undefined;
    for (;;) {
      const typed = await io.ask(sanitizeLine(text), proposal);
      if (isAnswer(typed)) return typed;
      io.out(`${sanitizeLine(`There is no tree ${typed}.`)}\n`);
    }
  };
}

async function readAnswers(file: string, io: Io): Promise<Map<string, string>> {
  const text = await readFile(resolve(io.cwd, file), 'utf8').catch((error: unknown) => {
    throw new UserError(`${file} ${reasonOf(error)}.`);
  });
  const told = new Map<string, string>();
  for (const [i, line] of text.split(/\r?\n/).entries()) {
    if (/^\s*(#|$)/.test(line)) continue;
    const [, key, answer] = /^\s*(\S.*?)\s+(\S+)\s*$/.exec(line) ?? [];
    if (key === undefined || answer === undefined)
      throw new UserError(
        `${file}:${i + 1}: write the name of a picture and the tag of its tree: IMG_0012.jpg 14.`,
      );
    told.set(key, answer);
  }
  return told;
}

function questionOf(shots: readonly Shot[], candidates: readonly Candidate[], doubt: string): Question {
  const placed = shots.find(({ position }) => position !== undefined);
  const choices = candidates.map(({ tag, position, placed: { fact } }) =>
    placed && position
      ? `${tag} (${writtenDistance(distanceTo(placed, position, 0), farUnit(fact))} away)`
      : tag,
  );
  return {
    key: shots[0]!.path,
    shots,
    text: `Which tree ${shots.length === 1 ? 'does' : 'do'} ${namesOf(shots)} (${timeOf(shots[0]!)}) show: ${[...choices, NONE].join(', ')}? (${doubt})`,
    proposal: candidates[0]!.tag,
  };
}

const ORDER = 'order';

/** As many places as trees without a position: those who walk by the tags were there in their order. */
function inOrder(
  spots: readonly (readonly Shot[])[],
  bare: readonly Candidate[],
): { readonly question: Question; readonly claims: readonly Claim[] } | undefined {
  if (spots.length === 0 || spots.length !== bare.length) return undefined;
  const pairs = spots.map((shots, i) => `${bare[i]!.tag}: ${namesOf(shots)}`);
  return {
    question: {
      key: ORDER,
      shots: spots.flat(),
      text: `The pictures were taken at ${counted(spots.length, 'place')}, as many as there are trees without a position. Were they taken in the order of the tags (${pairs.join('; ')}): order yes or order no?`,
      proposal: 'yes',
    },
    claims: spots.map((shots, i) => ({ tree: bare[i]!, shots })),
  };
}

/** Places without a tree that has a position, each asked about. */
async function claimSpots(
  spots: readonly (readonly Shot[])[],
  bare: readonly Candidate[],
  settle: (question: Question, candidates: readonly Candidate[]) => Promise<Candidate | undefined>,
): Promise<readonly Claim[]> {
  const claims: Claim[] = [];
  for (const shots of spots) {
    const left = bare.filter(tree => !claims.some(claim => claim.tree === tree));
    const [next] = left;
    if (!next) break;
    const names = `${left
      .slice(0, NAMED)
      .map(({ tag }) => tag)
      .join(', ')}${left.length > NAMED ? ' …' : ''}`;
    const tree = await settle(
      {
        key: shots[0]!.path,
        shots,
        text: `Which tree ${shots.length === 1 ? 'does' : 'do'} ${namesOf(shots)} (${timeOf(shots[0]!)}) show: ${names}, none? (no tree with a position is near)`,
        proposal: next.tag,
      },
      left,
    );
    if (tree) claims.push({ tree, shots });
  }
  return claims;
}

/** Pictures of one tree by day; those without a day are left out, and said. */
function recordsOf(
  { tree, shots }: Claim,
  claims: readonly Claim[],
  treeError: number,
  { from, by }: ImportPicturesOptions,
): readonly PictureRecord[] {
  const [first] = claims.filter(claim => claim.tree === tree);
  // All visits of a tree together.
  if (first!.shots !== shots) return [];
  const all = claims.filter(claim => claim.tree === tree).flatMap(claim => claim.shots);
  const found = tree.position === undefined ? crossingOf(all) : undefined;
  const position: LatitudeLongitude | undefined = tree.position ?? found;
  const days = grouped(all, ({ day }) => day);
  const isTaken = tree.placed.fact.position !== undefined;
  return [...days].flatMap(([day, own], i): readonly PictureRecord[] =>
    day === undefined
      ? []
      : [
          {
            file: tree.file,
            placed: tree.placed,
            day,
            pictures: own.map(shot => ({
              path: shot.path,
              distance:
                position && shot.position
                  ? distanceTo(shot, position, found ? shot.error : treeError)
                  : undefined,
            })),
            position: i === 0 && !isTaken ? found : undefined,
            vantage: from,
            by,
          },
        ],
  );
}

/** The records by themselves in the notation; the rest as comments. */
function textOf(
  records: readonly PictureRecord[],
  open: readonly Question[],
  summary: readonly string[],
): string {
  const blocks = records.map(record => {
    const lines = linesOfEdits(record.file.text, pictureEdits(record))
      .filter(line => line.startsWith('+'))
      .map(line => line.slice(1));
    return `${[`tree ${record.placed.fact.tag.value}`, ...lines.filter(line => line.trim() !== '')].join('\n')}\n`;
  });
  const comments = [...summary, ...open.map(({ key, text }) => `open, ${baseName(key)}: ${text}`)];
  return `${comments.map(line => `# ${sanitizeLine(line)}\n`).join('')}${blocks.map(block => `\n${block}`).join('')}`;
}
