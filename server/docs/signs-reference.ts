/** The table of signs, printed from the table itself: kind of sign → part of the tree → what judges it. */

import { SIGN_KINDS, type SignKind } from '../assess/sign-kinds.ts';

const NAMES: Partial<Record<SignKind, string>> = {
  lean: 'lean of the tree',
  soil: 'soil at the collar',
  vigor: 'vigor: dead',
  union: 'union of a stem or limb',
  'stem lean': 'lean of a stem',
  joined: 'cavities that are, or may be, one inside',
};

export function signsTable(): string {
  const rows = (Object.entries(SIGN_KINDS) as [SignKind, (typeof SIGN_KINDS)[SignKind]][]).map(
    ([kind, { part, onLimb, words, limits }]) =>
      `| ${NAMES[kind] ?? kind} | ${part}${onLimb ? ', or limb' : ''} | ${words} | ${limits.map(name => `\`${name}\``).join(', ') || '–'} |`,
  );
  return `# Signs

<!-- Printed from server/assess/sign-kinds.ts by \`npm run generate\`; edit the table there. -->

Every record that says something about safety is a sign at a part of the tree. It stands *within* the strictest limit that
applies, it *may exceed* it, it *exceeds* it, it is *moving* (failing now), or it is *not judged*: recorded, but no figure
exists for it, or a reading is missing. Not judged is no pass. The standing of a tree is that of its gravest sign.

| sign | part of the tree | what judges it | limits |
| --- | --- | --- | --- |
${rows.join('\n')}

A fruiting body of a fungus that rots roots or butt (server/practice/fungi.ts) counts to roots and ground. Any defect whose
share of the circumference is stated is held against that mark as well. What increases is *moving* where it is a crack or a
union, and is never *within*.

## What answers a sign

| part | answered by |
| --- | --- |
| roots and ground | felling; guying; a root inspection, a pull test or a tomogram that is planned. Not by pruning |
| stem | a reduction after which the hollow keeps to the limit \`stress-ratio\`; a cable, a brace, a prop or guying; removal of the stem; felling; a look that measures it |
| union | a cable, a brace, a prop, guying, a reduction or removal of the stem; felling; a look from above |
| limb | its removal or reduction, cleaning, a cable or a prop; felling |
| whole tree | felling, a standing stem of a stated height |
| any, but for what moves | to keep or watch it with a reason, a day of the next look, and a rating of low or moderate by a qualified person for every target in reach, or with the targets moved |

It comes in time where its last day lies before the time that rating and priority allow. Until then a target that is
\`closed\` from a day on, by a named person, bridges the time.
`;
}
