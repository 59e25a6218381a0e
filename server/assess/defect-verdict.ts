/** Verdict on a defect from its kind and readings. */

import { clip, type Interval, interval } from '../base/interval.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Defect, Tree } from '../facts/types.ts';
import { SPLIT } from '../mechanics/lost-sector.ts';
import { cite } from '../practice/citation.ts';
import { failsWords, findFungus, rotsRoots } from '../practice/fungi.ts';
import {
  codesCitation,
  decayBehind,
  decayBehindCitation,
  type RatingCode,
} from '../practice/rating-codes.ts';
import { lookupGenus } from '../practice/species.ts';
import { includedBarkFigure } from '../practice/unions.ts';
import { followUpWords } from './evidence.ts';
import { isRead, readingOf } from './fall-zone.ts';
import { hollowVerdict } from './hollow-verdict.ts';
import { showNumber } from './judge.ts';
import { type SectorLoss, sectorLossOf, sectorVerdict, sectorWords } from './outer-wood.ts';
import { SIGN_KINDS, type SignKind } from './sign-kinds.ts';
import { against, byStanding, notJudged, type SignContext, type Verdict } from './standing.ts';
import { trenchRatio } from './trenches.ts';

/** Kinds that are failing if they increase: they cannot wait. */
const MOVES_WHEN_INCREASING: ReadonlySet<Defect['kind']['value']> = new Set([
  'crack',
  'weak union',
  'included bark',
]);

/** Height up to which something is at the base of the tree, m. */
export const BUTT_HEIGHT = 2;

/** An increasing defect is not settled by a single reading. */
export function grown(increasing: boolean, kind: Defect['kind']['value'], verdict: Verdict): Verdict {
  if (!increasing) return verdict;
  if (MOVES_WHEN_INCREASING.has(kind))
    return { standing: 'moving', why: kind === 'crack' ? 'opening' : 'coming apart' };
  if (verdict.standing !== 'within') return { ...verdict, why: `${verdict.why}, and increasing` };
  return notJudged(
    `${verdict.why}, but increasing at an unknown rate`,
    'Measure it again on a later day: two dated readings show how fast it grows.',
  );
}

/** The more severe of the verdicts by kind and by share of the circumference. */
export function defectVerdict(defect: Defect, context: SignContext): Verdict {
  const own = verdictByKind(defect, context);
  const { judgedBy } = SIGN_KINDS[defect.kind.value as SignKind];
  if (defect.share?.of !== 'circumference' || own.standing === 'moving' || judgedBy === 'circumference')
    return own;
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
      return surfaceVerdict(defect, context);
    case 'root share':
      return rootVerdict(defect, settings);
    case 'trench':
      return trenchVerdict(defect, tree, settings);
    case 'branch diameter':
      return deadWoodVerdict(defect, tree, settings);
    case 'fungus':
      return fungusVerdict(defect, context);
    case 'crack':
      return crackVerdict(defect, context);
    case 'hanger':
      return { standing: 'moving', why: 'loose' };
    case 'union':
      return includedBark();
    default:
      return notJudged(
        'no figure is known for it',
        `Have a qualified person inspect ${defect.id.value} up close and rate the risk.`,
      );
  }
}

const SHARE = interval(0, 1);

export const shareOf = ({ share }: Defect, of: string, settings: Settings): Interval | undefined =>
  share?.of === of && share.share.value.form !== 'unseen'
    ? clip(valuesOf(share.share.value, settings), SHARE)
    : undefined;

/** As stated, else the width over the girth there, or at breast height over that of the tree. */
export function circumferenceShare(defect: Defect, { tree, settings }: SignContext): Interval | undefined {
  const stated = shareOf(defect, 'circumference', settings);
  if (stated) return stated;
  const { width, diameter, across, part, height } = defect;
  if (!width || width.value.form === 'unseen') return undefined;
  const isLow = height !== undefined && valuesOf(height.value, settings).high <= BUTT_HEIGHT;
  const trunk = part === undefined || part.value === 'trunk';
  const girths = diameter ? [diameter, ...(across ? [across] : [])] : isLow && trunk ? tree.diameters : [];
  if (girths.length === 0) return undefined;
  const read = girths.map(({ value }) => valuesOf(value, settings));
  const least = Math.min(...read.map(({ low }) => low));
  const greatest = Math.max(...read.map(({ high }) => high));
  if (!(least > 0)) return undefined;
  const wide = valuesOf(width.value, settings);
  const share = (part: number, whole: number) => Math.min(1, Math.max(0, part) / (Math.PI * whole));
  return interval(share(wide.low, greatest), share(wide.high, least));
}

