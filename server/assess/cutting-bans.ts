/** Days on which the law of the place closes the cutting of trees, by the land that they stand on and what is in them. */

import { formatMonthDay } from '../base/dates.ts';
import { isLess } from '../base/interval.ts';
import { memo } from '../base/memo.ts';
import { inUnit, lengthUnitOf } from '../base/quantity.ts';
import { type DaySpan, overlap } from '../base/yearly-window.ts';
import { valuesOf } from '../facts/interval.ts';
import type { Settings } from '../facts/settings.ts';
import type { Prescription, Site, Tree } from '../facts/types.ts';
import { breedsInColonies, isBirdOfPrey } from '../practice/birds.ts';
import type { SeasonOf } from '../practice/law/law-row.ts';
import { isFromMemory, ofKind, type RowOf } from '../practice/law/laws-of.ts';
import type { RegionPack } from '../practice/region-pack.ts';
import { standingNests } from './active-nests.ts';
import { without } from './days.ts';
import { openDefects } from './evidence.ts';
import { PRUNING_KINDS } from './jobs.ts';
import { coversLand, landDoubt } from './land.ts';
import { fellsTree } from './prescriptions.ts';
import { roostFeatures } from './roosts.ts';

type SeasonRow = RowOf<'season'>;

export interface CuttingBan {
  readonly row: SeasonRow;
  /** Why it may not bind here, in clauses; none if it does. */
  readonly doubts: readonly string[];
}

export interface BanContext {
  readonly tree: Tree;
  readonly site: Site | undefined;
  readonly settings: Settings;
}

/** What the ban says of the work: undefined if the work is free, else doubts about it. */
function doubtsAboutWork({ rule }: SeasonRow, prescription: Prescription): readonly string[] | undefined {
  const { kind } = prescription;
  if (fellsTree(prescription) || kind.value === 'monolith') return [];
  if (rule.acts === 'felling')
    return kind.value === 'pollard' ? ['removing the whole crown may count as felling'] : undefined;
  if (!PRUNING_KINDS.has(kind.value) && kind.value !== 'pollard' && kind.value !== 'fell') return undefined;
  return rule.motorTools ? ['pruning without motor tools is exempt'] : [];
}

/** What the ban says of the tree: undefined if it is of another kind, else doubts whether it is. */
function doubtsAboutTree({ rule }: SeasonRow, { tree, settings }: BanContext): readonly string[] | undefined {
  if (rule.tallerThan !== undefined) return doubtsAboutHeight(rule.tallerThan, tree, settings);
  switch (rule.of) {
    case 'hollow trees':
      return doubtsAboutHollow(tree);
    case 'colony birds':
      return doubtsAboutNests(tree, breedsInColonies);
    case 'birds of prey':
      return doubtsAboutNests(tree, isBirdOfPrey);
    case 'bats':
      return roostFeatures(tree).length > 0 ? [] : undefined;
    default:
      return [];
  }
}

function doubtsAboutHeight(
  from: number,
  { height }: Tree,
  settings: Settings,
): readonly string[] | undefined {
  if (!height) return ['the height of the tree is not on record'];
  const { low, high } = valuesOf(height.value, settings);
  if (isLess(high, from)) return undefined;
  return isLess(low, from) ? ['the tree may be lower'] : [];
}

function doubtsAboutHollow(tree: Tree): readonly string[] | undefined {
  const defects = openDefects(tree);
  if (defects.some(({ kind, opening }) => kind.value === 'woodpecker holes' || isOpen(kind.value, opening)))
    return [];
  if (defects.some(({ kind }) => kind.value === 'cavity'))
    return ['a cavity without an opening may not count'];
  if (defects.some(({ kind }) => kind.value === 'decay'))
    return ['the decay on record may not count as hollow'];
  return tree.inspections.length === 0 ? ['no inspection shows whether the tree is hollow'] : undefined;
}

const isOpen = (kind: string, opening: { readonly closed?: unknown } | undefined): boolean =>
  kind === 'cavity' && !opening?.closed;

/** @param isOne undefined for a bird that may be one */
function doubtsAboutNests(
  tree: Tree,
  isOne: (bird: string | undefined) => boolean | undefined,
): readonly string[] | undefined {
  const birds = standingNests(tree).map(({ species }) => isOne(species?.name));
  if (birds.includes(true)) return [];
  return birds.some(is => is !== false) ? ['the bird of the nest is not recorded or not known'] : undefined;
}

/** Bans that close this work on the land of the site, for this tree, whatever the day. */
export function cuttingBans(context: BanContext, prescription: Prescription): readonly CuttingBan[] {
  const { site, settings } = context;
  return bansIn(settings.region).flatMap((row): CuttingBan[] => {
    const ofWork = doubtsAboutWork(row, prescription);
    const covers = coversLand(row.rule, site);
    if (!ofWork || covers === 'no') return [];
    const ofTree = doubtsAboutTree(row, context);
    if (!ofTree) return [];
    return [
      {
        row,
        doubts: [
          ...(covers === 'perhaps' ? [landDoubt(site)] : []),
          ...(row.rule.only ? [`it binds only ${row.rule.only}`] : []),
          ...(row.rule.onlyIf ? [row.rule.onlyIf] : []),
          ...ofTree,
          ...ofWork,
          ...(isFromMemory(row) ? ['the row is from memory'] : []),
        ],
      },
    ];
  });
}

/** Seasons of birds of prey and of bats that hold for a whole region are not bans on cutting: see nesting.ts and roosts.ts. */
const isBan = ({ rule: { of, acts, tallerThan, onlyIf } }: SeasonRow): boolean =>
  of === 'cutting' ||
  of === 'hollow trees' ||
  of === 'colony birds' ||
  (of === 'birds of prey' && acts === 'felling') ||
  (of === 'bats' && (tallerThan !== undefined || onlyIf !== undefined));

const bansIn = memo((region: RegionPack) => ofKind(region.rows, 'season').filter(isBan));

/** Closed days of a span, without those of an exemption on record. */
export function banDays({ row }: CuttingBan, { exemption }: Prescription, span: DaySpan): readonly DaySpan[] {
  const days = overlap(span.from, span.to, row.rule.closed);
  if (!exemption) return days;
  return exemption.until === undefined ? [] : without(days, [{ from: span.from, to: exemption.until }]);
}

/** Days of a span that a ban closes beyond doubt, whatever a check for nests or bats finds. */
export const surelyBanned = (
  context: BanContext,
  prescription: Prescription,
  span: DaySpan,
): readonly DaySpan[] =>
  cuttingBans(context, prescription)
    .filter(({ doubts }) => doubts.length === 0)
    .flatMap(ban => banDays(ban, prescription, span));

const TREES: Partial<Record<SeasonOf, string>> = {
  'hollow trees': 'to the felling of hollow trees',
  'colony birds': 'to the felling of nest trees of birds that breed in colonies',
  'birds of prey': 'to the felling of nest trees of birds of prey',
  bats: 'to the felling of trees in which bats may roost',
};

function closedTo({ of, tallerThan }: SeasonRow['rule']): string {
  if (tallerThan !== undefined)
    return `to the cutting of trees of ${inUnit(tallerThan, lengthUnitOf(tallerThan), 1)} and more`;
  return TREES[of] ?? 'to cutting';
}

/** `days closed to cutting 03-01..09-30 (BNatSchG § 39(5) no. 2, law)`. */
export const showBan = ({ row: { rule, source, force } }: CuttingBan): string =>
  `days closed ${closedTo(rule)} ${formatMonthDay(rule.closed.from)}..${formatMonthDay(rule.closed.to)} (${source}, ${force})`;
