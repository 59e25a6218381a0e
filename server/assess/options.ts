/**
 * Management options of a tree, side by side. None is recommended that the intervals do not support.
 *
 * Long because all options derive from one view of the signs and are read side by side.
 */

import { formatDate } from '../base/dates.ts';
import { ratioText, shareText } from '../base/figures.ts';
import { exact, hull, type Interval, interval, REPRESENTATION } from '../base/interval.ts';
import { unitOf } from '../base/quantity.ts';
import { capital, counted, listed } from '../base/words.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Person, Site, Tree } from '../facts/types.ts';
import { stressRatio } from '../mechanics/reduction.ts';
import { lookupGenus } from '../practice/species.ts';
import { answersTo } from './answering.ts';
import { type Ask, asksOfCutting, asksOfPruning } from './asks.ts';
import { cablesFor } from './cable-sizes.ts';
import { MAX_STAGES } from './dose-room.ts';
import { isDead } from './doses.ts';
import { authority, beyond, type Judged, showLimit, showNumber, showValue, UNKNOWN_TIMES } from './judge.ts';
import { type EasedPart, easedWithin, type MeasuredPart, missingForOffset, type Offset } from './load.ts';
import { permitsBefore } from './permit-needs.ts';
import { weeksClosed } from './pest-windows.ts';
import { partsBehind } from './pull-tests.ts';
import { reachOf } from './reach.ts';
import { type Salvage, salvageOf } from './salvage.ts';
import { reductionWords } from './section-words.ts';
import { hiddenBy, type ViewShare } from './sightlines.ts';

import { type Sign, settleOf } from './signs.ts';
import { byStanding, gravest, type SignStanding } from './standing.ts';
import { lossAt, type Strength } from './strength.ts';

export const OPTIONS = [
  'leave and watch',
  'reduce in one season',
  'reduce in stages',
  'remove the stem or limb',
  'support',
  'fell',
  'investigate first',
] as const;

/**
 * Whether the figures support an option over their whole range (`supported`), part of it (`depends on a reading`) or
 * none; for felling, whether no other option remains (`called for`); whether no figure decides it and a person has to
 * (`open`); whether there is no need for it; or whether there are no records to judge.
 */
const SUPPORTS = [
  'supported',
  'called for',
  'depends on a reading',
  'open',
  'not supported',
  'not called for',
  'no figure',
] as const;
type Support = (typeof SUPPORTS)[number];

export interface Option {
  readonly option: (typeof OPTIONS)[number];
  readonly support: Support;
  /** Reasons, in sentences. */
  readonly because: readonly string[];
  /** Signs beyond a limit, or not judged, that it does not change. */
  readonly leaves: readonly Sign[];
  /** Stress ratio of the most stressed section of the stem afterwards. */
  readonly stressRatio?: Interval;
  /** What a pull test measured, afterwards. */
  readonly eased?: readonly EasedPart[];
  /** Share of the foliage, over all seasons. */
  readonly dose?: Interval;
  /** Number of seasons of the stages. */
  readonly seasons?: Interval;
  /** Share hidden of each view under this option. */
  readonly views: readonly {
    readonly name: string;
    readonly wish: 'hide' | 'open';
    readonly hidden: Interval;
  }[];
  /** Requirements of law, season and surroundings: in lower case, without full stops. */
  readonly asks: readonly string[];
  readonly salvage?: Salvage;
}

export interface OptionEvidence {
  readonly tree: Tree;
  readonly site: Site | undefined;
  readonly signs: readonly Sign[];
  readonly strength: Strength;
  readonly offset: Offset | undefined;
  /** What the deciding pull test measured. */
  readonly measured: readonly MeasuredPart[];
  readonly views: readonly ViewShare[];
  readonly settings: Settings;
  readonly person: (id: string) => Person | undefined;
  readonly today: number;
}

/** All options in order; none for a felled tree. */
export function optionsFor(evidence: OptionEvidence): readonly Option[] {
  if (evidence.tree.felled) return [];
  const situation = situationOf(evidence);
  const stages = reduce(evidence, situation, 'stages');
  const season = reduce(evidence, situation, 'one season');
  return [
    leave(evidence, situation),
    season,
    stages,
    removePart(evidence, situation),
    support(evidence, situation),
    fell(evidence, situation, season.support === 'supported' || stages.support === 'supported'),
    investigate(
      evidence,
      situation,
      [season, stages].some(({ support }) => support === 'depends on a reading'),
    ),
  ];
}

