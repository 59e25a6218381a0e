import {
  doseOfChange,
  isDoneBeyond,
  liftedShare,
  mostDose,
  raisedRatio,
  smallerChange,
} from '../../assess/dose-room.ts';
import { readingOf } from '../../assess/fall-zone.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { judge, showLimit, showValue } from '../../assess/judge.ts';
import { jobName, lengthDown } from '../../assess/prescriptions.ts';
import { viewChanges } from '../../assess/view-words.ts';
import { shareText } from '../../base/figures.ts';
import { exactly, showQuantity } from '../../base/quantity.ts';
import { capital } from '../../base/words.ts';
import { valuesOf } from '../../facts/interval.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Prescription, Tree } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { graded, isBeyondLimit } from '../limit-report.ts';
import { plan, type Remedy, type Rule, type RuleReport, spanOf } from '../rule.ts';

const GRAVITY = { within: 0, 'may exceed': 1, exceeds: 2 } as const;

/**
 * A lower base, with its dose where one is stated; within the dose limits, and not where a view needs more.
 *
 * @param highest greatest crown base, m, within both limits for the shortest tree the readings allow
 */
function lowerBase(context: TreeContext, prescription: Prescription, highest: number): Remedy {
  const { tree, settings } = context;
  const { from, to } = prescription.base!;
  const clear = 'shorten single low limbs for clearance';
  const most = lengthDown(highest, to.value, from.value);
  if (most === undefined || highest <= valuesOf(from.value, settings).high)
    return { remedy: `Do not raise this crown. Instead, ${clear}.` };
  const lower = withBase(prescription, highest);
  if (hidesView(tree, lower, settings))
    return {
      remedy: `The view requires more than this crown can lose. Agree with the client on less, or ${clear}.`,
    };
  const room = mostDose(context, prescription);
  const given = doseOfChange(tree, lower, settings);
  const fits = given === undefined || given.high <= room;
  const within = fits ? undefined : smallerChange(tree, lower, settings, room);
  if (!fits && !within) return { remedy: `Do not raise this crown. Instead, ${clear}.` };
  const lines = within?.lines ?? [`base ${showQuantity(from.value)} to ${most}`];
  const taken = within?.dose ?? given;
  if (taken && isDoneBeyond(tree, prescription, taken.low))
    return { remedy: `Do not raise this crown any further. Instead, ${clear}.` };
  const dose = prescription.dose && taken && `dose ${shareText(taken)}`;
  return {
    remedy: `Raise to ${within ? `less (${lines.join(', ')})` : `${most} or less`}${dose ? ` and restate the dose (${dose})` : ''}, or ${clear}.`,
    advice: [plan(prescription.at, ...lines, ...(dose ? [dose] : []))],
  };
}

function withBase(prescription: Prescription, base: number): Prescription {
  const { to } = prescription.base!;
  return { ...prescription, base: { ...prescription.base!, to: { ...to, value: exactly(to.value, base) } } };
}

/** Whether a view to be opened would stay hidden with the lower base. */
function hidesView(tree: Tree, lower: Prescription, settings: Settings): boolean {
  if (tree.views.length === 0) return false;
  const prescriptions = tree.prescriptions.map(one => (one.id.value === lower.id.value ? lower : one));
  return viewChanges({ ...tree, prescriptions }, 'open', settings).some(
    ({ after }) => judge(after, 'view-left-hidden', settings).standing !== 'within',
  );
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings } = context;
  if (!tree.prescriptions.some(({ base }) => base)) return;
  for (const prescription of openPrescriptions(tree)) {
    const { base, height, id } = prescription;
    const ratio = raisedRatio(tree, prescription, settings);
    if (!base || !ratio) continue;
    const above = readingOf(height?.to ?? tree.height, settings);
    const from = readingOf(base.from, settings);
    const left = judge(ratio, 'raised-crown-ratio', settings);
    const lifted = judge(liftedShare(tree, prescription, settings)!, 'lift-share', settings);
    const graver = GRAVITY[lifted.standing] > GRAVITY[left.standing] ? lifted : left;
    if (!isBeyondLimit(graver)) continue;
    // Within both limits for the shortest tree the readings allow.
    const highest = Math.min(
      above.low * (1 - left.setting.value),
      from.low + Math.max(0, above.low - from.low) * lifted.setting.value,
    );
    const told = [
      ...(left.standing === 'within'
        ? []
        : [
            `leaves a live crown ratio of ${showValue(left)}, which ${left.standing === 'exceeds' ? 'is' : 'may be'} below ${showLimit(left)}`,
          ]),
      ...(lifted.standing === 'within'
        ? []
        : [
            `removes ${showValue(lifted)} of the height of the live crown, which ${lifted.standing} ${showLimit(lifted)}`,
          ]),
    ];
    yield {
      at: spanOf(base),
      ...graded(graver),
      subject: id.value,
      message: `${capital(jobName(prescription))} ${told.join('. It also ')}.`,
      ...lowerBase(context, prescription, highest),
    };
  }
}

export const raiseTooFar: Rule = {
  name: 'raise-too-far',
  group: 'pruning',
  level: 'warning',
  summary: 'a crown raised too far: too little live crown left, or too much of it removed',
  sources: [cite('bs-3998-2010')],
  explanation:
    'Checks open prescriptions that change the crown base. The remaining live crown ratio (with the new height where the prescription changes it) is compared with the limit raised-crown-ratio. The share of the live crown’s height that is removed is compared with the limit lift-share. A tree raised too far sways with its weight at the top, and its stem loses the low branches that thicken it. An unknown height or base leads to a may exceed finding.',
  limitations:
    'Street trees that an ordinance requires to be clear to a height: record an exception that cites the ordinance.',
  appliesTo: ['crown changes'],
  acceptable: true,
  examples: [
    {
      title: 'Half the height; about two thirds',
      text: `tree 374
  height 40 ft
  prescription R1 raise
    base 10 ft to 20 ft #! warning exceeds

tree 375
  height ~40 ft
  prescription R1 raise
    base 10 ft to 13 ft #! note may exceed
`,
    },
    {
      title: 'Enough is left, but more than one season’s share of the crown is removed',
      text: `tree 378
  height 90 ft
  prescription R1 raise
    base 8 ft to 24 ft #! warning exceeds
  prescription R2 raise
    base ~8 ft to 20 ft #! note may exceed
`,
    },
    {
      title: 'A third of the height, and completed work',
      text: `tree 376
  height 60 ft
  prescription R1 raise
    base 8 ft to 14 ft

tree 377
  height 40 ft
  prescription R1 raise
    base 10 ft to 20 ft
  work R1 2026-02-16
`,
    },
  ],
  check,
};
