/**
 * Field notes, as they are dictated or typed on a phone → an inventory as people write it, whose habits `fixText` then
 * rewrites. What the notes leave open becomes a line with several meanings, which is asked; what nobody can read becomes
 * a note where it was said. Rules alone, no guess stands unasked.
 */

import { SAID } from '../../grammar/said.ts';
import { tidy } from '../../grammar/tidy.ts';
import { organismsCalled, treesCalled } from '../practice/common-names.ts';
import { lookupGenus } from '../practice/species.ts';
import { type FixContext, type Fixed, fixText, type Question } from './fix.ts';
import { anyOf, DAY, FROM, FROMS, KIND, LENGTH, saidFor, UNIT, UP, USE, WORK } from './note-words.ts';
import { PHRASES } from './phrases.ts';
import { inFigures } from './spoken-numbers.ts';
import { type KnownTree, TreeNotes } from './tree-notes.ts';

/** The inventory, with questions that no line of it can ask. */
interface Draft {
  readonly text: string;
  readonly questions: readonly Question[];
}

export interface NotesContext extends FixContext {
  /** Tag of the tree on record that lines are about before another one is named. */
  readonly tree?: string | undefined;
  /** What is on record of the tree of a tag. */
  readonly known?: (tag: string) => KnownTree | undefined;
  /** Who looked, if the notes do not say. */
  readonly by?: string | undefined;
}

const BETWEEN = /[\s,;.]*/y;
const WORD = /[^\s,;]+/y;
/** Words before a phrase that say nothing of their own. */
const FILLER = /^(?:and|with|has|is|it's|its|the|a|an|also|then|plus|at)$/i;
/** Words that a defect may have before it; after any others it may be a sentence about one. */
const BEFORE_DEFECT =
  /^(?:and|with|has|is|the|a|an|also|there|one|1|big|large|huge|small|minor|major|open|deep|long|short|basal|old|new|visible|obvious|heavy|some|possible|suspected|maybe|probable)$/i;
const SUSPECTED = /^(?:possible|suspected|maybe|probable)$/i;

const DEFECT = new RegExp(KIND, 'iuy');
const WORKED = new RegExp(
  `(?:rx|recommend(?:ed|s)?|rec|prescribed?|prescription)\\s*:?\\s*(${anyOf([...WORK, ...saidFor(WORK)])})`,
  'iuy',
);
const TARGET = new RegExp(
  `targets?\\s*(?:is|:)?\\s*(?:the\\s+)?([\\p{L}' -]+?)(?=\\s*(?:$|[,;.\\d~<>]|(?:about|abt|used|occupied)\\s|${USE}(?![\\p{L}])))`,
  'iuy',
);
const NEST = /nests?(?![\p{L}])([^,;.]*)/iuy;
const NEST_USE = /\b(active|old|unclear)\b/i;

/** What a phrase matches at a place. */
function matchAt(pattern: RegExp, text: string, at: number): RegExpExecArray | undefined {
  pattern.lastIndex = at;
  return pattern.exec(text) ?? undefined;
}

/** Reads what is said of a tree, from left to right. */
function readWords(text: string, notes: TreeNotes, check: string | undefined): void {
  let at = 0;
  while (at < text.length) {
    const gap = matchAt(BETWEEN, text, at)![0];
    if (/[,;]|\.\s|\.$/.test(gap)) notes.close();
    at += gap.length;
    if (at >= text.length) break;
    at = readPhrase(text, at, notes, check) ?? readWord(text, at, notes);
  }
  notes.close();
}

function readWord(text: string, at: number, notes: TreeNotes): number {
  const word = matchAt(WORD, text, at)![0];
  notes.word(word.replace(/\.$/, ''));
  return at + word.length;
}

/** The end of the phrase at a place, whose facts it takes down; undefined where none is. */
function readPhrase(
  text: string,
  at: number,
  notes: TreeNotes,
  check: string | undefined,
): number | undefined {
  const before = notes.said;
  const nest = matchAt(NEST, text, at);
  if (nest && before.every(word => NEST_USE.test(word) || FILLER.test(word) || isBirdWord(word, before)))
    return readNest(nest, notes, check) ? at + nest[0].length : undefined;
  const kind = matchAt(DEFECT, text, at);
  if (kind && before.every(word => BEFORE_DEFECT.test(word))) {
    const end = at + kind[0].length;
    const isDoubted = notes.drop(SUSPECTED) || text[end] === '?';
    notes.drop(/^(?:and|with|has|is|the|a|an|also|there|one|1)$/i);
    const words = [...before];
    notes.drop(/./);
    notes.defect(
      kind[0]
        .toLowerCase()
        .replace(/^cavities$/, 'cavity')
        .replace(/^cracks$/, 'crack'),
    );
    if (isDoubted) notes.field('state suspected');
    for (const word of words.filter(one => !SUSPECTED.test(one))) notes.word(word);
    notes.close();
    return end;
  }
  if (!before.every(word => FILLER.test(word))) return undefined;
  const fungus = fungusAt(text, at);
  if (fungus) {
    notes.defect('fungus');
    notes.field(`species ${fungus}`);
    return at + fungus.length;
  }
  const worked = matchAt(WORKED, text, at);
  if (worked) {
    notes.work(worked[1]!.toLowerCase());
    return at + worked[0].length;
  }
  const target = matchAt(TARGET, text, at);
  if (target) {
    notes.target(target[1]!.trim());
    return at + target[0].length;
  }
  for (const { in: places, pattern, write } of PHRASES) {
    if (!places.includes(notes.place)) continue;
    const found = matchAt(pattern, text, at);
    if (!found) continue;
    notes.drop(FILLER);
    write(found.slice(1), notes);
    return at + found[0].length;
  }
  return undefined;
}

/** `artist conk`: a fruiting body by what people call it. */
function fungusAt(text: string, at: number): string | undefined {
  const words = /^[\p{L}']+(?:\s+[\p{L}']+){0,3}/u.exec(text.slice(at))?.[0].split(/\s+/) ?? [];
  for (let count = words.length; count > 1; count--) {
    const called = words.slice(0, count).join(' ');
    if (organismsCalled(called).length > 0 && text.startsWith(called, at)) return called;
  }
  return undefined;
}

