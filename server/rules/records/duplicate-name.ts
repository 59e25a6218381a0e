/** Two things of one kind with one name, so that nobody knows which one a reference means. */

import type { NameKind } from '../../../grammar/entries.ts';
import { headsUnder } from '../../../grammar/fields.ts';
import type { Span } from '../../../grammar/text.ts';
import { type Quantity, showQuantity } from '../../base/quantity.ts';
import { folderOf } from '../../facts/paths.ts';
import { UNREAD } from '../../facts/placed.ts';
import { nameIn, READ_AGAIN, readingsIn } from '../../facts/readings.ts';
import { headsDeclaring, namesOfKind } from '../../facts/references.ts';
import { asWritten } from '../../facts/state.ts';
import type { Crew, Person, Placed, Practice, ReadAgainFact, Site, WrittenTree } from '../../facts/types.ts';
import type { PlacedFact } from '../../facts/workspace.ts';
import type { TreeContext } from '../context.ts';
import type { PlacedReport, Rule, RuleReport, WorkspaceContext } from '../rule.ts';

interface Twice {
  readonly first: Placed<string>;
  readonly again: Placed<string>;
}

/** Every name that was there before in the list, with its first place. */
function* twice(names: readonly Placed<string>[]): Iterable<Twice> {
  const firsts = new Map<string, Placed<string>>();
  for (const name of names) {
    if (name.value === UNREAD) continue;
    const first = firsts.get(name.value);
    if (first) yield { first, again: name };
    else firsts.set(name.value, name);
  }
}

function said(kind: string, { value, start, end }: Placed<string>, first: Span): RuleReport {
  return {
    at: { start, end },
    grade: 'stated',
    subject: value,
    message: `Another ${kind} is named ${value}. References use the first one.`,
    remedy: 'Give this one a name of its own.',
    related: [{ start: first.start, end: first.end, message: `The first ${kind} ${value}.` }],
  };
}

function* check({ tree }: TreeContext): Iterable<RuleReport> {
  const recorded = asWritten(tree);
  for (const { heads, kind } of NAMED) {
    const names = namesOfKind(recorded, kind);
    if (names.length < 2) continue;
    const readings = namesOfReadings(recorded, kind);
    for (const { first, again } of twice(readings ?? names))
      yield readings ? saidOfReading(heads, again, first, recorded) : said(heads, again, first);
  }
}

/** Of what is read again on other days, one name for all readings of a thing; undefined for other kinds. */
function namesOfReadings(tree: WrittenTree, kind: NameKind): readonly Placed<string>[] | undefined {
  const again = READ_AGAIN.find(one => one.declares === kind);
  if (!again) return undefined;
  const facts: readonly ReadAgainFact[] = tree[again.list];
  return readingsIn(facts, again).map(readings => nameIn(facts.find(fact => readings.includes(fact))!)!);
}

function saidOfReading(
  heads: string,
  again: Placed<string>,
  first: Placed<string>,
  tree: WrittenTree,
): RuleReport {
  const facts = READ_AGAIN.flatMap(({ list }): readonly ReadAgainFact[] => tree[list]);
  const [one, other] = [first, again].map(name => facts.find(fact => nameIn(fact) === name)!);
  const days = [one!.seen, other!.seen];
  const report = said(heads, again, first);
  return days[0] === days[1]
    ? {
        ...report,
        remedy: `${report.remedy.slice(0, -1)}. If it is the same one, measured again, put it below the inspection of that date.`,
      }
    : {
        ...report,
        message: `Another ${heads} is named ${again.value} but has another kind or part, so it is not a later reading of the first one. References use the first one.`,
        remedy: `${report.remedy.slice(0, -1)}. If one became the other, close the first one with the date.`,
      };
}

/** What names a fact inside a tree, by its heads: those that others refer to or may. */
const NAMED: readonly { readonly heads: string; readonly kind: NameKind }[] = [
  ...new Set(headsUnder('tree').flatMap(({ declares }) => declares ?? [])),
].map(kind => ({ kind, heads: headsDeclaring(kind).join(' or ') }));

function* checkWorkspace({ workspace }: WorkspaceContext): Iterable<PlacedReport> {
  for (const blocks of workspace.practices.values()) yield* givenTwice(blocks);
  for (const { path, others } of workspace.files.values()) {
    for (const placed of others) {
      const { fact } = placed;
      if (fact.kind === 'practice') continue;
      if (fact.kind === 'site') yield* secondSite(fact.name, placed, workspace.sites.get(folderOf(path)));
      else yield* secondOf(fact.kind, fact.id, placed, workspace[`${fact.kind}s`].get(fact.id.value));
    }
  }
}

