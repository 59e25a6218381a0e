/** Two stems of nearly the same thickness from one union. */

import { judge, showLimit, showValue } from '../../assess/judge.ts';
import { UNION_CAUTION } from '../../assess/section-words.ts';
import { interval as reading } from '../../facts/interval.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Part, Tree } from '../../facts/types.ts';
import { type Interval, interval } from '../../mechanics/interval.ts';
import { diameterRatio } from '../../mechanics/stem.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

/** Pairs that share a union, each once, in the order of their names: which of them stands first says nothing. */
function pairsOf({ parts }: Tree): readonly (readonly [Part, Part])[] {
  const named = new Map(parts.toReversed().map(part => [part.name.value, part]));
  const seen = new Set<string>();
  return parts.flatMap(part => {
    const other = part.unionWith && named.get(part.unionWith.value);
    if (!other || other === part) return [];
    const pair = [part.name.value, other.name.value].sort().join('\n');
    if (seen.has(pair)) return [];
    seen.add(pair);
    return [part.name.value < other.name.value ? ([part, other] as const) : ([other, part] as const)];
  });
}

/** The thinner over the thicker, over everything that the readings allow. */
function ratioOf(one: Part, other: Part, settings: Settings): Interval | undefined {
  if (!one.diameter || !other.diameter) return undefined;
  const [a, b] = [reading(one.diameter.value, settings), reading(other.diameter.value, settings)];
  if (!(a.low > 0 && b.low > 0 && Number.isFinite(a.high + b.high))) return undefined;
  const ratio = diameterRatio(a, b);
  // Where either may be the thicker, they may be equal.
  const most = ratio.high <= 1 ? ratio.high : Math.min(1, 1 / ratio.low);
  return interval(Math.min(ratio.low, 1 / ratio.high), most);
}

function* check({ tree, settings }: TreeContext): Iterable<Report> {
  if (tree.felled || tree.parts.length < 2) return;
  for (const [one, other] of pairsOf(tree)) {
    const ratio = ratioOf(one, other, settings);
    if (!ratio) continue;
    const judged = judge(ratio, 'codominant-ratio', settings);
    if (judged.standing === 'within') continue;
    const sure = judged.standing === 'exceeds';
    // Either of the two may say what the union of both is like; the graver counts.
    const unions = [one.union?.value, other.union?.value];
    const cracked = unions.includes('cracked');
    const weak = cracked || unions.includes('included bark');
    const at = one.diameter!;
    yield {
      at: { start: at.start, end: at.end },
      grade: judged.standing,
      level: sure && weak ? 'warning' : 'note',
      subject: one.name.value,
      message: `${one.name.value} and ${other.name.value} part at a diameter ratio of ${showValue(judged)}, which ${sure ? 'exceeds' : 'may exceed'} ${showLimit(judged)}: codominant stems${weak ? `, with a union that is ${cracked ? 'cracked' : 'bark to bark'}` : ''}.`,
      remedy: sure
        ? 'Look into the union from above; subordinate the thinner one while it is young, or support the union when it is not.'
        : 'Measure both above the union.',
    };
  }
}

export const codominantRatio: Rule = {
  name: 'codominant-ratio',
  group: 'structure',
  level: 'note',
  summary: 'two stems of nearly the same thickness from one union',
  sources: [cite('dahle-2022'), cite('gilman-2003'), cite('kane-2007')],
  explanation:
    'For two parts that share a union (union …, with …), takes the thinner diameter over the thicker one and compares it with the limit codominant-ratio. The nearer to 1, the less wood of one stem wraps around the other. It is a warning where the union has included bark or is cracked, else a note.',
  whenNot: 'Parts that name no other in their union, or whose diameters were not read.',
  looksAt: ['parts'],
  acceptable: true,
  caution: UNION_CAUTION,
  examples: [
    {
      title: 'Bark to bark, and sound',
      text: `tree 711
  stem East
    diameter 22 in #! warning exceeds
    union included bark, with West
  stem West
    diameter 24 in
    union included bark, with East

tree 712
  stem North
    diameter 12 in #! note exceeds
    union sound, with South
  stem South
    diameter 14 in

tree 717
  stem East
    diameter 22 in #! warning exceeds
    union sound, with West
  stem West
    diameter 24 in
    union cracked, with East
`,
    },
    {
      title: 'Estimated',
      text: `tree 713
  stem North
    diameter ~10 in #! note may exceed
    union included bark, with South
  stem South
    diameter 15 in
`,
    },
    {
      title: 'A branch on a stem; one stem unmeasured; one alone',
      text: `tree 714
  limb L1
    diameter 6 in
    union sound, with Trunk
  stem Trunk
    diameter 20 in

tree 715
  stem North
    union included bark, with South
  stem South
    diameter 15 in

tree 716
  stem North
    diameter 15 in
    union included bark
`,
    },
  ],
  check,
};