const isBirdWord = (word: string, words: readonly string[]): boolean => {
  const name = words.filter(one => !NEST_USE.test(one) && !FILLER.test(one)).join(' ');
  return name.includes(word) && organismsCalled(name).length > 0;
};

/** `nest flicker active 30 ft up`, `active flicker nest`: what was found of it; false where it is no such thing. */
function readNest(nest: RegExpExecArray, notes: TreeNotes, check: string | undefined): boolean {
  const said = `${notes.said.filter(word => !FILLER.test(word)).join(' ')} ${nest[1]}`.trim();
  const use = (NEST_USE.exec(said)?.[1] ?? 'unclear').toLowerCase();
  const height = new RegExp(`(?:at\\s+)?(${LENGTH})${UP}?`, 'iu').exec(said);
  const name = said
    .replace(NEST_USE, ' ')
    .replace(height?.[0] ?? '', ' ')
    .replace(/\b(?:of|is|a|an|the|in|at|by)\b/gi, ' ')
    .replace(/\s+/g, ' ')
    .trim();
  if (check === undefined || (name !== '' && organismsCalled(name).length === 0)) return false;
  notes.drop(/./);
  notes.nests.push(`found ${use}${name === '' ? '' : ` ${name}`}${height ? ` at ${height[1]}` : ''}`);
  return true;
}

