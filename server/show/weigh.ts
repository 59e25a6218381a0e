/** The output of `weigh` for people: the readings, the options side by side, and what remains to be decided. */

import type { Assessment } from '../assess/assessment.ts';
import { isDosed } from '../assess/doses.ts';
import { showLimit } from '../assess/judge.ts';
import { LEAST_EFFECT } from '../assess/load.ts';
import type { Option } from '../assess/options.ts';
import type { PartSafety } from '../assess/part-safety.ts';
import { jobName } from '../assess/prescriptions.ts';
import type { HollowSafety, StemSafety } from '../assess/safety.ts';
import { isRing, weakestAlong } from '../assess/section-words.ts';
import type { DefectStrength } from '../assess/strength.ts';
import { weakWords } from '../assess/weak-words.ts';
import type { Interval } from '../base/interval.ts';
import { showQuantity } from '../base/quantity.ts';
import { capital, counted } from '../base/words.ts';
import type { Settings } from '../facts/settings.ts';
import type { Site, Tree } from '../facts/types.ts';
import { weakGroundWords } from '../practice/weak-ground.ts';
import {
  lossText,
  massText,
  numberText,
  ratioText,
  seasonsText,
  shareText,
  tellingText,
  type Units,
  volumeText,
} from './figures.ts';
import { columns, wrap } from './layout.ts';
import { sanitizeForLog, sanitizeLine } from './sanitize.ts';
import type { Paint } from './terminal.ts';
import { quantityText, sizeItems } from './words.ts';

export interface Weighed {
  readonly tree: Tree;
  /** Path as shown to the reader. */
  readonly file: string;
  readonly site?: Site | undefined;
  readonly settings: Settings;
  readonly assessment: Assessment;
  /** Present if species and design wind are known. */
  readonly safety?: StemSafety | undefined;
}

export const WEIGH_CAUTION =
  'Each figure compares a tree with itself, sound and under its full crown, over all that the readings allow; none certifies it. Crowns count as ellipses of closed foliage, and what nobody saw or judged is in no figure. Likelihood and consequences of failure are not weighed here. A qualified person on site decides.';

const NOTHING = '–';

/** Whether there is anything to show: a sign, a view, or dimensions of an open prescription. */
export const isWeighable = ({ signs, views, loads }: Assessment): boolean =>
  signs.length > 0 || views.length > 0 || loads.length > 0;

/** All trees, followed by the caution. */
export function showWeighed(trees: readonly Weighed[], paint: Paint): string {
  const parts = trees.map(weighed => showTree(weighed, paint));
  return `${[...parts, wrap(WEIGH_CAUTION, 0)].join('\n')}\n`;
}

function showTree(weighed: Weighed, paint: Paint): string {
  const { title, about, size, sections } = describeWeighed(weighed);
  const cells = (row: readonly string[]) => row.map(sanitizeForLog);
  const head = `${paint('bold', sanitizeForLog(title))}${sanitizeForLog(about)}\n${wrap(sanitizeForLog(size), 2)}\n`;
  const bodies = sections.map(
    ({ heading, head, rows, lines = [] }) =>
      `${paint('bold', wrap(sanitizeForLog(heading), 2, 4))}\n${columns([...(head ? [head] : []), ...(rows ?? [])].map(cells), 4)}` +
      lines.map(line => `${wrap(sanitizeForLog(line), 4, 6)}\n`).join(''),
  );
  return [head, ...bodies].join('\n');
}

/** A table, with a head if its columns have names, then paragraphs. */
export interface WeighSection {
  readonly heading: string;
  readonly head?: readonly string[];
  readonly rows?: readonly (readonly string[])[];
  readonly lines?: readonly string[];
}

