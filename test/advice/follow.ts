/**
 * Follows what findings tell to do, as somebody would who takes them at their word: writes the lines, fills in what
 * is left to fill in, and checks again.
 */

import { HEADS } from '../../grammar/fields.ts';
import { formatDate } from '../../server/base/dates.ts';
import { factAt } from '../../server/facts/file.ts';
import type { PhotoIndex } from '../../server/facts/photos.ts';
import {
  buildWorkspace,
  type FileSnapshot,
  readFile,
  type Workspace,
  withPhotos,
} from '../../server/facts/workspace.ts';
import { adviceEdits } from '../../server/language/advice.ts';
import { fixes } from '../../server/language/fixes.ts';
import type { Edit, Fix } from '../../server/language/snapshot.ts';
import { checkWorkspace, type Finding } from '../../server/rules/check.ts';
import { edited } from '../language/fixture.ts';
import type { SampleFile } from '../samples/sample-files.ts';

export interface Inventory {
  readonly files: readonly SampleFile[];
  readonly photos?: PhotoIndex | undefined;
  /** Day number. */
  readonly today: number;
}

/** Somebody who may do everything, for records to be filled in by; alone in a folder without trees. */
const HELPER: SampleFile = {
  path: 'zz-helper/people.wood',
  text: 'person ZZ "Zoe Zander"\n  qualified consulting arborist, climbing arborist, bat worker, wildlife biologist, remote pilot\n',
};

function build({ files, photos }: Inventory): Workspace {
  const all = files.some(({ path }) => path === HELPER.path) ? files : [...files, HELPER];
  const workspace = buildWorkspace(all.map(({ path, text }) => readFile(path, text)));
  return photos ? withPhotos(workspace, photos) : workspace;
}

export const findingsOf = (inventory: Inventory): readonly Finding[] =>
  checkWorkspace(build(inventory), inventory.today);

const RANK: Record<Finding['level'], number> = { error: 0, warning: 1, note: 2 };
/** A sum over a season becomes one over years when days are moved, and is told at whatever comes last then. */
const SUMS: ReadonlySet<string> = new Set(['cumulative-dose', 'season-dose']);
/** A check that is missing and one that is too old are one matter. */
const keyOf = ({ rule, subject, file, tree }: Finding): string =>
  `${file} ${tree} ${rule.replace(/-check-(?:missing|stale)$/, '-check')} ${subject}`;
const isSumThere = (findings: readonly Finding[], { rule, tree, level }: Finding): boolean =>
  SUMS.has(rule) &&
  findings.some(one => SUMS.has(one.rule) && one.tree === tree && RANK[one.level] <= RANK[level]);
const CHOICES: ReadonlySet<string> = new Set(['prescription-overtaken', 'reduction-and-thinning']);
/** Of two plans that exclude each other one answered these, or was told instead; whichever is kept has to answer. */
const HIDDEN_BY_A_CHOICE: ReadonlySet<string> = new Set([
  'ground-only',
  'cumulative-dose',
  'included-bark-union',
  'mitigation-late',
  'mitigation-missing',
  'movement',
  'not-judged',
  'rating-unanswered',
  'season-dose',
  'strength-loss',
  'stress-ratio-after',
  'suspected-only',
]);
/** What later days ask for, which the law asks for as well: another look before them, and people kept out until then. */
const COMES_WITH_LATER_DAYS: ReadonlySet<string> = new Set(['mitigation-late', 'work-on-old-inspection']);
const isSyntax = ({ grade }: Finding): boolean => grade === 'syntax';

const SAID_BY_A_READING: ReadonlySet<string> = new Set([
  'age-or-vigor-unstated',
  'decay-backwards',
  'removal-not-called-for',
]);

/** What was followed, and what is wrong with what came of it: nothing in most cases. */
export interface Followed {
  readonly what: string;
  readonly finding: Finding;
  readonly faults: readonly string[];
}

/** How many findings of this kind there are that are as grave. */
const count = (findings: readonly Finding[], { key, rank }: { key: string; rank: number }): number =>
  findings.filter(one => !one.accepted && keyOf(one) === key && RANK[one.level] <= rank).length;

function faultsOf(
  followed: Finding,
  before: readonly Finding[],
  after: readonly Finding[],
  {
    stays = false,
    isReading = false,
    onlyOwn = false,
  }: { readonly stays?: boolean; readonly isReading?: boolean; readonly onlyOwn?: boolean },
): readonly string[] {
  const rank = RANK[followed.level];
  const own = { key: keyOf(followed), rank };
  const faults: string[] = [];
  if (!stays && count(after, own) >= count(before, own)) faults.push('is still there');
  for (const one of onlyOwn ? after.filter(isSyntax) : after) {
    const key = keyOf(one);
    // An exception that is not needed any more is no harm: it goes with what it was for.
    if (one.rule === 'accept-stale') continue;
    // What a good reading means for the plan is told then, and is what it was asked for.
    if (isReading && SAID_BY_A_READING.has(one.rule)) continue;
    if (COMES_WITH_LATER_DAYS.has(one.rule) || isSumThere(before, one)) continue;
    if (CHOICES.has(followed.rule) && HIDDEN_BY_A_CHOICE.has(one.rule)) continue;
    if (one.accepted || one.tree !== followed.tree || key === own.key || RANK[one.level] > rank) continue;
    const same = { key, rank: RANK[one.level] };
    if (count(after, same) > count(before, same))
      faults.push(`brings ${one.level} ${one.rule} ${one.subject}: ${one.message}`);
  }
  return [...new Set(faults)];
}

