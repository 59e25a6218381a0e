/** The table of limits, printed from the limits themselves. */

import { inUnit, plainNumber, unitOf } from '../base/quantity.ts';
import { limits } from '../practice/limits.ts';

const cell = (text: string) => text.replaceAll('|', '\\|').replaceAll('\n', ' ');

function shown(value: number, symbol: string): string {
  const unit = unitOf(symbol);
  return unit ? inUnit(value, unit, 2) : plainNumber(value, 3);
}

export function limitsTable(): string {
  const rows = limits.map(
    limit =>
      `| \`${limit.name}\` | ${limit.direction} ${shown(limit.value, limit.unit)} | ${cell(limit.summary)} | ${limit.rests} | ${cell(limit.citation.short)} | ${limit.confidence} |`,
  );
  return `# Limits

<!-- Printed from server/practice by \`npm run generate\`; edit the tables there. -->

A \`practice\` block overrides limits for its folder and below, and gives a reason:

\`\`\`wood
practice "Office limits"
  limit strength-loss 30 %
    because   "busy play area under most crowns"
\`\`\`

Every limit may be made stricter. One that rests on *law* or on *safety* is never loosened by a line of practice: the line
is refused, and what was in force stays in force. Where the law itself allows more, by a waiver or a condition of a permit,
that is written below the limit and counts up to its last day:

\`\`\`wood
practice "Tower hill"
  limit drone-height 500 ft
    because    "crown survey beside the water tower"
    authorized by "waiver 107W-2026-0123", until 2026-12-31
\`\`\`

One that rests on *practice* is the office's to set; where it lets more pass than without the line, a note tells.
Of two values in one folder the stricter counts.

\`soundwood explain --here PATH\` says which value applies at a place, and from where. *From memory* means that the
value was not read from its source again; *common practice* that no source is known.

| limit | value | what it limits | rests on | source | how sure |
| --- | --- | --- | --- | --- | --- |
${rows.join('\n')}
`;
}