function* secondOf(
  kind: 'person' | 'crew',
  id: Placed<string>,
  placed: PlacedFact,
  first: PlacedFact<Person | Crew> | undefined,
): Iterable<PlacedReport> {
  if (first === undefined || first === placed || id.value === UNREAD) return;
  const report = said(kind, id, first.fact.id);
  yield { ...report, in: placed, related: report.related!.map(place => ({ ...place, in: first })) };
}

function* secondSite(
  name: Placed<string>,
  placed: PlacedFact,
  first: PlacedFact<Site> | undefined,
): Iterable<PlacedReport> {
  if (first === undefined || first === placed) return;
  yield {
    in: placed,
    at: placed.fact.at,
    grade: 'stated',
    subject: name.value,
    message: `This folder already has the site ${first.fact.name.value}. Its trees stay with that one.`,
    remedy: 'Put the second site into a folder of its own.',
    related: [{ ...first.fact.at, in: first, message: 'The site of this folder.' }],
  };
}

/** What tells the facts of one list apart; approach distances by their voltage. */
const namesOf = (practice: Practice, list: string, name: string): readonly Placed<string>[] =>
  (
    practice[list as 'limits'] as unknown as readonly Readonly<
      Record<string, Placed<string | Quantity> | undefined>
    >[]
  ).flatMap(one => {
    const named = one[name];
    if (!named) return [];
    const { value } = named;
    return [{ ...named, value: typeof value === 'string' ? value : showQuantity(value) }];
  });

/** What the practice blocks of one folder give more than once. */
function* givenTwice(blocks: readonly PlacedFact<Practice>[]): Iterable<PlacedReport> {
  for (const { word: kind, list, key } of headsUnder('practice')) {
    const named = blocks.flatMap(placed =>
      namesOf(placed.fact, list!, key[0]!).map(name => ({ name, placed })),
    );
    const blockOf = new Map(named.map(({ name, placed }) => [name, placed]));
    for (const { first, again } of twice(named.map(({ name }) => name))) {
      yield {
        in: blockOf.get(again)!,
        at: { start: again.start, end: again.end },
        grade: 'stated',
        subject: again.value,
        message: `The practice of this folder sets the ${kind} ${again.value} twice. The stricter one counts.`,
        remedy: 'Keep one of the two.',
        related: [
          { start: first.start, end: first.end, in: blockOf.get(first)!, message: 'Set here first.' },
        ],
      };
    }
  }
}

export const duplicateName: Rule = {
  name: 'duplicate-name',
  group: 'records',
  level: 'error',
  summary: 'two items of the same kind with the same name',
  sources: [],
  explanation:
    'Defects, prescriptions, stems and limbs, follow-ups, targets, conductors and views have names that are unique within their tree. A defect, stem, limb, target, conductor or view repeated below the inspection of another date is a later reading of the same one. It must be of the same kind and, where both state it, on the same part of the tree. Persons and crews have names that are unique in the workspace. A folder has one site, and its practice blocks set each limit, season and severity once. Where a name is repeated, references use the first one and the later one is reported. Of two limits, seasons or severities the stricter applies, whatever their order.',
  limitations: 'Names of different kinds, or in different trees, may be the same.',
  appliesTo: ['defects', 'prescriptions', 'parts', 'follow-ups', 'targets', 'conductors', 'views'],
  acceptable: false,
  examples: [
    {
      title: 'In one tree',
      text: `tree 14
  stem North
  limb North #! stated
  defect A cavity
  defect A cavity #! stated
  defect B crack
  prescription A clean
  prescription A thin #! stated

tree 15
  defect A cavity
`,
    },
    {
      title: 'Read again; another kind, another part, twice on one day',
      text: `tree 16
  inspection 2024-05-02 from ground
  stem North
  stem South
  defect A cavity
    on North at 8 ft
  defect B wound
  defect C crack
    on North at 6 ft
  inspection 2026-05-06 from ground
  stem North
    diameter 20 in
  defect A cavity
    wall 3 in
  defect B decay #! stated
  defect C crack #! stated
    on South at 6 ft
  defect D crack
  defect D crack #! stated
`,
    },
    {
      title: 'Persons and crews, sites of one folder, limits of one practice block',
      text: `site "Fernhollow Court"
site "Fernhollow Grove" #! stated

person RV "Ruth Varga"
person RV "Rolf Vance" #! stated
crew ROPE "Rope crew"
crew ROPE "Crew of the west side" #! stated

practice "Office limits"
  limit strength-loss 30 %
    because "busy play area under most crowns"
  limit strength-loss 25 % #! stated
    because "second thoughts"
`,
    },
  ],
  check,
  checkWorkspace,
};
