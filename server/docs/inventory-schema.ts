/** The JSON schema of `export --as jsonl`, one object in each line, printed from the tables. */

import { type FactSchema, type Member, SCHEMAS } from '../facts/schema.ts';
import { UNIT_NAMES } from '../show/export-jsonl.ts';
import weighSchema from '../show/weigh.schema.json' with { type: 'json' };

interface ObjectSchema {
  readonly type: 'object';
  readonly required: readonly string[];
  readonly additionalProperties: false;
  readonly properties: Readonly<Record<string, object>>;
}

const { mill: millSchema, interval, intervalOrNull } = weighSchema.definitions;

const DATE = { type: 'string', pattern: '^\\d{4}-\\d{2}-\\d{2}$' };
const MONTH_DAY = { type: 'string', pattern: '^(0[1-9]|1[0-2])-(0[1-9]|[12]\\d|3[01])$' };

const VALUES: Readonly<Record<Exclude<Member['content'], 'group' | 'facts'>, object>> = {
  quantity: { $ref: '#/definitions/quantity' },
  text: { type: 'string' },
  day: DATE,
  window: { $ref: '#/definitions/window' },
  'yearly days': { $ref: '#/definitions/yearlyDays' },
  species: { $ref: '#/definitions/species' },
  bearing: { type: 'number', minimum: 0, exclusiveMaximum: 360 },
  flag: { type: 'boolean' },
  number: { type: 'number' },
};

function schemaOf({ content, words, members, type }: Member): object {
  if (content === 'facts') return { $ref: `#/definitions/${type}` };
  if (content === 'group') return objectOf(members!, isAlways);
  return words && content === 'text' ? { enum: words } : VALUES[content];
}

const isAlways = ({ isRequired, isList }: Member): boolean => isRequired || isList;

function objectOf(
  members: readonly Member[],
  isThere: (member: Member) => boolean,
  first: Readonly<Record<string, object>> = {},
): ObjectSchema {
  const properties = Object.fromEntries(
    members.map(member => {
      const value = schemaOf(member);
      const described = member.field ? { description: member.field.summary } : {};
      return [member.name, { ...described, ...(member.isList ? { type: 'array', items: value } : value) }];
    }),
  );
  return {
    type: 'object',
    properties: { ...first, ...properties },
    required: [...Object.keys(first), ...members.filter(isThere).map(({ name }) => name)],
    additionalProperties: false,
  };
}

/** What an export computes of a tree, beside what the record states. */
const withComputed = (heads: FactSchema['heads'], schema: ObjectSchema): ObjectSchema =>
  heads[0]!.word === 'tree'
    ? {
        ...schema,
        properties: {
          ...schema.properties,
          mill: {
            ...millSchema,
            description:
              'Computed: what its logs would yield, net of rot; left out for trees that nobody would mill.',
          },
        },
      }
    : schema;

/** A damaged head fails to say anything but what its fact needs, and lists are empty. */
function factOf({ heads, under, hasKind, members }: FactSchema): object {
  const isThere = ({ name, isList }: Member) => isList || heads[0]!.needs === name;
  const kind = hasKind ? { kind: { enum: heads.map(({ word }) => word) } } : {};
  const place = { file: { type: 'string' }, line: { type: 'integer', minimum: 1 } };
  return {
    description: heads.map(({ summary }) => summary).join(' '),
    ...withComputed(heads, objectOf(members, isThere, under === undefined ? { ...kind, ...place } : kind)),
  };
}

export const inventorySchema = (): object => ({
  $schema: 'http://json-schema.org/draft-07/schema#',
  $id: 'urn:soundwood:inventory:1',
  title: 'One fact of an inventory, as `soundwood export --as jsonl` writes it in each line',
  oneOf: SCHEMAS.filter(({ under }) => under === undefined).map(({ type }) => ({
    $ref: `#/definitions/${type}`,
  })),
  definitions: {
    quantity: {
      description: 'As it was written, and from the least to the greatest that it may be, in the SI unit.',
      type: 'object',
      properties: {
        shown: { type: 'string' },
        form: { enum: ['exact', 'about', 'range', 'above', 'below', 'unseen'] },
        low: { type: 'number' },
        high: { description: 'null where it has no upper end', type: ['number', 'null'] },
        unit: { enum: [...new Set(Object.values(UNIT_NAMES))] },
      },
      required: ['shown', 'form', 'low', 'high', 'unit'],
      additionalProperties: false,
    },
    interval,
    intervalOrNull,
    window: daysFrom('First and last day.', DATE),
    yearlyDays: daysFrom('First and last day of any year.', MONTH_DAY),
    species: {
      type: 'object',
      properties: { name: { type: 'string' }, genus: { type: 'string' }, binomial: { type: 'string' } },
      required: ['name', 'genus'],
      additionalProperties: false,
    },
    ...Object.fromEntries(SCHEMAS.map(schema => [schema.type, factOf(schema)])),
  },
});

const daysFrom = (description: string, day: object): object => ({
  description,
  type: 'object',
  properties: { from: day, to: day },
  required: ['from', 'to'],
  additionalProperties: false,
});
