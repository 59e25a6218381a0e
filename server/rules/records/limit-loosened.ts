import { authority, showNumber } from '../../assess/judge.ts';
import { formatDate, formatMonthDay } from '../../base/dates.ts';
import { showQuantity } from '../../base/quantity.ts';
import { capital } from '../../base/words.ts';
import { covers, type YearlyWindow } from '../../base/yearly-window.ts';
import {
  commonSeason,
  commonSetting,
  fitsLimit,
  floorOf,
  isAllowed,
  isAllowedSeason,
  isLooser,
  type PlacedSeason,
  type Setting,
  type Settings,
  type WrittenLimit,
  type WrittenSeason,
} from '../../facts/settings.ts';
import type { Practice } from '../../facts/types.ts';
import { type PlacedFact, settingsFor, settingsWithout } from '../../facts/workspace.ts';
import { findLimit } from '../../practice/limits.ts';
import type { ClosedSeason } from '../../practice/region-pack.ts';
import {
  NOTHING,
  type PlacedReport,
  type Rule,
  type RuleReport,
  spanOf,
  type WorkspaceContext,
} from '../rule.ts';

function* checkWorkspace({ workspace, today }: WorkspaceContext): Iterable<PlacedReport> {
  for (const placed of [...workspace.practices.values()].flat()) {
    const { limits, seasons, approaches } = placed.fact;
    if (limits.length + seasons.length + approaches.length === 0) continue;
    const { region, approach } = settingsFor(workspace, placed.path, today);
    const without = settingsWithout(workspace, placed as PlacedFact<Practice>, today);
    for (const written of limits) {
      const report = loosened(written, without, region, today);
      if (report) yield { ...report, in: placed };
    }
    for (const written of seasons) {
      const report = shortened(written, without, region);
      if (report) yield { ...report, in: placed };
    }
    const [first] = approaches;
    if (first && approach.from === 'region') yield { ...overruled(first, approach, region), in: placed };
  }
}

/** Distances of the office stand where no law of the place states any. */
const overruled = (
  { at }: Practice['approaches'][number],
  { citation }: Settings['approach'],
  region: Settings['region'],
): RuleReport => ({
  at,
  grade: 'stated',
  level: 'warning',
  subject: 'approach',
  message: `${region.name} has its own distances to lines (${citation.short}), so those of this block have no effect.`,
  remedy:
    'Remove the approach lines. If the owner of a line allows or requires a distance, write it under the line itself, as agreed.',
});

/** `400 ft (14 CFR Part 107)`. */
const inForce = (setting: Setting): string =>
  `${showNumber(setting.value, setting, 2)} (${authority(setting)})`;

function loosened(
  written: WrittenLimit,
  without: Settings,
  region: Settings['region'],
  today: number,
): RuleReport | undefined {
  const { name, value, authorized } = written;
  const limit = findLimit(name.value);
  if (!limit || !fitsLimit(limit, value.value)) return undefined;
  const at = spanOf(value);
  const subject = limit.name;
  const instead = without.limit(limit.name);
  const what = `The limit ${limit.name} (${limit.summary})`;
  const given = showQuantity(value.value);
  if (!isAllowed(limit, written, region)) {
    const law = limit.rests === 'law';
    const floor = floorOf(limit, region);
    const least = floor === undefined ? '' : `, or with a reason reduced to ${showNumber(floor, limit, 2)}`;
    return {
      at,
      grade: 'stated',
      subject,
      message: `${what} rests on ${limit.rests} and may only be made stricter${least}. ${capital(given)} is looser, so the line has no effect and ${inForce(instead)} stays in force.`,
      remedy: law
        ? 'Remove the line, or add below it what allows the work: authorized by "permit or waiver", until its last day.'
        : 'Remove the line. If one tree is a special case, record an exception there, with a name and a last day.',
    };
  }
  if (!isLooser(limit.direction, value.value.low, instead.value)) return undefined;
  const allowed =
    authorized &&
    limit.rests === 'law' &&
    isLooser(limit.direction, value.value.low, commonSetting(limit, region).value)
      ? authorized
      : undefined;
  if (allowed && today > allowed.until)
    return {
      at: allowed,
      grade: 'stated',
      level: 'warning',
      subject,
      message: `${what} was ${given} under ${allowed.by} until ${formatDate(allowed.until)}. ${capital(inForce(instead))} is in force again.`,
      remedy:
        'Have the authorization renewed and add its new last day. Remove the line once no record depends on it.',
    };
  return {
    at,
    grade: 'stated',
    level: 'note',
    subject,
    message: `${what} is ${given} here${allowed ? `, under ${allowed.by} until ${formatDate(allowed.until)}` : ''}, looser than ${inForce(instead)}.`,
    remedy: allowed
      ? 'Check that the authorization covers the trees of this folder.'
      : 'Check that its reason is still valid whenever the practice is reviewed.',
  };
}

const showWindow = ({ from, to }: YearlyWindow): string => `${formatMonthDay(from)}..${formatMonthDay(to)}`;

