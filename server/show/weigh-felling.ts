/** What `weigh` and the report say of pieces lowered on a rope, and of logs for a mill. */

import { showLimit } from '../assess/judge.ts';
import type { Mill, MillLog } from '../assess/mill.ts';
import { jobName, lengthLike } from '../assess/prescriptions.ts';
import { forceText, type RiggedElement, type Rigging } from '../assess/rigging.ts';
import { weakWords } from '../assess/weak-words.ts';
import { numberText } from '../base/figures.ts';
import type { Interval } from '../base/interval.ts';
import { METRES_PER_INCH } from '../base/quantity.ts';
import { capital, listed } from '../base/words.ts';
import type { Tree } from '../facts/types.ts';
import { LOG_RULES } from '../mechanics/timber.ts';
import { massText, type Units, unitsOf, volumeText } from './figures.ts';
import { NOTHING, type Weighed, type WeighSection } from './weighed.ts';

export const fellingSections = (weighed: Weighed): readonly WeighSection[] => [
  ...weighed.assessment.riggings.map(rigging => riggingSection(rigging, weighed.tree)),
  ...millSections(weighed),
];

/** `caught: 480..580 kg, 6.2..21.3 kN on the rope`. */
export function riggingWords({ prescription, mass, peak, unit }: Rigging, tree: Tree): string {
  const how = prescription.rigged!.how;
  if (!mass) return `${how}; the mass of the piece is not known`;
  const pull = Number.isFinite(peak.high)
    ? forceText(peak, unit)
    : `${forceText({ low: peak.low, high: peak.low }, unit)} or more`;
  return `${how}: ${massText(mass, unitsOf(tree))}, ${pull} on the rope`;
}

/** `rope exceeds (1.9..6.4 times the force, the limit of 10 (common practice))`. */
export function elementText({ name, standing, judged, missing }: RiggedElement): string {
  const figure = judged && `${numberText(judged.value, 1)} times the force, ${showLimit(judged)}`;
  const lacks = missing.length > 0 ? `without ${listed(missing)}` : undefined;
  return `${name} ${standing} (${[figure, lacks].filter(Boolean).join('; ')})`;
}

const BY = {
  caught: 'Peak force from the energy of the fall; as little as a third of it in drop tests.',
  'let run': 'Peak force between the weight of the piece and twice that, as for a suddenly applied load.',
} as const;

function riggingSection(rigging: Rigging, tree: Tree): WeighSection {
  const { prescription, elements, peak, atBlock, unit } = rigging;
  const rows = elements.map(({ name, judged, standing }) => [
    name,
    Number.isFinite(peak.high)
      ? forceText(name === 'rope' || name === 'spar' ? peak : atBlock, unit)
      : NOTHING,
    judged ? numberText(judged.value, 1) : NOTHING,
    standing,
  ]);
  const weak = [...new Set(elements.flatMap(one => one.weak))];
  return {
    heading: `Rigging under ${jobName(prescription)}, ${riggingWords(rigging, tree)}`,
    head: ['', 'peak force', 'strength / peak force', 'verdict'],
    rows,
    lines: [
      ...elements.flatMap(({ name, judged, where }) =>
        judged
          ? [`${capital(name)}: checked against ${showLimit(judged)}${where ? `, weakest ${where}` : ''}.`]
          : [],
      ),
      ...elements
        .filter(({ missing }) => missing.length > 0)
        .map(({ name, missing }) => `${capital(name)}: no figure without ${listed(missing)}.`),
      ...weakWords(weak).map(words => `${capital(words)}.`),
      `${BY[prescription.rigged!.how]} Knots and working loads are common practice, from memory. The rigger on site decides.`,
    ],
  };
}

/** Inches or centimeters, of wood under the bark. */
const thick = ({ low, high }: Interval, units: Units): string =>
  units === 'imperial'
    ? `${numberText({ low: low / METRES_PER_INCH, high: high / METRES_PER_INCH }, 0)} in`
    : `${numberText({ low: low * 100, high: high * 100 }, 0)} cm`;

/** A row for each log. */
export function millTable(
  { logs }: Mill,
  tree: Tree,
): { readonly head: readonly string[]; readonly rows: readonly (readonly string[])[] } {
  const units = unitsOf(tree);
  // Log rules are of places that measure in feet.
  const rules = units === 'imperial' ? LOG_RULES : [];
  const off = ({ off: names, isLengthAssumed, notJudged }: MillLog): string => {
    if (notJudged) return 'not judged';
    return names.length > 0 ? `${names.join(', ')}${isLengthAssumed ? ', length assumed' : ''}` : NOTHING;
  };
  return {
    head: [
      'log',
      'small end',
      'volume',
      ...rules.map(rule => (rule === 'International 1/4-inch' ? 'International ¼' : rule)),
      'deductions',
    ],
    rows: logs.map(log => [
      `${log.number}, ${lengthLike(log.length, tree.height?.value)}`,
      thick(log.smallEnd, units),
      log.volume ? volumeText(log.volume, units) : NOTHING,
      ...rules.map(rule => (log.boards ? numberText(log.boards[rule], 0) : NOTHING)),
      off(log),
    ]),
  };
}

/** What holds for all logs, in sentences. */
export const millLines = ({ logs, first, form, areLengthsStated, units }: Mill): readonly string[] => [
  ...(first === undefined || logs.length < 2
    ? []
    : [`Log ${first}, counted from the butt, has the highest minimum yield, so it comes first.`]),
  ...logs.flatMap(({ number, notJudged }) =>
    notJudged ? [`Log ${number} is not judged: ${notJudged}.`] : [],
  ),
  `Diameters ${form}, inside bark; ${areLengthsStated ? 'lengths as prescribed' : `logs of ${units === 'imperial' ? 'the customary 16 ft' : '4.9 m'} up to the crown`}, above a stump of ${units === 'imperial' ? '1 ft. Log rules in board feet' : '0.3 m'}. Rot is deducted by share or squared out (rules from memory); if its length was not measured, from half of the log up to all of it. A scaler at the mill decides.`,
];

function millSections({ tree, assessment: { mill } }: Weighed): readonly WeighSection[] {
  if (mill === undefined) return [];
  const heading = 'Millable volume, net of rot';
  return typeof mill === 'string'
    ? [{ heading, lines: [`Not judged: ${mill}.`] }]
    : [{ heading, ...millTable(mill, tree), lines: millLines(mill) }];
}
