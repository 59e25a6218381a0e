/** The output of `weigh` for people: the readings, the options side by side, and what remains to be decided. */

import type { Assessment } from '../assess/assessment.ts';
import { isDosed } from '../assess/doses.ts';
import { lastInspectionOf } from '../assess/evidence.ts';
import { showLimit } from '../assess/judge.ts';
import { LEAST_EFFECT } from '../assess/load.ts';
import type { Option } from '../assess/options.ts';
import { jobName } from '../assess/prescriptions.ts';
import { isRing, weakestAlong } from '../assess/section-words.ts';
import { lossText, ratioText, shareText } from '../base/figures.ts';
import { capital, listed } from '../base/words.ts';
import type { Tree } from '../facts/types.ts';
import { anchoragePart } from './anchorage.ts';
import { massText, seasonsText, tellingText, unitsOf, volumeText } from './figures.ts';
import { inRegion, readInRegion } from './in-region.ts';
import { columns, wrap } from './layout.ts';
import type { RegionCode } from './long-date.ts';
import { sanitizeForLog, sanitizeLine } from './sanitize.ts';
import type { Paint } from './terminal.ts';
import { evidenceSections } from './weigh-evidence.ts';
import { fellingSections } from './weigh-felling.ts';
import { limbSections } from './weigh-limbs.ts';
import { ifThenSections, partSections } from './weigh-parts.ts';
import { leanOf, safetyOf } from './weigh-wind.ts';
import { NOTHING, placeOf, type Weighed, type WeighSection } from './weighed.ts';
import { quantityText, sizeItems } from './words.ts';

export const WEIGH_CAUTION =
  'Each figure compares a tree with itself, intact and under its full crown, over the whole range of the readings; none certifies it. Crowns are taken as ellipses of closed foliage. What was not seen or not judged is not included in any figure. Likelihoods of failure are judgments, not probabilities. They compare the gust at which a part reaches its limit with the gust of normal weather and the design wind, and use the hazard rating codes. A qualified person on site decides.';

/** Whether there is anything to show: a sign, a view, dimensions of an open prescription, or rigging. */
export const isWeighable = ({ signs, views, loads, riggings }: Assessment): boolean =>
  signs.length > 0 || views.length > 0 || loads.length > 0 || riggings.length > 0;

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

/** The content for a tree, independent of layout. */
export function describeWeighed(weighed: Weighed): {
  readonly title: string;
  /** Species and file. */
  readonly about: string;
  readonly size: string;
  readonly sections: readonly WeighSection[];
} {
  const { tree, file, settings } = weighed;
  const name = tree.name ? ` "${tree.name.value}"` : '';
  const species = tree.species ? `, ${tree.species.value.name}` : '';
  return {
    title: `Tree ${tree.tag.value}${name}`,
    about: `${species} (${sanitizeLine(file)})`,
    size: inRegion(`${sizeItems(tree, ', ').join('; ')}.`, settings.region),
    sections: [
      ...partSections(weighed),
      ...sectionsOf(weighed),
      ...safetyOf(weighed),
      ...leanOf(weighed),
      ...evidenceSections(weighed),
      ...rootsOf(weighed),
      ...limbSections({ ...weighed, site: weighed.site }),
      ...ifThenSections(weighed),
      ...prescriptionsOf(weighed),
      ...fellingSections(weighed),
      ...optionsOf(weighed),
      ...easedOf(weighed),
      ...effectsOf(weighed),
      ...viewsOf(weighed),
      ...decisionsOf(weighed),
    ].map(section => sectionIn(settings.region, section)),
  };
}

function sectionIn(region: RegionCode, { heading, head, rows, lines }: WeighSection): WeighSection {
  const read = (text: string) => readInRegion(text, region);
  return {
    heading: read(heading),
    ...(head && { head: head.map(read) }),
    ...(rows && { rows: rows.map(row => row.map(read)) }),
    ...(lines && { lines: lines.map(read) }),
  };
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
      ...(joined.state.value === 'suspected' ? [[`${ids} separate`, lossText(figures.apart)]] : []),
      [`${ids} connected (${joined.state.value})`, lossText(figures.joined)],
    ];
  });
  const head = ['', 'by section', 'weakest axis', 't/R', 'd³/D³', 'd⁴/D⁴', 'with opening'];
  return [
    {
      heading: `Loss of bending strength: by section against ${limit}, by d³/D³ against ${cubic}`,
      head,
      rows: [...rows, ...groups],
    },
  ];
}

function rootsOf({ tree, site, settings }: Weighed): readonly WeighSection[] {
  const part = anchoragePart({ tree, site, settings });
  return part ? [part] : [];
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
        `From the outline of the crown, cut to the stated dimensions. If the cut has half that effect, ${shareText(momentAtLeastEffect)} of the moment is left at the ground. ${LEAST_EFFECT}`,
        ...(isDosed(prescription)
          ? [`Live foliage removed, by these dimensions: ${shareText(dose)}${stated}.`]
          : []),
      ],
    };
  });
}