const TAGGED = /^(?:(tree|tag|nr|no\.?|#)\s*#?\s*)?([a-z]{0,2}-?\d+[a-z]?)(?![\p{L}\d./'"-])[\s:.,)]*(.*)$/iu;
/** A number with a unit is no tag. */
const NO_TAG = new RegExp(`^(?:${UNIT}|%|deg|x|by|to|of)(?![\\p{L}])`, 'iu');
const DAY_SAID =
  /\d{4}-\d{2}-\d{2}|\d{1,2}[/.]\d{1,2}[/.]\d{2,4}|(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.?\s+\d{1,2}(?:st|nd|rd|th)?,?\s+\d{4}/i;

/** The tree name that a text begins with, by what people call it or by its botanical name. */
function treeNameAt(text: string): string | undefined {
  const words = /^[\p{L}'’-]+(?:\s+[\p{L}'’-]+){0,4}/u.exec(text)?.[0].split(/\s+/) ?? [];
  for (let count = words.length; count > 0; count--) {
    const called = words.slice(0, count).join(' ');
    const isGenus = lookupGenus(words[0]!) !== undefined && count <= 2 && !/^\p{Lu}/u.test(words[1] ?? '');
    if (treesCalled(called).length > 0 || (isGenus && count === 1)) return called;
  }
  return undefined;
}

/** What the notes say of all their trees. */
interface Header {
  day?: string;
  from?: string;
  by?: string;
  readonly lines: string[];
}

function readHeader(line: string, header: Header): void {
  const day = DAY_SAID.exec(line)?.[0];
  if (day !== undefined && header.day === undefined) header.day = day;
  const from = new RegExp(`\\bfrom\\s+(?:the\\s+)?(${FROMS.join('|')})\\b`, 'i').exec(line);
  if (from && header.from === undefined) header.from = from[1]!.toLowerCase();
  const by = /\bby\s+(\p{Lu}[\p{L}]*)(?:\s+(\p{Lu}\p{L}+))?/u.exec(line);
  if (by && header.by === undefined) {
    header.by = by[2] === undefined ? by[1]! : `${by[1]![0]}${by[2][0]}`;
    if (by[2] !== undefined) header.lines.push(`person ${header.by} "${by[1]} ${by[2]}"`);
  }
  const left = [day, from?.[0], by?.[0]]
    .reduce<string>((text, part) => (part === undefined ? text : text.replace(part, ' ')), line)
    .replace(/[\s,;]+/g, ' ')
    .trim();
  const site = /^(?:site|job)\s*:?\s+(.+)$/i.exec(left)?.[1];
  const region = /^region\s*:?\s+(\S+)$/i.exec(left)?.[1];
  if (site !== undefined) header.lines.unshift(`site "${site.replaceAll('"', '')}"`);
  else if (region !== undefined) header.lines.splice(1, 0, `region ${region}`);
  else if (left !== '') header.lines.push(`# not read: ${left}`);
}

/**
 * Field notes as an inventory in the notation, with what is asked about them. A tree on record gets another inspection, and
 * its defects names that are free.
 */
export function fixNotes(notes: string, context: NotesContext): Fixed {
  const { text, questions } = draftOf(notes, context);
  const own = { ...context, region: context.region ?? /^region (\S+)$/m.exec(text)?.[1] };
  const fixed = fixText(tidy(fixText(text, own).text).text, own);
  return { ...fixed, questions: [...questions, ...fixed.questions] };
}

/** A line in figures; its first number is a tag where a tree is named behind it. */
function spokenLine(line: string): string {
  const tagged = inFigures(`tree ${line}`).slice('tree '.length);
  const rest = TAGGED.exec(tagged)?.[3];
  return rest !== undefined && treeNameAt(rest) !== undefined ? tagged : inFigures(line);
}

/** The notes as an inventory that people write. */
function draftOf(text: string, { answers, tree, known, by }: NotesContext): Draft {
  const header: Header = { lines: [] };
  const trees: { readonly notes: TreeNotes; readonly texts: string[] }[] = [];
  const questions: Question[] = [];
  const begin = (tag: string, words: string) => {
    const before = known?.(tag);
    const open = before && trees.find(({ notes }) => notes.tag === tag);
    if (open) open.texts.push(words);
    else {
      const again = before && readAgain(tag, before, answers, questions);
      trees.push({ notes: new TreeNotes(tag, before, again), texts: [words] });
    }
  };
  if (tree !== undefined) begin(tree, '');
  for (const raw of text.split(/\r\n|\r|\n/)) {
    const line = raw
      .replace(/\s+/g, ' ')
      .replace(/^[-*•]\s+/, '')
      .trim();
    if (line === '') continue;
    const spoken = spokenLine(line);
    const [, prefix, tag, rest = ''] = TAGGED.exec(spoken) ?? [];
    const isTagged = tag !== undefined && !NO_TAG.test(rest) && !DAY_SAID.test(spoken.slice(0, 12));
    const last = trees.at(-1);
    if (isTagged && (prefix !== undefined || treeNameAt(rest) !== undefined)) {
      begin(tag, rest);
    } else if (!last) readHeader(line, header);
    else if (!isTagged) last.texts.push(spoken);
    else {
      const key = `line: ${line}`;
      const [newTree, above] = [`tree ${tag}`, `more about ${last.notes.tag}`];
      const answer = answers?.get(key);
      if (answer === newTree) begin(tag, rest);
      else if (answer === above) last.texts.push(spoken);
      else {
        last.notes.unread.push(line);
        questions.push({
          key,
          asks: `"${line}" can be a tree or more about the tree above.`,
          choices: [newTree, above],
          lines: [0],
        });
      }
    }
  }
  const day = header.day ?? answers?.get(DAY);
  const from = header.from ?? answers?.get(FROM);
  if (trees.length > 0 && day === undefined)
    questions.push({
      key: DAY,
      asks: 'The notes do not say on which day the trees were inspected.',
      choices: [],
      lines: [0],
    });
  if (trees.length > 0 && from === undefined)
    questions.push({
      key: FROM,
      asks: 'The notes do not say from where the trees were inspected.',
      choices: FROMS,
      lines: [0],
    });
  const check = day === undefined || from === undefined ? undefined : `${day} from ${from}`;
  const written = trees
    .filter(
      ({ notes, texts }) => notes.tag !== tree || texts.some(one => one !== '') || notes.unread.length > 0,
    )
    .map(one => treeText(one, check, header.by ?? by, known?.(one.notes.tag) !== undefined));
  return { text: `${[...header.lines, ''].join('\n')}\n${written.join('\n')}`, questions };
}

/** Asks whether a defect of the notes is one on record, read again. */
function readAgain(
  tag: string,
  { defects }: KnownTree,
  answers: FixContext['answers'],
  questions: Question[],
): (kind: string) => string | undefined {
  const taken = new Set<string>();
  const asked = new Map<string, number>();
  return said => {
    const meant = SAID.find(one => one.said.includes(said))?.meant ?? [said];
    const candidates = defects.filter(({ id, kind }) => meant.includes(kind) && !taken.has(id));
    if (candidates.length === 0) return undefined;
    const count = (asked.get(said) ?? 0) + 1;
    asked.set(said, count);
    const key = `tree ${tag}: ${said}${count > 1 ? ` ${count}` : ''}`;
    const choices = candidates.map(({ id, kind }) => `${kind} ${id}, seen again`);
    const answer = answers?.get(key);
    const found = candidates[choices.indexOf(answer ?? '')];
    if (found) taken.add(found.id);
    else if (answer === undefined)
      questions.push({
        key,
        asks: `The ${said} at tree ${tag} can be one on record or another one.`,
        choices: [...choices, `another ${said}`],
        lines: [0],
      });
    return found?.id;
  };
}

function treeText(
  { notes, texts }: { readonly notes: TreeNotes; readonly texts: readonly string[] },
  check: string | undefined,
  by: string | undefined,
  isKnown: boolean,
): string {
  const [first = '', ...more] = texts;
  const name = treeNameAt(first);
  // Of a tree on record its species is, too: what was said does not replace it.
  if (name !== undefined) notes.tree.unshift(isKnown ? `note "${name}"` : `species ${name}`);
  readWords(name === undefined ? first : first.slice(name.length), notes, check);
  for (const text of more) readWords(text, notes, check);
  const byLine = by === undefined ? [] : [`by ${by}`];
  return [
    `tree ${notes.tag}`,
    ...notes.tree,
    ...(check === undefined ? [] : [`inspection ${check}`, ...byLine]),
    ...notes.records.flatMap(({ head, lines }) => [head, ...lines]),
    ...(notes.nests.length === 0 ? [] : [`nest check ${check}`, ...byLine, ...notes.nests]),
    ...notes.unread,
    '',
  ].join('\n');
}