/** The content for a tree, independent of layout. */
export function describeWeighed(weighed: Weighed): {
  readonly title: string;
  /** Species and file. */
  readonly about: string;
  readonly size: string;
  readonly sections: readonly WeighSection[];
} {
  const { tree, file } = weighed;
  const name = tree.name ? ` "${tree.name.value}"` : '';
  const species = tree.species ? `, ${tree.species.value.name}` : '';
  return {
    title: `Tree ${tree.tag.value}${name}`,
    about: `${species} (${sanitizeLine(file)})`,
    size: `${sizeItems(tree, ', ').join('; ')}.`,
    sections: [
      ...partsOf(weighed),
      ...sectionsOf(weighed),
      ...safetyOf(weighed),
      ...leanOf(weighed),
      ...prescriptionsOf(weighed),
      ...optionsOf(weighed),
      ...viewsOf(weighed),
      ...decisionsOf(weighed),
    ],
  };
}

const placeOf = ({ hollow: { defect } }: DefectStrength): string => {
  const { id, kind, height, part } = defect;
  const where = [part && part.value !== 'trunk' ? part.value : undefined, quantityText(height)].filter(
    Boolean,
  );
  return `${id.value} ${kind.value}${where.length > 0 ? `, ${where.join(' ')}` : ''}`;
};

/** The signs of each part of the tree, most severe first. */
function partsOf({ assessment: { signs } }: Weighed): readonly WeighSection[] {
  if (signs.length === 0)
    return [
      {
        heading: 'The parts and how they stand',
        lines: ['Nothing on record says anything about its safety: nothing was judged.'],
      },
    ];
  const rows = signs.map(({ part, name, standing }) => [part, name, standing]);
  const count = signs.filter(({ standing }) => standing === 'not judged').length;
  const lines = [
    ...signs.map(({ name, why }) => `${capital(name)}: ${why}.`),
    ...(count > 0 ? [`${counted(count, 'sign is', 'signs are')} not judged: that is no pass.`] : []),
  ];
  return [{ heading: 'The parts and how they stand', head: ['part', 'sign', 'standing'], rows, lines }];
}

function sectionsOf({ assessment: { strength }, settings }: Weighed): readonly WeighSection[] {
  if (strength.defects.length === 0) return [];
  const limit = showLimit({ setting: settings.limit('section-loss') });
  const cubic = showLimit({ setting: settings.limit('strength-loss') });
  const rows = strength.defects.map(defect => {
    const { figures, hollow } = defect;
    const { wallRatio, cubic, quartic, withOpening } = hollow.thumbs;
    return [
      placeOf(defect),
      lossText(figures.strengthLoss),
      isRing(hollow) ? NOTHING : weakestAlong(defect),
      wallRatio.applies ? ratioText(wallRatio.value) : NOTHING,
      lossText(cubic.value),
      lossText(quartic.value),
      lossText(withOpening.value),
    ];
  });
  const groups = strength.groups.flatMap(({ joined, figures }) => {
    const ids = joined.defects.map(({ value }) => value).join(', ');
    return [
      ...(joined.state.value === 'suspected' ? [[`${ids} apart`, lossText(figures.apart)]] : []),
      [`${ids} joined (${joined.state.value})`, lossText(figures.joined)],
    ];
  });
  const head = ['', 'by section', 'weakest along', 't/R', 'd³/D³', 'd⁴/D⁴', 'with opening'];
  return [
    {
      heading: `Loss of bending strength: by section against ${limit}, by d³/D³ against ${cubic}`,
      head,
      rows: [...rows, ...groups],
    },
  ];
}

/** `3-second gust of 92 mph, exposure B`; also which hill and which factor count. */
function windText({ site, tree }: Weighed): string {
  const { speed, exposure, averaging = 'gust' } = site!.wind!;
  const hill = tree.hill ?? site!.hill;
  const factor = tree.windFactor ?? site!.windFactor;
  return [
    `${averaging === 'gust' ? '3-second gust' : averaging} of ${showQuantity(speed.value)}`,
    exposure ? `exposure ${exposure}` : 'exposure not stated',
    ...(hill?.shape ? [`over the ${hill.shape}`] : []),
    ...(factor ? [`times ${showQuantity(factor.factor.value)} (${sanitizeLine(factor.because)})`] : []),
  ].join(', ');
}

