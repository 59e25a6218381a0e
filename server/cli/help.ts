/** Texts that `--help` adds: first steps, examples and exit codes. */

/** Below the list of commands. */
export const BEGIN_HERE = `
Start here:
  soundwood begin my-trees       a new inventory (--from for a table)
  soundwood check my-trees       its findings
  soundwood explain season-dose  the rule in brackets after a finding
  soundwood explain tree         the fields of a tree
  soundwood report my-trees --to report.html

An inventory is a folder of plain text files that end in .wood.
Exit codes: 0 clean, 1 findings at or above the severity, 2 error or incomplete.`;

/** Example command lines, by command. */
const EXAMPLES: Readonly<Record<string, readonly string[]>> = {
  begin: [
    'soundwood begin my-trees',
    'soundwood begin my-trees --name "My garden" --region US-OR --units imperial --person "Ruth Varga"',
    'soundwood begin my-trees --from trees.csv --name "My garden" --region GB --person "Ruth Varga"',
  ],
  import: [
    'soundwood import trees.csv --tag "Tree #" --to my-trees/trees.wood',
    'soundwood import trees.csv --show-mapping > mapping.json',
    'soundwood import trees.csv --mapping mapping.json --to my-trees/trees.wood',
  ],
  check: [
    'soundwood check my-trees',
    'soundwood check my-trees --on 2026-06-01 --reject warning',
    'soundwood check my-trees --since main --as markdown --to review.md',
  ],
  gather: ['soundwood gather part-*.json --as sarif --to findings.sarif'],
  tidy: ['soundwood tidy my-trees', 'soundwood tidy --check'],
  explain: [
    'soundwood explain season-dose',
    'soundwood explain prescription',
    'soundwood explain strength-loss --here my-trees',
    'soundwood explain --here my-trees',
  ],
  weigh: ['soundwood weigh 14 my-trees', 'soundwood weigh my-trees --as json'],
  compare: ['soundwood compare main', 'soundwood compare last-year this-year --as markdown --to changes.md'],
  report: ['soundwood report my-trees --for client --to report.html'],
  export: [
    'soundwood export my-trees --as csv --to trees.csv',
    'soundwood export my-trees --as geojson --to trees.geojson',
  ],
  calendar: ['soundwood calendar my-trees --to trees.ics'],
};

/** Undefined for commands that only programs run. */
export function examplesOf(command: string): string | undefined {
  const examples = EXAMPLES[command];
  return examples && `\nExamples:\n${examples.map(example => `  ${example}`).join('\n')}`;
}
