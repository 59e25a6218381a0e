/** Whether what is typed begins a name: any of its words, in any order and case. */

const fold = (text: string): string => text.toLowerCase().replace(/(?<=^|\s)x(?=\s|$)/g, '×');

const wordsOf = (name: string): readonly string[] => name.split(/[\s/-]+/).filter(word => word !== '');

export const beginsWith = (name: string, typed: string): boolean => fold(name).startsWith(fold(typed));

/**
 * The text by which an editor finds the name: it begins with what is typed, because some editors compare nothing but
 * the beginning. Undefined if the name does not match.
 */
export function filterText(names: readonly string[], typed: string): string | undefined {
  const begun = names.find(name => beginsWith(name, typed));
  if (begun !== undefined) return typed + begun.slice(typed.length);
  const wanted = wordsOf(fold(typed));
  if (wanted.length === 0) return undefined;
  for (const name of names) {
    const left = [...wordsOf(name)];
    const taken = wanted.map(word => {
      const at = left.findIndex(one => fold(one).startsWith(word));
      return at < 0 ? undefined : left.splice(at, 1)[0]!;
    });
    if (taken.some(word => word === undefined)) continue;
    return typed + [...taken, ...left].join(' ').slice(typed.length);
  }
  return undefined;
}
