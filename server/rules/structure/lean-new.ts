/** A lean that is new or grows. */

import { compassPoint } from '../../../grammar/bearing.ts';
import { showQuantity } from '../../../grammar/quantity.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

const MOVING: ReadonlySet<string | undefined> = new Set(['new', 'increasing']);

function* check({ tree: { lean, felled, soil, tag } }: TreeContext): Iterable<Report> {
  if (felled || !lean || !MOVING.has(lean.course)) return;
  const toward = lean.toward === undefined ? '' : ` toward ${compassPoint(lean.toward)}`;
  const ground =
    soil?.value === 'cracked' || soil?.value === 'heaving' ? `, and the soil is ${soil.value}` : '';
  yield {
    at: { start: lean.angle.start, end: lean.angle.end },
    grade: 'stated',
    subject: tag.value,
    message: `The tree leans ${showQuantity(lean.angle.value)}${toward}, and the lean is ${lean.course}${ground}: the roots give way, whatever the angle (${cite('bmp-risk-2017').short}).`,
    remedy:
      'Keep people out of its reach today; have the root plate looked at, and write the course steady only once it was measured twice.',
    related: soil && ground ? [{ start: soil.start, end: soil.end, message: `Soil ${soil.value}.` }] : [],
  };
}

export const leanNew: Rule = {
  name: 'lean-new',
  group: 'structure',
  level: 'error',
  summary: 'a lean that is new or increasing',
  sources: [cite('practice'), cite('bmp-risk-2017')],
  explanation:
    'A tree that grew with a lean has built roots and wood for it; one that begins to lean, or leans further than before, is losing its hold. So the course of the lean decides, not the angle: a new or increasing lean is an error until somebody has assessed it.',
  whenNot: 'A steady or corrected lean; the lean of single stems.',
  looksAt: ['lean'],
  acceptable: true,
  caution:
    'Nobody can tell from a record how long a moving tree will stand: keep away until it was assessed.',
  examples: [
    {
      title: 'New after a storm; growing, on cracked ground',
      text: `tree 751
  lean 6 deg toward SW, new #! error stated

tree 752
  lean 8..11 deg toward NE, increasing #! error stated
  soil cracked
`,
    },
    {
      title: 'Steady, not said, gone',
      text: `tree 753
  lean 24 deg toward S, steady

tree 754
  lean 12 deg

tree 755
  lean 20 deg, new
  felled 2026-02-02
`,
    },
  ],
  check,
};
