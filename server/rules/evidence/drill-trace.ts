import { compassPoint } from '../../../grammar/bearing.ts';
import { lengthLike } from '../../assess/prescriptions.ts';
import { readTraces, recordedWall } from '../../assess/traces.ts';
import { tracesOf } from '../../facts/photos.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

function* check({ tree, settings, photos, photoFile }: TreeContext): Iterable<RuleReport> {
  if (!photos || tree.drillings.length === 0) return;
  for (const { trace } of tracesOf(tree)) {
    const file = photoFile(trace.path);
    const damage = file?.state === 'read' && (file.trace ?? { damaged: 'is not a table (csv, tsv or txt)' });
    if (!file || (damage && !('damaged' in damage))) continue;
    const is =
      file.state === 'missing'
        ? 'is not at the recorded path'
        : file.state === 'unreadable'
          ? file.reason
          : (damage as { readonly damaged: string }).damaged;
    yield {
      at: spanOf(trace),
      grade: 'stated',
      subject: trace.path,
      message: `The drill trace ${trace.path} ${is}. The wall read from it cannot be checked.`,
      remedy:
        'Put the table there as exported by the drill’s software, with a heading for amplitude and one for depth with its unit. Or remove the line.',
    };
  }
  for (const one of readTraces(tree, photoFile, settings)) {
    const { trace, reading, defect, drilling } = one;
    const like = drilling.walls[0]?.thickness.value ?? defect?.diameter?.value;
    const said = recordedWall(one, settings);
    const { low, high } = reading.wall;
    const read = Number.isFinite(high)
      ? `${lengthLike(low, like)} to ${lengthLike(high, like)}`
      : `${lengthLike(low, like)} or more`;
    const where = compassPoint(trace.bearing);
    if (said && said.low <= high && low <= said.high) continue;
    yield {
      at: spanOf(trace),
      grade: 'stated',
      ...(said ? {} : { level: 'note' }),
      subject: trace.path,
      message: said
        ? `The drill trace ${trace.path} shows a sound wall of ${read} at ${where}. The drilling records ${lengthLike(said.low, like)} to ${lengthLike(said.high, like)} there.`
        : `The drill trace ${trace.path} shows a sound wall of ${read} at ${where}. The drilling records no wall there.`,
      remedy: said
        ? 'Check the trace, its threshold and the bearing, and correct the wall or the threshold.'
        : `Check the trace and add the wall to the drilling: wall, its thickness, at ${where}.`,
    };
  }
}

/** A trace in steps of 10 mm: bark, sound wood, and from a depth on decay. */
const trace = (decayedFrom: number): string =>
  `depth (mm),amplitude (%)\n${Array.from({ length: 41 }, (_, i) => `${i * 10},${i === 0 ? 3 : i * 10 < decayedFrom ? 40 : 4}`).join('\n')}\n`;

export const drillTrace: Rule = {
  name: 'drill-trace',
  group: 'evidence',
  level: 'warning',
  summary: 'a drill trace that cannot be read, or that disagrees with the record',
  sources: [cite('practice')],
  explanation:
    'Reads the trace of every drilling: a table of depth and amplitude as exported by the drill’s software. Wood counts as decayed where the amplitude, averaged over 3 mm, falls below a share of the mean amplitude of the sound wood. Sound wood is wood that reaches half the upper decile of the path. The share is the one stated on the line of the trace, otherwise the limit trace-threshold, which is a judgment. Gaps up to 10 mm wide count as cracks or soft earlywood.\n\nThe sound wall runs from where the drill met wood to where the decay begins, plus or minus the error of the drilling. It is compared with the wall recorded at that bearing. Figures use the recorded wall alone, so they do not depend on a file. A trace without a recorded wall is a note.',
  limitations:
    'A path that is decayed throughout, which has no sound wood for comparison. Effects of a dull needle, of friction in deep holes and of ring direction on the amplitude, for which the trace is not corrected. Files outside the inventory. Environments without access to files.',
  appliesTo: ['photos'],
  acceptable: true,
  examples: [
    {
      title: 'Missing; no table; another wall than recorded; no wall recorded',
      photos: { 'drill/490-e.csv': 'missing' },
      traces: {
        'drill/490-n.csv': trace(120),
        'drill/490-s.csv': 'hello\n',
        'drill/490-w.csv': trace(120),
      },
      text: `tree 490
  inspection 2026-05-06 from ground
  defect A decay
    diameter 80 cm
    wall 20 cm
  drilling 2026-05-06 of A
    wall 20 cm at N
    trace drill/490-n.csv at N #! stated
    trace drill/490-e.csv at E #! stated
    trace drill/490-s.csv at S #! stated
    trace drill/490-w.csv at W #! note stated
`,
    },
    {
      title: 'As recorded; with a threshold that no wood falls below; no file access',
      traces: { 'drill/491-n.csv': trace(120), 'drill/491-e.csv': trace(120) },
      text: `tree 491
  inspection 2026-05-06 from ground
  defect A decay
    diameter 80 cm
    wall 20 cm
  drilling 2026-05-06 of A
    wall 11 cm at N, > 30 cm at E
    trace drill/491-n.csv at N
    trace drill/491-e.csv at E, threshold 5 %
    trace drill/491-s.csv at S
`,
    },
  ],
  check,
};
