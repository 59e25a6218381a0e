import { prescriptionsInForce } from '../../assess/jobs.ts';
import { fellsTree, jobName } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { stagesLeft } from '../../facts/stages.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { workDone } from '../records-to-fill.ts';
import { plan, pointTo, type Rule, type RuleReport } from '../rule.ts';

function* check({ tree }: TreeContext): Iterable<RuleReport> {
  if (!tree.felled || tree.prescriptions.length === 0) return;
  const day = formatDate(tree.felled.value);
  const isRecorded = tree.works.some(({ prescription: { value } }) =>
    tree.prescriptions.some(one => one.id.value === value && fellsTree(one)),
  );
  for (const prescription of prescriptionsInForce(tree)) {
    const left = stagesLeft(tree, prescription);
    if (left === 0) continue;
    // One work may be the felling; another one, or a stage of several, was never done.
    const fells = fellsTree(prescription) && !isRecorded && left === 1;
    const { value: felled } = tree.felled;
    const end = formatDate(Math.max(felled, prescription.dated ?? felled));
    yield {
      at: prescription.at,
      grade: 'stated',
      ...(fells ? { level: 'note' } : {}),
      subject: prescription.id.value,
      message: `The tree was felled on ${day}, and ${fells ? `no work is on record for ${jobName(prescription)}` : `${jobName(prescription)} is still open`}.`,
      remedy: fells
        ? `Add work ${prescription.id.value} with its date, and who did it.`
        : `Withdraw ${prescription.id.value}: add "withdrawn ${end}" below it.`,
      advice: [
        fells ? workDone(tree, prescription.id.value, day) : plan(prescription.at, `withdrawn ${end}`),
      ],
      related: [pointTo(tree.felled, 'Felled')],
    };
  }
}

export const felledButPrescribed: Rule = {
  name: 'felled-but-prescribed',
  group: 'records',
  level: 'warning',
  summary: 'open work on a tree that has been felled',
  sources: [cite('practice')],
  explanation:
    'A felled tree keeps its record, and the record should be closed. Prescriptions with no work are withdrawn, and the felling itself is recorded as work with a date and a crew. A felling that was prescribed but not recorded is a note.',
  limitations: 'Prescriptions that were withdrawn, replaced or done.',
  appliesTo: ['felled'],
  acceptable: true,
  examples: [
    {
      title: 'Thinning a felled tree; the felling is not on record',
      text: `tree 462
  felled 2025-11-25
  prescription R1 thin #! stated
    dose 10 %

tree 463
  felled 2026-02-02
  prescription R1 fell #! note stated
`,
    },
    {
      title: 'Felled under another prescription',
      text: `tree 463
  felled 2026-02-02
  prescription R1 fell
  work R1 2026-02-02
  prescription R2 fell #! stated
`,
    },
    {
      title: 'Recorded, withdrawn, nothing prescribed',
      text: `tree 464
  felled 2026-02-02
  prescription R1 thin
    withdrawn 2026-02-02 "felled"
  prescription R2 fell
  work R2 2026-02-02

tree 465
  felled 2025-11-25
`,
    },
  ],
  check,
};
