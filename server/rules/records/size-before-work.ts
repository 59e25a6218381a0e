import { SIZE_WORDS, sizesBeforeWork, sizesPerhapsLater } from '../../assess/old-sizes.ts';
import { jobName } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { showQuantity } from '../../base/quantity.ts';
import { listed } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { pointTo, type Rule, type RuleReport, spanOf } from '../rule.ts';

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  if (tree.works.length === 0 || tree.felled) return;
  for (const { work, size, stated, left } of sizesPerhapsLater(tree, settings)) {
    const day = formatDate(work.date.value);
    const [words, greater] = [SIZE_WORDS[size], showQuantity(stated.value)];
    yield {
      at: spanOf(stated),
      grade: 'stated',
      level: 'warning',
      subject: size,
      message: `The ${words} of ${greater} has no date and counts as older than the work of ${day}, which left ${showQuantity(left.value)}. It is less than before that work, so it may have been measured since.`,
      remedy: 'If it was measured after that work, put it below its inspection. Otherwise remove it.',
      related: [pointTo(left, 'The size in use')],
    };
  }
  for (const { work, prescription, sizes } of sizesBeforeWork(tree)) {
    const day = formatDate(work.date.value);
    const words = listed(sizes.map(size => SIZE_WORDS[size]));
    yield {
      at: work.at,
      grade: 'stated',
      subject: prescription.id.value,
      message: `The ${words} on record ${sizes.length > 1 ? 'are' : 'is'} from before the work of ${day} under ${jobName(prescription)}, and every figure still uses ${sizes.length > 1 ? 'them' : 'it'}.`,
      remedy: `Measure the ${words} and add the result below that work, or below the inspection with the measurement.`,
      related: sizes.map(size => pointTo(tree[size]!, 'From before the work')),
    };
  }
}

export const sizeBeforeWork: Rule = {
  name: 'size-before-work',
  group: 'records',
  level: 'note',
  summary: 'sizes from before the work that changed them',
  sources: [cite('practice')],
  explanation:
    'Once all work under a prescription is done, the tree has the height, spread and crown base stated by the work. Otherwise it has those that were prescribed. This holds until an inspection measures them again. Where neither states any size that the work changed, the sizes from before the work still count, and the rule asks for a measurement. Those sizes are height and spread of a reduction or a pollard, the height of a habitat snag, and the crown base of a raised crown.\n\nA size of the tree without a date is older than the work. If it is between the sizes before and after the work, it may have been measured since. That is a warning, since the smaller size counts.',
  limitations: 'Work on single limbs. Sizes that are not on record.',
  appliesTo: ['works'],
  acceptable: true,
  examples: [
    {
      title: 'Reduced to an unknown height; raised; measured since, perhaps',
      text: `tree 421
  height 52 ft
  crown from 10 ft, 40 ft wide
  prescription R1 reduce
    dose 12 %
  work R1 2026-02-16 #! stated
  prescription R2 raise
    dose 5 %
  work R2 2026-02-16 #! stated

tree 427
  height 49 ft #! warning stated
  prescription R1 reduce
    height 56 ft to 46 ft
  work R1 2021-02-16
`,
    },
    {
      title: 'Sizes prescribed, stated by the work, measured since; a limb alone; unfinished',
      text: `tree 422
  height 52 ft
  prescription R1 reduce
    height 52 ft to 46 ft
  work R1 2026-02-16

tree 423
  height 52 ft
  prescription R1 reduce
    dose 12 %
  work R1 2026-02-16
    height 47 ft

tree 424
  height 52 ft
  prescription R1 reduce
    dose 12 %
  work R1 2025-02-16
  inspection 2026-03-04 from ground
    height 47 ft

tree 425
  height 52 ft
  limb L1
  prescription R1 reduce
    shorten L1 20 ft to 15 ft
  work R1 2026-02-16

tree 426
  height 52 ft
  prescription R1 reduce
    dose 12 %
  work R1 2026-02-16
    unfinished "the top"
`,
    },
  ],
  check,
};
