/** A piece lowered on a rope: the peak force, and what rope, block, sling and spar make of it. */

import { exact, type Interval, interval, multiply } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { type Quantity, type Unit, unitOf } from '../base/quantity.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Crew, Placed, Prescription, Tree } from '../facts/types.ts';
import {
  blockForce,
  caughtForce,
  frustumVolume,
  isLegAngle,
  ropeStiffness,
  runningForce,
  sparArm,
  weightOf,
} from '../mechanics/rigging.ts';
import type { OuterEdge } from '../mechanics/section-types.ts';
import { barkThickness, weightAbove } from '../mechanics/stem.ts';
import { greenMass } from '../mechanics/timber.ts';
import { safetyFactor } from '../mechanics/wind.ts';
import { barkShare } from '../practice/bark.ts';
import type { LimitName } from '../practice/limits.ts';
import { KNOTS, LEGS } from '../practice/rigging.ts';
import { lookupGenus } from '../practice/species.ts';
import type { WeakGround } from '../practice/weak-ground.ts';
import { greenStrength } from '../practice/wood.ts';
import { isDead } from './doses.ts';
import { type Judged, judge, showInterval } from './judge.ts';
import { crownOf, isOnLimb } from './load.ts';
import { NO_WEIGHT, ownWeight, weightDoubt } from './own-weight.ts';
import type { PartSafety } from './part-safety.ts';
import { openWork } from './prescriptions.ts';
import { densityOf } from './salvage.ts';
import { gravest, type SignStanding } from './standing.ts';
import { leftOver, soundModuli } from './stem-section.ts';
import { lossAt, strengthOf } from './strength.ts';

type Piece = NonNullable<Prescription['piece']>;

export interface RiggedElement {
  readonly name: 'rope' | 'block' | 'sling' | 'spar';
  /** N; of the spar at the block. */
  readonly load: Interval;
  /** Strength over load, against its limit; undefined where a figure is missing. */
  readonly judged: Judged | undefined;
  /** Not judged unless it exceeds, where a figure is missing. */
  readonly standing: SignStanding;
  /** What is missing, for the middle of a sentence. */
  readonly missing: readonly string[];
  readonly weak: readonly WeakGround[];
  /** Where the spar is weakest, for the middle of a sentence. */
  readonly where?: string;
}

export interface Rigging {
  readonly prescription: Prescription;
  /** kg; undefined if the piece is not known. */
  readonly mass: Interval | undefined;
  /** Of forces, as the crew writes them. */
  readonly unit: Unit;
  /** N, in the rope. */
  readonly peak: Interval;
  /** N. */
  readonly atBlock: Interval;
  readonly elements: readonly RiggedElement[];
  readonly standing: SignStanding;
  /** Of the spar, as of any part. */
  readonly part: PartSafety;
}

/** m³: a frustum where both ends are stated, else a cylinder; unbounded above where a size is. */
function pieceVolume({ length, diameter, narrow }: Piece, settings: Settings): Interval | undefined {
  if (!length || !diameter) return undefined;
  const [long, wide, other] = [length, diameter, narrow ?? diameter].map(({ value }) =>
    valuesOf(value, settings),
  ) as [Interval, Interval, Interval];
  return [long, wide, other].every(({ low }) => low >= 0) ? frustumVolume(long, wide, other) : undefined;
}

/** kg, as stated or by the density of green wood. */
export function pieceMass(tree: Tree, piece: Piece, settings: Settings): Interval | undefined {
  if (piece.mass) return valuesOf(piece.mass.value, settings);
  const volume = pieceVolume(piece, settings);
  return volume && greenMass(volume, densityOf(tree, settings).range);
}

/** Of the open work that is rigged. */
export const riggingsOf = (
  tree: Tree,
  crew: (id: string) => Crew | undefined,
  settings: Settings,
): readonly Rigging[] =>
  tree.prescriptions.some(({ rigged }) => rigged)
    ? openWork(tree)
        .filter(({ rigged }) => rigged)
        .map(prescription =>
          riggingOf(tree, prescription, prescription.crew && crew(prescription.crew.value), settings),
        )
    : [];

