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
    const damage = file?.state === 'read' && (file.trace ?? { damaged: 'is no table: csv, tsv or txt' });
    if (!file || (damage && !('damaged' in damage))) continue;
    const is =
      file.state === 'missing'
        ? 'is not where the record says'
        : file.state === 'unreadable'
          ? file.reason
          : (damage as { readonly damaged: string }).damaged;
    yield {
      at: spanOf(trace),
      grade: 'stated',
      subject: trace.path,
      message: `The drill trace ${trace.path} ${is}: what was read from it can not be checked (${cite('practice').short}).`,
      remedy:
        'Put the table there as the software of the drill exports it, with a heading for depth with its unit and for amplitude, or take the line out.',
    };
  }
  for (const one of readTraces(tree, photoFile, settings)) {
    const { trace, reading, defect, drilling } = one;
    const like = drilling.walls[0]?.thickness.value ?? defect?.diameter?.value;
    const said = recordedWall(one, settings);
    const { low, high } = reading.wall;
    const read = Number.isFinite(high)
      ? `${lengthLike(low, like)} to ${lengthLike(high, like)}`
      : `${lengthLike(low, like)} at the least`;
    const where = compassPoint(trace.bearing);
    if (said && said.low <= high && low <= said.high) continue;
    yield {
      at: spanOf(trace),
      grade: 'stated',
      ...(said ? {} : { level: 'note' }),
      subject: trace.path,
      message: said
        ? `The drill trace ${trace.path} shows a sound wall of ${read} at ${where}, but the drilling records ${lengthLike(said.low, like)} to ${lengthLike(said.high, like)} there.`
        : `The drill trace ${trace.path} shows a sound wall of ${read} at ${where}, and the drilling records no wall there.`,
      remedy: said
        ? 'Look at the trace again, at its threshold and at the bearing, and correct the wall or the threshold.'
        : `Look at the trace and write the wall into the drilling: wall, its thickness, at ${where}.`,
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
  summary: 'a drill trace that cannot be read, or that says something else than the record',
  sources: [cite('practice')],
  explanation:
    'Reads the trace of every drilling: a table of depth and amplitude as the software of the drill exports it. Wood counts as decayed where the amplitude, averaged over 3 mm, falls below a share of the mean amplitude of the sound wood, which is what reaches half the upper decile of the path: the share that the line of the trace states, else the limit trace-threshold, which is a judgment. Gaps up to 10 mm wide count as cracks or soft early wood. The sound wall runs from where the drill met wood to where the decay begins, give or take the error of the drilling. It is compared with the wall that the drilling records at that bearing; figures use the recorded wall alone, so that they need no file. A trace without a recorded wall is a note.',
  limitations:
    'A path all in decay, which has no sound wood to be compared with. A dull needle, friction in deep holes and the direction of the rings change amplitudes; the trace is not corrected for them. Files outside the inventory; hosts that do not give access to files.',
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
