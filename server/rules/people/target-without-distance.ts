import { called } from '../../assess/called.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree }: TreeContext): Iterable<RuleReport> {
  if (tree.felled) return;
  for (const { at, name, distance } of tree.targets) {
    if (distance && distance.value.form !== 'unseen') continue;
    yield {
      at,
      grade: 'stated',
      subject: name.value,
      message: `No distance from the trunk is recorded for ${called('target', name)}. Whether the tree or a piece of it reaches the target is unknown (${cite('bmp-risk-2017').short}).`,
      remedy: 'Add its distance from the trunk, as a range or an estimate where it was not taped.',
    };
  }
}

export const targetWithoutDistance: Rule = {
  name: 'target-without-distance',
  group: 'people',
  level: 'note',
  summary: 'a target with no distance from the trunk',
  sources: [cite('bmp-risk-2017'), cite('a300-9')],
  explanation:
    'Checks the targets of standing trees. Whether a failing part or the falling tree reaches a target depends on its distance. A target at an unknown distance counts as in reach.',
  limitations: 'There are no exceptions. An estimate such as ~30 ft is enough.',
  appliesTo: ['targets'],
  rests: 'practice',
  acceptable: true,
  examples: [
    {
      title: 'No distance, and an estimate',
      text: `tree 37
  target "Sandpit" #! stated
    occupied frequent
  target "Gate"
    distance ~15 ft
    occupied occasional
`,
    },
    {
      title: 'A range is enough',
      text: `tree 38
  target "Sandpit"
    distance 9..12 ft toward W
    occupied frequent
`,
    },
  ],
  check,
};
