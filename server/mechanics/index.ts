/**
 * Mechanics: what a stem loses to its cavities, what the wind does to it, what a cut changes, and the few
 * other figures of tree work, as pure functions of SI numbers that know nothing of the notation.
 *
 * Lengths in metres, moments in newton metres, stresses in pascals, speeds in metres per second; bearings in
 * degrees clockwise from north, 0..360; shares from 0 to 1. What is uncertain is an `Interval`, and a figure
 * computed from intervals contains every value that they allow. Impossible input (no wood under the bark, a
 * negative length) is a RangeError; nothing returns NaN. Every figure is a comparative estimate for a
 * qualified person on site: it compares states of one tree and certifies none.
 *
 * | file | what |
 * |---|---|
 * | interval, bounds | intervals; the range of a function that need not be monotone |
 * | section-types, section, outlines | one exact section: loss by bearing, Z, walls; rings to draw |
 * | uncertain-section, joined | the same from intervals; cavities apart and joined |
 * | unread, extreme-sections, envelope | walls between the bearings that were read; the least wood, the most, and all between |
 * | contradictions | readings that cannot all be true |
 * | thumb | the trade's rules of thumb, with their limits of validity |
 * | wind, crown, reduction, offsetting | wind moment of crowns; what a reduction does; what would offset |
 * | sight, photo, exif | what stays hidden; what a photograph can show; a photograph's own record |
 * | stem, timber | ratios of a stem; volume, board feet, mass |
 * | settle | which one reading would decide |
 * | checks | every published value that these functions are held against |
 */

export { type Bounds, bounds, type Direction } from './bounds.ts';
export { type PublishedCheck, publishedChecks } from './checks.ts';
export { type Contradiction, contradictionsOf } from './contradictions.ts';
export { type Crown, silhouetteWidth } from './crown.ts';
export { type PhotoRecord, readPhotoRecord } from './exif.ts';
export * from './interval.ts';
export { type GroupFigures, type GroupHeight, type GroupMember, groupFigures } from './joined.ts';
export {
  type Offsetting,
  type OffsettingReduction,
  offsettingReduction,
  REACH_OF_PRUNING,
  type Reach,
  type WeakSection,
} from './offsetting.ts';
export { type Ring, type SectionOutlines, type Shape, sectionOutlines } from './outlines.ts';
export {
  type Camera,
  groundSampleDistance,
  RESOLVED_PIXELS,
  smallestResolved,
  standOffResolving,
  USUAL_ASPECTS,
} from './photo.ts';
export {
  atLeastEffect,
  type CrownChange,
  doseBounds,
  momentRatio,
  momentRatioBounds,
  reducedCrown,
  seasonsNeeded,
  stressRatio,
} from './reduction.ts';
export { type SectionFigures, sectionFigures, type ThinnestWall } from './section.ts';
export { sectionInputs, unseenDepth, unseenWall, withInputs } from './section-readings.ts';
export type { Cavity, OuterEdge, Section, UncertainSection, WallReading } from './section-types.ts';
export { type Settling, settling } from './settle.ts';
export { hiddenShare, hiddenShareBounds, sightHeight, type View } from './sight.ts';
export {
  barkThickness,
  diameterRatio,
  equivalentDiameter,
  liveCrownRatio,
  rootProtectionRadius,
  slenderness,
  weightAbove,
} from './stem.ts';
export { rulesOfThumb, type Thumb, type Thumbs, type WallRatio } from './thumb.ts';
export {
  boardFeet,
  FORM_FACTOR,
  greenMass,
  huberVolume,
  type Log,
  type LogRule,
  longestPiece,
  newtonVolume,
  smalianVolume,
  stemVolume,
} from './timber.ts';
export {
  type UncertainFigures,
  uncertainFigures,
} from './uncertain-section.ts';
export {
  criticalWind,
  DRAG_COEFFICIENT,
  type Exposure,
  GUST_EFFECT,
  pressureCoefficient,
  safetyFactor,
  velocityPressure,
  type WindEdition,
  type WindSite,
  windMoment,
  windMomentBounds,
} from './wind.ts';
