/**
 * Field notes, as they are dictated or typed on a phone → an inventory as people write it, whose habits `fixText` then
 * rewrites. What the notes leave open becomes a line with several meanings, which is asked; what nobody can read becomes
 * a note where it was said. Rules alone, no guess stands unasked.
 */

import { HEADS } from '../../grammar/fields.ts';
import { SAID } from '../../grammar/said.ts';
import { tidy } from '../../grammar/tidy.ts';
import { organismsCalled, treesCalled } from '../practice/common-names.ts';
import { lookupGenus } from '../practice/species.ts';
import { type FixContext, type Fixed, fixText, type Question } from './fix.ts';
import { inFigures } from './spoken-numbers.ts';

/** The inventory, with questions that no line of it can ask. */
interface Draft {
  readonly text: string;
  readonly questions: readonly Question[];
}

/** Keys of the questions about all of the notes. */
const DAY = 'day of the inspection';
const FROM = 'inspected from';

const wordsOf = (head: string, value: string): readonly string[] => {
  const leaf = HEADS.get(head)!.values.get(value);
  return leaf?.kind === 'choice' ? leaf.words : [];
};
const KINDS = wordsOf('defect', 'kind');
const WORK = wordsOf('prescription', 'kind');
const FROMS = wordsOf('inspection', 'from');

const saidFor = (words: readonly string[]): readonly string[] =>
  SAID.filter(({ meant }) => meant.some(one => words.includes(one))).flatMap(({ said }) => said);

const anyOf = (words: readonly string[]): string =>
  `(?:${[...new Set(words)]
    .sort((a, b) => b.length - a.length)
    .map(word => word.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&').replaceAll(' ', '[\\s-]+'))
    .join('|')})(?![\\p{L}-])`;

/** Words that alone say too little to be a defect: `old`, `hole` of a sentence. */
const KIND = anyOf(
  [...KINDS, ...saidFor(KINDS)]
    .filter(word => word.length > 3 && !/^(?:hole|holes|split|scar|rotten|brackets?|dieback)$/.test(word))
    .concat('hole', 'split', 'scar', 'bracket', 'rot', 'cavities', 'cracks'),
);
const NUM = '\\d+(?:\\.\\d+)?';
const UNIT = '(?:in|ft|cm|mm|m)(?![\\p{L}])';
const HEDGE =
  '(?:(?:about|abt|approx\\.?|approximately|around|roughly|maybe|over|under|at least|more than|less than|~|>|<)\\s*)?';
/** A length with its unit: an amount, a range, feet and inches. */
const LENGTH = `${HEDGE}${NUM}(?:\\s*ft\\s+\\d{1,2}(?:\\.\\d+)?\\s*in(?![\\p{L}])|\\s*(?:${UNIT})?\\s*(?:to|-|–)\\s*${NUM}\\s*${UNIT}|\\s*${UNIT})(?:\\s*(?:\\+|or more)(?!\\d))?`;
const POINT =
  '(?:[ns](?:[ns]?[ew])?|[ew](?:[ns][ew])?|(?:north|south|east|west)(?:[\\s-]?(?:north|south|east|west))*)(?![\\p{L}])';
const UP = '(?:\\s*(?:up|high|above\\s+(?:the\\s+)?(?:ground|grade)|off\\s+the\\s+ground|agl))';
const SIDE = `(?:on\\s+(?:the\\s+)?|facing\\s+)?(?:the\\s+)?(${POINT})(?:\\s*(?:side|face))?`;
const PART = '(?:on\\s+(?:the\\s+)?)?(trunk|main\\s+stem|bole)';

type Place = 'tree' | 'defect' | 'target';

interface Phrase {
  readonly in: readonly Place[];
  readonly pattern: RegExp;
  readonly write: (groups: readonly string[], notes: TreeNotes) => void;
}

const phrase = (
  places: Place | readonly Place[],
  source: string,
  write: (groups: readonly string[], notes: TreeNotes) => void,
): Phrase => ({ in: [places].flat(), pattern: new RegExp(`(?:${source})(?=$|[\\s,;.])`, 'iuy'), write });

/** The fact of a head in a tree, with its lines. */
interface RecordNotes {
  readonly place: Place | 'nest';
  readonly head: string;
  readonly lines: string[];
}

/** One tree of the notes. */
class TreeNotes {
  readonly tree: string[] = [];
  readonly records: RecordNotes[] = [];
  readonly nests: string[] = [];
  /** Words that nothing was made of, since the last phrase. */
  private rest: string[] = [];
  private defects = 0;
  private works = 0;

  constructor(readonly tag: string) {}

