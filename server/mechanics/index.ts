/** First settled signatures; see the folder's files as they arrive. */
import type { Interval } from './interval.ts';

export * from './interval.ts';

// ── bounds.ts
/** How a figure follows an input: a claim that a test holds; `unknown` is searched. */
export type Direction = 'rising' | 'falling' | 'unknown';
export interface Bounds extends Interval {
  /** Values of the inputs, in their order, at which the ends were found. */
  readonly lowAt: readonly number[];
  readonly highAt: readonly number[];
}
export declare function bounds(
  figure: (values: readonly number[]) => number,
  inputs: readonly Interval[],
  directions?: readonly Direction[],
): Bounds;

// ── section.ts: Q is number (one exact section) or Interval (what is known of it)
/** Metres; bearings in degrees clockwise from north. Diameters include the bark. */
export interface OuterEdge<Q = number> {
  readonly diameter: Q;
  /** The diameter across the first; a circle without it. */
  readonly crossDiameter?: Q;
  /** Of the first diameter; matters with crossDiameter only. Default 0. */
  readonly bearing?: number;
  /** Thickness of the bark, taken off all round. */
  readonly bark?: Q;
}
export interface WallReading<Q = number> {
  readonly bearing: number;
  readonly wall: Q;
}
/** A section needs walls or depth; in an uncertain section a cavity with neither is of depth unseen. */
export interface Cavity<Q = number> {
  /** Where the opening faces and the probe went in; needed with depth, opening, or nothing. */
  readonly bearing?: number;
  readonly walls?: readonly WallReading<Q>[];
  readonly depth?: Q;
  /** Width of the opening: a chord on the surface. */
  readonly opening?: Q;
}
export interface Section<Q = number> {
  readonly outer: OuterEdge<Q>;
  readonly cavities: readonly Cavity<Q>[];
}
export type UncertainSection = Section<Interval>;
export interface ThinnestWall {
  readonly thickness: number;
  readonly bearing: number;
}
export interface SectionFigures {
  /** Greatest over bearings in steps of 1°: 0 sound, 1 nothing left. */
  readonly strengthLoss: number;
  /** Bearing that the wind bends towards, degrees. */
  readonly worstBearing: number;
  /** Least Z over bearings, m³; with no cavity the sound section's own. */
  readonly sectionModulus: number;
  readonly soundSectionModulus: number;
  /** Sound wood, m², and its share of the full section. */
  readonly soundArea: number;
  readonly soundShare: number;
  /** Share of the circumference at which there is no wood at the surface. */
  readonly openShare: number;
  /** Thinnest shell between void and surface, opening apart; absent when there is no void or no wall. */
  readonly thinnestWall?: ThinnestWall;
  /** loss at 0°, 1° … 359°. */
  readonly lossByBearing: readonly number[];
}
export declare function sectionFigures(section: Section): SectionFigures;
/** Points are [east, north] in metres from the pith. Rings are closed implicitly. */
export type Ring = readonly (readonly [east: number, north: number])[];
export interface Shape {
  readonly outline: Ring;
  readonly holes: readonly Ring[];
}
export interface SectionOutlines {
  readonly outer: Ring;
  /** Bark's outer edge; absent without bark. */
  readonly bark?: Ring;
  readonly sound: readonly Shape[];
  readonly voids: readonly Shape[];
}
export declare function sectionOutlines(section: Section): SectionOutlines;

// ── uncertain-section.ts
export interface Contradiction {
  readonly cavity: number;
  readonly kind:
    | 'depth beyond the void of the walls'
    | 'depth beyond the far bark'
    | 'wall beyond the pith'
    | 'opening wider than the stem';
  /** What was read, and what the other readings allow, m. */
  readonly read: Interval;
  readonly possible: Interval;
}
export interface UncertainFigures {
  readonly strengthLoss: Interval;
  /** Bearing of the wind at the upper end. */
  readonly worstBearing: number;
  /** Least Z, m³, for the absolute safety factor. */
  readonly sectionModulus: Interval;
  readonly thinnestWall?: Interval;
  readonly openShare: Interval;
  /** The exact sections at which the ends of strengthLoss were found (draw `worst`). */
  readonly best: Section;
  readonly worst: Section;
  readonly contradictions: readonly Contradiction[];
}
export declare function uncertainFigures(section: UncertainSection): UncertainFigures;
/** Everything physically possible. */
export declare function unseenWall(outer: OuterEdge<Interval>): Interval;
export declare function unseenDepth(outer: OuterEdge<Interval>): Interval;
/** Uncertain readings by name ('diameter', 'bark', 'cavity 0 depth', 'cavity 0 wall 1', …). */
export declare function sectionInputs(section: UncertainSection): ReadonlyMap<string, Interval>;
export declare function withInput(section: UncertainSection, name: string, value: Interval): UncertainSection;

