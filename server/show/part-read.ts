/** Reads what `check --shard` wrote. The file may have been damaged or be something else, so each member is looked at. */

import { URGENCIES } from '../assess/urgency.ts';
import { parseDate } from '../base/dates.ts';
import type { PlacedFinding } from './check-result.ts';
import { MOST_PARTS, PART_VERSION, type PartFile, type PartResult } from './part.ts';

/** The result, or what is wrong with the text, to be said after the name of its file. */
export function readPart(text: string): PartResult | { readonly problem: string } {
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch {
    return { problem: 'is no part result: it is no JSON, or was not written to its end' };
  }
  if (!isRecord(read) || !('part' in read && 'version' in read))
    return { problem: 'is no part result: soundwood check --shard writes one' };
  if (read.version !== PART_VERSION)
    return {
      problem: `is a part result of version ${JSON.stringify(read.version)}, and this program reads version ${PART_VERSION}: make the parts and gather them with one version of soundwood`,
    };
  const fault = PART(read, '');
  if (fault !== undefined)
    return { problem: `is a damaged part result (${fault.slice(1)} is not as it is written): make it anew` };
  const { on, files, ...rest } = read as unknown as Written;
  return { ...rest, on: parseDate(on)!, files: files.map(fileOf) };
}

interface WrittenFile extends Omit<PartFile, 'found' | 'site'> {
  readonly site?: string;
  readonly lines: Readonly<Record<string, string>>;
  readonly found: readonly {
    readonly start: number;
    readonly end: number;
    readonly finding: WrittenFinding;
    readonly tree?: PlacedFinding['tree'];
    readonly fixes?: PlacedFinding['fixes'];
  }[];
}

type PartFinding = PartFile['found'][number]['finding'];
type WrittenFinding = Omit<PartFinding, 'start' | 'end' | 'accepted'> & {
  readonly accepted?: { readonly by: string; readonly until: string; readonly because: string };
};

interface Written extends Omit<PartResult, 'on' | 'files'> {
  readonly on: string;
  readonly files: readonly WrittenFile[];
}

const fileOf = ({ place, file, site, region, trees, signs, lines, found }: WrittenFile): PartFile => ({
  place,
  file,
  site,
  region,
  trees,
  signs,
  found: found.map(({ start, end, finding, tree, fixes }) => ({
    finding: findingOf(finding, start, end),
    line: lines[finding.line]!,
    tree,
    fixes,
  })),
});

function findingOf({ accepted, ...finding }: WrittenFinding, start: number, end: number): PartFinding {
  const placed = { ...finding, start, end };
  return accepted ? { ...placed, accepted: { ...accepted, until: parseDate(accepted.until)! } } : placed;
}

/** Where a value is not of the shape, as a path of members; undefined if it is. */
type ResultShape = (value: unknown, at: string) => string | undefined;

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const where =
  (holds: (value: unknown) => boolean): ResultShape =>
  (value, at) =>
    holds(value) ? undefined : at;

const TEXT = where(value => typeof value === 'string');
const COUNT = where(value => Number.isSafeInteger(value) && (value as number) >= 0);
const PLACE = where(value => Number.isSafeInteger(value) && (value as number) >= 1);
const DAY = where(value => typeof value === 'string' && parseDate(value) !== undefined);
const isLine = (value: unknown) => typeof value === 'string' && !/[\r\n]/.test(value);
const oneOf = (...words: readonly string[]) => where(value => words.includes(value as string));

const maybe =
  (shape: ResultShape): ResultShape =>
  (value, at) =>
    value === undefined ? undefined : shape(value, at);

const list =
  (item: ResultShape): ResultShape =>
  (value, at) =>
    Array.isArray(value) ? firstOf(value.map((one, i) => item(one, `${at}[${i}]`))) : at;

/** @param more what holds between the members, once each is of its shape */
const record =
  (members: Readonly<Record<string, ResultShape>>, more: ResultShape = () => undefined): ResultShape =>
  (value, at) =>
    isRecord(value)
      ? (firstOf(Object.entries(members).map(([name, shape]) => shape(value[name], `${at}.${name}`))) ??
        more(value, at))
      : at;

const firstOf = (faults: readonly (string | undefined)[]): string | undefined =>
  faults.find(fault => fault !== undefined);

const FINDING = record({
  rule: where(name => typeof name === 'string' && /^[a-z][a-z0-9-]*$/.test(name)),
  level: oneOf('error', 'warning', 'note'),
  grade: oneOf('exceeds', 'may exceed', 'stated', 'syntax'),
  file: TEXT,
  line: PLACE,
  column: PLACE,
  endLine: PLACE,
  endColumn: PLACE,
  tree: maybe(TEXT),
  subject: TEXT,
  message: TEXT,
  remedy: TEXT,
  caution: maybe(TEXT),
  accepted: maybe(record({ by: TEXT, until: DAY, because: TEXT })),
  related: maybe(list(record({ file: TEXT, line: PLACE, column: PLACE, message: TEXT }))),
});

const TREE = record({
  line: PLACE,
  name: maybe(TEXT),
  species: maybe(TEXT),
  urgency: oneOf(...URGENCIES),
});

const FIX = record({
  title: TEXT,
  edits: list(record({ line: PLACE, column: PLACE, endLine: PLACE, endColumn: PLACE, text: TEXT })),
});

const FILE = record(
  {
    place: COUNT,
    file: TEXT,
    site: maybe(TEXT),
    region: TEXT,
    trees: list(TEXT),
    signs: record({ judged: COUNT, notJudged: COUNT, beyond: COUNT }),
    lines: where(lines => isRecord(lines) && Object.values(lines).every(isLine)),
    found: list(
      record({ start: COUNT, end: COUNT, finding: FINDING, tree: maybe(TREE), fixes: maybe(list(FIX)) }),
    ),
  },
  (file, at) => {
    const { file: name, lines, found } = file as WrittenFile;
    const stray = found.findIndex(
      ({ finding }) => finding.file !== name || !Object.hasOwn(lines, finding.line),
    );
    return stray < 0 ? undefined : `${at}.found[${stray}]`;
  },
);

const PART = record(
  {
    program: TEXT,
    on: DAY,
    part: PLACE,
    of: PLACE,
    inventory: record({
      sha256: where(value => typeof value === 'string' && /^[0-9a-f]{64}$/.test(value)),
      files: COUNT,
    }),
    unread: list(record({ file: TEXT, message: TEXT })),
    files: list(FILE),
  },
  (result, at) => {
    const { part, of } = result as unknown as Written;
    if (of > MOST_PARTS) return `${at}.of`;
    return part > of ? `${at}.part` : undefined;
  },
);