  get current(): RecordNotes | undefined {
    return this.records.at(-1);
  }

  get place(): Place {
    return (this.current?.place as Place | undefined) ?? 'tree';
  }

  field(line: string): void {
    this.close();
    (this.current?.lines ?? this.tree).push(line);
  }

  ofTree(line: string): void {
    this.close();
    this.tree.push(line);
  }

  defect(kind: string): void {
    this.close();
    const id =
      String.fromCharCode(65 + (this.defects % 26)) +
      (this.defects >= 26 ? Math.floor(this.defects / 26) : '');
    this.defects++;
    this.records.push({ place: 'defect', head: `defect ${id} ${kind}`, lines: [] });
  }

  target(name: string): void {
    this.close();
    this.records.push({ place: 'target', head: `target "${name.replaceAll('"', '')}"`, lines: [] });
  }

  work(kind: string): void {
    this.close();
    this.works++;
    this.records.push({ place: 'tree', head: `prescription R${this.works} ${kind}`, lines: [] });
  }

  word(word: string): void {
    this.rest.push(word);
  }

  /** The words since the last phrase. */
  get said(): readonly string[] {
    return this.rest;
  }

  /** Forgets the words that match: they are said by the line that follows. */
  drop(pattern: RegExp): boolean {
    const kept = this.rest.filter(word => !pattern.test(word));
    const isSaid = kept.length < this.rest.length;
    this.rest = kept;
    return isSaid;
  }

  /** The words that nothing was made of become a note. */
  close(): void {
    const text = this.rest
      .join(' ')
      .replace(/^(?:(?:and|with|has|is|also|then|a|an|the)(?:\s+|$))+/i, '')
      .trim();
    this.rest = [];
    if (/[\p{L}\d]/u.test(text))
      (this.current?.lines ?? this.tree).push(`note "${text.replaceAll('"', "'")}"`);
  }
}

const point = (written: string): string =>
  written
    .toLowerCase()
    .replace(/north|south|east|west/g, one => one[0]!)
    .replace(/[\s-]/g, '')
    .toUpperCase();

const located = (part: string | undefined, height: string, side: string | undefined): string =>
  `${part === undefined ? 'at' : 'on trunk at'} ${height.replace(new RegExp(`${UP}$`, 'iu'), '')}${side === undefined ? '' : `, facing ${point(side)}`}`;

const VIGOR = '(good|fair|poor|dead|normal|declining|low|weak|healthy|stressed|dying)';
const AGE = '(young|semi[\\s-]?mature|mature|over[\\s-]?mature|veteran)';
const USE =
  '(rare|rarely|occasional|occasionally|frequent|frequently|constant|constantly|daily|weekends?|every\\s+day|weekly|sometimes|always|seldom)';

