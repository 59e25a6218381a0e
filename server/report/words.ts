/** Facts in words: quantities as written, unseen values named as such. */

import { compassPoint } from '../../grammar/bearing.ts';
import { openDefects } from '../assess/evidence.ts';
import { pullName } from '../assess/pull-readings.ts';
import { formatDate } from '../base/dates.ts';
import { type Quantity, showQuantity } from '../base/quantity.ts';
import { capital } from '../base/words.ts';
import { UNREAD } from '../facts/placed.ts';
import type {
  Defect,
  Drilling,
  GeoPosition,
  Inspection,
  Placed,
  Prescription,
  PullTest,
  Tomogram,
  Tree,
} from '../facts/types.ts';
import { phrase, quantityText, sizeItems } from '../show/words.ts';
import type { ReportData } from './data.ts';
import { ENGLISH, type Speech } from './languages/language.ts';

/** The text with a period at its end. */
export const sentence = (text: string): string => (/[.!?…]$/.test(text) ? text : `${text}.`);

export const treeTitle = ({ tag, name }: Tree): string =>
  name ? `Tree ${tag.value}, ${name.value}` : `Tree ${tag.value}`;

export const speciesOf = ({ species }: Tree): string => species?.value.name ?? 'species not stated';

export const positionWords = ({ latitude, longitude }: GeoPosition): string =>
  `${latitude.toFixed(5)}, ${longitude.toFixed(5)}`;

export function personWords(id: string, { person }: Pick<ReportData, 'person'>): string {
  return person(id)?.name.value ?? id;
}

/** `dbh 41 in, height 52 ft, crown from 14 ft and 58 ft wide, mature, vigor fair`. */
export const sizeWords = (tree: Tree): string => sizeItems(tree, ' and ').join(', ');

/** `Cavity A on North at 18 ft, facing SW`. */
export function defectName({ kind, id, part, height, facing }: Defect): string {
  const where = [...(part ? [`on ${part.value}`] : []), ...phrase(height, value => `at ${value}`)].join(' ');
  const facingWords = facing === undefined ? '' : `, facing ${compassPoint(facing)}`;
  return `${kind.value === UNREAD ? 'Defect whose kind could not be read,' : capital(kind.value)} ${id.value}${where === '' ? '' : ` ${where}`}${facingWords}`;
}

/** The readings at a defect. */
export function defectReadings(defect: Defect): readonly string[] {
  const { opening, runs, share, species, state } = defect;
  const across = defect.across ? ` by ${quantityText(defect.across)}` : '';
  const openingWords = opening
    ? opening.closed
      ? ['closed to the outside']
      : [
          `opening ${[...phrase(opening.width, value => `${value} wide`), ...phrase(opening.tall, value => `${value} tall`)].join(', ')}`,
        ]
    : [];
  return [
    ...(state ? [state.value] : []),
    ...phrase(defect.diameter, value => `diameter there ${value}${across}`),
    ...phrase(defect.bark, value => `bark ${value}`),
    ...openingWords,
    ...phrase(defect.depth, value => (value === 'unseen' ? 'depth not seen' : `depth ${value}`)),
    ...wallWords(defect.walls),
    ...phrase(defect.length, value => `length ${value}`),
    ...phrase(defect.width, value => `width ${value}`),
    ...phrase(
      defect.distance,
      value =>
        `${value} from the bark${defect.toward === undefined ? '' : ` toward ${compassPoint(defect.toward)}`}`,
    ),
    ...(defect.dug ? [`dug ${formatDate(defect.dug.value)}`] : []),
    ...(runs ? [runsWords(runs)] : []),
    ...(share ? [`${showQuantity(share.share.value)} of ${share.of}`] : []),
    ...(species ? [species.value.name] : []),
  ];
}

/** `sound wall 2..4 in at SW, ~5 in at NE`; no item without any. */
const wallWords = (walls: Defect['walls']): readonly string[] =>
  walls.length === 0
    ? []
    : [
        `sound wall ${walls
          .map(
            ({ thickness, bearing }) =>
              `${showQuantity(thickness.value)}${bearing === undefined ? '' : ` at ${compassPoint(bearing)}`}`,
          )
          .join(', ')}`,
      ];

/** `runs through and into the soil`. */
const runsWords = ({ course, soil }: NonNullable<Defect['runs']>): string =>
  `runs ${[...(course ? [course] : []), ...(soil ? ['into the soil'] : [])].join(' and ')}`;

/** `Resistance drilling of A on 2026-03-14 at 4 ft: sound wall 5 in at N; readings within 0.2 in; by Ruth Varga`. */
export function instrumentWords(what: string, instrument: Drilling | Tomogram, data: ReportData): string {
  const { defect, date, height, by, error, walls } = instrument;
  const sounds = 'sounds' in instrument ? instrument.sounds : [];
  const readings = [
    ...wallWords(walls),
    ...(sounds.length > 0
      ? [
          `sound share of the radius ${sounds.map(({ share, bearing }) => `${showQuantity(share.value)} at ${compassPoint(bearing)}`).join(', ')}`,
        ]
      : []),
    ...(error ? [`readings within ${quantityText(error)}`] : []),
    ...(by ? [`by ${personWords(by.value, data)}`] : []),
  ];
  return `${what} of ${defect.value} on ${formatDate(date.value)}${height ? ` at ${quantityText(height)}` : ''}${readings.length > 0 ? `: ${readings.join('; ')}` : ''}`;
}

