import { alternativesTo, areAlternatives, areTheSame, replacesItself } from '../../assess/jobs.ts';
import { endsTree, jobName, openPrescriptionsOfAnyKind } from '../../assess/prescriptions.ts';
import { capital, listed } from '../../base/words.ts';
import { UNREAD } from '../../facts/placed.ts';
import { stagesLeft } from '../../facts/stages.ts';
import type { Prescription, Tree } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { plan, pointTo, type Rule, type RuleReport, spanOf } from '../rule.ts';

/** Whether the other prescription ends before the tree is felled, or does no lasting work. */
const comesFirst = (other: Prescription, end: Prescription): boolean =>
  other.kind.value === 'watch' ||
  other.kind.value === 'investigate' ||
  (other.between !== undefined && end.between !== undefined && other.between.to < end.between.from);

/** Why two open prescriptions conflict; undefined where they do not. */
function conflict(earlier: Prescription, later: Prescription): string | undefined {
  for (const [end, other] of [
    [earlier, later],
    [later, earlier],
  ] as const) {
    if (endsTree(end) && !endsTree(other) && !comesFirst(other, end))
      return 'one removes the tree and the other leaves it standing';
  }
  if (endsTree(earlier) && endsTree(later) && earlier.kind.value !== later.kind.value)
    return 'one leaves a stem and the other leaves nothing';
  return areTheSame(earlier, later) ? 'both prescribe the same, and neither replaces the other' : undefined;
}

function* replacedAfterwards(tree: Tree): Iterable<RuleReport> {
  for (const { id, replaces, withdrawn } of tree.prescriptions) {
    const before = replaces && tree.prescriptions.find(({ id: other }) => other.value === replaces.value);
    if (!before || withdrawn || before.withdrawn || stagesLeft(tree, before) > 0) continue;
    yield {
      at: spanOf(replaces),
      grade: 'stated',
      subject: id.value,
      message: `${id.value} replaces ${jobName(before)}, for which work is on record.`,
      remedy:
        'Remove replaces if this is new work. Otherwise check under which prescription the work was done.',
    };
  }
}

/** By date where known, then by name; never by their order in the file. */
const byDay = (a: Prescription, b: Prescription): number =>
  (a.dated ?? 0) - (b.dated ?? 0) || (a.id.value < b.id.value ? -1 : 1);

function* replacedInCircle(tree: Tree): Iterable<RuleReport> {
  for (const { id, replaces, withdrawn } of tree.prescriptions) {
    if (!replaces || withdrawn || !replacesItself(tree, id.value)) continue;
    yield {
      at: spanOf(replaces),
      grade: 'stated',
      subject: id.value,
      message: `${id.value} replaces ${replaces.value}${replaces.value === id.value ? ', itself' : ', which replaces it in turn'}. Both stay open.`,
      remedy: 'Remove replaces where it is wrong, or withdraw the prescription that no longer applies.',
    };
  }
}

/** Work on record under two alternatives. */
function* bothDone(tree: Tree): Iterable<RuleReport> {
  const isDone = ({ id }: Prescription) =>
    tree.works.some(({ prescription: { value } }) => value === id.value);
  for (const prescription of tree.prescriptions) {
    const { alternatives, id } = prescription;
    const other = alternativesTo(tree, prescription).find(
      one => isDone(one) && alternatives.some(({ value }) => value === one.id.value),
    );
    if (!other || !isDone(prescription)) continue;
    const { start, end } = alternatives[0]!;
    yield {
      at: { start, end },
      grade: 'stated',
      subject: id.value,
      message: `${capital(jobName(prescription))} is an alternative to ${jobName(other)}, and work is on record for both.`,
      remedy: `Check under which prescription the work was done. If it was done under both, remove or ${other.id.value}.`,
    };
  }
}

