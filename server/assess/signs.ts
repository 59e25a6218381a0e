/**
 * The signs of a tree: every record that says something about its safety, each with the part that it concerns and how
 * it stands to the strictest limit that applies. What is recorded and cannot be judged says so; nothing is passed over.
 */

import { compassPoint } from '../../grammar/bearing.ts';
import { showQuantity } from '../../grammar/quantity.ts';
import type { Span } from '../../grammar/text.ts';
import { interval as reading } from '../facts/interval.ts';
import { UNREAD } from '../facts/lines.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Part, Site, Tree } from '../facts/types.ts';
import { clip, type Interval, interval } from '../mechanics/interval.ts';
import { findFungus, type LimitName, lookupGenus, rotsRoots } from '../practice/index.ts';
import { isDead } from './doses.ts';
import { defectName, openDefects } from './evidence.ts';
import { readingOf } from './fall-zone.ts';
import { hollowVerdict, settleText } from './hollow-verdict.ts';
import { authority, judge, showLimit, showNumber, showValue } from './judge.ts';
import { namesOf } from './section-words.ts';
import { SIGN_KINDS, type SignKind, type TreePart } from './sign-kinds.ts';
import { strengthOf } from './strength.ts';

/** From the mildest to the gravest; what nobody could judge never ranks below what may exceed. */
export const STANDINGS = ['within', 'may exceed', 'not judged', 'exceeds', 'moving'] as const;
export type SignStanding = (typeof STANDINGS)[number];

/** How a sign stands, and why. */
export interface Verdict {
  readonly standing: SignStanding;
  /** Without a full stop, in lower case: goes into the middle of a sentence. */
  readonly why: string;
  /** What settles it: a sentence. Absent where nothing has to be settled, and of hollows, see `settleOf`. */
  readonly settle?: string;
}

export interface Sign extends Verdict {
  readonly kind: SignKind;
  readonly part: TreePart;
  /** Stable over edits: the defect, the stem or limb, else the field. */
  readonly subject: string;
  /** For the middle of a sentence: `canker B`. */
  readonly name: string;
  /** Name of the stem or limb that it is on, where it is on one. */
  readonly member?: string;
  readonly defect?: Defect;
  readonly at: Span;
  /** It grows, whatever its figure says. */
  readonly increasing: boolean;
}

export interface SignContext {
  readonly tree: Tree;
  readonly site: Site | undefined;
  readonly settings: Settings;
}

const NO_SIGNS: readonly Sign[] = [];

const known = new WeakMap<Tree, { site: Site | undefined; settings: Settings; signs: readonly Sign[] }>();

/** Every sign of a standing tree, in the order of the text within its part; none of a felled one. */
export function signsOf(context: SignContext): readonly Sign[] {
  const { tree, site, settings } = context;
  if (tree.felled || isPlain(tree)) return NO_SIGNS;
  const before = known.get(tree);
  if (before?.settings === settings && before.site === site) return before.signs;
  const signs = [
    ...fieldSigns(context),
    ...openDefects(tree).flatMap(defect =>
      defect.kind.value === UNREAD ? [] : [defectSign(defect, context)],
    ),
    ...joinedSigns(context),
  ];
  known.set(tree, { site, settings, signs });
  return signs;
}

/** As most trees of an inventory are: nothing on record that says anything about safety. */
const isPlain = ({ defects, parts, lean, soil, vigor }: Tree): boolean =>
  defects.length === 0 && parts.length === 0 && !lean && !soil && vigor?.value !== 'dead';

/** The gravest standing of some signs; `within` of none. */
export const gravest = (signs: readonly Verdict[]): SignStanding =>
  STANDINGS[Math.max(0, ...signs.map(({ standing }) => STANDINGS.indexOf(standing)))]!;

/** The gravest first; alike ones stay in their order. */
export const byStanding = (a: Verdict, b: Verdict): number =>
  STANDINGS.indexOf(b.standing) - STANDINGS.indexOf(a.standing);

export const isMoving = ({ standing }: Verdict): boolean => standing === 'moving';
/** Neither judged nor within. */
export const isBeyond = ({ standing }: Verdict): boolean =>
  standing === 'moving' || standing === 'exceeds' || standing === 'may exceed';

