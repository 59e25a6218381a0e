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
      message: `Nothing says how far ${called('target', name)} is from the trunk, so whether the tree or a piece of it reaches it is open (${cite('bmp-risk-2017').short}).`,
      remedy: 'Add its distance from the trunk, a range or an estimate where it was not taped.',
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
    'Checks the targets of standing trees. Whether a failing part or the falling tree reaches a target depends on its distance; a target at an unknown distance is taken to be in reach.',
  limitations: 'No exceptions: an estimate such as ~30 ft is enough.',
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
