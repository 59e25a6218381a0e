import { readingOf } from '../../assess/fall-zone.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { fellsTree, jobName, limitLike } from '../../assess/prescriptions.ts';
import { isLess } from '../../base/interval.ts';
import { showQuantity } from '../../base/quantity.ts';
import type { Defect, Tree } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

/** Defects that spoil a log; deadwood and hangers in the crown do not. */
const SPOILING: ReadonlySet<Defect['kind']['value']> = new Set([
  'cavity',
  'decay',
  'crack',
  'fungus',
  'canker',
  'root decay',
  'woodpecker holes',
]);

const isSound = ({ defects, vigor }: Tree): boolean =>
  vigor?.value !== 'dead' &&
  !defects.some(
    ({ kind, part, closed }) =>
      SPOILING.has(kind.value) && !closed && (part === undefined || part.value === 'trunk'),
  );

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  if (!isSound(tree)) return;
  const limit = settings.limit('salvage-diameter');
  const readings = tree.diameters.map(diameter => ({ diameter, reading: readingOf(diameter, settings) }));
  const thickest = readings.sort((a, b) => b.reading.high - a.reading.high)[0];
  if (!thickest || isLess(thickest.reading.high, limit.value)) return;
  const large = !isLess(thickest.reading.low, limit.value);
  const diameter = thickest.diameter.value;
  for (const prescription of openPrescriptions(tree)) {
    if (!fellsTree(prescription) || prescription.logs.length > 0) continue;
    yield {
      at: prescription.at,
      grade: large ? 'stated' : 'may exceed',
      level: 'note',
      subject: prescription.id.value,
      message: `The trunk (${jobName(prescription)}) is ${showQuantity(diameter)} in diameter with no defect on record. That is ${large ? 'large enough' : 'perhaps large enough'} to consider for sawlogs, from ${limitLike(limit, diameter)}. No log lengths are given.`,
      remedy:
        'Ask a local mill, and add the logs to be cut from the butt up. If no logs are wanted, record that in a note.',
    };
  }
}

export const salvageUnstated: Rule = {
  name: 'salvage-unstated',
  group: 'felling',
  level: 'note',
  summary: 'a large sound trunk to be felled with no log lengths stated',
  sources: [cite('practice'), cite('log-scaling-handbook')],
  explanation:
    'Checks open prescriptions that fell a tree whose thickest stem is at least the limit salvage-diameter. Its trunk must have no active cavity, decay, crack, fungus, canker or root decay on record. Bucked to length, the stem can be milled; bucked to firewood, it cannot. A clean record does not prove sound wood: the butt shows it once the tree is down.',
  limitations:
    'Yard trees full of nails and wire, and wood under quarantine: record an exception with the reason.',
  appliesTo: ['felling'],
  acceptable: true,
  examples: [
    {
      title: 'A 30 in walnut, and a stem that may be thick enough',
      text: `tree 137
  species Juglans nigra
  dbh 30 in
  prescription R1 fell #! stated
    stump leave

tree 138
  species Juglans nigra
  dbh ~19 in
  prescription R1 fell #! note may exceed
    stump leave
`,
    },
    {
      title: 'Logs stated, a decayed trunk, a thin tree, a reduction',
      text: `tree 139
  dbh 30 in
  prescription R1 fell
    logs 16 ft, 12 ft

tree 140
  dbh 30 in
  defect A cavity
    on trunk at 4 ft
  prescription R1 fell

tree 141
  dbh 12 in
  prescription R1 fell

tree 142
  dbh 30 in
  prescription R1 reduce
    dose 10 %
`,
    },
  ],
  check,
};