/** A reading that states something, at least 0. */
function read(quantity: Placed<Quantity> | undefined, settings: Settings): Interval | undefined {
  if (!quantity || quantity.value.form === 'unseen') return undefined;
  const { low, high } = valuesOf(quantity.value, settings);
  return high >= 0 ? interval(Math.max(0, low), high) : undefined;
}

export const riggingOf = memo(
  (tree: Tree, prescription: Prescription, crew: Crew | undefined, settings: Settings): Rigging => {
    const { piece } = prescription;
    const rigged = prescription.rigged!;
    const stated = piece && pieceMass(tree, piece, settings);
    const mass = stated && stated.low > 0 ? stated : undefined;
    const found = peakForce(rigged, mass, crew, settings);
    const { force } = found;
    const legs = read(rigged.legs, settings);
    const angle = legs && isLegAngle(legs) ? legs : LEGS;
    const atBlock = blockForce(force, angle);
    const spar = sparUnder(tree, prescription, found, angle, settings);
    const elements = [
      ropeUnder(crew?.riggingLine, found, settings),
      held('block', read(crew?.block, settings), atBlock, found, settings),
      held('sling', read(crew?.sling, settings), atBlock, found, settings),
      spar,
    ];
    return {
      prescription,
      mass,
      unit: unitFor(crew, prescription),
      peak: force,
      atBlock,
      elements,
      standing: gravest(elements),
      part: {
        part: 'stem',
        subject: prescription.id.value,
        factor: spar.judged?.value,
        criticalWind: undefined,
        judgedBy: 'the spar at the peak force of the rigging',
        weak: spar.weak,
        ...(spar.missing.length > 0 ? { notJudged: `${spar.missing.join(', ')} missing` } : {}),
      },
    };
  },
);

interface Peak {
  /** N; without upper end where something is missing. */
  readonly force: Interval;
  readonly missing: readonly string[];
  /** Lower over upper end where a rope catches it; undefined if not or not known. */
  readonly spread: number | undefined;
}

function peakForce(
  { how, drop, rope }: NonNullable<Prescription['rigged']>,
  mass: Interval | undefined,
  crew: Crew | undefined,
  settings: Settings,
): Peak {
  if (!mass)
    return {
      force: interval(0, Number.POSITIVE_INFINITY),
      missing: ['the mass or the sizes of the piece'],
      spread: undefined,
    };
  const weight = weightOf(mass);
  if (how === 'let run') return { force: runningForce(weight), missing: [], spread: undefined };
  const fall = read(drop, settings);
  const length = read(rope, settings);
  const strength = read(crew?.riggingLine?.strength, settings);
  const elongation = read(crew?.riggingLine?.elongation, settings);
  const stretch = elongation && elongation.low > 0 ? elongation : undefined;
  const missing = [
    ...(fall ? [] : ['the drop']),
    ...(length && length.low > 0 ? [] : ['the length of rope under load']),
    ...(strength ? [] : [STRENGTH_OF.rope]),
    ...(stretch ? [] : ['the elongation of the line']),
  ];
  const line =
    length && strength && stretch ? { stiffness: ropeStiffness(strength, stretch), length } : undefined;
  const force = caughtForce(weight, fall, line);
  return { force, missing, spread: missing.length > 0 ? undefined : force.low / force.high };
}

const RATIO: Readonly<Record<RiggedElement['name'], LimitName>> = {
  rope: 'rope-strength-ratio',
  block: 'hardware-strength-ratio',
  sling: 'hardware-strength-ratio',
  spar: 'spar-strength-ratio',
};

const STRENGTH_OF = {
  rope: 'the breaking strength of the line',
  block: 'the breaking strength of the block',
  sling: 'the breaking strength of the sling',
} as const;

/** Strength over load; Infinity under no load. */
function ratio(strength: Interval, load: Interval): Interval {
  const over = (borne: number, force: number) => (force > 0 ? borne / force : Number.POSITIVE_INFINITY);
  return interval(
    Number.isFinite(load.high) ? over(strength.low, load.high) : 0,
    over(strength.high, load.low),
  );
}

