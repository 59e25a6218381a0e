/** Findings that keep a crew from beginning. */

import type { Finding } from '../rules/check.ts';

/**
 * Rules whose findings, whatever their level, tell the crew not to begin, climb or cut. A test compares them with the
 * sentences of the languages.
 */
export const STOPS: ReadonlySet<string> = new Set([
  'bat-check-missing',
  'bat-roost',
  'cable-too-weak',
  'conductor-crew',
  'conductor-distance',
  'conductor-minimum-distance',
  'crane-near-conductor',
  'cumulative-dose',
  'cutting-ban',
  'empty-nest',
  'fall-zone-conductor',
  'movement',
  'nest-active',
  'nest-check-missing',
  'nest-near',
  'offset-beyond-season',
  'permit-expired',
  'permit-missing',
  'permit-needed',
  'permit-scope',
  'pruning-season',
  'pruning-stressed',
  'pull-test-inclination',
  'season-dose',
  'takedown-unstated',
  'unsafe-to-climb',
  'window-unstated',
]);

/** The group of a job briefing that a finding belongs to. */
export const groupOf = ({ level, rule }: Finding): Finding['level'] => (STOPS.has(rule) ? 'error' : level);

/** Whether nobody climbs and no day counts until it is settled. Lateness does not: waiting makes it worse. */
export const isStop = (finding: Finding): boolean =>
  groupOf(finding) === 'error' && finding.rule !== 'mitigation-late';
