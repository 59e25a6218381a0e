import {
  type AnswerContext,
  answersTo,
  bridged,
  type Deadline,
  deadlineOf,
  isForRisk,
  ownDeadline,
  ratingDeadline,
} from '../../assess/answering.ts';
import { authority, showNumber } from '../../assess/judge.ts';
import { jobName, openWork } from '../../assess/prescriptions.ts';
import { currentRisks, RATING_CAUTION } from '../../assess/risks.ts';
import { signsOf } from '../../assess/signs.ts';
import { isBeyond } from '../../assess/standing.ts';
import { formatDate } from '../../base/dates.ts';
import { capital } from '../../base/words.ts';
import { isDamaged } from '../../facts/damage.ts';
import type { Prescription } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { LimitName } from '../../practice/limits.ts';
import type { TreeContext } from '../context.ts';
import { type Level, pointTo, type Rule, type RuleReport, spanOf } from '../rule.ts';

/** By deadline: where a rating sets it, and, one level lower, where only the prescription's own priority does. */
const LEVELS: Partial<Record<LimitName, readonly [rated: Level, own: Level]>> = {
  'deadline-immediate': ['error', 'error'],
  'deadline-high': ['error', 'warning'],
  'deadline-moderate': ['warning', 'note'],
  'deadline-low': ['note', 'note'],
};

/** Why the prescription misses the deadline, as the middle of a sentence; undefined where it is in time. */
function lateness(
  prescription: Prescription,
  deadline: Deadline,
  context: AnswerContext,
): string | undefined {
  const { today } = context;
  const { between } = prescription;
  if (isDamaged(context.tree, prescription, 'between', 'priority')) return undefined;
  if (between) {
    // window-passed reports a past window while the deadline is still ahead.
    if (between.to < today && deadline.day >= today) return undefined;
    if (between.to <= deadline.day || bridged(today, between.to, context)) return undefined;
    return `ends on ${formatDate(between.to)}`;
  }
  const own = ownDeadline(prescription, context);
  if (own && own.day <= deadline.day && own.day >= today) return undefined;
  if (deadline.day < today) return 'has no work window';
  if (own) return own.day > deadline.day ? `has priority ${prescription.priority!.value}` : undefined;
  return deadline.isUrgent ? 'has no work window' : undefined;
}

interface LateWork {
  readonly deadline: Deadline;
  readonly how: string;
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  const open = openWork(tree);
  if (open.length === 0) return;
  const late = new Map<Prescription, LateWork>();
  const add = (prescription: Prescription, deadline: Deadline | undefined) => {
    const how = deadline && lateness(prescription, deadline, context);
    if (!how) return;
    const known = late.get(prescription);
    if (!known || deadline.day < known.deadline.day) late.set(prescription, { deadline, how });
  };
  /** Of several prescriptions for the same sign or risk, the earliest counts; without days, that of the first name. */
  const addFirst = (answers: readonly Prescription[], deadline: Deadline | undefined) => {
    if (!deadline || answers.some(one => lateness(one, deadline, context) === undefined)) return;
    const [first] = [...answers].sort(
      (a, b) => lastDay(a) - lastDay(b) || (a.id.value < b.id.value ? -1 : 1),
    );
    if (first) add(first, deadline);
  };
  for (const prescription of open) add(prescription, ownDeadline(prescription, context));
  for (const risk of currentRisks(tree))
    addFirst(
      open.filter(one => isForRisk(one, risk)),
      ratingDeadline(risk, context),
    );
  for (const sign of signsOf(context)) {
    if (!isBeyond(sign)) continue;
    const answers = answersTo(sign, context);
    if (answers.some(({ inTime }) => inTime)) continue;
    addFirst(
      answers.flatMap(({ prescription }) =>
        prescription && open.includes(prescription) ? [prescription] : [],
      ),
      deadlineOf(sign, context),
    );
  }
  for (const [prescription, { deadline, how }] of late) {
    const { risk, limit } = deadline;
    const setting = settings.limit(limit);
    const at = prescription.between ?? prescription.priority ?? prescription.at;
    const time = showNumber(setting.value, setting, 0).replace(/^1 (\w+)s$/, '1 $1');
    yield {
      at: spanOf(at),
      grade: 'stated',
      level: (LEVELS[limit] ?? LEVELS['deadline-low']!)[deadline.isOwn ? 1 : 0],
      subject: prescription.id.value,
      message: `${capital(jobName(prescription))} ${how}, too late: ${deadline.because}. It is due by ${formatDate(deadline.day)}, within ${time} (${authority(setting)}).`,
      remedy: `${deadline.day < today ? 'That day has passed: do it now' : 'Do it by then'}. Or close every target in reach until it is done: below the target, write closed with the date and the person responsible${risk ? '. Then rate the risk again' : ''}.`,
      related: risk ? [pointTo(risk.at, 'The risk as rated.')] : [],
    };
  }
}