/** Summary of the signs, shared by all options. */
interface Situation {
  /** Beyond a limit or not judged, in descending severity. */
  readonly open: readonly Sign[];
  readonly standing: SignStanding;
  /** Whether a target in reach may be hit today: not closed, or unknown. */
  readonly nobodyAway: boolean;
  /** Hollows of the stem beyond a limit that carry the moment of the crown. */
  readonly hollows: readonly Sign[];
  /** Signs beyond a limit of which a pull test says what they bear, so that a lighter crown counts. */
  readonly pulled: readonly Sign[];
  /** Loss of the weakest stem section. */
  readonly loss: Interval | undefined;
}

function situationOf({ tree, site, signs, strength, settings, today }: OptionEvidence): Situation {
  const open = signs.filter(({ standing }) => standing !== 'within').sort(byStanding);
  const { targets } = reachOf(tree, settings, today);
  const onStems = new Set(signs.filter(({ part }) => part === 'stem').map(({ defect }) => defect));
  const losses = strength.defects
    .filter(({ hollow }) => onStems.has(hollow.defect))
    .map(defect => lossAt(defect, strength));
  return {
    open,
    standing: gravest(open),
    nobodyAway: targets === 'open' || targets === 'not recorded',
    hollows: open.filter(isStemHollow),
    pulled: open.filter(
      sign =>
        sign.standing !== 'moving' &&
        sign.standing !== 'not judged' &&
        partsBehind(sign, tree, site, settings) !== undefined,
    ),
    loss:
      losses.length === 0
        ? undefined
        : interval(Math.max(...losses.map(l => l.low)), Math.max(...losses.map(l => l.high))),
  };
}

const isStemHollow = ({ kind, part, standing }: Sign): boolean =>
  (kind === 'cavity' || kind === 'decay' || kind === 'joined') &&
  part === 'stem' &&
  standing !== 'not judged';

/** `root loss B and canker C`. */
const namesOf = (signs: readonly Sign[]): string => listed(signs.map(({ name }) => name));

/** `root loss B exceeds its mark (80 % …); the lean is moving (…)`. */
const because = (signs: readonly Sign[]): readonly string[] =>
  signs.map(({ name, standing, why }) => `${capital(name)} ${STANDS[standing]}: ${why}.`);

const STANDS: Readonly<Record<SignStanding, string>> = {
  within: 'is within its limits',
  'may exceed': 'may be beyond its limit',
  'not judged': 'is not judged',
  exceeds: 'is beyond its limit',
  moving: 'is moving',
};

const percent = (share: number) => shareText(exact(share));

function leave(
  { views, site, settings, signs, measured }: OptionEvidence,
  { open, standing, nobodyAway, loss }: Situation,
): Option {
  const interval = site?.interval
    ? valuesOf(site.interval.value, settings).low
    : settings.limit('inspection-interval').value;
  const months = Math.floor(interval / unitOf('months')!.factor + REPRESENTATION);
  const base = {
    option: 'leave and watch' as const,
    leaves: open,
    views: views.map(({ view, wish, before }) => ({ name: view.name.value, wish, hidden: before })),
    asks: [`an inspection within ${counted(months, 'month')}, and one after every storm`],
    ...(loss ? { stressRatio: stressRatio(exact(1), loss) } : {}),
    ...(measured.length > 0 ? { eased: measured } : {}),
  };
  if (signs.length === 0)
    return {
      ...base,
      support: 'no figure',
      because: ['The record has no evidence on its safety, for or against.'],
    };
  if (open.length === 0)
    return {
      ...base,
      support: 'supported',
      because: ['Every sign on record was judged and is within its limits over its whole range.'],
    };
  const isUnjudgedAlone = open.every(one => one.standing === 'not judged');
  if (isUnjudgedAlone && !nobodyAway)
    return {
      ...base,
      support: 'supported',
      because: ['No judged sign is beyond its limit, and no target is in reach.', ...because(open)],
    };
  const support = standing === 'moving' || standing === 'exceeds' ? 'not supported' : 'depends on a reading';
  return { ...base, support, because: because(open) };
}

