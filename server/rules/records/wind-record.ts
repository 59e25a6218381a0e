import { judge, showLimit, showNumber, showValue } from '../../assess/judge.ts';
import { windsOf } from '../../assess/site-wind.ts';
import { valuesOf } from '../../facts/interval.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Site, Tree } from '../../facts/types.ts';
import { settingsFor } from '../../facts/workspace.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import {
  NOTHING,
  type PlacedReport,
  type Rule,
  type RuleReport,
  spanOf,
  type WorkspaceContext,
} from '../rule.ts';

type WindRecords = Pick<Site, 'hill' | 'windFactor'>;

function check({ tree, site, settings }: TreeContext): readonly RuleReport[] {
  if (tree.felled || !(tree.hill || tree.windFactor)) return NOTHING;
  return reportsOn(tree, tree, site, settings);
}

/** Of a site as it is for a tree that states nothing of its own. */
function* checkWorkspace({ workspace, today }: WorkspaceContext): Iterable<PlacedReport> {
  for (const placed of workspace.sites.values()) {
    const site = placed.fact;
    if (!(site.hill || site.windFactor)) continue;
    for (const report of reportsOn(site, site, site, settingsFor(workspace, placed.path, today)))
      yield { ...report, in: placed };
  }
}

function reportsOn(
  { hill, windFactor }: WindRecords,
  of: Pick<Tree, 'hill'>,
  site: Site | undefined,
  settings: Settings,
): readonly RuleReport[] {
  const reports: RuleReport[] = [];
  if (windFactor) {
    const { factor } = windFactor;
    const value = valuesOf(factor.value, settings);
    const judged = judge(value, 'wind-factor', settings);
    if (value.low < 1)
      reports.push({
        at: spanOf(factor),
        grade: 'stated',
        subject: 'wind-factor',
        message: `A wind factor of ${showValue(judged)} is less than 1. Shelter is not credited, so it counts as 1.`,
        remedy: 'Remove it, or state a factor of 1 or more.',
      });
    if (judged.standing !== 'within')
      reports.push({
        at: spanOf(factor),
        grade: 'stated',
        subject: 'wind-factor',
        message: `A wind factor of ${showValue(judged)} is over ${showLimit(judged)}. It is used as stated.`,
        remedy: `State a factor up to ${showNumber(judged.setting.value, judged.setting, 2)}, a hill as a hill, or the exposure.`,
      });
  }
  if (hill?.shape && !windsOf(of, site, settings).some(wind => wind.hill))
    reports.push({
      at: spanOf(hill),
      grade: 'stated',
      level: 'note',
      subject: 'hill',
      message: `This ${hill.shape} is too low or too gentle to speed up the wind and counts as flat ground (${cite('asce-7-topography').short}).`,
      remedy: 'Check its height and its half-length, or write hill flat ground.',
    });
  return reports;
}

export const windRecord: Rule = {
  name: 'wind-record',
  group: 'records',
  level: 'warning',
  summary: 'a hill that does not count, or an unusual wind factor',
  sources: [cite('asce-7-topography'), cite('practice')],
  explanation:
    'A hill speeds up the wind by the topographic factor Kzt of ASCE 7. It must rise by at least a fifth of its half-length and be at least 4.5 m high (18 m in exposure B). A lower or gentler hill counts as flat ground and is reported as a note. On the lower half of a hill, where the standard does not require the factor, it is applied anyway.\n\nA wind factor is what an arborist adds to the design wind speed for an edge made by felling or a gap between buildings. One over the limit wind-factor is reported and used as stated. One below 1 is reported and counts as 1, because neighbors that shelter a tree today may be gone tomorrow.',
  limitations:
    'Shelter by a similar hill upwind, and whether the factor is right: the person on site judges that.',
  acceptable: true,
  examples: [
    {
      title: 'A hill on the site that is too gentle; a tree with its own factor',
      text: `site "Long Meadow"
  wind 92 mph, exposure B
  hill round hill, 40 ft high, half-length 150 ft, at crest #! note stated
  wind-factor 1.1 "gap between the two halls"

tree 851
  wind-factor 0.8 "behind the barn" #! stated

tree 852
  wind-factor 1.5 "edge of the new road" #! stated
`,
    },
    {
      title: 'A ridge that counts; a tree below it, on flat ground; a factor within the limit',
      text: `site "High Meadow"
  wind 92 mph, exposure B
  hill ridge, 80 ft high, half-length 200 ft, at crest

tree 853
  hill flat ground

tree 854
  wind-factor 1.2 "edge since the neighbors to the west were felled"
`,
    },
  ],
  check,
  checkWorkspace,
};