const within = (why: string): Verdict => ({ standing: 'within', why });
const notJudged = (why: string, settle: string): Verdict => ({ standing: 'not judged', why, settle });

/** What settles a sign that may exceed or was not judged. Of a hollow it is searched for, so only on demand. */
export function settleOf(sign: Sign, context: SignContext): string | undefined {
  if (sign.settle !== undefined || !sign.defect) return sign.settle;
  const found = strengthOf(context.tree, context.settings).defects.find(
    ({ hollow }) => hollow.defect === sign.defect,
  );
  return found && sign.standing === 'may exceed' ? settleText(found, context) : undefined;
}

/** How many signs of some trees were judged, how many not, and how many are or may be beyond a limit. */
export interface SignTally {
  readonly judged: number;
  readonly notJudged: number;
  readonly beyond: number;
}
export const NO_TALLY: SignTally = { judged: 0, notJudged: 0, beyond: 0 };

export const addTallies = (a: SignTally, b: SignTally): SignTally => ({
  judged: a.judged + b.judged,
  notJudged: a.notJudged + b.notJudged,
  beyond: a.beyond + b.beyond,
});

export function tallyOf(contexts: Iterable<SignContext>): SignTally {
  let [judged, notJudged, beyond] = [0, 0, 0];
  for (const context of contexts)
    for (const sign of signsOf(context)) {
      if (sign.standing === 'not judged') notJudged++;
      else judged++;
      if (isBeyond(sign)) beyond++;
    }
  return { judged, notJudged, beyond };
}

/** Signs that fail now where they increase: nothing about them can be waited for. */
const MOVES_WHEN_INCREASING: ReadonlySet<string> = new Set(['crack', 'weak union', 'included bark']);

/** Heights up to which a fruiting body sits at the base of the tree, m. */
const BASE = 2;

function defectSign(defect: Defect, context: SignContext): Sign {
  const { kind, id, part, state, at } = defect;
  const onLimb = context.tree.parts.some(one => one.kind === 'limb' && one.name.value === part?.value);
  const row = SIGN_KINDS[kind.value as SignKind];
  const increasing = state?.value === 'increasing';
  return {
    kind: kind.value as SignKind,
    part: onLimb && row.onLimb ? 'limb' : isRootRot(defect, context) ? 'roots and ground' : row.part,
    subject: id.value,
    name: defectName(defect),
    ...(part && part.value !== 'trunk' ? { member: part.value } : {}),
    defect,
    at,
    increasing,
    ...grown(increasing, kind.value, defectVerdict(defect, context)),
  };
}

/** What increases is not settled by a figure of one day. */
function grown(increasing: boolean, kind: string, verdict: Verdict): Verdict {
  if (!increasing) return verdict;
  if (MOVES_WHEN_INCREASING.has(kind))
    return { standing: 'moving', why: kind === 'crack' ? 'opening' : 'coming apart' };
  if (verdict.standing !== 'within') return { ...verdict, why: `${verdict.why}, and increasing` };
  return notJudged(
    `${verdict.why}, but increasing, and nothing says how fast`,
    'Read it again on a later day: two dated readings tell how fast it grows.',
  );
}

/** By its kind, and by its share of the circumference where that is stated: the graver of the two. */
function defectVerdict(defect: Defect, context: SignContext): Verdict {
  const own = verdictByKind(defect, context);
  if (defect.share?.of !== 'circumference' || own.standing === 'moving') return own;
  const byShare = circumferenceVerdict(defect, context);
  if (byStanding(own, byShare) <= 0) return own;
  return byShare.standing === 'within' ? byShare : { ...byShare, why: `${byShare.why}; ${own.why}` };
}

function verdictByKind(defect: Defect, context: SignContext): Verdict {
  const { settings, tree } = context;
  switch (SIGN_KINDS[defect.kind.value as SignKind].judgedBy) {
    case 'section':
      return hollowVerdict(defect, context);
    case 'circumference':
      return circumferenceVerdict(defect, context);
    case 'root share':
      return rootVerdict(defect, settings);
    case 'branch diameter':
      return deadWoodVerdict(defect, tree, settings);
    case 'fungus':
      return fungusVerdict(defect, context);
    case 'crack':
      return crackVerdict(defect, settings);
    case 'hanger':
      return { standing: 'moving', why: 'loose' };
    case 'union':
      return includedBark(settings);
    default:
      return notJudged(
        'no figure is known for it',
        `Have a qualified person judge ${defect.id.value} from near and rate the risk.`,
      );
  }
}

