/** Texts that `--help` adds: first steps, examples and exit codes. */

/** Below the list of commands. */
export const OVERVIEW = `
Start here:
  soundwood init my-trees        a new inventory (--from for a table)
  soundwood check my-trees       its findings
  soundwood explain season-dose  the rule in brackets after a finding
  soundwood explain tree         the fields of a tree
  soundwood report my-trees --output report.html

An inventory is a folder of plain text files that end in .wood.
The earlier names begin (init) and tidy (fmt) are still accepted.
Exit codes: 0 clean, 1 findings at or above the severity, 2 error or incomplete.`;

/** Example command lines, by command. */
const EXAMPLES: Readonly<Record<string, readonly string[]>> = {
  init: [
    'soundwood init my-trees',
    'soundwood init my-trees --name "My garden" --region US-OR --units imperial --person "Ruth Varga"',
    'soundwood init my-trees --from trees.csv --name "My garden" --region GB --person "Ruth Varga"',
  ],
  import: [
    'soundwood import trees.csv --tag "Tree #" --output my-trees/trees.wood',
    'soundwood import trees.csv --show-mapping > mapping.json',
    'soundwood import trees.csv --mapping mapping.json --output my-trees/trees.wood',
    'soundwood import baeume.csv --encoding windows-1252 --crs EPSG:25833 --region DE-BE',
    'soundwood import my-trees/photos --into my-trees --by RV',
    'soundwood import my-trees/photos --into my-trees --answers answers.txt --yes',
  ],
  measure: [
    'soundwood measure photos/14-a.jpg --points 1200,840 1460,910 --from 20ft',
    'soundwood measure photos/14-a.jpg --points 1200,840 1460,910 --known 12in --known-points 900,400 900,1300',
    'soundwood measure photos/14-a.jpg --points 1200,840 1460,910 --from 20ft --tree 14 --defect A --field opening-width --write',
  ],
  check: [
    'soundwood check my-trees',
    'soundwood check my-trees --date 2026-06-01 --fail-on warning',
    'soundwood check my-trees --since main --format markdown --output review.md',
  ],
  gather: ['soundwood gather part-*.json --format sarif --output findings.sarif'],
  fix: [
    'soundwood fix my-trees',
    'soundwood fix my-trees --write',
    'soundwood fix my-trees --show-questions > answers.json',
    'soundwood fix my-trees --answers answers.json --write',
    'soundwood fix --from notes.txt --output my-trees/march.wood',
  ],
  fmt: ['soundwood fmt my-trees', 'soundwood fmt --check'],
  explain: [
    'soundwood explain season-dose',
    'soundwood explain prescription',
    'soundwood explain strength-loss --here my-trees',
    'soundwood explain --here my-trees',
  ],
  weigh: ['soundwood weigh 14 my-trees', 'soundwood weigh my-trees --format json'],
  history: [
    'soundwood history 14 my-trees',
    'soundwood history 14 my-trees --format svg --output tree-14.svg',
    'soundwood history 14 my-trees --git',
  ],
  compare: [
    'soundwood compare main',
    'soundwood compare last-year this-year --format markdown --output changes.md',
    'soundwood compare my-trees --since 2025-06-01',
  ],
  report: ['soundwood report my-trees --for client --output report.html'],
  export: [
    'soundwood export my-trees --format csv --output trees.csv',
    'soundwood export my-trees --format geojson --output trees.geojson',
  ],
  calendar: ['soundwood calendar my-trees --output trees.ics'],
};

/** Undefined for commands that only programs run. */
export function examplesOf(command: string): string | undefined {
  const examples = EXAMPLES[command];
  return examples && `\nExamples:\n${examples.map(example => `  ${example}`).join('\n')}`;
}
