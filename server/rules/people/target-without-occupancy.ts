import { called } from '../../assess/called.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree }: TreeContext): Iterable<RuleReport> {
  if (tree.felled) return;
  for (const { at, name, occupied } of tree.targets) {
    if (occupied) continue;
    yield {
      at,
      grade: 'stated',
      subject: name.value,
      message: `No occupancy is recorded for ${called('target', name)}. The likelihood of impact depends on it (${cite('bmp-risk-2017').short}).`,
      remedy: 'Add a line: occupied rare, occasional, frequent or constant.',
    };
  }
}

export const targetWithoutOccupancy: Rule = {
  name: 'target-without-occupancy',
  group: 'people',
  level: 'note',
  summary: 'a target with no occupancy',
  sources: [cite('bmp-risk-2017'), cite('a300-9')],
  explanation:
    'Checks the targets of standing trees. The likelihood that a failing part strikes a person depends on how often the target is occupied. Without that, a stated impact cannot be verified.',
  limitations: 'A permanent object, such as a wall, counts as constant: record that.',
  appliesTo: ['targets'],
  rests: 'practice',
  acceptable: true,
  examples: [
    {
      title: 'One target without occupancy, one with',
      text: `tree 37
  target "Sandpit" #! stated
    distance 9 ft
  target "Gate"
    distance 15 ft
    occupied occasional
`,
    },
    {
      title: 'A felled tree has no targets',
      text: `tree 38
  felled 2026-02-02
  target "Sandpit"
    distance 9 ft
`,
    },
  ],
  check,
};
