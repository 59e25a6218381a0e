/** Every rule, by subject; the order is that of the documentation. One file each. */

import { flightAirspace } from './aircraft/flight-airspace.ts';
import { flightAtNight } from './aircraft/flight-at-night.ts';
import { flightHeight } from './aircraft/flight-height.ts';
import { flightNearNest } from './aircraft/flight-near-nest.ts';
import { flightOverPeople } from './aircraft/flight-over-people.ts';
import { flightPark } from './aircraft/flight-park.ts';
import { flightPermission } from './aircraft/flight-permission.ts';
import { conductorCrew } from './electricity/conductor-crew.ts';
import { conductorDistance } from './electricity/conductor-distance.ts';
import { conductorVoltageMissing } from './electricity/conductor-voltage-missing.ts';
import { fallZoneConductor } from './electricity/fall-zone-conductor.ts';
import { groundOnly } from './evidence/ground-only.ts';
import { inspectionBeforeStorm } from './evidence/inspection-before-storm.ts';
import { inspectionOld } from './evidence/inspection-old.ts';
import { notJudged } from './evidence/not-judged.ts';
import { photoDateDisagrees } from './evidence/photo-date-disagrees.ts';
import { photoMissing } from './evidence/photo-missing.ts';
import { photoPositionDisagrees } from './evidence/photo-position-disagrees.ts';
import { suspectedOnly } from './evidence/suspected-only.ts';
import { workOnOldInspection } from './evidence/work-on-old-inspection.ts';
import { monolithHeight } from './felling/monolith-height.ts';
import { pieceTooHeavy } from './felling/piece-too-heavy.ts';
import { removalNotCalledFor } from './felling/removal-not-called-for.ts';
import { replacementUnstated } from './felling/replacement-unstated.ts';
import { salvageUnstated } from './felling/salvage-unstated.ts';
import { stumpUnstated } from './felling/stump-unstated.ts';
import { takedownUnstated } from './felling/takedown-unstated.ts';
import { followUpMissingDue } from './follow-up/follow-up-missing-due.ts';
import { followUpOverdue } from './follow-up/follow-up-overdue.ts';
import { reinspectionOverdue } from './follow-up/reinspection-overdue.ts';
import { watchWithoutInterval } from './follow-up/watch-without-interval.ts';
import { mitigationLate } from './mitigation/mitigation-late.ts';
import { mitigationMissing } from './mitigation/mitigation-missing.ts';
import { movement } from './mitigation/movement.ts';
import { ratingUnanswered } from './mitigation/rating-unanswered.ts';
import { ratingIncomplete } from './people/rating-incomplete.ts';
import { ratingMismatch } from './people/rating-mismatch.ts';
import { ratingMissing } from './people/rating-missing.ts';
import { targetWithoutDistance } from './people/target-without-distance.ts';
import { targetWithoutOccupancy } from './people/target-without-occupancy.ts';
import { unqualifiedPerson } from './people/unqualified-person.ts';
import { unsafeToClimbRule } from './people/unsafe-to-climb.ts';
import { workOverTargetWithoutExclusion } from './people/work-over-target-without-exclusion.ts';
import { permitExpired } from './permits/permit-expired.ts';
import { permitMissing } from './permits/permit-missing.ts';
import { permitScope } from './permits/permit-scope.ts';
import { cumulativeDose } from './pruning/cumulative-dose.ts';
import { cutDiameter } from './pruning/cut-diameter.ts';
import { doseMismatch } from './pruning/dose-mismatch.ts';
import { doseUnstated } from './pruning/dose-unstated.ts';
import { flushCut } from './pruning/flush-cut.ts';
import { lateralRatio } from './pruning/lateral-ratio.ts';
import { lionTailing } from './pruning/lion-tailing.ts';
import { offsetBeyondSeason } from './pruning/offset-beyond-season.ts';
import { pruningSeason } from './pruning/pruning-season.ts';
import { pruningStressed } from './pruning/pruning-stressed.ts';
import { raiseTooFar } from './pruning/raise-too-far.ts';
import { reductionAndThinning } from './pruning/reduction-and-thinning.ts';
import { reductionShortOfOffset } from './pruning/reduction-short-of-offset.ts';
import { screenOpened } from './pruning/screen-opened.ts';
import { seasonDose } from './pruning/season-dose.ts';
import { stressRatioAfter } from './pruning/stress-ratio-after.ts';
import { topping } from './pruning/topping.ts';
import { totalReduction } from './pruning/total-reduction.ts';
import { viewNotOpened } from './pruning/view-not-opened.ts';
import { woundPaint } from './pruning/wound-paint.ts';
import { acceptExpired } from './records/accept-expired.ts';
import { acceptIncomplete } from './records/accept-incomplete.ts';
import { acceptNotAllowed } from './records/accept-not-allowed.ts';
import { acceptStale } from './records/accept-stale.ts';
import { acceptTooLong } from './records/accept-too-long.ts';
import { dateOrder } from './records/date-order.ts';
import { duplicateField } from './records/duplicate-field.ts';
import { duplicateName } from './records/duplicate-name.ts';
import { duplicateTag } from './records/duplicate-tag.ts';
import { felledButPrescribed } from './records/felled-but-prescribed.ts';
import { growthBackwards } from './records/growth-backwards.ts';
import { implausibleSize } from './records/implausible-size.ts';
import { limitLoosened } from './records/limit-loosened.ts';
import { limitUnit } from './records/limit-unit.ts';
import { missingReason } from './records/missing-reason.ts';
import { positionFar } from './records/position-far.ts';
import { prescriptionOvertaken } from './records/prescription-overtaken.ts';
import { speciesUnknown } from './records/species-unknown.ts';
import { tagReuse } from './records/tag-reuse.ts';
import { unknownLimit } from './records/unknown-limit.ts';
import { unknownReference } from './records/unknown-reference.ts';
import { unknownRule } from './records/unknown-rule.ts';
import { windowPassed } from './records/window-passed.ts';
import { workBeyondPrescription } from './records/work-beyond-prescription.ts';
import { workOutsideWindow } from './records/work-outside-window.ts';
import type { Rule } from './rule.ts';
import { includedBarkUnion } from './structure/included-bark-union.ts';
import { joinedUnproved } from './structure/joined-unproved.ts';
import { liveCrownRatio } from './structure/live-crown-ratio.ts';
import { readingsContradict } from './structure/readings-contradict.ts';
import { slenderness } from './structure/slenderness.ts';
import { strengthLoss } from './structure/strength-loss.ts';
import { batCheckMissing } from './wildlife/bat-check-missing.ts';
import { batCheckStale } from './wildlife/bat-check-stale.ts';
import { batRoost } from './wildlife/bat-roost.ts';
import { nestActive } from './wildlife/nest-active.ts';
import { nestCheckCoarse } from './wildlife/nest-check-coarse.ts';
import { nestCheckMissing } from './wildlife/nest-check-missing.ts';
import { nestCheckStale } from './wildlife/nest-check-stale.ts';
import { windowUnstated } from './wildlife/window-unstated.ts';

