/** What `weigh`, the report and hovers say of limbs, forks, and what holds them. */

import { cablesFor, forceDown, forceUp, strandWords } from '../assess/cable-sizes.ts';
import { type ForkSafety, forkSafety, forksOf } from '../assess/fork-safety.ts';
import { openPrescriptions } from '../assess/jobs.ts';
import { showLimit } from '../assess/judge.ts';
import {
  holdsShortened,
  type LimbSafety,
  limbSafety,
  limbsOf,
  shorteningsOf,
} from '../assess/limb-safety.ts';
import { jobName, openWork } from '../assess/prescriptions.ts';
import type { SignContext } from '../assess/standing.ts';
import {
  inspectionDue,
  installedOn,
  judgedCable,
  lastLookAt,
  serviceEnd,
  supportName,
  supportsInPlace,
} from '../assess/supports.ts';
import { weakWords } from '../assess/weak-words.ts';
import { formatDate } from '../base/dates.ts';
import { shareText } from '../base/figures.ts';
import { exact } from '../base/interval.ts';
import { showQuantity } from '../base/quantity.ts';
import { capital, listed } from '../base/words.ts';
import type { Placed, Prescription, StemOrLimb, Support, Tree } from '../facts/types.ts';
import { momentShortened } from '../mechanics/limbs.ts';
import { aspectCitation } from '../practice/limbs.ts';
import { FORK_FACTOR, forkCitation, inclusionCitation } from '../practice/unions.ts';
import { tellingText } from './figures.ts';
import { NOTHING, type WeighSection } from './weighed.ts';

export const limbSections = (context: SignContext): readonly WeighSection[] => [
  ...limbs(context),
  ...forks(context),
  ...supports(context),
];

/** The gust in the words of the site, by the upper end of what it may be; only the lower end of the factor tells. */
function windText(low: number, { site }: SignContext): string {
  const unit = site!.wind!.speed.value.unit!;
  return `${Math.floor(low / unit.factor)} ${unit.symbol}`;
}

const SHARES = [0.1, 0.2, 0.3];

/** `by 19..27 % at 10 % of its length; …`. */
const gainWords = (): string =>
  `Shortening a limb in leaf lowers the moment at its union: ${SHARES.map(share => `by ${shareText(momentShortened(exact(share)))} at ${share * 100} % of its length`).join('; ')}.`;

function limbs(context: SignContext): readonly WeighSection[] {
  const { tree, site, settings } = context;
  const all = limbsOf(tree, site, settings);
  if (all.length === 0) return [];
  const rows = all.map(([limb, safety]) =>
    typeof safety === 'string'
      ? [limb.name.value, NOTHING, NOTHING, NOTHING, NOTHING]
      : [
          limb.name.value,
          shareText(safety.weight.value),
          safety.ice ? tellingText(safety.ice.value, 2) : NOTHING,
          safety.wind ? tellingText(safety.wind.judged.value, 2) : NOTHING,
          safety.wind ? windText(safety.wind.criticalWind.low, context) : NOTHING,
        ],
  );
  const weight = showLimit({ setting: settings.limit('own-weight-stress') });
  const factor = showLimit({ setting: settings.limit('safety-factor') });
  return [
    {
      heading: `Limbs at their unions: own weight against ${weight}, ice and design wind against ${factor}`,
      head: ['', 'own weight uses', 'with ice', 'design wind', 'gust at yield'],
      rows,
      lines: [
        ...all.flatMap(([limb, safety]) => remarksOn(limb, safety)),
        ...openPrescriptions(tree).flatMap(one => shorteningLines(one, context)),
        gainWords(),
        `Strength: green wood in compression, by the aspect ratio of the limb to its stem (${aspectCitation.short}), times 0.5 to 1.5 for the variation of limbs and unions (judged). Summer limb drop is not included in any figure.`,
      ],
    },
  ];
}

