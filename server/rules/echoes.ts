/**
 * A line with a mistake gives that mistake and no echo. What a damaged field would have said is not known, so a finding
 * stands only if it would whatever that was: the lines are written anew with the example of their field, once as it is,
 * then with small and great values, other words and other days, and the tree is judged again each time.
 */

import { blocksOf } from '../../grammar/blocks.ts';
import { type FieldSpec, HEADS } from '../../grammar/fields.ts';
import { nearest } from '../../grammar/nearest.ts';
import type { Block, Line } from '../../grammar/syntax.ts';
import { addMonths, formatDate } from '../base/dates.ts';
import { factOf } from '../facts/build.ts';
import type { WrittenTree } from '../facts/types.ts';
import type { RuleEnvironment } from './context.ts';
import type { RawFinding } from './raw-finding.ts';

/** Of a block with more mistakes than these nothing much can be guessed, and reading it again would cost too much. */
const MOST_LINES = 20;

interface DamagedLine {
  readonly index: number;
  readonly field: FieldSpec;
}

/** The lines of known or nearly known fields that have a mistake; undefined where there are too many. */
function damagedLines({ lines, sections }: Block): readonly DamagedLine[] | undefined {
  const found: DamagedLine[] = [];
  for (const [index, line] of lines.entries()) {
    if (!line.mistake && line.role !== 'bad') continue;
    const section = sections.findLast(({ head }) => head <= index);
    const fields = section && HEADS.get(section.word)?.fields;
    const word = fields && line.role !== 'head' ? fieldWord(line, [...fields.keys()]) : undefined;
    const field = word === undefined ? undefined : fields!.get(word);
    if (!field) continue;
    found.push({ index, field });
    if (found.length > MOST_LINES) return undefined;
  }
  return found;
}

/** Indentation and first word of any field, with room for mistakes. */
const LONGEST_START = 200;

function fieldWord({ word, syntax }: Line, words: readonly string[]): string | undefined {
  if (word !== undefined) return word;
  // Not of a whole line: of one of 50 MB the engine may run out of stack.
  const first = /\S+/.exec(syntax.text.slice(0, LONGEST_START))?.[0];
  return first === undefined ? undefined : nearest(first.toLowerCase(), words);
}

const VARIANTS = ['as it is', 'small', 'great', 'early', 'unseen'] as const;
type Variant = (typeof VARIANTS)[number];

/** Names that stand for what a damaged reference may have named: all that there are. */
interface Names {
  readonly defect: readonly string[];
  readonly part: readonly string[];
  /** Defects, and what they may be on. */
  readonly cause: readonly string[];
  readonly person: readonly string[];
  readonly crew: readonly string[];
  /** From the first to the last day of all sound windows of the tree: two that coincide say more than two that do not. */
  readonly window: string | undefined;
}

const SCALE: Readonly<Record<Variant, number>> = {
  'as it is': 1,
  small: 0.01,
  great: 100,
  early: 5,
  unseen: 1,
};
const MONTHS: Readonly<Record<Variant, number>> = {
  'as it is': 0,
  small: 0,
  great: 12,
  early: -60,
  unseen: 0,
};

/** Of several that could be meant, by the variant: the first, the last, those between. */
function pick<T>(list: readonly T[], variant: Variant): T {
  const last = list.length - 1;
  const at = { 'as it is': last, small: 0, great: last, early: Math.floor(list.length / 2), unseen: 1 }[
    variant
  ];
  return list[Math.min(at, last)]!;
}

const WINDOW = /\d{4}-\d\d-\d\d\.\.\d{4}-\d\d-\d\d/g;
const QUANTITY = /(?:[~<>] ?)?\d+(?:\.\d+)?(?:\.\.\d+(?:\.\d+)?)? (?:in|ft|m|cm|mm|kg|lb|kV|%)(?![\w])/g;