function* check({ tree }: TreeContext): Iterable<RuleReport> {
  yield* replacedInCircle(tree);
  if (tree.prescriptions.length < 2) return;
  yield* replacedAfterwards(tree);
  yield* bothDone(tree);
  // The kind of a damaged head is unknown.
  const open = openPrescriptionsOfAnyKind(tree)
    .filter(({ kind }) => kind.value !== UNREAD)
    .sort(byDay);
  for (const later of open) {
    const earlier = open
      .slice(0, open.indexOf(later))
      .filter(one => !areAlternatives(tree, one, later) && conflict(one, later) !== undefined);
    const [first] = earlier;
    if (!first) continue;
    const names = earlier.map(({ id }) => id.value);
    const replaces = names.length === 1 && !later.replaces ? `replaces ${names[0]}` : undefined;
    const alternatives = [...later.alternatives.map(({ value }) => value), ...names];
    const or = `or ${alternatives.join(', ')}`;
    yield {
      at: later.at,
      grade: 'stated',
      subject: later.id.value,
      message: `${capital(jobName(later))} and ${listed(earlier.map(jobName))} are ${earlier.length > 1 ? 'all' : 'both'} open: ${conflict(first, later)}.`,
      remedy: `Withdraw ${earlier.length > 1 ? 'those that no longer apply' : 'the one that no longer applies'}, or write under ${later.id.value}${replaces ? `: ${replaces}, or` : ''} where the choice is still open: ${or}.`,
      advice: [...(replaces ? [plan(later.at, replaces)] : []), plan(later.at, or)],
      related: earlier.map(({ at }) => pointTo(at, 'The earlier one')),
    };
  }
}

export const prescriptionOvertaken: Rule = {
  name: 'prescription-overtaken',
  group: 'records',
  level: 'warning',
  summary: 'open prescriptions that contradict each other',
  sources: [cite('practice')],
  explanation:
    'Compares the open prescriptions of one tree. Contradictions are keeping or pruning a tree and felling it, leaving a habitat snag and felling it, or the same work twice for the same defects and parts. A crew sent out with the wrong one does work that cannot be undone. The later of the two is reported; with the same date, the one with the later name, since the order in the file means nothing.\n\nAlso reported are a prescription that replaces one for which all work is on record, and prescriptions that replace each other, all of which stay open. Alternatives awaiting the client’s choice are marked with or and may be open together. Once work is on record for one of them the others no longer count, and work under two of them is reported.',
  limitations:
    'Work that ends before the tree is felled, by the dates of both. Monitoring and investigation. Felling of parts.',
  appliesTo: ['prescriptions'],
  acceptable: true,
  examples: [
    {
      title: 'Keep and fell; the same twice; replaced after it was done',
      text: `tree 431
  prescription R1 keep
  prescription R2 fell #! stated

tree 432
  prescription R1 thin
    dose 10 %
  prescription R2 thin #! stated
    dose 12 %

tree 433
  prescription R1 thin
  work R1 2025-11-10
  prescription R2 reduce
    dose 5 %
    replaces R1 #! stated

tree 438
  prescription R1 clean
  work R1 2025-11-10
  prescription R2 thin
    or R1 #! stated
  work R2 2025-12-01
`,
    },
    {
      title: 'Each replaces the other; made later, and written first',
      text: `tree 437
  prescription R1 keep
    replaces R2 #! stated
  prescription R2 watch
    replaces R1 #! stated

tree 438
  prescription R2 fell #! stated
    dated 2026-05-20
  prescription R1 keep
    dated 2026-03-14
`,
    },
    {
      title: 'Replaced; reduced before it is felled; for different defects; withdrawn',
      text: `tree 434
  prescription R1 keep
  prescription R2 fell
    replaces R1

tree 435
  prescription R1 reduce
    dose 10 %
    between 2026-09-01..2026-09-30
  prescription R2 fell
    between 2028-10-01..2028-11-30

tree 437
  prescription R1 reduce
    dose 10 %
  prescription R2 fell
    or R1

tree 436
  defect A dead wood
  defect B hanger
  prescription R1 clean
    for A
  prescription R2 clean
    for B
  prescription R3 fell
    withdrawn 2026-05-02
`,
    },
  ],
  check,
};