function reduce(evidence: OptionEvidence, situation: Situation, how: 'one season' | 'stages'): Option {
  const { tree, strength, offset, views, settings, today } = evidence;
  const { open, pulled } = situation;
  const hollows = situation.hollows.filter(
    ({ defect }) => !offset || !defect || offset.hollows.includes(defect),
  );
  const others = open.filter(
    sign => !hollows.includes(sign) && !pulled.includes(sign) && !isAnsweredOtherwise(sign, evidence),
  );
  const base = {
    option: how === 'one season' ? ('reduce in one season' as const) : ('reduce in stages' as const),
    leaves: others,
    asks: [
      ...wordsOf(asksOfCutting(evidence, today)),
      ...permitsBefore(evidence, 'pruning'),
      ...wordsOf(asksOfPruning(weeksClosed(tree, settings))),
    ],
  };
  const plain = (support: Support, ...because: readonly string[]): Option => ({
    ...base,
    support,
    because,
    views: [],
  });
  if (isDead(tree)) return plain('not supported', 'Pruning does not help a dead tree.');
  const grave = others.filter(({ standing }) => standing === 'moving' || standing === 'exceeds');
  if (grave.length > 0) return plain('not supported', `It does nothing for ${namesOf(grave)}.`);
  if (how === 'stages' && isPastRegrowth(tree))
    return plain(
      'not supported',
      'A conifer that is over-mature or in poor vigor does not regrow what stages remove, so each stage leaves it weaker.',
    );
  if (hollows.length + pulled.length === 0)
    return situation.loss || evidence.measured.length > 0
      ? plain(
          'not called for',
          situation.loss
            ? 'No cavity or decay of the stem is beyond a limit.'
            : 'No figure of the pull test is beyond a limit.',
        )
      : plain('no figure', 'No cross-section of the stem has been measured, so there is no loss to offset.');
  if (!offset)
    return plain(
      'no figure',
      `The effect of a reduction at the defects is not known: ${missingForOffset(tree, strength, settings)}.`,
    );
  // Stages are pointless if one season suffices.
  if (how === 'stages' && offset.reach === 'one season')
    return plain('not called for', 'One season is enough.');
  const [alone, why] = supportOf(evidence, offset, aimOf(evidence, hollows.length > 0), how);
  const support = alone === 'supported' && others.length > 0 ? 'depends on a reading' : alone;
  const reasons = [why, ...(others.length > 0 ? [`It does nothing for ${namesOf(others)}.`] : [])];
  // Out of reach of pruning: no remaining crown and no number of seasons.
  const most = alone === 'supported' ? undefined : mostWithin(evidence, offset, how);
  const plainly = most ? [mostWord(most, evidence)] : [];
  if (beyondReach(offset))
    return {
      ...base,
      support,
      because: [...reasons, ...plainly],
      dose: hull(offset.atBest.dose, offset.dose),
      views: [],
      ...(most ? { eased: most.eased } : {}),
    };
  return {
    ...base,
    support,
    because: [
      ...reasons,
      ...plainly,
      ...(how === 'stages' && alone === 'supported' ? [stagesWord(offset)] : []),
      ...leastEffectWords(offset),
    ],
    ...(offset.stressRatio ? { stressRatio: offset.stressRatio } : {}),
    ...(evidence.measured.length > 0 ? { eased: most?.eased ?? offset.eased } : {}),
    dose: offset.dose,
    ...(how === 'stages' ? { seasons: offset.seasons } : {}),
    views: views.map(sighted => ({
      name: sighted.view.name.value,
      wish: sighted.wish,
      hidden: hiddenBy(sighted, offset.crown),
    })),
  };
}

/** Whether another prescription or plan responds to a sign in time. */
const isAnsweredOtherwise = (sign: Sign, evidence: OptionEvidence): boolean =>
  answersTo(sign, evidence).some(
    ({ inTime, prescription }) => inTime && prescription?.kind.value !== 'reduce',
  );

const PAST: ReadonlySet<string | undefined> = new Set(['over-mature', 'veteran']);

/** Conifers hardly sprout from old wood: an old one does not regrow. */
const isPastRegrowth = ({ species, age, vigor, stressed }: Tree): boolean =>
  species !== undefined &&
  lookupGenus(species.value.genus)?.leaf === 'needleleaved' &&
  (PAST.has(age?.value) || vigor?.value === 'poor' || stressed !== undefined);