function written({ example, form }: FieldSpec, variant: Variant, names: Names, today: number): string {
  const list = /^<\w+:(defect|part|cause)> \{/.exec(form)?.[1] as 'defect' | 'part' | 'cause' | undefined;
  const word = example.split(' ')[0]!;
  if (list && names[list].length > 0)
    return `${word} ${variant === 'as it is' ? names[list].join(', ') : pick(names[list], variant)}`;
  const one = /^<\w+:(person|crew)>$/.exec(form)?.[1] as 'person' | 'crew' | undefined;
  if (one && names[one].length > 0) return `${word} ${pick(names[one], variant)}`;
  if (variant === 'as it is') return example;
  const choice = /<[\w-]+:([\w -]+(?:\|[\w -]+)+)>/.exec(form)?.[1]?.split('|');
  const chosen = choice?.find(option => example.includes(` ${option}`));
  const text = chosen ? example.replace(` ${chosen}`, ` ${pick(choice!, variant)}`) : example;
  const day = formatDate(addMonths(today, MONTHS[variant]));
  if (variant === 'unseen') return text.replace(QUANTITY, 'unseen').replace(WINDOW, names.window ?? '$&');
  return text
    .replace(WINDOW, `${day}..${day}`)
    .replace(/\d{4}-\d\d-\d\d/g, day)
    .replace(/\d+(?:\.\d+)? %/g, variant === 'small' ? '0 %' : '100 %')
    .replace(
      /(?<![\w.-])(\d+(?:\.\d+)?)(?= (?:in|ft|m|cm|mm|kg|lb|kV|mph|years?|months?|weeks?|days?)\b)/g,
      value => String(Number((Number(value) * SCALE[variant]).toPrecision(6))),
    );
}

function repaired(block: Block, damaged: readonly DamagedLine[], write: (field: FieldSpec) => string) {
  const pieces: string[] = [];
  let from = 0;
  for (const { index, field } of damaged) {
    const start = block.starts[index]!;
    const { text } = block.lines[index]!.syntax;
    pieces.push(block.text.slice(from, start), /^\s*/.exec(text)![0], write(field));
    from = start + text.length;
  }
  pieces.push(block.text.slice(from));
  const [first] = blocksOf(pieces.join(''));
  const fact = first && factOf(first.block);
  return fact?.kind === 'tree' ? fact : undefined;
}

function spanOf(windows: readonly string[]): string | undefined {
  const days = windows.flatMap(window => window.split('..')).sort();
  return days.length > 0 ? `${days[0]}..${days.at(-1)}` : undefined;
}

const LEVELS = ['note', 'warning', 'error'] as const;

/**
 * The findings that are valid whatever the damaged lines would have said, each at the mildest level that this leaves.
 * @param lint the findings of the rules about a tree in the same environment
 */
export function withoutEchoes(
  block: Block,
  tree: WrittenTree,
  findings: readonly RawFinding[],
  lint: (tree: WrittenTree) => readonly RawFinding[],
  { personIds, crewIds, today }: RuleEnvironment,
): readonly RawFinding[] {
  const damaged = damagedLines(block);
  if (!damaged || damaged.length === 0) return findings;
  const defect = tree.defects.map(({ id }) => id.value);
  const part = tree.parts.map(({ name }) => name.value);
  const names: Names = {
    defect,
    part,
    cause: [...defect, ...part, 'trunk'],
    person: personIds,
    crew: crewIds,
    window: spanOf(
      block.lines.flatMap(({ mistake, syntax }) => (mistake ? [] : (syntax.text.match(WINDOW) ?? []))),
    ),
  };
  let valid = findings;
  for (const variant of VARIANTS) {
    if (valid.length === 0) break;
    const whole = repaired(block, damaged, field => written(field, variant, names, today));
    if (!whole) continue;
    const others = new Map<string, RawFinding>();
    for (const one of lint(whole)) {
      const known = others.get(keyOf(one));
      if (!known || rank(one) < rank(known)) others.set(keyOf(one), one);
    }
    valid = valid.flatMap((one): RawFinding[] => {
      const other = others.get(keyOf(one));
      if (!other || (other.accept && !one.accept)) return [];
      return rank(other) < rank(one) ? [{ ...one, level: other.level }] : [one];
    });
  }
  return valid;
}

const rank = ({ level }: RawFinding): number => LEVELS.indexOf(level);
const keyOf = ({ rule, report }: RawFinding): string => `${rule}\n${report.subject}`;
