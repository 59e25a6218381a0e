/**
 * A search for faults: a few cases with every run of the tests, FUZZ_CASES of them on demand. A case that fails does
 * not end the search: the others are tried too, and at the end each fault is told once, with the smallest case found.
 */

import fc from 'fast-check';

const asked = process.env.FUZZ_CASES;

/** Whether a long run was requested. */
export const isLongRun = asked !== undefined;

/** Cases of each group: few in an ordinary run, a share of all in a long one. The shares make up the whole, at least. */
export const GROUPS = {
  'bytes are printed': { few: 500, share: 0.1 },
  'words in any order are printed': { few: 500, share: 0.25 },
  'spoilt samples are printed': { few: 200, share: 0.2 },
  'what the tables write is read': { few: 200, share: 0.15 },
  'edited files are read': { few: 200, share: 0.1 },
  'findings in any order': { few: 60, share: 0.08 },
  merges: { few: 200, share: 0.1 },
  'answers to editors': { few: 100, share: 0.02 },
  'tables become inventories': { few: 100, share: 0.02 },
  'inventories in parts': { few: 12, share: 0.01 },
  'inventories in every form': { few: 6, share: 0.002 },
  'inventories block by block': { few: 12, share: 0.01 },
} as const;

export type Group = keyof typeof GROUPS;

const casesOf = (group: Group): number => {
  const { few, share } = GROUPS[group];
  return asked === undefined ? few : Math.ceil(Number(asked) * share);
};

interface Fault {
  readonly error: Error;
  /** The smallest of the cases, as text. */
  readonly shown: string;
  readonly times: number;
}

interface Tried {
  readonly cases: number;
  readonly failed: number;
  readonly seconds: number;
}

const tried = new Map<Group, Tried>();

/** Tries every case of a group; throws at the end where some have failed. */
export async function search<Case>(
  group: Group,
  drawn: fc.Arbitrary<Case>,
  bears: (one: Case) => void | Promise<void>,
): Promise<void> {
  const faults = new Map<string, Fault>();
  let cases = 0;
  const start = performance.now();
  const property = fc.asyncProperty(drawn, async one => {
    cases++;
    try {
      await bears(one);
    } catch (thrown) {
      const error = thrown instanceof Error ? thrown : new Error(String(thrown));
      const known = faults.get(kindOf(error));
      const shown = fc.stringify(one);
      const smallest = known && known.shown.length <= shown.length ? known : { error, shown };
      faults.set(kindOf(error), { ...smallest, times: (known?.times ?? 0) + 1 });
    }
  });
  await fc.assert(property, { numRuns: casesOf(group), endOnFailure: true });
  const failed = [...faults.values()].reduce((sum, { times }) => sum + times, 0);
  tried.set(group, { cases, failed, seconds: (performance.now() - start) / 1000 });
  const [first] = faults.values();
  if (!first) return;
  throw new Error(
    [
      `${failed} of ${cases} cases failed, in ${faults.size} ${faults.size === 1 ? 'way' : 'ways'} (seed ${fc.readConfigureGlobal().seed}).`,
      ...[...faults.values()].map(({ error, shown, times }) => `${times} × ${error.stack}\nwith ${shown}`),
    ].join('\n\n'),
    { cause: first.error },
  );
}

/** Faults that come from the same place in our own text are one. */
const kindOf = ({ name, stack = '' }: Error): string =>
  `${name} ${/^ +at (?!.*node_modules).*$/m.exec(stack)?.[0] ?? stack}`;

/** What was tried, a line for each group. */
export function showTried(): string {
  const rows = [...tried].map(
    ([group, { cases, failed, seconds }]) =>
      `${group}: ${cases} cases, ${failed} failed, ${seconds.toFixed(1)} s`,
  );
  const all = [...tried.values()].reduce((sum, { cases }) => sum + cases, 0);
  return [...rows, `${all} cases in all`].join('\n');
}
