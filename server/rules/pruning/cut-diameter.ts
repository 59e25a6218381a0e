import { isDead } from '../../assess/doses.ts';
import { readingOf } from '../../assess/fall-zone.ts';
import { currentJobs, PRUNING_KINDS } from '../../assess/jobs.ts';
import { judge } from '../../assess/judge.ts';
import { isWeak } from '../../assess/methods.ts';
import { jobName, lengthLimitLike, limitLike } from '../../assess/prescriptions.ts';
import { type Quantity, showQuantity } from '../../base/quantity.ts';
import { capital } from '../../base/words.ts';
import { isDamaged } from '../../facts/damage.ts';
import type { Setting, Settings } from '../../facts/settings.ts';
import type { Placed, Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit } from '../limit-report.ts';
import { plan, type Remedy, type Rule, type RuleReport, spanOf } from '../rule.ts';

/** A cut too large for a weak compartmentalizer, on a tree with no species recorded. */
function ofUnknownSpecies(
  cut: Placed<Quantity>,
  prescription: Prescription,
  subject: string,
  settings: Settings,
): RuleReport | undefined {
  const judged = beyondLimit(readingOf(cut, settings), 'cut-diameter-weak', settings);
  if (!judged) return undefined;
  return {
    at: spanOf(cut),
    grade: 'may exceed',
    level: 'note',
    subject,
    message: `${capital(jobName(prescription))} allows cuts up to ${showQuantity(cut.value)} on a tree of unknown species. The limit is ${limitLike(judged.setting, cut.value)} for a weak compartmentalizer.`,
    remedy: 'Record the species.',
  };
}

function smallerCuts({ at, laterals }: Prescription, cut: Placed<Quantity>, limit: Setting): Remedy {
  const most = limit.value > 0 ? lengthLimitLike(limit, cut.value) : undefined;
  const beside = laterals ? `, laterals ${showQuantity(laterals.value)}` : '';
  return {
    remedy: `Spread the dose over more and smaller cuts${most ? `, up to ${most}` : ''}, or state why a larger cut is worth its decay.`,
    advice: most ? [plan(at, `cuts up to ${most}${beside}`)] : [],
  };
}

function* check({ tree, settings, today }: TreeContext): Iterable<RuleReport> {
  if (tree.prescriptions.length === 0 || isDead(tree)) return;
  for (const { prescription, work, subject } of currentJobs(tree, today)) {
    const cut = work?.cutDiameter ?? prescription.cutDiameter;
    if (!cut || !PRUNING_KINDS.has(prescription.kind.value)) continue;
    const weak = isWeak(tree);
    const judged = judge(readingOf(cut, settings), weak ? 'cut-diameter-weak' : 'cut-diameter', settings);
    if (judged.standing === 'within') {
      const report =
        tree.species || isDamaged(tree, tree, 'species')
          ? undefined
          : ofUnknownSpecies(cut, prescription, subject, settings);
      if (report && !work) yield report;
      continue;
    }
    const sure = judged.standing === 'exceeds';
    yield {
      at: spanOf(cut),
      grade: judged.standing,
      level: sure && !work ? 'warning' : 'note',
      subject,
      message: `${capital(jobName(prescription))} ${work ? 'has' : 'allows'} cuts up to ${showQuantity(cut.value)}, which ${judged.standing} the limit of ${limitLike(judged.setting, cut.value)} ${weak ? `for ${tree.species!.value.genus}, a weak compartmentalizer` : 'for a cut that closes'}.`,
      ...(work
        ? { remedy: 'Check these wounds at each inspection. Expect decay behind them.' }
        : smallerCuts(prescription, cut, judged.setting)),
    };
  }
}

export const cutDiameter: Rule = {
  name: 'cut-diameter',
  group: 'pruning',
  level: 'warning',
  summary: 'pruning cuts larger than the species closes over',
  sources: [
    cite('gilman-pruning'),
    cite('ztv-baumpflege'),
    cite('uf-compartmentalisation'),
    cite('dujesiefken-liese-2008'),
  ],
  explanation:
    'Compares the largest cut with the limit cut-diameter, or with cut-diameter-weak where the species or its genus is known to be a weak compartmentalizer. The cut is the recorded one for completed work, otherwise the prescribed one. Larger cuts expose heartwood, close late or never, and decay. This is a caution: a warning where the cut is still to be made, a note where it was made within the last year or its size is uncertain.',
  limitations:
    'Pollards, habitat snags and felling. Dead trees. An unrated genus has the wider limit. A tree with no recorded species gets a note from the narrower limit upward.',
  appliesTo: ['measured cuts'],
  acceptable: true,
  examples: [
    {
      title: 'A birch, an oak, a range, and completed work',
      text: `tree 353
  species Betula pendula
  prescription R1 clean
    cuts up to 3 in #! warning exceeds

tree 354
  species Quercus garryana
  prescription R1 clean
    cuts up to 6 in #! warning exceeds
  prescription R2 clean
    cuts up to 3..5 in #! note may exceed

tree 355
  species Quercus garryana
  prescription R1 clean
  work R1 2026-02-03
    cuts up to 6 in #! note exceeds
`,
    },
    {
      title: 'At the limit, a pollard; no species on record',
      text: `tree 356
  species Betula pendula
  prescription R1 clean
    cuts up to 2 in

tree 357
  prescription R1 clean
    cuts up to 4 in #! note may exceed
  prescription R2 pollard
    cuts up to 8 in
`,
    },
  ],
  check,
};