function remarksOn(limb: StemOrLimb, safety: LimbSafety | string): readonly string[] {
  const name = limb.name.value;
  if (typeof safety === 'string') return [`${name} is not judged: ${safety}.`];
  return [
    ...(limb.lean
      ? []
      : [`The angle of ${name} is not recorded: any angle from level to upright is assumed.`]),
    ...(limb.parent
      ? []
      : [`The diameter of its parent is not recorded: ${name} may be as thick as its parent stem.`]),
    ...(safety.wind
      ? []
      : [
          `No wind load on ${name}: it requires the crown and height of the limb and the design wind of the site.`,
        ]),
    ...weakWords(safety.part.weak).map(words => `${name}, weak evidence: ${words}.`),
  ];
}

/** What the union of a stem or limb bears, in sentences. */
export function partLines(part: StemOrLimb, context: SignContext): readonly string[] {
  const { tree, site, settings } = context;
  const safety = part.kind === 'limb' ? limbSafety(part, tree, site, settings) : undefined;
  const forks = forksOf(tree).filter(stems => stems.includes(part));
  return [
    ...(safety === undefined
      ? []
      : typeof safety === 'string'
        ? [`Not judged: ${safety}.`]
        : [
            `Its own weight uses ${shareText(safety.weight.value)} of its strength at the union.`,
            ...(safety.ice
              ? [`With ice it carries ${tellingText(safety.ice.value, 2)} times its load.`]
              : []),
            ...(safety.wind
              ? [`It carries ${tellingText(safety.wind.judged.value, 2)} times the design wind.`]
              : []),
            gainWords(),
          ]),
    ...forks.flatMap(([one, other]) => {
      const fork = forkSafety(one, other, tree, site, settings);
      return typeof fork === 'string'
        ? [`The fork is not judged: ${fork}.`]
        : [
            `The fork carries ${tellingText(fork.judged.value, 2)} times the load of the design wind.`,
            ...cablesFor([part.name.value], context).map(words => `${capital(words)}.`),
          ];
    }),
  ];
}

/** `R1 shortens L2 from 22 ft to 18 ft, 18.2 % of its length: 33..46 % off the moment at its union, …`. */
export const shorteningLines = (
  prescription: Prescription,
  { tree, site, settings }: SignContext,
): readonly string[] =>
  shorteningsOf(prescription, settings).map(one => {
    const limb = tree.parts.find(({ name }) => name.value === one.part);
    const safety = limb?.kind === 'limb' ? limbSafety(limb, tree, site, settings) : undefined;
    const brings =
      safety === undefined || typeof safety === 'string'
        ? ''
        : holdsShortened(safety, one, settings)
          ? ', which brings it within its limits'
          : ', which may not bring it within its limits';
    return `${capital(jobName(prescription))} shortens ${one.part} from ${showQuantity(one.from.value)} to ${showQuantity(one.to.value)}: ${shareText(one.gain)} off the moment at its union${brings}.`;
  });

const INCLUSIONS: Readonly<Record<ForkSafety['inclusion'], string>> = {
  none: 'no included bark',
  unstated: 'included bark, its type not recorded',
  occluded: 'occluded included bark',
  'at the apex': 'included bark at the apex',
};

