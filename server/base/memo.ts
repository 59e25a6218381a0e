/**
 * Memoization keyed by the identity of immutable objects. Everything that is remembered between two calls is remembered
 * here, weakly: a result goes with the object that it was computed from.
 */

export interface Memoized<Args extends readonly unknown[], Result> {
  (...args: Args): Result;
  /** Whether the result is known. */
  has(...args: Args): boolean;
}

/** What was remembered of objects, by function. */
const remembered: WeakMap<object, unknown>[] = [];

/** Drops what was computed from an object that lives on but is not looked at again soon. */
export function forget(object: object): void {
  for (const results of remembered) results.delete(object);
}

/**
 * The function, with its last result kept for each first argument as long as that object lives. Only the last one: on
 * another day or under other settings the former results are not needed again.
 * @param keysOf what the result depends on besides the first argument; by default the other arguments
 */
export function memo<Args extends readonly [object, ...unknown[]], Result>(
  compute: (...args: Args) => Result,
  keysOf: (...args: Args) => readonly unknown[] = (...args) => args.slice(1),
): Memoized<Args, Result> {
  const last = new WeakMap<object, { readonly keys: readonly unknown[]; readonly result: Result }>();
  remembered.push(last);
  const known = (object: object, keys: readonly unknown[]) => {
    const entry = last.get(object);
    if (entry === undefined) return undefined;
    for (let i = 0; i < keys.length; i++) if (entry.keys[i] !== keys[i]) return undefined;
    return entry;
  };
  const memoized = (...args: Args): Result => {
    const keys = keysOf(...args);
    const entry = known(args[0], keys);
    if (entry) return entry.result;
    const result = compute(...args);
    last.set(args[0], { keys, result });
    return result;
  };
  return Object.assign(memoized, {
    has: (...args: Args) => known(args[0], keysOf(...args)) !== undefined,
  });
}

/** The function, with the result for its latest argument kept: for results that are large and wanted several times in a row. */
export function memoLatest<Argument, Result>(
  compute: (argument: Argument) => Result,
): (argument: Argument) => Result {
  let latest: { readonly argument: Argument; readonly result: Result } | undefined;
  return argument => {
    if (latest?.argument !== argument) latest = { argument, result: compute(argument) };
    return latest.result;
  };
}

/** The value in a table, computed where it is not there yet; tables that go with an object are results of `memo`. */
export function inTable<Key, Value>(table: Map<Key, Value>, key: Key, compute: () => Value): Value {
  if (!table.has(key)) table.set(key, compute());
  return table.get(key) as Value;
}
