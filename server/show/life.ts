/** What happened to a tree, by date, in the words of its record. */

import { HEADS } from '../../grammar/fields.ts';
import { headName } from '../../grammar/names.ts';
import { type Block, type BlockSection, type Line, placedLine } from '../../grammar/syntax.ts';
import { printValues } from '../../grammar/tidy.ts';
import { permitFor } from '../assess/permits.ts';
import { jobName } from '../assess/prescriptions.ts';
import { formatDate } from '../base/dates.ts';
import { factsIn, HAPPENED, type Happened, type Members } from '../facts/days.ts';
import { contentOf } from '../facts/lines.ts';
import { stagesLeft } from '../facts/stages.ts';
import { asWritten } from '../facts/state.ts';
import type { Photo, Prescription, Tree, TreeList, Work, WrittenTree } from '../facts/types.ts';

export const LIFE_KINDS = [
  'inspection',
  'reading',
  'rating',
  'prescription',
  'work',
  'permit',
  'wildlife',
  'photograph',
  'other',
] as const;
export type LifeKind = (typeof LIFE_KINDS)[number];

export interface LifeEvent {
  /** Day number. */
  readonly day: number;
  readonly kind: LifeKind;
  /** `defect A cavity`, `removal of limb L2`. */
  readonly what: string;
  /** Its lines, as their writer wrote them; empty without any. */
  readonly says: string;
}

/** Of every head inside a tree; undefined where it has no day. */
const KINDS: { readonly [List in TreeList]: LifeKind | undefined } = {
  inspections: 'inspection',
  parts: 'reading',
  supports: 'reading',
  defects: 'reading',
  drillings: 'reading',
  tomograms: 'reading',
  joined: 'reading',
  targets: 'reading',
  risks: 'rating',
  conductors: 'reading',
  nestChecks: 'wildlife',
  batChecks: 'wildlife',
  pullTests: 'reading',
  views: 'reading',
  prescriptions: 'prescription',
  works: 'work',
  followUps: 'inspection',
  accepts: undefined,
};

/** Of what ends or begins a record, where that is of another kind than the record. */
const KINDS_OF_DAYS: Readonly<Record<string, LifeKind>> = {
  'installation of': 'work',
  'removal of': 'other',
  'digging of': 'other',
  stress: 'other',
};

/** One of each: a stem and a limb share theirs. */
const DAYS: readonly Happened[] = [
  ...new Map(
    HAPPENED.map(one => [`${one.list} ${one.group} ${one.member.name} ${one.what}`, one] as const),
  ).values(),
];

/**
 * The events on record, by day, of one day in the order of the tables. What has no day is in none of them.
 * @param state of the tree of that block, on the day
 */
export function lifeOf(state: Tree, block: Block, today: number): readonly LifeEvent[] {
  const tree = asWritten(state);
  const sections = new Map(
    block.sections.map(section => [contentOf(placedLine(block, section.head)).start, section]),
  );
  const events = DAYS.flatMap((happened): readonly LifeEvent[] => {
    const { list } = happened;
    const facts = list === undefined ? [tree as unknown as Members] : factsIn(tree, list);
    return facts.flatMap(fact => {
      const section = sections.get((fact as { readonly at: { readonly start: number } }).at.start);
      return section ? eventsOf(fact, happened, section, { block, tree }) : [];
    });
  });
  return [...events, ...permitsOf(state, today), ...photographsOf(tree, block, sections)].sort(
    (a, b) => a.day - b.day,
  );
}

/** A permit is on record from its prescription on. */
const permitsOf = (tree: Tree, today: number): readonly LifeEvent[] =>
  tree.prescriptions.flatMap((prescription): readonly LifeEvent[] => {
    const permit = permitFor(tree, prescription);
    if (!permit) return [];
    const { dated } = prescription;
    const { number, until } = permit;
    const what = `permit ${number.value} for ${jobName(prescription)}`;
    return [
      ...(dated === undefined
        ? []
        : [
            {
              day: dated,
              kind: 'permit' as const,
              what,
              says: until === undefined ? '' : `until ${formatDate(until)}`,
            },
          ]),
      ...(until !== undefined && until <= today && !wasDoneBy(until, prescription, tree)
        ? [{ day: until, kind: 'permit' as const, what: `end of ${what}`, says: '' }]
        : []),
    ];
  });

/** The end of a permit says nothing any more once the work is done. */
const wasDoneBy = (day: number, prescription: Prescription, { works }: Tree): boolean =>
  stagesLeft({ works: works.filter(({ date }) => date.value <= day) }, prescription) === 0;

