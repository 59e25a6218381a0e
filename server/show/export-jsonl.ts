/**
 * All facts, one JSON object in each line, as the tables define them (inventory.schema.json). Each has its `kind`,
 * `file` and `line`; days are ISO 8601 dates. A quantity is `shown` as it was written (of a girth the diameter in the
 * same unit), with its `form`, and `low` and `high` in the SI unit `unit` (shares of one, degrees, days); `high` is null
 * where it has no upper end. `mill` is computed: what its logs would yield, where anybody might mill it. An estimate (`about`) has the value written at both ends: its margin is a matter of
 * practice, not a fact. What a damaged head fails to say is left out.
 */

import type { SpeciesName } from '../../grammar/species.ts';
import { millOf } from '../assess/mill.ts';
import { formatDate, formatMonthDay } from '../base/dates.ts';
import { type Dimension, type Quantity, showQuantity } from '../base/quantity.ts';
import type { PlacedFact } from '../facts/file.ts';
import { type Headed, type Placed, UNREAD, type Window, type YearlyDays } from '../facts/placed.ts';
import { type Member, SCHEMA_OF, SCHEMAS } from '../facts/schema.ts';
import type { Settings } from '../facts/settings.ts';
import { latestState } from '../facts/state.ts';
import { millJson } from './mill-json.ts';
import type { RowForm } from './row-form.ts';
import { jsonText } from './sanitize.ts';

export interface ExportFact {
  readonly placed: PlacedFact;
  /** As shown to people, with slashes. */
  readonly file: string;
  readonly settings: Settings;
}

export const UNIT_NAMES: Readonly<Record<Dimension, string>> = {
  length: 'm',
  share: '1',
  angle: 'deg',
  speed: 'm/s',
  mass: 'kg',
  force: 'N',
  duration: 'days',
  voltage: 'V',
  number: '1',
};

/** Twelve digits drop what binary fractions add. */
const number = (value: number): number | null =>
  Number.isFinite(value) ? Number(value.toPrecision(12)) : null;

const BY_TYPE = new Map(SCHEMAS.map(schema => [schema.type, schema]));

type ExportMembers = Readonly<Record<string, unknown>>;

const quantityJson = (value: Quantity) => ({
  shown: showQuantity(value, 6),
  form: value.form,
  low: number(value.low),
  high: number(value.high),
  unit: UNIT_NAMES[value.dimension],
});

function valueJson(value: unknown, { content, members, type }: Member): unknown {
  switch (content) {
    case 'quantity':
      return quantityJson(value as Quantity);
    case 'day':
      return formatDate(value as number);
    case 'window': {
      const { from, to } = value as Window;
      return { from: formatDate(from), to: formatDate(to) };
    }
    case 'yearly days': {
      const { from, to } = value as YearlyDays;
      return { from: formatMonthDay(from), to: formatMonthDay(to) };
    }
    case 'species': {
      const { name, genus, binomial } = value as SpeciesName;
      return { name, genus, binomial };
    }
    case 'group':
      return membersJson(value as ExportMembers, members!);
    case 'facts': {
      const { hasKind, members: inner } = BY_TYPE.get(type!)!;
      const fact = value as ExportMembers;
      return { ...(hasKind ? { kind: fact.kind } : {}), ...membersJson(fact, inner) };
    }
    default:
      return value;
  }
}

const hasOwnPlace = (content: Member['content']) => content === 'window' || content === 'yearly days';

function membersJson(holder: ExportMembers, members: readonly Member[]): ExportMembers {
  const at = (holder as unknown as Partial<Headed>).at;
  const json: Record<string, unknown> = {};
  for (const member of members) {
    const { name, isPlaced, isList, content } = member;
    const one = (value: unknown) =>
      valueJson(isPlaced && !hasOwnPlace(content) ? (value as Placed<unknown>).value : value, member);
    const value = holder[name];
    if (isList) json[name] = (value as readonly unknown[]).map(one);
    else if (value !== undefined && !isUnread(value, at)) json[name] = one(value);
  }
  return json;
}

/** The mark for what a damaged head fails to say has the place of the whole head; a word that was written has not. */
function isUnread(value: unknown, head: Headed['at'] | undefined): boolean {
  if (head === undefined || typeof value !== 'object') return false;
  const { value: word, start } = value as Placed<unknown>;
  return word === UNREAD && start === head.start;
}

export const factsJsonLines: RowForm<ExportFact> = {
  head: '',
  row({ placed, file, settings }) {
    const { fact, firstLine } = placed;
    const { members } = SCHEMA_OF.get(fact.kind)!;
    const mill = fact.kind === 'tree' ? millOf(latestState(fact), settings) : undefined;
    const computed = mill === undefined ? {} : { mill: millJson(mill) };
    return `${jsonText({ kind: fact.kind, file, line: firstLine + 1, ...membersJson(fact as unknown as ExportMembers, members), ...computed })}\n`;
  },
  between: '',
  end: '',
};
