/** A hollow into which nobody looked, and nobody is going to. */

import { defectName, followUpWords, isAnswered } from '../../assess/evidence.ts';
import { hollowDefects } from '../../assess/hollows.ts';
import { capital } from '../../assess/prescriptions.ts';
import type { Defect } from '../../facts/types.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import { followUp } from '../records-to-fill.ts';
import type { Report, Rule } from '../rule.ts';

const isUnread = ({ walls, depth }: Defect): boolean =>
  walls.every(({ thickness }) => thickness.value.form === 'unseen') &&
  (!depth || depth.value.form === 'unseen');

function* check({ tree }: TreeContext): Iterable<Report> {
  if (tree.defects.length === 0) return;
  for (const defect of hollowDefects(tree)) {
    if (!isUnread(defect) || isAnswered(tree, defect)) continue;
    yield {
      at: defect.depth ?? defect.at,
      grade: 'stated',
      ...(tree.targets.length > 0 ? { level: 'warning' } : {}),
      subject: defect.id.value,
      message: `${capital(defectName(defect))} has neither a wall nor a depth that was read${tree.targets.length > 0 ? ' and stands near a target' : ''}, and nothing is planned to find out (${cite('a300-9').short}).`,
      remedy: `Probe or drill it and record the wall or the depth, or plan that: ${followUpWords(tree, 'resistance drilling', defect)}.`,
      advice: [followUp(tree, 'resistance drilling', [defect.id.value])],
    };
  }
}

export const interiorUnseen: Rule = {
  name: 'interior-unseen',
  group: 'evidence',
  level: 'note',
  summary: 'a hollow into which nobody looked, and nobody is going to',
  sources: [cite('a300-9'), cite('practice')],
  explanation:
    'Looks at cavities and decay of which neither a sound wall nor a depth was read, or both are written as unseen. What was not seen may be anything: figures of strength then span from a sound stem to a shell. A follow-up of the defect that is still to be made, or a prescription to investigate it or to take it away, answers; near a target the finding is a warning.',
  whenNot: 'Defects that are closed or healed; hollows whose wall or depth is known, however roughly.',
  looksAt: ['defects'],
  acceptable: true,
  examples: [
    {
      title: 'Unseen, and not read, near a path',
      text: `tree 304
  inspection 2026-04-02 from drone
  defect A cavity
    depth unseen #! stated

tree 305
  inspection 2026-04-02 from drone
  defect A decay #! warning stated
    diameter 20 in
  target "Creek path"
    distance 6 ft
`,
    },
    {
      title: 'Read roughly; a follow-up is planned; closed',
      text: `tree 306
  inspection 2026-04-02 from drone
  defect A cavity
    depth > 11 in
  defect B cavity
    depth unseen
  defect C decay
    closed 2026-05-01 "limb removed"
  follow-up F1 probe
    of B
    due 2026-07-01

tree 339
  inspection 2026-04-02 from drone
  stem South
  defect A cavity
    on South at 12 ft
    depth unseen
  prescription R1 fell
    remove South
`,
    },
  ],
  check,
};
