/** Generates grammar/NOTATION.md from the tables of heads and fields. */

import { type FieldSpec, HEADS, type HeadSpec, headsUnder } from '../../grammar/fields.ts';
import { UNITS, unitWords } from '../base/quantity.ts';

const INTRODUCTION = `# The notation

<!-- Generated from grammar/fields-top.ts, grammar/fields-tree.ts and server/base/quantity.ts by \`npm run generate\`; edit those files. -->

An inventory is one or more plain UTF-8 text files whose names end in \`.wood\`. Every line is one fact.

- **Heads and fields.** A line that begins with a head (\`site\`, \`person\`, \`crew\`, \`practice\`, \`tree\`, and inside a
  tree \`inspection\`, \`defect\`, \`prescription\` …) opens a block. Every other line is a field of the last head above
  it. Indentation has no meaning; \`soundwood fmt\` sets it.
- **Comments** run from \`#\` to the end of the line.
- **Texts** are in double quotation marks; a quotation mark inside is doubled: \`"the ""old"" oak"\`.
- **Names** (of tags, defects, prescriptions, persons) are yours to choose, without spaces: \`14\`, \`T-014\`, \`A\`, \`R1\`.
  Tags are unique within a site, persons and crews everywhere, all other names within their tree.
- **Every quantity has a unit**, metric or imperial, and the two may be mixed: \`5 ft 6 in\`, \`1.4 m\`. The decimal sign is
  a point.
- **Uncertainty is written down**:

  | you write | it means |
  | --- | --- |
  | \`26 in\` | measured |
  | \`~26 in\` | estimated; the limit \`estimate-margin\` sets the margin (10 % unless a practice block changes it) |
  | \`2..4 in\` | anything from 2 to 4 in |
  | \`> 11 in\` | at least 11 in, possibly much more |
  | \`< 2 in\` | at most 2 in, possibly nothing |
  | \`unseen\` | not examined: anything that is physically possible |

- **Dates** are written \`2026-03-14\`, periods \`2026-09-15..2026-11-30\`, and days of every year \`02-01..08-31\`.
- **Bearings** are one of the sixteen compass points (\`N\`, \`NNE\` …) or degrees clockwise from north (\`205 deg\`).
- **Species** are botanical names: \`Acer macrophyllum\`, \`Platanus × hispanica\` (or \`x\`), \`Acer rubrum 'October Glory'\`,
  or a genus alone.
- **Records are kept.** A later inspection or prescription does not erase an earlier one. A defect belongs to the last
  inspection above it, or to the one its \`seen\` line names.
- **The same name is the same thing, read again.** Below a later inspection \`defect A cavity\` is the next reading of A; so are
  stems, limbs, supports, joined cavities, targets, conductors and views. The newest reading counts; what it does not restate
  is carried over from the one before and shown with its day. Of another kind or on another part it is another thing and
  needs a name of its own. \`closed\`, \`removed\` and the states \`healed\` and \`gone\` end a thing; a later reading finds it there
  again. Size, crown, lean, soil, age, vigor, stress and dieback of a tree may stand in any inspection: the newest counts,
  and what the tree states without a day is older than all of them.
- **Work done changes the tree.** After \`work\` under a felling the tree is gone, after a reduction it has the sizes that the
  work or the prescription states, a limb to remove is gone, dead wood, hangers and loose bark that a
  \`clean\` is \`for\` are down, and a prescribed cable is there. \`unfinished\` keeps the
  prescription open with what is left.
- **A day** (\`--date\`) shows the record as it was then: what is dated later does not count.
- **An error affects only its own line.** It produces one message, and the rest is still read.

A complete inventory, in one file or split over several files of a folder:

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

In the forms below, \`<name:type>\` is a value, \`[…]\` is optional, \`{…}\` may be repeated, \`(… | …)\` is a choice, and any
other word is written as it is. Optional parts that begin with a comma may come in any order.
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

/** Returns the reference as Markdown. */
export function notationReference(): string {
  const units = UNITS.map(
    unit =>
      `| ${unitWords(unit)
        .map(word => `\`${word}\``)
        .join(', ')} | ${unit.name} | ${unit.dimension} |`,
  );
  const parts = [
    INTRODUCTION,
    '\n## Units\n\n| unit | name | quantity |\n| --- | --- | --- |\n',
    `${units.join('\n')}\n`,
    '\n## Top-level heads\n',
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