function forks(context: SignContext): readonly WeighSection[] {
  const { tree, site, settings } = context;
  const all = forksOf(tree).map(
    ([one, other]) => [[one, other], forkSafety(one, other, tree, site, settings)] as const,
  );
  if (all.length === 0) return [];
  const name = (stems: readonly StemOrLimb[]) => listed(stems.map(stem => stem.name.value));
  const rows = all.map(([stems, fork]) =>
    typeof fork === 'string'
      ? [name(stems), NOTHING, NOTHING]
      : [name(stems), tellingText(fork.judged.value, 2), windText(fork.criticalWind.low, context)],
  );
  const limit = showLimit({ setting: settings.limit('safety-factor') });
  const isIncluded = all.some(([, fork]) => typeof fork !== 'string' && fork.inclusion !== 'none');
  return [
    {
      heading: `Forks in the design wind, against ${limit}`,
      head: ['', 'factor', 'gust at failure'],
      rows,
      lines: [
        ...all.flatMap(([stems, fork]) => [
          ...(typeof fork === 'string'
            ? [`${name(stems)}: not judged: ${fork}.`]
            : [
                `${name(stems)}: ${INCLUSIONS[fork.inclusion]}.`,
                ...(fork.unshared.length > 0
                  ? [`${listed(fork.unshared)} may carry any share of the crown: record a crown for each.`]
                  : []),
                ...weakWords(fork.part.weak).map(words => `Weak evidence: ${words}.`),
              ]),
        ]),
        ...cablesFor(
          all.flatMap(([stems]) => stems.map(stem => stem.name.value)),
          context,
        ).map(words => `${capital(words)}.`),
        `A fork has ${FORK_FACTOR.low.toFixed(2)} to ${FORK_FACTOR.high.toFixed(2)} of the bending strength of its thinner stem in clear wood (${forkCitation.short}, from memory)${isIncluded ? `, reduced by the type of included bark (${inclusionCitation.short}, grouped by judgment)` : ''}. A cable limits extreme movement only. Sizes of braces, bolts and lags are not given.`,
      ],
    },
  ];
}

/** What a support in place has to carry and how it is kept, in sentences without its name. */
export function supportLines(support: Support, context: SignContext): readonly string[] {
  const { tree, settings } = context;
  const last = lastLookAt(support, Number.POSITIVE_INFINITY);
  const due = inspectionDue(support, settings, Number.POSITIVE_INFINITY);
  const end = serviceEnd(support, settings);
  const installed = installedOn(support);
  return [
    installed
      ? `installed ${formatDate(installed.value)}, in service until ${formatDate(end!)}`
      : 'the date of its installation is not recorded',
    last === undefined
      ? 'no inspection of it is on record'
      : `last inspected ${formatDate(last)}, due again by ${formatDate(due!)}`,
    ...carriesWords(support, support.holds, tree, context),
  ];
}

/** Of a cable in place or prescribed. */
export function carriesWords(
  cable: Support | Prescription,
  names: readonly Placed<string>[],
  tree: Tree,
  { site, settings }: SignContext,
): readonly string[] {
  if (cable.kind.value !== 'cable')
    return ['its load is not judged: no figures are known for braces, props and guys'];
  const judged = judgedCable(cable, names, tree, site, settings);
  if (!judged)
    return [
      `its load is not judged: ${names.length === 0 ? 'the parts it holds are not recorded' : 'it holds no pair of stems with a union on record'}`,
    ];
  const { load, rated, height, standing } = judged;
  if (typeof load === 'string') return [`its load is not judged: ${load}`];
  const { low, high } = load.needed;
  return [
    `required working load ${low > 0 ? `${forceUp(low, tree)} to ` : 'up to '}${forceUp(high, tree)}, or ${forceUp(load.fullRelief.high, tree)} if the fork carried nothing`,
    rated
      ? `rated working load ${forceDown(rated.low, tree)}: ${standing === 'within' ? 'enough' : standing === 'exceeds' ? 'too little' : 'perhaps too little'}`
      : `its rated working load is not recorded; required: ${strandWords(load, tree)}`,
    height
      ? `at ${shareText(height.value)} of the length above the fork (${showLimit(height)})`
      : 'its height is not recorded: two thirds of the length is assumed',
  ];
}

function supports(context: SignContext): readonly WeighSection[] {
  const { tree } = context;
  const held = supportsInPlace(tree);
  const planned = openWork(tree).filter(({ kind }) => kind.value === 'cable');
  if (held.length + planned.length === 0) return [];
  return [
    {
      heading: 'Supports, installed and prescribed',
      lines: [
        ...held.map(one => `${capital(supportName(one))}: ${supportLines(one, context).join('; ')}.`),
        ...planned.map(
          one =>
            `${capital(jobName(one))}, prescribed: ${carriesWords(one, one.for, tree, context).join('; ')}.`,
        ),
      ],
    },
  ];
}
