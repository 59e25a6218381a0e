/** Generates server/fix/HABITS.md from the tables of habits, words of the trade and common names. */

import { HABITS } from '../../grammar/habits.ts';
import { FIRST_WORDS, SAID } from '../../grammar/said.ts';
import { commonNames } from '../practice/common-names.ts';
import { DATE_ORDERS } from '../practice/date-orders.ts';

const cell = (text: string) => text.replaceAll('|', '\\|');
const code = (text: string) => `\`${cell(text)}\``;
const anyOf = (words: readonly string[]) => words.map(code).join(' or ');
const list = (words: readonly string[]) => words.map(cell).join(', ');

export function habitsPage(): string {
  const habits = HABITS.flatMap(({ name, examples, not }) =>
    examples.map(
      ({ below, written, meant }, i) =>
        `| ${i === 0 ? name : ''} | ${below === undefined ? '' : code(below)} | ${code(written)} | ${anyOf([meant].flat())} | ${i === 0 ? not.map(code).join(', ') : ''} |`,
    ),
  );
  const words = SAID.map(({ said, meant }) => `| ${list(said)} | ${anyOf(meant)} |`);
  const first = FIRST_WORDS.map(
    ({ below, said, meant }) => `| ${list(below)} | ${list(said)} | ${anyOf(meant)} |`,
  );
  const names = commonNames.map(
    ({ said, meant, within = {} }) =>
      `| ${list(said)} | ${meant.join(' or ')} | ${Object.entries(within)
        .map(([country, trees]) => `${country}: ${trees.join(' or ')}`)
        .join('; ')} |`,
  );
  const orders = Object.entries(DATE_ORDERS).map(
    ([order, countries]) => `| ${order} | ${countries.join(', ')} |`,
  );
  return `# Habits

<!-- Generated from grammar/habits.ts, grammar/said.ts and server/practice by \`npm run generate\`; edit the tables there. -->

Common habits of writing, and the notation for them. \`soundwood fix\`, the quick fixes of the editor and its "fix
all" use these tables. What has one meaning is rewritten. Where there are several, the writer is asked, and nothing is
rewritten before the answer. A line is rewritten only if it has a mistake and reads without it afterwards.

## Ways of writing

| habit | below | written | means | looks similar, but is not rewritten |
| --- | --- | --- | --- | --- |
${habits.join('\n')}

Words of the notation may be written in capitals: \`DBH\`, \`Defect\`, \`TREE\`.

## Words of the trade

Each counts only where the notation can have one of its words.

| said | means |
| --- | --- |
${words.join('\n')}

## First words of a line

| below | said | means |
| --- | --- | --- |
${first.join('\n')}

## Trees, birds and fungi by what people call them

Beside the common names of the tables of species, genera and birds. From memory. The name that was written stays as a comment.

| said | means | in these countries |
| --- | --- | --- |
${names.join('\n')}

## Days with slashes

A day that reads in one order only, such as 3/16/26, has one meaning. Any other is read in the order of the place, by the
country of the site, if another day of the same file bears that order out and none speaks against it. Otherwise the order is
asked, once for the file. The orders are from memory; a country that is not listed has none.

| order | countries |
| --- | --- |
${orders.join('\n')}
`;
}