/** Kinds under whose share of the circumference the wood may be dead. */
const OUTER_WOOD: ReadonlySet<Defect['kind']['value']> = new Set(['canker', 'wound', 'loose bark']);

/** The strength that the outer wood behind a defect of the surface may have lost; undefined if its share is unknown. */
export function outerWoodLoss(defect: Defect, context: SignContext): SectorLoss | undefined {
  if (!OUTER_WOOD.has(defect.kind.value)) return undefined;
  const share = circumferenceShare(defect, context);
  return share && sectorLossOf(defect, share, context);
}

/** By its share of the circumference and, where its depth was read, by the section. */
function surfaceVerdict(defect: Defect, context: SignContext): Verdict {
  const byMark = circumferenceVerdict(defect, context);
  const sector = outerWoodLoss(defect, context);
  if (!sector) return byMark;
  const bySection = sector.isRead ? sectorVerdict(sector, context.settings) : undefined;
  return bySection && byStanding(bySection, byMark) < 0
    ? { ...bySection, why: `${bySection.why}; it affects ${byMark.why}` }
    : { ...byMark, why: `${byMark.why}; ${sectorWords(sector)}` };
}

function circumferenceVerdict(defect: Defect, context: SignContext): Verdict {
  const { settings } = context;
  const share = circumferenceShare(defect, context);
  if (!share)
    return notJudged(
      'its share of the circumference is not recorded',
      `Record the share of the circumference at ${defect.id.value}: share 20 % of circumference, or its width and the diameter there.`,
    );
  const what = 'of the circumference';
  const high = against(share, 'circumference-share', settings, what);
  if (high.standing !== 'within') return high;
  const caution = against(share, 'circumference-caution', settings, what);
  // A caution only: a person has to decide.
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
        `Have the root crown excavated or a static pull test made, and record the share at ${defect.id.value}: share 20 % of roots.`,
      );
}

function trenchVerdict(defect: Defect, tree: Tree, settings: Settings): Verdict {
  const ratio = trenchRatio(defect, tree, settings);
  if (ratio)
    return against(ratio, 'root-cut-distance', settings, 'times the stem diameter away from the bark');
  const { id, distance } = defect;
  return distance && isRead(distance)
    ? notJudged(
        'the diameter of the tree is not recorded',
        'Measure the diameter of the tree at breast height.',
      )
    : notJudged(
        'its distance from the bark is not recorded',
        `Measure the shortest distance of ${id.value} from the bark: distance 4 ft toward N, at ${id.value}.`,
      );
}

export const isBroadleaved = ({ species }: Tree): boolean =>
  species !== undefined && lookupGenus(species.value.genus)?.leaf === 'broadleaved';

const UNSEEN_BRANCH = notJudged(
  'the diameter of the dead branch was not measured',
  'Measure the thickest dead branch, up close or against an object of known size, and record its diameter.',
);

function deadWoodVerdict(defect: Defect, tree: Tree, settings: Settings): Verdict {
  const { diameter } = defect;
  const crown = shareOf(defect, 'crown', settings);
  const verdicts = [
    ...(diameter?.value.form === 'unseen' ? [UNSEEN_BRANCH] : []),
    ...(diameter && diameter.value.form !== 'unseen'
      ? [against(valuesOf(diameter.value, settings), 'dead-wood-diameter', settings, 'thick')]
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
      'neither the diameter of the dead branch nor its share of the crown is recorded',
      `Record the diameter of the thickest dead branch at ${defect.id.value}, an estimate behind ~.`,
    )
  );
}