const SHARE = interval(0, 1);

const shareOf = ({ share }: Defect, of: string, settings: Settings): Interval | undefined =>
  share?.of === of && share.share.value.form !== 'unseen'
    ? clip(reading(share.share.value, settings), SHARE)
    : undefined;

/** A figure against one limit. */
function against(value: Interval, name: LimitName, settings: Settings, what: string): Verdict {
  const judged = judge(value, name, settings);
  const { standing, direction } = judged;
  if (standing === 'within') return within(`${showValue(judged)} ${what}, within ${showLimit(judged)}`);
  const beyond = direction === 'at most' ? 'over' : 'under';
  return {
    standing,
    why: `${showValue(judged)} ${what}, ${standing === 'exceeds' ? beyond : `perhaps ${beyond}`} ${showLimit(judged)}`,
    ...(standing === 'may exceed'
      ? { settle: `Measure it more closely: ${showNumber(judged.setting.value, judged.setting, 1)} decides.` }
      : {}),
  };
}

/** As stated, else the width over the girth there; at breast height the tree's own girth will do. */
function circumferenceShare(defect: Defect, { tree, settings }: SignContext): Interval | undefined {
  const stated = shareOf(defect, 'circumference', settings);
  if (stated) return stated;
  const { width, diameter, across, part, height } = defect;
  if (!width || width.value.form === 'unseen') return undefined;
  const isLow = height !== undefined && reading(height.value, settings).high <= BASE;
  const trunk = part === undefined || part.value === 'trunk';
  const girths = diameter ? [diameter, ...(across ? [across] : [])] : isLow && trunk ? tree.diameters : [];
  if (girths.length === 0) return undefined;
  const read = girths.map(({ value }) => reading(value, settings));
  const least = Math.min(...read.map(({ low }) => low));
  const greatest = Math.max(...read.map(({ high }) => high));
  if (!(least > 0)) return undefined;
  const wide = reading(width.value, settings);
  const share = (part: number, whole: number) => Math.min(1, Math.max(0, part) / (Math.PI * whole));
  return interval(share(wide.low, greatest), share(wide.high, least));
}

function circumferenceVerdict(defect: Defect, context: SignContext): Verdict {
  const { settings } = context;
  const share = circumferenceShare(defect, context);
  if (!share)
    return notJudged(
      'its share of the circumference is not recorded',
      `Write down how much of the circumference ${defect.id.value} takes: share 20 % of circumference, or its width and the diameter there.`,
    );
  const what = 'of the circumference';
  const high = against(share, 'circumference-share', settings, what);
  if (high.standing !== 'within') return high;
  const caution = against(share, 'circumference-caution', settings, what);
  // Rated moderate: somebody has to decide, and no figure says that it fails.
  return caution.standing === 'exceeds'
    ? { ...caution, standing: 'may exceed', settle: 'Have a qualified person rate it.' }
    : caution;
}

function rootVerdict(defect: Defect, settings: Settings): Verdict {
  const share = shareOf(defect, 'roots', settings);
  return share
    ? against(share, 'root-loss', settings, 'of the roots')
    : notJudged(
        'its share of the roots is not recorded',
        `Have the root collar exposed, or a pull test made, and write down the share: share 20 % of roots, at ${defect.id.value}.`,
      );
}

const isBroadleaved = ({ species }: Tree): boolean =>
  species !== undefined && lookupGenus(species.value.genus)?.leaf === 'broadleaved';

