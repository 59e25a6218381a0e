/** Ground that lifts or cracks around the root collar. */

import { judge, showLimit, showValue } from '../../assess/judge.ts';
import { interval as reading } from '../../facts/interval.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

function* check({ tree: { soil, lean, felled, tag }, settings }: TreeContext): Iterable<Report> {
  if (felled || !soil || (soil.value !== 'heaving' && soil.value !== 'cracked')) return;
  const leaning = lean && judge(reading(lean.angle.value, settings), 'lean-with-heave', settings);
  const grave =
    leaning && leaning.standing !== 'within'
      ? `; it leans ${showValue(leaning)}, which ${leaning.standing === 'exceeds' ? 'exceeds' : 'may exceed'} ${showLimit(leaning)} for such ground`
      : '';
  yield {
    at: { start: soil.start, end: soil.end },
    grade: 'stated',
    // Cracks also come from drought; ground that lifts comes from the root plate alone.
    level: soil.value === 'heaving' || grave ? 'error' : 'warning',
    subject: tag.value,
    message: `The soil around the root collar is ${soil.value}${grave}: ${soil.value === 'heaving' ? 'the root plate moves' : 'the root plate may move'} (${cite('bmp-risk-2017').short}).`,
    remedy:
      'Keep people out of its reach; measure the lean now and after the next wind, and have the roots looked at (an air spade, or a pull test).',
  };
}

export const soilHeaving: Rule = {
  name: 'soil-heaving',
  group: 'structure',
  level: 'error',
  summary: 'ground that lifts or cracks around the root collar',
  sources: [cite('practice'), cite('bmp-risk-2017')],
  explanation:
    'Lifting ground around a root collar shows that the root plate turns in the wind; that is an error until it was assessed. Cracked ground may be drought, and is a warning; with a lean over the limit lean-with-heave it is an error as well.',
  whenNot: 'Wet or compacted soil, and soil that nobody saw.',
  looksAt: ['soil'],
  acceptable: true,
  caution:
    'Nobody can tell from a record how long a moving tree will stand: keep away until it was assessed.',
  examples: [
    {
      title: 'Lifting, cracked, and cracked under a lean',
      text: `tree 761
  soil heaving #! error stated

tree 762
  soil cracked #! warning stated

tree 763
  lean 18 deg toward S, steady
  soil cracked #! error stated
`,
    },
    {
      title: 'Firm, wet, gone',
      text: `tree 764
  soil firm

tree 765
  soil wet

tree 766
  soil heaving
  felled 2026-02-02
`,
    },
  ],
  check,
};
