/** The words of field notes: what a part of a phrase looks like. */

import { HEADS } from '../../grammar/fields.ts';
import { SAID } from '../../grammar/said.ts';

const wordsOf = (head: string, value: string): readonly string[] => {
  const leaf = HEADS.get(head)!.values.get(value);
  return leaf?.kind === 'choice' ? leaf.words : [];
};
const KINDS = wordsOf('defect', 'kind');
export const WORK = wordsOf('prescription', 'kind');
/** Keys of the questions about all of the notes. */
export const DAY = 'day of the inspection';
export const FROM = 'inspected from';
export const FROMS = wordsOf('inspection', 'from');

export const saidFor = (words: readonly string[]): readonly string[] =>
  SAID.filter(({ meant }) => meant.some(one => words.includes(one))).flatMap(({ said }) => said);

export const anyOf = (words: readonly string[]): string =>
  `(?:${[...new Set(words)]
    .sort((a, b) => b.length - a.length)
    .map(word => word.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&').replaceAll(' ', '[\\s-]+'))
    .join('|')})(?![\\p{L}-])`;

/** Words that alone say too little to be a defect: `old`, `hole` of a sentence. */
export const KIND = anyOf(
  [...KINDS, ...saidFor(KINDS)]
    .filter(word => word.length > 3 && !/^(?:hole|holes|split|scar|rotten|brackets?|dieback)$/.test(word))
    .concat('hole', 'split', 'scar', 'bracket', 'rot', 'cavities', 'cracks'),
);
/** Words of what may harm or be harmed, beside defects: a line with one is a mistake to be mended, never a comment. */
export const DANGER =
  '(?<![\\p{L}-])(?:cables?|cabled|braces?|braced|bracing|props?|guys?|guyed|bolts?|heav\\p{L}*|lift(?:ed|ing)|soil|stakes?|lines?|wires?|power|overhead|nest\\p{L}*|eggs?|bats?|roosts?|birds?|owls?|eagles?|roots?|rootplate|lean\\p{L}*|tilt\\p{L}*|unions?|forks?|limbs?|branch(?:es)?|hanging|hung|broke\\p{L}*|break\\p{L}*|fell|fallen|failed|failing|fails|damag\\p{L}*|storms?|hollow|soft|loose|mov(?:ed|es|ing)|dead|dying|gas|dug|digging|trench\\p{L}*|excavat\\p{L}*|child(?:ren)?|school|people|play\\p{L}*|traffic|urgent\\p{L}*|danger\\p{L}*|hazard\\p{L}*|unsafe|risks?|keep out|closed?)(?![\\p{L}-])';
export const NUM = '\\d+(?:\\.\\d+)?';
export const UNIT = '(?:in|ft|cm|mm|m)(?![\\p{L}])';
export const HEDGE =
  '(?:(?:about|abt|approx\\.?|approximately|around|roughly|maybe|over|under|at least|more than|less than|~|>|<)\\s*)?';
/** A length with its unit: an amount, a range, feet and inches. */
export const LENGTH = `${HEDGE}${NUM}(?:\\s*ft\\s+\\d{1,2}(?:\\.\\d+)?\\s*in(?![\\p{L}])|\\s*(?:${UNIT})?\\s*(?:to|-|–)\\s*${NUM}\\s*${UNIT}|\\s*${UNIT})(?:\\s*(?:\\+|or more)(?!\\d))?`;
export const POINT =
  '(?:[ns](?:[ns]?[ew])?|[ew](?:[ns][ew])?|(?:north|south|east|west)(?:[\\s-]?(?:north|south|east|west))*)(?![\\p{L}])';
export const UP = '(?:\\s*(?:up|high|above\\s+(?:the\\s+)?(?:ground|grade)|off\\s+the\\s+ground|agl))';
export const SIDE = `(?:on\\s+(?:the\\s+)?|facing\\s+)?(?:the\\s+)?(${POINT})(?:\\s*(?:side|face))?`;
export const PART = '(?:on\\s+(?:the\\s+)?)?(trunk|main\\s+stem|bole)';
/** How often people are at a target. */
export const USE =
  '(rare|rarely|occasional|occasionally|frequent|frequently|constant|constantly|daily|weekends?|every\\s+day|weekly|sometimes|always|seldom)';
