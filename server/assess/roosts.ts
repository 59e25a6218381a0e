/** Potential and found bat roosts in a tree, and work that affects them. */

import { formatMonthDay } from '../base/dates.ts';
import { type DaySpan, overlap } from '../base/yearly-window.ts';
import type { PlacedSeason, Settings } from '../facts/settings.ts';
import type { BatCheck, Defect, FollowUp, Prescription, Tree } from '../facts/types.ts';
import { areAbout } from './causes.ts';
import { closedDays, seasonStanding } from './days.ts';
import { openDefects, openFollowUps } from './evidence.ts';
import { currentJobs, type Job } from './jobs.ts';
import { authority } from './judge.ts';

const ROOSTS: ReadonlySet<Defect['kind']['value']> = new Set(['cavity', 'loose bark', 'woodpecker holes']);

/** Open defects accessible to bats; a hollow without an opening is not. */
export const roostFeatures = (tree: Tree): readonly Defect[] =>
  openDefects(tree).filter(({ kind, opening }) => ROOSTS.has(kind.value) && !opening?.closed);

/** Work that removes the stem or cuts at or beside the defects, according to `for` and `remove` if stated. */
export function meetsRoosts(
  { kind, remove, for: causes }: Prescription,
  features: readonly Defect[],
): boolean {
  if (features.length === 0) return false;
  if (kind.value === 'monolith' || (kind.value === 'fell' && remove.length === 0)) return true;
  if (remove.length > 0) {
    return features.some(
      ({ part }) => part !== undefined && remove.some(({ value }) => value === part.value),
    );
  }
  return causes.length === 0 || features.some(defect => areAbout(causes, defect));
}

/** Current jobs that affect a potential roost. */
export function roostJobs(tree: Tree, today: number): readonly Job[] {
  if (tree.defects.length === 0 || tree.prescriptions.length === 0) return [];
  const features = roostFeatures(tree);
  return features.length === 0
    ? []
    : currentJobs(tree, today).filter(({ prescription }) => meetsRoosts(prescription, features));
}

/** The last check up to a day, inclusive, with a result; of two on one day the later in the text. */
export const lastBatCheckBy = ({ batChecks }: Tree, day: number): BatCheck | undefined =>
  batChecks
    .filter(({ date, found }) => date.value <= day && found.length > 0)
    .reduce<BatCheck | undefined>(
      (latest, check) => (latest && latest.date.value > check.date.value ? latest : check),
      undefined,
    );

/** A result of a bat check, with its day. */
export type FoundBats = BatCheck['found'][number] & { readonly day: number };

/** Whether a job removes only parts other than that with the roost. */
function spares({ defects }: Tree, { remove }: Prescription, { defect }: FoundBats): boolean {
  if (remove.length === 0 || !defect) return false;
  const part = defects.find(({ id }) => id.value === defect.value)?.part;
  return part !== undefined && !remove.some(({ value }) => value === part.value);
}

/** Roosts and possible roosts that a prescription affects. */
export const roostsMet = (tree: Tree, prescription: Prescription): readonly FoundBats[] =>
  tree.batChecks.flatMap(({ date, found }) =>
    found
      .filter(({ use }) => use !== 'none')
      .map(one => ({ ...one, day: date.value }))
      .filter(one => !spares(tree, prescription, one)),
  );

/** A planned bat check, due by the day and still valid on it. */
export const plannedBatCheck = (tree: Tree, day: number, validity: number): FollowUp | undefined =>
  openFollowUps(tree).find(
    ({ kind, due }) =>
      kind.value === 'bat check' && due !== undefined && due.value <= day && day - due.value <= validity,
  );

/** A season in which work on trees with roosts is closed. */
export interface BatSeason {
  readonly name: string;
  readonly season: PlacedSeason;
}

/** Their maternity season, and for fellings the days on which the place leaves trees with roosts standing. */
export function batSeasons({ kind }: Prescription, settings: Settings): readonly BatSeason[] {
  const { batMaternity, batTrees } = settings;
  const fells = kind.value === 'fell' || kind.value === 'monolith';
  return [
    ...(batMaternity ? [{ name: 'the maternity season of bats', season: batMaternity }] : []),
    ...(fells && batTrees ? [{ name: 'the closed season for trees with bats', season: batTrees }] : []),
  ];
}

/** Overlap of a job with these seasons; `within` for none or unknown days. */
export function batStanding(
  { days, prescription }: Job,
  settings: Settings,
): 'exceeds' | 'may exceed' | 'within' {
  const windows = batSeasons(prescription, settings).map(({ season }) => season.window);
  return days ? seasonStanding(days, closedDays(days, windows)) : 'within';
}

/** `the maternity season of bats 04-15..08-31 (common practice)`. */
export const showBatSeason = ({ name, season }: BatSeason): string =>
  `${name} ${formatMonthDay(season.window.from)}..${formatMonthDay(season.window.to)} (${authority(season)})`;

/** Those that have some of these days, in words. */
export const showBatSeasons = (
  days: DaySpan,
  prescription: Prescription,
  settings: Settings,
): readonly string[] =>
  batSeasons(prescription, settings)
    .filter(({ season }) => overlap(days.from, days.to, season.window).length > 0)
    .map(showBatSeason);

export const BAT_CAUTION =
  'Bats and their roosts are protected in most places, in many of them also while the bats are away. Local law and a licensed bat biologist decide.';
