/**
 * The signs of a tree: every record that concerns its safety, with the part of the tree and the verdict by the
 * strictest applicable limit. Records that cannot be judged are included as such.
 *
 * Long because the signs of all records and fields are read side by side.
 */

import { compassPoint } from '../../grammar/bearing.ts';
import type { Span } from '../../grammar/text.ts';
import { formatDate } from '../base/dates.ts';
import { ratioText } from '../base/figures.ts';
import { memo } from '../base/memo.ts';
import { showQuantity } from '../base/quantity.ts';
import { listed } from '../base/words.ts';
import { valuesOf } from '../facts/interval.ts';
import { UNREAD } from '../facts/placed.ts';
import { TRUNK } from '../facts/references.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Site, Tree } from '../facts/types.ts';
import { anchorageLeft, leftWords } from './anchorage-left.ts';
import { diebackReadings, increaseIn, increaseWords, leanReadings, readingsOf } from './dated-readings.ts';
import { defectVerdict, grown, isBroadleaved, isRootRot, rootRotBehind } from './defect-verdict.ts';
import { isDead } from './doses.ts';
import { defectName, openDefects } from './evidence.ts';
import { readingOf } from './fall-zone.ts';
import { beyond, carries, judge, showValue } from './judge.ts';
import { type LeanSafety, leanSafety } from './lean-safety.ts';
import { attempt, Fault } from './not-computed.ts';
import { concernsAnchorage } from './pull-doubts.ts';
import { decidingPull, rootsByPull, strainVerdict } from './pull-tests.ts';
import { namesOf } from './section-words.ts';
import { settleText } from './settling-reading.ts';
import { SIGN_KINDS, type SignKind, type TreePart } from './sign-kinds.ts';
import {
  against,
  byStanding,
  isBeyond,
  notJudged,
  type SignContext,
  type Verdict,
  within,
} from './standing.ts';
import { strengthOf } from './strength.ts';
import { limbVerdict, unionVerdict } from './union-verdict.ts';
import { weakWords } from './weak-words.ts';

export interface Sign extends Verdict {
  readonly kind: SignKind;
  readonly part: TreePart;
  /** Stable across edits: the defect, the stem or limb, else the field. */
  readonly subject: string;
  /** For the middle of a sentence: `canker B`. */
  readonly name: string;
  /** The stems and limbs that it is on or between; empty for the trunk. */
  readonly members: readonly string[];
  readonly defect?: Defect;
  readonly at: Span;
  /** It increases, whatever its figure. */
  readonly increasing: boolean;
  /** Its verdict is that of a pull test: another wind load changes it. */
  readonly byPull?: true;
}

const NO_SIGNS: readonly Sign[] = [];

/** Every sign of a standing tree, in the order of the text within its part; none of a felled one. */
export const signsOf = ({ tree, site, settings }: SignContext): readonly Sign[] =>
  tree.felled || isPlain(tree) ? NO_SIGNS : recordedSigns(tree, site, settings);

const recordedSigns = memo((tree: Tree, site: Site | undefined, settings: Settings): readonly Sign[] => {
  const context = { tree, site, settings };
  const signs = [
    ...fieldSigns(context),
    ...openDefects(tree).flatMap(defect =>
      defect.kind.value === UNREAD ? [] : [defectSign(defect, context), ...rootRotSigns(defect, context)],
    ),
    ...joinedSigns(context),
  ];
  return tree.pullTests.length === 0 ? signs : [...signs, ...pullSigns(context, signs)];
});

/** Fast path for most trees: no record that concerns safety. */
const isPlain = ({ defects, parts, lean, soil, vigor, dieback, pullTests }: Tree): boolean =>
  defects.length === 0 &&
  parts.length === 0 &&
  pullTests.length === 0 &&
  !lean &&
  !soil &&
  !dieback &&
  vigor?.value !== 'dead';