/** A mistake of the notation hides what its line says: only its own kind counts. */
function faultsOfMend(
  followed: Finding,
  before: readonly Finding[],
  after: readonly Finding[],
): readonly string[] {
  const same = (one: Finding) =>
    one.file === followed.file && one.line === followed.line && one.message === followed.message;
  return [
    ...(after.some(same) ? ['is still there'] : []),
    ...(after.filter(isSyntax).length > before.filter(isSyntax).length ? ['brings another mistake'] : []),
  ];
}

const changed = (inventory: Inventory, path: string, edits: readonly Edit[], today: number): Inventory => ({
  ...inventory,
  files: [...inventory.files, HELPER].map(file =>
    file.path === path ? { path, text: filledIn(edited(file.text, edits), today) } : file,
  ),
});

/** An example for each field, of the first head that has it. */
const EXAMPLES = new Map(
  [...HEADS.values()]
    .reverse()
    .flatMap(({ fields }) => [...fields.values()].map(({ word, example }) => [word, example] as const)),
);

/** Blanks as somebody would fill them in who looked today and found nothing. */
const filledIn = (text: string, today: number): string =>
  text
    .replace(/^(person|crew) (\S+)$/gm, '$1 $2 "Somebody"')
    .replace(/^( *defect \S+)$/gm, '$1 crack')
    .replace(/^( *prescription \S+)$/gm, '$1 watch')
    .replace(/^( *until)$/gm, `$1 ${formatDate(today + 30)}`)
    .replace(/^( *done)$/gm, `$1 ${formatDate(today)}`)
    .replace(/^( *between)$/gm, `$1 ${formatDate(today + 150)}..${formatDate(today + 160)}`)
    .replace(/^( *permit)$/gm, `$1 P-1, until ${formatDate(today + 300)}`)
    .replace(/^( *dose)$/gm, '$1 1 %')
    .replace(/^( *height)$/gm, '$1 20 ft')
    .replace(/^( *species)$/gm, '$1 Quercus robur')
    .replace(/^( *(?:nest|bat) check \S+ from)$/gm, '$1 rope')
    .replace(/^( *by)$/gm, '$1 ZZ')
    .replace(/^( *found)$/gm, '$1 none')
    .replace(/^( *because)$/gm, '$1 "agreed with the client"')
    .replace(/^( *due)$/gm, `$1 ${formatDate(today + 7)}`)
    .replace(/^( *)([a-z-]+)$/gm, (line, indent: string, word: string) =>
      EXAMPLES.has(word) ? `${indent}${EXAMPLES.get(word)}` : line,
    );

/** Fields, persons and heads of which somebody else has to say more: what they will say is not known. */
const IS_OPEN = /^Add (?:(?!follow-up|nest|bat).* to fill in$|the )/;
/** What was taken out is missed by what rests on it, which is told then. */
const IS_TAKEN_OUT = /^(?:Remove .*|Keep .*)$/;

/** Every piece of advice and every quick fix of an inventory, followed one by one. */
export function followAll(inventory: Inventory): readonly Followed[] {
  const workspace = build(inventory);
  const { today } = inventory;
  const before = checkWorkspace(workspace, today);
  const checked = (path: string, edits: readonly Edit[]) =>
    checkWorkspace(build(changed(inventory, path, edits, today)), today);
  return before.flatMap((finding): Followed[] => {
    const file = workspace.files.get(finding.file)!;
    if (finding.accepted) return [];
    return [
      ...adviceOf(file, finding).map(({ what, edits }) => ({
        what,
        finding,
        faults: faultsOf(finding, before, checked(file.path, edits), { isReading: true }),
      })),
      ...fixesOf(workspace, file, finding, today).map(({ title, path = file.path, edits }) => {
        const after = checked(path, edits);
        const stays = title.includes('(the finding stays');
        return {
          what: title,
          finding,
          faults: isSyntax(finding)
            ? faultsOfMend(finding, before, after)
            : faultsOf(finding, before, after, {
                stays,
                onlyOwn: IS_OPEN.test(title) || IS_TAKEN_OUT.test(title),
              }),
        };
      }),
    ];
  });
}

/** Readings alone: the others are among the quick fixes. */
function adviceOf(file: FileSnapshot, finding: Finding): readonly { what: string; edits: readonly Edit[] }[] {
  const placed = factAt(file, finding.start);
  return placed
    ? (finding.advice ?? [])
        .filter(({ kind }) => kind === 'reading')
        .map(advice => ({ what: advice.lines.join(', '), edits: adviceEdits(file, placed, advice) }))
    : [];
}

function fixesOf(workspace: Workspace, file: FileSnapshot, finding: Finding, today: number): readonly Fix[] {
  const within = { start: finding.start, end: finding.end };
  return fixes({ workspace, today }, file, within).filter(fix =>
    [fix.finding, ...(fix.also ?? [])].some(
      ({ rule, subject, start }) =>
        rule === finding.rule && subject === finding.subject && start === finding.start,
    ),
  );
}

/** For a person who reads the test. */
export const told = ({ what, finding, faults }: Followed): string =>
  `${finding.file}:${finding.line} [${finding.level} ${finding.rule} ${finding.subject}] ${finding.remedy}\n    “${what}” ${faults.join('; ')}`;
