/** Findings that keep a crew from beginning. */

import type { Finding } from '../rules/check.ts';
import { EN_STOPS } from './languages/en-findings.ts';

/** The group of a job briefing that a finding belongs to. */
export const groupOf = ({ level, rule }: Finding): Finding['level'] => (rule in EN_STOPS ? 'error' : level);

/** Whether nobody climbs and no day counts until it is settled. Lateness does not: waiting makes it worse. */
export const isStop = (finding: Finding): boolean =>
  groupOf(finding) === 'error' && finding.rule !== 'mitigation-late';