/** Longest phrases first; each is tried in its places only. */
const PHRASES: readonly Phrase[] = [
  phrase(
    ['tree', 'defect', 'target'],
    `(-?\\d{1,2}\\.\\d{3,})[\\s,]+(-?\\d{1,3}\\.\\d{3,})`,
    ([lat, lon], notes) => notes.ofTree(`position ${lat}, ${lon}`),
  ),
  phrase(
    ['tree', 'defect', 'target'],
    `dbh\\s*(?:of|is|=|:)?\\s*(${LENGTH}(?:\\s*(?:,|and|&)\\s*${LENGTH})*)|(${LENGTH})\\s*(?:dbh|at\\s+breast\\s+height)`,
    ([a, b], notes) => notes.ofTree(`dbh ${a ?? b}`),
  ),
  phrase(
    ['tree'],
    `(?:diameter|diam|dia)\\s*(?:of|is)?\\s*(${LENGTH})|(${LENGTH})\\s*(?:in\\s+)?(?:diameter|diam|dia)`,
    ([a, b], notes) => notes.ofTree(`size ${a ?? b}`),
  ),
  phrase(
    ['tree', 'defect', 'target'],
    `(?:girth|circumference|circ)\\s*(?:of|is)?\\s*(${LENGTH})|(${LENGTH})\\s*(?:girth|circumference)`,
    ([a, b], notes) => notes.ofTree(`girth ${a ?? b}`),
  ),
  phrase(
    ['tree'],
    `(?:height|ht|hgt)\\s*(?:of|is)?\\s*(${LENGTH})|(${LENGTH})\\s*(?:tall|high|height)`,
    ([a, b], notes) => notes.ofTree(`height ${a ?? b}`),
  ),
  phrase(
    ['tree'],
    `crown\\s+(?:from|base(?:\\s+at)?)\\s+(${LENGTH})(?:\\s*,?\\s*(?:and\\s+)?(${LENGTH})\\s*(?:wide|spread|across))?`,
    ([from, wide], notes) => notes.ofTree(`crown from ${from}${wide === undefined ? '' : `, ${wide} wide`}`),
  ),
  phrase(
    ['tree'],
    `(?:(?:crown|canopy)\\s+)?spread\\s*(?:of|is)?\\s*(${LENGTH})|(${LENGTH})\\s*(?:wide\\s+(?:crown|canopy)|(?:crown\\s+|canopy\\s+)?spread)|(?:crown|canopy)\\s+(${LENGTH})\\s*(?:wide|across)`,
    ([a, b, c], notes) => notes.ofTree(`crown ${a ?? b ?? c} wide`),
  ),
  phrase(['tree'], `(?:crown|canopy)\\s+(${LENGTH})`, ([a], notes) => notes.ofTree(`crown ${a}`)),
  phrase(
    ['tree', 'defect'],
    `(?:leans?|leaning)\\s*(?:about\\s+)?(${HEDGE}${NUM})\\s*(?:deg(?:rees?)?)?\\s*(?:to(?:wards?)?\\s*)?(?:the\\s+)?(${POINT})?`,
    ([angle, side], notes) =>
      notes.ofTree(`lean ${angle} deg${side === undefined ? '' : ` toward ${point(side)}`}`),
  ),
  phrase(
    ['tree', 'defect', 'target'],
    `(?:vigou?r|health)\\s*(?:is|:)?\\s*${VIGOR}|${VIGOR}\\s+(?:vigou?r|health)`,
    ([a, b], notes) => notes.ofTree(`vigor ${a ?? b}`),
  ),
  phrase(
    ['tree', 'defect', 'target'],
    `condition\\s*(?:is|:)?\\s*${VIGOR}|${VIGOR}\\s+condition`,
    ([a, b], notes) => notes.ofTree(`condition ${a ?? b}`),
  ),
  phrase(['tree', 'defect', 'target'], `(?:age\\s+)?${AGE}`, ([age], notes) =>
    notes.ofTree(
      `age ${age!
        .replace(/^semi[\s-]?/i, 'semi-')
        .replace(/^over[\s-]?/i, 'over-')
        .toLowerCase()}`,
    ),
  ),
  phrase(
    ['tree', 'defect'],
    `(${NUM})\\s*%\\s*(?:crown\\s+)?dieback|dieback\\s*(?:of|about)?\\s*(${NUM})\\s*%`,
    ([a, b], notes) => notes.ofTree(`dieback ${a ?? b} %`),
  ),
  phrase(['tree', 'defect'], `soil\\s+(?:is\\s+)?(firm|cracked|heaving|wet|compacted)`, ([soil], notes) =>
    notes.ofTree(`soil ${soil!.toLowerCase()}`),
  ),
  phrase(['tree'], `(${NUM}(?:\\s*(?:,|and|&|\\+)\\s*${NUM})+\\s*${UNIT}|${LENGTH})`, ([size], notes) =>
    notes.ofTree(/(?:ft|m)\s*(?:\+|or more)?$/.test(size!) ? `extent ${size}` : `size ${size}`),
  ),

  phrase(
    'defect',
    `opening\\s*(?:of|is|about)?\\s*(${NUM}\\s*(?:${UNIT})?\\s*(?:by|x|×)\\s*${NUM}(?:\\s*${UNIT})?|${LENGTH}(?:\\s*wide)?)`,
    ([size], notes) =>
      notes.field(
        `opening ${/\b(?:by|x)\b|[x×]/.test(size!) || /wide$/.test(size!) ? size : `${size} wide`}`,
      ),
  ),
  phrase('defect', `opening\\s+closed|closed\\s+over`, (_, notes) => notes.field('opening closed')),
  phrase(
    'defect',
    `(?:sound\\s+)?(?:wall|shell)s?\\s*(?:of|is|about|thickness)?\\s*(${LENGTH})(?:\\s*(?:thick)?\\s*(?:at|on)?\\s*(?:the\\s+)?(${POINT}))?`,
    ([wall, side], notes) => notes.field(`wall ${wall}${side === undefined ? '' : ` at ${point(side)}`}`),
  ),
  phrase(
    'defect',
    `(?:depth|probed?|probe\\s+goes)\\s*(?:of|is|to|in)?\\s*(${LENGTH})(?:\\s*deep)?|(${LENGTH})\\s*deep`,
    ([a, b], notes) => notes.field(`depth ${a ?? b}`),
  ),
  phrase(
    'defect',
    `(?:stem\\s+|trunk\\s+)?(?:diameter|dia)\\s*(?:there\\s+)?(?:of|is)?\\s*(${LENGTH})`,
    ([a], notes) => notes.field(`diameter ${a}`),
  ),
  phrase('defect', `(${LENGTH})\\s*long|length\\s*(?:of|is)?\\s*(${LENGTH})`, ([a, b], notes) =>
    notes.field(`length ${a ?? b}`),
  ),
  phrase('defect', `(${LENGTH})\\s*wide|width\\s*(?:of|is)?\\s*(${LENGTH})`, ([a, b], notes) =>
    notes.field(`width ${a ?? b}`),
  ),
  phrase(
    'defect',
    `(${NUM})\\s*%\\s*(?:of\\s+)?(?:the\\s+)?(circumference|crown|roots)`,
    ([share, of], notes) => notes.field(`share ${share} % of ${of!.toLowerCase()}`),
  ),
  phrase(
    'defect',
    `(?:${PART}\\s*,?\\s*)?${SIDE}\\s*,?\\s*(?:at\\s+)?(${LENGTH})${UP}?`,
    ([part, side, height], notes) => notes.field(located(part, height!, side)),
  ),
  phrase(
    'defect',
    `(?:${PART}\\s*,?\\s*)?(?:at\\s+)(${LENGTH})${UP}?(?:\\s*,?\\s*${SIDE})?`,
    ([part, height, side], notes) => notes.field(located(part, height!, side)),
  ),
  phrase(
    'defect',
    `(?:${PART}\\s*,?\\s*)?(${LENGTH})${UP}(?:\\s*,?\\s*${SIDE})?`,
    ([part, height, side], notes) => notes.field(located(part, height!, side)),
  ),
  phrase('defect', `${PART}\\s*,?\\s*(${LENGTH})(?:\\s*,?\\s*${SIDE})?`, ([part, height, side], notes) =>
    notes.field(located(part, height!, side)),
  ),
  phrase('defect', `(suspected|increasing|steady|healed|filled)`, ([state], notes) =>
    notes.field(`state ${state!.toLowerCase()}`),
  ),

  phrase(
    'target',
    `(${LENGTH})\\s*(?:away|off|out)?(?:\\s*(?:to(?:wards?)?\\s+)?(?:the\\s+)?(${POINT}))?`,
    ([away, side], notes) =>
      notes.field(`distance ${away}${side === undefined ? '' : ` toward ${point(side)}`}`),
  ),
  phrase('target', `(?:used\\s+|occupied\\s+|use\\s+)?${USE}`, ([use], notes) =>
    notes.field(`occupied ${use!.toLowerCase()}`),
  ),
];

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