// ── joined.ts
export interface GroupMember {
  readonly height: number;
  readonly outer: OuterEdge<Interval>;
  readonly cavity: Cavity<Interval>;
}
export interface GroupHeight {
  readonly height: number;
  readonly apart?: Interval;
  readonly joined: Interval;
  readonly worst: Section;
  readonly worstBearing: number;
}
export interface GroupFigures {
  /** The worst section when each has its own void; when all voids run through. */
  readonly apart: Interval;
  readonly joined: Interval;
  /** Best of apart to worst of joined. */
  readonly strengthLoss: Interval;
  readonly heights: readonly GroupHeight[];
  readonly contradictions: readonly Contradiction[];
}
export declare function groupFigures(members: readonly GroupMember[]): GroupFigures;

// ── thumb.ts
export interface Thumb {
  readonly value: Interval;
  readonly source: string;
}
export type WallRatio =
  | (Thumb & { readonly applies: true })
  | { readonly applies: false; readonly because: string; readonly source: string };
export interface Thumbs {
  readonly wallRatio: WallRatio;
  /** Void diameter over stem diameter. */
  readonly diameterRatio: Interval;
  readonly cubic: Thumb;
  readonly quartic: Thumb;
  readonly withOpening: Thumb;
}
export declare function rulesOfThumb(outer: OuterEdge<Interval>, cavity: Cavity<Interval>): Thumbs;

// ── wind.ts
export type Exposure = 'B' | 'C' | 'D';
export type WindEdition = 'ASCE 7-10' | 'ASCE 7-16' | 'ASCE 7-22';
/** Heights above ground and width, m; `widest` is half way up without it. */
export interface Crown<Q = number> {
  readonly base: Q;
  readonly top: Q;
  readonly spread: Q;
  readonly widest?: Q;
}
export interface WindSite {
  readonly exposure: Exposure;
  readonly edition: WindEdition;
}
export declare function pressureCoefficient(height: number, site: WindSite): number;
export declare function velocityPressure(height: number, speed: number, site: WindSite): number;
export declare function silhouetteWidth(crown: Crown, height: number): number;
export declare function windMoment(
  crowns: readonly Crown[],
  height: number,
  speed: number,
  drag: number,
  site: WindSite,
): number;
export declare function windMomentBounds(
  crowns: readonly Crown<Interval>[],
  height: Interval,
  speed: Interval,
  site: WindSite,
  drag?: Interval,
): Interval;
/** MOR · Z / M. */
export declare function safetyFactor(
  modulusOfRupture: Interval,
  sectionModulus: Interval,
  moment: Interval,
): Interval;

// ── reduction.ts
export interface CrownChange<Q = number> {
  readonly top?: Q;
  readonly spread?: Q;
}
export declare function reducedCrown(crown: Crown, change: CrownChange): Crown;
export declare function momentRatio(
  before: readonly Crown[],
  after: readonly Crown[],
  height: number,
  site: WindSite,
): number;
export declare function momentRatioBounds(
  crown: Crown<Interval>,
  change: CrownChange<Interval>,
  height: Interval,
  site: WindSite,
): Interval;
export declare function stressRatio(momentRatio: Interval, strengthLoss: Interval): Interval;
export declare function doseBounds(crown: Crown<Interval>, change: CrownChange<Interval>): Interval;
export interface WeakSection {
  readonly height: number;
  readonly strengthLoss: number;
}
export type Reach = 'one season' | 'staged' | 'perhaps out of reach' | 'out of reach';
export interface OffsettingReduction {
  /** Share taken off crown length and spread; 1 when nothing suffices. */
  readonly reduction: number;
  readonly dose: Interval;
  readonly seasons?: Interval;
  readonly reach: Reach;
  /** Index of the section that asks for most. */
  readonly governing?: number;
}
export declare function offsettingReduction(
  crowns: readonly Crown[],
  sections: readonly WeakSection[],
  site: WindSite,
  seasonLimit: number,
  reachLimit?: number,
): OffsettingReduction;
export declare function seasonsNeeded(dose: number, seasonLimit: number): number;

