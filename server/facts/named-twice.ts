/** Which tags are named more than once, among a million, at the cost of a number for each. */

/** The tags of a part of a site. */
export interface TagsOf {
  readonly tags: readonly string[];
  /** Tags that its trees had formerly. */
  readonly formerly: readonly string[];
}

/**
 * The tags of one site that two trees have, or that one has and one had formerly. Tags are told apart by a number
 * of 53 bits made of each; should two have the same one, both are among the result without cause.
 * @param parts asked for several times, and never all at once
 * @param count of all tags
 */
export function namedTwice(parts: () => Iterable<TagsOf>, count: number): ReadonlySet<string> {
  const numbers = new Float64Array(count);
  const former: number[] = [];
  let filled = 0;
  for (const { tags, formerly } of parts()) {
    for (const tag of tags) numbers[filled++] = numberOf(tag);
    for (const tag of formerly) former.push(numberOf(tag));
  }
  numbers.sort();
  const repeated = new Set<number>();
  for (let i = 1; i < filled; i++) if (numbers[i] === numbers[i - 1]) repeated.add(numbers[i]!);
  for (const number of former) if (holds(numbers, number)) repeated.add(number);
  const named = new Set<string>();
  if (repeated.size === 0) return named;
  for (const { tags } of parts()) for (const tag of tags) if (repeated.has(numberOf(tag))) named.add(tag);
  return named;
}

function holds(sorted: Float64Array, number: number): boolean {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! < number) low = middle + 1;
    else high = middle;
  }
  return sorted[low] === number;
}

/** Two running products over the letters, by different odd factors, put together to 53 bits. */
function numberOf(tag: string): number {
  let a = 0x811c9dc5;
  let b = 0x9747b28c;
  for (let i = 0; i < tag.length; i++) {
    const code = tag.charCodeAt(i);
    a = Math.imul(a ^ code, 0x01000193);
    b = Math.imul(b ^ code, 0x85ebca6b);
    b ^= b >>> 13;
  }
  return (a >>> 0) * 0x200000 + (b >>> 11);
}