function held(
  name: 'rope' | 'block' | 'sling',
  strength: Interval | undefined,
  load: Interval,
  peak: Peak,
  settings: Settings,
): RiggedElement {
  if (strength) return standingFor(name, load, ratio(strength, load), peak, settings);
  const missing = [...peak.missing, STRENGTH_OF[name]];
  return { name, load, judged: undefined, standing: 'not judged', missing, weak: [] };
}

/** Knots take a share of its strength unless it is spliced. */
function ropeUnder(line: Crew['riggingLine'], peak: Peak, settings: Settings): RiggedElement {
  const strength = read(line?.strength, settings);
  const isTied = !line?.spliced;
  const rope = held(
    'rope',
    strength && isTied ? multiply(strength, KNOTS) : strength,
    peak.force,
    peak,
    settings,
  );
  if (!strength || !isTied || rope.standing !== 'may exceed') return rope;
  const at = (share: number) =>
    judge(ratio(multiply(strength, exact(share)), peak.force), RATIO.rope, settings).standing;
  return at(KNOTS.low) === at(KNOTS.high) ? rope : { ...rope, weak: [...rope.weak, 'knots'] };
}

function standingFor(
  name: RiggedElement['name'],
  load: Interval,
  value: Interval,
  { missing, spread }: Peak,
  settings: Settings,
): RiggedElement {
  const judged = judge(value, RATIO[name], settings);
  const standing =
    missing.length > 0 && judged.standing !== 'exceeds' ? ('not judged' as const) : judged.standing;
  const decides = (part: Interval) => judge(part, RATIO[name], settings).standing !== standing;
  const isCatch =
    standing === 'may exceed' &&
    spread !== undefined &&
    (decides(interval(value.low, Math.max(value.low, value.high * spread))) ||
      decides(interval(Math.min(value.low / spread, value.high), value.high)));
  return { name, load, judged, standing, missing, weak: isCatch ? ['catch'] : [] };
}

/** Sections of a tapering spar that are tried between breast height and the block. */
const SECTIONS = 16;
/** m. */
const BREAST_HEIGHT = 1.37;

interface SparSection {
  readonly where: string;
  readonly edge: OuterEdge<Interval>;
  readonly height: Interval;
  readonly loss: Interval;
}

function sparUnder(
  tree: Tree,
  prescription: Prescription,
  peak: Peak,
  angle: Interval,
  settings: Settings,
): RiggedElement {
  const { force } = peak;
  const { anchor } = prescription;
  const at = read(anchor?.height, settings);
  const thick = read(anchor?.diameter, settings);
  const none = (...missing: readonly string[]): RiggedElement => ({
    name: 'spar',
    load: force,
    judged: undefined,
    standing: 'not judged',
    missing: [...peak.missing, ...missing],
    weak: [],
  });
  if (!anchor || !at || !Number.isFinite(at.high)) return none('the anchor of the block');
  if (isDead(tree)) return none('the strength of a dead tree’s wood');
  if (anchor.part.value !== 'trunk')
    return none(`figures of ${anchor.part.value}: only the trunk is computed`);
  const genus = tree.species && lookupGenus(tree.species.value.genus);
  const wood =
    tree.species && genus && !genus.palm ? greenStrength(tree.species.value, genus.leaf) : undefined;
  const dbh = tree.diameters.length === 1 ? read(tree.diameters[0], settings) : undefined;
  const top = read(tree.height, settings);
  const missing = [
    ...(wood ? [] : ['the strength of its wood']),
    ...(dbh && dbh.low > 0 && Number.isFinite(dbh.high) ? [] : ['the dbh of a single stem']),
    ...(top && Number.isFinite(top.high) ? [] : ['the height of the tree']),
    ...(thick && thick.low > 0 && Number.isFinite(thick.high)
      ? []
      : ['the diameter of the trunk at the anchor']),
  ];
  const doubt = weightDoubt(tree, undefined, settings);
  const crown = tree.lean ? crownOf(tree, settings) : undefined;
  if (doubt) missing.push(`its own weight: ${doubt}`);
  else if (tree.lean && !crown) missing.push('the crown of a leaning tree');
  if (missing.length > 0 || !wood || !dbh || !top || !thick) return none(...missing);
  const { range: density } = densityOf(tree, settings);
  const aside = interval(thick.low / 2, thick.high / 2);
  const factors = sectionsBelow(tree, at, dbh, thick, settings).map(({ where, edge, height, loss }) => {
    const below = interval(Math.max(0, at.low - height.high), Math.max(0, at.high - height.low));
    const above = interval(0, Math.max(0, top.high - height.low));
    const axial = interval(0, weightAbove(edge.diameter, above, density).high + 2 * force.high);
    const strength = Number.isFinite(axial.high)
      ? leftOver(wood, axial, edge, loss)
      : interval(0, wood.compression.high);
    const sound = soundModuli(edge);
    const modulus = interval(sound.low * (1 - loss.high), sound.high * (1 - loss.low));
    const weight = crown
      ? ownWeight(tree, { diameter: edge.diameter, height }, crown, density, settings)
      : NO_WEIGHT;
    const moment = Number.isFinite(force.high)
      ? multiply(force, sparArm(angle, below, aside))
      : interval(force.low * sparArm(angle, below, aside).low, Number.POSITIVE_INFINITY);
    return { where, factor: safetyFactor(strength, modulus, moment, weight.moment) };
  });
  const weakest = factors.reduce((a, b) => (b.factor.low < a.factor.low ? b : a));
  const value = interval(weakest.factor.low, Math.min(...factors.map(({ factor }) => factor.high)));
  return { ...standingFor('spar', force, value, peak, settings), where: weakest.where };
}