/** Whether the species decays roots or butt; for an unknown species, whether it is at the base. */
export function isRootRot({ kind, species, height, part }: Defect, { tree, settings }: SignContext): boolean {
  if (kind.value !== 'fungus') return false;
  const found = species && findFungus(species.value.genus, species.value.binomial);
  if (found) return rotsRoots(found);
  if (tree.parts.some(({ name }) => name.value === part?.value)) return false;
  return !height || readingOf(height, settings).low <= BUTT_HEIGHT;
}

/** Of the roots, where the fungus of another kind of defect, `decay A`, also decays them. */
export function rootRotBehind(defect: Defect, { tree }: SignContext): Verdict | undefined {
  const { kind, species, part } = defect;
  const row = species && findFungus(species.value.genus, species.value.binomial);
  const isOnPart = tree.parts.some(({ name }) => name.value === part?.value);
  return kind.value !== 'fungus' && !DECAYED_ROOTS.has(kind.value) && row && rotsRoots(row) && !isOnPart
    ? unknownAnchorage(rotsWords(row), defect, tree)
    : undefined;
}

/** Kinds that are about the roots themselves. */
const DECAYED_ROOTS: ReadonlySet<string> = new Set(['root decay', 'root loss']);

const unknownAnchorage = (rots: string, defect: Defect, tree: Tree): Verdict =>
  notJudged(
    `${rots}; the anchorage is unknown, whatever the appearance of the stem`,
    `Have the root crown excavated or a static pull test made: ${followUpWords(tree, 'root inspection', defect)}.`,
  );

function rotsWords(row: NonNullable<ReturnType<typeof findFungus>>): string {
  const fails = failsWords(row);
  return `it decays ${row.parts.join(' and ')}${fails ? `, and the tree fails by ${fails}` : ''} (${row.citation.short}${row.confidence === 'from memory' && row.citation.confidence !== 'from memory' ? ', from memory' : ''})`;
}

function fungusVerdict(defect: Defect, context: SignContext): Verdict {
  const { species } = defect;
  const row = species && findFungus(species.value.genus, species.value.binomial);
  const rots = row ? rotsWords(row) : 'the parts it decays are not known';
  if (isRootRot(defect, context)) return unknownAnchorage(rots, defect, context.tree);
  return notJudged(
    `${rots}; ${decayBehind.fungus} (${decayBehindCitation.short}); it marks a location, not the extent of decay`,
    `Measure the sound wall behind it: ${followUpWords(context.tree, 'resistance drilling', defect)}.`,
  );
}

const SPLIT_WORDS = `a through crack leaves ${showNumber(Math.floor(SPLIT.low * 1000) / 1000, { unit: '%' }, 1)} to all of the bending strength, depending on the wind direction`;

function crackVerdict(defect: Defect, { settings }: SignContext): Verdict {
  const { height, part, runs, id } = defect;
  const codes = codesCitation.short;
  const grave = (code: RatingCode, what: string): Verdict => ({
    standing: 'exceeds',
    why: `${what} (${codes}: ${code})`,
  });
  if (runs?.course === 'through')
    return grave('extremely high', `it runs all the way through; ${SPLIT_WORDS}`);
  const foot = height && part?.value !== undefined ? valuesOf(height.value, settings) : undefined;
  if (runs?.soil || (foot && foot.high <= 0)) return grave('high', 'it runs into the soil');
  if (runs?.course === 'deep')
    return { standing: 'exceeds', why: `it runs deep (${cite('usda-hazard-trees-1996').short})` };
  const settle = `Inspect ${id.value} up close, in wind too, and rate the risk. Record how far it goes (runs through, runs deep, runs shallow); for a crack that opens, state increasing.`;
  if (runs?.course === 'shallow')
    return {
      standing: 'may exceed',
      why: `it is in the outer wood only (${codes}: moderate, unless there is decay)`,
      settle: 'Have a qualified person rate it.',
    };
  return notJudged(`its depth and movement are not recorded; ${SPLIT_WORDS}`, settle);
}

export function includedBark(): Verdict {
  const { lacks, citation, confidence } = includedBarkFigure;
  return {
    standing: 'may exceed',
    why: `a union with included bark has about ${showNumber(lacks, { unit: '%' }, 0)} less strength than a sound one (${citation.short}, ${confidence})`,
    settle: 'Inspect the union from above for cracks, seepage and ribs.',
  };
}
