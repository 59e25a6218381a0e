import { defectName } from '../../assess/evidence.ts';
import { showLimit, showValue } from '../../assess/judge.ts';
import { type Receded, recededReadings } from '../../assess/receded.ts';
import { formatDate } from '../../base/dates.ts';
import { showQuantity } from '../../base/quantity.ts';
import { capital } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

const dayWords = (day: number | undefined): string =>
  day === undefined ? 'without a date, which counts as older' : `on ${formatDate(day)}`;

function lessWords({ extent, earlier, later, loss }: Omit<Receded, 'defect'>): string {
  const newer = `the ${extent} of ${showQuantity(later.quantity.value)} ${dayWords(later.day)}`;
  const older = `that of ${showQuantity(earlier.quantity.value)} ${dayWords(earlier.day)}`;
  return extent === 'opening'
    ? `${newer} is narrower than ${older} by ${showValue(loss)} a year. That exceeds ${showLimit(loss)} a year for closing by woundwood`
    : `${newer} is ${showValue(loss)} less than ${older}. That exceeds ${showLimit(loss)} for the error of both readings: ${extent === 'depth' ? 'decay' : 'a crack'} does not get smaller`;
}

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  for (const { defect, extent, earlier, later, loss } of recededReadings(tree, settings)) {
    yield {
      at: spanOf(later.quantity),
      grade: 'exceeds',
      level: 'warning',
      subject: defect.id.value,
      message: `${capital(defectName(defect))}: ${lessWords({ extent, earlier, later, loss })}.`,
      remedy:
        'Measure it again at the same place, and correct the wrong reading. Until then the figures use the later one, which may be too small.',
      related: [{ ...spanOf(earlier.quantity), message: 'The earlier reading' }],
    };
  }
}

export const decayBackwards: Rule = {
  name: 'decay-backwards',
  group: 'records',
  level: 'warning',
  summary: 'a cavity, its opening or a crack smaller than at an earlier reading',
  sources: [cite('practice')],
  explanation:
    'Compares the newest depth of a cavity or decay, and the newest length of a crack, with its greatest earlier reading. The whole range of the later reading has to be below the whole range of the earlier one by more than the limit extent-loss, the error of both readings. Decayed or cracked wood does not become sound. The probe met an obstacle, went in elsewhere, or one of the readings is of another defect.\n\nThe opening of a cavity closes over, but not faster than woundwood grows. The limit is closing-rate a year plus the error of both readings. A sound wall that became thicker than growth explains is reported by readings-contradict.',
  limitations:
    'Readings whose ranges overlap. Wounds and cankers, which close over. Defects that are closed, healed or filled. Defects on a stem or limb of a tree worked on between the readings.',
  appliesTo: ['defects'],
  acceptable: true,
  examples: [
    {
      title: 'A probe that went in less far, and a crack that became shorter',
      text: `tree 481
  inspection 2022-05-04 from ground
  defect A cavity
    on trunk at 3 ft
    diameter 30 in
    depth 14 in
  defect B crack
    on trunk at 5 ft
    length 40 in
  defect C cavity
    on trunk at 9 ft
    opening 12 in wide
  inspection 2026-05-06 from ground
  defect A cavity
    depth 9 in #! warning exceeds
  defect C cavity
    opening 2 in wide #! warning exceeds
  defect B crack
    length 30 in #! warning exceeds
`,
    },
    {
      title: 'Deeper, within the error, a range, filled, a wound that closes, a limb cut back',
      text: `tree 482
  inspection 2022-05-04 from ground
  defect A cavity
    on trunk at 3 ft
    diameter 30 in
    depth 14 in
  defect B decay
    on trunk at 5 ft
    depth 8 in
  defect C cavity
    on trunk at 7 ft
    depth 10..14 in
  defect D cavity
    on trunk at 9 ft
    depth 12 in
  defect E wound
    on trunk at 11 ft
    length 20 in
  limb L1
  defect F crack
    on L1 at 16 ft
    length 40 in
  prescription R1 reduce
    shorten L1 20 ft to 16 ft
  work R1 2023-10-10
  inspection 2026-05-06 from ground
  defect A cavity
    depth 15 in
  defect B decay
    depth 7.2 in
  defect C cavity
    depth 9.5 in
  defect D cavity
    depth 2 in
    state filled
  defect E wound
    length 12 in
  defect F crack
    length 20 in
`,
    },
  ],
  check,
};
