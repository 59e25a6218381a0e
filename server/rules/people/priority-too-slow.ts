/** Work on a risk with a later priority than its rating allows. */

import { answersRisk } from '../../assess/causes.ts';
import { authority, showNumber } from '../../assess/judge.ts';
import { jobName, openPrescriptionsOfAnyKind } from '../../assess/prescriptions.ts';
import { currentRisks, RATING_CAUTION, ratingToActOn, riskName } from '../../assess/risks.ts';
import type { Prescription, Risk } from '../../facts/types.ts';
import {
  cite,
  PRIORITIES,
  type Priority,
  priorityDeadline,
  priorityFor,
  RISK_RATINGS,
  type RiskRating,
} from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

const urgency = (priority: string): number => (PRIORITIES as readonly string[]).indexOf(priority);

interface Slow {
  readonly rating: RiskRating;
  readonly risk: Risk;
}

function* check({ tree, settings }: TreeContext): Iterable<Report> {
  const open = openPrescriptionsOfAnyKind(tree).filter(
    ({ priority, kind }) => priority && urgency(priority.value) >= 0 && kind.value !== 'keep',
  );
  const slow = new Map<Prescription, Slow>();
  for (const risk of currentRisks(tree)) {
    const rating = ratingToActOn(risk);
    if (!rating) continue;
    // The most urgent of the prescriptions that answer a risk decides for it.
    const first = open
      .filter(prescription => answersRisk(tree, prescription, risk))
      .sort((a, b) => urgency(a.priority!.value) - urgency(b.priority!.value))[0];
    if (!first || urgency(first.priority!.value) <= urgency(priorityFor[rating])) continue;
    const known = slow.get(first);
    if (!known || RISK_RATINGS.indexOf(known.rating) < RISK_RATINGS.indexOf(rating))
      slow.set(first, { rating, risk });
  }
  for (const [prescription, { rating, risk }] of slow) {
    const priority: Priority = priorityFor[rating];
    const deadline = settings.limit(priorityDeadline[priority]);
    yield {
      at: prescription.priority!,
      grade: 'stated',
      subject: prescription.id.value,
      message: `The priority of ${jobName(prescription)} is ${prescription.priority!.value}, but ${riskName(risk)} is ${rating}, which asks for ${priority} priority: within ${showNumber(deadline.value, deadline, 0).replace(/^1 (\w+)s$/, '1 $1')} (${authority(deadline)}).`,
      remedy: `Raise the priority to ${priority} and move the work forward, or close off the target until it is done and rate the risk again.`,
      related: [{ start: risk.at.start, end: risk.at.end, message: `Rated ${rating}` }],
    };
  }
}

export const priorityTooSlow: Rule = {
  name: 'priority-too-slow',
  group: 'people',
  level: 'warning',
  summary: 'a priority later than the risk rating allows',
  sources: [cite('bmp-risk-2017'), cite('practice')],
  explanation: `For each risk as last assessed, takes the worse of its stated rating and the one that its inputs give, and the most urgent of the open prescriptions that answer it: those for its defect, and those for no defect in particular. An extreme risk asks for immediate work, a high one for high priority, a moderate one for moderate.

How many days each priority means is common practice; the limits deadline-immediate, deadline-high, deadline-moderate and deadline-low hold it.`,
  whenNot: 'Where the target is closed off until the work: rate the risk again with the target out of use.',
  looksAt: ['risks'],
  acceptable: true,
  caution: RATING_CAUTION,
  examples: [
    {
      title: 'A high risk answered at moderate priority',
      text: `tree 35 "Bus stop elm"
  defect A crack
    length 40 in
  target "Bus stop"
    distance 6 ft
    occupied frequent
  risk "Bus stop" from A
    failure probable
    impact high
    consequences severe
    rating high
  prescription R1 reduce
    dose 12 %
    for A
    priority moderate #! stated
`,
    },
    {
      title: 'The rating was written too low: the inputs count',
      text: `tree 35 "Bus stop elm"
  target "Bus stop"
    distance 6 ft
    occupied frequent
  risk "Bus stop"
    failure imminent
    impact high
    consequences severe
    rating low
  prescription R1 fell
    priority high #! stated
`,
    },
    {
      title: 'Another prescription answers it in time; one for another defect may wait; one is withdrawn',
      text: `tree 36 "Kiosk maple"
  defect A crack
    length 40 in
  defect B dead wood
    length 3 ft
  target "Kiosk"
    distance 6 ft
    occupied frequent
  risk "Kiosk" from A
    failure probable
    impact high
    consequences severe
    rating high
  prescription R1 reduce
    dose 12 %
    for A
    priority high
  prescription R2 clean
    for B
    priority low
  prescription R3 cable
    for A
    priority low
    withdrawn 2026-05-02 "no anchor above the crack"
`,
    },
  ],
  check,
};