const lastDay = ({ between }: Prescription): number => between?.to ?? Number.POSITIVE_INFINITY;

export const mitigationLate: Rule = {
  name: 'mitigation-late',
  group: 'mitigation',
  level: 'warning',
  summary: 'work scheduled later than its priority, a risk rating or the defect it addresses allows',
  sources: [cite('bmp-risk-2017'), cite('practice')],
  explanation:
    'Compares the last day of each open prescription with the time allowed for it. For the priority of the prescription, the time runs from its date. For the risks it addresses, it runs from the date of the rating. For signs of movement it runs from today, at most until a closure of the targets in reach ends. Where a stated rating differs from the one its inputs give, the worse of the two counts.\n\nAn extreme risk requires immediate work, a high risk high priority, and a moderate risk moderate priority. Of several prescriptions for one risk, the earliest counts. Work without a work window is in time while its priority is urgent enough and the time has not run out.\n\nThe times are the limits deadline-immediate, deadline-high, deadline-moderate and deadline-low. Late work is an error for an extreme or high risk, for movement or for an immediate priority. It is a warning for a moderate risk or a high priority, and a note for a lower priority.\n\nNothing is reported where every target in reach is closed by a named person until the last day of the work.',
  limitations: 'Prescriptions to keep or watch. Completed work. For past work windows, see window-passed.',
  appliesTo: ['prescriptions'],
  acceptable: true,
  caution: RATING_CAUTION,
  examples: [
    {
      title:
        'Immediate, and planned for the winter; a high risk answered at moderate priority; moderate, too late',
      text: `tree 35 "Bus stop elm"
  inspection 2026-05-20 from ground
  prescription R1 fell
    priority immediate
    between 2027-01-10..2027-02-28 #! error stated

tree 36
  inspection 2026-05-20 from ground
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
  prescription R1 cable
    for A
    priority moderate #! error stated

tree 37
  inspection 2026-05-20 from ground
  prescription R1 clean
    priority moderate
    between 2027-02-01..2027-02-28 #! note stated
`,
    },
    {
      title: 'Rated too low: the inputs count',
      text: `tree 38
  inspection 2026-05-20 from ground
  target "Bus stop"
    distance 6 ft
    occupied frequent
  risk "Bus stop"
    failure imminent
    impact high
    consequences severe
    rating low
  prescription R1 fell
    priority high #! error stated
`,
    },
    {
      title: 'Another prescription addresses it in time; the target is closed until then; in time',
      text: `person RV "Ruth Varga"
  qualified consulting arborist

tree 39
  inspection 2026-05-20 from ground
  defect A crack
    length 40 in
  target "Kiosk"
    distance 6 ft
    occupied frequent
  risk "Kiosk" from A
    rating high
  prescription R1 reduce
    dose 12 %
    for A
    priority high
  prescription R2 cable
    for A
    withdrawn 2026-05-22 "no anchor above the crack"

tree 40
  inspection 2026-05-20 from ground
  target "Kiosk"
    distance 6 ft
    closed 2026-05-20, by RV
  risk "Kiosk"
    rating extreme
  prescription R1 fell
    between 2026-09-01..2026-09-15
`,
    },
  ],
  check,
};
