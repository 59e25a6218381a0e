import { openPrescriptions } from '../../assess/jobs.ts';
import { pestWindows } from '../../assess/pest-windows.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { capital } from '../../base/words.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import { isBritish } from '../../practice/region-pack.ts';
import type { TreeContext } from '../context.ts';
import { plan, type Rule, type RuleReport } from '../rule.ts';

const isPainted = ({ paint }: Prescription): boolean => paint?.value === 'wounds painted';

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  if (!tree.prescriptions.some(isPainted)) return;
  if (pestWindows(tree, settings).some(({ paint }) => paint)) return;
  for (const prescription of openPrescriptions(tree)) {
    if (!isPainted(prescription)) continue;
    yield {
      at: prescription.at,
      grade: 'stated',
      subject: prescription.id.value,
      message: `${capital(jobName(prescription))} prescribes wound dressing, which does not prevent decay (${cite(isBritish(settings.region) ? 'dujesiefken-liese-2008' : 'a300-1-2008').short}). ${tree.species ? `No wilt of ${tree.species.value.genus} requires it in ${settings.region.name}` : 'The species is not recorded, so no wilt is known to require it'}.`,
      remedy: 'Write paint none, and cut at the collar in a season when wounds close.',
      advice: [plan(prescription.at, 'paint none')],
    };
  }
}

export const woundPaint: Rule = {
  name: 'wound-paint',
  group: 'pruning',
  level: 'warning',
  summary: 'wound dressing where no wilt calls for it',
  sources: [cite('a300-1-2008'), cite('dujesiefken-liese-2008'), cite('state-oak-wilt')],
  explanation:
    'Reports open prescriptions with wound dressing, unless the tree is a host of a pest for which fresh wounds are painted at once in its region: oaks where oak wilt occurs. Wound dressing does not prevent decay, and it hides what the next inspection should find.',
  limitations: 'Oaks in regions with oak wilt, where paint keeps beetles away for the first days.',
  appliesTo: ['painted cuts'],
  acceptable: true,
  examples: [
    {
      title: 'A painted maple',
      text: `site "Fernhollow Court"
  region US-OR

tree 347
  species Acer rubrum
  prescription R1 thin #! stated
    dose 10 %
    paint wounds painted
`,
    },
    {
      title: 'An oak in Texas; no paint',
      text: `site "Fernhollow Court"
  region US-TX

tree 348
  species Quercus virginiana
  prescription R1 thin
    dose 10 %
    paint wounds painted

tree 349
  species Acer rubrum
  prescription R1 thin
    dose 10 %
    paint none
`,
    },
  ],
  check,
};
