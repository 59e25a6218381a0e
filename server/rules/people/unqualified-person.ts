/** Prescribing, flying and looking for bats by somebody who is not qualified for it on the day. */

import { formatDate } from '../../../grammar/dates.ts';
import { jobName, openPrescriptionsOfAnyKind } from '../../assess/prescriptions.ts';
import { expiredCertificate, isQualified, qualifiedOn } from '../../assess/qualifications.ts';
import { UNREAD } from '../../facts/lines.ts';
import type { Inspection, Person, Placed, Tree } from '../../facts/types.ts';
import { type Citation, cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

/** Something that somebody did, and the qualifications of which one is needed for it. */
interface Act {
  readonly by: Placed<string>;
  readonly subject: string;
  readonly day: number;
  /** As it stands before `by Ruth Varga`. */
  readonly what: string;
  readonly needs: readonly string[];
  readonly source: Citation;
  readonly level: 'error' | 'warning';
}

const PRESCRIBERS = ['consulting arborist', 'climbing arborist'];
const PILOTS = ['remote pilot'];
const BAT_WORKERS = ['bat worker', 'wildlife biologist'];

function actsOn(tree: Tree, today: number): readonly Act[] {
  return [
    ...flightsAmong('inspection', tree.inspections),
    ...flightsAmong('nest check', tree.nestChecks),
    ...flightsAmong('bat check', tree.batChecks),
    ...tree.batChecks.flatMap(({ by, date }): Act[] =>
      by
        ? [
            {
              ...dated(by, date.value),
              what: `The bat check on ${formatDate(date.value)} is`,
              needs: BAT_WORKERS,
              source: cite('practice'),
              level: 'warning',
            },
          ]
        : [],
    ),
    ...openPrescriptionsOfAnyKind(tree).flatMap((prescription): Act[] => {
      const { by, id, dated: day } = prescription;
      if (!by) return [];
      return [
        {
          by,
          subject: id.value,
          day: day ?? today,
          what: `Prescription ${jobName(prescription)} is`,
          needs: PRESCRIBERS,
          source: cite('practice'),
          level: 'warning',
        },
      ];
    }),
  ];
}

type Looked = Pick<Inspection, 'from' | 'by' | 'date'>;

const flightsAmong = (what: string, looks: readonly Looked[]): readonly Act[] =>
  looks.flatMap(({ from, by, date }): Act[] =>
    by && from === 'drone'
      ? [
          {
            ...dated(by, date.value),
            what: `The ${what} from a drone on ${formatDate(date.value)} is`,
            needs: PILOTS,
            source: cite('part-107'),
            level: 'error',
          },
        ]
      : [],
  );

const dated = (by: Placed<string>, day: number) => ({ by, day, subject: formatDate(day) });

const either = (words: readonly string[]): string => words.join(' or ');

/** What is wrong with the person for the act, as the end of a sentence; undefined where nothing is. */
function objection(person: Person, { needs, day }: Act): { message: string; remedy: string } | undefined {
  if (needs.some(need => qualifiedOn(person, need, day))) return undefined;
  const held = needs.find(need => isQualified(person, need));
  const expired = held && expiredCertificate(person, held, day);
  if (expired)
    return {
      message: `whose certificate "${expired.number.value}" (${held}) ended on ${formatDate(expired.until!.value)}, before ${formatDate(day)}`,
      remedy: `Record the certificate that took its place, or have it done by somebody whose certificate holds.`,
    };
  const stated = person.qualifications.map(({ value }) => value);
  return {
    message: `who is ${stated.length > 0 ? `qualified as ${stated.join(', ')}` : 'without any qualification on record'}, not as ${either(needs)}`,
    remedy: `Have it done, or taken over by name, by a ${either(needs)}, or add the qualification to the person where it is missing.`,
  };
}

function* check(context: TreeContext): Iterable<Report> {
  for (const act of actsOn(context.tree, context.today)) {
    const person = context.person(act.by.value);
    const wrong = person && objection(person, act);
    if (!wrong) continue;
    yield {
      at: act.by,
      grade: 'stated',
      level: act.level,
      subject: act.subject,
      message: `${act.what} by ${fullName(person)}, ${wrong.message} (${act.source.short}).`,
      remedy: wrong.remedy,
    };
  }
}

/** Where the full name could not be read, the short one. */
const fullName = ({ id, name }: Person): string => (name.value === UNREAD ? id.value : name.value);

export const unqualifiedPerson: Rule = {
  name: 'unqualified-person',
  group: 'people',
  level: 'error',
  summary: 'prescribed, flown or searched by somebody not qualified for it on the day',
  sources: [cite('part-107'), cite('practice')],
  explanation: `Looks at who is named by open prescriptions, by inspections and checks from a drone, and by bat checks. A prescription comes from a consulting or climbing arborist, on the day it is dated; a drone is flown by a remote pilot (an error, since the law asks for it; 14 CFR 107.12 is from memory); roosts are searched by a bat worker or wildlife biologist.

A certificate counts for the qualification that its text names (remote pilot, climbing, line clearance, crane, bat, wildlife, tree risk). Where every certificate for a qualification had ended by the day, the person did not hold it.`,
  whenNot:
    'Persons whom no person block describes are a broken reference, reported elsewhere. Where a pilot flew for the inspector, name the pilot in by and the inspector in a note.',
  looksAt: ['prescriptions', 'nest checks', 'bat checks', 'flights'],
  acceptable: true,
  caution: 'A qualification on record is not proof of it: look at the certificate.',
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
      title: 'A certificate that had ended on the day; a renewed one',
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
      title: 'Qualified people, and a prescription overtaken by another',
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
`,
    },
  ],
  check,
};