/** What would decide a sign that may exceed or is not judged. Computed on demand: for a hollow it takes a search. */
export function settleOf(sign: Sign, context: SignContext): string | undefined {
  if (sign.settle !== undefined || !sign.defect) return sign.settle;
  const found = strengthOf(context.tree, context.settings).defects.find(
    ({ hollow }) => hollow.defect === sign.defect,
  );
  return found && sign.standing === 'may exceed' ? settleText(found, context) : undefined;
}

/** Counts of signs judged, not judged, and certainly or possibly beyond a limit. */
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
  for (const context of contexts) {
    const signs = attempt(() => signsOf(context));
    // Signs that could not be computed are not judged; the rules report why.
    if (signs instanceof Fault) notJudged++;
    else
      for (const sign of signs) {
        if (sign.standing === 'not judged') notJudged++;
        else judged++;
        if (isBeyond(sign)) beyond++;
      }
  }
  return { judged, notJudged, beyond };
}

function defectSign(defect: Defect, context: SignContext): Sign {
  const { kind, id, part, state, at } = defect;
  const onLimb = context.tree.parts.some(one => one.kind === 'limb' && one.name.value === part?.value);
  const row = SIGN_KINDS[kind.value as SignKind];
  const longer =
    kind.value === 'crack' && defect.earlier.length > 0
      ? increaseIn(
          readingsOf(defect, 'length', one => one.length, context.settings),
          'extent-loss',
          context.settings,
        )
      : undefined;
  const increasing = state?.value === 'increasing' || longer !== undefined;
  return {
    kind: kind.value as SignKind,
    part: onLimb && row.onLimb ? 'limb' : isRootRot(defect, context) ? 'roots and ground' : row.part,
    subject: id.value,
    name: defectName(defect),
    members: part && part.value !== TRUNK ? [part.value] : [],
    defect,
    at,
    increasing,
    ...(longer
      ? { standing: 'moving' as const, why: `opening by its readings: ${increaseWords(longer)} long` }
      : rootVerdict(defect, increasing, context)),
  };
}

/** By a pull test, where there is one that judges it; else with what is left of the anchorage. */
function rootVerdict(
  defect: Defect,
  increasing: boolean,
  context: SignContext,
): Verdict & Pick<Sign, 'byPull'> {
  const { tree, site, settings } = context;
  const own = defectVerdict(defect, context);
  const kind = defect.kind.value;
  if (!concernsAnchorage(defect, tree, settings)) return grown(increasing, kind, own);
  const pull = decidingPull(tree, site, settings);
  const byPull = pull ? rootsByPull(own, defect, pull) : own;
  if (byPull !== own) return { ...grown(increasing, kind, byPull), byPull: true };
  const verdict = grown(increasing, kind, own);
  const left = verdict.standing === 'within' ? undefined : anchorageLeft(tree, site, settings);
  if (!left || kind === 'fungus') return verdict;
  return {
    ...verdict,
    why: `${verdict.why}; ${leftWords(left)}; its original anchorage can be measured only by a pull test`,
  };
}

/** A pull test speaks through the signs that it judges; without any it is a sign itself. */
function pullSigns({ tree, site, settings }: SignContext, signs: readonly Sign[]): readonly Sign[] {
  const pull = decidingPull(tree, site, settings);
  if (!pull) return NO_SIGNS;
  const { name, test, verdict } = pull;
  const strain = strainVerdict(pull);
  const base = {
    subject: formatDate(test.date.value),
    members: [],
    increasing: false,
    byPull: true,
  } as const;
  return [
    ...(signs.some(({ byPull }) => byPull)
      ? []
      : [{ ...base, kind: 'pull test', part: 'roots and ground', name, at: test.at, ...verdict } as const]),
    ...(strain
      ? [{ ...base, kind: 'strain', part: 'stem', name: `the strain in ${name}`, ...strain } as const]
      : []),
  ];
}