/** Field notes as an inventory in the notation, with what is asked about them. */
export function fixNotes(notes: string, context: FixContext): Fixed {
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
function draftOf(text: string, { answers }: FixContext): Draft {
  const header: Header = { lines: [] };
  const trees: { readonly notes: TreeNotes; readonly texts: string[] }[] = [];
  const questions: Question[] = [];
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
      trees.push({ notes: new TreeNotes(tag), texts: [rest] });
    } else if (!last) readHeader(line, header);
    else if (!isTagged) last.texts.push(spoken);
    else {
      const key = `line: ${line}`;
      const [newTree, above] = [`tree ${tag}`, `more about ${last.notes.tag}`];
      const answer = answers?.get(key);
      if (answer === newTree) trees.push({ notes: new TreeNotes(tag), texts: [rest] });
      else if (answer === above) last.texts.push(spoken);
      else {
        last.notes.ofTree(`# not read: ${line}`);
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
  const written = trees.map(tree => treeText(tree, check, header.by));
  return { text: `${[...header.lines, ''].join('\n')}\n${written.join('\n')}`, questions };
}

function treeText(
  { notes, texts }: { readonly notes: TreeNotes; readonly texts: readonly string[] },
  check: string | undefined,
  by: string | undefined,
): string {
  const [first = '', ...more] = texts;
  const name = treeNameAt(first);
  if (name !== undefined) notes.tree.unshift(`species ${name}`);
  readWords(name === undefined ? first : first.slice(name.length), notes, check);
  for (const text of more) readWords(text, notes, check);
  const byLine = by === undefined ? [] : [`by ${by}`];
  return [
    `tree ${notes.tag}`,
    ...notes.tree,
    ...(check === undefined ? [] : [`inspection ${check}`, ...byLine]),
    ...notes.records.flatMap(({ head, lines }) => [head, ...lines]),
    ...(notes.nests.length === 0 ? [] : [`nest check ${check}`, ...byLine, ...notes.nests]),
    '',
  ].join('\n');
}
