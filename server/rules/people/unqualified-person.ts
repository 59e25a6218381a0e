import type { Span } from '../../../grammar/text.ts';
import { jobName, openPrescriptionsOfAnyKind } from '../../assess/prescriptions.ts';
import { expiredCertificate, isQualified, qualifiedOn } from '../../assess/qualifications.ts';
import { formatDate } from '../../base/dates.ts';
import { isDamaged } from '../../facts/damage.ts';
import { UNREAD } from '../../facts/placed.ts';
import type { Inspection, Person, Placed, Prescription, Tree } from '../../facts/types.ts';
import { type Citation, cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

/** An act that requires any one of several qualifications. */
interface QualifiedAct {
  /** Absent where no one is named. */
  readonly by?: Placed<string> | undefined;
  /** Where to report that no one is named. */
  readonly at: Span;
  readonly subject: string;
  readonly day: number;
  /** The subject of `… is by Ruth Varga`. */
  readonly what: string;
  readonly needs: readonly string[];
  readonly source: Citation;
  readonly level: 'error' | 'warning';
}

const PRESCRIBERS = ['consulting arborist', 'climbing arborist'];
/** Prescriptions without cuts, which may leave their author out. */
const WAITING: ReadonlySet<Prescription['kind']['value']> = new Set(['keep', 'watch', 'investigate']);
const PILOTS = ['remote pilot'];
const BAT_WORKERS = ['bat worker', 'wildlife biologist'];

function actsOn(tree: Tree, today: number): readonly QualifiedAct[] {
  return [
    ...flightsAmong('inspection', tree.inspections),
    ...flightsAmong('nest check', tree.nestChecks),
    ...flightsAmong('bat check', tree.batChecks),
    ...tree.batChecks.map(
      (check): QualifiedAct => ({
        ...dated(check),
        what: `The bat check on ${formatDate(check.date.value)}`,
        needs: BAT_WORKERS,
        source: cite('practice'),
        level: 'warning',
      }),
    ),
    ...openPrescriptionsOfAnyKind(tree).flatMap((prescription): readonly QualifiedAct[] => {
      const { at, id, dated: day } = prescription;
      const looked = tree.inspections.filter(({ date }) => date.value === day);
      const by = prescription.by ?? looked.find(inspection => inspection.by)?.by;
      // No work is done on the tree; or no inspection is on record, which work-on-old-inspection reports.
      if (!by && (WAITING.has(prescription.kind.value) || looked.length === 0)) return [];
      return [
        {
          by,
          at,
          subject: id.value,
          day: day ?? today,
          what: `Prescription ${jobName(prescription)}`,
          needs: PRESCRIBERS,
          source: cite('practice'),
          level: 'warning',
        },
      ];
    }),
  ];
}

type DatedCheck = Pick<Inspection, 'at' | 'from' | 'by' | 'date'>;

const flightsAmong = (what: string, looks: readonly DatedCheck[]): readonly QualifiedAct[] =>
  looks
    .filter(({ from }) => from.value === 'drone')
    .map(look => ({
      ...dated(look),
      what: `The ${what} from a drone on ${formatDate(look.date.value)}`,
      needs: PILOTS,
      source: cite('part-107'),
      level: 'error',
    }));

const dated = ({ at, by, date }: Pick<DatedCheck, 'at' | 'by' | 'date'>) => ({
  at,
  by,
  day: date.value,
  subject: formatDate(date.value),
});

const either = (words: readonly string[]): string => words.join(' or ');

/** Why the person is not qualified, as the end of a sentence; undefined for a qualified one. */
function objection(
  person: Person,
  { needs, day }: QualifiedAct,
): { message: string; remedy: string } | undefined {
  if (needs.some(need => qualifiedOn(person, need, day))) return undefined;
  const held = needs.find(need => isQualified(person, need));
  const expired = held && expiredCertificate(person, held, day);
  if (expired)
    return {
      message: `whose certificate "${expired.number}" (${held}) ended on ${formatDate(expired.until!)}, before ${formatDate(day)}`,
      remedy: 'Record the certificate that replaced it, or assign someone with a valid certificate.',
    };
  const stated = person.qualifications.map(({ value }) => value);
  return {
    message: `who is ${stated.length > 0 ? `qualified as ${stated.join(', ')}` : 'without any qualification on record'}, not as ${either(needs)}`,
    remedy: `Have it done, or taken over by name, by a ${either(needs)}. Or add the missing qualification to the person.`,
  };
}

function* check(context: TreeContext): Iterable<RuleReport> {
  for (const act of actsOn(context.tree, context.today)) {
    const report = act.by
      ? byWrongPerson(act, context.person(act.by.value), act.by)
      : isDamaged(context.tree, act, 'by')
        ? undefined
        : byNobody(act);
    if (report) yield report;
  }
}

function byWrongPerson(act: QualifiedAct, person: Person | undefined, at: Span): RuleReport | undefined {
  const wrong = person && objection(person, act);
  return (
    wrong && {
      at: spanOf(at),
      grade: 'stated',
      level: act.level,
      subject: act.subject,
      message: `${act.what} names ${fullName(person)}, ${wrong.message} (${act.source.short}).`,
      remedy: wrong.remedy,
    }
  );
}

/** Without a name on record, the qualification is unknown. */
const byNobody = ({ at, level, needs, source, subject, what }: QualifiedAct): RuleReport => ({
  at,
  grade: 'stated',
  level,
  subject,
  message: `${what} names no person. It requires a ${either(needs)} (${source.short}).`,
  remedy: 'Add by with the person, as named in a person record.',
});

/** The full name, or the ID where the name could not be read. */
const fullName = ({ id, name }: Person): string => (name.value === UNREAD ? id.value : name.value);

export const unqualifiedPerson: Rule = {
  name: 'unqualified-person',
  group: 'people',
  level: 'error',
  summary:
    'a prescription, drone flight or bat search by a person not qualified on that date, or with no person named',
  sources: [cite('part-107'), cite('practice')],
  explanation:
    'Checks the persons named in open prescriptions, in drone inspections and drone checks, and in bat checks. A prescription is made by a consulting or climbing arborist qualified on its date. That is the person it names, otherwise the one who made the inspection of the same date. A drone is flown by a remote pilot (an error, since the law requires it; 14 CFR 107.12 is from memory). Roosts are searched for by a bat biologist (bat worker) or wildlife biologist.\n\nA certificate counts for the qualification its text names (remote pilot, climbing, line clearance, crane, bat, wildlife, tree risk). Where every certificate for a qualification had expired by that date, the person was not qualified. Naming no one is treated as seriously as naming an unqualified person.',
  limitations:
    'People with no person record, which is a broken reference and reported elsewhere. Where a pilot flew for the inspector, name the pilot in by and the inspector in a note.',
  appliesTo: ['prescriptions', 'nest checks', 'bat checks', 'flights'],
  acceptable: true,
  caution: 'A qualification on record is not proof. Check the certificate.',
  examples: [
    {
      title: 'A trainee prescribes, an arborist without a pilot’s certificate flies',
      text: `person RV "Ruth Varga"
  qualified consulting arborist

person PS "Pia Santoro"
  qualified trainee, ground worker

tree 51
  inspection 2026-03-14 from drone
    by RV #! stated
  prescription R1 thin
    dose 10 %
    by PS #! warning stated
`,
    },
    {
      title: 'No one named',
      text: `tree 54
  inspection 2026-03-14 from drone #! error stated
    flown 120 ft, permission owner
  bat check 2026-05-20 from rope #! warning stated
    found none
  prescription R1 thin #! warning stated
    dose 10 %
`,
    },
    {
      title: 'A certificate that had expired; a renewed one',
      text: `person RV "Ruth Varga"
  qualified consulting arborist, remote pilot
  certificate "remote pilot 4417", until 2026-02-28

person TL "Tove Lindqvist"
  qualified remote pilot
  certificate "remote pilot 3301", until 2026-02-28
  certificate "remote pilot 3301-2", until 2028-02-28

tree 52
  inspection 2026-03-14 from drone
    by RV #! stated
  inspection 2026-02-28 from drone
    by RV
  inspection 2026-03-15 from drone
    by TL
`,
    },
    {
      title: 'Qualified people, an inspector who prescribes, and a prescription replaced by another',
      text: `person RV "Ruth Varga"
  qualified consulting arborist

person HK "Hana Kowal"
  qualified wildlife biologist, bat worker

person PS "Pia Santoro"
  qualified trainee

tree 53
  inspection 2026-03-14 from ground
    by PS
  bat check 2026-05-20 from rope
    by HK
    found none
  prescription R1 thin
    dose 10 %
    by PS
  prescription R2 thin
    replaces R1
    dose 8 %
    by RV

tree 55
  inspection 2026-03-14 from ground
    by RV
  prescription R1 thin
    dose 10 %
`,
    },
  ],
  check,
};