/** The speed at which a section comes to its limit, in the words of the site. Only the lower end is informative. */
const yieldsFrom = ({ site }: Weighed, { low }: Interval, overStated: number): string => {
  const unit = site!.wind!.speed.value.unit!;
  return `${Math.floor(low / overStated / unit.factor)} ${unit.symbol}`;
};

/** Empty for a species of unknown wood: no other species is substituted. */
function safetyOf(weighed: Weighed): readonly WeighSection[] {
  const { safety, settings } = weighed;
  if (!safety) return [];
  const { strength, drag, hollows, wind } = safety;
  const leans = hollows.some(({ against }) => against);
  const rows = hollows.map(({ defect, judged, against, sound, criticalWind, standing }) => [
    placeOf(defect),
    tellingText(judged.value, 2),
    ...(leans ? [against ? tellingText(against, 2) : NOTHING] : []),
    tellingText(sound, 2),
    yieldsFrom(weighed, criticalWind, wind.overStated),
    standing,
  ]);
  const pascals = ({ low, high }: Interval) => numberText({ low: low / 1e6, high: high / 1e6 }, 1);
  const woods = strength.woods.map(({ common, status }) => `${common}, ${status}`).join('; ');
  const lines = [
    `Times the moment at which the outermost wood is first crushed: green wood in compression, ${pascals(strength.compression)} MPa by the ${strength.citation.short} (${woods || 'from the density of its wood, from memory'}), as one tree differs from the next. Drag ${ratioText(drag)}, usually ${drag.usual} (${drag.citation.short} and design values, judged). No standing tree is made of clear wood: this comes after the stress ratios below, and no reading of it certifies.`,
    ...hollows.flatMap(hollow => remarksOn(hollow)),
    ...weakLines(safety.parts),
    ...(safety.sizes === 'fit' ? [] : [SIZES[safety.sizes]]),
  ];
  const limit = showLimit({ setting: settings.limit('safety-factor') });
  const direction = leans ? ['with the hollow, toward the lean', 'from ahead of it'] : ['with the hollow'];
  return [
    {
      heading: `What the stem bears of a ${windText(weighed)}, under the full crown in leaf, against ${limit}`,
      head: ['', ...direction, 'without it', 'yields from', 'standing'],
      rows,
      lines,
    },
  ];
}

/** A sound stem under its own weight. */
function leanOf(weighed: Weighed): readonly WeighSection[] {
  const { lean } = weighed.assessment;
  if (lean === undefined) return [];
  const heading = 'What the weight of the leaning tree does to its stem, taken as sound, at the base';
  if (typeof lean === 'string') return [{ heading, lines: [`No figure: ${lean}.`] }];
  const { weight, wind, part } = lean;
  const rows = [
    ['its weight alone, of the strength', shareText(weight.value), showLimit(weight), weight.standing],
    ...(wind
      ? [
          [
            'times the design wind, toward the lean',
            tellingText(wind.judged.value, 2),
            showLimit(wind.judged),
            wind.standing,
          ],
          ['times the design wind, from ahead of it', tellingText(wind.against, 2), NOTHING, NOTHING],
        ]
      : []),
  ];
  const overStated = weighed.assessment.wind?.overStated ?? 1;
  const lines = [
    ...(wind
      ? [
          `In a ${windText(weighed)}; toward the lean it yields from ${yieldsFrom(weighed, wind.criticalWind, overStated)}. A factor that is uncertain upright, too, is no fault of the lean.`,
        ]
      : ['No design wind of the site is on record.']),
    'Nothing here speaks for the roots, and no figure makes a lean that is new or increasing safe.',
    ...weakLines([part]),
  ];
  return [{ heading, head: ['', '', 'limit', 'standing'], rows, lines }];
}

