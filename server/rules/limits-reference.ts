/** The table of limits, printed from the limits themselves. */

import { inUnit, plainNumber, unitOf } from '../../grammar/quantity.ts';
import { limits } from '../practice/index.ts';

const cell = (text: string) => text.replaceAll('|', '\\|').replaceAll('\n', ' ');

function shown(value: number, symbol: string): string {
  const unit = unitOf(symbol);
  return unit ? inUnit(value, unit, 2) : plainNumber(value, 3);
}

export function limitsTable(): string {
  const rows = limits.map(
    limit =>
      `| \`${limit.name}\` | ${limit.direction} ${shown(limit.value, limit.unit)} | ${cell(limit.summary)} | ${cell(limit.citation.short)} | ${limit.confidence} |`,
  );
  return `# Limits

<!-- Printed from server/practice by \`npm run generate\`; edit the tables there. -->

Every limit can be overridden for a folder and below by a \`practice\` block that gives a reason:

\`\`\`wood
practice "Office limits"
  limit strength-loss 30 %
    because   "busy play area under most crowns"
\`\`\`

\`soundwood explain --here PATH\` says which value applies at a place, and from where. *From memory* means that the
value was not read from its source again; *common practice* that no source is known.

| limit | value | what it limits | source | how sure |
| --- | --- | --- | --- | --- |
${rows.join('\n')}
`;
}