function optionsOf({ assessment: { options } }: Weighed): readonly WeighSection[] {
  if (options.length === 0) return [];
  const lines = options.map(({ option, because }) => `${capital(option)}: ${because.join(' ')}`);
  // No columns of dashes.
  const isStressed = options.some(({ stressRatio }) => stressRatio);
  const takes = options.some(({ dose }) => dose);
  const rows = options.map(({ option, support, stressRatio, dose, seasons }) => [
    option,
    supportText(support),
    ...(isStressed ? [stressRatio ? ratioText(stressRatio) : NOTHING] : []),
    ...(takes ? [dose ? shareText(dose) : NOTHING, seasons ? seasonsText(seasons) : NOTHING] : []),
  ]);
  const head = [
    '',
    'by the figures',
    ...(isStressed ? ['stress ratio'] : []),
    ...(takes ? ['foliage removed', 'seasons'] : []),
  ];
  const heading = isStressed ? 'Options (stress ratio 1.00 = intact stem under the full crown)' : 'Options';
  return [{ heading, head, rows, lines }];
}

/** What a pull test measured, under each option. */
export function easedOf({ assessment: { options } }: Pick<Weighed, 'assessment'>): readonly WeighSection[] {
  const shown = options.filter(({ eased }) => eased && eased.length > 0);
  const [now] = shown;
  if (!now || shown.length < 2) return [];
  const rows = now.eased!.map(({ name }, i) => [
    name,
    ...shown.map(({ eased }) => tellingText(eased![i]!.judged.value, 2)),
  ]);
  return [
    {
      heading: `Pull-test factors under each option, against ${showLimit(now.eased![0]!.judged)}`,
      head: ['', ...shown.map(({ option }) => option)],
      rows,
      lines: [
        'Factors on the moment of the design wind, from the full effect of the crown outline down to half of it. A reduction beyond the dose limits is shown at the largest dose they allow.',
      ],
    },
  ];
}

/** Which signs beyond their limits, or not judged, each option acts on, and which it leaves. */
function effectsOf({ assessment: { options, signs } }: Weighed): readonly WeighSection[] {
  const open = signs.filter(({ standing }) => standing !== 'within');
  if (open.length < 2) return [];
  const names = (some: typeof open) => listed(some.map(({ name }) => name));
  const lines = options
    .filter(({ option, support }) => option !== 'investigate first' && !IDLE.has(support))
    .map(({ option, leaves }) => {
      const changed = open.filter(sign => !leaves.includes(sign));
      const left = open.filter(sign => leaves.includes(sign));
      const does = [
        ...(changed.length > 0 ? [`acts on ${names(changed)}`] : []),
        ...(left.length > 0 ? [`leaves ${names(left)} unresolved`] : []),
      ];
      return `${capital(option)} ${does.join(' and ')}.`;
    });
  return lines.length > 0 ? [{ heading: 'What each option addresses', lines }] : [];
}

/** Whether the figures support an option, in words. */
export const supportText = (support: Option['support']): string =>
  support === 'open' ? 'an option' : support;

const IDLE: ReadonlySet<Option['support']> = new Set(['not called for', 'no figure']);

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
  return [{ heading: 'Share of each view hidden by the crown', head, rows }];
}

/** What law and surroundings still require, and questions that no figure answers. */
function decisionsOf({ tree, assessment: { options, strength } }: Weighed): readonly WeighSection[] {
  if (options.length === 0) return [];
  const asksOf = (name: Option['option']) => options.find(({ option }) => option === name)?.asks ?? [];
  const ofCuts = asksOf('fell');
  const ofPruning = asksOf('reduce in one season');
  const lines = [
    ...ofCuts.map(ask => `${ofPruning.includes(ask) ? 'Before any cut' : 'If it is felled'}: ${ask}.`),
    ...ofPruning.filter(ask => !ofCuts.includes(ask)).map(ask => `If it is pruned: ${ask}.`),
    ...asksOf('leave and watch').map(ask => `If it stays: ${ask}.`),
    ...asksOf('investigate first').map(ask => `${capital(ask)}.`),
    ...salvageLines(tree, options),
  ];
  return [
    { heading: 'Still required by law, season and surroundings', lines },
    { heading: 'For the person on site to judge', lines: questionsOf(tree, strength) },
  ];
}

function salvageLines(tree: Tree, options: readonly Option[]): readonly string[] {
  const salvage = options.find(({ option }) => option === 'fell')?.salvage;
  if (!salvage) return [];
  const units = unitsOf(tree);
  const { volume, mass } = salvage;
  const weight = mass
    ? `, ${massText(mass, units)} green`
    : tree.species
      ? `; no mass, because no density is known for ${tree.species.value.name}`
      : '; no mass without a species';
  return [
    `Salvage if felled: estimated stem volume ${volumeText(volume, units)} (form factor from measured trees; hollows not deducted)${weight}.`,
  ];
}

function questionsOf(tree: Tree, { defects }: Assessment['strength']): readonly string[] {
  const last = lastInspectionOf(tree);
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
      ? `Whether the readings are still valid, and what was not seen: ${unseen.join('; ')}.`
      : 'Whether the readings are still valid, and what was not seen.',
    targets.length > 0
      ? `What a failure would strike (${targets.join(', ')}), and whether keeping people away, a cable or a prop would do instead.`
      : 'What a failure would strike (no target is on record), and whether keeping people away, a cable or a prop would do instead.',
    ...(stems.length > 0
      ? [
          `How much of the crown ${stems.join(' and ')} carries: the figures load one stem with the whole crown.`,
        ]
      : []),
    ...(defects.length > 0
      ? [
          'Whether response growth around the hollow, the roots and the unions support the result of the sections.',
        ]
      : []),
  ];
}
