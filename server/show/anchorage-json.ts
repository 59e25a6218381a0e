/** Roots and pull tests of a tree in the JSON of `weigh`. */

import { anchorageLeft } from '../assess/anchorage-left.ts';
import { anchorageParts, pullResults } from '../assess/pull-tests.ts';
import type { SignContext } from '../assess/standing.ts';
import { formatDate } from '../base/dates.ts';
import { ends, endsOrNull } from './mill-json.ts';

/** Null where neither a pull test nor a loss of roots is on record. */
export function anchorageJson({ tree, site, settings }: SignContext) {
  const left = anchorageLeft(tree, site, settings);
  const pulls = pullResults(tree, site, settings);
  if (!left && pulls.length === 0) return null;
  return {
    left: endsOrNull(left?.share),
    parts: anchorageParts(tree, site, settings).map(
      ({ part, subject, factor, criticalWind, judgedBy, weak, notJudged = null }) => ({
        part,
        subject,
        factor: endsOrNull(factor),
        criticalWind: endsOrNull(criticalWind),
        judgedBy,
        weak: [...weak],
        notJudged,
      }),
    ),
    pullTests: pulls.map(
      ({
        test: { date, toward = null },
        moment,
        reading,
        anchorage,
        load,
        weight,
        judged,
        against,
        verdict,
      }) => ({
        date: formatDate(date.value),
        toward,
        moment: endsOrNull(moment),
        momentAtReading: endsOrNull(reading),
        anchorage: endsOrNull(anchorage),
        windMoment: endsOrNull(load),
        weightMoment: ends(weight),
        against: endsOrNull(against),
        factor: endsOrNull(judged?.value),
        standing: verdict.standing,
        why: verdict.why,
      }),
    ),
  };
}