function shortened(
  written: WrittenSeason,
  without: Settings,
  region: Settings['region'],
): RuleReport | undefined {
  const name = written.season.value;
  const common = commonSeason(name, region);
  const seasons: Readonly<Record<string, PlacedSeason | undefined>> = {
    nesting: without.nesting,
    'raptor nesting': without.raptorNesting,
    'bat maternity': without.batMaternity,
    pruning: without.pruning,
  };
  const instead = seasons[name];
  if (!instead) return undefined;
  const report = { at: written.at, grade: 'stated' as const, subject: name };
  const days = showWindow(written.days);
  const told = `${showWindow(instead.window)} (${authority(instead)})`;
  if (!isAllowedSeason(written, region))
    return {
      ...report,
      message: `The season ${name} is set by law and may only be made longer. ${capital(days)} leaves out days of it, so the line has no effect and ${told} stays in force.`,
      remedy:
        'Remove the line. If the authority allows work within the season, record an exception on the tree, with the permit.',
    };
  if (covers(written.days, instead.window)) return undefined;
  return {
    ...report,
    level: common && !covers(written.days, common.window) ? 'warning' : 'note',
    message: `The season ${name} is ${days} here, without days of ${told}${protection(common, region)}.`,
    remedy: `Include the days of ${showWindow(instead.window)} too, or check that its reason covers the days it leaves out.`,
  };
}

/** The statute that still applies on the days left out. */
function protection(common: ClosedSeason | undefined, { statutes }: Settings['region']): string {
  const law = statutes.find(({ protects }) => protects === 'birds' || protects === 'bats');
  return common && law ? `; the ${law.citation.short} applies on those days too` : '';
}

export const limitLoosened: Rule = {
  name: 'limit-loosened',
  group: 'records',
  level: 'error',
  summary: 'a practice block that relaxes a limit or a season',
  sources: [],
  explanation:
    'Limits and seasons rest on law, on safety or on practice, as listed in LIMITS.md. A practice block may make any of them stricter. It cannot relax one that rests on law or safety: the line is ignored, and the value that would apply without it still applies. Where the law itself allows more, by a waiver or a permit condition, that is recorded under the limit (authorized). The relaxed value applies until its last day.\n\nThe zone around a felling (exclusion-ratio) may be narrowed to no less than the height of the tree, with a reason, where no local law states it.\n\nDistances to lines (approach) of a block apply where the region has none of its own. Elsewhere they have no effect, which is a warning.\n\nLimits that rest on practice may be set freely, including a shorter season where no law sets one. This is reported so that the absence of findings is not mistaken for the common limit. The margins for estimates and densities are such limits: a narrower margin raises fewer findings.',
  limitations: 'There are no exceptions. It is always reported.',
  appliesTo: [],
  acceptable: false,
  rests: 'law',
  examples: [
    {
      title: 'Law and safety: refused',
      text: `practice "Office limits"
  limit drone-height 5000 ft #! stated
    because "tall trees"
  limit strength-loss 50 % #! stated
    because "veterans"
  limit exclusion-ratio 0 #! stated
    because "we look out"
  limit nest-check-validity 3 days
    because "condition 14 of the permit"
`,
    },
    {
      title: 'A narrower zone around fellings, with its reason',
      text: `practice "Back yards"
  limit exclusion-ratio 1.5 #! note stated
    because "walled yards: the feller calls everybody out by name"
`,
    },
    {
      title: 'Under an authorization, and after it expired',
      text: `practice "Tower site"
  limit drone-height 500 ft #! note stated
    because "crown survey beside the water tower"
    authorized by "waiver 107W-2026-0123", until 2026-12-31
  limit nest-check-validity 14 days
    because "condition 9"
    authorized by "creek permit 2025-31", until 2026-02-28 #! warning stated
`,
    },
    {
      title: 'Distances to lines, where the law of the place has its own',
      text: `site "Lindenplatz"
  region DE

practice "Row"
  approach 2 m up to 33 kV #! warning stated
    because "as always"
`,
    },
    {
      title: 'Distances to lines, where nothing is on record',
      text: `site "Rua das Figueiras"
  region BR

practice "Row"
  approach 5 m up to 33 kV
    because "letter of the owner of the lines"
`,
    },
    {
      title: 'Practice: reported; a narrower margin raises fewer findings',
      text: `practice "Office limits"
  limit inspection-interval-sound 60 months #! note stated
    because "few people"
  limit estimate-margin 5 % #! note stated
    because "all heights by laser"
  limit dose-mature 12 %
    because "dry summers"
`,
    },
    {
      title: 'A season by custom, and one by law',
      text: `site "Linden row"
  region US-OR

practice "Row"
  season nesting 06-01..06-01 #! warning stated
    because "we never saw one"
  season bat maternity 04-01..09-15
    because "warm valley"
`,
    },
    {
      title: 'A law that sets the days of the season',
      text: `site "Lindenallee"
  region DE

practice "Allee"
  season nesting 04-01..06-30 #! stated
    because "nothing breeds here after June"
`,
    },
  ],
  check: () => NOTHING,
  checkWorkspace,
};
