/** Days on which the law of the place closes the cutting of trees, by the land that they stand on. */

import { formatMonthDay } from '../base/dates.ts';
import { memo } from '../base/memo.ts';
import { type DaySpan, overlap } from '../base/yearly-window.ts';
import type { Settings } from '../facts/settings.ts';
import type { Prescription, Site } from '../facts/types.ts';
import { isFromMemory, ofKind, type RowOf } from '../practice/law/laws-of.ts';
import type { RegionPack } from '../practice/region-pack.ts';
import { without } from './days.ts';
import { PRUNING_KINDS } from './jobs.ts';
import { coversLand, landDoubt } from './land.ts';
import { fellsTree } from './prescriptions.ts';

export interface CuttingBan {
  readonly row: RowOf<'season'>;
  /** Why it may not bind here, in clauses; none if it does. */
  readonly doubts: readonly string[];
}

/** What the ban says of the work: undefined if the work is free, else doubts about it. */
function doubtsAboutWork(
  { rule }: RowOf<'season'>,
  prescription: Prescription,
): readonly string[] | undefined {
  const { kind } = prescription;
  if (fellsTree(prescription) || kind.value === 'monolith') return [];
  if (rule.acts === 'felling')
    return kind.value === 'pollard' ? ['taking the whole crown may count as felling'] : undefined;
  if (!PRUNING_KINDS.has(kind.value) && kind.value !== 'pollard' && kind.value !== 'fell') return undefined;
  return rule.motorTools ? ['pruning without motor tools is free'] : [];
}

/** Bans that close this work on the land of the site, whatever the day. */
export function cuttingBans(
  { site, settings }: { readonly site: Site | undefined; readonly settings: Settings },
  prescription: Prescription,
): readonly CuttingBan[] {
  return bansIn(settings.region).flatMap((row): CuttingBan[] => {
    const doubts = doubtsAboutWork(row, prescription);
    const covers = coversLand(row.rule, site);
    if (!doubts || covers === 'no') return [];
    return [
      {
        row,
        doubts: [
          ...(covers === 'perhaps' ? [landDoubt(site)] : []),
          ...(row.rule.only ? [`it binds ${row.rule.only} alone`] : []),
          ...doubts,
          ...(isFromMemory(row) ? ['the row is from memory'] : []),
        ],
      },
    ];
  });
}

const bansIn = memo((region: RegionPack) =>
  ofKind(region.rows, 'season').filter(({ rule }) => rule.of === 'cutting'),
);

/** Closed days of a span, without those of an exemption on record. */
export function banDays({ row }: CuttingBan, { exemption }: Prescription, span: DaySpan): readonly DaySpan[] {
  const days = overlap(span.from, span.to, row.rule.closed);
  if (!exemption) return days;
  return exemption.until === undefined ? [] : without(days, [{ from: span.from, to: exemption.until }]);
}

/** `days closed to cutting 03-01..09-30 (BNatSchG § 39(5) no. 2, law)`. */
export const showBan = ({ row: { rule, source, force } }: CuttingBan): string =>
  `days closed to cutting ${formatMonthDay(rule.closed.from)}..${formatMonthDay(rule.closed.to)} (${source}, ${force})`;