function deadWoodVerdict(defect: Defect, tree: Tree, settings: Settings): Verdict {
  const { diameter } = defect;
  const crown = shareOf(defect, 'crown', settings);
  const verdicts = [
    ...(diameter && diameter.value.form !== 'unseen'
      ? [against(reading(diameter.value, settings), 'dead-wood-diameter', settings, 'thick')]
      : []),
    ...(crown
      ? [
          against(
            crown,
            isBroadleaved(tree) ? 'crown-dead-share' : 'crown-dead-share-conifer',
            settings,
            'of the crown',
          ),
        ]
      : []),
  ];
  return (
    [...verdicts].sort(byStanding)[0] ??
    notJudged(
      'neither the thickness of the dead branch nor its share of the crown is recorded',
      `Write down the diameter of the thickest dead branch at ${defect.id.value}: diameter ~3 in.`,
    )
  );
}

/** Rots roots or butt by its species; of an unknown species, sits at the base. */
function isRootRot({ kind, species, height, part }: Defect, { tree, settings }: SignContext): boolean {
  if (kind.value !== 'fungus') return false;
  const found = species && findFungus(species.value.genus, species.value.binomial);
  if (found) return rotsRoots(found);
  if (tree.parts.some(({ name }) => name.value === part?.value)) return false;
  return !height || readingOf(height, settings).low <= BASE;
}

function fungusVerdict(defect: Defect, context: SignContext): Verdict {
  const { species, id } = defect;
  const row = species && findFungus(species.value.genus, species.value.binomial);
  const rots = row
    ? `it rots ${row.parts.join(' and ')} (${row.citation.short}${row.confidence === 'from memory' && row.citation.confidence !== 'from memory' ? ', from memory' : ''})`
    : 'what it rots is not known';
  if (isRootRot(defect, context))
    return notJudged(
      `${rots}, and how firmly the tree is anchored is unknown, whatever the stem looks like`,
      `Have the root collar exposed or a pull test made: follow-up F1 root inspection, of ${id.value}.`,
    );
  return notJudged(
    `${rots}; the fruiting body tells the place, not how much wood is gone`,
    `Measure the sound wall behind it: follow-up F1 resistance drilling, of ${id.value}.`,
  );
}

function crackVerdict({ height, id, kind, part }: Defect, settings: Settings): Verdict {
  const toSoil =
    height && kind.value === 'crack' && part?.value !== undefined && reading(height.value, settings);
  if (toSoil && toSoil.high <= 0)
    return { standing: 'exceeds', why: 'it runs into the soil (USDA hazard rating codes)' };
  return notJudged(
    'whether it goes through, and whether it opens, is not recorded',
    `Have somebody look at ${id.value} from near, in wind too, and rate the risk; a crack that opens is written as state increasing.`,
  );
}

function includedBark(settings: Settings): Verdict {
  const setting = settings.limit('included-bark-loss');
  return {
    standing: 'may exceed',
    why: `a union with included bark lacks about ${showNumber(setting.value, setting, 0)} of the strength of a sound one (${authority(setting)})`,
    settle: 'Look into the union from above for cracks, seepage and ribs.',
  };
}

function fieldSigns({ tree, settings }: SignContext): Sign[] {
  const signs: Sign[] = [];
  const add = (kind: SignKind, at: Span, name: string, verdict: Verdict, member?: string) =>
    signs.push({
      kind,
      part: SIGN_KINDS[kind].part,
      subject: member ?? kind,
      name,
      ...(member === undefined ? {} : { member }),
      at: { start: at.start, end: at.end },
      increasing: verdict.standing === 'moving',
      ...verdict,
    });
  const { lean, soil, vigor } = tree;
  if (isDead(tree))
    add('vigor', vigor!, 'the dead tree', {
      standing: 'exceeds',
      why: 'a standing dead tree is rated high at least (USDA hazard rating codes)',
    });
  if (lean) add('lean', lean.angle, 'the lean', leanVerdict(lean, tree, settings));
  if (soil) add('soil', soil, 'the soil at the collar', soilVerdict(soil.value));
  const paired = new Set<string>();
  for (const part of tree.parts) {
    const union = part.union && unionVerdict(part, tree, settings);
    // Both stems of a pair name the same union, and the graver of the two counts.
    if (union && !paired.has(part.name.value)) {
      const mate = tree.parts.find(({ name }) => name.value === part.unionWith?.value);
      if (mate && (!mate.unionWith || mate.unionWith.value === part.name.value)) paired.add(mate.name.value);
      const other = part.unionWith ? ` with ${part.unionWith.value}` : '';
      add('union', part.union!, `the union of ${part.name.value}${other}`, union, part.name.value);
    }
    if (part.lean && part.kind === 'stem') {
      const verdict = against(reading(part.lean.value, settings), 'lean', settings, 'of lean');
      add('stem lean', part.lean, `the lean of ${part.name.value}`, verdict, part.name.value);
    }
  }
  return signs;
}