const beyondReach = ({ reach }: Offset) => reach === 'out of reach' || reach === 'perhaps out of reach';

const stagesWord = ({ seasons }: Offset) =>
  `Allow at least a year between seasons. Until the last of ${seasons.high} the load is not offset, so another measure has to bridge the time.`;

/** The stress ratio at half the effect. */
const leastEffectWords = ({ stressAtLeastEffect: stress }: Offset): readonly string[] =>
  stress && Number.isFinite(stress.high)
    ? [
        `This is by the outline of the crown. If the cut has half that effect, the stress is up to ${ratioText(exact(stress.high))} × that of the intact stem.`,
      ]
    : [];

/** What a reduction is to do, in words. */
interface Aim {
  /** After `at`: the least favorable end, in full and in short, and the most favorable. */
  readonly worst: string;
  readonly inShort: string;
  readonly best: string;
  /** `offsets the worst loss`. */
  readonly does: string;
  /** Before the dose of a season. */
  readonly taking: string;
}

function aimOf({ measured }: OptionEvidence, isHollow: boolean): Aim {
  const beyond = measured.filter(({ judged }) => judged.standing !== 'within');
  if (beyond.length === 0)
    return {
      worst: 'the worst-case loss',
      inShort: 'the worst-case loss',
      best: 'the least loss',
      does: 'offsets the worst-case loss',
      taking: ' within',
    };
  const brings = `brings ${listed(beyond.map(({ name }) => name))} within ${showLimit(beyond[0]!.judged)}`;
  return {
    worst: 'the worst case of readings and scatter',
    inShort: 'the worst case',
    best: 'the best case',
    does: isHollow ? `offsets the worst-case loss and ${brings}` : brings,
    taking: ', and removes no more than',
  };
}

/** The measured parts under the most that the limits on doses allow; undefined without any beyond its limit. */
function mostWithin(
  { tree, site, settings, measured }: OptionEvidence,
  { seasonLimit }: Offset,
  how: 'one season' | 'stages',
) {
  if (measured.every(({ judged }) => judged.standing === 'within')) return undefined;
  const dose =
    how === 'one season'
      ? seasonLimit
      : Math.min(
          settings.limit('total-reduction').value,
          settings.limit('cumulative-dose').value,
          1 - (1 - seasonLimit) ** MAX_STAGES,
        );
  const found = easedWithin(dose, measured, tree, site, settings);
  return found && { ...found, dose };
}

const timesWords = (judged: Judged): string => {
  const times = showValue(judged);
  return times === UNKNOWN_TIMES
    ? 'an unknown capacity in the design wind'
    : `${times} times the moment of the design wind`;
};

/** `The most that 25 % of the foliage allows is 12.3 % off crown length and spread. It leaves …`. */
function mostWord(
  { reduction, dose, eased }: NonNullable<ReturnType<typeof mostWithin>>,
  { measured }: OptionEvidence,
): string {
  const left = eased
    .filter((_, i) => measured[i]!.judged.standing !== 'within')
    .map(
      ({ name, judged }) =>
        `${name} with ${timesWords(judged)}${beyond(judged) || `, within ${showLimit(judged)}`}`,
    );
  return `The most that ${percent(dose)} of the foliage allows is ${shareText(exact(reduction), 'down')} off crown length and spread. It leaves ${left.join('; ')}.`;
}

/** Reduction beyond which hardly any crown remains. */
const WHOLE_CROWN = 0.8;

