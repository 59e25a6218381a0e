/** The first section of `weigh`: each part with its standing, its figures and what they say of its likelihood of failure. */

import { ifThens, screenBands } from '../assess/if-then.ts';
import {
  type PartLikelihood,
  type RatedLikelihood,
  rangeWords,
  ratedLikelihoods,
  treeLikelihood,
  treeWords,
} from '../assess/likelihood.ts';
import { targetsInReach } from '../assess/reach.ts';
import { riskName } from '../assess/risks.ts';
import { designWind } from '../assess/site-wind.ts';
import type { SignContext } from '../assess/standing.ts';
import { weakWords } from '../assess/weak-words.ts';
import { formatDate } from '../base/dates.ts';
import { capital, counted, listed } from '../base/words.ts';
import type { Risk } from '../facts/types.ts';
import { tellingText } from './figures.ts';
import { sanitizeLine } from './sanitize.ts';
import { NOTHING, type Weighed, type WeighSection } from './weighed.ts';
import { quantityText } from './words.ts';

const PARTS_HEADING = 'Parts of the tree and their verdicts, worst first';

export function partSections({
  tree,
  site,
  settings,
  assessment: { signs },
}: Weighed): readonly WeighSection[] {
  const context = { tree, site, settings };
  const found = treeLikelihood(context);
  if (!found)
    return [
      {
        heading: 'Parts of the tree and their verdicts',
        lines: ['There is no evidence of its safety on record: nothing was judged.'],
      },
    ];
  const { parts } = found;
  const hasFigures = parts.some(({ safety }) => safety?.factor || safety?.criticalWind);
  const rows = parts.map(one => [
    one.part,
    one.name,
    one.isRecorded ? one.standing : 'no record',
    ...(hasFigures ? [factorText(one), limitWind(one, context)] : []),
    likelihoodText(one),
  ]);
  const count = signs.filter(({ standing }) => standing === 'not judged').length;
  const head = ['part', 'sign', 'verdict', ...(hasFigures ? ['factor', 'gust at limit'] : []), 'likelihood'];
  return [
    {
      heading: PARTS_HEADING,
      head,
      rows,
      lines: [
        ...signs.map(({ name, why }) => `${capital(name)}: ${why}.`),
        ...(count > 0
          ? [`${counted(count, 'sign is', 'signs are')} not judged. Not judged does not mean safe.`]
          : []),
      ],
    },
    {
      heading: `Likelihood of failure of the tree: ${treeWords(found)}`,
      lines: [
        ...parts
          .filter(({ range, standing }) => range || standing !== 'within')
          .map(
            ({ name, range, because }) =>
              `${capital(name)}, ${range ? rangeWords(range) : 'no likelihood'}: ${because}.`,
          ),
        ...ratedLines(context),
        impactLine(context),
        ...weakLines(parts),
      ],
    },
  ];
}

export const likelihoodText = ({ range, standing }: PartLikelihood): string =>
  range ? rangeWords(range) : standing === 'within' ? NOTHING : 'not judged';

const factorText = ({ safety }: PartLikelihood): string =>
  safety?.factor ? tellingText(safety.factor, 2) : NOTHING;

/** The lower end of the gust at its limit, in the words of the site. */
function limitWind({ safety }: PartLikelihood, { tree, site, settings }: SignContext): string {
  const unit = site?.wind?.speed.value.unit;
  const wind = designWind(tree, site, settings);
  if (!safety?.criticalWind || !unit || !wind) return NOTHING;
  const stated = Math.floor(safety.criticalWind.low / wind.overStated / unit.factor);
  return stated > 0 ? `${stated} ${unit.symbol}` : 'not known';
}

/** What a person rated, beside what the figures allow. */
export const ratedLines = (context: SignContext): readonly string[] =>
  ratedLikelihoods(context).map(({ risk, rated, range, isLower, rating }) => {
    const beside = range
      ? `the figures and codes allow ${rangeWords(range)}`
      : 'no figure or code is available for comparison';
    const reason = risk.because ? `; reason given: ${sanitizeLine(risk.because.value)}` : '';
    return `A person rated failure ${rated} in ${riskName(risk)}; ${beside}${isLower ? (risk.because ? reason : ', and no reason is given for the lower rating') : reason}.${rating ? ` ${ratingText(risk, rating)}` : ''}`;
  });

function ratingText({ impact, consequences }: Risk, { least, most }: NonNullable<RatedLikelihood['rating']>) {
  const words = most === undefined ? `${least} or more` : least === most ? least : `${least} to ${most}`;
  return `With the rated ${impact!.value} likelihood of impact and ${consequences!.value} consequences, the figures give ${words}.`;
}

/** Impact and consequences are left to a person, with what is on record to rate them by. */
function impactLine({ tree, settings }: SignContext): string {
  const near = targetsInReach(tree, settings);
  const targets = tree.targets.map(target => {
    const { name, distance, occupied, kind, closed } = target;
    const says = [
      distance ? `${quantityText(distance)} away` : 'distance not recorded',
      ...(near.includes(target) ? [] : ['out of reach']),
      occupied ? `occupied ${occupied.value}` : 'occupancy not recorded',
      ...(kind ? [kind.value] : []),
      ...(closed ? [`closed from ${formatDate(closed.from)}`] : []),
    ];
    return `"${sanitizeLine(name.value)}" (${says.join(', ')})`;
  });
  return `Likelihood of impact and consequences are not computed. A person rates them by the occupancy of the target, its protection and the size of the part. ${targets.length > 0 ? `On record: ${listed(targets)}.` : 'No target is on record.'}`;
}

/** Estimates on weak ground that the figures of the parts rest on. */
function weakLines(parts: readonly PartLikelihood[]): readonly string[] {
  const weak = new Set(parts.flatMap(({ safety }) => safety?.weak ?? []));
  return weakWords([...weak]).map(words => `Weak evidence: ${words}.`);
}

/** By the reading that is still to be taken. */
export function ifThenSections({ tree, site, settings }: Weighed): readonly WeighSection[] {
  const hollows = ifThens(tree, site, settings).map(({ defect, what, rows }) => ({
    heading: `${defect.id.value} by its ${what}: the action required, for this hollow alone`,
    head: ['if', 'then'],
    rows: rows.map(({ reading, action }) => [reading, action]),
    lines: ['From the outline of the crown; offsets the loss at this hollow alone.'],
  }));
  const bands = screenBands(tree, settings);
  return [
    ...hollows,
    ...(bands.length > 0
      ? [
          {
            heading: 'Foliage that the screens need',
            lines: bands.map(({ name, words }) => `"${sanitizeLine(name)}": ${words}.`),
          },
        ]
      : []),
  ];
}