function leanVerdict(
  { angle, course, toward }: NonNullable<Tree['lean']>,
  { soil }: Tree,
  settings: Settings,
): Verdict {
  const says = `${showQuantity(angle.value)}${toward === undefined ? '' : ` toward ${compassPoint(toward)}`}`;
  if (course === 'new' || course === 'increasing') return { standing: 'moving', why: `${says}, ${course}` };
  const value = readingOf(angle, settings);
  const verdict = against(value, 'lean', settings, 'of lean');
  if (verdict.standing !== 'within') return verdict;
  const grave = judge(value, 'lean-with-heave', settings);
  if (grave.standing === 'within') return verdict;
  if (soil?.value === 'heaving' || soil?.value === 'cracked')
    return {
      ...against(value, 'lean-with-heave', settings, 'of lean'),
      settle: 'Measure the lean now and after the next wind.',
    };
  return course === undefined
    ? notJudged(
        `${says}, and nothing says whether it changes`,
        'Say whether the lean is steady, corrected, new or increasing: compare it with an earlier photograph or measure it twice.',
      )
    : verdict;
}

function soilVerdict(soil: string): Verdict {
  switch (soil) {
    case 'heaving':
      return { standing: 'moving', why: 'heaving' };
    case 'cracked':
      return {
        standing: 'moving',
        why: 'cracked, by the root plate or by drought',
        settle: 'Measure the lean now and after the next wind, and have the roots looked at.',
      };
    case 'unseen':
      return notJudged('nobody saw it', 'Have the ground around the root collar looked at.');
    default:
      return within(`it is ${soil}`);
  }
}

const UNION_GRAVITY = ['sound', 'unseen', 'included bark', 'cracked'];

function unionVerdict(part: Part, tree: Tree, settings: Settings): Verdict {
  const other = tree.parts.find(
    one =>
      one !== part && (one.name.value === part.unionWith?.value || one.unionWith?.value === part.name.value),
  );
  const both = [part.union!.value, ...(other?.union && isOneUnion(part, other) ? [other.union.value] : [])];
  const union = both.reduce((worse, one) =>
    UNION_GRAVITY.indexOf(one) > UNION_GRAVITY.indexOf(worse) ? one : worse,
  );
  switch (union) {
    case 'cracked':
      return { standing: 'moving', why: 'cracked' };
    case 'included bark':
      return includedBark(settings);
    case 'unseen':
      return notJudged('nobody saw it', `Have the union of ${part.name.value} looked at from above.`);
    default:
      return within('it is sound');
  }
}

const isOneUnion = (one: Part, other: Part): boolean =>
  one.unionWith?.value === other.name.value || other.unionWith?.value === one.name.value;

function joinedSigns({ tree, settings }: SignContext): Sign[] {
  if (tree.joined.length === 0) return [];
  return strengthOf(tree, settings).groups.map(({ joined, figures }): Sign => {
    const isProved = joined.state === 'proved';
    const together = against(figures.joined, 'section-loss', settings, 'of the strength lost between them');
    const apart = judge(figures.apart, 'section-loss', settings);
    const open: Verdict = {
      standing: together.standing === 'within' || apart.standing === 'exceeds' ? 'within' : 'may exceed',
      why: `${together.why}, if they are one inside`,
      settle:
        'Have a climbing inspection, a probe from one opening toward the other or a tomogram between them decide it.',
    };
    return {
      kind: 'joined',
      part: 'stem',
      subject: joined.defects.map(({ value }) => value).join('-'),
      name: `the hollow of ${namesOf(joined.defects)}`,
      at: joined.at,
      increasing: false,
      ...(isProved ? together : open),
    };
  });
}
