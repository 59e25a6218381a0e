import { hollowDefects } from '../../assess/hollows.ts';
import { judge, showLimit, showValue } from '../../assess/judge.ts';
import { namesOf, SECTION_CAUTION } from '../../assess/section-words.ts';
import { strengthOf } from '../../assess/strength.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  if (!tree.joined.some(({ state }) => state.value === 'suspected') || hollowDefects(tree).length < 2) return;
  for (const { joined, figures } of strengthOf(tree, settings).groups) {
    if (joined.state.value !== 'suspected') continue;
    const apart = judge(figures.apart, 'section-loss', settings);
    const one = judge(figures.joined, 'section-loss', settings);
    // The connection makes no difference: one exceeds the limit on its own, or all together are within it.
    if (apart.standing === 'exceeds' || one.standing === 'within') continue;
    const names = namesOf(joined.defects);
    const list = joined.defects.map(({ value }) => value).join(', ');
    yield {
      at: joined.at,
      grade: 'may exceed',
      subject: joined.defects.map(({ value }) => value).join('-'),
      message: `${names} may be connected. Separate, they cost the stem ${showValue(apart)} of its bending strength; connected, ${showValue(one)}, which ${one.standing} ${showLimit(one)}.`,
      remedy: `Settle it by a climbing inspection, a probe from one opening toward the other, or sonic tomography between them. Then record joined ${list} proved or joined ${list} excluded.`,
    };
  }
}

export const joinedUnproved: Rule = {
  name: 'joined-unproved',
  group: 'structure',
  level: 'warning',
  summary: 'cavities that may be connected, where connection would change the result',
  sources: [cite('kane-ryan-2004')],
  explanation:
    'Computes both cases for cavities that may be connected. If they are separate, each section has its own void. If they are connected, every height between the lowest and the highest opening has the voids of all of them, each at its own bearing. The rule reports cavities where only the connected case may exceed the limit section-loss, because the connection then has to be investigated.',
  limitations:
    'Groups for which the connection makes no difference: one cavity exceeds the limit on its own, or all of them together are within it. Cavities with no height or diameter.',
  appliesTo: ['joined'],
  acceptable: true,
  caution: SECTION_CAUTION,
  examples: [
    {
      title: 'Harmless individually, not together',
      text: `tree 621
  inspection 2026-05-04 from rope
  defect A cavity
    on trunk at 10 ft, facing N
    diameter 30 in
    opening 2 in wide
    depth 9 in
  defect B cavity
    on trunk at 12 ft, facing S
    diameter 30 in
    opening 2 in wide
    depth 9 in
  joined A, B suspected #! may exceed
`,
    },
    {
      title: 'Two deep ones, both uncertain',
      text: `tree 622
  inspection 2026-05-04 from drone
  defect A cavity
    on trunk at 10 ft, facing N
    diameter 30 in
    opening 3 in wide
    depth unseen
  defect B cavity
    on trunk at 12 ft, facing NE
    diameter 30 in
    opening 3 in wide
    depth unseen
  joined A, B suspected #! may exceed
`,
    },
    {
      title: 'Small ones, proved ones, and one that exceeds the limit on its own',
      text: `tree 623
  inspection 2026-05-04 from rope
  defect A cavity
    on trunk at 10 ft, facing N
    diameter 30 in
    opening 1 in wide
    depth 2 in
  defect B cavity
    on trunk at 12 ft, facing NE
    diameter 30 in
    opening 1 in wide
    depth 2 in
  joined A, B suspected

tree 624
  inspection 2026-05-04 from rope
  defect A cavity
    on trunk at 10 ft, facing N
    diameter 30 in
    opening 12 in wide
    depth 25 in
  defect B cavity
    on trunk at 12 ft, facing S
    diameter 30 in
    opening 2 in wide
    depth 9 in
  joined A, B suspected
`,
    },
  ],
  check,
};