function supportOf(
  { tree, settings }: OptionEvidence,
  offset: Offset,
  { worst, inShort, best, does, taking }: Aim,
  how: 'one season' | 'stages',
): readonly [Support, string] {
  const { reduction, atBest, dose, reach, seasonLimit } = offset;
  const off = reductionWords(tree, offset);
  const season = `one season's ${percent(seasonLimit)}`;
  const noSeason = `no number of seasons within ${season} reaches it`;
  if (beyondReach(offset)) {
    const needs =
      reduction > WHOLE_CROWN
        ? `At ${worst} no reduction is enough`
        : `At ${inShort} it takes ${off}: ${reach === 'out of reach' ? 'more than' : 'at or beyond what'} pruning can achieve`;
    const { reduction: least, dose: leastDose, seasons } = atBest;
    if (atBest.reach === 'out of reach')
      return ['not supported', `${needs}; even ${best} takes ${percent(least)} off.`];
    if (least === 0) return ['depends on a reading', `${needs}; at ${best} no reduction is needed.`];
    if (how === 'stages' && !Number.isFinite(seasons.low)) return ['not supported', `${needs}; ${noSeason}.`];
    if (how === 'one season' && leastDose.low > seasonLimit)
      return ['not supported', `${needs}; at ${best} it still requires more foliage than ${season}.`];
    const time = how === 'stages' ? `, in ${counted(seasons.low, 'season')} at least` : '';
    return ['depends on a reading', `${needs}; at ${best} ${percent(least)} off would do${time}.`];
  }
  if (how === 'stages' && !Number.isFinite(offset.seasons.high))
    return ['not supported', `At ${inShort} it takes ${off}; ${noSeason}.`];
  if (how === 'stages') {
    const most = settings.limit('cumulative-dose');
    const years = settings.limit('cumulative-years');
    const sum = `the ${percent(most.value)} allowed within ${showNumber(years.value, years, 1)} (${authority(most)}), and more than ${MAX_STAGES} stages a year apart are not practical`;
    const isBeyond = (share: number, seasons: number) => share > most.value || seasons > MAX_STAGES;
    if (isBeyond(atBest.dose.low, atBest.seasons.low))
      return ['not supported', `${off} requires more foliage than ${sum}.`];
    if (isBeyond(dose.high, offset.seasons.high))
      return ['depends on a reading', `${off} may require more foliage than ${sum}.`];
    return ['supported', `${off} ${does}; that is too much for one season.`];
  }
  if (dose.high <= seasonLimit) return ['supported', `${off} ${does}${taking} ${season}.`];
  if (dose.low > seasonLimit && atBest.dose.low > seasonLimit)
    return ['not supported', `${off} requires more foliage than ${season}.`];
  return ['depends on a reading', `${off} may require more foliage than ${season}.`];
}

function removePart(evidence: OptionEvidence, { open }: Situation): Option {
  const taken = open.filter(({ members, part }) => members.length > 0 || part === 'limb');
  const left = open.filter(sign => !taken.includes(sign));
  const base = { option: 'remove the stem or limb' as const, leaves: left, views: [] };
  if (taken.length === 0)
    return {
      ...base,
      asks: [],
      support: 'not called for',
      because: ['No sign is on a stem or limb that could be removed.'],
    };
  return {
    ...base,
    asks: [...wordsOf(asksOfCutting(evidence, evidence.today)), ...permitsBefore(evidence, 'pruning')],
    support: 'open',
    because: [
      `It removes ${namesOf(taken)}${left.length === 0 ? ', and nothing else is outstanding' : `, and leaves ${namesOf(left)}`}.`,
      'Its effect on the rest of the crown in the wind is not computed.',
    ],
  };
}

/** Of a trunk a brace holds the two sides of a crack together, and nothing else. */
const isSupportable = ({ part, kind, members }: Sign): boolean =>
  part === 'union' ||
  (part === 'limb' && kind !== 'hanger') ||
  (part === 'stem' && (kind === 'crack' || members.length > 0));

const isTrunkHollow = ({ part, kind, members }: Sign): boolean =>
  part === 'stem' && members.length === 0 && (kind === 'cavity' || kind === 'decay');

function support(evidence: OptionEvidence, { open }: Situation): Option {
  const held = open.filter(isSupportable);
  const guyed = open.filter(isTrunkHollow);
  const left = open.filter(sign => !held.includes(sign) && !guyed.includes(sign));
  const base = { option: 'support' as const, leaves: left, views: [], asks: [] };
  if (held.length + guyed.length === 0)
    return {
      ...base,
      support: 'not called for',
      because: ['No union, limb or stem needs a cable, a brace or a prop.'],
    };
  return {
    ...base,
    support: 'open',
    because: [
      ...(held.length > 0
        ? [`A cable, a brace or a prop may hold ${namesOf(held)}. A qualified person designs it.`]
        : []),
      ...(guyed.length > 0
        ? [
            `No cable or brace restores the wood that the trunk has lost at ${namesOf(guyed)}; a qualified person may design guys or a prop.`,
          ]
        : []),
      ...(left.length > 0 ? [`Support does nothing for ${namesOf(left)}.`] : []),
      ...cablesFor(
        held.filter(({ part }) => part === 'union').flatMap(({ members }) => members),
        evidence,
      ).map(words => `${capital(words)}.`),
      'Sizes of braces, bolts, lags and props are not computed here.',
    ],
  };
}