function eventsOf(
  fact: Members,
  { list, group, member, what, isOfRecord }: Happened,
  section: BlockSection,
  { block, tree }: { readonly block: Block; readonly tree: WrittenTree },
): readonly LifeEvent[] {
  const head = block.lines[section.head]!;
  const isRecord = isOfRecord && KINDS_OF_DAYS[what] === undefined;
  const kind = KINDS_OF_DAYS[what] ?? (list === undefined ? 'other' : KINDS[list as TreeList]);
  if (kind === undefined) return [];
  const name =
    list === undefined ? '' : list === 'works' ? workName(fact as unknown as Work, tree) : recordName(head);
  const held = group === undefined ? [fact] : [fact[group]].flat();
  return held.flatMap((holder): readonly LifeEvent[] => {
    const value = (holder as Members | undefined)?.[member.name];
    const day = typeof value === 'object' ? (value as { readonly value: number } | null)?.value : value;
    if (typeof day !== 'number') return [];
    if (isRecord) {
      const says = saysOf(section, block);
      // What says nothing else than what is an event of its own.
      return says === '' && hasOwnEvents(section, block) ? [] : [{ day, kind, what: name, says }];
    }
    const because = (fact[`${member.name}Because`] as { readonly value: string } | undefined)?.value;
    const cause = (holder as { readonly cause?: string }).cause;
    const words = what.endsWith(' of') ? `${what} ${name}` : list === 'followUps' ? `${name} done` : what;
    return [{ day, kind, what: words, says: because ?? cause ?? '' }];
  });
}

/** What is printed of a line begins behind its first word. */
const printed = (line: Line): string => `${line.word!.split(' ')[0]} ${printValues(line)}`;

/** `defect A cavity`, `inspection from ground`: without its day, which stands before it. */
const recordName = (head: Line): string => {
  const text = head.mistake ? headName(head) : printed(head);
  return text
    .replace(/\s*\b\d{4}-\d{2}-\d{2}\b/, '')
    .replace(/\s+/g, ' ')
    .trim();
};

/** The lines of a record but those that are events of their own. */
const saysOf = ({ word, fields }: BlockSection, { lines }: Block): string =>
  fields
    .flatMap(index => {
      const line = lines[index]!;
      const spec = HEADS.get(word)!.fields.get(line.word ?? '');
      if (spec === undefined || line.mistake || spec.happened !== undefined || line.word === 'photo')
        return [];
      return [printed(line).replace(/\s+/g, ' ').trim()];
    })
    .join('; ');

const hasOwnEvents = ({ word, fields }: BlockSection, { lines }: Block): boolean =>
  fields.some(index => {
    const spec = HEADS.get(word)!.fields.get(lines[index]!.word ?? '');
    return spec?.happened !== undefined && !spec.inspected && !spec.begins;
  });

/** `reduce R1 done`, `reduce R1 done in part`: the later stages of several and the rest of unfinished work are still to come. */
function workName(work: Work, tree: WrittenTree): string {
  const prescription = tree.prescriptions.find(({ id }) => id.value === work.prescription.value);
  if (!prescription) return `work ${work.prescription.value}`;
  const until = tree.works.filter(({ date }) => date.value <= work.date.value);
  const isPart = work.unfinished !== undefined || stagesLeft({ works: until }, prescription) > 0;
  return `${jobName(prescription)} done${isPart ? ' in part' : ''}`;
}

/** Photographs are of the day of the record that names them. */
function photographsOf(
  tree: WrittenTree,
  block: Block,
  sections: ReadonlyMap<number, BlockSection>,
): readonly LifeEvent[] {
  const of = (
    at: number,
    day: number | undefined,
    photos: readonly Photo[],
    name?: string,
  ): readonly LifeEvent[] => {
    const section = sections.get(at);
    if (day === undefined || !section) return [];
    const what = `photograph of ${name ?? recordName(block.lines[section.head]!)}`;
    return photos.map(({ path }) => ({ day, kind: 'photograph', what, says: path }));
  };
  return [
    ...tree.inspections.flatMap(one => of(one.at.start, one.date.value, one.photos, 'the tree')),
    ...tree.defects.flatMap(one => of(one.at.start, one.seen, one.photos)),
    ...tree.nestChecks.flatMap(one => of(one.at.start, one.date.value, one.photos)),
    ...tree.works.flatMap(one =>
      of(one.at.start, one.date.value, one.photos, `the tree, ${workName(one, tree)}`),
    ),
  ];
}