// ── sight.ts
export interface View<Q = number> {
  readonly eye: Q;
  readonly distance: Q;
  readonly bottom: Q;
  readonly top: Q;
  readonly beyond: Q;
}
export declare function sightHeight(view: View, height: number): number;
export declare function hiddenShare(view: View, crowns: readonly Crown[]): number;
export declare function hiddenShareBounds(view: View<Interval>, crown: Crown<Interval>): Interval;

// ── photo.ts, exif.ts
export interface Camera<Q = number> {
  readonly focalLength35: Q;
  readonly imageWidth: Q;
}
export declare function groundSampleDistance(distance: Interval, camera: Camera<Interval>): Interval;
export declare function smallestResolved(distance: Interval, camera: Camera<Interval>): Interval;
export declare function standOffResolving(size: Interval, camera: Camera<Interval>): Interval;
export interface PhotoRecord {
  readonly imageWidth?: number;
  readonly imageHeight?: number;
  readonly focalLength35?: number;
  readonly latitude?: number;
  readonly longitude?: number;
  /** Metres above sea level. */
  readonly altitude?: number;
  /** Local time as the camera wrote it: YYYY-MM-DDThh:mm:ss, no zone. */
  readonly takenAt?: string;
}
export declare function readPhotoRecord(bytes: Uint8Array): Promise<PhotoRecord>;

// ── stem.ts
export declare function equivalentDiameter(diameters: readonly Interval[]): Interval;
export declare function slenderness(height: Interval, diameter: Interval): Interval;
export declare function liveCrownRatio(height: Interval, crownBase: Interval): Interval;
export declare function diameterRatio(branch: Interval, stem: Interval): Interval;
export declare function rootProtectionRadius(diameters: readonly Interval[]): Interval;

// ── timber.ts
/** m; small end and large end inside bark. */
export interface Log<Q = number> {
  readonly length: Q;
  readonly smallEnd: Q;
  readonly largeEnd?: Q;
  readonly middle?: Q;
  readonly hollow?: Q;
}
export declare function smalianVolume(log: Log): number;
export declare function huberVolume(log: Log): number;
export declare function newtonVolume(log: Log): number;
export type LogRule = 'Doyle' | 'International 1/4-inch' | 'Scribner';
/** Board feet, hollow deducted. */
export declare function boardFeet(rule: LogRule, log: Log): number;
export declare function stemVolume(diameter: Interval, height: Interval): Interval;
export declare function greenMass(volume: Interval, greenDensity: Interval): Interval;
export declare function longestPiece(massLimit: number, diameter: Interval, greenDensity: Interval): Interval;

// ── settle.ts
export interface Settling {
  readonly input: string;
  /** The result with this input fixed at its low and at its high end. */
  readonly atLow: Interval;
  readonly atHigh: Interval;
  /** End at which the result is decided, and by which grade. */
  readonly decidedAt?: 'low' | 'high';
  readonly decision?: 'exceeds' | 'within';
  /** A reading at or beyond this (towards `decidedAt`) decides. */
  readonly threshold?: number;
}
export declare function settling(
  figure: (inputs: ReadonlyMap<string, Interval>) => Interval,
  inputs: ReadonlyMap<string, Interval>,
  limit: number,
): Settling | undefined;

// ── checks.ts
export interface PublishedCheck {
  readonly name: string;
  readonly source: string;
  readonly expected: number;
  readonly tolerance: number;
  readonly unit?: string;
  compute(): number;
}
export declare const publishedChecks: readonly PublishedCheck[];
