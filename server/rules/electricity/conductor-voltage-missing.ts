import { called } from '../../assess/called.ts';
import { approach, approachSource, showApproach } from '../../assess/conductors.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  if (tree.felled) return;
  for (const conductor of tree.conductors) {
    if (conductor.voltage && conductor.voltage.value.form !== 'unseen') continue;
    const open = approach(conductor, settings);
    yield {
      at: conductor.at,
      grade: 'stated',
      subject: conductor.name.value,
      message: `No voltage is recorded for ${called('conductor', conductor.name)}. The minimum approach distance for unqualified workers depends on it and is ${showApproach(conductor, settings, tree)} (${approachSource(conductor, settings)}).`,
      remedy:
        open.low === open.high
          ? 'Ask the line’s owner for the voltage and record it.'
          : 'Ask the line’s owner for the voltage and record it. Until then keep the greatest distance.',
    };
  }
}

export const conductorVoltageMissing: Rule = {
  name: 'conductor-voltage-missing',
  group: 'electricity',
  level: 'warning',
  summary: 'an overhead power line with no voltage recorded',
  sources: [cite('osha-333'), cite('practice')],
  explanation:
    'Checks the conductors of standing trees. The minimum approach distance increases with voltage. Voltage cannot be judged by looking at a line; only its owner can confirm it.',
  limitations:
    'Telephone and fiber lines, which carry no mains voltage: record them in a note, not as a conductor.',
  appliesTo: ['conductors'],
  acceptable: true,
  caution: 'Treat every line as energized and of the highest voltage until its owner has stated otherwise.',
  examples: [
    {
      title: 'One line without a voltage, one unseen, one recorded',
      text: `tree 76
  conductor "Field line" #! stated
    distance 30 ft
  conductor "Old line" #! stated
    voltage unseen
    distance 40 ft
  conductor "Lane line"
    voltage 12.5 kV
    distance 14 ft
`,
    },
    {
      title: 'A felled tree',
      text: `tree 77
  felled 2026-01-20
  conductor "Field line"
    distance 30 ft
`,
    },
  ],
  check,
};
