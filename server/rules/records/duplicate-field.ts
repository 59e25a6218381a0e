import type { Fact } from '../../facts/types.ts';
import { NOTHING, type PlacedReport, type Rule, type RuleReport, type WorkspaceContext } from '../rule.ts';

const reports = (fact: Fact): readonly RuleReport[] =>
  fact.repeated?.map(({ word, start, end, first }) => ({
    at: { start, end },
    grade: 'stated' as const,
    subject: word,
    message: `The field ${word} is repeated. The first one counts.`,
    remedy: 'Keep one of the two lines. Of readings from two dates, keep the current one.',
    related: [{ ...first, message: 'This one counts.' }],
  })) ?? NOTHING;

function* checkWorkspace({ workspace }: WorkspaceContext): Iterable<PlacedReport> {
  for (const { others } of workspace.files.values()) {
    for (const placed of others) for (const report of reports(placed.fact)) yield { ...report, in: placed };
  }
}

export const duplicateField: Rule = {
  name: 'duplicate-field',
  group: 'records',
  level: 'error',
  summary: 'a field that appears twice under one head',
  sources: [],
  explanation:
    'Most fields may appear only once under their head, since with two it would be unclear which applies. The first line is used and later ones are reported. Fields such as note, photo, found and formerly may be repeated.',
  limitations:
    'There are no exceptions. Earlier measurements belong in the history of the file, or in a note.',
  appliesTo: ['repeated fields'],
  acceptable: false,
  examples: [
    {
      title: 'Two heights',
      text: `tree 14
  height 52 ft
  dbh 41 in
  height 54 ft #! stated
  defect A cavity
    depth > 11 in
    depth 14 in #! stated
  defect B cavity
    depth unseen
`,
    },
    {
      title: 'Heads other than trees, and fields that may be repeated',
      text: `person RV "Ruth Varga"
  qualified consulting arborist
  qualified remote pilot #! stated
  certificate "remote pilot 4417", until 2027-05-31
  certificate "consulting arborist 882"

tree 15
  note "gate code from the office"
  note "dog in the garden"
`,
    },
  ],
  check: ({ tree }) => reports(tree),
  checkWorkspace,
};
