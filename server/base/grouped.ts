/** The values of a list by a key, keys and values in the order in which they come. */
export function grouped<Value, Key>(
  all: Iterable<Value>,
  keyOf: (value: Value) => Key,
): ReadonlyMap<Key, readonly Value[]> {
  const groups = new Map<Key, Value[]>();
  for (const one of all) {
    const key = keyOf(one);
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  return groups;
}
