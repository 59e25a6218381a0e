/** Generates server/practice/REGIONS.md from the rows of law, guidance and custom. */

import { LAW_SUBJECTS, type LawRow } from '../practice/law/law-row.ts';
import { lawRows, ownRows } from '../practice/law/laws-of.ts';
import { REGION_NAMES } from '../practice/law/region-names.ts';
import { coverage, forceText, readingText } from '../show/law-text.ts';

const cell = (text: string) => text.replaceAll('|', '\\|').replaceAll('\n', ' ');
const line = (cells: readonly string[]) => `| ${cells.map(cell).join(' | ')} |`;

const REGIONS: readonly (readonly [code: string, name: string])[] = [
  ...Object.entries(REGION_NAMES),
  ['EU', 'European Union'],
];

const coverageLine = ([code, name]: readonly [string, string]): string => {
  const covered = new Map(coverage(ownRows(code)).map(({ subject, text }) => [subject, text]));
  return line([`${code} ${name}`, ...LAW_SUBJECTS.map(subject => covered.get(subject) ?? '–')]);
};

const rowLine = (row: LawRow): string =>
  line([row.subject, row.says, row.binds, forceText(row), row.source, readingText(row)]);

const section = (title: string, rows: readonly LawRow[]): string => `## ${title}

| subject | what | binds | force | source | what was read |
| --- | --- | --- | --- | --- | --- |
${rows.map(rowLine).join('\n')}
`;

export const regionsPage = (): string => `# Regions

<!-- Generated from server/practice/law by \`npm run generate\`; edit the rows there. -->

${lawRows.length} rows of law, guidance and custom for ${Object.keys(REGION_NAMES).length} regions, which a site names by its code: \`region US-OR\`. Rules read the rows of the
region and of the country around it; where both speak of one subject, the narrower decides. The law of one country is
never applied in another. Nothing here is legal advice: local orders and permits come on top, and what is *from memory* was
not checked against its source.

\`soundwood explain --here PATH\` shows the rows for the site of a folder, \`soundwood explain --regions\` what is covered.

## Coverage

Force and certainty of the surest row that a region has itself; states also have the rows of their country, members those of
the European Union.

${line(['region', ...LAW_SUBJECTS])}
${line(['---', ...LAW_SUBJECTS.map(() => '---')])}
${REGIONS.map(coverageLine).join('\n')}

${section(
  'Everywhere',
  lawRows.filter(({ region }) => region.includes('everywhere')),
)}
${REGIONS.map(([code, name]) => section(`${code} ${name}`, ownRows(code))).join('\n')}`;
