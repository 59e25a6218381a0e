import { clearDays } from '../../assess/clear-days.ts';
import { showCount, showDays } from '../../assess/days.ts';
import { EMERGENCY_PERMIT, isEmergency } from '../../assess/emergency.ts';
import { openPrescriptions } from '../../assess/jobs.ts';
import { authority } from '../../assess/judge.ts';
import { type Permit, permitFor } from '../../assess/permits.ts';
import { daysLeft, jobName } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { capital } from '../../base/words.ts';
import type { DaySpan } from '../../base/yearly-window.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { onDays } from '../other-days.ts';
import type { Remedy, Rule, RuleReport } from '../rule.ts';

/** Clear days before the permit expires, or a renewal where there are none. */
function remedyFor(
  context: TreeContext,
  prescription: Prescription,
  days: DaySpan | undefined,
  until: number,
): Remedy {
  const { today } = context;
  if (isEmergency(context)) return { remedy: EMERGENCY_PERMIT };
  const renew = 'have the permit renewed and write its new last day';
  if (!days || until < today) return { remedy: `${capital(renew)}.` };
  const over = until < days.from;
  const clear = clearDays(context, prescription, { from: over ? today : days.from, to: until });
  if (clear.length === 0)
    return { remedy: `${capital(renew)}. No clear day is left before it ends on ${formatDate(until)}.` };
  const verb = over ? 'Move' : 'Keep';
  return {
    remedy: `${verb} the work to ${clear.map(showDays).join(' or ')}, or ${renew}.`,
    advice: clear.map(one => onDays(verb, prescription, one)),
  };
}

/** Report on an open prescription whose permit expires or has no end date; undefined where it stays valid. */
function planned(
  context: TreeContext,
  prescription: Prescription,
  { number, until }: Permit,
): RuleReport | undefined {
  const { today, settings } = context;
  if (until === undefined) return withoutEnd(prescription, number.value);
  const days: DaySpan | undefined = daysLeft(prescription, today);
  const lead = settings.limit('permit-lead');
  if (!days && until >= today && until - today <= lead.value)
    return {
      at: prescription.at,
      grade: 'may exceed',
      subject: prescription.id.value,
      message: `Permit ${number.value} ends on ${formatDate(until)}, in ${showCount(until - today)}. ${capital(jobName(prescription))} has no work window. Work is to be scheduled at least ${showCount(lead.value)} before a permit ends (${authority(lead)}).`,
      ...remedyFor(context, prescription, { from: today, to: until }, until),
    };
  if (until >= (days?.to ?? today)) return undefined;
  const over = until < (days?.from ?? today);
  const ended = `permit ${number.value} ${until < today ? 'ended' : 'ends'} on ${formatDate(until)}`;
  return {
    at: prescription.between ?? prescription.at,
    grade: over ? 'exceeds' : 'may exceed',
    subject: prescription.id.value,
    message: days
      ? `${capital(jobName(prescription))} is scheduled for ${formatDate(days.from)}..${formatDate(days.to)}, but ${ended} (the local order decides).`
      : `${capital(jobName(prescription))} is still open, but ${ended} (the local order decides).`,
    ...remedyFor(context, prescription, days, until),
  };
}

const withoutEnd = (prescription: Prescription, number: string): RuleReport => ({
  at: prescription.at,
  grade: 'may exceed',
  subject: prescription.id.value,
  message: `Permit ${number} has no recorded last day, and ${jobName(prescription)} is still outstanding under it (the local order decides).`,
  remedy: 'Add its last day: until, and the date.',
});

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree } = context;
  for (const prescription of openPrescriptions(tree)) {
    const permit = permitFor(tree, prescription);
    const report = permit && planned(context, prescription, permit);
    if (report) yield report;
  }
  for (const { at, date, prescription: id } of tree.works) {
    // Only the prescription's own permit: the tree's may be of a later date.
    const permit = tree.prescriptions.find(prescription => prescription.id.value === id.value)?.permit;
    if (permit?.until === undefined || permit.until >= date.value) continue;
    yield {
      at,
      grade: 'exceeds',
      subject: formatDate(date.value),
      message: `Work on ${formatDate(date.value)} under ${id.value} was done after permit ${permit.number.value} ended on ${formatDate(permit.until)} (the local order decides).`,
      remedy: 'Correct the dates if one is wrong. Otherwise notify the authority.',
    };
  }
}

export const permitExpired: Rule = {
  name: 'permit-expired',
  group: 'permits',
  level: 'error',
  summary: 'work planned or done after its permit expired',
  sources: [cite('practice')],
  explanation:
    'Checks open prescriptions with a permit, their own or the tree’s, and compares the last day of the permit with what remains of the work window. A permit that expires before the window starts exceeds. One that expires within it may exceed, since the work may still be done in time. A prescription with no work window is compared with today and reported once the permit’s end is within the limit permit-lead. A permit with no recorded last day may exceed.\n\nRecorded work is compared with the permit that its own prescription names.',
  limitations: 'Permits valid until the work is done: record the planned completion date.',
  appliesTo: ['permits'],
  acceptable: false,
  caution: 'The local order decides; work after the last day counts as work without a permit.',
  examples: [
    {
      title: 'Expired before the window, within it, and before today',
      text: `tree 115
  protected permit TR-2291, until 2026-08-31
  prescription R1 reduce
    dose 12 %
    between 2026-09-15..2026-11-30 #! exceeds
  prescription R2 clean
    dose 5 %
    between 2026-08-15..2026-09-15 #! may exceed

tree 116
  protected permit TR-2290, until 2026-04-30
  prescription R1 clean #! exceeds
    dose 5 %
`,
    },
    {
      title: 'Work done after the last day',
      text: `tree 117
  prescription R1 reduce
    dose 12 %
    permit WP-31, until 2026-01-31
  work R1 2026-02-04 #! exceeds
    dose 12 %
`,
    },
    {
      title: 'Felled after the last day',
      text: `tree 117
  felled 2026-02-05
  prescription R1 fell
    permit WP-32, until 2026-01-31
  work R1 2026-02-05 #! exceeds
`,
    },
    {
      title: 'The prescription’s own permit is still valid; work in time',
      text: `tree 118
  protected permit TR-2290, until 2026-04-30
  prescription R1 reduce
    dose 12 %
    between 2026-09-15..2026-11-30
    permit TR-2301, until 2026-12-31
  prescription R2 clean
    dose 5 %
    permit WP-30, until 2026-02-28
  work R2 2026-02-28
    dose 5 %

`,
    },
    {
      title: 'No last day recorded; expires within weeks, with no days planned',
      text: `tree 119
  protected permit TR-2305
  prescription R1 clean #! may exceed
    dose 5 %

tree 120
  protected permit TR-2306, until 2026-06-20
  prescription R1 clean #! may exceed
    dose 5 %

tree 121
  protected permit TR-2307, until 2026-08-20
  prescription R1 clean
    dose 5 %
`,
    },
  ],
  check,
};