export const RULES: readonly Rule[] = [
  groundOnly,
  inspectionBeforeStorm,
  inspectionOld,
  photoDateDisagrees,
  photoMissing,
  photoPositionDisagrees,
  notJudged,
  suspectedOnly,
  workOnOldInspection,
  includedBarkUnion,
  joinedUnproved,
  liveCrownRatio,
  readingsContradict,
  slenderness,
  strengthLoss,
  movement,
  mitigationMissing,
  mitigationLate,
  ratingUnanswered,
  cumulativeDose,
  cutDiameter,
  doseMismatch,
  doseUnstated,
  flushCut,
  lateralRatio,
  lionTailing,
  offsetBeyondSeason,
  pruningSeason,
  pruningStressed,
  raiseTooFar,
  reductionAndThinning,
  reductionShortOfOffset,
  screenOpened,
  seasonDose,
  stressRatioAfter,
  topping,
  totalReduction,
  viewNotOpened,
  woundPaint,
  monolithHeight,
  pieceTooHeavy,
  removalNotCalledFor,
  replacementUnstated,
  salvageUnstated,
  stumpUnstated,
  takedownUnstated,
  batCheckMissing,
  batCheckStale,
  batRoost,
  nestActive,
  nestCheckCoarse,
  nestCheckMissing,
  nestCheckStale,
  windowUnstated,
  ratingIncomplete,
  ratingMismatch,
  ratingMissing,
  targetWithoutDistance,
  targetWithoutOccupancy,
  unqualifiedPerson,
  unsafeToClimbRule,
  workOverTargetWithoutExclusion,
  conductorCrew,
  conductorDistance,
  conductorVoltageMissing,
  fallZoneConductor,
  flightAirspace,
  flightAtNight,
  flightHeight,
  flightNearNest,
  flightOverPeople,
  flightPark,
  flightPermission,
  permitExpired,
  permitMissing,
  permitScope,
  followUpMissingDue,
  followUpOverdue,
  reinspectionOverdue,
  watchWithoutInterval,
  acceptExpired,
  acceptIncomplete,
  acceptNotAllowed,
  acceptStale,
  acceptTooLong,
  dateOrder,
  duplicateField,
  duplicateName,
  duplicateTag,
  felledButPrescribed,
  growthBackwards,
  implausibleSize,
  limitLoosened,
  limitUnit,
  missingReason,
  positionFar,
  prescriptionOvertaken,
  speciesUnknown,
  tagReuse,
  unknownLimit,
  unknownReference,
  unknownRule,
  windowPassed,
  workBeyondPrescription,
  workOutsideWindow,
];

export const ruleNames: readonly string[] = RULES.map(({ name }) => name);

const byName: ReadonlyMap<string, Rule> = new Map(RULES.map(rule => [rule.name, rule]));

export const ruleNamed = (name: string): Rule | undefined => byName.get(name);