function fieldSigns({ tree, site, settings }: SignContext): Sign[] {
  const signs: Sign[] = [];
  const add = (kind: SignKind, at: Span, name: string, verdict: Verdict, ...members: readonly string[]) =>
    signs.push({
      kind,
      part: SIGN_KINDS[kind].part,
      subject: members[0] ?? kind,
      name,
      members,
      at: { start: at.start, end: at.end },
      increasing: verdict.standing === 'moving',
      ...verdict,
    });
  const { lean, soil, vigor, dieback } = tree;
  if (isDead(tree))
    add('vigor', vigor!, 'the dead tree', {
      standing: 'exceeds',
      why: 'a standing dead tree is rated at least high (USDA hazard rating codes)',
    });
  if (lean) add('lean', lean.angle, 'the lean', leanVerdict(lean, tree, site, settings));
  if (soil) {
    const own = soilVerdict(soil.value);
    const pull = own.standing === 'not judged' ? decidingPull(tree, site, settings) : undefined;
    add('soil', soil, 'the soil at the collar', pull?.verdict.standing === 'within' ? pull.verdict : own);
  }
  if (dieback) add('dieback', dieback, 'the dieback', diebackVerdict(dieback, tree, settings));
  const paired = new Set<string>();
  for (const part of tree.parts) {
    const union = part.union && unionVerdict(part, tree, site, settings);
    // Both stems of a pair state the same union: the more severe verdict counts.
    if (union && !paired.has(part.name.value)) {
      const mate = tree.parts.find(({ name }) => name.value === part.unionWith?.value);
      if (mate && (!mate.unionWith || mate.unionWith.value === part.name.value)) paired.add(mate.name.value);
      const pair = [part.name.value, ...(part.unionWith ? [part.unionWith.value] : [])].sort();
      add('union', part.union!, `the union of ${listed(pair)}`, union, ...pair);
    }
    const load = part.kind === 'limb' ? limbVerdict(part, tree, site, settings) : undefined;
    if (load) {
      const { name } = part;
      add('limb load', part.foliage ?? part.length ?? name, `the load of ${name.value}`, load, name.value);
    }
    if (part.lean && part.kind === 'stem') {
      const verdict = against(valuesOf(part.lean.value, settings), 'lean', settings, 'of lean');
      add('stem lean', part.lean, `the lean of ${part.name.value}`, verdict, part.name.value);
    }
  }
  return signs;
}

function leanVerdict(
  lean: NonNullable<Tree['lean']>,
  tree: Tree,
  site: Site | undefined,
  settings: Settings,
): Verdict {
  const { angle, course, toward } = lean;
  const says = `${showQuantity(angle.value)}${toward === undefined ? '' : ` toward ${compassPoint(toward)}`}`;
  // No figure lowers what moves, and no word what was measured.
  if (course === 'new' || course === 'increasing') return { standing: 'moving', why: `${says}, ${course}` };
  const increase = increaseIn(leanReadings(tree, settings), 'lean-change', settings);
  if (increase)
    return { standing: 'moving', why: `${says}, increasing by its readings: ${increaseWords(increase)}` };
  return withWeight(angleVerdict(lean, says, tree, settings), tree, site, settings);
}

function angleVerdict(
  { angle, course }: NonNullable<Tree['lean']>,
  says: string,
  { soil }: Tree,
  settings: Settings,
): Verdict {
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
        `${says}, with no record of whether it is changing`,
        'Record whether the lean is steady, corrected, new or increasing. Compare it with an earlier photograph or measure it twice.',
      )
    : verdict;
}

/** The most severe of the angle, the weight alone and the weight in the design wind; all of them in the words. */
function withWeight(byAngle: Verdict, tree: Tree, site: Site | undefined, settings: Settings): Verdict {
  const safety = leanSafety(tree, site, settings);
  if (!safety) return byAngle;
  if (typeof safety === 'string')
    return isBeyond(byAngle) ? { ...byAngle, why: `${byAngle.why}; ${safety}` } : byAngle;
  const why = `${byAngle.why}; ${weightWords(safety)}`;
  return byStanding(byAngle, safety) <= 0
    ? { ...byAngle, why }
    : {
        standing: safety.standing,
        why,
        settle:
          'Measure the lean, the diameter and the crown more closely, and by plumb line the offset of the crown center from the base.',
      };
}