/** What the verdicts rest on that no study supports well. */
const weakLines = (parts: readonly PartSafety[]): readonly string[] =>
  weakWords([...new Set(parts.flatMap(({ weak }) => weak))]).map(words => `On weak ground: ${words}.`);

const SIZES = {
  'too slender':
    'Even sound, this stem would yield in a gust that trees stand: check height, diameter and crown.',
  'too stout':
    'Sound, this stem would stand gusts in which the soundest trees break: check height, diameter and crown.',
} as const;

function remarksOn({ defect, breakingAtMost, leafless, maySplit, doubt }: HollowSafety): readonly string[] {
  const id = defect.hollow.defect.id.value;
  return [
    ...(doubt ? [`${id} is not judged: ${doubt}.`] : []),
    ...(maySplit ? [`${id}: a shell this thin may split before it bends; its factor is an upper end.`] : []),
    ...(leafless
      ? [
          `${id} bears ${tellingText(leafless, 2)} times the same wind without leaves (${weakGroundWords('leafless drag')}); the verdict is that in leaf.`,
        ]
      : []),
    ...(Number.isFinite(breakingAtMost)
      ? [
          `${id} breaks at ${numberText({ low: breakingAtMost, high: breakingAtMost }, 1)} times at the most, by the bending strength of clear wood: nothing to rely on.`,
        ]
      : []),
  ];
}

function prescriptionsOf({ assessment: { loads } }: Weighed): readonly WeighSection[] {
  return loads.map(({ prescription, momentRatio, momentAtLeastEffect, dose, sections }) => {
    const { height, spread, base } = prescription;
    const changes = Object.entries({ height, spread, 'crown base': base }).flatMap(([what, change]) =>
      change ? [`${what} ${quantityText(change.from)} to ${quantityText(change.to)}`] : [],
    );
    const stated = prescription.dose ? `; stated ${quantityText(prescription.dose)}` : '';
    const rows = [
      ['at the ground', shareText(momentRatio), NOTHING, NOTHING],
      ...sections.map(({ defect, momentRatio: moment, stressRatio, stressAtLeastEffect }) => [
        placeOf(defect),
        shareText(moment),
        ratioText(stressRatio),
        ratioText(stressAtLeastEffect),
      ]),
    ];
    return {
      heading: `Under ${jobName(prescription)}: ${changes.join(', ')}`,
      head: ['', 'bending moment', 'stress ratio', 'at half the effect'],
      rows,
      lines: [
        `By the outline of the crown, cut where the dimensions say. If the cut does half of that, ${shareText(momentAtLeastEffect)} of the moment is left at the ground. ${LEAST_EFFECT}`,
        ...(isDosed(prescription)
          ? [`Foliage taken, by these dimensions: ${shareText(dose)}${stated}.`]
          : []),
      ],
    };
  });
}

function optionsOf({ assessment: { options } }: Weighed): readonly WeighSection[] {
  if (options.length === 0) return [];
  const lines = options.map(({ option, because }) => `${capital(option)}: ${because.join(' ')}`);
  // No columns of dashes.
  const hasFigures = options.some(({ stressRatio, dose }) => stressRatio || dose);
  const rows = options.map(({ option, support, stressRatio, dose, seasons }) => [
    option,
    support,
    ...(hasFigures
      ? [
          stressRatio ? ratioText(stressRatio) : NOTHING,
          dose ? shareText(dose) : NOTHING,
          seasons ? seasonsText(seasons) : NOTHING,
        ]
      : []),
  ]);
  const head = ['', 'the figures say', ...(hasFigures ? ['stress ratio', 'foliage taken', 'seasons'] : [])];
  const heading = hasFigures
    ? 'What is open (stress ratio 1.00: the sound stem under the full crown)'
    : 'What is open';
  return [{ heading, head, rows, lines }];
}

