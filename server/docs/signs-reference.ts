/** Generates server/rules/SIGNS.md from the table of signs: kind of sign → part of the tree → what judges it. */

import { SIGN_KINDS, type SignKind } from '../assess/sign-kinds.ts';

const NAMES: Partial<Record<SignKind, string>> = {
  lean: 'lean of the tree',
  soil: 'soil at the collar',
  vigor: 'vigor: dead',
  union: 'union of a stem or limb',
  'stem lean': 'lean of a stem',
  dieback: 'dieback of the crown',
  joined: 'cavities that are, or may be, connected',
};

export function signsTable(): string {
  const rows = (Object.entries(SIGN_KINDS) as [SignKind, (typeof SIGN_KINDS)[SignKind]][]).map(
    ([kind, { part, onLimb, words, limits }]) =>
      `| ${NAMES[kind] ?? kind} | ${part}${onLimb ? ', or limb' : ''} | ${words} | ${limits.map(name => `\`${name}\``).join(', ') || '–'} |`,
  );
  return `# Signs

<!-- Generated from server/assess/sign-kinds.ts by \`npm run generate\`; edit the table there. -->

Every record that bears on safety is a sign at a part of the tree. A sign is *within* the strictest limit that applies, *may
exceed* it, *exceeds* it, is *moving* (failing now), or is *not judged*: recorded, but no figure exists for it or a
measurement is missing. Not judged is not a pass. The verdict on a tree is that of its most serious sign.

| sign | part of the tree | what judges it | limits |
| --- | --- | --- | --- |
${rows.join('\n')}

A fruiting body of a root-rot or butt-rot fungus (server/practice/fungi.ts) is a sign at the roots and ground. Any defect
whose share of the circumference is stated is also checked against that limit. A crack or union that is increasing is
*moving*; no increasing sign is ever *within*.

## What answers a sign

| part | answered by |
| --- | --- |
| roots and ground | felling; guying; a planned root inspection, pull test or tomogram; not pruning |
| stem | a reduction after which the hollow is within the limit \`stress-ratio\`; a cable, a brace, a prop or guying; removal of the stem; felling; a planned tomogram, resistance drilling, probing or climbing inspection |
| union | a cable, a brace, a prop, guying, a reduction or removal of the stem; felling; a planned climbing inspection, tomogram, pull test or probing |
| limb | its removal or reduction, cleaning, a cable or a prop; felling |
| whole tree | felling; a monolith (habitat snag) of a stated height |
| any part, unless the sign is moving | a prescription to keep or watch the tree, with a reason and a date for the next inspection, and a rating of low or moderate by a qualified person for every target in reach; or moving the targets |

The answer is in time if its last day is within the time that rating and priority allow. Until then, closing the target (\`closed\`,
with a date and a named person) bridges the time.
`;
}