/** `2026-03-14 from drone, by Ruth Varga`. */
export function inspectionWords({ date, from, by, level, tools }: Inspection, data: ReportData): string {
  return [
    `${formatDate(date.value)}${from.value === UNREAD ? '' : ` from ${from.value}`}`,
    ...(level ? [`${level.value} level`] : []),
    ...(tools.length > 0 ? [`with ${tools.map(({ value }) => value).join(', ')}`] : []),
    ...(by ? [`by ${personWords(by.value, data)}`] : []),
  ].join(', ');
}

/** The readings of a pull test. */
export function pullWords(test: PullTest, data: ReportData): string {
  const { by, inclinations, strains, soil } = test;
  return [
    `${capital(pullName(test).replace('the ', ''))}${by ? `, by ${personWords(by.value, data)}` : ''}`,
    ...phrase(test.force, value => `${value} in the rope`),
    ...phrase(test.ropeHeight, value => `rope at ${value}`),
    ...phrase(test.slope, value => `${value} from horizontal`),
    ...phrase(test.offset, value => `${value} off axis`),
    ...(inclinations.length > 0
      ? [`root plate inclined by ${inclinations.map(({ value }) => showQuantity(value)).join(' and ')}`]
      : []),
    ...strains.map(
      ({ strain, height }) => `strain ${showQuantity(strain.value)} at ${showQuantity(height.value)}`,
    ),
    ...(soil ? [`soil ${soil.value}`] : []),
  ].join('; ');
}

/** What was not seen: as stated by inspections, and readings recorded as unseen. */
export function unseenWords(tree: Tree): readonly string[] {
  const lines = tree.inspections.flatMap(({ date, unseen }) =>
    unseen.map(({ value }) => `${capital(value)} (${formatDate(date.value)}).`),
  );
  const readings = openDefects(tree).flatMap(({ id, kind, ...defect }) => {
    const { depth, diameter, height, length, width } = defect;
    return Object.entries({ depth, diameter, height, length, width }).flatMap(([name, quantity]) =>
      quantity?.value.form === 'unseen' ? [`The ${name} of ${kind.value} ${id.value}.`] : [],
    );
  });
  return [...lines, ...readings];
}

/** The items of a prescription: name and value. */
export function prescriptionItems(
  prescription: Prescription,
  { say, figure, word }: Speech = ENGLISH(),
): readonly (readonly [string, string])[] {
  const { height, spread, base, dose, cutDiameter, laterals, methods, remove, stages, stump, wood } =
    prescription;
  const change = (name: string, value: Prescription['height']) =>
    value ? [[name, say('change', { from: figure(value.from), to: figure(value.to) })] as const] : [];
  const list = (name: string, words: readonly string[]) =>
    words.length > 0 ? [[name, words.join(', ')] as const] : [];
  const names = (values: readonly Placed<string>[]) => values.map(({ value }) => value);
  const one = (name: string, value: string | undefined) =>
    value === undefined ? [] : [[name, value] as const];
  const amount = (quantity: Placed<Quantity> | undefined) => quantity && figure(quantity);
  return [
    ...change(say('Height'), height),
    ...change(say('Spread'), spread),
    ...change(say('Crown base'), base),
    ...prescription.shortened.flatMap(shortened =>
      change(say('shorten', { part: shortened.part.value }), shortened),
    ),
    ...one(say('fixed'), amount(prescription.fixed)),
    ...one(say('rated'), amount(prescription.rated)),
    ...one(say('breaking'), amount(prescription.breaking)),
    ...one(say('dose'), amount(dose)),
    ...one(say('cuts'), cutDiameter && say('cuts up to', { value: figure(cutDiameter) })),
    ...one(say('laterals'), laterals && say('laterals of', { value: figure(laterals) })),
    ...list(
      say('method'),
      methods.map(({ value }) => word(value)),
    ),
    ...list(say('remove'), names(remove)),
    ...list(say('for'), names(prescription.for)),
    ...list(say('alternatives'), names(prescription.alternatives)),
    ...one(say('stages'), amount(stages)),
    ...one(say('hours'), prescription.hours && say('hours of', { value: figure(prescription.hours) })),
    ...list(say('logs'), prescription.logs.map(figure)),
    ...one(
      say('wood'),
      wood && (wood.to ? say('wood to', { where: word(wood.where), place: wood.to }) : word(wood.where)),
    ),
    ...one(
      say('stump'),
      stump && (stump.size ? say(`stump ${stump.what}`, { size: figure(stump.size) }) : say('stump left')),
    ),
    ...one(say('replacement'), replacementWords(prescription, say)),
  ];
}

function replacementWords({ replacement }: Prescription, say: Speech['say']): string | undefined {
  if (!replacement) return undefined;
  const { count, species, text } = replacement;
  if (count === 0) return [say('replacement none'), text].filter(Boolean).join(': ');
  return [String(count), species?.name, text].filter(Boolean).join(' ');
}
