/** A name that stands for nothing: a person, crew, defect, prescription, part or target that is not there. */

import { REFERENCES } from '../../../grammar/forms.ts';
import { oneOf } from '../../../grammar/match.ts';
import { isSlip, nearest } from '../../../grammar/nearest.ts';
import { UNREAD } from '../../facts/placed.ts';
import {
  asWritten,
  eachNameUsed,
  headsDeclaring,
  type Named,
  type NamedKind,
  named,
  namesGiven,
  namesOfKind,
  namesUsed,
  TRUNK,
} from '../../facts/references.ts';
import type { Defect, Prescription, WrittenTree } from '../../facts/types.ts';
import type { TreeContext } from '../context.ts';
import { NOTHING, type PlacedReport, type Rule, type RuleReport, type WorkspaceContext } from '../rule.ts';

/** Of nearly all trees every name is known. */
function check(context: TreeContext): Iterable<RuleReport> {
  const given: NamesOfTree = {};
  let unknown: Named[] | undefined;
  eachNameUsed(context.recorded, (kind, word) => {
    if (!isKnown(context, kind, word.value, given)) (unknown ??= []).push(named(kind, word));
  });
  return unknown ? said(unknown, context) : NOTHING;
}

function* said(unknown: readonly Named[], context: TreeContext): Iterable<RuleReport> {
  const known = new Map<NamedKind, readonly string[] | undefined>();
  for (const used of unknown) {
    if (!known.has(used.kind)) known.set(used.kind, candidates(context, used.kind));
    const report = reportOf(used, known.get(used.kind));
    if (report) yield report;
  }
}

/** The names of the tree, filled as they are asked for. */
type NamesOfTree = { [Kind in NamedKind]?: ReadonlySet<string> };

function isKnown(
  { recorded, person, crew }: TreeContext,
  kind: NamedKind,
  name: string,
  given: NamesOfTree,
): boolean {
  if (kind === 'person') return person(name) !== undefined;
  if (kind === 'crew') return crew(name) !== undefined;
  if (kind === 'part' && name === TRUNK) return true;
  given[kind] ??= new Set(namesOfKind(recorded, kind).map(({ value }) => value));
  return given[kind].has(name);
}

/** What could have been meant; undefined where a damaged head may be what is missing. */
function candidates(
  { recorded, personIds, crewIds }: TreeContext,
  kind: NamedKind,
): readonly string[] | undefined {
  if (kind === 'person') return withoutUnread(personIds);
  if (kind === 'crew') return withoutUnread(crewIds);
  const kinds: readonly NamedKind[] = kind === 'cause' ? REFERENCES.cause.means : [kind];
  if (kinds.some(one => hasDamaged(recorded, one))) return undefined;
  const names = namesGiven(recorded).flatMap(given => (kinds.includes(given.kind) ? [given.name] : []));
  return kinds.includes('part') ? [...names, TRUNK] : names;
}

const withoutUnread = (ids: readonly string[]) => (ids.includes(UNREAD) ? undefined : ids);

/** A head that lost its kind may have lost its name as well, and taken the kind for it. */
const hasDamaged = (tree: WrittenTree, kind: NamedKind): boolean =>
  (kind === 'defect' && tree.defects.some(isDamaged)) ||
  (kind === 'prescription' && tree.prescriptions.some(isDamaged)) ||
  namesOfKind(tree, kind).some(({ value }) => value === UNREAD);

const isDamaged = (fact: Defect | Prescription) => fact.kind.value === UNREAD;

/** Persons and crews stand outside of the tree, where a newcomer does not look. */
const asIn = (kind: NamedKind, name: string): string =>
  kind === 'person' || kind === 'crew' ? `, as in: ${kind} ${name} "full name"` : '';

/** Names of which another one is another thing to cut, or to have cut: that is asked, and never put in. */
const OTHER_MEANING: ReadonlySet<NamedKind> = new Set(['defect', 'cause', 'part', 'prescription']);

/** Among more names than these some are always near, and none is meant more than another. */
const MOST_NAMES = 1000;

function reportOf(used: Named, known: readonly string[] | undefined): RuleReport | undefined {
  if (known === undefined) return undefined;
  const { kind, name, start, end } = used;
  const head = oneOf(headsDeclaring(kind));
  const near = known.length > MOST_NAMES ? undefined : nearest(name, known);
  const isMeant = near !== undefined && (!OTHER_MEANING.has(kind) || isSlip(name, near));
  const fix = isMeant ? asWritten(kind, near) : undefined;
  const where = kind === 'person' || kind === 'crew' ? '' : ' of this tree';
  return {
    at: { start, end },
    grade: 'stated',
    subject: name,
    message: `No ${head}${where} is named ${name}.${near === undefined ? '' : ` Did you mean ${near}?`}`,
    remedy:
      near === undefined
        ? `Add the ${head}${asIn(kind, name)}, or correct the name.`
        : isMeant
          ? `Write ${near}, or add the ${head}.`
          : `Add the ${head}, or correct the name to ${near} if that is meant.`,
    ...(fix === undefined ? {} : { fix }),
  };
}

function* checkWorkspace({ workspace }: WorkspaceContext): Iterable<PlacedReport> {
  const known = withoutUnread([...workspace.persons.keys()]);
  for (const { others } of workspace.files.values()) {
    for (const placed of others) {
      for (const used of namesUsed(placed.fact)) {
        const report = workspace.persons.has(used.name) ? undefined : reportOf(used, known);
        if (report) yield { ...report, in: placed };
      }
    }
  }
}

export const unknownReference: Rule = {
  name: 'unknown-reference',
  group: 'records',
  level: 'error',
  summary: 'a reference to a name that does not exist',
  sources: [],
  explanation:
    'Persons and crews are looked up in all files of the workspace; defects, prescriptions, stems, limbs and targets in their tree. The word trunk always means the main stem. The subject of a prescription, a follow-up or a risk may be a defect, a stem or a limb. A similar existing name is suggested. It is offered as a quick fix only where it could not be a different thing to cut.\n\nWhile the head of a person, a defect or another named item has an error, names of its kind are not reported, because the missing one may be there.',
  limitations:
    'Names of rules and limits, which unknown-rule and unknown-limit look up. Former tags of trees.',
  acceptable: false,
  examples: [
    {
      title: 'In a tree',
      text: `person RV "Ruth Varga"

tree 14
  inspection 2026-03-14 from ground
    by RW #! stated
  stem North
    from 9 ft
    union included bark, with South #! stated
  defect A cavity
    on North at 18 ft
  defect B decay
    on trunk at 3 ft
  defect C crack
    on Nroth at 20 ft #! stated
  joined A, D suspected #! stated
  target "Play lawn"
    distance 12 ft
  risk "Play lown" from A #! stated
  prescription R1 reduce
    for A, B
    by RV
  work R2 2026-04-02 #! stated
    by RV
`,
    },
    {
      title: 'Stems and limbs as the subject of work, a follow-up and a risk',
      text: `tree 15
  stem West
    union included bark
  target "Play lawn"
    distance 12 ft
  risk "Play lawn" from West
  prescription R1 reduce
    dose 10 %
    for West, trunk
  prescription R2 cable
    for Wset #! stated
  follow-up F1 climbing inspection
    of West, East #! stated
`,
    },
    {
      title: 'The members of a crew',
      text: `person RV "Ruth Varga"

crew ROPE "Rope crew"
  members RV, TL #! stated
`,
    },
  ],
  check,
  checkWorkspace,
};
