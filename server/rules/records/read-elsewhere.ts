import { defectName } from '../../assess/evidence.ts';
import { judge, showLimit, showValue } from '../../assess/judge.ts';
import { formatDate } from '../../base/dates.ts';
import { interval } from '../../base/interval.ts';
import { showQuantity } from '../../base/quantity.ts';
import { capital } from '../../base/words.ts';
import { valuesOf } from '../../facts/interval.ts';
import type { Defect } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

const dayWords = ({ seen }: Defect): string => (seen === undefined ? '' : ` on ${formatDate(seen)}`);

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  for (const defect of tree.defects) {
    if (defect.earlier.length === 0 || defect.older?.has('height') || !defect.height) continue;
    const before = defect.earlier.find(({ height }) => height);
    if (!before) continue;
    const [is, was] = [defect.height, before.height!].map(({ value }) => valuesOf(value, settings));
    const long = Math.max(
      ...[defect, before].flatMap(one => {
        const long = one.length ?? one.opening?.tall;
        return long ? [valuesOf(long.value, settings).high] : [0];
      }),
    );
    const apart = interval(
      Math.max(0, Math.max(is!.low, was!.low) - Math.min(is!.high, was!.high) - long),
      Math.max(is!.high, was!.high) - Math.min(is!.low, was!.low),
    );
    const judged = judge(apart, 'same-place', settings);
    if (judged.standing !== 'exceeds') continue;
    yield {
      at: spanOf(defect.height),
      grade: 'exceeds',
      level: 'warning',
      subject: defect.id.value,
      message: `${capital(defectName(defect))} is at ${showQuantity(defect.height.value)}${dayWords(defect)}, but at ${showQuantity(before.height!.value)}${dayWords(before)}. They are ${showValue(judged)} apart, which exceeds ${showLimit(judged)} for two readings of one defect.`,
      remedy:
        'Correct the wrong height. If it is another defect, give it a name of its own, so that their readings are not mixed.',
      related: [{ ...spanOf(before.height!), message: 'The earlier reading' }],
    };
  }
}

export const readElsewhere: Rule = {
  name: 'read-elsewhere',
  group: 'records',
  level: 'warning',
  summary: 'a defect read again at a very different height',
  sources: [cite('practice')],
  explanation:
    'Records with one name from different dates are readings of one defect. The newest counts, and what it does not state comes from those before. Where the heights of two readings are certainly further apart than the limit same-place and than the length of the defect, one of them may be of another defect. Its figures would then be mixed with those of the first.',
  limitations:
    'Readings that state no height. Estimates and ranges that come within the limit of each other.',
  appliesTo: ['defects'],
  acceptable: true,
  examples: [
    {
      title: 'A cavity that moved up the stem',
      text: `tree 485
  inspection 2022-05-04 from ground
  defect A cavity
    on trunk at 4 ft
  inspection 2026-05-06 from ground
  defect A cavity
    on trunk at 14 ft #! warning exceeds
`,
    },
    {
      title: 'The same place, estimated, along a long crack',
      text: `tree 486
  inspection 2022-05-04 from ground
  defect A cavity
    on trunk at 4 ft
  defect B wound
    on trunk at ~30 ft
  defect C crack
    on trunk at 5 ft
    length 8 ft
  inspection 2026-05-06 from ground
  defect A cavity
    on trunk at 5 ft
  defect B wound
    on trunk at ~35 ft
  defect C crack
    on trunk at 10 ft
`,
    },
  ],
  check,
};