function fell(evidence: OptionEvidence, { open, standing, pulled }: Situation, isReducible: boolean): Option {
  const { tree, offset, views, settings, today, signs } = evidence;
  const other = 'guying, a cable or a prop, a habitat snag, or keeping people away may still be options';
  const grave = open.filter(
    sign => sign.standing === 'exceeds' && sign.members.length === 0 && sign.part !== 'limb',
  );
  const isBeyondPruning = (sign: Sign) =>
    !(isStemHollow(sign) || pulled.includes(sign)) || isDead(tree) || offset?.atBest.reach === 'out of reach';
  // A pull test may still find the roots beside a trench strong enough.
  const calls = grave.filter(
    sign => sign.kind !== 'vigor' && sign.kind !== 'trench' && isBeyondPruning(sign),
  );
  const verdict = (): readonly [Support, readonly string[]] => {
    if (signs.length === 0) return ['no figure', ['Nothing on record requires it.']];
    if (open.length === 0)
      return [
        'not called for',
        ['The figures do not require it: every sign was judged and is within its limits.'],
      ];
    if (calls.length > 0 && !isReducible)
      return ['called for', [`Pruning does not address ${namesOf(calls)}; ${other}.`]];
    if (standing === 'may exceed' && open.every(sign => isStemHollow(sign)) && !isReducible)
      return [
        'depends on a reading',
        ['Removal is justified only if a measurement confirms the worst case.'],
      ];
    return [
      'open',
      [
        ...(isReducible
          ? [
              pulled.length > 0
                ? 'A reduction can bring the pull-test result within its limit.'
                : 'A reduction can offset the loss in the stem.',
            ]
          : []),
        `No figure decides it: ${namesOf(open)} ${open.length === 1 ? 'is' : 'are'} for a qualified person to judge.`,
      ],
    ];
  };
  const [support, because] = verdict();
  const salvage = salvageOf(tree, settings);
  return {
    option: 'fell',
    support,
    because,
    leaves: [],
    views: views.map(({ view, wish }) => ({ name: view.name.value, wish, hidden: exact(0) })),
    asks: [...wordsOf(asksOfCutting(evidence, today)), ...permitsBefore(evidence, 'felling')],
    ...(salvage ? { salvage } : {}),
  };
}

function investigate(
  evidence: OptionEvidence,
  { open, standing, nobodyAway, hollows }: Situation,
  decidesReduction: boolean,
): Option {
  const { tree, strength } = evidence;
  const reasons = [
    ...strength.defects
      .filter(({ figures }) => figures.contradictions.length > 0)
      .map(({ hollow }) => `The readings at ${hollow.defect.id.value} contradict each other: measure again.`),
    ...new Set(
      open
        .filter(sign => sign.standing === 'may exceed' || sign.standing === 'not judged')
        .map(sign => settleOf(sign, evidence) ?? `Have a qualified person judge ${sign.name}.`),
    ),
  ];
  // Certainly beyond its limit, but the extent, which determines the reduction, depends on a reading.
  if (reasons.length === 0 && decidesReduction)
    reasons.push(
      `Measure ${namesOf(hollows)} more closely, on several bearings. The remaining wall decides whether a reduction is enough.`,
    );
  const isGrave = (standing === 'moving' || standing === 'exceeds') && nobodyAway;
  const planned = tree.followUps
    .filter(({ done, kind }) => !done && kind.value !== 're-inspection')
    .map(({ kind, due }) => `the ${kind.value}${due ? ` due ${formatDate(due.value)}` : ''} is still open`);
  const base = { option: 'investigate first' as const, leaves: open, views: [], asks: planned };
  if (reasons.length === 0)
    return {
      ...base,
      support: 'not called for',
      because: ['No measurement would change any verdict.'],
    };
  return isGrave
    ? {
        ...base,
        support: 'open',
        because: [
          'Waiting is not safe: keep people out until it is measured, and do not let the measurement delay urgent work.',
          ...reasons,
        ],
      }
    : { ...base, support: 'supported', because: reasons };
}

const wordsOf = (asks: readonly Ask[]): readonly string[] => asks.map(({ words }) => words);