function viewsOf({ assessment: { views, options, prescription } }: Weighed): readonly WeighSection[] {
  if (views.length === 0) return [];
  const under = (option: Option['option'], name: string): string => {
    const hidden = options.find(one => one.option === option)?.views.find(view => view.name === name)?.hidden;
    return hidden ? shareText(hidden) : NOTHING;
  };
  const reduces = options.some(({ option, views }) => option === 'reduce in one season' && views.length > 0);
  const rows = views.map(({ view, wish, before, after }) => [
    `"${view.name.value}", to ${wish}`,
    shareText(before),
    ...(prescription ? [after ? shareText(after) : NOTHING] : []),
    ...(reduces ? [under('reduce in one season', view.name.value)] : []),
    under('fell', view.name.value),
  ]);
  const head = [
    '',
    'now',
    ...(prescription ? [jobName(prescription)] : []),
    ...(reduces ? ['reduced to offset'] : []),
    'felled',
  ];
  return [{ heading: 'Share of each view that the crown hides', head, rows }];
}

/** What law and surroundings still require, and questions that no figure answers. */
function decisionsOf({ tree, assessment: { options, strength } }: Weighed): readonly WeighSection[] {
  if (options.length === 0) return [];
  const asksOf = (name: Option['option']) => options.find(({ option }) => option === name)?.asks ?? [];
  const ofCuts = asksOf('fell');
  const lines = [
    ...ofCuts.map(ask => `Before any cut: ${ask}.`),
    ...asksOf('reduce in one season')
      .filter(ask => !ofCuts.includes(ask))
      .map(ask => `If it is pruned: ${ask}.`),
    ...asksOf('leave and watch').map(ask => `If it stays: ${ask}.`),
    ...asksOf('investigate first').map(ask => `${capital(ask)}.`),
    ...salvageLines(tree, options),
  ];
  return [
    { heading: 'What law, season and surroundings still ask for', lines },
    { heading: 'For the person on site to decide', lines: questionsOf(tree, strength) },
  ];
}

const unitsOf = ({ diameters, height }: Tree): Units =>
  [...diameters, ...(height ? [height] : [])].some(({ value: { unit } }) =>
    ['in', 'ft'].includes(unit?.symbol ?? ''),
  )
    ? 'imperial'
    : 'metric';

function salvageLines(tree: Tree, options: readonly Option[]): readonly string[] {
  const salvage = options.find(({ option }) => option === 'fell')?.salvage;
  if (!salvage) return [];
  const units = unitsOf(tree);
  const { volume, mass } = salvage;
  const weight = mass
    ? `, ${massText(mass, units)} green`
    : tree.species
      ? `; no density is known for ${tree.species.value.name}, so no mass`
      : '; without a species no mass';
  return [
    `Salvage if felled: a stem of ${volumeText(volume, units)} by the form of measured trees, hollows not taken off${weight}.`,
  ];
}

function questionsOf(tree: Tree, { defects }: Assessment['strength']): readonly string[] {
  const last = tree.inspections.at(-1);
  const stems = tree.parts
    .filter(
      ({ kind, name }) => kind === 'stem' && defects.some(at => at.hollow.defect.part?.value === name.value),
    )
    .map(({ name }) => name.value);
  const unseen = last?.unseen.map(({ value }) => `"${value}"`) ?? [];
  const targets = tree.targets.map(
    ({ name, occupied }) => `"${name.value}"${occupied ? ` (${occupied.value})` : ''}`,
  );
  return [
    unseen.length > 0
      ? `Whether the readings still hold, and what was not seen: ${unseen.join('; ')}.`
      : 'Whether the readings still hold, and what nobody saw.',
    targets.length > 0
      ? `What a failure would strike, ${targets.join(', ')}, and whether keeping people away, a cable or a prop does instead.`
      : 'What a failure would strike (no target is on record), and whether keeping people away, a cable or a prop does instead.',
    ...(stems.length > 0
      ? [
          `How much of the crown ${stems.join(' and ')} carries: in the figures the whole crown stands for that of one stem.`,
        ]
      : []),
    ...(defects.length > 0
      ? ['Whether wood that grew around the hollow, the roots and the unions bear out what the sections say.']
      : []),
  ];
}
