/** The reference of the notation, printed from the tables. */

import { type FieldSpec, HEADS, type HeadSpec, headsUnder } from '../../grammar/fields.ts';
import { UNITS, unitWords } from '../base/quantity.ts';

const INTRODUCTION = `# The notation

<!-- Printed from grammar/fields-top.ts, fields-tree.ts and quantity.ts by \`npm run generate\`; edit those. -->

A file ends in \`.wood\` and is plain UTF-8 text. It is a list of lines, and every line is one fact.

- **Heads and fields.** A line that begins with a head (\`site\`, \`person\`, \`crew\`, \`practice\`, \`tree\`, and inside a
  tree \`inspection\`, \`defect\`, \`prescription\` …) opens a block. Every other line belongs to the last head above
  it. Indentation means nothing; \`soundwood tidy\` sets it.
- **Comments** run from \`#\` to the end of the line.
- **Texts** stand between quotation marks; a quotation mark inside is written twice: \`"the ""old"" oak"\`.
- **Names** (tags, defects, prescriptions, persons) are your own, without spaces: \`14\`, \`T-014\`, \`A\`, \`R1\`.
  Tags are unique in their site, other names in their tree, persons and crews everywhere.
- **Every quantity has a unit**, metric or imperial as you like, also mixed: \`5 ft 6 in\`, \`1.4 m\`. The decimal sign
  is a point.
- **Uncertainty is written**:

  | you write | it means |
  | --- | --- |
  | \`26 in\` | measured |
  | \`~26 in\` | estimated; the margin is the limit \`estimate-margin\` (10 % unless a practice block says otherwise) |
  | \`2..4 in\` | anything from 2 to 4 in |
  | \`> 11 in\` | at least 11 in, perhaps much more |
  | \`< 2 in\` | at most 2 in, perhaps nothing |
  | \`unseen\` | not looked at: everything that is physically possible |

- **Dates** are \`2026-03-14\`, windows \`2026-09-15..2026-11-30\`, days of any year \`02-01..08-31\`.
- **Bearings** are compass points of sixteen (\`N\`, \`NNE\` …) or degrees clockwise from north (\`205 deg\`).
- **Species** are botanical names: \`Acer macrophyllum\`, \`Platanus × hispanica\` (\`x\` will do), \`Acer rubrum
  'October Glory'\`, or a genus alone.
- **Records stay.** A later inspection or prescription does not erase an earlier one. A defect belongs to the last
  inspection above it, or to the one that its \`seen\` line names.
- **A bad line costs one line.** It gets one message; everything else is understood.

A whole inventory, in one file or in several of one folder:

\`\`\`wood
site "Fernhollow Court"
  region      US-OR

person RV "Ruth Varga"
  qualified   consulting arborist

tree 14 "Lawn maple"
  species     Acer macrophyllum
  dbh         41 in
  height      ~52 ft
  crown       from 14 ft, 58 ft wide
  age         mature
  vigor       fair

  inspection 2026-03-14 from ground
    by        RV
    level     basic

  defect A cavity
    on        trunk at 6 ft, facing SW
    diameter  40 in
    wall      6..8 in at SW

  prescription R1 reduce
    height    52 ft to 48 ft
    dose      10 %
    between   2026-09-15..2026-11-30
    for       A
    by        RV
    because   "lighten the load on the cavity"

tree 15  # a tag is enough to begin with
  species     Quercus
\`\`\`

How to read the forms below: words stand for themselves, \`<…>\` is a value, \`[…]\` may be left out, \`{…}\` may be
repeated, \`( | )\` is a choice. Parts that begin with a comma may come in any order.
`;

const escapePipes = (text: string) => text.replaceAll('|', '\\|');

function formOf(spec: FieldSpec): string {
  return `${spec.word} ${spec.shown}`.trim();
}

function fieldTable(head: HeadSpec): string {
  const rows = [...head.fields.values()].map(
    field =>
      `| \`${escapePipes(formOf(field))}\` | ${escapePipes(field.summary)}${field.many ? ' May be repeated.' : ''} | \`${escapePipes(field.example)}\` |`,
  );
  return rows.length === 0
    ? ''
    : ['', '| field | meaning | example |', '| --- | --- | --- |', ...rows, ''].join('\n');
}

function headSection(head: HeadSpec, level: number): string {
  return `
${'#'.repeat(level)} ${head.word}

\`${formOf(head)}\`

${head.summary} For example: \`${head.example}\`
${fieldTable(head)}`;
}

/** The whole reference as Markdown. */
export function notationReference(): string {
  const units = UNITS.map(
    unit =>
      `| ${unitWords(unit)
        .map(word => `\`${word}\``)
        .join(', ')} | ${unit.name} | ${unit.dimension} |`,
  );
  const parts = [
    INTRODUCTION,
    '\n## Units\n\n| unit | name | of |\n| --- | --- | --- |\n',
    `${units.join('\n')}\n`,
    '\n## Heads of a file\n',
    ...headsUnder(undefined).map(head => headSection(head, 3)),
    ...[...new Set([...HEADS.values()].map(head => head.under))]
      .filter(parent => parent !== undefined)
      .flatMap(parent => [
        `\n## Heads inside a ${parent}\n`,
        ...headsUnder(parent).map(head => headSection(head, 3)),
      ]),
  ];
  return parts.join('').replace(/\n{3,}/g, '\n\n');
}
