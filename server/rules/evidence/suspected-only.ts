import type { Span } from '../../../grammar/text.ts';
import { areAbout } from '../../assess/causes.ts';
import { defectName, openDefects, openFollowUps } from '../../assess/evidence.ts';
import { daysLeft, jobName, openWork } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { capital } from '../../base/words.ts';
import type { Defect, Prescription, Tree } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { followUp } from '../records-to-fill.ts';
import { type Advice, pointTo, type Rule, type RuleReport, spanOf } from '../rule.ts';

/** Kinds of work that usually respond to a defect, for prescriptions that do not say what they are for. */
const ANSWERS_DEFECTS: ReadonlySet<Prescription['kind']['value']> = new Set([
  'fell',
  'monolith',
  'reduce',
  'cable',
]);

interface SuspectedBasis {
  readonly at: Span;
  readonly defect: Defect;
  /** Named by the prescription itself. */
  readonly isNamed: boolean;
}

/** The suspected defects a prescription is for; without `for`, all of them if every open defect is suspected. */
function restsOn(
  { kind, for: named, at }: Prescription,
  open: readonly Defect[],
  suspected: readonly Defect[],
): readonly SuspectedBasis[] {
  if (named.length > 0)
    return named.flatMap(cause =>
      suspected
        .filter(defect => areAbout([cause], defect))
        .map(defect => ({ at: spanOf(cause), defect, isNamed: true })),
    );
  return ANSWERS_DEFECTS.has(kind.value) && suspected.length === open.length
    ? suspected.map(defect => ({ at, defect, isNamed: false }))
    : [];
}

/** A follow-up due before the work, or with its due date still to be set where the work has no days. */
function settles(tree: Tree, prescription: Prescription, { id }: Defect, today: number): readonly Advice[] {
  const days = daysLeft(prescription, today);
  if (prescription.between && !days) return [];
  return [followUp(tree, 'climbing inspection', [id.value], days?.from)];
}

function* check({ tree, today }: TreeContext): Iterable<RuleReport> {
  if (tree.prescriptions.length === 0 || tree.defects.length === 0) return;
  const defects = openDefects(tree);
  const suspected = defects.filter(({ state }) => state?.value === 'suspected');
  if (suspected.length === 0) return;
  const open = openWork(tree);
  const planned = (defect: Defect, { between }: Prescription) =>
    openFollowUps(tree).some(
      ({ of, due }) => areAbout(of, defect) && !(due && between && due.value > between.to),
    ) || open.some(({ kind, for: causes }) => kind.value === 'investigate' && areAbout(causes, defect));
  for (const prescription of open) {
    if (prescription.kind.value === 'investigate') continue;
    for (const { at, defect, isNamed } of restsOn(prescription, defects, suspected)) {
      if (planned(defect, prescription)) continue;
      yield {
        at: spanOf(at),
        grade: 'stated',
        ...(isNamed ? {} : { level: 'note' }),
        subject: prescription.id.value,
        message: `${capital(defectName(defect))} is only suspected${defect.seen === undefined ? '' : ` since ${formatDate(defect.seen)}`}. ${capital(jobName(prescription))} ${isNamed ? 'is based on it' : 'names no other reason'}.`,
        remedy: `Plan a follow-up of ${defect.id.value} before the work${isNamed ? '' : ', name what the work is for in its for line'}, or record what confirmed it and delete the state suspected.`,
        advice: settles(tree, prescription, defect, today),
        related: [pointTo(defect.at, 'Only suspected')],
      };
    }
  }
}

export const suspectedOnly: Rule = {
  name: 'suspected-only',
  group: 'evidence',
  level: 'warning',
  summary: 'work based on a defect that is only suspected',
  sources: [cite('a300-9'), cite('practice')],
  explanation:
    'Checks open prescriptions that name what they are for, and the state of those defects. Where a felling, habitat snag, reduction or cable names no reason and every active defect is only suspected, the finding is a note. A suspicion is a reason to inspect more closely; work that cannot be undone needs stronger evidence. A prescription to investigate the defect, or a follow-up of it due before the last day of the work, resolves the finding.',
  limitations:
    'Work that is right whether or not the suspicion is confirmed: name what else it is for, or record an exception.',
  appliesTo: ['defects'],
  acceptable: true,
  examples: [
    {
      title: 'A reduction for decay suspected from sounding with a mallet',
      text: `tree 301
  inspection 2026-04-02 from ground
  defect A decay
    state suspected
  prescription R1 reduce
    dose 10 %
    for A #! stated
    between 2026-10-01..2026-11-30
`,
    },
    {
      title: 'A felling that names no reason, on a tree where nothing but a suspicion is on record',
      text: `tree 304
  inspection 2026-04-02 from ground
  defect A root decay
    state suspected
  prescription R1 fell #! note stated
    between 2026-10-01..2026-11-30
`,
    },
    {
      title: 'Drilling planned before the work; an investigation; a confirmed defect',
      text: `tree 302
  inspection 2026-04-02 from ground
  defect A decay
    state suspected
  defect B crack
  prescription R1 reduce
    dose 10 %
    for A, B
    between 2026-10-01..2026-11-30
  follow-up F1 resistance drilling
    of A
    due 2026-09-01

tree 303
  inspection 2026-04-02 from ground
  defect A decay
    state suspected
  prescription R1 investigate
    for A

tree 305
  inspection 2026-04-02 from ground
  defect A decay
    state suspected
  defect B crack
  prescription R1 fell

tree 306
  inspection 2026-04-02 from ground
  defect A decay
    state suspected
  prescription R1 thin
    dose 5 %
`,
    },
  ],
  check,
};