/** Sound ones from breast height up to the block, and the hollows below it. */
function sectionsBelow(
  tree: Tree,
  anchor: Interval,
  dbh: Interval,
  thick: Interval,
  settings: Settings,
): readonly SparSection[] {
  const { most } = barkShare(tree.species!.value, lookupGenus(tree.species!.value.genus)?.leaf);
  const edgeOf = (diameter: Interval): OuterEdge<Interval> => ({
    diameter,
    bark: interval(0, barkThickness(exact(diameter.low), most).high),
  });
  const sound = Array.from({ length: SECTIONS }, (_, i): SparSection => {
    const up = i / SECTIONS;
    const between = (low: number, high: number) => low + (high - low) * up;
    const diameter = interval(between(dbh.low, thick.low), between(dbh.high, thick.high));
    const from = Math.min(BREAST_HEIGHT, anchor.low);
    const height = interval(between(from, anchor.low), between(from, anchor.high));
    return {
      where: i === 0 ? 'at breast height' : 'between breast height and the block',
      edge: edgeOf(diameter),
      height,
      loss: exact(0),
    };
  });
  const strength = strengthOf(tree, settings);
  const hollow = strength.defects.flatMap((defect): readonly SparSection[] => {
    const { defect: record, outer } = defect.hollow;
    if (isOnLimb(tree, record)) return [];
    const height = defect.height ?? interval(0, anchor.high);
    if (height.low > anchor.high) return [];
    const loss = lossAt(defect, strength);
    return [
      {
        where: `at ${record.kind.value} ${record.id.value}`,
        edge: outer,
        height,
        loss: interval(Math.max(0, loss.low), Math.min(1, loss.high)),
      },
    ];
  });
  return [...sound, ...hollow];
}

/** Pounds-force for those who write in feet or pounds. */
function unitFor(crew: Crew | undefined, { piece }: Prescription): Unit {
  const own = [crew?.riggingLine?.strength, crew?.block, crew?.sling].find(read => read?.value.unit);
  if (own) return own.value.unit!;
  const like = (piece?.length ?? piece?.mass)?.value.unit?.symbol;
  return unitOf(like === 'ft' || like === 'in' || like === 'lb' ? 'lbf' : 'kN')!;
}

/** `1500..4400 lbf`, rounded outward to what a rigger reads. */
export function forceText({ low, high }: Interval, { symbol, factor }: Unit): string {
  const step = symbol === 'kN' ? 0.1 * factor : 10 * factor;
  const ends = interval(Math.floor(low / step + 1e-9) * step, Math.ceil(high / step - 1e-9) * step);
  return showInterval(ends, { unit: symbol }, symbol === 'kN' ? 1 : 0);
}
