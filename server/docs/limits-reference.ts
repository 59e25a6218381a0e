/** Generates server/practice/LIMITS.md from the limits. */

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

<!-- Generated from server/practice by \`npm run generate\`; edit the tables there. -->

A \`practice\` block changes limits for its folder and subfolders, each with a reason:

\`\`\`wood
practice "Office limits"
  limit strength-loss 30 %
    because   "busy play area under most crowns"
\`\`\`

Every limit may be made stricter. A limit based on *law* or *safety* cannot be loosened: such a line is refused, and the
earlier value stays in force. If the law itself allows more, by a waiver or a condition of a permit, record that below the
limit; it applies until its end date:

\`\`\`wood
practice "Tower hill"
  limit drone-height 500 ft
    because    "crown survey beside the water tower"
    authorized by "waiver 107W-2026-0123", until 2026-12-31
\`\`\`

A limit based on *practice* is for the office to set; a looser value produces a note. If one folder has two values for a
limit, the stricter applies.

\`soundwood explain --here PATH\` shows which value applies to a folder and where it comes from. *From memory* means that the
value has not been checked against its source; *common practice*, that no source is known.

| limit | value | what it limits | based on | source | confidence |
| --- | --- | --- | --- | --- | --- |
${rows.join('\n')}
`;
}