/** `its weight alone takes 6..45 % of the strength of the sound stem; toward the lean it bears 1.1..9.9 times …`. */
function weightWords({ weight, wind, part, standing: worst }: LeanSafety): string {
  const alone = `its weight alone takes ${showValue(weight)} of the strength of the intact stem${beyond(weight)}`;
  const rests = worst === 'within' ? [] : weakWords(part.weak);
  if (!wind) return [alone, ...rests].join('; ');
  const { judged, against: ahead, standing, doubt } = wind;
  const fails =
    judged.value.high <= 0
      ? 'by the figures it fails under its own weight'
      : `toward the lean it ${carries(judged, 'the design wind')}${beyond(judged)}, against the lean ${ratioText(ahead)} times`;
  const blame = doubt
    ? [doubt]
    : standing === judged.standing
      ? []
      : ['an upright stem would be uncertain too'];
  return [alone, fails, ...blame, ...rests].join('; ');
}

/** As of a crown that is broken or dead by the same share. */
function diebackVerdict(dieback: NonNullable<Tree['dieback']>, tree: Tree, settings: Settings): Verdict {
  if (dieback.value.form === 'unseen')
    return notJudged(
      'the crown was not inspected',
      'Have the crown inspected, from above or with binoculars.',
    );
  const verdict = against(
    readingOf(dieback, settings),
    isBroadleaved(tree) ? 'crown-dead-share' : 'crown-dead-share-conifer',
    settings,
    'of the crown died back',
  );
  const increase = increaseIn(diebackReadings(tree, settings), 'share-change', settings);
  if (!increase) return verdict;
  const why = `${verdict.why}, and getting worse: ${increaseWords(increase)}`;
  return verdict.standing === 'within'
    ? notJudged(
        why,
        'Have a qualified person find out why it dies back, starting with roots and root collar, and rate the risk.',
      )
    : { ...verdict, why };
}

function soilVerdict(soil: string): Verdict {
  switch (soil) {
    case 'heaving':
      return { standing: 'moving', why: 'heaving' };
    case 'cracked':
      return {
        standing: 'moving',
        why: 'cracked, by the root plate or by drought',
        settle: 'Measure the lean now and after the next wind, and have the roots inspected.',
      };
    case 'unseen':
      return notJudged('it was not inspected', 'Have the ground around the root collar inspected.');
    default:
      return within(`it is ${soil}`);
  }
}

/** A fungus that decays the roots says nothing good of them where it was recorded with the decay of the stem. */
function rootRotSigns(defect: Defect, context: SignContext): readonly Sign[] {
  const verdict = rootRotBehind(defect, context);
  return verdict
    ? [
        {
          kind: 'fungus',
          part: 'roots and ground',
          subject: defect.id.value,
          name: `the fungus of ${defectName(defect)}`,
          members: [],
          at: defect.at,
          increasing: false,
          ...verdict,
        },
      ]
    : [];
}

function joinedSigns({ tree, settings }: SignContext): Sign[] {
  if (tree.joined.length === 0) return [];
  return strengthOf(tree, settings).groups.map(({ joined, figures }): Sign => {
    const isProved = joined.state.value === 'proved';
    const together = against(
      figures.joined,
      'section-loss',
      settings,
      'loss of bending strength between them',
    );
    const open: Verdict = {
      standing: together.standing === 'within' ? 'within' : 'may exceed',
      why: `${together.why}, if they are connected`,
      settle:
        'Settle it by a climbing inspection, a probe from one opening toward the other, or sonic tomography between them.',
    };
    return {
      kind: 'joined',
      part: 'stem',
      subject: joined.defects.map(({ value }) => value).join('-'),
      members: [],
      name: `the connected cavities ${namesOf(joined.defects)}`,
      at: joined.at,
      increasing: false,
      ...(isProved ? together : open),
    };
  });
}
