/** How many cases a search for faults tries: a few with every run of the tests, FUZZ_CASES of them on demand. */

const asked = process.env.FUZZ_CASES;

/** A long run was asked for; only then is time taken, on a machine that has nothing else to do. */
export const isLongRun = asked !== undefined;

/**
 * @param few cases of an ordinary run
 * @param share of all cases in a long run
 */
export const cases = (few: number, share: number): number =>
  asked === undefined ? few : Math.ceil(Number(asked) * share);
